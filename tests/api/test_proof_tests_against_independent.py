"""Plans of proof tests of random jobs against one of our own code (`independent_proof`), and their logs sent back."""

import csv
import io
import math
import random

import openpyxl
import pytest

from api.independent_proof import RULES, USES, concrete, plan, wants
from api.independent_scalar import families, products

PLAN, LOG = "/v1/test-plans", "/v1/test-logs"
KNOWN = families()
CODES = {"qualified", "cast_in", "allowable_table", "adhesive"}
PRODUCTS = [each for each in products(KNOWN) if each[0]["basis"] in CODES]
NAMES = ("L1", "=1+1", "@x", "-2", "+A", "Уровень 3", "'quoted", None)
SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")
BAD = (
    {"load": "0 lb"},
    {"load": "-3 kN"},
    {"basis": "someone's"},
    {"anchor": {"family": "none-such", "size": "3/8", "h_ef": "2 in"}},
)


def base_of(r):
    edges = dict.fromkeys(SIDES, "none")
    if r.random() < 0.5:
        edges[r.choice(SIDES)] = r.choice(("4 in", "6.5 in", "250 mm", "30 in"))
    made = {"kind": "concrete", "strength": {"f_c": r.choice(("2500 psi", "3000 psi", "4000 psi", "6000 psi"))}}
    made |= {"density": "normalweight", "thickness": "40 in", "edges": edges}
    if r.random() < 0.5:
        made |= {"state": "uncracked", "state_decided_by": "engineer"}
    return made


def item_of(r, at, bases):
    family, size, embedment = r.choice(PRODUCTS)
    unit = "in" if family["units"] == "us" else "mm"
    anchor = {"family": family["id"], "size": size["size"], "h_ef": f"{embedment['h_ef']} {unit}"}
    if r.random() < 0.1:
        anchor["layout"] = [{"x": f"{60 * place} in", "y": 0} for place in range(r.randrange(2, 4))]
    made = {"id": f"{r.choice(('P', '=', '@', '-', '+', 'é'))}{at}", "anchor": anchor, "basis": r.choice(bases)}
    load = r.randrange(50, 12_000)
    made["load"] = r.choice((f"{load} lb", f"{load / 250} kN", f"{load / 1000} kip", load / 220))
    if r.random() < 0.7:
        made["use"] = r.choice(USES)
    for name in ("level", "area", "crew", "day"):
        value = r.choice(NAMES)
        if value is not None and r.random() < 0.5:
            made[name] = value
    if r.random() < 0.5 and "layout" not in anchor:
        made["base"] = base_of(r)
    return made


def job_of(seed, count):
    r = random.Random(seed)
    rule = r.choice(tuple(RULES))
    items = [item_of(r, at, tuple(RULES[rule][0])) for at in range(count)]
    bad = {at for at in range(count) if r.random() < 0.06}
    for at in bad:
        items[at] = {**items[at], **r.choice(BAD)}
    return {"units": r.choice(("us", "si")), "rule": rule, "items": items}, bad


def near(one, other, rel=1e-9):
    return math.isclose(one, other, rel_tol=rel)


def same_tests(answer, rows, unit):
    """Loads and what is said of them; the concrete where our code knows it."""
    of_anchor = {name: row for row in rows for name in row["anchors"]}
    compared = 0
    for test in answer["log"]:
        row = of_anchor[test["id"]]
        assert near(test["test_load"] * unit, row["test"])
        assert near(test["most_load"] * unit, row["most"])
        codes = {each["code"] for each in test["findings"]}
        steel = {"capped-by-yield", "below-the-least-of-the-rule", "below-the-load"}
        assert codes & steel == wants(row), (test, row)
        base = row["item"].get("base")
        if base is None or row["confined"]:
            continue
        strengths = concrete(*row["product"], base | {"f_c_psi": base["strength"]["f_c"].split()[0]}, "in")
        if strengths:
            compared += 1
            assert ("above-the-concrete" in codes) is (row["test"] > min(strengths.values())), (test, row, strengths)
            told = next((each["text"] for each in test["findings"] if each["code"] == "above-the-concrete"), None)
            if told:
                figure = float(told.split(", ")[1].split()[0].replace(",", ""))
                assert near(figure * unit, min(strengths.values()), 6e-4)
    return compared


