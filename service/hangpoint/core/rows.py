"""Questions about the rows of columns that are asked at every turn, of few rows as quickly as of many."""

from typing import Any

import numpy as np
from numpy.typing import NDArray


def some(values: NDArray[Any]) -> bool:
    """Whether any value is true, or not zero."""
    return bool(np.count_nonzero(values))


def is_every(rows: NDArray[np.intp], count: int) -> bool:
    """Whether rows of so many are all of them, in their order."""
    return len(rows) == count and not some(rows != np.arange(count))
