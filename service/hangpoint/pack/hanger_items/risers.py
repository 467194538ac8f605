"""Risers: how long, on how many supports, and who carries."""

import numpy as np

from hangpoint.core.hanger.items import Risers
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.pull import Rows
from hangpoint.pack.spans import LEAST_SPAN
from hangpoint.units import DISTANCE

_ONE_CARRIES = {"one_carries_all": 1, "equal": 0}


def pack_risers(risers: Rows, notes: Notes) -> Risers:
    """Read items of kind riser. Flaws: a length out of range or below `LEAST_SPAN`, a static load of a tray."""
    item = np.asarray(risers.local, dtype=np.intp)
    length = risers.quantity("length", DISTANCE, fill=1.0)
    flaw_where(risers, length < LEAST_SPAN, "length", "A riser is at least 0.01 ft (3 mm) long.", slug="quantity")
    line = risers.child("line")
    detail = "A static load is on the span of a tray, a riser has none: give it as live load at the support, in given."
    flaw_where(line, stated(line, "static_load"), "static_load", detail, code="contradiction")
    notes.assume(LoadAssumption.RISER_ONE, risers.silent("model"), item)
    notes.leave_unchecked(LoadNotChecked.LOSS_OF_HANGER, np.ones(len(item), dtype=np.bool_), item)
    return Risers(
        item=item,
        length=length,
        supports=np.array(risers.values("supports"), dtype=np.intp),
        one_carries=risers.codes("model", _ONE_CARRIES, absent=1) == 1,
    )
