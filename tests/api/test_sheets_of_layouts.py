"""Sheets of groups and their conditions as a reader meets them: one line for what does not act, conditions in words."""

import html
import re

import pytest

NONE = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
GROUP = {
    "units": "us",
    "item": {
        "id": "G-1",
        "anchor": {
            "family": "wedge-expansion-zinc",
            "size": "1/2",
            "h_ef": "3-1/4 in",
            "layout": {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": "8 in", "spacing_y": "6 in"},
        },
        "base": {
            "kind": "concrete",
            "strength": {"f_c": "4000 psi"},
            "density": "normalweight",
            "thickness": "10 in",
            "face": "side",
            "edges": NONE | {"x_plus": "14 in"},
        },
        "seismic": {"category": "B"},
    },
}
PULL, PUSH_ASIDE = {"tension": "900 lbf"}, {"shear_x": "600 lbf"}


@pytest.fixture
def sheet(client):
    def made(*components, **fields):
        hangs = {"kind": "forces", "components": [{"nature": "dead", **own} for own in components]}
        body = GROUP | {"item": GROUP["item"] | {"hangs": hangs} | fields}
        answer = client.post("/v1/hang-point?format=html", json=body)
        assert answer.status_code == 200, answer.text
        return answer.text

    return made


def parts(page):
    """The sections of the calculation by their titles, without numbers; each as text."""
    found = re.findall(r"<section><h3>[\d to]+\. (.*?)</section>", page, re.DOTALL)
    return [" ".join(html.unescape(re.sub(r"<[^>]+>", " ", own)).split()) for own in found]


def conditions(page):
    return {
        each
        for own in re.findall(r'<div class="why">as (.*?)</div>', page, re.DOTALL)
        for each in html.unescape(re.sub(r"<[^>]+>", "", own)).split("; ")
    }


def named(page, title):
    return [own for own in parts(page) if own.startswith(title)]


def test_a_group_in_pure_tension_says_in_one_line_that_no_shear_acts(sheet):
    page = sheet(PULL)
    assert named(page, "Shear of a bolt group") == ["Shear of a bolt group load case 1.4D No shear acts."]
    assert named(page, "Shear of an anchor") == ["Shear of an anchor of a group load case 1.4D No shear acts."]
    (plate,) = named(page, "Rigid plate load case")
    assert "1260 lbf" in plate


def test_a_group_in_pure_shear_says_in_one_line_that_nothing_pulls(sheet):
    page = sheet(PUSH_ASIDE)
    for title in ("Rigid plate load case", "Anchor of a rigid plate load case"):
        (own,) = named(page, title)
        assert own.endswith("1.4D Neither tension nor a moment acts.")
    assert named(page, "Tension at") == ["Tension at the hang point load case 1.4D No tension acts."]
    (shear,) = named(page, "Shear of an anchor")
    assert "210" in shear


def test_a_group_with_both_has_both_tables(sheet):
    page = sheet(PULL | PUSH_ASIDE)
    assert "acts." not in " ".join(parts(page))


@pytest.mark.parametrize("loads", [(PULL,), (PULL | PUSH_ASIDE,)])
def test_conditions_read_as_a_flag_with_its_answer_or_as_a_comparison(sheet, loads):
    found = conditions(sheet(*loads))
    assert {"cracked: yes", "cast-in: no"} <= found
    assert not [each for each in found if re.match(r"not\b|.*\bnever\b", each)]


def test_a_turned_earthquake_reads_as_such(sheet):
    shaken = {"nature": "earthquake", "tension": "300 lbf", "shear_x": "300 lbf"}
    seismic = {"category": "D", "s_ds": 0.5, "tension_option": "overstrength", "shear_option": "overstrength"}
    page = sheet(PULL | PUSH_ASIDE, shaken, seismic=seismic)
    assert {"earthquake acts the other way: no", "earthquake acts the other way: yes"} & conditions(page)
    assert "tension never" not in page


def test_factors_of_loads_that_do_not_act_are_left_out(sheet):
    """An earthquake and dead load: no snow, no wind, and nothing of them that stays."""
    shaken = {"nature": "earthquake", "tension": "300 lbf"}
    seismic = {"category": "D", "s_ds": 0.5, "tension_option": "overstrength", "shear_option": "overstrength"}
    page = sheet(PULL, shaken, seismic=seismic)
    (further,) = named(page, "Forces of transient loads and earthquake")
    assert "earthquake = 1" in further
    assert "roof live" not in further
    snow = {"nature": "snow", "tension": "300 lbf"}
    assert any("snow 1.6" in own for own in named(sheet(PULL, snow), "Forces of transient loads"))


def test_a_refused_point_in_masonry_names_the_methods_of_masonry(sheet):
    masonry = {"units": "grouted", "material": "concrete", "location": "face", "joint_distance": 4, "f_m": "2000 psi"}
    base = {"kind": "masonry", "masonry": masonry, "thickness": "7-5/8 in", "face": "side", "edges": NONE}
    anchor = {"family": "headed-bolt", "size": "1/2", "h_ef": "4 in"}
    page = sheet(PUSH_ASIDE, base=base, anchor=anchor, attachment={"gap": "1 in"})
    head = re.search(r"<header>.*?</header>", page, re.DOTALL).group()
    assert "Not checked" in page
    assert "TMS 402" in head
    assert "ACI" not in head


def test_the_factors_of_a_table_are_in_symbols_that_are_said_once(sheet):
    """The words stood in each of four formulas, ten lines long. c_cr is given once, and twice for each edge."""
    masonry = {"units": "grouted", "material": "concrete", "location": "face", "joint_distance": 4, "f_m": "2000 psi"}
    base = {"kind": "masonry", "masonry": masonry, "thickness": "7-5/8 in", "face": "side", "edges": NONE}
    anchor = {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": "1-3/4 in"}
    (table,) = named(sheet(PULL, base=base, anchor=anchor), "Allowable tension by the table")
    for words in (
        "share lost with the edge distance",
        "edge distance for the whole load",
        "spacing for the whole load",
    ):
        assert table.count(words) == 1
    assert table.count("c cr") == 1 + 2 * 4
