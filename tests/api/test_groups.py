"""Groups of anchors as a user asks for them: at a hang point, in a batch, and alone.

Expected numbers are computed by hand beside each, with the equations of ACI 318-19 chapter 17 and the statics of a
rigid plate. The building is invented.
"""

import math

import pytest

from api.bodies import GONE, as_lines, change
from hangpoint.api.media import NDJSON
from hangpoint.api.routes.hang_points import GROUP_PATH

FOUR = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 8, "spacing_y": 8}
PAIR = [{"x": -4, "y": 0}, {"x": 4, "y": 0}]
FAR = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
WIDE = {"width_x": 12, "width_y": 12}
GROUP = {
    "loads": {"components": [{"nature": "dead", "tension": 3000}]},
    "anchor": {"family": "headed-bolt", "size": "3/4", "h_ef": 6, "layout": FOUR},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "state": "cracked",
        "thickness": 24,
        "edges": FAR,
    },
    "attachment": {"plate": WIDE, "thickness": 2},
    "seismic": {"category": "B"},
}
FACTORED = {"units": "us", "combinations": "given_factored"}
N_B = 24 * math.sqrt(4000) * 6**1.5
"""17.6.2.2.1, cast in, lbf."""


def as_item(group, name="group"):
    """The same as an item of a batch."""
    rest = {key: value for key, value in group.items() if key != "loads"}
    return {"id": name, "hangs": {"kind": "forces", **group["loads"]}, **rest}


def forces(**components):
    return {"components": [{"nature": "dead", **components}]}


def modes(result):
    return {each["mode"]: each for each in result["modes"] if each["applies"]}


def codes(result):
    return {each["code"]: each for each in result["findings"]}


@pytest.fixture(scope="module")
def send_group(send):
    def post(group, status=200, **top):
        return send({**FACTORED, **top, "group": group}, GROUP_PATH, status=status)

    return post


@pytest.fixture(scope="module")
def one(send_group):
    def post(group, **top):
        return send_group(group, **top)["items"][0]

    return post


def test_a_group_is_a_hang_point_with_forces(send_one, send_group):
    """The whole answer, its digest and its trace."""
    alone = send_group(GROUP)
    assert alone == send_one({**FACTORED, "item": as_item(GROUP)}, status=200)
    assert alone["items"][0]["trace"]
    assert alone["items"][0]["id"] == "group"
    assert send_group({**GROUP, "id": "BP-1"})["items"][0]["id"] == "BP-1"


def test_four_anchors_pulled_in_their_middle(one):
    """Steel 0.75 A_se f_uta on a quarter each; breakout on A_Nc = (18 + 8)^2 = 676 of A_Nco = 18^2 = 324 in2.

    phi 0.70: cast in, without supplementary reinforcement.
    """
    result = one(GROUP)
    found = modes(result)
    steel = 0.75 * 0.3345 * 58_000
    assert found["steel_tension"]["demand"] == pytest.approx(750, rel=1e-9)
    assert found["steel_tension"]["design_strength"] == pytest.approx(steel, rel=1e-12)
    breakout = found["concrete_breakout_tension"]
    assert breakout["demand"] == pytest.approx(3000, rel=1e-9)
    assert breakout["design_strength"] == pytest.approx(0.70 * 676 / 324 * N_B, rel=1e-9)
    assert breakout["anchors"] == [0, 1, 2, 3]
    assert result["status"] == "passed"
    assert result["governing"]["utilisation"] == pytest.approx(max(750 / steel, 3000 / breakout["design_strength"]))


def test_a_moment_without_contact_pulls_one_side_and_pushes_the_other(one):
    """N = 500, M_y = 8,000 lbf*in on two anchors 8 in apart: 250 -+ 1,000, the pull at -x where M_y is positive."""
    group = change(
        GROUP, {"anchor.layout": PAIR, "attachment": GONE, "loads": forces(tension=500, moment_y=8000), "id": "pair"}
    )
    result = one(group)
    assert result["status"] == "failed"
    pushed = codes(result)["anchor-pushed"]
    assert pushed["severity"] == "violation"
    assert pushed["value"] == pytest.approx(750, rel=1e-9)
    steel = modes(result)["steel_tension"]
    assert steel["demand"] == pytest.approx(1250, rel=1e-9)
    assert steel["anchors"] == [0]
    other = one(change(group, {"loads": forces(tension=500, moment_y=-8000)}))
    assert modes(other)["steel_tension"]["anchors"] == [1]


