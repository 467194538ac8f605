"""Rods out of plumb, by hand."""

import numpy as np

from hangpoint.core.statics.out_of_plumb import out_of_plumb


def test_five_degrees():
    """Tangent of 5 degrees 0.0875 (printed tables: 0.08749), so 8.7 % of the load is shear; cosine 0.99619."""
    got = out_of_plumb(p=np.array([1000.0]), alpha=np.array([5.0]))
    np.testing.assert_allclose(got.v, 87.49, atol=0.0051)
    np.testing.assert_allclose(got.n_rod, 1000 / 0.996195, rtol=1e-6)


def test_plumb_and_known_angles():
    """0, 30, 45, 60 degrees: tangents 0, 1/sqrt 3, 1, sqrt 3; cosines 1, sqrt 3/2, 1/sqrt 2, 1/2."""
    got = out_of_plumb(p=np.full(4, 2.0), alpha=np.array([0.0, 30.0, 45.0, 60.0]))
    np.testing.assert_allclose(got.v, [0.0, 2 / 3**0.5, 2.0, 2 * 3**0.5], rtol=1e-14)
    np.testing.assert_allclose(got.n_rod, [2.0, 4 / 3**0.5, 2 * 2**0.5, 4.0], rtol=1e-14)


def test_the_two_are_one_force():
    """Tension in the rod squared is load squared and shear squared."""
    rng = np.random.default_rng(1)
    p, alpha = rng.uniform(1, 5000, 100), rng.uniform(0, 80, 100)
    got = out_of_plumb(p=p, alpha=alpha)
    np.testing.assert_allclose(got.n_rod**2, p**2 + got.v**2, rtol=1e-13)
    np.testing.assert_allclose(np.degrees(np.arctan2(got.v, p)), alpha, rtol=1e-12)
