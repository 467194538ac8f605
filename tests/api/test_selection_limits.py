"""How much a choice may ask for: anchors, load cases and candidates together, and what it explains. Invented points."""

import pytest

from api.choosing_bodies import SELECTIONS, base
from hangpoint.api.selection import opened
from hangpoint.core.selection import pairs

CASES = 20
CANDIDATES = 284


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
