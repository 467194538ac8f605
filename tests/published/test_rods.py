"""Threaded rods against published thread areas and load tables."""

import numpy as np
import pytest

from hangpoint.core.hanger.rod import (
    ALLOWABLE_BASES,
    PHI_TENSION,
    ROD_MATERIALS,
    THREADS,
    rod_allowable,
    rod_strength,
    sprinkler_rod_diameter,
)


def allowable(size, rule):
    thread, basis = THREADS[size], ALLOWABLE_BASES[rule]
    return rod_allowable(
        d=np.array([thread.d]),
        pitch=np.array([thread.pitch]),
        k_root=np.array([thread.k_root]),
        f_basis=np.array([basis.f_basis]),
        safety=np.array([basis.safety]),
        k_thread=np.array([basis.k_thread]),
        demand=np.array([100.0]),
    )


def strength(size, f_u):
    thread = THREADS[size]
    return rod_strength(
        d=np.array([thread.d]),
        pitch=np.array([thread.pitch]),
        k_stress=np.array([thread.k_stress]),
        f_u=np.array([f_u]),
        phi=np.array([PHI_TENSION]),
        demand=np.array([100.0]),
    )


def _half_of_third_digit(figure):
    return 0.51 * 10.0 ** (np.floor(np.log10(figure)) - 2.0)


STRESS = {
    "1/4": 0.0318,
    "5/16": 0.0524,
    "3/8": 0.0775,
    "1/2": 0.142,
    "5/8": 0.226,
    "3/4": 0.334,
    "7/8": 0.462,
    "1": 0.606,
    "1-1/8": 0.763,
    "1-1/4": 0.969,
    "1-1/2": 1.405,
}


def test_tensile_stress_areas():
    """ASME B1.1 tensile stress areas of coarse threads, in2, as reprinted in steel design references; 5/16 and 1-1/8
    from memory. Three digits (1-1/2: four).
    """
    for size, area in STRESS.items():
        assert strength(size, 58_000.0).a_t[0] == pytest.approx(area, abs=_half_of_third_digit(area)), size


def test_root_areas():
    """Root areas, in2: 3/8 to 1-1/8 three digits of handbook lists, the two largest two decimals of a load table."""
    for size, area in (
        ("3/8", 0.0678),
        ("1/2", 0.126),
        ("5/8", 0.202),
        ("3/4", 0.302),
        ("7/8", 0.419),
        ("1", 0.551),
        ("1-1/8", 0.693),
        ("1-1/4", 0.89),
        ("1-1/2", 1.29),
    ):
        computed = allowable(size, "sp58_allowable").a_r[0]
        assert computed == pytest.approx(area, abs=max(_half_of_third_digit(area), 0.0051 if size >= "1-1/4" else 0.0))


def test_metric_areas():
    """ISO 898-1 stress areas in mm2, three digits: M8 36.6 to M24 353; areas at the core diameter d_3 of ISO threads:
    32.8 to 324. Both from memory.
    """
    for size, stress, core in (
        ("M8", 36.6, 32.8),
        ("M10", 58.0, 52.3),
        ("M12", 84.3, 76.2),
        ("M16", 157.0, 144.0),
        ("M20", 245.0, 225.0),
        ("M24", 353.0, 324.0),
    ):
        assert strength(size, 58_000.0).a_t[0] * 645.16 == pytest.approx(stress, abs=_half_of_third_digit(stress)), size
        assert allowable(size, "sp58_allowable").a_r[0] * 645.16 == pytest.approx(core, abs=_half_of_third_digit(core))


OLDER = {
    "1/4": 240,
    "5/16": 410,
    "3/8": 610,
    "1/2": 1130,
    "5/8": 1810,
    "3/4": 2710,
    "7/8": 3770,
    "1": 4960,
    "1-1/8": 6230,
    "1-1/4": 8000,
    "1-1/2": 11630,
}


def test_older_load_table():
    """Facility Piping Systems Handbook, table 2.10 (same list in a plumber's calculations manual): 12 ksi less 25 %.

    The table is computed from rounded root areas and mostly cut, not rounded, to 10 lb: within 10 lb, and 15 lb
    (0.13 %) for 1-1/2, whose root area it takes as 1.293 in2.
    """
    for size, printed in OLDER.items():
        assert allowable(size, "sp58_allowable_older").design_strength[0] == pytest.approx(
            printed, abs=15.0 if size == "1-1/2" else 10.0
        ), size


def test_older_load_table_in_hundreds():
    """Public table of rod loads with the stated basis 12 ksi less 25 %: 600 to 11,600 lb for 3/8 to 1-1/2, cut or
    rounded to 100 lb (4,959 is printed 4,900): within 60 lb.
    """
    printed = (600, 1100, 1800, 2700, 3800, 4900, 6200, 8000, 11600)
    sizes = ("3/8", "1/2", "5/8", "3/4", "7/8", "1", "1-1/8", "1-1/4", "1-1/2")
    for size, figure in zip(sizes, printed, strict=True):
        assert allowable(size, "sp58_allowable_older").design_strength[0] == pytest.approx(figure, abs=60.0), size


def test_newer_load_table():
    """Loads printed with MSS SP-58-2002 and later (50,000 psi on the root area): 3/8 730, 1/2 1,350, 5/8 2,160, 3/4
    3,230 lb, by reprints; 7/8 to 1-1/2 from memory. The printed figures are rounded by no single rule: within 0.5 %.

    Recorded difference: 1/4 is printed 300 lb, 4.1 % above 10,714 psi on its root area (288 lb).
    """
    for size, printed in (
        ("3/8", 730),
        ("1/2", 1350),
        ("5/8", 2160),
        ("3/4", 3230),
        ("7/8", 4480),
        ("1", 5900),
        ("1-1/4", 9500),
        ("1-1/2", 13800),
    ):
        assert allowable(size, "sp58_allowable").design_strength[0] == pytest.approx(printed, rel=5e-3), size
    quarter = allowable("1/4", "sp58_allowable").design_strength[0]
    assert 300 / quarter == pytest.approx(1.041, abs=0.002)


def test_tensile_strength_of_f1554_grade_36():
    """Public design reference, threaded rod of F1554 grade 36 (F_u 58 ksi), 0.75 F_u A_t in kip, three digits."""
    for size, kip in (
        ("1/4", 1.38),
        ("3/8", 3.37),
        ("1/2", 6.17),
        ("5/8", 9.83),
        ("3/4", 14.5),
        ("7/8", 20.1),
        ("1", 26.4),
        ("1-1/4", 42.1),
        ("1-1/2", 61.1),
    ):
        computed = strength(size, ROD_MATERIALS["f1554_36"]).design_strength[0] / 1000.0
        assert computed == pytest.approx(kip, abs=2 * _half_of_third_digit(kip)), size  # its areas are rounded first


def test_sprinkler_rod_sizes():
    """NFPA 13, table of hanger rod sizes, from memory. Read in print: NPS 8 goes with 1/2 in and NPS 10 does not (note
    on hanger spacing by a member of the committee, 2016).
    """
    nominal = np.array([1.0, 2.5, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 0.0])
    diameter = sprinkler_rod_diameter(nominal=nominal)
    assert diameter.tolist() == [0.375, 0.375, 0.375, 0.5, 0.5, 0.5, 0.625, 0.625, 0.0, 0.0]
