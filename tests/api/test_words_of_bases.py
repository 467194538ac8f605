"""What is said of a point is said of its base, its method and its load: read over points of every kind.

Forbidden words are written here by hand: concrete is no word for masonry, a clause of ACI 318-19 none for TMS 402 or a
table of the product, and nothing is pulled out where only shear acts.
"""

import itertools
import re

import pytest

NONE = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
NEAR = NONE | {"x_plus": "12 in"}
BLOCKS = {
    "kind": "masonry",
    "masonry": {"units": "grouted", "material": "concrete", "f_m": "2000 psi", "location": "face", "joint_distance": 4},
    "thickness": "7-5/8 in",
    "face": "side",
}
SLAB = {
    "kind": "concrete",
    "strength": {"f_c": "4000 psi"},
    "density": "sand_lightweight",
    "thickness": "8 in",
    "face": "side",
}
SLEEVE = {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": "1-3/4 in"}
SCREW = {"family": "small-screw-hex-zinc", "size": "1/4", "h_ef": "1-1/2 in"}
BOLT = {"family": "headed-bolt", "size": "1/2", "h_ef": "4 in"}
ADHESIVE = {"family": "adhesive-slow-rod-36", "size": "1/2", "h_ef": "2-3/4 in"}
PAIR = {"pattern": "row", "count": 2, "spacing": "8 in"}
FREE = {"plate": {"width_x": "12 in", "width_y": "6 in", "support": "free"}}
LOADS = (
    {"tension": "200 lbf"},
    {"shear_x": "150 lbf"},
    {"tension": "100 lbf", "shear_x": "-100 lbf", "shear_y": "50 lbf"},
    {"tension": "-50 lbf", "shear_x": "100 lbf"},
)
OF_UNITS = re.compile(r"concrete units|units of concrete")
ELSEWHERE = {
    "compression-not-covered": "State the plate that bears, if there is one on concrete,",
    "earthquake-not-in-table": "Anchor in concrete by a product that is qualified for it,",
}
"""What sends the reader to another base, or names one among others."""


def point(components, anchor, base, **fields):
    return {"hangs": {"kind": "forces", "components": components}, "anchor": anchor, "base": base, **fields}


def in_masonry():
    for anchor, load, edges in itertools.product((SLEEVE, SCREW, BOLT, ADHESIVE), LOADS, (NONE, NEAR)):
        base = BLOCKS | {"edges": edges}
        yield point([{"nature": "dead", **load}], anchor, base)
        yield point([{"nature": "dead", **load}], anchor | {"layout": PAIR}, base)
        yield point([{"nature": "dead", **load}], anchor | {"layout": PAIR}, base, attachment=FREE)
        yield point([{"nature": "dead", **load}], anchor, base, attachment={"welded": True})
        against = [{"nature": "live", **load}, {"nature": "dead", "tension": "-20 lbf"}]
        yield point(against, anchor, base | {"thickness": "4-1/2 in"})
        shaken = [{"nature": "dead", **load}, {"nature": "earthquake", **load}]
        seismic = {"category": "D", "s_ds": 0.8, "tension_option": "overstrength", "shear_option": "overstrength"}
        yield point(shaken, anchor, base, seismic=seismic)


@pytest.fixture(scope="module")
def ask(client):
    def post(points, **top):
        items = [{"id": f"P{at}", "seismic": {"category": "B"}, **own} for at, own in enumerate(points)]
        answer = client.post("/v1/hang-points", json={"units": "us", "detail": "trace", **top, "items": items})
        assert answer.status_code == 200, answer.text
        return answer.json()

    return post


@pytest.fixture(scope="module")
def masonry(ask):
    found = ask(in_masonry())
    assert {each["status"] for each in found["items"]} == {"passed", "failed", "refused"}
    return found


def sentences(answer):
    """Code and text of all that is said of the points of an answer."""
    yield from answer["assumptions"].items()
    yield from answer["not_checked"].items()
    for each in answer["items"]:
        for said in (*each["findings"], *each["to_engineer"], *([each["reason"]] if "reason" in each else [])):
            yield said["code"], said["text"]
            yield said["code"], said.get("question", "")


def clauses(answer):
    for each in answer["items"]:
        yield from (said["clause"] for said in (*each["findings"], *([each["reason"]] if "reason" in each else [])))
        for section in each.get("trace", ()):
            yield from (line["clause"] for line in section["lines"] if "clause" in line)


def test_no_sentence_speaks_of_concrete_in_masonry(masonry):
    said = {code: OF_UNITS.sub("", text).replace(ELSEWHERE.get(code, "-"), "") for code, text in sentences(masonry)}
    assert len(said) > 20
    known = {"reinforcement-and-tendons": "and in concrete the least edge distance"}
    wrong = {code: text for code, text in said.items() if "concrete" in text.replace(known.get(code, "-"), "")}
    assert wrong == {}


def test_no_clause_of_chapter_17_is_cited_in_masonry(masonry):
    cited = set(clauses(masonry))
    assert {"TMS 402 9.1.6.3", "table of the product", "statics", "ASCE 7 2.3", "ASCE 7 2.4"} <= cited
    assert not [each for each in cited if re.match(r"(Table )?\d|ACI", each)]


def test_by_allowable_stress_a_bolt_cites_the_combinations_of_service_loads(ask):
    found = ask([point([{"nature": "dead", **LOADS[2]}], BOLT, BLOCKS | {"edges": NONE})], combinations="allowable")
    cited = set(clauses(found))
    assert {"TMS 402 8.1.3.3", "ASCE 7 2.4"} <= cited
    assert not [each for each in cited if re.match(r"(Table )?\d|ACI|ASCE 7 2.3|TMS 402 9", each)]


def test_a_free_plate_on_masonry_has_no_modulus_of_concrete(masonry):
    plates = [s for each in masonry["items"] for s in each.get("trace", ()) if s["record"] == "PlateBalance"]
    assert plates
    names = {line["name"] for section in plates for line in section["lines"]}
    assert names.isdisjoint({"e_c", "alpha_e", "sigma_max"})


def test_options_of_chapter_17_are_not_asked_of_the_engineer_in_masonry(masonry):
    assert "seismic-option" not in {said["code"] for each in masonry["items"] for said in each["to_engineer"]}


@pytest.mark.parametrize("category", ["B", "D"])
def test_nothing_is_pulled_out_where_only_shear_acts(ask, category):
    def said(load):
        anchor = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}
        own = point([{"nature": "dead", **load}], anchor, SLAB | {"edges": NEAR}, seismic={"category": category})
        (found,) = ask([own])["items"]
        return set(found["assumptions"])

    of_pullout = {"lambda-on-pullout", *(["pullout-by-seismic-tests"] if category == "D" else [])}
    assert of_pullout <= said(LOADS[0])
    assert of_pullout <= said(LOADS[2])
    assert of_pullout.isdisjoint(said(LOADS[1]))


