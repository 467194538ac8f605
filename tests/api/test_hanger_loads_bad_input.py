"""Bad input to the loads on hangers: every error at its place with what is allowed, one bad item costs only itself.

The building is invented.
"""

import copy
import json
import math
import random
from typing import get_args

import pytest
from starlette.testclient import TestClient

from api.bodies import GONE, change
from api.hanger_bodies import (
    CONDUIT,
    DUCT,
    EQUIPMENT,
    KINDS,
    LINES,
    NUMBERED,
    PATH,
    PIPE,
    RISER,
    RUN,
    SECTION,
    SEISMIC,
    SEISMIC_22,
    SPRINKLER,
    STATED,
    TRAPEZE,
    TRAY,
    braced,
    codes,
    conforms,
    made,
    on_bar,
    request,
    without,
)
from api.mutations import places
from hangpoint.api.schemas.words import SpacingRule
from hangpoint.app import create_app
from hangpoint.core.loads.cable_tray import TRAY_CLASSES
from hangpoint.core.loads.component_factors import FACTORS_16
from hangpoint.core.loads.pipe_sizes import schedules, sizes
from hangpoint.core.loads.sheet import TABLES, gauges
from hangpoint.settings import Settings


@pytest.fixture(scope="module")
def flaws(ask_loads):
    """Errors of an item that stands alone, its place cut off the pointers."""

    def of(item, **top):
        result = ask_loads(item, **top)["items"][0]
        assert result["status"] == "invalid", result
        errors = result["problem"]["errors"]
        assert all(error["pointer"].startswith("#/items/0") for error in errors)
        return [(error["pointer"][len("#/items/0") :], error["code"], error.get("allowed", [])) for error in errors]

    return of


