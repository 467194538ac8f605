"""Hang points that share the concrete of a member, as a user meets them: hangers near each other in a batch.

Expected numbers are computed by hand beside each by ACI 318-19 chapter 17 and the readings 6 and 30. The building is
invented.
"""

import csv
import io
import json
import math
import random

import pytest

from api.bodies import GONE, as_lines, change
from hangpoint.api.routes.hang_points import BATCH_PATH

ROOT_F_C = math.sqrt(4000)
FAR = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
POINT = {
    "at": {"level": "L1", "y": 0},
    "hangs": {"kind": "weight", "nature": "dead"},
    "anchor": {"family": "wedge-expansion-zinc", "size": "5/8", "h_ef": 2.75},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "thickness": 10,
        "member": "S1",
        "edges": FAR,
    },
    "seismic": {"category": "B"},
}
"""Of an anchor whose pullout doesn't govern, by its data."""
SHALLOW, DEEP = (0.65 * 17 * ROOT_F_C * h_ef**1.5 for h_ef in (2.75, 3.25))
"""phi N_b of the anchors 2.75 and 3.25 in deep, cracked: 17.6.2.2.1, phi 0.65 of category 1, lbf."""


def weight(share, strength=SHALLOW):
    """A dead weight whose 1.4 D is this share of a strength."""
    return share * strength / 1.4


def hanger(name, x, load, **changes):
    paths = {path.replace("__", "."): value for path, value in changes.items()}
    return change(POINT, {"at.x": f"{x} in", "hangs.weight": load, **paths}) | {"id": name}


def body(*items, **top):
    return {"units": "us", "detail": "modes", **top, "items": list(items)}


@pytest.fixture(scope="module")
def ask(send):
    """Results by id."""

    def of(*items, **top):
        return {each["id"]: each for each in send(body(*items, **top), status=200)["items"]}

    return of


def breakout(result):
    (mode,) = [each for each in result["modes"] if each["mode"] == "concrete_breakout_tension"]
    return mode["utilisation"]


def codes(result):
    return {each["code"]: each for each in result["findings"]}


def test_two_hangers_are_not_held_by_light_ones_beside_them(ask):
    """1 h_ef apart with 0.65 of phi N_b each: A_Nc / A_Nco = 4/3, 1.3 / (4/3) = 0.975, whatever hangs around.

    Two of 0.01 stand square to them, all four within 3 h_ef of each other, without eccentricity: as one set, and as
    each with its neighbours, they were used to a half.
    """
    pair = [hanger("a", 0, weight(0.65)), hanger("b", 2.75, weight(0.65))]
    light = [hanger(name, 1.375, weight(0.01), at__y=f"{y} in") for name, y in (("c", 4), ("d", -4))]
    for items in (pair, pair + light):
        found = ask(*items)
        assert [breakout(found[name]) for name in "ab"] == pytest.approx([0.975, 0.975])


def test_three_hangers_are_not_held_by_light_ones_beside_them(ask):
    """1 h_ef apart in a row with a half of phi N_b each: A_Nc / A_Nco = 5/3, 1.5 / (5/3) = 0.9; two of them 0.75."""
    heavy = [hanger(name, x, weight(0.5)) for name, x in (("a", 0), ("b", 2.75), ("c", 5.5))]
    light = [hanger(name, 2.75, weight(0.01), at__y=f"{y} in") for name, y in (("d", 4), ("e", -4))]
    for items in (heavy, heavy + light):
        found = ask(*items)
        assert [breakout(found[name]) for name in "abc"] == pytest.approx([0.9] * 3)


def test_two_anchors_in_a_row_are_not_held_by_light_ones_beside_them(ask):
    """4 in from an edge and 3 apart, sheared to it: A_Vc / A_Vco = 15/12 of the pair, which has twice the shear of one.

    Light ones stand 4 in off on both sides: the row of four is 11 in long, and all are within 3 c_a1 of each other.
    """

    def pushed(name, x, shear):
        forces = {"kind": "forces", "components": [{"nature": "dead", "shear_y": shear}]}
        return change(hanger(name, x, 1), {"base.edges": FAR | {"y_plus": 4}, "hangs": forces})

    def used(result):
        (mode,) = [each for each in result["modes"] if each["mode"] == "concrete_breakout_shear"]
        return mode["utilisation"]

    alone = used(ask(pushed("a", 0, 1000))["a"])
    pair = [pushed("a", 0, 1000), pushed("b", 3, 1000)]
    light = [pushed("c", -4, 10), pushed("d", 7, 10)]
    for items in (pair, pair + light):
        found = ask(*items)
        assert [used(found[name]) for name in "ab"] == pytest.approx([2 / (15 / 12) * alone] * 2)


