"""Bad input, each a clear problem with its place, and nothing else lost."""

import asyncio
import json
import time

import pytest
from starlette.testclient import TestClient

from api.bodies import BATCH_JSON, FORCES, GONE, INLINE, SINGLE_JSON, WEIGHT, batch, change, item, single
from hangpoint.api.routes.hang_points import BATCH_PATH, SINGLE_PATH
from hangpoint.app import create_app
from hangpoint.settings import Settings

THICKNESS = "#/item/base/thickness"
SUPPORTED = ("/livez", "/readyz", "/version", "/v1/families", "/v1/families/headed-bolt", "/v1/schema/family")
READ = ("/", *SUPPORTED, "/v1/limits", "/v1/quantities", "/problems/quantity", "/docs")


def raw(place, text):
    """The single example with the text put unquoted where a length stands."""
    return json.dumps(single(**{place: "@"})).replace('"@"', text).encode()


@pytest.mark.parametrize(
    "text",
    [
        '"3 psi"',
        '"3 furlong"',
        '"9**9**9"',
        '"1/0 in"',
        '"1/00 in"',
        '"1e400 m"',
        '"1e7 in"',
        '"3"',
        '"three inches"',
        '"nan in"',
        '"inf in"',
        '"1_0 in"',
        '"-3 in"',
        '"3  in"',
        '"3 in "',
        '""',
        '"none"',
        '"９ in"',
        '"5\' 6"',
        '"9.9.9 m"',
        '"0000000000000000000003 in"',
        "true",
        "[3]",
        '{"value": 3}',
        "1e999",
        "-1e999",
        "-3",
        "0",
        "2e9",
        "123456789012345678901234567890",
    ],
)
def test_a_quantity_that_is_none(send_one, text):
    started = time.perf_counter()
    problem = send_one(raw("base__thickness", text), status=422)
    assert time.perf_counter() - started < 1
    assert problem["type"] == "/problems/quantity"
    assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [(THICKNESS, "quantity")]
    assert "mm" in problem["errors"][0]["detail"]


@pytest.mark.parametrize(("text", "feet"), [("5 '", 5.0), ("5'", 5.0), ("5 ft", 5.0)])
def test_a_foot_mark_is_a_unit(send_one, text, feet):
    """A foot mark with a space before it is five feet by the published grammar, and never a bare five."""
    same = send_one(single(base__thickness=feet * 12))
    assert send_one(single(base__thickness=text))["request_digest"] == same["request_digest"]


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-Infinity", "nan", ".5", "05", "0x10", "+3"])
def test_a_word_that_json_has_not(send_one, text):
    assert send_one(raw("base__thickness", text), status=400)["type"] == "/problems/malformed"


def test_zero_as_text_is_out_of_range(send_one):
    problem = send_one(single(base__thickness="0 in"), status=422)
    assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [(THICKNESS, "quantity")]
    assert "out of range: at least" in problem["errors"][0]["detail"]


@pytest.mark.parametrize("value", [1e9, -1_000_001.0, "99999999999999999e6 ft", "-1e6 mi", "400 km"])
def test_a_coordinate_beyond_any_building(send_one, value):
    problem = send_one(single(at={"level": "L1", "x": value}), status=422)
    (error,) = problem["errors"]
    assert (error["pointer"], error["code"]) == ("#/item/at/x", "quantity")


@pytest.mark.parametrize(
    ("body", "status", "slug"),
    [
        (b"", 400, "malformed"),
        (b"nope", 400, "malformed"),
        (b'{"units": "us"', 400, "malformed"),
        (b"\xef\xbb\xbf" + json.dumps(SINGLE_JSON).encode(), 400, "malformed"),
        (json.dumps(SINGLE_JSON).encode("utf-16"), 400, "malformed"),
        (b'{"units": "us", "item": {"id": "\xff"}}', 400, "malformed"),
        (b'{"units": "us", "item": {"id": "\\ud800"}}', 400, "malformed"),
        (b"[" * 100_000, 400, "malformed"),
        (b'{"units":"us","item":' + b'{"at":' * 5000 + b"1" + b"}" * 5001, 400, "malformed"),
        (b"5", 422, "validation"),
        (b"null", 422, "validation"),
        (b"[]", 422, "validation"),
        (b'{"units": "us"}', 422, "validation"),
    ],
)
@pytest.mark.parametrize("path", [SINGLE_PATH, BATCH_PATH])
def test_a_body_that_is_no_request(send, body, status, slug, path):
    assert send(body, path, status=status)["type"] == f"/problems/{slug}"


