"""The tension checks of Table 7.1: a list of calls. Units: mm, N, N/mm2."""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors, Sets, judged_sets
from hangpoint.core.anchor_sets.edge_rows import EdgeSets, row_sets
from hangpoint.core.anchor_sets.of_sets import all_of, eccentricity, largest_of, least_of
from hangpoint.core.en1992_4.blow_out import blow_out
from hangpoint.core.en1992_4.bonded_sets import bond_of_sets, bond_sets, each_bond
from hangpoint.core.en1992_4.combined import combined_failure
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors
from hangpoint.core.en1992_4.cone import ConeResistance, concrete_cone, cone_resistance, one_cone
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.en1992_4.pull_out import pull_out
from hangpoint.core.en1992_4.seismic import several_loaded
from hangpoint.core.en1992_4.splitting import splitting
from hangpoint.core.en1992_4.steel_tension import SteelFailureTension, steel_failure_tension
from hangpoint.core.frozen import frozen
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index, StrengthRecord
from hangpoint.core.rows import some
from hangpoint.core.statics.tension_resultant import tension_resultant
from hangpoint.core.vocabulary import Inapplicable, Mode, position

GROUP_EDGE = 1.2
"""Times c_cr,sp that all edges of a group are away where it does not split (7.2.1.7(2)); 1.0 for one fastener."""
_TENTH = 0.1


@frozen
class TensionChecks:
    """Modes in tension, and the steel of the most loaded fastener of each case."""

    outcomes: list[ModeOutcome]
    steel: SteelFailureTension


