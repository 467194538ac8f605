"""Neighbouring hang points against a loop over all pairs and the parts of a graph by ``scipy``."""

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from hangpoint.core.hang_point.neighbours import alike, neighbours

NAMES = "hangpoint.core.hang_point.neighbours"
DEPTHS = (1.5, 2.0, 3.25, 4.0, 8.0, 20.0)


@pytest.fixture(params=["sweep where strips hold few", "search trees"], autouse=True)
def _search(request, monkeypatch):
    """Every test by both ways to search."""
    if request.param == "search trees":
        monkeypatch.setattr(f"{NAMES}._STRIP", -1)


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


def test_both_searches_find_the_same(monkeypatch):
    """Far from the origin, on many members, sparse and dense."""
    for seed, side in enumerate((100.0, 400.0, 3000.0, 12000.0)):
        made = points(seed, 3000, side, members=9)
        made["x"] += 1e6
        swept = neighbours(**made, most=64)
        with monkeypatch.context() as patch:
            patch.setattr(f"{NAMES}._STRIP", -1)
            by_trees = neighbours(**made, most=64)
        assert listed(swept) == listed(by_trees)
        assert len(swept.a) > 50
        np.testing.assert_array_equal(swept.crowded, by_trees.crowded)


def test_members_in_trees_of_their_own(monkeypatch):
    """Many members, with a tree for each few: the same pairs as by all pairs."""
    made = points(12, 1200, 120.0, members=40)
    monkeypatch.setattr(f"{NAMES}._TREE", 50)
    found = neighbours(**made, most=1200)
    assert listed(found) == all_pairs(made)
    assert len(found.a) > 500


def fixtures(seed, count=300, side=900.0, members=3):
    """Points of 1 to 4 anchors each, a third of them of one; their anchors lie on one flat axis."""
    rng = np.random.default_rng(seed)
    made = points(seed, count, side, members)
    anchors = rng.integers(1, 5, count)
    anchors[rng.random(count) < 0.33] = 1
    point = np.repeat(np.arange(count), anchors)
    spread = np.repeat(rng.choice([0.0, 3.0, 12.0, 60.0], count), anchors)
    dx, dy = rng.uniform(-1, 1, (2, len(point))) * spread
    extent = np.zeros(count)
    np.maximum.at(extent, point, np.hypot(dx, dy))
    return made, anchors, extent, (point, made["x"][point] + dx, made["y"][point] + dy)


def near_by_anchors(made, flat):
    """Pairs of points of which any two anchors are nearer than 1.5 (h_ef,1 + h_ef,2), by all pairs of anchors."""
    point, x, y = flat
    h_ef, member = made["h_ef"][point], made["member"][point]
    near = (np.hypot(x[:, None] - x, y[:, None] - y) < 1.5 * (h_ef[:, None] + h_ef)) & (member[:, None] == member)
    pairs = {tuple(sorted((int(point[i]), int(point[j])))) for i, j in np.argwhere(near)}
    return sorted(pair for pair in pairs if pair[0] != pair[1])


def candidates(made, extent):
    """Pairs of points whose spacing is below the limit of reading 30 and both extents, by all pairs."""
    x, y, h_ef, member = (made[name] for name in ("x", "y", "h_ef", "member"))
    limit = 1.5 * (h_ef[:, None] + h_ef) + extent[:, None] + extent
    near = (np.hypot(x[:, None] - x, y[:, None] - y) < limit) & (member[:, None] == member)
    return [(i, j) for i, j in np.argwhere(near).tolist() if i < j]


@pytest.mark.parametrize("side", [300.0, 900.0, 3000.0])
@pytest.mark.parametrize("seed", range(4))
def test_fixtures_of_several_anchors_against_all_pairs(seed, side):
    """No pair of which any anchors are near is missed, and what is listed is below the limit with both extents."""
    made, anchors, extent, flat = fixtures(seed, side=side)
    found = neighbours(**made, most=10_000, extent=extent, anchors=anchors)
    assert listed(found) == candidates(made, extent)
    np.testing.assert_allclose(
        found.limit,
        1.5 * (made["h_ef"][found.a] + made["h_ef"][found.b]) + extent[found.a] + extent[found.b],
        rtol=1e-8,
    )
    near = near_by_anchors(made, flat)
    assert set(near) <= set(listed(found))
    assert 10 < len(near) < len(found.a)


@pytest.mark.parametrize("most", [4, 10, 64])
@pytest.mark.parametrize("seed", range(3))
def test_the_limit_counts_anchors(seed, most):
    """A group is above the limit by the anchors of its points; every other group is whole."""
    made, anchors, extent, _ = fixtures(seed, side={4: 3000.0, 10: 2000.0, 64: 900.0}[most], members=2)
    found, expected = neighbours(**made, most=most, extent=extent, anchors=anchors), candidates(made, extent)
    label = parts(300, expected)
    held = np.bincount(label, weights=anchors)[label]
    np.testing.assert_array_equal(found.above_limit[found.group_of_point], held > most)
    small = [pair for pair in expected if held[pair[0]] <= most]
    assert [pair for pair in listed(found) if held[pair[0]] <= most] == small
    assert np.sum(held > most) > 0
    assert len(small) > 0


def test_the_limit_of_fixtures_by_hand():
    """Two fixtures 4 in deep that reach 6 and 10 in: 12 + 16 = 28 in. Of 33 and 32 anchors: 65, one too many."""
    for spacing, near in ((28.0 - 1e-6, True), (28.0 + 1e-6, False)):
        found = neighbours(
            member=np.zeros(2, int),
            x=np.array([0.0, spacing]),
            y=np.zeros(2),
            h_ef=np.full(2, 4.0),
            most=64,
            extent=np.array([6.0, 10.0]),
            anchors=np.array([33, 32]),
        )
        assert listed(found) == ([(0, 1)] if near else [])
        assert found.group_anchors.tolist() == ([65] if near else [33, 32])
        assert found.above_limit.tolist() == ([True] if near else [False, False])


def test_near_anchors_of_wide_fixtures_are_never_lost():
    """Anchors that face each other just below 12 in, of fixtures that reach 500 in: the rounding isn't the extent's."""
    gap = 12.0 * (1 - 2e-9)
    found = neighbours(
        member=np.zeros(2, int),
        x=np.array([0.0, 1000.0 + gap]),
        y=np.zeros(2),
        h_ef=np.full(2, 4.0),
        most=64,
        extent=np.full(2, 500.0),
    )
    assert listed(found) == [(0, 1)]


def test_extents_of_zero_are_none():
    made = points(8)
    bare, zeros = neighbours(**made, most=400), neighbours(**made, most=400, extent=np.zeros(400))
    assert listed(bare) == listed(zeros)
    np.testing.assert_array_equal(bare.group_anchors, bare.group_size)


def test_alike_by_hand():
    """Reading 30: one family, and h_ef within 10 % of the larger: 3.6 of 4 in, 90 of 100 mm."""
    family = np.array([2, 2, 2, 5, 2, 2])
    h_ef = np.array([4.0, 3.6, 3.59, 4.0, 100 / 25.4, 90 / 25.4])
    a, b = np.array([0, 0, 0, 1, 4, 5, 1, 0]), np.array([1, 2, 3, 0, 5, 4, 2, 0])
    expected = [True, False, False, True, True, True, True, True]
    assert alike(a=a, b=b, family=family, h_ef=h_ef).tolist() == expected
    assert alike(a=b, b=a, family=family, h_ef=h_ef).tolist() == expected
