"""The shear checks of Table 17.5.2 for single anchors: a list of calls. Units: in, in2, lbf, psi."""

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.anchor_reinforcement import anchor_reinforcement
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis
from hangpoint.core.aci318_19.concrete_breakout_shear import concrete_breakout_shear
from hangpoint.core.aci318_19.limits import far_corner
from hangpoint.core.aci318_19.pryout import pryout
from hangpoint.core.aci318_19.steel_shear import steel_shear
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Inapplicable, Mode, position

_ACROSS = np.array([[2, 3], [2, 3], [0, 1], [0, 1]])
"""The two edges that meet each edge at a corner."""

MODES = (Mode.STEEL_SHEAR, Mode.CONCRETE_BREAKOUT_SHEAR, Mode.PRYOUT, Mode.REINFORCEMENT_SHEAR)


def shear_checks(anchors: AnchorCases, basis: ConcreteBasis, *, n_cb: Floats, n_a: Floats) -> list[ModeOutcome]:
    """Every shear mode of the cases with shear, in the order of `MODES`.

    Args:
        anchors: the cases.
        basis: of the same cases.
        n_cb, n_a: (cases,) nominal strengths of breakout and bond in tension, lbf, for pryout.
    """
    rows = np.flatnonzero(anchors.v_ua > 0)
    no_shear = np.full(len(anchors.v_ua), position(Inapplicable.NO_SHEAR))
    if not len(rows):
        return [absent_outcome(mode, no_shear) for mode in MODES]
    own, own_basis = anchors.take(rows), basis.take(rows)
    steel = steel_shear(
        a_se_v=own.a_se_n,
        f_uta_specified=own.f_uta,
        f_ya=own.f_ya,
        ductile=own.ductile,
        welded_stud=own.welded_stud,
        tested=own.by_shear_tests,
        v_sa_tested=own.v_sa,
        grout_pad=own.grout_pad,
        demand=own.v_ua,
    )
    pried = pryout(
        h_ef=own.h_ef,
        n_cb=n_cb[rows],
        adhesive=own.adhesive,
        n_a=n_a[rows],
        phi=np.full(len(rows), 0.70),
        demand=own.v_ua,
    )
    return [
        mode_outcome(Mode.STEEL_SHEAR, steel, case_of_row=rows, reason=no_shear),
        _breakout(own, own_basis, rows, no_shear),
        mode_outcome(Mode.PRYOUT, pried, case_of_row=rows, reason=no_shear),
        _reinforcement(own, rows, no_shear),
    ]


def sheared_edges(
    *, c_a: Floats, v_ua_x: Floats, v_ua_y: Floats, either_x: Bools, either_y: Bools
) -> tuple[Index, Index, Floats, Floats]:
    """Edges within reach that the shear acts towards or along.

    Args:
        c_a: (cases, 4) edge distances, in, infinite where there is no edge.
        v_ua_x, v_ua_y: (cases,) shear, lbf.
        either_x, either_y: (cases,) the shear along that axis may act either way.

    Returns:
        Case and edge of each row, in rising order, and the shear of the row towards and along its edge, lbf.
    """
    signed = np.stack([-v_ua_x, v_ua_x, -v_ua_y, v_ua_y], axis=1)
    either = np.stack([either_x, either_x, either_y, either_y], axis=1)
    towards = np.maximum(np.where(either, np.abs(signed), signed), 0.0)
    along = np.abs(np.stack([v_ua_y, v_ua_y, v_ua_x, v_ua_x], axis=1))
    case, edge = np.nonzero(np.isfinite(c_a) & ((towards > 0) | (along > 0)))
    return case, edge, towards[case, edge], along[case, edge]


def _breakout(own: AnchorCases, basis: ConcreteBasis, rows: Index, no_shear: Index) -> ModeOutcome:
    case, edge, towards, along = sheared_edges(
        c_a=own.c_a, v_ua_x=own.v_ua_x, v_ua_y=own.v_ua_y, either_x=own.either_x, either_y=own.either_y
    )
    free = ~own.reinforced_v[case]
    case, edge, towards, along = case[free], edge[free], towards[free], along[free]
    reason = _breakout_reason(own.reinforced_v, rows, no_shear)
    if not len(case):
        return absent_outcome(Mode.CONCRETE_BREAKOUT_SHEAR, reason)
    at, none = own.take(case), np.zeros(len(case))
    place = np.arange(len(case))
    c_a2 = at.c_a[place[:, None], _ACROSS[edge]]
    strength = concrete_breakout_shear(
        c_a1=at.c_a[place, edge],
        c_a2=c_a2,
        h_a=at.h_a,
        h_ef=at.h_ef,
        d_a=at.d_a,
        distance_sleeve=at.distance_sleeve,
        welded=at.welded & far_corner(c_a2_min=c_a2.min(axis=1), h_ef=at.h_ef),
        extent=none,
        s_max=none,
        anchor_count=np.ones(len(case)),
        e_v=none,
        cracked=at.cracked,
        edge_reinforcement=at.edge_reinforcement,
        lambda_a=basis.lambda_a[case],
        f_c=basis.f_c[case],
        phi=basis.phi_v[case],
        v_towards=towards,
        v_along=along,
        oblique=at.oblique,
    )
    return mode_outcome(Mode.CONCRETE_BREAKOUT_SHEAR, strength, case_of_row=rows[case], reason=reason, edge_of_row=edge)


def _breakout_reason(reinforced: Bools, rows: Index, no_shear: Index) -> Index:
    reason = no_shear.copy()
    reason[rows] = np.where(reinforced, position(Inapplicable.REINFORCED), position(Inapplicable.NO_EDGE_SHEARED))
    return reason


def _reinforcement(own: AnchorCases, rows: Index, no_shear: Index) -> ModeOutcome:
    reason = no_shear.copy()
    reason[rows] = position(Inapplicable.NOT_REINFORCED)
    bars = np.flatnonzero(own.reinforced_v)
    if not len(bars):
        return absent_outcome(Mode.REINFORCEMENT_SHEAR, reason)
    strength = anchor_reinforcement(a_s=own.a_s_v[bars], f_y=own.f_y_v[bars], demand=own.v_ua[bars])
    return mode_outcome(Mode.REINFORCEMENT_SHEAR, strength, case_of_row=rows[bars], reason=reason)
