"""What the chain hands back: strengths, the governing link, findings and statuses, a row a point."""

from collections.abc import Sequence
from dataclasses import field, replace
from typing import Any

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.errors import NonFiniteError
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.allowables import FASTENER
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.outcome import FindingColumn, ModeOutcome, TriageColumn
from hangpoint.core.quantity import Bools, Codes, Floats, Index, Record, StrengthRecord
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding, Inapplicable, Link, Mode, Severity, position

SERVICE = -1
"""Load case of a mode that compares the service load."""

NONE = -1
"""Row, edge or load case of a point that has none."""

EXCEEDED = 1.0 + 1e-9
"""Utilisation above which a point fails: 1 with room for rounding of exact ratios."""

_VIOLATIONS = frozenset(finding for finding in Finding if finding.value.severity is Severity.VIOLATION)


@frozen
class PointMode:
    """One mode over all points.

    ``applies`` says where it has a number; elsewhere ``reason`` is an index into `Inapplicable`. ``row`` is the row of
    ``record`` that governs the point, ``load_case`` its case (`SERVICE` for a service load), ``edge`` its edge.
    ``case`` is that case on the axis of the cases that were checked; with ``outcome``, all rows of the mode, None for a
    rod.
    """

    mode: Mode
    record: Record | None
    applies: Bools
    reason: Index
    design_strength: Floats
    demand: Floats
    utilisation: Floats
    row: Index
    load_case: Index
    edge: Index
    case: Index | None = None
    outcome: ModeOutcome | None = None


@frozen
class Section:
    """A record of the trace that is no mode, with the row of each point (`NONE` where it has none).

    ``anchor`` is the number of the anchor in its layout where the record has a row for each, ``load_case`` (points,)
    the load case of each point's row where the record depends on it.
    """

    record: Record
    row: Index
    link: Link
    anchor: int = NONE
    load_case: Index | None = None


@frozen
class Demand:
    """Load at the anchor, lbf, a row a point: service parts of the tension, and the largest factored tension and shear.

    ``test`` is by the fluid of a test, in place of contents. ``load_case`` is that of the largest factored tension,
    ``moment`` the largest sum of moments about the three axes at the origin of a layout, lbf*in.
    """

    dead: Floats
    contents: Floats
    live: Floats
    sprinkler: Floats
    test: Floats
    factored: Floats
    sustained: Floats
    shear: Floats
    moment: Floats
    load_case: Index


@frozen
class Alone:
    """What points would be without each other: utilisation and `Verdicts.governing`, (points,) each."""

    utilisation: Floats
    governing: Index


@frozen
class Neighbours:
    """Which points share concrete, and what they would be without each other."""

    sharing: Sharing
    alone: Alone


@frozen
class Verdicts:
    """The answer of the core for a batch of points.

    ``method`` is what each point is checked by (`allowables`). ``refusal`` is an index into `Refusal` or -1.
    ``governing`` is an index into ``modes`` or -1 where no mode applies (refused points and points without a rod and an
    anchor check). ``next_case`` and ``next_utilisation`` are the worst
    of the other load cases, -1 and 0 where there is none. ``case_names`` names the load cases by their index, and
    ``load_cases`` are those that any point has. ``axis`` has the cases that were checked, ``anchors`` their anchors;
    ``unchecked`` (points,) have none.
    ``to_engineer`` says which points go to an engineer and why. ``neighbours`` is None where points weren't compared.
    ``used_apart`` (points,) is the utilisation of anchor and base one way at a time (`apart`), in other senses of
    earthquake (`senses`) and in patterns (`patterns`), None where no point has any of these.
    """

    count: int
    method: Codes
    case_names: tuple[str, ...]
    load_cases: Index
    refusal: Index
    demand: Demand
    modes: list[PointMode]
    axis: CaseAxis
    anchors: Anchors
    sections: list[Section]
    findings: list[FindingColumn]
    governing: Index
    utilisation: Floats
    next_case: Index
    next_utilisation: Floats
    unchecked: Bools
    to_engineer: list[TriageColumn]
    neighbours: Neighbours | None = None
    used_apart: Floats | None = None
    failed: Bools = field(init=False)

    def __post_init__(self) -> None:
        violated = np.zeros(self.count, dtype=np.bool_)
        for column in self.findings:
            if column.finding in _VIOLATIONS:
                violated |= column.holds
        object.__setattr__(self, "failed", violated | (self.utilisation > EXCEEDED))

    @property
    def by_en(self) -> bool:
        """The points go by EN 1992-4."""
        return bool(some(self.method == FASTENER))


