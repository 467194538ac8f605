"""Factors and grammar of quantities.

The factors are checked against pint, read here by each spelling itself wherever pint knows it; the spellings that pint
lacks or reads otherwise (``lb`` as a force, ``"``, ``'``, ``pcf``, ``plf``, a mass as weight) are stated from their
definitions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s2 (NIST SP 811 appendix B, from memory).
"""

import re
import time

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from hangpoint import unit_factors
from hangpoint.api.schemas.quantities import EdgeDistance, LengthQuantity
from hangpoint.units import (
    KINDS,
    LENGTH,
    MAX_QUANTITY_TEXT,
    MOMENT,
    NO_EDGE,
    PRINTED,
    bare_factor,
    text_reader,
    unit_factor,
)

POUND = 0.45359237
GRAVITY = 9.80665
INCH = 0.0254
LBF = POUND * GRAVITY
SI_SIZE = {
    "length": {"in": INCH, "inch": INCH, "inches": INCH, '"': INCH}
    | {"ft": 12 * INCH, "foot": 12 * INCH, "feet": 12 * INCH, "'": 12 * INCH, "mm": 1e-3, "cm": 1e-2, "m": 1.0},
    "force": {"lb": LBF, "lbs": LBF, "lbf": LBF, "kip": 1e3 * LBF, "kips": 1e3 * LBF, "N": 1.0, "kN": 1e3},
    "stress": {"psi": LBF / INCH**2, "ksi": 1e3 * LBF / INCH**2, "MPa": 1e6, "N/mm2": 1e6},
    "area": {"in2": INCH**2, "mm2": 1e-6, "cm2": 1e-4},
    "density": {
        "lb/ft3": POUND / (12 * INCH) ** 3,
        "pcf": POUND / (12 * INCH) ** 3,
        "lb/in3": POUND / INCH**3,
        "kg/m3": 1.0,
        "g/cm3": 1e3,
    },
    "line_weight": {
        "lb/ft": LBF / (12 * INCH),
        "lbf/ft": LBF / (12 * INCH),
        "plf": LBF / (12 * INCH),
        "kg/m": GRAVITY,
        "N/m": 1.0,
        "kN/m": 1e3,
    },
    "area_weight": dict.fromkeys(("lb/ft2", "lbf/ft2", "psf"), LBF / (12 * INCH) ** 2)
    | {"kg/m2": GRAVITY, "N/m2": 1.0, "kN/m2": 1e3},
    "section_modulus": {"in3": INCH**3, "mm3": 1e-9, "cm3": 1e-6},
    "torque": dict.fromkeys(("ft*lbf", "ft*lb", "ft-lb", "lb-ft"), 12 * LBF * INCH)
    | dict.fromkeys(("in-lb", "lb-in"), LBF * INCH)
    | {"N*m": 1.0},
    "volume": {"in3": INCH**3, "fl oz": 231 / 128 * INCH**3, "mL": 1e-6, "L": 1e-3},
    "moment": dict.fromkeys(("lbf*in", "lb*in", "in-lb", "lb-in"), LBF * INCH)
    | dict.fromkeys(("lbf*ft", "lb*ft", "ft-lb", "lb-ft"), 12 * LBF * INCH)
    | dict.fromkeys(("kip*in", "kip-in"), 1e3 * LBF * INCH)
    | dict.fromkeys(("kip*ft", "kip-ft"), 12e3 * LBF * INCH)
    | {"N*m": 1.0, "kN*m": 1e3},
}
SI_SIZE["distance"] = SI_SIZE["coordinate"] = SI_SIZE["offset"] = SI_SIZE["length"]
SI_SIZE["weight"] = SI_SIZE["force"] | {"kg": GRAVITY}
CORE_SI = {
    "pound_force * foot": 12 * LBF * INCH,
    "inch": INCH,
    "foot": 12 * INCH,
    "pound_force": LBF,
    "psi": LBF / INCH**2,
    "inch**2": INCH**2,
    "inch**3": INCH**3,
    "pound_force / foot**2": LBF / (12 * INCH) ** 2,
    "pound / foot**3": POUND / (12 * INCH) ** 3,
    "pound_force / foot": LBF / (12 * INCH),
    "pound_force * inch": LBF * INCH,
}
SPELLINGS = [(name, spelling) for name, kind in KINDS.items() for spelling in kind.units]
REGISTRY = pint.UnitRegistry()
POUND_MOMENTS = {"fl oz": "fluid_ounce", "ft*lb": "ft*lbf", "lb*in": "lbf*in", "in-lb": "lbf*in", "lb-in": "lbf*in"} | {
    "lb*ft": "lbf*ft",
    "ft-lb": "lbf*ft",
    "lb-ft": "lbf*ft",
    "kip-in": "kip*in",
    "kip-ft": "kip*ft",
}
PINT_READS_OTHERWISE = {"lb", "lbs", '"', "'", "pcf", "plf", "lb/ft", "kg/m", "lb/ft2", "psf", "kg/m2", *POUND_MOMENTS}


