"""Places in a side face of a member: of a wall, of the side of a beam. One unit of length.

The axes of such a face are x to the right and y up as one looks at it, with z out of it, towards the one who looks.
"""

import numpy as np

from hangpoint.core.quantity import Floats, Index

ONE_WAY = 2
"""Decimals of the degrees in which two faces that look one way agree."""


def in_face(*, facing: Floats, x: Floats, y: Floats, z: Floats) -> tuple[Floats, Floats, Floats]:
    """Coordinates of the job, z of them up, as those of a side face: x to the right, y up, z out of it.

    Args:
        facing: (points,) direction on plan that the face looks to, degrees from x of the job towards its y.
        x, y, z: (points,) coordinates of the job, or differences of them.
    """
    angle = np.radians(facing)
    cos, sin = np.cos(angle), np.sin(angle)
    return y * cos - x * sin, z, x * cos + y * sin


def on_plan(*, facing: float, right: float) -> tuple[float, float]:
    """What a move to the right in a side face is along x and y of the job."""
    angle = np.radians(facing)
    return -right * float(np.sin(angle)), right * float(np.cos(angle))


def one_way(facing: Floats) -> Floats:
    """(points,) directions from 0 to below 360, rounded so that those of one face are equal."""
    return np.mod(np.mod(facing, 360.0).round(ONE_WAY), 360.0)


def planes(*, way: Floats, out: Floats, apart: float) -> Index:
    """(points,) codes, from 0, of the planes that points are in; -1 where the direction is nan.

    Points that look one way are in one plane where steps of at most ``apart`` out of the face connect them.

    Args:
        way: (points,) directions as `one_way` has them.
        out: (points,) distance out of the face.
        apart: by how much the places of one plane may differ.
    """
    code = np.full(len(way), -1, dtype=np.intp)
    order = np.lexsort((out, way))[: np.count_nonzero(np.isfinite(way))]
    new = (np.diff(way[order]) != 0) | (np.diff(out[order]) > apart)
    code[order[:1]] = 0
    code[order[1:]] = np.cumsum(new)
    return code
