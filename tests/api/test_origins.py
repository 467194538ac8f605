"""Web forms of other hosts: what a browser is told of the origins that may call (the fetch standard of WHATWG)."""

import pytest
from fastapi.testclient import TestClient

from api.bodies import SINGLE_JSON
from hangpoint.app import create_app
from hangpoint.settings import Settings

FORM = "https://forms.example:8443"
PATH = "/v1/hang-point"


@pytest.fixture(scope="module")
def client():
    settings = Settings(access="tokens", tokens="abc", origins=f"http://localhost:3000, {FORM}")
    return TestClient(create_app(settings))


def preflight(client, origin, **more):
    asked = {"Access-Control-Request-Method": "POST", "Access-Control-Request-Headers": "authorization,content-type"}
    return client.options(PATH, headers={"Origin": origin} | asked | more)


def test_a_browser_may_ask_before_it_sends_and_has_no_token_then(client):
    answer = preflight(client, FORM)
    assert answer.status_code == 200
    assert answer.headers["access-control-allow-origin"] == FORM
    allowed = answer.headers["access-control-allow-headers"].lower().split(", ")
    assert {"authorization", "content-type", "content-encoding", "if-none-match"} <= set(allowed)
    assert "access-control-allow-credentials" not in answer.headers


@pytest.mark.parametrize(("token", "status"), [("abc", 200), ("nope", 401)])
def test_answers_and_problems_can_be_read_by_the_page(client, token, status):
    answer = client.post(PATH, json=SINGLE_JSON, headers={"Origin": FORM, "Authorization": f"Bearer {token}"})
    assert answer.status_code == status
    assert answer.headers["access-control-allow-origin"] == FORM
    assert "X-Trace-Id" in answer.headers["access-control-expose-headers"]
    assert "Origin" in answer.headers["vary"]


def test_no_other_origin_is_allowed(client):
    other = "https://forms.example"
    assert preflight(client, other).status_code == 400
    answer = client.post(PATH, json=SINGLE_JSON, headers={"Origin": other, "Authorization": "Bearer abc"})
    assert "access-control-allow-origin" not in answer.headers


def test_without_the_setting_no_browser_is_told_anything():
    answer = TestClient(create_app(Settings())).post(PATH, json=SINGLE_JSON, headers={"Origin": FORM})
    assert answer.status_code == 200
    assert not [name for name in answer.headers if name.startswith("access-control")]


def test_a_defect_can_be_read_by_the_page(caplog):
    app = create_app(Settings(origins=FORM))

    @app.post("/broken")
    async def broken():
        raise RuntimeError("a defect")

    with TestClient(app, raise_server_exceptions=False) as client:
        answer = client.post("/broken", headers={"Origin": FORM})
        other = client.post("/broken", headers={"Origin": "https://other.example"})
    assert answer.status_code == other.status_code == 500
    assert answer.headers["access-control-allow-origin"] == FORM
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert "access-control-allow-origin" not in other.headers
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["type"] == "/problems/internal"
    assert answer.json()["trace_id"] == answer.headers["x-trace-id"]
    assert "a defect" not in answer.text
    told = [each for each in caplog.records if each.name == "hangpoint.defects"]
    assert len(told) == 2
    assert answer.headers["x-trace-id"] in told[0].getMessage()
