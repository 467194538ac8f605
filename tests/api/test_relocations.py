"""Relocations by hand: edges, distance from the old hole (reading 45), a leaning rod; neighbours as in a batch."""

import math
import re

import pytest

from api.reverse_bodies import BOLT, NONE, PAIR, PIPE, ROW, body
from hangpoint.api.reverse.merge_patch import merged

PATH = "/v1/relocations"
ITEM = merged(PAIR, {"base": {"edges": {"x_plus": "12 in", "y_minus": "20 in"}}, "hangs": {"weight": "2 kip"}})
NEIGHBOUR = merged(ITEM, {"id": "B", "at": {"x": "11 ft"}, "base": {"edges": {"x_plus": "none"}}})
HOLE = {"depth": "2-1/2 in"}


def moved(asking_back, dx, dy=0, *, item=ITEM, hole=HOLE, **members):
    answer = asking_back.post(PATH, body(item, old_hole=hole, move={"dx": dx, "dy": dy}, **members))
    (place,) = answer["places"]
    assert answer["accepted"] == place["accepted"] == (not place["reasons"])
    return answer, place


def test_a_move_by_hand(asking_back):
    """4 in towards x_plus and y_minus: edges of 12 - 4 and 20 - 4 in; sqrt(32) = 5.66 in from the hole, 5 needed."""
    answer, place = moved(asking_back, 4, -4)
    assert place["edges"] == {"x_minus": None, "x_plus": 8, "y_minus": 16, "y_plus": None}
    assert place["from_old_hole"] == pytest.approx(math.sqrt(32))
    assert answer["distance_from_old_hole"]["least"] == 5
    assert place["accepted"]
    assert place["patch"]["at"] == {"x": pytest.approx(10 + 4 / 12), "y": pytest.approx(20 - 4 / 12)}
    again = asking_back.check(merged(ITEM, place["patch"]))
    assert again["status"] == "passed"
    assert again["governing"]["utilisation"] == pytest.approx(place["outcome"]["utilisation"], rel=1e-12)
    assert answer["before"]["utilisation"] == pytest.approx(answer["stated"]["utilisation"], rel=1e-12)


def test_too_near_the_old_hole(asking_back):
    """Twice 2.5 in; filled with high-strength mortar the least spacing of the product, 3 in by its data, remains."""
    _, place = moved(asking_back, 4.9)
    assert not place["accepted"]
    assert "from the old hole" in place["reasons"][0]
    filled, place = moved(asking_back, 4.9, hole=HOLE | {"filled": True})
    assert place["accepted"]
    assert filled["distance_from_old_hole"]["least"] == 3
    assert "old-hole-open-assumed" not in filled["assumptions"]
    _, place = moved(asking_back, 2.9, hole=HOLE | {"filled": True})
    assert not place["accepted"]


def test_a_hole_that_is_filled_needs_no_filling(asking_back):
    """Whoever states that it is filled is asked whether it is, and not to fill it."""
    for filled, first in ((True, "Verify"), (False, "Fill"), (None, "Fill")):
        hole = HOLE | ({} if filled is None else {"filled": filled})
        answer, _ = moved(asking_back, 6, hole=hole)
        own = [each for each in answer["instructions"] if "old hole" in each]
        assert [each.split()[0] for each in own] == [first]


def test_distances_to_the_old_hole_are_rounded_to_the_safe_side(asking_back):
    """2 x 2.512344 = 5.024688 in: a least distance is never told as less, nor how far away a place is as more."""
    hole = {"depth": 2.512344}
    answer, place = moved(asking_back, 5.02466, hole=hole)
    assert answer["distance_from_old_hole"]["text"].startswith("At least 5.0247 in: ")
    assert place["reasons"][0].startswith("The new anchor is 5.0246 in from the old hole, nearer than 5.0247 in.")
    found = asking_back.post(PATH, body(ITEM, old_hole=hole))
    assert found["text"].startswith("The nearest place found is 5.0247 in along x and 0 in along y")
    away = asking_back.post(PATH, body(merged(ITEM, {"base": {"edges": {"x_plus": "3 in"}}}), old_hole=hole))
    assert away["text"].startswith("The nearest place found is -5.0247 in along x and 0 in along y")


