"""Every operation under generated requests.

First by schemathesis from the OpenAPI document, all of its checks on. What a schema can't say (two fields that
contradict each other, a product that the catalogue lacks, a pipe that the tables lack, silence about an edge) is
answered by 422, so the operations that compute list 422 among the statuses expected for a body that agrees with
its schema; 413 and 406 can't come of such a body and are not listed. A list of items against its schema is answered by
413 where it has too many items, and where only an item is bad by 200 with that item invalid; that both validators find
the same bodies bad is for ``test_schemas``.

Then by requests that mean something, of which at least 80 % must be answered as points that can be checked: or the
fuzzing never got past the door. CSV is fuzzed by a strategy of its own.
"""

import json
import re
from collections import Counter
from xml.etree import ElementTree

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.config import SchemathesisConfig
from starlette.testclient import TestClient

from api.hanger_bodies import PATH as LOADS_PATH
from api.hanger_bodies import conforms
from hangpoint.api.csv_columns import ALIASES, columns
from hangpoint.api.media import XLSX
from hangpoint.api.resources import RESOURCES
from hangpoint.api.routes.hang_points import BATCH_PATH, GROUP_PATH, SINGLE_PATH
from hangpoint.app import create_app
from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.loads.cable_tray import TRAY_CLASSES
from hangpoint.core.loads.component_factors import FACTORS_16
from hangpoint.core.loads.conduit import conduit_sizes
from hangpoint.core.loads.pipe_sizes import CONTENTS, schedules, sizes
from hangpoint.product.catalogue import load_catalogue
from hangpoint.report.calculation.mathml import number as printed

UNLOADED = re.compile(r"(?:No shear|No tension|Neither tension nor a moment) acts\.\s*$")
SEMANTIC = {"positive_data_acceptance": {"expected-statuses": ["2xx", "422"]}}
# A bad item costs itself only. More items than a batch may have are more bytes than it may have, which is told first.
BY_ITEM = {"negative_data_rejection": {"expected-statuses": ["200", "400", "406", "413", "415", "422"]}}
# A CSV with a zero byte is a text by its schema, and can't be read.
OF_TEXT = {"positive_data_acceptance": {"expected-statuses": ["2xx", "400", "422"]}}
# The cases that a schema names field by field are sent for a hang point; `test_schemas` mutates the bodies of all.
ONCE = {"phases": {"coverage": {"enabled": False}}}
APP = create_app()

CONFIG = SchemathesisConfig.from_dict(
    {
        "operations": [
            {"include-operation-id": "checkHangPoint", "checks": SEMANTIC},
            {"include-operation-id": "checkAnchorGroup", "checks": SEMANTIC} | ONCE,
            {"include-operation-id": "checkHangPoints", "checks": OF_TEXT | BY_ITEM} | ONCE,
            *(
                {
                    "include-operation-id": each.operation_id,
                    "checks": (SEMANTIC if each.csv is None else OF_TEXT) | (BY_ITEM if each.by_item else {}),
                }
                | ONCE
                for each in RESOURCES
            ),
            # Random bytes are no workbook.
            {"include-operation-id": "readWorkbook", "checks": OF_TEXT} | ONCE,
            # A size or thread that the catalogue lacks is told by 422.
            {"include-operation-id": "listFamilies", "checks": SEMANTIC},
            # A filter longer than its schema says is told by 422.
            {"include-operation-id": "listTroubles", "checks": SEMANTIC},
            # A family or a problem is named in the path: 404 for every other name.
            {
                "include-operation-id": ["showFamily", "showProblem"],
                "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", "404"]}},
            },
        ]
    }
)
CLIENT = TestClient(APP)
SCHEMA = schemathesis.openapi.from_asgi("/openapi.json", APP, config=CONFIG)

quick = settings(deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))


@schemathesis.serializer("text/csv")
def csv_text(_, value):
    return str(value).encode("utf-8", "replace")


@schemathesis.serializer(XLSX)
def workbook(_, value):
    """Bytes as they come: of a workbook the schema says no more."""
    return value if isinstance(value, bytes) else str(value).encode("utf-8", "replace")


@schemathesis.serializer("application/x-ndjson")
def lines_text(_, value):
    """The text as one line of JSON: of lines, the schema of a body says only that they are text."""
    return json.dumps(str(value)).encode("utf-8", "replace")


