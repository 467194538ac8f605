"""The rod of each point by its named rule. Units: in, psi, lbf."""

import numpy as np

from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.points import NO_ROD, Basis, Points
from hangpoint.core.hang_point.verdict import (
    PointMode,
    absent_mode,
    point_modes,
    service_mode,
    utilisation_by_case,
)
from hangpoint.core.hanger.rod import (
    ALLOWABLE_BASES,
    PHI_TENSION,
    RULES,
    RodSize,
    rod_allowable,
    rod_size,
    rod_strength,
)
from hangpoint.core.outcome import FindingColumn, mode_outcome
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding, Inapplicable, Mode, position

RULE_NAMES: tuple[str, ...] = tuple(RULES)
_IS_ALLOWABLE = np.array([*(name in ALLOWABLE_BASES for name in RULE_NAMES), False])
"""By rule; the last place is `NO_ROD`."""

_ALLOWABLE_BASES = np.array([ALLOWABLE_BASES.get(name, (1.0, 1.0, 1.0)) for name in RULE_NAMES])
_STRENGTH = RULE_NAMES.index("tensile_strength")
_THREAD_TOLERANCE = 1e-6


def rod_modes(
    points: Points, *, service: Floats, n_ua: Floats, axis: CaseAxis, basis: Basis
) -> tuple[list[PointMode], Floats]:
    """The two rod modes over all points; a point has the one of its rule, and none where the rod is pushed.

    Args:
        service: (points,) of `rod_loads`, lbf.
        n_ua: (cases,) factored tension, lbf.
        axis: the cases of all points.
        basis: of the request: a service allowable can't be checked against factored loads.

    Returns:
        The modes, and the utilisation of the strength of the rod in each case, -1 where it is not checked.
    """
    factored = basis.factored
    rule = points.rods.rule
    allowable = _IS_ALLOWABLE[rule]
    by_service = np.flatnonzero(allowable & (service >= 0) & (not factored))
    reason = np.where(rule == NO_ROD, position(Inapplicable.NO_ROD), position(Inapplicable.OTHER_ROD_RULE))
    why = position(Inapplicable.FACTORED_LOADS) if factored else position(Inapplicable.PUSHED)
    unserved = np.where(allowable, why, reason)
    strength, by_case = _strength(points, n_ua, axis, reason)
    return [_allowable(points, by_service, service, unserved), strength], by_case


@frozen
class RodSizes:
    """Rods that go by the size table: which points, and their record."""

    points: Index
    record: RodSize


def rod_sizes(points: Points) -> RodSizes | None:
    """The rods checked by the size table of the sprinkler standard, None where there is none."""
    rows = np.flatnonzero(points.rods.size_table)
    if not len(rows):
        return None
    nominal = np.zeros(points.count)
    nominal[points.runs.point] = points.runs.nominal
    return RodSizes(points=rows, record=rod_size(nominal=nominal[rows], d=points.rods.d[rows]))


def rod_findings(points: Points, sizes: RodSizes | None) -> list[FindingColumn]:
    """Thread against the internal thread of the anchor, and the diameter against the size table."""
    rods, thread_d = points.rods, points.products.thread_d
    mismatch = (rods.rule != NO_ROD) & (thread_d > 0) & (np.abs(rods.d - thread_d) > _THREAD_TOLERANCE)
    threads = FindingColumn(finding=Finding.ROD_THREAD, holds=mismatch, value=rods.d, limit=thread_d)
    if sizes is None:
        return [threads]
    required, thin, absent = np.zeros(points.count), np.zeros(points.count, np.bool_), np.zeros(points.count, np.bool_)
    required[sizes.points] = sizes.record.d_required
    thin[sizes.points] = ~sizes.record.suffices
    absent[sizes.points] = ~sizes.record.covered
    return [
        threads,
        FindingColumn(finding=Finding.ROD_BELOW_SIZE_TABLE, holds=thin, value=rods.d, limit=required),
        FindingColumn(finding=Finding.ROD_SIZE_NOT_COVERED, holds=absent, value=rods.d, limit=required),
    ]


def _allowable(points: Points, rows: Index, service: Floats, reason: Index) -> PointMode:
    if not len(rows):
        return absent_mode(Mode.ROD_ALLOWABLE, count=points.count, reason=reason)
    rods = points.rods.take(rows)
    f_basis, safety, k_thread = _ALLOWABLE_BASES[rods.rule].T.copy()
    record = rod_allowable(
        d=rods.d,
        pitch=rods.pitch,
        k_root=rods.k_root,
        f_basis=f_basis,
        safety=safety,
        k_thread=k_thread,
        demand=service[rows],
    )
    return service_mode(Mode.ROD_ALLOWABLE, record, points=rows, count=points.count, reason=reason)


def _strength(points: Points, n_ua: Floats, axis: CaseAxis, reason: Index) -> tuple[PointMode, Floats]:
    by_strength = points.rods.rule == _STRENGTH
    if not some(by_strength):
        return absent_mode(Mode.ROD_STRENGTH, count=points.count, reason=reason), np.full(len(n_ua), -1.0)
    cases = np.flatnonzero(by_strength[axis.point_of_case] & (n_ua >= 0))
    if not len(cases):
        return absent_mode(Mode.ROD_STRENGTH, count=points.count, reason=reason), np.full(len(n_ua), -1.0)
    rods = points.rods.take(axis.point_of_case[cases])
    record = rod_strength(
        d=rods.d,
        pitch=rods.pitch,
        k_stress=rods.k_stress,
        f_u=rods.f_u,
        phi=np.full(len(cases), PHI_TENSION),
        demand=n_ua[cases],
    )
    outcome = mode_outcome(Mode.ROD_STRENGTH, record, case_of_row=cases, reason=reason[axis.point_of_case])
    utilisation, row = utilisation_by_case([outcome], axis)
    return point_modes([outcome], axis, utilisation=utilisation, row=row)[0], utilisation[0]
