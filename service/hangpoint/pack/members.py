"""Hang points of one member: what they state of it has to agree."""

from collections.abc import Sequence
from itertools import repeat
from operator import contains

import numpy as np

from hangpoint.pack.flaws import Flaws
from hangpoint.pack.pull import EMPTY, Object, Rows
from hangpoint.units import LENGTH, STRESS, System

_SAME = 1e-9


def member_flaws(objects: Sequence[Object], *, default: Object, index: Sequence[int], system: System) -> Flaws:
    """Points that name one member but differ in its thickness or strength: all points of that member are wrong.

    Args:
        objects: items that have passed the schema.
        default, index, system: as `pack_points` takes them.
    """
    flaws = Flaws()
    bases = (own.get("base", EMPTY) for own in objects)
    if "member" not in default.get("base", EMPTY) and not any(map(contains, bases, repeat("member"))):
        return flaws
    # Ranges are judged where the columns are made; here a value out of range is as good as any.
    unheard = Flaws()
    items = Rows(
        objects, default=default, path="", index=index, local=range(len(objects)), system=system, flaws=unheard
    )
    base = items.child("base")
    by_member: dict[str, list[int]] = {}
    for at, member in enumerate(base.values("member")):
        if member is not None:
            by_member.setdefault(member, []).append(at)
    stated = {
        "base/thickness": base.quantity("thickness", LENGTH),
        "base/strength/f_c": base.child("strength").quantity("f_c", STRESS),
    }
    for places in by_member.values():
        for path, column in stated.items():
            own = column[places]
            own = own[~np.isnan(own)]
            if len(own) and own.max() > own.min() * (1 + _SAME):
                for at in places:
                    flaws.add(
                        index[at],
                        path,
                        "Points of one member state different values of it; correct them or name another member.",
                        code="contradiction",
                    )
    return flaws
