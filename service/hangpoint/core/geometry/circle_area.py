"""Projected circles of anchors in masonry, cut at edges and at the middle between neighbours. One unit of length."""

import numpy as np

from hangpoint.core.quantity import Floats, Index


def segment(*, radius: Floats, distance: Floats) -> Floats:
    """Area of a circle beyond a line at a distance from its centre, 0 where the line doesn't reach it.

    Args:
        radius: above 0.
        distance: not negative, infinite where there is no line; of the shape of ``radius``.
    """
    h = np.minimum(np.maximum(distance, 0.0), radius)
    return radius**2 * np.arccos(h / radius) - h * np.sqrt(np.maximum(radius**2 - h**2, 0.0))


def cut_circle(*, radius: Floats, c_a: Floats, one: Index, spacing: Floats) -> Floats:
    """Area of each circle less what lies beyond each edge and nearer to a neighbour; never below 0.

    Parts beyond two lines at once are taken off twice, which is on the safe side.

    Args:
        radius: (anchors,) above 0.
        c_a: (anchors, lines) distances of the centre to straight edges, infinite where there is none.
        one: (pairs,) an anchor with a neighbour, each pair from both sides.
        spacing: (pairs,) of the two.
    """
    own = np.pi * radius**2 - segment(radius=np.broadcast_to(radius[:, None], c_a.shape), distance=c_a).sum(axis=1)
    shared = segment(radius=radius[one], distance=spacing / 2)
    return np.maximum(own - np.bincount(one, weights=shared, minlength=len(radius)), 0.0)
