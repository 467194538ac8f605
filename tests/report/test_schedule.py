"""The schedule of an answer as rows and as CSV: columns, empty cells, guards, repeated inputs."""

import csv
import io
import json

import pytest
from starlette.testclient import TestClient

from api.bodies import INLINE, SINGLE_JSON, batch, change, item
from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import read_batch
from hangpoint.api.media import JSON
from hangpoint.api.run import RunOptions, run_batch
from hangpoint.app import create_app
from hangpoint.product.catalogue import load_catalogue
from hangpoint.report.reasons import finding_text, percent
from hangpoint.report.schedule import COLUMNS, Beside, schedule_csv, schedule_rows, titles

PASSED = {
    "id": "A-1",
    "index": 0,
    "status": "passed",
    "on_assumptions": True,
    "state_decided_by": "engineer of record",
    "product": {"address": "some-family/3/8/2.5", "data": "invented"},
    "demand": {
        "dead": 180.0,
        "contents": 0.0,
        "live": 0.1,
        "sprinkler": 0.0,
        "factored_tension": 252.0,
        "sustained_tension": 252.0,
        "factored_shear": 0.0,
        "load_case": "1.4D",
    },
    "governing": {
        "link": "base",
        "mode": "side_face_blowout",
        "edge": "x_plus",
        "load_case": "1.4D",
        "utilisation": 0.2,
    },
    "weakest_link": "base",
    "findings": [
        {"severity": "note", "code": "one", "text": "A note.", "clause": ""},
        {
            "severity": "violation",
            "code": "two",
            "text": "The edge is too near.",
            "clause": "17.9.2",
            "value": 50.0,
            "limit": 76.2,
            "quantity": "length",
        },
    ],
    "assumptions": ["a", "b"],
    "not_checked": [],
}
REFUSED = {
    **PASSED,
    "id": "A-2",
    "index": 1,
    "status": "refused",
    "reason": {"code": "why", "text": "Not qualified.", "clause": "1.2"},
    "findings": [],
}
del REFUSED["governing"], REFUSED["weakest_link"]
INVALID = {
    "id": None,
    "index": 2,
    "status": "invalid",
    "problem": {
        "errors": [{"pointer": "#/items/2/base", "detail": "wrong, and\nlong"}, {"pointer": "#", "detail": "x"}]
    },
}
ANSWER = {"units": {"force": "kN", "length": "mm"}, "items": [PASSED, REFUSED, INVALID]}


def read(text):
    return list(csv.reader(io.StringIO(text, newline="")))


def test_rows_hold_every_column():
    for row in schedule_rows(ANSWER):
        assert tuple(row) == COLUMNS


def test_what_does_not_apply_is_an_empty_cell():
    passed, refused, invalid = schedule_rows(ANSWER)
    assert passed["findings"] == "note:one;violation:two"
    assert (passed["governing_edge"], passed["utilisation"], passed["row"]) == ("x_plus", 0.2, 1)
    assert (passed["weakest_link"], refused["weakest_link"]) == ("base", None)
    assert passed["not_checked"] is None
    assert (passed["state_decided_by"], invalid["state_decided_by"]) == ("engineer of record", None)
    assert (refused["reason"], refused["utilisation"], refused["dead"]) == ("why", None, 180.0)
    assert (invalid["pointer"], invalid["problem"]) == ("#/items/2/base", "wrong, and\nlong Wrong as well: #.")
    blank = {name for name, value in invalid.items() if value is None}
    assert blank == set(COLUMNS) - {"row", "status", "problem", "pointer", "why"}


def test_why_a_point_is_not_passed_is_said_in_words():
    failed, refused, invalid = (row["why"] for row in schedule_rows(ANSWER))
    assert failed == "The edge is too near. Here 50 mm, limit 76.2 mm. (17.9.2)"
    assert refused == "Not qualified. (1.2)"
    assert invalid == "#/items/2/base: wrong, and\nlong #: x"
    used = {**PASSED, "findings": [], "governing": {**PASSED["governing"], "utilisation": 1.25}}
    overloaded, passed = schedule_rows({**ANSWER, "items": [used, {**PASSED, "findings": []}]})
    assert overloaded["why"] == "125.0% used: side-face blowout of the concrete (1.4D)."
    assert passed["why"] is None


def test_anchors_neighbours_and_questions_are_named_in_the_last_columns():
    near = {"together": ["=1+1", "B"], "unlike": ["C"], "alone": {"utilisation": 0.1}}
    governing = {**PASSED["governing"], "anchors": [0, 3]}
    asked = [{"code": code, "text": "t", "question": "q"} for code in ("topping-bond", "fire-rating")]
    first = {**PASSED, "governing": governing, "neighbours": near, "to_engineer": asked}
    answer = {**ANSWER, "items": [first, PASSED, INVALID]}
    assert COLUMNS[-6:] == ("governing_anchors", "neighbours", "to_engineer", "load_level", "why", "line")
    rows = [row[-6:-3] for row in read(schedule_csv(answer))[1:]]
    assert rows == [["0;3", "'=1+1;B;C", "topping-bond;fire-rating"], ["", "", ""], ["", "", ""]]


def test_forces_have_their_unit_in_the_title():
    named = titles(ANSWER)
    assert named["dead"] == "dead [kN]"
    assert {name for name, title in named.items() if title != name} == set(PASSED["demand"]) - {"load_case"}


