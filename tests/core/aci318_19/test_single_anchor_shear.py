"""Limits of shear, bond, earthquake and interaction of a whole single anchor, by hand; forces in lb.

The default anchor is a headed bolt of 5/8 in, 6 in deep, in cracked concrete of 4,000 psi, phi .70: l_e = 8 d_a, so
V_b = 7 x 8^.2 x sqrt(.625) x sqrt(4,000) c_a1^1.5 = 530.501 c_a1^1.5.
"""

import numpy as np
import pytest

from core.builders import EXPANSION, INF, anchor_cases
from core.outcome_rows import cases_of_rows, edges_of_rows
from hangpoint.core.aci318_19.check import check
from hangpoint.core.outcome import peak_by_case
from hangpoint.core.vocabulary import Mode

BREAKOUT, EDGE = Mode.CONCRETE_BREAKOUT_TENSION, Mode.CONCRETE_BREAKOUT_SHEAR
X_MINUS, X_PLUS, Y_MINUS, Y_PLUS = range(4)


def outcomes(**changed):
    return {outcome.mode: outcome for outcome in check(*anchor_cases(**changed)).outcomes}


def at_edges(outcome, name="design_strength"):
    """A column of the breakout towards each edge, by case and edge."""
    places = zip(cases_of_rows(outcome).tolist(), edges_of_rows(outcome).tolist(), strict=True)
    return dict(zip(places, getattr(outcome, name).tolist(), strict=True))


