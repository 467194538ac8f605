"""Duct weight by hand: perimeters, linings, wraps. Sheet weights: tests/published/test_duct_sheet.py."""

import numpy as np
import pytest

from hangpoint.core.loads.duct import FLAT_OVAL, RECTANGULAR, ROUND, SHAPES, duct_weight


def weigh(**changed):
    row = {
        "shape": RECTANGULAR,
        "a": 24.0,
        "b": 12.0,
        "q_sheet": 1.156,
        "reinforcement": 0.0,
        "t_liner": 0.0,
        "rho_liner": 0.0,
        "t_wrap": 0.0,
        "rho_wrap": 0.0,
    } | changed
    columns = {name: np.array([value], dtype=np.int8 if name == "shape" else float) for name, value in row.items()}
    return duct_weight(**columns)


def test_a_rectangular_duct_by_hand():
    """24 x 12 in of 24 gauge galvanised: 6 ft x 1.156 = 6.94 lb/ft, with 0.20 for seams and reinforcement 8.32."""
    assert weigh().w_sheet[0] == pytest.approx(6.936)
    assert weigh(reinforcement=0.20).w_dead[0] == pytest.approx(8.3232)


def test_a_round_duct_by_hand():
    """24 in, 24 gauge: 6.283 ft x 1.156 = 7.263 lb/ft, whatever stands in the second dimension."""
    assert weigh(shape=ROUND).w_sheet[0] == pytest.approx(7.263, abs=5e-4)
    assert weigh(shape=ROUND, b=7.0).w_dead[0] == weigh(shape=ROUND).w_dead[0]


def test_a_flat_oval_is_two_half_circles_and_two_flats():
    """24 x 12 in: 37.699 in around the ends and 24 in of flats, 61.70 in; a flat oval with a = b is round."""
    assert weigh(shape=FLAT_OVAL).perimeter[0] == pytest.approx(61.699, abs=5e-4)
    assert weigh(shape=FLAT_OVAL, b=24.0).perimeter[0] == pytest.approx(weigh(shape=ROUND).perimeter[0])


def test_wrap_of_square_corners_is_exact():
    """1.5 in of 0.75 lb/ft3 around 24 x 12: (27 x 15 - 24 x 12)/144 = 0.8125 ft2, 0.6094 lb/ft."""
    assert weigh(t_wrap=1.5, rho_wrap=0.75).w_wrap[0] == pytest.approx(0.609375)


def test_wrap_of_a_circle_is_an_upper_bound():
    """Around 24 in the ring is pi (24 + 1.5) 1.5 = 120.2 in2; the corners add (4 - pi) 1.5^2 = 1.9 in2."""
    ring = np.pi * 25.5 * 1.5 / 144 * 0.75
    over = weigh(shape=ROUND, t_wrap=1.5, rho_wrap=0.75).w_wrap[0] / ring
    assert over == pytest.approx(1 + (4 - np.pi) * 1.5**2 / (np.pi * 25.5 * 1.5))
    assert 1.0 < over < 1.02


def test_liner_is_an_upper_bound():
    """1 in of 1.5 lb/ft3 in 24 x 12: the ring is 288 - 22 x 10 = 68 in2, 72 in2 are taken."""
    taken = weigh(t_liner=1.0, rho_liner=1.5).w_liner[0]
    assert taken == pytest.approx(72 / 144 * 1.5)
    assert taken > 68 / 144 * 1.5


def test_everything_adds_up():
    row = weigh(reinforcement=0.25, t_liner=1.0, rho_liner=1.5, t_wrap=1.5, rho_wrap=0.75)
    assert row.w_dead[0] == pytest.approx(6.936 * 1.25 + 0.75 + 0.609375)


def test_many_shapes_at_once():
    shapes = np.array([RECTANGULAR, ROUND, FLAT_OVAL], dtype=np.int8)
    alike = {name: np.full(3, value) for name, value in (("a", 24.0), ("b", 12.0), ("q_sheet", 1.156))}
    none = np.zeros(3)
    row = duct_weight(
        shape=shapes, reinforcement=none, t_liner=none, rho_liner=none, t_wrap=none, rho_wrap=none, **alike
    )
    assert row.perimeter == pytest.approx([72.0, 75.398, 61.699], abs=5e-4)
    assert len(SHAPES) == 3
