"""Component seismic force: columns of either edition, braces, and what is refused. Buildings are invented.

Coefficients of ASCE 7-16 table 13.6-1 from memory: ductile piping with threaded joints 2.5, 4.5, 2; air handlers 2.5,
6, 2; pumps 1, 2.5, 2.
"""

import pytest

from pack.hanger_items.builders import (
    BRACE,
    EQUIPMENT,
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
    trapeze_of,
    unchecked,
)

GONE = object()
NEWER = {"coefficients": {"c_ar": 1.4, "r_po": 1.5, "omega_0p": 1.75}}


def shaken(item=RUN, seismic=SEISMIC, **changes):
    return item | {"seismic": {key: value for key, value in (seismic | changes).items() if value is not GONE}}


def newer(item=RUN, **changes):
    return shaken(item, SEISMIC | NEWER, component=GONE, **changes)


def test_by_the_older_edition():
    items = [
        shaken(category="D", i_p=1.5, bending_free=True, isolator_gap=0.26),
        RISER,
        shaken(EQUIPMENT, component="pump", z=10.0, h=20.0),
        shaken(component=GONE, coefficients={"a_p": 1.1, "r_p": 3.3, "omega_0": 1.2}),
    ]
    seismic = columns(*items).seismic
    assert seismic.item.tolist() == [0, 2, 3]
    assert not seismic.newer.any()
    close(seismic.s_ds, 0.5, 0.5, 0.5)
    close(seismic.i_p, 1.5, 1, 1)
    close(seismic.a_p, 2.5, 1, 1.1)
    close(seismic.r_p, 4.5, 2.5, 3.3)
    close(seismic.omega_0, 2, 2, 1.2)
    close([seismic.c_ar, seismic.r_po, seismic.omega_0p], [1, 1, 1], [1, 1, 1], [1, 1, 1])
    close(seismic.z, 30, 10, 30)
    close(seismic.h, 60, 20, 60)
    assert seismic.isolator_gap.tolist() == [True, False, False]
    assert seismic.bending_free.tolist() == [True, False, False]
    assert seismic.category.tolist() == [3, -1, -1]
    found = assumed(*items)
    assert ["component-coefficients-from-memory" in each for each in found] == [True, False, True, False]


def test_by_the_newer_edition():
    building = {"period": 0.7, "r": 8.0, "i_e": 1.25, "omega_0": 3.0}
    items = [newer(building=building, z=9.0, h=18.0), newer(), newer(at_grade=True, z=GONE, h=GONE)]
    seismic = columns(*items, standard="asce7_22", system="si").seismic
    assert seismic.newer.all()
    close(seismic.c_ar, 1.4, 1.4, 1.4)
    close(seismic.r_po, 1.5, 1.5, 1.5)
    close(seismic.omega_0p, 1.75, 1.75, 1.75)
    close([seismic.a_p, seismic.r_p, seismic.omega_0], [1, 1, 1], [1, 1, 1], [1, 1, 1])
    close(seismic.z, 9 * M, 30 * M, 0)
    close([seismic.h[0], seismic.h[1]], 18 * M, 60 * M)
    assert seismic.at_grade.tolist() == [False, False, True]
    assert seismic.period_known.tolist() == seismic.system_known.tolist() == [True, False, False]
    close(seismic.t_a, 0.7, 1, 1)
    close(seismic.r, 8, 1, 1)
    close(seismic.i_e, 1.25, 1, 1)
    close(seismic.omega_building, 3, 1, 1)
    found = assumed(*items, standard="asce7_22")
    assert ["building-unknown" in each for each in found] == [False, True, False]
    assert "building-unknown" not in assumed(shaken())[0]


def test_isolators_up_to_a_quarter_of_an_inch():
    gaps = columns(shaken(isolator_gap="6.35 mm"), shaken(isolator_gap="6.4 mm"), shaken()).seismic.isolator_gap
    assert gaps.tolist() == [False, True, False]


