"""What is said of items while they are read: assumptions, what stays unchecked, flaws where a column holds."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.quantity import Bools, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.masses import is_mass
from hangpoint.pack.pull import Rows
from hangpoint.units import QuantityKind


class Notes:
    """Flags of the items of a batch, raised from rows that may be several to an item."""

    def __init__(self, count: int) -> None:
        self.count = count
        self.assumptions = Flags(LoadAssumption, count)
        self.not_checked = Flags(LoadNotChecked, count)

    def assume(self, member: LoadAssumption, holds: Bools | Sequence[bool], item: Index | Sequence[int]) -> None:
        """Raise a flag of the items ``item`` (rows,) where it ``holds`` of any of their rows."""
        self.assumptions.set(member, self._of_items(holds, item))

    def leave_unchecked(
        self, member: LoadNotChecked, holds: Bools | Sequence[bool], item: Index | Sequence[int]
    ) -> None:
        """As `assume`, of what is not checked."""
        self.not_checked.set(member, self._of_items(holds, item))

    def masses(self, values: Sequence[Any], kind: QuantityKind, rows: Rows, item: Index | Sequence[int]) -> None:
        """Say of the items where a weight is stated in kg; ``rows`` (rows,) that the values are of."""
        self.assume(LoadAssumption.MASS_BY_GRAVITY, [is_mass(value, kind, rows.system) for value in values], item)

    def _of_items(self, holds: Bools | Sequence[bool], item: Index | Sequence[int]) -> Bools:
        found = np.zeros(self.count, dtype=np.bool_)
        found[np.asarray(item, dtype=np.intp)[np.asarray(holds, dtype=np.bool_)]] = True
        return found


def flaw_where(
    rows: Rows,
    holds: Bools | Sequence[bool],
    name: str,
    detail: str,
    *,
    slug: str = "validation",
    code: str = "",
    allowed: Sequence[str] = (),
) -> None:
    """Note one flaw of the value under ``name`` wherever it ``holds``."""
    places: list[int] = np.flatnonzero(holds).tolist()
    for at in places:
        rows.flaw(at, name, detail, slug=slug, code=code, allowed=allowed)


def stated(rows: Rows, name: str) -> Bools:
    """Where there is a value under ``name``."""
    return ~rows.silent(name)
