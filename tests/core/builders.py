"""Inputs of the core for tests: columns of one or many rows, from invented defaults and what a test changes.

Every builder takes scalars or columns; scalars are repeated to the longest column. The default anchor is an invented
headed bolt of 5/8 in, 6 in deep, in cracked normalweight concrete of 4,000 psi without edges.
"""

from dataclasses import replace
from functools import cache
from typing import get_type_hints

import numpy as np

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.pullout import HEADED, PRODUCT
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.hang_point.allowables import MET, TABLE, Allowables
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.fires import Fires
from hangpoint.core.hang_point.opposed import Apart
from hangpoint.core.hang_point.points import (
    FORCES,
    NO_OPTION,
    NO_ROD,
    SOFFIT,
    Bases,
    Basis,
    Bonds,
    Decks,
    Environments,
    Fixings,
    GivenLoads,
    Hangs,
    Layouts,
    Plates,
    PointLoads,
    Points,
    Products,
    Rods,
    Runs,
    Sites,
    Surroundings,
)
from hangpoint.core.hang_point.surroundings import CARBON_STEEL, CONCRETE, MASONRY, SILENT, ZINC
from hangpoint.core.hanger.rod import RULES, THREADS
from hangpoint.product.table import DTYPES

INF = np.inf
NO_EDGES = (INF, INF, INF, INF)

_WIDE = frozenset(
    {
        "c_a",
        "open_cells",
        "mean_ultimate",
        "safety_factor",
        "f_ref",
        "strength_exponent",
        "f_least",
        "c_least",
        "c_full",
        "slope_c",
        "s_least",
        "s_full",
        "slope_s",
        "h_least",
        "shell_least",
        "joint_least",
        "cover_least",
        "strand_least",
        "spans",
        "v_dead",
        "v_contents",
        "v_live",
        "v_factored",
        "m_dead",
        "m_contents",
        "m_live",
        "at",
        "earthquake",
        "v",
        "m",
        "v_e",
        "m_e",
    }
)
NO_SHEAR = (0.0, 0.0)
NO_MOMENT = (0.0, 0.0, 0.0)


def _trailing(name):
    """How many axes a column has beside its rows."""
    return 2 if name == "transient" else int(name in _WIDE)


def column(cls, name, value, count):
    """One column of ``count`` rows, in the type that the table ``cls`` states for it."""
    array = np.asarray(value, dtype=_dtypes(cls)[name])
    trailing = _trailing(name)
    shape = (count, *(array.shape[-trailing:] if trailing else ()))
    return np.ascontiguousarray(np.broadcast_to(array, shape))


@cache
def _dtypes(cls):
    """Element type of each column, from its annotation."""
    return {name: DTYPES[hint] for name, hint in get_type_hints(cls).items()}


def _count(*tables):
    longest = 1
    for table in tables:
        for name, value in table.items():
            shape = np.shape(value)
            if len(shape) == 1 + _trailing(name):
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
    "v_sa_eq_alone": False,
    "v_sa": 0.0,
    "welded": False,
    "far_row_only": False,
    "grout_pad": False,
    "adhesive": False,
    "tau_cr": 0.0,
    "tau_uncr": 0.0,
    "by_seismic_bond": False,
    "alpha_n_seis": 0.0,
    "tau_exponent": 0.0,
    "f_c_ref_bond": 2_500.0,
    "open_share": 1.0,
    "oblique": 0,
    "power": False,
    "bounding": False,
    "seismic_category": 0,
    "either_x": False,
    "either_y": False,
    "in_deck": False,
}
LOADED = {"c_a": NO_EDGES, "n_ua": 1_000.0, "n_ua_s": 1_000.0, "n_ua_e": 0.0, "v_ua_x": 0.0, "v_ua_y": 0.0}
"""Edges and load of the one anchor of a case."""
ANCHOR |= LOADED

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