def test_a_plate_that_bears_pushes_no_anchor(one):
    """The same with a plate on the concrete: the pull lies between M / 8 in and M over the arm to the plate's edge."""
    result = one(change(GROUP, {"anchor.layout": PAIR, "loads": forces(moment_y=8000)}))
    assert "anchor-pushed" not in codes(result)
    pull = modes(result)["steel_tension"]["demand"]
    assert 8000 / 10 < pull < 8000 / 8


def test_no_balance_is_a_finding(one):
    """Two anchors in a line, nothing that bears: a moment about the line is held by nothing."""
    result = one(
        change(GROUP, {"anchor.layout": PAIR, "attachment": GONE, "loads": forces(tension=500, moment_x=1000)})
    )
    assert result["status"] == "failed"
    assert codes(result)["no-equilibrium"]["severity"] == "violation"
    assert "steel_tension" not in modes(result)
    assert "governing" not in result


def test_torsion_shears_the_corners(one):
    """T = 8,000 lbf*in on four anchors at 4 sqrt(2) in: T / (4 x 5.657) = 353.55 on each; V_y = 400 adds 100 to it.

    The shear from the torsion has 250 along x and along y; at +x the y part adds: sqrt(250^2 + 350^2).
    """
    result = one(change(GROUP, {"loads": forces(torsion=8000, shear_y=400)}))
    shear = modes(result)["steel_shear"]
    assert shear["demand"] == pytest.approx(math.hypot(250, 350), rel=1e-12)
    assert shear["anchors"] in ([1], [3])
    assert shear["design_strength"] == pytest.approx(0.65 * 0.6 * 0.3345 * 58_000, rel=1e-12)


def test_an_anchor_in_a_slot_takes_no_shear_along_it(one):
    layout = [{"x": -4, "y": 0, "resists": "y"}, {"x": 4, "y": 0}]
    result = one(change(GROUP, {"anchor.layout": layout, "loads": forces(tension=100, shear_x=900)}))
    shear = modes(result)["steel_shear"]
    assert (shear["anchors"], shear["demand"]) == ([1], pytest.approx(900, rel=1e-12))


def test_the_origin_of_the_edges_is_that_of_the_layout(one):
    """x_minus is 10 in from the origin, the nearest anchors are 4 in nearer: c_a1 = 6 in; c_a2 has no limit.

    A_Vc = (3 x 6 + 8) x 9 = 234 of 4.5 x 6^2 = 162 in2; V_b by 17.7.2.2.1 (l_e = 6 in of at most 8 d_a = 6 in), and
    at most 9 sqrt(f'c) c_a1^1.5; psi_c,V, psi_h,V and psi_ed,V are 1. The gap to the second row is 8 in and not below
    c_a1, so the near row takes its own half.
    """
    group = change(GROUP, {"base.edges.x_minus": 10, "loads": forces(tension=10, shear_x=-2000)})
    shear = modes(one(group))["concrete_breakout_shear"]
    v_b = min(7 * (6 / 0.75) ** 0.2 * math.sqrt(0.75) * math.sqrt(4000) * 6**1.5, 9 * math.sqrt(4000) * 6**1.5)
    near = 0.70 * 234 / 162 * v_b
    c_far = 14
    v_b_far = min(
        7 * (6 / 0.75) ** 0.2 * math.sqrt(0.75) * math.sqrt(4000) * c_far**1.5, 9 * math.sqrt(4000) * c_far**1.5
    )
    far = 0.70 * (3 * c_far + 8) * 21 / (4.5 * c_far**2) * v_b_far
    assert 1000 / near > 2000 / far
    assert shear["edge"] == "x_minus"
    assert shear["demand"] == pytest.approx(1000, rel=1e-9)
    assert shear["design_strength"] == pytest.approx(near, rel=1e-9)


CASES = {
    "load_cases": [
        {"name": "operating", "components": [{"nature": "dead", "tension": 6000}]},
        {"name": "full and shut off", "components": [{"nature": "dead", "tension": 9000}]},
        {"name": "empty", "components": [{"nature": "dead", "tension": 3000}]},
    ]
}


