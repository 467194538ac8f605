"""The open questions of an incomplete hang point: their order, what is taken, what the answers may be."""

import copy
import json
import random
from pathlib import Path

import pytest

from api.bodies import GONE, WEIGHT, change, item
from hangpoint.api.csv_columns import columns
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.core.vocabulary import Asked, Assumption, IfSilent, NotChecked, Question, Refusal

PATH = "/v1/base-interviews"
KNOWN = item(hangs=WEIGHT)
DECK = {"flute": "lower", "flute_width": 4.5, "offset": 0, "cover": 3.25, "sheet": 0.0359}


@pytest.fixture
def ask(client, validator):
    def send(known, units="us"):
        response = client.post(PATH, json={"units": units, "item": known})
        assert response.status_code == 200, response.text
        answer = response.json()
        validator("BaseInterviewAnswer").validate(answer)
        return answer

    return send


def fields(answer):
    return [each["field"].removeprefix("#/item/") for each in answer["questions"]]


def test_the_first_question_is_what_carries_the_anchor(ask):
    """Of nothing: kind, tendons, thickness, strength and density before edges; the rod last. Common practice."""
    answer = ask({})
    found = fields(answer)
    assert found[:2] == ["base/kind", "base/post_tensioned"]
    order = [found.index(each) for each in ("base/thickness", "base/strength/f_c", "base/edges/x_minus", "rod/size")]
    assert order == sorted(order)
    assert found[-1] == "rod/size"
    assert not answer["enough"]
    assert answer["answered"] == answer["refused"] == answer["to_engineer"] == []


def test_what_is_answered_is_not_asked_again(ask):
    """Every question is answered or open, none both."""
    found = ask({"base": {"kind": "concrete", "thickness": "8 in"}, "seismic": {"category": "B"}})
    assert {"#/item/base/kind", "#/item/base/thickness", "#/item/seismic/category"} == set(found["answered"])
    assert not {"base/kind", "base/thickness", "seismic/category"} & set(fields(found))


@pytest.mark.parametrize(
    ("known", "asked", "not_asked"),
    [
        ({"base": {"kind": "deck"}}, "base/deck/flute", "base/post_tensioned"),
        ({"base": {"kind": "concrete"}}, "base/post_tensioned", "base/deck/flute"),
        ({"base": {"kind": "concrete", "post_tensioned": "yes"}}, "base/scanned", "base/scanned_by"),
        ({"base": {"kind": "concrete", "post_tensioned": "no"}}, "base/thickness", "base/scanned"),
        (
            {"base": {"kind": "concrete", "post_tensioned": "unknown", "scanned": True}},
            "base/scanned_by",
            "base/scanned",
        ),
        ({"base": {"kind": "concrete", "state": "uncracked"}}, "base/state_decided_by", "base/state"),
        ({"base": {"kind": "concrete", "state": "cracked"}}, "base/thickness", "base/state_decided_by"),
        ({"hangs": {"kind": "pipe"}}, "hangs/sprinkler", "hangs/kind"),
        ({"hangs": {"kind": "weight"}}, "base/kind", "hangs/sprinkler"),
        ({"base": {"kind": "steel"}}, "rod/size", "base/thickness"),
        ({"base": {"kind": "concrete"}, "anchor": {"family": "headed-bolt"}}, "anchor/family", "base/kind"),
        (
            {"base": {"kind": "concrete"}, "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 4}},
            "base/density",
            "anchor/family",
        ),
    ],
)
def test_questions_follow_from_answers(ask, known, asked, not_asked):
    found = fields(ask(known))
    assert asked in found
    assert not_asked not in found


@pytest.mark.parametrize(
    ("base", "refused"),
    [
        ({"kind": "steel"}, "base-of-steel"),
        ({"kind": "wood"}, "base-of-wood"),
        ({"kind": "unknown"}, "base-unknown"),
        ({"kind": "concrete", "part": "topping"}, "topping-bond"),
        ({"kind": "concrete", "post_tensioned": "unknown"}, "post-tensioned-not-scanned"),
        ({"kind": "concrete", "post_tensioned": "yes", "scanned": False}, "post-tensioned-not-scanned"),
        ({"kind": "concrete", "post_tensioned": "yes", "scanned": True, "scanned_by": "Invented Scans"}, None),
        ({"kind": "concrete", "post_tensioned": "no"}, None),
        ({"kind": "deck", "deck": DECK}, None),
    ],
)
def test_what_is_decided_already_is_what_a_check_decides(ask, client, base, refused):
    """The same base in a whole point is refused by the same code, with the same question to the engineer."""
    answer = ask({"base": base})
    assert [each["code"] for each in answer["refused"]] == ([refused] if refused else [])
    whole = change(KNOWN, {"base": _fitting(base)})
    wedge = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}
    result = client.post("/v1/hang-point", json={"units": "us", "item": whole | {"anchor": wedge}}).json()["items"][0]
    assert result.get("reason", {}).get("code") == refused
    if refused:
        assert answer["to_engineer"] == result["to_engineer"]


