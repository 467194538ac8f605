"""Steel failure in shear with lever arm, EN 1992-4 6.2.2.3 and 7.2.2.3.2. Units: mm, mm2, mm3, N/mm2, N, N mm.

The shear acts in the middle of the fixture; mortar below it counts as free length. W_el is that of the round section
with the area A_s. As N_Ed reduces the moment, steel in tension and shear is not combined once more (Table 7.3). The
moment that is left is taken as a thousandth at least, so that a ratio stays a number: the steel is then through by
tension already. From memory, as far as the digest of the provisions is. In fire
the stress of annex D stands for f_uk.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import FIRE, MINUTES, SIGMA_FI
from hangpoint.core.en1992_4.steel_shear import GAMMA_MS, GAMMA_MS_STATED, MILD, shear_factor
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record

LEAST_LEFT = 1e-3
"""Share of the moment that is left at least."""


@record
class SteelFailureLeverArm(StrengthRecord):
    """Steel of one sheared fastener with a lever arm."""

    TITLE: ClassVar[str] = "steel failure in shear with lever arm"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    d_nom: Annotated[Floats, given("d_nom", "mm")]
    a_s: Annotated[Floats, given("A_s", "mm**2")]
    f_uk: Annotated[Floats, given("f_uk", "N/mm**2")]
    f_yk: Annotated[Floats, given("f_yk", "N/mm**2")]
    clamped: Annotated[Bools, given("nut and washer clamped to the concrete", clause="6.2.2.3(3)")]
    a_3: Annotated[Floats, formula("a_3", "mm", "where(clamped, 0, 0.5 * d_nom)", clause="6.2.2.3(3)")]
    free_length: Annotated[Floats, given("free length, mortar within", "mm", clause="6.2.2.3(3)")]
    t_fix: Annotated[Floats, given("t_fix", "mm")]
    e_1: Annotated[Floats, formula("e_1", "mm", "free_length + t_fix / 2", clause="6.2.2.3(3)")]
    l_a: Annotated[Floats, formula("l_a", "mm", "a_3 + e_1", clause="6.2.2.3(3)")]
    d_s: Annotated[Floats, formula("d of A_s", "mm", "sqrt(4 * a_s / pi)", clause="7.2.2.3.2")]
    w_el: Annotated[Floats, formula("W_el", "mm**3", "pi * d_s**3 / 32", clause="7.2.2.3.2")]
    fire: Annotated[Bools, FIRE]
    minutes: Annotated[Floats, MINUTES]
    sigma_fi: Annotated[Floats, SIGMA_FI]
    m0_rk_s: Annotated[
        Floats, formula("M⁰_Rk,s", "N*mm", "1.2 * w_el * where(fire, min(f_uk, sigma_fi), f_uk)", clause="7.2.2.3.2")
    ]
    n_ed: Annotated[Floats, given("N_Ed", "N", clause="Eq. 7.38")]
    n_rd_s: Annotated[Floats, given("N_Rd,s", "N", clause="7.2.1.3")]
    m_rk_s: Annotated[Floats, formula("M_Rk,s", "N*mm", "m0_rk_s * max(0.001, 1 - n_ed / n_rd_s)", clause="Eq. 7.38")]
    held: Annotated[Bools, given("fixture held against turning", clause="6.2.2.3(3)")]
    alpha_m: Annotated[Floats, formula("α_M", "", "where(held, 2, 1)", clause="6.2.2.3(3)")]
    v_rk_s_m: Annotated[Floats, formula("V_Rk,s,M", "N", "alpha_m * m_rk_s / l_a", clause="Eq. 7.37")]
    gamma_ms_stated: Annotated[Floats, GAMMA_MS_STATED]
    mild: Annotated[Bools, MILD]
    gamma_ms: Annotated[Floats, GAMMA_MS]
    design_strength: Annotated[Floats, formula("V_Rd,s,M", "N", "v_rk_s_m / gamma_ms", clause="Table 7.2")]
    demand: Annotated[Floats, given("V_Ed", "N", clause="Table 7.2")]
    utilisation: Annotated[Floats, formula("V_Ed / V_Rd,s,M", "", "demand / design_strength", clause="Table 7.2")]


def steel_failure_lever_arm(
    *,
    d_nom: Floats,
    a_s: Floats,
    f_uk: Floats,
    f_yk: Floats,
    clamped: Bools,
    free_length: Floats,
    t_fix: Floats,
    n_ed: Floats,
    n_rd_s: Floats,
    held: Bools,
    fire: Bools,
    minutes: Floats,
    sigma_fi: Floats,
    gamma_ms_stated: Floats,
    demand: Floats,
) -> SteelFailureLeverArm:
    """Design resistance of the steel of each fastener in shear with lever arm.

    Args:
        d_nom: (fasteners,) mm.
        a_s: (fasteners,) stressed cross section, mm2.
        f_uk, f_yk: (fasteners,) characteristic ultimate and yield strength, N/mm2.
        clamped: (fasteners,) a nut with washer clamps the fastener to the concrete, below the free length.
        free_length, t_fix: (fasteners,) free length with mortar within it, and thickness of the fixture, mm.
        n_ed, n_rd_s: (fasteners,) tension of the same fastener and design resistance of its steel, N.
        held: (fasteners,) the fixture can't turn.
        fire, minutes, sigma_fi: (fasteners,) as in `steel_tension`.
        gamma_ms_stated: (fasteners,) of the product's data in shear, 0 where they are silent.
        demand: (fasteners,) design shear, N; l_a is above 0 wherever it acts.
    """
    a_3 = np.where(clamped, 0.0, 0.5 * d_nom)
    e_1 = free_length + t_fix / 2
    l_a = a_3 + e_1
    d_s = np.sqrt(4 * a_s / np.pi)
    w_el = np.pi * d_s**3 / 32
    m0_rk_s = 1.2 * w_el * np.where(fire, np.minimum(f_uk, sigma_fi), f_uk)
    m_rk_s = m0_rk_s * np.maximum(LEAST_LEFT, 1 - n_ed / n_rd_s)
    alpha_m = np.where(held, 2.0, 1.0)
    v_rk_s_m = alpha_m * m_rk_s / l_a
    mild, gamma_ms = shear_factor(f_uk=f_uk, f_yk=f_yk, gamma_ms_stated=gamma_ms_stated, fire=fire)
    design_strength = v_rk_s_m / gamma_ms
    return SteelFailureLeverArm(
        d_nom=d_nom,
        a_s=a_s,
        f_uk=f_uk,
        f_yk=f_yk,
        clamped=clamped,
        a_3=a_3,
        free_length=free_length,
        t_fix=t_fix,
        e_1=e_1,
        l_a=l_a,
        d_s=d_s,
        w_el=w_el,
        fire=fire,
        minutes=minutes,
        sigma_fi=sigma_fi,
        m0_rk_s=m0_rk_s,
        n_ed=n_ed,
        n_rd_s=n_rd_s,
        m_rk_s=m_rk_s,
        held=held,
        alpha_m=alpha_m,
        v_rk_s_m=v_rk_s_m,
        gamma_ms_stated=gamma_ms_stated,
        mild=mild,
        gamma_ms=gamma_ms,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
