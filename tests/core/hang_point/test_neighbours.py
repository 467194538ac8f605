"""Neighbouring hang points against a loop over all pairs and the parts of a graph by ``scipy``."""

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from hangpoint.core.hang_point.neighbours import neighbours

DEPTHS = (1.5, 2.0, 3.25, 4.0, 8.0, 20.0)


def points(seed, count=400, side=150.0, members=3, depths=DEPTHS):
    """Points of a few members; one in five stands on the one before."""
    rng = np.random.default_rng(seed)
    x, y = rng.random((2, count)) * side
    again = np.flatnonzero(rng.random(count - 1) < 0.2) + 1
    x[again], y[again] = x[again - 1], y[again - 1]
    return {"member": rng.integers(0, members, count) * 7 - 2, "x": x, "y": y, "h_ef": rng.choice(depths, count)}


def all_pairs(made):
    """Every pair closer than its limit, by comparing each point with each."""
    member, x, y, h_ef = (made[name] for name in ("member", "x", "y", "h_ef"))
    spacing = np.hypot(x[:, None] - x, y[:, None] - y)
    near = (spacing < 1.5 * (h_ef[:, None] + h_ef)) & (member[:, None] == member)
    return [(i, j) for i, j in np.argwhere(near).tolist() if i < j]


def parts(count, pairs):
    """Points of each connected part, by ``scipy.sparse.csgraph``."""
    a, b = np.array(pairs, dtype=int).reshape(-1, 2).T
    _, label = connected_components(coo_array((np.ones(len(a)), (a, b)), shape=(count, count)), directed=False)
    return label


def listed(found):
    return list(zip(found.a.tolist(), found.b.tolist(), strict=True))


@pytest.mark.parametrize(("count", "side"), [(400, 150.0), (400, 1500.0), (1500, 900.0), (60, 20.0)])
@pytest.mark.parametrize("seed", range(3))
def test_pairs_and_groups_against_all_pairs(seed, count, side):
    made = points(seed, count, side)
    found, expected = neighbours(**made, most=count), all_pairs(made)
    assert listed(found) == expected
    assert len(expected) > 10
    assert not found.crowded.any()
    assert not found.above_limit.any()
    label = parts(count, expected)
    same = label[:, None] == label
    np.testing.assert_array_equal(found.group_of_point[:, None] == found.group_of_point, same)
    np.testing.assert_array_equal(found.group_size[found.group_of_point], same.sum(axis=1))
    first = [int(np.flatnonzero(found.group_of_point == group)[0]) for group in range(len(found.group_size))]
    assert first == sorted(first)
    for i, j, spacing, limit in zip(found.a, found.b, found.spacing, found.limit, strict=True):
        assert spacing == pytest.approx(np.hypot(made["x"][i] - made["x"][j], made["y"][i] - made["y"][j]), rel=1e-14)
        assert limit == pytest.approx(1.5 * (made["h_ef"][i] + made["h_ef"][j]), rel=1e-14)
        assert spacing < limit


@pytest.mark.parametrize("depths", [(4.0,), DEPTHS, tuple(np.geomspace(1.5, 25, 50))], ids=["alike", "few", "many"])
@pytest.mark.parametrize(("most", "spread"), [(1, 90), (2, 80), (5, 50), (12, 42), (64, 28)])
@pytest.mark.parametrize("seed", range(3))
def test_groups_above_the_limit_against_all_pairs(seed, most, spread, depths):
    """Every group above the limit is found, and every other group is whole, with all of its pairs."""
    made = points(seed, 500, spread * float(np.mean(depths)), depths=depths)
    found, expected = neighbours(**made, most=most), all_pairs(made)
    label = parts(500, expected)
    size = np.bincount(label)[label]
    np.testing.assert_array_equal(found.above_limit[found.group_of_point], size > most)
    small = [pair for pair in expected if size[pair[0]] <= most]
    assert [pair for pair in listed(found) if size[pair[0]] <= most] == small
    assert set(listed(found)) <= set(expected)
    degree = np.bincount(np.array(expected).ravel(), minlength=500)
    assert found.crowded[degree >= most].all()
    assert np.sum(size > most) > 0
    assert np.sum(size <= most) > 0