MANY, SOME = 150, 30
EXAMPLES = dict.fromkeys((SINGLE_PATH, GROUP_PATH, BATCH_PATH, LOADS_PATH), MANY)
"""Generated requests of what is asked most; of all other operations there are `SOME`."""


@pytest.fixture
def cases():
    """Requests of each operation; a test that reached none, or few bodies, has shown nothing."""
    found = Counter()
    yield found
    assert found
    assert {label for label, count in found.items() if count <= (20 if label.startswith("POST") else 0)} == set()


def of_path(path, others):
    """A test of the operation at a path: it has a name of its own, for those that run tests side by side."""

    @SCHEMA.exclude(path=others).parametrize()
    @settings(quick, max_examples=EXAMPLES.get(path, SOME))
    def test(case, cases):
        cases[case.operation.label] += 1
        case.call_and_validate()

    return test


PATHS = APP.openapi()["paths"]
for _path, _methods in PATHS.items():
    (_operation,) = _methods.values()
    globals()[f"test_{_operation['operationId']}"] = of_path(_path, [each for each in PATHS if each != _path])


PRODUCTS = {
    basis: [
        (family.id, size.size, f"{embedment.h_ef:g} {unit}", embedment.h_ef / (1 if unit == "in" else 25.4))
        for family in load_catalogue().families.values()
        if (family.basis == "allowable_table") is (basis == "tabulated")
        for unit in ("in" if family.units == "us" else "mm",)
        for size in family.sizes
        for embedment in size.embedments
    ]
    for basis in ("tabulated", "calculated")
}
MATERIALS = ("steel", "stainless", "copper")
PIPES = [
    {"material": material, "size": size, "schedule": schedule}
    for material in MATERIALS
    for size in sizes(material)
    for schedule in schedules(material, size)
]


def optional(strategies):
    return st.fixed_dictionaries({}, optional=strategies)


def inches(least, most):
    return st.integers(int(least * 8), int(most * 8)).map(lambda eighths: f"{eighths // 8} {eighths % 8}/8 in")


@st.composite
def runs(draw):
    spans = draw(st.lists(st.integers(2, 20), min_size=1, max_size=5))
    run = {"spans": spans, "support": draw(st.integers(0, len(spans)))}
    loads = st.fixed_dictionaries(
        {"at": st.integers(0, sum(spans)), "weight": st.integers(0, 300).map(lambda weight: f"{weight} lb")},
        optional={"nature": st.sampled_from(["dead", "contents", "live"])},
    )
    return run | draw(
        optional(
            {
                "model": st.sampled_from(["larger", "tributary", "continuous"]),
                "point_loads": st.lists(loads, max_size=3),
                "spacing_rule": st.sampled_from(["sp58_water", "b31_1_water", "plumbing_code"]),
            }
        )
    )


@st.composite
def pipes(draw):
    sprinkler = draw(st.booleans())
    contents = draw(st.sampled_from(["water"] if sprinkler else list(CONTENTS)))
    tested = {"hydrotest": draw(st.booleans())} if contents in ("steam", "air", "gas") else {}
    return tested | {
        "kind": "pipe",
        **draw(st.sampled_from(PIPES)),
        "sprinkler": sprinkler,
        "contents": contents,
        "run": draw(runs()),
        **draw(
            optional(
                {
                    "allowance": st.floats(0, 1),
                    "insulation": st.fixed_dictionaries({"thickness": inches(0.5, 3), "density": st.floats(1, 20)}),
                }
            )
        ),
    }


components = st.fixed_dictionaries(
    {"nature": st.sampled_from(["dead", "contents", "live"]), "tension": st.integers(0, 1200)},
    optional={"shear_x": st.integers(-1500, 1500), "shear_y": st.integers(-1500, 1500)},
)
forces = st.builds(lambda parts: {"kind": "forces", "components": parts}, st.lists(components, min_size=1, max_size=4))
weights = st.fixed_dictionaries(
    {
        "kind": st.just("weight"),
        "weight": st.floats(0, 1500).map(lambda weight: f"{weight:.1f} lb"),
        "nature": st.sampled_from(["dead", "contents", "live"]),
    }
)
CONFIRMED = {"temperature": "a", "concrete_age": 60, "certified_installer": True, "continuous_inspection": True}
edges = st.one_of(st.just("none"), inches(6, 40), st.floats(4, 500), inches(1, 40))


