"""Five whole points with shear, bond or earthquake, worked by hand: loads, every mode, what governs, the next case.

The anchors are invented. The hand takes another way than the service: breakout in tension as k sqrt(f'c) A_Nc / (9
sqrt(h_ef)), towards an edge as V_b / c_a1^1.5 x A_Vc / (4.5 sqrt(c_a1)), and a thin slab without corners by
sqrt(h_a / (1.5 c_a1)) in place of A_Vc / A_Vco and psi_h. Forces in lb; sqrt(3,000) 54.7723, sqrt(4,000) 63.2456,
sqrt(5,000) 70.7107. No outside check: the clauses and our readings alone.
"""

import pytest

from core.builders import ADHESIVE_ROD, FACTORED_LOADS, HEADED_BOLT, INF
from core.hang_point.verdicts import checked, found_on, mode_of, refusal_of
from hangpoint.core.hang_point.points import OVERSTRENGTH, SIDE, SOFFIT
from hangpoint.core.vocabulary import Finding, Link, Mode


def assert_point(verdicts, *, strengths, ratios, governing, case, next_case=None, next_ratio=0.0):
    """Exactly the modes of ``ratios`` apply; figures to the last printed digit."""
    applying = {mode.mode: mode for mode in verdicts.modes if mode.applies[0]}
    assert refusal_of(verdicts) is None
    assert set(applying) == set(ratios)
    for mode, ratio in ratios.items():
        assert applying[mode].utilisation[0] == pytest.approx(ratio, abs=5.1e-5), mode
    for mode, strength in strengths.items():
        assert applying[mode].design_strength[0] == pytest.approx(strength, abs=0.6), mode
    lead = verdicts.modes[verdicts.governing[0]]
    assert lead.mode is governing
    assert verdicts.case_names[lead.load_case[0]] == case
    assert verdicts.utilisation[0] == max(mode.utilisation[0] for mode in applying.values())
    assert (verdicts.next_case[0] < 0) == (next_case is None)
    if next_case is not None:
        assert verdicts.case_names[verdicts.next_case[0]] == next_case
    assert verdicts.next_utilisation[0] == pytest.approx(next_ratio, abs=5.1e-5)


