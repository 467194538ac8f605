"""Reverse questions: every limit by hand or posted again to the single check, on both sides of it.

By hand, ACI 318-19: headed bolt 3/4 of invented data (h_ef 6 in, A_se 0.3345 in2, A_brg 0.911 in2, f_uta 58,000 psi,
ductile), cracked normalweight concrete of 4,000 psi; phi 0.70 without supplementary reinforcement, 0.75 for ductile
steel in tension and 0.65 in shear; k_c 24 for cast-in anchors.
"""

import math
import re

import pytest
from scipy.optimize import brentq

from api.reverse_bodies import BOLT, CORNER, PAIR, PIPE, ROW, UNCHECKED, WEDGE, body
from hangpoint.api.reverse.merge_patch import merged

N_B = 24 * math.sqrt(4000) * 6**1.5
PHI = 0.70
A_BRG, A_SE, F_UTA = 0.911, 0.3345, 58_000
PHI_N = min(0.75 * A_SE * F_UTA, PHI * 8 * A_BRG * 4000, PHI * N_B)
PHI_V = 0.65 * 0.6 * A_SE * F_UTA
FACTORED = {"nature": "dead", "tension": "9 kip"}
NEAR = 1e-4
"""Share of a limit by which it is passed over when it is posted again."""


def scaled(patch, names, factor):
    """A patch with the numbers under some names times a factor."""
    if isinstance(patch, list):
        return [scaled(each, names, factor) for each in patch]
    if not isinstance(patch, dict):
        return patch
    return {
        name: _times(value, factor) if name in names else scaled(value, names, factor) for name, value in patch.items()
    }


def _times(value, factor):
    return [each * factor for each in value] if isinstance(value, list) else value * factor


def passes(asking_back, item, patch):
    return asking_back.check(merged(item, patch))["status"] == "passed"


LIMITS = {
    "load": (BOLT, {"kind": "largest_load"}, 0, ("weight",)),
    "dead tension": (BOLT, {"kind": "largest_load"}, 1, ("tension",)),
    "further weight": (PIPE, {"kind": "largest_load"}, 0, ("weight",)),
    "tension for a pipe": (PIPE, {"kind": "largest_load"}, 1, ("tension",)),
    "edge": (BOLT, {"kind": "least_edge", "side": "x_plus"}, 0, ("x_plus",)),
    "spacing of a row": (ROW, {"kind": "least_spacing"}, 0, ("spacing",)),
    "thickness": (BOLT, {"kind": "least_thickness"}, 0, ("thickness",)),
    "strength": (merged(BOLT, {"hangs": {"weight": "10 kip"}}), {"kind": "least_strength"}, 0, ("f_c",)),
    "spans": (PIPE, {"kind": "largest_hanger_spacing"}, 0, ("spans",)),
    "factor on spans": (PIPE, {"kind": "largest_hanger_spacing"}, 1, ("spans",)),
}


@pytest.mark.parametrize("name", LIMITS)
def test_a_limit_passes_on_one_side_and_fails_on_the_other(asking_back, name):
    item, question, which, names = LIMITS[name]
    found = asking_back.question(item, **question)[which]
    worse = 1 + NEAR if found["sense"] == "largest" else 1 - NEAR
    assert passes(asking_back, item, found["patch"])
    assert passes(asking_back, item, scaled(found["patch"], names, 2 - worse))
    assert not passes(asking_back, item, scaled(found["patch"], names, worse))
    assert found["beyond"]["outcome"]["status"] != "passed"
    assert abs(found["beyond"]["value"] - found["value"]) <= found["tolerance"] * found["value"] * 1.01
    at = asking_back.check(merged(item, found["patch"]))
    assert at["governing"]["utilisation"] == pytest.approx(found["at_limit"]["utilisation"], rel=1e-12)


