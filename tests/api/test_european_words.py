"""Answers, sheets and cards by EN 1992-4 speak of it: no clause, symbol or advice of another code where it has its own.

The words forbidden here are those of ACI 318-19 and ASCE 7; the symbols expected are of EN 1992-4:2018, 3.2.
"""

import re

import pytest

from api.bodies import STUD_WITHOUT_SPLITTING
from api.test_european_figures import INLINE

NONE = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
BASE = {
    "kind": "concrete",
    "strength": {"class": "C25/30"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "200 mm",
    "face": "soffit",
    "edges": NONE,
}
ANCHOR = {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": "65 mm"}
PAIR = {"pattern": "row", "count": 2, "spacing": "120 mm"}
AMERICAN = re.compile(r"ACI 318|ASCE|chapter 17|[NV]_ua|17\.10|f'c\b")


def load(nature="dead", **parts):
    return {"nature": nature, **parts}


def point(*components, anchor=ANCHOR, base=(), **fields):
    stated = {"kind": "forces", "components": list(components) or [load(tension="2 kN")]}
    return {"id": "E-1", "hangs": stated, "anchor": anchor, "base": BASE | dict(base), **fields}


@pytest.fixture
def ask(client):
    def post(*points, **top):
        items = [own | {"id": f"E-{at}"} for at, own in enumerate(points)]
        body = {"units": "si", "design_code": "en1992_4", "items": items, **top}
        answer = client.post("/v1/hang-points", json=body)
        assert answer.status_code == 200, answer.text
        return answer

    return post


def lines(item):
    return [(section["record"], line) for section in item["trace"] for line in section["lines"]]


LOADS = (
    load(tension="2 kN", shear_x="0.5 kN"),
    load("snow", tension="1 kN"),
    load("wind", shear_x="0.5 kN"),
    load("thermal", shear_y="0.2 kN"),
)


def test_a_trace_cites_no_american_standard(ask):
    (item,) = ask(point(*LOADS, base={"edges": NONE | {"x_plus": "100 mm"}}), detail="trace").json()["items"]
    clauses = {line["clause"] for _, line in lines(item) if "clause" in line}
    assert "EN 1990 6.4.3" in clauses
    assert not [clause for clause in clauses if AMERICAN.search(clause)]


def test_the_trace_of_a_lone_fastener_is_the_same_beside_a_plate(ask):
    lone, plate = point(*LOADS), {"plate": {"width_x": "250 mm", "width_y": "200 mm"}}
    (alone,) = ask(lone, detail="trace").json()["items"]
    beside, _ = ask(
        lone, point(*LOADS, anchor=ANCHOR | {"layout": PAIR}, attachment=plate), detail="trace", neighbours="off"
    ).json()["items"]
    assert beside["trace"] == alone["trace"]
    assert not [section for section in alone["trace"] if "anchor" in section]


def test_loads_have_the_symbols_of_the_european_codes(ask):
    plate = {"plate": {"width_x": "250 mm", "width_y": "200 mm"}}
    own = point(*LOADS, anchor=ANCHOR | {"layout": PAIR}, attachment=plate)
    (item,) = ask(own, detail="trace").json()["items"]
    symbols = {line["symbol"] for _, line in lines(item)}
    assert {"N_Ed", "V_Ed", "N_Ed,i"} <= symbols
    assert not [symbol for symbol in symbols if re.search(r"_ua?\b", symbol)]


def test_under_aci_318_19_they_keep_their_own(client):
    base = {**BASE, "strength": {"f_c": "25 MPa"}}
    own = point(*LOADS, base=base, anchor={"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3.25 in"})
    body = {"units": "si", "detail": "trace", "items": [own | {"seismic": {"category": "B"}}]}
    (item,) = client.post("/v1/hang-points", json=body).json()["items"]
    symbols = {line["symbol"] for _, line in lines(item)}
    assert {"N_ua", "V_ua"} <= symbols
    assert "ASCE 7 2.3" in {line.get("clause") for _, line in lines(item)}


def test_what_is_shared_with_other_codes_has_no_clause_of_theirs(ask):
    screw = {"family": "en-screw-zinc", "size": "10", "h_ef": "50 mm"}
    free = {"plate": {"width_x": "250 mm", "width_y": "250 mm", "support": "free"}}
    square = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": "150 mm", "spacing_y": "150 mm"}
    answer = ask(
        point(anchor=screw),
        point(load(tension="4 kN", moment_x="1 kN*m"), anchor=ANCHOR | {"layout": square}, attachment=free),
        point(load(tension="-1 kN")),
        point(load(tension="0 kN")),
        point(base={"age_days": 7}),
    ).json()
    codes = {found["code"] for item in answer["items"] for found in item.get("findings", ())}
    assert {"not-for-reuse", "anchor-pushed", "plate-thickness-unknown", "no-load"} <= codes
    assert answer["items"][2]["reason"]["code"] == "compression-not-covered"
    said = [answer["not_checked"], answer["assumptions"], answer["items"]]
    assert not AMERICAN.findall(str(said))


def test_what_only_another_code_reads_of_a_base_is_not_dropped_unsaid(ask):
    answer = ask(
        point(base={"supplementary": True}),
        point(base={"edge_reinforcement": "edge_bar_and_stirrups"}),
        point(base={"supplementary": False, "edge_reinforcement": "none"}),
    ).json()
    first, second, third = answer["items"]
    for item, name in ((first, "supplementary"), (second, "edge_reinforcement")):
        assert item["status"] == "invalid"
        (error,) = item["problem"]["errors"]
        assert error["pointer"].endswith(f"/base/{name}")
        assert "en1992_4" in error["detail"]
    assert third["status"] == "passed"


def test_advice_leads_to_what_this_code_takes(ask):
    """A gap is not to be filled with grout that is refused next, and bars stand in for figures of splitting."""
    answer = ask(
        point(load(tension="2 kN", shear_x="1 kN"), attachment={"gap": "20 mm"}),
        point(anchor={"product": STUD_WITHOUT_SPLITTING}, base={"edges": NONE | {"x_plus": "300 mm"}}),
    ).json()
    gap, splitting = (item["reason"] for item in answer["items"])
    assert gap["clause"] == "EN 1992-4 6.2.2.3"
    assert "grout pad, or" not in gap["text"]
    assert "splitting_reinforcement" in splitting["text"]


@pytest.mark.parametrize("name", ["base-interviews", "test-plans", "existing-anchors", "hanger-loads", "fixtures"])
def test_what_takes_no_design_code_says_so(client, name):
    """Its request refuses the member, and its description names the code that it is not by."""
    stated = {"units": "si", "design_code": "en1992_4"}
    told = client.post(f"/v1/{name}", json=stated).json()["errors"]
    assert "#/design_code" in [error["pointer"] for error in told]
    described = client.get("/openapi.json").json()["paths"][f"/v1/{name}"]["post"]["description"]
    assert "EN 1992-4" in described
    assert "design code" in described


def test_a_weld_needs_no_hole(ask):
    stud = {"family": "en-headed-stud", "size": "16", "h_ef": "125 mm", "layout": PAIR}
    own = point(load(tension="2 kN", shear_x="1 kN"), anchor=stud)
    bolted, welded = ask(own, own | {"attachment": {"welded": True}}).json()["items"]
    codes = [[found["code"] for found in item["findings"]] for item in (bolted, welded)]
    assert codes == [["fastener-hole-clearance"], []]


@pytest.mark.parametrize(
    ("one", "other", "said"),
    [("both", "both", True), ("y", "both", True), ("none", "both", False), ("x", "y", False), ("y", "y", True)],
)
def test_holes_matter_where_several_fasteners_take_shear(ask, one, other, said):
    """Of two fasteners one has a slot: what the other takes alone is shared with nobody, however wide its hole is."""
    layout = [{"x": f"{60 * side} mm", "y": 0, "resists": own} for side, own in ((-1, one), (1, other))]
    anchor = {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": "65 mm", "layout": layout}
    shears = {f"shear_{axis}": "1 kN" for axis in "xy" if {axis, "both"} & {one, other}}
    found = ask(point(load(tension="2 kN", **shears), anchor=anchor))
    (item,) = found.json()["items"]
    assert ("fastener-hole-clearance" in [each["code"] for each in item["findings"]]) is said, item


def page(ask, client, *points):
    items = [own | {"id": f"E-{at}"} for at, own in enumerate(points)]
    body = {"units": "si", "design_code": "en1992_4", "items": items}
    text = client.post("/v1/hang-points?format=html", json=body).text
    return re.sub(r"<style.*?</style>", "", text, flags=re.DOTALL)


def plain(text):
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", text))


def test_a_sheet_speaks_of_the_european_code(ask, client):
    own = point(*LOADS, base={"edges": NONE | {"x_plus": "100 mm"}})
    text = plain(page(ask, client, own))
    assert "Arrow: VEd of" in text
    assert "In N and mm, the units of EN 1992-4" in text
    for american in ("Nua", "Vua", "ca1", "ASCE", "ACI 318", "lbf", "psi", " in²"):
        assert american not in text, american


def test_loads_and_plates_of_a_sheet_are_in_newtons_and_millimetres(ask, client):
    """By hand: 1.35 of 2 kN pulls with 2700 N, 1.35 of 0.5 kN at 100 mm above the plate turns it by 67500 N mm."""
    plate = {"width_x": "200 mm", "width_y": "200 mm", "support": "concrete"}
    anchor = ANCHOR | {"layout": PAIR}
    pulled = point(load(tension="2 kN", shear_x="0.5 kN"), anchor=anchor, attachment={"plate": plate})
    pulled["hangs"] |= {"at": {"z": "100 mm"}}
    text = plain(page(ask, client, pulled))
    assert re.search(r"=1\.35 ·2000as contents act as combined: yes2700 N", text)
    assert "My=z of the load ·Vx −x of the load ·N =100 ·675 −0 ·270067500 N·mm" in text
    assert "Es = 200000 N/mm²" in text  # 200 GPa, EN 1992-1-1 3.2.7(4), from memory
    assert "What stands in lbf" not in text
    pipe = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water"}
    hung = point() | {"hangs": pipe | {"sprinkler": False, "run": {"spans": ["3 m", "3 m"], "support": 1}}}
    text = plain(page(ask, client, hung))
    assert "What stands in lbf, in, ft or psi has factors that belong to these units." in text
    assert re.search(r"10\.801 lbf/ft \(157\.62 N/m\)", text)


def test_figures_of_an_assessment_stand_on_a_sheet_under_their_symbols(ask, client):
    own = {"n_rk_p_cr": 22, "psi_c_exponent": 0.5, "gamma_inst": 1.0, "c_cr_sp": 130, "k8": 2.0, "k_cr_n": 7.7}
    product = INLINE | {"embedment": INLINE["embedment"] | {"en": own}}
    text = plain(page(ask, client, point(anchor={"product": product})))
    for shown in ("size, fuk", "size, fyk", "size, As", "NRk,p,cr", "γinst", "ccr,sp", "k8", "kcr,N"):
        assert shown in text, shown
    for american in ("futa", "fya", "Ase"):
        assert american not in text, american


def test_a_power_stands_behind_a_symbol_and_not_behind_words(ask, client):
    """(7.55) and the resultant of two shears: what is raised is a symbol alone, or stands in brackets."""
    own = point(*LOADS, base={"edges": NONE | {"x_plus": "100 mm"}})
    text = page(ask, client, own)
    assert re.search(r"<msup><mrow><mrow><mo>\(</mo><msub><mi>V</mi><mtext>Ed</mtext></msub><mtext> towards", text)
    assert not re.search(r"<mtext> (towards|along) the edge</mtext></mrow><mrow><mn>2", text)
    assert "^" not in plain(text)
    assert "not taken" not in "".join(re.findall(r"<math.*?</math>", text))


def test_greek_letters_of_an_assumption_are_set_as_such(ask, client):
    text = page(ask, client, point())
    assert "psi_" not in plain(text)
    assert "gamma_" not in plain(text)
    assert "ψ" in plain(text)


def test_a_card_of_a_european_product_cites_its_own_rules(client):
    body = {"units": "si", "design_code": "en1992_4", "items": [point()]}
    answer = client.post("/v1/installation-cards", json=body).json()
    screw = point(anchor={"family": "en-screw-zinc", "size": "10", "h_ef": "50 mm"})
    reused = client.post("/v1/installation-cards", json=body | {"items": [screw]}).json()
    for made in (answer, reused):
        (card,) = made["cards"]
        assert card["inspection"]["clause"].startswith("EN 1992-4 annex F")
        assert not re.search(r"ACI|IBC|\(17\.", str(card)), card


@pytest.mark.parametrize(("strength", "limit"), [("C20/25", None), ("C50/60", None), ("C55/67", 50), ("C90/105", 50)])
def test_figures_of_tests_in_stronger_concrete_are_told_of(ask, strength, limit):
    """Post-installed fasteners are assessed in C20/25 to C50/60 (from memory of the European assessment documents)."""
    base = {"strength": {"class": strength}}
    drilled, cast = ask(point(base=base), point(base=base, anchor=STUD)).json()["items"]
    code = "fastener-concrete-beyond-assessment"
    found = [each["limit"] for each in drilled["findings"] if each["code"] == code]
    assert found == ([] if limit is None else [pytest.approx(limit)])
    assert code not in [each["code"] for each in cast["findings"]]


@pytest.mark.parametrize("strength", ["C12/15", "C16/20"])
def test_figures_of_tests_do_not_hold_in_weaker_concrete(ask, strength):
    base = {"strength": {"class": strength}}
    drilled, cast = ask(point(base=base), point(base=base, anchor=STUD)).json()["items"]
    assert drilled["reason"]["code"] == "concrete-below-assessment"
    assert cast["status"] in ("passed", "failed")


STUD = {"family": "en-headed-stud", "size": "16", "h_ef": "125 mm"}
