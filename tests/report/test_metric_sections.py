"""Sections of what hangs and of plates in N, mm and m on sheets by EN 1992-4.

Factors are those of pint, a general library of units, by its own table.
"""

import math
import re

import pint
import pytest

from architecture.random_records import GENERATORS
from hangpoint.core.hang_point.fastener_forces import FastenerTension
from hangpoint.core.hanger.rod import RodAllowable
from hangpoint.core.loads.pipe import PipeWeight
from hangpoint.report.calculation import mathml
from hangpoint.report.calculation.formulas_shown import formula, sized
from hangpoint.report.calculation.metric import has_other_units, metric_sections
from report.shown_formulas import NoNumberError, computed, sections_of

ROWS = 10
IN_NUMBERS = re.compile(r'<span class="numbers">(.*?)</span>', re.DOTALL)
POUNDS = re.compile(r"(?<![A-Za-z])(lbf|in|ft|psi)(?![A-Za-z])")
units = pint.UnitRegistry()


def of(cls):
    return sections_of(cls, ROWS)


def quantity(number, unit):
    return units.Quantity(number, re.sub(r"([A-Za-z])([0-9.]+)", r"\1**\2", unit.replace("lbf", "force_pound")) or None)


def in_pairs(value, other):
    return list(zip(value.values(), other.values(), strict=True)) if isinstance(value, dict) else [(value, other)]


@pytest.fixture
def all_figures(monkeypatch):
    monkeypatch.setattr(mathml, "_FIGURES", 17)


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_every_number_is_the_same_in_its_other_unit(cls):
    for own in of(cls):
        for metric in metric_sections([own]):
            for line, other in zip(own.lines, metric.lines, strict=True):
                changed = other.also or other
                assert not POUNDS.search(changed.unit)
                if changed.unit == line.unit:
                    assert changed.value == line.value
                    continue
                for before, after in in_pairs(line.value, changed.value):
                    if isinstance(before, str):
                        assert before == after
                    else:
                        assert quantity(before, line.unit).to(quantity(1, changed.unit).units).magnitude == (
                            pytest.approx(after, rel=1e-12)
                        )


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_formulas_that_are_shown_give_the_converted_value(cls, all_figures):
    """The numbers that are shown, read from their MathML; sections that stay in their units have their old numbers."""
    for own in of(cls):
        for metric in metric_sections([own]):
            for line in metric.lines:
                found = IN_NUMBERS.search(formula(line, metric)) if line.taken else None
                if found is None or not isinstance(line.value, float) or not math.isfinite(line.value):
                    continue
                try:
                    result = computed(found[1])
                except NoNumberError:
                    continue
                assert result == pytest.approx(line.value, rel=1e-9, abs=1e-9), (line.name, found[1])


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_a_section_is_converted_as_a_whole_or_not_at_all(cls):
    for metric in metric_sections(of(cls)):
        left = [line for line in metric.lines if POUNDS.search(line.unit)]
        assert all(line.also is not None for line in left)
        assert has_other_units([metric]) is bool(left)


def test_what_only_converts_is_left_out_and_the_rest_numbered_anew():
    made = [*of(FastenerTension), *of(RodAllowable)]
    metric = metric_sections(made)
    assert {own.kind[0] for own in metric} == {"RodAllowable"}
    assert [own.number for own in metric] == list(range(1, len(metric) + 1))


def test_a_formula_with_factors_of_its_units_stays():
    """144 in2 are 1 ft2: the weight of a pipe in lbf/ft, beside it in N/m."""
    metric = metric_sections(of(PipeWeight))[0]
    line = metric.line("w_pipe")
    assert line.unit == "lbf/ft"
    assert line.also.unit == "N/m"
    assert line.also.value == pytest.approx(line.value * 14.59390293720636, rel=1e-9)  # NIST SP 811, B.8
    assert re.fullmatch(r"[0-9.]+ lbf/ft \([0-9.]+\N{NO-BREAK SPACE}N/m\)", sized(line))