def test_least_edge_by_hand(asking_back):
    """17.6.2 turned round. One edge at c below 9 in: A_Nc/A_Nco = (c + 9)/18, psi_ed = 0.7 + 0.3 c/9; so that
    (c + 9)(0.7 + c/30) = 18 r with r = 1.4 D / (phi N_b), a quadratic: c = 15 (sqrt(1 + (18 r - 6.3) 4/30) - 1)."""
    r = 1.4 * 8000 / (PHI * N_B)
    c = 15 * (math.sqrt(1 + (18 * r - 6.3) * 4 / 30) - 1)
    (found,) = asking_back.question(BOLT, kind="least_edge", side="x_plus")
    assert c == pytest.approx(5.57, abs=0.01)
    assert found["value"] == pytest.approx(c, rel=2e-6)
    assert found["at_limit"]["governing"]["mode"] == "concrete_breakout_tension"
    assert [each["from_is_limit"] for each in found["intervals"]] == [True]


def test_largest_load_by_hand(asking_back):
    """phi N_n / 1.4, 1.4D governs. Far from edges: steel 0.75 A_se f_uta, pullout 0.7 x 8 A_brg f'_c, breakout
    0.7 N_b."""
    assert pytest.approx(14_551, abs=1) == PHI_N
    by_hand = PHI_N / 1.4
    stated, alone = asking_back.question(BOLT, kind="largest_load")
    assert stated["value"] * 8000 == pytest.approx(by_hand, rel=2e-6)
    assert alone["value"] == pytest.approx(by_hand, rel=2e-6)


@pytest.mark.parametrize(
    ("hangs", "rule"),
    [({"material": "copper", "size": "1", "schedule": "L"}, "sp58_copper_water 6 ft"), ({}, "sp58_water 17 ft")],
)
def test_without_a_rule_those_that_have_a_value_are_named(asking_back, hangs, rule):
    """MSS SP-58, from memory: steel of 6 in filled with water 17 ft, copper tube of 1 in 6 ft."""
    for own in asking_back.question(merged(PIPE, {"hangs": hangs}), kind="largest_hanger_spacing"):
        assert "No spacing rule is named" in own["text"]
        assert rule in own["text"]
    ruled = merged(PIPE, {"hangs": hangs | {"run": {"spacing_rule": "sp58_water"}}})
    assert not any("Rules that" in own["text"] for own in asking_back.question(ruled, kind="largest_hanger_spacing"))


def test_the_spacing_of_a_rule_is_not_rounded_beyond_it(asking_back):
    """17 ft are 5.1816 m: hangers 5.182 m apart exceed them."""
    asked = body(PIPE, units="si", question={"kind": "largest_hanger_spacing"})
    texts = [own["text"] for own in asking_back.post("/v1/reverse-checks", asked)["answers"]]
    assert all("sp58_water 5.181 m" in text for text in texts)


def test_hanger_spacing_by_hand(asking_back):
    """Tributary: the anchor carries w s, 1.4 w s = phi N_p with N_p,cr of the data (1,510 lb at 2,500 psi), phi 0.65
    for category 1. w of NPS 6 schedule 40 (6.625 and 0.280 in, ASME B36.10M) with steel 490 and water 62.4 lb/ft3."""
    inside = 6.625 - 2 * 0.280
    w = math.pi / 4 / 144 * ((6.625**2 - inside**2) * 490 + inside**2 * 62.4)
    assert w == pytest.approx(31.5, abs=0.05)
    uniform, factor = asking_back.question(PIPE, kind="largest_hanger_spacing")
    s = 0.65 * 1510 / 1.4 / w
    assert uniform["value"] == pytest.approx(s, rel=2e-6)
    assert factor["value"] == pytest.approx(s / 12, rel=2e-6)
    assert "No spacing rule is named" in uniform["text"]


def test_a_spacing_rule_is_in_the_check(asking_back):
    """SP-58: steel pipe NPS 6 with water at most 17 ft apart, which is before the anchor's limit."""
    item = merged(PIPE, {"hangs": {"run": {"spacing_rule": "sp58_water"}}})
    uniform, _ = asking_back.question(item, kind="largest_hanger_spacing")
    assert uniform["value"] == pytest.approx(17, rel=2e-6)
    assert [each["code"] for each in uniform["beyond"]["outcome"]["violations"]] == ["hanger-spacing-exceeded"]


