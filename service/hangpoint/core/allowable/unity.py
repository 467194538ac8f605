"""Tension and shear of one anchor together, at the level of service loads or of strength. Every number is a ratio.

Documents: a table says which of the two holds; TMS 402-13 8.1.3.3 and 9.1.6.3 have the sum, 402-16 powers of 5/3.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import Clause
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record

_CLAUSE = Clause(
    "table of the product, TMS 402 8.1.3.3, 9.1.6.3",
    table="table of the product",
    strength="TMS 402 9.1.6.3",
    service="TMS 402 8.1.3.3",
)


@record
class Unity(StrengthRecord):
    """Both ratios of one anchor; ``design_strength`` is 1."""

    TITLE: ClassVar[str] = "tension and shear of an anchor together"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    r_n: Annotated[Floats, given("ratio in tension")]
    r_v: Annotated[Floats, given("ratio in shear")]
    power: Annotated[Bools, given("by powers of 5/3", clause=_CLAUSE)]
    design_strength: Annotated[Floats, given("limit", clause=_CLAUSE)]
    demand: Annotated[
        Floats,
        formula("both together", "", "where(power, (r_n**(5 / 3) + r_v**(5 / 3))**(3 / 5), r_n + r_v)", clause=_CLAUSE),
    ]
    utilisation: Annotated[Floats, formula("both / limit", "", "demand / design_strength", clause=_CLAUSE)]


def unity(*, r_n: Floats, r_v: Floats, power: Bools) -> Unity:
    """The sum of the ratios, or their sum by powers of 5/3 brought back to a ratio, (rows,) each."""
    demand = np.where(power, (r_n ** (5 / 3) + r_v ** (5 / 3)) ** (3 / 5), r_n + r_v)
    one = np.ones(len(r_n))
    return Unity(r_n=r_n, r_v=r_v, power=power, design_strength=one, demand=demand, utilisation=demand / one)
