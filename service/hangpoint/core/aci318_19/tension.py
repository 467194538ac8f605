"""The tension checks of Table 17.5.2: a list of calls. Units: in, in2, lbf, psi."""

import numpy as np

from hangpoint.core.aci318_19.adhesive_bond import BondStrength, adhesive_bond, bond_reach, bond_strength
from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.anchor_reinforcement import anchor_reinforcement
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis
from hangpoint.core.aci318_19.concrete_breakout_tension import (
    BreakoutStrength,
    breakout_strength,
    concrete_breakout_tension,
)
from hangpoint.core.aci318_19.edge_sets import blowout_sets
from hangpoint.core.aci318_19.pullout import pullout
from hangpoint.core.aci318_19.side_face_blowout import side_face_blowout
from hangpoint.core.aci318_19.steel_tension import SteelTension, steel_tension
from hangpoint.core.aci318_19.sustained_bond import sustained_bond
from hangpoint.core.anchor_sets.anchors import Anchors, Sets, judged_sets
from hangpoint.core.anchor_sets.of_sets import eccentricity, largest_of, least_of, least_stated
from hangpoint.core.frozen import frozen
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index, StrengthRecord
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Inapplicable, Mode, position


@frozen
class TensionChecks:
    """Modes in tension, and of each case what option (a) of 17.10.5.3 compares."""

    outcomes: list[ModeOutcome]
    steel: SteelTension
    limits: "ConcreteLimits"


def tension_checks(cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, seismic_factor: Floats) -> TensionChecks:
    """Every tension mode of every case.

    Args:
        cases: product, base and options.
        anchors: of the same cases.
        basis: of the same cases.
        seismic_factor: (cases,) factor of 17.10.5.4; a set of anchors of several cases has the least of theirs.
    """
    lead = anchors.lead(anchors.n_ua)
    limits = ConcreteLimits(anchors.case_count)
    steel = steel_tension(
        a_se_n=cases.a_se_n,
        f_uta_specified=cases.f_uta,
        f_ya=cases.f_ya,
        ductile=cases.ductile,
        demand=anchors.n_ua[lead],
    )
    return TensionChecks(
        outcomes=[
            mode_outcome(Mode.STEEL_TENSION, steel, anchor_of_row=lead),
            _pullout(cases, anchors, basis, seismic_factor, lead, limits),
            *_bond(cases, anchors, basis, seismic_factor, limits),
            _breakout(cases, anchors, basis, seismic_factor, limits),
            _blowout(cases, anchors, basis, seismic_factor, limits),
            _reinforcement(cases, anchors, limits),
        ],
        steel=steel,
        limits=limits,
    )


@frozen
class _Limit:
    """Nominal strengths of one mode, and the total tension and that of the most loaded anchor of each, (rows,)."""

    case: Index
    nominal: Floats
    total: Floats
    largest: Floats


class ConcreteLimits:
    """The nominal strengths of breakout or of the anchor reinforcement in its place, of pullout, blowout and bond."""

    def __init__(self, count: int) -> None:
        self._count = count
        self._modes: list[_Limit] = []

    def add(self, case: Index, nominal: Floats, *, total: Floats, largest: Floats) -> None:
        """Those of sets of anchors with their total tension and that of their most loaded anchor."""
        self._modes.append(_Limit(case=case, nominal=nominal, total=total, largest=largest))

    def least(self) -> Floats:
        """(cases,) the least of them, lbf; of a set the share that its most loaded anchor has in its tension."""
        least = np.full(self._count, np.inf)
        for mode in self._modes:
            pulled = mode.total > 0
            share = np.where(pulled, mode.largest / np.where(pulled, mode.total, 1.0), 1.0)
            np.minimum.at(least, mode.case, mode.nominal * share)
        return least


def tension_sets(cases: AnchorCases, anchors: Anchors, *, counts: Bools, load: Floats) -> Sets:
    """Sets of anchors that break out of the concrete together: closer than 3 h_ef (Table 17.5.1.3.1)."""
    limit = 3 * cases.h_ef[anchors.case]
    return judged_sets(anchors, limit=limit, counts=counts, load=load, bounding=cases.bounding)


def bond_sets(cases: AnchorCases, anchors: Anchors, *, counts: Bools, load: Floats) -> Sets:
    """Sets of adhesive anchors whose bonds act together: closer than 2 c_Na."""
    adhesive = cases.adhesive
    c_na = bond_reach(d_a=cases.d_a, tau_uncr=np.where(adhesive, cases.tau_uncr, 1.0))
    at = anchors.case
    return judged_sets(anchors, limit=2 * c_na[at], counts=counts & adhesive[at], load=load, bounding=cases.bounding)


