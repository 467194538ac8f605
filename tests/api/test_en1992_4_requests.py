"""What a request by EN 1992-4 may state, what it is refused for, its loads, units, traces and forms."""

import json
import random

import pytest

from api.bodies import GONE, STUD_WITHOUT_SPLITTING
from api.en_bodies import BASE, EN, NONE, PIPE, PULL, STUD, WEDGE, en_item, row_of
from api.test_answers import recalculated
from api.test_en1992_4 import drawn
from hangpoint.api.media import CSV

UNCRACKED = {"base__state": "uncracked", "base__state_decided_by": "engineer of record"}
DECK = {"flute": "lower", "flute_width": 120, "offset": 0, "cover": 90, "sheet": 0.9}
MASONRY = {"units": "grouted", "material": "concrete", "location": "face", "f_m": 10}


@pytest.fixture
def ask(send):
    """The result of one item by EN 1992-4."""

    def of(item, **top):
        return send({**EN, "detail": "modes", "items": [item], **top}, status=200)["items"][0]

    return of


def pulled(nature, **more):
    return {"kind": "forces", "components": [{"nature": "dead", "tension": 1.0}, {"nature": nature, **more}]}


REFUSED = [
    (en_item(hangs=pulled("earthquake", tension=1), seismic={"s_ds": 0.5}), {}, "earthquake-under-en-1992-4"),
    (en_item(seismic={"s_ds": 0.5}), {}, "earthquake-under-en-1992-4"),
    (en_item(seismic={"category": "C"}), {}, "earthquake-under-en-1992-4"),
    (en_item(base__density="sand_lightweight"), {}, "base-outside-en-1992-4"),
    (en_item(base={**BASE, "kind": "deck", "deck": DECK}), {}, "base-outside-en-1992-4"),
    (
        en_item(base={"kind": "masonry", "face": "side", "thickness": 200, "edges": NONE, "masonry": MASONRY}),
        {},
        "base-outside-en-1992-4",
    ),
    (en_item(base={"kind": "hollow_core", "thickness": 200, "edges": NONE}), {}, "base-outside-en-1992-4"),
    (en_item(hangs={**PIPE, "sprinkler": True}), {}, "sprinkler-rule-under-en-1992-4"),
    (en_item(hangs=pulled("sprinkler_rule", tension=1)), {}, "sprinkler-rule-under-en-1992-4"),
    (en_item(), {"combinations": "allowable"}, "allowable-under-en-1992-4"),
    (
        en_item(base__anchor_reinforcement={"tension": {"area": 100, "f_y": 420}}),
        {},
        "supplementary-reinforcement-under-en-1992-4",
    ),
    (en_item(attachment={"grout_pad": True}), {}, "lever-arm-unstated"),
    (en_item(attachment={"gap": 10}), {}, "lever-arm-unstated"),
    (en_item(attachment={"grout_thickness": 20, "grout_strength": 40}), {}, "lever-arm-unstated"),
    (
        en_item(attachment={"thickness": 10, "plate": {"width_x": 200, "width_y": 200, "support": "free"}}),
        {},
        "lever-arm-unstated",
    ),
    (
        en_item(
            hangs=pulled("earthquake", tension=1, shear_x=1),
            seismic={"design_option": "elastic_design", "performance_category": "C1"},
            attachment={"gap": 10, "thickness": 10},
        ),
        {},
        "lever-arm-under-earthquake",
    ),
    (
        en_item(anchor={"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}),
        {},
        "family-without-european-data",
    ),
    (
        en_item(base__strength={"f_c": 25}, seismic={"category": "A"}),
        {"design_code": "aci318_19"},
        "family-of-another-code",
    ),
    (en_item(anchor={"family": "en-drop-in-zinc", "size": "M10", "h_ef": 40}), {}, "not-assessed-in-state"),
    (en_item(anchor={"product": STUD_WITHOUT_SPLITTING}), {}, "no-splitting-data"),
    (en_item(anchor__layout=row_of(10), base__edges=NONE), {}, "fastener-group-beyond-scope"),
    (en_item(hangs=pulled("dead", tension=-2)), {}, "compression-not-covered"),
    (
        en_item(hangs={"kind": "weight", "weight": 3, "nature": "dead"}),
        {"combinations": "given_factored"},
        "service-load-with-factored-combinations",
    ),
    (en_item(base__post_tensioned="unknown"), {}, "post-tensioned-not-scanned"),
]


@pytest.mark.parametrize(("item", "top", "code"), REFUSED, ids=lambda own: own if isinstance(own, str) else "")
def test_what_is_not_covered_is_refused_by_name(ask, item, top, code):
    result = ask(item, **top)
    assert (result["status"], (result.get("reason") or result)["code"]) == ("refused", code)
    assert not any(mode["mode"].startswith("en_") for mode in result["modes"])


def test_an_inline_product_says_what_it_is_fit_for(ask):
    """Silent traits are refused, by the reasons that hold for every code."""
    own = {
        "units": "si",
        "principle": "undercut",
        "basis": "en",
        "size": {"size": "M10", "d_a": 18, "a_se": 58, "f_uta": 800, "f_ya": 640, "ductile": True},
        "embedment": {
            "h_ef": 80,
            "h_min": 160,
            "c_min": 80,
            "s_min": 90,
            "en": {"n_rk_p_cr": 22, "psi_c_exponent": 0.5, "gamma_inst": 1.0, "c_cr_sp": 130, "k8": 2.0},
        },
    }
    assert ask(en_item(anchor={"product": own}))["reason"]["code"] == "not-for-tension-overhead"
    own["traits"] = {"tension_overhead": True}
    assert ask(en_item(anchor={"product": own}))["reason"]["code"] == "not-for-sustained-tension"
    own["traits"]["sustained_tension"] = True
    assert ask(en_item(anchor={"product": own}))["status"] in ("passed", "failed")


CONTRADICTIONS = [
    (en_item(base__strength={"f_c": 25, "class": "C25/30"}), "base/strength/f_c", "contradiction"),
    (en_item(base__strength={"class": "C26/30"}), "base/strength/class", "value"),
    (en_item(base__strength={}), "base/strength/class", "missing"),
    (en_item(base__strength=GONE), "base/strength/class", "missing"),
    (en_item(options={"oblique_shear": "linear"}), "options/oblique_shear", "contradiction"),
    (en_item(options={"interaction": "power_5_3"}), "options/interaction", "contradiction"),
    (en_item(options={"group_area": "rectangle"}), "options/group_area", "contradiction"),
    (en_item(rod={"size": "M10", "rule": "tensile_strength"}), "rod/rule", "contradiction"),
    (en_item(base__splitting_reinforcement=True, **UNCRACKED), "base/splitting_reinforcement", "contradiction"),
]
OF_EN_ALONE = [
    (en_item(base__bar_spacing="wide"), "base/bar_spacing"),
    (en_item(base__splitting_reinforcement=True), "base/splitting_reinforcement"),
    (en_item(options={"near_row": "own_share"}), "options/near_row"),
    (en_item(), "base/strength/class"),
]


@pytest.mark.parametrize(("item", "place", "code"), CONTRADICTIONS, ids=lambda own: own if isinstance(own, str) else "")
def test_what_contradicts_itself(ask, item, place, code):
    (error,) = ask(item)["problem"]["errors"]
    assert (error["pointer"], error["code"]) == (f"#/items/0/{place}", code)


@pytest.mark.parametrize(("item", "place"), OF_EN_ALONE, ids=lambda own: own if isinstance(own, str) else "")
def test_what_is_of_en_1992_4_alone(ask, item, place):
    errors = ask(item, design_code="aci318_19")["problem"]["errors"]
    assert (f"#/items/0/{place}", "contradiction") in {(own["pointer"], own["code"]) for own in errors}


# Loads


def used(result):
    return {mode["mode"]: mode["utilisation"] for mode in result["modes"] if mode["applies"]}


def test_a_pipe_with_contents(ask):
    """1.35 of the pipe and 1.5 of what is in it, by the steel, which is in proportion to the load.

    NPS 4, schedule 40, ASME B36.10M: 4.5 in x 0.237 in, 16.08 kg/m (10.79 lb/ft); water in 4.026 in: 8.213 kg/m.
    """
    result = ask(en_item(hangs=PIPE))
    g = 9.80665e-3
    factored = 1.35 * 16.08 * 3 * g + 1.5 * 8.213 * 3 * g
    assert result["demand"]["factored_tension"] == pytest.approx(factored, rel=2e-3)
    assert result["demand"]["load_case"] == "1.35G+1.5C"
    steel = next(mode for mode in result["modes"] if mode["mode"] == "en_steel_tension")
    assert steel["demand"] == result["demand"]["factored_tension"]


def test_loads_as_given_are_taken_as_they_are(ask):
    """Factored by whoever gives them: as much as a dead load of 1/1.35 of it."""
    case = {"name": "ULS 1", "components": [{"nature": "dead", "tension": 2.7, "shear_x": 2.7}]}
    given = ask(en_item(hangs={"kind": "forces", "load_cases": [case]}), combinations="given_factored")
    assert used(given) == pytest.approx(used(ask(en_item())), rel=1e-12)
    assert given["governing"]["load_case"] == "ULS 1"


def test_wind_and_snow_lead_in_turn(ask):
    """1.35 x 1 + 1.5 x 3 + 1.5 x .7 x 2 with wind leading, 1.35 x 1 + 1.5 x 2 + 1.5 x .6 x wind with snow."""
    loads = [("dead", 1.0), ("wind", 3.0), ("snow", 2.0)]
    hangs = {"kind": "forces", "components": [{"nature": nature, "tension": size} for nature, size in loads]}
    result = ask(en_item(hangs=hangs))
    assert result["demand"]["factored_tension"] == pytest.approx(1.35 + 4.5 + 2.1, rel=1e-12)
    hangs["components"][1]["tension"] = 2.0
    assert ask(en_item(hangs=hangs))["demand"]["factored_tension"] == pytest.approx(1.35 + 3.0 + 2.1, rel=1e-12)
    hangs["components"][1]["tension"] = 1.0
    assert ask(en_item(hangs=hangs))["demand"]["factored_tension"] == pytest.approx(1.35 + 3.0 + 0.9, rel=1e-12)


def test_no_load(ask):
    result = ask(en_item(hangs={"kind": "forces", "components": [{"nature": "dead", "tension": 0}]}))
    assert [own["code"] for own in result["findings"]] == ["no-load"]
    assert set(used(result).values()) <= {0.0}


# Units, traces


def in_us(value, name=""):
    """The same request with its units written beside each number."""
    if name in ("product", "adhesive"):
        return value
    if isinstance(value, dict):
        return {key: in_us(inner, key) for key, inner in value.items()}
    if isinstance(value, list):
        return [in_us(inner, name) for inner in value]
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    unit = "kN" if name in ("tension", "shear_x", "shear_y") else "kN*m" if name in MOMENTS else "mm"
    return f"{value!r} {unit}"


MOMENTS = ("moment_x", "moment_y", "torsion")


def test_the_same_in_us_units(send):
    rng = random.Random(7)
    items = [drawn(rng, at)[0] for at in range(120)]
    si, us = (
        send({**EN, "units": units, "detail": "modes", "neighbours": "off", "items": own}, status=200)["items"]
        for units, own in (("si", items), ("us", [in_us(own) for own in items]))
    )
    seen = 0
    for one, other in zip(si, us, strict=True):
        assert one["status"] == other["status"]
        if one["status"] == "refused":
            assert one["reason"] == other["reason"]
            continue
        assert used(other) == pytest.approx(used(one), rel=1e-9)
        assert one["governing"]["mode"] == other["governing"]["mode"]
        for a, b in zip(one["modes"], other["modes"], strict=True):
            if a["applies"] and "interaction" not in a["mode"]:
                assert b["design_strength"] == pytest.approx(a["design_strength"] / 4.4482216152605e-3, rel=1e-9)
        seen += 1
    assert seen > 80


TRACED = [
    en_item(),
    en_item(anchor__layout={"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 80, "spacing_y": 80}),
    en_item(anchor=STUD, base__edges={**NONE, "x_plus": 61}, base__splitting_reinforcement=True),
    en_item(base__edges={"x_minus": 70, "x_plus": 70, "y_minus": 70, "y_plus": 90}, base__thickness=130),
    en_item(anchor={"family": "en-screw-zinc", "size": "10", "h_ef": 68}, **UNCRACKED),
    en_item(hangs=PIPE, base__bar_spacing="wide"),
    en_item(hangs=pulled("wind", tension=2, shear_x=1)),
    en_item(hangs=pulled("thermal", tension=2), anchor__layout=row_of(3)),
]


@pytest.mark.parametrize("at", range(len(TRACED)))
def test_a_trace_can_be_recalculated_from_the_answer(ask, at):
    result = ask(TRACED[at], detail="trace")
    assert sum(recalculated(section) for section in result["trace"]) > 8
    applied = {mode["mode"]: mode for mode in result["modes"] if mode["applies"]}
    traced = {section["mode"]: section for section in result["trace"] if "mode" in section}
    assert traced.keys() == applied.keys()
    clauses = [line["clause"] for section in result["trace"] for line in section["lines"] if "clause" in line]
    assert clauses
    assert not [clause for clause in clauses if clause.startswith(("ASCE", "ACI", "17."))]
    for name, section in traced.items():
        last = {line["name"]: line for line in section["lines"]}
        assert last["utilisation"]["value"] == applied[name]["utilisation"]
        for key in ("design_strength", "demand"):
            unit = {"N": 1000.0, "": 1.0}[last[key]["unit"]]
            assert last[key]["value"] / unit == pytest.approx(applied[name][key], rel=1e-12), name


def in_newtons(result):
    """Tension and shear of each fastener by the number in its layout, as the trace converts them."""
    made = {}
    for section in result["trace"]:
        lines = {line["name"]: line["value"] for line in section["lines"]}
        if section["record"] in ("FastenerTension", "FastenerShear"):
            kind = section["record"][8:]
            pounds, newtons = (lines[f"{kind[0].lower().replace('t', 'n').replace('s', 'v')}_{unit}"] for unit in UNITS)
            assert newtons == pytest.approx(pounds * 4.4482216152605, rel=1e-12)
            made.setdefault((kind, section["load_case"]), {})[section.get("anchor")] = newtons
    return made


UNITS = ("pounds", "newtons")


def test_a_trace_converts_the_forces_on_each_fastener(ask):
    """1.35 x 2 kN of tension and of shear are 2,700 N each at a lone fastener; of a row of three thirds of it."""
    alone = in_newtons(ask(en_item(), detail="trace"))
    assert {own: list(forces.values()) for own, forces in alone.items()} == {
        ("Tension", "1.35G+1.5C"): [pytest.approx(2700)],
        ("Shear", "1.35G+1.5C"): [pytest.approx(2700)],
    }
    row = in_newtons(ask(en_item(anchor__layout=row_of(3)), detail="trace"))
    assert all(forces == dict.fromkeys(range(3), pytest.approx(900)) for forces in row.values())


def test_a_trace_of_factored_loads_has_their_lines(ask):
    factored = {"kind": "forces", "sustained_fraction": 0.5, "components": [{"nature": "dead", "tension": 3}]}
    result = ask(en_item(hangs=factored), detail="trace", combinations="given_factored")
    demand = next(section for section in result["trace"] if section["record"] == "AnchorDemand")
    lines = {line["name"]: line for line in demand["lines"]}
    assert lines["n_factored"]["value"] == pytest.approx(3000 / 4.4482216152605)
    assert "gamma_given * n_factored" in lines["n_ua"]["formula"]
    assert recalculated(demand) > 2


# Forms

HEADER = (
    "id,hangs.kind,hangs.weight [kN],hangs.nature,family,anchor_size,h_ef [mm],base.kind,base.density,"
    "base.strength.class,base.state,thickness [mm],edge_x_minus,edge_x_plus,edge_y_minus,edge_y_plus\n"
)
ROW = "{id},weight,3,dead,en-wedge-expansion-zinc,M12,65,concrete,normalweight,{cls},cracked,250,none,none,none,200\n"


def as_json(strength_class):
    hangs = {"kind": "weight", "weight": 3, "nature": "dead"}
    return en_item(hangs=hangs, base__strength={"class": strength_class}, base__edges={**NONE, "y_plus": 200})


@pytest.mark.parametrize("named", ["C20/25", "c25/30", "C90/105"])
def test_a_csv_has_a_column_of_the_class(client, ask, named):
    file = HEADER + ROW.format(id="H-1", cls=named) + ROW.format(id="H-2", cls="C26/30")
    query = "?design_code=en1992_4&units=si"
    response = client.post(
        f"/v1/hang-points{query}", content=file.encode(), headers={"content-type": CSV, "accept": "application/json"}
    )
    first, second = response.json()["items"]
    assert first["governing"]["utilisation"] == ask(as_json(named))["governing"]["utilisation"]
    assert second["status"] == "invalid"


def test_a_csv_with_a_default_class(client, ask):
    file = HEADER.replace(",base.strength.class", "") + ROW.format(id="H-1", cls="").replace(",,", ",")
    query = "?design_code=en1992_4&units=si&default.base.strength.class=C30/37"
    response = client.post(
        f"/v1/hang-points{query}", content=file.encode(), headers={"content-type": CSV, "accept": "application/json"}
    )
    assert response.status_code == 200, response.text
    assert response.json()["items"][0]["governing"]["utilisation"] == ask(as_json("C30/37"))["governing"]["utilisation"]


def test_by_chapter_17_a_csv_still_needs_the_category(client):
    response = client.post("/v1/hang-points?units=si", content=HEADER.encode(), headers={"content-type": CSV})
    assert "seismic.category" in response.json()["detail"]


def test_lines_with_defaults(send_lines, ask):
    head = {**EN, "defaults": {"base": BASE, "anchor": WEDGE, "hangs": PULL}, "detail": "verdict"}
    lines = [head, {"id": "A"}, {"id": "B", "base": {"strength": {"class": "C50/60"}}}]
    first, one, other, _ = send_lines(lines, status=200)
    assert first["design_code"]["id"] == "en1992_4"
    for own, named in ((one, "C25/30"), (other, "C50/60")):
        wanted = ask(en_item(base__strength={"class": named}))["governing"]["utilisation"]
        assert own["governing"]["utilisation"] == wanted


@pytest.mark.parametrize("form", ["text/html", "application/pdf", CSV])
def test_on_paper(client, form):
    body = {**EN, "items": [en_item(), en_item(id="B", anchor=STUD)], **({} if form == CSV else {"detail": "trace"})}
    response = client.post("/v1/hang-points", json=body, headers={"accept": form})
    assert response.status_code == 200, response.text[:300]
    if form == "text/html":
        assert "concrete cone failure" in response.text
        assert "ACI 318" not in response.text


# Limits


def test_at_the_limits(ask):
    """Deeper than the member is, three near edges, a layout over an edge: named, not failures of the service."""
    deep = ask(en_item(base__thickness=60))
    assert [own["code"] for own in deep["problem"]["errors"]] == ["impossible-geometry"]
    corner = ask(en_item(base__edges={"x_minus": 30, "x_plus": 30, "y_minus": 30, "y_plus": "none"}))
    assert "fastener-edge-below-minimum" in {own["code"] for own in corner["findings"]}
    over = ask(en_item(anchor__layout=row_of(4, 150)))
    assert [own["code"] for own in over["problem"]["errors"]] == ["beyond-edge"]
    pressed = en_item(
        hangs={"kind": "forces", "components": [{"nature": "dead", "tension": -5}]},
        base__face="top",
        base__edges=NONE,
        anchor__layout={"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 100, "spacing_y": 100},
        attachment={"plate": {"width_x": 200, "width_y": 200, "support": "concrete"}},
    )
    result = ask(pressed)
    assert result["status"] == "passed", result
    assert "plate-presses" in {own["code"] for own in result["findings"]} or set(used(result).values()) == {0.0}


def test_edges_that_disagree(send):
    """Two points of one member 100 mm apart that place its edge 50 mm apart."""
    items = [
        en_item(id=name, at={"level": "L1", "x": f"{x} mm", "y": "0 mm"}, base__edges__x_plus=edge)
        for name, x, edge in (("A", 0, 200), ("B", 100, 150))
    ]
    results = send({**EN, "items": items}, status=200)["items"]
    assert all("edges-disagree" in {own["code"] for own in each["findings"]} for each in results)


def test_the_line_of_json_is_plain(send_lines):
    """Infinite edges and resistances that never come first are words or absent, never NaN."""
    head, result, _ = send_lines([{**EN, "detail": "trace"}, en_item(base__edges=NONE)], status=200)
    assert "NaN" not in json.dumps([head, result])


@pytest.mark.parametrize(("thickness", "bends"), [(9.4, True), (9.5, False)])
def test_a_plate_of_unknown_grade_has_the_least_of_en_1993(ask, thickness, bends):
    """Two fasteners pull 7.0 kN each (1.35 x 10.37 kN / 2): t = sqrt(3 x 7,000 / 235) = 9.453 mm."""
    result = ask(
        en_item(
            anchor__layout=row_of(2, spacing=120),
            hangs={"kind": "forces", "components": [{"nature": "dead", "tension": 14 / 1.35}]},
            attachment={"plate": {"width_x": 200, "width_y": 100, "support": "concrete"}, "thickness": thickness},
        )
    )
    assert ("plate-bends" in {own["code"] for own in result["findings"]}) is bends
