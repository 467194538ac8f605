"""Columns of the figures for EN 1992-4: exact in SI, what stands where data are silent, rows taken and joined."""

import dataclasses
import json

import numpy as np
import pint
import pytest

from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.en_table import EnTable
from hangpoint.product.fields import PULLOUT_STATES, pullout_state
from hangpoint.product.inline import InlineProduct
from hangpoint.product.table import concatenate

WEDGE, STUD, DROP_IN = "en-wedge-expansion-zinc", "en-headed-stud", "en-drop-in-zinc"
UNIT = pint.UnitRegistry()
BOOLS = {"bonded", "psi0_sus_silent", "k7_silent", "s_cr_n_silent", "post_installed", "undercut"}
CODES = {"n_rk_p_cr_state", "n_rk_p_ucr_state", "n_rk_p_c1_state", "n_rk_p_c2_state"}
SEISMIC = {f"{name}_{category}" for name in ("n_rk_s", "n_rk_p", "v0_rk_s") for category in ("c1", "c2")}
UNQUALIFIED = dict.fromkeys([*SEISMIC, "n_rk_p_c1_state", "n_rk_p_c2_state"], 0)
NOT_BONDED = {"bonded": False, "psi0_sus": 1.0, "psi0_sus_silent": False}
COLUMNS = {
    *("h_ef", "d_nom", "a_s", "f_uk", "f_yk", "n_rk_s", "v0_rk_s", "k7", "gamma_ms_n", "gamma_ms_v", "gamma_inst"),
    *("k_cr_n", "k_ucr_n", "s_cr_n", "c_cr_sp", "n0_rk_sp", "n_rk_p_cr", "n_rk_p_ucr", "psi_c_exponent", "k8", "a_h"),
    *("l_f", "psi0_sus", *BOOLS, *CODES, *SEISMIC),
}


@pytest.fixture(scope="module")
def table():
    return load_catalogue().table


def figures(table, address):
    """Every column of the product's row by name."""
    at = table.en_row[table.address.index(address)]
    return {field.name: getattr(table.en, field.name)[at] for field in dataclasses.fields(table.en)}


def test_columns_and_their_types(table):
    assert {field.name for field in dataclasses.fields(EnTable)} == COLUMNS
    for name in COLUMNS:
        column = getattr(table.en, name)
        assert column.dtype == (np.bool_ if name in BOOLS else np.int8 if name in CODES else np.float64), name
        assert column.shape == (len(table.en),), name
        assert np.isfinite(column).all(), name
        assert not column.flags.writeable, name


def test_rows_are_those_of_the_basis(table):
    families = np.array([address.startswith("en-") for address in table.address])
    assert (families == (table.en_row >= 0)).all()
    assert table.en_row[families].tolist() == list(range(len(table.en)))
    assert (table.en_row[~families] == -1).all()
    np.testing.assert_allclose(table.en.h_ef, table.h_ef[families] * 25.4, rtol=1e-15)


def test_figures_of_an_si_file_come_through(table):
    """The figures are copied from the file by hand: lengths as they stand, kN times 1000, no rounding."""
    found = figures(table, f"{WEDGE}/M10/65")
    assert found == {
        "h_ef": 65.0,
        "d_nom": 10.0,
        "a_s": 44.0,
        "f_uk": 650.0,
        "f_yk": 520.0,
        "n_rk_s": 28000.0,
        "v0_rk_s": 17000.0,
        "k7": 1.0,
        "k7_silent": False,
        "gamma_ms_n": 1.5,
        "gamma_ms_v": 1.25,
        "gamma_inst": 1.2,
        "k_cr_n": 7.7,
        "k_ucr_n": 11.0,
        "s_cr_n": 195.0,
        "s_cr_n_silent": True,
        "c_cr_sp": 125.0,
        "n0_rk_sp": 16000.0,
        "n_rk_p_cr": 10500.0,
        "n_rk_p_cr_state": 1,
        "n_rk_p_ucr": 17500.0,
        "n_rk_p_ucr_state": 1,
        "psi_c_exponent": 0.5,
        "k8": 2.0,
        "a_h": 0.0,
        "post_installed": True,
        "undercut": False,
        "l_f": 65.0,
        **UNQUALIFIED,
        **NOT_BONDED,
    }


