"""Trapezes: reactions and moment of a worked example, random bars against PyNite, stress and deflection of a bar."""

import numpy as np
import pytest

from core.statics.bars import E_I, bar, forces, random_bars
from core.statics.beams import solved


def test_two_pipes_on_two_rods():
    """4 ft between rods, strut of 1.9 lb/ft, two pipes of 163.2 lb (NPS 4 schedule 40 filled, 10 ft) at 1.0 and 2.5 ft.

    By statics, in the test: R_B = (163.2 x 1.0 + 163.2 x 2.5)/4 + 1.9 x 2 = 146.60, R_A = 2 x 163.2 + 7.6 - 146.60 =
    187.40 lb; the largest moment under the second pipe: 146.60 x 1.5 - 1.9 x 1.5^2/2 = 217.8 lb-ft.
    """
    reactions, got = forces(bar([4.0], w=1.9, loads=[(1.0, 163.2), (2.5, 163.2)]))
    np.testing.assert_allclose(reactions, [[187.40, 146.60]], atol=0.0051)
    np.testing.assert_allclose(got.m_sag, 146.60 * 1.5 - 1.9 * 1.5**2 / 2, rtol=1e-9)
    np.testing.assert_allclose(got.m_sag, 217.8, atol=0.051)
    np.testing.assert_allclose(got.x_sag, 2.5)


def test_a_pipe_outside_the_rods_slackens_one():
    """Statics: 100 lb on a tip 1 ft outside rods 2 ft apart pulls 150 lb at the near one; the far one lifts."""
    reactions, got = forces(bar([2.0], end=1.0, loads=[(3.0, 100.0)]))
    np.testing.assert_allclose(reactions, [[-50.0, 150.0]], rtol=1e-12)
    np.testing.assert_allclose(got.m_hog, 100.0)


@pytest.fixture(scope="module")
def bars():
    """Sixty seeded bars of 2 to 4 rods with up to 40 loads, and PyNite's solution of each."""
    rows = random_bars(np.random.default_rng(1614), 60)
    feet = E_I / 144.0
    return rows, [
        solved(row["spans"], start=row["start"], end=row["end"], w=row["w"], loads=row["loads"], e_i=feet)
        for row in rows
    ]


def test_random_bars(bars):
    """PyNite 3.2: reactions, largest moments both ways and shear of every bar, all bars in one call."""
    rows, by_solver = bars
    reactions, got = forces(*rows)
    for i, one in enumerate(by_solver):
        np.testing.assert_allclose(reactions[i, : len(one.reactions)], one.reactions, rtol=1e-6, atol=1e-4)
        np.testing.assert_allclose(got.m_sag[i], one.m_sag, rtol=1e-6, atol=1e-3)
        np.testing.assert_allclose(got.m_hog[i], one.m_hog, rtol=1e-6, atol=1e-3)
        np.testing.assert_allclose(got.shear[i], one.shear, rtol=1e-6, atol=1e-3)
    assert sum(one.m_hog > one.m_sag for one in by_solver) > 5
    assert sum(one.reactions.min() < 0.0 for one in by_solver) > 3


def test_random_bars_deflect(bars):
    """PyNite 3.2, its deflections at 2,001 places of each part; rtol is for what lies between them."""
    rows, by_solver = bars
    _, got = forces(*rows)
    for i, one in enumerate(by_solver):
        start, *spans, end = (12.0 * value for value in one.deflection)
        np.testing.assert_allclose(got.deflection[i, : len(spans)], spans, rtol=1e-5, atol=1e-9)
        np.testing.assert_allclose(got.deflection_start[i], start, rtol=1e-5, atol=1e-9)
        np.testing.assert_allclose(got.deflection_end[i], end, rtol=1e-5, atol=1e-9)
