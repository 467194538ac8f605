"""Forces of fixtures on one flat axis: weights of bodies and brackets, horizontal loads, guards, forces as stated."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.fixture.items import CONTENTS, DEAD, NATURES, Forces
from hangpoint.core.loads.guard_load import GuardLoad, guard_load
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.vocabulary import Nature
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.pull import Rows
from hangpoint.units import DISTANCE, FORCE, LENGTH, OFFSET, WEIGHT

_LIVE = NATURES.index(Nature.LIVE)
_CODES = {nature.value: code for code, nature in enumerate(NATURES)}
_ALONG = "guard_50_lb_per_ft"
_COMPONENTS = ("tension", "shear_x", "shear_y")
_ROUNDING = 1e-9
_NUMBERS = ("w", "h", "theta", "p_x", "p_y", "p_z", "x_f", "y_f", "z_f")


def pack_bodies(bodies: Rows, notes: Notes) -> Forces:
    """Weight of the items that are one body; contents are a part of it.

    Flaws: no weight, contents above the weight, a centre of gravity behind the face, a quantity out of range.
    """
    item = np.asarray(bodies.local, dtype=np.intp)
    weight = bodies.quantity("weight", WEIGHT, fill=1.0)
    contents = bodies.quantity("contents", WEIGHT, fill=0.0)
    flaw_where(bodies, weight <= 0, "weight", "The weight is more than 0.", slug="quantity")
    detail = "The contents are a part of the weight and can't exceed it."
    flaw_where(bodies, contents > weight * (1 + _ROUNDING), "contents", detail, code="contradiction")
    for name in ("weight", "contents"):
        notes.masses(bodies.values(name), WEIGHT, bodies, item)
    places = _places(bodies, "centre_of_gravity")
    dead = _forces(item, np.full(len(item), DEAD), w=np.maximum(weight - contents, 0.0), **places)
    filled = _forces(item, np.full(len(item), CONTENTS), w=contents, **places)
    return joined([dead, filled])


def pack_loads(brackets: Rows, notes: Notes) -> Forces:
    """Weights on the arms of brackets. Flaws: no weight, behind the face, a quantity out of range."""
    loads, owner = brackets.entries("loads")
    item = np.asarray(brackets.local, dtype=np.intp)[owner]
    weight = loads.quantity("weight", WEIGHT, fill=1.0)
    flaw_where(loads, weight <= 0, "weight", "The weight is more than 0.", slug="quantity")
    notes.masses(loads.values("weight"), WEIGHT, loads, item)
    return _forces(item, _natures(loads), w=weight, **_places(loads, "at"))


def pack_horizontal(items: Rows) -> Forces:
    """Horizontal loads. Flaws: a negative force, behind the face, a quantity out of range."""
    loads, item = items.entries("horizontal")
    h = loads.quantity("force", FORCE, fill=0.0)
    detail = "A horizontal force is at least 0: its direction says which way it acts."
    flaw_where(loads, h < 0, "force", detail, slug="quantity")
    theta = loads.numbers("direction", 0.0)
    any_way = loads.silent("direction")
    return _forces(item, _natures(loads), any_way=any_way, h=h, theta=theta, **_places(loads, "at"))


def pack_guards(posts: Rows) -> tuple[Forces, GuardLoad]:
    """Named loads of guards, of any direction, and their record.

    Flaws: a load along the top without the spacing of posts, a load at one point with it, a quantity out of range.
    """
    own = posts.taken([at for at, guard in enumerate(posts.values("guard")) if guard is not None])
    loads, item = own.child("guard"), np.asarray(own.local, dtype=np.intp)
    along = np.array([rule == _ALONG for rule in loads.values("rule")], dtype=np.bool_)
    spacing = loads.quantity("spacing", DISTANCE)
    detail = "The load along the top needs the spacing of the posts."
    flaw_where(loads, along & np.isnan(spacing), "spacing", detail, code="missing")
    detail = "The load at one point is not by the spacing of the posts."
    flaw_where(loads, ~along & ~np.isnan(spacing), "spacing", detail, code="contradiction")
    made = guard_load(along=along, spacing=np.nan_to_num(spacing))
    height = loads.quantity("height", LENGTH, fill=0.0)
    live = np.full(len(item), _LIVE)
    return _forces(item, live, any_way=np.ones(len(item), dtype=np.bool_), h=made.h, z_f=height), made


def pack_stated(items: Rows) -> Forces:
    """Forces as stated. Flaws: none of the components, behind the face, a quantity out of range."""
    loads, item = items.entries("forces")
    columns = {name: loads.quantity(name, FORCE, fill=0.0) for name in _COMPONENTS}
    silent = [not any(name in own for name in _COMPONENTS) for own in loads.objects]
    detail = "Give at least one of tension, shear_x and shear_y."
    flaw_where(loads, silent, "tension", detail, code="missing", allowed=_COMPONENTS)
    return _forces(
        item,
        _natures(loads),
        p_x=columns["shear_x"],
        p_y=columns["shear_y"],
        p_z=columns["tension"],
        **_places(loads, "at"),
    )


def joined(parts: Sequence[Forces]) -> Forces:
    """All forces in rising order of their item."""
    names = ("item", "nature", "any_way", *_NUMBERS)
    columns: dict[str, Any] = {name: np.concatenate([getattr(each, name) for each in parts]) for name in names}
    order = np.argsort(columns["item"], kind="stable")
    return Forces(**{name: column[order] for name, column in columns.items()})


def _natures(loads: Rows) -> Index:
    return np.array([_CODES[nature] for nature in loads.values("nature")], dtype=np.intp)


def _places(rows: Rows, name: str) -> dict[str, Floats]:
    """Where forces act, in; z never behind the face of the base."""
    at = rows.child(name)
    z = at.quantity("z", OFFSET, fill=0.0)
    detail = "z is measured out of the face of the base, so it is at least 0."
    flaw_where(at, z < 0, "z", detail, slug="impossible-geometry")
    return {"x_f": at.quantity("x", OFFSET, fill=0.0), "y_f": at.quantity("y", OFFSET, fill=0.0), "z_f": z}


def _forces(item: Index, nature: Index, *, any_way: Any = None, **columns: Floats) -> Forces:
    none = np.zeros(len(item))
    numbers: dict[str, Any] = {name: columns.get(name, none) for name in _NUMBERS}
    return Forces(
        item=item,
        nature=nature,
        any_way=np.zeros(len(item), dtype=np.bool_) if any_way is None else any_way,
        **numbers,
    )
