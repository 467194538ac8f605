"""Earthquake in factored loads as given and beside neighbours: its part reversed, by hand. Anchors are invented.

Headed bolts 3/4 in, h_ef 6 in, f'c 4,000 psi, cracked, at an edge: 7 (6 / .75)^.2 sqrt(.75) = 9.19 is above 9, so that
V_b = 9 sqrt(4,000) c_a1^1.5 (17.7.2.2.1), phi 0.70; along the edge twice that (17.7.2.1c).
"""

import math

import pytest

from api.bodies import change

ONE = 0.7 * 9 * math.sqrt(4000) * 4**1.5
"""Breakout of one bolt 4 in from an edge: A_Vc = A_Vco in 10 in of concrete."""
PAIR = 0.7 * 9 * math.sqrt(4000) * 6**1.5 * (5 + 18) * 9 / (4.5 * 36)
"""Of two, 5 in apart and 6 in from the edge."""
FAR = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
POINT = {
    "at": {"level": "L1", "x": 0, "y": 0},
    "anchor": {"family": "headed-bolt", "size": "3/4", "h_ef": 6},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "state": "cracked",
        "thickness": 10,
        "member": "S1",
        "edges": FAR,
    },
    "seismic": {"category": "B"},
}


@pytest.fixture(scope="module")
def ask(send):
    """Results by id, of loads as given unless stated otherwise."""

    def of(*items, **top):
        body = {"units": "us", "detail": "modes", "combinations": "given_factored", **top, "items": list(items)}
        return {each["id"]: each for each in send(body, status=200)["items"]}

    return of


def point(name, hangs, **changes):
    paths = {path.replace("__", "."): value for path, value in changes.items()}
    return change(POINT, paths) | {"id": name, "hangs": {"kind": "forces", **hangs}}


def loads(*components):
    return {"sustained_fraction": 0, "components": list(components)}


def breakout(result, mode="concrete_breakout_shear"):
    return next((each["utilisation"] for each in result["modes"] if each["mode"] == mode and each["applies"]), None)


def codes(result):
    return {each["code"]: each for each in result["findings"]}


@pytest.mark.parametrize(
    ("dead", "quake", "towards", "along"),
    [
        ({"shear_y": -2000}, {"shear_y": 2000}, 4000, 0),  # nothing is left as they are stated
        ({"shear_y": -2000}, {"shear_y": 1500}, 3500, 0),
        ({"shear_x": 2500}, {"shear_y": 3000}, 3000, 2500),
        ({"shear_x": 2500}, {"shear_y": -3000}, 3000, 2500),
        ({"shear_y": -2000}, {"shear_y": -1500}, 3500, 0),
    ],
)
def test_the_part_of_earthquake_is_reversed_and_not_the_sum(ask, dead, quake, towards, along):
    """The reversed case is the rest less the earthquake, vector by vector, whatever sign that is stated with."""
    hangs = loads({"nature": "dead", "tension": 500, **dead}, {"nature": "earthquake", **quake})
    found = ask(point("a", hangs, base__edges__y_minus=4))["a"]
    assert breakout(found) == pytest.approx(math.hypot(towards / ONE, along / (2 * ONE)), rel=1e-9)
    assert "earthquake-reverses" in found["assumptions"]


def test_loads_as_given_are_as_bad_as_those_by_nature(ask):
    """The same dead load and earthquake, factored by the request or by 1.2D+1.0E."""
    quake = {"nature": "earthquake", "tension": -400, "shear_x": 900, "shear_y": 1500}
    by_nature = point(
        "a", {"components": [{"nature": "dead", "tension": 400, "shear_y": -1000}, quake]}, base__edges__y_minus=4
    )
    by_nature["seismic"] = {"category": "B", "s_ds": 0}
    given = point("a", loads({"nature": "dead", "tension": 480, "shear_y": -1200}, quake), base__edges__y_minus=4)
    one, other = ask(by_nature, combinations="strength")["a"], ask(given)["a"]
    assert other["demand"]["factored_tension"] == pytest.approx(880, rel=1e-12)  # 1.2 x 400 + 400, it pulls
    assert "earthquake-pulls" in other["assumptions"]
    modes = [each["mode"] for each in one["modes"] if each["applies"]]
    assert {"concrete_breakout_tension", "concrete_breakout_shear"} <= set(modes)
    for mode in modes:
        assert breakout(other, mode) == pytest.approx(breakout(one, mode), rel=1e-12)


