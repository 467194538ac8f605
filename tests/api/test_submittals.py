"""Submittals: parts that agree with those asked for alone, words of the cover, chosen sheets, tests by hand."""

import copy
import io
import json
import math
import re

import pypdf
import pytest

from api.bodies import INLINE, SLAB
from api.en_bodies import EN, en_item
from hangpoint.api.examples_submittals import SUBMITTALS_CSV, SUBMITTALS_JSON
from hangpoint.core.vocabulary import NotTested, SheetReason

PATH = "/v1/submittals"
PARTS = ["schedule", "load_map", "installation_cards", "calculation_sheets", "open_items", "test_plan"]


def pull(name, load, **more):
    """A point at which dead load pulls."""
    hangs = {"kind": "forces", "components": [{"nature": "dead", "tension": load}]}
    return {"id": name, "hangs": hangs, **more}


def other(family, size, h_ef):
    return {"anchor": {"family": family, "size": size, "h_ef": h_ef}}


HEADED = other("headed-bolt", "5/8", "6 in")
BODY = {
    "units": "us",
    "neighbours": "off",
    "defaults": {**SLAB, "at": {"level": "L2"}},
    "items": [
        pull("LIGHT", "100 lb", at={"x": "1 ft", "y": "1 ft"}),
        pull("HEAVY", "400 lb", at={"x": "9 ft", "y": "1 ft"}),
        pull("FAILS", "40000 lb", at={"x": "17 ft", "y": "1 ft"}, **HEADED),
        pull("BOLT", "500 lb", at={"x": "25 ft", "y": "1 ft"}, **HEADED),
        pull("REFUSED", "50 lb", **other("drop-in-zinc", "3/8", "1-5/8 in")),
        pull("INVALID", "50 lb", base={"thickness": "1 in"}),
    ],
}


@pytest.fixture(scope="module")
def ask(client, validator):
    def asked(stated, path=PATH, schema="SubmittalAnswer"):
        response = client.post(path, json=stated)
        assert response.status_code == 200, response.text[:500]
        validator(schema).validate(response.json())
        return response.json()

    return asked


@pytest.fixture(scope="module")
def answer(ask):
    return ask(BODY)


@pytest.fixture(scope="module")
def shown(client):
    def get(stated, form="html"):
        response = client.post(f"{PATH}?format={form}", json=stated)
        assert response.status_code == 200, response.text[:500]
        return response.content if form == "pdf" else response.text

    return get


@pytest.fixture(scope="module")
def refused(client):
    def problem(stated, query="", **sent):
        response = client.post(PATH + query, **(sent or {"json": stated}))
        assert response.status_code in (413, 415, 422), response.text[:300]
        return response.json()

    return problem


def test_the_points_are_what_this_test_takes_them_for(answer):
    assert [each["status"] for each in answer["items"]] == ["passed"] * 2 + ["failed", "passed", "refused", "invalid"]


def test_each_part_is_what_its_own_address_answers(ask, answer):
    checked = ask({**BODY, "detail": "modes"}, "/v1/hang-points", "Answer")
    assert [{**each, "trace": 0} for each in answer["items"]] == [{**each, "trace": 0} for each in checked["items"]]
    mapped = ask(BODY, "/v1/load-maps", "LoadMapAnswer")
    assert answer["load_map"] == {name: mapped[name] for name in answer["load_map"]}
    cards = ask(BODY, "/v1/installation-cards", "CardsAnswer")
    made = answer["installation_cards"]
    for each in cards["cards"]:
        each["used_by"] = [own for own in each["used_by"] if own != "INVALID"]
        each["attention"] = [own for own in each["attention"] if own["id"] != "INVALID"]
    assert made["cards"] == cards["cards"]
    for name in ("summary", "assumptions", "not_checked", "cautions", "load_cases", "catalogue", "units"):
        assert answer[name] == checked[name]


def test_the_digest_is_that_of_the_calculation_sheets(ask, answer):
    traced = ask({**BODY, "detail": "trace"}, "/v1/hang-points", "Answer")
    assert answer["request_digest"] == traced["request_digest"]


