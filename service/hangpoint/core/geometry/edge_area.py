"""Projected area of a breakout towards an edge, on the side face of the member. Any consistent unit of length."""

import numpy as np

from hangpoint.core.quantity import Floats


def edge_area(
    *, reach: Floats, c_low: Floats, c_high: Floats, thickness: Floats, extent: Floats, anchor_count: Floats
) -> Floats:
    """Area of the projected failure surface of a row of anchors along an edge.

    The surface reaches ``reach`` along the edge from the outer anchors, cut at the edges across, and ``reach`` down,
    cut at the far face (ACI 318-19 17.7.2.1.1 with reach 1.5 c_a1); at most that of as many single anchors far from
    other edges. With the distance of the outer anchors as ``extent`` the surface is whole between them: right as long
    as no gap in the row exceeds twice the reach, as in a group by definition. With the length that the surfaces of the
    anchors cover it is the union of the pieces of any row.

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
