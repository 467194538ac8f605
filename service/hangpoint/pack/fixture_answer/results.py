"""Results of fixtures: loads by direction and nature, overturning, findings, bodies for the checks of anchors."""

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from hangpoint.core.fixture.fixtures import FixtureLoads
from hangpoint.core.fixture.items import LIVE, NATURES
from hangpoint.core.loads.seismic_component import GOVERNS
from hangpoint.core.quantity import Index, Record
from hangpoint.core.vocabulary import FixtureAssumption, FixtureFinding, Severity, Status
from hangpoint.pack.fixture_answer.bodies import (
    against_each_other,
    components_of_ways,
    group_bodies,
    handed_on,
    hang_points,
    supports_of_ways,
)
from hangpoint.pack.fixture_items.packed import FLOOR, PackedFixtures
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.trace import record_section
from hangpoint.units import FORCE, MOMENT, System

Object = dict[str, Any]


def fixture_results(
    packed: PackedFixtures, loads: FixtureLoads, *, system: System, load_standard: str | None, trace: bool
) -> list[Object]:
    """One result an item, in order.

    Args:
        packed: the batch with its labels and assumptions.
        loads: of the same items.
        system: unit system of the numbers.
        load_standard: as the request names it.
        trace: whether the results have one.

    Raises:
        NonFiniteError: a number is not finite.
    """
    count = packed.fixtures.count
    owners: list[int] = loads.ways.item.tolist()
    directions = [None if np.isnan(theta) else theta for theta in loads.ways.theta.tolist()]
    ids = [
        packed.ids[item] if theta is None else f"{packed.ids[item]}/{theta:g}"
        for item, theta in zip(owners, directions, strict=True)
    ]
    components = components_of_ways(loads, system)
    head: Object = {"units": system, "combinations": "strength"}
    if load_standard is not None:
        head["load_standard"] = load_standard
    groups = group_bodies(packed, ids, handed_on(loads, components, system), loads, head)
    points = hang_points(packed, groups, loads, system)
    supports = supports_of_ways(loads, system)
    opposed = np.bincount(loads.ways.item, np.any(against_each_other(loads), axis=1), count) > 0
    packed.assumptions.set(FixtureAssumption.NATURE_TOGETHER, opposed)
    made = [_head(packed, item) for item in range(count)]
    for way, (item, theta) in enumerate(zip(owners, directions, strict=True)):
        of_way: Object = {} if theta is None else {"direction": theta}
        borne: Object = {"supports": supports[way]} if supports[way] else {}
        made[item]["loads"].append(of_way | {"components": components[way]} | borne)
        made[item]["anchor_groups"].append(groups[way])
        made[item]["hang_points"].append(points[way])
    _tell_tipping(made, loads, system)
    _tell_seismic(made, loads, system)
    for own in made:
        failed = any(each["severity"] == Severity.VIOLATION for each in own["findings"])
        own["status"] = Status.FAILED if failed else Status.PASSED
    if trace:
        _trace(made, packed, loads)
    return made


def _head(packed: PackedFixtures, item: int) -> Object:
    kind = packed.kinds[item]
    bits = packed.assumptions.of_point(item), packed.loads.of_point(item)
    made: Object = {
        "id": packed.ids[item],
        "index": packed.index[item],
        "kind": kind,
        "face": "side" if packed.fixtures.on_side[item] else "top",
        "status": Status.PASSED,
        "loads": [],
        "findings": [],
        "assumptions": packed.assumptions.codes(bits[0]) + packed.loads.codes(bits[1]),
        "not_checked": packed.not_checked.codes(packed.not_checked.of_point(item)),
        "anchor_groups": [],
        "hang_points": [],
    }
    return made | ({"overturning": []} if kind == FLOOR else {})


