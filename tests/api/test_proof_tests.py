"""Plans and logs of proof tests through the service: loads and counts by hand, spread, caps, what follows a failure."""

import csv
import io
import random

import pytest
from openpyxl import load_workbook

from hangpoint.api.media import XLSX

PLAN, LOG = "/v1/test-plans", "/v1/test-logs"
WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}
"""A_se 0.053 in2, f_ya 85,000 psi, N_p,cr 2640 lb at 2,500 psi with exponent 0.5 (the family's file)."""

TAU_DRY, TAU_LEAST, TAU_UNCRACKED = 1020, 690, 1960
"""Bond of adhesive-slow-rod-105, 3/8, psi, by its file: cracked in range a, dry; the least; uncracked in a, dry."""

BASE = {
    "kind": "concrete",
    "strength": {"f_c": "3000 psi"},
    "density": "normalweight",
    "thickness": "6 in",
    "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
}
ONE = {"anchor": WEDGE, "use": "nonstructural", "basis": "design_strength", "load": "1500 lb"}


@pytest.fixture(scope="module")
def plan(client, validator):
    def post(items, *, rule="cbc_1910a_5", units="us", **more):
        response = client.post(PLAN, json={"units": units, "rule": rule, "items": items, **more})
        assert response.status_code == 200, response.text[:500]
        answer = response.json()
        validator("PlanAnswer").validate(answer)
        return answer

    return post


@pytest.fixture(scope="module")
def judge(client, validator):
    def post(items, *, rule="cbc_1910a_5", units="us", **more):
        response = client.post(LOG, json={"units": units, "rule": rule, "items": items, **more})
        assert response.status_code == 200, response.text[:500]
        answer = response.json()
        validator("LogAnswer").validate(answer)
        return answer

    return post


def job(count=37):
    """Anchors on three levels, set by two crews."""
    return [{"id": f"A{at:02}", "level": f"L{at % 3}", "crew": "AB"[at % 2], **ONE} for at in range(count)]


def test_half_of_thirty_seven_on_every_level(plan):
    answer = plan(job())
    assert answer["summary"]["tests"] == 19
    assert {row["level"] for row in answer["log"]} == {"L0", "L1", "L2"}
    assert {row["crew"] for row in answer["log"]} == {"A", "B"}
    assert answer["groups"][0]["strata"] == 6


def test_the_same_request_names_the_same_anchors_in_any_order(plan):
    first = {row["id"] for row in plan(job())["log"]}
    mixed = job()
    random.Random(3).shuffle(mixed)
    assert {row["id"] for row in plan(mixed)["log"]} == first
    assert len(first) == 19


def test_uses_are_counted_apart(plan):
    """8 structural: all. 8 non-structural: 4. 8 sill bolts: 0.8, so 1."""
    items = [
        {**ONE, "id": f"{use}-{at}", "use": use}
        for use in ("structural", "nonstructural", "sill_bolt")
        for at in range(8)
    ]
    groups = {each["use"]: each["tests"] for each in plan(items)["groups"]}
    assert groups == {"structural": 8, "nonstructural": 4, "sill_bolt": 1}


def test_a_layout_is_as_many_anchors(plan):
    """Four anchors of a plate: half of them is two."""
    layout = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 6, "spacing_y": 6}
    answer = plan([{**ONE, "id": "P", "anchor": {**WEDGE, "layout": layout}}])
    assert answer["summary"]["anchors"] == 4
    assert len(answer["items"][0]["tested"]) == 2
    assert set(answer["items"][0]["tested"]) < {"P/0", "P/1", "P/2", "P/3"}


def test_load_and_cap_by_hand(plan):
    """1.25 x 1500 = 1875 lb. 0.8 x 0.053 x 85,000 = 3604 lb stands below 1.25 x 3000 = 3750."""
    low, high = plan([{**ONE, "id": "a", "use": "structural"}, {**ONE, "id": "b", "use": "structural", "load": 3000}])[
        "log"
    ]
    assert (low["test_load"], low["findings"]) == (pytest.approx(1875), [])
    assert high["test_load"] == high["most_load"] == pytest.approx(3604)
    assert [each["code"] for each in high["findings"]] == ["capped-by-yield"]
    assert low["hold_seconds"] == 15


def test_a_load_above_the_cap_is_said(plan):
    """1/4 in wedge: 0.8 x 0.024 x 85,000 = 1632 lb. Of 3000 lb that hang a test of 1632 lb shows nothing, of 1600 lb it
    does; a rule of three quarters of a strength asks for less than the strength anyhow."""
    item = {"id": "a", "anchor": {"family": "wedge-expansion-zinc", "size": "1/4", "h_ef": 1.5}, "use": "structural"}

    def codes(load, basis, rule):
        (row,) = plan([{**item, "basis": basis, "load": load}], rule=rule)["log"]
        return [each["code"] for each in row["findings"]]

    assert codes(3000, "working", "one_and_a_half_working_load") == ["capped-by-yield", "below-the-load"]
    assert codes(1600, "working", "one_and_a_half_working_load") == ["capped-by-yield"]
    assert codes(3000, "design_strength", "three_quarters_of_design_strength") == ["capped-by-yield"]


