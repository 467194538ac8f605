"""The application under test, and the check of every answer and problem against the published schemas."""

import json

import pytest
from jsonschema import Draft202012Validator
from starlette.testclient import TestClient

from hangpoint.api.routes.hang_points import BATCH_PATH, SINGLE_PATH
from hangpoint.app import create_app

PROBLEM = "application/problem+json"


@pytest.fixture(scope="session")
def app():
    return create_app()


@pytest.fixture(scope="session")
def client(app):
    return TestClient(app, raise_server_exceptions=False)


@pytest.fixture(scope="session")
def validator(app):
    """Validator of a schema of the OpenAPI document by its name."""
    components = app.openapi()["components"]
    made = {}

    def of(name):
        if name not in made:
            made[name] = Draft202012Validator({"$ref": f"#/components/schemas/{name}", "components": components})
        return made[name]

    return of


@pytest.fixture(scope="session")
def checked(validator):
    """An answer that agrees with its schema: JSON against Answer, a problem against Problem, a failure never."""

    def check(response):
        assert response.status_code < 500, response.text[:500]
        media = response.headers["content-type"]
        if media.startswith("text/csv"):
            return response.text
        content = response.json()
        if response.status_code >= 400:
            assert media == PROBLEM
            validator("Problem").validate(content)
            assert content["status"] == response.status_code
            assert len(content["trace_id"]) == 32
            assert content["trace_id"] == response.headers["x-trace-id"]
        else:
            assert media == "application/json"
            assert response.headers["cache-control"] == "no-store"
            validator("Answer").validate(content)
            counted = content["summary"]
            statuses = [each["status"] for each in content["items"]]
            assert counted["total"] == len(statuses)
            for status in ("passed", "failed", "refused", "invalid"):
                assert counted[status] == statuses.count(status)
            assert [each["index"] for each in content["items"]] == list(range(len(statuses)))
        return content

    return check


@pytest.fixture(scope="session")
def send(client, checked):
    """Send a body (an object or bytes) and hand back the checked answer."""

    def post(body, path=BATCH_PATH, *, media="application/json", status=None, headers=None, **options):
        content = body if isinstance(body, bytes | str) else json.dumps(body)
        response = client.post(path, content=content, headers={"content-type": media, **(headers or {})}, **options)
        answer = checked(response)
        if status is not None:
            assert response.status_code == status, response.text[:800]
        return answer

    return post


@pytest.fixture(scope="session")
def send_one(send):
    def post(body, **options):
        return send(body, SINGLE_PATH, **options)

    return post


@pytest.fixture(scope="session")
def send_csv(send):
    def post(text, query="", **options):
        return send(text.encode() if isinstance(text, str) else text, BATCH_PATH + query, media="text/csv", **options)

    return post
