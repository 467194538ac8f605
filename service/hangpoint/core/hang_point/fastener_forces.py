"""The design forces on each fastener as EN 1992-4 takes them, from those of the chain. Units: lbf, N."""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.conversions import NEWTONS_PER_POUND
from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record


@record
class FastenerTension(Record):
    """Tension of one fastener in one load case."""

    TITLE: ClassVar[str] = "design tension of the fastener in N"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    n_pounds: Annotated[Floats, given("N_Ed in lbf", "lbf")]
    per_pound: Annotated[Floats, given("N in 1 lbf", "N/lbf")]
    n_newtons: Annotated[Floats, formula("N_Ed", "N", "n_pounds * per_pound", clause="exact conversion")]


@record
class FastenerShear(Record):
    """Shear of one fastener in one load case."""

    TITLE: ClassVar[str] = "design shear of the fastener in N"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    v_pounds: Annotated[Floats, given("V_Ed in lbf", "lbf")]
    per_pound: Annotated[Floats, given("N in 1 lbf", "N/lbf")]
    v_newtons: Annotated[Floats, formula("V_Ed", "N", "v_pounds * per_pound", clause="exact conversion")]


def fastener_tension(n: Floats) -> FastenerTension:
    """``n`` (fasteners,) design tension, lbf."""
    per_pound = np.full_like(n, NEWTONS_PER_POUND)
    return FastenerTension(n_pounds=n, per_pound=per_pound, n_newtons=n * per_pound)


def fastener_shear(v: Floats) -> FastenerShear:
    """``v`` (fasteners,) design shear, lbf."""
    per_pound = np.full_like(v, NEWTONS_PER_POUND)
    return FastenerShear(v_pounds=v, per_pound=per_pound, v_newtons=v * per_pound)
