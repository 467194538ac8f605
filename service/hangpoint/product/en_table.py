"""Figures for EN 1992-4 as columns: one row per product of the basis en. Units: mm, mm2, N, N/mm2.

They are those of the design code that reads them, not the inches and pounds of the other tables: the numbers of a file
in SI units come through as they stand there, forces times 1000.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any, get_type_hints

import numpy as np

from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.product.en_data import K7_SILENT, PSI0_SUS_SILENT
from hangpoint.product.fields import Units, pullout_state
from hangpoint.product.principles import CAST_IN, CONE_FACTORS, MM_PER_INCH, NEWTONS_PER_POUND, PSI_PER_MPA

if TYPE_CHECKING:
    from hangpoint.product.embedment import Embedment
    from hangpoint.product.family import SizeData

_DTYPES: Mapping[Any, Any] = {Floats: np.float64, Bools: np.bool_, Codes: np.int8}


@dataclass(frozen=True, kw_only=True, eq=False)
class EnTable:
    """Columns of figures for EN 1992-4, read-only; every array has one entry a row."""

    h_ef: Floats
    d_nom: Floats
    a_s: Floats
    f_uk: Floats
    f_yk: Floats
    n_rk_s: Floats
    """0.0 where silent, as ``v0_rk_s``, ``gamma_ms_n``, ``gamma_ms_v`` and ``n0_rk_sp``."""
    v0_rk_s: Floats
    k7: Floats
    k7_silent: Bools
    """The data don't say: ``k7`` is that of brittle steel."""
    gamma_ms_n: Floats
    gamma_ms_v: Floats
    gamma_inst: Floats
    """1.0 for cast-in fasteners."""
    k_cr_n: Floats
    k_ucr_n: Floats
    s_cr_n: Floats
    s_cr_n_silent: Bools
    """The data don't say: ``s_cr_n`` is 3 h_ef."""
    c_cr_sp: Floats
    """0.0 for headed fasteners without one."""
    n0_rk_sp: Floats
    n_rk_p_cr: Floats
    """For C20/25; 0.0 where the state beside it is no number, as ``n_rk_p_ucr``."""
    n_rk_p_cr_state: Codes
    """Index into `PULLOUT_STATES`; absent for headed fasteners, whose resistance is calculated."""
    n_rk_p_ucr: Floats
    n_rk_p_ucr_state: Codes
    psi_c_exponent: Floats
    """0.0 where no pull-out resistance is a number."""
    k8: Floats
    a_h: Floats
    """0.0 without a head."""
    post_installed: Bools
    undercut: Bools
    bonded: Bools
    """Its resistance stands in the bond table, one row a condition, and so does ``gamma_inst``, 1.0 here."""
    psi0_sus: Floats
    """1.0 where not ``bonded``."""
    psi0_sus_silent: Bools
    """The data of a bonded fastener don't say: ``psi0_sus`` is 0.6."""
    l_f: Floats
    n_rk_s_c1: Floats
    """Of earthquake, category C1, as the three beside it and those of C2; 0.0 without the category."""
    v0_rk_s_c1: Floats
    """0.0 where not qualified for shear, as ``v0_rk_s_c2``."""
    n_rk_p_c1: Floats
    n_rk_p_c1_state: Codes
    n_rk_s_c2: Floats
    v0_rk_s_c2: Floats
    n_rk_p_c2: Floats
    n_rk_p_c2_state: Codes

    def __post_init__(self) -> None:
        for field in fields(self):
            getattr(self, field.name).setflags(write=False)

    def __len__(self) -> int:
        return len(self.h_ef)


_TYPES = get_type_hints(EnTable)
_ARRAYS: dict[str, Any] = {field.name: _DTYPES[_TYPES[field.name]] for field in fields(EnTable)}


def en_table(rows: Iterable[Mapping[str, Any]]) -> EnTable:
    """A table of rows of scalars, named as the columns."""
    found = list(rows)
    columns: dict[str, Any] = {
        name: np.array([row[name] for row in found], dtype=dtype) for name, dtype in _ARRAYS.items()
    }
    return EnTable(**columns)


def joined_en(tables: Iterable[EnTable]) -> EnTable:
    """The rows of all tables, in order."""
    parts = tuple(tables)
    columns: dict[str, Any] = {
        name: np.concatenate([np.empty(0, dtype=dtype), *(getattr(part, name) for part in parts)])
        for name, dtype in _ARRAYS.items()
    }
    return EnTable(**columns)


def en_row(*, principle: str, units: Units, size: "SizeData", embedment: "Embedment") -> dict[str, Any] | None:
    """The scalars of one row, named as the columns; None of an embedment without figures for EN 1992-4."""
    own = embedment.en
    if own is None:
        return None
    length, force = (1.0, 1000.0) if units == "si" else (MM_PER_INCH, NEWTONS_PER_POUND)
    stress = 1.0 if units == "si" else 1 / PSI_PER_MPA
    k_cr_n, k_ucr_n = CONE_FACTORS[principle in CAST_IN]
    row: dict[str, Any] = {
        "h_ef": embedment.h_ef * length,
        "d_nom": size.d_a * length,
        "a_s": size.a_se * length**2,
        "f_uk": size.f_uta * stress,
        "f_yk": size.f_ya * stress,
        "k7": K7_SILENT if own.k7 is None else own.k7,
        "k7_silent": own.k7 is None,
        "gamma_ms_n": own.gamma_ms_n or 0.0,
        "gamma_ms_v": own.gamma_ms_v or 0.0,
        "gamma_inst": own.gamma_inst or 1.0,
        "k_cr_n": own.k_cr_n or k_cr_n,
        "k_ucr_n": own.k_ucr_n or k_ucr_n,
        "s_cr_n": (own.s_cr_n or 3.0 * embedment.h_ef) * length,
        "s_cr_n_silent": own.s_cr_n is None,
        "c_cr_sp": (own.c_cr_sp or 0.0) * length,
        "psi_c_exponent": own.psi_c_exponent or 0.0,
        "k8": own.k8,
        "a_h": size.head.a_brg * length**2 if size.head else 0.0,
        "post_installed": principle not in CAST_IN,
        "undercut": principle == "undercut",
        "bonded": principle == "adhesive",
        "psi0_sus": (own.psi0_sus or PSI0_SUS_SILENT) if principle == "adhesive" else 1.0,
        "psi0_sus_silent": principle == "adhesive" and own.psi0_sus is None,
        "l_f": (own.l_f or embedment.h_ef) * length,
    }
    for name in ("n_rk_s", "v0_rk_s", "n0_rk_sp"):
        row[name] = (getattr(own, name) or 0.0) * force
    pull_outs: dict[str, float | str | None] = {"n_rk_p_cr": own.n_rk_p_cr, "n_rk_p_ucr": own.n_rk_p_ucr}
    for category, data in (("c1", own.c1), ("c2", own.c2)):
        row[f"n_rk_s_{category}"] = data.n_rk_s_eq * force if data else 0.0
        row[f"v0_rk_s_{category}"] = (data.v0_rk_s_eq or 0.0) * force if data else 0.0
        pull_outs[f"n_rk_p_{category}"] = data.n_rk_p_eq if data else None
    for name, value in pull_outs.items():
        row[name] = value * force if isinstance(value, float) else 0.0
        row[f"{name}_state"] = pullout_state(value)
    return row
