"""Hang points as lines of JSON: how they may be written, what is refused, what costs one line, and what comes back."""

import copy
import json
import random
from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from api.bodies import BATCH_JSON, GONE, SINGLE_JSON, as_lines, change, item, standing
from hangpoint.api.examples import BATCH_LINES
from hangpoint.api.lines import Line, LineSplitter
from hangpoint.api.media import NDJSON
from hangpoint.api.routes.hang_points import BATCH_PATH
from hangpoint.app import create_app
from hangpoint.report.lines import CLOSING, OPENING
from hangpoint.settings import Settings

ITEM = SINGLE_JSON["item"]
HEADER = {"units": "us"}
LONGEST = 64 * 1024


def points(count, **changes):
    return [item(**changes) | {"id": f"P{at}"} for at in range(count)]


def mixed(count, seed=1):
    """Points of every status, some lines not even JSON; the same for a seed."""
    draw = random.Random(seed)
    made = []
    for at in range(count):
        point = item(
            hangs={"kind": "weight", "weight": draw.choice([100, 300, 3000, "1.5 kN"]), "nature": "dead"},
            base__thickness=draw.choice(["8 in", 10, "250 mm", "8 psi", 2]),
            base__edges__x_plus=draw.choice(["12 in", "none", "2 in"]),
            anchor__family=draw.choice([*["wedge-expansion-zinc"] * 8, "wedge-expansion-zink"]),
        )
        made.append({**point, "id": f"M{at}"} | draw.choice([{}, {}, {}, {"much": 1}]))
    return made


def refused_whole(problem):
    return [(error["pointer"], error["code"], error.get("line")) for error in problem["errors"]]


def errors(result):
    return [(error["pointer"], error["code"], error["line"]) for error in result["problem"]["errors"]]


def placed(results):
    """Results without what differs between a pointer into lines and one into items."""
    made = copy.deepcopy(results)
    for each in made:
        for error in each.get("problem", {}).get("errors", ()):
            error.pop("line", None)
            _, _, _, *path = error["pointer"].split("/")
            error["pointer"] = "/".join(path)
        each.get("problem", {}).pop("detail", None)
    return made


def test_the_first_and_the_last_line_hold_what_an_answer_holds(send, send_lines):
    answer = send(BATCH_JSON | {"neighbours": "off"}, status=200)
    head, *results, last = send_lines(as_lines(BATCH_JSON), status=200)
    assert {*OPENING, *CLOSING, "items"} == answer.keys()
    assert head == {name: answer[name] for name in OPENING}
    assert last == {name: answer[name] for name in CLOSING} | {"withdrawn": []}
    assert results == answer["items"]


@pytest.mark.parametrize("neighbours", ["check", "off"])
def test_a_header_may_hold_all_that_a_batch_holds(send, send_lines, neighbours):
    top = {"design_code": "aci318_19", "combinations": "given_factored", "detail": "verdict", "neighbours": neighbours}
    body = BATCH_JSON | top
    answer = send(body, status=200)
    head, *results, last = send_lines(as_lines(body), status=200)
    assert head["combinations"] == "given_factored"
    assert (results, last["request_digest"]) == (answer["items"], answer["request_digest"])
    assert "modes" not in results[0]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text.replace("\n", "\r\n"),
        lambda text: text.rstrip("\n"),
        lambda text: text.replace("\n", "\n\n \t\r\n"),
        lambda text: "\n\n" + text,
        lambda text: text.replace("\n", "  \n"),
    ],
    ids=["crlf", "no end", "blank lines", "blank begin", "spaces"],
)
def test_ways_to_end_a_line(send, spoil):
    plain = send(BATCH_LINES, media=NDJSON, status=200)
    assert send(spoil(BATCH_LINES), media=NDJSON, status=200) == plain


