"""Zeros that tables have where there is nothing: no insulation, no gap. They are statements, and no assumption is."""

import pytest

from api.bodies import change

PIPE = {
    "id": "P",
    "hangs": {
        "kind": "pipe",
        "material": "steel",
        "size": "4",
        "schedule": "40",
        "contents": "water",
        "sprinkler": False,
        "run": {"spans": [10, 10], "support": 1},
    },
    "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25},
    "rod": {"size": "3/8"},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "thickness": 8,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
    "seismic": {"category": "A"},
}
SHEARED = change(PIPE, {"hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 100, "shear_x": 50}]}})


@pytest.fixture
def ask(send):
    def one(item):
        (result,) = send({"units": "us", "items": [item]}, status=200)["items"]
        return result

    return one


@pytest.mark.parametrize(
    "insulation",
    [{"thickness": 0}, {"thickness": "0 in"}, {"thickness": "0 mm", "density": 0}, {"thickness": 0, "density": 8}],
)
def test_a_pipe_with_insulation_of_no_thickness_is_bare(ask, insulation):
    bare, stated = ask(PIPE), ask(change(PIPE, {"hangs.insulation": insulation}))
    assert stated["demand"] == bare["demand"]
    assert "no-insulation-assumed" in bare["assumptions"]
    assert "no-insulation-assumed" not in stated["assumptions"]


@pytest.mark.parametrize(
    ("insulation", "lacking"), [({"density": 8}, "thickness"), ({"thickness": 1}, "density"), ({}, None)]
)
def test_half_of_an_insulation_is_an_error(ask, insulation, lacking):
    result = ask(change(PIPE, {"hangs.insulation": insulation}))
    if lacking is None:
        assert "no-insulation-assumed" in result["assumptions"]
    else:
        (error,) = result["problem"]["errors"]
        assert error["pointer"] == f"#/items/0/hangs/insulation/{lacking}"


def test_a_column_of_insulation_has_bare_pipes(client):
    header = (
        "id,hangs.kind,material,pipe_size,schedule,contents,sprinkler,hangs.insulation.thickness [in],"
        "hangs.insulation.density [lb/ft3],spans [ft],support,rod_size,family,anchor_size,h_ef [in],base.kind,"
        "f_c [psi],base.density,thickness [in],edge_x_minus [in],edge_x_plus [in],edge_y_minus [in],edge_y_plus [in],"
        "seismic_category"
    )
    rest = "10;10,1,3/8,wedge-expansion-zinc,1/2,3.25,concrete,4000,normalweight,8,none,none,none,none,A"
    rows = [f"{name},pipe,steel,4,40,water,no,{layer},{rest}" for name, layer in (("A", "0,0"), ("B", "1.5,8"))]
    answer = client.post(
        "/v1/hang-points?units=us&format=json",
        content="\n".join((header, *rows)),
        headers={"Content-Type": "text/csv"},
    ).json()
    bare, insulated = answer["items"]
    assert (bare["status"], insulated["status"]) == ("passed", "passed")
    assert bare["demand"]["dead"] < insulated["demand"]["dead"]
    assert "no-insulation-assumed" not in answer["assumptions"]


@pytest.mark.parametrize("gap", [0, "0 in", "0 mm"])
def test_no_gap_is_a_flush_attachment(ask, gap):
    silent, stated = ask(SHEARED), ask(change(SHEARED, {"attachment.gap": gap}))
    assert (silent["status"], stated["status"]) == ("passed", "passed")
    assert stated["governing"] == silent["governing"]
    assert "flush-attachment-assumed" in silent["assumptions"]
    assert "flush-attachment-assumed" not in stated["assumptions"]


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("attachment.gap", -1, "at least 0 and at most 100,000 in"),
        ("hangs.insulation", {"thickness": -1, "density": 8}, "at least 0 and at most 100,000 in"),
        ("base.edges.x_plus", 0, 'or the word "none".'),
    ],
)
def test_ranges_are_told(ask, path, value, said):
    (error,) = ask(change(PIPE, {path: value}))["problem"]["errors"]
    assert error["code"] == "quantity"
    assert said in error["detail"]


@pytest.mark.parametrize(
    ("line", "path"),
    [
        ({"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water"}, "insulation"),
        ({"kind": "duct", "shape": "round", "diameter": 20, "thickness": 0.04}, "wrap"),
    ],
)
def test_lines_of_hanger_loads(client, line, path):
    def loads(own):
        item = {"id": "L", "kind": "run", "line": own, "run": {"spans": [10, 10]}}
        answer = client.post("/v1/hanger-loads", json={"units": "us", "items": [item]})
        assert answer.status_code == 200, answer.text
        (result,) = answer.json()["items"]
        assert "problem" not in result, result
        return result

    more = {"liner": {"thickness": 0, "density": 0}} if path == "wrap" else {}
    stated = loads(line | more | {path: {"thickness": 0, "density": 3}})
    assert "no-insulation-assumed" in loads(line)["assumptions"]
    assert "no-insulation-assumed" not in stated["assumptions"]
    assert stated["hangers"] == loads(line)["hangers"]
