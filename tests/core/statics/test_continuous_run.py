"""Beams on simple supports: equilibrium, padding, and what the arrays mean.

Figures: tests/published/test_continuous_run.py.
"""

import numpy as np
import pytest

from hangpoint.core.statics.continuous_run import point_reactions, uniform_reactions, without_support

SPANS = np.array([10.0, 8.0, 12.5, 6.0])
MODELS = ("tributary", "hinged", "continuous")
BALANCED = ("hinged", "continuous")


def run(spans, *, start=0.0, end=0.0, rows=1, width=None):
    """One beam, repeated."""
    padded = np.zeros((rows, width or len(spans)))
    padded[:, : len(spans)] = spans
    return {
        "spans": padded,
        "span_count": np.full(rows, len(spans)),
        "start": np.full(rows, start),
        "end": np.full(rows, end),
    }


def supports(spans):
    return np.concatenate([[0.0], np.cumsum(spans)])


def point(spans, positions, **where):
    return point_reactions(**run(spans, rows=len(positions), **where), position=np.array(positions, dtype=float))


@pytest.mark.parametrize(("start", "end"), [(0.0, 0.0), (2.5, 0.0), (0.0, 4.0), (1.0, 3.0)])
def test_equilibrium_of_uniform_load(start, end):
    """Reactions add up to the load by every model; their moments about support 0 to its moment, but for tributary
    ones with an overhang.
    """
    at, got = supports(SPANS), uniform_reactions(**run(SPANS, start=start, end=end))
    length = at[-1] + start + end
    for model in MODELS:
        np.testing.assert_allclose(getattr(got, model).sum(), length, rtol=1e-13)
    for model in BALANCED if start + end else MODELS:
        moment = (getattr(got, model)[0] * at).sum()
        np.testing.assert_allclose(moment, length * (length / 2 - start), rtol=1e-12)


def test_equilibrium_of_a_point_load():
    at, places = supports(SPANS), np.array([-3.0, -0.5, 0.0, 3.3, 10.0, 17.9, 25.0, 36.5, 37.0, 38.5])
    got = point(SPANS, places, start=3.0, end=2.0)
    for model in MODELS:
        np.testing.assert_allclose(getattr(got, model).sum(axis=1), 1.0, rtol=1e-13)
    for model in BALANCED:
        np.testing.assert_allclose((getattr(got, model) * at).sum(axis=1), places, atol=1e-12)
    np.testing.assert_allclose((got.tributary * at).sum(axis=1), np.clip(places, 0.0, at[-1]), atol=1e-12)


def test_a_load_at_a_support_is_that_support_alone():
    got = point(SPANS, supports(SPANS), start=1.0, end=1.0)
    for model in MODELS:
        np.testing.assert_allclose(getattr(got, model), np.eye(5), atol=1e-13)


def test_many_point_loads_are_the_uniform_load():
    """The middle-point rule over 4,000 slices comes within 1e-6 of the uniform load, by every model."""
    slices, start, end = 4000, 2.0, 3.0
    step = (SPANS.sum() + start + end) / slices
    got = point(SPANS, (np.arange(slices) + 0.5) * step - start, start=start, end=end)
    uniform = uniform_reactions(**run(SPANS, start=start, end=end))
    for model in MODELS:
        np.testing.assert_allclose(getattr(got, model).sum(axis=0) * step, getattr(uniform, model)[0], rtol=1e-6)


def test_overhangs_by_statics():
    """Spans of 10 and 8 ft, overhangs of 2 and 3 ft, by hand for a hinge at the middle support.

    Left: R_0 = (10 + 2)^2 / (2 x 10) = 7.2, of 12; right: R_2 = (8 + 3)^2 / (2 x 8) = 7.5625, of 11; the middle has the
    rest, 4.8 + 3.4375.
    """
    got = uniform_reactions(**run([10.0, 8.0], start=2.0, end=3.0))
    np.testing.assert_allclose(got.hinged, [[7.2, 8.2375, 7.5625]], rtol=1e-14)
    np.testing.assert_allclose(got.tributary, [[7.0, 9.0, 7.0]], rtol=1e-14)


def test_one_span_with_overhangs_by_statics():
    """A bar of 4 ft between its rods with tips of 1 ft: a load on a tip lifts the other rod by a quarter of itself."""
    got = point([4.0], [-1.0, 5.0, 1.0], start=1.0, end=1.0)
    for model in BALANCED:
        np.testing.assert_allclose(getattr(got, model), [[1.25, -0.25], [-0.25, 1.25], [0.75, 0.25]], rtol=1e-14)
    np.testing.assert_allclose(got.tributary, [[1.0, 0.0], [0.0, 1.0], [0.75, 0.25]], rtol=1e-14)


def test_a_tip_load_on_two_spans():
    """Unit load 2 ft before support 0, spans 10 and 8 ft: M_0 = -2, 2 M_1 (10 + 8) = 20, M_1 = 5/9; by hand
    R_0 = 1 + (5/9 + 2)/10, R_2 = (5/9)/8, and R_1 = -(2 + 5/9)/10 - (5/9)/8.
    """
    got = point([10.0, 8.0], [-2.0], start=2.0)
    m = 5 / 9
    np.testing.assert_allclose(got.continuous, [[1 + (m + 2) / 10, -(2 + m) / 10 - m / 8, m / 8]], rtol=1e-13)
    np.testing.assert_allclose(got.hinged, [[1.2, -0.2, 0.0]], rtol=1e-14)


