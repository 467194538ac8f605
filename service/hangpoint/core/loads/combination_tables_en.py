"""Load combinations of EN 1990 as tables of factors: (6.10), (6.11b), fire, (6.12b), earthquake, (6.14b), service.

Documents: EN 1990:2002, 6.4.3.2 to 6.4.3.4 and 6.5.3, with the recommended factors of tables A1.1 and A1.2(B), from
memory. A National Annex may state others. The alternative of (6.10a) and (6.10b), which asks for no more, is not taken.

Readings of this project:

* contents of a pipe are a variable action that accompanies others in full (psi_0 1.0), and so is the test fluid that
  takes their place in a test;
* the category of use that an imposed load belongs to isn't known: psi_0 is 1.0, the largest of table A1.1;
* snow has the psi_0 of sites above 1000 m, the larger one;
* imposed load on a roof (category H) never acts with snow or wind (EN 1991-1-1, 3.3.2), and its psi_0 is 0: where
  another load leads it is left out;
* every variable load may be absent, so each combination is also there without its companions;
* dead load is of one source, all of it unfavourable (1.35) or all of it favourable (1.0);
* where contents may relieve some anchor of a group, a combination also holds without them;
* earthquake is stated as the design value A_Ed: it acts beside dead load and contents with the factor 1.0, either way
  (``turned``), and its vertical effect is part of what is stated; the others accompany it with psi_2, that of imposed
  load being 0.8, the largest of table A1.1, that of snow 0.2, of wind, temperature and category H 0;
* in fire dead load and contents act in full, one load leads with psi_1 and the others accompany it with psi_2: of the
  two that (6.11b) leaves to a National Annex psi_1 is the larger. That of imposed load is 0.9, the largest of table
  A1.1, of snow 0.5, as above 1000 m, of wind 0.2, of temperature 0.5, of category H 0. Earthquake never acts with it;
* beside loads that are compared with allowable ones it acts in full as well (common practice, no source);
* the sprinkler rule is in none of these combinations: a point with it has the cases without.

A load that leads takes 1.5 and others 1.5 psi_0. Where contents or live load lead, all others have no more than where
one of these leads, as their own factor is the same: those cases lie between others and are left out.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import chain, combinations
from typing import Any

from hangpoint.core.loads.combination_tables import EN1990, LoadCase, either_way, printed

GAMMA_G = (1.35, 1.0)
"""Unfavourable, favourable."""
GAMMA_Q = 1.5

PSI_0: Mapping[str, float] = {"snow": 0.7, "wind": 0.6, "thermal": 0.6, "roof_live": 0.0}
PSI_2: Mapping[str, float] = {"live": 0.8, "snow": 0.2}
"""Of what accompanies earthquake, or the leading load in fire; contents accompany them in full."""
PSI_1: Mapping[str, float] = {"live": 0.9, "snow": 0.5, "wind": 0.2, "thermal": 0.5}
"""Of what leads in fire."""
_SYMBOLS: Mapping[str, str] = {"live": "L", "snow": "S", "wind": "W", "thermal": "T", "roof_live": "Lr"}
_NEVER_WITH_ROOF = {"snow", "wind"}


def _shares() -> Iterator[dict[str, float]]:
    """What each load has of its factor: none of them, then every set of those that act together, each load leading."""
    yield {}
    for acting in chain.from_iterable(combinations(PSI_0, count) for count in range(1, len(PSI_0) + 1)):
        if "roof_live" in acting and _NEVER_WITH_ROOF & {*acting}:
            continue
        for leading in acting:
            others = {name: PSI_0[name] for name in acting if name != leading}
            if all(others.values()):
                yield {leading: 1.0, **others}


def _term(factor: float, symbol: str) -> str:
    return f"{printed(factor)}{symbol}"


def _case(source: str, dead: float, variable: float, shares: Mapping[str, float], *, live: bool) -> LoadCase:
    """Dead load, contents, live load if so, and their shares of others."""
    own: Mapping[str, Any] = {name: round(variable * share, 6) for name, share in shares.items()}
    parts = [_term(dead, "G"), _term(variable, "C"), *([_term(variable, "L")] if live else [])]
    imposed = variable if live else 0.0
    return LoadCase(
        name="+".join([*parts, *(_term(factor, _SYMBOLS[name]) for name, factor in own.items())]),
        source=source,
        dead=dead,
        contents=variable,
        live=imposed,
        sprinkler=imposed,
        edition=EN1990,
        **own,
    )


def _without_contents(case: LoadCase, text: str, *, emptied: bool = False, test: float = 0.0) -> LoadCase:
    name = case.name.replace(f"+{_term(case.contents, 'C')}", "")
    return replace(case, name=f"{name} {text}", contents=0.0, test=test, emptied=emptied, full=case.name)


def _shaken(source: str) -> Iterator[LoadCase]:
    """Every combination of earthquake, (6.12b), each also with earthquake the other way."""
    accompanying = chain.from_iterable(combinations(PSI_2, count) for count in range(len(PSI_2) + 1))
    for acting in accompanying:
        own: Mapping[str, Any] = {name: PSI_2[name] for name in acting}
        parts = [_term(1.0, "G"), _term(1.0, "C"), "AEd", *(_term(own[name], _SYMBOLS[name]) for name in acting)]
        case = LoadCase(
            name="+".join(parts), source=source, dead=1.0, contents=1.0, earthquake=1.0, edition=EN1990, **own
        )
        yield from either_way([replace(case, sprinkler=case.live)])


def _in_fire() -> Iterator[LoadCase]:
    """Every combination of fire, (6.11b): none, and each leading load with every set of what accompanies it."""
    shares: list[Mapping[str, Any]] = [{}]
    for leading in PSI_1:
        others = [name for name in PSI_2 if name != leading]
        sets = chain.from_iterable(combinations(others, count) for count in range(len(others) + 1))
        shares += [{leading: PSI_1[leading], **{name: PSI_2[name] for name in acting}} for acting in sets]
    for own in shares:
        parts = [_term(1.0, "G"), _term(1.0, "C"), *(_term(factor, _SYMBOLS[name]) for name, factor in own.items())]
        case = LoadCase(
            name=f"{'+'.join(parts)}, fire",
            source="EN 1990 (6.11b)",
            dead=1.0,
            contents=1.0,
            edition=EN1990,
            fire=True,
            **own,
        )
        yield replace(case, sprinkler=case.live)


def en_strength_cases() -> Iterator[LoadCase]:
    """Every combination of (6.10), (6.12b), (6.11b) of loads by nature; of equal ones the first governs."""
    source, tested = "EN 1990 (6.10)", "common practice, as EN 1990 (6.10)"
    full = [
        _case(source, dead, GAMMA_Q, shares, live=live)
        for dead in GAMMA_G
        for shares in _shares()
        for live in (False, True)
    ]
    yield from full
    for case in full:
        if not any(case.transient()):
            yield _without_contents(replace(case, source=tested), "with the test fluid", test=GAMMA_Q)
    for case in full:
        if case.dead > 1.0 or case.live or any(case.transient()):
            yield _without_contents(case, "without contents", emptied=True)
    shaken = list(_shaken("EN 1990 (6.12b)"))
    yield from shaken
    for case in shaken:
        yield _without_contents(case, "without contents", emptied=True)
    burning = list(_in_fire())
    yield from burning
    for case in burning:
        yield _without_contents(case, "without contents", emptied=True)


def en_characteristic_cases() -> Iterator[LoadCase]:
    """Every characteristic combination, (6.14b), for loads that are compared with allowable ones."""
    source, tested = "EN 1990 (6.14b)", "common practice, as EN 1990 (6.14b)"
    full = [_case(source, 1.0, 1.0, shares, live=live) for shares in _shares() for live in (False, True)]
    yield from full
    for case in full[:2]:
        yield _without_contents(replace(case, source=tested), "with the test fluid", test=1.0)
    yield from (case for case in _shaken("common practice, as EN 1990 (6.12b)") if not case.turned)
