"""Rods, loads given at hangers, erection loads and places of items; the defaults behind each.

Threads: 13 an inch of 1/2 in (ASME B1.1), M10 by 1.5 mm (ISO 261), from memory; coefficients are those of
`core.hanger.rod`, whose sources stand there.
"""

import math

import numpy as np
import pytest

from hangpoint.core.hanger.rod import RULES
from hangpoint.core.vocabulary import Nature
from pack.hanger_items.builders import (
    EQUIPMENT,
    KN,
    MPA,
    PIPE,
    RISER,
    RUN,
    SEISMIC,
    TRAPEZE,
    M,
    assumed,
    close,
    columns,
    flaws_of,
    only_flaw,
    pack,
    packed_with_flaws,
    run_of,
    trapeze_of,
    unchecked,
)

SPRINKLER = PIPE | {"sprinkler": True}
NATURES = [nature.value for nature in Nature]


def with_rod(item=RUN, **rod):
    return item | {"rod": rod}


def test_rods():
    stated = with_rod(size="1/2", rule="tensile_strength", material="a307", length=0.9, out_of_plumb=4.0)
    own = with_rod(EQUIPMENT, size="M10", f_u=400.0)
    rods = columns(stated, RISER, own, system="si").rods
    rules = list(RULES)
    named = [rules.index("tensile_strength"), -1, rules.index("sp58_allowable")]
    assert rods.rule.tolist() == named
    close(rods.d, 0.5, 0, 10 / 25.4)
    close(rods.pitch, 1 / 13, 0, 1.5 / 25.4)
    close(rods.k_root[[0, 2]], 1.299038, 1.226869)
    close(rods.k_stress[[0, 2]], 0.9743, 0.938194)
    close(rods.f_u, 60_000, 50_000, 400 * MPA)
    close(rods.l_rod, 0.9 * M, 0, 0)
    close(rods.angle, 4, 0, 0)


@pytest.mark.parametrize("rule", RULES)
def test_rules(rule):
    rods = columns(with_rod(run_of(SPRINKLER), size="3/8", rule=rule)).rods
    by_load = "sp58_allowable" if rule == "sprinkler_size_table" else rule
    assert list(RULES)[rods.rule[0]] == by_load, "the size table says nothing of the load"


def test_what_is_assumed_of_rods():
    items = [
        RUN,
        with_rod(size="1/2"),
        with_rod(size="1/2", rule="sp58_allowable", length=2, out_of_plumb=0.0),
        with_rod(size="1/2", rule="tensile_strength", length=2),
        with_rod(size="1/2", rule="tensile_strength", material="unknown", length=2),
        with_rod(size="1/2", rule="tensile_strength", material="a36", length=2),
        with_rod(size="1/2", rule="tensile_strength", f_u=48_000, length=2),
    ]
    found = assumed(*items)
    codes = {
        "rod-rule-defaulted": [1],
        "no-rod-weight": [0, 1],
        "rods-plumb": [0, 1, 3, 4, 5, 6],
        "rod-material-unknown": [3, 4],
    }
    assert {code: [at for at, each in enumerate(found) if code in each] for code in codes} == codes
    assert ["rod" in each for each in unchecked(*items)] == [True] + [False] * 6


@pytest.mark.parametrize(
    ("item", "holds"),
    [
        (run_of(SPRINKLER), True),
        (RISER | {"line": SPRINKLER}, True),
        (trapeze_of(SPRINKLER), True),
        (run_of(PIPE), False),
        (run_of(SPRINKLER | {"number": 2}), True),
        (trapeze_of(SPRINKLER, PIPE), True),
        (trapeze_of(SPRINKLER, SPRINKLER), True),
        (trapeze_of(), False),
        (EQUIPMENT, False),
    ],
)
def test_the_size_table_is_for_sprinkler_lines(item, holds):
    flaws = flaws_of(with_rod(item, size="3/8", rule="sprinkler_size_table"))
    assert flaws == ([] if holds else [("rod/rule", "validation", "contradiction")])