def test_moments_of_earthquake_are_reversed_by_themselves(ask):
    """A plate under 30 kip*in about y of dead load and 40 about x of earthquake, either sign: the same."""
    layout = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 8, "spacing_y": 8}
    found = []
    for sign in (1, -1):
        hangs = loads(
            {"nature": "dead", "tension": 2000, "moment_y": 30_000},
            {"nature": "earthquake", "moment_x": sign * 40_000},
        )
        item = point("a", hangs, base__thickness=14, base__edges__x_minus=10, base__edges__y_minus=10)
        item["anchor"] = {**item["anchor"], "layout": layout}
        item["attachment"] = {"plate": {"width_x": 12, "width_y": 12}, "thickness": 2}
        found.append(breakout(ask(item)["a"], "concrete_breakout_tension"))
    assert found[0] == pytest.approx(found[1], rel=1e-9)


def pair(one, other):
    return point("a", one, base__edges__x_plus=6), point("b", other, base__edges__x_plus=6, at__y="5 in")


def case(name, share=0, **loads):
    component = {"nature": "dead", **loads}
    return {"name": name, "sustained_fraction": 0, "earthquake_fraction": share, "components": [component]}


def test_a_neighbour_carries_in_the_reversed_case_what_it_has_in_the_case_of_that_name(ask):
    """-4,000 lb of earthquake away from the edge beside 4,000 towards it: reversed, 8,000. A further case of 10 lb
    changes nothing."""
    quake = {"load_cases": [case("A", 1, shear_x=-4000)]}
    for cases in ([case("A", shear_x=4000)], [case("A", shear_x=4000), case("B", tension=10)]):
        found = ask(*pair(quake, {"load_cases": cases}))
        assert [breakout(each) for each in found.values()] == pytest.approx([8000 / PAIR] * 2, rel=1e-9)


def test_neighbours_with_load_cases_of_other_names(ask):
    """What one of them has in a case of another name is not combined: with shear that fails; alike names are."""
    own = {"load_cases": [case("A1", tension=10), case("A2", shear_x=4000)]}
    other = {"load_cases": [case("B1", tension=10), case("B2", shear_x=4000)]}
    found = ask(*pair(own, other))
    assert {each["status"] for each in found.values()} == {"failed"}
    assert all(codes(each)["neighbour-cases-differ"]["severity"] == "violation" for each in found.values())
    together = ask(*pair(own, own))
    assert [breakout(each) for each in together.values()] == pytest.approx([8000 / PAIR] * 2, rel=1e-9)
    assert all("neighbour-cases-differ" not in codes(each) for each in together.values())
    pulled = ask(*pair({"load_cases": [case("A", tension=10)]}, {"load_cases": [case("B", tension=10)]}))
    assert all(codes(each)["neighbour-case-borrowed"]["severity"] == "note" for each in pulled.values())


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize("combinations", ["strength", "given_factored"])
def test_earthquake_acts_on_neighbours_the_same_way(ask, sign, combinations):
    """4,000 lb of earthquake on each, whichever way it is stated: both may push to the edge at once."""
    items = []
    for item, force in zip(pair({}, {}), (4000, sign * 4000), strict=True):
        components = [{"nature": "dead", "tension": 100}, {"nature": "earthquake", "shear_x": force}]
        seismic = {"category": "B"} | ({"s_ds": 0} if combinations == "strength" else {})
        items.append(item | {"hangs": {"kind": "forces", "components": components}, "seismic": seismic})
    found = ask(*items, combinations=combinations)
    assert [breakout(each) for each in found.values()] == pytest.approx([8000 / PAIR] * 2, rel=1e-9)


@pytest.mark.parametrize("names", [("A", "A"), ("A", "B")])
@pytest.mark.parametrize("force", [4000, -4000])
def test_earthquake_of_cases_of_other_names_acts_on_neighbours_the_same_way(ask, force, names):
    """4,000 lb of earthquake on each, in one load case that need not have one name: both may push to the edge at once,
    also where they are stated away from it. Of such, one was left as stated where the other was reversed: 4,000 lb.
    """
    found = ask(*pair(*({"load_cases": [case(name, 1, shear_x=force)]} for name in names)))
    assert [breakout(each) for each in found.values()] == pytest.approx([8000 / PAIR] * 2, rel=1e-9)
    assert all(each["status"] == "failed" for each in found.values())


