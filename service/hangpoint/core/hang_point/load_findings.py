"""What is said of the loads of a point by themselves. Units: lbf, lbf*in."""

import numpy as np

from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.hang_point.weights import ServiceLoads
from hangpoint.core.loads.combinations import EN1990
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding


def load_findings(points: Points, loads: ServiceLoads, demand: Demand, basis: Basis) -> list[FindingColumn]:
    """Points without load, at the end of a run of one span, and by ASCE 7 those whose dead load acts against live load.

    Args:
        points: the batch.
        loads: service loads of the points.
        demand: at their anchors.
        basis: of the request: by EN 1990 dead load is favourable beside live load too.
    """
    factored, zero = demand.factored, np.zeros(points.count)
    nothing = (factored == 0) & (demand.shear == 0) & (demand.moment == 0)
    found = [
        FindingColumn(Finding.NO_LOAD, nothing, factored, zero),
        FindingColumn(Finding.END_OF_RUN, _ends(points), zero, zero),
    ]
    if basis.load_standard != EN1990:
        found.append(FindingColumn(Finding.DEAD_RELIEVES_LIVE, _dead_relieves_live(points, loads), zero, zero))
    return found


def _ends(points: Points) -> Bools:
    """(points,) at the end of a run of one span: the half of it is often all that was meant to be told of a spacing."""
    ends = np.zeros(points.count, dtype=bool)
    ends[points.runs.point] = points.runs.span_count == 1
    return ends


def _dead_relieves_live(points: Points, loads: ServiceLoads) -> Bools:
    """(points,) dead load pushes where live load pulls or turns, or its shear or moments act against that one's.

    Live shear at a distance from the base turns as well.
    """
    hangs, pushes = points.hangs, loads.dead < 0
    against = pushes & (loads.live > 0)
    if some(hangs.v_live):
        turns = (hangs.at[:, 2] != 0) & hangs.v_live.any(axis=1)
        against |= (pushes & turns) | (_along(hangs.v_dead, hangs.v_live) < 0)
    if some(hangs.m_live):
        turns = hangs.m_live[:, :2].any(axis=1)
        against |= (pushes & turns) | (_along(hangs.m_dead, hangs.m_live) < 0)
    return against


def _along(one: Floats, other: Floats) -> Floats:
    """(points,) product of vectors, negative where they act against each other."""
    return (one * other).sum(axis=1)