def test_a_move_over_the_edge(asking_back):
    _, place = moved(asking_back, 12)
    assert place["outcome"]["status"] == "invalid"
    assert place["outcome"]["problem"]["errors"][0]["pointer"] == "#/item/base/edges/x_plus"
    assert "not possible" in place["reasons"][0]


def test_a_point_that_does_not_pass_there(asking_back):
    """A bolt of 8,000 lb needs an edge of 5.57 in by hand (`test_reverse_checks`): 12 - 7 in is not enough."""
    item = merged(ITEM, {"hangs": {"weight": "8 kip"}, "base": {"edges": {"y_minus": "none"}}})
    _, near = moved(asking_back, 7, item=item)
    _, far = moved(asking_back, 6, item=item)
    assert (near["accepted"], far["accepted"]) == (False, True)
    assert "concrete breakout in tension governs" in near["reasons"][0]


def test_a_rod_that_leans_by_hand(asking_back):
    """2,000 lb on a rod of 30 in whose anchor has moved by 6 in: 2,000 x 6/30 = 400 lb of shear back towards what
    hangs, 2,000 sqrt(1 + 0.04) lb in the rod, arctan 0.2 = 11.3 degrees; factored by 1.4 in the check."""
    answer, place = moved(asking_back, 6, rod_length=30)
    assert place["lean"] == pytest.approx(
        {
            "angle": math.degrees(math.atan(0.2)),
            "service_tension": 2000,
            "shear": 400,
            "rod_tension": 2000 * math.sqrt(1.04),
        }
    )
    assert not place["accepted"]
    assert "leans by 11.3 degrees" in place["reasons"][0]
    (load,) = place["patch"]["hangs"]["components"]
    assert (load["tension"], load["shear_x"], load["shear_y"]) == pytest.approx((2000, -400, 0))
    again = asking_back.check(merged(ITEM, place["patch"]))
    assert again["demand"]["factored_shear"] == pytest.approx(1.4 * 400)
    assert again["governing"]["utilisation"] == pytest.approx(place["outcome"]["utilisation"], rel=1e-12)
    assert "rod-plumb-assumed" not in answer["assumptions"]
    assert {"sideways-restraint", "rod-out-of-plumb"} <= set(answer["not_checked"])


@pytest.mark.parametrize(("rod_length", "accepted"), [(86, True), (85, False)])
def test_a_rod_leans_by_four_degrees_at_most(asking_back, rod_length, accepted):
    """6 in over tan 4 degrees are 85.8 in of rod. At 86 in and 2,000 lb a rod of 5/8 in, 2,160 lb allowable, has
    2,000 sqrt(1 + (6/86)^2) lb."""
    answer, place = moved(asking_back, 6, item=merged(ITEM, {"rod": {"size": "5/8"}}), rod_length=rod_length)
    assert place["accepted"] is accepted
    assert place["lean"]["rod_utilisation"] == pytest.approx(
        place["outcome"]["links"]["rod"] * math.hypot(1, 6 / rod_length), rel=1e-12
    )
    assert "lean-of-four-degrees-at-most" in answer["assumptions"]


def test_a_leaning_rod_is_checked_by_its_own_tension(asking_back):
    """650 lb on a rod of 3/8 in: its allowable load by its root area is 0.0678 in2 x 10,700 psi = 726 lb. A rod of 6 in
    whose anchor has moved by 6 in has 650 sqrt(2) = 919 lb: 1.27 of it; upright 0.90."""
    item = merged(ITEM, {"hangs": {"weight": "650 lb"}, "rod": {"size": "3/8"}})
    _, place = moved(asking_back, 6, item=item, rod_length=6)
    assert place["outcome"]["links"]["rod"] == pytest.approx(650 / 726, rel=2e-3)
    assert place["lean"]["rod_utilisation"] == pytest.approx(919.2 / 726, rel=2e-3)
    own, angle = place["reasons"]
    assert own.startswith("The rod does not hold its tension at this angle")
    assert angle == "The rod leans by 45.0 degrees, more than the 4 that are common practice."


