"""Points whose loads of one nature are stated against each other, checked one way at a time as well.

Live load, snow, wind and every other load but dead load may be absent, each by itself: what pushes relieves nothing
that pulls. So a point that holds them together has to hold without those against the rest, component by component
(`opposed.Apart`). The numbers of its answer are those of all loads together; findings say what the ways use.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.expansion import expand
from hangpoint.core.hang_point.opposed import WAYS, Apart
from hangpoint.core.hang_point.points import Hangs, Points
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Finding, Link, Severity


@frozen
class _Worst:
    """The worst of the ways of each point, (points,): utilisation of all links, and of anchor and base alone;
    ``unsound`` where a way is refused or has a violation that all loads together have not.
    """

    used: Floats
    without_rod: Floats
    unsound: Bools


def with_ways_apart(points: Points, together: Verdicts, check: Callable[[Points], Verdicts]) -> Verdicts:
    """The verdicts with what the ways of `Points.apart` say.

    Args:
        points: the batch.
        together: verdicts of all loads together.
        check: the check of points with other loads, of a part of the batch only where it has no neighbours.
    """
    apart = points.apart
    if apart is None or not len(apart.point):
        return together
    worst = _worst(points, apart, together, check)
    checked = together.refusal == ACCEPTED
    stated = np.zeros(points.count, dtype=np.bool_)
    stated[apart.point] = True
    more = stated | (worst.used > together.utilisation * EXCEEDED)
    over = checked & more & (worst.used > EXCEEDED)
    holds = checked & stated & ~over & ~worst.unsound
    zero, one = np.zeros(points.count), np.ones(points.count)
    found = [
        FindingColumn(Finding.NATURE_APART, over, worst.used, one),
        FindingColumn(Finding.NATURE_APART_UNSOUND, checked & worst.unsound, zero, zero),
        FindingColumn(Finding.NATURE_APART_HOLDS, holds, worst.used, one),
    ]
    findings = [*together.findings, *(column for column in found if column.holds.any())]
    return replace(together, findings=findings, used_apart=without_rod(together, worst.without_rod))


def _worst(points: Points, apart: Apart, together: Verdicts, check: Callable[[Points], Verdicts]) -> _Worst:
    used, of_anchors = np.zeros((2, points.count))
    unsound = np.zeros(points.count, dtype=np.bool_)
    before = _violated(together)
    for way in range(WAYS):
        rows = np.flatnonzero(apart.way == way)
        if not len(rows):
            continue
        of = apart.point[rows] if points.sites is None else np.arange(points.count)
        found = check(_one_way(points, apart, rows))
        also = found.utilisation if found.used_apart is None else found.used_apart
        used[of] = np.maximum(used[of], np.maximum(found.utilisation, also))
        of_anchors[of] = without_rod(found, of_anchors[of])
        more: Bools = np.any([own & ~before[name][of] for name, own in _violated(found).items()], axis=0)
        unsound[of] |= (found.refusal != ACCEPTED) | more
    return _Worst(used=used, without_rod=of_anchors, unsound=unsound)


def _one_way(points: Points, apart: Apart, rows: Index) -> Points:
    """Points with the loads of the given rows, one a point: these points alone, or all where some are neighbours."""
    own, bare = apart.take(rows), replace(points, apart=None)
    if points.sites is None:
        made = expand(bare, own.point)
        return replace(made, hangs=_loaded(made.hangs, own, np.arange(made.count)))
    return replace(bare, hangs=_loaded(points.hangs, own, own.point))


def _loaded(hangs: Hangs, apart: Apart, at: Index) -> Hangs:
    """What hangs with the rows of ``apart`` in its places ``at``."""
    put: dict[str, Floats] = {"transient": apart.transient}
    for name, loads in (("contents", apart.contents), ("live", apart.live)):
        put |= {name: loads[:, 0], f"v_{name}": loads[:, 1:3], f"m_{name}": loads[:, 3:]}
    columns = {name: getattr(hangs, name).copy() for name in put}
    for name, column in columns.items():
        column[at] = put[name]
    return replace(hangs, **columns)


def _violated(verdicts: Verdicts) -> dict[Finding, Bools]:
    """Where each violation holds, every one with a column."""
    never = np.zeros(verdicts.count, dtype=np.bool_)
    found = {finding: never for finding in Finding if finding.value.severity is Severity.VIOLATION}
    for column in verdicts.findings:
        if column.finding in found:
            found[column.finding] = found[column.finding] | column.holds
    return found


def without_rod(verdicts: Verdicts, used: Floats) -> Floats:
    """The utilisation (points,) of anchor and base, with other loads too where they were, and ``used`` if larger."""
    if verdicts.used_apart is not None:
        used = np.maximum(used, verdicts.used_apart)
    for mode in verdicts.modes:
        if mode.mode.link is not Link.ROD:
            used = np.maximum(used, np.where(mode.applies, mode.utilisation, 0.0))
    return used
