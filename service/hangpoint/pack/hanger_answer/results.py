"""Results of items: lines, hangers, bars, earthquake, findings, the hang points they make; in request units."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np
import orjson

from hangpoint.core.hanger.hanger_cases import CONTENTS, DEAD, LIVE, NATURES
from hangpoint.core.hanger.hangers import HangerLoads
from hangpoint.core.hanger.item_findings import FindingRows
from hangpoint.core.hanger.items import EQUIPMENT, RUN
from hangpoint.core.hanger.rod_checks import NO_ROD, ROD_RULES
from hangpoint.core.hanger.run_reaction import BY_MODEL
from hangpoint.core.hanger.seismic_loads import SeismicLoads
from hangpoint.core.loads.combinations import ALLOWABLE_CASES, CASES
from hangpoint.core.loads.seismic_component import GOVERNS
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.statics.trapeze_bar import TrapezeBar
from hangpoint.core.vocabulary import LoadFinding, Severity, Status
from hangpoint.pack.flags import Flags
from hangpoint.pack.hanger_answer.hang_points import hang_points
from hangpoint.pack.hanger_answer.rods import rods_of_hangers, rods_of_lines
from hangpoint.pack.hanger_answer.trace import item_traces
from hangpoint.pack.hanger_items.packed import PackedLoads
from hangpoint.pack.json_text import ABSENT, RowText, sparse
from hangpoint.pack.printed import in_request_units
from hangpoint.units import DISTANCE, FORCE, KINDS, LENGTH, LINE_WEIGHT, MOMENT, STRESS, QuantityKind, System

_STRENGTH_NAMES = tuple(case.name for case in CASES)
_SERVICE_NAMES = tuple(case.name for case in ALLOWABLE_CASES)
_INCHES_PER_FOOT = 12.0
_WITHOUT_LIMIT = {
    LoadFinding.UPLIFT,
    LoadFinding.PUSHED,
    LoadFinding.PUSHED_BY_EARTHQUAKE,
    LoadFinding.RUN_LIFTS,
    LoadFinding.UNLOADED,
    LoadFinding.SPRINKLER_STRUCTURE,
    LoadFinding.ROD_PUSHED,
}
"""Findings whose value stands for itself."""

_OF_ANY_LINE = ("share_of_weight", "omega_0")
"""What the seismic force of a line has without a brace: there is no weight between braces."""


def load_results(packed: PackedLoads, loads: HangerLoads, *, system: System, trace: bool) -> list[bytes]:
    """One result an item, in order.

    Args:
        packed: the batch with its labels and assumptions.
        loads: of the same items.
        system: unit system of the numbers.
        trace: whether the results have one.

    Raises:
        NonFiniteError: a number is not finite.
    """
    count = packed.items.count
    failed = failed_items(loads, count)
    members = {
        "id": RowText.strings(packed.ids),
        "index": RowText.texts([b"%d" % row for row in packed.index]),
        "kind": RowText.values(packed.kinds),
        "status": RowText.choice((Status.PASSED, Status.FAILED), failed.astype(np.intp)),
        "lines": RowText.texts(_joined(_lines(packed, loads, system), packed.items.lines.item, count)),
        "hangers": RowText.texts(_of_held(_joined(_hangers(loads, system), loads.hangers.item, count), loads)),
        "findings": RowText.texts(_findings(loads.findings, count, system)),
        "assumptions": _codes(packed.assumptions),
        "not_checked": _codes(packed.not_checked),
        "hang_points": RowText.texts(hang_points(packed, loads, system)),
    }
    optional = {"bars": _bars(loads, count, system), "seismic": _seismic(loads, count, system)}
    if trace:
        members["trace"] = RowText.texts(item_traces(loads.sections, count))
    return RowText.object(members, optional).rows(count)


def failed_items(loads: HangerLoads, count: int) -> Bools:
    """(items,) with a finding that is a violation."""
    failed = np.zeros(count, dtype=np.bool_)
    for each in loads.findings:
        if each.finding.value.severity is Severity.VIOLATION:
            failed[each.item] = True
    return failed


def _joined(texts: Sequence[bytes], item: Index, count: int) -> list[bytes]:
    """The texts of each item as an array; ``item`` rises."""
    ends: list[int] = np.searchsorted(item, np.arange(count + 1)).tolist()
    return [b"[%b]" % b",".join(texts[first:last]) for first, last in pairwise(ends)]


def _of_held(texts: list[bytes], loads: HangerLoads) -> list[bytes]:
    """The hangers of each item, none of an item that they can't hold."""
    loose = set(loads.hangers.item[~loads.held].tolist())
    return [b"[]" if item in loose else text for item, text in enumerate(texts)]