CATALOGUED = [
    # What the tables lack, with what they have.
    (made(RUN, line__schedule="41"), "/line/schedule", "unknown-option", list(schedules("steel", "4"))),
    (made(RUN, line__size="4-1/4"), "/line/size", "unknown-option", list(sizes("steel"))),
    (made(RUN, line__material="lead"), "/line/material", "unknown-option", None),
    (made(RUN, line=without(DUCT, "gauge_table")), "/line/gauge_table", "missing", list(TABLES)),
    (made(RUN, line={**DUCT, "gauge": 40}), "/line/gauge", "unknown-option", [str(g) for g in gauges("galvanised")]),
    (
        made(RUN, line={**DUCT, "gauge_table": "zinc"}),
        "/line/gauge_table",
        "unknown-option",
        ["galvanised", "uncoated"],
    ),
    (made(RUN, line={**CONDUIT, "size": "9"}), "/line/size", "unknown-option", None),
    (made(RUN, line={**TRAY, "load_class": "20D"}), "/line/load_class", "unknown-option", list(TRAY_CLASSES)),
    (made(RUN, line=without(TRAY, "load_class")), "/line/load_class", "missing", list(TRAY_CLASSES)),
    (made(RUN, line__kind="hose"), "/line/kind", "unknown-option", ["conduit", "duct", "line", "pipe", "tray"]),
    (made(RUN, line__kind=GONE), "/line/kind", "missing", ["conduit", "duct", "line", "pipe", "tray"]),
    (made(RUN, kind="rack"), "/kind", "unknown-option", ["equipment", "riser", "run", "trapeze"]),
    (made(RUN, kind=GONE), "/kind", "missing", ["equipment", "riser", "run", "trapeze"]),
    (made(RUN, run__spacing_rules=["sp59"]), "/run/spacing_rules/0", "unknown-option", get_args(SpacingRule)),
    (made(RUN, run__model="rigid"), "/run/model", "unknown-option", ["larger", "tributary", "continuous", "hinged"]),
    (made(RUN, rod={"size": "1/2", "rule": "mine"}), "/rod/rule", "unknown-option", None),
    (made(RUN, rod__size="9/16"), "/rod/size", "unknown-option", None),
    (braced(RUN, component="pipe"), "/seismic/component", "unknown-option", list(FACTORS_16)),
    # Lengths.
    (made(RUN, run__spans=[10, -8, 10]), "/run/spans/1", "quantity", []),
    (made(RUN, run__spans=[10, "-8 ft"]), "/run/spans/1", "quantity", []),
    (made(RUN, run__spans=[10, 0, 10]), "/run/spans/1", "quantity", []),
    (made(RUN, run__spans=["1e-6 ft"]), "/run/spans/0", "quantity", []),
    (made(RUN, run__spans=["8 lb"]), "/run/spans/0", "quantity", []),
    (made(RUN, run__spans=[]), "/run/spans", "too_short", []),
    (made(RUN, run__spans=[8] * 21), "/run/spans", "too_long", []),
    (made(TRAPEZE, run__spacing=0), "/run/spacing", "quantity", []),
    (made(TRAPEZE, run=GONE), "/run", "missing", []),
    (made(TRAPEZE, run={}), "/run/spacing", "missing", []),
    (made(TRAPEZE, run={"spans": [10, 10]}), "/run/support", "missing", []),
    (made(TRAPEZE, run={"spans": [10, 10], "support": 3}), "/run/support", "out-of-range", []),
    (made(TRAPEZE, run__spans=[10]), "/run/spacing", "contradiction", []),
    (made(RISER, length=0), "/length", "quantity", []),
    (made(RISER, supports=0), "/supports", "greater_than_equal", []),
    (made(RISER, supports=2.5), "/supports", "int_type", []),
    # Places.
    (made(RUN, run__point_loads=[{"at": 28.5, "weight": 9}]), "/run/point_loads/0/at", "out-of-range", []),
    (made(RUN, run__point_loads=[{"at": -0.5, "weight": 9}]), "/run/point_loads/0/at", "out-of-range", []),
    (made(TRAPEZE, tiers__0__lines__1__at="4.5 ft"), "/tiers/0/lines/1/at", "out-of-range", []),
    (made(TRAPEZE, tiers__0__loads=[{"at": "-1 in", "weight": 5}]), "/tiers/0/loads/0/at", "out-of-range", []),
    (made(TRAPEZE, rods_at=[1, 4]), "/rods_at/0", "impossible-geometry", []),
    (made(TRAPEZE, rods_at=[0, 4, 3]), "/rods_at/2", "impossible-geometry", []),
    (made(TRAPEZE, rods_at=[0]), "/rods_at", "too_short", []),
    (made(TRAPEZE, tiers=[]), "/tiers", "too_short", []),
    (made(TRAPEZE, tiers__0__bar={}), "/tiers/0/bar/weight", "missing", []),
    (made(TRAPEZE, tiers__0__bar=GONE), "/tiers/0/bar", "missing", []),
    (made(TRAPEZE, tiers__0__bar={**SECTION, "weight": 2}), "/tiers/0/bar/section", "contradiction", []),
    (made(EQUIPMENT, rods_at__1=EQUIPMENT["rods_at"][0]), "/rods_at/1", "impossible-geometry", []),
    (made(EQUIPMENT, rods_at=EQUIPMENT["rods_at"][:1]), "/rods_at", "too_short", []),
    (made(EQUIPMENT, weight=0), "/weight", "quantity", []),
    (made(EQUIPMENT, contents="1001 lb"), "/contents", "contradiction", []),
    # Hangers.
    (made(RUN, run__missing_hanger=0), "/run/missing_hanger", "contradiction", ["1", "2", "any"]),
    (made(RUN, run__missing_hanger=3), "/run/missing_hanger", "contradiction", ["1", "2", "any"]),
    (made(RUN, run={"spans": [10], "missing_hanger": "any"}), "/run/missing_hanger", "contradiction", []),
    (made(RUN, given=[{"hanger": 4, "nature": "wind", "tension": 1}]), "/given/0/hanger", "out-of-range", []),
    (
        made(RUN, given=[{"hanger": 1, "nature": "wind"}]),
        "/given/0/tension",
        "missing",
        ["tension", "shear_x", "shear_y"],
    ),
    (made(RUN, given=[{"hanger": 1, "nature": "earthquake", "tension": 1}]), "/seismic/s_ds", "missing", []),
    (
        made(RUN, run__missing_hanger=1, given=[{"hanger": 1, "nature": "wind", "tension": 1}]),
        "/given/0/hanger",
        "out-of-range",
        [],
    ),
    (made(RUN, rod={"size": "1/2", "rule": "sprinkler_size_table"}), "/rod/rule", "contradiction", None),
    # Lines.
    (made(RUN, line__contents_density=60), "/line/contents_density", "contradiction", []),
    (made(RUN, line__contents=GONE), "/line/contents", "missing", None),
    (made(RUN, line__contents="gas"), "/line/hydrotest", "missing", ["true", "false"]),
    (made(RUN, line__schedule=GONE), "/line/schedule", "missing", None),
    (made(RUN, line__wall="0.2 in"), "/line/schedule", "contradiction", None),
    (made(RUN, line=without(PIPE, "schedule") | {"wall": "3 in"}), "/line/wall", "impossible-geometry", []),
    (made(RUN, line={**DUCT, "diameter": 9}), "/line/diameter", "contradiction", []),
    (made(RUN, line=without(DUCT, "height")), "/line/height", "missing", []),
    (made(RUN, line={**DUCT, "thickness": "0.03 in"}), "/line/thickness", "contradiction", []),
    (
        made(RUN, line={**DUCT, "liner": {"thickness": "6 in", "density": 2}}),
        "/line/liner/thickness",
        "impossible-geometry",
        [],
    ),
    (made(RUN, line={**CONDUIT, "cables": 2}), "/line/fill", "contradiction", []),
    (made(RUN, line={**TRAY, "cables": [1]}), "/line/cables", "contradiction", []),
    (made(RUN, line={**TRAY, "static_load": 200}), "/line/span", "missing", []),
    (made(RUN, line={**STATED, "weight": 0}), "/line/weight", "quantity", []),
    (made(RUN, line={**STATED, "weight": "5 lb/ft2"}), "/line/weight", "quantity", []),
    # Earthquake.
    (braced(RUN, brace={"angle": 45, "angle_from": "vertical"}), "/seismic/brace/spacing", "missing", []),
    (braced(EQUIPMENT, brace=SEISMIC["brace"]), "/seismic/brace/number", "missing", []),
    (braced(RUN, brace__spacing=0), "/seismic/brace/spacing", "quantity", []),
    (braced(RUN, s_ds=GONE), "/seismic/s_ds", "missing", []),
    (braced(RUN, i_p=GONE), "/seismic/i_p", "missing", []),
    (braced(RUN, component=GONE), "/seismic/component", "missing", list(FACTORS_16)),
    (braced(RUN, z=GONE), "/seismic/z", "missing", []),
    (braced(RUN, h=0), "/seismic/h", "quantity", []),
    (braced(RUN, at_grade=True), "/seismic/z", "contradiction", []),
    (braced(EQUIPMENT, component="spring_isolated") | {"isolated": True}, "/seismic/isolator_gap", "missing", []),
    (
        braced(EQUIPMENT, isolator_gap="1/8 in") | {"isolated": True},
        *("/seismic/component", "contradiction", ["spring_isolated", "isolated_in_line"]),
    ),
    (braced(RUN, coefficients={"a_p": 2.5}), "/seismic/coefficients/r_p", "missing", []),
    (braced(RUN, brace__angle=0.5), "/seismic/brace/angle", "greater_than_equal", []),
    (braced(RUN, brace__angle=90), "/seismic/brace/angle", "less_than_equal", []),
    # Names.
    (made(RUN, id="x" * 57), "/id", "string_too_long", []),
    (made(RUN, id=""), "/id", "string_too_short", []),
    (made(RUN, id=GONE), "/id", "missing", []),
    (made(RUN, spam=1), "/spam", "unknown-field", None),
    (made(RUN, line__shedule="40"), "/line/shedule", "unknown-field", ["schedule"]),
    (made(RUN, length="3 ft"), "/length", "unknown-field", None),
    (made(RUN, run__riser=1), "/run/riser", "unknown-field", None),
]


