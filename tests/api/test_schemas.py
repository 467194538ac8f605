"""The published schemas say what the service does.

Examples and mutated bodies go through the validator of the service and through a JSON Schema validator (draft
2020-12) on the published schema, and both must say the same. Three things are outside JSON Schema, and bodies that
differ only by them are not counted:

* the rules between fields of an inline product (a steel area larger than the circle of its diameter, a yield strength
  above the tensile one, a pullout strength without its exponent, a principle outside its basis and the like), which
  the service reports with the code ``product``;
* an integer written with a fraction of zero (``2.0``), which JSON Schema counts as an integer and the service does not;
* a number that JSON can write and a double can't hold (``1e999``), refused by the service.
"""

import json
import random
import re
from functools import reduce
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import validate
from starlette.testclient import TestClient
from typer.testing import CliRunner

from api.bodies import BATCH_JSON, INLINE, SINGLE_JSON, change
from api.hanger_bodies import conforms
from api.mutations import HANGING, MUTATIONS, RICH, errors_of, mutated
from hangpoint.api.body_errors import adapter_of
from hangpoint.api.csv_columns import columns
from hangpoint.api.media import CSV, JSON, NDJSON, XLSX
from hangpoint.api.named_schemas import SHARED
from hangpoint.api.problems import PROBLEMS
from hangpoint.api.resources import RESOURCES
from hangpoint.api.routes.hang_points import BATCH_PATH, GROUP_PATH, SINGLE_PATH
from hangpoint.api.schemas.answer_texts import ANSWER_TEXTS
from hangpoint.api.schemas.group import GroupRequest
from hangpoint.api.schemas.hanger_loads import HangerLoadsRequest
from hangpoint.api.schemas.request import BatchRequest, SingleRequest
from hangpoint.cli import app as commands
from hangpoint.product.catalogue import load_catalogue
from regression.answers import address

TOP = Path(__file__).parents[2]
REQUESTS = sorted(
    file for file in (TOP / "examples" / "requests").glob("*.json") if not file.name.endswith(".answer.json")
)


@pytest.mark.parametrize(
    ("name", "adapter", "start"),
    [
        ("BatchRequest", adapter_of(BatchRequest), RICH),
        ("BatchRequest", adapter_of(BatchRequest), BATCH_JSON),
        ("SingleRequest", adapter_of(SingleRequest), SINGLE_JSON),
        ("SingleRequest", adapter_of(SingleRequest), {"units": "us", "item": RICH["items"][2]}),
        ("HangerLoadsRequest", adapter_of(HangerLoadsRequest), HANGING),
        *((each.request.__name__, adapter_of(each.request), dict(each.example)) for each in RESOURCES),
    ],
)
def test_both_validators_say_the_same(validator, name, adapter, start):
    chance = random.Random(17)
    schema = validator(name)
    assert not errors_of(adapter, start)
    assert schema.is_valid(start)
    verdicts = {True: 0, False: 0, None: 0}
    for _ in range(MUTATIONS):
        body = mutated(start, chance)
        if chance.random() < 0.3:
            body = mutated(body, chance)
        errors = errors_of(adapter, body)
        if errors and all(error["type"] == "product" for error in errors):
            verdicts[None] += 1
            continue
        assert schema.is_valid(body) == (not errors), (body, errors[:2], next(schema.iter_errors(body), None))
        verdicts[not errors] += 1
    assert min(verdicts[True], verdicts[False]) > MUTATIONS / 20
    assert verdicts[None] < MUTATIONS / 10


@pytest.mark.parametrize("file", REQUESTS, ids=lambda file: file.name)
def test_every_example_is_valid_by_both(validator, file):
    body = json.loads(file.read_text("utf-8"))
    kinds = {each.path: each.request for each in RESOURCES}
    kinds |= {SINGLE_PATH: SingleRequest, GROUP_PATH: GroupRequest, BATCH_PATH: BatchRequest}
    kind = kinds[address(file)]
    name, adapter = kind.__name__, adapter_of(kind)
    assert not errors_of(adapter, body)
    validator(name).validate(body)


