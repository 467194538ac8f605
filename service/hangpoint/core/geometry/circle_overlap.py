"""Area that two circles share within a rectangle. One unit of length."""

import numpy as np

from hangpoint.core.quantity import Floats

_COINCIDENT = 1e-9
"""Circles nearer than this are about one centre, and any direction is that of the line between them."""


def overlap(*, one: Floats, other: Floats, off: Floats, low: Floats, high: Floats) -> Floats:
    """Area of both circles within a rectangle around the centre of the one.

    Beyond the line on which both have the same power the one bounds what they share, before it the other.

    Args:
        one, other: (...) radii, above 0.
        off: (2, ...) from the centre of the one to that of the other, along x and y.
        low, high: (2, ...) sides of the rectangle from the centre of the one, infinite where there is none.
    """
    spacing = np.hypot(off[0], off[1])
    apart = np.maximum(spacing, _COINCIDENT)
    towards = np.where(spacing > _COINCIDENT, off / apart, np.reshape((1.0, 0.0), (2,) + (1,) * spacing.ndim))
    line = (apart**2 + one**2 - other**2) / (2 * apart)
    beyond = _beyond(one, low, high, normal=towards, least=line)
    return beyond + _beyond(other, low - off, high - off, normal=-towards, least=spacing - line)


def _beyond(radius: Floats, low: Floats, high: Floats, *, normal: Floats, least: Floats) -> Floats:
    """Area of a circle about 0 within a rectangle and on the far side of the line ``normal @ p = least``."""
    left, down = np.clip(low, -radius, radius)
    right, up = np.clip(high, -radius, radius)
    corner = np.array(((left, right, right, left), (down, down, up, up)))
    following = np.roll(corner, -1, axis=1)
    over = normal[0] * corner[0] + normal[1] * corner[1] - least
    after = np.roll(over, -1, axis=0)
    within, stays = over >= 0, after >= 0
    crosses = within != stays
    cross = corner + np.where(crosses, over, 0.0) / np.where(crosses, over - after, 1.0) * (following - corner)
    start = np.where(within, corner, cross)
    end = np.where(stays, following, np.where(within, cross, start))
    out, back = (np.where(where, cross, 0.0).sum(axis=1, keepdims=True) for where in (within & ~stays, ~within & stays))
    start, end = np.concatenate((start, out), axis=1), np.concatenate((end, back), axis=1)
    return _swept(start, end, radius).sum(axis=0)


def _swept(start: Floats, end: Floats, radius: Floats) -> Floats:
    """Area of a circle about 0 in the triangle of its centre and each line, negative where that turns clockwise."""
    way = end - start
    a, b, c = (way**2).sum(axis=0), (start * way).sum(axis=0), (start**2).sum(axis=0) - radius**2
    inner = b**2 - a * c
    meets = (inner > 0) & (a > 0)
    root, whole = np.sqrt(np.where(meets, inner, 0.0)), np.where(meets, a, 1.0)
    enter, leave = (start + np.where(meets, np.clip((sign * root - b) / whole, 0, 1), 0.0) * way for sign in (-1, 1))
    chord = enter[0] * leave[1] - enter[1] * leave[0]
    return (chord + radius**2 * (_turn(start, enter) + _turn(leave, end))) / 2


def _turn(start: Floats, end: Floats) -> Floats:
    """Angle from one place to another about 0."""
    return np.arctan2(start[0] * end[1] - start[1] * end[0], start[0] * end[0] + start[1] * end[1])