def test_many_points_at_one_place():
    """100,000 points at one place are a crowd; a point that is just near the deepest of them (18) belongs."""
    count = 100_000
    made = {"member": np.zeros(count, int), "x": np.zeros(count), "y": np.zeros(count), "h_ef": np.full(count, 2.0)}
    made["h_ef"][70_000] = 10.0
    made["x"][:3] = [17.9, -18.0, 17.9]
    made["member"][2] = 1
    found = neighbours(**made, most=64)
    assert found.group_size.max() == count - 2
    assert found.above_limit.tolist() == [True, False, False]
    assert found.group_of_point[:4].tolist() == [0, 1, 2, 0]
    assert found.crowded[3:].all()
    assert not found.crowded[:3].any()
    assert len(found.a) < 66 * count


def test_a_search_that_is_stopped_says_so():
    """One deep anchor widens the search of its size class, in which 600 points too far away hide the near ones.

    By hand: 600 points at 20 with h_ef 4 (limit 12) and one of 7.9 far away: the search reaches 17.85. The point at 5
    has more than 8 x (4 + 1) of them within it and none within 12.
    """
    ring = np.linspace(0, 2 * np.pi, 600, endpoint=False)
    x = np.concatenate((15.0 * np.cos(ring), [0.0, 500.0]))
    y = np.concatenate((15.0 * np.sin(ring), [0.0, 500.0]))
    h_ef = np.append(np.full(601, 4.0), 7.9)
    found = neighbours(member=np.zeros(602, int), x=x, y=y, h_ef=h_ef, most=4)
    assert found.crowded[600]
    assert found.above_limit[found.group_of_point[600]]
    assert found.crowded[:600].all()
    assert not found.above_limit[found.group_of_point[601]]
    alike = neighbours(member=np.zeros(601, int), x=x[:601], y=y[:601], h_ef=h_ef[:601], most=4)
    assert not alike.crowded[600]


@pytest.mark.parametrize(("spacing", "near"), [(15.0, False), (15.0 - 1e-6, True), (15.0 + 1e-6, False), (0.0, True)])
def test_the_limit_is_strict(spacing, near):
    """Reading 30: 1.5 (4 + 6) = 15; equal is not below, far from the origin too, where the difference is rounded."""
    for shift in (0.0, 12345.6):
        x = np.array([0.0, spacing]) + shift
        found = neighbours(member=np.zeros(2, int), x=x, y=np.zeros(2), h_ef=np.array([4.0, 6.0]), most=64)
        assert listed(found) == ([(0, 1)] if near else [])


def test_points_of_other_members_are_no_neighbours():
    found = neighbours(member=np.array([3, 4]), x=np.zeros(2), y=np.zeros(2), h_ef=np.full(2, 4.0), most=64)
    assert listed(found) == []
    assert found.group_size.tolist() == [1, 1]


def test_one_deep_anchor_among_shallow_ones():
    """An anchor 300 deep reaches far: a neighbour of all in its member within 1.5 (300 + 2), of none in the other."""
    made = points(4, 2000, 3000.0, members=2, depths=(2.0,))
    made["h_ef"][17] = 300.0
    found = neighbours(**made, most=2000)
    assert listed(found) == all_pairs(made)
    assert np.sum((found.a == 17) | (found.b == 17)) > 50


@pytest.mark.parametrize("move", ["mirrored", "swapped", "renumbered"])
def test_axes_and_numbers_change_nothing(move):
    made = points(6)
    order = np.random.default_rng(6).permutation(400) if move == "renumbered" else np.arange(400)
    moved = {name: column[order] for name, column in made.items()}
    if move == "mirrored":
        moved["x"] = -moved["x"]
    if move == "swapped":
        moved["x"], moved["y"] = moved["y"], moved["x"]
    found = neighbours(**moved, most=400)
    there = {tuple(sorted((int(order[a]), int(order[b])))) for a, b in listed(found)}
    assert there == set(listed(neighbours(**made, most=400)))


@pytest.mark.parametrize("count", [0, 1])
def test_nothing_and_one(count):
    found = neighbours(member=np.zeros(count, int), x=np.zeros(count), y=np.zeros(count), h_ef=np.ones(count), most=64)
    assert listed(found) == []
    assert found.group_of_point.tolist() == [0] * count
    assert found.group_size.tolist() == [1] * count
    assert found.above_limit.tolist() == [False] * count
    assert found.crowded.tolist() == [False] * count


def test_members_in_trees_of_their_own(monkeypatch):
    """Many members, with a tree for each few: the same pairs as by all pairs."""
    made = points(12, 1200, 120.0, members=40)
    monkeypatch.setattr("hangpoint.core.hang_point.neighbours._TREE", 50)
    found = neighbours(**made, most=1200)
    assert listed(found) == all_pairs(made)
    assert len(found.a) > 500