def test_the_worst_of_named_load_cases_is_named_and_so_is_the_next(send_group):
    """All modes are linear in the pull: the next is 6,000 / 9,000 of the worst."""
    answer = send_group(change(GROUP, {"loads": CASES}))
    (result,) = answer["items"]
    assert result["demand"]["load_case"] == "full and shut off"
    assert result["governing"]["load_case"] == "full and shut off"
    assert "full and shut off" in result["governing"]["text"]
    following = result["governing"]["next"]
    assert following["load_case"] == "operating"
    assert following["utilisation"] == pytest.approx(result["governing"]["utilisation"] * 2 / 3, rel=1e-9)
    assert set(answer["load_cases"]) >= {"operating", "full and shut off", "empty"}
    alone = send_group(change(GROUP, {"loads": forces(tension=9000)}))["items"][0]
    assert alone["governing"]["utilisation"] == pytest.approx(result["governing"]["utilisation"], rel=1e-12)


def test_patterns_are_lists(one):
    corners = [{"x": x, "y": y} for y in (-4, 4) for x in (-4, 4)]
    load = forces(tension=900, moment_x=3000, moment_y=-2000, shear_x=300, torsion=500)
    by_pattern = one(change(GROUP, {"loads": load}))
    by_list = one(change(GROUP, {"loads": load, "anchor.layout": corners}))
    around = {"pattern": "circle", "count": 4, "diameter": 8 * math.sqrt(2), "angle": -135}
    by_circle = one(change(GROUP, {"loads": load, "anchor.layout": around}))
    assert by_pattern["modes"] == by_list["modes"]
    order = {0: 0, 1: 1, 2: 3, 3: 2}
    for mine, its in zip(by_pattern["modes"], by_circle["modes"], strict=True):
        if mine["applies"]:
            assert its["utilisation"] == pytest.approx(mine["utilisation"], rel=1e-9)
            assert {order[at] for at in its.get("anchors", ())} == set(mine.get("anchors", ()))


def test_the_same_question_in_si(one):
    """1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, 1 psi = 6.894757293168 kPa."""
    newton = 4.4482216152605
    us = {
        "id": "a",
        "loads": forces(tension=1800, shear_x=400, moment_x=9000, torsion=-2000) | {"at": {"z": 2}},
        "base.edges.x_plus": 12,
    }
    force, moment = newton / 1000, newton * 25.4 / 1e6
    si = {
        "id": "a",
        "loads": forces(tension=1800 * force, shear_x=400 * force, moment_x=9000 * moment, torsion=-2000 * moment)
        | {"at": {"z": 50.8}},
        "anchor.h_ef": 152.4,
        "anchor.layout": {**FOUR, "spacing_x": 203.2, "spacing_y": 203.2},
        "attachment": {"plate": {"width_x": 304.8, "width_y": 304.8}, "thickness": 50.8},
        "base.strength.f_c": 4000 * 0.006894757293168,
        "base.thickness": 609.6,
        "base.edges.x_plus": 304.8,
    }
    mine, its = one(change(GROUP, us)), one(change(GROUP, si), units="si")
    assert its["status"] == mine["status"]
    assert its["governing"]["anchors"] == mine["governing"]["anchors"]
    for a, b in zip(mine["modes"], its["modes"], strict=True):
        assert a["applies"] == b["applies"]
        if a["applies"]:
            factor = 1.0 if a["mode"] == "tension_shear_interaction" else force
            assert b["utilisation"] == pytest.approx(a["utilisation"], rel=1e-9)
            assert b["design_strength"] == pytest.approx(a["design_strength"] * factor, rel=1e-9)
            assert b.get("anchors") == a.get("anchors")


def test_a_trace_says_which_anchors_every_line_is_about(one):
    result = one(change(GROUP, {"loads": forces(tension=900, moment_x=9000)}))
    by_record = {}
    for section in result["trace"]:
        by_record.setdefault(section["record"], []).append(section)
    assert [each["anchor"] for each in by_record["PlateAnchor"]] == [0, 1, 2, 3]
    (breakout,) = by_record["ConcreteBreakoutTension"]
    (mode,) = [each for each in result["modes"] if each["mode"] == "concrete_breakout_tension"]
    assert breakout["anchors"] == mode["anchors"]
    assert max(row["utilisation"] for row in breakout["rows"]) == mode["utilisation"]
    assert len(breakout["rows"]) > 1


