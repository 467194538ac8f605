"""Runs of run items and of trapezes, their point loads, and risers: columns in core units, flaws at their places."""

import numpy as np
import pytest

from hangpoint.core.hanger.run_reaction import MODELS
from pack.hanger_items.builders import (
    DUCT,
    EQUIPMENT,
    KG,
    KN,
    PIPE,
    RISER,
    RUN,
    TRAPEZE,
    M,
    assumed,
    close,
    columns,
    flaws_of,
    only_flaw,
    unchecked,
)


def run_item(**run):
    return RUN | {"run": RUN["run"] | run}


def trapeze_run(**run):
    return TRAPEZE | {"run": run}


def test_a_run():
    item = run_item(spans=[3.1, 2.3, 4.7], start_overhang=0.4, end_overhang=0.7, missing_hanger=2, model="hinged")
    runs = columns(RISER, item, system="si").runs
    assert runs.item.tolist() == [1]
    close(runs.spans[0], 3.1 * M, 2.3 * M, 4.7 * M)
    close([runs.start[0], runs.end[0]], 0.4 * M, 0.7 * M)
    assert (runs.span_count.tolist(), runs.support.tolist(), runs.missing.tolist()) == ([3], [0], [2])
    assert MODELS[runs.model[0]] == "hinged"


@pytest.mark.parametrize("model", ["larger", "tributary", "continuous", "hinged"])
def test_models(model):
    runs = columns(run_item(model=model), trapeze_run(spans=[8, 9], support=1, model=model)).runs
    assert [MODELS[code] for code in runs.model.tolist()] == [model, model]


def test_runs_of_both_kinds_rise_by_item():
    runs = columns(
        trapeze_run(spans=[7, 8, 9, 10], support=3),
        RISER,
        run_item(spans=[5]),
        EQUIPMENT,
        trapeze_run(spacing="96 in"),
        run_item(missing_hanger="any"),
    ).runs
    assert runs.item.tolist() == [0, 2, 4, 5]
    assert runs.spans.tolist() == [[7, 8, 9, 10], [5, 0, 0, 0], [8, 8, 0, 0], [10, 8, 10, 0]]
    assert runs.span_count.tolist() == [4, 1, 2, 3]
    assert runs.support.tolist() == [3, 0, 1, 0]
    assert runs.missing.tolist() == [-1, -1, -1, -2]
    assert [MODELS[code] for code in runs.model.tolist()] == ["larger", "larger", "tributary", "larger"]
    close([runs.start, runs.end], [0, 0, 0, 0], [0, 0, 0, 0])


def test_a_lone_spacing_is_two_spans():
    runs = columns(trapeze_run(spacing=3.0), system="si").runs
    close(runs.spans, [3 * M, 3 * M])
    assert (runs.support.tolist(), runs.span_count.tolist()) == ([1], [2])


def test_point_loads():
    """20 kg weigh 20/0.45359237 lbf; alike ones at one place add up; live is what says so."""
    first = run_item(
        start_overhang=2,
        point_loads=[{"at": -1.5, "weight": "20 kg", "number": 3}, {"at": "15 ft", "weight": 7, "nature": "live"}],
    )
    second = run_item(point_loads=[{"at": 28, "weight": 5, "nature": "contents"}])
    loads = columns(first, TRAPEZE, run_item(), second).run_loads
    assert loads.row.tolist() == [0, 0, 3]
    close(loads.position, -1.5, 15, 28)
    close(loads.weight, 60 * KG, 7, 5)
    assert loads.live.tolist() == [False, True, False]
    si = columns(run_item(point_loads=[{"at": 8.0, "weight": 0.3}]), system="si").run_loads
    close([si.position[0], si.weight[0]], 8 * M, 0.3 * KN)


def test_a_load_at_the_tip_stays_on_the_run():
    """28 ft are 8.5344 m: what rounding puts beyond the end is on it."""
    loads = columns(run_item(point_loads=[{"at": "8.5344 m", "weight": 5}])).run_loads
    assert loads.position.tolist() <= [28]


def test_risers():
    risers = columns(RUN, RISER | {"length": 12.0}, EQUIPMENT, RISER | {"supports": 1, "model": "equal"}, system="si")
    risers = risers.risers
    assert risers.item.tolist() == [1, 3]
    close(risers.length, 12 * M, 40 * M)
    assert risers.supports.tolist() == [3, 1]
    assert risers.one_carries.tolist() == [True, False]


