"""Braces: the geometry of the forces. A permit's brace: tests/published/test_seismic_component.py."""

import numpy as np
import pytest

from hangpoint.core.statics.brace import brace_force


def brace(f_p, theta_v, *, braces=1.0, n_sure=0.0, tan_alpha=0.0):
    theta_v = np.atleast_1d(np.asarray(theta_v, dtype=float))
    full = np.ones_like(theta_v)
    stated = {"f_p": f_p, "braces": braces, "n_sure": n_sure, "tan_alpha": tan_alpha}
    return brace_force(theta_v=theta_v, **{name: value * full for name, value in stated.items()})


def test_components_against_the_geometry_of_a_brace():
    """A brace that runs 3 ft sideways and 4 ft up: 3-4-5, so 300 lb ask for 500 lb along it and 400 lb upright; one
    that runs 4 sideways and 3 up: 375 and 225. 30, 45 and 60 degrees: tangents 1/sqrt(3), 1, sqrt(3).
    """
    steep, flat = np.degrees(np.arctan2(3, 4)), np.degrees(np.arctan2(4, 3))
    made = brace(300.0, [steep, flat])
    np.testing.assert_allclose(made.f_axial, [500, 375])
    np.testing.assert_allclose(made.v, [400, 225])
    np.testing.assert_allclose(made.sin_theta, [0.6, 0.8])
    np.testing.assert_allclose(brace(300.0, [30, 45, 60]).tan_theta, [3**-0.5, 1, 3**0.5])


def test_angle_counts_from_the_vertical():
    """Reading 35: V = F_p / tan(theta_v); a steep brace, near the vertical, brings more to the hanger."""
    made = brace(100.0, [15, 30, 60, 75])
    assert (np.diff(made.v) < 0).all()
    np.testing.assert_allclose(made.v, 100 * np.tan(np.radians([75, 60, 30, 15])))


def test_gravity_that_is_surely_there_relieves_the_rod_only():
    """V 100 lb at 45 degrees against 60, 100 and 150 lb: compression 40, 0, 0; tension at the anchors stays 100."""
    for n_sure, c_rod in ((60, 40), (100, 0), (150, 0)):
        made = brace(100.0, 45, n_sure=n_sure)
        assert made.c_rod[0] == pytest.approx(c_rod, abs=1e-9)
        assert made.v[0] == pytest.approx(100)
        assert made.f_horizontal[0] == 100


def test_a_rod_that_leans_is_pushed_along_its_axis():
    """100 lb less 40 lb upright, a rod 3 ft sideways on 4 ft up: 60 x 5/4 = 75 lb along it; a push of 20 lb adds."""
    assert brace(100.0, 45, n_sure=40, tan_alpha=0.75).c_rod[0] == pytest.approx(75)
    assert brace(100.0, 45, n_sure=-20, tan_alpha=0.75).c_rod[0] == pytest.approx(150)
