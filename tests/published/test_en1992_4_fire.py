"""Resistance in fire, EN 1992-4:2018 annex D, worked by hand; no published example is known.

The stresses of the steel and the shares of the concrete are those of annex D as they are remembered, the same as in the
technical report that it took the place of: all from memory, none checked on the standard.
"""

import numpy as np
import pytest

from core.builders import alone
from core.en1992_4.fasteners import ENDLESS, fastener_cases, one_layout
from hangpoint.core.en1992_4.check import check
from hangpoint.core.en1992_4.cone import cone_resistance
from hangpoint.core.en1992_4.fire import class_of, k_fi, steel_stress, table_diameter

MINUTES = np.array([30.0, 60.0, 90.0, 120.0])
TABLES = {
    (False, 6): (10, 9, 7, 5),
    (False, 8): (10, 9, 7, 5),
    (False, 10): (15, 13, 10, 8),
    (False, 12): (20, 15, 13, 10),
    (False, 24): (20, 15, 13, 10),
    (True, 6): (10, 9, 7, 5),
    (True, 8): (20, 16, 12, 10),
    (True, 10): (25, 20, 16, 14),
    (True, 12): (30, 25, 20, 16),
    (True, 24): (30, 25, 20, 16),
}
"""Stresses in N/mm2 by stainless and diameter, at R30, R60, R90, R120. From memory."""


@pytest.mark.parametrize(("steel", "d"), TABLES)
def test_stresses_of_the_steel(steel, d):
    four = np.ones(4)
    found = steel_stress(diameter=d * four, h_ef=60 * four, stainless=np.full(4, steel), minutes=MINUTES)
    assert found.tolist() == list(TABLES[steel, d])


@pytest.mark.parametrize(
    ("d", "h_ef", "expected"), [(5.9, 60, 0), (12, 49, 13), (10, 39, 9), (6, 29, 0), (12, 30, 9), (11.9, 60, 13)]
)
def test_a_row_of_the_table_needs_its_diameter_and_depth(d, h_ef, expected):
    """6 mm and 8 mm from h_ef 30 mm on, 10 mm from 40, 12 mm from 50; carbon steel at R60. From memory."""
    one = np.ones(1)
    found = steel_stress(diameter=d * one, h_ef=h_ef * one, stainless=np.zeros(1, bool), minutes=60 * one)
    assert found.tolist() == [expected]


@pytest.mark.parametrize(
    ("d_nom", "a_s", "row"),
    [(12, 84.3, 12), (12, 64.0, 12), (10, 44.0, 10), (8, 27.0, 8), (10, 36.6, 8), (12, 58.0, 10), (18, 58.0, 10)],
)
def test_the_diameter_of_a_bolt_in_a_sleeve(d_nom, a_s, row):
    """Bolts and necks of them stay in their row, an M8 and an M10 in a sleeve of 10, 12 or 18 mm in their own."""
    found = float(table_diameter(d_nom=np.array([d_nom]), a_s=np.array([a_s]))[0])
    assert max(own for own in (6, 8, 10, 12) if own <= found) == row


@pytest.mark.parametrize(
    ("hours", "minutes"), [(0, 0), (0.1, 30), (0.5, 30), (0.51, 60), (1, 60), (1.5, 90), (1.6, 120), (2, 120), (3, 180)]
)
def test_the_next_longer_class_counts(hours, minutes):
    assert class_of(np.array([float(hours)])).tolist() == [minutes]


def test_an_m12_of_carbon_steel_for_an_hour():
    """15 N/mm2 times 84.3 mm2 are 1.26 kN, in tension and in shear, over gamma_M,fi 1.0."""
    cases = fastener_cases(
        a_s=84.3, d_nom=12.0, h_ef=80.0, fire=True, minutes=60.0, sigma_fi=15.0, s_cr_n=320.0, gamma_inst=1.2
    )
    found = modes(cases, one_layout([0.0], [0.0], member=ENDLESS, n=1000.0, v_x=500.0))
    assert found["en_steel_tension"] == pytest.approx(1264.5)
    assert found["en_steel_shear"] == pytest.approx(1264.5)


@pytest.mark.parametrize(("minutes", "left"), [(30, 0.4), (60, 0.4), (90, 0.4), (120, 0.32)])
def test_a_cone_80_mm_deep(minutes, left):
    """N0_Rk,c of C20/25, 7.7 sqrt(20) 80^1.5 = 24.64 kN, times 80/200, at R120 0.8 of it: 9.86 kN and 7.88 kN."""
    cases = fastener_cases(
        h_ef=80.0, f_ck_class=50.0, fire=True, minutes=float(minutes), sigma_fi=20.0, s_cr_n=320.0, gamma_inst=1.4
    )
    found = modes(cases, one_layout([0.0], [0.0], member=ENDLESS, n=1000.0, v_x=500.0))
    assert found["en_concrete_cone"] == pytest.approx(left * 24_640, rel=1e-3)
    assert found["en_pry_out"] == pytest.approx(2.0 * found["en_concrete_cone"])


def test_a_cone_deeper_than_200_mm_is_all_there():
    one = np.ones(1)
    common = {"anchor_count": one, "s_max": 0 * one, "wide_bars": one > 0, "e_n_x": 0 * one, "e_n_y": 0 * one}
    common |= {"cracked": one > 0, "k_cr_n": 7.7 * one, "k_ucr_n": 11.0 * one, "f_ck": 20.0 * one, "fire": one > 0}
    own = cone_resistance(
        h_ef=250 * one, s_cr_n=1000 * one, footprint=alone(np.full((1, 4), np.inf)), minutes=90 * one, **common
    )
    assert own.k_fi.tolist() == [1.0]
    assert own.n_rk_c_fi.tolist() == own.n_rk_c.tolist()


def test_two_cones_meet_below_four_depths():
    """s_cr,N is 4 h_ef: of two cones 160 mm apart, 80 mm deep, 1.5 of one are left, (320 + 160) / 320."""
    cases = fastener_cases(h_ef=80.0, fire=True, minutes=90.0, sigma_fi=20.0, s_cr_n=320.0)
    found = modes(cases, one_layout([0.0, 160.0], [0.0, 0.0], member=ENDLESS, n=1000.0))
    assert found["en_concrete_cone"] == pytest.approx(1.5 * 0.4 * 24_640, rel=1e-3)


def test_pull_out_and_edges_keep_a_quarter():
    """60 kN in C20/25 keep 15 kN, at R120 12 kN; and edges 0.25 and 0.20."""
    for minutes, expected in ((30.0, 15_000.0), (90.0, 15_000.0), (120.0, 12_000.0)):
        cases = fastener_cases(fire=True, minutes=minutes, sigma_fi=20.0, s_cr_n=400.0, f_ck_class=40.0)
        found = modes(cases, one_layout([0.0], [0.0], member=ENDLESS, n=1000.0))
        assert found["en_pull_out"] == pytest.approx(expected)
    assert k_fi(MINUTES).tolist() == [0.25, 0.25, 0.25, 0.2]


def modes(cases, anchors):
    """Design strength of each mode that applies, of its worst row."""
    found = check(cases, anchors).outcomes
    return {
        own.mode.value.code: float(own.design_strength[int(np.argmax(own.utilisation))])
        for own in found
        if len(own.utilisation)
    }
