"""Seismic force of components: limits, height, structure, isolators. Figures: tests/published."""

import numpy as np
import pytest

from hangpoint.core.loads.component_factors import FACTORS_16
from hangpoint.core.loads.seismic_component import (
    EQUATION,
    LOWER_LIMIT,
    UNKNOWN_PERIOD,
    UPPER_LIMIT,
    component_force_16,
    component_force_22,
)


def by_16(**changed):
    """A component of 100 lbf with plain figures, changed by columns or numbers."""
    plain = {
        "w_p": 100,
        "s_ds": 1,
        "i_p": 1,
        "a_p": 2.5,
        "r_p": 6,
        "omega_0": 2,
        "z": 0,
        "h": 30,
        "isolator_gap": False,
    }
    return component_force_16(**_columns(plain | changed))


def by_22(**changed):
    plain = {
        "w_p": 100,
        "s_ds": 1,
        "i_p": 1,
        "c_ar": 1.4,
        "r_po": 1.5,
        "omega_0p": 2,
        "at_grade": False,
        "z": 30,
        "h": 30,
        "period_known": False,
        "t_a": UNKNOWN_PERIOD,
        "system_known": False,
        "r": 1,
        "i_e": 1,
        "omega_0": 1,
        "isolator_gap": False,
    }
    return component_force_22(**_columns(plain | changed))


def _columns(values):
    rows = np.broadcast_arrays(*(np.atleast_1d(value) for value in values.values()))
    flags = {"isolator_gap", "at_grade", "period_known", "system_known"}
    return {name: row.astype(np.bool_ if name in flags else np.float64) for name, row in zip(values, rows, strict=True)}


def test_which_limit_governs_by_hand():
    """ASCE 7-16 13.3.1 at grade, S_DS 1, 100 lbf: 40 a_p / (R_p / I_p) against 30 I_p and 160 I_p.

    a_p 2.5, R_p 6: 16.7 is below 30. a_p 2.5, R_p 2.5: 40. a_p 2.5, R_p 1.5, at the roof (x 3): 200 above 160. With
    I_p 1.5 every one is half as much again.
    """
    made = by_16(r_p=[6, 2.5, 1.5] * 2, z=[0, 0, 30] * 2, i_p=[1, 1, 1, 1.5, 1.5, 1.5])
    np.testing.assert_allclose(made.f_p_eq, [100 / 6, 40, 200, 25, 60, 300])
    np.testing.assert_allclose(made.f_p, [30, 40, 160, 45, 60, 240])
    assert made.governs.tolist() == [LOWER_LIMIT, EQUATION, UPPER_LIMIT] * 2
    np.testing.assert_allclose(made.fraction, made.f_p / 100)


def test_height_is_taken_between_grade_and_roof():
    """Reading 23: z/h of 0 below grade, of 1 above the roof; in 7-22 as well."""
    made = by_16(z=[-5, 0, 15, 30, 45], r_p=2.5)
    np.testing.assert_allclose(made.z_h, [0, 0, 0.5, 1, 1])
    np.testing.assert_allclose(made.f_p_eq, [40, 40, 80, 120, 120])
    np.testing.assert_allclose(by_22(z=[-5, 0, 15, 30, 45]).z_h, [0, 0, 0.5, 1, 1])


def test_isolators_with_a_gap_double_the_force_after_the_limits():
    """Footnote of Table 13.6-1, from memory: 2 F_p where the gap exceeds 1/4 in; F_p is the limited force."""
    for made in (by_16(isolator_gap=[False, True]), by_22(isolator_gap=[False, True], s_ds=0.5)):
        assert made.f_p[1] == pytest.approx(2 * made.f_p[0])
        assert made.f_p_anchorage[1] == pytest.approx(2 * made.f_p_anchorage[0])
        assert made.e_v[1] == made.e_v[0]


def test_anchorage_in_concrete_takes_the_overstrength():
    """Omega_0 times F_p, and E_v of 0.2 S_DS W_p without it."""
    made = by_16(omega_0=[1.5, 2.5], s_ds=0.8, r_p=2.5)
    np.testing.assert_allclose(made.f_p, 32)
    np.testing.assert_allclose(made.f_p_anchorage, [48, 80])
    np.testing.assert_allclose(made.e_v, 16)
    newer = by_22(omega_0p=[1.75, 2.0])
    np.testing.assert_allclose(newer.f_p_anchorage, newer.f_p * [1.75, 2.0])


