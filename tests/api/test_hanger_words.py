"""What an answer on hangers says: every assumption, gap and finding is reached and can be silenced; the digest.

The building is invented.
"""

import pytest

from api.bodies import GONE, change
from api.hanger_bodies import (
    CONDUIT,
    DUCT,
    EQUIPMENT,
    NUMBERED,
    PIPE,
    RISER,
    RUN,
    SECTION,
    SEISMIC,
    SEISMIC_22,
    SPRINKLER,
    STATED,
    TRAPEZE,
    TRAY,
    braced,
    codes,
    made,
    on_bar,
    steel,
    water,
    without,
)
from api.hanger_bodies import PATH as LOADS_PATH
from hangpoint.api.examples import HANGER_LOADS_JSON
from hangpoint.core.hanger.exemptions import EXEMPTIONS
from hangpoint.core.vocabulary import CAUTIONS, LoadAssumption, LoadFinding, LoadNotChecked

# What is said

SPRINKLER_12 = made(RUN, line={**SPRINKLER, "contents": "water"})
SAID = {
    "LOAD_STANDARD": (braced(RUN), {}),
    "LARGER_MODEL": (RUN, {"run.model": "tributary"}),
    "RODS_OF_BAR": (TRAPEZE, None),
    "ONE_SPACING": (TRAPEZE, {"run": {"spans": [10, 10], "support": 1}}),
    "LARGER_BODY": (EQUIPMENT, {"model": "larger"}),
    "STRAIGHT_RUN": (RUN, None),
    "RISER_ONE": (RISER, {"model": "one_carries_all"}),
    "NO_INSULATION": (RUN, {"line.insulation": {"thickness": "1 in", "density": 4}}),
    "NO_SPRINKLER": (RUN, {"line.sprinkler": False}),
    "NO_ALLOWANCE": (RUN, {"line.allowance": 0}),
    "BARE_SHEET": (
        made(RUN, line={**without(DUCT, "gauge", "gauge_table"), "thickness": "0.0276 in"}),
        {"line": DUCT},
    ),
    "REINFORCEMENT": (made(RUN, line=DUCT), {"line.reinforcement": 0.25}),
    "CONTENTS_WATER": (made(RUN, line=SPRINKLER), {"line.contents": "water"}),
    "PIPE_SHORT": (
        made(
            RUN, line={"kind": "pipe", "material": "ductile_iron", "size": "6", "schedule": "CL52", "contents": "water"}
        ),
        {"line.allowance": 0.2},
    ),
    "EMPTY_UNTESTED": (made(RUN, line__contents="empty"), {"line.hydrotest": False}),
    "CONTENTS_AS_DEAD": (RUN, {"line.contents": "empty"}),
    "CABLES_BY_FILL": (made(RUN, line=CONDUIT), {"line.fill": GONE, "line.cables": 3}),
    "POINT_LOAD_DEAD": (
        made(RUN, run__point_loads=[{"at": 3, "weight": 9}]),
        {"run.point_loads": [{"at": 3, "weight": 9, "nature": "dead"}]},
    ),
    "MASS_BY_GRAVITY": (made(EQUIPMENT, weight="450 kg"), {"weight": "1000 lb"}),
    "NO_ERECTION": (RUN, {"erection_load": 0}),
    "PLUMB": (RUN, {"rod": {"out_of_plumb": 0}}),
    "NO_ROD_WEIGHT": (made(RUN, rod__size="1/2"), {"rod.length": "2 ft"}),
    "ROD_RULE": (made(RUN, rod__size="1/2"), {"rod.rule": "sp58_allowable"}),
    "ROD_MATERIAL": (made(RUN, rod={"size": "1/2", "rule": "tensile_strength"}), {"rod.material": "a36"}),
    "BAR_STEEL": (made(TRAPEZE, tiers__0__bar=SECTION), {"tiers.0.bar.modulus": "29000 ksi"}),
    "BAR_RADIUS": (made(TRAPEZE, tiers__0__bar=SECTION), {"tiers.0.bar.section.inner_radius": "0.1 in"}),
    "BAR_DEFLECTION": (made(TRAPEZE, tiers__0__bar=SECTION), {"tiers.0.bar.deflection_limit": 240}),
    "LINES_ALL_HANG": (
        made(TRAPEZE, tiers__0__bar__end_overhang="1 ft", tiers__0__loads=[{"at": "4.5 ft", "weight": 9}]),
        {"tiers.0.loads": [{"at": "4 ft", "weight": 9}]},
    ),
    "SAME_CENTRE": (made(EQUIPMENT, contents="100 lb"), {"contents": GONE}),
    "NO_SPARE": (TRAPEZE, {"spare": 0}),
    "BUILDING_UNKNOWN": (
        {**RUN, "seismic": SEISMIC_22},
        {"seismic.building": {"period": 0.5, "r": 5, "i_e": 1, "omega_0": 2.5}},
    ),
    "BUILDING_NOT_READ": (made(braced(RUN), seismic__building={"period": 0.5}), {"seismic.building": GONE}),
    "COEFFICIENTS": (braced(RUN), {"seismic.coefficients": {"a_p": 2.5, "r_p": 12, "omega_0": 2}}),
    "COEFFICIENTS_LOW": (
        made(braced(RUN), seismic__coefficients={"a_p": 0.9, "r_p": 2.5, "omega_0": 2}),
        {"seismic.coefficients": {"a_p": 1, "r_p": 12, "omega_0": 2}},
    ),
    "EVERY_HANGER_BRACED": (braced(RUN), {"seismic.brace": GONE}),
    "EARTHQUAKE_REVERSES": (braced(RUN), {"seismic.brace": GONE}),
    "BRACES_SHARE": (
        made(EQUIPMENT, seismic={**SEISMIC, "brace": {"angle": 45, "angle_from": "vertical", "number": 2}}),
        {"seismic.brace.number": 1},
    ),
    "STATED_NOT_SHAKEN": (
        made(braced(RUN), given=[{"hanger": 0, "nature": "dead", "tension": 9}]),
        {"given": [{"hanger": 0, "nature": "live", "tension": 9}]},
    ),
    "ROD_AS_COLUMN": (made(braced(RUN), rod={"size": "1/2", "length": "4 ft"}), {"rod.length": GONE}),
    "BRACE_ALONG_X": (braced(RUN), {"at.bearing": 30}),
    "BRACE_ACROSS": (made(braced(RUN), at={"bearing": 30}), {"seismic.brace.direction": "along"}),
    "LEAN_ALONG_SHEAR": (made(RUN, rod__out_of_plumb=3), {"rod.out_of_plumb": 0}),
    "SHEAR_TOGETHER": (
        made(RUN, given=[{"hanger": 0, "nature": "live", "shear_x": v} for v in (5, -3)]),
        {"given": [{"hanger": 0, "nature": "live", "shear_x": 2}]},
    ),
    "WIND_AS_GIVEN": (
        made(RUN, given=[{"hanger": 0, "nature": "wind", "shear_x": 9}]),
        {"given": [{"hanger": 0, "nature": "snow", "tension": 9}]},
    ),
    "THERMAL_STAYS": (
        made(RUN, given=[{"hanger": 0, "nature": "thermal", "shear_x": 9}]),
        {"given": [{"hanger": 0, "nature": "wind", "shear_x": 9}]},
    ),
    "SPRINKLER_SHARED": (on_bar(SPRINKLER, PIPE), {"tiers.0.lines": [{"at": 2, "line": SPRINKLER}]}),
}
"""By assumption an item that raises it, and what takes it away; None where nothing can."""