def test_an_invalid_point_is_in_no_part(answer):
    """Its product and place could be read, but the check takes it for none."""
    assert answer["schedule"][5] == {"id": "INVALID", "index": 5, "number": 6, "status": "invalid"}
    assert "INVALID" not in {own for each in answer["installation_cards"]["cards"] for own in each["used_by"]}
    assert all("INVALID" not in each["ids"] for own in answer["open_items"].values() for each in own)


def test_a_card_says_of_every_refused_point_that_it_is_refused(ask):
    """Of a product with tables alone, too, whose card asked for by itself goes by allowable loads."""
    table = other("drop-in-short-zinc", "3/8", "3/4 in")
    made = ask({**BODY, "items": [*BODY["items"], pull("TABLE", "50 lb", **table)]})
    refused = {each["id"]: each["reason"]["code"] for each in made["items"] if each["status"] == "refused"}
    assert refused["TABLE"] == "table-only-family"
    said = {(each["id"], each["what"]) for card in made["installation_cards"]["cards"] for each in card["attention"]}
    assert said >= set(refused.items())


def test_a_row_of_the_schedule_by_hand(answer):
    """1.4 x 400 lb = 560 lb (ASCE 7, 2.3.1, combination 1)."""
    row = answer["schedule"][1]
    place = {name: row[name] for name in ("id", "number", "level", "x", "y", "status")}
    assert place == {"id": "HEAVY", "number": 2, "level": "L2", "x": 9.0, "y": 1.0, "status": "passed"}
    assert row["demand"]["factored_tension"] == pytest.approx(560)
    family, size, h_ef = row["product"]["address"].rsplit("/", 2)[0], *row["product"]["address"].rsplit("/", 2)[1:]
    assert row["h_ef"] == pytest.approx(float(h_ef)), (family, size)
    assert row["utilisation"] == answer["items"][1]["governing"]["utilisation"]


def test_the_embedment_of_a_metric_request_is_in_its_unit(ask):
    metric = {**BODY, "units": "si", "items": [pull("A", "1 kN", **HEADED)]}
    assert ask(metric)["schedule"][0]["h_ef"] == pytest.approx(6 * 25.4)


def test_the_cover_says_what_fails(answer):
    text = " ".join(answer["statement"])
    assert answer["statement"][0] == (
        "This submittal is of 6 hang points: 3 pass; 1 fails; 1 is refused; 1 is invalid."
    )
    for words in (
        "1 point of this submittal fails: FAILS.",
        "nothing may be hung from it",
        "1 point is refused: REFUSED.",
        "1 point is invalid: INVALID.",
        "data of 5 points are invented",
    ):
        assert words in text


def test_the_cover_of_points_that_all_pass_names_none(ask, shown):
    fine = {**BODY, "items": BODY["items"][:2]}
    text = " ".join(ask(fine)["statement"])
    assert "2 hang points: 2 pass." in text
    assert not {"fail", "fails", "refused", "invalid"} & set(re.findall(r"\w+", text))
    assert "Every point of this submittal passes" in shown(fine)
    assert "This submittal contains points that fail" in shown(BODY)
    assert "This submittal contains points that were not checked" in shown({**BODY, "items": BODY["items"][4:]})


def test_many_ids_are_cut_on_the_cover_and_not_in_the_schedule(ask, shown):
    many = {**BODY, "items": [pull(f"F-{at:02}", "40000 lb") for at in range(23)]}
    (failing,) = (each for each in ask(many)["statement"] if "fail:" in each)
    assert re.findall(r"F-\d\d", failing) == [f"F-{at:02}" for at in range(20)]
    assert "and 3 more, named in the schedule" in failing
    schedule = shown(many).partition('id="part-2"')[0].partition('id="part-1"')[2]
    assert {f"F-{at:02}" for at in range(23)} == set(re.findall(r"<strong>(F-\d\d)</strong>", schedule))


def test_a_limit_of_the_structural_notes_that_is_exceeded_is_on_the_cover(ask):
    limited = {**BODY, "structural_limits": [{"id": "note 4", "level": "L2", "most_per_point": "300 lb"}]}
    assert "Limits of the structural notes that are exceeded: note 4." in ask(limited)["statement"]


