"""The column table: conversion, defaults of the code, flags, and rows taken or joined."""

import dataclasses

import numpy as np
import pint
import pytest

from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.inline import InlineProduct
from hangpoint.product.product_row import (
    BASES,
    K_US_PER_SI,
    LIGHTWEIGHT,
    NEWTONS_PER_POUND,
    POUNDS_PER_KILONEWTON,
    PRINCIPLES,
    PSI_PER_MPA,
    PULLOUT_STATES,
    thread_diameter,
)
from hangpoint.product.table import concatenate

UNIT = pint.UnitRegistry()
ARRAYS = {
    "floats": "d_a a_se_n f_uta f_ya thread_d h_ef h_min c_min c_min_code s_min s_min_code c_ac k_cr k_uncr a_brg e_h"
    " n_p_cr n_p_uncr n_p_eq n_exponent f_c_ref v_sa v_sa_eq least_age_days hole_depth",
    "bools": "invented has_source post_installed ductile internally_threaded thickness_tested c_ac_from_code"
    " f_c_ref_silent product_k_c tension_overhead sustained_tension concrete_allowed masonry_allowed seismic_qualified"
    " removable ceiling_only v_sa_tested v_sa_eq_tested welded_stud distance_sleeve sleeve_silent upward",
    "codes": "basis principle category pullout_method n_p_cr_state n_p_uncr_state n_p_eq_state lightweight steel"
    " coating",
    "index": "family_index bond_start bond_count deck_lower deck_upper en_row",
}
DTYPES = {"floats": np.float64, "bools": np.bool_, "codes": np.int8, "index": np.intp}


@pytest.fixture(scope="module")
def catalogue():
    return load_catalogue()


def test_columns_and_their_types(catalogue):
    names = {"address", "bond", "deck", "en", "loads"}
    for kind, words in ARRAYS.items():
        for name in words.split():
            column = getattr(catalogue.table, name)
            assert column.dtype == DTYPES[kind], name
            assert column.shape == (len(catalogue.table),), name
            assert np.isfinite(column).all(), name
            names.add(name)
    assert names == {field.name for field in dataclasses.fields(catalogue.table)}


def test_columns_are_read_only(catalogue):
    with pytest.raises(ValueError, match="read-only"):
        catalogue.table.h_ef[0] = 1.0


def test_factors():
    """pint is the outside reference. Relative 1e-12: rounding of floating point only."""
    k = UNIT.Quantity(1, "N / (MPa**0.5 * mm**1.5)").to("lbf / (psi**0.5 * inch**1.5)")
    assert pytest.approx(UNIT.Quantity(1, "lbf").to("N").magnitude, rel=1e-12) == NEWTONS_PER_POUND
    assert pytest.approx(UNIT.Quantity(1, "kN").to("lbf").magnitude, rel=1e-12) == POUNDS_PER_KILONEWTON
    assert pytest.approx(UNIT.Quantity(1, "MPa").to("psi").magnitude, rel=1e-12) == PSI_PER_MPA
    assert pytest.approx(k.magnitude, rel=1e-12) == K_US_PER_SI


def test_si_file_is_converted(catalogue):
    """pint is the outside reference; the figures are those of the file. Relative 1e-12: floating point only."""
    family = catalogue.families["undercut-stainless-metric"]
    size = next(each for each in family.sizes if each.size == "M12")
    row = size.embedments[1]
    at = catalogue.row(family.id, "M12", UNIT.Quantity(row.h_ef, "mm").to("inch").magnitude)
    k_unit, k_us = "N / (MPa**0.5 * mm**1.5)", "lbf / (psi**0.5 * inch**1.5)"
    expected = {
        "d_a": (size.d_a, "mm", "inch"),
        "thread_d": (12, "mm", "inch"),
        "a_se_n": (size.a_se, "mm**2", "inch**2"),
        "f_uta": (size.f_uta, "MPa", "psi"),
        "f_ya": (size.f_ya, "MPa", "psi"),
        "h_ef": (row.h_ef, "mm", "inch"),
        "h_min": (row.h_min, "mm", "inch"),
        "c_min": (row.c_min, "mm", "inch"),
        "s_min": (row.s_min, "mm", "inch"),
        "c_ac": (row.c_ac, "mm", "inch"),
        "n_p_cr": (row.n_p_cr, "kN", "lbf"),
        "n_p_eq": (row.n_p_eq, "kN", "lbf"),
        "k_cr": (row.k_cr, k_unit, k_us),
        "k_uncr": (row.k_uncr, k_unit, k_us),
    }
    for name, (value, unit, core) in expected.items():
        found = getattr(catalogue.table, name)[at]
        assert found == pytest.approx(UNIT.Quantity(value, unit).to(core).magnitude, rel=1e-12), name
    assert PULLOUT_STATES[catalogue.table.n_p_uncr_state[at]] == "not_governing"
    assert catalogue.table.f_c_ref[at] == 2500


