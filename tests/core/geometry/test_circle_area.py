"""Projected circles in masonry: by hand, by shapely, and that nobody has more than its share."""

import itertools
import math

import numpy as np
import pytest
from shapely.geometry import Point, box

from hangpoint.core.geometry.circle_area import cut_circle, cut_half_circle, divided, quarter
from hangpoint.core.geometry.circle_overlap import overlap

NONE = np.zeros(0, dtype=np.intp)
INF = np.inf
FAR = 1e3


def pairs(count):
    """Each pair of so many from both sides."""
    found = np.array(list(itertools.permutations(range(count), 2)), dtype=np.intp).reshape(-1, 2)
    return found[:, 0], found[:, 1]


def circles(radius, c_a, at):
    one, other = pairs(len(at))
    off_x, off_y = (at[other] - at[one]).T
    return cut_circle(radius=radius, c_a=c_a, one=one, other=other, off_x=off_x, off_y=off_y)


def half_circles(c_a, depth, at):
    one, other = pairs(len(at))
    off_x, off_y = (at[other] - at[one]).T
    return cut_half_circle(c_a=c_a, depth=np.full(len(at), depth), one=one, other=other, off_x=off_x, off_y=off_y)


def reach(at, edges):
    """Distances of points to the sides of a box around the origin."""
    x, y = at.T
    return np.stack((edges[0] + x, edges[1] - x, edges[2] + y, edges[3] - y), axis=1)


def disc(x, y, radius):
    return Point(x, y).buffer(radius, 500)


def shares(shapes):
    """Area of each shape where every place is divided by the number of shapes that cover it."""
    made = []
    for i, shape in enumerate(shapes):
        others = [each for j, each in enumerate(shapes) if j != i]
        share = 0.0
        for count in range(len(others) + 1):
            for chosen in itertools.combinations(range(len(others)), count):
                part = shape
                for j, each in enumerate(others):
                    part = part.intersection(each) if j in chosen else part.difference(each)
                share += part.area / (count + 1)
        made.append(share)
    return np.array(made)


def random_edges(rng, most):
    return np.where(rng.random(4) < 0.5, INF, most + rng.uniform(0.5, 8, 4))


def random_places(rng, count):
    while True:
        at = rng.uniform(-5, 5, (count, 2))
        one, other = pairs(count)
        if count == 1 or np.hypot(*(at[one] - at[other]).T).min() > 1:
            return at


def test_quarters_by_hand():
    """Within r/2 by anything of a circle of 2: pi/6 r^2 + sqrt(3)/8 r^2; a small rectangle whole; none; all."""
    found = quarter(radius=np.full(4, 2.0), width=np.array([1.0, 1.0, 0.0, INF]), height=np.array([INF, 1.2, 5.0, 2.0]))
    strip = 4 * (math.pi / 12 + math.sqrt(3) / 8)
    np.testing.assert_allclose(found, [strip, 1.2, 0.0, math.pi], rtol=1e-14)


def test_lenses_by_hand():
    """Equal circles r apart share r^2 (2 pi/3 - sqrt(3)/2); touching ones nothing; one within the other all of it."""
    off = np.zeros((2, 6))
    off[1] = [2.0, 4.0, 2.0, 0.0, 0.0, 3.0]
    found = overlap(
        one=np.array([2.0, 2.0, 1.0, 5.0, 3.0, 5.0]),
        other=np.array([2.0, 2.0, 3.0, 1.0, 3.0, 1.0]),
        off=off,
        low=np.full((2, 6), -INF),
        high=np.full((2, 6), INF),
    )
    equal = 4 * (2 * math.pi / 3 - math.sqrt(3) / 2)
    np.testing.assert_allclose(found, [equal, 0.0, math.pi, math.pi, 9 * math.pi, math.pi], rtol=1e-13, atol=1e-13)


def test_a_cut_lens_by_hand():
    """Two bolts of 12 in, 8 in apart on top of a wall of 7.625 in, whose faces leave 3.8125 in on both sides of them.

    Half of the lens is the segment beyond 4 in of a circle of 12, its width at least 7.625 in up to where the circle is
    3.8125 in from the axis, sqrt(144 - 14.535) = 11.3783 in: a strip of 7.3783 x 7.625 = 56.2594 in2, and behind it
    the integral of 2 sqrt(144 - x^2) up to 12 in, 144 acos(.9481885) - 11.3783 x 3.8125 = 46.5569 - 43.3796 = 3.1773
    in2. Both halves: 118.873 in2.
    """
    off, wide = np.array([[8.0], [0.0]]), np.array([[INF], [3.8125]])
    found = overlap(one=np.array([12.0]), other=np.array([12.0]), off=off, low=-wide, high=wide)
    assert found[0] == pytest.approx(118.873, abs=0.002)


