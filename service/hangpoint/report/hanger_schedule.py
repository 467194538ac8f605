"""The schedule of hangers: one row a hanger, fixed columns, as CSV; and the hang points of an answer as a request."""

from collections.abc import Mapping, Sequence
from typing import Any

from hangpoint.core.vocabulary import Nature
from hangpoint.report.schedule import Table, table_csv

Result = Mapping[str, Any]

NATURES = tuple(nature.value for nature in Nature)
COLUMN_TEXTS: Mapping[str, str] = {
    "id": "Id of the item.",
    "row": "Its place in the request, from 1.",
    "kind": "run, riser, trapeze or equipment.",
    "status": "passed, failed or invalid.",
    "hanger": "Number of the hanger or rod, from 0.",
    **{name: f"Service load of nature {name}." for name in NATURES},
    "service_tension": "Largest tension by the allowable-stress combinations.",
    "service_case": "Combination that makes it.",
    "factored_tension": "Largest tension by the strength combinations.",
    "factored_case": "Combination that makes it.",
    "factored_shear": "Largest shear by the strength combinations.",
    "rod_rule": "Rule that the rod is checked by.",
    "rod_utilisation": "Load of the rod over what its rule allows.",
    "findings": "Findings of the item and of this hanger as severity:code, separated by semicolons.",
    "problem": "What is wrong first with an invalid item.",
    "pointer": "Where that is.",
}
"""Columns of the schedule and what they hold. Forces are in the unit that the header names in brackets."""

FORCES = (*NATURES, "service_tension", "factored_tension", "factored_shear")
_NOTHING: Result = {}


def hanger_rows(answer: Result) -> list[dict[str, Any]]:
    """Cells of every hanger by column, and a row for each invalid item; what is missing is an empty cell."""
    rows: list[dict[str, Any]] = []
    for item in answer["items"]:
        head = {"id": item["id"], "row": item["index"] + 1, "status": str(item["status"])}
        if "problem" in item:
            first: Result = next(iter(item["problem"].get("errors", ())), _NOTHING)
            rows.append(head | {"problem": first.get("detail"), "pointer": first.get("pointer")})
            continue
        head |= {"kind": item["kind"]}
        rows += [head | _hanger(each, item["findings"]) for each in item["hangers"]] or [
            head | {"findings": _codes(item["findings"])}
        ]
    return rows


def hanger_csv(answer: Result) -> str:
    """The schedule as CSV (RFC 4180), cells that a spreadsheet would take for a formula guarded by an apostrophe."""
    force = answer["units"]["force"]
    titles = [f"{name} [{force}]" if name in FORCES else name for name in COLUMN_TEXTS]
    rows = [[row.get(name) for name in COLUMN_TEXTS] for row in hanger_rows(answer)]
    return table_csv(Table(titles=titles, names=list(COLUMN_TEXTS), rows=rows))


def hang_point_request(answer: Result, *, units: str, defaults: Result | None = None) -> dict[str, Any]:
    """A request for the check of all hang points of an answer; ``defaults`` give what they lack, anchor and base."""
    points = [point for item in answer["items"] for point in item.get("hang_points", ())]
    made: dict[str, Any] = {"units": units, "load_standard": answer["load_standard"], "combinations": "strength"}
    return made | ({} if defaults is None else {"defaults": defaults}) | {"items": points}


def _hanger(hanger: Result, findings: Sequence[Result]) -> dict[str, Any]:
    rod: Result = hanger.get("rod", _NOTHING)
    own = [each for each in findings if each.get("hanger", hanger["hanger"]) == hanger["hanger"]]
    names = ("hanger", "service_tension", "service_case", "factored_tension", "factored_case", "factored_shear")
    return {
        **{name: hanger[name] for name in names},
        **hanger["service"],
        "rod_rule": rod.get("rule"),
        "rod_utilisation": rod.get("utilisation"),
        "findings": _codes(own),
    }


def _codes(findings: Sequence[Result]) -> str | None:
    return ";".join(f"{each['severity']}:{each['code']}" for each in findings) or None
