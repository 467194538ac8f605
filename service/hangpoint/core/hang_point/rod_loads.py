"""The service load of each rod, which meets an allowable one. Units: lbf.

What may be absent can't relieve the rod: contents and live load count only where they pull. Transient loads and
earthquake enter by the combinations of allowable-stress design of the named edition (ASCE 7 2.4), or the characteristic
ones of EN 1990. Of a stated load of the sprinkler rule the weight and the 250 lb hang on the rod; five times the weight
don't meet an allowable load, for that the sprinkler standard has its size table (reading 29).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import SERVICE_COMBINED, SERVICE_EARTHQUAKE
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.points import Points
from hangpoint.core.hang_point.verdict import NONE, Section
from hangpoint.core.hang_point.weights import ServiceLoads
from hangpoint.core.loads.combinations import (
    ALLOWABLE_CASES,
    CASES,
    SERVICE_FROM,
    TRANSIENT,
    Factors,
    allowable_factors,
    structure_in_rule,
)
from hangpoint.core.quantity import Axis, Floats, Index, Record, formula, given, record
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Link

_RULE = TRANSIENT.index("sprinkler_rule")


@record
class RodServiceLoad(Record):
    """Service load of a rod in the combination in which it is largest; all loads as far as they pull."""

    TITLE: ClassVar[str] = "service load of the rod"
    AXIS: ClassVar[Axis] = Axis.LOAD

    n_dead: Annotated[Floats, given("N, dead", "lbf")]
    n_contents: Annotated[Floats, given("N, contents", "lbf")]
    n_live: Annotated[Floats, given("N, live", "lbf")]
    n_sprinkler: Annotated[Floats, given("N, sprinkler rule", "lbf", clause="reading 29")]
    gamma_dead: Annotated[Floats, given("γ of dead load", clause=SERVICE_COMBINED)]
    gamma_contents: Annotated[Floats, given("γ of contents", clause=SERVICE_COMBINED)]
    gamma_live: Annotated[Floats, given("γ of live load", clause=SERVICE_COMBINED)]
    gamma: Annotated[Floats, given("γ", clause=SERVICE_COMBINED, axis=Axis.NATURE)]
    p: Annotated[Floats, given("P", "lbf", axis=Axis.NATURE)]
    p_transient: Annotated[Floats, formula("ΣγP", "lbf", "sum(gamma * p)", clause=SERVICE_COMBINED)]
    gamma_e: Annotated[Floats, given("γ of earthquake", clause=SERVICE_EARTHQUAKE)]
    p_e: Annotated[Floats, given("E_h", "lbf")]
    vertical: Annotated[Floats, given("factor of the vertical effect", clause=SERVICE_EARTHQUAKE)]
    s_ds: Annotated[Floats, given("S_DS")]
    p_quake: Annotated[
        Floats,
        formula("E", "lbf", "gamma_e * p_e + vertical * 0.2 * s_ds * (n_dead + n_contents)", clause=SERVICE_EARTHQUAKE),
    ]
    n: Annotated[
        Floats,
        formula(
            "P on the rod",
            "lbf",
            "gamma_dead * n_dead + gamma_contents * n_contents + gamma_live * (n_live + n_sprinkler)"
            " + p_transient + p_quake",
            clause=SERVICE_COMBINED,
        ),
    ]


def rod_service_load(
    *,
    n_dead: Floats,
    n_contents: Floats,
    n_live: Floats,
    n_sprinkler: Floats,
    p: Floats,
    p_e: Floats,
    s_ds: Floats,
    gamma: Factors,
) -> RodServiceLoad:
    """One combination a row, (rows,); ``p`` (rows, 6) in the order of `TRANSIENT`, ``p_e`` the pull of earthquake."""
    p_transient = (gamma.transient * p).sum(axis=1)
    p_quake = gamma.earthquake * p_e + gamma.vertical * 0.2 * s_ds * (n_dead + n_contents)
    carried = gamma.dead * n_dead + gamma.contents * n_contents + gamma.live * (n_live + n_sprinkler)
    return RodServiceLoad(
        n_dead=n_dead,
        n_contents=n_contents,
        n_live=n_live,
        n_sprinkler=n_sprinkler,
        gamma_dead=gamma.dead,
        gamma_contents=gamma.contents,
        gamma_live=gamma.live,
        gamma=gamma.transient,
        p=p,
        p_transient=p_transient,
        gamma_e=gamma.earthquake,
        p_e=p_e,
        vertical=gamma.vertical,
        s_ds=s_ds,
        p_quake=p_quake,
        n=carried + p_transient + p_quake,
    )


@frozen
class RodLoads:
    """Largest service tension of each rod, (points,), and how it comes about where loads are combined."""

    tension: Floats
    sections: tuple[Section, ...] = ()


def rod_loads(points: Points, loads: ServiceLoads, load_standard: str) -> RodLoads:
    """Largest service tension of each rod."""
    service = loads.most()
    if loads.others is None:
        return RodLoads(tension=service)
    transient = np.maximum(loads.transient[:, 0], 0.0)
    service = np.maximum(service, structure_in_rule(transient[:, _RULE]))
    transient[:, _RULE] = 0.0
    further = transient.any(axis=1) | points.hangs.earthquake[:, 0].astype(np.bool_) | (points.hangs.s_ds > 0)
    if not some(further):
        return RodLoads(tension=service)
    own, cases = np.flatnonzero(further), _cases(load_standard)
    every = _combined(points, loads, transient, np.repeat(own, len(cases)), np.tile(cases, len(own)))
    worst = every.n.reshape(len(own), len(cases)).argmax(axis=1)
    made = _combined(points, loads, transient, own, cases[worst])
    governs = made.n >= service[own]
    row = np.full(points.count, NONE, dtype=np.intp)
    row[own[governs]] = np.flatnonzero(governs)
    service[own] = np.maximum(service[own], made.n)
    named = np.zeros(points.count, dtype=np.intp)
    named[own] = _NAMED[cases[worst]]
    load_case = None if some(named < 0) else named
    return RodLoads(tension=service, sections=(Section(record=made, row=row, link=Link.ROD, load_case=load_case),))


_INDEX = {case.name: at for at, case in reversed(list(enumerate(CASES[SERVICE_FROM:], start=SERVICE_FROM)))}
_NAMED = np.array([_INDEX.get(case.name, -1) for case in ALLOWABLE_CASES], dtype=np.intp)
"""Places in `CASES` of the combinations by allowable stress; -1 of those of EN 1990, which are none of them."""


def _cases(load_standard: str) -> Index:
    return np.flatnonzero([case.holds_in(load_standard) for case in ALLOWABLE_CASES])


def _combined(points: Points, loads: ServiceLoads, transient: Floats, at: Index, cases: Index) -> RodServiceLoad:
    """The load of points in combinations, a row each."""
    return rod_service_load(
        n_dead=loads.dead[at],
        n_contents=np.maximum(loads.contents[at], 0.0),
        n_live=np.maximum(loads.live[at], 0.0),
        n_sprinkler=loads.sprinkler[at],
        p=transient[at],
        p_e=np.abs(points.hangs.earthquake[at, 0]),
        s_ds=points.hangs.s_ds[at],
        gamma=allowable_factors(cases),
    )
