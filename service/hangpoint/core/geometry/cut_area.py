"""Projected area of one anchor that ends at boundaries towards other anchors (reading 30). One unit of length."""

import numpy as np

from hangpoint.core.geometry import buckets
from hangpoint.core.geometry.projected_area import projected_area
from hangpoint.core.quantity import Floats, Index


def cut_area(
    *, reach: Floats, c_a: Floats, cut_row: Index, normal_x: Floats, normal_y: Floats, distance: Floats
) -> Floats:
    """Area of the projected failure surface of one anchor that remains on its own side of every boundary.

    The surface is that of `projected_area`: it reaches ``reach`` out to each of the four sides and is cut at every
    nearer edge. A boundary keeps the points p, from the anchor, with p . n <= distance. The polygon is clipped at one
    boundary of every row at a time.

    Args:
        reach: (rows,) distance.
        c_a: (rows, 4) edge distances x_minus, x_plus, y_minus, y_plus, not negative; infinite where there is no edge.
        cut_row: (cuts,) row that the boundary belongs to, in any order.
        normal_x, normal_y: (cuts,) unit vector from the anchor towards the boundary.
        distance: (cuts,) from the anchor along the vector; negative where the boundary lies behind the anchor.

    Returns:
        (rows,) area, never above that without boundaries; 0 where nothing remains.
    """
    whole = projected_area(reach=reach, c_a=c_a)
    out = np.minimum(c_a, reach[:, None])
    reaches = out[cut_row]
    corner_x: Floats = np.where(normal_x > 0, reaches[:, 1], -reaches[:, 0])
    corner_y: Floats = np.where(normal_y > 0, reaches[:, 3], -reaches[:, 2])
    cuts = np.flatnonzero(normal_x * corner_x + normal_y * corner_y > distance)
    if not len(cuts):
        return whole
    cuts = cuts[np.argsort(cut_row[cuts], kind="stable")]
    rows, start, count = np.unique(cut_row[cuts], return_index=True, return_counts=True)
    most_cut = np.argsort(-count, kind="stable")
    area = whole.copy()
    cells = 2 * (4 + int(count.max()))
    for own in np.array_split(most_cut, 1 + len(rows) * cells // buckets.BLOCK):
        x, y = out[rows[own]][:, [0, 1, 1, 0]] * _SIDE_X, out[rows[own]][:, [2, 2, 3, 3]] * _SIDE_Y
        for turn in range(int(count[own].max(initial=0))):
            going = own[: np.count_nonzero(count[own] > turn)]
            cut = cuts[start[going] + turn]
            x, y = x[: len(going)], y[: len(going)]
            x, y = _clipped(x, y, distance[cut, None] - (normal_x[cut, None] * x + normal_y[cut, None] * y))
            area[rows[going]] = _polygon_area(x, y)
    return np.clip(area, 0.0, whole)


_SIDE_X = np.array([-1.0, 1.0, 1.0, -1.0])
_SIDE_Y = np.array([-1.0, -1.0, 1.0, 1.0])


def _clipped(x: Floats, y: Floats, depth: Floats) -> tuple[Floats, Floats]:
    """Convex polygons without what lies where the depth of a boundary, given at each corner, is negative.

    All are (rows, corners), counter-clockwise; a polygon with fewer corners than another has some of them twice.
    """
    turned = _turned(x.shape[1])
    x_next, y_next, depth_next = x[:, turned], y[:, turned], depth[:, turned]
    inside = depth >= 0
    crosses = inside ^ (depth_next >= 0)
    share = np.where(crosses, depth / np.where(crosses, depth - depth_next, 1.0), 0.0)
    corners = np.empty((2, *x.shape, 2))
    corners[0, :, :, 0], corners[0, :, :, 1] = x, x + share * (x_next - x)
    corners[1, :, :, 0], corners[1, :, :, 1] = y, y + share * (y_next - y)
    stays = np.empty((*x.shape, 2), dtype=np.bool_)
    stays[:, :, 0], stays[:, :, 1] = inside, crosses
    stays = stays.reshape(len(x), -1)
    size: Index = stays.sum(axis=1)
    rank = np.arange(max(1, int(size.max())))
    place = np.argsort(~stays, axis=1, kind="stable")[:, : len(rank)]
    place = np.where(rank < size[:, None], place, place[:, :1])
    own = np.arange(len(x))[:, None]
    corner_x, corner_y = corners.reshape(2, len(x), -1)
    return corner_x[own, place], corner_y[own, place]


def _polygon_area(x: Floats, y: Floats) -> Floats:
    """(rows, corners) to (rows,)."""
    turned = _turned(x.shape[1])
    return 0.5 * (x * y[:, turned] - x[:, turned] * y).sum(axis=1)


def _turned(corners: int) -> Index:
    """The next corner of each of so many."""
    return np.arange(1, corners + 1) % corners
