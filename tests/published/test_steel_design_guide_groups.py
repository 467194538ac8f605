"""AISC Design Guide 1, base plates and anchor rods: groups of four rods, as whole hang points.

3rd edition (2024), examples 4.7-3, 4.7-4 and 4.7-15 (pp. 134-139), ACI 318-19; 2nd edition, example 4.5.2, pp. 35-36,
ACI 318-02/05. Read second-hand, in the tests of a general civil-engineering library that quote the guide and in notes
on it. f'c 4,000 psi, cast-in, no supplementary reinforcement, kip. The rods have plates that aren't stated; uplift at
their middle pulls them alike.
"""

import numpy as np
import pytest

from core.builders import FACTORED_LOADS, HEADED_BOLT, points
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.vocabulary import Mode

_THREAD = THREADS["7/8"]
ROD = HEADED_BOLT | {
    "d_a": 0.875,
    "a_se_n": np.pi / 4 * (_THREAD.d - 0.9743 * _THREAD.pitch) ** 2,
    "f_uta": 58_000.0,
    "f_ya": 36_000.0,
    "h_ef": 15.0,
    "a_brg": 1.19,
}
"""7/8 in, F1554 grade 36; the bearing area of a heavy hex nut is from memory."""

FOUR = [{"point": 0, "x": x, "y": y} for x in (-2.0, 2.0) for y in (-2.0, 2.0)]


def modes(*, n=70_000.0, v=(0.0, 0.0), rod=ROD, layout=FOUR, **base):
    made = check(
        points(
            given={"n": n, "v": v, "sustained_fraction": 0.0},
            layouts=layout,
            products=rod,
            bases={"thickness": 40.0, "f_c": 4_000.0} | base,
        ),
        FACTORED_LOADS,
    )
    assert made.refusal[0] < 0
    return {mode.mode: mode for mode in made.modes}


def kip(mode):
    return mode.design_strength[0] / 1000


def test_uplift_on_four_rods():
    """3rd ed., 4.7-3: 70 kip, 17.5 kip a rod; A_Nc 2,400 in2 (by hand 49^2 = 2,401), A_Nco 2,030 in2, N_b 92.3,
    N_cbg 109, phi N_cbg 76.3 (of the rounded 109; by hand 76.6); nut 26.7 kip a rod; phi N_sa 20.1 kip a rod.
    """
    found = modes()
    breakout = found[Mode.CONCRETE_BREAKOUT_TENSION]
    record, row = breakout.record, breakout.row[0]
    assert record.anchor_count[row] == 4
    assert record.a_nc[row] == pytest.approx(2_401, rel=1e-12)
    assert record.a_nco[row] == pytest.approx(2_030, abs=5.5)
    assert record.n_b[row] / 1000 == pytest.approx(92.3, abs=0.05)
    assert record.n_cb[row] / 1000 == pytest.approx(109, abs=0.5)
    assert kip(breakout) == pytest.approx(76.62, abs=5e-3)
    assert breakout.utilisation[0] == pytest.approx(70 / 76.62, abs=1e-4)
    for name in ("psi_ec_n", "psi_ed_n", "psi_c_n", "psi_cp_n"):
        assert getattr(record, name)[row] == 1.0
    assert kip(found[Mode.PULLOUT]) == pytest.approx(26.7, abs=0.05)
    assert kip(found[Mode.STEEL_TENSION]) == pytest.approx(20.1, abs=0.05)
    assert found[Mode.STEEL_TENSION].demand[0] / 1000 == pytest.approx(17.5, rel=1e-9)


def test_shear_towards_an_edge():
    """3rd ed., 4.7-4: rods 3/4 in, 4 x 4 in, c_a1 12 in of the near ones, c_a2 and h_a 18 in or more; the two near the
    edge take all of the 17.3 kip, because the rows are nearer than c_a1 (case 3). A_Vc 720 in2, V_b 23.7, V_cbg 26.3,
    phi (.70) V_cbg 18.4 kip.
    """
    rod = ROD | {"d_a": 0.75, "h_ef": 12.0}
    shear = modes(n=0.0, v=(17_300.0, 0.0), rod=rod, c_a=[(np.inf, 14.0, 20.0, 20.0)])[Mode.CONCRETE_BREAKOUT_SHEAR]
    record, row = shear.record, shear.row[0]
    assert record.c_a1[row] == 12.0
    assert record.anchor_count[row] == 2
    assert record.a_vc[row] == pytest.approx(720, abs=0.5)
    assert record.v_b[row] / 1000 == pytest.approx(23.7, abs=0.05)
    assert record.v_cb[row] / 1000 == pytest.approx(26.3, abs=0.05)
    assert kip(shear) == pytest.approx(18.4, abs=0.05)
    assert shear.demand[0] == pytest.approx(17_300, rel=1e-12)


def test_uplift_in_a_column():
    """3rd ed., 4.7-15: a column 20 in square; h'_ef = max(8/1.5, 4/3) = 5.33, A_Nc 400, A_Nco 256 in2, every psi 1,
    N_b 18.7, N_cbg 29.2, phi (.70) N_cbg 20.4 kip, too little; blowout of h_ef 14.0 does not apply (2.5 x 8 = 20).
    """
    found = modes(rod=ROD | {"h_ef": 14.0}, c_a=[(10.0,) * 4])
    breakout = found[Mode.CONCRETE_BREAKOUT_TENSION]
    record, row = breakout.record, breakout.row[0]
    assert record.h_ef_used[row] == pytest.approx(5.33, abs=5e-3)
    assert record.a_nc[row] == pytest.approx(400, rel=1e-12)
    assert record.a_nco[row] == pytest.approx(256, rel=1e-12)
    assert record.n_b[row] / 1000 == pytest.approx(18.7, abs=0.05)
    assert record.n_cb[row] / 1000 == pytest.approx(29.2, abs=0.05)
    assert kip(breakout) == pytest.approx(20.4, abs=0.05)
    assert breakout.utilisation[0] > 1
    assert not found[Mode.SIDE_FACE_BLOWOUT].applies[0]


def test_second_edition():
    """2nd ed., 4.5.2: uncracked (1.25); h_ef 13: A_N 1,849, A_No 1,521 in2, phi N_cbg 77.4 kip by h_ef^(5/3); in a pier
    20 in square h'_ef 5.33 and 25.5 kip.
    """
    breakout = modes(rod=ROD | {"h_ef": 13.0}, cracked=False)[Mode.CONCRETE_BREAKOUT_TENSION]
    record, row = breakout.record, breakout.row[0]
    assert record.a_nc[row] == pytest.approx(1_849, abs=0.5)
    assert record.a_nco[row] == pytest.approx(1_521, abs=0.5)
    assert kip(breakout) == pytest.approx(77.4, abs=0.05)
    pier = modes(rod=ROD | {"h_ef": 13.0}, cracked=False, c_a=[(10.0,) * 4])[Mode.CONCRETE_BREAKOUT_TENSION]
    assert kip(pier) == pytest.approx(25.56, abs=5e-3), "printed 25.5, cut and not rounded"
