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
from hangpoint.core.hanger.rod_rules import (
    SIZE_RULES,
    duct_rod_load,
    rod_size_by_rule,
    rods_for_pipe,
    thinnest_rods,
    threads,
)
from hangpoint.core.hanger.rod_weight import rod_weight


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


BY_PIPE = {
    "piping_handbook_by_pipe": {
        **dict.fromkeys((0.5, 0.75, 1, 1.25, 1.5, 2), "3/8"),
        **dict.fromkeys((2.5, 3, 3.5), "1/2"),
        **dict.fromkeys((4, 5), "5/8"),
        6: "3/4",
        **dict.fromkeys((8, 10, 12), "7/8"),
        **dict.fromkeys((14, 16), "1"),
        18: "1-1/8",
        20: "1-1/4",
        24: "1-1/2",
    },
    "specification_by_pipe": {
        **dict.fromkeys((0.5, 0.75, 1, 1.25, 1.5, 2), "3/8"),
        **dict.fromkeys((2.5, 3, 3.5, 4), "1/2"),
        5: "5/8",
        6: "3/4",
        **dict.fromkeys((8, 10, 12), "7/8"),
    },
}


@pytest.mark.parametrize("rule", BY_PIPE)
def test_rods_by_pipe_size(rule):
    """Facility Piping Systems Handbook, table 2.11; City of Orono, Minnesota, specification, hangers, 3.04 C."""
    nominal = np.array(list(BY_PIPE[rule]), dtype=float)
    code = np.full(len(nominal), SIZE_RULES.index(rule), dtype=np.int8)
    expected = [THREADS[size].d for size in BY_PIPE[rule].values()]
    np.testing.assert_array_equal(rod_size_by_rule(rule=code, nominal=nominal), expected)


def test_rods_of_a_four_inch_pipe():
    """Three sources, three rods: 3/8 (sprinkler standard, from memory), 5/8 (handbook), 1/2 in (specification).

    A specification of South Bend, Indiana (15140), has 5/8 like the handbook.
    """
    found = rod_size_by_rule(rule=np.arange(3, dtype=np.int8), nominal=np.full(3, 4.0))
    assert dict(zip(SIZE_RULES, found.tolist(), strict=True)) == {
        "sprinkler_size_table": 0.375,
        "piping_handbook_by_pipe": 0.625,
        "specification_by_pipe": 0.5,
    }
    assert rods_for_pipe(4.0) == [
        ("piping_handbook_by_pipe", "5/8"),
        ("specification_by_pipe", "1/2"),
        ("sprinkler_size_table", "3/8"),
    ]


def test_loads_of_the_duct_standard():
    """SMACNA, HVAC Duct Construction Standards, single hangers, lb, from memory."""
    table = {0.106: 80, 0.135: 120, 0.162: 160, 0.25: 270, 0.375: 680, 0.5: 1250, 0.625: 2000, 0.75: 3000, 0.875: 0}
    np.testing.assert_array_equal(duct_rod_load(d=np.array(list(table))), list(table.values()))


def test_one_rod_by_three_rules():
    """A 3/8 in rod: 610 lb by the older hanger tables, 680 by the duct standard (from memory), 730 by the newer hanger
    standard; 610 and 730 to the tables' rounding.
    """
    assert allowable("3/8", "sp58_allowable_older").design_strength[0] == pytest.approx(610, abs=5)
    assert duct_rod_load(d=np.array([0.375]))[0] == 680
    assert allowable("3/8", "sp58_allowable").design_strength[0] == pytest.approx(730, abs=5)


# A load and a diameter each in the gap between two tables: 610, 680 and 730 lb for 3/8 (see above); 1,130, 1,250 and
# 1,350 for 1/2; 1,810, 2,000 and 2,160 for 5/8 in.
@pytest.mark.parametrize(
    ("load", "older", "duct", "newer"),
    [(600, "3/8", "3/8", "3/8"), (640, "1/2", "3/8", "3/8"), (700, "1/2", "1/2", "3/8"), (1300, "5/8", "5/8", "1/2")],
)
def test_the_thinnest_rod_by_rules_that_do_not_agree(load, older, duct, newer):
    names = threads(metric=False)
    for rule, rod in (("sp58_allowable_older", older), ("duct_standard", duct), ("sp58_allowable", newer)):
        (place,) = thinnest_rods(load=np.array([float(load)]), rule=rule, names=names)
        assert names[place] == rod, rule


def test_weights_of_rod():
    """Weights of the trade, lb/ft, two digits, from memory: 1/4 .12, 3/8 .30, 1/2 .53, 5/8 .84, 3/4 1.2, 7/8 1.7, 1
    2.2. The cylinder at the pitch diameter lies from 0.5 % below to 5.5 % above them; half of a last digit is to 4 %.
    """
    listed = {"1/4": 0.12, "3/8": 0.30, "1/2": 0.53, "5/8": 0.84, "3/4": 1.2, "7/8": 1.7, "1": 2.2}
    d, pitch = (np.array([getattr(THREADS[size], name) for size in listed]) for name in ("d", "pitch"))
    ratio = rod_weight(d=d, pitch=pitch, l_rod=np.ones(len(d))).p_rod / list(listed.values())
    assert (ratio > 0.995).all()
    assert (ratio < 1.055).all()


def test_pitch_diameters():
    """ASME B1.1, basic pitch diameters of unified coarse threads, in: 3/8 0.3344, 1/2 0.4500, 3/4 0.6850, 1 0.9188; ISO
    724, mm: M10 9.026, M16 14.701, M24 22.051. Both from memory.
    """
    inches = {"3/8": 0.3344, "1/2": 0.4500, "3/4": 0.6850, "1": 0.9188}
    inches |= {"M10": 9.026 / 25.4, "M16": 14.701 / 25.4, "M24": 22.051 / 25.4}
    for size, diameter in inches.items():
        thread = THREADS[size]
        made = rod_weight(d=np.array([thread.d]), pitch=np.array([thread.pitch]), l_rod=np.ones(1))
        assert made.d_2[0] == pytest.approx(diameter, abs=6e-5), size
