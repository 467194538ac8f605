"""Hang points that share the concrete of a member (readings 6 and 30). Units: in.

Two points are near each other where anchors of theirs are closer than 1.5 (h_ef,1 + h_ef,2), or than the limits of
their bonds or, where they are sheared, of a row along an edge, if these are wider (`neighbours.reach`). Those that are
alike, of one family and with h_ef within a tenth, act together: their anchors form sets as those of one layout do.
Those that aren't are judged by themselves, each with its failure surface cut at the boundary between the two. Points
that go by tables share nothing; how near they are is compared with the least spacing of the tables. Bolts in masonry of
two points whose projected areas overlap are told, because what they share isn't taken off: circles of tension always,
half circles of shear where it might count.
"""

import numpy as np

from hangpoint.core.aci318_19.adhesive_bond import bond_reach
from hangpoint.core.aci318_19.pullout import HEADED
from hangpoint.core.conversions import MM_PER_INCH
from hangpoint.core.en1992_4.fire import critical_spacing
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.connected import connected
from hangpoint.core.geometry.footprint import Cuts
from hangpoint.core.geometry.grouping import closer
from hangpoint.core.geometry.sides import by_sides
from hangpoint.core.hang_point.allowables import CHAPTER_17, FASTENER, MASONRY_BOLT, TABLE
from hangpoint.core.hang_point.bolt_overlaps import BoltOverlaps, bolt_overlaps
from hangpoint.core.hang_point.free_edges import free_edges
from hangpoint.core.hang_point.neighbours import REACH, alike, edge_reach
from hangpoint.core.hang_point.points import MOST_ANCHORS, PIPE, Points, Sites
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

SAME_SHARE = 1e-9
SAME_PLACE = 1e-3
"""in: anchors nearer than this are in one place, which no boundary divides; the least spacing forbids it."""


@frozen
class Sharing:
    """Which points share concrete.

    ``a`` and ``b`` (pairs,) are points near each other and ``acts`` (pairs,) says which act together. ``group``
    (points,) is one number for points that do, ``grouped`` (points,) where there are several. ``above_limit``
    (points,): the group has more anchors than may be checked. ``nearest`` (points,) is the least distance of an anchor
    of the point from one of another, infinite without any near, and ``sides`` (2, anchors of layouts, 4) that of
    each anchor by `by_sides`; ``at_edge`` (points,) has an unlike one near enough to break out of the same
    edge with it. ``bolts`` are those in masonry that are near others, None without any. ``cuts`` are the
    boundaries to unlike anchors.
    """

    a: Index
    b: Index
    acts: Bools
    group: Index
    grouped: Bools
    above_limit: Bools
    nearest: Floats
    sides: Floats
    at_edge: Bools
    bolts: BoltOverlaps | None
    cuts: Cuts | None
    beside: Index
    """(2, pairs) points near each other that share nothing: one of them at least doesn't go by chapter 17, or they are
    near by their least spacing alone."""

    @property
    def mixed(self) -> Bools:
        """(points,) with a neighbour that isn't alike."""
        found = np.zeros(len(self.group), dtype=np.bool_)
        found[self.a[~self.acts]] = found[self.b[~self.acts]] = True
        return found