def _fitting(base):
    """The known base with what the kind of another can't have left out."""
    if base["kind"] in ("concrete", "deck"):
        return KNOWN["base"] | base
    return base


def test_what_holds_by_tables_goes_to_the_engineer(ask):
    for kind in ("masonry", "hollow_core"):
        answer = ask({"base": {"kind": kind}})
        assert [each["code"] for each in answer["to_engineer"]] == ["base-by-tables"]
        assert f"base/{kind}/location" in fields(answer)
        assert "base/density" not in fields(answer)


MASONRY = {
    "kind": "masonry",
    "masonry": {"units": "grouted", "material": "concrete", "f_m": 1500, "location": "face", "joint_distance": 4},
    "thickness": 7.625,
    "edges": KNOWN["base"]["edges"],
}
PLANK = {
    "kind": "hollow_core",
    "hollow_core": {"location": "core", "cover": 1.5, "strand_distance": 3},
    "thickness": 8,
    "edges": KNOWN["base"]["edges"],
}
SLEEVE = {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": 1.25}
SHORT = {"family": "drop-in-short-zinc", "size": "3/8", "h_ef": 0.75}
BOLT = {"family": "headed-bolt", "size": "1/2", "h_ef": 4}
WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}
HOLLOW = {"units": "hollow", "material": "concrete", "face_shell": 1.25, "joint_distance": 4}
JOINT, SHELL = "base/masonry/joint_distance", "base/masonry/face_shell"
COVER, STRAND = "base/hollow_core/cover", "base/hollow_core/strand_distance"
FORCES = {"kind": "forces", "components": [{"nature": "dead", "tension": 100}]}


