"""The trace id of every response, and the line of JSON that each request leaves."""

import json
import logging

import pytest
from starlette.testclient import TestClient

from api.bodies import SINGLE_JSON
from hangpoint.api.routes.hang_points import BATCH_PATH, SINGLE_PATH
from hangpoint.app import create_app
from hangpoint.settings import Settings

IDENTITY = "4bf92f3577b34da6a3ce929d0e0e4736"
PARENT = f"00-{IDENTITY}-00f067aa0ba902b7-01"
"""The example of the W3C recommendation Trace Context (from memory)."""


@pytest.fixture
def lines(caplog):
    caplog.set_level(logging.INFO, "hangpoint.requests")

    def written():
        return [json.loads(each.getMessage()) for each in caplog.records if each.name == "hangpoint.requests"]

    return written


@pytest.mark.parametrize(
    ("method", "path", "body", "status"),
    [
        ("GET", "/", None, 200),
        ("GET", "/livez", None, 200),
        ("HEAD", "/livez", None, 200),
        ("GET", "/v1/quantities", None, 200),
        ("GET", "/docs", None, 200),
        ("GET", "/static/swagger-ui.css", None, 200),
        ("GET", "/nope", None, 404),
        ("DELETE", SINGLE_PATH, None, 405),
        ("POST", SINGLE_PATH, SINGLE_JSON, 200),
        ("POST", SINGLE_PATH, {"units": "us"}, 422),
        ("POST", SINGLE_PATH, {"x": "y" * 300_000}, 413),
        ("POST", BATCH_PATH, {}, 422),
    ],
)
def test_one_line_a_request_with_the_trace_id_of_the_response(client, lines, method, path, body, status):
    response = client.request(method, path, json=body)
    (line,) = lines()
    assert response.status_code == line["status"] == status
    assert line["method"] == method
    assert len(line["trace_id"]) == 32
    assert line["trace_id"] == response.headers["x-trace-id"]
    assert line["bytes_out"] == len(response.content)
    assert isinstance(line["milliseconds"], float)
    always = {"time", "level", "trace_id", "method", "route", "status", "milliseconds", "bytes_out"}
    assert set(line) - {"items"} == always
    assert ("items" in line) == (status == 200 and method == "POST")
    if status >= 400 and response.content:
        assert response.json()["trace_id"] == line["trace_id"]


@pytest.mark.parametrize("path", ["/livez", "/nope"])
def test_a_traceparent_is_continued(client, lines, path):
    response = client.get(path, headers={"traceparent": PARENT})
    assert response.headers.get_list("x-trace-id") == [IDENTITY]
    assert lines()[0]["trace_id"] == IDENTITY


@pytest.mark.parametrize("parent", ["", "00", PARENT.upper(), f"00-{'0' * 32}-00f067aa0ba902b7-01", f"00-{IDENTITY}"])
def test_a_traceparent_that_is_none_begins_a_new_trace(client, parent):
    first, second = (client.get("/livez", headers={"traceparent": parent}).headers["x-trace-id"] for _ in range(2))
    assert first != second
    assert IDENTITY not in (first, second)


def test_a_defect_has_its_line(client, lines, monkeypatch):
    def fail(*_, **__):
        raise RuntimeError("secret")

    monkeypatch.setattr("hangpoint.api.routes.hang_points.run_single", fail)
    response = client.post(SINGLE_PATH, json=SINGLE_JSON)
    (line,) = lines()
    assert response.status_code == line["status"] == 500
    assert response.json()["trace_id"] == response.headers["x-trace-id"] == line["trace_id"]
    assert line["bytes_out"] == len(response.content)


def test_a_caller_without_a_token_has_its_line(lines):
    client = TestClient(create_app(Settings(access="tokens", tokens="abc")))
    response = client.post(SINGLE_PATH, json=SINGLE_JSON)
    (line,) = lines()
    assert (line["status"], line["trace_id"]) == (401, response.headers["x-trace-id"])


def test_no_body_is_written(client, caplog):
    caplog.set_level(logging.INFO)
    client.post(SINGLE_PATH, json={**SINGLE_JSON, "item": {**SINGLE_JSON["item"], "trade": "confidential"}})
    assert "confidential" not in caplog.text


def test_without_a_log_a_response_still_has_its_trace_id(client, caplog):
    caplog.set_level(logging.WARNING, "hangpoint.requests")
    assert len(client.get("/livez").headers["x-trace-id"]) == 32
    assert caplog.records == []


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/docs"),
        ("GET", "/static/swagger-ui.css"),
        ("GET", "/v1/limits"),
        ("GET", "/nope"),
        ("POST", f"{SINGLE_PATH}?format=html"),
        ("POST", f"{SINGLE_PATH}?format=pdf"),
        ("POST", f"{BATCH_PATH}?format=csv"),
    ],
)
def test_no_browser_guesses_the_type_of_a_response(client, method, path):
    body = {"units": "us", "items": [SINGLE_JSON["item"]]} if path.startswith(BATCH_PATH + "?") else SINGLE_JSON
    response = client.request(method, path, json=body if method == "POST" else None)
    assert response.status_code == (404 if path == "/nope" else 200)
    assert response.headers["x-content-type-options"] == "nosniff"


def test_tokens_are_not_printed_with_the_settings():
    settings = Settings(access="tokens", tokens="a-secret, another")
    assert settings.bearer_tokens == ["a-secret", "another"]
    assert "a-secret" not in f"{settings!r} {settings} {settings.model_dump()}"
