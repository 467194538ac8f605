"""Whole requests by EN 1992-4 that state a fire rating, by hand; annex D and psi_1 are from memory. All is invented."""

import json
import math

import pytest

from api.en_bodies import EN, NONE, PIPE, WEDGE, en_item, row_of
from api.test_european_figures import INLINE

HOUR = {"fire_rating": 1}
CONE = 7.7 * math.sqrt(20) * 65**1.5 / 1000
"""N0_Rk,c of the M12, h_ef 65 mm, in C20/25, kN; bars are wide apart."""


@pytest.fixture
def whole(send):
    def of(*items, **top):
        return send({**EN, "detail": "modes", "items": list(items), **top}, status=200)

    return of


@pytest.fixture
def ask(whole):
    def of(*items, **top):
        results = whole(*items, **top)["items"]
        return results[0] if len(items) == 1 else results

    return of


def loads(**natures):
    return {
        "kind": "forces",
        "components": [{"nature": nature, "tension": tension} for nature, tension in natures.items()],
    }


def point(environment=HOUR, **changes):
    """M12 of carbon steel in cracked C25/30, A_s 64 mm2, far from all edges, pulled by 0.3 kN of dead load."""
    stated = {"hangs": loads(dead=0.3), "base__edges": NONE, "base__bar_spacing": "wide"}
    stated |= {"environment": environment} if environment else {}
    return en_item(**{**stated, **changes})


def strengths(result):
    return {mode["mode"]: mode["design_strength"] for mode in result["modes"] if mode["applies"]}


def codes(result, of="findings"):
    return {each if isinstance(each, str) else each["code"] for each in result[of]}


@pytest.mark.parametrize(
    ("hours", "sigma", "share"), [(0.5, 20, 1), (1, 15, 1), (1.5, 13, 1), (2, 10, 0.8), (0.7, 15, 1)]
)
def test_a_single_fastener(ask, hours, sigma, share):
    """Steel 64 mm2 times the stress; cone h_ef/200; N_Rk,p 13.5 kN of the data, a quarter. gamma_M,fi is 1.0."""
    result = ask(point({"fire_rating": hours}))
    found = strengths(result)
    assert found["en_steel_tension"] == pytest.approx(64 * sigma / 1000)
    assert found["en_concrete_cone"] == pytest.approx(share * 65 / 200 * CONE)
    assert found["en_pull_out"] == pytest.approx(share * 0.25 * 13.5)
    assert result["governing"]["load_case"] == "1.0G+1.0C, fire"
    assert result["governing"]["utilisation"] == pytest.approx(300 / (64 * sigma))
    assert ("fire-class-raised" in codes(result)) is (hours == 0.7)
    assert "checked-in-fire" in codes(result)
    assert "fire-rating-asked" not in codes(result)
    assert codes(result, "to_engineer") >= {"fire-by-annex-d"}
    assert "en1992-4-fire" in result["assumptions"]


def test_stainless_steel(ask):
    """25 N/mm2 for A4 at R60."""
    result = ask(point(anchor__family="en-wedge-expansion-stainless", anchor__h_ef=70))
    assert strengths(result)["en_steel_tension"] == pytest.approx(64 * 25 / 1000)


def test_an_m10_bolt_in_a_wide_sleeve_has_the_stress_of_an_m10(ask):
    """The undercut M10 is 18 mm thick: 58 mm2 of it are steel, which has 13 N/mm2 at R60."""
    result = ask(point(anchor={"family": "en-undercut-zinc", "size": "M10", "h_ef": 80}, base__thickness=300))
    assert strengths(result)["en_steel_tension"] == pytest.approx(58 * 13 / 1000)


