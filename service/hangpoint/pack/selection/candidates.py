"""The products of a catalogue as candidates, and their strengths in the conditions that points state."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cached_property
from typing import Any

import numpy as np

from hangpoint.core.hang_point.points import Bonds, Products
from hangpoint.core.quantity import Index
from hangpoint.core.selection.candidates import NO_TOOL, Candidates, Offer
from hangpoint.pack.anchors import product_columns
from hangpoint.pack.bonds import bonds_in_condition
from hangpoint.pack.pull import Object
from hangpoint.pack.surroundings import drilled_depth, follow_up
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.embedment import Embedment
from hangpoint.product.family import Family, Size
from hangpoint.product.principles import CAST_IN, MM_PER_INCH
from hangpoint.product.product_row import thread_diameter
from hangpoint.product.table import ProductTable, depth_text

EXPOSURES = {"dry": 0, "damp": 1, "outdoor": 2}
HOLDS_AGAIN = CAST_IN | {"torque_controlled_expansion", "undercut", "adhesive"}
"""Principles that take hold again, or never let go, under vibration (common practice, no source)."""

Condition = tuple[str | None, str | None]
"""Temperature range and state of the hole as stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What of a product stands in no column: its family, size, embedment and address."""

    family: Family
    size: Size
    embedment: Embedment
    address: str

    @property
    def anchor(self) -> dict[str, Any]:
        """The product as the anchor of a hang point names it."""
        unit = "in" if self.family.units == "us" else "mm"
        return {
            "family": self.family.id,
            "size": self.size.size,
            "h_ef": f"{depth_text(self.embedment.h_ef)} {unit}",
        }

    @property
    def cost_index(self) -> float:
        """Cost of one; infinite where the data state none."""
        return _first(self.size.cost_index, self.family.commercial and self.family.commercial.cost_index)

    @property
    def minutes(self) -> float:
        """Setting time of one, minutes; infinite where the data state none."""
        return _first(self.size.minutes, self.family.commercial and self.family.commercial.minutes)


class Shelf:
    """A catalogue as candidates: ``columns``, ``labels`` a row, and the words of families and setting tools."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.table: ProductTable = catalogue.table
        self.families = tuple(catalogue.families)
        self.labels: list[Label] = _labels(catalogue)

    @cached_property
    def tools(self) -> tuple[str, ...]:
        """Setting tools that any family needs."""
        named = (label.family.traits.setting_tool for label in self.labels)
        return tuple(sorted({tool for tool in named if tool is not None}))

    @cached_property
    def columns(self) -> Candidates:
        """The products as columns."""
        traits = [label.family.traits for label in self.labels]
        place = {tool: at for at, tool in enumerate(self.tools)}
        holes = [_hole(label) for label in self.labels]
        return Candidates(
            family=self.table.family_index,
            cost_index=np.array([label.cost_index for label in self.labels]),
            minutes=np.array([label.minutes for label in self.labels]),
            hole_diameter=np.array([diameter for diameter, _ in holes]),
            hole_depth=np.array([depth for _, depth in holes]),
            h_ef=self.table.h_ef,
            d_a=self.table.d_a,
            thread_d=np.array([thread_diameter(label.size.thread) for label in self.labels]),
            cast_in=np.array([label.family.principle in CAST_IN for label in self.labels]),
            flush=np.array([each.flush for each in traits]),
            internally_threaded=np.array([each.internally_threaded for each in traits]),
            removable=np.array([each.removable for each in traits]),
            training=np.array([each.training for each in traits]),
            holds_again=np.array([label.family.principle in HOLDS_AGAIN for label in self.labels]),
            tool=np.array([place.get(each.setting_tool or "", NO_TOOL) for each in traits], dtype=np.intp),
            exposure=np.array([EXPOSURES[each.exposure] for each in traits], dtype=np.int8),
        )

    def offer(self, conditions: Sequence[Condition]) -> Offer:
        """Strengths of all products in each of the conditions."""
        packed = [bonds_in_condition(self.table, *condition) for condition in conditions]
        products = [product_columns(self.table, bonds.category) for bonds, _ in packed]
        return Offer(
            count=len(self.labels),
            products=_joined(Products, products),
            bonds=_joined(Bonds, [bonds.bonds for bonds, _ in packed]),
            fits=np.concatenate([fits for _, fits in packed]),
            steel=np.tile(self.table.steel, len(packed)),
            coating=np.tile(self.table.coating, len(packed)),
            follow_up=np.tile(follow_up(self.table), len(packed)),
            drilled=np.tile(drilled_depth(self.table), len(packed)),
        )


def conditions_of(items: Sequence[Object], default: Mapping[str, Any]) -> tuple[list[Condition], Index]:
    """The conditions that items state, each once, and that of each item."""
    behind = default.get("anchor", {}).get("adhesive", {})
    stated: list[Condition] = []
    for item in items:
        own = {**behind, **item.get("anchor", {}).get("adhesive", {})}
        stated.append((own.get("temperature"), own.get("hole")))
    distinct = {condition: at for at, condition in enumerate(dict.fromkeys(stated))}
    return list(distinct) or [(None, None)], np.array([distinct[each] for each in stated], dtype=np.intp)


def _labels(catalogue: Catalogue) -> list[Label]:
    rows = (
        (family, size, embedment)
        for family in catalogue.families.values()
        for size in family.sizes
        for embedment in size.embedments
    )
    return [
        Label(family=family, size=size, embedment=embedment, address=address)
        for (family, size, embedment), address in zip(rows, catalogue.addresses, strict=True)
    ]


def _first(*stated: float | None) -> float:
    return next((own for own in stated if own is not None), np.inf)


def _hole(label: Label) -> tuple[float, float]:
    """Diameter and depth of the hole, in; zeros where none is drilled."""
    hole = label.embedment.hole
    if hole is None:
        return 0.0, 0.0
    factor = 1.0 if label.family.units == "us" else 1 / MM_PER_INCH
    return hole.diameter * factor, hole.depth * factor


def _joined(kind: Any, tables: Sequence[Any]) -> Any:
    if len(tables) == 1:
        return tables[0]
    return kind(**{each.name: np.concatenate([getattr(own, each.name) for own in tables]) for each in fields(kind)})
