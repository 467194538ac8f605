"""Seismic forces of components as permits and a design guide print them."""

import numpy as np
import pytest

from hangpoint.core.loads.component_factors import FACTORS_16
from hangpoint.core.loads.seismic_component import EQUATION, LOWER_LIMIT, component_force_16
from hangpoint.core.statics.brace import brace_force


def force(*, w_p, s_ds, a_p, r_p, z, h, i_p=1.0):
    numbers = {"w_p": w_p, "s_ds": s_ds, "i_p": i_p, "a_p": a_p, "r_p": r_p, "omega_0": 2.0, "z": z, "h": h}
    return component_force_16(
        **{name: np.array([float(x)]) for name, x in numbers.items()}, isolator_gap=np.array([False])
    )


def test_heat_pump_on_a_roof():
    """City of Everett, Washington, permit 1614580, p. 69, ASCE 7-10: a_p 2.5, S_DS 0.876, R_p 6, I_p 1, 204 lb, z 14
    ft, h 12 ft. Printed: F_p,max 285.9, F_p,min 53.6, E_v 36 lb, and F_p 99.3, for which z/h was left at 1.17.

    z/h need not exceed 1: the equation then gives 0.4 x 2.5 x 0.876 x 204 x 3 / 6 = 89.35. The permit's 99.28 is that
    times (1 + 2 x 14/12) / 3; at strength, and 0.7 of it is the printed 69.5.
    """
    made = force(w_p=204, s_ds=0.876, a_p=2.5, r_p=6, z=14, h=12)
    assert made.f_p_max[0] == pytest.approx(285.9, abs=0.05)
    assert made.f_p_min[0] == pytest.approx(53.6, abs=0.05)
    assert made.e_v[0] == pytest.approx(36, abs=0.5)
    assert made.z_h[0] == 1.0
    assert made.f_p[0] == pytest.approx(89.35, abs=0.005)
    printed = made.f_p[0] * (1 + 2 * 14 / 12) / 3
    assert printed == pytest.approx(99.3, abs=0.05)
    assert 0.7 * printed == pytest.approx(69.5, abs=0.05)
    assert made.governs[0] == EQUATION


def test_ceiling():
    """City of Santa Ana, California, permit 375324, p. 10, ASCE 7-16: a_p 1, S_DS 1.027, I_p 1, R_p 2.5, 2.7 psf, z
    11.4583 ft, h 20 ft. Printed 0.95, 4.44 and 0.83 psf.
    """
    made = force(w_p=2.7, s_ds=1.027, a_p=1, r_p=2.5, z=11.4583, h=20)
    assert made.f_p[0] == pytest.approx(0.95, abs=0.005)
    assert made.f_p_max[0] == pytest.approx(4.44, abs=0.005)
    assert made.f_p_min[0] == pytest.approx(0.83, abs=0.005)


def test_suspended_kitchen_hood():
    """City of Santa Ana, California, permit 375308, p. 106: a_p 2.5, S_DS 1.70, z/h 1, R_p 6, I_p 1, W_p 0.60 kip.
    Printed: F_p 0.85 W_p, least 0.51 W_p, most 2.72 W_p, P 0.51 kip.
    """
    made = force(w_p=600, s_ds=1.70, a_p=2.5, r_p=6, z=1, h=1)
    assert made.fraction[0] == pytest.approx(0.85, abs=1e-12)
    assert made.f_p_min[0] / 600 == pytest.approx(0.51, abs=1e-12)
    assert made.f_p_max[0] / 600 == pytest.approx(2.72, abs=1e-12)
    assert made.f_p[0] == pytest.approx(510, abs=1e-9)


def test_brace_of_the_kitchen_hood():
    """The same permit: P 0.51 kip on two braces at 45 degrees, T = P/2 x sqrt(2) = 0.36 kip; 0.361 by hand."""
    two, angle, none = np.array([2.0]), np.array([45.0]), np.array([0.0])
    hood = force(w_p=600, s_ds=1.70, a_p=2.5, r_p=6, z=1, h=1)
    made = brace_force(f_p=hood.f_p, braces=two, theta_v=angle, n_sure=none, tan_alpha=none)
    assert made.f_axial[0] == pytest.approx(361, abs=0.5)
    assert made.v[0] == pytest.approx(255)
    assert made.f_horizontal[0] == pytest.approx(255)
    assert made.c_rod[0] == pytest.approx(255)


def test_fan_unit_of_a_hospital():
    """FEMA P-751 (and P-1051), HVAC fan unit, from memory: a_p 2.5, R_p 6, S_DS 0.474, 3,000 lb at the roof. F_p 711,
    most 2,275, least 427, E_v 284 lb.
    """
    made = force(w_p=3000, s_ds=0.474, a_p=2.5, r_p=6, z=1, h=1)
    assert made.f_p[0] == pytest.approx(711, abs=0.5)
    assert made.f_p_max[0] == pytest.approx(2275, abs=0.5)
    assert made.f_p_min[0] == pytest.approx(427, abs=0.5)
    assert made.e_v[0] == pytest.approx(284, abs=0.5)


def test_lower_limit_at_grade():
    """For sheet-metal units the lower limit governs to 0.4 of the height: at grade 0.4 x 2.5 / 6 is below 0.3."""
    assert force(w_p=1, s_ds=1, a_p=2.5, r_p=6, z=0, h=1).governs[0] == LOWER_LIMIT


def test_coefficients_of_equipment():
    """ASCE 7-10, Table 13.6-1, as reprinted, a_p and R_p: air-side equipment of sheet metal framing 2.5 and 6, wet-side
    equipment, pumps and engines 1.0 and 2.5, spring isolated components 2.5 and 2. The two permits above: 2.5 and 6.
    """
    table = {"air_side": (2.5, 6.0), "wet_side": (1.0, 2.5), "pump": (1.0, 2.5), "spring_isolated": (2.5, 2.0)}
    for name, (a_p, r_p) in table.items():
        assert FACTORS_16[name][:2] == (a_p, r_p), name


def test_coefficients_of_distribution_systems():
    """ASCE 7-16, Table 13.6-1, a_p and R_p, from memory."""
    table = {
        "pipe_b31_welded": (2.5, 12),
        "pipe_b31_threaded": (2.5, 6),
        "pipe_ductile_welded": (2.5, 9),
        "pipe_ductile_threaded": (2.5, 4.5),
        "pipe_brittle": (2.5, 3),
        "duct_welded": (2.5, 9),
        "duct": (2.5, 6),
        "raceway": (2.5, 6),
        "bus_duct": (1, 2.5),
        "plumbing": (1, 2.5),
        "isolated_in_line": (2.5, 2.5),
        "ceiling": (1, 2.5),
    }
    for name, (a_p, r_p) in table.items():
        assert FACTORS_16[name][:2] == (a_p, r_p), name
