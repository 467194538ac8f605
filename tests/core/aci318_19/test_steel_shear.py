"""Steel strength in shear, 17.7.1, by hand."""

import numpy as np
import pytest

from core.aci318_19.shear_rows import steel


def test_stud_bolt_and_tests():
    """A_se,V .2 in2, f_uta 60,000 psi: stud 12,000 lb, bolt 0.6 x 12,000 = 7,200 lb, tests 5,000 lb as they stand."""
    made = steel(welded_stud=[True, False, True, False], tested=[False, False, True, True], v_sa_tested=5_000.0)
    np.testing.assert_allclose(made.v_sa, [12_000, 7_200, 5_000, 5_000], rtol=1e-15)
    np.testing.assert_array_equal(made.by_stud, [True, False, False, False])
    np.testing.assert_array_equal(made.by_bolt, [False, True, False, False])
    np.testing.assert_array_equal(made.calculated, [True, True, False, False])


def test_grout_pad_takes_a_fifth_from_all():
    """17.7.1.2.1: 0.8 x 12,000, 0.8 x 7,200, 0.8 x 5,000."""
    made = steel(welded_stud=[True, False, False], tested=[False, False, True], v_sa_tested=5_000.0, grout_pad=True)
    np.testing.assert_allclose(made.v_sa, [9_600, 5_760, 4_000], rtol=1e-15)


@pytest.mark.parametrize(
    ("specified", "f_ya", "used"),
    [(58_000, 36_000, 58_000), (80_000, 36_000, 68_400), (150_000, 130_000, 125_000), (150_000, 50_000, 95_000)],
)
def test_limit_of_the_ultimate_strength(specified, f_ya, used):
    """17.7.1.2: f_uta at most 1.9 f_ya (1.9 x 36,000 = 68,400) and 125,000 psi; V_sa = 0.6 x .2 x that."""
    made = steel(f_uta_specified=specified, f_ya=f_ya)
    assert made.f_uta[0] == pytest.approx(used, rel=1e-15)
    assert made.v_sa[0] == pytest.approx(0.12 * used, rel=1e-15)


def test_tests_know_no_limit_of_the_formula():
    """The tested strength stands whatever area and steel are."""
    made = steel(tested=True, v_sa_tested=[4_000.0, 40_000.0], a_se_v=0.0, f_uta_specified=0.0, f_ya=0.0)
    np.testing.assert_array_equal(made.v_sa, [4_000, 40_000])


@pytest.mark.parametrize(("tests", "used"), [(6_000.0, 6_000.0), (9_000.0, 7_200.0)])
def test_seismic_tests_alone_count_up_to_the_formula(tests, used):
    """17.7.1.2: without V_sa of tests the steel has at most 0.6 x .2 x 60,000 = 7,200 lb, in an earthquake too."""
    assert steel(tested=True, alone=True, v_sa_tested=tests).v_sa[0] == pytest.approx(used, rel=1e-15)
    assert steel(tested=True, alone=False, v_sa_tested=tests).v_sa[0] == tests


@pytest.mark.parametrize(("ductile", "phi"), [(True, 0.65), (False, 0.60)])
def test_strength_reduction_and_utilisation(ductile, phi):
    """Table 17.5.3(a), shear: .65 ductile, .60 brittle; 1,000 / (phi x 7,200)."""
    made = steel(ductile=ductile)
    assert made.phi[0] == phi
    assert made.design_strength[0] == pytest.approx(phi * 7_200, rel=1e-15)
    assert made.utilisation[0] == pytest.approx(1_000 / (phi * 7_200), rel=1e-15)


def test_no_shear():
    assert steel(demand=0.0).utilisation[0] == 0.0
