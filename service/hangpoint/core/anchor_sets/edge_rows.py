"""Sets of anchors along the edges of the member. Any one unit of length, any one of force.

Anchors at one distance from an edge are a row along it. Within a row connected chains act together, and every anchor
alone and with its direct neighbours is judged as well (reading 6).
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Self

import numpy as np

from hangpoint.core.anchor_sets.anchors import LEAST_SHARE, Anchors
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.buckets import buckets
from hangpoint.core.geometry.grouping import (
    Membership,
    anchors_alone,
    chains_of_pairs,
    joined,
    loaded_chains,
    near_pairs,
    neighbourhoods_of_pairs,
    twos_of_pairs,
)
from hangpoint.core.geometry.handed_on import handed_on
from hangpoint.core.quantity import Bools, Floats, Index

ACROSS = np.array([[2, 3], [2, 3], [0, 1], [0, 1]])
"""The two edges that meet each edge at a corner."""


@frozen
class EdgeSets:
    """Sets along the edges, a row for each set and each case that it holds anchors of, cases in rising order.

    ``membership`` lists anchors of the flat axis, and its ``largest_spacing`` is the largest gap between neighbours.
    ``extent`` is the distance of the outer anchors. ``towards``, ``along`` and ``eccentricity`` are of the shear, zeros
    for blowout.
    """

    case: Index
    edge: Index
    membership: Membership
    c_a1: Floats
    c_a2: Floats
    extent: Floats
    towards: Floats
    along: Floats
    eccentricity: Floats


@frozen
class Entries:
    """Anchors at an edge: (entries,) in order of their concrete, edge, family and distance from the edge.

    ``block`` numbers concrete, edge and family, ``row`` the rows of all blocks, both rising; anchors are of one row up
    to ``one_row`` farther from the edge than the one before.
    """

    anchor: Index
    edge: Index
    family: Index
    block: Index
    row: Index
    c_a1: Floats
    place: Floats
    towards: Floats
    along: Floats
    one_row: Floats

    @classmethod
    def of(
        cls,
        *,
        concrete: Index,
        anchor: Index,
        edge: Index,
        family: Index,
        c_a1: Floats,
        place: Floats,
        towards: Floats,
        along: Floats,
        one_row: Floats,
    ) -> Self:
        """Put entries in order; ``concrete`` (entries,) is one number for those that share it."""
        order = np.lexsort((anchor, c_a1, family, edge, concrete))
        edge, family, concrete = edge[order], family[order], concrete[order]
        c_a1, one_row = c_a1[order], one_row[order]
        another = _changes(concrete) | _changes(edge) | _changes(family)
        farther = another | (np.diff(c_a1, prepend=c_a1[:1]) > one_row)
        return cls(
            anchor=anchor[order],
            edge=edge,
            family=family,
            block=np.cumsum(another) - 1,
            row=np.cumsum(farther) - 1,
            c_a1=c_a1,
            place=place[order],
            towards=towards[order],
            along=along[order],
            one_row=one_row,
        )

    def over(self, concrete: Index) -> tuple[Index, Self]:
        """The same entries by another concrete, and the place here of each."""
        order = np.lexsort((self.anchor, self.c_a1, self.family, self.edge, concrete))
        return order, self.of(
            concrete=concrete,
            anchor=self.anchor,
            edge=self.edge,
            family=self.family,
            c_a1=self.c_a1,
            place=self.place,
            towards=self.towards,
            along=self.along,
            one_row=self.one_row,
        )

    @property
    def row_block(self) -> Index:
        """Block of each row."""
        return self.block[starts(self.row)]

    @property
    def rank(self) -> Index:
        """Number of the row of each entry in its block, 0 the nearest to the edge."""
        row_block = self.row_block
        return (np.arange(len(row_block)) - starts(row_block)[row_block])[self.row]

    def rectangles(self) -> Iterator[tuple[Index, Index]]:
        """Blocks of several rows, with the entries of each, (blocks, entries)."""
        several = np.flatnonzero(np.bincount(self.row_block) > 1)
        first, size = starts(self.block), np.bincount(self.block)
        for width, which in buckets(size[several], cells=lambda n: n * n):
            blocks = several[which]
            yield blocks, first[blocks, None] + np.arange(width)


@frozen
class ShearAtEdges:
    """Shear of every anchor at every edge, (anchors, 4): ``towards`` it, negative away from it, and ``along`` it.

    Parts of no more than ``least`` (anchors, 1) are none.
    """

    towards: Floats
    along: Floats
    least: Floats

    @classmethod
    def of(cls, anchors: Anchors, *, either_x: Bools, either_y: Bools) -> Self:
        """That of all anchors; along an axis with ``either`` (cases,) the shear may act either way."""
        v_x, v_y, at = anchors.v_x, anchors.v_y, anchors.case
        signed = np.stack((-v_x, v_x, -v_y, v_y), axis=1)
        either = np.stack((either_x, either_x, either_y, either_y), axis=1)[at]
        largest = np.zeros(anchors.case_count)
        np.maximum.at(largest, at, anchors.v)
        return cls(
            towards=np.where(either, np.abs(signed), signed),
            along=np.abs(np.stack((v_y, v_y, v_x, v_x), axis=1)),
            least=(LEAST_SHARE * largest)[at][:, None],
        )


def lone_sets(anchors: Anchors, *, anchor: Index, edge: Index, towards: Floats, along: Floats) -> EdgeSets:
    """Every anchor at every edge by itself."""
    order = np.lexsort((edge, anchor))
    anchor, edge = anchor[order], edge[order]
    none = np.zeros(len(anchor))
    alone = anchors_alone(case_of_anchor=anchor)
    return EdgeSets(
        case=anchor,
        edge=edge,
        membership=replace(alone, member_anchor=anchor),
        c_a1=anchors.c_a[anchor, edge],
        c_a2=anchors.c_a[anchor[:, None], ACROSS[edge]],
        extent=none,
        towards=towards[order],
        along=along[order],
        eccentricity=none,
    )


def entries_at(
    anchors: Anchors, *, anchor: Index, edge: Index, family: Index, towards: Floats, along: Floats, one_row: Floats
) -> Entries:
    """Anchors at edges in order, each case a concrete of its own.

    Args:
        anchors: all of them.
        anchor, edge, family: (entries,) which anchor at which edge, and of which family there.
        towards, along: (entries,) its shear towards the edge and along it.
        one_row: (entries,) by how much farther from the edge the next anchor of its row may be.
    """
    return Entries.of(
        concrete=anchors.case[anchor],
        anchor=anchor,
        edge=edge,
        family=family,
        c_a1=anchors.c_a[anchor, edge],
        place=np.where(edge < 2, anchors.y[anchor], anchors.x[anchor]),
        towards=towards,
        along=along,
        one_row=one_row,
    )


def row_sets(anchors: Anchors, *, at: Bools, share: float, spacing: float) -> EdgeSets | None:
    """Rows of the anchors that count at each edge, without any shear.

    Args:
        anchors: all of them.
        at: (anchors, 4) which anchor counts at which edge.
        share: by which part of the distance to the edge the anchors of one row may differ.
        spacing: below which times that distance anchors of a row act together.

    Returns:
        The sets, None where there is none.
    """
    anchor, edge = np.nonzero(at)
    if not len(anchor):
        return None
    none = np.zeros(len(anchor))
    if anchors.single:
        return lone_sets(anchors, anchor=anchor, edge=edge, towards=none, along=none)
    one_row = share * anchors.c_a[anchor, edge]
    entries = entries_at(
        anchors, anchor=anchor, edge=edge, family=np.zeros_like(edge), towards=none, along=none, one_row=one_row
    )
    if anchors.joint is not None:
        entries = entries.over(anchors.joint[anchors.case[entries.anchor]])[1]
    return sets_of_rows(anchors, entries, spacing=spacing)


def with_others(anchors: Anchors, entries: Entries, carried: Entries, judged: Bools) -> tuple[Entries, Bools]:
    """Rows over all cases that share concrete: an entry carries also what anchors of others bring from nearer rows.

    No plate joins them. So only what stands within the failure surface of the entry counts: nearer to the edge, within
    3 c_a1 along it, and as it is loaded itself.
    """
    if anchors.joint is None or not len(entries.anchor):
        return carried, judged
    case = anchors.case[entries.anchor]
    order, together = carried.over(anchors.joint[case])
    case, judged = case[order], judged[order]
    brought = entries.towards[order], entries.along[order]
    towards, along, rank = together.towards.copy(), together.along.copy(), together.rank
    for _, at in together.rectangles():
        place, own_rank, own_case = together.place[at], rank[at], case[at]
        within = np.abs(place[:, :, None] - place[:, None, :]) < 3 * together.c_a1[at][:, :, None]
        nearer = own_rank[:, None, :] < own_rank[:, :, None]
        holds = within & nearer & (own_case[:, :, None] != own_case[:, None, :])
        for row in range(int(own_rank.max()) + 1):
            share = handed_on(place=place, holds=holds & (own_rank == row)[:, :, None])
            towards[at] += np.einsum("baj,bj->ba", share, brought[0][at])
            along[at] += np.einsum("baj,bj->ba", share, brought[1][at])
    return replace(together, towards=towards, along=along), judged


def sets_of_rows(anchors: Anchors, entries: Entries, *, spacing: float, judged: Bools | None = None) -> EdgeSets:
    """The sets of the rows, of entries that are ``judged``; chains by ``spacing`` c_a1 of the nearest of the row."""
    acts = np.ones(len(entries.anchor), dtype=np.bool_) if judged is None else judged
    nearest = entries.c_a1[starts(entries.row)][entries.row]
    found = _judged(entries, acts, spacing * nearest, anchors.case[entries.anchor])
    member = found.member_anchor
    place = entries.place[member]
    towards, along = found.total(entries.towards), found.total(entries.along)
    weight = np.where((towards > 0)[found.member_group], entries.towards[member], entries.along[member])
    own = _totals(found, weight)
    centre = _totals(found, place) / found.anchor_count
    pulled_to = _totals(found, weight * place) / np.where(own > 0, own, 1.0)
    first = member[starts(found.member_group)]
    rising = entries.anchor[member]
    rising = rising[np.lexsort((rising, found.member_group))]
    edge = entries.edge[first]
    return _by_case(
        anchors,
        EdgeSets(
            case=anchors.case[entries.anchor[first]],
            edge=edge,
            membership=Membership(
                member_anchor=rising,
                member_group=found.member_group,
                case_of_group=anchors.case[entries.anchor[first]],
                anchor_count=found.anchor_count,
                largest_spacing=found.largest_spacing,
            ),
            c_a1=found.least(entries.c_a1),
            c_a2=found.least(anchors.c_a[entries.anchor[:, None], ACROSS[entries.edge]]),
            extent=found.largest(entries.place) - found.least(entries.place),
            towards=towards,
            along=along,
            eccentricity=np.where(own > 0, np.abs(pulled_to - centre), 0.0),
        ),
    )


def _judged(entries: Entries, acts: Bools, limit: Floats, case: Index) -> Membership:
    """Chains, those of one case, anchors alone, with direct neighbours, and what light ones would hold, in each row."""
    level = np.zeros(len(entries.anchor))
    a, b = near_pairs(x=entries.place, y=level, case_of_anchor=entries.row, limit=limit, counts=acts)
    chains = chains_of_pairs(x=entries.place, y=level, case_of_anchor=entries.row, counts=acts, a=a, b=b)
    around = neighbourhoods_of_pairs(x=entries.place, y=level, case_of_anchor=entries.row, counts=acts, a=a, b=b)
    own = case[a] == case[b]
    of_case = chains_of_pairs(x=entries.place, y=level, case_of_anchor=entries.row, counts=acts, a=a[own], b=b[own])
    alone = anchors_alone(case_of_anchor=entries.row, counts=acts)
    if own.all():
        return joined([chains, of_case, alone, around])
    x, row, load = entries.place, entries.row, entries.towards + entries.along
    most = loaded_chains(x=x, y=level, case_of_anchor=row, plate=case, load=load, a=a, b=b, chains=chains)
    twos = twos_of_pairs(x=x, y=level, case_of_anchor=row, limit=limit, load=load, a=a[~own], b=b[~own])
    return joined([chains, of_case, alone, around, *most, twos])


def _by_case(anchors: Anchors, sets: EdgeSets) -> EdgeSets:
    """A set that holds anchors of several cases is a row of each."""
    if anchors.joint is None:
        return sets
    of, membership = sets.membership.by_case(anchors.case)
    return EdgeSets(
        case=membership.case_of_group,
        edge=sets.edge[of],
        membership=membership,
        c_a1=sets.c_a1[of],
        c_a2=sets.c_a2[of],
        extent=sets.extent[of],
        towards=sets.towards[of],
        along=sets.along[of],
        eccentricity=sets.eccentricity[of],
    )


def _totals(sets: Membership, weights: Floats) -> Floats:
    """Sum of a column of the members of each set, (members,) to (sets,)."""
    return np.bincount(sets.member_group, weights=weights, minlength=len(sets.case_of_group)).astype(np.float64)


def _changes(rising: Index) -> Bools:
    """Where a column differs from the row before; the first row does."""
    return np.diff(rising, prepend=rising[:1] - 1) != 0


def starts(rising: Index) -> Index:
    """The first place of each value of a column in rising order."""
    return np.flatnonzero(_changes(rising))
