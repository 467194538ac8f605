"""A scalar calculation of the tension checks of one anchor by ACI 318-19 chapter 17, in plain Python.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions, not
from the formulas of the service, and shares no line with them. It catches what the arrays get wrong (masks, axes,
branches), not what both have misread. Units: in, in2, psi, lbf.
"""

import math
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Anchor:
    """One anchor, its base and its load; ``edges`` are x_minus, x_plus, y_minus, y_plus."""

    principle: str  # "headed", "hooked", "expansion", "undercut"
    category: int
    d_a: float
    a_se: float
    f_uta: float
    f_ya: float
    ductile: bool
    h_ef: float
    c_ac: float
    k: tuple[float, float] | None  # product's k_cr, k_uncr, or the code's k_c
    n_p: tuple[float, float]
    n_p_eq: float | None  # N_p,eq where the simulated seismic tests count
    n_p_exponent: float
    n_p_tested_at: float
    n_p_tested_in_lightweight: bool
    pullout_governs: bool
    a_brg: float
    e_h: float
    f_c: float
    lightweight: bool
    density_factor: float
    cracked: bool
    supplementary: bool
    edges: tuple[float, float, float, float]
    load: float

    @property
    def cast_in(self):
        return self.principle in ("headed", "hooked")

    @property
    def head_or_hook(self):
        return self.principle in ("headed", "hooked")


def strength_used(a):
    """17.3.1."""
    cap = 10_000.0 if a.cast_in else 8_000.0
    return cap if a.f_c > cap else a.f_c


def lightweight_factor(a):
    """Table 17.2.4.1, concrete failure; 1.0 in normalweight concrete."""
    if not a.lightweight:
        return 1.0
    if a.principle == "expansion":
        return 0.8 * a.density_factor
    return a.density_factor


def phi_concrete(a):
    """Table 17.5.3(b)."""
    if a.cast_in:
        return 0.75 if a.supplementary else 0.70
    return {1: 0.65, 2: 0.55, 3: 0.45}[a.category] + (0.10 if a.supplementary else 0.0)


def phi_pullout(a):
    """Table 17.5.3(c)."""
    return 0.70 if a.cast_in else {1: 0.65, 2: 0.55, 3: 0.45}[a.category]


def steel(a):
    """17.6.1."""
    usable = sorted([a.f_uta, 1.9 * a.f_ya, 125_000.0])[0]
    return (0.75 if a.ductile else 0.65) * usable * a.a_se


def pullout(a):
    """17.6.3; None where the product's data say that it does not govern."""
    if not a.pullout_governs:
        return None
    f_c = strength_used(a)
    if a.principle == "headed":
        nominal = 8.0 * f_c * a.a_brg * (1.0 if a.cracked else 1.4)
    elif a.principle == "hooked":
        nominal = 0.9 * f_c * a.d_a * a.e_h * (1.0 if a.cracked else 1.4)
    else:
        nominal = a.n_p[0] if a.cracked else a.n_p[1]
        if a.n_p_eq is not None:
            nominal = a.n_p_eq
        nominal *= math.exp(a.n_p_exponent * math.log(f_c / a.n_p_tested_at))
        if not a.n_p_tested_in_lightweight:
            nominal *= lightweight_factor(a)
    return phi_pullout(a) * nominal


def breakout(a):
    """17.6.2 for one anchor under a concentric load."""
    within = [c for c in a.edges if c < 1.5 * a.h_ef]
    depth = max(within) / 1.5 if len(within) > 2 else a.h_ef
    width = sum(c if c < 1.5 * depth else 1.5 * depth for c in a.edges[:2])
    height = sum(c if c < 1.5 * depth else 1.5 * depth for c in a.edges[2:])
    share = width * height / (3.0 * depth) ** 2

    nearest = sorted(a.edges)[0]
    psi_ed = 1.0 if nearest >= 1.5 * depth else 0.7 + 0.3 * nearest / (1.5 * depth)

    psi_c = 1.0
    if not a.cracked and a.k is None:
        psi_c = 1.25 if a.cast_in else 1.4

    psi_cp = 1.0
    if not a.cracked and not a.cast_in and nearest < a.c_ac:
        psi_cp = max(nearest, 1.5 * a.h_ef) / a.c_ac
        psi_cp = 1.0 if psi_cp > 1.0 else psi_cp

    if a.k is None:
        k_c = 24.0 if a.cast_in else 17.0
    else:
        k_c = a.k[0] if a.cracked else a.k[1]
        k_c = 24.0 if k_c > 24.0 else k_c
    root = math.sqrt(strength_used(a)) * lightweight_factor(a)
    basic = k_c * root * depth * math.sqrt(depth)
    if a.principle == "headed" and 11.0 <= depth <= 25.0:
        other = 16.0 * root * depth * math.exp(2.0 / 3.0 * math.log(depth))
        basic = other if other > basic else basic
    return phi_concrete(a) * share * psi_ed * psi_c * psi_cp * basic


def blowout(a):
    """17.6.4 of one anchor: edge number to design strength, for each edge with h_ef > 2.5 c_a1."""
    if a.principle != "headed":
        return {}
    found = {}
    for i, c_a1 in enumerate(a.edges):
        if not a.h_ef > 2.5 * c_a1:
            continue
        nominal = 160.0 * c_a1 * math.sqrt(a.a_brg * strength_used(a)) * lightweight_factor(a)
        c_a2 = min(a.edges[2:] if i in (0, 1) else a.edges[:2])
        if c_a2 < 3.0 * c_a1:
            nominal *= (1.0 + max(c_a2 / c_a1, 1.0)) / 4.0
        found[i] = phi_concrete(a) * nominal
    return found
