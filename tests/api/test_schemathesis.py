"""Every operation under generated requests.

First by schemathesis from the OpenAPI document, all of its checks on. What a schema can't say (two fields that
contradict each other, a product that the catalogue lacks, a pipe that the tables lack, silence about an edge) is
answered by 422, so the three checking operations list 422 among the statuses expected for a body that agrees with its
schema; 413 and 406 can't come of such a body and are not listed.

Then by requests that mean something, of which at least 80 % must be answered as points that can be checked: or the
fuzzing never got past the door. CSV is fuzzed by a strategy of its own.
"""

import json
from collections import Counter

import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.config import SchemathesisConfig
from starlette.testclient import TestClient

from hangpoint.api.csv_columns import ALIASES, columns
from hangpoint.api.routes.hang_points import BATCH_PATH, GROUP_PATH, SINGLE_PATH
from hangpoint.app import create_app
from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.loads.pipe_sizes import CONTENTS, schedules, sizes
from hangpoint.product.catalogue import load_catalogue

SEMANTIC = {"positive_data_acceptance": {"expected-statuses": ["2xx", "422"]}}
CONFIG = SchemathesisConfig.from_dict(
    {
        "operations": [
            {"include-operation-id": "checkHangPoint", "checks": SEMANTIC},
            {"include-operation-id": "checkAnchorGroup", "checks": SEMANTIC},
            {"include-operation-id": "checkHangPoints", "checks": SEMANTIC},
            # A size or thread that the catalogue lacks is told by 422.
            {"include-operation-id": "listFamilies", "checks": SEMANTIC},
            # A family or a problem is named in the path: 404 for every other name.
            {
                "include-operation-id": ["showFamily", "showProblem"],
                "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", "404"]}},
            },
        ]
    }
)
APP = create_app()
CLIENT = TestClient(APP)
SCHEMA = schemathesis.openapi.from_asgi("/openapi.json", APP, config=CONFIG)
CASES = Counter()

quick = settings(deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))


@schemathesis.serializer("text/csv")
def csv_text(_, value):
    return str(value).encode("utf-8", "replace")


@schemathesis.serializer("application/x-ndjson")
def lines_text(_, value):
    """The text as one line of JSON: of lines, the schema of a body says only that they are text."""
    return json.dumps(str(value)).encode("utf-8", "replace")


@SCHEMA.parametrize()
@settings(quick, max_examples=150)
def test_every_operation(case):
    CASES[case.operation.definition.raw["operationId"]] += 1
    case.call_and_validate()


def test_every_operation_was_reached():
    assert len(CASES) == 13
    assert CASES["checkHangPoint"] > 50
    assert CASES["checkAnchorGroup"] > 50
    assert CASES["checkHangPoints"] > 50


PRODUCTS = {
    basis: [
        (family.id, size.size, f"{embedment.h_ef:g} {'in' if family.units == 'us' else 'mm'}", embedment.h_min)
        for family in load_catalogue().families.values()
        if (family.basis == "allowable_table") is (basis == "tabulated")
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
    contents = ["water"] if sprinkler else list(CONTENTS)
    return {
        "kind": "pipe",
        **draw(st.sampled_from(PIPES)),
        "sprinkler": sprinkler,
        "contents": draw(st.sampled_from(contents)),
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
    {"nature": st.sampled_from(["dead", "contents", "live"]), "tension": st.integers(0, 3000)},
    optional={"shear_x": st.integers(-1500, 1500), "shear_y": st.integers(-1500, 1500)},
)
forces = st.builds(lambda parts: {"kind": "forces", "components": parts}, st.lists(components, min_size=1, max_size=4))
weights = st.fixed_dictionaries(
    {
        "kind": st.just("weight"),
        "weight": st.floats(0, 4000).map(lambda weight: f"{weight:.1f} lb"),
        "nature": st.sampled_from(["dead", "contents", "live"]),
    }
)
CONFIRMED = {"temperature": "a", "concrete_age": 60, "certified_installer": True, "continuous_inspection": True}
edges = st.one_of(st.just("none"), inches(1, 40), st.floats(0.5, 500))


@st.composite
def points(draw):
    basis = draw(st.sampled_from(["tabulated"] + ["calculated"] * 9))
    family, size, h_ef, _ = draw(st.sampled_from(PRODUCTS[basis]))
    uncracked = draw(st.booleans())
    base = {
        "kind": "concrete",
        "strength": {"f_c": draw(st.integers(2500, 12000))},
        "density": draw(st.sampled_from(["normalweight", "sand_lightweight", "all_lightweight"])),
        "thickness": draw(inches(4, 60)),
        "edges": {side: draw(edges) for side in ("x_minus", "x_plus", "y_minus", "y_plus")},
        "state": "uncracked" if uncracked else "cracked",
        "face": draw(st.sampled_from(["soffit", "side"])),
    }
    if uncracked:
        base["state_decided_by"] = "engineer of record"
    point = {
        "id": draw(st.text(min_size=1, max_size=20)),
        "hangs": draw(st.one_of(pipes(), forces, weights)),
        "anchor": {"family": family, "size": size, "h_ef": h_ef} | draw(optional({"adhesive": st.just(CONFIRMED)})),
        "base": base,
        "seismic": {"category": draw(st.sampled_from("AAABBBCDEF"))},
    }
    more = {
        "rod": st.fixed_dictionaries({"size": st.sampled_from(list(THREADS))}),
        "attachment": optional({"grout_pad": st.booleans(), "welded": st.booleans(), "thickness": inches(0.25, 1)}),
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


directions = st.integers(-3000, 3000)
several_forces = st.fixed_dictionaries(
    {"nature": st.sampled_from(["dead", "live"]), "tension": st.integers(0, 3000)},
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
