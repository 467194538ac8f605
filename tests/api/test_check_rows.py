"""Anchors times load cases: counted as the chain lays them out, limited in a batch, checked part by part."""

import json

import numpy as np
import pytest

from api.reverse_bodies import BOLT
from hangpoint.api import batch as batches
from hangpoint.api import check_rows
from hangpoint.api.batch import basis_of, read_block
from hangpoint.api.bodies import read_batch
from hangpoint.api.item_ids import item_ids
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.core.hang_point.cases import case_counts, fixtures, lay_out_cases, most_cases, row_counts
from hangpoint.core.hang_point.turning import AS_STATED, Otherwise
from hangpoint.core.hang_point.weights import service_loads
from hangpoint.core.loads.combinations import CASES

SQUARE = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 6, "spacing_y": 6}
NATURES = ("dead", "live", "roof_live", "snow", "wind", "test", "thermal", "earthquake")


def given(name, cases, *, x=None, layout=SQUARE):
    loads = [
        {"name": f"{name} {case}", "components": [{"nature": "dead", "tension": 900 + case}]} for case in range(cases)
    ]
    place = {} if x is None else {"at": {"level": "L1", "x": x, "y": 0}}
    anchor = {"anchor": {"layout": layout}} if layout else {}
    return merged({**BOLT, "id": name, "hangs": {"kind": "forces", "load_cases": loads}}, place | anchor)


def request(*items, **members):
    return {"units": "us", "combinations": "given_factored", "detail": "verdict", "items": list(items), **members}


def columns(body, catalogue):
    batch = read_batch(json.dumps(body).encode())
    return read_block(batch, range(len(batch.items)), item_ids(batch), catalogue).packed.points, basis_of(batch)


@pytest.fixture
def catalogue(app):
    return app.state.hangpoint.catalogue


def test_cases_are_counted_as_they_are_laid_out(catalogue):
    """Each nature alone, all together, and none; by either edition."""
    loads = [[{"nature": nature, "tension": 100}] for nature in NATURES]
    loads.append([each for own in loads for each in own])
    bolt = merged(BOLT, {"seismic": {"s_ds": 0.5}})
    items = [{**bolt, "id": f"{at}", "hangs": {"kind": "forces", "components": own}} for at, own in enumerate(loads)]
    for standard in ("asce7_16", "asce7_22"):
        points, basis = columns({"units": "us", "items": items, "load_standard": standard}, catalogue)
        laid = lay_out_cases(points, service_loads(points, factored=False), fixture=fixtures(points), basis=basis)
        counts = case_counts(points, basis)
        assert counts.tolist() == np.bincount(laid.axis.point_of_case, minlength=points.count).tolist()
        assert points.count == len(items)
        assert len(set(counts.tolist())) > 3
        assert counts.max() <= most_cases(points, basis)


def test_cases_of_a_group_are_those_of_all_of_it(catalogue):
    points, basis = columns(request(given("A", 2), given("B", 3), given("C", 4)), catalogue)
    group = np.array([0, 0, 1])
    laid = lay_out_cases(
        points, service_loads(points, factored=True), fixture=fixtures(points), basis=basis, group=group
    )
    assert case_counts(points, basis).tolist() == [2, 3, 4]
    assert case_counts(points, basis, group).tolist() == [5, 5, 4]
    assert np.bincount(laid.axis.point_of_case).tolist() == [5, 5, 4]


def test_rows_of_a_batch_are_limited(client, monkeypatch):
    """4 anchors in 3 load cases and 4 in 2 are 20 rows; one by itself is not counted."""
    body = request(given("A", 3), given("B", 5, layout=None), given("C", 2))
    monkeypatch.setattr(check_rows, "MAX_BATCH_ROWS", 20)
    assert client.post("/v1/hang-points", json=body).status_code == 200
    monkeypatch.setattr(check_rows, "MAX_BATCH_ROWS", 19)
    problem = client.post("/v1/hang-points", json=body).json()
    assert (problem["status"], problem["limit"], problem["received"]) == (413, 19, 20)
    assert "several requests" in problem["detail"]


def against(name, x, *, live=(300, -200)):
    """Dead load and live loads, in 1.4D and 1.2D+1.6L; with both signs of tension checked in two ways more."""
    parts = [{"nature": "dead", "tension": 500}, *({"nature": "live", "tension": each} for each in live)]
    hangs = {"kind": "forces", "components": parts}
    return merged({**BOLT, "id": name, "hangs": hangs}, {"at": {"level": "L1", "x": x, "y": 0}}) | {
        "anchor": BOLT["anchor"] | {"layout": SQUARE}
    }


def test_rows_of_loads_against_each_other(client, catalogue, monkeypatch):
    """4 anchors in 2 load cases, three times; of points that share concrete each as often as any of them, and all of it
    in the four patterns of their live loads as well.
    """
    body = {"units": "us", "items": [against("A", 0), against("B", 1, live=(300,))]}
    points, basis = columns(body, catalogue)
    assert row_counts(points, basis).tolist() == [4 * 2 * 3, 4 * 2]
    assert row_counts(points, basis, np.array([0, 0])).tolist() == [4 * 2 * 3 * (1 + 4)] * 2
    monkeypatch.setattr(check_rows, "MAX_BATCH_ROWS", 239)
    assert client.post("/v1/hang-points", json=body).json()["received"] == 240
    assert client.post("/v1/hang-points", json=body | {"neighbours": "off"}).status_code == 200


