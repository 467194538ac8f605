"""Whole requests by EN 1992-4 with earthquake against own scalar code, and by hand. All points are invented.

`core.en1992_4.hang_points` combines the loads by (6.12b) of EN 1990 and says what is expected; nothing of it comes from
the service. No published example of clause 9 or annex C is known: what both share of memory and of reading, they don't
check in each other.
"""

import math
import random
from collections import Counter

import pytest

from api.en_bodies import EN, NONE, WEDGE, en_item
from api.test_en1992_4 import OF_SHEAR, accuracy, drawn, violations
from core.en1992_4.hang_points import SHAKEN_MODES, expected, seismic_columns, seismic_data, worst

COUNT = 600
ELASTIC = {"design_option": "elastic_design", "performance_category": "C1"}
EN_SEISMIC = "en_seismic_interaction"


# Against the scalar code


def shaken(rng, at):
    """A point of the static test with an earthquake load, a product that is qualified, and how its gap is."""
    item, point = drawn(rng, at)
    own = item["anchor"]["product"]
    own["embedment"]["en"] |= seismic_data(rng, own)
    category = rng.choice([name for name in ("c1", "c2") if name in own["embedment"]["en"]])
    gap_filled = rng.random() < 0.4
    size = rng.choice([0.5, 2.0, 6.0]) * (own["embedment"]["h_ef"] / 80) ** 1.5
    quake = {"nature": "earthquake", "tension": round(size * rng.uniform(-0.3, 1.0), 3)}
    free = (item.get("attachment") or {}).get("plate", {}).get("support") == "free"
    if not free and rng.random() < 0.8:
        quake |= {f"shear_{axis}": round(size * rng.uniform(-1.0, 1.0), 3) for axis in "xy"}
    if point["form"] == "rectangle" and len(point["anchors"]) == 4 and rng.random() < 0.5:
        quake["moment_x"] = round(rng.uniform(-0.2, 0.2) * point["spacing"] / 1000, 5)
    if point["form"] == "single":
        _without_relief(point["components"])
    point["components"].append(quake)
    point["seismic"] = seismic_columns(own, category=category, gap_filled=gap_filled, condition=point["condition"])
    item["seismic"] = {"design_option": rng.choice(["elastic_design", "capacity_design"])}
    if category == "c1" or rng.random() < 0.5:
        item["seismic"]["performance_category"] = category.upper()
    item.setdefault("attachment", {})["annular_gap"] = "filled" if gap_filled else "open"
    return item, point


def _without_relief(components):
    """No shear of contents: of a lone fastener it counts along each axis as it is worse there, full or empty."""
    for own in components:
        if own["nature"] == "contents":
            for name in OF_SHEAR:
                own.pop(name, None)


@pytest.fixture(scope="module")
def made():
    rng = random.Random(19925)
    return [shaken(rng, at) for at in range(COUNT)]


@pytest.fixture(scope="module")
def answers(made, send):
    body = {"units": "si", "design_code": "en1992_4", "detail": "modes", "neighbours": "off"}
    return send({**body, "items": [item for item, _ in made]}, status=200)["items"]


@pytest.fixture(scope="module")
def wanted(made):
    return [None if point["refused"] else expected(point) for _, point in made]


def test_every_mode(made, answers, wanted):
    """Utilisation of the worst row of all load cases, static and of earthquake; strength and demand of such a row."""
    compared, of_earthquake = Counter(), Counter()
    for (item, point), answer, theirs in zip(made, answers, wanted, strict=True):
        if point["refused"]:
            assert answer["reason"]["code"] == "no-splitting-data"
        if theirs is None:
            continue
        close = accuracy(point)
        unsaid = set() if point["columns"]["bonded"] else {"en_combined_failure"}
        said = {mode["mode"] for mode in answer["modes"] if mode["mode"].startswith("en_")} | {"en_steel_lever_arm"}
        assert said == set(SHAKEN_MODES) - unsaid
        for mode in answer["modes"]:
            if not mode["mode"].startswith("en_"):
                continue
            rows, told = theirs[mode["mode"]], (item, mode)
            most = worst(rows)
            if most is None:
                assert mode.get("utilisation", 0.0) == 0.0, told
                continue
            assert mode["utilisation"] == pytest.approx(most[1] / most[0], rel=close), told
            unit = 1.0 if "interaction" in mode["mode"] else 1000.0
            row = (mode["design_strength"] * unit, mode["demand"] * unit)
            assert any(row == pytest.approx(own, rel=close) for own in rows), told
            compared[mode["mode"]] += 1
            of_earthquake[mode["mode"]] += "AEd" in mode["load_case"]
    assert set(compared) == set(SHAKEN_MODES) - {"en_steel_lever_arm"}
    assert min(compared.values()) >= 15, compared
    shaken_only = {name: number for name, number in of_earthquake.items() if number == compared[name]}
    assert set(shaken_only) == {EN_SEISMIC}
    assert min(number for name, number in of_earthquake.items() if name not in OF_STATIC) >= 10, of_earthquake


