"""Strength of the concrete that the formulas use and partial factors on it, EN 1992-4 4.4.2. Units: N/mm2.

f_ck of post-installed fasteners is limited to 60 N/mm2 (from memory; reading 27).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import ANNEX_D, F_CK_IN_FIRE, FIRE, GAMMA_M_FI
from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record

F_CK_LIMIT_POST_INSTALLED = 60.0
GAMMA_C = 1.5


@record
class ConcreteFactors(Record):
    """Concrete of one case."""

    TITLE: ClassVar[str] = "concrete and partial factors"
    AXIS: ClassVar[Axis] = Axis.CASE

    f_ck_class: Annotated[Floats, given("f_ck of the class", "N/mm**2", clause="EN 1992-1-1 Table 3.1")]
    post_installed: Annotated[Bools, given("post-installed")]
    f_ck_limit: Annotated[Floats, given("f_ck at most", "N/mm**2", clause="reading 27", when="post_installed")]
    fire: Annotated[Bools, FIRE]
    f_ck_fire: Annotated[Floats, given("f_ck in fire at most", "N/mm**2", clause=ANNEX_D, when="fire")]
    f_ck: Annotated[
        Floats,
        formula(
            "f_ck",
            "N/mm**2",
            "min(where(post_installed, min(f_ck_class, f_ck_limit), f_ck_class), where(fire, f_ck_fire, f_ck_class))",
            clause="reading 27",
        ),
    ]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    gamma_c: Annotated[Floats, given("γ_c", clause="Table 4.1")]
    gamma_inst: Annotated[Floats, given("γ_inst", clause="Table 4.1")]
    gamma_m_fi: Annotated[Floats, given("γ_M,fi", clause=ANNEX_D, when="fire")]
    gamma_mc_n: Annotated[
        Floats, formula("γ_Mc in tension", "", "where(fire, gamma_m_fi, gamma_c * gamma_inst)", clause="Table 4.1")
    ]
    gamma_mc_v: Annotated[Floats, formula("γ_Mc in shear", "", "where(fire, gamma_m_fi, gamma_c)", clause="Table 4.1")]


def concrete_factors(
    *, f_ck_class: Floats, post_installed: Bools, cracked: Bools, gamma_inst: Floats, fire: Bools
) -> ConcreteFactors:
    """Concrete and its partial factors.

    Args:
        f_ck_class: (cases,) characteristic cylinder strength of the class, N/mm2.
        post_installed, cracked: (cases,) boolean.
        gamma_inst: (cases,) of the product's data; 1.0 for what is cast in.
        fire: (cases,) it acts.
    """
    gamma_c = np.full_like(f_ck_class, GAMMA_C)
    f_ck_limit = np.full_like(f_ck_class, F_CK_LIMIT_POST_INSTALLED)
    f_ck_fire, gamma_m_fi = np.full_like(f_ck_class, F_CK_IN_FIRE), np.full_like(f_ck_class, GAMMA_M_FI)
    f_ck = np.where(post_installed, np.minimum(f_ck_class, f_ck_limit), f_ck_class)
    return ConcreteFactors(
        f_ck_class=f_ck_class,
        post_installed=post_installed,
        f_ck_limit=f_ck_limit,
        fire=fire,
        f_ck_fire=f_ck_fire,
        f_ck=np.minimum(f_ck, np.where(fire, f_ck_fire, f_ck_class)),
        cracked=cracked,
        gamma_c=gamma_c,
        gamma_inst=gamma_inst,
        gamma_m_fi=gamma_m_fi,
        gamma_mc_n=np.where(fire, gamma_m_fi, gamma_c * gamma_inst),
        gamma_mc_v=np.where(fire, gamma_m_fi, gamma_c),
    )
