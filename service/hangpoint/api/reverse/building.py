"""Changes of a hang point that one can build, the smallest of each kind first."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked
from hangpoint.api.reverse.changes import TOWARDS, bare, displaced, edges_of, read, spans_of, with_spans
from hangpoint.api.reverse.merge_patch import difference
from hangpoint.api.reverse.words import length_text, printed
from hangpoint.core.hanger.rod import THREADS
from hangpoint.pack.objects import value_at
from hangpoint.units import DISTANCE, LENGTH, PRINTED, System

_MOVES: dict[System, tuple[float, int]] = {"us": (0.5, 48), "si": (10.0, 60)}
"""Step of a move and the number of steps."""

_CLOSER = (0.9, 0.8, 0.75, 2 / 3, 0.6, 0.5, 1 / 3)
_MOST_RODS = 4
_SPACING_STEP: dict[System, float] = {"us": 0.5, "si": 10.0}
COUPLING = "with a coupling that takes the threads of both rod and anchor"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change that one can build: its kind, its words, and the patch of the item.

    ``line`` tells changes of one kind apart of which only the smallest that passes matters, as the directions of a
    move.
    """

    kind: str
    line: str
    text: str
    patch: Mapping[str, Any]


def product_changes(asked: Asked) -> list[Change]:
    """Other embedments of the same size, and larger sizes of the same family."""
    return [*_deeper(asked), *_larger(asked)]


def other_changes(asked: Asked, *, every: int = 1) -> list[Change]:
    """All other changes; ``every`` takes each so many-th step of a move only."""
    return [*_rods(asked), *_moves(asked, every), *_added(asked), *_closer(asked), *_gap(asked)]


def _deeper(asked: Asked) -> Iterator[Change]:
    anchor = asked.item.get("anchor", {})
    if "family" not in anchor:
        return
    h_ef = read(anchor["h_ef"], LENGTH, asked.system)
    for size, depth in products(asked):
        if size == anchor["size"] and depth > h_ef * (1 + 1e-9):
            deeper, now = (length_text(value, asked.system) for value in (depth, h_ef))
            text = f"Set it deeper: {deeper} embedment (h_ef) in place of {now}."
            yield Change(kind="deeper_embedment", line="", text=text, patch={"anchor": {"h_ef": depth}})


def _larger(asked: Asked) -> Iterator[Change]:
    anchor = asked.item.get("anchor", {})
    if "family" not in anchor:
        return
    family = asked.situation.catalogue.families[anchor["family"]]
    sizes = [each.size for each in family.sizes]
    threads = {each.size: each.thread for each in family.sizes}
    first = sizes.index(anchor["size"])
    for size, depth in products(asked):
        if sizes.index(size) <= first:
            continue
        deep = length_text(depth, asked.system)
        text = f"Take size {size} of the same family in place of {anchor['size']}, {deep} embedment"
        patch: dict[str, Any] = {"anchor": {"size": size, "h_ef": depth}}
        thread = threads[size]
        rod = value_at(asked.item, "rod", "size")
        if rod is not None and thread != rod and thread in THREADS:
            if family.traits.internally_threaded:
                patch["rod"] = {"size": thread}
                text += f", and a {thread} rod that fits it"
            else:
                text += f", {COUPLING}"
        yield Change(kind="larger_size", line=size, text=f"{text}.", patch=patch)


def products(asked: Asked) -> Iterator[tuple[str, float]]:
    """Sizes and embedments of the family, in the order of the catalogue; embedments in the unit of the request."""
    table = asked.situation.catalogue.table
    start = f"{asked.item['anchor']['family']}/"
    rows = [row for row, address in enumerate(table.address) if address.startswith(start)]
    for row in rows:
        size = table.address[row].removeprefix(start).rpartition("/")[0]
        yield size, bare(float(table.h_ef[row]), LENGTH, asked.system)


def _rods(asked: Asked) -> Iterator[Change]:
    size = value_at(asked.item, "rod", "size")
    if size is None:
        return
    alike = [name for name in THREADS if name.startswith("M") is size.startswith("M")]
    larger = [name for name in alike if THREADS[name].d > THREADS[size].d]
    for name in larger[:_MOST_RODS]:
        text = f"Take a {name} rod in place of {size}, {COUPLING}."
        yield Change(kind="larger_rod", line="", text=text, patch={"rod": {"size": name}})


def _moves(asked: Asked, every: int) -> Iterator[Change]:
    step, count = _MOVES[asked.system]
    edges = edges_of(asked.item, asked.system)
    for side, (x, y) in TOWARDS.items():
        axis = "x" if x else "y"
        if not any(np.isfinite(edges.get(f"{axis}_{end}", np.inf)) for end in ("minus", "plus")):
            continue
        for turn in range(every, count + 1, every):
            distance = step * turn
            patch = difference(asked.item, displaced(asked.item, x * distance, y * distance, asked.system))
            yield Change(
                kind="moved",
                line=side,
                text=f"Move the point {length_text(distance, asked.system)} towards {side}.",
                patch=patch,
            )


def _added(asked: Asked) -> Iterator[Change]:
    if len(asked.own.packed.points.layouts.point) > 1:
        return
    products = asked.own.packed.points.products
    h_ef, least = float(products.h_ef[0]), max(float(products.s_min[0]), float(products.s_min_code[0]))
    step = _SPACING_STEP[asked.system]
    spacings = [
        float(np.ceil(bare(each, LENGTH, asked.system) / step - 1e-9) * step)
        for each in (least, max(least, 1.5 * h_ef), max(least, 3 * h_ef))
    ]
    for spacing in dict.fromkeys(spacings):
        apart = f"{length_text(spacing, asked.system)} apart, under one stiff attachment"
        for axis, angle in (("x", 0), ("y", 90)):
            row = {"pattern": "row", "count": 2, "spacing": spacing, "angle": angle}
            text = f"Two anchors along {axis}, {apart}."
            yield Change(kind="anchors_added", line=f"2{axis}", text=text, patch={"anchor": {"layout": row}})
    for spacing in dict.fromkeys(spacings):
        square = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": spacing, "spacing_y": spacing}
        text = f"Four anchors in a square, {length_text(spacing, asked.system)} apart, under one stiff attachment."
        yield Change(kind="anchors_added", line="4", text=text, patch={"anchor": {"layout": square}})


def _closer(asked: Asked) -> Iterator[Change]:
    if asked.item["hangs"]["kind"] != "pipe":
        return
    spans = spans_of(asked.item, asked.system)
    unit = PRINTED[asked.system][DISTANCE.name]
    for factor in _CLOSER:
        shorter = [span * factor for span in spans]
        listed = ", ".join(printed(span, up=False) for span in shorter)
        share = f"Bring the hangers to {factor:.3g} of their spacing"
        how = "Halve the spacing of the hangers" if factor == 0.5 else share
        patch = difference(asked.item, with_spans(asked.item, shorter, asked.system))
        yield Change(kind="hangers_closer", line="", text=f"{how}: spans {listed} {unit}.", patch=patch)


def _gap(asked: Asked) -> Iterator[Change]:
    if value_at(asked.item, "attachment", "gap") is not None:
        yield Change(
            kind="gap_closed",
            line="",
            text="Close the gap between base and attachment.",
            patch={"attachment": {"gap": None}},
        )
