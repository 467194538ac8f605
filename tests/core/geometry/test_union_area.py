"""Areas of groups against polygons of ``shapely``."""

import numpy as np
import pytest
from shapely.geometry import MultiPoint, box
from shapely.ops import unary_union

from hangpoint.core.geometry import buckets
from hangpoint.core.geometry.projected_area import projected_area
from hangpoint.core.geometry.union_area import union_area

FAR = 1e4


def layouts(count, most, seed):
    """Random groups with edges as columns; a third of the anchors in rows and columns, one in eight coincident."""
    rng = np.random.default_rng(seed)
    member_group = np.repeat(np.arange(count), rng.integers(1, most + 1, count))
    reach = np.exp(rng.uniform(0, 3, count))
    edges = reach[:, None] * np.exp(rng.uniform(np.log(0.3), np.log(6), (count, 4)))
    least = np.minimum(edges, 4 * reach[:, None])
    edges = np.where(rng.random((count, 4)) < 0.3, np.inf, edges)
    share = rng.random((2, len(member_group)))
    low, high = least[member_group][:, ::2].T, least[member_group][:, 1::2].T
    x, y = share * (low + high) - low
    again = np.flatnonzero((np.diff(member_group) == 0) & (rng.random(len(member_group) - 1) < 0.4)) + 1
    kinds = rng.integers(0, 3, len(again))
    for at, kind in zip(again, kinds, strict=True):
        x[at] = x[at] if kind == 0 else x[at - 1]
        y[at] = y[at] if kind == 1 else y[at - 1]
    to_edges = edges[member_group] + np.stack([x, -x, y, -y], axis=1)
    return {"x": x, "y": y, "member_group": member_group, "reach": reach, "c_a": to_edges}


def surfaces(made):
    """The squares of each group, each cut by the member."""
    for group, r in enumerate(made["reach"]):
        own = made["member_group"] == group
        x, y = made["x"][own][0], made["y"][own][0]
        x_minus, x_plus, y_minus, y_plus = np.minimum(made["c_a"][own][0], FAR)
        member = box(x - x_minus, y - y_minus, x + x_plus, y + y_plus)
        places = zip(made["x"][own], made["y"][own], strict=True)
        yield [box(x - r, y - r, x + r, y + r).intersection(member) for x, y in places]


def test_groups_against_polygons():
    """``shapely``: the union of the cut squares of 1,000 random groups of 1 to 9 anchors."""
    made = layouts(1000, 9, 17621)
    computed = union_area(**made)
    np.testing.assert_allclose(computed, [unary_union(each).area for each in surfaces(made)], rtol=1e-12)
    count = np.bincount(made["member_group"])
    assert np.sum(computed < 0.99 * count * 4 * made["reach"] ** 2) > 800
    assert np.sum(count > 1) > 800


def test_large_groups_in_blocks(monkeypatch):
    """Groups of up to 64 anchors, in blocks of so few cells that each holds one group or two."""
    made = layouts(20, 64, 64)
    whole = union_area(**made)
    np.testing.assert_allclose(whole, [unary_union(each).area for each in surfaces(made)], rtol=1e-12)
    monkeypatch.setattr(buckets, "BLOCK", 5000)
    np.testing.assert_array_equal(union_area(**made), whole)


def test_rectangles_against_polygons():
    """``shapely``: the envelope of the cut squares, at most as many squares as anchors (the clause's n A_Nco)."""
    made = layouts(500, 6, 8)
    bounding = np.random.default_rng(8).random(500) < 0.5
    computed = union_area(**made, bounding=bounding)
    for area, rectangle, squares, r in zip(computed, bounding, surfaces(made), made["reach"], strict=True):
        if rectangle:
            corners = [point for each in squares for point in each.exterior.coords]
            expected = min(MultiPoint(corners).envelope.area, len(squares) * 4 * r**2)
        else:
            expected = unary_union(squares).area
        assert area == pytest.approx(expected, rel=1e-12)
    assert np.sum(computed > 1.001 * union_area(**made)) > 100