def test_rows_of_points_that_share_concrete_are_limited(client, monkeypatch):
    """Alone 4 x 3 and 4 x 5 rows; together each of the 8 anchors has the 8 load cases of both."""
    body = request(given("A", 3, x=0), given("B", 5, x=1))
    monkeypatch.setattr(check_rows, "MAX_BATCH_ROWS", 63)
    assert client.post("/v1/hang-points", json=body).json()["received"] == 64
    assert client.post("/v1/hang-points", json=body | {"neighbours": "off"}).status_code == 200


def test_a_batch_in_parts_is_the_same(client, monkeypatch):
    """With neighbours, an invalid item and blocks of a few rows; the answers are the same to the byte."""
    broken = {**given("broken", 2), "base": {"kind": "concrete"}}
    items = [given(f"P{at}", 1 + at % 3, x=at * (1 if at % 4 else 3)) for at in range(12)]
    body = request(*items[:5], broken, *items[5:])
    whole = client.post("/v1/hang-points", json=body)
    seen = counted(monkeypatch)
    for module in (check_rows, batches):
        monkeypatch.setattr(module, "BLOCK_ROWS", 10)
    parts = client.post("/v1/hang-points", json=body)
    assert whole.status_code == 200
    assert {each["status"] for each in whole.json()["items"]} >= {"invalid", "passed"}
    assert parts.content == whole.content
    assert max(seen) <= 2
    assert len(seen) > 6


def counted(monkeypatch):
    """Points of each block that is checked without its neighbours."""
    seen = []

    def check(points, basis, **more):
        if points.sites is None:
            seen.append(points.count)
        return own(points, basis, **more)

    own = batches.check
    monkeypatch.setattr(batches, "check", check)
    return seen


def test_a_stream_in_parts_goes_on(client, monkeypatch):
    """No limit of a batch; of 12 rows an item those that begin below 30, 60, 90 rows are a part."""
    items = [given(f"P{at}", 3) for at in range(9)]
    lines = [{"units": "us", "combinations": "given_factored", "detail": "verdict"}, *items]
    body = b"\n".join(json.dumps(each).encode() for each in lines)
    headers = {"content-type": "application/x-ndjson"}
    whole = client.post("/v1/hang-points", content=body, headers=headers)
    seen = counted(monkeypatch)
    monkeypatch.setattr(check_rows, "MAX_BATCH_ROWS", 20)
    monkeypatch.setattr(check_rows, "BLOCK_ROWS", 30)
    parts = client.post("/v1/hang-points", content=body, headers=headers)
    assert parts.content == whole.content
    assert json.loads(parts.text.splitlines()[-1])["summary"]["total"] == 9
    assert seen == [3, 2, 3, 1]


def test_a_batch_without_a_valid_item(client):
    answer = client.post("/v1/hang-points", json=request({**given("A", 1), "base": {"kind": "concrete"}})).json()
    assert answer["summary"]["invalid"] == 1


def shaken(name, x):
    parts = [{"nature": "dead", "tension": 500}, {"nature": "earthquake", "tension": 50, "shear_x": 100}]
    moved = {"at": {"level": "L1", "x": x, "y": 0}, "seismic": {"s_ds": 0.5}}
    return merged({**BOLT, "id": name, "hangs": {"kind": "forces", "components": parts}}, moved)


def test_rows_of_near_points_count_every_sense_of_earthquake(client, catalogue, monkeypatch):
    """Three points: all cases as they are, and the cases of earthquake in three other senses; by itself each once."""
    body = {"units": "us", "items": [shaken(name, at) for at, name in enumerate("ABC")]}
    points, basis = columns(body, catalogue)
    loads, group = service_loads(points, factored=False), np.zeros(3, dtype=np.intp)
    laid, turned = (
        lay_out_cases(points, loads, fixture=fixtures(points), basis=basis, group=group, other=other)
        for other in (AS_STATED, Otherwise(turned=np.array([1.0, -1.0, 1.0])))
    )
    cases, again = (int(np.bincount(own.axis.point_of_case)[0]) for own in (laid, turned))
    assert {CASES[each].name for each in turned.axis.load_case} == {
        CASES[each].name for each in laid.axis.load_case if "E" in CASES[each].name
    }
    assert 0 < again < cases
    assert row_counts(points, basis, group).tolist() == [cases + 3 * again] * 3
    assert row_counts(points, basis).tolist() == [cases] * 3
    monkeypatch.setattr(check_rows, "MAX_BATCH_ROWS", 3 * (cases + 3 * again) - 1)
    problem = client.post("/v1/hang-points", json=body).json()
    assert (problem["status"], problem["received"]) == (413, 3 * (cases + 3 * again))
    assert client.post("/v1/hang-points", json=body | {"neighbours": "off"}).status_code == 200