@pytest.mark.parametrize(
    ("changes", "place", "code"),
    [
        ({"units": GONE}, "#/units", "missing"),
        ({"units": "imperial"}, "#/units", "unknown-option"),
        ({"design_code": "aci318_14"}, "#/design_code", "unknown-option"),
        ({"combinations": "service"}, "#/combinations", "unknown-option"),
        ({"detail": "everything"}, "#/detail", "unknown-option"),
        ({"item.base.thicknes": "8 in"}, "#/item/base/thicknes", "unknown-field"),
        ({"item.hangs.kind": "elephant"}, "#/item/hangs/kind", "unknown-option"),
        ({"item.hangs": {"size": "4"}}, "#/item/hangs/kind", "missing"),
        ({"item.hangs": GONE}, "#/item/hangs", "missing"),
        ({"item.id": GONE}, "#/item/id", "missing"),
        ({"item.id": ""}, "#/item/id", "string_too_short"),
        ({"item.id": "x" * 65}, "#/item/id", "string_too_long"),
        ({"item.trade": "x" * 257}, "#/item/trade", "string_too_long"),
        ({"item.seismic": GONE}, "#/item/seismic/category", "missing"),
        ({"item.base.density": GONE}, "#/item/base/density", "missing"),
        ({"item.base.thickness": GONE}, "#/item/base/thickness", "missing"),
        ({"item.base.kind": "gypsum"}, "#/item/base/kind", "unknown-option"),
        ({"item.base.kind": GONE}, "#/item/base/kind", "missing"),
        ({"item.base.edges.x_plus": GONE}, "#/item/base/edges/x_plus", "missing"),
        ({"item.base.lambda": 1.5}, "#/item/base/lambda", "less_than_equal"),
        ({"item.base.supplementary": 1}, "#/item/base/supplementary", "bool_type"),
        ({"item.base.strength.class": "C25/30"}, "#/item/base/strength/class", "contradiction"),
        ({"item.base.state": "uncracked"}, "#/item/base/state_decided_by", "missing"),
        ({"item.hangs.wall": "0.25 in"}, "#/item/hangs/schedule", "contradiction"),
        ({"item.hangs.schedule": GONE}, "#/item/hangs/schedule", "missing"),
        ({"item.hangs.schedule": "41"}, "#/item/hangs/schedule", "unknown-option"),
        ({"item.hangs.size": "4-1/3"}, "#/item/hangs/size", "unknown-option"),
        ({"item.hangs.sprinkler": GONE}, "#/item/hangs/sprinkler", "missing"),
        ({"item.hangs.contents": GONE}, "#/item/hangs/contents", "missing"),
        ({"item.hangs.sprinkler": True, "item.hangs.contents": "empty"}, "#/item/hangs/contents", "validation"),
        ({"item.hangs.insulation": {"thickness": 1}}, "#/item/hangs/insulation/density", "missing"),
        ({"item.hangs.run.spans": []}, "#/item/hangs/run/spans", "too_short"),
        ({"item.hangs.run.spans": ["10 ft"] * 21}, "#/item/hangs/run/spans", "too_long"),
        ({"item.hangs.run.spans": [10, 0]}, "#/item/hangs/run/spans/1", "quantity"),
        ({"item.hangs.run.spans": [10, "0 ft"]}, "#/item/hangs/run/spans/1", "quantity"),
        ({"item.hangs.run.spans": [-10]}, "#/item/hangs/run/spans/0", "quantity"),
        ({"item.hangs.run.spans": ["10 ft", "10 psi"]}, "#/item/hangs/run/spans/1", "quantity"),
        ({"item.hangs.run.support": 4}, "#/item/hangs/run/support", "out-of-range"),
        ({"item.hangs.run.support": True}, "#/item/hangs/run/support", "int_type"),
        ({"item.hangs.run.point_loads": [{"at": 28.1, "weight": 50}]}, "#/item/hangs/run/point_loads", "out-of-range"),
        ({"item.hangs.run.missing_support": 0}, "#/item/hangs/run/missing_support", "out-of-range"),
        ({"item.hangs.run.missing_support": 1}, "#/item/hangs/run/missing_support", "out-of-range"),
        ({"item.hangs.run.missing_support": 3}, "#/item/hangs/run/missing_support", "out-of-range"),
        ({"item.rod.size": "9/16"}, "#/item/rod/size", "unknown-option"),
        ({"item.anchor.h_ef": GONE}, "#/item/anchor/h_ef", "missing"),
        ({"item.anchor.layout": []}, "#/item/anchor/layout", "too_short"),
        ({"item.anchor.product": INLINE}, "#/item/anchor/product", "contradiction"),
        ({"item.anchor": {"product": INLINE | {"siz": 1}}}, "#/item/anchor/product/siz", "unknown-field"),
        (
            {"item.anchor": {"product": change(INLINE, {"embedment.n_p_cr": -1})}},
            "#/item/anchor/product/embedment/n_p_cr",
            "greater_than_equal",
        ),
        (
            {"item.anchor": {"product": change(INLINE, {"size.a_se": 5})}},
            "#/item/anchor/product/size/a_se",
            "product",
        ),
        ({"item.hangs": {"kind": "weight", "weight": 5}}, "#/item/hangs/nature", "missing"),
        ({"item.hangs": {"kind": "weight", "nature": "dead"}}, "#/item/hangs/weight", "missing"),
        ({"item.hangs": {"kind": "forces"}}, "#/item/hangs/components", "missing"),
        ({"item.hangs": FORCES | {"sustained_fraction": 0.5}}, "#/item/hangs/sustained_fraction", "validation"),
    ],
)
def test_one_flaw_has_one_place(send_one, changes, place, code):
    problem = send_one(change(SINGLE_JSON, changes), status=422)
    assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [(place, code)]
    assert problem["detail"].startswith(place)


