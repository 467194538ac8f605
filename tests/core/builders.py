"""Inputs of the core for tests: columns of one or many rows, from invented defaults and what a test changes.

Every builder takes scalars or columns; scalars are repeated to the longest column. The default anchor is an invented
headed bolt of 5/8 in, 6 in deep, in cracked normalweight concrete of 4,000 psi without edges.
"""

from functools import cache
from typing import get_args, get_type_hints

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.pullout import HEADED, PRODUCT
from hangpoint.core.hang_point.points import (
    FORCES,
    NO_OPTION,
    NO_ROD,
    SOFFIT,
    Bases,
    Basis,
    Bonds,
    Fixings,
    Hangs,
    PointLoads,
    Points,
    Products,
    Rods,
    Runs,
)
from hangpoint.core.hanger.rod import RULES, THREADS

INF = np.inf
NO_EDGES = (INF, INF, INF, INF)

_WIDE = frozenset({"c_a", "spans", "v_dead", "v_contents", "v_live", "v_factored"})
NO_SHEAR = (0.0, 0.0)


def column(cls, name, value, count):
    """One column of ``count`` rows, in the type that the table ``cls`` states for it."""
    array = np.asarray(value, dtype=_dtypes(cls)[name])
    shape = (count, array.shape[-1]) if name in _WIDE else (count,)
    return np.ascontiguousarray(np.broadcast_to(array, shape))


@cache
def _dtypes(cls):
    """Element type of each column, from its annotation."""
    return {name: get_args(get_args(hint)[1])[0] for name, hint in get_type_hints(cls).items()}


def _count(*tables):
    longest = 1
    for table in tables:
        for name, value in table.items():
            shape = np.shape(value)
            if len(shape) == (2 if name in _WIDE else 1):
                longest = max(longest, shape[0])
    return longest


def _known(table, defaults):
    unknown = set(table) - set(defaults)
    if unknown:
        raise TypeError(f"no such column: {sorted(unknown)}")
    return defaults | table


def _columns(cls, table, defaults, count):
    return cls(**{name: column(cls, name, value, count) for name, value in _known(table, defaults).items()})


ANCHOR = {
    "cast_in": True,
    "undercut": False,
    "headed": True,
    "category": 0,
    "d_a": 0.625,
    "a_se_n": 0.226,
    "f_uta": 58_000.0,
    "f_ya": 36_000.0,
    "ductile": True,
    "h_ef": 6.0,
    "c_ac": 0.0,
    "product_k_c": False,
    "k_cr": 0.0,
    "k_uncr": 0.0,
    "pullout_method": HEADED,
    "pullout_governs": True,
    "n_p_cr": 0.0,
    "n_p_uncr": 0.0,
    "n_p_eq": 0.0,
    "by_seismic_tests": False,
    "n_exponent": 0.0,
    "f_c_ref": 2_500.0,
    "tested_lightweight": False,
    "a_brg": 0.671,
    "e_h": 0.0,
    "f_c_specified": 4_000.0,
    "lightweight": False,
    "lambda_c": 1.0,
    "cracked": True,
    "supplementary": False,
    "c_a": NO_EDGES,
    "h_a": 12.0,
    "edge_reinforcement": 0,
    "reinforced_n": False,
    "a_s_n": 0.0,
    "f_y_n": 0.0,
    "reinforced_v": False,
    "a_s_v": 0.0,
    "f_y_v": 0.0,
    "welded_stud": False,
    "distance_sleeve": False,
    "by_shear_tests": False,
    "v_sa": 0.0,
    "welded": False,
    "grout_pad": False,
    "adhesive": False,
    "tau_cr": 0.0,
    "tau_uncr": 0.0,
    "by_seismic_bond": False,
    "alpha_n_seis": 0.0,
    "tau_exponent": 0.0,
    "f_c_ref_bond": 2_500.0,
    "oblique": 0,
    "power": False,
    "seismic_category": 0,
    "n_ua": 1_000.0,
    "n_ua_s": 1_000.0,
    "n_ua_e": 0.0,
    "v_ua_x": 0.0,
    "v_ua_y": 0.0,
    "either_x": False,
    "either_y": False,
}

EXPANSION = {
    "cast_in": False,
    "headed": False,
    "category": 1,
    "d_a": 0.5,
    "a_se_n": 0.1,
    "f_uta": 106_000.0,
    "f_ya": 85_000.0,
    "h_ef": 3.25,
    "c_ac": 9.0,
    "product_k_c": True,
    "k_cr": 17.0,
    "k_uncr": 24.0,
    "pullout_method": PRODUCT,
    "n_p_cr": 5_400.0,
    "n_p_uncr": 8_000.0,
    "n_exponent": 0.5,
    "a_brg": 0.0,
}
"""What an invented expansion anchor of 1/2 in changes."""


