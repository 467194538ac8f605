"""What an engineer who signs a calculation sheet looks for: clauses of the method, load cases, units, no contradiction.

Clauses of ASCE 7, TMS 402 and EN 1990 are from memory.
"""

import copy
import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from report.shown_formulas import computed

EXAMPLES = Path(__file__).parents[2] / "examples" / "requests"
SINGLE, BATCH = "/v1/hang-point", "/v1/hang-points"
SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")


def forces(*components):
    own = [dict(zip(("nature", "tension", "shear_y"), each, strict=False)) for each in components]
    return {"kind": "forces", "components": own}


def wall(family, size, h_ef, **more):
    """A point in a wall of grouted masonry, 12 in above its foot."""
    masonry = {"units": "grouted", "material": "concrete", "f_m": "1500 psi", "location": "face"}
    return {
        "id": "W",
        "hangs": forces(("dead", 60, -90), ("live", 40, -60), ("wind", 30, 0)),
        "anchor": {"family": family, "size": size, "h_ef": h_ef},
        "base": {
            "kind": "masonry",
            "masonry": masonry | {"joint_distance": "2 in"},
            "thickness": "7-5/8 in",
            "face": "side",
            "edges": dict.fromkeys(SIDES, "none") | {"y_minus": "12 in"},
        },
        "seismic": {"category": "B"},
        **more,
    }


def slab(hangs, **more):
    return {
        "id": "S",
        "hangs": hangs,
        "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
        "base": {
            "kind": "concrete",
            "strength": {"f_c": "4000 psi"},
            "density": "normalweight",
            "state": "cracked",
            "thickness": "10 in",
            "face": "soffit",
            "edges": dict.fromkeys(SIDES, "none"),
        },
        "seismic": {"category": "B"},
        **more,
    }


TABLE = wall("sleeve-expansion-zinc", "3/8", "1-3/4 in")
BOLT = wall("headed-bolt", "1/2", "4 in")


@pytest.fixture
def check(client):
    """The answer to a body with one point, and its sheet as XML."""

    def post(body, path=SINGLE):
        answer = client.post(path, json=body)
        assert answer.status_code == 200, answer.text[:400]
        text = client.post(f"{path}?format=html", json=body).text.removeprefix("<!DOCTYPE html>\n")
        text = re.sub(r"<(meta|col) ([^>]*)>", r"<\1 \2/>", text.replace("&nbsp;", " "))
        return answer.json(), ElementTree.fromstring(text)  # noqa: S314

    return post


def one(item, **more):
    return {"units": "us", "item": item, "detail": "trace", **more}


def words(node):
    return " ".join("".join(node.itertext()).split())


def lines(answer):
    return [(section, line) for section in answer["items"][0]["trace"] for line in section["lines"]]


def clauses(answer):
    return {line["clause"] for _, line in lines(answer) if "clause" in line}


@pytest.mark.parametrize(
    ("item", "more"), [(TABLE, {}), (BOLT, {"combinations": "allowable"})], ids=["table", "bolt by allowable stress"]
)
def test_service_loads_have_no_clause_and_no_symbol_of_factored_ones(check, item, more):
    answer, _ = check(one(item, **more))
    assert answer["items"][0]["demand"]["level"] == "allowable"
    of_loads = [
        (line["symbol"], line.get("clause", ""))
        for section, line in lines(answer)
        if section["record"] in ("AnchorDemand", "AnchorShear", "FurtherForce")
    ]
    assert ("N_a", "ASCE 7 2.4") in of_loads
    assert not [each for each in of_loads if "_u" in each[0] or re.match(r"5\.3|17\.|ASCE 7 2\.3", each[1])]
    assert not [each for each in clauses(answer) if re.match(r"(Table )?\d", each)]


