"""Anchors found in place: no capacity, what is known and what not, tests by the same core."""

import pytest

from hangpoint.api.examples import EXISTING_ANCHORS_JSON

PATH = "/v1/existing-anchors"
KNOWN = {**EXISTING_ANCHORS_JSON["defaults"], **EXISTING_ANCHORS_JSON["items"][0]}


@pytest.fixture(scope="module")
def ask(client, validator):
    def post(*items, rule="one_and_a_half_working_load", units="us"):
        response = client.post(PATH, json={"units": units, "rule": rule, "items": list(items)})
        assert response.status_code == 200, response.text[:500]
        answer = response.json()
        validator("ExistingAnswer").validate(answer)
        return answer

    return post


def test_a_well_known_one(ask):
    """1.5 x 240 = 360 lb; the steel would take 0.8 x 0.0775 x 36,000 = 2232 lb in a test; supports 2 x 2.5 in away."""
    answer = ask(KNOWN)
    (item,), (row,) = answer["items"], answer["log"]
    assert (item["reuse"], item["unknown"], item["support_distance"]) == (
        "may_be_considered",
        ["records of the installation"],
        5.0,
    )
    assert "post-tensioning: no" in item["known"]
    assert (row["test_load"], row["most_load"], row["findings"]) == (pytest.approx(360), pytest.approx(2232), [])
    assert [section["record"] for section in row["trace"]] == ["ProofLoad", "SupportDistance"]


@pytest.mark.parametrize(("seen", "found"), [("cast_in_insert", ["rule-for-post-installed"]), ("screw", [])])
def test_a_rule_for_post_installed_anchors_is_none_for_cast_in_ones(ask, seen, found):
    """As in a plan of new anchors: the engineer asks for the test of a cast-in one, the rule does not."""
    (row,) = ask({**KNOWN, "type_seen": seen, "basis": "allowable"}, rule="cbc_1910a_5")["log"]
    assert [each["code"] for each in row["findings"]] == found


def test_no_capacity_is_made(ask):
    answer = ask(KNOWN, {"id": "x", "load": 240, "basis": "working"})
    names = {line["name"] for row in answer["log"] for section in row.get("trace", ()) for line in section["lines"]}
    keys = {key for each in (*answer["items"], *answer["log"]) for key in each}
    assert not {key for key in keys | names if "strength" in key or "allowable" in key or "capacity" in key}
    assert len(keys) > 15
    assert "capacity" in answer["not_checked"]


def test_the_cap_holds_here_too(ask):
    """0.8 x 0.0775 x 36,000 = 2232 lb below 1.5 x 2000."""
    (row,) = ask({**KNOWN, "load": 2000})["log"]
    assert row["test_load"] == pytest.approx(2232)
    assert [each["code"] for each in row["findings"]] == ["capped-by-yield"]


def test_of_an_unknown_one_everything_is_asked(ask):
    answer = ask({"id": "x", "load": 240, "basis": "working"})
    (item,), (row,) = answer["items"], answer["log"]
    assert (item["reuse"], item["known"]) == ("not_yet", [])
    assert len(item["unknown"]) == 13
    assert "post-tensioning" in item["unknown"]
    (walled,) = ask({"id": "x", "load": 240, "basis": "working", "base": "grouted_masonry"})["items"]
    assert "post-tensioning" not in walled["unknown"]
    assert any("post-tensioned" in text for text in item["ask"])
    codes = [each["code"] for each in row["findings"]]
    assert codes == [
        "look-first", "tendons-not-excluded", "yield-unknown", "no-proof-of-sustained-bond", "embedment-unknown",
    ]  # fmt: skip
    assert "most_load" not in row


@pytest.mark.parametrize(
    "seen",
    [
        {"damage": ["loose"]},
        {"damage": ["bent", "spalled"]},
        {"corrosion": "pitting"},
        {"corrosion": "section_loss"},
        {"type_seen": "hammer_set_pin"},
        {"type_seen": "driven_pin"},
        {"base": "hollow_core"},
    ],
)
def test_what_forbids(ask, seen):
    answer = ask({**KNOWN, **seen})
    assert answer["items"][0]["reuse"] == "not_considered"
    assert answer["log"] == []


