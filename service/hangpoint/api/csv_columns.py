"""The columns of a CSV of hang points: dotted paths of the request's schema, and what a cell of each becomes.

A unit may follow a column in brackets and a cell's own unit wins; lists use ``;`` in the cell; an empty cell is
absent. Names of columns and words of closed lists are read without regard to case, sizes and quantities as the trade
writes them (`pack.trade_texts`). The columns come out of the schema
itself, so the two can't differ.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, NotRequired, Required, Union, cast, get_args, get_origin, get_type_hints

from typing_extensions import TypeAliasType, is_typeddict

from hangpoint.api.csv_cells import Cell
from hangpoint.api.csv_nothing import NO_EDGE
from hangpoint.api.schemas.field_texts import field_text
from hangpoint.api.schemas.quantities import WireQuantity
from hangpoint.api.schemas.request import Item
from hangpoint.pack.trade_texts import family_text, rod_text, schedule_text, size_text, word_key
from hangpoint.units import PRINTED, System

ALIASES: Mapping[str, str] = {
    "level": "at.level",
    "x": "at.x",
    "y": "at.y",
    "z": "at.z",
    "material": "hangs.material",
    "pipe_size": "hangs.size",
    "schedule": "hangs.schedule",
    "contents": "hangs.contents",
    "sprinkler": "hangs.sprinkler",
    "spans": "hangs.run.spans",
    "support": "hangs.run.support",
    "rod_size": "rod.size",
    "family": "anchor.family",
    "anchor_size": "anchor.size",
    "h_ef": "anchor.h_ef",
    "f_c": "base.strength.f_c",
    "thickness": "base.thickness",
    "edge_x_minus": "base.edges.x_minus",
    "edge_x_plus": "base.edges.x_plus",
    "edge_y_minus": "base.edges.y_minus",
    "edge_y_plus": "base.edges.y_plus",
    "seismic_category": "seismic.category",
}
"""Short names of columns; no two columns of a file may mean the same place."""

MORE_ALIASES: Mapping[str, str] = {"rod_length": "rod.length", "rods": "rod.number"}
"""Short names of columns that a take-off has besides."""

REQUIRED = (
    "id",
    "hangs.kind",
    "base.kind",
    "base.thickness",
    "base.edges.x_minus",
    "base.edges.x_plus",
    "base.edges.y_minus",
    "base.edges.y_plus",
    "seismic.category",
)
"""Columns that a file needs unless a default gives the value."""

OF_CHAPTER_17 = frozenset({"seismic.category"})
"""Of these what only ACI 318-19 needs: EN 1992-4 has no seismic design categories."""

ENOUGH = frozenset(
    {
        "allowance",
        "weight",
        "nature",
        "state",
        "member",
        "face",
        "facing",
        "category",
        "hydrotest",
        "exposure",
        "vibration",
        "flute",
    }
)
"""Last words of paths that say by themselves which column is meant; others are words of a job for more than that."""
NOTES = ("note", "notes", "remark", "remarks", "comment", "comments")
"""Titles of columns that are not read but handed back, also with more words behind them."""
_NOTE = re.compile(rf"(?:{'|'.join(NOTES)})(?:[ _:/-].*)?", re.IGNORECASE)
_BETWEEN = re.compile(r"[ _-]+")
_INDEX = re.compile(r"\.[0-9]+")

MAX_LIST = 20
MAX_INNER_LIST = 2
"""Places of a list within a place of another: the components of each load case. JSON has room for more."""
_READERS: Mapping[str, Callable[[str], str]] = {
    "hangs.size": size_text,
    "hangs.schedule": schedule_text,
    "rod.size": rod_text,
    "anchor.size": rod_text,
    "anchor.family": family_text,
}
"""Columns whose texts are read as the trade writes them."""
_MOST: Mapping[str, float] = {"hangs.run.spans": 30.0, "rod.length": 10.0}
"""Columns of lengths that are often kept in inches or millimetres, and the most of them without a unit, ft."""
_ZERO = frozenset({"hangs.insulation.thickness"})
"""Columns whose 0 says that nothing is there."""
_SHARED = frozenset({"at.level", "base.member", "trade", "area"})
"""Columns of names that points have in common."""
_MEANT: Mapping[str, Mapping[str, str]] = {
    "base.kind": {"conc": "concrete", "conc.": "concrete", "cmu": "masonry"},
    "base.density": {"nw": "normalweight", "nwc": "normalweight", "normal": "normalweight"},
    "hangs.material": {
        **dict.fromkeys(("carbonsteel", "blacksteel", "galvanizedsteel", "galvanisedsteel"), "steel"),
        "stainlesssteel": "stainless",
    },
    "hangs.contents": {"coldwater": "water", "hotwater": "water", "naturalgas": "gas"},
    "hangs.nature": {"deadload": "dead", "dl": "dead", "liveload": "live", "ll": "live"},
    **dict.fromkeys((f"base.edges.{side}" for side in ("x_minus", "x_plus", "y_minus", "y_plus")), NO_EDGE),
    "seismic.category": {f"sdc{letter}": letter.upper() for letter in "abcdef"},
}
"""Other names of words of closed lists, by `word_key`."""


@cache
def columns(item: Any = Item) -> Mapping[str, Cell]:
    """Every column of a hang point, or of another item, by its dotted path.

    Lists of objects have a place in the path: ``hangs.components.0.tension``. What may be a list or an object has the
    columns of both: ``anchor.layout.0.x`` and ``anchor.layout.pattern``.
    """
    found: dict[str, Cell] = {}
    _walk(item, "", found)
    return found


def column_path(name: str, item: Any = Item) -> str | None:
    """The path that a title of a column or a short name means; None where it means none, or may mean two.

    Case doesn't matter, nor whether its words have spaces, hyphens or underscores between them. The end of a path, with
    points or such between its words, is enough where no other column has it, and it is of two words or one of `ENOUGH`.
    """
    key = _folded(name)
    path = _paths(item).get(key)
    if path is None:
        key = key.replace(".", "_")
        ending = ends(item).get(key, ())
        if len(ending) == 1 and ("_" in key or key in ENOUGH):
            return ending[0]
    return path


def is_note(title: str) -> bool:
    """Whether a title, which names no column, is of a column of somebody's own."""
    return _NOTE.fullmatch(title) is not None