def test_what_is_just_beyond_a_limit_does_not_read_as_the_limit(asking_back):
    """725.6 lb on a rod of 3/8 in, 50,000 psi / 3.5 less 25 % on (pi / 4) (0.375 - 1.299038 / 16)^2: 726.42 lb, used to
    0.9989, and out of plumb by 3 degrees to 0.9989 / cos 3 = 1.0003. 4 in on 57.1 in are 4.007 degrees."""
    item = merged(ITEM, {"hangs": {"weight": "725.6 lb"}, "rod": {"size": "3/8"}})
    _, place = moved(asking_back, 6, item=item, rod_length=6 / math.tan(math.radians(3)))
    assert 1 < place["lean"]["rod_utilisation"] < 1.0005
    assert place["reasons"] == ["The rod does not hold its tension at this angle, utilisation 100.1%."]
    _, place = moved(asking_back, 6, rod_length=6 * 57.1 / 4)
    assert place["reasons"] == ["The rod leans by 4.008 degrees, more than the 4 that are common practice."]


def test_a_leaning_rod_bends_in_an_internal_thread(asking_back):
    """A rod of 2 in, its anchor moved by 6 in: arctan 3 = 71.6 degrees."""
    anchor = {"family": "large-screw-internal-thread-zinc", "size": "3/8", "h_ef": "2 in", "layout": None}
    item = merged(ITEM, {"hangs": {"weight": "200 lb"}, "rod": {"size": "3/8"}, "anchor": anchor})
    _, place = moved(asking_back, 6, item=item, rod_length=2)
    assert not place["accepted"]
    assert "leans by 71.6 degrees" in place["reasons"][-1]
    assert "bends in the internal thread" in place["reasons"][-1]


def test_a_leaning_sprinkler_line_keeps_its_rule(asking_back):
    """The load of the sprinkler rule goes with the rod: at no lean the check is that of the pipe."""
    item = merged(PIPE, {"hangs": {"sprinkler": True, "size": "4", "schedule": "10"}})
    _, place = moved(asking_back, 6, item=item, rod_length=3000)
    pipe = asking_back.check(item)
    again = asking_back.check(merged(item, place["patch"]))
    assert again["demand"]["factored_tension"] == pytest.approx(pipe["demand"]["factored_tension"], rel=1e-12)
    assert place["outcome"]["utilisation"] == pytest.approx(pipe["governing"]["utilisation"], rel=1e-4)


def test_a_leaning_line_under_test_keeps_the_water_of_it(asking_back):
    """6 in schedule 40 has 6.065 in inside: 62.4 lb/ft3 x pi/4 x (6.065/12)^2 = 12.52 lb/ft of water, 12 ft of it at
    this support, in place of the air; the rod of 30 in leans by 6 in, so the anchor has a fifth of it as shear."""
    item = merged(PIPE, {"hangs": {"contents": "air", "hydrotest": True}})
    _, place = moved(asking_back, 6, item=item, rod_length=30)
    water = 12 * 62.4 * math.pi / 4 * (6.065 / 12) ** 2
    loads = {each["nature"]: each for each in place["patch"]["hangs"]["components"]}
    assert (loads["test"]["tension"], loads["test"]["shear_x"]) == pytest.approx((water, -water / 5), rel=1e-3)
    again, pipe = asking_back.check(merged(item, place["patch"])), asking_back.check(item)
    assert again["demand"]["factored_tension"] == pytest.approx(pipe["demand"]["factored_tension"], rel=1e-12)
    assert place["lean"]["service_tension"] == pytest.approx(loads["dead"]["tension"] + water, rel=1e-3)


