"""Breakout in shear, 17.7.2, by hand. The default row is that of `shear_rows`: V_b 3,795.95 lb, every factor 1."""

import numpy as np
import pytest

from core.aci318_19.shear_rows import edge

V_B = 3_795.95
INF = np.inf


def test_one_anchor_far_from_everything():
    """A_Vc = 12 x 6 = 72 = A_Vco; 7 x 8^.2 (1.515717) x sqrt(.5) x sqrt(4,000) x 4^1.5 = 3,795.95 lb; phi .70."""
    made = edge()
    assert made.a_vc[0] == made.a_vco[0] == 72.0
    for psi in (made.psi_ec_v, made.psi_ed_v, made.psi_c_v, made.psi_h_v):
        assert psi[0] == 1.0
    assert made.v_b[0] == pytest.approx(V_B, abs=0.005)
    assert made.v_cb[0] == made.v_b[0]
    assert made.design_strength[0] == pytest.approx(0.70 * V_B, abs=0.005)
    assert made.utilisation[0] == pytest.approx(1_000 / (0.70 * V_B), rel=2e-6)


def test_load_bearing_length():
    """l_e: h_ef 3 in; 8 d_a = 4 in where h_ef is 4 or 9; 2 d_a = 1 in with a distance sleeve.

    3 in: (3 / .5)^.2 = 1.430969, V_b 3,583.71 lb. 1 in: 2^.2 = 1.148698, V_b 2,876.80 lb.
    """
    made = edge(h_ef=[3.0, 4.0, 9.0, 9.0], distance_sleeve=[False, False, False, True])
    np.testing.assert_array_equal(made.l_e, [3.0, 4.0, 4.0, 1.0])
    np.testing.assert_allclose(made.v_b, [3_583.71, V_B, V_B, 2_876.80], atol=0.01)


def test_two_forms_and_their_limit():
    """h_ef 3, d_a .5: 7-form 3,583.71, welded (8) 4,095.67, limit 9 sqrt(4,000) 4^1.5 = 4,553.68 lb.

    d_a 1, h_ef 8: 7 x 8^.2 x 1 x sqrt(4,000) x 8 = 5,368.29, so the limit holds; welded as well (reading 16).
    """
    made = edge(h_ef=[3.0, 3.0, 8.0, 8.0], d_a=[0.5, 0.5, 1.0, 1.0], welded=[False, True, False, True])
    np.testing.assert_allclose(made.v_b_limit, 4_553.68, atol=0.005)
    np.testing.assert_allclose(made.v_b_stiffness, [3_583.71, 4_095.67, 5_368.29, 6_135.19], atol=0.01)
    np.testing.assert_allclose(made.v_b, [3_583.71, 4_095.67, 4_553.68, 4_553.68], atol=0.01)


def test_lightweight_and_strength_of_concrete():
    """Both forms go with lambda_a sqrt(f'c): .6 x sqrt(9,000 / 4,000) = .9."""
    made = edge(lambda_a=0.6, f_c=9_000.0)
    assert made.v_b[0] == pytest.approx(0.9 * V_B, abs=0.005)
    assert made.v_b_limit[0] == pytest.approx(0.9 * 4_553.68, abs=0.005)


def test_corner():
    """c_a2 3 in on one side: A_Vc (3 + 6) x 6 = 54, 54/72 = .75; psi_ed .7 + .3 x 3/6 = .85; V_cb .6375 V_b.

    On the other side the same; 6 in and more: no corner.
    """
    made = edge(c_a2=[(3.0, INF), (INF, 3.0), (6.0, INF), (7.0, 9.0)])
    np.testing.assert_allclose(made.a_vc, [54, 54, 72, 72], rtol=1e-15)
    np.testing.assert_allclose(made.psi_ed_v, [0.85, 0.85, 1, 1], rtol=1e-15)
    np.testing.assert_allclose(made.v_cb / V_B, [0.6375, 0.6375, 1, 1], rtol=2e-6)


def test_thin_member():
    """h_a 4 in: A_Vc 12 x 4 = 48, 48/72 = .6667; psi_h sqrt(6/4) = 1.224745; V_cb .816497 V_b. 6 in: not thin."""
    made = edge(h_a=[4.0, 6.0])
    np.testing.assert_array_equal(made.a_vc, [48, 72])
    np.testing.assert_allclose(made.psi_h_v, [1.224745, 1], rtol=1e-6)
    np.testing.assert_allclose(made.v_cb / V_B, [0.816497, 1], rtol=2e-6)


def test_cracks_and_reinforcement_of_the_edge():
    """Table 17.7.2.5.1: 1.0, 1.2, 1.4 cracked; 1.4 uncracked whatever the reinforcement."""
    made = edge(cracked=[True, True, True, False, False, False], edge_reinforcement=[0, 1, 2, 0, 1, 2])
    np.testing.assert_array_equal(made.psi_c_v, [1.0, 1.2, 1.4, 1.4, 1.4, 1.4])
    np.testing.assert_allclose(made.v_cb / V_B, made.psi_c_v, rtol=2e-6)