def test_positions_off_the_beam_are_taken_at_its_tips():
    got, tips = (point(SPANS, places, start=1.0, end=2.0) for places in ([-9.0, 99.0], [-1.0, 38.5]))
    for model in MODELS:
        np.testing.assert_array_equal(getattr(got, model), getattr(tips, model))


def test_without_overhangs_hinged_is_tributary():
    uniform, loads = uniform_reactions(**run(SPANS)), point(SPANS, [3.0, 20.0])
    np.testing.assert_array_equal(uniform.hinged, uniform.tributary)
    np.testing.assert_array_equal(loads.hinged, loads.tributary)


def test_padding_changes_nothing():
    for width in (4, 5, 20):
        where = {"start": 1.0, "end": 2.0}
        wide = uniform_reactions(**run(SPANS, width=width, **where)), point(SPANS, [21.0, 38.0], width=width, **where)
        plain = uniform_reactions(**run(SPANS, **where)), point(SPANS, [21.0, 38.0], **where)
        for got, expected in zip(wide, plain, strict=True):
            for model in MODELS:
                np.testing.assert_array_equal(getattr(got, model)[:, :5], getattr(expected, model))
                np.testing.assert_array_equal(getattr(got, model)[:, 5:], 0.0)


def test_many_are_each_alone():
    """Rows of unlike counts in one padded call against a call a row."""
    rng = np.random.default_rng(3)
    count = rng.integers(1, 7, 50)
    spans = np.where(np.arange(6) < count[:, None], rng.uniform(2, 20, (50, 6)), 0.0)
    start, end = rng.uniform(0, 4, (2, 50)) * (rng.random((2, 50)) < 0.7)
    position = rng.uniform(-start, spans.sum(axis=1) + end)
    every = uniform_reactions(spans=spans, span_count=count, start=start, end=end)
    loads = point_reactions(spans=spans, span_count=count, start=start, end=end, position=position)
    for i, n in enumerate(count):
        where = {"start": start[i], "end": end[i]}
        for model in MODELS:
            one = getattr(uniform_reactions(**run(spans[i, :n], **where)), model)[0]
            np.testing.assert_allclose(getattr(every, model)[i, : n + 1], one, rtol=1e-13, atol=1e-13)
            one = getattr(point(spans[i, :n], [position[i]], **where), model)[0]
            np.testing.assert_allclose(getattr(loads, model)[i, : n + 1], one, rtol=1e-13, atol=1e-13)


def test_a_run_read_from_its_other_end():
    forward = uniform_reactions(**run(SPANS, start=1.0, end=2.0))
    backward = uniform_reactions(**run(SPANS[::-1], start=2.0, end=1.0))
    here = point(SPANS, [-0.5, 20.0], start=1.0, end=2.0)
    there = point(SPANS[::-1], [37.0, 16.5], start=2.0, end=1.0)
    for model in MODELS:
        np.testing.assert_allclose(getattr(forward, model), getattr(backward, model)[:, ::-1], rtol=1e-13)
        np.testing.assert_allclose(getattr(here, model), getattr(there, model)[:, ::-1], rtol=1e-12, atol=1e-13)


def test_one_span_has_no_moment_at_its_ends():
    got = uniform_reactions(**run([9.0], width=6))
    np.testing.assert_array_equal(got.tributary, [[4.5, 4.5, 0, 0, 0, 0, 0]])
    np.testing.assert_array_equal(got.continuous, got.tributary)
    loads = point([9.0], [3.0])
    np.testing.assert_allclose(loads.continuous, [[2 / 3, 1 / 3]], rtol=1e-14)


def test_no_rows():
    for got in (uniform_reactions(**run([1.0, 2.0], rows=0)), point([1.0, 2.0], [])):
        for model in MODELS:
            assert getattr(got, model).shape == (0, 3)


def test_short_end_span_lifts():
    """A short end span beside a long one: statics of two spans, R_end = w (L1/2 - (L1^3 + L2^3)/(8 L1 (L1 + L2)))."""
    got = uniform_reactions(**run([2.0, 12.0]))
    np.testing.assert_allclose(got.continuous[0, 0], 1.0 - (8 + 1728) / (8 * 2 * 14), rtol=1e-13)
    assert got.continuous[0, 0] < 0.0


def test_without_a_support():
    """Rows: none missing, the first interior, a middle one behind and before the hanger, the last interior."""
    spans = np.tile(np.append(SPANS, 0.0), (5, 1))
    got, count, support = without_support(
        spans=spans,
        span_count=np.full(5, 4),
        support=np.array([2, 2, 3, 1, 4]),
        missing=np.array([-1, 1, 2, 2, 3]),
    )
    expected = [
        [10.0, 8.0, 12.5, 6.0, 0.0],
        [18.0, 12.5, 6.0, 0.0, 0.0],
        [10.0, 20.5, 6.0, 0.0, 0.0],
        [10.0, 20.5, 6.0, 0.0, 0.0],
        [10.0, 8.0, 18.5, 0.0, 0.0],
    ]
    np.testing.assert_array_equal(got, expected)
    np.testing.assert_array_equal(count, [4, 3, 3, 3, 3])
    np.testing.assert_array_equal(support, [2, 1, 2, 1, 3])


def test_loss_of_one_support_of_equal_hinged_spans():
    """Statics: a neighbour of the lost support then takes half of two spans and half of one, 1.5 w L."""
    spans, span_count, support = without_support(
        spans=np.full((1, 5), 10.0), span_count=np.array([5]), support=np.array([2]), missing=np.array([3])
    )
    none = np.zeros(1)
    got = uniform_reactions(spans=spans, span_count=span_count, start=none, end=none)
    np.testing.assert_array_equal(got.tributary[0, support], [15.0])
