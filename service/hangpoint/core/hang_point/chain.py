"""The chain from what hangs to the base, for a batch of points: `check` is the only entry. Units: in, ft, lbf, psi."""

from dataclasses import replace

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.allowable_findings import allowable_findings, allowable_refusals, nearest_anchor
from hangpoint.core.hang_point.anchor_checks import AnchorChecks, anchor_checks
from hangpoint.core.hang_point.apart import with_ways_apart
from hangpoint.core.hang_point.applied import Applied, MostOfAnchors, applied_loads
from hangpoint.core.hang_point.base_findings import base_findings, limit_finding
from hangpoint.core.hang_point.cases import case_names
from hangpoint.core.hang_point.deck_findings import deck_findings
from hangpoint.core.hang_point.earthquake import Shaken, earthquake_findings, shares
from hangpoint.core.hang_point.environment import environment_findings
from hangpoint.core.hang_point.equivalents import equivalent_sections
from hangpoint.core.hang_point.fastener_earthquake import fastener_earthquake_findings, with_categories_beside
from hangpoint.core.hang_point.fastener_fire import fire_findings, with_fires
from hangpoint.core.hang_point.fastener_scope import fastener_refusals
from hangpoint.core.hang_point.layout_findings import layout_findings
from hangpoint.core.hang_point.neighbour_checks import load_case_findings, neighbour_findings, shared_anchors
from hangpoint.core.hang_point.patterns import with_patterns
from hangpoint.core.hang_point.point_findings import point_findings
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.pushes import push_findings
from hangpoint.core.hang_point.rod_loads import RodLoads, rod_loads
from hangpoint.core.hang_point.rods import RodSizes, rod_modes, rod_sizes
from hangpoint.core.hang_point.scope import ACCEPTED, refusals
from hangpoint.core.hang_point.sections import check_sections
from hangpoint.core.hang_point.senses import with_other_senses
from hangpoint.core.hang_point.sharing import Sharing, sharing
from hangpoint.core.hang_point.table_spacing import nearest_sides
from hangpoint.core.hang_point.triage import triage
from hangpoint.core.hang_point.turning import AS_STATED, Otherwise
from hangpoint.core.hang_point.verdict import (
    NONE,
    Alone,
    Neighbours,
    PointMode,
    Section,
    Verdicts,
    alone_of,
    governing,
    next_worst,
    point_modes,
    utilisation_by_case,
    without_balance,
)
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import (
    EN_SHEAR_MODES,
    EN_TENSION_MODES,
    SHEAR_MODES,
    TENSION_MODES,
    Link,
    Mode,
    Refusal,
    position,
)

_IN_TENSION = TENSION_MODES | EN_TENSION_MODES | {Mode.TABLE_TENSION, Mode.MASONRY_STEEL_TENSION}
_IN_SHEAR = SHEAR_MODES | EN_SHEAR_MODES | {Mode.TABLE_SHEAR, Mode.MASONRY_STEEL_SHEAR}


def check(points: Points, basis: Basis, *, alone: Alone | None = None) -> Verdicts:
    """Check every point: loads and rod for all, the anchors where nothing stands against it.

    Points that share concrete are checked alone and together (reading 30); together counts, and the answer has both.

    Args:
        points: the batch, in core units.
        basis: what holds for the whole request.
        alone: what the points are without each other, if that is known.

    Returns:
        `Verdicts`, a row a point; a refused point has its loads and its rod but no anchor modes.
    """
    together = _compared(points, basis, alone)
    if points.apart is None:
        return together
    known = together.neighbours.alone if together.neighbours else None
    return with_ways_apart(points, together, lambda own: _compared(own, basis, known))


def _compared(points: Points, basis: Basis, alone: Alone | None) -> Verdicts:
    if points.sites is None:
        return _check(points, basis, None)
    shared = sharing(points, points.sites)

    def otherwise(own: Points, other: Otherwise) -> Verdicts:
        return _check(own, basis, own.sites and sharing(own, own.sites), other)

    together = _check(points, basis, shared)
    together = with_other_senses(points, basis, shared, together=together, check=otherwise)
    together = with_patterns(points, basis, shared, together=together, check=otherwise)
    findings = neighbour_findings(points, points.sites, shared, unchecked=together.unchecked, modes=together.modes)
    return replace(
        together,
        findings=[*together.findings, *findings],
        neighbours=Neighbours(sharing=shared, alone=alone or alone_of(_check(points, basis, None))),
    )


