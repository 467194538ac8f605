"""A log of proof tests as CSV and as a workbook: blank to be filled in, or judged."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hangpoint.report.reasons import allowed_text, place_of
from hangpoint.report.schedule import Table, table_csv
from hangpoint.report.sheets import Sheets, workbook

Row = Mapping[str, Any]
Beside = Sequence[tuple[str, Sequence[str | None]]]
"""Title and cells of columns."""

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
    "inspector": "",
}
BLANK: Mapping[str, str] = {**_HEAD, **_FILLED, "findings": "", "problem": ""}
JUDGED: Mapping[str, str] = {**_HEAD, **_FILLED, "outcome": "", "findings": "", "problem": ""}
"""Columns, and the kind of quantity that the header names in brackets."""

_NOTE = "Nobody stands below or in line with the jack while an anchor is tested."


def blank_csv(answer: Row) -> str:
    """The log of a plan, with empty cells for what is measured, and a row of every item that has no plan, with why."""
    return table_csv(_table(_blank(answer), BLANK, answer["units"]))


def blank_workbook(answer: Row) -> bytes:
    """The same as a workbook."""
    return _workbook(_blank(answer), BLANK, answer, title="Proof tests to be made")


def judged_csv(answer: Row, beside: Beside = ()) -> str:
    """A judged log; ``beside`` are columns that come back as they came."""
    return table_csv(_table(_judged(answer), JUDGED, answer["units"], beside))


def judged_workbook(answer: Row, beside: Beside = ()) -> bytes:
    """The same as a workbook."""
    return _workbook(_judged(answer), JUDGED, answer, title="Proof tests made", beside=beside)


def _blank(answer: Row) -> list[Row]:
    """The tests, and the items that can't be read: of them nothing is tested, which a log must not leave out."""
    invalid = [each for each in answer["items"] if "problem" in each]
    return [*answer["log"], *({"id": each["id"], "problem": each["problem"]["detail"]} for each in invalid)]


def _judged(answer: Row) -> list[dict[str, Any]]:
    return [
        {"id": each["id"], "outcome": "invalid", "problem": " ".join(_what_is_wrong(each["problem"]))}
        if "problem" in each
        else each
        for each in answer["items"]
    ]


def _what_is_wrong(problem: Row) -> Iterator[str]:
    """What is wrong with a row, by its line and column where it came as CSV."""
    for each in problem["errors"]:
        yield f"{place_of(each)}: {each['detail']}{allowed_text(each.get('allowed', ()))}"


def _cells(row: Row, columns: Mapping[str, str]) -> list[Any]:
    plain = {**row, "findings": "; ".join(each["code"] for each in row.get("findings", ())) or None}
    return [_legible(plain.get(name)) for name in columns]


def _legible(value: Any) -> Any:
    """A number as a gauge is set by it: to seven figures."""
    return float(f"{value:.7g}") if isinstance(value, float) else value


def _table(rows: Sequence[Row], columns: Mapping[str, str], units: Mapping[str, str], beside: Beside = ()) -> Table:
    titles = [f"{name} [{units.get(kind, kind)}]" if kind else name for name, kind in columns.items()]
    more = [title for title, _ in beside]
    cells = [[*_cells(row, columns), *(own[at] for _, own in beside)] for at, row in enumerate(rows)]
    return Table(titles=[*titles, *more], names=[*columns, *more], rows=cells)


def _workbook(
    rows: Sequence[Row], columns: Mapping[str, str], answer: Row, *, title: str, beside: Beside = ()
) -> bytes:
    def write(sheets: Sheets) -> None:
        sheets.add("Log", [("", _table(rows, columns, answer["units"], beside))], frozen=True)
        rule: Row = answer["rule"]
        sheets.basis(
            (
                ("Rule", [("title", rule["title"]), ("source", rule["source"])]),
                ("Acceptance", [("", text) for text in answer["acceptance"]]),
                ("After a failure", [("", text) for text in answer["after_failure"]]),
                ("Cautions", [("", text) for text in answer["cautions"]]),
            ),
            name="Rule",
        )

    return workbook(answer, title=title, note=_NOTE, write=write)