surroundings = optional(
    {
        "part": st.sampled_from(["slab", "beam", "joist", "wall", "column"]),
        "post_tensioned": st.sampled_from(["no"] * 9 + ["unknown"]),
        "existing": st.booleans(),
        "age_days": st.integers(0, 20_000),
        "clear_cover": inches(0.75, 3),
    }
)
environments = optional(
    {
        "exposure": st.sampled_from(["dry"] * 15 + ["damp", "outdoor", "chlorides", "pool", "food"]),
        "attached_metal": st.sampled_from(["carbon", "galvanised", "stainless", "copper", "aluminium"]),
        "rod_metal": st.sampled_from(["carbon", "galvanised", "stainless"]),
        "vibration": st.booleans(),
        "fire_rating": st.integers(0, 4),
    }
)


@st.composite
def decked(draw, base):
    """A base as a filled deck as thick as it was, at least."""
    deck = {
        "flute": draw(st.sampled_from(["upper", "lower"])),
        "flute_width": draw(inches(3, 8)),
        "offset": draw(st.integers(-2, 2)),
        "cover": draw(inches(3, 6)),
        "direction": draw(st.sampled_from(["x", "y"])),
    }
    return base | {"kind": "deck", "thickness": draw(inches(8, 12)), "deck": deck}


@st.composite
def points(draw):
    basis = draw(st.sampled_from(["calculated"] * 19 + ["tabulated"]))
    family, size, h_ef, depth = draw(st.sampled_from(PRODUCTS[basis]))
    uncracked = draw(st.booleans())
    hangs = draw(st.one_of(pipes(), forces, weights))
    faces = ["soffit", "side"] if hangs["kind"] == "forces" else ["soffit"] * 9 + ["side"]
    base = {
        "kind": "concrete",
        "strength": {"f_c": draw(st.integers(2500, 12000))},
        "density": draw(st.sampled_from(["normalweight"] * 8 + ["sand_lightweight", "all_lightweight"])),
        "thickness": draw(inches(max(8.0, depth + draw(st.sampled_from([-1, 1, 2, 4]))), 60)),
        "edges": {side: draw(edges) for side in ("x_minus", "x_plus", "y_minus", "y_plus")},
        "state": "uncracked" if uncracked else "cracked",
        "face": draw(st.sampled_from(faces)),
    }
    if uncracked:
        base["state_decided_by"] = "engineer of record"
    base |= draw(surroundings)
    other = draw(st.integers(0, 19))
    if other in (1, 2):
        base, (family, size, h_ef) = draw(decked(base)), ("wedge-expansion-zinc", "3/8", "2-1/2 in")
    elif other == 3:
        base = draw(st.sampled_from([{"kind": "steel"}, {"kind": "unknown"}]))
    confirmed = CONFIRMED | ({"concrete_age": base["age_days"]} if "age_days" in base else {})
    point = {
        "id": draw(st.text(min_size=1, max_size=20)),
        "hangs": hangs,
        "anchor": {"family": family, "size": size, "h_ef": h_ef} | draw(optional({"adhesive": st.just(confirmed)})),
        "base": base,
        "seismic": {"category": draw(st.sampled_from("AAAAAABBBBBBCDEF"))},
    }
    more = {
        "rod": st.fixed_dictionaries({"size": st.sampled_from(list(THREADS))}),
        "attachment": optional({"grout_pad": st.booleans(), "welded": st.booleans(), "thickness": inches(0.25, 1)}),
        "environment": environments,
        "options": optional(
            {
                "oblique_shear": st.sampled_from(["vector", "separate", "linear"]),
                "interaction": st.sampled_from(["trilinear", "power_5_3"]),
            }
        ),
    }
    return point | draw(optional(more))


def test_requests_that_mean_something(checked):
    statuses = Counter()

    @settings(quick, max_examples=300)
    @given(points(), st.sampled_from(["verdict", "modes", "trace"]))
    def ask(point, detail):
        response = CLIENT.post(SINGLE_PATH, json={"units": "us", "detail": detail, "item": point})
        answer = checked(response)
        assert response.status_code in (200, 422)
        statuses[answer["items"][0]["status"] if response.status_code == 200 else "invalid"] += 1

    ask()
    total = statuses.total()
    assert total > 200
    assert statuses["invalid"] <= 0.2 * total, statuses
    assert statuses["passed"] > 0.1 * total, statuses
    assert statuses["failed"] > 0.05 * total, statuses


