"""Projected area of a breakout towards an edge, on the side face of the member. Any consistent unit of length."""

import numpy as np

from hangpoint.core.quantity import Floats, Index


def edge_area(
    *, reach: Floats, c_low: Floats, c_high: Floats, thickness: Floats, extent: Floats, anchor_count: Floats
) -> Floats:
    """Area of the projected failure surface of a row of anchors along an edge.

    The surface reaches ``reach`` along the edge from the outer anchors, cut at the edges across, and ``reach`` down,
    cut at the far face (ACI 318-19 17.7.2.1.1 with reach 1.5 c_a1); at most that of as many single anchors far from
    other edges. With the distance of the outer anchors as ``extent`` the surface is whole between them: right as long
    as no gap in the row exceeds twice the reach, as in a group by definition. With `covered_extent` it is the union of
    the pieces of any row.

    Args:
        reach: (rows,) distance.
        c_low, c_high: (rows,) from the outer anchors to the edges across, infinite where there is none.
        thickness: (rows,) of the member behind the edge.
        extent: (rows,) length covered between the outer anchors, 0 for one.
        anchor_count: (rows,) anchors of the row.

    Returns:
        (rows,) area.
    """
    width = np.minimum(reach, c_low) + extent + np.minimum(reach, c_high)
    return np.minimum(width * np.minimum(reach, thickness), anchor_count * 2 * reach**2)


def covered_extent(*, along: Floats, member_row: Index, reach: Floats) -> Floats:
    """Length between the outer anchors of a row that the failure surfaces of its anchors cover.

    A gap is covered up to twice the reach, one reach from each side; what is beyond is a hole.

    Args:
        along: (members,) coordinates of the anchors along the edge.
        member_row: (members,) in rising order, row of each anchor.
        reach: (rows,) distance.

    Returns:
        (rows,) length, 0 for one anchor.
    """
    gap = np.diff(along[np.lexsort((along, member_row))])
    row = member_row[1:]
    covered = np.where(row == member_row[:-1], np.minimum(gap, 2 * reach[row]), 0.0)
    return np.bincount(row, weights=covered, minlength=len(reach)).astype(np.float64, copy=False)
