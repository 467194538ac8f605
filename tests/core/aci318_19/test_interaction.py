"""Tension and shear together, 17.8, by hand."""

import numpy as np
import pytest

from hangpoint.core.aci318_19.interaction import interaction


def of(r_n, r_v, power=False):
    r_n, r_v = np.atleast_1d(r_n).astype(float), np.atleast_1d(r_v).astype(float)
    return interaction(r_n=r_n, r_v=r_v, power=np.full(len(r_n), power))


@pytest.mark.parametrize(
    ("r_n", "r_v", "utilisation", "limit"),
    [
        (0.5, 0.4, 0.9 / 1.2, 1.2),
        (0.6, 0.6, 1.0, 1.2),
        (0.9, 0.4, 1.3 / 1.2, 1.2),
        (0.9, 0.2, 0.9, 1.0),  # 0.2 itself is neglected, though the sum is 1.1
        (0.2, 1.0, 1.0, 1.0),
        (0.9, 0.21, 1.11 / 1.2, 1.2),
        (1.0, 0.21, 1.21 / 1.2, 1.2),  # just above 0.2: no longer allowed
        (0.1, 0.05, 0.1, 1.0),
        (2.0, 0.3, 2.0, 1.0),  # the ratio alone exceeds 2.3 / 1.2
        (0.3, 2.0, 2.0, 1.0),
        (0.0, 0.0, 0.0, 1.0),
        (0.0, 1.5, 1.5, 1.0),
    ],
)
def test_three_lines(r_n, r_v, utilisation, limit):
    """17.8.2, 17.8.3: the larger ratio where one is at most 0.2, else the largest of (n + v) / 1.2, n and v."""
    made = of(r_n, r_v)
    assert made.utilisation[0] == pytest.approx(utilisation, rel=1e-15)
    assert made.design_strength[0] == limit
    assert made.demand[0] == pytest.approx(utilisation * limit, rel=1e-15)
    swapped = of(r_v, r_n)
    assert swapped.utilisation[0] == made.utilisation[0]


def test_passes_exactly_where_the_clause_holds():
    """Against the clause itself on a grid: each ratio at most 1 and, with both above 0.2, the sum at most 1.2."""
    n, v = (each.ravel() for each in np.meshgrid(np.arange(0, 1.3, 0.05) + 0.003, np.arange(0, 1.3, 0.05) + 0.004))
    holds = [a <= 1 and b <= 1 and (a <= 0.2 or b <= 0.2 or a + b <= 1.2) for a, b in zip(n, v, strict=True)]
    np.testing.assert_array_equal(of(n, v).utilisation <= 1, holds)
    assert 100 < sum(holds) < len(holds) - 100


def test_powers():
    """.5^.6 = .659754 twice: .5 + .5 = 1. Nothing is neglected: 1^(5/3) + .2^(5/3) = 1.068399, ^(3/5) = 1.040495.

    .2^(5/3) = .068399.
    """
    made = of([0.659753955, 1.0, 1.0, 0.0, 0.0], [0.659753955, 0.2, 0.0, 0.7, 0.0], power=True)
    np.testing.assert_allclose(made.utilisation, [1.0, 1.040495, 1.0, 0.7, 0.0], rtol=1e-6)
    np.testing.assert_array_equal(made.design_strength, np.ones(5))


def test_powers_are_proportional_to_the_load():
    once, thrice = of(0.3, 0.4, power=True), of(0.9, 1.2, power=True)
    assert thrice.utilisation[0] == pytest.approx(3 * once.utilisation[0], rel=1e-14)


def test_powers_are_milder_than_the_sum_in_the_middle_and_harder_at_the_ends():
    """n = v = .63: 2 x .63^(5/3) = .926, three lines 1.05. n = .9, v = .2: .9^(5/3) + .0684 = .907, ^(3/5) = .943,
    three lines .9.
    """
    assert of(0.63, 0.63, power=True).utilisation[0] < 1 < of(0.63, 0.63).utilisation[0]
    assert of(0.9, 0.2, power=True).utilisation[0] == pytest.approx(0.943, abs=5e-4)
    assert of(0.9, 0.2).utilisation[0] == 0.9