@frozen
class _Scope:
    """Points whose anchors are ``checked`` (points,): none that is refused or whose load nothing balances."""

    refusal: Index
    unbalanced: Bools
    checked: Bools
    shaken: Shaken


@frozen
class _Held:
    """What anchors and base hold in the cases ``at`` of all, those of points that are checked, on their own ``axis``.

    ``peak`` (cases,) is the largest utilisation of each of these cases, -1 where no mode has it.
    """

    at: Index
    axis: CaseAxis
    anchors: Anchors
    checks: AnchorChecks
    modes: list[PointMode]
    peak: Floats


def _check(points: Points, basis: Basis, shared: Sharing | None, other: Otherwise = AS_STATED) -> Verdicts:
    points = with_fires(points, shared and shared.group)
    applied = applied_loads(points, basis, group=shared and shared.group, other=other)
    points = with_categories_beside(points, applied.shaken, shared and shared.group)
    scope = _scope(points, basis, shared, applied)
    held = _held(points, shared, applied, scope)
    axis, loads = applied.cases.axis, applied.loads
    service = rod_loads(points, loads, basis.load_standard)
    rods, peak = rod_modes(points, service=service.tension, n_ua=applied.demand.n_ua, axis=axis, basis=basis)
    peak[held.at] = np.maximum(peak[held.at], held.peak)
    modes, sizes = [*rods, *without_balance(held.modes, scope.unbalanced)], rod_sizes(points)
    worst = governing(modes, points.count)
    next_case, next_utilisation = next_worst(axis, peak=peak, governing_case=worst.load_case)
    code_axis = held.axis if held.checks.code_cases is None else held.axis.take(held.checks.code_cases)
    ductile = earthquake_findings(points=points, axis=code_axis, anchor=held.checks.code, shaken=scope.shaken)
    over_limit = limit_finding(points, loads.most())
    refusal = _without_mode(scope, held.modes, applied.most)
    found = [
        *point_findings(points, loads, sizes, scope.checked, applied.summary, basis),
        *allowable_findings(points, checked=scope.checked, spacing=nearest_anchor(points, shared)),
        *fastener_earthquake_findings(points, applied.shaken, checked=scope.checked),
        *fire_findings(points, checked=scope.checked),
        *layout_findings(
            points,
            axis,
            fixture=applied.fixture,
            load=applied.load,
            unbalanced=scope.unbalanced,
            checked=scope.checked,
        ),
        *ductile.findings,
        *push_findings(points, applied, checked=scope.checked),
        *deck_findings(points, scope.checked),
        *base_findings(points, scope.checked),
        *environment_findings(points, scope.checked),
        *load_case_findings(shared, borrowed=applied.cases.borrowed, lost=applied.cases.lost, checked=scope.checked),
        over_limit,
    ]
    return Verdicts(
        count=points.count,
        method=points.method,
        case_names=case_names(points.given_names),
        load_cases=np.bincount(axis.load_case).nonzero()[0],
        refusal=refusal,
        unchecked=~scope.checked,
        to_engineer=triage(
            points,
            refusal=refusal,
            sustained=applied.most.sustained,
            over_limit=over_limit.holds,
            shaken=applied.shaken,
        ),
        demand=applied.summary,
        modes=modes,
        axis=held.axis,
        anchors=held.anchors,
        sections=[
            *loads.sections,
            *check_sections(
                held.at,
                held.axis,
                peak=held.peak,
                demand=applied.demand,
                shear=applied.shear,
                load=applied.load,
                further=applied.cases.further,
                anchor=held.checks,
                anchors=held.anchors,
                modes=held.modes,
            ),
            *_rod_sections(service, rods[0]),
            *_size_section(sizes, points.count),
            *equivalent_sections(points, basis, modes=held.modes),
            *ductile.sections,
        ],
        findings=[column for column in found if some(column.holds)],
        governing=worst.mode,
        utilisation=worst.utilisation,
        next_case=next_case,
        next_utilisation=next_utilisation,
    )


