"""What may claim an exemption from bracing, by hand. All limits are from memory (ASCE 7-10 and 7-16, chapter 13)."""

import pytest

SEISMIC = {"category": "D", "s_ds": 1.0, "i_p": 1.0, "component": "raceway", "z": "20 ft", "h": "20 ft"}
SHORT = {"rod": {"size": "3/8", "length": "1 ft"}, "seismic": SEISMIC | {"bending_free": True}}
LIGHT = {"kind": "line", "weight": "3 lb/ft"}
RUN = {"id": "run", "kind": "run", "line": LIGHT, "run": {"spans": ["10 ft", "10 ft"]}, **SHORT}
RACK = {
    "id": "rack",
    "kind": "trapeze",
    "run": {"spacing": "10 ft"},
    "rods_at": ["0 ft", "4 ft"],
    "tiers": [{"bar": {"weight": "2 lb/ft"}, "lines": [{"at": "1 ft", "line": LIGHT}]}],
    **SHORT,
}
FAN = {
    "id": "fan",
    "kind": "equipment",
    "weight": "180 lb",
    "rods_at": [{"x": x, "y": y} for x in (0, 40) for y in (0, 20)],
    "centre_of_gravity": {"x": 20, "y": 10},
    **SHORT,
}
HANGERS = ["by_short_hangers", "by_rod_load"]
GALVANISED = {"gauge_table": "galvanised"}


@pytest.fixture
def rules(ask_item):
    def claimed(item, **changes):
        findings = ask_item({**item, **changes})["findings"]
        return [each["rule"] for each in findings if each["code"] == "bracing-exemption"]

    return claimed


def named(component, **more):
    return {"seismic": SHORT["seismic"] | {"component": component} | more}


def test_a_light_line_on_short_hangers_may_claim(rules):
    assert rules(RUN) == ["by_weight", *HANGERS]


def test_a_claim_says_what_it_asks_for(ask_item):
    """What no number shows, flexible connections and the like (13.1.4, 13.6.5), stands with the claim."""
    found = {each["rule"]: each["conditions"] for each in ask_item(RUN)["findings"] if "conditions" in each}
    assert list(found) == ["by_weight", *HANGERS]
    assert "Flexible connections" in found["by_weight"]
    assert "swivel" in found["by_short_hangers"]


def test_equipment_claims_by_no_rule_of_lines(rules):
    """180 lb on four rods of 3/8 in, 12 in long, 45 lb each: the 50 lb of 13.6.5 to 13.6.7 are those of raceways, ducts
    and pipes. Twelve rods that carry 5 lb each are no line of 5 lb/ft.
    """
    assert rules(FAN, **named("air_side")) == []
    rods = [{"x": x, "y": y} for x in range(0, 60, 10) for y in (0, 20)]
    assert rules(FAN, **named("air_side"), weight="50 lb", rods_at=rods, centre_of_gravity={"x": 25, "y": 10}) == []


@pytest.mark.parametrize("component", ["pump", "isolated_in_line", "spring_isolated"])
def test_what_is_named_as_equipment_or_isolated_is_no_line(rules, component):
    gap = {"isolator_gap": "1/4 in"} if "isolated" in component else {}
    assert rules(RUN, **named(component, **gap)) == []


def test_a_ceiling_is_exempt_in_category_b_alone(rules):
    """13.1.4: architectural components in category B, mechanical and electrical ones in C too, with I_p 1.0."""
    found = [rules(RUN, **named(name, category=letter)) for letter in "BC" for name in ("ceiling", "raceway")]
    assert ["by_category" in each for each in found] == [True, True, False, True]
    assert found[0] == ["by_category"]


@pytest.mark.parametrize(("weight", "held"), [("20 lb", True), ("21 lb", False), ("400 lb", False)])
def test_a_valve_on_a_light_line_is_a_component_of_its_own(rules, weight, held):
    """3 lb/ft and 20 lb on 20 ft of run: 4 lb/ft. 13.1.4 lets a component of 20 lb off."""
    loads = {"spans": RUN["run"]["spans"], "point_loads": [{"at": "5 ft", "weight": weight}]}
    assert ("by_weight" in rules(RUN, run=loads)) is held


def test_small_weights_on_a_line_add_up(rules):
    """3 lb/ft and three times 15 lb on 20 ft of run: 5.25 lb/ft."""
    loads = {"spans": RUN["run"]["spans"], "point_loads": [{"at": f"{at} ft", "weight": "15 lb"} for at in (2, 9, 16)]}
    assert "by_weight" not in rules(RUN, run=loads)


def test_what_stands_on_a_trapeze_is_in_its_weight(rules):
    """3 lb/ft and 8 lb of bar weigh nearly nothing; 60 lb at 10 ft are 6 lb/ft more, 9 in all, and 80 lb 11."""
    bare, some, much = (
        rules(RACK, tiers=[{**RACK["tiers"][0], "loads": loads}])
        for loads in ([], [{"at": "2 ft", "weight": "60 lb"}], [{"at": "2 ft", "weight": "80 lb"}])
    )
    assert [("by_weight" in each, "by_trapeze_weight" in each) for each in (bare, some, much)] == [
        (True, True),
        (False, True),
        (False, False),
    ]


def test_what_is_stated_at_a_hanger_hangs_there(rules):
    """400 lb stated at a hanger: more than the 50 lb of a rod, and no line of 5 lb/ft."""
    assert rules(RUN, given=[{"hanger": 1, "nature": "dead", "tension": "400 lb"}]) == ["by_short_hangers"]


def test_a_small_duct_claims_to_20_lb_a_foot(rules):
    """24 by 24 in, 4 ft2: 20 gauge 1.656 lb/ft2 x 8 ft x 1.25 = 16.6 lb/ft, 16 gauge 2.656: 26.6 lb/ft."""
    square = {"kind": "duct", "shape": "rectangular", "width": "24 in", "height": "24 in"} | GALVANISED
    found = [rules(RUN, line={**square, "gauge": gauge}, **named("duct")) for gauge in (20, 16)]
    assert ["by_duct_area" in each for each in found] == [True, False]


def test_a_riser_is_on_no_short_hangers(rules):
    riser = {"id": "riser", "kind": "riser", "line": {**LIGHT, "weight": "1 lb/ft"}, "length": "20 ft", "supports": 1}
    assert rules({**riser, **SHORT}) == ["by_weight"]