def test_three_hangers_with_unequal_loads(ask):
    """2 h_ef apart with 0.1, 1.5 and 0.1 of phi N_b.

    The chain: A_Nc / A_Nco = 7/3, no eccentricity, 1.7 / (7/3) = 0.729. The middle one alone: 1.5. An outer one with
    the middle one: A_Nc / A_Nco = 5/3; the load is 1.5 / 1.6 of 2 h_ef from the outer one, so e' = 0.875 h_ef and
    psi_ec = 1 / (1 + 0.875 / 1.5): 1.6 / (5/3 psi_ec) = 1.52, the worst of all.
    """
    loads = (0.1, 1.5, 0.1)
    found = ask(*(hanger(f"H{at}", 5.5 * at, weight(load)) for at, load in enumerate(loads)))
    worst = 1.6 / (5 / 3 / (1 + 0.875 / 1.5))
    assert worst > 1.5
    for at, load in enumerate(loads):
        result = found[f"H{at}"]
        assert result["status"] == "failed"
        assert breakout(result) == pytest.approx(worst, rel=1e-9)
        assert result["neighbours"]["alone"] == {
            "utilisation": pytest.approx(load, rel=1e-9),
            "mode": "concrete_breakout_tension",
        }
        assert result["neighbours"]["unlike"] == []
        assert "mixed-group" not in codes(result)
    together = [found[f"H{at}"]["neighbours"]["together"] for at in range(3)]
    assert together == [["H1"], ["H0", "H2"], ["H1"]]


def test_two_hangers_share_their_concrete(ask):
    """Equal loads of 0.6 of phi N_b 5.5 in apart: 1.2 / (5/3) = 0.72, each alone 0.6."""
    found = ask(hanger("a", 0, weight(0.6)), hanger("b", 5.5, weight(0.6)))
    for result in found.values():
        assert result["status"] == "passed"
        assert breakout(result) == pytest.approx(0.72, rel=1e-9)
        assert result["neighbours"]["alone"]["utilisation"] == pytest.approx(0.6, rel=1e-9)
        assert result["governing"]["anchors"] == [0]


@pytest.mark.parametrize("other_name", ["0.5 ft", "6 in"])
def test_alternatives_are_no_neighbours_of_each_other(ask, other_name):
    """One anchor under 0.4 or 0.5 of its strength, one load at a time; as two anchors at one place it failed."""
    one = hanger("A", 6, weight(0.4), alternative_of="set", at__x=other_name)
    other = hanger("B", 6, weight(0.5), alternative_of="set")
    found = ask(one, other)
    for name, share in (("A", 0.4), ("B", 0.5)):
        assert (found[name]["status"], "neighbours" in found[name]) == ("passed", False)
        assert breakout(found[name]) == pytest.approx(share, rel=1e-9)
    apart = ask(one, change(other, {"alternative_of": GONE}))
    assert "neighbour-below-minimum-spacing" in codes(apart["A"])


def test_alternatives_act_together_where_another_point_is_near(ask):
    """Another is 4 in off: an area of 8.25 in by 12.25 in for 0.2 + 0.3 + 0.4 of the strength of one.

    The three anchors have their centre at 4/3 in, their loads at 1.6/0.9 in: psi_ec is 1 / (1 + e / 4.125) of e 4/9 in.
    """
    alternatives = [hanger(name, 0, weight(share), alternative_of="set") for name, share in (("A", 0.2), ("B", 0.3))]
    found = ask(*alternatives, hanger("C", 4, weight(0.4)), hanger("D", 100, weight(0.4)))
    for name in "ABC":
        assert "alternatives-together" in codes(found[name])
        assert breakout(found[name]) == pytest.approx(0.9 / (12.25 / 8.25) * (1 + 4 / 9 / 4.125), rel=1e-9)
    assert "alternatives-together" not in codes(found["D"])
    alone = ask(alternatives[1], hanger("C", 4, weight(0.4)))
    assert "alternatives-together" not in codes(alone["C"])
    assert breakout(alone["C"]) == pytest.approx(0.7 / (12.25 / 8.25) * (1 + (1.6 / 0.7 - 2) / 4.125), rel=1e-9)


