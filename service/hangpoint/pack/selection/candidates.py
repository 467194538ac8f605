"""The products of a catalogue as candidates, and their strengths in the conditions that points state."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from functools import cached_property
from typing import Any

import numpy as np

from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.hang_point.allowables import TableData
from hangpoint.core.hang_point.fasteners import FastenerData
from hangpoint.core.hang_point.points import Bonds, Points, Products
from hangpoint.core.hang_point.surroundings import DeckTests
from hangpoint.core.quantity import Bools, Index
from hangpoint.core.selection.candidates import NO_TOOL, Candidates, Offer
from hangpoint.pack.allowables import Place, bolts, places_of, table_data
from hangpoint.pack.anchors import product_columns
from hangpoint.pack.bond_choice import BondState, weighed_bond
from hangpoint.pack.bonds import PackedBonds, bonds_in_condition
from hangpoint.pack.decks import in_flutes
from hangpoint.pack.fasteners import fastener_data
from hangpoint.pack.pull import Object
from hangpoint.pack.surroundings import drilled_depth, follow_up
from hangpoint.product.allowable_rows import above
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.embedment import Embedment
from hangpoint.product.family import Family, Size
from hangpoint.product.principles import CAST_IN, MM_PER_INCH
from hangpoint.product.product_row import thread_diameter
from hangpoint.product.stocked import cost_index_of, minutes_of
from hangpoint.product.table import ProductTable, depth_text

EXPOSURES = {"dry": 0, "damp": 1, "outdoor": 2}
HOLDS_AGAIN = CAST_IN | {"torque_controlled_expansion", "undercut", "adhesive"}
"""Principles that take hold again, or never let go, under vibration (common practice, no source)."""

_PLAIN = BondState(cracked=True, seismic=False, f_c=2500.0)
"""Where the condition is stated whole, and nothing is weighed."""
NO_FLUTE = -1
NO_RANGE = ""
"""Stands for every temperature range that no adhesive has: one condition, however many names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """What strengths depend on: temperature range and state of the hole as stated, the place as tables ask, the flute.

    ``place`` is None where nothing goes by tables; its strength is that of tests, the highest not above the base.
    ``flute`` is `NO_FLUTE` in no deck. ``state`` says which bond is the least where temperature or hole is open.
    """

    temperature: str | None = None
    hole: str | None = None
    state: BondState | None = None
    place: Place | None = None
    flute: int = NO_FLUTE


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
        return cost_index_of(self.size, self.family.commercial) or np.inf

    @property
    def minutes(self) -> float:
        """Setting time of one, minutes; infinite where the data state none."""
        return minutes_of(self.size, self.family.commercial) or np.inf


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
        count = len(self.labels)
        holes = {(each.temperature, each.hole, each.state) for each in conditions}
        in_hole = {hole: self._in_hole(*hole) for hole in holes}
        packed = [in_hole[each.temperature, each.hole, each.state] for each in conditions]
        places = [[each.place] * count for each in conditions]
        bolt = [bolts(place, self.table) for place in places]
        tables = [self._tables(place, own) for place, own in zip(places, bolt, strict=True)]
        in_place = [
            self._in_place(product_columns(self.table, bonds.category), each.flute)
            for each, (bonds, _) in zip(conditions, packed, strict=True)
        ]
        return Offer(
            count=count,
            products=_joined(Products, [products for _, products in in_place]),
            bonds=_joined(Bonds, [bonds.bonds for bonds, _ in packed]),
            decks=_joined(DeckTests, [tests for tests, _ in in_place]),
            tables=_joined(TableData, tables),
            fasteners=_joined(
                FastenerData, [fastener_data(self.table, bonds.row, bonds.agreeing) for bonds, _ in packed]
            ),
            bolt=np.concatenate(bolt),
            fits=np.concatenate([fits for _, fits in packed]),
            steel=np.tile(self.table.steel, len(packed)),
            coating=np.tile(self.table.coating, len(packed)),
            follow_up=np.tile(follow_up(self.table), len(packed)),
            drilled=np.tile(drilled_depth(self.table), len(packed)),
        )

    def _in_hole(self, temperature: str | None, hole: str | None, state: BondState | None) -> tuple[PackedBonds, Bools]:
        return bonds_in_condition(
            self.table, temperature, hole, lambda row: weighed_bond(self.table.bond, row, state or _PLAIN)
        )

    def _tables(self, places: Sequence[Place | None], bolt: Bools) -> TableData:
        by_table = [None if own else place for place, own in zip(places, bolt.tolist(), strict=True)]
        return table_data(by_table, self.table)

    def _in_place(self, products: Products, flute: int) -> tuple[DeckTests, Products]:
        own = np.full(len(self.labels), flute != NO_FLUTE)
        return in_flutes(self.table, products, np.full(len(own), flute, dtype=np.int8), own)

    def conditions(
        self, points: Points, items: Sequence[Object], default: Mapping[str, Any]
    ) -> tuple[list[Condition], Index]:
        """The conditions of points, each once, and that of each point; ``items`` are what they came as."""
        behind = default.get("anchor", {}).get("adhesive", {})
        flutes: list[int] = np.where(points.decks.in_deck, points.decks.flute, NO_FLUTE).tolist()
        stated: list[Condition] = []
        states = _bond_states(points)
        for item, place, flute, state in zip(items, places_of(points), flutes, states, strict=True):
            own = {**behind, **item.get("anchor", {}).get("adhesive", {})}
            temperature, hole = own.get("temperature"), own.get("hole")
            stated.append(
                Condition(
                    temperature=temperature if temperature in self._temperatures else NO_RANGE,
                    hole=hole,
                    state=state if temperature is None or hole is None else None,
                    place=place and replace(place, f_base=self._tested_strength(place.f_base)),
                    flute=flute,
                )
            )
        distinct = {condition: at for at, condition in enumerate(dict.fromkeys(stated))}
        return list(distinct) or [Condition()], np.array([distinct[each] for each in stated], dtype=np.intp)

    @cached_property
    def _temperatures(self) -> frozenset[str | None]:
        """Names of the temperature ranges of all adhesives, and None for what isn't stated."""
        rows = range(len(self.table))
        named = (range_ for row in rows for range_, _ in self.table.bond_conditions(row))
        return frozenset({None, *named})

    @cached_property
    def _tested_strengths(self) -> list[float]:
        """Strengths of the bases of all tables, rising."""
        return sorted({load.f_ref for loads in self.table.loads for load in loads})

    def _tested_strength(self, f_base: float) -> float:
        """The highest strength of any tests that is not above the base; 0 where all are: tables take the same rows."""
        below = [own for own in self._tested_strengths if not above(own, f_base)]
        return below[-1] if below else 0.0


def _bond_states(points: Points) -> list[BondState]:
    bases = points.bases
    rows = zip(bases.cracked.tolist(), (bases.category >= SEISMIC_FROM).tolist(), bases.f_c.tolist(), strict=True)
    return [BondState(cracked=cracked, seismic=seismic, f_c=f_c) for cracked, seismic, f_c in rows]


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
