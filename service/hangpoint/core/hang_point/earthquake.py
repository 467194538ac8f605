"""Earthquake in the chain: where its share is large, and what the stated option of 17.10 asks for."""

from dataclasses import dataclass, field

import numpy as np

from hangpoint.core.aci318_19.check import Checked
from hangpoint.core.aci318_19.seismic import (
    ductile_steel_findings,
    ductile_steel_option,
    earthquake_governs,
    other_option_findings,
)
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.points import DUCTILE_STEEL, NON_YIELDING, OVERSTRENGTH, YIELDING, Points
from hangpoint.core.hang_point.verdict import NONE, Section
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools
from hangpoint.core.vocabulary import Link


@dataclass(frozen=True, kw_only=True)
class Shaken:
    """(points,) whether earthquake is more than 20 % of the tension, and of the shear, of any of its load cases."""

    tension: Bools
    shear: Bools


@dataclass(frozen=True, kw_only=True)
class EarthquakeFindings:
    """Findings over all points, and the record of option (a) where it was asked for."""

    findings: list[FindingColumn] = field(default_factory=list[FindingColumn])
    sections: list[Section] = field(default_factory=list[Section])


def shares(*, points: Points, axis: CaseAxis, demand: AnchorDemand, shear: AnchorShear) -> Shaken:
    """Where 17.10.5.3 and 17.10.6.3 apply: seismic design categories C to F, more than 20 % earthquake.

    Args:
        points: the batch.
        axis: its cases; ``demand`` and ``shear`` have a row a case.
    """
    category = points.bases.category[axis.point_of_case]
    tension = earthquake_governs(category=category, n_ua=demand.n_ua, n_ua_e=demand.n_ua_e)
    sheared = earthquake_governs(category=category, n_ua=shear.v_ua, n_ua_e=shear.v_ua_e)
    return Shaken(tension=_any(axis, tension), shear=_any(axis, sheared))


def earthquake_findings(
    *, points: Points, axis: CaseAxis, anchor: Checked, demand: AnchorDemand, shear: AnchorShear
) -> EarthquakeFindings:
    """What the stated options demand of the points that are checked.

    Args:
        points: the batch.
        axis: the cases that were checked; ``anchor``, ``demand`` and ``shear`` have a row a case.
    """
    shaken = shares(points=points, axis=axis, demand=demand, shear=shear)
    if not (shaken.tension.any() or shaken.shear.any()):
        return EarthquakeFindings()
    fixing = points.fixings
    by_tension = np.where(shaken.tension, fixing.tension_option, NONE)
    by_shear = np.where(shaken.shear, fixing.shear_option, NONE)
    attachment = np.isin(by_tension, (YIELDING, NON_YIELDING)) | np.isin(by_shear, (YIELDING, NON_YIELDING))
    overstrength = (by_tension == OVERSTRENGTH) | (by_shear == OVERSTRENGTH)
    ductile = _ductile(points, axis, anchor, by_tension == DUCTILE_STEEL)
    return EarthquakeFindings(
        findings=[*ductile.findings, *other_option_findings(attachment=attachment, overstrength=overstrength)],
        sections=ductile.sections,
    )


def _ductile(points: Points, axis: CaseAxis, anchor: Checked, asked: Bools) -> EarthquakeFindings:
    """Option (a). The nominal strengths of a point are those of any of its cases."""
    if not asked.any():
        return EarthquakeFindings()
    at, first = axis.points, axis.starts
    product, fixing = points.products, points.fixings
    option = ductile_steel_option(
        n_sa=anchor.steel.n_sa[first],
        n_concrete=anchor.n_concrete[first],
        d_a=product.d_a[at],
        l_stretch=fixing.stretch_length[at],
        ductile=product.ductile[at],
        f_uta_specified=product.f_uta[at],
        f_ya=product.f_ya[at],
        upset_threads=fixing.upset_threads[at],
    )
    row = np.where(asked, axis.places(np.arange(len(at))), NONE)
    return EarthquakeFindings(
        findings=[_over_points(axis, column) for column in ductile_steel_findings(option=option, asked=asked[at])],
        sections=[Section(record=option, row=row, link=Link.ANCHOR)],
    )


def _over_points(axis: CaseAxis, column: FindingColumn) -> FindingColumn:
    return FindingColumn(
        finding=column.finding,
        holds=axis.places(column.holds.astype(np.intp)) == 1,
        value=axis.over_points(column.value),
        limit=axis.over_points(column.limit),
    )


def _any(axis: CaseAxis, holds: Bools) -> Bools:
    """(points,) where it holds in any case."""
    found = np.zeros(axis.count, dtype=np.bool_)
    found[axis.point_of_case[holds]] = True
    return found
