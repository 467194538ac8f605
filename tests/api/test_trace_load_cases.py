"""The loads of a trace: every demand can be found in them, in the load case that it is of."""

import ast
import math
import random

import numpy as np
import pytest

from api.bodies import NO_EDGES
from architecture.printed_formula import evaluate, parse


def point(name, components, *, layout=None, **anchor):
    made = {"family": "headed-bolt", "size": "5/8", "h_ef": 6} | anchor
    return {
        "id": name,
        "hangs": {"kind": "forces", "components": components},
        "anchor": made | ({"layout": layout} if layout else {}),
        "base": {
            "kind": "concrete",
            "strength": {"f_c": 4000},
            "state": "cracked",
            "density": "normalweight",
            "thickness": 16,
            "edges": NO_EDGES | {"x_plus": 12},
        },
        "seismic": {"category": "B"},
    }


def traced(send, *items):
    answer = send({"units": "us", "detail": "trace", "neighbours": "off", "items": list(items)}, status=200)
    return answer["items"]


def values(section):
    return {line["name"]: line["value"] for line in section["lines"]}


def found(result, record, load_case, **more):
    wanted = {"record": record, "load_case": load_case, **more}
    (section,) = [own for own in result["trace"] if {key: own.get(key) for key in wanted} == wanted]
    return values(section)


def test_the_loads_of_each_case_in_which_a_mode_is_worst(send):
    """By ASCE 7 2.3.1: 1.4 x 300 pulls more than 1.2 x 300, 1.2 and 1.6 push more than 1.4."""
    dead = {"nature": "dead", "tension": 300, "shear_x": 200, "shear_y": -100}
    (result,) = traced(send, point("A", [dead, {"nature": "live", "shear_x": 60}]))
    assert found(result, "AnchorDemand", "1.4D")["n_ua"] == pytest.approx(420)
    assert found(result, "AnchorShear", "1.2D+1.6L")["v_ua"] == pytest.approx(math.hypot(240 + 96, 120))
    worst = {mode["mode"]: mode["load_case"] for mode in result["modes"] if mode["applies"]}
    assert (worst["steel_tension"], worst["steel_shear"]) == ("1.4D", "1.2D+1.6L")


def components(draw):
    made = []
    for nature in ("dead", "live", "snow", "wind"):
        loads = {"tension": draw.choice([0, 200, 900]), "shear_x": draw.choice([0, 150, 700]), "shear_y": 0}
        loads["shear_y"] = draw.choice([0, -300, 500])
        if any(loads.values()) and draw.random() < 0.7:
            made.append({"nature": nature, **loads})
    return made or [{"nature": "dead", "tension": 100}]


def test_every_demand_on_an_anchor_is_in_the_loads_of_its_case(send):
    draw = random.Random(11)
    layout = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 7, "spacing_y": 9}
    items = [point(f"P{at}", components(draw), layout=layout if at % 2 else None) for at in range(60)]
    several = compared = 0
    for result in traced(send, *items):
        assert result["status"] in ("passed", "failed")
        lone = not any(section["record"] == "LayoutLoad" for section in result["trace"])
        cases = {section["load_case"] for section in result["trace"] if section["record"] == "AnchorDemand"}
        modes = {section["mode"]: section for section in result["trace"] if "mode" in section}
        assert {section["load_case"] for section in modes.values()} <= cases
        several += len(cases) > 1
        for mode, (of_lone, name), (of_layout, part) in (
            ("steel_tension", ("AnchorDemand", "n_ua"), ("PlateAnchor", "tension")),
            ("steel_shear", ("AnchorShear", "v_ua"), ("BoltShear", "v_a")),
        ):
            if mode not in modes:
                continue
            own = modes[mode]
            if lone:
                load = found(result, of_lone, own["load_case"])[name]
            else:
                load = found(result, of_layout, own["load_case"], anchor=own["anchors"][0])[part]
            assert values(own)["demand"] == pytest.approx(load)
            compared += 1
    assert several > 10
    assert compared > 60


def test_the_plate_under_what_stays_is_told_from_the_plate_under_all(send):
    """By ASCE 7 2.3.1 and statics: 1.2 x 2000 + 1.6 x 800 pull on four anchors, of which 1.2 x 2000 stays."""
    loads = [{"nature": "dead", "tension": 2000}, {"nature": "live", "tension": 800}]
    layout = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 7, "spacing_y": 9}
    adhesive = {
        "temperature": "a",
        "hole": "dry",
        "concrete_age": 90,
        "certified_installer": True,
        "continuous_inspection": True,
    }
    bonded = point("A", loads, layout=layout, family="adhesive-slow-rod-36", size="1/2", adhesive=adhesive)
    (result,) = traced(send, bonded)
    for anchor in range(4):
        for record, force in (("PlateAnchor", 920), ("SustainedPlateAnchor", 600)):
            assert found(result, record, "1.2D+1.6L", anchor=anchor)["tension"] == pytest.approx(force)
    assert found(result, "PlateBalance", "1.2D+1.6L")["n"] == pytest.approx(3680)
    assert found(result, "SustainedPlateBalance", "1.2D+1.6L")["n"] == pytest.approx(2400)
    titles = [(own["title"], own.get("load_case"), own.get("anchor"), own.get("edge")) for own in result["trace"]]
    assert len(set(titles)) == len(titles)