@pytest.mark.parametrize(
    ("lines", "query", "place"),
    [
        ([], "", ("#/lines", "missing", None)),
        (["", " "], "", ("#/lines", "missing", None)),
        ([HEADER], "", ("#/lines/2", "missing", None)),
        (["", HEADER, ""], "", ("#/lines/3", "missing", None)),
        ([{}, ITEM], "", ("#/lines/1/units", "missing", 1)),
        ([{"detail": "modes"}, ITEM], "", ("#/lines/1/units", "missing", 1)),
        ([ITEM], "", ("#/lines/1/units", "missing", 1)),
        (["", "5", ITEM], "", ("#/lines/2/units", "missing", 2)),
        ([{"units": "metric"}, ITEM], "", ("#/lines/1/units", "unknown-option", 1)),
        ([{"units": "us", "itms": 1}, ITEM], "", ("#/lines/1/itms", "unknown-field", 1)),
        ([{"units": "us", "items": []}, ITEM], "", ("#/lines/1/items", "unknown-field", 1)),
        ([{"units": "us", "defaults": {"base": {"thickness": "4 psi"}}}, ITEM], "", None),
        ([HEADER, ITEM], "?units=si", ("#/lines/1/units", "contradiction", 1)),
        ([HEADER | {"combinations": "strength"}, ITEM], "?combinations=allowable", None),
        ([HEADER | {"neighbours": "off"}, ITEM], "?neighbours=check", ("#/lines/1/neighbours", "contradiction", 1)),
        ([HEADER | {"neighbours": "on"}, ITEM], "", ("#/lines/1/neighbours", "unknown-option", 1)),
        ([HEADER, ITEM], "?neighbours=on", ("?neighbours", "unknown-option", None)),
        ([HEADER, ITEM], "?delimiter=tab", ("?delimiter", "unknown-field", None)),
        ([HEADER, ITEM], "?default.base.thickness=3 in", ("?default.base.thickness", "unknown-field", None)),
        ([HEADER, ITEM], "?echo=true", ("?echo", "contradiction", None)),
    ],
)
def test_what_is_wrong_before_the_items_refuses_the_whole(send_lines, lines, query, place):
    problem = send_lines(lines, query, status=422)
    (found,) = refused_whole(problem)
    if place is None:
        assert found[0].startswith("#/lines/1/")
        assert found[2] == 1
    else:
        assert found == place


@pytest.mark.parametrize(
    "first", ["nope", '{"units": "us"', "\ufeff" + json.dumps(HEADER), '{"units": NaN}', "[" * 10_000, '"\ud800"']
)
def test_a_first_line_that_is_no_json_refuses_the_whole(send, first):
    """It may have been the header, and with it the units."""
    problem = send(f"{first}\n{json.dumps(ITEM)}\n".encode("utf-8", "surrogatepass"), media=NDJSON, status=400)
    assert problem["type"] == "/problems/malformed"
    assert refused_whole(problem) == [("#/lines/1", "malformed", 1)]


def test_a_first_line_that_is_too_long_refuses_the_whole(send):
    problem = send(json.dumps(HEADER) + " " * LONGEST + "\n" + json.dumps(ITEM), media=NDJSON, status=413)
    assert refused_whole(problem) == [("#/lines/1", "line-too-long", 1)]


def test_without_a_header_the_query_says_the_units(send, send_lines):
    top = {"units": "si", "detail": "verdict", "design_code": "aci318_19", "neighbours": "off"}
    plain = send({**top, "items": [ITEM]}, status=200)
    _, result, last = send_lines([ITEM], "?units=si&detail=verdict&design_code=aci318_19", status=200)
    assert ([result], last["request_digest"]) == (plain["items"], plain["request_digest"])
    same = send_lines([HEADER, ITEM], "?units=us", status=200)
    assert same == send_lines([HEADER, ITEM], status=200)


