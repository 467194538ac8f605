"""The tension checks of Table 17.5.2 for single anchors: a list of calls. Units: in, in2, lbf, psi."""

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis, concrete_basis
from hangpoint.core.aci318_19.concrete_breakout_tension import concrete_breakout_tension
from hangpoint.core.aci318_19.pullout import pullout
from hangpoint.core.aci318_19.side_face_blowout import blowout_edges, perpendicular_edge, side_face_blowout
from hangpoint.core.aci318_19.steel_tension import steel_tension
from hangpoint.core.geometry.grouping import anchors_alone
from hangpoint.core.outcome import ModeOutcome, mode_outcome
from hangpoint.core.vocabulary import Inapplicable, Mode, position


def check(anchors: AnchorCases) -> tuple[ConcreteBasis, list[ModeOutcome]]:
    """Every tension mode of every case.

    Returns:
        The concrete basis (a row a case) and the modes in the order in which the first largest governs.
    """
    basis = concrete_basis(
        cast_in=anchors.cast_in,
        undercut=anchors.undercut,
        category=anchors.category,
        supplementary=anchors.supplementary,
        cracked=anchors.cracked,
        f_c_specified=anchors.f_c_specified,
        lightweight=anchors.lightweight,
        lambda_c=anchors.lambda_c,
    )
    return basis, [
        _steel(anchors),
        _pullout(anchors, basis),
        _breakout(anchors, basis),
        _blowout(anchors, basis),
    ]


def _steel(anchors: AnchorCases) -> ModeOutcome:
    steel = steel_tension(
        a_se_n=anchors.a_se_n,
        f_uta_specified=anchors.f_uta,
        f_ya=anchors.f_ya,
        ductile=anchors.ductile,
        demand=anchors.n_ua,
    )
    return mode_outcome(Mode.STEEL_TENSION, steel)


def _pullout(anchors: AnchorCases, basis: ConcreteBasis) -> ModeOutcome:
    count = len(anchors.n_ua)
    rows = None if anchors.pullout_governs.all() else np.flatnonzero(anchors.pullout_governs)
    lambda_p = np.where(anchors.tested_lightweight, 1.0, basis.lambda_a)
    if rows is not None:
        anchors, basis, lambda_p = anchors.take(rows), basis.take(rows), lambda_p[rows]
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
        phi=basis.phi_p,
        demand=anchors.n_ua,
    )
    if rows is None:
        return mode_outcome(Mode.PULLOUT, strength)
    reason = np.full(count, position(Inapplicable.PULLOUT_NOT_GOVERNING))
    return mode_outcome(Mode.PULLOUT, strength, case_of_row=rows, reason=reason)


def _breakout(anchors: AnchorCases, basis: ConcreteBasis) -> ModeOutcome:
    count = len(anchors.n_ua)
    groups = anchors_alone(case_of_anchor=np.arange(count))
    concentric = np.zeros(count)
    strength = concrete_breakout_tension(
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
        phi=basis.phi_c,
        demand=anchors.n_ua,
    )
    return mode_outcome(Mode.CONCRETE_BREAKOUT_TENSION, strength)


def _blowout(anchors: AnchorCases, basis: ConcreteBasis) -> ModeOutcome:
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
        phi=basis.phi_c[rows],
        demand=anchors.n_ua[rows],
    )
    return mode_outcome(Mode.SIDE_FACE_BLOWOUT, strength, case_of_row=rows, reason=reason, edge_of_row=edge)
