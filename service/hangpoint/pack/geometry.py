"""Anchors, plates and loads that can't stand where the request puts them: flaws of geometry, each at its place.

Numbers of an item that has another flaw may be neutral ones, so such an item isn't judged here.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from hangpoint.core.hang_point.points import FORCES, PIPE, Bases, GivenLoads, Hangs, Plates, Products
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.pack.forces import MOMENTS, moments_about
from hangpoint.pack.hangs import PackedHangs
from hangpoint.pack.layouts import PackedLayouts
from hangpoint.pack.pull import Rows

SAME_PLACE = 1e-6
"""in; what is nearer is one place."""

_ROUNDING = 1e-9
_SLUG = "impossible-geometry"
_TURNS = 2
"""Index of the torsion among the moments."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """What is placed around the origin of each layout."""

    layouts: PackedLayouts
    plates: Plates
    bases: Bases
    products: Products


def geometry_flaws(items: Rows, placed: Placed, hangs: PackedHangs) -> None:
    """Note what can't be: anchors in each other, outside plate or member; plates past an edge; moments on one anchor.

    Call it last: only items without a flaw so far are judged.
    """
    sound = np.ones(len(items), dtype=np.bool_)
    if items.flaws.by_row:
        sound = np.array([row not in items.flaws.by_row for row in items.index], dtype=np.bool_)
    if np.count_nonzero(placed.layouts.several):
        _coincident(items, placed, sound)
    if np.count_nonzero(placed.layouts.stated) or np.count_nonzero(placed.plates.stated):
        _outside(items, placed, sound)
    if np.count_nonzero(placed.plates.contact):
        _plates_past_edges(items, placed, sound)
    _moments(items, placed, hangs, sound)


def _flaw(items: Rows, at: int, place: str, detail: str, code: str) -> None:
    parent, _, name = place.partition("/")
    items.child(parent).flaw(at, name, detail, slug=_SLUG, code=code)


def _pairs(layouts: PackedLayouts) -> Iterator[tuple[Index, Index]]:
    """Every two anchors of one layout, the earlier and the later: those one apart in order, then two, and so on."""
    point = layouts.layouts.point
    for apart in range(1, int(layouts.count.max(initial=1))):
        earlier = np.flatnonzero(point[apart:] == point[:-apart])
        yield earlier, earlier + apart


def _coincident(items: Rows, placed: Placed, sound: Bools) -> None:
    own = placed.layouts.layouts
    least = np.maximum(placed.products.d_a * (1 - _ROUNDING), SAME_PLACE)
    hit = np.zeros(len(own.point), dtype=np.bool_)
    for earlier, later in _pairs(placed.layouts):
        apart = np.hypot(own.x[later] - own.x[earlier], own.y[later] - own.y[earlier])
        hit[later[apart < least[own.point[later]]]] = True
    for anchor in _told(placed, hit & sound[own.point]):
        at = int(own.point[anchor])
        detail = "Two anchors stand in each other: their centres are less than a diameter apart."
        _flaw(items, at, placed.layouts.place(at, anchor), detail, "coincident")


def _told(placed: Placed, hit: Bools) -> list[int]:
    """The anchors that are told of: all of a list, the first of a pattern, which has one place."""
    anchors = np.flatnonzero(hit)
    point = placed.layouts.layouts.point[anchors]
    first = np.ones(len(anchors), dtype=np.bool_)
    first[1:] = point[1:] != point[:-1]
    return anchors[first | placed.layouts.listed[point]].tolist()


def _outside(items: Rows, placed: Placed, sound: Bools) -> None:
    """Anchors at or beyond an edge of the member, and outside their plate."""
    own, plates = placed.layouts.layouts, placed.plates
    point = own.point
    c_a = placed.bases.c_a[point] + np.stack([own.x, -own.x, own.y, -own.y], axis=1)
    over = np.stack(
        [plates.x0[point] - own.x, own.x - plates.x1[point], plates.y0[point] - own.y, own.y - plates.y1[point]], axis=1
    ).max(axis=1)
    outside = plates.stated[point] & (over > SAME_PLACE)
    beyond = c_a.min(axis=1) < SAME_PLACE
    for anchor in _told(placed, (beyond | outside) & sound[point]):
        at = int(point[anchor])
        place = placed.layouts.place(at, anchor) if placed.layouts.stated[at] else "attachment/plate"
        if beyond[anchor]:
            edge = EDGES[int(c_a[anchor].argmin())]
            detail = f"The anchor is at or beyond the edge {edge} of the member."
            _flaw(items, at, place, detail, "beyond-edge")
        else:
            _flaw(items, at, place, "The anchor is outside the plate.", "outside-plate")


def _plates_past_edges(items: Rows, placed: Placed, sound: Bools) -> None:
    plates = placed.plates
    room = placed.bases.c_a + np.stack([plates.x0, -plates.x1, plates.y0, -plates.y1], axis=1)
    past = plates.contact & sound & (room.min(axis=1) < -SAME_PLACE)
    for at in np.flatnonzero(past).tolist():
        edge = EDGES[int(room[at].argmin())]
        detail = f'The plate reaches past the edge {edge} of the member: make it smaller, or state its support "free".'
        _flaw(items, at, "attachment/plate", detail, "beyond-edge")


def _moments(items: Rows, placed: Placed, hangs: PackedHangs, sound: Bools) -> None:
    """Moments about a single anchor: none without a plate that bears on the concrete, and never torsion."""
    own, single = hangs.hangs, ~placed.layouts.several
    shifted = np.count_nonzero(single & placed.layouts.stated) > 0
    by_forces = np.count_nonzero(own.kind == FORCES) > 0
    if not (shifted or (by_forces and (own.at.any() or _any_moments(own, hangs.forces.given)))):
        return
    layouts = placed.layouts.layouts
    anchor = np.searchsorted(layouts.point, np.arange(len(items)))
    arm = own.at - np.stack([layouts.x[anchor], layouts.y[anchor], np.zeros(len(items))], axis=1)
    arm[np.abs(arm) < SAME_PLACE] = 0.0
    bends, turns = _acting(arm, own, hangs.forces.given)
    bends |= (own.kind == PIPE) & arm.any(axis=1)
    judged = single & sound
    for at in np.flatnonzero(judged & turns).tolist():
        place = _cause(items, placed, hangs, at, MOMENTS[_TURNS:])
        detail = "One anchor resists no torsion: state more anchors, or a load without torsion about the anchor."
        _flaw(items, at, place, detail, "contradiction")
    for at in np.flatnonzero(judged & bends & ~turns & ~placed.plates.contact).tolist():
        place = _cause(items, placed, hangs, at, MOMENTS[:_TURNS])
        detail = (
            "One anchor resists no moment by itself, nor a load away from its axis: state more anchors, or in concrete"
            " a plate that bears on it."
        )
        _flaw(items, at, place, detail, _SLUG)


def _any_moments(hangs: Hangs, given: GivenLoads) -> bool:
    return any(m.any() for _, _, m in (*given.parts(), *hangs.parts()))


def _acting(arm: Floats, hangs: Hangs, given: GivenLoads) -> tuple[Bools, Bools]:
    """(points,) a load has a moment about x or y of the anchor, and about z, by more than rounding.

    Args:
        arm: (points, 3) from the anchor to where the forces act, in.
        hangs, given: the loads.
    """
    bends, turns = np.zeros(len(arm), dtype=np.bool_), np.zeros(len(arm), dtype=np.bool_)
    every = np.arange(len(arm))
    for point, n, v, m in (
        *((every, n, v, m) for n, v, m in hangs.parts()),
        *((given.point, n, v, m) for n, v, m in given.parts()),
    ):
        about = moments_about(arm[point], n=n, v=v, m=m)
        least = _ROUNDING * np.abs(m).max(axis=1, initial=0.0)[:, None]
        acts = np.abs(about) > least
        bends[point[acts[:, :_TURNS].any(axis=1)]] = True
        turns[point[acts[:, _TURNS]]] = True
    return bends, turns


def _cause(items: Rows, placed: Placed, hangs: PackedHangs, at: int, moments: Sequence[str]) -> str:
    """Where the item states what makes the moment."""
    if hangs.hangs.kind[at] == FORCES:
        stated = hangs.forces.components.first_moment(at, moments)
        if stated is not None:
            return f"hangs/{stated}"
        if hangs.hangs.at[at].any() or not placed.layouts.stated[at]:
            return "hangs/at"
    return placed.layouts.place(at, int(np.searchsorted(placed.layouts.layouts.point, at)))