def alone_of(verdicts: Verdicts) -> Alone:
    """What the points of a check are without each other."""
    return Alone(utilisation=verdicts.utilisation, governing=verdicts.governing)


def utilisation_by_case(outcomes: Sequence[ModeOutcome], axis: CaseAxis) -> tuple[Floats, Index]:
    """Utilisation of each mode with a record in each case and the row of the record, both (modes, cases); -1 where it
    has none.
    """
    cases = len(axis.point_of_case)
    present = [outcome for outcome in outcomes if outcome.record is not None]
    utilisation = np.full((len(present), cases), -1.0)
    row = np.empty((len(present), cases), dtype=np.intp)
    for at, outcome in enumerate(present):
        if outcome.case_of_row is None:
            utilisation[at] = outcome.utilisation
            row[at] = np.arange(cases)
            continue
        row[at] = NONE
        if len(outcome.case_of_row):
            own = CaseAxis.of(count=cases, point_of_case=outcome.case_of_row, load_case=outcome.case_of_row)
            peak, best = own.worst(outcome.utilisation)
            utilisation[at, own.points] = peak
            row[at, own.points] = best
    return utilisation, row


def point_modes(outcomes: Sequence[ModeOutcome], axis: CaseAxis, *, utilisation: Floats, row: Index) -> list[PointMode]:
    """Reduce modes over cases to modes over points: the first worst case of each.

    Args:
        outcomes: modes on the axis.
        axis: the cases.
        utilisation, row: of `utilisation_by_case`.
    """
    peaks, cases = axis.worst(utilisation)
    rows = [own[case] for own, case in zip(row, cases, strict=True)]
    worst = iter(zip(peaks, rows, cases, strict=True))
    nothing, made = _nothing(axis.count), list[PointMode]()
    for outcome, reason in zip(outcomes, _reasons(outcomes, axis), strict=True):
        if outcome.record is None:
            made.append(PointMode(mode=outcome.mode, record=None, reason=reason, **nothing))
            continue
        peak, own, case = next(worst)
        made.append(_point_mode(outcome, axis, peak=peak, row=own, case=case, reason=reason, no_edge=nothing["edge"]))
    return made


def _reasons(outcomes: Sequence[ModeOutcome], axis: CaseAxis) -> list[Index]:
    """Why a point does not have each mode: of the reasons of its cases the one farthest down the list.

    Where some cases have no shear and others have, it is what keeps those others from the mode.
    """
    never = np.zeros(axis.count, dtype=np.intp)
    stated = [outcome.reason for outcome in outcomes if outcome.reason is not None]
    last = iter(axis.largest(np.array(stated)) if stated else ())
    return [never if outcome.reason is None else axis.places(next(last)) for outcome in outcomes]


def _point_mode(
    outcome: ModeOutcome,
    axis: CaseAxis,
    *,
    peak: Floats,
    row: Index,
    case: Index,
    reason: Index,
    no_edge: Index,
) -> PointMode:
    applies, edge, load_case = row >= 0, no_edge, axis.load_case[case]
    strength, demand = peak, peak
    if len(outcome.utilisation):
        strength, demand = outcome.design_strength[row], outcome.demand[row]
        if outcome.edge_of_row is not None:
            edge = axis.places(np.where(applies, outcome.edge_of_row[row], NONE))
    if outcome.reason is not None:
        strength, demand = np.where(applies, strength, 0.0), np.where(applies, demand, 0.0)
        load_case = np.where(applies, load_case, NONE)
    own = axis.places(row)
    return PointMode(
        mode=outcome.mode,
        record=outcome.record,
        applies=own >= 0,
        reason=reason,
        design_strength=axis.over_points(strength),
        demand=axis.over_points(demand),
        utilisation=axis.over_points(np.maximum(peak, 0.0)),
        row=own,
        load_case=axis.places(load_case),
        edge=edge,
        case=axis.places(case),
        outcome=outcome,
    )


