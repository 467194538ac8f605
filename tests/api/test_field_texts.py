"""Sentences of fields in the published schemas: every field of a request has one, each of a field that is there."""

import json
import re
from pathlib import Path

import pytest

from hangpoint.api.reverse.envelope import POINTS
from hangpoint.api.schemas.load_texts import FIXTURE_ITEMS, LOAD_TEXTS
from hangpoint.api.schemas.resource_texts import HEAD, RESOURCE_TEXTS
from hangpoint.api.selection.rounds import CURVE
from hangpoint.api.selection.selections import RANKED

EXAMPLES = Path(__file__).parents[2] / "examples/requests"
TEXTS = {**LOAD_TEXTS, **RESOURCE_TEXTS}


@pytest.fixture(scope="module")
def document(app):
    return app.openapi()


@pytest.fixture(scope="module")
def schemas(document):
    return document["components"]["schemas"]


def reached(schema, schemas, found):
    """Names of the objects that a schema refers to, whatever is between."""
    if isinstance(schema, dict):
        name = schema.get("$ref", "").rpartition("/")[2]
        if name and name not in found:
            found.add(name)
            reached(schemas[name], schemas, found)
    for inner in schema.values() if isinstance(schema, dict) else schema if isinstance(schema, list) else ():
        reached(inner, schemas, found)
    return found


@pytest.fixture(scope="module")
def asked(document, schemas):
    """Objects of the bodies of all addresses."""
    bodies = [each["post"]["requestBody"] for each in document["paths"].values() if "post" in each]
    return reached(bodies, schemas, set())


def test_every_field_of_every_request_says_what_it_holds(schemas, asked):
    assert len(asked) > 150
    silent = {
        name: fields
        for name in asked
        if (fields := [key for key, own in schemas[name].get("properties", {}).items() if not own.get("description")])
    }
    assert silent == {}


def test_every_sentence_is_of_a_field_that_is_there(schemas):
    """Of its own object, or of one that shares it."""
    there = {(key, text) for name, own in TEXTS.items() for key, text in own.items() if key in _fields(schemas, name)}
    said = {(key, text) for own in TEXTS.values() for key, text in own.items()}
    assert said - there == set()
    assert [name for name in TEXTS if name not in schemas] == ["WhereAndWho"]


def _fields(schemas, name):
    return schemas.get(name, {}).get("properties", ())


def test_sentences_shared_by_fixtures_are_of_one_of_them(schemas):
    fields = {field for name in FIXTURE_ITEMS for field in schemas[name]["properties"]}
    assert {field for texts in FIXTURE_ITEMS.values() for field in texts} == fields


def test_sentences_end_as_sentences(schemas, asked):
    texts = {
        own["description"]
        for name in asked
        for own in schemas[name].get("properties", {}).values()
        if name in TEXTS or name in FIXTURE_ITEMS
    }
    assert [text for text in texts if not re.fullmatch(r"[A-Z][^\n]*\.", text)] == []


def test_numbers_that_are_taken_where_nothing_is_stated_are_those_of_the_code():
    assert f" {RANKED} where not stated" in HEAD["most"]
    assert f" {POINTS} where not stated" in RESOURCE_TEXTS["Envelope"]["points"]
    assert f" {CURVE} where not stated" in RESOURCE_TEXTS["JobSelectionsRequest"]["most_products"]


@pytest.mark.parametrize(
    ("name", "field", "code"),
    [
        ("Waste", "anchors", "waste-of-anchors-assumed"),
        ("Waste", "rods", "waste-of-rods-assumed"),
        ("Waste", "hardware", "waste-of-hardware-assumed"),
        ("Waste", "adhesive", "waste-of-adhesive-assumed"),
        ("Waste", "charges", "waste-of-charges-assumed"),
        ("Stock", "rod_length", "stock-length-assumed"),
        ("Stock", "kerf", "kerf-assumed"),
        ("Stock", "shortest_piece", "shortest-piece-assumed"),
        ("Packs", "nuts", "hardware-packs-assumed"),
        ("Packs", "couplings", "hardware-packs-assumed"),
        ("Packs", "nozzles", "hardware-packs-assumed"),
    ],
)
def test_what_a_take_off_assumes_is_what_its_fields_say(client, name, field, code):
    """The sentence of the assumption has the number of the sentence of the field, per cent as a share."""
    listed = client.get("/v1/quantities").json()["take_offs"]["assumptions"]
    said = next(each["text"] for each in listed if each["code"] == code)
    (number,) = re.findall(r"[;] ([0-9./]+)", RESOURCE_TEXTS[name][field])
    per_cent = re.search(r"([0-9]+) %", said)
    assert float(number) == int(per_cent[1]) / 100 if per_cent else re.search(rf"\b{re.escape(number)}\b", said)


def answer_to(client, path, body):
    """The answer, as if asked once."""
    response = client.post(path, json=body)
    assert response.status_code == 200, response.text[:300]
    return {name: value for name, value in response.json().items() if name != "request_digest"}


def example(name):
    return json.loads((EXAMPLES / f"{name}.json").read_text("utf-8"))


IDLE = {
    "hangs": {"kind": "weight", "weight": 9000, "nature": "live"},
    "attachment": {"thickness": 3, "gap": 1},
    "seismic": {"category": "F", "s_ds": 2},
    "environment": {"exposure": "pool"},
    "options": {"interaction": "power_5_3"},
    "base": {"kind": "masonry", "thickness": 2, "face": "top"},
}
"""Of items of a take-off, each of them a failure or a refusal in a check."""


def test_what_a_take_off_does_not_use_says_so(client, schemas):
    """Neither what a check states at its head nor what holds an anchor or hangs from it changes a count."""
    body, fields = example("take_offs_two_levels"), schemas["TakeOffRequest"]["properties"]
    plain = answer_to(client, "/v1/take-offs", body)
    heads = {"detail": "trace", "neighbours": "off", "design_code": "en1992_4", "combinations": "allowable"}
    heads |= {"load_standard": "asce7_22", "project": {"name": "Clinic"}}
    for name, value in heads.items():
        assert answer_to(client, "/v1/take-offs", {**body, name: value}) == plain, name
        assert fields[name]["description"].endswith("is not used."), name
    for name, value in IDLE.items():
        items = [each | {name: value} for each in body["items"]]
        assert answer_to(client, "/v1/take-offs", {**body, "items": items}) == plain, name
        for item in ("TakeOffItem", "PartialTakeOffItem"):
            said = schemas[item]["properties"][name]["description"]
            assert said.endswith("is not used.") or (name == "base" and "only its member is read" in said), (item, name)


@pytest.mark.parametrize(("path", "name"), [("/v1/load-maps", "load_maps_two_levels"), ("/v1/rfis", "rfis_level_1")])
def test_detail_that_is_not_used_is_said(client, document, path, name):
    """Their body is that of a check, whose detail has nothing to choose here."""
    body = example(name)
    answers = [answer_to(client, path, {**body, "detail": detail}) for detail in ("verdict", "modes", "trace")]
    assert answers[0] == answers[1] == answers[2]
    assert "its `detail` is not used" in document["paths"][path]["post"]["description"].replace("\n", " ")
