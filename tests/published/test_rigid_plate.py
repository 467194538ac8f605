"""Rigid plates against concreteproperties 0.7.0 and the closed form of a plate bent about one axis.

The design standards (ACI 318-19 17.2.1, EN 1992-4 6.2.1) ask for an elastic analysis; no worked example of theirs is
known here, so the references are an independent library and the cubic of the books on column bases.
"""

import json
from pathlib import Path

import numpy as np
import pytest

from core.statics.plates import one_plate
from hangpoint.core.statics.rigid_plate import rigid_plate

FIGURES = json.loads(Path(__file__).with_name("rigid_plate_figures.json").read_text(encoding="utf-8"))
PLATES = FIGURES["plates"]

SQUARE = {
    "sides": (-150, 150, -150, 150),
    "x": [-120, 120, 120, -120],
    "y": [-120, -120, 120, 120],
    "a_s": 84.3,
    "e_s": 210_000,
    "e_c": 30_000,
}
"""300 x 300 mm with four anchors, N and mm: the formulas take any units that belong together."""


def column(name):
    return np.array([plate[name] for plate in PLATES])


def flat(name):
    return np.concatenate([plate[name] for plate in PLATES])


def test_random_plates():
    """300 plates with 1 to 8 anchors, strain planes at random: forces to 1e-9 of the largest of each plate.

    The library is the source of load and forces alike (`rigid_plate_figures.py`). Its bars keep 1e-9 of their stiffness
    in compression, hence the tolerance. The stress at the corner is compared where the plate bears at all: a plate that
    hangs on two anchors may touch or not without any force that counts.
    """
    assert FIGURES["source"] == "concreteproperties 0.7.0"
    assert len(PLATES) == 300
    case_of_anchor = np.repeat(np.arange(len(PLATES)), [len(plate["x"]) for plate in PLATES])
    found = rigid_plate(
        n=-column("compression"),
        m_x=-column("compression_y"),
        m_y=column("compression_x"),
        contact=np.ones(len(PLATES), bool),
        case_of_anchor=case_of_anchor,
        **{name: column(name) for name in ("x0", "x1", "y0", "y1", "e_s", "e_c")},
        **{name: flat(name) for name in ("x", "y", "a_s")},
    )
    assert found.balance.in_equilibrium.all()
    expected = flat("bar_tension")
    largest = np.abs(column("compression"))
    np.maximum.at(largest, case_of_anchor, np.abs(expected))
    worst = np.max(np.abs(found.anchors.tension - expected) / largest[case_of_anchor])
    print(f"worst difference of 300 plates from concreteproperties: {worst:.1e} of the largest force")
    assert worst < 1e-9
    bears = found.balance.c > 1e-6 * largest
    kinds = [(found.balance.t == 0).sum(), (~bears).sum(), (bears & (found.balance.t > 0)).sum()]
    assert min(kinds) > 30, "compressed, lifted and tilted plates are all among them"
    # to 1e-8 of the stress over the depth of the plate (strain 1e-4), so that a corner that barely bears is fair
    stress = column("e_c") * 1e-4
    off = np.abs(found.balance.sigma_max - column("corner_stress"))[bears] / stress[bears]
    assert np.max(off) < 1e-8


@pytest.mark.parametrize(
    ("n", "m_x", "m_y", "tension"),
    [
        (-20, -10, 0, [14.5893, 14.5893, 0, 0]),
        (-20, -8, 5, [14.4000, 8.6521, 0, 2.1921]),
        (40, -1.0, 0.8, [13.7500, 10.4167, 6.2500, 9.5834]),
    ],
)
def test_square_plate(n, m_x, m_y, tension):
    """kN of each anchor by concreteproperties 0.7.0 with a root finder, to 0.1 N as it was read.

    In the third the plate is off the concrete: 10 +- 2.0833 +- 1.6667 by hand.
    """
    found = one_plate(**SQUARE, n=1e3 * n, m_x=1e6 * m_x, m_y=1e6 * m_y)
    np.testing.assert_allclose(found.anchors.tension / 1e3, tension, atol=1.01e-4)


