"""Continuous runs: equilibrium, padding, and what the arrays mean. Figures: tests/published/test_continuous_run.py."""

import numpy as np

from hangpoint.core.statics.continuous_run import point_reaction, uniform_reaction, without_support

SPANS = np.array([10.0, 8.0, 12.5, 6.0])


def _all_supports(spans, width=None):
    count = len(spans)
    rows = np.zeros((count + 1, width or count))
    rows[:, :count] = spans
    return {"spans": rows, "span_count": np.full(count + 1, count), "support": np.arange(count + 1)}


def test_equilibrium_of_uniform_load():
    """Reactions add up to the load, and their moments about the first support to its moment: both models."""
    at = np.concatenate([[0.0], np.cumsum(SPANS)])
    for lengths in uniform_reaction(**_all_supports(SPANS)):
        np.testing.assert_allclose(lengths.sum(), at[-1], rtol=1e-13)
        np.testing.assert_allclose((lengths * at).sum(), at[-1] ** 2 / 2, rtol=1e-13)


def test_equilibrium_of_a_point_load():
    at = np.concatenate([[0.0], np.cumsum(SPANS)])
    for position in (0.0, 3.3, 10.0, 17.9, 25.0, 36.5):
        for shares in point_reaction(**_all_supports(SPANS), position=np.full(5, position)):
            np.testing.assert_allclose(shares.sum(), 1.0, rtol=1e-13)
            np.testing.assert_allclose((shares * at).sum(), position, atol=1e-12)


def test_a_load_at_a_support_is_that_support_alone():
    at = np.concatenate([[0.0], np.cumsum(SPANS)])
    for i, position in enumerate(at):
        for shares in point_reaction(**_all_supports(SPANS), position=np.full(5, position)):
            np.testing.assert_allclose(shares, np.eye(5)[i], atol=1e-13)


def test_many_point_loads_are_the_uniform_load():
    """The middle-point rule over 4,000 slices comes within 1e-6 of the uniform load, by both models."""
    slices = 4000
    step = SPANS.sum() / slices
    places = (np.arange(slices) + 0.5) * step
    for support in range(5):
        rows = _all_supports(SPANS)
        one = {name: np.repeat(values[[support]], slices, axis=0) for name, values in rows.items()}
        shares = point_reaction(**one, position=places)
        for total, expected in zip(shares, uniform_reaction(**rows), strict=True):
            np.testing.assert_allclose(total.sum() * step, expected[support], rtol=1e-6)


def test_padding_changes_nothing():
    for width in (4, 5, 20):
        uniform = uniform_reaction(**_all_supports(SPANS, width))
        point = point_reaction(**_all_supports(SPANS, width), position=np.full(5, 21.0))
        for got, expected in zip(
            (*uniform, *point),
            (
                *uniform_reaction(**_all_supports(SPANS)),
                *point_reaction(**_all_supports(SPANS), position=np.full(5, 21.0)),
            ),
            strict=True,
        ):
            np.testing.assert_array_equal(got, expected)


def test_a_run_read_from_its_other_end():
    forward = uniform_reaction(**_all_supports(SPANS))
    backward = uniform_reaction(**_all_supports(SPANS[::-1]))
    for one, other in zip(forward, backward, strict=True):
        np.testing.assert_allclose(one, other[::-1], rtol=1e-13)


def test_one_span_has_no_moment_at_its_ends():
    trib, cont = uniform_reaction(**_all_supports(np.array([9.0]), 6))
    np.testing.assert_array_equal(trib, [4.5, 4.5])
    np.testing.assert_array_equal(cont, trib)
    for shares in point_reaction(**_all_supports(np.array([9.0])), position=np.full(2, 3.0)):
        np.testing.assert_allclose(shares, [2 / 3, 1 / 3], rtol=1e-14)


def test_no_rows():
    empty = {"spans": np.zeros((0, 3)), "span_count": np.zeros(0, int), "support": np.zeros(0, int)}
    for lengths in (*uniform_reaction(**empty), *point_reaction(**empty, position=np.zeros(0))):
        assert lengths.shape == (0,)


def test_short_end_span_lifts():
    """A short end span beside a long one: statics of two spans, R_end = w (L1/2 - (L1^3 + L2^3)/(8 L1 (L1 + L2)))."""
    _, cont = uniform_reaction(**_all_supports(np.array([2.0, 12.0])))
    np.testing.assert_allclose(cont[0], 1.0 - (8 + 1728) / (8 * 2 * 14), rtol=1e-13)
    assert cont[0] < 0.0


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
    trib, _ = uniform_reaction(spans=spans, span_count=span_count, support=support)
    np.testing.assert_array_equal(trib, [15.0])
