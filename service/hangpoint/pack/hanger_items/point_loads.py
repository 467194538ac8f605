"""Weights at places along a run or a bar."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import PointLoads
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.hanger_items.notes import Notes
from hangpoint.pack.pull import Rows
from hangpoint.units import COORDINATE, WEIGHT

ROUNDING = 1e-9
"""Share of its length by which a place may seem beyond an end: 3.048 m and 10 ft are one length."""


def within(rows: Rows, at: Floats, *, low: Floats, high: Floats, name: str, what: str) -> Floats:
    """Places moved back onto the line by what rounding put them beyond; a flaw, by ``what``, where they are off it.

    ``rows`` are the objects that have the places, ``at`` under ``name``, with the ends of the line of each, ft.
    """
    slack = ROUNDING * (high - low)
    for place in np.flatnonzero((at < low - slack) | (at > high + slack)).tolist():
        rows.flaw(place, name, f"{what} lies beyond the end.", code="out-of-range")
    return np.clip(at, low, high)


def point_loads(
    rows: Rows, name: str, item: Index, notes: Notes, *, low: Floats, high: Floats, what: str
) -> PointLoads:
    """Loads in the lists under ``name``; ``low`` and ``high`` (rows,) are the tips of the run or bar, ft.

    Flaws: a place beyond a tip, which ``what`` names; a quantity out of range.
    """
    if not rows.gives(name):
        none, never = np.zeros(0), np.zeros(0, dtype=np.bool_)
        return PointLoads(row=none.astype(np.intp), position=none, weight=none, contents=never, live=never)
    loads, row = rows.entries(name)
    objects: Sequence[Any] = loads.objects
    notes.assume(LoadAssumption.POINT_LOAD_DEAD, ["nature" not in load for load in objects], item[row])
    notes.masses(loads.values("weight"), WEIGHT, loads, item[row])
    natures = [load.get("nature") for load in objects]
    contents = np.array([nature == "contents" for nature in natures], dtype=np.bool_)
    notes.assume(LoadAssumption.CONTENTS_AS_DEAD, contents, item[row])
    at = loads.quantity("at", COORDINATE, fill=0.0)
    number = np.array([load.get("number", 1) for load in objects], dtype=np.float64)
    return PointLoads(
        row=row,
        position=within(loads, at, low=low[row], high=high[row], name="at", what=what),
        weight=loads.quantity("weight", WEIGHT, fill=0.0) * number,
        contents=contents,
        live=np.array([nature == "live" for nature in natures], dtype=np.bool_),
    )
