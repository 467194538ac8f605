"""Pull-out failure, EN 1992-4 7.2.1.5; fire by `fire`. Units: mm2, N/mm2, N.

Where the data say that pull-out never comes first, that isn't known in fire, where less of it is left than of cones:
N_Rk,p is then taken as N0_Rk,c, the least that they can mean (reading of this project).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import ANNEX_D, FIRE, K_FI, MINUTES, k_fi
from hangpoint.core.en1992_4.seismic import ALPHA_EQ, EARTHQUAKE, SEVERAL, alpha_eq
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record

F_CK_OF_TESTS = 20.0
"""N/mm2, of C20/25: what the data of products are stated for."""


@record
class PullOut(StrengthRecord):
    """Pull-out of the most loaded fastener."""

    TITLE: ClassVar[str] = "pull-out failure"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    earthquake: Annotated[Bools, EARTHQUAKE]
    by_tests: Annotated[Bools, given("by tests of the product", clause="7.2.1.5(1)")]
    n_rk_p_stated: Annotated[Floats, given("N_Rk,p of the data, C20/25", "N", clause="7.2.1.5(1)", when="by_tests")]
    psi_c_exponent: Annotated[Floats, given("exponent of ψ_c", clause="7.2.1.5(1)", when="by_tests")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    f_ck_tests: Annotated[Floats, given("f_ck of C20/25", "N/mm**2", when="by_tests")]
    psi_c: Annotated[
        Floats,
        formula("ψ_c", "", "(f_ck / f_ck_tests)**psi_c_exponent", clause="7.2.1.5(1)", when="by_tests"),
    ]
    by_seismic_tests: Annotated[Bools, given("by seismic tests of the product", clause="Annex C")]
    n0_rk_p_eq: Annotated[Floats, given("N⁰_Rk,p,eq of the data", "N", clause="Annex C", when="by_seismic_tests")]
    fire: Annotated[Bools, FIRE]
    minutes: Annotated[Floats, MINUTES]
    as_cone: Annotated[Bools, given("as of a cone, as the data have no figure", clause=ANNEX_D)]
    n0_rk_c: Annotated[Floats, given("N⁰_Rk,c", "N", clause="Eq. 7.2", when="as_cone")]
    by_head: Annotated[
        Bools,
        formula(
            "by the head",
            "",
            "where(by_tests, 0, where(by_seismic_tests, 0, where(as_cone, 0, 1))) == 1",
            clause="7.2.1.5(2)",
        ),
    ]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    k_2: Annotated[Floats, formula("k_2", "", "where(cracked, 7.5, 10.5)", clause="7.2.1.5(2)", when="by_head")]
    a_h: Annotated[Floats, given("A_h", "mm**2", clause="7.2.1.5(2)", when="by_head")]
    n_rk_p: Annotated[
        Floats,
        formula(
            "N_Rk,p",
            "N",
            "where(as_cone, n0_rk_c,"
            " where(by_seismic_tests, n0_rk_p_eq, where(by_tests, n_rk_p_stated * psi_c, k_2 * a_h * f_ck)))",
            clause="Eq. 7.11",
        ),
    ]
    several: Annotated[Bools, SEVERAL]
    alpha_eq: Annotated[Floats, ALPHA_EQ]
    n_rk_p_eq: Annotated[
        Floats, formula("N_Rk,p,eq", "N", "alpha_eq * n_rk_p", clause="Eq. C.8, from memory", when="earthquake")
    ]
    k_fi: Annotated[Floats, K_FI]
    n_rk_p_fi: Annotated[Floats, formula("N_Rk,p,fi", "N", "k_fi * n_rk_p", clause=ANNEX_D, when="fire")]
    gamma_mp: Annotated[Floats, given("γ_Mp", clause="Table 4.1")]
    design_strength: Annotated[
        Floats,
        formula(
            "N_Rd,p",
            "N",
            "where(fire, n_rk_p_fi, where(earthquake, n_rk_p_eq, n_rk_p)) / gamma_mp",
            clause="Table 7.1",
        ),
    ]
    demand: Annotated[Floats, given("N_Ed,h", "N", clause="Table 7.1")]
    utilisation: Annotated[Floats, formula("N_Ed,h / N_Rd,p", "", "demand / design_strength", clause="Table 7.1")]


def pull_out(
    *,
    earthquake: Bools,
    by_tests: Bools,
    n_rk_p_stated: Floats,
    psi_c_exponent: Floats,
    by_seismic_tests: Bools,
    n0_rk_p_eq: Floats,
    f_ck: Floats,
    cracked: Bools,
    a_h: Floats,
    several: Bools,
    fire: Bools,
    minutes: Floats,
    as_cone: Bools,
    n0_rk_c: Floats,
    gamma_mp: Floats,
    demand: Floats,
) -> PullOut:
    """Design resistance to pull-out.

    Args:
        earthquake, several: (fasteners,) it acts, and whether several fasteners of the case are pulled.
        by_tests, by_seismic_tests: (fasteners,) the data state it, for static loads or, as ``n0_rk_p_eq`` (fasteners,),
            N, for earthquake; else it is that of the head.
        n_rk_p_stated, psi_c_exponent: (fasteners,) N in C20/25, and how it grows with f_ck.
        f_ck: (fasteners,) N/mm2.
        cracked: (fasteners,) boolean.
        a_h: (fasteners,) bearing area of the head, mm2.
        fire, minutes: (fasteners,) it acts, and how long.
        as_cone: (fasteners,) ``n0_rk_c`` (fasteners,), N, of one cone stands for it, as the data have no figure.
        gamma_mp: (fasteners,) of `ConcreteFactors`.
        demand: (fasteners,) design tension, N.
    """
    f_ck_tests = np.full_like(f_ck, F_CK_OF_TESTS)
    psi_c = (f_ck / f_ck_tests) ** psi_c_exponent
    k_2 = np.where(cracked, 7.5, 10.5)
    static = np.where(by_tests, n_rk_p_stated * psi_c, k_2 * a_h * f_ck)
    n_rk_p = np.where(as_cone, n0_rk_c, np.where(by_seismic_tests, n0_rk_p_eq, static))
    by_earthquake = alpha_eq(several=several)
    n_rk_p_eq = by_earthquake * n_rk_p
    left = k_fi(minutes)
    n_rk_p_fi = left * n_rk_p
    design_strength = np.where(fire, n_rk_p_fi, np.where(earthquake, n_rk_p_eq, n_rk_p)) / gamma_mp
    return PullOut(
        earthquake=earthquake,
        by_tests=by_tests,
        n_rk_p_stated=n_rk_p_stated,
        psi_c_exponent=psi_c_exponent,
        f_ck=f_ck,
        f_ck_tests=f_ck_tests,
        psi_c=psi_c,
        by_seismic_tests=by_seismic_tests,
        n0_rk_p_eq=n0_rk_p_eq,
        as_cone=as_cone,
        n0_rk_c=n0_rk_c,
        by_head=~(by_tests | by_seismic_tests | as_cone),
        cracked=cracked,
        k_2=k_2,
        a_h=a_h,
        n_rk_p=n_rk_p,
        several=several,
        alpha_eq=by_earthquake,
        n_rk_p_eq=n_rk_p_eq,
        fire=fire,
        minutes=minutes,
        k_fi=left,
        n_rk_p_fi=n_rk_p_fi,
        gamma_mp=gamma_mp,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