def test_expansion_anchor_with_oblique_shear_at_a_corner():
    """Expansion anchor 1/2 in, h_ef 3.25, category 1, k_cr 17, N_p,cr 5,400 with n .5, V_sa 6,000 by tests; slab 6 in,
    f'c 4,000, cracked; edges 4 in (x_minus) and 5 in (y_plus). D 400, L 200; V_D (-300, 200), V_L (-100, 0).

    1.4D: N 560, V (-420, 280). 1.2D + 1.6L: N 480 + 320 = 800, V (-360 - 160, 240) = (-520, 240), V 572.713.

    Steel .75 x .1 x 106,000 = 7,950: .1006. Pullout .65 x 5,400 x sqrt(1.6) = 4,439.8: .1802.
    Breakout: 1.5 h_ef 4.875; A_Nc (4 + 4.875) x 9.75 = 86.53; 17 x 63.2456 x 86.53 / (9 x 1.80278) = 5,734.1; psi_ed
    .7 + .3 x 4 / 4.875 = .946154: N_cb 5,425.4; x .65 = 3,526.5: .2269.
    Steel in shear .65 x 6,000 = 3,900: .1468. Pryout .7 x 2 x 5,425.4 = 7,595.5: .0754.
    V_b / c^1.5 = 7 x 6.5^.2 (1.454061) x .707107 x 63.2456 = 455.193.
    x_minus: A_Vc (6 + 5) x 6 = 66; 455.193 x 66 / (4.5 x 2) = 3,338.1; not thin (1.5 x 4 = 6). Towards .7 x .95 x that
    = 2,219.8 (psi_ed .7 + .3 x 5 / 6), along .7 x 2 x that = 4,673.3. 520 / 2,219.8 = .23425, 240 / 4,673.3 = .05136:
    .23982 together; strength in the direction of the load 572.713 / .23982 = 2,388.1.
    y_plus: A_Vc (4 + 7.5) x 6 = 69; 455.193 x 69 / (4.5 x 2.236068) x sqrt(7.5 / 6) = 3,489.8. Towards .7 x .86 x that
    = 2,100.9, along 4,885.7: .11424 and .10643, .15613 together: less than at x_minus.
    Together (.22685 + .23982) / 1.2 = .38889. 1.4D: n .15880, neglected; at x_minus .19846, which is the largest.
    """
    verdicts = checked(
        hangs={"dead": 400.0, "live": 200.0, "v_dead": (-300.0, 200.0), "v_live": (-100.0, 0.0)},
        bases={"thickness": 6.0, "c_a": [[4.0, INF, INF, 5.0]]},
    )
    assert_point(
        verdicts,
        strengths={
            Mode.STEEL_TENSION: 7_950.0,
            Mode.PULLOUT: 4_439.8,
            Mode.CONCRETE_BREAKOUT_TENSION: 3_526.5,
            Mode.STEEL_SHEAR: 3_900.0,
            Mode.PRYOUT: 7_595.5,
            Mode.CONCRETE_BREAKOUT_SHEAR: 2_388.1,
        },
        ratios={
            Mode.STEEL_TENSION: 0.1006,
            Mode.PULLOUT: 0.1802,
            Mode.CONCRETE_BREAKOUT_TENSION: 0.22685,
            Mode.STEEL_SHEAR: 0.14685,
            Mode.PRYOUT: 0.0754,
            Mode.CONCRETE_BREAKOUT_SHEAR: 0.23982,
            Mode.INTERACTION: 0.38889,
        },
        governing=Mode.INTERACTION,
        case="1.2D+1.6L",
        next_case="1.4D",
        next_ratio=0.19846,
    )
    edge = mode_of(verdicts, Mode.CONCRETE_BREAKOUT_SHEAR)
    assert edge.edge[0] == 0
    assert edge.demand[0] == pytest.approx(572.713, abs=5e-4)
    other = next(row for row in range(len(edge.record.c_a1)) if edge.record.c_a1[row] == 5.0 and row > 1)
    assert edge.record.utilisation[other] == pytest.approx(0.15613, abs=1e-5)
    assert not verdicts.failed[0]


def test_adhesive_anchor_overhead_under_sustained_tension():
    """Adhesive anchor 1/2 in, h_ef 4, tau_cr 800, tau_uncr 1,600, k_cr 17, category 1; soffit, f'c 4,000, cracked; one
    edge at 5 in (x_plus). D 500, contents 300, L 200: 1.4D 1,120, all of it stays; 1.2D + 1.6L 960 + 320 = 1,280, of
    which 960 stay.

    c_Na 5 sqrt(16 / 11) = 6.030227; A_Na / A_Nao = (6.030227 + 5) / 12.060454 = .914578; psi_ed .7 + 1.5 / 6.030227 =
    .948747. N_ba 800 pi x .5 x 4 = 1,600 pi = 5,026.55. N_a 4,361.55; x .65 = 2,835.0: 1,280 gives .45150.
    Sustained .55 x .65 x 5,026.55 = 1,797.0: 1,120 gives .62326, 960 gives .53423.
    Breakout 17 x 63.2456 x 8 x 11/12 x .95 = 7,490.4; x .65 = 4,868.7: .26290. Steel 7,950: .16101.
    """
    verdicts = checked(
        hangs={"dead": 500.0, "contents": 300.0, "live": 200.0},
        products=ADHESIVE_ROD,
        bases={"c_a": [[INF, 5.0, INF, INF]], "face": SOFFIT},
    )
    assert_point(
        verdicts,
        strengths={
            Mode.STEEL_TENSION: 7_950.0,
            Mode.ADHESIVE_BOND: 2_835.0,
            Mode.SUSTAINED_BOND: 1_797.0,
            Mode.CONCRETE_BREAKOUT_TENSION: 4_868.7,
        },
        ratios={
            Mode.STEEL_TENSION: 0.16101,
            Mode.ADHESIVE_BOND: 0.45150,
            Mode.SUSTAINED_BOND: 0.62326,
            Mode.CONCRETE_BREAKOUT_TENSION: 0.26290,
        },
        governing=Mode.SUSTAINED_BOND,
        case="1.4D",
        next_case="1.2D+1.6L",
        next_ratio=0.53423,
    )
    bond = mode_of(verdicts, Mode.ADHESIVE_BOND)
    assert bond.demand[0] == pytest.approx(1_280.0)
    assert verdicts.case_names[bond.load_case[0]] == "1.2D+1.6L"
    assert not verdicts.failed[0]


