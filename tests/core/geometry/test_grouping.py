"""Grouping of anchors: as long as every anchor stands alone."""

import numpy as np

from hangpoint.core.geometry.grouping import anchors_alone


def test_one_anchor_has_no_spacing():
    """By definition of a spacing: a distance of two anchors. Every group has one anchor and belongs to its own case."""
    groups = anchors_alone(case_of_anchor=np.array([0, 1, 1, 4]))
    np.testing.assert_array_equal(groups.largest_spacing, np.zeros(4))
    np.testing.assert_array_equal(groups.anchor_count, np.ones(4))
    np.testing.assert_array_equal(groups.group_of_anchor, [0, 1, 2, 3])
    np.testing.assert_array_equal(groups.case_of_group, [0, 1, 1, 4])
