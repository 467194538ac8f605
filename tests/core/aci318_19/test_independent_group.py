"""The scalar calculation of fixtures with several anchors against printed figures, hand computations and shapely.

Sources: D, AISC Design Guide 1, third edition (D1 Example 4.7-3, D2 4.7-4, D3 4.7-15) and second edition (D4 4.5.2);
A, ACI 349.2R-07, read second-hand; N1, an engineer's note in a public repository. Steel and phi of A are not those of
318, so only its nominal strengths count. The rest is computed by hand in the test. Layouts and loads by hand are
invented. Units: in, in2, psi, lbf, lbf*in unless said.
"""

import math
from collections import Counter

import numpy as np
import pytest
from shapely import box, union_all

from core.aci318_19 import group_layouts
from core.aci318_19 import independent_group as scalar
from core.aci318_19.group_layouts import fixture

INF = math.inf
FREE = (INF, INF, INF, INF)
SQUARE = [(-2.0, -2.0), (2.0, -2.0), (2.0, 2.0), (-2.0, 2.0)]
ADHESIVE = {"cast_in": False, "headed": False, "adhesive": True}


def row(answer, mode, anchors, **wanted):
    """The one row of a mode with these anchors."""
    rows = [
        r
        for r in answer["modes"][mode]
        if r["anchors"] == anchors and all(r[name] == value for name, value in wanted.items())
    ]
    assert len(rows) == 1
    return rows[0]


# Printed figures


RODS = {"anchors": SQUARE, "d_a": 0.875, "a_se": 0.462, "f_uta": 58e3, "f_ya": 36e3, "ductile": True, "f_c": 4_000.0}
PIER = {"edges": (10.0,) * 4, "h_ef": 14.0}


@pytest.mark.parametrize(
    ("source", "changes", "strength", "rel"),
    [
        ("D1, printed 76.3 of a rounded 109", {"h_ef": 15.0}, 76_620, 1e-4),
        ("D3, printed 20.4", PIER, 20_448, 1e-4),
        ("D4, printed 77.4", {"h_ef": 13.0, "cracked": False}, 77_364, 1e-4),
        ("D4 in the pier, printed 25.5", {**PIER, "h_ef": 13.0, "cracked": False}, 25_560, 1e-4),
    ],
)
def test_breakout_of_four_rods(source, changes, strength, rel):
    answer = scalar.check(fixture(**(RODS | changes), n=70_000.0))
    found = row(answer, "concrete_breakout_tension", [0, 1, 2, 3])
    assert found["strength"] == pytest.approx(strength, rel=rel), source
    assert found["demand"] == pytest.approx(70_000.0)
    assert [a["tension"] for a in answer["anchors"]] == pytest.approx([17_500.0] * 4)
    assert "side_face_blowout" not in answer["modes"]


def test_steel_and_pullout_of_rods():
    """D1: phi N_sa 20.1 kip of a rod, printed; phi N_pn 26.7 kip with A_brg 1.19 in2 (from memory)."""
    answer = scalar.check(fixture(**RODS, h_ef=15.0, n=70_000.0, n_p=8.0 * 1.19 * 4_000.0))
    assert row(answer, "steel_tension", [0])["strength"] == pytest.approx(20_100, abs=50)
    assert row(answer, "pullout", [0])["strength"] == pytest.approx(26_656, rel=1e-4)


@pytest.mark.parametrize(
    ("source", "changes", "n_cb"),
    [
        ("A1", {"h_ef": 4.69, "edges": (12.0, INF, 12.0, INF)}, 15_417.02),
        ("A3", {"h_ef": 6.63, "edges": (12.0, INF, 20.0, INF)}, 25_912.6),
        ("A4", {"h_ef": 17.57}, 120_163.0),
    ],
)
def test_breakout_of_one_stud(source, changes, n_cb):
    answer = scalar.check(fixture(**changes, f_c=4_000.0, n=8_000.0))
    strength = row(answer, "concrete_breakout_tension", [0])["strength"]
    assert strength == pytest.approx(0.70 * n_cb, rel=5e-5), source


