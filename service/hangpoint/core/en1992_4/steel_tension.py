"""Steel failure in tension, EN 1992-4 7.2.1.3; alpha_eq of Table C.3 is 1.0 throughout. Units: mm2, N/mm2, N.

Fire by `fire`.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import ANNEX_D, FIRE, GAMMA_M_FI, MINUTES, SIGMA_FI
from hangpoint.core.en1992_4.seismic import EARTHQUAKE
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class SteelFailureTension(StrengthRecord):
    """Steel of the most loaded fastener."""

    TITLE: ClassVar[str] = "steel failure in tension"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    a_s: Annotated[Floats, given("A_s", "mm**2")]
    f_uk: Annotated[Floats, given("f_uk", "N/mm**2")]
    f_yk: Annotated[Floats, given("f_yk", "N/mm**2")]
    n_rk_s_stated: Annotated[Floats, given("N_Rk,s,data", "N", clause="7.2.1.3; 0 where the data are silent")]
    n_rk_s: Annotated[
        Floats,
        formula("N_Rk,s", "N", "where(n_rk_s_stated > 0, n_rk_s_stated, a_s * f_uk)", clause="7.2.1.3"),
    ]
    earthquake: Annotated[Bools, EARTHQUAKE]
    n0_rk_s_eq: Annotated[Floats, given("N⁰_Rk,s,eq of the data", "N", clause="Annex C", when="earthquake")]
    alpha_eq: Annotated[Floats, given("α_eq", clause="Table C.3", when="earthquake")]
    n_rk_s_eq: Annotated[
        Floats, formula("N_Rk,s,eq", "N", "alpha_eq * n0_rk_s_eq", clause="Eq. C.8, from memory", when="earthquake")
    ]
    fire: Annotated[Bools, FIRE]
    minutes: Annotated[Floats, MINUTES]
    sigma_fi: Annotated[Floats, SIGMA_FI]
    n_rk_s_fi: Annotated[Floats, formula("N_Rk,s,fi", "N", "min(n_rk_s, a_s * sigma_fi)", clause=ANNEX_D, when="fire")]
    gamma_ms_stated: Annotated[Floats, given("γ_Ms,data", clause="Table 4.1; 0 where the data are silent")]
    gamma_ms: Annotated[
        Floats,
        formula(
            "γ_Ms",
            "",
            "where(fire, 1, where(gamma_ms_stated > 0, gamma_ms_stated, max(1.4, 1.2 * f_uk / f_yk)))",
            clause="Table 4.1",
        ),
    ]
    design_strength: Annotated[
        Floats,
        formula(
            "N_Rd,s",
            "N",
            "where(fire, n_rk_s_fi, where(earthquake, n_rk_s_eq, n_rk_s)) / gamma_ms",
            clause="Table 7.1",
        ),
    ]
    demand: Annotated[Floats, given("N_Ed,h", "N", clause="Table 7.1")]
    utilisation: Annotated[Floats, formula("N_Ed,h / N_Rd,s", "", "demand / design_strength", clause="Table 7.1")]


def steel_failure_tension(
    *,
    a_s: Floats,
    f_uk: Floats,
    f_yk: Floats,
    n_rk_s_stated: Floats,
    earthquake: Bools,
    n0_rk_s_eq: Floats,
    fire: Bools,
    minutes: Floats,
    sigma_fi: Floats,
    gamma_ms_stated: Floats,
    demand: Floats,
) -> SteelFailureTension:
    """Design resistance of the steel of each fastener.

    Args:
        a_s: (fasteners,) stressed cross section, mm2.
        f_uk, f_yk: (fasteners,) characteristic ultimate and yield strength, N/mm2.
        n_rk_s_stated, gamma_ms_stated: (fasteners,) N and a factor, 0 where the product's data are silent.
        earthquake: (fasteners,) it acts; ``n0_rk_s_eq`` (fasteners,) is then the resistance of the data, N.
        fire: (fasteners,) it acts, ``minutes`` (fasteners,) long; ``sigma_fi`` (fasteners,) is then the stress, N/mm2.
        demand: (fasteners,) design tension, N.
    """
    n_rk_s = np.where(n_rk_s_stated > 0, n_rk_s_stated, a_s * f_uk)
    gamma_ms = np.where(gamma_ms_stated > 0, gamma_ms_stated, np.maximum(1.4, 1.2 * f_uk / f_yk))
    gamma_ms = np.where(fire, GAMMA_M_FI, gamma_ms)
    n_rk_s_fi = np.minimum(n_rk_s, a_s * sigma_fi)
    alpha_eq = np.ones_like(a_s)
    n_rk_s_eq = alpha_eq * n0_rk_s_eq
    design_strength = np.where(fire, n_rk_s_fi, np.where(earthquake, n_rk_s_eq, n_rk_s)) / gamma_ms
    return SteelFailureTension(
        a_s=a_s,
        f_uk=f_uk,
        f_yk=f_yk,
        n_rk_s_stated=n_rk_s_stated,
        n_rk_s=n_rk_s,
        earthquake=earthquake,
        n0_rk_s_eq=n0_rk_s_eq,
        alpha_eq=alpha_eq,
        n_rk_s_eq=n_rk_s_eq,
        fire=fire,
        minutes=minutes,
        sigma_fi=sigma_fi,
        n_rk_s_fi=n_rk_s_fi,
        gamma_ms_stated=gamma_ms_stated,
        gamma_ms=gamma_ms,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