def _tell_tipping(made: list[Object], loads: FixtureLoads, system: System) -> None:
    """Overturning of equipment on floors, and what is seen of it."""
    tipping, own = loads.tipping, loads.tipping.record
    columns = {
        "direction": tipping.direction % 360.0,
        "edge_direction": own.theta % 360.0,
        "overturning_moment": in_request_units(own.m_over, MOMENT, system),
        "righting_moment": in_request_units(own.m_right, MOMENT, system),
        "anchor_tension": in_request_units(own.t_far, FORCE, system),
        "anchor_shear": in_request_units(own.v_1, FORCE, system),
    }
    lists = {name: column.tolist() for name, column in columns.items()}
    items: list[int] = loads.ways.item[tipping.way].tolist()
    tips, held = own.tips.tolist(), ((own.d_squared > 0.0) & ~own.loose).tolist()
    codes: list[int] = tipping.nature.tolist()
    beside = tipping.beside.tolist()
    for row, (item, code) in enumerate(zip(items, codes, strict=True)):
        values = {name: each[row] for name, each in lists.items()}
        direction = values.pop("direction")
        pushed: Object = {} if np.isnan(direction) else {"direction": direction}
        of: Object = {**pushed, "nature": NATURES[code]} | ({"beside": NATURES[LIVE]} if beside[row] else {})
        made[item]["overturning"].append(of | values)
        if tips[row]:
            finding = (FixtureFinding.TIPS if held[row] else FixtureFinding.UNHELD).value
            made[item]["findings"].append(
                {
                    "code": finding.code,
                    "clause": finding.clause,
                    "severity": finding.severity,
                    "text": finding.text,
                    "quantity": finding.quantity,
                    "value": values["overturning_moment"],
                    "limit": values["righting_moment"],
                    **of,
                }
            )


def _tell_seismic(made: list[Object], loads: FixtureLoads, system: System) -> None:
    own = loads.seismic
    if own is None:
        return
    columns = {
        "w_p": in_request_units(own.w_p, FORCE, system),
        "f_p": in_request_units(own.f_p, FORCE, system),
        "share_of_weight": own.fraction,
        "omega_0": own.omega_0,
        "f_p_anchorage": in_request_units(own.f_p_anchorage, FORCE, system),
        "vertical": in_request_units(own.e_v, FORCE, system),
    }
    lists = {name: column.tolist() for name, column in columns.items()}
    for row, item in enumerate(loads.fixtures.seismic.item.tolist()):
        made[item]["seismic"] = {name: each[row] for name, each in lists.items()} | {
            "governs": GOVERNS[own.governs[row]]
        }


def _trace(made: list[Object], packed: PackedFixtures, loads: FixtureLoads) -> None:
    """Sections of every item in the order of a hand calculation."""
    for own in made:
        own["trace"] = []
    ways = loads.ways.item
    if loads.seismic is not None:
        for record, rows in loads.seismic.records:
            _sections(made, record, packed.fixtures.seismic.item[rows])
    _sections(made, packed.guards, packed.guarded)
    _sections(made, loads.forces, ways[loads.way], way=loads.way, nature=loads.nature, loads=loads)
    supports = loads.supports
    bodies: Index = np.arange(len(supports.way), dtype=np.intp)
    of_supports: Sequence[tuple[Record, Index, Index | None]] = (
        (supports.shears.group, bodies, None),
        (supports.reactions, supports.body, supports.number),
        (supports.shears.anchors, supports.body, supports.number),
    )
    for record, body, number in of_supports:
        way: Index = supports.way[body]
        natures: Index = supports.nature[body]
        _sections(made, record, ways[way], way=way, nature=natures, loads=loads, support=number)
    _sections(
        made,
        loads.tipping.record,
        ways[loads.tipping.way],
        way=loads.tipping.way,
        nature=loads.tipping.nature,
        loads=loads,
    )


def _sections(
    made: list[Object],
    record: Record,
    item: Index,
    *,
    way: Index | None = None,
    nature: Index | None = None,
    loads: FixtureLoads | None = None,
    support: Index | None = None,
) -> None:
    """Add every row of a record to the trace of its item, with the direction, nature and support that it is of."""
    rows: Iterable[int] = item.tolist()
    for row, owner in enumerate(rows):
        section = record_section(record, row)
        if way is not None and loads is not None and not np.isnan(loads.ways.theta[way[row]]):
            section["direction"] = float(loads.ways.theta[way[row]])
        if nature is not None:
            section["nature"] = NATURES[int(nature[row])]
        if support is not None:
            section["support"] = int(support[row])
        made[owner]["trace"].append(section)
