"""Where the points of a batch are: what a search for neighbours needs, out of the columns of its blocks."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from hangpoint.core.geometry.grouping import closer
from hangpoint.core.geometry.side_face import in_face, planes
from hangpoint.core.hang_point.neighbours import REACH, Neighbours, neighbours
from hangpoint.core.hang_point.points import MOST_ANCHORS, SIDE, Layouts
from hangpoint.core.hang_point.sharing import reach_of
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.pack.labels import Labels, one_name
from hangpoint.pack.points import Packed
from hangpoint.pack.pull import found_rows

INCHES = 12.0
"""Inches of a foot: coordinates are stated in ft."""
FAR_APART = 24_000.0
"""in: points of one member that are farther apart may have coordinates of another unit than they are read in."""
ONE_PLANE = 0.5
"""By how much the places of points in one plane may differ, in: a drawing is rounded to that."""
_Key = tuple[str | None, str | None, int]
"""Member, level and face."""


@dataclass(frozen=True, kw_only=True)
class Places:
    """Points with a place in a member, in the order of their blocks; every column is (points,).

    ``block`` and ``local`` say which point of which block it is. ``member`` codes a face of a member: that of
    ``base/member``, or of ``at/level`` where ``by_level``. ``level`` codes that face of the level whether or not a
    member is named, -1 without one, ``face`` is the face alone. ``x``, ``y`` and ``z``, nan where not stated, are those
    of the job, in; of `in_planes` x and y those in the face. ``facing`` is that of a side face, degrees, nan of others
    and where not stated. ``h_ef`` in in. ``family`` codes the product family. ``anchors`` counts those of the layout,
    ``extent`` is the distance from the point to the farthest of them, in, and by how much its reach
    (`neighbours.reach`) is above 1.5 h_ef. ``same`` codes the set of anchors that points are under loads which act one
    at a time, -1 of a point that is no such one.
    """

    block: Index
    local: Index
    member: Index
    by_level: Bools
    level: Index
    face: Index
    x: Floats
    y: Floats
    z: Floats
    facing: Floats
    h_ef: Floats
    family: Index
    anchors: Index
    extent: Floats
    same: Index

    def __len__(self) -> int:
        return len(self.block)

    def of(self, rows: Bools) -> "Places":
        """Those of some of the points."""
        return Places(**{name: getattr(self, name)[rows] for name in Places.__annotations__})


def places(blocks: Sequence[Packed]) -> Places | None:
    """The places of the points that state both coordinates and a member or a level; None where none does.

    Points of the soffit, the top and a side of a member are not of one face.
    """
    codes: dict[tuple[bool, str | None, int], int] = {}
    sets: dict[Hashable, int] = {}
    found = [_of_block(number, packed, codes, sets) for number, packed in enumerate(blocks)]
    own = [each for each in found if each is not None]
    if not own:
        return None
    return Places(**{name: np.concatenate([getattr(each, name) for each in own]) for name in Places.__annotations__})


def in_planes(placed: Places) -> Places:
    """The points of which it is known in what plane they are, with their coordinates in it.

    Those in a soffit or a top are in the plan; those in a side face that state which way it looks, and z, in that face.
    Codes of members, levels and faces are then those of their planes.
    """
    if not some(placed.face == SIDE):
        return placed
    plane = _planes(placed)
    own, side = placed.of(plane >= 0), placed.facing[plane >= 0]
    plane = plane[plane >= 0]
    right, up, _ = in_face(facing=side, x=own.x, y=own.y, z=own.z)
    flat = np.isnan(side)
    return replace(
        own,
        member=_both(own.member, plane),
        level=np.where(own.level < 0, own.level, _both(own.level, plane)),
        face=_both(own.face, plane),
        x=np.where(flat, own.x, right),
        y=np.where(flat, own.y, up),
    )


def _planes(placed: Places) -> Index:
    """(points,) codes of planes: 0 is the plan, and -1 stands for a side face that isn't known."""
    of_side = side_planes(facing=placed.facing, x=placed.x, y=placed.y, z=placed.z)
    return np.where(placed.face == SIDE, np.where(of_side < 0, -1, of_side + 1), 0)


def side_planes(*, facing: Floats, x: Floats, y: Floats, z: Floats) -> Index:
    """(points,) codes of the planes of side faces, -1 where the direction or z is nan; coordinates of the job in in."""
    way = np.where(np.isfinite(z), facing, np.nan)
    return planes(way=way, out=in_face(facing=facing, x=x, y=y, z=z)[2], apart=ONE_PLANE)


def _both(code: Index, plane: Index) -> Index:
    """One code for each pair of codes."""
    return np.unique(np.column_stack((code, plane)), axis=0, return_inverse=True)[1].reshape(len(code))


def far_apart(placed: Places) -> Bools:
    """(points,) of a member whose points lie farther apart along x or y than `FAR_APART`."""
    far = np.zeros(len(placed), dtype=np.bool_)
    if not len(placed):
        return far
    order = np.argsort(placed.member, kind="stable")
    starts = np.flatnonzero(np.diff(placed.member[order], prepend=-1))
    size = np.diff(starts, append=len(order))
    for coordinate in (placed.x[order], placed.y[order]):
        spread = np.maximum.reduceat(coordinate, starts) - np.minimum.reduceat(coordinate, starts)
        far[order] |= np.repeat(spread > FAR_APART, size)
    return far


