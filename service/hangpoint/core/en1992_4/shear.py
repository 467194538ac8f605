"""The shear checks of Table 7.2: a list of calls. Units: mm, N, N/mm2."""

from dataclasses import replace
from typing import Any

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.anchor_sets.of_sets import all_of, least_of
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors
from hangpoint.core.en1992_4.edge import concrete_edge
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.en1992_4.lever_arm import steel_failure_lever_arm
from hangpoint.core.en1992_4.near_row import near_rows
from hangpoint.core.en1992_4.opposed import nearest_against
from hangpoint.core.en1992_4.pried_sets import pried_sets
from hangpoint.core.en1992_4.pry_out import pry_out
from hangpoint.core.en1992_4.seismic import several_loaded
from hangpoint.core.en1992_4.steel_shear import SteelFailureShear, steel_failure_shear
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.grouping import Membership
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index, Record
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Inapplicable, Mode, position

MODES = (Mode.EN_STEEL_SHEAR, Mode.EN_LEVER_ARM, Mode.EN_PRY_OUT, Mode.EN_EDGE)


@frozen
class ShearChecks:
    """Modes in shear; ``behind`` are the resistances that pry-out rests on, each with its row for each row of
    pry-out, -1 where it has none. ``steel`` has a row a case that is sheared without lever arm, None where none is.
    """

    outcomes: list[ModeOutcome]
    steel: SteelFailureShear | None
    steel_cases: Index
    behind: list[tuple[Record, Index]]


def shear_checks(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, *, n_rd_s: Floats) -> ShearChecks:
    """Every shear mode of the cases with shear, in the order of `MODES`.

    Args:
        cases: product and base.
        anchors: of the same cases, in mm and N.
        factors: of the same cases.
        n_rd_s: (cases,) design resistance of the steel of one fastener in tension, N.
    """
    no_shear = np.full(anchors.case_count, position(Inapplicable.EN_NO_SHEAR))
    rows = np.flatnonzero(anchors.total(anchors.v) > 0)
    if not len(rows):
        none = _lever_arm(cases, anchors, n_rd_s)
        outcomes = [none if mode is none.mode else absent_outcome(mode, no_shear) for mode in MODES]
        return ShearChecks(outcomes=outcomes, steel=None, steel_cases=rows, behind=[])
    off = cases.lever_arm[rows]
    flush, no_steel = rows[~off], no_shear.copy()
    no_steel[rows[off]] = position(Inapplicable.EN_LEVER_ARM)
    steel, by_steel = _flush_steel(cases, anchors, factors, flush, no_steel)
    pried, behind = _pry_out(cases, anchors, factors, no_shear)
    outcomes = [by_steel, _lever_arm(cases, anchors, n_rd_s), pried, _edge(cases, anchors, factors, rows, no_shear)]
    return ShearChecks(outcomes=outcomes, steel=steel, steel_cases=flush, behind=behind)


def _flush_steel(
    cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, rows: Index, reason: Index
) -> tuple[SteelFailureShear | None, ModeOutcome]:
    """Steel of the most sheared fastener of the cases ``rows``, which have no lever arm."""
    if not len(rows):
        return None, absent_outcome(Mode.EN_STEEL_SHEAR, reason)
    lead = anchors.lead(anchors.v)[rows]
    own = cases.take(rows)
    steel = steel_failure_shear(
        a_s=own.a_s,
        f_uk=own.f_uk,
        f_yk=own.f_yk,
        h_ef=own.h_ef,
        d_nom=own.d_nom,
        f_ck=factors.f_ck[rows],
        v0_rk_s_stated=own.v0_rk_s,
        several=several_loaded(anchors, anchors.sheared())[rows],
        k_7_group=own.k7,
        on_grout=own.on_grout,
        t_grout=own.t_grout,
        earthquake=own.earthquake,
        v0_rk_s_eq=own.v0_rk_s_eq,
        gap_filled=own.gap_filled,
        fire=own.fire,
        minutes=own.minutes,
        sigma_fi=own.sigma_fi,
        gamma_ms_stated=own.gamma_ms_v,
        demand=anchors.v[lead],
    )
    return steel, mode_outcome(Mode.EN_STEEL_SHEAR, steel, case_of_row=rows, reason=reason, anchor_of_row=lead)


def _lever_arm(cases: FastenerCases, anchors: Anchors, n_rd_s: Floats) -> ModeOutcome:
    """Steel of every sheared fastener with a lever arm: that of the one with most shear may have no tension."""
    no_shear, none = position(Inapplicable.EN_NO_SHEAR), position(Inapplicable.EN_NO_LEVER_ARM)
    reason = np.where(cases.lever_arm, no_shear, none)
    rows = np.flatnonzero(anchors.sheared() & cases.lever_arm[anchors.case])
    if not len(rows):
        return absent_outcome(Mode.EN_LEVER_ARM, reason)
    case = anchors.case[rows]
    own = cases.take(case)
    steel = steel_failure_lever_arm(
        d_nom=own.d_nom,
        a_s=own.a_s,
        f_uk=own.f_uk,
        f_yk=own.f_yk,
        clamped=own.clamped,
        free_length=own.free_length,
        t_fix=own.t_fix,
        n_ed=anchors.n_ua[rows],
        n_rd_s=n_rd_s[case],
        held=own.held,
        fire=own.fire,
        minutes=own.minutes,
        sigma_fi=own.sigma_fi,
        gamma_ms_stated=own.gamma_ms_v,
        demand=anchors.v[rows],
    )
    return mode_outcome(Mode.EN_LEVER_ARM, steel, case_of_row=case, reason=reason, anchor_of_row=rows)