def meanings(name: str, item: Any = Item) -> tuple[str, ...]:
    """The columns that a title may mean which is the end of their paths, but not enough to tell."""
    return ends(item).get(_folded(name), ())


def bare_quantities(values: Mapping[str, Any], item: Any = Item) -> list[str]:
    """Paths of values of an item that are numbers of some unit without one; data of a product state their own."""
    known = columns(item)
    found: list[str] = []

    def look(value: Any, path: str) -> None:
        if isinstance(value, dict) and path != "anchor.product":
            for name, inner in cast(dict[str, Any], value).items():
                look(inner, f"{path}.{name}" if path else name)
        elif isinstance(value, list):
            for at, inner in enumerate(cast(list[Any], value)):
                look(inner, path if path in known else f"{path}.{at}")
        elif isinstance(value, int | float) and not isinstance(value, bool):
            cell = known.get(_INDEX.sub(".0", path))
            if cell is not None and cell.kind is not None:
                found.append(path)

    look(values, "")
    return list(dict.fromkeys(found))


def bare_unit(path: str, system: System, item: Any = Item) -> str:
    """Unit of a number without one at a path of an item; empty where none belongs there, or it is a product's."""
    cell = columns(item).get(_INDEX.sub(".0", path))
    return "" if cell is None or cell.kind is None else PRINTED[system][cell.kind.name]


@cache
def short_names(item: Any = Item) -> Mapping[str, str]:
    """Short names of the columns that an item has."""
    known = columns(item)
    return {name: path for name, path in {**ALIASES, **MORE_ALIASES}.items() if path in known}


@cache
def _paths(item: Any) -> Mapping[str, str]:
    """Columns by their paths and short names, folded; of a path with its points and, second to short names, without."""
    names = {_folded(path): path for path in columns(item)}
    short = {_folded(name): path for name, path in short_names(item).items()}
    return {key.replace(".", "_"): path for key, path in names.items()} | names | short


@cache
def ends(item: Any) -> Mapping[str, tuple[str, ...]]:
    """Columns by the ends of their paths, folded and with underscores for points; but not those in places of lists."""
    found: dict[str, dict[str, None]] = {}
    for path in columns(item):
        parts = path.split(".")
        if any(part.isdigit() for part in parts):
            continue
        for at in range(1, len(parts)):
            found.setdefault(_folded("_".join(parts[at:])), {})[path] = None
    return {key: tuple(paths) for key, paths in found.items()}


def _folded(name: str) -> str:
    return _BETWEEN.sub("_", name.strip().casefold())


def _walk(hint: Any, path: str, found: dict[str, Cell], text: str = "") -> None:
    hint = _bare_hint(hint)
    if is_typeddict(hint):
        for name, child in get_type_hints(hint, include_extras=True).items():
            _walk(child, f"{path}.{name}" if path else name, found, field_text(hint.__name__, name))
        return
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        for part in get_args(hint):
            _walk(part, path, found, text)
        return
    if origin is list:
        (inner,) = get_args(hint)
        if is_typeddict(_bare_hint(inner)):
            inside = any(part.isdigit() for part in path.split("."))
            for place in range(MAX_INNER_LIST if inside else MAX_LIST):
                _walk(inner, f"{path}.{place}", found)
        else:
            cell = replace(_leaf(inner, listed=True), text=text)
            if cell.plain is not object:
                found[path] = replace(cell, most=_MOST.get(path))
        return
    cell = replace(_leaf(hint), text=text)
    if path in found:  # The same place in several kinds of an object.
        cell = replace(cell, words={**found[path].words, **cell.words})
    if cell.plain is not object:
        found[path] = _as_the_trade_writes(cell, path)


def _as_the_trade_writes(cell: Cell, path: str) -> Cell:
    """A cell that reads the notations of the trade too."""
    if not cell.words:
        share = path.endswith(("allowance", "_fraction"))
        return replace(
            cell,
            reader=_READERS.get(path),
            share=share,
            shared=path in _SHARED,
            most=_MOST.get(path),
            zero=path in _ZERO,
        )
    keys = {word_key(word): word for word in cell.words.values()}
    return replace(cell, words={**keys, **_MEANT.get(path, {}), **cell.words})


def _bare_hint(hint: Any) -> Any:
    """A hint without NotRequired, Required and Annotated."""
    while get_origin(hint) in (NotRequired, Required, Annotated):
        hint = get_args(hint)[0]
    return hint


def _leaf(hint: Any, *, listed: bool = False) -> Cell:
    if isinstance(hint, TypeAliasType):
        metadata = get_args(hint.__value__)[1:]
        wire = next(each for each in metadata if isinstance(each, WireQuantity))
        return Cell(kind=wire.kind, listed=listed, words={wire.word.casefold(): wire.word} if wire.word else {})
    bare = _bare_hint(hint)
    if isinstance(bare, TypeAliasType):
        return _leaf(bare, listed=listed)
    if get_origin(bare) is Literal:
        return Cell(listed=listed, words={word.casefold(): word for word in get_args(bare)})
    # A product inline has no columns: it is an object of its own schema.
    return Cell(plain=bare if bare in (str, float, int, bool) else object, listed=listed)
