"""Resistance in fire, EN 1992-4:2018 annex D, for R30 to R120; all of it from memory. Units: mm, mm2, N/mm2, N, min.

gamma_M,fi is 1.0. The concrete is cracked, of C20/25 at most; s_cr,N is 4 h_ef. Of the cone h'_ef / 200 mm is left, and
no more than all; of pull-out and edges a quarter; at R120 four fifths of that. Steel has one stress for tension and
shear, by its diameter, depth and duration. Splitting isn't verified: reinforcement is taken to keep cracks to 0.3 mm.
Nor is blow-out, which the least edge distances leave no room for.

Readings of this project: the diameter of the steel is d_nom, or that of the round section A_s over 0.73 where this is
less, as of a bolt in a sleeve (a neck is no thinner); nothing holds more in fire than without; near three edges the
share of the cone goes by h'_ef.
"""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index, formula, given

ANNEX_D = "Annex D, from memory"
CLASSES = (30.0, 60.0, 90.0, 120.0)
"""Minutes of the classes R."""
F_CK_IN_FIRE = 20.0
"""N/mm2, of C20/25."""
GAMMA_M_FI = 1.0
DEPTH_IN_FIRE = 200.0
"""mm: the depth from which a cone keeps all."""
SPACING_IN_FIRE = 4.0
"""s_cr,N over h_ef."""
DIAMETERS = (6.0, 8.0, 10.0, 12.0)
DEPTHS = (30.0, 30.0, 40.0, 50.0)
"""mm, of the rows of the tables of steel, each for such a diameter and depth and more."""
CARBON, STAINLESS = 0, 1
_STRESS = np.array(
    [
        [[10.0, 9.0, 7.0, 5.0], [10.0, 9.0, 7.0, 5.0], [15.0, 13.0, 10.0, 8.0], [20.0, 15.0, 13.0, 10.0]],
        [[10.0, 9.0, 7.0, 5.0], [20.0, 16.0, 12.0, 10.0], [25.0, 20.0, 16.0, 14.0], [30.0, 25.0, 20.0, 16.0]],
    ]
)
"""sigma_Rk,s,fi by material, row and class, N/mm2."""
_NECK = 0.73
_WITHIN = 1 + 1e-9

FIRE = given("fire acts", clause=ANNEX_D)
MINUTES = given("duration of the fire, minutes", clause=ANNEX_D, when="fire")
SIGMA_FI = given("σ_Rk,s,fi", "N/mm**2", clause=ANNEX_D, when="fire")
K_FI = formula("k_fi", "", "where(minutes > 90, 0.2, 0.25)", clause=ANNEX_D, when="fire")
DEPTH_SHARE_FI = formula("h'_ef / 200 mm", "", "h_ef_used / 200", clause=ANNEX_D, coefficient="1/mm", when="fire")
K_FI_OF_CONE = formula("k_fi", "", "where(minutes > 90, 0.8, 1) * min(1, depth_share_fi)", clause=ANNEX_D, when="fire")
"""Lines that the modes have in common."""


def class_of(hours: Floats) -> Floats:
    """Minutes of the class that counts for a rating: the next longer one, the rating itself beyond the longest."""
    minutes = 60 * hours
    at = np.searchsorted(CLASSES, minutes / _WITHIN)
    of_class = np.array(CLASSES)[np.minimum(at, len(CLASSES) - 1)]
    return np.where((minutes > 0) & (at < len(CLASSES)), of_class, minutes)


def table_diameter(*, d_nom: Floats, a_s: Floats) -> Floats:
    """The diameter that the stress of the steel goes by, mm."""
    return np.minimum(d_nom, np.sqrt(4 * a_s / np.pi) / _NECK)


def steel_stress(*, diameter: Floats, h_ef: Floats, stainless: Bools, minutes: Floats) -> Floats:
    """sigma_Rk,s,fi, N/mm2; 0 of diameters or depths below those of the tables, and where there is no fire.

    Args:
        diameter, h_ef: (rows,) of `table_diameter`, and depth, mm.
        stainless: (rows,) of A4 or better; else carbon steel.
        minutes: (rows,) a class, 0 without fire.
    """
    row = np.minimum(_reached(DIAMETERS, diameter), _reached(DEPTHS, h_ef))
    at = np.minimum(np.searchsorted(CLASSES, minutes / _WITHIN), len(CLASSES) - 1)
    stress = _STRESS[np.where(stainless, STAINLESS, CARBON), np.maximum(row, 0), at]
    return np.where((row >= 0) & (minutes > 0), stress, 0.0)


def _reached(limits: Sequence[float], values: Floats) -> Index:
    """The last of the limits, rising, that each value reaches; -1 of none."""
    return np.searchsorted(limits, values * _WITHIN, side="right") - 1


def k_fi(minutes: Floats) -> Floats:
    """What is left of pull-out and edges."""
    return np.where(minutes > 90, 0.2, 0.25)


def k_fi_of_cone(minutes: Floats, *, depth_share: Floats) -> Floats:
    """What is left of a cone, and of pry-out, which rests on it; ``depth_share`` is h'_ef over 200 mm."""
    return np.where(minutes > 90, 0.8, 1.0) * np.minimum(1.0, depth_share)


def critical_spacing(*, s_cr_n: Floats, h_ef: Floats) -> Floats:
    """s_cr,N in fire, mm; never less than at ambient temperature."""
    return np.maximum(s_cr_n, SPACING_IN_FIRE * h_ef)


def least_edge(*, h_ef: Floats, one_side: Bools) -> Floats:
    """Least distance of an edge in fire, mm: 2 h_ef, and 300 mm where the fire isn't on one side alone."""
    return np.where(one_side, 2 * h_ef, np.maximum(2 * h_ef, 300.0))
