"""Loads of one nature against each other at a hang point: each may be absent, so the point holds without it, by hand.

ASCE 7 2.3 (5.3.1 of ACI 318-19): 1.4D, 1.2D+1.6L, 1.2D+1.0W, 0.9D+1.0W. The anchor is invented, a wedge of 3/8 in with
h_ef 2.5 in: N_p,cr 2,640 lb at 2,500 psi, which rises with the root of f'c, phi 0.65; V_sa 3,150 lb, phi 0.65 of
ductile steel; k_c 17.
"""

import math

import pytest

from api.choosing_bodies import SELECTIONS, WANT, base, named, point, reasons

WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": "2.5 in"}
PULLOUT = 0.65 * 2640 * math.sqrt(4000 / 2500)
STEEL_SHEAR = 0.65 * 3150
BREAKOUT = 0.65 * 17 * math.sqrt(4000) * 2.5**1.5
APART, UNSOUND, HOLDS = "one-nature-apart", "one-nature-apart-unsound", "one-nature-apart-holds"


def loads(nature, *tensions, dead=100, **more):
    parts = [{"nature": nature, "tension": each} for each in tensions]
    return {"kind": "forces", "components": [{"nature": "dead", "tension": dead}, *parts], **more}


def hanging(hangs, name="A", **more):
    return named(point(name, hangs=hangs, **more), WEDGE)


@pytest.fixture(scope="module")
def ask(send):
    """Results of some points."""

    def of(*items, **top):
        return send({"units": "us", "detail": "modes", **top, "items": list(items)}, status=200)["items"]

    return of


def codes(result):
    return {each["code"]: each for each in result["findings"] if each["code"].startswith("one-nature-")}


@pytest.mark.parametrize(
    ("hangs", "used"),
    [
        (loads("live", 3000, -2900), 1.2 * 100 + 1.6 * 3000),
        (loads("live", -2900, 1000, 2000), 1.2 * 100 + 1.6 * 3000),
        (loads("wind", 2500, -2490, dead=1000), 1.2 * 1000 + 2500),
        (loads("contents", 2000, -1900), 1.4 * (100 + 2000)),
        (loads("thermal", 2000, -1900), 1.2 * 100 + 1.2 * 2000),
    ],
)
def test_what_pushes_relieves_nothing_that_pulls(ask, hangs, used):
    """All of them passed: 280 lb of live load at 2,171 lb beside 3,000 lb that may act alone."""
    (result,) = ask(hanging(hangs))
    assert result["status"] == "failed"
    found = codes(result)[APART]
    assert (found["severity"], found["quantity"], found["limit"]) == ("violation", "ratio", 1.0)
    assert found["value"] == pytest.approx(used / PULLOUT, rel=1e-9)
    assert result["governing"]["utilisation"] < 1
    assert HOLDS not in codes(result)


def test_a_push_that_is_left_alone_is_seen(ask):
    """0.9 of 1,000 lb less 2,900 of wind pushes, which is refused; all together never do."""
    (result,) = ask(hanging(loads("wind", 500, 2500, -2900, dead=1000)))
    assert result["status"] == "failed"
    assert codes(result)[UNSOUND]["severity"] == "violation"
    (alone,) = ask(hanging(loads("wind", -2900, dead=1000)))
    assert alone["reason"]["code"] == "compression-not-covered"


def test_a_point_that_holds_either_way_says_how_much_it_is_used(ask):
    """1.2 x 1,000 + 300 lb is more than 1.4 x 1,000; together the wind is 100 lb."""
    (result,) = ask(hanging(loads("wind", 300, -200, dead=1000)))
    assert (result["status"], set(codes(result))) == ("passed", {HOLDS})
    assert codes(result)[HOLDS]["value"] == pytest.approx(1500 / PULLOUT, rel=1e-9)
    assert result["governing"]["utilisation"] == pytest.approx(1400 / PULLOUT, rel=1e-9)


def test_shear_against_shear(ask):
    """2,500 lb of wind along x and 2,400 against it; what is left out is left out with its tension."""
    wind = [{"nature": "wind", "shear_x": 2500, "tension": 50}, {"nature": "wind", "shear_x": -2400, "tension": 900}]
    (result,) = ask(hanging({"kind": "forces", "components": [{"nature": "dead", "tension": 100}, *wind]}))
    assert result["status"] == "failed"
    (one,) = ask(hanging({"kind": "forces", "components": [{"nature": "dead", "tension": 100}, wind[0]]}))
    (other,) = ask(hanging({"kind": "forces", "components": [{"nature": "dead", "tension": 100}, wind[1]]}))
    assert one["governing"]["utilisation"] == pytest.approx(2500 / STEEL_SHEAR, rel=1e-9)
    worst = max(each["governing"]["utilisation"] for each in (one, other))
    assert codes(result)[APART]["value"] == pytest.approx(worst, rel=1e-9)


