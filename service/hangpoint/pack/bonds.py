"""Bond of adhesive anchors in the stated condition, as columns."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hang_point.points import Bonds
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows, filled, places
from hangpoint.product.table import ProductTable

NOT_STATED = -1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedBonds:
    """``bonds`` of every point; ``category`` is that of the condition for adhesive anchors, else of the product.

    ``row`` (points,) is that of the condition in the bond table, -1 without bond; ``agreeing`` has, of each point where
    several agree with the request, their rows.
    """

    bonds: Bonds
    category: Codes
    row: Index
    agreeing: Mapping[int, Sequence[int]]


def concrete_age(items: Rows) -> Floats:
    """(points,) age of the concrete when the anchor is set, days: of the adhesive's conditions, else of the member."""
    age = items.child("anchor").child("adhesive").numbers("concrete_age", NOT_STATED)
    return np.where(age == NOT_STATED, items.child("base").numbers("age_days", NOT_STATED), age)


def pack_bonds(items: Rows, taken: ProductTable, assumptions: Flags) -> PackedBonds:
    """Find the condition of every adhesive anchor; where several agree with what is stated, any: `bond_choice` chooses.

    Args:
        items: the points.
        taken: the product of each.
        assumptions: takes what was taken where the request is silent.

    Flaws: a temperature range or state of the hole that the product's data don't have.
    """
    count = len(items)
    adhesive = places(taken.bond_count > 0)
    stated, age = items.child("anchor").child("adhesive"), concrete_age(items)
    if not adhesive:
        bonds = _without_bond(stated, age, taken.upward, taken.least_age_days)
        return PackedBonds(bonds=bonds, category=taken.category, row=np.full(count, -1, dtype=np.intp), agreeing={})
    row = np.full(count, -1, dtype=np.intp)
    one_range = np.zeros(count, dtype=np.bool_)
    chosen = _Conditions(taken)
    temperatures, holes = stated.values("temperature"), stated.values("hole")
    for at in adhesive:
        row[at] = chosen.least(stated, at, temperatures[at], holes[at])
        one_range[at] = chosen.ranges(at) == 1
    assumptions.set(Assumption.BOND_CONDITION, chosen.open)
    assumptions.set(Assumption.CONCRETE_AGE, (row >= 0) & (age == NOT_STATED))
    return PackedBonds(
        bonds=_bond_columns(
            taken,
            row,
            age=age,
            confirmed=_confirmed(stated),
            temperature_stated=one_range | ~stated.silent("temperature"),
        ),
        category=_category(taken, row),
        row=row,
        agreeing=chosen.agreed,
    )


def bonds_of_rows(taken: ProductTable, row: Index, bonds: Bonds) -> PackedBonds:
    """Bonds of the same points in other conditions, ``row`` (points,) of the bond table."""
    made = _bond_columns(
        taken, row, age=bonds.age, confirmed=bonds.confirmed, temperature_stated=bonds.temperature_stated
    )
    return PackedBonds(bonds=made, category=_category(taken, row), row=row, agreeing={})


def _category(taken: ProductTable, row: Index) -> Codes:
    """Anchor category of each product, of an adhesive that of the condition."""
    return np.where(row >= 0, _of(taken.bond.category, row, 0), taken.category).astype(np.int8)


class _Conditions:
    """Conditions of the products of a batch; ``open`` marks the points where more than one agreed with the request.

    ``agreed`` has their rows.
    """

    def __init__(self, taken: ProductTable) -> None:
        self._taken = taken
        self.open: Bools = np.zeros(len(taken), dtype=np.bool_)
        self.agreed: dict[int, list[int]] = {}

    def ranges(self, at: int) -> int:
        """Number of temperature ranges of a point's product."""
        return len({temperature for temperature, _ in self._taken.bond_conditions(at)})

    def least(self, stated: Rows, at: int, temperature: str | None, hole: str | None) -> int:
        """Row of the bond table."""
        fits = self.agreeing(at, temperature, hole)
        self.open[at] = len(fits) > 1
        if len(fits) > 1:
            self.agreed[at] = fits
        if fits:
            return fits[0]
        name, allowed = _missing(self._taken.bond_conditions(at), temperature)
        stated.flaw(
            at, name, "The product's data have no such condition.", slug="unknown-option", allowed=sorted(allowed)
        )
        return int(self._taken.bond_start[at])

    def agreeing(self, at: int, temperature: str | None, hole: str | None) -> list[int]:
        """Rows of the bond table that agree with what is stated."""
        start = int(self._taken.bond_start[at])
        return [
            start + place
            for place, (own_temperature, own_hole) in enumerate(self._taken.bond_conditions(at))
            if temperature in (None, own_temperature) and hole in (None, own_hole)
        ]


