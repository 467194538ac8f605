"""Combinations of EN 1990 against expression (6.10), read here anew.

EN 1990:2002, 6.4.3.2: gamma_G G + gamma_Q,1 Q_1 + the sum of gamma_Q,i psi_0,i Q_i. Tables A1.2(B) and A1.1 of the
recommended values, from memory: gamma_G 1.35 or 1.0, gamma_Q 1.5 or 0; psi_0 of snow 0.7 above 1000 m, of wind 0.6, of
temperature 0.6, of roofs of category H 0; imposed load on a roof not with snow or wind (EN 1991-1-1, 3.3.2, from
memory). That contents, test fluid and live load accompany in full, psi_0 1.0, is a reading of this project.

6.4.3.4, (6.12b): G + A_Ed + the sum of psi_2,i Q_i. psi_2 of table A1.1, from memory: 0.3 to 0.8 by the category of
imposed load, 0.8 taken of the one that isn't known; snow 0.2 above 1000 m; wind, temperature and category H 0. That
contents accompany in full is a reading of this project.
"""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from core.builders import SERVICE_LOADS
from core.hang_point.verdicts import checked, found_on
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.loads.combinations import (
    ALLOWABLE_CASES,
    CASES,
    EN_ALWAYS,
    EN_FROM,
    EVERYTHING,
    GIVEN,
    IN_FIRE,
    SERVICE_FROM,
    TRANSIENT,
    Present,
    acting,
    allowable_factors,
    cases_of,
    factors,
    lay_out,
)
from hangpoint.core.vocabulary import Finding, Mode

CARRIED = ("live", *TRANSIENT, "earthquake", "sprinkler", "emptied")
PSI_0 = {"contents": 1.0, "live": 1.0, "snow": 0.7, "wind": 0.6, "thermal": 0.6, "roof_live": 0.0}
EN = replace(SERVICE_LOADS, load_standard="en1990")

ALONE = ["1.35G+1.5C", "1.0G+1.5C"]
"""Dead load and contents."""
PLAIN = ("1.35G+1.5C", "1.35G+1.5C+1.5L", "1.0G+1.5C", "1.0G+1.5C+1.5L")


def both_senses(name):
    return [name, f"{name}, earthquake reversed"]


LISTED = {
    (): ALONE,
    ("live",): [*ALONE, "1.35G+1.5C+1.5L", "1.0G+1.5C+1.5L"],
    ("wind",): [*ALONE, "1.35G+1.5C+1.5W", "1.0G+1.5C+1.5W"],
    ("snow", "wind"): [
        *ALONE,
        "1.35G+1.5C+1.5S",
        "1.35G+1.5C+1.5W",
        "1.35G+1.5C+1.5S+0.9W",
        "1.35G+1.5C+1.5W+1.05S",
        "1.0G+1.5C+1.5S",
        "1.0G+1.5C+1.5W",
        "1.0G+1.5C+1.5S+0.9W",
        "1.0G+1.5C+1.5W+1.05S",
    ],
    ("live", "thermal"): [
        *ALONE,
        "1.35G+1.5C+1.5L",
        "1.35G+1.5C+1.5T",
        "1.35G+1.5C+1.5L+1.5T",
        "1.0G+1.5C+1.5L",
        "1.0G+1.5C+1.5T",
        "1.0G+1.5C+1.5L+1.5T",
    ],
    ("roof_live", "snow", "thermal"): [
        *ALONE,
        *(
            f"{dead}G+1.5C+{others}"
            for dead in ("1.35", "1.0")
            for others in ("1.5Lr", "1.5S", "1.5T", "1.5Lr+0.9T", "1.5S+0.9T", "1.5T+1.05S")
        ),
    ],
    ("test",): [*ALONE, "1.35G with the test fluid", "1.0G with the test fluid"],
    ("emptied",): [*ALONE, "1.35G without contents"],
    ("emptied", "wind"): [
        *ALONE,
        "1.35G+1.5C+1.5W",
        "1.0G+1.5C+1.5W",
        "1.35G without contents",
        "1.35G+1.5W without contents",
        "1.0G+1.5W without contents",
    ],
    ("earthquake", "wind"): [*ALONE, "1.35G+1.5C+1.5W", "1.0G+1.5C+1.5W", *both_senses("1.0G+1.0C+AEd")],
    ("earthquake", "emptied"): [
        *ALONE,
        "1.35G without contents",
        *both_senses("1.0G+1.0C+AEd"),
        *(f"{name} without contents" for name in both_senses("1.0G+AEd")),
    ],
    ("earthquake", "live", "snow"): [
        *(f"{dead}G+1.5C{live}{snow}" for dead in ("1.35", "1.0") for live in ("", "+1.5L") for snow in ("", "+1.5S")),
        *(name for psi in ("", "+0.8L", "+0.2S", "+0.8L+0.2S") for name in both_senses(f"1.0G+1.0C+AEd{psi}")),
    ],
    ("earthquake", "thermal", "roof_live"): [
        *ALONE,
        *(f"{dead}G+1.5C+{own}" for dead in ("1.35", "1.0") for own in ("1.5T", "1.5Lr", "1.5Lr+0.9T")),
        *both_senses("1.0G+1.0C+AEd"),
    ],
    ("sprinkler_rule",): ALONE,
    ("sprinkler",): [*ALONE, "1.35G+1.5C+1.5L", "1.0G+1.5C+1.5L"],
}
"""Written from (6.10) and (6.12b) by hand, by what a point carries."""