def _pry_out(
    cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, reason: Index
) -> tuple[ModeOutcome, list[tuple[Record, Index]]]:
    """Groups of sheared fasteners, and each by itself where some are sheared against each other."""
    kinds = pried_sets(cases, anchors, factors)
    size = [len(own.case) for own in kinds]
    case = np.concatenate([own.case for own in kinds])
    order = np.argsort(case, kind="stable")
    case = case[order]

    def of_kinds(name: str) -> np.ndarray[Any, Any]:
        values = [np.broadcast_to(getattr(own, name), count) for own, count in zip(kinds, size, strict=True)]
        return np.concatenate(values)[order]

    by_itself, by_bond, characteristic = of_kinds("by_itself"), of_kinds("by_bond"), of_kinds("characteristic")
    strength = pry_out(
        opposed=by_itself,
        k_8=of_kinds("k_8"),
        by_bond=by_bond,
        n_rk_c=np.where(by_bond, 0.0, characteristic),
        n_rk_p=np.where(by_bond, characteristic, 0.0),
        fire=cases.fire[case],
        n_rk_c_fi=of_kinds("in_fire"),
        earthquake=cases.earthquake[case],
        gap_filled=of_kinds("gap_filled"),
        several=by_itself | _several(anchors, case, of_kinds("anchor_count")),
        like_headed=of_kinds("like_headed"),
        gamma_mc=factors.gamma_mc_v[case],
        demand=of_kinds("demand"),
    )
    members = _joined([own.members for own in kinds], order)
    outcome = mode_outcome(Mode.EN_PRY_OUT, strength, case_of_row=case, reason=reason, sets=members)
    kind = np.repeat(np.arange(len(kinds)), size)[order]
    first = np.cumsum(size) - size
    return outcome, [(own.resistance, np.where(kind == at, order - first[at], -1)) for at, own in enumerate(kinds)]


def _joined(parts: list[Membership | None], order: Index) -> Membership | None:
    """The members of several lists of groups as one, in the order given; None where each is one anchor alone."""
    known = [own for own in parts if own is not None]
    if len(known) < len(parts):
        return None
    whole = known[0]
    for own in known[1:]:
        whole = Membership.of_both(whole, own, np.arange(len(whole.case_of_group) + len(own.case_of_group)))
    return whole.take(order)


def _several(anchors: Anchors, case: Index, anchor_count: Floats) -> Bools:
    """(rows,) whether sets have several fasteners, or their ``case`` has several that are sheared."""
    return (anchor_count > 1) | several_loaded(anchors, anchors.sheared())[case]


def _edge(
    cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, rows: Index, no_shear: Index
) -> ModeOutcome:
    """Rows at edges within max(10 h_ef, 60 d_nom) (reading 25)."""
    reason = no_shear.copy()
    reason[rows] = position(Inapplicable.EN_NO_EDGE)
    if not some(np.isfinite(anchors.c_a).any(axis=1) & (anchors.v > 0)):
        return absent_outcome(Mode.EN_EDGE, reason)
    sets = near_rows(anchors, either_x=cases.either_x, either_y=cases.either_y, own_share=cases.own_share)
    most = np.maximum(10 * cases.h_ef, 60 * cases.d_nom)[sets.case]
    near = np.flatnonzero(sets.c_a1 <= most * (1 + 1e-9))
    if not len(near):
        return absent_outcome(Mode.EN_EDGE, reason)
    case, members = sets.case[near], sets.membership.take(near)
    kept = replace(sets, case=case, edge=sets.edge[near], membership=members)
    own, h_ef = cases.take(case), least_of(cases.h_ef, anchors, kept)
    strength = concrete_edge(
        c_1=sets.c_a1[near],
        c_2_low=sets.c_a2[near, 0],
        c_2_high=sets.c_a2[near, 1],
        h=own.h,
        anchor_count=members.anchor_count,
        extent=sets.extent[near],
        s_2_max=members.largest_spacing,
        h_ef=h_ef,
        d_nom=least_of(cases.d_nom, anchors, kept),
        l_f_stated=least_of(cases.l_f, anchors, kept),
        cracked=own.cracked,
        f_ck=factors.f_ck[case],
        e_v=sets.eccentricity[near],
        v_towards=sets.towards[near],
        v_along=sets.along[near],
        opposed=members.least(nearest_against(anchors)) <= 1.5 * (h_ef + sets.c_a1[near]) * (1 + 1e-9),
        earthquake=own.earthquake,
        gap_filled=all_of(cases.gap_filled, anchors, kept),
        several=_several(anchors, case, members.anchor_count),
        fire=own.fire,
        minutes=own.minutes,
        gamma_mc=factors.gamma_mc_v[case],
    )
    return mode_outcome(
        Mode.EN_EDGE,
        strength,
        case_of_row=case,
        reason=reason,
        edge_of_row=kept.edge,
        sets=None if anchors.single else members,
    )
