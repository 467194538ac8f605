"""Reactions of beams on simple supports against published coefficients and an independent beam solver (PyNite)."""

from fractions import Fraction

import numpy as np
import pytest

from core.statics.beams import padded, random_beams, solved
from hangpoint.core.statics.continuous_run import point_reactions, uniform_reactions, without_support

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
    none = np.zeros(1)
    got = uniform_reactions(spans=np.ones((1, count)), span_count=np.array([count]), start=none, end=none)
    np.testing.assert_allclose(got.continuous[0], expected, rtol=1e-12)
    np.testing.assert_allclose(got.tributary[0], [0.5, *[1.0] * (count - 1), 0.5], rtol=1e-12)


def test_three_unequal_spans():
    """PyNite 3.2 on spans of 10, 8, 10 ft with 16.32 lb/ft (NPS 4 schedule 40 filled): 67.58, 160.90, 160.90, 67.58
    lb, as printed; hinged spans give 81.6 and 146.9 lb.
    """
    spans, none = [10.0, 8.0, 10.0], np.zeros(1)
    got = uniform_reactions(spans=np.array([spans]), span_count=np.array([3]), start=none, end=none)
    np.testing.assert_allclose(16.32 * got.continuous[0], [67.58, 160.90, 160.90, 67.58], atol=0.0051)
    np.testing.assert_allclose(16.32 * got.tributary[0], [81.6, 146.9, 146.9, 81.6], atol=0.051)
    np.testing.assert_allclose(got.continuous[0], solved(spans, w=1.0).reactions, rtol=1e-8)


@pytest.fixture(scope="module", params=[False, True], ids=["no overhangs", "overhangs"])
def random_runs(request):
    """Thirty seeded runs of 1 to 8 spans with three point loads each, one at a support."""
    return list(random_beams(np.random.default_rng(20240917), 30, overhangs=request.param))


def _columns(runs):
    """Runs in one padded call."""
    return {
        "spans": padded([run["spans"] for run in runs], 10),
        "span_count": np.array([len(run["spans"]) for run in runs]),
        "start": np.array([run["start"] for run in runs]),
        "end": np.array([run["end"] for run in runs]),
    }


def test_random_runs_uniform(random_runs):
    """PyNite, random unequal spans, every support, all runs in one padded call; rtol is the solver's precision."""
    runs = [run for run, _ in random_runs]
    expected = padded([solved(**run, w=1.0).reactions for run in runs], 11)
    got = uniform_reactions(**_columns(runs))
    np.testing.assert_allclose(got.continuous, expected, rtol=1e-7, atol=1e-7)


def test_random_runs_point_loads(random_runs):
    """PyNite, a unit load at random places and at a support, every support of the same thirty runs."""
    rows = [(run, x) for run, places in random_runs for x in places]
    expected = padded([solved(**run, loads=[(x, 1.0)]).reactions for run, x in rows], 11)
    got = point_reactions(**_columns([run for run, _ in rows]), position=np.array([x for _, x in rows]))
    np.testing.assert_allclose(got.continuous, expected, rtol=1e-7, atol=1e-7)


def test_random_runs_hinged(random_runs):
    """PyNite on the pieces between hinges: each end piece with its overhang is a beam of its own, so is each span."""
    runs = [run for run, _ in random_runs]
    got = uniform_reactions(**_columns(runs))
    for i, run in enumerate(runs):
        spans, last = run["spans"], len(run["spans"]) - 1
        expected = np.zeros(len(spans) + 1)
        for j, span in enumerate(spans):
            ends = {"start": run["start"] * (j == 0), "end": run["end"] * (j == last)}
            expected[j : j + 2] += solved([span], **ends, w=1.0).reactions
        np.testing.assert_allclose(got.hinged[i, : last + 2], expected, rtol=1e-7, atol=1e-7)


def test_random_runs_without_a_support(random_runs):
    """PyNite on the run rebuilt without an interior support, against the same run with that support missing."""
    rng = np.random.default_rng(7)
    runs = [run for run, _ in random_runs if len(run["spans"]) > 1]
    assert len(runs) > 20
    missing = np.array([rng.integers(1, len(run["spans"])) for run in runs])
    columns = _columns(runs)
    spans, span_count, _ = without_support(
        spans=columns["spans"], span_count=columns["span_count"], support=np.zeros_like(missing), missing=missing
    )
    got = uniform_reactions(**columns | {"spans": spans, "span_count": span_count})
    rebuilt = []
    for run, lost in zip(runs, missing, strict=True):
        at = np.delete(np.concatenate([[0.0], np.cumsum(run["spans"])]), lost)
        rebuilt.append(solved(**run | {"spans": np.diff(at)}, w=1.0).reactions)
    np.testing.assert_allclose(got.continuous, padded(rebuilt, 11), rtol=1e-7, atol=1e-7)
