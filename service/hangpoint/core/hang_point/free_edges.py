"""Where what anchors hold in ends: edges of the member and, in partly grouted masonry, open cells. Units: in.

An open cell counts as an edge (common practice, no source). TMS 402 6.2 takes off the part of a projected area that
overlaps an open cell or an open head joint (from memory), which is less.
"""

import numpy as np

from hangpoint.core.hang_point.allowables import CHAPTER_17
from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Floats


def free_edges(points: Points) -> Floats:
    """(points, 4) distances from the origin of the layout towards -x, +x, -y, +y, infinite where nothing is near."""
    c_a, own = points.bases.c_a, points.allowables
    if own is None:
        return c_a
    return np.where(own.method[:, None] == CHAPTER_17, c_a, np.minimum(c_a, own.open_cells))


def free_edges_of_anchors(points: Points) -> Floats:
    """(anchors of layouts, 4) likewise from each anchor."""
    layouts = points.layouts
    return free_edges(points)[layouts.point] + np.stack((layouts.x, -layouts.x, layouts.y, -layouts.y), axis=1)