@pytest.mark.parametrize(
    ("more", "own", "other"), [({}, "9.1.6.3", "8.1.3.3"), ({"combinations": "allowable"}, "8.1.3.3", "9.1.")]
)
def test_a_bolt_in_masonry_has_the_clauses_of_its_level(check, more, own, other):
    answer, sheet = check(one(BOLT, **more))
    modes = next(words(each) for each in sheet.iter("section") if words(each).startswith("Modes"))
    assert f"masonry crushing in shear (TMS 402 {own})" in modes
    assert other not in modes
    found = {each for each in clauses(answer) if "TMS 402" in each}
    assert f"TMS 402 {own}" in found
    assert not [each for each in found if other in each]


@pytest.mark.parametrize(("edition", "heading"), [({}, "TMS 402-16"), ({"masonry_edition": "tms402_13"}, "TMS 402-13")])
def test_the_edition_by_which_a_bolt_was_checked_heads_its_sheet(check, edition, heading):
    _, sheet = check(one(BOLT | {"options": edition}))
    assert f"Bolts in grouted masonry by {heading} ·" in words(sheet)


def test_a_sheet_says_nothing_that_is_not_so_of_its_point(check):
    _, by_table = check(one(TABLE))
    assert "its service loads are combined by the allowable-stress combinations" in words(by_table)
    assert "combined by the strength combinations" not in words(by_table)
    assert "The design code is ACI 318-19" not in words(by_table)
    answer, _ = check(one(TABLE))
    assert "combinations-defaulted" not in answer["assumptions"]
    pair = copy.deepcopy(BOLT)
    pair["anchor"]["layout"] = [{"x": "-4 in", "y": "0 in"}, {"x": "4 in", "y": "0 in"}]
    answer, sheet = check(one(pair))
    assert "what it shares with the circles of neighbours is divided between them" in words(sheet)
    assert "anchors-by-elastic-share" not in answer["assumptions"]
    assert "combinations-defaulted" in answer["assumptions"]
    assert "combined by the strength combinations" in words(sheet)
    assert "base-by-tables" not in {each["code"] for each in answer["items"][0].get("to_engineer", ())}
    answer, _ = check(one(TABLE))
    assert "base-by-tables" in {each["code"] for each in answer["items"][0]["to_engineer"]}


def test_the_load_cases_of_a_point_stand_on_its_sheet(check):
    hangs = forces(("dead", 300), ("live", 200), ("snow", 100))
    answer, sheet = check(one(slab(hangs), load_standard="asce7_22"))
    shown = next(words(each) for each in sheet.iter("section") if words(each).startswith("Load cases of"))
    for name, case in answer["load_cases"].items():
        assert (name in shown) == (name != "5W+250lb"), name
        assert case["source"] in shown or name == "5W+250lb"
    assert "ASCE 7-22 2.3.1: 1.2D+1.6L+0.3S; 1.2D+1.0S; 1.2D+1.0S+L." in shown
    assert "S snow" in shown
    assert "W wind" not in shown
    _, sheet = check(one(TABLE))
    shown = next(words(each) for each in sheet.iter("section") if words(each).startswith("Load cases of"))
    assert "D+0.75L+0.45W" in shown
    assert "1.2D" not in shown


def test_snow_of_7_22_is_not_said_to_be_of_aci_318_19(check):
    """ACI 318-19 5.3.1 has the snow of ASCE 7-16, 1.6S."""
    hangs = forces(("dead", 300), ("snow", 100))
    answer, _ = check(one(slab(hangs), load_standard="asce7_22"))
    assert answer["load_cases"]["1.2D+1.0S"]["source"] == "ASCE 7-22 2.3.1"
    assert answer["load_cases"]["1.4D"]["source"] == "ACI 318-19 5.3.1a"
    answer, _ = check(one(slab(hangs), load_standard="asce7_16"))
    assert answer["load_cases"]["1.2D+1.6S"]["source"] == "ACI 318-19 5.3.1c"