class TestEdges:
    def test_which_edges_are_checked(self):
        """Towards and along finite edges; away from an edge only what acts along it (reading 15)."""
        c_a = (4.0, 5.0, 6.0, INF)
        found = outcomes(c_a=[c_a] * 5, v_ua_x=[-100.0, 100.0, 0.0, 0.0, 60.0], v_ua_y=[0.0, 0.0, -100.0, 100.0, 80.0])[
            EDGE
        ]
        assert sorted(at_edges(found)) == [
            (0, X_MINUS),
            (0, Y_MINUS),
            (1, X_PLUS),
            (1, Y_MINUS),
            (2, X_MINUS),
            (2, X_PLUS),
            (2, Y_MINUS),
            (3, X_MINUS),
            (3, X_PLUS),
            (4, X_MINUS),
            (4, X_PLUS),
            (4, Y_MINUS),
        ]
        demands = at_edges(found, "demand")
        assert demands[0, X_MINUS] == demands[0, Y_MINUS] == 100.0
        assert (demands[4, X_MINUS], demands[4, X_PLUS], demands[4, Y_MINUS]) == (80.0, 100.0, 60.0)

    def test_shear_that_may_act_either_way(self):
        """Towards both edges of its axis."""
        found = outcomes(c_a=[(4.0, 5.0, INF, INF)], v_ua_x=100.0, either_x=True)[EDGE]
        assert at_edges(found, "demand") == {(0, X_MINUS): 100.0, (0, X_PLUS): 100.0}
        assert found.record.v_towards.tolist() == [100.0, 100.0]

    def test_the_sides_across(self):
        """Each edge is cut at the two edges that meet it, not at the one behind the anchor."""
        found = outcomes(c_a=[(4.0, 1.0, 5.0, 3.0)], v_ua_x=-100.0)[EDGE]
        row = list(found.edge_of_row).index(X_MINUS)
        assert (found.record.c_a2_low[row], found.record.c_a2_high[row]) == (5.0, 3.0)
        row = list(found.edge_of_row).index(Y_PLUS)
        assert (found.record.c_a2_low[row], found.record.c_a2_high[row]) == (4.0, 1.0)

    def test_three_near_edges(self):
        """Edges 4, none, 5, 3; 9 in is the reach: h'_ef 5 / 1.5. A_Nc / A_Nco (4 + 5) x 8 / 100, psi_ed .88, N_b 24
        sqrt(4,000) 3.3333^1.5 = 9,237.6: N_cb 5,852.9; pryout twice that, for h_ef itself is 6: x .70 = 8,194.1.

        Shear has no such rule. Towards 4: 8 x 6 / 72 x .85 x 530.501 x 8 x .70 = 1,683.5. Along 5: (4 + 7.5) x 7.5 /
        112.5; 2 x .70 x 5^1.5 ... = 6,366.1. Along 3: 8.5 x 4.5 / 40.5: 3,644.8.
        """
        found = outcomes(c_a=[(4.0, INF, 5.0, 3.0)], v_ua_x=-1_000.0)
        assert found[BREAKOUT].record.h_ef_used[0] == pytest.approx(10 / 3)
        assert found[Mode.PRYOUT].record.n_cb[0] == pytest.approx(5_852.95, abs=0.01)
        assert found[Mode.PRYOUT].design_strength[0] == pytest.approx(8_194.12, abs=0.01)
        strengths = at_edges(found[EDGE])
        expected = {(0, X_MINUS): 1_683.46, (0, Y_MINUS): 6_366.13, (0, Y_PLUS): 3_644.79}
        assert strengths == pytest.approx(expected, abs=0.01)

    def test_corner_with_oblique_shear(self):
        """Edges 4 (x_minus) and 3 (y_minus), V (-600, -800): at the first .31681 towards and .17952 along, at the
        second .45412 and .16462. Vector .36414 and .48304, separate the larger, linear .49633 and .61874.
        """
        found = outcomes(c_a=[(4.0, INF, 3.0, INF)] * 3, v_ua_x=-600.0, v_ua_y=-800.0, oblique=[0, 1, 2])[EDGE]
        expected = [0.36414, 0.48304, 0.31681, 0.45412, 0.49633, 0.61874]
        assert list(found.utilisation) == pytest.approx(expected, abs=5e-6)
        assert list(edges_of_rows(found)) == [X_MINUS, Y_MINUS] * 3

    def test_thin_member(self):
        """c_a1 4: 6 in is thick enough; 4 in takes sqrt(4/6): .70 x 3,465.2 in place of .70 x 4,244.0."""
        found = outcomes(c_a=[(4.0, INF, INF, INF)], h_ef=5.0, h_a=[4.0, 5.999, 6.0, 12.0], v_ua_x=-100.0)[EDGE]
        thin, almost, enough, thick = found.design_strength
        assert thin == pytest.approx(0.70 * 3_465.22, abs=0.01)
        assert almost < enough == thick == pytest.approx(0.70 * 4_244.01, abs=0.01)

    def test_narrow_member(self):
        """c_a1 8, sides 3 and 6, 4.5 in thick: c'_a1 4, .70 x 2,343.1; a side of 12 in or 12 in of thickness ends it.

        Without: the side at 12 in (3 + 12) x 4.5 / (4.5 x 64) x .775 x sqrt(12 / 4.5) x 530.501 x 22.6274.
        """
        c_a = [(8.0, INF, 3.0, 6.0), (8.0, INF, 3.0, 12.0), (8.0, INF, 3.0, 6.0)]
        found = outcomes(c_a=c_a, h_a=[4.5, 4.5, 12.0], v_ua_x=-100.0)[EDGE]
        row = {case: i for i, (case, edge) in enumerate(at_edges(found)) if edge == X_MINUS}
        np.testing.assert_array_equal(found.record.narrow[[row[0], row[1], row[2]]], [True, False, False])
        assert found.design_strength[row[0]] == pytest.approx(0.70 * 2_343.08, abs=0.01)
        wide = 15 * 4.5 / (4.5 * 64) * 0.775 * 1.632993 * 530.501 * 22.627417
        assert found.design_strength[row[1]] == pytest.approx(0.70 * wide, rel=1e-5)

    def test_load_bearing_length(self):
        """d_a .5: 8 d_a = 4 in is h_ef exactly; deeper adds nothing, shallower takes away."""
        found = outcomes(c_a=[(4.0, INF, INF, INF)], d_a=0.5, h_ef=[3.999, 4.0, 12.0], v_ua_x=-100.0)[EDGE]
        np.testing.assert_array_equal(found.record.l_e, [3.999, 4.0, 4.0])
        assert found.design_strength[0] < found.design_strength[1] == found.design_strength[2]

    def test_uncracked_concrete_has_its_factor_whatever_the_bars(self):
        """Table 17.7.2.5.1."""
        found = outcomes(
            c_a=[(4.0, INF, INF, INF)],
            cracked=[True, True, True, False, False],
            edge_reinforcement=[0, 1, 2, 0, 2],
            v_ua_x=-100.0,
        )[EDGE]
        expected = 0.70 * 4_244.01 * np.array([1.0, 1.2, 1.4, 1.4, 1.4])
        np.testing.assert_allclose(found.design_strength, expected, rtol=2e-6)

    def test_welded_at_a_corner(self):
        """17.7.2.2.2: within 1.5 h_ef = 9 in of a second edge the coefficient 8 asks for reinforcement of the corner,
        of which nothing is known: 7. Beyond, and at an edge alone, 8.
        """
        c_a = [(4.0, INF, 9.0, INF), (4.0, INF, 9.01, INF), (4.0, INF, INF, INF)]
        found = outcomes(c_a=c_a, welded=[True, True, True], v_ua_x=-100.0)[EDGE]
        row = {case: i for i, (case, edge) in enumerate(at_edges(found)) if edge == X_MINUS}
        np.testing.assert_array_equal(found.record.welded[[row[0], row[1], row[2]]], [False, True, True])
        ratio = found.record.v_b_stiffness[row[1]] / found.record.v_b_stiffness[row[0]]
        assert ratio == pytest.approx(8 / 7)
        # the far edge's own breakout has the near one across
        far = list(at_edges(found)).index((1, Y_MINUS))
        assert not found.record.welded[far]


