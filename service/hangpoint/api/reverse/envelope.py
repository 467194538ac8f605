"""Tension and shear that may just act together: the boundary, ray by ray, each point of it by the check itself."""

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked
from hangpoint.api.reverse.changes import at_origin, with_forces
from hangpoint.api.reverse.grids import decades
from hangpoint.api.reverse.merge_patch import difference
from hangpoint.api.reverse.probes import probe
from hangpoint.api.reverse.sweeps import TOLERANCE, End, Make, narrowed, sweep
from hangpoint.api.reverse.words import outcome_json, printed, why
from hangpoint.core.quantity import Floats
from hangpoint.units import FORCE, PRINTED, bare_factor

POINTS = 13
_RADII: Floats = np.linspace(0.05, 1.5, 30)
"""Shares of the way to what tension and shear alone would be, as far as 1.5 times."""


_AXES = decades(0.1, 1e6)
"""Tension or shear alone, lbf, in search of a measure."""


def envelope(asked: Asked, question: Mapping[str, Any]) -> dict[str, Any]:
    """The boundary from tension alone to shear alone.

    Rays are even in angle where tension is measured by the tension that holds alone, and shear by its own.
    """
    angle = math.radians(question["shear_angle"])

    def loaded(tension: float, shear: float) -> dict[str, Any]:
        return with_forces(
            asked.item,
            [
                {
                    "nature": "dead",
                    "tension": tension,
                    "shear_x": shear * math.cos(angle),
                    "shear_y": shear * math.sin(angle),
                }
            ],
        )

    unit = PRINTED[asked.system]["force"]
    head: dict[str, Any] = {
        "shear_angle": question["shear_angle"],
        "basis": _basis(asked),
        "unit": unit,
        "tolerance": TOLERANCE,
    }
    tension, no_tension = _alone(asked, lambda value: loaded(value, 0.0), "tension")
    shear, no_shear = _alone(asked, lambda value: loaded(0.0, value), "shear")
    if no_tension or no_shear:
        return head | {"text": " ".join((no_tension, no_shear)).strip(), "grid": _AXES.text, "points": []}
    turns = np.linspace(0.0, 1.0, question.get("points", POINTS)).tolist()
    ways = [(tension * _cosine(turn), shear * _cosine(1 - turn)) for turn in turns]

    def ray(way: tuple[float, float]) -> Make:
        return lambda radius: loaded(way[0] * radius, way[1] * radius)

    makes = [ray(way) for way in ways]
    ends, several = _ends(makes, asked)
    points = [
        {
            "tension": way[0] * end.passes,
            "shear": way[1] * end.passes,
            "several": more,
            "open": end.beyond is None,
            "outcome": outcome_json(end.outcome),
            "patch": difference(asked.item, make(end.passes)),
        }
        for end, more, way, make in zip(ends, several, ways, makes, strict=True)
    ]
    alone = [printed(own, up=False) for own in (ways[0][0] * ends[0].passes, ways[-1][1] * ends[-1].passes)]
    return head | {
        "text": f"Tension alone up to {alone[0]} {unit}, shear alone up to {alone[1]} {unit} at"
        f" {question['shear_angle']:g} degrees from x towards y.{at_origin(asked.item)}",
        "grid": f"{len(points)} rays, each at {len(_RADII)} even steps to 1.5 times what tension or shear alone holds",
        "points": points,
    }


def _basis(asked: Asked) -> str:
    """What the loads of the points are."""
    if asked.situation.combinations == "given_factored":
        return "factored load"
    if asked.by_allowable:
        return "dead load at service level, held against an allowable load: no combination factors it"
    return "dead load at service level, before its factor"


def _cosine(share: float) -> float:
    """Of a share of the right angle, 0 at the whole."""
    return 0.0 if share == 1 else math.cos(share * math.pi / 2)


def _alone(asked: Asked, make: Make, what: str) -> tuple[float, str]:
    """The largest load of one kind, a measure for the rays and not an answer; or a sentence why there is none."""
    found = sweep(_AXES.values / bare_factor(FORCE, asked.system), make, asked.situation)
    if not found.intervals:
        return 0.0, f"No {what} alone passes: {why(found.probes.outcome(0))}."
    return found.intervals[-1].upper.passes, ""


def _ends(makes: list[Make], asked: Asked) -> tuple[list[End], list[bool]]:
    """The end of the first interval of each ray, and whether loads farther out pass again."""
    radii = _RADII
    probes = probe([make(radius) for make in makes for radius in radii.tolist()], asked.situation)
    passed = probes.passed.reshape(len(makes), len(radii))
    ends: list[End] = []
    for row, own in enumerate(passed):
        count = len(radii) if own.all() else int(np.argmin(own))
        first = row * len(radii)
        at = max(count - 1, 0)
        within = count < len(radii)
        ends.append(
            End(
                passes=float(radii[at]),
                outcome=probes.outcome(first + at),
                beyond=float(radii[count]) if within else None,
                beyond_outcome=probes.outcome(first + count) if within else None,
            )
        )
    several = [bool(np.count_nonzero(np.diff(own.astype(np.int8)) > 0)) for own in passed]
    return narrowed(ends, makes, asked.situation), several
