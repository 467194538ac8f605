"""Load cases: which factors go with which part of a load.

Strength combinations of ASCE 7 as ACI 318-19 5.3 takes them, for dead, contents and live load; contents of a pipe are
factored as dead load (common practice, the standards give fluids the factor of dead load). The sprinkler rule is a
named case of its own, five times the water-filled weight plus 250 lb, never combined with other factors (reading 29).
Where contents may relieve some anchor of a group, the strength combinations hold once more without them.
"""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index

SPRINKLER_LOAD = 250.0
"""lbf, added at a support point of a sprinkler line (sprinkler standard, performance route)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCase:
    """Name and factors of one load case; ``given`` multiplies a load that the request already factored."""

    name: str
    source: str
    dead: float = 0.0
    contents: float = 0.0
    live: float = 0.0
    sprinkler: float = 0.0
    given: float = 0.0


class Case(Enum):
    """The load cases, in the order in which the first largest governs."""

    DEAD = LoadCase(name="1.4D", source="ACI 318-19 5.3.1a", dead=1.4, contents=1.4)
    DEAD_LIVE = LoadCase(name="1.2D+1.6L", source="ACI 318-19 5.3.1b", dead=1.2, contents=1.2, live=1.6, sprinkler=1.6)
    SPRINKLER = LoadCase(
        name="5W+250lb", source="sprinkler standard, performance route", dead=5.0, contents=5.0, sprinkler=1.0
    )
    DEAD_EMPTY = LoadCase(name="1.4D without contents", source="ACI 318-19 5.3.1a", dead=1.4)
    DEAD_LIVE_EMPTY = LoadCase(
        name="1.2D+1.6L without contents", source="ACI 318-19 5.3.1b", dead=1.2, live=1.6, sprinkler=1.6
    )
    GIVEN = LoadCase(name="as given", source="the request", given=1.0)


CASES: tuple[Case, ...] = tuple(Case)
GIVEN = CASES.index(Case.GIVEN)
_STRENGTH = [Case.DEAD, Case.DEAD_LIVE]
_EMPTY = [Case.DEAD_EMPTY, Case.DEAD_LIVE_EMPTY]
SPRINKLER = CASES.index(Case.SPRINKLER)
DEAD_LIVE = CASES.index(Case.DEAD_LIVE)
_WITH_CONTENTS = np.array(
    [CASES.index({Case.DEAD_EMPTY: Case.DEAD, Case.DEAD_LIVE_EMPTY: Case.DEAD_LIVE}.get(c, c)) for c in CASES]
)
_FACTORS = np.array([[c.value.dead, c.value.contents, c.value.live, c.value.sprinkler, c.value.given] for c in CASES])


@dataclass(frozen=True, slots=True, kw_only=True)
class Factors:
    """Load factors of each case, (cases,)."""

    dead: Floats
    contents: Floats
    live: Floats
    sprinkler: Floats
    given: Floats

    def take(self, cases: Index) -> "Factors":
        """Those of some of the cases."""
        columns = (self.dead, self.contents, self.live, self.sprinkler, self.given)
        dead, contents, live, sprinkler, given = (column[cases] for column in columns)
        return Factors(dead=dead, contents=contents, live=live, sprinkler=sprinkler, given=given)


def factors(load_case: Index) -> Factors:
    """Load factors of cases by their index into `CASES`; from `GIVEN` on all are loads as given.

    Args:
        load_case: (cases,).
    """
    dead, contents, live, sprinkler, given = _FACTORS[np.minimum(load_case, GIVEN)].T.copy()
    return Factors(dead=dead, contents=contents, live=live, sprinkler=sprinkler, given=given)


def with_contents(load_case: Index) -> Index:
    """The load case with contents of each that is without them, otherwise itself, by index into `CASES`."""
    return _WITH_CONTENTS[load_case]


def service_cases(*, sprinkler: Bools, emptied: Bools) -> tuple[Index, Index]:
    """Lay out the cases of loads by nature.

    Every point has its strength combinations, a sprinkler point its rule as well.

    Args:
        sprinkler: (points,) the point carries a sprinkler line.
        emptied: (points,) the combinations hold without contents as well.

    Returns:
        (cases,) ``point_of_case`` in rising order, and ``load_case`` as index into `CASES`.
    """
    always = np.ones(len(sprinkler), dtype=np.bool_)
    by_case = dict.fromkeys(_STRENGTH, always) | {Case.SPRINKLER: sprinkler} | dict.fromkeys(_EMPTY, emptied)
    point_of_case, place = np.nonzero(np.stack(list(by_case.values()), axis=1))
    return point_of_case, np.array([CASES.index(case) for case in by_case])[place]