@pytest.mark.parametrize(
    ("changes", "detail"),
    [
        ({"item.hangs.weight": "3 lb"}, "weight goes with hangs of kind weight, not with pipe; remove it."),
        ({"item.hangs.components": []}, "components goes with hangs of kind forces, not with pipe; remove it."),
        (
            {"item.hangs": {"kind": "weight", "weight": 5, "nature": "dead", "insulation": {}}},
            "insulation goes with hangs of kind pipe, not with weight; remove it.",
        ),
        ({"item.h_ef": 2.5}, "There is no such field here: h_ef stands in anchor."),
        ({"item.base.f_c": "4000 psi"}, "There is no such field here: f_c stands in strength."),
        ({"options": {}}, "There is no such field here: options stands in item."),
        ({"item.detail": "trace"}, "There is no such field here: detail stands at the top of the request."),
    ],
)
def test_a_field_that_stands_elsewhere_is_told_where(send_one, changes, detail):
    """Its own name is never what is offered in its place."""
    (error,) = send_one(change(SINGLE_JSON, changes), status=422)["errors"]
    assert (error["code"], error["detail"]) == ("unknown-field", detail)
    assert error["allowed"]
    assert error["pointer"].rpartition("/")[2] not in error["allowed"]


@pytest.mark.parametrize(
    ("path", "query", "value"),
    [(BATCH_PATH, "neighbours", "off"), (BATCH_PATH, "units", "si"), (SINGLE_PATH, "detail", "trace")],
)
def test_what_a_body_of_json_states_itself_is_no_query(send, path, query, value):
    body = SINGLE_JSON if path == SINGLE_PATH else BATCH_JSON
    (error,) = send(body, f"{path}?{query}={value}", status=422)["errors"]
    assert error["pointer"] == f"?{query}"
    assert error["detail"] == f'A body of JSON states its {query} itself: "{query}": "{value}".'


@pytest.mark.parametrize("side", ["x_minus", "x_plus", "y_minus", "y_plus"])
def test_silence_about_an_edge_is_not_no_edge(send_one, side):
    problem = send_one(single(**{f"base__edges__{side}": GONE}), status=422)
    assert [error["pointer"] for error in problem["errors"]] == [f"#/item/base/edges/{side}"]
    assert "none" in problem["errors"][0]["detail"]


@pytest.mark.parametrize(
    ("changes", "allowed"),
    [
        ({"item.base.thicknes": "8 in"}, ["thickness"]),
        ({"item.anchor": {"product": change(INLINE, {"embedment.h_eff": 1})}}, ["h_ef"]),
        ({"item.hangs.kind": "elephant"}, ["forces", "pipe", "weight"]),
        ({"item.seismic.category": "G"}, list("ABCDEF")),
        ({"units": "metric"}, ["us", "si"]),
        ({"item.hangs.schedule": "41"}, ["40"]),
        ({"item.rod.size": "9/16"}, ["3/8"]),
        ({"item.hangs.contents": GONE}, ["empty", "water"]),
        ({"item.base.density": GONE}, ["normalweight", "sand_lightweight", "all_lightweight"]),
        ({"item.anchor.family": GONE}, ["wedge-expansion-zinc"]),
    ],
)
def test_what_would_have_done_is_listed(send_one, changes, allowed):
    problem = send_one(change(SINGLE_JSON, changes), status=422)
    offered = [each for error in problem["errors"] for each in error.get("allowed", ())]
    assert set(allowed) <= set(offered)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"anchor__family": "wedge-expansion-zink"}, "family"),
        ({"anchor__size": "7/16"}, "size"),
        ({"anchor__h_ef": "3 in"}, "h_ef"),
    ],
)
def test_an_unknown_product_has_its_nearest_five(send_one, changes, field):
    problem = send_one(single(**changes), status=422)
    assert problem["type"] == "/problems/unknown-product"
    (error,) = problem["errors"]
    assert error["pointer"] == f"#/item/anchor/{field}"
    assert len(error["allowed"]) == 5
    assert "wedge-expansion-zinc/1/2/3.25" in error["allowed"]


@pytest.mark.parametrize("thickness", ["3-1/4 in", "3 in", "82.55 mm"])
def test_an_anchor_through_the_member_is_impossible(send_one, thickness):
    problem = send_one(single(base__thickness=thickness), status=422)
    assert problem["type"] == "/problems/impossible-geometry"
    assert [error["pointer"] for error in problem["errors"]] == ["#/item/anchor/h_ef"]


def test_a_wall_thicker_than_the_pipe_is_impossible(send_one):
    problem = send_one(single(hangs__schedule=GONE, hangs__wall="2.25 in"), status=422)
    assert [(e["pointer"], e["code"]) for e in problem["errors"]] == [("#/item/hangs/wall", "impossible-geometry")]


def test_an_edge_below_its_minimum_is_a_finding(send_one):
    """The catalogue states c_min 2-3/4 in for this product; 17.9.2."""
    result = send_one(single(base__edges__x_plus="2.7 in"), status=200)["items"][0]
    assert result["status"] == "failed"
    (finding,) = result["findings"]
    assert (finding["code"], finding["severity"]) == ("edge-below-minimum", "violation")
    assert (finding["value"], finding["limit"]) == (pytest.approx(2.7, rel=1e-15), pytest.approx(2.75, rel=1e-15))


