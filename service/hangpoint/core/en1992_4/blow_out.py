"""Concrete blow-out failure of headed fasteners at one edge, EN 1992-4 7.2.1.8. Units: mm, mm2, N/mm2, N.

The spacing in psi_g,Nb is the largest of the row, which gives the least factor.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.seismic import ALPHA_EQ, EARTHQUAKE, SEVERAL, alpha_eq
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, procedure, record


@record
class BlowOut(StrengthRecord):
    """Blow-out at one edge of one fastener or of a row of them."""

    TITLE: ClassVar[str] = "concrete blow-out failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    h_ef: Annotated[Floats, given("h_ef", "mm")]
    h: Annotated[Floats, given("h", "mm")]
    c_1: Annotated[Floats, given("c_1", "mm", clause="7.2.1.8(1)")]
    c_2_low: Annotated[Floats, given("c_2, lower side", "mm", infinite="none")]
    c_2_high: Annotated[Floats, given("c_2, upper side", "mm", infinite="none")]
    anchor_count: Annotated[Floats, given("n")]
    extent: Annotated[Floats, procedure("distance of the outer fasteners", "mm", "row_extent", clause="7.2.1.8(3)")]
    s_2: Annotated[Floats, procedure("s_2", "mm", "largest_spacing", clause="7.2.1.8(5)")]
    a_h: Annotated[Floats, given("A_h", "mm**2")]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    k_5: Annotated[Floats, formula("k_5", "", "where(cracked, 8.7, 12.2)", clause="Eq. 7.26")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    n0_rk_cb: Annotated[
        Floats,
        formula(
            "N⁰_Rk,cb",
            "N",
            "k_5 * c_1 * sqrt(a_h) * sqrt(f_ck)",
            clause="Eq. 7.26",
            coefficient="N / (mm**2 * (N/mm**2)**0.5)",
        ),
    ]
    a0_c_nb: Annotated[Floats, formula("A⁰_c,Nb", "mm**2", "(4 * c_1)**2", clause="Eq. 7.27")]
    a_c_nb: Annotated[
        Floats,
        formula(
            "A_c,Nb",
            "mm**2",
            "(min(2 * c_1, c_2_low) + extent + min(2 * c_1, c_2_high)) * (2 * c_1 + min(2 * c_1, h - h_ef))",
            clause="7.2.1.8(3)",
        ),
    ]
    c_2: Annotated[Floats, formula("c_2", "mm", "min(c_2_low, c_2_high)", clause="Eq. 7.28", infinite="none")]
    psi_s_nb: Annotated[Floats, formula("ψ_s,Nb", "", "min(1, 0.7 + 0.3 * c_2 / (2 * c_1))", clause="Eq. 7.28")]
    psi_g_nb: Annotated[
        Floats,
        formula(
            "ψ_g,Nb",
            "",
            "max(1, sqrt(anchor_count) + (1 - sqrt(anchor_count)) * s_2 / (4 * c_1))",
            clause="Eq. 7.29",
        ),
    ]
    e_n: Annotated[Floats, procedure("e_N", "mm", "tension_eccentricity", clause="Eq. 7.30")]
    psi_ec_nb: Annotated[Floats, formula("ψ_ec,Nb", "", "1 / (1 + 2 * e_n / (4 * c_1))", clause="Eq. 7.30")]
    n_rk_cb: Annotated[
        Floats,
        formula("N_Rk,cb", "N", "n0_rk_cb * a_c_nb / a0_c_nb * psi_s_nb * psi_g_nb * psi_ec_nb", clause="Eq. 7.25"),
    ]
    earthquake: Annotated[Bools, EARTHQUAKE]
    several: Annotated[Bools, SEVERAL]
    alpha_eq: Annotated[Floats, ALPHA_EQ]
    n_rk_cb_eq: Annotated[
        Floats, formula("N_Rk,cb,eq", "N", "alpha_eq * n_rk_cb", clause="Eq. C.8, from memory", when="earthquake")
    ]
    gamma_mc: Annotated[Floats, given("γ_Mc", clause="Table 4.1")]
    design_strength: Annotated[
        Floats, formula("N_Rd,cb", "N", "where(earthquake, n_rk_cb_eq, n_rk_cb) / gamma_mc", clause="Table 7.1")
    ]
    demand: Annotated[Floats, given("N_Ed,g", "N", clause="Table 7.1")]
    utilisation: Annotated[Floats, formula("N_Ed,g / N_Rd,cb", "", "demand / design_strength", clause="Table 7.1")]


def blow_out(
    *,
    h_ef: Floats,
    h: Floats,
    c_1: Floats,
    c_2_low: Floats,
    c_2_high: Floats,
    anchor_count: Floats,
    extent: Floats,
    s_2: Floats,
    a_h: Floats,
    cracked: Bools,
    f_ck: Floats,
    e_n: Floats,
    earthquake: Bools,
    several: Bools,
    gamma_mc: Floats,
    demand: Floats,
) -> BlowOut:
    """Design resistance to blow-out at an edge.

    Args:
        h_ef, h: (rows,) depth of the heads and thickness of the member, mm.
        c_1, c_2_low, c_2_high: (rows,) edge distances, mm; infinite where there is no edge across.
        anchor_count, extent, s_2: (rows,) fasteners of the row, distance of the outer ones and largest spacing, mm.
        a_h: (rows,) bearing area of a head, mm2.
        cracked: (rows,) boolean.
        f_ck: (rows,) N/mm2.
        e_n: (rows,) eccentricity of the tension along the row, mm.
        earthquake, several: (rows,) as in `seismic`.
        gamma_mc: (rows,) of `ConcreteFactors`.
        demand: (rows,) design tension, N.
    """
    k_5 = np.where(cracked, 8.7, 12.2)
    n0_rk_cb = k_5 * c_1 * np.sqrt(a_h) * np.sqrt(f_ck)
    a0_c_nb = (4 * c_1) ** 2
    width = np.minimum(2 * c_1, c_2_low) + extent + np.minimum(2 * c_1, c_2_high)
    a_c_nb = width * (2 * c_1 + np.minimum(2 * c_1, h - h_ef))
    c_2, root = np.minimum(c_2_low, c_2_high), np.sqrt(anchor_count)
    psi_s_nb = np.minimum(1.0, 0.7 + 0.3 * c_2 / (2 * c_1))
    psi_g_nb = np.maximum(1.0, root + (1 - root) * s_2 / (4 * c_1))
    psi_ec_nb = 1 / (1 + 2 * e_n / (4 * c_1))
    n_rk_cb = n0_rk_cb * a_c_nb / a0_c_nb * psi_s_nb * psi_g_nb * psi_ec_nb
    by_earthquake = alpha_eq(several=several)
    n_rk_cb_eq = by_earthquake * n_rk_cb
    design_strength = np.where(earthquake, n_rk_cb_eq, n_rk_cb) / gamma_mc
    return BlowOut(
        h_ef=h_ef,
        h=h,
        c_1=c_1,
        c_2_low=c_2_low,
        c_2_high=c_2_high,
        anchor_count=anchor_count,
        extent=extent,
        s_2=s_2,
        a_h=a_h,
        cracked=cracked,
        k_5=k_5,
        f_ck=f_ck,
        n0_rk_cb=n0_rk_cb,
        a0_c_nb=a0_c_nb,
        a_c_nb=a_c_nb,
        c_2=c_2,
        psi_s_nb=psi_s_nb,
        psi_g_nb=psi_g_nb,
        e_n=e_n,
        psi_ec_nb=psi_ec_nb,
        n_rk_cb=n_rk_cb,
        earthquake=earthquake,
        several=several,
        alpha_eq=by_earthquake,
        n_rk_cb_eq=n_rk_cb_eq,
        gamma_mc=gamma_mc,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
