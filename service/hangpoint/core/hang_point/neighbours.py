"""Hang points of one member that are near enough to share its concrete (reading 30). One unit of length.

Two points are neighbours where their spacing is strictly below 1.5 (h_ef,1 + h_ef,2). A search tree over the points of
each size class of h_ef gives every point its nearest ones, so that neither many points nor one deep anchor among
shallow ones costs the square of the number of points. A place with more points than a group may have isn't searched to
the end: its points are marked as crowded and their group is above the limit.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from hangpoint.core.geometry.buckets import BLOCK
from hangpoint.core.geometry.connected import connected
from hangpoint.core.geometry.grouping import closer
from hangpoint.core.quantity import Bools, Floats, Index

REACH = 1.5
"""Reach of a failure surface over h_ef (17.6.2.1.1)."""
_FIRST_LOOK = 8
_LAST_LOOK = 8
"""Candidates that are asked for: the first time, and the last time as a multiple of the limit."""
_TREE = 4096
"""Points that a search tree takes before the next member gets one of its own."""
_MARGIN = 1 + 1e-6
"""The search goes a little further than the largest limit, which is then applied to each pair by itself."""


@dataclass(frozen=True, kw_only=True)
class Neighbours:
    """Pairs of neighbouring points and the groups that they connect.

    ``a`` and ``b`` (pairs,) are the lower and the higher point, in rising order; ``spacing`` and ``limit`` (pairs,).
    ``group_of_point`` (points,) numbers the groups by their lowest point, a point without neighbours is a group of
    one, and ``group_size`` (groups,). ``crowded`` (points,) is True at a point with too many neighbours for any group:
    not all of its pairs are listed. ``above_limit`` (groups,) is True at a group with more points than the limit or
    with a crowded one; only groups without it are sure to have all of their points and pairs.
    """

    a: Index
    b: Index
    spacing: Floats
    limit: Floats
    group_of_point: Index
    group_size: Index
    crowded: Bools
    above_limit: Bools


def neighbours(*, member: Index, x: Floats, y: Floats, h_ef: Floats, most: int) -> Neighbours:
    """The pairs of neighbouring points and their connected groups.

    A point is crowded where it has at least ``most`` neighbours, or where the nearest ``8 (most + 1)`` points of a
    size class (h_ef between two powers of two) don't tell how many of that class are near enough.

    Args:
        member: (points,) code of the member; only points of one code are neighbours.
        x, y: (points,) coordinates in the face of the member, finite, in the unit of h_ef.
        h_ef: (points,) positive and finite.
        most: points that a group may have, at least 1.
    """
    count = len(x)
    kept, home, crowded = _thinned(member=member, x=x, y=y, h_ef=h_ef, most=most)
    place = np.column_stack((x, y, _member_places(member) * 4 * REACH * h_ef.max(initial=1.0)))
    ended = np.zeros(count, dtype=np.bool_)
    found = [
        _candidates(place=place, h_ef=h_ef, points=points, most=most, ended=ended)
        for points in _whole_members(kept, member[kept])
    ]
    one, other = (np.concatenate(columns) for columns in zip(*found, strict=True))
    moved = np.flatnonzero(home != np.arange(count))
    one, other = np.concatenate((one, moved)), np.concatenate((other, home[moved]))
    key = np.unique(np.minimum(one, other) * count + np.maximum(one, other))
    a, b = np.divmod(key, max(count, 1))
    crowded |= ended | (np.bincount(np.concatenate((a, b)), minlength=count) >= most)
    label, group_of_point = np.unique(connected(count=count, a=a, b=b), return_inverse=True)
    group_size = np.bincount(group_of_point, minlength=len(label))
    holds_crowded = np.bincount(group_of_point, weights=crowded, minlength=len(label)) > 0
    return Neighbours(
        a=a,
        b=b,
        spacing=np.hypot(x[a] - x[b], y[a] - y[b]),
        limit=_limit(h_ef, a, b),
        group_of_point=group_of_point,
        group_size=group_size,
        crowded=crowded,
        above_limit=(group_size > most) | holds_crowded,
    )


def _member_places(member: Index) -> Floats:
    """Members as numbers from 0, for a third coordinate that keeps their points further apart than any search goes."""
    return np.unique(member, return_inverse=True)[1].astype(np.float64)


def _thinned(*, member: Index, x: Floats, y: Floats, h_ef: Floats, most: int) -> tuple[Index, Index, Bools]:
    """At a place with more than ``most`` coincident points only the ``most + 1`` deepest are searched from.

    Whatever is near any of them is near the deepest, and a tree can't divide equal places.

    Returns:
        The points to search, member by member and in order of x; of each point the deepest at its place if it is left
        out, otherwise itself; crowded flags.
    """
    count = len(x)
    order = np.lexsort((-h_ef, y, x, member))
    changes = np.zeros(count, dtype=np.bool_)
    for column in (member, x, y):
        changes |= np.diff(column[order], prepend=column[order][:1]) != 0
    changes[:1] = True
    starts = np.flatnonzero(changes)
    run = np.cumsum(changes) - 1
    stays = np.arange(count) - starts[run] <= most
    home = np.empty(count, dtype=np.intp)
    home[order] = np.where(stays, order, order[starts[run]])
    crowded = np.zeros(count, dtype=np.bool_)
    crowded[order] = np.bincount(run, minlength=len(starts))[run] > most
    return order[stays], home, crowded


def _whole_members(points: Index, member: Index) -> list[Index]:
    """Points in order of their members, divided between members: a search tree that fits a fast memory is faster."""
    changes = np.diff(member, prepend=member[:1]) != 0
    first = np.maximum.accumulate(np.where(changes, np.arange(len(points)), 0))
    return np.split(points, np.flatnonzero(np.diff(first // _TREE)) + 1)


class _Tree(Protocol):
    """What is used of the search tree."""

    def query(self, x: Floats, k: int, *, distance_upper_bound: float) -> tuple[Floats, Index]: ...


def _tree(place: Floats) -> _Tree:
    from scipy.spatial import cKDTree  # pyright: ignore[reportMissingTypeStubs, reportAttributeAccessIssue, reportUnknownVariableType]

    return cKDTree(place)  # pyright: ignore[reportUnknownVariableType]


def _candidates(*, place: Floats, h_ef: Floats, points: Index, most: int, ended: Bools) -> tuple[Index, Index]:
    """Each of the points with its neighbours among them; ``ended`` is set where the search ends before it saw all."""
    size = np.floor(np.log2(h_ef[points]))
    classes = [points[size == each] for each in np.unique(size)]
    trees = [_tree(place[rows]) for rows in classes]
    one, other = [points[:0]], [points[:0]]
    for asking in classes:
        for rows, tree in zip(classes, trees, strict=True):
            found = _search(tree, rows, asking[~ended[asking]], place=place, h_ef=h_ef, most=most)
            one.append(found[0])
            other.append(found[1])
            ended[found[2]] = True
    return np.concatenate(one), np.concatenate(other)


def _search(
    tree: _Tree, rows: Index, asking: Index, *, place: Floats, h_ef: Floats, most: int
) -> tuple[Index, Index, Index]:
    """The neighbours among the rows of a tree, first of few candidates, then of more where those weren't all."""
    one, other, ended = [asking[:0]], [asking[:0]], [asking[:0]]
    radius = REACH * float(h_ef[asking].max(initial=0.0) + h_ef[rows].max()) * _MARGIN
    for look in (min(_FIRST_LOOK, most + 1), most + 1, _LAST_LOOK * (most + 1)):
        remaining = [asking[:0]]
        for own in np.array_split(asking, 1 + len(asking) * look // BLOCK):
            _, hit = tree.query(place[own], look, distance_upper_bound=radius)
            row, rank = np.nonzero(hit < len(rows))
            a, b = own[row], rows[hit[row, rank]]
            apart = np.hypot(place[a, 0] - place[b, 0], place[a, 1] - place[b, 1])
            near = (a != b) & closer(spacing=apart, limit=_limit(h_ef, a, b))
            one.append(a[near])
            other.append(b[near])
            enough = np.bincount(row[near], minlength=len(own)) >= most
            ended.append(own[enough])
            remaining.append(own[(hit[:, -1] < len(rows)) & ~enough])
        asking = np.concatenate(remaining)
    return np.concatenate(one), np.concatenate(other), np.concatenate((*ended, asking))


def _limit(h_ef: Floats, a: Index, b: Index) -> Floats:
    """Of the spacing of two points (reading 30)."""
    return REACH * (h_ef[a] + h_ef[b])