def test_a_drop_in_is_gauged_first(ask):
    (item,) = ask({**KNOWN, "type_seen": "displacement_controlled_expansion"})["items"]
    assert any("check the whole row" in text for text in item["ask"])


@pytest.mark.parametrize(
    ("seen", "reuse"),
    [
        ({"post_tensioned": "yes"}, "not_yet"),
        ({"post_tensioned": "unknown"}, "not_yet"),
        ({"post_tensioned": None}, "not_yet"),
        ({"post_tensioned": None, "base": "grouted_masonry"}, "may_be_considered"),
        ({"post_tensioned": "yes", "base": "grouted_masonry"}, "not_yet"),
        ({}, "may_be_considered"),
    ],
)
def test_tendons_come_first(ask, seen, reuse):
    """Reading 39: where tendons may be, nobody pulls before they are located; in masonry silence means none."""
    item = {name: value for name, value in (KNOWN | seen).items() if value is not None}
    answer = ask(item)
    (found,), (row,) = answer["items"], answer["log"]
    assert found["reuse"] == reuse
    assert ("tendons-not-excluded" in {each["code"] for each in row["findings"]}) is (reuse == "not_yet")


@pytest.mark.parametrize(("load", "below"), [(2232, False), (2233, True)])
def test_no_test_shows_a_load_above_the_cap(ask, load, below):
    """The steel takes 0.8 x 0.0775 x 36,000 = 2232 lb in a test: a wanted load above it is never shown."""
    answer = ask({**KNOWN, "load": load})
    (item,), (row,) = answer["items"], answer["log"]
    assert row["test_load"] == pytest.approx(2232)
    assert item["reuse"] == ("not_yet" if below else "may_be_considered")
    assert ("below-the-load" in {each["code"] for each in row["findings"]}) is below


@pytest.mark.parametrize(
    ("seen", "reuse"),
    [
        ({"type_seen": "unknown"}, "not_yet"),
        ({"type_seen": "unknown", "face": "top"}, "not_yet"),
        ({"type_seen": "adhesive"}, "not_yet"),
        ({"type_seen": "adhesive", "face": "side"}, "not_yet"),
        ({"type_seen": "adhesive", "face": "top"}, "may_be_considered"),
        ({"embedment": {"depth": "2-1/2 in", "by": "drawings"}}, "not_yet"),
        ({"embedment": None}, "not_yet"),
    ],
)
def test_what_is_to_be_found_out_first(ask, seen, reuse):
    """A type that nobody knows, bond under load that stays, a depth that nobody measured: no test settles them."""
    item = {name: value for name, value in (KNOWN | seen).items() if value is not None}
    (found,) = ask(item)["items"]
    assert found["reuse"] == reuse
    assert len(found["reasons"]) >= 1


def test_depth_that_was_assumed_is_not_known(ask):
    (item,) = ask({**KNOWN, "embedment": {"depth": "2-1/2 in", "by": "assumed"}})["items"]
    assert "embedment" in item["unknown"]


def test_bare_numbers_are_said_with_their_unit(ask):
    item = {**KNOWN, "thickness": 150, "edges": {"x_plus": 200}}
    (found,) = ask(item, units="si")["items"]
    assert "thickness of the base: 150 mm" in found["known"]
    assert "edges: x plus 200 mm" in found["known"]


def test_edges_are_joined_with_those_of_the_defaults(client, ask):
    """The item states one side, the defaults three: all four are known, the item's in place of that of the defaults."""
    item = {name: value for name, value in KNOWN.items() if name != "edges"}
    behind = {"edges": {"x_minus": "12 in", "x_plus": "none", "y_minus": "9 in"}}
    own = [{**item, "edges": {"y_plus": "6 in", "x_minus": "4 in"}}, {**item, "id": "silent"}]
    request = {"units": "us", "rule": "one_and_a_half_working_load", "defaults": behind, "items": own}
    first, second = client.post(PATH, json=request).json()["items"]
    assert "edges: x minus 4 in, x plus none, y minus 9 in, y plus 6 in" in first["known"]
    assert not any("edge" in text for text in (*first["unknown"], *first["ask"]))
    assert "edges: x minus 12 in, x plus none, y minus 9 in" in second["known"]


