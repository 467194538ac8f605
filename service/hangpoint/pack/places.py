"""Where the points of a batch are: what a search for neighbours needs, out of the columns of its blocks."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hangpoint.core.hang_point.neighbours import REACH
from hangpoint.core.hang_point.points import SIDE
from hangpoint.core.hang_point.sharing import reach_of
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.pack.labels import one_name
from hangpoint.pack.points import Packed

_INCHES = 12.0


@dataclass(frozen=True, kw_only=True)
class Places:
    """Points with a place in the plan of a member, in the order of their blocks; every column is (points,).

    ``block`` and ``local`` say which point of which block it is. ``member`` codes a face of a member: that of
    ``base/member``, or of ``at/level`` where ``by_level``. ``x``, ``y`` and ``h_ef`` in in. ``family`` codes the
    product family. ``anchors`` counts those of the layout, ``extent`` is the distance from the point to the farthest of
    them, in, and by how much its reach (`neighbours.reach`) is above 1.5 h_ef.
    """

    block: Index
    local: Index
    member: Index
    by_level: Bools
    x: Floats
    y: Floats
    h_ef: Floats
    family: Index
    anchors: Index
    extent: Floats

    def __len__(self) -> int:
        return len(self.block)


def places(blocks: Sequence[Packed]) -> Places | None:
    """The places of the points that state both coordinates and a member or a level; None where none does.

    Points in the side of a member are left out, because its face isn't the plan. Points of its soffit and of its top
    are not of one face.
    """
    codes: dict[tuple[bool, str | None, int], int] = {}
    found = [_of_block(number, packed, codes) for number, packed in enumerate(blocks)]
    own = [each for each in found if each is not None]
    if not own:
        return None
    return Places(**{name: np.concatenate([getattr(each, name) for each in own]) for name in Places.__annotations__})


def _of_block(number: int, packed: Packed, codes: dict[tuple[bool, str | None, int], int]) -> Places | None:
    labels, points = packed.labels, packed.points
    face = points.bases.face
    stated = np.flatnonzero(
        np.isfinite(labels.x) & np.isfinite(labels.y) & (face != SIDE) & points.surroundings.anchored
    )
    if not len(stated):
        return None
    rows: list[int] = stated.tolist()
    names, levels = (map(texts.__getitem__, rows) for texts in (labels.member, labels.level))
    found = list(zip(names, levels, face[stated].tolist(), strict=True))
    faces = {each: place for place, each in enumerate(dict.fromkeys(found))}
    of_face = np.array(list(map(faces.__getitem__, found)), dtype=np.intp)
    member = np.array([_face(*each, codes) for each in faces], dtype=np.intp)[of_face]
    by_level = np.array([name is None for name, _, _ in faces], dtype=np.bool_)[of_face]
    known = member >= 0
    local, member, by_level = stated[known], member[known], by_level[known]
    if not len(local):
        return None
    layouts = points.layouts
    extent = np.zeros(points.count)
    np.maximum.at(extent, layouts.point, np.hypot(layouts.x, layouts.y))
    beyond = reach_of(points, extent=extent) - REACH * points.products.h_ef
    return Places(
        block=np.full(len(local), number, dtype=np.intp),
        local=local,
        member=member,
        by_level=by_level,
        x=labels.x[local] * _INCHES,
        y=labels.y[local] * _INCHES,
        h_ef=points.products.h_ef[local],
        family=labels.family[local],
        anchors=np.bincount(layouts.point, minlength=points.count)[local],
        extent=(extent + beyond)[local],
    )


def _face(member: str | None, level: str | None, side: int, codes: dict[tuple[bool, str | None, int], int]) -> int:
    """The code of the face of a member, or of a level for a point that states no member; -1 without either."""
    if member is None and level is None:
        return -1
    return codes.setdefault((member is None, one_name(level if member is None else member), side), len(codes))
