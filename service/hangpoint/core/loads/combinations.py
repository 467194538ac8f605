"""Load cases: which factors go with which part of a load.

Strength combinations of ASCE 7 as ACI 318-19 5.3 takes them, for dead, contents and live load; contents of a pipe are
factored as dead load (common practice, the standards give fluids the factor of dead load). The sprinkler rule is a
named case of its own, five times the water-filled weight plus 250 lb, never combined with other factors (reading 29).
"""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from hangpoint.core.quantity import Bools, Index

SPRINKLER_LOAD = 250.0
"""lbf, added at a support point of a sprinkler line (sprinkler standard, performance route)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCase:
    """Name and factors of one load case; ``given`` multiplies a load that the request already factored."""

    name: str
    source: str
    dead: float = 0.0
    live: float = 0.0
    sprinkler: float = 0.0
    given: float = 0.0


class Case(Enum):
    """The load cases, in the order in which the first largest governs."""

    DEAD = LoadCase(name="1.4D", source="ACI 318-19 5.3.1a", dead=1.4)
    DEAD_LIVE = LoadCase(name="1.2D+1.6L", source="ACI 318-19 5.3.1b", dead=1.2, live=1.6, sprinkler=1.6)
    SPRINKLER = LoadCase(name="5W+250lb", source="sprinkler standard, performance route", dead=5.0, sprinkler=1.0)
    GIVEN = LoadCase(name="as given", source="the request", given=1.0)


CASES: tuple[Case, ...] = tuple(Case)
STRENGTH = (CASES.index(Case.DEAD), CASES.index(Case.DEAD_LIVE))
SPRINKLER = CASES.index(Case.SPRINKLER)
GIVEN = CASES.index(Case.GIVEN)


def load_cases(*, sprinkler: Bools, factored: bool) -> tuple[Index, Index]:
    """Lay out the axis of cases: every point has its strength combinations, a sprinkler point its rule as well.

    Args:
        sprinkler: (points,) the point carries a sprinkler line.
        factored: the request gives factored loads, so that each point has one case.

    Returns:
        (cases,) ``point_of_case`` in rising order, and ``load_case`` as index into `CASES`.
    """
    count = len(sprinkler)
    if factored:
        return np.arange(count), np.full(count, GIVEN, dtype=np.intp)
    per_point = len(STRENGTH) + sprinkler.astype(np.intp)
    point_of_case = np.repeat(np.arange(count), per_point)
    starts = np.cumsum(per_point) - per_point
    load_case = np.arange(len(point_of_case)) - np.repeat(starts, per_point)
    return point_of_case, load_case
