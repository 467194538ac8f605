"""Large questions: what is checked hundreds of times is counted before, and what is far off is checked once."""

import pytest

from api.reverse_bodies import BOLT, PAIR, ROW, body
from api.test_check_rows import given
from hangpoint.api.reverse import asked, near_places, probes
from hangpoint.api.reverse.changes import displaced
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.near_places import near_at, outcomes_at
from hangpoint.api.reverse.probes import Situation, probe_sites

PATH = "/v1/relocations"
HOLE = {"depth": "2-1/2 in"}


@pytest.fixture
def situation(app):
    catalogue = app.state.hangpoint.catalogue
    return Situation(units="us", design_code=None, combinations=None, load_standard=None, catalogue=catalogue)


def at(name, x, y=20.0, *, of=PAIR):
    return merged({**of, "id": name, "at": {"level": "L1", "x": x, "y": y}}, {"hangs": {"weight": "2 kip"}})


def all_together(items, neighbours, situation):
    sites = probe_sites([[each, *neighbours] for each in items], situation)
    return [sites.outcomes(row) for row in range(len(items))]


def test_outcomes_are_those_of_all_together(situation, monkeypatch):
    """Bolts 18 in apart act together: a chain of three, a row, one far off; the point moves between them."""
    item = merged(at("A", 10), {"base": {"edges": {"y_plus": "30 in"}}})
    neighbours = [at("B", 12), at("C", 13), at("D", 40), at("R", 8, 20.5, of=ROW), at("E", 9, 30)]
    moves = [(dx, dy) for dx in (-60, -6, 0, 12, 20, 40) for dy in (-24, 0, 8, 31)]
    items = [displaced(item, dx, dy, "us") for dx, dy in moves]
    expected = all_together(items, neighbours, situation)
    assert len({each[0].status for each in expected}) > 1
    assert list(outcomes_at(items, neighbours, situation)) == expected
    monkeypatch.setattr(near_places, "AT_A_TIME", 30)
    assert list(outcomes_at(items, neighbours, situation)) == expected
    near = near_at(items, neighbours, situation)
    assert near[:, 0].tolist() == near[:, 1].tolist()
    assert near[:, 0].any()
    assert not near[:, 0].all()
    assert not near[:, 2].any()


def test_a_face_of_its_own_is_nobodys(situation):
    top = merged(at("T", 11), {"base": {"face": "top"}})
    assert near_at([at("A", 10)], [top, at("B", 11)], situation).tolist() == [[False, True]]


def test_neighbours_far_off_are_checked_once(asking_back, monkeypatch):
    seen = []

    def check(points, basis, **more):
        seen.append(points.count)
        return own(points, basis, **more)

    own = probes.check
    monkeypatch.setattr(probes, "check", check)
    request = body(at("A", 10), old_hole=HOLE)
    alone = asking_back.post(PATH, request)
    without = sum(seen)
    seen.clear()
    far = [at(f"F{place}", 100 + 10 * place) for place in range(20)]
    answer = asking_back.post(PATH, request | {"neighbours": far})
    assert sum(seen) == without + 20
    assert [each["outcome"] for each in answer["places"]] == [each["outcome"] for each in alone["places"]]


def rows(*cases):
    """An item and its neighbours with so many load cases each, all of them near."""
    item, *neighbours = (given(f"P{place}", own, x=place, layout=None) for place, own in enumerate(cases))
    return {**body(item, old_hole=HOLE, within="5 in"), "combinations": "given_factored", "neighbours": neighbours}


def test_rows_of_a_relocation_are_limited(asking_back, monkeypatch):
    """At its own place and at 8 that are 5 in off, two anchors in 3 + 2 cases; the neighbour's 2 twice more."""
    request = rows(3, 2)
    received = 9 * 2 * (3 + 2) + 2 * 2
    monkeypatch.setattr(near_places, "MAX_ROWS", received)
    assert asking_back.post(PATH, request)["tried"] == 8
    monkeypatch.setattr(near_places, "MAX_ROWS", received - 1)
    problem = asking_back.post(PATH, request, 413)
    assert (problem["limit"], problem["received"]) == (received - 1, received)
    assert "Look less far" in problem["detail"]


@pytest.mark.parametrize("path", ["/v1/remedies", "/v1/reverse-checks", "/v1/relocations", "/v1/sensitivities"])
def test_rows_of_an_item_are_limited(asking_back, path):
    """16 anchors in 8 load cases are 128 rows."""
    layout = {"pattern": "rectangle", "columns": 4, "rows": 4, "spacing_x": 6, "spacing_y": 6}
    more = {"/v1/reverse-checks": {"question": {"kind": "least_rod"}}, "/v1/relocations": {"old_hole": HOLE}}.get(path)
    if path == "/v1/sensitivities":
        more = {"changes": [{"name": "thicker", "patch": {"base": {"thickness": 12}}}]}
    request = {**body(given("A", 8, layout=layout), **(more or {})), "combinations": "given_factored"}
    if path != "/v1/relocations":
        asking_back.post(path, request)
    problem = asking_back.post(path, request | {"item": given("A", 9, layout=layout)}, 413)
    assert (problem["limit"], problem["received"]) == (128, 144)


def test_rows_of_a_pair_are_limited(asking_back):
    """Beside a neighbour each anchor has the load cases of both: 2 x (20 + 20) are 80, (1 + 4) x (20 + 20) are 200."""
    item = given("A", 20, x=0, layout=None)
    question = {"kind": "least_spacing", "towards": "x_plus"}
    request = {**body(item), "combinations": "given_factored"}
    kept = ("id", "hangs", "anchor", "seismic")
    for layout, status in (
        (None, 200),
        ({"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 6, "spacing_y": 6}, 413),
    ):
        neighbour = {name: own for name, own in given("B", 20, layout=layout).items() if name in kept}
        answer = asking_back.post(
            "/v1/reverse-checks", request | {"question": question | {"neighbour": neighbour}}, status
        )
    assert (answer["limit"], answer["received"]) == (128, 200)


def test_patterns_of_a_pair_are_limited(asking_back, monkeypatch):
    """1.4D and 1.2D+1.6L of both: 4 rows, and 4 x 4 in patterns of contents."""
    hangs = {"kind": "forces", "components": [{"nature": each, "tension": 100} for each in ("dead", "contents")]}
    item = given("A", 1, x=0, layout=None) | {"hangs": hangs}
    neighbour = {name: item[name] for name in ("anchor", "seismic")} | {"id": "B", "hangs": hangs}
    question = {"kind": "least_spacing", "towards": "x_plus", "neighbour": neighbour}
    request = {**body(item), "combinations": "strength", "question": question}
    monkeypatch.setattr(asked, "MAX_PAIR_ROWS", 20)
    asking_back.post("/v1/reverse-checks", request, 200)
    monkeypatch.setattr(asked, "MAX_PAIR_ROWS", 19)
    answer = asking_back.post("/v1/reverse-checks", request, 413)
    assert (answer["limit"], answer["received"]) == (19, 20)


def test_every_nature_of_one_anchor_is_no_large_question(asking_back):
    """114 load cases."""
    natures = (
        "dead",
        "contents",
        "live",
        "roof_live",
        "snow",
        "wind",
        "test",
        "thermal",
        "sprinkler_rule",
        "earthquake",
    )
    loads = [{"nature": nature, "tension": 100} for nature in natures]
    item = merged({**BOLT, "hangs": {"kind": "forces", "components": loads}}, {"seismic": {"s_ds": 0.5}})
    asking_back.post("/v1/remedies", body(item))
