"""Answers on hangers: their hang points checked as they are, traces that can be recalculated, batches.

The building is invented.
"""

import ast
import copy
import math
import random

import numpy as np
import pytest

from api.hanger_bodies import (
    EQUIPMENT,
    KINDS,
    LINES,
    NEWTON,
    PIPE,
    RISER,
    RUN,
    SECTION,
    SEISMIC,
    SEISMIC_22,
    SPRINKLER,
    TRAPEZE,
    braced,
    made,
    on_bar,
    request,
    without,
)
from api.hanger_bodies import PATH as LOADS_PATH
from architecture.printed_formula import evaluate
from hangpoint.api.examples import HANGER_LOADS_JSON
from hangpoint.api.routes.hang_points import BATCH_PATH
from hangpoint.core.hanger.run_reaction import BY_MODEL
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Record, columns

# Hang points of the answer, checked

ANCHORS = {
    "anchor": {"family": "wedge-expansion-zinc", "size": "5/8", "h_ef": "2.75 in"},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": "4000 psi"},
        "density": "normalweight",
        "state": "cracked",
        "thickness": "10 in",
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
    "seismic": {"category": "D"},
}
MANY = [
    *({**each, "id": f"plain {each['kind']}"} for each in KINDS),
    *(braced({**each, "id": f"braced {each['kind']}"}) for each in KINDS),
    *({**made(RUN, line=line), "id": f"run of {kind}"} for kind, line in LINES.items()),
    *({**on_bar(line, PIPE), "id": f"bar with {kind}"} for kind, line in LINES.items()),
    {**made(RUN, line=SPRINKLER, rod={"size": "3/8", "rule": "sprinkler_size_table"}), "id": "sprinkler"},
    {**on_bar(SPRINKLER, PIPE, rod__size="1/2"), "id": "shared"},
    {**made(RUN, line={**PIPE, "contents": "steam", "hydrotest": True}), "id": "tested"},
    {
        **made(RUN, at={"level": "L2", "x": "3 ft"}, trade="mechanical", rod={"size": "1/2", "out_of_plumb": 8}),
        "id": "lean",
    },
    {**braced(made(RUN, rod={"size": "1/2", "out_of_plumb": 8})), "id": "lean and braced"},
    {**made(RUN, run__missing_hanger=1), "id": "lost"},
    {
        **made(
            RUN,
            given=[
                {"hanger": 0, "nature": nature, "tension": "10 lb", "shear_x": "-3 lb", "shear_y": "2 lb"}
                for nature in ("dead", "contents", "live", "roof_live", "snow", "wind", "thermal", "test")
            ],
        ),
        "id": "given",
    },
    {
        **made(RUN, seismic={**SEISMIC, "category": "C"}, given=[{"hanger": 0, "nature": "earthquake", "shear_x": 50}]),
        "id": "given quake",
    },
]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("detail", ["loads", "trace"])
def test_hang_points_are_checked_as_they_are(ask_loads, send, units, detail):
    """Every hang point of the answer goes into a check with anchor, base and category as defaults: none is invalid."""
    answer = ask_loads(*MANY, units=units, detail=detail)
    assert answer["summary"]["invalid"] == 0
    points = [point for result in answer["items"] for point in result["hang_points"]]
    checked = send({"units": units, "defaults": ANCHORS, "items": points}, status=200)["items"]
    assert [(each["id"], each.get("problem")) for each in checked if each["status"] == "invalid"] == []
    assert [each["id"] for each in checked if each["status"] == "refused"] == []
    by_id = {each["id"]: each for each in checked}
    assert len(by_id) == len(points)
    for result in answer["items"]:
        omega_0 = result.get("seismic", {}).get("omega_0", 1.0)
        hangers = [each for each in result["hangers"] if (result["id"], each["hanger"]) != ("lost", 1)]
        assert len(result["hang_points"]) == len(hangers) + ("brace" in result.get("seismic", {}))
        for hanger, point in zip(hangers, result["hang_points"], strict=False):
            assert point["id"] == f"{result['id']}/{hanger['hanger']}"
            parts = {each["nature"]: each.get("tension", 0.0) for each in point["hangs"]["components"]}
            for nature, load in hanger["service"].items():
                factor = omega_0 if nature == "earthquake" else 1.0
                assert parts.get(nature, 0.0) == pytest.approx(factor * load, rel=1e-12, abs=1e-12)
            demand = by_id[point["id"]]["demand"]
            assert (demand["dead"], demand["contents"], demand["live"]) == pytest.approx(
                tuple(hanger["service"][name] for name in ("dead", "contents", "live")), rel=1e-9, abs=1e-9
            )
            if "earthquake" not in hanger["service"] and not hanger["factored_shear"]:
                assert demand["factored_tension"] == pytest.approx(hanger["factored_tension"], rel=1e-9)