@pytest.mark.parametrize(
    ("line", "slug", "code", "path"),
    [
        ("nope", "malformed", "malformed", ""),
        ('{"id": "x"', "malformed", "malformed", ""),
        ('{"id": "x", "trade": NaN}', "malformed", "malformed", ""),
        ('{"id": "x"}{"id": "y"}', "malformed", "malformed", ""),
        ("[" * 10_000, "malformed", "malformed", ""),
        ("5", "validation", "dict_type", ""),
        ("null", "validation", "dict_type", ""),
        ("[]", "validation", "dict_type", ""),
        ("{}", "validation", "missing", "/id"),
        (HEADER, "validation", "late-header", ""),
        ({"units": "si", "defaults": {"trade": "x"}}, "validation", "late-header", ""),
        ({"id": 5}, "validation", "string_type", "/id"),
        (item(base__thicknes=3), "validation", "unknown-field", "/base/thicknes"),
        (item(base__thickness="3 psi"), "quantity", "quantity", "/base/thickness"),
        (item(base__thickness=GONE), "validation", "missing", "/base/thickness"),
        (item(base__thickness=2), "impossible-geometry", "impossible-geometry", "/anchor/h_ef"),
        (item(anchor__size="7/16"), "unknown-product", "unknown-product", "/anchor/size"),
        (ITEM | {"id": "P0"}, "duplicate-id", "duplicate-id", "/id"),
        ({"id": "P0"}, "duplicate-id", "duplicate-id", "/id"),
    ],
)
def test_a_bad_line_costs_itself_only(send_lines, line, slug, code, path):
    good = points(4)
    alone = send_lines([HEADER, *good], status=200)[1:-1]
    _, *results, last = send_lines([HEADER, "", *good[:2], line, *good[2:]], status=200)
    bad = results.pop(2)
    assert (bad["status"], bad["index"], bad["problem"]["type"]) == ("invalid", 2, f"/problems/{slug}")
    assert [{**each, "index": 0} for each in results] == [{**each, "index": 0} for each in alone]
    assert last["summary"]["invalid"] == 1
    if code is not None:
        assert errors(bad)[0] == (f"#/lines/5{path}", code, 5)
        assert bad["problem"]["detail"].startswith(f"#/lines/5{path}: ")


def test_bytes_that_are_no_utf_8_cost_their_line(send):
    text = json.dumps(HEADER).encode() + b'\n{"id": "\xff"}\n' + json.dumps(ITEM).encode()
    _, bad, good, _ = send(text, media=NDJSON, status=200)
    assert (errors(bad), good["status"]) == ([("#/lines/2", "malformed", 2)], "passed")


def test_the_column_of_a_syntax_error_is_that_of_the_line(send_lines):
    bad = send_lines([HEADER, ITEM, '{"id": "x", nope}'], status=200)[2]
    assert "at column 13" in bad["problem"]["detail"]
    assert "line 1" not in bad["problem"]["detail"]


def test_a_default_that_fails_later_is_named_in_the_header(send_lines):
    lines = as_lines(change(BATCH_JSON, {"defaults.anchor.size": "7/16"}))
    _, *results, _ = send_lines(["", *lines], status=200)
    for each in results:
        assert errors(each) == [("#/lines/2/defaults/anchor/size", "unknown-product", 2)]


def test_of_a_repeated_id_the_first_stands(send_lines):
    lines = [HEADER, *[ITEM | {"id": name} for name in "abacab"], {"id": "c", "much": 1}]
    _, *results, last = send_lines(lines, status=200)
    assert [each["status"] == "invalid" for each in results] == [False, False, True, False, True, True, True]
    assert errors(results[2]) == [("#/lines/4/id", "duplicate-id", 4)]
    assert "#/lines/2/id" in results[2]["problem"]["detail"]
    assert [each[1] for each in errors(results[6])] == ["duplicate-id", "unknown-field"]
    assert [each["id"] for each in results] == [*"abacab", "c"]
    assert last["summary"]["invalid"] == 4


def test_an_id_is_repeated_across_blocks(send_lines):
    lines = [HEADER | {"detail": "verdict"}, *points(1500), ITEM | {"id": "P3"}]
    _, *results, _ = send_lines(lines, status=200)
    assert Counter(each["status"] for each in results)["invalid"] == 1
    assert errors(results[-1]) == [("#/lines/1502/id", "duplicate-id", 1502)]
    assert "#/lines/5/id" in results[-1]["problem"]["detail"]


def test_a_line_that_is_too_long_and_one_byte_less(send_lines):
    text = json.dumps(ITEM)
    longest = text + " " * (LONGEST - len(text))
    _, good, bad, other, _ = send_lines([HEADER, longest, longest + " ", ITEM | {"id": "b"}], status=200)
    assert (good["status"], other["status"]) == ("passed", "passed")
    assert (errors(bad), bad["id"], bad["problem"]["type"]) == (
        [("#/lines/3", "line-too-long", 3)],
        None,
        "/problems/too-large",
    )
    assert "65537 bytes; the limit is 65536" in bad["problem"]["detail"]