STUD = HEADED_BOLT | {
    "welded_stud": True,
    "d_a": 0.5,
    "a_se_n": 0.196,
    "f_uta": 65_000.0,
    "f_ya": 51_000.0,
    "a_brg": 0.589,
    "h_ef": 3.0,
    "h_min": 4.0,
}


def test_welded_stud_sheared_towards_the_edge_of_a_thin_slab():
    """Headed stud 1/2 in welded to a plate of 1/2 in, A_se .196, f_uta 65,000, h_ef 3; slab 5 in, f'c 3,000, cracked,
    an edge bar of No. 4; the edge at 6 in (x_plus), nothing else near. V_D 600, V_L 500 towards it: 1.4D 840, 1.2D +
    1.6L 720 + 800 = 1,520; no tension.

    Steel (full A_se f_uta) .65 x .196 x 65,000 = 8,281: .18355. Pryout: 1.5 h_ef = 4.5 < 6, N_cb 24 x 54.7723 x
    5.196152 = 6,830.5; .7 x 2 x that = 9,562.7: .15895.
    Towards the edge: 8 x 6^.2 (1.430969) x .707107 x 54.7723 x 14.696938 = 6,516.2, below 9 x 54.7723 x 14.696938 =
    7,244.9; thin (9 > 5), no corner: x sqrt(5/9) = .745356; bar x 1.2: 5,828.2; x .7 = 4,079.8: .37257; 840 gives
    .20589. With 7 it would be 3,569.8.
    """
    verdicts = checked(
        hangs={"v_dead": (600.0, 0.0), "v_live": (500.0, 0.0)},
        products=STUD,
        bases={
            "f_c": 3_000.0,
            "thickness": 5.0,
            "c_a": [[INF, 6.0, INF, INF]],
            "edge_reinforcement": 1,
            "face": SIDE,
        },
        fixings={"welded": True, "thickness": 0.5},
    )
    shear = {
        Mode.STEEL_SHEAR: 0.18355,
        Mode.PRYOUT: 0.15895,
        Mode.CONCRETE_BREAKOUT_SHEAR: 0.37257,
    }
    unloaded = dict.fromkeys((Mode.STEEL_TENSION, Mode.PULLOUT, Mode.CONCRETE_BREAKOUT_TENSION), 0.0)
    assert_point(
        verdicts,
        strengths={Mode.STEEL_SHEAR: 8_281.0, Mode.PRYOUT: 9_562.7, Mode.CONCRETE_BREAKOUT_SHEAR: 4_079.8},
        ratios=unloaded | shear,
        governing=Mode.CONCRETE_BREAKOUT_SHEAR,
        case="1.2D+1.6L",
        next_case="1.4D",
        next_ratio=0.20589,
    )
    assert mode_of(verdicts, Mode.CONCRETE_BREAKOUT_SHEAR).edge[0] == 1
    assert found_on(verdicts) == set()
    unwelded = checked(
        hangs={"v_dead": (600.0, 0.0), "v_live": (500.0, 0.0)},
        products=STUD,
        bases={"f_c": 3_000.0, "thickness": 5.0, "c_a": [[INF, 6.0, INF, INF]], "edge_reinforcement": 1},
    )
    strength = mode_of(unwelded, Mode.CONCRETE_BREAKOUT_SHEAR).design_strength[0]
    assert strength == pytest.approx(3_569.8, abs=0.06)