directions = st.integers(-12_000, 12_000)
several_forces = st.fixed_dictionaries(
    {"nature": st.sampled_from(["dead", "live"]), "tension": st.integers(0, 12_000)},
    optional=dict.fromkeys(("shear_x", "shear_y", "moment_x", "moment_y", "torsion"), directions),
)
layouts = st.one_of(
    st.builds(
        lambda columns, rows, x, y: {
            "pattern": "rectangle",
            "columns": columns,
            "rows": rows,
            "spacing_x": f"{x} in",
            "spacing_y": f"{y} in",
        },
        st.integers(2, 4),
        st.integers(1, 4),
        st.integers(3, 12),
        st.integers(3, 12),
    ),
    st.builds(
        lambda count, diameter, angle: {
            "pattern": "circle",
            "count": count,
            "diameter": f"{diameter} in",
            "angle": angle,
        },
        st.integers(2, 12),
        st.integers(15, 30),
        st.integers(-360, 360),
    ),
)


@st.composite
def groups(draw):
    """Anchors in a pattern under a plate that covers it, in a member whose edges are beyond it."""
    point = draw(points())
    plate = {"width_x": "40 in", "width_y": "40 in", "support": draw(st.sampled_from(["concrete", "grout", "free"]))}
    edges = st.one_of(st.just("none"), st.integers(20, 60).map(lambda inch: f"{inch} in"))
    sides = {side: draw(edges) for side in ("x_minus", "x_plus", "y_minus", "y_plus")}
    return {
        "loads": {"components": draw(st.lists(several_forces, min_size=1, max_size=3))},
        "anchor": point["anchor"] | {"layout": draw(layouts)},
        "base": point["base"] | {"edges": sides},
        "attachment": {"plate": plate},
        "seismic": point["seismic"],
    }


def test_groups_that_mean_something(checked):
    statuses = Counter()

    @settings(quick, max_examples=150)
    @given(groups(), st.sampled_from(["verdict", "modes", "trace"]))
    def ask(group, detail):
        response = CLIENT.post(GROUP_PATH, json={"units": "us", "detail": detail, "group": group})
        answer = checked(response)
        assert response.status_code in (200, 422)
        statuses[answer["items"][0]["status"] if response.status_code == 200 else "invalid"] += 1

    ask()
    total = statuses.total()
    assert total > 100
    assert statuses["invalid"] <= 0.2 * total, statuses
    assert statuses["passed"] > 0.05 * total, statuses
    assert statuses["failed"] > 0.05 * total, statuses


@settings(quick, max_examples=20)
@given(st.lists(points(), min_size=1, max_size=40))
def test_batches_that_mean_something(checked, several):
    body = {"units": "us", "items": [{**each, "id": str(at)} for at, each in enumerate(several)]}
    answer = checked(CLIENT.post(BATCH_PATH, json=body))
    assert [each["id"] for each in answer["items"]] == [each["id"] for each in body["items"]]


@settings(quick, max_examples=60)
@given(
    st.one_of(
        points().map(lambda own: (SINGLE_PATH, "item", own)), groups().map(lambda own: (GROUP_PATH, "group", own))
    )
)
def test_sheets_of_what_means_something(checked, asked):
    """A page that reads as XML, with every section of the trace and all of its numbers that are computed and not 0: a
    mode has a row for each line, anchors that have a table one each. What has no load says so in a line. Or the problem
    that JSON has too."""
    path, name, own = asked
    body = {"units": "us", "detail": "trace", name: own}
    answer = checked(CLIENT.post(path, json=body))
    page = CLIENT.post(f"{path}?format=html", json=body)
    if "items" not in answer:
        assert checked(page)["errors"] == answer["errors"]
        return
    trace = answer["items"][0].get("trace", [])
    shown = 0
    for number, section in numbered_sections(page.text):
        made = trace[shown:number]
        shown += len(made)
        computed = [line for each in made for line in each["lines"] if line["kind"] != "given"]
        text = "".join(section.itertext())
        if UNLOADED.search(text):
            assert not any(line["value"] for line in computed if line["unit"] in ("lbf", "lbf*in", "psi", "N"))
            continue
        values = [line["value"] for line in computed if isinstance(line["value"], float)]
        assert [value for value in values if value and printed(value) not in text] == []
        if len(made) > 1:
            rows = [row[0].text for row in section.findall("table/tbody/tr")]
            assert rows == [str(each["anchor"] + 1) for each in made]
            assert len({(each["title"], each["load_case"]) for each in made}) == 1
        elif "mode" in made[0]:
            assert len(section.findall("table[@class='lines']/tr")) == len(computed)
    assert shown == len(trace)


