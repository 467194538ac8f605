"""Lines of a pull list by hand and against exact fractions; counts of anchors and rods by hand."""

from fractions import Fraction
from math import ceil, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hangpoint.core.take_off.anchor_quantities import adhesive_volume, anchor_quantities
from hangpoint.core.take_off.order import order, whole
from hangpoint.core.take_off.rod_quantities import rod_quantities


def line(used, waste=0.0, pack=1.0, counted=True):
    found = order(
        used=np.array([used]), waste=np.array([waste]), counted=np.array([counted]), pack=np.array([float(pack)])
    )
    return tuple(float(getattr(found, name)[0]) for name in ("net", "gross", "packs", "left_over"))


def test_lines_by_hand():
    """100 and 5 % are 105, in packs of 50 three with 45 left; 0.04 bits are one; 10 in3 and 15 % are 11.5 of 17."""
    assert line(100.0, 0.05, 50) == (100, 105, 3, 45)
    assert line(0.04, 0.05) == (1, 1, 1, 0)
    assert line(10.0, 0.15, 17, counted=False) == pytest.approx((10, 11.5, 1, 5.5), rel=1e-12)
    assert line(20.0, 0.05, 10) == (20, 21, 3, 9)


@settings(deadline=None)
@given(st.integers(1, 10**7), st.integers(0, 100), st.integers(1, 1000))
def test_whole_pieces_against_fractions(used, percent, pack):
    """Rounded up as exact arithmetic does; without waste the gross is the net."""
    gross = ceil(Fraction(used) * (1 + Fraction(percent, 100)))
    assert line(float(used), percent / 100, pack)[:3] == (used, gross, ceil(Fraction(gross, pack)))
    assert line(float(used), 0.0, pack)[0] == line(float(used), 0.0, pack)[1] == used


def test_sums_of_shares_are_whole():
    """Two hundred holes of a bit that lasts two hundred are one bit, whatever the rounding of the sum."""
    assert whole(np.array([sum([1 / 200] * 200), sum([1 / 250] * 500)])).tolist() == [1, 2]
    assert whole(np.array([0.0, 1e11, 1e11 + 0.5])).tolist() == [0, 1e11, 1e11 + 1]


def test_adhesive_of_a_hole():
    """9/16 in hole of 6 in around a rod of 1/2 in, 13 to the inch: pitch diameter 1/2 - 0.649519 / 13 = 0.45004 in.

    pi/4 (0.31640625 - 0.2025360) 6 = 0.53660 in3; four take 2.1464 in3. Of a smooth bar: pi/4 0.06640625 4.
    """
    found = adhesive_volume(
        glued=np.array([True, False, True]),
        d_hole=np.array([9 / 16, 0.5, 9 / 16]),
        d_a=np.array([0.5, 0.5, 0.5]),
        a_se=np.array([0.1419, 0.1419, 0.2]),
        h_hole=np.array([6.0, 4.0, 4.0]),
        holes=np.array([4.0, 4.0, 1.0]),
    )
    assert found.v_hole[0] == pytest.approx(0.53660, rel=1e-4)
    assert found.volume.tolist() == pytest.approx([2.1464, 0, pi / 4 * 0.06640625 * 4], rel=1e-4)


@pytest.mark.parametrize(
    ("d", "stress_area", "pitch_diameter"),
    [(0.375, 0.0775, 0.3344), (0.625, 0.226, 0.5660), (1.0, 0.606, 0.9188), (12 / 25.4, 84.3 / 25.4**2, 10.863 / 25.4)],
)
def test_a_thread_fills_a_hole_as_its_pitch_diameter_does(d, stress_area, pitch_diameter):
    """Areas and pitch diameters of UNC threads and M12 by ASME B1.1, ISO 724 and ISO 898-1, from memory.

    The area of a metric thread is that of d - 0.9382 p: its pitch diameter comes out 0.4 % too large.
    """
    one = np.ones(1)
    found = adhesive_volume(
        glued=one > 0, d_hole=one * d * 1.2, d_a=one * d, a_se=one * stress_area, h_hole=one, holes=one
    )
    assert found.d_m[0] == pytest.approx(pitch_diameter, rel=1e-3 if d != 12 / 25.4 else 4.1e-3)
    assert found.v_hole[0] == pytest.approx(pi / 4 * ((1.2 * d) ** 2 - pitch_diameter**2), rel=1.1e-2)


def test_anchors_by_hand():
    """Three plates of four: 12 holes of 4 in are 4 ft; at 3.5 min 42 min or 0.7 h; 12 x 1.2 in cost index."""
    found = anchor_quantities(
        quantity=np.array([3.0]),
        n_layout=np.array([4.0]),
        drilled=np.array([True]),
        h_hole=np.array([4.0]),
        bit_life=np.array([240.0]),
        charged=np.array([True]),
        fastenings=np.array([10.0]),
        t_anchor=np.array([3.5]),
        c_anchor=np.array([1.2]),
    )
    names = ("anchors", "holes", "l_drilled", "bits", "charges", "minutes", "hours", "cost_index")
    assert [float(getattr(found, name)[0]) for name in names] == pytest.approx(
        [12, 12, 4, 0.05, 1.2, 42, 0.7, 14.4], rel=1e-12
    )


def test_rods_by_hand():
    """Five points of two rods of 12 ft, one joint and one coupling at the anchor each: 10 rods, 20 couplings."""
    found = rod_quantities(
        quantity=np.array([5.0]),
        n_rod=np.array([2.0]),
        l_rod=np.array([12.0]),
        n_nut=np.array([3.0]),
        n_washer=np.array([2.0]),
        n_coupling=np.array([1.0]),
        splices=np.array([1.0]),
    )
    names = ("rods", "l_rods", "nuts", "washers", "couplings")
    assert [float(getattr(found, name)[0]) for name in names] == [10, 120, 30, 20, 20]
