"""The chain from what hangs to the base, for a batch of points: `check` is the only entry. Units: in, ft, lbf, psi."""

from dataclasses import replace

import numpy as np

from hangpoint.core.aci318_19.concrete_basis import F_C_LIMIT_CAST_IN, F_C_LIMIT_POST_INSTALLED
from hangpoint.core.aci318_19.limits import concrete_findings, dimension_findings, fixing_findings
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.allowable_findings import allowable_findings, allowable_refusals, nearest_anchor
from hangpoint.core.hang_point.allowables import CHAPTER_17
from hangpoint.core.hang_point.anchor_checks import anchor_checks
from hangpoint.core.hang_point.apart import with_ways_apart
from hangpoint.core.hang_point.base_findings import base_findings, limit_finding
from hangpoint.core.hang_point.case_loads import case_demand, case_shear
from hangpoint.core.hang_point.cases import LoadCases, case_names, fixtures, lay_out_cases
from hangpoint.core.hang_point.deck_findings import deck_findings
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.distribution import Distribution, distribute
from hangpoint.core.hang_point.earthquake import earthquake_findings, shares
from hangpoint.core.hang_point.environment import environment_findings
from hangpoint.core.hang_point.equivalents import equivalent_sections
from hangpoint.core.hang_point.layout_findings import layout_findings, nearest_edges
from hangpoint.core.hang_point.light_duty import light_duty_findings
from hangpoint.core.hang_point.load_findings import load_findings
from hangpoint.core.hang_point.neighbour_checks import load_case_findings, neighbour_findings, shared_anchors
from hangpoint.core.hang_point.patterns import with_patterns
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.rods import RodSizes, rod_findings, rod_modes, rod_sizes
from hangpoint.core.hang_point.scope import ACCEPTED, refusals
from hangpoint.core.hang_point.sections import check_sections
from hangpoint.core.hang_point.senses import with_other_senses
from hangpoint.core.hang_point.sharing import Sharing, sharing
from hangpoint.core.hang_point.table_spacing import nearest_sides
from hangpoint.core.hang_point.triage import triage
from hangpoint.core.hang_point.turning import AS_STATED, Otherwise
from hangpoint.core.hang_point.verdict import (
    Alone,
    Demand,
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
from hangpoint.core.hang_point.weights import ServiceLoads, service_loads
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import SHEAR_MODES, TENSION_MODES, Finding, Link, Mode, Refusal, position

_IN_TENSION = TENSION_MODES | {Mode.TABLE_TENSION, Mode.MASONRY_STEEL_TENSION}
_IN_SHEAR = SHEAR_MODES | {Mode.TABLE_SHEAR, Mode.MASONRY_STEEL_SHEAR}


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


def _check(points: Points, basis: Basis, shared: Sharing | None, other: Otherwise = AS_STATED) -> Verdicts:
    count = points.count
    loads = service_loads(points, factored=basis.factored)
    fixture = fixtures(points)
    cases = lay_out_cases(points, loads, fixture=fixture, basis=basis, group=shared and shared.group, other=other)
    axis = cases.axis
    demand, shear = case_demand(points, loads, cases), case_shear(points, cases)
    load = distribute(points, cases, fixture=fixture, demand=demand, shear=shear)
    summary = _summary(loads, demand, shear, axis, load)
    loaded = _loaded(load, summary, axis)
    shaken = shares(points=points, axis=axis, load=load)
    refusal = refusals(
        points=points,
        basis=basis,
        pulled=loaded.tension > 0,
        least_tension=np.where(fixture, 0.0, _least_tension(demand, axis)),
        sustained=loaded.sustained,
        sheared=loaded.shear > 0,
        shaken=shaken,
        outside=_outside(points, basis, cases, loaded),
        above_limit=None if shared is None else shared.above_limit,
    )
    unbalanced = axis.any(~load.balanced) & (refusal == ACCEPTED)
    checked = (refusal == ACCEPTED) & ~unbalanced
    at = checked[axis.point_of_case].nonzero()[0]
    own_axis, own_load = (axis, load) if checked.all() else (axis.take(at), load.take(at))
    anchors = own_load.anchors if shared is None else shared_anchors(points, own_axis, own_load.anchors, shared)
    anchor = anchor_checks(
        points,
        at,
        axis=own_axis,
        owner=axis.point_of_case,
        shear=shear,
        load=load,
        anchors=anchors,
        sides=nearest_sides(points, shared),
    )
    utilisation, row = utilisation_by_case(anchor.outcomes, own_axis)
    anchor_modes = point_modes(anchor.outcomes, own_axis, utilisation=utilisation, row=row)
    own_modes, peak_by_case = rod_modes(points, loads=loads, n_ua=demand.n_ua, axis=axis, basis=basis)
    modes = [*own_modes, *without_balance(anchor_modes, unbalanced)]
    anchor_peak = utilisation.max(axis=0, initial=-1.0)
    peak_by_case[at] = np.maximum(peak_by_case[at], anchor_peak)
    sizes = rod_sizes(points)
    worst = governing(modes, count)
    code_axis = own_axis if anchor.code_cases is None else own_axis.take(anchor.code_cases)
    ductile = earthquake_findings(points=points, axis=code_axis, anchor=anchor.code, shaken=shaken)
    over_limit = limit_finding(points, loads.most())
    reason = _without_mode(refusal, anchor_modes, loaded, unbalanced)
    next_case, next_utilisation = next_worst(axis, peak=peak_by_case, governing_case=worst.load_case)
    found = [
        *_findings(points, loads, sizes, checked, summary),
        *allowable_findings(points, checked=checked, spacing=nearest_anchor(points, shared)),
        *layout_findings(points, axis, fixture=fixture, load=load, unbalanced=unbalanced, checked=checked),
        *ductile.findings,
        *deck_findings(points, checked),
        *base_findings(points, checked),
        *environment_findings(points, checked),
        *load_case_findings(shared, borrowed=cases.borrowed, lost=cases.lost, checked=checked),
        over_limit,
    ]
    return Verdicts(
        count=count,
        method=points.method,
        case_names=case_names(points.given_names),
        load_cases=np.bincount(axis.load_case).nonzero()[0],
        refusal=reason,
        unchecked=~checked,
        to_engineer=triage(points, refusal=reason, sustained=loaded.sustained, over_limit=over_limit.holds),
        demand=summary,
        modes=modes,
        axis=own_axis,
        anchors=anchors,
        sections=[
            *loads.sections,
            *check_sections(
                at,
                own_axis,
                peak=anchor_peak,
                demand=demand,
                shear=shear,
                load=load,
                further=cases.further,
                anchor=anchor,
                modes=anchor_modes,
            ),
            *_size_section(sizes, count),
            *equivalent_sections(points, basis, modes=anchor_modes),
            *ductile.sections,
        ],
        findings=[column for column in found if some(column.holds)],
        governing=worst.mode,
        utilisation=worst.utilisation,
        next_case=next_case,
        next_utilisation=next_utilisation,
    )


def _outside(points: Points, basis: Basis, cases: LoadCases, loaded: "_Loaded") -> list[tuple[Refusal, Bools]]:
    """Reasons against points that chapter 17 doesn't cover."""
    if points.allowables is None:
        return []
    quake: Bools = np.any(cases.further.quake, axis=1)
    ruled = points.hangs.sprinkler | (points.hangs.transient[:, 0, TRANSIENT.index("sprinkler_rule")] != 0)
    return allowable_refusals(
        points,
        basis,
        pulled=loaded.tension > 0,
        held=loaded.sustained > 0,
        sheared=loaded.shear > 0,
        quaking=cases.axis.any(quake),
        ruled=ruled,
    )


def _least_tension(demand: AnchorDemand, axis: CaseAxis) -> Floats:
    """Smallest factored tension over the cases of each point.

    Contents that relieve the anchor count against it here: they may push it towards the base.
    """
    return -axis.largest(-(demand.n_ua + demand.gamma_contents * np.minimum(demand.n_contents, 0.0)))


@frozen
class _Loaded:
    """Largest tension, sustained tension and shear of any anchor in any case of each point, (points,) each, lbf."""

    tension: Floats
    sustained: Floats
    shear: Floats


def _loaded(load: Distribution, summary: Demand, axis: CaseAxis) -> _Loaded:
    if load.layout is None:
        return _Loaded(
            tension=np.maximum(summary.factored, 0.0),
            sustained=np.maximum(summary.sustained, 0.0),
            shear=summary.shear,
        )
    anchors = load.anchors
    worst = [values[anchors.lead(values)] for values in (anchors.n_ua, anchors.n_ua_s, anchors.v)]
    tension, sustained, shear = axis.largest(np.array(worst))
    return _Loaded(tension=tension, sustained=sustained, shear=shear)


def _size_section(sizes: RodSizes | None, count: int) -> list[Section]:
    if sizes is None:
        return []
    row = np.full(count, -1, dtype=np.intp)
    row[sizes.points] = np.arange(len(sizes.points))
    return [Section(record=sizes.record, row=row, link=Link.ROD)]


def _summary(
    loads: ServiceLoads, demand: AnchorDemand, shear: AnchorShear, axis: CaseAxis, load: Distribution
) -> Demand:
    (factored, sustained, sheared), (case, _, _) = axis.worst(np.array([demand.n_ua, demand.n_ua_s, shear.v_ua]))
    return Demand(
        dead=loads.dead,
        contents=loads.contents,
        live=loads.live,
        sprinkler=loads.sprinkler,
        test=loads.transient[:, 0, TRANSIENT.index("test")],
        factored=factored,
        sustained=sustained,
        shear=sheared,
        moment=_moment(axis, load),
        load_case=axis.load_case[case],
    )


def _moment(axis: CaseAxis, load: Distribution) -> Floats:
    """Largest sum of moments of each point, 0 where it has no layout."""
    if load.layout is None:
        return np.zeros(axis.count)
    of, moment = load.layout.load, np.zeros(len(axis.point_of_case))
    moment[load.layout.cases] = np.abs(of.m_x) + np.abs(of.m_y) + np.abs(of.m_z)
    return axis.largest(moment)


def _without_mode(refusal: Index, modes: list[PointMode], loaded: _Loaded, unbalanced: Bools) -> Index:
    """A point with a loaded anchor that no mode was checked against is refused, never passed."""
    accepted = (refusal == ACCEPTED) & ~unbalanced
    for load, own in ((loaded.tension, _IN_TENSION), (loaded.shear, _IN_SHEAR)):
        without = accepted & (load > 0)
        for mode in modes:
            if mode.record is not None and mode.mode in own:
                without &= ~mode.applies
        if some(without):
            refusal = np.where(without, position(Refusal.NO_MODE), refusal)
    return refusal


def _findings(
    points: Points, loads: ServiceLoads, sizes: RodSizes | None, checked: Bools, demand: Demand
) -> list[FindingColumn]:
    base, product, hangs, factored = points.bases, points.products, points.hangs, demand.factored
    zero, c_a = np.zeros(points.count), nearest_edges(points)
    of_the_code = [
        *dimension_findings(
            c_a=c_a,
            c_min=product.c_min,
            c_min_code=product.c_min_code,
            thickness=base.thickness,
            h_min=product.h_min,
            h_ef=product.h_ef,
            d_a=product.d_a,
            e_h=product.e_h,
            hooked=product.pullout_method == HOOKED,
            screw=product.screw,
            limited_depth=product.post_installed & ~product.adhesive & ~product.thickness_tested,
        ),
        *concrete_findings(
            f_c_specified=base.f_c,
            f_c_limit=np.where(product.post_installed, F_C_LIMIT_POST_INSTALLED, F_C_LIMIT_CAST_IN),
            f_y_bars=np.maximum(base.f_y_n, base.f_y_v),
            post_installed=product.post_installed,
            cracked=base.cracked,
            category=base.category,
        ),
        *fixing_findings(
            d_a=product.d_a,
            h_ef=product.h_ef,
            c_a=c_a,
            adhesive=product.adhesive,
            welded=points.fixings.welded & ~product.post_installed & (demand.shear > 0),
            thickness=points.fixings.thickness,
        ),
    ]
    if points.allowables is not None:
        of_the_code = [_where(column, points.method == CHAPTER_17) for column in of_the_code]
    anchor = [
        *of_the_code,
        *load_findings(points, loads, demand),
        FindingColumn(Finding.WELDED_POST_INSTALLED, points.fixings.welded & product.post_installed, zero, zero),
        FindingColumn(Finding.NOT_FOR_REUSE, product.removable, zero, zero),
        FindingColumn(Finding.SUPPLIED_WITHOUT_SOURCE, ~product.invented & ~product.has_source, zero, zero),
        *light_duty_findings(points, tension=factored),
    ]
    sprinkler: list[FindingColumn] = []
    if some(hangs.sprinkler):
        on_structure = loads.dead + loads.contents + loads.sprinkler
        sprinkler = [
            FindingColumn(Finding.SPRINKLER_STRUCTURE, hangs.sprinkler, on_structure, zero),
            FindingColumn(Finding.SPRINKLER_CERTIFICATION, hangs.sprinkler, zero, zero),
        ]
    return [
        *loads.findings,
        *rod_findings(points, sizes),
        *sprinkler,
        *(anchor if checked.all() else (_where(column, checked) for column in anchor)),
    ]


def _where(column: FindingColumn, checked: Bools) -> FindingColumn:
    return FindingColumn(finding=column.finding, holds=column.holds & checked, value=column.value, limit=column.limit)
