"""What a check hands back: a mode with its record and the case of each row, and findings as columns."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index, Record, StrengthRecord
from hangpoint.core.vocabulary import Finding, Inapplicable, Mode

EDGES = ("x_minus", "x_plus", "y_minus", "y_plus")
NO_EDGE = -1


@dataclass(frozen=True, kw_only=True)
class ModeOutcome:
    """One failure mode over all cases.

    ``record`` has one row for each anchor, group or (anchor, edge) that the mode is checked for; ``case_of_row``
    says which case it belongs to, in rising order. A case without a row does not have the mode: ``reason`` says why
    (one index into `Inapplicable` a case).
    """

    mode: Mode
    record: Record
    design_strength: Floats
    demand: Floats
    utilisation: Floats
    case_of_row: Index
    edge_of_row: Index
    reason: Index


def mode_outcome(
    mode: Mode, record: StrengthRecord, *, case_of_row: Index, reason: Index, edge_of_row: Index | None = None
) -> ModeOutcome:
    """Put a record that ends in a strength on the axis of its cases; without edges, no row has one."""
    return ModeOutcome(
        mode=mode,
        record=record,
        design_strength=record.design_strength,
        demand=record.demand,
        utilisation=record.utilisation,
        case_of_row=case_of_row,
        edge_of_row=np.full(len(case_of_row), NO_EDGE, dtype=np.intp) if edge_of_row is None else edge_of_row,
        reason=reason,
    )


@dataclass(frozen=True, kw_only=True)
class FindingColumn:
    """One finding over all points: where it holds, the value found and the limit it is compared with."""

    finding: Finding
    holds: Bools
    value: Floats
    limit: Floats


@dataclass(frozen=True, kw_only=True)
class Worst:
    """The worst row of each case or point: utilisation and row index; ``has`` is False where there is none."""

    utilisation: Floats
    row: Index
    has: Bools


def worst_of(*, utilisation: Floats, owner: Index, count: int) -> Worst:
    """First largest utilisation of each owner.

    Args:
        utilisation: (rows,) dimensionless.
        owner: (rows,) the case or point of each row, in rising order.
        count: number of owners.

    Returns:
        (count,) arrays; an owner without a row has utilisation 0, row 0 and ``has`` False.
    """
    if len(owner) == count and count and np.array_equal(owner, np.arange(count)):
        return Worst(utilisation=utilisation, row=owner, has=np.ones(count, dtype=np.bool_))
    peak = np.zeros(count)
    row = np.zeros(count, dtype=np.intp)
    has = np.zeros(count, dtype=np.bool_)
    if len(owner):
        starts = first_rows(owner)
        present = owner[starts]
        peak[present] = np.maximum.reduceat(utilisation, starts)
        is_best = utilisation == peak[owner]
        candidate = np.where(is_best, np.arange(len(owner)), len(owner))
        row[present] = np.minimum.reduceat(candidate, starts)
        has[present] = True
    return Worst(utilisation=peak, row=row, has=has)


def first_rows(owner: Index) -> Index:
    """The first row of each owner that has one; ``owner`` is in rising order."""
    if not len(owner):
        return owner
    return np.concatenate((_FIRST, np.flatnonzero(owner[1:] != owner[:-1]) + 1))


def no_reason(count: int) -> Index:
    """The reason column of a mode that applies to every case; never read where a row exists."""
    return np.full(count, _NO_TENSION_CASE, dtype=np.intp)


_FIRST = np.zeros(1, dtype=np.intp)
_NO_TENSION_CASE = list(Inapplicable).index(Inapplicable.NO_TENSION_CASE)
