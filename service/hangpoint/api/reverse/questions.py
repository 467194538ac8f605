"""The reverse questions: each as one or two values that a sweep of the check finds."""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked, needed, unanswerable
from hangpoint.api.reverse.building import products
from hangpoint.api.reverse.changes import (
    at_origin,
    bare,
    dead_tension,
    edges_of,
    further_weight,
    put,
    read,
    scaled_loads,
    spans_of,
    with_edge,
    with_spans,
)
from hangpoint.api.reverse.grids import LEAST_F_M, LEAST_STRENGTH, GridValues, decades, even_grid, up_to
from hangpoint.api.reverse.spacing import least_spacing
from hangpoint.api.reverse.sweeps import sweep
from hangpoint.api.reverse.swept import LARGEST, LEAST, Sought, answer
from hangpoint.api.reverse.words import printed
from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.hanger.spacing import rules_for
from hangpoint.pack.objects import value_at
from hangpoint.units import DISTANCE, FORCE, LENGTH, PRINTED, STRESS, System

_LEAST_FORCE, _MOST_FORCE = 0.1, 1e6
"""Forces, lbf, that loads are sought between."""

_FACTORS = decades(1e-4, 1e4)
KIND = "#/question/kind"
_WITHOUT_STRENGTH = ("steel", "wood", "unknown")
_CONCRETE_STRENGTH = ("specified strength of the concrete", ("base", "strength", "f_c"), "strength", LEAST_STRENGTH)
_MASONRY_STRENGTH = ("f'm of the masonry", ("base", "masonry", "f_m"), "masonry_strength", LEAST_F_M)
"""Of a strength that is sought: what it is, its place in an item, its grid, and a note."""


def largest_load(asked: Asked) -> list[dict[str, Any]]:
    """The most that may hang: of what is stated, and as a dead tension alone."""
    item, system = asked.item, asked.system
    forces = decades(bare(_LEAST_FORCE, FORCE, system), bare(_MOST_FORCE, FORCE, system))
    if item["hangs"]["kind"] == "pipe":
        own = _load_sought(
            asked,
            "further dead weight at this support, beside the pipe",
            "weight",
            lambda value: further_weight(item, value, system),
            forces,
        )
    else:
        own = _load_sought(
            asked,
            "factor on all stated loads",
            "factor",
            lambda value: scaled_loads(item, value, system) or item,
            _FACTORS,
            stated=1.0,
        )
    alone = _load_sought(
        asked,
        "dead tension in place of what hangs",
        "force",
        lambda value: dead_tension(item, value),
        forces,
        note=_level_text(asked) + at_origin(asked.item),
    )
    return [answer(own, asked), answer(alone, asked)]


def _level_text(asked: Asked) -> str:
    """Whether a dead load that is found is factored, or is going to be."""
    if asked.situation.combinations == "given_factored":
        return "It is a factored load, as the request's combinations say."
    if asked.by_allowable:
        return "It is a service load, held against an allowable load: no combination factors it."
    return "It is a service load; the combinations factor it."


def _load_sought(
    asked: Asked,
    of: str,
    quantity: str,
    make: Callable[[float], Any],
    coarse: GridValues,
    *,
    stated: float | None = None,
    note: str = "",
) -> Sought:
    """A largest load: its grid is fine up to beyond the largest that passes on a coarse one."""
    values = coarse.values
    passed = np.flatnonzero(sweep(values, make, asked.situation, narrow=False).probes.passed)
    within = len(passed) and passed[-1] + 1 < len(values)
    grid = up_to(float(values[passed[-1] + 1])) if within else coarse
    return Sought(of=of, sense=LARGEST, quantity=quantity, make=make, grid=grid, stated=stated, note=note)


def least_embedment(asked: Asked) -> list[dict[str, Any]]:
    """The least embedment of the product's family and size."""
    item, system = asked.item, asked.system
    needed(asked, "anchor")
    depths = embedments(asked)
    if not depths:
        raise unanswerable(KIND, "The product is stated inline and has one embedment; name one of the catalogue.")
    sought = Sought(
        of="embedment of this family and size",
        sense=LEAST,
        quantity="length",
        make=lambda value: put(item, ("anchor", "h_ef"), value),
        grid=GridValues(values=np.array(depths), text="the embedments of the catalogue"),
        stated=read(item["anchor"]["h_ef"], LENGTH, system),
        sizes=True,
    )
    return [answer(sought, asked)]


def least_rod(asked: Asked) -> list[dict[str, Any]]:
    """The thinnest rod with which the point passes."""
    item, system = asked.item, asked.system
    stated: str | None = value_at(item, "rod", "size")
    metric = system == "si" if stated is None else stated.startswith("M")
    sizes = {bare(thread.d, LENGTH, system): name for name, thread in THREADS.items() if name.startswith("M") is metric}
    sought = Sought(
        of="nominal diameter of the rod",
        sense=LEAST,
        quantity="length",
        make=lambda value: put(item, ("rod", "size"), sizes[value]),
        grid=GridValues(values=np.array(sorted(sizes)), text=f"the rod sizes {', '.join(sizes.values())}"),
        stated=None if stated is None else bare(THREADS[stated].d, LENGTH, system),
        sizes=True,
        note="By the rod rule of the item; an anchor with an internal thread takes its own size only.",
    )
    return [answer(sought, asked)]


