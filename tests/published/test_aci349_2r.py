"""ACI 349.2R-07, Embedment Design Examples (ACI 349-06 appendix D): the figures of tension of single anchors.

Examples A1 (stud, tension), A3 (stud, tension and shear) and A4 (bolt), read second-hand in the verification tests of
a general finite-element library. All: f'c 4,000 psi, normalweight, cracked, cast-in. The nominal strengths in tension
are those of ACI 318-19; the strength reduction factors and load factors of ACI 349 are not and aren't compared. The
examples' yield strengths aren't in what was read: 51 ksi (studs, from memory) and 105 ksi (by the grade) are used and
don't bind, which is asserted.
"""

import numpy as np
import pytest

from core.builders import INF, anchor_cases
from hangpoint.core.aci318_19.check import check
from hangpoint.core.vocabulary import Mode

KIP = 4.4482216
"""kN."""


def tension(**anchor):
    """Nominal strengths in kip and the records they come from."""
    _, found = check(anchor_cases(**anchor))
    modes = {outcome.mode: outcome.record for outcome in found}
    steel = modes[Mode.STEEL_TENSION]
    assert steel.f_uta[0] == min(anchor["f_uta"], steel.f_uta_limit[0])
    return (
        steel.n_sa[0] / 1000,
        modes[Mode.PULLOUT].n_pn[0] / 1000,
        modes[Mode.CONCRETE_BREAKOUT_TENSION],
        found[-1],
    )


def test_example_a1():
    """A1: stud 1/2 in, f_uta 65 ksi, h_ef 4.69, edges 12 and 12 in: N_sa 12.7627, N_pn 18.88, N_b = N_cb 15.41702
    kip. A_se is the gross area of the stud, printed .19635 in2. Rounding of the last printed figure.
    """
    n_sa, n_pn, breakout, blowout = tension(
        d_a=0.5,
        a_se_n=np.pi / 4 * 0.5**2,
        f_uta=65_000.0,
        f_ya=51_000.0,
        h_ef=4.69,
        a_brg=0.59,
        c_a=[[12.0, INF, 12.0, INF]],
    )
    assert n_sa == pytest.approx(12.7627, abs=5.1e-5)
    assert n_pn == pytest.approx(18.88, abs=5e-3)
    assert breakout.n_b[0] / 1000 == pytest.approx(15.41702, abs=5.1e-6)
    assert breakout.n_cb[0] == pytest.approx(breakout.n_b[0], rel=1e-12)
    assert len(blowout.case_of_row) == 0


def test_example_a3():
    """A3: stud 5/8 in, f_uta 65 ksi, A_se .30680 in2, h_ef 6.63, edges 12 and 20 in: N_sa 19.94176, N_pn 29.44,
    N_b = N_cb 25.9126 kip. N_sa is printed with more figures than the area and comes from the gross area: 19.94175.
    """
    n_sa, n_pn, breakout, _ = tension(
        d_a=0.625,
        a_se_n=np.pi / 4 * 0.625**2,
        f_uta=65_000.0,
        f_ya=51_000.0,
        h_ef=6.63,
        a_brg=0.92,
        c_a=[[12.0, INF, 20.0, INF]],
    )
    assert n_sa == pytest.approx(19.94176, abs=1.1e-5)
    assert n_pn == pytest.approx(29.44, abs=5e-3)
    assert breakout.n_b[0] / 1000 == pytest.approx(25.9126, abs=5.1e-5)
    assert breakout.n_cb[0] == pytest.approx(breakout.n_b[0], rel=1e-12)


def test_example_a4():
    """A4: bolt 1-1/8 in, F1554 grade 105, A_se 492.4334 mm2, plate washer 4.0685 in2, h_ef 17.57 in, no edges.

    N_b 534.5107 kN by 16 sqrt(f'c) h_ef^(5/3), N_pn 579.1201 kN: converted by the source from in-lb, so to 1e-5.
    Recorded difference: N_sa 424.4776 kN is 862 N/mm2 on A_se; the grade's 125,000 psi (17.6.1.2) is 861.84 N/mm2 and
    gives 0.02 % less.
    """
    n_sa, n_pn, breakout, _ = tension(
        d_a=1.125,
        a_se_n=492.4334 / 645.16,
        f_uta=125_000.0,
        f_ya=105_000.0,
        h_ef=17.57,
        a_brg=4.0685,
    )
    assert bool(breakout.power_form[0])
    assert breakout.n_b[0] == breakout.n_b_power[0]
    assert breakout.n_b[0] / 1000 * KIP == pytest.approx(534.5107, rel=1e-5)
    assert n_pn * KIP == pytest.approx(579.1201, rel=2e-5)  # the area is printed with five figures
    stress = 424.4776 / 492.4334 * 1000
    assert stress == pytest.approx(862.0, abs=5e-4)
    assert n_sa * KIP / 424.4776 == pytest.approx(0.9998, abs=5e-5)