def test_a_least_load_above_the_cap_is_said(plan):
    """1/4 in wedge: 0.8 x 0.024 x 85,000 = 1632 lb is above 1500; a 3/16 in screw of 0.8 x 0.0166 x 80,000 = 1062 lb is
    not."""
    screw = {"family": "small-screw-hex-zinc", "size": "3/16", "h_ef": 1.0}
    items = [
        {
            "id": "w",
            "anchor": {"family": "wedge-expansion-zinc", "size": "1/4", "h_ef": 1.5},
            "basis": "design",
            "load": 100,
        },
        {"id": "s", "anchor": screw, "basis": "design", "load": 100},
    ]
    wedge, small = plan(items, rule="iebc_urm")["log"]
    assert (wedge["test_load"], wedge["findings"]) == (1500, [])
    assert small["test_load"] == pytest.approx(1062.4)
    assert [each["code"] for each in small["findings"]] == ["capped-by-yield", "below-the-least-of-the-rule"]


def test_above_the_concrete_is_said(plan):
    """N_p,cr of 2640 lb (3000/2500)^0.5 = 2892 lb, below breakout 17 x sqrt(3000) x 2.5^1.5 = 3681 lb. A test of 1.25 x
    2400 = 3000 lb is above it, one of 2750 lb is not."""
    items = [
        {**ONE, "id": name, "use": "structural", "base": BASE, "load": load}
        for name, load in (("a", 2400), ("b", 2200))
    ]
    above, below = plan(items)["log"]
    assert [each["code"] for each in above["findings"]] == ["above-the-concrete"]
    assert "pullout, 2892 lbf" in above["findings"][0]["text"]
    assert below["findings"] == []
    assert "concrete" not in plan(items)["not_checked"]
    assert "concrete" in plan([{**ONE, "id": "c"}])["not_checked"]


def test_a_base_is_joined_with_that_of_the_defaults(plan):
    """An item that states one edge has the rest of its base from the defaults: the 2892 lb of above hold for it too."""
    items = [
        {**ONE, "id": "edge", "use": "structural", "base": {"edges": {"x_plus": "6 in"}}, "load": 2400},
        {**ONE, "id": "none", "use": "structural", "load": 2400},
        {**ONE, "id": "weak", "use": "structural", "base": {"strength": {"f_c": "2500 psi"}}, "load": 2200},
    ]
    answer = plan(items, defaults={"base": BASE})
    texts = {row["id"]: [each["text"] for each in row["findings"]] for row in answer["log"]}
    assert ["pullout, 2892 lbf" in text for text in texts["edge"]] == [True]
    assert ["pullout, 2892 lbf" in text for text in texts["none"]] == [True]
    assert ["pullout, 2640 lbf" in text for text in texts["weak"]] == [True]
    assert "concrete" not in answer["not_checked"]


def test_si_says_the_same(plan):
    """3000 lb is 13.344 kN, 3604 lb 16.031 kN (1 lbf = 4.4482216 N)."""
    base = {**BASE, "thickness": 152.4}
    (row,) = plan([{**ONE, "id": "a", "load": "2400 lb", "anchor": {**WEDGE, "h_ef": 63.5}, "base": base}], units="si")[
        "log"
    ]
    assert row["test_load"] == pytest.approx(13.3447, abs=1e-4)
    assert row["most_load"] == pytest.approx(16.0314, abs=1e-4)
    assert "12.86 kN" in row["findings"][0]["text"]


def test_method_and_torque(plan):
    """Adhesive: confined. Torque instead of pull: torque-controlled anchors only, by the rule that has it."""
    adhesive = {"family": "adhesive-slow-rod-36", "size": "1/2", "h_ef": 2.75}
    items = [{**ONE, "id": "w"}, {**ONE, "id": "a", "anchor": adhesive}]
    wedge, bond = plan(items)["groups"]
    assert (wedge["method"], bond["method"]) == ("unconfined", "confined")
    assert wedge["support_distance"] == 5.0
    assert "torque_alternative" in wedge
    assert "torque_alternative" not in bond
    working = [{**each, "basis": "working"} for each in items]
    assert "torque_alternative" not in plan(working, rule="one_and_a_half_working_load")["groups"][0]


def test_bad_items(plan):
    items = [
        {**ONE, "id": "ok"},
        {**ONE, "id": "basis", "basis": "working"},
        {**ONE, "id": "load", "load": 0},
        {"id": "silent", "anchor": WEDGE},
        {**ONE, "id": "product", "anchor": {**WEDGE, "size": "9/16"}},
        {**ONE, "id": "unit", "load": "3 in"},
    ]
    answer = plan(items)
    assert [each["status"] for each in answer["items"]] == ["planned", *["invalid"] * 5]
    errors = [[each["pointer"] for each in item["problem"]["errors"]] for item in answer["items"][1:]]
    assert errors == [
        ["#/items/1/basis"],
        ["#/items/2/load"],
        ["#/items/3/basis", "#/items/3/load"],
        ["#/items/4/anchor/size"],
        ["#/items/5/load"],
    ]
    assert answer["items"][1]["problem"]["errors"][0]["allowed"] == ["allowable", "design_strength"]