def embedments(asked: Asked) -> list[float]:
    """Embedments of the catalogue in the family and size of the item, in the unit of the request; rising."""
    anchor = asked.item["anchor"]
    if "family" not in anchor:
        return []
    return sorted(depth for size, depth in products(asked) if size == anchor["size"])


def least_edge(asked: Asked, question: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The least distance to the edge on one side."""
    item, system = asked.item, asked.system
    side: str = question["side"]
    needed(asked, "base", "edges", *(() if side == "nearest" else (side,)))
    edges = edges_of(item, system)
    if side == "nearest":
        side = min(edges, key=edges.__getitem__)
        if not np.isfinite(edges[side]):
            raise unanswerable("#/question/side", "No edge is within reach; name the side.", allowed=tuple(edges))
    sought = Sought(
        of=f"edge distance on the side {side}",
        sense=LEAST,
        quantity="length",
        make=lambda value: with_edge(item, side, value),
        grid=even_grid("edge", system),
        stated=edges[side],
        note="The other edges are as stated." + _from_origin(asked),
    )
    return [answer(sought, asked)]


def _from_origin(asked: Asked) -> str:
    """What is said of an edge distance where not every anchor stands at the origin of the layout."""
    layouts = asked.own.packed.points.layouts
    return " It is measured from the origin of the layout." if layouts.x.any() or layouts.y.any() else ""


def least_thickness(asked: Asked) -> list[dict[str, Any]]:
    """The least thickness of the member."""
    item, system = asked.item, asked.system
    sought = Sought(
        of="thickness of the member",
        sense=LEAST,
        quantity="length",
        make=lambda value: put(item, ("base", "thickness"), value),
        grid=even_grid("thickness", system),
        stated=read(needed(asked, "base", "thickness"), LENGTH, system),
        by_engineer=True,
    )
    return [answer(sought, asked)]


def least_strength(asked: Asked) -> list[dict[str, Any]]:
    """The least specified strength of the concrete, or f'm of masonry."""
    item, system = asked.item, asked.system
    kind: str = value_at(item, "base", "kind") or "concrete"
    if kind in _WITHOUT_STRENGTH:
        raise unanswerable(KIND, "The check takes no strength of this base.", allowed=("largest_load",))
    if asked.by_en:
        raise unanswerable(
            KIND,
            "en1992_4 goes by strength classes: ask /v1/sensitivities for the item in other classes.",
            allowed=("largest_load",),
        )
    of, path, grid, note = _MASONRY_STRENGTH if kind == "masonry" else _CONCRETE_STRENGTH
    stated = value_at(item, *path)
    sought = Sought(
        of=of,
        sense=LEAST,
        quantity="stress",
        make=lambda value: put(item, path, value),
        grid=even_grid(grid, system),
        stated=None if stated is None else read(stated, STRESS, system),
        by_engineer=True,
        note=note,
    )
    return [answer(sought, asked)]


def largest_hanger_spacing(asked: Asked) -> list[dict[str, Any]]:
    """The largest spacing of the hangers of a run."""
    item, system = asked.item, asked.system
    if item["hangs"]["kind"] != "pipe":
        raise unanswerable(KIND, "Only a run of pipe has hangers at a spacing.", allowed=("largest_load",))
    spans = spans_of(item, system)
    rule = value_at(item, "hangs", "run", "spacing_rule")
    note = (
        "No spacing rule is named, so none is checked: sag and the code of the line may ask for less."
        + _rules_text(item["hangs"], system)
        if rule is None
        else f"The spacing rule {rule} is among the checks."
    )
    uniform = Sought(
        of="spacing of hangers, all spans alike",
        sense=LARGEST,
        quantity="distance",
        make=lambda value: with_spans(item, [value] * len(spans), system),
        grid=even_grid("span", system),
        stated=spans[0] if len(set(spans)) == 1 else None,
        note=note,
    )
    grid = decades(0.01, 100.0)
    scaled = _load_sought(
        asked,
        "factor on the stated spans",
        "factor",
        lambda value: with_spans(item, [value * span for span in spans], system),
        grid,
        stated=1.0,
        note=note,
    )
    return [answer(uniform, asked), answer(scaled, asked)]


def _rules_text(hangs: Mapping[str, Any], system: System) -> str:
    """The rules that have a spacing for a pipe, the least first; nothing where none has."""
    found = rules_for(hangs.get("material", ""), hangs.get("size", ""), hangs.get("schedule", ""))
    unit = PRINTED[system][DISTANCE.name]
    each = [
        f"{name} {printed(bare(spacing, DISTANCE, system), up=False)} {unit}"
        for name, spacing in sorted(found.items(), key=lambda pair: pair[1])
    ]
    return f" Rules that have a value for this pipe: {', '.join(each)}." if each else ""


def answers(asked: Asked) -> list[dict[str, Any]]:
    """The values that a question asks for."""
    question: Mapping[str, Any] = asked.body["question"]
    simple = {
        "largest_load": largest_load,
        "least_embedment": least_embedment,
        "least_rod": least_rod,
        "least_thickness": least_thickness,
        "least_strength": least_strength,
        "largest_hanger_spacing": largest_hanger_spacing,
    }
    kind: str = question["kind"]
    if kind in simple:
        return simple[kind](asked)
    return least_edge(asked, question) if kind == "least_edge" else least_spacing(asked, question)
