"""Roof live load, snow, wind, test, thermal, the stated sprinkler rule and earthquake in each load case.

Documents: ASCE 7 2.3 and 13.3.1.2 for the vertical effect of earthquake, 0.2 S_DS times dead load and contents.
Tension of earthquake is taken to pull, whichever way it is stated, its shear and its moments about the centre of the
anchors act either way: what they do to the anchors doesn't depend on where the origin lies. Thermal loads stay, all
others come and go. Units: lbf, lbf*in.
"""

from typing import Annotated, ClassVar, Self

import numpy as np

from hangpoint.core.clauses import EARTHQUAKE_COMBINED, LASTING, TRANSIENT_COMBINED, VERTICAL_EARTHQUAKE
from hangpoint.core.frozen import frozen
from hangpoint.core.loads.combinations import TRANSIENT, Factors
from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Index, Record, formula, given, record

_STAYS = np.array([float(name == "thermal") for name in TRANSIENT])
FORCES = ("tension", "shear along x", "shear along y")
MOMENTS = ("moment about x", "moment about y", "torsion")
_VERTICAL = "vertical * 0.2 * s_ds * p_permanent"
_HORIZONTAL = "gamma_e * (where(turned, -p_e, p_e) + p_pull)"


@record
class FurtherForce(Record):
    """One component of the loads beyond dead, contents and live, in one load case."""

    TITLE: ClassVar[str] = "forces of transient loads and earthquake"
    AXIS: ClassVar[Axis] = Axis.CASE

    component: Annotated[Codes, given("component", labels=FORCES)]
    gamma: Annotated[Floats, given("γ", clause=TRANSIENT_COMBINED, axis=Axis.NATURE)]
    p: Annotated[Floats, given("P", "lbf", axis=Axis.NATURE)]
    p_transient: Annotated[Floats, formula("ΣγP", "lbf", "sum(gamma * p)", clause=TRANSIENT_COMBINED)]
    gamma_e: Annotated[Floats, given("γ of earthquake", clause=EARTHQUAKE_COMBINED)]
    turned: Annotated[Bools, given("earthquake acts the other way")]
    p_e: Annotated[Floats, given("E_h", "lbf")]
    p_pull: Annotated[Floats, given("of a pull beside the load, never turned", "lbf")]
    p_horizontal: Annotated[Floats, formula("γE_h", "lbf", _HORIZONTAL, clause=EARTHQUAKE_COMBINED)]
    vertical: Annotated[Floats, given("factor of the vertical effect", clause=EARTHQUAKE_COMBINED)]
    s_ds: Annotated[Floats, given("S_DS")]
    p_permanent: Annotated[Floats, given("D and contents", "lbf")]
    p_vertical: Annotated[Floats, formula("E_v", "lbf", _VERTICAL, clause=VERTICAL_EARTHQUAKE)]
    p_quake: Annotated[Floats, formula("E", "lbf", "p_horizontal + p_vertical", clause=EARTHQUAKE_COMBINED)]
    p_further: Annotated[Floats, formula("P_u, further", "lbf", "p_transient + p_quake", clause=TRANSIENT_COMBINED)]
    stays: Annotated[Floats, given("1 where it stays", axis=Axis.NATURE)]
    p_stays: Annotated[Floats, formula("P_u,s, further", "lbf", "sum(gamma * p * stays)", clause=LASTING)]


@record
class FurtherMoment(FurtherForce):
    """One moment of the loads beyond dead, contents and live, in one load case."""

    TITLE: ClassVar[str] = "moments of transient loads and earthquake"

    component: Annotated[Codes, given("component", labels=MOMENTS)]
    p: Annotated[Floats, given("M", "lbf*in", axis=Axis.NATURE)]
    p_transient: Annotated[Floats, formula("ΣγM", "lbf*in", "sum(gamma * p)", clause=TRANSIENT_COMBINED)]
    p_e: Annotated[Floats, given("M of E_h about the centre of the anchors", "lbf*in")]
    p_pull: Annotated[Floats, given("M of its pull there about the load, never turned", "lbf*in")]
    p_horizontal: Annotated[Floats, formula("γM of E_h", "lbf*in", _HORIZONTAL, clause=EARTHQUAKE_COMBINED)]
    p_permanent: Annotated[Floats, given("M of D and contents", "lbf*in")]
    p_vertical: Annotated[Floats, formula("M of E_v", "lbf*in", _VERTICAL, clause=VERTICAL_EARTHQUAKE)]
    p_quake: Annotated[Floats, formula("M of E", "lbf*in", "p_horizontal + p_vertical", clause=EARTHQUAKE_COMBINED)]
    p_further: Annotated[Floats, formula("M_u, further", "lbf*in", "p_transient + p_quake", clause=TRANSIENT_COMBINED)]
    p_stays: Annotated[Floats, formula("M_u,s, further", "lbf*in", "sum(gamma * p * stays)", clause=LASTING)]


