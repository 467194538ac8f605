"""Projected area of a group of anchors on the face of the member: a union of squares. Any consistent unit of length."""

import numpy as np

from hangpoint.core.geometry.buckets import buckets
from hangpoint.core.quantity import Bools, Floats, Index


def union_area(
    *, x: Floats, y: Floats, member_group: Index, reach: Floats, c_a: Floats, bounding: Bools | None = None
) -> Floats:
    """Area of the projected failure surface of each group.

    The surface of an anchor reaches ``reach`` out from it to each of the four sides and is cut at the edges of the
    member; that of a group is the union of those of its anchors, so that it is never above that of as many anchors
    alone (ACI 318-19 17.6.2.1.1 with reach 1.5 h_ef, 17.6.5.1.2 with reach c_Na; reading 8). The x axis is divided
    where a square begins or ends, and in each part the intervals along y are united.

    Args:
        x, y: (members,) coordinates of the anchors.
        member_group: (members,) in rising order, every group from 0 with at least one.
        reach: (groups,) distance.
        c_a: (members, 4) from each anchor to the edges x_minus, x_plus, y_minus, y_plus; infinite where there is none.
        bounding: (groups,) take the rectangle around the squares instead, limited as said (an option, 0 by default).

    Returns:
        (groups,) area.
    """
    if not len(reach):
        return np.zeros(0)
    cut = np.minimum(c_a, reach[member_group][:, None])
    x_low, x_high, y_low, y_high = x - cut[:, 0], x + cut[:, 1], y - cut[:, 2], y + cut[:, 3]
    count = np.bincount(member_group, minlength=len(reach))
    starts = np.cumsum(count) - count
    width = np.maximum.reduceat(x_high, starts) - np.minimum.reduceat(x_low, starts)
    height = np.maximum.reduceat(y_high, starts) - np.minimum.reduceat(y_low, starts)
    area = width * height
    united = count if bounding is None else np.where(bounding, 1, count)
    for size, groups in buckets(united, cells=lambda n: 2 * n * n):
        at = starts[groups, None] + np.arange(size)
        area[groups] = _union(x_low[at], x_high[at], y_low[at], y_high[at])
    return np.minimum(area, count * 4 * reach**2)


def _union(x_low: Floats, x_high: Floats, y_low: Floats, y_high: Floats) -> Floats:
    """Area of the union of the rectangles of each row, (rows, rectangles) to (rows,)."""
    order = np.argsort(y_low, axis=1)
    x_low, x_high, y_low, y_high = (np.take_along_axis(a, order, axis=1) for a in (x_low, x_high, y_low, y_high))
    bounds = np.sort(np.concatenate((x_low, x_high), axis=1), axis=1)
    left, right = bounds[:, :-1, None], bounds[:, 1:, None]
    crosses = (x_low[:, None, :] <= left) & (x_high[:, None, :] >= right)
    tops = np.where(crosses, y_high[:, None, :], -np.inf)
    covered_to = np.full_like(tops, -np.inf)
    covered_to[:, :, 1:] = np.maximum.accumulate(tops, axis=2)[:, :, :-1]
    fresh = np.maximum(y_high[:, None, :] - np.maximum(y_low[:, None, :], covered_to), 0.0)
    length = np.where(crosses, fresh, 0.0).sum(axis=2)
    return ((bounds[:, 1:] - bounds[:, :-1]) * length).sum(axis=1)