@pytest.mark.parametrize(
    ("item", "place", "code", "allowed"), CATALOGUED, ids=[f"{p} {c}" for _, p, c, _ in CATALOGUED]
)
def test_a_flaw_is_named_at_its_place(flaws, item, place, code, allowed):
    found = {where: (what, list(options)) for where, what, options in flaws(item)}
    assert place in found, found
    assert found[place][0] == code
    if allowed is None:
        assert found[place][1] or code in ("missing", "contradiction")
    else:
        assert sorted(found[place][1]) == sorted(allowed)


def test_a_component_by_name_has_no_coefficients_in_the_newer_edition(flaws):
    ((place, code, allowed),) = flaws({**RUN, "seismic": SEISMIC}, load_standard="asce7_22")
    assert (place, code, allowed) == ("/seismic/coefficients", "missing", ["c_ar", "r_po", "omega_0p"])


# Bodies out of balance


def test_a_centre_of_gravity_outside_the_rods(client, ask_loads):
    item = made(EQUIPMENT, centre_of_gravity__x="2.1 ft")
    result = ask_loads(item)["items"][0]
    (finding,) = [each for each in result["findings"] if each["code"] == "no-balance"]
    assert (result["status"], finding["severity"]) == ("failed", "violation")
    text = client.post(PATH, json=request(item)).text
    assert not any(word in text for word in ("Infinity", "NaN", "inf,"))
    assert (result["hangers"], result["hang_points"]) == ([], [])


