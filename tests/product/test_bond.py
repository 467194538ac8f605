"""Bond of adhesive anchors: every rule broken by one example, and the columns that the data become."""

import json

import numpy as np
import pint
import pytest
from pydantic import ValidationError

from hangpoint.core.errors import CatalogueError
from hangpoint.product.bond_table import HOLES
from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.check import defects
from hangpoint.product.inline import InlineProduct
from hangpoint.product.table import concatenate

SLOW, FAST = "adhesive-slow-rod-36", "adhesive-fast-rod-36"
UNIT = pint.UnitRegistry()
ROW = "sizes/1/embedments/1"


@pytest.fixture(scope="module")
def catalogue():
    return load_catalogue()


def entry(family, number):
    return family["sizes"][1]["embedments"][1]["bond"][number]


def row(family):
    return family["sizes"][1]["embedments"][1]


def also(*parts):
    """Set all of the parts: number of the entry, or None for the embedment, and its new values."""

    def change(family):
        for number, values in parts:
            (row(family) if number is None else entry(family, number)).update(values)

    return change


def traits(**values):
    return lambda family: family["traits"].update(values)


RULES = [
    ("no bond", SLOW, also((None, {"bond": []})), f"{ROW}/bond", "needs its bond stresses"),
    ("pullout", SLOW, also((None, {"n_p_uncr": "not_governing"})), f"{ROW}/n_p_uncr", "no pullout strength"),
    ("category", SLOW, also((None, {"category": 1})), f"{ROW}/category", "state it in its bond"),
    ("k_cr", SLOW, lambda f: row(f).pop("k_cr"), f"{ROW}/k_cr", "k_cr is required"),
    ("k_uncr", SLOW, lambda f: row(f).pop("k_uncr"), f"{ROW}/k_uncr", "k_uncr is required"),
    ("not seismic", SLOW, also((None, {"seismic": False})), f"{ROW}/seismic", "alpha_n_seis is stated"),
    (
        "seismic without alpha",
        FAST,
        also((0, {"alpha_n_seis": None}), (2, {"alpha_n_seis": None})),
        f"{ROW}/seismic",
        "alpha_n_seis is in no condition",
    ),
    ("v_sa_eq", SLOW, lambda f: row(f).pop("v_sa_eq"), f"{ROW}/v_sa_eq", "17.10.3"),
    ("MPa in psi", SLOW, also((0, {"tau_uncr": 13.1})), f"{ROW}/bond/0/tau_uncr", "outside 50 to 6000"),
    ("tau_uncr", SLOW, lambda f: entry(f, 3).pop("tau_uncr"), f"{ROW}/bond/3/tau_uncr", "c_Na follows from it"),
    (
        "no tau",
        FAST,
        lambda f: entry(f, 3).pop("tau_uncr"),
        f"{ROW}/bond/3/tau_uncr",
        "the condition says nothing",
    ),
    ("order", SLOW, also((3, {"tau_cr": 1290})), f"{ROW}/bond/3/tau_cr", "a crack weakens"),
    ("alpha", FAST, also((3, {"alpha_n_seis": 0.8})), f"{ROW}/bond/3/tau_cr", "only in cracked"),
    (
        "temperatures",
        SLOW,
        also((0, {"long_term": 131}), (1, {"long_term": 131})),
        f"{ROW}/bond/0/long_term",
        "exceeds",
    ),
    ("one range", SLOW, also((1, {"short_term": 131})), f"{ROW}/bond/1/temperature", "two pairs of temperatures"),
    ("condition twice", SLOW, also((1, {"hole": "dry"})), f"{ROW}/bond/1/hole", "is there twice"),
    ("water tau", SLOW, also((1, {"tau_cr": 1065})), f"{ROW}/bond/1/tau_cr", "in a water-saturated hole exceeds"),
    ("water category", FAST, also((0, {"category": 2}), (1, {"category": 1})), f"{ROW}/bond/1/category", "better than"),
    ("heat", SLOW, also((2, {"tau_uncr": 1905})), f"{ROW}/bond/2/tau_uncr", "exceeds that in the cooler a"),
    (
        "heat, not in the cooler",
        FAST,
        lambda f: (also((3, {"tau_cr": 300}))(f), entry(f, 1).pop("tau_cr")),
        f"{ROW}/bond/3/tau_cr",
        "exceeds that in the cooler a, absent",
    ),
    ("falls", SLOW, also((2, {"tau_cr": 340}), (3, {"tau_cr": 330})), f"{ROW}/bond/2/tau_cr", "is below the"),
    ("shallow", SLOW, also((None, {"h_ef": 1.9})), f"{ROW}/h_ef", "4 d_a <= h_ef <= 20 d_a, here 2 to 10"),
    (
        "deep",
        SLOW,
        also((None, {"h_ef": 10.5, "h_nom": 10.5, "h_min": 12, "hole": {"diameter": 0.5625, "depth": 10.5}})),
        f"{ROW}/h_ef",
        "(17.3.3)",
    ),
    ("c_ac", SLOW, lambda f: row(f).pop("c_ac"), f"{ROW}/c_ac", "17.9.5"),
    ("young", SLOW, traits(least_age_days=20), "traits/least_age_days", "21 days"),
    ("overhead", FAST, traits(tension_overhead=True), "traits/tension_overhead", "17.2.3"),
    ("cracked trait", SLOW, traits(cracked_qualified=False), "traits/cracked_qualified", "contradicts"),
    ("seismic trait", SLOW, traits(seismic_qualified=False), "traits/seismic_qualified", "contradicts"),
]


