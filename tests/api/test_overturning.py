"""Equipment on floors about the edges of its base, by hand and against a linear program. All of it is invented."""

import copy
import math

import numpy as np
import pytest
from scipy.optimize import linprog, nnls

from api.hanger_bodies import request
from hangpoint.api.resources.fixtures import FIXTURES

LONG = {
    "id": "long",
    "kind": "floor_equipment",
    "weight": "1000 lb",
    "centre_of_gravity": {"z": "30 in"},
    "anchors_at": [{"x": x, "y": y} for x, y in ((-40, -10), (40, -10), (40, 10), (-40, 10))],
}
CORNERS = np.array([(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)])
NATURES = ("live", "wind", "earthquake")


@pytest.fixture(scope="module")
def results(client):
    def post(*items):
        response = client.post(FIXTURES.path, json=request(*items, detail="loads"))
        assert response.status_code == 200, response.text[:800]
        return response.json()["items"]

    return post


def pushed(*loads, **changes):
    horizontal = [
        {"nature": nature, "force": force, "at": {"z": z}, "direction": direction}
        for nature, force, z, direction in loads
    ]
    return {**copy.deepcopy(LONG), "horizontal": horizontal, **changes}


def test_a_force_askew_tips_over_the_long_edge(results):
    """500 lbf at 30 in and 45 degrees: 10,607 lb-in about the long edge against 0.9 x 1,000 x 10 = 9,000.

    Two anchors at 20 in take (10,607 - 9,000)/(2 x 20) = 40.2 lb each. About a line square to the force, through the
    corner, 15,000 lb-in would stand against 31,820.
    """
    (only,) = results(pushed(("wind", 500, 30, 45.0)))
    (found,) = only["overturning"]
    over = 500 * 30 / math.sqrt(2)
    assert (found["direction"], found["edge_direction"]) == (45, 90)
    assert found["overturning_moment"] == pytest.approx(over)
    assert found["righting_moment"] == pytest.approx(9_000)
    assert found["anchor_tension"] == pytest.approx((over - 9_000) / 40)
    assert found["anchor_shear"] == pytest.approx(125)
    assert [each["code"] for each in only["findings"]] == ["tips-without-anchors"]


def test_a_force_beside_the_middle_of_the_anchors_turns_them(results):
    """500 lbf along x, 6 in beside the middle, on anchors 80 by 20 in: 125 lb each, and 3,000 lb-in of torsion over
    4 x (40**2 + 10**2) = 6,800 in2: 4.41 lb along x at the near side and 17.65 across. It was told as 125 lb.
    """
    turning = pushed(horizontal=[{"nature": "wind", "force": 500, "at": {"y": -6, "z": 30}, "direction": 0}])
    (found,) = results(turning)[0]["overturning"]
    assert found["anchor_shear"] == pytest.approx(math.hypot(125 + 3000 * 10 / 6800, 3000 * 40 / 6800))
    fan = {"category": "D", "s_ds": 1.0, "i_p": 1.0, "component": "air_side", "z": "20 ft", "h": "20 ft"}
    shaken = results({**LONG, "centre_of_gravity": {"x": 20, "y": 0, "z": 30}, "directions": 4, "seismic": fan})[0]
    along_y = next(each for each in shaken["overturning"] if each["direction"] == 90)
    # F_p 0.5 of 1,000 lb, Omega_0 2: 1,000 lb along y with 20,000 lb-in of torsion
    assert along_y["anchor_shear"] == pytest.approx(math.hypot(250 + 20_000 * 40 / 6800, 20_000 * 10 / 6800))


def test_live_load_acts_beside_wind(results):
    """Along x 0.9 x 1,000 x 40 = 36,000 lb-in right; wind of 900 lbf has 27,000, live load of 500 lbf 1.6 x 15,000.

    Both: 27,000 + 15,000 = 42,000, and (42,000 - 36,000)/(2 x 80) = 37.5 lb at each of two anchors.
    """
    (only,) = results(pushed(("wind", 900, 30, 0.0), ("live", 500, 30, 0.0)))
    told = [(each["nature"], each.get("beside"), each["anchor_tension"]) for each in only["overturning"]]
    assert told == [("live", None, 0), ("wind", None, 0), ("wind", "live", pytest.approx(37.5))]
    assert [(each["nature"], each["beside"]) for each in only["findings"]] == [("wind", "live")]