def test_two_of_four_rods_at_an_edge():
    """D2: V_cbg 26.3 kip, phi V_cbg 18.4 kip printed; 26.291 and 18.404 recomputed. Only the near rods resist."""
    near = [(False, False), (True, True), (True, True), (False, False)]
    rods = RODS | {"d_a": 0.75, "resists": near, "h_ef": 12.0, "h_a": 18.0, "edges": (INF, 14.0, INF, INF)}
    answer = scalar.check(fixture(**rods, v_x=17_300.0))
    found = row(answer, "concrete_breakout_shear", [1, 2])
    assert found["strength"] == pytest.approx(18_404, rel=5e-5)
    assert found["v_cb"] == pytest.approx(26_291, rel=5e-5)
    assert found["demand"] == pytest.approx(17_300.0)
    assert [a["v_x"] for a in answer["anchors"]] == pytest.approx([0.0, 8_650.0, 8_650.0, 0.0])


def test_welded_studs_at_an_edge():
    """A2: V_sa 12.7627, V_cb 16.2538, V_cp 16.25 kip printed; A3: V_cb 23.662 kip by the limit of 318-19."""
    studs = {"f_uta": 65e3, "f_ya": 51e3, "welded": True, "welded_stud": True, "f_c": 4_000.0, "v_x": 6_000.0}
    edges = (INF, 10.0, 18.0, INF)
    answer = scalar.check(fixture(**studs, d_a=0.5, a_se=0.19635, h_ef=3.06, h_a=18.0, edges=edges))
    assert row(answer, "steel_shear", [0])["strength"] == pytest.approx(0.60 * 12_762.7, rel=1e-5)
    assert row(answer, "concrete_breakout_shear", [0], edge="x_plus")["v_cb"] == pytest.approx(16_253.8, rel=1e-5)
    assert row(answer, "pryout", [0])["strength"] == pytest.approx(0.70 * 16_250, rel=1e-4)
    edges = (INF, 12.0, 20.0, INF)
    answer = scalar.check(fixture(**studs, d_a=0.625, a_se=0.3068, h_ef=6.63, h_a=18.0, edges=edges))
    assert row(answer, "concrete_breakout_shear", [0], edge="x_plus")["v_cb"] == pytest.approx(23_662, rel=2e-5)


def test_bolt_in_a_pier():
    """N1: V_cb 5,230 and phi N_cb 9,504 lb (rectilinear area), phi V_sa 5,024 lb."""
    pier = {"f_c": 5_000.0, "d_a": 0.625, "h_ef": 7.891, "edges": (6.0,) * 4, "a_se": 0.226, "ductile": True}
    answer = scalar.check(fixture(**pier, f_uta=57e3, f_ya=30e3, n=1_737.5, v_x=817.3))
    assert row(answer, "concrete_breakout_tension", [0])["strength"] == pytest.approx(9_504, abs=1)
    assert row(answer, "concrete_breakout_shear", [0], edge="x_plus", family=0)["v_cb"] == pytest.approx(5_230.2, abs=1)
    assert row(answer, "steel_shear", [0])["strength"] == pytest.approx(5_024, abs=1)


# Areas


@pytest.mark.parametrize(
    ("places", "edges", "area"),
    [
        ([(0, 0)], FREE, 90_000),
        ([(0, 0)], (100, INF, 80, INF), 57_500),
        ([(0, 0), (400, 0)], FREE, 180_000),
        ([(0, 0), (200, 0), (0, 200)], FREE, 210_000),
        ([(0, 0), (250, 0), (125, 250)], FREE, 240_000),
    ],
)
def test_union_figures(places, edges, area):
    assert scalar.projected(fixture(anchors=places, edges=edges), range(len(places)), 150) == pytest.approx(area)


def test_areas_by_shapely():
    for f in group_layouts.fixtures(400, seed=6):
        members, reach = range(len(f["anchors"])), 1.5 * f["h_ef"]
        x_0, x_1, y_0, y_1 = np.clip([f["edges"][side] for side in scalar.SIDES], -1e4, 1e4)
        member = box(-x_0, -y_0, x_1, y_1)
        cut = [box(x - reach, y - reach, x + reach, y + reach) & member for x, y in f["anchors"]]
        union = union_all(cut)
        expected = union.envelope.area if f["bounding"] else union.area
        assert scalar.projected(f, members, reach) == pytest.approx(expected, rel=1e-9)


