"""Kinds of base: what each needs and what goes with which."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from hangpoint.core.quantity import Bools, Codes
from hangpoint.pack.pull import Rows

KINDS = ("concrete", "masonry", "hollow_core", "deck", "steel", "wood", "unknown")
CONCRETE, MASONRY, HOLLOW_CORE = range(3)
BUILT = (CONCRETE, MASONRY, HOLLOW_CORE)

_CODES = {name: code for code, name in enumerate(KINDS)}
_OF_CONCRETE = ("concrete", "deck")
_GOES_WITH: Mapping[str, tuple[str, ...]] = {
    "masonry": ("masonry",),
    "hollow_core": ("hollow_core",),
    "strength": (*_OF_CONCRETE, "hollow_core"),
    **dict.fromkeys(("density", "lambda", "state", "state_decided_by"), _OF_CONCRETE),
    **dict.fromkeys(("supplementary", "edge_reinforcement", "anchor_reinforcement"), ("concrete",)),
}


def base_kinds(base: Rows) -> Codes:
    """The kind of every base as its place in `KINDS`; a field that goes with another kind is a flaw.

    What the defaults hold for a base of their kind is not held against an item of another kind.
    """
    stated = base.required("kind", "The kind of base", KINDS)
    kind = np.array([CONCRETE if name is None else _CODES[name] for name in stated], dtype=np.int8)
    if not kind.any() and not (base.gives("masonry") or base.gives("hollow_core")):
        return kind
    for at, (name, own) in enumerate(zip(stated, base.objects, strict=True)):
        given = own if "kind" in own else {**base.default, **own}
        for field in given:
            kinds = _GOES_WITH.get(field, KINDS)
            if name is not None and name not in kinds:
                detail = f"{field} goes with a base of {' or '.join(kinds)}, not with {name}; remove it."
                base.flaw(at, field, detail, code="contradiction")
    return kind


def required_of(base: Rows, name: str, needed: Bools, what: str, allowed: tuple[str, ...] = ()) -> list[Any]:
    """The values under ``name``, and a flaw where one is needed and there is none."""
    values = list(base.values(name))
    for at in np.flatnonzero(needed).tolist():
        if values[at] is None:
            base.flaw(at, name, f"{what} is required here or in the defaults.", code="missing", allowed=allowed)
    return values