def test_row_of_anchors():
    """Two at 5 in: A_Vc (6 + 5 + 6) x 6 = 102, 102/72; e'_V 1.5 in: 1 / (1 + 1.5/6) = .8."""
    made = edge(extent=5.0, s_max=5.0, anchor_count=2.0, e_v=[0.0, 1.5])
    np.testing.assert_array_equal(made.a_vc, [102, 102])
    np.testing.assert_allclose(made.psi_ec_v, [1.0, 0.8], rtol=1e-15)
    np.testing.assert_allclose(made.v_cb / V_B, [102 / 72, 0.8 * 102 / 72], rtol=2e-6)


class TestNarrowMember:
    """17.7.2.1.2, readings 7 and 17."""

    def test_only_with_both_sides_and_the_thickness_below(self):
        """c_a1 8: the limit is 12 in, strictly, on both sides and in the thickness; c_a1 itself decides."""
        made = edge(
            c_a1=8.0,
            c_a2=[(3.0, 11.9), (3.0, 12.0), (12.0, 3.0), (3.0, INF), (3.0, 11.9), (11.9, 11.9)],
            h_a=[11.9, 11.9, 11.9, 4.0, 12.0, 4.0],
        )
        np.testing.assert_array_equal(made.narrow, [True, False, False, False, False, True])
        np.testing.assert_allclose(made.c_a1_used, [11.9 / 1.5, 8, 8, 8, 8, 11.9 / 1.5], rtol=1e-15)

    def test_the_largest_of_three(self):
        """c_a1 8: 6/1.5 = 4, 7.5/1.5 = 5, 18/3 = 6 in turn; the nearer side (1 in) never counts."""
        made = edge(
            c_a1=8.0,
            c_a2=[(1.0, 6.0), (6.0, 1.0), (1.0, 6.0), (1.0, 6.0)],
            h_a=[4.5, 4.5, 7.5, 7.5],
            s_max=[0.0, 9.0, 9.0, 18.0],
        )
        np.testing.assert_allclose(made.c_a1_used, [4, 4, 5, 6], rtol=1e-15)

    def test_never_more_than_the_distance_itself(self):
        """A gap of 3 c_a1 is no group any more; should it come, s/3 = 9 > c_a1 = 8 raises nothing."""
        assert edge(c_a1=8.0, c_a2=[(3.0, 6.0)], h_a=4.5, s_max=27.0).c_a1_used[0] == 8.0

    def test_enters_everything(self):
        """c_a1 8, c_a2 3 and 6, h_a 4.5: c'_a1 4, reach 6. A_Vc 9 x 4.5 = 40.5, A_Vco 72; psi_ed .7 + .3 x 3/6 = .85;
        psi_h sqrt(6/4.5) = 1.154701; e'_V 2: 1/(1 + 2/6) = .75; V_b that of 4 in, 3,795.95.

        V_cb .5625 x .85 x 1.154701 x 3,795.95 = 2,095.71 lb without e'_V; along the edge 2 x .5625 x 1.154701 x
        3,795.95 = 4,931.09 lb. Without the rule V_b alone would be 2^1.5 times as large.
        """
        made = edge(c_a1=8.0, c_a2=[(3.0, 6.0)], h_a=4.5, e_v=[0.0, 2.0])
        np.testing.assert_array_equal(made.a_vc, [40.5, 40.5])
        np.testing.assert_array_equal(made.a_vco, [72, 72])
        np.testing.assert_allclose(made.psi_ed_v, 0.85, rtol=1e-15)
        np.testing.assert_allclose(made.psi_h_v, 1.154701, rtol=1e-6)
        np.testing.assert_allclose(made.psi_ec_v, [1, 0.75], rtol=1e-15)
        np.testing.assert_allclose(made.v_b, V_B, atol=0.005)
        np.testing.assert_allclose(made.v_cb, [2_095.71, 0.75 * 2_095.71], atol=0.01)
        np.testing.assert_allclose(made.v_cb_along, [4_931.09, 0.75 * 4_931.09], atol=0.01)

    def test_the_strength_no_longer_depends_on_the_distance(self):
        """Where the rule holds c_a1 is replaced: 8 in and 30 in are alike."""
        near, far = edge(c_a1=[8.0, 30.0], c_a2=[(3.0, 6.0)], h_a=4.5).v_cb
        assert near == far

    def test_a_row_that_grows_weaker_with_a_farther_side(self):
        """The shear counterpart of reading 44: four anchors at 4 in, c_a1 8, h_a 2, the far side at 2 and at 3 in.

        2 in: c'_a1 1.3333 (both 2/1.5 and 4/3); A_Vc 16 x 2 = 32, A_Vco 8; psi_ed 1, psi_h 1: 4 x 1.3333^1.5 = 6.1584.
        3 in: c'_a1 2; A_Vc 17 x 2 = 34, A_Vco 18; psi_ed .7 + .3 x 2/3 = .9; psi_h sqrt(1.5) = 1.224745:
        1.888889 x .9 x 1.224745 x 2^1.5 = 5.8889. Times 7 x 8^.2 sqrt(.5) sqrt(4,000) = 474.494: 2,922.1 and 2,794.3.
        """
        made = edge(c_a1=8.0, c_a2=[(2.0, 2.0), (2.0, 3.0)], h_a=2.0, extent=12.0, s_max=4.0, anchor_count=4.0)
        np.testing.assert_allclose(made.c_a1_used, [4 / 3, 2], rtol=1e-15)
        np.testing.assert_allclose(made.a_vc, [32, 34], rtol=1e-15)
        np.testing.assert_allclose(made.v_cb, [2_922.1, 2_794.3], atol=0.05)

    def test_one_anchor_gains_by_a_farther_side(self):
        """The same sides for one anchor: 1 x 1.3333^1.5 = 1.5396 and 10/18 x .9 x 1.224745 x 2^1.5 = 1.73205,
        times 474.494: 730.5 and 821.8 lb.
        """
        made = edge(c_a1=8.0, c_a2=[(2.0, 2.0), (2.0, 3.0)], h_a=2.0)
        np.testing.assert_allclose(made.v_cb, [730.5, 821.8], atol=0.05)