def test_the_digest_changes_with_every_input_of_a_group(send_group):
    base = change(GROUP, {"loads": CASES, "base.edges.x_plus": 20, "id": "a"})
    component = "loads.load_cases.1.components.0"
    changes = [
        {},
        {f"{component}.tension": 9001},
        {f"{component}.shear_x": 1},
        {f"{component}.shear_y": 1},
        {f"{component}.moment_x": 1},
        {f"{component}.moment_y": 1},
        {f"{component}.torsion": 1},
        {"loads.load_cases.1.name": "shut off"},
        {"loads.load_cases.1.sustained_fraction": 0.5},
        {"loads.load_cases.1.earthquake_fraction": 0.1},
        {"loads.at": {"x": 0.1}},
        {"loads.at": {"z": 0.1}},
        {"anchor.layout.spacing_x": 8.1},
        {"anchor.layout.center": {"x": 0.1}},
        {"anchor.layout.rows": 1},
        {"attachment.plate.width_x": 12.1},
        {"attachment.plate.center": {"y": 0.1}},
        {"attachment.plate.support": "grout"},
        {"attachment.plate.support": "free"},
        {"attachment.thickness": 1.9},
        {"base.edges.x_plus": 20.1},
        {"options": {"group_area": "rectangle"}},
    ]
    digests = [send_group(change(base, each))["request_digest"] for each in changes]
    assert len(set(digests)) == len(digests)


SIXTY_FIVE = [{"x": 4 * at, "y": 0} for at in range(65)]
BAD = {
    "two anchors in one place": (
        {"anchor.layout": [{"x": 1, "y": 2}, {"x": 1, "y": 2}]},
        "anchor/layout/1",
        "coincident",
    ),
    "two anchors in each other": ({"anchor.layout": [*PAIR, {"x": 4.5, "y": 0}]}, "anchor/layout/2", "coincident"),
    "a pattern in itself": (
        {"anchor.layout": {"pattern": "row", "count": 3, "spacing": 0.2}},
        "anchor/layout",
        "coincident",
    ),
    "outside the plate": ({"anchor.layout": [*PAIR, {"x": 0, "y": 7}]}, "anchor/layout/2", "outside-plate"),
    "a pattern outside the plate": ({"anchor.layout.spacing_x": 14}, "anchor/layout", "outside-plate"),
    "outside the member": (
        {"base.edges.x_minus": 3, "anchor.layout": PAIR, "attachment.plate.support": "free"},
        "anchor/layout/0",
        "beyond-edge",
    ),
    "edges that contradict a pattern": (
        {"base.edges.y_plus": 4, "attachment.plate.support": "free"},
        "anchor/layout",
        "beyond-edge",
    ),
    "a plate past an edge": ({"base.edges.y_plus": 5}, "attachment/plate", "beyond-edge"),
    "a plate of no width": ({"attachment.plate.width_x": 0}, "attachment/plate/width_x", "quantity"),
    "a plate of one width": ({"attachment.plate.width_y": GONE}, "attachment/plate/width_y", "missing"),
    "a moment on one anchor": (
        {"anchor.layout": GONE, "attachment": GONE, "loads": forces(tension=5, moment_y=3)},
        "hangs/components/0/moment_y",
        "impossible-geometry",
    ),
    "a load beside one anchor": (
        {"anchor.layout": GONE, "attachment": GONE, "loads.at": {"x": 1}},
        "hangs/at",
        "impossible-geometry",
    ),
    "one anchor beside its load": (
        {"anchor.layout": [{"x": 1, "y": 0}], "attachment": GONE},
        "anchor/layout/0",
        "impossible-geometry",
    ),
    "torsion on one anchor": (
        {"anchor.layout": GONE, "loads": forces(tension=5, torsion=3)},
        "hangs/components/0/torsion",
        "contradiction",
    ),
    "a moment of a named load case on one anchor": (
        {
            "anchor.layout": GONE,
            "attachment": GONE,
            "loads": change(CASES, {"load_cases.2.components.0.moment_x": 4}),
        },
        "hangs/load_cases/2/components/0/moment_x",
        "impossible-geometry",
    ),
    "two load cases of one name": (
        {"loads": change(CASES, {"load_cases.2.name": "operating"})},
        "hangs/load_cases/2/name",
        "duplicate-name",
    ),
    "no loads": ({"loads": {}}, "hangs/components", "missing"),
    "65 anchors by a list": ({"anchor.layout": SIXTY_FIVE}, "anchor/layout", "too_long"),
    "65 anchors in a row": (
        {"anchor.layout": {"pattern": "row", "count": 65, "spacing": 4}},
        "anchor/layout/count",
        "less_than_equal",
    ),
    "65 anchors on a circle": (
        {"anchor.layout": {"pattern": "circle", "count": 65, "diameter": 900}},
        "anchor/layout/count",
        "less_than_equal",
    ),
    "72 anchors in a rectangle": (
        {"anchor.layout": {**FOUR, "columns": 9, "rows": 8}},
        "anchor/layout/columns",
        "out-of-range",
    ),
    "no anchors": ({"anchor.layout": []}, "anchor/layout", "too_short"),
    "a row without its spacing": (
        {"anchor.layout": {"pattern": "row", "count": 2}},
        "anchor/layout/spacing",
        "missing",
    ),
    "a pattern that there is not": ({"anchor.layout.pattern": "grid"}, "anchor/layout/pattern", "unknown-option"),
    "a field of another pattern": (
        {"anchor.layout": {"pattern": "row", "count": 2, "spacing": 4, "rows": 2}},
        "anchor/layout/rows",
        "unknown-field",
    ),
    "an anchor without y": ({"anchor.layout": [{"x": 1}]}, "anchor/layout/0/y", "missing"),
    "a word for a layout": ({"anchor.layout": "square"}, "anchor/layout", "layout"),
}
BAD_PARAMETERS = pytest.mark.parametrize(("changes", "path", "code"), BAD.values(), ids=BAD)