def _scope(points: Points, basis: Basis, shared: Sharing | None, applied: Applied) -> _Scope:
    axis, most = applied.cases.axis, applied.most
    shaken = shares(points=points, axis=axis, load=applied.load)
    refusal = refusals(
        points=points,
        basis=basis,
        pulled=most.tension > 0,
        least_tension=applied.least_tension,
        sustained=most.sustained,
        sheared=most.shear > 0,
        shaken=shaken,
        outside=_outside(points, basis, applied),
        above_limit=None if shared is None else shared.above_limit,
    )
    accepted = refusal == ACCEPTED
    unbalanced = axis.any(~applied.load.balanced) & accepted
    return _Scope(refusal=refusal, unbalanced=unbalanced, checked=accepted & ~unbalanced, shaken=shaken)


def _outside(points: Points, basis: Basis, applied: Applied) -> list[tuple[Refusal, Bools]]:
    """Reasons against points that chapter 17 doesn't cover."""
    cases, most = applied.cases, applied.most
    if points.fasteners is not None and applied.shaken is not None:
        return fastener_refusals(
            points,
            points.fasteners,
            basis,
            pulled=most.tension > 0,
            sheared=most.shear > 0,
            ruled=_ruled(points),
            shaken=applied.shaken,
            lasting=(most.sustained > 0) | ((most.tension > 0) & cases.axis.any(applied.psi_2 > 0)),
        )
    if points.allowables is None:
        return []
    quake: Bools = np.any(cases.further.quake, axis=1)
    return allowable_refusals(
        points,
        basis,
        pulled=most.tension > 0,
        held=most.sustained > 0,
        sheared=most.shear > 0,
        quaking=cases.axis.any(quake),
        ruled=_ruled(points),
    )


def _ruled(points: Points) -> Bools:
    """(points,) of sprinkler lines, and those that state the load of their rule."""
    return points.hangs.sprinkler | (points.hangs.transient[:, 0, TRANSIENT.index("sprinkler_rule")] != 0)


def _held(points: Points, shared: Sharing | None, applied: Applied, scope: _Scope) -> _Held:
    whole, load = applied.cases.axis, applied.load
    at = scope.checked[whole.point_of_case].nonzero()[0]
    axis, own = (whole, load) if scope.checked.all() else (whole.take(at), load.take(at))
    anchors = own.anchors if shared is None else shared_anchors(points, axis, own.anchors, shared)
    checks = anchor_checks(
        points,
        at,
        axis=axis,
        owner=whole.point_of_case,
        shear=applied.shear,
        load=load,
        anchors=anchors,
        sides=nearest_sides(points, shared),
        earthquake=applied.cases.earthquake,
        psi_2=applied.psi_2,
        fire=applied.cases.fire,
    )
    utilisation, row = utilisation_by_case(checks.outcomes, axis)
    modes = point_modes(checks.outcomes, axis, utilisation=utilisation, row=row)
    peak = utilisation.max(axis=0, initial=-1.0)
    return _Held(at=at, axis=axis, anchors=anchors, checks=checks, modes=modes, peak=peak)


def _rod_sections(service: RodLoads, allowable: PointMode) -> list[Section]:
    """How the load comes about that a rod's allowable one is compared with."""
    return [replace(made, row=np.where(allowable.applies, made.row, NONE)) for made in service.sections]


def _size_section(sizes: RodSizes | None, count: int) -> list[Section]:
    if sizes is None:
        return []
    row = np.full(count, -1, dtype=np.intp)
    row[sizes.points] = np.arange(len(sizes.points))
    return [Section(record=sizes.record, row=row, link=Link.ROD)]


def _without_mode(scope: _Scope, modes: list[PointMode], most: MostOfAnchors) -> Index:
    """The refusals; a point with a loaded anchor that no mode was checked against is refused, never passed."""
    refusal = scope.refusal
    for load, own in ((most.tension, _IN_TENSION), (most.shear, _IN_SHEAR)):
        without = scope.checked & (load > 0)
        for mode in modes:
            if mode.record is not None and mode.mode in own:
                without &= ~mode.applies
        if some(without):
            refusal = np.where(without, position(Refusal.NO_MODE), refusal)
    return refusal
