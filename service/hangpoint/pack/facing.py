"""Which way side faces look."""

import numpy as np

from hangpoint.core.geometry.side_face import one_way
from hangpoint.core.hang_point.points import SIDE
from hangpoint.core.quantity import Codes, Floats
from hangpoint.pack.pull import Rows, filled, places


def pack_facing(items: Rows, face: Codes) -> Floats:
    """(items,) the direction on plan that each side face looks to, degrees from 0 to below 360, nan where not known.

    Flaws: an item whose face isn't a side face states one. What the defaults hold isn't held against such an item.
    """
    base = items.child("base")
    if not base.gives("facing"):
        return filled(len(items), np.nan)
    facing, side = base.numbers("facing", np.nan), face == SIDE
    for at in places(np.isfinite(facing) & ~side):
        if "facing" in base.objects[at]:
            base.flaw(
                at,
                "facing",
                "Only a side face looks to a side: state `face` as `side`, or leave this out.",
                code="contradiction",
            )
    return one_way(np.where(side, facing, np.nan))
