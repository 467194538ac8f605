"""Suspended equipment: by hand, by brute force, and what is flagged.

Worked example: tests/published/test_equipment.py.
"""

from itertools import combinations

import numpy as np
import pytest

from core.statics.equipment import by_body, hung, random_bodies

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]


def test_four_corners_centric():
    """Equal springs: a quarter each. A diagonal pair may carry all of it: half each (common practice, no source)."""
    got = hung((1000.0, (5, 5), SQUARE))
    np.testing.assert_allclose(got.supports.r_springs, 250.0)
    np.testing.assert_allclose(got.supports.r_three, 500.0)
    assert got.held[0]
    assert not got.in_line[0]
    assert not got.pushed[0]


def test_three_supports_are_determinate():
    """Moments about each side of a right triangle with legs of 30 and 20: shares by distance, both models alike."""
    got = hung((600.0, (10, 5), [(0, 0), (30, 0), (0, 20)]))
    expected = 600 * np.array([1 - 10 / 30 - 5 / 20, 10 / 30, 5 / 20])
    np.testing.assert_allclose(got.supports.r_springs, expected)
    np.testing.assert_allclose(got.supports.r_three, expected)


def test_two_supports_are_a_lever():
    got = hung((100.0, (3, 4), [(0, 0), (6, 8)]), (100.0, (1.5, 2), [(0, 0), (6, 8)]))
    np.testing.assert_allclose(got.supports.r_springs, [50, 50, 75, 25])
    np.testing.assert_allclose(got.supports.r_three, [50, 50, 75, 25])
    assert got.in_line.all()
    assert got.held.all()


def test_three_in_a_line():
    """At 0, 4 and 8 with the weight at 5: springs 1/3 + x (1)/32 with x -4, 0, 4; pairs: (0, 8) and (4, 8) hold it."""
    got = hung((96.0, (5, 0), [(0, 0), (4, 0), (8, 0)]))
    np.testing.assert_allclose(got.supports.r_springs, 96 * (1 / 3 + np.array([-4, 0, 4]) / 32), atol=1e-12)
    np.testing.assert_allclose(got.supports.r_three, 96 * np.array([3 / 8, 3 / 4, 5 / 8]), atol=1e-12)


@pytest.mark.parametrize(
    ("weight", "supports"),
    [
        ((12, 5), SQUARE),
        ((5, -0.001), SQUARE),
        ((3, 4.2), [(0, 0), (6, 8)]),
        ((-0.1, 0), [(0, 0), (6, 0)]),
        ((4, 0.1), [(0, 0), (4, 0), (8, 0)]),
    ],
)
def test_what_nothing_holds_is_said(weight, supports):
    bodies = (100.0, weight, supports), (100.0, (5, 5), SQUARE), (0.0, weight, supports)
    got = hung(*bodies)
    np.testing.assert_array_equal(got.held, [False, True, False])
    for column in (got.supports.r_springs, got.supports.r_three):
        first, held, weightless = by_body(column, bodies)
        assert np.isinf(first).all()
        assert np.isfinite(held).all()
        assert np.isinf(weightless).all()


def test_the_weight_on_an_edge_is_held():
    got = hung((100.0, (5, 0), SQUARE), (100.0, (10, 10), SQUARE))
    assert got.held.all()
    np.testing.assert_allclose(got.supports.r_three, [50, 50, 0, 0, 0, 0, 100, 0], atol=1e-12)


def test_a_support_that_would_push_is_flagged():
    """By hand: a square and a fifth support at (100, 5), weight over the middle of the left side.

    x_m = 24, sum u^2 = 2 x 24^2 + 2 x 14^2 + 76^2 = 7,320, e_x = -24: at the far one 1/5 - 24 x 76/7,320 = -0.0492.
    """
    got = hung((100.0, (0, 5), [*SQUARE, (100, 5)]), (100.0, (5, 5), SQUARE))
    np.testing.assert_allclose(got.supports.r_springs[4], 100 * (0.2 - 24 * 76 / 7320), rtol=1e-12)
    np.testing.assert_array_equal(got.pushed, [True, False])
    assert got.held.all()


def test_supports_nearly_in_line_are_a_line():
    """A hundredth of an inch beside a line of 100 in: the middle one may carry all, or both others half.

    As a slender triangle it was told that they share 1/4, 1/4 and 1/2, which the least play of a rod makes untrue.
    """
    got = hung((100.0, (50, 0.005), [(0, 0), (100, 0), (50, 0.01)]))
    assert got.in_line[0]
    np.testing.assert_allclose(got.supports.share_three, [0.5, 0.5, 1.0], atol=1e-3)
    np.testing.assert_allclose(got.supports.share_springs, 1 / 3, atol=1e-3)