def test_the_most_used_of_each_product_and_those_that_fail_have_sheets(answer):
    """HEAVY above LIGHT of one product; of the other FAILS, which is the most used too; none of REFUSED."""
    made = answer["calculation_sheets"]
    assert [(each["id"], each["reason"]["code"]) for each in made["of"]] == [
        ("HEAVY", "most-used"),
        ("FAILS", "fails"),
    ]
    assert made["left_out"] == ["LIGHT", "BOLT", "REFUSED"]
    assert [each["id"] for each in answer["items"] if "trace" in each] == ["HEAVY", "FAILS"]


def test_sheets_of_all_or_of_some(ask):
    every = ask({**BODY, "sheets": "all"})
    assert [each["id"] for each in every["calculation_sheets"]["of"]] == ["LIGHT", "HEAVY", "FAILS", "BOLT", "REFUSED"]
    assert every["calculation_sheets"]["left_out"] == []
    one = ask({**BODY, "only": ["BOLT"]})
    assert [(each["id"], each["reason"]["code"]) for each in one["calculation_sheets"]["of"]] == [("BOLT", "asked-for")]
    assert one["calculation_sheets"]["sheets"] == "named"
    assert one["request_digest"] == every["request_digest"]


@pytest.mark.parametrize(
    ("stated", "place", "code"),
    [
        ({"only": ["BOLTS"]}, "#/only", "unknown-id"),
        ({"only": ["BOLT"], "sheets": "all"}, "#/only", "contradiction"),
        ({"test_use": "structural"}, "#/test_use", "contradiction"),
        ({"sheets": "some"}, "#/sheets", "unknown-option"),
    ],
)
def test_what_contradicts_itself_is_refused(refused, stated, place, code):
    (error,) = refused({**BODY, **stated})["errors"]
    assert (error["pointer"], error["code"]) == (place, code)
    assert code != "unknown-id" or error["allowed"][0] == "BOLT"


def test_what_is_open_is_said_once_with_the_points_that_it_concerns(answer):
    for kind in ("assumptions", "not_checked"):
        found = {each["code"]: each for each in answer["open_items"][kind]}
        assert list(found) == list(answer[kind])
        for code, each in found.items():
            assert each["text"] == answer[kind][code]
            assert each["ids"] == [own["id"] for own in answer["items"] if code in own.get(kind, ())]
    codes = [each["code"] for each in answer["open_items"]["findings"]]
    assert len(codes) == len(set(codes))
    assert {each["severity"] for each in answer["open_items"]["findings"]} <= {"caution", "note"}


def test_a_question_to_the_engineer_has_the_points_that_ask_it(ask):
    tension = {"state": "uncracked", "state_decided_by": "J. Doe"}
    asking = {**BODY, "items": [pull(name, "50 lb", base=tension) for name in ("A", "B")] + [pull("C", "50 lb")]}
    (question,) = ask(asking)["open_items"]["questions"]
    assert question["ids"] == ["A", "B"]
    assert "uncracked" in question["text"]
    assert question["question"].startswith("Please")


def test_without_a_rule_no_test_is_asked_for(answer, shown):
    assert "test_plan" not in answer
    assert answer["parts"][-1]["contents"] == "not asked for"
    assert "Not asked for: the request names no rule of tests." in shown(BODY)


def test_test_loads_by_the_working_load_by_hand(ask):
    """1.5 x 400 lb = 600 lb, of those that pass only."""
    plan = ask({**BODY, "test_rule": "one_and_a_half_working_load"})["test_plan"]
    loads = {each["id"]: each["test_load"] for each in plan["log"]}
    assert loads == {"LIGHT": pytest.approx(150), "HEAVY": pytest.approx(600), "BOLT": pytest.approx(750)}
    assert [(each["id"], each["reason"]["code"]) for each in plan["not_tested"]] == [
        ("FAILS", "not-passed"),
        ("REFUSED", "not-passed"),
    ]