def test_all_items_bad_is_an_answer(plan):
    answer = plan([{"id": "a"}])
    assert answer["summary"]["tests"] == 0
    assert answer["log"] == answer["groups"] == []


def test_a_rule_that_is_not_there(client):
    response = client.post(PLAN, json={"units": "us", "rule": "any", "items": [{"id": "a"}]})
    assert response.status_code == 422
    assert response.json()["errors"][0]["pointer"] == "#/rule"
    assert "cbc_1910a_5" in response.json()["errors"][0]["allowed"]


def test_a_log_is_printed_as_a_gauge_is_set(client):
    """0.8 A_se f_ya of the 1/2 in wedge, 0.8 x 0.102 x 85,000 = 6936 lbf by hand, is no 6936.000000000001."""
    wedge = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25}
    body = {"units": "us", "rule": "cbc_1910a_5", "items": [{**ONE, "id": "a", "anchor": wedge}]}
    (row,) = csv.DictReader(io.StringIO(client.post(f"{PLAN}?format=csv", json=body).text))
    assert row["most_load [lbf]"] == "6936.0"


def test_files_of_a_plan(client):
    body = {"units": "us", "rule": "cbc_1910a_5", "items": [{**ONE, "id": "=cmd()", "level": "L1"}]}
    text = client.post(f"{PLAN}?format=csv", json=body).text
    (row,) = csv.DictReader(io.StringIO(text))
    assert row["id"] == "'=cmd()"
    assert float(row["test_load [lbf]"]) == pytest.approx(1875)
    assert row["applied [lbf]"] == row["moved"] == ""
    response = client.post(f"{PLAN}?format=xlsx", json=body)
    assert response.headers["content-type"] == XLSX
    sheet = load_workbook(io.BytesIO(response.content))["Log"]
    cells = {title.value: cell for title, cell in zip(sheet[1], sheet[2], strict=True)}
    assert (cells["id"].value, cells["id"].data_type, cells["id"].quotePrefix) == ("=cmd()", "s", True)
    assert cells["test load [lbf]"].value == pytest.approx(1875)
    assert cells["moved"].value is None


def test_no_file_of_a_plan_leaves_out_what_could_not_be_planned(client, judge_csv):
    """An anchor that can't be read has no test: the log says so, and handed back it keeps the log open."""
    unknown = {**ONE, "id": "b", "anchor": {"family": "nope", "size": "3/8", "h_ef": 2.5}}
    body = {"units": "us", "rule": "cbc_1910a_5", "items": [{**ONE, "id": "a"}, unknown]}
    text = client.post(f"{PLAN}?format=csv", json=body).text
    good, bad = csv.DictReader(io.StringIO(text))
    assert (good["id"], good["problem"], bad["id"], bad["test_load [lbf]"]) == ("a", "", "b", "")
    assert "no such product" in bad["problem"]
    sheet = load_workbook(io.BytesIO(client.post(f"{PLAN}?format=xlsx", json=body).content))["Log"]
    assert [cell.value for cell in sheet["A"]] == ["id", "a", "b"]
    assert judge_csv(text)["summary"]["invalid"] == 1


def test_a_plans_log_filled_in_is_a_log(plan, judge):
    rows = plan(job(), detail="plan")["log"]
    filled = [{**row, "applied": row["test_load"], "held_seconds": 15, "moved": False} for row in rows]
    answer = judge(filled)
    assert answer["summary"] == {
        "total": 19,
        "passed": 19,
        "failed": 0,
        "repeat": 0,
        "overloaded": 0,
        "open": 0,
        "invalid": 0,
    }
    assert answer["retests"] == []
    assert judge(rows)["summary"]["open"] == 19


def made(name, **more):
    return {
        "id": name,
        "crew": "A",
        "day": "1",
        "test_load": 1875,
        "applied": 1875,
        "held_seconds": 15,
        "moved": False,
        **more,
    }


def test_outcomes(judge):
    rows = [
        made("passed", displacement="1/16 in"),
        made("moved", moved=True),
        made("short", applied=1500, displacement=0),
        made("dropped", held_seconds=5, displacement=0),
        made("far", displacement="1/8 in"),
        made("much", applied=3700, most_load=3604, displacement=0),
        {"id": "open", "test_load": 1875},
    ]
    answer = judge(rows, displacement_limit="0.1 in")
    assert [each["outcome"] for each in answer["items"]] == [
        "passed", "failed", "repeat", "repeat", "failed", "overloaded", "open",
    ]  # fmt: skip
    codes = [[each["code"] for each in item["findings"]] for item in answer["items"]]
    assert codes == [
        [], ["moved"], ["load-not-reached"], ["not-held-long-enough"], ["displacement-beyond-limit"], ["overloaded"],
        [],
    ]  # fmt: skip