def test_a_flaw_of_a_rod():
    flaw = only_flaw(with_rod(size="5/9"))
    assert (flaw.path, flaw.slug) == ("rod/size", "unknown-option")
    assert {"3/8", "M10"} <= set(flaw.allowed)
    assert "sp58_allowable" in only_flaw(with_rod(size="3/8", rule="sprinkler_size_table")).allowed
    assert flaws_of(with_rod(size="3/8", f_u=1e7)) == [("rod/f_u", "quantity", "quantity")]
    assert flaws_of(with_rod(size="3/8", length="20000 ft")) == [("rod/length", "quantity", "quantity")]


def given(item, *loads, **other):
    return item | {"given": list(loads)} | other


def test_loads_at_hangers():
    first = given(
        RUN,
        {"hanger": 3, "nature": "thermal", "tension": 0.4, "shear_x": -0.3},
        {"hanger": 0, "nature": "snow", "shear_y": 0.7},
    )
    second = given(EQUIPMENT, {"hanger": 3, "nature": "wind", "tension": "50 lb"})
    made = columns(TRAPEZE, first, second, system="si").given
    assert made.item.tolist() == [1, 1, 2]
    assert made.hanger.tolist() == [3, 0, 3]
    assert [NATURES[code] for code in made.nature.tolist()] == ["thermal", "snow", "wind"]
    close(made.n, 0.4 * KN, 0, 50)
    close(made.v, [-0.3 * KN, 0], [0, 0.7 * KN], [0, 0])


@pytest.mark.parametrize("nature", NATURES)
def test_natures(nature):
    item = given(RUN, {"hanger": 0, "nature": nature, "tension": 1}, seismic=SEISMIC)
    assert NATURES[columns(item).given.nature[0]] == nature


@pytest.mark.parametrize(
    ("item", "last"),
    [
        (RUN, 3),
        (RISER, 2),
        (TRAPEZE, 1),
        (TRAPEZE | {"rods_at": [0, 2, 4]}, 2),
        (EQUIPMENT, 3),
        (RISER | {"supports": 1}, 0),
    ],
)
def test_hangers_of_an_item(item, last):
    at_last, beyond = ({"hanger": hanger, "nature": "snow", "tension": 1} for hanger in (last, last + 1))
    assert flaws_of(given(item, at_last)) == []
    assert flaws_of(given(item, at_last, beyond)) == [("given/1/hanger", "validation", "out-of-range")]
    assert str(last) in only_flaw(given(item, beyond)).detail
    assert pack(EQUIPMENT, item).hangers.tolist() == [4, last + 1]


def test_a_flaw_of_a_given_load():
    load = {"hanger": 1, "nature": "live"}
    flaw = only_flaw(given(RUN, load | {"tension": 1}, load))
    assert (flaw.path, flaw.code) == ("given/1/tension", "missing")
    assert flaw.allowed == ("tension", "shear_x", "shear_y")
    quake = {"hanger": 1, "nature": "earthquake", "tension": 1}
    assert flaws_of(given(RUN, quake)) == [("seismic/s_ds", "validation", "missing")]
    assert flaws_of(given(RUN, quake, seismic=SEISMIC)) == []
    assert flaws_of(given(RUN, load | {"shear_x": "2e6 kip"})) == [("given/0/shear_x", "quantity", "quantity")]
    lost = RUN | {"run": RUN["run"] | {"missing_hanger": 1}}
    assert flaws_of(given(lost, load | {"tension": 1})) == [("given/0/hanger", "validation", "out-of-range")]


def test_erection_loads():
    items = [RUN | {"erection_load": 1.1}, TRAPEZE, EQUIPMENT | {"erection_load": 0}]
    close(columns(*items, system="si").erection, 1.1 * KN, 0, 0)
    assert ["no-erection-load" in each for each in assumed(*items)] == [False, True, False]
    assert flaws_of(RUN | {"erection_load": -1}) == [("erection_load", "quantity", "quantity")]


