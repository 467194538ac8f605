"""The first look at a body accepts nothing that the validator would not, and changes nothing of what is read."""

import itertools
import json
import random
from dataclasses import replace
from typing import get_type_hints

import pytest
from pydantic import ValidationError

from api.bodies import BATCH_JSON, INLINE
from api.mutations import HANGING, MUTATIONS, RICH, errors_of, mutated
from hangpoint.api import bodies
from hangpoint.api.bodies import read_batch, read_items
from hangpoint.api.body_errors import adapter_of
from hangpoint.api.plain_types import UnknownTypeError, plain_object, plain_type
from hangpoint.api.problems import ProblemError
from hangpoint.api.resources import RESOURCES
from hangpoint.api.schemas.fixtures import FixturesRequest
from hangpoint.api.schemas.hanger_loads import HangerLoadsRequest
from hangpoint.api.schemas.request import Anchor, BatchRequest, Item
from hangpoint.api.sifting import sieve_of
from hangpoint.pack.objects import Objects

OF_ITEMS = [each for each in RESOURCES if "items" in get_type_hints(each.request)]
STARTS = [
    (BatchRequest, RICH),
    (BatchRequest, BATCH_JSON),
    (HangerLoadsRequest, HANGING),
    *((each.request, dict(each.example)) for each in OF_ITEMS),
]


def sift(request, body, *, block=2):
    return sieve_of(request).sift(json.dumps(body).encode(), block=block)


def read(request, body, monkeypatch, *, look):
    """What is read of a body, or the problem that it is, with the first look and without."""
    with monkeypatch.context() as patch:
        if not look:
            patch.setattr(bodies, "sieve_of", lambda _: None)
        try:
            return replace(read_items(request, body), columns=())
        except ProblemError as problem:
            return problem.slug, problem.detail, problem.errors


@pytest.mark.parametrize(("request_type", "start"), STARTS)
def test_what_is_accepted_is_valid(request_type, start):
    chance = random.Random(29)
    adapter = adapter_of(request_type)
    seen = {"all": 0, "some": 0, "none": 0}
    for _ in range(MUTATIONS):
        body = mutated(start, chance)
        if chance.random() < 0.3:
            body = mutated(body, chance)
        sifted = sift(request_type, body)
        if sifted is None:
            seen["none"] += 1
            continue
        errors = errors_of(adapter, body)
        rows = {each["loc"][1] for each in errors if each["loc"][0] == "items" and len(each["loc"]) > 1}
        assert all(each["loc"][0] == "items" and len(each["loc"]) > 1 for each in errors), (body, errors)
        assert rows <= set(sifted.left), (body, errors)
        seen["some" if sifted.left else "all"] += 1
        if not errors:
            valid = adapter.validate_json(json.dumps(body))
            assert sifted.content.keys() == valid.keys()
            assert [own for row, own in enumerate(sifted.content["items"]) if row not in sifted.left] == [
                own for row, own in enumerate(valid["items"]) if row not in sifted.left
            ]
    assert sum(seen.values()) == MUTATIONS
    assert min(seen["all"] + seen["some"], seen["none"]) > MUTATIONS / 50, seen


