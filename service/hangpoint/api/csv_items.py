"""The rows of a CSV as items. Columns repeat themselves, so each text of a column is read once."""

from collections.abc import Sequence
from typing import Any

from hangpoint.api.csv_cells import CellError
from hangpoint.api.csv_header import Column
from hangpoint.api.csv_idle import IdleCells
from hangpoint.api.csv_nothing import NOTHING
from hangpoint.api.csv_places import Gaps, put, with_lists
from hangpoint.api.problems import FieldError, pointer
from hangpoint.report.schedule import unguarded
from hangpoint.units import System

_NO_GAPS: Gaps = {}


class _Texts(dict[str, Any]):
    """What the texts of a column become: a value as it would stand in JSON, or the error of the cell."""

    def __init__(self, column: Column, system: System | None, comma: bool | None) -> None:
        super().__init__()
        self._column = column
        self._system: System | None = system
        self._comma = comma

    def __missing__(self, text: str) -> Any:
        column = self._column
        try:
            made = column.cell.value(text, unit=column.unit, system=self._system, comma=self._comma)
        except CellError as error:
            made = error
        self[text] = made
        return made


class RowReader:
    """Reads rows as items by some columns.

    ``system`` and ``comma`` are as `Cell.value` takes them; ``kind`` is that of ``hangs`` where a row names none.
    A word for nothing in a cell that is ``idle`` is taken for an empty one.
    ``guarded`` cells may have an apostrophe before what a spreadsheet would take for a formula.
    """

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        system: System | None,
        comma: bool | None,
        idle: IdleCells,
        kind: str | None,
        guarded: bool = False,
    ) -> None:
        self._plan = [
            (
                column.place,
                column.parts[:-1],
                column.parts[-1],
                any(part.isdigit() for part in column.parts),
                column.cell.listed,
                column.path,
                _Texts(column, system, comma),
            )
            for column in columns
        ]
        self._kind, self._idle = kind, idle
        self._text = unguarded if guarded else str

    def item(self, cells: Sequence[str], row: int, line: int) -> tuple[dict[str, Any], Gaps, list[FieldError]]:
        """A row as an item with its gaps, and what is wrong with its cells; a cell that can't be read stays text."""
        item: dict[str, Any] = {}
        errors: list[FieldError] = []
        nested, width = False, len(cells)
        for place, parents, name, in_list, listed, path, texts in self._plan:
            text = cells[place].strip() if place < width else ""
            if not text or (text in NOTHING and self._idle.has(path, cells)):
                continue
            text = self._text(text)
            value = texts[text]
            if isinstance(value, CellError):
                errors.append(cell_error(pointer("rows", row + 1, path), value, line))
                value = text
            elif listed:
                value = value.copy()
            put(item, parents, name, value)
            nested = nested or in_list
        if self._kind is not None and "hangs" in item:
            item["hangs"].setdefault("kind", self._kind)
        made, gaps = with_lists(item) if nested else (item, _NO_GAPS)
        return made, gaps, errors


def cell_error(place: str, error: CellError, line: int | None = None) -> FieldError:
    """The error of a cell at its place in the request."""
    return FieldError(pointer=place, code=error.code, detail=error.detail, allowed=error.allowed, line=line)
