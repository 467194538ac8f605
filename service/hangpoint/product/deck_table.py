"""Tested strengths in deck soffits as columns: a row per product and flute, in the units of the core (in, psi, lbf)."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from hangpoint.core.quantity import Floats
from hangpoint.product.deck import DeckData

FLUTES = ("lower", "upper")


@dataclass(frozen=True, kw_only=True, eq=False)
class DeckTable:
    """Columns of deck data, read-only; a strength that isn't stated is 0.0, as is a sheet."""

    n_cr: Floats
    n_uncr: Floats
    n_eq: Floats
    v_sa: Floats
    v_sa_eq: Floats
    f_c_ref: Floats
    exponent: Floats
    flute_width: Floats
    offset: Floats
    cover: Floats
    sheet: Floats
    s_min: Floats
    c_min: Floats

    def __post_init__(self) -> None:
        for field in fields(self):
            getattr(self, field.name).setflags(write=False)

    def __len__(self) -> int:
        return len(self.n_cr)


_NAMES = tuple(field.name for field in fields(DeckTable))
_FORCES = ("n_cr", "n_uncr", "n_eq", "v_sa", "v_sa_eq")


def deck_table(rows: Iterable[Mapping[str, float]]) -> DeckTable:
    """A table of rows of numbers, named as the columns."""
    found = list(rows)
    return DeckTable(**{name: np.array([row[name] for row in found], dtype=np.float64) for name in _NAMES})


def joined_decks(tables: Iterable[DeckTable]) -> DeckTable:
    """The rows of all tables, in order."""
    parts = tuple(tables)
    return DeckTable(**{name: np.concatenate([np.empty(0), *(getattr(p, name) for p in parts)]) for name in _NAMES})


def deck_row(deck: DeckData, *, length: float, stress: float, force: float) -> dict[str, Any]:
    """The numbers of one row, named as the columns; the factors are those to in, psi and lbf."""
    factors = dict.fromkeys(_NAMES, length) | dict.fromkeys(_FORCES, force) | {"f_c_ref": stress, "exponent": 1.0}
    return {name: (getattr(deck, name) or 0.0) * factor for name, factor in factors.items()}
