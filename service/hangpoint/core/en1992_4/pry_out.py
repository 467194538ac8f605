"""Concrete pry-out failure, EN 1992-4 7.2.2.4. Units: N.

N_Rk,c is that of the sheared fasteners without eccentricity; of bonded ones N_Rk,p is a resistance besides, of groups
of its own, for load that all lasts (reading 47). Of fasteners sheared against each other every one is
judged by itself, with an edge half-way to each neighbour (7.2.2.4(4)). In fire it rests on N_Rk,c,fi.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import ANNEX_D, FIRE
from hangpoint.core.en1992_4.seismic import (
    ALPHA_EQ_OF_CONE,
    ALPHA_GAP,
    EARTHQUAKE,
    GAP_FILLED,
    LIKE_HEADED,
    SEVERAL,
    alpha_eq_of_cone,
    alpha_gap,
)
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class PryOut(StrengthRecord):
    """Pry-out of one group of sheared fasteners, or of one of them."""

    TITLE: ClassVar[str] = "concrete pry-out failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    opposed: Annotated[Bools, given("by itself, beside others sheared the other way", clause="7.2.2.4(4)")]
    k_8: Annotated[Floats, given("k_8", clause="Eq. 7.39a")]
    by_bond: Annotated[Bools, given("by the bond", clause="7.2.2.4(3)")]
    by_cone: Annotated[Bools, formula("by the cone", "", "where(by_bond, 0, 1) == 1", clause="7.2.2.4(3)")]
    n_rk_c: Annotated[Floats, given("N_Rk,c of the sheared fasteners", "N", clause="Eq. 7.1", when="by_cone")]
    n_rk_p: Annotated[Floats, given("N_Rk,p of the sheared fasteners", "N", clause="7.2.1.6", when="by_bond")]
    fire: Annotated[Bools, FIRE]
    n_rk_c_fi: Annotated[Floats, given("N_Rk,c,fi of the sheared fasteners", "N", clause=ANNEX_D, when="fire")]
    v_rk_cp: Annotated[Floats, formula("V_Rk,cp", "N", "k_8 * where(by_bond, n_rk_p, n_rk_c)", clause="Eq. 7.39a")]
    earthquake: Annotated[Bools, EARTHQUAKE]
    gap_filled: Annotated[Bools, GAP_FILLED]
    alpha_gap: Annotated[Floats, ALPHA_GAP]
    several: Annotated[Bools, SEVERAL]
    like_headed: Annotated[Bools, LIKE_HEADED]
    alpha_eq: Annotated[Floats, ALPHA_EQ_OF_CONE]
    v_rk_cp_eq: Annotated[
        Floats,
        formula("V_Rk,cp,eq", "N", "alpha_gap * alpha_eq * v_rk_cp", clause="Eq. C.8, from memory", when="earthquake"),
    ]
    v_rk_cp_fi: Annotated[Floats, formula("V_Rk,cp,fi", "N", "k_8 * n_rk_c_fi", clause=ANNEX_D, when="fire")]
    gamma_mc: Annotated[Floats, given("γ_Mc", clause="Table 4.1")]
    design_strength: Annotated[
        Floats,
        formula(
            "V_Rd,cp",
            "N",
            "where(fire, v_rk_cp_fi, where(earthquake, v_rk_cp_eq, v_rk_cp)) / gamma_mc",
            clause="Table 7.2",
        ),
    ]
    demand: Annotated[Floats, given("V_Ed", "N", clause="Table 7.2")]
    utilisation: Annotated[Floats, formula("V_Ed / V_Rd,cp", "", "demand / design_strength", clause="Table 7.2")]


def pry_out(
    *,
    opposed: Bools,
    k_8: Floats,
    by_bond: Bools,
    n_rk_c: Floats,
    n_rk_p: Floats,
    fire: Bools,
    n_rk_c_fi: Floats,
    earthquake: Bools,
    gap_filled: Bools,
    several: Bools,
    like_headed: Bools,
    gamma_mc: Floats,
    demand: Floats,
) -> PryOut:
    """Design resistance to pry-out.

    Args:
        opposed: (groups,) the one fastener has edges half-way to its neighbours.
        k_8: (groups,) of the product's data.
        by_bond: (groups,) it is ``n_rk_p`` (groups,) of `combined.BondResistance`, N, that counts; else
            ``n_rk_c`` (groups,) of `cone.ConeResistance`, N.
        fire: (groups,) it acts, and ``n_rk_c_fi`` (groups,), N, is what counts.
        earthquake, gap_filled, several, like_headed: (groups,) as in `seismic`.
        gamma_mc: (groups,) of `ConcreteFactors`.
        demand: (groups,) design shear, N.
    """
    v_rk_cp = k_8 * np.where(by_bond, n_rk_p, n_rk_c)
    by_gap = alpha_gap(gap_filled=gap_filled)
    alpha_eq = alpha_eq_of_cone(like_headed=like_headed, several=several)
    v_rk_cp_eq = by_gap * alpha_eq * v_rk_cp
    v_rk_cp_fi = k_8 * n_rk_c_fi
    design_strength = np.where(fire, v_rk_cp_fi, np.where(earthquake, v_rk_cp_eq, v_rk_cp)) / gamma_mc
    return PryOut(
        opposed=opposed,
        k_8=k_8,
        by_bond=by_bond,
        by_cone=~by_bond,
        n_rk_c=n_rk_c,
        n_rk_p=n_rk_p,
        fire=fire,
        n_rk_c_fi=n_rk_c_fi,
        v_rk_cp=v_rk_cp,
        earthquake=earthquake,
        gap_filled=gap_filled,
        alpha_gap=by_gap,
        several=several,
        like_headed=like_headed,
        alpha_eq=alpha_eq,
        v_rk_cp_eq=v_rk_cp_eq,
        v_rk_cp_fi=v_rk_cp_fi,
        gamma_mc=gamma_mc,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
