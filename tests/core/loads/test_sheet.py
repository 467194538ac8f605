"""Lookups of gauges. Figures: tests/published/test_duct_sheet.py."""

import numpy as np

from hangpoint.core.loads.sheet import TABLES, gauges, sheet_weight, thickness_weight


def test_nothing_is_interpolated():
    for table in TABLES:
        assert sheet_weight(table, 25) is None
        assert sheet_weight(table, 8) is None
        assert sheet_weight(table, 32) is None


def test_an_unknown_table_has_no_gauges():
    assert gauges("stainless") == ()
    assert sheet_weight("stainless", 24) is None


def test_a_thicker_gauge_is_heavier():
    for table in TABLES:
        weights = [sheet_weight(table, gauge) for gauge in gauges(table)]
        assert weights == sorted(weights, reverse=True)


def test_thickness_with_and_without_coating():
    """0.12 in of 500 lb/ft3 is 5 lb/ft2 by hand."""
    found = thickness_weight(
        t_sheet=np.array([0.12, 0.12]), rho_sheet=np.full(2, 500.0), q_coating=np.array([0.0, 0.25])
    )
    np.testing.assert_allclose(found, [5.0, 5.25])