@pytest.mark.parametrize(("request_type", "start"), STARTS)
def test_errors_are_those_of_the_validator(request_type, start, monkeypatch):
    chance = random.Random(31)
    start = {**start, "items": [*start["items"], *start["items"], *start["items"]]}
    partly = 0
    for _ in range(MUTATIONS // 5):
        body = start
        for _ in range(chance.choice((1, 1, 4))):
            body = mutated(body, chance)
        body = json.dumps(body).encode()
        quick, whole = (read(request_type, body, monkeypatch, look=look) for look in (True, False))
        if isinstance(whole, tuple):
            assert quick == whole
            continue
        partly += bool(whole.errors)
        assert quick.errors == whole.errors
        for row in whole.errors:  # Of these nothing is used; how a number beyond all ranges is held may differ.
            quick.items[row] = whole.items[row] = None
        assert quick == whole
    assert partly > 5


@pytest.mark.parametrize("request_type", [BatchRequest, *(each.request for each in OF_ITEMS)])
def test_every_request_has_a_first_look(request_type):
    assert sieve_of(request_type) is not None


def test_examples_leave_nothing_to_the_validator():
    for request_type, start in STARTS:
        left = sift(request_type, start).left
        with_product = [row for row, item in enumerate(start["items"]) if "product" in item.get("anchor", {})]
        assert list(left) == with_product


def test_fields_that_only_the_validator_judges():
    """A product in full, the number of points on a circle of bolts: an item that states them goes to the validator."""
    assert set(get_type_hints(Anchor)) - plain_object(Anchor).look.names == {"product"}
    with pytest.raises(UnknownTypeError):
        plain_type(get_type_hints(Anchor)["product"])
    assert set(get_type_hints(Item)) == plain_object(Item).look.names
    assert sieve_of(FixturesRequest) is not None


def item(**more):
    return {"id": "a", "base": {"thickness": 6}} | more


def test_a_valid_item_of_the_validator_is_put_in_its_place():
    product = {"anchor": {"product": INLINE}}
    body = {"units": "us", "items": [item(), item(id="b", **product), item(id="c"), item(id="d")]}
    assert list(sift(BatchRequest, body).left) == [1]
    batch = read_batch(json.dumps(body).encode())
    assert not batch.errors
    assert type(batch.items[1]["anchor"]["product"]).__name__ == "InlineProduct"
    assert [each["id"] for each in batch.items] == ["a", "b", "c", "d"]


@pytest.mark.parametrize(
    ("thickness", "good"),
    [("6 in", True), ("6 psi", False), ("none", False), ("1/0 in", False), ("6 in\n", False), ("٣ in", False)],
)
def test_texts_are_those_of_their_own_place(thickness, good):
    """The word none is one of edges; a text known to be good at one place is none at another."""
    edges = {"edges": {"x_minus": "none", "x_plus": "6 in"}, "thickness": "6 in"}
    items = [item(id=str(at), base=edges) for at in range(5)]
    items[3] = item(id="3", base=edges | {"thickness": thickness})
    assert list(sift(BatchRequest, {"units": "us", "items": items}).left) == ([] if good else [3])


def test_the_good_rows_of_a_block_have_their_columns():
    items = [item(id=str(at), base={"thickness": "6 in"}) for at in range(5)]
    items[3]["base"] = {"thickness": "6 psi"}
    sifted = sift(BatchRequest, {"units": "us", "items": items})
    assert [list(objects.rows) for objects in sifted.columns] == [[0, 1], [2], [4]]
    assert sifted.columns[0].child("base").stated("thickness") == ["6 in", "6 in"]


@pytest.mark.parametrize(
    "body",
    [
        b'{"units":"us","units":"si","items":[{"id":"a","id":"b"}]}',
        b'{"units":"us","items":[{"id":"a","base":{"thickness":6,"thickness":"6 psi"}},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a","base":{"thickness":"6 psi","thickness":6}},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a"}],"items":[{"id":"b"}]}',
        b'\xef\xbb\xbf{"units":"us","items":[{"id":"a"}]}',
        b'{"units":"us","items":[{"id":"\xff"}]}',
        b'{"units":"us","items":[{"id":"\\ud800"}]}',
        b'{"units":"us","items":[{"id":"a","base":{"thickness":NaN}}]}',
        b'{"units":"us","items":[{"id":"a","base":{"thickness":1e999}},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a","hangs":{"kind":"pipe","run":{"support":1'
        + b"0" * 30
        + b'}}},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a","hangs":{"kind":"pipe","run":{"support":1.0}}},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a","base":{"thickness":true}},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a","unknown":' + b"[" * 900 + b"]" * 900 + b'},{"id":"b"},{"id":"c"}]}',
        b'{"units":"us","items":[7,null,[],"x",{"id":"a"},{"id":"b"},{"id":"c"},{"id":"d"},{"id":"e"}]}',
        b'{"units":"us","items":[]}',
        b'{"units":"us","items":{}}',
        b'{"units":"us"}',
        b'{"items":[{"id":"a"}]}',
        b'{"units":"us","items":[{"id":"a:b"},{"id":"c\\u003a","unknown":1},{"id":"d"}]}',
        b'{"units" : "us","items":[{"id" :"a","unknown" : 1},{"id": "b"},{"id"\n:"c"}]}',
        b'{"units":"us","items":[{"id":"a"},{"id":"b","hangs":{"kind":"weight","size":"4"}},{"id":"c"}]}',
        b'{"units":"us","items":[{"id":"a"},{"id":"b","hangs":{}},{"id":"c"}]}',
        b"[]",
        b"{",
        b"",
        b'{"units":"us","items":[{"id":"a"}]}x',
        b'{"units":"us","defaults":{"base":{"thickness":"6 psi"}},"items":[{"id":"a"}]}',
        b'{"units":"us","items":[' + b",".join(b'{"id":"%d"}' % at for at in range(10_001)) + b"]}",
    ],
)
def test_odd_bodies_are_read_as_the_validator_reads_them(body, monkeypatch):
    quick, whole = (read(BatchRequest, body, monkeypatch, look=look) for look in (True, False))
    if isinstance(whole, tuple):
        assert quick == whole
    else:
        assert quick.errors == whole.errors
        assert [own for row, own in enumerate(quick.items) if row not in quick.errors] == [
            own for row, own in enumerate(whole.items) if row not in whole.errors
        ]


@pytest.mark.parametrize("depth", [150, 190, 210, 980, 995, 1010, 1020, 1030, 5000])
@pytest.mark.parametrize("path", ["/v1/hang-points", "/v1/hanger-loads"])
def test_a_deeply_nested_item_is_no_failure(client, path, depth):
    nested = b'{"a":' * depth + b"1" + b"}" * depth
    body = b'{"units":"us","items":[{"id":"a","unknown":%b},{"id":"b"},{"id":"c"}]}' % nested
    response = client.post(path, content=body, headers={"content-type": "application/json"})
    assert response.status_code == (200 if depth < 200 else 400), response.text[:200]


def test_columns_are_those_of_the_objects():
    objects = Objects([{"a": 1, "b": [{"c": 2}]}, {"a": 3}, {}])
    assert (objects.stated("a"), objects.stated("x", 0)) == ([1, 3, None], (0, 0, 0))
    assert objects.entries("b").rows == [0]
    assert (list(objects.taken([1, 2])), objects.taken([1, 2]).rows) == ([{"a": 3}, {}], [1, 2])
    assert objects.taken([1, 2]) is objects.taken([1, 2])


def test_the_validator_sees_what_came(monkeypatch):
    """A number too large for a double in an item that is left is judged as it was written."""
    good = ",".join(f'{{"id":"{at}"}}' for at in range(4))
    body = f'{{"units":"us","items":[{good},{{"id":"x","hangs":{{"kind":"pipe","run":{{"support":{"9" * 30}}}}}}}]}}'
    batch = read_batch(body.encode())
    (error,) = batch.errors[4]
    with pytest.raises(ValidationError) as caught:
        adapter_of(BatchRequest).validate_json(body)
    assert error.code == caught.value.errors()[0]["type"]


def agree(columns, plain, chance, depth=0):
    """Columns of decoded objects say of every place what those of plain ones say."""
    assert list(columns.rows) == list(plain.rows)
    assert list(columns) == list(plain)
    assert set(columns.names) == set(plain.names)
    assert columns.count_of_names() == plain.count_of_names()
    for name in sorted(columns.names):
        own, theirs = columns.stated(name), plain.stated(name)
        assert list(own) == list(theirs)
        assert list(columns.stated(name, 0)) == list(plain.stated(name, 0))
        assert None not in theirs or not columns.stated_by_all(name)
        kinds = {type(each) for each in theirs} - {type(None)}
        if kinds == {dict}:
            agree(columns.child(name), plain.child(name), chance, depth)
        if kinds == {list} and all(isinstance(each, dict) for several in theirs for each in several or ()):
            agree(columns.entries(name), plain.entries(name), chance, depth)
    assert columns.stated("no such name", 5) == (5,) * len(plain)
    if len(plain) > 1 and depth < 2:
        some = [at for at in range(len(plain)) if chance.random() < 0.6]
        agree(columns.taken(some), plain.taken(some), chance, depth + 1)


@pytest.mark.parametrize(("request_type", "start"), STARTS)
def test_columns_are_those_of_the_plain_items(request_type, start):
    """Also where one object has a name more than the first, or one fewer."""
    chance = random.Random(37)
    start = {**start, "items": [*start["items"], *start["items"]]}
    looked = 0
    for _ in range(MUTATIONS // 2):
        body = mutated(start, chance)
        sifted = sift(request_type, body, block=3)
        for columns in () if sifted is None else sifted.columns:
            plain = Objects([sifted.content["items"][row] for row in columns.rows], columns.rows)
            agree(columns, plain, chance)
            looked += len(plain)
    assert looked > MUTATIONS


def test_a_name_that_only_a_later_item_states():
    """A colon within a text hides nothing, and neither does one of an item that the decoder doesn't take."""
    odd = [item(id="b", rod={"size": "1/2"}), item(id="c", trade="a: b: c"), {"id": "d", "base": {"thickness": "x:y"}}]
    for items in itertools.permutations([item(), *odd]):
        sifted = sift(BatchRequest, {"units": "us", "items": items}, block=9)
        (columns,) = sifted.columns
        assert [items[row]["id"] for row in sifted.left] == ["d"]
        assert dict(zip(columns.stated("id"), columns.stated("rod"), strict=True)) == {
            "a": None,
            "b": {"size": "1/2"},
            "c": None,
        }
