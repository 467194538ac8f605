"""Moments, shears and deflections of bars: handbook formulas, statics, accuracy.

Against a solver: tests/published/test_trapeze.py.

Formulas are those of every handbook of structural steel (table of shears, moments and deflections).
"""

import numpy as np
import pytest

from core.statics.bars import E_I, bar, forces, random_bars
from hangpoint.core.statics.bar_forces import bar_forces

FIELDS = ("m_sag", "x_sag", "m_hog", "x_hog", "shear", "deflection_start", "deflection_end")


def test_simple_span_under_its_own_weight():
    """w l^2/8 in the middle, w l/2, 5 w l^4/(384 E I)."""
    _, got = forces(bar([8.0], w=10.0))
    np.testing.assert_allclose([got.m_sag, got.x_sag, got.m_hog, got.shear], [[80.0], [4.0], [0.0], [40.0]], atol=1e-12)
    np.testing.assert_allclose(got.deflection, [[5 * 10.0 * 8.0**4 / 384 * 1728 / E_I]], rtol=1e-12)


def test_simple_span_with_a_load_off_the_middle():
    """P a b/l under the load; P b (l^2 - b^2)^1.5 / (9 sqrt(3) E I l) at sqrt((l^2 - b^2)/3), for b <= a."""
    for b in (0.4, 1.0, 2.7, 3.0):
        _, got = forces(bar([6.0], loads=[(6.0 - b, 100.0)]))
        np.testing.assert_allclose(got.m_sag, 100.0 * (6.0 - b) * b / 6.0, rtol=1e-12)
        np.testing.assert_allclose(got.x_sag, 6.0 - b)
        expected = 100.0 * b * (36.0 - b**2) ** 1.5 / (9 * 3**0.5 * 6.0) * 1728 / E_I
        np.testing.assert_allclose(got.deflection[0, 0], expected, rtol=1e-9)
        assert got.deflection[0, 0] <= expected * (1 + 1e-12)


def test_load_at_a_tip():
    """P c at the rod, P c^2 (l + c)/(3 E I) at the tip, P c l^2/(9 sqrt(3) E I) upward between the rods."""
    _, got = forces(bar([4.0], end=1.5, loads=[(5.5, 80.0)]))
    np.testing.assert_allclose([got.m_hog[0], got.x_hog[0], got.m_sag[0]], [120.0, 4.0, 0.0], atol=1e-12)
    np.testing.assert_allclose(got.deflection_end, 80.0 * 1.5**2 * 5.5 / 3 * 1728 / E_I, rtol=1e-12)
    np.testing.assert_allclose(got.deflection, 80.0 * 1.5 * 16.0 / (9 * 3**0.5) * 1728 / E_I, rtol=1e-9)
    np.testing.assert_array_equal(got.deflection_start, [0.0])


def test_support_moments_of_equal_spans():
    """Largest support moments of uniformly loaded continuous beams over equal spans: 1/8, 1/10, 3/28, 4/38 of w l^2
    (Civil Engineering Formulas, McGraw-Hill, table 2.1 and the moments beside it).
    """
    for count, expected in ((2, 1 / 8), (3, 1 / 10), (4, 3 / 28), (5, 4 / 38)):
        _, got = forces(bar(np.full(count, 6.0), w=2.0))
        np.testing.assert_allclose(got.m_hog, expected * 2.0 * 36.0, rtol=1e-12)


def test_two_equal_spans_sag_and_bend():
    """9/128 w l^2 at 3/8 l; 0.0054 w l^4/(E I) (printed 0.0054; w l^4/185)."""
    _, got = forces(bar([8.0, 8.0], w=3.0))
    np.testing.assert_allclose(got.m_sag, 9 / 128 * 3.0 * 64.0, rtol=1e-12)
    np.testing.assert_allclose(got.x_sag, 3.0, rtol=1e-12)
    np.testing.assert_allclose(got.shear, 5 / 8 * 24.0, rtol=1e-12)
    unit = 3.0 * 8.0**4 * 1728 / E_I
    np.testing.assert_allclose(got.deflection / unit, [[1 / 185, 1 / 185]], rtol=3e-3)
    np.testing.assert_allclose(got.deflection[0, 0], got.deflection[0, 1], rtol=1e-9)


def test_a_load_over_a_rod_bends_nothing():
    """It goes straight up: no moment, no deflection, and no shear from the order of load and rod."""
    reactions, got = forces(bar([4.0, 4.0], loads=[(4.0, 300.0), (0.0, 50.0), (8.0, 70.0)]))
    np.testing.assert_allclose(reactions, [[50.0, 300.0, 70.0]], atol=1e-12)
    for name in (*FIELDS, "deflection"):
        if not name.startswith("x_"):
            np.testing.assert_allclose(getattr(got, name), 0.0, atol=1e-9, err_msg=name)