def without_balance(modes: Sequence[PointMode], unbalanced: Bools) -> list[PointMode]:
    """The modes with their reason at points whose load nothing holds."""
    if not some(unbalanced):
        return list(modes)
    why = position(Inapplicable.NO_BALANCE)
    return [replace(mode, reason=np.where(unbalanced, why, mode.reason)) for mode in modes]


def service_mode(mode: Mode, record: StrengthRecord, *, points: Index, count: int, reason: Index) -> PointMode:
    """A mode that compares the service load, with one row a point in ``points``."""
    row = np.full(count, NONE, dtype=np.intp)
    row[points] = np.arange(len(points))
    strength, demand, utilisation = np.zeros((3, count))
    strength[points] = record.design_strength
    demand[points] = record.demand
    utilisation[points] = record.utilisation
    return PointMode(
        mode=mode,
        record=record,
        applies=row >= 0,
        reason=reason,
        design_strength=strength,
        demand=demand,
        utilisation=utilisation,
        row=row,
        load_case=np.full(count, SERVICE, dtype=np.intp),
        edge=np.full(count, NONE, dtype=np.intp),
    )


def absent_mode(mode: Mode, *, count: int, reason: Index) -> PointMode:
    """A mode that no point has."""
    return PointMode(mode=mode, record=None, reason=reason, **_nothing(count))


def _nothing(count: int) -> dict[str, Any]:
    """The columns of a mode that no point has."""
    none, zero = np.full(count, NONE, dtype=np.intp), np.zeros(count)
    return {
        "applies": np.zeros(count, dtype=np.bool_),
        "design_strength": zero,
        "demand": zero,
        "utilisation": zero,
        "row": none,
        "load_case": none,
        "edge": none,
    }


@frozen
class Governing:
    """The mode with the first largest utilisation of each point as index, -1 where no mode applies, with its case."""

    mode: Index
    utilisation: Floats
    load_case: Index


def governing(modes: Sequence[PointMode], count: int) -> Governing:
    """The mode that governs each point, (points,).

    Raises:
        NonFiniteError: a utilisation is no number; no verdict may rest on it.
    """
    present = [at for at, mode in enumerate(modes) if mode.record is not None]
    if not present:
        none = np.full(count, NONE, dtype=np.intp)
        return Governing(mode=none, utilisation=np.zeros(count), load_case=none)
    own = [modes[at] for at in present]
    applies = np.array([mode.applies for mode in own])
    utilisation = np.where(applies, [mode.utilisation for mode in own], -1.0)
    best, point = utilisation.argmax(axis=0), np.arange(count)
    peak = utilisation[best, point]
    if some(np.isnan(peak)):
        raise NonFiniteError("a utilisation is no number")
    has = peak >= 0
    return Governing(
        mode=np.where(has, np.array(present)[best], NONE),
        utilisation=np.maximum(peak, 0.0),
        load_case=np.where(has, np.array([mode.load_case for mode in own])[best, point], NONE),
    )


def next_worst(axis: CaseAxis, *, peak: Floats, governing_case: Index) -> tuple[Index, Floats]:
    """The worst of the load cases other than the governing one, -1 and 0 where there is none.

    Args:
        axis: the cases of all points.
        peak: (cases,) largest utilisation of any mode in each case, -1 where no mode has it.
        governing_case: (points,) load case that governs each point, `SERVICE` where a service load does.
    """
    others = np.where(axis.load_case == governing_case[axis.point_of_case], -1.0, peak)
    worst, case = axis.worst(others)
    has = worst >= 0
    return axis.places(np.where(has, axis.load_case[case], NONE)), axis.over_points(np.maximum(worst, 0.0))
