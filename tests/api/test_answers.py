"""What an answer says: traces that can be recalculated from the JSON alone, units, digests, defaults, closed lists."""

import ast
import json
import math
import random

import numpy as np
import pytest

from api.bodies import BATCH_JSON, FORCES, GONE, INLINE, SINGLE_JSON, WEIGHT, batch, change, item, single
from architecture.printed_formula import evaluate
from hangpoint.api.routes.hang_points import BATCH_PATH
from hangpoint.core.hanger.run_reaction import BY_MODEL
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Axis, Record, columns
from hangpoint.core.vocabulary import (
    CAUTIONS,
    EN_MODES,
    MASONRY_MODES,
    TABLE_MODES,
    Assumption,
    Finding,
    Inapplicable,
    Mode,
    NotChecked,
    Refusal,
)
from hangpoint.units import PRINTED

SPRINKLER = item(hangs__sprinkler=True, rod__size="3/8", hangs__run__point_loads=[{"at": "4 ft", "weight": "60 lb"}])
HEADED = item(
    anchor={"family": "headed-bolt", "size": "1/2", "h_ef": "4 in"},
    base__edges__x_plus="1.5 in",
    base__edges__y_minus="5 in",
    base__thickness="7 in",
)
UNCRACKED = item(
    base__state="uncracked",
    base__state_decided_by="engineer of record",
    base__density="sand_lightweight",
    base__edges__y_plus="4 in",
    rod={"size": "1/2", "rule": "tensile_strength"},
    base__supplementary=True,
)
SUPPLIED = item(anchor={"product": INLINE}, base__edges__x_plus="3.5 in")
POINTS = [SINGLE_JSON["item"], SPRINKLER, HEADED, UNCRACKED, SUPPLIED, item(hangs=FORCES), item(hangs=WEIGHT)]
INFINITE = "none"


def alike(one, other):
    """The same modes apply, with utilisations that agree to 1e-12."""
    assert [mode["mode"] for mode in one] == [mode["mode"] for mode in other]
    for a, b in zip(one, other, strict=True):
        assert a.get("utilisation", -1) == pytest.approx(b.get("utilisation", -1), rel=1e-12, abs=0)


def record_classes(cls=Record):
    for sub in cls.__subclasses__():
        yield sub
        yield from record_classes(sub)


TRAILING = {Axis.EDGE: EDGES, Axis.MODEL: BY_MODEL, Axis.NATURE: TRANSIENT}


def as_column(line, q):
    """The value of a trace line as one row; a word is infinite, or has its code beside it."""
    value = line["value"]
    if isinstance(value, dict):
        assert list(value) == list(TRAILING[q.axis])
        return np.array([[math.inf if each == INFINITE else each for each in value.values()]])
    if "code" in line:
        assert q.labels[line["code"]] == value
        return np.array([line["code"]], dtype=np.int8)
    if isinstance(value, str):
        assert value == q.infinite
        value = math.inf
    return np.array([value])


