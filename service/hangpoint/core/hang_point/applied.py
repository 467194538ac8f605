"""What acts on every point and on its anchors: service loads, their load cases, and the largest of each."""

import numpy as np

from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.case_loads import case_demand, case_shear
from hangpoint.core.hang_point.cases import LoadCases, fixtures, lay_out_cases
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.distribution import Distribution, distribute
from hangpoint.core.hang_point.fastener_earthquake import FastenersShaken
from hangpoint.core.hang_point.fastener_sustained import psi_2_of_cases
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.turning import Otherwise
from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.hang_point.weights import ServiceLoads, service_loads
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.quantity import Bools, Floats, Index


@frozen
class MostOfAnchors:
    """Largest tension, sustained tension and shear of any anchor in any case of each point, (points,) each, lbf."""

    tension: Floats
    sustained: Floats
    shear: Floats


@frozen
class Applied:
    """Loads of a batch: ``loads`` as they serve, ``demand`` and ``shear`` in every case, ``load`` of every anchor.

    ``fixture`` (points,) has a layout of anchors. ``summary`` is what the answer says of them. ``shaken`` is where
    earthquake acts, None where points don't go by EN 1992-4; ``psi_2`` (cases,) is of `psi_2_of_cases`, 0 there.
    """

    loads: ServiceLoads
    fixture: Bools
    cases: LoadCases
    demand: AnchorDemand
    shear: AnchorShear
    load: Distribution
    summary: Demand
    most: MostOfAnchors
    shaken: FastenersShaken | None
    psi_2: Floats

    @property
    def least_tension(self) -> Floats:
        """Smallest factored tension over the cases of each point without a layout, (points,) lbf; 0 with one.

        Contents that relieve the anchor count against it here: they may push it towards the base.
        """
        demand = self.demand
        least = -self.cases.axis.largest(-(demand.n_ua + demand.gamma_contents * np.minimum(demand.n_contents, 0.0)))
        return np.where(self.fixture, 0.0, least)


def applied_loads(points: Points, basis: Basis, *, group: Index | None, other: Otherwise) -> Applied:
    """The loads of a batch.

    Args:
        points: the batch.
        basis: what holds for the whole request.
        group: (points,) one number for points that share concrete, None where none do.
        other: how near points are loaded.
    """
    loads, fixture = service_loads(points, factored=basis.factored), fixtures(points)
    cases = lay_out_cases(points, loads, fixture=fixture, basis=basis, group=group, other=other)
    demand, shear = case_demand(points, loads, cases), case_shear(points, cases)
    load = distribute(points, cases, fixture=fixture, demand=demand, shear=shear)
    summary, by_en = _summary(loads, demand, shear, cases.axis, load), points.fasteners is not None
    return Applied(
        loads=loads,
        fixture=fixture,
        cases=cases,
        demand=demand,
        shear=shear,
        load=load,
        summary=summary,
        most=_most(load, summary, cases.axis),
        shaken=_shaken(cases, load) if by_en else None,
        psi_2=psi_2_of_cases(points, cases, demand) if by_en else np.zeros_like(demand.n_ua),
    )


def _shaken(cases: LoadCases, load: Distribution) -> FastenersShaken:
    axis, acts, anchors = cases.axis, cases.earthquake, load.anchors
    stated: Bools = np.any(cases.further.quake, axis=1)
    return FastenersShaken(
        stated=axis.any(stated), acts=axis.any(acts), sheared=axis.any(acts & (anchors.total(anchors.v) > 0))
    )


def _most(load: Distribution, summary: Demand, axis: CaseAxis) -> MostOfAnchors:
    if load.layout is None:
        return MostOfAnchors(
            tension=np.maximum(summary.factored, 0.0),
            sustained=np.maximum(summary.sustained, 0.0),
            shear=summary.shear,
        )
    anchors = load.anchors
    worst = [values[anchors.lead(values)] for values in (anchors.n_ua, anchors.n_ua_s, anchors.v)]
    tension, sustained, shear = axis.largest(np.array(worst))
    return MostOfAnchors(tension=tension, sustained=sustained, shear=shear)


def _summary(
    loads: ServiceLoads, demand: AnchorDemand, shear: AnchorShear, axis: CaseAxis, load: Distribution
) -> Demand:
    (factored, sustained, sheared), (case, _, _) = axis.worst(np.array([demand.n_ua, demand.n_ua_s, shear.v_ua]))
    return Demand(
        dead=loads.dead,
        contents=loads.contents,
        live=loads.live,
        sprinkler=loads.sprinkler,
        test=loads.transient[:, 0, TRANSIENT.index("test")],
        factored=factored,
        sustained=sustained,
        shear=sheared,
        moment=_moment(axis, load),
        load_case=axis.load_case[case],
    )


def _moment(axis: CaseAxis, load: Distribution) -> Floats:
    """Largest sum of moments of each point, 0 where it has no layout."""
    if load.layout is None:
        return np.zeros(axis.count)
    of, moment = load.layout.load, np.zeros(len(axis.point_of_case))
    moment[load.layout.cases] = np.abs(of.m_x) + np.abs(of.m_y) + np.abs(of.m_z)
    return axis.largest(moment)
