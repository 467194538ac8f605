"""What must hold of a batch of hang points whatever is in it: no outside value, only reasons."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from core.builders import FACTORED_LOADS, SERVICE_LOADS, points
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.vocabulary import Link, Severity
from properties.strategies import point_rows, points_of

CHAIN = settings(deadline=None, max_examples=40)
BASES = st.sampled_from([SERVICE_LOADS, FACTORED_LOADS])
SAME = {"rtol": 1e-13, "atol": 0.0}


@CHAIN
@given(st.lists(point_rows(), min_size=2, max_size=5), BASES)
def test_batch_is_the_stack_of_singles(rows, basis):
    """Verdicts, demands, modes and findings of a batch are those of each point alone, in order."""
    batch = check(points_of(rows), basis)
    singles = [check(points_of([row]), basis) for row in rows]
    for name in ("refusal", "failed", "governing", "next_case"):
        np.testing.assert_array_equal(getattr(batch, name), np.concatenate([getattr(one, name) for one in singles]))
    for name in ("utilisation", "next_utilisation"):
        np.testing.assert_allclose(getattr(batch, name), np.concatenate([getattr(o, name) for o in singles]), **SAME)
    for name in ("dead", "contents", "live", "sprinkler", "factored", "sustained", "shear", "load_case"):
        alone = np.concatenate([getattr(one.demand, name) for one in singles])
        np.testing.assert_allclose(getattr(batch.demand, name), alone, rtol=1e-12, atol=1e-9)
    for place, mode in enumerate(batch.modes):
        alone = [one.modes[place] for one in singles]
        assert {one.mode for one in alone} == {mode.mode}
        for name in ("applies", "load_case", "edge"):
            np.testing.assert_array_equal(getattr(mode, name), np.concatenate([getattr(one, name) for one in alone]))
        without = ~mode.applies & (batch.refusal == ACCEPTED)
        reasons = np.concatenate([one.reason for one in alone])
        np.testing.assert_array_equal(mode.reason[without], reasons[without])
        for name in ("design_strength", "demand", "utilisation"):
            stacked = np.concatenate([getattr(one, name) for one in alone])
            np.testing.assert_allclose(getattr(mode, name), stacked, rtol=1e-12, atol=1e-12)
    for row, single in enumerate(singles):
        in_batch = {c.finding for c in batch.findings if c.holds[row]}
        assert in_batch == {c.finding for c in single.findings if c.holds[0]}


@CHAIN
@given(st.lists(point_rows(), min_size=1, max_size=5), BASES)
def test_order_of_points_does_not_matter(rows, basis):
    there, back = check(points_of(rows), basis), check(points_of(rows[::-1]), basis)
    np.testing.assert_array_equal(there.refusal, back.refusal[::-1])
    np.testing.assert_array_equal(there.failed, back.failed[::-1])
    np.testing.assert_allclose(there.utilisation, back.utilisation[::-1], rtol=1e-12, atol=1e-12)


@CHAIN
@given(st.lists(point_rows(), min_size=1, max_size=5), BASES)
def test_every_number_is_finite(rows, basis):
    verdicts = check(points_of(rows), basis)
    for mode in verdicts.modes:
        for values in (mode.design_strength, mode.demand, mode.utilisation):
            assert np.isfinite(values).all(), mode.mode
        assert (mode.design_strength[mode.applies] > 0).all()
    for name in ("dead", "contents", "live", "sprinkler", "factored", "sustained", "shear"):
        assert np.isfinite(getattr(verdicts.demand, name)).all(), name
    for column in verdicts.findings:
        assert np.isfinite(column.value[column.holds]).all(), column.finding
        assert np.isfinite(column.limit[column.holds]).all(), column.finding
    assert np.isfinite(verdicts.utilisation).all()
    assert np.isfinite(verdicts.next_utilisation).all()


@CHAIN
@given(st.lists(point_rows(), min_size=1, max_size=5), BASES)
def test_verdicts_follow_from_modes_and_findings(rows, basis):
    """The governing utilisation is the largest of all; a violation or a ratio above 1 fails; refused have no anchor."""
    verdicts = check(points_of(rows), basis)
    for row in range(verdicts.count):
        applied = [mode for mode in verdicts.modes if mode.applies[row]]
        violated = any(
            column.holds[row] and column.finding.value.severity is Severity.VIOLATION for column in verdicts.findings
        )
        worst = max([mode.utilisation[row] for mode in applied], default=0.0)
        if worst < 0:  # only the rod of a run that lifts off, and that point is refused for compression or before
            assert verdicts.refusal[row] != ACCEPTED
            assert all(mode.mode.link is Link.ROD for mode in applied)
            worst = 0.0
        assert verdicts.utilisation[row] == worst
        assert verdicts.failed[row] == (violated or worst > 1 + 1e-9)
        if verdicts.governing[row] >= 0:
            assert verdicts.modes[verdicts.governing[row]].utilisation[row] == worst
        anchor_modes = [mode for mode in applied if mode.mode.link is not Link.ROD]
        assert bool(anchor_modes) == (verdicts.refusal[row] == ACCEPTED)


@CHAIN
@given(
    dead=st.floats(1.0, 500.0), contents=st.floats(0.0, 500.0), live=st.floats(0.0, 500.0), factor=st.floats(0.1, 10.0)
)
def test_utilisation_is_linear_in_the_loads(dead, contents, live, factor):
    loads = {"dead": dead, "contents": contents, "live": live}
    once = check(points(hangs=loads), SERVICE_LOADS)
    more = check(points(hangs={name: factor * load for name, load in loads.items()}), SERVICE_LOADS)
    np.testing.assert_allclose(more.utilisation, factor * once.utilisation, rtol=1e-12)
    np.testing.assert_array_equal(more.governing, once.governing)
    np.testing.assert_allclose(more.demand.factored, factor * once.demand.factored, rtol=1e-12)