def test_a_hang_point_has_level_trade_and_rod(ask_item):
    result = ask_item(made(RUN, at={"level": "L2"}, trade="mechanical", rod__size="1/2", seismic__category="B"))
    for point in result["hang_points"]:
        assert (point["at"], point["trade"]) == ({"level": "L2"}, "mechanical")
        assert point["rod"] == {"size": "1/2", "rule": "sp58_allowable"}
        assert point["seismic"] == {"category": "B"}


@pytest.mark.parametrize(("units", "foot"), [("us", 1.0), ("si", 0.3048)])
def test_hang_points_stand_along_the_bearing(ask_item, units, foot):
    """Hangers 10, 8 and 10 ft apart from (3, 4) ft on, 30 degrees from x towards y; without a bearing nowhere."""
    place = {"level": "L2", "x": "3 ft", "y": "4 ft"}
    points = ask_item(made(RUN, at={**place, "bearing": 30}), units=units)["hang_points"]
    for point, along in zip(points, (0, 10, 18, 28), strict=True):
        x, y = 3 + along * math.cos(math.radians(30)), 4 + along * math.sin(math.radians(30))
        assert (point["at"]["x"], point["at"]["y"]) == pytest.approx((x * foot, y * foot), rel=1e-9)
    assert all(each["at"] == {"level": "L2"} for each in ask_item(made(RUN, at=place))["hang_points"])
    rods = ask_item(made(EQUIPMENT, at={**place, "bearing": 90}), units=units)["hang_points"]
    for point, (x, y) in zip(rods, ((-2, -1.5), (2, -1.5), (2, 1.5), (-2, 1.5)), strict=True):
        assert (point["at"]["x"], point["at"]["y"]) == pytest.approx(((3 - y) * foot, (4 + x) * foot), rel=1e-9)