def test_si_head_hook_and_reference_strength(document, save):
    """A_brg, e_h and f_c_ref in SI against pint, relative 1e-12."""
    content = document("headed-bolt") | {"units": "si"}
    size = content["sizes"][0] | {"size": "M12", "d_a": 12, "thread": "M12", "a_se": 84.3, "f_uta": 400, "f_ya": 250}
    row = {"h_ef": 100, "h_min": 150, "c_min": 40, "s_min": 48, "f_c_ref": 20}
    content["sizes"] = [size | {"head": {"a_brg": 300}, "embedments": [row]}]
    table = load_catalogue([save(content)]).table
    assert table.a_brg[0] == pytest.approx(UNIT.Quantity(300, "mm**2").to("inch**2").magnitude, rel=1e-12)
    assert table.f_c_ref[0] == pytest.approx(UNIT.Quantity(20, "MPa").to("psi").magnitude, rel=1e-12)
    content["principle"] = "hooked_cast_in"
    del content["sizes"][0]["head"]
    content["sizes"][0]["hook"] = {"e_h": 50}
    table = load_catalogue([save(content)]).table
    assert table.e_h[0] == pytest.approx(UNIT.Quantity(50, "mm").to("inch").magnitude, rel=1e-12)


def test_a_row_says_what_its_file_says(catalogue):
    """The figures are copied from the file by hand."""
    table, at = catalogue.table, catalogue.row("wedge-expansion-zinc", "1/2", 3.25)
    assert (table.d_a[at], table.a_se_n[at], table.f_uta[at], table.f_ya[at]) == (0.5, 0.102, 106000, 85000)
    assert (table.h_min[at], table.c_min[at], table.s_min[at], table.c_ac[at]) == (6.0, 2.75, 2.75, 9.0)
    assert (table.n_p_cr[at], table.n_p_uncr[at], table.n_p_eq[at]) == (4620, 6900, 4200)
    assert (table.k_cr[at], table.k_uncr[at], table.n_exponent[at], table.category[at]) == (17, 24, 0.5, 1)
    assert table.post_installed[at]
    assert table.ductile[at]
    assert table.product_k_c[at]
    assert table.seismic_qualified[at]
    assert table.concrete_allowed[at]
    assert not table.removable[at]
    assert BASES[table.basis[at]] == "qualified"
    assert PRINCIPLES[table.principle[at]] == "torque_controlled_expansion"
    assert LIGHTWEIGHT[table.lightweight[at]] == "lambda_a"


def test_states_of_pullout(catalogue):
    def states(family, size, depth):
        at = catalogue.row(family, size, depth)
        columns = (catalogue.table.n_p_cr_state, catalogue.table.n_p_uncr_state, catalogue.table.n_p_eq_state)
        return [PULLOUT_STATES[column[at]] for column in columns]

    assert states("drop-in-zinc", "3/8", 1.625) == ["absent", "number", "absent"]
    assert states("wedge-expansion-zinc", "5/8", 2.75) == ["not_governing"] * 3
    assert states("headed-bolt", "3/4", 9) == ["absent"] * 3
    unread = catalogue.table.n_p_cr_state != 1
    assert (catalogue.table.n_p_cr[unread] == 0).all()
    assert (catalogue.table.n_p_cr[~unread] > 0).all()


def test_cast_in_rows(catalogue):
    table = catalogue.table.take(np.flatnonzero(~catalogue.table.post_installed))
    families = {
        address.split("/")[0]: method for address, method in zip(table.address, table.pullout_method, strict=True)
    }
    assert families == {
        "headed-bolt": 1,
        "headed-stud-welded": 1,
        "hooked-bolt": 2,
        "en-headed-stud": 1,
        "cast-in-insert-form-zinc": 0,
        "cast-in-insert-deck-zinc": 0,
    }
    assert not table.c_ac.any()
    assert not table.category.any()
    assert not table.product_k_c.any()
    table = table.take(np.flatnonzero(table.en_row < 0))
    assert [PRINCIPLES[each] for each in table.principle[~table.seismic_qualified]] == ["cast_in_insert"] * 7


def test_shear_and_sleeve_columns(catalogue):
    """The figures are copied from the files by hand."""
    table = catalogue.table

    def shear(address):
        at = table.address.index(address)
        return [column[at] for column in (table.v_sa, table.v_sa_tested, table.v_sa_eq, table.v_sa_eq_tested)]

    assert shear("wedge-expansion-zinc/1/2/3.25") == [6200, True, 5300, True]
    assert shear("drop-in-zinc/3/8/1.625") == [2700, True, 0, False]
    assert shear("headed-bolt/3/4/9") == [0, False, 0, False]
    assert shear("undercut-stainless-metric/M8/60")[0] == pytest.approx(
        UNIT.Quantity(14, "kN").to("lbf").magnitude, rel=1e-12
    )
    families = [address.split("/")[0] for address in table.address]
    for column, family in (("distance_sleeve", "sleeve-expansion-heavy-zinc"), ("welded_stud", "headed-stud-welded")):
        assert {family for family, holds in zip(families, getattr(table, column), strict=True) if holds} == {family}


