"""Changes of an item that questions and remedies try: an item in, a changed one out, in the units of the request.

An item is plain JSON of the schema of hang points. Nothing is checked here; what a change makes impossible, the check
says.
"""

import math
from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise
from typing import Any, cast

from hangpoint.api.reverse.merge_patch import merged
from hangpoint.core.geometry.side_face import on_plan
from hangpoint.core.outcome import EDGES
from hangpoint.core.vocabulary import ChangeAssumption
from hangpoint.pack.base_kinds import FACE_UNSTATED
from hangpoint.pack.objects import value_at
from hangpoint.pack.pull import convert
from hangpoint.units import (
    COORDINATE,
    DISTANCE,
    FORCE,
    LENGTH,
    MOMENT,
    OFFSET,
    WEIGHT,
    QuantityKind,
    System,
    bare_factor,
)

Item = Mapping[str, Any]
_LOADS = ("tension", "shear_x", "shear_y", "moment_x", "moment_y", "torsion")
TOWARDS = {"x_minus": (-1, 0), "x_plus": (1, 0), "y_minus": (0, -1), "y_plus": (0, 1)}
"""Direction of each side."""

PLACED_BASES = ("deck", "masonry", "hollow_core")
"""Kinds of base in which it matters where in it the point is, beside its edges."""

_TOUCHING = 0.01
"""Distance, in, from what a move may bring the point to."""


def read(value: Any, kind: QuantityKind, system: System) -> float:
    """A quantity as a number in the bare unit of the request; the word none is infinite."""
    return float(convert([value], kind, system)[0]) / bare_factor(kind, system)


def in_core(value: float, kind: QuantityKind, system: System) -> float:
    """A bare number in the unit of the core."""
    return value * bare_factor(kind, system)


def bare(value: float, kind: QuantityKind, system: System) -> float:
    """A number in the unit of the core as a bare one of the request."""
    return value / bare_factor(kind, system)


def put(item: Item, path: Sequence[str], value: Any) -> dict[str, Any]:
    """The item with a value at a place."""
    patch: Any = value
    for name in reversed(path):
        patch = {name: patch}
    return merged(item, patch)


def edges_of(item: Item, system: System) -> dict[str, float]:
    """Distances of all sides that are stated, infinite where none is within reach."""
    stated: Mapping[str, Any] = value_at(item, "base", "edges") or {}
    return {side: read(stated[side], LENGTH, system) for side in EDGES if side in stated}


def with_edge(item: Item, side: str, value: float) -> dict[str, Any]:
    """The item with one edge at a distance; an infinite one is no edge."""
    return put(item, ("base", "edges", side), "none" if value == float("inf") else value)


def moved(item: Item, dx: float, dy: float, system: System) -> dict[str, Any]:
    """The item moved in its face: its edges, open cells and coordinates, as far as they are stated.

    An edge that the move reaches or passes is at a distance of 0 or less, which the check takes for invalid. In a side
    face of which it isn't known which way it looks the coordinates stay.
    """
    changed = dict(item)
    for side, (x, y) in TOWARDS.items():
        distance = edges_of(item, system).get(side, float("inf"))
        if distance != float("inf") and (x * dx or y * dy):
            changed = with_edge(changed, side, distance - x * dx - y * dy)
        cell = read(value_at(item, "base", "masonry", f"open_{side}"), LENGTH, system)
        if math.isfinite(cell) and (x * dx or y * dy):
            changed = put(changed, ("base", "masonry", f"open_{side}"), cell - x * dx - y * dy)
    per_coordinate = bare_factor(LENGTH, system) / 12.0 / bare_factor(COORDINATE, system)
    for name, step in _steps(item, dx, dy).items():
        stated = value_at(item, "at", name)
        if stated is not None and step:
            changed = put(changed, ("at", name), read(stated, COORDINATE, system) + step * per_coordinate)
    return changed


def in_side(item: Item) -> bool:
    """Whether the anchor is set in a side face, by what is stated or else taken of such a base."""
    face = value_at(item, "base", "face")
    return (face or FACE_UNSTATED.get(value_at(item, "base", "kind"))) == "side"


def _steps(item: Item, dx: float, dy: float) -> dict[str, float]:
    """The move along the coordinates of the job."""
    if not in_side(item):
        return {"x": dx, "y": dy}
    facing = value_at(item, "base", "facing")
    if facing is None:
        return {}
    x, y = on_plan(facing=facing, right=dx)
    return {"x": x, "y": y, "z": dy}


def displaced(item: Item, dx: float, dy: float, system: System) -> dict[str, Any]:
    """The item moved as by `moved`, with what its base then has around it.

    In a deck the place across the flutes goes with the move; while their direction isn't stated it is as far from the
    centre as the move can bring it. A joint or a strand is as near as the move can bring it, and where that is as near
    as the anchor itself, a masonry anchor is taken to be in the joint. A scan of the old place says nothing of the new
    one (reading 39) and is left out, and anchor reinforcement stays at the old one (17.5.2.1).
    """
    changed, distance = moved(item, dx, dy, system), math.hypot(dx, dy)
    offset, direction = (value_at(item, "base", "deck", name) for name in ("offset", "direction"))
    if offset is not None and distance:
        stated = read(offset, OFFSET, system)
        place = {"x": stated + dy, "y": stated + dx}.get(direction, abs(stated) + distance)
        changed = put(changed, ("base", "deck", "offset"), place)
    if distance and value_at(changed, "base", "scanned"):
        changed = put(changed, ("base",), {"scanned": None, "scanned_by": None})
    if distance and value_at(changed, "base", "anchor_reinforcement") is not None:
        changed = put(changed, ("base", "anchor_reinforcement"), None)
    for kind, name in (("masonry", "joint_distance"), ("hollow_core", "strand_distance")):
        clear = read(value_at(item, "base", kind, name), LENGTH, system)
        if math.isfinite(clear) and distance:
            changed = put(changed, ("base", kind, name), max(clear - distance, bare(_TOUCHING, LENGTH, system)))
            if kind == "masonry" and distance >= clear:
                changed = put(changed, ("base", kind, "location"), "joint")
    return changed


