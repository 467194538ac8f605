"""Projected areas of failure surfaces on the face of the member. Any consistent unit of length."""

import numpy as np

from hangpoint.core.quantity import Bools, Floats


def projected_area(*, reach: Floats, c_a: Floats) -> Floats:
    """Area of the projected failure surface of one anchor.

    The surface reaches ``reach`` out from the anchor to each of the four sides and is cut at every nearer edge
    (ACI 318-19 17.6.2.1.1 with reach 1.5 h_ef).

    Args:
        reach: (rows,) distance.
        c_a: (rows, 4) edge distances x_minus, x_plus, y_minus, y_plus; infinite where there is no edge.

    Returns:
        (rows,) area.
    """
    cut = np.minimum(c_a, reach[:, None])
    return (cut[:, 0] + cut[:, 1]) * (cut[:, 2] + cut[:, 3])


_EACH_ONCE = np.ones(4)


def count_of_edges(holds: Bools) -> Floats:
    """In how many of the four columns of each row it holds, (rows, 4) to (rows,)."""
    return holds @ _EACH_ONCE


def least_of_edges(c_a: Floats) -> Floats:
    """The least of the four columns of each row, (rows, 4) to (rows,); faster than a reduction over so few."""
    return np.minimum(np.minimum(c_a[:, 0], c_a[:, 1]), np.minimum(c_a[:, 2], c_a[:, 3]))


def largest_of_edges(c_a: Floats) -> Floats:
    """The largest of the four columns of each row, (rows, 4) to (rows,)."""
    return np.maximum(np.maximum(c_a[:, 0], c_a[:, 1]), np.maximum(c_a[:, 2], c_a[:, 3]))