def recalculated(section):
    """Printed formulas of a section that were evaluated from its printed values; each must give its own value."""
    (cls,) = {sub for sub in record_classes() if sub.__name__ == section["record"]}
    known = columns(cls)
    values = {line["name"]: as_column(line, known[line["name"]]) for line in section["lines"]}
    done = 0
    for line in section["lines"]:
        assert line.get("when", "") == known[line["name"]].when
        if "when" in line:
            assert values[line["when"]].tolist() == [True]
        if line["kind"] != "formula":
            continue
        names = {node.id for node in ast.walk(ast.parse(line["formula"])) if isinstance(node, ast.Name)}
        unprinted = {name: np.array([math.nan]) for name in names & (known.keys() - values.keys())}
        result = evaluate(line["formula"], values | unprinted, np.array([True]))
        expected = values[line["name"]]
        np.testing.assert_allclose(
            np.broadcast_to(result, expected.shape).astype(float),
            expected.astype(float),
            rtol=1e-12,
            atol=0,
            err_msg=f"{section['record']}.{line['name']}",
        )
        done += 1
    return done


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("point", POINTS, ids=lambda point: point["anchor"].get("family", "inline"))
def test_a_trace_can_be_recalculated_from_the_answer(send_one, point, system):
    """The trace is in the units of the code also where the request is in SI."""
    result = send_one({"units": system, "detail": "trace", "item": point}, status=200)["items"][0]
    assert sum(recalculated(section) for section in result["trace"]) > 8
    applied = {mode["mode"]: mode for mode in result["modes"] if mode["applies"]}
    traced = {section["mode"]: section for section in result["trace"] if "mode" in section}
    assert traced.keys() == applied.keys()
    for name, section in traced.items():
        last = section["lines"][-3:]
        assert [line["name"] for line in last] == ["design_strength", "demand", "utilisation"]
        assert last[2]["value"] == applied[name]["utilisation"]
        assert {line["unit"] for line in section["lines"]} <= {"", "in", "in2", "in3", "lbf", "psi", "lbf/ft", "ft"}
        factor = {"lbf": 1.0, "in": 1.0} if system == "us" else {"lbf": 0.45359237 * 9.80665 / 1000, "in": 25.4}
        assert ("converted" in section) == (system == "si")
        for line, key in zip(last[:2], ("design_strength", "demand"), strict=True):
            expected = line["value"] * factor[line["unit"]]
            assert applied[name][key] == pytest.approx(expected, rel=1e-12, abs=0)
            if system == "si":
                assert section["converted"][key] == pytest.approx(expected, rel=1e-12, abs=0)


def test_choices_and_conditions_are_traced(send):
    """At least one line of each kind, so that what is said of them above is said of something."""
    lines = [
        line
        for result in send(batch(*POINTS, detail="trace"), status=200)["items"]
        for section in result["trace"]
        for line in section["lines"]
    ]
    assert any("when" in line for line in lines)
    formulas = " ".join(line.get("formula", "") for line in lines)
    compared = {line["name"] for line in lines if "code" in line and f"{line['name']} == " in formulas}
    assert "method" in compared


def test_the_recalculation_finds_a_wrong_number(send_one):
    section = send_one(SINGLE_JSON)["items"][0]["trace"][0]
    line = next(line for line in section["lines"] if line["kind"] == "formula" and line["value"])
    line["value"] *= 1 + 1e-9
    with pytest.raises(AssertionError):
        recalculated(section)


@pytest.mark.parametrize("point", POINTS, ids=lambda point: point["anchor"].get("family", "inline"))
def test_si_and_us_answers_agree(send_one, point):
    """Texts with units, so both requests ask the same; forces differ by the factor of NIST SP 811, the rest not."""
    if point["hangs"]["kind"] != "pipe":
        point = change(point, {"hangs": {"kind": "weight", "weight": "400 lb", "nature": "live"}})
    us = send_one({"units": "us", "item": point}, status=200)
    si = send_one({"units": "si", "item": point}, status=200)
    newton = 0.45359237 * 9.80665
    a, b = us["items"][0], si["items"][0]
    assert a["status"] == b["status"]
    for name, value in a["demand"].items():
        if isinstance(value, str):
            assert b["demand"][name] == value
        else:
            assert b["demand"][name] * 1000 == pytest.approx(value * newton, rel=1e-12, abs=0)
    alike(a["modes"], b["modes"])
    for one, other in zip(a["findings"], b["findings"], strict=True):
        assert one["code"] == other["code"]
        if one.get("quantity") == "length":
            assert other["value"] == pytest.approx(one["value"] * 25.4, rel=1e-12, abs=0)
    assert a["governing"]["mode"] == b["governing"]["mode"]
    assert (us["units"], si["units"]) == (PRINTED["us"], PRINTED["si"])
    assert us["request_digest"] != si["request_digest"]