def test_braces():
    items = [
        shaken(brace=BRACE),
        shaken(TRAPEZE, brace=BRACE | {"angle_from": "horizontal", "direction": "along"}),
        shaken(EQUIPMENT, brace={"angle": 45, "angle_from": "vertical", "number": 4}),
        shaken(RISER, brace={"angle": 45, "angle_from": "vertical"}),
        shaken(RISER, brace=BRACE),
        shaken(),
        EQUIPMENT,
    ]
    seismic = columns(*items).seismic
    assert seismic.braced.tolist() == [True] * 5 + [False]
    close(seismic.theta_v, 40, 50, 45, 45, 40, 45)
    close(seismic.l_brace, 30, 30, 1, 40, 30, 1)
    close(seismic.braces, 1, 1, 4, 1, 1, 1)
    assert seismic.along.tolist() == [0, 1, 0, 0, 0, 0]
    left, found = unchecked(*items), assumed(*items)
    assert ["unbraced" in each for each in left] == [False] * 5 + [True, False]
    assert ["earthquake" in each for each in left] == [False] * 6 + [True]
    assert ["rod-buckling" in each for each in left] == [True] * 5 + [False, False]
    for code in ("brace-at-any-hanger", "earthquake-reverses"):
        assert [code in each for each in found] == [True] * 5 + [False, False]


def test_a_default_brace_serves_lines_and_equipment():
    brace = {"angle": 45, "angle_from": "vertical", "spacing": 40, "number": 4}
    seismic = columns(RUN, EQUIPMENT, default={"seismic": SEISMIC | {"brace": brace}}).seismic
    close(seismic.braces, 1, 4)
    close(seismic.l_brace, 40, 1)


def test_a_component_of_its_own_takes_no_coefficients_from_the_defaults():
    default = {"seismic": SEISMIC | {"coefficients": {"a_p": 1.0, "r_p": 20.0, "omega_0": 1.0}}}
    own = RUN | {"seismic": {"component": "air_side"}}
    close(columns(RUN, own, default=default).seismic.r_p, 20, 6)
    _, flaws = packed_with_flaws(RUN, own, default={"seismic": SEISMIC | NEWER}, standard="asce7_22")
    assert [(row, flaw.path, flaw.code) for row, [flaw] in flaws.items()] == [(1, "seismic/coefficients", "missing")]


def test_isolated_equipment_has_the_coefficients_of_an_isolated_component():
    """Of springs a_p / R_p is 2.5 / 2.0; what is stated goes before any name."""
    stated = {"coefficients": {"a_p": 2.5, "r_p": 2.5, "omega_0": 2.0}}
    springs = shaken(ISOLATED, component="spring_isolated", **GAP)
    items = [springs, shaken(ISOLATED, component="pump", **GAP, **stated)]
    seismic = columns(*items).seismic
    close(seismic.a_p, 2.5, 2.5)
    close(seismic.r_p, 2.0, 2.5)
    assert only_flaw(shaken(ISOLATED, component="pump", **GAP)).allowed == ("spring_isolated", "isolated_in_line")


def test_a_component_that_is_isolated_by_name_needs_its_gap_by_either_edition():
    """Both tables double the force above 1/4 in; coefficients that are stated do not say how wide the gap is."""
    seismic = SEISMIC | {"component": "isolated_in_line"}
    for standard, stated in (
        ("asce7_16", {"coefficients": {"a_p": 2.5, "r_p": 2.5, "omega_0": 2.0}}),
        ("asce7_22", NEWER),
    ):
        silent = TRAPEZE | {"seismic": seismic | stated}
        _, flaws = packed_with_flaws(silent, TRAPEZE | {"seismic": seismic | stated | GAP}, standard=standard)
        assert [(row, flaw.path, flaw.code) for row, [flaw] in flaws.items()] == [
            (0, "seismic/isolator_gap", "missing")
        ]


