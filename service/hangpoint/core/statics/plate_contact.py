"""Exact integrals of a linear compressive stress over the part of a rectangle where it is positive.

Any consistent units. Coordinates are those of the centre of the rectangle.

The part is cut along x into two strips: one that the line of zero stress crosses, and one that bears over its whole
width. In y all integrals are of third degree at most, so that two chords at Gauss' points stand for the first strip.
No piece is negative, so nothing cancels, however narrow the part is.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Floats

_LEVEL = 1e-200
"""Slope below which a plane is level: what is divided by it is far outside the rectangle."""
_NEAR, _FAR = (1.0 + 1.0 / np.sqrt(3.0)) / 2.0, (1.0 - 1.0 / np.sqrt(3.0)) / 2.0
_MIDDLE: Floats = np.array([[_NEAR, _FAR, 0.0], [_FAR, _NEAR, 0.0], [0.0, 0.5, 0.5]])
_DEPTH: Floats = np.array([[-0.5, 0.5, 0.0], [-0.5, 0.5, 0.0], [0.0, -1.0, 1.0]])
"""Places along y of the three pieces, two chords and the whole strip, and what they count for, from the three cuts."""


@frozen
class Contact:
    """What lies under the compressed part, each about the centre of the rectangle.

    ``area`` (6, cases): integrals of 1, x, y, x**2, x*y, y**2. ``force`` (3, cases): those of the stress times 1, x, y.
    """

    area: Floats
    force: Floats


def contact(*, half_x: Floats, half_y: Floats, plane: Floats) -> Contact:
    """Integrals over the part of the rectangle where the stress plane[0] + plane[1] x + plane[2] y is positive.

    Args:
        half_x, half_y: (cases,) half sides.
        plane: (3, cases).
    """
    level, slope_x, slope_y = plane
    steep_x = np.abs(slope_x)
    fall_y = np.copysign(np.maximum(np.abs(slope_y), _LEVEL), -slope_y)
    rise = steep_x * half_x
    rim = level + rise
    cuts = np.empty_like(plane)
    np.divide(rim, fall_y, out=cuts[0])
    np.divide(level - rise, fall_y, out=cuts[1])
    np.copysign(half_y, slope_y, out=cuts[2])
    np.minimum(np.maximum(cuts, -half_y, out=cuts), half_y, out=cuts)

    y, depth = _MIDDLE @ cuts, np.abs(_DEPTH @ cuts)
    stress_at_rim = rim + slope_y * y
    half_width = np.minimum(np.maximum(stress_at_rim / np.maximum(2.0 * steep_x, _LEVEL), 0.0), half_x)
    x = np.copysign(half_x - half_width, slope_x)
    stress = stress_at_rim - steep_x * half_width

    sums = np.empty((3, *y.shape))
    size = np.multiply(2.0 * half_width, depth, out=sums[0])
    np.multiply(size, x, out=sums[1])
    np.multiply(size, y, out=sums[2])
    spread_x = np.einsum("in,in,in->n", size, half_width, half_width) / 3.0
    spread_y = size[2] * depth[2] * depth[2] / 12.0
    area = np.empty((6, len(level)))
    np.add.reduce(sums, axis=1, out=area[:3])
    np.einsum("in,in->n", sums[1], x, out=area[3])
    np.einsum("kin,in->kn", sums[1:], y, out=area[4:])
    area[3] += spread_x
    area[5] += spread_y
    force = np.einsum("kin,in->kn", sums, stress)
    force[1] += slope_x * spread_x
    force[2] += slope_y * spread_y
    return Contact(area=area, force=force)