def _numbers(column: Floats, kind: QuantityKind, system: System) -> RowText:
    return RowText.numbers(in_request_units(column, kind, system))


def _codes(flags: Flags) -> RowText:
    return RowText.by_key(flags.of_points(), lambda bits: orjson.dumps(flags.codes(bits)))


def _lines(packed: PackedLoads, loads: HangerLoads, system: System) -> list[bytes]:
    lines, weights = packed.items.lines, loads.lines
    count = len(lines.item)
    if not count:
        return []
    number = np.arange(count) - np.searchsorted(lines.item, lines.item)
    test = _numbers(weights.test, LINE_WEIGHT, system).only(weights.tested)
    weight = RowText.object(
        {
            "dead": _numbers(weights.dead, LINE_WEIGHT, system),
            "contents": _numbers(weights.fluid, LINE_WEIGHT, system),
            "live": _numbers(weights.live, LINE_WEIGHT, system),
        },
        {"test": test},
    )
    text = RowText.object(
        {
            "line": RowText.texts([b"%d" % each for each in number.tolist()]),
            "kind": RowText.values(packed.lines.kind),
            "number": RowText.texts([b"%d" % each for each in lines.number.tolist()]),
            "source": RowText.values(packed.lines.weight_by),
            "weight": weight,
            "rules": RowText.texts(_rules(packed, system)),
        },
        {"rods": rods_of_lines(packed)},
    )
    return text.rows(count)


def _rules(packed: PackedLoads, system: System) -> list[bytes]:
    """Every spacing rule of each line, the strictest first; lines of one kind share theirs."""
    known: dict[int, bytes] = {}
    for rules in packed.lines.spacings:
        if id(rules) not in known:
            ordered = sorted(rules.items(), key=lambda each: each[1])
            values = in_request_units(np.array([spacing for _, spacing in ordered]), DISTANCE, system).tolist()
            known[id(rules)] = orjson.dumps(
                [{"rule": name, "spacing": value} for (name, _), value in zip(ordered, values, strict=True)]
            )
    return [known[id(rules)] for rules in packed.lines.spacings]


def _hangers(loads: HangerLoads, system: System) -> list[bytes]:
    count = len(loads.hangers.item)
    by_model = RowText.object(
        {name: _numbers(loads.models[:, place], FORCE, system) for place, name in enumerate(BY_MODEL)}
    )
    own, rods = loads.loads, loads.rods
    sprinkler = RowText.object(
        {"components": _numbers(own.components, FORCE, system), "structure": _numbers(own.structure, FORCE, system)}
    )
    rule = loads.items.rods.rule[loads.hangers.item]
    named = RowText.choice((*ROD_RULES, ""), np.where(rule == NO_ROD, len(ROD_RULES), rule))
    in_table = rods.by_size & (rods.required > 0)
    rod = RowText.object(
        {
            "rule": named,
            "design_strength": _numbers(rods.strength, FORCE, system),
            "demand": _numbers(rods.demand, FORCE, system),
            "utilisation": RowText.numbers(rods.utilisation),
        },
        {
            "diameter": _numbers(loads.items.rods.d[loads.hangers.item], LENGTH, system).only(in_table),
            "required_diameter": _numbers(rods.required, LENGTH, system).only(in_table),
        },
    )
    text = RowText.object(
        {
            "hanger": RowText.texts([b"%d" % each for each in loads.hangers.number.tolist()]),
            "service": _service(loads.tension, system),
            "service_tension": _numbers(loads.allowable.worst, FORCE, system),
            "service_case": RowText.choice(_SERVICE_NAMES, loads.allowable.case),
            "factored_tension": _numbers(loads.strength.worst, FORCE, system),
            "factored_case": RowText.choice(_STRENGTH_NAMES, loads.strength.case),
            "factored_shear": _numbers(loads.strength.worst_shear, FORCE, system),
        },
        {
            "by_model": by_model.only(loads.items.kind[loads.hangers.item] == RUN),
            "sprinkler": sprinkler.only(own.sprinkler),
            "rod": rod.only(rods.applies),
            "rods": rods_of_hangers(loads, system),
        },
    )
    return text.rows(count)


