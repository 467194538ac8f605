"""Verdicts of the core as results in JSON, a text a point, in the units of the request.

Only finite numbers leave: every column of numbers is checked as it is written.
"""

from collections.abc import Iterable, Sequence
from functools import cache, lru_cache, partial
from typing import Any

import numpy as np
import orjson

from hangpoint.core.hang_point.anchor_checks import method_of
from hangpoint.core.hang_point.points import NO_ROD
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.hanger.rod import RodSize
from hangpoint.core.loads.combinations import ALWAYS, CASES, GIVEN, SPRINKLER, TRANSIENT, LoadCase
from hangpoint.core.outcome import EDGES, FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Finding, Inapplicable, Link, Mode, Refusal, Status, Triage, position
from hangpoint.pack.flags import READING_0, Flags
from hangpoint.pack.json_text import ABSENT, RowText, sparse
from hangpoint.pack.neighbour_texts import neighbour_texts
from hangpoint.pack.points import Packed
from hangpoint.pack.printed import in_request_units, printed_cases
from hangpoint.pack.trace import point_trace
from hangpoint.pack.which_anchors import anchor_lists, group_and_anchor, several_anchors
from hangpoint.units import FORCE, KINDS, System

_STATUSES = (Status.PASSED, Status.FAILED, Status.REFUSED)
_REFUSALS = [{"code": each.value.code, "clause": each.value.clause, "text": each.value.text} for each in Refusal]
_TRIAGE = [{"code": each.value.code, "text": each.value.text, "question": each.value.question} for each in Triage]
_WITHOUT_LIMIT = {Finding.NO_LOAD, Finding.SPRINKLER_STRUCTURE}


def results(packed: Packed, verdicts: Verdicts, *, system: System, detail: str) -> list[bytes]:
    """One result a point, in order.

    Args:
        packed: the batch as columns, with its labels and assumptions.
        verdicts: of the same points.
        system: unit system of the numbers.
        detail: "verdict" leaves out modes and links, "trace" adds the trace.

    Raises:
        NonFiniteError: a number is not finite.
    """
    governed = verdicts.governing >= 0
    several = several_anchors(verdicts)
    lead = {"governing": _governing(verdicts, several), "weakest_link": _weakest_link(verdicts)}
    product = _product(packed)
    named = np.array([address is not None for address in packed.labels.addresses], dtype=np.bool_)
    members = {
        "id": RowText.strings(packed.labels.ids),
        "index": RowText.texts([b"%d" % row for row in packed.index]),
        "status": _status(verdicts),
        "on_assumptions": RowText.choice((False, True), packed.assumptions.bits & READING_0 > 0),
        **({"product": product} if named.all() else {}),
        "demand": _demand(verdicts, system),
        **(lead if governed.all() else {}),
        "findings": _findings(verdicts, system),
        "assumptions": _codes(packed.assumptions),
        "not_checked": _codes(packed.not_checked),
        "to_engineer": _to_engineer(verdicts),
    }
    optional = {
        **({} if named.all() else {"product": _only(product, named)}),
        **({} if governed.all() else {name: _only(text, governed) for name, text in lead.items()}),
        "rod_rule": _rod_rule(packed),
        "state_decided_by": _decided_by(packed),
        "reason": _reason(verdicts),
        "neighbours": neighbour_texts(verdicts, packed.labels.ids),
    }
    if detail != "verdict":
        members |= {"modes": _modes(verdicts, several, system), "links": _links(verdicts)}
    if detail == "trace":
        traces = [
            orjson.dumps(point_trace(verdicts, at, system=system, ids=packed.labels.ids))
            for at in range(verdicts.count)
        ]
        members["trace"] = RowText.texts(traces)
    return RowText.object(members, optional).rows(verdicts.count)


def _numbers(column: Floats, system: System) -> RowText:
    """Forces in the unit of the request."""
    return RowText.numbers(in_request_units(column, FORCE, system))


