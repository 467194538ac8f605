"""Bond of adhesive anchors as columns: one row per product and condition, in the units of the core (psi).

A product's rows lie together: ``bond_start`` and ``bond_count`` of the product table say where.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from typing import Any, get_args, get_type_hints

import numpy as np

from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.product.bond_data import Bond, BondCondition, EnBond, HoleCondition
from hangpoint.product.principles import PSI_PER_MPA

F_CK_OF_TESTS = 20.0
"""N/mm2, of C20/25: what bond resistances by European assessment are stated for."""
HOLES: tuple[str, ...] = get_args(HoleCondition)
_DTYPES: Mapping[Any, Any] = {Floats: np.float64, Bools: np.bool_, Codes: np.int8, Index: np.intp}


@dataclass(frozen=True, kw_only=True, eq=False)
class BondTable:
    """Columns of bond data; every array has one entry a row and is read-only."""

    temperature: tuple[str, ...]
    """The product's word for its temperature range."""
    long_term: Floats
    """Highest lasting temperature of the range, degF."""
    short_term: Floats
    hole: Codes
    """Index into `HOLES`."""
    category: Codes
    tau_cr: Floats
    """0.0 where not ``qualified_cr``."""
    qualified_cr: Bools
    tau_uncr: Floats
    qualified_uncr: Bools
    alpha_n_seis: Floats
    """0.0 where not qualified for earthquake."""
    tau_exponent: Floats
    f_c_ref: Floats
    gamma_inst: Floats
    """Of EN 1992-4, as what follows, in N/mm2; 0.0 in rows for ACI 318-19."""
    tau_rk_cr: Floats
    """For C20/25; 0.0 where not assessed."""
    tau_rk_ucr: Floats
    tau_rk_c1: Floats
    tau_rk_c2: Floats

    def __post_init__(self) -> None:
        for name in _ARRAYS:
            getattr(self, name).setflags(write=False)

    def __len__(self) -> int:
        return len(self.temperature)

    def condition(self, row: int) -> tuple[str, str]:
        """The words of a row: temperature range and state of the hole."""
        return self.temperature[row], HOLES[int(self.hole[row])]


_TYPES = get_type_hints(BondTable)
_ARRAYS: dict[str, Any] = {
    field.name: _DTYPES[_TYPES[field.name]] for field in fields(BondTable) if field.name != "temperature"
}


def bond_table(rows: Iterable[Mapping[str, Any]]) -> BondTable:
    """A table of rows of scalars, named as the columns."""
    found = list(rows)
    columns: dict[str, Any] = {
        name: np.array([row[name] for row in found], dtype=dtype) for name, dtype in _ARRAYS.items()
    }
    return BondTable(temperature=tuple(row["temperature"] for row in found), **columns)


def joined(tables: Iterable[BondTable]) -> BondTable:
    """The rows of all tables, in order."""
    parts = tuple(tables)
    empty: dict[str, Any] = {name: np.empty(0, dtype=dtype) for name, dtype in _ARRAYS.items()}
    columns: dict[str, Any] = {
        name: np.concatenate([empty[name], *(getattr(part, name) for part in parts)]) for name in _ARRAYS
    }
    return BondTable(temperature=tuple(word for part in parts for word in part.temperature), **columns)


def bond_row(bond: Bond, *, stress: float, fahrenheit: bool, f_c_reference: float) -> dict[str, Any]:
    """The scalars of one row, named as the columns.

    ``stress`` is the factor to psi, ``fahrenheit`` whether temperatures are degF already, ``f_c_reference`` the
    concrete strength, psi, where the data are silent.
    """
    return {
        **_condition(bond, fahrenheit=fahrenheit),
        "category": bond.category,
        "tau_cr": (bond.tau_cr or 0.0) * stress,
        "qualified_cr": bond.tau_cr is not None,
        "tau_uncr": (bond.tau_uncr or 0.0) * stress,
        "qualified_uncr": bond.tau_uncr is not None,
        "alpha_n_seis": bond.alpha_n_seis or 0.0,
        "tau_exponent": bond.tau_exponent,
        "f_c_ref": f_c_reference if bond.f_c_ref is None else bond.f_c_ref * stress,
        **dict.fromkeys(_OF_EN, 0.0),
    }


_OF_EN = ("gamma_inst", "tau_rk_cr", "tau_rk_ucr", "tau_rk_c1", "tau_rk_c2")


def en_bond_row(bond: EnBond, *, stress: float, fahrenheit: bool) -> dict[str, Any]:
    """The same of a condition for EN 1992-4; ``stress`` is the factor to N/mm2."""
    taus = {name: (getattr(bond, name) or 0.0) * stress for name in _OF_EN if name != "gamma_inst"}
    return {
        **_condition(bond, fahrenheit=fahrenheit),
        "category": 0,
        "tau_cr": taus["tau_rk_cr"] * PSI_PER_MPA,
        "qualified_cr": bond.tau_rk_cr is not None,
        "tau_uncr": taus["tau_rk_ucr"] * PSI_PER_MPA,
        "qualified_uncr": True,
        "alpha_n_seis": 0.0,
        "tau_exponent": bond.psi_c_exponent,
        "f_c_ref": F_CK_OF_TESTS * PSI_PER_MPA,
        "gamma_inst": bond.gamma_inst,
        **taus,
    }


def _condition(bond: BondCondition, *, fahrenheit: bool) -> dict[str, Any]:
    long_term, short_term = (
        degrees if fahrenheit else degrees * 9 / 5 + 32 for degrees in (bond.long_term, bond.short_term)
    )
    return {
        "temperature": bond.temperature,
        "long_term": long_term,
        "short_term": short_term,
        "hole": HOLES.index(bond.hole),
    }
