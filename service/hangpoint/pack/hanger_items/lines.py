"""Lines of runs, risers and trapezes on one flat axis, rising by item, and the tables of each kind."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import ConduitLines, DuctLines, Lines, PipeLines, StatedLines, TrayLines
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.bars import PackedTiers
from hangpoint.pack.hanger_items.conduits import pack_conduits
from hangpoint.pack.hanger_items.ducts import pack_ducts
from hangpoint.pack.hanger_items.notes import Notes
from hangpoint.pack.hanger_items.pipes import pack_pipes
from hangpoint.pack.hanger_items.stated_lines import pack_stated
from hangpoint.pack.hanger_items.trays import pack_trays
from hangpoint.pack.pull import EMPTY, Rows

COMPUTED, TABLE, STATED = "computed", "table", "stated"
"""How the weight of a line came about: from its dimensions, from a table of weights or load classes, as stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedLines:
    """All lines: ``objects`` as they came, ``kind`` and ``weight_by`` a word each, (lines,)."""

    lines: Lines
    pipes: PipeLines
    ducts: DuctLines
    conduits: ConduitLines
    trays: TrayLines
    stated: StatedLines
    objects: Sequence[Any]
    kind: Sequence[str]
    weight_by: Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Flat:
    rows: Rows
    item: Index
    tier: Index
    at: Floats


def pack_lines(singles: Rows, tiers: PackedTiers, notes: Notes) -> PackedLines:
    """Read the line of each run and riser, ``singles``, and those of the tiers of trapezes."""
    flat = _flat(singles, tiers)
    objects, item = flat.rows.objects, flat.item
    kinds: list[str] = [line["kind"] for line in objects]

    def of_kind(kind: str) -> tuple[Rows, Index]:
        at = [place for place, own in enumerate(kinds) if own == kind]
        return flat.rows.taken(at), item[at]

    sprinkler = np.array([line.get("sprinkler", False) for line in objects], dtype=np.bool_)
    notes.leave_unchecked(LoadNotChecked.LISTING, sprinkler, item)
    notes.assume(
        LoadAssumption.NO_ALLOWANCE,
        [kind != "duct" and "allowance" not in line for kind, line in zip(kinds, objects, strict=True)],
        item,
    )
    return PackedLines(
        lines=Lines(
            item=item,
            tier=flat.tier,
            at=flat.at,
            number=np.array([line.get("number", 1) for line in objects], dtype=np.float64),
            sprinkler=sprinkler,
        ),
        pipes=pack_pipes(*of_kind("pipe"), notes),
        ducts=pack_ducts(*of_kind("duct"), notes),
        conduits=pack_conduits(*of_kind("conduit"), notes),
        trays=pack_trays(*of_kind("tray"), notes),
        stated=pack_stated(*of_kind("line"), notes),
        objects=objects,
        kind=kinds,
        weight_by=[_weight_by(line) for line in objects],
    )


def _flat(singles: Rows, tiers: PackedTiers) -> _Flat:
    """Both kinds of places merged: the lines of an item in the order of its tiers and of the list of each."""
    alone, on_bar = singles.child("line"), tiers.on_bar.child("line")
    item = np.concatenate([np.asarray(singles.local, dtype=np.intp), tiers.tiers.item[tiers.tier_of_line]])
    order = np.argsort(item, kind="stable")
    places: list[int] = order.tolist()
    both = [*alone.objects, *on_bar.objects]
    index = [*alone.index, *on_bar.index]
    within = [*(alone.path for _ in alone.objects), *(before + on_bar.path for before in on_bar.within)]
    none = np.full(len(alone), -1, dtype=np.intp)
    return _Flat(
        rows=Rows(
            [both[place] for place in places],
            default=EMPTY,
            path="",
            index=[index[place] for place in places],
            local=range(len(places)),
            system=singles.system,
            flaws=singles.flaws,
            within=[within[place] for place in places],
        ),
        item=item[order],
        tier=np.concatenate([none, tiers.tier_of_line])[order],
        at=np.concatenate([np.zeros(len(alone)), tiers.line_at])[order],
    )


def _weight_by(line: Any) -> str:
    kind = line["kind"]
    if kind in ("pipe", "duct"):
        return COMPUTED
    return TABLE if kind == "conduit" or "load_class" in line else STATED