def _missing(conditions: Sequence[tuple[str, str]], temperature: str | None) -> tuple[str, set[str]]:
    """Which of the two words the data don't have, and the words that they have there."""
    ranges = {own for own, _ in conditions}
    if temperature is not None and temperature not in ranges:
        return "temperature", ranges
    return "hole", {hole for own, hole in conditions if temperature in (None, own)}


def bonds_in_condition(
    table: ProductTable, temperature: str | None, hole: str | None, weight: Callable[[int], float]
) -> tuple[PackedBonds, Bools]:
    """Bond of every row of a table in one condition: of those that agree with it the one of least ``weight``.

    Of age and confirmation, which are the point's, the columns hold nothing.

    Returns:
        The columns, and (rows,) whether the data have such a condition, which all but adhesives do.
    """
    count = len(table)
    row, one_range = np.full(count, -1, dtype=np.intp), np.zeros(count, dtype=np.bool_)
    fits = np.ones(count, dtype=np.bool_)
    chosen = _Conditions(table)
    for at in np.flatnonzero(table.bond_count > 0).tolist():
        agreeing = chosen.agreeing(at, temperature, hole)
        fits[at] = bool(agreeing)
        if len(agreeing) > 1:
            chosen.agreed[at] = agreeing
        row[at] = min(agreeing, key=weight) if agreeing else int(table.bond_start[at])
        one_range[at] = chosen.ranges(at) == 1
    never = np.zeros(count, dtype=np.bool_)
    bonds = _bond_columns(table, row, age=np.full(count, NOT_STATED), confirmed=never, temperature_stated=one_range)
    packed = PackedBonds(bonds=bonds, category=_category(table, row), row=row, agreeing=chosen.agreed)
    return packed, fits


def stated_bonds(items: Rows) -> Bonds:
    """What points state of the hole of an adhesive anchor whose product is still to be chosen; without any bond."""
    count = len(items)
    stated = items.child("anchor").child("adhesive")
    return _without_bond(stated, concrete_age(items), filled(count, False, np.bool_), filled(count, 0.0))


def _without_bond(stated: Rows, age: Floats, upward: Bools, least_age: Floats) -> Bonds:
    """What is stated of the holes where no product has a bond."""
    count = len(stated)
    nothing = filled(count, 0.0)
    return Bonds(
        tau_cr=nothing,
        tau_uncr=nothing,
        alpha_n_seis=nothing,
        exponent=nothing,
        f_c_ref=filled(count, 1.0),
        open_share=filled(count, 1.0),
        upward=upward,
        age=age,
        least_age=least_age,
        confirmed=_confirmed(stated),
        temperature_stated=~stated.silent("temperature"),
    )


def _confirmed(stated: Rows) -> Bools:
    return stated.true("certified_installer") & stated.true("continuous_inspection")


def _bond_columns(
    taken: ProductTable, row: Index, *, age: Floats, confirmed: Bools, temperature_stated: Bools
) -> Bonds:
    bond = taken.bond
    return Bonds(
        tau_cr=_of(bond.tau_cr, row, 0.0),
        tau_uncr=_of(bond.tau_uncr, row, 0.0),
        alpha_n_seis=_of(bond.alpha_n_seis, row, 0.0),
        exponent=_of(bond.tau_exponent, row, 0.0),
        f_c_ref=_of(bond.f_c_ref, row, 1.0),
        open_share=filled(len(row), 1.0),
        upward=taken.upward,
        age=age,
        least_age=taken.least_age_days,
        confirmed=confirmed,
        temperature_stated=temperature_stated,
    )


def _of(column: np.ndarray[Any, Any], row: Index, otherwise: float) -> np.ndarray[Any, Any]:
    """The column at each row, or a neutral number where there is none."""
    there = row >= 0
    if not np.count_nonzero(there):
        return filled(len(row), otherwise, column.dtype)
    return np.where(there, column[row], otherwise).astype(column.dtype)
