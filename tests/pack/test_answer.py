"""Verdicts to items: units, and nothing that is not finite leaves."""

import math

import numpy as np
import pytest

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.cases import case_names
from hangpoint.core.loads.combinations import CASES, EN_FROM, GIVEN
from hangpoint.pack.answer import always_listed, load_case_table
from hangpoint.pack.printed import CASE_NAMES, in_request_units
from hangpoint.units import FORCE, LENGTH


def test_numbers_leave_in_the_units_of_the_request():
    """1 lbf = 0.0044482216152605 kN, 1 in = 25.4 mm (NIST SP 811, from memory)."""
    assert in_request_units(np.array([1000.0]), FORCE, "us") == [1000.0]
    assert in_request_units(np.array([1000.0]), FORCE, "si") == [pytest.approx(4.4482216152605, rel=1e-13, abs=0)]
    assert in_request_units(np.array([2.0]), LENGTH, "si") == [pytest.approx(50.8, rel=1e-15, abs=0)]


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_not_finite_does_not_leave(value):
    with pytest.raises(NonFiniteError):
        in_request_units(np.array([1.0, value]), FORCE, "us")


def test_load_cases_are_named_with_their_factors():
    """ACI 318-19 5.3.1a and b: 1.4D, 1.2D + 1.6L (from memory)."""
    table = load_case_table(CASE_NAMES, always_listed("asce7_22"))
    assert list(table) == ["1.4D", "1.2D+1.6L", "5W+250lb"]
    assert (table["1.4D"]["dead_and_contents"], table["1.4D"]["live"]) == (1.4, 0)
    assert (table["1.2D+1.6L"]["dead_and_contents"], table["1.2D+1.6L"]["live"]) == (1.2, 1.6)
    assert table["5W+250lb"]["dead_and_contents"] == 5
    assert not any({"contents", "earthquake_reversed"} & case.keys() for case in table.values())


def test_load_cases_of_en_1990_are_named_with_their_factors():
    """EN 1990 (6.10): 1.35 G + 1.5 Q, dead load favourable 1.0 G (from memory); contents are variable there."""
    table = load_case_table(CASE_NAMES, always_listed("en1990"))
    assert list(table) == ["1.35G+1.5C", "1.35G+1.5C+1.5L", "1.0G+1.5C", "1.0G+1.5C+1.5L"]
    own = table["1.0G+1.5C+1.5L"]
    assert (own["dead_and_contents"], own["contents"], own["live"]) == (1.0, 1.5, 1.5)
    assert {case["source"] for case in table.values()} == {"EN 1990 (6.10)"}


def test_a_load_case_without_contents_says_so():
    table = load_case_table(CASE_NAMES, range(EN_FROM))
    empty = {name: case["contents"] for name, case in table.items() if "contents" in case}
    assert set(empty.values()) == {0}
    assert {"1.4D without contents", "1.2D+1.6L without contents", "1.4D with the test fluid"} < empty.keys()
    assert all("without contents" in name or "test fluid" in name for name in empty)
    assert (table["1.4D with the test fluid"]["dead_and_contents"], table["1.4D with the test fluid"]["test"]) == (
        1.4,
        1.4,
    )


def test_transient_factors_of_a_load_case():
    """ASCE 7-16 2.3.6: 1.2D + Ev + Eh + L + 0.2S; what isn't there has no factor."""
    table = load_case_table(CASE_NAMES, range(GIVEN))
    case = table["1.2D+Ev+Eh+L+0.2S"]
    assert (case["dead_and_contents"], case["live"], case["snow"], case["earthquake"], case["vertical"]) == (
        1.2,
        1,
        0.2,
        1,
        1,
    )
    assert table["0.9D-Ev+Eh, earthquake reversed"]["earthquake"] == -1
    assert table["0.9D-Ev+Eh, earthquake reversed"]["vertical"] == -1
    assert not {"snow", "earthquake", "wind", "vertical", "test"} & table["1.4D"].keys()


def test_load_cases_as_given_have_the_names_of_the_request():
    """Each once as it is, once with its earthquake part reversed, and once in fire."""
    names = case_names(("wind", "quake"))
    table = load_case_table(names, [GIVEN, GIVEN + 3, GIVEN + 4, GIVEN + 5])
    assert list(table) == ["wind", "quake", "quake, earthquake reversed", "quake, fire"]
    assert [case["as_given"] for case in table.values()] == [1, 1, 1, 1]
    assert [case.get("earthquake_reversed", False) for case in table.values()] == [False, False, True, False]
    assert [case.get("fire", False) for case in table.values()] == [False, False, False, True]
    assert {case["source"] for case in table.values()} == {"the request"}


def test_every_load_case_of_a_request_without_names_has_a_name():
    listed = load_case_table(CASE_NAMES, range(GIVEN + 3))
    assert {*listed, "service"} == {*CASE_NAMES}
    assert len(CASE_NAMES) == len(CASES) + 3
