"""The row of fasteners nearest to each edge, which takes the whole shear there (7.2.2.5(2), reading 25). Units: mm, N.

The shear of farther fasteners is handed on to those of the near row on both sides, by the lever; by the option it takes
its own alone. A fastener that is pushed away from an edge brings only its shear along it, which counts by its
magnitude: none of a farther row cancels that of the near one.
"""

from dataclasses import replace

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.anchor_sets.edge_rows import (
    EdgeSets,
    Entries,
    ShearAtEdges,
    entries_at,
    lone_sets,
    sets_of_rows,
    with_others,
)
from hangpoint.core.geometry.handed_on import handed_on
from hangpoint.core.quantity import Bools

ONE_ROW = 6.0
"""mm: fasteners of which the next is no more farther from an edge, and no more than a tenth of c_1, are one row: they
are set no better than that (common practice)."""
_TENTH = 0.1


def near_rows(anchors: Anchors, *, either_x: Bools, either_y: Bools, own_share: Bools) -> EdgeSets:
    """Near rows at each finite edge with shear towards it or along it, chains by 3 c_1 (reading 24).

    Args:
        anchors: all of them.
        either_x, either_y: (cases,) the shear along that axis may act either way.
        own_share: (cases,) the near row takes its own shear only.
    """
    shear = ShearAtEdges.of(anchors, either_x=either_x, either_y=either_y)
    towards, along = (np.where(part > shear.least, part, 0.0) for part in (shear.towards, shear.along))
    anchor, edge = np.nonzero(np.isfinite(anchors.c_a) & (np.maximum(towards, along) > 0.0))
    towards, along = towards[anchor, edge], along[anchor, edge]
    if anchors.single:
        return lone_sets(anchors, anchor=anchor, edge=edge, towards=towards, along=along)
    one_row = np.minimum(ONE_ROW, _TENTH * anchors.c_a[anchor, edge])
    entries = entries_at(
        anchors, anchor=anchor, edge=edge, family=np.zeros_like(edge), towards=towards, along=along, one_row=one_row
    )
    carried, judged = _carried(entries, own_share[anchors.case[entries.anchor]])
    entries, judged = with_others(anchors, entries, carried, judged)
    return sets_of_rows(anchors, entries, spacing=3.0, judged=judged)


def _carried(entries: Entries, own_share: Bools) -> tuple[Entries, Bools]:
    """All shear on the near row, its own where ``own_share`` (entries,), and which entries are of it."""
    if not len(entries.anchor):
        return entries, np.zeros(0, dtype=np.bool_)
    rank = entries.rank
    towards, along = entries.towards.copy(), entries.along.copy()
    for _, at in entries.rectangles():
        holds = np.broadcast_to((rank[at] == 0)[:, :, None], (*at.shape, at.shape[1]))
        share = handed_on(place=entries.place[at], holds=holds)
        share = np.where(own_share[at][:, :, None], np.eye(at.shape[1]), share)
        towards[at] = np.einsum("baj,bj->ba", share, entries.towards[at])
        along[at] = np.einsum("baj,bj->ba", share, entries.along[at])
    return replace(entries, towards=towards, along=along), rank == 0
