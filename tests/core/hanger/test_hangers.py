"""Loads on hangers by hand. Items are invented; numbers are from statics, the named documents, or a solver named there.

4 in pipe filled with water weighs 16.32 lb/ft in schedule 40 and 11.80 lb/ft in schedule 10, of it 10.79 (schedule 40)
and 5.62 lb/ft steel (piping handbooks, to 0.2 %).
"""

from math import cos, pi, radians, sqrt, tan

import numpy as np
import pytest

from core.hanger.item_columns import NATURES, items_of
from hangpoint.core.hanger.hangers import hanger_loads
from hangpoint.core.hanger.run_reaction import RunReaction
from hangpoint.core.loads.combinations import CASES
from hangpoint.core.statics.out_of_plumb import OutOfPlumb
from hangpoint.core.statics.trapeze_bar import TrapezeBar

DEAD, CONTENTS, LIVE, TEST, EARTHQUAKE, RULE = (
    NATURES.index(name) for name in ("dead", "contents", "live", "test", "earthquake", "sprinkler_rule")
)
SCHEDULE_40 = {"kind": "pipe", "d_o": 4.5, "t": 0.237, "nominal": 4.0}
SCHEDULE_10 = {"kind": "pipe", "d_o": 4.5, "t": 0.12, "nominal": 4.0}
FILLED_40 = 16.32
SECTION = {"s_x": 0.2, "i_x": 0.18, "f_b": 25_000.0, "e": 29e6, "limit": 240.0}
EVERY_10_FT = {"spans": [10.0, 10.0], "support": 1, "model": "tributary"}


def line(w, filling=0.0, **more):
    return {"kind": "stated", "w_stated": w, "w_filling": filling, **more}


def run(spans, *lines, loads=(), rod=None, **more):
    item = {"kind": "run", "run": {"spans": list(spans), **more}, "lines": list(lines), "loads": list(loads)}
    return item | ({"rod": rod} if rod else {})


def trapeze(*tiers, lines=(), **more):
    return {"kind": "trapeze", "run": EVERY_10_FT, "tiers": list(tiers), "lines": list(lines), **more}


def loads(*items):
    return hanger_loads(items_of(list(items)), load_standard="asce7_16")


def service(got):
    """Dead load, contents and live load of each hanger."""
    return got.tension[:, [DEAD, CONTENTS, LIVE]].sum(axis=1)


def record_of(got, cls):
    (found,) = (section.record for section in got.sections if isinstance(section.record, cls))
    return found


def codes(got):
    """(code, item, part) to (value, limit) of all findings."""
    return {
        (rows.finding.value.code, int(item), int(part)): (float(value), float(limit))
        for rows in got.findings
        for item, part, value, limit in zip(rows.item, rows.part, rows.value, rows.limit, strict=True)
    }


def cases(got, hanger):
    """Tension and shear of the strength cases of one hanger by name."""
    own = got.strength
    at = np.flatnonzero(own.axis.point_of_case == hanger)
    return {CASES[own.axis.load_case[i]].name: (own.tension[i], own.shear[i]) for i in at}


def test_two_pipes_on_a_trapeze():
    """163.2 lb at 1.0 and 2.5 ft of a bar of 4 ft and 1.9 lb/ft.

    R_B = (163.2 + 408) / 4 + 3.8 = 146.6; M = 187.4 x 2.5 - 163.2 x 1.5 - 1.9 x 2.5^2 / 2 = 217.8 below the second.
    """
    bar = {"spans": [4.0], "w_bar": 1.9, "section": SECTION}
    got = loads(trapeze(bar, lines=[line(FILLED_40, tier=0, at=1.0), line(FILLED_40, tier=0, at=2.5)]))
    np.testing.assert_allclose(service(got), [187.4, 146.6], rtol=1e-12)
    np.testing.assert_allclose(record_of(got, TrapezeBar).demand, 217.7625, rtol=1e-12)


def test_the_same_with_pipes_from_their_dimensions():
    pipes = [SCHEDULE_40 | {"tier": 0, "at": at} for at in (1.0, 2.5)]
    got = loads(trapeze({"spans": [4.0], "w_bar": 1.9, "section": SECTION}, lines=pipes))
    np.testing.assert_allclose(service(got), [187.40, 146.60], rtol=5e-4)
    np.testing.assert_allclose(record_of(got, TrapezeBar).demand, 217.8, rtol=5e-4)


def test_a_bar_under_a_load_in_the_middle():
    """P L / 4 = 100 lb ft and P L^3 / (48 E I) = 100 x 48^3 / (48 x 29e6 x 0.18) in, limit 48 / 240 in."""
    got = loads(trapeze({"spans": [4.0], "section": SECTION, "loads": [(2.0, 100.0, "dead")]}))
    bar = record_of(got, TrapezeBar)
    np.testing.assert_allclose(bar.demand, 100.0, rtol=1e-12)
    np.testing.assert_allclose(bar.sigma, 12 * 100.0 / 0.2, rtol=1e-12)
    np.testing.assert_allclose(bar.deflection, 100 * 48**3 / (48 * 29e6 * 0.18), rtol=1e-6)
    np.testing.assert_allclose(bar.deflection_limit, 0.2, rtol=1e-12)