OF_STATIC = {"en_steel_interaction", "en_concrete_interaction"}


def test_the_verdict(made, answers, wanted):
    statuses, governs = Counter(), Counter()
    for (item, point), answer, theirs in zip(made, answers, wanted, strict=True):
        if point["refused"]:
            continue
        against = {own["code"] for own in answer["findings"] if own["severity"] == "violation"}
        assert against == violations(point, theirs), item
        if theirs is None:
            continue
        used = {name: max((d / s for s, d in rows), default=0.0) for name, rows in theirs.items()}
        most = max(used.values())
        assert answer["governing"]["utilisation"] == pytest.approx(most, rel=accuracy(point))
        assert used[answer["governing"]["mode"]] == pytest.approx(most, rel=accuracy(point)), item
        assert answer["status"] == ("failed" if most > 1 or against else "passed"), item
        statuses[answer["status"]] += 1
        governs["AEd" in answer["governing"]["load_case"]] += 1
    assert min(statuses["passed"], statuses["failed"]) > 60, statuses
    assert min(governs.values()) > 60, governs


def test_what_is_said_of_every_point(made, answers):
    said = Counter()
    for (item, _), answer in zip(made, answers, strict=True):
        if answer["status"] == "refused" or "governing" not in answer:
            continue
        codes = {own["code"] for own in answer["findings"]}
        stated = item["seismic"].get("performance_category")
        c2 = stated != "C1"
        assert ("performance-category-c2-taken" in codes) == (stated is None)
        assert ("displacement-not-checked" in codes) == c2
        option = item["seismic"]["design_option"]
        assert f"seismic-{option.replace('_', '-')}" in codes
        assert ("cracked-under-earthquake" in codes) == (item["base"]["state"] == "uncracked")
        assert "en1992-4-earthquake" in answer["assumptions"]
        assert "seismic-design-european" in {own["code"] for own in answer["to_engineer"]}
        assert "annular-gap-assumed" not in answer["assumptions"]
        said[stated] += 1
    assert min(said[name] for name in (None, "C1", "C2")) > 40, said


# By hand


@pytest.fixture(scope="module")
def ask(send):
    def of(*items, **top):
        results = send({**EN, "detail": "modes", "items": list(items), **top}, status=200)["items"]
        return results[0] if len(items) == 1 else results

    return of


def point(*, dead=(2.0, 0.0), quake=(1.0, 1.0), seismic=ELASTIC, **changes):
    """M12 in cracked C25/30, far from all edges: tension and shear along x of dead load and of A_Ed, kN."""
    loads = [
        {"nature": nature, "tension": tension, "shear_x": shear}
        for nature, (tension, shear) in (("dead", dead), ("earthquake", quake))
        if tension or shear
    ]
    stated = {"hangs": {"kind": "forces", "components": loads}, "base__edges": NONE, "base__bar_spacing": "wide"}
    return en_item(**{**stated, **({"seismic": seismic} if seismic else {}), **changes})


def strengths(result):
    return {mode["mode"]: mode["design_strength"] for mode in result["modes"] if mode["applies"]}


def used(result):
    return {mode["mode"]: mode["utilisation"] for mode in result["modes"] if mode["applies"]}


CONE = 7.7 * math.sqrt(25) * 65**1.5 / 1000
"""N0_Rk,c of the M12, h_ef 65 mm: 20.18 kN; bars are wide apart."""


