"""The trace of one point: the records of the core at its row, line by line, in the units of the design code."""

import math
from functools import cache
from typing import Any

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Kind, Q, Record, Value, columns, trace
from hangpoint.core.vocabulary import Link
from hangpoint.pack.answer import CASE_NAMES

_ORDER = {link: place for place, link in enumerate(Link)}


def point_trace(verdicts: Verdicts, at: int) -> list[dict[str, Any]]:
    """Every section of the calculation of the point at this place, in hand-calculation order."""
    sections: list[tuple[int, dict[str, Any]]] = []
    for section in verdicts.sections:
        row = int(section.row[at])
        if row >= 0:
            sections.append((_ORDER[section.link], _section(section.record, row)))
    for mode in verdicts.modes:
        if mode.record is not None and mode.applies[at]:
            made = _section(mode.record, int(mode.row[at])) | {
                "mode": mode.mode.value.code,
                "clause": mode.mode.value.clause,
                "load_case": CASE_NAMES[int(mode.load_case[at])],
            }
            if mode.edge[at] >= 0:
                made["edge"] = EDGES[int(mode.edge[at])]
            sections.append((_ORDER[mode.mode.link], made))
    sections.sort(key=lambda each: each[0])
    return [made for _, made in sections]


def _section(record: Record, row: int) -> dict[str, Any]:
    kind = type(record)
    heads, quantities = _heads(kind), columns(kind)
    lines = [{**heads[name], "value": _value(value, quantities[name])} for name, value in trace(record, row)]
    return {"record": kind.__name__, "title": kind.TITLE, "axis": kind.AXIS, "lines": lines}


@cache
def _heads(kind: type[Record]) -> dict[str, dict[str, Any]]:
    """What the line of each field says besides its value."""
    return {name: _head(name, q) for name, q in columns(kind).items()}


def _head(name: str, q: Q) -> dict[str, Any]:
    made = {"name": name, "symbol": q.symbol, "unit": q.unit.replace("**", ""), "kind": q.kind, "clause": q.clause}
    if q.kind is Kind.FORMULA:
        made["formula"] = q.formula
    elif q.kind is Kind.PROCEDURE:
        made["procedure"] = q.formula
    return {key: text for key, text in made.items() if text or key == "unit"}


def _value(value: Value, q: Q) -> Any:
    if isinstance(value, float):
        return value if math.isfinite(value) else _infinite(value, q)
    if isinstance(value, list):
        return {name: _value(each, q) for name, each in zip(EDGES, value, strict=True)}
    return value


def _infinite(value: float, q: Q) -> str:
    if q.infinite and value > 0:
        return q.infinite
    raise NonFiniteError(f"{q.symbol} is not a finite number")