def test_there_are_examples():
    assert len(REQUESTS) > 3


def test_the_mutations_left_out_are_rules_between_fields(validator):
    """Each of them is one that JSON Schema lets through."""
    body = {"units": "us", "item": {"id": "a", "anchor": {"product": change(INLINE, {"size.a_se": 5})}}}
    assert [error["type"] for error in errors_of(adapter_of(SingleRequest), body)] == ["product"]
    assert validator("SingleRequest").is_valid(body)


def test_the_document_is_current(app):
    """As `hangpoint openapi > openapi/openapi.json` writes it."""
    committed = (TOP / "openapi" / "openapi.json").read_text("utf-8")
    assert json.loads(committed) == app.openapi()
    assert CliRunner().invoke(commands, ["openapi"]).output == committed


def test_codes_of_the_document_are_the_lists_that_are_served(app):
    """Each says in which lists of `GET /v1/quantities` its words stand."""
    served = TestClient(app).get("/v1/quantities").json()
    schemas = app.openapi()["components"]["schemas"]
    codes = {name: schema for name, schema in schemas.items() if name.endswith("Code")}
    assert {"ModeCode", "FindingCode", "RefusalCode", "AssumptionCode", "NotCheckedCode", "RodRuleCode"} <= set(codes)
    for name, schema in codes.items():
        places = re.findall(r"`([a-z_.]+)`", schema["description"])
        assert places, name
        if name == "QuantityCode":
            assert set(schema["enum"]) == {*served["quantities"], "ratio"}
            continue
        lists = [reduce(lambda value, part: value[part], place.split("."), served) for place in places]
        words = [each if isinstance(each, str) else each["code"] for entries in lists for each in entries]
        assert schema["enum"] == words, name


def referred(document, schema):
    """The schema that a reference names."""
    return document["components"]["schemas"][schema["$ref"].rpartition("/")[2]]


def test_units_of_the_document_are_those_of_every_quantity(app):
    served = TestClient(app).get("/v1/quantities").json()["quantities"]
    document = app.openapi()
    units = document["components"]["schemas"]["Units"]
    assert units["required"] == list(units["properties"]) == list(served)
    for name, kind in served.items():
        assert referred(document, units["properties"][name])["enum"] == [kind["us"], kind["si"]]


def test_every_column_of_a_csv_is_listed(app):
    served = TestClient(app).get("/v1/quantities").json()["csv"]["columns"]
    assert len(served) == len(set(served)) == len(columns())
    assert {"hangs.components.1.tension", "anchor.layout.19.x", "id"} <= set(served)


def test_the_document_is_valid_openapi(app):
    validate(app.openapi())


def test_every_operation_has_its_name_and_its_problems(app):
    document = app.openapi()
    operations = [each for path in document["paths"].values() for each in path.values()]
    names = [each["operationId"] for each in operations]
    assert len(set(names)) == len(names) == 17 + len(RESOURCES)
    for each in operations:
        assert each["summary"]
        assert each["description"]
        assert each["tags"]
        statuses = [status for status in each["responses"] if status.startswith(("4", "5"))]
        assert len(statuses) > 1
        for status in statuses:
            (content,) = each["responses"][status]["content"]
            assert content == "application/problem+json"
    assert document["servers"]
    assert document["info"]["license"]


def test_every_problem_of_an_operation_is_one_of_the_closed_list(app):
    known = {str(kind.status) for kind in PROBLEMS.values()} | {"200", "304", "4XX"}
    for path in app.openapi()["paths"].values():
        for operation in path.values():
            assert set(operation["responses"]) <= known


