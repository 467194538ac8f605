"""The checks of Table 17.5.2 and 17.8 for single anchors. Units: in, in2, lbf, psi."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis, concrete_basis
from hangpoint.core.aci318_19.interaction import interaction
from hangpoint.core.aci318_19.seismic import earthquake_governs, seismic_factor
from hangpoint.core.aci318_19.shear import shear_checks
from hangpoint.core.aci318_19.steel_tension import SteelTension
from hangpoint.core.aci318_19.tension import TensionChecks, tension_checks
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome, peak_by_case
from hangpoint.core.quantity import Floats
from hangpoint.core.vocabulary import Inapplicable, Mode, position

_ORDER = {mode: place for place, mode in enumerate(Mode)}


@dataclass(frozen=True, kw_only=True)
class Checked:
    """Every mode of every case, in the order in which the first largest governs.

    ``basis`` and ``steel`` have a row a case; ``n_concrete`` (cases,) is the least nominal strength in tension that the
    concrete or its anchor reinforcement governs, lbf.
    """

    basis: ConcreteBasis
    outcomes: list[ModeOutcome]
    steel: SteelTension
    n_concrete: Floats


def check(anchors: AnchorCases) -> Checked:
    """Check every case."""
    basis = concrete_basis(
        cast_in=anchors.cast_in,
        undercut=anchors.undercut,
        adhesive=anchors.adhesive,
        category=anchors.category,
        supplementary=anchors.supplementary,
        cracked=anchors.cracked,
        f_c_specified=anchors.f_c_specified,
        lightweight=anchors.lightweight,
        lambda_c=anchors.lambda_c,
    )
    governs = earthquake_governs(category=anchors.seismic_category, n_ua=anchors.n_ua, n_ua_e=anchors.n_ua_e)
    tension = tension_checks(anchors, basis, seismic_factor(governs=governs))
    shear = shear_checks(anchors, basis, n_cb=tension.n_cb, n_a=tension.n_a)
    outcomes = [*tension.outcomes, *shear, _interaction(anchors, tension, shear)]
    outcomes.sort(key=lambda outcome: _ORDER[outcome.mode])
    return Checked(basis=basis, outcomes=outcomes, steel=tension.steel, n_concrete=tension.n_concrete)


def _interaction(anchors: AnchorCases, tension: TensionChecks, shear: Sequence[ModeOutcome]) -> ModeOutcome:
    """Tension and shear together; sustained tension is a check of its own (reading 21)."""
    count = len(anchors.n_ua)
    reason = np.full(count, position(Inapplicable.ONE_DIRECTION))
    rows = np.flatnonzero((anchors.n_ua > 0) & (anchors.v_ua > 0))
    if not len(rows):
        return absent_outcome(Mode.INTERACTION, reason)
    pulled = [outcome for outcome in tension.outcomes if outcome.mode is not Mode.SUSTAINED_BOND]
    both = interaction(
        r_n=peak_by_case(pulled, count)[rows],
        r_v=peak_by_case(shear, count)[rows],
        power=anchors.power[rows],
    )
    return mode_outcome(Mode.INTERACTION, both, case_of_row=rows, reason=reason)
