"""What must not change where nothing that holds has changed: anchors of several points against those of one plate, and
loads and places moved by next to nothing.

No standard has figures for this: each case is the service against itself on another way, where the two must agree, or
a hand calculation beside it (ACI 318-19 chapter 17). Points and products are invented.
"""

import math

import pytest

from hangpoint.api.routes.hang_points import BATCH_PATH, GROUP_PATH

FAR = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": "1.75 in"}
HEADED = {
    "units": "us",
    "principle": "headed_cast_in",
    "basis": "cast_in",
    "source": {"document": "invented", "date": "2026-01", "standard": "none"},
    "traits": {"tension_overhead": True, "sustained_tension": True},
    "size": {"size": "3/4", "d_a": 0.75, "a_se": 0.3345, "f_uta": 58_000, "f_ya": 36_000, "ductile": True}
    | {"head": {"a_brg": 0.911, "welded_stud": False}},
    "embedment": {"h_ef": 8, "h_min": 10, "c_min": 1.0, "s_min": 1.0, "spacing_tested": True},
}


def base(thickness, **edges):
    return {
        "kind": "concrete",
        "member": "M",
        "strength": {"f_c": 4_000},
        "density": "normalweight",
        "state": "cracked",
        "thickness": thickness,
        "face": "side" if "side" in edges else "soffit",
        "edges": FAR | {name: size for name, size in edges.items() if name != "side"},
        "supplementary": False,
        "edge_reinforcement": "none",
        "post_tensioned": "no",
    }


def forces(**components):
    dead = {"nature": "dead", "tension": 0} | components
    return {"components": [dead], "sustained_fraction": 1, "earthquake_fraction": 0}


def point(x, y, loads, anchor, own_base):
    return {
        "at": {"level": "L1", "x": f"{x} in", "y": f"{y} in"},
        "hangs": {"kind": "forces", **loads},
        "anchor": anchor,
        "base": own_base,
        "seismic": {"category": "A"},
    }


@pytest.fixture
def used(send):
    """The largest utilisation of each mode, of points or of one group; a list of points is a batch."""

    def of(asked):
        head = {"units": "us", "combinations": "given_factored", "detail": "modes"}
        if isinstance(asked, list):
            items = [{"id": f"P{at}"} | each for at, each in enumerate(asked)]
            results = send(head | {"items": items}, BATCH_PATH, status=200)["items"]
        else:
            results = send(head | {"group": asked}, GROUP_PATH, status=200)["items"]
        worst = {}
        for result in results:
            for mode in (each for each in result["modes"] if each["applies"]):
                worst[mode["mode"]] = max(worst.get(mode["mode"], 0.0), mode["utilisation"])
        return worst | {"codes": {each["code"] for result in results for each in result["findings"]}}

    return of


def group(layout, loads, anchor, own_base):
    return {
        "id": "G",
        "loads": loads,
        "anchor": anchor | {"layout": [{"x": x, "y": y} for x, y in layout]},
        "base": own_base,
        "attachment": {"grout_pad": False},
        "seismic": {"category": "A"},
    }


@pytest.mark.parametrize("beside", [forces(), forces(shear_x=500)])
@pytest.mark.parametrize("anchor", [WEDGE, {"product": HEADED}])
def test_unloaded_neighbours_add_no_strength(used, beside, anchor):
    """17.6.2.1.1, 17.6.4.2: the anchors in tension, no others."""
    own = base(12, y_minus=2.5)
    two = [point(x, 0, forces(tension=2_000), anchor, own) for x in (4, 8)]
    four = [point(0, 0, beside, anchor, own), *two, point(12, 0, beside, anchor, own)]
    pair, row = used(two), used(four)
    for mode in ("concrete_breakout_tension", *(["side_face_blowout"] if anchor is not WEDGE else [])):
        assert row[mode] == pytest.approx(pair[mode], rel=1e-12)


def test_points_of_equal_products_are_alike(used):
    """Four points whose product is stated in each, and the same four anchors on one plate (17.5.1.3.1)."""
    own, places = base(30, x_plus=12, side=True), [(0, y) for y in (0, 10.5, 21, 31.5)]
    loads, anchor = forces(shear_x=3_000), {"product": HEADED}
    one = used(group([(x, y - 15.75) for x, y in places], forces(shear_x=12_000), anchor, own))
    own = own | {"face": "soffit"}  # points in the side of a member are not compared
    several = used([point(x, y, loads, anchor, own) for x, y in places])
    assert several["concrete_breakout_shear"] == pytest.approx(one["concrete_breakout_shear"], rel=1e-9)
    assert "mixed-group" not in several["codes"]