ADHESIVE_COLUMNS = EXPANSION | {
    "adhesive": True,
    "tau_cr": 1_000.0,
    "tau_uncr": 1_584.0,
}
"""What an invented adhesive anchor changes: c_Na 10 x .5 x sqrt(1,584 / 1,100) = 6 in."""


def anchor_cases(**changed):
    """`AnchorCases` and `Anchors`, one anchor a case: the default anchor but for the given columns."""
    known, count = _known(changed, ANCHOR), _count(changed)
    own = {name: _floats(known.pop(name), count, wide=name in _WIDE) for name in LOADED}
    known |= {"n_total": own["n_ua"], "n_earthquake": own["n_ua_e"]}
    cases = AnchorCases(**{name: column(AnchorCases, name, value, count) for name, value in known.items()})
    anchors = Anchors(
        case=np.arange(count),
        number=np.zeros(count, dtype=np.intp),
        x=np.zeros(count),
        y=np.zeros(count),
        c_a=own["c_a"],
        n_ua=own["n_ua"],
        n_ua_s=own["n_ua_s"],
        v_x=own["v_ua_x"],
        v_y=own["v_ua_y"],
        case_count=count,
    )
    return cases, anchors


def _floats(value, count, *, wide):
    array = np.asarray(value, dtype=np.float64)
    return np.ascontiguousarray(np.broadcast_to(array, (count, array.shape[-1]) if wide else (count,)))


def alone(c_a):
    """`Footprint` of single anchors with the edges ``c_a`` (anchors, 4)."""
    none = np.zeros(len(c_a))
    return Footprint(c_a=c_a, membership=None, x=none, y=none, anchor_c_a=c_a, bounding=none > 0)


HANGS = {
    "kind": FORCES,
    "dead": 0.0,
    "contents": 0.0,
    "live": 0.0,
    "v_dead": NO_SHEAR,
    "v_contents": NO_SHEAR,
    "v_live": NO_SHEAR,
    "m_dead": NO_MOMENT,
    "m_contents": NO_MOMENT,
    "m_live": NO_MOMENT,
    "at": NO_MOMENT,
    "transient": np.zeros((6, 6)),
    "earthquake": np.zeros(6),
    "s_ds": 0.0,
    "sprinkler": False,
}

GIVEN = {
    "name": 0,
    "n": 0.0,
    "v": NO_SHEAR,
    "m": NO_MOMENT,
    "n_e": 0.0,
    "v_e": NO_SHEAR,
    "m_e": NO_MOMENT,
    "sustained_fraction": 1.0,
}
"""A load case as given; `points` lays out one a point unless ``given`` names the points of its rows."""

SHARES = {"earthquake_fraction": 0.0, "earthquake_fraction_v": 0.0}
"""Shares of earthquake in tension and moments, and in shear, that a load case may have in place of its vectors."""

_OF_HANGS = {
    "factored": "n",
    "v_factored": "v",
    "sustained_fraction": "sustained_fraction",
    "earthquake_fraction": "earthquake_fraction",
    "earthquake_fraction_v": "earthquake_fraction_v",
}
FACTORED = {name: (GIVEN | SHARES)[own] for name, own in _OF_HANGS.items()}
"""Columns of ``hangs`` that `points` takes for the one load case as given of each point."""

RUN = {
    "point": 0,
    "d_o": 4.5,
    "t": 0.120,
    "rho_pipe": 490.0,
    "rho_contents": 62.4,
    "rho_test": 0.0,
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

LOAD = {"run": 0, "position": 0.0, "weight": 0.0, "contents": False, "live": False}

WAY = {"point": 0, "way": 0, "contents": (0.0,) * 6, "live": (0.0,) * 6, "transient": ((0.0,) * 6,) * 6}

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
    "bounding": False,
    "survives_loss": False,
    "ceiling": False,
}

LAYOUT = {"point": 0, "x": 0.0, "y": 0.0, "resists_x": True, "resists_y": True}

