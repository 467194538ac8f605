"""The lever rule of hinged spans against interpolation."""

import numpy as np

from hangpoint.core.statics.continuous_run import point_reaction


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
            for support in range(len(at)):
                rows.append((np.pad(spans, (0, 8 - len(spans))), len(spans), support, x))
                expected.append(np.interp(x, at, np.eye(len(at))[support]))
    spans, span_count, support, position = (np.array(part) for part in zip(*rows, strict=True))
    tributary, _ = point_reaction(spans=spans, span_count=span_count, support=support, position=position)
    np.testing.assert_allclose(tributary, expected, rtol=1e-12, atol=1e-13)