def test_a_single_fastener(ask):
    """A_Ed 1 kN of tension beside 2 kN of dead load, 1 kN of shear. The data say, in C1: N_Rk,s,eq 41, N_Rk,p,eq 11.5,
    V0_Rk,s,eq 17.5 kN; gamma_Ms 1.5 and 1.25, gamma_inst 1.0, k_8 2.

    Tension 2 + 1 = 3 kN, static 2.7 kN. Steel 41 / 1.5 = 27.33. Pull-out 11.5 / 1.5 = 7.667: 0.391; static it is
    13.5 sqrt(1.25) / 1.5 = 10.06. Cone 0.85 x 20.18 / 1.5 = 11.43. Shear 1 kN: steel 0.5 x 17.5 / 1.25 = 7.0: 0.143;
    pry-out 0.5 x 0.85 x 2 x 20.18 / 1.5 = 11.43. Together 0.391 + 0.143 = 0.534.
    """
    result = ask(point())
    assert strengths(result) == pytest.approx(
        {
            "en_steel_tension": 41 / 1.5,
            "en_pull_out": 11.5 / 1.5,
            "en_concrete_cone": 0.85 * CONE / 1.5,
            "en_steel_shear": 0.5 * 17.5 / 1.25,
            "en_pry_out": 0.5 * 0.85 * 2 * CONE / 1.5,
            EN_SEISMIC: 1.0,
        }
    )
    assert result["governing"]["mode"] == EN_SEISMIC
    assert result["governing"]["load_case"] == "1.0G+1.0C+AEd"
    assert result["governing"]["utilisation"] == pytest.approx(3 / (11.5 / 1.5) + 1 / 7.0)
    assert result["status"] == "passed"
    reasons = {mode["mode"]: mode["reason"] for mode in result["modes"] if not mode["applies"]}
    assert reasons["en_steel_interaction"] == reasons["en_concrete_interaction"] == "together-by-earthquake"


def test_a_group_and_a_filled_gap(ask):
    """Two 100 mm apart, each half of the load: alpha_eq 0.85 of pull-out and of steel in shear, 0.75 of the cone, whose
    area is that of both, 195 by 295 mm of 195 squared. With the gap filled shear is twice what it was.

    Pull-out 0.85 x 11.5 / 1.5 = 6.517 for 1.5 kN; steel in shear 0.85 x 17.5 / 1.25 = 11.9 for 0.5 kN.
    """
    pair = [{"x": -50, "y": 0}, {"x": 50, "y": 0}]
    open_gap, filled = (
        strengths(ask(point(anchor__layout=pair, **more))) for more in ({}, {"attachment": {"annular_gap": "filled"}})
    )
    assert open_gap["en_pull_out"] == pytest.approx(0.85 * 11.5 / 1.5)
    assert open_gap["en_concrete_cone"] == pytest.approx(0.75 * CONE * 295 / 195 / 1.5)
    for mode, strength in (
        ("en_steel_shear", 0.85 * 17.5 / 1.25),
        ("en_pry_out", 0.75 * 2 * CONE * 295 / 195 / 1.5),
    ):
        assert filled[mode] == pytest.approx(strength), mode
        assert open_gap[mode] == pytest.approx(strength / 2), mode


@pytest.mark.parametrize(
    ("anchor", "factor", "k"),
    [
        ({"family": "en-undercut-zinc", "size": "M12", "h_ef": 110}, 1.0, 8.9),
        ({"family": "en-headed-stud", "size": "16", "h_ef": 125}, 1.0, 8.9),
        ({"family": "en-screw-zinc", "size": "12", "h_ef": 80}, 0.85, 7.7),
    ],
    ids=["undercut", "headed", "screw"],
)
def test_cones_of_heads_and_undercuts(ask, anchor, factor, k):
    """Table C.3, single: 1.0 of headed fasteners and of undercut ones with the k_1 of headed ones, 0.85 of others."""
    result = ask(point(anchor=anchor, quake=(20.0, 0.0)))
    assert strengths(result)["en_concrete_cone"] == pytest.approx(factor * k * 5 * anchor["h_ef"] ** 1.5 / 1.5e3)


def test_the_pull_out_of_a_head(ask):
    """7.5 A_h f_ck of (7.11) in cracked concrete, alpha_eq 1.0 and for two 0.85, also where it is stated uncracked."""
    uncracked = {"base__state": "uncracked", "base__state_decided_by": "engineer"}
    stud = {"family": "en-headed-stud", "size": "16", "h_ef": 125}
    whole = 7.5 * 603.2 * 25 / 1.5e3
    assert strengths(ask(point(anchor=stud, quake=(9.0, 0.0), **uncracked)))["en_pull_out"] == pytest.approx(whole)
    both = {**stud, "layout": [{"x": 0, "y": 0}, {"x": 150, "y": 0}]}
    at = {"x": 75, "y": 0}
    result = ask(point(anchor=both, quake=(9.0, 0.0), hangs__at=at))
    assert strengths(result)["en_pull_out"] == pytest.approx(0.85 * whole)


