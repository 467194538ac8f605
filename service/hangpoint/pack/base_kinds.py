"""Kinds of base: what each needs and what goes with which."""

from collections.abc import Mapping
from itertools import repeat
from typing import Any

import numpy as np

from hangpoint.core.hang_point.surroundings import BASE_KINDS, CONCRETE, DECK
from hangpoint.core.quantity import Bools, Codes
from hangpoint.pack.pull import Rows, places

_CODES = {name: code for code, name in enumerate(BASE_KINDS)}
_OF_CONCRETE = ("concrete", "deck")
_GOES_WITH: Mapping[str, tuple[str, ...]] = {
    **{name: (name,) for name in ("masonry", "hollow_core", "deck")},
    "strength": (*_OF_CONCRETE, "hollow_core"),
    **dict.fromkeys(("density", "lambda", "state", "state_decided_by"), _OF_CONCRETE),
    **dict.fromkeys(("supplementary", "edge_reinforcement", "anchor_reinforcement"), ("concrete",)),
}

FACE_UNSTATED: Mapping[str, str] = {name: "side" if name == "masonry" else "soffit" for name in BASE_KINDS}
"""The face that is taken where a request states none, by the kind of base."""


def anchored(kinds: Codes) -> Bools:
    """Where anchors are checked; elsewhere loads and rods are all that is computed."""
    return kinds <= DECK


def in_concrete(kinds: Codes) -> Bools:
    """Where the anchor is in concrete that is no precast plank: in a member or in the fill of a deck."""
    return (kinds == CONCRETE) | (kinds == DECK)


def base_kinds(base: Rows) -> Codes:
    """The kind of every base as its place in `BASE_KINDS`; a field that goes with another kind is a flaw.

    What the defaults hold for a base of their kind is not held against an item of another kind.
    """
    stated = base.required("kind", "The kind of base", BASE_KINDS)
    kind = np.fromiter(map(_CODES.get, stated, repeat(CONCRETE)), dtype=np.int8, count=len(stated))
    if not np.count_nonzero(kind) and not any(map(base.gives, ("masonry", "hollow_core", "deck"))):
        return kind
    for at, (name, own) in enumerate(zip(stated, base.objects, strict=True)):
        given = own if "kind" in own else {**base.default, **own}
        for field in given:
            kinds = _GOES_WITH.get(field, BASE_KINDS)
            if name is not None and name not in kinds:
                detail = f"{field} goes with a base of {' or '.join(kinds)}, not with {name}; remove it."
                base.flaw(at, field, detail, code="contradiction")
    return kind


def required_of(base: Rows, name: str, needed: Bools, what: str, allowed: tuple[str, ...] = ()) -> list[Any]:
    """The values under ``name``, and a flaw where one is needed and there is none."""
    values = list(base.values(name))
    for at in places(needed):
        if values[at] is None:
            base.flaw(at, name, f"{what} is required here or in the defaults.", code="missing", allowed=allowed)
    return values
