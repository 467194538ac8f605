"""The tension checks of Table 17.5.2 for single anchors: a list of calls. Units: in, in2, lbf, psi."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.aci318_19.adhesive_bond import AdhesiveBond, adhesive_bond
from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.anchor_reinforcement import AnchorReinforcement, anchor_reinforcement
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis
from hangpoint.core.aci318_19.concrete_breakout_tension import ConcreteBreakoutTension, concrete_breakout_tension
from hangpoint.core.aci318_19.pullout import Pullout, pullout
from hangpoint.core.aci318_19.side_face_blowout import (
    SideFaceBlowout,
    blowout_edges,
    perpendicular_edge,
    side_face_blowout,
)
from hangpoint.core.aci318_19.steel_tension import SteelTension, steel_tension
from hangpoint.core.aci318_19.sustained_bond import sustained_bond
from hangpoint.core.geometry.grouping import anchors_alone
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Inapplicable, Mode, position


@dataclass(frozen=True, kw_only=True)
class TensionChecks:
    """Modes in tension, and of each case the nominal strengths that other checks build on.

    ``n_concrete`` is the least nominal strength of breakout or of the anchor reinforcement in its place, of pullout,
    blowout and bond, lbf; ``n_cb`` and ``n_a`` (0 without adhesive) are those of breakout and bond.
    """

    outcomes: list[ModeOutcome]
    steel: SteelTension
    n_cb: Floats
    n_a: Floats
    n_concrete: Floats


def tension_checks(anchors: AnchorCases, basis: ConcreteBasis, seismic_factor: Floats) -> TensionChecks:
    """Every tension mode of every case.

    Args:
        anchors: the cases.
        basis: of the same cases.
        seismic_factor: (cases,) factor of 17.10.5.4.
    """
    count = len(anchors.n_ua)
    n_concrete = np.full(count, np.inf)
    steel = _steel(anchors)
    pulled, pullout_outcome = _pullout(anchors, basis, seismic_factor)
    _least(n_concrete, pullout_outcome.case_of_row, pulled.n_pn)
    breakout = _breakout(anchors, basis, seismic_factor)
    n_concrete = np.where(anchors.reinforced_n, n_concrete, np.minimum(n_concrete, breakout.n_cb))
    bars, bars_outcome = _reinforcement(anchors)
    if bars is not None:
        _least(n_concrete, bars_outcome.case_of_row, bars.r_s)
    blown, blowout_outcome = _blowout(anchors, basis, seismic_factor)
    _least(n_concrete, blowout_outcome.case_of_row, blown.n_sb)
    bond, bond_outcomes = _bond(anchors, basis, seismic_factor)
    n_a = np.zeros(count)
    if bond is not None:
        n_a[anchors.adhesive] = bond.n_a
        _least(n_concrete, np.flatnonzero(anchors.adhesive), bond.n_a)
    return TensionChecks(
        outcomes=[
            mode_outcome(Mode.STEEL_TENSION, steel),
            pullout_outcome,
            *bond_outcomes,
            _unreinforced(breakout, anchors.reinforced_n),
            blowout_outcome,
            bars_outcome,
        ],
        steel=steel,
        n_cb=breakout.n_cb,
        n_a=n_a,
        n_concrete=n_concrete,
    )


def _least(column: Floats, cases: Index | None, values: Floats) -> None:
    if cases is None:
        np.minimum(column, values, out=column)
    else:
        np.minimum.at(column, cases, values)


def _steel(anchors: AnchorCases) -> SteelTension:
    return steel_tension(
        a_se_n=anchors.a_se_n,
        f_uta_specified=anchors.f_uta,
        f_ya=anchors.f_ya,
        ductile=anchors.ductile,
        demand=anchors.n_ua,
    )


def _pullout(anchors: AnchorCases, basis: ConcreteBasis, seismic_factor: Floats) -> tuple[Pullout, ModeOutcome]:
    governs = anchors.pullout_governs & ~anchors.adhesive
    rows = None if governs.all() else np.flatnonzero(governs)
    lambda_p = np.where(anchors.tested_lightweight, 1.0, basis.lambda_a)
    reason = np.where(anchors.adhesive, position(Inapplicable.ADHESIVE), position(Inapplicable.PULLOUT_NOT_GOVERNING))
    if rows is not None:
        anchors, basis, lambda_p = anchors.take(rows), basis.take(rows), lambda_p[rows]
        seismic_factor = seismic_factor[rows]
    strength = pullout(
        method=anchors.pullout_method,
        cracked=anchors.cracked,
        f_c=basis.f_c,
        n_p_cr=anchors.n_p_cr,
        n_p_uncr=anchors.n_p_uncr,
        by_seismic_tests=anchors.by_seismic_tests,
        n_p_eq=anchors.n_p_eq,
        f_c_ref=anchors.f_c_ref,
        n_exponent=anchors.n_exponent,
        lambda_p=lambda_p,
        a_brg=anchors.a_brg,
        d_a=anchors.d_a,
        e_h=anchors.e_h,
        seismic_factor=seismic_factor,
        phi=basis.phi_p,
        demand=anchors.n_ua,
    )
    if rows is None:
        return strength, mode_outcome(Mode.PULLOUT, strength)
    return strength, mode_outcome(Mode.PULLOUT, strength, case_of_row=rows, reason=reason)


def _breakout(anchors: AnchorCases, basis: ConcreteBasis, seismic_factor: Floats) -> ConcreteBreakoutTension:
    count = len(anchors.n_ua)
    groups = anchors_alone(case_of_anchor=np.arange(count))
    concentric = np.zeros(count)
    return concrete_breakout_tension(
        h_ef=anchors.h_ef,
        c_a=anchors.c_a,
        anchor_count=groups.anchor_count,
        s_max=groups.largest_spacing,
        e_n_x=concentric,
        e_n_y=concentric,
        cracked=anchors.cracked,
        cast_in=anchors.cast_in,
        headed=anchors.headed,
        product_k_c=anchors.product_k_c,
        k_cr=anchors.k_cr,
        k_uncr=anchors.k_uncr,
        c_ac=anchors.c_ac,
        lambda_a=basis.lambda_a,
        f_c=basis.f_c,
        seismic_factor=seismic_factor,
        phi=basis.phi_c,
        demand=anchors.n_ua,
    )


def _unreinforced(breakout: ConcreteBreakoutTension, reinforced: Bools) -> ModeOutcome:
    """Breakout in the cases without anchor reinforcement in its place."""
    if not reinforced.any():
        return mode_outcome(Mode.CONCRETE_BREAKOUT_TENSION, breakout)
    rows = np.flatnonzero(~reinforced)
    reason = np.full(len(reinforced), position(Inapplicable.REINFORCED))
    return mode_outcome(Mode.CONCRETE_BREAKOUT_TENSION, breakout.take(rows), case_of_row=rows, reason=reason)


def _blowout(anchors: AnchorCases, basis: ConcreteBasis, seismic_factor: Floats) -> tuple[SideFaceBlowout, ModeOutcome]:
    rows, edge = blowout_edges(h_ef=anchors.h_ef, c_a=anchors.c_a, headed=anchors.headed)
    reason = np.where(anchors.headed, position(Inapplicable.NO_SHALLOW_EDGE), position(Inapplicable.NOT_HEADED))
    c_a = anchors.c_a[rows]
    strength = side_face_blowout(
        h_ef=anchors.h_ef[rows],
        c_a1=c_a[np.arange(len(rows)), edge],
        c_a2=perpendicular_edge(c_a=c_a, edge=edge),
        a_brg=anchors.a_brg[rows],
        lambda_a=basis.lambda_a[rows],
        f_c=basis.f_c[rows],
        lone=np.ones(len(rows), dtype=np.bool_),
        s_row=np.zeros(len(rows)),
        seismic_factor=seismic_factor[rows],
        phi=basis.phi_c[rows],
        demand=anchors.n_ua[rows],
    )
    return strength, mode_outcome(Mode.SIDE_FACE_BLOWOUT, strength, case_of_row=rows, reason=reason, edge_of_row=edge)


def _bond(
    anchors: AnchorCases, basis: ConcreteBasis, seismic_factor: Floats
) -> tuple[AdhesiveBond | None, list[ModeOutcome]]:
    count = len(anchors.n_ua)
    reason = np.full(count, position(Inapplicable.NOT_ADHESIVE))
    rows = np.flatnonzero(anchors.adhesive)
    if not len(rows):
        return None, [absent_outcome(mode, reason) for mode in (Mode.ADHESIVE_BOND, Mode.SUSTAINED_BOND)]
    own, own_basis, groups = anchors.take(rows), basis.take(rows), anchors_alone(case_of_anchor=rows)
    concentric = np.zeros(len(rows))
    bond = adhesive_bond(
        d_a=own.d_a,
        h_ef=own.h_ef,
        c_a=own.c_a,
        anchor_count=groups.anchor_count,
        e_n_x=concentric,
        e_n_y=concentric,
        cracked=own.cracked,
        tau_cr=own.tau_cr,
        tau_uncr=own.tau_uncr,
        by_seismic_tests=own.by_seismic_bond,
        alpha_n_seis=own.alpha_n_seis,
        tau_exponent=own.tau_exponent,
        f_c_ref=own.f_c_ref_bond,
        f_c=own_basis.f_c,
        lambda_bond=own_basis.lambda_bond,
        c_ac=own.c_ac,
        seismic_factor=seismic_factor[rows],
        phi=own_basis.phi_c,
        demand=own.n_ua,
    )
    sustained = np.flatnonzero(own.n_ua_s > 0)
    staying = sustained_bond(n_ba=bond.n_ba[sustained], phi=own_basis.phi_c[sustained], demand=own.n_ua_s[sustained])
    not_staying = np.where(anchors.adhesive, position(Inapplicable.NOT_SUSTAINED), reason)
    return bond, [
        mode_outcome(Mode.ADHESIVE_BOND, bond, case_of_row=rows, reason=reason),
        mode_outcome(Mode.SUSTAINED_BOND, staying, case_of_row=rows[sustained], reason=not_staying),
    ]


def _reinforcement(anchors: AnchorCases) -> tuple[AnchorReinforcement | None, ModeOutcome]:
    reason = np.full(len(anchors.n_ua), position(Inapplicable.NOT_REINFORCED))
    rows = np.flatnonzero(anchors.reinforced_n)
    if not len(rows):
        return None, absent_outcome(Mode.REINFORCEMENT_TENSION, reason)
    bars = anchor_reinforcement(a_s=anchors.a_s_n[rows], f_y=anchors.f_y_n[rows], demand=anchors.n_ua[rows])
    return bars, mode_outcome(Mode.REINFORCEMENT_TENSION, bars, case_of_row=rows, reason=reason)