def _only(text: RowText, holds: Bools) -> list[bytes]:
    return [own if held else ABSENT for held, own in zip(holds.tolist(), text.rows(len(holds)), strict=True)]


def _status(verdicts: Verdicts) -> RowText:
    return RowText.choice(_STATUSES, np.where(verdicts.refusal >= 0, 2, verdicts.failed.astype(np.intp)))


def _product(packed: Packed) -> RowText:
    labels = packed.labels
    data = RowText.choice(("supplied", "invented"), np.array(labels.invented, dtype=np.intp))
    return RowText.object({"address": RowText.values(labels.addresses), "data": data})


def _demand(verdicts: Verdicts, system: System) -> RowText:
    demand = verdicts.demand
    return RowText.object(
        {
            "dead": _numbers(demand.dead, system),
            "contents": _numbers(demand.contents, system),
            "live": _numbers(demand.live, system),
            "sprinkler": _numbers(demand.sprinkler, system),
            "factored_tension": _numbers(demand.factored, system),
            "sustained_tension": _numbers(demand.sustained, system),
            "factored_shear": _numbers(demand.shear, system),
            "load_case": RowText.choice(printed_cases(verdicts.case_names), demand.load_case),
        }
    )


def _governing(verdicts: Verdicts, several: Bools) -> RowText:
    """What governs each point; the first mode stands where none does."""
    modes, at, which = verdicts.modes, np.arange(verdicts.count), np.maximum(verdicts.governing, 0)
    names = printed_cases(verdicts.case_names)
    case = np.array([mode.load_case for mode in modes])[which, at]
    edge = np.where(verdicts.governing >= 0, np.array([mode.edge for mode in modes])[which, at], -1)
    links, codes, texts = _leads(tuple(mode.mode for mode in modes), tuple(names))
    group, anchor, anchors = _governing_anchors(verdicts, which, several)
    return RowText.object(
        {
            "link": RowText.choice(links, which),
            "mode": RowText.choice(codes, which),
            "group": group,
            "anchor": anchor,
            "load_case": RowText.choice(names, case),
            "utilisation": RowText.numbers(verdicts.utilisation),
            "text": RowText.choice(texts, which * len(names) + case % len(names)),
        },
        {"edge": _edge(edge), **anchors, "next": _next(verdicts)},
    )


def _governing_anchors(
    verdicts: Verdicts, which: Index, several: Bools
) -> tuple[RowText, RowText, dict[str, list[bytes]]]:
    """Group and anchor that govern each point, and all anchors of the group where there are several."""
    if not several.any():
        return RowText.constant(0), RowText.constant(0), {}
    at = np.arange(verdicts.count)
    found = np.array([group_and_anchor(mode, verdicts) for mode in verdicts.modes])[which, :, at]
    lists = [anchor_lists(mode, verdicts, several) for mode in verdicts.modes]
    governing: list[int] = which.tolist()
    texts = [lists[mode][point] for point, mode in enumerate(governing)]
    group, anchor = (RowText.texts([b"%d" % each for each in column.tolist()]) for column in found.T)
    return group, anchor, {"anchors": texts}


