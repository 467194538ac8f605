"""Near points under earthquake, checked in the other senses that it may have at one beside another as well.

Shear and moments of earthquake act either way at each point, and nothing stated says which way they act at one while
they act some way at another. The modes have them at all points the way of the longest shear, and the other way. Here
every other combination of senses is checked. Each point by itself has the same loads in all of them, so that only what
points do together may be worse. Beyond `MOST_TURNED` points some of them keep one sense among themselves: of points in
a row those next to each other still have every combination.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.connected import connected
from hangpoint.core.hang_point.apart import without_rod
from hangpoint.core.hang_point.cases import row_counts, turning
from hangpoint.core.hang_point.expansion import expand, repeated
from hangpoint.core.hang_point.points import Basis, Points, Sites
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.hang_point.turning import MOST_TURNED, senses, turning_of_group
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import runs_of, some
from hangpoint.core.vocabulary import Finding

_ROWS = 30_000
"""Anchors in load cases that are checked at a time."""


def with_other_senses(
    points: Points,
    basis: Basis,
    shared: Sharing,
    *,
    together: Verdicts,
    check: Callable[[Points, Floats], Verdicts],
) -> Verdicts:
    """The verdicts with what the other senses of earthquake say.

    Args:
        points: the batch.
        basis: what holds for the whole request.
        shared: which points share concrete.
        together: verdicts of earthquake as the longest shear.
        check: the check of points with their sites, and of 1 or -1 (points,) by which earthquake is turned.
    """
    checked = together.refusal == ACCEPTED
    turns = checked & turning(points, basis)
    movers = turning_of_group(turns, shared.group)
    if not some(movers > 1):
        return together
    used, of_anchors = together.utilisation.copy(), np.zeros(points.count)
    for copies in _copies(points, basis, shared, turns=turns, movers=movers):
        found = check(copies.points, copies.turned)
        np.maximum.at(used, copies.of, found.utilisation)
        np.maximum.at(of_anchors, copies.of, without_rod(found, np.zeros(len(copies.of))))
    more = checked & (used > together.utilisation * EXCEEDED)
    over, one, zero = used > EXCEEDED, np.ones(points.count), np.zeros(points.count)
    findings = [
        FindingColumn(Finding.EARTHQUAKE_OTHER_SENSE, more & over, used, one),
        FindingColumn(Finding.EARTHQUAKE_OTHER_SENSE_HOLDS, more & ~over, used, one),
        FindingColumn(Finding.EARTHQUAKE_SENSES_NOT_ALL, checked & (movers > MOST_TURNED), zero, zero),
    ]
    own = [column for column in findings if column.holds.any()]
    return replace(together, findings=[*together.findings, *own], used_apart=without_rod(together, of_anchors))


@frozen
class _Copies:
    """Points that share concrete, repeated with their sites; ``of`` and ``turned`` (copies,) are the point of each and
    1 or -1.
    """

    points: Points
    of: Index
    turned: Floats


def _copies(points: Points, basis: Basis, shared: Sharing, *, turns: Bools, movers: Index) -> Iterator[_Copies]:
    """Every part of points that share concrete once for each sense of its earthquake beyond the first."""
    sites = points.sites
    if sites is None:
        return
    part = connected(count=points.count, a=shared.a, b=shared.b)
    times = np.zeros(points.count, dtype=np.intp)
    np.maximum.at(times, part, senses(movers) - 1)
    copied = np.repeat(np.arange(points.count), times)
    sense = 1 + np.arange(len(copied)) - np.repeat(np.cumsum(times) - times, times)
    rank = _ranks(turns, shared.group, sites)
    rows = np.bincount(part, row_counts(points, basis), points.count).astype(np.intp)
    for first, last in runs_of(rows[copied], _ROWS):
        of, copy = repeated(part, copied[first:last], count=points.count)
        bit = (sense[first:last][copy] >> np.maximum(rank[of] - 1, 0)) & 1
        turned = np.where((rank[of] > 0) & (bit == 1), -1.0, 1.0)
        own = replace(expand(points, of), sites=_sites(sites, shared, part, of=of, copied=copied[first:last]))
        yield _Copies(points=own, of=of, turned=turned)


def _ranks(turns: Bools, group: Index, sites: Sites) -> Index:
    """(points,) which of the points of its group that are turned by themselves, from 0; -1 of one that isn't.

    They are counted along the member, and over again from 0 after `MOST_TURNED`.
    """
    order = np.lexsort((sites.y, sites.x, group))
    order = order[turns[order]]
    own = group[order]
    rank = np.full(len(group), -1, dtype=np.intp)
    rank[order] = (np.arange(len(own)) - np.searchsorted(own, own)) % MOST_TURNED
    return rank


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
    )
