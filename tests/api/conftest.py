"""The application under test, and the check of every answer and problem against the published schemas."""

import json

import jsonschema_rs
import pytest
from jsonschema import Draft202012Validator
from starlette.testclient import TestClient

from api.bodies import standing
from api.hanger_bodies import asking
from api.reverse_bodies import Asking
from hangpoint.api.media import NDJSON, XLSX
from hangpoint.api.routes.hang_points import BATCH_PATH, SINGLE_PATH
from hangpoint.app import create_app

PROBLEM = "application/problem+json"


@pytest.fixture(scope="session")
def app():
    return create_app()


@pytest.fixture(scope="session")
def client(app):
    """All requests in one event loop, as a service has."""
    with TestClient(app, raise_server_exceptions=False) as made:
        yield made


class Schema:
    """A schema by two libraries: the quick one says that an answer agrees with it, the other tells where it doesn't."""

    def __init__(self, schema):
        self.quick = jsonschema_rs.Draft202012Validator(schema)
        self.telling = Draft202012Validator(schema)

    def iter_errors(self, value):
        return () if self.quick.is_valid(value) else self.telling.iter_errors(value)

    def validate(self, value):
        if not self.quick.is_valid(value):
            self.telling.validate(value)

    def is_valid(self, value):
        found = self.quick.is_valid(value)
        assert found is self.telling.is_valid(value)
        return found


@pytest.fixture(scope="session")
def validator(app):
    """Validator of a schema of the OpenAPI document by its name."""
    components = app.openapi()["components"]
    made = {}

    def of(name):
        if name not in made:
            made[name] = Schema({"$ref": f"#/components/schemas/{name}", "components": components})
        return made[name]

    return of


@pytest.fixture(scope="session")
def checked(validator):
    """An answer that agrees with its schema: JSON against Answer, lines each against theirs, a problem against Problem.

    A failure never does. A text and a workbook come back as they are, lines as a list of objects.
    """

    def lines(response):
        assert response.text.endswith("\n")
        assert response.headers["cache-control"] == "no-store"
        head, *results, last = (json.loads(line) for line in response.text.splitlines())
        validator("StreamStart").validate(head)
        for each in results:
            validator("InvalidResult" if each["status"] == "invalid" else "CheckedResult").validate(each)
        assert [each["index"] for each in results] == list(range(len(results)))
        if "problem" in last:
            validator("StreamBreak").validate(last)
        else:
            validator("StreamEnd").validate(last)
            statuses = [each["status"] for each in standing(results, last)]
            assert last["summary"]["total"] == len(statuses)
            for status in ("passed", "failed", "refused", "invalid"):
                assert last["summary"][status] == statuses.count(status)
        return [head, *results, last]

    def check(response):
        assert response.status_code < 500, response.text[:500]
        media = response.headers["content-type"]
        if media.startswith("text/csv"):
            return response.text
        if media == XLSX:
            return response.content
        if media == NDJSON:
            return lines(response)
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
def send_lines(send):
    """Send lines, each an object or a text as it stands."""

    def post(lines, query="", *, end="\n", **options):
        text = "".join(f"{each if isinstance(each, str) else json.dumps(each)}{end}" for each in lines)
        return send(text, BATCH_PATH + query, media=NDJSON, **options)

    return post


@pytest.fixture(scope="session")
def send_csv(send):
    def post(text, query="", **options):
        return send(text.encode() if isinstance(text, str) else text, BATCH_PATH + query, media="text/csv", **options)

    return post


@pytest.fixture(scope="module")
def ask_loads(client, validator):
    """The checked answer of hanger loads to some items."""
    return asking(client, validator)


@pytest.fixture(scope="module")
def ask_item(ask_loads):
    """The result of one item of hanger loads."""

    def of(item, **options):
        return ask_loads(item, **options)["items"][0]

    return of


@pytest.fixture(scope="session")
def asking_back(client, validator):
    """Reverse questions, remedies, relocations and sensitivities, each answer checked against its schema."""
    return Asking(client, validator)


@pytest.fixture(scope="session")
def ask_cards(client, validator):
    """Send items for installation cards and hand back the checked answer."""

    def post(*items, units="us", **more):
        response = client.post("/v1/installation-cards", json={"units": units, "items": list(items), **more})
        assert response.status_code == 200, response.text[:500]
        answer = response.json()
        validator("CardsAnswer").validate(answer)
        return answer

    return post
