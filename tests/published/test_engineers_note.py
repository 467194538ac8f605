"""An engineer's calculation note in a public repository, ACI 318-19: one cast-in bolt in a round pier.

Bolt 5/8 in at the centre of a round pier of 12 in, h_ef 7.891 in, f'c 5,000 psi, lambda 1, cracked, no supplementary
reinforcement, edges 6 in all round, A_se .226 in2, f_uta 57 ksi (= 1.9 x 30), N_ua 1,737.5 lb, V_ua 817.3 lb. The
specified tensile strength isn't stated: any above 57 ksi gives the printed one. Figures are printed to the pound.

The author takes, on purpose, the lower breakout strength without the three-edge rule (17.6.2.1.2). Values are compared
one by one, not the choice. The note's failure area is a circle (113.1 in2); chapter 17 has it rectilinear, 12 x 12 in
(17.6.2.1.1).
"""

import numpy as np
import pytest

from core.aci318_19.shear_rows import edge, steel
from core.builders import INF, anchor_cases
from hangpoint.core.aci318_19.check import check
from hangpoint.core.aci318_19.interaction import interaction
from hangpoint.core.aci318_19.pryout import pryout
from hangpoint.core.vocabulary import Inapplicable, Mode, position

HEAD = np.sqrt(3) / 2 * 1.0625**2 - np.pi / 4 * 0.625**2
CIRCLE = np.pi / 4 * 12.0**2


def modes(**changed):
    anchors = {
        "d_a": 0.625,
        "a_se_n": 0.226,
        "f_uta": 60_000.0,
        "f_ya": 30_000.0,
        "h_ef": 7.891,
        "a_brg": HEAD,
        "f_c_specified": 5_000.0,
        "c_a": [[6.0, 6.0, 6.0, 6.0]],
        "n_ua": 1_737.5,
    } | changed
    return {outcome.mode: outcome for outcome in check(*anchor_cases(**anchors)).outcomes}


def test_steel():
    """f_uta 57 ksi; phi (.75) N_sa 9,662 lb (9,661.5, so the rounding is a full half)."""
    record = modes()[Mode.STEEL_TENSION].record
    assert record.f_uta[0] == pytest.approx(57_000.0)
    assert record.phi[0] == 0.75
    assert record.design_strength[0] == pytest.approx(9_662, abs=0.501)


def test_pullout():
    """A_brg .671 in2 (.866 x 1.0625^2 - pi/4 x .625^2); N_p 26,835 lb, phi (.70) N_p 18,784 lb."""
    assert pytest.approx(0.671, abs=5e-4) == HEAD
    record = modes()[Mode.PULLOUT].record
    assert record.n_p[0] == pytest.approx(26_835, abs=0.5)
    assert record.design_strength[0] == pytest.approx(18_784, abs=0.5)


def test_breakout_with_the_three_edge_rule():
    """h'_ef 4.000 in, A_Nco 144.0 in2, N_b 13,576 lb; A_Nc / A_Nco .785 and phi (.70) N_cb 7,464 lb with the circle.

    The rectilinear area, 144 in2, makes it 9,504 lb: a figure computed beside the note, not printed in it.
    """
    record = modes()[Mode.CONCRETE_BREAKOUT_TENSION].record
    assert record.near_edges[0] == 4
    assert record.h_ef_used[0] == pytest.approx(4.000, abs=5e-4)
    assert record.a_nco[0] == pytest.approx(144.0, abs=0.05)
    assert record.n_b[0] == pytest.approx(13_576, abs=0.5)
    assert record.psi_ed_n[0] == 1.0
    assert record.psi_c_n[0] == 1.0
    assert record.psi_cp_n[0] == 1.0
    assert record.phi[0] == 0.70
    assert pytest.approx(0.785, abs=5e-4) == CIRCLE / record.a_nco[0]
    assert record.n_b[0] * CIRCLE / record.a_nco[0] == pytest.approx(10_663, abs=0.5)
    assert record.design_strength[0] * CIRCLE / record.a_nc[0] == pytest.approx(7_464, abs=0.5)
    assert record.a_nc[0] == pytest.approx(12.0 * 12.0)
    assert record.design_strength[0] == pytest.approx(9_504, abs=0.5)