UNCHECKED = {
    "ANCHORS": (RUN, None),
    "HARDWARE": (RUN, None),
    "SPACING": (RUN, {"run.spacing_rules": ["sp58_water"]}),
    "LOSS_OF_HANGER": (RUN, {"run.missing_hanger": "any"}),
    "ROD": (RUN, {"rod": {"size": "1/2"}}),
    "ROD_SIZE": (made(RUN, rod={"size": "1/2"}), {"line": SPRINKLER}),
    "ROD_SPRINKLER_RULE": (on_bar(SPRINKLER, PIPE, rod={"size": "1/2"}), {"rod.rule": "tensile_strength"}),
    "BAR": (TRAPEZE, {"tiers.0.bar": SECTION}),
    "BAR_SPRINKLER_RULE": (
        on_bar(SPRINKLER, PIPE, tiers__0__bar=SECTION),
        {"tiers.0.lines": [{"at": 2, "line": SPRINKLER}, {"at": 2, "line": SPRINKLER}]},
    ),
    "BAR_ERECTION": (
        made(TRAPEZE, tiers__0__bar=SECTION, erection_load="250 lb"),
        {"erection_load": 0},
    ),
    "EARTHQUAKE": (RUN, {"seismic": SEISMIC}),
    "BRACING": (
        change(braced(RUN), {"seismic.brace": GONE}),
        {"seismic": SEISMIC},
    ),
    "ROD_BUCKLING": (braced(RUN), {"rod": {"size": "1/2", "free_length": "10 in"}}),
    "PUSHED_ANCHOR": (braced(RUN), {"seismic.brace": GONE}),
    "OTHER_DIRECTION": (braced(RUN), {"seismic.brace": GONE}),
    "SPRINKLER_BRACE": (
        braced(change(RUN, {"line.sprinkler": True})),
        {"line.sprinkler": False},
    ),
    "COUPLE": (braced(EQUIPMENT), {"seismic.brace": GONE}),
    "LISTING": (made(RUN, line=SPRINKLER), {"line": PIPE}),
    "STRUCTURE": (RUN, None),
}
WEAK = made(TRAPEZE, tiers__0__bar={**SECTION, "allowable_stress": "1 ksi"})
FOUND = {
    "UPLIFT": (on_bar(PIPE, at="-2 ft", tiers__0__bar__start_overhang="2 ft"), {"tiers.0.lines.0.at": 1}),
    "NO_BALANCE": (made(EQUIPMENT, centre_of_gravity__x="3 ft"), {"centre_of_gravity.x": 0}),
    "RUN_LIFTS": (made(RUN, run__spans=["20 ft", "1 ft"]), {"run.spans": [10, 10]}),
    "UNLOADED": (
        # Equal springs: W/4 (1 - 2 x 1/4 - 2 x 0.75/3) = 0 at the first rod.
        made(EQUIPMENT, model="equal_springs", centre_of_gravity={"x": "1 ft", "y": "0.75 ft"}),
        {"centre_of_gravity.x": 0},
    ),
    "BAR_STRESS": (WEAK, {"tiers.0.bar.allowable_stress": "25 ksi"}),
    "BAR_SAG": (
        made(TRAPEZE, tiers__0__bar=SECTION | {"deflection_limit": 2000}),
        {"tiers.0.bar.deflection_limit": 50},
    ),
    "BAR_MODULUS": (
        on_bar(SPRINKLER, tiers__0__bar=SECTION),
        {"rods_at": [0, 1], "tiers.0.lines.0.at": "0.5 ft"},
    ),
    "BAR_NOT_COVERED": (on_bar(SPRINKLER, tiers__0__bar=SECTION, rods_at=[0, 4, 8]), {"rods_at": [0, 4]}),
    "SPACING_EXCEEDED": (
        made(RUN, run={"spans": ["14.1 ft"], "spacing_rules": ["sp58_water"]}),
        {"run.spans": ["14 ft"]},
    ),
    "SPACING_NOT_COVERED": (made(RUN, run__spacing_rules=["electrical_code"]), {"run.spacing_rules": ["sp58_water"]}),
    "SPACING_RULE_LACKING": (
        made(RUN, line={**SPRINKLER, "size": "3/4"}, run__spacing_rules=["sprinkler_standard", "plumbing_code"]),
        {"line.size": "1"},
    ),
    "SPACING_VAPOUR": (
        made(RUN, run__spacing_rules=["sp58_water", "sp58_vapour"]),
        {"run.spacing_rules": ["sp58_water"]},
    ),
    "SPACING_POINT_LOAD": (
        made(RUN, run__point_loads=[{"at": 3, "weight": 9}], run__spacing_rules=["sp58_water", "b31_1_water"]),
        {"run.spacing_rules": ["sp58_water"]},
    ),
    "OVERHANG": (
        made(RUN, line=SPRINKLER, run={"spans": [12], "end_overhang": "6 ft", "spacing_rules": ["sprinkler_standard"]}),
        {"run.end_overhang": "5 ft"},
    ),
    "ROD_OVERLOADED": (made(RUN, line__number=9, rod__size="3/8"), {"rod.size": "3/4"}),
    "ROD_BELOW_SIZE": (
        made(RUN, line={**SPRINKLER, "size": "6"}, rod={"size": "3/8", "rule": "sprinkler_size_table"}),
        {"rod.size": "1/2"},
    ),
    "ROD_SIZE_NOT_COVERED": (
        made(
            RUN,
            line={**SPRINKLER, "size": "24", "schedule": "STD"},
            rod={"size": "3/4", "rule": "sprinkler_size_table"},
        ),
        {"line.size": "6"},
    ),
    "FIRST_INTERIOR": (RUN, {"run.spans": [10]}),
    "SPRINKLER_STRUCTURE": (made(RUN, line=SPRINKLER), {"line": PIPE}),
    "SHARED_SUPPORT": (on_bar(SPRINKLER, PIPE), {"tiers.0.lines": [{"at": 2, "line": SPRINKLER}]}),
    "EXEMPT_CLAIM": (
        made(RUN, line=STATED, line__weight="2 lb/ft", seismic={**SEISMIC, "i_p": 1.0}),
        {"seismic.i_p": 1.5},
    ),
    "PUSHED": (
        {**RUN, "given": [{"hanger": 1, "nature": "wind", "tension": "-500 lbf"}]},
        {"given.0.tension": "-50 lbf"},
    ),
    "PUSHED_BY_EARTHQUAKE": (
        {
            **RUN,
            "given": [{"hanger": 1, "nature": "earthquake", "tension": "500 lbf"}],
            "seismic": change(SEISMIC, {"brace": GONE}),
        },
        {"given.0.tension": "20 lbf"},
    ),
    "ROD_PUSHED": (braced(RUN), {"rod": {"size": "1/2", "length": "1 ft"}}),
    "ROD_SLENDER": (made(braced(RUN), rod={"size": "1/2", "length": "4 ft"}), {"rod.free_length": "12 in"}),
    "ROD_HOLDS_PUSH": (made(braced(RUN), rod={"size": "1/2", "length": "1 ft"}), {"seismic.s_ds": 0.05}),
    "UNBRACED": (change(braced(RUN), {"seismic.brace": GONE}), {"seismic": SEISMIC}),
}

