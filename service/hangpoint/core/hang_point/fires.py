"""Fires that points are to withstand, as columns, and those of the points in the same concrete.

A point in the same concrete as one that is to withstand a fire is checked beside it as in that fire, the longest of
them (reading of this project): what both load holds no more than in it.
"""

from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.hang_point.surroundings import SILENT
from hangpoint.core.quantity import Bools, Codes, Floats, Index

ONE_SIDE, SEVERAL_SIDES = 0, 1
"""Sides of the member that are exposed."""


@frozen
class Fires(Columns):
    """Fires of points that go by EN 1992-4: ``minutes`` is the class R, 0 where no fire rating is asked for.

    Longer than the longest class it is the rating itself. ``hours`` is the rating as asked for, ``sides`` the exposed
    ones, `SILENT` where the request doesn't say.
    """

    minutes: Floats
    hours: Floats
    sides: Codes


def no_fires(count: int) -> Fires:
    """Those of so many points that are to withstand none."""
    return Fires(minutes=np.zeros(count), hours=np.zeros(count), sides=np.full(count, SILENT, dtype=np.int8))


def burning(fires: Fires | None, group: Index | None) -> Bools | None:
    """(points,) that are to withstand a fire, themselves or one of their ``group`` (points,); None without fires."""
    if fires is None:
        return None
    return longest(fires, group) > 0


def longest(fires: Fires, group: Index | None) -> Floats:
    """(points,) minutes of each point, or the most of its ``group`` (points,)."""
    if group is None:
        return fires.minutes
    most = np.zeros(len(group))
    np.maximum.at(most, group, fires.minutes)
    return most[group]


def with_fires_beside(fires: Fires | None, group: Index | None) -> Fires | None:
    """The fires, each as long as the longest of its ``group`` (points,)."""
    return None if fires is None else replace(fires, minutes=longest(fires, group))