def numbered_sections(page):
    """The sections of a calculation with the number of the last section of the trace that each stands for."""
    tags = re.sub(r"<(meta|col) ([^>]*)>", r"<\1 \2/>", page.removeprefix("<!DOCTYPE html>"))
    for section in ElementTree.fromstring(tags).iter("section"):  # noqa: S314
        found = re.match(r"(?:[0-9]+ to )?([0-9]+)\. ", "".join(section[0].itertext()))
        if found:
            yield int(found[1]), section


POINTS_OF_LOAD = st.fixed_dictionaries(
    {"weight": st.integers(0, 300).map(lambda weight: f"{weight} lb")},
    optional={"nature": st.sampled_from(["dead", "contents", "live"]), "number": st.integers(1, 3)},
)
TRADE_SIZES = {kind: conduit_sizes(kind) for kind in ("emt", "imc", "rmc", "pvc40", "pvc80")}
layers = st.fixed_dictionaries({"thickness": inches(0.5, 2), "density": st.floats(1, 20)})


def loads_between(low, high):
    return st.lists(st.builds(lambda at, load: {"at": at, **load}, st.integers(low, high), POINTS_OF_LOAD), max_size=3)


@st.composite
def pipe_lines(draw):
    sprinkler = draw(st.booleans())
    contents = "water" if sprinkler else draw(st.sampled_from(list(CONTENTS)))
    tested = {"hydrotest": draw(st.booleans())} if contents in ("steam", "air", "gas") else {}
    more = {"allowance": st.floats(0, 1), "insulation": layers, "number": st.integers(1, 5)}
    line = {"kind": "pipe", **draw(st.sampled_from(PIPES)), "contents": contents, "sprinkler": sprinkler, **tested}
    return line | draw(optional(more))


duct_lines = st.builds(
    lambda shape, sheet, more: {"kind": "duct", **shape, **sheet, **more},
    st.one_of(
        st.builds(lambda d: {"shape": "round", "diameter": f"{d} in"}, st.integers(6, 60)),
        st.builds(
            lambda shape, height, wider: {"shape": shape, "width": f"{height + wider} in", "height": f"{height} in"},
            st.sampled_from(["rectangular", "flat_oval"]),
            st.integers(6, 40),
            st.integers(0, 40),
        ),
    ),
    st.one_of(
        st.builds(
            lambda gauge, table: {"gauge": gauge, "gauge_table": table},
            st.sampled_from([16, 18, 20, 22, 24, 26]),
            st.sampled_from(["galvanised", "uncoated"]),
        ),
        st.just({"thickness": "0.03 in"}),
    ),
    optional({"reinforcement": st.floats(0, 1), "liner": layers, "wrap": layers}),
)
conduit_lines = st.sampled_from([(kind, size) for kind, sizes_ in TRADE_SIZES.items() for size in sizes_]).flatmap(
    lambda own: st.one_of(
        st.floats(0, 0.6).map(lambda fill: {"kind": "conduit", "type": own[0], "size": own[1], "fill": fill}),
        st.floats(0, 20).map(lambda cables: {"kind": "conduit", "type": own[0], "size": own[1], "cables": cables}),
    )
)
tray_lines = st.builds(
    lambda weight, held: {"kind": "tray", "self_weight": weight, **held},
    st.floats(1, 10),
    st.one_of(
        st.sampled_from(list(TRAY_CLASSES)).map(lambda name: {"load_class": name}),
        st.lists(st.floats(0, 10), min_size=1, max_size=5).map(lambda cables: {"cables": cables}),
    ),
)
stated_lines = st.fixed_dictionaries(
    {"kind": st.just("line"), "weight": st.floats(0.1, 300)},
    optional={"filling": st.floats(0, 50), "allowance": st.floats(0, 1), "number": st.integers(1, 9)},
)
lines = st.one_of(pipe_lines(), duct_lines, conduit_lines, tray_lines, stated_lines)
overhangs = st.integers(0, 3)
rules = st.lists(st.sampled_from(["sp58_water", "plumbing_code", "electrical_code", "duct_round"]), min_size=1)


