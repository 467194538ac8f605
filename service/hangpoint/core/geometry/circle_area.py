"""Projected circles of bolts in masonry, cut at its edges and shared with neighbours. One unit of length."""

import numpy as np

from hangpoint.core.geometry.circle_overlap import overlap
from hangpoint.core.quantity import Floats, Index


def quarter(*, radius: Floats, width: Floats, height: Floats) -> Floats:
    """Area of a quarter of a circle within a rectangle from its centre, 0 where that is empty.

    Args:
        radius: above 0.
        width: of the rectangle, not negative, infinite where nothing cuts; of the shape of ``radius``.
        height: likewise.
    """
    a, b = (np.clip(side, 0.0, radius) for side in (width, height))
    beyond_a, beyond_b = (np.sqrt(np.maximum(radius**2 - side**2, 0.0)) for side in (a, b))
    turn = np.arcsin(a / radius) + np.arcsin(b / radius) - np.pi / 2
    cut = (a * beyond_a + b * beyond_b + radius**2 * turn) / 2
    return np.where(a**2 + b**2 <= radius**2, a * b, cut)


def divided(*, own: Floats, one: Index, shared: Floats) -> Floats:
    """What each has of its area where it shares parts of it with others.

    Half of every shared part is the other's. Where that takes more than an equal share with all of them would leave,
    such a share: neither is more than an equal part of every place, and together they are no more than the union.

    Args:
        own: (..., areas) of each by itself.
        one: (pairs,) an area of a pair, each pair from both sides.
        shared: (..., pairs) of the two, at most either.
    """
    taken, others = np.zeros_like(own), np.zeros_like(own)
    for row in np.ndindex(own.shape[:-1]):
        taken[row] = np.bincount(one, weights=shared[row], minlength=own.shape[-1])
        others[row] = np.bincount(one, weights=shared[row] > 0, minlength=own.shape[-1])
    return np.maximum(own - taken / 2, own / (1 + others))


def cut_circle(*, radius: Floats, c_a: Floats, one: Index, other: Index, off_x: Floats, off_y: Floats) -> Floats:
    """Area of each circle within straight edges around it, less what its neighbours have of it.

    Args:
        radius: (anchors,) above 0.
        c_a: (anchors, 4) distances of the centre to the edges at -x, +x, -y, +y, infinite where there is none.
        one: (pairs,) an anchor with a neighbour, each pair from both sides.
        other: (pairs,) the neighbour.
        off_x: (pairs,) from the anchor to its neighbour along x.
        off_y: (pairs,) likewise along y.
    """
    own = np.sum([quarter(radius=radius, width=c_a[:, x], height=c_a[:, y]) for x in (0, 1) for y in (2, 3)], axis=0)
    low, high = -c_a[one][:, [0, 2]].T, c_a[one][:, [1, 3]].T
    common = overlap(one=radius[one], other=radius[other], off=np.stack((off_x, off_y)), low=low, high=high)
    return divided(own=own, one=one, shared=common)


def cut_half_circle(*, c_a: Floats, depth: Floats, one: Index, other: Index, off_x: Floats, off_y: Floats) -> Floats:
    """Area of the half circle of each anchor in the face of each edge, (anchors, 4), 0 where there is no edge.

    Its radius is the distance to the edge. The sides of that edge and the far face of the member cut it, and the half
    circles of neighbours in the same face share it.

    Args:
        c_a: (anchors, 4) distances to the edges at -x, +x, -y, +y, above 0 and infinite where there is none.
        depth: (anchors,) thickness of the member.
        one: (pairs,) an anchor with a neighbour, each pair from both sides.
        other: (pairs,) the neighbour.
        off_x: (pairs,) from the anchor to its neighbour along x.
        off_y: (pairs,) likewise along y.
    """
    near = np.isfinite(c_a)
    radius = np.where(near, c_a, 1.0)
    lower, upper = c_a[:, [2, 2, 0, 0]], c_a[:, [3, 3, 1, 1]]
    far = np.broadcast_to(depth[:, None], radius.shape)
    own = sum((quarter(radius=radius, width=sides, height=far) for sides in (lower, upper)), np.zeros_like(radius))
    along = np.stack((off_y, off_y, off_x, off_x), axis=1)
    common = overlap(
        one=radius[one],
        other=radius[other],
        off=np.stack((along, np.zeros_like(along))),
        low=np.stack((-lower[one], np.zeros_like(along))),
        high=np.stack((upper[one], far[one])),
    )
    return np.where(near, divided(own=own.T, one=one, shared=common.T).T, 0.0)
