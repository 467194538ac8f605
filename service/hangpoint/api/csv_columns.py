"""The columns of a CSV of hang points: dotted paths of the request's schema, and what a cell of each becomes.

A unit may follow a column in brackets and a cell's own unit wins; lists use ``;`` in the cell; an empty cell is
absent. Names of columns and words of closed lists are read without regard to case, sizes and quantities as the trade
writes them (`pack.trade_texts`). The columns come out of the schema
itself, so the two can't differ.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, NotRequired, Required, Union, cast, get_args, get_origin, get_type_hints

from typing_extensions import TypeAliasType, is_typeddict

from hangpoint.api.schemas.quantities import WireQuantity
from hangpoint.api.schemas.request import Item
from hangpoint.pack.trade_texts import quantity_text, rod_text, schedule_text, size_text, word_key
from hangpoint.units import PRINTED, QuantityKind, System

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

MAX_LIST = 20
MAX_INNER_LIST = 2
"""Places of a list within a place of another: the components of each load case. JSON has room for more."""
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_BARE = re.compile(r"[+-]?(?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*")
_WORDS = {"true": True, "yes": True, "1": True, "false": False, "no": False, "0": False}
_LETTERS = {"y": True, "n": False}
_READERS: Mapping[str, Callable[[str], str]] = {
    "hangs.size": size_text,
    "hangs.schedule": schedule_text,
    "rod.size": rod_text,
    "anchor.size": rod_text,
}
"""Columns whose texts are read as the trade writes them."""
_MEANT: Mapping[str, Mapping[str, str]] = {
    "base.density": {"nw": "normalweight", "nwc": "normalweight"},
    "seismic.category": {f"sdc{letter}": letter.upper() for letter in "abcdef"},
}
"""Other names of words of closed lists, by `word_key`."""
_DN = re.compile(r"dn ?[0-9]+", re.IGNORECASE)
_NO_ANSWER = {"-", "--", "n/a", "na", "n.a.", "–", "—"}


@dataclass(eq=False)
class CellError(ValueError):
    """A cell that can't be read, whatever the schema says of its text."""

    code: str
    detail: str
    allowed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What a cell holds: a quantity of a kind, or a plain type; one of them or a list.

    ``words`` are those of the closed list that a text is of, or that may stand for a quantity, by their small letters.
    """

    kind: QuantityKind | None = None
    plain: type = str
    listed: bool = False
    words: Mapping[str, str] = field(default_factory=dict[str, str])
    reader: Callable[[str], str] | None = None

    def value(self, text: str, *, unit: str, system: System | None, comma: bool) -> Any:
        """The cell's text as it would stand in JSON; what can't be read stays text and fails by the schema.

        Raises:
            CellError: an empty place in a list; a bare number where neither the column nor the request states a unit; a
                point in a number where the comma is the decimal sign, a comma where it isn't; neither yes nor no where
                one of them stands.
        """
        if self.listed:
            parts = [part.strip() for part in text.removesuffix(";").split(";")]
            if not all(parts):
                raise CellError("empty-place", "A list has an empty place between its signs ;: fill it or take it out.")
            return [self._one(part, unit, system, comma) for part in parts]
        return self._one(text, unit, system, comma)

    def _one(self, text: str, unit: str, system: System | None, comma: bool) -> Any:
        word = self.words.get(text.casefold())
        if word is not None:
            return word
        if self.words:
            word = self.words.get(word_key(text))
            if word is not None:
                return word
            self._refuse(text)
        if self.reader is not None:
            return self._sized(self.reader(text))
        if self.kind is not None or self.plain is float:
            text = _with_point(text) if comma else _without_comma(text)
        if self.kind is not None:
            return self._quantity(quantity_text(text, self.kind.name), unit, system)
        if self.plain is bool:
            known = {**_WORDS, **_LETTERS}.get(text.casefold())
            if known is None:
                raise CellError("unknown-option", "This is neither yes nor no.", tuple(_WORDS))
            return known
        if self.plain is float and _NUMBER.fullmatch(text):
            return float(text)
        if self.plain is int and text.isascii() and text.isdigit() and len(text) < 10:
            return int(text)
        return text

    def _refuse(self, text: str) -> None:
        """What may mean two things."""
        if self.kind is not None and text.casefold() in _NO_ANSWER:
            words = " or ".join(set(self.words.values()))
            raise CellError(
                "quantity", f"This may mean that nothing is there or nothing known: write {words}, or a size."
            )
        if word_key(text) == "lightweight" and "sand_lightweight" in self.words:
            raise CellError(
                "unknown-option",
                "Lightweight concrete is of two kinds: say which.",
                ("sand_lightweight", "all_lightweight"),
            )

    def _sized(self, text: str) -> str:
        if self.reader is size_text and _DN.fullmatch(text):
            raise CellError("unknown-option", "The tables have pipes by their nominal size in inches, none by DN.")
        return text

    def _quantity(self, text: str, unit: str, system: System | None) -> Any:
        bare = _NUMBER.fullmatch(text) is not None
        if not bare and not _BARE.fullmatch(text):
            return text
        if unit:
            return f"{text} {unit}"
        if system is None:
            raise CellError(
                "missing",
                "A number without a unit: name it in the column's title or the cell, or state units=us or units=si;"
                " of the command, --units us or --units si.",
            )
        if bare:
            return float(text)
        kind = cast(QuantityKind, self.kind)
        return f"{text} {PRINTED[system][kind.name]}"


def _with_point(text: str) -> str:
    if "." in text:
        raise CellError(
            "quantity", "A point in a number, where the comma is the decimal sign: write it without separators."
        )
    return text.replace(",", ".")


def _without_comma(text: str) -> str:
    if "," in text:
        raise CellError(
            "quantity",
            "A comma in a number: state decimal=, (of the command, --decimal ,) where it is the decimal sign, and"
            " write no separators of thousands.",
        )
    return text


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
    """The path that a title of a column or a short name means, without regard to case."""
    return _paths(item).get(name.casefold())


@cache
def short_names(item: Any = Item) -> Mapping[str, str]:
    """Short names of the columns that an item has."""
    known = columns(item)
    return {name: path for name, path in {**ALIASES, **MORE_ALIASES}.items() if path in known}


@cache
def _paths(item: Any) -> Mapping[str, str]:
    names = {path: path for path in columns(item)} | dict(short_names(item))
    return {name.casefold(): path for name, path in names.items()}


def _walk(hint: Any, path: str, found: dict[str, Cell]) -> None:
    hint = _bare_hint(hint)
    if is_typeddict(hint):
        for name, child in get_type_hints(hint, include_extras=True).items():
            _walk(child, f"{path}.{name}" if path else name, found)
        return
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        for part in get_args(hint):
            _walk(part, path, found)
        return
    if origin is list:
        (inner,) = get_args(hint)
        if is_typeddict(_bare_hint(inner)):
            inside = any(part.isdigit() for part in path.split("."))
            for place in range(MAX_INNER_LIST if inside else MAX_LIST):
                _walk(inner, f"{path}.{place}", found)
        else:
            found[path] = _leaf(inner, listed=True)
        return
    cell = _leaf(hint)
    if path in found:  # The same place in several kinds of an object.
        cell = replace(cell, words={**found[path].words, **cell.words})
    if cell.plain is not object:
        found[path] = _as_the_trade_writes(cell, path)


def _as_the_trade_writes(cell: Cell, path: str) -> Cell:
    """A cell that reads the notations of the trade too."""
    if not cell.words:
        return replace(cell, reader=_READERS.get(path))
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