@pytest.mark.parametrize("seed", range(40))
def test_a_random_plan_by_our_own_count(client, seed):
    request, bad = job_of(seed, (1, 5, 40, 150)[seed % 4])
    response = client.post(PLAN, json=request)
    assert response.status_code == 200, response.text[:600]
    answer = response.json()
    rows, counts = plan(request, KNOWN, bad)
    unit = 1000 / 4.4482216152605 if request["units"] == "si" else 1
    assert {item["index"] for item in answer["items"] if "problem" in item} == bad
    same_tests(answer, rows, unit)
    assert [(each["installed"], each["strata"], each["tests"]) for each in answer["groups"]] == [
        own[:3] for own in counts
    ]
    chosen = {test["id"] for test in answer["log"]}
    for *_, tests, anchors in counts:
        assert sum(name in chosen for name, _ in anchors) == tests
        assert {place for name, place in anchors if name in chosen} == {place for _, place in anchors}
    for group in answer["groups"]:
        own = next(row for row, item in zip(rows, planned(answer), strict=True) if item["group"] == group["group"])
        assert group["method"] == ("confined" if own["confined"] else "unconfined")
        if not own["confined"]:
            far = 1 / 25.4 if request["units"] == "si" else 1
            assert near(group["support_distance"] * far, 2 * own["h_ef"])


def planned(answer):
    return [item for item in answer["items"] if "problem" not in item]


@pytest.mark.parametrize("seed", range(0, 40, 5))
def test_a_blank_log_filled_in_comes_back_with_its_ids(client, seed):
    """As CSV, with whatever a spreadsheet would take for a formula; each test judged as its row says."""
    request, bad = job_of(seed, 30)
    request["items"] = [own for at, own in enumerate(request["items"]) if at not in bad]
    answer = client.post(PLAN, json=request).json()
    blank = client.post(f"{PLAN}?format=csv", json=request).text
    book = openpyxl.load_workbook(io.BytesIO(client.post(f"{PLAN}?format=xlsx", json=request).content))
    force = f"[{answer['units']['force']}]"
    rows = list(csv.DictReader(io.StringIO(blank, newline="")))
    sheet = book["Log"].iter_rows(values_only=True)
    titles = next(sheet)
    for row, test, cells in zip(rows, answer["log"], sheet, strict=False):
        own = dict(zip(titles, cells, strict=True))
        assert own["id"] == test["id"]
        assert type(own[f"test load {force}"]) in (int, float)
        assert near(own[f"test load {force}"], test["test_load"], 1e-6)
        assert near(float(row[f"most_load {force}"]), test["most_load"], 1e-6)
        row |= {f"applied {force}": str(1.0005 * float(row[f"test_load {force}"])), "moved": "no"}
        row |= {"held_seconds [s]": row["hold_seconds [s]"]}
    text = io.StringIO()
    writer = csv.DictWriter(text, list(rows[0]))
    writer.writeheader()
    writer.writerows(rows)
    query = f"?rule={request['rule']}&format=json"
    sent = {"content": text.getvalue().encode(), "headers": {"Content-Type": "text/csv"}}
    judged = client.post(f"{LOG}{query}", **sent).json()
    for item, test in zip(judged["items"], answer["log"], strict=True):
        assert (item["id"], item["outcome"]) == (test["id"], "passed"), item
        for name in ("level", "area", "crew", "day", "product", "use", "method"):
            assert item.get(name) == test.get(name)


HOLDS = {
    "cbc_1910a_5": 15,
    "iebc_urm": 300,
    "one_and_a_half_working_load": 60,
    "three_quarters_of_design_strength": 30,
}
GAUGE = 0.001


def outcome_of(row, rule, limit):
    """In the words of the address: moved fails whatever the load, above the steel is overloaded, else is repeated."""
    if row.get("moved") or (limit is not None and row.get("displacement", 0) > limit):
        return "failed"
    if "applied" not in row:
        return "open"
    if row["applied"] > row.get("most_load", math.inf) * (1 + GAUGE):
        return "overloaded"
    reached = row["applied"] >= row["test_load"] * (1 - GAUGE)
    held = row["held_seconds"] >= max(HOLDS[rule], row.get("hold_seconds", 0))
    measured = limit is None or "displacement" in row
    return "passed" if reached and held and measured else "repeat"


@pytest.mark.parametrize("seed", range(20))
def test_a_random_log_is_judged_as_its_words_say(client, seed):
    r = random.Random(seed)
    rule, limit = r.choice(tuple(RULES)), r.choice((None, 0.0625))
    rows = []
    for at in range(60):
        row = {"id": f"={at}", "test_load": r.choice((1000, 1875, 2500.5))}
        if r.random() < 0.8:
            row["applied"] = row["test_load"] * r.choice((0.9, 0.9985, 0.9995, 1, 1.002, 1.3))
            row |= {"held_seconds": r.choice((10, 15, 29, 30, 60, 299, 300)), "moved": r.random() < 0.1}
        if r.random() < 0.5:
            row["most_load"] = row["test_load"] * r.choice((1, 1.2))
        if r.random() < 0.5:
            row["displacement"] = r.choice((0, 0.06, 0.0625, 0.07))
        if r.random() < 0.3:
            row["hold_seconds"] = r.choice((5, 60, 300))
        rows.append(row)
    body = {"units": "us", "rule": rule, "items": rows} | ({} if limit is None else {"displacement_limit": limit})
    answer = client.post(LOG, json=body).json()
    assert [item["outcome"] for item in answer["items"]] == [outcome_of(row, rule, limit) for row in rows]