def test_bare_numbers_in_si(send_one):
    """The single example with every quantity converted to a bare SI number: 1 in = 25.4 mm, 1 ft = 0.3048 m."""
    metric = single(
        at={"level": "L2", "x": 42.5 * 0.3048, "y": 18 * 0.3048},
        hangs__run__spans=[3.048, 3.048, 8 * 0.3048],
        anchor__h_ef=82.55,
        base__strength__f_c=4000 * 0.45359237 * 9.80665 / 0.0254**2 / 1e6,
        base__thickness=203.2,
        base__edges__x_plus=304.8,
    ) | {"units": "si"}
    a = send_one(SINGLE_JSON, status=200)["items"][0]
    b = send_one(metric, status=200)["items"][0]
    assert (a["status"], a["findings"]) == (b["status"], b["findings"])
    alike(a["modes"], b["modes"])


@pytest.mark.parametrize(
    "changes",
    [
        {"base.edges.x_plus": ("2.75 in", "69.85 mm")},
        {"base.edges.x_plus": ("2-3/4 in", "6.985 cm")},
        {"base.thickness": ("6 in", "152.4 mm"), "base.edges.x_plus": ("12 in", "304.8 mm")},
        {"hangs.run.spans": (["14 ft", "14 ft"], ["4.2672 m", "4.2672 m"])},
    ],
)
def test_a_limit_met_exactly_is_met_in_every_unit(send_one, changes):
    """c_min and h_min of the catalogue; 14 ft is the largest spacing of the named rule for this pipe (MSS SP-58)."""
    for place in (0, 1):
        body = single(**{path.replace(".", "__"): texts[place] for path, texts in changes.items()})
        result = send_one(body, status=200)["items"][0]
        thin = {"drilled-beyond-half"} if "base.thickness" in changes else set()  # a hole of 4 in, a slab of 6 in
        assert {finding["code"] for finding in result["findings"]} == thin


def test_a_limit_missed_by_a_hair_is_missed(send_one):
    for changes, code in [
        ({"base__edges__x_plus": "2.7499 in"}, ["edge-below-minimum"]),
        ({"base__thickness": "152.39 mm"}, ["thickness-below-minimum", "drilled-beyond-half"]),
        ({"hangs__run__spans": ["14.001 ft", "14 ft"]}, ["hanger-spacing-exceeded"]),
    ]:
        result = send_one(single(**changes), status=200)["items"][0]
        assert [finding["code"] for finding in result["findings"]] == code


def test_same_bytes_twice(client):
    first, second = (client.post(BATCH_PATH, json={**BATCH_JSON, "detail": "trace"}) for _ in range(2))
    assert first.content == second.content


def test_key_order_changes_nothing(send_one):
    def shuffled(value):
        if isinstance(value, dict):
            names = list(value)
            random.Random(3).shuffle(names)
            return {name: shuffled(value[name]) for name in names}
        return value

    assert json.dumps(shuffled(SINGLE_JSON)) != json.dumps(SINGLE_JSON)
    assert send_one(shuffled(SINGLE_JSON)) == send_one(SINGLE_JSON)