FLAWS = [
    (run_item(spans=[10, 0]), "run/spans/1", "quantity", "quantity"),
    (run_item(spans=["0.11 in"]), "run/spans/0", "quantity", "quantity"),
    (run_item(spans=["20000 ft"]), "run/spans/0", "quantity", "quantity"),
    (run_item(start_overhang="20000 ft"), "run/start_overhang", "quantity", "quantity"),
    (run_item(missing_hanger=0), "run/missing_hanger", "validation", "contradiction"),
    (run_item(missing_hanger=3), "run/missing_hanger", "validation", "contradiction"),
    (run_item(spans=[10], missing_hanger="any"), "run/missing_hanger", "validation", "contradiction"),
    (run_item(point_loads=[{"at": 28.1, "weight": 1}]), "run/point_loads/0/at", "validation", "out-of-range"),
    (
        run_item(point_loads=[{"at": 1, "weight": 1}, {"at": -0.1, "weight": 1}]),
        *("run/point_loads/1/at", "validation", "out-of-range"),
    ),
    (run_item(point_loads=[{"at": 1, "weight": "2e6 kip"}]), "run/point_loads/0/weight", "quantity", "quantity"),
    (trapeze_run(), "run/spacing", "validation", "missing"),
    (trapeze_run(spacing=8, spans=[8, 8], support=1), "run/spacing", "validation", "contradiction"),
    (trapeze_run(spacing=8, support=1), "run/spacing", "validation", "contradiction"),
    (trapeze_run(spacing=0), "run/spacing", "quantity", "quantity"),
    (trapeze_run(spacing=8, model="continuous"), "run/model", "validation", "contradiction"),
    (trapeze_run(spans=[8, 8]), "run/support", "validation", "missing"),
    (trapeze_run(support=1), "run/spans", "validation", "missing"),
    (trapeze_run(spans=[8, 8], support=3), "run/support", "validation", "out-of-range"),
    (RISER | {"length": 0}, "length", "quantity", "quantity"),
]


@pytest.mark.parametrize(("item", "place", "slug", "code"), FLAWS)
def test_a_flaw_of_a_run(item, place, slug, code):
    assert flaws_of(item) == [(place, slug, code)]


def test_which_hangers_may_be_missing_is_said():
    flaw = only_flaw(run_item(missing_hanger=3))
    assert "hangers 1 to 2" in flaw.detail
    assert flaw.allowed == ("1", "2", "any")
    assert "hanger 1 stands" in only_flaw(run_item(spans=[5, 5], missing_hanger=2)).detail
    assert "supports 0 to 2" in only_flaw(trapeze_run(spans=[8, 8], support=3)).detail


def test_what_is_assumed_of_runs():
    items = [
        run_item(),
        run_item(model="larger"),
        trapeze_run(spacing=8),
        trapeze_run(spacing=8, model="tributary"),
        trapeze_run(spans=[8, 8], support=1),
        RISER,
        RISER | {"model": "one_carries_all"},
        run_item(point_loads=[{"at": 1, "weight": 1, "nature": "dead"}, {"at": 1, "weight": 1}]),
        run_item(point_loads=[{"at": 1, "weight": 1, "nature": "dead"}]),
    ]
    found = assumed(*items)
    codes = {
        "larger-model": [0, 4, 7, 8],
        "one-spacing": [2, 3],
        "straight-run-assumed": [0, 1, 2, 3, 4, 7, 8],
        "one-support-carries-the-riser": [5],
        "point-load-dead-assumed": [7],
    }
    assert {code: [at for at, each in enumerate(found) if code in each] for code in codes} == codes


def test_the_loss_of_a_hanger_is_checked_where_one_is_said_to_be_missing():
    found = unchecked(run_item(), run_item(missing_hanger=1), run_item(missing_hanger="any"), RISER, TRAPEZE, EQUIPMENT)
    assert ["loss-of-a-hanger" in each for each in found] == [True, False, False, True, True, True]


def test_a_mass_on_a_run_is_told():
    heavy, light = ({"at": 1, "weight": weight} for weight in ("20 kg", 20))
    found = assumed(run_item(point_loads=[light, heavy]), run_item(point_loads=[light]))
    assert ["mass-by-standard-gravity" in each for each in found] == [True, False]


def test_several_lines_of_one_item_flag_that_item_alone():
    """Two items with two lines in all, both of the second: flags follow the item, not the number of rows."""
    tier = {"bar": {"weight": 2}, "lines": [{"at": 1, "line": DUCT}, {"at": 2, "line": PIPE}]}
    found = assumed(EQUIPMENT, TRAPEZE | {"tiers": [tier]})
    assert ["no-insulation-assumed" in each for each in found] == [False, True]
    assert np.array(["duct-reinforcement-assumed" in each for each in found]).tolist() == [False, True]