def test_what_has_a_limit_is_measured(judge):
    """A limit and no displacement: nobody knows whether it was kept, so the test is no result, nor does it close a
    failure. Without a limit nothing is lacking."""
    rows = [made("silent"), made("measured", displacement="0.05 in"), made("moved", moved=True), made("later")]
    answer = judge(rows, displacement_limit="0.1 in")
    assert [each["outcome"] for each in answer["items"]] == ["repeat", "passed", "failed", "repeat"]
    assert [each["code"] for each in answer["items"][0]["findings"]] == ["displacement-not-measured"]
    assert answer["retests"][0]["passed_in_a_row"] == 0
    assert judge(rows[:1])["items"][0]["outcome"] == "passed"


def test_a_displacement_without_a_limit_is_not_silent(judge):
    """2 in beside `moved: false` pass where nobody states a limit, and the row says that they have no part in it."""
    rows = [made("far", displacement="2 in"), made("none", displacement=0), made("silent")]
    found = [(row["outcome"], [each["code"] for each in row["findings"]]) for row in judge(rows)["items"]]
    assert found == [("passed", ["displacement-without-limit"]), ("passed", []), ("passed", [])]


def test_findings_of_a_plan_come_back(plan, judge):
    """A capped row beside others without findings is filled in and judged: its findings stand first."""
    items = [{**ONE, "id": name, "use": "structural", "load": load} for name, load in (("a", 3000), ("b", 1500))]
    rows = [
        {**row, "applied": row["test_load"], "held_seconds": 15, "moved": row["id"] == "a"}
        for row in plan(items, detail="plan")["log"]
    ]
    answer = judge(rows)
    codes = [[each["code"] for each in row["findings"]] for row in answer["items"]]
    assert codes == [["capped-by-yield", "moved"], []]


def test_after_a_failure_twenty_in_a_row(judge):
    """From memory: until 20 in a row pass. Crew B and another day of crew A are not concerned."""
    rows = [made("f", moved=True), *(made(f"p{at}") for at in range(19)), made("b", crew="B"), made("d", day="2")]
    (day,) = judge(rows)["retests"]
    assert (day["failed"], day["passed_in_a_row"], day["still_to_pass"], day["closed"]) == (["f"], 19, 1, False)
    (day,) = judge([*rows, made("p19")])["retests"]
    assert (day["still_to_pass"], day["closed"]) == (0, True)
    (day,) = judge([*rows, made("p19"), made("again", moved=True)])["retests"]
    assert (day["failed"], day["still_to_pass"]) == (["f", "again"], 20)


@pytest.mark.parametrize(
    ("failed", "later", "left"),
    [
        ({"product": "P1"}, {"product": "OTHER"}, 20),
        ({"product": "P1"}, {}, 20),
        ({"product": "P1"}, {"product": "P1", "test_load": 50, "applied": 1875}, 20),
        ({"group": 0}, {"group": 1}, 20),
        ({"product": "P1", "group": 0}, {"product": "P1", "group": 1}, 20),
        ({"product": "P1", "group": 0}, {"product": "P1", "group": 0}, 0),
        ({"product": "P1"}, {"product": "P1", "test_load": 1900, "applied": 1900}, 0),
        ({}, {}, 0),
    ],
)
def test_only_the_like_closes_a_failure(judge, failed, later, left):
    """Twenty passes of another product, or at a lower load, say nothing of the one that failed."""
    rows = [made("f", moved=True, **failed), *(made(f"p{at}", **later) for at in range(20))]
    (day,) = judge(rows)["retests"]
    assert (day["still_to_pass"], day["closed"]) == (left, left == 0)


def test_each_product_that_failed_has_its_row(judge):
    """Twenty of one after its failure, and none of the other since that failed."""
    rows = [made("f", moved=True, product="P1"), made("g", moved=True, product="P2")]
    rows += [made(f"p{at}", product="P1") for at in range(20)]
    (day,) = judge(rows)["retests"]
    assert (day["passed_in_a_row"], day["still_to_pass"], day["closed"]) == (0, 20, False)


def test_an_overloaded_test_adds_to_no_row(judge):
    """6,000 lb where the steel may take 1,500: not passed, and not one of twenty; nor does it begin the row anew."""
    over = made("over", test_load=1000, applied=6000, most_load=1500)
    rows = [made("f", moved=True, test_load=1000), *(made(f"p{at}") for at in range(19)), over]
    answer = judge(rows)
    assert answer["items"][-1]["outcome"] == "overloaded"
    assert answer["summary"]["overloaded"] == 1
    (day,) = answer["retests"]
    assert (day["passed_in_a_row"], day["closed"]) == (19, False)


def test_nothing_is_closed_while_a_test_cannot_be_read(judge):
    rows = [made("f", moved=True), *(made(f"p{at}") for at in range(20)), {"id": "bad", "test_load": "x"}]
    (day,) = judge(rows)["retests"]
    assert not day["closed"]
    assert "can't be read" in day["text"]


def test_bad_tests(judge):
    rows = [
        {"id": "silent", "applied": 100, "test_load": 100},
        {"id": "none", "applied": 100, "held_seconds": 15, "moved": False},
        made("below", applied=-3),
        made("ok"),
    ]
    answer = judge(rows)
    pointers = [[each["pointer"] for each in item["problem"]["errors"]] for item in answer["items"][:3]]
    assert pointers == [["#/items/0/moved", "#/items/0/held_seconds"], ["#/items/1/test_load"], ["#/items/2/applied"]]
    assert answer["items"][3]["outcome"] == "passed"


