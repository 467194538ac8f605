"""Requests for information: which are asked, of which points, and what their answers change, by hand and by checks."""

import copy
import math

import pytest

from hangpoint.api.examples_rfis import RFIS_CSV, RFIS_JSON
from hangpoint.api.reverse.merge_patch import merged

PATH = "/v1/rfis"
PHI, K_C, K_UNCRACKED, H_EF, N_P = 0.65, 17.0, 24.0, 2.0, 2760.0
"""Of the product of the examples in concrete, without reinforcement that ties it; its pullout strength is in lbf."""


@pytest.fixture(scope="module")
def ask(client, validator):
    def asked(stated):
        response = client.post(PATH, json=stated)
        assert response.status_code == 200, response.text[:500]
        answer = response.json()
        validator("RfiAnswer").validate(answer)
        assert answer["summary"]["rfis"] == len(answer["rfis"])
        assert [each["number"] for each in answer["rfis"]] == list(range(1, len(answer["rfis"]) + 1))
        for each in answer["items"]:
            if each["status"] != "invalid":
                assert each["rfis"] == [own["number"] for own in answer["rfis"] if each["id"] in own["ids"]]
        return answer

    return asked


def of_code(answer, code):
    (found,) = [each for each in answer["rfis"] if each["code"] == code]
    return found


def breakout(f_c, k_c=K_C, phi=PHI):
    """Design strength of a lone anchor far from edges, lbf (17.6.2)."""
    return phi * k_c * math.sqrt(f_c) * H_EF**1.5


def test_what_the_strength_changes_by_hand(ask):
    """1.4 x 1,200 lb against 17.6.2 in concrete of 2,500 psi and stronger; the rod holds 1,347 lb of service load."""
    found = of_code(ask(RFIS_JSON), "strength-not-stated")
    assert found["ids"] == ["IC-L1-CHS-01"]
    assert found["most_used"] == pytest.approx(1680 / breakout(2500))
    assert found["summary"] == {"passed": 0, "failed": 1, "refused": 0}
    used = [max(1680 / breakout(f_c), 1200 / 1346.9) for f_c in (3000, 4000, 5000)]
    assert [each["most_used"] for each in found["answers"]] == pytest.approx(used, rel=1e-4)
    for each in found["answers"]:
        assert each["summary"] == {"passed": 1, "failed": 0, "refused": 0}
        assert each["changed"] == [{"id": "IC-L1-CHS-01", "index": 0, "before": "failed", "after": "passed"}]


def test_an_answer_against_the_point_is_told_too(ask):
    """1.4 x 1,300 lb hold in uncracked concrete alone: 24 in place of 17."""
    found = of_code(ask(RFIS_JSON), "uncracked-by-decision")
    (cracked,) = found["answers"]
    assert found["most_used"] == pytest.approx(max(1820 / breakout(2500, K_UNCRACKED), 1300 / 1346.9), rel=1e-4)
    assert cracked["most_used"] == pytest.approx(1820 / breakout(2500))
    assert cracked["changed"] == [{"id": "IC-L1-AHU-03", "index": 2, "before": "passed", "after": "failed"}]


def test_supplementary_reinforcement_changes_phi(ask):
    found = of_code(ask(RFIS_JSON), "supplementary-reinforcement-not-stated")
    (tied,) = found["answers"]
    before = {"IC-L1-CHS-01": 1680, "IC-L1-OLD-04": 1750}
    after = {name: load / breakout(2500, phi=0.75) for name, load in before.items()}
    assert found["ids"] == [name for name, used in after.items() if used <= 1]
    assert found["most_used"] == pytest.approx(max(before.values()) / breakout(2500))
    assert tied["most_used"] == pytest.approx(max(*after.values(), 1250 / 1346.9, 1750 / (PHI * N_P)), rel=1e-4)


def test_of_a_slab_that_exists_the_strength_is_asked_once(ask):
    answer = ask(RFIS_JSON)
    found = of_code(answer, "existing-strength-unknown")
    assert found["ids"] == ["IC-L1-OLD-04"]
    assert [each["summary"]["passed"] for each in found["answers"]] == [
        int(breakout(f_c) >= 1750) for f_c in (3000, 4000, 5000)
    ]
    assert "IC-L1-OLD-04" not in of_code(answer, "strength-not-stated")["ids"]