@pytest.mark.parametrize("question", Question, ids=lambda each: each.value.field)
def test_what_is_taken_is_what_a_check_takes(client, question):
    """Leave out one answer: the check assumes it, refuses, leaves it unchecked, or is invalid, as the question says."""
    asking = question.value
    whole = KNOWN
    if asking.asked is Asked.DECK:
        whole = change(KNOWN, {"base.kind": "deck", "base.deck": DECK, "base.density": "sand_lightweight"})
    if asking.asked in (Asked.TENSIONED, Asked.SCANNED):
        told = {"base.post_tensioned": "yes", "base.scanned": True, "base.scanned_by": "x"}
        whole = change(KNOWN, told)
    if asking.asked is Asked.UNCRACKED:
        whole = change(KNOWN, {"base.state": "uncracked", "base.state_decided_by": "x"})
    if asking.asked in (Asked.MASONRY, Asked.GROUTED):
        whole = change(KNOWN, {"base": MASONRY, "anchor": SLEEVE})
    if asking.asked is Asked.HOLLOW_CORE:
        whole = change(KNOWN, {"base": PLANK})
    if asking.asked is Asked.BOLT:
        whole = change(KNOWN, {"base": MASONRY, "anchor": BOLT, "hangs": FORCES})
    if asking.asked is Asked.TABLES:
        hollow = change(MASONRY, {"masonry": HOLLOW})
        base, anchor = (hollow, SLEEVE) if "masonry" in asking.field else (PLANK, SHORT)
        whole = change(KNOWN, {"base": base, "anchor": anchor, "hangs": FORCES})
        assert client.post("/v1/hang-point", json={"units": "us", "item": whole}).status_code == 200
    if asking.asked is Asked.PIPE:
        whole = item()
    if asking.asked is Asked.SIDE:
        placed = {"at": {"level": "1", "x": 1, "y": 2, "z": 3}, "base.face": "side", "base.facing": 90}
        whole = change(KNOWN, {**placed, "hangs": FORCES})
    path = {"hangs.kind": "hangs", "anchor.family": "anchor"}.get(asking.field, asking.field)
    silent = change(whole, {path: 0})
    silent = change(silent, {path: GONE})
    if asking.field == "base.scanned":
        silent = change(silent, {"base.scanned_by": GONE})
    response = client.post("/v1/hang-point", json={"units": "us", "item": silent})
    if asking.if_silent is IfSilent.INVALID:
        assert response.status_code == 422
        assert any(each["pointer"].startswith(f"#/item/{path.replace('.', '/')}") for each in response.json()["errors"])
        return
    assert response.status_code == 200, response.text
    result = response.json()["items"][0]
    if asking.taken is None:
        assert len(asking.text) > 10
    elif asking.if_silent is IfSilent.REFUSED:
        assert result["reason"]["code"] == asking.taken.value.code
    elif asking.if_silent is IfSilent.ASSUMED:
        assert asking.taken.value.code in result["assumptions"]
    else:
        assert asking.taken.value.code in result["not_checked"]


def test_codes_are_of_the_list_that_the_outcome_names():
    lists = {IfSilent.ASSUMED: Assumption, IfSilent.REFUSED: Refusal, IfSilent.NOT_CHECKED: NotChecked}
    for question in Question:
        asking = question.value
        assert asking.field in columns()
        assert asking.question.endswith("?")
        assert asking.taken is not None or asking.text
        if asking.taken is not None:
            assert isinstance(asking.taken, lists[asking.if_silent])


def test_the_answers_that_are_allowed(ask):
    found = {each["field"]: each for each in ask({"base": {"kind": "deck"}})["questions"]}
    assert found["#/item/base/deck/flute"]["allowed"] == ["upper", "lower"]
    assert found["#/item/base/edges/x_plus"]["allowed"] == ["none"]
    assert found["#/item/base/edges/x_plus"]["quantity"]["unit"] == "in"
    assert found["#/item/base/existing"]["answer"] == "boolean"
    assert found["#/item/base/age_days"]["answer"] == "number"
    si = {each["field"]: each for each in ask({}, "si")["questions"]}
    assert si["#/item/base/strength/f_c"]["quantity"]["unit"] == "MPa"


def test_enough_is_enough(ask, client):
    """A point that answers all that is needed can be checked; one answer less, and it can't."""
    answer = ask(KNOWN)
    assert answer["enough"]
    assert client.post("/v1/hang-point", json={"units": "us", "item": KNOWN}).status_code == 200
    less = change(KNOWN, {"base.density": GONE})
    assert not ask(less)["enough"]
    assert client.post("/v1/hang-point", json={"units": "us", "item": less}).status_code == 422


