"""What a check hands back: a mode with its record and the case of each row, and findings as columns."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.grouping import Membership
from hangpoint.core.quantity import Bools, Floats, Index, Record, StrengthRecord
from hangpoint.core.vocabulary import Finding, Mode, Triage

SIDES: Mapping[str, str] = {"x_minus": "−x", "x_plus": "+x", "y_minus": "−y", "y_plus": "+y"}
"""Edges by the side of the origin that they are on, with its sign."""
EDGES = tuple(SIDES)
_NONE = np.zeros(0)
_NO_ROW = np.zeros(0, dtype=np.intp)


@frozen
class ModeOutcome:
    """One failure mode over all cases.

    ``record`` has one row for each anchor, group or (anchor, edge) that the mode is checked for; ``case_of_row`` says
    which case it belongs to, in rising order, and is None where every case has one row, in order. A case without a row
    does not have the mode: ``reason`` says why (one index into `Inapplicable` a case; None where every case has a
    row). ``edge_of_row`` is None for a mode without edges. ``record`` is None where no case has the mode.
    ``anchor_of_row`` names the flat anchor of each row where a row is one anchor, ``sets`` the anchors of each row
    where it is several; both are None where every case has one anchor.
    """

    mode: Mode
    record: Record | None
    design_strength: Floats
    demand: Floats
    utilisation: Floats
    case_of_row: Index | None
    edge_of_row: Index | None
    reason: Index | None
    anchor_of_row: Index | None = None
    sets: Membership | None = None


def mode_outcome(
    mode: Mode,
    record: StrengthRecord,
    *,
    case_of_row: Index | None = None,
    reason: Index | None = None,
    edge_of_row: Index | None = None,
    anchor_of_row: Index | None = None,
    sets: Membership | None = None,
) -> ModeOutcome:
    """Put a record that ends in a strength on the axis of its cases."""
    return ModeOutcome(
        mode=mode,
        record=record,
        design_strength=record.design_strength,
        demand=record.demand,
        utilisation=record.utilisation,
        case_of_row=case_of_row,
        edge_of_row=edge_of_row,
        reason=reason,
        anchor_of_row=anchor_of_row,
        sets=sets,
    )


def absent_outcome(mode: Mode, reason: Index) -> ModeOutcome:
    """A mode that no case has, with the reason of each."""
    return ModeOutcome(
        mode=mode,
        record=None,
        design_strength=_NONE,
        demand=_NONE,
        utilisation=_NONE,
        case_of_row=_NO_ROW,
        edge_of_row=None,
        reason=reason,
    )


def peak_by_case(outcomes: Sequence[ModeOutcome], count: int) -> Floats:
    """Largest utilisation of any of the modes in each of so many cases, 0 where none has a row."""
    peak = np.zeros(count)
    for outcome in outcomes:
        if outcome.case_of_row is None:
            np.maximum(peak, outcome.utilisation, out=peak)
        else:
            np.maximum.at(peak, outcome.case_of_row, outcome.utilisation)
    return peak


class FindingColumn(NamedTuple):
    """One finding over all points: where it holds, the value found and the limit it is compared with."""

    finding: Finding
    holds: Bools
    value: Floats
    limit: Floats


def below(value: Floats, *, limit: Floats | float) -> Bools:
    """Below by more than the rounding of a conversion between units."""
    return value < limit * (1 - 1e-9)


@frozen
class TriageColumn:
    """One reason to ask the engineer over all points: where it holds."""

    triage: Triage
    holds: Bools
