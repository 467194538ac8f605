"""Load cases of points: which of the tabulated combinations each has, and the factors of each case.

A point has the combinations of what it carries: without snow none with snow. The tables and how they were read are in
`combination_tables` for ASCE 7 and in `combination_tables_en` for EN 1990.
"""

from collections.abc import Iterator, Sequence
from functools import cache

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.loads.combination_tables import (
    EDITIONS,
    EN1990,
    TRANSIENT,
    LoadCase,
    allowable_cases,
    anchor_service_cases,
    strength_cases,
)
from hangpoint.core.loads.combination_tables_en import en_characteristic_cases, en_strength_cases
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

SPRINKLER_LOAD = 250.0
"""lbf, added at a support point of a sprinkler line (sprinkler standard, performance route)."""

SPRINKLER_WEIGHTS = 5.0
"""How often the rule counts the filled weight for the parts of a hanger."""


def weight_in_rule(rule: Floats) -> Floats:
    """The weight that a stated load of the sprinkler rule counts five times, lbf."""
    return np.maximum(rule - SPRINKLER_LOAD, 0.0) / SPRINKLER_WEIGHTS


def structure_in_rule(rule: Floats) -> Floats:
    """What a stated load of the sprinkler rule says that hangs there: its weight once, and 250 lb; lbf."""
    return weight_in_rule(rule) + np.clip(rule, 0.0, SPRINKLER_LOAD)


_STRENGTH_CASES, _SERVICE_CASES = tuple(strength_cases()), tuple(anchor_service_cases())
CASES: tuple[LoadCase, ...] = (
    *_STRENGTH_CASES,
    *_SERVICE_CASES,
    *en_strength_cases(),
    LoadCase(name="as given", source="the request", given=1.0),
)
"""Strength cases of ASCE 7 in the order in which the first largest governs, then from `SERVICE_FROM` on those of
allowable-stress design for anchors, and from `EN_FROM` on those of EN 1990; from the last on all are loads as given."""

SERVICE_FROM = len(_STRENGTH_CASES)
EN_FROM = SERVICE_FROM + len(_SERVICE_CASES)

ALLOWABLE_CASES: tuple[LoadCase, ...] = (*allowable_cases(), *en_characteristic_cases())
"""Combinations of allowable-stress design, then the characteristic ones of EN 1990."""

_NAMES = [case.name for case in CASES]
DEAD, DEAD_LIVE = _NAMES.index("1.4D"), _NAMES.index("1.2D+1.6L")
SPRINKLER, SPRINKLER_STATED = _NAMES.index("5W+250lb"), _NAMES.index("sprinkler rule as stated")
GIVEN = len(CASES) - 1
ALWAYS = (DEAD, DEAD_LIVE)
"""Cases of ASCE 7 that every point has."""
EN_ALWAYS = tuple(
    index
    for index in range(EN_FROM, GIVEN)
    if not (any(CASES[index].transient()) or CASES[index].emptied or CASES[index].earthquake or CASES[index].fire)
)
"""Those of EN 1990 of dead load and contents, and of live load beside them."""

_OPTIONAL = ("live", *TRANSIENT, "earthquake")
"""Natures without which a combination that names them adds nothing; live load asks for it as a companion only."""

_SPRINKLER_LINE, _EMPTIED, _SERVICE, _FIRE = range(len(_OPTIONAL), len(_OPTIONAL) + 4)
_CARRIED = (*_OPTIONAL, "sprinkler", "emptied")
_BITS = 1 << np.arange(len(_CARRIED))
EVERYTHING = (1 << len(_CARRIED)) - 1
"""The bits of a point that carries everything, and stands in no fire."""
IN_FIRE = 1 << _FIRE
"""The bit of a point that stands in a fire."""

PLAIN = EVERYTHING & ~sum(1 << _OPTIONAL.index(name) for name in (*TRANSIENT, "earthquake") if name != "test")
"""The bits of a point that states no transient load and no earthquake: a run may be tested."""