def test_a_body_out_of_balance_makes_no_hang_points_of_the_others(ask_loads):
    loose = made(EQUIPMENT, id="loose", centre_of_gravity__y="9 ft")
    answer = ask_loads(RUN, loose, braced(made(EQUIPMENT, id="held")))
    assert [len(each["hang_points"]) for each in answer["items"]] == [4, 0, 5]


def test_a_load_on_an_overhang_lifts_the_other_rod(ask_loads):
    """163.2 lb at 2 ft before the first rod of 4 ft, bar of 6 ft: R_2 = 1.9 x 6 x 1/4 - 163.2 x 2/4."""
    item = on_bar(STATED, at="-2 ft", tiers__0__bar__start_overhang="2 ft")
    result = ask_loads(item)["items"][0]
    (finding,) = [each for each in result["findings"] if each["code"] == "hanger-uplift"]
    lifted = 1.9 * 6 / 4 - 163.2 / 2
    assert (result["status"], finding["hanger"], finding["quantity"]) == ("failed", 1, "force")
    assert finding["value"] == pytest.approx(lifted, rel=1e-9)
    first, second = result["hangers"]
    assert first["service"]["dead"] == pytest.approx(1.9 * 6 + 163.2 - lifted, rel=1e-9)
    assert second["service"]["dead"] == pytest.approx(lifted, rel=1e-9)


def test_contents_that_come_and_go_can_lift(ask_loads):
    """Full, the line past the rod lifts the other one; empty it doesn't: the violation is told all the same."""
    item = on_bar(PIPE, at="-1 ft", tiers__0__bar__start_overhang="1 ft", tiers__0__bar__weight="20 lb/ft")
    assert "hanger-uplift" in codes(ask_loads(item)["items"][0])
    empty = on_bar(
        {**PIPE, "contents": "empty"},
        at="-1 ft",
        tiers__0__bar__start_overhang="1 ft",
        tiers__0__bar__weight="20 lb/ft",
    )
    assert "hanger-uplift" not in codes(ask_loads(empty)["items"][0])


# Whole requests


