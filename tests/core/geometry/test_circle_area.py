"""Projected circles in masonry: by hand, by shapely, and what can't be."""

import math

import numpy as np
import pytest
from shapely.geometry import Point, box

from hangpoint.core.geometry.circle_area import cut_circle, segment

NONE = np.zeros(0, dtype=np.intp)
INF = np.inf


def alone(radius, c_a):
    return cut_circle(radius=np.array([radius]), c_a=np.array([c_a]), one=NONE, spacing=np.zeros(0))[0]


def test_segments_by_hand():
    """Beyond the centre half a circle; at half the radius r^2 (pi/3 - sqrt(3)/4); from the radius on nothing."""
    found = segment(radius=np.full(4, 2.0), distance=np.array([0.0, 1.0, 2.0, INF]))
    np.testing.assert_allclose(found, [2 * math.pi, 4 * (math.pi / 3 - math.sqrt(3) / 4), 0.0, 0.0], rtol=1e-14)


def test_circles_against_polygons():
    """shapely: one edge, two opposite edges, and a neighbour whose half of the common lens is its own."""
    rng = np.random.default_rng(402)
    for _ in range(50):
        radius, near, far, spacing = rng.uniform(2, 8), *rng.uniform(0.2, 8, 3)
        circle = Point(0, 0).buffer(radius, 2_000)
        strip = circle.intersection(box(-near, -99, far, 99))
        assert alone(radius, [near, far, INF, INF]) == pytest.approx(strip.area, rel=1e-5)
        lens = circle.intersection(Point(spacing, 0).buffer(radius, 2_000)).area
        both = cut_circle(
            radius=np.full(2, radius), c_a=np.full((2, 4), INF), one=np.array([0, 1]), spacing=np.full(2, spacing)
        )
        np.testing.assert_allclose(both, circle.area - lens / 2, rtol=1e-5, atol=1e-3)


def test_a_corner_is_on_the_safe_side():
    """What lies beyond both edges is taken off twice; nothing goes below 0."""
    corner = Point(0, 0).buffer(4, 2_000).intersection(box(-1, -1, 99, 99)).area
    assert 0 < alone(4.0, [1.0, INF, 1.0, INF]) < corner
    assert alone(4.0, [0.1, 0.1, 0.1, 0.1]) == 0.0
