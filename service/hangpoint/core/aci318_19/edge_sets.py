"""Sets of anchors along the edges of the member, for side-face blowout and breakout in shear. Units: in, lbf.

For blowout the distances of the anchors of one row may differ by a tenth. In shear a row carries also what nearer rows
bring (reading 12), and an anchor that is sheared away from an edge doesn't count there (reading 13).
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
    row_sets,
    sets_of_rows,
    starts,
    with_others,
)
from hangpoint.core.geometry.grouping import closer
from hangpoint.core.geometry.handed_on import handed_on
from hangpoint.core.quantity import Bools, Floats

ONE_ROW = 0.25
"""in: anchors of which the next is no more farther from an edge, and no more than a tenth of c_a1, are one row in
shear: they are set no better than that (common practice)."""
_TENTH = 0.1
"""Share of c_a1 by which the distances of heads to an edge may differ in a row that blows out (reading 19)."""

TOWARDS, ALONG_ONLY = 0, 1
"""Families of anchors at an edge: those sheared towards it, and all of them by their shear along it only."""


def blowout_sets(anchors: Anchors, *, h_ef: Floats, headed: Bools) -> EdgeSets | None:
    """Rows of headed anchors in tension at each edge with h_ef > 2.5 c_a1 (17.6.4.1), chains by 6 c_a1 (17.6.4.2).

    Args:
        anchors: all of them.
        h_ef, headed: (cases,) in; a head bears.

    Returns:
        The sets, None where there is none.
    """
    deep = (h_ef[anchors.case][:, None] > 2.5 * anchors.c_a) & (headed[anchors.case] & anchors.pulled())[:, None]
    return row_sets(anchors, at=deep, share=_TENTH, spacing=6.0)


def shear_sets(anchors: Anchors, *, either_x: Bools, either_y: Bools, welded: Bools) -> EdgeSets:
    """Rows of anchors that are sheared towards or along each finite edge, chains by 3 c_a1 (17.7.2.1).

    Args:
        anchors: all of them.
        either_x, either_y: (cases,) the shear along that axis may act either way.
        welded: (cases,) the far row takes all of the shear, and is the only one that is judged.
    """
    parts, at = ShearAtEdges.of(anchors, either_x=either_x, either_y=either_y), anchors.case
    towards, along, least = parts.towards, parts.along, parts.least
    within = np.isfinite(anchors.c_a)
    pushed, slid = within & (towards > least), within & (along > least)
    joint = at if anchors.joint is None else anchors.joint[at]
    apart = np.zeros((int(joint.max(initial=0)) + 1, 4), dtype=np.bool_)
    np.logical_or.at(apart, joint, slid & ~pushed)
    slid &= apart[joint]
    (anchor, edge), (other, its_edge) = np.nonzero(pushed), np.nonzero(slid)
    shear = {
        "towards": np.concatenate((towards[anchor, edge], np.zeros(len(other)))),
        "along": np.concatenate((along[anchor, edge], along[other, its_edge])),
    }
    family = np.repeat((TOWARDS, ALONG_ONLY), (len(anchor), len(other)))
    anchor, edge = np.concatenate((anchor, other)), np.concatenate((edge, its_edge))
    if anchors.single:
        return lone_sets(anchors, anchor=anchor, edge=edge, **shear)
    one_row = np.minimum(ONE_ROW, _TENTH * anchors.c_a[anchor, edge])
    entries = entries_at(anchors, anchor=anchor, edge=edge, family=family, one_row=one_row, **shear)
    carried, judged = _carried(entries, welded[at[entries.anchor]])
    entries, judged = with_others(anchors, entries, carried, judged)
    return sets_of_rows(anchors, entries, spacing=3.0, judged=judged)


def _carried(entries: Entries, welded: Bools) -> tuple[Entries, Bools]:
    """The shear that each entry carries with its row, and which entries are judged (reading 12)."""
    if not len(entries.anchor):
        return entries, welded
    row_block, rank = entries.row_block, entries.rank
    count = np.bincount(row_block)
    judged = ~welded | (rank == count[entries.block] - 1)
    first_rows = starts(entries.row)[starts(row_block)]
    next_rows = np.minimum(first_rows + np.bincount(entries.row)[starts(row_block)], len(entries.anchor) - 1)
    gap = entries.c_a1[next_rows] - entries.c_a1[first_rows]
    all_near = (count > 1) & closer(spacing=gap, limit=entries.c_a1[first_rows])
    towards, along = entries.towards.copy(), entries.along.copy()
    for blocks, at in entries.rectangles():
        place, own_rank, all_far = entries.place[at], rank[at], welded[at[:, 0]]
        share = np.zeros((*at.shape, at.shape[1]))
        for row in range(int(own_rank.max()) + 1):
            brought = np.where((row == 0) & ~all_far, all_near[blocks], all_far)[:, None] | (own_rank <= row)
            share += handed_on(place=place, holds=(own_rank == row)[:, :, None] & brought[:, None, :])
        towards[at] = np.einsum("baj,bj->ba", share, entries.towards[at])
        along[at] = np.einsum("baj,bj->ba", share, entries.along[at])
    return replace(entries, towards=towards, along=along), judged
