"""A log of proof tests as CSV and as a workbook: blank to be filled in, or judged."""

import csv
import io
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from hangpoint.report.schedule import guarded

Row = Mapping[str, Any]

_HEAD: Mapping[str, str] = {
    "id": "",
    "product": "",
    "use": "",
    "level": "",
    "area": "",
    "crew": "",
    "day": "",
    "method": "",
    "test_load": "force",
    "most_load": "force",
    "hold_seconds": "s",
}
_FILLED: Mapping[str, str] = {
    "applied": "force",
    "held_seconds": "s",
    "displacement": "length",
    "moved": "",
    "notes": "",
}
BLANK: Mapping[str, str] = {**_HEAD, **_FILLED, "inspector": "", "findings": ""}
JUDGED: Mapping[str, str] = {**_HEAD, **_FILLED, "outcome": "", "findings": "", "problem": ""}
"""Columns, and the kind of quantity that the header names in brackets."""

_CREATED = datetime(1980, 1, 1)


def blank_csv(answer: Row) -> str:
    """The log of a plan, with empty cells for what is measured."""
    return _csv(answer["log"], BLANK, answer["units"])


def blank_workbook(answer: Row) -> bytes:
    """The same as a workbook."""
    return _workbook(answer["log"], BLANK, answer, title="Proof tests to be made")


def judged_csv(answer: Row) -> str:
    """A judged log."""
    return _csv(_judged(answer), JUDGED, answer["units"])


def judged_workbook(answer: Row) -> bytes:
    """The same as a workbook."""
    return _workbook(_judged(answer), JUDGED, answer, title="Proof tests made")


def _judged(answer: Row) -> list[dict[str, Any]]:
    return [
        {"id": each["id"], "outcome": "invalid", "problem": each["problem"]["detail"]} if "problem" in each else each
        for each in answer["items"]
    ]


def _cells(row: Row, columns: Mapping[str, str]) -> list[Any]:
    plain = {**row, "findings": "; ".join(each["code"] for each in row.get("findings", ())) or None}
    return [plain.get(name) for name in columns]


def _titles(columns: Mapping[str, str], units: Mapping[str, str]) -> list[str]:
    return [f"{name} [{units.get(kind, kind)}]" if kind else name for name, kind in columns.items()]


def _csv(rows: Sequence[Row], columns: Mapping[str, str], units: Mapping[str, str]) -> str:
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(_titles(columns, units))
    for row in rows:
        writer.writerow([guarded(each) for each in _cells(row, columns)])
    return out.getvalue()


def _workbook(rows: Sequence[Row], columns: Mapping[str, str], answer: Row, *, title: str) -> bytes:
    from xlsxwriter import Workbook  # pyright: ignore[reportMissingTypeStubs]

    file = io.BytesIO()
    book: Any = Workbook(file, {"in_memory": True})
    book.set_properties({"title": title, "created": _CREATED})
    bold = book.add_format({"bold": True, "text_wrap": True, "bottom": 1, "valign": "vcenter"})
    sheet = book.add_worksheet("Log")
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.freeze_panes(1, 1)
    sheet.repeat_rows(0)
    for place, name in enumerate(_titles(columns, answer["units"])):
        sheet.set_column(place, place, max(len(name) + 2, 12))
        sheet.write_string(0, place, name, bold)
    for line, row in enumerate(rows, start=1):
        for place, value in enumerate(_cells(row, columns)):
            if isinstance(value, int | float) and not isinstance(value, bool):
                sheet.write_number(line, place, value)
            elif value is not None:
                sheet.write_string(line, place, str(value).lower() if isinstance(value, bool) else str(value))
    notes = book.add_worksheet("Rule")
    notes.set_column(0, 0, 110, book.add_format({"text_wrap": True, "valign": "top"}))
    rule: Row = answer["rule"]
    texts = [rule["title"], f"Source: {rule['source']}", *answer["acceptance"], *answer["after_failure"]]
    for line, text in enumerate([*texts, *answer["cautions"]]):
        notes.write_string(line, 0, text)
    book.close()
    return file.getvalue()
