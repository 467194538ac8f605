"""One job in every form of answer: cells of the CSV, cells of the workbook and lines say what the JSON says."""

import csv
import io
import json
import random

import openpyxl
import pytest

from api.bodies import SLAB
from api.independent_scalar import unguarded
from hangpoint.api.media import NDJSON

PATH = "/v1/hang-points"
LONG = "階=" * 128
TEXTS = ("L1", "=1+1", "@x", "-2", "\tL", "+A1", "a;b", 'say "8 in"', "two\nlines", "'quoted", LONG, "1e5", "007")
FORCES = ("dead", "contents", "live", "sprinkler", "factored_tension", "sustained_tension", "factored_shear")
BAD = (
    {"base": {"thickness": "1 in"}},
    {"anchor": {"family": "none-such"}},
    {"hangs": {"kind": "weight", "weight": "much", "nature": "dead"}},
    {"nonsense": 1},
)


def item_of(r, at):
    made = {"id": f"{r.choice(TEXTS)[:50]}{at}", "at": {"level": r.choice(TEXTS), "x": -30 * at, "y": 0}}
    loads = [{"nature": nature, "tension": r.randrange(-200, 2500)} for nature in r.sample(("dead", "live", "snow"), 2)]
    if r.random() < 0.3:
        loads[0]["shear_x"] = r.randrange(-500, 500)
    made["hangs"] = {"kind": "forces", "components": loads}
    made["tags"] = [r.choice(TEXTS)]
    if r.random() < 0.2:
        made["anchor"] = {"family": "ceiling-screw-eye-zinc", "size": "1/4", "h_ef": "1-1/4 in"}
    if r.random() < 0.3:
        made["base"] = {"state": "uncracked", "state_decided_by": r.choice(TEXTS)}
    if r.random() < 0.1:
        made |= r.choice(BAD)
    return made


def job_of(seed):
    r = random.Random(seed)
    units = r.choice(("us", "si"))
    items = [item_of(r, at) for at in range(r.choice((1, 30, 200)))]
    if units == "si":
        items = json.loads(json.dumps(items))
        for item in items:
            for part in item["hangs"].get("components", ()):
                part.update({name: value / 250 for name, value in part.items() if name != "nature"})
    return {"units": units, "neighbours": "off", "detail": "verdict", "defaults": SLAB, "items": items}


def joined(codes):
    return ";".join(codes) or None


def row_of(item, force):
    """The cells that an item of the JSON asks for, by title."""
    governing, demand = item.get("governing", {}), item.get("demand", {})
    problem = next(iter(item.get("problem", {}).get("errors", ())), {})
    return {
        "id": item["id"],
        "row": item["index"] + 1,
        "status": item["status"],
        "on_assumptions": item.get("on_assumptions"),
        "state_decided_by": item.get("state_decided_by"),
        "product": item.get("product", {}).get("address"),
        "product_data": item.get("product", {}).get("data"),
        "weakest_link": item.get("weakest_link"),
        "governing_mode": governing.get("mode"),
        "governing_load_case": governing.get("load_case"),
        "utilisation": governing.get("utilisation"),
        **{f"{name} [{force}]": demand.get(name) for name in FORCES},
        "reason": item.get("reason", {}).get("code"),
        "pointer": problem.get("pointer"),
        "findings": joined(f"{each['severity']}:{each['code']}" for each in item.get("findings", ())),
        "assumptions": joined(item.get("assumptions", ())),
        "not_checked": joined(item.get("not_checked", ())),
        "to_engineer": joined(each["code"] for each in item.get("to_engineer", ())),
        "load_level": demand.get("level"),
    }


def same_as_csv(cell, value):
    if isinstance(value, bool):
        assert cell == ("true" if value else "false")
    elif isinstance(value, int | float):
        assert float(cell) == value
    else:
        assert unguarded(cell) == (value or "")


@pytest.mark.parametrize("seed", range(12))
def test_every_form_says_the_same(client, seed):
    body = job_of(seed)
    answer = client.post(PATH, json=body).json()
    force = answer["units"]["force"]
    text = client.post(f"{PATH}?format=csv", json=body).text
    table = list(csv.DictReader(io.StringIO(text, newline="")))
    book = openpyxl.load_workbook(io.BytesIO(client.post(f"{PATH}?format=xlsx", json=body).content))
    assert not [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]
    sheet = book["Schedule"].iter_rows(values_only=True)
    titles = next(sheet)
    for item, row, cells in zip(answer["items"], table, sheet, strict=True):
        of_book = dict(zip(titles, cells, strict=True))
        for title, value in row_of(item, force).items():
            same_as_csv(row[title], value)
            if isinstance(value, int | float) and not isinstance(value, bool):
                assert type(of_book[title]) in (int, float)
                assert of_book[title] == pytest.approx(value, rel=1e-14)
            elif not isinstance(value, bool):
                assert of_book[title] == (value or None), title
    assert {row["status"] for row in table} == {item["status"] for item in answer["items"]}
    lines = [json.loads(line) for line in client.post(f"{PATH}?format=ndjson", json=body).text.splitlines()]
    assert lines[-1]["summary"] == answer["summary"]
    assert [line for line in lines if "index" in line and "status" in line] == answer["items"]


@pytest.mark.parametrize("seed", range(6))
def test_a_job_sent_in_lines_is_answered_alike(client, seed):
    """Problems point into a line in place of an item."""
    body = job_of(seed)
    sent = [{name: part for name, part in body.items() if name != "items"}, *body["items"]]
    content = "\n".join(json.dumps(line) for line in sent)
    lines = client.post(PATH, content=content, headers={"Content-Type": NDJSON}).text.splitlines()
    found = [json.loads(line) for line in lines]
    answer = client.post(PATH, json=body).json()
    assert found[-1]["summary"] == answer["summary"]
    results = [line for line in found if "index" in line and "status" in line]
    for line, item in zip(results, answer["items"], strict=True):
        assert {**line, "problem": None} == {**item, "problem": None}
        assert ("problem" in line) is ("problem" in item)
