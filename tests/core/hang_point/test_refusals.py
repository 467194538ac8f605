"""Which points are refused, in which order, and what a refused point still has."""

import itertools
import re
from dataclasses import replace

import numpy as np
import pytest

from core.builders import ADHESIVE_ROD, FACTORED_LOADS, HEADED_BOLT, IN_FLUTE, INF, RUN, rod
from core.hang_point.verdicts import (
    REFUSALS,
    SPRINKLER_LINE,
    checked,
    found_on,
    mode_of,
    refusal_of,
)
from hangpoint.core.hang_point import anchor_checks
from hangpoint.core.hang_point.allowables import (
    AT_JOINT,
    CRACKED,
    ELSEWHERE,
    LIGHTWEIGHT,
    LOCATIONS,
    MASONRY_BOLT,
    NO_TABLE,
    NOT_BY_TABLE,
    NOT_IN_UNITS,
    WRONG_BASE,
)
from hangpoint.core.hang_point.points import FORCES, PIPE, SIDE, SOFFIT, TOP, WEIGHT, Basis
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.surroundings import (
    CHLORIDES,
    CONCRETE,
    DECK,
    HIGH_ALLOY,
    NOT_TENSIONED,
    POOL,
    SILENT,
    STAINLESS_304,
    STAINLESS_316,
    STEEL,
    TENSIONED,
    TENSIONED_UNKNOWN,
    TOPPING,
    UNKNOWN,
    WOOD,
)
from hangpoint.core.outcome import absent_outcome
from hangpoint.core.vocabulary import SHEAR_MODES, TENSION_MODES, Mode, Refusal

SHEARED = {"v_dead": (10.0, 0.0), "v_factored": (10.0, 0.0)}
SHAKEN = {"dead": 10.0, "earthquake": (10.0, 10.0, 0, 0, 0, 0)}
PULLED_BY_EARTHQUAKE = {"dead": 10.0, "earthquake": (10.0, 0, 0, 0, 0, 0)}
TRIGGERS = {
    Refusal.BASE_UNKNOWN: {"surroundings": {"kind": UNKNOWN}},
    Refusal.BASE_STEEL: {"surroundings": {"kind": STEEL}},
    Refusal.BASE_WOOD: {"surroundings": {"kind": WOOD}},
    Refusal.TOPPING_BOND: {"surroundings": {"part": TOPPING}},
    Refusal.POST_TENSIONED: {"surroundings": {"post_tensioned": TENSIONED_UNKNOWN}},
    Refusal.OTHER_CODE: {"products": {"european": True}},
    Refusal.ALLOWABLE: {"basis": {"allowable": True}},
    Refusal.NOT_FACTORED: {"basis": {"factored": True}, "hangs": {"kind": WEIGHT}},
    Refusal.WEIGHT_NOT_PULLING: {"basis": {"factored": False}, "hangs": {"kind": WEIGHT}, "bases": {"face": SIDE}},
    Refusal.NO_DECK_DATA: {"decks": IN_FLUTE | {"tested": False}, "surroundings": {"kind": DECK}},
    Refusal.DECK_FILL: {"decks": IN_FLUTE | {"all_lightweight": True}, "surroundings": {"kind": DECK}},
    Refusal.NO_DECK_SHEAR: {
        "decks": IN_FLUTE,
        "surroundings": {"kind": DECK},
        "products": {"v_sa_tested": False},
        "hangs": SHEARED,
    },
    Refusal.DECK_NOT_SEISMIC: {
        "decks": IN_FLUTE,
        "surroundings": {"kind": DECK},
        "products": {"n_p_eq_state": 0},
        "bases": {"category": 2},
    },
    Refusal.SHEAR_WITH_GAP: {"hangs": SHEARED, "fixings": {"gap": 0.25}},
    Refusal.WRONG_BASE: {"products": {"concrete_allowed": False}},
    Refusal.FAMILY_BASIS: {"products": {"table_only": True}},
    Refusal.NOT_OVERHEAD: {"products": {"tension_overhead": False}},
    Refusal.DIAMETER: {"products": {"d_a": 4.01}},
    Refusal.NO_LIGHTWEIGHT: {"products": {"lightweight_data": 2}, "bases": {"lightweight": True, "lambda_c": 0.85}},
    Refusal.NOT_QUALIFIED_CRACKED: {"products": {"n_p_cr_state": 0, "n_p_cr": 0.0}, "bases": {"cracked": True}},
    Refusal.NOT_QUALIFIED_UNCRACKED: {"products": {"n_p_uncr_state": 0, "n_p_uncr": 0.0}, "bases": {"cracked": False}},
    Refusal.PULLOUT_UNLIMITED: {
        "products": {"n_p_cr_state": 2, "n_p_eq_state": 2},
        "bases": {"cracked": True, "a_s_n": 1.0, "f_y_n": 60_000.0},
        "hangs": {"dead": 100.0},
    },
    Refusal.NOT_SEISMIC: {"products": {"seismic_qualified": False}, "bases": {"category": 2}},
    Refusal.NOT_SEISMIC_SHEAR: {"products": {"v_sa_eq_tested": False}, "bases": {"category": 2}, "hangs": SHEARED},
    Refusal.SEISMIC_TENSION: {
        "hangs": {"factored": 100.0, "earthquake_fraction": 0.21},
        "bases": {"category": 2},
        "basis": {"factored": True},
    },
    Refusal.SEISMIC_SHEAR: {
        "hangs": SHEARED | {"earthquake_fraction_v": 0.21},
        "bases": {"category": 2},
        "basis": {"factored": True},
    },
    Refusal.COMPRESSION: {"hangs": {"dead": -1.0, "factored": -1.0}},
    Refusal.NOT_SUSTAINED: {"products": {"sustained_tension": False}, "hangs": {"dead": 1.0, "factored": 1.0}},
    Refusal.NOT_UPWARD: {"products": ADHESIVE_ROD, "bonds": {"upward": False}},
    Refusal.CONCRETE_AGE: {"products": ADHESIVE_ROD, "bonds": {"age": 20.0}},
    Refusal.ADHESIVE_UNCONFIRMED: {"products": ADHESIVE_ROD, "bonds": {"confirmed": False}},
    Refusal.POOL_AIR: {"environments": {"exposure": POOL}},
    Refusal.NEIGHBOURS: {"sites": {"x": (0.0, 6.0), "crowded": True}},
}
"""What brings about each refusal, in the order in which the first is given."""