def test_the_leading_load_with_psi_1(whole):
    """(6.11b): 0.2 + 0.9 x 0.1 kN over 0.96 kN; the case says its factors and that it is of fire."""
    answer = whole(point(hangs=loads(dead=0.2, live=0.1, snow=0.01)))
    governing = answer["items"][0]["governing"]
    assert governing["load_case"] == "1.0G+1.0C+0.9L+0.2S, fire"
    assert governing["utilisation"] == pytest.approx((0.2 + 0.09 + 0.002) / 0.96)
    case = answer["load_cases"]["1.0G+1.0C+0.9L+0.2S, fire"]
    assert (case["fire"], case["live"], case["snow"], case["source"]) == (True, 0.9, 0.2, "EN 1990 (6.11b)")


def test_static_cases_stay_static(ask, whole):
    """What isn't governed in fire has its cold strength; without a rating no case is one of fire."""
    cold = ask(point(None))
    assert strengths(cold)["en_pull_out"] == pytest.approx(13.5 * math.sqrt(25 / 20) / 1.5)
    assert not any("fire" in name for name in whole(point(None))["load_cases"])
    assert not {"checked-in-fire", "fire-rating-asked"} & codes(cold)
    assert ask(point({"fire_rating": 0})) == cold


def test_edges_in_fire(ask):
    """Shear to an edge 200 mm away: more than one side is taken unless one is stated, then 300 mm are needed."""
    several, one = ask(
        {**point(base__edges={**NONE, "x_plus": 200}), "id": "B"},
        point({**HOUR, "fire_sides": "one"}, base__edges={**NONE, "x_plus": 200}),
    )
    assert several["status"] == "failed"
    found = next(own for own in several["findings"] if own["code"] == "fastener-edge-below-minimum-in-fire")
    assert (found["value"], found["limit"]) == (pytest.approx(200), pytest.approx(300))
    assert "fire-on-several-sides-assumed" in several["assumptions"]
    assert one["status"] == "passed"
    assert "fire-on-several-sides-assumed" not in one["assumptions"]
    stated = ask(point({**HOUR, "fire_sides": "several"}, base__edges={**NONE, "x_plus": 200}))
    assert "fire-on-several-sides-assumed" not in stated["assumptions"]
    assert stated["status"] == "failed"


def test_pull_out_that_never_governs_is_taken_as_a_cone(ask):
    """M16, h_ef 85: 7.7 sqrt(20) 85^1.5 = 26.99 kN, a quarter of it."""
    result = ask(point(anchor={"family": "en-wedge-expansion-zinc", "size": "M16", "h_ef": 85}))
    assert strengths(result)["en_pull_out"] == pytest.approx(0.25 * 7.7 * math.sqrt(20) * 85**1.5 / 1000)
    assert "fire-pull-out-as-cone" in codes(result)


def test_shear_and_both_together(ask):
    """Steel 0.96 kN both ways, by squares; no splitting in fire."""
    pull = {"kind": "forces", "components": [{"nature": "dead", "tension": 0.3, "shear_x": 0.4}]}
    result = ask(point(hangs=pull))
    by = {mode["mode"]: mode for mode in result["modes"] if mode["applies"]}
    assert by["en_steel_shear"]["design_strength"] == pytest.approx(0.96)
    assert by["en_steel_interaction"]["utilisation"] == pytest.approx(0.5 / 0.96)
    assert by["en_steel_interaction"]["load_case"] == "1.0G+1.0C, fire"


def test_loads_as_given_act_in_full(whole):
    cases = [
        {"name": name, "components": [{"nature": "dead", "tension": own}]} for name, own in (("A", 0.5), ("B", 0.4))
    ]
    given = {"kind": "forces", "load_cases": cases, "sustained_fraction": 1.0}
    answer = whole(point(hangs=given), combinations="given_factored")
    result = answer["items"][0]
    assert result["governing"]["load_case"] == "A, fire"
    assert result["governing"]["utilisation"] == pytest.approx(0.5 / 0.96)
    assert "given-loads-in-fire-assumed" in result["assumptions"]
    assert answer["load_cases"]["B, fire"]["fire"] is True