@pytest.mark.parametrize("most", [-5, 0, 500, 1872])
def test_a_most_load_below_the_test_load_is_a_flaw(judge, most):
    """1,875 lb are asked for: with less as the most, whatever is applied is too little or too much."""
    bad, good = judge([made("bad", most_load=most), made("good", most_load=1874)])["items"]
    assert [each["pointer"] for each in bad["problem"]["errors"]] == ["#/items/0/most_load"]
    assert good["outcome"] == "passed"


def test_a_limit_out_of_range(client):
    body = {"units": "us", "rule": "cbc_1910a_5", "displacement_limit": "0.0000001 in", "items": [made("a")]}
    response = client.post(LOG, json=body)
    assert response.status_code == 422
    assert response.json()["errors"][0]["pointer"] == "#/displacement_limit"


def test_files_of_a_log(client):
    body = {"units": "us", "rule": "cbc_1910a_5", "items": [made("a", notes="@x"), {"id": "bad", "test_load": "x"}]}
    good, bad = csv.DictReader(io.StringIO(client.post(f"{LOG}?format=csv", json=body).text))
    assert (good["outcome"], good["notes"], good["moved"]) == ("passed", "'@x", "false")
    assert bad["outcome"] == "invalid"
    assert "#/items/1/test_load" in bad["problem"]
    book = load_workbook(io.BytesIO(client.post(f"{LOG}?format=xlsx", json=body).content))
    assert book.sheetnames == ["Log", "Rule"]
    cells = {title.value: cell for title, cell in zip(book["Log"][1], book["Log"][2], strict=True)}
    assert (cells["notes"].value, cells["notes"].quotePrefix, cells["moved"].value) == ("@x", True, "false")
    assert not any(cell.quotePrefix for cell in book["Log"][2] if cell.column != cells["notes"].column)
    told = {cell.value for row in book["Rule"].iter_rows() for cell in row}
    assert "Twice the allowable tension, or 1.25 times the design strength" in told
    assert any("until 20 in a row pass" in str(text) for text in told)


@pytest.mark.parametrize(("stated", "held", "outcome"), [(1, 14, "repeat"), (1, 15, "passed"), (30, 29, "repeat")])
def test_no_hold_is_shorter_than_that_of_the_rule(judge, stated, held, outcome):
    """15 s by the rule: a log that states 1 s is judged by 15, one that states 30 by 30."""
    test = {"id": "a", "test_load": 1000, "applied": 1000, "held_seconds": held, "moved": False}
    (row,) = judge([test | {"hold_seconds": stated}])["items"]
    assert (row["outcome"], row["hold_seconds"]) == (outcome, max(stated, 15))
    assert ([each["code"] for each in row["findings"]] == ["not-held-long-enough"]) is (outcome == "repeat")


def test_the_log_of_a_plan_of_one_is_a_log_too(plan, judge):
    """A plan of one item has the traces of its tests: filled in, its rows are items of a log all the same."""
    (row,) = plan([{**ONE, "id": "a", "use": "structural"}])["log"]
    assert "trace" in row
    filled = row | {"applied": row["test_load"], "held_seconds": 15, "moved": False}
    (judged,) = judge([filled])["items"]
    assert (judged["status"], judged["outcome"]) == ("judged", "passed")


def _above(row):
    return [each["text"] for each in row["findings"] if each["code"] == "above-the-concrete"]


def test_an_anchor_of_a_layout_is_looked_at_in_its_place(plan):
    """Edges are from the origin of the layout: of two anchors 10 in apart about it, with the edge 8 in from it, one has
    it at 13 in and the other at 3 in. N_b = 17 sqrt(2500) 3.25^1.5 = 4980.2 lb; for the latter A_Nc/A_Nco =
    (3 + 4.875)/9.75 = 0.8077 and psi_ed = 0.7 + 0.3 x 3/4.875 = 0.8846: 3558 lb. The other is limited by pullout."""
    anchor = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25}
    base = {**BASE, "strength": {"f_c": 2500}, "thickness": 12, "edges": {**BASE["edges"], "x_plus": 8}}
    item = {**ONE, "id": "a", "use": "structural", "base": base, "load": 3000}
    first, second = plan([{**item, "anchor": {**anchor, "layout": {"pattern": "row", "count": 2, "spacing": 10}}}])[
        "log"
    ]
    assert first["test_load"] == second["test_load"] == 3750
    assert _above(first) == []
    assert "concrete breakout, 3558 lbf" in _above(second)[0]