def test_the_trace_names_the_points_of_every_set(ask):
    """Three hangers in a row at 2 h_ef: the middle one is near both, the outer ones are near it alone."""
    found = ask(*(hanger(name, 5.5 * at, weight(0.3)) for at, name in enumerate("ABC")), detail="trace")
    for name, sets in (("A", [["B", "C"], [], ["B"]]), ("B", [["A", "C"], [], ["A"], ["C"]])):
        (torn,) = [each for each in found[name]["trace"] if each.get("mode") == "concrete_breakout_tension"]
        rows = [row.get("points", []) for row in torn["rows"]]
        assert sorted(rows) == sorted(sets)
        assert torn.get("points", []) in sets


@pytest.mark.parametrize(("spacing", "near"), [(8.24, True), (8.25, False), (8.26, False)])
def test_how_near_is_near(ask, spacing, near):
    """Strictly below 1.5 (2.75 + 2.75) = 8.25 in."""
    found = ask(hanger("a", 0, 100), hanger("b", spacing, 100))
    assert [("neighbours" in each) for each in found.values()] == [near, near]


def test_unlike_neighbours_are_cut_at_the_boundary(ask):
    """h_ef 2.75 and 3.25 in differ by 15 %; 6 in apart the boundary is 2.75 in from one and 3.25 in from the other.

    Each keeps (1.5 h_ef + h_ef) x 3 h_ef of (3 h_ef)^2: 5/6 of its strength alone.
    """
    deep = {"anchor__size": "1/2", "anchor__h_ef": 3.25}
    found = ask(hanger("a", 0, weight(0.5)), hanger("b", 6, weight(0.5, DEEP), **deep))
    for name, other in (("a", "b"), ("b", "a")):
        result = found[name]
        assert breakout(result) == pytest.approx(0.5 * 6 / 5, rel=1e-9)
        assert (result["neighbours"]["together"], result["neighbours"]["unlike"]) == ([], [other])
        assert codes(result)["mixed-group"]["severity"] == "caution"
        assert "doesn't cover" in codes(result)["mixed-group"]["text"]


def test_a_lesser_difference_of_depth_is_alike(ask):
    """2.5 and 2.75 in differ by 9.1 % of the larger; another family is never alike."""
    shallow = {"anchor__size": "3/8", "anchor__h_ef": 2.5}
    found = ask(hanger("a", 0, 100), hanger("b", 6, 100, **shallow))
    assert found["a"]["neighbours"]["together"] == ["b"]
    stud = {"family": "headed-stud-welded", "size": "1/2", "h_ef": 3.625}
    bolt = {"family": "headed-bolt", "size": "1/2", "h_ef": 4}
    found = ask(hanger("a", 0, 100, anchor=stud), hanger("b", 6, 100, anchor=bolt))
    assert found["a"]["neighbours"]["unlike"] == ["b"]


@pytest.mark.parametrize(
    ("changes", "near"),
    [
        ({}, True),
        ({"base__member": "S2"}, False),
        ({"base__face": "top"}, False),
        ({"at__level": "L2"}, True),  # the member says it
        ({"at__y": "30 in"}, False),
        ({"at__y": "-5 in"}, True),
    ],
)
def test_who_may_be_near(ask, changes, near):
    found = ask(hanger("a", 0, 100), hanger("b", 5, 100, **changes))
    assert [("neighbours" in each) for each in found.values()] == [near, near]
    for result in found.values():
        assert "neighbours" not in result["not_checked"]