# By hand


def test_parts_of_a_chain():
    """Three anchors at 2 h_ef with 0.1, 1.5 and 0.1 of N_b: 0.73 as a chain, 1.5 alone."""
    f = fixture(anchors=[(0.0, 0.0), (8.0, 0.0), (16.0, 0.0)])
    n_b = 24.0 * 50.0 * 8.0
    pulls = [0.1 * n_b, 1.5 * n_b, 0.1 * n_b]
    assert sum(pulls) / scalar.breakout(f, (0, 1, 2), pulls) == pytest.approx(1.7 / (28 * 12 / 144))
    assert pulls[1] / scalar.breakout(f, (1,), pulls) == pytest.approx(1.5)


def test_sets():
    f = fixture(anchors=[(float(x), 0.0) for x in (0, 5, 10, 15, 30)])
    found = scalar.sets_of([0, 1, 2, 3, 4], scalar.within(f, 5.5))
    assert found == [(0, 1, 2, 3), (4,), (0,), (1,), (2,), (3,), (0, 1), (0, 1, 2), (1, 2, 3), (2, 3)]
    assert scalar.sets_of([0, 2], scalar.within(f, 10.0)) == [(0,), (2,)]


def test_breakout_off_centre():
    """x = -3 and 3, 3,000 and 1,000 lbf: e' 1.5, psi_ec 1/1.25, area 18 x 12 of 144; 0.75 by earthquake."""
    f = fixture(anchors=[(-3.0, 0.0), (3.0, 0.0)], n=4_000.0, m_y=6_000.0, seismic_075=True)
    found = row(scalar.check(f), "concrete_breakout_tension", [0, 1])
    assert found["strength"] == pytest.approx(0.75 * 0.70 * 9_600 * 1.5 * 0.8)


def test_splitting_and_category():
    """c_a 3: area 9 x 12 of 144, psi_ed 0.85, psi_cp 6/10, k_uncr at most 24; Category 2, phi 0.55, with bars 0.65."""
    f = fixture(**{**ADHESIVE, "adhesive": False}, cracked=False, product_k_c=True, edges=(3.0, INF, INF, INF), n=1e3)
    f |= {"k_uncr": 27.0, "category": 2, "n_p": 5_000.0, "supplementary": True, "seismic_075": True}
    answer = scalar.check(f)
    strength = row(answer, "concrete_breakout_tension", [0])["strength"]
    assert strength == pytest.approx(0.75 * 0.65 * 9_600 * 0.75 * 0.85 * 0.6)
    assert row(answer, "pullout", [0])["strength"] == pytest.approx(0.75 * 0.55 * 5_000)


def test_third_edge():
    """h_ef 6, edges 2, 2, 2 and 3: h'_ef 2, area 20 of 36, psi_ed 0.9; with 2 all round h'_ef 4/3 and nothing else."""
    wide = scalar.breakout(fixture(h_ef=6.0, edges=(2.0, 3.0, 2.0, 2.0)), (0,))
    narrow = scalar.breakout(fixture(h_ef=6.0, edges=(2.0,) * 4), (0,))
    assert wide == pytest.approx(1_200 * 2**1.5 * 20 / 36 * 0.9)
    assert narrow == pytest.approx(1_200 * (4 / 3) ** 1.5)
    three = scalar.breakout(fixture(h_ef=6.0, edges=(2.0, 3.0, 2.0, INF)), (0,))
    assert three == pytest.approx(1_200 * 2**1.5 * 25 / 36 * 0.9)


def test_third_edge_of_a_pair():
    """9 in apart, all edges at 2: h'_ef 9/3, area 13 x 4 of 81, psi_ed 0.7 + 0.3 x 2/4.5."""
    f = fixture(anchors=[(0.0, 0.0), (9.0, 0.0)], h_ef=6.0, edges=(2.0, 11.0, 2.0, 2.0))
    assert scalar.breakout(f, (0, 1)) == pytest.approx(1_200 * 3**1.5 * 52 / 81 * (0.7 + 0.6 / 4.5))