PLATE = {"stated": False, "x0": 0.0, "x1": 0.0, "y0": 0.0, "y1": 0.0, "contact": False}

ALLOWABLE = {
    "method": TABLE,
    "unmet": MET,
    "units": 1,
    "material": 0,
    "location": 0,
    "f_base": 1_500.0,
    "joint": np.inf,
    "cover": np.inf,
    "strand": np.inf,
    "face_shell": np.inf,
    "open_cells": NO_EDGES,
    "mean_ultimate": (1_500.0, 2_000.0),
    "safety_factor": (5.0, 5.0),
    "f_ref": (1_500.0, 1_500.0),
    "strength_exponent": (0.5, 0.5),
    "f_least": (1_000.0, 1_000.0),
    "c_least": (4.0, 4.0),
    "c_full": (12.0, 12.0),
    "slope_c": (0.05, 0.05),
    "s_least": (8.0, 8.0),
    "s_full": (16.0, 16.0),
    "slope_s": (0.025, 0.025),
    "h_least": (6.0, 6.0),
    "shell_least": (1.25, 1.25),
    "joint_least": (1.5, 1.5),
    "cover_least": (1.5, 1.5),
    "strand_least": (2.0, 2.0),
    "one_a_cell": False,
    "power": False,
    "older": False,
    "by_strength": True,
}
"""An invented anchor in grouted concrete masonry: 300 lb in tension, 400 lb in shear, safety factor 5."""

FASTENER_ROW = {
    "known": True,
    "post_installed": True,
    "headed": False,
    "undercut": False,
    "h_ef": 82.55,
    "h_min": 152.4,
    "d_nom": 12.7,
    "a_s": 64.516,
    "f_uk": 730.0,
    "f_yk": 586.0,
    "n_rk_s": 0.0,
    "v0_rk_s": 0.0,
    "k7": 1.0,
    "gamma_ms_n": 0.0,
    "gamma_ms_v": 0.0,
    "gamma_inst": 1.0,
    "k_cr_n": 7.7,
    "k_ucr_n": 11.0,
    "s_cr_n": 247.65,
    "c_cr_sp": 165.1,
    "n0_rk_sp": 0.0,
    "n_rk_p_cr": 20_000.0,
    "n_rk_p_cr_state": 1,
    "n_rk_p_ucr": 30_000.0,
    "n_rk_p_ucr_state": 1,
    "psi_c_exponent": 0.5,
    "k8": 2.0,
    "a_h": 0.0,
    "l_f": 82.55,
    "n_rk_s_c1": 45_000.0,
    "v0_rk_s_c1": 18_000.0,
    "n_rk_p_c1": 16_000.0,
    "n_rk_p_c1_state": 1,
    "n_rk_s_c2": 40_000.0,
    "v0_rk_s_c2": 14_000.0,
    "n_rk_p_c2": 9_000.0,
    "n_rk_p_c2_state": 1,
    "f_ck_class": 25.0,
    "wide_bars": False,
    "splitting_bars": False,
    "own_share": False,
    "category": 0,
    "category_stated": True,
    "table_category": -2,
    "design_option": 1,
    "gap_filled": False,
    "bonded": False,
    "psi0_sus": 1.0,
    "tau_cr": 0.0,
    "tau_ucr": 1.0,
    "tau_c1": 0.0,
    "tau_c2": 0.0,
    "tau_exponent": 0.0,
    "grout": 0.0,
    "f_grout": 0.0,
    "grout_fills": False,
    "clamped": False,
    "held": False,
}
"""An invented expansion fastener by European assessment: the depth of the default product row, mm, N, N/mm2.

Of earthquake category C1 is stated, and elastic design.
"""