def test_seismic_needs_the_flag_and_the_strength(document, save):
    content = document("wedge-expansion-zinc")
    content["sizes"][1]["embedments"][0]["seismic"] = False
    table = load_catalogue([save(content)]).table
    assert table.seismic_qualified.tolist() == [True, False, *[True] * 8]


C_AC_CASES = [
    ("torque_controlled_expansion", 10.0),
    ("displacement_controlled_expansion", 10.0),
    ("screw", 10.0),
    ("undercut", 6.25),
    ("adhesive", 5.0),
]


@pytest.mark.parametrize(("principle", "c_ac"), C_AC_CASES)
def test_c_ac_of_the_code(document, principle, c_ac):
    """Table 17.9.5 of ACI 318-19: 4, 4, 4, 2.5 and 2 h_ef; here h_ef is 2.5 in. From the digest of the standard."""
    size = document("wedge-expansion-zinc")["sizes"][1]
    embedment = size.pop("embedments")[1] | {"c_ac": None, "deck": []}
    product = {"units": "us", "principle": principle, "basis": "allowable_table", "size": size, "embedment": embedment}
    table = InlineProduct.model_validate(product).to_table()
    assert table.c_ac.tolist() == [c_ac]
    assert table.c_ac_from_code.tolist() == [True]


def test_c_ac_of_tests_is_not_of_the_code(catalogue):
    """Only tables of allowable loads go without c_ac, which they don't need."""
    by_table = np.array([BASES[basis] == "allowable_table" for basis in catalogue.table.basis])
    assert not catalogue.table.c_ac_from_code[~by_table].any()


THREADS = [(None, 0.0), ("3/8", 0.375), ("1", 1.0), ("1-1/4", 1.25), ("M10", 10 / 25.4)]


@pytest.mark.parametrize(("word", "inches"), THREADS)
def test_threads(word, inches):
    assert thread_diameter(word) == inches


def test_take_repeats_and_reorders(catalogue):
    rows = np.array([5, 0, 5], dtype=np.intp)
    taken = catalogue.table.take(rows)
    assert taken.address == (catalogue.addresses[5], catalogue.addresses[0], catalogue.addresses[5])
    for field in dataclasses.fields(taken):
        if field.name not in ("address", "bond", "deck", "en", "loads"):
            assert (getattr(taken, field.name) == getattr(catalogue.table, field.name)[rows]).all()


def test_concatenate_joins_in_order(catalogue):
    first, second = (catalogue.table.take(np.array(rows, dtype=np.intp)) for rows in ([3, 2], [7]))
    joined = concatenate([first, second])
    assert joined.address == (*first.address, *second.address)
    assert joined.h_ef.tolist() == [*first.h_ef.tolist(), *second.h_ef.tolist()]
    assert joined.basis.dtype == np.int8
    assert len(concatenate([])) == 0


@pytest.mark.parametrize(
    ("family", "changes", "spacing"),
    [
        ("headed-bolt", {}, 4 * 0.5),
        ("headed-bolt", {"torque": 30, "s_min": 3.0, "c_min": 3.0}, 6 * 0.5),
        ("wedge-expansion-zinc", {"spacing_tested": False, "s_min": 9.0, "c_min": 9.0}, 6 * 0.25),
        ("wedge-expansion-zinc", {"spacing_tested": True}, 0.0),
    ],
)
def test_least_spacing_of_the_code(document, save, family, changes, spacing):
    """ACI 318-19 Table 17.9.2 (from memory): cast-in 4 d_a, torqued 6 d_a; post-installed 6 d_a unless tested."""
    content = document(family)
    size = content["sizes"][0]
    row = size["embedments"][0] | changes
    content["traits"]["bases"] = ["concrete"]
    content["sizes"] = [size | {"embedments": [row]}]
    table = load_catalogue([save(content)]).table
    assert table.s_min_code[0] == pytest.approx(spacing, rel=1e-15)


def test_least_spacing_of_a_screw(catalogue):
    """The larger of 6 d_a and 0.6 h_ef (Table 17.9.2, from memory), unless tested."""
    table = catalogue.table
    screws = np.flatnonzero(table.principle == PRINCIPLES.index("screw"))
    stated = np.maximum(6 * table.d_a[screws], 0.6 * table.h_ef[screws])
    assert len(screws) > 5
    assert (np.isclose(table.s_min_code[screws], stated, rtol=1e-15) | (table.s_min_code[screws] == 0)).all()
    assert (table.s_min_code[screws] > 0).any()
