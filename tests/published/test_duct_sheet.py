"""Weights of sheet metal against published tables.

* Fan Engineering (Howden Buffalo, 1999), appendix E, table E.1: uncoated and galvanised, lb/ft2, gauges 10 to 28.
* A design office's duct weight sheet, 1998: galvanised by ASTM A525, kg/m2 and nominal mm, gauges 10 to 30.
* A public list of the Manufacturers' Standard Gauge: decimal thicknesses.
"""

import numpy as np
import pytest

from hangpoint.core.loads.sheet import TABLES, gauges, sheet_weight, thickness_weight

KG_M2 = 0.2048161  # lb/ft2
FAN_ENGINEERING = {
    10: (5.625, 5.781),
    12: (4.375, 4.531),
    14: (3.125, 3.281),
    16: (2.50, 2.656),
    18: (2.00, 2.156),
    20: (1.50, 1.656),
    22: (1.25, 1.406),
    24: (1.00, 1.156),
    26: (0.750, 0.9062),
    28: (0.625, 0.7813),
}
METRIC = {
    10: (3.510, 28.21),
    12: (2.753, 22.12),
    14: (1.994, 16.01),
    16: (1.613, 12.96),
    18: (1.311, 10.52),
    20: (1.006, 8.08),
    22: (0.853, 6.86),
    24: (0.701, 5.64),
    26: (0.551, 4.42),
    28: (0.475, 3.81),
    30: (0.399, 3.20),
}
DECIMAL = {
    10: 0.1345,
    12: 0.1046,
    14: 0.0747,
    16: 0.0598,
    18: 0.0478,
    20: 0.0359,
    22: 0.0299,
    24: 0.0239,
    26: 0.0179,
    28: 0.0149,
    30: 0.0120,
}


def by_thickness(t_sheet, rho_sheet=490.0, q_coating=0.0):
    columns = (np.array([value]) for value in (t_sheet, rho_sheet, q_coating))
    return thickness_weight(**dict(zip(("t_sheet", "rho_sheet", "q_coating"), columns, strict=True)))[0]


def test_fan_engineering():
    """Every gauge of both columns, exact."""
    for gauge, printed in FAN_ENGINEERING.items():
        assert tuple(sheet_weight(table, gauge) for table in ("uncoated", "galvanised")) == printed


def test_only_what_is_printed_is_listed():
    for table in TABLES:
        assert gauges(table) == (*FAN_ENGINEERING, 30)


def test_galvanised_in_kilograms():
    """The metric list, to its 0.01 kg/m2; 30 gauge, which the first table lacks, among them.

    The list takes an ounce per square foot as 0.305 kg/m2 (0.3052), so it is compared by that, to a unit of its last
    digit: 12 gauge is printed 22.12, where 72.5 oz give 22.11.
    """
    for gauge, (_, printed) in METRIC.items():
        assert sheet_weight("galvanised", gauge) * 16 * 0.305 == pytest.approx(printed, abs=0.0101), gauge


def test_zinc_is_two_and_a_half_ounces():
    """Galvanised less uncoated is 2.5/16 lb/ft2 in every gauge, to the last digit printed."""
    for gauge in gauges("galvanised"):
        zinc = sheet_weight("galvanised", gauge) - sheet_weight("uncoated", gauge)
        assert zinc == pytest.approx(2.5 / 16, abs=0.00051), gauge


def test_uncoated_by_the_density_of_the_table():
    """41.82 lb/ft2 for an inch of decimal thickness, to the rounding of the thickness."""
    for gauge, thickness in DECIMAL.items():
        assert sheet_weight("uncoated", gauge) == pytest.approx(41.82 * thickness, abs=41.82 * 0.00005 + 0.0006), gauge


def test_steel_by_thickness():
    """490 lb/ft3 is 40.83 lb/ft2 an inch; the steel trade's 489.6 is 40.80, the table's 41.82 is 2.5 % more."""
    assert by_thickness(1.0) == pytest.approx(40.83, abs=0.005)
    assert by_thickness(1.0, 489.6) == pytest.approx(40.80, abs=1e-9)
    assert 41.82 / by_thickness(1.0, 489.6) == pytest.approx(1.025, abs=0.0005)


def test_gauge_and_thickness_disagree():
    """24 gauge: 5.64 kg/m2 by the list, 5.50 by 0.701 mm of 7.85 g/cm3, 2.4 % less; both are kept apart by name."""
    thin = by_thickness(0.701 / 25.4, 7.85 * 62.42796)
    assert thin / KG_M2 == pytest.approx(5.50, abs=0.005)
    assert sheet_weight("galvanised", 24) / thin == pytest.approx(5.64 / 5.50, abs=0.002)


def test_28_gauge_is_two_sheets():
    """0.0149 in uncoated, 0.0187 in galvanised (popular lists): the weights differ by a fifth, and a table is named."""
    uncoated, galvanised = sheet_weight("uncoated", 28), sheet_weight("galvanised", 28)
    assert uncoated / 41.82 == pytest.approx(0.0149, abs=0.00005)
    assert METRIC[28][0] / 25.4 == pytest.approx(0.0187, abs=0.00005)
    assert galvanised / uncoated == pytest.approx(1.25, abs=0.001)


def test_coating_of_a_stated_thickness():
    """G90 is 0.90 oz/ft2 of both faces together (from memory), 0.05625 lb/ft2: 0.0276 in steel is 1.127 + 0.056."""
    assert by_thickness(0.0276, q_coating=0.90 / 16) == pytest.approx(1.127 + 0.05625, abs=0.0005)
