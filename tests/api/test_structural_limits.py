"""Limits of the structural notes on service loads: per point, in total, per area; by hand."""

import pytest

from api.bodies import FORCES, GONE, batch, change, item

BAY = {"id": "BAY", "level": "L2", "x_from": 0, "x_to": 20, "y_from": 0, "y_to": 10}


def point(load, x, y, **changes):
    """A point with a dead load at these coordinates in ft on level 2."""
    own = {"hangs": change(FORCES, {"components.0.tension": load}), "at": {"level": "L2", "x": x, "y": y}}
    return item(**(own | changes))


@pytest.fixture
def answer(client, checked):
    def ask(points, *limits, **top):
        body = batch(*points, structural_limits=list(limits), **top)
        for own, each in zip(body["items"], points, strict=True):
            own["at"] = each["at"]
        return checked(client.post("/v1/hang-points", json=body))

    return ask


POINTS = [point(200, 1, 1), point(300, 10, 5), point(150, 20, 10), point(400, 20.1, 5), point(90, 5, 5, at__level="L3")]


@pytest.mark.parametrize(
    ("limit", "status"),
    [
        ({"most_total": 650}, "within"),
        ({"most_total": 649.9}, "exceeded"),
        ({"most_per_area": 3.25}, "within"),  # 650 lb over 20 x 10 ft
        ({"most_per_area": 3.24}, "exceeded"),
        ({"most_per_point": 300}, "within"),
        ({"most_per_point": 299}, "exceeded"),
        ({"most_per_point": 300, "most_total": 649}, "exceeded"),
        ({"most_total": "2.8914 kN"}, "within"),  # 650 lb are 2.89135 kN
        ({"most_total": "2.8913 kN"}, "exceeded"),
    ],
)
def test_a_bay(answer, limit, status):
    """Three of five points: 200 + 300 + 150 lb, one of them in the corner; none beside the bay or on level 3."""
    (found,) = answer(POINTS, BAY | limit)["structural_limits"]
    assert found["status"] == status
    assert found["points"] == ["P0", "P1", "P2"]
    assert found["total"] == pytest.approx(650)
    assert found["largest"] == {"id": "P1", "load": pytest.approx(300)}
    assert found["unplaced"] == []
    assert found.get("per_area", 3.25) == pytest.approx(3.25)


def test_a_point_above_the_limit_fails(answer):
    """The least of the limits that hold for a point; the value is the service load, not the factored one."""
    found = answer(POINTS, BAY | {"most_per_point": 250}, {"id": "ALL", "most_per_point": 350})
    assert [each["exceeding"] for each in found["structural_limits"]] == [["P1"], ["P3"]]
    for at, limit in ((1, 250), (3, 350)):
        one = found["items"][at]
        assert one["status"] == "failed"
        (finding,) = (each for each in one["findings"] if each["code"] == "structural-limit")
        assert (finding["value"], finding["limit"]) == (pytest.approx([0, 300, 0, 400][at]), pytest.approx(limit))
        assert [each["code"] for each in one["to_engineer"]] == ["structural-limit"]
    assert [found["items"][at]["status"] for at in (0, 2, 4)] == ["passed"] * 3


def test_contents_live_load_and_250_lb_of_a_sprinkler_line_count(answer):
    """100 + 50 + 25 lb; NPS 4 schedule 40 with water on one hanger as the answer itself has it, and 250 lb."""
    parts = [{"nature": name, "tension": load} for name, load in (("dead", 100), ("contents", 50), ("live", 25))]
    parts += [{"nature": "snow", "tension": 1000}]
    line = item(hangs__sprinkler=True, at={"level": "L2", "x": 40, "y": 1})
    forces = point(1, 1, 1, hangs={"kind": "forces", "components": parts})
    found = answer([forces, line], {"id": "ALL", "most_total": 1e6})
    demand = found["items"][1]["demand"]
    assert demand["sprinkler"] == pytest.approx(250)
    expected = 175 + demand["dead"] + demand["contents"] + 250
    assert found["structural_limits"][0]["total"] == pytest.approx(expected)


@pytest.mark.parametrize("nature", ["live", "contents"])
def test_what_may_be_absent_takes_nothing_off(answer, nature):
    """300 lb hang there, and 100 lb of live load or contents push: 300 lb in the point and in the sum, not 200."""
    parts = [{"nature": "dead", "tension": 300}, {"nature": nature, "tension": -100}]
    there = point(1, 1, 1, hangs={"kind": "forces", "components": parts})
    found = answer([there], BAY | {"most_per_point": 250, "most_total": 250})
    assert found["structural_limits"][0]["total"] == pytest.approx(300)
    assert found["structural_limits"][0]["exceeding"] == ["P0"]
    (finding,) = (each for each in found["items"][0]["findings"] if each["code"] == "structural-limit")
    assert finding["value"] == pytest.approx(300)