SCREW = {
    "screw": True,
    "d_a": 0.375,
    "a_se_n": 0.094,
    "f_uta": 120_000.0,
    "f_ya": 100_000.0,
    "ductile": False,
    "h_ef": 2.25,
    "h_min": 4.0,
    "c_min": 1.75,
    "c_ac": 6.0,
    "n_p_cr": 2_000.0,
    "n_p_uncr": 3_000.0,
    "n_exponent": 0.35,
    "v_sa": 2_500.0,
    "removable": True,
}


def test_screw_in_lightweight_concrete_under_tension_and_shear():
    """Screw 3/8 in, brittle, A_se .094, f_uta 120,000, h_ef 2.25, category 1, k_cr 17, N_p,cr 2,000 with n .35, V_sa
    2,500; sand-lightweight, lambda_a .8 x .85 = .68, f'c 5,000, cracked, slab 5 in; one edge at 3 in (y_minus). D 150,
    L 150; V_D (0, -250), V_L (50, 0).

    1.4D: N 210, V (0, -350). 1.2D + 1.6L: N 180 + 240 = 420, V (80, -300), V 310.483.

    Steel .65 x .094 x 120,000 = 7,332: .05728. Pullout 2,000 x 2^.35 (1.274561) x .68 = 1,733.4; x .65 = 1,126.7:
    .37277. Breakout: 1.5 h_ef 3.375; A_Nc (3 + 3.375) x 6.75 = 43.03125; 17 x .68 x 70.7107 x 43.03125 / (9 x 1.5) =
    2,605.5; psi_ed .966667: 2,518.7; x .65 = 1,637.1: .25655.
    Steel in shear .60 x 2,500 = 1,500: .20699. Pryout, h_ef below 2.5: .7 x 1 x 2,518.7 = 1,763.1: .17610.
    Edge: 7 x 6^.2 x sqrt(.375) x .68 x 70.7107 = 294.943; x 3^1.5 = 1,532.57, whole: 1.5 x 3 = 4.5 < 5. Towards .7 x
    that = 1,072.8: 300 gives .27964; along 2,145.6: 80 gives .03729; together .28212, strength 1,100.5.
    Together (.37277 + .28212) / 1.2 = .54574. 1.4D: n .18638, neglected; 350 / 1,072.8 = .32625.
    """
    verdicts = checked(
        hangs={"dead": 150.0, "live": 150.0, "v_dead": (0.0, -250.0), "v_live": (50.0, 0.0)},
        products=SCREW,
        bases={
            "f_c": 5_000.0,
            "lightweight": True,
            "lambda_c": 0.85,
            "thickness": 5.0,
            "c_a": [[INF, INF, 3.0, INF]],
        },
    )
    ratios = {
        Mode.STEEL_TENSION: 0.05728,
        Mode.PULLOUT: 0.37277,
        Mode.CONCRETE_BREAKOUT_TENSION: 0.25655,
        Mode.PRYOUT: 0.19852,
        Mode.STEEL_SHEAR: 0.23333,
        Mode.CONCRETE_BREAKOUT_SHEAR: 0.32625,
        Mode.INTERACTION: 0.54574,
    }  # alone, shear is largest in 1.4D: 350 / 1,763.1, 350 / 1,500, 350 / 1,072.8
    assert_point(
        verdicts,
        strengths={
            Mode.STEEL_TENSION: 7_332.0,
            Mode.PULLOUT: 1_126.7,
            Mode.CONCRETE_BREAKOUT_TENSION: 1_637.1,
            Mode.STEEL_SHEAR: 1_500.0,
            Mode.PRYOUT: 1_763.1,
            Mode.CONCRETE_BREAKOUT_SHEAR: 1_072.8,
        },
        ratios=ratios,
        governing=Mode.INTERACTION,
        case="1.2D+1.6L",
        next_case="1.4D",
        next_ratio=0.32625,
    )
    edge = mode_of(verdicts, Mode.CONCRETE_BREAKOUT_SHEAR).record
    assert edge.design_strength[1] == pytest.approx(1_100.5, abs=0.06)  # in 1.2D + 1.6L
    assert edge.utilisation[1] == pytest.approx(0.28212, abs=5e-6)
    assert found_on(verdicts) == {Finding.NOT_FOR_REUSE}
    assert not verdicts.failed[0]