def test_test_loads_by_the_design_strength_by_hand(ask):
    """1.25 x the least of phi N_n in tension (CBC 2022 1910A.5, from a secondary text).

    Pullout: 0.65 x 1,500 lb x (4,000 / 2,500)^0.5 = 1,233 lb; breakout: 0.65 x 17 x 4,000^0.5 x 2^1.5 = 1,977 lb;
    steel: 0.75 x 0.05 in2 x 100,000 psi = 3,750 lb (ACI 318-19, 17.6.1 to 17.6.3, 17.5.3).
    """
    pullout = 0.65 * 1500 * math.sqrt(4000 / 2500)
    assert pullout < 0.65 * 17 * math.sqrt(4000) * 2**1.5 < 0.75 * 0.05 * 100_000
    stated = {**BODY, "items": [pull("A", "100 lb", anchor={"product": INLINE})], "test_rule": "cbc_1910a_5"}
    (test,) = ask(stated)["test_plan"]["log"]
    assert test["test_load"] == pytest.approx(1.25 * pullout)


BLOCK = {
    "kind": "masonry",
    "masonry": {"units": "grouted", "material": "concrete", "f_m": "2000 psi", "location": "face", "joint_distance": 2},
    "thickness": "11.625 in",
    "face": "side",
    "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
}


@pytest.mark.parametrize(
    ("combinations", "rule", "load"),
    [
        # 0.75 x 0.5 x 4 x 50.27 in2 x 2,000^0.5 psi, phi 0.5 of breakout (TMS 402-16 9.1.4.1, 9.1.6.3.1.1); 0.9 of
        # 0.1419 in2 x 36,000 psi = 4,598 lb is more.
        ("strength", "three_quarters_of_design_strength", 0.75 * 0.5 * 4 * 16 * math.pi * math.sqrt(2000)),
        # 2 x 1.25 x 50.27 in2 x 2,000^0.5 psi (8.1.3.3.1.1), but 0.8 x 0.1419 x 36,000 lb of its steel at most.
        ("allowable", "cbc_1910a_5", 0.8 * 0.1419 * 36_000),
    ],
)
def test_test_loads_of_a_bolt_in_masonry_by_hand(ask, combinations, rule, load):
    bolt = pull("B", "500 lb", base=BLOCK, seismic={"category": "B"}, **other("headed-bolt", "1/2", "4 in"))
    plan = ask({"units": "us", "combinations": combinations, "items": [bolt], "test_rule": rule})["test_plan"]
    assert plan["not_tested"] == []
    assert plan["log"][0]["test_load"] == pytest.approx(load)


def test_a_rule_for_walls_of_masonry_says_so_of_a_slab(ask):
    wall = pull(
        "WALL", "50 lb", base=BLOCK, seismic={"category": "B"}, **other("sleeve-expansion-zinc", "3/8", "1-3/4 in")
    )
    items = [pull("SLAB", "100 lb", **SLAB), wall]
    log = ask({"units": "us", "items": items, "test_rule": "iebc_urm"})["test_plan"]["log"]
    told = {row["id"]: "rule-for-masonry" in {each["code"] for each in row["findings"]} for row in log}
    assert told == {"SLAB": True, "WALL": False}


def test_one_of_a_kind_is_in_the_singular(ask, shown):
    one = {**BODY, "items": [pull("ONE", "0 lb")]}
    parts = {each["part"]: each["contents"] for each in ask(one)["parts"]}
    assert "1 caution or note;" in parts["open_items"]
    page = shown({**BODY, "items": [pull("ONE", "100 lb")], "test_rule": "one_and_a_half_working_load"})
    assert "structural, 1 anchor, 1 test." in page


def test_a_plan_on_paper_has_what_a_test_must_not_pass(shown):
    """0.8 x 0.226 in2 x 36,000 psi = 6,508.8 lb = 28.9525 kN of steel; two embedments of 6 in are 12 in, 304.8 mm."""
    bolt = pull("BOLT", "500 lb", **HEADED)
    page = shown({**BODY, "items": [bolt], "test_rule": "one_and_a_half_working_load"})
    assert re.search(r'Never above \[lbf\]</th>.*<td class="number">750.0</td><td class="number">6508.8</td>', page)
    assert "Two embedments are 12 in." in page
    page = shown({**BODY, "units": "si", "items": [bolt], "test_rule": "one_and_a_half_working_load"})
    assert '<td class="number">28.952</td>' in page
    assert "Two embedments are 305 mm." in page


