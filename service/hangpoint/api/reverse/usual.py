"""The usual what-ifs of an item: another size, another embedment, cracked or not, weaker concrete, half the edge."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked
from hangpoint.api.reverse.building import products
from hangpoint.api.reverse.changes import edges_of, read, scaled_layout, spans_of, with_edge, with_spans
from hangpoint.api.reverse.merge_patch import difference
from hangpoint.api.reverse.shown import DECIDED_BY
from hangpoint.pack.objects import value_at
from hangpoint.units import LENGTH

_WALLS = ("40", "10")
_WALLED = ("steel", "stainless")


def usual_changes(asked: Asked) -> Iterator[dict[str, Any]]:
    """Changes with a name and a patch; those that mean nothing for the item are left out."""
    yield from _product(asked)
    yield from _concrete(asked)
    yield from _spacing(asked)
    yield from _wall(asked)


def _named(name: str, patch: dict[str, Any]) -> dict[str, Any]:
    return {"name": name, "patch": patch}


def _product(asked: Asked) -> Iterator[dict[str, Any]]:
    anchor = asked.item.get("anchor", {})
    if "family" not in anchor:
        return
    h_ef = read(anchor["h_ef"], LENGTH, asked.system)
    known = list(products(asked))
    sizes = list(dict.fromkeys(size for size, _ in known))
    own = sizes.index(anchor["size"])
    for name, place in (("one size up", own + 1), ("one size down", own - 1)):
        if 0 <= place < len(sizes):
            depth = min((deep for size, deep in known if size == sizes[place]), key=lambda deep: abs(deep - h_ef))
            yield _named(f"{name}: {sizes[place]}", {"anchor": {"size": sizes[place], "h_ef": depth}})
    depths = sorted(deep for size, deep in known if size == anchor["size"])
    deeper = [deep for deep in depths if deep > h_ef * (1 + 1e-9)]
    if deeper:
        yield _named("next embedment", {"anchor": {"h_ef": deeper[0]}})


def _concrete(asked: Asked) -> Iterator[dict[str, Any]]:
    item = asked.item
    if value_at(item, "base", "state") == "uncracked":
        yield _named("cracked", {"base": {"state": "cracked", "state_decided_by": None}})
    else:
        yield _named("uncracked", {"base": {"state": "uncracked", "state_decided_by": DECIDED_BY}})
    if asked.by_en:
        yield _named("concrete C20/25", {"base": {"strength": {"class": "C20/25"}}})
    else:
        yield _named("f'c 3000 psi", {"base": {"strength": {"f_c": "3000 psi"}}})
    edges = edges_of(item, asked.system)
    side = min(edges, key=edges.__getitem__, default="")
    if np.isfinite(edges.get(side, np.inf)):
        yield _named(f"half the edge {side}", difference(item, with_edge(item, side, edges[side] / 2)))


def _spacing(asked: Asked) -> Iterator[dict[str, Any]]:
    item = asked.item
    several = len(asked.own.packed.points.layouts.point) > 1
    for name, factor in (("a quarter more", 1.25), ("a quarter less", 0.75)):
        if item["hangs"]["kind"] == "pipe":
            spans = [span * factor for span in spans_of(item, asked.system)]
            yield _named(f"spacing of hangers, {name}", difference(item, with_spans(item, spans, asked.system)))
        if several:
            changed = scaled_layout(item, factor, asked.system)
            yield _named(f"spacing of anchors, {name}", difference(item, changed))


def _wall(asked: Asked) -> Iterator[dict[str, Any]]:
    hangs = asked.item["hangs"]
    if hangs["kind"] != "pipe" or hangs.get("material") not in _WALLED:
        return
    for schedule in _WALLS:
        if hangs.get("schedule") != schedule:
            yield _named(f"schedule {schedule}", {"hangs": {"schedule": schedule, "wall": None}})
