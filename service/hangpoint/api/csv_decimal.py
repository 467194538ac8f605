"""Whether a CSV may be written with the comma as the decimal sign, where nobody says which sign is."""

import re
from collections.abc import Iterator, Sequence

from hangpoint.api.csv_doubts import may_be_thousands
from hangpoint.api.csv_header import Column
from hangpoint.pack.trade_texts import plain_text, unit_text
from hangpoint.units import FORCE, WEIGHT, QuantityKind, System

_LOADS = (FORCE.name, WEIGHT.name)
_METRIC = re.compile("meter|newton|gram|pascal|liter")
_COMMA = re.compile(r"[+-]?(?:0,[0-9]+|[0-9]+,(?:[0-9]{1,2}|[0-9]{4,}))(?![0-9,.])(?: ?[^0-9,;.]*)")
"""A number with a comma that separates no thousands, and its unit."""
_UNIT = re.compile(r"[0-9.] ?(?P<unit>[^0-9 .].*)")


def may_be_comma(
    delimiter: str, columns: Sequence[Column], rows: Sequence[tuple[int, Sequence[str]]], system: System | None
) -> bool:
    """Whether a point before three figures, 1.250, is in doubt in a file.

    Between semicolons it always is: they are written where the comma is the decimal sign. Commas between cells leave
    the point. Tabs say nothing, a file out of any spreadsheet has them: there metric units raise the doubt, of the
    request, a title or a cell, and so do a number with a decimal comma, and pounds of a load to the thousandth, which
    nobody weighs and which may be thousands of them.
    """
    if delimiter != "\t":
        return delimiter == ";"
    numbers = [(each, each.cell.kind) for each in columns if each.cell.kind is not None]
    return (
        system == "si"
        or any(_is_metric(each.unit, kind) for each, kind in numbers)
        or any(_hints(text, each.unit, kind) for each, kind in numbers for text in _texts(each, rows))
    )


def _texts(column: Column, rows: Sequence[tuple[int, Sequence[str]]]) -> Iterator[str]:
    """What stands in a column, each text once, and of lists every entry."""
    cells = {cells[column.place] for _, cells in rows if column.place < len(cells)}
    return (part.strip() for cell in cells for part in (cell.split(";") if column.cell.listed else (cell,)))


def _hints(text: str, unit: str, kind: QuantityKind) -> bool:
    """Whether a cell is a hint; ``unit`` is that of its title."""
    found = _UNIT.search(plain_text(text))
    own = unit_text(found["unit"], kind.name) if found else unit
    return (
        _COMMA.fullmatch(text) is not None
        or _is_metric(own, kind)
        or (kind.name in _LOADS and not own.startswith("kip") and may_be_thousands(text) != "")
    )


def _is_metric(unit: str, kind: QuantityKind) -> bool:
    return _METRIC.search(kind.units.get(unit, "")) is not None
