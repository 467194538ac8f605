"""A rod that leans because its anchor has moved and what hangs has not: the item with the shear that this brings."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked
from hangpoint.api.reverse.changes import bare, in_core, read, with_forces
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.probes import Outcome
from hangpoint.api.reverse.words import printed
from hangpoint.core.loads.combinations import SPRINKLER_WEIGHTS
from hangpoint.core.statics.out_of_plumb import out_of_plumb
from hangpoint.core.vocabulary import Link
from hangpoint.report.reasons import percent
from hangpoint.units import FORCE, System

LEAN_AT_MOST = 4.0
"""Degrees from the vertical that a hanger rod may lean (common practice, from memory)."""

_ROUNDED = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Lean:
    """Angle of the rod from the vertical in degrees, and the way, a unit vector, that it pulls its anchor in plan."""

    angle: float
    x: float
    y: float

    def shear(self, tension: float) -> float:
        """Shear at the anchor by a vertical load."""
        return float(out_of_plumb(p=np.array([tension]), alpha=np.array([self.angle])).v[0])

    def rod_tension(self, tension: float) -> float:
        """Tension in the rod by a vertical load."""
        return float(out_of_plumb(p=np.array([tension]), alpha=np.array([self.angle])).n_rod[0])


def rod_utilisation(lean: Lean, outcome: Outcome) -> float | None:
    """Utilisation of the rod along its own axis; the check has it by the vertical load. None where none is checked."""
    vertical = outcome.links.get(Link.ROD)
    return None if vertical is None else lean.rod_tension(vertical)


def against_lean(lean: Lean, outcome: Outcome, asked: Asked) -> Iterator[str]:
    """What stands against a rod that leans: its own tension, and its angle."""
    used = rod_utilisation(lean, outcome)
    if used is not None and used > 1 + _ROUNDED and outcome.links[Link.ROD] <= 1 + _ROUNDED:
        yield f"The rod does not hold its tension at this angle, utilisation {percent(used)}."
    if lean.angle > LEAN_AT_MOST * (1 + _ROUNDED):
        bent = asked.own.packed.points.products.thread_d[0] > 0
        thread = " It bends in the internal thread of the anchor." if bent else ""
        most = f"more than the {LEAN_AT_MOST:g} that are common practice"
        angle = f"{lean.angle:.1f}" if lean.angle > LEAN_AT_MOST + 0.1 else printed(lean.angle, up=True)
        yield f"The rod leans by {angle} degrees, {most}.{thread}"


def lean_of(dx: float, dy: float, rod_length: float) -> Lean:
    """The lean of a rod whose anchor has moved by ``dx``, ``dy``, in the unit of ``rod_length``."""
    distance = float(np.hypot(dx, dy))
    angle = float(np.degrees(np.arctan2(distance, rod_length)))
    if distance == 0:
        return Lean(angle=0.0, x=1.0, y=0.0)
    return Lean(angle=angle, x=-dx / distance, y=-dy / distance)


def service_tension(asked: Asked) -> float:
    """Tension by all that hangs, at service level, lbf; of given loads the sum of their natures in the heaviest case.

    Of contents and the fluid of a test the heavier counts. The load of the sprinkler rule is for the anchor alone.
    """
    own = asked.own.service(0)
    hangs: Any = asked.item["hangs"]
    if hangs["kind"] != "forces":
        return own["dead"] + max(own["contents"], own["test"]) + own["live"] + own["sprinkler"]
    cases = [hangs["components"]] if "components" in hangs else []
    cases += [case["components"] for case in hangs.get("load_cases", ())]
    return in_core(max(_hung(each, asked.system) for each in cases), FORCE, asked.system)


def leaning(item: Mapping[str, Any], lean: Lean, asked: Asked) -> dict[str, Any]:
    """The item as direct forces with the shear of its leaning rod; ``item`` is that of the request, moved."""
    hangs: Any = item["hangs"]
    system = asked.system
    if hangs["kind"] != "forces":
        return with_forces(item, _sheared(_components(asked), lean, system))
    patch: dict[str, Any] = {}
    if "components" in hangs:
        patch["components"] = _sheared(hangs["components"], lean, system)
    if "load_cases" in hangs:
        patch["load_cases"] = [
            {**case, "components": _sheared(case["components"], lean, system)} for case in hangs["load_cases"]
        ]
    return merged(item, {"hangs": patch})


def _hung(components: Sequence[Mapping[str, Any]], system: System) -> float:
    """Sum of what hangs of the natures of a load case."""
    by_nature: defaultdict[str, float] = defaultdict(float)
    for each in components:
        by_nature[each["nature"]] += read(each.get("tension", 0), FORCE, system)
    either = max(by_nature.pop("contents", 0.0), by_nature.pop("test", 0.0))
    by_nature.pop("sprinkler_rule", None)
    return either + sum(by_nature.values())


def _components(asked: Asked) -> list[dict[str, Any]]:
    """What hangs by its nature, the fluid of a test too; of a sprinkler line also the load of the sprinkler rule."""
    own = asked.own.service(0)
    natures = {name: own[name] for name in ("dead", "contents", "live", "test")}
    if own["sprinkler"]:
        natures["live"] += own["sprinkler"]
        natures["sprinkler_rule"] = SPRINKLER_WEIGHTS * (own["dead"] + own["contents"]) + own["sprinkler"]
    made = [{"nature": name, "tension": bare(value, FORCE, asked.system)} for name, value in natures.items() if value]
    return made or [{"nature": "dead", "tension": 0.0}]


def _sheared(components: Any, lean: Lean, system: System) -> list[dict[str, Any]]:
    made: list[dict[str, Any]] = []
    for each in components:
        shear = lean.shear(read(each.get("tension", 0), FORCE, system))
        x, y = (read(each.get(name, 0), FORCE, system) for name in ("shear_x", "shear_y"))
        made.append({**each, "shear_x": x + shear * lean.x, "shear_y": y + shear * lean.y})
    return made
