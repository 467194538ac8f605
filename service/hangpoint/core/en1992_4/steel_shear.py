"""Steel failure in shear without lever arm, EN 1992-4 7.2.2.3.1. Units: mm, mm2, N/mm2, N.

The 0.8 of shallow fasteners in concrete below C20/25 is on V0_Rk,s wherever it comes from (from memory): tests of
products don't reach below C20/25. Under earthquake it and k_7 are on V0_Rk,s,eq as well (reading of this project).
Fire by `fire`.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import ANNEX_D, FIRE, GAMMA_M_FI, MINUTES, SIGMA_FI
from hangpoint.core.en1992_4.seismic import ALPHA_EQ, ALPHA_GAP, EARTHQUAKE, GAP_FILLED, alpha_eq, alpha_gap
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record

GAMMA_MS_STATED = given("γ_Ms,data", clause="Table 4.1; 0 where the data are silent")
MILD = formula("mild steel", "", "(f_uk <= 800) * (f_yk / f_uk <= 0.8) == 1", clause="Table 4.1")
GAMMA_MS = formula(
    "γ_Ms",
    "",
    "where(fire, 1, where(gamma_ms_stated > 0, gamma_ms_stated, where(mild, max(1.25, f_uk / f_yk), 1.5)))",
    clause="Table 4.1",
)
"""Lines of shear with lever arm as well."""


@record
class SteelFailureShear(StrengthRecord):
    """Steel of the most sheared fastener."""

    TITLE: ClassVar[str] = "steel failure in shear"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    a_s: Annotated[Floats, given("A_s", "mm**2")]
    f_uk: Annotated[Floats, given("f_uk", "N/mm**2")]
    f_yk: Annotated[Floats, given("f_yk", "N/mm**2")]
    h_ef: Annotated[Floats, given("h_ef", "mm")]
    d_nom: Annotated[Floats, given("d_nom", "mm")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    k_6: Annotated[Floats, formula("k_6", "", "where(f_uk <= 500, 0.6, 0.5)", clause="Eq. 7.34")]
    shallow: Annotated[
        Bools, formula("shallow in weak concrete", "", "(h_ef / d_nom < 5) * (f_ck < 20) == 1", clause="7.2.2.3.1(1)")
    ]
    v0_rk_s_stated: Annotated[Floats, given("V⁰_Rk,s,data", "N", clause="7.2.2.3.1(1); 0 where the data are silent")]
    v0_rk_s: Annotated[
        Floats,
        formula(
            "V⁰_Rk,s",
            "N",
            "where(shallow, 0.8, 1) * where(v0_rk_s_stated > 0, v0_rk_s_stated, k_6 * a_s * f_uk)",
            clause="Eq. 7.34",
        ),
    ]
    several: Annotated[Bools, given("several fasteners share the shear", clause="Eq. 7.35")]
    k_7_group: Annotated[Floats, given("k_7 of a group", clause="Eq. 7.35", when="several")]
    k_7: Annotated[Floats, formula("k_7", "", "where(several, k_7_group, 1)", clause="Eq. 7.35")]
    on_grout: Annotated[Bools, given("on grout thicker than d/2, without lever arm", clause="6.2.2.3(2)")]
    t_grout: Annotated[Floats, given("t_grout", "mm", clause="Eq. 7.36", when="on_grout")]
    by_grout: Annotated[
        Floats,
        formula("0.01 t_grout / mm", "", "0.01 * t_grout", clause="Eq. 7.36", coefficient="1/mm", when="on_grout"),
    ]
    v_rk_s: Annotated[
        Floats,
        formula("V_Rk,s", "N", "where(on_grout, 1 - by_grout, 1) * k_7 * v0_rk_s", clause="Eq. 7.35, 7.36"),
    ]
    earthquake: Annotated[Bools, EARTHQUAKE]
    v0_rk_s_eq: Annotated[Floats, given("V⁰_Rk,s,eq of the data", "N", clause="Annex C", when="earthquake")]
    gap_filled: Annotated[Bools, GAP_FILLED]
    alpha_gap: Annotated[Floats, ALPHA_GAP]
    alpha_eq: Annotated[Floats, ALPHA_EQ]
    v_rk_s_eq: Annotated[
        Floats,
        formula(
            "V_Rk,s,eq",
            "N",
            "alpha_gap * alpha_eq * k_7 * where(shallow, 0.8, 1) * v0_rk_s_eq",
            clause="Eq. C.8, from memory",
            when="earthquake",
        ),
    ]
    fire: Annotated[Bools, FIRE]
    minutes: Annotated[Floats, MINUTES]
    sigma_fi: Annotated[Floats, SIGMA_FI]
    v_rk_s_fi: Annotated[Floats, formula("V_Rk,s,fi", "N", "min(v_rk_s, a_s * sigma_fi)", clause=ANNEX_D, when="fire")]
    gamma_ms_stated: Annotated[Floats, GAMMA_MS_STATED]
    mild: Annotated[Bools, MILD]
    gamma_ms: Annotated[Floats, GAMMA_MS]
    design_strength: Annotated[
        Floats,
        formula(
            "V_Rd,s",
            "N",
            "where(fire, v_rk_s_fi, where(earthquake, v_rk_s_eq, v_rk_s)) / gamma_ms",
            clause="Table 7.2",
        ),
    ]
    demand: Annotated[Floats, given("V_Ed,h", "N", clause="Table 7.2")]
    utilisation: Annotated[Floats, formula("V_Ed,h / V_Rd,s", "", "demand / design_strength", clause="Table 7.2")]


def shear_factor(*, f_uk: Floats, f_yk: Floats, gamma_ms_stated: Floats, fire: Bools) -> tuple[Bools, Floats]:
    """Whether a steel is mild, and gamma_Ms in shear, with and without lever arm, by its strengths, N/mm2."""
    mild = (f_uk <= 800) & (f_yk / f_uk <= 0.8)
    by_table = np.where(mild, np.maximum(1.25, f_uk / f_yk), 1.5)
    at_ambient = np.where(gamma_ms_stated > 0, gamma_ms_stated, by_table)
    return mild, np.where(fire, GAMMA_M_FI, at_ambient)


def steel_failure_shear(
    *,
    a_s: Floats,
    f_uk: Floats,
    f_yk: Floats,
    h_ef: Floats,
    d_nom: Floats,
    f_ck: Floats,
    v0_rk_s_stated: Floats,
    several: Bools,
    k_7_group: Floats,
    on_grout: Bools,
    t_grout: Floats,
    earthquake: Bools,
    v0_rk_s_eq: Floats,
    gap_filled: Bools,
    fire: Bools,
    minutes: Floats,
    sigma_fi: Floats,
    gamma_ms_stated: Floats,
    demand: Floats,
) -> SteelFailureShear:
    """Design resistance of the steel of each fastener in shear.

    Args:
        a_s: (fasteners,) stressed cross section, mm2.
        f_uk, f_yk: (fasteners,) characteristic ultimate and yield strength, N/mm2.
        h_ef, d_nom: (fasteners,) mm.
        f_ck: (fasteners,) N/mm2.
        v0_rk_s_stated, gamma_ms_stated: (fasteners,) N and a factor, 0 where the product's data are silent.
        several: (fasteners,) it shares the shear with others, to which ``k_7_group`` belongs.
        on_grout: (fasteners,) it goes by (7.36), through ``t_grout`` (fasteners,), mm; never under earthquake.
        earthquake, gap_filled: (fasteners,) it acts; there is no annular gap. ``v0_rk_s_eq`` (fasteners,) is then the
            resistance of the data, N.
        fire, minutes, sigma_fi: (fasteners,) as in `steel_tension`.
        demand: (fasteners,) design shear, N.
    """
    k_6 = np.where(f_uk <= 500, 0.6, 0.5)
    shallow = (h_ef / d_nom < 5) & (f_ck < 20)
    weakened = np.where(shallow, 0.8, 1.0)
    v0_rk_s = weakened * np.where(v0_rk_s_stated > 0, v0_rk_s_stated, k_6 * a_s * f_uk)
    k_7 = np.where(several, k_7_group, 1.0)
    by_grout = 0.01 * t_grout
    v_rk_s = np.where(on_grout, 1 - by_grout, 1.0) * k_7 * v0_rk_s
    mild, gamma_ms = shear_factor(f_uk=f_uk, f_yk=f_yk, gamma_ms_stated=gamma_ms_stated, fire=fire)
    by_gap, by_earthquake = alpha_gap(gap_filled=gap_filled), alpha_eq(several=several)
    v_rk_s_eq = by_gap * by_earthquake * k_7 * weakened * v0_rk_s_eq
    v_rk_s_fi = np.minimum(v_rk_s, a_s * sigma_fi)
    design_strength = np.where(fire, v_rk_s_fi, np.where(earthquake, v_rk_s_eq, v_rk_s)) / gamma_ms
    return SteelFailureShear(
        a_s=a_s,
        f_uk=f_uk,
        f_yk=f_yk,
        h_ef=h_ef,
        d_nom=d_nom,
        f_ck=f_ck,
        k_6=k_6,
        shallow=shallow,
        v0_rk_s_stated=v0_rk_s_stated,
        v0_rk_s=v0_rk_s,
        several=several,
        k_7_group=k_7_group,
        k_7=k_7,
        on_grout=on_grout,
        t_grout=t_grout,
        by_grout=by_grout,
        v_rk_s=v_rk_s,
        earthquake=earthquake,
        v0_rk_s_eq=v0_rk_s_eq,
        gap_filled=gap_filled,
        alpha_gap=by_gap,
        alpha_eq=by_earthquake,
        v_rk_s_eq=v_rk_s_eq,
        fire=fire,
        minutes=minutes,
        sigma_fi=sigma_fi,
        v_rk_s_fi=v_rk_s_fi,
        gamma_ms_stated=gamma_ms_stated,
        mild=mild,
        gamma_ms=gamma_ms,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
