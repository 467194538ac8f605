"""Anchors in load cases, the rows that a check computes: how many a request may ask for, and how many at a time.

The time of a check goes with them, and more than in proportion where many anchors act together; so does its memory.
"""

from collections.abc import Sequence

import numpy as np

from hangpoint.api.problems import too_many
from hangpoint.core.hang_point.absent import FEWEST, MOST_TURNED_ROWS
from hangpoint.core.hang_point.cases import most_cases, row_counts
from hangpoint.core.hang_point.opposed import WAYS
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.turning import MOST_SENSES
from hangpoint.core.rows import runs_of
from hangpoint.pack.gathering import gather_packed
from hangpoint.pack.points import Packed
from hangpoint.pack.sites import NearBlock

MAX_BATCH_ROWS = 400_000
"""Of the anchors of a batch that act together with others: of layouts, and of points that share concrete and have the
load cases of all of them, in all senses of their earthquake and patterns of their loads. Anchors by themselves are as
many as the items, and quick."""

BLOCK_ROWS = 30_000
"""That are checked at a time."""

WHAT = "anchors times load cases"
_TOGETHER = "anchors that act together, times load cases and all senses and patterns of them"
_INSTEAD = "Send the items in several requests, or fewer load cases of large layouts."


def refuse_rows(blocks: Sequence[Packed], near: Sequence[NearBlock], basis: Basis) -> None:
    """Refuse a batch with more rows than `MAX_BATCH_ROWS`, its points alone or with those near them.

    Raises:
        ProblemError: too many.
    """
    together = alone = 0
    if sum(_bound_near(each.packed.points, basis) for each in near) > MAX_BATCH_ROWS:
        together = sum(int(row_counts(each.packed.points, basis, each.group).sum()) for each in near)
    if sum(_bound(packed.points, basis) for packed in blocks) > MAX_BATCH_ROWS:
        alone = sum(_rows_of_layouts(packed.points, basis) for packed in blocks)
    rows = max(together, alone)
    if rows > MAX_BATCH_ROWS:
        raise too_many(_TOGETHER, rows, MAX_BATCH_ROWS, instead=_INSTEAD)


def _rows_of_layouts(points: Points, basis: Basis) -> int:
    rows = row_counts(points, basis)
    return int(rows[np.bincount(points.layouts.point, minlength=points.count) > 1].sum())


def _bound(points: Points, basis: Basis) -> int:
    ways = 1 if points.apart is None else 1 + WAYS
    return len(points.layouts.point) * most_cases(points, basis) * ways


def _bound_near(points: Points, basis: Basis) -> int:
    """Senses by themselves, the fewest patterns, and what more patterns have at most."""
    return _bound(points, basis) * (MOST_SENSES + 2**FEWEST) + points.count * MOST_TURNED_ROWS


def most_near(near: Sequence[NearBlock], basis: Basis) -> int:
    """Rows of the largest of some blocks, or what is no less but few."""
    bound = max((_bound(each.packed.points, basis) for each in near), default=0)
    if bound <= BLOCK_ROWS:
        return bound
    return max(int(row_counts(each.packed.points, basis, each.group).sum()) for each in near)


def parts_of(packed: Packed, basis: Basis) -> list[tuple[slice, Packed]]:
    """The points of a block in parts of about `BLOCK_ROWS` at most, each with its place in the block."""
    count = packed.points.count
    if _bound(packed.points, basis) <= BLOCK_ROWS:
        return [(slice(0, count), packed)]
    runs = runs_of(row_counts(packed.points, basis), BLOCK_ROWS)
    if len(runs) < 2:
        return [(slice(0, count), packed)]
    return [(slice(first, last), gather_packed([(packed, np.arange(first, last))])) for first, last in runs]