def test_10_8_10():
    """The continuous beam by PyNite: 67.58 and 160.90 lb; tributary 5 and 9 ft of 16.32 lb/ft."""
    models = ("tributary", "continuous", "larger")
    got = loads(*(run([10, 8, 10], line(FILLED_40), model=model) for model in models))
    tributary, continuous, larger = service(got).reshape(3, 4)
    np.testing.assert_allclose(tributary, [81.6, 146.88, 146.88, 81.6], rtol=1e-12)
    np.testing.assert_allclose(continuous, [67.58, 160.90, 160.90, 67.58], atol=0.005)
    np.testing.assert_allclose(larger, [81.6, 160.90, 160.90, 81.6], atol=0.005)
    assert ("first-interior-hanger", 2, 1) in codes(got)
    assert ("first-interior-hanger", 2, 0) not in codes(got)


def test_a_missing_hanger_gives_its_neighbours_half_more():
    """Equal hinged spans: 1.5 w L beside the lost one, which carries nothing, w L further away."""
    lost = run([10.0] * 4, line(20.0), missing=2, model="hinged")
    got = loads(lost | {"erection": 250.0, "rod": {"size": "3/8", "rule": "sp58_allowable", "l_rod": 4.0}})
    rod = 490 / 144 * pi / 4 * (0.375 - 0.649519 / 16) ** 2 * 4
    np.testing.assert_allclose(got.tension[:, DEAD], [100 + rod, 300 + rod, 0, 300 + rod, 100 + rod], rtol=1e-12)
    np.testing.assert_array_equal(got.tension[:, LIVE], [250, 250, 0, 250, 250])
    assert got.strength.worst[2] == 0.0
    assert ("hanger-unloaded", 0, 2) not in codes(got)


def test_a_lost_hanger_takes_no_pull_of_a_brace_and_no_sprinkler_load():
    shaken = {"s_ds": 1.0, "a_p": 2.5, "r_p": 6.0, "braced": True, "l_brace": 20.0}
    got = loads(run([10.0] * 3, SCHEDULE_10 | {"sprinkler": True}, missing=1) | {"seismic": shaken})
    np.testing.assert_array_equal(got.tension[1], np.zeros(len(NATURES)))
    assert (got.tension[[0, 2, 3], EARTHQUAKE] > 0).all()
    assert (got.tension[[0, 2, 3], RULE] > 250).all()


def test_any_is_the_largest_of_all():
    spans, own = [10.0, 6.0, 12.0, 9.0], line(20.0, 5.0)
    point = [(11.0, 150.0, "dead"), (25.0, 80.0, "live")]
    each = [run(spans, own, loads=point, missing=missing) for missing in ("any", None, 1, 2, 3)]
    got = loads(*each).tension[:, [DEAD, CONTENTS, LIVE]].reshape(5, 5, 3)
    np.testing.assert_array_equal(got[0], got[1:].max(axis=0))
    assert (got[0] > got[1]).any()


def test_an_overhang_lifts_the_other_end():
    """5 ft before a span of 4 ft, 20 lb/ft: the middle of 9 ft is 0.5 ft before hanger 0, so R_1 = -180 x 0.5 / 4."""
    got = loads(run([4.0], line(20.0), start=5.0, model="hinged"), run([4.0], line(20.0), start=5.0))
    np.testing.assert_allclose(service(got), [202.5, -22.5, 202.5, 40.0], rtol=1e-12)
    found = codes(got)
    assert found["hanger-uplift", 0, 1] == pytest.approx((-22.5, 0.0))
    assert found["hanger-uplift", 1, 1] == pytest.approx((-22.5, 0.0)), "the larger model hides it, the finding doesn't"


def test_a_short_span_beside_a_long_one_lifts_off():
    """Three moments: M = w (20^3 + 2^3) / (8 x 22) = 45.5 w, so R_2 = w - 45.5 w / 2 = -21.75 w. Hinged it is w."""
    got = loads(run([20.0, 2.0], line(10.0)))
    assert service(got)[2] == pytest.approx(10.0)
    assert codes(got)["run-lifts-off", 0, 2][0] == pytest.approx(-217.5)
    assert ("hanger-uplift", 0, 2) not in codes(got)
    got = loads(run([20.0, 2.0], line(10.0), model="continuous"))
    assert service(got)[2] == pytest.approx(-217.5)
    assert codes(got)["hanger-uplift", 0, 2][0] == pytest.approx(-217.5)