def test_half_of_it_earthquake_in_category_d():
    """Expansion anchor 1/2 in of the first point, N_p,eq 4,900, V_sa,eq 5,000; category D, options (d) and (c): the
    loads hold Omega_0. Given N 1,200, half of it earthquake, none sustained; V 900 along x, six tenths earthquake;
    f'c 4,000, cracked, 8 in thick, the edge at 6 in (x_plus).

    Steel 7,950, without .75: .15094. Pullout .75 x .65 x 4,900 x sqrt(1.6) = 3,021.6: .39715. Breakout, 4.875 < 6: 17 x
    63.2456 x 5.859021 = 6,299.5; .75 x .65 x that = 3,071.0: .39075.
    Steel in shear .65 x 5,000 = 3,250: .27692. Pryout .7 x 2 x 6,299.5 = 8,819.3, without .75: .10205.
    Edge: 455.193 x 14.696938 = 6,689.9, thin (9 > 8), no corner: x sqrt(8/9) = 6,307.3; x .7 = 4,415.1, without .75:
    .20384. Together (.39715 + .27692) / 1.2 = .56173. With the earthquake part reversed 900 x (1 - 1.2) = -180, away
    from the edge: .05538 of the steel, less than .2, so that the .39715 of pullout is left.
    """
    hangs = {
        "factored": 1_200.0,
        "sustained_fraction": 0.0,
        "earthquake_fraction": 0.5,
        "v_factored": (900.0, 0.0),
        "earthquake_fraction_v": 0.6,
    }
    bases = {"thickness": 8.0, "c_a": [[INF, 6.0, INF, INF]], "category": 3}
    verdicts = checked(
        basis=FACTORED_LOADS,
        hangs=hangs,
        bases=bases,
        fixings={"tension_option": OVERSTRENGTH, "shear_option": OVERSTRENGTH},
    )
    strengths = {
        Mode.STEEL_TENSION: 7_950.0,
        Mode.PULLOUT: 3_021.6,
        Mode.CONCRETE_BREAKOUT_TENSION: 3_071.0,
        Mode.STEEL_SHEAR: 3_250.0,
        Mode.PRYOUT: 8_819.3,
        Mode.CONCRETE_BREAKOUT_SHEAR: 4_415.1,
    }
    assert_point(
        verdicts,
        strengths=strengths,
        ratios={
            Mode.STEEL_TENSION: 0.15094,
            Mode.PULLOUT: 0.39715,
            Mode.CONCRETE_BREAKOUT_TENSION: 0.39075,
            Mode.STEEL_SHEAR: 0.27692,
            Mode.PRYOUT: 0.10205,
            Mode.CONCRETE_BREAKOUT_SHEAR: 0.20384,
            Mode.INTERACTION: 0.56173,
        },
        governing=Mode.INTERACTION,
        case="as given",
        next_case="as given, earthquake reversed",
        next_ratio=0.39715,
    )
    assert found_on(verdicts) == {Finding.SEISMIC_OVERSTRENGTH}
    assert verdicts.modes[verdicts.governing[0]].mode.link is Link.BASE
    calm = checked(
        basis=FACTORED_LOADS,
        hangs=hangs | {"earthquake_fraction": 0.2},
        bases=bases,
        fixings={"shear_option": OVERSTRENGTH},
    )
    for mode, strength in strengths.items():
        reduced = mode in (Mode.PULLOUT, Mode.CONCRETE_BREAKOUT_TENSION)
        expected = strength / 0.75 if reduced else strength
        assert mode_of(calm, mode).design_strength[0] == pytest.approx(expected, abs=0.6)