def found_in(problem):
    return [(error["pointer"], error["code"]) for error in problem["errors"]]


@BAD_PARAMETERS
def test_what_is_wrong_is_told_at_its_place_in_the_group(send_group, changes, path, code):
    problem = send_group(change(GROUP, changes), status=422)
    assert found_in(problem) == [(f"#/group/{path.replace('hangs', 'loads', 1)}", code)]
    assert problem["detail"].startswith(problem["errors"][0]["pointer"])


@BAD_PARAMETERS
def test_what_is_wrong_is_told_at_its_place_in_the_item(send_one, changes, path, code):
    problem = send_one({**FACTORED, "item": as_item(change(GROUP, changes))}, status=422)
    assert found_in(problem) == [(f"#/item/{path}", code)]


@BAD_PARAMETERS
def test_what_is_wrong_costs_its_item_only(send, changes, path, code):
    items = [as_item(GROUP, "before"), as_item(change(GROUP, changes), "bad"), as_item(GROUP, "after")]
    before, bad, after = send({**FACTORED, "items": items}, status=200)["items"]
    assert bad["status"] == "invalid"
    assert found_in(bad["problem"]) == [(f"#/items/1/{path}", code)]
    assert before["status"] == "passed"
    assert {**after, "id": "before", "index": 0} == before


@pytest.mark.parametrize(
    ("changes", "place", "code"),
    [
        ({"group.rod": {"size": "3/8"}}, "#/group/rod", "unknown-field"),
        ({"group.loads.kind": "forces"}, "#/group/loads/kind", "unknown-field"),
        ({"group.hangs": {"kind": "forces"}}, "#/group/hangs", "unknown-field"),
        ({"group.loads": GONE}, "#/group/loads", "missing"),
        ({"group.anchor": GONE}, "#/group/anchor", "missing"),
        ({"group.base": GONE}, "#/group/base", "missing"),
        ({"group.anchor.family": "headed-bolts"}, "#/group/anchor/family", "unknown-product"),
        ({"group.seismic": GONE}, "#/group/seismic/category", "missing"),
        ({"units": GONE}, "#/units", "missing"),
        ({"item": {}}, "#/item", "unknown-field"),
    ],
)
def test_a_body_that_is_no_group(send, changes, place, code):
    problem = send(change({**FACTORED, "group": GROUP}, changes), GROUP_PATH, status=422)
    assert (place, code) in found_in(problem)


