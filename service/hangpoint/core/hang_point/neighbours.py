"""Hang points of one member that are near enough to share its concrete (reading 30). One unit of length.

Two points of one anchor each are neighbours where their spacing is strictly below 1.5 (h_ef,1 + h_ef,2). Points of
several anchors, which reach up to an extent from the point, are candidates where their spacing is strictly below that
and both extents together: no anchor of one is nearer to an anchor of the other otherwise. `Neighbours.only` keeps
those pairs whose anchors are near in fact.

Where few points share a strip across x as wide as the search goes, as in most buildings, a sweep along x compares those
of each strip. Otherwise a search tree over the points of each size class of the reach gives every point its nearest
ones, so that neither many points nor one deep anchor among shallow ones costs the square of their number. A place with
more points than a group may have anchors isn't searched to the end: its points are marked as crowded and their group is
above the limit.
"""

from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.buckets import BLOCK
from hangpoint.core.geometry.connected import connected
from hangpoint.core.geometry.grouping import closer
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

REACH = 1.5
"""Reach of a failure surface over h_ef (17.6.2.1.1)."""
FAR_EDGE = 10.0
"""Edge distance over h_ef from which a row along the edge is searched as far only as it can matter (`edge_reach`)."""
_ROW = 30.0
"""Spacing over h_ef sqrt(h_ef / h') from which a row along a far edge is stronger than its anchors are in pryout."""
ALIKE = 0.1
"""Difference of h_ef of alike anchors, as a share of the larger (reading 30)."""
_ROUNDING = 1e-9
_FIRST_LOOK = 8
_LAST_LOOK = 8
"""Candidates that are asked for: the first time, and the last time as a multiple of the limit."""
_STRIP = 16
"""Points in the strip of a point, on average, up to which a sweep is faster than a search tree."""
_TREE = 4096
"""Points that a search tree takes before the next member gets one of its own."""
_MARGIN = 1 + 1e-6
"""The search goes a little further than the largest limit, which is then applied to each pair by itself."""


@frozen
class Neighbours:
    """Pairs of neighbouring points and the groups that they connect.

    ``a`` and ``b`` (pairs,) are the lower and the higher point, in rising order; ``spacing`` and ``limit`` (pairs,).
    ``group_of_point`` (points,) numbers the groups by their lowest point, a point without neighbours is a group of
    one; ``group_size`` (groups,) counts points, ``group_anchors`` (groups,) their anchors. ``crowded`` (points,) is
    True at a point with too many neighbours for any group: not all of its pairs are listed. ``above_limit`` (groups,)
    is True at a group with more anchors than the limit or with a crowded point; only groups without it are
    sure to have all of their points and pairs.
    """

    a: Index
    b: Index
    spacing: Floats
    limit: Floats
    group_of_point: Index
    group_size: Index
    group_anchors: Index
    crowded: Bools
    above_limit: Bools


def neighbours(
    *,
    member: Index,
    x: Floats,
    y: Floats,
    h_ef: Floats,
    most: int,
    extent: Floats | None = None,
    anchors: Index | None = None,
    same: Index | None = None,
) -> Neighbours:
    """The pairs of neighbouring points and their connected groups.

    A point is crowded where it has at least ``most`` neighbours, or where the nearest ``8 (most + 1)`` points of a
    size class (from one power of two to the next), asked for, don't tell how many of that class are near enough.

    Args:
        member: (points,) code of the member; only points of one code are neighbours.
        x, y: (points,) coordinates in the face of the member, finite, in the unit of h_ef.
        h_ef: (points,) positive and finite.
        most: anchors that a group may have, at least 1.
        extent: (points,) distance from the point to its farthest anchor, finite and not negative; 0 if left out.
        anchors: (points,) anchors of the point, at least 1; 1 if left out.
        same: (points,) code of the set of anchors that points are, which are not neighbours of each other; below 0 of a
            point that is alone.
    """
    count = len(x)
    anchors = np.ones(count, dtype=np.intp) if anchors is None else anchors
    # A little more than the extent, so that the rounding allowed in `closer` loses no pair of near anchors.
    depth = h_ef if extent is None else h_ef + extent * (1 + 2 * _ROUNDING) / REACH
    kept, home, crowded = _thinned(member=member, x=x, y=y, depth=depth, most=most)
    ended = np.zeros(count, dtype=np.bool_)
    found = _swept(kept=kept, member=member, x=x, y=y, depth=depth, most=most)
    if found is None:
        place = np.column_stack((x, y, _member_places(member) * 4 * REACH * depth.max(initial=1.0)))
        parts = [
            _candidates(place=place, depth=depth, points=points, most=most, ended=ended)
            for points in _whole_members(kept, member[kept])
        ]
        found = tuple(np.concatenate(columns) for columns in zip(*parts, strict=True))
    one, other = found
    moved = np.flatnonzero(home != np.arange(count))
    one, other = np.concatenate((one, moved)), np.concatenate((other, home[moved]))
    key = np.unique(np.minimum(one, other) * count + np.maximum(one, other))
    a, b = np.divmod(key, max(count, 1))
    if same is not None and some(same >= 0):
        apart = (same[a] != same[b]) | (same[a] < 0)
        a, b = a[apart], b[apart]
    crowded |= ended | (np.bincount(np.concatenate((a, b)), minlength=count) >= most)
    group_of_point, group_size, group_anchors, above_limit = _groups(
        a=a, b=b, anchors=anchors, crowded=crowded, most=most
    )
    return Neighbours(
        a=a,
        b=b,
        spacing=np.hypot(x[a] - x[b], y[a] - y[b]),
        limit=_limit(depth, a, b),
        group_of_point=group_of_point,
        group_size=group_size,
        group_anchors=group_anchors,
        crowded=crowded,
        above_limit=above_limit,
    )