class TestPryout:
    def test_depth(self):
        """k_cp 2 from 2.5 in on; 24 sqrt(4,000) 2.5^1.5 = 6,000.0: twice that x .70."""
        found = outcomes(h_ef=[2.4999, 2.5], v_ua_x=100.0)[Mode.PRYOUT]
        np.testing.assert_array_equal(found.record.k_cp, [1.0, 2.0])
        assert found.design_strength[1] == pytest.approx(1.4 * 6_000.0, rel=1e-4)

    def test_anchor_reinforcement_leaves_it_as_it_is(self):
        """17.7.3.1 has N_cb, which bars do not change; nor does the 0.75 of earthquake."""
        plain = outcomes(v_ua_x=100.0)[Mode.PRYOUT]
        barred = outcomes(v_ua_x=100.0, reinforced_n=True, a_s_n=0.1, f_y_n=60_000.0, seismic_category=3, n_ua_e=900.0)[
            Mode.PRYOUT
        ]
        np.testing.assert_array_equal(plain.design_strength, barred.design_strength)


class TestEarthquake:
    def test_share_and_categories(self):
        """B never, C from more than 20 % on: .75 for pullout and breakout (and blowout, bond), not for steel."""
        found = outcomes(
            seismic_category=[1, 2, 2, 5], n_ua_e=[1_000.0, 200.0, 200.1, 500.0], c_a=[(2.0, INF, INF, INF)]
        )
        factors = np.array([1.0, 1.0, 0.75, 0.75])
        for mode in (Mode.PULLOUT, BREAKOUT, Mode.SIDE_FACE_BLOWOUT):
            strength = found[mode].design_strength
            np.testing.assert_allclose(strength, factors * strength[0], rtol=1e-15)
        assert len(set(found[Mode.STEEL_TENSION].design_strength)) == 1

    def test_bond(self):
        adhesive = EXPANSION | {"adhesive": True, "tau_cr": 800.0, "tau_uncr": 1_600.0, "alpha_n_seis": 0.9}
        found = outcomes(**adhesive, seismic_category=2, n_ua_e=[200.0, 201.0], by_seismic_bond=True)
        bond, staying = found[Mode.ADHESIVE_BOND], found[Mode.SUSTAINED_BOND]
        assert bond.record.tau[0] == pytest.approx(720.0)
        assert bond.design_strength[1] == pytest.approx(0.75 * bond.design_strength[0])
        assert staying.design_strength[1] == staying.design_strength[0]

    def test_anchor_reinforcement_has_no_factor_and_frees_breakout_alone(self):
        """17.10.5.5 and reading 20: bars stand in place of breakout; pullout and blowout keep .75."""
        shaking = {"seismic_category": 3, "n_ua_e": 500.0, "c_a": [(2.0, INF, INF, INF)]}
        bars = {"reinforced_n": True, "a_s_n": 0.2, "f_y_n": 60_000.0}
        plain, barred = outcomes(**shaking), outcomes(**shaking, **bars)
        assert barred[Mode.REINFORCEMENT_TENSION].design_strength[0] == pytest.approx(0.75 * 12_000)
        for mode in (Mode.PULLOUT, Mode.SIDE_FACE_BLOWOUT):
            assert barred[mode].record.seismic_factor[0] == 0.75
            assert barred[mode].design_strength[0] == plain[mode].design_strength[0]
        assert len(barred[BREAKOUT].utilisation) == 0