def test_forces_that_lean(asking_back):
    forces = {"kind": "forces", "components": [{"nature": "dead", "tension": 900, "shear_y": 50}, {"nature": "live"}]}
    _, place = moved(asking_back, 0, 6, item={**ITEM, "hangs": forces}, rod_length=60)
    dead, live = place["patch"]["hangs"]["components"]
    assert (dead["shear_x"], dead["shear_y"]) == pytest.approx((0, 50 - 90))
    assert (live["shear_x"], live["shear_y"]) == pytest.approx((0, 0))


def test_what_leans_is_what_hangs(asking_back):
    """34 + 37 lb and 250 lb hang at a sprinkler point: 321 lb. The 605 lb of its rule are for the anchor alone. Of
    contents and the water of a test one is in the line, and of load cases the heavier counts: 34 + 60 lb."""
    loads = [("dead", 34), ("contents", 37), ("live", 250), ("sprinkler_rule", 605)]
    hung = {"kind": "forces", "components": [{"nature": name, "tension": value} for name, value in loads]}
    _, place = moved(asking_back, 4, item={**ITEM, "hangs": hung}, rod_length=80)
    assert place["lean"]["service_tension"] == pytest.approx(321)
    assert place["lean"]["shear"] == pytest.approx(321 / 20)
    assert place["lean"]["rod_tension"] == pytest.approx(321 * math.hypot(1, 1 / 20))
    either = [{"nature": name, "tension": value} for name, value in (("dead", 34), ("contents", 37), ("test", 60))]
    _, place = moved(asking_back, 4, item={**ITEM, "hangs": {"kind": "forces", "components": either}}, rod_length=80)
    assert place["lean"]["service_tension"] == pytest.approx(94)
    cases = [
        {"name": name, "components": [{"nature": "dead", "tension": value}]}
        for name, value in (("empty", 34), ("full", 94))
    ]
    hung = {"kind": "forces", "load_cases": cases}
    given = {"rod_length": 80, "combinations": "given_factored"}
    _, place = moved(asking_back, 4, item={**ITEM, "hangs": hung}, **given)
    assert place["lean"]["service_tension"] == pytest.approx(94)


def test_neighbours_are_those_of_a_batch(asking_back):
    """Point and neighbour at the new place, posted as a batch of one member, are used alike."""
    answer, place = moved(asking_back, 4, -4, neighbours=[NEIGHBOUR])
    items = [
        merged(merged(ITEM, place["patch"]), {"base": {"member": "S"}}),
        merged(NEIGHBOUR, {"base": {"member": "S"}}),
    ]
    batch = asking_back.client.post("/v1/hang-points", json={"units": "us", "items": items}).json()["items"]
    own, other = (each["governing"]["utilisation"] for each in batch)
    assert place["outcome"]["utilisation"] == pytest.approx(own, rel=1e-12)
    assert place["neighbours"][0]["after"]["utilisation"] == pytest.approx(other, rel=1e-12)
    assert place["neighbours"][0]["id"] == "B"
    _, alone = moved(asking_back, 4, -4)
    assert own > alone["outcome"]["utilisation"]
    assert "neighbours" not in answer["not_checked"]


def test_a_neighbour_that_suffers(asking_back):
    """Two bolts of 7,000 lb hold 4.59 in apart and more, by hand (`test_reverse_checks`); 13 in less 9 are 4 in."""
    pair = [merged(PAIR, {"id": name, "at": {"x": x}}) for name, x in (("A", "10 ft"), ("B", "133 in"))]
    _, place = moved(asking_back, 9, item=pair[0], neighbours=[pair[1]])
    assert not place["accepted"]
    assert any("The neighbour B does not pass then" in each for each in place["reasons"])
    _, away = moved(asking_back, -9, item=pair[0], neighbours=[pair[1]])
    assert away["accepted"]


