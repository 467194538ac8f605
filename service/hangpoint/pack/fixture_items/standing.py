"""Equipment on floors: its anchors, and the corners of what it tips over."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.fixture.items import Standing
from hangpoint.core.geometry.convex import convex_corners
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.statics.support_reaction import stand_in_line
from hangpoint.pack.geometry import SAME_PLACE
from hangpoint.pack.hanger_items.notes import flaw_where, stated
from hangpoint.pack.pull import Rows, owners
from hangpoint.units import LENGTH, OFFSET

_CORNERS = ((-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5))


def pack_standing(bodies: Rows) -> Standing:
    """Read anchors and footprint of floor equipment.

    Flaws: two anchors at one place, all in one line, a quantity out of range.
    """
    lists: Sequence[Sequence[Any]] = bodies.values("anchors_at")
    body = owners(lists)
    x, y = (bodies.listed("anchors_at", lists, OFFSET, name) for name in ("x", "y"))
    _apart(bodies, body, x, y)
    detail = "The anchors stand in one line or nearly so: nothing holds the equipment across it. Give three that don't."
    in_line = stand_in_line(x=x, y=y, body_of_support=body, bodies=len(bodies))
    flaw_where(bodies, in_line, "anchors_at", detail, slug="impossible-geometry")
    gravity = bodies.child("centre_of_gravity")
    body_of_edge, x_edge, y_edge = _edges(bodies, body, x, y)
    return Standing(
        item=np.asarray(bodies.local, dtype=np.intp),
        x_g=gravity.quantity("x", OFFSET, fill=0.0),
        y_g=gravity.quantity("y", OFFSET, fill=0.0),
        body=body,
        x=x,
        y=y,
        body_of_edge=body_of_edge,
        x_edge=x_edge,
        y_edge=y_edge,
    )


def _apart(bodies: Rows, body: Index, x: Floats, y: Floats) -> None:
    """Note anchors that stand where an earlier one of their body stands."""
    start = np.searchsorted(body, np.arange(len(bodies) + 1))
    for at in range(len(bodies)):
        own: Index = np.arange(start[at], start[at + 1], dtype=np.intp)
        near = np.hypot(x[own, None] - x[own], y[own, None] - y[own]) <= SAME_PLACE
        for later in np.flatnonzero(np.tril(near, -1).any(axis=1)).tolist():
            earlier = int(np.argmax(near[later]))
            detail = f"Anchors {earlier} and {later} are at one place."
            bodies.flaw(at, f"anchors_at/{later}", detail, slug="impossible-geometry")


def _edges(bodies: Rows, body: Index, x: Floats, y: Floats) -> tuple[Index, Floats, Floats]:
    """Corners of the footprint where there is one, else of the polygon around the anchors; counterclockwise."""
    footprint = bodies.child("footprint")
    center = footprint.child("center")
    widths = [footprint.quantity(name, LENGTH, fill=0.0) for name in ("width_x", "width_y")]
    middle = [center.quantity(name, OFFSET, fill=0.0) for name in ("x", "y")]
    given = stated(bodies, "footprint")
    own = np.flatnonzero(given)
    corners = np.array(_CORNERS)
    x_c = (middle[0][own, None] + widths[0][own, None] * corners[:, 0]).ravel()
    y_c = (middle[1][own, None] + widths[1][own, None] * corners[:, 1]).ravel()
    start = np.searchsorted(body, np.arange(len(bodies) + 1))
    outer = [
        first + convex_corners(x=x[first:last], y=y[first:last])
        for first, last, has in zip(start[:-1].tolist(), start[1:].tolist(), given.tolist(), strict=True)
        if not has
    ]
    bare = np.concatenate((*outer, np.zeros(0, dtype=np.intp)))
    owner = np.concatenate((np.repeat(own, len(corners)), body[bare]))
    order = np.argsort(owner, kind="stable")
    return owner[order], np.concatenate((x_c, x[bare]))[order], np.concatenate((y_c, y[bare]))[order]