def test_a_group_that_fails_costs_no_other_point(send):
    items = [
        as_item(GROUP, "good"),
        as_item(change(GROUP, {"loads": forces(tension=90_000)}), "fails"),
        as_item(change(GROUP, {"anchor.layout": GONE}), "lone"),
        as_item(change(GROUP, {"anchor.layout": PAIR, "attachment": GONE, "loads": forces(moment_x=9)}), "no balance"),
        as_item(change(GROUP, {"attachment": {"gap": 1}, "loads": forces(tension=9, shear_x=9)}), "refused"),
    ]
    answer = send({**FACTORED, "items": items}, status=200)
    assert [each["status"] for each in answer["items"]] == ["passed", "failed", "passed", "failed", "refused"]
    for item, result in zip(items, answer["items"], strict=True):
        own = send({**FACTORED, "items": [item]}, status=200)["items"][0]
        assert {**result, "index": 0} == own
    assert "anchors" not in answer["items"][2]["governing"]


def test_groups_in_lines_and_csv_are_groups(send, send_lines, send_csv):
    items = [as_item(GROUP, "a"), as_item(change(GROUP, {"loads": forces(tension=900, moment_x=9000)}), "b")]
    body = {**FACTORED, "detail": "modes", "items": items}
    plain = send(body, status=200)["items"]
    assert send_lines(as_lines(body), status=200)[1:-1] == plain
    titles = (
        "id,hangs.kind,hangs.components.0.nature,hangs.components.0.tension,hangs.components.0.moment_x,"
        "anchor.family,anchor.size,h_ef,anchor.layout.pattern,anchor.layout.columns,anchor.layout.rows,"
        "anchor.layout.spacing_x,anchor.layout.spacing_y,base.kind,base.strength.f_c,base.density,base.state,"
        "thickness,base.edges.x_minus,base.edges.x_plus,base.edges.y_minus,base.edges.y_plus,"
        "attachment.plate.width_x,attachment.plate.width_y,attachment.thickness,seismic.category"
    )
    rows = [
        titles,
        *(
            f"{name},forces,dead,{load},headed-bolt,3/4,6,rectangle,2,2,8,8,concrete,4000,normalweight,cracked,24,"
            "none,none,none,none,12,12,2,B"
            for name, load in (("a", "3000,"), ("b", "900,9000"))
        ),
    ]
    query = "?units=us&combinations=given_factored&detail=modes&format=json"
    assert send_csv("\n".join(rows), query, status=200)["items"] == plain


def test_the_address_of_a_group_takes_one_form(send):
    send("{}", GROUP_PATH, media=NDJSON, status=415)
    problem = send({**FACTORED, "group": GROUP}, GROUP_PATH + "?detail=modes", status=422)
    assert found_in(problem) == [("?detail", "unknown-field")]


def test_contents_that_push_at_a_support_do_not_relieve_a_group(send_one):
    """A pipe over unequal spans lifts its end; empty it doesn't: 1.4 of the dead load alone counts."""
    run = {
        "spans": [2, 20],
        "support": 0,
        "model": "continuous",
        "point_loads": [{"at": 0.5, "weight": 500}],
    }
    pipe = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water", "sprinkler": False}
    point = {
        "id": "uplift",
        "hangs": {**pipe, "run": run},
        "anchor": {
            "family": "headed-bolt",
            "size": "1/2",
            "h_ef": 4,
            "layout": {"pattern": "row", "count": 2, "spacing": 6},
        },
        "base": {
            "kind": "concrete",
            "strength": {"f_c": 4000},
            "density": "normalweight",
            "thickness": 10,
            "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
        },
        "seismic": {"category": "B"},
    }
    (found,) = send_one({"units": "us", "item": point}, status=200)["items"]
    demand = found["demand"]
    assert demand["contents"] < 0 < demand["dead"]
    assert demand["load_case"] == found["governing"]["load_case"] == "1.4D without contents"
    assert demand["factored_tension"] == pytest.approx(1.4 * demand["dead"], rel=1e-12)


def test_more_anchors_than_a_batch_may_have(send):
    """782 layouts of 64 anchors are 50,048."""
    layout = {"pattern": "rectangle", "columns": 8, "rows": 8, "spacing_x": 6, "spacing_y": 6}
    group = change(GROUP, {"anchor.layout": layout, "attachment.plate": {"width_x": 60, "width_y": 60}})
    items = [as_item(group, f"P{at}") for at in range(782)]
    problem = send({**FACTORED, "items": items}, status=413)
    assert problem["type"] == "/problems/too-many-items"
    assert (problem["received"], problem["limit"]) == (50_048, 50_000)
