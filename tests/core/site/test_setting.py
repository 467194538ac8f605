"""Numbers of a card by hand."""

import numpy as np
import pytest

from hangpoint.core.site.setting import new_hole, rod_turns


def test_turns_of_a_rod():
    """3/8-16: 3/8 in is 6 turns and 5/8 in is 10; M10 x 1.5: 15 mm is 10 turns, 24 mm is 16."""
    made = rod_turns(
        pitch=np.array([1 / 16, 1.5 / 25.4]),
        reach_least=np.array([0.375, 15 / 25.4]),
        reach_most=np.array([0.625, 24 / 25.4]),
    )
    assert made.turns_least == pytest.approx([6, 10])
    assert made.turns_most == pytest.approx([10, 16])


def test_distance_of_a_new_hole():
    """Twice the depth of 2 in is 4 in; a least spacing of 4-1/2 in stands above twice 2 in (reading 45, from
    memory)."""
    made = new_hole(hole_depth=np.array([2.0, 2.0]), s_min=np.array([3.0, 4.5]))
    assert made.away.tolist() == [4.0, 4.5]
