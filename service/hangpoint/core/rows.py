"""Questions about the rows of columns that are asked at every turn, of few rows as quickly as of many."""

from typing import Any

import numpy as np
from numpy.typing import NDArray


def some(values: NDArray[Any]) -> bool:
    """Whether any value is true, or not zero."""
    return bool(np.count_nonzero(values))


def runs_of(sizes: NDArray[np.intp], most: int) -> list[tuple[int, int]]:
    """First and end of runs of rows, each with about ``most`` of what ``sizes`` (rows,) counts; of no rows one run."""
    if not len(sizes):
        return [(0, 0)]
    part = (np.cumsum(sizes) - sizes) // most
    starts: list[int] = np.flatnonzero(np.diff(part, prepend=-1)).tolist()
    return list(zip(starts, [*starts[1:], len(sizes)], strict=True))


def is_every(rows: NDArray[np.intp], count: int) -> bool:
    """Whether rows of so many are all of them, in their order."""
    return len(rows) == count and not some(rows != np.arange(count))
