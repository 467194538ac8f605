"""Pieces of long rods by hand: bars of 10 ft, no piece under half a foot."""

import numpy as np
import pytest

from hangpoint.core.take_off.rod_pieces import rod_pieces


def cut(l_rod, l_stock=10.0, l_least=0.5):
    found = rod_pieces(l_rod=np.array([l_rod]), l_stock=np.array([l_stock]), l_least=np.array([l_least]))
    return tuple(float(getattr(found, name)[0]) for name in ("n_whole", "n_cut", "l_cut", "splices"))


@pytest.mark.parametrize(
    ("l_rod", "pieces"),
    [
        (0.0, (0, 0, 0, 0)),
        (4.0, (0, 1, 4, 0)),
        (0.25, (0, 1, 0.25, 0)),
        (10.0, (1, 0, 0, 0)),
        (12.0, (1, 1, 2, 1)),
        (30.0, (3, 0, 0, 2)),
        (10.25, (0, 2, 5.125, 1)),
        (20.25, (1, 2, 5.125, 2)),
        (20.5, (2, 1, 0.5, 2)),
    ],
)
def test_rods_by_hand(l_rod, pieces):
    """Whole bars and the rest; a rest under half a foot is halved with the last bar."""
    assert cut(l_rod) == pytest.approx(pieces, rel=1e-12)


def test_a_rest_that_is_rounding_is_none():
    """3 m of 1 m bars: 9.842519685 ft and 3.280839895 ft, whose ratio is 3 but for a rounding."""
    for factor in (1 - 1e-13, 1.0, 1 + 1e-13):
        assert cut(3000 / 304.8 * factor, 1000 / 304.8, 0.1) == (3, 0, 0, 2)
    pieces = cut(2.7, 0.9, 0.1)
    assert pieces == (3, 0, 0, 2)