def test_loads_stated_in_si_units_can_be_followed_into_those_of_the_code(check):
    body = one(slab(forces(("dead", "2 kN"), ("live", "1 kN"))), units="si")
    _, sheet = check(body)
    assert "1 lbf is 4.44822 N, 1 in is 25.4 mm" in words(sheet)
    _, sheet = check(one(slab(forces(("dead", 400)))))
    assert "25.4 mm" not in words(sheet)


def test_loads_by_en_1992_4_have_clauses(client):
    body = json.loads((EXAMPLES / "en1992_4_ceiling.json").read_bytes()) | {"detail": "trace"}
    answer = client.post(BATCH, json=body).json()
    silent = {
        (section["record"], line["symbol"])
        for result in answer["items"]
        for section in result.get("trace", ())
        for line in section["lines"]
        if line["kind"] != "given" and not line.get("clause") and line["value"] != 0
    }
    assert not silent


def test_a_breakout_that_is_computed_for_pryout_says_so(check):
    answer, _ = check(one(slab(forces(("dead", 400, 300)))))
    titles = [section["title"] for section in answer["items"][0]["trace"]]
    assert titles.count("concrete breakout in tension") == 1
    assert titles.count("concrete breakout strength, for pryout") == 1


def test_no_symbol_stands_where_a_number_should(check):
    """A distance that is none, too: each formula in numbers can be computed from what is printed."""
    item = slab(forces(("dead", 400, 300)))
    item["base"]["edges"] |= {"x_plus": "6 in"}
    _, sheet = check(one(item))
    shown = [each for each in sheet.iter("span") if each.get("class") == "numbers"]
    assert len(shown) > 30
    assert any("none" in words(each) for each in shown)
    for each in shown:
        computed("".join(ElementTree.tostring(formula, encoding="unicode") for formula in each))


@pytest.mark.parametrize(("more", "text"), [(1.00002, "just above 1"), (1.0, "1"), (1.0004, "1.0004")])
def test_a_utilisation_above_1_never_reads_as_1(check, more, text):
    answer, _ = check(one(slab(forces(("dead", 2500)))))
    hangs = forces(("dead", 2500 / answer["items"][0]["governing"]["utilisation"] * more))
    answer, sheet = check(one(slab(hangs)))
    assert answer["items"][0]["status"] == ("passed" if more == 1 else "failed")
    governs = next(each for each in sheet.iter("section") if "— governs load case" in words(each))
    *_, last = governs.iter("tr")
    assert [words(cell) for cell in last.iter("td")][2] == text


def test_demands_that_may_be_of_another_load_case_say_so(check):
    answer, sheet = check(one(slab(forces(("dead", 300, 100), ("live", 400)))))
    assert answer["items"][0]["demand"]["load_case"] == "1.2D+1.6L"
    assert answer["items"][0]["demand"]["sustained_tension"] == pytest.approx(1.4 * 300)
    assert "sustained tension, largest of all load cases 420 lbf".replace(" ", "") in words(sheet).replace(" ", "")


def test_loads_that_are_0_make_no_lines(check):
    _, sheet = check(one(slab(forces(("dead", 300, 100), ("wind", 200)))))
    shown = words(sheet)
    assert "Ev" not in re.sub(r"Load cases of the request.*?Calculation", "", shown)
    assert "factor of the vertical effect" not in shown


def test_powers_of_several_ratios_are_named_in_words(check):
    item = slab(forces(("dead", 900, 900)), options={"interaction": "power_5_3"})
    answer, _ = check(one(item))
    assert "both ratios by powers of 5/3" in {line["symbol"] for _, line in lines(answer)}