@pytest.mark.parametrize(
    ("changes", "near"),
    [
        ({}, True),
        ({"at__x": "8.3 in"}, False),  # 3 x 2.75 = 8.25
        ({"at__z": "9 ft"}, True),  # the other states none
        ({"base__member": "S2"}, False),
        ({"at__y": "30 in"}, False),
    ],
)
def test_points_in_side_faces_are_told_where_others_may_be_near(ask, changes, near):
    """Nobody compares them: the axes of a side face have no direction on plan. Their distance is known from below."""
    own = {"base__face": "side", "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 100}]}}
    found = ask(hanger("a", 0, 100, **own), hanger("b", 5, 100, **(own | changes)))
    for result in found.values():
        assert "neighbours" in result["not_checked"]
        assert ("near-in-side-face" in result["not_checked"]) is near


@pytest.mark.parametrize(("rise", "near"), [("6-1/2 in", True), ("6-5/8 in", False)])
def test_height_counts_in_a_side_face(ask, rise, near):
    """5 in beside and 6.5 in above are 8.20 in, 5 and 6.625 are 8.30: 1.5 (2.75 + 2.75) = 8.25 lies between."""
    forces = {"kind": "forces", "components": [{"nature": "dead", "tension": 100}]}
    own = {"base__face": "side", "hangs": forces, "at__z": 0}
    found = ask(hanger("a", 0, 100, **own), hanger("b", 5, 100, **(own | {"at__z": rise})))
    assert [("near-in-side-face" in each["not_checked"]) for each in found.values()] == [near, near]
    assert not any("near-in-side-face" in each["not_checked"] for each in ask(hanger("c", 0, 100, **own)).values())


@pytest.mark.parametrize(
    "spelt", ["Salle été", "  Salle  été ", "SALLE ÉTÉ", "Salle e\u0301te\u0301", "Salle\u00a0été"]
)
@pytest.mark.parametrize("path", ["base.member", "at.level"])
def test_a_name_is_one_however_it_is_spelt(ask, path, spelt):
    """Spaces, case and the coding of accents (Unicode, annex 15) are no other member: who is near is not hidden."""
    without = {} if path == "base.member" else {"base.member": GONE}
    one, other = (
        change(hanger(*own), {path: name, **without})
        for own, name in ((("a", 0, 300), "Salle été"), (("b", 6, 300), spelt))
    )
    assert ask(one, other)["b"]["neighbours"]["together"] == ["a"]


def test_one_member_is_stated_alike_however_it_is_spelt(send, send_lines):
    """Two thicknesses of one member are wrong, in a batch and in lines."""
    wrong = body(hanger("a", 0, 300), hanger("b", 90, 300, base__member=" s1", base__thickness=8))
    answer = send(wrong, status=200)
    assert {each["status"] for each in answer["items"]} == {"invalid"}
    _, *results, _ = send_lines(as_lines(wrong), status=200)
    assert {each["status"] for each in results} == {"invalid"}


def test_points_of_two_levels_are_not_near(ask):
    """Without a member the level stands for it, which every point then says."""
    own = {"base__member": GONE}
    found = ask(hanger("a", 0, 100, **own), hanger("b", 5, 100, at__level="L2", **own), hanger("c", 5, 100, **own))
    assert found["a"]["neighbours"]["together"] == ["c"]
    assert "neighbours" not in found["b"]
    for result in found.values():
        assert "member-by-level" in result["assumptions"]
        assert "neighbours" not in result["not_checked"]


@pytest.mark.parametrize("lacks", [{"at.x": GONE}, {"at.y": GONE}, {"at.level": GONE, "base.member": GONE}])
def test_a_point_without_its_place_is_not_compared(ask, lacks):
    found = ask(hanger("a", 0, 100), change(hanger("b", 5, 100), lacks))
    assert "neighbours" not in found["a"] | found["b"]
    assert "neighbours" in found["b"]["not_checked"]


def test_turned_off_nobody_is_near(send, ask):
    items = hanger("a", 0, weight(0.9)), hanger("b", 5.5, weight(0.9))
    off, on = ask(*items, neighbours="off"), ask(*items)
    assert [each["status"] for each in off.values()] == ["passed", "passed"]
    assert [each["status"] for each in on.values()] == ["failed", "failed"]
    for name in "ab":
        assert "neighbours" not in off[name]
        assert "neighbours" in off[name]["not_checked"]
        assert "neighbours" not in on[name]["not_checked"]
        assert breakout(off[name]) == on[name]["neighbours"]["alone"]["utilisation"]
    text = send(body(*items, neighbours="off"))["not_checked"]["neighbours"]
    assert text
    problem = send(body(*items, neighbours="maybe"), status=422)
    assert problem["errors"][0]["pointer"] == "#/neighbours"


def test_a_point_too_near_another_fails(ask):
    """Least spacing by the data of the product: 3.75 in (17.9.2)."""
    found = ask(hanger("a", 0, 10), hanger("b", 3.7, 10))
    for result in found.values():
        finding = codes(result)["neighbour-below-minimum-spacing"]
        assert result["status"] == "failed"
        assert (finding["value"], finding["limit"]) == (pytest.approx(3.7), pytest.approx(3.75))


def test_a_chain_above_the_limit_is_refused_by_name(ask):
    """65 hangers 5 in apart hang together; 64 are checked."""
    line = [hanger(f"H{at}", 5 * at, 10) for at in range(65)]
    found = ask(*line)
    for result in found.values():
        assert result["status"] == "refused"
        assert result["reason"]["code"] == "too-many-neighbours"
    assert {each["status"] for each in ask(*line[:-1]).values()} == {"passed"}


def test_a_refused_neighbour_is_told(ask):
    """Its load is in nobody's check."""
    found = ask(
        hanger("a", 0, weight(0.6)),
        hanger("b", 5.5, weight(0.6), hangs={"kind": "forces", "components": [{"nature": "wind", "tension": -9}]}),
    )
    assert found["b"]["status"] == "refused"
    assert codes(found["a"])["neighbour-not-counted"]["severity"] == "caution"
    assert breakout(found["a"]) == pytest.approx(0.6, rel=1e-9)


@pytest.mark.parametrize("changes", [{"base__thickness": "8 psi"}, {"base__edges": GONE}, {"at__x": "5.5 psi"}])
def test_an_invalid_neighbour_is_told(send, changes):
    """Nobody knows where it is, so the answer says that it is taken to be nobody's neighbour."""
    good, other = hanger("a", 0, weight(0.6)), hanger("b", 5.5, weight(0.6), **changes)
    answer = send(body(good, other), status=200)
    first, second = answer["items"]
    assert second["status"] == "invalid"
    assert "neighbours" not in first
    assert "mend them" in answer["assumptions"]["invalid-points-not-near"]
    for whole in (body(good), body(good, other, neighbours="off")):
        assert "invalid-points-not-near" not in send(whole, status=200)["assumptions"]


def test_a_group_beside_a_hanger(ask):
    """A pair 6 in apart with its plate clear of the slab, and a hanger 6 in from one of them: three in a row.

    All alike and 0.3 of phi N_b each, spacing s of 3 h_ef = 8.25 in: 0.9 / (1 + 2 s / 8.25).
    """
    pair = hanger(
        "pair",
        3,
        weight(0.6),
        anchor__layout=[{"x": -3, "y": 0}, {"x": 3, "y": 0}],
        attachment={"plate": {"width_x": 9, "width_y": 3, "support": "free"}, "thickness": 1},
    )
    found = ask(pair, hanger("lone", 12, weight(0.3)))
    for result in found.values():
        assert breakout(result) == pytest.approx(0.9 / (1 + 12 / 8.25), rel=1e-6)
    assert found["pair"]["neighbours"]["together"] == ["lone"]
    assert found["lone"]["governing"]["anchors"] == [0]


def test_named_load_cases_of_neighbours_meet(ask):
    """Each point is checked in the other's load cases too, there with its own largest pull."""

    def point(name, x, **loads):
        cases = [
            {"name": case, "components": [{"nature": "dead", "tension": share * SHALLOW}]}
            for case, share in loads.items()
        ]
        return hanger(name, x, 0, hangs={"kind": "forces", "load_cases": cases})

    found = ask(point("a", 0, summer=0.6, winter=0.2), point("b", 5.5, winter=0.6), combinations="given_factored")
    assert breakout(found["a"]) == breakout(found["b"]) == pytest.approx(1.2 / (5 / 3), rel=1e-9)
    assert found["a"]["governing"]["load_case"] == found["b"]["governing"]["load_case"] == "summer"


def mesh(count, seed=2):
    """Points along rows of a member, many of them near one or two others, of several products and of every status."""
    draw = random.Random(seed)
    kinds = [{}, {}, {}, {"anchor__size": "1/2", "anchor__h_ef": 3.25}, {"anchor__size": "3/8", "anchor__h_ef": 2.5}]
    items = []
    for at in range(count):
        near = at % 7 in (1, 3)
        place = {"at__y": f"{40 * (at // 100)} ft", **draw.choice(kinds)}
        x = 60 * (at % 100) - (54.25 if near else 0)
        items.append(hanger(f"P{at}", x, weight(draw.uniform(0.05, 0.8)), **place))
    return items


def test_the_order_of_a_batch_and_its_blocks_change_nothing(ask):
    """1,001 points, more than a block; neighbours stand side by side, or in different thousands."""
    items = mesh(1001)
    found = ask(*items)
    assert sum("neighbours" in each for each in found.values()) > 300
    shuffled = [*items]
    random.Random(5).shuffle(shuffled)
    again = ask(*shuffled)
    ends = ask(items[-1], *items[1:-1], items[0])
    for name, result in found.items():
        for other in (again, ends):
            assert unordered(other[name]) == unordered(result)


def unordered(result):
    """A result without what the order of the request decides: the row, and the order of neighbours."""
    made = json.loads(json.dumps(result))
    del made["index"]
    for name in ("together", "unlike"):
        if "neighbours" in made:
            made["neighbours"][name].sort()
    return rounded(made)


def rounded(value):
    """Numbers to 12 digits: sums are taken in another order."""
    if isinstance(value, dict):
        return {key: rounded(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [rounded(inner) for inner in value]
    return float(f"{value:.11e}") if isinstance(value, float) else value


def test_neighbours_in_different_thousands(ask):
    """The first and the last of 1,001 points are the pair of 0.72; those between are far from everybody."""
    between = [hanger(f"P{at}", 100 + 20 * at, 10) for at in range(999)]
    found = ask(hanger("first", 0, weight(0.6)), *between, hanger("last", 5.5, weight(0.6)))
    assert found["first"]["neighbours"]["together"] == ["last"]
    assert breakout(found["first"]) == breakout(found["last"]) == pytest.approx(0.72, rel=1e-9)
    assert "neighbours" not in found["P500"]


def test_lines_are_read_whole_where_neighbours_are_asked_for(send, send_lines):
    """By the header or by the query, answered as lines or whole: as JSON says; otherwise each point is alone."""
    items = mesh(1001)
    whole = body(*items, detail="verdict")
    plain = send(whole, status=200)
    asked = as_lines({**whole, "neighbours": "check"})
    assert send_lines(asked, status=200)[1:-1] == plain["items"]
    assert send_lines(as_lines(whole), "?neighbours=check", status=200)[1:-1] == plain["items"]
    _, *_, last = send_lines(asked, status=200)
    assert last["summary"] == plain["summary"]
    assert last["request_digest"] == plain["request_digest"]
    assert send_lines(asked, "?format=json", status=200) == plain
    off = send_lines(as_lines(whole), status=200)[1:-1]
    assert not any("neighbours" in each for each in off)
    assert off == send({**whole, "neighbours": "off"}, status=200)["items"]


def test_a_bad_line_among_neighbours_costs_itself(send_lines):
    first, second = hanger("a", 0, weight(0.6)), hanger("b", 5.5, weight(0.6))
    lines = [{"units": "us", "neighbours": "check"}, first, "nope", {**second, "much": 1}, second, {**first, "at": {}}]
    _, a, bad, wrong, twice, again, last = send_lines(lines, status=200)
    assert [each["status"] for each in (a, bad, wrong, twice, again)] == ["passed", *["invalid"] * 4]
    places = [each["problem"]["errors"][0]["pointer"] for each in (bad, wrong, twice, again)]
    assert places == ["#/lines/3", "#/lines/4/much", "#/lines/5/id", "#/lines/6/id"]
    assert "invalid-points-not-near" in last["assumptions"]


def test_lines_with_neighbours_are_under_the_limits_of_a_batch(send_lines):
    """A stream may have 200,000 points, a batch 10,000."""
    header = {"units": "us", "neighbours": "check", "detail": "verdict", "defaults": POINT}
    lines = [header, *({"id": f"P{at}"} for at in range(10_001))]
    problem = send_lines(lines, status=413)
    assert problem["type"] == "/problems/too-many-items"
    assert problem["limit"] == 10_000


def test_a_csv_of_neighbours(send, send_csv):
    paths = ["id", "at.x", "at.y", "at.level", "hangs.kind", "hangs.nature", "hangs.weight", "anchor.family"]
    paths += ["anchor.size", "anchor.h_ef", "base.kind", "base.strength.f_c", "base.density", "base.thickness"]
    paths += ["base.member", *(f"base.edges.{side}" for side in FAR), "seismic.category"]
    items = [hanger("a", 0, 1300.5), hanger("b", 5.5, 1300.5), hanger("c", 50, 10)]

    def cell(value, path):
        for part in path.split("."):
            value = value[part]
        return str(value)

    text = "\n".join([",".join(paths), *(",".join(cell(each, path) for path in paths) for each in items)])
    plain = send(body(*items), status=200)["items"]
    assert send_csv(text, "?units=us&format=json&detail=modes", status=200)["items"] == plain
    rows = schedule(send_csv(text, "?units=us", status=200))
    named = [(row["governing_anchors"], row["neighbours"], row["to_engineer"]) for row in rows]
    assert named == [("0", "b", ""), ("0", "a", ""), ("", "", "")]
    off = schedule(send_csv(text, "?units=us&neighbours=off", status=200))
    assert [row["neighbours"] for row in off] == ["", "", ""]


def schedule(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_points_in_one_place_are_answered(client):
    """200 of them: more neighbours than may be checked, each told so."""
    items = [hanger(f"P{at}", 0, 10) for at in range(200)]
    response = client.post(BATCH_PATH, json=body(*items))
    answer = response.json()
    assert answer["summary"]["refused"] == 200
    assert {each["reason"]["code"] for each in answer["items"]} == {"too-many-neighbours"}


@pytest.mark.parametrize(
    ("at", "member", "compared"),
    [
        ({"level": "L1", "x": "8.2 in", "y": 0}, "S1", (False, False)),
        ({"level": "L1", "x": "8.3 in", "y": 0}, "S1", (True, True)),  # from 1.5 (2.75 + 2.75) on not near
        ({"x": "8.2 in", "y": 0}, "S1", (False, False)),  # on any level
        ({"level": "L2", "x": "8.2 in", "y": 0}, "S1", (True, True)),
        ({"level": "L1", "x": "8.2 in", "y": 0}, GONE, (True, True)),
    ],
)
def test_a_member_that_one_of_two_names(ask, at, member, compared):
    """Nobody knows whether the two are in one member: near each other, both stay unchecked for neighbours."""
    found = ask(
        hanger("level", 0, 100, base__member=GONE),
        change(POINT, {"at": at, "base.member": member})
        | {"id": "b"}
        | {"hangs": {"kind": "weight", "nature": "dead", "weight": 100}},
    )
    assert tuple("neighbours" not in each["not_checked"] for each in found.values()) == compared


def test_edges_in_two_places(ask):
    """h_ef 2.75 in, 5.5 in apart along x. One states an edge 14 in off along +x, the other none: for it, the edge is
    8.5 in off, beyond 1.5 h_ef, and only told. With the edge 8.5 in from the first it is 3 in from the second: the set
    of both has A_Nc = (4.125 + 5.5 + 3) 8.25 of 8.25^2 and psi_ed = 0.7 + 0.3 x 3 / 4.125."""
    load = weight(0.3)
    for edge, share in ((14, 5 / 3), (8.5, (12.625 / 8.25) * (0.7 + 0.3 * 3 / 4.125))):
        found = ask(hanger("a", 0, load, base__edges__x_plus=edge), hanger("b", 5.5, load))
        for result in found.values():
            assert codes(result)["edges-disagree"]["severity"] == "caution"
        assert breakout(found["b"]) == pytest.approx(max(0.6 / share, breakout_of_one(edge - 5.5)), rel=1e-9)
    agreed = ask(hanger("a", 0, load, base__edges__x_plus=8.5), hanger("b", 5.5, load, base__edges__x_plus=3.9))
    assert all("edges-disagree" not in codes(each) for each in agreed.values())


def test_a_plate_bears_up_to_the_edge_that_a_neighbour_states(ask):
    """Four bolts at 4 in, a plate of 16 x 12 in, 500 lb and 20,000 lb in towards +x; 20 in off a point says that the
    edge is 6 in off. Pressed Y deep at 6 in: 2T = 700 + C, 28,000 = 4 x 2T + C (6 - Y / 3), C = 6 sigma Y and
    2T = 2 x 8.044 x .3345 sigma (10 - Y) / Y, so Y is 2.3389 and T 1,716.5 lb.
    """
    four = [{"x": x, "y": y} for x in (-4, 4) for y in (-4, 4)]
    bolt = {"family": "headed-bolt", "size": "3/4", "h_ef": 6}
    load = {"kind": "forces", "components": [{"nature": "dead", "tension": 500, "moment_y": 20000}]}
    base = {"base.strength.f_c": 4000, "base.thickness": 24, "base.edges.x_plus": "none"}
    plate = {"attachment": {"plate": {"width_x": 16, "width_y": 12, "support": "concrete"}}}
    one = change(hanger("a", 0, 100), base | {"anchor": bolt | {"layout": four}, "hangs": load}) | plate
    pair = [{"x": -2, "y": 20}, {"x": 2, "y": 20}]
    two = change(hanger("b", 0, 100), base | {"anchor": bolt | {"layout": pair}, "base.edges.x_plus": 6})
    found = ask(one, two)["a"]
    assert "edges-disagree" in codes(found)
    (steel,) = (each for each in found["modes"] if each["mode"] == "steel_tension")
    assert steel["demand"] == pytest.approx(1716.54, abs=0.01)


def breakout_of_one(edge):
    """Use of a lone anchor under 0.3 of phi N_b with one edge so far off: 17.6.2.1 and 17.6.2.4."""
    near = min(edge, 4.125)
    return 0.3 / ((4.125 + near) / 8.25 * (0.7 + 0.3 * near / 4.125))


def test_an_edge_between_two_points_is_told(ask):
    """An edge 3 in from one, the other 5.5 in off on that side: it would run between them, so neither takes
    that of the other. Edges that are 1 in off by both agree."""
    found = ask(hanger("a", 0, 100, base__edges__x_plus=3), hanger("b", 5.5, 100))
    assert all("edges-disagree" in codes(each) for each in found.values())
    agree = ask(hanger("a", 0, 100, base__edges__x_plus=12.5), hanger("b", 5.5, 100, base__edges__x_plus=6))
    assert all("edges-disagree" not in codes(each) for each in agree.values())


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"base__member": GONE, "base__thickness": 8}, "bases-disagree"),
        ({"base__member": GONE, "base__strength__f_c": 3000}, "bases-disagree"),
        ({"base__density": "sand_lightweight"}, "bases-disagree"),
        ({"base__state": "uncracked", "base__state_decided_by": "engineer"}, "bases-disagree"),
        ({"base__supplementary": True}, "bases-disagree"),  # phi of .75 at one, of .65 at the other, of one breakout
        ({"base__edge_reinforcement": "edge_bar"}, "bases-disagree"),
        ({"seismic__category": "D"}, "bases-disagree"),
        ({"at__level": "L2"}, "levels-disagree"),
    ],
)
def test_what_near_points_state_otherwise_is_said(ask, changes, code):
    """Thickness and strength of one named member have to agree; of points on a level, and else, it is a caution."""
    own = {"base__member": GONE} if "base__member" in changes else {}
    found = ask(hanger("a", 0, 100, **own), hanger("b", 5.5, 100, **changes))
    assert all(codes(each)[code]["severity"] == "caution" for each in found.values())
    alike = ask(hanger("a", 0, 100, **changes), hanger("b", 5.5, 100, **changes))
    far = ask(hanger("a", 0, 100, **own), hanger("b", 12, 100, **changes))
    assert not {"bases-disagree", "levels-disagree"} & {
        own for each in (alike, far) for r in each.values() for own in codes(r)
    }


