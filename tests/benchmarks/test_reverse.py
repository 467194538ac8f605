"""Speed of a sweep: 200 probes of one item in one batch against 200 single checks, ``pytest -m benchmark -s``."""

import numpy as np
import pytest

from api.reverse_bodies import BOLT, PIPE
from benchmarks.conftest import medians, report
from hangpoint.api.reverse.changes import put, with_spans
from hangpoint.api.reverse.probes import Situation, probe
from hangpoint.product.catalogue import load_catalogue

pytestmark = pytest.mark.benchmark

SITUATION = Situation(
    units="us", design_code=None, combinations=None, load_standard=None, catalogue=load_catalogue(None)
)
LIMIT_MS = 100


@pytest.mark.parametrize("what", ["edge of a bolt", "spans of a pipe"])
def test_200_probes(what):
    values = np.linspace(2.0, 30.0, 200).tolist()
    if what == "edge of a bolt":
        items = [put(BOLT, ("base", "edges", "x_plus"), value) for value in values]
    else:
        items = [with_spans(PIPE, [value] * 3, "us") for value in values]
    calls = {
        "sweep": lambda: probe(items, SITUATION),
        "singles": lambda: [probe([item], SITUATION) for item in items],
    }
    took = medians(calls, rounds=5)
    print(f"{what}: 200 probes in {took['sweep'] * 1000:.1f} ms, one by one {took['singles'] * 1000:.0f} ms")
    together, alone = calls["sweep"](), calls["singles"]()
    assert together.passed.tolist() == [bool(each.passed[0]) for each in alone]
    assert together.utilisation == pytest.approx([each.utilisation[0] for each in alone], rel=1e-12)
    assert report("reverse_200_vs_singles", took["singles"] / took["sweep"]) > 10
    assert took["sweep"] * 1000 < LIMIT_MS
