"""Exact integrals of a linear compressive stress over the part of a rectangle where it is positive.

Any consistent units. Coordinates are those of the centre of the rectangle.
"""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.quantity import Bools, Floats

_ROUND_X: Floats = np.array([[-1.0], [1.0], [1.0], [-1.0], [-1.0]])
_ROUND_Y: Floats = np.array([[-1.0], [-1.0], [1.0], [1.0], [-1.0]])
"""The corners of the rectangle, from the first round to the first."""


@dataclass(frozen=True, kw_only=True)
class Contact:
    """What lies under the compressed part, each about the centre of the rectangle.

    ``area`` (6, cases): integrals of 1, x, y, x**2, x*y, y**2. ``force`` (3, cases): those of the stress times 1, x, y.
    """

    area: Floats
    force: Floats


def _moved(about: Floats, x: Floats, y: Floats) -> Floats:
    """Area integrals (6, cases) about a point (x, y) as integrals about the origin."""
    a, a_x, a_y, a_xx, a_xy, a_yy = about
    return np.stack(
        (
            a,
            a_x + x * a,
            a_y + y * a,
            a_xx + x * (2.0 * a_x + x * a),
            a_xy + x * a_y + y * a_x + x * y * a,
            a_yy + y * (2.0 * a_y + y * a),
        )
    )


def contact(*, half_x: Floats, half_y: Floats, plane: Floats) -> Contact:
    """Integrals over the part of the rectangle where the stress plane[0] + plane[1] x + plane[2] y is positive.

    The part is cut into the triangles between its edges on the rectangle and a pole: the middle of the line of zero
    stress within the rectangle, or the centre where that line misses it. From there no triangle is negative, so
    nothing cancels, however narrow the part is. Source: integrals of monomials over a triangle (any handbook).

    Args:
        half_x, half_y: (cases,) half sides.
        plane: (3, cases).
    """
    round_x, round_y = _ROUND_X * half_x, _ROUND_Y * half_y
    stress: Floats = plane[0] + plane[1] * round_x + plane[2] * round_y
    above: Bools = stress > 0.0
    inside, inside_next = above[:-1], above[1:]
    x, y, x_next, y_next = round_x[:-1], round_y[:-1], round_x[1:], round_y[1:]
    crossed = inside != inside_next
    share: Floats = np.where(crossed, stress[:-1] / np.where(crossed, stress[:-1] - stress[1:], 1.0), 0.0)
    crossing_x, crossing_y = x + share * (x_next - x), y + share * (y_next - y)
    crossings = np.sum(crossed, axis=0)
    divisor = np.maximum(crossings, 1)
    pole_x: Floats = np.sum(np.where(crossed, crossing_x, 0.0), axis=0) / divisor
    pole_y: Floats = np.sum(np.where(crossed, crossing_y, 0.0), axis=0) / divisor

    edge_x, edge_y = np.where(crossed, crossing_x, pole_x) - pole_x, np.where(crossed, crossing_y, pole_y) - pole_y
    p_x, p_y = np.where(inside, x - pole_x, edge_x), np.where(inside, y - pole_y, edge_y)
    q_x, q_y = np.where(inside_next, x_next - pole_x, edge_x), np.where(inside_next, y_next - pole_y, edge_y)
    double = p_x * q_y - p_y * q_x
    r_x, r_y = p_x + q_x, p_y + q_y
    about = np.stack(
        (
            np.sum(double, axis=0) / 2.0,
            np.sum(double * r_x, axis=0) / 6.0,
            np.sum(double * r_y, axis=0) / 6.0,
            np.sum(double * (r_x * r_x - p_x * q_x), axis=0) / 12.0,
            np.sum(double * (r_x * r_y + p_x * p_y + q_x * q_y), axis=0) / 24.0,
            np.sum(double * (r_y * r_y - p_y * q_y), axis=0) / 12.0,
        )
    )
    a, a_x, a_y, a_xx, a_xy, a_yy = about
    at_pole = np.where(crossings > 0, 0.0, plane[0])
    force = at_pole * a + plane[1] * a_x + plane[2] * a_y
    force_x = at_pole * a_x + plane[1] * a_xx + plane[2] * a_xy + pole_x * force
    force_y = at_pole * a_y + plane[1] * a_xy + plane[2] * a_yy + pole_y * force
    return Contact(area=_moved(about, pole_x, pole_y), force=np.stack((force, force_x, force_y)))
