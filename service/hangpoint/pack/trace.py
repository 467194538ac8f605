"""The trace of one point: the records of the core at its row, line by line, in the units of the design code."""

import math
from collections.abc import Sequence
from functools import cache
from typing import Any

import numpy as np
import orjson

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.hanger.run_reaction import BY_MODEL
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Axis, Kind, Q, Record, Value, columns, trace
from hangpoint.core.vocabulary import Link
from hangpoint.pack.printed import in_request_units, printed_cases
from hangpoint.pack.which_anchors import all_rows, other_points, own_anchors, several_anchors
from hangpoint.units import FORCE, System, bare_factor

_TRAILING = {Axis.EDGE: EDGES, Axis.NATURE: TRANSIENT, Axis.MODEL: BY_MODEL}
_ORDER = {link: place for place, link in enumerate(Link)}


def point_trace(verdicts: Verdicts, at: int, *, system: System, ids: Sequence[str]) -> list[dict[str, Any]]:
    """Every section of the calculation of the point at this place, in hand-calculation order.

    A section is in the units of the design code; where the request has others, that of a mode also has its strength
    and demand ``converted`` to them. ``ids`` name all points of the batch.
    """
    sections: list[tuple[int, dict[str, Any]]] = []
    for section in verdicts.sections:
        row = int(section.row[at])
        if row >= 0:
            made = record_section(section.record, row)
            if section.anchor >= 0:
                made["anchor"] = section.anchor
            sections.append((_ORDER[section.link], made))
    several = bool(several_anchors(verdicts)[at])
    for mode in verdicts.modes:
        if mode.record is not None and mode.applies[at]:
            made = record_section(mode.record, int(mode.row[at])) | _of_mode(mode, at, verdicts, system)
            if several and mode.outcome is not None:
                made |= _of_anchors(mode, at, verdicts, system, ids)
            sections.append((_ORDER[mode.mode.link], made))
    sections.sort(key=lambda each: each[0])
    return [made for _, made in sections]


def _of_mode(mode: PointMode, at: int, verdicts: Verdicts, system: System) -> dict[str, Any]:
    made: dict[str, Any] = {
        "mode": mode.mode.value.code,
        "clause": mode.mode.value.clause,
        "load_case": printed_cases(verdicts.case_names)[int(mode.load_case[at])],
    }
    if mode.edge[at] >= 0:
        made["edge"] = EDGES[int(mode.edge[at])]
    if bare_factor(FORCE, system) != 1.0 and not mode.mode.is_ratio:
        pair = np.array([mode.design_strength[at], mode.demand[at]])
        strength, demand = in_request_units(pair, FORCE, system).tolist()
        made["converted"] = {"design_strength": strength, "demand": demand}
    return made


def _of_anchors(mode: PointMode, at: int, verdicts: Verdicts, system: System, ids: Sequence[str]) -> dict[str, Any]:
    """The anchors of the governing row, and a line for each set of anchors and edge of the point in its load case."""
    outcome = mode.outcome
    if outcome is None:
        return {}
    (own,) = own_anchors(mode, mode.row[at : at + 1], verdicts)
    made: dict[str, Any] = {"anchors": own} if own else {}
    if outcome.sets is None:
        return made
    rows = all_rows(mode, at, verdicts)
    strength, demand = (
        in_request_units(column[rows], FORCE, system).tolist() for column in (outcome.design_strength, outcome.demand)
    )
    utilisation = outcome.utilisation[rows].tolist()
    others = [[ids[point] for point in points] for points in other_points(mode, rows, verdicts)]
    lines = zip(own_anchors(mode, rows, verdicts), others, strength, demand, utilisation, strict=True)
    made["rows"] = [
        {"anchors": anchors}
        | ({"points": points} if points else {})
        | {"design_strength": phi_n, "demand": n_ua, "utilisation": ratio}
        for anchors, points, phi_n, n_ua, ratio in lines
    ]
    (with_points,) = other_points(mode, mode.row[at : at + 1], verdicts)
    if with_points:
        made["points"] = [ids[point] for point in with_points]
    if outcome.edge_of_row is not None:
        for line, edge in zip(made["rows"], outcome.edge_of_row[rows].tolist(), strict=True):
            line["edge"] = EDGES[edge]
    return made


def record_section(record: Record, row: int) -> dict[str, Any]:
    """One row of a record as a section of a trace; its lines are JSON already."""
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
        return {name: _value(each, q) for name, each in zip(_TRAILING[q.axis or Axis.EDGE], value, strict=True)}
    return value


def _infinite(value: float, q: Q) -> str:
    if q.infinite and value > 0:
        return q.infinite
    raise NonFiniteError(f"{q.symbol} is not a finite number")
