"""What a check hands back: a mode with its record and the case of each row, and findings as columns."""

from dataclasses import dataclass

from hangpoint.core.quantity import Bools, Floats, Index, Record, StrengthRecord
from hangpoint.core.vocabulary import Finding, Mode

EDGES = ("x_minus", "x_plus", "y_minus", "y_plus")


@dataclass(frozen=True, kw_only=True)
class ModeOutcome:
    """One failure mode over all cases.

    ``record`` has one row for each anchor, group or (anchor, edge) that the mode is checked for; ``case_of_row`` says
    which case it belongs to, in rising order, and is None where every case has one row, in order. A case without a row
    does not have the mode: ``reason`` says why (one index into `Inapplicable` a case; None where every case has a
    row). ``edge_of_row`` is None for a mode without edges.
    """

    mode: Mode
    record: Record
    design_strength: Floats
    demand: Floats
    utilisation: Floats
    case_of_row: Index | None
    edge_of_row: Index | None
    reason: Index | None


def mode_outcome(
    mode: Mode,
    record: StrengthRecord,
    *,
    case_of_row: Index | None = None,
    reason: Index | None = None,
    edge_of_row: Index | None = None,
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
    )


@dataclass(frozen=True, kw_only=True)
class FindingColumn:
    """One finding over all points: where it holds, the value found and the limit it is compared with."""

    finding: Finding
    holds: Bools
    value: Floats
    limit: Floats
