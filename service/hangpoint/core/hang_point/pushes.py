"""Points that an earthquake pulls in one sense, and in the other pushes by more than what hangs there. Units: lbf."""

import numpy as np

from hangpoint.core.hang_point.applied import Applied
from hangpoint.core.hang_point.points import NO_ROD, Points
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Finding


def push_findings(points: Points, applied: Applied, *, checked: Bools) -> list[FindingColumn]:
    """Points whose earthquake pushes in its other sense, but for plates that bear on the base where no rod is stated.

    Args:
        points: the batch.
        applied: its loads, in which tension of earthquake pulls.
        checked: (points,) the anchors are checked.
    """
    forces = applied.cases.further.forces
    if forces is None:
        return []
    push = _largest_push(applied, pull=forces.p_horizontal[: len(applied.cases.further.cases)])
    holds = (push > 0) & checked & ~(points.plates.contact & (points.rods.rule == NO_ROD))
    return [FindingColumn(finding=Finding.EARTHQUAKE_PUSHES, holds=holds, value=push, limit=np.zeros(points.count))]


def _largest_push(applied: Applied, *, pull: Floats) -> Floats:
    """(points,) largest push of any case with its earthquake turned, 0 where none pushes.

    ``pull`` is that of earthquake in the cases with further loads, whose first component is tension.
    """
    cases, demand, own = applied.cases, applied.demand, applied.cases.further.cases
    left = demand.n_ua[own] + demand.gamma_contents[own] * np.minimum(demand.n_contents[own], 0.0) - 2.0 * pull
    push = np.zeros(len(demand.n_ua))
    push[own] = np.where(pull > 0, np.maximum(-left, 0.0), 0.0)
    return cases.axis.largest(push)