OF_TABLES = {
    Refusal.TABLE_FACTORED: {"basis": {"factored": True}},
    Refusal.WRONG_BASE: {"allowables": {"unmet": WRONG_BASE}},
    Refusal.ALLOWABLE: {"allowables": {"unmet": NOT_BY_TABLE}},
    Refusal.NO_TABLE: {"allowables": {"unmet": NO_TABLE}},
    Refusal.NOT_GROUTED: {"allowables": {"unmet": NOT_IN_UNITS}},
    Refusal.MORTAR_JOINT: {"allowables": {"unmet": AT_JOINT}},
    Refusal.LOCATION_NOT_TESTED: {"allowables": {"unmet": ELSEWHERE}},
    Refusal.NO_LIGHTWEIGHT: {"allowables": {"unmet": LIGHTWEIGHT}},
    Refusal.TABLE_UNCRACKED: {"allowables": {"unmet": CRACKED}},
    Refusal.NOT_UPWARD: {"products": {"bonded": True}, "bonds": {"upward": False}},
    Refusal.TABLE_ADHESIVE: {"products": {"bonded": True}, "bonds": {"confirmed": False}, "hangs": {"dead": 1.0}},
    Refusal.NOT_IN_GROUT: {"allowables": {"method": MASONRY_BOLT, "location": LOCATIONS.index("joint")}},
    Refusal.PLATE_ON_TABLE_BASE: {
        "plates": {"stated": True, "x0": -3.0, "x1": 3.0, "y0": -3.0, "y1": 3.0, "contact": True}
    },
    Refusal.NO_TABLE_DIRECTION: {"allowables": {"mean_ultimate": (0.0, 100.0)}},
    Refusal.NOT_SEISMIC: {"surroundings": {"kind": CONCRETE}, "bases": {"category": 2}},
    Refusal.EARTHQUAKE_NOT_IN_TABLE: {"bases": {"category": 2}, "hangs": {"dead": 10.0, "s_ds": 0.5}},
    Refusal.SPRINKLER_BY_TABLE: {"hangs": SPRINKLER_LINE, "runs": [RUN]},
    Refusal.NOT_OVERHEAD: {"products": {"tension_overhead": False}},
    Refusal.COMPRESSION: {"hangs": {"dead": -1.0}},
}
"""What brings about each refusal of a point that goes by a table."""

