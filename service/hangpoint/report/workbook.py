"""An answer as a workbook (XLSX): a sheet with the schedule, and one with what it rests on.

Nothing in it is a formula: every text is written as a text, and one that a spreadsheet would take for a formula when a
person edits it is marked as quoted. Statuses are words; colours and weights only repeat them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from io import BytesIO
from math import ceil
from typing import Any

from hangpoint.core.vocabulary import MODE_TEXTS, Status
from hangpoint.report.paper import Paper, paper_of
from hangpoint.report.schedule import FORCES, MEANINGS, Table, is_formula, near_ids
from hangpoint.report.sheets import PAPER_NUMBERS

Result = Mapping[str, Any]
Object = Any
"""An object of the library, which has no types."""

MAX_CELLS = 1_000_000
"""Filled cells of a schedule: a workbook is made in memory."""

_CREATED = datetime(1980, 1, 1)
"""The same answer is the same file."""

_NARROW, _WIDE = 8, 44
_WRAPPED = {"problem": 60, "findings": 48, "why": 60}
"""Widths of columns whose rows are as high as their text. What else is longer than its column is whole in its cell."""

_LINE, _MOST_LINES = 15.0, 8
"""Height of a line of text, and the most lines of a row."""

_PRINTED_WIDTH = 150
"""Width of columns that are printed on a page."""

_RATIO = '[<=1]0.000;[<1.0005]">"0.000;0.000'
"""Above 1 never reads as 1."""

_FORCE_FORMATS = {"lbf": "#,##0.0", "kN": "0.000"}
_LOOKS: Mapping[str, Mapping[str, Any]] = {
    status: {"align": "left", "indent": 1, "valign": "top", **look}
    for status, look in {
        Status.PASSED: {"font_color": "#14501A", "bg_color": "#E8F5E9"},
        Status.FAILED: {"font_color": "#FFFFFF", "bg_color": "#A31515", "bold": True},
        Status.REFUSED: {"font_color": "#4A3B00", "bg_color": "#FFF3C4", "italic": True},
        Status.INVALID: {"font_color": "#3F1D54", "bg_color": "#EBDCF5", "italic": True, "bold": True},
    }.items()
}
_TITLE = {"bold": True, "text_wrap": True, "bottom": 1, "bg_color": "#E3E8EE", "valign": "vcenter"}
_TOP = {"valign": "top"}
_SENTENCE = {"valign": "top", "align": "left", "text_wrap": True}
_NOTE = "An aid, not a design. The sheet Summary has cautions, assumptions and what was not checked."


def schedule_workbook(answer: Result, table: Table) -> bytes:
    """The workbook of an answer; ``table`` is its schedule."""
    from xlsxwriter import Workbook  # pyright: ignore[reportMissingTypeStubs]

    file = BytesIO()
    book: Object = Workbook(file, {"in_memory": True})
    book.set_properties({"title": "Schedule of hang points", "comments": _NOTE, "created": _CREATED})
    writer = _Writer(book, paper=paper_of(answer["units"]))
    writer.schedule(table, force=answer["units"]["force"])
    writer.summary(answer)
    book.close()
    return file.getvalue()


class _Writer:
    """Writes cells by their type, each in its format."""

    def __init__(self, book: Object, *, paper: Paper) -> None:
        self._book = book
        self._paper = PAPER_NUMBERS[paper]
        self._made: dict[tuple[int, bool], tuple[Mapping[str, Any], Object]] = {}

    def schedule(self, table: Table, *, force: str) -> None:
        """A row a hang point below the titles, which stay in sight and have filters."""
        columns = list(zip(*table.rows, strict=True))
        widths = [_width(*each) for each in zip(table.names, table.titles, columns, strict=True)]
        sheet = self._sheet("Schedule", pages=ceil(sum(widths) / _PRINTED_WIDTH))
        sheet.set_landscape()
        sheet.freeze_panes(1, 1)
        sheet.repeat_rows(0)
        sheet.repeat_columns(0)
        sheet.print_area(0, 0, len(table.rows), len(table.titles) - 1)
        sheet.print_across()
        sheet.autofilter(0, 0, len(table.rows), len(table.titles) - 1)
        sheet.set_row(0, 2 * _LINE)
        looks = [_look(name, force) for name in table.names]
        for place, (title, width) in enumerate(zip(table.titles, widths, strict=True)):
            sheet.set_column(place, place, width)
            self._text(sheet, 0, place, title, _TITLE)
        status = table.names.index("status")
        wrapped = [(place, widths[place]) for place, name in enumerate(table.names) if name in _WRAPPED]
        for line, row in enumerate(table.rows, start=1):
            sheet.set_row(line, _height((row[place], width) for place, width in wrapped))
            for place, value in enumerate(row):
                self._cell(sheet, line, place, value, _LOOKS[row[status]] if place == status else looks[place])

    def summary(self, answer: Result) -> None:
        """Counts, cautions, assumptions, what was not checked, and what the answer was made by."""
        sheet = self._sheet("Summary", pages=1)
        names, texts = 54, 108
        sheet.set_column(0, 0, names)
        sheet.set_column(1, 1, texts)
        self._text(sheet, 0, 0, "Hang points", {"bold": True, "font_size": 14})
        line = 1
        for title, pairs in _sections(answer):
            line += 1
            self._text(sheet, line, 0, title, _TITLE)
            self._text(sheet, line, 1, "", _TITLE)
            for name, value in pairs:
                line += 1
                sheet.set_row(line, _height([(name, names), (value, texts)]))
                self._cell(sheet, line, 0, name, {**_SENTENCE, **_LOOKS.get(name, {})})
                self._cell(sheet, line, 1, value, _SENTENCE)
            line += 1

    def _sheet(self, name: str, *, pages: int) -> Object:
        """A sheet that is printed on so many pages side by side."""
        sheet = self._book.add_worksheet(name)
        sheet.set_paper(self._paper)
        sheet.fit_to_pages(pages, 0)
        sheet.set_margins(left=0.4, right=0.4, top=0.6, bottom=0.7)
        sheet.set_footer(f"&L{_NOTE}&R&A, page &P of &N")
        return sheet

    def _cell(self, sheet: Object, line: int, place: int, value: Any, look: Mapping[str, Any]) -> None:
        if value is None:
            return
        if isinstance(value, bool):
            self._text(sheet, line, place, "true" if value else "false", look)
        elif isinstance(value, int | float):
            sheet.write_number(line, place, value, self._format(look))
        else:
            self._text(sheet, line, place, str(value), look)

    def _text(self, sheet: Object, line: int, place: int, text: str, look: Mapping[str, Any]) -> None:
        sheet.write_string(line, place, text, self._format(look, quoted=is_formula(text)))

    def _format(self, look: Mapping[str, Any], *, quoted: bool = False) -> Object:
        key = id(look), quoted
        if key not in self._made:
            # The look is kept beside its format, so that no other can come by its id.
            self._made[key] = look, self._book.add_format({**look, "quote_prefix": quoted})
        return self._made[key][1]


def _look(name: str, force: str) -> Mapping[str, Any]:
    if name in FORCES:
        return {**_TOP, "num_format": _FORCE_FORMATS[force]}
    if name == "utilisation":
        return {**_TOP, "num_format": _RATIO}
    return {**_TOP, "text_wrap": True} if name in _WRAPPED else _TOP


def _width(name: str, title: str, column: Sequence[Any]) -> float:
    """Width by the longest text, within bounds; a title takes two lines and has the button of its filter."""
    longest = max((len(value) for value in column if isinstance(value, str)), default=0)
    titled = max(map(len, title.split())) + 4
    return max(min(longest + 2, _WRAPPED.get(name, _WIDE)), titled, _NARROW)


def _height(texts: Iterable[tuple[Any, float]]) -> float:
    """Height of a row that shows texts in cells of these widths."""
    lines = max((ceil(1.1 * len(text) / width) for text, width in texts if isinstance(text, str)), default=1)
    return _LINE * min(max(lines, 1), _MOST_LINES)


def _sections(answer: Result) -> Iterator[tuple[str, Sequence[tuple[str, Any]]]]:
    summary: Result = answer["summary"]
    yield (
        "Counts",
        [
            ("hang points", summary["total"]),
            *((str(status), f"{summary[status]}  {MEANINGS[status]}") for status in Status),
            ("passed on assumptions", summary["passed_on_assumptions"]),
            ("checked with neighbours", sum(bool(near_ids(item)) for item in answer["items"])),
        ],
    )
    yield "What governs", [(MODE_TEXTS[code], count) for code, count in summary["governing"].items()]
    yield from _codes(answer["items"])
    yield "Cautions", [("", text) for text in answer["cautions"]]
    yield "Assumptions taken where the request is silent", list(answer["assumptions"].items())
    yield "Not checked", list(answer["not_checked"].items())
    catalogue: Result = answer["catalogue"]
    yield (
        "Made by",
        [
            ("hangpoint", answer["engine_version"]),
            ("design code", answer["design_code"]["edition"]),
            ("combinations", answer["combinations"]),
            ("catalogue", f"{catalogue['version']}, {catalogue['hash']}"),
            ("request digest", answer["request_digest"]),
        ],
    )


def _codes(items: Sequence[Result]) -> Iterator[tuple[str, Sequence[tuple[str, Any]]]]:
    """What the codes of findings, refusals and questions in the schedule mean, each once."""
    findings = [finding for item in items for finding in item.get("findings", ())]
    reasons = [item["reason"] for item in items if "reason" in item]
    asked = [each for item in items for each in item.get("to_engineer", ())]
    for title, entries, text in (
        ("Findings", findings, "text"),
        ("Why points were refused", reasons, "text"),
        ("Questions to the engineer", asked, "question"),
    ):
        texts = {each["code"]: each[text] for each in reversed(entries)}
        if texts:
            yield title, sorted(texts.items())