def test_deflection_is_accurate():
    """Against the same bar cut by loads of no weight into 400 lengths: less than 1e-6 below it, never above it.

    The reference is this function on a mesh fifty times finer; what it computes is checked by the formulas above and by
    the solver.
    """
    rng = np.random.default_rng(11)
    bars = [each | {"loads": each["loads"][:6]} for each in random_bars(rng, 150)]
    fine = []
    for each in bars:
        places = np.linspace(-each["start"], sum(each["spans"]) + each["end"], 401)
        fine.append(each | {"loads": [*each["loads"], *((x, 0.0) for x in places)]})
    (_, coarse), (_, mesh) = forces(*bars), forces(*fine)
    for name in ("deflection", "deflection_start", "deflection_end"):
        found, better = getattr(coarse, name), getattr(mesh, name)
        assert (found >= better * (1 - 1e-6)).all()
        assert (found <= better * (1 + 1e-9)).all()


def test_linearity():
    """Twice the loads, twice everything; twice the stiffness, half the deflections; moments and shear as they were."""
    bars = random_bars(np.random.default_rng(4), 40)
    _, once = forces(*bars)
    twice = [each | {"w": 2 * each["w"], "loads": [(x, 2 * p) for x, p in each["loads"]]} for each in bars]
    _, doubled = forces(*twice)
    _, stiff = forces(*(each | {"e_i": 2 * E_I} for each in twice))
    for name in (*FIELDS, "deflection"):
        factor = 1.0 if name.startswith("x_") else 2.0
        np.testing.assert_allclose(getattr(doubled, name), factor * getattr(once, name), rtol=1e-9, atol=1e-9)
        expected = getattr(once, name) if name.startswith("defl") else factor * getattr(once, name)
        np.testing.assert_allclose(getattr(stiff, name), expected, rtol=1e-9, atol=1e-9)


def test_read_from_the_other_end():
    bars = random_bars(np.random.default_rng(5), 40)
    turned = [
        bar(
            each["spans"][::-1],
            start=each["end"],
            end=each["start"],
            w=each["w"],
            loads=[(sum(each["spans"]) - x, p) for x, p in each["loads"]],
        )
        for each in bars
    ]
    (_, here), (_, there) = forces(*bars), forces(*turned)
    for name in ("m_sag", "m_hog", "shear"):
        np.testing.assert_allclose(getattr(here, name), getattr(there, name), rtol=1e-9, atol=1e-9)
    np.testing.assert_allclose(here.deflection_start, there.deflection_end, rtol=1e-6, atol=1e-12)
    for i, each in enumerate(bars):
        count = len(each["spans"])
        np.testing.assert_allclose(here.deflection[i, :count], there.deflection[i, :count][::-1], rtol=1e-6)


def test_order_of_loads_and_company_change_nothing():
    """Loads of all bars shuffled, wider padding, and each bar alone."""
    rng = np.random.default_rng(6)
    bars = random_bars(rng, 60)
    _, plain = forces(*bars)
    _, shuffled = forces(*bars, width=5, shuffle=rng)
    for i, each in enumerate(bars):
        _, alone = forces(each)
        count = len(each["spans"])
        for name in FIELDS:
            np.testing.assert_allclose(getattr(plain, name)[i], getattr(alone, name)[0], rtol=1e-9, atol=1e-9)
            np.testing.assert_allclose(getattr(shuffled, name)[i], getattr(plain, name)[i], rtol=1e-9, atol=1e-9)
        np.testing.assert_allclose(plain.deflection[i, :count], alone.deflection[0], rtol=1e-9)
        np.testing.assert_array_equal(shuffled.deflection[i, count:], 0.0)


def test_no_bars():
    none, index = np.zeros(0), np.zeros(0, dtype=np.intp)
    got = bar_forces(
        spans=np.zeros((0, 3)),
        span_count=index,
        start=none,
        end=none,
        reactions=np.zeros((0, 4)),
        w=none,
        e_i=none,
        load_bar=index,
        load_position=none,
        load_weight=none,
    )
    assert got.deflection.shape == (0, 3)
    assert all(getattr(got, name).shape == (0,) for name in FIELDS)


@pytest.mark.parametrize("weight", [0.0, -50.0])
def test_loads_of_no_weight_or_upward(weight):
    """No load at all bends nothing; an upward one hogs as much as the same downward one sags."""
    _, got = forces(bar([4.0], loads=[(2.0, weight)]))
    np.testing.assert_allclose([got.m_sag[0], got.m_hog[0]], [0.0, -weight * 4.0 / 4], atol=1e-12)
    np.testing.assert_allclose(got.deflection, abs(weight) * 4.0**3 / 48 * 1728 / E_I, rtol=1e-12)
