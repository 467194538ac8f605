"""Which anchors act together in a failure mode (ACI 318-19 Table 17.5.1.3.1; readings 6, 7, 10). One unit of length.

A group is a connected chain of anchors, each closer to the next than the limit of the mode: 3 h_ef, 2 c_Na, 3 c_a1 or
6 c_a1, of the actual h_ef and c_a1. A chain can pass while a part of it can't, so that every anchor alone and every
anchor with its direct neighbours are judged as well. Where no plate joins them, light ones would hold heavy ones: every
two near anchors, and the parts of a chain that are loaded most, are judged too. `joined` makes one list of them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.buckets import buckets
from hangpoint.core.geometry.connected import connected
from hangpoint.core.quantity import Bools, Floats, Index

_ROUNDING = 1e-9
"""A spacing this near to its limit, as a share of it, equals it."""

MOST_TWOS = 8
"""Pairs of one anchor that are judged by themselves at most: a chain of 64 has 2,016."""


SHARES = (1 / 2, 1 / 4, 1 / 8)
"""Of the largest load in a chain: those that have as much are judged without the others."""


@frozen
class Membership:
    """Sets of anchors as a list of members; an anchor may be in several sets.

    ``member_anchor`` and ``member_group`` (members,) are the place of a member on the flat axis of anchors and its
    group, in rising order of the group, then of the anchor. ``case_of_group`` (groups,) in rising order,
    ``anchor_count`` (groups,), at least 1, and ``largest_spacing`` (groups,), the largest spacing of neighbouring
    rows of the group along an axis, 0 for one anchor.
    """

    member_anchor: Index
    member_group: Index
    case_of_group: Index
    anchor_count: Floats
    largest_spacing: Floats

    def total(self, values: Floats) -> Floats:
        """Sum over the members of each group of a column of the anchors, (anchors,) to (groups,)."""
        weights, count = values[self.member_anchor], len(self.case_of_group)
        return np.bincount(self.member_group, weights=weights, minlength=count).astype(np.float64, copy=False)

    def least(self, values: Floats) -> Floats:
        """Least over the members of each group, (anchors, ...) to (groups, ...)."""
        if not len(self.case_of_group):
            return values[:0]
        return np.minimum.reduceat(values[self.member_anchor], _starts(self.member_group), axis=0)

    def largest(self, values: Floats) -> Floats:
        """Largest over the members of each group, (anchors, ...) to (groups, ...)."""
        if not len(self.case_of_group):
            return values[:0]
        return np.maximum.reduceat(values[self.member_anchor], _starts(self.member_group), axis=0)

    def places(self) -> Index:
        """Place of each group among those of its case, (groups,)."""
        starts = _starts(self.case_of_group)
        size = np.diff(np.append(starts, len(self.case_of_group)))
        return np.arange(len(self.case_of_group)) - np.repeat(starts, size)

    def renumbered(self, anchor: Index) -> "Membership":
        """The same groups with ``anchor`` (anchors,) in place of the numbers of the anchors."""
        return replace(self, member_anchor=anchor[self.member_anchor])

    def by_case(self, case: Index) -> tuple[Index, "Membership"]:
        """Groups that hold anchors of several cases, once for each of them, in rising order of the case.

        Args:
            case: (anchors,) case of each anchor.

        Returns:
            The group that each of the new ones is, and the new ones.
        """
        count = max(1, len(self.case_of_group))
        cases, groups = np.divmod(np.unique(case[self.member_anchor] * count + self.member_group), count)
        return groups, replace(self.take(groups), case_of_group=cases)

    def take(self, groups: Index) -> "Membership":
        """Some of the groups, in the order given, which keeps the cases rising."""
        size = self.anchor_count.astype(np.intp)
        starts, length = np.cumsum(size) - size, size[groups]
        within = np.arange(int(length.sum())) - np.repeat(np.cumsum(length) - length, length)
        return Membership(
            member_anchor=self.member_anchor[np.repeat(starts[groups], length) + within],
            member_group=np.repeat(np.arange(len(groups)), length),
            case_of_group=self.case_of_group[groups],
            anchor_count=self.anchor_count[groups],
            largest_spacing=self.largest_spacing[groups],
        )

    @classmethod
    def of_both(cls, first: "Membership", second: "Membership", order: Index) -> "Membership":
        """The groups of two lists over the same anchors as one, then in the order given."""
        both = cls(
            member_anchor=np.concatenate((first.member_anchor, second.member_anchor)),
            member_group=np.concatenate((first.member_group, second.member_group + len(first.case_of_group))),
            case_of_group=np.concatenate((first.case_of_group, second.case_of_group)),
            anchor_count=np.concatenate((first.anchor_count, second.anchor_count)),
            largest_spacing=np.concatenate((first.largest_spacing, second.largest_spacing)),
        )
        return both.take(order)

    def members(self, group: int) -> Index:
        """Anchors of one group."""
        first, last = np.searchsorted(self.member_group, [group, group + 1])
        return self.member_anchor[first:last]


@frozen
class Grouping(Membership):
    """Groups that share no anchor; ``group_of_anchor`` (anchors,) is -1 where an anchor doesn't count."""

    group_of_anchor: Index