def number_of(text):
    """The value that a sentence names: the first number behind its colon."""
    return float(re.search(r": ([\d.]*\d)", text).group(1))


@pytest.mark.parametrize(("share", "told"), [(-1.5e-6, 2.345), (1e-9, 2.346), (4e-7, 2.346), (3e-5, 2.346)])
def test_the_number_in_words_passes_too(asking_back, share, told):
    """The weight is such that phi N_n / 1.4 is 2.346 times it, more by a share: where less by a millionth and a half
    the words say 2.345, because 2.346 times the weight does not hold."""
    limit = 2.346 * (1 + share)
    item = merged(BOLT, {"hangs": {"weight": PHI_N / 1.4 / limit}})
    factor, _ = asking_back.question(item, kind="largest_load")
    assert number_of(factor["text"]) == told
    assert told <= factor["value"] <= limit * (1 + 1e-9)
    assert factor["value"] == pytest.approx(limit, rel=1.1e-6)
    assert passes(asking_back, item, {"hangs": {"weight": item["hangs"]["weight"] * told}})


def test_the_words_of_an_envelope_are_rounded_down(asking_back):
    """0.7 phi N_n / 1.4 and the like end in any digits; four of them, rounded up, would not hold."""
    for strength in ("4000 psi", "4100 psi", "4250 psi", "4400 psi"):
        item = merged(BOLT, {"base": {"strength": {"f_c": strength}}})
        request = body(item, question={"kind": "envelope", "shear_angle": 0, "points": 3})
        found = asking_back.post("/v1/reverse-checks", request)["envelope"]
        told = [float(each) for each in re.findall(r"up to ([\d.]*\d) lbf", found["text"])]
        just = [found["points"][0]["tension"], found["points"][-1]["shear"]]
        assert all(0.999 * own < each <= own * (1 + 1e-9) for each, own in zip(told, just, strict=True))


def of_reading_44(c):
    """phi N_cb / 1.4 by hand: edges 2, 2, 2 and c below 9 in; h'_ef = c/1.5, A_Nc = 4 (2 + c), A_Nco = 9 h'_ef^2."""
    h = c / 1.5
    return PHI / 1.4 * 4 * (2 + c) / (9 * h**2) * (0.7 + 0.3 * 2 / c) * 24 * math.sqrt(4000) * h**1.5


def test_two_intervals_where_the_code_is_not_monotonic(asking_back):
    """Reading 44: 1,168 lb hold at 2 in and 1,073 lb at 3 in. With 1,120 lb the point passes near 2 in, and far off."""
    assert of_reading_44(2) == pytest.approx(1168.4, abs=0.1)
    assert of_reading_44(3) == pytest.approx(1073.3, abs=0.1)
    (found,) = asking_back.question(CORNER, kind="least_edge", side="y_plus")
    first, second = found["intervals"]
    assert (first["from"], first["to"]) == pytest.approx((2, brentq(lambda c: of_reading_44(c) - 1120, 2, 3)), rel=2e-6)
    assert second["from"] == pytest.approx(brentq(lambda c: of_reading_44(c) - 1120, 3, 8.9), rel=2e-6)
    assert not second["to_is_limit"]
    assert "no single threshold" in found["text"]
    status = {row["value"]: row["status"] for row in found["table"]}
    assert [status[c] for c in (2.0, 3.0, 8.0)] == ["passed", "failed", "passed"]
    for edge, says in ((first["to"], True), (first["to"] * 1.0001, False), (second["from"], True)):
        assert passes(asking_back, CORNER, {"base": {"edges": {"y_plus": edge}}}) is says


def test_the_nearest_edge(asking_back):
    item = merged(BOLT, {"base": {"edges": {"y_minus": "7 in", "x_plus": "9 in"}}})
    (found,) = asking_back.question(item, kind="least_edge", side="nearest")
    assert found["of"].endswith("y_minus")
    assert found["stated"] == 7


