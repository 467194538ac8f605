"""Bond of adhesive anchors in the stated condition, as columns."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hang_point.points import Bonds
from hangpoint.core.quantity import Bools, Codes, Index
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows
from hangpoint.product.table import ProductTable

NOT_STATED = -1.0
_PHI = (0.0, 0.65, 0.55, 0.45)
"""Table 17.5.3 by category: what weighs the bond of one condition against that of another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedBonds:
    """``bonds`` of every point; ``category`` is that of the condition for adhesive anchors, else of the product."""

    bonds: Bonds
    category: Codes


def pack_bonds(anchor: Rows, taken: ProductTable, assumptions: Flags) -> PackedBonds:
    """Find the condition of every adhesive anchor; of those that agree with what is stated, the one of least bond.

    Args:
        anchor: ``anchor`` of every item.
        taken: the product of each.
        assumptions: takes what was taken where the request is silent.

    Flaws: a temperature range or state of the hole that the product's data don't have.
    """
    count = len(anchor)
    adhesive = taken.bond_count > 0
    row = np.full(count, -1, dtype=np.intp)
    stated = anchor.child("adhesive")
    one_range = np.zeros(count, dtype=np.bool_)
    if adhesive.any():
        chosen = _Conditions(taken)
        temperatures, holes = stated.values("temperature"), stated.values("hole")
        for at in np.flatnonzero(adhesive).tolist():
            row[at] = chosen.least(stated, at, temperatures[at], holes[at])
            one_range[at] = chosen.ranges(at) == 1
        assumptions.set(Assumption.BOND_CONDITION, chosen.open)
    return PackedBonds(
        bonds=_columns(stated, taken, row, one_range, assumptions),
        category=np.where(row >= 0, _of(taken.bond.category, row, 0), taken.category).astype(np.int8),
    )


class _Conditions:
    """Conditions of the products of a batch; ``open`` marks the points where more than one agreed with the request."""

    def __init__(self, taken: ProductTable) -> None:
        self._taken = taken
        self.open: Bools = np.zeros(len(taken), dtype=np.bool_)

    def ranges(self, at: int) -> int:
        """Number of temperature ranges of a point's product."""
        return len({temperature for temperature, _ in self._taken.bond_conditions(at)})

    def least(self, stated: Rows, at: int, temperature: str | None, hole: str | None) -> int:
        """Row of the bond table."""
        conditions = self._taken.bond_conditions(at)
        start = int(self._taken.bond_start[at])
        fits = [
            start + place
            for place, (own_temperature, own_hole) in enumerate(conditions)
            if temperature in (None, own_temperature) and hole in (None, own_hole)
        ]
        self.open[at] = len(fits) > 1
        if fits:
            return min(fits, key=self._bond)
        name, allowed = _missing(conditions, temperature)
        stated.flaw(
            at, name, "The product's data have no such condition.", slug="unknown-option", allowed=sorted(allowed)
        )
        return start

    def _bond(self, row: int) -> tuple[float, float]:
        bond = self._taken.bond
        phi = _PHI[int(bond.category[row])]
        return phi * float(bond.tau_cr[row]), phi * float(bond.tau_uncr[row])


def _missing(conditions: Sequence[tuple[str, str]], temperature: str | None) -> tuple[str, set[str]]:
    """Which of the two words the data don't have, and the words that they have there."""
    ranges = {own for own, _ in conditions}
    if temperature is not None and temperature not in ranges:
        return "temperature", ranges
    return "hole", {hole for own, hole in conditions if temperature in (None, own)}


def _columns(stated: Rows, taken: ProductTable, row: Index, one_range: Bools, assumptions: Flags) -> Bonds:
    bond = taken.bond
    age = stated.numbers("concrete_age", NOT_STATED)
    assumptions.set(Assumption.CONCRETE_AGE, (row >= 0) & (age == NOT_STATED))
    return Bonds(
        tau_cr=_of(bond.tau_cr, row, 0.0),
        tau_uncr=_of(bond.tau_uncr, row, 0.0),
        alpha_n_seis=_of(bond.alpha_n_seis, row, 0.0),
        exponent=_of(bond.tau_exponent, row, 0.0),
        f_c_ref=_of(bond.f_c_ref, row, 1.0),
        upward=taken.upward,
        age=age,
        least_age=taken.least_age_days,
        confirmed=stated.true("certified_installer") & stated.true("continuous_inspection"),
        temperature_stated=one_range | ~stated.silent("temperature"),
    )


def _of(column: np.ndarray[Any, Any], row: Index, otherwise: float) -> np.ndarray[Any, Any]:
    """The column at each row, or a neutral number where there is none."""
    if (row < 0).all():
        return np.full(len(row), otherwise, dtype=column.dtype)
    return np.where(row >= 0, column[row], otherwise).astype(column.dtype)
