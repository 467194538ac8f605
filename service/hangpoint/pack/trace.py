"""The trace of one point: the records of the core at its row, line by line, in the units of the design code."""

import math
from functools import cache
from typing import Any

import numpy as np
import orjson

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Kind, Q, Record, Value, columns, trace
from hangpoint.core.vocabulary import Link
from hangpoint.pack.printed import CASE_NAMES, in_request_units
from hangpoint.units import FORCE, System, bare_factor

_ORDER = {link: place for place, link in enumerate(Link)}


def point_trace(verdicts: Verdicts, at: int, *, system: System) -> list[dict[str, Any]]:
    """Every section of the calculation of the point at this place, in hand-calculation order.

    A section is in the units of the design code; where the request has others, that of a mode also has its strength
    and demand ``converted`` to them.
    """
    converts = bare_factor(FORCE, system) != 1.0
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
            if converts and not mode.mode.is_ratio:
                pair = np.array([mode.design_strength[at], mode.demand[at]])
                strength, demand = in_request_units(pair, FORCE, system).tolist()
                made["converted"] = {"design_strength": strength, "demand": demand}
            sections.append((_ORDER[mode.mode.link], made))
    sections.sort(key=lambda each: each[0])
    return [made for _, made in sections]


def _section(record: Record, row: int) -> dict[str, Any]:
    kind = type(record)
    heads, quantities = _heads(kind), columns(kind)
    lines = [orjson.Fragment(heads[name] + _tail(value, quantities[name])) for name, value in trace(record, row)]
    return {"record": kind.__name__, "title": kind.TITLE, "axis": kind.AXIS, "lines": lines}


@cache
def _heads(kind: type[Record]) -> dict[str, bytes]:
    """The line of each field as JSON, up to its value."""
    return {name: orjson.dumps(_head(name, q))[:-1] + b',"value":' for name, q in columns(kind).items()}


def _head(name: str, q: Q) -> dict[str, Any]:
    made = {"name": name, "symbol": q.symbol, "unit": q.unit.replace("**", ""), "kind": q.kind, "clause": q.clause}
    if q.kind is Kind.FORMULA:
        made["formula"] = q.formula
    elif q.kind is Kind.PROCEDURE:
        made["procedure"] = q.formula
    if q.when:
        made["when"] = q.when
    return {key: text for key, text in made.items() if text or key == "unit"}


def _tail(value: Value, q: Q) -> bytes:
    """The value; of a choice its word, and the integer that stands for it in printed formulas."""
    if isinstance(value, str):
        return b'%b,"code":%d}' % (orjson.dumps(value), q.labels.index(value))
    return orjson.dumps(_value(value, q)) + b"}"


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