def test_a_neighbour_that_fails_anyway(asking_back):
    """The member is too thin for the screw B, moved or not, and the steel of B governs at either place. 2.5 in away the
    smaller screw A keeps its own least spacing, 2.25 in by its data, and not that of B, 3 in: B has one fault more."""
    thin = {"base": {"thickness": "5.9 in", "edges": NONE}, "hangs": {"weight": "20 lb"}}
    screw = {"family": "large-screw-hex-zinc", "size": "3/8", "h_ef": "2-1/8 in"}
    own = merged(merged(PAIR, thin), {"anchor": screw})
    sheared = {"kind": "forces", "components": [{"nature": "dead", "shear_x": "100 lbf"}]}
    deep = {"anchor": {"size": "1/2", "h_ef": "3-7/8 in"}, "at": {"x": "11 ft"}, "id": "B"}
    other = {**merged(own, deep), "hangs": sheared}
    answer, place = moved(asking_back, -6, item=own, neighbours=[other])
    assert place["accepted"]
    assert answer["text"] == (
        "The new place is accepted. The neighbour B does not pass there, as it did not before:"
        " the member is thinner than the least thickness of this anchor."
    )
    _, close = moved(asking_back, 9.5, item=own, neighbours=[other])
    before, after = (close["neighbours"][0][name] for name in ("before", "after"))
    assert before["utilisation"] == after["utilisation"]
    assert not close["accepted"]
    (reason,) = close["reasons"]
    assert reason == (
        "The neighbour B does not pass then: an anchor of a neighbouring point is nearer than the least spacing of this"
        " anchor."
    )


def test_places_are_found(asking_back):
    answer = asking_back.post(PATH, body(ITEM, old_hole=HOLE, neighbours=[NEIGHBOUR]))
    assert answer["accepted"]
    distances = [math.hypot(each["dx"], each["dy"]) for each in answer["places"]]
    assert distances == sorted(distances)
    assert distances[0] == pytest.approx(5)
    assert len(
        {(each["dx"] > 0.1, each["dx"] < -0.1, each["dy"] > 0.1, each["dy"] < -0.1) for each in answer["places"]}
    ) == len(answer["places"])
    for each in answer["places"]:
        assert each["accepted"]
        _, again = moved(asking_back, each["dx"], each["dy"], neighbours=[NEIGHBOUR])
        assert again["outcome"] == each["outcome"]


def test_no_place_is_found(asking_back):
    item = merged(ITEM, {"hangs": {"weight": "50 kip"}})
    answer = asking_back.post(PATH, body(item, old_hole=HOLE, within="8 in"))
    assert not answer["accepted"]
    assert answer["places"]
    assert "Ask the engineer" in answer["text"]


def test_why_no_place_is_found_beside_the_stated_one(asking_back):
    """A hole of 2-1/2 in keeps 5 in away, where a rod of 4 ft leans by atan(5 / 48) = 5.95 degrees, more than 4."""
    answer, place = moved(asking_back, 1, rod_length="4 ft")
    assert not place["accepted"]
    assert re.search(r"against the one -?[05] in along x and -?[05] in along y: The rod leans by 5\.9", answer["text"])
    assert not answer["alternatives"]


def test_a_layout_keeps_each_anchor_from_the_hole(asking_back):
    """Two anchors 12 in apart along x; the hole is that of the one at +6 in. A move of 8 in along x brings the other to
    +2 in: 4 in from the hole."""
    answer, place = moved(asking_back, 8, item=ROW, hole=HOLE | {"x": 6})
    assert "other-old-holes" in answer["not_checked"]
    assert "other-old-holes" not in moved(asking_back, 8)[0]["not_checked"]
    assert place["from_old_hole"] == pytest.approx(4)
    assert not place["accepted"]