def test_embedments_come_from_the_catalogue(asking_back):
    item = merged(PIPE, {"anchor": {"h_ef": "2-1/2 in"}})
    (found,) = asking_back.question(item, kind="least_embedment")
    assert [row["value"] for row in found["table"]][:2] == [1.75, 2.5]
    assert found["value"] == 1.75
    heavy = merged(item, {"hangs": {"run": {"spans": ["23 ft", "23 ft", "23 ft"]}}})
    (found,) = asking_back.question(heavy, kind="least_embedment")
    assert found["value"] == 2.5
    assert found["tolerance"] == 0
    assert not passes(asking_back, heavy, {"anchor": {"h_ef": 1.75}})


@pytest.mark.parametrize(("weight", "size", "diameter"), [(720, "3/8", 0.375), (740, "1/2", 0.5), (1340, "1/2", 0.5)])
def test_the_thinnest_rod(asking_back, weight, size, diameter):
    """Allowable loads of the hanger standard, newer table: 3/8 in 730 lb, 1/2 in 1,350 lb; from memory."""
    item = merged(BOLT, {"hangs": {"weight": f"{weight} lb"}, "rod": {"rule": "sp58_allowable"}})
    (found,) = asking_back.question(item, kind="least_rod")
    assert found["value"] == diameter
    assert found["patch"]["rod"]["size"] == size
    assert passes(asking_back, item, {"rod": {"size": size}})


def test_a_rod_fits_the_internal_thread(asking_back):
    """Common practice: no thinner rod goes into a 1/2 in drop-in, whatever it would hold."""
    drop_in = {"family": "drop-in-zinc", "size": "1/2", "h_ef": "2 in"}
    base = {"state": "uncracked", "state_decided_by": "engineer of record"}
    item = merged(BOLT, {"hangs": {"weight": "100 lb"}, "anchor": drop_in, "base": base})
    (found,) = asking_back.question(item, kind="least_rod")
    assert found["value"] == 0.5


def test_strength_and_thickness_are_the_engineers(asking_back):
    for kind in ("least_strength", "least_thickness"):
        (found,) = asking_back.question(BOLT, kind=kind)
        assert found["by_engineer"]
        assert "engineer would have to show" in found["text"]
    assert not asking_back.question(BOLT, kind="least_edge", side="x_plus")[0]["by_engineer"]


def test_strength_by_hand(asking_back):
    """Breakout goes by the root of f'_c and pullout by f'_c: 1.4 x 10,000 lb is held from the larger of the two."""
    need = 1.4 * 10_000 / PHI
    by_hand = max(4000 * (need / N_B) ** 2, need / (8 * A_BRG))
    assert by_hand > 3000
    (found,) = asking_back.question(merged(BOLT, {"hangs": {"weight": "10 kip"}}), kind="least_strength")
    assert found["value"] == pytest.approx(by_hand, rel=2e-6)