def test_one_anchor_as_by_itself():
    """The area of one anchor by `projected_area`, whose test has its own polygons."""
    made = layouts(400, 1, 3)
    alone = projected_area(reach=made["reach"], c_a=made["c_a"])
    np.testing.assert_allclose(union_area(**made), alone, rtol=1e-12)


def test_never_above_that_of_anchors_alone():
    """17.6.2.1.1: A_Nc is at most n A_Nco, exactly so where the squares are apart."""
    apart = {
        "x": np.array([0.0, 13.7, 0.0, 12.1]),
        "y": np.array([0.0, 0.3, 0.0, 0.0]),
        "member_group": np.array([0, 0, 1, 1]),
        "reach": np.array([6.1, 6.1]),
        "c_a": np.full((4, 4), np.inf),
    }
    free = 4 * 6.1**2
    area = union_area(**apart)
    assert area[0] == 2 * free
    assert area[1] == pytest.approx(2 * free - 0.1 * 12.2, rel=1e-13)
    assert (union_area(**layouts(500, 9, 5)) > 0).all()
    assert union_area(**apart, bounding=np.ones(2, dtype=np.bool_))[0] == 2 * free


def test_order_and_mirror_change_nothing():
    made = layouts(200, 8, 12)
    area = union_area(**made)
    order = np.lexsort((np.random.default_rng(1).random(len(made["x"])), made["member_group"]))
    renumbered = made | {name: made[name][order] for name in ("x", "y", "c_a")}
    np.testing.assert_allclose(union_area(**renumbered), area, rtol=1e-13)
    mirrored = made | {"x": -made["x"], "c_a": made["c_a"][:, [1, 0, 2, 3]]}
    np.testing.assert_allclose(union_area(**mirrored), area, rtol=1e-13)
    swapped = made | {"x": made["y"], "y": made["x"], "c_a": made["c_a"][:, [2, 3, 0, 1]]}
    np.testing.assert_allclose(union_area(**swapped), area, rtol=1e-13)


def test_no_groups():
    none = np.zeros(0)
    area = union_area(x=none, y=none, member_group=none.astype(np.intp), reach=none, c_a=np.zeros((0, 4)))
    assert area.shape == (0,)


FOUR = {"x": np.array([-2.0, 2.0, -2.0, 2.0]), "y": np.array([-2.0, -2.0, 2.0, 2.0]), "member_group": np.zeros(4, int)}
"""The four rods 4 x 4 in of the examples of AISC Design Guide 1."""

PIER = np.array([[8.0, 12.0, 8.0, 12.0], [12.0, 8.0, 8.0, 12.0], [8.0, 12.0, 12.0, 8.0], [12.0, 8.0, 12.0, 8.0]])
"""Edge distances of each of them in the middle of a column 20 in square."""


def test_rods_without_edges():
    """AISC Design Guide 1, 3rd edition, example 4.7-3 (read second-hand): h_ef 15; 2,400 in2, printed to 3 digits.

    By hand (45 + 4)^2 = 2,401. 2nd edition, example 4.5.2, pp. 35-36 (read second-hand): h_ef 13; 1,849 in2.
    """
    free = np.full((4, 4), np.inf)
    area = union_area(**FOUR, reach=np.array([1.5 * 15]), c_a=free)[0]
    assert area == pytest.approx(2400.0, abs=5.0)
    assert area == pytest.approx(49.0**2, rel=1e-13)
    assert union_area(**FOUR, reach=np.array([1.5 * 13]), c_a=free)[0] == pytest.approx(1849.0, abs=0.5)


def test_rods_in_a_pier():
    """AISC Design Guide 1, 3rd edition, example 4.7-15 (read second-hand): a 20 in square column, h'_ef 5.33; 400 in2.

    h'_ef = max(8 / 1.5, 4 / 3) = 8 / 1.5, so that the surface reaches 8 in, to each edge.
    """
    area = union_area(**FOUR, reach=np.array([1.5 * (8 / 1.5)]), c_a=PIER)
    assert area[0] == pytest.approx(400.0, abs=0.5)