def further_load(
    *,
    component: Codes,
    moment: bool,
    gamma: Floats,
    gamma_e: Floats,
    turned: Bools,
    vertical: Floats,
    p: Floats,
    p_e: Floats,
    p_pull: Floats,
    p_permanent: Floats,
    s_ds: Floats,
) -> FurtherForce:
    """One component a row, (rows,).

    Args:
        component: index into `FORCES` or, where ``moment``, into `MOMENTS`.
        gamma: (rows, 6) factors in the order of `TRANSIENT`; ``gamma_e`` that of earthquake, ``vertical`` that of E_v.
        turned: the earthquake acts the other way, which that of tension never does.
        p: (rows, 6) service loads by nature; ``p_e`` of earthquake, in tension a pull, in moments about the centre of
            the anchors, ``p_permanent`` of dead load and contents.
        p_pull: (rows,) moment of a pull at that centre about the place of the load, 0 of forces.
        s_ds: S_DS, 0 where it plays no part.
    """
    p_transient = (gamma * p).sum(axis=1)
    p_horizontal = gamma_e * (np.where(turned, -p_e, p_e) + p_pull)
    p_vertical = vertical * 0.2 * s_ds * p_permanent
    p_quake = p_horizontal + p_vertical
    stays = np.broadcast_to(_STAYS, p.shape).copy()
    return (FurtherMoment if moment else FurtherForce)(
        component=component,
        gamma=gamma,
        p=p,
        p_transient=p_transient,
        gamma_e=gamma_e,
        turned=turned,
        p_e=p_e,
        p_pull=p_pull,
        p_horizontal=p_horizontal,
        vertical=vertical,
        s_ds=s_ds,
        p_permanent=p_permanent,
        p_vertical=p_vertical,
        p_quake=p_quake,
        p_further=p_transient + p_quake,
        stays=stays,
        p_stays=(gamma * p * stays).sum(axis=1),
    )


@frozen
class Service:
    """Service loads of some cases: six components, tension, shear along x and y, moments about x, y and z.

    ``transient`` (cases, 6, natures) in the order of `TRANSIENT`; ``earthquake`` and ``permanent`` (cases, 6).
    ``off`` (cases, 2) is the place of the load from the centre of the anchors, in.
    """

    transient: Floats
    earthquake: Floats
    permanent: Floats
    off: Floats


@frozen
class FurtherLoads:
    """Factored loads beyond dead, contents and live in every case.

    ``load``, ``stays`` and ``quake`` (cases, 6) are all of it, what stays of it and what earthquake makes of it.
    ``cases`` are those that have any; the records have their rows one component after the other.
    """

    load: Floats
    stays: Floats
    quake: Floats
    cases: Index
    forces: FurtherForce | None = None
    moments: FurtherForce | None = None

    @classmethod
    def none(cls, count: int) -> Self:
        """No such loads in so many cases."""
        zero = np.zeros((count, 6))
        return cls(load=zero, stays=zero, quake=zero, cases=np.zeros(0, dtype=np.intp))


def lever(*, off: Floats, n: Floats) -> Floats:
    """Moments (rows, 3) of a tension n (rows,) at a place ``off`` (rows, 2), lbf*in."""
    return np.stack((off[:, 1] * n, -off[:, 0] * n, np.zeros(len(n))), axis=1)


def further_loads(*, cases: Index, count: int, gamma: Factors, service: Service, s_ds: Floats) -> FurtherLoads:
    """The loads of the given cases, zeros in all others.

    Args:
        cases: rising, of ``count``.
        gamma, service: of the same cases.
        s_ds: (cases,) S_DS.
    """
    halves = [
        _half(places, gamma, service, s_ds, moment=moment)
        for places, moment in ((range(3), False), (range(3, 6), True))
    ]
    made = {name: np.zeros((count, 6)) for name in ("p_further", "p_stays", "p_quake")}
    for half, own in enumerate(halves):
        for name, column in made.items():
            column[cases, 3 * half : 3 * half + 3] = getattr(own, name).reshape(3, len(cases)).T
    return FurtherLoads(
        load=made["p_further"],
        stays=made["p_stays"],
        quake=made["p_quake"],
        cases=cases,
        forces=halves[0],
        moments=halves[1],
    )


def _half(places: range, gamma: Factors, service: Service, s_ds: Floats, *, moment: bool) -> FurtherForce:
    """Forces or moments, a row a component and case."""
    count = len(s_ds)
    turned = np.tile(gamma.turned, 3)
    n_e = service.earthquake[:, 0]
    p_e = np.concatenate([service.earthquake[:, place] for place in places])
    p_pull = np.zeros(len(p_e))
    if moment:
        p_e += lever(off=service.off, n=n_e).T.ravel()
        p_pull -= lever(off=service.off, n=np.abs(n_e)).T.ravel()
    else:
        turned[:count] = False
        p_e[:count] = np.abs(n_e)
    return further_load(
        component=np.repeat(np.arange(3, dtype=np.int8), count),
        moment=moment,
        gamma=np.tile(gamma.transient, (3, 1)),
        gamma_e=np.tile(gamma.earthquake, 3),
        turned=turned,
        vertical=np.tile(gamma.vertical, 3),
        p=np.concatenate([service.transient[:, place] for place in places]),
        p_e=p_e,
        p_pull=p_pull,
        p_permanent=np.concatenate([service.permanent[:, place] for place in places]),
        s_ds=np.tile(s_ds, 3),
    )