def closer(*, spacing: Floats, limit: Floats) -> Bools:
    """Whether a spacing is strictly below its limit; one that differs by rounding alone equals it."""
    return spacing < limit * (1 - _ROUNDING)


def anchors_alone(*, case_of_anchor: Index, counts: Bools | None = None) -> Grouping:
    """Every anchor is a group of one (ACI 318-19 Table 17.5.1.3.1 with no second anchor within its limit).

    Args:
        case_of_anchor: (anchors,) in rising order.
        counts: (anchors,) whether the anchor is loaded in the mode; all of them if left out.
    """
    count = len(case_of_anchor)
    group_of_anchor = member_anchor = np.arange(count)
    if counts is not None:
        member_anchor = np.flatnonzero(counts)
        group_of_anchor = np.where(counts, np.cumsum(counts) - 1, -1)
    return Grouping(
        member_anchor=member_anchor,
        member_group=np.arange(len(member_anchor)),
        case_of_group=case_of_anchor[member_anchor],
        anchor_count=np.ones(len(member_anchor)),
        largest_spacing=np.zeros(len(member_anchor)),
        group_of_anchor=group_of_anchor,
    )


def near_pairs(*, x: Floats, y: Floats, case_of_anchor: Index, limit: Floats, counts: Bools) -> tuple[Index, Index]:
    """Pairs of anchors of one case that count and are strictly closer than the mean of their limits.

    Args:
        x, y: (anchors,) coordinates; where only the spacing in one direction counts, 0 in the other.
        case_of_anchor: (anchors,) in rising order.
        limit: (anchors,) of the spacing to an anchor with the same limit.
        counts: (anchors,) whether the anchor is loaded in the mode; one that isn't links nothing.

    Returns:
        (pairs,) the lower and the higher anchor, in rising order.
    """
    loaded = np.flatnonzero(counts)
    starts = _starts(case_of_anchor[loaded])
    size = np.diff(np.append(starts, len(loaded)))
    lower, higher = [starts[:0]], [starts[:0]]
    for count, rows in buckets(size, cells=lambda n: n * (n - 1) // 2):
        first, second = np.triu_indices(count, 1)
        a = loaded[(starts[rows, None] + first).ravel()]
        b = loaded[(starts[rows, None] + second).ravel()]
        near = closer(spacing=np.hypot(x[a] - x[b], y[a] - y[b]), limit=(limit[a] + limit[b]) / 2)
        lower.append(a[near])
        higher.append(b[near])
    a, b = np.concatenate(lower), np.concatenate(higher)
    order = np.lexsort((b, a))
    return a[order], b[order]


def chains_of_pairs(*, x: Floats, y: Floats, case_of_anchor: Index, counts: Bools, a: Index, b: Index) -> Grouping:
    """Connected chains by given pairs (a, b) of anchors that count; other arguments as in `near_pairs`."""
    label = connected(count=len(x), a=a, b=b)
    loaded = np.flatnonzero(counts)
    lowest, group = np.unique(label[loaded], return_inverse=True)
    group_of_anchor = np.full(len(x), -1)
    group_of_anchor[loaded] = group
    order = np.argsort(group, kind="stable")
    member_anchor, member_group = loaded[order], group[order]
    return Grouping(
        member_anchor=member_anchor,
        member_group=member_group,
        case_of_group=case_of_anchor[lowest],
        anchor_count=np.bincount(member_group, minlength=len(lowest)).astype(np.float64),
        largest_spacing=_largest_spacing(x[member_anchor], y[member_anchor], member_group),
        group_of_anchor=group_of_anchor,
    )


def neighbourhoods_of_pairs(
    *, x: Floats, y: Floats, case_of_anchor: Index, counts: Bools, a: Index, b: Index
) -> Membership:
    """Every anchor that counts with its partners in given pairs (a, b), each pair once; others as there."""
    centre = np.flatnonzero(counts)
    of, anchor = np.concatenate((centre, a, b)), np.concatenate((centre, b, a))
    order = np.lexsort((anchor, of))
    member_anchor, member_group = anchor[order], np.searchsorted(centre, of[order])
    return Membership(
        member_anchor=member_anchor,
        member_group=member_group,
        case_of_group=case_of_anchor[centre],
        anchor_count=np.bincount(member_group, minlength=len(centre)).astype(np.float64),
        largest_spacing=_largest_spacing(x[member_anchor], y[member_anchor], member_group),
    )


def twos_of_pairs(
    *, x: Floats, y: Floats, case_of_anchor: Index, limit: Floats, load: Floats, a: Index, b: Index
) -> Membership:
    """The two anchors of given pairs (a, b), each pair once, in rising order; others as in `near_pairs`.

    Of the pairs of an anchor with many the `MOST_TWOS` that are loaded most for their area: others are left out.

    Args:
        load: (anchors,) in the mode, any one unit of force.
    """
    dx, dy = np.abs(x[a] - x[b]), np.abs(y[a] - y[b])
    own = (limit[a] + limit[b]) / 2
    area = 2 * own**2 - np.maximum(own - dx, 0.0) * np.maximum(own - dy, 0.0)
    kept = _first_of_each(np.concatenate((a, b)), density=np.tile((load[a] + load[b]) / area, 2), most=MOST_TWOS)
    pair = np.unique(kept % max(len(a), 1))
    member = np.stack((a[pair], b[pair]), axis=1)
    return Membership(
        member_anchor=member.ravel(),
        member_group=np.repeat(np.arange(len(pair)), 2),
        case_of_group=case_of_anchor[a[pair]],
        anchor_count=np.full(len(pair), 2.0),
        largest_spacing=np.maximum(dx, dy)[pair],
    )


def loaded_chains(
    *, x: Floats, y: Floats, case_of_anchor: Index, plate: Index, load: Floats, a: Index, b: Index, chains: Grouping
) -> Iterator[Grouping]:
    """The parts of chains that are loaded most, a list for each of `SHARES`; others as in `near_pairs`.

    Only chains of several plates have them. The anchors of a plate in a chain stay together, as loaded as the most
    loaded one of them.

    Args:
        plate: (anchors,) one number for anchors under one plate.
        load: (anchors,) in the mode, any one unit of force.
        chains: of the same pairs.
    """
    group, several = chains.group_of_anchor, np.zeros(len(chains.case_of_group), dtype=np.bool_)
    several[group[a[plate[a] != plate[b]]]] = True
    judged = np.flatnonzero((group >= 0) & several[group])
    chain = group[judged]
    part = np.unique(chain * (plate.max(initial=0) + 1) + plate[judged], return_inverse=True)[1]
    of_chain, of_part = np.zeros(len(several)), np.zeros(len(judged))
    np.maximum.at(of_chain, chain, load[judged])
    np.maximum.at(of_part, part, load[judged])
    for share in SHARES:
        heavy = np.zeros(len(x), dtype=np.bool_)
        heavy[judged] = of_part[part] >= share * of_chain[chain] * (1 - _ROUNDING)
        kept = heavy[a] & heavy[b]
        yield chains_of_pairs(x=x, y=y, case_of_anchor=case_of_anchor, counts=heavy, a=a[kept], b=b[kept])
        if heavy[judged].all():
            break


def _first_of_each(anchor: Index, *, density: Floats, most: int) -> Index:
    """Rows of the ``most`` densest of each anchor."""
    order = np.lexsort((-density, anchor))
    ordered = anchor[order]
    first = np.searchsorted(ordered, ordered)
    return order[np.arange(len(order)) - first < most]


def joined(parts: Sequence[Membership]) -> Membership:
    """The groups of several lists over the same anchors as one list; of equal sets the first stays.

    The groups are in rising order of their case and within it in the order of the parts.
    """
    case = np.concatenate([part.case_of_group for part in parts])
    count = np.concatenate([part.anchor_count for part in parts])
    spacing = np.concatenate([part.largest_spacing for part in parts])
    anchor = np.concatenate([part.member_anchor for part in parts])
    size = count.astype(np.intp)
    together = Membership(
        member_anchor=anchor,
        member_group=np.repeat(np.arange(len(case)), size),
        case_of_group=case,
        anchor_count=count,
        largest_spacing=spacing,
    )
    kept = np.sort(_first_of_equal(anchor, np.cumsum(size) - size, size))
    return together.take(kept[np.argsort(case[kept], kind="stable")])


def _first_of_equal(anchor: Index, starts: Index, count: Index) -> Index:
    """The first of equal sets, sets being runs of rising anchors."""
    found = [np.zeros(0, dtype=np.intp)]
    for size in np.unique(count).tolist():
        rows = np.flatnonzero(count == size)
        sets = anchor[starts[rows, None] + np.arange(size)]
        order = np.lexsort(sets.T)
        sets = sets[order]
        differs = np.ones(len(order), dtype=np.bool_)
        np.any(sets[1:] != sets[:-1], axis=1, out=differs[1:])
        found.append(rows[order[differs]])
    return np.concatenate(found)


def _starts(rising: Index) -> Index:
    """The first place of each value of a column in rising order."""
    begins = np.ones(len(rising), dtype=np.bool_)
    np.not_equal(rising[1:], rising[:-1], out=begins[1:])
    return begins.nonzero()[0]


def _largest_spacing(x: Floats, y: Floats, group: Index) -> Floats:
    """The largest gap between neighbouring coordinates of each group, of both axes, (members,) to (groups,)."""
    starts = _starts(group)
    if not len(starts):
        return np.zeros(0)
    widest = np.zeros(len(starts))
    for along in (x, y):
        ordered = along[np.lexsort((along, group))]
        gap = np.zeros(len(ordered))
        np.subtract(ordered[1:], ordered[:-1], out=gap[1:])
        gap[starts] = 0.0
        widest = np.maximum(widest, np.maximum.reduceat(gap, starts))
    return widest
