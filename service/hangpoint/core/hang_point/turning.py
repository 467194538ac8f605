"""How many senses earthquake may have at near points, one beside another, and in which they are checked."""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index

MOST_TURNED = 8
"""Points that share concrete whose earthquake is turned each by itself."""

MOST_SENSES = 2 ** (MOST_TURNED - 1)
"""Relative senses of so many points, the first included."""


def turning_of_group(turns: Bools, group: Index) -> Index:
    """How many points of the group of each have an earthquake that turns, (points,).

    Args:
        turns: (points,) of `cases.turning`.
        group: (points,) one number for points that share concrete.
    """
    return np.bincount(group[turns], minlength=len(group))[group]


def senses(movers: Index) -> Index:
    """Relative senses in which so many points are checked, the first included, (points,)."""
    return np.left_shift(1, np.clip(movers, 1, MOST_TURNED) - 1)


@frozen
class Otherwise:
    """How near points are loaded otherwise than all of them the worst way at one time.

    ``turned`` (points,) is -1 where earthquake acts the other way than so, 1 elsewhere; None where it is nowhere.
    ``as_they_are``: contents also relieve lone anchors, because they are taken out elsewhere.
    """

    turned: Floats | None = None
    as_they_are: bool = False


AS_STATED = Otherwise()
