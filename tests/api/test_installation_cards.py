"""Installation cards: every product of the catalogue has one, its figures are those of the data, and HTML is safe."""

import copy
import io
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pypdf
import pytest

from api.bodies import INLINE
from api.bodies import SLAB as DEFAULTS
from hangpoint.product.catalogue import load_catalogue

PATH = "/v1/installation-cards"
CATALOGUE = load_catalogue()
ROWS = [
    (family, size, embedment)
    for family in CATALOGUE.families.values()
    for size in family.sizes
    for embedment in size.embedments
]
MM = 25.4
EXAMPLES = Path(__file__).parents[2] / "examples" / "requests"


def anchor(family, size, embedment):
    unit = "in" if family.units == "us" else "mm"
    return {"family": family.id, "size": size.size, "h_ef": f"{embedment.h_ef!r} {unit}"}


EVERY = [{"id": address, "anchor": anchor(*row)} for address, row in zip(CATALOGUE.addresses, ROWS, strict=True)]


@pytest.fixture(scope="module", params=["us", "si"])
def every(ask_cards, request):
    return request.param, ask_cards(*EVERY, units=request.param)


def test_every_product_has_a_card(every):
    _, answer = every
    assert len(answer["cards"]) == len(ROWS) == 341
    assert [card["product"] for card in answer["cards"]] == list(CATALOGUE.addresses)
    assert [card["used_by"] for card in answer["cards"]] == [[address] for address in CATALOGUE.addresses]


def test_figures_are_those_of_the_catalogue(every):
    """The rows of the family files are what a card is checked against: 1 in is 25.4 mm, 1 ft*lbf 1.3558179483 N*m."""
    system, answer = every
    for card, (family, size, embedment) in zip(answer["cards"], ROWS, strict=True):
        factor = 1.0 if system == family.units else (MM if system == "si" else 1 / MM)
        lengths = {
            "h_ef": (card["marks"]["h_ef"], embedment.h_ef),
            "h_nom": (card["marks"].get("h_nom"), embedment.h_nom),
            "diameter": (card.get("hole", {}).get("diameter"), embedment.hole and embedment.hole.diameter),
            "depth": (card.get("hole", {}).get("depth"), embedment.hole and embedment.hole.depth),
            "edge": (card["least"]["edge"], embedment.c_min),
            "spacing": (card["least"]["spacing"], embedment.s_min),
            "thickness": (card["least"]["thickness"], embedment.h_min),
            "d_a": (card["anchor_diameter"], size.d_a),
            "least": (card.get("thread", {}).get("least"), size.thread_engagement and size.thread_engagement.least),
            "most": (card.get("thread", {}).get("most"), size.thread_engagement and size.thread_engagement.most),
        }
        for name, (shown, stated) in lengths.items():
            assert (shown is None) == (stated is None), (card["product"], name)
            if stated is not None:
                assert shown["value"] == pytest.approx(stated * factor, rel=1e-12)
                assert read(shown["text"], family.units) == pytest.approx(
                    stated, abs=0.06 if family.units == "si" else 6e-4
                )
        assert ("torque" in card) == (embedment.torque is not None)
        if "torque" in card:
            own = "foot_pounds" if family.units == "us" else "newton_metres"
            assert card["torque"][own] == embedment.torque
            assert card["torque"]["newton_metres"] == pytest.approx(card["torque"]["foot_pounds"] * 1.3558179483)
        for name, stated in (("cleaning", family.setting.cleaning), ("setting", family.setting.steps)):
            assert card[name] == list(stated)
        assert card["checks"] == list(family.setting.checks)
        assert card["do_not"] == list(family.setting.do_not)
        assert card.get("setting_tool") == family.traits.setting_tool


def read(text, units):
    """What an installer reads: the first length of a text, a mixed fraction or a decimal."""
    found = re.match(r"(?:(\d+)-)?(\d+(?:\.\d+)?)(?:/(\d+))? (in|mm)", text)
    assert found, text
    assert found[4] == {"us": "in", "si": "mm"}[units]
    whole, top, bottom = found[1], float(found[2]), float(found[3] or 1)
    return float(whole or 0) + top / bottom


