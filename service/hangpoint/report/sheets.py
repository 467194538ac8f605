"""Sheets of a workbook (XLSX): tables one below the other, and a sheet of what an answer rests on.

Nothing in it is a formula: every text is written as a text, and one that a spreadsheet would take for a formula when a
person edits it is marked as quoted.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from io import BytesIO
from math import ceil
from typing import Any

from hangpoint.report.paper import Paper, paper_of
from hangpoint.report.schedule import Table, is_formula

Result = Mapping[str, Any]
Object = Any
"""An object of the library, which has no types."""

Sections = Sequence[tuple[str, Sequence[tuple[str, Any]]]]

_CREATED = datetime(1980, 1, 1)
"""The same answer is the same file."""

PAPER_NUMBERS: Mapping[Paper, int] = {"a4": 9, "letter": 1}
"""What workbooks call a paper."""

_TITLE = {"bold": True, "text_wrap": True, "bottom": 1, "bg_color": "#E3E8EE", "valign": "vcenter"}
_TITLE_OF_NUMBERS = {**_TITLE, "align": "right"}
_LEFT = {"align": "left", "indent": 1}
_PLAIN: Mapping[str, Any] = {}
_LAST = {"bold": True, "top": 1}
_HEAD = {"bold": True, "font_size": 14}
_WRAP = {"text_wrap": True, "valign": "top", "align": "left"}
_WHOLE, _MEASURE = "#,##0", "#,##0.00#"
_LEAST, _MOST = 8, 90


def workbook(answer: Result, *, title: str, note: str, write: Callable[["Sheets"], None]) -> bytes:
    """A workbook of an answer; ``note`` stands at the foot of every page."""
    from xlsxwriter import Workbook  # pyright: ignore[reportMissingTypeStubs]

    file = BytesIO()
    book: Object = Workbook(file, {"in_memory": True})
    book.set_properties({"title": title, "comments": note, "created": _CREATED})
    write(Sheets(book, paper=paper_of(answer["units"]), note=note))
    book.close()
    return file.getvalue()


def made_by(answer: Result) -> Sequence[tuple[str, Any]]:
    """Versions and digest of an answer."""
    return [
        ("hangpoint", answer["engine_version"]),
        ("catalogue", f"{answer['catalogue']['version']}, {answer['catalogue']['hash']}"),
        ("request digest", answer["request_digest"]),
    ]


class Sheets:
    """Writes tables, each cell by its type."""

    def __init__(self, book: Object, *, paper: Paper, note: str) -> None:
        self._book = book
        self._note = note
        self._paper = PAPER_NUMBERS[paper]
        self._made: dict[tuple[int, str, bool], tuple[Mapping[str, Any], Object]] = {}

    def add(
        self,
        name: str,
        tables: Sequence[tuple[str, Table]],
        *,
        frozen: bool = False,
        last_bold: bool = False,
        pages: int = 1,
    ) -> None:
        """A sheet of tables, one below the other; the first table of a ``frozen`` one keeps its titles in sight.

        ``last_bold`` is of the last row of the first table, the sum of the others; ``pages`` are those side by side.
        """
        sheet = self._sheet(name, pages)
        line, widths = 0, dict[int, float]()
        for place, (heading, table) in enumerate(tables):
            if heading:
                self._text(sheet, line, 0, heading, _HEAD)
                line += 1
            if frozen and place == 0:
                sheet.freeze_panes(line + 1, 0)
                sheet.repeat_rows(line)
                if table.rows:
                    sheet.autofilter(line, 0, line + len(table.rows), len(table.names) - 1)
            for column, title in enumerate(table.titles):
                cells = [row[column] for row in table.rows]
                numbers = any(isinstance(cell, int | float) for cell in cells)
                self._text(sheet, line, column, title.replace("_", " "), _TITLE_OF_NUMBERS if numbers else _TITLE)
                widths[column] = max(widths.get(column, 0), _width(title, cells))
            sheet.set_row(line, 45)
            for number, row in enumerate(table.rows):
                line += 1
                bold = last_bold and place == 0 and number == len(table.rows) - 1
                for column, value in enumerate(row):
                    self._cell(sheet, line, column, value, _LAST if bold else _PLAIN)
            line += 2
        for column, width in widths.items():
            sheet.set_column(column, column, width)

    def basis(self, sections: Sections, *, name: str = "Basis") -> None:
        """A sheet of pairs under headings: what an answer rests on."""
        sheet = self._sheet(name)
        sheet.set_column(0, 0, 34)
        sheet.set_column(1, 1, 100)
        line = 0
        for title, pairs in sections:
            self._text(sheet, line, 0, title, _TITLE)
            self._text(sheet, line, 1, "", _TITLE)
            for name, value in pairs:
                line += 1
                sheet.set_row(line, 15 * max(1, ceil(len(str(value)) / 95)))
                self._text(sheet, line, 0, name, _WRAP)
                self._cell(sheet, line, 1, value, _WRAP)
            line += 2

    def _sheet(self, name: str, pages: int = 1) -> Object:
        sheet = self._book.add_worksheet(name)
        sheet.set_paper(self._paper)
        sheet.set_landscape()
        sheet.fit_to_pages(pages, 0)
        sheet.set_margins(left=0.4, right=0.4, top=0.6, bottom=0.7)
        sheet.set_footer(f"&L{self._note}&R&A, page &P of &N")
        return sheet

    def _cell(self, sheet: Object, line: int, column: int, value: Any, look: Mapping[str, Any]) -> None:
        if isinstance(value, bool):
            self._text(sheet, line, column, "true" if value else "false", look)
        elif isinstance(value, int | float):
            number = _WHOLE if value == int(value) else _MEASURE
            sheet.write_number(line, column, value, self._format(look, num_format=number))
        elif value is not None:
            self._text(sheet, line, column, str(value), look)
        elif look:
            sheet.write_blank(line, column, None, self._format(look))

    def _text(self, sheet: Object, line: int, column: int, text: str, look: Mapping[str, Any]) -> None:
        sheet.write_string(line, column, text, self._format(look, quote_prefix=is_formula(text)))

    def _format(self, look: Mapping[str, Any], *, num_format: str = "", quote_prefix: bool = False) -> Object:
        """Texts begin a little from the border of their cell, where the look doesn't place them."""
        key = id(look), num_format, quote_prefix
        if key not in self._made:
            placed = {"num_format": num_format} if num_format else {**_LEFT, **look, "quote_prefix": quote_prefix}
            # The look is kept beside its format, so that no other can come by its id.
            self._made[key] = look, self._book.add_format({**look, **placed})
        return self._made[key][1]


def _width(title: str, column: Sequence[Any]) -> float:
    """Width by the longest text, within bounds; a title takes two lines and has the button of its filter."""
    longest = max((len(value) for value in column if isinstance(value, str)), default=0)
    titled = max(map(len, title.replace("_", " ").split())) + 4
    return max(min(longest + 3, _MOST), min(titled, _MOST), _LEAST)
