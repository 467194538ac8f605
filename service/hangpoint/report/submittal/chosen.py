"""Which points of a submittal have calculation sheets, and which are left out."""

from collections.abc import Mapping
from typing import Any

from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.load_map.tables import Column, column_table
from hangpoint.report.paper import head, listed
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import percent
from hangpoint.report.submittal.concerned import Concerned, failing_without_sheet

Answer = Mapping[str, Any]

_CHOICE = {
    "worst": "Of each product, base and face, as the installation cards have them, the point that is used most, and"
    " points that fail, as many as a document takes.",
    "named": "The points that the request names.",
    "all": "All points that could be read.",
}


def chosen(answer: Answer, title: str) -> str:
    """What stands before the sheets."""
    sheets = answer["calculation_sheets"]
    rows = [{**answer["items"][each["index"]], "why": each["reason"]["text"]} for each in sheets["of"]]
    columns = [
        Column(title="No.", cell=lambda row: str(row["index"] + 1)),
        Column(title="Id", cell=lambda row: row["id"], number=False, wide=1),
        Column(title="Used", cell=lambda row: percent(row["governing"]["utilisation"]) if "governing" in row else ""),
        Column(title="Verdict", cell=lambda row: row["status"], number=False, whole=True),
        Column(title="Why it has a sheet", cell=lambda row: row["why"], number=False, wide=2),
    ]
    table = column_table(rows, columns, strong=("failed",)) if rows else ""
    return (
        f"{head(answer, 'Submittal of hang points', title)}<p>{sentence(_CHOICE[sheets['sheets']])}</p>\n"
        f"{_failing(answer)}{table}{listed('Left out: no sheet in this submittal', map(on_page, _left(answer)))}"
    )


def _failing(answer: Answer) -> str:
    """Where to read why points fail that have no sheet."""
    bare = failing_without_sheet(answer)
    if not bare:
        return ""
    number = next(each["number"] for each in answer["parts"] if each["part"] == "schedule")
    some = "point that fails has" if len(bare) == 1 else "points that fail have"
    return (
        f"<p><strong>{len(bare)} {some} no sheet here.</strong> The list at the end of this page names them; why they"
        f" fail stands in part {number}, under “Points that do not pass”.</p>\n"
    )


def _left(answer: Answer) -> list[str]:
    """The points without a sheet, those that fail first, by themselves."""
    by_status: dict[str, list[str]] = {}
    left = set(answer["calculation_sheets"]["left_out"])
    for each in answer["items"]:
        if each["id"] in left:
            by_status.setdefault(each["status"], []).append(each["id"])
    concerned = Concerned(answer)
    texts = [
        f"{len(by_status[status])} {word}: {concerned.text(by_status[status])}."
        for status, word in (("failed", "that fail"), ("refused", "refused"), ("passed", "that pass"))
        if status in by_status
    ]
    more = "Sheets of them are made of the same request: name their ids in only, or ask for sheets: all."
    return [*texts, more] if texts else []