def test_no_rule_of_thumb_for_edge_and_spacing(every):
    """Edge of 1.5 and spacing of 2 embedments are not to be used (reading 45): no card names embedments as a measure of
    either, and a product whose own figure is another does not get that number."""
    _, answer = every
    thumb = re.compile(r"\b(1\.5|1-1/2|one and a half|2|two|twice)\s*(times\s*)?(the\s*)?(embedment|h_ef)", re.I)
    for card, (_, _, embedment) in zip(answer["cards"], ROWS, strict=True):
        assert not thumb.search(str({key: value for key, value in card.items() if key != "trace"}))
        if embedment.c_min != 1.5 * embedment.h_ef and answer["units"]["length"] == "in":
            assert card["least"]["edge"]["value"] != 1.5 * embedment.h_ef


def test_invented_data_say_so_and_nobody_signs(every, client):
    _, answer = every
    assert all("INVENTED" in card["banner"] for card in answer["cards"])
    page = client.post(f"{PATH}?format=html", json={"units": "us", "items": EVERY}).text
    assert page.count("INVENTED DATA") == 341
    assert not re.search(r"sign(ature|ed)\b", page, re.I)


def test_every_card_says_what_to_do_at_a_bar(every):
    _, answer = every
    for card in answer["cards"]:
        text = " ".join(card["at_a_bar"])
        cast_in = "cast_in" in card["principle"]
        drilled = not cast_in and card["principle"] != "driven_pin"
        assert ("Stop drilling" in text) is drilled
        assert ("Stop driving" in text) is (card["principle"] == "driven_pin")
        assert ("neither is cut" if cast_in else "never cut") in text
        assert "Have the office check the new place" in text


def test_a_card_is_written_for_who_sets_the_anchor(client):
    """No address of the service; silica once; temperatures in both scales, by hand: 110 degF is 43.3 degC."""
    answer = client.post(PATH, json={"units": "si", "items": EVERY}).json()
    hot = 0
    for card in answer["cards"]:
        text = json.dumps({**card, "trace": []}, ensure_ascii=False)
        assert "/v1/" not in text
        assert sum("silica" in each.lower() for each in card["cautions"]) <= 1
        assert not re.search(r"deg[FC]|N\*m", text)
        hot += "110 °F (43 °C) for long" in text
    assert hot > 0


def test_turns_and_new_hole_by_hand(ask_cards):
    """drop-in 3/8-16: engagement 3/8 to 5/8 in, 6 to 10 turns; hole 1-5/8 in deep: the next one 3-1/4 in away."""
    (card,) = ask_cards({"id": "a", "anchor": {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}})["cards"]
    assert (card["thread"]["turns_least"], card["thread"]["turns_most"]) == (6.0, 10.0)
    assert card["new_hole"]["text"] == "3-1/4 in"
    assert "check the whole row" in " ".join(card["after_setting"])


@pytest.mark.parametrize(
    ("units", "torque", "text"),
    [
        ("us", 137.5, "137.5 ft-lb (186 N·m), calibrated wrench, not more"),
        ("us", 1234.25, "1234.25 ft-lb (1670 N·m), calibrated wrench, not more"),
        ("si", 186.25, "186.25 N·m (137 ft-lb), calibrated wrench, not more"),
    ],
)
def test_a_torque_stands_as_in_the_data(ask_cards, units, torque, text):
    """By hand: 137.5 x 1.35582 = 186.4 N*m, 1,234.25 x 1.35582 = 1,673 N*m, 186.25 / 1.35582 = 137.4 ft-lb."""
    product = copy.deepcopy(INLINE)
    if units == "si":
        product["units"] = "si"
        product["size"] |= {"d_a": 9.5, "a_se": 32.0, "f_uta": 690, "f_ya": 550}
        product["embedment"] |= {"h_ef": 50, "h_min": 100, "c_min": 75, "s_min": 57, "c_ac": 152}
        product["embedment"] |= {"n_p_cr": 6.7, "n_p_uncr": 10.7}
    product["embedment"]["torque"] = torque
    (card,) = ask_cards({"id": "a", "anchor": {"product": product}})["cards"]
    assert card["torque"]["text"] == text
    assert card["torque"]["foot_pounds" if units == "us" else "newton_metres"] == torque