CLAUSES = {rule.clause for rule in EXEMPTIONS}
"""A claim of exemption has the clause of its rule."""


def edition(member):
    return {"load_standard": "asce7_22"} if member is LoadAssumption.BUILDING_UNKNOWN else {}


@pytest.mark.parametrize("member", LoadAssumption, ids=lambda member: member.value.code)
def test_every_default_is_said_and_stating_it_silences(ask_loads, member):
    item, silence = SAID[member.name]
    code = member.value.code
    answer = ask_loads(item, **edition(member))
    assert code in answer["items"][0]["assumptions"]
    assert answer["assumptions"][code] == member.value.text
    if silence is None:
        return
    stated = {"load_standard": "asce7_16"} if member is LoadAssumption.LOAD_STANDARD else edition(member)
    answer = ask_loads(change(item, silence), **stated)
    assert answer["items"][0]["status"] != "invalid", answer["items"][0]
    assert code not in answer["items"][0]["assumptions"]
    assert code not in answer["assumptions"]


@pytest.mark.parametrize("member", LoadNotChecked, ids=lambda member: member.value.code)
def test_what_is_not_checked_is_said(ask_loads, member):
    item, silence = UNCHECKED[member.name]
    code = member.value.code
    answer = ask_loads(item)
    assert code in answer["items"][0]["not_checked"]
    assert answer["not_checked"][code] == member.value.text
    if silence is not None:
        result = ask_loads(change(item, silence))["items"][0]
        assert result["status"] != "invalid", result
        assert code not in result["not_checked"]