BONDED = {
    "fasteners": {"bonded": True, "tau_cr": 8.0, "tau_ucr": 15.0, "tau_c1": 6.0, "tau_c2": 3.0},
    "products": {"bonded": True, "european": True},
}
SURE = {"upward": True, "confirmed": True, "temperature_stated": True, "age": 28.0, "least_age": 21.0}
BLOWN = {"dead": 0.0, "transient": [[0.0, 0.0, 50.0, 0.0, 0.0, 0.0], *[[0.0] * 6] * 5]}
"""Wind alone, which doesn't last."""

OF_FASTENERS = {
    Refusal.EN_ALLOWABLE: {"basis": {"allowable": True}},
    Refusal.EN_BASE: {"bases": {"lightweight": True, "lambda_c": 0.85}},
    Refusal.EN_FAMILY: {"fasteners": {"known": False}},
    Refusal.WRONG_BASE: {"products": {"concrete_allowed": False}},
    Refusal.EN_EARTHQUAKE: {"bases": {"category": 2}},
    Refusal.EN_SEISMIC_OPTION: {"hangs": SHAKEN, "fasteners": {"design_option": -1}},
    Refusal.EN_DUCTILE_FAILURE: {"hangs": SHAKEN, "fasteners": {"design_option": 2}},
    Refusal.EN_NOT_SEISMIC: {"hangs": SHAKEN, "fasteners": {"n_rk_s_c1": 0.0}},
    Refusal.EN_NOT_SEISMIC_SHEAR: {"hangs": SHAKEN, "fasteners": {"v0_rk_s_c2": 0.0, "category": 1}},
    Refusal.EN_SPRINKLER: {"hangs": SPRINKLER_LINE, "runs": [RUN]},
    Refusal.EN_REINFORCEMENT: {"bases": {"a_s_v": 0.2, "f_y_v": 60_000.0}},
    Refusal.EN_LEVER_ARM: {"hangs": SHEARED, "fixings": {"gap": 0.25}},
    Refusal.EN_LEVER_ARM_SHAKEN: {"hangs": SHAKEN, "fixings": {"gap": 0.25, "thickness": 0.25}},
    Refusal.EN_NOT_ASSESSED: {"fasteners": {"n_rk_p_cr_state": 0}},
    Refusal.EN_FIRE_LONG: {"fires": {"minutes": 120.1, "hours": 120.1 / 60}},
    Refusal.EN_FIRE_BONDED: BONDED | {"bonds": SURE, "fires": {}},
    Refusal.EN_FIRE_UNCRACKED: {"fasteners": {"n_rk_p_cr_state": 0}, "bases": {"cracked": False}, "fires": {}},
    Refusal.EN_FIRE_STEEL: {"fasteners": {"d_nom": 5.9}, "fires": {}},
    Refusal.EN_NOT_UPWARD: BONDED | {"bonds": SURE | {"upward": False}},
    Refusal.EN_CONCRETE_AGE: BONDED | {"bonds": SURE | {"age": 20.0}, "bases": {"face": TOP}},
    Refusal.EN_BOND_UNCONFIRMED: BONDED | {"bonds": SURE | {"confirmed": False}},
    Refusal.EN_WEAK_CONCRETE: {"fasteners": {"f_ck_class": 19.9}},
    Refusal.EN_NO_SPLITTING_DATA: {"fasteners": {"c_cr_sp": 0.0}, "bases": {"c_a": [[8.0, INF, INF, INF]]}},
    Refusal.EN_GROUP: {"layouts": [{"x": 6.0 * place} for place in range(10)]},
    Refusal.EN_DIAMETER: {"hangs": SHEARED, "fasteners": {"d_nom": 60.1}},
    Refusal.POST_TENSIONED: {"surroundings": {"post_tensioned": TENSIONED_UNKNOWN}},
    Refusal.NOT_FACTORED: {"basis": {"factored": True}, "hangs": {"kind": WEIGHT}},
    Refusal.NOT_OVERHEAD: {"products": {"tension_overhead": False}},
    Refusal.COMPRESSION: {"hangs": {"dead": -1.0}},
    Refusal.NOT_SUSTAINED: {"products": {"sustained_tension": False}},
    Refusal.POOL_AIR: {"environments": {"exposure": POOL}},
}
"""What brings about each refusal of a point that goes by EN 1992-4."""

