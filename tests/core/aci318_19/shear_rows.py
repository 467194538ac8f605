"""Rows for the tests of shear: an invented anchor and what a test changes, scalars repeated to the longest column."""

import numpy as np

from hangpoint.core.aci318_19.concrete_breakout_shear import concrete_breakout_shear
from hangpoint.core.aci318_19.steel_shear import steel_shear

STEEL = {
    "a_se_v": 0.2,
    "f_uta_specified": 60_000.0,
    "f_ya": 50_000.0,
    "ductile": True,
    "welded_stud": False,
    "tested": False,
    "alone": False,
    "v_sa_tested": 0.0,
    "grout_pad": False,
    "demand": 1_000.0,
}
"""0.6 x .2 x 60,000 = 7,200 lb, phi .65."""

EDGE = {
    "c_a1": 4.0,
    "c_a2": [(np.inf, np.inf)],
    "h_a": 12.0,
    "h_ef": 4.0,
    "d_a": 0.5,
    "distance_sleeve": False,
    "welded": False,
    "extent": 0.0,
    "s_max": 0.0,
    "anchor_count": 1.0,
    "e_v": 0.0,
    "cracked": True,
    "edge_reinforcement": np.int8(0),
    "lambda_a": 1.0,
    "f_c": 4_000.0,
    "phi": 0.70,
    "v_towards": 1_000.0,
    "v_along": 0.0,
    "r_along_row": 0.0,
    "oblique": np.int8(0),
}
"""One anchor 1/2 in, 4 in deep, 4 in from one edge, in cracked normalweight concrete of 4,000 psi; l_e / d_a is 8 and
V_b 7 x 8^.2 sqrt(.5) sqrt(4,000) 4^1.5 = 3,795.95 lb."""


def _columns(defaults, changed):
    unknown = set(changed) - set(defaults)
    if unknown:
        raise TypeError(f"no such column: {sorted(unknown)}")
    table = {name: np.asarray(changed.get(name, default)) for name, default in defaults.items()}
    count = max(len(np.atleast_1d(column)) for column in table.values())
    columns = {}
    for name, column in table.items():
        shape = (count, 2) if name == "c_a2" else (count,)
        columns[name] = np.broadcast_to(column, shape).astype(np.asarray(defaults[name]).dtype)
    return columns


def steel(**changed):
    return steel_shear(**_columns(STEEL, changed))


def edge(**changed):
    return concrete_breakout_shear(**_columns(EDGE, changed))