def test_csv_reads_back():
    head, *rows = read(schedule_csv(ANSWER))
    assert head == list(titles(ANSWER).values())
    cells = dict(zip(COLUMNS, rows[0], strict=True))
    assert (cells["on_assumptions"], cells["live"], cells["utilisation"]) == ("true", "0.1", "0.2")
    assert dict(zip(COLUMNS, rows[2], strict=True))["problem"] == "wrong, and\nlong Wrong as well: #."
    assert rows[2][0] == ""


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_a_cell_is_never_a_formula(start):
    answer = {**ANSWER, "items": [{**PASSED, "id": f"{start}1+1"}]}
    assert read(schedule_csv(answer))[1][0] == f"'{start}1+1"


def test_a_negative_number_stays_a_number():
    demand = {**PASSED["demand"], "dead": -10.5}
    row = read(schedule_csv({**ANSWER, "items": [{**PASSED, "demand": demand}]}))[1]
    assert row[COLUMNS.index("dead")] == "-10.5"


def test_lines_of_the_file_stand_in_a_column_of_their_own():
    head, *rows = read(schedule_csv(ANSWER, Beside(lines=[2, 3, 7])))
    assert [row[head.index("line")] for row in rows] == ["2", "3", "7"]
    head, *rows = read(schedule_csv(ANSWER))
    assert {row[head.index("line")] for row in rows} == {""}


def test_notes_stand_at_the_end_under_their_own_titles():
    head, *rows = read(schedule_csv(ANSWER, Beside(echo=[{"id": "A"}, {}, {}], notes=[("x-=1", ["=2", None, "c"])])))
    assert head[-2:] == ["input.id", "x-=1"]
    assert [row[-1] for row in rows] == ["'=2", "", "c"]


def test_inputs_are_repeated_by_their_path():
    echo = [
        {"id": "A-1", "tags": ["x", "y"], "base": {"edges": {"x_plus": "-3 in"}}},
        {"hangs": {"components": [{"tension": -5}, {"tension": 6}]}},
        5,
    ]
    head, *rows = read(schedule_csv(ANSWER, Beside(echo=echo)))
    cells = [dict(zip(head, row, strict=True)) for row in rows]
    assert cells[0]["input.tags"] == "x;y"
    assert cells[0]["input.base.edges.x_plus"] == "'-3 in"
    assert cells[1]["input.hangs.components.0.tension"] == "-5"
    assert cells[1]["input.hangs.components.1.tension"] == "6"
    assert cells[1]["input.tags"] == ""


def test_an_inline_product_is_repeated_field_by_field(client_rows):
    cells = client_rows(batch(item(anchor={"product": INLINE})))
    assert cells[0]["input.anchor.product.size.d_a"] == "0.375"
    assert cells[0]["input.anchor.product.traits.bases"] == "concrete"


def test_inputs_that_the_schema_refused_are_not_repeated(client_rows):
    """Otherwise every unknown name of a body would be a column of every row."""
    good = SINGLE_JSON["item"]
    cells = client_rows(batch(good, change(good, {"much": {f"x{at}": at for at in range(50)}})))
    assert cells[0]["input.base.thickness"] == "8 in"
    assert cells[1]["input.base.thickness"] == ""
    assert not [name for name in cells[0] if name.startswith("input.much")]


@pytest.fixture
def client_rows():
    client = TestClient(create_app())

    def post(body):
        response = client.post("/v1/hang-points?format=csv&echo=true", json=body)
        assert response.status_code == 200, response.text
        return list(csv.DictReader(io.StringIO(response.text)))

    return post


def test_the_same_answer_in_both_ways_to_run():
    """`run_batch`, which route and command line share, says what reading and answering say."""
    catalogue, limits = load_catalogue(), Limits()
    body = json.dumps(batch(SINGLE_JSON["item"])).encode()
    plain = answer_batch(read_batch(body), catalogue=catalogue, limits=limits, detail="modes")
    options = RunOptions(catalogue=catalogue, limits=limits, detail="modes")
    assert run_batch(body, JSON, options).answer == plain


@pytest.mark.parametrize(("wrong", "text"), [(1, "D0."), (3, "D0. Wrong as well: #/a1, #/a2."), (8, None)])
def test_where_the_other_errors_of_an_item_are(wrong, text):
    errors = [{"pointer": f"#/a{at}", "code": "c", "detail": f"D{at}."} for at in range(wrong)]
    result = {"id": "A", "index": 0, "status": "invalid", "problem": {"errors": errors}}
    (row,) = schedule_rows({"units": {"force": "lbf"}, "items": [result]})
    found = row["problem"]
    assert found == (text or "D0. Wrong as well: #/a1, #/a2, #/a3, #/a4, #/a5 and 2 more.")
    assert row["pointer"] == "#/a0"


@pytest.mark.parametrize(("used", "text"), [(0.308, "30.8%"), (1.0, "100.0%"), (1.0002, "100.1%"), (3.3039, "330.4%")])
def test_what_is_used_above_1_never_reads_as_100_percent(used, text):
    assert percent(used) == text


@pytest.mark.parametrize(
    ("value", "limit", "said"),
    [
        (2.999999, 3.0, "Here 2.999999 in, limit 3 in."),
        (2.5, 3.0, "Here 2.5 in, limit 3 in."),
        (3.0, 3.0, "Here 3 in, limit 3 in."),
    ],
)
def test_a_value_short_of_its_limit_does_not_read_as_the_limit(value, limit, said):
    found = {"text": "An edge is near.", "clause": "", "quantity": "length", "value": value, "limit": limit}
    assert finding_text(found, {"length": "in"}) == f"An edge is near. {said}"
