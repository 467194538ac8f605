"""Which traits hold for which kind of family: common practice, no source, where no clause stands.

The expected sets are written here by hand, from the trade and the clauses, not from the files.
"""

import math
from fractions import Fraction

import pytest

from hangpoint.product.catalogue import load_catalogue

FAMILIES = load_catalogue().families
ALL = set(FAMILIES)
WEDGES = {"wedge-expansion-zinc", "wedge-expansion-stainless"}
SLEEVES = {"sleeve-expansion-zinc", "sleeve-expansion-stainless"}
DROP_INS = {"drop-in-zinc", "drop-in-stainless", "drop-in-short-zinc"}
LARGE_SCREWS = {"large-screw-hex-zinc", "large-screw-hex-stainless", "large-screw-internal-thread-zinc"}
SMALL_SCREWS = {"small-screw-hex-zinc", "small-screw-flat-zinc", "small-screw-hex-stainless", "ceiling-screw-eye-zinc"}
UNDERCUTS = {"undercut-zinc", "undercut-stainless", "undercut-stainless-metric"}
SLOW = {f"adhesive-slow-rod-{rod}" for rod in ("36", "105", "stainless")}
FAST = {f"adhesive-fast-rod-{rod}" for rod in ("36", "105", "stainless")}
POWDER = {"driven-pin-powder-zinc", "ceiling-pin-clip-zinc"}
PINS = POWDER | {"driven-pin-gas-zinc", "driven-pin-battery-zinc"}
INSERTS = {"cast-in-insert-form-zinc", "cast-in-insert-deck-zinc"}
CAST = {"headed-bolt", "headed-stud-welded", "hooked-bolt"}
HEAVY = {"sleeve-expansion-heavy-zinc"}
HAMMER = {"hammer-set-pin-zinc"}
EN_WEDGES = {"en-wedge-expansion-zinc", "en-wedge-expansion-stainless"}
EN_SCREW, EN_UNDERCUT, EN_DROP_IN, EN_STUD = (
    {"en-screw-zinc"},
    {"en-undercut-zinc"},
    {"en-drop-in-zinc"},
    {"en-headed-stud"},
)
EN_SLOW, EN_FAST = {"en-adhesive-slow-rod-zinc"}, {"en-adhesive-fast-rod-stainless"}
EN = EN_SLOW | EN_FAST | EN_WEDGES | EN_SCREW | EN_UNDERCUT | EN_DROP_IN | EN_STUD
IN_DECKS = {
    "wedge-expansion-zinc",
    "wedge-expansion-stainless",
    "large-screw-hex-zinc",
    "large-screw-internal-thread-zinc",
    "undercut-zinc",
    "cast-in-insert-deck-zinc",
}


def having(holds):
    return {name for name, family in FAMILIES.items() if holds(family)}


def trait(name):
    return having(lambda family: getattr(family.traits, name))


def test_the_kinds_are_all():
    kinds = [
        WEDGES,
        SLEEVES,
        DROP_INS,
        LARGE_SCREWS,
        SMALL_SCREWS,
        UNDERCUTS,
        SLOW,
        FAST,
        PINS,
        INSERTS,
        CAST,
        HEAVY,
        EN,
    ]
    assert set().union(HAMMER, *kinds) == ALL
    assert sum(map(len, kinds)) + len(HAMMER) == len(ALL)


def test_traits():
    """Common practice, no source: screws come out again, shells and inserts are flush and threaded inside."""
    assert trait("removable") == LARGE_SCREWS | SMALL_SCREWS | EN_SCREW
    assert trait("internally_threaded") == DROP_INS | INSERTS | {"large-screw-internal-thread-zinc"} | EN_DROP_IN
    assert trait("flush") == DROP_INS | INSERTS | {"small-screw-flat-zinc"} | EN_DROP_IN
    assert trait("training") == UNDERCUTS | SLOW | FAST | PINS | EN_UNDERCUT | EN_SLOW | EN_FAST
    assert ALL - trait("sustained_tension") == HAMMER


def test_who_hangs_nothing_overhead():
    """Reading 31 for hammer-set pins, 17.2.3 for adhesives not qualified upward; the others common practice."""
    assert ALL - trait("tension_overhead") == HAMMER | SLEEVES | FAST | EN_FAST | {"hooked-bolt"}