def test_what_nobody_here_knows(asking_back):
    answer, _ = moved(asking_back, 5, item=merged(PIPE, {"at": {"x": 0, "y": 0}}))
    assert {"cut-reinforcement", "reinforcement-at-the-new-place", "reinforcement-and-tendons"} <= set(
        answer["not_checked"]
    )
    assert {"old-hole-open-assumed", "rod-plumb-assumed", "spans-unchanged-assumed"} <= set(answer["assumptions"])
    assert any("Stop drilling" in each for each in answer["instructions"])


def test_a_neighbour_that_is_refused_is_not_compared(asking_back):
    """Its load is in no check, so neighbours are not said to be checked."""
    refused = merged(NEIGHBOUR, {"id": "C", "at": {"y": "22 ft"}, "base": {"post_tensioned": "yes"}})
    with_it, place = moved(asking_back, 4, -4, neighbours=[NEIGHBOUR, refused])
    assert [each["before"]["status"] for each in place["neighbours"]] == ["passed", "refused"]
    assert "neighbours" in with_it["not_checked"]
    without, _ = moved(asking_back, 4, -4, neighbours=[NEIGHBOUR])
    assert "neighbours" not in without["not_checked"]


DECK = {
    "id": "DECK",
    "hangs": {"kind": "weight", "weight": "310 lb", "nature": "dead"},
    "anchor": {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": "2-1/2 in"},
    "base": {
        "kind": "deck",
        "strength": {"f_c": "3000 psi"},
        "density": "normalweight",
        "thickness": "6-1/4 in",
        "edges": NONE,
        "deck": {"flute": "lower", "flute_width": "4-1/2 in", "offset": "1 in", "cover": "3-1/4 in", "sheet": 0.0359},
    },
    "seismic": {"category": "B"},
}
"""Its family is tested to 1 in beside the centre of a lower flute."""


@pytest.mark.parametrize(
    ("direction", "dx", "dy", "offset", "accepted"),
    [
        ("x", 8, 0, 1, True),
        ("x", 0, 8, 9, False),
        ("x", 0, -8, -7, False),
        ("y", 8, 0, 9, False),
        ("y", 0, 8, 1, True),
        (None, 6, 8, 1 + 10, False),
    ],
)
def test_a_move_across_a_flute_leaves_its_centre(asking_back, direction, dx, dy, offset, accepted):
    """Along flutes in x the offset stays, across them it takes dy; of flutes nobody says how they run, 1 + 10 in."""
    stated = {} if direction is None else {"direction": direction}
    item = merged(DECK, {"base": {"deck": stated}})
    answer, place = moved(asking_back, dx, dy, item=item)
    deck = merged(item, place["patch"])["base"]["deck"]
    assert deck["offset"] == pytest.approx(offset) or (deck["offset"] == "1 in" and offset == 1)
    assert place["accepted"] is accepted
    assert ("farther from the centre of the flute" in " ".join(place["reasons"])) is not accepted
    assert "joints-and-flutes-at-worst-assumed" in answer["assumptions"]


TENDONS = {"post_tensioned": "yes", "scanned": True, "scanned_by": "Invented Scanning", "tendon_depth": "8 in"}


def test_a_scan_of_the_old_place_is_none_of_the_new(asking_back):
    """Reading 39: without a scan a post-tensioned member is never passed, and the scan stated was made elsewhere."""
    item = merged(ITEM, {"base": TENDONS})
    answer, place = moved(asking_back, 6, item=item)
    assert answer["before"]["status"] == "passed"
    assert place["outcome"]["reason"]["code"] == "post-tensioned-not-scanned"
    assert place["patch"]["base"]["scanned"] is None
    assert not place["accepted"]
    _, place = moved(asking_back, 6, item=item, scanned_by="Invented Scanning, again")
    assert place["accepted"]
    assert place["patch"]["base"]["scanned_by"] == "Invented Scanning, again"


def test_bars_of_an_anchor_stay_at_the_old_place(asking_back):
    """17.5.2.1: bars beside the anchor stand for breakout. 6 in away it has none. There 4 in remain to the edge, and
    the bolt of 6 in in 4,000 psi holds 0.70 x 24 sqrt(4000) x 6^1.5 = 15,616 lb x 13/18 x (0.7 + 0.3 x 4/9)."""
    bars = {"tension": {"area": 1.2, "f_y": "60 ksi"}}
    item = merged(ITEM, {"base": {"anchor_reinforcement": bars, "edges": {"x_plus": "10 in"}}})
    answer, place = moved(asking_back, 6, item=item)
    assert place["patch"]["base"]["anchor_reinforcement"] is None
    design_strength = 15_616 * 13 / 18 * (0.7 + 0.3 * 4 / 9)
    assert place["outcome"]["utilisation"] == pytest.approx(1.4 * 2000 / design_strength, rel=1e-4)
    assert "anchor-reinforcement-left-behind" in answer["assumptions"]
    assert "anchor-reinforcement-left-behind" not in moved(asking_back, 6)[0]["assumptions"]


def test_no_edge_here_is_taken_for_none_there(asking_back):
    walled = merged(ITEM, {"base": {"edges": dict.fromkeys(NONE, "40 in")}})
    assert "no-edge-comes-near-assumed" in moved(asking_back, 6)[0]["assumptions"]
    assert "no-edge-comes-near-assumed" not in moved(asking_back, 6, item=walled)[0]["assumptions"]


WALL = {
    "id": "WALL",
    "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": "60 lbf", "shear_y": "-90 lbf"}]},
    "anchor": {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": "1-3/4 in"},
    "base": {
        "kind": "masonry",
        "masonry": {"units": "grouted", "material": "concrete", "f_m": "1500 psi", "location": "face"},
        "thickness": "7-5/8 in",
        "face": "side",
        "edges": NONE,
    },
    "seismic": {"category": "B"},
}


