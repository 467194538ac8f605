"""Earthquake in the chain: where its share is large, and what the stated option of 17.10 asks for."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.aci318_19.check import Checked
from hangpoint.core.aci318_19.seismic import (
    SEISMIC_FROM,
    ductile_steel_findings,
    ductile_steel_option,
    earthquake_governs,
    other_option_findings,
)
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.points import DUCTILE_STEEL, NON_YIELDING, OVERSTRENGTH, YIELDING, Points
from hangpoint.core.hang_point.verdict import NONE, Section
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Link


@frozen
class Shaken:
    """(points,) whether earthquake is more than 20 % of the tension, and of the shear, of any of its load cases."""

    tension: Bools
    shear: Bools


@frozen
class EarthquakeFindings:
    """Findings over all points, and the record of option (a) where it was asked for."""

    findings: Sequence[FindingColumn] = ()
    sections: Sequence[Section] = ()


def shares(*, points: Points, axis: CaseAxis, load: Distribution) -> Shaken:
    """Where 17.10.5.3 and 17.10.6.3 apply: seismic design categories C to F, more than 20 % earthquake.

    Args:
        points: the batch.
        axis: its cases; ``load`` has a row a case.
    """
    if not some(points.bases.category >= SEISMIC_FROM):
        never = np.zeros(points.count, dtype=np.bool_)
        return Shaken(tension=never, shear=never)
    category = points.bases.category[axis.point_of_case]
    tension = earthquake_governs(category=category, n_ua=load.n_total, n_ua_e=load.n_earthquake)
    sheared = earthquake_governs(category=category, n_ua=load.v_total, n_ua_e=load.v_earthquake)
    return Shaken(tension=axis.any(tension), shear=axis.any(sheared))


def earthquake_findings(*, points: Points, axis: CaseAxis, anchor: Checked, shaken: Shaken) -> EarthquakeFindings:
    """What the stated options demand of the points that are checked.

    Args:
        points: the batch.
        axis: the cases that were checked; ``anchor`` has a row a case.
        shaken: of `shares`; that of points which aren't checked doesn't matter.
    """
    if not (some(shaken.tension) or some(shaken.shear)):
        return EarthquakeFindings()
    fixing, own = points.fixings, np.zeros(points.count, dtype=np.bool_)
    own[axis.points] = True
    by_tension = np.where(shaken.tension & own, fixing.tension_option, NONE)
    by_shear = np.where(shaken.shear & own, fixing.shear_option, NONE)
    attachment = np.isin(by_tension, (YIELDING, NON_YIELDING)) | np.isin(by_shear, (YIELDING, NON_YIELDING))
    overstrength = (by_tension == OVERSTRENGTH) | (by_shear == OVERSTRENGTH)
    ductile = _ductile(points, axis, anchor, by_tension == DUCTILE_STEEL)
    return EarthquakeFindings(
        findings=[*ductile.findings, *other_option_findings(attachment=attachment, overstrength=overstrength)],
        sections=ductile.sections,
    )


def _ductile(points: Points, axis: CaseAxis, anchor: Checked, asked: Bools) -> EarthquakeFindings:
    """Option (a). Of the cases of a point that with the least strength of the concrete for an anchor counts."""
    if not some(asked):
        return EarthquakeFindings()
    at = axis.points
    n_concrete = anchor.n_concrete
    _, first = axis.worst(-n_concrete)
    product, fixing = points.products, points.fixings
    option = ductile_steel_option(
        n_sa=anchor.steel.n_sa[first],
        n_concrete=n_concrete[first],
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