@pytest.mark.parametrize(
    ("changes", "top", "code"),
    [
        (
            {"hangs": change(FORCES, {"components.0.shear_x": 10}), "attachment": {"gap": "1 in"}},
            {},
            "shear-with-free-length",
        ),
        (
            {"hangs": change(FORCES, {"components.0.nature": "wind", "components.0.tension": -3_000})},
            {},
            "compression-not-covered",
        ),
        ({"hangs": change(FORCES, {"components.0.tension": -10})}, {}, "compression-not-covered"),
        ({"base__strength": {"class": "C25/30"}}, {"design_code": "en1992_4"}, "family-without-european-data"),
        ({}, {"combinations": "allowable"}, "allowable-under-chapter-17"),
        ({}, {"combinations": "given_factored"}, "service-load-with-factored-combinations"),
        ({"hangs": WEIGHT}, {"combinations": "given_factored"}, "service-load-with-factored-combinations"),
        (
            {
                "anchor": {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625},
                "base__state": "uncracked",
                "base__state_decided_by": "engineer of record",
                "seismic__category": "C",
            },
            {},
            "not-qualified-seismic",
        ),
        (
            {"anchor": {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}},
            {},
            "not-qualified-cracked",
        ),
        (
            {"anchor": {"product": change(INLINE, {"traits.bases": ["masonry"]})}},
            {},
            "base-not-allowed",
        ),
        ({"anchor": {"product": change(INLINE, {"traits": GONE})}}, {}, "not-for-tension-overhead"),
    ],
)
def test_what_is_not_covered_is_refused_by_name(send_one, changes, top, code):
    result = send_one(single(**changes) | top, status=200)["items"][0]
    assert result["status"] == "refused"
    assert result["reason"]["code"] == code
    assert {mode["mode"] for mode in result["modes"]} <= {"rod_allowable", "rod_strength"}


def test_duplicate_ids_refuse_the_whole(send):
    body = {**BATCH_JSON, "items": [{"id": "a"}, {"id": "b"}, {"id": "a"}, {"id": "a"}]}
    problem = send(body, status=422)
    assert problem["type"] == "/problems/duplicate-id"
    assert [error["pointer"] for error in problem["errors"]] == ["#/items/2/id", "#/items/3/id"]
    assert "#/items/0/id" in problem["errors"][0]["detail"]


def test_of_duplicate_keys_the_last_wins(send_one):
    """As in every JSON parser; the documentation says so."""
    text = json.dumps(SINGLE_JSON).replace('"thickness": "8 in"', '"thickness": "4 psi", "thickness": "8 in"')
    assert send_one(text, status=200)["request_digest"] == send_one(SINGLE_JSON)["request_digest"]
    text = json.dumps(SINGLE_JSON).replace('"thickness": "8 in"', '"thickness": "8 in", "thickness": "4 psi"')
    send_one(text, status=422)


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"defaults.base.thickness": "4 psi"}, "#/defaults/base/thickness"),
        ({"defaults.base.thicknes": 4}, "#/defaults/base/thicknes"),
        ({"defaults.id": "x"}, "#/defaults/id"),
    ],
)
def test_a_bad_default_refuses_the_whole(send, changes, place):
    problem = send(change(BATCH_JSON, changes), status=422)
    assert [error["pointer"] for error in problem["errors"]] == [place]


def test_a_default_that_fails_later_is_named_as_default(send):
    answer = send(change(BATCH_JSON, {"defaults.anchor.size": "7/16"}), status=200)
    for result in answer["items"]:
        assert [error["pointer"] for error in result["problem"]["errors"]] == ["#/defaults/anchor/size"]


def test_one_bad_item_costs_the_others_nothing(send):
    """Every way to be invalid among 300 good ones, numbers that JSON writes as integers among them."""
    good = [
        item(base__thickness=8 + at % 3, base__edges__x_plus=12 + at / 8, base__lambda=1, hangs__allowance=0)
        for at in range(300)
    ]
    bad = [
        {**good[0], "base": 5},
        item(base__thickness="8 psi"),
        item(base__thickness=GONE),
        item(anchor__size="7/16"),
        item(base__thickness=2),
        item(hangs__run__spans=[0]),
        {**good[0], "anchor": {"product": change(INLINE, {"size.a_se": 5})}},
        {**good[0], "much": 123456789012345678901234567890},
    ]
    alone = send(batch(*good), status=200)["items"]
    for at, flawed in enumerate(bad):
        place = 37 * at + 5
        mixed = batch(*good)
        mixed["items"].insert(place, {**flawed, "id": "bad"})
        answer = send(mixed, status=200)
        assert answer["summary"]["invalid"] == 1
        assert answer["items"][place]["id"] == "bad"
        assert answer["items"][place]["status"] == "invalid"
        places = [error["pointer"] for error in answer["items"][place]["problem"]["errors"]]
        assert all(each.startswith(f"#/items/{place}/") for each in places)
        others = [each for each in answer["items"] if each["id"] != "bad"]
        assert [{**each, "index": 0} for each in others] == [{**each, "index": 0} for each in alone]


@pytest.mark.parametrize("odd", [5, None, "x", [], {"id": 10**30}, {"id": None}, {"id": []}, {}])
def test_an_item_that_is_no_item(send, odd):
    answer = send({**BATCH_JSON, "items": [*BATCH_JSON["items"], odd]}, status=200)
    assert [each["status"] for each in answer["items"]] == ["passed", "failed", "passed", "invalid"]
    assert answer["items"][3]["id"] is None


