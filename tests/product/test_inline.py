"""A product in a request: the same schema and rules as a file, with findings left to the check."""

import json

import pytest
from pydantic import TypeAdapter, ValidationError

from hangpoint.product.catalogue import load_catalogue
from hangpoint.product.family import Source
from hangpoint.product.inline import InlineProduct
from hangpoint.product.table import concatenate

SOURCE = {"document": "Evaluation of an anchor", "date": "2024-05", "standard": "ACI 355.2-19"}


@pytest.fixture
def product():
    return {
        "units": "us",
        "principle": "torque_controlled_expansion",
        "basis": "qualified",
        "source": dict(SOURCE),
        "traits": {"tension_overhead": True},
        "size": {"size": "3/8", "d_a": 0.375, "a_se": 0.05, "f_uta": 100000, "f_ya": 80000, "ductile": True},
        "embedment": {
            "h_ef": 2.0,
            "h_min": 4.0,
            "c_min": 3.0,
            "s_min": 2.25,
            "c_ac": 6.0,
            "category": 1,
            "n_p_cr": 1500,
            "n_p_uncr": 2400,
            "n_exponent": 0.5,
        },
    }


def read(product) -> InlineProduct:
    return InlineProduct.model_validate_json(json.dumps(product))


def test_becomes_one_row(product):
    table = read(product).to_table()
    assert table.address == ("inline",)
    assert table.family_index.tolist() == [-1]
    assert not table.invented[0]
    assert table.has_source[0]
    assert (table.h_ef[0], table.n_p_cr[0], table.n_p_uncr[0], table.c_ac[0]) == (2.0, 1500.0, 2400.0, 6.0)
    assert table.n_p_eq_state[0] == 0
    assert not table.seismic_qualified[0]


def test_bytes_and_objects_read_alike(product):
    adapter = TypeAdapter(InlineProduct)
    product["traits"]["bases"] = ["concrete", "deck"]
    assert adapter.validate_json(json.dumps(product)) == adapter.validate_python(product)


def test_a_file_and_a_request_make_the_same_row(product, document):
    content = document("undercut-stainless-metric")
    size = content["sizes"][0]
    product |= {key: content[key] for key in ("units", "principle", "basis")}
    product["traits"] = {
        key: content["traits"][key]
        for key in ("removable", "internally_threaded", "bases", "tension_overhead", "sustained_tension")
    }
    product["material"] = content["material"]
    product["embedment"] = size.pop("embedments")[0]
    product["size"] = size
    inline = read(product).to_table()
    catalogue = load_catalogue()
    joined = concatenate([catalogue.table, inline])
    at = catalogue.row(content["id"], "M8", 60 / 25.4)
    for name in vars(inline):
        if name not in ("address", "family_index", "invented", "has_source", "bond", "bond_start", "deck", "en"):
            assert getattr(joined, name)[-1] == getattr(joined, name)[at], name


def test_silence_is_conservative(product):
    del product["traits"], product["source"]
    table = read(product).to_table()
    assert not table.tension_overhead[0]
    assert not table.sustained_tension[0]
    assert not table.seismic_qualified[0]
    assert not table.has_source[0]
    assert table.concrete_allowed[0]
    product["traits"] = {"bases": ["masonry"]}
    assert not read(product).to_table().concrete_allowed[0]


def test_c_ac_of_the_code_when_silent(product):
    """Table 17.9.5: 4 h_ef for a torque-controlled anchor."""
    del product["embedment"]["c_ac"]
    table = read(product).to_table()
    assert table.c_ac.tolist() == [8.0]
    assert table.c_ac_from_code.tolist() == [True]


def test_strength_of_the_tests_when_silent(product):
    """N_p that grows with f'c and doesn't say of which concrete it is; one that doesn't grow has nothing to say."""
    product["embedment"] |= {"n_exponent": 0.5, "f_c_ref": 3000}
    assert not read(product).to_table().f_c_ref_silent[0]
    del product["embedment"]["f_c_ref"]
    table = read(product).to_table()
    assert table.f_c_ref_silent[0]
    assert table.f_c_ref[0] == 2500
    product["embedment"]["n_exponent"] = 0
    assert not read(product).to_table().f_c_ref_silent[0]


FINDINGS = [
    ("edge", {"c_min": 0.5}, {}),
    ("spacing", {"s_min": 0.5}, {}),
    ("thickness", {"h_min": 2.1}, {}),
    ("screw too deep", {"h_ef": 3.9}, {"principle": "screw"}),
]


@pytest.mark.parametrize(("embedment", "product_change"), [pytest.param(*each[1:], id=each[0]) for each in FINDINGS])
def test_what_the_check_finds_is_no_error_here(product, embedment, product_change):
    product["embedment"] |= embedment
    product |= product_change
    assert len(read(product).to_table()) == 1


def test_a_hook_out_of_range_is_no_error_here(product):
    product |= {"principle": "hooked_cast_in", "basis": "cast_in"}
    product["size"]["hook"] = {"e_h": 9.0}
    product["embedment"] = {"h_ef": 6, "h_min": 8, "c_min": 3, "s_min": 3}
    assert read(product).to_table().pullout_method.tolist() == [2]


ERRORS = [
    ("pullout order", ("embedment", {"n_p_cr": 2500}), ("embedment", "n_p_cr"), "not below N_p,uncr"),
    ("category", ("embedment", {"category": None}), ("embedment", "category"), "needs its category"),
    ("exponent", ("embedment", {"n_exponent": None}), ("embedment", "n_exponent"), "exponent n"),
    ("k of si", ("embedment", {"k_cr": 7, "k_uncr": 10}), ("embedment", "k_cr"), "wrong by 2.4"),
    ("seismic", ("embedment", {"seismic": True}), ("embedment", "n_p_eq"), "17.10.3"),
    ("a_se", ("size", {"a_se": 5}), ("size", "a_se"), "full circle"),
    ("thread", ("traits", {"internally_threaded": True}), ("size", "thread"), "internally threaded"),
]


@pytest.mark.parametrize(("change", "path", "reason"), [pytest.param(*each[1:], id=each[0]) for each in ERRORS])
def test_contradictions_and_gaps_are_errors(product, change, path, reason):
    read(product)
    part, values = change
    product[part] |= values
    with pytest.raises(ValidationError) as caught:
        read(product)
    (error,) = caught.value.errors()
    assert error["type"] == "product"
    assert (*error["loc"], *error["ctx"]["path"]) == path
    assert reason in error["msg"]


def test_pairing_and_pins(product):
    product["principle"] = "headed_cast_in"
    with pytest.raises(ValidationError, match="does not go with the basis"):
        read(product)
    product |= {"principle": "hammer_set_pin", "basis": "allowable_table"}
    with pytest.raises(ValidationError, match="no tension overhead"):
        read(product)


@pytest.mark.parametrize("text", ["NaN", "Infinity", "1e999", "true", '"2.0"', "0", "-1"])
def test_numbers_are_strict_and_finite(product, text):
    body = json.dumps(product).replace('"h_ef": 2.0', f'"h_ef": {text}')
    with pytest.raises(ValidationError):
        InlineProduct.model_validate_json(body)


def test_unknown_fields_are_refused(product):
    product["colour"] = "grey"
    with pytest.raises(ValidationError, match="Extra inputs"):
        read(product)


def test_a_source_names_document_and_date():
    with pytest.raises(ValidationError, match="date"):
        Source.model_validate({"document": "Evaluation", "standard": "ACI 355.2-19"})
