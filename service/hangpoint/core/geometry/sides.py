"""Distances of neighbours by the side that they are on. One unit of length."""

import numpy as np

from hangpoint.core.quantity import Floats, Index


def by_sides(*, one: Index, other: Index, dx: Floats, dy: Floats, count: int) -> Floats:
    """(anchors, 4) of pairs of anchors, each once, ``dx`` and ``dy`` from the one to the other."""
    found = np.full((count, 4), np.inf)
    along_x, apart = np.abs(dx) >= np.abs(dy), np.hypot(dx, dy)
    for anchor, sign in ((one, 1), (other, -1)):
        side = np.where(along_x, np.where(sign * dx > 0, 1, 0), np.where(sign * dy > 0, 3, 2))
        np.minimum.at(found, (anchor, side), apart)
    return found