def bits_of(*carried, service=False):
    columns = {name: np.array([name in carried]) for name in CARRIED}
    return int(Present(**columns, service=np.array([service])).bits()[0])


@pytest.mark.parametrize("carried", LISTED, ids="+".join)
def test_a_point_has_the_cases_of_what_it_carries(carried):
    found = [CASES[index].name for index in cases_of(bits_of(*carried), "en1990")]
    assert sorted(found) == sorted(LISTED[carried])
    assert found[0] == "1.35G+1.5C"


def products(natures, *, loose, characteristic):
    """Factors of every choice of natures and leader: all of (6.10), or of (6.14b) with every factor 1."""
    gamma_q = 1.0 if characteristic else 1.5
    for count in range(len(natures) + 1):
        for there in itertools.combinations(natures, count):
            if "roof_live" in there and {"snow", "wind"} & set(there):
                continue
            if not set(natures) - set(loose) <= set(there):
                continue
            for gamma_g in (1.0,) if characteristic else (1.35, 1.0) if there else (1.35,):
                for leading in there or (None,):
                    share = {name: gamma_q * (1.0 if name == leading else PSI_0[name]) for name in there}
                    yield {"dead": gamma_g, **share}


def totals(cases, gamma, loads):
    """Sum of all loads in each case by the tabulated factors."""
    transient = np.array([loads.get(name, 0.0) for name in TRANSIENT])
    return (
        gamma.dead * loads["dead"]
        + gamma.contents * loads["contents"]
        + gamma.live * loads.get("live", 0.0)
        + gamma.transient @ transient
    )


@pytest.mark.parametrize("emptied", [False, True])
def test_largest_and_smallest_of_random_loads(emptied):
    """Loads of either sign in every set of natures: every set of them, each leading, written out from (6.10)."""
    rng = np.random.default_rng(1990)
    others = ("live", "snow", "wind", "thermal", "roof_live")
    for count in range(len(others) + 1):
        for own in itertools.combinations(others, count):
            carried = (*own, "emptied") if emptied else own
            _, case = lay_out(np.array([bits_of(*carried)]), "en1990")
            natures = ("contents", *own)
            every = list(products(natures, loose=natures if emptied else own, characteristic=False))
            for _ in range(30):
                loads = {name: rng.uniform(-300, 300) for name in ("dead", *natures)}
                expected = [sum(factor * loads[name] for name, factor in each.items()) for each in every]
                found = totals(case, factors(case), loads)
                assert found.max() == pytest.approx(max(expected), rel=1e-12, abs=1e-12)
                assert found.min() == pytest.approx(min(expected), rel=1e-12, abs=1e-12)