@pytest.mark.parametrize(("share", "quake", "stays"), [(None, -500, 1500), (None, 500, 1500), (0.6, -1500, 1500)])
def test_the_share_that_stays_is_of_the_load_that_is_checked(ask, share, quake, stays):
    """17.5.2.2: 1,000 lb of dead load beside earthquake, which pulls whichever way it is stated: all of 1,500 lb stays
    unless a share is stated, or 0.6 of 2,500. Stated upwards it left 500 lb, or nothing to check."""
    hangs = {"components": [{"nature": "dead", "tension": 1000}, {"nature": "earthquake", "tension": quake}]}
    if share is not None:
        hangs["sustained_fraction"] = share
    conditions = {"temperature": "a", "hole": "dry", "concrete_age": 28}
    conditions |= {"certified_installer": True, "continuous_inspection": True}
    anchor = {"family": "adhesive-slow-rod-105", "size": "1/2", "h_ef": 6, "adhesive": conditions}
    found = ask(point("a", hangs) | {"anchor": anchor})["a"]
    demands = {each["mode"]: each["demand"] for each in found["modes"] if each["applies"]}
    assert demands["sustained_bond"] == pytest.approx(stays, rel=1e-12)
    assert found["demand"]["sustained_tension"] == pytest.approx(stays, rel=1e-12)


def test_a_set_of_near_anchors_has_one_strength_under_earthquake(ask):
    """17.10.5.1 is of the group: 6,000 lb of dead load 6 in beside 6,000 lb of earthquake are half of it earthquake, at
    both. phi N_cbg = 0.75 x 0.70 x 24 sqrt(4,000) 6^1.5 x (18 x 24) / 18^2 = 15,615.9 lb; the one without an earthquake
    of its own was held against 20,821 lb."""
    both = 0.75 * 0.7 * 24 * math.sqrt(4000) * 6**1.5 * (18 * 24) / 18**2
    options = {"category": "D", "tension_option": "overstrength"}
    items = [
        point("a", loads({"nature": "dead", "tension": 6000})),
        point("b", loads({"nature": "earthquake", "tension": 6000}), at__y="6 in") | {"seismic": options},
    ]
    items[0]["seismic"] = {"category": "D"}
    found = ask(*items)
    ratios = [breakout(each, "concrete_breakout_tension") for each in found.values()]
    assert ratios == pytest.approx([12_000 / both] * 2, rel=1e-9)
    # Pullout is of each anchor by itself, and only b's is under earthquake.
    pullout = [breakout(each, "pullout") for each in found.values()]
    assert pullout[1] == pytest.approx(pullout[0] / 0.75, rel=1e-9)


