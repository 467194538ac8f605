"""Points of a batch that may be near each other, as blocks of their own."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from hangpoint.core.hang_point.common_edges import common_edges, plates_within
from hangpoint.core.hang_point.fires import no_fires
from hangpoint.core.hang_point.neighbours import Neighbours, neighbours
from hangpoint.core.hang_point.points import MOST_ANCHORS, Sites
from hangpoint.core.hang_point.verdict import Alone
from hangpoint.core.quantity import Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.gathering import gather_packed
from hangpoint.pack.places import Places, extents, far_apart, in_planes, near_in_side, places, uncompared
from hangpoint.pack.points import Packed


@dataclass(frozen=True, kw_only=True)
class NearBlock:
    """Points that may be near each other, with all that any of them may be near.

    ``block`` and ``local`` of each, and ``group`` (points,), one number for points that are connected.
    """

    packed: Packed
    block: Index
    local: Index
    group: Index


def compare(blocks: Sequence[Packed], *, size: int) -> list[NearBlock] | None:
    """Search the points of a batch for those that may be near each other.

    Every point that was compared with the others of its member is no longer flagged as unchecked for neighbours, but
    for those of `places.uncompared`.

    Args:
        blocks: the points of the batch.
        size: points that a block of near ones has, or the points of one group if these are more.

    Returns:
        Blocks of whole groups; None where no point says where it is.
    """
    blocks = _all_with_fires(blocks)
    everywhere = places(blocks)
    if everywhere is None:
        return None
    _flag_side_faces(blocks, everywhere)
    placed = in_planes(everywhere)
    _flag(blocks, placed)
    found = neighbours(
        member=placed.member,
        x=placed.x,
        y=placed.y,
        h_ef=placed.h_ef,
        extent=placed.extent,
        anchors=placed.anchors,
        same=placed.same,
        most=MOST_ANCHORS,
    )
    return [_near(blocks, placed, found, own) for own in _together(found, size)]


def _all_with_fires(blocks: Sequence[Packed]) -> Sequence[Packed]:
    """The blocks, each with fires where any has some: a fire reaches points of other blocks."""
    if all(packed.points.fires is None for packed in blocks):
        return blocks
    return [
        replace(packed, points=replace(packed.points, fires=packed.points.fires or no_fires(packed.points.count)))
        for packed in blocks
    ]


def alone_in(blocks: Sequence[Alone], group: NearBlock) -> Alone:
    """What the points of a block of near ones are without each other."""
    utilisation, governing = np.zeros(len(group.block)), np.zeros(len(group.block), dtype=np.intp)
    numbers: list[int] = np.unique(group.block).tolist()
    for number in numbers:
        own = group.block == number
        utilisation[own] = blocks[number].utilisation[group.local[own]]
        governing[own] = blocks[number].governing[group.local[own]]
    return Alone(utilisation=utilisation, governing=governing)


def _flag(blocks: Sequence[Packed], placed: Places) -> None:
    compared, far = ~uncompared(placed), far_apart(placed)
    for number, packed in enumerate(blocks):
        own = placed.block == number
        searched, by_level, apart = np.zeros((3, packed.points.count), dtype=np.bool_)
        searched[placed.local[own]] = compared[own]
        by_level[placed.local[own]] = placed.by_level[own]
        packed.not_checked.clear(NotChecked.NEIGHBOURS, searched)
        packed.assumptions.set(Assumption.MEMBER_BY_LEVEL, by_level)
        apart[placed.local[own]] = far[own]
        packed.assumptions.set(Assumption.COORDINATES_AS_STATED, apart)


def _flag_side_faces(blocks: Sequence[Packed], placed: Places) -> None:
    near = near_in_side(placed)
    if not some(near):
        return
    for number, packed in enumerate(blocks):
        own = placed.block == number
        found = np.zeros(packed.points.count, dtype=np.bool_)
        found[placed.local[own]] = near[own]
        packed.not_checked.set(NotChecked.NEAR_IN_SIDE, found)


def _together(found: Neighbours, size: int) -> Iterator[Index]:
    """Points with neighbours, whole groups together, in rising order."""
    group = found.group_of_point
    several = np.flatnonzero(found.group_size[group] > 1)
    if not len(several):
        return
    _, rank, members = np.unique(group[several], return_inverse=True, return_counts=True)
    part = ((np.cumsum(members) - members) // size)[rank]
    for number in range(int(part.max()) + 1):
        own = several[part == number]
        if len(own):
            yield own


def _near(blocks: Sequence[Packed], placed: Places, found: Neighbours, own: Index) -> NearBlock:
    """The points of some groups as a block; they are in the order of their blocks, as all places are."""
    block, local = placed.block[own], placed.local[own]
    numbers: list[int] = np.unique(block).tolist()
    parts = [(blocks[number], local[block == number]) for number in numbers]
    packed = gather_packed(parts)
    here = np.full(len(placed), -1, dtype=np.intp)
    here[own] = np.arange(len(own))
    pairs = here[found.a] >= 0
    x, y, a, b = placed.x[own], placed.y[own], here[found.a[pairs]], here[found.b[pairs]]
    points = packed.points
    common = common_edges(
        c_a=points.bases.c_a, x=x, y=y, h_ef=placed.h_ef[own], extent=extents(points.layouts, points.count), a=a, b=b
    )
    sites = Sites(
        x=x,
        y=y,
        family=placed.family[own],
        level=placed.level[own],
        a=a,
        b=b,
        crowded=found.crowded[own],
        disputed=common.disputed,
        same=placed.same[own],
    )
    bases = replace(points.bases, c_a=common.c_a)
    plates = plates_within(points.plates, common.c_a)
    return NearBlock(
        packed=replace(packed, points=replace(points, bases=bases, plates=plates, sites=sites)),
        block=block,
        local=local,
        group=np.unique(found.group_of_point[own], return_inverse=True)[1].reshape(len(own)),
    )