class TestDirection:
    """Towards the edge, along it, and between (reading 14)."""

    def test_along_the_edge(self):
        """17.7.2.1(c): twice, psi_ed 1: at a corner of 3 in 2 x .75 = 1.5 V_b, towards .6375 V_b; a load along has the
        strength along, whatever the way of combination.
        """
        made = edge(c_a2=[(3.0, INF)], v_towards=0.0, v_along=1_000.0, oblique=[0, 1, 2])
        np.testing.assert_allclose(made.v_cb_along / V_B, 1.5, rtol=2e-6)
        np.testing.assert_allclose(made.design_strength, 0.70 * 1.5 * V_B, atol=0.01)
        np.testing.assert_allclose(made.demand, 1_000, rtol=1e-15)

    def test_oblique(self):
        """phi V_cb 2,657.168 towards, 5,314.337 along; 600 towards and 800 along: .225804 and .150536.

        Vector sqrt(.2258043^2 + .1505362^2) = .271383; separate .225804; sum .376340. The resultant is 1,000 lb.
        """
        made = edge(v_towards=600.0, v_along=800.0, oblique=[0, 1, 2])
        np.testing.assert_allclose(made.demand, 1_000, rtol=1e-15)
        np.testing.assert_allclose(made.r_towards, 0.225804, atol=5e-7)
        np.testing.assert_allclose(made.r_along, 0.150536, atol=5e-7)
        np.testing.assert_allclose(made.utilisation, [0.271383, 0.225804, 0.376340], atol=6e-7)
        np.testing.assert_allclose(made.design_strength, 1_000 / made.utilisation, rtol=1e-14)

    def test_separate_takes_the_larger_of_both(self):
        """100 towards (.037634), 800 along (.150536)."""
        made = edge(v_towards=100.0, v_along=800.0, oblique=1)
        assert made.utilisation[0] == pytest.approx(0.150536, abs=5e-7)

    def test_no_shear(self):
        """Ratio 0 with the strength towards the edge; every number finite."""
        made = edge(v_towards=0.0, v_along=0.0, oblique=[0, 1, 2])
        np.testing.assert_array_equal(made.utilisation, np.zeros(3))
        np.testing.assert_array_equal(made.demand, np.zeros(3))
        np.testing.assert_array_equal(made.design_strength, made.phi_v_cb)

    def test_a_load_too_small_to_square(self):
        """1e-200 lb: its square is 0 in floating point, its ratio is not."""
        made = edge(v_towards=1e-200, v_along=[0.0, 1e-200])
        assert np.isfinite(made.design_strength).all()
        assert made.utilisation[0] == pytest.approx(1e-200 / (0.70 * V_B), rel=1e-5)

    def test_the_strength_between_lies_between(self):
        """From towards to along, the strength in the direction of the load rises from phi V_cb to twice it."""
        angle = np.linspace(0, np.pi / 2, 50)
        made = edge(v_towards=500 * np.cos(angle).round(15), v_along=500 * np.sin(angle))
        assert (np.diff(made.design_strength) > 0).all()
        np.testing.assert_allclose(made.design_strength[[0, -1]], [0.70 * V_B, 1.40 * V_B], rtol=2e-6)


def test_words_for_no_edge_across():
    """Only the distances across may be infinite."""
    made = edge(c_a2=[(INF, INF), (3.0, INF)])
    np.testing.assert_array_equal(made.c_a2_max, [INF, INF])
    np.testing.assert_array_equal(made.c_a2_min, [INF, 3.0])
    np.testing.assert_array_equal(made.c_a1_used, [4.0, 4.0])