def test_a_load_on_the_tip_of_a_bar():
    """100 lb 1 ft beyond a bar of 3 ft: 133.3 lb and 33.3 lb upward, moment 100 lb ft at the rod."""
    bar = {"spans": [3.0], "end": 1.0, "section": SECTION, "loads": [(4.0, 100.0, "dead")]}
    got = loads(trapeze(bar))
    np.testing.assert_allclose(service(got), [-100 / 3, 400 / 3], rtol=1e-12)
    np.testing.assert_allclose(record_of(got, TrapezeBar).m_hog, 100.0, rtol=1e-12)
    assert codes(got)["hanger-uplift", 0, 0][0] == pytest.approx(-100 / 3)


def test_a_live_load_on_a_tip_relieves_nothing_and_lifts():
    """60 lb always there in the middle, 100 lb live on the tip: rod 0 has 30 lb, or 30 - 33.3 with the live load."""
    bar = {"spans": [3.0], "end": 1.0, "loads": [(1.5, 60.0, "dead"), (4.0, 100.0, "live")]}
    got = loads(trapeze(bar))
    np.testing.assert_allclose(got.tension[0, [DEAD, LIVE]], [30.0, 0.0], atol=1e-12)
    assert codes(got)["hanger-uplift", 0, 0][0] == pytest.approx(30 - 100 / 3)


def test_contents_on_a_tip_relieve_nothing_and_lift():
    """A run of 10 ft with 5 ft beyond, 10 lb/ft dead, and 100 lb of contents at the tip. Hinged: dead load is 150 x
    2.5/10 = 37.5 and 112.5 lb; the contents 150 lb at the hanger beside the tip, and 50 lb upwards at the other.
    """
    got = loads(run([10.0], line(10.0), loads=[(15.0, 100.0, "fluid")], end=5.0, model="hinged"))
    np.testing.assert_allclose(got.tension[:, [DEAD, CONTENTS]], [[37.5, 0.0], [112.5, 150.0]], atol=1e-12)
    assert codes(got)["hanger-uplift", 0, 0][0] == pytest.approx(-12.5)


def test_a_full_line_on_a_tip_does_not_relieve_a_rod():
    """Line A at 1 ft of 4 ft has 50 lb of contents, line B 2 ft beyond the rod 120 lb, both 20 lb of pipe.

    With B drained rod 0 has 0.75 x 50 = 37.5 lb of contents, rod 1 with both 0.25 x 50 + 1.5 x 120 = 192.5. With A
    drained rod 0 has 0.75 x 20 - 0.5 x 20 - 0.5 x 120 = -55 lb.
    """
    pipes = [line(2.0, 5.0, tier=0, at=1.0), line(2.0, 12.0, tier=0, at=6.0)]
    got = loads(trapeze({"spans": [4.0], "end": 2.0}, lines=pipes))
    np.testing.assert_allclose(got.tension[:, CONTENTS], [37.5, 192.5], rtol=1e-12)
    np.testing.assert_allclose(got.tension[:, DEAD], [5.0, 35.0], rtol=1e-12)
    assert got.strength.worst[0] == pytest.approx(1.4 * 42.5)
    assert codes(got)["hanger-uplift", 0, 0][0] == pytest.approx(-55.0)


def test_tiers_add_up():
    """100 lb in the middle of the upper bar, 60 lb at a quarter of the lower: 50 + 45 and 50 + 15."""
    upper, lower = ({"spans": [4.0], "loads": [load]} for load in ((2.0, 100.0, "dead"), (1.0, 60.0, "dead")))
    np.testing.assert_allclose(service(loads(trapeze(upper, lower))), [95.0, 65.0], rtol=1e-12)


def test_capacity_kept_free():
    """A quarter of what hangs there, not of the bar: 1.25 x 100 / 2 + 4 x 2 / 2."""
    bar = {"spans": [4.0], "w_bar": 2.0, "loads": [(2.0, 100.0, "dead")]}
    np.testing.assert_allclose(service(loads(trapeze(bar, spare=0.25))), [66.5, 66.5], rtol=1e-12)


def test_capacity_kept_free_relieves_nothing():
    """100 lb at 1 ft of 4 ft, 60 lb 2 ft beyond the rod, half as much again kept free beside each, by moments.

    Rod 0: 1.5 x 75 - 60 x 0.5 with room taken beside the first alone, rod 1: 1.5 x (25 + 90). Least at rod 0, with room
    taken beside the second alone: 75 - 1.5 x 30 = 30 lb, which a wind of -40 lb pushes by 0.9 x 30 - 40 = -13 lb.
    """
    bar = {"spans": [4.0], "end": 2.0, "loads": [(1.0, 100.0, "dead"), (6.0, 60.0, "dead")]}
    got = loads(trapeze(bar, spare=0.5, given=[{"hanger": 0, "nature": "wind", "n": -40.0}]))
    np.testing.assert_allclose(got.tension[:, DEAD], [82.5, 172.5], rtol=1e-12)
    assert codes(got)["hanger-pushed", 0, 0][0] == pytest.approx(-13.0)


