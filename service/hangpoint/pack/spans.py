"""Lists of spans as one table of a row an item, zero padded."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.quantity import Floats, Index
from hangpoint.pack.pull import Rows
from hangpoint.units import DISTANCE

LEAST_SPAN = 0.01
"""ft"""

TOO_SHORT = "A span is at least 0.01 ft (3 mm)."


def span_table(rows: Rows, name: str, lists: Sequence[Sequence[Any]]) -> tuple[Floats, Index]:
    """Spans in the lists under ``name``, ft, (rows, S), and how many each row has.

    Flaws: a span out of range or below `LEAST_SPAN`.
    """
    span_count = np.fromiter(map(len, lists), dtype=np.intp, count=len(lists))
    widest = max(int(span_count.max(initial=1)), 1)
    within = np.arange(widest)[None, :] < span_count[:, None]
    spans = np.zeros((len(lists), widest))
    stated = rows.listed(name, lists, DISTANCE)
    spans[within] = stated
    if np.count_nonzero(stated < LEAST_SPAN):
        for at, place in zip(*np.nonzero((spans < LEAST_SPAN) & within), strict=True):
            rows.flaw(int(at), f"{name}/{place}", TOO_SHORT, slug="quantity")
    return spans, span_count