WITHIN = {
    Refusal.EN_BASE: {"bases": {"lightweight": False}},
    Refusal.EN_EARTHQUAKE: {"bases": {"category": 1}},
    Refusal.EN_SEISMIC_OPTION: {"fasteners": {"design_option": -1}},
    Refusal.EN_DUCTILE_FAILURE: {"hangs": SHAKEN, "fasteners": {"design_option": 0}},
    Refusal.EN_NOT_SEISMIC: {"hangs": SHAKEN, "fasteners": {"n_rk_s_c2": 0.0}},
    Refusal.EN_NOT_SEISMIC_SHEAR: {"hangs": PULLED_BY_EARTHQUAKE, "fasteners": {"v0_rk_s_c1": 0.0}},
    Refusal.EN_LEVER_ARM: {"hangs": SHEARED, "fixings": {"gap": 0.25, "thickness": 0.25}},
    Refusal.EN_LEVER_ARM_SHAKEN: {"hangs": PULLED_BY_EARTHQUAKE, "fixings": {"gap": 0.25, "thickness": 0.25}},
    Refusal.EN_NOT_ASSESSED: {"fasteners": {"n_rk_p_ucr_state": 0}},
    Refusal.EN_FIRE_LONG: {"fires": {"minutes": 120.0, "hours": 2.0}},
    Refusal.EN_FIRE_BONDED: BONDED | {"bonds": SURE, "fires": {"minutes": 0.0, "hours": 0.0}},
    Refusal.EN_FIRE_UNCRACKED: {"fasteners": {"n_rk_p_ucr_state": 0}, "fires": {}},
    Refusal.EN_FIRE_STEEL: {"fasteners": {"d_nom": 6.0}, "fires": {}},
    Refusal.EN_NOT_UPWARD: BONDED | {"bonds": SURE | {"upward": False}, "bases": {"face": TOP}},
    Refusal.EN_CONCRETE_AGE: BONDED | {"bonds": SURE | {"age": 21.0}},
    Refusal.EN_BOND_UNCONFIRMED: BONDED | {"bonds": SURE | {"confirmed": False}, "hangs": BLOWN},
    Refusal.EN_WEAK_CONCRETE: {"fasteners": {"f_ck_class": 20.0}},
    Refusal.EN_NO_SPLITTING_DATA: {"fasteners": {"c_cr_sp": 0.0}},
    Refusal.EN_GROUP: {"layouts": [{"x": 6.0 * place} for place in range(9)]},
    Refusal.EN_DIAMETER: {"hangs": SHEARED, "fasteners": {"d_nom": 60.0}},
}
"""What comes near a refusal of EN 1992-4 and isn't refused."""


OF_ADHESIVE = {
    Refusal.NOT_QUALIFIED_CRACKED: {"bonds": {"tau_cr": 0.0}, "bases": {"cracked": True}},
    Refusal.NOT_QUALIFIED_UNCRACKED: {"bonds": {"tau_uncr": 0.0}, "bases": {"cracked": False}},
    Refusal.NOT_SEISMIC: {"bonds": {"alpha_n_seis": 0.0}, "bases": {"category": 2}},
}
"""What brings about the same refusals of an adhesive anchor, which has bond in place of a pullout strength."""


OTHER_TABLES = ("products", "bases", "fixings", "bonds", "decks", "surroundings", "environments")


def _is_adhesive(trigger):
    return trigger.get("products", {}).get("adhesive", False)


def _pair(first, second):
    """Tables of two refusals together, or None where they ask for different values of a column."""
    triggers = [TRIGGERS[first], TRIGGERS[second]]
    if any(_is_adhesive(trigger) for trigger in triggers):
        triggers = [OF_ADHESIVE.get(refusal, TRIGGERS[refusal]) for refusal in (first, second)]
    return _merged(*triggers)


def _merged(*triggers):
    merged = {}
    for trigger in triggers:
        for table, changed in trigger.items():
            into = merged.setdefault(table, {})
            if any(name in into and into[name] != value for name, value in changed.items()):
                return None
            into |= changed
    return merged


def _refused(trigger):
    tables = {name: {} for name in (*OTHER_TABLES, "hangs", "basis")} | trigger
    basis = Basis(**({"factored": False, "allowable": False} | tables["basis"]))
    load = {"factored": 100.0} if basis.factored else {"dead": 100.0}
    verdicts = checked(
        basis=basis,
        hangs=load | tables["hangs"],
        **{name: tables[name] for name in OTHER_TABLES},
        sites=tables.get("sites"),
        plates=tables.get("plates"),
        allowables=tables.get("allowables"),
        runs=tables.get("runs", ()),
        layouts=tables.get("layouts"),
        fasteners=tables.get("fasteners"),
        fires=tables.get("fires"),
    )
    return refusal_of(verdicts), verdicts


