"""Near points with loads that may be absent, checked with those of one point and without those of another.

The modes have the loads of all near points at one time. Here each load that may be absent is there or not, in every
pattern, together with the senses that earthquake may have (`senses`); a point without a load is empty in each of its
load cases. Beyond `absent.Patterns.loads` some of them come and go together: of points in a row those next to each
other still have every pattern. Contents count as the pattern has them, where a lone anchor takes the worse.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from hangpoint.core.hang_point.absent import (
    CONTENTS,
    FIRST_TRANSIENT,
    LIVE,
    SPRINKLER,
    TEST,
    Absent,
    absent_loads,
    patterns_of,
)
from hangpoint.core.hang_point.apart import without_rod
from hangpoint.core.hang_point.cases import any_of_group, case_rows, row_counts, turning
from hangpoint.core.hang_point.copies import copies, rank_along, turned_by
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.hang_point.turning import Otherwise, turning_of_group
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding


def with_patterns(
    points: Points,
    basis: Basis,
    shared: Sharing,
    *,
    together: Verdicts,
    check: Callable[[Points, Otherwise], Verdicts],
) -> Verdicts:
    """The verdicts with what the patterns of loads that may be absent say.

    Args:
        points: the batch, with its sites.
        basis: what holds for the whole request; of loads as given nothing is known to be absent.
        shared: which points share concrete.
        together: verdicts of all loads together, and of all senses of earthquake.
        check: the check of points with their sites.
    """
    if basis.factored or points.sites is None:
        return together
    group = shared.group
    absent = absent_loads(points, group)
    if not some(absent.leads):
        return together
    checked = together.refusal == ACCEPTED
    turns = turning(points, basis)
    movers = turning_of_group(turns, group)
    patterns = patterns_of(absent, group=group, rows=case_rows(points, basis, group), movers=movers)
    rank = np.where(turns, rank_along(turns.astype(np.intp), group, points.sites) % (patterns.turned + 1), 0)
    place = _places(absent, rank_along(absent.count, group, points.sites), patterns.loads)
    before = without_rod(together, np.zeros(points.count))
    used, missing = before.copy(), np.zeros(points.count, dtype=np.bool_)
    for own in copies(points, shared, times=patterns.copies, rows=row_counts(points, basis)):
        out = (place[own.of] >= 0) & ((own.number[:, None] >> np.maximum(place[own.of], 0)) & 1 == 1)
        turned = turned_by(own.number >> patterns.loads[own.of], rank[own.of])
        found = check(without_loads(own.points, out), Otherwise(turned=turned, as_they_are=True))
        gone = found.unchecked & checked[own.of]
        set_of = own.number * points.count + group[own.of]
        whole = np.flatnonzero(~np.isin(set_of, set_of[gone]))
        np.maximum.at(used, own.of[whole], without_rod(found, np.zeros(len(own.of)))[whole])
        missing[own.of[gone]] = True
    patterned = checked & (patterns.loads > 0)
    if points.apart is not None:  # one way at all of them is checked, not one at each
        missing[points.apart.point] = True
    some_not = patterned & (~patterns.every | any_of_group(missing, group))
    more = patterned & (used > np.maximum(before, together.utilisation) * EXCEEDED)
    over, one, zero = used > EXCEEDED, np.ones(points.count), np.zeros(points.count)
    findings = [
        FindingColumn(Finding.LOADS_IN_PATTERN, more & over, used, one),
        FindingColumn(Finding.LOADS_IN_PATTERN_HOLDS, more & ~over, used, one),
        FindingColumn(Finding.LOADS_TOGETHER, some_not, zero, zero),
    ]
    found = [column for column in findings if column.holds.any()]
    return replace(together, findings=[*together.findings, *found], used_apart=used)


def _places(absent: Absent, before: Index, loads: Index) -> Index:
    """(points, natures) which bit of a pattern says that it is absent, -1 where there is no load.

    ``before`` (points,) loads of the group come before those of each, of which ``loads`` have a bit of their own.
    """
    own = before[:, None] + np.cumsum(absent.leads, axis=1) - 1
    lead = np.maximum(absent.lead, 0)
    bit = np.take_along_axis(own, lead, axis=1) % np.maximum(loads, 1)[:, None]
    return np.where(absent.lead >= 0, bit, -1)


def without_loads(points: Points, out: Bools) -> Points:
    """The points without the loads (points, `absent.NATURES`) that are out."""
    hangs, runs, loads = points.hangs, points.runs, points.loads
    stays = ~out
    put = {
        f"{part}{name}": _kept(getattr(hangs, f"{part}{name}"), stays[:, place])
        for place, name in ((CONTENTS, "contents"), (LIVE, "live"))
        for part in ("", "v_", "m_")
    }
    transient = hangs.transient * stays[:, None, FIRST_TRANSIENT:]
    hangs = replace(hangs, transient=transient, sprinkler=hangs.sprinkler & stays[:, SPRINKLER], **put)
    if len(runs.point):
        of = runs.point[loads.run]
        gone = (loads.contents & out[of, CONTENTS]) | (loads.live & out[of, LIVE])
        loads = replace(loads, weight=_kept(loads.weight, ~gone))
        runs = replace(
            runs,
            rho_contents=_kept(runs.rho_contents, stays[runs.point, CONTENTS]),
            rho_test=_kept(runs.rho_test, stays[runs.point, TEST]),
        )
    return replace(points, hangs=hangs, runs=runs, loads=loads)


def _kept(loads: Floats, stays: Bools) -> Floats:
    return np.where(stays.reshape(-1, *(1,) * (loads.ndim - 1)), loads, 0.0)