@pytest.mark.parametrize("edge", [17.4, 17.6, 30.0])
def test_points_sheared_towards_a_far_edge_are_a_row(used, edge):
    """Nearer and farther than 10 h_ef = 17.5 in: 16 hangers 5.5 in apart in a thin slab, and as one layout."""
    own, loads = base(4, x_plus=edge), forces(shear_x=1_000)
    places = [(0.0, 5.5 * at) for at in range(16)]
    several = used([point(x, y, loads, WEDGE, own) for x, y in places])
    one = used(group([(x, y - 41.25) for x, y in places], forces(shear_x=16_000), WEDGE, own))
    assert several["concrete_breakout_shear"] == pytest.approx(one["concrete_breakout_shear"], rel=1e-9)


def test_unlike_anchors_sheared_towards_one_edge_do_not_pass(used):
    own, loads = base(4, x_plus=6), forces(shear_x=50)
    other = {**WEDGE, "h_ef": "2.5 in"}
    assert "mixed-group-at-edge" in used([point(0, y, loads, a, own) for y, a in ((0, WEDGE), (10, other))])["codes"]
    apart = used([point(0, y, loads, a, own) for y, a in ((0, WEDGE), (18.1, other))])
    assert "mixed-group-at-edge" not in apart["codes"]


def test_near_points_behind_each_other_keep_their_own_shear(used):
    """1,000 lb on each of two bolts 3/4 in, 6 and 9 in from an edge: phi V_b .70 x 9 sqrt(4,000) times 6^1.5 or 9^1.5.

    The farther one carries both. Under a plate, 3 in being below c_a1 of 6 in, so does the nearer one (reading 12).
    """
    v_6, v_9 = (0.7 * 9 * math.sqrt(4_000) * c_a1**1.5 for c_a1 in (6, 9))
    bolt, loads = {"family": "headed-bolt", "size": "3/4", "h_ef": 6}, forces(shear_x=1_000)
    apart = used([point(-x, 0, loads, bolt, base(24, x_plus=6 + x)) for x in (0, 3)])
    assert apart["concrete_breakout_shear"] == pytest.approx(max(1_000 / v_6, 2_000 / v_9), rel=1e-9)
    plate = used(group([(0, 0), (-3, 0)], forces(shear_x=2_000), bolt, base(24, x_plus=6)))
    assert plate["concrete_breakout_shear"] == pytest.approx(2_000 / v_6, rel=1e-9)


def test_a_row_of_two_diameters_has_one_strength(send):
    """500 lb on each of two bolts 6 in apart and 6 in from an edge, 5/8 and 3/4 in of h_ef 6 in: A_Vc 24 x 9, and V_b
    of the thinner, 7 x 8^.2 sqrt(.625) sqrt(4,000) 6^1.5 (17.7.2.2.1), for both. The thicker had its own for the row.
    """
    strength = 0.7 * 24 * 9 / 162 * 7 * 8**0.2 * math.sqrt(0.625) * math.sqrt(4_000) * 6**1.5
    bolts = [{"family": "headed-bolt", "size": size, "h_ef": 6} for size in ("5/8", "3/4")]
    own = base(12, x_plus=6) | {"strength": {"f_c": 4_000}}
    items = [point(0, 6 * at, forces(shear_x=500), bolt, own) | {"id": f"P{at}"} for at, bolt in enumerate(bolts)]
    body = {"units": "us", "combinations": "given_factored", "detail": "modes", "items": items}
    for result in send(body, BATCH_PATH, status=200)["items"]:
        (torn,) = [each for each in result["modes"] if each["mode"] == "concrete_breakout_shear"]
        assert torn["utilisation"] == pytest.approx(1_000 / strength, rel=1e-9)


def test_a_row_of_which_one_anchor_is_pushed_to_the_edge(used):
    """Two anchors 4 in apart, c_a1 8 in, V_x 6,800 and V_y 13,600 lb, the torsion such that the first isn't pushed.

    Towards: one anchor with 6,800 lb. A_Vc 24 x 12 = 288 = A_Vco; V_b is the lesser of 7 x 8^.2 sqrt(.75) and 9 times
    sqrt(4,000) 8^1.5: 9 x 63.2456 x 22.6274 = 12,879.8 lb (7 x 1.515717 x .866025 = 9.18861); phi .70: ratio .754230.
    Along: both with 13,600 lb. A_Vc (24 + 4) x 12 = 336; 2 x 336 / 288 x 12,879.8 x .70 = 21,037.0 lb: .646480.
    Together .993379 (reading 14).
    """
    own, layout = base(30, x_plus=8, side=True), [(0, -2), (0, 2)]
    pushed = [
        used(group(layout, forces(shear_x=6_800, shear_y=13_600, torsion=13_600 + step), {"product": HEADED}, own))
        for step in (0.0, 3.0)
    ]
    for each in pushed:
        assert each["concrete_breakout_shear"] == pytest.approx(math.hypot(0.754230, 0.646480), rel=3e-4)


