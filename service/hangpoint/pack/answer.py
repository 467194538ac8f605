"""Verdicts of the core as results in JSON, a text a point, in the units of the request.

Only finite numbers leave: every column of numbers is checked as it is written.
"""

from collections.abc import Container, Iterable, Sequence
from functools import cache
from typing import Any

import numpy as np
import orjson

from hangpoint.core.clauses import Citing, cited
from hangpoint.core.hang_point.cases import by_service
from hangpoint.core.hang_point.given_cases import AS_NAMED, IN_FIRE, REVERSED, way_of
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.loads.combinations import (
    ALWAYS,
    CASES,
    EN1990,
    EN_ALWAYS,
    GIVEN,
    SPRINKLER,
    TRANSIENT,
    LoadCase,
)
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Index
from hangpoint.core.vocabulary import Finding, Refusal, Status, Triage, position
from hangpoint.pack.citing import CITINGS, citings
from hangpoint.pack.flags import READING_0, Flags
from hangpoint.pack.json_text import ABSENT, RowText, sparse
from hangpoint.pack.mode_texts import EDGE_TEXTS, ModeWords, link_texts, mode_texts, words_of
from hangpoint.pack.neighbour_texts import neighbour_texts
from hangpoint.pack.points import Packed
from hangpoint.pack.printed import case_texts, in_request_units, printed_cases
from hangpoint.pack.trace import point_trace
from hangpoint.pack.which_anchors import anchor_lists, group_and_anchor, several_anchors
from hangpoint.units import FORCE, KINDS, System

_STATUSES = (Status.PASSED, Status.FAILED, Status.REFUSED)
_DATA = {False: b'"supplied"', True: b'"invented"'}


def _refused(refusal: Refusal, citing: Citing) -> bytes:
    own = refusal.value
    return orjson.dumps({"code": own.code, "clause": cited(own.clause, citing), "text": own.text})


_REFUSALS = (*(_refused(each, citing) for citing in CITINGS for each in Refusal), ABSENT)
"""By what the point is checked by and the refusal."""
_ROD_RULES = (*(orjson.dumps(name) for name in RULE_NAMES), ABSENT)
"""By rule; the last place is `NO_ROD`, as that of `_REFUSALS` is no refusal."""

_TRIAGE = [{"code": each.value.code, "text": each.value.text, "question": each.value.question} for each in Triage]
RATIO = "ratio"
"""Kind of the value of a finding that has no unit."""
_WITHOUT_LIMIT = {Finding.NO_LOAD, Finding.SPRINKLER_STRUCTURE}
_LEVELS = ("strength", "allowable")
_STRENGTH = RowText.constant(_LEVELS[0])
_FIRST = RowText.constant(0)
_NOTHING = RowText.constant([])


def results(
    packed: Packed, verdicts: Verdicts, *, system: System, detail: str, traced: Container[str] | None = None
) -> list[bytes]:
    """One result a point, in order.

    Args:
        packed: the batch as columns, with its labels and assumptions.
        verdicts: of the same points.
        system: unit system of the numbers.
        detail: "verdict" leaves out modes and links, "trace" adds the trace.
        traced: ids of the points that have a trace then; None for all.

    Raises:
        NonFiniteError: a number is not finite.
    """
    by = citings(packed.points)
    words, names = words_of(tuple([mode.mode for mode in verdicts.modes])), printed_cases(verdicts.case_names)
    cases = case_texts(names)
    governed, several = verdicts.governing >= 0, several_anchors(verdicts)
    lead = {
        "governing": _governing(verdicts, words, names, several),
        "weakest_link": RowText.fragment(words.links, np.maximum(verdicts.governing, 0)),
    }
    product, named = _product(packed), None not in packed.labels.addresses
    members = {
        "id": RowText.strings(packed.labels.ids),
        "index": RowText.integers(packed.index),
        "status": _status(verdicts),
        "on_assumptions": RowText.choice((False, True), packed.assumptions.any_of(READING_0)),
        **({"product": product} if named else {}),
        "demand": _demand(packed, verdicts, cases, system),
        **(lead if governed.all() else {}),
        "findings": _findings(verdicts, by, system),
        "assumptions": _codes(packed.assumptions),
        "not_checked": _codes(packed.not_checked),
        "to_engineer": _to_engineer(verdicts),
    }
    optional = {
        **({} if named else {"product": product.only(_named(packed))}),
        **({} if governed.all() else {name: text.only(governed) for name, text in lead.items()}),
        "rod_rule": RowText.fragment(_ROD_RULES, packed.points.rods.rule),
        "state_decided_by": _decided_by(packed),
        "reason": _reason(verdicts, by),
        "neighbours": neighbour_texts(verdicts, packed.labels.ids),
    }
    if detail != "verdict":
        members["modes"] = mode_texts(verdicts, words, cases=cases, several=several, system=system)
        members["links"] = link_texts(verdicts, words)
    if detail == "trace" and traced is None:
        members["trace"] = _trace(packed, verdicts, by, names, several, system)
    if detail == "trace" and traced is not None:
        wanted = np.array([each in traced for each in packed.labels.ids], dtype=np.bool_)
        optional["trace"] = _trace(packed, verdicts, by, names, several, system, wanted)
    return RowText.object(members, optional).rows(verdicts.count)


