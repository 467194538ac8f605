"""The published example that a ready service recomputes before it says so."""

import numpy as np

from hangpoint.core.aci318_19.concrete_breakout_tension import breakout_strength
from hangpoint.core.geometry.footprint import Footprint

PUBLISHED = 15_417.02
"""N_cb of the stud of ACI 349.2R-07, example A1 (the same equation in ACI 318-19), lbf."""

TOLERANCE = 1e-6


def published_example_holds() -> bool:
    """Whether concrete breakout of the example (h_ef 4.69 in, f'c 4,000 psi, cracked) comes out as published."""
    one, far = np.ones(1), np.full((1, 4), np.inf)
    yes = np.ones(1, dtype=np.bool_)
    strength = breakout_strength(
        h_ef=4.69 * one,
        footprint=Footprint(c_a=far, membership=None, x=0 * one, y=0 * one, anchor_c_a=far, bounding=~yes),
        anchor_count=one,
        s_max=0 * one,
        e_n_x=0 * one,
        e_n_y=0 * one,
        cracked=yes,
        cast_in=yes,
        headed=yes,
        product_k_c=~yes,
        k_cr=0 * one,
        k_uncr=0 * one,
        c_ac=0 * one,
        lambda_a=one,
        f_c=4000 * one,
    )
    return bool(abs(strength.n_cb[0] / PUBLISHED - 1) < TOLERANCE)