def test_qualifications():
    """Drop-ins are for uncracked concrete (reading 31). Pins, inserts, small screws and light sleeves have tables
    only (17.1.5 and common practice). Cast-in anchors need no qualification (17.10.3 asks the post-installed ones).
    """
    qualified = WEDGES | HEAVY | LARGE_SCREWS | UNDERCUTS
    assert trait("cracked_qualified") == qualified | SLOW | FAST | CAST | (EN - EN_DROP_IN)
    by_european_data = trait("seismic_qualified") & EN
    assert trait("seismic_qualified") - EN == (trait("cracked_qualified") - EN) | {"cast-in-insert-deck-zinc"}
    assert by_european_data == EN - EN_DROP_IN - EN_FAST - {"en-wedge-expansion-stainless"}
    assert having(lambda family: family.basis == "en") == EN
    assert having(lambda family: family.basis == "qualified") == qualified | (DROP_INS - {"drop-in-short-zinc"})
    tables = SLEEVES | SMALL_SCREWS | PINS | INSERTS | HAMMER | {"drop-in-short-zinc"}
    assert having(lambda family: family.basis == "allowable_table") == tables


def test_strengths_in_decks_are_of_families_tested_there():
    """Common practice: wedges, large screws, undercuts and cast-in inserts hang from decks, drop-ins only if tested."""
    tested = having(lambda family: any(row.deck for size in family.sizes for row in size.embedments))
    assert tested == IN_DECKS
    assert not tested & (DROP_INS | SMALL_SCREWS | PINS | HAMMER | SLOW | FAST)


def test_bases():
    assert having(lambda family: "masonry" in family.traits.bases) == (
        SLEEVES
        | (SMALL_SCREWS - {"ceiling-screw-eye-zinc"})
        | HAMMER
        | {"driven-pin-gas-zinc", "headed-bolt", "hooked-bolt"}
    )
    assert having(lambda family: "hollow_core" in family.traits.bases) == {"drop-in-short-zinc"}
    assert having(lambda family: "deck" in family.traits.bases) == POWDER | IN_DECKS
    assert having(lambda family: "concrete" not in family.traits.bases) == {"cast-in-insert-deck-zinc"}


def test_exposure_follows_from_the_protection():
    """Common practice: electroplated zinc stays in the dry, 304 in the damp, 316 and hot-dip zinc go out."""
    worst = {"zinc": "dry", "hot_dip": "outdoor", "stainless_304": "damp", "stainless_316": "outdoor"}
    for name, family in FAMILIES.items():
        protection = family.material.coating if family.material.steel == "carbon" else family.material.steel
        assert family.traits.exposure == worst.get(protection, "dry"), name


@pytest.mark.parametrize("name", sorted(ALL))
def test_every_card_is_whole(name):
    family = FAMILIES[name]
    setting, text = family.setting, " ".join(family.setting.cautions)
    assert setting.steps
    assert setting.checks
    assert setting.do_not
    assert any("engineer of record" in caution and "local code" in caution for caution in setting.cautions)
    drilled = setting.drilling != "none"
    assert drilled == ("silica" in text)
    assert drilled == (setting.bit is not None)
    assert drilled == bool(setting.cleaning)
    for size in family.sizes:
        for row in size.embedments:
            assert drilled == (row.hole is not None)
            assert (row.torque is not None) == (
                name in WEDGES | SLEEVES | HEAVY | UNDERCUTS | SLOW | FAST | EN_WEDGES | EN_SCREW | EN_UNDERCUT
                or name in EN_SLOW | EN_FAST
                or name in LARGE_SCREWS - {"large-screw-internal-thread-zinc"}
            )
    if family.traits.tension_overhead:
        assert "nobody stands below" in text


def test_cautions_of_pins_and_adhesives():
    """29 CFR 1926.302(e), from memory: trained operators, the tool tested each day."""
    for name in POWDER:
        assert "trained, authorised operators" in " ".join(FAMILIES[name].setting.cautions)
        assert "test it each day" in " ".join(FAMILIES[name].setting.cautions)
    for name in SLOW | FAST:
        assert len(FAMILIES[name].setting.cleaning) == 4
        assert "certified installer" in " ".join(FAMILIES[name].setting.notes)


@pytest.mark.parametrize("name", sorted(ALL))
def test_safety_factors_of_tables(name):
    """4 in concrete, 5 in masonry and for pins: common practice; TEK 12-03C has 5 in masonry."""
    for table in FAMILIES[name].tables:
        assert table.safety_factor == (5 if name in PINS or table.base == "masonry" else 4)
        assert table.state == "uncracked"


def tables(base, **of):
    return {
        (name, table.direction)
        for name, family in FAMILIES.items()
        for table in family.tables
        if table.base == base and all(getattr(table, key) == value for key, value in of.items())
    }


