"""The chain from what hangs to the base, for a batch of points: `check` is the only entry. Units: in, ft, lbf, psi."""

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.check import Checked
from hangpoint.core.aci318_19.check import check as check_anchors
from hangpoint.core.aci318_19.concrete_basis import F_C_LIMIT_CAST_IN, F_C_LIMIT_POST_INSTALLED
from hangpoint.core.aci318_19.limits import (
    concrete_findings,
    dimension_findings,
    fixing_findings,
    thick_enough,
)
from hangpoint.core.aci318_19.pullout import HEADED, HOOKED, PRODUCT
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear, anchor_demand, anchor_shear
from hangpoint.core.hang_point.earthquake import earthquake_findings, shares
from hangpoint.core.hang_point.points import IN_FIGURES, NOT_GOVERNING, TESTED, Basis, Points
from hangpoint.core.hang_point.rods import RodSizes, rod_findings, rod_modes, rod_sizes
from hangpoint.core.hang_point.scope import ACCEPTED, SEISMIC_FROM, refusals
from hangpoint.core.hang_point.verdict import (
    NONE,
    Demand,
    PointMode,
    Section,
    Verdicts,
    governing,
    next_worst,
    point_modes,
    utilisation_by_case,
)
from hangpoint.core.hang_point.weights import ServiceLoads, service_loads
from hangpoint.core.loads.combinations import load_cases
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import SHEAR_MODES, TENSION_MODES, Finding, Link, Refusal, position


def check(points: Points, basis: Basis) -> Verdicts:
    """Check every point: loads and rod for all, the anchor where nothing stands against it.

    Args:
        points: the batch, in core units.
        basis: what holds for the whole request.

    Returns:
        `Verdicts`, a row a point; a refused point has its loads and its rod but no anchor modes.
    """
    count = points.count
    loads = service_loads(points, factored=basis.factored)
    point_of_case, load_case = load_cases(sprinkler=points.hangs.sprinkler, factored=basis.factored)
    axis = CaseAxis.of(count=count, point_of_case=point_of_case, load_case=load_case)
    demand, shear = _demand(points, loads, axis), _shear(points, axis)
    summary = _summary(loads, demand, shear, axis)
    # Contents that relieve the anchor count against it here: they may push it towards the base.
    least, _ = axis.worst(-(demand.n_ua + demand.gamma_dead * np.minimum(demand.n_contents, 0.0)))
    refusal = refusals(
        points=points,
        basis=basis,
        least_tension=-least,
        sustained=summary.sustained,
        sheared=summary.shear > 0,
        shaken=shares(points=points, axis=axis, demand=demand, shear=shear),
    )
    checked = refusal == ACCEPTED
    cases = None if checked.all() else np.flatnonzero(checked[axis.point_of_case])
    own_axis = axis if cases is None else axis.take(cases)
    own_demand, own_shear = (demand, shear) if cases is None else (demand.take(cases), shear.take(cases))
    anchor = check_anchors(_anchor_cases(points, own_axis.point_of_case, own_demand, own_shear))
    utilisation, row = utilisation_by_case(anchor.outcomes, own_axis)
    anchor_modes = point_modes(anchor.outcomes, own_axis, utilisation=utilisation, row=row)
    own_modes, peak_by_case = rod_modes(points, loads=loads, n_ua=demand.n_ua, axis=axis, factored=basis.factored)
    modes = [*own_modes, *anchor_modes]
    at = slice(None) if cases is None else cases
    peak_by_case[at] = np.maximum(peak_by_case[at], utilisation.max(axis=0))
    sizes = rod_sizes(points)
    which, peak = governing(modes, count)
    ductile = earthquake_findings(points=points, axis=own_axis, anchor=anchor, demand=own_demand, shear=own_shear)
    next_case, next_utilisation = next_worst(
        axis, peak=peak_by_case, governing_case=_governing_case(modes, which, count)
    )
    return Verdicts(
        count=count,
        refusal=_without_mode(refusal, anchor_modes, summary),
        demand=summary,
        modes=modes,
        sections=[
            *loads.sections,
            *_sections(own_axis, utilisation, own_demand, own_shear, anchor),
            *_size_section(sizes, count),
            *ductile.sections,
        ],
        findings=[*_findings(points, loads, sizes, checked, summary), *ductile.findings],
        governing=which,
        utilisation=peak,
        next_case=next_case,
        next_utilisation=next_utilisation,
    )


