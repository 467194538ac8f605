"""The trace of one point: the records of the core at its row, line by line, in the units of the design code."""

import math
from typing import Any

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Axis, Kind, Line, Q, Record, trace
from hangpoint.core.vocabulary import Link
from hangpoint.pack.answer import CASE_NAMES

PRINTED_UNITS = {
    "in**2": "in2",
    "in": "in",
    "lbf": "lbf",
    "psi": "psi",
    "ft": "ft",
    "lbf/ft": "lbf/ft",
    "lb/ft**3": "lb/ft3",
    "": "",
}
"""How a trace prints the unit of a line (pint's spelling on the left)."""


def point_trace(verdicts: Verdicts, at: int) -> list[dict[str, Any]]:
    """Every section of the calculation of the point at this place, in hand-calculation order."""
    sections: list[tuple[Link, dict[str, Any]]] = []
    for section in verdicts.sections:
        row = int(section.row[at])
        if row >= 0:
            sections.append((section.link, _section(section.record, row)))
    for mode in verdicts.modes:
        if mode.applies[at]:
            row = int(mode.row[at])
            made = _section(mode.record, row) | {
                "mode": mode.mode.value.code,
                "clause": mode.mode.value.clause,
                "load_case": CASE_NAMES[int(mode.load_case[at])],
            }
            if mode.edge[at] >= 0:
                made["edge"] = EDGES[int(mode.edge[at])]
            sections.append((mode.mode.link, made))
    order = list(Link)
    return [made for _, made in sorted(sections, key=lambda each: order.index(each[0]))]


def _section(record: Record, row: int) -> dict[str, Any]:
    kind = type(record)
    return {
        "record": kind.__name__,
        "title": kind.TITLE,
        "axis": kind.AXIS,
        "lines": [_line(line) for line in trace(record, row)],
    }


def _line(line: Line) -> dict[str, Any]:
    q = line.q
    made: dict[str, Any] = {"name": line.name, "symbol": q.symbol, "value": _value(line, q)}
    made["unit"] = PRINTED_UNITS.get(q.unit, q.unit)
    made["kind"] = q.kind
    if q.clause:
        made["clause"] = q.clause
    if q.kind is Kind.FORMULA:
        made["formula"] = q.formula
    elif q.kind is Kind.PROCEDURE:
        made["procedure"] = q.formula
    return made


def _value(line: Line, q: Q) -> Any:
    if isinstance(line.value, list):
        names = EDGES if q.axis is Axis.EDGE else tuple(str(place) for place in range(len(line.value)))
        return {name: _number(value, q) for name, value in zip(names, line.value, strict=True)}
    if isinstance(line.value, bool | str):
        return line.value
    return _number(line.value, q)


def _number(value: float, q: Q) -> float | str:
    if math.isfinite(value):
        return value
    if q.infinite and value > 0:
        return q.infinite
    raise NonFiniteError(f"{q.symbol} is not a finite number")