def test_too_many_items_and_one_fewer(send):
    """The limit of `/v1/limits` holds at n and not at n + 1."""
    body = {**BATCH_JSON, "detail": "verdict", "items": [{"id": str(at)} for at in range(10_001)]}
    problem = send(body, status=413)
    assert problem["type"] == "/problems/too-many-items"
    assert (problem["limit"], problem["received"]) == (10_000, 10_001)
    body["items"].pop()
    assert send(body, status=200)["summary"]["total"] == 10_000


def test_too_many_traces_and_one_fewer(send):
    body = {**BATCH_JSON, "detail": "trace", "items": [{"id": str(at)} for at in range(201)]}
    problem = send(body, status=413)
    assert (problem["type"], problem["limit"], problem["received"]) == ("/problems/too-many-items", 200, 201)
    body["items"].pop()
    assert len(send(body, status=200)["items"][199]["trace"]) > 3


def test_a_million_lines_of_csv(client, checked):
    started = time.perf_counter()
    response = client.post(BATCH_PATH, content=b"id\n" + b"a\n" * 1_000_000, headers={"content-type": "text/csv"})
    problem = checked(response)
    assert time.perf_counter() - started < 10
    assert (response.status_code, problem["limit"], problem["received"]) == (413, 10_000, 1_000_000)
    response = client.post(
        BATCH_PATH, content=b"id,xxxxxxxxxxxxxxx\n" * 1_000_000, headers={"content-type": "text/csv"}
    )
    problem = checked(response)
    assert (response.status_code, problem["limit"], problem["received"]) == (413, 16 * 1024**2, 19_000_000)


def test_a_single_check_of_five_megabytes(send_one):
    problem = send_one(b" " * 5_000_000, status=413)
    assert problem["type"] == "/problems/too-large"
    assert (problem["limit"], problem["received"]) == (256 * 1024, 5_000_000)
    exact = json.dumps(SINGLE_JSON).encode()
    send_one(exact + b" " * (256 * 1024 - len(exact)), status=200)
    send_one(exact + b" " * (256 * 1024 - len(exact) + 1), status=413)


def test_many_errors_are_capped_and_counted(send_one, send):
    problem = send_one(change(SINGLE_JSON, {"item": {"id": "a", **{f"x{at}": 1 for at in range(300)}}}), status=422)
    assert (len(problem["errors"]), problem["error_count"]) == (100, 300)
    answer = send({"units": "us", "items": [{"id": "a", **{f"x{at}": 1 for at in range(300)}}]}, status=200)
    assert len(answer["items"][0]["problem"]["errors"]) == 20


@pytest.mark.parametrize("path", ["/nope", "/v1", "/v1/hang-points/", "/v1/families/none-such", "/problems/none-such"])
def test_unknown_addresses(client, checked, path):
    assert checked(client.get(path))["type"] == "/problems/not-found"


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [
        ("GET", SINGLE_PATH, {"POST"}),
        ("DELETE", BATCH_PATH, {"POST"}),
        ("POST", "/livez", {"GET", "HEAD"}),
        ("PUT", "/v1/families/headed-bolt", {"GET", "HEAD"}),
        ("PATCH", "/docs", {"GET", "HEAD"}),
        ("OPTIONS", "/v1/limits", {"GET", "HEAD"}),
    ],
)
def test_a_wrong_method_is_told_the_right_ones(client, checked, method, path, allowed):
    response = client.request(method, path)
    assert response.status_code == 405
    assert {each.strip() for each in response.headers["allow"].split(",")} == allowed
    assert checked(response)["type"] == "/problems/method-not-allowed"


@pytest.mark.parametrize("accept", ["text/plain", "application/msword", "image/*"])
def test_a_form_that_is_not_there(send, accept):
    problem = send(BATCH_JSON, headers={"accept": accept}, status=406)
    assert problem["type"] == "/problems/not-acceptable"
    assert "application/json" in problem["detail"]
    assert "text/csv" in problem["detail"]


@pytest.mark.parametrize(
    "media",
    ["text/plain", "application/xml", "", "application/json; charset=utf-16", "application/json; v=1; charset=latin-1"],
)
@pytest.mark.parametrize("path", [SINGLE_PATH, BATCH_PATH])
def test_a_media_type_that_is_not_read(client, checked, media, path):
    response = client.post(path, content=b"{}", headers={"content-type": media})
    assert response.status_code == 415
    assert "application/json" in response.headers["accept"]
    assert "the header Content-Type: application/json" in response.json()["detail"]
    assert checked(response)["type"] == "/problems/unsupported-media"


def test_utf_16_csv(send_csv):
    assert send_csv("id\n1".encode("utf-16"), status=415)["type"] == "/problems/unsupported-media"


@pytest.mark.parametrize(
    "media",
    [
        "application/json; charset=utf-8",
        'Application/JSON;charset="UTF-8"',
        "application/json;charset=utf-8; version=1",
        "application/json; version=1",
    ],
)
def test_spellings_of_a_media_type(send_one, media):
    send_one(SINGLE_JSON, media=media, status=200)


