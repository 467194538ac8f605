"""Verdicts of the core as result objects, a dictionary a point, in the units of the request.

Only finite numbers leave: the columns of forces, lengths and utilisations are checked as they are read. What many
points share (a list of assumptions, a mode that does not apply) is one object; with ``wire`` it is JSON already.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

import numpy as np
import orjson

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.points import NO_ROD
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.hanger.rod import RodSize
from hangpoint.core.loads.combinations import CASES, GIVEN
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Floats
from hangpoint.core.vocabulary import Finding, Inapplicable, Link, Refusal, Status
from hangpoint.pack.flags import READING_0
from hangpoint.pack.points import Packed
from hangpoint.pack.pull import EMPTY, Object
from hangpoint.units import FORCE, KINDS, QuantityKind, System, bare_factor

Result = dict[str, Any]
Share = Callable[[Any], Any]

SERVICE_NAME = "service"
CASE_NAMES = (*(case.value.name for case in CASES), SERVICE_NAME)
"""Names of the load cases by index; the last is that of a service load (`verdict.SERVICE` is -1)."""

_REFUSALS = [{"code": each.value.code, "clause": each.value.clause, "text": each.value.text} for each in Refusal]
_REASONS = [reason.value.code for reason in Inapplicable]
_NOTHING_GOVERNS: Result = {}
_WITHOUT_LIMIT = {Finding.NO_LOAD, Finding.SPRINKLER_STRUCTURE}


def results(
    packed: Packed,
    verdicts: Verdicts,
    items: Sequence[Object],
    *,
    default: Object,
    system: System,
    detail: str,
    wire: bool,
) -> list[Result]:
    """One result a point, in order, without a trace.

    Args:
        packed: the batch as columns, with its assumptions.
        verdicts: of the same points.
        items: the same points as they came.
        default: the defaults behind them.
        system: unit system of the numbers.
        detail: "verdict" leaves out modes and links.
        wire: shared parts are JSON already, for an answer that is only written.
    """
    share: Share = _as_json if wire else _as_it_is
    rows = _heads(packed, verdicts, [item["id"] for item in items], system, share)
    _add_next_cases(rows, verdicts)
    _add_rod_rules(rows, packed)
    _add_deciders(rows, packed, items, default)
    _exceptions(rows, verdicts, system)
    if detail != "verdict":
        modes, links = _modes(verdicts, system, share), _links(verdicts, share)
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


def _as_json(value: Any) -> orjson.Fragment:
    return orjson.Fragment(orjson.dumps(value))


def _as_it_is(value: Any) -> Any:
    return value


def _finite(column: Floats) -> list[float]:
    if not np.isfinite(column).all():
        raise NonFiniteError("a result is not a finite number")
    return column.tolist()


def _heads(packed: Packed, verdicts: Verdicts, ids: Sequence[str], system: System, share: Share) -> list[Result]:
    columns = zip(
        ids,
        packed.index,
        _statuses(verdicts),
        (packed.assumptions.bits & READING_0 > 0).tolist(),
        _products(packed, share),
        _demands(verdicts, system),
        _governing(verdicts),
        packed.assumptions.codes(share),
        packed.not_checked.codes(share),
        strict=True,
    )
    nothing = share([])
    rows: list[Result] = [
        {
            "id": point,
            "index": index,
            "status": status,
            "on_assumptions": on_assumptions,
            "product": product,
            "demand": demand,
            **lead,
            "findings": nothing,
            "assumptions": assumptions,
            "not_checked": not_checked,
        }
        for (
            point,
            index,
            status,
            on_assumptions,
            product,
            demand,
            lead,
            assumptions,
            not_checked,
        ) in columns
    ]
    return rows


def _exceptions(rows: list[Result], verdicts: Verdicts, system: System) -> None:
    """What only some points have: findings, a reason of refusal."""
    for at, found in _findings(verdicts, system).items():
        rows[at]["findings"] = found
    for at in np.flatnonzero(verdicts.refusal >= 0).tolist():
        rows[at]["reason"] = _REFUSALS[verdicts.refusal[at]]


def _statuses(verdicts: Verdicts) -> list[str]:
    words = np.array([Status.PASSED.value, Status.FAILED.value, Status.REFUSED.value])
    return words[np.where(verdicts.refusal >= 0, 2, verdicts.failed.astype(np.intp))].tolist()


def _products(packed: Packed, share: Share) -> list[Any]:
    anchors = packed.anchors
    pairs = list(zip(anchors.addresses, anchors.invented, strict=True))
    made = {
        (address, invented): share({"address": address, "data": "invented" if invented else "supplied"})
        for address, invented in set(pairs)
    }
    return [made[pair] for pair in pairs]


def _governing(verdicts: Verdicts) -> list[Result]:
    """What governs each point, as members of its result; none where no mode applies."""
    modes, at, which = verdicts.modes, np.arange(verdicts.count), verdicts.governing
    case = np.array([mode.load_case for mode in modes])[which, at]
    edge = np.array([mode.edge for mode in modes])[which, at]
    codes = [mode.mode.value.code for mode in modes]
    links = [mode.mode.link.value for mode in modes]
    texts = [[f"{mode.mode.value.text} governs ({name})" for name in CASE_NAMES] for mode in modes]
    rows: list[Result] = [
        {
            "governing": {
                "link": links[index],
                "mode": codes[index],
                "group": 0,
                "anchor": 0,
                "load_case": CASE_NAMES[own_case],
                "utilisation": ratio,
                "text": texts[index][own_case],
            },
            "weakest_link": links[index],
        }
        if index >= 0
        else _NOTHING_GOVERNS
        for index, own_case, ratio in zip(which.tolist(), case.tolist(), _finite(verdicts.utilisation), strict=True)
    ]
    for place in np.flatnonzero((edge >= 0) & (which >= 0)).tolist():
        rows[place]["governing"]["edge"] = EDGES[edge[place]]
    return rows


def _demands(verdicts: Verdicts, system: System) -> list[Result]:
    demand = verdicts.demand
    forces = [
        in_request_units(column, FORCE, system)
        for column in (demand.dead, demand.contents, demand.live, demand.sprinkler, demand.factored, demand.sustained)
    ]
    return [
        {
            "dead": dead,
            "contents": contents,
            "live": live,
            "sprinkler": sprinkler,
            "factored_tension": factored,
            "sustained_tension": sustained,
            "load_case": CASE_NAMES[case],
        }
        for dead, contents, live, sprinkler, factored, sustained, case in zip(
            *forces, demand.load_case.tolist(), strict=True
        )
    ]


def _add_next_cases(rows: list[Result], verdicts: Verdicts) -> None:
    ratios = _finite(verdicts.next_utilisation)
    for at in np.flatnonzero((verdicts.next_case >= 0) & (verdicts.governing >= 0)).tolist():
        rows[at]["governing"]["next"] = {"load_case": CASE_NAMES[verdicts.next_case[at]], "utilisation": ratios[at]}


def _add_rod_rules(rows: list[Result], packed: Packed) -> None:
    for row, rule in zip(rows, packed.points.rods.rule.tolist(), strict=True):
        if rule != NO_ROD:
            row["rod_rule"] = RULE_NAMES[rule]


def _add_deciders(rows: list[Result], packed: Packed, items: Sequence[Object], default: Object) -> None:
    """Who decided that concrete is uncracked, of the points where it is."""
    behind: Object = default.get("base", EMPTY)
    for at in np.flatnonzero(~packed.points.bases.cracked).tolist():
        base: Object = items[at].get("base", EMPTY)
        rows[at]["state_decided_by"] = base.get("state_decided_by", behind.get("state_decided_by"))


def _modes(verdicts: Verdicts, system: System, share: Share) -> Iterator[tuple[Result, ...]]:
    columns = [_mode(mode, system, share) for mode in verdicts.modes]
    refused = verdicts.refusal >= 0
    if not refused.any():
        yield from zip(*columns, strict=True)
        return
    # The anchor of a refused point isn't checked, so only its rod has modes.
    rods = sum(mode.mode.link is Link.ROD for mode in verdicts.modes)
    for everything, is_refused in zip(zip(*columns, strict=True), refused.tolist(), strict=True):
        yield everything[:rods] if is_refused else everything


def _mode(mode: PointMode, system: System, share: Share) -> list[Result]:
    code, clause = mode.mode.value.code, mode.mode.value.clause
    away = [share({"mode": code, "applies": False, "reason": reason, "clause": clause}) for reason in _REASONS]
    if not mode.applies.any():
        return [away[reason] for reason in mode.reason.tolist()]
    rows: list[Result] = [
        {
            "mode": code,
            "applies": True,
            "clause": clause,
            "design_strength": strength,
            "demand": demand,
            "utilisation": ratio,
            "load_case": CASE_NAMES[case],
        }
        if applies
        else away[reason]
        for applies, reason, strength, demand, ratio, case in zip(
            mode.applies.tolist(),
            mode.reason.tolist(),
            in_request_units(mode.design_strength, FORCE, system),
            in_request_units(mode.demand, FORCE, system),
            _finite(mode.utilisation),
            mode.load_case.tolist(),
            strict=True,
        )
    ]
    for place in np.flatnonzero(mode.applies & (mode.edge >= 0)).tolist():
        rows[place]["edge"] = EDGES[mode.edge[place]]
    return rows


def _links(verdicts: Verdicts, share: Share) -> Iterator[tuple[Result, ...]]:
    """Utilisation of each link, or that it isn't checked; the load itself is always known.

    A rod by the size table is checked without a utilisation: it suffices or it is a finding.
    """
    load = share({"link": Link.LOAD, "checked": True})
    columns: list[list[Result]] = [[load] * verdicts.count]
    for link in (Link.ROD, Link.ANCHOR, Link.BASE):
        own = [np.where(mode.applies, mode.utilisation, -1.0) for mode in verdicts.modes if mode.mode.link is link]
        peak = _finite(np.max(own, axis=0))
        word = link.value
        away = share({"link": word, "checked": False})
        columns.append([{"link": word, "checked": True, "utilisation": p} if p >= 0 else away for p in peak])
    by_table = share({"link": Link.ROD, "checked": True})
    for section in verdicts.sections:
        if isinstance(section.record, RodSize):
            for at in np.flatnonzero(section.row >= 0).tolist():
                columns[1][at] = by_table
    return zip(*columns, strict=True)


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
