"""Hang points of one member: what they state of it has to agree."""

from collections.abc import Sequence

import numpy as np

from hangpoint.pack.flaws import Flaws
from hangpoint.pack.labels import one_name
from hangpoint.pack.objects import EMPTY, Object, Objects
from hangpoint.pack.pull import Rows, places
from hangpoint.units import LENGTH, STRESS, System

_SAME = 1e-9


def member_flaws(objects: Sequence[Object], *, default: Object, index: Sequence[int], system: System) -> Flaws:
    """Points that name one member but differ in its thickness or strength: all points of that member are wrong.

    Args:
        objects: items that have passed the schema.
        default, index, system: as `pack_points` takes them.
    """
    flaws = Flaws()
    bases = Objects.of(objects).child("base")
    if "member" not in default.get("base", EMPTY) and "member" not in bases.names:
        return flaws
    # Ranges are judged where the columns are made; here a value out of range is as good as any.
    unheard = Flaws()
    base = Rows(
        bases,
        default=default.get("base", EMPTY),
        path="base/",
        index=index,
        local=range(len(objects)),
        system=system,
        flaws=unheard,
    )
    numbers: dict[str | None, int] = {}
    names = map(one_name, base.values("member"))
    member = np.array([numbers.setdefault(name, len(numbers)) for name in names], dtype=np.intp)
    named = member != numbers.get(None, -1)
    stated = {
        "base/thickness": base.quantity("thickness", LENGTH),
        "base/strength/f_c": base.child("strength").quantity("f_c", STRESS),
    }
    for path, column in stated.items():
        least, most = np.full(len(numbers), np.inf), np.full(len(numbers), -np.inf)
        np.fmin.at(least, member, column)
        np.fmax.at(most, member, column)
        for at in places((most > least * (1 + _SAME))[member] & named):
            flaws.add(
                index[at],
                path,
                "Points of one member state different values of it; correct them or name another member.",
                code="contradiction",
            )
    return flaws