@pytest.mark.parametrize(
    ("family", "face", "kind"),
    [
        ("adhesive-slow-rod-36", "soffit", "continuous"),
        ("adhesive-slow-rod-36", "side", "continuous"),
        ("adhesive-slow-rod-36", "top", "periodic"),
        ("wedge-expansion-zinc", "soffit", "periodic"),
        ("headed-bolt", "soffit", "periodic"),
        ("driven-pin-powder-zinc", "soffit", "by_engineer"),
    ],
)
def test_inspection(ask_cards, family, face, kind):
    """IBC Table 1705.3 and ACI 318-19 26.13.3.2(e), from memory: continuous where adhesive, sideways or upwards."""
    own = CATALOGUE.families[family]
    size = own.sizes[0]
    item = {"id": "a", "anchor": anchor(own, size, size.embedments[0]), "base": {"kind": "concrete", "face": face}}
    (card,) = ask_cards(item)["cards"]
    assert card["inspection"]["kind"] == kind


def test_cautions(ask_cards):
    one = {name: CATALOGUE.families[name] for name in ("wedge-expansion-zinc", "driven-pin-powder-zinc", "headed-bolt")}
    items = [{"id": name, "anchor": anchor(own, own.sizes[0], own.sizes[0].embedments[0])} for name, own in one.items()]
    texts = {card["used_by"][0]: " ".join(card["cautions"]) for card in ask_cards(*items)["cards"]}
    assert "1926.1153" in texts["wedge-expansion-zinc"]
    assert "1926.302(e)" in texts["driven-pin-powder-zinc"]
    assert "1926.1153" not in texts["headed-bolt"]


@pytest.mark.parametrize(
    ("family", "misfire"),
    [
        ("driven-pin-powder-zinc", True),
        ("ceiling-pin-clip-zinc", True),
        ("driven-pin-gas-zinc", False),
        ("driven-pin-battery-zinc", False),
    ],
)
def test_cautions_of_power_driven_tools(ask_cards, family, misfire):
    """29 CFR 1926.302(e), from memory: no explosive air, the power level from the lowest up; a misfire of a charge."""
    own = CATALOGUE.families[family]
    (card,) = ask_cards({"id": "a", "anchor": anchor(own, own.sizes[0], own.sizes[0].embedments[0])})["cards"]
    text = " ".join(card["cautions"])
    assert "may explode" in text
    assert "from the lowest up" in text
    assert ("does not fire" in text) is misfire


def test_an_adhesive_that_is_not_made_for_upwards_says_so(ask_cards):
    own = CATALOGUE.families["adhesive-fast-rod-36"]
    item = {"id": "a", "anchor": anchor(own, own.sizes[0], own.sizes[0].embedments[0])}
    assert not own.traits.upward
    (card,) = ask_cards(item)["cards"]
    assert any("upwards" in each["text"] for each in card["attention"])
    (card,) = ask_cards({**item, "base": {"kind": "concrete", "face": "top"}})["cards"]
    assert not card["attention"]


def test_what_a_place_does_not_allow_is_said_of_every_point(ask_cards, client):
    own = CATALOGUE.families["adhesive-fast-rod-36"]
    items = [{"id": name, "anchor": anchor(own, own.sizes[0], own.sizes[0].embedments[0])} for name in "ABC"]
    (card,) = ask_cards(*items)["cards"]
    assert [each["id"] for each in card["attention"] if "upwards" in each["text"]] == ["A", "B", "C"]
    page = client.post(f"{PATH}?format=html", json={"units": "us", "items": items}).text
    assert page.count("A, B, C: The adhesive is not qualified") == 1


