"""Verdicts of the core as result objects, a dictionary a point, in the units of the request.

Only finite numbers leave: the columns of forces, lengths and utilisations are checked as they are read.
"""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

import numpy as np

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.loads.combinations import CASES, GIVEN
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Floats
from hangpoint.core.vocabulary import Finding, Inapplicable, Link, Mode, Refusal, Status
from hangpoint.pack.points import Packed
from hangpoint.units import FORCE, KINDS, LENGTH, QuantityKind, System, bare_factor

Result = dict[str, Any]

SERVICE_NAME = "service"
CASE_NAMES = (*(case.value.name for case in CASES), SERVICE_NAME)
"""Names of the load cases by index; the last is that of a service load (`verdict.SERVICE` is -1)."""

_REFUSALS = [
    dict(zip(("code", "clause", "text"), (r.value.code, r.value.clause, r.value.text), strict=True)) for r in Refusal
]
_REASONS = [reason.value.code for reason in Inapplicable]
_MODE_QUANTITY: dict[Mode, QuantityKind] = {Mode.ROD_SIZE: LENGTH}
_LINKS = tuple(Link)


def results(packed: Packed, verdicts: Verdicts, ids: Sequence[str], *, system: System, detail: str) -> list[Result]:
    """One result a point, in order, without a trace.

    Args:
        packed: the batch as columns, with its assumptions.
        verdicts: of the same points.
        ids: id of each point.
        system: unit system of the numbers.
        detail: "verdict" leaves out modes and links.
    """
    rows = _heads(packed, verdicts, ids, system)
    if detail != "verdict":
        modes = _modes(verdicts, system)
        links = _links(verdicts)
        for row, own_modes, own_links in zip(rows, modes, links, strict=True):
            row["modes"] = own_modes
            row["links"] = own_links
    return rows


def in_request_units(column: Floats, kind: QuantityKind, system: System) -> list[float]:
    """A column in the bare unit of the request's system.

    Raises:
        NonFiniteError: a number is not finite.
    """
    factor = bare_factor(kind, system)
    return _finite(column if factor == 1.0 else column / factor)


def _finite(column: Floats) -> list[float]:
    if not np.isfinite(column).all():
        raise NonFiniteError("a result is not a finite number")
    return column.tolist()


def _heads(packed: Packed, verdicts: Verdicts, ids: Sequence[str], system: System) -> list[Result]:
    demand = verdicts.demand
    forces = [
        in_request_units(column, FORCE, system)
        for column in (demand.dead, demand.contents, demand.live, demand.sprinkler, demand.factored, demand.sustained)
    ]
    findings = _findings(verdicts, system)
    assumptions, not_checked = packed.assumptions.codes(), packed.not_checked.codes()
    governing = _governing(verdicts)
    anchors = packed.anchors
    rows: list[Result] = []
    for at, (point, refusal, failed, case, dead, contents, live, sprinkler, factored, sustained) in enumerate(
        zip(
            ids,
            verdicts.refusal.tolist(),
            verdicts.failed.tolist(),
            demand.load_case.tolist(),
            *forces,
            strict=True,
        )
    ):
        row: Result = {
            "id": point,
            "index": packed.index[at],
            "status": Status.REFUSED if refusal >= 0 else Status.FAILED if failed else Status.PASSED,
            "on_assumptions": bool(assumptions[at]),
            "product": {"address": anchors.addresses[at], "data": "invented" if anchors.invented[at] else "supplied"},
            "demand": {
                "dead": dead,
                "contents": contents,
                "live": live,
                "sprinkler": sprinkler,
                "factored_tension": factored,
                "sustained_tension": sustained,
                "load_case": CASE_NAMES[case],
            },
            "findings": findings.get(at, _NONE),
            "assumptions": assumptions[at],
            "not_checked": not_checked[at],
        }
        lead = governing[at]
        if lead is not None:
            row["governing"] = lead
            row["weakest_link"] = lead["link"]
        if refusal >= 0:
            row["reason"] = _REFUSALS[refusal]
        rows.append(row)
    return rows


_NONE: list[Any] = []


class _ModeName(NamedTuple):
    link: Link
    code: str
    text: str