def test_a_refused_point_may_pass_by_an_answer(ask):
    found = of_code(ask(RFIS_JSON), "post-tensioned")
    (without,) = found["answers"]
    assert found["summary"]["refused"] == 1
    assert without["changed"] == [{"id": "IC-L1-PT-05", "index": 4, "before": "refused", "after": "passed"}]


def test_every_answer_is_the_check_of_the_patched_points(ask, client):
    answer = ask(RFIS_JSON)
    before = client.post("/v1/hang-points", json=RFIS_JSON).json()["items"]
    counted = 0
    for rfi in answer["rfis"]:
        for possible in rfi["answers"]:
            items = [
                merged(each, possible["patch"]) if each["id"] in rfi["ids"] else each for each in RFIS_JSON["items"]
            ]
            after = client.post("/v1/hang-points", json={**RFIS_JSON, "items": items}).json()["items"]
            of_ids = [each for each in after if each["id"] in rfi["ids"]]
            assert possible["summary"] == {
                status: sum(each["status"] == status for each in of_ids) for status in ("passed", "failed", "refused")
            }
            assert possible["most_used"] == max(each["governing"]["utilisation"] for each in of_ids)
            assert possible["changed"] == [
                {"id": one["id"], "index": one["index"], "before": one["status"], "after": other["status"]}
                for one, other in zip(before, after, strict=True)
                if one["status"] != other["status"]
            ]
            counted += len(possible["changed"])
    assert counted > 5


def test_what_decides_nothing_is_not_asked(ask):
    """The light points pass however the engineer answers: nothing that they are silent about is worth a question."""
    stated = copy.deepcopy(RFIS_JSON)
    stated["items"] = [{**stated["items"][1], "id": name, "at": {}} for name in ("A", "B")]
    answer = ask(stated)
    assert (answer["summary"]["passed"], answer["rfis"]) == (2, [])
    assert {"f-c-assumed", "cracked-assumed"} <= answer["assumptions"].keys()


def test_what_no_answer_mends_is_not_asked(ask):
    stated = copy.deepcopy(RFIS_JSON)
    stated["items"] = [{**stated["items"][0], "hangs": {"kind": "weight", "nature": "dead", "weight": "5000 lb"}}]
    answer = ask(stated)
    assert (answer["summary"]["failed"], answer["rfis"]) == (1, [])


def near(base):
    """Two points 4 in apart that share concrete, 1.4 x 1,000 lb each; ``base`` is what the second states of it."""
    stated = copy.deepcopy(RFIS_JSON)
    weight = {"hangs": {"kind": "weight", "nature": "dead", "weight": "1000 lb"}}
    stated["items"] = [
        {"id": "SILENT", "at": {"x": "0 ft", "y": "0 ft"}, **weight},
        {"id": "SAID", "at": {"x": "4 in", "y": "0 ft"}, **weight, "base": base},
    ]
    return stated


def test_a_point_near_one_that_is_asked_about(ask):
    """(3 x 2 + 4) x 6 over 36 of one; the least phi of both counts, so the answer about one lets both pass."""
    found = of_code(ask(near({"supplementary": True})), "supplementary-reinforcement-not-stated")
    assert (found["ids"], found["summary"]["failed"]) == (["SILENT"], 1)
    assert found["most_used"] == pytest.approx(2800 / (breakout(2500) * 60 / 36))
    (tied,) = found["answers"]
    assert tied["most_used"] == pytest.approx(2800 / (breakout(2500, phi=0.75) * 60 / 36))
    assert [(each["id"], each["after"]) for each in tied["changed"]] == [("SILENT", "passed"), ("SAID", "passed")]


def test_what_contradicts_another_point_of_the_member_is_no_answer(ask):
    found = of_code(ask(near({"strength": {"f_c": "4000 psi"}})), "strength-not-stated")
    (same,) = found["answers"]
    assert same["patch"] == {"base": {"strength": {"f_c": "4000 psi"}}}
    assert same["most_used"] == pytest.approx(2800 / (breakout(4000) * 60 / 36))