@pytest.mark.parametrize("path", READ)
def test_head_says_what_get_says(client, path):
    head, get = client.head(path), client.get(path)
    assert (head.status_code, get.status_code) == (200, 200)
    assert head.headers["content-type"] == get.headers["content-type"]
    assert head.headers.get("etag") == get.headers.get("etag")


@pytest.mark.parametrize(
    ("asked", "near"),
    [
        ("/v1/hangpoint", "/v1/hang-point"),
        ("/v1/hang_points", "/v1/hang-points"),
        ("/v1/hang-points/", "/v1/hang-points"),
        ("/v1/take-off", "/v1/take-offs"),
        ("/v1/families/wedge-expansion-zink", "wedge-expansion-zinc"),
        ("/v1/families/Drop-In-Zinc", "drop-in-zinc"),
    ],
)
def test_the_nearest_address_is_named(client, checked, asked, near):
    problem = checked(client.get(asked))
    assert problem["status"] == 404
    assert problem["detail"].endswith(f" The nearest is {near}.")


@pytest.mark.parametrize("asked", ["/v1/x", "/wp-login.php", "/v1/families/x"])
def test_nothing_is_near(client, checked, asked):
    assert "nearest" not in checked(client.get(asked))["detail"]


def test_one_item_where_a_list_stands_and_a_list_where_one_does(send, send_one):
    one = send_one({"units": "us", "items": [SINGLE_JSON["item"]]}, status=422)["errors"]
    many = send({"units": "us", "item": BATCH_JSON["items"][0]}, status=422)["errors"]
    for errors, pointer, allowed in ((one, "#/items", ["item"]), (many, "#/item", ["items"])):
        error = next(each for each in errors if each["code"] == "unknown-field")
        assert (error["pointer"], error["allowed"]) == (pointer, allowed)
        assert error["detail"].startswith("This address takes ")


@pytest.mark.parametrize(
    ("body", "path", "pointer"),
    [
        (BATCH_JSON, SINGLE_PATH, "#/items"),
        ({"units": "us", "item": BATCH_JSON["items"][0]}, BATCH_PATH, "#/item"),
        ({"units": "us", "item": BATCH_JSON["items"][0]}, "/v1/hanger-loads", "#/item"),
        ({"units": "us", "items": BATCH_JSON["items"]}, "/v1/remedies", "#/items"),
    ],
)
def test_that_a_list_or_one_item_is_meant_is_said_first(client, checked, body, path, pointer):
    """Whoever reads the first sentence alone reads what to do, and not that a field is missing."""
    problem = checked(client.post(path, json=body))
    assert problem["detail"].startswith(f"{pointer}: This address takes ")
    assert problem["errors"][0]["pointer"] == pointer


@pytest.mark.parametrize("path", [SINGLE_PATH, BATCH_PATH, "/v1/hanger-loads", "/v1/remedies"])
@pytest.mark.parametrize("body", [b"", b" \n"])
def test_that_a_body_is_empty_is_said(client, checked, path, body):
    problem = checked(client.post(path, content=body, headers={"Content-Type": "application/json"}))
    assert (problem["status"], problem["detail"]) == (400, "The body is empty: send the request as JSON in UTF-8.")


@pytest.mark.parametrize("path", ["/v1/families/drop-in-zinc", "/v1/schema/family", "/v1/limits", "/v1/quantities"])
def test_a_query_that_a_list_has_no_use_for_is_refused(client, checked, path):
    """Units that are asked for and not heard would be taken for those of the answer."""
    response = client.get(f"{path}?units=si")
    assert response.status_code == 422
    assert checked(response)["errors"][0] == {
        "pointer": "?units",
        "code": "unknown-field",
        "detail": "This address has no query.",
    }


@pytest.mark.parametrize("query", ["?units=si", "?zz=1", "?detail=all", "?echo=true", "?default.trade=x", "?decimal=,"])
def test_a_query_that_json_has_no_use_for_is_refused(send, query):
    assert send(BATCH_JSON, BATCH_PATH + query, status=422)["errors"][0]["pointer"].startswith("?")


@pytest.mark.parametrize("query", ["decimal=,", "delimiter=semicolon", "encoding=utf-8", "default.trade=x", "notes=a"])
@pytest.mark.parametrize("path", [BATCH_PATH, "/v1/load-maps", "/v1/submittals", "/v1/test-logs"])
def test_what_a_query_has_for_a_csv_is_told_so_where_the_body_is_json(client, checked, path, query):
    """A CSV that is sent under the media type of JSON is told of neither otherwise."""
    problem = checked(client.post(f"{path}?{query}", content=b"{}", headers={"Content-Type": "application/json"}))
    assert problem["status"] == 422
    assert problem["errors"][0]["detail"] == "This is said of a CSV; send one with Content-Type: text/csv."


@pytest.mark.parametrize("path", [SINGLE_PATH, "/v1/remedies"])
def test_an_address_that_reads_no_csv_says_nothing_of_it(client, checked, path):
    problem = checked(client.post(f"{path}?decimal=,", content=b"{}", headers={"Content-Type": "application/json"}))
    assert "CSV" not in problem["detail"]


def test_the_single_check_has_no_query(send):
    assert send(SINGLE_JSON, SINGLE_PATH + "?detail=modes", status=422)["errors"][0]["pointer"] == "?detail"


