"""Earthquake: R_k,eq = alpha_gap alpha_eq R0_k,eq, EN 1992-4 9 and annex C (C.8, from memory), Table C.3.

R0_k,eq of steel, and of pull-out of post-installed fasteners, is that of the product's data; of the concrete it is the
static resistance in cracked concrete, and gamma_M are the static ones. A fastener is one of several where more than one
of its case is loaded in the direction that is checked (from memory), or where its set has others. N0_Rk,p,eq grows with
no strength of the concrete: it is taken as stated (reading of this project, never more than psi_c would give).
"""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.quantity import Bools, Floats, formula, given

K_CR_N_OF_HEADED = 8.9
"""(7.2)."""

EARTHQUAKE = given("earthquake acts", clause="9.1")
SEVERAL = given("several fasteners are loaded", clause="Table C.3", when="earthquake")
LIKE_HEADED = given("headed, or undercut with k_1 of headed ones", clause="Table C.3", when="earthquake")
GAP_FILLED = given("hole without annular gap", clause="Eq. C.8, from memory", when="earthquake")
ALPHA_EQ = formula("α_eq", "", "where(several, 0.85, 1)", clause="Table C.3", when="earthquake")
ALPHA_EQ_OF_CONE = formula(
    "α_eq",
    "",
    "where(like_headed, where(several, 0.85, 1), where(several, 0.75, 0.85))",
    clause="Table C.3",
    when="earthquake",
)
ALPHA_GAP = formula("α_gap", "", "where(gap_filled, 1, 0.5)", clause="Eq. C.8, from memory", when="earthquake")
"""Lines that the modes have in common."""


def alpha_eq(*, several: Bools) -> Floats:
    """alpha_eq of pull-out, splitting, blow-out, steel in shear and edges, Table C.3."""
    return np.where(several, 0.85, 1.0)


def alpha_eq_of_cone(*, like_headed: Bools, several: Bools) -> Floats:
    """alpha_eq of cones, and of pry-out, which rests on them, Table C.3."""
    return np.where(like_headed, alpha_eq(several=several), np.where(several, 0.75, 0.85))


def alpha_gap(*, gap_filled: Bools) -> Floats:
    """alpha_gap in shear: 0.5 in holes with the clearance of Table 6.1."""
    return np.where(gap_filled, 1.0, 0.5)


def cone_like_headed(*, headed: Bools, undercut: Bools, k_cr_n: Floats) -> Bools:
    """Whether alpha_eq of the cone is that of headed fasteners: theirs, and of undercut ones with their k_cr,N."""
    return headed | (undercut & (k_cr_n >= K_CR_N_OF_HEADED * (1 - 1e-9)))


def several_loaded(anchors: Anchors, loaded: Bools) -> Bools:
    """(cases,) whether more than one of the anchors of each is ``loaded`` (anchors,)."""
    return anchors.total(loaded.astype(np.float64)) > 1