@pytest.mark.parametrize(
    ("kind", "place", "anchor", "asked"),
    [
        ("masonry", {}, {}, {JOINT, SHELL}),
        ("masonry", {"units": "grouted"}, {}, {JOINT}),
        ("masonry", {"units": "hollow"}, SLEEVE, {JOINT, SHELL}),
        ("masonry", {"units": "hollow", "location": "web"}, SLEEVE, set()),
        ("masonry", {"units": "grouted", "material": "concrete", "location": "web"}, SLEEVE, {JOINT}),
        ("masonry", {"units": "grouted", "material": "clay"}, SLEEVE, set()),
        ("masonry", {"units": "solid", "material": "clay"}, {**SLEEVE, "h_ef": 1.75}, {JOINT}),
        ("masonry", {}, WEDGE, set()),
        ("hollow_core", {}, {}, {COVER, STRAND}),
        ("hollow_core", {"location": "web"}, SHORT, {COVER, STRAND}),
        ("hollow_core", {}, WEDGE, set()),
        ("concrete", {}, SHORT, set()),
        ("deck", {}, {}, set()),
    ],
)
def test_what_tables_limit_is_asked(ask, kind, place, anchor, asked):
    """By the tables of the family files: joints in every masonry, shells of hollow units in the face, cover and strand
    of planks; of a product that has no table there, nothing."""
    stated = {kind: place} if place else {}
    found = ask({"base": {"kind": kind, **stated}, "anchor": anchor})
    open_ = {each["field"].removeprefix("#/item/"): each for each in found["questions"]}
    assert {JOINT, SHELL, COVER, STRAND} & set(open_) == asked
    for each in asked:
        assert open_[each]["answer"] == "quantity"
        assert open_[each]["allowed"] == ["none"]
        assert open_[each]["if_silent"]["outcome"] == "invalid"


def test_a_product_of_the_request_has_tables_of_its_own(ask):
    tables = [
        {
            "title": "Invented",
            "base": "masonry",
            "masonry": "grouted",
            "material": "concrete",
            "f_c": 1500,
            "direction": "tension",
            "state": "uncracked",
            "safety_factor": 5,
            "locations": ["face"],
            **limit,
            "rows": [
                {
                    "size": "3/8",
                    "h_ef": 2,
                    "allowable": 300,
                    "mean_ultimate": 1500,
                    "edge": {"least": 4},
                    "spacing": {"least": 8},
                }
            ],
        }
        for limit in ({}, {"least_face_shell": 1.5})
    ]
    product = {
        "principle": "torque_controlled_expansion",
        "basis": "allowable_table",
        "units": "us",
        "size": {"size": "3/8", "d_a": 0.375, "a_se": 0.078, "f_uta": 60000, "f_ya": 48000, "ductile": True},
        "embedment": {"h_ef": 2, "h_min": 4, "c_min": 4, "s_min": 4},
        "traits": {"tension_overhead": True, "sustained_tension": True, "bases": ["masonry"]},
    }
    base = {"kind": "masonry", "masonry": {"units": "grouted", "material": "concrete"}}
    for table, asked in zip(tables, (set(), {SHELL}), strict=True):
        found = fields(ask({"base": base, "anchor": {"product": product | {"tables": [table]}}}))
        assert {JOINT, SHELL} & set(found) == asked


def test_a_bolt_in_grout_needs_the_strength_of_the_masonry(ask, client):
    """Its breakout goes by the root of f'm, so there is no default (TMS 402): asked once, as what is needed."""
    grouted = change(MASONRY, {"masonry.f_m": GONE})
    known = change(KNOWN, {"base": grouted, "hangs": FORCES})
    for anchor, outcome in ((BOLT, "invalid"), (SLEEVE, "assumed")):
        answer = ask(change(known, {"anchor": anchor}))
        asked = [each for each in answer["questions"] if each["field"].endswith("f_m")]
        assert [each["if_silent"]["outcome"] for each in asked] == [outcome]
        assert answer["enough"] is (outcome == "assumed")