def test_a_format_that_is_not_there(send):
    assert send(BATCH_JSON, BATCH_PATH + "?format=docx", status=406)["type"] == "/problems/not-acceptable"


def ask(app, receive, headers, path=SINGLE_PATH):
    """Status and body of one connection to the bare application, with a way to receive of the test's own."""
    sent = []

    async def send(message):
        sent.append(message)

    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": "POST",
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "root_path": "",
        "query_string": b"",
        "headers": headers,
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 80),
    }
    asyncio.run(app(scope, receive, send))
    return sent[0]["status"], json.loads(b"".join(message.get("body", b"") for message in sent[1:]))


JSON_HEADER = (b"content-type", b"application/json")


def test_a_body_that_never_ends_is_timed_out(monkeypatch):
    monkeypatch.setenv("HANGPOINT_BODY_SECONDS", "0.05")
    begun = []

    async def receive():
        if begun:
            await asyncio.sleep(3600)
        begun.append(True)
        return {"type": "http.request", "body": b'{"units"', "more_body": True}

    status, problem = ask(create_app(), receive, [JSON_HEADER])
    assert (status, problem["type"]) == (408, "/problems/timeout")


def test_a_body_longer_than_it_says(app):
    async def receive():
        return {"type": "http.request", "body": b" " * 100_000, "more_body": True}

    status, problem = ask(app, receive, [JSON_HEADER, (b"content-length", b"10")])
    assert (status, problem["type"], problem["limit"]) == (413, "/problems/too-large", 256 * 1024)
    assert problem["received"] == 300_000


def test_a_body_that_says_it_is_too_long_is_not_read(app):
    async def receive():
        raise AssertionError("read")

    status, problem = ask(app, receive, [JSON_HEADER, (b"content-length", b"300000")])
    assert (status, problem["received"]) == (413, 300_000)


@pytest.mark.parametrize(
    ("path", "status"),
    [("/v1/hang-points/", 404), ("/nothing", 404), ("/livez", 405), ("/v1/families/headed-bolt", 405)],
)
def test_a_body_that_nobody_asks_for_is_not_read(app, path, status):
    async def receive():
        raise AssertionError("read")

    headers = [JSON_HEADER, (b"content-length", b"300000"), (b"content-encoding", b"nope")]
    got, problem = ask(app, receive, headers, path)
    assert got == status
    said = {404: ("GET /openapi.json lists all",), 405: ("The methods of this address are ", "GET", "HEAD")}
    assert all(each in problem["detail"] for each in said[status])


def test_a_connection_that_closes_early(app):
    async def receive():
        return {"type": "http.disconnect"}

    assert ask(app, receive, [JSON_HEADER])[0] == 408


def test_lower_limits_of_an_operator_hold():
    client = TestClient(create_app(Settings(max_items=2, max_traces=1, max_single_bytes=1024, max_batch_bytes=4096)))
    assert client.post(BATCH_PATH, json=BATCH_JSON).json()["limit"] == 2
    body = {**BATCH_JSON, "detail": "trace", "items": BATCH_JSON["items"][:2]}
    assert client.post(BATCH_PATH, json=body).json()["limit"] == 1
    assert client.post(SINGLE_PATH, json={**SINGLE_JSON, "x": "y" * 1024}).json()["limit"] == 1024
    assert client.get("/v1/limits").json() | {"items": 2, "traces": 1} == client.get("/v1/limits").json()


def test_a_defect_says_nothing_but_its_trace_id(client, monkeypatch, caplog):
    def fail(*_, **__):
        raise RuntimeError("secret")

    monkeypatch.setattr("hangpoint.api.routes.hang_points.run_single", fail)
    response = client.post(SINGLE_PATH, json=SINGLE_JSON)
    assert response.status_code == 500
    assert response.json()["type"] == "/problems/internal"
    assert "secret" not in response.text
    assert "secret" in caplog.text


def test_callers_without_a_token():
    client = TestClient(create_app(Settings(access="tokens", tokens="abc, def")))
    refused = client.post(SINGLE_PATH, json=SINGLE_JSON)
    assert (refused.status_code, refused.headers["www-authenticate"]) == (401, "Bearer")
    assert client.post(SINGLE_PATH, json=SINGLE_JSON, headers={"authorization": "Bearer nope"}).status_code == 401
    assert client.post(SINGLE_PATH, json=SINGLE_JSON, headers={"authorization": "bearer def"}).status_code == 200
    assert [client.get(path).status_code for path in ("/livez", "/", "/v1/limits")] == [200, 200, 401]


def test_the_start_says_where_to_read_on(client):
    links = client.get("/").json()["links"]
    assert (links["documentation"], links["openapi"]) == ("/docs", "/openapi.json")
    assert all(client.get(path).status_code in (200, 405) for path in links.values())


@pytest.mark.parametrize("path", ["/v1/hang-point", "/v1/hang-points", "/v1/anchor-group", "/v1/remedies"])
def test_an_empty_body_is_told_the_words_that_it_lacks(client, path):
    problem = client.post(path, json={}).json()
    assert problem["detail"] == "#/units: units: us or si is required. And 1 more."
    assert problem["errors"][0]["allowed"] == ["us", "si"]


