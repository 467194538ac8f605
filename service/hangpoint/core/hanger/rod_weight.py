"""Weight of a threaded rod: a steel cylinder at the pitch diameter of the thread, d - 0.649519 p.

Half of a 60 degree thread lies outside its pitch diameter and half of the groove inside, so the cylinder has the volume
of the rod. The trade's rounded weights per foot are 1 to 5 % less. Units: in, ft, lbf; steel 490 lbf/ft3 (reading 23).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.loads.pipe_sizes import MATERIALS
from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

PITCH_DEPTH = 0.649519
"""Twice the depth from the nominal to the pitch diameter, in pitches: 3/8 of sqrt(3), unified and ISO metric alike."""


@record
class RodWeight(Record):
    """Weight of a length of threaded rod."""

    TITLE: ClassVar[str] = "Weight of the threaded rod"
    AXIS: ClassVar[Axis] = Axis.LOAD

    d: Annotated[Floats, given("d", "in", clause="thread standard")]
    pitch: Annotated[Floats, given("p", "in", clause="thread standard")]
    d_2: Annotated[Floats, formula("d_2", "in", "d - 0.649519*pitch", clause="thread standard")]
    rho: Annotated[Floats, given("ρ_steel", "lbf/ft**3", clause="reading 23")]
    w_rod: Annotated[
        Floats, formula("w_rod", "lbf/ft", "pi/4*d_2**2*rho/144", clause="geometry", coefficient="ft**2/in**2")
    ]
    l_rod: Annotated[Floats, given("l_rod", "ft")]
    p_rod: Annotated[Floats, formula("W_rod", "lbf", "w_rod*l_rod", clause="statics")]


def rod_weight(*, d: Floats, pitch: Floats, l_rod: Floats) -> RodWeight:
    """Weight of each rod, arrays of shape (n,): ``d``, ``pitch`` of `rod.THREADS` in inches, length ``l_rod`` in ft."""
    d_2 = d - PITCH_DEPTH * pitch
    rho = np.full_like(d, MATERIALS["steel"])
    w_rod = np.pi / 4.0 * d_2**2 * rho / 144.0
    return RodWeight(d=d, pitch=pitch, d_2=d_2, rho=rho, w_rod=w_rod, l_rod=l_rod, p_rod=w_rod * l_rod)