def test_a_bad_line_that_is_long_keeps_its_id_and_has_few_errors(send_lines):
    long = {"id": "long", **{f"x{at}": at for at in range(4000)}}
    assert 40_000 < len(json.dumps(long)) < LONGEST
    bad = send_lines([HEADER, *[long | {"id": f"L{at}"} for at in range(30)]], status=200)[1:-1]
    assert [each["id"] for each in bad] == [f"L{at}" for at in range(30)]
    assert {len(each["problem"]["errors"]) for each in bad} == {20}


def test_the_digest_knows_a_line_that_is_not_kept(send_lines):
    def digest(last_letter):
        long = json.dumps(ITEM) + " " * LONGEST + last_letter
        return send_lines([HEADER, ITEM, long], status=200)[-1]["request_digest"]

    assert digest("x") == digest("x") != digest("y")


def test_lines_say_what_json_says_of_a_job(send, send_lines):
    """Item by item, more than a block of them, every status among them."""
    items = mixed(1200)
    answer = send({"units": "us", "neighbours": "off", "items": items}, status=200)
    _, *results, last = send_lines([HEADER, *items], status=200)
    assert set(Counter(each["status"] for each in results)) == {"passed", "failed", "invalid"}
    assert placed(results) == placed(answer["items"])
    assert last["summary"] == answer["summary"]
    assert last["assumptions"] == answer["assumptions"]
    assert last["not_checked"] == answer["not_checked"]


def test_results_come_in_the_order_of_the_lines(send_lines):
    names = [f"{at * 7919 % 2500}" for at in range(2500)]
    lines = [HEADER | {"detail": "verdict", "defaults": {k: v for k, v in ITEM.items() if k != "id"}}]
    _, *results, _ = send_lines([*lines, *({"id": name} for name in names)], status=200)
    assert [each["id"] for each in results] == names


def member(name, thickness, point):
    return item(base__member=name, base__thickness=thickness) | {"id": point}


def test_a_member_stated_differently_within_a_block(send, send_lines):
    items = [member("S1", "8 in", "a"), member("S1", 8, "b"), member("S2", 8, "c"), member("S1", "9 in", "d")]
    _, *results, last = send_lines([HEADER, *items], status=200)
    assert [each["status"] for each in results] == ["invalid", "invalid", "passed", "invalid"]
    assert errors(results[0]) == [("#/lines/2/base/thickness", "contradiction", 2)]
    assert placed(results) == placed(send({"units": "us", "neighbours": "off", "items": items})["items"])
    assert last["withdrawn"] == []


@pytest.mark.parametrize("of", [{}, {"f_c": True}])
def test_a_member_stated_differently_by_a_later_block_withdraws_what_was_sent(send, send_lines, of):
    """The same as if the whole had been read before anything was said."""
    items = points(2500, base__thickness="8 in")
    for at in (3, 700, 1400):
        items[at] = member("S1", "8 in", f"P{at}")
    items[1800] = member("S1", "203.2 mm", "P1800")
    items[2400] = change(member("S1", "8 in", "P2400"), {"base.strength.f_c": 5000})
    if not of:
        items[2400] = member("S1", "6 in", "P2400")
    items[2450] = member("S1", "8 in", "P2450")
    items[5] = member("S2", "8 in", "P5") | {"hangs": {"kind": "weight", "weight": 90_000, "nature": "dead"}}
    items[2300] = member("S2", "9 in", "P2300")
    header = HEADER | {"detail": "verdict"}
    _, *results, last = send_lines([header, *items], status=200)
    path = "base/strength/f_c" if of else "base/thickness"
    assert [each["index"] for each in last["withdrawn"]] != []
    withdrawn = {each["index"]: each for each in last["withdrawn"]}
    assert set(withdrawn) == {3, 700, 1400, 1800, 5}
    assert errors(withdrawn[700]) == [(f"#/lines/702/{path}", "contradiction", 702)]
    assert (results[700]["status"], results[5]["status"]) == ("passed", "failed")
    whole = send({**header, "neighbours": "off", "items": items}, status=200)
    assert placed(standing(results, last)) == placed(whole["items"])
    assert last["summary"] == whole["summary"]


def test_a_member_of_the_defaults(send_lines):
    header = HEADER | {"detail": "verdict", "defaults": {"base": {"member": "S1", "thickness": "8 in"}}}
    items = points(1100, base__thickness=GONE)
    items[1050] = member("S1", "9 in", "P1050")
    items[7] = member("S7", "7 in", "P7")
    _, *results, last = send_lines([header, *items], status=200)
    good = [each["index"] for each in standing(results, last) if each["status"] != "invalid"]
    assert good == [7]