def test_the_bond_is_that_of_the_stated_condition(plan):
    """Range a, dry: tau_cr of the family's file; silent, the least of its data. N_ba = tau pi 0.375 in 4.5 in."""
    anchor = {"family": "adhesive-slow-rod-105", "size": "3/8", "h_ef": 4.5}
    dry = {"temperature": "a", "hole": "dry"}
    base = {**BASE, "strength": {"f_c": 2500}, "thickness": 12}
    item = {**ONE, "use": "structural", "load": 5000}
    items = [
        {**item, "id": "stated", "anchor": {**anchor, "adhesive": dry}},
        {**item, "id": "half", "anchor": {**anchor, "adhesive": {"temperature": "a"}}},
        {**item, "id": "silent", "anchor": anchor},
    ]
    stated, half, silent = plan(items, defaults={"base": base})["log"]
    assert f"bond, {TAU_DRY * 5.30144:.4g} lbf" in _above(stated)[0]
    assert f"bond, {TAU_LEAST * 5.30144:.4g} lbf" in _above(silent)[0]
    rest = {"base": base, "anchor": {"adhesive": {"hole": "dry"}}}
    assert _above(half) != _above(stated) == _above(plan(items, defaults=rest)["log"][1])


def test_a_confined_test_pulls_on_the_bond_alone(plan):
    """Uncracked, h_ef 2-3/8 in: breakout 24 sqrt(2500) 2.375^1.5 = 4392 lb, but the plate holds the concrete down; the
    bond holds tau_uncr pi 0.375 in 2.375 in, above the test of 4500 lb."""
    anchor = {"family": "adhesive-slow-rod-105", "size": "3/8", "h_ef": 2.375}
    base = {**BASE, "strength": {"f_c": 2500}, "state": "uncracked", "state_decided_by": "the engineer"}
    dry = {"temperature": "a", "hole": "dry"}
    (row,) = plan([{**ONE, "id": "a", "load": 3600, "base": base, "anchor": {**anchor, "adhesive": dry}}])["log"]
    assert (row["method"], row["test_load"]) == ("confined", 4500)
    assert TAU_UNCRACKED * 2.79798 > 4500
    assert _above(row) == []


def test_no_two_anchors_have_one_id(plan):
    """Anchors of a layout have the id of their item and a number: the later item that repeats one is invalid."""
    row = {"pattern": "row", "count": 2, "spacing": 6}
    items = [{**ONE, "id": "A", "anchor": {**WEDGE, "layout": row}}, {**ONE, "id": "A/1"}, {**ONE, "id": "A/2"}]
    for several, bad in ((items, 1), (items[::-1], 2)):
        answer = plan(several)
        assert [each["status"] == "invalid" for each in answer["items"]] == [at == bad for at in range(3)]
        (error,) = answer["items"][bad]["problem"]["errors"]
        assert (error["pointer"], error["code"]) == (f"#/items/{bad}/id", "duplicate-id")


ADHESIVE = {"id": "a", "anchor": {"family": "adhesive-slow-rod-36", "size": "1/2", "h_ef": 6}}


@pytest.mark.parametrize(
    ("rule", "basis", "base", "method"),
    [
        ("iebc_urm", "design", {}, "unconfined"),
        ("one_and_a_half_working_load", "working", {}, "confined"),
        ("one_and_a_half_working_load", "working", {"base": {"kind": "concrete"}}, "confined"),
        ("one_and_a_half_working_load", "working", {"base": {"kind": "masonry"}}, "unconfined"),
        ("one_and_a_half_working_load", "working", {"base": {"kind": "hollow_core"}}, "unconfined"),
    ],
)
def test_in_masonry_nothing_presses_on_the_units(plan, rule, basis, base, method):
    """IEBC A107.5.1: the apparatus stands on the wall, 75 % of the embedment away; two of 6 in are 12 in."""
    answer = plan([{**ADHESIVE, **base, "load": 500, "basis": basis}], rule=rule)
    (group,), (row,) = answer["groups"], answer["log"]
    assert (group["method"], row["method"]) == (method, method)
    assert group.get("support_distance") == (12 if method == "unconfined" else None)
    assert ("75 % of its embedment" in group["method_text"]) is (rule == "iebc_urm")


def test_a_product_in_concrete_and_in_masonry_is_two_groups(plan):
    items = [
        {**ADHESIVE, "id": kind, "base": {"kind": kind}, "load": 500, "basis": "working"}
        for kind in ("concrete", "masonry")
    ]
    groups = plan(items, rule="one_and_a_half_working_load")["groups"]
    assert [(each["method"], each["installed"]) for each in groups] == [("confined", 1), ("unconfined", 1)]


WALL = {
    "kind": "masonry",
    "masonry": {"units": "grouted", "material": "concrete", "f_m": 1500, "location": "face", "joint_distance": "none"},
    "thickness": "7-5/8 in",
    "face": "side",
    "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
}


@pytest.mark.parametrize(
    ("load", "found"),
    [
        (470, []),
        (480, ["load-above-the-table"]),
        (1200, ["load-above-the-table", "test-above-the-table"]),
    ],
)
def test_in_masonry_the_table_is_looked_at(plan, load, found):
    """The sleeve of 1/2 in, 2-1/4 in deep in grouted block: by its table 470 lb allowable, a fifth of a mean ultimate
    load of 2,350 lb. A test of twice 1,200 lb is above that."""
    anchor = {"family": "sleeve-expansion-zinc", "size": "1/2", "h_ef": 2.25}
    (row,) = plan(
        [{"id": "a", "anchor": anchor, "base": WALL, "basis": "allowable", "load": load, "use": "structural"}]
    )["log"]
    assert [each["code"] for each in row["findings"]] == found


