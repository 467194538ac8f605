"""A take-off as a workbook (XLSX): pull list, sheets by level, trade and area, cut list, items, what it rests on."""

from collections.abc import Mapping
from typing import Any

from hangpoint.report.sheets import Sheets, made_by, workbook
from hangpoint.report.take_off_tables import cut_table, item_table, pull_table, share_table, sum_table

Result = Mapping[str, Any]

MOST_NAMES = 200
"""Levels, trades or areas that have a column each; beyond, the sheet has their sums only."""

_NOTE = "An aid to ordering, not a design. The sheet Basis has assumptions and what is in no count."


def take_off_workbook(answer: Result) -> bytes:
    """The workbook of an answer."""
    return workbook(answer, title="Take-off", note=_NOTE, write=lambda sheets: _write(answer, sheets))


def _write(answer: Result, sheets: Sheets) -> None:
    sheets.add("Pull list", [("", pull_table(answer))], frozen=True)
    for group in ("level", "trade", "area"):
        shares = share_table(answer, group)
        tables = [("Sums", sum_table(answer, group))]
        if len(shares.names) <= MOST_NAMES:
            tables.append(("Used at points, without waste", shares))
        sheets.add(f"By {group}", tables, last_bold=True)
    if answer["totals"]["tag"]:
        sheets.add("By tag", [("An item counts under each of its tags", sum_table(answer, "tag"))], last_bold=True)
    sheets.add("Cut list", [("", cut_table(answer))], frozen=True)
    sheets.add("Items", [("", item_table(answer))], frozen=True, pages=2)
    summary = answer["summary"]
    sheets.basis(
        (
            ("Items", [("counted", summary["counted"]), ("invalid, in no count", summary["invalid"])]),
            ("Assumptions", list(answer["assumptions"].items())),
            ("In no count", list(answer["not_counted"].items())),
            ("Cautions", [("", text) for text in answer["cautions"]]),
            ("Made by", made_by(answer)),
        )
    )
