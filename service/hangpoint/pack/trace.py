"""The trace of one point: the records of the core at its row, line by line, in the units of the design code."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import Any

import numpy as np
import orjson

from hangpoint.core.clauses import Citing, cited
from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.hanger.run_reaction import BY_MODEL
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Axis, Kind, Q, Record, Value, columns, trace
from hangpoint.core.vocabulary import Link
from hangpoint.pack.citing import symbol_by
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.which_anchors import all_rows, other_points, own_anchors
from hangpoint.units import FORCE, System, bare_factor

_TRAILING: Mapping[Axis | None, Sequence[str]] = {Axis.EDGE: EDGES, Axis.NATURE: TRANSIENT, Axis.MODEL: BY_MODEL}
_ORDER = {link: place for place, link in enumerate(Link)}
_EN = "hangpoint.core.en1992_4."
_NOT_FINITE = b"null"
"""How orjson writes a number that is not finite; no number that is has this text."""


def point_trace(
    verdicts: Verdicts,
    at: int,
    *,
    several: bool,
    citing: Citing,
    names: Sequence[str],
    system: System,
    ids: Sequence[str],
) -> list[dict[str, Any]]:
    """Every section of the calculation of the point at this place, in hand-calculation order.

    A section is in the units of the design code; where the request has others, that of a mode also has its strength
    and demand ``converted`` to them.

    Args:
        verdicts: of the batch.
        at: place of the point in it.
        several: the point is one of `several_anchors`.
        citing: whose clauses and symbols it has.
        names: of the load cases by index.
        system: unit system of the request.
        ids: of all points of the batch.
    """
    sections: list[tuple[int, dict[str, Any]]] = []
    for section in verdicts.sections:
        row = int(section.row[at])
        if row >= 0:
            made = record_section(section.record, row, citing=_citing(section.record, citing))
            if several and section.anchor >= 0:
                made["anchor"] = section.anchor
            if section.load_case is not None:
                made["load_case"] = names[int(section.load_case[at])]
            sections.append((_ORDER[section.link], made))
    for mode in verdicts.modes:
        if mode.record is not None and mode.applies[at]:
            own = _citing(mode.record, citing)
            made = record_section(mode.record, int(mode.row[at]), citing=own)
            made |= _of_mode(mode, at, names, system, own)
            if several and mode.outcome is not None:
                made |= _of_anchors(mode, at, verdicts, system, ids)
            sections.append((_ORDER[mode.mode.link], made))
    sections.sort(key=lambda each: each[0])
    return [made for _, made in sections]


def _citing(record: Record, citing: Citing) -> Citing:
    """A record of EN 1992-4 itself has its clauses and symbols already."""
    return Citing.CHAPTER_17 if type(record).__module__.startswith(_EN) else citing


def _of_mode(mode: PointMode, at: int, names: Sequence[str], system: System, citing: Citing) -> dict[str, Any]:
    made: dict[str, Any] = {
        "mode": mode.mode.value.code,
        "clause": cited(mode.mode.value.clause, citing),
        "load_case": names[int(mode.load_case[at])],
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


def record_section(record: Record, row: int, *, citing: Citing = Citing.CHAPTER_17) -> dict[str, Any]:
    """One row of a record as a section of a trace; its lines are JSON already, without those whose ``when`` is false.

    ``citing`` says whose clauses and symbols the lines have that several methods share.

    Raises:
        NonFiniteError: a number is not finite, and infinity has no word.
    """
    kind = type(record)
    values = trace(record, row)
    form = _form(kind, tuple([bool(values[at]) for at in _conditions(kind)]), citing)
    own = [values[at] for at in form.lines]
    texts = orjson.dumps(own).translate(None, b"[]").split(b",")
    for at, words in form.words:
        texts[at] = words[int(texts[at])]
    if _NOT_FINITE in texts:
        _name_infinite(texts, own, form)
    lines = orjson.Fragment(form.template % tuple(texts))
    return {"record": kind.__name__, "title": kind.TITLE, "axis": kind.AXIS.value, "lines": lines}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Form:
    """How the rows of a kind of record are written on which the same of its conditions hold.

    ``template`` is JSON with a ``%b`` for each number, ``numbers`` what each of them is: the fields ``lines``, one for
    each place of a trailing axis. ``words`` has the place and the texts by code of each number that is one.
    """

    lines: tuple[int, ...]
    template: bytes
    numbers: tuple[Q, ...]
    words: tuple[tuple[int, tuple[bytes, ...]], ...]


@cache
def _conditions(kind: type[Record]) -> tuple[int, ...]:
    """Places of the fields that say whether a line holds."""
    names = list(columns(kind))
    return tuple(names.index(name) for name in dict.fromkeys(q.when for q in columns(kind).values() if q.when))


@lru_cache(maxsize=1024)
def _form(kind: type[Record], holds: tuple[bool, ...], citing: Citing) -> _Form:
    """The form of the rows on which the conditions of a kind of record are so."""
    names = list(columns(kind))
    missing = {names[at] for at, held in zip(_conditions(kind), holds, strict=True) if not held}
    lines = {
        name: replace(q, clause=cited(q.clause, citing), symbol=symbol_by(q.symbol, citing))
        for name, q in columns(kind).items()
        if q.when not in missing
    }
    numbers = [q for q in lines.values() for _ in _trailing(q) or (None,)]
    return _Form(
        lines=tuple(names.index(name) for name in lines),
        template=b"[%b]" % b",".join(_line(name, q) for name, q in lines.items()),
        numbers=tuple(numbers),
        words=tuple((at, _words(q)) for at, q in enumerate(numbers) if q.labels),
    )


def _trailing(q: Q) -> Sequence[str]:
    """Names along the trailing axis of a field, none where it has none."""
    return _TRAILING.get(q.axis, ())


def _line(name: str, q: Q) -> bytes:
    """The line of a field as a template for its numbers."""
    places = b",".join(b"%b:%%b" % orjson.dumps(place) for place in _trailing(q))
    head = orjson.dumps(_head(name, q))[:-1].replace(b"%", b"%%")
    return b'%b,"value":%b}' % (head, b"{%b}" % places if places else b"%b")


def _head(name: str, q: Q) -> dict[str, Any]:
    made = {"name": name, "symbol": q.symbol, "unit": q.unit.replace("**", ""), "kind": q.kind, "clause": q.clause}
    if q.kind is Kind.FORMULA:
        made["formula"] = q.formula
    elif q.kind is Kind.PROCEDURE:
        made["procedure"] = q.formula
    if q.when:
        made["when"] = q.when
    return {key: text for key, text in made.items() if text or key == "unit"}


def _words(q: Q) -> tuple[bytes, ...]:
    """The word of each code, with the integer that stands for it in printed formulas."""
    return tuple(b'%b,"code":%d' % (orjson.dumps(word), code) for code, word in enumerate(q.labels))


def _name_infinite(texts: list[bytes], values: Sequence[Value], form: _Form) -> None:
    """Put the word for infinity where it stands for a number.

    Raises:
        NonFiniteError: there is no word, or it is not a number at all.
    """
    numbers = [each for value in values for each in (value if isinstance(value, list) else (value,))]
    for at, (number, q) in enumerate(zip(numbers, form.numbers, strict=True)):
        if texts[at] == _NOT_FINITE:
            if not q.infinite or not number > 0:
                raise NonFiniteError(f"{q.symbol} is not a finite number")
            texts[at] = orjson.dumps(q.infinite)