def test_places():
    at = {"level": "L3", "x": 4.0, "y": "3 ft", "z": -2.0}
    places = pack(RUN | {"at": at, "trade": "piping"}, RISER, system="si").places
    assert (list(places.level), list(places.trade)) == (["L3", None], ["piping", None])
    close([places.x[0], places.y[0], places.z[0]], 4 * M, 3, -2 * M)
    assert math.isnan(places.x[1])
    assert flaws_of(RUN | {"at": {"z": "9e6 ft"}}) == [("at/z", "quantity", "quantity")]


def test_defaults_stand_behind_each_key():
    default = {
        "at": {"level": "L1", "x": 3},
        "trade": "hydronic",
        "rod": {"size": "5/8", "length": 3, "rule": "sp58_allowable_older"},
        "erection_load": 250,
        "given": [{"hanger": 1, "nature": "snow", "tension": 5}],
        "seismic": SEISMIC | {"brace": {"angle": 45, "angle_from": "vertical", "spacing": 40}},
    }
    own = RISER | {
        "at": {"level": "L2"},
        "rod": {"length": 1},
        "given": [],
        "seismic": {"z": 10, "brace": {"angle": 30, "angle_from": "horizontal", "spacing": 12}},
    }
    packed = pack(RUN, own, default=default)
    items = packed.items
    assert (list(packed.places.level), list(packed.places.trade)) == (["L1", "L2"], ["hydronic"] * 2)
    close(packed.places.x, 3, 3)
    assert list(packed.rod_sizes) == ["5/8", "5/8"]
    close(items.rods.d, 0.625, 0.625)
    close(items.rods.l_rod, 3, 1)
    assert [list(RULES)[code] for code in items.rods.rule.tolist()] == ["sp58_allowable_older"] * 2
    close(items.erection, 250, 250)
    assert items.given.item.tolist() == [0]
    close(items.seismic.z, 30, 10)
    close(items.seismic.h, 60, 60)
    close(items.seismic.theta_v, 45, 60)
    close(items.seismic.l_brace, 40, 12)


def test_a_flaw_of_the_defaults_says_so():
    default = {
        "rod": {"size": "5/9"},
        "erection_load": -2,
        "given": [{"hanger": 3, "nature": "snow", "tension": 5}],
        "seismic": SEISMIC | {"h": 0},
    }
    _, flaws = packed_with_flaws(RUN, TRAPEZE | {"rod": {"size": "1/2"}, "erection_load": 2}, default=default)
    found = {row: {flaw.path: flaw.from_defaults for flaw in several} for row, several in flaws.items()}
    everywhere = {"seismic/h": True}
    assert found == {
        0: {"rod/size": True, "erection_load": True} | everywhere,
        1: {"given/0/hanger": True} | everywhere,
    }


def test_labels():
    packed = pack(RUN, RISER | {"seismic": {"category": "C"}}, EQUIPMENT | {"rod": {"size": "M12"}})
    assert list(packed.ids) == ["run", "riser", "equipment"]
    assert list(packed.kinds) == ["run", "riser", "equipment"]
    assert list(packed.category) == [None, "C", None]
    assert list(packed.rod_sizes) == [None, None, "M12"]
    assert packed.items.kind.tolist() == [0, 1, 3]
    np.testing.assert_array_equal(packed.index, [0, 1, 2])


def test_shears_of_one_nature_against_each_other_are_told():
    def given(*shears, hanger=(0, 0), nature="live"):
        return RUN | {
            "given": [{"hanger": h, "nature": nature, "shear_x": v} for h, v in zip(hanger, shears, strict=True)]
        }

    items = [given(5, -3), given(5, 3), given(5, -3, hanger=(0, 1)), given(5, -3, nature="dead")]
    assert ["one-nature-together" in codes for codes in assumed(*items)] == [True, False, False, False]
    transient = [given(5, -3, nature=nature) for nature in ("roof_live", "snow", "wind", "thermal", "test")]
    assert all("one-nature-together" in codes for codes in assumed(*transient))
