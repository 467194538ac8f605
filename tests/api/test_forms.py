"""Every form of a body with every form of an answer: which one comes, and that all of them say the same."""

import csv
import io
import json

import pytest
from openpyxl import load_workbook

from api.bodies import SINGLE_JSON, as_lines, item
from api.test_csv import written
from hangpoint.api.media import CSV, FORMATS, HTML, JSON, NDJSON, XLSX, answer_form
from hangpoint.api.problems import ProblemError
from hangpoint.api.routes.hang_points import BATCH_PATH

LIVE = {"kind": "weight", "weight": 40, "nature": "live"}
DEAD = {"kind": "weight", "weight": 400, "nature": "dead"}
JOB = {
    "units": "us",
    "detail": "modes",
    "items": [
        item(hangs=DEAD) | {"id": "=1+1", "trade": "-5", "tags": ["a"]},
        item(at__x=100, hangs={"kind": "weight", "weight": 30_000, "nature": "dead"}) | {"id": "fails"},
        item(at__x=150, hangs=LIVE, anchor={"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625})
        | {"id": "refused"},
        item(at__x=200, base__thickness=2, hangs=LIVE) | {"id": "invalid"},
        item(hangs=LIVE) | {"id": "repeated", "base": {"kind": "concrete"}},
        item(at__x="42'-11\"", hangs=DEAD) | {"id": "beside the first"},
    ],
}


def flat(value, path=""):
    if isinstance(value, dict):
        return {k: v for key, inner in value.items() for k, v in flat(inner, f"{path}.{key}" if path else key).items()}
    return {path: ";".join(value) if isinstance(value, list) else value}


CELLS = [flat(each) for each in JOB["items"]]
BODIES = {
    JSON: json.dumps(JOB),
    NDJSON: "".join(f"{json.dumps(line)}\n" for line in as_lines(JOB)),
    CSV: written(CELLS, order=list({name: None for row in CELLS for name in row})),
}
QUERIES = {JSON: "", NDJSON: "&neighbours=check", CSV: "&units=us&detail=modes"}
"""Neighbours are checked in JSON and CSV where nothing else is said."""


def table(form, answer):
    """Rows of a CSV or a workbook as texts by title."""
    if form == CSV:
        return list(csv.DictReader(io.StringIO(answer)))
    head, *rows = load_workbook(io.BytesIO(answer))["Schedule"].iter_rows(values_only=True)
    return [dict(zip(head, row, strict=True)) for row in rows]


def number(cell):
    """The number of a cell, None of an empty one; a workbook holds 16 digits."""
    return None if cell in (None, "") else pytest.approx(float(cell), rel=1e-15, abs=0)


@pytest.fixture(scope="module")
def whole(send):
    """The answer in JSON by the form of the body; its places are those of that form."""
    return {
        media: send(body, f"{BATCH_PATH}?format=json{QUERIES[media]}", media=media, status=200)
        for media, body in BODIES.items()
    }


def bare(result):
    """A result without the places of its problem."""
    if "problem" not in result:
        return result
    errors = [(error["code"], error["detail"]) for error in result["problem"]["errors"]]
    return result | {"problem": (result["problem"]["type"], errors)}


@pytest.mark.parametrize("media", [NDJSON, CSV])
def test_every_form_of_a_body_is_the_same_question(whole, media):
    statuses = [each["status"] for each in whole[JSON]["items"]]
    assert statuses == ["passed", "failed", "refused", "invalid", "invalid", "passed"]
    assert whole[JSON]["items"][0]["neighbours"]["together"] == ["beside the first"]
    own, of_json = ([bare(each) for each in whole[form]["items"]] for form in (media, JSON))
    if media == CSV:  # Its empty cells under filled ones are told as one.
        (told,) = whole[CSV]["items"][4]["problem"]["errors"]
        lacking = [each["pointer"].split("/", 3)[3] for each in whole[JSON]["items"][4]["problem"]["errors"]]
        assert len(lacking) > 3
        assert f"nothing in {', '.join(path.replace('/', '.') for path in lacking)}, where" in told["detail"]
        own[4] = of_json[4]
    assert own == of_json
    assert whole[media]["summary"] == whole[JSON]["summary"]


@pytest.mark.parametrize("media", BODIES)
@pytest.mark.parametrize("form", ["json", "ndjson"])
def test_neighbours_may_be_left_out_in_every_form(send, whole, media, form):
    """Points are then alone, and each says that its neighbours weren't checked."""
    body = json.dumps(JOB | {"neighbours": "off"}) if media == JSON else BODIES[media]
    query = {JSON: "", NDJSON: "", CSV: "&units=us&detail=modes&neighbours=off"}[media]
    answer = send(body, f"{BATCH_PATH}?format={form}{query}", media=media, status=200)
    results = answer["items"] if form == "json" else answer[1:-1]
    for result, near in zip(results, whole[media]["items"], strict=True):
        assert "neighbours" not in result
        if result["status"] == "invalid":
            continue
        assert "neighbours" in result["not_checked"]
        assert "neighbours" not in near["not_checked"]
    digest = (answer if form == "json" else answer[-1])["request_digest"]
    assert digest != whole[media]["request_digest"]


@pytest.mark.parametrize("media", BODIES)
def test_lines_hold_the_same_answer(send, whole, media):
    lines = send(BODIES[media], f"{BATCH_PATH}?format=ndjson{QUERIES[media]}", media=media, status=200)
    head, *results, last = lines
    assert results == whole[media]["items"]
    assert head | last | {"items": results} == whole[media] | {"withdrawn": []}


@pytest.mark.parametrize("media", BODIES)
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_tables_hold_the_same_answer(send, whole, media, form):
    answer = send(BODIES[media], f"{BATCH_PATH}?format={form}{QUERIES[media]}", media=media, status=200)
    rows = table(FORMATS[form], answer)
    assert len(rows) == len(JOB["items"])
    for row, result in zip(rows, whole[media]["items"], strict=True):
        assert row["id"] in (result["id"], f"'{result['id']}")
        assert row["status"] == result["status"]
        assert (row["governing_mode"] or None) == result.get("governing", {}).get("mode")
        used = result.get("governing", {}).get("utilisation")
        assert number(row["utilisation"]) == used
        dead = result.get("demand", {}).get("dead")
        assert number(row["dead [lbf]"]) == dead


@pytest.mark.parametrize("media", BODIES)
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_inputs_are_repeated_in_tables(send, media, form):
    query = f"?format={form}&echo=true{QUERIES[media]}"
    rows = table(FORMATS[form], send(BODIES[media], BATCH_PATH + query, media=media, status=200))
    assert [str(row["input.hangs.weight"] or "").removesuffix(".0") for row in rows][:2] == ["400", "30000"]
    assert rows[0]["input.trade"] in ("-5", "'-5")


@pytest.mark.parametrize("form", ["json", "ndjson"])
def test_inputs_are_repeated_in_tables_only(send, form):
    problem = send(BODIES[JSON], f"{BATCH_PATH}?format={form}&echo=true", status=422)
    assert [error["pointer"] for error in problem["errors"]] == ["?echo"]


@pytest.mark.parametrize(
    ("word", "media_type", "name"),
    [
        ("json", JSON, None),
        ("ndjson", NDJSON, None),
        ("csv", f"{CSV}; charset=utf-8", "schedule.csv"),
        ("xlsx", XLSX, "schedule.xlsx"),
    ],
)
def test_an_answer_says_what_it_is(client, word, media_type, name):
    response = client.post(f"{BATCH_PATH}?format={word}", content=BODIES[JSON], headers={"content-type": JSON})
    assert response.headers["content-type"] == media_type
    assert response.headers["cache-control"] == "no-store"
    named = f'attachment; filename="{name}"' if name else None
    assert response.headers.get("content-disposition") == named


def test_the_word_of_the_query_wins(client):
    headers = {"content-type": JSON, "accept": CSV}
    response = client.post(f"{BATCH_PATH}?format=ndjson", content=BODIES[JSON], headers=headers)
    assert response.headers["content-type"] == NDJSON


@pytest.mark.parametrize(
    ("accept", "media", "form"),
    [
        ("", CSV, CSV),
        ("*/*", JSON, JSON),
        ("*/*", NDJSON, NDJSON),
        ("*/*", CSV, CSV),
        (CSV, JSON, CSV),
        (f"{CSV}; charset=utf-8", JSON, CSV),
        ("TEXT/CSV", JSON, CSV),
        (XLSX, NDJSON, XLSX),
        ("text/*", JSON, CSV),
        ("application/*", CSV, JSON),
        ("application/*", NDJSON, NDJSON),
        (f"{NDJSON}, {JSON}", JSON, NDJSON),
        (f"{NDJSON};q=0.5, {JSON}", NDJSON, JSON),
        (f"{JSON};q=0.2, {CSV};q=0.3, {XLSX};q=0.1", JSON, CSV),
        (f"{JSON};q=0, */*", JSON, NDJSON),
        (f"{CSV};q=0.1, */*;q=0.9", CSV, JSON),
        ("text/html, application/xhtml+xml, application/xml;q=0.9, */*;q=0.8", CSV, HTML),
        (f"image/png;level=1, {CSV};q=0.001", JSON, CSV),
        (f"{CSV};q=nan, {JSON};q=9", JSON, CSV),
        (f"{CSV};q=.9, {JSON};q=.95", CSV, JSON),
        (f"{CSV};q=0.12345, {JSON};q=0.2", CSV, JSON),
        (f"{CSV};q=0.0000, {JSON}", CSV, JSON),
    ],
)
def test_the_form_by_accept(accept, media, form):
    """RFC 9110, 12.5.1: the most specific range of a form has its quality; what has the highest is sent."""
    assert answer_form(None, accept, media) == form


@pytest.mark.parametrize(
    "accept", ["application/msword", "image/*", f"{JSON};q=0", "*/*;q=0", f"application/*;q=0.0, {CSV};q=0"]
)
def test_no_form_by_accept(accept):
    with pytest.raises(ProblemError, match="not-acceptable") as error:
        answer_form(None, accept, JSON)
    assert all(form in error.value.detail for form in FORMATS.values())


@pytest.mark.parametrize("media", BODIES)
def test_no_word_by_the_query(send, media):
    problem = send(BODIES[media], f"{BATCH_PATH}?format=docx", media=media, status=406)
    assert "json, ndjson, csv, xlsx, html" in problem["detail"]


def test_accept_may_come_in_parts(client):
    headers = [("content-type", JSON), ("accept", "image/png"), ("accept", CSV)]
    response = client.post(BATCH_PATH, content=BODIES[JSON], headers=headers)
    assert response.headers["content-type"].startswith(CSV)


def test_the_single_check_is_json_only(client, checked):
    for media in (NDJSON, CSV):
        response = client.post("/v1/hang-point", content=json.dumps(SINGLE_JSON), headers={"content-type": media})
        assert checked(response)["status"] == 415


def test_a_workbook_that_is_too_large(send, monkeypatch):
    monkeypatch.setattr("hangpoint.api.routes.hang_points.MAX_CELLS", 30)
    problem = send(BODIES[JSON], f"{BATCH_PATH}?format=xlsx", status=413)
    assert (problem["type"], problem["limit"]) == ("/problems/too-many-items", 30)
    assert problem["received"] > 30


@pytest.mark.parametrize(
    ("path", "formats"),
    [
        ("/v1/hang-point", ["json", "html", "pdf"]),
        ("/v1/anchor-group", ["json", "html", "pdf"]),
        ("/v1/as-built-lists", ["json", "csv", "xlsx"]),
    ],
)
def test_an_unknown_format_is_answered_by_those_of_the_address(client, path, formats):
    response = client.post(f"{path}?format=docx", content="{}", headers={"Content-Type": "application/json"})
    (error,) = response.json()["errors"]
    assert (response.status_code, error["pointer"]) == (422, "?format")
    assert sorted(error["allowed"]) == sorted(formats)
