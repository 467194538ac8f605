"""Lines whose weight per length is stated, and apart from it what fills them."""

import numpy as np

from hangpoint.core.hanger.items import StatedLines
from hangpoint.core.quantity import Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.pull import Rows
from hangpoint.units import LINE_WEIGHT


def pack_stated(rows: Rows, item: Index, notes: Notes) -> StatedLines:
    """Read lines of kind line, of the items ``item``; ``filling`` comes on top of ``weight``.

    Flaws: no weight, a quantity out of range.
    """
    weight = rows.quantity("weight", LINE_WEIGHT, fill=1.0)
    flaw_where(rows, weight <= 0, "weight", "The weight of a line is more than 0.", slug="quantity")
    w_filling = rows.quantity("filling", LINE_WEIGHT, fill=0.0)
    notes.assume(LoadAssumption.CONTENTS_AS_DEAD, w_filling > 0, item)
    for name in ("weight", "filling"):
        notes.masses(rows.values(name), LINE_WEIGHT, rows, item)
    return StatedLines(
        line=np.array(rows.local, dtype=np.intp),
        w_stated=weight,
        w_filling=w_filling,
        allowance=rows.numbers("allowance", 0.0),
    )