@pytest.mark.parametrize("member", LoadFinding, ids=lambda member: member.value.code)
def test_every_finding_is_reached(ask_item, member):
    item, mend = FOUND[member.name]
    entry = member.value
    result = ask_item(item)
    found = [each for each in result["findings"] if each["code"] == entry.code]
    assert found
    assert {(each["severity"], each["text"]) for each in found} == {(entry.severity, entry.text)}
    clauses = CLAUSES if member is LoadFinding.EXEMPT_CLAIM else {entry.clause}
    assert {each["clause"] for each in found} <= clauses
    assert result["status"] == (
        "failed" if "violation" in {each["severity"] for each in result["findings"]} else "passed"
    )
    if entry.severity == "violation":
        assert result["status"] == "failed"
    assert all(("value" in each) == bool(entry.quantity) for each in found)
    mended = ask_item(change(item, mend))
    assert mended["status"] != "invalid", mended
    assert entry.code not in codes(mended)


def test_stating_a_default_changes_no_number(ask_item):
    """Only what is said differs; `larger` is the model that silence means."""
    stated = made(RUN, run__model="larger", line__allowance=0, erection_load=0, rod__out_of_plumb=0)
    one, other = ask_item(RUN), ask_item(stated)
    assert one["hangers"] == other["hangers"]
    assert set(one["assumptions"]) > set(other["assumptions"])