@pytest.mark.parametrize(
    ("item", "code"),
    [
        (point({"fire_rating": 2.5}), "fire-beyond-annex-d"),
        (point(anchor={"family": "en-adhesive-slow-rod-zinc", "size": "M12", "h_ef": 80}), "bond-in-fire"),
        (
            point(
                anchor={"family": "en-drop-in-zinc", "size": "M12", "h_ef": 50},
                base__state="uncracked",
                base__state_decided_by="X",
            ),
            "uncracked-only-in-fire",
        ),
    ],
)
def test_what_is_refused_by_name(ask, item, code):
    assert ask(item)["reason"]["code"] == code


@pytest.mark.parametrize(
    ("environment", "pointer", "code"),
    [
        ({"fire_sides": "one"}, "fire_rating", "missing"),
        ({**HOUR, "fire_sides": "two"}, "fire_sides", None),
        ({"fire_rating": -1}, "fire_rating", None),
    ],
)
def test_bad_input(ask, environment, pointer, code):
    result = ask(point(environment))
    assert result["status"] == "invalid"
    (error,) = result["problem"]["errors"]
    assert error["pointer"] == f"#/items/0/environment/{pointer}"
    assert code is None or error["code"] == code


def test_by_aci_nothing_changes(send):
    """The finding is as it was, and what only EN 1992-4 reads is refused."""
    item = {
        "id": "A",
        "hangs": loads(dead=1.0),
        "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3.25 in"},
        "base": {"kind": "concrete", "density": "normalweight", "thickness": "8 in", "face": "soffit", "edges": NONE},
        "seismic": {"category": "B"},
        "environment": HOUR,
    }
    result = send({"units": "us", "items": [item], "detail": "modes"}, status=200)["items"][0]
    assert "fire-rating-asked" in codes(result)
    item["environment"] = {**HOUR, "fire_sides": "one"}
    result = send({"units": "us", "items": [item]}, status=200)["items"][0]
    assert result["problem"]["errors"][0]["pointer"].endswith("/environment/fire_sides")


def at(x, own, place):
    return {**own, "id": place, "at": {"level": "L1", "x": x, "y": 0}, "base": {**own["base"], "member": "S1"}}


def test_a_point_beside_one_in_fire(ask):
    """0.25 m apart, less than 4 h_ef: both in fire, the cone of both by h_ef/200 of (260 + 250)/260 cones."""
    near, plain = ask(at(0, point(), "A"), at(0.25, point(None), "B"))
    assert "in-fire-beside" in codes(plain)
    assert "in-fire-beside" not in codes(near)
    both = {mode["mode"]: mode for mode in near["modes"] if mode["applies"]}["en_concrete_cone"]
    assert both["design_strength"] == pytest.approx(65 / 200 * CONE * 510 / 260)
    assert strengths(plain)["en_steel_tension"] == pytest.approx(0.96)
    far = ask(at(0, point(), "A"), at(0.3, point(None), "B"))
    assert "in-fire-beside" not in codes(far[1])


def test_a_csv_row(send_csv):
    text = (
        "id,hangs.kind,hangs.components.0.nature,hangs.components.0.tension,anchor.family,anchor.size,anchor.h_ef,"
        "base.kind,base.strength.class,base.density,base.state,base.thickness,base.face,base.edges.x_minus,"
        "base.edges.x_plus,base.edges.y_minus,base.edges.y_plus,environment.fire_rating,environment.fire_sides\n"
        "A,forces,dead,0.3,en-wedge-expansion-zinc,M12,65,concrete,C25/30,normalweight,cracked,250,soffit,200,none,none,"
        "none,1,one\n"
    )
    answer = send_csv(text, "?units=si&design_code=en1992_4")
    assert "1.0G+1.0C, fire" in str(answer)
    assert "passed" in str(answer)


def test_products_chosen_for_a_fire(client):
    """A choice checks its candidates in fire: none is bonded, and the one chosen passes by itself in the same fire."""
    own = point()
    del own["anchor"]
    answer = client.post("/v1/selections", json={**EN, "items": [own]}).json()
    assert "bond-in-fire" in json.dumps(answer)
    assert "1.0G+1.0C, fire" in json.dumps(answer["items"][0])