def test_refused_points_count_and_lifting_ones_do_not(answer):
    """A point of steel hangs in the bay all the same; one that is pushed up relieves nothing."""
    steel = point(200, 1, 1, base={"kind": "steel"}, anchor=GONE, seismic=GONE)
    found = answer([steel, point(-150, 2, 2)], BAY | {"most_total": 200})
    assert [each["status"] for each in found["items"]] == ["refused", "refused"]
    assert found["structural_limits"][0]["status"] == "within"
    assert found["structural_limits"][0]["total"] == pytest.approx(200)


def test_what_is_not_known_leaves_a_limit_undecided(answer):
    """A point without coordinates, an invalid one, factored loads alone; one that is exceeded is so all the same."""
    nowhere = point(10, 0, 0, at={"level": "L2"})
    (found,) = answer([*POINTS, nowhere], BAY | {"most_total": 650})["structural_limits"]
    assert (found["status"], found["unplaced"]) == ("undecided", ["P5"])
    elsewhere = point(10, 0, 0, at={"level": "L4"})
    (found,) = answer([*POINTS, elsewhere], BAY | {"most_total": 650})["structural_limits"]
    assert (found["status"], found["unplaced"]) == ("within", [])
    invalid = point(10, 0, 0, base__thickness=GONE)
    (found,) = answer([*POINTS, invalid], BAY | {"most_total": 650})["structural_limits"]
    assert found["status"] == "undecided"
    (found,) = answer([*POINTS, invalid], BAY | {"most_total": 600})["structural_limits"]
    assert found["status"] == "exceeded"
    (found,) = answer(POINTS, BAY | {"most_total": 1}, combinations="given_factored")["structural_limits"]
    assert (found["status"], found["total"]) == ("undecided", 0)


@pytest.mark.parametrize(
    ("natures", "status"),
    [
        ({"dead": 100, "contents": 50}, "within"),
        ({"dead": 100, "wind": 900}, "undecided"),
        ({"dead": 100, "wind": -900}, "within"),
        ({"dead": 100, "thermal": 1}, "undecided"),
        ({"dead": 100, "earthquake": 1}, "undecided"),
        ({"dead": 100, "earthquake": -1}, "undecided"),
        ({"dead": 100, "contents": 50, "test": 50}, "within"),
        ({"dead": 100, "contents": 50, "test": 51}, "undecided"),
        ({"dead": 100, "snow": 900}, "undecided"),
        ({"dead": 100, "roof_live": 1}, "undecided"),
        ({"dead": 201, "snow": 900}, "exceeded"),
    ],
)
def test_what_hangs_beside_service_loads_leaves_a_limit_undecided(answer, natures, status):
    """200 lb are allowed; what pulls beside dead load, contents and live load is in no sum, and named."""
    parts = [{"nature": name, "tension": load} for name, load in natures.items()]
    shaken = {"seismic": {"category": "B", "s_ds": 0.1}} if "earthquake" in natures else {}
    there = point(1, 1, 1, hangs={"kind": "forces", "components": parts}, **shaken)
    (found,) = answer([there], BAY | {"most_per_point": 200, "most_total": 200})["structural_limits"]
    assert (found["status"], found["total"]) == (status, pytest.approx(natures["dead"] + natures.get("contents", 0)))
    elsewhere = point(1, 1, 1, hangs={"kind": "forces", "components": parts}, at={"level": "L3"}, **shaken)
    (found,) = answer([elsewhere], BAY | {"most_total": 200})["structural_limits"]
    assert found["status"] == "within"


@pytest.mark.parametrize("nature", ["wind", "live", "snow"])
def test_loads_of_one_nature_against_each_other_leave_a_limit_undecided(answer, nature):
    """10 lb of dead load, and 900 lb of one nature both ways, of which the pull may be there alone."""
    parts = [{"nature": "dead", "tension": 10}, *({"nature": nature, "tension": load} for load in (900, -900))]
    there = point(1, 1, 1, hangs={"kind": "forces", "components": parts})
    (found,) = answer([there], BAY | {"most_per_point": 200, "most_total": 200})["structural_limits"]
    assert (found["status"], found["total"]) == ("undecided", pytest.approx(10))
    assert "against each other" in found["text"]


@pytest.mark.parametrize(
    ("dead", "live", "rule", "status"),
    [
        (100, 250, 750, "within"),  # 5 x 100 + 250
        (100, 249, 750, "undecided"),
        (99, 260, 750, "undecided"),
        (0, 0, 750, "undecided"),
    ],
)
def test_a_stated_sprinkler_rule_is_in_the_sums_with_its_weight_and_250_lb(answer, dead, live, rule, status):
    """The structure carries what the rule counts five times, once, and 250 lb: they have to be stated beside it."""
    parts = [("dead", dead), ("live", live), ("sprinkler_rule", rule)]
    components = [{"nature": nature, "tension": load} for nature, load in parts if load]
    there = point(1, 1, 1, hangs={"kind": "forces", "components": components})
    (found,) = answer([there], BAY | {"most_total": 1e6})["structural_limits"]
    assert found["status"] == status
    assert ("sprinkler rule" in found["text"]) == (status == "undecided")