def sharing(points: Points, sites: Sites) -> Sharing:
    """Judge which of the points that may be near each other are.

    Args:
        points: of one block; points that are near each other are in one block.
        sites: of the same points.
    """
    layouts, h_ef = points.layouts, points.products.h_ef
    per_point = np.bincount(layouts.point, minlength=points.count)
    starts = np.cumsum(per_point) - per_point
    x, y = layouts.x + sites.x[layouts.point], layouts.y + sites.y[layouts.point]
    pair, one, other = _anchor_pairs(starts, per_point, sites.a, sites.b)
    dx, dy = x[other] - x[one], y[other] - y[one]
    spacing = np.hypot(dx, dy)
    depth, other_depth = h_ef[sites.a[pair]], h_ef[sites.b[pair]]
    extent = np.zeros(points.count)
    np.maximum.at(extent, layouts.point, np.hypot(layouts.x, layouts.y))
    towards = edge_reach_of(points, extent=extent)
    own, least = _reach(points, towards), _least(points)
    near = closer(spacing=spacing, limit=own[sites.a[pair]] + own[sites.b[pair]])
    close = near | closer(spacing=spacing, limit=np.maximum(least[sites.a], least[sites.b])[pair])
    in_concrete = np.isin(points.method, (CHAPTER_17, FASTENER))
    by_code = in_concrete[sites.a] & in_concrete[sites.b]
    shares = near & by_code[pair]
    shears = shares & ((towards[sites.a] > 0) & (towards[sites.b] > 0))[pair]
    shears &= closer(spacing=spacing, limit=towards[sites.a[pair]] + towards[sites.b[pair]])
    found = np.unique(pair[shares])
    a, b = sites.a[found], sites.b[found]
    acts = alike(a=a, b=b, family=sites.family, h_ef=h_ef)
    group = connected(count=points.count, a=a[acts], b=b[acts])
    size = np.bincount(group, minlength=points.count)
    anchors = np.bincount(group, weights=per_point, minlength=points.count)
    crowded = np.zeros(points.count, dtype=np.bool_)
    crowded[group[sites.crowded]] = True
    nearest = np.full(points.count, np.inf)
    np.minimum.at(nearest, sites.a[pair[close]], spacing[close])
    np.minimum.at(nearest, sites.b[pair[close]], spacing[close])
    bolts = points.method == MASONRY_BOLT
    by_table = points.method == TABLE
    tables, beside = bolts | by_table, close & some(by_table)
    both = near & ((bolts[sites.a] & tables[sites.b]) | (tables[sites.a] & bolts[sites.b]))[pair]
    together = np.zeros(len(sites.a), dtype=np.bool_)
    together[found[acts]] = True
    cut_from = np.maximum(np.maximum(REACH * h_ef, bond_reach_of(points)), fastener_reach_of(points))
    within = spacing < cut_from[sites.a[pair]] + cut_from[sites.b[pair]]
    apart = shares & ~together[pair] & (spacing > SAME_PLACE) & within
    at_edge = np.zeros(points.count, dtype=np.bool_)
    burst = _burst(points, one=one, other=other, dx=dx, dy=dy)
    split = pair[(shears | (shares & burst)) & ~together[pair]]
    at_edge[sites.a[split]] = at_edge[sites.b[split]] = True
    return Sharing(
        a=a,
        b=b,
        acts=acts,
        group=group,
        grouped=size[group] > 1,
        above_limit=(anchors[group] > MOST_ANCHORS) | crowded[group],
        nearest=nearest,
        sides=by_sides(one=one[beside], other=other[beside], dx=dx[beside], dy=dy[beside], count=len(layouts.point)),
        at_edge=at_edge,
        bolts=bolt_overlaps(points, one=one[both], other=other[both], dx=dx[both], dy=dy[both]) if some(both) else None,
        beside=_points_of(sites, np.setdiff1d(pair[close], found)),
        cuts=_cuts(
            one=one[apart],
            other=other[apart],
            dx=dx[apart],
            dy=dy[apart],
            share=(depth / (depth + other_depth))[apart],
            count=len(layouts.point),
        ),
    )


def _points_of(sites: Sites, pairs: Index) -> Index:
    return np.stack((sites.a[pairs], sites.b[pairs]))


def reach_of(points: Points, *, extent: Floats) -> Floats:
    """Half of the spacing below which the anchors of each point act together with others like them, (points,) in.

    Half of 3 h_ef (breakout), 2 c_Na (bond), the least spacing of tests and tables, or what `edge_reach_of` says, the
    largest of them.

    Args:
        points: the batch.
        extent: (points,) distance from each point to its farthest anchor, in.
    """
    return np.maximum(_reach(points, edge_reach_of(points, extent=extent)), _least(points))


def _least(points: Points) -> Floats:
    """(points,) least spacing by tests and by the code."""
    return np.maximum(points.products.s_min, points.products.s_min_code)


def bond_reach_of(points: Points) -> Floats:
    """(points,) c_Na, 0 where no adhesive holds."""
    product = points.products
    return bond_reach(d_a=product.d_a, tau_uncr=np.where(product.adhesive, points.bonds.tau_uncr, 0.0))


def fastener_reach_of(points: Points) -> Floats:
    """(points,) half of the larger of s_cr,N and s_cr,sp of EN 1992-4, in; 0 by another code.

    Among points of which any is to withstand a fire s_cr,N is that in fire, of all of them: it may be beside that one.
    """
    own = points.fasteners
    if own is None:
        return np.zeros(points.count)
    s_cr_n = own.s_cr_n
    if points.fires is not None:
        s_cr_n = critical_spacing(s_cr_n=s_cr_n, h_ef=own.h_ef)
    return np.maximum(s_cr_n / 2, own.c_cr_sp) / MM_PER_INCH