def test_which_families_have_tables_in_which_masonry():
    """Common practice, no source: sleeves and small screws in block, hollow or grouted, and in brick; gas-driven and
    hammer-set pins fasten to grouted block in shear; wedge types, drop-ins and inserts not at all.
    """
    both = {
        (name, direction)
        for name in SLEEVES | (SMALL_SCREWS - {"ceiling-screw-eye-zinc"})
        for direction in ("tension", "shear")
    }
    pins = {(name, "shear") for name in HAMMER | {"driven-pin-gas-zinc"}}
    assert tables("masonry", masonry="hollow", material="concrete") == both
    assert tables("masonry", masonry="solid", material="clay") == both
    assert tables("masonry", masonry="grouted", material="concrete") == both | pins
    assert tables("masonry") == both | pins


def test_planks_are_for_short_drop_ins():
    """Common practice, no source: in the thin shell of a plank only anchors made for it, off the strands."""
    assert tables("hollow_core") == {("drop-in-short-zinc", "tension"), ("drop-in-short-zinc", "shear")}
    for table in FAMILIES["drop-in-short-zinc"].tables:
        if table.base == "hollow_core":
            assert table.least_cover > 0
            assert table.least_strand > 0


@pytest.mark.parametrize("name", sorted(ALL))
def test_allowable_is_mean_ultimate_by_safety_factor(name):
    """A state specification (IM 453.09): a quarter of the ultimate. CMHA TEK 12-03C: a fifth of it in masonry."""
    share = {4: 1 / 4, 5: 1 / 5}
    for table in FAMILIES[name].tables:
        for row in table.rows:
            assert row.allowable == pytest.approx(row.mean_ultimate * share[table.safety_factor], rel=1e-9)


@pytest.mark.parametrize("name", sorted(ALL))
def test_masonry_is_weaker_than_concrete_and_hollow_than_grouted(name):
    """Common practice, no source."""
    found = {
        (table.base, table.masonry, table.direction): {(row.size, row.h_ef): row.allowable for row in table.rows}
        for table in FAMILIES[name].tables
    }
    for (base, units, direction), rows in found.items():
        if base != "masonry":
            continue
        stronger = ("concrete", None, direction) if units == "grouted" else ("masonry", "grouted", direction)
        for key, allowable in rows.items():
            assert stronger not in found or allowable <= found[stronger][key], (units, direction, key)


def test_joints_are_kept_off():
    """Common practice, no source: mortar joints are not tested, and units of block take one anchor a cell."""
    for family in FAMILIES.values():
        for table in family.tables:
            if table.base == "masonry":
                assert "joint" not in table.locations
                assert table.least_joint >= 1
                pin = family.principle in ("driven_pin", "hammer_set_pin")
                assert table.one_a_cell == (table.material == "concrete" and not pin)
                assert (table.least_face_shell is not None) == (table.masonry == "hollow")


def test_pins_keep_edge_spacing_and_thickness():
    """Penetration at most a third of the thickness, 2-1/2 in and 3 in from an edge at least: from memory."""
    for name in PINS:
        for size in FAMILIES[name].sizes:
            assert not size.ductile
            for row in size.embedments:
                assert row.h_min >= max(2.5, 3 * row.h_ef)
                assert row.c_min >= 3


def test_hammer_set_pins_have_no_table_in_tension():
    assert {table.direction for table in FAMILIES["hammer-set-pin-zinc"].tables} == {"shear"}


def test_qualified_families_state_their_shear():
    for name in having(lambda family: family.basis in ("qualified", "adhesive")):
        for size in FAMILIES[name].sizes:
            for row in size.embedments:
                assert row.v_sa is not None
                assert (row.v_sa_eq is not None) == row.seismic


def test_families_by_european_assessment_state_their_shear():
    """All but one size, whose steel in shear is that of 7.34, and studs and rods, with the steel of their shank."""
    silent = [
        f"{name}/{size.size}"
        for name in sorted(EN - EN_STUD - EN_SLOW - EN_FAST)
        for size in FAMILIES[name].sizes
        for row in size.embedments
        if row.en.v0_rk_s is None
    ]
    assert silent == ["en-wedge-expansion-zinc/M20"]


def test_screws_and_drop_ins_are_brittle():
    """Readings 31 and 40."""
    for name in LARGE_SCREWS | SMALL_SCREWS | DROP_INS | EN_SCREW | EN_DROP_IN:
        assert not any(size.ductile for size in FAMILIES[name].sizes)


COARSE = {"1/4": 20, "3/8": 16, "1/2": 13, "5/8": 11, "3/4": 10, "7/8": 9, "1": 8}
"""Threads an inch of the unified coarse series, ASME B1.1, from memory."""