@pytest.mark.parametrize("state", ["cracked", "uncracked"])
def test_a_set_of_near_anchors_has_the_factor_of_its_weaker_one(ask, state):
    """Table 17.5.3(b) has one factor for one surface that breaks out: 0.55 of a screw of category 2 also for one of
    category 1, 4 in beside it. phi N_cbg = 0.55 k_c sqrt(4,000) 2^1.5 x (6 + 4) / 6 in a slab without edges; the better
    one was held against 0.65. The least coefficients of the two are the same, 17 and 24.
    """
    k_c = 17 if state == "cracked" else 24
    screw = {"family": "large-screw-internal-thread-zinc", "h_ef": 2}
    stated = {"base__state": state} | ({"base__state_decided_by": "invented"} if state == "uncracked" else {})
    small = hanger("small", 0, 500, anchor=screw | {"size": "1/4"}, **stated)
    large = hanger("large", 4, 500, anchor=screw | {"size": "3/8"}, **stated)
    found = ask(small, large)
    strength = 0.55 * k_c * ROOT_F_C * 2**1.5 * (6 + 4) / 6
    assert [breakout(each) for each in found.values()] == pytest.approx([1.4 * 1000 / strength] * 2, rel=1e-9)
    alone = 0.65 * k_c * ROOT_F_C * 2**1.5
    assert breakout(ask(large)["large"]) == pytest.approx(1.4 * 500 / alone, rel=1e-9)