def anchor_cases(**changed):
    """`AnchorCases` with the default anchor but for the given columns."""
    known = _known(changed, ANCHOR)
    known["v_ua"] = np.hypot(known["v_ua_x"], known["v_ua_y"])
    count = _count(changed)
    return AnchorCases(**{name: column(AnchorCases, name, value, count) for name, value in known.items()})


HANGS = {
    "kind": FORCES,
    "dead": 0.0,
    "contents": 0.0,
    "live": 0.0,
    "factored": 0.0,
    "sustained_fraction": 1.0,
    "earthquake_fraction": 0.0,
    "v_dead": NO_SHEAR,
    "v_contents": NO_SHEAR,
    "v_live": NO_SHEAR,
    "v_factored": NO_SHEAR,
    "earthquake_fraction_v": 0.0,
    "other_nature": False,
    "sprinkler": False,
}

RUN = {
    "point": 0,
    "d_o": 4.5,
    "t": 0.120,
    "rho_pipe": 490.0,
    "rho_contents": 62.4,
    "t_ins": 0.0,
    "rho_ins": 0.0,
    "allowance": 0.0,
    "spans": (12.0, 12.0),
    "span_count": 2,
    "support": 1,
    "missing": -1,
    "model": 1,
    "nominal": 4.0,
    "spacing_rule": -1,
    "spacing_limit": INF,
    "spacing_covered": True,
}
"""NPS 4, schedule 10, filled with water, between two spans of 12 ft, by tributary lengths."""

LOAD = {"run": 0, "position": 0.0, "weight": 0.0, "live": False}

ROD = {
    "rule": NO_ROD,
    "size_table": False,
    "d": THREADS["3/8"].d,
    "pitch": THREADS["3/8"].pitch,
    "k_root": THREADS["3/8"].k_root,
    "k_stress": THREADS["3/8"].k_stress,
    "f_u": 50_000.0,
}

BASE = {
    "f_c": 4_000.0,
    "lightweight": False,
    "lambda_c": 1.0,
    "cracked": True,
    "thickness": 12.0,
    "c_a": NO_EDGES,
    "supplementary": False,
    "edge_reinforcement": 0,
    "a_s_n": 0.0,
    "f_y_n": 0.0,
    "a_s_v": 0.0,
    "f_y_v": 0.0,
    "face": SOFFIT,
    "category": 0,
}

FIXING = {
    "welded": False,
    "thickness": 0.0,
    "grout_pad": False,
    "gap": 0.0,
    "tension_option": NO_OPTION,
    "shear_option": NO_OPTION,
    "stretch_length": 0.0,
    "upset_threads": False,
    "oblique": 0,
    "power": False,
}

BOND = {
    "tau_cr": 800.0,
    "tau_uncr": 1_600.0,
    "alpha_n_seis": 0.8,
    "exponent": 0.0,
    "f_c_ref": 2_500.0,
    "upward": True,
    "age": 28.0,
    "least_age": 21.0,
    "confirmed": True,
    "temperature_stated": True,
}
"""Bond of an invented adhesive anchor in a dry hole, everything confirmed."""

PRODUCT_ROW = {
    "invented": True,
    "has_source": True,
    "table_only": False,
    "adhesive": False,
    "post_installed": True,
    "undercut": False,
    "screw": False,
    "d_a": 0.5,
    "a_se_n": 0.1,
    "f_uta": 106_000.0,
    "f_ya": 85_000.0,
    "ductile": True,
    "thread_d": 0.0,
    "h_ef": 3.25,
    "h_min": 6.0,
    "c_min": 2.75,
    "c_min_code": 0.0,
    "c_ac": 9.0,
    "category": 1,
    "product_k_c": True,
    "k_cr": 17.0,
    "k_uncr": 24.0,
    "pullout_method": PRODUCT,
    "a_brg": 0.0,
    "e_h": 0.0,
    "n_p_cr": 5_400.0,
    "n_p_uncr": 8_000.0,
    "n_p_eq": 4_900.0,
    "n_p_cr_state": 1,
    "n_p_uncr_state": 1,
    "n_p_eq_state": 1,
    "n_exponent": 0.5,
    "f_c_ref": 2_500.0,
    "lightweight_data": 0,
    "tension_overhead": True,
    "sustained_tension": True,
    "concrete_allowed": True,
    "seismic_qualified": True,
    "thickness_tested": False,
    "removable": False,
    "v_sa": 6_000.0,
    "v_sa_tested": True,
    "v_sa_eq": 5_000.0,
    "v_sa_eq_tested": True,
    "welded_stud": False,
    "distance_sleeve": False,
}

