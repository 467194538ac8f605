"""Speed of loads on hangers: a batch in one call against a scalar script item by item, ``pytest -m benchmark -s``.

The script is the one that the tests compare with: plain floats and loops, the same answer and the same findings. Making
the columns isn't in the time of either.
"""

import numpy as np
import pytest

from benchmarks.conftest import medians, report
from core.hanger.independent_loads import findings_of, loads_of
from core.hanger.item_columns import NATURES, items_of
from core.hanger.random_items import random_items
from hangpoint.core.hanger.hangers import hanger_loads

pytestmark = pytest.mark.benchmark

EDITION = "asce7_16"


def one_by_one(items):
    """What the script says of every item."""
    answers = [loads_of(item, EDITION) for item in items]
    for item, answer in zip(items, answers, strict=True):
        findings_of(item, answer)
    return answers


def most_off(ours, theirs):
    """Largest difference of columns against the largest of each row, 1 lbf at least."""
    theirs = np.array(theirs).reshape(len(theirs), -1)
    return np.max(np.abs(ours.reshape(theirs.shape) - theirs) / np.maximum(np.abs(theirs).max(axis=1), 1.0)[:, None])


def test_10000_items_against_a_scalar_script() -> None:
    items = random_items(10_000, seed=48)
    columns = items_of(items)
    ours = hanger_loads(columns, load_standard=EDITION)
    theirs = [hanger for answer in one_by_one(items) for hanger in answer["hangers"]]
    off = max(
        most_off(ours.tension, [[hanger["tension"][nature] for nature in NATURES] for hanger in theirs]),
        most_off(ours.shear, [[hanger["shear"][nature] for nature in NATURES] for hanger in theirs]),
        most_off(ours.models, [hanger["models"] for hanger in theirs]),
        *(
            most_off(getattr(getattr(ours, which), column), [hanger[f"{column}_{which}"] for hanger in theirs])
            for which in ("strength", "allowable")
            for column in ("worst", "worst_shear")
        ),
    )
    print(f"{len(theirs)} hangers of {len(items)} items, loads within {off:.1e}")
    assert off < 1e-9
    calls = {"batch": lambda: hanger_loads(columns, load_standard=EDITION), "scalar": lambda: one_by_one(items)}
    took = medians(calls, rounds=3)
    print({name: f"{seconds * 1000:.0f} ms" for name, seconds in took.items()})
    assert report("loads_10000_vs_scalar", took["scalar"] / took["batch"]) >= 30