def test_a_plan_on_paper_has_the_torque_that_may_stand_for_a_test(shown):
    page = shown({**BODY, "items": BODY["items"][:1], "test_rule": "cbc_1910a_5"})
    assert "Instead of pulling: the installation torque is reached" in page


def test_groups_of_a_plan_say_what_they_are_set_in(client, shown):
    """One product in three bases are three groups, which read alike."""
    sleeve = other("sleeve-expansion-zinc", "3/8", "1-3/4 in")
    bases = [
        {"kind": "masonry", "masonry": {"units": "hollow", "material": "concrete"}},
        {"kind": "masonry", "masonry": {"units": "grouted", "material": "concrete"}},
    ]
    items = [
        {"id": str(at), **sleeve, "basis": "working", "load": 100} | ({"base": base} if base else {})
        for at, base in enumerate([*bases, None])
    ]
    stated = {"units": "us", "rule": "one_and_a_half_working_load", "items": items}
    groups = client.post("/v1/test-plans", json=stated).json()["groups"]
    assert [each["base"] for each in groups] == ["masonry, hollow, concrete", "masonry, grouted, concrete", "concrete"]
    page = shown({**BODY, "items": BODY["items"][:1], "test_rule": "one_and_a_half_working_load"})
    assert re.search(r"Group 0: [^ ]+ in concrete, structural", page)


def test_what_the_check_does_not_know_for_an_anchor_is_not_tested(ask):
    row = {"layout": [{"x": 0, "y": 0}, {"x": "6 in", "y": 0}]}
    layout = {**SLAB["anchor"], **row}
    wind = {"kind": "forces", "components": [{"nature": "dead", "tension": 80}, {"nature": "wind", "tension": 40}]}
    shear = {"kind": "forces", "components": [{"nature": "dead", "tension": 0, "shear_x": 50}]}
    items = [
        pull("ROW", "100 lb", anchor=layout),
        {"id": "WIND", "hangs": wind},
        {"id": "SHEAR", "hangs": shear},
        pull("FINE", "100 lb"),
    ]
    plan = ask({**BODY, "items": items, "test_rule": "one_and_a_half_working_load"})["test_plan"]
    assert [(each["id"], each["reason"]["code"]) for each in plan["not_tested"]] == [
        ("ROW", "several-anchors"),
        ("WIND", "other-loads"),
        ("SHEAR", "no-tension"),
    ]
    assert [each["id"] for each in plan["log"]] == ["FINE"]


@pytest.mark.parametrize(
    ("rule", "loads", "left"),
    [("cbc_1910a_5", [], ["no-basis"]), ("one_and_a_half_working_load", [3.0], [])],
)
def test_a_strength_by_another_code_is_no_basis_of_a_rule(ask, rule, loads, left):
    """2 kN pull: 1.5 times that is known; a design strength by EN 1992-4 is not the phi N_n of the other rule."""
    plan = ask({**EN, "items": [en_item()], "test_rule": rule})["test_plan"]
    assert [each["test_load"] for each in plan["log"]] == pytest.approx(loads)
    assert [each["reason"]["code"] for each in plan["not_tested"]] == left


def test_strengths_of_shared_concrete_are_of_no_anchor(ask):
    near = [
        pull(name, "100 lb", at={"x": x, "y": "0 ft"}) for name, x in (("A", "0 ft"), ("B", "0.5 ft"), ("C", "9 ft"))
    ]
    stated = {**BODY, "neighbours": "check", "items": near}
    plan = ask({**stated, "test_rule": "three_quarters_of_design_strength"})["test_plan"]
    assert [(each["id"], each["reason"]["code"]) for each in plan["not_tested"]] == [
        ("A", "shared-concrete"),
        ("B", "shared-concrete"),
    ]
    plan = ask({**stated, "test_rule": "one_and_a_half_working_load"})["test_plan"]
    assert plan["not_tested"] == []


