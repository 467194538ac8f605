"""Supports of a riser: a vertical line whose weight comes down on supports of its own.

A rigid line sits on the support that is set highest, so one support is often taken to carry all of it (common practice,
no source). Units: ft, lbf, lbf/ft. Limits: thermal movement, anchors against it and the thrust of a column of water at
its foot are loads to be given.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record

_CLAUSE = "common practice"


@record
class RiserSupport(Record):
    """Service load of each support of a riser, by nature."""

    TITLE: ClassVar[str] = "Support of a riser"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_dead: Annotated[Floats, given("w_D", "lbf/ft")]
    w_fluid: Annotated[Floats, given("w_F", "lbf/ft")]
    w_test: Annotated[Floats, given("w_test", "lbf/ft")]
    length: Annotated[Floats, given("L", "ft")]
    supports: Annotated[Floats, given("supports")]
    one_carries: Annotated[Bools, given("one support carries all", clause=_CLAUSE)]
    share: Annotated[Floats, formula("share", "", "where(one_carries, 1, 1/supports)", clause=_CLAUSE)]
    p_dead: Annotated[Floats, formula("P_D", "lbf", "w_dead*length*share", clause="statics")]
    p_fluid: Annotated[Floats, formula("P_F", "lbf", "w_fluid*length*share", clause="statics")]
    p_test: Annotated[Floats, formula("P_test", "lbf", "w_test*length*share", clause="statics")]


def riser_support(
    *, w_dead: Floats, w_fluid: Floats, w_test: Floats, length: Floats, supports: Floats, one_carries: Bools
) -> RiserSupport:
    """Load of each support, every array (n,): weights in lbf/ft, ``length`` in ft, ``supports`` >= 1."""
    share = np.where(one_carries, 1.0, 1.0 / supports)
    return RiserSupport(
        w_dead=w_dead,
        w_fluid=w_fluid,
        w_test=w_test,
        length=length,
        supports=supports,
        one_carries=one_carries,
        share=share,
        p_dead=w_dead * length * share,
        p_fluid=w_fluid * length * share,
        p_test=w_test * length * share,
    )
