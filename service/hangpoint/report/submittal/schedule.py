"""The schedule of a submittal: every point of every level, and why those that do not pass do not."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hangpoint.report.calculation.mathml import number, sentence
from hangpoint.report.load_map.page import level_title
from hangpoint.report.load_map.tables import Column, column_table, demand_columns, place_columns
from hangpoint.report.load_map.tiles import Point
from hangpoint.report.paper import head, listed
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import percent, why
from hangpoint.report.submittal.concerned import failing_without_sheet

Answer = Mapping[str, Any]

_NO_SHEET = " It has no calculation sheet in this submittal."
_NOT_PASSED = ("failed", "refused", "invalid")


def schedule(answer: Answer, title: str) -> str:
    """What stands in the schedule."""
    units = answer["units"]
    read = (
        f"Coordinates in {units['coordinate']}, h_ef in {units['length']}, loads in {units['force']}. No. is the place"
        " in the request, and the number on the load map. Points that do not pass are in bold."
    )
    return (
        f'{head(answer, "Submittal of hang points", title)}<p class="small">{sentence(read)}</p>\n'
        f"{_why(answer)}{''.join(_levels(answer))}"
    )


def _why(answer: Answer) -> str:
    bare = set(failing_without_sheet(answer))
    texts = (
        f"<strong>{on_page(each['id'] or 'item without an id')}</strong> (No. {each['index'] + 1}),"
        f" {each['status']}: {sentence(why(each, answer['units']) or '')}{_NO_SHEET * (each['id'] in bare)}"
        for each in answer["items"]
        if each["status"] in _NOT_PASSED
    )
    return listed("Points that do not pass", texts)


def _levels(answer: Answer) -> Iterator[str]:
    of_level: dict[int | None, list[Point]] = {}
    for row, on_map in zip(answer["schedule"], answer["load_map"]["items"], strict=True):
        of_level.setdefault(on_map.get("map"), []).append(row)
    for at, level in enumerate(answer["load_map"]["levels"]):
        rows = of_level[at]
        table = column_table(rows, list(_columns(rows, answer["units"])), strong=_NOT_PASSED)
        yield f"<section><h2>{on_page(level_title(level))}</h2>{table}</section>\n"


def _columns(rows: Sequence[Point], units: Mapping[str, str]) -> Iterator[Column]:
    yield Column(title="No.", cell=lambda row: str(row["number"]))
    yield Column(title="Id", cell=lambda row: row["id"], number=False, wide=1)
    yield from place_columns(rows, units["coordinate"], axes="xyz")
    yield Column(title="Product", cell=_product, number=False, wide=2)
    yield Column(title="h_ef", cell=lambda row: number(row["h_ef"]) if "h_ef" in row else "")
    yield from demand_columns(rows, units["force"])
    yield Column(title="Governs", cell=_governs, number=False, wide=1)
    yield Column(title="Used", cell=_used)
    yield Column(title="Verdict", cell=lambda row: row["status"], number=False, whole=True)


def _product(row: Point) -> str:
    return row["product"]["address"] if "product" in row else "none"


def _is_checked(row: Point) -> bool:
    return row["status"] in ("passed", "failed") and "utilisation" in row


def _governs(row: Point) -> str:
    return row["mode"].replace("_", " ") if _is_checked(row) else ""


def _used(row: Point) -> str:
    return percent(row["utilisation"]) if _is_checked(row) else ""