def breakout_of_sets(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, sets: Sets, *, tension: Floats | None
) -> BreakoutStrength:
    """Nominal breakout strength of each set.

    Args:
        cases, anchors, basis: all of them.
        sets: of the anchors.
        tension: (anchors,) for the eccentricity, lbf; without it there is none (pryout, reading 18).
    """
    own, concrete = cases.take(sets.case), basis.take(sets.case)
    e_n_x, e_n_y = eccentricity(anchors, sets, tension)
    return breakout_strength(
        h_ef=least_of(cases.h_ef, anchors, sets),
        footprint=sets.footprint,
        anchor_count=sets.anchor_count,
        s_max=sets.largest_spacing,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        cracked=own.cracked,
        cast_in=own.cast_in,
        headed=own.headed,
        product_k_c=own.product_k_c,
        k_cr=least_stated(cases.k_cr, anchors, sets),
        k_uncr=least_stated(cases.k_uncr, anchors, sets),
        c_ac=largest_of(cases.c_ac, anchors, sets),
        lambda_a=concrete.lambda_a,
        f_c=concrete.f_c,
    )


def bond_of_sets(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, sets: Sets, *, tension: Floats | None
) -> BondStrength:
    """Nominal bond strength of each set; arguments as in `breakout_of_sets`."""
    own, concrete = cases.take(sets.case), basis.take(sets.case)
    e_n_x, e_n_y = eccentricity(anchors, sets, tension)
    return bond_strength(
        d_a=own.d_a,
        h_ef=least_of(cases.h_ef, anchors, sets),
        footprint=sets.footprint,
        anchor_count=sets.anchor_count,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        cracked=own.cracked,
        tau_cr=own.tau_cr,
        tau_uncr=own.tau_uncr,
        by_seismic_tests=own.by_seismic_bond,
        alpha_n_seis=own.alpha_n_seis,
        tau_exponent=own.tau_exponent,
        f_c_ref=own.f_c_ref_bond,
        f_c=concrete.f_c,
        lambda_bond=concrete.lambda_bond,
        c_ac=own.c_ac,
    )


def _pullout(
    cases: AnchorCases,
    anchors: Anchors,
    basis: ConcreteBasis,
    seismic_factor: Floats,
    lead: Index,
    limits: ConcreteLimits,
) -> ModeOutcome:
    governs = cases.pullout_governs & ~cases.adhesive
    rows = np.flatnonzero(governs)
    own, concrete, demand = cases.take(rows), basis.take(rows), anchors.n_ua[lead[rows]]
    strength = pullout(
        method=own.pullout_method,
        in_deck=own.in_deck,
        cracked=own.cracked,
        f_c=concrete.f_c,
        n_p_cr=own.n_p_cr,
        n_p_uncr=own.n_p_uncr,
        by_seismic_tests=own.by_seismic_tests,
        n_p_eq=own.n_p_eq,
        f_c_ref=own.f_c_ref,
        n_exponent=own.n_exponent,
        lambda_p=np.where(own.tested_lightweight, 1.0, concrete.lambda_a),
        a_brg=own.a_brg,
        d_a=own.d_a,
        e_h=own.e_h,
        seismic_factor=seismic_factor[rows],
        phi=concrete.phi_p,
        demand=demand,
    )
    limits.add(rows, strength.n_pn, total=demand, largest=demand)
    if len(rows) == len(governs):
        return mode_outcome(Mode.PULLOUT, strength, anchor_of_row=lead)
    reason = np.where(cases.adhesive, position(Inapplicable.ADHESIVE), position(Inapplicable.PULLOUT_NOT_GOVERNING))
    return mode_outcome(Mode.PULLOUT, strength, case_of_row=rows, reason=reason, anchor_of_row=lead[rows])


def _breakout(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, seismic_factor: Floats, limits: ConcreteLimits
) -> ModeOutcome:
    counts = anchors.pulled()
    reason = np.where(cases.reinforced_n, position(Inapplicable.REINFORCED), position(Inapplicable.NO_TENSION))
    if some(cases.in_deck):
        counts &= ~cases.in_deck[anchors.case]
        reason[cases.in_deck] = position(Inapplicable.IN_DECK)
    sets = tension_sets(cases, anchors, counts=counts, load=anchors.n_ua)
    if some(cases.reinforced_n):  # bars hold their own anchors, and leave the concrete to those beside them
        sets = sets.take(np.flatnonzero(~cases.reinforced_n[sets.case]))
    if not len(sets.case):
        return absent_outcome(Mode.CONCRETE_BREAKOUT_TENSION, reason)
    total = sets.total(anchors.n_ua)
    strength = concrete_breakout_tension(
        breakout_of_sets(cases, anchors, basis, sets, tension=anchors.n_ua),
        seismic_factor=least_of(seismic_factor, anchors, sets),
        phi=least_of(basis.phi_c, anchors, sets),
        demand=total,
    )
    limits.add(sets.case, strength.n_cb, total=total, largest=sets.largest(anchors.n_ua))
    return _set_outcome(Mode.CONCRETE_BREAKOUT_TENSION, strength, anchors, sets, reason)


def _set_outcome(mode: Mode, strength: StrengthRecord, anchors: Anchors, sets: Sets, reason: Index) -> ModeOutcome:
    if anchors.single and len(sets.case) == anchors.case_count:
        return mode_outcome(mode, strength)
    return mode_outcome(mode, strength, case_of_row=sets.case, reason=reason, sets=sets.membership)