def test_every_refusal_has_a_trigger():
    """All but the one that no anchor can bring about: its steel is always checked."""
    assert set(REFUSALS) - set(TRIGGERS) - set(OF_TABLES) - set(OF_FASTENERS) == {Refusal.NO_MODE}


def test_every_refusal_says_what_would_do_instead():
    """Somebody who reads it knows what to do next; the one that no anchor can bring about has nothing to say."""
    told = r"\b(Take|Ask|State|Have|Move|Wait|Close|Find|Brace|Anchor|Name|Leave|state which|needs its)\b"
    silent = {each for each in Refusal if not re.search(told, each.value.text)}
    assert silent == {Refusal.NO_MODE, Refusal.BASE_STEEL, Refusal.BASE_WOOD, Refusal.POOL_AIR}
    assert all("for the engineer" in each.value.text for each in (Refusal.BASE_STEEL, Refusal.BASE_WOOD))
    assert "only a high-alloy grade" in Refusal.POOL_AIR.value.text


def test_nothing_against_the_default_point():
    assert _refused({})[0] is None


@pytest.mark.parametrize("refusal", TRIGGERS, ids=lambda refusal: refusal.value.code)
def test_refusal_alone(refusal):
    """A refused point has its loads but no anchor mode and no finding about its anchor."""
    found, verdicts = _refused(TRIGGERS[refusal])
    assert found is refusal
    assert not any(mode.applies[0] for mode in verdicts.modes)
    assert verdicts.governing[0] == -1
    assert verdicts.utilisation[0] == 0.0
    assert found_on(verdicts) == set()


@pytest.mark.parametrize("refusal", OF_TABLES, ids=lambda refusal: refusal.value.code)
def test_refusal_of_a_point_by_a_table(refusal):
    table = {"allowables": {}}
    assert _refused(table)[0] is None
    assert _refused(table | OF_TABLES[refusal])[0] is refusal


@pytest.mark.parametrize("refusal", OF_FASTENERS, ids=lambda refusal: refusal.value.code)
def test_refusal_of_a_point_by_en_1992_4(refusal):
    assert _refused({"fasteners": {}})[0] is None
    found, verdicts = _refused({"fasteners": {}} | OF_FASTENERS[refusal])
    assert found is refusal
    assert not any(mode.applies[0] for mode in verdicts.modes)
    assert not any("fastener" in own.value.code for own in found_on(verdicts))


@pytest.mark.parametrize("refusal", WITHIN, ids=lambda refusal: refusal.value.code)
def test_what_en_1992_4_still_covers(refusal):
    assert _refused({"fasteners": {}} | WITHIN[refusal])[0] is None


def test_en_1992_4_has_no_chapter_17_reasons():
    """What chapter 17 asks of data and options isn't asked by another code."""
    products = {"n_p_cr_state": 0, "seismic_qualified": False, "category": 0, "european": True, "d_a": 4.1}
    assert _refused({"fasteners": {}, "products": products})[0] is None


def test_a_table_has_no_chapter_17_reasons():
    """A family with tables only, in masonry, in category C under gravity alone."""
    products = {"table_only": True, "seismic_qualified": False, "concrete_allowed": False, "n_p_cr_state": 0}
    found = _refused({"allowables": {}, "hangs": {"dead": 10.0}, "products": products, "bases": {"category": 2}})
    assert found[0] is None


@pytest.mark.parametrize("refusal", OF_TABLES, ids=lambda refusal: refusal.value.code)
def test_figures_of_another_code_are_told_before_what_tables_lack(refusal):
    """Nothing that a table lacks is to be looked for: no table is its way."""
    trigger = {"allowables": {}} | OF_TABLES[refusal]
    products = trigger.get("products", {}) | {"european": True}
    assert _refused(trigger | {"products": products})[0] is Refusal.OTHER_CODE


def test_what_holds_of_a_member_is_told_before_the_code_of_the_figures():
    """Nobody drills into tendons, whatever the figures."""
    own = {"products": {"european": True}, "surroundings": {"post_tensioned": TENSIONED_UNKNOWN}}
    assert _refused(own)[0] is Refusal.POST_TENSIONED


@pytest.mark.parametrize("refusal", OF_FASTENERS, ids=lambda refusal: refusal.value.code)
def test_what_holds_of_a_member_is_told_before_what_en_1992_4_leaves_out(refusal):
    member = {"post_tensioned": TENSIONED_UNKNOWN}
    assert _refused({"fasteners": {}} | OF_FASTENERS[refusal] | {"surroundings": member})[0] is Refusal.POST_TENSIONED