def tension_checks(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> TensionChecks:
    """Every tension mode of every case.

    Args:
        cases: product and base.
        anchors: of the same cases, in mm and N.
        factors: of the same cases.
    """
    lead = anchors.lead(anchors.n_ua)
    steel = steel_failure_tension(
        a_s=cases.a_s,
        f_uk=cases.f_uk,
        f_yk=cases.f_yk,
        n_rk_s_stated=cases.n_rk_s,
        earthquake=cases.earthquake,
        n0_rk_s_eq=cases.n0_rk_s_eq,
        fire=cases.fire,
        minutes=cases.minutes,
        sigma_fi=cases.sigma_fi,
        gamma_ms_stated=cases.gamma_ms_n,
        demand=anchors.n_ua[lead],
    )
    pulled, n_rk_p = _pull_out(cases, anchors, factors, lead)
    outcomes = [
        mode_outcome(Mode.EN_STEEL_TENSION, steel, anchor_of_row=lead),
        pulled,
        _combined(cases, anchors, factors),
        _cone(cases, anchors, factors),
        _splitting(cases, anchors, factors, n_rk_p),
        _blow_out(cases, anchors, factors),
    ]
    return TensionChecks(outcomes=outcomes, steel=steel)


def cone_sets(cases: FastenerCases, anchors: Anchors, *, counts: Bools, load: Floats) -> Sets:
    """Groups by concrete cones: closer than s_cr,N (reading 24)."""
    limit = cases.s_cr_n[anchors.case]
    return judged_sets(anchors, limit=limit, counts=counts, load=load, bounding=_unbounded(anchors))


def cone_of_sets(
    cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, sets: Sets, *, tension: Floats | None
) -> ConeResistance:
    """Characteristic resistance of each group.

    Args:
        cases, anchors, factors: all of them.
        sets: of the anchors.
        tension: (anchors,) for the eccentricity, N; without it there is none.
    """
    own = cases.take(sets.case)
    e_n_x, e_n_y = eccentricity(anchors, sets, tension)
    return cone_resistance(
        h_ef=least_of(cases.h_ef, anchors, sets),
        s_cr_n=least_of(cases.s_cr_n, anchors, sets),
        footprint=sets.footprint,
        anchor_count=sets.anchor_count,
        s_max=sets.largest_spacing,
        wide_bars=own.wide_bars,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        cracked=own.cracked,
        k_cr_n=least_of(cases.k_cr_n, anchors, sets),
        k_ucr_n=least_of(cases.k_ucr_n, anchors, sets),
        f_ck=factors.f_ck[sets.case],
        fire=own.fire,
        minutes=own.minutes,
    )


def _several(anchors: Anchors, case: Index, anchor_count: Floats) -> Bools:
    """(rows,) whether sets have several fasteners, or their ``case`` has several that are pulled."""
    return (anchor_count > 1) | several_loaded(anchors, anchors.pulled())[case]


def _unbounded(anchors: Anchors) -> Bools:
    return np.zeros(anchors.case_count, dtype=np.bool_)


def _pull_out(
    cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, lead: Index
) -> tuple[ModeOutcome, Floats]:
    """The mode, and the characteristic resistance of one fastener of each case, infinite where it never comes first."""
    rows = np.flatnonzero(cases.pull_out_governs)
    own = cases.take(rows)
    strength = pull_out(
        earthquake=own.earthquake,
        by_tests=own.pull_out_by_tests & ~own.earthquake,
        n_rk_p_stated=own.n_rk_p,
        psi_c_exponent=own.psi_c_exponent,
        by_seismic_tests=own.pull_out_by_tests & own.earthquake,
        n0_rk_p_eq=own.n0_rk_p_eq,
        f_ck=factors.f_ck[rows],
        cracked=own.cracked,
        a_h=own.a_h,
        several=several_loaded(anchors, anchors.pulled())[rows],
        fire=own.fire,
        minutes=own.minutes,
        as_cone=own.as_cone,
        n0_rk_c=one_cone(k_1=own.k_cr_n, f_ck=factors.f_ck[rows], h_ef=own.h_ef),
        gamma_mp=factors.gamma_mc_n[rows],
        demand=anchors.n_ua[lead[rows]],
    )
    resistance = np.full(anchors.case_count, np.inf)
    resistance[rows] = strength.n_rk_p
    reason = np.where(cases.bonded, position(Inapplicable.EN_BONDED), position(Inapplicable.EN_PULL_OUT))
    outcome = mode_outcome(Mode.EN_PULL_OUT, strength, case_of_row=rows, reason=reason, anchor_of_row=lead[rows])
    return outcome, resistance


def _combined(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> ModeOutcome:
    none, no_tension = position(Inapplicable.EN_NOT_BONDED), position(Inapplicable.EN_NO_TENSION)
    reason = np.where(cases.bonded, no_tension, none)
    if not some(cases.bonded):
        return absent_outcome(Mode.EN_COMBINED, reason)
    sets = bond_sets(cases, anchors, counts=anchors.pulled(), load=anchors.n_ua)
    if not len(sets.case):
        return absent_outcome(Mode.EN_COMBINED, reason)
    strength = combined_failure(
        bond_of_sets(cases, anchors, factors, sets, tension=anchors.n_ua),
        several=_several(anchors, sets.case, sets.anchor_count),
        gamma_mp=largest_of(factors.gamma_mc_n, anchors, sets),
        demand=sets.total(anchors.n_ua),
    )
    return _of_sets(Mode.EN_COMBINED, strength, anchors, sets, reason)


def _cone(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> ModeOutcome:
    reason = np.full(anchors.case_count, position(Inapplicable.EN_NO_TENSION))
    sets = cone_sets(cases, anchors, counts=anchors.pulled(), load=anchors.n_ua)
    if not len(sets.case):
        return absent_outcome(Mode.EN_CONE, reason)
    strength = concrete_cone(
        cone_of_sets(cases, anchors, factors, sets, tension=anchors.n_ua),
        earthquake=cases.earthquake[sets.case],
        several=_several(anchors, sets.case, sets.anchor_count),
        like_headed=all_of(cases.like_headed, anchors, sets),
        gamma_mc=largest_of(factors.gamma_mc_n, anchors, sets),
        demand=sets.total(anchors.n_ua),
    )
    return _of_sets(Mode.EN_CONE, strength, anchors, sets, reason)


def _of_sets(mode: Mode, strength: StrengthRecord, anchors: Anchors, sets: Sets, reason: Index) -> ModeOutcome:
    return mode_outcome(mode, strength, case_of_row=sets.case, reason=reason, sets=sets.membership)


def _splitting(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, n_rk_p: Floats) -> ModeOutcome:
    reason = np.full(anchors.case_count, position(Inapplicable.EN_NO_SPLITTING))
    reason[cases.splitting_bars] = position(Inapplicable.EN_SPLITTING_BARS)
    at, near = anchors.case, anchors.c_a.min(axis=1)
    held = (cases.splitting_bars | cases.fire)[at]
    splits = anchors.pulled() & ~held & (near < GROUP_EDGE * cases.c_cr_sp[at])
    if not some(splits):
        return absent_outcome(Mode.EN_SPLITTING, reason)
    limit = 2 * cases.c_cr_sp[at]
    sets = judged_sets(anchors, limit=limit, counts=anchors.pulled(), load=anchors.n_ua, bounding=_unbounded(anchors))
    c_cr_sp = largest_of(cases.c_cr_sp, anchors, sets)
    away = np.where(sets.anchor_count > 1, GROUP_EDGE, 1.0) * c_cr_sp * (1 - 1e-9)
    held = cases.splitting_bars | cases.fire
    kept = np.flatnonzero((sets.footprint.c_a.min(axis=1) < away) & ~held[sets.case])
    if not len(kept):
        return absent_outcome(Mode.EN_SPLITTING, reason)
    sets, c_cr_sp = sets.take(kept), c_cr_sp[kept]
    own, cracked = cases.take(sets.case), cases.cracked[sets.case]
    each = n_rk_p[at]
    if some(cases.bonded):
        each = np.minimum(each, each_bond(cases, anchors, factors))
    e_n_x, e_n_y = eccentricity(anchors, sets, anchors.n_ua)
    strength = splitting(
        h_ef=least_of(cases.h_ef, anchors, sets),
        c_cr_sp=c_cr_sp,
        footprint=sets.footprint,
        anchor_count=sets.anchor_count,
        cracked=cracked,
        k_1=least_of(np.where(cases.cracked, cases.k_cr_n, cases.k_ucr_n), anchors, sets),
        f_ck=factors.f_ck[sets.case],
        n_rk_p=sets.least(each),
        n0_rk_sp_stated=least_of(cases.n0_rk_sp, anchors, sets),
        wide_bars=own.wide_bars,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        h=own.h,
        h_min=largest_of(cases.h_min, anchors, sets),
        earthquake=own.earthquake,
        several=_several(anchors, sets.case, sets.anchor_count),
        gamma_msp=largest_of(factors.gamma_mc_n, anchors, sets),
        demand=sets.total(anchors.n_ua),
    )
    return _of_sets(Mode.EN_SPLITTING, strength, anchors, sets, reason)


def _blow_out(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> ModeOutcome:
    """Heads no farther from an edge than half of their depth; not in fire."""
    reason = np.full(anchors.case_count, position(Inapplicable.EN_NOT_HEADED))
    if not some(cases.headed):
        return absent_outcome(Mode.EN_BLOW_OUT, reason)
    reason[cases.headed] = position(Inapplicable.EN_NO_BLOW_OUT)
    at = anchors.case
    near = anchors.c_a <= 0.5 * cases.h_ef[at][:, None] * (1 + 1e-9)
    sets = row_sets(
        anchors, at=near & ((cases.headed & ~cases.fire)[at] & anchors.pulled())[:, None], share=_TENTH, spacing=4.0
    )
    if sets is None:
        return absent_outcome(Mode.EN_BLOW_OUT, reason)
    own, members = cases.take(sets.case), sets.membership
    strength = blow_out(
        h_ef=own.h_ef,
        h=own.h,
        c_1=sets.c_a1,
        c_2_low=sets.c_a2[:, 0],
        c_2_high=sets.c_a2[:, 1],
        anchor_count=members.anchor_count,
        extent=sets.extent,
        s_2=members.largest_spacing,
        a_h=least_of(cases.a_h, anchors, sets),
        cracked=own.cracked,
        f_ck=factors.f_ck[sets.case],
        e_n=_along_row(anchors, sets),
        earthquake=own.earthquake,
        several=_several(anchors, sets.case, members.anchor_count),
        gamma_mc=largest_of(factors.gamma_mc_n, anchors, sets),
        demand=members.total(anchors.n_ua),
    )
    return mode_outcome(
        Mode.EN_BLOW_OUT,
        strength,
        case_of_row=sets.case,
        reason=reason,
        edge_of_row=sets.edge,
        sets=None if anchors.single else members,
    )


def _along_row(anchors: Anchors, sets: EdgeSets) -> Floats:
    """(rows,) eccentricity of the tension of each row along its edge."""
    member = sets.membership.member_anchor
    acts = tension_resultant(
        tension=anchors.n_ua[member],
        x=anchors.x[member],
        y=anchors.y[member],
        group_of_anchor=sets.membership.member_group,
        group_count=len(sets.case),
    )
    return np.where(sets.edge < 2, acts.e_n_y, acts.e_n_x)