def test_edges_on_some_sides_are_not_all_edges(ask):
    """Silence on a side is no edge that is far: it is asked about."""
    (item,) = ask({**KNOWN, "edges": {"x_plus": "8 in"}})["items"]
    assert "edges: x plus 8 in" in item["known"]
    assert "edges on the other sides" in item["unknown"]
    assert "How far is every edge, joint and opening?" in item["ask"]


def test_bad_items(ask):
    answer = ask(
        KNOWN, {"id": "b", "load": -3, "basis": "working"}, {"id": "c"}, {**KNOWN, "id": "d", "basis": "design"}
    )
    assert [each["status"] for each in answer["items"]] == ["assessed", *["invalid"] * 3]
    assert answer["items"][1]["problem"]["errors"][0]["pointer"] == "#/items/1/load"
    assert {each["pointer"] for each in answer["items"][2]["problem"]["errors"]} == {
        "#/items/2/load",
        "#/items/2/basis",
    }
    assert answer["items"][3]["problem"]["errors"][0]["allowed"] == ["working"]


@pytest.mark.parametrize(
    ("by", "seen"), [("measured", True), ("detector", True), ("drawings", False), ("assumed", False)]
)
def test_supports_are_placed_by_a_depth_that_was_seen(ask, by, seen):
    """An anchor deeper than assumed has a wider cone: supports two assumed depths away would press on it."""
    answer = ask(KNOWN | {"embedment": {"depth": "2-1/2 in", "by": by}})
    (item,), (row,) = answer["items"], answer["log"]
    assert ("support_distance" in item) is seen
    assert ("embedment-unknown" in {each["code"] for each in row["findings"]}) is not seen


@pytest.mark.parametrize(
    ("base", "method", "distance"), [("concrete", "confined", None), ("grouted_masonry", "unconfined", 5.0)]
)
def test_how_an_adhesive_is_pulled(ask, base, method, distance):
    """Confined in concrete, where no support stands clear of it; in masonry two embedments of 2-1/2 in clear."""
    answer = ask({**KNOWN, "type_seen": "adhesive", "base": base, "face": "top"})
    assert answer["log"][0]["method"] == method
    assert answer["items"][0].get("support_distance") == distance


def test_the_rule_for_new_anchors_in_masonry_is_none_for_old_ones(client):
    """Its test of anchors that are there is another one: a preload, and the load at a movement."""
    response = client.post(PATH, json={"units": "us", "rule": "iebc_urm", "items": [KNOWN]})
    assert response.status_code == 422
    assert [each["pointer"] for each in response.json()["errors"]] == ["#/rule"]


@pytest.mark.parametrize(
    ("changed", "place"),
    [
        ({"thickness": 3, "embedment": {"depth": 3, "by": "measured"}}, "embedment/depth"),
        ({"thickness": 3, "embedment": {"depth": "12 in", "by": "detector"}}, "embedment/depth"),
        ({"diameter": 0.375, "steel": {"a_se": 0.142, "f_ya": 36_000, "by": "marking"}}, "steel/a_se"),
    ],
)
def test_what_can_not_be_is_no_anchor(ask, changed, place):
    """Out at the back of its base; or more steel than a round bar of that diameter has: 0.142 of 0.1104 in2."""
    bad, good = ask({**KNOWN, **changed}, {**KNOWN, "id": "good"})["items"]
    assert [each["pointer"] for each in bad["problem"]["errors"]] == [f"#/items/0/{place}"]
    assert bad["problem"]["type"] == "/problems/impossible-geometry"
    assert good["reuse"] == "may_be_considered"
