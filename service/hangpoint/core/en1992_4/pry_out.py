"""Concrete pry-out failure, EN 1992-4 7.2.2.4. Units: N.

N_Rk,c is that of the sheared fasteners without eccentricity. Of fasteners sheared against each other every one is
judged by itself, with an edge half-way to each neighbour (7.2.2.4(4)).
"""

from typing import Annotated, ClassVar

from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class PryOut(StrengthRecord):
    """Pry-out of one group of sheared fasteners, or of one of them."""

    TITLE: ClassVar[str] = "concrete pry-out failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    opposed: Annotated[Bools, given("by itself, beside others sheared the other way", clause="7.2.2.4(4)")]
    k_8: Annotated[Floats, given("k_8", clause="Eq. 7.39a")]
    n_rk_c: Annotated[Floats, given("N_Rk,c of the sheared fasteners", "N", clause="Eq. 7.1")]
    v_rk_cp: Annotated[Floats, formula("V_Rk,cp", "N", "k_8 * n_rk_c", clause="Eq. 7.39a")]
    gamma_mc: Annotated[Floats, given("γ_Mc", clause="Table 4.1")]
    design_strength: Annotated[Floats, formula("V_Rd,cp", "N", "v_rk_cp / gamma_mc", clause="Table 7.2")]
    demand: Annotated[Floats, given("V_Ed", "N", clause="Table 7.2")]
    utilisation: Annotated[Floats, formula("V_Ed / V_Rd,cp", "", "demand / design_strength", clause="Table 7.2")]


def pry_out(*, opposed: Bools, k_8: Floats, n_rk_c: Floats, gamma_mc: Floats, demand: Floats) -> PryOut:
    """Design resistance to pry-out.

    Args:
        opposed: (groups,) the one fastener has edges half-way to its neighbours.
        k_8: (groups,) of the product's data.
        n_rk_c: (groups,) of `cone.ConeResistance`, N.
        gamma_mc: (groups,) of `ConcreteFactors`.
        demand: (groups,) design shear, N.
    """
    v_rk_cp = k_8 * n_rk_c
    design_strength = v_rk_cp / gamma_mc
    return PryOut(
        opposed=opposed,
        k_8=k_8,
        n_rk_c=n_rk_c,
        v_rk_cp=v_rk_cp,
        gamma_mc=gamma_mc,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