@pytest.mark.parametrize(
    ("joint", "left", "location", "accepted"),
    [("12 in", 2, "face", True), ("4 in", 0.01, "joint", False), ("none", "none", "face", True)],
)
def test_a_move_may_end_at_a_joint(asking_back, joint, left, location, accepted):
    """10 in away from where the nearest joint was 12 in off it is 2 in off at worst; 4 in off, one may be hit."""
    item = merged(WALL, {"base": {"masonry": {"joint_distance": joint}}})
    _, place = moved(asking_back, 6, 8, item=item, hole={"depth": "1-3/4 in"})
    masonry = merged(item, place["patch"])["base"]["masonry"]
    assert (masonry["joint_distance"], masonry["location"]) == (
        left if left == "none" else pytest.approx(left),
        location,
    )
    assert place["accepted"] is accepted


def test_open_cells_stay_where_they_are(asking_back):
    """6 in to the right and 2 in up: 16 and 14 in away they are 10 in to the right and 12 in up, as edges would be."""
    cells = {"open_x_plus": "16 in", "open_x_minus": "5 in", "open_y_plus": "14 in", "open_y_minus": "none"}
    item = merged(WALL, {"base": {"masonry": cells | {"joint_distance": "none"}}})
    _, place = moved(asking_back, 6, 2, item=item, hole={"depth": "1-3/4 in", "filled": True})
    masonry = merged(item, place["patch"])["base"]["masonry"]
    found = {name: masonry[name] for name in cells}
    assert found == {
        "open_x_plus": pytest.approx(10),
        "open_x_minus": pytest.approx(11),
        "open_y_plus": pytest.approx(12),
        "open_y_minus": "none",
    }


@pytest.mark.parametrize(("dx", "accepted"), [(7.9, False), (8.1, True)])
def test_in_masonry_the_table_says_the_least_spacing(asking_back, dx, accepted):
    """8 in by the table of the sleeve in grouted masonry, where concrete asks for less; the hole is filled."""
    item = merged(WALL, {"base": {"masonry": {"joint_distance": "none"}}})
    answer, _ = moved(asking_back, dx, item=item, hole={"depth": "1-3/4 in", "filled": True})
    assert (answer["distance_from_old_hole"]["least"], answer["accepted"]) == (8, accepted)