def _sections(
    axis: CaseAxis, utilisation: Floats, demand: AnchorDemand, shear: AnchorShear, anchor: Checked
) -> list[Section]:
    """Demand and concrete of the trace, in the case with the largest utilisation of the anchor."""
    _, case = axis.worst(utilisation.max(axis=0))
    row = axis.places(case)
    sheared = np.where(axis.over_points(shear.v_ua[case]) > 0, row, NONE)
    return [
        Section(record=demand, row=row, link=Link.ANCHOR),
        Section(record=shear, row=sheared, link=Link.ANCHOR),
        Section(record=anchor.basis, row=row, link=Link.ANCHOR),
    ]


def _size_section(sizes: RodSizes | None, count: int) -> list[Section]:
    if sizes is None:
        return []
    row = np.full(count, -1, dtype=np.intp)
    row[sizes.points] = np.arange(len(sizes.points))
    return [Section(record=sizes.record, row=row, link=Link.ROD)]


def _demand(points: Points, loads: ServiceLoads, axis: CaseAxis) -> AnchorDemand:
    hangs, owner = points.hangs, axis.point_of_case
    return anchor_demand(
        n_dead=loads.dead[owner],
        n_contents=loads.contents[owner],
        n_live=loads.live[owner],
        n_sprinkler=loads.sprinkler[owner],
        n_factored=hangs.factored[owner],
        sustained_fraction=hangs.sustained_fraction[owner],
        earthquake_fraction=hangs.earthquake_fraction[owner],
        load_case=axis.load_case,
    )


def _shear(points: Points, axis: CaseAxis) -> AnchorShear:
    hangs, owner = points.hangs, axis.point_of_case
    return anchor_shear(
        v_dead=hangs.v_dead[owner],
        v_contents=hangs.v_contents[owner],
        v_live=hangs.v_live[owner],
        v_factored=hangs.v_factored[owner],
        earthquake_fraction=hangs.earthquake_fraction_v[owner],
        load_case=axis.load_case,
    )


def _anchor_cases(points: Points, owner: Index, demand: AnchorDemand, shear: AnchorShear) -> AnchorCases:
    product, base = points.products.take(owner), points.bases.take(owner)
    fixing, bond = points.fixings.take(owner), points.bonds.take(owner)
    by_product = product.pullout_method == PRODUCT
    state = np.where(base.cracked, product.n_p_cr_state, product.n_p_uncr_state)
    high_seismic = base.category >= SEISMIC_FROM
    by_seismic_tests = by_product & high_seismic & (product.n_p_eq_state == IN_FIGURES)
    shear_by_seismic_tests = high_seismic & product.post_installed
    welded = fixing.welded & ~product.post_installed & thick_enough(thickness=fixing.thickness, d_a=product.d_a)
    f_c_ref_bond, seismic_category = bond.f_c_ref, base.category
    return AnchorCases(
        cast_in=~product.post_installed,
        undercut=product.undercut,
        headed=product.pullout_method == HEADED,
        category=product.category,
        d_a=product.d_a,
        a_se_n=product.a_se_n,
        f_uta=product.f_uta,
        f_ya=product.f_ya,
        ductile=product.ductile,
        h_ef=product.h_ef,
        c_ac=product.c_ac,
        product_k_c=product.product_k_c,
        k_cr=product.k_cr,
        k_uncr=product.k_uncr,
        pullout_method=product.pullout_method,
        pullout_governs=by_seismic_tests | ~(by_product & (state == NOT_GOVERNING)),
        n_p_cr=product.n_p_cr,
        n_p_uncr=product.n_p_uncr,
        n_p_eq=product.n_p_eq,
        by_seismic_tests=by_seismic_tests,
        n_exponent=product.n_exponent,
        f_c_ref=product.f_c_ref,
        tested_lightweight=product.lightweight_data == TESTED,
        a_brg=product.a_brg,
        e_h=product.e_h,
        f_c_specified=base.f_c,
        lightweight=base.lightweight,
        lambda_c=base.lambda_c,
        cracked=base.cracked,
        supplementary=base.supplementary,
        c_a=base.c_a,
        h_a=base.thickness,
        edge_reinforcement=base.edge_reinforcement,
        reinforced_n=base.a_s_n > 0,
        a_s_n=base.a_s_n,
        f_y_n=base.f_y_n,
        reinforced_v=base.a_s_v > 0,
        a_s_v=base.a_s_v,
        f_y_v=base.f_y_v,
        welded_stud=product.welded_stud,
        distance_sleeve=product.distance_sleeve,
        by_shear_tests=product.v_sa_tested | shear_by_seismic_tests,
        v_sa=np.where(shear_by_seismic_tests, product.v_sa_eq, product.v_sa),
        welded=welded,
        grout_pad=fixing.grout_pad,
        adhesive=product.adhesive,
        tau_cr=bond.tau_cr,
        tau_uncr=bond.tau_uncr,
        by_seismic_bond=high_seismic & product.adhesive,
        alpha_n_seis=bond.alpha_n_seis,
        tau_exponent=bond.exponent,
        f_c_ref_bond=f_c_ref_bond,
        oblique=fixing.oblique,
        power=fixing.power,
        seismic_category=seismic_category,
        n_ua=demand.n_ua,
        n_ua_s=demand.n_ua_s,
        n_ua_e=demand.n_ua_e,
        v_ua_x=shear.v_ua_x,
        v_ua_y=shear.v_ua_y,
        either_x=shear.either_x,
        either_y=shear.either_y,
        v_ua=shear.v_ua,
    )