def test_a_centre_of_gravity_beyond_the_base_tips_alone(results):
    """5 in beyond the long edge: 1.4 x 1,000 x 5 = 7,000 lb-in, two anchors at 20 in: 175 lb each.

    Under wind away from that edge of 100 lbf at 30 in 1.2 x 5,000 - 3,000 are left.
    """
    beyond = {"centre_of_gravity": {"y": 15, "z": 30}}
    alone, blown = results(pushed(**beyond), pushed(("wind", 100, 30, 270.0), **beyond))
    (found,) = alone["overturning"]
    assert "direction" not in found
    assert (found["nature"], found["edge_direction"]) == ("dead", 90)
    assert (found["overturning_moment"], found["righting_moment"]) == (0, pytest.approx(-7_000))
    assert found["anchor_tension"] == pytest.approx(175)
    assert [each["code"] for each in alone["findings"]] == ["tips-without-anchors"]
    wind = next(each for each in blown["overturning"] if each["nature"] == "wind")
    assert wind["anchor_tension"] == pytest.approx(3_000 / 40)


def stands(corners, centre, weight, moment, anchors=()):
    """Whether corners that only press, and anchors that only pull, balance weight and moment (x, y) of forces."""
    feet = np.vstack((np.ones(len(corners)), corners.T))
    pulls = -np.vstack((np.ones(len(anchors)), np.reshape(anchors, (-1, 2)).T))
    every, balance = np.hstack((feet, pulls)), [weight, *(weight * centre + moment)]
    return linprog(np.zeros(every.shape[1]), A_eq=every, b_eq=balance, bounds=(0, None), method="highs").status == 0


def _random(rng, at):
    """Equipment with its centre of gravity over its base, which is a rectangle or what its anchors span."""
    anchors = rng.uniform(-40, 40, (int(rng.integers(4, 8)), 2))
    centre = rng.dirichlet(np.ones(len(anchors))) @ anchors
    item = {
        **LONG,
        "id": f"random {at}",
        "centre_of_gravity": {"x": centre[0], "y": centre[1], "z": 30.0},
        "anchors_at": [{"x": x, "y": y} for x, y in anchors.tolist()],
    }
    corners = anchors
    if rng.random() < 0.5:
        widths = rng.uniform(10, 60, 2)
        item["footprint"] = {
            "width_x": widths[0],
            "width_y": widths[1],
            "center": {"x": centre[0], "y": centre[1]},
        }
        corners = centre + widths * CORNERS
    loads = [
        (str(nature), float(rng.uniform(50, 500)), float(rng.uniform(5, 60)), float(rng.uniform(-180, 180)))
        for nature in rng.choice(NATURES, int(rng.integers(1, 4)))
    ]
    item["horizontal"] = pushed(*loads)["horizontal"]
    return item, corners, centre, loads


def test_what_tips_is_what_no_pressing_feet_can_balance(results):
    rng = np.random.default_rng(12)
    made = [_random(rng, at) for at in range(300)]
    seen = set()
    for result, (_, corners, centre, loads) in zip(results(*(each[0] for each in made)), made, strict=True):
        tips = {(each["nature"], each.get("beside")) for each in result["findings"]}
        cases = {(each["nature"], each.get("beside")) for each in result["overturning"]}
        natures = {load[0] for load in loads}
        both = {(nature, "live") for nature in natures - {"live"} if "live" in natures}
        assert cases == {(nature, None) for nature in natures} | both
        for nature, beside in cases:
            factors = {nature: 1.6 if nature == "live" else 1.0} | ({beside: 1.0} if beside else {})
            moment = sum(
                factors.get(own, 0.0) * force * z * np.array([math.cos(turn), math.sin(turn)])
                for own, force, z, turn in ((*load[:3], math.radians(load[3])) for load in loads)
            )
            assert ((nature, beside) in tips) != stands(corners, centre, 900.0, moment)
            seen.add((nature, beside, (nature, beside) in tips))
    assert len(seen) == 10


def test_what_tips_over_two_edges_lifts_over_the_corner_between_them(results):
    """2,000 lbf at 30 in and 45 degrees on 40 by 40 in: 42,426 lb-in about each edge against 0.9 x 1,000 x 20 = 18,000.

    24,426 lb-in are left about each. Of the three anchors off the corner the far one is 40 in from both edges and has
    twice what the others have: 40 x (2 + 1) T = 24,426 and 2 T = 407 lb. As of one edge it was told as 24,426/80 = 305.
    """
    square = [{"x": x, "y": y} for x, y in ((-20, -20), (20, -20), (20, 20), (-20, 20))]
    found = results(pushed(("wind", 2000, 30, 45.0), anchors_at=square))[0]["overturning"][0]
    left = 2000 * 30 / math.sqrt(2) - 18_000
    assert found["overturning_moment"] - found["righting_moment"] == pytest.approx(left)
    assert found["anchor_tension"] == pytest.approx(2 * left / 120)