CHANGES = [
    {"units": "si"},
    {"design_code": "en1992_4", "item.base.strength": {"class": "C25/30"}},
    {"design_code": "en1992_4", "item.base.strength": {"class": "C30/37"}},
    {"combinations": "allowable"},
    {"detail": "modes"},
    {"item.id": "other"},
    {"item.trade": "heating"},
    {"item.tags": ["x"]},
    {"item.at.level": "L3"},
    {"item.at.x": "42'-7\""},
    {"item.hangs.material": "stainless", "item.hangs.schedule": "40S"},
    {"item.hangs.size": "3"},
    {"item.hangs.schedule": "80"},
    {"item.hangs.contents": "empty"},
    {"item.hangs.allowance": 0.1},
    {"item.hangs.insulation": {"thickness": "1 in", "density": 4}},
    {"item.hangs.run.spans": ["10 ft", "10 ft", "8.1 ft"]},
    {"item.hangs.run.support": 2},
    {"item.hangs.run.model": "tributary"},
    {"item.hangs.run.point_loads": [{"at": 3, "weight": 9}]},
    {"item.hangs.run.missing_support": 2},
    {"item.hangs.run.spacing_rule": "b31_1_water"},
    {"item.hangs.run.spacing_rule": GONE},
    {"item.rod.size": "5/8"},
    {"item.rod.rule": "tensile_strength"},
    {"item.anchor.h_ef": "2 in"},
    {"item.anchor.size": "3/8", "item.anchor.h_ef": "2.5 in"},
    {"item.anchor.layout": [{"x": 0, "y": -2}, {"x": 0, "y": 2}]},
    {"item.anchor.layout": [{"x": 0, "y": -2}, {"x": 0, "y": 2, "resists": "x"}]},
    {"item.anchor.layout": {"pattern": "row", "count": 2, "spacing": 3}},
    {"item.anchor.layout": {"pattern": "row", "count": 2, "spacing": 3}, "item.options.group_area": "rectangle"},
    {"item.attachment.plate": {"width_x": 5, "width_y": 5}},
    {"item.attachment.plate": {"width_x": 5, "width_y": 6}},
    {"item.attachment.plate": {"width_x": 5, "width_y": 5, "support": "free"}},
    {"item.base.strength.f_c": "4001 psi"},
    {"item.base.density": "all_lightweight"},
    {"item.base.density": "sand_lightweight"},
    {"item.base.density": "sand_lightweight", "item.base.lambda": 0.9},
    {"item.base.state": "uncracked", "item.base.state_decided_by": "engineer"},
    {"item.base.thickness": "8.001 in"},
    {"item.base.member": "B-1"},
    {"item.base.edges.x_plus": "12.001 in"},
    {"item.base.edges.y_minus": "90 in"},
    {"item.base.supplementary": True},
    {"item.base.face": "side"},
    {"item.seismic.category": "C"},
]


def test_the_digest_changes_with_every_input(send_one):
    digests = [send_one(change(SINGLE_JSON, each), status=200)["request_digest"] for each in [{}, *CHANGES]]
    assert len(set(digests)) == len(digests)
    assert all(len(each) == 64 for each in digests)


def test_two_deciders_are_two_requests(send_one):
    digests = {
        send_one(single(base__state="uncracked", base__state_decided_by=who), status=200)["request_digest"]
        for who in ("engineer of record", "foreman")
    }
    assert len(digests) == 2


def digest_of(send, **body):
    return send({"units": "us", "items": [{"id": "a"}], **body}, status=200)["request_digest"]


def leaves(value, path=()):
    """Every place of an item that holds no object, and its value."""
    if isinstance(value, dict):
        return [pair for key, inner in value.items() for pair in leaves(inner, (*path, key))]
    return [(path, value)]


FULL = change(
    SINGLE_JSON["item"],
    {
        "id": GONE,
        "at.z": -1.5,
        "tags": ["a", "b"],
        "base.member": "slab 2",
        "base.state": "uncracked",
        "base.state_decided_by": "engineer of record",
        "hangs.insulation": {"thickness": "1 in", "density": 4},
    },
)


@pytest.mark.parametrize("place", [path for path, _ in leaves(FULL)], ids=".".join)
def test_a_value_by_default_or_in_the_item_is_one_request(send, place):
    """One place in the item, everything else in the defaults; and the other way round."""
    own = {}
    for at, key in enumerate(place[:-1]):
        parent = own
        for part in place[:at]:
            parent = parent[part]
        parent[key] = {}
    by_path = dict(leaves(FULL))
    inner = own
    for part in place[:-1]:
        inner = inner[part]
    inner[place[-1]] = by_path[place]
    if place[0] == "hangs":
        own["hangs"]["kind"] = "pipe"
    dotted = ".".join(place)
    kind_stays = dotted == "hangs.kind"
    without = FULL if kind_stays else change(FULL, {dotted: GONE})
    whole = digest_of(send, items=[{"id": "a", **FULL}])
    assert digest_of(send, items=[{"id": "a", **own}], defaults=without) == whole
    assert digest_of(send, defaults=FULL) == whole
    changed = {"id": "a", **change(FULL, {"base.member": "slab 3"})}
    assert digest_of(send, items=[changed]) != whole