def assumed_of_moves(item: Item, system: System) -> list[ChangeAssumption]:
    """What `displaced` takes of an item and its base."""
    held = {
        ChangeAssumption.PLACE_IN_BASE: value_at(item, "base", "kind") in PLACED_BASES,
        ChangeAssumption.COORDINATES_STAY: "at" in item and in_side(item) and not _steps(item, 1.0, 1.0),
        ChangeAssumption.NO_EDGE: any(math.isinf(distance) for distance in edges_of(item, system).values()),
        ChangeAssumption.BARS_STAY: value_at(item, "base", "anchor_reinforcement") is not None,
    }
    return [member for member, holds in held.items() if holds]


def scaled_loads(item: Item, factor: float, system: System) -> dict[str, Any] | None:
    """The item with its stated loads times a factor; None for a pipe, whose weight is its own."""
    hangs: Any = item["hangs"]
    if hangs["kind"] == "weight":
        return put(item, ("hangs", "weight"), read(hangs["weight"], WEIGHT, system) * factor)
    if hangs["kind"] != "forces":
        return None
    patch: dict[str, Any] = {}
    if "components" in hangs:
        patch["components"] = _scaled(hangs["components"], factor, system)
    if "load_cases" in hangs:
        patch["load_cases"] = [
            {**case, "components": _scaled(case["components"], factor, system)} for case in hangs["load_cases"]
        ]
    return merged(item, {"hangs": patch})


def _scaled(components: Any, factor: float, system: System) -> list[dict[str, Any]]:
    kinds = {name: FORCE if name in _LOADS[:3] else MOMENT for name in _LOADS}
    return [
        {name: read(value, kinds[name], system) * factor if name in kinds else value for name, value in each.items()}
        for each in components
    ]


def with_forces(item: Item, components: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """The item with nothing but direct forces; the size table of sprinkler rods, which has no meaning then, goes."""
    changed = {**item, "hangs": {"kind": "forces", "components": list(components)}}
    if value_at(changed, "rod", "rule") == "sprinkler_size_table":
        changed = merged(changed, {"rod": {"rule": None}})
    return changed


def at_origin(item: Item) -> str:
    """What is said of `with_forces` where the item states a place of its loads, which goes with them."""
    return " It acts at the origin of the layout, not where the stated loads do." if "at" in item["hangs"] else ""


def dead_tension(item: Item, tension: float) -> dict[str, Any]:
    """The item with nothing but a dead load that pulls."""
    return with_forces(item, [{"nature": "dead", "tension": tension}])


def further_weight(item: Item, weight: float, system: System) -> dict[str, Any]:
    """A run of pipe with a dead weight more at this support."""
    run: Any = item["hangs"]["run"]
    place = sum(spans_of(item, system)[: run.get("support", 0)])
    loads = [*run.get("point_loads", ()), {"at": place, "weight": weight, "nature": "dead"}]
    return put(item, ("hangs", "run", "point_loads"), loads)


def spans_of(item: Item, system: System) -> list[float]:
    """Spans of a run."""
    return [read(span, DISTANCE, system) for span in item["hangs"]["run"]["spans"]]


def with_spans(item: Item, spans: Sequence[float], system: System) -> dict[str, Any]:
    """A run with other spans; what hangs on it stays at the same share of its span."""
    old = [0.0, *accumulate(spans_of(item, system))]
    new = [0.0, *accumulate(spans)]
    patch: dict[str, Any] = {"spans": list(spans)}
    loads = item["hangs"]["run"].get("point_loads")
    if loads:
        patch["point_loads"] = [{**each, "at": _along(read(each["at"], DISTANCE, system), old, new)} for each in loads]
    return merged(item, {"hangs": {"run": patch}})


def _along(place: float, old: Sequence[float], new: Sequence[float]) -> float:
    for (a, b), (c, d) in zip(pairwise(old), pairwise(new), strict=True):
        if place <= b and b > a:
            return c + (place - a) / (b - a) * (d - c)
    return new[-1]


def scaled_layout(item: Item, factor: float, system: System, *, axes: str = "xy") -> dict[str, Any]:
    """The item with its anchors farther apart, or nearer, by a factor about the middle of the layout.

    ``axes``: of a rectangle and of a list only along these; a row and a circle go along all.
    """
    layout: Any = item["anchor"]["layout"]
    if isinstance(layout, Mapping):
        pattern = cast(Mapping[str, Any], layout)
        whole = {"row": ["spacing"], "circle": ["diameter"]}
        names = whole.get(pattern["pattern"], [f"spacing_{axis}" for axis in axes])
        patch = {name: read(pattern[name], LENGTH, system) * factor for name in names if name in pattern}
        return put(item, ("anchor", "layout"), patch)
    places = {axis: [read(each[axis], OFFSET, system) for each in layout] for axis in "xy"}
    middle = {axis: (min(own) + max(own)) / 2 for axis, own in places.items()}
    stretched = [
        {
            **each,
            **{axis: middle[axis] + (places[axis][row] - middle[axis]) * factor for axis in axes},
        }
        for row, each in enumerate(layout)
    ]
    return put(item, ("anchor", "layout"), stretched)