@st.composite
def run_items(draw):
    spans = draw(st.lists(st.integers(2, 20), min_size=1, max_size=6))
    start, end = draw(overhangs), draw(overhangs)
    more = {
        "model": st.sampled_from(["larger", "tributary", "continuous", "hinged"]),
        "point_loads": loads_between(-start, sum(spans) + end),
        "spacing_rules": rules,
    }
    if len(spans) > 1:
        more["missing_hanger"] = st.one_of(st.just("any"), st.integers(1, len(spans) - 1))
    run = {"spans": spans, "start_overhang": start, "end_overhang": end, **draw(optional(more))}
    return {"kind": "run", "line": draw(lines), "run": run}


@st.composite
def trapeze_items(draw):
    apart = draw(st.lists(st.integers(1, 6), min_size=1, max_size=3))
    rods = [sum(apart[:at]) for at in range(len(apart) + 1)]
    tiers = []
    for _ in range(draw(st.integers(1, 3))):
        start, end = draw(overhangs), draw(overhangs)
        places = st.integers(-start, rods[-1] + end)
        section = {
            "section": {"width": "1-5/8 in", "height": "1-5/8 in", "thickness": "0.105 in", "lip": "3/8 in"},
            "allowable_stress": "25 ksi",
        }
        own = draw(st.sampled_from([{"weight": 1.9}, section]))
        tier = {"bar": {**own, "start_overhang": start, "end_overhang": end}}
        on_bar = st.builds(lambda at, line: {"at": at, "line": line}, places, lines)
        tiers.append(
            tier | draw(optional({"lines": st.lists(on_bar, max_size=4), "loads": loads_between(-start, rods[-1])}))
        )
    spans = draw(st.lists(st.integers(2, 20), min_size=1, max_size=4))
    by_spans = {"spans": spans, "support": draw(st.integers(0, len(spans)))}
    run = draw(st.sampled_from([{"spacing": draw(st.integers(2, 20))}, by_spans]))
    item = {"kind": "trapeze", "run": run, "rods_at": rods, "tiers": tiers}
    return item | draw(optional({"spare": st.floats(0, 1)}))


@st.composite
def equipment_items(draw):
    across, deep = draw(st.integers(12, 90)), draw(st.integers(12, 90))
    corners = [{"x": 0, "y": 0}, {"x": across, "y": 0}, {"x": across, "y": deep}, {"x": 0, "y": deep}]
    weight = draw(st.integers(1, 5000))
    more = {
        "contents": st.integers(0, weight),
        "model": st.sampled_from(["larger", "equal_springs", "any_three"]),
        "impact": st.floats(1, 3),
    }
    return {
        "kind": "equipment",
        "weight": weight,
        "rods_at": corners[: draw(st.integers(2, 4))],
        "centre_of_gravity": {"x": draw(st.integers(0, across)), "y": draw(st.integers(0, deep))},
        **draw(optional(more)),
    }


riser_items = st.fixed_dictionaries(
    {"kind": st.just("riser"), "line": lines, "length": st.integers(1, 500), "supports": st.integers(1, 20)},
    optional={"model": st.sampled_from(["one_carries_all", "equal"])},
)


@st.composite
def hanging(draw):
    """An item with whatever any item may have."""
    item = draw(st.one_of(run_items(), trapeze_items(), equipment_items(), riser_items))
    item["id"] = draw(st.text(min_size=1, max_size=56))
    if draw(st.booleans()) and (item["kind"] != "trapeze" or any(tier.get("lines") for tier in item["tiers"])):
        apart = {"number": draw(st.integers(1, 4))} if item["kind"] == "equipment" else {"spacing": 40}
        brace = {"angle": draw(st.integers(20, 70)), "angle_from": draw(st.sampled_from(["vertical", "horizontal"]))}
        item["seismic"] = {
            "category": draw(st.sampled_from("ABCDEF")),
            "s_ds": draw(st.floats(0, 2)),
            "i_p": draw(st.sampled_from([1.0, 1.5])),
            "component": draw(st.sampled_from(list(FACTORS_16))),
            "z": draw(st.integers(0, 300)),
            "h": draw(st.integers(10, 300)),
            **draw(optional({"brace": st.just({**brace, **apart}), "bending_free": st.booleans()})),
        }
    rod = {
        "length": st.integers(0, 10),
        "out_of_plumb": st.floats(0, 10),
        "rule": st.sampled_from(["sp58_allowable", "sp58_allowable_older", "tensile_strength"]),
    }
    rods = st.builds(lambda size, more: {"size": size, **more}, st.sampled_from(list(THREADS)), optional(rod))
    given_loads = st.fixed_dictionaries(
        {
            "hanger": st.just(0),
            "nature": st.sampled_from(["dead", "live", "roof_live", "snow", "wind", "thermal", "test"]),
            "tension": st.integers(-500, 500),
        },
        optional={"shear_x": st.integers(-500, 500), "shear_y": st.integers(-500, 500)},
    )
    more = {"rod": rods, "erection_load": st.just("250 lb"), "given": st.lists(given_loads, max_size=3)}
    return item | draw(optional(more))


