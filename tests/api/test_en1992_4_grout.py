"""Shear through thick grout without lever arm by EN 1992-4 6.2.2.3(2), over the API. Expected values are by hand.

(7.36) and its conditions are from a digest of the provisions; the stud of 16 mm is invented.
"""

import pytest

from api.en_bodies import EN, NONE, STUD, en_item
from hangpoint.api.reverse.merge_patch import merged

GROUT = {"grout_thickness": 30, "grout_strength": 40, "grout_fills": True, "thickness": 10}
PAIR = {**STUD, "layout": {"pattern": "row", "count": 2, "spacing": 160}}
ALONG = {"kind": "forces", "components": [{"nature": "dead", "shear_x": 2.0}]}
FIT = en_item(
    anchor=PAIR,
    hangs=ALONG,
    attachment=GROUT,
    base__edges=NONE,
    base__state="uncracked",
    base__state_decided_by="invented engineer",
)


@pytest.fixture
def modes(send):
    def of(*changes, item=FIT):
        for change in changes:
            item = merged(item, change)
        result = send({**EN, "items": [item], "neighbours": "off", "detail": "trace"})["items"][0]
        assert result["status"] in ("passed", "failed"), result
        made = {mode["mode"]: mode for mode in result["modes"] if mode.get("applies")}
        return made, result

    return of


def by_steel(made):
    return {"en_steel_shear", "en_steel_lever_arm"} & set(made)


def test_what_is_left_of_the_steel(modes):
    flush = modes({"attachment": {"grout_thickness": None, "grout_strength": None, "grout_fills": None}})[0]
    through, result = modes()
    whole = flush["en_steel_shear"]["design_strength"]
    assert through["en_steel_shear"]["design_strength"] == pytest.approx((1 - 0.01 * 30) * whole, rel=1e-12)
    (section,) = [own for own in result["trace"] if own["title"] == "steel failure in shear"]
    lines = {line["name"]: line["value"] for line in section["lines"]}
    assert lines["t_grout"] == pytest.approx(30, rel=1e-12)
    assert lines["v_rk_s"] == pytest.approx(0.7 * lines["k_7"] * lines["v0_rk_s"], rel=1e-12)
    assert "grout-as-lever-arm" in {own["code"] for own in result["findings"]}


def stated(**changes):
    return {"attachment": changes}


def loads(**parts):
    return {"hangs": {"components": [{"nature": "dead", **parts}]}}


def laid(*places):
    return {"anchor": {"layout": [{"x": x, "y": y} for x, y in places]}}


PLATE = {"attachment": {"plate": {"width_x": 400, "width_y": 400}}}
SQUARE = laid((-80, -80), (80, -80), (-80, 80), (80, 80))


@pytest.mark.parametrize(
    ("without", "changes"),
    [
        (True, [stated(grout_thickness=40)]),
        (False, [stated(grout_thickness=40.1)]),
        (False, [stated(grout_fills=False)]),
        (False, [stated(grout_strength=24.9)]),
        (False, [stated(grout_strength=29.9)]),
        (True, [stated(grout_strength=30)]),
        (False, [stated(grout_strength=34.9), {"base": {"strength": {"class": "C35/45"}}}]),
        (True, [stated(grout_strength=35), {"base": {"strength": {"class": "C35/45"}}}]),
        (False, [{"base": {"state": "cracked", "state_decided_by": None}}]),
        (False, [stated(gap=5)]),
        (False, [laid((-79.9, 0), (79.9, 0))]),
        (False, [loads(shear_y=2.0)]),
        (False, [loads(shear_x=2.0, tension=0.1)]),
        (False, [PLATE, loads(shear_x=2.0, moment_y=0.01)]),
        (True, [PLATE]),
        (True, [PLATE, loads(shear_x=2.0, tension=-1.0)]),
        (False, [PLATE, loads(shear_x=2.0, tension=-50.0, moment_y=0.01)]),
        (True, [SQUARE]),
        (False, [SQUARE, loads(shear_x=2.0, torsion=0.01)]),
        (False, [SQUARE, loads(shear_x=2.0, shear_y=1.0)]),
        (False, [laid((-80, 0), (80, 0), (0, 0))]),
        (True, [laid((-160, 0), (160, 0), (0, 0))]),
        (False, [laid((0, 0))]),
    ],
)
def test_all_that_it_asks_for(modes, without, changes):
    """16 mm: 10 d are 160 mm, 5 d 80 mm, so that 40 mm is the limit of the thickness."""
    assert by_steel(modes(*changes)[0]) == {"en_steel_shear" if without else "en_steel_lever_arm"}


def test_thin_grout_is_no_reduction(modes):
    thin, result = modes(stated(grout_thickness=8))
    flush = modes(stated(grout_thickness=None, grout_strength=None, grout_fills=None))[0]
    assert thin["en_steel_shear"]["design_strength"] == flush["en_steel_shear"]["design_strength"]
    assert "grout-as-lever-arm" not in {own["code"] for own in result["findings"]}


def test_by_load_cases(modes):
    """Dead load only shears, without lever arm; with wind, which pulls, there is one."""
    components = [{"nature": "dead", "shear_x": 2.0}, {"nature": "wind", "tension": 1.0}]
    made, result = modes({"hangs": {"components": components}})
    assert by_steel(made) == {"en_steel_shear", "en_steel_lever_arm"}
    assert made["en_steel_lever_arm"]["load_case"] != made["en_steel_shear"]["load_case"]
    assert result["governing"]["mode"] == "en_steel_lever_arm"


def test_it_is_not_taken_under_earthquake(send):
    quake = {"nature": "earthquake", "shear_x": 1.0}
    item = merged(FIT, {"hangs": {"components": [quake]}, "seismic": {"design_option": "elastic_design"}})
    result = send({**EN, "items": [item]})["items"][0]
    assert result["status"] == "refused"


def test_grout_that_fills_has_a_thickness(send):
    item = merged(FIT, stated(grout_thickness=None, grout_strength=None))
    result = send({**EN, "items": [item]})["items"][0]
    assert result["problem"]["errors"][0]["pointer"] == "#/items/0/attachment/grout_thickness"