def test_decided_in_the_defaults(ask):
    """What the defaults decide is taken back at the points, so that none of them contradicts itself."""
    stated = copy.deepcopy(RFIS_JSON)
    stated["defaults"]["base"] |= {"state": "uncracked", "state_decided_by": "invented note S-2"}
    found = of_code(ask(stated), "uncracked-by-decision")
    assert len(found["ids"]) == len(stated["items"])
    assert found["answers"][0]["summary"] == {"passed": 1, "failed": 3, "refused": 1}


def test_the_performance_category_of_a_european_check(ask):
    """A fastener with figures for C1 alone: silent is C2 and refused; as C1 its pull-out is 11.5 kN / 1.5 (annex C)."""
    far = {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "none"}
    base = {
        "kind": "concrete",
        "density": "normalweight",
        "thickness": 200,
        "strength": {"class": "C20/25"},
        "edges": far,
    }
    pulled = {
        "kind": "forces",
        "components": [{"nature": "dead", "tension": 2}, {"nature": "earthquake", "tension": 2}],
    }
    item = {
        "id": "E",
        "hangs": pulled,
        "anchor": {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": 65},
        "base": base,
        "seismic": {"design_option": "elastic_design"},
    }
    found = of_code(ask({"units": "si", "design_code": "en1992_4", "items": [item]}), "seismic-design-european")
    assert found["summary"]["refused"] == 1
    least, most = found["answers"]
    assert [each["after"] for each in least["changed"]] == ["passed"]
    assert least["most_used"] == pytest.approx(4 / (11.5 / 1.5))
    assert (most["summary"]["refused"], most["changed"]) == (1, [])


def test_a_bad_item_costs_the_others_nothing(ask):
    stated = copy.deepcopy(RFIS_JSON)
    whole = ask(stated)
    stated["items"].append({"id": "BAD", "hangs": {"kind": "weight", "weight": "much", "nature": "dead"}})
    answer = ask(stated)
    assert answer["rfis"] == whole["rfis"]
    assert answer["items"][-1]["problem"]["errors"][0]["pointer"] == "#/items/5/hangs/weight"


def test_a_csv_asks_what_the_same_points_ask_as_json(client, validator):
    heavy = RFIS_CSV.replace(",260,", ",1400,")
    response = client.post(f"{PATH}?project.name=Clinic", content=heavy, headers={"content-type": "text/csv"})
    answer = response.json()
    validator("RfiAnswer").validate(answer)
    assert answer["project"] == {"name": "Clinic"}
    silent = {each["code"]: each["ids"] for each in answer["rfis"]}
    row = {
        "id": "IC-L2-02",
        "at": {"level": "L2", "x": 22, "y": 6},
        "hangs": {"kind": "weight", "weight": "1400 lb", "nature": "dead"},
        "anchor": {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5},
        "base": {
            "kind": "concrete",
            "density": "normalweight",
            "thickness": 6,
            "edges": {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "8 in"},
        },
        "seismic": {"category": "B"},
    }
    same = client.post(PATH, json={"units": "us", "items": [row]}).json()
    assert silent == {each["code"]: each["ids"] for each in same["rfis"]}
    assert silent["strength-not-stated"] == ["IC-L2-02"]


def test_the_page_has_a_register_and_a_form_each(client, ask):
    answer = ask(RFIS_JSON)
    page = client.post(f"{PATH}?format=html", json=RFIS_JSON).text
    assert page.count("<article") == len(answer["rfis"]) + 1
    for each in answer["rfis"]:
        assert page.count(each["question"].replace("'", "&#x27;")) == 1
    assert "What an answer changes" in page
    assert "failed to passed: IC-L1-CHS-01" in page
    assert "passed to failed: IC-L1-AHU-03" in page
    assert client.post(f"{PATH}?format=pdf", json=RFIS_JSON).content.startswith(b"%PDF")
    quiet = {**RFIS_JSON, "items": [{**RFIS_JSON["items"][1], "at": {}}]}
    assert "The check leaves no question to the engineer." in client.post(f"{PATH}?format=html", json=quiet).text


def test_questions_are_served_with_their_sentences(client, ask):
    served = client.get("/v1/quantities").json()
    known = {each["code"]: each for each in (*served["triage"], *served["rfis"])}
    for each in ask(RFIS_JSON)["rfis"]:
        assert {name: each[name] for name in ("text", "question", "clause")} == {
            name: known[each["code"]][name] for name in ("text", "question", "clause")
        }
