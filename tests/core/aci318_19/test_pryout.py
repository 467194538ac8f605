"""Pryout, 17.7.3, by hand."""

import numpy as np

from hangpoint.core.aci318_19.pryout import pryout


def rows(**changed):
    given = {"h_ef": 4.0, "n_cb": 6_000.0, "by_bond": False, "n_a": 0.0, "phi": 0.70, "demand": 2_100.0} | changed
    count = max(np.size(value) for value in given.values())
    return pryout(**{name: np.broadcast_to(value, count).copy() for name, value in given.items()})


def test_shallow_and_deep():
    """k_cp is 1 below 2.5 in and 2 from there on: 6,000 and 12,000 lb."""
    made = rows(h_ef=[2.0, 2.499, 2.5, 4.0])
    np.testing.assert_array_equal(made.k_cp, [1, 1, 2, 2])
    np.testing.assert_array_equal(made.v_cp, [6_000, 6_000, 12_000, 12_000])


def test_each_row_is_by_bond_or_by_breakout():
    """N_a 5,000 or 7,000 lb beside N_cb 6,000 lb: a row reads its own; of both rows of an anchor the lesser governs."""
    made = rows(by_bond=[True, True, False], n_a=[5_000.0, 7_000.0, 5_000.0])
    np.testing.assert_array_equal(made.n_cp, [5_000, 7_000, 6_000])
    np.testing.assert_array_equal(made.by_breakout, [False, False, True])


def test_strength_and_utilisation():
    """.70 x 2 x 6,000 = 8,400 lb; 2,100 lb is a quarter of it."""
    made = rows()
    np.testing.assert_allclose(made.design_strength, 8_400, rtol=1e-15)
    np.testing.assert_allclose(made.utilisation, 0.25, rtol=1e-15)
    assert rows(demand=0.0).utilisation[0] == 0.0
