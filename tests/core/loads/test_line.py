"""A stated line by hand."""

import numpy as np
import pytest

from hangpoint.core.loads.line import line_weight


def test_allowance_on_both():
    """10 and 4 lb/ft with 15 %: 11.5 and 4.6."""
    row = line_weight(w_stated=np.array([10.0]), w_filling=np.array([4.0]), allowance=np.array([0.15]))
    assert (row.w_dead[0], row.w_fluid[0]) == (pytest.approx(11.5), pytest.approx(4.6))
