"""The list of families: filters, problems that name what there is, ETag, HEAD as a server sends it."""

import contextlib
import http.client
import json
import threading
import time

import pytest
import uvicorn
from starlette.testclient import TestClient

from hangpoint.api.family_filters import NAMES
from hangpoint.app import create_app
from hangpoint.product.catalogue import load_catalogue
from hangpoint.settings import Settings

PATH = "/v1/families"
FAMILIES = load_catalogue().families


@pytest.fixture(scope="module")
def found(client):
    """Ids of the families that a query leaves."""

    def ask(**query):
        response = client.get(PATH, params=query)
        assert response.status_code == 200, response.text
        return {family["id"]: family for family in response.json()["families"]}

    return ask


@pytest.fixture
def refused(client, checked):
    """The errors of a query that can't be honoured, by place."""

    def ask(query):
        response = client.get(f"{PATH}?{query}")
        problem = checked(response)
        assert response.status_code == 422
        assert problem["type"] == "/problems/validation"
        return {error["pointer"]: error for error in problem["errors"]}

    return ask


def test_without_a_filter_all_are_listed(found):
    everything = found()
    assert set(everything) == set(FAMILIES)
    assert sum(len(family["products"]) for family in everything.values()) == len(load_catalogue().table)
    assert everything["headed-bolt"]["material"]["coating"] == "hot_dip"


def test_words(found):
    assert set(found(principle="driven_pin")) == {
        "driven-pin-powder-zinc",
        "driven-pin-gas-zinc",
        "driven-pin-battery-zinc",
        "ceiling-pin-clip-zinc",
    }
    assert set(found(basis="cast_in")) == {"headed-bolt", "headed-stud-welded", "hooked-bolt"}
    assert set(found(base="hollow_core")) == {"drop-in-short-zinc"}
    assert set(found(steel="stainless_304")) == {
        "drop-in-stainless",
        "sleeve-expansion-stainless",
        "small-screw-hex-stainless",
    }
    assert set(found(coating="hot_dip")) == {"headed-bolt", "hooked-bolt"}
    assert found(steel="high_alloy") == {}


def test_yes_and_no(found):
    """The two answers share nothing and leave nothing out."""
    for name in NAMES:
        if name in ("principle", "basis", "base", "steel", "coating", "exposure", "size", "thread"):
            continue
        yes, no = set(found(**{name: "true"})), set(found(**{name: "false"}))
        assert yes | no == set(FAMILIES)
        assert not yes & no
        assert yes == {key for key, family in FAMILIES.items() if getattr(family.traits, name)}, name
        assert yes, name


def test_exposure_is_met_by_the_better(found):
    dry, damp, outdoor = (set(found(exposure=word)) for word in ("dry", "damp", "outdoor"))
    assert outdoor < damp < dry == set(FAMILIES)
    assert "undercut-stainless" in outdoor
    assert "drop-in-stainless" in damp - outdoor


def test_filters_hold_together(found):
    query = {"removable": "true", "tension_overhead": "true", "seismic_qualified": "true", "steel": "carbon"}
    assert set(found(**query)) == {"large-screw-hex-zinc", "large-screw-internal-thread-zinc", "en-screw-zinc"}
    assert found(basis="cast_in", removable="true") == {}


def test_size_leaves_its_products(found):
    families = found(size="3/8", basis="qualified")
    assert families["wedge-expansion-zinc"]["products"] == [
        "wedge-expansion-zinc/3/8/1.75",
        "wedge-expansion-zinc/3/8/2.5",
    ]
    assert all(
        product.split("/", 1)[1].startswith("3/8/") for each in families.values() for product in each["products"]
    )
    assert set(found(size="M12", basis="qualified")) == {"undercut-stainless-metric"}
    assert set(found(size="M12", basis="en", internally_threaded="true")) == {"en-drop-in-zinc"}


def test_thread_is_not_size(found):
    """What takes a 3/8 rod in an internal thread: a screw of 1/4 does too."""
    families = found(thread="3/8", internally_threaded="true")
    assert families["large-screw-internal-thread-zinc"]["products"] == [
        "large-screw-internal-thread-zinc/1/4/1.5",
        "large-screw-internal-thread-zinc/1/4/2",
        "large-screw-internal-thread-zinc/3/8/2",
        "large-screw-internal-thread-zinc/3/8/3",
    ]
    both = found(thread="3/8", size="1/4", internally_threaded="true")
    assert set(both) == {"large-screw-internal-thread-zinc"}
    assert len(both["large-screw-internal-thread-zinc"]["products"]) == 2


