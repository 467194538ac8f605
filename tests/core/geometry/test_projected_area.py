"""Projected areas against polygons clipped by ``shapely``."""

import numpy as np
import pytest
from shapely.geometry import box

from hangpoint.core.geometry.projected_area import projected_area

FAR = 1e4


def test_single_anchors_against_polygons():
    """``shapely``: the square of the surface, intersected with a half plane for each edge; 500 random anchors."""
    rng = np.random.default_rng(17621)
    reach = np.exp(rng.uniform(0, 4, 500))
    c_a = reach[:, None] * np.exp(rng.uniform(np.log(0.02), np.log(4), (500, 4)))
    c_a = np.where(rng.random((500, 4)) < 0.3, np.inf, c_a)
    expected = []
    for r, edges in zip(reach, c_a, strict=True):
        x_minus, x_plus, y_minus, y_plus = np.minimum(edges, FAR)
        surface = box(-r, -r, r, r)
        for member in (
            box(-x_minus, -FAR, FAR, FAR),
            box(-FAR, -FAR, x_plus, FAR),
            box(-FAR, -y_minus, FAR, FAR),
            box(-FAR, -FAR, FAR, y_plus),
        ):
            surface = surface.intersection(member)
        expected.append(surface.area)
    computed = projected_area(reach=reach, c_a=c_a)
    np.testing.assert_allclose(computed, expected, rtol=1e-12)
    assert np.sum(computed < 4 * reach**2) > 300


def test_far_edges_cut_nothing():
    """17.6.2.1.4: without edges the area of one anchor is 9 h_ef^2, with reach 1.5 h_ef."""
    h_ef = np.array([1.5, 4.0, 25.0])
    area = projected_area(reach=1.5 * h_ef, c_a=np.full((3, 4), np.inf))
    np.testing.assert_allclose(area, 9 * h_ef**2, rtol=1e-15)


def test_square_pier():
    """Engineer's note on a single bolt: a 12 x 12 in area with every edge 6 in away, 144 in2."""
    assert projected_area(reach=np.array([6.0]), c_a=np.full((1, 4), 6.0))[0] == pytest.approx(144.0, rel=1e-15)
