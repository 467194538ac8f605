"""Exact integrals of a linear compressive stress over the part of a rectangle where it is positive.

Any consistent units. Coordinates are those of the centre of the rectangle.

The part is cut along x into two strips: one that the line of zero stress crosses, and one that bears over its whole
width. In y the integrals are of third degree at most, so that two chords at Gauss' points stand for the first strip.
Nothing is subtracted from anything larger, so nothing cancels, however narrow the part is.
"""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.quantity import Floats

_LEVEL = 1e-200
"""Slope below which a plane is level: what is divided by it is far outside the rectangle."""
_GAUSS: Floats = np.array([[-1.0], [1.0]]) / np.sqrt(3.0)


@dataclass(frozen=True, kw_only=True)
class Contact:
    """The compressed parts of rectangles: three rows of pieces, the two chords and the strip of whole width.

    ``size`` (3, cases) is the area of the pieces, ``x``, ``y`` their middle, ``width`` their length along x and
    ``stress`` that at their middle. ``depth`` (cases,) is the length of the whole strip along y; chords have none.
    """

    slope_x: Floats
    slope_y: Floats
    size: Floats
    x: Floats
    y: Floats
    width: Floats
    stress: Floats
    depth: Floats

    @property
    def area(self) -> Floats:
        """Integrals of 1, x, y, x**2, x*y, y**2: (6, cases)."""
        size_x, size_y = self.size * self.x, self.size * self.y
        area = np.empty((6, len(self.depth)))
        np.add.reduce(self.size, axis=0, out=area[0])
        np.add.reduce(size_x, axis=0, out=area[1])
        np.add.reduce(size_y, axis=0, out=area[2])
        np.add.reduce(size_x * self.x + self.size * self.width * self.width / 12.0, axis=0, out=area[3])
        np.add.reduce(size_x * self.y, axis=0, out=area[4])
        np.add.reduce(size_y * self.y, axis=0, out=area[5])
        area[5] += self.size[2] * self.depth * self.depth / 12.0
        return area

    @property
    def force(self) -> Floats:
        """Integrals of the stress times 1, x, y: (3, cases)."""
        force = self.size * self.stress
        spread_x = self.slope_x * np.add.reduce(self.size * self.width * self.width, axis=0) / 12.0
        spread_y = self.slope_y * (self.size[2] * self.depth * self.depth) / 12.0
        return np.stack(
            (
                np.add.reduce(force, axis=0),
                np.add.reduce(force * self.x, axis=0) + spread_x,
                np.add.reduce(force * self.y, axis=0) + spread_y,
            )
        )


def contact(*, half_x: Floats, half_y: Floats, plane: Floats) -> Contact:
    """The part of the rectangle where the stress plane[0] + plane[1] x + plane[2] y is positive.

    Args:
        half_x, half_y: (cases,) half sides.
        plane: (3, cases).
    """
    level, slope_x, slope_y = plane
    steep_x = np.maximum(np.abs(slope_x), _LEVEL)
    steep_y = np.copysign(np.maximum(np.abs(slope_y), _LEVEL), slope_y)
    rise = np.abs(slope_x) * half_x
    rim = level + rise
    begin = np.minimum(np.maximum(-rim / steep_y, -half_y), half_y)
    whole = np.minimum(np.maximum((rise - level) / steep_y, -half_y), half_y)
    end = np.copysign(half_y, slope_y)
    reach = (whole - begin) / 2.0
    depth = np.abs(end - whole)

    y = np.empty((3, len(level)))
    np.add((begin + whole) / 2.0, _GAUSS * reach, out=y[:2])
    np.divide(whole + end, 2.0, out=y[2])
    stress_at_rim = rim + slope_y * y
    width = np.minimum(np.maximum(stress_at_rim / steep_x, 0.0), 2.0 * half_x)
    half_width = width / 2.0
    size = np.empty_like(y)
    np.multiply(width[:2], np.abs(reach), out=size[:2])
    np.multiply(width[2], depth, out=size[2])
    return Contact(
        slope_x=slope_x,
        slope_y=slope_y,
        size=size,
        x=np.copysign(half_x - half_width, slope_x),
        y=y,
        width=width,
        stress=stress_at_rim - steep_x * half_width,
        depth=depth,
    )