def test_the_examples_of_the_document_are_answered(app, send, client, validator):
    """Every example of a request body in the document, sent as it stands."""
    sent = 0
    document = app.openapi()
    answers = {each.path: each.answer.__name__ for each in RESOURCES}
    for path, operations in document["paths"].items():
        for media, content in operations.get("post", {}).get("requestBody", {}).get("content", {}).items():
            if media == XLSX:  # a workbook is no text
                continue
            if path in answers and media == CSV:
                rules = [own for own in operations["post"]["parameters"] if own["name"] == "rule"]
                query = {own["name"]: referred(document, own["schema"])["enum"][0] for own in rules}
                response = client.post(path, params=query, content=content["example"], headers={"content-type": CSV})
                assert response.status_code == 200, response.text
                answered = operations["post"]["responses"]["200"]["content"]
                assert response.headers["content-type"].startswith(CSV if CSV in answered else JSON)
                sent += 1
                continue
            if path in answers:
                answer = client.post(path, json=content["example"]).json()
                conforms(validator(answers[path]), answer)
                sent += 1
                if "items" not in answer:
                    continue
            else:
                sent += 1
                answer = send(content["example"], path, media=media, status=200)
            if media == NDJSON:
                answer = {"items": answer[1:-1]}
            results = [] if media == CSV else answer["items"]
            statuses = answer.split(",") if media == CSV else [each["status"] for each in results]
            assert {"passed", "counted", "conforms", "held"} & set(statuses) or path in answers
            assert "invalid" not in statuses
    assert sent == 5 + len(RESOURCES) + sum(each.csv is not None for each in RESOURCES)


def test_a_family_file_agrees_with_its_published_schema(client):
    """The built-in families through the served schema."""
    schema = Draft202012Validator(client.get("/v1/schema/family").json())
    families = load_catalogue().families
    assert len(families) > 3
    for name in families:
        schema.validate(client.get(f"/v1/families/{name}").json())


def test_what_does_not_change_is_not_sent_again(client):
    for path in ("/v1/families", "/v1/families/headed-bolt", "/v1/schema/family", "/v1/limits", "/v1/quantities"):
        first = client.get(path)
        assert first.headers["cache-control"].startswith("public, max-age=")
        again = client.get(path, headers={"if-none-match": first.headers["etag"]})
        assert (again.status_code, again.content) == (304, b"")
        assert again.headers["etag"] == first.headers["etag"]
        assert client.get(path, headers={"if-none-match": '"other"'}).status_code == 200
        assert client.get(path, headers={"if-none-match": "*"}).status_code == 304


def test_what_is_read_has_a_schema(client, app, validator):
    """Every address that is read answers by the schema of the document; one of a schema is a schema."""
    families = [each["id"] for each in client.get("/v1/families").json()["families"]]
    looked = set()
    for path, operations in app.openapi()["paths"].items():
        content = operations.get("get", {}).get("responses", {}).get("200", {}).get("content", {})
        if "application/json" not in content or path == "/v1/schema/family":
            continue
        name = content["application/json"]["schema"]["$ref"].rpartition("/")[2]
        for served in [path.format(family=family) for family in families] if "{" in path else [path]:
            validator(name).validate(client.get(served).json())
        looked.add(path)
    assert {"/", "/v1/families", "/v1/families/{family}", "/v1/limits", "/v1/quantities", "/v1/troubles"} <= looked
    for path, query in (("/v1/families", "principle=adhesive"), ("/v1/troubles", "symptom=spins")):
        answer = client.get(f"{path}?{query}")
        validator({"/v1/families": "FamilyList", "/v1/troubles": "Troubles"}[path]).validate(answer.json())


def test_a_served_object_is_closed(client, validator):
    for path, name in (("/v1/quantities", "Quantities"), ("/v1/limits", "Limits"), ("/version", "Versions")):
        content = client.get(path).json()
        first = next(iter(content))
        for wrong in (content | {"other": 1}, {key: value for key, value in content.items() if key != first}):
            assert not validator(name).is_valid(wrong)