@pytest.mark.parametrize(("family", "change", "path", "reason"), [pytest.param(*r[1:], id=r[0]) for r in RULES])
def test_a_broken_rule_names_place_and_reason(document, save, family, change, path, reason):
    content = document(family)
    load_catalogue([save(content)])
    change(content)
    found = {defect.pointer: defect.reason for defect in reversed(defects([save(content)]))}
    assert reason in found[f"#/{path}"]
    with pytest.raises(CatalogueError):
        load_catalogue([save(content)])


FIELDS = [
    ("temperature", "A"),
    ("hole", "wet"),
    ("category", 4),
    ("tau_uncr", -5),
    ("alpha_n_seis", 1.1),
    ("tau_exponent", 1.5),
    ("short_term", 5000),
    ("colour", "grey"),
]


@pytest.mark.parametrize(("name", "value"), FIELDS)
def test_a_field_out_of_its_range(document, save, name, value):
    content = document(SLOW)
    entry(content, 0)[name] = value
    with pytest.raises(CatalogueError) as caught:
        load_catalogue([save(content)])
    assert caught.value.path == f"#/{ROW}/bond/0/{name}"


def test_a_bond_stress_may_fall_with_the_diameter(document):
    """Only the product tau d_a h_ef may not; the built-in files show it."""
    stresses = [size["embedments"][0]["bond"][0]["tau_uncr"] for size in document(SLOW)["sizes"]]
    assert stresses == sorted(stresses, reverse=True)
    assert len(set(stresses)) == 6


def test_rows_say_what_the_file_says(catalogue, document):
    table, bond = catalogue.table, catalogue.table.bond
    for at, address in enumerate(table.address):
        family, rest = address.split("/", 1)
        size, depth = rest.rsplit("/", 1)
        if "adhesive" not in family:
            assert table.bond_count[at] == 0
            assert table.bond_conditions(at) == ()
            continue
        if family.startswith("en-"):
            continue
        (data,) = (
            row
            for own in document(family)["sizes"]
            for row in own["embedments"]
            if own["size"] == size and row["h_ef"] == float(depth)
        )
        assert table.bond_conditions(at) == tuple((each["temperature"], each["hole"]) for each in data["bond"])
        for each in data["bond"]:
            row = catalogue.bond_row(at, each["temperature"], each["hole"])
            assert bond.tau_cr[row] == each.get("tau_cr", 0)
            assert bond.qualified_cr[row] == ("tau_cr" in each)
            assert bond.tau_uncr[row] == each["tau_uncr"]
            assert bond.qualified_uncr[row]
            assert bond.alpha_n_seis[row] == each.get("alpha_n_seis", 0)
            assert bond.tau_exponent[row] == each.get("tau_exponent", 0)
            assert bond.category[row] == each["category"]
            assert bond.f_c_ref[row] == 2500
            assert (bond.long_term[row], bond.short_term[row]) == (each["long_term"], each["short_term"])
            assert HOLES[bond.hole[row]] == each["hole"]
        assert table.category[at] == max(each["category"] for each in data["bond"])
        assert table.bond_start[at] + table.bond_count[at] <= len(bond)


