"""Sketches of calculation sheets: what stands in them is where it was stated, in one scale."""

import math
import random
from xml.etree import ElementTree

import numpy as np
import pytest

from hangpoint.core.hang_point.points import SIDE, SOFFIT, TOP
from hangpoint.report.calculation.place import Near, Place
from hangpoint.report.calculation.push import push_of
from hangpoint.report.calculation.sketch import drawn_near, plan, section
from hangpoint.report.calculation.surface import surface_of


def place(x=(0.0,), y=(0.0,), edges=(math.inf,) * 4, **more):
    return Place(
        x=np.array(x),
        y=np.array(y),
        edges=edges,
        **{"plate": None, "thickness": 8.0, "depth": 3.0, "face": SOFFIT} | more,
    )


def drawn(svg):
    return ElementTree.fromstring(svg)  # noqa: S314


def ends(line):
    return [float(line.get(name)) for name in ("x1", "y1", "x2", "y2")]


def test_anchors_edges_and_plate_are_in_one_scale():
    """A tenth of a pixel is what a drawing rounds to; edges beyond its reach are drawn nearer and not compared."""
    draw, compared = random.Random(5), 0
    for _ in range(200):
        x, y = ([round(draw.uniform(-6, 6), 2) for _ in range(draw.randint(2, 6))] for _ in "xy")
        y = (y * 6)[: len(x)]
        edges = tuple(draw.choice([math.inf, round(draw.uniform(7, 40), 2)]) for _ in range(4))
        sides = (-7.0, 7.0, -6.5, 6.5)
        svg = drawn(plan(place(x, y, edges, plate=sides), "us"))
        circles = [(float(each.get("cx")), float(each.get("cy"))) for each in svg.iter("circle")]
        box = next(each for each in svg.iter("rect") if each.get("class") == "plate")
        scale = float(box.get("width")) / (sides[1] - sides[0])
        origin = float(box.get("x")) - scale * sides[0], float(box.get("y")) + scale * sides[3]
        for (own_x, own_y), at in zip(zip(x, y, strict=True), circles, strict=True):
            assert at == pytest.approx((origin[0] + scale * own_x, origin[1] - scale * own_y), abs=0.25)
        sides_drawn = [each for each in svg.iter("line") if each.get("class") in ("edge", "open")]
        assert [each.get("class") == "edge" for each in sides_drawn] == [math.isfinite(edge) for edge in edges]
        broken = sum(each.text == "≈" for each in svg.iter("text"))
        for at, (line, edge) in enumerate(zip(sides_drawn, edges, strict=True)):
            away = abs(ends(line)[0 if at < 2 else 1] - origin[0 if at < 2 else 1]) / scale
            if math.isfinite(edge):
                assert away <= edge + 0.1
                compared += away == pytest.approx(edge, abs=0.1)
        nearer = sum(
            math.isfinite(edge)
            and abs(ends(line)[0 if at < 2 else 1] - origin[0 if at < 2 else 1]) / scale < edge - 0.1
            for at, (line, edge) in enumerate(zip(sides_drawn, edges, strict=True))
        )
        assert broken == nearer
    assert compared > 100


@pytest.mark.parametrize(("system", "texts"), [("us", {"6 in", "4 in"}), ("si", {"152.4 mm", "101.6 mm"})])
def test_edges_have_their_distances_in_the_units_of_the_request(system, texts):
    svg = drawn(plan(place(edges=(math.inf, 6.0, 4.0, math.inf)), system))
    assert {each.text for each in svg.iter("text")} - {"x", "y", "Plan"} == texts


@pytest.mark.parametrize(("face", "turn"), [(SOFFIT, 0), (SIDE, 90), (TOP, 180)])
def test_the_section_shows_how_deep_the_anchor_is(face, turn):
    svg = drawn(section(place(face=face, thickness=10.0, depth=4.0), "us"))
    assert svg.find("g").get("transform").startswith(f"rotate({turn} ")
    member = next(svg.iter("rect"))
    anchor = next(each for each in svg.iter("line") if each.get("class") == "anchor")
    scale = float(member.get("height")) / 10.0
    bottom = float(member.get("y")) + float(member.get("height"))
    assert (bottom - ends(anchor)[3]) / scale == pytest.approx(4.0, abs=0.02)
    assert {each.text for each in svg.iter("text")} == {"Section, member 10 in", "embedded 4 in"}