def uncompared(placed: Places) -> Bools:
    """(points,) may be near a point of the same level that names its member where they don't, or the other way round.

    Whether the two are in one member is not known, so nobody compares them. Those that name a member and no level may
    be on any.
    """
    found = np.zeros(len(placed), dtype=np.bool_)
    if placed.by_level.all() or not placed.by_level.any():
        return found
    levelled = placed.level >= 0
    for code, own in ((placed.level, levelled), (placed.face, placed.by_level | ~levelled)):
        named, by_level = (np.isin(code, code[own & kind]) for kind in (~placed.by_level, placed.by_level))
        rows = np.flatnonzero(own & named & by_level)
        found[rows] |= _near_another(placed, rows, code[rows])
    return found


def near_in_side(placed: Places) -> Bools:
    """(points,) of side faces that may be near another of a side face of their member, or among too many to tell.

    Those are not asked for that are in one plane. Where that isn't known, or they are in two, still no two anchors are
    nearer to each other than their coordinates are, less their extents; without the z of both, those on plan.
    """
    rows = np.flatnonzero(placed.face == SIDE)
    found = np.zeros(len(placed), dtype=np.bool_)
    if not len(rows):
        return found
    plane, near = _planes(placed)[rows], _within_reach(placed, rows, placed.member[rows])
    a, b, found[rows] = near.a, near.b, near.crowded
    rise = placed.z[rows[a]] - placed.z[rows[b]]
    apart = np.hypot(near.spacing, np.where(np.isfinite(rise), rise, 0.0))
    own = closer(spacing=apart, limit=near.limit) & ((plane[a] < 0) | (plane[a] != plane[b]))
    found[rows[a[own]]] = found[rows[b[own]]] = True
    return found


def _near_another(placed: Places, rows: Index, code: Index) -> Bools:
    """(rows,) near a row of the same code that names its member otherwise, or among too many to tell."""
    near = _within_reach(placed, rows, code)
    by_level, found = placed.by_level[rows], near.crowded.copy()
    across = by_level[near.a] != by_level[near.b]
    found[near.a[across]] = found[near.b[across]] = True
    return found


def _within_reach(placed: Places, rows: Index, code: Index) -> Neighbours:
    return neighbours(
        member=code,
        x=placed.x[rows],
        y=placed.y[rows],
        h_ef=placed.h_ef[rows],
        extent=placed.extent[rows],
        most=MOST_ANCHORS,
        same=placed.same[rows],
    )


def extents(layouts: Layouts, count: int) -> Floats:
    """(points,) distance from each point to its farthest anchor, in."""
    extent = np.zeros(count)
    np.maximum.at(extent, layouts.point, np.hypot(layouts.x, layouts.y))
    return extent


def _of_block(
    number: int, packed: Packed, codes: dict[tuple[bool, str | None, int], int], sets: dict[Hashable, int]
) -> Places | None:
    labels, points = packed.labels, packed.points
    face = points.bases.face
    stated = np.flatnonzero(np.isfinite(labels.x) & np.isfinite(labels.y) & points.surroundings.anchored)
    if not len(stated):
        return None
    names, levels = labels.member, labels.level
    if len(stated) < points.count:
        rows: list[int] = stated.tolist()
        names, levels = ([texts[row] for row in rows] for texts in (names, levels))
    of_face, faces = found_rows(list(zip(names, levels, face[stated].tolist(), strict=True)), _itself)
    member = np.array([_face(*each, codes) for each in faces], dtype=np.intp)[of_face]
    by_level = np.array([name is None for name, _, _ in faces], dtype=np.bool_)[of_face]
    level = np.array([_face(None, own, side, codes) for _, own, side in faces], dtype=np.intp)[of_face]
    known = member >= 0
    local, member, by_level = stated[known], member[known], by_level[known]
    if not len(local):
        return None
    layouts = points.layouts
    extent = extents(layouts, points.count)
    beyond = reach_of(points, extent=extent) - REACH * points.products.h_ef
    return Places(
        block=np.full(len(local), number, dtype=np.intp),
        local=local,
        member=member,
        by_level=by_level,
        level=level[known],
        face=face[local].astype(np.intp),
        x=labels.x[local] * INCHES,
        y=labels.y[local] * INCHES,
        z=labels.z[local] * INCHES,
        facing=labels.facing[local],
        h_ef=points.products.h_ef[local],
        family=labels.family[local],
        anchors=np.bincount(layouts.point, minlength=points.count)[local],
        extent=(extent + beyond)[local],
        same=_same(labels, local, sets),
    )


def _same(labels: Labels, local: Index, sets: dict[Hashable, int]) -> Index:
    """Codes of the sets of anchors of some points."""
    code = np.full(len(local), -1, dtype=np.intp)
    if any(labels.alternative_of):
        for place, at in enumerate(local.tolist()):
            own = labels.set_of(at)
            code[place] = -1 if own is None else sets.setdefault(own, len(sets))
    return code


def _itself(each: _Key) -> _Key:
    return each


def _face(member: str | None, level: str | None, side: int, codes: dict[tuple[bool, str | None, int], int]) -> int:
    """The code of the face of a member, or of a level for a point that states no member; -1 without either."""
    if member is None and level is None:
        return -1
    return codes.setdefault((member is None, one_name(level if member is None else member), side), len(codes))
