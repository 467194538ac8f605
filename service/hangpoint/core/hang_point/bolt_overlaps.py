"""Bolts in masonry whose projected areas overlap those of bolts and other anchors of other points: told, because what
they share isn't taken off.

Units: in.
"""

import numpy as np

from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.allowable.masonry_bolt import effective_embedment
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.free_edges import free_edges_of_anchors
from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Floats, Index


@frozen
class Overlaps:
    """Bolts of points whose areas overlap those of bolts and anchors of other points, (points,) each.

    ``count`` is the largest number of bolts, of other points and of its own, that may overlap one of a point, 0 where
    none of another does. ``spacing`` is the least distance of two bolts that overlap, infinite without any, and
    ``reach`` the spacing from which none would.
    """

    count: Index
    spacing: Floats
    reach: Floats


@frozen
class BoltOverlaps:
    """``circles`` are the areas of tension, ``halves`` those at edges if the bolts were sheared towards them."""

    circles: Overlaps
    halves: Overlaps


def bolt_overlaps(points: Points, *, one: Index, other: Index, dx: Floats, dy: Floats) -> BoltOverlaps:
    """What overlaps of pairs of bolts of different points.

    Args:
        points: the batch.
        one, other: (pairs,) anchors in masonry, one of them a bolt at least, not of one point.
        dx, dy: (pairs,) from the one to the other.
    """
    layouts, product = points.layouts, points.products
    l_b = effective_embedment(h_ef=product.h_ef, d_b=product.d_a, bent=product.pullout_method == HOOKED)
    radii = l_b[layouts.point[one]] + l_b[layouts.point[other]]
    c_a = free_edges_of_anchors(points)
    along = np.abs(np.stack((dy, dy, dx, dx), axis=1))
    stated = np.isfinite(c_a[one]) & np.isfinite(c_a[other])
    return BoltOverlaps(
        circles=_overlaps(points, one, other, along=np.hypot(dx, dy)[:, None], reach=radii[:, None]),
        halves=_overlaps(points, one, other, along=along, reach=np.where(stated, c_a[one] + c_a[other], 0.0)),
    )


def _overlaps(points: Points, one: Index, other: Index, *, along: Floats, reach: Floats) -> Overlaps:
    """Overlaps of areas, one or several an anchor: ``along`` and ``reach`` are (pairs, areas)."""
    layouts, count = points.layouts, points.count
    meet = along < reach
    others = np.zeros((len(layouts.point), along.shape[1]), dtype=np.intp)
    most, spacing, widest = np.zeros(count, dtype=np.intp), np.full(count, np.inf), np.zeros(count)
    for anchor in (one, other):
        point = layouts.point[anchor]
        np.add.at(others, anchor, meet)
        np.minimum.at(spacing, point, np.where(meet, along, np.inf).min(axis=1, initial=np.inf))
        np.maximum.at(widest, point, np.where(meet, reach, 0.0).max(axis=1, initial=0.0))
    np.maximum.at(most, layouts.point, others.max(axis=1))
    own = np.bincount(layouts.point, minlength=count) - 1
    return Overlaps(count=np.where(most > 0, most + own, 0), spacing=spacing, reach=widest)
