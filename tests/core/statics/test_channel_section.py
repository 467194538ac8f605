"""Sections of struts: by hand, against a library of sections, and what the arrays mean.

Figures of the library: ``tests/published/channel_section_figures.json``, made by the script beside it.
"""

import json
from pathlib import Path

import numpy as np
import pytest

from hangpoint.core.statics.channel_section import channel_section

FIGURES = json.loads((Path(__file__).parents[2] / "published/channel_section_figures.json").read_text("utf-8"))
SHAPE = ("b", "h", "t", "d_lip", "d_return", "r", "b_slot", "back_to_back")
FOUND = ("area", "i_x", "s_open", "s_back", "i_y")


def section(*rows, rho=490.0):
    plain = {"d_return": 0.0, "r": 0.0, "b_slot": 0.0, "back_to_back": False}
    rows = [plain | row for row in rows]
    return channel_section(
        **{name: np.array([row[name] for row in rows]) for name in SHAPE}, rho=np.full(len(rows), rho)
    )


STRUT = {"b": 1.625, "h": 1.625, "t": 0.105, "d_lip": 0.375}


def test_strut_by_hand():
    """1-5/8 in square, 0.105 in, lips of 3/8 in, sharp. Written out with six digits of the dimensions given.

    Back 1.625 x 0.105 = 0.170625 at y 0.0525; sides 2 x 1.415 x 0.105 = 0.297150 at 0.8125; lips 2 x 0.375 x 0.105 =
    0.078750 at 1.5725. A = 0.546525; sum A y = 0.0089578 + 0.2414344 + 0.1238344 = 0.3742266, y = 0.684738.
    I = 0.297150 x 1.415^2/12 + (0.170625 + 0.078750) x 0.105^2/12 + 0.170625 x 0.632238^2 + 0.297150 x 0.127762^2
    + 0.078750 x 0.887762^2 = 0.0495804 + 0.0002291 + 0.0682023 + 0.0048504 + 0.0620645 = 0.184927 in4.
    Weight 490 x 0.546525/144 = 1.85970 lb/ft; about 1.9 lb/ft is the usual figure of such a strut (from memory).
    """
    got = section(STRUT)
    np.testing.assert_allclose(got.area, 0.546525, rtol=1e-9)
    np.testing.assert_allclose(got.y_1, 0.684738, atol=6e-7)
    np.testing.assert_allclose(got.i_x, 0.184927, atol=6e-7)
    np.testing.assert_allclose(got.s_open, 0.184927 / (1.625 - 0.684738), rtol=6e-6)
    np.testing.assert_allclose(got.s_back, 0.184927 / 0.684738, rtol=6e-6)
    np.testing.assert_array_equal(got.s_x, got.s_open)
    np.testing.assert_allclose(got.w, 1.85970, atol=6e-6)
    np.testing.assert_allclose(got.w, 1.9, atol=0.05)


def test_sharp_channel_of_the_library():
    """sectionproperties 3.10.2, its own C-section without radius: the same polygon, so to rounding."""
    expected = FIGURES["sharp"]
    got = section(expected)
    for name in (*FOUND, "y_1"):
        np.testing.assert_allclose(getattr(got, name), expected[name], rtol=1e-9, err_msg=name)


def test_rounded_channel_of_the_library():
    """sectionproperties 3.10.2, its own C-section with an outer radius of twice the wall, arcs by chords.

    What the module says of sharp corners: 5 % less area and 11 % less section modulus with rounded ones.
    """
    expected = FIGURES["rounded"]
    got = section(expected | {"r": expected["t"]})
    for name in (*FOUND, "y_1"):
        np.testing.assert_allclose(getattr(got, name), expected[name], rtol=3e-5, err_msg=name)
    sharp = FIGURES["sharp"]
    assert expected["area"] / sharp["area"] == pytest.approx(0.95, abs=0.005)
    assert expected["s_open"] / sharp["s_open"] == pytest.approx(0.89, abs=0.005)


def test_struts_of_the_library():
    """sectionproperties 3.10.2 on sixty drawn channels: lips, returns, radii, slots, two back to back."""
    rows = FIGURES["struts"]
    got = section(*rows)
    sharp = np.array([row["r"] == 0.0 for row in rows])
    assert 10 < sharp.sum() < 50
    for name in FOUND:
        expected = np.array([row[name] for row in rows])
        np.testing.assert_allclose(getattr(got, name), expected, rtol=3e-5, err_msg=name)
        np.testing.assert_allclose(getattr(got, name)[sharp], expected[sharp], rtol=1e-8, err_msg=name)


def test_plain_channel_is_three_rectangles():
    """Back 4 x 0.25 and two legs 2 x 0.25 on it: I = 4 x 0.25^3/12 + ..., by the formula of three rectangles."""
    got = section({"b": 4.0, "h": 2.25, "t": 0.25, "d_lip": 0.25})
    back, legs = 1.0, 2 * 2.0 * 0.25
    y = (back * 0.125 + legs * 1.25) / 2.0
    i_x = 4.0 * 0.25**3 / 12 + back * (y - 0.125) ** 2 + 2 * 0.25 * 2.0**3 / 12 + legs * (1.25 - y) ** 2
    i_y = 0.25 * 4.0**3 / 12 + 2 * (2.0 * 0.25**3 / 12 + 0.5 * 1.875**2)
    np.testing.assert_allclose([got.area[0], got.y_1[0], got.i_x[0], got.i_y[0]], [2.0, y, i_x, i_y], rtol=1e-13)


def test_slots_weaken_and_do_not_lighten():
    whole, slotted = (section(STRUT | {"b_slot": width}) for width in (0.0, 0.5625))
    assert slotted.i_x < whole.i_x
    assert slotted.s_x < whole.s_x
    np.testing.assert_allclose(whole.area - slotted.area, 0.5625 * 0.105, rtol=1e-12)
    np.testing.assert_allclose(slotted.w, whole.w, rtol=1e-14)


def test_two_back_to_back():
    """Twice the area and weight; the axis moves to the backs: I = 2 (I_1 + A_1 y_1^2), alike on both faces."""
    one, two = section(STRUT), section(STRUT | {"back_to_back": True})
    np.testing.assert_allclose(two.area, 2 * one.area)
    np.testing.assert_allclose(two.w, 2 * one.w)
    np.testing.assert_allclose(two.i_x, 2 * (0.184927 + 0.546525 * 0.684738**2), rtol=6e-6)
    np.testing.assert_allclose(two.s_back, two.i_x / 1.625)
    np.testing.assert_array_equal(two.s_back, two.s_open)
    np.testing.assert_allclose(two.i_y, 2 * one.i_y)


def test_scale():
    """Twice as large in everything: area 4, section modulus 8, moment of inertia 16 times."""
    row = STRUT | {"d_return": 0.28, "r": 0.1, "b_slot": 0.4}
    small, large = section(row), section({name: 2 * value for name, value in row.items()})
    for name, power in (("area", 2), ("w", 2), ("s_x", 3), ("i_x", 4), ("i_y", 4)):
        np.testing.assert_allclose(getattr(large, name), 2**power * getattr(small, name), rtol=1e-12)