def test_unknown_values_list_what_there_is(refused):
    errors = refused("principle=wedge&removable=yes&size=3%2F7")
    assert "torque_controlled_expansion" in errors["?principle"]["allowed"]
    assert errors["?removable"]["allowed"] == ["true", "false"]
    assert "3/8" in errors["?size"]["allowed"]
    assert {error["code"] for error in errors.values()} == {"unknown-option"}


def test_unknown_filters_list_the_nearest_or_all(refused):
    assert "removable" in refused("removeable=true")["?removeable"]["allowed"]
    assert refused("q=7")["?q"]["allowed"] == list(NAMES)
    (pointer,) = refused("x" * 500 + "=1")
    assert len(pointer) == 65


def test_a_filter_stands_once(refused):
    assert refused("base=deck&base=masonry")["?base"]["code"] == "contradiction"


def test_sizes_are_those_of_the_catalogue(tmp_path):
    file = tmp_path / "own.json"
    file.write_text(json.dumps(FAMILIES["headed-bolt"].model_dump(mode="json", exclude_unset=True)))
    client = TestClient(create_app(Settings.model_construct(catalogue=file)))
    problem = client.get(f"{PATH}?size=M12").json()
    assert problem["errors"][0]["allowed"] == ["1", "1/2", "3/4", "5/8", "7/8"]
    assert len(client.get(f"{PATH}?size=1/2").json()["families"]) == 1


def test_every_filter_is_documented(app):
    parameters = {each["name"]: each for each in app.openapi()["paths"][PATH]["get"]["parameters"]}
    assert tuple(parameters) == NAMES
    for each in parameters.values():
        assert each["in"] == "query"
        assert not each["required"]
        assert len(each["description"]) > 10


@pytest.mark.parametrize("query", ["", "?base=deck", "?size=3/8"])
def test_etag(client, query):
    first = client.get(PATH + query)
    tag = first.headers["etag"]
    assert tag.startswith('"')
    same = client.get(PATH + query, headers={"if-none-match": f'"other", {tag}'})
    assert (same.status_code, same.content, same.headers["etag"]) == (304, b"", tag)
    assert client.get(PATH + query, headers={"if-none-match": '"other"'}).status_code == 200


def test_a_filter_has_an_etag_of_its_own(client):
    tags = {client.get(PATH + query).headers["etag"] for query in ("", "?base=deck", "?base=masonry")}
    assert len(tags) == 3


@contextlib.contextmanager
def serving(app):
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="critical", lifespan="off"))
    thread = threading.Thread(target=server.run)
    thread.start()
    try:
        end = time.monotonic() + 20
        while not server.started:
            assert time.monotonic() < end
            time.sleep(0.01)
        yield server.servers[0].sockets[0].getsockname()[1]
    finally:
        server.should_exit = True
        thread.join()


def test_head_sends_headers_and_no_body(app):
    """Over one connection kept alive: a body sent after HEAD would be read as the start of the next answer."""
    with serving(app) as port:
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        for path in (PATH, f"{PATH}?base=deck", f"{PATH}/headed-bolt", "/v1/schema/family", f"{PATH}?base=moon"):
            connection.request("HEAD", path)
            head = connection.getresponse()
            assert head.read() == b""
            socket = connection.sock
            connection.request("GET", path)
            get = connection.getresponse()
            body = get.read()
            assert connection.sock is socket
            assert head.status == get.status
            assert int(head.headers["content-length"]) == len(body) > 100
            volatile = {"date", "x-trace-id"}
            assert {k: v for k, v in head.headers.items() if k.lower() not in volatile} == {
                k: v for k, v in get.headers.items() if k.lower() not in volatile
            }
        connection.request("HEAD", PATH, headers={"If-None-Match": _tag(connection)})
        assert connection.getresponse().status == 304
        connection.close()


def _tag(connection):
    connection.request("HEAD", PATH)
    response = connection.getresponse()
    response.read()
    return response.headers["etag"]
