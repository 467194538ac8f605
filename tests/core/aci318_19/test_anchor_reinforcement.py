"""Anchor reinforcement in place of breakout, 17.5.2.1, by hand."""

import numpy as np

from hangpoint.core.aci318_19.anchor_reinforcement import anchor_reinforcement


def test_yield_of_the_bars():
    """Two No. 4 bars, 2 x .20 in2, f_y 60,000 psi: 24,000 lb, phi .75: 18,000 lb; 9,000 lb is half of it.

    Four No. 5, 4 x .31 in2, f_y 40,000 psi: 49,600 lb, 37,200 lb.
    """
    made = anchor_reinforcement(
        a_s=np.array([0.40, 1.24, 1.24]), f_y=np.array([6e4, 4e4, 4e4]), demand=np.array([9_000.0, 37_200.0, 0.0])
    )
    np.testing.assert_allclose(made.r_s, [24_000, 49_600, 49_600], rtol=1e-15)
    np.testing.assert_array_equal(made.phi, [0.75] * 3)
    np.testing.assert_allclose(made.design_strength, [18_000, 37_200, 37_200], rtol=1e-15)
    np.testing.assert_allclose(made.utilisation, [0.5, 1.0, 0.0], rtol=1e-15)


def test_yield_that_counts():
    """Bars of 100,000 psi count with 80,000 (Table 20.2.2.4(a), from memory): 0.40 x 80,000 x .75 = 24,000 lb."""
    made = anchor_reinforcement(a_s=np.full(2, 0.40), f_y=np.array([1e5, 8e4]), demand=np.full(2, 12_000.0))
    np.testing.assert_allclose(made.design_strength, [24_000, 24_000], rtol=1e-15)
    np.testing.assert_allclose(made.utilisation, [0.5, 0.5], rtol=1e-15)
