"""What can't be read of a line: each flaw at its place in the item, with what would have done."""

import pytest

from pack.hanger_items.builders import (
    CONDUIT,
    DUCT,
    PIPE,
    RISER,
    STATED,
    TRAPEZE,
    TRAY,
    flaws_of,
    only_flaw,
    run_of,
)

GONE = object()


def changed(line, **changes):
    return {key: value for key, value in (line | changes).items() if value is not GONE}


ROUND = {"kind": "duct", "shape": "round", "diameter": 12, "thickness": 0.03}
OVAL = {"kind": "duct", "shape": "flat_oval", "width": 12, "height": 24, "thickness": 0.03}
LAYER = {"thickness": 200_000, "density": 5}

FLAWS = [
    (changed(PIPE, material="copper"), "schedule", "unknown-option", "unknown-option"),
    (changed(PIPE, size="4-1/8"), "size", "unknown-option", "unknown-option"),
    (changed(PIPE, schedule=GONE), "schedule", "validation", "missing"),
    (changed(PIPE, wall=0.2), "schedule", "validation", "contradiction"),
    (changed(PIPE, schedule=GONE, wall=2.25), "wall", "impossible-geometry", "impossible-geometry"),
    (changed(PIPE, schedule=GONE, wall=0.0001), "wall", "quantity", "quantity"),
    (changed(PIPE, contents=GONE), "contents", "validation", "missing"),
    (changed(PIPE, contents_density=50), "contents_density", "validation", "contradiction"),
    (changed(PIPE, contents="air"), "hydrotest", "validation", "missing"),
    (changed(PIPE, contents=GONE, contents_density=0.3), "hydrotest", "validation", "missing"),
    (changed(PIPE, contents="empty", sprinkler=True), "contents", "validation", "validation"),
    (
        changed(PIPE, contents=GONE, contents_density=60, sprinkler=True, hydrotest=True),
        *("contents_density", "validation", "validation"),
    ),
    (changed(PIPE, insulation=LAYER | {"jacket": 1}), "insulation/thickness", "quantity", "quantity"),
    (changed(PIPE, insulation={"thickness": "9000 ft", "density": 5}), "insulation/thickness", "quantity", "quantity"),
    (changed(DUCT, width=GONE), "width", "validation", "missing"),
    (changed(DUCT, height=GONE), "height", "validation", "missing"),
    (changed(DUCT, diameter=12), "diameter", "validation", "contradiction"),
    (changed(ROUND, diameter=GONE), "diameter", "validation", "missing"),
    (changed(ROUND, width=12), "width", "validation", "contradiction"),
    (OVAL, "height", "impossible-geometry", "impossible-geometry"),
    (changed(DUCT, gauge_table=GONE), "gauge_table", "validation", "missing"),
    (changed(DUCT, gauge=23), "gauge", "unknown-option", "unknown-option"),
    (changed(DUCT, thickness=0.03), "thickness", "validation", "contradiction"),
    (changed(ROUND, thickness=GONE), "gauge", "validation", "missing"),
    (changed(ROUND, gauge_table="uncoated"), "gauge_table", "validation", "contradiction"),
    (
        changed(DUCT, liner={"thickness": 6, "density": 3}),
        *("liner/thickness", "impossible-geometry", "impossible-geometry"),
    ),
    (changed(DUCT, wrap=LAYER), "wrap/thickness", "quantity", "quantity"),
    (changed(CONDUIT, size="7"), "size", "unknown-option", "unknown-option"),
    (changed(CONDUIT, size="any text"), "size", "unknown-option", "unknown-option"),
    (changed(CONDUIT, fill=0.4), "fill", "validation", "contradiction"),
    (changed(CONDUIT, cables=GONE), "cables", "validation", "missing"),
    (changed(CONDUIT, cables="200000 lb/ft"), "cables", "quantity", "quantity"),
    (changed(TRAY, cables=[1]), "cables", "validation", "contradiction"),
    (changed(TRAY, load_class=GONE), "load_class", "validation", "missing"),
    (changed(TRAY, load_class=GONE, cables=[1, "2e5 lb/ft"]), "cables/1", "quantity", "quantity"),
    (changed(TRAY, self_weight=0), "self_weight", "quantity", "quantity"),
    (changed(STATED, weight=0), "weight", "quantity", "quantity"),
    (changed(STATED, filling="2e5 lb/ft"), "filling", "quantity", "quantity"),
]


STATIC = [
    (changed(TRAY, static_load=200), "span", "validation", "missing"),
    (changed(TRAY, static_load=-1, span=10), "static_load", "quantity", "quantity"),
    (changed(TRAY, static_load=1, span=0), "span", "quantity", "quantity"),
]
"""Of lines that span only."""


@pytest.mark.parametrize(("line", "place", "slug", "code"), FLAWS)
def test_a_flaw_of_a_line(line, place, slug, code):
    assert flaws_of(RISER | {"line": line}) == [(f"line/{place}", slug, code)]


@pytest.mark.parametrize(("line", "place", "slug", "code"), [*FLAWS, *STATIC])
def test_a_flaw_of_a_line_that_spans(line, place, slug, code):
    assert flaws_of(run_of(line)) == [(f"line/{place}", slug, code)]
    tiers = [TRAPEZE["tiers"][0], {"bar": {"weight": 2}, "lines": [{"at": 1, "line": PIPE}, {"at": 2, "line": line}]}]
    assert flaws_of(TRAPEZE | {"tiers": tiers}) == [(f"tiers/1/lines/1/line/{place}", slug, code)]


def test_a_static_load_has_no_span_on_a_riser():
    line = changed(TRAY, static_load=200, span=8)
    assert flaws_of(run_of(line)) == []
    assert flaws_of(RISER | {"line": line}) == [("line/static_load", "validation", "contradiction")]


@pytest.mark.parametrize(
    ("line", "allowed"),
    [
        (changed(PIPE, schedule="99"), {"40", "STD", "80", "XS"}),
        (changed(PIPE, size="9"), {"3", "4", "6"}),
        (changed(PIPE, contents=GONE), {"water", "steam", "empty"}),
        (changed(DUCT, gauge_table=GONE), {"galvanised", "uncoated"}),
        (changed(DUCT, gauge=23), {"22", "24"}),
        (changed(CONDUIT, size="7"), {"1/2", "2", "4"}),
        (changed(TRAY, load_class=GONE), {"8A", "20C"}),
    ],
)
def test_a_flaw_says_what_would_have_done(line, allowed):
    assert allowed <= set(only_flaw(run_of(line)).allowed)


def test_neutral_numbers_stand_where_there_is_a_flaw():
    """An item may have any number of flaws; all are told at once, and nothing else breaks."""
    line = changed(DUCT, width=GONE, gauge=GONE, gauge_table=GONE)
    assert {path for path, _, _ in flaws_of(run_of(line))} == {"line/width", "line/gauge"}
