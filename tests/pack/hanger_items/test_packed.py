"""A mixed batch: every item has the rows, flags and labels that it has alone. Items are invented."""

from dataclasses import fields, is_dataclass

import numpy as np
import pytest

from pack.hanger_items.builders import (
    BRACE,
    CONDUIT,
    DUCT,
    EQUIPMENT,
    PIPE,
    RISER,
    RUN,
    SEISMIC,
    STATED,
    TRAPEZE,
    TRAY,
    pack,
    packed_with_flaws,
    run_of,
    trapeze_of,
)

VALVE = {"at": 4, "weight": "20 kg"}
MIXED = [
    run_of(
        PIPE | {"sprinkler": True}, id="a", run=RUN["run"] | {"spacing_rules": ["sp58_water"], "point_loads": [VALVE]}
    ),
    EQUIPMENT | {"id": "b", "contents": 100, "seismic": SEISMIC, "at": {"level": "L1"}},
    trapeze_of(PIPE, DUCT, CONDUIT, id="c", spare=0.2),
    RISER | {"id": "d", "seismic": SEISMIC | {"brace": BRACE}, "rod": {"size": "3/4"}},
    EQUIPMENT | {"id": "e", "weight": 77, "rods_at": [{"x": 0, "y": 0}, {"x": 9, "y": 0}], "impact": 1.2},
    trapeze_of(
        TRAY, id="f", rods_at=[0, 2, 3, 5], run={"spans": [5, 6, 7], "support": 2, "spacing_rules": ["tray_class_span"]}
    ),
    run_of(STATED | {"filling": 2}, id="g", run={"spans": [4, 5, 6, 7], "missing_hanger": "any"}, erection_load=200),
    RISER | {"id": "h", "line": PIPE | {"size": "2"}, "given": [{"hanger": 2, "nature": "snow", "tension": 4}]},
    TRAPEZE
    | {
        "id": "i",
        "tiers": [
            {"bar": {"weight": 2}, "loads": [{"at": 1, "weight": 8}]},
            {"bar": {"weight": 3}, "lines": [{"at": 2, "line": CONDUIT}, {"at": 3, "line": PIPE}]},
        ],
    },
]
OWNERS = {"row", "line", "tier", "body", "item"}


def owner_of(items, name):
    """Item of each row of a table, through the tables that it points at."""
    table = getattr(items, name)
    if name in ("run_loads", "bar_loads"):
        return (items.runs if name == "run_loads" else items.tiers).item[table.row]
    if name == "equipment_rods":
        return items.equipment.item[table.body]
    if name == "rods":
        return np.arange(items.count)
    return table.item if hasattr(table, "item") else items.lines.item[table.line]


def rows_of(items, item):
    """All columns of one item, by table, but for those that point at rows; padding of spans is taken off."""
    found = {name: np.asarray(getattr(items, name))[item].tolist() for name in ("kind", "spare", "impact", "erection")}
    for field in fields(items):
        table = getattr(items, field.name)
        if not is_dataclass(table):
            continue
        own = owner_of(items, field.name) == item
        for column in fields(table):
            values = getattr(table, column.name)[own]
            if column.name == "spans":
                values = [[span for span in spans if span] for spans in values.tolist()]
            if column.name not in OWNERS:
                found[f"{field.name}.{column.name}"] = np.array(values, dtype=object).tolist()
    return found


@pytest.mark.parametrize("order", [range(9), range(8, -1, -1), (4, 0, 8, 2, 6, 1, 7, 3, 5)])
def test_an_item_is_what_it_is_alone(order):
    together = pack(*(MIXED[at] for at in order), standard_stated=False)
    tiers = together.items.tiers
    first = 0
    for place, at in enumerate(order):
        alone = pack(MIXED[at], standard_stated=False)
        assert rows_of(together.items, place) == rows_of(alone.items, 0)
        for flags in ("assumptions", "not_checked"):
            assert getattr(together, flags).of_point(place) == getattr(alone, flags).of_point(0)
        last = first + len(alone.items.lines.item)
        for label in ("kind", "weight_by", "description", "spacings"):
            assert list(getattr(together.lines, label))[first:last] == list(getattr(alone.lines, label))
        tier = together.items.lines.tier[first:last]
        start = int(np.searchsorted(tiers.item, place))
        assert np.where(tier < 0, tier, tier - start).tolist() == alone.items.lines.tier.tolist()
        assert together.hangers[place] == alone.hangers[0]
        assert together.places.level[place] == alone.places.level[0]
        first = last
    assert first == len(together.items.lines.item)


def test_every_table_has_rows_of_several_items():
    """Else the test above would compare nothing."""
    items = pack(*MIXED).items
    for field in fields(items):
        if is_dataclass(getattr(items, field.name)) and field.name not in ("ducts", "trays", "stated", "given"):
            assert len(owner_of(items, field.name)) > 0
    for name in ("lines", "pipes", "conduits", "runs", "tiers", "risers", "equipment", "equipment_rods", "seismic"):
        assert len(set(owner_of(items, name).tolist())) >= 2


@pytest.mark.parametrize("item", [RUN, RISER, TRAPEZE, EQUIPMENT])
def test_a_batch_of_one_kind(item):
    items = pack(item, item | {"id": "second"}).items
    assert items.count == 2
    assert rows_of(items, 0) == rows_of(items, 1)


def test_flaws_stay_with_their_row():
    """Rows of a request that are packed need not be all of it: a flaw names the row in the request."""
    bad = RISER | {"length": 0}
    _, flaws = packed_with_flaws(RUN, bad, TRAPEZE, trapeze_of(PIPE | {"size": "9"}), bad)
    assert {row: [flaw.path for flaw in found] for row, found in flaws.items()} == {
        1: ["length"],
        3: ["tiers/0/lines/0/line/size"],
        4: ["length"],
    }


def test_what_is_never_checked():
    packed = pack(*MIXED)
    for bits in packed.not_checked.of_points():
        assert {"anchors", "hanger-hardware", "structure"} <= set(packed.not_checked.codes(bits))


def test_many_items():
    """2,000 items of all kinds; how long it takes is for the benchmarks."""
    many = [MIXED[at % 9] | {"id": str(at)} for at in range(2_000)]
    packed = pack(*many)
    assert packed.items.count == 2_000
    assert rows_of(packed.items, 1_000) == rows_of(pack(MIXED[1_000 % 9]).items, 0)