def test_loads_on_hangers_that_mean_something(validator):
    statuses, kinds = Counter(), Counter()
    schema = validator("HangerLoadsAnswer")

    @settings(quick, max_examples=300)
    @given(hanging(), st.sampled_from(["loads", "trace"]))
    def ask(item, detail):
        response = CLIENT.post(LOADS_PATH, json={"units": "us", "detail": detail, "items": [item]})
        assert response.status_code == 200
        answer = response.json()
        conforms(schema, answer)
        statuses[answer["items"][0]["status"]] += 1
        kinds[item["kind"]] += 1

    ask()
    total = statuses.total()
    assert total > 200
    assert min(kinds.values()) > 0.05 * total, kinds
    assert len(kinds) == 4
    assert statuses["invalid"] <= 0.2 * total, statuses
    assert statuses["passed"] > 0.1 * total, statuses
    assert statuses["failed"] > 0.05 * total, statuses


TITLES = st.one_of(
    st.sampled_from([*columns(), *ALIASES]),
    st.sampled_from(
        ["base.thickness [in]", "anchor.h_ef[mm]", "hangs.weight [lb]", "x [ft", "[in]", "", "hangs", " id "]
    ),
    st.text(max_size=12),
)
CELLS = st.one_of(
    st.sampled_from(
        ["", "none", "3 in", "1/2", "5'-6\"", "pipe", "weight", "forces", "concrete", "B", "1e999", "=1", "10 ft;8 ft"]
    ),
    st.integers().map(str),
    st.floats().map(str),
    st.text(max_size=12),
)


@settings(quick, max_examples=400)
@given(
    st.lists(TITLES, min_size=1, max_size=8),
    st.lists(st.lists(CELLS, max_size=9), max_size=4),
    st.sampled_from(",;\t"),
    st.sampled_from(["", "?units=us", "?units=si&decimal=,", "?format=json", "?default.hangs.kind=weight&units=us"]),
    st.booleans(),
)
def test_csv_of_any_kind(checked, titles, rows, delimiter, query, quoted):
    """Whatever the text, an answer by the rules: the helper refuses every 5xx."""

    def line(cells):
        return delimiter.join('"' + cell.replace('"', '""') + '"' if quoted else cell for cell in cells)

    text = "\n".join(line(each) for each in [titles, *rows])
    response = CLIENT.post(
        BATCH_PATH + query, content=text.encode("utf-8", "surrogatepass"), headers={"content-type": "text/csv"}
    )
    checked(response)
    assert response.status_code in (200, 400, 415, 422)


@settings(quick, max_examples=150)
@given(st.lists(points(), min_size=1, max_size=3), st.data())
def test_csv_with_one_cell_changed(checked, several, data):
    """Good rows with one cell replaced by anything: the other rows keep their results."""
    flat = [dict(_cells({**each, "id": f"P{at}"})) for at, each in enumerate(several)]
    names = sorted({name for row in flat for name in row})
    place = data.draw(st.sampled_from([name for name in names if name != "id"]))
    before = _rows(checked, flat, names)
    flat[0][place] = data.draw(CELLS)
    after = _rows(checked, flat, names)
    if after is not None:
        assert after[1:] == before[1:]


def _rows(checked, flat, names):
    text = "\n".join(",".join('"' + str(row.get(name, "")).replace('"', '""') + '"' for name in names) for row in flat)
    response = CLIENT.post(
        f"{BATCH_PATH}?units=us&format=json",
        content=(",".join(names) + "\n" + text).encode(),
        headers={"content-type": "text/csv"},
    )
    answer = checked(response)
    return answer["items"] if response.status_code == 200 else None


def _cells(value, path=""):
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _cells(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        for at, inner in enumerate(value):
            yield from _cells(inner, f"{path}.{at}")
    elif isinstance(value, list):
        yield path, ";".join(str(each) for each in value)
    else:
        yield path, value
