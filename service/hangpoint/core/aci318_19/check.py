"""The checks of Table 17.5.2 and 17.8. Units: in, in2, lbf, psi."""

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis, concrete_basis
from hangpoint.core.aci318_19.interaction import interaction
from hangpoint.core.aci318_19.seismic import earthquake_governs, seismic_factor
from hangpoint.core.aci318_19.shear import shear_checks
from hangpoint.core.aci318_19.steel_tension import SteelTension
from hangpoint.core.aci318_19.tension import ConcreteLimits, tension_checks
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.frozen import frozen
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome, peak_by_case
from hangpoint.core.quantity import Floats, Index, Record
from hangpoint.core.vocabulary import SHEAR_MODES, TENSION_MODES, Inapplicable, Mode, position


@frozen
class Checked:
    """Every mode of every case, in the order in which the first largest governs.

    ``basis`` and ``steel`` have a row a case, and ``limits`` are what option (a) of 17.10.5.3 compares the steel with.
    ``behind_pryout`` are the strengths that pryout rests on, each
    with its row for each row of pryout, -1 where it has none.
    """

    basis: ConcreteBasis
    outcomes: list[ModeOutcome]
    steel: SteelTension
    limits: ConcreteLimits
    behind_pryout: list[tuple[Record, Index]]

    @property
    def n_concrete(self) -> Floats:
        """(cases,) the least nominal strength in tension that the concrete or its anchor reinforcement governs, lbf."""
        return self.limits.least()


def check(cases: AnchorCases, anchors: Anchors) -> Checked:
    """Check every case.

    Args:
        cases: product, base and options of each.
        anchors: the anchors of all cases with their share of the load.
    """
    basis = concrete_basis(
        cast_in=cases.cast_in,
        undercut=cases.undercut,
        adhesive=cases.adhesive,
        category=cases.category,
        supplementary=cases.supplementary,
        cracked=cases.cracked,
        f_c_specified=cases.f_c_specified,
        lightweight=cases.lightweight,
        lambda_c=cases.lambda_c,
    )
    governs = earthquake_governs(category=cases.seismic_category, n_ua=cases.n_total, n_ua_e=cases.n_earthquake)
    tension = tension_checks(cases, anchors, basis, seismic_factor(governs=governs))
    shear = shear_checks(cases, anchors, basis)
    outcomes = [*tension.outcomes, *shear.outcomes]
    outcomes.append(_interaction(cases, outcomes, count=anchors.case_count))
    outcomes.sort(key=lambda outcome: position(outcome.mode))
    return Checked(
        basis=basis,
        outcomes=outcomes,
        steel=tension.steel,
        limits=tension.limits,
        behind_pryout=shear.behind,
    )


def _interaction(cases: AnchorCases, outcomes: list[ModeOutcome], *, count: int) -> ModeOutcome:
    """Tension and shear together; sustained tension is a check of its own (reading 21)."""
    reason = np.full(count, position(Inapplicable.ONE_DIRECTION))
    sheared = [outcome for outcome in outcomes if outcome.mode in SHEAR_MODES and outcome.record is not None]
    if not sheared:
        return absent_outcome(Mode.INTERACTION, reason)
    r_n = peak_by_case([outcome for outcome in outcomes if outcome.mode in TENSION_MODES], count)
    r_v = peak_by_case(sheared, count)
    rows = np.flatnonzero((r_n > 0) & (r_v > 0))
    if not len(rows):
        return absent_outcome(Mode.INTERACTION, reason)
    both = interaction(r_n=r_n[rows], r_v=r_v[rows], power=cases.power[rows])
    return mode_outcome(Mode.INTERACTION, both, case_of_row=rows, reason=reason)