def test_a_default_that_no_item_takes_is_no_part_of_the_request(send):
    whole = digest_of(send, items=[{"id": "a", **FULL}])
    assert digest_of(send, items=[{"id": "a", **FULL}], defaults={"trade": "other", "at": {"level": "L9"}}) == whole
    weight = {"id": "a", **FULL, "hangs": WEIGHT}
    other_kind = digest_of(send, items=[weight], defaults={"hangs": FULL["hangs"]})
    assert digest_of(send, items=[weight]) == other_kind


def test_a_coordinate_in_two_units_is_one_request(send):
    spelled = [
        digest_of(send, items=[{"id": "a", **change(FULL, {"at.x": x})}]) for x in (5, 5.0, "5 ft", "60 in", "5'-0\"")
    ]
    assert len(set(spelled)) == 1
    assert digest_of(send, items=[{"id": "a", **change(FULL, {"at.x": "5.01 ft"})}]) != spelled[0]


def test_what_is_taken_where_the_request_is_silent_is_one_request(send):
    plain = digest_of(send, defaults=FULL)
    assert digest_of(send, defaults=FULL, combinations="strength") == plain
    assert digest_of(send, defaults=FULL, design_code="aci318_19") == plain
    assert digest_of(send, defaults=FULL, combinations="allowable") != plain


def test_an_inline_product_by_default_or_in_the_item_is_one_request(send):
    by_default = change(FULL, {"anchor": {"product": INLINE}})
    inline = digest_of(send, defaults=by_default)
    assert digest_of(send, defaults=FULL, items=[{"id": "a", "anchor": {"product": INLINE}}]) == inline
    other = change(INLINE, {"embedment.c_ac": 6.5})
    assert digest_of(send, defaults=FULL, items=[{"id": "a", "anchor": {"product": other}}]) != inline
    named = digest_of(send, defaults=FULL)
    assert digest_of(send, defaults=by_default, items=[{"id": "a", "anchor": FULL["anchor"]}]) == named


def test_an_invalid_item_counts_with_its_defaults_and_its_place(send):
    bad = change(FULL, {"base.thickness": "8 psi"})
    whole = digest_of(send, items=[{"id": "a", **bad}, {"id": "b", **FULL}])
    own = {"id": "a", "base": {"thickness": "8 psi"}}
    assert digest_of(send, items=[own, {"id": "b"}], defaults=FULL) == whole
    assert digest_of(send, items=[{"id": "b"}, own], defaults=FULL) != whole
    assert digest_of(send, items=[change(own, {"trade": "x"}), {"id": "b"}], defaults=FULL) != whole


def test_who_decided_that_concrete_is_uncracked_is_printed(send):
    uncracked = {"state": "uncracked", "state_decided_by": "engineer of record"}
    items = [
        {"id": "a", "at": {"x": 0}},
        {"id": "b", "at": {"x": 10}, "base": {"state_decided_by": "testing agency"}},
        {"id": "c", "at": {"x": 20}, "base": {"state": "cracked"}},
        {"id": "d", "at": {"x": 30}, "hangs": change(FORCES, {"components.0.tension": -1})},
    ]
    defaults = change(ALL, {f"base.{name}": value for name, value in uncracked.items()})
    results = send({"units": "us", "defaults": defaults, "items": items}, status=200)["items"]
    assert [each.get("state_decided_by") for each in results] == [
        "engineer of record",
        "testing agency",
        None,
        "engineer of record",
    ]
    assert [each["status"] for each in results] == ["passed", "passed", "passed", "refused"]


