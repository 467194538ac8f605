"""The schedule of an answer: one row a hang point, fixed columns; as cells, and as CSV."""

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from pydantic import BaseModel

from hangpoint.core.vocabulary import Status
from hangpoint.report.reasons import what_is_wrong, why

Result = Mapping[str, Any]

COLUMN_TEXTS: Mapping[str, str] = {
    "id": "Id of the hang point.",
    "row": "Its place in the request, from 1.",
    "status": "passed, failed, refused or invalid.",
    "on_assumptions": "Whether a default was taken because the request is silent.",
    "state_decided_by": "Who decided that the concrete is uncracked; empty where it is taken as cracked.",
    "product": "Address of the product: family/size/h_ef, or inline.",
    "product_data": "Whether the product's figures are invented or supplied.",
    "weakest_link": "Link of the chain that governs.",
    "governing_mode": "Mode that governs.",
    "governing_edge": "Edge that it concerns, if one.",
    "governing_load_case": "Load case that governs.",
    "utilisation": "Demand divided by design strength of the governing mode.",
    "dead": "Dead load at the anchor.",
    "contents": "Weight of contents at the anchor.",
    "live": "Live load at the anchor.",
    "sprinkler": "Load that the sprinkler standard adds at the anchor.",
    "factored_tension": "Largest factored tension of the anchor.",
    "sustained_tension": "Sustained part of the factored tension.",
    "factored_shear": "Largest factored shear of the anchor.",
    "reason": "Code of the reason why the point was refused.",
    "problem": "What is wrong first with an invalid point.",
    "pointer": "Where that is.",
    "findings": "Findings as severity:code, separated by semicolons.",
    "assumptions": "Codes of the assumptions taken, separated by semicolons.",
    "not_checked": "Codes of what was not checked, separated by semicolons.",
    "governing_anchors": "Anchors that the governing mode concerns, by their place in the layout from 0, separated by"
    " semicolons; empty at a lone anchor.",
    "neighbours": "Ids of the points near this one, separated by semicolons: those that act together with it, then"
    " those unlike it.",
    "to_engineer": "Codes of why the point goes to an engineer, separated by semicolons.",
    "load_level": "strength, or allowable: factored and sustained columns then hold service loads, combined for"
    " allowable stress.",
    "why": "Why the point is not passed, in words: what is violated with value, limit and clause, a mode used above 1,"
    " the reason of a refusal, what is wrong.",
    "line": "Line of the CSV on which the row begins, as an editor counts; empty for another form of request.",
}
"""Columns of a schedule and what they hold. Forces are in the unit that the header names in brackets."""

COLUMNS = tuple(COLUMN_TEXTS)

MEANINGS: Mapping[Status, str] = {
    Status.FAILED: "computed, and something does not hold",
    Status.REFUSED: "outside what the code or the product data cover: not checked",
    Status.INVALID: "can't be read, or can't exist: not checked",
    Status.PASSED: "everything that was checked holds",
}
"""What each status means."""

FORCES = ("dead", "contents", "live", "sprinkler", "factored_tension", "sustained_tension", "factored_shear")
MOST_PLACES = 5
"""Places of further errors of one item that are named."""

_NOTHING: Result = {}
_GUARDED = ("=", "+", "-", "@", "\t", "\r")


def schedule_rows(answer: Result) -> list[dict[str, Any]]:
    """Cells of every hang point by column; None is an empty cell."""
    return [_row(item, answer["units"]) for item in answer["items"]]


def near_ids(item: Result) -> tuple[str, ...]:
    """Ids of the points near a point: those that act together with it, unlike ones, those at a distance only."""
    near: Result = item.get("neighbours", _NOTHING)
    return tuple(each for kind in ("together", "unlike", "by_spacing") for each in near.get(kind, ()))