def test_no_point_may_be_left_to_be_tested(ask):
    plan = ask({**BODY, "items": BODY["items"][4:], "test_rule": "iebc_urm"})["test_plan"]
    assert (plan["log"], plan["groups"]) == ([], [])
    assert [each["id"] for each in plan["not_tested"]] == ["REFUSED"]


def test_words_are_served(client):
    served = client.get("/v1/quantities").json()["submittals"]
    for name, vocabulary in (("sheets", SheetReason), ("not_tested", NotTested)):
        assert served[name] == [
            {"code": each.value.code, "text": each.value.text, "clause": each.value.clause} for each in vocabulary
        ]


def test_a_csv_is_answered_as_its_json(client, ask):
    query = "?sheets=all&test_rule=one_and_a_half_working_load&project.name=Invented%20clinic"
    made = client.post(PATH + query, content=SUBMITTALS_CSV, headers={"content-type": "text/csv"}).json()
    assert made["project"] == {"name": "Invented clinic"}
    assert [each["id"] for each in made["calculation_sheets"]["of"]] == ["IC-L2-01", "IC-L2-02"]
    assert [each["test_load"] for each in made["test_plan"]["log"]] == [pytest.approx(270), pytest.approx(390)]
    some = client.post(f"{PATH}?only=IC-L2-02;IC-L2-01", content=SUBMITTALS_CSV, headers={"content-type": "text/csv"})
    assert some.json()["calculation_sheets"]["sheets"] == "named"
    assert some.json()["calculation_sheets"]["left_out"] == []


def test_an_unknown_id_of_a_csv_is_told_in_its_query(refused):
    sent = {"content": SUBMITTALS_CSV, "headers": {"content-type": "text/csv"}}
    (error,) = refused(None, "?only=IC-L2-09", **sent)["errors"]
    assert (error["pointer"], error["code"]) == ("?only", "unknown-id")
    (error,) = refused(None, "?only=IC-L2-02,IC-L2-01", **sent)["errors"]
    assert error["detail"].endswith("Ids have semicolons between them here.")


def test_lines_are_not_taken(refused):
    refused(None, content=b"{}\n", headers={"content-type": "application/x-ndjson"})


def test_more_sheets_than_a_pdf_takes_are_refused_and_left_out_by_themselves(refused, ask):
    """20 sheets of a PDF; 25 points that fail by one product."""
    many = {**BODY, "items": [pull(f"F-{at:02}", f"{40_000 + at} lb") for at in range(25)]}
    problem = refused({**many, "sheets": "all"}, "?format=pdf")
    assert (problem["limit"], problem["received"]) == (20, 25)
    made = ask(many)["calculation_sheets"]
    assert [each["id"] for each in made["of"]] == [f"F-{at:02}" for at in range(5, 25)]
    assert made["left_out"] == [f"F-{at:02}" for at in range(5)]


def test_what_fails_without_a_sheet_is_told_wherever_a_reader_looks(ask, shown):
    """25 points that fail and 20 sheets: F-00 to F-04 have none. On the cover, in its table of parts, in the schedule
    and before the sheets."""
    many = {**BODY, "items": [pull(f"F-{at:02}", f"{40_000 + at} lb") for at in range(25)]}
    made = ask(many)
    (told,) = (each for each in made["statement"] if "no calculation sheet" in each)
    assert told == (
        "Of what fails 5 points have no calculation sheet here: F-00, F-01, F-02, F-03, F-04. Why they fail stands in"
        " the schedule alone."
    )
    (contents,) = (each["contents"] for each in made["parts"] if each["part"] == "calculation_sheets")
    assert contents == "of 20 points; 5 left out (5 of them failing), listed there"
    page = shown(many)
    schedule, sheets = page.partition('id="part-1"')[2].partition('id="part-4"')[::2]
    schedule = schedule.partition('id="part-2"')[0]
    bare = re.findall(r"<strong>(F-\d\d)</strong>[^<]*It has no calculation sheet in this submittal\.", schedule)
    assert bare == [f"F-{at:02}" for at in range(5)]
    text = re.sub(r"<[^>]+>", "", sheets)
    assert "5 points that fail have no sheet here." in text
    assert "why they fail stands in part 1, under “Points that do not pass”" in " ".join(text.split())