_TEST, _RULE = (1 << _OPTIONAL.index(name) for name in ("test", "sprinkler_rule"))


@frozen
class Present:
    """What the points carry, (points,) each: natures of load beyond dead load and contents.

    ``sprinkler`` is a sprinkler line; ``emptied`` where the combinations hold without contents as well;
    ``service`` where they are those of allowable-stress design, ``fire`` where a fire is to be withstood, nowhere if
    None.
    """

    live: Bools
    roof_live: Bools
    snow: Bools
    wind: Bools
    test: Bools
    thermal: Bools
    sprinkler_rule: Bools
    earthquake: Bools
    sprinkler: Bools
    emptied: Bools
    service: Bools | None = None
    fire: Bools | None = None

    def bits(self) -> Index:
        """All of it as one integer a point."""
        carried = np.array([getattr(self, name) for name in _CARRIED])
        found: Index = _BITS @ carried
        if self.service is not None:
            found[self.service] |= 1 << _SERVICE
        if self.fire is not None:
            found[self.fire] |= IN_FIRE
        return found


@frozen
class Factors:
    """Load factors of each case, (cases,); ``transient`` (cases, 6) in the order of `TRANSIENT`."""

    dead: Floats
    contents: Floats
    live: Floats
    sprinkler: Floats
    given: Floats
    transient: Floats
    earthquake: Floats
    vertical: Floats
    turned: Bools

    def take(self, cases: Index) -> "Factors":
        """Those of some of the cases."""
        return Factors(
            dead=self.dead[cases],
            contents=self.contents[cases],
            live=self.live[cases],
            sprinkler=self.sprinkler[cases],
            given=self.given[cases],
            transient=self.transient[cases],
            earthquake=self.earthquake[cases],
            vertical=self.vertical[cases],
            turned=self.turned[cases],
        )


def _columns(cases: Sequence[LoadCase]) -> Factors:
    return Factors(
        dead=np.array([case.dead for case in cases]),
        contents=np.array([case.contents for case in cases]),
        live=np.array([case.live for case in cases]),
        sprinkler=np.array([case.sprinkler for case in cases]),
        given=np.array([case.given for case in cases]),
        transient=np.array([case.transient() for case in cases]),
        earthquake=np.array([case.earthquake for case in cases]),
        vertical=np.array([case.vertical for case in cases]),
        turned=np.array([case.turned for case in cases], dtype=np.bool_),
    )


_FACTORS, _ALLOWABLE = _columns(CASES), _columns(ALLOWABLE_CASES)


def factors(load_case: Index) -> Factors:
    """Load factors of cases by their index into `CASES`; from `GIVEN` on all are loads as given.

    Args:
        load_case: (cases,).
    """
    return _FACTORS.take(np.minimum(load_case, GIVEN))


def allowable_factors(load_case: Index) -> Factors:
    """Factors of combinations of allowable-stress design by their index into `ALLOWABLE_CASES`, (cases,)."""
    return _ALLOWABLE.take(load_case)


def _needs(case: LoadCase) -> int:
    """Bits of what a point must carry to have the case."""
    companion = case.live in (1.0, 0.75) or case.edition == EN1990
    needs = [name for name in _OPTIONAL if getattr(case, name) and (name != "live" or companion)]
    found = sum(1 << _OPTIONAL.index(name) for name in needs)
    if case.sprinkler and not case.live:
        found |= 1 << _SPRINKLER_LINE
    if case.fire:
        found |= IN_FIRE
    return found | (1 << _EMPTIED if case.emptied else 0)


@cache
def cases_of(bits: int, edition: str, *, allowable: bool = False) -> tuple[int, ...]:
    """Indices of the cases of a point that carries what the bits say (`Present`), in the order of the table.

    ``edition`` is the load standard: one of `EDITIONS`, or EN 1990, by which nothing has service combinations.
    """
    live = 1 << _OPTIONAL.index("live")
    if bits >> _SPRINKLER_LINE & 1:
        bits |= live
    return tuple(
        index
        for index, case in _tabulated(bits, edition, allowable=allowable)
        if not _needs(case) & ~bits and case.holds_in(edition)
    )


