"""An as-built list as a table: one row an anchor, fixed columns, as CSV and as a workbook."""

from collections.abc import Mapping
from typing import Any

from hangpoint.report.schedule import Table, table_csv
from hangpoint.report.sheets import Sheets, made_by, workbook

Result = Mapping[str, Any]
_NOTHING: Result = {}

AS_BUILT_TEXTS: Mapping[str, str] = {
    "id": "Id of the anchor.",
    "row": "Its place in the request, from 1.",
    "status": "conforms, deviates, incomplete or invalid.",
    "level": "Level that it states.",
    "trade": "Trade that it states.",
    "area": "Area that it states.",
    "x": "Coordinate x that it states.",
    "y": "Coordinate y that it states.",
    "z": "Coordinate z that it states.",
    "tags": "Words of its own, separated by semicolons.",
    "product_required": "Address of the product that was required.",
    "product_set": "Address of the product that was set.",
    "embedment_required": "Embedment that was required.",
    "embedment_set": "Embedment as set.",
    "torque_least": "Least torque by the required one, or that of the product set, and the tolerance.",
    "torque_most": "Largest torque by the required one, or that of the product set, and the tolerance.",
    "torque_set": "Torque applied when it was set.",
    "hole_diameter": "Diameter of the bit.",
    "hole_depth": "Depth of the hole.",
    "date": "Day on which it was set.",
    "installer": "Who set it.",
    "inspector": "Who inspected it.",
    "batch": "Batch of the adhesive.",
    "expiry": "Last day on which the adhesive may be used.",
    "test_load_required": "Test load that was required.",
    "test_load": "Test load that was put on.",
    "hold_seconds": "How long it stayed on, seconds.",
    "held": "Whether the anchor held it.",
    "deviations": "Codes of the deviations, separated by semicolons.",
    "not_recorded": "Codes of what was not recorded, separated by semicolons.",
    "not_compared": "Codes of what was recorded and compared with nothing, separated by semicolons.",
    "remark": "Deviation that the installer noted.",
    "problem": "What is wrong first with an invalid item.",
    "pointer": "Where that is.",
}
"""Columns of the list and what they hold; quantities in the unit that the header names in brackets."""

_KINDS = {
    **dict.fromkeys(("embedment_required", "embedment_set", "hole_diameter", "hole_depth"), "length"),
    **dict.fromkeys(("torque_least", "torque_most", "torque_set"), "torque"),
    **dict.fromkeys(("test_load_required", "test_load"), "force"),
    **dict.fromkeys(("x", "y", "z"), "coordinate"),
}
_NOTE = "Records of the site. That an anchor conforms does not say that it holds."


def as_built_csv(answer: Result) -> str:
    """The list as CSV (RFC 4180), cells that a spreadsheet would take for a formula guarded by an apostrophe."""
    return table_csv(_table(answer))


def as_built_workbook(answer: Result) -> bytes:
    """The list as a workbook, with a sheet of what it rests on."""
    return workbook(answer, title="As-built list", note=_NOTE, write=lambda sheets: _write(answer, sheets))


def _write(answer: Result, sheets: Sheets) -> None:
    sheets.add("As built", [("", _table(answer))], frozen=True, pages=2)
    summary = {name: value for name, value in answer["summary"].items() if name != "deviations"}
    sheets.basis(
        (
            ("Anchors", list(summary.items())),
            ("Deviations", list(answer["summary"]["deviations"].items())),
            ("Assumptions", list(answer["assumptions"].items())),
            ("Cautions", [("", text) for text in answer["cautions"]]),
            ("Made by", made_by(answer)),
        )
    )


def _table(answer: Result) -> Table:
    units = answer["units"]
    titles = [f"{name} [{units[_KINDS[name]]}]" if name in _KINDS else name for name in AS_BUILT_TEXTS]
    rows = [_row(item) for item in answer["items"]]
    return Table(titles=titles, names=list(AS_BUILT_TEXTS), rows=[[row.get(n) for n in AS_BUILT_TEXTS] for row in rows])


def _row(item: Result) -> dict[str, Any]:
    required: Result = item.get("required", _NOTHING)
    own: Result = item.get("set", _NOTHING)
    test: Result = own.get("test", _NOTHING)
    problem: Result = next(iter(item.get("problem", _NOTHING).get("errors", ())), _NOTHING)
    held = test.get("held")
    return {
        **{name: item.get(name) for name in ("id", "status", "level", "trade", "area", "x", "y", "z")},
        "tags": ";".join(item.get("tags", ())) or None,
        **{name: own.get(name) for name in ("hole_diameter", "hole_depth", "date", "installer", "inspector")},
        **{name: own.get(name) for name in ("batch", "expiry")},
        **{f"{name}_required": required.get(name) for name in ("product", "embedment", "test_load")},
        **{f"{name}_set": own.get(name) for name in ("product", "embedment", "torque")},
        **{name: required.get(name) for name in ("torque_least", "torque_most")},
        "row": item["index"] + 1,
        "test_load": test.get("load"),
        "hold_seconds": test.get("hold_seconds"),
        "held": None if held is None else "yes" if held else "no",
        "deviations": ";".join(each["code"] for each in item.get("deviations", ())) or None,
        "not_recorded": ";".join(item.get("not_recorded", ())) or None,
        "not_compared": ";".join(item.get("not_compared", ())) or None,
        "remark": own.get("deviation"),
        "problem": problem.get("detail"),
        "pointer": problem.get("pointer"),
    }
