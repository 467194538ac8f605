"""Groups of anchors against plain loops over all pairs, in whole numbers, and parts of a graph by ``scipy``."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from core.geometry.layouts import layout
from hangpoint.core.geometry import buckets
from hangpoint.core.geometry.connected import connected
from hangpoint.core.geometry.grouping import (
    anchors_alone,
    chains_of_pairs,
    closer,
    joined,
    near_pairs,
    neighbourhoods_of_pairs,
)
from hangpoint.core.geometry.union_area import union_area


def chains(*, limit, **columns):
    """Connected chains of the anchors that are near each other."""
    a, b = near_pairs(limit=limit, **columns)
    return chains_of_pairs(a=a, b=b, **columns)


def with_direct_neighbours(*, limit, **columns):
    a, b = near_pairs(limit=limit, **columns)
    return neighbourhoods_of_pairs(a=a, b=b, **columns)


def sets(membership):
    """Members of each group, in order."""
    return [
        tuple(membership.member_anchor[membership.member_group == group].tolist())
        for group in range(len(membership.case_of_group))
    ]


def spacing_of(made, members):
    """Largest gap of neighbouring rows of a set along an axis, by sorting its distinct coordinates."""
    gaps = [0]
    for along in (made.tenths_x, made.tenths_y):
        rows = sorted({int(along[i]) for i in members})
        gaps += [high - low for low, high in pairwise(rows)]
    return max(gaps) / 10


def chains_by_loops(made):
    """Flood fill over all pairs."""
    left, found = [i for i in range(len(made.counts)) if made.counts[i]], []
    while left:
        reached, front = set(), [left[0]]
        while front:
            i = front.pop()
            if i not in reached:
                reached.add(i)
                front += [j for j in left if j not in reached and made.near(i, j)]
        found.append(tuple(sorted(reached)))
        left = [i for i in left if i not in reached]
    return found


def check_columns(made, membership):
    groups = sets(membership)
    assert membership.anchor_count.tolist() == [len(group) for group in groups]
    assert membership.case_of_group.tolist() == [made.case_of_anchor[group[0]] for group in groups]
    np.testing.assert_array_equal(membership.member_group, np.sort(membership.member_group))
    rounding = 2 * np.spacing(np.abs(made.tenths_x).max() / 10)
    np.testing.assert_allclose(
        membership.largest_spacing, [spacing_of(made, group) for group in groups], rtol=0, atol=rounding
    )


def test_one_anchor_has_no_spacing():
    """By definition of a spacing: a distance of two anchors. Every group has one anchor and belongs to its own case."""
    groups = anchors_alone(case_of_anchor=np.array([0, 1, 1, 4]))
    np.testing.assert_array_equal(groups.largest_spacing, np.zeros(4))
    np.testing.assert_array_equal(groups.anchor_count, np.ones(4))
    np.testing.assert_array_equal(groups.group_of_anchor, [0, 1, 2, 3])
    np.testing.assert_array_equal(groups.case_of_group, [0, 1, 1, 4])


def test_alone_without_those_that_do_not_count():
    groups = anchors_alone(case_of_anchor=np.array([0, 1, 1, 4]), counts=np.array([False, True, False, True]))
    np.testing.assert_array_equal(groups.group_of_anchor, [-1, 0, -1, 1])
    np.testing.assert_array_equal(groups.case_of_group, [1, 4])
    assert sets(groups) == [(1,), (3,)]


@pytest.mark.parametrize("shift", [0, 10**6], ids=["near the origin", "far from it"])
@pytest.mark.parametrize("seed", range(4))
def test_chains_against_loops(seed, shift):
    """Groups, their order and spacing; a spacing equal to the limit is none, whatever the coordinates round to."""
    made = layout(seed, shift=shift)
    grouping = chains(**made.columns())
    expected = chains_by_loops(made)
    assert sets(grouping) == expected
    check_columns(made, grouping)
    group_of = {i: place for place, group in enumerate(expected) for i in group}
    assert grouping.group_of_anchor.tolist() == [group_of.get(i, -1) for i in range(len(made.counts))]
    assert sum(len(group) > 2 for group in expected) > 50
    pairs = [(i, j) for i in range(len(made.counts)) for j in range(i + 1, min(i + 9, len(made.counts)))]
    ties = [
        (made.tenths_x[i] - made.tenths_x[j]) ** 2 + (made.tenths_y[i] - made.tenths_y[j]) ** 2
        == made.tenths_limit[made.case_of_anchor[i]] ** 2
        for i, j in pairs
        if made.case_of_anchor[i] == made.case_of_anchor[j]
    ]
    assert sum(ties) > 5, "the layouts no longer have spacings equal to the limit"


@pytest.mark.parametrize("seed", range(4))
def test_direct_neighbours_against_loops(seed):
    made = layout(seed)
    expected = [
        tuple(j for j in range(max(0, i - 9), min(i + 10, len(made.counts))) if j == i or made.near(i, j))
        for i in range(len(made.counts))
        if made.counts[i]
    ]
    membership = with_direct_neighbours(**made.columns())
    assert sets(membership) == expected
    check_columns(made, membership)


def test_large_cases_in_blocks(monkeypatch):
    """Cases of up to 40 anchors, in blocks of so few cells that each holds a case or two."""
    made = layout(11, cases=12, most=40, span=200)
    whole = chains(**made.columns())
    monkeypatch.setattr(buckets, "BLOCK", 1000)
    assert sets(chains(**made.columns())) == sets(whole) == chains_by_loops(made)


def test_joined_lists_every_set_once():
    made = layout(5)
    parts = [
        chains(**made.columns()),
        anchors_alone(case_of_anchor=made.case_of_anchor, counts=made.counts),
        with_direct_neighbours(**made.columns()),
    ]
    together = joined(parts)
    ordered = []
    for case in range(300):
        of_case = [
            group for part in parts for group, of in zip(sets(part), part.case_of_group, strict=True) if of == case
        ]
        ordered += list(dict.fromkeys(of_case))
    assert sets(together) == ordered
    check_columns(made, together)


@pytest.mark.parametrize(
    "move",
    [
        lambda x, y: (-x, y),
        lambda x, y: (x, -y),
        lambda x, y: (y, x),
        lambda x, y: (0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y),
        lambda x, y: (x + 1e5, y - 3e4),
    ],
    ids=["mirrored", "mirrored in y", "axes swapped", "turned", "moved"],
)
def test_chains_do_not_depend_on_the_axes(move):
    """The spacing along the axes does when they turn; the groups never do."""
    made = layout(7)
    columns = made.columns()
    x, y = move(columns["x"], columns["y"])
    np.testing.assert_array_equal(
        chains(**columns).group_of_anchor, chains(**columns | {"x": x, "y": y}).group_of_anchor
    )


def test_renumbered_anchors_form_the_same_groups():
    made = layout(8)
    columns = made.columns()
    order = np.lexsort((np.random.default_rng(8).random(len(made.counts)), made.case_of_anchor))
    renumbered = columns | {name: columns[name][order] for name in ("x", "y", "counts")}
    there = {tuple(sorted(order[list(group)].tolist())) for group in sets(chains(**renumbered))}
    assert there == set(sets(chains(**columns)))
    assert not np.array_equal(order, np.arange(len(order)))


def test_a_spacing_equal_to_the_limit_is_none():
    """3 h_ef with h_ef 2.7 and a spacing of 8.1: 3 x 2.7 is above 8.1 in floating point, and they are equal."""
    assert 3 * 2.7 > 8.1
    for spacing, near in ((8.1, False), (8.1 - 1e-6, True), (8.1 + 1e-6, False)):
        grouping = chains(
            x=np.array([0.0, spacing]),
            y=np.zeros(2),
            case_of_anchor=np.zeros(2, dtype=np.intp),
            limit=np.full(2, 3 * 2.7),
            counts=np.ones(2, dtype=np.bool_),
        )
        assert len(grouping.case_of_group) == (1 if near else 2)
    np.testing.assert_array_equal(
        closer(spacing=np.array([1.0, 1.0, 0.0]), limit=np.array([1.0, np.inf, 0.0])), [0, 1, 0]
    )


def test_one_direction():
    """Two anchors 12 apart along an edge and 30 across it are a row for 3 c_a1 = 15 when y is left at 0."""
    columns = {
        "x": np.array([0.0, 12.0]),
        "case_of_anchor": np.zeros(2, dtype=np.intp),
        "limit": np.full(2, 15.0),
        "counts": np.ones(2, dtype=np.bool_),
    }
    assert len(chains(y=np.array([0.0, 30.0]), **columns).case_of_group) == 2
    assert len(chains(y=np.zeros(2), **columns).case_of_group) == 1


def test_nothing_and_one():
    none = np.zeros(0)
    empty = {"x": none, "y": none, "case_of_anchor": none.astype(np.intp), "counts": none.astype(np.bool_)}
    for made in (chains(limit=none, **empty), with_direct_neighbours(limit=none, **empty)):
        assert [len(column) for column in (made.member_anchor, made.case_of_group, made.largest_spacing)] == [0, 0, 0]
        assert len(joined([made, made]).case_of_group) == 0
        assert made.total(none).tolist() == []
        assert made.least(np.zeros((0, 4))).shape == (0, 4)
    one = {"x": np.ones(1), "y": np.ones(1), "case_of_anchor": np.array([2]), "limit": np.ones(1)}
    alone = chains(counts=np.ones(1, dtype=np.bool_), **one)
    assert sets(alone) == [(0,)]
    assert alone.case_of_group.tolist() == [2]
    unloaded = chains(counts=np.zeros(1, dtype=np.bool_), **one)
    assert sets(unloaded) == []
    assert unloaded.group_of_anchor.tolist() == [-1]


def test_four_rods_in_a_square():
    """AISC Design Guide 1, 3rd edition, example 4.7-15 (read second-hand): four rods 4 x 4 in; s is 4 in.

    Its h_ef is 14 in (by the same example, from the blowout check).
    """
    grouping = chains(
        x=np.array([0.0, 4.0, 0.0, 4.0]),
        y=np.array([0.0, 0.0, 4.0, 4.0]),
        case_of_anchor=np.zeros(4, dtype=np.intp),
        limit=np.full(4, 3 * 14.0),
        counts=np.ones(4, dtype=np.bool_),
    )
    assert sets(grouping) == [(0, 1, 2, 3)]
    assert grouping.largest_spacing.tolist() == [4.0]


def test_a_chain_hides_its_middle():
    """By hand: three anchors at 2 h_ef with 0.1, 1.5 and 0.1 of phi N_b, h_ef = 4.

    The whole: 1.7 / ((3 + 4) x 3 / 9) = 0.73. The middle alone: 1.5. An outer one with the middle, without the
    eccentricity: 1.6 / ((3 + 2) x 3 / 9) = 0.96.
    """
    columns = {
        "x": np.array([0.0, 8.0, 16.0]),
        "y": np.zeros(3),
        "case_of_anchor": np.zeros(3, dtype=np.intp),
        "limit": np.full(3, 12.0),
        "counts": np.ones(3, dtype=np.bool_),
    }
    judged = joined(
        [
            chains(**columns),
            anchors_alone(case_of_anchor=columns["case_of_anchor"]),
            with_direct_neighbours(**columns),
        ]
    )
    assert sets(judged) == [(0, 1, 2), (0,), (1,), (2,), (0, 1), (1, 2)]
    area = union_area(
        x=columns["x"][judged.member_anchor],
        y=columns["y"][judged.member_anchor],
        member_group=judged.member_group,
        reach=np.full(6, 6.0),
        c_a=np.full((len(judged.member_anchor), 4), np.inf),
    )
    ratio = judged.total(np.array([0.1, 1.5, 0.1])) / (area / 144.0)
    np.testing.assert_allclose(ratio, [1.7 / (7 / 3), 0.1, 1.5, 0.1, 1.6 / (5 / 3), 1.6 / (5 / 3)], rtol=1e-12)


def test_sums_and_leasts_over_the_members():
    made = layout(9)
    membership = with_direct_neighbours(**made.columns())
    rng = np.random.default_rng(9)
    load, c_a = rng.random(len(made.counts)), rng.random((len(made.counts), 4))
    groups = sets(membership)
    np.testing.assert_allclose(membership.total(load), [sum(load[i] for i in group) for group in groups], rtol=1e-13)
    np.testing.assert_array_equal(
        membership.least(c_a), [[min(c_a[i, e] for i in g) for e in range(4)] for g in groups]
    )
    np.testing.assert_array_equal(membership.largest(load), [max(load[i] for i in group) for group in groups])


def test_places_and_members():
    """The place of a group counts the groups of its case, from 0."""
    made = layout(10)
    membership = with_direct_neighbours(**made.columns())
    seen: dict[int, int] = {}
    for place, case in zip(membership.places(), membership.case_of_group.tolist(), strict=True):
        assert place == seen.get(case, 0)
        seen[case] = place + 1
    listed = [tuple(membership.members(group).tolist()) for group in range(len(membership.case_of_group))]
    assert listed == sets(membership)


def test_pairs_come_once_in_rising_order():
    made = layout(10)
    a, b = near_pairs(**made.columns())
    count = len(made.counts)
    expected = [(i, j) for i in range(count) for j in range(i + 1, min(i + 9, count)) if made.near(i, j)]
    assert list(zip(a.tolist(), b.tolist(), strict=True)) == expected


@pytest.mark.parametrize("density", [0.0, 0.3, 0.5, 1.0, 3.0])
def test_connected_against_scipy(density):
    """``scipy.sparse.csgraph``: random graphs of 2,000 nodes, pairs in any order, twice and with themselves."""
    rng = np.random.default_rng(int(density * 10))
    a, b = rng.integers(0, 2000, (2, int(2000 * density)))
    label = connected(count=2000, a=a, b=b)
    parts, theirs = connected_components(coo_array((np.ones(len(a)), (a, b)), shape=(2000, 2000)), directed=False)
    lowest = np.full(parts, 2000)
    np.minimum.at(lowest, theirs, np.arange(2000))
    np.testing.assert_array_equal(label, lowest[theirs])


def test_connected_along_a_path_in_any_order():
    """A path through 5,000 nodes is one part, whatever the numbers along it."""
    path = np.random.default_rng(1).permutation(5000)
    for nodes in (path, np.arange(5000), np.arange(5000)[::-1]):
        assert not connected(count=5000, a=nodes[1:], b=nodes[:-1]).any()