def _tabulated(bits: int, edition: str, *, allowable: bool) -> Iterator[tuple[int, LoadCase]]:
    """The cases to choose from with their indices."""
    if allowable:
        return enumerate(ALLOWABLE_CASES)
    if edition == EN1990:
        return enumerate(CASES[EN_FROM:GIVEN], start=EN_FROM)
    if bits >> _SERVICE & 1:
        return enumerate(CASES[SERVICE_FROM:EN_FROM], start=SERVICE_FROM)
    return enumerate(CASES[:SERVICE_FROM])


def lay_out(bits: Index, edition: str, *, allowable: bool = False) -> tuple[Index, Index]:
    """The cases of points.

    Args:
        bits: (points,) of `Present`.
        edition: the load standard, as `cases_of` takes it.
        allowable: the combinations of allowable-stress design instead of those of strength design.

    Returns:
        (cases,) ``point_of_case`` in rising order, and ``load_case`` as index into the table.
    """
    distinct = sorted(set(bits.tolist()))
    kind = np.searchsorted(distinct, bits)
    tables = [cases_of(each, edition, allowable=allowable) for each in distinct]
    width = max(map(len, tables), default=0)
    padded = np.array([(*table, *(-1,) * (width - len(table))) for table in tables], dtype=np.intp).reshape(
        len(tables), width
    )
    of_point = padded[kind]
    point_of_case, place = np.nonzero(of_point >= 0)
    return point_of_case, of_point[point_of_case, place]


_WITH_CONTENTS = np.array([_NAMES.index(case.full or case.name) for case in CASES])
_TESTED = np.array([case.test > 0 for case in CASES])
_EMPTY = np.array([case.emptied for case in CASES])
_RULED = np.isin(np.arange(len(CASES)), (SPRINKLER, SPRINKLER_STATED))
_MAY_CHANGE = _EMPTY | _TESTED | _RULED


def acting(load_case: Index, bits: Index) -> Index:
    """The case whose factors act on a point that has a load case only because a point beside it has.

    Contents that it doesn't leave out stay in; in the case of a sprinkler rule it has that of its own, or 1.2D+1.6L.

    Args:
        load_case: (cases,) indices into `CASES`.
        bits: (cases,) of `Present`, what the point of the case carries itself.
    """
    if not some(_MAY_CHANGE[load_case]):
        return load_case
    kept = (_EMPTY[load_case] & (bits >> _EMPTIED & 1 == 0)) | (_TESTED[load_case] & (bits & _TEST == 0))
    acts = np.where(kept, _WITH_CONTENTS[load_case], load_case)
    ruled = _RULED[acts]
    if not some(ruled):
        return acts
    line, stated = bits >> _SPRINKLER_LINE & 1 > 0, bits & _RULE > 0
    return np.where(ruled, np.where(line, SPRINKLER, np.where(stated, SPRINKLER_STATED, DEAD_LIVE)), acts)


__all__ = [
    "ALLOWABLE_CASES",
    "ALWAYS",
    "CASES",
    "DEAD",
    "DEAD_LIVE",
    "EDITIONS",
    "EN1990",
    "EN_ALWAYS",
    "EN_FROM",
    "EVERYTHING",
    "GIVEN",
    "IN_FIRE",
    "PLAIN",
    "SERVICE_FROM",
    "SPRINKLER",
    "SPRINKLER_LOAD",
    "SPRINKLER_STATED",
    "SPRINKLER_WEIGHTS",
    "TRANSIENT",
    "Factors",
    "LoadCase",
    "Present",
    "acting",
    "allowable_factors",
    "cases_of",
    "factors",
    "lay_out",
    "structure_in_rule",
    "weight_in_rule",
]