def test_height_factor_of_the_newer_edition_by_hand():
    """ASCE 7-22, H_f = 1 + a_1 (z/h) + a_2 (z/h)^10, a_1 = 1/T_a to 2.5, a_2 = 1 - (0.4/T_a)^2 above 0.

    T_a 0.2 and 0.4: a_1 2.5, a_2 0, so 2.25 at half height and 3.5 at the roof. T_a 0.5: a_1 2, a_2 0.36; 1.0: 1 and
    0.84; 2.0: 0.5 and 0.96. (1/2)^10 is 1/1024.
    """
    t_a = np.array([0.2, 0.4, 0.5, 1.0, 2.0])
    half = by_22(period_known=True, t_a=t_a, z=15)
    np.testing.assert_allclose(half.a_1, [2.5, 2.5, 2, 1, 0.5])
    np.testing.assert_allclose(half.a_2, [0, 0, 0.36, 0.84, 0.96], atol=1e-15)
    thousandth = np.array([0, 0, 0.36, 0.84, 0.96]) / 1024
    np.testing.assert_allclose(half.h_f, np.array([2.25, 2.25, 2, 1.5, 1.25]) + thousandth)
    np.testing.assert_allclose(by_22(period_known=True, t_a=t_a).h_f, [3.5, 3.5, 3.36, 2.84, 2.46])


def test_unknown_period_and_grade():
    """Unknown T_a: H_f = 1 + 2.5 z/h whatever stands in T_a. At or below grade H_f and R_mu are 1."""
    made = by_22(t_a=[0.3, 1, 4], z=15)
    np.testing.assert_allclose(made.h_f, 2.25)
    grade = by_22(at_grade=True, period_known=[True, False], t_a=0.5, system_known=[True, False], r=8, omega_0=3)
    assert grade.h_f.tolist() == [1, 1]
    assert grade.r_mu.tolist() == [1, 1]


def test_ductility_of_the_structure_by_hand():
    """R_mu = sqrt(1.1 R/(I_e Omega_0)), at least 1.3: R 8, Omega_0 3 sqrt(2.9333); R 5, 2.5 sqrt(2.2); R 3, 3 the
    limit; unknown 1.3 (from memory). I_e of 1.5 takes R 8 to sqrt(1.9556).
    """
    made = by_22(
        system_known=[True, True, True, False, True],
        r=[8, 5, 3, 8, 8],
        omega_0=[3, 2.5, 3, 3, 3],
        i_e=[1, 1, 1, 1, 1.5],
    )
    np.testing.assert_allclose(made.r_mu, [1.71270, 1.48324, 1.3, 1.3, 1.39841], rtol=1e-5)


def test_force_of_the_newer_edition_by_hand():
    """100 lbf at the roof, S_DS 1, H_f 3.5, R_mu 1.3, C_AR 1.4, R_po 1.5: 40 x 2.69231 x 0.93333 = 100.51."""
    assert by_22().f_p_eq[0] == pytest.approx(100.51, abs=0.005)
    assert by_22(i_p=1.5).f_p[0] == pytest.approx(150.77, abs=0.005)
    high, low = by_22(c_ar=2.8), by_22(c_ar=1, at_grade=True, r_po=2)
    assert (high.governs[0], low.governs[0]) == (UPPER_LIMIT, LOWER_LIMIT)
    assert (high.f_p[0], low.f_p[0]) == (pytest.approx(160), pytest.approx(30))


def test_factors_have_a_plain_range():
    """a_p is 1 or 2.5 and R_p from 1.5 to 12 in every row of the table (from memory)."""
    for name, each in FACTORS_16.items():
        assert each.a_p in (1.0, 2.5), name
        assert 1.5 <= each.r_p <= 12.0, name
        assert each.omega_0 in (1.5, 2.0, 2.5), name
        assert each.text.endswith("."), name
        assert each.from_memory, name