def _burst(points: Points, *, one: Index, other: Index, dx: Floats, dy: Floats) -> Bools:
    """(anchor pairs,) of heads in tension that may burst the same side face: 17.6.4.1 for both, closer than 6 c_a1."""
    layouts, product = points.layouts, points.products
    heads = (product.pullout_method == HEADED) & _pulled(points)
    if not some(heads):
        return np.zeros(len(one), dtype=np.bool_)
    c_a = points.bases.c_a[layouts.point] + np.stack((layouts.x, -layouts.x, layouts.y, -layouts.y), axis=1)
    share = 2.5 if points.fasteners is None else 2.0 * (1 - SAME_SHARE)  # EN 1992-4 7.2.1.8(1): up to half of h_ef
    deep = (product.h_ef[layouts.point, None] > share * c_a) & heads[layouts.point, None]
    along = np.abs(np.stack((dy, dy, dx, dx), axis=1))
    near = closer(spacing=along, limit=6.0 * np.maximum(c_a[one], c_a[other]))
    return np.any(deep[one] & deep[other] & near, axis=1)


def _pulled(points: Points) -> Bools:
    """(points,) with a load that may pull an anchor."""
    hangs, given = points.hangs, points.given
    pulled = hangs.kind == PIPE
    for n, _, m in hangs.parts():
        pulled = pulled | (n > 0) | m[:, :2].any(axis=1)
    for n, _, m in given.parts():
        pulled[given.point[(n > 0) | m[:, :2].any(axis=1)]] = True
    return pulled


def _reach(points: Points, towards: Floats) -> Floats:
    product = points.products
    c_na = bond_reach_of(points)
    c_na = np.maximum(c_na, np.where(points.decks.tested, product.s_min / 2, 0.0))  # their least spacing is wider
    c_na = np.maximum(c_na, fastener_reach_of(points))
    if points.allowables is not None:
        own = points.allowables
        c_na = np.maximum(c_na, np.maximum(own.s_least, own.s_full).max(axis=1))
    return np.maximum(np.maximum(REACH * product.h_ef, c_na), towards)


def edge_reach_of(points: Points, *, extent: Floats) -> Floats:
    """`neighbours.edge_reach` of each point; arguments as in `reach_of`."""
    hangs, given = points.hangs, points.given
    sheared = np.zeros(points.count, dtype=np.bool_)
    for _, v, m in hangs.parts():
        sheared |= (v[:, 0] != 0) | (v[:, 1] != 0) | (m[:, 2] != 0)
    for _, v, m in given.parts():
        sheared[given.point[v.any(axis=1) | (m[:, 2] != 0)]] = True
    own = points.fasteners
    return edge_reach(
        judged_within=None if own is None else np.maximum(10 * own.h_ef, 60 * own.d_nom) / MM_PER_INCH,
        h_ef=points.products.h_ef,
        thickness=points.bases.thickness,
        c_a=free_edges(points),
        extent=extent,
        sheared=sheared,
    )


def _anchor_pairs(starts: Index, size: Index, a: Index, b: Index) -> tuple[Index, Index, Index]:
    """Every anchor of one point of a pair with every anchor of the other: pair, and the two anchors."""
    each = size[a] * size[b]
    pair = np.repeat(np.arange(len(a)), each)
    place = np.arange(len(pair)) - np.repeat(np.cumsum(each) - each, each)
    width = size[b][pair]
    return pair, starts[a][pair] + place // width, starts[b][pair] + place % width


def _cuts(*, one: Index, other: Index, dx: Floats, dy: Floats, share: Floats, count: int) -> Cuts | None:
    """Boundaries between unlike anchors: across the line between them, where their depths divide it."""
    if not len(one):
        return None
    spacing = np.hypot(dx, dy)
    along_x, along_y = dx / spacing, dy / spacing
    anchor = np.concatenate((one, other))
    order = np.argsort(anchor, kind="stable")
    return Cuts.of(
        count=count,
        anchor=anchor[order],
        normal_x=np.concatenate((along_x, -along_x))[order],
        normal_y=np.concatenate((along_y, -along_y))[order],
        distance=np.concatenate((spacing * share, spacing * (1 - share)))[order],
    )