@pytest.mark.parametrize(
    ("changes", "mode"),
    [
        ({"base__edges__x_minus": 2.25}, "side_face_blowout"),
        ({"anchor__family": "adhesive-slow-rod-105", "anchor__size": "1/2"}, "adhesive_bond"),
    ],
)
def test_near_anchors_under_earthquake_in_other_modes(ask, changes, mode):
    """Blowout (17.6.4.2) and bond of a set have one strength too, whichever of its anchors earthquake pulls."""
    items = [point("a", loads({"nature": "dead", "tension": 1500}), **changes)]
    items.append(point("b", loads({"nature": "earthquake", "tension": 1500}), at__y="4.5 in", **changes))
    for item in items:
        item["seismic"] = {"category": "D", "tension_option": "overstrength"}
        if mode == "adhesive_bond":
            item["base"]["face"] = "top"
    found = ask(*items)
    ratios = [breakout(each, mode) for each in found.values()]
    assert ratios[0] == pytest.approx(ratios[1], rel=1e-12)
    calm = [item | {"seismic": {"category": "D"}, "hangs": items[0]["hangs"]} for item in items]
    assert ratios[0] == pytest.approx(breakout(ask(*calm)["a"], mode) / 0.75, rel=1e-9)


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 1, 0)])
@pytest.mark.parametrize("combinations", ["strength", "given_factored"])
def test_the_order_of_near_points_has_no_say_in_the_way_of_their_earthquake(ask, order, combinations):
    """Earthquake of 4,000 lb towards an edge, of 1,000 at 60 degrees to it and of 500 at 120 degrees, in a row along
    the edge: with the largest they push 4,000 + 500 + 250 lb to it, and 866 + 433 lb along it. Going by the first of
    them it was less where that was the smallest.
    """
    items = []
    for place, (force, angle) in enumerate(((4000, 0), (1000, 60), (500, 120))):
        along, across = (force * turn(math.radians(angle)) for turn in (math.cos, math.sin))
        components = [{"nature": "dead", "tension": 100}, {"nature": "earthquake", "shear_x": along, "shear_y": across}]
        hangs = {"kind": "forces", "components": components}
        seismic = {"category": "B"} | ({"s_ds": 0} if combinations == "strength" else {})
        at = {"level": "L1", "x": 0, "y": place * 5 / 12}
        items.append(point(f"P{place}", hangs, base__edges=FAR | {"x_plus": 6}) | {"at": at, "seismic": seismic})
    found = ask(*(items[place] for place in order), combinations=combinations)
    shear = [next(each for each in one["modes"] if each["mode"] == "concrete_breakout_shear") for one in found.values()]
    assert max(each["demand"] for each in shear) == pytest.approx(math.hypot(4750, 1500 * math.sqrt(0.75)), rel=1e-6)


@pytest.mark.parametrize(("toward", "turned"), [(0.9, -0.9), (-0.9, 0.9)])
@pytest.mark.parametrize("combinations", ["strength", "given_factored"])
@pytest.mark.parametrize(("force", "code"), [(3000, "-holds"), (4000, "")])
def test_near_points_with_earthquake_at_angles_hold_in_either_sense(ask, toward, turned, combinations, force, code):
    """Two bolts 5 in apart along an edge, earthquake along it and 0.9 of that towards it at one and away at the other.

    In which sense one acts beside the other is not known: both may push to the edge, 1.8 of the force, with twice it
    along, which has twice the strength: hypot(1.8, 1) / 7,482.6 of 4,000 lb is 1.10. The modes have hypot(0.9 / 5,856,
    1 / 7,482.6) of it, 0.81, and that alone was told.
    """
    items = []
    for place, pushed in enumerate((toward, turned)):
        quake = {"nature": "earthquake", "shear_x": pushed * force, "shear_y": force}
        hangs = {"kind": "forces", "components": [{"nature": "dead", "tension": 1}, quake]}
        seismic = {"category": "B"} | ({"s_ds": 0} if combinations == "strength" else {})
        at = {"level": "L1", "x": 0, "y": place * 5 / 12}
        items.append(point(f"P{place}", hangs, base__edges=FAR | {"x_plus": 6}) | {"at": at, "seismic": seismic})
    found = ask(*items, combinations=combinations).values()
    own = {"value": pytest.approx(force * math.hypot(1.8, 1) / PAIR, rel=1e-9), "limit": 1}
    one = 0.7 * 9 * math.sqrt(4000) * 6**1.5
    for each in found:
        assert each["status"] == ("failed" if code == "" else "passed")
        assert breakout(each) == pytest.approx(force * math.hypot(0.9 / one, 1 / PAIR), rel=1e-9)
        told = codes(each)["earthquake-in-other-sense" + code]
        assert {name: told[name] for name in own} == own


STOUT = {
    "units": "us",
    "principle": "headed_cast_in",
    "basis": "cast_in",
    "source": {"document": "invented", "date": "2026-01", "standard": "none"},
    "traits": {"tension_overhead": True, "sustained_tension": True},
    "size": {"size": "1", "d_a": 1, "a_se": 0.606, "f_uta": 58_000, "f_ya": 36_000, "ductile": True}
    | {"head": {"a_brg": 1.5, "welded_stud": False}},
    "embedment": {"h_ef": 4, "h_min": 6, "c_min": 1.0, "s_min": 1.0, "spacing_tested": True},
}
"""Of which pryout of two governs before the steel of one, 0.65 x 0.6 x 0.606 x 58,000 lb."""
NO_EDGE = 0.7 * 24 * math.sqrt(4000) * 6**1.5
"""phi N_b of one bolt far from every edge; of two, s apart, (18 + s) / 18 of it."""