def _trace(
    packed: Packed,
    verdicts: Verdicts,
    by: Index,
    names: Sequence[str],
    several: Bools,
    system: System,
    wanted: Bools | None = None,
) -> RowText:
    """The traces of all points, or of those that are ``wanted`` only."""
    ids = packed.labels.ids
    cited_by: list[int] = by.tolist()
    made = [
        orjson.dumps(
            point_trace(verdicts, at, several=own, citing=CITINGS[citing], names=names, system=system, ids=ids)
        )
        if wanted is None or wanted[at]
        else ABSENT
        for at, (own, citing) in enumerate(zip(several.tolist(), cited_by, strict=True))
    ]
    return RowText.texts(made)


def _status(verdicts: Verdicts) -> RowText:
    return RowText.choice(_STATUSES, np.where(verdicts.refusal >= 0, 2, verdicts.failed))


def _reason(verdicts: Verdicts, by: Index) -> RowText:
    refusal = verdicts.refusal
    return RowText.fragment(_REFUSALS, np.where(refusal >= 0, by * len(Refusal) + refusal, -1))


def _product(packed: Packed) -> RowText:
    labels = packed.labels
    data = RowText.by_key(labels.invented, _DATA.__getitem__)
    return RowText.object({"address": RowText.values(labels.addresses), "data": data})


def _named(packed: Packed) -> Bools:
    """(points,) with a product that has an address."""
    return np.array([address is not None for address in packed.labels.addresses], dtype=np.bool_)


def _demand(packed: Packed, verdicts: Verdicts, cases: Sequence[bytes], system: System) -> RowText:
    demand, service = verdicts.demand, by_service(packed.points)
    forces = {
        "dead": demand.dead,
        "contents": demand.contents,
        "live": demand.live,
        "sprinkler": demand.sprinkler,
        "factored_tension": demand.factored,
        "sustained_tension": demand.sustained,
        "factored_shear": demand.shear,
    }
    numbers = RowText.number_columns(in_request_units(np.array(list(forces.values())), FORCE, system))
    members = dict(zip(forces, numbers, strict=True))
    level = _STRENGTH if service is None else RowText.choice(_LEVELS, service)
    return RowText.object({**members, "load_case": RowText.fragment(cases, demand.load_case), "level": level})


def _governing(verdicts: Verdicts, words: ModeWords, names: tuple[str, ...], several: Bools) -> RowText:
    """What governs each point; the first mode stands where none does."""
    modes, at, which = verdicts.modes, np.arange(verdicts.count), np.maximum(verdicts.governing, 0)
    cases, count = case_texts(names), len(names)
    case = np.array([mode.load_case for mode in modes])[which, at]
    edge = np.where(verdicts.governing >= 0, np.array([mode.edge for mode in modes])[which, at], -1)
    leads: list[int] = (which * count + case % count).tolist()
    group, anchor, anchors = _governing_anchors(verdicts, which, several)
    utilisation, of_next = RowText.number_columns(np.array([verdicts.utilisation, verdicts.next_utilisation]))
    following = RowText.object({"load_case": RowText.fragment(cases, verdicts.next_case), "utilisation": of_next})
    has_next = (verdicts.next_case >= 0) & (verdicts.governing >= 0)
    return RowText.object(
        {
            "link": RowText.fragment(words.links, which),
            "mode": RowText.fragment(words.codes, which),
            "group": group,
            "anchor": anchor,
            "load_case": RowText.fragment(cases, case),
            "utilisation": utilisation,
            "text": RowText.by_key(
                leads, lambda lead: orjson.dumps(f"{words.texts[lead // count]} governs ({names[lead % count]})")
            ),
        },
        {"edge": RowText.fragment(EDGE_TEXTS, edge), **anchors, "next": following.only(has_next)},
    )


