"""Bond of adhesive anchors, 17.6.5, by hand: no published example is known."""

import numpy as np
import pytest

from core.aci318_19.bond_rows import bond

INF = np.inf
PSI_OF_MPA = 145.0377


def test_far_from_edges():
    """c_Na 6 in; A_Nao = A_Na = 12 x 12; N_a = N_ba = 2,000 pi; phi .65: 4,084.07 lb; 2,000 / 4,084.07 = .489708."""
    made = bond()
    assert made.c_na[0] == pytest.approx(6.0, rel=1e-15)
    assert made.a_nao[0] == pytest.approx(144.0, rel=1e-15)
    assert made.a_na[0] == pytest.approx(144.0, rel=1e-15)
    for factor in (made.psi_ec_na, made.psi_ed_na, made.psi_cp_na):
        assert factor[0] == 1.0
    assert made.n_ba[0] == pytest.approx(6_283.185, abs=5e-4)
    assert made.n_a[0] == pytest.approx(6_283.185, abs=5e-4)
    assert made.design_strength[0] == pytest.approx(4_084.070, abs=5e-4)
    assert made.utilisation[0] == pytest.approx(0.489708, abs=5e-7)


@pytest.mark.parametrize("tau_mpa", [4.5, 7.0, 7.6, 12.0, 20.0])
def test_reach_against_the_si_edition(tau_mpa):
    """17.6.5.1.2b in SI: c_Na = 10 d_a sqrt(tau_uncr / 7.6), N/mm2; 7.6 is printed to .05, which is .33 % of c_Na."""
    made = bond(tau_uncr=tau_mpa * PSI_OF_MPA)
    assert made.c_na[0] / 0.5 == pytest.approx(10 * np.sqrt(tau_mpa / 7.6), rel=0.0034)


def test_reach_goes_by_the_uncracked_bond():
    """Neither tau_cr, the concrete's state, the seismic tests nor the concrete strength moves c_Na."""
    made = bond(
        tau_cr=[500.0, 1_000.0, 1_000.0, 1_000.0],
        cracked=[True, False, True, True],
        by_seismic_tests=[False, False, True, False],
        tau_exponent=[0.0, 0.0, 0.0, 0.3],
    )
    np.testing.assert_allclose(made.c_na, 6.0, rtol=1e-15)


def test_corner():
    """Edges 3 and 4.5 in: A_Na = (3 + 6) x (4.5 + 6) = 94.5; psi_ed = .7 + .3 x 3 / 6 = .85.

    N_a = .65625 x .85 x 6,283.185 = .5578125 x 6,283.185 = 3,504.839 lb.
    """
    made = bond(c_a=[(3.0, INF, 4.5, INF)])
    assert made.a_na[0] == pytest.approx(94.5, rel=1e-15)
    assert made.c_a_min[0] == 3.0
    assert made.psi_ed_na[0] == pytest.approx(0.85, rel=1e-15)
    assert made.n_a[0] == pytest.approx(3_504.839, abs=5e-4)


def test_narrow_strip_has_no_rule_of_three_edges():
    """Four edges of 3 in: A_Na = 36, a quarter, with the same c_Na; N_a = .25 x .85 x 6,283.185 = 1,335.18 lb."""
    made = bond(c_a=[(3.0, 3.0, 3.0, 3.0)])
    assert made.c_na[0] == pytest.approx(6.0, rel=1e-15)
    assert made.n_a[0] == pytest.approx(1_335.177, abs=5e-4)


def test_edge_factor_ends_at_the_reach():
    """17.6.5.4.1: .7 + .3 x 5.9 / 6 = .995; 1 at 6 in and beyond."""
    made = bond(c_a=[(c, INF, INF, INF) for c in (5.9, 6.0, 6.1)])
    np.testing.assert_allclose(made.psi_ed_na, [0.995, 1.0, 1.0], rtol=1e-15)
    np.testing.assert_allclose(made.a_na, [11.9 * 12, 144, 144], rtol=1e-15)


def test_eccentricity_of_both_axes():
    """17.6.5.3.1: 1 / (1 + 3 / 6) = 2/3, 1 / (1 + 1.5 / 6) = .8, together 8/15."""
    made = bond(e_n_x=[3.0, 0.0, 3.0], e_n_y=[0.0, 1.5, 1.5])
    np.testing.assert_allclose(made.psi_ec_na, [2 / 3, 0.8, 8 / 15], rtol=1e-15)
    np.testing.assert_allclose(made.n_a, 2_000 * np.pi * np.array([2 / 3, 0.8, 8 / 15]), rtol=1e-14)


@pytest.mark.parametrize(
    ("c_a_min", "c_ac", "psi"),
    [
        (3.0, 8.0, 0.75),  # max(3, 6) / 8
        (7.0, 8.0, 0.875),  # max(7, 6) / 8
        (8.0, 8.0, 1.0),
        (INF, 8.0, 1.0),
        (3.0, 5.0, 1.0),  # 6 / 5 is limited by reading 11
    ],
)
def test_splitting_in_uncracked_concrete(c_a_min, c_ac, psi):
    made = bond(cracked=[False, True], c_a=[(c_a_min, INF, INF, INF)], c_ac=c_ac)
    assert made.psi_cp_na[0] == pytest.approx(psi, rel=1e-15)
    assert made.psi_cp_na[1] == 1.0


def test_cracked_concrete_reads_no_c_ac():
    made = bond(c_ac=0.0, c_a=[(3.0, INF, INF, INF)])
    assert made.psi_cp_na[0] == 1.0
    assert np.isfinite(made.design_strength[0])


def test_bond_of_the_state_of_the_concrete():
    """Cracked 1,000 psi; uncracked 1,584; by seismic tests .8 x 1,000 in either state. N_ba = tau x 2 pi."""
    made = bond(cracked=[True, False, True, False], by_seismic_tests=[False, False, True, True])
    np.testing.assert_allclose(made.tau, [1_000, 1_584, 800, 800], rtol=1e-15)
    np.testing.assert_allclose(made.n_ba, 2 * np.pi * np.array([1_000, 1_584, 800, 800]), rtol=1e-14)
    np.testing.assert_array_equal(made.by_tau_cr, [True, False, True, True])


def test_bond_scales_with_the_concrete_only_by_an_exponent():
    """Reading 3: exponent 0 leaves 1,000 psi; .1 makes it 1.6^.1 = 1.048122 times that, in 4,000 against 2,500 psi."""
    made = bond(tau_exponent=[0.0, 0.1, 0.1], f_c=[4_000.0, 4_000.0, 2_000.0])
    np.testing.assert_allclose(made.tau[:2], [1_000, 1_048.122], atol=5e-4)
    assert made.tau[2] < 1_000


def test_lightweight_concrete():
    """Table 17.2.4.1: .6 x .75 = .45 of bond in all-lightweight concrete."""
    made = bond(lambda_bond=0.45)
    assert made.n_ba[0] == pytest.approx(0.45 * 2_000 * np.pi, rel=1e-14)


def test_earthquake_takes_a_quarter_of_the_strength():
    """17.10.5.4: .75 phi N_a = .75 x 4,084.070 = 3,063.05 lb; N_a and N_ba stay."""
    made = bond(seismic_factor=0.75)
    assert made.n_a[0] == pytest.approx(6_283.185, abs=5e-4)
    assert made.design_strength[0] == pytest.approx(3_063.053, abs=5e-4)
    assert made.utilisation[0] == pytest.approx(2_000 / 3_063.053, rel=1e-6)


def test_no_tension():
    assert bond(demand=0.0).utilisation[0] == 0.0