def test_largest_of_characteristic_combinations():
    """(6.14b), 6.5.3: G + Q_1 + the sum of psi_0,i Q_i; what a rod carries of loads that pull."""
    rng = np.random.default_rng(614)
    natures = ("contents", "live", "snow", "wind", "thermal", "roof_live")
    case = np.array(cases_of(EVERYTHING, "en1990", allowable=True))
    every = list(products(natures, loose=natures[1:], characteristic=True))
    for _ in range(200):
        loads = {name: rng.uniform(0, 300) for name in ("dead", *natures)}
        expected = [sum(factor * loads[name] for name, factor in each.items()) for each in every]
        found = totals(case, allowable_factors(case), loads)
        assert found.max() == pytest.approx(max(expected), rel=1e-12)


def test_worked_figures():
    """D 240, contents 60, L 250, S 300, W 100 lb: 324+90+375 = 789; + 450 + 90 = 1,329; + 150 + 315 = 1,254."""
    gamma = {case.name: case for case in CASES}
    loads = {"dead": 240.0, "contents": 60.0, "live": 250.0, "snow": 300.0, "wind": 100.0}
    for name, expected in (
        ("1.35G+1.5C+1.5L", 789.0),
        ("1.35G+1.5C+1.5L+1.5S+0.9W", 1_329.0),
        ("1.35G+1.5C+1.5L+1.5W+1.05S", 1_254.0),
    ):
        assert sum(getattr(gamma[name], nature) * load for nature, load in loads.items()) == pytest.approx(expected)


def test_every_case_says_its_factors_and_its_source():
    symbols = {"G": "dead", "C": "contents", "L": "live", "S": "snow", "W": "wind", "T": "thermal", "Lr": "roof_live"}
    for case in CASES[EN_FROM:GIVEN]:
        plain, _, way = case.name.replace(", fire", "").partition(" with")
        stated = plain.removesuffix(", earthquake reversed").split("+")
        own = {symbols[part.lstrip("0123456789.")]: float(part.rstrip("GCLSWTr")) for part in stated if part != "AEd"}
        assert {name: getattr(case, name) for name in symbols.values()} == dict.fromkeys(symbols.values(), 0.0) | own
        assert case.test == (1.5 if way == " the test fluid" else 0.0)
        assert case.emptied == (way == "out contents")
        assert case.fire == ("fire" in case.name)
        if case.earthquake:
            assert case.source == "EN 1990 (6.12b)"
        elif case.fire:
            assert case.source == "EN 1990 (6.11b)"
        else:
            assert case.source == "EN 1990 (6.10)" if not case.test else case.source.endswith("EN 1990 (6.10)")
        assert case.earthquake == ("AEd" in stated)
        assert case.turned == ("reversed" in case.name)
        assert [case.vertical, case.sprinkler_rule, case.given] == [0.0] * 3


FIRE = [
    "1.0G+1.0C",
    "1.0G+1.0C+0.9L",
    "1.0G+1.0C+0.9L+0.2S",
    "1.0G+1.0C+0.5S",
    "1.0G+1.0C+0.5S+0.8L",
    "1.0G+1.0C+0.2W",
    "1.0G+1.0C+0.2W+0.8L",
    "1.0G+1.0C+0.2W+0.2S",
    "1.0G+1.0C+0.2W+0.8L+0.2S",
    "1.0G+1.0C+0.5T",
    "1.0G+1.0C+0.5T+0.8L",
    "1.0G+1.0C+0.5T+0.2S",
    "1.0G+1.0C+0.5T+0.8L+0.2S",
]
"""(6.11b) with psi_1 of what leads, written out by hand; psi_1 and psi_2 of table A1.1 from memory."""


def test_the_cases_of_fire():
    """Only where a fire is to be withstood; each also without contents where these relieve; never with earthquake."""
    own = [CASES[index] for index in cases_of(EVERYTHING | IN_FIRE, "en1990")]
    assert [case.name for case in own if case.fire and not case.emptied] == [f"{name}, fire" for name in FIRE]
    emptied = [case for case in own if case.fire and case.emptied]
    assert [case.full for case in emptied] == [f"{name}, fire" for name in FIRE]
    assert not any(case.fire and case.earthquake for case in own)
    assert not any(CASES[index].fire for index in cases_of(EVERYTHING, "en1990"))
    plain = bits_of() | IN_FIRE
    assert [CASES[index].name for index in cases_of(plain, "en1990")][-1] == "1.0G+1.0C, fire"
    for edition in ("asce7_16", "asce7_22"):
        assert not any(CASES[index].fire for index in cases_of(EVERYTHING | IN_FIRE, edition))


