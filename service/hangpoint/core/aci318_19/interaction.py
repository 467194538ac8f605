"""Tension and shear together, ACI 318-19 17.8. Every number is a ratio.

The ratios are the largest of all modes in tension and in shear, steel among them (reading 21). Three lines (17.8.2,
17.8.3): below 0.2, 0.2 included, the lesser ratio is neglected; else the sum is at most 1.2. The utilisation of the
three lines steps at 0.2 and so is not proportional to the load there; it exceeds 1 exactly where the clause does not
hold. The curve of R17.8, powers of 5/3, neglects nothing.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class Interaction(StrengthRecord):
    """Both ratios of one case; ``design_strength`` is the limit of the one that is compared, without a unit."""

    TITLE: ClassVar[str] = "tension and shear together"
    AXIS: ClassVar[Axis] = Axis.CASE

    r_n: Annotated[Floats, given("N_ua / φN_n", clause="17.8.1")]
    r_v: Annotated[Floats, given("V_ua / φV_n", clause="17.8.1")]
    r_max: Annotated[Floats, formula("larger ratio", "", "max(r_n, r_v)", clause="17.8.1")]
    r_sum: Annotated[Floats, formula("sum of the ratios", "", "r_n + r_v", clause="17.8.3")]
    power: Annotated[Bools, given("by powers of 5/3", clause="R17.8")]
    r_power: Annotated[
        Floats,
        formula(
            "both ratios by powers of 5/3",
            "",
            "(r_n**(5 / 3) + r_v**(5 / 3))**(3 / 5)",
            clause="R17.8",
            when="power",
        ),
    ]
    trilinear: Annotated[Bools, formula("by three lines", "", "where(power, 0, 1) == 1", clause="17.8")]
    both: Annotated[
        Bools, formula("both above 0.2", "", "(r_n > 0.2) * (r_v > 0.2) == 1", clause="17.8.2", when="trilinear")
    ]
    by_sum: Annotated[
        Bools,
        formula(
            "sum compared with 1.2",
            "",
            "trilinear * both * (r_sum > 1.2 * r_max) == 1",
            clause="17.8.3",
            when="trilinear",
        ),
    ]
    design_strength: Annotated[Floats, formula("limit", "", "where(power, 1, where(by_sum, 1.2, 1))", clause="17.8.3")]
    demand: Annotated[
        Floats,
        formula("compared", "", "where(power, r_power, where(by_sum, r_sum, r_max))", clause="17.8.3"),
    ]
    utilisation: Annotated[Floats, formula("compared / limit", "", "demand / design_strength", clause="17.8.3")]


def interaction(*, r_n: Floats, r_v: Floats, power: Bools) -> Interaction:
    """Utilisation of each case under tension and shear: max((n + v) / 1.2, n, v) above 0.2, else max(n, v).

    Args:
        r_n, r_v: (cases,) largest ratio of demand to design strength in tension and in shear, finite, not negative.
        power: (cases,) the curve of R17.8 in place of the three lines; its utilisation is the power 3/5 of the sum,
            proportional to the load, and 1 where the sum is 1.
    """
    r_max = np.maximum(r_n, r_v)
    r_sum = r_n + r_v
    r_power = (r_n ** (5 / 3) + r_v ** (5 / 3)) ** (3 / 5)
    both = (r_n > 0.2) & (r_v > 0.2)
    by_sum = ~power & both & (r_sum > 1.2 * r_max)
    design_strength = np.where(by_sum, 1.2, 1.0)
    demand = np.where(power, r_power, np.where(by_sum, r_sum, r_max))
    return Interaction(
        r_n=r_n,
        r_v=r_v,
        r_max=r_max,
        r_sum=r_sum,
        power=power,
        r_power=r_power,
        trilinear=~power,
        both=both,
        by_sum=by_sum,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