def test_one_length_in_two_units_is_one_request(send_one):
    spelled = [send_one(single(base__thickness=text))["request_digest"] for text in ("8 in", 8, "203.2 mm", "0'-8\"")]
    assert len(set(spelled)) == 1


def test_codes_are_of_the_closed_lists(send):
    """Every code that the points of this module, and some that fail and are refused, bring up."""
    points = [
        *POINTS,
        item(base__edges__x_plus="1 in", base__thickness="4 in"),
        item(hangs=change(FORCES, {"components.0.shear_x": 5})),
        item(hangs=change(FORCES, {"components.0.tension": 0})),
        item(base__strength__f_c="12000 psi", seismic__category="D"),
        item(hangs__run__spans=["40 ft", "40 ft"], rod=GONE),
    ]
    answer = send(batch(*points, detail="trace"), status=200)
    codes = {
        "assumptions": {member.value.code for member in Assumption},
        "not_checked": {member.value.code for member in NotChecked},
    }
    findings = {member.value.code: member.value for member in Finding}
    refusals = {member.value.code: member.value for member in Refusal}
    modes = {member.value.code: member for member in Mode}
    reasons = {member.value.code for member in Inapplicable}
    seen = set()
    for result in answer["items"]:
        for name, known in codes.items():
            assert set(result[name]) <= known
            assert set(result[name]) <= answer[name].keys()
        for finding in result["findings"]:
            entry = findings[finding["code"]]
            assert (finding["text"], finding["clause"]) == (entry.text, entry.clause)
            seen.add(entry.code)
        if result["status"] == "refused":
            entry = refusals[result["reason"]["code"]]
            assert (result["reason"]["text"], result["reason"]["clause"]) == (entry.text, entry.clause)
            seen.add(entry.code)
        for mode in result["modes"]:
            assert mode["mode"] in modes
            assert mode["applies"] or mode["reason"] in reasons
    assert len(seen) > 4
    assert answer["cautions"] == list(CAUTIONS)


def test_detail(send):
    """Each level has what the lower one has, and more."""
    verdict, modes, trace = (
        send({**BATCH_JSON, "detail": detail}, status=200)["items"] for detail in ("verdict", "modes", "trace")
    )
    for a, b, c in zip(verdict, modes, trace, strict=True):
        assert b.keys() - a.keys() == {"modes", "links"}
        assert c.keys() - b.keys() == {"trace"}
        assert {**a, "modes": b["modes"], "links": b["links"]} == b
        assert {**b, "trace": c["trace"]} == c
        assert [mode["mode"] for mode in b["modes"]] == [
            mode.value.code for mode in Mode if mode not in TABLE_MODES | MASONRY_MODES | EN_MODES
        ]
        assert [link["link"] for link in b["links"]] == ["load", "rod", "anchor", "base"]
        applied = [mode["utilisation"] for mode in b["modes"] if mode["applies"]]
        assert a["governing"]["utilisation"] == max(applied)
        assert all("utilisation" not in mode and "demand" not in mode for mode in b["modes"] if not mode["applies"])


def test_the_detail_of_each_address(send, send_one):
    assert "trace" in send_one(SINGLE_JSON)["items"][0]
    plain = {name: value for name, value in BATCH_JSON.items() if name != "detail"}
    assert "modes" in send(plain)["items"][0]
    assert "trace" not in send(plain)["items"][0]
    assert "modes" not in send(plain, BATCH_PATH + "?detail=verdict")["items"][0]
    assert "modes" in send(BATCH_JSON, BATCH_PATH + "?detail=verdict")["items"][0]


@pytest.mark.parametrize("point", POINTS, ids=lambda point: point["anchor"].get("family", "inline"))
def test_one_point_alone_and_in_a_batch(send, send_one, point):
    alone = send_one({"units": "us", "item": point}, status=200)["items"][0]
    together = send(batch(*POINTS, point, detail="trace", neighbours="off"), status=200)["items"][-1]
    assert {**together, "id": alone["id"], "index": 0} == alone