def test_a_card_says_for_which_hole_an_adhesive_was_checked(ask_cards, client):
    """Two points in dry holes of range a, one in a wet hole, one that states nothing: the bond of each is another."""
    anchor_of_all = {"family": "adhesive-slow-rod-36", "size": "1/2", "h_ef": 6}
    states = {"A": {"hole": "dry", "temperature": "a"}, "B": {"hole": "water_saturated"}, "C": {}, "D": {"hole": "dry"}}
    items = [
        {
            "id": name,
            "anchor": anchor_of_all | {"adhesive": {k: v for k, v in own.items() if k != "hole" or v != "dry"}},
        }
        for name, own in states.items()
    ]
    given = {"anchor": {"adhesive": {"hole": "dry"}}}
    (card,) = ask_cards(*items, defaults=given)["cards"]
    assert card["adhesive"]["stated"] == [
        "A: hole dry, temperature range a as stated; elsewhere the bond may be less.",
        "B: hole water saturated as stated; elsewhere the bond may be less.",
        "C, D: hole dry as stated; elsewhere the bond may be less.",
    ]
    (card,) = ask_cards({"id": "E", "anchor": anchor_of_all})["cards"]
    assert "stated" not in card["adhesive"]
    body = {"units": "us", "items": items, "defaults": given}
    page = client.post("/v1/installation-cards", params={"format": "html"}, json=body).text
    assert "C, D: hole dry as stated" in page


def test_bases_below_the_least(ask_cards):
    """Least of the data: thickness 6 in, edge 2-3/4 in for the 1/2 in wedge at 3-1/4 in."""
    wedge = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25}
    edges = {"x_minus": "none", "x_plus": "2 in", "y_minus": "none", "y_plus": "2-3/4 in"}
    item = {"id": "a", "anchor": wedge, "base": {"kind": "concrete", "thickness": "5 in", "edges": edges}}
    (card,) = ask_cards(item)["cards"]
    assert [each["what"] for each in card["attention"]] == ["edge x_plus", "thickness"]
    assert card["attention"][0]["text"] == "edge at +x of 2 in is below the least of 2-3/4 in."


def test_symbols_of_a_card_are_printed_as_symbols(client):
    body = json.loads((EXAMPLES / "installation_cards_ceiling.json").read_text("utf-8"))
    page = client.post(f"{PATH}?format=html", json=body).text
    assert "<msub><mi>h</mi><mtext>nom</mtext></msub>" in page
    assert re.findall(r"[A-Za-z]_[a-z]+", re.sub(r"<style>.*?</style>|<[^>]*>", " ", page, flags=re.DOTALL)) == []


def test_one_card_a_product_and_face(ask_cards):
    wedge = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25}
    items = [{"id": str(at), "anchor": wedge} for at in range(3)]
    items.append({"id": "side", "anchor": wedge, "base": {"kind": "concrete", "face": "side"}})
    answer = ask_cards(*items)
    assert [card["used_by"] for card in answer["cards"]] == [["0", "1", "2"], ["side"]]
    assert "face-assumed" in answer["assumptions"]


def test_a_product_of_ones_own_says_what_it_lacks(ask_cards):
    (card,) = ask_cards({"id": "a", "anchor": {"product": INLINE}})["cards"]
    assert card["product"] == "inline"
    assert card["cleaning"] == card["setting"] == card["checks"] == []
    assert any("setting steps" in text for text in card["missing"])
    assert card["data"] == "supplied"


