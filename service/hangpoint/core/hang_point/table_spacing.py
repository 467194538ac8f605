"""The nearest anchors of those that go by tables, towards each side: of their own point and of its neighbours. in."""

import numpy as np

from hangpoint.core.geometry.grouping import near_pairs
from hangpoint.core.geometry.sides import by_sides, nearer_way
from hangpoint.core.hang_point.allowables import TABLE
from hangpoint.core.hang_point.points import Points
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.quantity import Floats
from hangpoint.core.rows import some


def nearest_sides(points: Points, shared: Sharing | None) -> Floats:
    """(anchors of layouts, 4) distance of the nearest anchor towards -x, +x, -y, +y; infinite without any.

    An anchor that lies off an axis is towards the side that it is farther off along; see `sides` for diagonals.
    """
    layouts = points.layouts
    if not some(points.method == TABLE):
        return np.full((len(layouts.x), 4), np.inf)
    one, other = near_pairs(
        x=layouts.x,
        y=layouts.y,
        case_of_anchor=layouts.point,
        limit=np.full(len(layouts.x), np.inf),
        counts=points.method[layouts.point] == TABLE,
    )
    dx, dy = layouts.x[other] - layouts.x[one], layouts.y[other] - layouts.y[one]
    own = by_sides(one=one, other=other, dx=dx, dy=dy, count=len(layouts.x))
    return nearer_way(own if shared is None else np.minimum(own, shared.sides))
