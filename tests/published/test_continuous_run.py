"""Reactions of continuous runs against published coefficients and an independent beam solver (PyNite)."""

from fractions import Fraction

import numpy as np
import pytest
from Pynite import FEModel3D

from hangpoint.core.statics.continuous_run import point_reaction, uniform_reaction, without_support

SHEARS = {
    1: "0|1/2 1/2|0",
    2: "0|3/8 5/8|5/8 3/8|0",
    3: "0|4/10 6/10|5/10 5/10|6/10 4/10|0",
    4: "0|11/28 17/28|15/28 13/28|13/28 15/28|17/28 11/28|0",
    5: "0|15/38 23/38|20/38 18/38|19/38 19/38|18/38 20/38|23/38 15/38|0",
    6: "0|41/104 63/104|55/104 49/104|51/104 53/104|53/104 51/104|49/104 55/104|63/104 41/104|0",
    7: "0|56/142 86/142|75/142 67/142|70/142 72/142|71/142 71/142|72/142 70/142|67/142 75/142|86/142 56/142|0",
}


@pytest.mark.parametrize("count", SHEARS)
def test_equal_spans(count):
    """Civil Engineering Formulas (McGraw-Hill), table 2.1, p. 50: shears left and right of each support of uniformly
    loaded beams over equal spans, in w L; a reaction is their sum. Exact fractions; one span by statics.
    """
    expected = [float(sum(Fraction(part) for part in pair.split("|"))) for pair in SHEARS[count].split()]
    assert sum(expected) == pytest.approx(count)
    n = count + 1
    l_trib, l_cont = uniform_reaction(
        spans=np.full((n, count), 1.0), span_count=np.full(n, count), support=np.arange(n)
    )
    np.testing.assert_allclose(l_cont, expected, rtol=1e-12)
    np.testing.assert_allclose(l_trib, [0.5, *[1.0] * (count - 1), 0.5], rtol=1e-12)


def _beam(spans, points):
    """Reactions by PyNite to a unit uniform load and to a unit load at each position: (supports, 1 + loads)."""
    beam = FEModel3D()
    beam.add_material("m", E=29e6 * 144, G=11e6 * 144, nu=0.3, rho=0.0)
    beam.add_section("s", A=1.0, Iy=1.0, Iz=1.0, J=1.0)
    at = np.concatenate([[0.0], np.cumsum(spans)])
    for i, x in enumerate(at):
        beam.add_node(f"n{i}", x, 0.0, 0.0)
        beam.def_support(f"n{i}", i == 0, True, True, i == 0, True, False)
    for i in range(len(spans)):
        beam.add_member(f"b{i}", f"n{i}", f"n{i + 1}", "m", "s")
        beam.add_member_dist_load(f"b{i}", "FY", -1.0, -1.0, case="u")
    for j, x in enumerate(points):
        i = min(int(np.searchsorted(at, x, side="right")) - 1, len(spans) - 1)
        beam.add_member_pt_load(f"b{i}", "FY", -1.0, x - at[i], case=f"p{j}")
    cases = ["u", *(f"p{j}" for j in range(len(points)))]
    for case in cases:
        beam.add_load_combo(case, {case: 1.0})
    beam.analyze_linear(check_stability=False)
    return np.array([[beam.nodes[f"n{i}"].RxnFY[case] for case in cases] for i in range(len(at))])


def test_three_unequal_spans():
    """PyNite 3.2 on spans of 10, 8, 10 ft with 16.32 lb/ft (NPS 4 schedule 40 filled): 67.58, 160.90, 160.90, 67.58
    lb, as printed; hinged spans give 81.6 and 146.9 lb.
    """
    l_trib, l_cont = uniform_reaction(
        spans=np.full((4, 3), [10.0, 8.0, 10.0]), span_count=np.full(4, 3), support=np.arange(4)
    )
    np.testing.assert_allclose(16.32 * l_cont, [67.58, 160.90, 160.90, 67.58], atol=0.0051)
    np.testing.assert_allclose(16.32 * l_trib, [81.6, 146.9, 146.9, 81.6], atol=0.051)
    by_solver = _beam([10.0, 8.0, 10.0], [])[:, 0]
    np.testing.assert_allclose(l_cont, by_solver, rtol=1e-8)


@pytest.fixture(scope="module")
def random_runs():
    """Thirty seeded runs of 1 to 8 spans of 3 to 20 ft with three point loads each, one at a support."""
    rng = np.random.default_rng(20240917)
    runs = []
    for _ in range(30):
        spans = rng.uniform(3.0, 20.0, rng.integers(1, 9))
        ends = np.concatenate([[0.0], np.cumsum(spans)])
        points = [*rng.uniform(0.0, ends[-1], 2), rng.choice(ends)]
        runs.append((spans, points, _beam(spans, points)))
    return runs


def _padded(rows, width=10):
    spans = np.zeros((len(rows), width))
    for i, row in enumerate(rows):
        spans[i, : len(row)] = row
    return spans


def test_random_runs_uniform(random_runs):
    """PyNite, random unequal spans, every support, all runs in one padded call; rtol is the solver's precision."""
    rows = [(spans, i, by_solver[i, 0]) for spans, _, by_solver in random_runs for i in range(len(spans) + 1)]
    _, l_cont = uniform_reaction(
        spans=_padded([row[0] for row in rows]),
        span_count=np.array([len(row[0]) for row in rows]),
        support=np.array([row[1] for row in rows]),
    )
    np.testing.assert_allclose(l_cont, [row[2] for row in rows], rtol=1e-7, atol=1e-7)


def test_random_runs_point_loads(random_runs):
    """PyNite, a unit load at random places and at a support, every support of the same thirty runs."""
    rows = [
        (spans, i, x, by_solver[i, 1 + j])
        for spans, points, by_solver in random_runs
        for j, x in enumerate(points)
        for i in range(len(spans) + 1)
    ]
    _, continuous = point_reaction(
        spans=_padded([row[0] for row in rows]),
        span_count=np.array([len(row[0]) for row in rows]),
        support=np.array([row[1] for row in rows]),
        position=np.array([row[2] for row in rows]),
    )
    np.testing.assert_allclose(continuous, [row[3] for row in rows], rtol=1e-7, atol=1e-7)


def test_random_runs_without_a_support(random_runs):
    """PyNite on the run rebuilt without an interior support, against the same run with that support missing."""
    rng = np.random.default_rng(7)
    rows = []
    for spans, _, _ in random_runs:
        if len(spans) < 2:
            continue
        missing = int(rng.integers(1, len(spans)))
        support = int(rng.choice([i for i in range(len(spans) + 1) if i != missing]))
        at = np.delete(np.concatenate([[0.0], np.cumsum(spans)]), missing)
        by_solver = _beam(np.diff(at), [])[support - (support > missing), 0]
        rows.append((spans, missing, support, by_solver))
    assert len(rows) > 20
    spans, span_count, support = without_support(
        spans=_padded([row[0] for row in rows]),
        span_count=np.array([len(row[0]) for row in rows]),
        support=np.array([row[2] for row in rows]),
        missing=np.array([row[1] for row in rows]),
    )
    _, l_cont = uniform_reaction(spans=spans, span_count=span_count, support=support)
    np.testing.assert_allclose(l_cont, [row[3] for row in rows], rtol=1e-7, atol=1e-7)