def test_a_triangle_of_a_twentieth_is_no_line():
    got = hung((100.0, (50, 2), [(0, 0), (100, 0), (50, 5)]))
    assert not got.in_line[0]
    np.testing.assert_allclose(got.supports.share_three, [0.3, 0.3, 0.4])


def test_a_weight_rounded_beside_its_line_is_held():
    """Two rods at (0, 0) and (23.5, 11.25) in, the weight in their middle to a hundredth of an inch: half each."""
    got = hung((1000.0, (11.75, 5.63), [(0, 0), (23.5, 11.25)]))
    assert got.held[0]
    np.testing.assert_allclose(got.supports.r_three, 500.0, atol=0.5)


def stiffness(weight, place, supports):
    """Rigid body on unit springs by the stiffness matrix of (heave, two rotations), least norm where it is singular."""
    shape = np.column_stack([np.ones(len(supports)), supports])
    load = weight * np.array([1.0, *place])
    return shape @ np.linalg.lstsq(shape.T @ shape, load, rcond=1e-11)[0]


def by_brute_force(place, supports):
    """Largest share of each support over all pairs and triples that carry without pushing, each by a linear solve."""
    largest, size = np.full(len(supports), -1.0), np.abs(supports - place).max()
    for few in (2, 3):
        for chosen in combinations(range(len(supports)), few):
            equations = np.vstack([np.ones(few), (supports[list(chosen)] - place).T / size])
            shares, _, rank, _ = np.linalg.lstsq(equations, np.array([1.0, 0.0, 0.0]), rcond=1e-10)
            misfit = np.abs(equations @ shares - [1.0, 0.0, 0.0]).max()
            if rank == few and misfit < 1e-9 and shares.min() > -1e-9:
                largest[list(chosen)] = np.maximum(largest[list(chosen)], shares)
                others = np.setdiff1d(np.arange(len(supports)), chosen)
                largest[others] = np.maximum(largest[others], 0.0)
    return largest


def test_random_bodies():
    """Equal springs by a stiffness solve, any three by brute force over pairs and triples; 300 bodies in one call."""
    bodies = random_bodies(np.random.default_rng(12), 300)
    got = hung(*bodies)
    shares, reactions = by_body(got.supports.share_three, bodies), by_body(got.supports.r_springs, bodies)
    for item, (weight, place, supports) in enumerate(bodies):
        largest = by_brute_force(place, supports)
        assert got.held[item] == (largest.min() >= 0.0), item
        if not got.held[item]:
            continue
        np.testing.assert_allclose(shares[item], largest, atol=1e-8)
        springs = stiffness(weight, place, supports)
        np.testing.assert_allclose(reactions[item], springs, rtol=1e-7, atol=1e-6 * weight)
        assert got.pushed[item] == (springs.min() < -1e-9 * weight)
        assert reactions[item].sum() == pytest.approx(weight)
        moment = reactions[item] @ supports
        np.testing.assert_allclose(moment, weight * np.array(place), rtol=1e-6, atol=1e-4 * weight)
    assert 50 < got.held.sum() < 290
    assert got.pushed.sum() > 5
    assert got.in_line.sum() > 50


def test_three_is_never_less_than_springs_that_only_pull():
    """Springs that only pull are one way to share the weight; any way is a mean of triples."""
    bodies = random_bodies(np.random.default_rng(13), 300)
    got = hung(*bodies)
    pulls = np.repeat(got.held & ~got.pushed, [len(body[2]) for body in bodies])
    assert pulls.sum() > 300
    assert (got.supports.share_three[pulls] >= got.supports.share_springs[pulls] - 1e-9).all()


def test_turning_and_moving_change_nothing():
    """Plan turned by 0.7 and moved, in one call with other bodies of other counts."""
    bodies = random_bodies(np.random.default_rng(14), 80)
    turn = np.array([[np.cos(0.7), np.sin(0.7)], [-np.sin(0.7), np.cos(0.7)]])
    moved = [(w, np.array(g) @ turn + [300, -90], np.array(s) @ turn + [300, -90]) for w, g, s in bodies]
    here, there = hung(*bodies), hung(*moved)
    np.testing.assert_array_equal(here.held, there.held)
    held = here.supports.held
    for name in ("share_springs", "share_three"):
        np.testing.assert_allclose(getattr(here.supports, name)[held], getattr(there.supports, name)[held], atol=1e-7)


def test_each_is_what_it_is_alone():
    bodies = random_bodies(np.random.default_rng(15), 40)
    every, alone = hung(*bodies), [hung(body) for body in bodies]
    for name in ("r_springs", "r_three"):
        joined = np.concatenate([getattr(one.supports, name) for one in alone])
        np.testing.assert_allclose(getattr(every.supports, name), joined, rtol=1e-12)
