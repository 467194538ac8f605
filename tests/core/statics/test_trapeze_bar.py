"""The bar of a trapeze: stress and deflection by hand, and which deflection counts."""

import numpy as np

from core.statics.bars import bar, forces
from core.statics.beams import padded
from hangpoint.core.statics.trapeze_bar import trapeze_bar

E, I_X, S_X = 29e6, 0.185, 0.2


def checked(*bars, f_b=25_000.0, limit=240.0):
    bars = [each | {"e_i": E * I_X} for each in bars]
    _, made = forces(*bars)
    count = len(bars)
    return trapeze_bar(
        forces=made,
        spans=padded([each["spans"] for each in bars], made.deflection.shape[1]),
        span_count=np.array([len(each["spans"]) for each in bars]),
        start=np.array([each["start"] for each in bars]),
        end=np.array([each["end"] for each in bars]),
        w=np.array([each["w"] for each in bars]),
        s_x=np.full(count, S_X),
        i_x=np.full(count, I_X),
        e=np.full(count, E),
        f_b=np.full(count, f_b),
        limit=np.full(count, limit),
    )


def test_stress_and_deflection_by_hand():
    """500 lb in the middle of 4 ft: M = 500 lb-ft = 6,000 lb-in, 30,000 psi at S = 0.2, 1.2 of 25,000 psi.

    P l^3/(48 E I) = 500 x 48^3/(48 x 29e6 x 0.185) = 0.21473 in; l/240 = 0.2 in.
    """
    got = checked(bar([4.0], loads=[(2.0, 500.0)]))
    np.testing.assert_allclose(got.sigma, 30_000.0)
    np.testing.assert_allclose(got.utilisation, 1.2)
    np.testing.assert_allclose(got.design_strength, 25_000 * 0.2 / 12)
    np.testing.assert_allclose(got.deflection, 500 * 48**3 / (48 * 29e6 * 0.185), rtol=1e-9)
    np.testing.assert_allclose(got.deflection_limit, 0.2)
    assert not got.stiff[0]


def test_hogging_may_govern():
    """200 lb on a tip of 2 ft: 400 lb-ft over the rod, no sagging."""
    got = checked(bar([4.0], end=2.0, loads=[(6.0, 200.0)]))
    np.testing.assert_allclose([got.m_sag[0], got.m_hog[0], got.demand[0]], [0.0, 400.0, 400.0])
    np.testing.assert_allclose(got.x_hog, 4.0)


def test_a_loaded_tip_counts_with_twice_its_length():
    """P c^2 (l + c)/(3 E I) = 200 x 36^2 x (48 + 36)/(3 E I) at a tip of 3 ft, against 6 ft."""
    got = checked(bar([4.0], end=3.0, loads=[(7.0, 200.0)]))
    np.testing.assert_allclose(got.deflection, 200 * 36**2 * 84 / (3 * E * I_X), rtol=1e-9)
    np.testing.assert_allclose(got.length, 6.0)


def test_a_short_tip_that_only_turns_does_not_govern():
    """The span of 4 ft counts, though the tip of 0.25 ft rises by more of twice its own length."""
    got = checked(bar([4.0], start=0.25, loads=[(2.0, 500.0)]))
    np.testing.assert_allclose(got.length, 4.0)
    np.testing.assert_allclose(got.deflection, 500 * 48**3 / (48 * E * I_X), rtol=1e-9)


def test_the_worse_of_unlike_spans():
    """Spans of 3 and 6 ft, beside a bar of one span in the same call: the longer one bends more of its length."""
    got = checked(bar([3.0, 6.0], w=20.0), bar([2.0], w=20.0))
    np.testing.assert_allclose(got.length, [6.0, 2.0])
