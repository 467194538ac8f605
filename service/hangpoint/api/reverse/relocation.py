"""A point moved away from a hole that hit reinforcement: the new place by the check itself, with its neighbours."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked, read_asked
from hangpoint.api.reverse.changes import assumed_of_moves, bare, displaced, edges_of, read
from hangpoint.api.reverse.leaning import Lean, against_lean, lean_of, leaning, rod_utilisation, service_tension
from hangpoint.api.reverse.merge_patch import difference, merged
from hangpoint.api.reverse.near_places import outcomes_at
from hangpoint.api.reverse.near_sites import neighbours_of
from hangpoint.api.reverse.probes import Outcome
from hangpoint.api.reverse.words import length_text, outcome_json, violated, why
from hangpoint.api.schemas.relocations import RelocationRequest
from hangpoint.core.hang_point.allowable_findings import least_between
from hangpoint.core.vocabulary import ChangeAssumption, ChangeNotChecked, NotChecked, Status
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import FORCE, LENGTH, OFFSET, System

_STEPS: dict[System, float] = {"us": 1.0, "si": 25.0}
_WITHIN: dict[System, float] = {"us": 24.0, "si": 600.0}
_MOST_PLACES = 8
_MOST_STEPS = 60
_ROUNDED = 1e-9

INSTRUCTIONS = (
    "Stop drilling and tell the engineer of record where the bar was hit, and whether it was cut or nicked.",
    "Don't cut reinforcement; a tendon or a live service that may have been touched stops all work there.",
    "Locate reinforcement, tendons and services at the new place before drilling.",
)
_OLD_HOLE = {
    False: "Fill the old hole with high-strength mortar as the product's instructions say, and note both places as"
    " built.",
    True: "Verify that the old hole is filled with high-strength mortar as the product's instructions say, and note"
    " both places as built.",
}
"""What is to be done with it, by whether it is stated to be filled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """A place that is looked at: the move, the items of its site, its distance from the old hole, the rod's lean."""

    dx: float
    dy: float
    from_old_hole: float
    item: dict[str, Any]
    lean: Lean | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hole:
    """The old hole: its place from the origin, the least distance of a new anchor from it, and why that much."""

    x: float
    y: float
    least: float
    text: str