ADHESIVE_ROD = {
    "adhesive": True,
    "h_ef": 4.0,
    "c_ac": 8.0,
    "n_p_cr": 0.0,
    "n_p_uncr": 0.0,
    "n_p_eq": 0.0,
    "n_p_cr_state": 0,
    "n_p_uncr_state": 0,
    "n_p_eq_state": 0,
}
"""What an invented adhesive anchor with a rod of 1/2 in changes in a product row."""

HEADED_BOLT = {
    "post_installed": False,
    "d_a": 0.625,
    "a_se_n": 0.226,
    "f_uta": 58_000.0,
    "f_ya": 36_000.0,
    "h_ef": 6.0,
    "h_min": 8.0,
    "c_min": 1.0,
    "c_ac": 0.0,
    "category": 0,
    "product_k_c": False,
    "k_cr": 0.0,
    "k_uncr": 0.0,
    "pullout_method": HEADED,
    "a_brg": 0.671,
    "n_p_cr": 0.0,
    "n_p_uncr": 0.0,
    "n_p_eq": 0.0,
    "n_p_cr_state": 0,
    "n_p_uncr_state": 0,
    "n_p_eq_state": 0,
    "n_exponent": 0.0,
    "thickness_tested": True,
    "v_sa": 0.0,
    "v_sa_tested": False,
    "v_sa_eq": 0.0,
    "v_sa_eq_tested": False,
}
"""What an invented headed bolt changes in a product row."""

SERVICE_LOADS = Basis(code_built=True, factored=False, allowable=False)
FACTORED_LOADS = Basis(code_built=True, factored=True, allowable=False)


def rod(rule, size="3/8", **changed):
    """Rod columns of one rule and size, both by name."""
    thread = THREADS[size]
    return {
        "rule": list(RULES).index(rule),
        "size_table": rule == "sprinkler_size_table",
        "d": thread.d,
        "pitch": thread.pitch,
        "k_root": thread.k_root,
        "k_stress": thread.k_stress,
    } | changed


def _table(rows, defaults, cls):
    rows = [_known(row, defaults) for row in rows]
    width = max((len(row["spans"]) for row in rows), default=1) if "spans" in defaults else 0
    made = {}
    for name in defaults:
        if name == "spans":
            values = np.zeros((len(rows), width))
            for i, row in enumerate(rows):
                values[i, : len(row[name])] = row[name]
            made[name] = values
        else:
            made[name] = column(cls, name, [row[name] for row in rows], len(rows))
    return cls(**made)


def points(
    *,
    hangs=None,
    runs=(),
    loads=(),
    rods=None,
    bases=None,
    fixings=None,
    bonds=None,
    products=None,
    anchor_count=1,
    on_axis=True,
    count=None,
):
    """`Points` from tables of changed columns and from rows of runs and point loads.

    A run's ``span_count`` follows from its spans unless it is given.
    """
    tables = {"hangs": hangs, "rods": rods, "bases": bases, "fixings": fixings, "bonds": bonds, "products": products}
    tables = {name: table or {} for name, table in tables.items()}
    runs = [{"span_count": len(run["spans"])} | run if "spans" in run else run for run in runs]
    longest = max(_count(*tables.values()), np.size(anchor_count), np.size(on_axis), len(runs))
    count = longest if count is None else count
    return Points(
        count=count,
        hangs=_columns(Hangs, tables["hangs"], HANGS, count),
        runs=_table(runs, RUN, Runs),
        loads=_table(loads, LOAD, PointLoads),
        rods=_columns(Rods, tables["rods"], ROD, count),
        bases=_columns(Bases, tables["bases"], BASE, count),
        fixings=_columns(Fixings, tables["fixings"], FIXING, count),
        bonds=_columns(Bonds, tables["bonds"], BOND, count),
        products=_columns(Products, tables["products"], PRODUCT_ROW, count),
        anchor_count=np.broadcast_to(np.asarray(anchor_count, dtype=np.intp), (count,)),
        on_axis=np.broadcast_to(np.asarray(on_axis, dtype=np.bool_), (count,)),
    )
