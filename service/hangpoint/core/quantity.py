"""Quantities of a calculation and the records that hold them.

A failure mode, a weight or a reaction is computed by a pure function over arrays that returns a *record*: a frozen
dataclass with one field for every number used or made, in the order of a hand calculation. The annotation of each
field says what the number is (`Q`): symbol, clause, unit, where it comes from, and the printed formula in terms of
the record's own field names. Reading one index of every field *is* the explanation of that case; there is no second
computation. A test evaluates every printed formula and compares it with the computed column.

Printed formulas use ``+ - * / **``, comparisons, ``sqrt min max where count sum pi``. ``min``, ``max``, ``sum`` and
``count`` with one argument reduce the trailing axis (the four edges).
"""

from collections.abc import Callable
from dataclasses import dataclass, fields
from enum import StrEnum
from functools import cache
from operator import attrgetter
from typing import Annotated, Any, ClassVar, Self, get_type_hints

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.frozen import frozen
from hangpoint.core.rows import is_every

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Codes = NDArray[np.int8]
Index = NDArray[np.intp]


class Kind(StrEnum):
    """Where a number of a record comes from."""

    GIVEN = "given"
    FORMULA = "formula"
    PROCEDURE = "procedure"


class Axis(StrEnum):
    """What the rows of a field stand for.

    ``EDGE`` is a trailing axis of x_minus, x_plus, y_minus, y_plus; ``NATURE`` one of load natures, ``MODEL`` one of
    models of a run.
    """

    CASE = "case"
    EDGE = "edge"
    NATURE = "nature"
    MODEL = "model"
    ANCHOR = "anchor"
    GROUP = "group"
    LOAD = "load"


@dataclass(frozen=True, slots=True, kw_only=True)
class Q:
    """What one field of a record is.

    ``unit`` parses in pint ("" is dimensionless). ``coefficient`` is the hidden unit of the coefficients of a
    printed formula: formula times coefficient has the dimension of ``unit``. ``when`` names the boolean field of
    the record on which the line holds. ``infinite`` is the word printed for an infinite value.
    """

    symbol: str
    unit: str = ""
    clause: str = ""
    kind: Kind = Kind.GIVEN
    axis: Axis | None = None
    formula: str = ""
    coefficient: str = ""
    when: str = ""
    labels: tuple[str, ...] = ()
    infinite: str = ""


def given(
    symbol: str,
    unit: str = "",
    *,
    clause: str = "",
    axis: Axis | None = None,
    when: str = "",
    labels: tuple[str, ...] = (),
    infinite: str = "",
) -> Q:
    """A number of the request, the product or another record."""
    return Q(symbol=symbol, unit=unit, clause=clause, axis=axis, when=when, labels=labels, infinite=infinite)


def formula(
    symbol: str,
    unit: str,
    text: str,
    *,
    clause: str,
    coefficient: str = "",
    when: str = "",
    infinite: str = "",
    axis: Axis | None = None,
) -> Q:
    """A number made by the printed formula ``text`` from fields of the same record."""
    return Q(
        symbol=symbol,
        unit=unit,
        clause=clause,
        kind=Kind.FORMULA,
        formula=text,
        coefficient=coefficient,
        when=when,
        infinite=infinite,
        axis=axis,
    )


def procedure(symbol: str, unit: str, name: str, *, clause: str, when: str = "", axis: Axis | None = None) -> Q:
    """A number made by the named procedure, whose docstring says how (the list is closed, by a test)."""
    return Q(symbol=symbol, unit=unit, clause=clause, kind=Kind.PROCEDURE, formula=name, when=when, axis=axis)


Value = float | bool | int | list[float] | list[bool]
"""What one field of a record holds at one row."""


class Record:
    """Base of every record: its columns are read-only once made."""

    TITLE: ClassVar[str]
    AXIS: ClassVar[Axis]

    def __post_init__(self) -> None:
        for column in vars(self).values():
            column.setflags(0)

    def take(self, rows: Index) -> Self:
        """The given rows, in that order; itself where they are all of its rows."""
        if is_every(rows, len(next(iter(vars(self).values())))):
            return self
        return type(self)(**{name: getattr(self, name)[rows] for name in columns(type(self))})


class StrengthRecord(Record):
    """Base of a record that ends in a design strength, a demand and their ratio."""

    design_strength: Floats
    demand: Floats
    utilisation: Floats


record = frozen
"""Makes a class of columns a `Record`: in a frozen, keyword-only dataclass compared by identity."""


@cache
def columns(cls: type) -> dict[str, Q]:
    """Field name to `Q`, in the order of a hand calculation."""
    hints = get_type_hints(cls, include_extras=True)
    found: dict[str, Q] = {}
    for field in fields(cls):
        hint = hints[field.name]
        found[field.name] = next(m for m in hint.__metadata__ if isinstance(m, Q))
    return found


def trace(record: Record, row: int) -> list[Value]:
    """What each field of a record holds at one row, in the order of `columns`.

    Nothing is computed here. A field with a trailing axis gives a list, a code its integer.
    """
    read = _reader(type(record))
    return [column.item(row) if column.ndim == 1 else column[row].tolist() for column in read(record)]


@cache
def _reader(cls: type) -> Callable[[Record], tuple[NDArray[Any], ...]]:
    return attrgetter(*columns(cls))


__all__ = [
    "Annotated",
    "Axis",
    "Bools",
    "Codes",
    "Floats",
    "Index",
    "Kind",
    "Q",
    "Record",
    "StrengthRecord",
    "Value",
    "columns",
    "formula",
    "given",
    "procedure",
    "record",
    "trace",
]