@pytest.mark.parametrize("name", sorted(SLOW | FAST | {"hooked-bolt", "undercut-zinc", "undercut-stainless"} | HEAVY))
def test_stress_area_of_threaded_rods(name):
    """R17.6.1.2: pi/4 (d - 0.9743/n)^2. Tolerance: half of the last figure printed in the file."""
    for size in FAMILIES[name].sizes:
        diameter = float(Fraction(size.thread))
        area = math.pi / 4 * (diameter - 0.9743 / COARSE[size.thread]) ** 2
        assert size.a_se == pytest.approx(area, abs=0.00051)


HEADS = {"3/8": 0.75, "1/2": 1.0, "5/8": 1.25, "3/4": 1.25, "7/8": 1.375}
"""Diameters of the heads of studs by AWS D1.1 type B, from memory."""


def test_welded_studs():
    """A_se is the whole shank, A_brg the head less the shank; 65 and 51 ksi of AWS D1.1 type B, from memory."""
    for size in FAMILIES["headed-stud-welded"].sizes:
        shank = math.pi / 4 * size.d_a**2
        assert size.a_se == pytest.approx(shank, abs=0.00005)
        assert size.head.a_brg == pytest.approx(math.pi / 4 * HEADS[size.size] ** 2 - shank, abs=0.0005)
        assert size.head.welded_stud
        assert (size.f_uta, size.f_ya, size.ductile) == (65000, 51000, True)
    assert not any(size.head.welded_stud for size in FAMILIES["headed-bolt"].sizes)


METRIC = {"M8": 36.6, "M10": 58.0, "M12": 84.3, "M16": 157.0}
"""Stress areas of metric coarse threads, mm2, as handbooks print them (ISO 898-1), from memory."""


def test_metric_stress_areas():
    """The undercut's bolt and the drop-in's rod are threaded through."""
    for name in sorted(EN_UNDERCUT | EN_DROP_IN):
        for size in FAMILIES[name].sizes:
            assert size.a_se == METRIC[size.thread]


METRIC_HEADS = {"13": 25, "16": 32, "19": 32, "22": 35}
"""Diameters of the heads of studs by EN ISO 13918, mm, from memory."""


def test_studs_of_en():
    """A_s is the whole shank, A_h the head less the shank; 450 and 350 N/mm2 of stud steel SD1, from memory."""
    for size in FAMILIES["en-headed-stud"].sizes:
        shank = math.pi / 4 * size.d_a**2
        assert size.d_a == float(size.size)
        assert size.a_se == pytest.approx(shank, abs=0.1)
        assert size.head.a_brg == pytest.approx(math.pi / 4 * METRIC_HEADS[size.size] ** 2 - shank, abs=0.1)
        assert (size.f_uta, size.f_ya, size.ductile) == (450, 350, True)


RODS = {
    "36": lambda size: (58000, 36000),
    "105": lambda size: (125000, 105000),
    "stainless": lambda size: (85000, 45000) if size in ("3/4", "7/8", "1") else (100000, 65000),
}
"""ASTM F1554 grade 36, A193 grade B7, F593 cold worked in its two ranges of diameter: from memory."""


@pytest.mark.parametrize("rod", RODS)
def test_strengths_of_rods(rod):
    for adhesive in ("slow", "fast"):
        for size in FAMILIES[f"adhesive-{adhesive}-rod-{rod}"].sizes:
            assert (size.f_uta, size.f_ya) == RODS[rod](size.size)


def test_one_adhesive_has_one_bond_whatever_the_rod():
    for kind in ("slow", "fast"):
        bonds = [
            {size.size: [row.bond for row in size.embedments] for size in FAMILIES[f"adhesive-{kind}-rod-{rod}"].sizes}
            for rod in RODS
        ]
        assert bonds[0] == bonds[1] == bonds[2]


def test_every_size_is_one_the_trade_stocks():
    inches = {"3/16", "1/4", "5/16", "3/8", "1/2", "5/8", "3/4", "7/8", "1", "0.110", "0.120", "0.150", "0.180"}
    metric = {"M8", "M10", "M12", "M16", "M20", "8", "10", "12", "14", "13", "16", "19", "22"}
    for name, family in FAMILIES.items():
        sizes = {size.size for size in family.sizes}
        assert sizes <= (inches if family.units == "us" else metric), name
        assert all(1 <= len(size.embedments) <= 4 for size in family.sizes)


def test_a_screw_is_stripped_by_turning_on():
    """Common practice, no source: every screw says not to turn on after its head is seated, and why."""
    for name in LARGE_SCREWS | (SMALL_SCREWS - {"ceiling-screw-eye-zinc"}) | EN_SCREW:
        assert any("turn on" in each and "strips" in each for each in FAMILIES[name].setting.do_not), name


def test_every_drilled_hole_is_cleaned():
    """Common practice, no source."""
    for name, family in FAMILIES.items():
        assert bool(family.setting.cleaning) == (family.setting.drilling != "none"), name