def test_a_bad_item_costs_nobody_else(ask_cards):
    good = {"id": "a", "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25}}
    bad = {"id": "b", "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 9}}
    answer = ask_cards(good, bad, {"id": "c", "anker": {}})
    assert [each["status"] for each in answer["items"]] == ["card", "invalid", "invalid"]
    assert answer["items"][1]["problem"]["errors"][0]["pointer"] == "#/items/1/anchor/h_ef"
    assert answer["items"][2]["problem"]["errors"][0]["allowed"] == ["anchor"]
    assert answer["summary"] == {"items": 3, "cards": 1, "invalid": 2}


def test_a_project_heads_every_card(client):
    body = {"units": "us", "project": {"name": "A & B", "revision": "2"}, "items": EVERY[:2]}
    response = client.post(f"{PATH}?format=html", json=body)
    assert response.text.count("<dd>A &amp; B</dd>") == response.text.count("<article") == 2
    assert client.post(PATH, json=body).json()["project"] == body["project"]


def test_the_page_names_what_may_stand_in_place_of_an_unknown_product(client):
    bad = {"id": "b", "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 9}}
    response = client.post(f"{PATH}?format=html", json={"units": "us", "items": [bad, {"id": "c", "anker": {}}]})
    for text in ("Possible: wedge-expansion-zinc/1/2/", "#/items/1/anker", "Possible: anchor."):
        assert text in response.text


class Tags(HTMLParser):
    def __init__(self):
        super().__init__()
        self.open, self.seen, self.text = [], [], []

    def handle_starttag(self, tag, attrs):
        self.seen.append(tag)
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)


def test_html_escapes_what_a_user_wrote(client):
    evil = "<script>alert(1)</script>&\"'"
    product = {**INLINE, "name": evil}
    body = {"units": "us", "job": evil, "items": [{"id": evil, "anchor": {"product": product}}, {"id": f"{evil}2"}]}
    response = client.post(f"{PATH}?format=html", json=body)
    assert response.status_code == 200
    assert response.headers["content-type"] == "text/html; charset=utf-8"
    assert response.headers["content-disposition"].startswith("inline")
    page = Tags()
    page.feed(response.text)
    assert not page.open
    assert "script" not in page.seen
    assert "".join(page.text).count(evil) >= 4
    assert page.seen.count("article") == 2


def test_control_letters_are_shown_and_not_obeyed(client):
    """None of the texts of the catalogue has one."""
    bell = {"units": "us", "job": "a\x07b", "items": [{"id": "A", "anchor": EVERY[0]["anchor"]}]}
    assert "a\\x07b" in client.post(f"{PATH}?format=html", json=bell).text
    assert "\\x" not in client.post(f"{PATH}?format=html", json={"units": "us", "items": EVERY}).text


def test_forms(client):
    body = {"units": "us", "items": EVERY[:1]}
    assert client.post(f"{PATH}?format=docx", json=body).status_code == 422
    assert client.post(f"{PATH}?format=csv", json=body).status_code == 406
    assert client.post(PATH, json=body, headers={"accept": "text/html"}).headers["content-type"].startswith("text/html")


def test_cards_as_pdf(client):
    """A page a card, also of the longest, which are those of adhesives."""
    made = client.post(f"{PATH}?format=pdf", json={"units": "us", "items": EVERY[:20]})
    assert made.headers["content-type"] == "application/pdf"
    cards = client.post(PATH, json={"units": "us", "items": EVERY[:20]}).json()["cards"]
    assert len(pypdf.PdfReader(io.BytesIO(made.content)).pages) == len(cards) > 1
    refused = client.post(f"{PATH}?format=pdf", json={"units": "us", "items": EVERY[:21]})
    assert (refused.status_code, refused.json()["limit"], refused.json()["received"]) == (413, 20, 21)


@pytest.mark.parametrize(
    ("family", "size", "h_ef", "words"),
    [
        ("drop-in-zinc", "3/8", 1.625, "exactly"),
        ("drop-in-short-zinc", "3/8", 0.75, "exactly"),
        ("undercut-zinc", "3/8", 2.75, "exactly"),
        ("wedge-expansion-zinc", "1/2", 3.25, "at least"),
    ],
)
def test_a_hole_drilled_to_its_stop_is_no_least_depth(client, family, size, h_ef, words):
    """Their steps say: drill to the exact depth with the stop, or with the stop bit."""
    item = {"id": "a", "anchor": {"family": family, "size": size, "h_ef": h_ef}}
    page = client.post(f"{PATH}?format=html", json={"units": "us", "items": [item]}).text
    assert re.findall(r"Hole depth, (exactly|at least)", page) == [words]


SLAB = {
    "kind": "concrete",
    "density": "normalweight",
    "strength": {"f_c": "4000 psi"},
    "thickness": "8 in",
    "face": "soffit",
    "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
}
WEDGE = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}
DROP_IN = {"family": "drop-in-zinc", "size": "3/8", "h_ef": "1-5/8 in"}
THREADED = {"family": "large-screw-internal-thread-zinc", "size": "1/2", "h_ef": "2-1/2 in"}
SCANNED = {"post_tensioned": "yes", "scanned": True, "scanned_by": "Invented Scanning"}
LIGHT, HEAVY = ({"hangs": {"kind": "weight", "weight": each, "nature": "dead"}} for each in ("10 lb", "9000 lb"))


@pytest.mark.parametrize(
    ("anchor", "base", "more", "found"),
    [
        (WEDGE, SCANNED | {"tendon_depth": "4 in"}, {}, ["drilled-to-tendon"]),
        (WEDGE, SCANNED | {"tendon_depth": "4.1 in", "clear_cover": "3.9 in"}, {}, ["drilled-beyond-cover"]),
        (WEDGE, SCANNED | {"tendon_depth": "4.1 in", "clear_cover": "4 in"}, {}, []),
        (WEDGE, {"post_tensioned": "unknown"}, {}, ["post-tensioned-not-scanned"]),
        (DROP_IN, {"state": "cracked"}, {}, ["not-qualified-cracked"]),
        (DROP_IN, {}, {}, []),
        (DROP_IN, {}, {"seismic": {"category": "D"}}, ["not-qualified-seismic"]),
        (WEDGE, {}, {"environment": {"exposure": "pool"}}, ["pool-air"]),
        (THREADED, {}, {"rod": {"size": "3/8"}}, ["rod-thread-mismatch"]),
        (DROP_IN, {}, LIGHT, ["not-qualified-cracked"]),
        (WEDGE, {}, HEAVY, ["utilisation"]),
    ],
)
def test_a_card_says_what_the_check_has_against_it(ask_cards, anchor, base, more, found):
    """The hole of the 1/2 in wedge at 3-1/4 in is 4 in deep by its data; what an item leaves open is no reason, but
    with a load concrete is cracked unless it is stated otherwise."""
    (card,) = ask_cards({"id": "a", "anchor": anchor, "base": SLAB | base, **more})["cards"]
    assert [each["what"] for each in card["attention"]] == found


def test_a_card_tells_a_use_as_a_schedule_does(ask_cards, client):
    """1.4 x 9,000 lb on 0.65 x 4,620 lb x (4,000 / 2,500)^0.5 = 3,798.5 lb of pullout are 3.3171: 331.8 %, never less.
    The card said 3.317."""
    item = {"id": "A", "anchor": WEDGE, "base": SLAB, "seismic": {"category": "B"}, **HEAVY}
    (card,) = ask_cards(item)["cards"]
    assert card["attention"][0]["text"].endswith("governs (1.4D), utilisation 331.8%.")
    body = {"units": "us", "items": [item]}
    assert "331.8% used: pullout of the anchor (1.4D)." in client.post("/v1/hang-points?format=csv", json=body).text


def test_figures_of_another_code_are_compared_by_it(ask_cards):
    """N_Rd,p of the M10 at 65 mm in cracked C20/25 is 10.5 / (1.5 x 1.2) = 5.83 kN by its data: 4.3 kN of dead load are
    5.81 kN by (6.10) of EN 1990, 4.4 kN are 5.94 kN.
    """
    own = {"family": "en-wedge-expansion-zinc", "size": "M10", "h_ef": "65 mm"}
    answer = ask_cards({"id": "A", "anchor": own}, units="si")
    (card,) = answer["cards"]
    assert card["attention"] == []
    assert [each for each in card["notes"] if "European assessment" in each and "EN 1992-4" in each]
    assert {name: each["text"] for name, each in card["least"].items()} == {
        "edge": "50 mm",
        "spacing": "50 mm",
        "thickness": "130 mm",
    }
    assert card["torque"]["newton_metres"] == 40
    assert card["missing"] == []
    for more, found in (
        ({"base": {"post_tensioned": "unknown"}}, ["post-tensioned-not-scanned"]),
        ({"base": SCANNED | {"tendon_depth": "50 mm"}}, ["drilled-to-tendon"]),
        (pulled("4.3 kN"), []),
        (pulled("4.4 kN"), ["utilisation"]),
        ({"base": {"kind": "concrete", "density": "sand_lightweight"}}, ["base-outside-en-1992-4"]),
    ):
        (card,) = ask_cards({"id": "A", "anchor": own} | more, units="si")["cards"]
        assert [each["what"] for each in card["attention"]] == found, more
    (card,) = ask_cards({"id": "A", "anchor": own} | pulled("1 kN"), units="si", design_code="aci318_19")["cards"]
    assert [each["what"] for each in card["attention"]] == ["family-of-another-code"]


def pulled(load):
    return {"hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": load}]}}


