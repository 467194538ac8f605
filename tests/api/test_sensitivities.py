"""Sensitivities: every row is the single check of the changed item."""

import pytest

from api.bodies import INLINE
from api.reverse_bodies import BOLT, PIPE, ROW, UNCHECKED, body
from hangpoint.api.reverse.merge_patch import merged

PATH = "/v1/sensitivities"
CHANGES = [
    {"name": "half", "patch": {"hangs": {"weight": "4 kip"}}},
    {"name": "near", "patch": {"base": {"edges": {"x_plus": "3 in"}}}},
    {"name": "weak", "patch": {"base": {"strength": {"f_c": "3000 psi"}}}},
    {"name": "dropped in", "patch": {"anchor": {"family": "drop-in-zinc", "size": "1/2", "h_ef": "2 in"}}},
]


@pytest.mark.parametrize("item", [BOLT, PIPE, ROW], ids=lambda item: item["id"])
@pytest.mark.parametrize("named", [True, False])
def test_rows_are_single_checks(asking_back, item, named):
    changes = [{"name": "near", "patch": {"base": {"edges": {"x_plus": "9 in"}}}}, CHANGES[2], CHANGES[3]]
    answer = asking_back.post(PATH, body(item, **({"changes": changes} if named else {})))
    assert len(answer["changes"]) >= 3
    for each in answer["changes"]:
        single = asking_back.check(merged(item, each["patch"]))
        assert single["status"] == each["outcome"]["status"]
        if "governing" in single:
            assert single["governing"]["utilisation"] == pytest.approx(each["outcome"]["utilisation"], rel=1e-12)
            assert single["governing"]["mode"] == each["outcome"]["governing"]["mode"]
            difference = each["outcome"]["utilisation"] - answer["stated"]["utilisation"]
            assert each["difference"] == pytest.approx(difference, abs=1e-12)


def test_half_the_weight_is_half_the_utilisation(asking_back):
    answer = asking_back.post(PATH, body(BOLT, changes=CHANGES))
    assert answer["changes"][0]["outcome"]["utilisation"] == pytest.approx(answer["stated"]["utilisation"] / 2)
    assert answer["changes"][3]["outcome"]["reason"]["code"] == "not-qualified-cracked"
    assert [each["by_engineer"] for each in answer["changes"]] == [False, False, True, False]


def test_the_usual_changes(asking_back):
    names = [
        each["name"]
        for each in asking_back.post(PATH, body(merged(PIPE, {"base": {"edges": {"x_plus": 8}}})))["changes"]
    ]
    assert names == [
        "one size up: 1/2",
        "one size down: 1/4",
        "next embedment",
        "uncracked",
        "f'c 3000 psi",
        "half the edge x_plus",
        "spacing of hangers, a quarter more",
        "spacing of hangers, a quarter less",
        "schedule 10",
    ]
    rows = asking_back.post(PATH, body(ROW))["changes"]
    assert {"spacing of anchors, a quarter more", "spacing of anchors, a quarter less"} <= {
        each["name"] for each in rows
    }
    assert {each["name"] for each in rows if each["by_engineer"]} == {"uncracked", "f'c 3000 psi"}


def test_what_is_assumed_of_a_change_is_said(asking_back):
    """The item has no rod, so that its rule is assumed of the change alone."""
    answer = asking_back.post(PATH, body(BOLT, changes=[{"name": "a rod", "patch": {"rod": {"size": "3/4"}}}]))
    assert "rod-rule-defaulted" not in asking_back.check(BOLT)["assumptions"]
    assert "rod-rule-defaulted" in answer["assumptions"]
    assert "rod" in answer["not_checked"]


def test_an_inline_product(asking_back):
    item = {**BOLT, "anchor": {"product": INLINE}, "hangs": {"kind": "weight", "weight": 100, "nature": "dead"}}
    answer = asking_back.post(PATH, body(item, changes=[{"name": "thick", "patch": {"base": {"thickness": 20}}}]))
    assert (
        answer["changes"][0]["outcome"]["status"]
        == asking_back.check(merged(item, {"base": {"thickness": 20}}))["status"]
    )
    assert asking_back.post(PATH, body(item))["changes"]
    assert asking_back.post("/v1/remedies", body(item))["stated"] == answer["stated"]


BAD_CHANGES = {
    "an unknown field": ({"base": {"thicknes": 3}}, ("#/changes/1/patch/base/thicknes", "unknown-field")),
    "a wrong unit": ({"base": {"thickness": "3 lb"}}, ("#/changes/1/patch/base/thickness", "quantity")),
    "what is needed": ({"base": {"thickness": None}}, ("#/changes/1/patch/base/thickness", "missing")),
    "an unknown product": ({"anchor": {"size": "9"}}, ("#/changes/1/patch/anchor/size", "unknown-product")),
    "no id": ({"id": None}, ("#/changes/1/patch/id", "missing")),
    "no object": ({"base": 3}, ("#/changes/1/patch/base", "dict_type")),
    "another kind": ({"hangs": {"kind": "pipe"}}, ("#/changes/1/patch/hangs/weight", "unknown-field")),
}


@pytest.mark.parametrize("name", BAD_CHANGES)
def test_a_bad_change_costs_the_others_nothing(asking_back, name):
    patch, error = BAD_CHANGES[name]
    answer = asking_back.post(PATH, body(BOLT, changes=[CHANGES[0], {"name": "bad", "patch": patch}, CHANGES[1]]))
    assert [each["outcome"]["status"] for each in answer["changes"]] == ["passed", "invalid", "failed"]
    problem = answer["changes"][1]["outcome"]["problem"]
    assert error in {(each["pointer"], each["code"]) for each in problem["errors"]}
    assert error[0] in problem["detail"] or len(problem["errors"]) > 1


@pytest.mark.parametrize("at", range(len(UNCHECKED)))
def test_the_usual_ones_of_a_base_that_is_not_checked(asking_back, at):
    """They are told as far as they mean something, and none makes it pass."""
    answer = asking_back.post(PATH, body(UNCHECKED[at]))
    assert answer["stated"]["status"] == "refused"
    assert {each["outcome"]["status"] for each in answer["changes"]} <= {"refused"}
    assert bool(answer["changes"]) is (UNCHECKED[at]["hangs"]["kind"] == "pipe")


@pytest.mark.parametrize(
    ("changes", "error"),
    [
        ([], ("#/changes", "too_short")),
        ([{"name": "x"}], ("#/changes/0/patch", "missing")),
        ([{"name": "x", "patch": 3}], ("#/changes/0/patch", "dict_type")),
        ([{"patch": {}}], ("#/changes/0/name", "missing")),
        ([{"name": "x", "patch": {"tags": [10**30]}}], ("#/changes/0/patch", "out-of-range")),
    ],
)
def test_bad_input(asking_back, changes, error):
    assert asking_back.errors(PATH, body(BOLT, changes=changes)) == {error}