def test_capacity_kept_free_bends_the_bar_or_not():
    """200 lb amid 4 ft and 100 lb 2 ft beyond, all room taken amid it alone: 300 x 4/4 - 200/2 = 200 lb ft."""
    bar = {"spans": [4.0], "end": 2.0, "loads": [(2.0, 200.0, "dead"), (6.0, 100.0, "dead")]}
    got = loads(trapeze({**bar, "section": SECTION}, spare=0.5))
    np.testing.assert_allclose(record_of(got, TrapezeBar).m_sag, 200.0, rtol=1e-12)


@pytest.mark.parametrize(("places", "told"), [((0.0, 48.0), {}), ((0.0, 24.0, 48.0), {0: -200.0})])
def test_of_three_rods_in_line_one_may_be_slack(places, told):
    """900 lb amid rods in one line: two have 450 lb each, above a wind of 200 lb; of three one may have none."""
    body = {"dead": 900.0, "x_g": 24.0, "y_g": 0.0, "rods": [(x, 0.0) for x in places]}
    given = [{"hanger": 0, "nature": "wind", "n": -200.0}]
    found = codes(loads({"kind": "equipment", "equipment": body, "given": given}))
    assert {place: value[0] for (code, _, place), value in found.items() if code == "hanger-pushed"} == told


def test_a_sprinkler_line():
    """NFPA 13: 4 in schedule 10 every 12 ft has w_s = 141.5 lb, so 5 w_s + 250 = 957.7 and w_s + 250 = 392 lb."""
    got = loads(run([12.0, 12.0], SCHEDULE_10 | {"sprinkler": True}, model="tributary"))
    middle = service(got)[1] - 250.0
    np.testing.assert_allclose(middle, 141.5, rtol=1e-3)
    np.testing.assert_allclose(got.tension[1, RULE], 957.7, rtol=1e-3)
    np.testing.assert_allclose(got.loads.structure[1], 392.0, rtol=2e-3)
    assert got.tension[1, LIVE] == 250.0
    assert cases(got, 1)["1.2D+1.6L"][0] == pytest.approx(1.2 * 141.54 + 400, rel=1e-3)
    assert got.strength.worst[1] == pytest.approx(957.7, rel=1e-3)
    assert got.allowable.worst[1] == pytest.approx(392.0, rel=2e-3)
    assert codes(got)["sprinkler-structure-load", 0, 1][0] == pytest.approx(392.0, rel=2e-3)


def test_a_sprinkler_line_shares_a_trapeze():
    """In the middle 10 ft of 11.795 lb/ft (computed, tables 11.80) and 200 lb: each rod 5 x 158.98 + 250 lb."""
    pipes = [SCHEDULE_10 | {"sprinkler": True, "tier": 0, "at": 2.0}, line(20.0, tier=0, at=2.0)]
    got = loads(trapeze({"spans": [4.0]}, lines=pipes))
    np.testing.assert_allclose(got.tension[:, RULE], 5 * (117.95 + 200) / 2 + 250, rtol=1e-4)
    assert ("shared-sprinkler-support", 0, -1) in codes(got)


HOOD = {"dead": 600.0, "x_g": 24.0, "y_g": 18.0, "rods": [(0, 0), (48, 0), (48, 36), (0, 36)], "model": "equal_springs"}
SHAKEN = {"s_ds": 1.7, "i_p": 1.0, "a_p": 2.5, "r_p": 6.0, "omega_0": 2.0, "z": 20.0, "h": 20.0}


def test_a_kitchen_hood():
    """A permit's calculation (Santa Ana 375308, page 106): F_p = 0.85 W_p = 0.51 k, 0.15 k a rod, brace 0.361 k.

    Two braces at 45 degrees share the force. The hood weighs 0.60 k.
    """
    braced = SHAKEN | {"braced": True, "braces": 2.0, "theta_v": 45.0}
    got = loads({"kind": "equipment", "equipment": HOOD, "seismic": braced})
    np.testing.assert_allclose(got.tension[:, DEAD], 150.0, rtol=1e-12)
    np.testing.assert_allclose(got.seismic.f_p, 510.0, rtol=1e-12)
    np.testing.assert_allclose(got.seismic.brace.f_axial, 255 * sqrt(2), rtol=1e-12)
    np.testing.assert_allclose(got.tension[:, EARTHQUAKE], 255.0, rtol=1e-12)
    worst = (1.2 + 0.2 * 1.7) * 150 + 255
    np.testing.assert_allclose([pair[0] for pair in map(cases(got, 0).get, ["1.2D+Ev+Eh"])], worst, rtol=1e-12)
    np.testing.assert_allclose(got.strength.worst, worst, rtol=1e-12)
    np.testing.assert_allclose(got.allowable.worst, (1 + 0.14 * 1.7) * 150 + 0.7 * 255, rtol=1e-12)
    assert codes(got)["rod-pushed-by-brace", 0, -1][0] == pytest.approx(255 - (0.9 - 0.34) * 150)


