"""Which load standard goes with which design code: load factors and strengths of one standard belong together."""

import json
from typing import get_type_hints

import pytest

from hangpoint.api.examples import GROUP_JSON, SINGLE_JSON
from hangpoint.api.media import NDJSON
from hangpoint.api.resources import RESOURCES
from hangpoint.api.routes.hang_points import BATCH_PATH, GROUP_PATH, SINGLE_PATH

EN = {"design_code": "en1992_4", "load_standard": "en1990"}
MIXED = [
    {"load_standard": "en1990"},
    {"design_code": "aci318_19", "load_standard": "en1990"},
    {"design_code": "en1992_4", "load_standard": "asce7_16"},
    {"design_code": "en1992_4", "load_standard": "asce7_22"},
]
BATCH = {"units": SINGLE_JSON["units"], "items": [SINGLE_JSON["item"] | {"id": "A"}]}
BODIES = {
    BATCH_PATH: BATCH,
    SINGLE_PATH: SINGLE_JSON,
    GROUP_PATH: GROUP_JSON,
    **{each.path: dict(each.example) for each in RESOURCES if "design_code" in get_type_hints(each.request)},
}
OF_ASCE_ALONE = {
    each.path: dict(each.example)
    for each in RESOURCES
    if "load_standard" in (hints := get_type_hints(each.request)) and "design_code" not in hints
}
CSV = (
    "id,hangs.kind,hangs.weight [lb],hangs.nature,family,anchor_size,h_ef [in],base.kind,base.density,thickness [in],"
    "edge_x_minus,edge_x_plus,edge_y_minus,edge_y_plus,seismic_category\n"
    "H-1,weight,180,dead,wedge-expansion-zinc,3/8,2.5,concrete,normalweight,6,none,none,none,8 in,B\n"
)


def only_error(problem):
    assert (problem["type"], problem["status"]) == ("/problems/validation", 422)
    (error,) = problem["errors"]
    assert error["code"] == "contradiction"
    for word in ("aci318_19 goes with asce7_16 or asce7_22", "en1992_4 goes with en1990"):
        assert word in error["detail"]
    return error


def bare(body):
    return {name: own for name, own in body.items() if name not in EN}


@pytest.mark.parametrize("mixed", MIXED, ids=lambda own: " ".join(own.values()))
@pytest.mark.parametrize("path", BODIES)
def test_what_does_not_go_together_ends_the_request(client, path, mixed):
    problem = client.post(path, json={**bare(BODIES[path]), **mixed}).json()
    error = only_error(problem)
    assert error["pointer"] == "#/load_standard"
    taken = mixed.get("design_code", "aci318_19")
    assert error["allowed"] == (["en1990"] if taken == "en1992_4" else ["asce7_16", "asce7_22"])


@pytest.mark.parametrize("stated", [EN, {"design_code": "en1992_4"}], ids=["both", "the code alone"])
@pytest.mark.parametrize("path", BODIES)
def test_what_goes_together_is_read(client, path, stated):
    answer = client.post(path, json={**bare(BODIES[path]), **stated}).json()
    assert not any(error["pointer"] == "#/load_standard" for error in answer.get("errors", ()))
    assert answer.get("load_standard", "en1990") == "en1990"


def test_requests_without_a_design_code_have_the_editions_of_asce_7_alone(client):
    assert len(OF_ASCE_ALONE) == 2
    for path, body in OF_ASCE_ALONE.items():
        problem = client.post(path, json={**body, "load_standard": "en1990"}).json()
        (error,) = problem["errors"]
        assert (error["pointer"], error["allowed"]) == ("#/load_standard", ["asce7_16", "asce7_22"])


@pytest.mark.parametrize("stated", [EN, {"design_code": "en1992_4"}], ids=["both", "the code alone"])
def test_the_answer_names_the_standard_that_holds(send, stated):
    """Cases without a transient load are listed always; that the factors are those recommended is said always."""
    answer = send(BATCH | stated, status=200)
    assert answer["load_standard"] == "en1990"
    assert list(answer["load_cases"]) == ["1.35G+1.5C", "1.35G+1.5C+1.5L", "1.0G+1.5C", "1.0G+1.5C+1.5L"]
    assert answer["load_cases"]["1.35G+1.5C+1.5L"] == {
        "dead_and_contents": 1.35,
        "contents": 1.5,
        "live": 1.5,
        "sprinkler_load": 1.5,
        "as_given": 0,
        "source": "EN 1990 (6.10)",
    }
    assert "en1990-recommended-factors" in answer["assumptions"]