def test_either_way_towards_an_edge(ask):
    """0.4 kN of dead load along +x, A_Ed 1 kN either way: 1.4 to +x; with the edge on the other side 0.6 to -x."""
    for side, demand, case in (
        ("x_plus", 1.4, "1.0G+1.0C+AEd"),
        ("x_minus", 0.6, "1.0G+1.0C+AEd, earthquake reversed"),
    ):
        for sense in (1.0, -1.0):
            edges = {**NONE, side: 150}
            result = ask(point(dead=(2.0, 0.4), quake=(0.0, sense), base__edges=edges))
            edge = next(mode for mode in result["modes"] if mode["mode"] == "en_concrete_edge")
            assert (edge["demand"], edge["edge"]) == (pytest.approx(demand), side)
            assert edge["load_case"] == (case if sense > 0 else swapped(case))


def swapped(case):
    return case.removesuffix(", earthquake reversed") if "reversed" in case else f"{case}, earthquake reversed"


def test_static_cases_stay_static(ask):
    """6 kN of dead load, 0.1 kN of A_Ed: 8.1 / (13.5 sqrt(1.25) / 1.5) = 0.805, under earthquake 6.1 / 7.667 = 0.796;
    with 0.3 kN 6.3 / 7.667 = 0.822.
    """
    result = ask(point(dead=(6.0, 0.0), quake=(0.1, 0.0)))
    assert result["governing"]["load_case"] == "1.35G+1.5C"
    assert result["governing"]["mode"] == "en_pull_out"
    assert result["governing"]["utilisation"] == pytest.approx(8.1 * 1.5 / (13.5 * math.sqrt(1.25)))
    more = ask(point(dead=(6.0, 0.0), quake=(0.3, 0.0)))
    assert more["governing"]["load_case"] == "1.0G+1.0C+AEd"
    assert more["governing"]["utilisation"] == pytest.approx(6.3 * 1.5 / 11.5)


def test_what_accompanies_earthquake(ask):
    """Live load 1 kN by 0.8, snow 2 kN by 0.2, no wind: 2 + 4 + 0.8 + 0.4 = 7.2 kN in the pull-out, 7.2 / 7.667."""
    loads = [("dead", 2.0), ("live", 1.0), ("snow", 2.0), ("wind", 0.1), ("earthquake", 4.0)]
    stated = {"kind": "forces", "components": [{"nature": nature, "tension": own} for nature, own in loads]}
    pulled = next(mode for mode in ask(point(hangs=stated))["modes"] if mode["mode"] == "en_pull_out")
    assert pulled["load_case"] == "1.0G+1.0C+AEd+0.8L+0.2S"
    assert (pulled["demand"], pulled["design_strength"]) == pytest.approx((7.2, 11.5 / 1.5))


def test_factored_loads_with_their_share(ask):
    """3 kN of tension, a third of it earthquake, as given: 3 / 7.667 in cracked concrete, though stated uncracked."""
    stated = {"kind": "forces", "components": [{"nature": "dead", "tension": 3.0}], "sustained_fraction": 0.5}
    given = {"combinations": "given_factored"}
    uncracked = {"base__state": "uncracked", "base__state_decided_by": "engineer"}
    shaken_one, still = (
        used(ask(point(hangs={**stated, "earthquake_fraction": share}, **uncracked), **given)) for share in (1 / 3, 0)
    )
    assert shaken_one["en_pull_out"] == pytest.approx(3 * 1.5 / 11.5)
    assert still["en_pull_out"] == pytest.approx(3 * 1.5 / (21 * math.sqrt(1.25)))


# What is refused


SCREW = {"family": "en-screw-zinc", "size": "10", "h_ef": 68}
REFUSED = [
    ("no option", point(seismic=None), "seismic-design-option"),
    ("ductile", point(seismic={**ELASTIC, "design_option": "ductile_failure"}), "ductile-failure-under-en-1992-4"),
    ("c2 by default", point(seismic={"design_option": "elastic_design"}), "not-qualified-seismic-category"),
    ("c2", point(seismic={**ELASTIC, "performance_category": "C2"}), "not-qualified-seismic-category"),
    ("not qualified", point(anchor={**WEDGE, "size": "M8", "h_ef": 45}), "not-qualified-seismic-category"),
    ("not in shear", point(anchor=SCREW), "not-qualified-seismic-category-shear"),
    ("s_ds", point(seismic={**ELASTIC, "s_ds": 0.3}), "earthquake-under-en-1992-4"),
    ("category", point(seismic={**ELASTIC, "category": "D"}), "earthquake-under-en-1992-4"),
]


