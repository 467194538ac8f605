"""Masonry, hollow-core planks and tables in concrete over the API: verdicts, bad input, forms, plain loops."""

import copy
import itertools
import json
import math
import random

import pytest
from starlette.testclient import TestClient

from api.bodies import NO_EDGES as NONE
from api.bodies import PLANK
from hangpoint.app import create_app
from hangpoint.product.catalogue import load_catalogue

WALL = {
    "kind": "masonry",
    "masonry": {"units": "grouted", "material": "concrete", "f_m": 1500, "location": "face", "joint_distance": 2},
    "thickness": 7.625,
    "face": "side",
    "edges": NONE,
}
SLAB = {
    "kind": "concrete",
    "density": "normalweight",
    "strength": {"f_c": 3000},
    "state": "uncracked",
    "state_decided_by": "engineer",
    "thickness": 8,
    "face": "side",
    "edges": NONE,
}
LOAD = {
    "kind": "forces",
    "components": [{"nature": "dead", "tension": 100, "shear_x": 60}, {"nature": "live", "tension": 50}],
}
SLEEVE = {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": 1.75}
FAMILIES = load_catalogue().families


@pytest.fixture(scope="module")
def client():
    with TestClient(create_app()) as found:
        yield found


@pytest.fixture
def send(client):
    def post(*items, **request):
        body = {"units": "us", "detail": "modes", "items": list(items)} | request
        response = client.post("/v1/hang-points", json=body)
        assert response.status_code == 200, response.text
        return response.json()["items"]

    return post


def point(base=WALL, **changed):
    return {"id": "p", "hangs": LOAD, "anchor": SLEEVE, "base": base, "seismic": {"category": "B"}} | changed


def changed(base, **fields):
    made = copy.deepcopy(base)
    for path, value in fields.items():
        *parents, last = path.split("__")
        place = made
        for name in parents:
            place = place[name]
        if value is None:
            place.pop(last, None)
        else:
            place[last] = value
    return made


def mode(item, name):
    return next(found for found in item["modes"] if found["mode"] == name)


def test_a_wall_by_hand(send):
    """3/8 sleeve, 1-3/4 in, grouted block of 1,500 psi (invented): 310 lb in tension, 365 in shear, both mean / 5.

    Edge at 6 in: .7 at 4 in, 1 at 12 in, so .775: 240.25 and 282.875 lb. D + L: 150 lb and 60 lb; the sum is .83646.
    """
    (item,) = send(point(changed(WALL, edges__x_minus=6)))
    assert mode(item, "table_tension")["design_strength"] == pytest.approx(240.25, rel=1e-12)
    assert mode(item, "table_shear")["design_strength"] == pytest.approx(282.875, rel=1e-12)
    assert item["governing"]["utilisation"] == pytest.approx(150 / 240.25 + 60 / 282.875, rel=1e-12)
    assert item["governing"]["load_case"] == "D+L"
    assert item["status"] == "passed"
    assert "service-combinations-for-tables" in item["assumptions"]


def test_only_the_modes_of_the_method_are_told(send):
    wall, slab = send(point(), point(SLAB, id="s", anchor={"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}))
    assert [each["mode"] for each in wall["modes"]][2:] == ["table_tension", "table_shear", "table_interaction"]
    assert not any(each["mode"].startswith(("table", "masonry")) for each in slab["modes"])


def test_whether_a_demand_is_factored_is_said(send):
    """By a table 100 lb dead and 50 lb live are 150 lb; by chapter 17 1.2 x 100 + 1.6 x 50 = 200 lb."""
    wall, bolted, by_code = send(point(), point(anchor=BOLT, id="b"), point(SLAB, anchor=WEDGE, id="s"))
    assert (wall["demand"]["level"], wall["demand"]["factored_tension"]) == ("allowable", 150)
    for each in (bolted, by_code):
        assert (each["demand"]["level"], each["demand"]["factored_tension"]) == ("strength", pytest.approx(200))
    (by_stress,) = send(point(anchor=BOLT), combinations="allowable")
    assert (by_stress["demand"]["level"], by_stress["demand"]["factored_tension"]) == ("allowable", 150)


def test_an_anchor_by_a_table_is_checked_with_its_base(send):
    wall, refused = send(point(), point(changed(WALL, masonry__location="joint"), id="r"))
    checked = {each["link"]: (each["checked"], "utilisation" in each) for each in wall["links"]}
    assert checked == {"load": (True, False), "rod": (False, False), "anchor": (True, False), "base": (True, True)}
    assert not any(each["checked"] for each in refused["links"] if each["link"] in ("anchor", "base"))


def test_the_level_of_strength_design(send):
    """100 lb dead, 50 lb live: (1.2 x 100 + 1.6 x 50) / 150 = 4/3, of 310 lb 413.33 lb."""
    (item,) = send(point(), detail="trace")
    section = next(each for each in item["trace"] if each["record"] == "StrengthEquivalent")
    value = {line["name"]: line["value"] for line in section["lines"]}
    assert value["load_factor"] == pytest.approx(4 / 3, rel=1e-12)
    assert value["equivalent"] == pytest.approx(310 * 4 / 3, rel=1e-12)


WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}
BOLT = {"family": "headed-bolt", "size": "3/4", "h_ef": 6}
PULL = {"kind": "forces", "components": [{"nature": "dead", "tension": 9}]}
BY_TABLE = {"combinations": "allowable"}

REFUSED = [
    ({"base": changed(WALL, masonry__location="joint")}, {}, "mortar-joint-not-tested"),
    ({"base": changed(WALL, masonry__units="hollow"), "anchor": SLEEVE}, {}, "no-table-for-base"),
    ({"anchor": WEDGE}, {}, "base-not-allowed"),
    ({"anchor": {"family": "hammer-set-pin-zinc", "size": "1/4", "h_ef": 1.25}}, {}, "no-table-in-direction"),
    ({"anchor": BOLT, "base": changed(WALL, masonry__units="hollow")}, {}, "bolt-needs-grouted-masonry"),
    ({"hangs": PULL}, {"combinations": "given_factored"}, "allowable-with-factored-loads"),
    ({"base": SLAB}, {}, "table-only-family"),
    ({"base": changed(SLAB, state=None, state_decided_by=None)}, BY_TABLE, "table-for-uncracked-only"),
    ({"base": changed(SLAB, density="sand_lightweight")}, BY_TABLE, "not-for-lightweight"),
    ({"base": SLAB, "anchor": WEDGE}, BY_TABLE, "allowable-under-chapter-17"),
    ({"base": SLAB, "seismic": {"category": "C"}}, BY_TABLE, "not-qualified-seismic"),
    ({"seismic": {"category": "D", "s_ds": 0.5}}, {}, "earthquake-not-in-table"),
    ({"base": changed(PLANK, hollow_core__location="web"), "anchor": SLEEVE}, {}, "base-not-allowed"),
    ({"base": {"kind": "unknown", "edges": NONE}}, {}, "base-unknown"),
    ({"attachment": {"plate": {"width_x": 6, "width_y": 6}}}, {}, "plate-on-table-base"),
]  # fmt: skip


@pytest.mark.parametrize(("parts", "request_", "code"), REFUSED, ids=[each[2] for each in REFUSED])
def test_refused(send, parts, request_, code):
    (item,) = send(point(**parts), **request_)
    assert item["status"] == "refused", item
    assert item["reason"]["code"] == code
    assert [each["mode"] for each in item["modes"]] == ["rod_allowable", "rod_strength"]


INVALID = [
    (changed(WALL, masonry__units=None), "base/masonry/units"),
    (changed(WALL, masonry__material=None), "base/masonry/material"),
    (changed(WALL, masonry__joint_distance=None), "base/masonry/joint_distance"),
    (changed(WALL, thickness=None), "base/thickness"),
    (changed(WALL, edges__x_plus=None), "base/edges/x_plus"),
    (changed(WALL, density="normalweight"), "base/density"),
    (changed(WALL, strength={"f_c": 3000}), "base/strength"),
    (changed(WALL, hollow_core={"location": "core"}), "base/hollow_core"),
    (changed(WALL, masonry__f_m="1500 lb"), "base/masonry/f_m"),
    (changed(WALL, masonry__f_m=10), "base/masonry/f_m"),
    (changed(WALL, masonry__f_m=31_000), "base/masonry/f_m"),
    (changed(SLAB, masonry={"units": "solid"}), "base/masonry"),
    (changed(SLAB, density=None), "base/density"),
    (changed(PLANK, hollow_core__location=None), "base/hollow_core/location"),
]


@pytest.mark.parametrize(("base", "place"), INVALID, ids=[each[1] for each in INVALID])
def test_invalid(send, base, place):
    bad, good = send(point(base), point(id="q"))
    assert bad["status"] == "invalid"
    assert place in {error["pointer"].removeprefix("#/items/0/") for error in bad["problem"]["errors"]}
    assert good["status"] == "passed"


def test_a_plank_states_what_its_table_limits(send):
    anchor = {"family": "drop-in-short-zinc", "size": "3/8", "h_ef": 0.75}
    weight = {"kind": "weight", "weight": 200, "nature": "dead"}
    for name in ("cover", "strand_distance"):
        (item,) = send(point(changed(PLANK, **{f"hollow_core__{name}": None}), anchor=anchor, hangs=weight))
        assert item["problem"]["errors"][0]["pointer"].endswith(f"hollow_core/{name}")
    (item,) = send(point(PLANK, anchor=anchor, hangs=weight))
    assert item["governing"]["utilisation"] == pytest.approx(200 / 330, rel=1e-12)
    (near,) = send(point(changed(PLANK, hollow_core__strand_distance=1.9), anchor=anchor, hangs=weight))
    assert [found["code"] for found in near["findings"]] == ["strand-below-table"]


def test_defaults_of_concrete_stand_in_no_ones_way(send):
    """An item of another kind takes from the defaults what fits, and is not held to the rest."""
    (item,) = send(
        {"id": "w", "base": WALL}, defaults={key: value for key, value in point(SLAB).items() if key != "id"}
    )
    assert item["status"] == "passed"


def test_sprinkler_line_at_a_table(send):
    """Reading 29: both checks are required, and five times W can't be held against an allowable load. The demand is
    that of the other one, W + 250 lb."""
    pipe = {
        "kind": "pipe", "material": "steel", "size": "1", "schedule": "40", "contents": "water", "sprinkler": True,
        "run": {"spans": [10, 10], "support": 1, "model": "tributary"},
    }  # fmt: skip
    anchor = {"family": "sleeve-expansion-zinc", "size": "3/4", "h_ef": 3.5}
    (item,) = send(point(hangs=pipe, anchor=anchor))
    assert (item["status"], item["reason"]["code"]) == ("refused", "sprinkler-rule-undecided")
    assert item["demand"]["factored_tension"] == pytest.approx(
        item["demand"]["dead"] + item["demand"]["contents"] + 250, rel=1e-12
    )


def test_a_stated_sprinkler_rule_at_a_table(send):
    forces = {"kind": "forces", "components": [{"nature": "sprinkler_rule", "tension": "300 lbf"}]}
    (item,) = send(point(hangs=forces, anchor={"family": "sleeve-expansion-zinc", "size": "3/4", "h_ef": 3.5}))
    assert (item["status"], item["reason"]["code"]) == ("refused", "sprinkler-rule-undecided")


@pytest.mark.parametrize(("category", "status"), [("B", "passed"), ("C", "refused"), ("F", "refused")])
def test_a_plank_is_concrete_in_an_earthquake(send, category, status):
    """17.10.3 and reading 5: an anchor set into concrete is qualified for earthquake, under gravity too, and no table
    of allowable loads is such a qualification; a plank is concrete."""
    anchor = {"family": "drop-in-short-zinc", "size": "3/8", "h_ef": 0.75}
    weight = {"kind": "weight", "weight": "50 lb", "nature": "dead"}
    (item,) = send(point(PLANK, anchor=anchor, hangs=weight, seismic={"category": category}))
    assert item["status"] == status
    assert item.get("reason", {}).get("code") == (None if status == "passed" else "not-qualified-seismic")


def test_neighbours_by_the_least_spacing(client, send):
    at = [{"level": "1", "x": x, "y": 0} for x in (0, 5.9 / 12)]
    anchor = {"family": "drop-in-short-zinc", "size": "3/8", "h_ef": 0.75}
    weight = {"kind": "weight", "weight": 100, "nature": "dead"}
    near = send(*(point(PLANK, id=str(n), at=place, anchor=anchor, hangs=weight) for n, place in enumerate(at)))
    for item in near:
        assert {found["code"] for found in item["findings"]} >= {"neighbour-below-minimum-spacing"}
        assert item["status"] == "failed"
        other = "1" if item["id"] == "0" else "0"
        assert (item["neighbours"]["by_spacing"], item["neighbours"]["together"]) == ([other], [])
        assert item["neighbours"]["alone"]["utilisation"] > 0


@pytest.mark.parametrize(("apart", "overlaps"), [(4, True), (11.9, True), (12, False), (17, False)])
def test_bolts_of_two_points_that_overlap_are_told(send, apart, overlaps):
    """Bolts of 6 in: their projected circles overlap where they are nearer than 12 in; one layout takes that off."""
    soffit = changed(WALL, edges__x_minus="none") | {"face": "soffit"}
    at = [{"level": "1", "x": x, "y": 0} for x in (0, apart / 12)]
    near = send(*(point(soffit, id=str(n), at=place, anchor=BOLT) for n, place in enumerate(at)))
    for item in near:
        found = {each["code"]: each for each in item["findings"]}
        assert ("neighbouring-bolts-overlap" in found) is overlaps
        if overlaps:
            told = found["neighbouring-bolts-overlap"]
            assert (told["value"], told["limit"]) == (pytest.approx(apart), pytest.approx(12))
            assert item["status"] == "failed"


@pytest.mark.parametrize(
    ("apart", "pounds", "told"),
    [
        ((9, 0), 1000, {"0": (9, 10), "1": (9, 10)}),
        ((10, 0), 1000, {}),
        ((9, 0), 400, {}),
        ((9, 0), -1000, {}),
        ((0, -9), 1000, {"0": (0, 19)}),
    ],
)
def test_half_circles_of_two_points_that_overlap_are_told_where_they_might_count(send, apart, pounds, told):
    """By hand: 1/2 in bolts of 4 in, so that circles meet below 8 in; 5 in from an edge half circles meet below 10 in.

    B_vb = 1.25 x 12.5 pi x sqrt(1,500) = 1,901.1 lb, at least half of it each: 1,000 lb are more, 400 lb are not, and
    with -1,000 lb nothing is sheared towards the edge. 9 in further from it B_vb is 14,905 lb, far from counting.
    """
    places = [(0.0, 0.0), apart]
    points = [
        point(
            changed(WALL, edges__y_plus=5 - y, thickness=30) | {"face": "soffit"},
            id=str(number),
            at={"level": "1", "x": x / 12, "y": y / 12},
            anchor={"family": "headed-bolt", "size": "1/2", "h_ef": 4},
            hangs={"kind": "forces", "components": [{"nature": "dead", "tension": 9, "shear_y": pounds}]},
        )
        for number, (x, y) in enumerate(places)
    ]
    found = {}
    for item in send(*points, combinations="allowable"):
        for each in item["findings"]:
            if each["code"] == "neighbouring-bolts-overlap":
                found[item["id"]] = (pytest.approx(each["value"], abs=1e-9), pytest.approx(each["limit"]))
        assert item["status"] == ("failed" if item["id"] in told else "passed")
    assert found == told


GRID = [{"x": x, "y": y} for x in (-3, 3) for y in (-3, 3)]
WIDE = {"least": 2, "full": 12, "factor": 0.4}


def tabled(*, edge=WIDE, spacing=WIDE, principle="torque_controlled_expansion", **traits):
    """An invented product with 5,000 lb in grouted block, mean of its tests, in tension and in shear."""
    row = {"size": "1/2", "h_ef": 3, "mean_ultimate": 5000, "allowable": 1000, "edge": edge, "spacing": spacing}
    table = {"base": "masonry", "masonry": "grouted", "material": "concrete", "locations": ["face"], "f_c": 1500}
    table |= {"state": "uncracked", "safety_factor": 5, "rows": [row]}
    return {
        "product": {
            "units": "us",
            "principle": principle,
            "basis": "allowable_table",
            "source": {"document": "invented for a test", "date": "2026-01-01", "standard": "none"},
            "traits": {"bases": ["masonry"], "sustained_tension": True, "tension_overhead": True} | traits,
            "size": {"size": "1/2", "d_a": 0.5, "a_se": 0.142, "f_uta": 75_000, "f_ya": 60_000, "ductile": True},
            "embedment": {"h_ef": 3, "h_min": 4, "c_min": 2, "s_min": 2},
            "tables": [{"title": way, "direction": way} | table for way in ("tension", "shear")],
        }
    }


def pulled(pounds, **component):
    return {"kind": "forces", "components": [{"nature": "dead", "tension": pounds} | component]}


@pytest.mark.parametrize(
    ("layout", "edges", "allowable"),
    [
        ([{"x": 0, "y": 0}, {"x": 6, "y": 0}], {}, 640),
        ([{"x": x, "y": 0} for x in (-6, 0, 6)], {}, 640 * 0.64),
        (GRID, {}, 640 * 0.64),
        ([{"x": 0, "y": 0}], {"x_minus": 6}, 640),
        ([{"x": 0, "y": 0}], {"x_minus": 6, "x_plus": 6}, 640 * 0.64),
        ([{"x": 0, "y": 0}], {"x_minus": 6, "x_plus": 8, "y_plus": 2}, 640 * 0.76 * 0.4),
    ],
)
def test_every_edge_and_every_side_with_an_anchor_reduces(send, layout, edges, allowable):
    """By hand, common practice: 1 - 0.6 x (12 - 6) / 10 = 0.64 for each edge and neighbour at 6 in, 0.76 at 8 in."""
    base = changed(WALL, edges=NONE | edges)
    (item,) = send(point(base, anchor=tabled() | {"layout": layout}, hangs=pulled(10)))
    assert mode(item, "table_tension")["design_strength"] == pytest.approx(allowable)


CIRCLE = {"pattern": "circle", "count": 4, "diameter": 6 * 2**0.5}
ROW = {"pattern": "row", "count": 3, "spacing": 6}
DIAGONAL = [{"x": 0, "y": 0}, {"x": 4.5, "y": 4.5}, {"x": 7, "y": 0}]


@pytest.mark.parametrize(
    ("layout", "at", "allowable"),
    [
        *((CIRCLE | {"angle": angle}, at, 640 * 0.64) for angle in (0, 45, 90) for at in ((0, 1), (1, 0), (-1, 0))),
        *((ROW | {"angle": angle}, (0, 0), 640 * 0.64) for angle in (0, 45, 135)),
        (DIAGONAL, (2, 1), (1 - 0.06 * (12 - 4.5 * 2**0.5)) * 700),
    ],
)
def test_a_plate_turned_by_an_eighth_holds_as_much(send, layout, at, allowable):
    """By hand as above: four anchors 6 in apart in a square hold 1,000 x 0.64 x 0.64 whichever way the plate lies.

    Exactly on a diagonal an anchor was always at the side along x: two of the four had both neighbours on one side.
    """
    load = pulled(40) | {"at": {"x": at[0] / 4, "y": at[1] / 4}}
    (item,) = send(point(WALL, anchor=tabled() | {"layout": layout}, hangs=load))
    assert mode(item, "table_tension")["design_strength"] == pytest.approx(allowable, rel=1e-9)


def test_anchors_of_other_points_reduce_as_those_of_one_do(send):
    """6 in to the one side and 9 in to the other: 1,000 x 0.64 x 0.82; the outer ones have one neighbour in reach."""
    soffit = changed(WALL) | {"face": "soffit"}
    places = {"left": -9, "middle": 0, "right": 6}
    points = [
        point(soffit, id=name, at={"level": "1", "x": x / 12, "y": 0}, anchor=tabled(), hangs=pulled(10))
        for name, x in places.items()
    ]
    found = [mode(item, "table_tension")["design_strength"] for item in send(*points)]
    assert found == pytest.approx([820, 640 * 0.82, 640])


@pytest.mark.parametrize(("apart", "told"), [(8.9, True), (9.1, False)])
def test_an_anchor_by_a_table_in_the_cone_of_a_bolt_is_told_at_the_bolt(send, apart, told):
    """A bolt of 6 in and an anchor of 3 in: their circles meet below 9 in."""
    soffit = changed(WALL, thickness=20) | {"face": "soffit"}
    anchors = {"bolt": BOLT, "table": tabled()}
    points = [
        point(soffit, id=name, at={"level": "1", "x": n * apart / 12, "y": 0}, anchor=anchor, hangs=pulled(100))
        for n, (name, anchor) in enumerate(anchors.items())
    ]
    found = {i["id"] for i in send(*points) for f in i["findings"] if f["code"] == "neighbouring-bolts-overlap"}
    assert found == ({"bolt"} if told else set())


CONFIRMED = {"temperature": "short 130 F", "certified_installer": True, "continuous_inspection": True}


@pytest.mark.parametrize(
    ("face", "upward", "confirmed", "nature", "code"),
    [
        ("soffit", False, CONFIRMED, "dead", "not-qualified-upward"),
        ("soffit", True, {}, "dead", "adhesive-by-table-not-confirmed"),
        ("soffit", True, CONFIRMED | {"continuous_inspection": False}, "dead", "adhesive-by-table-not-confirmed"),
        ("side", False, {}, "dead", "adhesive-by-table-not-confirmed"),
        ("side", False, CONFIRMED, "dead", None),
        ("side", False, {}, "wind", None),
        ("top", False, {}, "dead", None),
    ],
)
def test_an_adhesive_by_a_table_states_what_one_in_concrete_does(send, face, upward, confirmed, nature, code):
    """Reading 36: tension that stays, overhead or sideways."""
    anchor = tabled(principle="adhesive", upward=upward) | ({"adhesive": confirmed} if confirmed else {})
    hangs = {"kind": "forces", "components": [{"nature": nature, "tension": 400}]}
    (item,) = send(point(changed(WALL) | {"face": face}, anchor=anchor, hangs=hangs))
    assert item.get("reason", {}).get("code") == code
    assert item["status"] == ("refused" if code else "passed")


@pytest.mark.parametrize(("location", "refused"), [("face", False), ("cell", False), ("web", True), ("joint", True)])
def test_a_bolt_is_set_in_grout(send, location, refused):
    """TMS 402 6.2.1, from memory."""
    (item,) = send(point(changed(WALL, masonry__location=location), anchor=BOLT))
    assert item.get("reason", {}).get("code") == ("bolt-not-in-grout" if refused else None)


@pytest.mark.parametrize(
    ("base", "layout", "found"),
    [
        ({"edges__x_minus": 1.9}, None, {"masonry-edge-below-minimum": (1.9, 2.0)}),
        ({"edges__x_minus": 2.0}, None, {}),
        ({"thickness": 7.625}, None, {"masonry-thickness-below-minimum": (7.625, 7.96875)}),
        ({"thickness": 7.97}, None, {}),
        ({"thickness": 7.8, "masonry__face_shell": 1}, None, {}),
        ({"thickness": 7.8, "masonry__material": "clay"}, None, {}),
        ({"thickness": 7.8, "face": "soffit"}, None, {}),
        ({"thickness": 6.7, "face": "soffit"}, None, {"masonry-thickness-below-minimum": (6.7, 6.71875)}),
        ({}, 2.9, {"masonry-spacing-below-minimum": (2.9, 3.0)}),
        ({}, 3.0, {}),
        ({"masonry__f_m": 1499}, None, {"masonry-strength-below-design": (1499, 1500)}),
        ({"masonry__f_m": "10.34 MPa"}, None, {}),
        ({"masonry__f_m": "10.33 MPa"}, None, {"masonry-strength-below-design": (1498.2, 1500)}),
    ],
)
def test_a_bolt_stands_within_its_grout(send, base, layout, found):
    """A 3/4 in bolt of 6 in: its data want 2 in to an edge and 3 in between bolts; behind it a head of 15/32 in (ASME
    B18.2.1, from memory), 1/4 in of grout and a shell. TMS 402 has 10.34 MPa beside its 1,500 psi, from memory."""
    anchor = BOLT | ({} if layout is None else {"layout": [{"x": 0, "y": 0}, {"x": layout, "y": 0}]})
    (item,) = send(point(changed(WALL, **({"thickness": 8} | base)), anchor=anchor, hangs=pulled(50)))
    told = {each["code"]: each for each in item["findings"] if each["severity"] == "violation"}
    assert {code: (each["value"], each["limit"]) for code, each in told.items()} == {
        code: pytest.approx(numbers, rel=1e-4) for code, numbers in found.items()
    }


@pytest.mark.parametrize(
    ("face", "masonry", "least"),
    [
        ("side", {}, 1.5),
        ("top", {}, 1.75),
        ("soffit", {}, 1.75),
        ("top", {"face_shell": 1.5}, 2.0),
        ("top", {"material": "clay"}, 1.5),
    ],
)
def test_a_bolt_in_the_top_of_a_wall_stands_behind_its_shell(send, face, masonry, least):
    """1/2 in bolt whose data want 1-1/2 in: 1/4 in of it, 1/4 in of grout and a shell of 1-1/4 in (ASTM C90, from
    memory) are 1-3/4 in. In a side the edge is an end of the wall or its top."""
    bolt = {"family": "headed-bolt", "size": "1/2", "h_ef": 4}
    wall = changed(WALL, face=face, thickness=40, **{f"masonry__{name}": value for name, value in masonry.items()})
    near, far = send(
        *(
            point(changed(wall, edges__y_plus=least - less), id=f"{less}", anchor=bolt, hangs=pulled(50))
            for less in (0.01, 0)
        )
    )
    (found,) = [each for each in near["findings"] if each["severity"] == "violation"]
    assert (found["code"], found["limit"]) == ("masonry-edge-below-minimum", pytest.approx(least))
    assert [each for each in far["findings"] if each["severity"] == "violation"] == []


@pytest.mark.parametrize(
    ("material", "f_m", "combinations", "counted"),
    [
        ("concrete", 4000, "strength", 4000),
        ("concrete", 9000, "strength", 4000),
        ("clay", 9000, "strength", 6000),
        ("concrete", 9000, "allowable", 9000),
    ],
)
def test_strength_design_has_a_limit_of_f_m(send, material, f_m, combinations, counted):
    """TMS 402 9.1.9.1, from memory. Breakout 0.5 x 4, or 1.25, times 36 pi times the root of what counts."""
    wall = changed(WALL, masonry__f_m=f_m, masonry__material=material)
    (item,) = send(point(wall, anchor=BOLT, hangs=pulled(50)), combinations=combinations)
    expected = (2.0 if combinations == "strength" else 1.25) * 36 * math.pi * math.sqrt(counted)
    assert mode(item, "masonry_breakout_tension")["design_strength"] == pytest.approx(expected)
    assert ("masonry-strength-limited" in {f["code"] for f in item["findings"]}) is (counted < f_m)


HOLLOW = {"masonry__units": "hollow"}


@pytest.mark.parametrize(
    ("base", "changes", "field"),
    [
        (WALL, HOLLOW | {"masonry__face_shell": "none"}, "masonry/face_shell"),
        (WALL, HOLLOW | {"masonry__face_shell": 3.82}, "masonry/face_shell"),
        (WALL, HOLLOW | {"masonry__face_shell": 3.8}, None),
        (PLANK, {"hollow_core__cover": "none"}, "hollow_core/cover"),
        (PLANK, {"hollow_core__cover": "none", "hollow_core__location": "unknown"}, "hollow_core/cover"),
        (PLANK, {"hollow_core__cover": 8}, "hollow_core/cover"),
        (PLANK, {"hollow_core__cover": "none", "hollow_core__location": "web"}, None),
    ],
)
def test_what_is_hollow_has_a_shell(send, base, changes, field):
    """The word none in its place was a shell of any thickness."""
    anchor = SLEEVE | {"h_ef": 1.25} if base is WALL else {"family": "drop-in-short-zinc", "size": "3/8", "h_ef": 0.75}
    (item,) = send(point(changed(base, **changes), anchor=anchor, hangs=pulled(20)))
    if field is None:
        assert item["status"] == "passed"
    else:
        assert item["problem"]["errors"][0]["pointer"] == f"#/items/0/base/{field}"


def test_the_same_in_every_form(client):
    """Lines, columns and JSON: the same utilisation; the single check too."""
    item = point()
    body = {"units": "us", "items": [item]}
    expected = client.post("/v1/hang-points", json=body).json()["items"][0]["governing"]["utilisation"]
    single = client.post("/v1/hang-point", json={"units": "us", "item": item}).json()
    assert single["items"][0]["governing"]["utilisation"] == expected
    lines = client.post(
        "/v1/hang-points?units=us", content=json.dumps(item) + "\n", headers={"content-type": "application/x-ndjson"}
    )
    found = [json.loads(line) for line in lines.text.splitlines()]
    assert [each["governing"]["utilisation"] for each in found if "governing" in each] == [expected]
    columns = {
        "id": "p", "hangs.kind": "forces", "hangs.components.0.nature": "dead", "hangs.components.0.tension": "150",
        "anchor.family": SLEEVE["family"], "anchor.size": "3/8", "anchor.h_ef": "1.75", "seismic.category": "B",
        "base.kind": "masonry", "base.masonry.units": "grouted", "base.masonry.material": "concrete",
        "base.masonry.joint_distance": "2 in", "base.thickness": "7.625", "base.face": "side",
        **{f"base.edges.{name}": "none" for name in NONE},
    }  # fmt: skip
    text = ",".join(columns) + "\n" + ",".join(columns.values()) + "\n"
    table = client.post(
        "/v1/hang-points?units=us", content=text, headers={"content-type": "text/csv", "accept": "application/json"}
    ).json()
    assert table["items"][0]["governing"]["utilisation"] == pytest.approx(150 / 310, rel=1e-12)


def random_points(count, seed):
    """Points in masonry of random sleeves and screws, in units and places that have a table."""
    rng = random.Random(seed)
    made = []
    for number in range(count):
        name = rng.choice(["sleeve-expansion-zinc", "sleeve-expansion-stainless", "small-screw-hex-zinc"])
        table = rng.choice([each for each in FAMILIES[name].tables if each.base == "masonry"])
        row = rng.choice(table.rows)
        edges = {side: rng.choice(["none", round(rng.uniform(3, 15), 2)]) for side in NONE}
        components = [
            {"nature": nature, "tension": rng.choice([0, rng.uniform(1, 80)]), "shear_x": rng.uniform(-60, 60)}
            for nature in rng.sample(["dead", "live", "snow"], rng.randint(1, 3))
        ]
        masonry = {
            "units": table.masonry,
            "material": table.material,
            "f_m": round(rng.uniform(1200, 3000)),
            "location": "face",
            "joint_distance": 2,
            "face_shell": 1.25,
        }
        made.append(
            point(
                {"kind": "masonry", "masonry": masonry, "thickness": 8, "face": "side", "edges": edges},
                id=str(number),
                anchor={"family": name, "size": row.size, "h_ef": row.h_ef},
                hangs={"kind": "forces", "components": components},
            )
        )
    return made


def by_loops(item):
    """Utilisation of a random point, another way: a table of six combinations, plain arithmetic.

    ASCE 7-16 2.4.1: D, D+L, D+S, D+.75L+.75S; the wind and earthquake lines need their loads.
    """
    masonry, edges = item["base"]["masonry"], item["base"]["edges"]
    family = FAMILIES[item["anchor"]["family"]]
    sums = {nature: [0.0, 0.0] for nature in ("dead", "live", "snow")}
    for component in item["hangs"]["components"]:
        sums[component["nature"]][0] += component["tension"]
        sums[component["nature"]][1] += component["shear_x"]
    allowable = {}
    for table in family.tables:
        if (table.base, table.masonry, table.material) != ("masonry", masonry["units"], masonry["material"]):
            continue
        for row in table.rows:
            if (row.size, row.h_ef) != (item["anchor"]["size"], item["anchor"]["h_ef"]):
                continue
            value = row.mean_ultimate / table.safety_factor
            full, least = row.edge.full or row.edge.least, row.edge.least
            for side in NONE:
                near = math.inf if edges[side] == "none" else edges[side]
                if near < full:
                    share = (max(near, least) - least) / (full - least)
                    value *= row.edge.factor + share * (1 - row.edge.factor)
            allowable[table.direction] = value
    worst = 0.0
    for live, snow in ((0, 0), (1, 0), (0, 1), (0.75, 0.75), (0, 0.75), (0.75, 0)):
        n, v = (sums["dead"][i] + live * sums["live"][i] + snow * sums["snow"][i] for i in (0, 1))
        worst = max(worst, max(n, 0) / allowable["tension"] + abs(v) / allowable["shear"])
    return worst


def test_random_points_against_loops(send):
    points = random_points(200, 5)
    for item, answer in zip(points, send(*points), strict=True):
        expected = by_loops(item)
        assert answer.get("governing", {"utilisation": 0.0})["utilisation"] == pytest.approx(expected, rel=1e-9), item


def test_a_batch_is_its_points(send):
    points = [*random_points(20, 6), point(SLAB, id="slab"), point(PLANK, id="plank")]
    for item, answer in zip(points, send(*points), strict=True):
        (alone,) = send(item)
        assert alone | {"index": 0} == answer | {"index": 0}


def test_a_nearer_edge_is_never_stronger(send):
    for item, side in itertools.product(random_points(10, 7), ("x_minus", "y_plus")):
        rows = []
        for number, c_a in enumerate((14, 12, 9, 6, 4, 3)):
            near = copy.deepcopy(item) | {"id": str(number)}
            near["base"]["edges"][side] = c_a
            rows.append(near)
        used = [answer["governing"]["utilisation"] for answer in send(*rows) if "governing" in answer]
        assert used == sorted(used)


def cells(base=WALL, **stated):
    return changed(base, **{f"masonry__open_{side}": value for side, value in stated.items()})


def test_an_open_cell_counts_as_an_edge_at_a_bolt(send):
    """4 in deep, the cells on both sides open 3 in away (TMS 402 6.2, from memory), by hand, allowable stress:

    the circle loses two segments of 16 acos(.75) - 3 sqrt(7) = 3.626 in2, 50.265 - 7.253 = 43.013 in2, and holds
    1.25 x 43.013 x sqrt(1,500) = 2,082.3 lb; sheared towards one, pi 3^2 / 2 = 14.137 in2 hold 684.4 lb.
    """
    deep = {"family": "headed-bolt", "size": "1/2", "h_ef": 4}
    force = {"kind": "forces", "components": [{"nature": "dead", "tension": 100, "shear_x": 50}]}
    wall, whole = cells(x_minus=3, x_plus=3, y_minus="none", y_plus="none"), changed(WALL, edges__x_minus=3)
    one, other = send(
        point(wall, anchor=deep, hangs=force),
        point(changed(whole, edges__x_plus=3), anchor=deep, hangs=force, id="e"),
        combinations="allowable",
    )
    assert mode(one, "masonry_breakout_tension")["design_strength"] == pytest.approx(2082.3, abs=0.2)
    assert mode(one, "masonry_breakout_shear")["design_strength"] == pytest.approx(684.4, abs=0.1)
    assert one["modes"] == other["modes"]
    assert "cells-grouted-assumed" not in one["assumptions"]
    assert "cells-grouted-assumed" in other["assumptions"]


def test_an_open_cell_counts_as_an_edge_in_a_table(send):
    """At 6 in as an edge in `test_a_wall_by_hand`, 240.25 lb; at 3 in it is nearer than the 4 in of the tests."""
    far, near, stated = send(
        point(cells(x_minus=6)),
        point(cells(x_minus=3, x_plus="none", y_minus="none", y_plus="none"), id="n"),
        point(cells(changed(WALL, edges__x_minus=3.5), x_minus=6), id="e"),
    )
    assert mode(far, "table_tension")["design_strength"] == pytest.approx(240.25, rel=1e-12)
    assert "cells-grouted-assumed" in far["assumptions"]
    for each, value in ((near, 3), (stated, 3.5)):
        (found,) = [own for own in each["findings"] if own["severity"] == "violation"]
        assert (found["code"], found["value"], found["limit"]) == ("edge-below-table", value, 4)


def test_open_cells_are_those_beside_grouted_ones(send):
    """Of hollow units every cell is open, as in their tests."""
    hollow = changed(WALL, masonry__units="hollow", masonry__face_shell=1.25)
    sleeve = {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": 1.25}
    whole, beside = send(point(hollow, anchor=sleeve), point(cells(hollow, x_minus=3), anchor=sleeve, id="o"))
    assert whole["modes"] == beside["modes"]
    assert "cells-grouted-assumed" not in {*whole["assumptions"], *beside["assumptions"]}


@pytest.mark.parametrize(
    ("combinations", "base", "anchor", "shear"), [("allowable", WALL, SLEEVE, 190), ("strength", SLAB, WEDGE, 210)]
)
def test_a_dead_load_holds_no_thrust_back_with_all_of_it(send, combinations, base, anchor, shear):
    """A thrust of 250 lb against 100 lb of dead load: 0.6D+T 250 - 60, by strength 0.9D+1.2T 300 - 90. By hand.

    ASCE 7 2.4.4 and 2.3.4 ask for self-straining loads beside others, 0.6 and 0.9 are those of what relieves: common
    practice. D+T has 150 lb.
    """
    components = [{"nature": "dead", "tension": 50, "shear_x": -100}, {"nature": "thermal", "shear_x": 250}]
    (item,) = send(
        point(base, anchor=anchor, hangs={"kind": "forces", "components": components}), combinations=combinations
    )
    name = "table_shear" if combinations == "allowable" else "steel_shear"
    assert mode(item, name)["demand"] == pytest.approx(shear)


@pytest.mark.parametrize("x", [5, 16])
def test_anchors_of_two_cells_are_two_points(send, x):
    wall = cells(x_plus=5)
    (item,) = send(point(wall, anchor=SLEEVE | {"layout": [{"x": 0, "y": 0}, {"x": x, "y": 0}]}))
    (error,) = item["problem"]["errors"]
    assert error["pointer"] == "#/items/0/base/masonry/open_x_plus"
    assert item["problem"]["type"] == "/problems/impossible-geometry"


def test_layouts_and_near_points_keep_their_open_cells(send):
    """Anchors at -1 and 1 in, cells 6 in from the middle: 5 in to the nearer. On top of a wall a point in the next
    grouted cell, 16 in off, has its own, and no edge of the member is disputed. In concrete there are no cells."""
    top = {"face": "top", "member": "W"}
    pair = SLEEVE | {"layout": [{"x": -1, "y": 0}, {"x": 1, "y": 0}]}
    wall = cells(WALL | top, x_minus=6, x_plus=6, y_minus="none", y_plus="none")
    found = send(
        point(wall, anchor=pair, at={"level": "1", "x": 0, "y": 0}),
        point(wall, at={"level": "1", "x": 16 / 12, "y": 0}, id="q"),
        point(SLAB, anchor=WEDGE, id="s"),
    )
    first, second, slab = found
    assert "edge-below-table" not in {own["code"] for own in first["findings"]}
    by_sides = 310 * 0.775**2  # 6 in on both sides, .7 at 4 in and 1 at 12 in
    assert mode(second, "table_tension")["design_strength"] == pytest.approx(by_sides, rel=1e-9)
    beside = (0.7 + 0.3 / 8) * (0.7 + 0.3 * 3 / 8)  # 5 and 7 in
    assert mode(first, "table_tension")["design_strength"] == pytest.approx(310 * beside, rel=1e-9)
    assert "edges-disagree" not in {own["code"] for each in found for own in each["findings"]}
    assert slab["findings"] == send(point(SLAB, anchor=WEDGE))[0]["findings"]


@pytest.mark.parametrize(("face", "told"), [("side", False), ("top", True)])
def test_a_table_says_nothing_of_the_face(send, face, told):
    """Common practice, no source: most masonry tables are of tests in the side of a wall, and a family states none."""
    wall, bolted = send(point(changed(WALL, face=face)), point(changed(WALL, face=face), anchor=BOLT, id="b"))
    assert ("table-in-any-face-assumed" in wall["assumptions"]) is told
    assert "table-in-any-face-assumed" not in bolted["assumptions"]


def test_a_plank_is_taken_to_be_of_normalweight_concrete(send):
    plank, wall = send(
        point(PLANK, anchor={"family": "drop-in-short-zinc", "size": "3/8", "h_ef": 0.75}), point(id="w")
    )
    assert "plank-normalweight-assumed" in plank["assumptions"]
    assert "plank-normalweight-assumed" not in wall["assumptions"]