def test_breakout_without_the_three_edge_rule():
    """Actual h_ef: A_Nc / A_Nco .202 (circle), psi_ed .852, phi (.70) N_cb 4,528 lb.

    Misprint: N_b reads 37,452 lb, while 24 sqrt(5,000) 7.891^1.5 is 37,618 lb, and only that gives the printed 4,528
    (the misprint would give 4,508). Two edges of 6 in show the same factors without the rule of three edges.
    """
    record = modes(c_a=[[6.0, 6.0, INF, INF]])[Mode.CONCRETE_BREAKOUT_TENSION].record
    assert record.h_ef_used[0] == 7.891
    ratio = CIRCLE / record.a_nco[0]
    assert ratio == pytest.approx(0.202, abs=5e-4)
    assert record.psi_ed_n[0] == pytest.approx(0.852, abs=5e-4)
    assert record.n_b[0] == pytest.approx(37_618, abs=0.5)
    graded = 0.70 * ratio * record.psi_ed_n[0]
    assert graded * record.n_b[0] == pytest.approx(4_528, abs=0.5)
    assert graded * 37_452 == pytest.approx(4_508, abs=0.5)


def test_side_face_blowout_does_not_apply():
    """7.89 in < 2.5 x 6 = 15 in."""
    found = modes()[Mode.SIDE_FACE_BLOWOUT]
    assert len(found.case_of_row) == 0
    assert found.reason[0] == position(Inapplicable.NO_SHALLOW_EDGE)


def test_ratio_in_tension():
    """N_ua / phi N_n: .384 against the author's 4,528 lb; the ratio of each mode is the load over its strength."""
    assert pytest.approx(0.384, abs=5e-4) == 1_737.5 / 4_528
    for outcome in modes().values():
        for strength, utilisation in zip(outcome.design_strength, outcome.utilisation, strict=True):
            assert utilisation * strength == pytest.approx(1_737.5)


def test_shear_steel():
    """phi (.65) V_sa 5,024 lb."""
    made = steel(a_se_v=0.226, f_uta_specified=60_000.0, f_ya=30_000.0, demand=817.3)
    assert made.f_uta[0] == pytest.approx(57_000.0)
    assert made.phi[0] == 0.65
    assert made.design_strength[0] == pytest.approx(5_024, abs=0.5)


def shear_towards_the_edge():
    """The thickness isn't stated: A_Vc of 108 in2 says that it cuts nothing off."""
    return edge(
        c_a1=6.0,
        c_a2=[(6.0, 6.0)],
        h_a=24.0,
        h_ef=7.891,
        d_a=0.625,
        f_c=5_000.0,
        v_towards=817.3,
    )


def test_shear_breakout():
    """l_e 5.000 in; V_b 8,717 lb by the form with l_e; A_Vc / A_Vco 108 / 162; psi_ed,V .900; V_cb 5,230, phi (.70)
    V_cb 3,661 lb; ratio .223.
    """
    made = shear_towards_the_edge()
    assert made.l_e[0] == pytest.approx(5.000, abs=5e-4)
    assert made.v_b[0] == made.v_b_stiffness[0]
    assert made.v_b[0] == pytest.approx(8_717, abs=0.5)
    assert made.a_vc[0] == pytest.approx(108, abs=0.5)
    assert made.a_vco[0] == pytest.approx(162, abs=0.5)
    assert made.psi_ed_v[0] == pytest.approx(0.900, abs=5e-4)
    assert made.v_cb[0] == pytest.approx(5_230, abs=0.5)
    assert made.design_strength[0] == pytest.approx(3_661, abs=0.5)
    assert made.utilisation[0] == pytest.approx(0.223, abs=5e-4)


def test_pryout():
    """phi (.70) V_cp 9,056 lb, twice the breakout strength that the author takes, phi N_cb 4,528 lb before phi."""
    record = modes(c_a=[[6.0, 6.0, INF, INF]])[Mode.CONCRETE_BREAKOUT_TENSION].record
    graded = CIRCLE / record.a_nco[0] * record.psi_ed_n[0] * record.n_b[0]
    made = pryout(
        h_ef=np.array([7.891]),
        n_cb=np.array([graded]),
        by_bond=np.array([False]),
        n_a=np.zeros(1),
        phi=np.array([0.70]),
        demand=np.array([817.3]),
    )
    assert made.design_strength[0] == pytest.approx(9_056, abs=0.5)


def test_interaction():
    """.384 and .223; (N + V) / 1.2 = .506."""
    shear = shear_towards_the_edge().utilisation
    made = interaction(r_n=np.array([1_737.5 / 4_528]), r_v=shear, power=np.array([False]))
    assert made.utilisation[0] == pytest.approx(0.506, abs=5e-4)