def test_a_table_in_shear_only():
    own = {"mean_ultimate": (0.0, 2_000.0)}
    slid = {"dead": 0.0, "v_dead": (100.0, 0.0)}
    assert _refused({"allowables": own, "hangs": slid})[0] is None
    assert _refused({"allowables": own, "hangs": slid | {"dead": 1.0}})[0] is Refusal.NO_TABLE_DIRECTION


@pytest.mark.parametrize("refusal", OF_ADHESIVE, ids=lambda refusal: refusal.value.code)
def test_refusal_of_an_adhesive_anchor(refusal):
    adhesive = {"products": ADHESIVE_ROD}
    assert _refused(adhesive)[0] is None
    assert _refused(_merged(adhesive, OF_ADHESIVE[refusal]))[0] is refusal


def test_bond_in_one_state_only():
    """tau_uncr makes c_Na in cracked concrete too; the seismic bond is alpha_N,seis tau_cr, uncracked or not."""
    for bonds, bases, refusal in (
        ({"tau_uncr": 0.0}, {"cracked": True}, Refusal.NOT_QUALIFIED_CRACKED),
        ({"tau_cr": 0.0}, {"cracked": False}, None),
        ({"tau_cr": 0.0}, {"cracked": False, "category": 1}, None),
        ({"tau_cr": 0.0}, {"cracked": False, "category": 2}, Refusal.NOT_SEISMIC),
        ({"alpha_n_seis": 0.0}, {"cracked": False, "category": 1}, None),
    ):
        found = _refused({"products": ADHESIVE_ROD, "bonds": bonds, "bases": bases})[0]
        assert found is refusal, (bonds, bases)


@pytest.mark.parametrize(
    ("bonds", "bases"),
    [
        ({"age": -1.0}, {}),  # not stated
        ({"temperature_stated": False}, {}),
        ({"confirmed": False}, {}),
        ({"confirmed": False}, {"face": SIDE}),
        ({}, {"f_c": 2_465.0}),  # 17 MPa are 2,465.6 psi
    ],
)
def test_what_an_adhesive_anchor_that_holds_for_long_must_state(bonds, bases):
    """Reading 36, of tension that stays, on a soffit or a side; on top nothing falls, and without it nothing stays."""
    tables = {"products": ADHESIVE_ROD, "bonds": bonds, "bases": bases}
    assert _refused(tables)[0] is Refusal.ADHESIVE_UNCONFIRMED
    assert _refused(tables | {"bases": bases | {"face": TOP}})[0] is None
    passing = {"hangs": {"factored": 100.0, "sustained_fraction": 0.0}, "basis": {"factored": True}}
    assert _refused(tables | passing)[0] is None


def test_first_refusal_in_order():
    pairs = 0
    for first, second in itertools.combinations(TRIGGERS, 2):
        both = _pair(first, second)
        if both is None:
            continue
        pairs += 1
        assert _refused(both)[0] is first, (first, second)
    assert pairs > 150


def test_refusals_just_inside_their_limits():
    for tables in (
        {"products": {"d_a": 4.0}},
        {"products": {"tension_overhead": False}, "bases": {"face": SIDE}},
        {"products": {"seismic_qualified": False}, "bases": {"category": 1}},
        {"hangs": {"earthquake_fraction": 0.20}, "bases": {"category": 5}},
        {"hangs": {"earthquake_fraction": 0.9}, "bases": {"category": 1}},
        {"products": {"lightweight_data": 2}},
        {"products": {"lightweight_data": 1}, "bases": {"lightweight": True, "lambda_c": 0.85}},
        {"products": {"n_p_cr_state": 0}, "bases": {"cracked": False}},
        {"products": {"n_p_uncr_state": 0}, "bases": {"cracked": True}},
        {"products": {"n_p_cr_state": 2}, "bases": {"cracked": True}},
        {"products": {"n_p_cr_state": 2}, "bases": {"a_s_n": 1.0, "f_y_n": 60_000.0}, "hangs": {"dead": 0.0} | SHEARED},
        {"products": {"n_p_uncr_state": 2}, "bases": {"cracked": True, "a_s_n": 1.0, "f_y_n": 60_000.0}},
        {"products": HEADED_BOLT | {"seismic_qualified": False}, "bases": {"category": 5}},
        {"hangs": {"dead": 0.0}},
        {"hangs": {"dead": 0.0} | SHEARED},
        {"hangs": SHEARED, "fixings": {"gap": 0.0, "grout_pad": True}},
        {"fixings": {"gap": 0.25}},
        {"products": {"v_sa_eq_tested": False}, "bases": {"category": 2}},
        {"products": {"v_sa_eq_tested": False}, "bases": {"category": 1}, "hangs": SHEARED},
        {"products": HEADED_BOLT, "bases": {"category": 5}, "hangs": SHEARED},
        {"products": ADHESIVE_ROD, "bonds": {"upward": False}, "bases": {"face": TOP}},
        {"products": ADHESIVE_ROD, "bonds": {"age": 21.0}, "bases": {"f_c": 2_500.0}},
        {"products": ADHESIVE_ROD | {"sustained_tension": False}, "hangs": {"dead": 0.0} | SHEARED},
    ):
        assert _refused(tables)[0] is None, tables


