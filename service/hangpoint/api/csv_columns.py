"""The columns of a CSV of hang points: dotted paths of the request's schema, and what a cell of each becomes.

A unit may follow a column in brackets and a cell's own unit wins; lists use ``;`` in the cell; an empty cell is
absent. The columns come out of the schema itself, so the two can't differ.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, NotRequired, Required, Union, cast, get_args, get_origin, get_type_hints

from typing_extensions import TypeAliasType, is_typeddict

from hangpoint.api.schemas.quantities import WireQuantity
from hangpoint.api.schemas.request import Item
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

REQUIRED = (
    "id",
    "hangs.kind",
    "base.density",
    "base.thickness",
    "base.edges.x_minus",
    "base.edges.x_plus",
    "base.edges.y_minus",
    "base.edges.y_plus",
    "seismic.category",
)
"""Columns that a file needs unless a default gives the value."""

MAX_LIST = 20
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_BARE = re.compile(r"[+-]?(?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*")
_WORDS = {"true": True, "yes": True, "1": True, "false": False, "no": False, "0": False}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What a cell holds: a quantity of a kind, or a plain type; one of them or a list."""

    kind: QuantityKind | None = None
    plain: type = str
    listed: bool = False

    def value(self, text: str, *, unit: str, system: System | None, comma: bool) -> Any:
        """The cell's text as it would stand in JSON; what can't be read stays text and fails by the schema.

        Raises:
            LookupError: a bare number where neither the column nor the request states a unit.
        """
        if self.listed:
            return [self._one(part.strip(), unit, system, comma) for part in text.split(";") if part.strip()]
        return self._one(text, unit, system, comma)

    def _one(self, text: str, unit: str, system: System | None, comma: bool) -> Any:
        if comma:
            text = text.replace(",", ".")
        if self.kind is not None:
            return self._quantity(text, unit, system)
        if self.plain is bool:
            return _WORDS.get(text.lower(), text)
        if self.plain is float and _NUMBER.fullmatch(text):
            return float(text)
        if self.plain is int and text.isascii() and text.isdigit() and len(text) < 10:
            return int(text)
        return text

    def _quantity(self, text: str, unit: str, system: System | None) -> Any:
        bare = _NUMBER.fullmatch(text) is not None
        if not bare and not _BARE.fullmatch(text):
            return text
        if unit:
            return f"{text} {unit}"
        if system is None:
            raise LookupError(text)
        if bare:
            return float(text)
        kind = cast(QuantityKind, self.kind)
        return f"{text} {PRINTED[system][kind.name]}"


@cache
def columns() -> Mapping[str, Cell]:
    """Every column by its dotted path. Lists of objects have a place in the path: ``hangs.components.0.tension``."""
    found: dict[str, Cell] = {}
    _walk(Item, "", found)
    return found


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
            for place in range(MAX_LIST):
                _walk(inner, f"{path}.{place}", found)
        else:
            kind, plain = _leaf(inner)
            found[path] = Cell(kind=kind, plain=plain, listed=True)
        return
    kind, plain = _leaf(hint)
    if plain is not object:
        found[path] = Cell(kind=kind, plain=plain)


def _bare_hint(hint: Any) -> Any:
    """A hint without NotRequired, Required and Annotated."""
    while get_origin(hint) in (NotRequired, Required, Annotated):
        hint = get_args(hint)[0]
    return hint


def _leaf(hint: Any) -> tuple[QuantityKind | None, type]:
    if isinstance(hint, TypeAliasType):
        metadata = get_args(hint.__value__)[1:]
        wire = next(each for each in metadata if isinstance(each, WireQuantity))
        return wire.kind, str
    bare = _bare_hint(hint)
    if isinstance(bare, TypeAliasType):
        return _leaf(bare)
    if get_origin(bare) is Literal:
        return None, str
    # A product inline has no columns: it is an object of its own schema.
    return None, bare if bare in (str, float, int, bool) else object
