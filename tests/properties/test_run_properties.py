"""Reactions of runs: what hangs is carried, by both models."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from hangpoint.core.hanger.run_reaction import MODELS, run_reaction
from properties.strategies import QUICK, spans


@st.composite
def runs(draw):
    """Spans, weights per foot, and point loads as (part of the length, weight)."""
    loads = draw(st.lists(st.tuples(st.floats(0.0, 1.0), st.floats(0.0, 500.0)), max_size=3))
    return draw(spans(8)), draw(st.floats(0.1, 100.0)), draw(st.floats(0.0, 100.0)), loads


def reactions(run, model, *, live=False, missing=-1):
    """`RunReaction` at every support of one run (all but the missing one)."""
    lengths, w_dead, w_fluid, loads = run
    supports = np.array([i for i in range(len(lengths) + 1) if i != missing])
    count = len(supports)
    return run_reaction(
        w_dead=np.full(count, w_dead),
        w_fluid=np.full(count, w_fluid),
        w_test=np.zeros(count),
        spans=np.tile(np.array(lengths), (count, 1)),
        span_count=np.full(count, len(lengths)),
        support=supports,
        missing=np.full(count, missing),
        model=np.full(count, MODELS.index(model), dtype=np.int8),
        load_run=np.repeat(np.arange(count), len(loads)),
        load_position=np.tile([part * sum(lengths) for part, _ in loads], count),
        load_weight=np.tile([weight for _, weight in loads], count),
        load_contents=np.zeros(count * len(loads), dtype=bool),
        load_live=np.full(count * len(loads), live),
    )


def hung(run):
    lengths, w_dead, w_fluid, loads = run
    return sum(lengths) * w_dead + sum(weight for _, weight in loads), sum(lengths) * w_fluid


@QUICK
@given(run=runs(), model=st.sampled_from(MODELS[1:]))
def test_reactions_add_up_to_the_load(run, model):
    dead, contents = hung(run)
    got = reactions(run, model)
    np.testing.assert_allclose(got.r_dead.sum(), dead, rtol=1e-11)
    np.testing.assert_allclose(got.r_contents.sum(), contents, rtol=1e-11, atol=1e-9)
    np.testing.assert_array_equal(got.r_live, np.zeros(len(got.r_live)))


@QUICK
@given(run=runs(), model=st.sampled_from(MODELS[1:]), data=st.data())
def test_reactions_add_up_with_a_support_missing(run, model, data):
    lengths, *rest = run
    run = (lengths * 2, *rest)
    missing = data.draw(st.integers(1, len(run[0]) - 1))
    dead, contents = hung(run)
    got = reactions(run, model, missing=missing)
    np.testing.assert_allclose(got.r_dead.sum(), dead, rtol=1e-11)
    np.testing.assert_allclose(got.r_contents.sum(), contents, rtol=1e-11, atol=1e-9)


@QUICK
@given(runs())
def test_live_loads_add_up_and_never_relieve(run):
    """Hinged spans carry exactly the live load; by the continuous beam no hanger is relieved, so together not less."""
    live = sum(weight for _, weight in run[3])
    tributary, continuous = (reactions(run, model, live=True).r_live for model in ("tributary", "continuous"))
    np.testing.assert_allclose(tributary.sum(), live, rtol=1e-11, atol=1e-9)
    assert (tributary >= 0).all()
    assert (continuous >= 0).all()
    assert continuous.sum() >= live * (1 - 1e-11) - 1e-9


@QUICK
@given(runs())
def test_the_larger_model_is_never_below_either(run):
    larger, *named = (reactions(run, model) for model in MODELS)

    def total(got):
        return got.r_dead + got.r_contents + got.r_live

    for part in ("r_dead", "r_contents", "r_live"):
        either = np.max([getattr(each, part) for each in named], axis=0)
        np.testing.assert_allclose(getattr(larger, part), either, rtol=1e-12)
    assert total(larger).sum() >= sum(hung(run)) * (1 - 1e-11)


@QUICK
@given(run=runs(), model=st.sampled_from(MODELS))
def test_a_run_read_from_its_other_end(run, model):
    lengths, w_dead, w_fluid, loads = run
    backward = (lengths[::-1], w_dead, w_fluid, [(1.0 - part, weight) for part, weight in loads])
    here, there = reactions(run, model), reactions(backward, model)
    np.testing.assert_allclose(here.total, there.total[::-1], rtol=1e-9, atol=1e-9)
