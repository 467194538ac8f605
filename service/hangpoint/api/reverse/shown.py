"""What the engineer would have to show for a point to pass: values that would do, none of which anyone builds."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked
from hangpoint.api.reverse.changes import put, read
from hangpoint.api.reverse.grids import even_grid
from hangpoint.api.reverse.merge_patch import difference, merged
from hangpoint.api.reverse.probes import probe
from hangpoint.api.reverse.words import outcome_json
from hangpoint.pack.objects import value_at
from hangpoint.pack.strengths import F_CK, class_strength
from hangpoint.units import LENGTH, PRINTED, STRESS, QuantityKind

DECIDED_BY = "to be shown by the engineer of record"


def shown_by_engineer(asked: Asked) -> list[dict[str, Any]]:
    """Each value by itself that would make the item pass, where there is one."""
    return [*_values(asked), *_words(asked)]


def _values(asked: Asked) -> Iterator[dict[str, Any]]:
    if asked.by_en:
        yield from _classes(asked)
    else:
        strength = value_at(asked.item, "base", "strength", "f_c")
        yield from _value(
            asked,
            "strength",
            "strength",
            ("base", "strength", "f_c"),
            STRESS,
            0.0 if strength is None else read(strength, STRESS, asked.system),
            "the specified strength of the concrete is at least",
        )
    thickness = value_at(asked.item, "base", "thickness")
    yield from _value(
        asked,
        "thickness",
        "thickness",
        ("base", "thickness"),
        LENGTH,
        0.0 if thickness is None else read(thickness, LENGTH, asked.system),
        "the member is at least as thick as",
    )


def _value(
    asked: Asked, kind: str, grid: str, path: tuple[str, ...], quantity: QuantityKind, stated: float, words: str
) -> Iterator[dict[str, Any]]:
    """The first grid value above the stated one that passes."""
    values = even_grid(grid, asked.system).values
    values = values[values > stated]
    if not len(values):
        return
    probes = probe([put(asked.item, path, value) for value in values.tolist()], asked.situation)
    passed = np.flatnonzero(probes.passed)
    if not len(passed):
        return
    row = int(passed[0])
    value, unit = float(values[row]), PRINTED[asked.system][quantity.name]
    yield {
        "kind": kind,
        "text": f"The engineer would have to show that {words} {value:g} {unit}.",
        "value": value,
        "unit": unit,
        "outcome": outcome_json(probes.outcome(row)),
        "patch": difference(asked.item, put(asked.item, path, value)),
    }


def _classes(asked: Asked) -> Iterator[dict[str, Any]]:
    """The first strength class above the stated one that passes."""
    stated = class_strength(value_at(asked.item, "base", "strength", "class"))
    classes = [name for name, f_ck in F_CK.items() if stated is not None and f_ck > stated]
    if not classes:
        return
    patches = [{"base": {"strength": {"class": name}}} for name in classes]
    probes = probe([merged(asked.item, patch) for patch in patches], asked.situation)
    passed = np.flatnonzero(probes.passed)
    if len(passed):
        row = int(passed[0])
        yield {
            "kind": "strength",
            "text": f"The engineer would have to show that the concrete is at least {classes[row]}.",
            "outcome": outcome_json(probes.outcome(row)),
            "patch": patches[row],
        }


def _words(asked: Asked) -> Iterator[dict[str, Any]]:
    """Words of the request in place of others: uncracked, normalweight, a lower category."""
    item = asked.item
    base: Any = item["base"]
    tried: list[tuple[str, str, dict[str, Any]]] = []
    if base.get("state") != "uncracked":
        patch = {"base": {"state": "uncracked", "state_decided_by": DECIDED_BY}}
        tried.append(("state", "that the concrete stays uncracked", patch))
    if base.get("density") != "normalweight":
        lighter = {"base": {"density": "normalweight", **({"lambda": None} if "lambda" in base else {})}}
        tried.append(("density", "that the concrete is normalweight", lighter))
    if value_at(item, "seismic", "category") in ("C", "D", "E", "F"):
        tried.append(("category", "that seismic design category B holds", {"seismic": {"category": "B"}}))
    if not tried:
        return
    probes = probe([merged(item, patch) for _, _, patch in tried], asked.situation)
    for row, (kind, words, patch) in enumerate(tried):
        outcome = probes.outcome(row)
        if outcome.passed:
            yield {
                "kind": kind,
                "text": f"The engineer would have to show {words}.",
                "outcome": outcome_json(outcome),
                "patch": patch,
            }