def test_a_bad_item_costs_only_itself(ask_loads):
    """By the schema or by what the tables lack; each pointer goes to its place in the request."""
    flawed = [
        (made(TRAPEZE, tiers__0__lines__1__line__schedule="41"), "/tiers/0/lines/1/line/schedule"),
        (made(TRAPEZE, tiers__0__lines__1__line__schedule=40), "/tiers/0/lines/1/line/schedule"),
        (made(RUN, run__spans=[0]), "/run/spans/0"),
        (made(RUN, run__spans=["x"]), "/run/spans/0"),
        (braced(RUN, brace={"angle": 45, "angle_from": "vertical"}), "/seismic/brace/spacing"),
        ({**RISER, "supports": "two"}, "/supports"),
        (5, ""),
        ("x", ""),
        ({}, "/kind"),
        ({"id": "nameless"}, "/kind"),
    ]
    alone = ask_loads(*KINDS)["items"]
    for bad, place in flawed:
        for at in range(5):
            several = copy.deepcopy(KINDS)
            several.insert(at, {**bad, "id": "bad"} if isinstance(bad, dict) and "id" in bad else bad)
            answer = ask_loads(body={"units": "us", "items": several})
            errors = [error["pointer"] for error in answer["items"][at]["problem"]["errors"]]
            assert errors == [f"#/items/{at}{place}"]
            others = [each for each in answer["items"] if each["status"] != "invalid"]
            assert [{**each, "index": 0} for each in others] == [{**each, "index": 0} for each in alone]


def test_four_hundred_items_with_twelve_bad_ones(ask_loads):
    good = [
        *KINDS,
        *(made(RUN, line=line) for line in LINES.values()),
        braced(RUN),
        braced(EQUIPMENT),
        made(RUN, line=SPRINKLER),
    ]
    several = [{**copy.deepcopy(good[at % len(good)]), "id": f"N{at}"} for at in range(400)]
    bad = {}
    for at in range(12):
        row = 31 * at + 7
        item, place, code, _ = [each for each in CATALOGUED if "/id" not in each[1]][5 * at]
        several[row] = {**item, "id": f"N{row}"}
        bad[row] = (f"#/items/{row}{place}", code)
    answer = ask_loads(body={"units": "us", "items": several})
    assert (answer["summary"]["total"], answer["summary"]["invalid"]) == (400, 12)
    assert [each["id"] for each in answer["items"]] == [each["id"] for each in several]
    found = {each["index"]: each["problem"]["errors"] for each in answer["items"] if each["status"] == "invalid"}
    assert found.keys() == bad.keys()
    for row, expected in bad.items():
        assert expected in [(error["pointer"], error["code"]) for error in found[row]]


def test_every_item_may_be_bad(ask_loads):
    answer = ask_loads(made(RUN, run__spans=[0]), {**RUN, "id": "b", "x": 1})
    assert answer["summary"] == {"total": 2, "passed": 0, "failed": 0, "invalid": 2, "hangers": 0}
    assert (answer["assumptions"], answer["not_checked"], answer["strength_cases"]) == ({}, {}, {})


def test_two_items_of_one_id(ask_loads):
    problem = ask_loads(body={"units": "us", "items": [RUN, RISER, {**TRAPEZE, "id": "run"}]}, status=422)
    assert problem["type"] == "/problems/duplicate-id"
    assert [error["pointer"] for error in problem["errors"]] == ["#/items/2/id"]


def test_too_many_items_and_one_fewer(client, ask_loads):
    body = {"units": "us", "items": [{**RISER, "id": str(at)} for at in range(10_001)]}
    problem = ask_loads(body=body, status=413)
    assert (problem["type"], problem["limit"], problem["received"]) == ("/problems/too-many-items", 10_000, 10_001)
    assert "items" in problem["detail"]
    body["items"].pop()
    assert client.post(PATH, json=body).json()["summary"]["total"] == 10_000