def _service(tension: Floats, system: System) -> RowText:
    """Loads by nature: the first three always, the others where they are not 0."""
    always = {NATURES[place]: _numbers(tension[:, place], FORCE, system) for place in (DEAD, CONTENTS, LIVE)}
    other = {
        name: _numbers(tension[:, place], FORCE, system).only(tension[:, place] != 0)
        for place, name in enumerate(NATURES)
        if name not in always and tension[:, place].any()
    }
    return RowText.object(always, other)


def _findings(rows: Sequence[FindingRows], count: int, system: System) -> list[bytes]:
    found: dict[int, list[dict[str, Any]]] = {}
    order = {finding: place for place, finding in enumerate(LoadFinding)}
    for each in sorted(rows, key=lambda own: order[own.finding]):
        entry = each.finding.value
        clause = each.clause or entry.clause
        head = {"code": entry.code, "clause": clause, "severity": entry.severity, "text": entry.text}
        if each.name:
            head["rule"] = each.name
        if each.conditions:
            head["conditions"] = each.conditions
        values = limits = None
        if entry.quantity:
            kind = KINDS[entry.quantity]
            values, limits = (in_request_units(column, kind, system).tolist() for column in (each.value, each.limit))
        for place, (item, part) in enumerate(zip(each.item.tolist(), each.part.tolist(), strict=True)):
            made: dict[str, Any] = {**head}
            if part >= 0:
                made[each.of] = part
            if values is not None and limits is not None:
                made |= {"quantity": entry.quantity, "value": values[place]}
                if each.finding not in _WITHOUT_LIMIT:
                    made["limit"] = limits[place]
            found.setdefault(item, []).append(made)
    return [orjson.dumps(found[item]) if item in found else b"[]" for item in range(count)]


def _bars(loads: HangerLoads, count: int, system: System) -> list[bytes]:
    made: dict[int, list[dict[str, Any]]] = {}
    for section in loads.sections:
        bar = section.record
        if not isinstance(bar, TrapezeBar):
            continue
        columns = {
            "moment": in_request_units(bar.demand * _INCHES_PER_FOOT, MOMENT, system),
            "stress": in_request_units(bar.sigma, STRESS, system),
            "utilisation": bar.utilisation,
            "deflection": in_request_units(bar.deflection, LENGTH, system),
            "deflection_limit": in_request_units(bar.deflection_limit, LENGTH, system),
        }
        lists = {name: column.tolist() for name, column in columns.items()}
        for place, (item, tier) in enumerate(zip(section.item.tolist(), section.part.tolist(), strict=True)):
            own = {"tier": tier} | {name: values[place] for name, values in lists.items()}
            made.setdefault(item, []).append(own)
    return sparse(count, list(made), list(made.values()))


def _seismic(loads: HangerLoads, count: int, system: System) -> list[bytes]:
    own = loads.seismic
    if own is None:
        return [ABSENT] * count
    items = loads.items
    at: list[int] = items.seismic.item.tolist()
    columns = {
        "w_p": in_request_units(own.w_p, FORCE, system),
        "f_p": in_request_units(own.f_p, FORCE, system),
        "share_of_weight": own.fraction,
        "omega_0": own.omega_0,
        "f_p_anchorage": in_request_units(own.f_p_anchorage, FORCE, system),
        "vertical": in_request_units(own.e_v, FORCE, system),
    }
    lists = {name: column.tolist() for name, column in columns.items()}
    lines = (items.kind[items.seismic.item] != EQUIPMENT) & ~items.seismic.braced
    values: list[dict[str, Any]] = [
        {name: each[row] for name, each in lists.items() if name in _OF_ANY_LINE or not per_foot}
        | {"governs": GOVERNS[own.governs[row]]}
        for row, per_foot in enumerate(lines.tolist())
    ]
    for row, brace in _braces(own, system).items():
        values[row]["brace"] = brace
    return sparse(count, at, values)


def _braces(own: SeismicLoads, system: System) -> dict[int, dict[str, float]]:
    if own.brace is None or own.anchor is None:
        return {}
    columns = {
        "axial": own.brace.f_axial,
        "hanger_tension": own.brace.v,
        "rod_compression": own.brace.c_rod,
        "anchor_tension": own.anchor.v,
        "anchor_shear": own.anchor.f_horizontal,
    }
    lists = {name: in_request_units(column, FORCE, system).tolist() for name, column in columns.items()}
    rows: list[int] = own.braced.tolist()
    made = {row: {name: each[place] for name, each in lists.items()} for place, row in enumerate(rows)}
    if own.rod is not None:
        free = in_request_units(own.rod.l_most, LENGTH, system).tolist()
        for row, length in zip(own.pushed.tolist(), free, strict=True):
            made[row]["rod_free_length"] = length
    return made