def test_a_stated_earthquake_load_never_relieves_a_brace():
    """Both act either way: 510 lb of one brace at 45 degrees and 100 lb upward stated are 610 lb."""
    braced = SHAKEN | {"braced": True, "theta_v": 45.0}
    given = [{"hanger": 0, "nature": "earthquake", "n": -100.0}]
    got = loads({"kind": "equipment", "equipment": HOOD, "seismic": braced, "given": given})
    np.testing.assert_allclose(got.tension[:, EARTHQUAKE], [610, 510, 510, 510], rtol=1e-12)


@pytest.mark.parametrize(
    ("stated", "push"),
    [
        ([("earthquake", -100.0)], 100.0),
        ([("earthquake", 100.0)], 100.0),  # it acts either way
        ([("thermal", -50.0), ("earthquake", 30.0)], 80.0),  # 0.9D - Ev + Eh + 1.0T, ASCE 7 2.3.6 and 2.3.4
        ([("thermal", 50.0), ("contents", 40.0), ("wind", -20.0)], 0.0),  # what may be absent holds nothing down
        ([("dead", -50.0)], (0.9 - 0.34) * 50.0),
    ],
)
def test_a_stated_push_is_in_the_rod_that_a_brace_pushes(stated, push):
    """510 lb at 45 degrees less (0.9 - 0.2 x 1.7) x 150 lb, and what is stated at one of the hangers."""
    braced = SHAKEN | {"braced": True, "theta_v": 45.0}
    given = [{"hanger": 2, "nature": nature, "n": n} for nature, n in stated]
    for angle in (0.0, 30.0):
        rod = {"angle": angle}
        got = loads({"kind": "equipment", "equipment": HOOD, "seismic": braced, "given": given, "rod": rod})
        pushed = (510 - (0.9 - 0.34) * 150 + push) / cos(radians(angle))
        assert codes(got)["rod-pushed-by-brace", 0, -1][0] == pytest.approx(pushed)


def test_rods_of_equipment_by_every_model():
    """1,000 lb on 4 by 3 ft, 0.5 and 0.3 ft off the middle: by equal springs 137.5, 262.5, 362.5, 237.5 lb."""
    body = {"dead": 1000.0, "x_g": 30.0, "y_g": 21.6, "rods": HOOD["rods"]}
    got = loads(*({"kind": "equipment", "equipment": body | {"model": each}} for each in ("equal_springs", "larger")))
    alike, larger = service(got).reshape(2, 4)
    np.testing.assert_allclose(alike, [137.5, 262.5, 362.5, 237.5], rtol=1e-12)
    assert (larger >= alike).all()
    assert larger[2] == pytest.approx(600.0), "of rods 0, 1, 2 and 0, 2, 3 the latter: y_g/b, with rod 1 slack x_g/a"


def test_a_centre_of_gravity_outside_the_rods():
    got = loads({"kind": "equipment", "equipment": HOOD | {"x_g": 60.0}})
    assert ("no-balance", 0, -1) in codes(got)
    assert not got.held.any()


def test_a_rod_out_of_plumb():
    """5 degrees bring 8.7 % of the load as shear; the rod has 1/cos 5 of it."""
    rod = {"size": "3/8", "rule": "sp58_allowable", "angle": 5.0}
    got = loads(run([10, 10], line(20.0), model="tributary", rod=rod))
    np.testing.assert_allclose(got.strength.worst_shear / got.strength.worst, 0.0875, atol=5e-5)
    np.testing.assert_allclose(got.rods.demand, np.array([100, 200, 100]) * sqrt(1 + tan(radians(5)) ** 2), rtol=1e-12)


def test_out_of_plumb_shows_the_service_load():
    """Not the sum of all natures, among them 5 W + 250 lb of the same line."""
    got = loads(run([12, 12], SCHEDULE_10 | {"sprinkler": True}, rod={"angle": 5.0}))
    np.testing.assert_allclose(record_of(got, OutOfPlumb).p, service(got), rtol=1e-12)


def test_the_vertical_earthquake_counts_in_the_shear_too():
    """100 lb of dead load, 10 lb of earthquake, S_DS 1: 1.2 x 100 + 0.2 x 100 + 10 = 150 lb, and tan 5 of it."""
    item = run([10.0], line(20.0), rod={"angle": 5.0}) | {"seismic": {"s_ds": 1.0}}
    got = loads(item | {"given": [{"hanger": 0, "nature": "earthquake", "n": 10.0}]})
    pull, slide = cases(got, 0)["1.2D+Ev+Eh"]
    assert pull == pytest.approx(150.0)
    assert slide == pytest.approx(150 * tan(radians(5)))


def test_the_static_load_of_a_tray_stands_in_the_sums_by_model():
    """NEMA VE 1: 200 lb on spans of 10 ft count as 40 lb/ft, so 10 ft of 10 + 40 lb/ft tributary, 12.5 continuous."""
    tray = {"kind": "tray", "w_tray": 10.0, "p_static": 200.0, "l_span": 10.0}
    got = loads(run([10, 10], tray))
    np.testing.assert_allclose(got.models[1], [500, 625, 500], rtol=1e-12)
    np.testing.assert_allclose(got.tension[1, [DEAD, LIVE]], [125, 500], rtol=1e-12)
    (own,) = (section.record for section in got.sections if isinstance(section.record, RunReaction))
    np.testing.assert_allclose(own.r_live[1], 500.0, rtol=1e-12)