def test_bond_of_a_pair():
    """c_Na 5, N_ba 1,000 pi/2 x 4; 5 in apart, edge at 4: area 15 x 9 of 100, psi_ed 0.94; 0.55 of 0.65 N_ba stays."""
    f = fixture(
        **ADHESIVE, anchors=[(0.0, 0.0), (5.0, 0.0)], edges=(INF, INF, 4.0, INF), n=2e3, m_y=-5e3, sustained=0.4
    )
    answer = scalar.check(f)
    n_ba = 2_000 * math.pi
    assert row(answer, "adhesive_bond", [0, 1])["strength"] == pytest.approx(0.65 * 1.35 * 0.94 * n_ba)
    assert row(answer, "adhesive_bond", [1])["strength"] == pytest.approx(0.65 * 0.9 * 0.94 * n_ba)
    stays = row(answer, "sustained_bond", [0])
    assert (stays["strength"], stays["demand"]) == pytest.approx((0.65 * 0.55 * n_ba, 400))
    assert scalar.bond(f, (0, 1), [1_500.0, 500.0]) == pytest.approx(1.35 * 0.94 * n_ba / 1.25)
    assert scalar.bond({**f, "cracked": False}, (0,)) == pytest.approx(1.1 * 0.9 * 0.94 * n_ba * 5 / 10)
    sheared = scalar.check({**f, "v_x": 1e3, "edges": dict.fromkeys(scalar.SIDES, INF), "m_z": 0.0})
    assert row(sheared, "pryout", [0, 1], by="bond")["strength"] == pytest.approx(0.70 * 2 * 1.5 * n_ba)


def test_blowout():
    """c_a1 2, N_sb 160 x 2 x 50: 6 in apart x 1.5; one of them x 1; a lone one at a corner of 4 x 3/4."""
    places, edges = [(0.0, 0.0), (0.0, 6.0), (0.0, 30.0)], (2.0, INF, INF, 34.0)
    f = fixture(anchors=places, edges=edges, h_ef=8.0, n=3e3, m_x=36e3)
    answer = scalar.check(f)
    strengths = {tuple(r["anchors"]): r["strength"] for r in answer["modes"]["side_face_blowout"]}
    wanted = {(0, 1): 1.5, (0,): 1.0, (1,): 1.0, (2,): 0.75}
    assert strengths == pytest.approx({each: 0.70 * 16_000 * factor for each, factor in wanted.items()})
    assert "side_face_blowout" not in scalar.check({**f, "h_ef": 5.0})["modes"]


def edge_rows(f, v, **wanted):
    """Rows at the edge x_plus: anchors to (towards, along) of those of a family and row."""
    found = scalar.edge_rows(f, v, "x_plus", max(math.hypot(*both) for both in v))
    kept = [r for r in found if all(r[name] == value for name, value in wanted.items())]
    return {tuple(r["anchors"]): (r["towards"], r["along"]) for r in kept}


def test_rows_from_an_edge():
    """Near row its own with 5 in to the next and c_a1 4, all of it with c_a1 6; a welded fixture only the far row."""
    places, v = [(0.0, 0.0), (0.0, 9.0), (5.0, 0.0), (5.0, 9.0)], [(100.0, 10.0)] * 4
    f = fixture(anchors=places, edges=(INF, 9.0, INF, INF))
    assert edge_rows(f, v, row=0) == {(2, 3): (200, 20), (2,): (100, 10), (3,): (100, 10)}
    assert edge_rows(f, v, row=1) == {(0, 1): (400, 40), (0,): (200, 20), (1,): (200, 20)}
    f = fixture(anchors=places, edges=(INF, 11.0, INF, INF))
    assert edge_rows(f, v, row=0)[2, 3] == (400, 40)
    f = fixture(anchors=places, edges=(INF, 11.0, INF, INF), welded=True)
    assert edge_rows(f, v, row=0) == {}
    assert edge_rows(f, v, row=1)[0, 1] == (400, 40)


def test_shear_handed_on():
    """An anchor midway between two in front of it gives half to each, one nearer to the first as a lever would."""
    assert scalar.handed_on([0, 1], {0: (1.0, 0.0), 2: (4.0, 2.0)}, [-3.0, 3.0, 0.0]) == {0: (3.0, 1.0), 1: (2.0, 1.0)}
    assert scalar.handed_on([0, 1], {2: (4.0, 2.0)}, [-3.0, 3.0, -1.5]) == {0: (3.0, 1.5), 1: (1.0, 0.5)}
    assert scalar.handed_on([0, 1], {2: (4.0, 2.0)}, [-3.0, 3.0, 3.1]) == {0: (0.0, 0.0), 1: (4.0, 2.0)}


