"""Coefficients of components: stated for the edition in force, or those of a named component by ASCE 7-16."""

import numpy as np

from hangpoint.core.loads.component_factors import FACTORS_16, ISOLATED
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.pull import Rows

OLDER, NEWER = ("a_p", "r_p", "omega_0"), ("c_ar", "r_po", "omega_0p")
"""Names of the coefficients of 7-16 and of 7-22."""

LEAST_AMPLIFICATION, MOST_RESPONSE = 1.0, 12.0
"""a_p and C_AR of the tables are no smaller, R_p no larger; from memory."""

_NEUTRAL = 1.0
_COMPONENT_ROWS = {name: row for row, name in enumerate(FACTORS_16)}
_ISOLATED_ROWS = [_COMPONENT_ROWS[name] for name in ISOLATED]
_FACTORS = np.array([[each.a_p, each.r_p, each.omega_0] for each in FACTORS_16.values()])


def pack_coefficients(rows: Rows, item: Index, *, isolated: Bools, newer: bool, notes: Notes) -> dict[str, Floats]:
    """Coefficients of each component by name; those of the other edition are neutral.

    Stated ones go before those of a named component. An item that names its component takes no coefficients from the
    defaults, where they were stated for another one.

    Flaws: neither coefficients nor, by 7-16, a component; some of them but not all; by 7-22 a component alone, by 7-16
    only coefficients of 7-22; of what is ``isolated`` (rows,) the name of a component that isn't.
    """
    names = NEWER if newer else OLDER
    values = _stated(rows, names)
    absent = np.isnan(values)
    some = ~np.all(absent, axis=0)
    component = rows.codes("component", _COMPONENT_ROWS)
    if newer:
        detail = (
            "The coefficients of ASCE 7-22, c_ar, r_po and omega_0p, have to be stated: no table of them is held here,"
            " so a component's name alone gives none."
        )
        flaw_where(rows, ~some, "coefficients", detail, code="missing", allowed=NEWER)
    else:
        of_newer = ~some & ~np.isnan(_stated(rows, NEWER)).all(axis=0)
        detail = "Name the component, or give its coefficients a_p, r_p and omega_0."
        unnamed = ~some & ~of_newer & (component < 0)
        flaw_where(rows, unnamed, "component", detail, code="missing", allowed=tuple(FACTORS_16))
        detail = "The request goes by ASCE 7-16, and these are of ASCE 7-22: state load_standard asce7_22, or a_p, r_p"
        flaw_where(rows, of_newer, "coefficients", f"{detail} and omega_0.", code="contradiction", allowed=OLDER)
        by_table = ~some & (component >= 0)
        detail = "The equipment is isolated, and this component isn't: name an isolated one, or give the coefficients."
        rigid = by_table & isolated & ~np.isin(component, _ISOLATED_ROWS)
        flaw_where(rows, rigid, "component", detail, code="contradiction", allowed=ISOLATED)
        notes.assume(LoadAssumption.COEFFICIENTS, by_table, item)
        values = np.where(by_table, _FACTORS[component].T, values)
    low = values[0] < LEAST_AMPLIFICATION
    notes.assume(LoadAssumption.COEFFICIENTS_LOW, low if newer else low | (values[1] > MOST_RESPONSE), item)
    for name, lacking in zip(names, absent, strict=True):
        detail = f"{name} is required beside the other coefficients."
        flaw_where(rows, some & lacking, f"coefficients/{name}", detail, code="missing")
    neutral = np.full(len(rows), _NEUTRAL)
    return dict.fromkeys((*OLDER, *NEWER), neutral) | {
        name: np.where(np.isnan(column), _NEUTRAL, column) for name, column in zip(names, values, strict=True)
    }


def _stated(rows: Rows, names: tuple[str, ...]) -> Floats:
    """(3, rows) stated coefficients, nan where there is none."""
    coefficients = rows.child("coefficients")
    values = np.stack([coefficients.numbers(name, np.nan) for name in names])
    renamed = np.array(["component" in own and "coefficients" not in own for own in rows.objects], dtype=np.bool_)
    return np.where(renamed, np.nan, values)
