"""AISC Design Guide 1, base plates and anchor rods: shear of a row towards an edge, and anchor reinforcement.

3rd edition (2024), examples 4.7-4 and 4.7-15 (pp. 134-139), ACI 318-19. Read second-hand, in the tests of a general
civil-engineering library that quote the guide. f'c 4,000 psi, cracked, cast-in.
"""

import numpy as np
import pytest

from core.aci318_19.shear_rows import edge
from hangpoint.core.aci318_19.anchor_reinforcement import anchor_reinforcement


def test_two_rods_near_an_edge():
    """4.7-4: rods 3/4 in, 4 x 4 in, of which the two near the edge resist; c_a1 12, c_a2 and h_a 18 in or more, h_ef 8
    d_a or more, V_ua 17.3 kip. A_Vco 648, A_Vc 18 x 40 = 720 in2; V_b 23.7 kip, of the limit of 9; psi 1; V_cbg 26.3,
    phi (.70) V_cbg 18.4 kip.
    """
    made = edge(
        c_a1=12.0,
        c_a2=[(18.0, 18.0)],
        h_a=18.0,
        h_ef=6.0,
        d_a=0.75,
        extent=4.0,
        s_max=4.0,
        anchor_count=2.0,
        phi=0.70,
        v_towards=17_300.0,
    )
    assert made.l_e[0] == 8 * 0.75
    assert made.a_vco[0] == pytest.approx(648, abs=0.5)
    assert made.a_vc[0] == pytest.approx(720, abs=0.5)
    assert made.v_b[0] == made.v_b_limit[0]
    assert made.v_b[0] / 1000 == pytest.approx(23.7, abs=0.05)
    for psi in (made.psi_ec_v, made.psi_ed_v, made.psi_c_v, made.psi_h_v):
        assert psi[0] == 1.0
    assert made.v_cb[0] / 1000 == pytest.approx(26.3, abs=0.05)
    assert made.design_strength[0] / 1000 == pytest.approx(18.4, abs=0.05)
    assert 0 < made.utilisation[0] < 1


def test_anchor_reinforcement():
    """4.7-15: 70 kip needs 70 / (.75 x 60) = 1.56 in2 of grade 60; four No. 6 have 1.76 in2."""
    made = anchor_reinforcement(a_s=np.array([1.76]), f_y=np.array([60_000.0]), demand=np.array([70_000.0]))
    assert made.utilisation[0] * 1.76 == pytest.approx(1.56, abs=5e-3)
    assert made.utilisation[0] < 1
