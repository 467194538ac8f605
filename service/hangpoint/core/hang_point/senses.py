"""Near points whose earthquake acts at angles to each other, checked in the other senses of it as well.

Earthquake acts on all of them as the longest of their shears and the other way. Where that leaves shears against each
other along an axis, they may as well act the same way along it: which relative sense the stated ones have is not known.
Each point by itself has the same loads in every sense, so that only what the points do together may be worse.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from hangpoint.core.hang_point.apart import without_rod
from hangpoint.core.hang_point.given_cases import at_angles
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.vocabulary import Finding


def with_other_senses(
    points: Points, basis: Basis, shared: Sharing, *, together: Verdicts, check: Callable[[int], Verdicts]
) -> Verdicts:
    """The verdicts with what the other senses of earthquake say.

    Args:
        points: the batch.
        basis: what holds for the whole request.
        shared: which points share concrete.
        together: verdicts of earthquake as the longest shear.
        check: the check of the same points the same way along an axis, see `given_cases.same_way`.
    """
    if basis.factored:
        axes = at_angles(points.given.v_e, shared.group[points.given.point])
    else:
        axes = at_angles(points.hangs.earthquake[:, 1:3], shared.group)
    if not axes:
        return together
    used, of_anchors = together.utilisation, np.zeros(points.count)
    for along in axes:
        found = check(along)
        used = np.maximum(used, found.utilisation)
        of_anchors = without_rod(found, of_anchors)
    more = (together.refusal == ACCEPTED) & (used > together.utilisation * EXCEEDED)
    over, one = used > EXCEEDED, np.ones(points.count)
    findings = [
        FindingColumn(Finding.EARTHQUAKE_OTHER_SENSE, more & over, used, one),
        FindingColumn(Finding.EARTHQUAKE_OTHER_SENSE_HOLDS, more & ~over, used, one),
    ]
    own = [column for column in findings if column.holds.any()]
    return replace(together, findings=[*together.findings, *own], used_apart=without_rod(together, of_anchors))
