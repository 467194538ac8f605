"""Fixtures: forces at the origin of the anchors, reactions of supports, overturning about an edge.

Against vector products, equilibrium, a least-squares solution and hand statics written in the docstrings.
"""

import math

import numpy as np
import pytest

from hangpoint.core.statics.fixture_force import direction, fixture_force
from hangpoint.core.statics.overturning import overturning
from hangpoint.core.statics.support_reaction import stand_in_line, support_reaction

ROWS = 300


def random(seed=7):
    return np.random.default_rng(seed)


def one(**columns):
    names = ("w", "h", "theta", "p_x", "p_y", "p_z", "x_f", "y_f", "z_f")
    made = {name: np.array([float(columns.get(name, 0.0))]) for name in names}
    return fixture_force(on_side=np.array([columns.get("on_side", False)]), **made)


def test_directions():
    """Python's own sine and cosine; right angles without rounding."""
    angles = np.array([-450.0, -33.3, 0.0, 30.0, 45.0, 90.0, 180.0, 270.0, 359.0])
    cosine, sine = direction(angles)
    np.testing.assert_allclose(cosine, [math.cos(math.radians(a)) for a in angles], atol=1e-15)
    np.testing.assert_allclose(sine, [math.sin(math.radians(a)) for a in angles], atol=1e-15)
    np.testing.assert_array_equal(cosine[[0, 5, 6, 7]], [0, 0, -1, 0])


def test_a_bracket_by_hand():
    """400 lb at 14 in from the wall: V = 400 lb downwards, M = 400 x 14 = 5,600 lb-in that pulls at the top anchors.

    M_x > 0 pulls at +y, which is up.
    """
    made = one(on_side=True, w=400, z_f=14)
    assert (made.n[0], made.v_x[0], made.v_y[0]) == (0, 0, -400)
    assert (made.m_x[0], made.m_y[0], made.m_z[0]) == (5600, 0, 0)


def test_a_post_by_hand():
    """200 lb at 42 in along +x: M = 8,400 lb-in that pulls at the anchors at -x, which is M_y > 0."""
    made = one(h=200, theta=0, z_f=42)
    assert (made.v_x[0], made.m_y[0], made.m_x[0]) == (200, 8400, 0)
    away = one(h=200, theta=90, z_f=42)
    assert (away.v_y[0], away.m_x[0], away.m_y[0]) == (200, -8400, 0)


def test_a_pull_out_of_a_wall():
    """A horizontal force at 90 degrees on a side face is tension."""
    made = one(on_side=True, h=300, theta=90, y_f=10)
    assert (made.n[0], made.v_y[0], made.m_x[0]) == (300, 0, 3000)


def test_forces_and_moments_vanish_about_any_point():
    """Load at its place and the opposite at the origin with the moments: no force and no moment about any point."""
    rng = random()
    columns = {name: rng.uniform(-100, 100, ROWS) for name in ("w", "h", "p_x", "p_y", "p_z", "x_f", "y_f", "z_f")}
    on_side, theta = rng.random(ROWS) < 0.5, rng.uniform(0, 360, ROWS)
    made = fixture_force(on_side=on_side, theta=theta, **columns)
    turned = np.radians(theta)
    down = np.where(on_side[:, None], [0.0, -1.0, 0.0], [0.0, 0.0, -1.0])
    across = np.where(on_side[:, None], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0])
    force = columns["w"][:, None] * down + np.stack([columns[f"p_{axis}"] for axis in "xyz"], axis=1)
    force += columns["h"][:, None] * (np.cos(turned)[:, None] * [1.0, 0.0, 0.0] + np.sin(turned)[:, None] * across)
    place = np.stack([columns[f"{axis}_f"] for axis in "xyz"], axis=1)
    answer = -np.stack((made.v_x, made.v_y, made.n), axis=1)
    np.testing.assert_allclose(force + answer, 0.0, atol=1e-10)
    point = rng.uniform(-50, 50, (ROWS, 3))
    moments = np.cross(place - point, force) + np.cross(-point, answer) - np.stack((made.m_x, made.m_y, made.m_z), 1)
    np.testing.assert_allclose(moments, 0.0, atol=1e-8)


def supports_of(rng, rows):
    number = rng.integers(3, 9, rows)
    body = np.repeat(np.arange(rows), number)
    return body, rng.uniform(-50, 50, len(body)), rng.uniform(-50, 50, len(body))


def test_supports_are_in_equilibrium_and_plane():
    """Sums of reactions and of their moments are the load; and they are the least squares of all that are."""
    rng = random(8)
    body, x, y = supports_of(rng, ROWS)
    n, m_x, m_y = (rng.uniform(-1e3, 1e3, ROWS) for _ in range(3))
    made = support_reaction(n=n, m_x=m_x, m_y=m_y, x=x, y=y, body_of_support=body)
    for row in range(ROWS):
        own = body == row
        t = made.t[own]
        system = np.stack((np.ones(own.sum()), y[own], -x[own]))
        load = np.array([n[row], m_x[row], m_y[row]])
        np.testing.assert_allclose(system @ t, load, rtol=1e-7, atol=1e-6)
        np.testing.assert_allclose(t, np.linalg.lstsq(system, load, rcond=None)[0], rtol=1e-5, atol=1e-5)