def test_a_line_tested_with_water_is_heavier_than_its_air(answer):
    """NPS 4 schedule 40 full of air, on one hanger: in its test it weighs some 50 lb more than the sums say."""
    tested, whole = (
        item(hangs__contents="air", hangs__hydrotest=test, at={"level": "L2", "x": 1, "y": 1}) for test in (True, False)
    )
    limit = BAY | {"most_total": 1e6}
    assert [answer([each], limit)["structural_limits"][0]["status"] for each in (tested, whole)] == [
        "undecided",
        "within",
    ]


def test_a_member_is_a_limit_by_itself(answer):
    """Points that name no member are taken to be in none, and the answer says so."""
    points = [point(100, 1, 1, base__member="B1"), point(70, 90, 1, base__member="B2"), point(60, 180, 1)]
    (found,) = answer(points, {"id": "B1", "member": "B1", "most_total": 120})["structural_limits"]
    assert (found["points"], found["unplaced"], found["status"]) == (["P0"], [], "within")
    assert "name no member" in found["text"]


@pytest.mark.parametrize(("path", "limit"), [("base__member", {"member": "B 1"}), ("at__level", {"level": "b 1"})])
def test_a_name_is_one_however_it_is_spelt(answer, path, limit):
    points = [point(100, 1, 1, **{path: name}) for name in ("B 1", "b  1 ", "B\u00a01", "B1")]
    (found,) = answer(points, {"id": "L", **limit, "most_total": 1000}, neighbours="off")["structural_limits"]
    assert found["points"] == ["P0", "P1", "P2"]


def test_more_than_a_block_of_points(answer):
    """1,203 points of 10 lb in one bay, none near another."""
    points = [point(10, 0.01 * at, 0, at={"level": "L2", "x": 0.01 * at, "y": 9}) for at in range(1203)]
    found = answer(points, BAY | {"most_total": 12_030}, neighbours="off", detail="verdict")["structural_limits"][0]
    assert found["total"] == pytest.approx(12_030)
    assert (len(found["points"]), found["status"]) == (1203, "within")


def test_si(client, checked):
    """2 kN and 1 kN over 2 x 5 m: 3,000 / 9.80665 / 10 = 30.59 kg/m2."""
    body = batch(point(2, 1, 1, anchor__h_ef="3-1/4 in"), point(1, 2, 4, anchor__h_ef="3-1/4 in"))
    body |= {
        "units": "si",
        "structural_limits": [
            {"id": "A", "x_from": 0, "x_to": 2, "y_from": 0, "y_to": 5, "most_per_area": 31, "most_total": 2.9}
        ],
    }
    for each, (x, y) in zip(body["items"], ((1, 1), (2, 4)), strict=True):
        each["at"] = {"level": "L2", "x": x, "y": y}
    (found,) = checked(client.post("/v1/hang-points", json=body))["structural_limits"]
    assert found["total"] == pytest.approx(3)
    assert found["per_area"] == pytest.approx(30.59, abs=5e-3)
    assert found["status"] == "exceeded"


@pytest.mark.parametrize(
    ("limit", "place", "code"),
    [
        ({"id": "A"}, "most_per_point", "missing"),
        ({"id": "A", "most_total": 0}, "most_total", "quantity"),
        ({"id": "A", "most_per_point": "-1 lb"}, "most_per_point", "quantity"),
        ({"id": "A", "most_total": 1, "x_from": 2, "x_to": 2}, "x_to", "contradiction"),
        ({"id": "A", "most_per_area": 1, "x_from": 0, "x_to": 2, "y_from": 0}, "y_to", "missing"),
        ({"most_total": 1}, "id", "missing"),
        ({"id": "A", "most_total": "1 ft"}, "most_total", "quantity"),
        ({"id": "A", "most_total": 1, "room": "B"}, "room", "unknown-field"),
        ({"id": "A", "most_total": 1, "x_from": "9e9 ft"}, "x_from", "quantity"),
    ],
)
def test_a_limit_that_can_not_be_read(answer, limit, place, code):
    """It ends the request: nothing is answered under limits that aren't understood."""
    errors = answer(POINTS[:1], limit)["errors"]
    assert [(each["pointer"], each["code"]) for each in errors] == [(f"#/structural_limits/0/{place}", code)]


def test_two_limits_of_one_name(answer):
    found = answer(POINTS[:1], {"id": "A", "most_total": 1}, {"id": "A", "most_total": 2})
    assert [each["code"] for each in found["errors"]] == ["duplicate-id"]


def test_the_digest_knows_the_limits(answer):
    one, other, none = (
        answer(POINTS[:1], BAY | {"most_total": 1000}),
        answer(POINTS[:1], BAY | {"most_total": 1001}),
        answer(POINTS[:1], BAY | {"most_total": 1000}),
    )
    assert one["request_digest"] == none["request_digest"] != other["request_digest"]
