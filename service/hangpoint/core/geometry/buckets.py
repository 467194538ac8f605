"""Rows of equal count together, so that what needs rectangles runs on arrays of one shape."""

from collections.abc import Callable, Iterator

import numpy as np

from hangpoint.core.quantity import Index

BLOCK = 1 << 20
"""Cells that one rectangle may have: some megabytes."""


def buckets(count: Index, *, cells: Callable[[int], int]) -> Iterator[tuple[int, Index]]:
    """Each count of two or more with the rows that have it, in blocks of at most `BLOCK` cells.

    Args:
        count: (rows,) of each row.
        cells: the cells that a row of the given count takes.
    """
    for size in np.unique(count[count > 1]).tolist():
        rows = np.flatnonzero(count == size)
        length = max(1, BLOCK // cells(size))
        for first in range(0, len(rows), length):
            yield size, rows[first : first + length]