def test_sheared_along_and_away():
    """One anchor goes towards the edge, one away: what is along is judged by itself, with both."""
    f = fixture(anchors=[(0.0, 0.0), (0.0, 6.0)], edges=(INF, 4.0, INF, INF))
    v = [(500.0, 1_000.0), (-500.0, -800.0)]
    assert edge_rows(f, v, family=0) == {(0,): (500, 1_000)}
    assert edge_rows(f, v, family=1) == {(0, 1): (0, 1_800), (0,): (0, 1_000), (1,): (0, 800)}
    assert edge_rows(f, [(500.0, 1_000.0), (1.0, -800.0)], family=1) == {}


V_B = 7.0 * 8.0**0.2 * math.sqrt(0.5) * 50.0 * 8.0  # c_a1 4, l_e 4, d_a 0.5, f'c 2,500


def test_edge_strength_off_centre():
    """y = -3 and 3, 500 and 1,000 lbf: e'_V 1, psi_ec 1/(1 + 1/6), area 18 x 6 of 72; alone half of it and no e'_V."""
    f = fixture(anchors=[(0.0, -3.0), (0.0, 3.0)], edges=(INF, 4.0, INF, INF))
    found = {tuple(r["anchors"]): r for r in scalar.edge_rows(f, [(500.0, 0.0), (1_000.0, 0.0)], "x_plus", 1_000.0)}
    assert found[0, 1]["v_cb"] == pytest.approx(1.5 * V_B * 6 / 7)
    assert found[0, 1]["utilisation"] == pytest.approx(1_500 / (0.70 * 1.5 * V_B * 6 / 7))
    assert found[1,]["v_cb"] == pytest.approx(V_B)


@pytest.mark.parametrize(("reinforcement", "psi_c"), [(0, 1.0), (1, 1.2), (2, 1.4)])
def test_gap_in_a_narrow_member(reinforcement, psi_c):
    """15 in apart, c_a1 6, c_a2 2, h_a 4: c'_a1 15/3, area 19 x 4 of 112.5, psi_ed 0.78, psi_h^2 7.5/4."""
    f = fixture(anchors=[(0.0, -7.5), (0.0, 7.5)], edges=(INF, 6.0, 9.5, 9.5), h_a=4.0)
    found = scalar.edge_rows({**f, "edge_reinforcement": reinforcement}, [(1.0, 0.0)] * 2, "x_plus", 1.0)
    pair = next(r for r in found if r["anchors"] == [0, 1])
    wanted = V_B * 1.25**1.5 * 76 / 112.5 * 0.78 * math.sqrt(7.5 / 4) * psi_c
    assert pair["v_cb"] == pytest.approx(wanted)


@pytest.mark.parametrize(("oblique", "ratio"), [("vector", math.hypot(3, 2)), ("separate", 3), ("linear", 5)])
def test_oblique_at_a_narrow_member(oblique, ratio):
    """c_a1 6, c_a2 4 and 5, h_a 6: c'_a1 4, area 9 x 6 of 72, psi_ed 0.9, uncracked 1.4; along twice it without 0.9."""
    f = fixture(edges=(INF, 6.0, 4.0, 5.0), h_a=6.0, cracked=False, supplementary=True, oblique=oblique)
    unit = 0.75 * V_B * 0.75 * 1.4
    found = scalar.edge_rows(f, [(3 * 0.9 * unit, 2 * 2 * unit)], "x_plus", unit)
    assert [r["utilisation"] for r in found] == pytest.approx([ratio])


def test_pryout_by_bond_and_breakout():
    """Bond 2,000 pi, breakout 17 x 50 x 8; both twice with phi 0.70. Pure shear: no tension and no interaction."""
    answer = scalar.check(fixture(**ADHESIVE, v_y=1_000.0, seismic_075=True))
    assert row(answer, "pryout", [0], by="bond")["strength"] == pytest.approx(0.70 * 2 * 2_000 * math.pi)
    assert row(answer, "pryout", [0], by="breakout")["strength"] == pytest.approx(0.70 * 2 * 6_800)
    assert set(answer["modes"]) == {"pryout", "steel_shear"}


