"""Edges of a member as points near each other state them: one edge can't be in two places (reading 30). Units: in."""

from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.neighbours import FAR_EDGE
from hangpoint.core.hang_point.points import Plates
from hangpoint.core.hang_point.sharing import SAME_PLACE
from hangpoint.core.quantity import Bools, Floats, Index

APART = 1.0
"""in: places of an edge that differ by no more are one (common practice)."""
_OUTWARD = np.array((-1.0, 1.0, -1.0, 1.0))
"""Of the four edges along their axis."""


@frozen
class CommonEdges:
    """``c_a`` (points, 4) with an edge that a near point states where it is nearer than the point's own.

    ``disputed`` (points,): an edge that counts for the point or for one near it is in two places.
    """

    c_a: Floats
    disputed: Bools


def common_edges(*, c_a: Floats, x: Floats, y: Floats, h_ef: Floats, extent: Floats, a: Index, b: Index) -> CommonEdges:
    """Of every point the least edges that it and those near it state, and those near them in turn.

    An edge beyond 10 h_ef of a point counts for nothing there. One that would run through the anchors of a point is not
    taken: its own stays, and is disputed.

    Args:
        c_a: (points, 4) edges from the point, infinite where there is none.
        x, y: (points,) in the face of the member.
        h_ef: (points,) in.
        extent: (points,) distance from the point to its farthest anchor.
        a, b: (pairs,) points near each other.
    """
    place = np.stack((x, x, y, y), axis=1) * _OUTWARD
    least, before = c_a, None
    disputed = np.zeros(len(c_a), dtype=np.bool_)
    while before is None or not np.array_equal(least, before):
        before, least = least, least.copy()
        for own, other in ((a, b), (b, a)):
            told = place[other] + before[other] - place[own]
            elsewhere = (told < before[own] - APART) & (told <= FAR_EDGE * h_ef[own, None])
            rows = np.any(elsewhere, axis=1)
            disputed[own[rows]] = disputed[other[rows]] = True
            taken = elsewhere & (told > extent[own, None] + SAME_PLACE)
            np.minimum.at(least, own, np.where(taken, told, np.inf))
    return CommonEdges(c_a=least, disputed=disputed)


def plates_within(plates: Plates, c_a: Floats) -> Plates:
    """Plates that bear, without what reaches past an edge: nothing bears there.

    Args:
        plates: (points,).
        c_a: (points, 4) edges from the origin of each layout, infinite where there is none.
    """
    room = np.where(plates.contact[:, None], c_a, np.inf)
    return replace(
        plates,
        x0=np.maximum(plates.x0, -room[:, 0]),
        x1=np.minimum(plates.x1, room[:, 1]),
        y0=np.maximum(plates.y0, -room[:, 2]),
        y1=np.minimum(plates.y1, room[:, 3]),
    )