@pytest.mark.parametrize(
    ("base", "hangs", "refused"),
    [
        ({"kind": "masonry"}, "weight", True),
        ({"kind": "masonry"}, "pipe", True),
        ({"kind": "masonry"}, "forces", False),
        ({"kind": "masonry", "face": "soffit"}, "weight", False),
        ({"kind": "concrete"}, "weight", False),
        ({"kind": "concrete", "face": "side"}, "weight", True),
        ({"kind": "deck", "face": "top"}, "pipe", True),
        ({"kind": "steel", "face": "side"}, "weight", False),
        ({"face": "side"}, "weight", True),
    ],
)
def test_a_weight_that_does_not_pull_is_said_at_once(ask, base, hangs, refused):
    """A side face, that of masonry by default, or a top: the check refuses a weight there."""
    codes = [each["code"] for each in ask({"base": base, "hangs": {"kind": hangs}})["refused"]]
    assert ("weight-does-not-pull" in codes) is refused


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"rod": {"size": "9/16"}}, "rod/size"),
        ({"base.thickness": 2}, "anchor/h_ef"),
        ({"hangs": {"kind": "weight"}}, "hangs/weight"),
        ({"hangs": {"kind": "pipe", "sprinkler": False}}, "hangs/material"),
        ({"base.masonry": {"units": "solid"}}, "base/masonry"),
    ],
)
def test_what_a_check_can_not_take_is_not_enough(ask, client, changes, place):
    """Nothing needed is open, but a value is none that a check takes, or what hangs isn't stated whole."""
    known = change(KNOWN, changes)
    answer = ask(known)
    assert not answer["enough"]
    told = {each["pointer"] for each in answer["invalid"]} | {each["field"] for each in answer["questions"]}
    assert f"#/item/{place}" in told
    problem = client.post("/v1/hang-point", json={"units": "us", "item": known}).json()
    assert {each["pointer"] for each in problem["errors"]} <= told


def test_a_product_that_the_catalogue_lacks_is_asked_for(ask):
    for anchor in ({**WEDGE, "family": "wedge"}, {**WEDGE, "h_ef": 2.6}, {**WEDGE, "size": "9/16"}):
        answer = ask(change(KNOWN, {"anchor": anchor}))
        assert not answer["enough"]
        assert "anchor/family" in fields(answer)


REPLIES = {"length": ["1.5 in", "3 in"], "offset": [0, "1 in"], "stress": ["3000 psi"], "coordinate": ["3 ft"]}
HUNG = [
    WEIGHT,
    FORCES,
    {"kind": "pipe", "material": "steel", "size": "2", "schedule": "40", "contents": "water", "run": {"spans": [10]}},
]
ANCHORS = [SLEEVE, SHORT, BOLT, WEDGE, {"family": "adhesive-slow-rod-36", "size": "3/8", "h_ef": 2.375}]


def _reply(question, draw):
    """An answer to a question, any that is allowed."""
    special = {
        "hangs/kind": HUNG,
        "anchor/family": ANCHORS,
        "base/thickness": ["7.625 in", "8 in"],
        "rod/size": ["3/8", "1/2"],
    }
    place = question["field"].removeprefix("#/item/")
    numbers = REPLIES.get(question.get("quantity", {}).get("kind"), [])
    plain = {"boolean": [True, False], "number": [40], "text": ["Invented"]}.get(question["answer"], [])
    return place, draw.choice(special.get(place) or [*question.get("allowed", ()), *numbers, *plain])


@pytest.mark.parametrize("seed", range(40))
def test_whoever_answers_can_check(ask, client, seed):
    """Answer whatever is asked, anything that is allowed: with ``enough`` the check takes the item, and refuses it only
    for what the interview said."""
    draw = random.Random(seed)  # Picks cases, guards nothing.
    known = {"base": {"kind": draw.choice(["concrete", "deck", "masonry", "masonry", "hollow_core"])}}
    for _ in range(60):
        answer = ask(known)
        if answer["enough"] or not answer["questions"]:
            break
        needed = [each for each in answer["questions"] if each["if_silent"]["outcome"] == "invalid"]
        place, value = _reply(draw.choice(needed or answer["questions"]), draw)
        path = {"hangs/kind": "hangs", "anchor/family": "anchor"}.get(place, place)
        known = change(known, {path.replace("/", "."): value})
    assert answer["enough"] or answer["invalid"]
    response = client.post("/v1/hang-point", json={"units": "us", "item": {**known, "id": "x"}})
    assert (response.status_code == 200) is answer["enough"]
    if answer["enough"]:
        result = response.json()["items"][0]
        codes = [each["code"] for each in answer["refused"]]
        assert (result["status"] == "refused") is bool(codes)
        assert result.get("reason", {}).get("code") in [*codes, None]


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ({"item": {}}, "#/units"),
        ({"units": "us"}, "#/item"),
        ({"units": "us", "item": {"id": ""}}, "#/item/id"),
        ({"units": "us", "item": {"name": "A"}}, "#/item/name"),
        ({"units": "us", "item": {"base": {"kind": "clay"}}}, "#/item/base/kind"),
        ({"units": "us", "item": {"base": {"thickness": "thick"}}}, "#/item/base/thickness"),
        ({"units": "us", "item": {"hangs": {"weight": 3}}}, "#/item/hangs/kind"),
        ({"units": "us", "item": []}, "#/item"),
    ],
)
def test_what_can_not_be_read(client, body, place):
    response = client.post(PATH, json=body)
    assert response.status_code == 422
    assert place in [each["pointer"] for each in response.json()["errors"]]