def run_relocation(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body and check the new place of its item, or look for one.

    Raises:
        ProblemError: the body can't be read, the item or a neighbour can't be checked, or there is too much of it.
    """
    asked = read_asked(RelocationRequest, body, catalogue)
    neighbours = neighbours_of(asked)
    hole = _hole(asked)
    places = [*(_asked_place(asked, hole) if "move" in asked.body else []), *_near_places(asked, hole)]
    sites = outcomes_at([asked.item, *(each.item for each in places)], neighbours, asked.situation)
    before = next(sites)
    made = [
        _relocated(place, before, after, hole, asked, neighbours) for place, after in zip(places, sites, strict=True)
    ]
    asks = "move" in asked.body
    found = _nearest(made[asks:])
    shown = made[:1] if asks else found
    others = [each for each in found if each["accepted"]] if asks and not shown[0]["accepted"] else []
    head = asked.head([*asked.changed([*shown, *others]), *neighbours])
    if neighbours and all(each.refusal is None for each in before[1:]):
        head["not_checked"].pop(NotChecked.NEIGHBOURS.value.code, None)
    head["assumptions"] |= _assumed(asked)
    head["not_checked"] |= _left_out(asked)
    accepted = [each for each in shown if each["accepted"]]
    return head | {
        "text": _text(shown, others or found, asked) + _failing_anyway([*accepted, *others], before[1:]),
        "accepted": bool(accepted),
        "before": outcome_json(before[0]),
        "distance_from_old_hole": {
            "least": hole.least,
            "text": hole.text,
            "rule": {
                "code": "distance-from-old-hole",
                "clause": "reading 45",
                "text": "A new hole is at least twice the depth of the old one away unless that is filled with"
                " high-strength mortar, and keeps the least spacing. The product's instructions and the engineer"
                " decide.",
            },
        },
        "places": shown,
        "alternatives": others,
        "tried": len(places),
        "instructions": [*INSTRUCTIONS, _OLD_HOLE[bool(asked.body["old_hole"].get("filled"))]],
    }


def _hole(asked: Asked) -> _Hole:
    old: Mapping[str, Any] = asked.body["old_hole"]
    points, system = asked.own.packed.points, asked.system
    products = points.products
    least_spacing = least_between(points.allowables, np.maximum(products.s_min, products.s_min_code))
    spacing = bare(float(least_spacing[0]), LENGTH, system)
    depth = read(old["depth"], LENGTH, system)
    twice = 0.0 if old.get("filled") else 2 * depth
    why_so = (
        f"twice the depth of the old hole, {length_text(depth, system, up=True)}"
        if twice >= spacing
        else "the least spacing of the product"
    )
    filled = " The hole is filled with high-strength mortar." if old.get("filled") else ""
    least = max(twice, spacing)
    return _Hole(
        x=read(old.get("x", 0), OFFSET, system),
        y=read(old.get("y", 0), OFFSET, system),
        least=least,
        text=f"At least {length_text(least, system, up=True)}: {why_so}.{filled}",
    )


def _asked_place(asked: Asked, hole: _Hole) -> list[_Place]:
    move: Any = asked.body["move"]
    return [_place(read(move["dx"], OFFSET, asked.system), read(move["dy"], OFFSET, asked.system), asked, hole)]


def _near_places(asked: Asked, hole: _Hole) -> list[_Place]:
    """Places in eight directions, at even distances that keep clear of the old hole; the nearest first."""
    system = asked.system
    within = read(asked.body["within"], LENGTH, system) if "within" in asked.body else _WITHIN[system]
    step = max(_STEPS[system], within / _MOST_STEPS)
    first = math.ceil(hole.least / step - _ROUNDED) * step
    distances = sorted({hole.least, *np.arange(first, within * (1 + _ROUNDED), step).tolist()})
    way = [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1)]
    places = [
        _place(x / math.hypot(x, y) * distance, y / math.hypot(x, y) * distance, asked, hole)
        for distance in distances
        if distance <= within * (1 + _ROUNDED)
        for x, y in way
    ]
    return [each for each in places if each.from_old_hole >= hole.least * (1 - _ROUNDED)]


def _place(dx: float, dy: float, asked: Asked, hole: _Hole) -> _Place:
    layouts = asked.own.packed.points.layouts
    x, y = (bare(1.0, LENGTH, asked.system) * column for column in (layouts.x, layouts.y))
    item: dict[str, Any] = displaced(asked.item, dx, dy, asked.system)
    if "scanned_by" in asked.body:
        item = merged(item, {"base": {"scanned": True, "scanned_by": asked.body["scanned_by"]}})
    lean = None
    if "rod_length" in asked.body:
        lean = lean_of(dx, dy, read(asked.body["rod_length"], LENGTH, asked.system))
        item = leaning(item, lean, asked)
    return _Place(
        dx=dx,
        dy=dy,
        from_old_hole=float(np.min(np.hypot(x + dx - hole.x, y + dy - hole.y))),
        item=item,
        lean=lean,
    )


def _relocated(
    place: _Place,
    before: Sequence[Outcome],
    after: Sequence[Outcome],
    hole: _Hole,
    asked: Asked,
    neighbours: Sequence[Mapping[str, Any]],
) -> dict[str, Any]:
    reasons = list(_reasons(place, before, after, hole, asked, neighbours))
    edges = edges_of(place.item, asked.system)
    made: dict[str, Any] = {
        "dx": place.dx,
        "dy": place.dy,
        "from_old_hole": place.from_old_hole,
        "accepted": not reasons,
        "reasons": reasons,
        "edges": {side: distance if math.isfinite(distance) else None for side, distance in edges.items()},
        "outcome": outcome_json(after[0]),
        "neighbours": [
            {"id": own["id"], "before": outcome_json(was), "after": outcome_json(now)}
            for own, was, now in zip(neighbours, before[1:], after[1:], strict=True)
        ],
        "patch": difference(asked.item, place.item),
    }
    if place.lean is not None:
        made["lean"] = _lean_json(place.lean, after[0], asked)
    return made


def _reasons(
    place: _Place,
    before: Sequence[Outcome],
    after: Sequence[Outcome],
    hole: _Hole,
    asked: Asked,
    neighbours: Sequence[Mapping[str, Any]],
) -> list[str]:
    """What stands against a place."""
    found: list[str] = []
    if place.from_old_hole < hole.least * (1 - _ROUNDED):
        away = length_text(place.from_old_hole, asked.system, up=False)
        least = length_text(hole.least, asked.system, up=True)
        found.append(f"The new anchor is {away} from the old hole, nearer than {least}.")
    if not after[0].passed:
        found.append(f"The point does not pass at the new place: {why(after[0])}.")
    if place.lean is not None:
        found += against_lean(place.lean, after[0], asked)
    for own, was, now in zip(neighbours, before[1:], after[1:], strict=True):
        more = _worse(was, now)
        if more is not None:
            found.append(f"The neighbour {own['id']} does not pass then: {more}.")
    return found


def _worse(was: Outcome, now: Outcome) -> str | None:
    """Why a neighbour does not pass because of the move; None where it passes, or fails as it did before."""
    new = [each for each in now.violations if each not in was.violations]
    if now.passed:
        return None
    if was.passed or (now.utilisation or 0.0) > (was.utilisation or 0.0) * (1 + _ROUNDED):
        return why(now)
    return violated(new) if new else None


def _lean_json(lean: Lean, outcome: Outcome, asked: Asked) -> dict[str, float]:
    load, used = service_tension(asked), rod_utilisation(lean, outcome)
    return {
        "angle": lean.angle,
        "service_tension": bare(load, FORCE, asked.system),
        "shear": bare(lean.shear(load), FORCE, asked.system),
        "rod_tension": bare(lean.rod_tension(load), FORCE, asked.system),
    } | ({} if used is None else {"rod_utilisation": used})


def _nearest(made: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """The nearest place that is accepted in each direction; the places that come nearest where none is."""
    found: dict[tuple[int, int], dict[str, Any]] = {}
    for each in made:
        way = (int(np.sign(round(each["dx"], 9))), int(np.sign(round(each["dy"], 9))))
        if each["accepted"] and way not in found:
            found[way] = each
    if found:
        return list(found.values())
    checked = [each for each in made if "utilisation" in each["outcome"]]
    return sorted(checked, key=lambda each: (len(each["reasons"]), each["outcome"]["utilisation"]))[:_MOST_PLACES]


def _text(shown: Sequence[Mapping[str, Any]], others: Sequence[Mapping[str, Any]], asked: Asked) -> str:
    accepted = [each for each in shown if each["accepted"]]
    if "move" in asked.body:
        if accepted:
            return "The new place is accepted."
        return f"Not accepted. {' '.join(shown[0]['reasons'])} {_instead(others, asked)}"
    if not accepted:
        return "No place within reach is accepted; those that come nearest are listed. Ask the engineer."
    return _nearest_text(accepted[0], asked)


def _instead(others: Sequence[Mapping[str, Any]], asked: Asked) -> str:
    """The nearest place that is accepted, or what stands against the one that comes nearest."""
    if others and others[0]["accepted"]:
        return _nearest_text(others[0], asked)
    if not others:
        return "No place near by is accepted: ask the engineer."
    where, why_not = _from_the_old(others[0], asked), " ".join(others[0]["reasons"])
    return f"No place near by is accepted: ask the engineer. What stands against the one {where}: {why_not}"


def _failing_anyway(accepted: Sequence[Mapping[str, Any]], before: Sequence[Outcome]) -> str:
    """Of the first place that is accepted the neighbours that fail there no worse than before."""
    if not accepted:
        return ""
    return "".join(
        f" The neighbour {each['id']} does not pass there, as it did not before: {why(was)}."
        for each, was in zip(accepted[0]["neighbours"], before, strict=True)
        if each["after"]["status"] != Status.PASSED
    )


def _nearest_text(place: Mapping[str, Any], asked: Asked) -> str:
    return f"The nearest place found is {_from_the_old(place, asked)} from the old one."


def _from_the_old(place: Mapping[str, Any], asked: Asked) -> str:
    x, y = (length_text(place[name], asked.system, up=place[name] > 0) for name in ("dx", "dy"))
    return f"{x} along x and {y} along y"


def _assumed(asked: Asked) -> dict[str, str]:
    members: list[ChangeAssumption] = []
    if "filled" not in asked.body["old_hole"]:
        members.append(ChangeAssumption.OLD_HOLE_OPEN)
    if "rod_length" not in asked.body:
        members.append(ChangeAssumption.PLUMB)
    else:
        members.append(ChangeAssumption.MOST_LEAN)
    if asked.item["hangs"]["kind"] == "pipe":
        members.append(ChangeAssumption.SPANS_UNCHANGED)
    members += assumed_of_moves(asked.item, asked.system)
    return {each.value.code: each.value.text for each in members}


def _left_out(asked: Asked) -> dict[str, str]:
    members = [
        ChangeNotChecked.NEW_PLACE,
        ChangeNotChecked.CUT_REINFORCEMENT,
        ChangeNotChecked.OLD_HOLE,
        ChangeNotChecked.NEIGHBOURS_UNSTATED,
    ]
    if len(asked.own.packed.points.layouts.x) > 1:
        members.append(ChangeNotChecked.OTHER_HOLES)
    if "rod_length" in asked.body:
        members += [ChangeNotChecked.SIDEWAYS, ChangeNotChecked.ROD_LEANS]
    return {each.value.code: each.value.text for each in members}