def test_every_answer_lists_the_cautions(ask_loads):
    assert ask_loads(RUN)["cautions"] == list(CAUTIONS)


def test_findings_name_their_part(ask_item):
    result = ask_item(made(WEAK, run={"spacing": "15 ft", "spacing_rules": ["sp58_water"]}))
    parts = {each["code"]: each for each in result["findings"]}
    assert parts["bar-overstressed"]["tier"] == 0
    assert parts["bar-overstressed"]["value"] > parts["bar-overstressed"]["limit"] == 1000
    assert parts["spacing-exceeded"]["line"] in (0, 1)
    assert (parts["spacing-exceeded"]["value"], parts["spacing-exceeded"]["limit"]) == (15, 14)


@pytest.mark.parametrize(("units", "inch"), [("us", 1.0), ("si", 25.4)])
def test_a_bar_below_the_modulus_of_the_sprinkler_standard(ask_item, units, inch):
    """15 ft of 4 in schedule 10 filled and 250 lb in the middle of 4 ft at 15 ksi: 0.34 in3 (NFPA 13, from memory)."""
    result = ask_item(on_bar(SPRINKLER, tiers__0__bar=SECTION), units=units)
    (finding,) = [each for each in result["findings"] if each["code"] == "bar-below-sprinkler-modulus"]
    needed = (15 * (steel(4.5, 4.26) + water(4.26)) + 250) * 48 / 4 / 15_000
    assert needed == pytest.approx(0.34, abs=0.005)
    assert (finding["tier"], result["status"]) == (0, "failed")
    assert finding["limit"] == pytest.approx(needed * inch**3, rel=1e-9)
    assert finding["value"] < finding["limit"]


def test_a_spacing_met_exactly_is_met_in_every_unit(ask_item):
    for span in ("14 ft", "4.2672 m", "168 in", "4267.2 mm"):
        result = ask_item(made(RUN, run={"spans": [span], "spacing_rules": ["sp58_water"]}))
        assert "spacing-exceeded" not in codes(result)


# Digest


def digest(ask_loads, *items, **top):
    return ask_loads(*items, **top)["request_digest"]


def test_same_bytes_twice(client):
    first, second = (client.post(LOADS_PATH, json={**HANGER_LOADS_JSON, "detail": "trace"}) for _ in range(2))
    assert first.content == second.content


def test_the_spelling_of_a_unit_is_no_part_of_the_question(ask_loads):
    spelled = [
        digest(ask_loads, made(RUN, run__spans=[10, each, 10]))
        for each in (8, 8.0, "8 ft", "96 in", "2.4384 m", "8'-0\"")
    ]
    assert len(set(spelled)) == 1


def test_a_value_by_default_or_in_the_item_is_one_request(ask_loads):
    rod, seismic = {"size": "1/2", "length": "2 ft"}, SEISMIC
    own = digest(ask_loads, {**RUN, "rod": rod, "seismic": seismic, "trade": "m"})
    assert digest(ask_loads, RUN, defaults={"rod": rod, "seismic": seismic, "trade": "m"}) == own
    assert (
        digest(ask_loads, {**RUN, "rod": {"size": "1/2"}}, defaults={"rod": rod, "seismic": seismic, "trade": "m"})
        == own
    )