def test_the_section_shows_every_anchor_and_the_plate():
    """Two of four stand behind each other; everything is in one scale."""
    where = place((-3.0, 3.0, -3.0, 3.0), (0.0, 0.0, 5.0, 5.0), plate=(-4.5, 4.5, -1.0, 6.0))
    svg = drawn(section(where, "us"))
    anchors = [ends(each) for each in svg.iter("line") if each.get("class") == "anchor"]
    member, plate = (
        next(each for each in svg.iter("rect") if each.get("class") == kind) for kind in ("member", "attached")
    )
    scale = float(member.get("height")) / where.thickness
    assert len(anchors) == 2
    assert anchors[1][0] - anchors[0][0] == pytest.approx(6.0 * scale, abs=0.2)
    assert float(plate.get("width")) == pytest.approx(9.0 * scale, abs=0.2)


@pytest.mark.parametrize("unknown", [{"thickness": 0.0}, {"depth": 0.0}])
def test_no_section_of_what_is_not_known(unknown):
    assert section(place(**unknown), "us") == ""


def test_a_plate_that_hangs_clear_is_drawn_clear():
    where = place(plate=(-3.0, 3.0, -3.0, 3.0), gap=1.5)
    svg = drawn(section(where, "us"))
    member, plate = (
        next(each for each in svg.iter("rect") if each.get("class") == kind) for kind in ("member", "attached")
    )
    face = float(member.get("y")) + float(member.get("height"))
    scale = float(member.get("height")) / where.thickness
    assert float(plate.get("y")) - face == pytest.approx(1.5 * scale, abs=0.2)
    assert float(plate.get("y")) + float(plate.get("height")) < float(svg.get("height"))
    assert "embedded 3 in, gap 1.5 in" in {each.text for each in svg.iter("text")}


def record(name, load_case, **values):
    lines = [{"name": key, "value": value} for key, value in values.items()]
    return {"record": name, "load_case": load_case, "lines": lines}


@pytest.mark.parametrize(
    ("v", "system", "text"), [((300.0, -400.0), "us", "500 lbf"), ((-300.0, 400.0), "si", "2.2241 kN")]
)
def test_the_arrow_points_where_the_shear_pushes_from_where_it_acts(v, system, text):
    """3, 4, 5; y rises in the plan and falls in the drawing. 1 lbf is 4.4482 N."""
    shear = record("AnchorShear", "1.4D", v_ua_x=v[0], v_ua_y=v[1])
    trace = [shear, record("LayoutLoad", "wind", x_v=9.0, y_v=9.0), record("LayoutLoad", "1.4D", x_v=1.0, y_v=0.0)]
    push = push_of({"trace": trace})
    assert (push.load_case, push.x, push.y) == ("1.4D", 1.0, 0.0)
    svg = drawn(plan(place((-3.0, 3.0), (0.0, 0.0)), system, push=push))
    circles = [float(each.get("cx")) for each in svg.iter("circle")]
    x0, y0, x1, y1 = ends(next(each for each in svg.iter("line") if each.get("class") == "push"))
    assert x0 == pytest.approx(circles[0] + 4 / 6 * (circles[1] - circles[0]), abs=0.2)
    assert (x1 - x0) / (y0 - y1) == pytest.approx(v[0] / v[1], abs=0.02)
    assert math.copysign(1, x1 - x0) == math.copysign(1, v[0])
    tip = [float(each) for each in svg.find("polygon").get("points").split()[0].split(",")]
    assert (tip[0] - x1) * (x1 - x0) > 0
    assert text in {each.text for each in svg.iter("text")}


def test_no_arrow_without_shear():
    assert push_of({}) is None
    assert push_of({"trace": [record("LayoutLoad", "1.4D", x_v=1.0, y_v=0.0)]}) is None


def breakout(area, *, h_ef=4.0, **more):
    lines = [{"name": "h_ef_used", "value": h_ef}, {"name": "a_nc", "value": area}]
    return {"trace": [{"record": "ConcreteBreakoutTension", "lines": lines, **more}]}