def test_lower_limits_of_an_operator_hold():
    client = TestClient(create_app(Settings(max_items=2, max_traces=1)))
    assert client.post(PATH, json=request(*KINDS)).json()["limit"] == 2
    assert client.post(PATH, json=request(*KINDS[:2], detail="trace")).json()["limit"] == 1


@pytest.mark.parametrize(
    ("defaults", "place"),
    [
        ({"rod": {"size": "9/16"}}, "#/defaults/rod/size"),
        ({"seismic": change(SEISMIC, {"i_p": GONE})}, "#/items/0/seismic/i_p"),
        ({"given": [{"hanger": 10, "nature": "wind", "tension": 1}]}, "#/defaults/given/0/hanger"),
    ],
)
def test_a_default_that_fails_later_is_named(ask_loads, defaults, place):
    for result in ask_loads(RUN, defaults=defaults)["items"]:
        assert [error["pointer"] for error in result["problem"]["errors"]] == [place]


@pytest.mark.parametrize(
    ("defaults", "place"),
    [
        ({"rod": {"size": 5}}, "#/defaults/rod/size"),
        ({"rod": {"sise": "1/2"}}, "#/defaults/rod/sise"),
        ({"id": "x"}, "#/defaults/id"),
        ({"line": PIPE}, "#/defaults/line"),
        ({"kind": "run"}, "#/defaults/kind"),
        ({"erection_load": "x"}, "#/defaults/erection_load"),
        ({"given": [{"hanger": 20.5, "nature": "wind"}]}, "#/defaults/given/0/hanger"),
    ],
)
def test_a_bad_default_refuses_the_whole(ask_loads, defaults, place):
    problem = ask_loads(RUN, defaults=defaults, status=422)
    assert [error["pointer"] for error in problem["errors"]] == [place]


@pytest.mark.parametrize(
    ("change_of", "place"),
    [
        ({"units": "imperial"}, "#/units"),
        ({"detail": "modes"}, "#/detail"),
        ({"load_standard": "asce7_10"}, "#/load_standard"),
        ({"items": []}, "#/items"),
        ({"items": {}}, "#/items"),
        ({"design_code": "aci318_19"}, "#/design_code"),
        ({"item": RUN}, "#/item"),
    ],
)
def test_wrong_outside_the_items(ask_loads, change_of, place):
    problem = ask_loads(body={**request(RUN), **change_of}, status=422)
    assert [error["pointer"] for error in problem["errors"]] == [place]


@pytest.mark.parametrize("text", ["", "{", "[]", "null", '{"units": NaN}', "\ufeff{}", "\xff"])
def test_no_request(client, validator, text):
    response = client.post(PATH, content=text.encode("latin-1", "replace") if text == "\xff" else text.encode())
    response_json = client.post(
        PATH,
        content=text.encode("latin-1") if text == "\xff" else text.encode(),
        headers={"content-type": "application/json"},
    )
    assert response.status_code == 415
    assert response_json.status_code in (400, 422)
    conforms(validator("Problem"), response_json.json())


def test_an_unknown_field_of_a_hang_point_is_none_of_a_run(send):
    """The kinds of one request are no places of the other, and their fields no suggestions."""
    body = {"units": "us", "items": [{"id": "a", "run": 5}, {"id": "b", "equipment": 5, "rods_at": []}]}
    first, second = send(body, status=200)["items"]
    (error,) = first["problem"]["errors"]
    assert (error["pointer"], error["code"]) == ("#/items/0/run", "unknown-field")
    assert {"hangs", "anchor"} <= set(error["allowed"])
    assert not {"rods_at", "tiers", "run"} & set(error["allowed"])
    assert [each["pointer"] for each in second["problem"]["errors"]] == ["#/items/1/equipment", "#/items/1/rods_at"]


# Never a failure

