"""Loads of one nature that are stated against each other at a point: what is left of them one way at a time."""

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.quantity import Codes, Floats, Index

WAYS = 12
"""Tension, shear along x and y, moments about x, y and z of a point: the one sign of each, then the other."""


@frozen
class Apart(Columns):
    """Direct loads of points one way at a time, a row a point and way, rising by point.

    In way 2 k the loads of every nature that has both signs in component k are those without the negative ones, in way
    2 k + 1 those without the positive ones; what is left out is left out with all its components. Dead load and
    earthquake are never left out. ``contents`` and ``live`` (rows, 6) and ``transient`` (rows, 6, natures) are the
    service loads, tension, shears and moments as in `Hangs`, that take the place of those of the point.
    """

    point: Index
    way: Codes
    contents: Floats
    live: Floats
    transient: Floats
