"""Searches for plans end by what they have done, not by the time it took."""

import numpy as np
import pytest
from scipy import optimize

from hangpoint.core.selection import program
from hangpoint.core.selection.job import Limits, plan

SECONDS = 300.0


def hard_job():
    """Points that no few of the products hold: the search does not end at its first node."""
    draw = np.random.default_rng(7)
    holds = draw.random((40, 25)) < 0.35
    return {
        "holds": holds,
        "anchors": draw.integers(1, 5, 40).astype(float),
        "cost": np.round(draw.uniform(1, 5, 25), 2),
        "order": np.arange(25),
        "bit": draw.integers(0, 8, 25),
        "family": draw.integers(0, 8, 25),
    }


@pytest.fixture
def asked(monkeypatch):
    found = []

    def milp(*arguments, options, **more):
        found.append(dict(options))
        return own(*arguments, options=options, **more)

    own = optimize.milp
    monkeypatch.setattr(optimize, "milp", milp)
    return found


def test_a_search_is_cut_off_by_its_work(asked, monkeypatch):
    whole = plan(**hard_job(), limits=Limits(products=8), seconds=SECONDS)
    monkeypatch.setattr(program, "_WORK", 1)
    cut = plan(**hard_job(), limits=Limits(products=8), seconds=SECONDS)
    again = plan(**hard_job(), limits=Limits(products=8), seconds=2 * SECONDS)
    assert [each["node_limit"] for each in asked[1:]] == [1, 1]
    assert asked[0]["node_limit"] > 1
    assert cut.gap > 0
    assert whole.cost <= cut.cost
    assert cut.bound <= whole.cost
    assert (again.cost, again.candidate.tolist()) == (cut.cost, cut.candidate.tolist())


def test_what_was_found_when_time_ran_out_is_not_used(monkeypatch):
    def milp(*arguments, **more):
        found = own(*arguments, **more)
        found.status = 1
        return found

    own = optimize.milp
    monkeypatch.setattr(optimize, "milp", milp)
    with pytest.raises(TimeoutError):
        plan(**hard_job(), limits=Limits(products=8), seconds=SECONDS)