@pytest.mark.parametrize(
    "hangs",
    [
        loads("dead", 3000, -2900),
        loads("live", 300, 200),
        loads("live", -20),
        {
            "kind": "forces",
            "components": [
                {"nature": "dead", "tension": 100},
                {"nature": "earthquake", "shear_x": 400},
                {"nature": "earthquake", "shear_x": -300},
            ],
        },
    ],
)
def test_what_is_there_together_is_not_taken_apart(ask, hangs):
    (result,) = ask(hanging(hangs) | {"seismic": {"category": "B", "s_ds": 0.2}})
    assert (result["status"], codes(result)) == ("passed", {})


def test_points_that_share_concrete(ask):
    """Two 2.25 in apart: A_Nc 1.3 of one. 1.2D+1.0W+L without the wind that lifts is 2,120 and 1,360 lb.

    Each alone holds without it, and both do with it.
    """
    pair = [
        hanging(loads("wind", 1280, -620, dead=700), "A") | {"at": {"level": "L1", "x": 0, "y": 0}},
        hanging(loads("live", 1000, dead=300), "B") | {"at": {"level": "L1", "x": 0.1875, "y": 0}},
    ]
    pair = [each | {"base": base(member="S1")} for each in pair]
    alone = ask(*pair, neighbours="off")
    assert [each["status"] for each in alone] == ["passed", "passed"]
    assert codes(alone[0])[HOLDS]["value"] == pytest.approx(2120 / PULLOUT, rel=1e-9)
    together = ask(*pair)
    assert [each["status"] for each in together] == ["failed", "failed"]
    e_n = (2120 - 1360) * 1.125 / 3480
    used = 3480 / (1.3 * BREAKOUT / (1 + 2 * e_n / 7.5))
    for each in together:
        assert codes(each)[APART]["value"] == pytest.approx(used, rel=1e-9)
        assert each["governing"]["utilisation"] < 1


def test_a_pair_that_fails_elsewhere_has_no_part_in_it(ask):
    """2,500 lb of dead load are 1.61 of the wedge wherever they hang; that loads of one nature were stated against each
    other was said of it where two other points in the request had such."""
    apart = hanging(loads("wind", 300, -200, dead=500), "A", at={"level": "L1", "x": 0, "y": 0})
    beside = hanging(loads("wind", dead=200), "B", at={"level": "L1", "x": 0.5, "y": 0})
    heavy = hanging(loads("wind", dead=2500), "C", at={"level": "L1", "x": 50, "y": 0})
    light = hanging(loads("wind", dead=200), "D", at={"level": "L1", "x": 50.5, "y": 0})
    found = ask(apart, beside, heavy, light)
    assert [each["neighbours"]["together"] for each in found] == [["B"], ["A"], ["D"], ["C"]]
    assert found[2]["neighbours"]["alone"]["utilisation"] == pytest.approx(1.4 * 2500 / PULLOUT, rel=1e-9)
    assert found[2]["status"] == "failed"
    assert [list(codes(each)) for each in found] == [[HOLDS], [], [], []]
    assert [each["findings"] for each in found[2:]] == [each["findings"] for each in ask(heavy, light)]


@pytest.mark.parametrize(("wind", "kept"), [(1300, True), (1400, False)])
def test_a_remedy_keeps_its_reserve_in_the_worst_way(asking_back, wind, kept):
    """1.2 x 500 + 1,300 lb are 0.875 of the pullout, with 1,400 lb 0.921; less the 400 lb that relieve both are below
    0.75, and of both it was said that nothing needs to change."""
    answer = asking_back.post("/v1/remedies", {"units": "us", "item": hanging(loads("wind", wind, -400, dead=500))})
    assert answer["stated"]["utilisation"] == pytest.approx((200 + wind) / PULLOUT, rel=1e-9)
    assert answer["text"].startswith("It passes and keeps the reserve") is kept
    for remedy in answer["remedies"]:
        assert 0.1 - 1e-9 <= remedy["reserve"] < 1 - remedy["outcome"]["utilisation"]


def test_a_choice_takes_the_worst_way(client):
    """The wedge of 3/8 in is rejected; what is offered has its reserve beside the live load that pulls."""
    item = point(hangs=loads("live", 2000, -500, dead=1000))
    body = {"units": "us", "want": {**WANT, "families": ["wedge-expansion-zinc"]}, "items": [item]}
    (result,) = client.post(SELECTIONS, json=body).json()["items"]
    rejected = reasons(result)["wedge-expansion-zinc/3/8/2.5"]
    assert (rejected["kind"], rejected["code"]) == ("violation", APART)
    assert rejected["value"] == pytest.approx(4400 / PULLOUT, rel=1e-6)
    pulling = {**body, "items": [point(hangs=loads("live", 2000, dead=1000))]}
    (alone,) = client.post(SELECTIONS, json=pulling).json()["items"]
    offered = {each["product"]: each["utilisation"] for each in result["ranked"]}
    assert offered == pytest.approx({each["product"]: each["utilisation"] for each in alone["ranked"]}, rel=1e-9)
    assert min(each["reserve"] for each in result["ranked"]) >= 0.1


def test_the_digest_knows_the_parts(send):
    """The same sum of other parts is another request."""

    def digest(*tensions):
        return send({"units": "us", "items": [hanging(loads("live", *tensions))]})["request_digest"]

    assert len({digest(300), digest(500, -200), digest(600, -300)}) == 3
    assert digest(500, -200) == digest(500.0, -200.0)