VALID = {
    "units": "us",
    "load_standard": "asce7_16",
    "defaults": {"rod": {"size": "1/2", "length": 3, "out_of_plumb": 3}, "at": {"level": "L2"}},
    "items": [
        braced(made(RUN, run__missing_hanger="any", run__point_loads=[{"at": 4, "weight": 100, "nature": "live"}])),
        braced(RISER),
        made(
            TRAPEZE,
            tiers__0__bar=SECTION | {"start_overhang": 1},
            tiers__0__loads=[{"at": -1, "weight": 50}],
            rods_at=[0, 2, 4],
            run={"spans": [10, 8], "support": 1, "spacing_rules": ["sp58_water"]},
        ),
        braced(EQUIPMENT),
        *({**on_bar(line, line), "id": f"bar {kind}"} for kind, line in LINES.items()),
        {**made(RUN, line={**SPRINKLER, "insulation": {"thickness": 1, "density": 4}}), "id": "sprinkler"},
        {**made(RUN, given=[{"hanger": 0, "nature": "wind", "tension": -50, "shear_x": 9}]), "id": "given"},
    ],
}
NEWER = {
    "units": "si",
    "load_standard": "asce7_22",
    "items": [{**RUN, "seismic": SEISMIC_22}, {**EQUIPMENT, "seismic": {**SEISMIC_22, "brace": NUMBERED}}],
}
ODD = [
    *(None, True, False, 0, -1, 1, 3, 0.5, 7.25, -0.5, 1e-6, 1e-12, 1e9, -1e9, 1e308, 10**30, 5e-324),
    *("", "x", "1e-6 ft", "1e6 ft", "1e6 kip", "1e6 lb", "100000 kip", "-3 ft", "3 in", "0 ft", "none", "any", "run"),
    *("x" * 57, "40", "4", "24", "gas", "water", "dead", "earthquake", "test", "continuous", "horizontal", "asce7_22"),
    *([], [1], [1e-6] * 3, ["1e-2 ft", "9999 ft"], {}, {"kind": "pipe"}, [{}], [None]),
]


def mutated(body, chance):
    """A copy with one place deleted, replaced by an odd value, or a number of it scaled or turned round."""
    made_ = copy.deepcopy(body)
    path, value = chance.choice([each for each in places(made_) if each[0]])
    parent = made_
    for part in path[:-1]:
        parent = parent[part]
    how = chance.choice(["delete", "odd", "odd", "double", "scale"])
    if how == "delete":
        del parent[path[-1]]
    elif how == "double" and isinstance(value, list):
        parent[path[-1]] = value * chance.choice([2, 25])
    elif how == "scale" and isinstance(value, int | float) and not isinstance(value, bool):
        parent[path[-1]] = value * chance.choice([-1, 1e-6, 1e-3, 1e3, 1e6, 1e9])
    else:
        parent[path[-1]] = chance.choice(ODD)
    return made_


def finite(text):
    """A number of JSON, which is infinite where it is too large for a float."""
    number = float(text)
    assert math.isfinite(number), text
    return number


@pytest.mark.parametrize("start", [VALID, NEWER], ids=["older", "newer"])
def test_whatever_comes_is_answered(client, validator, start):
    """Never a failure, never a number that isn't finite, and items that were not touched keep their results."""
    chance = random.Random(318)
    statuses = {200: 0, 422: 0, 400: 0, 413: 0}
    computed = 0
    for _ in range(300):
        body = mutated(start, chance)
        while chance.random() < 0.3:
            body = mutated(body, chance)
        body.setdefault("detail", chance.choice(["loads", "trace"]))
        response = client.post(PATH, content=json.dumps(body), headers={"content-type": "application/json"})
        assert response.status_code in statuses, (response.text[:300], body)
        statuses[response.status_code] += 1
        answer = json.loads(response.text, parse_constant=pytest.fail, parse_float=finite)
        conforms(validator("HangerLoadsAnswer" if response.status_code == 200 else "Problem"), answer)
        computed += sum(each["status"] != "invalid" for each in answer.get("items", ()))
    assert statuses[200] > 200
    assert computed > 200 * len(start["items"]) * 0.5