@pytest.mark.parametrize(
    ("family", "units", "says"),
    [("small-screw-hex-zinc", "hollow", "distance to joints"), ("headed-bolt", "grouted", "before the grout")],
)
def test_cards_in_masonry_go_by_the_rules_of_masonry(ask_cards, family, units, says):
    """IBC 1705.4 and TMS 602, from memory, in place of the table for concrete and of steps at a formwork."""
    own = CATALOGUE.families[family]
    base = {"kind": "masonry", "masonry": {"units": units, "material": "concrete", "location": "face"}}
    (card,) = ask_cards({"id": "a", "anchor": anchor(own, own.sizes[0], own.sizes[0].embedments[0]), "base": base})[
        "cards"
    ]
    assert "TMS 602" in card["inspection"]["clause"]
    assert "318" not in card["inspection"]["clause"]
    assert says in card["inspection"]["text"]
    assert not any("formwork" in each or "pour" in each for each in card["setting"])


def test_a_converted_least_distance_is_not_below_it(ask_cards):
    """2-1/4 in are 57.15 mm, so 57.2 and not 57.1."""
    own = {"id": "a", "anchor": {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": "1-3/4 in"}}
    (card,) = ask_cards(own, units="si")["cards"]
    assert card["least"]["spacing"]["text"] == "2-1/4 in (= 57.2 mm)"


def test_least_figures_go_up_and_most_figures_down(ask_cards):
    """2-3/8 in are 60.325 mm, 30 ft-lb 40.675 N m; insert 3/4: 7/8 to 1-1/8 in are 22.225 to 28.575 mm. A hole drilled
    to its stop has the nearest figure: 1-5/8 in are 41.275 mm."""
    bond = {"family": "adhesive-fast-rod-36", "size": "3/8", "h_ef": "2-3/8 in"}
    torqued = {"family": "adhesive-fast-rod-36", "size": "1/2", "h_ef": "2-3/4 in"}
    insert = {"family": "cast-in-insert-form-zinc", "size": "3/4", "h_ef": "2-1/2 in"}
    plug = {"family": "drop-in-zinc", "size": "3/8", "h_ef": "1-5/8 in"}
    metric = {"family": "undercut-stainless-metric", "size": "M8", "h_ef": "60 mm"}
    asked = [{"id": str(at), "anchor": own} for at, own in enumerate((bond, torqued, insert, plug))]
    glued, tight, cast, driven = ask_cards(*asked, units="si")["cards"]
    assert [glued["marks"][name]["text"] for name in ("h_ef", "h_nom")] == ["2-3/8 in (= 60.4 mm)"] * 2
    assert glued["hole"]["depth"]["text"] == "2-3/8 in (= 60.4 mm)"
    assert glued["hole"]["diameter"]["text"] == "7/16 in (= 11.1 mm)"
    assert tight["torque"]["text"].startswith("30 ft-lb (40.6 N·m)")
    assert [cast["thread"][name]["text"] for name in ("least", "most")] == [
        "7/8 in (= 22.3 mm)",
        "1-1/8 in (= 28.5 mm)",
    ]
    assert driven["hole"]["depth"]["text"] == "1-5/8 in (= 41.3 mm)"
    (own,) = ask_cards({"id": "a", "anchor": metric}, units="us")["cards"]
    assert own["torque"]["text"].startswith("20 N·m (14.7 ft-lb)")  # 14.751 ft-lb


def test_turns_of_a_rod_are_neither_below_the_least_nor_above_the_most(ask_cards):
    """1/2-13: 5/8 to 7/8 in are 8.125 to 11.375 turns."""
    insert = {"family": "cast-in-insert-deck-zinc", "size": "1/2", "h_ef": "1-3/4 in"}
    (own,) = ask_cards({"id": "a", "anchor": insert})["cards"]
    assert (own["thread"]["turns_least"], own["thread"]["turns_most"]) == (8.2, 11.3)


def test_what_is_below_a_least_distance_never_reads_like_it(ask_cards):
    """An edge of 2.9998 in below the least of 3 in was said to be 3.000 in; a least of 7/3 in is 2.334 in."""
    stated = {**INLINE, "embedment": {**INLINE["embedment"], "s_min": 7 / 3}}
    base = {"kind": "concrete", "edges": {"x_minus": 2.9998}}
    (own,) = ask_cards({"id": "a", "anchor": {"product": stated}, "base": base})["cards"]
    assert own["least"]["spacing"]["text"] == "2.334 in"
    texts = [each["text"] for each in own["attention"] if each["what"].startswith("edge")]
    assert texts == ["edge at −x of 2.999 in is below the least of 3 in."]


def test_a_product_inline_over_a_default_by_name_is_checked_for_its_card(client):
    """1.4 x 9,000 lb against 0.65 x 1,500 lb x (4,000 / 2,500)^0.5 = 1,233 lb of pullout: it fails."""
    pulled = {"kind": "forces", "components": [{"nature": "dead", "tension": "9000 lb"}]}
    stated = {
        "units": "us",
        "defaults": DEFAULTS,
        "items": [{"id": "A", "hangs": pulled, "anchor": {"product": INLINE}}],
    }
    (made,) = client.post("/v1/installation-cards", json=stated).json()["cards"]
    assert made["product"] == "inline"
    assert [(each["id"], each["what"]) for each in made["attention"]] == [("A", "utilisation")]


def test_a_card_with_project_and_remarks_stays_on_its_page(client):
    """Of the longest, those of adhesives, each of these had a second page with `Used by` alone."""
    thin = {"kind": "concrete", "thickness": "3 in"}
    glued = [row for row in ROWS if row[0].principle == "adhesive" and row[2].h_ef < 2.9]
    stated = {"hole": "dry", "temperature": "a"}
    items = [
        {"id": f"A{at}", "anchor": {**anchor(*row), "adhesive": stated}, "base": thin} for at, row in enumerate(glued)
    ]
    project = {"name": "Invented clinic", "number": "IC-1", "date": "2026-03-02"}
    made = client.post(f"{PATH}?format=pdf", json={"units": "us", "project": project, "items": items})
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made.content)).pages]
    assert len(pages) == len(items) == 12
    assert all(f"A{at}: thickness of 3 in" in page and "Used by" in page for at, page in enumerate(pages))
