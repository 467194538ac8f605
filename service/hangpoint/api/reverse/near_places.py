"""A point at many places beside its neighbours: at each it is checked with those alone that it comes near.

The others are as they are without it, which is checked once. What a request asks for is counted before it is checked,
and the places are checked some at a time.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import compress
from typing import Any

import numpy as np

from hangpoint.api.check_rows import WHAT
from hangpoint.api.problems import too_many
from hangpoint.api.reverse.changes import put
from hangpoint.api.reverse.probes import Outcome, Situation, packed_probes, probe_sites
from hangpoint.core.hang_point.cases import row_counts
from hangpoint.core.hang_point.neighbours import neighbours as search
from hangpoint.core.hang_point.points import MOST_ANCHORS
from hangpoint.core.quantity import Bools, Index
from hangpoint.core.rows import runs_of
from hangpoint.pack.places import Places, in_planes, places

Item = Mapping[str, Any]

MAX_ROWS = 100_000
"""Anchors times load cases of the neighbours, and of the point and those near it at all places together."""

AT_A_TIME = 5_000
_NEIGHBOURS = 2
"""Times that every neighbour is checked: alone, and with the other neighbours."""

_INSTEAD = "Look less far (within), leave out neighbours that are far off, or state the load cases that may govern."


def outcomes_at(items: Sequence[Item], neighbours: Sequence[Item], situation: Situation) -> Iterator[list[Outcome]]:
    """What becomes of a point and of its neighbours at each place.

    Args:
        items: the point at its places; at some it may be invalid.
        neighbours: points of its member, which are valid.
        situation: of the request.

    Raises:
        ProblemError: that is more than `MAX_ROWS`.
    """
    near = near_at(items, neighbours, situation)
    rows = _rows(items[0], neighbours, near, situation)
    total = int(rows.sum()) + _NEIGHBOURS * _rows_of_all(neighbours, situation)
    if total > MAX_ROWS:
        raise too_many(WHAT, total, MAX_ROWS, who="question", instead=_INSTEAD)
    without = probe_sites([neighbours], situation).outcomes(0) if neighbours else []
    for first, last in runs_of(rows, AT_A_TIME):
        asked = range(first, last)
        sites = probe_sites([[items[at], *compress(neighbours, near[at].tolist())] for at in asked], situation)
        for place, at in enumerate(asked):
            own, *others = sites.outcomes(place)
            found = iter(others)
            yield [
                own,
                *(next(found) if close else far for close, far in zip(near[at].tolist(), without, strict=True)),
            ]


def near_at(items: Sequence[Item], neighbours: Sequence[Item], situation: Situation) -> Bools:
    """(items, neighbours) whether the search for neighbours connects them, by itself or by way of other neighbours."""
    near = np.zeros((len(items), len(neighbours)), dtype=np.bool_)
    if not neighbours:
        return near
    several = [
        packed_probes([put(each, ("base", "member"), "member") for each in own], situation)
        for own in (items, neighbours)
    ]
    placed = places([each.packed for each in several])
    if placed is None:
        return near
    found = in_planes(placed)
    place, other = (np.flatnonzero(found.block == block) for block in (0, 1))
    group = _groups(found, np.column_stack((place, np.tile(other, (len(place), 1)))))
    rows, columns = (
        np.array(each.packed.index, dtype=np.intp)[found.local[at]]
        for each, at in zip(several, (place, other), strict=True)
    )
    near[np.ix_(rows, columns)] = group[:, 1:] == group[:, :1]
    return near


def _groups(found: Places, sites: Index) -> Index:
    """Group of every point of sites, a row a site of indices into the places."""
    at = sites.ravel()
    apart = np.repeat(np.arange(len(sites)), sites.shape[1]) * (int(found.member.max(initial=0)) + 1)
    groups = search(
        member=found.member[at] + apart,
        x=found.x[at],
        y=found.y[at],
        h_ef=found.h_ef[at],
        extent=found.extent[at],
        anchors=found.anchors[at],
        most=MOST_ANCHORS,
    )
    return groups.group_of_point.reshape(sites.shape)


def _rows(item: Item, neighbours: Sequence[Item], near: Bools, situation: Situation) -> Index:
    """(places,) anchors times load cases of the point and those near it, which have the load cases of all of them."""
    points = packed_probes([item, *neighbours], situation).packed.points
    kinds, kind = np.unique(near, axis=0, return_inverse=True)
    counts = [
        int(row_counts(points, situation.basis, np.where(own, 0, np.arange(points.count)))[own].sum())
        for own in np.insert(kinds, 0, True, axis=1)
    ]
    return np.array(counts, dtype=np.intp)[kind.reshape(len(near))]


def _rows_of_all(neighbours: Sequence[Item], situation: Situation) -> int:
    if not neighbours:
        return 0
    return int(row_counts(packed_probes(neighbours, situation).packed.points, situation.basis).sum())
