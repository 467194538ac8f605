"""Spacing rules: where they have no value. Figures: tests/published/test_spacing.py."""

import pytest

from hangpoint.core.hanger.spacing import (
    END_RULES,
    RULE_NAMES,
    largest_spacing,
    rules_for,
    spacing_rules,
    spacing_sizes,
    strictest,
)
from hangpoint.core.loads.pipe_sizes import schedules, sizes

EVERY_MATERIAL = (
    *("steel", "copper", "pvc", "cpvc", "ductile_iron", "abs", "pex", "cast_iron", "copper_pipe", "steel_tubing"),
    *("emt", "imc", "rmc", "pvc_conduit", "tray", "duct", "round_duct", "flexible_duct"),
)


def test_no_value_between_listed_sizes():
    assert largest_spacing("b31_1_water", "steel", "1-1/4", "40") is None
    assert largest_spacing("b31_1_water", "steel", "10", "40") is None
    assert largest_spacing("sprinkler_standard", "steel", "1/2", "40") is None


@pytest.mark.parametrize("rule", ["b31_1_water", "b31_1_gas", "sp58_water", "sp58_vapour"])
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
        for material in EVERY_MATERIAL:
            schedule = "STD" if material == "steel" else ""
            found = [largest_spacing(rule, material, size, schedule) for size in spacing_sizes(material)]
            known = [feet for feet in found if feet is not None]
            assert known == sorted(known)


def test_every_rule_names_its_source():
    assert [rule.name for rule in spacing_rules()] == list(RULE_NAMES)
    for rule in spacing_rules():
        assert rule.text.endswith(".")
        assert rule.source
    with_values = {
        rule
        for material in EVERY_MATERIAL
        for size in spacing_sizes(material)
        for rule in rules_for(material, size, "STD")
    }
    assert with_values == set(RULE_NAMES)


@pytest.mark.parametrize("material", EVERY_MATERIAL)
def test_every_material_has_a_rule_and_no_size_beyond_its_own(material):
    found = spacing_sizes(material)
    assert found
    assert any(rules_for(material, size, "STD") for size in found)
    for size in ("7", "", "1/2 ", "12D", "20"):
        if size not in found:
            assert rules_for(material, size, "STD") == {}


def test_sizes_come_smallest_first():
    assert spacing_sizes("emt")[:3] == ("1/2", "3/4", "1")
    assert spacing_sizes("tray")[0] == "8A"
    assert spacing_sizes("duct") == ("",)
    assert spacing_sizes("brass") == ()


def test_rules_without_a_value_are_left_out():
    assert rules_for("duct", "", "") == {"duct_dwelling": 10.0}
    assert rules_for("stainless", "4", "40S") == {}
    assert "b31_1_water" not in rules_for("steel", "4", "10")


def test_strictest_names_its_rule():
    """NPS 1, standard wall: 7 ft by the hanger standard, 12 by the plumbing code, none by a rule for copper."""
    rules = ("plumbing_code", "sp58_copper_water", "sp58_water", "b31_1_water")
    assert strictest(rules, "steel", "1", "40") == ("sp58_water", 7.0)
    assert strictest(rules[:2], "steel", "1", "40") == ("plumbing_code", 12.0)
    assert strictest(("sp58_copper_water",), "steel", "1", "40") is None
    assert strictest((), "steel", "1", "40") is None
    assert strictest(iter(rules), "steel", "1", "40") == ("sp58_water", 7.0)


def test_end_rules_name_a_distance_and_a_source():
    for rule in END_RULES:
        assert rule.material in EVERY_MATERIAL
        assert 0 < rule.distance <= 5
        assert rule.first <= rule.last
        assert rule.text.endswith(".")
        assert rule.source
