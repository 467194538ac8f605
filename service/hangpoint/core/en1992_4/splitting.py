"""Splitting failure due to loading, EN 1992-4 7.2.1.7. Units: mm, mm2, N/mm2, N.

Narrow members don't reduce the depth here (reading 26); psi_h,sp is the form of 2018 (reading 27).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.cone import (
    A_C_N,
    DEPTH_SHARE,
    E_N_X,
    E_N_Y,
    PSI_RE_N,
    SHELL_DEPTH,
    SMALLEST_C,
    WIDE_BARS,
    eccentricity_factor,
    edge_factor,
    one_cone,
    shell_factor,
)
from hangpoint.core.en1992_4.seismic import ALPHA_EQ, EARTHQUAKE, SEVERAL, alpha_eq
from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class Splitting(StrengthRecord):
    """Splitting of the concrete by one group of fasteners."""

    TITLE: ClassVar[str] = "splitting failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    h_ef: Annotated[Floats, given("h_ef", "mm")]
    c_cr_sp: Annotated[Floats, given("c_cr,sp", "mm", clause="7.2.1.7(2)")]
    s_cr_sp: Annotated[Floats, formula("s_cr,sp", "mm", "2 * c_cr_sp", clause="7.2.1.7(2)")]
    c: Annotated[Floats, given("c", "mm", axis=Axis.EDGE, infinite="none")]
    anchor_count: Annotated[Floats, given("n")]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    k_1: Annotated[Floats, given("k_1", clause="Eq. 7.2")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    n0_rk_c: Annotated[
        Floats,
        formula(
            "N⁰_Rk,c",
            "N",
            "k_1 * sqrt(f_ck) * h_ef**1.5",
            clause="Eq. 7.2",
            coefficient="N / ((N/mm**2)**0.5 * mm**1.5)",
        ),
    ]
    n_rk_p: Annotated[Floats, given("N_Rk,p", "N", clause="7.2.1.5", infinite="not governing")]
    n0_rk_sp_stated: Annotated[Floats, given("N⁰_Rk,sp,data", "N", clause="7.2.1.7(2); 0 where the data are silent")]
    n0_rk_sp: Annotated[
        Floats,
        formula(
            "N⁰_Rk,sp",
            "N",
            "where(n0_rk_sp_stated > 0, n0_rk_sp_stated, min(n_rk_p, n0_rk_c))",
            clause="7.2.1.7(2)",
        ),
    ]
    a0_c_n: Annotated[Floats, formula("A⁰_c,N", "mm**2", "s_cr_sp**2", clause="Eq. 7.3")]
    a_c_n: Annotated[Floats, A_C_N]
    c_min: Annotated[Floats, SMALLEST_C]
    psi_s_n: Annotated[Floats, formula("ψ_s,N", "", "min(1, 0.7 + 0.3 * c_min / c_cr_sp)", clause="Eq. 7.4")]
    wide_bars: Annotated[Bools, WIDE_BARS]
    depth_share: Annotated[Floats, DEPTH_SHARE]
    psi_re_n: Annotated[Floats, PSI_RE_N]
    e_n_x: Annotated[Floats, E_N_X]
    e_n_y: Annotated[Floats, E_N_Y]
    psi_ec_n: Annotated[
        Floats,
        formula("ψ_ec,N", "", "1 / (1 + 2 * e_n_x / s_cr_sp) * (1 / (1 + 2 * e_n_y / s_cr_sp))", clause="Eq. 7.6"),
    ]
    h: Annotated[Floats, given("h", "mm")]
    h_min: Annotated[Floats, given("h_min", "mm")]
    psi_h_sp_most: Annotated[
        Floats,
        formula(
            "ψ_h,sp at most",
            "",
            "min(2, max(1, ((h_ef + 1.5 * c_min) / h_min)**(2 / 3)))",
            clause="reading 27",
        ),
    ]
    psi_h_sp: Annotated[Floats, formula("ψ_h,sp", "", "min((h / h_min)**(2 / 3), psi_h_sp_most)", clause="reading 27")]
    n_rk_sp: Annotated[
        Floats,
        formula(
            "N_Rk,sp",
            "N",
            "n0_rk_sp * a_c_n / a0_c_n * psi_s_n * psi_re_n * psi_ec_n * psi_h_sp",
            clause="Eq. 7.23",
        ),
    ]
    earthquake: Annotated[Bools, EARTHQUAKE]
    several: Annotated[Bools, SEVERAL]
    alpha_eq: Annotated[Floats, ALPHA_EQ]
    n_rk_sp_eq: Annotated[
        Floats, formula("N_Rk,sp,eq", "N", "alpha_eq * n_rk_sp", clause="Eq. C.8, from memory", when="earthquake")
    ]
    gamma_msp: Annotated[Floats, given("γ_Msp", clause="Table 4.1")]
    design_strength: Annotated[
        Floats, formula("N_Rd,sp", "N", "where(earthquake, n_rk_sp_eq, n_rk_sp) / gamma_msp", clause="Table 7.1")
    ]
    demand: Annotated[Floats, given("N_Ed,g", "N", clause="Table 7.1")]
    utilisation: Annotated[Floats, formula("N_Ed,g / N_Rd,sp", "", "demand / design_strength", clause="Table 7.1")]


def splitting(
    *,
    h_ef: Floats,
    c_cr_sp: Floats,
    footprint: Footprint,
    anchor_count: Floats,
    cracked: Bools,
    k_1: Floats,
    f_ck: Floats,
    n_rk_p: Floats,
    n0_rk_sp_stated: Floats,
    wide_bars: Bools,
    e_n_x: Floats,
    e_n_y: Floats,
    h: Floats,
    h_min: Floats,
    earthquake: Bools,
    several: Bools,
    gamma_msp: Floats,
    demand: Floats,
) -> Splitting:
    """Design resistance to splitting.

    Args:
        h_ef, c_cr_sp, h, h_min: (groups,) mm.
        footprint: where the fasteners of each group stand, mm.
        anchor_count: (groups,) number of fasteners.
        cracked, wide_bars: (groups,) boolean.
        k_1, f_ck: (groups,) as in `cone`.
        n_rk_p: (groups,) pull-out resistance of one fastener, N, infinite where it never comes first.
        n0_rk_sp_stated: (groups,) N, 0 where the data are silent.
        e_n_x, e_n_y: (groups,) eccentricity of the tension, mm.
        earthquake, several: (groups,) as in `seismic`; ``n_rk_p`` is then that of earthquake, without alpha_eq.
        gamma_msp: (groups,) of `ConcreteFactors`.
        demand: (groups,) design tension, N.
    """
    c, s_cr_sp = footprint.c_a, 2 * c_cr_sp
    c_min = least_of_edges(c)
    n0_rk_c = one_cone(k_1=k_1, f_ck=f_ck, h_ef=h_ef)
    n0_rk_sp = np.where(n0_rk_sp_stated > 0, n0_rk_sp_stated, np.minimum(n_rk_p, n0_rk_c))
    a0_c_n, a_c_n = s_cr_sp**2, footprint.area(s_cr_sp / 2)
    psi_s_n = edge_factor(c_min=c_min, c_cr=c_cr_sp)
    depth_share = h_ef / SHELL_DEPTH
    psi_re_n = shell_factor(depth_share=depth_share, wide_bars=wide_bars)
    psi_ec_n = eccentricity_factor(e_x=e_n_x, e_y=e_n_y, s_cr=s_cr_sp)
    psi_h_sp_most = np.minimum(2.0, np.maximum(1.0, ((h_ef + 1.5 * c_min) / h_min) ** (2 / 3)))
    psi_h_sp = np.minimum((h / h_min) ** (2 / 3), psi_h_sp_most)
    n_rk_sp = n0_rk_sp * a_c_n / a0_c_n * psi_s_n * psi_re_n * psi_ec_n * psi_h_sp
    by_earthquake = alpha_eq(several=several)
    n_rk_sp_eq = by_earthquake * n_rk_sp
    design_strength = np.where(earthquake, n_rk_sp_eq, n_rk_sp) / gamma_msp
    return Splitting(
        h_ef=h_ef,
        c_cr_sp=c_cr_sp,
        s_cr_sp=s_cr_sp,
        c=c,
        anchor_count=anchor_count,
        cracked=cracked,
        k_1=k_1,
        f_ck=f_ck,
        n0_rk_c=n0_rk_c,
        n_rk_p=n_rk_p,
        n0_rk_sp_stated=n0_rk_sp_stated,
        n0_rk_sp=n0_rk_sp,
        a0_c_n=a0_c_n,
        a_c_n=a_c_n,
        c_min=c_min,
        psi_s_n=psi_s_n,
        wide_bars=wide_bars,
        depth_share=depth_share,
        psi_re_n=psi_re_n,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        psi_ec_n=psi_ec_n,
        h=h,
        h_min=h_min,
        psi_h_sp_most=psi_h_sp_most,
        psi_h_sp=psi_h_sp,
        n_rk_sp=n_rk_sp,
        earthquake=earthquake,
        several=several,
        alpha_eq=by_earthquake,
        n_rk_sp_eq=n_rk_sp_eq,
        gamma_msp=gamma_msp,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