def unions(schema):
    if isinstance(schema, dict):
        yield from (schema[name] for name in ("anyOf", "oneOf") if isinstance(schema.get(name), list))
    for inner in schema.values() if isinstance(schema, dict) else schema if isinstance(schema, list) else ():
        yield from unions(inner)


def test_a_word_among_other_forms_is_a_list_of_words(app):
    """Makers of clients refuse or drop a schema whose union has a constant."""
    document = app.openapi()
    found = [form for forms in unions(document) for form in forms]
    assert [form for form in found if "const" in form] == []
    lists = [referred(document, form).get("enum", ()) for form in found if "$ref" in form]
    assert {("not_governing",), ("any",), ("nearest",), ("ceiling",)} <= {tuple(own) for own in lists}


def members(document):
    """What stands in the members of objects, lists entered, with its place."""
    for model, schema in document["components"]["schemas"].items():
        for member, own in schema.get("properties", {}).items():
            for form in (own, *own.get("anyOf", ())):
                while form.get("type") == "array" and "items" in form:
                    form = form["items"]
                yield model, member, form


def test_every_closed_list_has_one_name(app):
    """A maker of clients numbers what has none, and makes a type of every place of what is not referred to."""
    document = app.openapi()
    places = {}
    for model, member, form in members(document):
        assert len(form.get("enum", ())) < 2, (model, member)
        if "$ref" in form and "enum" in referred(document, form):
            places.setdefault(form["$ref"].rpartition("/")[2], set()).add((model, member))
    several = {name for name, own in places.items() if len(own) > 1}
    assert several == set(SHARED) | {name for name in several if name.endswith("Code")}
    assert len(places["LoadStandard"]) > 20
    lists = [schema["enum"] for schema in document["components"]["schemas"].values() if "enum" in schema]
    assert len({tuple(own) for own in lists}) == len(lists) > 100


def test_a_query_has_the_type_of_the_member_of_that_name(app):
    document = app.openapi()
    asked = {own["name"]: own["schema"] for own in document["paths"][BATCH_PATH]["post"]["parameters"]}
    stated = document["components"]["schemas"]["BatchRequest"]["properties"]
    for name in ("units", "design_code", "combinations", "load_standard", "detail", "neighbours"):
        assert asked[name]["$ref"] == stated[name]["$ref"]


def test_names_of_schemas_are_words_of_the_service(app):
    names = app.openapi()["components"]["schemas"]
    assert [name for name in names if not re.fullmatch("([A-Z][a-z]*)+", name) or name.endswith("Schema")] == []


def test_no_member_has_a_default_but_in_words(app):
    """A maker of clients takes a member with a default for one that is never absent, in requests too."""
    schemas = app.openapi()["components"]["schemas"]
    assert [f"{model}.{member}" for model, member, form in members(app.openapi()) if "default" in form] == []
    said = {name: schemas["Embedment"]["properties"][name]["description"] for name in ("lightweight", "seismic")}
    assert said["lightweight"].endswith("Where not stated: lambda_a.")
    assert said["seismic"].endswith("Where not stated: false.")


def test_the_main_members_of_an_answer_say_what_they_hold(app):
    schemas = app.openapi()["components"]["schemas"]
    described = {
        name: {field for field, schema in schemas[name]["properties"].items() if schema.get("description")}
        for name in ANSWER_TEXTS
    }
    assert described == {name: set(schemas[name]["properties"]) for name in ANSWER_TEXTS}
    assert described == {name: set(texts) for name, texts in ANSWER_TEXTS.items()}


def test_the_fields_of_a_hang_point_say_what_they_hold(app):
    schemas = app.openapi()["components"]["schemas"]
    for name in ("At", "Anchor", "Base", "Edges", "Rod", "PipeHangs", "Run", "Seismic", "Plate", "PartialItem", "Item"):
        fields = schemas[name]["properties"]
        assert [field for field, schema in fields.items() if not schema.get("description")] == []
