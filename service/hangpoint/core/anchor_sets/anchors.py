"""Anchors with their share of the load, and the sets of them that are judged together.

Any one unit of length, any one of force.
"""

from dataclasses import field, replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.footprint import Cuts, Footprint
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
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

LEAST_SHARE = 1e-9
"""Share of the largest load of its case at and below which an anchor isn't loaded (reading 8)."""


@frozen
class Anchors:
    """Anchors of all cases on one flat axis.

    ``case`` (anchors,) is the case of each, in rising order from 0 without gaps; ``number`` its place in the layout of
    its point. ``x``, ``y`` in the face of the base; ``c_a`` (anchors, 4) to each edge, infinite where there is none.
    ``n_ua``, ``n_ua_s`` factored and sustained tension, not negative; ``v_x``, ``v_y`` factored shear. ``case_count``
    is the number of cases, and ``joint`` (cases,) one number for cases whose anchors share the concrete, None where
    none do. ``cuts`` are lines that cut failure surfaces and ``cut_anchor`` the place of each anchor in them.
    """

    case: Index
    number: Index
    x: Floats
    y: Floats
    c_a: Floats
    n_ua: Floats
    n_ua_s: Floats
    v_x: Floats
    v_y: Floats
    case_count: int
    joint: Index | None = None
    cuts: Cuts | None = None
    cut_anchor: Index | None = None
    v: Floats = field(init=False)
    single: bool = field(init=False)
    """Every case has one anchor, and neither shares its concrete nor has its surface cut."""
    count: Index = field(init=False)
    """(cases,) anchors of each."""

    def __post_init__(self) -> None:
        single = len(self.case) == self.case_count and self.joint is None and self.cuts is None
        count = np.ones(self.case_count, np.intp) if single else np.bincount(self.case, minlength=self.case_count)
        object.__setattr__(self, "v", np.sqrt(self.v_x**2 + self.v_y**2))
        object.__setattr__(self, "count", count)
        object.__setattr__(self, "single", single)

    def take(self, cases: Index) -> "Anchors":
        """The anchors of some cases, rising, as cases of their own."""
        place = np.full(self.case_count, -1, dtype=np.intp)
        place[cases] = np.arange(len(cases))
        own = place[self.case]
        at = np.flatnonzero(own >= 0)
        return Anchors(
            case=own[at],
            number=self.number[at],
            x=self.x[at],
            y=self.y[at],
            c_a=self.c_a[at],
            n_ua=self.n_ua[at],
            n_ua_s=self.n_ua_s[at],
            v_x=self.v_x[at],
            v_y=self.v_y[at],
            case_count=len(cases),
            joint=None if self.joint is None else self.joint[cases],
            cuts=self.cuts,
            cut_anchor=None if self.cut_anchor is None else self.cut_anchor[at],
        )

    def scaled(self, *, length: float, force: float) -> "Anchors":
        """The same anchors in other units: so many of the new ones are one of the old."""
        cuts = self.cuts
        return replace(
            self,
            x=self.x * length,
            y=self.y * length,
            c_a=self.c_a * length,
            n_ua=self.n_ua * force,
            n_ua_s=self.n_ua_s * force,
            v_x=self.v_x * force,
            v_y=self.v_y * force,
            cuts=None if cuts is None else replace(cuts, distance=cuts.distance * length),
        )

    def pulled(self) -> Bools:
        """Which anchors count in tension; one that shares its concrete with no other counts also without any."""
        if self.single:
            return np.ones(len(self.case), dtype=np.bool_)
        alone = self.count == 1
        if self.joint is not None:
            alone &= (np.bincount(self.joint) == 1)[self.joint]
        return self._loaded(self.n_ua) | alone[self.case]

    def sheared(self) -> Bools:
        """Which anchors are sheared."""
        return self._loaded(self.v)

    def total(self, values: Floats) -> Floats:
        """Sum over the anchors of each case, (anchors,) to (cases,)."""
        if self.single:
            return values
        return np.bincount(self.case, weights=values, minlength=self.case_count).astype(np.float64, copy=False)

    def lead(self, values: Floats) -> Index:
        """The first anchor of each case with the largest value, (cases,)."""
        if self.single:
            return self.case
        starts = np.cumsum(self.count) - self.count
        peak = np.maximum.reduceat(values, starts)
        place = np.where(values == peak[self.case], np.arange(len(values)), len(values))
        return np.minimum.reduceat(place, starts)

    def _loaded(self, load: Floats) -> Bools:
        if self.single:
            return load > 0.0
        largest = np.zeros(self.case_count)
        np.maximum.at(largest, self.case, load)
        return load > LEAST_SHARE * largest[self.case]