def test_random_lenses_against_polygons():
    """Cut by the sides of a rectangle around the centre of one, as near as to pass through it."""
    rng = np.random.default_rng(401)
    one, other = rng.uniform(1, 6, (2, 200))
    apart, way = rng.uniform(0, 8, 200), rng.uniform(0, 2 * np.pi, 200)
    off = apart * np.array((np.cos(way), np.sin(way)))
    off[1, ::4] = 0.0
    near = rng.random((4, 200))
    sides = np.where(near < 0.4, INF, np.where(near < 0.5, 0.0, rng.uniform(0, 6, (4, 200))))
    found = overlap(one=one, other=other, off=off, low=-sides[:2], high=sides[2:])
    for at, (a, b, (x, y), (left, down, right, up)) in enumerate(
        zip(one, other, off.T, np.minimum(sides, FAR).T, strict=True)
    ):
        shared = disc(0, 0, a).intersection(disc(x, y, b)).intersection(box(-left, -down, right, up))
        assert found[at] == pytest.approx(shared.area, rel=1e-4, abs=1e-3)
    assert (apart < np.abs(one - other)).sum() > 15
    assert (apart > one + other).sum() > 15


def test_circles_against_polygons():
    """One circle within four edges, corners and all, and two that share a lens away from every edge."""
    rng = np.random.default_rng(402)
    for _ in range(50):
        radius, edges, spacing = rng.uniform(2, 8), random_edges(rng, 0.0), rng.uniform(0.2, 20)
        left, right, down, up = np.minimum(edges, FAR)
        whole = disc(0, 0, radius).intersection(box(-left, -down, right, up)).area
        alone = circles(np.array([radius]), edges[None, :], np.zeros((1, 2)))
        assert alone[0] == pytest.approx(whole, rel=1e-5)
        shared = disc(0, 0, radius).intersection(disc(spacing, 0, radius)).area
        both = circles(np.full(2, radius), np.full((2, 4), INF), np.array([[0.0, 0.0], [spacing, 0.0]]))
        np.testing.assert_allclose(both, math.pi * radius**2 - shared / 2, rtol=1e-5)


def test_half_circles_against_polygons():
    """In the face of an edge: left and right of the bolt its sides, behind it the far face; further bolts behind."""
    rng = np.random.default_rng(403)
    for _ in range(50):
        edges, depth = random_edges(rng, 0.0), rng.uniform(1, 9)
        left, right, down, up = np.minimum(edges, FAR)
        found = half_circles(edges[None, :], depth, np.zeros((1, 2)))[0]
        for side, across in enumerate([(down, up), (down, up), (left, right), (left, right)]):
            whole = 0.0
            if math.isfinite(edges[side]):
                whole = disc(0, 0, edges[side]).intersection(box(-across[0], 0, across[1], depth)).area
            assert found[side] == pytest.approx(whole, rel=1e-5)
        near, step, offset = rng.uniform(2, 6), rng.uniform(0, 6), rng.uniform(0, 8)
        at = np.array([[0.0, 0.0], [-step, offset]])
        two = half_circles(reach(at, [INF, near, INF, INF]), FAR, at)
        shared = disc(0, 0, near).intersection(disc(offset, 0, near + step)).area / 2
        np.testing.assert_allclose(two[:, 1], math.pi * np.array([near, near + step]) ** 2 / 2 - shared / 2, rtol=1e-5)


@pytest.mark.parametrize("count", [2, 3, 4])
def test_nobody_has_more_than_its_share(count):
    """Of every place an equal part with all that cover it; of two exactly that, at edges and corners too."""
    rng = np.random.default_rng(404 + count)
    for _ in range(25):
        at, radius, depth = random_places(rng, count), rng.uniform(2, 6), rng.uniform(1, 9)
        edges = random_edges(rng, 5.0)
        left, right, down, up = np.minimum(edges, FAR)
        c_a, member = reach(at, edges), box(-left, -down, right, up)
        limit = shares([disc(x, y, radius).intersection(member) for x, y in at])
        found = circles(np.full(count, radius), c_a, at)
        assert (found > 0).all()
        assert (found <= limit * (1 + 1e-5)).all()
        if count == 2:
            np.testing.assert_allclose(found, limit, rtol=1e-5)
        halves = half_circles(c_a, depth, at)
        for side, (along, low, high) in enumerate([(1, down, up), (1, down, up), (0, left, right), (0, left, right)]):
            if math.isfinite(edges[side]):
                face = box(-low, 0, high, depth)
                shapes = [
                    disc(place[along], 0, each).intersection(face) for place, each in zip(at, c_a[:, side], strict=True)
                ]
                assert (halves[:, side] > 0).all()
                limit = shares(shapes)
                assert (halves[:, side] <= limit * (1 + 1e-5)).all()
                if count == 2:
                    np.testing.assert_allclose(halves[:, side], limit, rtol=1e-5)


def test_many_that_share_one_place_have_equal_parts():
    """By hand: four of 10 that share all of it with each other have 2.5, not 10 - 3 x 5; two have 5."""
    one, _ = pairs(4)
    np.testing.assert_allclose(divided(own=np.full(4, 10.0), one=one, shared=np.full(12, 10.0)), 2.5)
    one, _ = pairs(2)
    np.testing.assert_allclose(divided(own=np.full(2, 10.0), one=one, shared=np.full(2, 10.0)), 5.0)
    np.testing.assert_allclose(divided(own=np.array([10.0]), one=NONE, shared=np.zeros(0)), 10.0)
