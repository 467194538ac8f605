"""Near points under earthquake, checked in the other senses that it may have at one beside another as well.

Shear and moments of earthquake act either way at each point, and nothing stated says which way they act at one while
they act some way at another. The modes have them at all points the way of the longest shear, and the other way. Here
every other combination of senses is checked. Each point by itself has the same loads in all of them, so that only what
points do together may be worse. Beyond `MOST_TURNED` points some of them keep one sense among themselves: of points in
a row those next to each other still have every combination.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from hangpoint.core.hang_point.apart import without_rod
from hangpoint.core.hang_point.cases import row_counts, turning
from hangpoint.core.hang_point.copies import copies, rank_along, turned_by
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.hang_point.turning import MOST_TURNED, Otherwise, senses, turning_of_group
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding


def with_other_senses(
    points: Points,
    basis: Basis,
    shared: Sharing,
    *,
    together: Verdicts,
    check: Callable[[Points, Otherwise], Verdicts],
) -> Verdicts:
    """The verdicts with what the other senses of earthquake say.

    Args:
        points: the batch, with its sites.
        basis: what holds for the whole request.
        shared: which points share concrete.
        together: verdicts of earthquake as the longest shear.
        check: the check of points with their sites.
    """
    checked = together.refusal == ACCEPTED
    turns = checked & turning(points, basis)
    movers = turning_of_group(turns, shared.group)
    if points.sites is None or not some(movers > 1):
        return together
    used, of_anchors = together.utilisation.copy(), np.zeros(points.count)
    rank = np.where(turns, rank_along(turns.astype(np.intp), shared.group, points.sites) % MOST_TURNED, 0)
    for own in copies(points, shared, times=senses(movers) - 1, rows=row_counts(points, basis)):
        found = check(own.points, Otherwise(turned=turned_by(own.number + 1, rank[own.of])))
        np.maximum.at(used, own.of, found.utilisation)
        np.maximum.at(of_anchors, own.of, without_rod(found, np.zeros(len(own.of))))
    more = checked & (used > together.utilisation * EXCEEDED)
    over, one, zero = used > EXCEEDED, np.ones(points.count), np.zeros(points.count)
    findings = [
        FindingColumn(Finding.EARTHQUAKE_OTHER_SENSE, more & over, used, one),
        FindingColumn(Finding.EARTHQUAKE_OTHER_SENSE_HOLDS, more & ~over, used, one),
        FindingColumn(Finding.EARTHQUAKE_SENSES_NOT_ALL, checked & (movers > MOST_TURNED), zero, zero),
    ]
    own = [column for column in findings if column.holds.any()]
    return replace(together, findings=[*together.findings, *own], used_apart=without_rod(together, of_anchors))
