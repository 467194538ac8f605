"""How many senses earthquake has among near points, counted by hand: two for each point but the first."""

import numpy as np

from hangpoint.core.hang_point.turning import senses, turning_of_group


def test_senses_double_with_each_point_up_to_eight():
    np.testing.assert_array_equal(senses(np.array([0, 1, 2, 3, 4, 8, 9, 64])), [1, 1, 2, 4, 8, 128, 128, 128])


def test_points_that_turn_are_counted_in_their_group():
    """Of three in one group two turn; one beside them is alone."""
    turns, group = np.array([True, False, True, True]), np.array([0, 0, 0, 3])
    np.testing.assert_array_equal(turning_of_group(turns, group), [2, 2, 2, 1])
