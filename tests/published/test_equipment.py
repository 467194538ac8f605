"""Equipment on four hangers with its centre of gravity off the middle: both rules that are in use, and which is ours.

1,000 lb on a rectangle of 4 x 3 ft, the centre of gravity 0.5 and 0.3 ft off the middle. A rigid unit on equal springs
has W/4 (1 +- 2 e_x/a +- 2 e_y/b) (elastic theory of bolt groups, textbook form); interpolation along both sides has
W (1/2 +- e_x/a)(1/2 +- e_y/b). Both are in equilibrium, four supports being indeterminate by one; they differ by 12 lb.
"""

import numpy as np

from core.statics.equipment import hung

A, B, E_X, E_Y, W = 48.0, 36.0, 6.0, 3.6, 1000.0
CORNERS = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
PLACES = CORNERS * [A / 2, B / 2]


def test_springs_and_not_interpolation():
    """137.5, 262.5, 362.5, 237.5 lb by the springs, ours; 150, 250, 375, 225 by interpolation. Worked in the test."""
    springs = W / 4 * (1 + CORNERS @ [2 * E_X / A, 2 * E_Y / B])
    between = W * np.prod(0.5 + CORNERS * [E_X / A, E_Y / B], axis=1)
    np.testing.assert_allclose(springs, [137.5, 262.5, 362.5, 237.5])
    np.testing.assert_allclose(between, [150.0, 250.0, 375.0, 225.0])
    for rule in (springs, between):
        np.testing.assert_allclose(rule.sum(), W)
        np.testing.assert_allclose(rule @ PLACES, W * np.array([E_X, E_Y]))
    got = hung((W, (E_X, E_Y), PLACES))
    np.testing.assert_allclose(got.supports.r_springs, springs, rtol=1e-12)


def test_any_three_by_hand():
    """With u = x/24, v = y/18 the weight is at (0.25, 0.2), below the diagonal from (-1, -1) to (1, 1).

    Triples that hold it, by barycentric coordinates: without (-1, 1): (1-0.25)/2 = 0.375, (0.25-0.2)/2 = 0.025,
    (1+0.2)/2 = 0.6; without (-1, -1): (1-0.2)/2 = 0.4, 0.225 and 0.375. The other two lie beyond.
    """
    got = hung((W, (E_X, E_Y), PLACES))
    np.testing.assert_allclose(got.supports.r_three, [375.0, 400.0, 600.0, 375.0], rtol=1e-12)


def test_centric_weight_on_a_diagonal():
    """Common practice, no source: with rods of uneven length two of four carry it, half each."""
    got = hung((W, (0.0, 0.0), PLACES))
    np.testing.assert_allclose(got.supports.r_springs, 250.0)
    np.testing.assert_allclose(got.supports.r_three, 500.0)
