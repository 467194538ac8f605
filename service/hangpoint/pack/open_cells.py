"""Cells around an anchor in grouted masonry that are not grouted, as a request states them."""

import numpy as np

from hangpoint.core.hang_point.points import Layouts
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows
from hangpoint.units import LENGTH

OPEN_SIDES = tuple(f"open_{side}" for side in EDGES)
_LEAST = 1e-3
"""in: of an anchor from a cell, as of edges."""


def pack_open_cells(masonry: Rows, grouted: Bools, layouts: Layouts, assumptions: Flags) -> Floats:
    """(points, 4) distances of the nearest open cell on each side of the origin of the layout, infinite without any.

    Args:
        masonry: of the bases.
        grouted: (points,) in masonry of grouted units; in others open cells are part of what was tested.
        layouts: of the points.
        assumptions: takes what nobody states.

    Flaws: an anchor at or beyond an open cell.
    """
    found = np.full((len(masonry), len(EDGES)), np.inf)
    silent = np.zeros(len(masonry), dtype=np.bool_)
    for side, name in enumerate(OPEN_SIDES):
        found[:, side] = np.where(grouted, masonry.quantity(name, LENGTH, fill=np.inf), np.inf)
        silent |= masonry.silent(name)
    assumptions.set(Assumption.CELLS_GROUTED, grouted & silent)
    beyond = np.zeros_like(found, dtype=np.bool_)
    shift = np.stack((layouts.x, -layouts.x, layouts.y, -layouts.y), axis=1)
    np.logical_or.at(beyond, layouts.point, found[layouts.point] + shift < _LEAST)
    for at, side in np.argwhere(beyond).tolist():
        detail = "An anchor is at or beyond the open cell: state the anchors of each grouted cell as a point."
        masonry.flaw(at, OPEN_SIDES[side], detail, slug="impossible-geometry")
    return found
