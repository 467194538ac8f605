"""Hang points of one member: what they state of it has to agree."""

import math
from collections.abc import Sequence

import numpy as np

from hangpoint.pack.flaws import Flaws
from hangpoint.pack.labels import one_name
from hangpoint.pack.objects import EMPTY, Object, Objects
from hangpoint.pack.pull import Rows, places
from hangpoint.units import LENGTH, PRINTED, STRESS, QuantityKind, System, bare_factor

_SAME = 1e-9
MOST_VALUES = 4
"""Values of a member that are named."""


def member_flaws(
    objects: Sequence[Object],
    *,
    default: Object,
    index: Sequence[int],
    system: System,
    counts: Sequence[int] | None = None,
) -> Flaws:
    """Points that name one member but differ in its thickness or strength: all points of that member are wrong.

    Args:
        objects: items that have passed the schema.
        default, index, system: as `pack_points` takes them.
        counts: points that each of the objects stands for; one otherwise.
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
        "base/thickness": ("thicknesses", LENGTH, base.quantity("thickness", LENGTH)),
        "base/strength/f_c": ("strengths", STRESS, base.child("strength").quantity("f_c", STRESS)),
    }
    for path, (what, kind, column) in stated.items():
        least, most = np.full(len(numbers), np.inf), np.full(len(numbers), -np.inf)
        np.fmin.at(least, member, column)
        np.fmax.at(most, member, column)
        wrong = (most > least * (1 + _SAME))[member] & named
        for number in np.unique(member[wrong]):
            own = places(wrong & (member == number))
            values = _Values(kind, system)
            for at in own:
                values.note(float(column[at]), objects[at].get("id"), 1 if counts is None else counts[at])
            detail = (
                f"Points of one member state different {what} of it: {values}. Correct them or name another member."
            )
            for at in own:
                flaws.add(index[at], path, detail, code="contradiction")
    return flaws


class _Values:
    """Values that points state, in the units of the request, with the first point and how many more state each."""

    def __init__(self, kind: QuantityKind, system: System) -> None:
        self._unit = PRINTED[system][kind.name]
        self._factor = bare_factor(kind, system)
        self._points: dict[str, tuple[object, int]] = {}

    def note(self, value: float, point: object, count: int) -> None:
        """A point that states a value, or as many as the count says; nothing where it states none."""
        if math.isnan(value):
            return
        text = f"{value / self._factor:.6g} {self._unit}"
        first, before = self._points.get(text, (point, 0))
        self._points[text] = (first, before + count)

    def __str__(self) -> str:
        shown = [
            f"{text} at {point}" + (f" and {count - 1} more" if count > 1 else "")
            for text, (point, count) in list(self._points.items())[:MOST_VALUES]
        ]
        others = len(self._points) - len(shown)
        return ", ".join([*shown, f"{others} other values"] if others else shown)