@pytest.fixture(scope="module")
def handed_on(ask_loads):
    """The first hanger of a run that weighs 50 lb there, and its hang point."""

    def of(*given):
        line = {"kind": "line", "weight": 10}
        stated = [{"hanger": 0, **each} for each in given]
        run = {"id": "R", "kind": "run", "line": line, "run": {"spans": [10]}, "given": stated}
        seismic = {"category": "B", "s_ds": 0.2, "i_p": 1.0, "component": "plumbing", "z": 10, "h": 40}
        (result,) = ask_loads(run | {"seismic": seismic})["items"]
        return result["hangers"][0], result["hang_points"][0]["hangs"]

    return of


def test_shears_against_each_other_at_a_hanger(ask, handed_on):
    """The hang point had 100 lb of shear of 2,500 and 2,400, and nobody could tell: it passed at 0.05."""
    wind = [{"shear_x": 2500, "tension": 40}, {"shear_x": -2400}, {"shear_y": 30}]
    hanger, hangs = handed_on(*({"nature": "wind"} | each for each in wind))
    assert hanger["factored_shear"] == pytest.approx(math.hypot(2500, 30), rel=1e-12)
    assert hangs["components"] == [
        {"nature": "dead", "tension": 50.0},
        {"nature": "wind", "tension": 40.0, "shear_y": 30.0},
        {"nature": "wind", "tension": 0.0, "shear_x": 2500.0},
        {"nature": "wind", "tension": 0.0, "shear_x": -2400.0},
    ]
    (result,) = ask(hanging(hangs))
    assert result["status"] == "failed"
    assert codes(result)[APART]["value"] == pytest.approx(math.hypot(2500, 30) / STEEL_SHEAR, rel=1e-9)


@pytest.mark.parametrize(("nature", "omega_0"), [("dead", 1), ("earthquake", 2)])
def test_shears_that_act_together_at_a_hanger(handed_on, nature, omega_0):
    """Omega_0 of plumbing 2 (ASCE 7-16 table 13.6-1, from memory)."""
    hanger, hangs = handed_on({"nature": nature, "shear_x": 500}, {"nature": nature, "shear_x": -200})
    assert sum(each.get("shear_x", 0) for each in hangs["components"]) == omega_0 * 300
    assert len([each for each in hangs["components"] if "shear_x" in each]) == 1
    assert hanger["factored_shear"] == pytest.approx(1.4 * 300 if nature == "dead" else 300, rel=1e-12)


@pytest.fixture(scope="module")
def fixture(client, validator):
    """Result of one bracket on a wall: dead load of 20 lb, 5 in out."""

    def of(loads, forces=()):
        dead = {"nature": "dead", "weight": 20, "at": {"z": 5}}
        bracket = {"id": "B", "kind": "bracket", "loads": [dead, *loads], "forces": list(forces)}
        answer = client.post("/v1/fixtures", json={"units": "us", "items": [bracket]}).json()
        validator("FixturesAnswer").validate(answer)
        (result,) = answer["items"]
        return result

    return of


def test_two_pipes_on_either_side_of_a_bracket(fixture):
    """300 lb 12 in to each side and 10 in out: 3,600 lb-in of torsion of one, none of both."""
    pipes = [{"nature": "contents", "weight": 300, "at": {"x": x, "z": 10}} for x in (12, -12)]
    result = fixture(pipes)
    assert "one-nature-summed" in result["assumptions"]
    found = result["anchor_groups"][0]["group"]["loads"]["components"]
    assert [each["nature"] for each in found] == ["dead", "contents", "contents"]
    assert sorted(each["torsion"] for each in found) == pytest.approx([-3600, 0, 3600], abs=1e-9)
    assert [each["moment_x"] for each in found] == pytest.approx([100, 3000, 3000])
    assert result["hang_points"][0]["hangs"]["components"] == found
    both = result["loads"][0]["components"][1]
    assert (both["shear_y"], both["moment_x"]) == pytest.approx((-600, 6000))


def test_forces_that_cancel_are_handed_on(fixture):
    """500 lbf either way, 10 in out: nothing of them was in the body for the check of anchors. Those alike are one."""
    wind = [{"nature": "wind", "shear_x": v, "at": {"z": 10}} for v in (200, 300, -500)]
    found = fixture((), wind)["hang_points"][0]["hangs"]["components"]
    assert sorted((each["nature"], each["shear_x"], each["moment_y"]) for each in found) == [
        ("dead", 0, 0),
        ("wind", -500, -5000),
        ("wind", 500, 5000),
    ]


@pytest.mark.parametrize("nature", ["dead", "earthquake"])
def test_loads_of_a_fixture_that_act_together(fixture, nature):
    forces = [{"nature": nature, "shear_x": v, "at": {"z": 10}} for v in (500, -200)]
    result = fixture((), forces)
    assert "one-nature-summed" not in result["assumptions"]
    found = result["hang_points"][0]["hangs"]["components"]
    assert [each["shear_x"] for each in found if each["nature"] == nature] == [300]