def test_the_static_load_of_a_tray_stands_on_short_spans_and_tips_too():
    """200 lb of a class for 20 ft on spans of 8 ft: one near an end hanger is all there, one on each span beside it
    makes 400 lb; where a span of 4 ft ends beside one of 20 ft too. At a tip 2 ft beyond, hinged: 200 x (1 + 2/8) more.
    """
    tray = {"kind": "tray", "w_tray": 10.0, "p_static": 200.0, "l_span": 20.0}
    even, odd, tip = (
        run(spans, tray, model=model, **ends)
        for spans, model, ends in (
            ([8, 8, 8], "tributary", {}),
            ([20, 4], "tributary", {}),
            ([8, 8], "hinged", {"end": 2.0}),
        )
    )
    got = loads(even, odd, tip).tension[:, LIVE]
    np.testing.assert_allclose(got, [200, 400, 400, 200, 200, 400, 200, 200, 400, 450], rtol=1e-12)


def test_the_static_load_of_a_tray_on_a_trapeze():
    """200 lb on each side of a trapeze, a half of all at each of two rods."""
    tray = {"kind": "tray", "w_tray": 10.0, "p_static": 200.0, "l_span": 20.0, "tier": 0, "at": 2.0}
    for number, model in ((1.0, "tributary"), (3.0, "hinged")):
        beside = {"spans": [8.0, 6.0], "support": 1, "model": model}
        got = loads(trapeze({"spans": [4.0]}, lines=[tray | {"number": number}], run=beside))
        np.testing.assert_allclose(got.tension[:, LIVE], number * 200, rtol=1e-12)


def test_contents_of_a_line_that_lifts_off_its_trapeze_relieve_nothing():
    """A continuous line of 2 and 12 ft lifts off its first trapeze by (8 + 1728) / (8 x 14) / 2 - 1 = 6.75 ft; 300 lb
    of contents in the middle of the bar bring 150 lb to each rod, the line's own may be absent.
    """
    beside = {"spans": [2.0, 12.0], "support": 0, "model": "continuous"}
    bar = {"spans": [4.0], "loads": [(2.0, 300.0, "fluid")]}
    got = loads(trapeze(bar, lines=[line(5.0, 10.0, tier=0, at=2.0)], run=beside))
    np.testing.assert_allclose(got.tension[:, [DEAD, CONTENTS]], [[-6.75 * 5 / 2, 150.0]] * 2, rtol=1e-12)


def test_a_steam_line_tested_with_water_beside_a_filled_line():
    """Two 4 in schedule 40 pipes in the middle, 10 ft each: a rod has 107.9 lb of steel and 27.6 lb of water.

    In the test both hold water, 55.1 lb a rod, and the test fluid stands in the place of contents. Handbook weights.
    """
    steam = SCHEDULE_40 | {"rho_contents": 0.0, "rho_test": 62.4, "tier": 0, "at": 2.0}
    got = loads(trapeze({"spans": [4.0]}, lines=[steam, SCHEDULE_40 | {"tier": 0, "at": 2.0}]))
    np.testing.assert_allclose(got.tension[:, DEAD], 107.9, rtol=3e-3)
    np.testing.assert_allclose(got.tension[:, CONTENTS], 27.6, rtol=3e-3)
    np.testing.assert_allclose(got.tension[:, TEST], 55.1, rtol=3e-3)
    tested = cases(got, 0)["1.4D with the test fluid"][0]
    assert tested == pytest.approx(1.4 * (107.9 + 55.1), rel=3e-3)
    assert got.strength.worst[0] == tested
    assert got.allowable.worst[0] == pytest.approx(107.9 + 55.1, rel=3e-3)


def test_a_line_that_is_not_tested_has_no_test_load():
    assert not loads(run([10, 10], SCHEDULE_40)).tension[:, TEST].any()


def test_a_riser():
    """60 ft of 16.32 lb/ft on three supports: a third each, or all on any one."""
    each, one = (
        {"kind": "riser", "riser": {"length": 60.0, "supports": 3, "one_carries": alone}, "lines": [line(FILLED_40)]}
        for alone in (False, True)
    )
    np.testing.assert_allclose(service(loads(each, one)), [326.4] * 3 + [979.2] * 3, rtol=1e-12)


def test_a_rod_by_the_hanger_standard():
    """Facility Piping Systems Handbook, table 2.10 has 610 lb for a 3/8 in rod; 1,000 lb are 1.64 of it."""
    rod = {"size": "3/8", "rule": "sp58_allowable_older"}
    got = loads(run([10, 10], line(100.0), model="tributary", rod=rod))
    np.testing.assert_allclose(got.rods.utilisation[1], 1000 / 610, rtol=1e-3)
    assert ("rod-overloaded", 0, 1) in codes(got)
    assert ("rod-overloaded", 0, 0) not in codes(got)


