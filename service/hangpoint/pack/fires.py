"""Fires that points of EN 1992-4 are to withstand, as columns, and what is taken of them."""

import numpy as np

from hangpoint.core.en1992_4.fire import class_of
from hangpoint.core.hang_point.fires import ONE_SIDE, SEVERAL_SIDES, Fires
from hangpoint.core.hang_point.points import Bases, GivenLoads
from hangpoint.core.hang_point.surroundings import SILENT, Environments
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows, places

_SIDES = {"one": ONE_SIDE, "several": SEVERAL_SIDES}


def pack_fires(items: Rows, environments: Environments, *, by_en: bool) -> Fires | None:
    """Read ``environment.fire_sides``; None where no point that goes by EN 1992-4 has a fire rating.

    Flaws: sides without a rating, and of another design code.
    """
    environment, hours = items.child("environment"), environments.fire_rating
    sides = environment.codes("fire_sides", _SIDES)
    for at in places(sides >= 0) if some(sides >= 0) else ():
        if not by_en:
            what = "This goes with en1992_4; aci318_19 checks nothing in fire."
            environment.flaw(at, "fire_sides", what, code="contradiction")
        elif hours[at] == 0:
            what = "Sides exposed to fire go with the rating that is asked for: state it, or leave them out."
            environment.flaw(at, "fire_rating", what, code="missing")
    if not by_en or not some(hours > 0):
        return None
    return Fires(minutes=class_of(hours), hours=hours, sides=sides)


def fire_assumptions(fires: Fires, bases: Bases, given: GivenLoads, assumptions: Flags, not_checked: Flags) -> None:
    """What is taken of points that are to withstand a fire, and what of it is not checked."""
    burns, cornered = fires.minutes > 0, np.isfinite(bases.c_a).any(axis=1)
    assumptions.set(Assumption.EN_FIRE, burns)
    assumptions.set(Assumption.FIRE_SIDES, burns & cornered & (fires.sides == SILENT))
    factored = np.zeros(len(burns), dtype=np.bool_)
    factored[given.point] = True
    assumptions.set(Assumption.FIRE_GIVEN, burns & factored)
    not_checked.clear(NotChecked.FIRE, burns)
    not_checked.set(NotChecked.FATIGUE, burns)