def test_load_standards_are_never_mixed():
    """By EN 1990 a point has cases of (6.10) alone, whatever it carries; by ASCE 7 none of them."""
    for service in (False, True):
        everything = EVERYTHING | IN_FIRE | bits_of(service=service)
        assert set(cases_of(everything, "en1990")) == set(range(EN_FROM, GIVEN))
        for edition in ("asce7_16", "asce7_22"):
            place = cases_of(everything, edition)
            assert all(SERVICE_FROM <= index < EN_FROM if service else index < SERVICE_FROM for index in place)
            assert all(
                ALLOWABLE_CASES[index].edition in ("", edition)
                for index in cases_of(everything, edition, allowable=True)
            )
    assert [CASES[index].name for index in EN_ALWAYS] == [*PLAIN]


@pytest.mark.parametrize(
    ("case", "carried", "expected"),
    [
        ("1.35G+1.5W without contents", (), "1.35G+1.5C+1.5W"),
        ("1.35G+1.5W without contents", ("emptied",), "1.35G+1.5W without contents"),
        ("1.0G+1.5L with the test fluid", (), "1.0G+1.5C+1.5L"),
        ("1.0G+1.5L with the test fluid", ("test",), "1.0G+1.5L with the test fluid"),
        ("1.35G+1.5C+1.5S+0.9W", (), "1.35G+1.5C+1.5S+0.9W"),
        ("1.35G+1.5C+1.5L", ("sprinkler", "sprinkler_rule"), "1.35G+1.5C+1.5L"),
    ],
)
def test_a_neighbour_carries_what_it_has(case, carried, expected):
    name = {each.name: index for index, each in enumerate(CASES)}
    acts = acting(np.array([name[case]]), np.array([bits_of(*carried)]))
    assert CASES[int(acts[0])].name == expected


def transient(**natures):
    made = np.zeros((6, len(TRANSIENT)))
    for name, load in natures.items():
        made[0, TRANSIENT.index(name)] = load
    return made


def demands(verdicts):
    """Factored tension in every case, whether the point is refused or not."""
    return next(section.record.n_ua for section in verdicts.sections if isinstance(section.record, AnchorDemand))


def tensions(**hangs):
    verdicts = checked(basis=EN, hangs=hangs)
    names = [verdicts.case_names[case] for case in verdicts.axis.load_case]
    return dict(zip(names, demands(verdicts).tolist(), strict=True))


def test_a_point_in_every_case_of_its_loads():
    """D 200, contents 100, wind 400 lb, by hand: 270+150 = 420, +600 = 1,020; 200+150 = 350, +600 = 950."""
    found = tensions(dead=200.0, contents=100.0, transient=transient(wind=400.0))
    assert found == pytest.approx(
        {"1.35G+1.5C": 420, "1.35G+1.5C+1.5W": 1_020, "1.0G+1.5C": 350, "1.0G+1.5C+1.5W": 950}
    )


def test_dead_load_that_relieves_is_favourable():
    """D -200 lb pushes, contents 400 lb pull: -200+600 = 400 governs, not -270+600 = 330."""
    assert tensions(dead=-200.0, contents=400.0) == pytest.approx({"1.35G+1.5C": 330, "1.0G+1.5C": 400})


def test_dead_load_that_relieves_live_load_is_no_finding():
    """Shear of dead load -200, of live load 400 lb: -200+600 = 400. ASCE 7 has -240+640 alone, and it is said."""
    hangs = {"dead": 100.0, "v_dead": (-200.0, 0.0), "v_live": (400.0, 0.0)}
    by_asce, by_en = checked(hangs=hangs), checked(basis=EN, hangs=hangs)
    assert by_en.demand.shear[0] == pytest.approx(400)
    assert Finding.DEAD_RELIEVES_LIVE in found_on(by_asce)
    assert Finding.DEAD_RELIEVES_LIVE not in found_on(by_en)


def test_contents_that_relieve_are_absent():
    """D 200 lb, contents -100 lb at a lone anchor: 270 and 200 lb."""
    assert tensions(dead=200.0, contents=-100.0) == pytest.approx({"1.35G+1.5C": 270, "1.0G+1.5C": 200})