def test_the_standard_is_no_assumption_where_one_alone_goes_with_the_code(send):
    snow = {"kind": "forces", "components": [{"nature": "snow", "tension": 400}]}
    body = {**BATCH, "items": [{**BATCH["items"][0], "hangs": snow}]}
    assert "load-standard-defaulted" in send(body, status=200)["assumptions"]
    assert "load-standard-defaulted" not in send(body | {"design_code": "en1992_4"}, status=200)["assumptions"]


def test_thermal_load_has_the_factors_of_the_standard_that_holds(send):
    warm = {"kind": "forces", "components": [{"nature": "thermal", "tension": 400}]}
    cold = {"kind": "weight", "weight": 400, "nature": "dead"}
    items = [{"id": name, "hangs": own, "base": {"kind": "steel"}} for name, own in (("A", warm), ("B", cold))]
    by_asce, by_en = (send({**BATCH, "items": items, **own}, status=200) for own in ({}, EN))
    assert {"thermal-load-stays"} == {code for code in by_asce["assumptions"] if "thermal" in code}
    assert {"thermal-load-stays-en1990"} == {code for code in by_en["assumptions"] if "thermal" in code}
    assert ["thermal-load-stays-en1990" in each["assumptions"] for each in by_en["items"]] == [True, False]


def test_contents_are_said_to_have_the_factor_of_dead_load_by_asce_7_alone(send):
    hangs = {"kind": "forces", "components": [{"nature": "contents", "tension": 400}]}
    items = [{"id": "A", "hangs": hangs, "base": {"kind": "steel"}}]
    by_asce, by_en = (send({**BATCH, "items": items, **own}, status=200) for own in ({}, EN))
    assert "contents-factored-as-dead" in {*by_asce["assumptions"]} & {*by_asce["items"][0]["assumptions"]}
    assert "contents-factored-as-dead" not in {*by_en["assumptions"]} | {*by_en["items"][0]["assumptions"]}
    assert "contents of pipes" in by_en["assumptions"]["en1990-recommended-factors"]


@pytest.mark.parametrize("code", [None, "aci318_19"])
def test_without_en_1990_nothing_is_said_of_it(send, code):
    answer = send(BATCH | ({"design_code": code} if code else {}), status=200)
    assert answer["load_standard"] == "asce7_16"
    assert list(answer["load_cases"])[:3] == ["1.4D", "1.2D+1.6L", "5W+250lb"]
    assert "en1990-recommended-factors" not in answer["assumptions"]
    assert not any("1.35G" in name for name in answer["load_cases"])


def test_the_digest_tells_the_standard(send):
    """Stated or taken, the same standard is the same question."""
    by_code, by_both, other = (send(BATCH | own, status=200) for own in ({"design_code": "en1992_4"}, EN, {}))
    assert by_code["request_digest"] == by_both["request_digest"] != other["request_digest"]


@pytest.mark.parametrize("mixed", MIXED, ids=lambda own: " ".join(own.values()))
def test_of_a_csv_the_query_is_to_blame(send_csv, mixed):
    query = "&".join(f"{name}={value}" for name, value in mixed.items())
    assert only_error(send_csv(CSV, f"?{query}", status=422))["pointer"] == "?load_standard"


def test_a_csv_by_en_1990(send_csv):
    query = "&".join(f"{name}={value}" for name, value in EN.items())
    assert "\nH-1,1," in send_csv(CSV, f"?{query}", status=200).replace("\r\n", "\n")


@pytest.mark.parametrize(
    ("header", "query", "place"),
    [
        ({"load_standard": "en1990"}, "", "#/lines/1/load_standard"),
        ({"design_code": "en1992_4", "load_standard": "asce7_22"}, "", "#/lines/1/load_standard"),
        ({"load_standard": "en1990"}, "?design_code=aci318_19", "#/lines/1/load_standard"),
        ({"design_code": "en1992_4"}, "?load_standard=asce7_16", "?load_standard"),
    ],
)
def test_of_lines_the_header_or_the_query_is_to_blame(send_lines, header, query, place):
    problem = send_lines([{"units": "us", **header}, SINGLE_JSON["item"]], query, status=422)
    assert only_error(problem)["pointer"] == place


def test_lines_by_en_1990_stated_in_two_places(send_lines):
    head, *_ = send_lines(
        [{"units": "us", "design_code": "en1992_4"}, SINGLE_JSON["item"]], "?load_standard=en1990", status=200
    )
    assert head["load_standard"] == "en1990"
    assert "1.35G+1.5C" in head["load_cases"]


def test_lines_of_a_body_are_not_begun(client):
    """A stream that contradicts itself is a problem, not an answer that breaks off."""
    text = "".join(json.dumps(each) + "\n" for each in ({"units": "us", **MIXED[1]}, SINGLE_JSON["item"]))
    response = client.post(BATCH_PATH, content=text, headers={"content-type": NDJSON})
    assert response.headers["content-type"] == "application/problem+json"
