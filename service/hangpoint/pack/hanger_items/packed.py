"""Items of a request for the loads on hangers as columns of the core, or the flaws that keep an item out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hanger.hanger_cases import CONTENTS, DEAD
from hangpoint.core.hanger.items import EQUIPMENT, RISER, RUN, TRAPEZE, Given, Items, Rods, Seismic
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.hanger_items.bars import PackedTiers, pack_tiers
from hangpoint.pack.hanger_items.equipment import pack_equipment
from hangpoint.pack.hanger_items.given import pack_given, snow
from hangpoint.pack.hanger_items.lines import PackedLines, pack_lines
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.hanger_items.risers import pack_risers
from hangpoint.pack.hanger_items.rods import pack_rods
from hangpoint.pack.hanger_items.runs import pack_runs
from hangpoint.pack.hanger_items.seismic import pack_seismic
from hangpoint.pack.hanger_items.spacings import pack_spacings, rules_of_lines, spacing_key
from hangpoint.pack.pull import Object, Rows
from hangpoint.units import COORDINATE, FORCE, System

KIND_CODES = {"run": RUN, "riser": RISER, "trapeze": TRAPEZE, "equipment": EQUIPMENT}
_ALWAYS_UNCHECKED = (LoadNotChecked.ANCHORS, LoadNotChecked.HARDWARE, LoadNotChecked.STRUCTURE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where the items are, None where not stated; ``x``, ``y``, ``z`` ft, ``bearing`` degrees, nan where not stated."""

    level: Sequence[str | None]
    trade: Sequence[str | None]
    x: Floats
    y: Floats
    z: Floats
    bearing: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class LineLabels:
    """What of a line stands in no column of the core, (lines,).

    ``kind`` as the request names it; ``weight_by`` is `lines.COMPUTED`, `lines.TABLE` or `lines.STATED`;
    ``spacings`` every spacing rule that has a value for the line, ft.
    """

    kind: Sequence[str]
    weight_by: Sequence[str]
    description: Sequence[str | None]
    spacings: Sequence[Mapping[str, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedLoads:
    """A batch in columns: ``index`` is the row in the request of each item, ``hangers`` how many each has.

    ``category`` is the seismic design category and ``rod_sizes`` the size of the rod as stated, None where it isn't.
    """

    items: Items
    index: Sequence[int]
    ids: Sequence[str]
    kinds: Sequence[str]
    hangers: Index
    places: Places
    category: Sequence[str | None]
    rod_sizes: Sequence[str | None]
    lines: LineLabels
    assumptions: Flags
    not_checked: Flags


def pack_hanger_items(
    objects: Sequence[Object],
    *,
    default: Mapping[str, Any],
    index: Sequence[int],
    system: System,
    standard_stated: bool,
    load_standard: str,
    flaws: Flaws,
) -> PackedLoads:
    """Read every place of every item.

    Args:
        objects: items that have passed the schema.
        default: the defaults of the request.
        index: row in the request of each item.
        system: unit system of bare numbers.
        standard_stated: the request names ``load_standard``.
        load_standard: the edition in force, of `combination_tables.EDITIONS`.
        flaws: takes what is wrong; if it takes anything the columns hold neutral numbers there and are not to be used.
    """
    count = len(objects)
    items = Rows(objects, default=default, path="", index=index, local=range(count), system=system, flaws=flaws)
    kinds: Sequence[str] = items.values("kind")
    kind = np.array([KIND_CODES[name] for name in kinds], dtype=np.int8)
    notes = Notes(count)
    for always in _ALWAYS_UNCHECKED:
        notes.not_checked.set(always)

    def of_kind(*codes: int) -> Rows:
        return items.taken(np.flatnonzero(np.isin(kind, codes)).tolist())

    trapezes, running = of_kind(TRAPEZE), of_kind(RUN, TRAPEZE)
    tiers = pack_tiers(trapezes, notes)
    lines = pack_lines(of_kind(RUN, RISER), tiers, notes)
    runs = pack_runs(running, kind[running.local], notes)
    risers = pack_risers(of_kind(RISER), notes)
    bodies = pack_equipment(of_kind(EQUIPMENT), notes)
    keys = [spacing_key(line) for line in lines.objects]
    hangers, lost, lengths = np.ones(count, dtype=np.intp), np.full(count, -1, dtype=np.intp), np.zeros(count)
    hangers[runs.runs.item], lost[runs.runs.item] = runs.runs.span_count + 1, runs.runs.missing
    hangers[trapezes.local], hangers[risers.item] = tiers.rods, risers.supports
    lengths[risers.item] = risers.length
    hangers[bodies.equipment.item] = np.bincount(bodies.rods.body, minlength=len(bodies.equipment.item))
    given = pack_given(items, hangers, lost, notes)
    lined = np.bincount(lines.lines.item, minlength=count) > 0
    seismic = pack_seismic(items, kind, lengths, lined, load_standard=load_standard, notes=notes)
    _say_unshaken(given, seismic.item, notes)
    braced = np.isin(lines.lines.item, seismic.item[seismic.braced])
    notes.leave_unchecked(LoadNotChecked.SPRINKLER_BRACE, braced & lines.lines.sprinkler, lines.lines.item)
    spare, erection = _shares(items, trapezes, notes)
    erected = tiers.tiers.checked & (erection[tiers.tiers.item] > 0)
    notes.leave_unchecked(LoadNotChecked.BAR_ERECTION, erected, tiers.tiers.item)
    shared = _shared_supports(lines, tiers, kind, notes)
    rods = pack_rods(items, lines.lines, shared, given, notes)
    _say_rod_size(rods, lines, kind, notes)
    _say_pushed(rods, seismic, notes)
    by_standard = snow(given, count)
    by_standard[seismic.item] = True
    notes.assume(LoadAssumption.LOAD_STANDARD, by_standard & (not standard_stated), np.arange(count))
    labels = LineLabels(
        kind=lines.kind,
        weight_by=lines.weight_by,
        description=[line.get("description") for line in lines.objects],
        spacings=rules_of_lines(keys, lines.lines, (kind != RISER).tolist()),
    )
    return PackedLoads(
        items=Items(
            count=count,
            kind=kind,
            spare=spare,
            impact=items.numbers("impact", 1.0),
            erection=erection,
            lines=lines.lines,
            pipes=lines.pipes,
            ducts=lines.ducts,
            conduits=lines.conduits,
            trays=lines.trays,
            stated=lines.stated,
            runs=runs.runs,
            run_loads=runs.loads,
            tiers=tiers.tiers,
            bar_loads=tiers.loads,
            risers=risers,
            equipment=bodies.equipment,
            equipment_rods=bodies.rods,
            rods=rods,
            spacings=pack_spacings(keys, lines.lines, runs.runs, runs.rules, notes),
            given=given,
            seismic=seismic,
        ),
        index=index,
        ids=items.values("id"),
        kinds=kinds,
        hangers=hangers,
        places=_places(items),
        category=items.child("seismic").values("category"),
        rod_sizes=items.child("rod").values("size"),
        lines=labels,
        assumptions=notes.assumptions,
        not_checked=notes.not_checked,
    )


def _say_rod_size(rods: Rods, lines: PackedLines, kind: Codes, notes: Notes) -> None:
    """No rod of a run of pipe is compared with a table by the size of the pipe, but for sprinkler lines."""
    item = lines.lines.item
    pipe = np.array([each == "pipe" for each in lines.kind], dtype=np.bool_) & ~lines.lines.sprinkler
    notes.leave_unchecked(LoadNotChecked.ROD_SIZE, pipe & (kind[item] == RUN) & (rods.d[item] > 0), item)


def _say_pushed(rods: Rods, seismic: Seismic, notes: Notes) -> None:
    """Whether rods beside braces are checked as columns."""
    known = ((rods.d > 0) & np.isfinite(rods.l_free))[seismic.item]
    notes.leave_unchecked(LoadNotChecked.ROD_BUCKLING, seismic.braced & ~known, seismic.item)
    notes.assume(LoadAssumption.ROD_AS_COLUMN, seismic.braced & known, seismic.item)


def _say_unshaken(given: Given, shaken: Index, notes: Notes) -> None:
    """Weight that is stated at hangers of items with a seismic force."""
    hangs = np.isin(given.nature, (DEAD, CONTENTS)) & (given.n > 0)
    notes.assume(LoadAssumption.STATED_NOT_SHAKEN, hangs & np.isin(given.item, shaken), given.item)


def _shares(items: Rows, trapezes: Rows, notes: Notes) -> tuple[Floats, Floats]:
    """What is kept free on trapezes, and the live load at one hanger at a time, lbf."""
    notes.assume(LoadAssumption.NO_SPARE, trapezes.silent("spare"), trapezes.local)
    erection = items.quantity("erection_load", FORCE, fill=0.0)
    flaw_where(items, erection < 0, "erection_load", "The erection load is at least 0.", slug="quantity")
    notes.assume(LoadAssumption.NO_ERECTION, items.silent("erection_load"), range(len(items)))
    return items.numbers("spare", 0.0), erection


def _shared_supports(lines: PackedLines, tiers: PackedTiers, kind: Codes, notes: Notes) -> Bools:
    """(items,) where a sprinkler line shares its support with another line or a load on a bar.

    Says of such trapezes by which rule they go, and that their bars don't: the modulus that the sprinkler standard asks
    for counts sprinkler lines, not what hangs beside them.
    """
    of, bars = lines.lines, tiers.tiers
    sprinkler = np.bincount(of.item, weights=of.sprinkler, minlength=len(kind))
    several = np.bincount(of.item, weights=of.number, minlength=len(kind)) > 1
    beside = np.zeros(len(kind), dtype=np.bool_)
    beside[of.item[~of.sprinkler]] = beside[bars.item[tiers.loads.row]] = True
    shared = (sprinkler > 0) & (several | beside)
    notes.assume(LoadAssumption.SPRINKLER_SHARED, (kind == TRAPEZE) & shared, np.arange(len(kind)))
    notes.leave_unchecked(
        LoadNotChecked.BAR_SPRINKLER_RULE, bars.checked & ((sprinkler > 0) & beside)[bars.item], bars.item
    )
    return shared


def _places(items: Rows) -> Places:
    at = items.child("at")
    return Places(
        level=at.values("level"),
        trade=items.values("trade"),
        x=at.quantity("x", COORDINATE),
        y=at.quantity("y", COORDINATE),
        z=at.quantity("z", COORDINATE),
        bearing=at.numbers("bearing", np.nan),
    )
