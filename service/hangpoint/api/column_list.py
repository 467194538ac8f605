"""The columns of a CSV as a list: for a terminal, as JSON and as CSV, and as an empty file to fill in."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from hangpoint.api.csv_columns import REQUIRED, columns, short_names
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.take_offs import TakeOffItem
from hangpoint.report.schedule import Table, table_csv
from hangpoint.units import PRINTED, System

LIST_COLUMNS = ("column", "short_name", "us", "si", "words", "needed", "take_off_only", "what")
_USUAL = ("trade", "hangs.weight", "hangs.nature", "base.density")
"""Columns that most jobs have besides those with a short name."""
_PLAIN = {str: "text", float: "number", int: "whole", bool: "flag"}
_PLACE = re.compile(r"\.[0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedColumn:
    """A column: path, short name, unit of a bare number by system, words that it takes, what it ``holds`` in JSON, and
    what it says."""

    path: str
    short: str
    units: tuple[str, str] | None
    words: tuple[str, ...]
    holds: str
    listed: bool
    needed: bool
    usual: bool
    take_off_only: bool
    text: str

    @property
    def title(self) -> str:
        """The name to write."""
        return self.short or self.path


def listed_columns() -> list[ListedColumn]:
    """Every column of a hang point and of a take-off, the needed ones first, then the usual ones.

    Columns of the places of a list are there once, as that of its first.
    """
    order = {path: at for at, path in enumerate(REQUIRED)}
    return sorted(_columns(), key=lambda each: (order.get(each.path, len(order)), not each.usual))


def _columns() -> Iterator[ListedColumn]:
    short = {path: name for name, path in short_names(TakeOffItem).items()}
    known = columns(Item)
    for path, cell in columns(TakeOffItem).items():
        if any(place != ".0" for place in _PLACE.findall(path)):
            continue
        printed = None if cell.kind is None else (PRINTED["us"][cell.kind.name], PRINTED["si"][cell.kind.name])
        words = ("yes", "no") if cell.plain is bool else tuple(dict.fromkeys(cell.words.values()))
        yield ListedColumn(
            path=path,
            short=short.get(path, ""),
            units=printed,
            words=words,
            holds="quantity" if cell.kind is not None else _PLAIN[cell.plain],
            listed=cell.listed,
            needed=path in REQUIRED,
            usual=path in known and (path in short or path in _USUAL),
            take_off_only=path not in known,
            text=cell.text,
        )


def served_columns() -> dict[str, Any]:
    """The columns of a hang point, and an empty file by system of units."""
    listed = [
        {
            "path": each.path,
            "title": each.title,
            "text": each.text,
            "holds": each.holds,
            "several": each.listed,
            **({"us": each.units[0], "si": each.units[1]} if each.units else {}),
            **({"words": list(each.words)} if each.words else {}),
            "needed": each.needed,
            "usual": each.usual,
        }
        for each in listed_columns()
        if not each.take_off_only
    ]
    return {"columns": listed, "empty": {system: empty_csv(system) for system in PRINTED}}


def columns_csv() -> str:
    """The list as CSV."""
    rows = [
        [
            each.path,
            each.short or None,
            *(each.units or (None, None)),
            ";".join(each.words) or None,
            each.needed,
            each.take_off_only,
            each.text,
        ]
        for each in listed_columns()
    ]
    return table_csv(Table(titles=LIST_COLUMNS, names=LIST_COLUMNS, rows=rows))


def empty_csv(system: System) -> str:
    """A header with the needed and usual columns, units of the system in brackets, and one for notes."""
    place = ("us", "si").index(system)
    titles = [
        each.title + (f" [{each.units[place]}]" if each.units else "")
        for each in listed_columns()
        if each.needed or each.usual
    ]
    titles.append("notes")
    return table_csv(Table(titles=titles, names=titles, rows=[]))
