"""How much a choice may ask for: anchors, load cases and candidates together, and what it explains. Invented points."""

import numpy as np
import pytest

from api.choosing_bodies import SELECTIONS, base, point, weight
from hangpoint.api.selection import opened
from hangpoint.core.selection import changes, pairs

CASES = 20
CANDIDATES = 284
"""Products with figures for ACI 318-19; those for another code are refused unchecked and don't count."""


def bracket(name, *, side, pounds, cases=CASES):
    """A square of anchors under a plate with named load cases."""
    loads = [
        {
            "name": f"case {at}",
            "sustained_fraction": 0.5,
            "earthquake_fraction": 0,
            "components": [{"nature": "dead", "tension": pounds + at, "shear_x": 50 + at}],
        }
        for at in range(cases)
    ]
    layout = {"pattern": "rectangle", "columns": side, "rows": side, "spacing_x": 6, "spacing_y": 6}
    return {
        "id": name,
        "hangs": {"kind": "forces", "load_cases": loads},
        "anchor": {"layout": layout},
        "attachment": {"thickness": 0.5},
        "base": base(thickness=12),
        "seismic": {"category": "A"},
    }


def request(*items):
    return {"units": "us", "combinations": "given_factored", "items": list(items)}


def unlike(number, side):
    """Points of which no two are one situation."""
    return [bracket(f"P{at}", side=side, pounds=200 + CASES * at) for at in range(number)]


def test_load_cases_count_in_the_limit(client):
    """40 points of 16 anchors are few enough anchors for all candidates, but not in 20 load cases each."""
    asked = 40 * 16 * CASES * CANDIDATES
    assert 40 * 16 * CANDIDATES <= opened.MAX_PAIRS < opened.MAX_ROWS < asked
    response = client.post(SELECTIONS, json=request(*unlike(40, 4)))
    problem = response.json()
    assert (response.status_code, problem["type"]) == (413, "/problems/too-many-items")
    assert f"{asked} anchors times load cases times candidates" in problem["detail"]
    assert "several requests" in problem["detail"]


@pytest.mark.parametrize(("cases", "tried"), [(2, True), (CASES, False)])
def test_what_many_load_cases_leave_unexplained_is_said(client, cases, tried):
    """64 anchors in 20 load cases are more than changes are tried for."""
    response = client.post(SELECTIONS, json=request(bracket("P", side=8, pounds=4e5, cases=cases)))
    (result,) = response.json()["items"]
    assert result["status"] == "not_held"
    assert result["nearest"]["tried"] is tried


def test_limits_are_served(client):
    limits = client.get("/v1/limits").json()
    assert limits["selection_anchors_by_load_cases_by_candidates"] == opened.MAX_ROWS
    assert limits["selection_anchors_by_load_cases_explained"] == opened.MAX_EXPLAINED_ROWS


def test_pairs_checked_in_parts_are_those_checked_at_once(client, monkeypatch):
    body = request(*unlike(3, 2))
    at_once = client.post(SELECTIONS, json=body).content
    monkeypatch.setattr(pairs, "BLOCK_ROWS", 100)
    assert client.post(SELECTIONS, json=body).content == at_once


def impossible():
    """Points that no product holds: too heavy, too near an edge, a sprinkler line, an anchor that is pressed."""
    near = base("2 in", thickness="4 in")
    run = {"spans": ["40 ft", "40 ft"], "support": 1}
    pipe = {"kind": "pipe", "material": "steel", "size": "8", "schedule": "40", "contents": "water", "run": run}
    side = base("30 in", thickness="12 in", face="side")
    pressed = {"kind": "forces", "components": [{"nature": "dead", "tension": "-200 lb", "shear_x": "800 lb"}]}
    bent = {"kind": "forces", "components": [{"nature": "dead", "tension": "9 kip", "shear_x": "14 kip"}]}
    row = {"layout": {"pattern": "row", "count": 3, "spacing": "6 in"}}
    yield point("heavy", 30000)
    yield point("near", 2500, on=near)
    yield point("rod", 5000, rod={"size": "3/8"})
    yield point("line", hangs=pipe | {"sprinkler": False})
    yield point("sprinkler", hangs=pipe | {"sprinkler": True})
    yield point("both", hangs=bent, anchor=row, on=side)
    yield point("pressed", hangs=pressed, anchor=row, on=side)
    yield point("live", hangs=weight(9000, "live"), category="D")


@pytest.mark.parametrize("want", [{}, {"objective": "minutes", "reserve": 0.3, "exposure": "damp"}])
def test_what_is_not_checked_again_could_not_hold(client, monkeypatch, want):
    """Candidates that a change can't help are left out of its checks; with every one checked the answer is the same."""
    body = {"units": "us", "want": want, "items": list(impossible())}
    quick = client.post(SELECTIONS, json=body)
    monkeypatch.setattr(changes, "_lost", lambda _, stated, *__, **___: np.zeros(stated.pair.shape, dtype=np.bool_))
    assert quick.content == client.post(SELECTIONS, json=body).content
    assert sum(len(each["nearest"]["changes"]) for each in quick.json()["items"] if each["status"] == "not_held") > 4
