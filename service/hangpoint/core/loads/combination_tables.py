"""Load combinations as tables of factors: strength and allowable stress, ASCE 7-16 and 7-22.

Documents: ASCE 7-16 and 7-22, 2.3.1 and 2.3.6 (strength), 2.4.1 and 2.4.5 (allowable stress), as ACI 318-19 5.3.1 takes
the former; 13.3.1 with Omega_0 left to the anchor's own option. The two editions differ here in snow alone, which is at
strength level in 7-22 (1.0S, 0.3S, 0.15S and 0.7S, from memory); they are never mixed.

Readings of this project:

* contents of a pipe have the factor of dead load, and so have the test fluid that takes their place in a test and the
  combinations of the test (common practice, the standards give fluids the factor of dead load);
* L in a companion place has the factor 1.0, the reduction to 0.5 is not taken;
* every transient load may be absent, so each combination is also there without its companions;
* thermal loads and thrusts, stated as given, have the factor 1.2 beside dead and live load and 1.0 beside snow, wind
  and earthquake (2.3.4 asks for 1.0 or more), at allowable stress 1.0; where dead load holds them back, 0.9 and 0.6 of
  it do (common practice); as they may be absent, each combination is also there without them;
* earthquake acts either way (``turned``), its vertical part is 0.2 S_DS of dead load and contents (13.3.1.2);
* the sprinkler rule is a case of its own and never combined (reading 29): 5 W + 250 lb of a sprinkler line, or as the
  request states it for a shared support;
* where contents may relieve some anchor of a group, a combination also holds without them.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from hangpoint.core.frozen import frozen

TRANSIENT = ("roof_live", "snow", "wind", "test", "thermal", "sprinkler_rule")
"""Load natures beyond dead, contents, live and earthquake, in the order of the columns of factors."""

ASCE7_16, ASCE7_22 = "asce7_16", "asce7_22"
EDITIONS = (ASCE7_16, ASCE7_22)
EN1990 = "en1990"
"""The combinations of EN 1990, which have a module of their own and none in common with those of `EDITIONS`."""


@frozen
class LoadCase:
    """Name and factors of one load case; ``given`` multiplies a load that the request already factored.

    ``earthquake`` is the factor of its horizontal effect, acting the other way where ``turned``; ``vertical`` that of
    0.2 S_DS times dead load and contents. ``edition`` is empty where both editions of ASCE 7 have the case. ``full`` is
    the name of the case that has contents, of one that has the test fluid in their place or is ``emptied``. In those of
    ``fire`` it acts on the anchors.
    """

    name: str
    source: str
    dead: float = 0.0
    contents: float = 0.0
    live: float = 0.0
    sprinkler: float = 0.0
    given: float = 0.0
    roof_live: float = 0.0
    snow: float = 0.0
    wind: float = 0.0
    test: float = 0.0
    thermal: float = 0.0
    sprinkler_rule: float = 0.0
    earthquake: float = 0.0
    vertical: float = 0.0
    turned: bool = False
    edition: str = ""
    emptied: bool = False
    fire: bool = False
    full: str = ""

    def holds_in(self, load_standard: str) -> bool:
        """Whether it is a combination of a load standard, one of `EDITIONS` or EN 1990."""
        return self.edition == load_standard or (not self.edition and load_standard in EDITIONS)

    def transient(self) -> tuple[float, ...]:
        """Factors of `TRANSIENT`, in order."""
        return tuple(getattr(self, name) for name in TRANSIENT)


def _permanent(name: str, source: str, permanent: float, *, variable: float = 0.0) -> LoadCase:
    return LoadCase(name=name, source=source, dead=permanent, contents=permanent, live=variable, sprinkler=variable)


def _also(case: LoadCase, text: str, *, edition: str = "", **factors: float) -> LoadCase:
    """The case with further factors, which its name says."""
    if "live" in factors:
        factors["sprinkler"] = factors["live"]
    return replace(case, name=case.name + text, edition=edition or case.edition, **factors)


_SNOW = {ASCE7_16: (1.6, 0.5, 0.2), ASCE7_22: (1.0, 0.3, 0.15)}
"""Factors of snow: alone, beside live load or wind, beside earthquake."""
_SOURCE_22 = ("ASCE 7-22 2.3.1", "ASCE 7-22 2.3.1", "ASCE 7-22 2.3.6")
"""What has these of 7-22: ACI 318-19 5.3.1 has those of 7-16."""


def printed(factor: float) -> str:
    """A factor as names of cases have it, with a decimal at least."""
    return f"{factor:g}" if factor % 1 else f"{factor:.1f}"


def _snow(case: LoadCase, place: int) -> Iterator[LoadCase]:
    for edition, factors in _SNOW.items():
        own = replace(case, source=_SOURCE_22[place]) if edition == ASCE7_22 else case
        yield _also(own, f"+{printed(factors[place])}S", edition=edition, snow=factors[place])


def _combined() -> Iterator[LoadCase]:
    """The cases with a transient load or earthquake, thermal loads aside, without those turned the other way."""
    live = _permanent("1.2D+1.6L", "ACI 318-19 5.3.1b", 1.2, variable=1.6)
    yield from (*_snow(live, 1), _also(live, "+0.5Lr", roof_live=0.5))
    alone = _permanent("1.2D", "ACI 318-19 5.3.1c", 1.2)
    for roof in (_also(alone, "+1.6Lr", roof_live=1.6), *_snow(alone, 0)):
        yield from (roof, _also(roof, "+L", live=1.0), _also(roof, "+0.5W", wind=0.5))
    blown = _also(replace(alone, source="ACI 318-19 5.3.1d"), "+1.0W", wind=1.0)
    for wind in (blown, _also(blown, "+L", live=1.0)):
        yield from (wind, *_snow(wind, 1), _also(wind, "+0.5Lr", roof_live=0.5))
    yield _also(_permanent("0.9D", "ACI 318-19 5.3.1f", 0.9), "+1.0W", wind=1.0)
    quake = _also(replace(alone, source="ACI 318-19 5.3.1e, ASCE 7 2.3.6"), "+Ev+Eh", earthquake=1.0, vertical=1.0)
    for shaken in (quake, _also(quake, "+L", live=1.0)):
        yield from (shaken, *_snow(shaken, 2))
    least = _permanent("0.9D", "ACI 318-19 5.3.1g, ASCE 7 2.3.6", 0.9)
    yield _also(least, "-Ev+Eh", earthquake=1.0, vertical=-1.0)


def either_way(cases: Iterable[LoadCase]) -> Iterator[LoadCase]:
    """The cases, each with earthquake followed by itself with earthquake the other way."""
    for case in cases:
        yield case
        if case.earthquake:
            yield replace(case, name=f"{case.name}, earthquake reversed", turned=True)


def _warm(case: LoadCase, factor: float) -> LoadCase:
    return _also(case, f"+{printed(factor)}T", thermal=factor)


def _emptied(case: LoadCase) -> LoadCase:
    return replace(case, name=f"{case.name} without contents", contents=0.0, emptied=True, full=case.name)


def strength_cases() -> Iterator[LoadCase]:
    """Every strength case of loads by nature, in the order in which the first largest governs."""
    dead = _permanent("1.4D", "ACI 318-19 5.3.1a", 1.4)
    live = _permanent("1.2D+1.6L", "ACI 318-19 5.3.1b", 1.2, variable=1.6)
    rule, thermal, tested = (
        "sprinkler standard, performance route",
        "ASCE 7 2.3.4",
        "common practice, as ACI 318-19 5.3.1",
    )
    yield from (dead, live)
    yield LoadCase(name="5W+250lb", source=rule, dead=5.0, contents=5.0, sprinkler=1.0)
    yield LoadCase(name="sprinkler rule as stated", source=rule, sprinkler_rule=1.0)
    combined = list(_combined())
    plain = [_permanent("1.2D", thermal, 1.2), replace(live, source=thermal), _permanent("0.9D", thermal, 0.9)]
    warm = [*(_warm(case, 1.2) for case in plain), *(_warm(case, 1.0) for case in combined)]
    several = [*either_way(combined), *either_way(warm)]
    yield from several
    yield LoadCase(name="1.4D with the test fluid", source=tested, dead=1.4, test=1.4, full=dead.name)
    wet = LoadCase(name="1.2D+1.6L with the test fluid", source=tested, dead=1.2, test=1.2, live=1.6, sprinkler=1.6)
    yield replace(wet, full=live.name)
    for case in (dead, live, *several):
        yield _emptied(case)


_SERVICE_SNOW = {ASCE7_16: 1.0, ASCE7_22: 0.7}


def _service_roof(case: LoadCase, share: float) -> Iterator[LoadCase]:
    yield _also(case, f"+{printed(share)}Lr", roof_live=share)
    yield from _service_snow(case, share)


def _service_snow(case: LoadCase, share: float) -> Iterator[LoadCase]:
    for edition, factor in _SERVICE_SNOW.items():
        snow = round(share * factor, 6)
        yield _also(case, f"+{printed(snow)}S", edition=edition, snow=snow)


def _service() -> Iterator[LoadCase]:
    source, seismic = "ASCE 7 2.4.1", "ASCE 7 2.4.5"
    dead = _permanent("D", source, 1.0)
    yield from (dead, _also(dead, "+L", live=1.0), *_service_roof(dead, 1.0), _also(dead, "+0.6W", wind=0.6))
    most = _also(dead, "+0.75L", live=0.75)
    yield from _service_roof(most, 0.75)
    for base in (dead, most):
        gusty = _also(base, "+0.45W", wind=0.45)
        yield from (gusty, *_service_roof(gusty, 0.75))
    yield _also(_permanent("0.6D", source, 0.6), "+0.6W", wind=0.6)
    yield _also(replace(dead, source=seismic), "+0.7Ev+0.7Eh", earthquake=0.7, vertical=0.7)
    shaken = _also(replace(dead, source=seismic), "+0.525Ev+0.525Eh", earthquake=0.525, vertical=0.525)
    for base in (shaken, _also(shaken, "+0.75L", live=0.75)):
        yield from (base, *_service_snow(base, 0.75))
    yield _also(_permanent("0.6D", seismic, 0.6), "-0.7Ev+0.7Eh", earthquake=0.7, vertical=-0.7)


def allowable_cases() -> Iterator[LoadCase]:
    """Every combination of allowable-stress design, ASCE 7 2.4.1 and 2.4.5; earthquake acts as stated.

    Snow beside earthquake is 0.75 of the service snow in both editions (7-22 asks for less, from memory).
    """
    cold = list(_service())
    yield from cold
    yield from (_warm(case, 1.0) for case in (*cold, _permanent("0.6D", "ASCE 7 2.4.4", 0.6)))
    tested = "common practice, as ASCE 7 2.4.1"
    yield LoadCase(name="D with the test fluid", source=tested, dead=1.0, test=1.0, full="D")
    live = LoadCase(name="D+L with the test fluid", source=tested, dead=1.0, test=1.0, live=1.0, sprinkler=1.0)
    yield replace(live, full="D+L")


def anchor_service_cases() -> Iterator[LoadCase]:
    """The combinations of allowable-stress design for anchors: earthquake either way, and without contents as well."""
    full = list(either_way(allowable_cases()))
    yield from full
    for case in full:
        if not case.test:
            yield _emptied(case)
