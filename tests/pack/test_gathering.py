"""Points of several blocks as one block: every point keeps what it is."""

import numpy as np
import pytest

from api.bodies import change, item
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.points import Basis
from hangpoint.pack.answer import results
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.gathering import gather_packed
from hangpoint.pack.points import pack_points
from hangpoint.product.catalogue import load_catalogue

CATALOGUE = load_catalogue()
PLATED = {"family": "headed-bolt", "size": "1/2", "h_ef": 4.0, "layout": {"pattern": "row", "count": 2, "spacing": 6.0}}


def pipe(name, **changes):
    return change(item(), {"id": name} | {path.replace("__", "."): value for path, value in changes.items()})


def forces(name, *, cases=None, **changes):
    loads = [{"nature": "dead", "tension": 300.0, "moment_y": 500.0}]
    hangs = {"kind": "forces", "components": loads}
    if cases:
        hangs = {"kind": "forces", "load_cases": [{"name": each, "components": loads} for each in cases]}
    return pipe(name, hangs=hangs, anchor=PLATED, **changes)


def block(items, start, *, factored=False):
    flaws = Flaws()
    made = pack_points(
        items,
        default={},
        index=range(start, start + len(items)),
        system="us",
        catalogue=CATALOGUE,
        factored=factored,
        flaws=flaws,
    )
    assert not flaws.by_row
    return made


def answers(packed, *, factored=False):
    verdicts = check(packed.points, Basis(factored=factored, allowable=False))
    return results(packed, verdicts, system="us", detail="trace")


SERVICE = (
    [pipe("a", hangs__run__spans=[10.0, 12.0]), forces("b"), pipe("c")],
    [
        forces("d"),
        pipe("e", hangs__run__spans=[9.0, 9.0, 9.0, 9.0], hangs__run__point_loads=[{"at": 9.0, "weight": 80.0}]),
        pipe("f", base__member="S9"),
    ],
)
GIVEN = (
    [forces("a", cases=["wind", "snow"]), forces("b")],
    [forces("c"), forces("d", cases=["crane", "wind", "ice"]), forces("e")],
)


@pytest.mark.parametrize(("items", "factored"), [(SERVICE, False), (GIVEN, True)], ids=["by nature", "given"])
def test_every_point_answers_as_in_its_block(items, factored):
    """Results with their traces, byte by byte: runs of other lengths, point loads, named cases and layouts."""
    one, other = block(items[0], 0, factored=factored), block(items[1], 100, factored=factored)
    alone = [answers(each, factored=factored) for each in (one, other)]
    rows = np.array([1]), np.array([0, 1])
    together = answers(gather_packed([(one, rows[0]), (other, rows[1])]), factored=factored)
    assert together == [alone[0][1], alone[1][0], alone[1][1]]


def test_flags_and_labels_come_along():
    one, other = block(SERVICE[0], 0), block(SERVICE[1], 100)
    made = gather_packed([(one, np.array([0, 2])), (other, np.array([2]))])
    assert list(made.index) == [0, 2, 102]
    assert list(made.labels.ids) == ["a", "c", "f"]
    assert made.labels.member[2] == "S9"
    np.testing.assert_array_equal(made.assumptions.words[:, :2], one.assumptions.words[:, [0, 2]])
    np.testing.assert_array_equal(made.not_checked.words[:, 2:], other.not_checked.words[:, [2]])