@lru_cache(maxsize=32)
def _leads(modes: tuple[Mode, ...], names: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Link and code of each mode, and the sentence for each mode in each load case."""
    texts = tuple(f"{mode.value.text} governs ({name})" for mode in modes for name in names)
    return tuple(mode.link for mode in modes), tuple(mode.value.code for mode in modes), texts


def _weakest_link(verdicts: Verdicts) -> RowText:
    return RowText.choice(tuple(mode.mode.link for mode in verdicts.modes), np.maximum(verdicts.governing, 0))


def _edge(edge: np.ndarray[Any, Any]) -> list[bytes]:
    at = np.flatnonzero(edge >= 0)
    return sparse(len(edge), at.tolist(), [EDGES[each] for each in edge[at].tolist()])


def _next(verdicts: Verdicts) -> list[bytes]:
    """The worst of the other load cases, where there is one."""
    text = RowText.object(
        {
            "load_case": RowText.choice(printed_cases(verdicts.case_names), verdicts.next_case),
            "utilisation": RowText.numbers(verdicts.next_utilisation),
        }
    )
    return _only(text, (verdicts.next_case >= 0) & (verdicts.governing >= 0))


def _codes(flags: Flags) -> RowText:
    """The codes of every point, in the order of the closed list."""
    distinct, index = np.unique(flags.bits, return_inverse=True)
    return RowText.choice([flags.codes(bits) for bits in distinct.tolist()], index)


def _to_engineer(verdicts: Verdicts) -> RowText:
    """Why each point goes to an engineer, with the question."""
    bits = np.zeros(verdicts.count, dtype=np.int64)
    for column in verdicts.to_engineer:
        bits |= column.holds.astype(np.int64) << position(column.triage)
    distinct, index = np.unique(bits, return_inverse=True)
    return RowText.choice(
        [[text for place, text in enumerate(_TRIAGE) if each >> place & 1] for each in distinct.tolist()], index
    )


def _rod_rule(packed: Packed) -> list[bytes]:
    rule = packed.points.rods.rule
    return _only(RowText.choice(RULE_NAMES, rule), rule != NO_ROD)


def _decided_by(packed: Packed) -> list[bytes]:
    """Who decided that concrete is uncracked, of the points where it is."""
    at = np.flatnonzero(~packed.points.bases.cracked).tolist()
    return sparse(packed.points.count, at, [packed.labels.decided_by[each] for each in at])


def _reason(verdicts: Verdicts) -> list[bytes]:
    at = np.flatnonzero(verdicts.refusal >= 0)
    return sparse(verdicts.count, at.tolist(), [_REFUSALS[each] for each in verdicts.refusal[at].tolist()])


def _modes(verdicts: Verdicts, several: Bools, system: System) -> RowText:
    """Every mode of the point's method; of a refused point only those of its rod, because its anchor isn't checked."""
    modes = [_mode(mode, verdicts, several, system) for mode in verdicts.modes]
    rods = [text for text, mode in zip(modes, verdicts.modes, strict=True) if mode.mode.link is Link.ROD]
    text = RowText.array(rods)
    for method in np.unique(verdicts.method).tolist():
        own = [
            text
            for text, mode in zip(modes, verdicts.modes, strict=True)
            if mode.mode.link is not Link.ROD and method_of(mode.mode) == method
        ]
        text = RowText.where((verdicts.refusal < 0) & (verdicts.method == method), RowText.array([*rods, *own]), text)
    return text


def _mode(mode: PointMode, verdicts: Verdicts, several: Bools, system: System) -> RowText:
    absent = RowText.fragment(_absent(mode.mode), mode.reason)
    if not mode.applies.any():
        return absent
    number = RowText.numbers if mode.mode.is_ratio else partial(_numbers, system=system)
    has = RowText.object(
        {
            **_mode_head(mode.mode),
            "design_strength": number(mode.design_strength),
            "demand": number(mode.demand),
            "utilisation": RowText.numbers(mode.utilisation),
            "load_case": RowText.choice(printed_cases(verdicts.case_names), mode.load_case),
        },
        ({"edge": _edge(mode.edge)} if (mode.edge >= 0).any() else {})
        | ({"anchors": anchor_lists(mode, verdicts, several)} if several.any() else {}),
    )
    return RowText.where(mode.applies, has, absent)


@cache
def _mode_head(mode: Mode) -> dict[str, RowText]:
    return {
        "mode": RowText.constant(mode.value.code),
        "applies": RowText.constant(True),
        "clause": RowText.constant(mode.value.clause),
    }


@cache
def _absent(mode: Mode) -> list[bytes]:
    """What is said of the mode where it doesn't apply, by reason."""
    head = {"mode": mode.value.code, "applies": False}
    tail = {"clause": mode.value.clause}
    return [orjson.dumps({**head, "reason": reason.value.code, **tail}) for reason in Inapplicable]


def _links(verdicts: Verdicts) -> RowText:
    """Utilisation of each link, or that it isn't checked; the load itself is always known.

    A rod by the size table is checked without a utilisation: it suffices or it is a finding.
    """
    links = [RowText.constant({"link": Link.LOAD, "checked": True})]
    for link in (Link.ROD, Link.ANCHOR, Link.BASE):
        own = [np.where(mode.applies, mode.utilisation, -1.0) for mode in verdicts.modes if mode.mode.link is link]
        peak = np.max(own, axis=0)
        by_table = _by_table(verdicts) if link is Link.ROD else np.zeros(verdicts.count, dtype=np.bool_)
        name = RowText.constant(link)
        has = {"link": name, "checked": RowText.constant(True)}
        text = RowText.where(
            peak >= 0,
            RowText.object({**has, "utilisation": RowText.numbers(peak)}),
            RowText.object({"link": name, "checked": RowText.constant(False)}),
        )
        links.append(RowText.where(by_table, RowText.object(has), text))
    return RowText.array(links)


def _by_table(verdicts: Verdicts) -> Bools:
    sizes = [section.row >= 0 for section in verdicts.sections if isinstance(section.record, RodSize)]
    return np.any(sizes, axis=0) if sizes else np.zeros(verdicts.count, dtype=np.bool_)


def _findings(verdicts: Verdicts, system: System) -> RowText:
    rows: dict[int, list[dict[str, Any]]] = {}
    for column in verdicts.findings:
        places = np.flatnonzero(column.holds)
        for at, entry in zip(places.tolist(), _entries(column, places, system), strict=True):
            rows.setdefault(at, []).append(entry)
    texts = [b"[]"] * verdicts.count
    for at, found in rows.items():
        texts[at] = orjson.dumps(found)
    return RowText.texts(texts)


def _entries(column: FindingColumn, places: np.ndarray[Any, Any], system: System) -> Sequence[dict[str, Any]]:
    entry = column.finding.value
    head = {"code": entry.code, "clause": entry.clause, "severity": entry.severity, "text": entry.text}
    if not len(places) or not entry.quantity:
        return [head] * len(places)
    kind = KINDS[entry.quantity]
    values = in_request_units(column.value[places], kind, system).tolist()
    made = [{**head, "quantity": entry.quantity, "value": value} for value in values]
    if column.finding in _WITHOUT_LIMIT:
        return made
    limits = in_request_units(column.limit[places], kind, system).tolist()
    return [{**each, "limit": limit} for each, limit in zip(made, limits, strict=True)]


ALWAYS_LISTED = (*ALWAYS, SPRINKLER)
"""Load cases that an answer to loads by nature lists, whether a point has them or not."""


def load_case_table(names: Sequence[str], used: Iterable[int]) -> dict[str, dict[str, Any]]:
    """The load cases of an answer by name: their factors and source.

    Args:
        names: of the load cases by index.
        used: indices of those to be listed.
    """
    return {names[index]: _load_case(index) for index in used}


def _load_case(index: int) -> dict[str, Any]:
    made = factors_of(CASES[min(index, GIVEN)])
    if index > GIVEN and (index - GIVEN) % 2:
        made["earthquake_reversed"] = True
    return made


def factors_of(case: LoadCase) -> dict[str, Any]:
    """Factors and source of a load case; those of transient loads and earthquake where they are not 0."""
    made: dict[str, Any] = {
        "dead_and_contents": case.dead,
        "live": case.live,
        "sprinkler_load": case.sprinkler,
        "as_given": case.given,
        "source": case.source,
    }
    if case.contents != case.dead:
        made["contents"] = case.contents
    factors = {name: getattr(case, name) for name in (*TRANSIENT, "earthquake", "vertical") if getattr(case, name)}
    if case.turned:
        factors["earthquake"] = -case.earthquake
    return made | factors
