"""Distances of neighbours by the side that they are on. One unit of length.

One that is as far off along x as along y is towards either of two sides. As if the layout were turned by a hair, all of
an anchor go one way round, left or right; of the two ways that counts which leaves its neighbours nearer.
"""

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index

_SAME = 1e-6
"""Share of a distance by which its parts along x and y may differ on a diagonal."""


def by_sides(*, one: Index, other: Index, dx: Floats, dy: Floats, count: int) -> Floats:
    """(2, anchors, 4) of pairs of anchors, each once, ``dx`` and ``dy`` from the one to the other; both ways round."""
    found = np.full((2, count, 4), np.inf)
    along_x, apart = np.abs(dx) >= np.abs(dy), np.hypot(dx, dy)
    diagonal = np.abs(np.abs(dx) - np.abs(dy)) <= _SAME * apart
    for way in (0, 1):
        nearest = found[way]
        turned = np.where(diagonal, (dx * dy > 0) == (way == 0), along_x)
        for anchor, sign in ((one, 1), (other, -1)):
            side = np.where(turned, np.where(sign * dx > 0, 1, 0), np.where(sign * dy > 0, 3, 2))
            np.minimum.at(nearest, (anchor, side), apart)
    return found


def nearer_way(found: Floats) -> Floats:
    """(anchors, 4) of `by_sides`, of each anchor the way round in which its neighbours are nearer."""
    closeness: Floats = (1 / np.maximum(found, np.finfo(np.float64).tiny)).sum(axis=2)
    second: Bools = closeness[1] > closeness[0]
    nearer: Floats = found[0].copy()
    nearer[second] = found[1][second]
    return nearer