BRACKET = merged(WALL, {"base": {"masonry": {"joint_distance": "none"}}})
MOVE = {"dx": 6, "dy": 0}
BAD = {
    "no hole": (body(ITEM, move=MOVE), {("#/old_hole", "missing")}),
    "no depth": (body(ITEM, old_hole={}), {("#/old_hole/depth", "missing")}),
    "half a move": (body(ITEM, old_hole=HOLE, move={"dx": 1}), {("#/move/dy", "missing")}),
    "a move of weight": (body(ITEM, old_hole=HOLE, move={"dx": "3 lb", "dy": 0}), {("#/move/dx", "quantity")}),
    "no place": (body(BOLT, old_hole=HOLE, neighbours=[NEIGHBOUR]), {("#/item/at/x", "missing")}),
    "a side face": (
        body(merged(ITEM, {"base": {"face": "side"}}), old_hole=HOLE, neighbours=[NEIGHBOUR]),
        {("#/item/base/facing", "missing")},
    ),
    "a side face without z": (
        body(merged(ITEM, {"base": {"face": "side", "facing": 0}}), old_hole=HOLE, neighbours=[NEIGHBOUR]),
        {("#/item/at/z", "missing")},
    ),
    "a neighbour in another plane": (
        body(
            merged(BRACKET, {"at": {"x": 0, "y": 0, "z": 9}, "base": {"facing": 90}}),
            old_hole=HOLE,
            neighbours=[merged(BRACKET, {"id": "B", "at": {"x": 1, "y": "2 in", "z": 9}, "base": {"facing": 90}})],
        ),
        {("#/neighbours/0/base/facing", "contradiction")},
    ),
    "a neighbour in another face": (
        body(ITEM, old_hole=HOLE, neighbours=[NEIGHBOUR, merged(NEIGHBOUR, {"id": "C", "base": {"face": "top"}})]),
        {("#/neighbours/1/base/face", "contradiction")},
    ),
    "a neighbour without a place": (
        body(ITEM, old_hole=HOLE, neighbours=[NEIGHBOUR, merged(BOLT, {"at": {"x": 3}})]),
        {("#/neighbours/1/at/y", "missing")},
    ),
    "another level": (
        body(ITEM, old_hole=HOLE, neighbours=[merged(NEIGHBOUR, {"at": {"level": "L2"}})]),
        {("#/neighbours/0/at/level", "contradiction")},
    ),
    "another thickness": (
        body(ITEM, old_hole=HOLE, neighbours=[merged(NEIGHBOUR, {"base": {"thickness": 12}})]),
        {("#/neighbours/0/base/thickness", "contradiction")},
    ),
    "an unknown product": (
        body(ITEM, old_hole=HOLE, neighbours=[merged(NEIGHBOUR, {"anchor": {"h_ef": 1}})]),
        {("#/neighbours/0/anchor/h_ef", "unknown-product")},
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_input(asking_back, name):
    request, errors = BAD[name]
    assert asking_back.errors(PATH, request) == errors


def test_an_outcome_has_the_cautions_of_the_check(asking_back):
    """A scanned member of post-tensioned concrete: drill only where the scan shows it clear (reading 39)."""
    item = merged(ITEM, {"base": TENDONS})
    _, place = moved(asking_back, 6, item=item, scanned_by="Invented Scanning")
    check = asking_back.check(merged(item, place["patch"]))
    assert place["outcome"]["cautions"] == [f["code"] for f in check["findings"] if f["severity"] == "caution"]
    assert "tendons-scanned" in place["outcome"]["cautions"]
    assert place["outcome"]["to_engineer"] == [each["code"] for each in check["to_engineer"]]