def test_earthquake_acts_in_full_beside_what_stays():
    """D 200, L 100, S 50, A_Ed 60 lb of tension, by hand: 260; + 80 = 340; + 10 = 270; both 350. S_DS adds nothing."""
    hangs = {"dead": 200.0, "live": 100.0, "transient": transient(snow=50.0), "earthquake": (60.0, 40.0, 0, 0, 0, 0)}
    for s_ds in (0.0, 0.8):
        found = tensions(**hangs, s_ds=s_ds)
        expected = {"": 260, "+0.8L": 340, "+0.2S": 270, "+0.8L+0.2S": 350}
        shaken = {name: load for name, load in found.items() if "AEd" in name}
        assert shaken == pytest.approx(
            {name: load for psi, load in expected.items() for name in both_senses(f"1.0G+1.0C+AEd{psi}")}
        )
        assert max(found.values()) == pytest.approx(270 + 150 + 75)


def test_earthquake_that_is_stated_to_push_pulls():
    found = tensions(dead=200.0, earthquake=(-60.0, 0, 0, 0, 0, 0))
    assert found["1.0G+1.0C+AEd"] == found["1.0G+1.0C+AEd, earthquake reversed"] == pytest.approx(260)


def test_shear_of_earthquake_in_both_senses():
    """Shear of dead load 30 along x, of A_Ed 50: 80 one way and 20 the other; 1.35 times 30 = 40.5 without, lb."""
    hangs = {"dead": 200.0, "v_dead": (30.0, 0.0), "earthquake": (0, 50.0, 0, 0, 0, 0)}
    verdicts = checked(basis=EN, hangs=hangs)
    names = [verdicts.case_names[case] for case in verdicts.axis.load_case]
    shears = next(own.record.v_ua for own in verdicts.sections if isinstance(own.record, AnchorShear))
    found = dict(zip(names, shears.tolist(), strict=True))
    assert found == pytest.approx(
        {"1.35G+1.5C": 40.5, "1.0G+1.5C": 30, **dict(zip(both_senses("1.0G+1.0C+AEd"), (80, 20), strict=True))}
    )


def test_the_rod_with_earthquake():
    """D 300, contents 80, L 100, A_Ed 200 lb: 380 + 200 + 80 = 660, by hand, not 380 + 100."""
    verdicts = checked(
        basis=EN,
        hangs={"dead": 300.0, "contents": 80.0, "live": 100.0, "earthquake": (200.0, 0, 0, 0, 0, 0)},
        rods={"rule": RULE_NAMES.index("sp58_allowable")},
    )
    mode = next(each for each in verdicts.modes if each.mode is Mode.ROD_ALLOWABLE)
    assert mode.demand[0] == pytest.approx(660)


def test_the_rod_by_characteristic_combinations():
    """D 300, contents 80, S 200, W 100 lb: 380 + 200 + 60 = 640 governs, not 380 + 100 + 140 = 620, by hand."""
    verdicts = checked(
        basis=EN,
        hangs={"dead": 300.0, "contents": 80.0, "transient": transient(snow=200.0, wind=100.0)},
        rods={"rule": RULE_NAMES.index("sp58_allowable")},
    )
    mode = next(each for each in verdicts.modes if each.mode is Mode.ROD_ALLOWABLE)
    assert mode.demand[0] == pytest.approx(640)


def test_largest_tension_of_random_points():
    """A lone anchor with loads of either sign, any of which but dead load may be absent: the largest of (6.10)."""
    rng = np.random.default_rng(610)
    natures = ("contents", "live", "snow", "wind", "thermal", "roof_live")
    every = list(products(natures, loose=natures, characteristic=False))
    pulled = 0
    for _ in range(60):
        loads = {name: rng.uniform(-200, 400) * (rng.random() < 0.7) for name in ("dead", *natures)}
        expected = max(sum(factor * loads[name] for name, factor in each.items()) for each in every)
        own = {name: loads[name] for name in ("dead", "contents", "live")}
        others = transient(**{name: loads[name] for name in natures[2:]})
        found = demands(checked(basis=EN, hangs={**own, "transient": others}))
        if expected > 0:
            pulled += 1
            assert found.max() == pytest.approx(expected, rel=1e-12)
    assert pulled > 40