EXAMPLES = [
    (stated["units"], merged(stated.get("defaults", {}), each))
    for stated in (
        json.loads((Path(__file__).parents[2] / "examples/requests" / f"{name}.json").read_text("utf-8"))
        for name in ("deck_soffit", "masonry_block_wall", "neighbours_wall", "pool_and_tendons", "rfis_level_1")
    )
    for each in stated["items"]
]
PLACES = ("level", "x", "y", "z")
MORE = [("part", "beam"), ("existing", True), ("post_tensioned", "no"), ("age_days", 10), ("member", "M"), ("face", 0)]


def forgetful(draw):
    """An item of an example without some of what it states, and with some of what it doesn't."""
    units, stated = draw.choice(EXAMPLES)
    known = {name: copy.deepcopy(value) for name, value in stated.items() if name != "id"}
    base, at = known["base"], known.setdefault("at", {"level": "1", "x": 1, "y": 2, "z": 3})
    for name in draw.sample(["state", "face", "existing", "member", "facing", "supplementary"], 3):
        base.pop(name, None)
    for name in draw.sample(PLACES, draw.choice([0, 0, 1, 2])):
        at.pop(name, None)
    if draw.random() < 0.2:
        known.pop("rod", None)
    base.update({name: value for name, value in draw.sample(MORE, 2) if value})
    return units, known


def test_what_is_told_of_silence_is_what_a_check_does(ask, client):
    """Each open question of items that are enough: assumed, refused or not checked by the code that is told, and what
    goes to the engineer."""
    draw, compared, told = random.Random(7), 0, set()  # Picks cases, guards nothing.
    for _ in range(100):
        units, known = forgetful(draw)
        answer = ask(known, units)
        body = {"units": units, "detail": "modes", "items": [{**known, "id": "x"}]}
        checked = client.post("/v1/hang-points", json=body).json()
        (result,) = checked["items"]
        assert answer["enough"] is (result["status"] != "invalid"), known
        if not answer["enough"]:
            continue
        compared += 1
        assert {each["code"] for each in answer["to_engineer"]} >= {each["code"] for each in result["to_engineer"]}
        assert bool(answer["refused"]) is (result["status"] == "refused")
        for each in answer["questions"]:
            silent, place = each["if_silent"], (each["field"], known)
            assert silent["outcome"] in ("assumed", "refused", "not_checked"), place
            if "code" not in silent or result["status"] == "refused":
                continue
            told.add((each["field"], silent["code"]))
            listed = result["assumptions" if silent["outcome"] == "assumed" else "not_checked"]
            assert silent["code"] in listed, place
        open_places = {each["field"] for each in answer["questions"]}
        if result["status"] != "refused" and "neighbours" in result["not_checked"]:
            places = {f"#/item/at/{name}" for name in PLACES} | {"#/item/base/facing"}
            assert places & open_places, known
    assert compared > 60
    assert {("#/item/base/face", "masonry-face-assumed"), ("#/item/base/face", "overhead-assumed")} <= told
    assert {f"#/item/at/{name}" for name in PLACES} | {"#/item/base/facing"} <= {field for field, _ in told}