STEEL = {"a_se_n": 1.0, "f_uta": 10_000.0, "f_ya": 8_000.0}
""".75 x 10,000 = 7,500 in tension, .65 x .6 x 10,000 = 3,900 in shear; the concrete is stronger."""


class TestInteraction:
    @pytest.mark.parametrize(
        ("n_ua", "v_ua", "ratio"),
        [
            (1_500.0, 3_510.0, 0.9),  # n .2 exactly is neglected
            (1_507.5, 3_510.0, (0.201 + 0.9) / 1.2),
            (6_750.0, 780.0, 0.9),  # v .2 exactly
            (6_750.0, 783.9, (0.9 + 0.201) / 1.2),
            (4_500.0, 2_340.0, 1.0),  # .6 and .6: 1.2 to the last
        ],
    )
    def test_a_fifth(self, n_ua, v_ua, ratio):
        found = outcomes(**STEEL, n_ua=n_ua, v_ua_x=v_ua)[Mode.INTERACTION]
        assert found.utilisation[0] == pytest.approx(ratio, rel=1e-12)

    def test_powers_neglect_nothing(self):
        """.2^(5/3) + .9^(5/3) = .068399 + .838952 = .907351; to the 3/5: .943333."""
        found = outcomes(**STEEL, n_ua=1_500.0, v_ua_x=3_510.0, power=True)[Mode.INTERACTION]
        assert found.utilisation[0] == pytest.approx(0.943333, abs=5e-6)

    def test_sustained_tension_stands_alone(self):
        """Reading 21: its ratio of 1.1 enters neither n nor the sum."""
        adhesive = EXPANSION | {"adhesive": True, "tau_cr": 800.0, "tau_uncr": 1_600.0}
        limit = 0.55 * 0.65 * 800 * np.pi * 0.5 * 3.25
        found = outcomes(**adhesive, n_ua=1.1 * limit, n_ua_s=1.1 * limit, v_ua_x=100.0)
        assert found[Mode.SUSTAINED_BOND].utilisation[0] == pytest.approx(1.1)
        assert found[Mode.INTERACTION].record.r_n[0] < 1.0

    def test_the_largest_ratios_of_either_direction_enter(self):
        """Anchor reinforcement too: A_s f_y .1 x 40,000 x .75 = 3,000 in both directions; 1,500 and 900."""
        bars = {f"{name}_{of}": value for of in "nv" for name, value in {"a_s": 0.1, "f_y": 40_000.0}.items()}
        found = outcomes(n_ua=1_500.0, v_ua_x=900.0, reinforced_n=True, reinforced_v=True, **bars)[Mode.INTERACTION]
        assert (found.record.r_n[0], found.record.r_v[0]) == pytest.approx((0.5, 0.3))
        assert found.utilisation[0] == pytest.approx(0.8 / 1.2)


