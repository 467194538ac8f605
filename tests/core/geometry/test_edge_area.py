"""Area towards an edge against polygons of ``shapely``."""

import numpy as np
import pytest
from shapely.geometry import box
from shapely.ops import unary_union

from hangpoint.core.geometry.edge_area import edge_area

FAR = 1e4


def covered_extent(*, along, member_row, reach):
    """Length between the outer anchors of each row that their surfaces cover: a gap up to twice the reach."""
    gap = np.diff(along[np.lexsort((along, member_row))])
    row = member_row[1:]
    covered = np.where(row == member_row[:-1], np.minimum(gap, 2 * reach[row]), 0.0)
    return np.bincount(row, weights=covered, minlength=len(reach))


def test_rows_of_anchors_against_polygons():
    """``shapely``: a rectangle for each anchor, their union cut by the member; 500 random rows of 1 to 5 anchors.

    The gaps are below twice the reach, as in a group.
    """
    rng = np.random.default_rng(17721)
    reach = np.exp(rng.uniform(0, 3, 500))
    sides = reach[:, None] * np.exp(rng.uniform(np.log(0.05), np.log(4), (500, 2)))
    sides = np.where(rng.random((500, 2)) < 0.3, np.inf, sides)
    thickness = reach * np.exp(rng.uniform(np.log(0.1), np.log(4), 500))
    count = rng.integers(1, 6, 500)
    expected, extent = [], []
    for r, (low, high), h, n in zip(reach, sides, thickness, count, strict=True):
        places = np.concatenate([[0.0], np.cumsum(rng.uniform(0.1, 1.999, n - 1) * r)])
        extent.append(places[-1])
        surface = unary_union([box(x - r, -r, x + r, 0) for x in places])
        member = box(-min(low, FAR), -h, places[-1] + min(high, FAR), 0)
        expected.append(surface.intersection(member).area)
    computed = edge_area(
        reach=reach,
        c_low=sides[:, 0],
        c_high=sides[:, 1],
        thickness=thickness,
        extent=np.array(extent),
        anchor_count=count.astype(float),
    )
    np.testing.assert_allclose(computed, expected, rtol=1e-12)
    assert np.sum(computed < count * 2 * reach**2 * 0.999) > 300


def one(**changed):
    given = {"reach": 6.0, "c_low": np.inf, "c_high": np.inf, "thickness": 20.0, "extent": 0.0, "anchor_count": 1.0}
    return edge_area(**{name: np.array([value]) for name, value in (given | changed).items()})[0]


def test_a_free_anchor():
    """17.7.2.1.3: 4.5 c_a1^2, with reach 1.5 c_a1 = 6: 4.5 x 16 = 72."""
    assert one() == pytest.approx(4.5 * 4.0**2, rel=1e-15)


def test_at_most_that_of_free_anchors():
    """Two anchors 30 apart: (6 + 30 + 6) x 6 = 252, but not above 2 x 72 = 144."""
    assert one(extent=30.0, anchor_count=2.0) == 144.0


def test_rows_with_gaps_against_polygons():
    """``shapely``: as above, 1,000 rows of which most have gaps beyond twice the reach, members in any order."""
    rng = np.random.default_rng(17722)
    reach = np.exp(rng.uniform(0, 3, 1000))
    sides = reach[:, None] * np.exp(rng.uniform(np.log(0.05), np.log(4), (1000, 2)))
    sides = np.where(rng.random((1000, 2)) < 0.3, np.inf, sides)
    thickness = reach * np.exp(rng.uniform(np.log(0.1), np.log(4), 1000))
    count = rng.integers(1, 7, 1000)
    expected, along, whole = [], [], []
    for r, (low, high), h, n in zip(reach, sides, thickness, count, strict=True):
        places = rng.uniform(-50, 50) + np.concatenate([[0.0], np.cumsum(rng.uniform(0, 5, n - 1) * r)])
        surface = unary_union([box(x - r, -r, x + r, 0) for x in places])
        member = box(places[0] - min(low, FAR), -h, places[-1] + min(high, FAR), 0)
        expected.append(surface.intersection(member).area)
        whole.append(places[-1] - places[0])
        along.append(rng.permutation(places))
    extent = covered_extent(along=np.concatenate(along), member_row=np.repeat(np.arange(1000), count), reach=reach)
    given = {"reach": reach, "c_low": sides[:, 0], "c_high": sides[:, 1], "thickness": thickness}
    computed = edge_area(**given, extent=extent, anchor_count=count.astype(float))
    np.testing.assert_allclose(computed, expected, rtol=1e-11)
    unbroken = edge_area(**given, extent=np.array(whole), anchor_count=count.astype(float))
    assert np.sum(unbroken > 1.01 * computed) > 300


def test_two_rods_along_an_edge():
    """AISC Design Guide 1, 3rd edition, example 4.7-4 (read second-hand): c_a1 12, rods 4 in apart; 720 in2."""
    extent = covered_extent(along=np.array([0.0, 4.0]), member_row=np.zeros(2, dtype=np.intp), reach=np.array([18.0]))
    assert one(reach=18.0, c_low=18.0, c_high=18.0, thickness=18.0, extent=extent[0], anchor_count=2.0) == 720.0