SLEEVE = {
    "id": "M",
    "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 30, "shear_y": -30}]},
    "anchor": {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": 1.25},
    "base": {
        "kind": "masonry",
        "masonry": {"units": "hollow", "material": "concrete", "f_m": "1500 psi", "location": "face"}
        | {"joint_distance": "2 in", "face_shell": "1.25 in"},
        "thickness": "7.625 in",
        "face": "side",
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
    "seismic": {"category": "B"},
}
"""By a table that holds from f'm 1500 psi on."""


@pytest.mark.parametrize(("f_m", "stated"), [("1500 psi", "passed"), ("1400 psi", "failed")])
def test_strength_of_masonry_is_its_f_m(asking_back, f_m, stated):
    """The table of the family begins at f'm 1500 psi: what passes from there is told, whatever is stated."""
    item = merged(SLEEVE, {"base": {"masonry": {"f_m": f_m}}})
    assert asking_back.check(item)["status"] == stated
    (found,) = asking_back.question(item, kind="least_strength")
    assert found["value"] == pytest.approx(1500, rel=2e-6)
    assert "f'm" in found["of"]


def test_a_load_on_a_table_is_not_said_to_be_factored(asking_back):
    """By a table 1.0 D meets the allowable load; by chapter 17 the load that is found times 1.4 meets the strength."""
    table, chapter = (
        asking_back.question(item, kind="largest_load")[1]
        for item in (merged(SLEEVE, {"hangs": {"components": [{"nature": "dead", "tension": 30}]}}), BOLT)
    )
    assert table["at_limit"]["governing"]["load_case"] == "D"
    assert table["text"].endswith("held against an allowable load: no combination factors it.")
    assert chapter["at_limit"]["governing"]["load_case"] == "1.4D"
    assert chapter["text"].endswith("It is a service load; the combinations factor it.")


def test_spacing_of_a_row_by_hand(asking_back):
    """Two bolts at s below 18 in: A_Nc/A_Nco = (s + 18)/18, concentric; 1.4 D = phi N_b (s + 18)/18."""
    s = 18 * (1.4 * 14000 / (PHI * N_B) - 1)
    (found,) = asking_back.question(ROW, kind="least_spacing")
    assert found["quantity"] == "length"
    assert found["value"] == pytest.approx(s, rel=2e-6)


def test_distance_to_a_neighbour_by_hand(asking_back):
    """Two alike points of 7,000 lb: as a group 2 x 1.4 x 7,000 lb on (s + 18)/18 phi N_b (reading 6)."""
    s = 18 * (2 * 1.4 * 7000 / (PHI * N_B) - 1)
    (found,) = asking_back.question(
        PAIR, kind="least_spacing", neighbour=merged(PAIR, {"id": "B", "at": {"x": 30}}), towards="x_minus"
    )
    assert found["value"] == pytest.approx(s, rel=2e-6)
    assert found["neighbour"]["at"]["x"] == pytest.approx(10 - s / 12, rel=2e-6)
    other = merged(merged(PAIR, {"id": "B"}), found["neighbour"])
    for factor, status in ((1, "passed"), (1 - NEAR, "failed")):
        moved = merged(other, {"at": {"x": 10 - found["value"] * factor / 12}})
        answer = asking_back.client.post("/v1/hang-points", json={"units": "us", "items": [PAIR, moved]}).json()
        assert {each["status"] for each in answer["items"]} == {status}


def test_the_envelope_by_hand(asking_back):
    """17.8.3, trilinear: n + v = 1.2 where both are above 0.2, else the one alone. Factored loads: n by phi N_n as
    above, v by steel, 0.65 x 0.6 A_se f_uta."""
    answer = asking_back.post(
        "/v1/reverse-checks",
        body(BOLT, combinations="given_factored", question={"kind": "envelope", "shear_angle": 30})
        | {"item": {**BOLT, "hangs": {"kind": "forces", "components": [FACTORED]}}},
    )
    found = answer["envelope"]
    points = found["points"]
    assert (points[0]["tension"], points[0]["shear"]) == pytest.approx((PHI_N, 0), rel=2e-6)
    assert (points[-1]["tension"], points[-1]["shear"]) == pytest.approx((0, PHI_V), rel=2e-6, abs=1e-6)
    inner = 0
    for point in points:
        n, v = point["tension"] / PHI_N, point["shear"] / PHI_V
        used = (n + v) / 1.2 if min(n, v) > 0.2 else max(n, v)
        inner += min(n, v) > 0.2
        assert used == pytest.approx(1, abs=3e-6)
        assert not point["several"]
        assert not point["open"]
    assert inner >= 5
    assert found["basis"] == "factored load"


@pytest.mark.parametrize(
    ("item", "basis"),
    [
        (SLEEVE, "dead load at service level, held against an allowable load: no combination factors it"),
        (BOLT, "dead load at service level, before its factor"),
    ],
)
def test_the_basis_of_an_envelope_is_that_of_its_check(asking_back, item, basis):
    """A table holds service loads, 1.0 D; chapter 17 takes them by 1.4 D."""
    asked = body(item, question={"kind": "envelope", "shear_angle": 0, "points": 3})
    assert asking_back.post("/v1/reverse-checks", asked)["envelope"]["basis"] == basis


def test_points_of_the_envelope_post_again(asking_back):
    item = merged(BOLT, {"base": {"edges": {"x_plus": "3 in"}}})
    answer = asking_back.post(
        "/v1/reverse-checks", body(item, question={"kind": "envelope", "shear_angle": 0, "points": 5})
    )
    points = answer["envelope"]["points"]
    assert len(points) == 5
    for point in points:
        assert passes(asking_back, item, point["patch"])
        names = ("tension", "shear_x", "shear_y")
        assert not passes(asking_back, item, scaled(point["patch"], names, 1 + NEAR))
    away = asking_back.post(
        "/v1/reverse-checks", body(item, question={"kind": "envelope", "shear_angle": 180, "points": 5})
    )
    assert away["envelope"]["points"][-1]["shear"] > 1.2 * points[-1]["shear"], "no edge on that side"


def test_si_and_us_agree(asking_back):
    """One bolt in either system: lengths by 25.4, forces by 4.4482216152605 N."""
    si = merged(
        BOLT,
        {
            "hangs": {"weight": 8000 * 4.4482216152605 / 1000},
            "anchor": {"h_ef": 152.4},
            "base": {"thickness": 254, "strength": {"f_c": "4000 psi"}},
        },
    )
    for question, factor in (
        ({"kind": "least_edge", "side": "x_plus"}, 25.4),
        ({"kind": "largest_load"}, 1),
        ({"kind": "least_thickness"}, 25.4),
    ):
        (us, *_) = asking_back.question(BOLT, **question)
        answer = asking_back.post("/v1/reverse-checks", body(si, question=question) | {"units": "si"})
        assert answer["answers"][0]["value"] == pytest.approx(us["value"] * factor, rel=4e-6)
    assert answer["answers"][0]["unit"] == "mm"


def test_a_load_that_never_passes(asking_back):
    """A drop-in without data for cracked concrete is refused whatever hangs from it."""
    item = merged(BOLT, {"anchor": {"family": "drop-in-zinc", "size": "1/2", "h_ef": "2 in"}})
    found = asking_back.question(item, kind="largest_load")
    assert [each["intervals"] for each in found] == [[], []]
    assert "patch" not in found[0]
    assert found[0]["text"].startswith(
        "Nothing on the grid passes for the factor on all stated loads: whatever it is, it is refused"
        " (not-qualified-cracked): this product is not qualified in cracked concrete, and the concrete is cracked."
    )
    assert {row["status"] for row in found[0]["table"]} == {"refused"}


def test_what_stands_against_every_value_is_told(asking_back):
    """A wedge 2 in from an edge, 3 in its least, does not pass by any load; a lighter load is no remedy."""
    item = merged(BOLT, {"anchor": WEDGE, "base": {"edges": {"x_plus": "2 in"}}})
    load, _ = asking_back.question(item, kind="largest_load")
    assert load["text"] == (
        "Nothing on the grid passes for the factor on all stated loads: whatever it is, an edge is nearer than the"
        " least edge distance of this anchor."
    )
    remedies = asking_back.post("/v1/remedies", body(item))["text"]
    assert "utilisation" in remedies.partition(". ")[0]
    assert remedies.partition(". ")[0].endswith("; an edge is nearer than the least edge distance of this anchor")


def test_an_envelope_of_what_is_refused(asking_back):
    item = merged(BOLT, {"anchor": {"family": "drop-in-zinc", "size": "1/2", "h_ef": "2 in"}})
    answer = asking_back.post("/v1/reverse-checks", body(item, question={"kind": "envelope", "shear_angle": 0}))
    assert answer["envelope"]["points"] == []
    assert "not-qualified-cracked" in answer["envelope"]["text"]


def test_the_edition_that_combines_snow_is_said(asking_back):
    """As by a check: ASCE 7-16 is taken where the request names none."""
    snow = {"kind": "forces", "components": [{"nature": "snow", "tension": "900 lb"}]}
    request = body({**BOLT, "hangs": snow}, question={"kind": "largest_load"})
    silent = asking_back.post("/v1/reverse-checks", request)
    named = asking_back.post("/v1/reverse-checks", request | {"load_standard": "asce7_16"})
    factors = [answer["answers"][0]["value"] for answer in (silent, named)]
    assert factors[0] == factors[1] == pytest.approx(PHI_N / 1.6 / 900, rel=2e-6)
    assert "load-standard-defaulted" in silent["assumptions"]
    assert "load-standard-defaulted" not in named["assumptions"]


@pytest.mark.parametrize("at", range(len(UNCHECKED)))
@pytest.mark.parametrize(
    ("question", "asked_about"),
    [
        ({"kind": "least_edge", "side": "nearest"}, "base/edges"),
        ({"kind": "least_edge", "side": "y_plus"}, "base/edges/y_plus"),
        ({"kind": "least_thickness"}, "base/thickness"),
    ],
)
def test_a_question_about_what_is_not_stated(asking_back, at, question, asked_about):
    request = body(UNCHECKED[at], question=question)
    assert asking_back.errors("/v1/reverse-checks", request) == {(f"#/item/{asked_about}", "missing")}


@pytest.mark.parametrize("at", range(len(UNCHECKED)))
def test_no_load_and_no_embedment_holds_where_nothing_is_checked(asking_back, at):
    item = UNCHECKED[at]
    for each in asking_back.question(item, kind="largest_load"):
        assert "value" not in each
        assert "it is refused (base-" in each["text"]
    embedment = body(item, question={"kind": "least_embedment"})
    if "anchor" in item:
        assert "value" not in asking_back.post("/v1/reverse-checks", embedment)["answers"][0]
    else:
        assert asking_back.errors("/v1/reverse-checks", embedment) == {("#/item/anchor", "missing")}


BAD = {
    "no question": (body(BOLT), {("#/question", "missing")}),
    "no such kind": (body(BOLT, question={"kind": "x"}), {("#/question/kind", "unknown-option")}),
    "no side": (body(BOLT, question={"kind": "least_edge"}), {("#/question/side", "missing")}),
    "no edge": (body(BOLT, question={"kind": "least_edge", "side": "nearest"}), {("#/question/side", "contradiction")}),
    "no run": (body(BOLT, question={"kind": "largest_hanger_spacing"}), {("#/question/kind", "contradiction")}),
    "one anchor": (body(BOLT, question={"kind": "least_spacing"}), {("#/question/kind", "contradiction")}),
    "no way": (body(PAIR, question={"kind": "least_spacing", "neighbour": PAIR}), {("#/question/towards", "missing")}),
    "no place": (
        body(BOLT, question={"kind": "least_spacing", "neighbour": BOLT, "towards": "x_plus"}),
        {("#/item/at", "missing")},
    ),
    "neighbour in a side face": (
        body(
            merged(PAIR, {"base": {"face": "side"}}),
            question={"kind": "least_spacing", "neighbour": PAIR, "towards": "x_plus"},
        ),
        {("#/item/base/facing", "missing")},
    ),
    "bad neighbour": (
        body(
            PAIR,
            question={
                "kind": "least_spacing",
                "neighbour": merged(PAIR, {"anchor": {"size": "9"}}),
                "towards": "x_plus",
            },
        ),
        {("#/question/neighbour/anchor/size", "unknown-product")},
    ),
    "a row has one spacing": (
        body(ROW, question={"kind": "least_spacing", "along": "x"}),
        {("#/question/along", "contradiction")},
    ),
    "no angle": (body(BOLT, question={"kind": "envelope"}), {("#/question/shear_angle", "missing")}),
    "a bad item": (
        body(merged(BOLT, {"base": {"thickness": None}}), question={"kind": "largest_load"}),
        {("#/item/base/thickness", "missing")},
    ),
    "too deep": (
        body(merged(BOLT, {"base": {"thickness": 5}}), question={"kind": "largest_load"}),
        {("#/item/anchor/h_ef", "impossible-geometry")},
    ),
    "a large layout": (
        body(
            merged(
                BOLT,
                {
                    "anchor": {
                        "layout": {
                            "pattern": "rectangle",
                            "columns": 5,
                            "rows": 4,
                            "spacing_x": "6 in",
                            "spacing_y": "6 in",
                        }
                    }
                },
            ),
            question={"kind": "largest_load"},
        ),
        {("#/item/anchor/layout", "out-of-range")},
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_input(asking_back, name):
    request, errors = BAD[name]
    assert asking_back.errors("/v1/reverse-checks", request) == errors


def test_what_an_answer_says_of_itself(asking_back):
    answer = asking_back.post("/v1/reverse-checks", body(BOLT, question={"kind": "largest_load"}))
    assert answer["question"] == "largest_load"
    assert answer["stated"] == answer["stated"] | {"status": "passed"}
    assert "no-supplementary-reinforcement-assumed" in answer["assumptions"]
    assert {"neighbours", "reinforcement-and-tendons"} <= set(answer["not_checked"])
    assert any("aid, not a design" in each for each in answer["cautions"])
    grid = answer["answers"][0]["grid"]
    assert grid["count"] == len(answer["answers"][0]["table"]) == 200
    assert WEDGE["family"] not in str(answer)


GIVEN = {
    **BOLT,
    "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 100}], "sustained_fraction": 0.5},
}
SAID = {
    "rod": (BOLT, {"kind": "least_rod"}, {}, "rod-rule-defaulted"),
    "edge": (
        {**ROW, "hangs": {"kind": "forces", "components": [{"nature": "dead", "shear_x": 500}]}},
        {"kind": "least_edge", "side": "x_plus"},
        {},
        "no-edge-reinforcement-assumed",
    ),
    "load": (GIVEN, {"kind": "largest_load"}, {"combinations": "given_factored"}, "sustained-assumed"),
    "envelope": (
        GIVEN,
        {"kind": "envelope", "shear_angle": 0, "points": 3},
        {"combinations": "given_factored"},
        "sustained-assumed",
    ),
}


@pytest.mark.parametrize("name", SAID)
def test_what_is_assumed_of_what_is_told_is_said(asking_back, name):
    """The item with each patch of the answer, posted again, assumes nothing that the answer doesn't say."""
    item, question, members, code = SAID[name]
    answer = asking_back.post("/v1/reverse-checks", body(item, question=question, **members))
    told = answer["answers"] or answer["envelope"]["points"]
    for each in told:
        again = asking_back.check(merged(item, each["patch"]), **members)
        assert set(again["assumptions"]) <= set(answer["assumptions"])
        assert set(again["not_checked"]) <= set(answer["not_checked"])
    assert code not in asking_back.check(item, **members)["assumptions"]
    assert code in answer["assumptions"]


def test_where_loads_act_goes_with_them(asking_back):
    """A dead tension 2 in off the middle of a row of two, 12 in apart, pulls one by 8/12; in their middle by 1/2."""
    row = {**ROW, "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 3000}]}}
    off = merged(row, {"hangs": {"at": {"x": 2}}})
    factor, alone = asking_back.question(off, kind="largest_load")
    assert "at the origin of the layout" in alone["text"]
    assert alone["value"] > 3000 * factor["value"] * 1.1
    middle = asking_back.question(row, kind="largest_load")[1]
    assert alone["value"] == pytest.approx(middle["value"])
    assert "at the origin" not in middle["text"]
    asked = body(off, question={"kind": "envelope", "shear_angle": 0, "points": 3})
    assert "at the origin of the layout" in asking_back.post("/v1/reverse-checks", asked)["envelope"]["text"]


def test_an_edge_of_a_layout_is_measured_from_its_origin(asking_back):
    """Anchors 6 in to either side, each 2 in (c_min, family file) from the edge at least: 8 in from the origin."""
    row = merged(ROW, {"hangs": {"weight": "10 lb"}})
    (found,) = asking_back.question(row, kind="least_edge", side="x_minus")
    assert found["value"] == pytest.approx(8)
    assert "from the origin of the layout" in found["text"]
    (alone,) = asking_back.question(merged(BOLT, {"hangs": {"weight": "10 lb"}}), kind="least_edge", side="x_minus")
    assert "origin" not in alone["text"]