@pytest.mark.parametrize("value", [0, -8, -0.5, "-8 in", "0 in", "0.0 in"])
def test_a_length_out_of_range_is_no_other_thing(client, value):
    body = SINGLE_JSON | {"item": SINGLE_JSON["item"] | {"base": SINGLE_JSON["item"]["base"] | {"thickness": value}}}
    answer = client.post("/v1/hang-point", json=body).json()
    errors = answer["errors"] if "errors" in answer else answer["items"][0]["problem"]["errors"]
    assert [each["code"] for each in errors] == ["quantity"]
    assert errors[0]["detail"].startswith("The length is out of range: at least 0.001 and at most 100,000 in")


@pytest.mark.parametrize("weight", [2e8, "500000 kN"])
def test_bounds_are_written_in_full(client, weight):
    item = SINGLE_JSON["item"] | {"hangs": {"kind": "weight", "weight": weight, "nature": "dead"}}
    problem = client.post("/v1/hang-point", json=SINGLE_JSON | {"item": item}).json()
    assert "out of range: at least 0 and at most 100,000,000 lbf" in problem["errors"][0]["detail"]
    assert "e+" not in problem["errors"][0]["detail"]


@pytest.mark.parametrize("value", [True, "8", "8 apples", "--8 in", None, [8]])
def test_what_is_no_length_is_told_what_one_is(client, value):
    body = SINGLE_JSON | {"item": SINGLE_JSON["item"] | {"base": SINGLE_JSON["item"]["base"] | {"thickness": value}}}
    (error,) = client.post("/v1/hang-point", json=body).json()["errors"]
    assert error["detail"].startswith("not a length: give a number")


@pytest.mark.parametrize(
    ("place", "value", "says"),
    [
        ("id", 5, "A text has to stand here."),
        ("rod", 3, "An object has to stand here."),
        ("tags", "east", "A list has to stand here."),
        ("trade", "", "A text of at least 1 letters has to stand here."),
    ],
)
def test_errors_say_what_may_stand_there(client, place, value, says):
    body = SINGLE_JSON | {"item": SINGLE_JSON["item"] | {place: value}}
    (error,) = client.post("/v1/hang-point", json=body).json()["errors"]
    assert error["detail"] == says


@pytest.mark.parametrize("value", ["10%", "0.1", None])
def test_a_number_stated_as_a_text_is_told_to_be_bare(client, value):
    body = SINGLE_JSON | {"item": SINGLE_JSON["item"] | {"hangs": SINGLE_JSON["item"]["hangs"] | {"allowance": value}}}
    (error,) = client.post("/v1/hang-point", json=body).json()["errors"]
    assert error["detail"] == "A bare number has to stand here: no text, unit or % sign."


@pytest.mark.parametrize(
    ("path", "wrap"),
    [
        ("/v1/hang-point", lambda item: {"item": item}),
        ("/v1/remedies", lambda item: {"item": item}),
        ("/v1/sensitivities", lambda item: {"item": item}),
        ("/v1/substitutions", lambda item: {"item": item}),
        ("/v1/hang-points", lambda item: {"items": [item]}),
    ],
)
def test_defaults_are_named_where_a_body_has_them(client, path, wrap):
    """A request for one item has no defaults: whoever is sent there finds an unknown field."""
    item = {name: value for name, value in SINGLE_JSON["item"].items() if name != "seismic"}
    answer = client.post(path, json={"units": "us"} | wrap(item)).json()
    batch = "items" in answer
    errors = answer["items"][0]["problem"]["errors"] if batch else answer["errors"]
    (detail,) = [each["detail"] for each in errors if each["pointer"].endswith("/seismic/category")]
    assert detail == f"The seismic design category is required{' here or in the defaults' if batch else ''}."


@pytest.mark.parametrize(
    ("place", "text", "instead"),
    [
        ("hangs.size", '4"', "4"),
        ("hangs.size", "NPS 4", "4"),
        ("hangs.schedule", "Sch 40", "40"),
        ("hangs.schedule", "Standard", "STD"),
        ("rod.size", "3/8-16", "3/8"),
        ("rod.size", "0.375", "3/8"),
    ],
)
def test_a_size_in_another_notation_is_told_what_to_write(client, place, text, instead):
    (error,) = client.post(SINGLE_PATH, json=single(**{place: text})).json()["errors"]
    assert error["detail"].endswith(f" Write {instead}.")


@pytest.mark.parametrize(
    ("units", "f_c", "sound"),
    [("us", 25, False), ("us", 4000, True), ("us", "25 MPa", True), ("si", 4000, False), ("si", 25, True)],
)
def test_a_strength_of_concrete_in_the_other_unit_is_no_number_to_go_on_with(send_one, units, f_c, sound):
    """25 psi was a weak concrete that may pass, 4,000 MPa a strong one, of which as much counts as the code lets."""
    body = single(base__strength={"f_c": f_c}) | {"units": units}
    if units == "si":
        body = change(body, {"item.anchor.h_ef": "3.25 in", "item.base.thickness": "8 in"})
        body = change(body, {"item.base.edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")})
    answer = send_one(body, status=200 if sound else 422)
    if not sound:
        (error,) = answer["errors"]
        assert (error["pointer"], error["code"]) == ("#/item/base/strength/f_c", "quantity")
        assert '"25 MPa"' in error["detail"]
