"""Neighbours among many hang points: ten times as many points at the same density cost at most thirteen times."""

import numpy as np
import pytest

from benchmarks.conftest import medians, report
from hangpoint.core.hang_point.neighbours import neighbours

pytestmark = pytest.mark.benchmark

AREA = 500.0
"""Of the member, for each point, in2: a few in a hundred points have a neighbour."""


def points(count: int, members: int):
    rng = np.random.default_rng(count)
    side = np.sqrt(AREA * count / members)
    x, y = rng.random((2, count)) * side
    return {
        "member": rng.integers(0, members, count),
        "x": x,
        "y": y,
        "h_ef": rng.choice([2.0, 3.25, 4.0, 6.0], count),
        "most": 64,
    }


@pytest.mark.parametrize("layout", ["spread", "one place"])
def test_growth(layout: str) -> None:
    """Points spread over 20 members, and all points at the same place."""
    small, large = points(10_000, 20), points(100_000, 20)
    if layout == "one place":
        for made in (small, large):
            made["x"][:] = made["y"][:] = 0.0
    found = neighbours(**large)
    assert len(found.a) > 5_000
    took = medians({"10k": lambda: neighbours(**small), "100k": lambda: neighbours(**large)}, rounds=25)
    print({name: f"{seconds * 1000:.1f} ms" for name, seconds in took.items()})
    name = "neighbours_100k_vs_10k" if layout == "spread" else "neighbours_100k_vs_10k_one_place"
    assert report(name, took["100k"] / took["10k"]) <= 13