@pytest.mark.parametrize(("item", "code"), [own[1:] for own in REFUSED], ids=[own[0] for own in REFUSED])
def test_what_is_refused_by_name(ask, item, code):
    result = ask(item)
    assert (result["status"], result["reason"]["code"]) == ("refused", code)
    assert not any(mode["mode"].startswith("en_") for mode in result["modes"])


def test_a_fastener_for_tension_only_holds_tension(ask):
    result = ask(point(anchor=SCREW, quake=(1.0, 0.0)))
    assert result["status"] == "passed"
    assert strengths(result)["en_pull_out"] == pytest.approx(9.0 / 1.5)


def test_without_earthquake_nothing_is_asked(ask):
    """The option may be there; no mode, assumption or finding of earthquake is."""
    result = ask(point(quake=(0.0, 0.0), anchor={**WEDGE, "size": "M8", "h_ef": 45}))
    assert result["status"] == "passed"
    assert EN_SEISMIC not in {mode["mode"] for mode in result["modes"]}
    assert not {"en1992-4-earthquake", "annular-gap-assumed"} & set(result["assumptions"])
    assert not [own for own in (*result["findings"], *result["to_engineer"]) if "seismic" in own["code"]]


def test_the_gap_that_is_assumed(ask):
    """Where it is silent, there is shear, and nothing is welded; C2 has its own figures and is taken, and said."""
    stud = {"family": "en-headed-stud", "size": "16", "h_ef": 125}
    silent = {"design_option": "elastic_design"}
    assert "annular-gap-assumed" in ask(point())["assumptions"]
    assert "annular-gap-assumed" not in ask(point(quake=(1.0, 0.0)))["assumptions"]
    welded = ask(point(anchor=stud, attachment={"welded": True}, seismic=silent))
    assert "annular-gap-assumed" not in welded["assumptions"]
    assert strengths(welded)["en_steel_shear"] == pytest.approx(32.0 / (450 / 350))
    assert "performance-category-c2-taken" in {own["code"] for own in welded["findings"]}


CONTRADICTIONS = [
    ("tension_option", {"seismic": {**ELASTIC, "tension_option": "overstrength"}}),
    ("shear_option", {"seismic": {**ELASTIC, "shear_option": "overstrength"}}),
    ("stretch_length", {"seismic": {**ELASTIC, "stretch_length": 100}}),
    ("upset_threads", {"seismic": {**ELASTIC, "upset_threads": True}}),
]


@pytest.mark.parametrize(("name", "changes"), CONTRADICTIONS, ids=[own[0] for own in CONTRADICTIONS])
def test_options_of_chapter_17_are_no_options_here(ask, name, changes):
    (error,) = ask(point(**changes))["problem"]["errors"]
    assert (error["pointer"], error["code"]) == (f"#/items/0/seismic/{name}", "contradiction")


@pytest.mark.parametrize(
    ("place", "changes"),
    [
        ("seismic/design_option", {"seismic": {"design_option": "elastic_design", "category": "B"}}),
        ("seismic/performance_category", {"seismic": {"performance_category": "C1", "category": "B"}}),
        ("attachment/annular_gap", {"attachment": {"annular_gap": "open"}, "seismic": {"category": "B"}}),
    ],
)
def test_nor_are_these_options_of_chapter_17(ask, place, changes):
    item = point(quake=(0.0, 0.0), **changes)
    errors = ask(item, design_code="aci318_19")["problem"]["errors"]
    assert (f"#/items/0/{place}", "contradiction") in {(own["pointer"], own["code"]) for own in errors}


# Near points


def at(x):
    return {"level": "L1", "x": f"{x} mm", "y": 0}