ISOLATED = EQUIPMENT | {"isolated": True}
GAP = {"isolator_gap": 0.125}
MISSING = ("validation", "missing")
CONTRADICTION = ("validation", "contradiction")
LOOSE = {"angle": 45, "angle_from": "vertical"}
FLAWS = [
    (shaken(i_p=GONE), "i_p", *MISSING),
    (shaken(z=GONE), "z", *MISSING),
    (shaken(h=GONE), "h", *MISSING),
    (shaken(h=0), "h", "quantity", "quantity"),
    (shaken(z="20000 ft"), "z", "quantity", "quantity"),
    (shaken(at_grade=True), "z", *CONTRADICTION),
    (shaken(component=GONE), "component", *MISSING),
    (shaken(component=GONE, coefficients={"a_p": 1.0, "r_p": 2.5}), "coefficients/omega_0", *MISSING),
    (shaken(component=GONE, **NEWER), "coefficients", *CONTRADICTION),
    (shaken(**NEWER), "coefficients", *CONTRADICTION),
    (shaken(isolator_gap=1e-4), "isolator_gap", "quantity", "quantity"),
    (shaken(ISOLATED, component="spring_isolated"), "isolator_gap", *MISSING),
    (shaken(component="spring_isolated"), "isolator_gap", *MISSING),
    (shaken(EQUIPMENT, component="isolated_in_line"), "isolator_gap", *MISSING),
    (shaken(ISOLATED, component="pump", **GAP), "component", *CONTRADICTION),
    (shaken(brace=LOOSE), "brace/spacing", *MISSING),
    (shaken(TRAPEZE, brace=LOOSE), "brace/spacing", *MISSING),
    (shaken(EQUIPMENT, brace=LOOSE), "brace/number", *MISSING),
    (shaken(EQUIPMENT, brace=LOOSE | {"number": 2, "spacing": 9}), "brace/spacing", *CONTRADICTION),
    # Of 8 braces at 4 rods two pull and push one rod together, by F_p / 4 and not by F_p / 8.
    (shaken(EQUIPMENT, brace=LOOSE | {"number": 8}), "brace/number", *CONTRADICTION),
    (shaken(brace=BRACE | {"number": 2}), "brace/number", *CONTRADICTION),
    (shaken(brace=BRACE | {"spacing": 0}), "brace/spacing", "quantity", "quantity"),
    (shaken(building={"r": 8.0, "i_e": 1.0}), "building/omega_0", *MISSING),
    (RUN | {"seismic": {"brace": BRACE, "i_p": 1.0}}, "s_ds", *MISSING),
]


@pytest.mark.parametrize(("item", "place", "slug", "code"), FLAWS)
def test_a_flaw_of_the_seismic_force(item, place, slug, code):
    assert flaws_of(item) == [(f"seismic/{place}", slug, code)]


def test_a_trapeze_without_lines_has_no_seismic_force():
    assert flaws_of(shaken(trapeze_of())) == [("tiers", "validation", "missing")]


def test_the_newer_edition_needs_its_coefficients_stated():
    flaw = only_flaw(shaken(), standard="asce7_22")
    assert (flaw.path, flaw.code) == ("seismic/coefficients", "missing")
    assert flaw.allowed == ("c_ar", "r_po", "omega_0p")
    assert "stated" in flaw.detail
    assert "pump" in only_flaw(shaken(component=GONE)).allowed


def test_a_category_alone_is_no_force():
    packed = pack(RUN | {"seismic": {"category": "B", "bending_free": True}})
    assert len(packed.items.seismic.item) == 0
    assert "earthquake" in packed.not_checked.codes(packed.not_checked.of_point(0))


@pytest.mark.parametrize(
    ("item", "stated", "told"),
    [
        (shaken(), False, True),
        (shaken(), True, False),
        (RUN, False, False),
        (RUN | {"given": [{"hanger": 0, "nature": "snow", "tension": 1}]}, False, True),
        (RUN | {"given": [{"hanger": 0, "nature": "wind", "tension": 1}]}, False, False),
    ],
)
def test_an_edition_that_matters_and_is_not_named_is_told(item, stated, told):
    assert ["load-standard-defaulted" in each for each in assumed(RISER, item, standard_stated=stated)] == [False, told]


def test_given_earthquake_reverses():
    item = shaken() | {"given": [{"hanger": 0, "nature": "earthquake", "tension": 1}]}
    assert ["earthquake-reverses" in each for each in assumed(shaken(), item)] == [False, True]