def test_a_headed_stud(table):
    """Copied from the file by hand; 8.9 and 12.7 are those of 7.2.1.4 for headed fasteners."""
    found = figures(table, f"{STUD}/19/140")
    assert found == {
        "h_ef": 140.0,
        "d_nom": 19.0,
        "a_s": 283.5,
        "f_uk": 450.0,
        "f_yk": 350.0,
        "n_rk_s": 0.0,
        "v0_rk_s": 0.0,
        "k7": 1.0,
        "k7_silent": False,
        "gamma_ms_n": 0.0,
        "gamma_ms_v": 0.0,
        "gamma_inst": 1.0,
        "k_cr_n": 8.9,
        "k_ucr_n": 12.7,
        "s_cr_n": 420.0,
        "s_cr_n_silent": True,
        "c_cr_sp": 280.0,
        "n0_rk_sp": 0.0,
        "n_rk_p_cr": 0.0,
        "n_rk_p_cr_state": 0,
        "n_rk_p_ucr": 0.0,
        "n_rk_p_ucr_state": 0,
        "psi_c_exponent": 0.0,
        "k8": 2.0,
        "a_h": 520.7,
        "post_installed": False,
        "undercut": False,
        "l_f": 140.0,
        **UNQUALIFIED,
        **NOT_BONDED,
        "n_rk_s_c1": 127_500.0,
        "v0_rk_s_c1": 53_000.0,
    }


def test_what_is_silent_and_what_is_stated(table):
    drop_in = figures(table, f"{DROP_IN}/M12/50")
    assert (drop_in["k7"], drop_in["k7_silent"]) == (0.8, True)
    assert (drop_in["n_rk_p_cr_state"], drop_in["n_rk_p_ucr_state"]) == (0, 2)
    assert (drop_in["n_rk_p_ucr"], drop_in["psi_c_exponent"], drop_in["n_rk_s"]) == (0.0, 0.0, 0.0)
    wedge = figures(table, f"{WEDGE}/M20/100")
    assert (wedge["s_cr_n"], wedge["s_cr_n_silent"]) == (300.0, False)
    undercut = figures(table, "en-undercut-zinc/M16/190")
    assert (undercut["k_cr_n"], undercut["k_ucr_n"], undercut["l_f"]) == (8.9, 12.7, 190.0)


def test_figures_of_earthquake(table):
    """Copied from the files by hand, kN times 1000."""
    undercut = figures(table, "en-undercut-zinc/M16/150")
    assert undercut["undercut"]
    assert [undercut[name] for name in ("n_rk_s_c1", "n_rk_p_c1", "v0_rk_s_c1")] == [125_000.0, 0.0, 58_000.0]
    assert [undercut[name] for name in ("n_rk_s_c2", "n_rk_p_c2", "v0_rk_s_c2")] == [125_000.0, 62_000.0, 50_000.0]
    assert [undercut[f"n_rk_p_{category}_state"] for category in ("c1", "c2")] == [2, 1]
    screw = figures(table, "en-screw-zinc/10/68")
    assert [screw[name] for name in ("n_rk_s_c1", "n_rk_p_c1", "v0_rk_s_c1")] == [57_000.0, 9_000.0, 0.0]
    assert [screw[name] for name in ("n_rk_s_c2", "n_rk_p_c2", "v0_rk_s_c2")] == [0.0] * 3


def test_states():
    assert [PULLOUT_STATES[pullout_state(value)] for value in (None, 2.5, "not_governing")] == list(PULLOUT_STATES)


