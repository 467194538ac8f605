"""The checks of EN 1992-4, 7.2, annexes C and D. Units: mm, N, N/mm2."""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors, concrete_factors
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.en1992_4.interaction import concrete_interaction, seismic_interaction, steel_interaction
from hangpoint.core.en1992_4.shear import ShearChecks, shear_checks
from hangpoint.core.en1992_4.tension import TensionChecks, tension_checks
from hangpoint.core.frozen import frozen
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome, peak_by_case
from hangpoint.core.quantity import Bools, Floats, Index, Record
from hangpoint.core.vocabulary import EN_SHEAR_MODES, EN_TENSION_MODES, Inapplicable, Mode, position

CONCRETE_IN_TENSION = frozenset({Mode.EN_PULL_OUT, Mode.EN_COMBINED, Mode.EN_CONE, Mode.EN_SPLITTING, Mode.EN_BLOW_OUT})
CONCRETE_IN_SHEAR = frozenset({Mode.EN_PRY_OUT, Mode.EN_EDGE})


@frozen
class CheckedFasteners:
    """Every mode of every case in the order in which the first largest governs; strengths in N.

    ``factors`` has a row a case. ``behind_pry_out`` are the resistances that pry-out rests on, each with its row for
    each row of pry-out, -1 where it has none.
    """

    factors: ConcreteFactors
    outcomes: list[ModeOutcome]
    behind_pry_out: list[tuple[Record, Index]]


def check(cases: FastenerCases, anchors: Anchors) -> CheckedFasteners:
    """Check every case.

    Args:
        cases: product and base of each.
        anchors: the anchors of all cases with their share of the load, in mm and N.
    """
    factors = concrete_factors(
        f_ck_class=cases.f_ck_class,
        post_installed=cases.post_installed,
        cracked=cases.cracked,
        gamma_inst=cases.gamma_inst,
        fire=cases.fire,
    )
    tension = tension_checks(cases, anchors, factors)
    shear = shear_checks(cases, anchors, factors, n_rd_s=tension.steel.design_strength)
    outcomes = [*tension.outcomes, *shear.outcomes]
    outcomes += [
        _steel_together(cases, anchors, tension, shear),
        _concrete_together(cases, outcomes),
        _under_earthquake(cases, outcomes),
    ]
    outcomes.sort(key=lambda outcome: position(outcome.mode))
    return CheckedFasteners(factors=factors, outcomes=outcomes, behind_pry_out=shear.behind)


def _static_reason(both: Bools) -> Index:
    """(cases,) why a case has no static interaction if it has none; ``both`` (cases,) may be earthquake alone."""
    return np.where(both, position(Inapplicable.EN_BY_EARTHQUAKE), position(Inapplicable.EN_ONE_DIRECTION))


def _steel_together(cases: FastenerCases, anchors: Anchors, tension: TensionChecks, shear: ShearChecks) -> ModeOutcome:
    """Steel of every fastener that is pulled and sheared without lever arm."""
    together = (anchors.n_ua > 0) & anchors.sheared()
    reason = _static_reason(anchors.total(together.astype(np.float64)) > 0)
    bent = cases.lever_arm & (anchors.total(anchors.v) > 0)
    reason = np.where(bent, position(Inapplicable.EN_LEVER_ARM), reason)
    if shear.steel is None:
        return absent_outcome(Mode.EN_STEEL_INTERACTION, reason)
    v_rd_s = np.full(anchors.case_count, np.inf)
    v_rd_s[shear.steel_cases] = shear.steel.design_strength
    rows = np.flatnonzero(together & ~(cases.earthquake | cases.lever_arm)[anchors.case])
    if not len(rows):
        return absent_outcome(Mode.EN_STEEL_INTERACTION, reason)
    case = anchors.case[rows]
    both = steel_interaction(
        beta_n=anchors.n_ua[rows] / tension.steel.design_strength[case], beta_v=anchors.v[rows] / v_rd_s[case]
    )
    return mode_outcome(Mode.EN_STEEL_INTERACTION, both, case_of_row=case, reason=reason, anchor_of_row=rows)


def _peaks(outcomes: list[ModeOutcome], modes: frozenset[Mode], count: int) -> Floats:
    return peak_by_case([own for own in outcomes if own.mode in modes], count)


def _concrete_together(cases: FastenerCases, outcomes: list[ModeOutcome]) -> ModeOutcome:
    count = len(cases.h_ef)
    beta_n, beta_v = _peaks(outcomes, CONCRETE_IN_TENSION, count), _peaks(outcomes, CONCRETE_IN_SHEAR, count)
    together = (beta_n > 0) & (beta_v > 0)
    reason, rows = _static_reason(together), np.flatnonzero(together & ~cases.earthquake)
    if not len(rows):
        return absent_outcome(Mode.EN_CONCRETE_INTERACTION, reason)
    both = concrete_interaction(beta_n=beta_n[rows], beta_v=beta_v[rows])
    return mode_outcome(Mode.EN_CONCRETE_INTERACTION, both, case_of_row=rows, reason=reason)


def _under_earthquake(cases: FastenerCases, outcomes: list[ModeOutcome]) -> ModeOutcome:
    """All modes of the cases of earthquake, (C.9)."""
    count = len(cases.h_ef)
    none, one = position(Inapplicable.EN_NO_EARTHQUAKE), position(Inapplicable.EN_ONE_DIRECTION)
    reason = np.where(cases.earthquake, one, none)
    beta_n, beta_v = _peaks(outcomes, EN_TENSION_MODES, count), _peaks(outcomes, EN_SHEAR_MODES, count)
    rows = np.flatnonzero((beta_n > 0) & (beta_v > 0) & cases.earthquake)
    if not len(rows):
        return absent_outcome(Mode.EN_SEISMIC_INTERACTION, reason)
    both = seismic_interaction(beta_n=beta_n[rows], beta_v=beta_v[rows])
    return mode_outcome(Mode.EN_SEISMIC_INTERACTION, both, case_of_row=rows, reason=reason)
