"""What light-duty fasteners may hold: pins not alone, ceiling fasteners nothing but ceilings."""

import numpy as np

from hangpoint.core.hang_point.points import PIPE, Points
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Finding


def light_duty_findings(points: Points, *, tension: Floats) -> list[FindingColumn]:
    """Pins in tension whose loss nobody has looked at (reading 33), and ceiling fasteners with another load.

    Args:
        points: the batch.
        tension: (points,) largest factored tension, lbf.
    """
    product, fixing = points.products, points.fixings
    zero = np.zeros(points.count)
    alone = product.pin & (tension > 0) & ~fixing.survives_loss & ~_beside_a_missing_hanger(points)
    other = product.ceiling_only & ((points.hangs.kind == PIPE) | ~fixing.ceiling)
    return [
        FindingColumn(finding=Finding.PIN_ALONE, holds=alone, value=zero, limit=zero),
        FindingColumn(finding=Finding.CEILING_ONLY, holds=other, value=zero, limit=zero),
    ]


def _beside_a_missing_hanger(points: Points) -> Bools:
    """(points,) the run is solved without the hanger next to this one."""
    runs, found = points.runs, np.zeros(points.count, dtype=np.bool_)
    found[runs.point] = (runs.missing >= 0) & (np.abs(runs.missing - runs.support) == 1)
    return found