@frozen
class Sets:
    """Sets of anchors that one mode judges, a row for each set and each case that it holds anchors of.

    ``case`` (rows,) in rising order; ``footprint`` of the same rows. ``membership`` is None where every row is the
    anchor ``anchor`` (rows,) alone.
    """

    case: Index
    anchor: Index
    footprint: Footprint
    membership: Membership | None
    anchor_count: Floats
    largest_spacing: Floats

    def total(self, values: Floats) -> Floats:
        """Sum over the anchors of each set, (anchors,) to (rows,)."""
        return values[self.anchor] if self.membership is None else self.membership.total(values)

    def least(self, values: Floats) -> Floats:
        """Least of the anchors of each set, (anchors,) to (rows,)."""
        return values[self.anchor] if self.membership is None else self.membership.least(values)

    def largest(self, values: Floats) -> Floats:
        """Largest of the anchors of each set, (anchors,) to (rows,)."""
        return values[self.anchor] if self.membership is None else self.membership.largest(values)

    def take(self, rows: Index) -> "Sets":
        """Some of the sets, rising."""
        footprint = self.footprint.take(rows)
        membership = footprint.membership
        return Sets(
            case=self.case[rows],
            anchor=self.anchor[rows] if membership is None else membership.member_anchor,
            footprint=footprint,
            membership=membership,
            anchor_count=self.anchor_count[rows],
            largest_spacing=self.largest_spacing[rows],
        )


def judged_sets(anchors: Anchors, *, limit: Floats, counts: Bools, load: Floats, bounding: Bools) -> Sets:
    """The sets of a mode: connected chains, every anchor alone and each with its direct neighbours (reading 6).

    Of several points every two near anchors as well, and chains of the points that are loaded most: those that are
    hardly loaded would hold the others.

    Args:
        anchors: all of them.
        limit: (anchors,) spacing below which an anchor acts together with one of the same limit.
        counts: (anchors,) whether the anchor is loaded in the mode.
        load: (anchors,) in the mode.
        bounding: (cases,) of `Footprint`.
    """
    if anchors.single:
        return _singles(anchors, np.flatnonzero(counts), bounding)
    case = anchors.case
    own = case if anchors.joint is None else anchors.joint[case]
    order = np.argsort(own, kind="stable")
    x, y, own, acts = anchors.x[order], anchors.y[order], own[order], counts[order]
    a, b = near_pairs(x=x, y=y, case_of_anchor=own, limit=limit[order], counts=acts)
    chains = chains_of_pairs(x=x, y=y, case_of_anchor=own, counts=acts, a=a, b=b)
    parts: list[Membership] = [chains]
    within = case[order[a]] == case[order[b]]
    if some(within) and not within.all():
        parts.append(chains_of_pairs(x=x, y=y, case_of_anchor=own, counts=acts, a=a[within], b=b[within]))
    parts.append(anchors_alone(case_of_anchor=own, counts=acts))
    if some(chains.anchor_count > 2):
        parts.append(neighbourhoods_of_pairs(x=x, y=y, case_of_anchor=own, counts=acts, a=a, b=b))
        if not within.all():
            load, plate = load[order], case[order]
            parts += loaded_chains(x=x, y=y, case_of_anchor=own, plate=plate, load=load, a=a, b=b, chains=chains)
            a, b = a[~within], b[~within]
            parts.append(twos_of_pairs(x=x, y=y, case_of_anchor=own, limit=limit[order], load=load, a=a, b=b))
    sets = joined(parts).renumbered(order)
    if anchors.joint is None:
        return _set_rows(anchors, sets, bounding)
    whole, of_cases = sets.by_case(case)
    return _set_rows(anchors, of_cases, bounding, alike=whole)


def _set_rows(anchors: Anchors, membership: Membership, bounding: Bools, *, alike: Index | None = None) -> Sets:
    case, anchor_c_a = membership.case_of_group, anchors.c_a
    return Sets(
        case=case,
        anchor=membership.member_anchor,
        footprint=Footprint(
            c_a=membership.least(anchor_c_a),
            membership=membership,
            x=anchors.x,
            y=anchors.y,
            anchor_c_a=anchor_c_a,
            bounding=bounding[case],
            cuts=anchors.cuts,
            cut_anchor=anchors.cut_anchor,
            alike=alike,
        ),
        membership=membership,
        anchor_count=membership.anchor_count,
        largest_spacing=membership.largest_spacing,
    )


def _singles(anchors: Anchors, rows: Index, bounding: Bools) -> Sets:
    anchor_c_a = anchors.c_a
    c_a = anchor_c_a if len(rows) == len(anchors.case) else anchor_c_a[rows]
    return Sets(
        case=rows,
        anchor=rows,
        footprint=Footprint(
            c_a=c_a, membership=None, x=anchors.x, y=anchors.y, anchor_c_a=anchor_c_a, bounding=bounding[rows]
        ),
        membership=None,
        anchor_count=np.ones(len(rows)),
        largest_spacing=np.zeros(len(rows)),
    )
