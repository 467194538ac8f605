"""The shear checks of Table 17.5.2: a list of calls. Units: in, in2, lbf, psi."""

from functools import partial

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.anchor_reinforcement import anchor_reinforcement
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis
from hangpoint.core.aci318_19.concrete_breakout_shear import concrete_breakout_shear
from hangpoint.core.aci318_19.edge_sets import shear_sets
from hangpoint.core.aci318_19.limits import far_corner
from hangpoint.core.aci318_19.pryout import pryout
from hangpoint.core.aci318_19.steel_shear import steel_shear
from hangpoint.core.aci318_19.tension import bond_of_sets, bond_sets, breakout_of_sets, tension_sets
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.grouping import Membership
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index, Record
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Inapplicable, Mode, position

MODES = (Mode.STEEL_SHEAR, Mode.CONCRETE_BREAKOUT_SHEAR, Mode.PRYOUT, Mode.REINFORCEMENT_SHEAR)


@frozen
class ShearChecks:
    """Modes in shear, and the nominal strengths in tension that pryout rests on, by row of its record."""

    outcomes: list[ModeOutcome]
    behind: list[tuple[Record, Index]]


def shear_checks(cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis) -> ShearChecks:
    """Every shear mode of the cases with shear, in the order of `MODES`.

    Args:
        cases: product, base and options.
        anchors: of the same cases.
        basis: of the same cases.

    Returns:
        The modes; behind pryout, each record of strength with its row for each row of pryout, -1 where it has none.
    """
    sheared = anchors.total(anchors.v) > 0
    no_shear = np.full(anchors.case_count, position(Inapplicable.NO_SHEAR))
    rows = np.flatnonzero(sheared)
    if not len(rows):
        return ShearChecks(outcomes=[absent_outcome(mode, no_shear) for mode in MODES], behind=[])
    in_concrete = no_shear.copy()
    in_concrete[sheared & cases.in_deck] = position(Inapplicable.IN_DECK)
    pried, behind = _pryout(cases, anchors, basis, in_concrete)
    return ShearChecks(
        outcomes=[
            _steel(cases, anchors, rows, no_shear),
            _breakout(cases, anchors, basis, sheared, no_shear),
            pried,
            _reinforcement(cases, anchors, rows, no_shear),
        ],
        behind=behind,
    )


def _steel(cases: AnchorCases, anchors: Anchors, rows: Index, no_shear: Index) -> ModeOutcome:
    """Steel of the most sheared anchor of each case."""
    own, lead = cases.take(rows), anchors.lead(anchors.v)[rows]
    steel = steel_shear(
        a_se_v=own.a_se_n,
        f_uta_specified=own.f_uta,
        f_ya=own.f_ya,
        ductile=own.ductile,
        welded_stud=own.welded_stud,
        tested=own.by_shear_tests,
        alone=own.v_sa_eq_alone,
        v_sa_tested=own.v_sa,
        grout_pad=own.grout_pad,
        demand=anchors.v[lead],
    )
    return mode_outcome(Mode.STEEL_SHEAR, steel, case_of_row=rows, reason=no_shear, anchor_of_row=lead)


def _pryout(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, reason: Index
) -> tuple[ModeOutcome, list[tuple[Record, Index]]]:
    """Sets of sheared anchors by breakout, and those of adhesive anchors by bond as well (reading 18)."""
    counts = anchors.sheared() & ~cases.in_deck[anchors.case]
    if not some(counts):
        return absent_outcome(Mode.PRYOUT, reason), []
    torn, bonded = (judged(cases, anchors, counts=counts, load=anchors.v) for judged in (tension_sets, bond_sets))
    concrete = breakout_of_sets(cases, anchors, basis, torn, tension=None)
    adhesive = bond_of_sets(cases, anchors, basis, bonded, tension=None)
    case = np.concatenate((torn.case, bonded.case))
    order = np.argsort(case, kind="stable")
    by_bond = np.arange(len(case)) >= len(torn.case)
    case = case[order]
    strength = pryout(
        h_ef=np.concatenate((concrete.h_ef, adhesive.h_ef))[order],
        by_bond=by_bond[order],
        n_cb=np.concatenate((concrete.n_cb, np.zeros(len(bonded.case))))[order],
        n_a=np.concatenate((np.zeros(len(torn.case)), adhesive.n_a))[order],
        phi=np.full(len(case), 0.70),
        demand=np.concatenate((torn.total(anchors.v), bonded.total(anchors.v)))[order],
    )
    sets = None
    if torn.membership is not None and bonded.membership is not None:
        sets = Membership.of_both(torn.membership, bonded.membership, order)
    outcome = mode_outcome(Mode.PRYOUT, strength, case_of_row=case, reason=reason, sets=sets)
    row = np.where(by_bond, np.arange(len(case)) - len(torn.case), np.arange(len(case)))[order]
    behind: list[tuple[Record, Index]] = [
        (concrete, np.where(by_bond[order], -1, row)),
        (adhesive, np.where(by_bond[order], row, -1)),
    ]
    return outcome, behind


