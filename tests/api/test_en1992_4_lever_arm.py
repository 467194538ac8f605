"""Shear with a lever arm by EN 1992-4 over the API: what a request states of it, and what it makes of the strength."""

import pytest

from api.en_bodies import EN, NONE, en_item
from core.en1992_4 import independent

PLATE = {"width_x": 200, "width_y": 200}
GAP = {"gap": 10, "thickness": 10}
STEEL = ("en_steel_shear", "en_steel_lever_arm", "en_steel_interaction")


@pytest.fixture
def ask(send):
    def of(item, **top):
        return send({**EN, "items": [item], **top})

    return of


def modes(answer):
    return {mode["mode"]: mode for mode in answer["items"][0]["modes"]}


def strength(answer):
    return modes(answer)["en_steel_lever_arm"]["design_strength"]


@pytest.mark.parametrize(
    ("attachment", "arm"),
    [
        (GAP, 6 + 10 + 5),
        (GAP | {"clamped": True}, 10 + 5),
        ({"gap": "1 in", "thickness": 10}, 6 + 25.4 + 5),
        ({"grout_pad": True, "grout_thickness": 20, "thickness": 8}, 6 + 20 + 4),
        ({"grout_thickness": 20, "grout_strength": 50, "thickness": 8}, 6 + 20 + 4),
        ({"grout_thickness": 6, "grout_strength": 29.9, "thickness": 8}, 6 + 6 + 4),
        ({"grout_thickness": 6.1, "grout_strength": 30, "thickness": 8}, 6 + 6.1 + 4),
        ({"gap": 5, "grout_thickness": 6, "grout_strength": 30, "thickness": 8}, 6 + 11 + 4),
        ({"gap": 10, "thickness": 10, "plate": PLATE | {"support": "free"}}, 6 + 10 + 5),
        ({"thickness": 10, "grout_thickness": 20, "plate": PLATE | {"support": "grout"}}, 6 + 20 + 5),
    ],
)
def test_how_long_the_arm_is(ask, attachment, arm):
    """1.35 * 2 kN of tension; the strength by own scalar code with the figures of the trace; N_Rk,s is 41 kN."""
    answer = ask(en_item(attachment=attachment, base__edges=NONE), detail="trace")
    sections = [own for own in answer["items"][0]["trace"] if own["title"] == "steel failure in shear with lever arm"]
    lines = {line["name"]: line["value"] for line in sections[0]["lines"]}
    f = {name: lines[name] for name in ("d_nom", "a_s", "f_uk", "f_yk")}
    f |= {"gamma_ms_v": lines["gamma_ms_stated"], "gamma_ms_n": 0.0, "n_rk_s": 41_000.0, "n": [2_700.0]}
    f |= {"free_length": arm, "t_fix": 0.0, "clamped": True, "held": False}
    steel = modes(answer)["en_steel_tension"]["design_strength"]
    assert independent.steel_tension(f) / 1000 == pytest.approx(steel, rel=1e-9)
    assert lines["l_a"] == pytest.approx(arm, rel=1e-12)
    assert strength(answer) == pytest.approx(independent.lever_arm(f, 0) / 1000, rel=1e-9)


@pytest.mark.parametrize(
    "attachment",
    [
        {},
        {"grout_thickness": 6, "grout_strength": 30},
        {"grout_pad": True, "grout_thickness": 5, "grout_strength": "4400 psi"},
        {"plate": PLATE | {"support": "grout"}, "grout_thickness": 6, "grout_strength": 40},
    ],
)
def test_where_there_is_none(ask, attachment):
    answer = ask(en_item(attachment=attachment, base__edges=NONE))
    assert [name for name in STEEL if modes(answer).get(name, {}).get("applies")] == [STEEL[0], STEEL[2]]
    assert STEEL[1] not in modes(answer)
    assert "free-to-turn-assumed" not in answer["assumptions"]


def test_a_pull_asks_nothing_of_a_gap(ask):
    hangs = {"kind": "forces", "components": [{"nature": "dead", "tension": 2.0}]}
    answer = ask(en_item(attachment={"gap": 10}, hangs=hangs))
    assert answer["items"][0]["status"] == "passed"
    assert modes(answer)["en_steel_lever_arm"]["reason"] == "no-shear-on-fasteners"
    assert "free-to-turn-assumed" not in answer["assumptions"]


def test_what_is_taken_and_what_is_stated(ask):
    free = ask(en_item(attachment=GAP))
    assert "free-to-turn-assumed" in free["items"][0]["assumptions"]
    for turning, times in (("free", 1.0), ("held", 2.0)):
        answer = ask(en_item(attachment=GAP | {"turning": turning}))
        assert "free-to-turn-assumed" not in answer["assumptions"]
        assert strength(answer) == pytest.approx(times * strength(free), rel=1e-12)
    assert "flush-attachment-assumed" not in free["assumptions"]
    reasons = {name: mode["reason"] for name, mode in modes(free).items() if not mode["applies"]}
    assert (reasons["en_steel_shear"], reasons["en_steel_interaction"]) == ("with-lever-arm", "with-lever-arm")


def test_points_with_and_without_in_one_batch(send):
    items = [
        {**en_item(base__edges=NONE, attachment=attachment), "id": name}
        for name, attachment in (("A", {}), ("B", GAP), ("C", {"grout_pad": True}))
    ]
    together = send({**EN, "items": items, "neighbours": "off"})["items"]
    alone = [send({**EN, "items": [item]})["items"][0] for item in items]
    for one, other in zip(together, alone, strict=True):
        assert {**one, "index": 0} == {**other, "index": 0}
    assert [own["status"] for own in together] == ["passed", "failed", "refused"]


@pytest.mark.parametrize(
    ("item", "top", "place"),
    [
        (en_item(attachment={"grout_strength": 30}), {}, "attachment/grout_thickness"),
        *(
            (
                en_item(attachment={name: value}, base__strength={"f_c": 25}, seismic={"category": "A"}),
                {"design_code": "aci318_19"},
                f"attachment/{name}",
            )
            for name, value in (
                ("grout_thickness", 10),
                ("grout_strength", 30),
                ("clamped", True),
                ("turning", "held"),
            )
        ),
    ],
)
def test_what_is_invalid(ask, item, top, place):
    result = ask(item, **top)["items"][0]
    assert (result["status"], result["problem"]["errors"][0]["pointer"]) == ("invalid", f"#/items/0/{place}")


@pytest.mark.parametrize(("shear", "refused"), [(0.0, False), (0.1, True)])
def test_earthquake_that_only_pulls_leaves_a_lever_arm(ask, shear, refused):
    """A lever arm is refused in load cases of earthquake that have shear, be it that of dead load."""
    dead = {"nature": "dead", "tension": 1.0, "shear_x": shear}
    hangs = {"kind": "forces", "components": [dead, {"nature": "earthquake", "tension": 1.0}]}
    seismic = {"design_option": "elastic_design", "performance_category": "C1"}
    result = ask(en_item(hangs=hangs, seismic=seismic, attachment=GAP))["items"][0]
    assert result.get("reason", {}).get("code") == ("lever-arm-under-earthquake" if refused else None)