def test_columns_of_the_product(catalogue):
    """17.2.2 and 17.2.3: least age of 21 days, and who may hold upward."""
    table = catalogue.table
    adhesive = table.bond_count > 0
    assert set(table.least_age_days[adhesive].tolist()) == {21}
    assert not table.least_age_days[~adhesive].any()
    families = {address.split("/")[0] for address, up in zip(table.address, table.upward, strict=True) if up}
    assert families == {
        *("adhesive-slow-rod-36", "adhesive-slow-rod-105", "adhesive-slow-rod-stainless"),
        "en-adhesive-slow-rod-zinc",
    }
    assert table.seismic_qualified[adhesive & (table.en_row < 0)].all()


def test_rows_for_en_1992_4_say_what_the_file_says(catalogue, document):
    """N/mm2 as they stand; temperatures in degF; the same bond in psi, 1 N/mm2 being 145.04 psi."""
    table, bond, compared = catalogue.table, catalogue.table.bond, 0
    for at, address in enumerate(table.address):
        family, rest = address.split("/", 1)
        if not family.startswith("en-adhesive"):
            continue
        size, depth = rest.rsplit("/", 1)
        (data,) = (
            row["en"]
            for own in document(family)["sizes"]
            for row in own["embedments"]
            if own["size"] == size and row["h_ef"] == float(depth)
        )
        for each in data["bond"]:
            row = catalogue.bond_row(at, each["temperature"], each["hole"])
            for name in ("tau_rk_cr", "tau_rk_ucr", "tau_rk_c1", "tau_rk_c2", "gamma_inst"):
                assert getattr(bond, name)[row] == each.get(name, 0), name
            assert bond.tau_exponent[row] == each.get("psi_c_exponent", 0)
            assert bond.tau_uncr[row] == pytest.approx(145.0377 * each["tau_rk_ucr"], rel=1e-6)
            assert bond.long_term[row] == pytest.approx(1.8 * each["long_term"] + 32)
            compared += 1
    assert compared == 80


def test_a_stated_age_takes_the_place_of_21_days(document, save):
    content = document(SLOW)
    content["traits"]["least_age_days"] = 28
    assert set(load_catalogue([save(content)]).table.least_age_days.tolist()) == {28}
    del content["traits"]["least_age_days"]
    assert set(load_catalogue([save(content)]).table.least_age_days.tolist()) == {21}


def test_a_condition_that_is_not_there(catalogue):
    at = catalogue.row(SLOW, "1/2", 6)
    assert catalogue.bond_row(at, "c", "dry") is None
    assert catalogue.bond_row(catalogue.row("headed-bolt", "1/2", 4), "a", "dry") is None


def test_columns_are_read_only_and_finite(catalogue):
    bond = catalogue.table.bond
    with pytest.raises(ValueError, match="read-only"):
        bond.tau_cr[0] = 1.0
    for name, column in vars(bond).items():
        if name != "temperature":
            assert np.isfinite(column).all()
            assert column.shape == (len(bond),)