def _breakout(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, sheared: Bools, no_shear: Index
) -> ModeOutcome:
    reason = no_shear.copy()
    reason[sheared] = np.where(
        cases.reinforced_v, position(Inapplicable.REINFORCED), position(Inapplicable.NO_EDGE_SHEARED)
    )[sheared]
    reason[sheared & cases.in_deck] = position(Inapplicable.IN_DECK)
    if not some(np.isfinite(anchors.c_a).any(axis=1) & (anchors.v > 0)):
        return absent_outcome(Mode.CONCRETE_BREAKOUT_SHEAR, reason)
    sets = shear_sets(anchors, either_x=cases.either_x, either_y=cases.either_y, welded=cases.far_row_only)
    free = np.flatnonzero(~(cases.reinforced_v | cases.in_deck)[sets.case])
    case = sets.case[free]
    if not len(free):
        return absent_outcome(Mode.CONCRETE_BREAKOUT_SHEAR, reason)
    own, concrete, c_a2 = cases.take(case), basis.take(case), sets.c_a2[free]
    members = None if anchors.single else sets.membership.take(free)
    h_ef, d_a = own.h_ef, own.d_a
    if members is not None and anchors.joint is not None:  # those of several points may differ
        h_ef, d_a = members.least(cases.h_ef[anchors.case]), members.least(cases.d_a[anchors.case])
    strength_of = partial(
        concrete_breakout_shear,
        c_a1=sets.c_a1[free],
        c_a2=c_a2,
        h_a=own.h_a,
        h_ef=h_ef,
        d_a=d_a,
        distance_sleeve=own.distance_sleeve,
        welded=own.welded & far_corner(c_a2_min=c_a2.min(axis=1), h_ef=own.h_ef),
        extent=sets.extent[free],
        s_max=sets.membership.largest_spacing[free],
        anchor_count=sets.membership.anchor_count[free],
        e_v=sets.eccentricity[free],
        cracked=own.cracked,
        edge_reinforcement=own.edge_reinforcement,
        lambda_a=concrete.lambda_a,
        f_c=concrete.f_c,
        phi=concrete.phi_v,
        v_towards=sets.towards[free],
        v_along=sets.along[free],
        oblique=own.oblique,
    )
    none, pushed, edge = np.zeros(len(free)), sets.towards[free] > 0, sets.edge[free]
    strength = strength_of(r_along_row=none)
    if members is not None and some(pushed) and some(~pushed):
        beside = _along_row(members, edge, r_along=np.where(pushed, 0.0, strength.r_along), anchors=len(anchors.case))
        strength = strength_of(r_along_row=np.where(pushed, beside, 0.0))
    return mode_outcome(
        Mode.CONCRETE_BREAKOUT_SHEAR, strength, case_of_row=case, reason=reason, edge_of_row=edge, sets=members
    )


def _along_row(members: Membership, edge: Index, *, r_along: Floats, anchors: int) -> Floats:
    """Of each set at its edge the largest ratio of any set there that has an anchor of it."""
    largest = np.zeros((anchors, 4))
    member, at = members.member_anchor, edge[members.member_group]
    np.maximum.at(largest, (member, at), r_along[members.member_group])
    found = np.zeros(len(edge))
    np.maximum.at(found, members.member_group, largest[member, at])
    return found


def _reinforcement(cases: AnchorCases, anchors: Anchors, rows: Index, no_shear: Index) -> ModeOutcome:
    """Anchor reinforcement takes the shear of all anchors of its case, whatever their directions."""
    reason = no_shear.copy()
    reason[rows] = position(Inapplicable.NOT_REINFORCED)
    bars = rows[cases.reinforced_v[rows]]
    if not len(bars):
        return absent_outcome(Mode.REINFORCEMENT_SHEAR, reason)
    total = anchors.total(anchors.v)[bars]
    strength = anchor_reinforcement(a_s=cases.a_s_v[bars], f_y=cases.f_y_v[bars], demand=total)
    return mode_outcome(Mode.REINFORCEMENT_SHEAR, strength, case_of_row=bars, reason=reason)
