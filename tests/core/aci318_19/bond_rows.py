"""Rows for the tests of bond: an invented adhesive anchor and what a test changes, scalars repeated to the longest."""

import numpy as np

from core.builders import alone
from hangpoint.core.aci318_19.adhesive_bond import adhesive_bond, bond_strength

BOND = {
    "d_a": 0.5,
    "h_ef": 4.0,
    "c_a": [(np.inf, np.inf, np.inf, np.inf)],
    "anchor_count": 1.0,
    "e_n_x": 0.0,
    "e_n_y": 0.0,
    "cracked": True,
    "tau_cr": 1_000.0,
    "tau_uncr": 1_584.0,
    "by_seismic_tests": False,
    "alpha_n_seis": 0.8,
    "tau_exponent": 0.0,
    "f_c_ref": 2_500.0,
    "f_c": 4_000.0,
    "lambda_bond": 1.0,
    "c_ac": 8.0,
    "seismic_factor": 1.0,
    "phi": 0.65,
    "demand": 2_000.0,
}
"""c_Na = 10 x .5 x sqrt(1,584 / 1,100) = 5 x sqrt(1.44) = 6 in; N_ba = 1,000 x pi x .5 x 4 = 2,000 pi = 6,283.2 lb."""

DESIGN = ("seismic_factor", "phi", "demand")
"""Columns that make a design strength and a utilisation of the nominal strength."""


def bond(**changed):
    """`AdhesiveBond` of as many rows as the longest column given."""
    unknown = set(changed) - set(BOND)
    if unknown:
        raise TypeError(f"no such column: {sorted(unknown)}")
    columns = {name: np.asarray(value) for name, value in (BOND | changed).items()}
    count = max(len(value) for value in columns.values() if value.ndim)
    shapes = {name: (count, 4) if name == "c_a" else (count,) for name in columns}
    return bond_of({name: np.broadcast_to(value, shapes[name]).copy() for name, value in columns.items()})


def bond_of(columns):
    """`AdhesiveBond` of columns of single anchors."""
    nominal = {name: value for name, value in columns.items() if name not in (*DESIGN, "c_a")}
    strength = bond_strength(**nominal, footprint=alone(columns["c_a"]))
    return adhesive_bond(strength, **{name: columns[name] for name in DESIGN})
