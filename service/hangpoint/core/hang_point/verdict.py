"""What the chain hands back: strengths, the governing link, findings and statuses, a row a point."""

from dataclasses import dataclass, field

import numpy as np

from hangpoint.core.outcome import FindingColumn, ModeOutcome, Worst, first_rows, worst_of
from hangpoint.core.quantity import Bools, Floats, Index, Record
from hangpoint.core.vocabulary import Link, Mode, Severity

SERVICE = -1
"""Load case of a mode that compares the service load."""

EXCEEDED = 1.0 + 1e-9
"""Utilisation above which a point fails: 1 with room for rounding of exact ratios."""


@dataclass(frozen=True, kw_only=True)
class PointMode:
    """One mode over all points.

    ``applies`` says where it has a number; elsewhere ``reason`` is an index into `Inapplicable`. ``row`` is the row of
    ``record`` that governs the point, ``load_case`` its case (`SERVICE` for a service load), ``edge`` its edge.
    """

    mode: Mode
    record: Record
    applies: Bools
    reason: Index
    design_strength: Floats
    demand: Floats
    utilisation: Floats
    row: Index
    load_case: Index
    edge: Index


@dataclass(frozen=True, kw_only=True)
class Section:
    """A record of the trace that is no mode, with the row of each point (-1 where it has none)."""

    record: Record
    row: Index
    link: Link


@dataclass(frozen=True, kw_only=True)
class Demand:
    """Tension at the anchor, lbf, a row a point: service parts, and the largest factored one with its case."""

    dead: Floats
    contents: Floats
    live: Floats
    sprinkler: Floats
    factored: Floats
    sustained: Floats
    load_case: Index


@dataclass(frozen=True, kw_only=True)
class Verdicts:
    """The answer of the core for a batch of points.

    ``refusal`` is an index into `Refusal` or -1. ``governing`` is an index into ``modes`` or -1 where no mode applies
    (refused points and points without a rod and an anchor check). ``next_case`` and ``next_utilisation`` are the worst
    of the other load cases, -1 and 0 where there is none.
    """

    count: int
    refusal: Index
    demand: Demand
    modes: list[PointMode]
    sections: list[Section]
    findings: list[FindingColumn]
    governing: Index
    utilisation: Floats
    next_case: Index
    next_utilisation: Floats
    failed: Bools = field(init=False)

    def __post_init__(self) -> None:
        violated = np.zeros(self.count, dtype=np.bool_)
        for column in self.findings:
            if column.finding.value.severity is Severity.VIOLATION:
                violated |= column.holds
        object.__setattr__(self, "failed", violated | (self.utilisation > EXCEEDED))


def point_mode(
    outcome: ModeOutcome, *, count: int, point_of_case: Index, load_case: Index, checked: Index
) -> PointMode:
    """Reduce a mode over cases to a mode over points.

    Args:
        outcome: rows on the axis of the cases.
        count: number of points.
        point_of_case: (cases,) rising. load_case: (cases,).
        checked: (n,) the points that have cases, rising; ``reason`` of the others is never read.
    """
    owner = point_of_case[outcome.case_of_row]
    worst = worst_of(utilisation=outcome.utilisation, owner=owner, count=count)
    reason = np.zeros(count, dtype=np.intp)
    reason[checked] = outcome.reason[first_rows(point_of_case)]
    cases = load_case[outcome.case_of_row]
    return PointMode(
        mode=outcome.mode,
        record=outcome.record,
        applies=worst.has,
        reason=reason,
        design_strength=_pick(outcome.design_strength, worst),
        demand=_pick(outcome.demand, worst),
        utilisation=worst.utilisation,
        row=worst.row,
        load_case=_pick_index(cases, worst),
        edge=_pick_index(outcome.edge_of_row, worst),
    )


def _pick(column: Floats, worst: Worst) -> Floats:
    if not len(column):
        return np.zeros(len(worst.row))
    return np.where(worst.has, column[worst.row], 0.0)


def _pick_index(column: Index, worst: Worst) -> Index:
    if not len(column):
        return np.full(len(worst.row), -1, dtype=np.intp)
    return np.where(worst.has, column[worst.row], -1)


def governing(modes: list[PointMode], count: int) -> tuple[Index, Floats]:
    """Index of the mode with the first largest utilisation of each point, -1 where no mode applies."""
    if not modes or not count:
        return np.full(count, -1, dtype=np.intp), np.zeros(count)
    stack = np.array([np.where(mode.applies, mode.utilisation, -1.0) for mode in modes])
    best = stack.argmax(axis=0)
    peak = stack[best, np.arange(count)]
    return np.where(peak >= 0, best, -1), np.maximum(peak, 0.0)


def next_worst(
    outcomes: list[ModeOutcome], *, count: int, point_of_case: Index, load_case: Index, governing_case: Index
) -> tuple[Index, Floats]:
    """The worst of the load cases other than the governing one.

    Args:
        outcomes: modes on the axis of the cases.
        governing_case: (count,) load case that governs each point, `SERVICE` where a service load does.
    """
    cases = len(point_of_case)
    if not outcomes or not cases:
        return np.full(count, -1, dtype=np.intp), np.zeros(count)
    peak = np.full(cases, -1.0)
    for outcome in outcomes:
        worst = worst_of(utilisation=outcome.utilisation, owner=outcome.case_of_row, count=cases)
        peak = np.maximum(peak, np.where(worst.has, worst.utilisation, -1.0))
    others = np.where(load_case == governing_case[point_of_case], -1.0, peak)
    worst = worst_of(utilisation=others, owner=point_of_case, count=count)
    has = worst.has & (worst.utilisation >= 0)
    return np.where(has, load_case[worst.row], -1), np.where(has, worst.utilisation, 0.0)