def test_taken_and_joined_rows_keep_their_bond(catalogue):
    products = (FAST, "1/2", 6), ("headed-bolt", "1/2", 4), (SLOW, "1", 20)
    rows = np.array([catalogue.row(*each) for each in products], dtype=np.intp)
    joined = concatenate([catalogue.table.take(rows[::-1]), catalogue.table.take(rows), inline(product()).to_table()])
    assert joined.bond_count.tolist() == [4, 0, 4, 4, 0, 4, 1]
    for at, original in enumerate([*rows[::-1].tolist(), *rows.tolist()]):
        for condition in catalogue.table.bond_conditions(original):
            was, now = catalogue.bond_row(original, *condition), joined.bond_row(at, *condition)
            assert joined.bond.tau_uncr[now] == catalogue.table.bond.tau_uncr[was]
    assert joined.bond.tau_uncr[joined.bond_row(6, "only", "dry")] == 1500


def product():
    return {
        "units": "us",
        "principle": "adhesive",
        "basis": "adhesive",
        "size": {"size": "1/2", "d_a": 0.5, "a_se": 0.1419, "f_uta": 58000, "f_ya": 36000, "ductile": True},
        "embedment": {
            "h_ef": 4.0,
            "h_min": 6.0,
            "c_min": 3.0,
            "s_min": 3.0,
            "bond": [
                {
                    "temperature": "only",
                    "long_term": 110,
                    "short_term": 130,
                    "hole": "dry",
                    "category": 2,
                    "tau_cr": 700,
                    "tau_uncr": 1500,
                }
            ],
        },
    }


def inline(content):
    return InlineProduct.model_validate_json(json.dumps(content))


def test_an_inline_product():
    table = inline(product()).to_table()
    assert (table.category[0], table.least_age_days[0], table.upward[0], table.c_ac[0]) == (2, 21, False, 8)
    assert table.c_ac_from_code[0]
    assert not table.seismic_qualified[0]
    assert table.bond_conditions(0) == (("only", "dry"),)


def test_an_inline_product_in_si():
    """Stress and temperature against pint, relative 1e-12."""
    content = product() | {"units": "si"}
    content["size"] |= {"d_a": 12, "a_se": 84.3, "f_uta": 400, "f_ya": 240}
    content["embedment"] |= {"h_ef": 100, "h_min": 130, "c_min": 72, "s_min": 72}
    content["embedment"]["bond"][0] |= {"tau_cr": 5, "tau_uncr": 11, "long_term": 43, "short_term": 55, "f_c_ref": 20}
    bond = inline(content).to_table().bond
    for name, value in (("tau_cr", 5), ("tau_uncr", 11), ("f_c_ref", 20)):
        expected = UNIT.Quantity(value, "MPa").to("psi").magnitude
        assert getattr(bond, name)[0] == pytest.approx(expected, rel=1e-12)
    for name, value in (("long_term", 43), ("short_term", 55)):
        expected = UNIT.Quantity(value, "degC").to("degF").magnitude
        assert getattr(bond, name)[0] == pytest.approx(expected, rel=1e-12)
    content["embedment"]["bond"][0]["tau_uncr"] = 1500
    with pytest.raises(ValidationError, match=r"outside 0\.35 to 41"):
        inline(content)


INLINE = [
    ({"embedment": {"bond": []}}, "needs its bond"),
    ({"traits": {"least_age_days": 7}}, "21 days"),
    ({"principle": "screw", "basis": "qualified", "traits": {"upward": True}}, "bond goes with the basis"),
]


@pytest.mark.parametrize(("change", "reason"), INLINE)
def test_an_inline_product_obeys_the_same_rules(change, reason):
    content = product()
    for key, value in change.items():
        content[key] = content.get(key, {}) | value if isinstance(value, dict) else value
    content["embedment"].setdefault("category", None)
    if content["basis"] == "qualified":
        content["embedment"] |= {"category": 1, "n_p_uncr": "not_governing"}
    with pytest.raises(ValidationError, match=reason):
        inline(content)


def test_depth_beyond_17_3_3_is_left_to_the_check():
    content = product()
    content["embedment"] |= {"h_ef": 11.0, "h_min": 13.0}
    assert inline(content).to_table().h_ef.tolist() == [11.0]
