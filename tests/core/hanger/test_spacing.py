"""Spacing rules: where they have no value. Figures: tests/published/test_spacing.py."""

import pytest

from hangpoint.core.hanger.spacing import RULE_NAMES, largest_spacing, spacing_rules
from hangpoint.core.loads.pipe_sizes import schedules, sizes


def test_no_value_between_listed_sizes():
    assert largest_spacing("b31_1_water", "steel", "1-1/4", "40") is None
    assert largest_spacing("b31_1_water", "steel", "10", "40") is None
    assert largest_spacing("sprinkler_standard", "steel", "1/2", "40") is None


@pytest.mark.parametrize("rule", ["b31_1_water", "b31_1_gas", "sp58_water"])
def test_standard_wall_or_heavier(rule):
    assert largest_spacing(rule, "steel", "4", "10") is None
    assert largest_spacing(rule, "steel", "12", "30") is None
    assert largest_spacing(rule, "steel", "4", "") is None
    assert largest_spacing(rule, "steel", "4", "40") == largest_spacing(rule, "steel", "4", "160")


def test_rules_that_take_every_wall():
    assert largest_spacing("plumbing_code", "steel", "4", "") == 12.0
    assert largest_spacing("sprinkler_standard", "steel", "4", "10") == 15.0


def test_unknown_names_have_no_value():
    assert largest_spacing("no_such_rule", "steel", "4", "40") is None
    assert largest_spacing("plumbing_code", "brass", "4", "40") is None
    assert largest_spacing("plumbing_code", "steel", "7", "40") is None
    assert largest_spacing("sp58_water", "copper", "4", "L") is None


def test_no_rule_covers_stainless():
    for rule in RULE_NAMES:
        for size in sizes("stainless"):
            for schedule in schedules("stainless", size):
                assert largest_spacing(rule, "stainless", size, schedule) is None


def test_spacing_does_not_fall_with_size():
    for rule in RULE_NAMES:
        for material, schedule in (("steel", "STD"), ("copper", "L")):
            found = [largest_spacing(rule, material, size, schedule) for size in sizes(material)]
            known = [feet for feet in found if feet is not None]
            assert known == sorted(known)


def test_every_rule_names_its_source():
    assert [rule.name for rule in spacing_rules()] == list(RULE_NAMES)
    for rule in spacing_rules():
        assert rule.text.endswith(".")
        assert rule.source
    with_values = {
        rule
        for rule in RULE_NAMES
        for material, schedule in (("steel", "STD"), ("copper", "L"))
        if any(largest_spacing(rule, material, size, schedule) for size in sizes(material))
    }
    assert with_values == set(RULE_NAMES)
