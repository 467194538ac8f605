"""Points repeated as a batch: each row is checked as the point that it is."""

import numpy as np

from benchmarks import job
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.expansion import expand, repeated
from hangpoint.core.hang_point.points import Basis
from hangpoint.core.selection.situations import situations
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.points import pack_points
from hangpoint.product.catalogue import load_catalogue

BASIS = Basis(factored=False, allowable=False)
BRACKET = {"pattern": "row", "count": 3, "spacing": "3 in"}


def packed(items):
    flaws = Flaws()
    made = pack_points(
        items,
        default={},
        index=range(len(items)),
        system="us",
        catalogue=load_catalogue(),
        factored=False,
        flaws=flaws,
    )
    assert not flaws.by_row
    return made.points


def points():
    """Pipes, weights, point loads on runs, and layouts of several anchors among each other."""
    items = job.request(12)["items"]
    items[2]["hangs"] = {"kind": "weight", "weight": "900 lb", "nature": "dead"}
    items[4]["anchor"]["layout"] = BRACKET
    items[4]["base"]["edges"]["x_plus"] = "30 in"
    items[4]["hangs"] = {"kind": "weight", "weight": "2100 lb", "nature": "contents"}
    items[5]["hangs"]["run"]["point_loads"] = [{"at": "2 ft", "weight": "60 lb"}, {"at": "5 ft", "weight": "90 lb"}]
    return packed(items)


def test_repeated_points_are_checked_as_themselves():
    own, rows = points(), np.array([4, 4, 0, 5, 2, 11, 5, 4, 1])
    whole, again = check(own, BASIS), check(expand(own, rows), BASIS)
    assert np.allclose(again.utilisation, whole.utilisation[rows], rtol=1e-13, atol=0)
    assert (again.governing == whole.governing[rows]).all()
    assert (again.refusal == whole.refusal[rows]).all()
    assert (again.failed == whole.failed[rows]).all()
    assert len(set(np.round(whole.utilisation, 6))) > 8


def test_rows_of_a_table_go_with_their_owner():
    rows, owner = repeated(np.array([0, 2, 2, 3]), np.array([2, 1, 3, 2]), count=4)
    assert rows.tolist() == [1, 2, 3, 1, 2]
    assert owner.tolist() == [0, 0, 2, 3, 3]


def test_equal_points_are_one_situation():
    own = points()
    rows = np.array([3, 4, 3, 5, 4, 5, 5, 0])
    first, of = situations(expand(own, rows), np.zeros(len(rows), dtype=np.intp))
    assert first.tolist() == [0, 1, 3, 7]
    assert of.tolist() == [0, 1, 0, 2, 1, 2, 2, 3]
    alone = situations(expand(own, np.array([5, 5])), np.array([0, 1]))
    assert alone[0].tolist() == [0, 1]


def test_a_point_load_tells_situations_apart():
    items = [job.request(1)["items"][0] | {"id": str(at)} for at in range(3)]
    loads = [[], [{"at": "2 ft", "weight": "60 lb"}], [{"at": "2 ft", "weight": "61 lb"}]]
    for item, own in zip(items, loads, strict=True):
        item["hangs"] = {**item["hangs"], "run": {**item["hangs"]["run"], "point_loads": own}}
    _, of = situations(packed(items), np.zeros(3, dtype=np.intp))
    assert of.tolist() == [0, 1, 2]
