"""A sheet of a workbook as a CSV that can be looked at and sent: what a person sees in each cell, row for row."""

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO, StringIO
from itertools import islice
from typing import get_args
from warnings import catch_warnings, simplefilter
from zipfile import ZipFile

from hangpoint.api.csv_header import MAX_COLUMNS
from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.schemas.workbooks import Hidden
from hangpoint.api.workbooks.parts import (
    DAMAGED,
    Area,
    Layout,
    Sheet,
    computed_anew,
    layout_of,
    letters_of,
    name_of,
    opened,
    sheets_of,
)
from hangpoint.api.workbooks.shown import shown, unseen

_LISTED = 10
MOST_CHARACTERS = 16 * 1024 * 1024
"""Characters of all cells that are read: more would fit into no body."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkbookOptions:
    """What a workbook can't say of itself.

    ``sheet`` is the name of the one to read, ``header`` the row of its titles, from 1, above which nothing is read,
    ``hidden`` whether what is hidden is read. ``comma``: texts in it have the comma as the decimal sign, so numbers are
    written with it too.
    """

    sheet: str | None = None
    header: int = 1
    hidden: Hidden | None = None
    comma: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRows:
    """A sheet as a CSV, a line a row of the sheet: those left out are empty lines, so that lines are rows.

    ``sheets`` are those that a person sees, ``rows`` counts those with something in them. ``notes`` say what was done
    that the sheet doesn't show.
    """

    sheet: str
    sheets: Sequence[str]
    rows: int
    csv: str
    notes: Sequence[str]


def read_workbook(body: bytes, options: WorkbookOptions) -> SheetRows:
    """The rows of a sheet.

    Cells are divided by commas, where the comma is the decimal sign by semicolons.

    Raises:
        ProblemError: no workbook, one that is damaged or too large; several sheets and none named, or none of that
            name; a row of titles beyond the last; hidden rows or columns, and nothing said of them; formulas without
            values; an empty sheet.
    """
    archive = opened(body)
    sheets = sheets_of(archive)
    sheet, layout = _chosen(archive, sheets, options.sheet)
    if not 1 <= options.header <= layout.rows:
        raise _query("header", "out-of-range", f"The sheet {sheet.name} has values in the rows 1 to {layout.rows}.")
    if layout.columns > MAX_COLUMNS:
        detail = f"The sheet {sheet.name} has values in {layout.columns} columns; the limit is {MAX_COLUMNS}."
        raise ProblemError("validation", detail, members={"limit": MAX_COLUMNS, "received": layout.columns})
    left_out = _left_out(layout, options.hidden)
    _refuse_unvalued([*layout.unvalued, *(layout.zeros if computed_anew(archive) else ())], sheet)
    table, blank = _texts(body, sheet, layout, comma=options.comma)
    filled = _fill(table, layout.merged)
    _refuse_long(sum(len(text) for cells in table for text in cells))
    kept = [_kept(cells, row, left_out) if row >= options.header else [] for row, cells in enumerate(table, start=1)]
    return SheetRows(
        sheet=sheet.name,
        sheets=[each.name for each in sheets if each.visible],
        rows=sum(any(cells) for cells in kept),
        csv=_csv(kept, ";" if options.comma else ","),
        notes=[*_told_hidden(layout, options.hidden), *_told_merged(filled), *_told_unseen(blank)],
    )


def _chosen(archive: ZipFile, sheets: Sequence[Sheet], name: str | None) -> tuple[Sheet, Layout]:
    """The sheet that is named, or the only one that is seen and has values."""
    names = tuple(each.name for each in sheets)
    if name is not None:
        alike = [each for each in sheets if each.name.strip().casefold() == name.strip().casefold()]
        own = next((each for each in alike if each.name == name), alike[0] if alike else None)
        if own is None:
            raise _query("sheet", "unknown-option", "The workbook has no such sheet.", names)
        layout = layout_of(archive, own)
        if not layout.rows:
            raise _query("sheet", "missing", f"The sheet {own.name} is empty.", names)
        return own, layout
    seen = [(each, layout_of(archive, each)) for each in sheets if each.visible]
    filled = [(each, layout) for each, layout in seen if layout.rows]
    if not filled:
        raise ProblemError("malformed", "The workbook has no values in a sheet that is seen.")
    if len(filled) > 1:
        found = tuple(each.name for each, _ in filled)
        raise _query("sheet", "missing", "The workbook has several sheets with values: name the one to read.", found)
    return filled[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class _LeftOut:
    rows: frozenset[int]
    columns: frozenset[int]


def _left_out(layout: Layout, hidden: Hidden | None) -> _LeftOut:
    """Rows and columns that are not read."""
    columns = frozenset(_hidden_columns(layout))
    if hidden is None and (layout.hidden_rows or columns):
        told = " and ".join(_names_of_hidden(layout))
        detail = f"The sheet has hidden cells, {told}: state whether they are read or skipped, or show them."
        raise _query("hidden", "missing", detail, get_args(Hidden))
    if hidden != "skip":
        return _LeftOut(rows=frozenset(), columns=frozenset())
    return _LeftOut(rows=frozenset(layout.hidden_rows), columns=columns)


def _hidden_columns(layout: Layout) -> list[int]:
    return [column for first, last in layout.hidden_columns for column in range(first, min(last, layout.columns) + 1)]


def _names_of_hidden(layout: Layout) -> Iterator[str]:
    if layout.hidden_rows:
        yield f"rows {_some(list(map(str, layout.hidden_rows)))}"
    columns = _hidden_columns(layout)
    if columns:
        yield f"columns {_some(list(map(letters_of, columns)))}"


def _refuse_unvalued(cells: Sequence[str], sheet: Sheet) -> None:
    if not cells:
        return
    detail = "A formula without its value: open the workbook in a spreadsheet program and save it."
    errors = [FieldError(pointer=pointer("sheets", sheet.name, cell), code="missing", detail=detail) for cell in cells]
    raise ProblemError("validation", f"{errors[0].pointer}: {detail}", errors=errors)


def _texts(body: bytes, sheet: Sheet, layout: Layout, *, comma: bool) -> tuple[list[list[str]], list[str]]:
    """(rows, columns) texts of the cells, and the names of those whose format shows nothing of a value."""
    from openpyxl import load_workbook

    table: list[list[str]] = []
    blank: list[str] = []
    size = 0
    try:
        with catch_warnings():
            simplefilter("ignore")  # of extensions that it doesn't read: pictures, validation, print settings
            book = load_workbook(BytesIO(body), read_only=True, data_only=True, keep_links=False)
            rows = book[sheet.name].iter_rows(max_row=layout.rows, max_col=layout.columns)
            for row, cells in enumerate(islice(rows, layout.rows), start=1):
                table.append([])
                for column, own in enumerate(cells, start=1):
                    table[-1].append(shown(own.value, own.number_format or "", comma=comma))
                    size += max(len(table[-1][-1]), len(own.value) if isinstance(own.value, str) else 0)
                    _refuse_long(size)
                    if unseen(own.value, own.number_format or ""):
                        blank.append(name_of(row, column))
    except DAMAGED as error:
        raise ProblemError("malformed", "The body is damaged, or is of a form of XLSX that isn't read.") from error
    return table, blank


def _fill(table: list[list[str]], merged: Sequence[Area]) -> list[Area]:
    """Write the value of merged cells into each of them, whatever lies under it; those that have one."""
    filled: list[Area] = []
    for area in sorted(merged, key=lambda each: (each.top, each.left)):
        if area.top > len(table) or area.left > len(table[0]):
            continue
        text = table[area.top - 1][area.left - 1]
        for cells in table[area.top - 1 : area.bottom]:
            for place in range(area.left - 1, min(area.right, len(cells))):
                cells[place] = text
        if text:
            filled.append(area)
    return filled


def _kept(cells: Sequence[str], row: int, left_out: _LeftOut) -> list[str]:
    if row in left_out.rows:
        return []
    return [text for column, text in enumerate(cells, start=1) if column not in left_out.columns]


def _csv(rows: Sequence[Sequence[str]], delimiter: str) -> str:
    made = StringIO(newline="")
    writer = csv.writer(made, delimiter=delimiter, lineterminator="\n")
    for cells in rows:
        if any(cells):
            writer.writerow(cells)
        else:
            made.write("\n")
    return made.getvalue()


def _told_hidden(layout: Layout, hidden: Hidden | None) -> Iterator[str]:
    if layout.hidden_rows or _hidden_columns(layout):
        told = " and ".join(_names_of_hidden(layout))
        yield f"Hidden cells were {'skipped' if hidden == 'skip' else 'read as the others'}: {told}."


def _told_merged(filled: Sequence[Area]) -> Iterator[str]:
    if filled:
        names = [f"{name_of(each.top, each.left)}:{name_of(each.bottom, each.right)}" for each in filled]
        yield (f"What stands in merged cells was taken for each of them, a load too and not its share: {_some(names)}.")


def _told_unseen(blank: Sequence[str]) -> Iterator[str]:
    if blank:
        yield f"Values that their number format doesn't show were read: {_some(blank)}."


def _refuse_long(size: int) -> None:
    if size > MOST_CHARACTERS:
        detail = f"The sheet has more than {MOST_CHARACTERS} characters in its cells: divide it."
        raise ProblemError("too-large", detail, members={"limit": MOST_CHARACTERS, "received": size})


def _some(names: Sequence[str]) -> str:
    """Names, the first of many."""
    more = len(names) - _LISTED
    return ", ".join(names[:_LISTED]) + (f" and {more} more" if more > 0 else "")


def _query(name: str, code: str, detail: str, allowed: tuple[str, ...] = ()) -> ProblemError:
    error = FieldError(pointer=f"?{name}", code=code, detail=detail, allowed=allowed)
    return ProblemError("validation", f"{error.pointer}: {detail}", errors=[error])