def test_nothing_is_told_of_sheets_where_all_that_fails_has_one(answer, shown):
    assert "no calculation sheet" not in " ".join(answer["statement"])
    assert "no calculation sheet" not in shown(BODY)


def test_more_sheets_than_traces_of_a_batch_are_refused(refused):
    many = {**BODY, "items": [pull(f"P-{at}", "10 lb") for at in range(201)], "sheets": "all"}
    assert "200" in refused(many)["detail"]


def test_the_example_of_the_document_is_not_changed_by_requests(client):
    stated = copy.deepcopy(SUBMITTALS_JSON)
    assert client.post(PATH, json=stated).status_code == 200
    assert stated == SUBMITTALS_JSON


def test_every_link_of_the_page_has_its_place(shown, answer):
    html = shown(BODY)
    places = re.findall(r'<article[^>]* id="([^"]+)"', html)
    assert places == [f"part-{number}" for number in range(1, 7)]
    assert re.findall(r'<a href="#([^"]+)">', html) == places
    assert [each["part"] for each in answer["parts"]] == PARTS


def test_every_page_has_the_digest_of_the_request_and_its_part(shown, answer):
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(shown(BODY, "pdf"))).pages]
    digest = f"request {answer['request_digest'][:12]}"
    parts = []
    for number, text in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in text
        assert digest in text
        foot = re.search(rf"(Cover|Part \d) ·.*{digest}|Cover · {digest}", text)
        parts.append(foot[0].partition(" ·")[0])
    assert parts == sorted(parts)
    assert set(parts) == {"Cover", *(f"Part {number}" for number in range(1, 7))}


def test_the_table_of_parts_has_the_page_that_each_begins_on(shown):
    """Of so many points that the schedule and the map have several pages."""
    items = [
        pull(f"P-{at:03}", "60 lb", at={"x": f"{4 * (at % 10)} ft", "y": f"{4 * (at // 10)} ft"}) for at in range(130)
    ]
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(shown({**BODY, "items": items}, "pdf"))).pages]
    first = {}
    for number, text in enumerate(pages, 1):
        part = re.findall(r"Part (\d) · ", text)
        if part:
            first.setdefault(int(part[-1]), number)
    stated = {}
    table = pages[0].partition("Page\n")[2].partition("Points\n")[0]
    rows = re.split(r"(?m)^(?=[1-6] (?:Schedule|Load|Inst|Calc|Open|Plan))", table)[1:]
    for row in rows:
        stated[int(row[0])] = int(re.findall(r"\d+", row)[-1])
    assert stated == first
    assert first[2] - first[1] > 1
    assert all("Verdict" in text and "Governs" in text for text in pages[first[1] - 1 : first[2] - 1])


def test_the_longest_ids_leave_the_other_columns_their_room(shown):
    """With letters below one another no word of a product could be read."""
    items = [pull("W" * 64, "40000 lb", at={"x": "100 ft", "y": "100 ft", "z": "12 ft"}), pull("w" * 64, "1 lb")]
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(shown({**BODY, "items": items}, "pdf"))).pages]
    (schedule,) = (text for text in pages if "Part 1 · " in text)
    assert schedule.count("wedge-expansion-") == 2
    (chosen,) = (text for text in pages if "Part 4 · Calculation sheets" in text)
    assert "It fails." in chosen


@pytest.mark.parametrize("form", ["html", "pdf"])
def test_equal_requests_are_equal_documents(shown, form):
    assert shown(json.loads(json.dumps(BODY)), form) == shown(BODY, form)


def test_an_invalid_row_of_a_csv_is_told_by_its_line_and_cell(client):
    """On paper nobody counts rows by a pointer."""
    text = SUBMITTALS_CSV.replace("normalweight,6,", "normalweight,TBD,", 1)
    shown = client.post(f"{PATH}?format=html", content=text, headers={"content-type": "text/csv"}).text
    assert "&quot;TBD&quot;: This is no number" in shown
    assert "invalid: line 2, column &quot;" in shown
    assert "#/rows/1/" not in shown