@pytest.mark.parametrize(
    ("body", "bearing", "direction", "angle"),
    [
        (RUN, 30, "across", 120),
        (RUN, 30, "along", 30),
        (RUN, 90, "across", 180),
        (TRAPEZE, 30, "across", 30),  # The bearing is that of the bar, which stands across the run.
        (TRAPEZE, 30, "along", 120),
        (RUN, None, "across", None),
        (TRAPEZE, None, "along", None),
        (EQUIPMENT, 30, None, None),
        (RISER, 30, None, None),
    ],
)
def test_the_force_of_a_brace_is_where_it_acts_in_plan(ask_item, body, bearing, direction, angle):
    """Along the run or across it; without a bearing along x, and that is said."""
    place = {"level": "L2", "x": "3 ft", "y": "4 ft"} | ({} if bearing is None else {"bearing": bearing})
    way = {} if direction is None else {"brace__direction": direction}
    result = ask_item(braced(made(body, at=place), **way))
    (load,) = result["hang_points"][-1]["hangs"]["components"]
    force = result["seismic"]["brace"]["anchor_shear"]
    x, y = load.get("shear_x", 0.0), load.get("shear_y", 0.0)
    cosine, sine = (1.0, 0.0) if angle is None else (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    assert (x, y) == pytest.approx((force * cosine, force * sine), rel=1e-9, abs=1e-9)
    assert ("brace-along-x-assumed" in result["assumptions"]) == (angle is None)


def test_where_the_lean_of_a_rod_acts_is_said(ask_item):
    assert "lean-along-shear" in ask_item(made(RUN, rod={"size": "1/2", "out_of_plumb": 4}))["assumptions"]
    assert "lean-along-shear" not in ask_item(made(RUN, rod={"size": "1/2"}))["assumptions"]


@pytest.mark.parametrize("quake", [None, 100, -100])
def test_the_hang_point_has_the_shear_that_is_told_of_its_hanger(ask_item, send, quake):
    """112 lb of roof live load along -y govern by 1.6, beside 152 lb of wind the other way and the lean of the rod by
    1.2: the lean was laid along the wind, 12 lb against the larger one. An earthquake of 100 lb along -y, either way,
    is 200 with Omega_0: 1.0 beside 1.4 of the load and its lean.
    """
    given = [
        {"hanger": 1, "nature": "roof_live", "shear_y": -112},
        {"hanger": 1, "nature": "wind", "shear_x": 60, "shear_y": 140},
    ]
    item = made(RUN, rod={"size": "1/2", "out_of_plumb": 2.5}, given=given)
    if quake is not None:
        item["given"].append({"hanger": 1, "nature": "earthquake", "shear_y": quake})
        item["seismic"] = without(SEISMIC, "brace")
    result = ask_item(item)
    hanger, point = result["hangers"][1], result["hang_points"][1]
    lean = math.tan(math.radians(2.5)) * sum(hanger["service"].values())
    expected = 1.6 * 112 + 1.2 * lean if quake is None else 200 + 1.4 * lean
    checked = send({"units": "us", "defaults": ANCHORS, "items": [point]}, BATCH_PATH, status=200)["items"][0]
    assert checked["demand"]["factored_shear"] == pytest.approx(expected, rel=1e-9)
    if quake is None:
        assert hanger["factored_shear"] == pytest.approx(expected, rel=1e-9)


def test_a_hanger_that_is_not_there_makes_no_hang_point(ask_item):
    """Its load of 0 would be checked as if something hung there."""
    assert [each["id"] for each in ask_item(made(RUN, run__missing_hanger=1))["hang_points"]] == [
        "run/0",
        "run/2",
        "run/3",
    ]
    assert len(ask_item(made(RUN, run__missing_hanger="any"))["hang_points"]) == 4


def test_the_longest_id_makes_ids_that_are_taken(ask_loads, send):
    points = ask_loads(braced({**RISER, "id": "x" * 56, "supports": 20}))["items"][0]["hang_points"]
    assert len(points) == 21
    assert send({"units": "us", "defaults": ANCHORS, "items": points}, status=200)["summary"]["invalid"] == 0


# Trace


def trailing(value):
    """Values along one of the trailing axes by name."""
    assert list(value) in ([*EDGES], [*TRANSIENT], [*BY_MODEL])
    return np.array([[math.inf if isinstance(each, str) else each for each in value.values()]])


def as_column(line, q):
    value = line["value"]
    if isinstance(value, dict):
        return trailing(value)
    if "code" in line:
        assert q.labels[line["code"]] == value
        return np.array([line["code"]], dtype=np.int8)
    if isinstance(value, str):
        assert value == q.infinite
        return np.array([math.inf])
    return np.array([value])


def record_classes(cls=Record):
    for sub in cls.__subclasses__():
        yield sub
        yield from record_classes(sub)


def recalculated(section):
    """Names of the formulas of a section that were evaluated from its printed values; each must give its own value."""
    (cls,) = {sub for sub in record_classes() if sub.__name__ == section["record"]}
    known = columns(cls)
    values = {line["name"]: as_column(line, known[line["name"]]) for line in section["lines"]}
    done = []
    for line in section["lines"]:
        if line["kind"] != "formula":
            continue
        names = {node.id for node in ast.walk(ast.parse(line["formula"])) if isinstance(node, ast.Name)}
        unprinted = {name: np.array([math.nan]) for name in names & (known.keys() - values.keys())}
        result = evaluate(line["formula"], values | unprinted, np.array([True]))
        expected = values[line["name"]]
        np.testing.assert_allclose(
            np.broadcast_to(result, expected.shape).astype(float),
            expected.astype(float),
            rtol=1e-9,
            atol=1e-12,
            err_msg=f"{section['record']}.{line['name']}",
        )
        done.append(line["name"])
    return done


TRACED = [
    *MANY,
    {**made(TRAPEZE, tiers__0__bar=SECTION), "id": "section"},
    {**made(RUN, rod={"size": "1/2", "rule": "tensile_strength", "material": "a36"}), "id": "tensile"},
]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("item", TRACED, ids=lambda item: item["id"])
def test_a_trace_can_be_recalculated_from_the_answer(ask_item, item, units):
    """An item alone has its trace without asking; the trace is in ft, in and lbf whatever the request has."""
    result = ask_item(item, units=units)
    done = [name for section in result["trace"] for name in recalculated(section)]
    assert {"dead", "contents", "live"} <= set(done)
    traced = {}
    for section in result["trace"]:
        if section["record"] == "HangerLoad":
            traced[section["hanger"]] = {line["name"]: line["value"] for line in section["lines"]}
    factor = 1.0 if units == "us" else NEWTON / 1000
    for hanger in result["hangers"]:
        if "given" not in item:
            assert hanger["service"]["dead"] == pytest.approx(traced[hanger["hanger"]]["dead"] * factor, rel=1e-9)


def test_traces_by_the_newer_edition(ask_item):
    building = {"period": 0.5, "r": 5, "i_e": 1, "omega_0": 2.5}
    for item in ({**RUN, "seismic": SEISMIC_22}, {**RUN, "seismic": {**SEISMIC_22, "building": building}}):
        sections = ask_item(item, load_standard="asce7_22")["trace"]
        assert "f_p" in [name for section in sections for name in recalculated(section)]


def test_the_recalculation_finds_a_wrong_number(ask_item):
    section = next(each for each in ask_item(RUN)["trace"] if each["record"] == "HangerLoad")
    line = next(line for line in section["lines"] if line["kind"] == "formula" and line["value"])
    line["value"] *= 1 + 1e-6
    with pytest.raises(AssertionError):
        recalculated(section)


def test_a_batch_has_traces_where_it_asks(ask_loads):
    assert all("trace" not in each for each in ask_loads(RUN, RISER)["items"])
    assert all(each["trace"] for each in ask_loads(RUN, RISER, detail="trace")["items"])
    assert "trace" not in ask_loads(RUN, detail="loads")["items"][0]


def test_two_hundred_traces_and_one_more(ask_loads):
    """The limit of `/v1/limits`."""
    assert len(ask_loads(*[RISER] * 200, detail="trace")["items"][199]["trace"]) > 2
    problem = ask_loads(*[RISER] * 201, detail="trace", status=413)
    assert (problem["type"], problem["limit"], problem["received"]) == ("/problems/too-many-items", 200, 201)


# Batches


def test_an_item_of_a_batch_has_its_result_alone(ask_loads, ask_item):
    """In whatever order and beside whatever else."""
    several = copy.deepcopy(MANY)
    random.Random(5).shuffle(several)
    for item, result in zip(several, ask_loads(*several)["items"], strict=True):
        alone = ask_item(item, detail="loads")
        assert {**result, "index": 0} == alone


def test_the_example_is_answered(client, validator, send):
    answer = client.post(LOADS_PATH, json=HANGER_LOADS_JSON).json()
    validator("HangerLoadsAnswer").validate(answer)
    assert {each["status"] for each in answer["items"]} == {"passed"}
    points = [point for result in answer["items"] for point in result["hang_points"]]
    assert (
        send({"units": "us", "defaults": ANCHORS, "items": points}, BATCH_PATH, status=200)["summary"]["invalid"] == 0
    )


def test_the_mixed_kinds_keep_their_order(ask_loads):
    body = request(*KINDS, *reversed(KINDS))
    assert [each["kind"] for each in ask_loads(body=body)["items"]] == [each["kind"] for each in body["items"]]


def test_the_schedule_as_csv(client):
    """By ?format= or Accept: a row a hanger; any other form is refused."""
    body = {"units": "us", "items": [{**RUN, "id": "=a"}]}
    for found in (
        client.post(f"{LOADS_PATH}?format=csv", json=body),
        client.post(LOADS_PATH, json=body, headers={"Accept": "text/csv"}),
    ):
        assert found.status_code == 200
        assert found.headers["content-type"].startswith("text/csv")
        header, *rows = found.text.splitlines()
        assert header.startswith("id,row,kind,status,hanger,dead [lbf]")
        assert len(rows) == len(RUN["run"]["spans"]) + 1
        assert rows[0].startswith("'=a,1,run,passed,0,")
    for found in (
        client.post(f"{LOADS_PATH}?format=xlsx", json=body),
        client.post(LOADS_PATH, json=body, headers={"Accept": "application/x-ndjson"}),
    ):
        assert found.status_code == 406