def value_of(line):
    value = line.get("code", line["value"])
    if isinstance(value, dict):
        return np.array([[math.inf if isinstance(each, str) else each for each in value.values()]])
    return np.array([math.inf if isinstance(value, str) else value])


def needed(node, columns):
    """Names that the value of a formula rests on: of a choice those of the condition and of the side taken."""
    if isinstance(node, ast.Call) and node.func.id == "where":
        condition, yes, no = node.args
        least = needed(condition, columns)
        if not least <= columns.keys():
            return least
        holds = evaluate(ast.unparse(condition), columns, [0])
        sides = [yes, no] if np.size(holds) > 1 else [yes if np.all(holds) else no]
        return least.union(*(needed(side, columns) for side in sides))
    if isinstance(node, ast.Name):
        return {node.id} - {"pi"}
    parts = node.args if isinstance(node, ast.Call) else ast.iter_child_nodes(node)
    return set().union(*(needed(part, columns) for part in parts))


@pytest.mark.parametrize("interaction", ["trilinear", "power_5_3"])
@pytest.mark.parametrize("tension", [300, 9000])
@pytest.mark.parametrize("anchor", [{}, {"family": "headed-stud-welded", "size": "5/8", "h_ef": "5-1/2 in"}])
def test_every_formula_is_printed_with_the_numbers_that_it_takes(send, anchor, tension, interaction):
    four = [{"x": x, "y": y} for x in (-4, 4) for y in (-4, 4)]
    load = {"nature": "dead", "tension": tension, "shear_x": 4000, "torsion": 9000, "moment_x": 3000}
    item = point("bracket", [load], layout=four, **anchor) | {"options": {"interaction": interaction}}
    (result,) = traced(send, item)
    lines = 0
    for section in result["trace"]:
        columns = {line["name"]: value_of(line) for line in section["lines"]}
        for line in section["lines"]:
            if line["kind"] == "formula":
                formula = parse(line["formula"])
                assert needed(formula, columns) <= columns.keys(), (section["record"], line["name"])
                others = {node.id for node in ast.walk(formula) if isinstance(node, ast.Name)} - columns.keys()
                made = evaluate(line["formula"], dict.fromkeys(others, np.zeros(1, dtype=np.bool_)) | columns, [0])
                assert np.ravel(made)[0] == pytest.approx(value_of(line)[0], rel=1e-9, abs=1e-12)
                lines += 1
    assert lines > 100


def test_what_a_row_at_an_edge_makes_of_its_anchors_is_no_given(send):
    """17.6.4.2: s is the distance of the outer heads, 10 in of three 5 in apart. 17.7.2.3: 900 lb towards the edge and
    -1,800 lb in of torsion, 1,800 / (25 + 25) = 36 lb/in: 120, 300 and 480 lb, e'_V (480 - 120) x 5 / 900 = 2 in.
    """
    row = [{"x": 0, "y": y} for y in (-5, 0, 5)]
    load = {"nature": "thermal", "tension": 900, "shear_x": 900, "torsion": -1800}
    item = point("heads", [load], layout=row, h_ef=12)
    item["base"]["edges"] |= {"x_plus": 3}
    (result,) = traced(send, item)
    lines = {
        section["mode"]: {line["name"]: line for line in section["lines"]}
        for section in result["trace"]
        if "mode" in section
    }
    heads, sheared = lines["side_face_blowout"], lines["concrete_breakout_shear"]
    assert (heads["s_row"]["value"], heads["s_row"]["procedure"]) == (10, "row_extent")
    assert sheared["e_v"]["value"] == pytest.approx(2)
    assert sheared["v_towards"]["value"] == pytest.approx(1.2 * 900)
    made = {name: sheared[name].get("procedure") for name in ("extent", "e_v", "v_towards", "v_along", "r_along_row")}
    assert made == {
        "extent": "row_extent",
        "e_v": "shear_eccentricity",
        "v_towards": "row_shear",
        "v_along": "row_shear",
        "r_along_row": "row_along",
    }