def _governing(verdicts: Verdicts) -> list[Result | None]:
    modes = verdicts.modes
    if not modes:
        return [None] * verdicts.count
    at = np.arange(verdicts.count)
    which = verdicts.governing
    case: list[int] = np.array([mode.load_case for mode in modes])[which, at].tolist()
    edge: list[int] = np.array([mode.edge for mode in modes])[which, at].tolist()
    leads: list[int] = which.tolist()
    others: list[int] = verdicts.next_case.tolist()
    utilisation = _finite(verdicts.utilisation)
    next_utilisation = _finite(verdicts.next_utilisation)
    names = [_ModeName(mode.mode.link, mode.mode.value.code, mode.mode.value.text) for mode in modes]
    rows: list[Result | None] = []
    for index, own_case, own_edge, ratio, other, other_ratio in zip(
        leads, case, edge, utilisation, others, next_utilisation, strict=True
    ):
        if index < 0:
            rows.append(None)
            continue
        name = names[int(index)]
        load_case = CASE_NAMES[int(own_case)]
        own: Result = {
            "link": name.link,
            "mode": name.code,
            "group": 0,
            "anchor": 0,
            "load_case": load_case,
            "utilisation": ratio,
            "text": f"{name.text} governs at {ratio:.0%} ({load_case})",
        }
        if own_edge >= 0:
            own["edge"] = EDGES[own_edge]
        if other >= 0:
            own["next"] = {"load_case": CASE_NAMES[other], "utilisation": other_ratio}
        rows.append(own)
    return rows


def _modes(verdicts: Verdicts, system: System) -> Iterator[tuple[Result, ...]]:
    columns = [_mode(mode, system) for mode in verdicts.modes]
    refused = verdicts.refusal >= 0
    if refused.any():
        # The anchor of a refused point isn't checked, so only its rod has modes.
        rod_only = [column for column, mode in zip(columns, verdicts.modes, strict=True) if mode.mode.link is Link.ROD]
        for rods, everything, is_refused in zip(
            zip(*rod_only, strict=True), zip(*columns, strict=True), refused.tolist(), strict=True
        ):
            yield rods if is_refused else everything
    else:
        yield from zip(*columns, strict=True)


def _mode(mode: PointMode, system: System) -> list[Result]:
    kind = _MODE_QUANTITY.get(mode.mode, FORCE)
    code, clause = mode.mode.value.code, mode.mode.value.clause
    away = [{"mode": code, "applies": False, "reason": reason, "clause": clause} for reason in _REASONS]
    strengths = in_request_units(np.where(mode.applies, mode.design_strength, 0.0), kind, system)
    demands = in_request_units(np.where(mode.applies, mode.demand, 0.0), kind, system)
    quantity = kind.name
    return [
        {
            "mode": code,
            "applies": True,
            "clause": clause,
            "quantity": quantity,
            "design_strength": strength,
            "demand": demand,
            "utilisation": ratio,
            "load_case": CASE_NAMES[case],
            **({} if edge < 0 else {"edge": EDGES[edge]}),
        }
        if applies
        else away[reason]
        for applies, reason, strength, demand, ratio, case, edge in zip(
            mode.applies.tolist(),
            mode.reason.tolist(),
            strengths,
            demands,
            _finite(mode.utilisation),
            mode.load_case.tolist(),
            mode.edge.tolist(),
            strict=True,
        )
    ]


def _links(verdicts: Verdicts) -> list[list[Result]]:
    """Utilisation of each link, or that it isn't checked; the load itself is always known."""
    load = {"link": Link.LOAD, "checked": True}
    columns: list[list[Result]] = [[load] * verdicts.count]
    for link in _LINKS[1:]:
        own = [np.where(mode.applies, mode.utilisation, -1.0) for mode in verdicts.modes if mode.mode.link is link]
        peak = _finite(np.max(own, axis=0))
        away = {"link": link, "checked": False}
        columns.append([{"link": link, "checked": True, "utilisation": p} if p >= 0 else away for p in peak])
    return [list(each) for each in zip(*columns, strict=True)]


def _findings(verdicts: Verdicts, system: System) -> dict[int, list[Result]]:
    rows: dict[int, list[Result]] = {}
    for column in verdicts.findings:
        places = np.flatnonzero(column.holds)
        if not len(places):
            continue
        entry = column.finding.value
        head = {"code": entry.code, "clause": entry.clause, "severity": entry.severity, "text": entry.text}
        if not entry.quantity:
            for at in places.tolist():
                rows.setdefault(at, []).append(head)
            continue
        kind = KINDS[entry.quantity]
        values = in_request_units(column.value[places], kind, system)
        limits = in_request_units(column.limit[places], kind, system)
        for at, value, limit in zip(places.tolist(), values, limits, strict=True):
            own: Result = {**head, "quantity": entry.quantity, "value": value}
            if column.finding not in _WITHOUT_LIMIT:
                own["limit"] = limit
            rows.setdefault(at, []).append(own)
    return rows


_WITHOUT_LIMIT = {Finding.NO_LOAD, Finding.SPRINKLER_STRUCTURE}


def load_case_table(*, factored: bool) -> dict[str, Result]:
    """The load cases of an answer by name: their factors and source."""
    used = [CASES[GIVEN]] if factored else [case for case in CASES if case is not CASES[GIVEN]]
    return {
        case.value.name: {
            "dead_and_contents": case.value.dead,
            "live": case.value.live,
            "sprinkler_load": case.value.sprinkler,
            "as_given": case.value.given,
            "source": case.value.source,
        }
        for case in used
    }