@pytest.mark.parametrize("neighbours", ["check", "off"])
def test_lines_answered_as_a_whole_are_compared_as_a_whole(send, send_lines, neighbours):
    items = [point | {"at": {"level": "L2", "x": at // 2, "y": 0}} for at, point in enumerate(points(1100))]
    items[3], items[1050] = member("S1", 8, "P3"), member("S1", 9, "P1050")
    answer = send_lines([HEADER, *items], f"?format=json&neighbours={neighbours}", status=200)
    whole = send({**HEADER, "neighbours": neighbours, "items": items}, status=200)
    assert ("neighbours" in whole["items"][0]) is (neighbours == "check")
    assert placed(answer["items"]) == placed(whole["items"])
    assert {name: part for name, part in answer.items() if name not in ("items", "request_digest")} == {
        name: part for name, part in whole.items() if name not in ("items", "request_digest")
    }
    assert answer["request_digest"] == whole["request_digest"]


@pytest.mark.parametrize(
    "header",
    [
        {},
        HEADER,
        as_lines(BATCH_JSON)[0],
        HEADER | {"detail": "everything"},
        HEADER | {"design_code": None},
        HEADER | {"combinations": "allowable", "design_code": "en1992_4"},
        HEADER | {"items": []},
        HEADER | {"defaults": {"id": "x"}},
        HEADER | {"defaults": {"base": {"thickness": "4 psi"}}},
        HEADER | {"defaults": []},
        {"units": 1},
    ],
)
def test_the_published_schema_of_a_header_says_what_the_service_says(send_lines, validator, header):
    answer = send_lines([header, ITEM], "" if "units" in header else "?units=us")
    refused = isinstance(answer, dict) and any(error["pointer"].startswith("#/lines/1") for error in answer["errors"])
    assert validator("StreamHeader").is_valid(header) != refused


def limited(**limits):
    client = TestClient(create_app(Settings(**limits)))

    def post(lines, query=""):
        text = "\n".join(json.dumps(each) for each in lines)
        response = client.post(BATCH_PATH + query, content=text, headers={"content-type": NDJSON})
        return response.status_code, [json.loads(line) for line in response.text.splitlines()]

    return post


def test_too_many_items_before_and_after_the_first_block():
    lines = [HEADER | {"detail": "verdict"}, *points(1300)]
    status, (problem,) = limited(max_stream_items=500)(lines)
    assert (status, problem["type"], problem["limit"]) == (413, "/problems/too-many-items", 500)
    status, answer = limited(max_stream_items=1299)(lines)
    assert (status, len(answer)) == (200, 1 + 1000 + 1)
    assert answer[-1]["problem"] == {
        "type": "/problems/too-many-items",
        "title": "Too many items",
        "status": 413,
        "detail": "The batch asks for 1300 hang points; the limit is 1299.",
        "limit": 1299,
        "received": 1300,
    }
    status, answer = limited(max_stream_items=1300)(lines)
    assert (status, answer[-1]["summary"]["total"]) == (200, 1300)


def test_too_many_bytes_before_and_after_the_first_block():
    lines = [HEADER | {"detail": "verdict"}, *points(1300)]
    size = len("\n".join(json.dumps(each) for each in lines))
    status, (problem,) = limited(max_stream_bytes=size // 2)(lines)
    assert (status, problem["type"], problem["limit"]) == (413, "/problems/too-large", size // 2)
    status, answer = limited(max_stream_bytes=size)(lines)
    assert (status, answer[-1]["summary"]["total"]) == (200, 1300)


def test_too_many_traces():
    lines = [HEADER | {"detail": "trace"}, *points(3)]
    status, (problem,) = limited(max_traces=2)(lines)
    assert (status, problem["limit"], problem["received"]) == (413, 2, 3)
    status, answer = limited(max_traces=3)(lines)
    assert (status, len(answer[1]["trace"]) > 3) == (200, True)


def test_a_lower_limit_of_lines():
    status, answer = limited(max_line_bytes=2048)([HEADER, ITEM, ITEM | {"id": "b", "trade": "x" * 3000}])
    assert (status, [each["status"] for each in answer[1:-1]]) == (200, ["passed", "invalid"])
    assert "the limit is 2048" in answer[2]["problem"]["detail"]


def test_an_answer_as_a_whole_has_the_limits_of_a_batch():
    lines = [HEADER | {"detail": "verdict"}, *points(30)]
    status, (problem,) = limited(max_items=29)(lines, "?format=json")
    assert (status, problem["type"], problem["limit"]) == (413, "/problems/too-many-items", 29)
    assert limited(max_items=29)(lines)[0] == 200
    status, (problem,) = limited(max_batch_bytes=2048)(lines, "?format=csv")
    assert (status, problem["type"], problem["limit"]) == (413, "/problems/too-large", 2048)
    assert limited(max_batch_bytes=2048)(lines)[0] == 200


def test_lines_whose_neighbours_are_checked_are_under_the_bytes_of_a_batch():
    """They are kept whole, as lines of another answer are; asked for by the header or by the query."""
    lines = [HEADER, *points(200)]
    size = len("\n".join(json.dumps(each) for each in lines))
    status, (problem,) = limited(max_batch_bytes=size - 1)(lines, "?neighbours=check")
    assert (status, problem["type"], problem["limit"]) == (413, "/problems/too-large", size - 1)
    assert limited(max_batch_bytes=size)(lines, "?neighbours=check")[0] == 200
    asked = [HEADER | {"neighbours": "check"}, *points(200)]
    assert limited(max_batch_bytes=size - 1)(asked)[0] == 413
    assert limited(max_items=199)(asked)[0] == 413
    assert limited(max_items=200)(asked)[0] == 200


def test_the_limits_of_streams_are_served(client):
    limits = client.get("/v1/limits").json()
    assert (limits["stream_bytes"], limits["stream_items"], limits["line_bytes"]) == (128 * 1024**2, 200_000, LONGEST)
    assert limits["stream_seconds"] == Settings().stream_seconds


@settings(deadline=None, derandomize=True, database=None)
@given(st.binary(max_size=300), st.lists(st.integers(0, 300)), st.integers(1, 40))
def test_lines_are_the_same_however_their_text_is_cut(text, cuts, most):
    places = sorted({0, len(text), *(min(cut, len(text)) for cut in cuts)})
    splitter = LineSplitter(most)
    made = list(splitter.lines(text[a:b] for a, b in pairwise(places)))
    made += splitter.end()
    expected = [(at, line) for at, line in enumerate(text.split(b"\n"), start=1) if line.strip() or len(line) > most]
    assert [line.number for line in made] == [at for at, _ in expected]
    for own, (at, line) in zip(made, expected, strict=True):
        if len(line) <= most:
            assert own == Line(number=at, text=line)
        else:
            assert (own.too_long, len(own.text)) == (len(line), 64)


LINES = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["", "{}", '{"units": "us"}', '{"id": "a"}', '{"id": "a", "base": {"thickness": 1e999}}', "\ufeff"]
    ),
    st.just(json.dumps(ITEM)),
    st.dictionaries(st.sampled_from(["id", "units", "hangs", "base", "defaults", "detail"]), st.text(max_size=3)).map(
        json.dumps
    ),
    st.recursive(st.none() | st.booleans() | st.floats() | st.text(max_size=3), st.lists).map(json.dumps),
)


@settings(deadline=None, derandomize=True, database=None, max_examples=300, suppress_health_check=list(HealthCheck))
@given(
    st.booleans(), st.lists(LINES, max_size=6), st.sampled_from(["\n", "\r\n"]), st.sampled_from(["", "?format=json"])
)
def test_lines_of_any_kind(client, checked, headed, lines, end, query):
    """Whatever the text, an answer by the rules, and a result for every line that isn't blank."""
    text = end.join([*([json.dumps(HEADER)] if headed else []), *lines])
    response = client.post(
        BATCH_PATH + query, content=text.encode("utf-8", "surrogatepass"), headers={"content-type": NDJSON}
    )
    answer = checked(response)
    assert response.status_code in (200, 400, 422)
    if headed and response.status_code == 200:
        results = answer["items"] if query else answer[1:-1]
        assert len(results) == sum(bool(line.strip(" \t\r\n\v\f")) for line in "\n".join(lines).split("\n"))