def test_a_batch_is_its_singles(ask):
    items = [
        {**point(environment), "id": str(place)}
        for place, environment in enumerate([HOUR, None, {"fire_rating": 2, "fire_sides": "one"}, {"fire_rating": 0.4}])
    ]
    items.append({**point(hangs=PIPE), "id": "pipe"})
    items.append({**point(anchor={**WEDGE, "layout": row_of(2, 150)}), "id": "two"})
    for own, result in zip(items, ask(*items), strict=True):
        assert ask(own) | {"index": result["index"]} == result


def test_a_longer_fire_never_helps(ask):
    results = ask(*({**point({"fire_rating": hours}), "id": str(hours)} for hours in (0, 0.5, 1, 1.5, 2)))
    used = [own["governing"]["utilisation"] for own in results]
    assert used == sorted(used)
    assert len(set(used)) == 5


def test_a_fire_reaches_points_of_other_blocks(ask):
    """h_ef 80 and 120 mm, 0.39 m apart: in fire they reach 2 (80 + 120) mm, without 1.5 times that.

    999 points of another member lie between, so that the two are packed apart from each other.
    """

    def undercut(h_ef):
        embedment = INLINE["embedment"] | {"h_ef": h_ef, "h_min": 250}
        embedment["en"] = embedment["en"] | {"c_cr_sp": 1.5 * h_ef, "n_rk_s": 46}
        return {"product": INLINE | {"embedment": embedment}}

    def pair(environment):
        one, other = (
            point(each, anchor=undercut(h), base__thickness=400) for each, h in ((environment, 80), (None, 120))
        )
        return at(0, one, "A"), at(0.39, other, "C")

    rated, deep = pair(HOUR)
    between = [{**point(None), "id": f"B-{number}"} for number in range(999)]
    first, *_, last = ask(rated, *between, deep)
    assert first["neighbours"]["unlike"] == ["C"]
    assert last["neighbours"]["unlike"] == ["A"]
    assert all("neighbours" not in each for each in ask(*pair(None)))


def test_factored_loads_near_each_other_in_fire(whole):
    """Loads as given count in full in fire, for the point beside it too: 0.4 kN of 64 mm2 at 15 N/mm2."""
    case = {"name": "LC1", "components": [{"nature": "dead", "tension": 0.4}]}
    given = {"kind": "forces", "load_cases": [case]}
    rated, plain = at(0, point(hangs=given), "A"), at(0.25, point(None, hangs=given), "B")
    for own in whole(rated, plain, combinations="given_factored")["items"]:
        assert own["governing"]["load_case"].endswith(", fire")
        assert own["governing"]["utilisation"] == pytest.approx(0.4 / 0.96)


def test_a_sheet_shows_the_resistance_in_fire(client):
    body = {**EN, "items": [point()]}
    text = client.post("/v1/hang-points?format=html", json=body).text
    for shown in ("1.0G+1.0C, fire", "Annex D, from memory", "15 N/mm²", "960 N"):
        assert shown in text, shown


def test_remedies_hold_in_the_same_fire(client):
    """1 kN is too much for the M12: 0.96 kN. An M16 of 121 mm2 has 15 N/mm2 too."""
    own = point(hangs=loads(dead=1.0))
    answer = client.post("/v1/remedies", json={"units": "si", "design_code": "en1992_4", "item": own}).json()
    first = answer["remedies"][0]
    assert first["patch"]["anchor"]["size"] == "M16"
    assert first["outcome"]["utilisation"] == pytest.approx(1.0 / (0.121 * 15))


def test_what_is_not_checked_tells_of_fire_what_is_left(ask, send):
    rated, plain = ask({**point(), "id": "A"}, {**point(None), "id": "B"})
    assert "fatigue-and-rest-of-fire" in rated["not_checked"]
    assert "fire-and-fatigue" not in rated["not_checked"]
    assert "fire-and-fatigue" in plain["not_checked"]
    assert "fatigue-and-rest-of-fire" not in plain["not_checked"]
