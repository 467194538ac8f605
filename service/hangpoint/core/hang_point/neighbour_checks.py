"""Points that share concrete as one set of anchors, and what is seen of them. Units: in."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.hang_point.allowable_findings import least_between
from hangpoint.core.hang_point.allowables import MASONRY_BOLT
from hangpoint.core.hang_point.bolt_overlaps import BoltOverlaps
from hangpoint.core.hang_point.cases import any_of_group
from hangpoint.core.hang_point.points import Points, Sites
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.hang_point.verdict import PointMode
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import BOLT_TENSION_MODES, Finding, Mode

_ROUNDING = 1e-9


def shared_anchors(points: Points, axis: CaseAxis, anchors: Anchors, shared: Sharing) -> Anchors:
    """The anchors in the coordinates of their members, those of one group and load case in one concrete.

    Args:
        points: the batch, with its sites.
        axis: the cases that are checked; ``anchors`` are theirs.
        shared: which points share concrete.
    """
    sites = points.sites
    if sites is None:
        return anchors
    _, joint = np.unique(_key(shared.group[axis.point_of_case], axis.load_case), return_inverse=True)
    point = axis.point_of_case[anchors.case]
    per_point = np.bincount(points.layouts.point, minlength=points.count)
    first = np.cumsum(per_point) - per_point
    return replace(
        anchors,
        x=anchors.x + sites.x[point],
        y=anchors.y + sites.y[point],
        joint=joint,
        cuts=shared.cuts,
        cut_anchor=None if shared.cuts is None else first[point] + anchors.number,
    )


def _key(group: Index, load_case: Index) -> Index:
    """One number for each group and load case, rising with both."""
    return group * (load_case.max(initial=0) + 1) + load_case


def neighbour_findings(
    points: Points, sites: Sites, shared: Sharing, *, unchecked: Bools, modes: Sequence[PointMode]
) -> list[FindingColumn]:
    """Mixes, neighbours that don't count, what near points state otherwise, least spacings, bolts of masonry.

    Args:
        points: the batch.
        sites: where its points are.
        shared: which of them share concrete.
        unchecked: (points,) the anchors aren't checked.
        modes: of the points.
    """
    zero = np.zeros(points.count)
    beside = np.zeros(points.count, dtype=np.bool_)
    for one, other in ((shared.a, shared.b), (shared.b, shared.a)):
        beside[one[unchecked[other]]] = True
    least = least_between(points.allowables, np.maximum(points.products.s_min, points.products.s_min_code))
    near = np.where(np.isfinite(shared.nearest), shared.nearest, 0.0)
    return [
        FindingColumn(finding=Finding.MIXED_GROUP, holds=shared.mixed & ~unchecked, value=zero, limit=zero),
        FindingColumn(finding=Finding.MIXED_AT_EDGE, holds=shared.at_edge & ~unchecked, value=zero, limit=zero),
        FindingColumn(finding=Finding.NEIGHBOUR_NOT_COUNTED, holds=beside & ~unchecked, value=zero, limit=zero),
        FindingColumn(finding=Finding.EDGES_DISAGREE, holds=sites.disputed & ~unchecked, value=zero, limit=zero),
        FindingColumn(
            finding=Finding.ALTERNATIVES_TOGETHER,
            holds=any_of_group(_several(sites, shared), shared.group) & ~unchecked,
            value=zero,
            limit=zero,
        ),
        FindingColumn(
            finding=Finding.BASES_DISAGREE,
            holds=_of_pairs(shared, _other_bases(points, shared)) & ~unchecked,
            value=zero,
            limit=zero,
        ),
        FindingColumn(
            finding=Finding.BARS_OF_NEIGHBOURS,
            holds=_of_pairs(shared, _both_barred(points, shared)) & ~unchecked,
            value=zero,
            limit=zero,
        ),
        FindingColumn(
            finding=Finding.LEVELS_DISAGREE,
            holds=_of_pairs(shared, _other_levels(sites, shared)) & ~unchecked,
            value=zero,
            limit=zero,
        ),
        FindingColumn(
            finding=Finding.NEIGHBOUR_BELOW_SPACING,
            holds=below(shared.nearest, limit=least) & ~unchecked,
            value=near,
            limit=least,
        ),
        *(
            []
            if shared.bolts is None
            else [_of_bolts(shared.bolts, (points.method == MASONRY_BOLT) & ~unchecked, modes)]
        ),
    ]


def load_case_findings(shared: Sharing | None, *, borrowed: Bools, lost: Bools, checked: Bools) -> list[FindingColumn]:
    """Points that don't state the load cases of those with which they share concrete.

    Args:
        shared: which points share concrete, None where none do.
        borrowed, lost: (points,) of `GivenRows`.
        checked: (points,) the anchors are checked.
    """
    if shared is None or not some(borrowed):
        return []
    zero = np.zeros(len(borrowed))
    return [
        FindingColumn(finding=finding, holds=any_of_group(holds, shared.group) & checked, value=zero, limit=zero)
        for finding, holds in (
            (Finding.NEIGHBOUR_CASE_BORROWED, borrowed & ~lost),
            (Finding.NEIGHBOUR_CASES_DIFFER, lost),
        )
    ]


def _several(sites: Sites, shared: Sharing) -> Bools:
    """(points,) that are one set of anchors with another point of their group."""
    found, own = np.zeros(len(sites.same), dtype=np.bool_), np.flatnonzero(sites.same >= 0)
    if len(own):
        pairs = np.column_stack((shared.group[own], sites.same[own]))
        _, kind, times = np.unique(pairs, axis=0, return_inverse=True, return_counts=True)
        found[own] = times[kind.reshape(len(own))] > 1
    return found


def _of_pairs(shared: Sharing, holds: Bools) -> Bools:
    """(points,) of a pair that shares concrete and for which something (pairs,) holds."""
    found = np.zeros(len(shared.group), dtype=np.bool_)
    found[shared.a[holds]] = found[shared.b[holds]] = True
    return found


def _other_bases(points: Points, shared: Sharing) -> Bools:
    """(pairs,) that state the concrete, its reinforcement or the building otherwise."""
    bases = points.bases
    numbers = np.stack((bases.f_c, bases.thickness, bases.lambda_c))
    one, other = numbers[:, shared.a], numbers[:, shared.b]
    differ = np.any((one > other * (1 + _ROUNDING)) | (other > one * (1 + _ROUNDING)), axis=0)
    words = (bases.cracked, bases.supplementary, bases.edge_reinforcement, bases.category)
    return differ | np.any([own[shared.a] != own[shared.b] for own in words], axis=0)


def _both_barred(points: Points, shared: Sharing) -> Bools:
    """(pairs,) of which each has bars in place of breakout, in tension or in shear."""
    barred = np.stack((points.bases.a_s_n, points.bases.a_s_v)) > 0
    return np.any(barred[:, shared.a] & barred[:, shared.b], axis=0)


def _other_levels(sites: Sites, shared: Sharing) -> Bools:
    """(pairs,) that name two levels."""
    one, other = sites.level[shared.a], sites.level[shared.b]
    return (one >= 0) & (other >= 0) & (one != other)


def _of_bolts(bolts: BoltOverlaps, checked: Bools, modes: Sequence[PointMode]) -> FindingColumn:
    circles, halves = bolts.circles, bolts.halves
    overlap = circles.count > 0
    apart = np.where(overlap, circles.spacing, halves.spacing)
    return FindingColumn(
        finding=Finding.NEIGHBOUR_BOLTS,
        holds=(overlap | _might_count(halves.count, modes)) & checked,
        value=np.where(np.isfinite(apart), apart, 0.0),
        limit=np.where(overlap, circles.reach, halves.reach),
    )


def _might_count(count: Index, modes: Sequence[PointMode]) -> Bools:
    """(points,) whether half circles that overlap, so many, might make the point fail.

    A bolt keeps at least an equal part of its area, and neither edition takes tension and shear together for more than
    the sum of their ratios.
    """
    largest = {mode: np.zeros(len(count)) for mode in (*BOLT_TENSION_MODES, Mode.MASONRY_BREAKOUT_SHEAR)}
    for own in modes:
        if own.mode in largest:
            largest[own.mode] = np.where(own.applies, own.utilisation, 0.0)
    pulled = np.max([largest[mode] for mode in BOLT_TENSION_MODES], axis=0)
    slid = largest[Mode.MASONRY_BREAKOUT_SHEAR]
    return (count > 0) & (slid > 0) & (pulled + (1 + count) * slid > 1)