def merged(send, defaults, *items):
    return send({"units": "us", "detail": "modes", "defaults": defaults, "items": list(items)}, status=200)["items"]


def whole(send, *items):
    return send({"units": "us", "detail": "modes", "items": list(items)}, status=200)["items"]


ALL = {name: value for name, value in SINGLE_JSON["item"].items() if name != "id"}


def test_defaults_merge_key_by_key(send):
    own = {"id": "a", "base": {"edges": {"x_minus": "5 in"}}, "rod": {"rule": "tensile_strength"}}
    expected = item(id="a", base__edges__x_minus="5 in", rod__rule="tensile_strength")
    assert merged(send, ALL, own) == whole(send, expected)


def test_a_list_replaces_the_default_whole(send):
    own = {"id": "a", "hangs": {"kind": "pipe", "run": {"spans": ["6 ft", "6 ft"]}}}
    assert merged(send, ALL, own) == whole(send, item(id="a", hangs__run__spans=["6 ft", "6 ft"]))


def test_another_kind_takes_nothing_of_the_default(send):
    other = {"id": "b", "at": {"x": 0}, "hangs": {"kind": "weight", "weight": 3}}
    results = merged(send, ALL, {"id": "a", "hangs": WEIGHT}, other)
    assert results[0] == whole(send, item(id="a", hangs=WEIGHT))[0]
    assert [error["pointer"] for error in results[1]["problem"]["errors"]] == ["#/items/1/hangs/nature"]


def test_an_item_that_repeats_its_defaults_says_the_same(send):
    assert merged(send, ALL, {"id": "a"}) == merged(send, ALL, {**ALL, "id": "a"}) == whole(send, {**ALL, "id": "a"})


def test_a_product_inline_and_by_name(send):
    """The item's own choice stands before that of the defaults, either way round."""
    by_name = merged(send, {**ALL, "anchor": {"product": INLINE}}, {"id": "a", "anchor": ALL["anchor"]})
    assert by_name == whole(send, {**ALL, "id": "a"})
    inline = merged(send, ALL, {"id": "a", "anchor": {"product": INLINE}})
    assert inline[0]["product"] == {"address": "inline", "data": "supplied"}
    assert inline == whole(send, {**ALL, "id": "a", "anchor": {"product": INLINE}})


def test_the_summary_counts_what_governs(send):
    answer = send(batch(*POINTS), status=200)
    counts = {}
    for result in answer["items"]:
        counts[result["governing"]["mode"]] = counts.get(result["governing"]["mode"], 0) + 1
    assert answer["summary"]["governing"] == counts
    passed = [each["on_assumptions"] for each in answer["items"] if each["status"] == "passed"]
    assert answer["summary"]["passed_on_assumptions"] == sum(passed)


def test_supplied_data_without_a_source_fail(send_one):
    result = send_one(single(anchor={"product": change(INLINE, {"source": GONE})}), status=200)["items"][0]
    assert result["status"] == "failed"
    assert "supplied-without-source" in {finding["code"] for finding in result["findings"]}


def test_an_answer_names_what_made_it(send_one, client):
    answer = send_one(SINGLE_JSON)
    version = client.get("/version").json()
    assert answer["engine_version"] == version["engine_version"]
    assert answer["catalogue"] == version["catalogue"] == client.get("/v1/families").json()["catalogue"]
    assert answer["design_code"]["id"] == "aci318_19"
    assert "ACI 318-19" in answer["design_code"]["edition"]


def test_a_callers_trace_goes_on(client):
    trace = "0af7651916cd43dd8448eb211c80319c"
    response = client.get("/nope", headers={"traceparent": f"00-{trace}-b7ad6b7169203331-01"})
    assert response.json()["trace_id"] == trace
    for odd in ("00-xyz-1-01", "", f"00-{'0' * 32}-b7ad6b7169203331-01"):
        assert client.get("/nope", headers={"traceparent": odd}).json()["trace_id"] not in odd.split("-")