def edge_reach(
    *, h_ef: Floats, thickness: Floats, c_a: Floats, extent: Floats, sheared: Bools, judged_within: Floats | None = None
) -> Floats:
    """Half of the spacing below which the anchors of a sheared point act together with others along an edge, else 0.

    Half of 3 c_a1 of its farthest row. To an edge beyond 10 h_ef, which EN 1992-4 7.2.2.5 leaves out, it is no more
    than matters: a row of spacing s has, an anchor, 9 sqrt(f'c) c_a1^1.5 (s h' / 4.5 c_a1^2) sqrt(1.5 c_a1 / h') =
    2.4 s sqrt(f'c h') with h' the lesser of the thickness and 1.5 c_a1 (17.7.2), whatever c_a1; pryout has at most
    2 (24 sqrt(f'c) h_ef^1.5) (17.7.3), or 20 h_ef sqrt(h_ef / h') as a spacing. Half as much again is searched.

    Args:
        h_ef, thickness: (points,) in; where the thickness is not known it is taken as h_ef.
        c_a: (points, 4) edges from the point, in, infinite where there is none.
        extent: (points,) distance from the point to its farthest anchor, in.
        sheared: (points,) boolean.
        judged_within: (points,) distance of edges that another code judges, in, in place of 10 h_ef.
    """
    if not some(sheared):
        return np.zeros(len(h_ef))
    counts = np.isfinite(c_a) & sheared[:, None]
    row = np.where(counts, c_a + extent[:, None], 0.0)
    depth = np.where(np.isfinite(thickness) & (thickness > 0), thickness, h_ef)[:, None]
    effective = np.minimum(depth, REACH * np.where(row > 0, row, np.inf))
    matters = _ROW * h_ef[:, None] * np.sqrt(h_ef[:, None] / effective) / 2 + extent[:, None]
    far = c_a > (FAR_EDGE * h_ef if judged_within is None else judged_within)[:, None]
    return np.where(far, np.minimum(REACH * row, matters), REACH * row).max(axis=1)


def alike(*, a: Index, b: Index, family: Index, h_ef: Floats) -> Bools:
    """Whether the points of each pair have one family, and an h_ef within a tenth of the larger (reading 30).

    Args:
        a, b: (pairs,) points.
        family: (points,) code of the product family.
        h_ef: (points,) positive.
    """
    one, other = h_ef[a], h_ef[b]
    return (family[a] == family[b]) & (np.abs(one - other) <= ALIKE * np.maximum(one, other) * (1 + _ROUNDING))


def _groups(*, a: Index, b: Index, anchors: Index, crowded: Bools, most: int) -> tuple[Index, Index, Index, Bools]:
    """Group of each point; points and anchors of each group, and whether it is above the limit."""
    label = connected(count=len(anchors), a=a, b=b)
    lowest = label == np.arange(len(anchors))
    group_of_point = (np.cumsum(lowest) - 1)[label]
    group_size = np.bincount(group_of_point)
    group_anchors = np.bincount(group_of_point, weights=anchors).astype(np.intp)
    holds_crowded = np.bincount(group_of_point, weights=crowded) > 0
    return group_of_point, group_size, group_anchors, (group_anchors > most) | holds_crowded


def _member_places(member: Index) -> Floats:
    """Members as numbers from 0, for a third coordinate that keeps their points further apart than any search goes."""
    return np.unique(member, return_inverse=True)[1].astype(np.float64)