def _summary(loads: ServiceLoads, demand: AnchorDemand, shear: AnchorShear, axis: CaseAxis) -> Demand:
    (factored, sustained, sheared), (case, _, _) = axis.worst(np.array([demand.n_ua, demand.n_ua_s, shear.v_ua]))
    return Demand(
        dead=loads.dead,
        contents=loads.contents,
        live=loads.live,
        sprinkler=loads.sprinkler,
        factored=factored,
        sustained=sustained,
        shear=sheared,
        load_case=axis.load_case[case],
    )


def _without_mode(refusal: Index, modes: list[PointMode], demand: Demand) -> Index:
    """A point with a load that no anchor mode was checked against is refused, never passed."""
    accepted = refusal == ACCEPTED
    for acts, own in ((demand.factored != 0, TENSION_MODES), (demand.shear != 0, SHEAR_MODES)):
        any_mode = np.any([mode.applies for mode in modes if mode.mode in own], axis=0)
        refusal = np.where(accepted & acts & ~any_mode, position(Refusal.NO_MODE), refusal)
    return refusal


def _governing_case(modes: list[PointMode], which: Index, count: int) -> Index:
    cases = np.array([mode.load_case for mode in modes])
    return np.where(which >= 0, cases[which, np.arange(count)], -1)


def _findings(
    points: Points, loads: ServiceLoads, sizes: RodSizes | None, checked: Bools, demand: Demand
) -> list[FindingColumn]:
    base, product, hangs, factored = points.bases, points.products, points.hangs, demand.factored
    zero = np.zeros(points.count)
    anchor = [
        *dimension_findings(
            c_a=base.c_a,
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
            post_installed=product.post_installed,
            cracked=base.cracked,
            category=base.category,
        ),
        *fixing_findings(
            d_a=product.d_a,
            h_ef=product.h_ef,
            c_a=base.c_a,
            adhesive=product.adhesive,
            welded=points.fixings.welded & ~product.post_installed & (demand.shear > 0),
            thickness=points.fixings.thickness,
        ),
        _seen(Finding.NO_LOAD, (factored == 0) & (demand.shear == 0), factored, zero),
        _seen(Finding.NOT_FOR_REUSE, product.removable, zero, zero),
        _seen(Finding.SUPPLIED_WITHOUT_SOURCE, ~product.invented & ~product.has_source, zero, zero),
    ]
    on_structure = loads.dead + loads.contents + loads.sprinkler
    return [
        *loads.findings,
        *rod_findings(points, sizes),
        _seen(Finding.SPRINKLER_STRUCTURE, hangs.sprinkler, on_structure, zero),
        _seen(Finding.SPRINKLER_CERTIFICATION, hangs.sprinkler, zero, zero),
        *(anchor if checked.all() else (_where(column, checked) for column in anchor)),
    ]


def _seen(finding: Finding, holds: Bools, value: Floats, limit: Floats) -> FindingColumn:
    return FindingColumn(finding=finding, holds=holds, value=value, limit=limit)


def _where(column: FindingColumn, checked: Bools) -> FindingColumn:
    return FindingColumn(finding=column.finding, holds=column.holds & checked, value=column.value, limit=column.limit)