def test_what_neighbours_bring_to_a_demand_is_said(client):
    body = json.loads((EXAMPLES / "neighbours.json").read_bytes())
    answer = client.post(BATCH, json=body).json()
    first, second = answer["items"][:2]
    (breakout,) = [each for each in first["modes"] if each["mode"] == "concrete_breakout_tension"]
    own = [each["demand"]["factored_tension"] for each in (first, second)]
    assert own == pytest.approx([1.4 * 1900, 1.4 * 1700])
    assert breakout["demand"] == pytest.approx(sum(own))
    page = client.post(f"{BATCH}?format=html", json=body).text
    assert "IC-L2-HWR-11 brings at most 2380 lbf (1.4D) in tension: see its own sheet." in page
    assert "IC-L2-CHS-11 brings at most 2660 lbf (1.4D) in tension: see its own sheet." in page


@pytest.mark.parametrize(
    ("code", "anchor", "strength", "expected"),
    [
        ("aci318_19", ("headed-bolt", "1/2", "4 in"), {"f_c": "4000 psi"}, ("19.2.2.1", "20.2.2.2")),
        (
            "en1992_4",
            ("en-headed-stud", "16", "125 mm"),
            {"class": "C30/37"},
            ("EN 1992-1-1 Table 3.1", "EN 1992-1-1 3.2.7(4)"),
        ),
    ],
)
def test_the_moduli_under_a_plate_have_their_clauses(check, code, anchor, strength, expected):
    item = slab(forces(("dead", "2 kN")))
    item["anchor"] = dict(zip(("family", "size", "h_ef"), anchor, strict=True))
    item["anchor"]["layout"] = [{"x": -60, "y": 0}, {"x": 60, "y": 0}]
    item["base"] |= {"strength": strength, "thickness": 300}
    item["attachment"] = {"plate": {"width_x": 200, "width_y": 100}, "thickness": 20}
    if code == "en1992_4":
        del item["seismic"]
    answer, sheet = check(one(item, units="si", design_code=code))
    found = {line["name"]: line.get("clause") for _, line in lines(answer)}
    assert (found["e_c"], found["e_s"]) == expected
    assert "What is given without a clause is as stated" in words(sheet)


@pytest.mark.parametrize(("standard", "case", "snow"), [("asce7_16", "0.75S", 0.75), ("asce7_22", "0.525S", 0.525)])
def test_the_service_load_of_a_rod_is_derived(check, standard, case, snow):
    """D + 0.75L + 0.75(0.6W) + 0.75S of ASCE 7-16 2.4.1; the snow of 7-22 counts with 0.7."""
    hangs = forces(("dead", 900), ("live", 500), ("wind", 650), ("snow", 240))
    answer, sheet = check(one(slab(hangs, rod={"size": "1/2"}), load_standard=standard))
    load = 900 + 0.75 * 500 + 0.45 * 650 + snow * 240
    (rod,) = [each for each in answer["items"][0]["modes"] if each["mode"] == "rod_allowable"]
    assert rod["demand"] == pytest.approx(load)
    (made,) = [each for each in answer["items"][0]["trace"] if each["record"] == "RodServiceLoad"]
    assert made["load_case"] == f"D+0.75L+0.45W+{case}"
    assert made["lines"][-1]["value"] == pytest.approx(load)
    assert f"Service load of the rod load case D+0.75L+0.45W+{case}" in words(sheet)


def test_the_service_load_of_a_rod_by_en_1990_is_derived(check):
    """G + W + psi_0 S, the characteristic combination (6.5.3), psi_0 0.7."""
    item = slab(forces(("dead", "2 kN"), ("wind", "2 kN"), ("snow", "1 kN")), rod={"size": "M12"})
    item["anchor"] = {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": "65 mm"}
    item["base"] |= {"strength": {"class": "C25/30"}, "thickness": 200}
    del item["seismic"]
    answer, _ = check(one(item, units="si", design_code="en1992_4"))
    (made,) = [each for each in answer["items"][0]["trace"] if each["record"] == "RodServiceLoad"]
    assert "load_case" not in made
    assert made["lines"][-1]["value"] * 4.4482216 == pytest.approx(4700)
    assert made["lines"][-1]["clause"] == "EN 1990 6.5.3"