@pytest.mark.parametrize(
    ("shear", "power", "expected"),
    [(0.6, False, 1.1 / 1.2), (0.2, False, 0.5), (0.9, False, 1.4 / 1.2), (0.6, True, (0.314980 + 0.426835) ** 0.6)],
)
def test_interaction(shear, power, expected):
    """Breakout 0.70 x 9,600 at one half; steel in shear 0.60 x 0.6 x 20,000; the powers 5/3 of 0.5 and 0.6."""
    answer = scalar.check(fixture(n=3_360.0, v_x=shear * 7_200, power=power))
    assert answer["largest"]["concrete_breakout_tension"] == pytest.approx(0.5)
    assert answer["largest"]["steel_shear"] == pytest.approx(shear)
    assert row(answer, "steel_tension", [0])["strength"] == pytest.approx(0.65 * 20_000)
    assert answer["largest"]["tension_shear_interaction"] == pytest.approx(expected, rel=1e-5)


def test_what_stays_does_not_interact():
    """Bond 0.65 x 2,000 pi at one half, of which all stays: 0.5/0.55 by itself; 0.6 of the steel in shear."""
    answer = scalar.check(fixture(**ADHESIVE, n=0.65 * 1_000 * math.pi, v_x=0.6 * 7_200, sustained=1.0))
    assert answer["largest"]["sustained_bond"] == pytest.approx(0.5 / 0.55)
    assert answer["largest"]["tension_shear_interaction"] == pytest.approx(1.1 / 1.2)


# Random fixtures


def swapped(f):
    """The same fixture with x and y in each other's place."""
    minus_x, plus_x, minus_y, plus_y = (f["edges"][side] for side in scalar.SIDES)
    plate = f["plate"] and (*f["plate"][2:4], *f["plate"][:2], f["plate"][4])
    return f | {
        "anchors": [(y, x) for x, y in f["anchors"]],
        "resists": [(y, x) for x, y in f["resists"]],
        "edges": dict(zip(scalar.SIDES, (minus_y, plus_y, minus_x, plus_x), strict=True)),
        "plate": plate,
        "v_x": f["v_y"],
        "v_y": f["v_x"],
        "m_x": -f["m_y"],
        "m_y": -f["m_x"],
        "m_z": -f["m_z"],
    }


def test_axes_are_alike():
    for f in group_layouts.fixtures(500, seed=7):
        assert scalar.check(swapped(f))["largest"] == pytest.approx(scalar.check(f)["largest"], rel=1e-7, abs=1e-12)


def test_random_fixtures_reach_every_branch():
    made = group_layouts.fixtures(2_000, seed=0)
    assert made == group_layouts.fixtures(2_000, seed=0)
    seen = Counter()
    for f in made:
        answer = scalar.check(f)
        assert set(answer["largest"]) == set(answer["modes"])
        seen.update([f["pattern"], f["family"], f["loading"], *answer["modes"]])
        seen.update({("count", len(f["anchors"])), ("contact", bool(f["plate"] and f["plate"][4]))})
        seen.update({("blowout", len(r["anchors"]) > 1) for r in answer["modes"].get("side_face_blowout", ())})
        at_edges = answer["modes"].get("concrete_breakout_shear", ())
        seen.update({("edge row", r["family"], min(r["row"], 2)) for r in at_edges})
        within = [c for c in scalar.nearest_edges(f, range(len(f["anchors"]))) if c < 1.5 * f["h_ef"]]
        seen[("near edges", len(within))] += 1
    expected = {*group_layouts.PATTERNS, *group_layouts.FAMILIES, *group_layouts.LOADINGS, "sustained_bond"}
    expected |= {("count", n) for n in range(1, 10)} | {("near edges", n) for n in range(5)}
    expected |= {("edge row", family, k) for family in (0, 1) for k in (0, 1, 2)}
    expected |= {("blowout", several) for several in (True, False)}
    assert {what: seen[what] for what in expected if seen[what] <= 20} == {}
