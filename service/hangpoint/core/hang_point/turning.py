"""How many senses earthquake may have at near points, one beside another."""

import numpy as np

from hangpoint.core.quantity import Bools, Index

MOST_TURNED = 8
"""Points that share concrete whose earthquake is turned each by itself."""


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