def _blowout(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, seismic_factor: Floats, limits: ConcreteLimits
) -> ModeOutcome:
    reason = np.full(anchors.case_count, position(Inapplicable.NOT_HEADED))
    if not some(cases.headed):
        return absent_outcome(Mode.SIDE_FACE_BLOWOUT, reason)
    reason[cases.headed] = position(Inapplicable.NO_SHALLOW_EDGE)
    sets = blowout_sets(anchors, h_ef=cases.h_ef, headed=cases.headed)
    if sets is None:
        return absent_outcome(Mode.SIDE_FACE_BLOWOUT, reason)
    own, concrete, members = cases.take(sets.case), basis.take(sets.case), sets.membership
    total = members.total(anchors.n_ua)
    strength = side_face_blowout(
        h_ef=own.h_ef,
        c_a1=sets.c_a1,
        c_a2=sets.c_a2.min(axis=1),
        a_brg=least_of(cases.a_brg, anchors, sets),
        lambda_a=concrete.lambda_a,
        f_c=concrete.f_c,
        lone=members.anchor_count == 1,
        s_row=sets.extent,
        seismic_factor=least_of(seismic_factor, anchors, sets),
        phi=least_of(basis.phi_c, anchors, sets),
        demand=total,
    )
    limits.add(sets.case, strength.n_sb, total=total, largest=members.largest(anchors.n_ua))
    return mode_outcome(
        Mode.SIDE_FACE_BLOWOUT,
        strength,
        case_of_row=sets.case,
        reason=reason,
        edge_of_row=sets.edge,
        sets=None if anchors.single else members,
    )


def _bond(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, seismic_factor: Floats, limits: ConcreteLimits
) -> list[ModeOutcome]:
    not_adhesive = position(Inapplicable.NOT_ADHESIVE)
    if not some(cases.adhesive):
        reason = np.full(anchors.case_count, not_adhesive)
        return [absent_outcome(mode, reason) for mode in (Mode.ADHESIVE_BOND, Mode.SUSTAINED_BOND)]
    reason = np.where(cases.adhesive, position(Inapplicable.NO_TENSION), not_adhesive)
    sets = bond_sets(cases, anchors, counts=anchors.pulled(), load=anchors.n_ua)
    if not len(sets.case):
        return [absent_outcome(mode, reason) for mode in (Mode.ADHESIVE_BOND, Mode.SUSTAINED_BOND)]
    total = sets.total(anchors.n_ua)
    bond = adhesive_bond(
        bond_of_sets(cases, anchors, basis, sets, tension=anchors.n_ua),
        seismic_factor=least_of(seismic_factor, anchors, sets),
        phi=least_of(basis.phi_c, anchors, sets),
        demand=total,
    )
    limits.add(sets.case, bond.n_a, total=total, largest=sets.largest(anchors.n_ua))
    outcome = mode_outcome(Mode.ADHESIVE_BOND, bond, case_of_row=sets.case, reason=reason, sets=sets.membership)
    return [outcome, _sustained(cases, anchors, basis, bond=bond, sets=sets)]


def _sustained(
    cases: AnchorCases, anchors: Anchors, basis: ConcreteBasis, *, bond: BondStrength, sets: Sets
) -> ModeOutcome:
    """The anchor with the most tension that stays; N_ba is that of one anchor, whatever its set."""
    lead = anchors.lead(anchors.n_ua_s)
    has, first = np.unique(sets.case, return_index=True)
    stays = anchors.n_ua_s[lead[has]] > 0
    rows, of = has[stays], first[stays]
    staying = sustained_bond(
        n_ba=bond.n_ba[of],
        phi=basis.phi_c[rows],
        open_share=cases.open_share[rows],
        demand=anchors.n_ua_s[lead[rows]],
    )
    reason = np.where(cases.adhesive, position(Inapplicable.NOT_SUSTAINED), position(Inapplicable.NOT_ADHESIVE))
    return mode_outcome(Mode.SUSTAINED_BOND, staying, case_of_row=rows, reason=reason, anchor_of_row=lead[rows])


def _reinforcement(cases: AnchorCases, anchors: Anchors, limits: ConcreteLimits) -> ModeOutcome:
    """Anchor reinforcement takes the tension of all anchors of its case."""
    reason = np.full(anchors.case_count, position(Inapplicable.NOT_REINFORCED))
    rows = np.flatnonzero(cases.reinforced_n)
    if not len(rows):
        return absent_outcome(Mode.REINFORCEMENT_TENSION, reason)
    total = anchors.total(anchors.n_ua)[rows]
    bars = anchor_reinforcement(a_s=cases.a_s_n[rows], f_y=cases.f_y_n[rows], demand=total)
    lead = anchors.lead(anchors.n_ua)[rows]
    limits.add(rows, bars.r_s, total=total, largest=anchors.n_ua[lead])
    return mode_outcome(Mode.REINFORCEMENT_TENSION, bars, case_of_row=rows, reason=reason)