ADHESIVE = EXPANSION | {
    "adhesive": True,
    "cracked": False,
    "h_ef": 4.0,
    "c_ac": 8.0,
    "tau_cr": 1_000.0,
    "tau_uncr": 1_584.0,
    "product_k_c": False,
}
"""Uncracked, h_ef 4, d_a .5, tau_uncr 1,584: c_Na 6; c_ac 8; the code's k_c 17 with psi_c,N 1.4."""


class TestAdhesive:
    def test_edges_and_splitting(self):
        """N_a 1,584 x 2 pi = 9,952.6 far (8 in); 7/8 of it at 7 in; .75 x .85 x 6/8 at 3 in. N_cb 17 x 63.2456 x 8 x
        1.4 = 12,042.0 with the same factors, for 1.5 h_ef is 6 as well. Pryout takes twice of either; bond is less.
        """
        found = outcomes(**ADHESIVE, c_a=[(c, INF, INF, INF) for c in (20.0, 8.0, 7.0, 3.0)], v_ua_y=100.0)
        factors = np.array([1.0, 1.0, 0.875, 0.478125])
        np.testing.assert_allclose(found[Mode.ADHESIVE_BOND].record.n_a, 9_952.566 * factors, rtol=1e-6)
        np.testing.assert_allclose(found[BREAKOUT].record.n_cb, 12_041.953 * factors, rtol=1e-6)
        pryout = found[Mode.PRYOUT]
        np.testing.assert_array_equal(pryout.case_of_row, np.repeat(np.arange(4), 2))
        by_bond = pryout.record.by_bond
        np.testing.assert_array_equal(pryout.case_of_row[by_bond], np.arange(4))
        np.testing.assert_allclose(pryout.record.v_cp[by_bond], 2 * 9_952.566 * factors, rtol=1e-6)
        np.testing.assert_allclose(pryout.record.v_cp[~by_bond], 2 * 12_041.953 * factors, rtol=1e-6)
        np.testing.assert_allclose(found[Mode.ADHESIVE_BOND].design_strength, 0.65 * 9_952.566 * factors, rtol=1e-6)

    def test_lightweight(self):
        """Table 17.2.4.1: .8 lambda for the concrete, .6 lambda for bond; sand-lightweight .85."""
        heavy = outcomes(**ADHESIVE, v_ua_x=-100.0, c_a=[(5.0, INF, INF, INF)])
        light = outcomes(**ADHESIVE, v_ua_x=-100.0, c_a=[(5.0, INF, INF, INF)], lightweight=True, lambda_c=0.85)
        for mode, factor in (
            (Mode.ADHESIVE_BOND, 0.51),
            (Mode.SUSTAINED_BOND, 0.51),
            (BREAKOUT, 0.68),
            (EDGE, 0.68),
            (Mode.STEEL_SHEAR, 1.0),
        ):
            ratio = light[mode].design_strength[0] / heavy[mode].design_strength[0]
            assert ratio == pytest.approx(factor), mode
        pryout = light[Mode.PRYOUT].design_strength / heavy[Mode.PRYOUT].design_strength
        np.testing.assert_allclose(pryout, np.where(light[Mode.PRYOUT].record.by_bond, 0.51, 0.68))

    def test_pryout_goes_by_the_lesser_of_bond_and_breakout(self):
        """N_cb 12,042.0 beside N_a 9,952.6, and beside 2,400 x 2 pi = 15,079.6 with c_ac too small to split: 100 lb on
        .7 x 2 x the lesser, together with the steel.
        """
        found = outcomes(**(ADHESIVE | {"tau_uncr": [1_584.0, 2_400.0], "c_ac": 4.0}), v_ua_y=100.0)
        pryout = found[Mode.PRYOUT]
        assert len(pryout.utilisation) == 4
        worst = peak_by_case([pryout], 2)
        np.testing.assert_allclose(worst, 100 / (1.4 * np.array([9_952.566, 12_041.953])), rtol=1e-6)