@pytest.mark.parametrize(
    ("units", "far", "told"),
    [("us", 2001, True), ("us", 1999, False), ("us", "2001 ft", True), ("si", 611, True), ("si", 609, False)],
)
@pytest.mark.parametrize("axis", ["x", "y"])
def test_points_farther_apart_than_a_building_is_wide_ask_for_their_unit(send, units, far, told, axis):
    """Inches or millimetres without a unit are read as ft and m: then two hangers at a hand's width are far apart."""
    items = [
        change(hanger(name, 0, "100 lb", base__member=member), {"at.x": 0, "at.y": 0, f"at.{axis}": place})
        for name, place, member in (("A", 0, "S1"), ("B", far, "S1"), ("C", 6, "S2"), ("D", 12, "S2"))
    ]
    si = {"base.thickness": "10 in", "base.strength.f_c": "4000 psi"}
    items = [change(item, si) for item in items] if units == "si" else items
    items = [change(item, {"anchor.h_ef": "2.75 in"}) for item in items]
    answer = send(body(*items, units=units), status=200)
    said = {each["id"]: "coordinates-as-stated" in each["assumptions"] for each in answer["items"]}
    assert said == {"A": told, "B": told, "C": False, "D": False}
    assert ("coordinates-as-stated" in answer["assumptions"]) is told
