"""The trace of one point: the records of the core at its row, line by line, in the units of the design code."""

import math
from functools import cache
from typing import Any

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Kind, Line, Q, Record, trace
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
    lines = [{**_head(line.name, line.q), "value": _value(line)} for line in trace(record, row)]
    return {"record": kind.__name__, "title": kind.TITLE, "axis": kind.AXIS, "lines": lines}


@cache
def _head(name: str, q: Q) -> dict[str, Any]:
    """What a line says besides its value."""
    made = {"name": name, "symbol": q.symbol, "unit": q.unit.replace("**", ""), "kind": q.kind, "clause": q.clause}
    if q.kind is Kind.FORMULA:
        made["formula"] = q.formula
    elif q.kind is Kind.PROCEDURE:
        made["procedure"] = q.formula
    return {key: text for key, text in made.items() if text or key == "unit"}


def _value(line: Line) -> Any:
    value = line.value
    if isinstance(value, list):
        return {name: _number(each, line.q) for name, each in zip(EDGES, value, strict=True)}
    return _number(value, line.q) if isinstance(value, float) else value


def _number(value: float, q: Q) -> float | str:
    if math.isfinite(value):
        return value
    if q.infinite and value > 0:
        return q.infinite
    raise NonFiniteError(f"{q.symbol} is not a finite number")
