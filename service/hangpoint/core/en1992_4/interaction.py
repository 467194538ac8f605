"""Tension and shear together, EN 1992-4 7.2.3, Table 7.3 (reading 28), and (C.9) of earthquake. Ratios throughout.

Steel is judged for every fastener, the other modes by the largest ratio of any of them in tension and in shear.
Under earthquake the largest ratio of any mode in tension, steel among them, and that in shear add up: k_15 is 1 without
supplementary reinforcement (from memory; that steel and concrete are taken together is the safe side).
``design_strength`` is the limit, 1, and ``demand`` the ratio that is proportional to the load.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, StrengthRecord, formula, given, record

K_15 = 1.0
"""Exponent of (C.9) without supplementary reinforcement, from memory."""


@record
class SteelInteraction(StrengthRecord):
    """Steel of one fastener; the ratios are N_Ed / N_Rd,s and V_Ed / V_Rd,s."""

    TITLE: ClassVar[str] = "steel in tension and shear together"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    beta_n: Annotated[Floats, given("β_N", clause="Eq. 7.54")]
    beta_v: Annotated[Floats, given("β_V", clause="Eq. 7.54")]
    design_strength: Annotated[Floats, given("limit", clause="Eq. 7.54")]
    demand: Annotated[Floats, formula("by squares", "", "sqrt(beta_n**2 + beta_v**2)", clause="Eq. 7.54")]
    utilisation: Annotated[Floats, formula("utilisation", "", "demand / design_strength", clause="Eq. 7.54")]


@record
class ConcreteInteraction(StrengthRecord):
    """All modes but steel, of one case."""

    TITLE: ClassVar[str] = "tension and shear together, by the largest ratios of all modes but steel"
    AXIS: ClassVar[Axis] = Axis.CASE

    beta_n: Annotated[Floats, given("β_N", clause="Eq. 7.55")]
    beta_v: Annotated[Floats, given("β_V", clause="Eq. 7.55")]
    by_power: Annotated[
        Floats,
        formula("by powers of 1.5", "", "(beta_n**1.5 + beta_v**1.5)**(1 / 1.5)", clause="Eq. 7.55"),
    ]
    by_sum: Annotated[Floats, formula("by the sum", "", "(beta_n + beta_v) / 1.2", clause="Eq. 7.56")]
    design_strength: Annotated[Floats, given("limit", clause="Eq. 7.55")]
    demand: Annotated[
        Floats,
        formula(
            "the lesser, at least each β", "", "max(beta_n, beta_v, min(by_power, by_sum))", clause="Eq. 7.55, 7.56"
        ),
    ]
    utilisation: Annotated[Floats, formula("utilisation", "", "demand / design_strength", clause="Table 7.3")]


@record
class SeismicInteraction(StrengthRecord):
    """All modes of one case of earthquake."""

    TITLE: ClassVar[str] = "tension and shear together under earthquake, by the largest ratios of all modes"
    AXIS: ClassVar[Axis] = Axis.CASE

    beta_n: Annotated[Floats, given("β_N,eq", clause="Eq. C.9")]
    beta_v: Annotated[Floats, given("β_V,eq", clause="Eq. C.9")]
    k_15: Annotated[Floats, given("k_15", clause="Eq. C.9, from memory")]
    design_strength: Annotated[Floats, given("limit", clause="Eq. C.9")]
    demand: Annotated[
        Floats,
        formula("by powers of k_15", "", "(beta_n**k_15 + beta_v**k_15)**(1 / k_15)", clause="Eq. C.9, from memory"),
    ]
    utilisation: Annotated[Floats, formula("utilisation", "", "demand / design_strength", clause="Eq. C.9")]


def steel_interaction(*, beta_n: Floats, beta_v: Floats) -> SteelInteraction:
    """Steel of each fastener, by its ratios (fasteners,) in tension and in shear."""
    design_strength = np.ones_like(beta_n)
    demand = np.sqrt(beta_n**2 + beta_v**2)
    return SteelInteraction(
        beta_n=beta_n,
        beta_v=beta_v,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )


def concrete_interaction(*, beta_n: Floats, beta_v: Floats) -> ConcreteInteraction:
    """The other modes, by the largest ratios (cases,) in tension and in shear."""
    by_power = (beta_n**1.5 + beta_v**1.5) ** (1 / 1.5)
    by_sum = (beta_n + beta_v) / 1.2
    design_strength = np.ones_like(beta_n)
    demand = np.maximum(np.maximum(beta_n, beta_v), np.minimum(by_power, by_sum))
    return ConcreteInteraction(
        beta_n=beta_n,
        beta_v=beta_v,
        by_power=by_power,
        by_sum=by_sum,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )


def seismic_interaction(*, beta_n: Floats, beta_v: Floats) -> SeismicInteraction:
    """All modes, by the largest ratios (cases,) in tension and in shear under earthquake."""
    k_15, design_strength = np.full_like(beta_n, K_15), np.ones_like(beta_n)
    demand = (beta_n**k_15 + beta_v**k_15) ** (1 / k_15)
    return SeismicInteraction(
        beta_n=beta_n,
        beta_v=beta_v,
        k_15=k_15,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
