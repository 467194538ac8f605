"""Combined pull-out and concrete failure of bonded fasteners, EN 1992-4 7.2.1.6. Units: mm, mm2, N/mm2, N.

All formulas are from memory, and so are their numbers. The depth reduced by three near edges enters N0_Rk,p, the areas,
the group and every psi but psi_re,N, as for cones. tau_Rk is for C20/25 and grows with f_ck as the product says, under
earthquake not; s_cr,Np goes by that of uncracked C20/25. Of several spacings the largest makes psi_g,Np the least (the
standard takes their mean). ``stays`` is what lasts of the load; of the rest psi_2 is taken to last.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.cone import (
    DEPTH_SHARE,
    E_N_X,
    E_N_Y,
    PSI_RE_N,
    SHELL_DEPTH,
    SMALLEST_C,
    WIDE_BARS,
    eccentricity_factor,
    edge_factor,
    narrow_member,
    shell_factor,
)
from hangpoint.core.en1992_4.pull_out import F_CK_OF_TESTS
from hangpoint.core.en1992_4.seismic import ALPHA_EQ, EARTHQUAKE, SEVERAL, alpha_eq
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.quantity import Axis, Bools, Floats, Record, StrengthRecord, formula, given, procedure, record

K_3 = (7.7, 11.0)
"""In cracked and in uncracked concrete."""
LEAST_LOAD = 1e-3
"""N: a fastener without load has nothing that lasts."""


@record
class BondResistance(Record):
    """Characteristic resistance of the bond and the concrete around one group of fasteners (one is a group of one)."""

    TITLE: ClassVar[str] = "combined pull-out and concrete resistance"
    AXIS: ClassVar[Axis] = Axis.GROUP

    d: Annotated[Floats, given("d", "mm")]
    h_ef: Annotated[Floats, given("h_ef", "mm")]
    load: Annotated[Floats, given("load of the group", "N")]
    stays: Annotated[Floats, given("of it what stays", "N")]
    psi_2: Annotated[Floats, given("ψ_2 of the rest", clause="EN 1990 Table A1.1")]
    alpha_sus: Annotated[
        Floats,
        formula("α_sus", "", "min(1, (stays + psi_2 * max(0, load - stays)) / max(load, 0.001))", clause="7.2.1.6(2)"),
    ]
    psi0_sus: Annotated[Floats, given("ψ⁰_sus", clause="7.2.1.6(2)")]
    psi_sus: Annotated[
        Floats,
        formula("ψ_sus", "", "where(alpha_sus <= psi0_sus, 1, psi0_sus + 1 - alpha_sus)", clause="7.2.1.6(2)"),
    ]
    tau_ucr: Annotated[Floats, given("τ_Rk,ucr in C20/25", "N/mm**2", clause="7.2.1.6(3)")]
    s_of_bond: Annotated[
        Floats,
        formula(
            "s_cr,Np by the bond",
            "mm",
            "7.3 * d * sqrt(psi_sus * tau_ucr)",
            clause="7.2.1.6(3)",
            coefficient="(N/mm**2)**-0.5",
        ),
    ]
    s_cr_np: Annotated[Floats, formula("s_cr,Np", "mm", "min(s_of_bond, 3 * h_ef)", clause="7.2.1.6(3)")]
    c_cr_np: Annotated[Floats, formula("c_cr,Np", "mm", "s_cr_np / 2", clause="7.2.1.6(3)")]
    c: Annotated[Floats, given("c", "mm", axis=Axis.EDGE, infinite="none")]
    anchor_count: Annotated[Floats, given("n")]
    s_max: Annotated[Floats, procedure("s_max", "mm", "largest_spacing", clause="7.2.1.6(4)")]
    near_edges: Annotated[Floats, formula("edges nearer than c_cr,Np", "", "count(c < c_cr_np)", clause="7.2.1.4(8)")]
    three_edges: Annotated[Bools, formula("three near edges", "", "near_edges >= 3", clause="7.2.1.4(8)")]
    c_max: Annotated[
        Floats, formula("c_max", "mm", "max(where(c < c_cr_np, c, 0))", clause="7.2.1.4(8)", when="three_edges")
    ]
    h_ef_reduced: Annotated[
        Floats,
        formula(
            "h'_ef by three edges",
            "mm",
            "min(h_ef, max(c_max / c_cr_np, s_max / s_cr_np) * h_ef)",
            clause="Eq. 7.8",
            when="three_edges",
        ),
    ]
    h_ef_used: Annotated[Floats, formula("h'_ef", "mm", "where(three_edges, h_ef_reduced, h_ef)", clause="Eq. 7.8")]
    s_cr_used: Annotated[Floats, formula("s'_cr,Np", "mm", "s_cr_np * h_ef_used / h_ef", clause="Eq. 7.8")]
    a0_p_n: Annotated[Floats, formula("A⁰_p,N", "mm**2", "s_cr_used**2", clause="7.2.1.6(3)")]
    a_p_n: Annotated[Floats, procedure("A_p,N", "mm**2", "projected_area", clause="7.2.1.6(3)")]
    earthquake: Annotated[Bools, EARTHQUAKE]
    tau_eq: Annotated[Floats, given("τ_Rk,eq of the data", "N/mm**2", clause="Annex C", when="earthquake")]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    tau_cr: Annotated[Floats, given("τ_Rk,cr in C20/25", "N/mm**2", clause="7.2.1.6(2)", when="cracked")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    f_ck_tests: Annotated[Floats, given("f_ck of C20/25", "N/mm**2")]
    psi_c_exponent: Annotated[Floats, given("exponent of ψ_c", clause="7.2.1.6(2)")]
    psi_c: Annotated[Floats, formula("ψ_c", "", "(f_ck / f_ck_tests)**psi_c_exponent", clause="7.2.1.6(2)")]
    tau_rk: Annotated[
        Floats,
        formula(
            "τ_Rk",
            "N/mm**2",
            "where(earthquake, tau_eq, where(cracked, tau_cr, tau_ucr) * psi_c)",
            clause="7.2.1.6(2)",
        ),
    ]
    k_3: Annotated[Floats, formula("k_3", "", "where(cracked, 7.7, 11)", clause="7.2.1.6(4)")]
    tau_rk_c: Annotated[
        Floats,
        formula(
            "τ_Rk,c",
            "N/mm**2",
            "k_3 / (pi * d) * sqrt(h_ef_used * f_ck)",
            clause="7.2.1.6(4)",
            coefficient="(N/mm**2)**0.5 * mm**0.5",
        ),
    ]
    psi0_g_np: Annotated[
        Floats,
        formula(
            "ψ⁰_g,Np",
            "",
            "max(1, sqrt(anchor_count) - (sqrt(anchor_count) - 1) * (tau_rk / tau_rk_c)**1.5)",
            clause="7.2.1.6(4)",
        ),
    ]
    psi_g_np: Annotated[
        Floats,
        formula("ψ_g,Np", "", "max(1, psi0_g_np - sqrt(s_max / s_cr_used) * (psi0_g_np - 1))", clause="7.2.1.6(4)"),
    ]
    c_min: Annotated[Floats, SMALLEST_C]
    psi_s_np: Annotated[
        Floats, formula("ψ_s,Np", "", "min(1, 0.7 + 0.3 * c_min / (s_cr_used / 2))", clause="7.2.1.6(5)")
    ]
    wide_bars: Annotated[Bools, WIDE_BARS]
    depth_share: Annotated[Floats, DEPTH_SHARE]
    psi_re_n: Annotated[Floats, PSI_RE_N]
    e_n_x: Annotated[Floats, E_N_X]
    e_n_y: Annotated[Floats, E_N_Y]
    psi_ec_np: Annotated[
        Floats,
        formula(
            "ψ_ec,Np",
            "",
            "1 / (1 + 2 * e_n_x / s_cr_used) * (1 / (1 + 2 * e_n_y / s_cr_used))",
            clause="7.2.1.6(7)",
        ),
    ]
    n0_rk_p: Annotated[
        Floats, formula("N⁰_Rk,p", "N", "psi_sus * tau_rk * pi * d * h_ef_used", clause="7.2.1.6(2), from memory")
    ]
    n_rk_p: Annotated[
        Floats,
        formula(
            "N_Rk,p",
            "N",
            "n0_rk_p * a_p_n / a0_p_n * psi_g_np * psi_s_np * psi_re_n * psi_ec_np",
            clause="7.2.1.6(1), from memory",
        ),
    ]


@record
class CombinedFailure(BondResistance, StrengthRecord):
    """Combined pull-out and concrete failure of one group of bonded fasteners in tension."""

    TITLE: ClassVar[str] = "combined pull-out and concrete failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    several: Annotated[Bools, SEVERAL]
    alpha_eq: Annotated[Floats, ALPHA_EQ]
    n_rk_p_eq: Annotated[
        Floats, formula("N_Rk,p,eq", "N", "alpha_eq * n_rk_p", clause="Eq. C.8, from memory", when="earthquake")
    ]
    gamma_mp: Annotated[Floats, given("γ_Mp", clause="Table 4.1")]
    design_strength: Annotated[
        Floats, formula("N_Rd,p", "N", "where(earthquake, n_rk_p_eq, n_rk_p) / gamma_mp", clause="Table 7.1")
    ]
    demand: Annotated[Floats, given("N_Ed,g", "N", clause="Table 7.1")]
    utilisation: Annotated[Floats, formula("N_Ed,g / N_Rd,p", "", "demand / design_strength", clause="Table 7.1")]


@frozen
class Bonded:
    """The bond of fasteners, a row each or a row a group.

    ``d``, ``h_ef`` mm; ``tau_cr``, ``tau_ucr`` for C20/25 and ``tau_eq`` of the category under earthquake, N/mm2, of
    which only those of its state are read beside ``tau_ucr``; ``load`` N, ``stays`` what lasts of it, and ``psi_2`` the
    share of the rest that lasts.
    """

    d: Floats
    h_ef: Floats
    tau_cr: Floats
    tau_ucr: Floats
    tau_eq: Floats
    psi_c_exponent: Floats
    psi0_sus: Floats
    cracked: Bools
    earthquake: Bools
    f_ck: Floats
    load: Floats
    stays: Floats
    psi_2: Floats


def bond_spacing(*, d: Floats, h_ef: Floats, tau_ucr: Floats, psi_sus: Floats) -> Floats:
    """s_cr,Np, mm, by d and h_ef, mm, and tau_Rk of uncracked C20/25, N/mm2."""
    return np.minimum(_spacing_of_bond(d=d, tau_ucr=tau_ucr, psi_sus=psi_sus), 3 * h_ef)


def _spacing_of_bond(*, d: Floats, tau_ucr: Floats, psi_sus: Floats) -> Floats:
    return 7.3 * d * np.sqrt(psi_sus * tau_ucr)


def sustained_share(own: Bonded) -> Floats:
    """alpha_sus: what lasts of the load, by the load."""
    lasts = own.stays + own.psi_2 * np.maximum(0.0, own.load - own.stays)
    return np.minimum(1.0, lasts / np.maximum(own.load, LEAST_LOAD))


def sustained_factor(*, alpha_sus: Floats, psi0_sus: Floats) -> Floats:
    """psi_sus by what lasts of the load and by psi0_sus of the product."""
    return np.where(alpha_sus <= psi0_sus, 1.0, psi0_sus + 1 - alpha_sus)


def growth(own: Bonded) -> Floats:
    """psi_c by the strength of the concrete over that of C20/25."""
    return (own.f_ck / F_CK_OF_TESTS) ** own.psi_c_exponent


def bond_stress(own: Bonded) -> Floats:
    """tau_Rk of the state of the concrete and its strength, N/mm2."""
    static = np.where(own.cracked, own.tau_cr, own.tau_ucr) * growth(own)
    return np.where(own.earthquake, own.tau_eq, static)


def stress_of_cone(*, d: Floats, h_ef: Floats, f_ck: Floats, k_3: Floats) -> Floats:
    """tau_Rk,c: the bond at which a cone breaks out, N/mm2, by d and h_ef, mm, and f_ck, N/mm2."""
    return k_3 / (np.pi * d) * np.sqrt(h_ef * f_ck)


def group_factors(
    *, anchor_count: Floats, tau_rk: Floats, tau_rk_c: Floats, s: Floats, s_cr: Floats
) -> tuple[Floats, Floats]:
    """psi0_g,Np and psi_g,Np of so many fasteners, by both stresses and the spacing and its critical value, mm."""
    root = np.sqrt(anchor_count)
    psi0 = np.maximum(1.0, root - (root - 1) * (tau_rk / tau_rk_c) ** 1.5)
    return psi0, np.maximum(1.0, psi0 - np.sqrt(s / s_cr) * (psi0 - 1))


def one_bond(own: Bonded) -> Floats:
    """N0_Rk,p, N, of each fastener away from edges and others."""
    psi_sus = sustained_factor(alpha_sus=sustained_share(own), psi0_sus=own.psi0_sus)
    return _bond_along(psi_sus=psi_sus, tau_rk=bond_stress(own), d=own.d, h_ef=own.h_ef)


def _bond_along(*, psi_sus: Floats, tau_rk: Floats, d: Floats, h_ef: Floats) -> Floats:
    """N0_Rk,p, N, of a stress in N/mm2 along an embedment, mm."""
    return psi_sus * tau_rk * np.pi * d * h_ef


def bond_resistance(
    own: Bonded,
    *,
    footprint: Footprint,
    anchor_count: Floats,
    s_max: Floats,
    wide_bars: Bools,
    e_n_x: Floats,
    e_n_y: Floats,
) -> BondResistance:
    """Characteristic resistance to combined pull-out and concrete failure.

    Args:
        own: a row a group.
        footprint: where the fasteners of each group stand, mm.
        anchor_count, s_max: (groups,) number of fasteners and largest spacing (mm, 0 for one).
        wide_bars: (groups,) boolean.
        e_n_x, e_n_y: (groups,) eccentricity of the tension, mm.
    """
    c, h_ef = footprint.c_a, own.h_ef
    alpha_sus = sustained_share(own)
    psi_sus = sustained_factor(alpha_sus=alpha_sus, psi0_sus=own.psi0_sus)
    s_of_bond = _spacing_of_bond(d=own.d, tau_ucr=own.tau_ucr, psi_sus=psi_sus)
    s_cr_np = np.minimum(s_of_bond, 3 * h_ef)
    narrow = narrow_member(c=c, h_ef=h_ef, s_cr=s_cr_np, s_max=s_max)
    h_ef_used, s_cr_used = narrow.h_ef_used, narrow.s_cr_used
    a0_p_n, a_p_n = s_cr_used**2, footprint.area(s_cr_used / 2)
    tau_rk, k_3 = bond_stress(own), np.where(own.cracked, *K_3)
    tau_rk_c = stress_of_cone(d=own.d, h_ef=h_ef_used, f_ck=own.f_ck, k_3=k_3)
    psi0_g_np, psi_g_np = group_factors(
        anchor_count=anchor_count, tau_rk=tau_rk, tau_rk_c=tau_rk_c, s=s_max, s_cr=s_cr_used
    )
    c_min, depth_share = least_of_edges(c), h_ef / SHELL_DEPTH
    psi_s_np = edge_factor(c_min=c_min, c_cr=s_cr_used / 2)
    psi_re_n = shell_factor(depth_share=depth_share, wide_bars=wide_bars)
    psi_ec_np = eccentricity_factor(e_x=e_n_x, e_y=e_n_y, s_cr=s_cr_used)
    n0_rk_p = _bond_along(psi_sus=psi_sus, tau_rk=tau_rk, d=own.d, h_ef=h_ef_used)
    return BondResistance(
        **vars(own),
        alpha_sus=alpha_sus,
        psi_sus=psi_sus,
        s_of_bond=s_of_bond,
        s_cr_np=s_cr_np,
        c_cr_np=s_cr_np / 2,
        c=c,
        anchor_count=anchor_count,
        s_max=s_max,
        **vars(narrow),
        a0_p_n=a0_p_n,
        a_p_n=a_p_n,
        f_ck_tests=np.full_like(h_ef, F_CK_OF_TESTS),
        psi_c=growth(own),
        tau_rk=tau_rk,
        k_3=k_3,
        tau_rk_c=tau_rk_c,
        psi0_g_np=psi0_g_np,
        psi_g_np=psi_g_np,
        c_min=c_min,
        psi_s_np=psi_s_np,
        wide_bars=wide_bars,
        depth_share=depth_share,
        psi_re_n=psi_re_n,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        psi_ec_np=psi_ec_np,
        n0_rk_p=n0_rk_p,
        n_rk_p=n0_rk_p * a_p_n / a0_p_n * psi_g_np * psi_s_np * psi_re_n * psi_ec_np,
    )


def combined_failure(
    resistance: BondResistance, *, several: Bools, gamma_mp: Floats, demand: Floats
) -> CombinedFailure:
    """Design resistance to combined pull-out and concrete failure.

    Args:
        resistance: characteristic, a row a group.
        several: (groups,) as in `seismic`.
        gamma_mp: (groups,) of `ConcreteFactors`.
        demand: (groups,) design tension, N.
    """
    by_earthquake = alpha_eq(several=several)
    n_rk_p_eq = by_earthquake * resistance.n_rk_p
    design_strength = np.where(resistance.earthquake, n_rk_p_eq, resistance.n_rk_p) / gamma_mp
    return CombinedFailure(
        **vars(resistance),
        several=several,
        alpha_eq=by_earthquake,
        n_rk_p_eq=n_rk_p_eq,
        gamma_mp=gamma_mp,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
