"""Points that share concrete, repeated with their sites, so that they are checked with other loads."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.connected import connected
from hangpoint.core.hang_point.expansion import expand, repeated
from hangpoint.core.hang_point.points import Points, Sites
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.rows import runs_of

_ROWS = 30_000
"""Anchors in load cases that are checked at a time."""


@frozen
class Copies:
    """Points with sites; ``of`` and ``number`` (copies,) are the point of each and which of its copies it is, from 0.

    Those near each other have the same number.
    """

    points: Points
    of: Index
    number: Index


def copies(points: Points, shared: Sharing, *, times: Index, rows: Index) -> Iterator[Copies]:
    """Every part of points that share concrete as often as any of its points asks for, some at a time.

    Args:
        points: the batch, with its sites.
        shared: which of its points share concrete.
        times: (points,) how often.
        rows: (points,) anchors in load cases of each.
    """
    sites = points.sites
    if sites is None:
        return
    part = connected(count=points.count, a=shared.a, b=shared.b)
    most = np.zeros(points.count, dtype=np.intp)
    np.maximum.at(most, part, times)
    copied = np.repeat(np.arange(points.count), most)
    number = np.arange(len(copied)) - np.repeat(np.cumsum(most) - most, most)
    each = np.bincount(part, rows, points.count).astype(np.intp)
    for first, last in runs_of(each[copied], _ROWS):
        of, copy = repeated(part, copied[first:last], count=points.count)
        own = replace(expand(points, of), sites=_sites(sites, shared, part, of=of, copied=copied[first:last]))
        yield Copies(points=own, of=of, number=number[first:last][copy])


def rank_along(chosen: Index, group: Index, sites: Sites) -> Index:
    """How many are chosen at points of its group that come before each along the member, (points,).

    Args:
        chosen: (points,) how many of each.
        group: (points,) one number for points that share concrete.
        sites: of the points.
    """
    order = np.lexsort((sites.y, sites.x, group))
    before = np.cumsum(chosen[order]) - chosen[order]
    own = group[order]
    rank = np.empty(len(group), dtype=np.intp)
    rank[order] = before - before[np.searchsorted(own, own)]
    return rank


def turned_by(sense: Index, rank: Index) -> Floats:
    """-1 where earthquake is turned, else 1, (copies,).

    Args:
        sense: (copies,) of which each bit turns the points of one rank, the lowest those of rank 1.
        rank: (copies,) of the point among those that are turned, 0 of one that never is.
    """
    bit = (sense >> np.maximum(rank - 1, 0)) & 1
    return np.where((rank > 0) & (bit == 1), -1.0, 1.0)


def _sites(sites: Sites, shared: Sharing, part: Index, *, of: Index, copied: Index) -> Sites:
    """Sites of copies of parts; a copy is near those of its own copy alone."""
    size = np.bincount(part, minlength=len(part))
    order = np.argsort(part, kind="stable")
    place = np.empty(len(part), dtype=np.intp)
    place[order] = np.arange(len(part)) - (np.cumsum(size) - size)[part[order]]
    starts = np.cumsum(size[copied]) - size[copied]
    pair, copy = repeated(part[shared.a], copied, count=len(part))
    return Sites(
        x=sites.x[of],
        y=sites.y[of],
        family=sites.family[of],
        level=sites.level[of],
        a=starts[copy] + place[shared.a[pair]],
        b=starts[copy] + place[shared.b[pair]],
        crowded=np.zeros(len(of), dtype=np.bool_),
        disputed=sites.disputed[of],
        same=sites.same[of],
    )