@pytest.mark.parametrize(("name", "spelling"), SPELLINGS)
def test_each_factor_against_its_definition(name, spelling):
    expected = SI_SIZE[name][spelling] / CORE_SI[KINDS[name].core]
    assert unit_factor(KINDS[name], spelling) == pytest.approx(expected, rel=1e-14, abs=0)


@pytest.mark.parametrize(("name", "spelling"), SPELLINGS)
def test_each_factor_against_pint(name, spelling):
    registry = REGISTRY
    if spelling in PINT_READS_OTHERWISE or (name == "weight" and spelling == "kg"):
        defined = {"lb": "lbf", "lbs": "lbf", '"': "inch", "'": "foot", "pcf": "lb/ft**3", "plf": "lbf/ft"} | {
            "lb/ft": "lbf/ft",
            "kg/m": "kg*g_0/m",
            "lb/ft2": "lbf/ft**2",
            "psf": "lbf/ft**2",
            "kg/m2": "kg*g_0/m**2",
            "kg": "kg*g_0",
            **POUND_MOMENTS,
        }
        read = registry(defined[spelling])
    else:
        read = registry(re.sub(r"(?<=[a-z])([23])", r"**\1", spelling))
    assert unit_factor(KINDS[name], spelling) == pytest.approx(read.to(KINDS[name].core).magnitude, rel=1e-15, abs=0)


@pytest.mark.parametrize("name", list(KINDS))
@pytest.mark.parametrize("system", ["us", "si"])
def test_the_bare_unit_is_the_printed_one(name, system):
    printed = PRINTED[system][name]
    assert bare_factor(KINDS[name], system) == pytest.approx(
        SI_SIZE[name][printed] / CORE_SI[KINDS[name].core], rel=1e-14, abs=0
    )
    assert printed in KINDS[name].units


NUMBERS = {
    "3": 3.0,
    "3.5": 3.5,
    "3.": 3.0,
    ".5": 0.5,
    "1e3": 1000.0,
    "1.5E-6": 1.5e-6,
    "2e+6": 2e6,
    "5/8": 0.625,
    "3-1/2": 3.5,
    "3 1/2": 3.5,
    "+3": 3.0,
}


@pytest.mark.parametrize(("name", "spelling"), SPELLINGS)
def test_every_accepted_spelling(name, spelling):
    kind = KINDS[name]
    for number, value in NUMBERS.items():
        for text in (f"{number}{spelling}", f"{number} {spelling}"):
            assert re.search(kind.pattern, text), text
            expected = value * unit_factor(kind, spelling)
            assert text_reader(name)(text) == pytest.approx(expected, rel=1e-15, abs=0), text


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("5'-6\"", 66),
        ("5' 6\"", 66),
        ("5'6\"", 66),
        ("5' - 6\"", 66),
        ("5' 6 1/2\"", 66.5),
        ("5'-6-1/2\"", 66.5),
        ("5'-0\"", 60),
        ("0'-3/4\"", 0.75),
        ("5 ft 6 in", 66),
        ("5ft 6in", 66),
        ("5.5' 3\"", 69),
        ("+5'-6\"", 66),
    ],
)
def test_feet_and_inches(text, inches):
    for name in ("length", "distance", "coordinate", "offset"):
        kind = KINDS[name]
        assert re.search(kind.pattern, text)
        assert text_reader(name)(text) == pytest.approx(inches * unit_factor(kind, "in"), rel=1e-15, abs=0)
    with pytest.raises(ValueError, match="not a force"):
        text_reader("force")(text)


@pytest.mark.parametrize("name", list(KINDS))
def test_a_sign_only_where_negative_values_are(name):
    kind = KINDS[name]
    unit = next(iter(kind.units))
    assert bool(re.search(kind.pattern, f"-3 {unit}")) == (kind.least < 0)
    assert text_reader(name)(f"-3 {unit}") == -3 * unit_factor(kind, unit)


def test_a_moment_by_hand():
    """1 kN*m = 1000 N * 1000 mm / (4.4482216152605 N * 25.4 mm) = 8850.7458 lbf*in; 1 kip*ft = 12,000 lbf*in."""
    assert bare_factor(MOMENT, "si") == pytest.approx(8850.7458, abs=5e-5)
    assert bare_factor(MOMENT, "us") == 1
    read = text_reader("moment")
    assert read("-2 kN*m") == pytest.approx(-17701.4916, abs=1e-4)
    assert read("1-1/2 kip-ft") == pytest.approx(18_000, rel=1e-15)
    assert read("100 ft-lb") == pytest.approx(1200, rel=1e-15)


def test_patterns_have_no_escape_that_regular_expressions_of_json_schema_refuse():
    """Of ECMA 262 with the flag u: a backslash stands before characters of syntax only (from memory)."""
    for kind in KINDS.values():
        assert set(re.findall(r"\\(.)", kind.pattern)) <= set(".+*/^$?()[]{}|\\")