def test_modular_ratio():
    """E_c 31 000 by concreteproperties 0.7.0, to the print; the lifted plate as before."""
    plate = SQUARE | {"e_c": 31_000}
    first = one_plate(**plate, n=-20e3, m_x=-10e6, m_y=0.0).anchors.tension / 1e3
    second = one_plate(**plate, n=-20e3, m_x=-8e6, m_y=5e6).anchors.tension / 1e3
    lifted = one_plate(**plate, n=40e3, m_x=-1e6, m_y=0.8e6).anchors.tension / 1e3
    np.testing.assert_allclose(first, [14.565, 14.565, 0, 0], atol=6e-4)
    np.testing.assert_allclose(second, [14.332, 8.659, 0, 2.200], atol=6e-4)
    np.testing.assert_allclose(lifted, [13.7500, 10.4167, 6.2500, 9.5833], atol=1e-4)


def closed_form(*, e, f, d, b, n, a_s, p):
    """Depth of the compressed zone and tension of the row: Y**3 + K1 Y**2 + K2 Y + K3 = 0."""
    k1 = 3 * (e - d / 2)
    k2 = 6 * n * a_s * (f + e) / b
    k3 = -k2 * (d / 2 + f)
    roots = np.roots([1, k1, k2, k3])
    (y,) = [root.real for root in roots if abs(root.imag) < 1e-9 and 0 < root.real < d]
    return y, -p * (d / 2 - y / 3 - e) / (d / 2 - y / 3 + f)


def test_one_axis_against_the_cubic():
    """Blodgett, Design of Welded Structures, column bases: depth and tension from a cubic. The form is from memory.

    The compressed row takes nothing. 60 plates at random and the square plate: Y 53.573 mm, T 29.1786 kN.
    """
    y, t = closed_form(e=500.0, f=120.0, d=300.0, b=300.0, n=7.0, a_s=2 * 84.3, p=20e3)
    assert y == pytest.approx(53.573, abs=5e-4)
    assert t == pytest.approx(29_178.6, abs=0.05)
    rng = np.random.default_rng(7)
    compared = 0
    for _ in range(60):
        d, b = rng.uniform(6, 30, 2)
        f = d * rng.uniform(0.25, 0.45)
        e, p, a_s, e_c = d * rng.uniform(0.6, 8), rng.uniform(1e3, 5e4), rng.uniform(0.1, 2), rng.uniform(2e6, 6e6)
        y, t = closed_form(e=e, f=f, d=d, b=b, n=29e6 / e_c, a_s=a_s, p=p)
        if y > d / 2 + f or y < d / 2 - f:
            continue
        found = one_plate(
            sides=(-b / 2, b / 2, -d / 2, d / 2),
            x=[-b / 4, b / 4, -b / 4, b / 4],
            y=[-f, -f, f, f],
            a_s=a_s / 2,
            e_s=29e6,
            e_c=e_c,
            n=-p,
            m_x=-p * e,
            m_y=0.0,
        )
        compared += 1
        assert found.balance.depth[0] == pytest.approx(y, rel=1e-9)
        assert found.balance.t[0] == pytest.approx(t, rel=1e-9)
        assert found.balance.c[0] == pytest.approx(t + p, rel=1e-9)
        assert found.balance.sigma_max[0] == pytest.approx(2 * (t + p) / (b * y), rel=1e-9)
    assert compared > 20


def test_lever_arm_and_eccentricity():
    """The square plate under axial force and both moments, by an independent Newton solver, to the print (mm, MPa)."""
    found = one_plate(**SQUARE, n=-20e3, m_x=-8e6, m_y=5e6)
    balance, tensioned = found.balance, found.tensioned
    assert balance.c[0] / 1e3 == pytest.approx(45.2441, abs=6e-5)
    assert (balance.x_c[0], balance.y_c[0]) == pytest.approx((89.45, 121.49), abs=6e-3)
    assert balance.sigma_max[0] == pytest.approx(9.830, abs=6e-4)
    assert (balance.x_t[0], balance.y_t[0]) == pytest.approx((-37.74, -99.16), abs=6e-3)
    assert tensioned.tensioned_count[0] == 3
    assert (tensioned.e_n_x[0], tensioned.e_n_y[0]) == pytest.approx((2.26, 59.16), abs=6e-3)
    # differences of printed places, each rounded to 0.005
    assert balance.z[0] == pytest.approx(np.hypot(89.45 + 37.74, 121.49 + 99.16), abs=0.02)
    lifted = one_plate(**SQUARE, n=40e3, m_x=-1e6, m_y=0.8e6).tensioned
    assert (lifted.e_n_x[0], lifted.e_n_y[0]) == pytest.approx((20, 25), rel=1e-9)
