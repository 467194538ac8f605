"""Where the anchors of a set stand on the face of the member, for failure surfaces to spread around them."""

from dataclasses import replace
from typing import Self

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.cut_area import cut_area
from hangpoint.core.geometry.grouping import Membership
from hangpoint.core.geometry.projected_area import projected_area
from hangpoint.core.geometry.union_area import union_area
from hangpoint.core.quantity import Bools, Floats, Index


@frozen
class Cuts:
    """Lines that cut the failure surfaces of anchors, in rising order of the anchor.

    An anchor keeps the points p, from itself, with p . (normal_x, normal_y) <= distance. ``first`` (anchors,) is its
    first line and ``size`` (anchors,) how many it has.
    """

    normal_x: Floats
    normal_y: Floats
    distance: Floats
    first: Index
    size: Index

    @classmethod
    def of(cls, *, count: int, anchor: Index, normal_x: Floats, normal_y: Floats, distance: Floats) -> Self:
        """Lines of so many anchors, ``anchor`` (lines,) in rising order."""
        size = np.bincount(anchor, minlength=count)
        return cls(normal_x=normal_x, normal_y=normal_y, distance=distance, first=np.cumsum(size) - size, size=size)

    def lines(self, anchor: Index) -> tuple[Index, Index]:
        """The lines of some anchors: the place in ``anchor`` of each, and the line."""
        size = self.size[anchor]
        row = np.repeat(np.arange(len(anchor)), size)
        return row, self.first[anchor][row] + np.arange(len(row)) - (np.cumsum(size) - size)[row]


@frozen
class Footprint:
    """Sets of anchors with their distances. Any consistent unit of length.

    ``c_a`` (sets, 4) is the least distance of the anchors of each set to each edge, infinite where there is none.
    ``membership`` lists the anchors of the sets and ``x``, ``y``, ``anchor_c_a`` are theirs, (anchors, ...); it is None
    where every set is one anchor. ``bounding`` (sets,) takes the rectangle around the squares of a set (reading 8).
    ``cuts`` are the lines that cut the surfaces, and ``cut_anchor`` (anchors,) is the place of each anchor in them.
    ``alike`` (sets,) is one number for sets of the same anchors, None where no two are.
    """

    c_a: Floats
    membership: Membership | None
    x: Floats
    y: Floats
    anchor_c_a: Floats
    bounding: Bools
    cuts: Cuts | None = None
    cut_anchor: Index | None = None
    alike: Index | None = None

    def take(self, sets: Index) -> "Footprint":
        """Some of the sets."""
        return replace(
            self,
            c_a=self.c_a[sets],
            membership=None if self.membership is None else self.membership.take(sets),
            bounding=self.bounding[sets],
            alike=None if self.alike is None else self.alike[sets],
        )

    def area(self, reach: Floats) -> Floats:
        """Area of the failure surface that reaches so far out from every anchor of each set, (sets,).

        What is cut from the square of each anchor is taken from the union, as if no two pieces overlapped; what is left
        of the largest square stays.
        """
        if self.membership is None:
            return projected_area(reach=reach, c_a=self.c_a)
        if self.alike is None:
            return self._united(self.membership, reach, self.bounding)
        _, first, place = np.unique(self.alike, return_index=True, return_inverse=True)
        lead, own = first[place], np.arange(len(reach))
        lead = np.where((reach == reach[lead]) & (self.bounding == self.bounding[lead]), lead, own)
        sets = np.flatnonzero(lead == own)
        found = np.zeros(len(reach))
        found[sets] = self._united(self.membership.take(sets), reach[sets], self.bounding[sets])
        return found[lead]

    def _united(self, membership: Membership, reach: Floats, bounding: Bools) -> Floats:
        member, group = membership.member_anchor, membership.member_group
        whole = union_area(
            x=self.x[member],
            y=self.y[member],
            member_group=group,
            reach=reach,
            c_a=self.anchor_c_a[member],
            bounding=bounding,
        )
        if self.cuts is None or self.cut_anchor is None:
            return whole
        row, line = self.cuts.lines(self.cut_anchor[member])
        left = cut_area(
            reach=reach[group],
            c_a=self.anchor_c_a[member],
            cut_row=row,
            normal_x=self.cuts.normal_x[line],
            normal_y=self.cuts.normal_y[line],
            distance=self.cuts.distance[line],
        )
        lost = projected_area(reach=reach[group], c_a=self.anchor_c_a[member]) - left
        largest = np.zeros(len(reach))
        np.maximum.at(largest, group, left)
        return np.maximum(whole - np.bincount(group, weights=lost, minlength=len(reach)), largest)
