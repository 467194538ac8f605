"""The checks of a case by tables of allowable loads: each anchor by itself, in tension, in shear and in both."""

import numpy as np

from hangpoint.core.allowable.cases import LoadedAnchors, TableCases
from hangpoint.core.allowable.table_load import table_load
from hangpoint.core.allowable.unity import unity
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Inapplicable, Mode, position

TENSION, SHEAR = 0, 1
_MODES = (Mode.TABLE_TENSION, Mode.TABLE_SHEAR)
_REASONS = (Inapplicable.NO_TENSION, Inapplicable.NO_SHEAR)


def check_tables(cases: TableCases, anchors: LoadedAnchors) -> list[ModeOutcome]:
    """The modes of all cases, in the order in which the first largest governs."""
    outcomes: list[ModeOutcome] = []
    ratios: list[Floats] = []
    for direction, load in ((TENSION, anchors.n), (SHEAR, anchors.v)):
        outcome, ratio = _direction(cases, anchors, load, direction)
        outcomes.append(outcome)
        ratios.append(ratio)
    outcomes.append(together(Mode.TABLE_INTERACTION, anchors.case, ratios, power=cases.power))
    return outcomes


def _direction(cases: TableCases, anchors: LoadedAnchors, load: Floats, direction: int) -> tuple[ModeOutcome, Floats]:
    """The mode of one direction, and the ratio of every anchor, 0 where it isn't loaded."""
    mode, why = _MODES[direction], position(_REASONS[direction])
    rows = np.flatnonzero((load > 0) & (cases.mean_ultimate[anchors.case, direction] > 0))
    ratio, reason = np.zeros(len(load)), np.full(anchors.count, why)
    if not len(rows):
        return absent_outcome(mode, reason), ratio
    at = anchors.case[rows]
    made = table_load(
        shear=direction == SHEAR,
        mean_ultimate=cases.mean_ultimate[at, direction],
        safety_factor=cases.safety_factor[at, direction],
        f_base=cases.f_base[at],
        f_ref=cases.f_ref[at, direction],
        strength_exponent=cases.strength_exponent[at, direction],
        c_a=anchors.c_a[rows],
        c_least=cases.c_least[at, direction],
        c_full=cases.c_full[at, direction],
        slope_c=cases.slope_c[at, direction],
        sides=anchors.sides[rows],
        s_least=cases.s_least[at, direction],
        s_full=cases.s_full[at, direction],
        slope_s=cases.slope_s[at, direction],
        demand=load[rows],
    )
    ratio[rows] = made.utilisation
    return mode_outcome(mode, made, case_of_row=at, reason=reason, anchor_of_row=rows), ratio


def together(mode: Mode, case_of_anchor: Index, ratios: list[Floats], *, power: Bools) -> ModeOutcome:
    """Tension and shear of every anchor that has both.

    Args:
        mode: the interaction.
        case_of_anchor: (anchors,).
        ratios: (anchors,) in tension and in shear.
        power: (cases,) by powers of 5/3.
    """
    r_n, r_v = ratios
    reason = np.full(len(power), position(Inapplicable.ONE_DIRECTION))
    rows = np.flatnonzero((r_n > 0) & (r_v > 0))
    if not len(rows):
        return absent_outcome(mode, reason)
    at = case_of_anchor[rows]
    made = unity(r_n=r_n[rows], r_v=r_v[rows], power=power[at])
    return mode_outcome(mode, made, case_of_row=at, reason=reason, anchor_of_row=rows)
