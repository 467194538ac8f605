"""Counters of the service, read by the parser that comes with the client library of Prometheus."""

import json

import pytest
from prometheus_client.parser import text_string_to_metric_families
from starlette.testclient import TestClient

from api.bodies import BATCH_JSON, SINGLE_JSON, as_lines, item
from hangpoint import __version__
from hangpoint.api.examples import HANGER_LOADS_JSON
from hangpoint.api.media import NDJSON
from hangpoint.api.routes.hang_points import BATCH_PATH, SINGLE_PATH
from hangpoint.app import create_app
from hangpoint.settings import Settings


@pytest.fixture
def own():
    """A service that has answered nothing yet."""
    with TestClient(create_app()) as client:
        yield client


def counted(client):
    """Every sample by its name and labels."""
    response = client.get("/metrics")
    assert response.status_code == 200
    assert response.headers["content-type"].startswith("text/plain; version=0.0.4")
    assert response.headers["cache-control"] == "no-store"
    return {
        (sample.name, *sorted(sample.labels.items())): sample.value
        for family in text_string_to_metric_families(response.text)
        for sample in family.samples
    }


def requests(found, method, route, status):
    labels = {"method": method, "route": route, "status": str(status)}
    return found.get(("hangpoint_requests_total", *sorted(labels.items())), 0)


def items(found, route):
    return found.get(("hangpoint_items_total", ("route", route)), 0)


def test_requests_and_items_are_counted(own):
    two = {"units": "us", "items": [item(id="A"), item(id="B", base={"kind": "concrete"})]}
    for _ in range(3):
        own.post(SINGLE_PATH, json=SINGLE_JSON)
    own.post(SINGLE_PATH, json={"units": "us"})
    own.post(BATCH_PATH, json=two)
    own.post(f"{BATCH_PATH}?format=csv", json=two)
    lines = "\n".join(map(json.dumps, as_lines(BATCH_JSON)))
    own.post(BATCH_PATH, content=lines, headers={"content-type": NDJSON})
    own.post("/v1/hanger-loads", json=dict(HANGER_LOADS_JSON))
    found = counted(own)
    assert requests(found, "POST", SINGLE_PATH, 200) == 3
    assert requests(found, "POST", SINGLE_PATH, 422) == 1
    assert requests(found, "POST", BATCH_PATH, 200) == 3
    assert items(found, SINGLE_PATH) == 3
    assert items(found, BATCH_PATH) == 4 + len(BATCH_JSON["items"])
    assert items(found, "/v1/hanger-loads") == len(HANGER_LOADS_JSON["items"])
    took = ("hangpoint_request_seconds_count", ("method", "POST"), ("route", SINGLE_PATH))
    assert found[took] == 4
    assert found[("hangpoint_requests_now",)] == 1  # this one
    (about,) = [key for key in found if key[0] == "hangpoint_info"]
    assert ("engine", __version__) in about


def test_callers_add_no_series_of_their_own(own):
    before = set(counted(own))
    for method, path in (("GET", "/nope/1"), ("GET", "/nope/2"), ("PROPFIND", "/nope"), ("BREW", SINGLE_PATH)):
        own.request(method, path)
    more = {key for key in set(counted(own)) - before if key[0] == "hangpoint_requests_total"}
    named = {value for key in more for name, value in key[1:] if name in ("method", "route")}
    assert named == {"GET", "other", "/metrics", SINGLE_PATH}


def test_counters_are_open_where_tokens_are_asked_for():
    settings = Settings(access="tokens", tokens="a-token-of-some-length")
    with TestClient(create_app(settings)) as client:
        assert client.get("/metrics").status_code == 200
        assert client.post(SINGLE_PATH, json=SINGLE_JSON).status_code == 401


def test_pages_are_counted_by_their_addresses(own):
    for address in ("/form", "/docs"):
        own.get(address)
        own.head(address)
    found = counted(own)
    for address in ("/form", "/docs"):
        assert requests(found, "GET", address, 200) == 1
        assert requests(found, "HEAD", address, 200) == 1