def test_four_feet_by_hand():
    """1,200 lb centric on 48 in by 36 in, 1,200 lb at 30 in along x: 36,000/(2 x 48) -+ 300 lb.

    The pair behind pulls by 375 - 300 = 75 lb each, that in front presses by 675 lb each.
    """
    x, y = np.array([-24.0, 24, 24, -24]), np.array([-18.0, -18, 18, 18])
    made = support_reaction(
        n=np.array([-1200.0]),
        m_x=np.array([0.0]),
        m_y=np.array([36_000.0]),
        x=x,
        y=y,
        body_of_support=np.zeros(4, dtype=int),
    )
    np.testing.assert_allclose(made.t, [75, -675, -675, 75])


def test_what_stands_in_line():
    x, y = np.array([0.0, 10, 20, 0, 10, 20]), np.array([0.0, 5, 10, 0, 5, 11])
    body = np.repeat([0, 1], 3)
    assert stand_in_line(x=x, y=y, body_of_support=body, bodies=2).tolist() == [True, False]


def tipped(**changed):
    """A body of 1,200 lb, 48 in by 36 in, under 1,200 lb at 30 in along x."""
    columns = {
        "w": 1200,
        "w_most": 1500,
        "x_g": 0,
        "y_g": 0,
        "gamma_w": 1,
        "gamma_most": 1.2,
        "e_v": 0,
        "v_most": 300,
        "h_z": 36_000,
        "gamma_h": 1,
        "theta": 0,
    }
    corners = {"x": np.array([-24.0, 24, 24, -24]), "y": np.array([-18.0, -18, 18, 18])}
    edges = {"x_edge": corners["x"], "y_edge": corners["y"]}
    row, alone = np.zeros(4, dtype=int), np.zeros(1, dtype=int)
    made = {name: np.array([float(changed.pop(name, value))]) for name, value in columns.items()}
    places = {**edges, **corners, **changed}
    return overturning(**made, **places, row_of_edge=row, row_of_anchor=row, adjoining=alone, load_of_row=alone)


def test_overturning_by_hand():
    """Righting 1,200 x 24 = 28,800 lb-in of 36,000: two anchors at 48 in take (36,000 - 28,800)/(2 x 48) = 75 lb each.

    With 0.9 of the weight less 240 lb upwards: 840 lb, 20,160 lb-in, 165 lb each.
    """
    made = tipped()
    assert (made.m_over[0], made.m_right[0], made.tips[0]) == (36_000, 28_800, True)
    assert made.t_far[0] == pytest.approx(75)
    assert tipped(gamma_h=1.6).v_1[0] == pytest.approx(480)
    assert tipped(gamma_w=0.9, e_v=240).t_far[0] == pytest.approx((36_000 - 840 * 24) / 96)


def test_a_weight_beyond_the_edge_overturns_with_all_that_may_be_there():
    """30 in along x, 6 in beyond the edge: 1.2 x 1,500 + 240 lb overturn by 12,240 lb-in; two anchors at 48 in."""
    made = tipped(x_g=30, e_v=240, h_z=0)
    assert (made.m_right[0], made.tips[0]) == (-12_240, True)
    assert made.t_far[0] == pytest.approx(12_240 / 96)


def test_a_body_that_does_not_tip_pulls_at_nothing():
    made = tipped(h_z=28_000)
    assert (made.tips[0], made.t_far[0]) == (False, 0)


def test_anchors_beyond_the_edge_hold_nothing():
    made = tipped(x=np.full(4, 24.0))
    assert made.tips[0]
    assert (made.d_squared[0], made.t_far[0]) == (0, 0)


def test_any_body_about_its_edge():
    """Moments about the edge vanish with tensions by distance; the same by plain loops over corners and anchors."""
    rng = random(9)
    for _ in range(50):
        theta, reach = rng.uniform(0, 360), rng.uniform(10, 40)
        corners, anchors = rng.uniform(-reach, reach, (5, 2)), rng.uniform(-reach, reach, (6, 2))
        w, h_z, x_g, y_g = rng.uniform(10, 100), rng.uniform(1e4, 1e5), *rng.uniform(-5, 5, 2)
        along = np.array([math.cos(math.radians(theta)), math.sin(math.radians(theta))])
        one_row = {"w": w, "w_most": w, "x_g": x_g, "y_g": y_g, "gamma_w": 1, "gamma_most": 1, "e_v": 0}
        one_row |= {"v_most": 1, "h_z": h_z, "gamma_h": 1}
        made = overturning(
            **{name: np.array([float(value)]) for name, value in one_row.items()},
            theta=np.array([theta]),
            x_edge=corners[:, 0],
            y_edge=corners[:, 1],
            row_of_edge=np.zeros(5, dtype=int),
            x=anchors[:, 0],
            y=anchors[:, 1],
            row_of_anchor=np.zeros(6, dtype=int),
            adjoining=np.zeros(1, dtype=int),
            load_of_row=np.zeros(1, dtype=int),
        )
        edge = max(float(corner @ along) for corner in corners)
        away = [max(edge - float(anchor @ along), 0.0) for anchor in anchors]
        net = max(h_z - w * (edge - float(np.array([x_g, y_g]) @ along)), 0.0)
        assert made.d_edge[0] == pytest.approx(edge)
        assert made.d_far[0] == pytest.approx(max(away))
        if max(away) == 0.0:
            assert made.t_far[0] == 0
            continue
        held = sum(made.t_far[0] * d / max(away) * d for d in away)
        assert held == pytest.approx(net, rel=1e-9)