def test_shear_away_from_the_face_pulls(ask):
    """A shear 3 in off the face turns the plate, and the anchors behind it are pulled."""
    hangs = {"kind": "forces", "components": [{"nature": "dead", "shear_x": "150 lbf"}], "at": {"z": "3 in"}}
    own = point([], {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in", "layout": PAIR}, SLAB)
    plate = {"plate": {"width_x": "12 in", "width_y": "6 in", "support": "concrete"}}
    (found,) = ask([own | {"hangs": hangs, "base": SLAB | {"edges": NONE}, "attachment": plate}])["items"]
    assert found["status"] != "invalid", found
    assert "lambda-on-pullout" in found["assumptions"]


def test_loads_of_one_nature_apart_cite_the_european_code(ask):
    base = {"kind": "concrete", "strength": {"class": "C25/30"}, "density": "normalweight", "state": "cracked"}
    anchor = {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": "65 mm"}
    loads = [{"nature": "live", "tension": "4 kN"}, {"nature": "live", "tension": "-3 kN"}]
    own = point(loads, anchor, base | {"thickness": "250 mm", "edges": NONE, "face": "soffit"})
    del_seismic = own | {"seismic": {}}
    found = ask([del_seismic], design_code="en1992_4")
    apart = [each for each in found["items"][0]["findings"] if each["code"].startswith("one-nature-apart")]
    assert [each["clause"] for each in apart] == ["EN 1990 6.4.3"]