def test_negative_feet_and_inches_are_negative_as_a_whole():
    assert text_reader("offset")("-5'-6\"") == -66
    assert text_reader("coordinate")("-5'-6\"") == -5.5


WRONG = [
    "",
    "3",
    "in",
    "3 furlong",
    "3 IN",
    "3  in",
    " 3 in",
    "3 in ",
    "3 in\n",
    "3,5 in",
    "1/0 in",
    "1/00 in",
    "3-1/0 in",
    "--3 in",
    "1e7 in",
    "1e-7 in",
    "1e06 in",
    "1e400 m",
    "1_0 in",
    "nan in",
    "inf in",
    "infinity in",
    "0x10 in",
    "9**9**9",
    "9.9.9 m",
    "３ in",
    "٣ in",
    "5' 6",
    "5' 6' ",
    "3 in 2 ft",
    "m",
    "3 m2",
    "None",
]


@pytest.mark.parametrize("text", WRONG)
def test_neither_pattern_nor_reader_takes_it(text):
    assert not re.fullmatch(LENGTH.pattern[1:-1], text)
    with pytest.raises(ValueError, match="not a length"):
        text_reader("length")(text)


SCRAPS = st.sampled_from(
    [
        *"0123456789",
        *"+-./ eE'\"_",
        "1/2",
        "10",
        " in",
        "ft",
        "mm",
        "m",
        "kip",
        "psi",
        "lb",
        "kg/m3",
        "nan",
        "inf",
        "\n",
        "٣",
    ]
)
ANY_TEXT = st.one_of(st.lists(SCRAPS, max_size=9).map("".join), st.text(max_size=8))


def near_texts(name):
    """Texts of the grammar, or nearly so."""
    return st.builds(
        "{}{}{}{}".format,
        st.sampled_from(["", "+", "-"]),
        st.one_of(
            st.integers(0, 9999).map(str),
            st.floats(0, 1e6).map(lambda value: f"{value:.4g}"),
            st.builds("{}-{}/{}".format, st.integers(0, 99), st.integers(0, 9), st.integers(0, 16)),
            st.builds("{} {}/{}".format, st.integers(0, 99), st.integers(0, 9), st.integers(0, 16)),
            st.builds("{}'-{}".format, st.integers(0, 99), st.integers(0, 11)),
        ),
        st.sampled_from(["", " ", "  "]),
        st.sampled_from([*KINDS[name].units, *KINDS[name].units, "furlong", "", "psi", "m"]),
    )


AGREED = {True: 0, False: 0}


@settings(max_examples=2000, deadline=None, derandomize=True, database=None)
@given(st.sampled_from(list(KINDS)), st.data())
def test_pattern_and_reader_agree(name, data):
    """The reader reads what the pattern takes, finite; of the rest only a sign that the pattern refuses, and none."""
    kind = KINDS[name]
    text = data.draw(st.one_of(near_texts(name), near_texts(name), ANY_TEXT))
    takes = re.fullmatch(kind.pattern[1:-1], text) is not None
    AGREED[takes] += 1
    try:
        value = text_reader(name)(text)
    except ValueError:
        assert not takes, text
        return
    assert abs(value) < float("inf") or not takes
    assert takes or text == NO_EDGE or text.startswith("-"), text


def test_the_texts_of_that_test_were_of_both_sorts():
    assert min(AGREED.values()) > 200, AGREED


def test_at_most_24_characters():
    longest = "0" * (MAX_QUANTITY_TEXT - 4) + "3 in"
    for quantity in (LengthQuantity, EdgeDistance):
        adapter = TypeAdapter(quantity)
        assert MAX_QUANTITY_TEXT == 24
        assert adapter.validate_python(longest) == longest
        with pytest.raises(ValidationError) as caught:
            adapter.validate_python("0" + longest)
        assert [error["type"] for error in caught.value.errors()] == ["quantity"]


def test_no_text_of_a_request_reaches_pint(monkeypatch):
    """The registry raises on every use; all readers go on."""

    class Closed:
        def __getattr__(self, name):
            raise AssertionError(name)

    monkeypatch.setattr(unit_factors, "_registry", Closed())
    monkeypatch.setattr(pint.UnitRegistry, "parse_expression", Closed().__getattr__)
    monkeypatch.setattr(pint.UnitRegistry, "__call__", Closed().__getattr__, raising=False)
    text_reader.cache_clear()
    for name, spelling in SPELLINGS:
        assert text_reader(name)(f"7/16 {spelling}") > 0
    for text in WRONG:
        with pytest.raises(ValueError, match="not a length"):
            text_reader("length")(text)


def test_a_hostile_text_returns_at_once():
    started = time.perf_counter()
    for text in ("9**9**9", "1" * 100_000, "1" * 50_000 + "x" * 50_000, "(" * 100_000, "1/" * 50_000):
        with pytest.raises(ValueError, match="not a length"):
            text_reader("length")(text)
    assert time.perf_counter() - started < 1