@pytest.mark.parametrize(("load", "found"), [(5700, []), (5800, ["above-the-concrete"])])
def test_a_bolt_in_masonry_is_looked_at(plan, load, found):
    """A 3/4 in bolt of 6 in, 2 in from two edges: a quarter of 9 pi, two strips of sqrt(32) + 18 asin(1/3), a square of
    4 in2; 4 x 55.82 x sqrt(1,500) = 8,648 lb, by TMS 402 9.1.6. Tests of 1.5 times the load: 8,550 and 8,700 lb."""
    base = WALL | {"thickness": 12, "edges": WALL["edges"] | {"x_minus": 2, "y_plus": 2}}
    anchor = {"family": "headed-bolt", "size": "3/4", "h_ef": 6}
    item = {"id": "a", "anchor": anchor, "base": base, "basis": "working", "load": load}
    (row,) = plan([item], rule="one_and_a_half_working_load")["log"]
    assert [each["code"] for each in row["findings"]] == found


def test_anchors_in_masonry_are_a_group_of_their_own(plan):
    """A tenth of 43 of one product, of which 3 are in a wall: none of these was among the five."""
    own = {"anchor": {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": 1.75}, "basis": "working", "load": 100}
    bases = {"slab": {"kind": "concrete"}, "block": WALL, "brick": {"kind": "masonry", "masonry": {"units": "solid"}}}
    items = [
        {"id": f"{name} {number}", "base": base, "use": "nonstructural"} | own
        for name, base in bases.items()
        for number in range(40 if name == "slab" else 3)
    ]
    answer = plan(items, rule="one_and_a_half_working_load")
    assert [(each["installed"], each["tests"]) for each in answer["groups"]] == [(40, 4), (3, 1), (3, 1)]
    assert {row["id"].split()[0] for row in answer["log"]} == set(bases)


def test_adhesive_is_tested_after_its_cure(plan):
    after = "before its cure time"
    glued = {**ADHESIVE, "load": 500, "basis": "working"}
    assert any(after in each for each in plan([glued], rule="one_and_a_half_working_load")["cautions"])
    assert not any(after in each for each in plan([{**ONE, "id": "a"}])["cautions"])


def test_a_cast_in_bolt_is_not_in_a_rule_for_post_installed_anchors(plan):
    bolt = {"id": "a", "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 4}, "basis": "allowable", "load": 900}
    (row,) = plan([{**bolt, "use": "structural"}])["log"]
    assert [each["code"] for each in row["findings"]] == ["rule-for-post-installed"]
    (row,) = plan([{**bolt, "basis": "working"}], rule="one_and_a_half_working_load")["log"]
    assert row["findings"] == []


@pytest.fixture(scope="module")
def judge_csv(client, validator):
    def post(text, query="?rule=cbc_1910a_5", *, status=200):
        content = text.encode() if isinstance(text, str) else text
        accept = {"Content-Type": "text/csv", "Accept": "application/json"}
        response = client.post(f"{LOG}{query}", content=content, headers=accept)
        assert response.status_code == status, response.text[:500]
        answer = response.json()
        validator("LogAnswer" if status == 200 else "Problem").validate(answer)
        return answer

    return post


def filled(client, **cells):
    """The blank log that the service writes for three anchors, filled in by hand: every test alike."""
    body = {"units": "us", "rule": "cbc_1910a_5", "items": job(3)}
    blank = client.post(f"{PLAN}?format=csv", json=body).text
    titles, *rows = csv.reader(io.StringIO(blank))
    written = io.StringIO()
    writer = csv.writer(written)
    writer.writerow(titles)
    names = [title.partition(" [")[0] for title in titles]
    for row in rows:
        writer.writerow([cells.get(name, cell) for name, cell in zip(names, row, strict=True)])
    return written.getvalue()


def test_the_log_that_the_service_writes_comes_back_filled_in(client, judge_csv):
    """Loads are those of the plan; 2,500 lb held for the 15 s of the rule pass where no more was asked for."""
    text = filled(client, applied="2500", held_seconds="15", moved="no", inspector="K. Example", displacement="0.01")
    answer = judge_csv(text)
    plan = client.post(PLAN, json={"units": "us", "rule": "cbc_1910a_5", "items": job(3)}).json()["log"]
    assert [item["id"] for item in answer["items"]] == [row["id"] for row in plan]
    for item, row in zip(answer["items"], plan, strict=True):
        assert item["test_load"] == pytest.approx(row["test_load"], rel=1e-6)
        assert (item["inspector"], item["moved"], item["displacement"]) == ("K. Example", False, 0.01)
        assert item["applied"] == pytest.approx(2500)
        assert item["outcome"] == ("passed" if row["test_load"] <= 2500 * 1.001 else "repeat")


def test_a_judged_log_comes_back_and_is_judged_alike(client):
    """What the judgement found is found again and not doubled; a column of somebody's own is handed back."""
    text = filled(client, applied="900 lb", held_seconds="15", moved="N", findings="below-the-load; moved")
    head, *rows = text.splitlines()
    own = "\n".join([f"{head},remark,Ref", *(f"{row},as seen,R{at}" for at, row in enumerate(rows))]) + "\n"
    headers = {"Content-Type": "text/csv"}
    query = "?rule=cbc_1910a_5&notes=Ref"
    first = client.post(f"{LOG}{query}", content=own, headers=headers)
    assert first.headers["content-type"].startswith("text/csv"), first.text
    (row, *_) = csv.DictReader(io.StringIO(first.text))
    assert (row["outcome"], row["remark"], row["Ref"]) == ("repeat", "as seen", "R0")
    assert row["findings"] == "below-the-load; load-not-reached"
    second = client.post(f"{LOG}{query}", content=first.content, headers=headers)
    assert second.text == first.text


@pytest.mark.parametrize(
    ("title", "cell", "column", "says"),
    [
        ("applied [lbf]", "~1900", "applied [lbf]", "This says about"),
        ("applied [lbf]", "1,900", "applied [lbf]", "write 1900 without separators"),
        ("applied [lbf]", "8.4 kN m", "applied [lbf]", "Behind 8.4 kN stands more"),
        ("moved", "a bit", "moved", "neither yes nor no"),
        ("held_seconds [s]", "15 s", "held_seconds [s]", "number"),
        ("test_load [lbf]", "0", "test_load [lbf]", "above zero"),
        ("held_seconds [s]", "", "held_seconds [s]", "how long"),
    ],
)
def test_a_bad_cell_of_a_log_costs_its_row(judge_csv, title, cell, column, says):
    good = {"id": "A1", "test_load [lbf]": "1875", "applied [lbf]": "1880", "held_seconds [s]": "15", "moved": "no"}
    rows = [good, {**good, "id": "A2", title: cell}]
    text = io.StringIO()
    writer = csv.DictWriter(text, list(good))
    writer.writeheader()
    writer.writerows(rows)
    answer = judge_csv(text.getvalue())
    assert answer["summary"] == {
        **dict.fromkeys(("failed", "repeat", "overloaded", "open"), 0),
        "total": 2,
        "passed": 1,
        "invalid": 1,
    }
    (error,) = answer["items"][1]["problem"]["errors"]
    assert (error["line"], error["column"]) == (3, column)
    assert error.get("cell", "") == cell
    assert says in error["detail"]


def test_a_judged_csv_names_a_bad_cell_by_line_and_column(client):
    text = "id,test_load [lbf],applied [lbf],held_seconds\nA1,1875,1880,15\nA2,1875,much,15\n"
    response = client.post(f"{LOG}?rule=cbc_1910a_5", content=text, headers={"Content-Type": "text/csv"})
    assert response.status_code == 200
    bad = list(csv.DictReader(io.StringIO(response.text)))[1]
    assert bad["outcome"] == "invalid"
    assert bad["problem"].startswith('line 3, column "applied [lbf]": not a force')


@pytest.mark.parametrize(
    ("header", "query", "pointer", "says"),
    [
        ("id,test_load [lbf]", "", "?rule", "in the query"),
        ("id,test_load [lbf]", "?rule=mine", "?rule", "none of the words"),
        ("id,test_load [lbf]", "?rule=iebc_urm&displacement_limit=soon", "?displacement_limit", "not a length"),
        ("id,test_load [lbf]", "?rule=iebc_urm&detail=trace", "?detail", "no such name"),
        ("id,Proof Load", "?rule=iebc_urm", "#/header/2", "write the one that is meant"),
        ("id,test_load [lbf],Movement", "?rule=iebc_urm", "#/header/3", "write the one that is meant"),
        ("id,test_load [lbf],Tested by", "?rule=iebc_urm", "#/header/3", "write the one that is meant"),
        ("id,test_load [lbf],Zebra", "?rule=iebc_urm", "#/header/3", "POST /v1/test-plans"),
        ("id,product", "?rule=iebc_urm", "#/header", "test_load is missing"),
    ],
)
def test_what_ends_a_log_as_csv(judge_csv, header, query, pointer, says):
    problem = judge_csv(f"{header}\nA1,1875,x\n", query, status=422)
    (error,) = problem["errors"]
    assert error["pointer"] == pointer
    assert says.casefold() in error["detail"].casefold()


def test_a_limit_in_the_query_of_a_log(judge_csv):
    """1/16 in = 0.0625 in; 0.07 in is above it and fails, 0.06 in passes."""
    text = (
        "id;test load [kN];applied;held seconds;displacement;moved;hold_seconds\n"
        "A1;8,34;8,4 kN;15;0,06 in;N;15\nA2;8,34;8,4 kN;15;0,07 in;N;15\nTotal;16,68;;;;;\n"
    )
    answer = judge_csv(text, "?rule=cbc_1910a_5&displacement_limit=1/16 in&decimal=,&units=si")
    assert [item.get("outcome", "invalid") for item in answer["items"]] == ["passed", "failed", "invalid"]
    assert answer["items"][2]["problem"]["errors"][0]["code"] == "line-of-totals"
    assert answer["items"][0]["test_load"] == 8.34