def titles(answer: Result) -> dict[str, str]:
    """Title of each column, with its unit where it has one."""
    force = answer["units"]["force"]
    return {name: f"{name} [{force}]" if name in FORCES else name for name in COLUMNS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A schedule as cells: titles, names of the columns, and a row a hang point; None is an empty cell."""

    titles: Sequence[str]
    names: Sequence[str]
    rows: Sequence[Sequence[Any]]

    @property
    def filled(self) -> int:
        """Cells that aren't empty."""
        return sum(cell is not None for row in self.rows for cell in row)


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands in a schedule beside the answer.

    ``lines`` are those on which the rows of a CSV begin. ``echo`` are the items as they came, whose values follow in
    columns ``input.PATH``. ``notes`` are columns of the request that were not read, at the end under their own titles.
    """

    lines: Sequence[int] = ()
    echo: Sequence[Any] | None = None
    notes: Sequence[tuple[str, Sequence[str | None]]] = ()


NOTHING_BESIDE = Beside()


def schedule_table(answer: Result, beside: Beside = NOTHING_BESIDE) -> Table:
    """The schedule of an answer to a batch."""
    rows = schedule_rows(answer)
    for row, line in zip(rows, beside.lines, strict=False):
        row["line"] = line
    extra: dict[str, None] = {}
    if beside.echo is not None:
        for row, item in zip(rows, beside.echo, strict=True):
            flat = dict(_flat(item, "input"))
            extra.update(dict.fromkeys(flat))
            row.update(flat)
    names = (*COLUMNS, *extra)
    notes = [cells for _, cells in beside.notes]
    return Table(
        titles=[*titles(answer).values(), *extra, *(title for title, _ in beside.notes)],
        names=[*names, *(f"note.{at}" for at in range(len(notes)))],
        rows=[[*(row.get(name) for name in names), *(cells[at] for cells in notes)] for at, row in enumerate(rows)],
    )


def schedule_csv(answer: Result, beside: Beside = NOTHING_BESIDE) -> str:
    """The schedule as CSV (RFC 4180), cells that a spreadsheet would take for a formula guarded by an apostrophe."""
    return table_csv(schedule_table(answer, beside))


def table_csv(table: Table) -> str:
    """A table as such a CSV."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([guarded(title) for title in table.titles])
    writer.writerows([guarded(cell) for cell in row] for row in table.rows)
    return out.getvalue()


def is_formula(text: str) -> bool:
    """Whether a spreadsheet would take a text for a formula."""
    return text.startswith(_GUARDED)


def _row(item: Result, units: Mapping[str, str]) -> dict[str, Any]:
    governing: Result = item.get("governing", _NOTHING)
    product: Result = item.get("product", _NOTHING)
    demand: Result = item.get("demand", _NOTHING)
    problem: Result = item.get("problem", _NOTHING)
    reason: Result = item.get("reason", _NOTHING)
    errors = cast(list[Result], problem.get("errors", []))
    first: Result = errors[0] if errors else _NOTHING
    return {
        "id": item["id"],
        "row": item["index"] + 1,
        "status": str(item["status"]),
        "on_assumptions": item.get("on_assumptions"),
        "state_decided_by": item.get("state_decided_by"),
        "product": product.get("address"),
        "product_data": product.get("data"),
        "weakest_link": item.get("weakest_link"),
        "governing_mode": governing.get("mode"),
        "governing_edge": governing.get("edge"),
        "governing_load_case": governing.get("load_case"),
        "utilisation": governing.get("utilisation"),
        **{name: demand.get(name) for name in FORCES},
        "reason": reason.get("code"),
        "problem": _problem(errors),
        "pointer": first.get("pointer"),
        "findings": _codes(item.get("findings")),
        "assumptions": ";".join(item.get("assumptions", ())) or None,
        "not_checked": ";".join(item.get("not_checked", ())) or None,
        "governing_anchors": ";".join(map(str, governing.get("anchors", ()))) or None,
        "neighbours": ";".join(near_ids(item)) or None,
        "to_engineer": ";".join(each["code"] for each in item.get("to_engineer", ())) or None,
        "load_level": demand.get("level"),
        "why": why(item, units),
        "line": None,
    }


def _problem(errors: Sequence[Result]) -> str | None:
    """The first error, and where the next are."""
    if not errors:
        return None
    detail = what_is_wrong(errors[0])
    column = errors[0].get("column")
    if column is not None:
        detail = f'column "{column}": {detail}'
    others = [str(each["pointer"]) for each in errors[1 : 1 + MOST_PLACES]]
    more = f" and {len(errors) - 1 - MOST_PLACES} more" if len(errors) - 1 > MOST_PLACES else ""
    return f"{detail} Wrong as well: {', '.join(others)}{more}." if others else detail


def _codes(findings: Sequence[Result] | None) -> str | None:
    return ";".join(f"{each['severity']}:{each['code']}" for each in findings or ()) or None


def _flat(value: Any, path: str) -> list[tuple[str, Any]]:
    if isinstance(value, BaseModel):
        return _flat(value.model_dump(mode="json", exclude_unset=True), path)
    if isinstance(value, Mapping):
        members = cast(Mapping[str, Any], value)
        return [pair for key, inner in members.items() for pair in _flat(inner, f"{path}.{key}")]
    if isinstance(value, list):
        entries = cast(list[Any], value)
        if any(isinstance(entry, Mapping) for entry in entries):
            return [pair for at, inner in enumerate(entries) for pair in _flat(inner, f"{path}.{at}")]
        return [(path, ";".join(str(entry) for entry in entries))]
    return [(path, value)]


def unguarded(cell: str) -> str:
    """The text of a cell that `guarded` has written."""
    return cell[1:] if cell.startswith("'") and is_formula(cell[1:]) else cell


def guarded(value: Any) -> Any:
    """A cell of a CSV: empty for None, and no formula."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str) and is_formula(value):
        return f"'{value}"
    return value