def _thinned(*, member: Index, x: Floats, y: Floats, depth: Floats, most: int) -> tuple[Index, Index, Bools]:
    """At a place with more than ``most`` coincident points only the ``most + 1`` deepest are searched from.

    Whatever is near any of them is near the deepest, and a tree can't divide equal places.

    Returns:
        The points to search, member by member and in order of x; of each point the deepest at its place if it is left
        out, otherwise itself; crowded flags.
    """
    count = len(x)
    order = np.lexsort((x, member))
    _, size = _runs(member[order], x[order])
    if size.max(initial=0) <= most:
        return order, np.arange(count), np.zeros(count, dtype=np.bool_)
    order = np.lexsort((-depth, y, x, member))
    run, size = _runs(member[order], x[order], y[order])
    starts = np.cumsum(size) - size
    stays = np.arange(count) - starts[run] <= most
    home = np.empty(count, dtype=np.intp)
    home[order] = np.where(stays, order, order[starts[run]])
    crowded = np.zeros(count, dtype=np.bool_)
    crowded[order] = size[run] > most
    return order[stays], home, crowded


def _runs(*columns: NDArray[Any]) -> tuple[Index, Index]:
    """The run of equal rows that each row is in, and the rows of each run."""
    begins = np.zeros(len(columns[0]), dtype=np.intp)
    for column in columns:
        begins[1:] |= column[1:] != column[:-1]
    run: Index = begins.cumsum()
    return run, np.bincount(run)


def _swept(*, kept: Index, member: Index, x: Floats, y: Floats, depth: Floats, most: int) -> tuple[Index, Index] | None:
    """Pairs of neighbours among points in order of their member and x: each with those after it in its strip.

    None where strips hold so many that a search tree is faster, or might not tell all of them.
    """
    if not len(kept):
        return kept, kept
    radius = 2 * REACH * float(depth.max()) * _MARGIN
    own: Floats = x[kept] - x.min()
    run = _runs(member[kept])[0]
    along: Floats = own + run * (own.max() + 2 * radius)
    ends: Floats = along + (radius + _ROUNDING * float(along[-1]))
    last = np.searchsorted(along, ends, side="right")
    size = last - np.arange(1, len(kept) + 1)
    total = int(size.sum())
    if total > _STRIP * len(kept) or 2 * size.max() > _LAST_LOOK * (most + 1):
        return None
    first = np.repeat(np.arange(len(kept)), size)
    second = np.arange(total) + (last - np.cumsum(size))[first]
    a, b = kept[first], kept[second]
    near = closer(spacing=np.hypot(x[a] - x[b], y[a] - y[b]), limit=_limit(depth, a, b))
    return a[near], b[near]


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


def _candidates(*, place: Floats, depth: Floats, points: Index, most: int, ended: Bools) -> tuple[Index, Index]:
    """Pairs of neighbours among the points; ``ended`` is set where the search ends before it saw all of a point's."""
    size = np.floor(np.log2(depth[points]))
    classes = [points[size == each] for each in sorted(set(size.tolist()))]
    classes.sort(key=len)
    trees = [_tree(place[rows]) for rows in classes]
    one, other = [points[:0]], [points[:0]]

    def search(asked: int, asking: Index) -> None:
        found = _search(trees[asked], classes[asked], asking[~ended[asking]], place=place, depth=depth, most=most)
        one.append(found[0])
        other.append(found[1])
        ended[found[2]] = True

    for own, asking in enumerate(classes):
        for asked in range(own, len(classes)):
            search(asked, asking)
            if asked > own and some(ended[asking]):  # then not all pairs of the two classes were seen from there
                search(own, classes[asked])
    return np.concatenate(one), np.concatenate(other)


def _search(
    tree: _Tree, rows: Index, asking: Index, *, place: Floats, depth: Floats, most: int
) -> tuple[Index, Index, Index]:
    """The neighbours among the rows of a tree, first of few candidates, then of more where those weren't all."""
    one, other, ended = [asking[:0]], [asking[:0]], [asking[:0]]
    radius = REACH * float(depth[asking].max(initial=0.0) + depth[rows].max()) * _MARGIN
    for look in (min(_FIRST_LOOK, most + 1), most + 1, _LAST_LOOK * (most + 1)):
        remaining = [asking[:0]]
        step = max(1, BLOCK // look)
        for first in range(0, len(asking), step):
            own = asking[first : first + step]
            _, hit = tree.query(place[own], look, distance_upper_bound=radius)
            row, rank = np.nonzero(hit < len(rows))
            a, b = own[row], rows[hit[row, rank]]
            apart = np.hypot(place[a, 0] - place[b, 0], place[a, 1] - place[b, 1])
            near = (a != b) & closer(spacing=apart, limit=_limit(depth, a, b))
            one.append(a[near])
            other.append(b[near])
            enough = np.bincount(row[near], minlength=len(own)) >= most
            ended.append(own[enough])
            remaining.append(own[(hit[:, -1] < len(rows)) & ~enough])
        asking = np.concatenate(remaining)
    return np.concatenate(one), np.concatenate(other), np.concatenate((*ended, asking))


def _limit(depth: Floats, a: Index, b: Index) -> Floats:
    """Of the spacing of two points (reading 30); their depth is h_ef and what of it the extent is worth."""
    return REACH * (depth[a] + depth[b])
