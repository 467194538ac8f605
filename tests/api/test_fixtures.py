"""Fixtures that don't hang, from request to the check of their anchors. Building, plates and loads are invented."""

import copy
import json
import math

import pytest

from api.bodies import GONE, change
from api.hanger_bodies import conforms, made, request
from hangpoint.api.resources.fixtures import FIXTURES
from hangpoint.core.vocabulary import FixtureAssumption, FixtureFinding, FixtureNotChecked

BRACKET = {"id": "bracket", "kind": "bracket", "loads": [{"nature": "dead", "weight": "400 lb", "at": {"z": "14 in"}}]}
WALL = {
    "id": "wall",
    "kind": "wall_equipment",
    "weight": "300 lb",
    "contents": "100 lb",
    "centre_of_gravity": {"x": "2 in", "y": "-3 in", "z": "8 in"},
}
FLOOR = {
    "id": "floor",
    "kind": "floor_equipment",
    "weight": "1200 lb",
    "centre_of_gravity": {"z": "30 in"},
    "anchors_at": [{"x": x, "y": y} for x, y in ((-24, -18), (24, -18), (24, 18), (-24, 18))],
}
POST = {
    "id": "post",
    "kind": "post",
    "weight": "40 lb",
    "centre_of_gravity": {"z": "21 in"},
    "guard": {"rule": "guard_200_lb", "height": "42 in"},
}
KINDS = [BRACKET, WALL, FLOOR, POST]
PUSH = {"nature": "wind", "force": "300 lbf", "at": {"z": "20 in"}}
SEISMIC = {"category": "D", "s_ds": 1.0, "i_p": 1.0, "component": "air_side", "z": "40 ft", "h": "40 ft"}
SPRINGS = {**SEISMIC, "component": "spring_isolated"}
SEISMIC_22 = change(SEISMIC, {"component": GONE, "coefficients": {"c_ar": 1.4, "r_po": 1.5, "omega_0p": 2.0}})
CONCRETE = {
    "kind": "concrete",
    "strength": {"f_c": "4000 psi"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "18 in",
    "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
}


@pytest.fixture(scope="module")
def ask(client, validator):
    """The checked answer to some items."""

    def post(*items, body=None, status=200, **top):
        response = client.post(FIXTURES.path, json=request(*items, **top) if body is None else body)
        assert response.status_code == status, response.text[:800]
        answer = response.json()
        conforms(validator("FixturesAnswer" if status == 200 else "Problem"), answer)
        return answer

    return post


@pytest.fixture(scope="module")
def one(ask):
    return lambda item, **top: ask(item, **top)["items"][0]


def by_nature(way, nature):
    return next(each for each in way["components"] if each["nature"] == nature)


def numbers(component):
    return [component[name] for name in ("tension", "shear_x", "shear_y", "moment_x", "moment_y", "torsion")]


def test_a_bracket_by_hand(one):
    """400 lb at 14 in: 400 lb of shear downwards and 5,600 lb-in that pulls at the anchors above."""
    (way,) = one(BRACKET)["loads"]
    assert "direction" not in way
    assert numbers(by_nature(way, "dead")) == [0, 0, -400, 5600, 0, 0]


def test_equipment_on_a_wall_by_hand(one):
    """200 lb dead and 100 lb of contents at x 2, z 8 in: M_x = 8 W, torsion = -2 W, whatever the height y."""
    (way,) = one(WALL)["loads"]
    assert numbers(by_nature(way, "dead")) == pytest.approx([0, 0, -200, 1600, 0, -400])
    assert numbers(by_nature(way, "contents")) == pytest.approx([0, 0, -100, 800, 0, -200])


def test_a_force_along_the_axes_by_hand(one):
    """500 lb of tension at x 3, y 4 in: M_x = y N = 2,000, M_y = -x N = -1,500 lb-in."""
    pull = {"nature": "live", "tension": "500 lbf", "at": {"x": 3, "y": 4, "z": 9}}
    (way,) = one(made(BRACKET, forces=[pull]))["loads"]
    assert numbers(by_nature(way, "live")) == [500, 0, 0, 2000, -1500, 0]


def test_a_guard_post_by_hand(one):
    """200 lb at 42 in: 8,400 lb-in in each of eight directions; along the top 50 lb/ft x 6 ft = 300 lb."""
    ways = one(POST)["loads"]
    assert [way["direction"] for way in ways] == [45.0 * step for step in range(8)]
    for way in ways:
        live = by_nature(way, "live")
        assert math.hypot(live["shear_x"], live["shear_y"]) == pytest.approx(200)
        assert math.hypot(live["moment_x"], live["moment_y"]) == pytest.approx(8400)
    assert numbers(by_nature(ways[0], "live")) == [0, 200, 0, 0, 8400, 0]
    along = {"rule": "guard_50_lb_per_ft", "height": "42 in", "spacing": "6 ft"}
    assert by_nature(one(made(POST, guard=along))["loads"][0], "live")["shear_x"] == pytest.approx(300)


def test_overturning_by_hand(one):
    """1,200 lb on 48 by 36 in, wind of 1,200 lb at 30 in along x: 36,000 lb-in against 0.9 x 1,200 x 24 = 25,920.

    Two anchors at 48 in from the edge: (36,000 - 25,920)/(2 x 48) = 105 lb each. At service level the supports behind
    pull by 375 lb of wind less 300 lb of weight.
    """
    push = PUSH | {"force": "1200 lbf", "at": {"z": 30}}
    result = one(made(FLOOR, horizontal=[push]))
    first = result["overturning"][0]
    assert (first["direction"], first["nature"]) == (0, "wind")
    assert first["overturning_moment"] == pytest.approx(36_000)
    assert first["righting_moment"] == pytest.approx(25_920)
    assert first["anchor_tension"] == pytest.approx(105)
    assert first["anchor_shear"] == pytest.approx(300)
    behind = result["loads"][0]["supports"][0]
    assert {each["nature"]: each["tension"] for each in behind["components"]} == pytest.approx(
        {"dead": -300, "wind": 375}
    )
    assert [each["code"] for each in result["findings"]].count("tips-without-anchors") == 4


def test_seismic_force_of_a_published_calculation(one):
    """A heat pump on a roof, City of Everett WA, permit 1614580, page 69, ASCE 7-10: F_p,max 285.9, F_p,min 53.6 lb.

    a_p 2.5, R_p 6, S_DS 0.876, I_p 1, W_p 204 lb. The calculation takes z/h 14/12 and has F_p 99.3; the code caps z/h
    at 1, which by hand is 0.4 x 2.5 x 0.876 x 204 x 3/6 = 89.35 lb. E_v = 0.2 x 0.876 x 204 = 35.74 lb, as printed.
    """
    seismic = change(
        SEISMIC,
        {"component": GONE, "s_ds": 0.876, "coefficients": {"a_p": 2.5, "r_p": 6, "omega_0": 2}, "z": 14, "h": 12},
    )
    result = one(made(FLOOR, weight="204 lb", seismic=seismic))
    assert result["seismic"]["f_p"] == pytest.approx(89.35, abs=0.005)
    assert result["seismic"]["vertical"] == pytest.approx(35.74, abs=0.005)
    quake = by_nature(result["loads"][0], "earthquake")
    assert quake["shear_x"] == pytest.approx(2 * 89.352, rel=1e-6)
    assert quake["moment_y"] == pytest.approx(2 * 89.352 * 30, rel=1e-6)


def test_both_editions_and_both_faces_shake(ask):
    items = [made(each, seismic=SEISMIC_22) for each in KINDS]
    for result in ask(*items, load_standard="asce7_22")["items"]:
        assert {by_nature(way, "earthquake")["nature"] for way in result["loads"]} == {"earthquake"}
        pulled = max(abs(by_nature(way, "earthquake")["tension"]) for way in result["loads"])
        assert (pulled > 0) is (result["face"] == "side")


def test_a_height_of_nothing_is_at_grade(one):
    """7-22, 13.3.1: at grade H_f = R_mu = 1, whatever the building: 0.4 S_DS I_p (C_AR / R_po) W_p."""
    stated = change(SEISMIC_22, {"z": 0, "building": {"r": 8, "i_e": 1, "omega_0": 2}})
    given = change(SEISMIC_22, {"z": GONE, "h": GONE, "at_grade": True})
    zero, grade = (one(made(FLOOR, seismic=each), load_standard="asce7_22") for each in (stated, given))
    assert zero["seismic"] == grade["seismic"]
    assert "building-unknown" not in zero["assumptions"]


def test_supports_are_in_equilibrium(one):
    """Reactions of supports are the load: sums of forces and of moments about the origin."""
    off = {"x": "3 in", "y": "-5 in", "z": "30 in"}
    result = one(made(FLOOR, centre_of_gravity=off, horizontal=[PUSH], seismic=SEISMIC))
    for way in result["loads"]:
        for load in way["components"]:
            own = [(each, by_nature(each, load["nature"])) for each in way["supports"]]
            assert sum(t["tension"] for _, t in own) == pytest.approx(load["tension"], abs=1e-6)
            assert sum(t["shear_x"] for _, t in own) == pytest.approx(load["shear_x"], abs=1e-6)
            assert sum(t["tension"] * s["y"] for s, t in own) == pytest.approx(load["moment_x"], abs=1e-6)
            assert sum(-t["tension"] * s["x"] for s, t in own) == pytest.approx(load["moment_y"], abs=1e-6)
            twist = sum(t["shear_y"] * s["x"] - t["shear_x"] * s["y"] for s, t in own)
            assert twist == pytest.approx(load["torsion"], abs=1e-6)


@pytest.mark.parametrize("item", KINDS, ids=lambda item: item["kind"])
def test_the_mirror_image(one, item):
    """x of every place mirrored: shear along x, moment about y and torsion turn their signs, in mirrored directions."""
    mirrored = copy.deepcopy(item)
    for place in (
        mirrored.get("centre_of_gravity", {}),
        *mirrored.get("anchors_at", ()),
        *(load["at"] for load in mirrored.get("loads", ())),
    ):
        if "x" in place:
            text = place["x"]
            place["x"] = -text if not isinstance(text, str) else f"-{text}"
    here, there = (one(made(each, horizontal=[PUSH], directions=4)) for each in (item, mirrored))
    other = {way["direction"]: way for way in there["loads"]}
    for way in here["loads"]:
        image = other[(180.0 - way["direction"]) % 360.0]
        for load in way["components"]:
            turned = [s * v for s, v in zip((1, -1, 1, 1, -1, -1), numbers(load), strict=True)]
            assert numbers(by_nature(image, load["nature"])) == pytest.approx(turned, abs=1e-9)


def test_si_and_us_agree(one):
    """1,200 lb by NIST's factors: the same moments in kN m."""
    us = one(FLOOR | {"horizontal": [PUSH]})
    si = one(
        FLOOR
        | {
            "horizontal": [PUSH],
            "anchors_at": [{"x": f"{p['x']} in", "y": f"{p['y']} in"} for p in FLOOR["anchors_at"]],
        },
        units="si",
    )
    factor = 0.45359237 * 9.80665 * 0.0254 / 1000
    for here, there in zip(us["loads"], si["loads"], strict=True):
        assert by_nature(there, "wind")["moment_y"] == pytest.approx(by_nature(here, "wind")["moment_y"] * factor)


@pytest.mark.parametrize("item", KINDS, ids=lambda item: item["kind"])
def test_the_bodies_go_on_to_the_checks(one, client, item):
    """What comes back is checked with an invented plate: nothing is refused, and the loads arrive unchanged."""
    result = one(made(item, seismic=SEISMIC))
    layout = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": "8 in", "spacing_y": "8 in"}
    plate = {"plate": {"width_x": "60 in", "width_y": "60 in", "support": "concrete"}, "thickness": "1 in"}
    base = {**CONCRETE, "face": result["face"]}
    anchor = {"family": "headed-bolt", "size": "5/8", "h_ef": "6 in"}
    for body, point, way in zip(result["anchor_groups"], result["hang_points"], result["loads"], strict=True):
        group = body["group"]
        group |= {"anchor": {"layout": layout, **anchor, **group.get("anchor", {})}, "base": base, "attachment": plate}
        response = client.post("/v1/anchor-group", json=body)
        assert response.status_code == 200, response.text[:500]
        (checked,) = response.json()["items"]
        assert checked["status"] in ("passed", "failed")
        assert group["loads"]["components"] == way["components"]
        defaults = {"anchor": {"layout": layout, **anchor}, "base": base, "attachment": plate}
        if "anchor" in point:
            del defaults["anchor"]["layout"]
        again = client.post("/v1/hang-points", json={"units": "us", "defaults": defaults, "items": [point]}).json()
        assert again["items"][0]["status"] == checked["status"]
        assert again["items"][0]["demand"] == checked["demand"]


FLAWS = [
    (made(BRACKET, kind="shelf"), "/kind", "unknown-option"),
    (made(BRACKET, loads=[]), "/loads", "too_short"),
    (made(BRACKET, loads__0__weight=0), "/loads/0/weight", "quantity"),
    (made(BRACKET, loads__0__weight="3 in"), "/loads/0/weight", "quantity"),
    (made(BRACKET, loads__0__at={}), "/loads/0/at/z", "missing"),
    (made(BRACKET, loads__0__at__z=-1), "/loads/0/at/z", "impossible-geometry"),
    (made(BRACKET, loads__0__nature="dead load"), "/loads/0/nature", "unknown-option"),
    (made(BRACKET, forces=[{"nature": "live", "at": {"z": 0}}]), "/forces/0/tension", "missing"),
    (made(BRACKET, horizontal=[PUSH | {"force": -1}]), "/horizontal/0/force", "quantity"),
    (made(BRACKET, horizontal=[PUSH | {"nature": "dead"}]), "/horizontal/0/nature", "unknown-option"),
    (made(BRACKET, horizontal=[PUSH | {"direction": "east"}]), "/horizontal/0/direction", "float_type"),
    (made(BRACKET, loads__0__nature="live", seismic=SEISMIC), "/loads", "missing"),
    (made(BRACKET, directions=5), "/directions", "unknown-option"),
    (made(WALL, weight=0), "/weight", "quantity"),
    (made(WALL, contents="301 lb"), "/contents", "contradiction"),
    (made(WALL, centre_of_gravity__z="-2 in"), "/centre_of_gravity/z", "impossible-geometry"),
    (made(FLOOR, anchors_at=FLOOR["anchors_at"][:2]), "/anchors_at", "too_short"),
    (made(FLOOR, anchors_at=[{"x": x, "y": 0} for x in (0, 5, 9)]), "/anchors_at", "impossible-geometry"),
    (made(FLOOR, anchors_at__3=FLOOR["anchors_at"][0]), "/anchors_at/3", "impossible-geometry"),
    (made(FLOOR, footprint={"width_x": 0, "width_y": 9}), "/footprint/width_x", "quantity"),
    (made(FLOOR, isolated=True, seismic=SPRINGS), "/seismic/isolator_gap", "missing"),
    (made(FLOOR, seismic=SPRINGS), "/seismic/isolator_gap", "missing"),
    (made(FLOOR, isolated=True, seismic={**SEISMIC, "isolator_gap": "1/8 in"}), "/seismic/component", "contradiction"),
    (made(FLOOR, seismic=SEISMIC, seismic__i_p=GONE), "/seismic/i_p", "missing"),
    (
        made(FLOOR, seismic=SEISMIC, horizontal=[PUSH | {"nature": "earthquake"}]),
        "/seismic/s_ds",
        "contradiction",
    ),
    (made(POST, guard={"rule": "guard_50_lb_per_ft", "height": 42}), "/guard/spacing", "missing"),
    (made(POST, guard__spacing="5 ft"), "/guard/spacing", "contradiction"),
    (made(POST, guard__rule="guard_300_lb"), "/guard/rule", "unknown-option"),
    (made(POST, guard__height=0), "/guard/height", "quantity"),
    (made(POST, id=GONE), "/id", "missing"),
]


@pytest.mark.parametrize(("item", "place", "code"), FLAWS, ids=[f"{each[1]}-{each[2]}" for each in FLAWS])
def test_a_flaw_has_its_place(one, item, place, code):
    result = one(item)
    assert result["status"] == "invalid", result
    errors = result["problem"]["errors"]
    assert f"#/items/0{place}" in [error["pointer"] for error in errors]
    assert code in (errors[0]["code"], result["problem"]["type"].rsplit("/", 1)[-1])
    assert all(error["detail"] for error in errors)


def test_one_bad_item_costs_only_itself(ask):
    answer = ask(BRACKET, made(FLOOR, weight=0), POST)
    assert [each["status"] for each in answer["items"]] == ["passed", "invalid", "passed"]
    assert answer["summary"] == {"total": 3, "passed": 2, "failed": 0, "invalid": 1}
    alone = ask(BRACKET, POST, detail="loads")["items"]
    assert alone[0] == ask(BRACKET, made(FLOOR, weight=0), POST)["items"][0]


def test_defaults_stand_behind_every_item(ask):
    answer = ask(BRACKET, WALL, defaults={"seismic": SEISMIC, "directions": 8})
    assert [len(each["loads"]) for each in answer["items"]] == [8, 8]
    again = ask(*(made(each, seismic=SEISMIC, directions=8) for each in (BRACKET, WALL)))
    assert again["request_digest"] == answer["request_digest"]
    assert again["items"] == answer["items"]


QUAKE = PUSH | {"nature": "earthquake"}
SAID = {
    "RIGID": (BRACKET, None),
    "ANY_DIRECTION": (made(BRACKET, horizontal=[PUSH]), {"horizontal": [PUSH | {"direction": 0}]}),
    "FEET_AT_ANCHORS": (FLOOR, None),
    "TIPS_OVER_ANCHORS": (FLOOR, {"footprint": {"width_x": 50, "width_y": 40}}),
    "WITH_OMEGA_0": (made(FLOOR, seismic=SEISMIC), {"seismic": GONE}),
    "EARTHQUAKE_AS_STATED": (made(FLOOR, horizontal=[QUAKE]), {"horizontal": [PUSH]}),
    "STATED_NOT_SHAKEN": (
        made(BRACKET, forces=[{"nature": "dead", "shear_y": -90, "at": {"z": 5}}], seismic=SEISMIC),
        {"forces": [{"nature": "wind", "shear_y": -90, "at": {"z": 5}}]},
    ),
    "GUARD_LOAD": (POST, {"guard": GONE}),
    "NATURE_TOGETHER": (
        made(BRACKET, forces=[{"nature": "wind", "shear_x": v, "at": {"z": 5}} for v in (50, -40)]),
        {"forces": [{"nature": "wind", "shear_x": v, "at": {"z": 5}} for v in (50, 40)]},
    ),
    "ANCHORS": (BRACKET, None),
    "FIXTURE": (BRACKET, None),
    "STRUCTURE": (BRACKET, None),
    "FRICTION": (FLOOR, None),
    "BEARING": (FLOOR, None),
    "EARTHQUAKE": (FLOOR, {"seismic": SEISMIC}),
    "VERTICAL_EARTHQUAKE": (made(FLOOR, horizontal=[QUAKE]), {"horizontal": [PUSH]}),
    "TIPS": (made(FLOOR, horizontal=[PUSH | {"force": "2 kip"}]), {"horizontal": [PUSH | {"force": "1 lbf"}]}),
    "UNHELD": (
        made(
            FLOOR,
            footprint={"width_x": 20, "width_y": 20, "center": {"x": -100, "y": 0}},
            centre_of_gravity={"x": -100, "z": 30},
            horizontal=[PUSH | {"force": "2 kip"}],
        ),
        {"footprint": {"width_x": 300, "width_y": 300}},
    ),
}
"""An item that raises each code, and what takes it away; None where nothing can."""


def test_every_code_is_reached():
    assert set(SAID) == {each.name for each in (*FixtureAssumption, *FixtureNotChecked, *FixtureFinding)}


@pytest.mark.parametrize("name", SAID)
def test_what_is_said_and_what_silences_it(one, name):
    lists = {"assumptions": FixtureAssumption, "not_checked": FixtureNotChecked, "findings": FixtureFinding}
    key, member = next((key, names[name]) for key, names in lists.items() if name in names.__members__)

    def codes(item):
        said = one(item)
        return [each["code"] for each in said[key]] if key == "findings" else said[key]

    item, silent = SAID[name]
    assert member.value.code in codes(item)
    if silent is not None:
        assert member.value.code not in codes(change(item, silent))


def test_codes_are_served(client):
    served = client.get("/v1/quantities").json()["fixtures"]
    assert [each["code"] for each in served["findings"]] == [each.value.code for each in FixtureFinding]


def test_the_trace_has_every_step(one):
    records = {each["record"] for each in one(made(FLOOR, seismic=SEISMIC))["trace"]}
    assert records == {
        *("ComponentForce16", "FixtureForce", "BoltGroupShear", "SupportReaction", "BoltShear", "Overturning")
    }
    assert "GuardLoad" in {each["record"] for each in one(POST)["trace"]}


def test_a_stated_answer_is_finite_at_the_limits(ask):
    """Loads and arms at their largest: an answer of numbers, or an error, never a failure."""
    far = {"x": "1e4 in", "y": "-1e4 in", "z": "1e4 in"}
    answer = ask(made(BRACKET, loads=[{"nature": "dead", "weight": "1e8 lbf", "at": far}], seismic=SEISMIC))
    assert json.dumps(answer, allow_nan=False)