@pytest.mark.parametrize("off", [-0.02, -0.004, 0.0, 0.004, 0.02])
def test_shear_handed_on_does_not_step_where_a_place_moves_by_nothing(used, off):
    """Two anchors 8 in apart 6 in from an edge, a third 4 in behind their middle, 12,000 lb to the edge: as 4 < 6 the
    near row has it all (R17.7.2.1, case 3), without eccentricity. A_Vc (18 + 8) 9 = 234 in2, A_Vco 162 in2; V_b =
    9 x 63.2456 x 6^1.5 = 8,365.7 lb (7 x 8^.2 sqrt(.75) is more); phi .70: 8,458.6 lb."""
    own, layout = base(30, x_plus=6, side=True), [(0, -4), (0, 4), (-4, off)]
    strength = 0.7 * 9 * math.sqrt(4_000) * 6**1.5 * 234 / 162
    found = used(group(layout, forces(shear_x=12_000), {"product": HEADED}, own))
    assert found["concrete_breakout_shear"] == pytest.approx(12_000 / strength, rel=2e-3)


@pytest.mark.parametrize("apart", [7.4, 7.6, 7.8])
def test_the_embedment_by_three_edges_is_no_more_than_that_of_the_shallowest(used, apart):
    """17.6.2.1.2 reduces h_ef: of 2.5 and 2.75 in, alike by reading 30 and together up to 7.875 in, at most 2.5 in.

    Edges 1.5 in on three sides: A_Nc (1.5 + 3.75 + apart, or what 3.75 reach to both sides) 3, psi_ed .7 + .3 x .4 for
    h'_ef of 2.5 in, reached from 7.5 in on; e'_N = 500 / 700 apart / 2; k_c 17, phi .65, f'_c 4,000 psi.
    """
    ends = {"x_minus": 1.5, "y_minus": 1.5, "y_plus": 1.5}
    shallow, deep = ({"family": "wedge-expansion-zinc", "size": s, "h_ef": h} for s, h in (("3/8", 2.5), ("5/8", 2.75)))
    pair = [
        point(0, 0, forces(tension=100), shallow, base(20, **ends)),
        point(apart, 0, forces(tension=600), deep, base(20, **ends | {"x_minus": 1.5 + apart})),
    ]
    depth = min(2.5, apart / 3)
    area = 3 * (1.5 + 1.5 * depth + min(apart, 3 * depth))
    factors = (0.7 + 0.3 * 1.5 / (1.5 * depth)) / (1 + 500 / 700 * apart / 2 / (1.5 * depth))
    strength = 0.65 * 17 * math.sqrt(4_000) * depth**1.5 * area / (9 * depth**2) * factors
    assert used(pair)["concrete_breakout_tension"] == pytest.approx(700 / strength, rel=1e-9)


def test_blowout_does_not_step_where_a_load_or_a_place_moves_by_nothing(used):
    """17.6.4.1.1: the anchor at the corner by itself, 160 x 2 sqrt(.911) sqrt(4,000) x (1 + 2 / 2) / 4 x .70 lb.

    17.6.4.2: two in a row with 3,000 lb each, (1 + 2.5 / 12) times one without a corner.
    """
    own = base(30, x_minus=2, y_minus=2, side=True)
    corner = [(0, 0), (6, 0), (0, 6)]
    loads = forces(tension=3_000)
    at_corner, moved = (
        used(group(corner, loads | {"at": {"x": at, "y": at}}, {"product": HEADED}, own)) for at in (0.0, 1e-6)
    )
    by_hand = 3_000 / (160 * 2 * math.sqrt(0.911) * math.sqrt(4_000) * 0.5 * 0.70)
    assert at_corner["side_face_blowout"] == pytest.approx(by_hand, rel=1e-6)
    assert moved["side_face_blowout"] == pytest.approx(by_hand, rel=1e-5)
    own, loads = base(30, x_minus=2, side=True), forces(tension=6_000)
    rows = [
        used(group([(0, -1.25), (2 * off, 1.25)], loads | {"at": {"x": off, "y": 0}}, {"product": HEADED}, own))
        for off in (0.0, 5e-6)
    ]
    row = 6_000 / (160 * 2 * math.sqrt(0.911) * math.sqrt(4_000) * (1 + 2.5 / 12) * 0.70)
    assert [each["side_face_blowout"] for each in rows] == pytest.approx([row, row], rel=1e-5)