@pytest.mark.parametrize(
    ("at", "edges", "record", "area"),
    [
        # 9 h_ef^2 of 17.6.2.1.4; cut at 4 in on one side; two squares of 12 in, 5 in apart; the second anchor alone.
        (((0, 0),), (math.inf,) * 4, {}, 144.0),
        (((0, 0),), (4.0, *(math.inf,) * 3), {}, 120.0),
        (((0, 0), (5, 0)), (math.inf,) * 4, {}, 204.0),
        (((0, 0), (5, 5)), (math.inf,) * 4, {}, 239.0),
        (((0, 0), (5, 0)), (math.inf,) * 4, {"anchors": [1]}, 144.0),
    ],
)
def test_the_shaded_area_is_that_of_the_calculation(at, edges, record, area):
    x, y = zip(*at, strict=True)
    where = place(x, y, edges, depth=4.0)
    surface = surface_of(breakout(area, **record), where)
    assert surface is not None
    assert surface.area == area
    svg = drawn(plan(where, "us", surface))
    shaded = [each for each in svg.iter("rect") if each.get("class") == "surface"]
    assert len(shaded) == len(surface.squares) == len(record.get("anchors", at))
    if len(shaded) == 1:
        # The member is drawn to twice the reach of a lone anchor, or of one 5 in away, and to its edge.
        size = max(1.5 * where.depth, 1.25 * max(x))
        member = next(each for each in svg.iter("rect") if each.get("class") == "member")
        sides = [math.prod(float(each.get(name)) for name in ("width", "height")) for each in (shaded[0], member)]
        whole = (min(edges[0], 2 * size) + 2 * size) * 4 * size
        assert sides[0] / sides[1] == pytest.approx(area / whole, rel=0.01)


def test_an_area_that_the_squares_are_not_is_not_shaded():
    """Cut by a neighbour that is not alike, limited, or of anchors that the sketch doesn't have."""
    assert surface_of(breakout(143.0), place()) is None
    assert surface_of({}, place()) is None
    assert surface_of({"trace": []}, place()) is None


def test_neighbours_stand_where_they_are_and_count_where_they_act():
    near = [
        Near(id="B", anchors=[(5.0, 0.0)], together=True),
        Near(id="C-with-a-name-longer-than-a-sketch-takes", anchors=[(-4.0, 2.0)], together=False),
        Near(id="D", anchors=[(60.0, 0.0)], together=True),
    ]
    where = place(near=near, depth=4.0)
    assert [each.id for each in drawn_near(where)] == ["B", near[1].id]
    surface = surface_of(breakout(204.0, points=["B"]), where)
    assert surface is not None
    svg = drawn(plan(where, "us", surface))
    circles = {each.get("class"): each for each in svg.iter("circle")}
    assert circles.keys() == {None, "together", "unlike"}
    square = next(each for each in svg.iter("rect") if each.get("class") == "surface")
    scale = float(square.get("width")) / 12.0
    for kind, (x, y) in (("together", (5.0, 0.0)), ("unlike", (-4.0, 2.0))):
        moved = [float(circles[kind].get(name)) - float(circles[None].get(name)) for name in ("cx", "cy")]
        assert moved == pytest.approx([x * scale, -y * scale], abs=0.25)
    assert {"B, 5 in away", "C-with-a-name-longe…, 4.4721 in away"} <= {each.text for each in svg.iter("text")}


def test_a_distance_keeps_clear_of_the_number_of_an_anchor_on_its_line():
    """Anchor 2 of a row towards the edge: `2` beside `12 in` read as 212 in."""
    svg = drawn(plan(place((-4.0, 4.0), (0.0, 0.0), (math.inf, 12.0, math.inf, math.inf), face=SIDE), "us"))
    texts = {each.text: (float(each.get("x")), each) for each in svg.iter("text")}
    (number_at, _), (distance_at, distance) = texts["2"], texts["12 in"]
    width = 5.0 * len("12 in")
    assert distance.get("class") is None or "beside" not in distance.get("class")
    assert distance_at - width / 2 > number_at + 5.0
