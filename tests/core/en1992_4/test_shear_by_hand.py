"""Shear by EN 1992-4 by hand: where the service was once wrong, and with a lever arm."""

import numpy as np
import pytest

from core.builders import INF
from core.en1992_4.fasteners import ENDLESS, fastener_cases, one_layout
from hangpoint.core.en1992_4.check import check
from hangpoint.core.vocabulary import Mode


def rows(mode, layout, **changed):
    outcomes = {outcome.mode: outcome for outcome in check(fastener_cases(**changed), layout).outcomes}
    return outcomes[mode]


@pytest.mark.parametrize(
    ("h_ef", "f_ck", "expected"),
    [(79.0, 16.0, 0.8 * 40_000), (79.0, 20.0, 40_000), (80.0, 16.0, 40_000)],
)
def test_a_stated_shear_strength_is_reduced_too(h_ef, f_ck, expected):
    """h_ef below 5 d_nom in concrete below C20/25: 0.8 V0_Rk,s, stated or calculated (7.2.2.3.1, from memory: tests of
    products don't reach below C20/25).
    """
    layout = one_layout([0.0], [0.0], member=ENDLESS, v_x=1_000.0)
    steel = rows(Mode.EN_STEEL_SHEAR, layout, h_ef=h_ef, f_ck_class=f_ck, v0_rk_s=40_000.0, gamma_ms_v=1.25)
    assert steel.design_strength[0] == pytest.approx(expected / 1.25, rel=1e-12)


def test_rounding_towards_an_edge_is_no_eccentricity():
    """Two fasteners sheared alike along an edge, one of them by 1e-12 of that towards it: e_V is 0, not half of the
    spacing, and V_Rd,c that of the shear along alone.
    """
    member = (-INF, 100.0, -INF, INF)
    exact = one_layout([0.0, 0.0], [0.0, 200.0], member=member, v_y=5_000.0)
    rounded = one_layout([0.0, 0.0], [0.0, 200.0], member=member, v_x=[5e-9, 0.0], v_y=5_000.0)
    edges = [rows(Mode.EN_EDGE, layout) for layout in (exact, rounded)]
    assert len(edges[0].demand) > 1
    assert (edges[1].record.e_v == 0).all()
    np.testing.assert_allclose(edges[1].design_strength, edges[0].design_strength, rtol=1e-9)


LEVER_ARM = {"lever_arm": True, "free_length": 20.0, "t_fix": 10.0}


def bent(n=20_000.0, **changed):
    return rows(Mode.EN_LEVER_ARM, one_layout([0.0], [0.0], member=ENDLESS, n=n, v_x=3_000.0), **LEVER_ARM | changed)


def test_a_lever_arm():
    """M16 of 8.8, 20 mm off the concrete, plate of 10 mm, 20 kN of tension. By hand, as all formulas here from memory:
    l_a = 8 + 20 + 5 = 33 mm; d of 157 mm2 is 14.139 mm, W_el 277.5 mm3, M0_Rk,s = 1.2 * 277.5 * 800 = 266 Nm (what
    assessments state for M16 of 8.8 too, from memory; 105 Nm for M12, 519 Nm for M20); N_Rd,s = 125.6 / 1.5 = 83.73 kN;
    M_Rk,s = 266.4 (1 - 20/83.73) = 202.7 Nm; V_Rk,s,M = 202.7 / 0.033 = 6.144 kN; over 1.25: 4.915 kN.
    """
    steel = bent()
    record = steel.record
    assert record.l_a[0] == pytest.approx(33.0, rel=1e-12)
    assert record.m0_rk_s[0] == pytest.approx(266_400, rel=5e-4)
    assert record.m_rk_s[0] == pytest.approx(202_700, rel=5e-4)
    assert steel.design_strength[0] == pytest.approx(4_915, rel=5e-4)
    assert steel.utilisation[0] == pytest.approx(3_000 / 4_915, rel=5e-4)
    for a_s, moment in ((84.3, 105_000), (245.0, 519_000)):
        assert bent(a_s=a_s).record.m0_rk_s[0] == pytest.approx(moment, rel=5e-3)


def test_what_a_lever_arm_depends_on():
    free = bent().design_strength[0]
    assert bent(held=True).design_strength[0] == pytest.approx(2 * free, rel=1e-12)
    assert bent(clamped=True).design_strength[0] == pytest.approx(33 / 25 * free, rel=1e-12)
    assert bent(n=0.0).design_strength[0] == pytest.approx(free / (1 - 20 / (125.6 / 1.5)), rel=1e-12)
    assert bent(t_fix=76.0).design_strength[0] == pytest.approx(33 / 66 * free, rel=1e-12)


def test_steel_that_tension_uses_up_has_next_to_no_moment_left():
    """A thousandth of it, so that the ratio stays a number; the steel has failed in tension."""
    whole = bent(n=0.0).design_strength[0]
    for n in (125_600 / 1.5, 200_000.0):
        assert bent(n=n).design_strength[0] == pytest.approx(whole / 1000, rel=1e-9)


def test_a_lever_arm_takes_the_place_of_steel_without_one():
    """Neither the steel without lever arm nor both together (Table 7.3); pry-out, edges and concrete stay."""
    layout = one_layout([0.0], [0.0], member=(-100.0, INF, -INF, INF), n=2_000.0, v_x=-3_000.0)
    found = {own.mode: own for own in check(fastener_cases(**LEVER_ARM), layout).outcomes}
    flush = {own.mode: own for own in check(fastener_cases(), layout).outcomes}
    for mode in (Mode.EN_STEEL_SHEAR, Mode.EN_STEEL_INTERACTION):
        assert (found[mode].record, len(flush[mode].demand)) == (None, 1)
    assert (len(found[Mode.EN_LEVER_ARM].demand), flush[Mode.EN_LEVER_ARM].record) == (1, None)
    for mode in (Mode.EN_PRY_OUT, Mode.EN_EDGE, Mode.EN_CONCRETE_INTERACTION):
        np.testing.assert_array_equal(found[mode].utilisation, flush[mode].utilisation)


def test_every_sheared_fastener_has_its_own_moment():
    """Of two with the same shear the one that is pulled more holds less."""
    layout = one_layout([0.0, 150.0], [0.0, 0.0], member=ENDLESS, n=[1_000.0, 30_000.0], v_x=[2_000.0, 2_000.0])
    steel = rows(Mode.EN_LEVER_ARM, layout, **LEVER_ARM)
    assert steel.design_strength[1] < steel.design_strength[0]
    assert steel.anchor_of_row.tolist() == [0, 1]