def inline(h_ef, **embedment):
    """A headed bolt 3/4 in."""
    made = HEADED["embedment"] | {"h_ef": h_ef, "h_min": h_ef + 1} | embedment
    return {"product": HEADED | {"embedment": made}}


def test_bars_of_a_neighbour_leave_its_load_in_the_concrete(used):
    """17.5.2.1 lets bars stand for the breakout of the anchor that they hold: the one beside it has what it had."""
    held = base(12) | {"anchor_reinforcement": {"tension": {"area": 1.0, "f_y": 60_000}}}
    pair = [point(0, y, forces(tension=load), inline(6), base(12)) for y, load in ((0, 15_000), (5, 9_000))]
    barred = [pair[0], pair[1] | {"base": held}]
    assert used(barred)["concrete_breakout_tension"] == pytest.approx(
        used(pair)["concrete_breakout_tension"], rel=1e-12
    )


def test_an_edge_is_told_along_a_chain_of_points(used):
    """Three bolts 12 in apart: the edge that the last one states is one for the first, whose shear it takes."""
    places = [(0, 4_000), (12, 100), (24, 100)]
    told = [point(0, y, forces(shear_x=v), inline(6), base(12, x_plus=4)) for y, v in places]
    only_one = [each | {"base": base(12)} for each in told[:2]] + told[2:]
    found = used(only_one)
    assert found["concrete_breakout_shear"] == pytest.approx(used(told)["concrete_breakout_shear"], rel=1e-12)
    assert "edges-disagree" in found["codes"]


@pytest.mark.parametrize(("apart", "fails"), [(17.9, True), (18.1, False)])
def test_unlike_heads_at_one_side_face_do_not_pass(used, apart, fails):
    """6 c_a1 = 18 in (17.6.4.2): h_ef is not in N_sb, so that two depths burst the face as one row."""
    own = base(40, x_plus=3)
    heads = [point(0, y, forces(tension=5_000), inline(h_ef), own) for y, h_ef in ((0, 25), (apart, 28))]
    assert ("mixed-group-at-edge" in used(heads)["codes"]) is fails
    pressed = [point(0, y, forces(tension=-5_000), inline(h_ef), own) for y, h_ef in ((0, 25), (apart, 28))]
    assert "mixed-group-at-edge" not in used(pressed)["codes"]


@pytest.mark.parametrize(("apart", "fails"), [(7.9, True), (8, False)])
def test_a_least_spacing_wider_than_the_reach_of_the_concrete(used, apart, fails):
    """s_min 8 in beside 3 h_ef = 6 in."""
    far = [point(0, y, forces(tension=10), inline(2, s_min=8.0), base(12)) for y in (0, apart)]
    assert ("neighbour-below-minimum-spacing" in used(far)["codes"]) is fails


def test_bond_of_unlike_neighbours_is_cut_as_far_as_it_reaches(used):
    """c_Na is beyond 1.5 h_ef: where 1.5 (h_ef,1 + h_ef,2) = 9.375 in is passed, the boundary stays (17.6.5.1.1)."""
    confirmed = {
        "temperature": "a",
        "concrete_age": 60,
        "certified_installer": True,
        "continuous_inspection": True,
    }

    def apart(spacing):
        anchors = [
            {"family": "adhesive-slow-rod-36", "size": size, "h_ef": h_ef, "adhesive": confirmed}
            for size, h_ef in (("5/8", 3.125), ("5/8", 7.5))
        ]
        loads = forces(tension=1_000) | {"sustained_fraction": 0}
        return used([point(0, y, loads, a, base(14)) for y, a in zip((0, spacing), anchors, strict=True)])

    limit = 1.5 * (3.125 + 7.5)
    near, beyond = apart(limit - 0.01), apart(limit + 0.01)
    assert beyond["adhesive_bond"] == pytest.approx(near["adhesive_bond"], rel=2e-3)
    assert "mixed-group" in beyond["codes"]


@pytest.mark.parametrize("behind", [0.01, 1 / 16, 0.25])
def test_points_set_as_well_as_points_are_set_are_one_row(used, behind):
    """Two bolts 17 in apart, 6 in from an edge, one of them a little farther: A_Vc (18 + 17) 9 = 315 in2, A_Vco 162;
    V_b = 9 sqrt(4,000) 6^1.5, phi .70; of the nearer one's distance."""
    row = [
        point(x, y, forces(shear_x=2_500), inline(6), base(12, x_plus=edge))
        for x, y, edge in ((0, 0, 6), (-behind, 17, 6 + behind))
    ]
    strength = 0.7 * 9 * math.sqrt(4_000) * 6**1.5 * 315 / 162
    assert used(row)["concrete_breakout_shear"] == pytest.approx(5_000 / strength, rel=1e-9)