@pytest.mark.parametrize(
    ("tensioned", "scanned", "refused"),
    [
        (TENSIONED, False, True),
        (TENSIONED_UNKNOWN, False, True),
        (TENSIONED, True, False),
        (TENSIONED_UNKNOWN, True, False),
        (NOT_TENSIONED, False, False),
        (SILENT, False, False),
    ],
)
def test_a_member_that_may_be_post_tensioned_is_scanned_first(tensioned, scanned, refused):
    """Reading 39: yes or unknown without a scan is never passed; silence is an assumption."""
    found = _refused({"surroundings": {"post_tensioned": tensioned, "scanned": scanned}})[0]
    assert found is (Refusal.POST_TENSIONED if refused else None)


@pytest.mark.parametrize("kind", [PIPE, WEIGHT, FORCES])
@pytest.mark.parametrize("face", [SOFFIT, SIDE, TOP])
def test_what_gravity_pulls_out(kind, face):
    """It pulls out of a soffit only; stated forces act as they are stated; a table changes nothing about it."""
    expected = None if kind == FORCES or face == SOFFIT else Refusal.WEIGHT_NOT_PULLING
    tables = {"hangs": {"kind": kind, "dead": 10.0}, "bases": {"face": face}}
    assert _refused(tables)[0] is expected
    assert _refused(tables | {"allowables": {}})[0] is expected


@pytest.mark.parametrize(
    ("steel", "face", "refused"),
    [
        (0, 0, True),
        (STAINLESS_304, 0, True),
        (STAINLESS_316, SIDE, True),
        (SILENT, 0, True),
        (HIGH_ALLOY, 0, False),
        (STAINLESS_316, TOP, False),
    ],
)
def test_the_air_of_an_indoor_pool(steel, face, refused):
    """Reading 40: zinc, hot-dip, 304, 316 and what is not known are refused for what carries load overhead."""
    tables = {"environments": {"exposure": POOL, "steel": steel}, "bases": {"face": face}}
    assert _refused(tables)[0] is (Refusal.POOL_AIR if refused else None)
    elsewhere = tables | {"environments": {"exposure": CHLORIDES, "steel": steel}}
    assert _refused(elsewhere)[0] is None


@pytest.mark.parametrize(("anchors", "refusal"), [(64, None), (65, Refusal.NEIGHBOURS)])
def test_anchors_of_a_group_of_neighbours(anchors, refusal):
    """Two points 6 in apart with a row of 32 anchors and one of 32 or 33, 9 in from one to the next; 3 h_ef is 9.75."""
    layouts = [{"point": int(i >= 32), "y": 9.0 * (i % 32)} for i in range(64)]
    layouts += [{"point": 1, "y": -9.0}] * (anchors - 64)
    verdicts = checked(hangs={"dead": 10.0, "at": (0.0, 139.5, 0.0)}, layouts=layouts, sites={"x": [0.0, 6.0]})
    assert [refusal_of(verdicts, row) for row in (0, 1)] == [refusal, refusal]


def test_product_k_of_one_state_only():
    """A product with k in one state isn't qualified in the other, even where its pullout doesn't govern."""
    products = {"n_p_cr_state": 2, "n_p_uncr_state": 2, "k_cr": [0.0, 17.0], "k_uncr": [24.0, 0.0]}
    cracked = checked(hangs={"dead": 100.0}, products=products, bases={"cracked": True})
    assert [refusal_of(cracked, row) for row in (0, 1)] == [Refusal.NOT_QUALIFIED_CRACKED, None]
    uncracked = checked(hangs={"dead": 100.0}, products=products, bases={"cracked": False})
    assert [refusal_of(uncracked, row) for row in (0, 1)] == [None, Refusal.NOT_QUALIFIED_UNCRACKED]