CHANGES = [
    (RUN, {}),
    (RUN, {"id": "other"}),
    (RUN, {"trade": "heating"}),
    (RUN, {"at.level": "L3"}),
    (RUN, {"at.x": 1}),
    (RUN, {"at.y": 1}),
    (RUN, {"at.z": 1}),
    (RUN, {"at.bearing": 30}),
    (RUN, {"line.size": "3"}),
    (RUN, {"line.schedule": "80"}),
    (RUN, {"line.contents": "empty"}),
    (RUN, {"line.contents": "ethylene_glycol_30"}),
    (RUN, {"line.number": 2}),
    (RUN, {"line.allowance": 0.1}),
    (RUN, {"line.insulation": {"thickness": "1 in", "density": 4}}),
    (RUN, {"line.insulation": {"thickness": "1 in", "density": 4, "jacket": 0.2}}),
    (RUN, {"line": DUCT}),
    (RUN, {"line": {**DUCT, "gauge": 22}}),
    (RUN, {"line": CONDUIT}),
    (RUN, {"line": TRAY}),
    (RUN, {"line": STATED}),
    (RUN, {"line": {**STATED, "description": "a bus"}}),
    (RUN, {"run.spans": [10, 8, 10.001]}),
    (RUN, {"run.start_overhang": 1}),
    (RUN, {"run.end_overhang": 1}),
    (RUN, {"run.model": "tributary"}),
    (RUN, {"run.missing_hanger": 1}),
    (RUN, {"run.missing_hanger": "any"}),
    (RUN, {"run.spacing_rules": ["sp58_water"]}),
    (RUN, {"run.point_loads": [{"at": 3, "weight": 9}]}),
    (RUN, {"run.point_loads": [{"at": 4, "weight": 9}]}),
    (RUN, {"rod.size": "1/2"}),
    (RUN, {"rod": {"size": "1/2", "rule": "tensile_strength"}}),
    (RUN, {"rod": {"size": "1/2", "length": 3}}),
    (RUN, {"rod.out_of_plumb": 3}),
    (RUN, {"erection_load": 250}),
    (RUN, {"given": [{"hanger": 0, "nature": "thermal", "shear_x": 9}]}),
    (RUN, {"given": [{"hanger": 1, "nature": "thermal", "shear_x": 9}]}),
    (RUN, {"seismic.category": "C"}),
    (RUN, {"seismic": SEISMIC}),
    (RUN, {"seismic": {**SEISMIC, "s_ds": 1.1}}),
    (RUN, {"seismic": {**SEISMIC, "brace": {**SEISMIC["brace"], "spacing": 30}}}),
    (RUN, {"seismic": {**SEISMIC, "brace": {**SEISMIC["brace"], "direction": "along"}}}),
    (RISER, {}),
    (RISER, {"length": 101}),
    (RISER, {"supports": 3}),
    (RISER, {"model": "equal"}),
    (TRAPEZE, {}),
    (TRAPEZE, {"spare": 0.1}),
    (TRAPEZE, {"rods_at": [0, 4.1]}),
    (TRAPEZE, {"run.spacing": 11}),
    (TRAPEZE, {"tiers.0.lines.0.at": 1.1}),
    (TRAPEZE, {"tiers.0.bar.weight": 2}),
    (TRAPEZE, {"tiers.0.bar.end_overhang": 1}),
    (TRAPEZE, {"tiers.0.bar": SECTION}),
    (TRAPEZE, {"tiers.0.bar": {**SECTION, "deflection_limit": 360}}),
    (TRAPEZE, {"tiers.0.loads": [{"at": 1, "weight": 5}]}),
    (EQUIPMENT, {}),
    (EQUIPMENT, {"weight": 1001}),
    (EQUIPMENT, {"contents": 10}),
    (EQUIPMENT, {"impact": 1.1}),
    (EQUIPMENT, {"model": "equal_springs"}),
    (EQUIPMENT, {"centre_of_gravity.x": 7}),
    (EQUIPMENT, {"rods_at.0.x": -25}),
    (EQUIPMENT, {"seismic": {**SEISMIC, "brace": NUMBERED}}),
]


def test_the_digest_changes_with_every_input(ask_loads):
    digests = [digest(ask_loads, change(item, each)) for item, each in CHANGES]
    digests += [
        digest(ask_loads, RUN, units="si"),
        digest(ask_loads, RUN, detail="loads"),
        digest(ask_loads, RUN, load_standard="asce7_22"),
    ]
    assert len(set(digests)) == len(digests)
    assert all(len(each) == 64 for each in digests)


def test_invalid_items_are_a_part_of_the_question(ask_loads):
    bad = [{**RUN, "id": "bad", "much": much} for much in (1, 2)]
    assert digest(ask_loads, RISER, bad[0]) != digest(ask_loads, RISER, bad[1])