def test_weight_between_braces_counts_what_stands_on_the_run():
    """16.32 lb/ft over 40 ft and a valve of 500 lb: 1,153 lb. A trapeze every 10 ft with a bar of 20 lb and a box of 80
    lb: 16.32 x 40 + 4 x 100 lb. With a brace every 2 ft each still has the whole trapeze: 16.32 x 2 + 100 lb.
    """
    shaken = {"s_ds": 1.0, "a_p": 2.5, "r_p": 6.0, "braced": True, "l_brace": 40.0}
    valve = run([10.0, 10.0], SCHEDULE_40, loads=[(5.0, 500.0, "dead"), (6.0, 250.0, "live")]) | {"seismic": shaken}
    bar = {"spans": [4.0], "start": 0.5, "end": 0.5, "w_bar": 4.0, "loads": [(1.0, 80.0, "dead")]}
    rack = trapeze(bar, lines=[SCHEDULE_40 | {"tier": 0, "at": 2.0}], seismic=shaken)
    dense = rack | {"seismic": shaken | {"l_brace": 2.0}}
    got = loads(valve, rack, dense)
    expected = [40 * FILLED_40 + 500, 40 * FILLED_40 + 400, 2 * FILLED_40 + 100]
    np.testing.assert_allclose(got.seismic.w_p, expected, rtol=2e-3)


def test_the_vertical_earthquake_acts_without_a_brace():
    """D 200 lb, S_DS 2: (1.2 + 0.4) x 200 = 320 against 1.4 x 200; at allowable stress 200 + 0.7 x 0.4 x 200 = 256."""
    got = loads(run([10.0, 10.0], line(20.0), model="tributary") | {"seismic": {"s_ds": 2.0}})
    np.testing.assert_allclose([got.strength.worst[1], got.allowable.worst[1]], [320, 256], rtol=1e-12)


def test_the_bar_of_a_sprinkler_line():
    """NFPA 13 annex, from memory: 4 in schedule 10 mid-span of 4 ft: (15 x 11.8 + 250) x 48 / 60,000 = 0.34 in3."""
    pipe = SCHEDULE_10 | {"sprinkler": True, "tier": 0}
    for s_x, at, spans, code in (
        (0.30, 2.0, [4.0], "bar-below-sprinkler-modulus"),
        (0.35, 2.0, [4.0], None),
        (0.35, 2.0, [4.0, 4.0], "bar-modulus-not-covered"),
        (0.35, -0.5, [4.0], "bar-modulus-not-covered"),
    ):
        tier = {"spans": spans, "start": 1.0, "w_bar": 2.0, "section": SECTION | {"s_x": s_x}}
        found = {name for name, _, _ in codes(loads(trapeze(tier, lines=[pipe | {"at": at}])))}
        assert found & {"bar-below-sprinkler-modulus", "bar-modulus-not-covered"} == ({code} if code else set())


def test_alike_sprinkler_lines_ask_for_as_much_as_each_by_itself():
    """Four pipes of 2 lb/ft in the middle of 2 ft: 4 x (15 x 2 + 250) x 24 / 60,000 = 0.448 in3."""
    pipe = line(2.0, tier=0, at=1.0, sprinkler=True)
    bar = {"spans": [2.0], "section": SECTION}
    for lines in ([pipe | {"number": 4.0}], [pipe] * 4):
        found = codes(loads(trapeze(bar, lines=lines)))
        assert found["bar-below-sprinkler-modulus", 0, 0] == pytest.approx((0.2, 0.448))


def test_a_bar_bends_more_with_its_tip_drained():
    """100 lb mid-span of 4 ft is 100 lb ft; 120 lb of contents 0.5 ft beyond a rod would take 30 of it away."""
    tier = {"spans": [4.0], "end": 1.0, "section": SECTION, "loads": [(2.0, 100.0, "dead")]}
    got = loads(trapeze(tier, lines=[line(0.0, 12.0, tier=0, at=4.5)]))
    np.testing.assert_allclose(record_of(got, TrapezeBar).m_sag, 100.0, rtol=1e-12)


def test_a_bar_on_four_rods_hogs_most_with_one_end_empty():
    """100 lb of filling amid each of three spans of 4 ft, by three moments in P L: with two full 4 M_B + M_C = -0.75
    and M_B + 4 M_C = -0.375, so M_B = -0.175; all full -0.15. In a span 1/4 - 0.075/2 with the outer two full.
    """
    full = [line(0.0, 10.0, tier=0, at=at) for at in (2.0, 6.0, 10.0)]
    record = record_of(loads(trapeze({"spans": [4.0, 4.0, 4.0], "section": SECTION}, lines=full)), TrapezeBar)
    np.testing.assert_allclose((record.m_hog, record.m_sag), [[0.175 * 400], [0.2125 * 400]], rtol=1e-9)


