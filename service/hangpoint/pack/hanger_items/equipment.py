"""Equipment on rods: weight, of which contents may be absent, centre of gravity, places of the rods."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hanger.carried import BODY_MODELS
from hangpoint.core.hanger.items import Equipment, EquipmentRods
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.geometry import SAME_PLACE
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.pull import Rows, owners
from hangpoint.units import OFFSET, WEIGHT

_BODY_MODEL_CODES = {name: code for code, name in enumerate(BODY_MODELS)}
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedEquipment:
    """Bodies and their rods."""

    equipment: Equipment
    rods: EquipmentRods


def pack_equipment(bodies: Rows, notes: Notes) -> PackedEquipment:
    """Read items of kind equipment; the weight is all of it, contents too.

    Flaws: no weight, contents above the weight, two rods at one place, a quantity out of range.
    """
    item = np.asarray(bodies.local, dtype=np.intp)
    weight = bodies.quantity("weight", WEIGHT, fill=1.0)
    contents = bodies.quantity("contents", WEIGHT, fill=0.0)
    flaw_where(bodies, weight <= 0, "weight", "The weight is more than 0.", slug="quantity")
    detail = "The contents are a part of the weight and can't exceed it."
    flaw_where(bodies, contents > weight * (1 + _ROUNDING), "contents", detail, code="contradiction")
    for name in ("weight", "contents"):
        notes.masses(bodies.values(name), WEIGHT, bodies, item)
    notes.assume(LoadAssumption.LARGER_BODY, bodies.silent("model"), item)
    notes.assume(LoadAssumption.CONTENTS_AS_DEAD, contents > 0, item)
    notes.assume(LoadAssumption.SAME_CENTRE, contents > 0, item)
    notes.leave_unchecked(LoadNotChecked.LOSS_OF_HANGER, np.ones(len(item), dtype=np.bool_), item)
    lists: Sequence[Sequence[Any]] = bodies.values("rods_at")
    body = owners(lists)
    x, y = (bodies.listed("rods_at", lists, OFFSET, name) for name in ("x", "y"))
    _apart(bodies, body, x, y)
    gravity = bodies.child("centre_of_gravity")
    return PackedEquipment(
        equipment=Equipment(
            item=item,
            dead=np.maximum(weight - contents, 0.0),
            contents=contents,
            x_g=gravity.quantity("x", OFFSET, fill=0.0),
            y_g=gravity.quantity("y", OFFSET, fill=0.0),
            model=bodies.codes("model", _BODY_MODEL_CODES, absent=0),
        ),
        rods=EquipmentRods(body=body, x=x, y=y),
    )


def _apart(bodies: Rows, body: Index, x: Floats, y: Floats) -> None:
    """Note rods that stand where an earlier one of their body stands."""
    first = np.searchsorted(body, np.arange(len(bodies)))
    most = int(np.bincount(body, minlength=1).max())
    told: set[int] = set()
    for step in range(1, most):
        near = np.hypot(x[step:] - x[:-step], y[step:] - y[:-step]) <= SAME_PLACE
        for earlier in np.flatnonzero(near & (body[step:] == body[:-step])).tolist():
            later = earlier + step
            if later in told:
                continue
            told.add(later)
            at = int(body[later])
            detail = f"Rods {earlier - first[at]} and {later - first[at]} are at one place."
            bodies.flaw(at, f"rods_at/{later - first[at]}", detail, slug="impossible-geometry")