def test_us_data_are_converted(document):
    """pint is the outside reference. Relative 1e-12: rounding of floating point only. k are not converted."""
    size = {"size": "3/8", "d_a": 0.375, "a_se": 0.068, "f_uta": 95_000, "f_ya": 75_000, "ductile": True}
    en = {"n_rk_p_cr": 2000, "n_rk_p_ucr": 3000, "psi_c_exponent": 0.3, "gamma_inst": 1.0, "n_rk_s": 6300}
    en |= {"v0_rk_s": 3800, "c_cr_sp": 5.0, "s_cr_n": 7.5, "n0_rk_sp": 2900, "k8": 2.0, "l_f": 2.25, "k_cr_n": 7.0}
    embedment = {"h_ef": 2.5, "h_min": 5, "c_min": 2, "s_min": 2, "en": en}
    product = {"units": "us", "principle": "undercut", "basis": "en", "size": size, "embedment": embedment}
    table = InlineProduct.model_validate_json(json.dumps(product)).to_table()
    assert table.en_row.tolist() == [0]
    found = figures(table, "inline")
    expected = {"h_ef": (2.5, "inch", "mm"), "d_nom": (0.375, "inch", "mm"), "a_s": (0.068, "inch**2", "mm**2")}
    expected |= {"f_uk": (95_000, "psi", "MPa"), "f_yk": (75_000, "psi", "MPa"), "n_rk_s": (6300, "lbf", "N")}
    expected |= {"v0_rk_s": (3800, "lbf", "N"), "n0_rk_sp": (2900, "lbf", "N"), "n_rk_p_cr": (2000, "lbf", "N")}
    expected |= {"n_rk_p_ucr": (3000, "lbf", "N"), "c_cr_sp": (5, "inch", "mm"), "s_cr_n": (7.5, "inch", "mm")}
    expected |= {"l_f": (2.25, "inch", "mm")}
    for name, (value, unit, core) in expected.items():
        assert found[name] == pytest.approx(UNIT.Quantity(value, unit).to(core).magnitude, rel=1e-12), name
    assert (found["k_cr_n"], found["k_ucr_n"], found["psi_c_exponent"]) == (7.0, 11.0, 0.3)


@pytest.mark.parametrize("family", [WEDGE, STUD, DROP_IN, "en-undercut-zinc"])
def test_a_file_and_a_request_make_the_same_row(document, table, family):
    content = document(family)
    size = content["sizes"][-1]
    embedment = size.pop("embedments")[-1]
    product = {name: content[name] for name in ("units", "principle", "basis")} | {"size": size, "embedment": embedment}
    inline = InlineProduct.model_validate_json(json.dumps(product)).to_table()
    assert figures(inline, "inline") == figures(table, f"{family}/{size['size']}/{embedment['h_ef']}")


def test_rows_taken_keep_their_figures(table):
    at = [table.address.index(address) for address in (f"{WEDGE}/M20/100", "headed-bolt/3/4/9", f"{STUD}/13/75")]
    taken = table.take(np.array(at, dtype=np.intp))
    assert taken.en.h_ef[taken.en_row[[0, 2]]].tolist() == [100.0, 75.0]
    assert taken.en_row[1] == -1


def test_tables_joined_keep_their_figures(document, table):
    content = document(WEDGE)
    size = content["sizes"][0]
    embedment = size.pop("embedments")[0] | {"h_ef": 44}
    product = {name: content[name] for name in ("units", "principle", "basis")} | {"size": size, "embedment": embedment}
    inline = InlineProduct.model_validate_json(json.dumps(product)).to_table()
    joined = concatenate([table, inline, inline])
    assert joined.en_row[-2:].tolist() == [len(table.en), len(table.en) + 1]
    assert joined.en.h_ef[joined.en_row[-2:]].tolist() == [44.0, 44.0]
    assert (joined.en_row[: len(table)] == table.en_row).all()
    assert len(concatenate([]).en) == 0


def test_nothing_of_chapter_17_is_taken_for_them(table):
    """No 17.9.2, no 17.9.4, no c_ac of Table 17.9.5, no category, no N_p; qualified for earthquake by category C1."""
    own = table.take(np.flatnonzero(table.en_row >= 0))
    neutral = (own.c_min_code, own.s_min_code, own.c_ac, own.category, own.n_exponent, own.k_cr, own.k_uncr, own.v_sa)
    assert not any(column.any() for column in neutral)
    assert own.thickness_tested.all()
    assert (own.seismic_qualified == (own.en.n_rk_s_c1 > 0)).all()
    flags = (own.c_ac_from_code, own.product_k_c, own.f_c_ref_silent, own.masonry_allowed)
    assert not any(column.any() for column in flags)
    assert not any(column.any() for column in (own.n_p_cr_state, own.n_p_uncr_state, own.n_p_eq_state))
