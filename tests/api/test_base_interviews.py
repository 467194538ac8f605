"""The open questions of an incomplete hang point: their order, what is taken, what the answers may be."""

import pytest

from api.bodies import GONE, WEIGHT, change, item
from hangpoint.api.csv_columns import columns
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
    if asking.asked is Asked.MASONRY:
        whole = change(KNOWN, {"base": MASONRY, "anchor": SLEEVE})
    if asking.asked is Asked.HOLLOW_CORE:
        whole = change(KNOWN, {"base": PLANK})
    if asking.asked is Asked.PIPE:
        whole = item()
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
