"""Rods that a brace pushes, by the column curve of AISC 360-16, E3, and by hand."""

import math

import numpy as np
import pytest

from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.statics.rod_in_compression import rod_in_compression, slenderness_of_stress

E = 29.0e6


def critical(slender, f_y):
    """E3-2 to E3-4 as printed: F_y/F_e up to 2.25, and beyond."""
    f_e = math.pi**2 * E / slender**2
    return 0.658 ** (f_y / f_e) * f_y if f_y / f_e <= 2.25 else 0.877 * f_e


def slender(f_cr, f_y):
    (found,) = slenderness_of_stress(f_cr=np.array([f_cr]), f_y=np.array([f_y]), e=np.array([E]))
    return float(found)


@pytest.mark.parametrize("f_y", [30_000.0, 36_000.0, 50_000.0])
@pytest.mark.parametrize("ratio", [5, 40, 80, 110, 140, 170, 199])
def test_the_curve_is_turned_round(f_y, ratio):
    """What the curve of E3 has at a slenderness is asked for, and that slenderness comes back."""
    assert slender(critical(ratio, f_y), f_y) == pytest.approx(ratio, rel=1e-9)


@pytest.mark.parametrize(("phi_f_cr", "f_y", "ratio"), [(21.7, 50, 100), (37.5, 50, 50), (5.65, 36, 200)])
def test_the_table_of_the_manual(phi_f_cr, f_y, ratio):
    """phi F_cr in ksi of the AISC manual, its table of critical stresses: from memory, to three figures."""
    assert slender(phi_f_cr / 0.9 * 1000, f_y * 1000.0) == pytest.approx(ratio, rel=5e-3)


@pytest.mark.parametrize(("f_y", "ratio"), [(36, 134), (42, 124), (50, 113)])
def test_where_the_curve_changes(f_y, ratio):
    """Transition by a public reference table: there F_cr is 0.658^2.25 F_y = 0.39 F_y."""
    assert slender(0.39 * f_y * 1000, f_y * 1000.0) == pytest.approx(ratio, rel=5e-3)


@pytest.mark.parametrize(
    ("size", "push", "l_most"),
    [
        # d_r 0.2938 in, A_r 0.0678 in2, r 0.0735 in: Euler would allow 14.9 in at 200, as 0.9 x 0.877 x 7.157 ksi x A_r
        # is 383 lbf and more than 300.
        ("3/8", 300.0, 14.69),
        # 600 lbf: F_cr 9.83 ksi, pi sqrt(0.877 29000 / 9.83) = 159.8.
        ("3/8", 600.0, 11.74),
        # d_r 0.4001 in, A_r 0.1257 in2, r 0.1000 in, 450 lbf: 3.98 ksi, 251 is more than 200.
        ("1/2", 450.0, 20.00),
        # 3,300 lbf: F_cr 29.17 ksi; pi sqrt(29000 ln(0.9723) / (30 ln 0.658)) = 25.3.
        ("1/2", 3300.0, 2.53),
        # Above 0.9 F_y A_r = 3,394 lbf no length carries it.
        ("1/2", 3400.0, 0.0),
    ],
)
def test_rods_by_hand(size, push, l_most):
    thread = THREADS[size]
    columns = {name: np.array([getattr(thread, name)]) for name in ("d", "pitch", "k_root")}
    for l_free, holds in ((0.99 * l_most, l_most > 0), (1.01 * l_most + 0.01, False), (math.inf, False)):
        made = rod_in_compression(c_rod=np.array([push]), l_free=np.array([l_free or 1e-9]), **columns)
        assert made.l_most[0] == pytest.approx(l_most, abs=0.006)
        assert made.holds[0] == holds