HEADED_FASTENER = {
    "post_installed": False,
    "headed": True,
    "k_cr_n": 8.9,
    "k_ucr_n": 12.7,
    "n_rk_p_cr_state": 0,
    "n_rk_p_ucr_state": 0,
    "n_rk_p_c1_state": 0,
    "n_rk_p_c2_state": 0,
    "a_h": 300.0,
}
"""What an invented headed fastener changes."""

SITES = {"x": 0.0, "y": 0.0, "family": 0, "level": -1, "crowded": False, "disputed": False, "same": -1}

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
    "open_share": 1.0,
    "temperature_stated": True,
}
"""Bond of an invented adhesive anchor in a dry hole, everything confirmed."""

PRODUCT_ROW = {
    "invented": True,
    "has_source": True,
    "table_only": False,
    "european": False,
    "adhesive": False,
    "bonded": False,
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
    "s_min": 0.0,
    "s_min_code": 0.0,
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
    "pin": False,
    "ceiling_only": False,
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

DECK_ROW = {
    "in_deck": False,
    "tested": False,
    "all_lightweight": False,
    "flute": 0,
    "width": 0.0,
    "offset": 0.0,
    "cover": 0.0,
    "sheet": 0.0,
    "width_min": 0.0,
    "offset_max": 0.0,
    "cover_min": 0.0,
    "sheet_min": 0.0,
}

IN_FLUTE = {
    "in_deck": True,
    "tested": True,
    "width": 4.5,
    "offset": 1.0,
    "cover": 3.25,
    "sheet": 0.0359,
    "width_min": 4.5,
    "offset_max": 1.0,
    "cover_min": 3.25,
    "sheet_min": 0.0359,
}
"""What an anchor in the lower flute of an invented deck changes, at every limit of its tests."""

SURROUNDING = {
    "kind": CONCRETE,
    "part": SILENT,
    "post_tensioned": SILENT,
    "scanned": False,
    "existing": False,
    "f_c_stated": True,
    "age": -1.0,
    "clear_cover": 0.0,
    "tendon_depth": 0.0,
    "drilled": 0.0,
    "point_limit": INF,
}

ENVIRONMENT = {
    "exposure": SILENT,
    "attached": SILENT,
    "rod": SILENT,
    "vibration": False,
    "fire_rating": 0.0,
    "steel": CARBON_STEEL,
    "coating": ZINC,
    "follow_up": True,
}

FIRE_ROW = {"minutes": 60.0, "hours": 1.0, "sides": SILENT}

SERVICE_LOADS = Basis(factored=False, allowable=False)
FACTORED_LOADS = Basis(factored=True, allowable=False)


TABLES = {
    "hangs": HANGS | FACTORED,
    "rods": ROD,
    "bases": BASE,
    "fixings": FIXING,
    "bonds": BOND,
    "products": PRODUCT_ROW,
    "decks": DECK_ROW,
    "surroundings": SURROUNDING,
    "environments": ENVIRONMENT,
}
"""Columns of each table of `points` with their defaults; ``hangs`` with the load as given."""


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


def _ways(rows):
    rows = [_known(row, WAY) for row in rows]
    return Apart(**{name: np.array([row[name] for row in rows], dtype=_dtypes(Apart)[name]) for name in WAY})


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


def _sites(table, count):
    a, b = np.triu_indices(count, 1)
    known = _known(table, SITES)
    return Sites(a=a, b=b, **{name: column(Sites, name, value, count) for name, value in known.items()})


def _given_loads(table, defaults, count):
    """The load cases; shares of earthquake are taken out of the load."""
    shares = {name: np.broadcast_to(table.get(name, 0.0), (count,)) for name in SHARES}
    made = _columns(GivenLoads, {name: own for name, own in table.items() if name not in SHARES}, defaults, count)
    if not any(own.any() for own in shares.values()):
        return made
    n, v = shares["earthquake_fraction"], shares["earthquake_fraction_v"]
    quake = {"n": made.n * n, "v": made.v * v[:, None], "m": made.m * n[:, None]}
    rest = {name: getattr(made, name) - own for name, own in quake.items()}
    return replace(made, **rest, **{f"{name}_e": own for name, own in quake.items()})


def points(
    *,
    hangs=None,
    given=None,
    given_names=("as given",),
    runs=(),
    loads=(),
    rods=None,
    bases=None,
    fixings=None,
    bonds=None,
    products=None,
    layouts=None,
    decks=None,
    surroundings=None,
    environments=None,
    plates=None,
    sites=None,
    allowables=None,
    apart=None,
    fasteners=None,
    fires=None,
    count=None,
):
    """`Points` from tables of changed columns and from rows of runs, point loads and anchors.

    A run's ``span_count`` follows from its spans unless it is given. The anchors are one at the origin of each point
    unless ``layouts`` are given. ``hangs`` may hold the columns of `FACTORED`; ``given`` with a column ``point`` lays
    out as many load cases a point as it has rows of it. With ``sites`` every point may be near every other.
    With ``allowables`` every point is in masonry and goes by the table of `ALLOWABLE` unless they say otherwise.
    ``apart`` are rows of loads one way at a time. With ``fasteners`` every point goes by EN 1992-4, with
    ``fires`` they are to withstand one.
    """
    tables = {"hangs": hangs, "rods": rods, "bases": bases, "fixings": fixings, "bonds": bonds, "products": products}
    tables |= {"decks": decks, "surroundings": surroundings, "environments": environments, "plates": plates}
    tables = {name: table or {} for name, table in tables.items()}
    if allowables is not None:
        tables["surroundings"] = {"kind": MASONRY} | tables["surroundings"]
    own = {_OF_HANGS[name]: value for name, value in tables["hangs"].items() if name in FACTORED}
    tables["hangs"] = {name: value for name, value in tables["hangs"].items() if name not in FACTORED}
    cases = own | (given or {})
    own = {} if "point" in cases else cases
    runs = [{"span_count": len(run["spans"])} | run if "spans" in run else run for run in runs]
    last = max([*np.ravel(cases.get("point", 0)), *(row.get("point", 0) for row in layouts or ())])
    longest = max(
        _count(*tables.values(), own, sites or {}, allowables or {}, fasteners or {}, fires or {}),
        len(runs),
        int(last) + 1,
    )
    count = longest if count is None else count
    each = {"point": np.arange(count)}
    return Points(
        count=count,
        hangs=_columns(Hangs, tables["hangs"], HANGS, count),
        given=_given_loads(each | cases, each | GIVEN, count if own is cases else _count(cases)),
        given_names=given_names,
        runs=_table(runs, RUN, Runs),
        loads=_table(loads, LOAD, PointLoads),
        rods=_columns(Rods, tables["rods"], ROD, count),
        bases=_columns(Bases, tables["bases"], BASE, count),
        fixings=_columns(Fixings, tables["fixings"], FIXING, count),
        bonds=_columns(Bonds, tables["bonds"], BOND, count),
        products=_columns(Products, tables["products"], PRODUCT_ROW, count),
        decks=_columns(Decks, tables["decks"], DECK_ROW, count),
        surroundings=_columns(Surroundings, tables["surroundings"], SURROUNDING, count),
        environments=_columns(Environments, tables["environments"], ENVIRONMENT, count),
        layouts=_columns(Layouts, each, LAYOUT, count) if layouts is None else _table(layouts, LAYOUT, Layouts),
        plates=_columns(Plates, tables["plates"], PLATE, count),
        sites=None if sites is None else _sites(sites, count),
        allowables=None if allowables is None else _columns(Allowables, allowables, ALLOWABLE, count),
        apart=None if apart is None else _ways(apart),
        fasteners=None if fasteners is None else _columns(Fasteners, fasteners, FASTENER_ROW, count),
        fires=None if fires is None else _columns(Fires, fires, FIRE_ROW, count),
    )
