"""What is assumed of several anchors that share a load, of the plate over them and of where shear comes to them."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.hang_point.points import FORCES, Bases, GivenLoads, Hangs
from hangpoint.core.quantity import Bools
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.flags import Flags
from hangpoint.pack.geometry import SAME_PLACE
from hangpoint.pack.layouts import PackedLayouts
from hangpoint.pack.plates import PackedPlates
from hangpoint.pack.pull import Rows, filled


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheared:
    """(points,) where anchors take shear along x and along y."""

    along_x: Bools
    along_y: Bools

    @property
    def any_axis(self) -> Bools:
        """(points,) where they take any."""
        return self.along_x | self.along_y


def shear_of(hangs: Hangs, given: GivenLoads, layouts: PackedLayouts) -> Sheared:
    """Where the loads shear the anchors: several anchors along both axes if the load may turn their plate.

    Only direct forces do.
    """
    count = len(hangs.kind)
    if not np.count_nonzero(hangs.kind == FORCES):
        no = filled(count, False, np.bool_)
        return Sheared(along_x=no, along_y=no)
    v, turns = np.zeros((count, 2), dtype=np.bool_), np.zeros(count, dtype=np.bool_)
    for _, shear, moments in hangs.parts():
        v |= shear != 0
        turns |= moments[:, 2] != 0
    if len(given.point):
        for _, shear, moments in given.parts():
            for axis in (0, 1):
                v[:, axis] |= np.bincount(given.point, weights=shear[:, axis] != 0, minlength=count) > 0
            turns |= np.bincount(given.point, weights=moments[:, 2] != 0, minlength=count) > 0
    if np.count_nonzero(layouts.several):
        turns |= layouts.several & v.any(axis=1) & _off_centre(hangs, layouts)
    return Sheared(along_x=v[:, 0] | turns, along_y=v[:, 1] | turns)


def tension_of(hangs: Hangs, given: GivenLoads) -> Bools:
    """(points,) where the loads may pull at an anchor: a weight, a run, tension, a moment or shear with an arm."""
    pulls, arm = hangs.kind != FORCES, hangs.at[:, 2] != 0
    for n, shear, moments in hangs.parts():
        pulls |= (n != 0) | moments[:, :2].any(axis=1) | (arm & shear.any(axis=1))
    for n, shear, moments in given.parts():
        own = (n != 0) | moments[:, :2].any(axis=1) | (arm[given.point] & shear.any(axis=1))
        pulls |= np.bincount(given.point, weights=own, minlength=len(pulls)) > 0
    return pulls


def _off_centre(hangs: Hangs, layouts: PackedLayouts) -> Bools:
    """(points,) the load acts away from the middle of the anchors, or not all of them resist alike."""
    own, count = layouts.layouts, len(layouts.count)
    middle = [np.bincount(own.point, weights=part, minlength=count) / layouts.count for part in (own.x, own.y)]
    away = np.hypot(hangs.at[:, 0] - middle[0], hangs.at[:, 1] - middle[1]) > SAME_PLACE
    return away | (np.bincount(own.point, weights=~(own.resists_x & own.resists_y), minlength=count) > 0)


def group_assumptions(
    items: Rows, layouts: PackedLayouts, plates: PackedPlates, bases: Bases, sheared: Sheared, assumptions: Flags
) -> None:
    """Flag what is taken for points with several anchors, a layout or a plate."""
    stated = plates.plates.stated
    if not (np.count_nonzero(layouts.stated) or np.count_nonzero(stated)):
        return
    several, shears = layouts.several, sheared.any_axis
    own = layouts.layouts
    off_origin = np.bincount(own.point, weights=(own.x != 0) | (own.y != 0), minlength=len(items)) > 0
    near = np.isfinite(bases.c_a).any(axis=1)
    for member, holds in (
        (Assumption.NO_PLATE, several & ~stated),
        (Assumption.PLATE_ON_CONCRETE, plates.support_assumed),
        (Assumption.RIGID_PLATE, several | stated),
        (Assumption.LIGHTWEIGHT_MODULUS, stated & bases.lightweight),
        (Assumption.EDGES_FROM_ORIGIN, layouts.stated & (several | off_origin)),
        (Assumption.ALL_RESIST, several & shears & ~layouts.resists_stated),
        (Assumption.GROUP_AREA, several & items.child("options").silent("group_area")),
        (Assumption.GROUP_SUBSETS, several),
        (Assumption.EDGE_ROWS, several & shears & near),
    ):
        assumptions.set(member, holds)