def test_a_point_beside_one_under_earthquake(ask):
    """100 mm apart, so that their cones meet: the one without earthquake of its own is checked in its cases too.

    Dead load of both 2 kN, A_Ed 1 kN at one: 3 and 2 kN, e_N 10 mm, psi_ec,N 1 / (1 + 20 / 195) = 0.907. Cone of both
    0.75 x 20.18 x 295 / 195 x 0.907 / 1.5 = 13.84 kN for 5 kN.
    """
    both = 0.75 * CONE * 295 / 195 / (1 + 20 / 195) / 1.5
    items = [point(id="A", at=at(0), quake=(1.0, 0.0)), point(id="B", at=at(100), quake=(0.0, 0.0), seismic=None)]
    shaken_one, beside = ask(*items, neighbours="check")
    for own in (shaken_one, beside):
        cone = next(mode for mode in own["modes"] if mode["mode"] == "en_concrete_cone")
        assert cone["load_case"] == "1.0G+1.0C+AEd"
        assert (cone["design_strength"], cone["demand"]) == pytest.approx((both, 5.0))
    assert "shaken-beside" in {own["code"] for own in beside["findings"]}
    assert "shaken-beside" not in {own["code"] for own in shaken_one["findings"]}
    c2 = {"seismic": {"performance_category": "C2"}}
    for other, status in (({"at": at(100), **c2}, "refused"), ({"at": at(1000), **c2}, "passed")):
        result = ask(items[0], point(id="B", quake=(0.0, 0.0), **other), neighbours="check")[1]
        assert result["status"] == status
        assert status == "passed" or result["reason"]["code"] == "not-qualified-seismic-category"


def test_a_neighbour_takes_the_strictest_category_beside_it(ask):
    """M12, h_ef 85 mm, has N_Rk,p,eq 16.0 in C1 and 7.5 kN in C2, 18.5 sqrt(1.25) in static cases; all over 1.5.

    A has 2 + 3 kN: 0.469 in C1, 1.0 in C2, which is taken where nothing is stated. B has 4 kN: 5.4 / 13.79 = 0.392
    in static cases, under the earthquake of A 0.375 in C1 and 0.8 in C2.
    """
    deeper, silent = {**WEDGE, "h_ef": 85}, {"design_option": "elastic_design"}
    static = 4 * 1.35 * 1.5 / (18.5 * math.sqrt(1.25))
    for seismic, wanted in ((ELASTIC, (5 * 1.5 / 16, static)), (silent, (5 * 1.5 / 7.5, 4 * 1.5 / 7.5))):
        both = ask(
            point(id="A", at=at(0), anchor=deeper, quake=(3.0, 0.0), seismic=seismic),
            point(id="B", at=at(100), anchor=deeper, dead=(4.0, 0.0), quake=(0.0, 0.0), seismic=None),
            neighbours="check",
        )
        assert tuple(used(own)["en_pull_out"] for own in both) == pytest.approx(wanted)
        taken = ["performance-category-c2-taken" in {each["code"] for each in own["findings"]} for own in both]
        assert taken == [seismic is silent, False]


def test_near_points_against_each_other(ask):
    """A_Ed of 3 kN along x at both of two fasteners 100 mm apart along it: the same way, or one against the other.

    The same way pry-out of both holds 0.5 x 0.75 x 2 x 20.18 x 295 / 195 / 1.5 = 15.26 kN for 6 kN: 0.393. Against each
    other every one has an edge half-way, at 50 mm, and is one of several, 0.75: 147.5 / 195 of the area, psi_s,N
    0.7 + 0.3 x 50 / 97.5 = 0.854: 6.52 kN for 3 kN, 0.460. In tension the cone of both is used most, 0.4 kN of 0.75 x
    20.18 x 295 / 195 / 1.5 = 15.26 kN. The worst sum is 0.460 + 0.026 = 0.487; with steel, 3 of 7 kN, it is 0.455.
    """
    loads, cone = {"dead": (0.2, 0.0), "quake": (0.0, 3.0)}, 0.75 * CONE * 295 / 195 / 1.5
    for own in ask(point(id="A", at=at(0), **loads), point(id="B", at=at(100), **loads), neighbours="check"):
        assert used(own)["en_pry_out"] == pytest.approx(6 / cone)
        assert own["governing"]["utilisation"] == pytest.approx(3 / 7 + 0.4 / cone)
        (said,) = [each for each in own["findings"] if each["code"] == "earthquake-in-other-sense-holds"]
        against = 0.75 * CONE * 147.5 / 195 * (0.7 + 0.3 * 50 / 97.5) / 1.5
        assert said["value"] == pytest.approx(3 / against + 0.4 / cone)