def _governing_anchors(
    verdicts: Verdicts, which: Index, several: Bools
) -> tuple[RowText, RowText, dict[str, list[bytes]]]:
    """Group and anchor that govern each point, and all anchors of the group where there are several."""
    if not several.any():
        return _FIRST, _FIRST, {}
    group, anchor = np.zeros((2, verdicts.count), dtype=np.intp)
    governing: list[int] = which.tolist()
    lists: dict[int, list[bytes]] = {}
    for place in sorted(set(governing)):
        mode, own = verdicts.modes[place], which == place
        number, first = group_and_anchor(mode, verdicts)
        group[own], anchor[own] = number[own], first[own]
        lists[place] = anchor_lists(mode, verdicts, several)
    texts = [lists[place][point] for point, place in enumerate(governing)]
    return RowText.integers(group.tolist()), RowText.integers(anchor.tolist()), {"anchors": texts}


def _codes(flags: Flags) -> RowText:
    """The codes of every point, in the order of the closed list."""
    return RowText.by_key(flags.of_points(), lambda bits: orjson.dumps(flags.codes(bits)))


def _to_engineer(verdicts: Verdicts) -> RowText:
    """Why each point goes to an engineer, with the question."""
    columns = verdicts.to_engineer
    holds = np.array([column.holds for column in columns])
    if not holds.any():
        return _NOTHING
    bits = np.array([1 << position(column.triage) for column in columns]) @ holds
    return RowText.by_key(
        bits.tolist(), lambda bits: orjson.dumps([text for at, text in enumerate(_TRIAGE) if bits >> at & 1])
    )


def _decided_by(packed: Packed) -> list[bytes]:
    """Who decided that concrete is uncracked, of the points where it is."""
    at = np.flatnonzero(~packed.points.bases.cracked).tolist()
    return sparse(packed.points.count, at, [packed.labels.decided_by[each] for each in at])


def _findings(verdicts: Verdicts, by: Index, system: System) -> RowText:
    held: list[int] = np.flatnonzero(np.array([column.holds for column in verdicts.findings]).any(axis=-1)).tolist()
    if not held:
        return _NOTHING
    rows: dict[int, list[bytes]] = {}
    for column in [verdicts.findings[at] for at in held]:
        places = np.flatnonzero(column.holds)
        for at, entry in zip(places.tolist(), _entries(column, places, by[places], system), strict=True):
            rows.setdefault(at, []).append(entry)
    texts = [b"[]"] * verdicts.count
    for at, found in rows.items():
        texts[at] = b"[%b]" % b",".join(found)
    return RowText.texts(texts)


def _entries(column: FindingColumn, places: Index, by: Index, system: System) -> Sequence[bytes]:
    """A finding at the points where it holds, with value and limit where it has them; ``by`` of those points."""
    members, quantity = _finding_head(column.finding), column.finding.value.quantity
    if by.any():
        clauses = _clauses(column.finding)
        members = members | {"clause": RowText.fragment(clauses, by)}
    if quantity:
        has = {"value": column.value, **({} if column.finding in _WITHOUT_LIMIT else {"limit": column.limit})}
        table = np.array([own[places] for own in has.values()])
        table = table if quantity == RATIO else in_request_units(table, KINDS[quantity], system)
        members = members | dict(zip(has, RowText.number_columns(table), strict=True))
    return RowText.object(members).rows(len(places))


@cache
def _clauses(finding: Finding) -> tuple[bytes, ...]:
    """The clause of a finding by each of `CITINGS`."""
    return tuple(orjson.dumps(cited(finding.value.clause, citing)) for citing in CITINGS)


@cache
def _finding_head(finding: Finding) -> dict[str, RowText]:
    """What a finding says at every point, with the clause of chapter 17."""
    entry = finding.value
    said = {"code": entry.code, "clause": entry.clause, "severity": entry.severity, "text": entry.text}
    said |= {"quantity": entry.quantity} if entry.quantity else {}
    return {name: RowText.constant(own) for name, own in said.items()}


def always_listed(load_standard: str) -> tuple[int, ...]:
    """Load cases that an answer to loads by nature lists, whether a point has them or not."""
    return EN_ALWAYS if load_standard == EN1990 else (*ALWAYS, SPRINKLER)


def load_case_table(names: Sequence[str], used: Iterable[int]) -> dict[str, dict[str, Any]]:
    """The load cases of an answer by name: their factors and source.

    Args:
        names: of the load cases by index.
        used: indices of those to be listed.
    """
    return {names[index]: _load_case(index) for index in used}


def _load_case(index: int) -> dict[str, Any]:
    made = {**_FACTORS[min(index, GIVEN)]}
    way = int(way_of(np.array(index))) if index > GIVEN else AS_NAMED
    if way == REVERSED:
        made["earthquake_reversed"] = True
    elif way == IN_FIRE:
        made["fire"] = True
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
    if case.fire:
        made["fire"] = True
    return made | factors


_FACTORS = tuple(factors_of(case) for case in CASES)