def test_a_lower_tier_that_lifts_does_not_hide_under_the_upper_one():
    """Upper 400 lb in the middle, lower 100 lb 2 ft beyond a rod: -50 on the far rod of the lower, 150 in all."""
    upper = {"spans": [4.0], "loads": [(2.0, 400.0, "dead")]}
    lower = {"spans": [4.0], "end": 2.0, "loads": [(6.0, 100.0, "dead")]}
    got = loads(trapeze(upper, lower))
    np.testing.assert_allclose(service(got), [150, 350], rtol=1e-12)
    assert codes(got)["hanger-uplift", 0, 0][0] == pytest.approx(-50)


def test_a_lean_adds_to_a_stated_push_whichever_way():
    """D 200 lb on a rod 5 degrees out of plumb and 40 lb of dead load pushed along -x: 1.4 x (200 tan 5 + 40)."""
    item = run([10.0, 10.0], line(20.0), model="tributary", rod={"angle": 5.0})
    for push in ((-40.0, 0.0), (40.0, 0.0), (0.0, -40.0)):
        got = loads(item | {"given": [{"hanger": 1, "nature": "dead", "v": push}]})
        assert got.strength.worst_shear[1] == pytest.approx(1.4 * (200 * tan(radians(5)) + 40))


def test_a_weight_stated_at_a_sprinkler_hanger_is_in_its_rule():
    """5 x (141.5 + 20) + 250 and 141.5 + 20 + 250 lb; 11.8 lb/ft over 12 ft."""
    item = run([12.0, 12.0], SCHEDULE_10 | {"sprinkler": True}, model="tributary")
    got = loads(item | {"given": [{"hanger": 1, "nature": "dead", "n": 20.0}]})
    np.testing.assert_allclose(got.tension[1, RULE], 5 * (12 * 11.80 + 20) + 250, rtol=2e-3)
    np.testing.assert_allclose(got.loads.structure[1], 12 * 11.80 + 20 + 250, rtol=2e-3)


def test_contents_never_relieve_a_shear():
    """50 lb of dead load one way and 50 lb of contents the other: 70 lb empty."""
    given = [{"hanger": 0, "nature": n, "v": (v, 0.0)} for n, v in (("dead", 50.0), ("contents", -50.0))]
    got = loads(run([10.0], line(1.0)) | {"given": given})
    assert got.strength.worst_shear[0] == pytest.approx(70.0)


@pytest.mark.parametrize(
    ("nature", "stated", "service_load"),
    [
        ("contents", (69.0, -60.0), 69.0),
        ("live", (250.0, -200.0), 250.0),
        ("earthquake", (300.0, -300.0), 600.0),
        ("wind", (300.0, -100.0), 300.0),
        ("snow", (-80.0, 60.0), 60.0),
        ("thermal", (40.0, -400.0), 40.0),
        ("test", (90.0, -20.0), 90.0),
        ("dead", (300.0, -100.0), 205.0),
        ("live", (-30.0, -20.0), -50.0),
    ],
)
def test_what_may_be_absent_takes_nothing_from_what_pulls(nature, stated, service_load):
    given = [{"hanger": 0, "nature": nature, "n": n} for n in stated]
    got = loads(run([10.0], line(1.0)) | {"given": given, "seismic": {"s_ds": 1.0}})
    assert got.tension[0, NATURES.index(nature)] == pytest.approx(service_load)


def test_a_push_counts_beside_a_pull_of_its_nature():
    """5 lb hang at an end; wind of 500 lb alone pulls 1.2 x 5 + 500 lb, of 400 lb upwards pushes 400 - 0.9 x 5 lb."""
    given = [{"hanger": 0, "nature": "wind", "n": n} for n in (500.0, -400.0)]
    got = loads(run([10.0], line(1.0)) | {"given": given})
    assert got.strength.worst[0] == pytest.approx(506.0)
    assert codes(got)["hanger-pushed", 0, 0][0] == pytest.approx(-395.5)


def test_contents_of_the_line_are_not_relieved_by_contents_that_push():
    """10 ft of 2 lb/ft of filling bring 10 lb to an end hanger, whatever else pushes there."""
    given = [{"hanger": 0, "nature": "contents", "n": -8.0}]
    got = loads(run([10.0], line(1.0, 2.0)) | {"given": given})
    assert got.tension[0, CONTENTS] == pytest.approx(10.0)


def test_the_sprinkler_rule_of_a_lifted_hanger_counts_the_added_load_alone():
    """A bar with 1,000 lb 2 ft beyond a rod lifts the other 4 ft away by 500 lb: no negative 5 W + 250 lb."""
    bar = {"spans": [4.0], "end": 2.0, "loads": [(6.0, 1_000.0, "dead")]}
    got = loads(trapeze(bar, lines=[SCHEDULE_10 | {"sprinkler": True, "tier": 0, "at": 2.0}]))
    assert got.tension[0, DEAD] < -400.0
    assert got.tension[0, RULE] == pytest.approx(250.0)
    assert got.loads.structure[0] == pytest.approx(250.0)