def other_sense(found):
    told = [each["value"] for one in found.values() for each in one["findings"] if "other-sense" in each["code"]]
    return told, {each["status"] for each in found.values()}


@pytest.mark.parametrize("combinations", ["strength", "given_factored"])
@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(("stays", "status"), [(2000, "passed"), (8000, "failed")])
def test_earthquake_of_near_points_adds_to_opposite_shears(ask, combinations, sign, stays, status):
    """Shear of 2,000 or 8,000 lb at one bolt and against it at another 4 in beside, with 4,000 lb of earthquake along
    them: pryout holds the sum of their magnitudes (reading 18), 2 x 12,000 lb where earthquake goes with each. The same
    way at both it is 12,000 + 4,000 lb at the most.
    """
    factor = 1.2 if combinations == "strength" else 1.0
    items = []
    for place, (dead, quake) in enumerate(((stays, 4000), (-stays, sign * 4000))):
        components = [
            {"nature": "dead", "tension": 0, "shear_x": dead / factor},
            {"nature": "earthquake", "shear_x": quake},
        ]
        seismic = {"category": "B"} | ({"s_ds": 0} if combinations == "strength" else {})
        at = {"level": "L1", "x": 0, "y": place / 3}
        hangs = {"kind": "forces", "components": components}
        items.append(point(f"P{place}", hangs, anchor={"product": STOUT}) | {"at": at, "seismic": seismic})
    found = ask(*items, combinations=combinations)
    strength = 2 * 0.7 * 24 * math.sqrt(4000) * 4**1.5 * (12 + 4) / 12
    together = max(2 * max(stays, 4000), 2 * stays * 1.4 / 1.2 if combinations == "strength" else 0)  # 1.4 D
    assert [breakout(each, "pryout") for each in found.values()] == pytest.approx([together / strength] * 2)
    told, statuses = other_sense(found)
    assert told == pytest.approx([2 * (stays + 4000) / strength] * 2, rel=1e-9)
    assert statuses == {status}


@pytest.mark.parametrize("combinations", ["strength", "given_factored"])
@pytest.mark.parametrize("sign", [1, -1])
def test_moments_of_earthquake_act_either_way_at_each_of_two_near_points(ask, combinations, sign):
    """Two pairs of bolts 6 in apart, 12 in from centre to centre along x, each with 60,000 lbf*in of earthquake about
    y: 10,000 lb at one bolt of each pair. The same way at both the two pulled ones are 12 in apart, against each other
    they are the inner ones, 6 in apart, however it is stated."""
    items = []
    for place, moment in enumerate((60_000, sign * 60_000)):
        seismic = {"category": "B"} | ({"s_ds": 0} if combinations == "strength" else {})
        hangs = {"kind": "forces", "components": [{"nature": "earthquake", "tension": 0, "moment_y": moment}]}
        at = {"level": "L1", "x": place, "y": 0}
        attachment = {"plate": {"width_x": 9, "width_y": 3, "support": "free"}, "thickness": 2}
        made = point(f"P{place}", hangs, anchor__layout=[{"x": -3, "y": 0}, {"x": 3, "y": 0}], attachment=attachment)
        items.append(made | {"at": at, "seismic": seismic})
    found = ask(*items, combinations=combinations)
    ratios = [breakout(each, "concrete_breakout_tension") for each in found.values()]
    told, _ = other_sense(found)
    worst = [max(ratio, value) for ratio, value in zip(ratios, told or ratios, strict=True)]
    assert worst == pytest.approx([20_000 / (NO_EDGE * 24 / 18)] * 2, rel=1e-9)


def test_more_near_points_than_have_every_sense_are_told(ask):
    """Nine in a row have one more earthquake than is turned by itself."""
    for count in (8, 9):
        items = []
        for place in range(count):
            hangs = {"kind": "forces", "components": [{"nature": "earthquake", "shear_x": 100.0}]}
            items.append(point(f"P{place}", hangs) | {"at": {"level": "L1", "x": 0, "y": place}})
        found = ask(*items)
        assert {("earthquake-senses-not-all" in codes(each)) for each in found.values()} == {count > 8}