@pytest.mark.parametrize(
    ("dead", "live", "refused"), [(-1, 0, True), (100, -76, True), (100, -74, False), (-10, 20, True)]
)
def test_compression_in_any_load_case(dead, live, refused):
    """1.4D or 1.2D + 1.6L below zero: 120 - 121.6 is compression, 120 - 118.4 is not."""
    verdicts = checked(hangs={"dead": float(dead), "live": float(live)})
    assert (refusal_of(verdicts) is Refusal.COMPRESSION) is refused


@pytest.mark.parametrize("direction", ["tension", "shear"])
def test_the_share_of_earthquake_that_asks_for_an_option(direction):
    """17.10.5.1 and 17.10.6.1: 20 % exactly asks for none, in A and B no share does, a stated option settles it."""
    refusal = {"tension": Refusal.SEISMIC_TENSION, "shear": Refusal.SEISMIC_SHEAR}[direction]
    fraction = {"tension": "earthquake_fraction", "shear": "earthquake_fraction_v"}[direction]
    verdicts = checked(
        basis=FACTORED_LOADS,
        hangs={"factored": 100.0, "v_factored": (30.0, 40.0), fraction: [0.20, 0.201, 1.0, 1.0, 0.201]},
        bases={"category": [5, 2, 1, 0, 5]},
        fixings={f"{direction}_option": [-1, -1, -1, -1, 3]},
    )
    assert [refusal_of(verdicts, row) for row in range(5)] == [None, refusal, None, None, None]


def test_a_refused_point_does_not_touch_the_others():
    mixed = checked(hangs={"dead": 500.0}, products={"table_only": [False, True, False]})
    alone = checked(hangs={"dead": 500.0})
    np.testing.assert_array_equal(mixed.refusal, [ACCEPTED, REFUSALS.index(Refusal.FAMILY_BASIS), ACCEPTED])
    np.testing.assert_array_equal(mixed.utilisation[[0, 2]], np.repeat(alone.utilisation, 2))
    np.testing.assert_array_equal(mixed.demand.dead, np.full(3, 500.0))


def test_a_refused_point_keeps_its_rod():
    verdicts = checked(hangs={"dead": 500.0}, products={"table_only": True}, rods=rod("sp58_allowable"))
    assert refusal_of(verdicts) is Refusal.FAMILY_BASIS
    assert mode_of(verdicts, Mode.ROD_ALLOWABLE).applies[0]
    assert verdicts.utilisation[0] > 0


@pytest.mark.parametrize(
    ("without", "load"),
    [(TENSION_MODES, {"dead": [100.0, 0.0]}), (SHEAR_MODES, {"v_dead": [(100.0, 0.0), (0.0, 0.0)]})],
    ids=["tension", "shear"],
)
def test_load_without_a_mode_is_refused(monkeypatch, without, load):
    """Were no mode of its direction to apply, a loaded point would be refused; without a load nothing is to be held."""
    whole = anchor_checks.check_anchors

    def some(cases, anchors):
        found = whole(cases, anchors)
        reason = np.zeros(anchors.case_count, dtype=np.intp)
        kept = [absent_outcome(o.mode, reason) if o.mode in without else o for o in found.outcomes]
        return replace(found, outcomes=kept)

    assert refusal_of(checked(hangs=load)) is None
    monkeypatch.setattr(anchor_checks, "check_anchors", some)
    verdicts = checked(hangs=load, rods=rod("sp58_allowable"))
    assert [refusal_of(verdicts, row) for row in (0, 1)] == [Refusal.NO_MODE, None]


def test_an_empty_batch():
    verdicts = checked(count=0)
    assert verdicts.count == 0
    assert verdicts.failed.shape == (0,)
    assert all(mode.utilisation.shape == (0,) for mode in verdicts.modes)


def test_a_batch_of_refused_points_only():
    verdicts = checked(hangs={"dead": [1.0, 2.0], "v_dead": (1.0, 0.0)}, products={"table_only": True})
    assert [refusal_of(verdicts, row) for row in (0, 1)] == [Refusal.FAMILY_BASIS] * 2
    assert not verdicts.failed.any()
    np.testing.assert_array_equal(verdicts.governing, [-1, -1])