def test_what_tips_past_all_its_anchors_is_held_by_nothing(results):
    """Base 40 by 40 in, all anchors beside it: 2,000 lbf along y at 30 in, 60,000 lb-in less 900 x 20 about y = 20.

    The anchors are at most 15 in behind that edge: 42,000 lb-in ask for 2,800 lb at least, and these are 10 in or more
    beyond the edge x = 20, where 28,000 lb-in and more stand against 18,000. It was told as 1,800 lb at one anchor.
    """
    base = {"footprint": {"width_x": 40, "width_y": 40}}
    base["anchors_at"] = [{"x": x, "y": y} for x, y in ((30, 5), (30, 15), (35, 10))]
    (only,) = results(pushed(("wind", 2_000, 30, 90.0), **base))
    assert [each["code"] for each in only["findings"]] == ["nothing-holds"]
    assert only["status"] == "failed"
    (held,) = results(pushed(("wind", 1_000, 30, 90.0), **base))
    assert [each["code"] for each in held["findings"]] == ["tips-without-anchors"]


def most_pulled(corners, anchors, centre, weight, moment):
    """Tension of the most pulled anchor of a rigid body: the least squares of pulls that feet at the corners balance.

    A general solver: of all tensions and pressures >= 0 in balance those with the least energy of the anchors, which
    stretch alike, are those of a rigid body on a rigid floor.
    """
    size, load = 50.0, max(weight, np.abs(moment).max() / 50.0)
    places = np.vstack((anchors, corners))
    signs = np.repeat([-1.0, 1.0], [len(anchors), len(corners)])
    balance = signs * np.vstack((np.ones(len(places)), places.T / size))
    right = np.array([weight, *((weight * centre + moment) / size)]) / load
    energy = np.eye(len(anchors), len(places))
    found, _ = nnls(np.vstack((energy, 1e5 * balance)), np.concatenate((np.zeros(len(anchors)), 1e5 * right)))
    assert np.abs(balance @ found - right).max() < 1e-5
    return load * found[: len(anchors)].max()


def test_no_anchor_is_pulled_more_than_is_told(results):
    """By a general solver; and where it is told exactly, which is nearly always, over edges and over corners.

    Own check: of two ways in which a body may lift the larger tension is told. Of some all anchors stand to one side of
    the base, so that it may slip past them.
    """
    rng = np.random.default_rng(13)
    made = [_random(rng, at) for at in range(600)]
    for item, *_ in made[::2]:
        for place in item["anchors_at"] if "footprint" in item else ():
            place["x"] += 45.0
    exact = told = corner = loose = 0
    for result, (item, corners, centre, loads) in zip(results(*(each[0] for each in made)), made, strict=True):
        anchors = np.array([(each["x"], each["y"]) for each in item["anchors_at"]])
        for each in result["overturning"]:
            factors = {each["nature"]: 1.6 if each["nature"] == "live" else 1.0}
            factors |= {each["beside"]: 1.0} if "beside" in each else {}
            moment = sum(
                factors.get(own, 0.0) * force * z * np.array([math.cos(turn), math.sin(turn)])
                for own, force, z, turn in ((*load[:3], math.radians(load[3])) for load in loads)
            )
            of = each["nature"], each.get("beside")
            codes = {own["code"] for own in result["findings"] if (own["nature"], own.get("beside")) == of}
            if stands(corners, centre, 900.0, moment):
                continue
            held = stands(corners, centre, 900.0, moment, anchors)
            assert codes == {"tips-without-anchors" if held else "nothing-holds"}
            if not held:
                loose += 1
                continue
            most = most_pulled(corners, anchors, centre, 900.0, moment)
            tension = each["anchor_tension"]
            assert most <= tension * (1 + 1e-5) + 1e-3
            told += 1
            exact += most == pytest.approx(tension, rel=1e-4, abs=1e-2)
            along = np.array([math.cos(turn := math.radians(each["edge_direction"])), math.sin(turn)])
            away = np.maximum((corners @ along).max() - anchors @ along, 0.0)
            left = each["overturning_moment"] - each["righting_moment"]
            corner += tension > 1.001 * left * away.max() / max((away**2).sum(), 1e-9)
    assert told > 150
    assert exact > 0.9 * told
    assert corner > 10
    assert loose > 3
