"""The lever rule of hinged spans against interpolation."""

import numpy as np

from hangpoint.core.statics.continuous_run import point_reactions


def test_shares_against_interpolation():
    """``numpy.interp``: between two supports the share falls in a straight line from 1 at the one to 0 at the other.

    Forty random runs of 1 to 8 spans, every support, loads anywhere and at each support.
    """
    rng = np.random.default_rng(33)
    rows, expected = [], []
    for _ in range(40):
        spans = rng.uniform(2.0, 20.0, rng.integers(1, 9))
        at = np.concatenate([[0.0], np.cumsum(spans)])
        for x in (*rng.uniform(0.0, at[-1], 4), *at):
            rows.append((np.pad(spans, (0, 8 - len(spans))), len(spans), x))
            shares = [np.interp(x, at, support) for support in np.eye(len(at))]
            expected.append(np.pad(shares, (0, 9 - len(at))))
    spans, span_count, position = (np.array(part) for part in zip(*rows, strict=True))
    none = np.zeros(len(rows))
    got = point_reactions(spans=spans, span_count=span_count, start=none, end=none, position=position)
    np.testing.assert_allclose(got.tributary, expected, rtol=1e-12, atol=1e-13)
