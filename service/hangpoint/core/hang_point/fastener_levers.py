"""Which fasteners are sheared with a lever arm, EN 1992-4 6.2.2.3, and what that asks to be stated. Units: in, mm.

There is none where the fixture bears on the concrete, or on mortar of at least 30 N/mm2 that is no thicker than half of
the diameter; of thicker mortar `fastener_grout` says in which load cases there is none, by (7.36). Else what mortar
bears is not counted: its thickness is free length.
Annex C does not cover a lever arm (from memory).
"""

import numpy as np

from hangpoint.core.conversions import MM_PER_INCH
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.points import Fixings, Plates
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.rows import some

LEAST_F_GROUT = 30.0
"""N/mm2, of mortar without lever arm."""
MOST_GROUT = 0.5
"""In diameters, of mortar without lever arm."""


@frozen
class FastenerLevers:
    """(points,) each: ``acts`` wherever there is shear, across ``free_length`` and half of ``t_fix``, mm.

    ``unstated``: the request leaves open how long the arm is.
    """

    acts: Bools
    free_length: Floats
    t_fix: Floats
    unstated: Bools


def off_the_concrete(fixings: Fixings, plates: Plates) -> Bools:
    """(points,) whether there is a free length without anything in it."""
    return (fixings.gap > 0) | (plates.stated & ~plates.contact)


def fastener_levers(fasteners: Fasteners, fixings: Fixings, plates: Plates) -> FastenerLevers:
    """The lever arms of points, by the columns of the same points."""
    free = off_the_concrete(fixings, plates)
    thin = (fasteners.grout > 0) & (fasteners.grout <= MOST_GROUT * fasteners.d_nom * (1 + 1e-9))
    on_grout = (fixings.grout_pad | (fasteners.grout > 0)) & ~(thin & (fasteners.f_grout >= LEAST_F_GROUT * (1 - 1e-9)))
    acts = free | on_grout
    long_unknown = (free & (fixings.gap == 0)) | (fixings.grout_pad & (fasteners.grout == 0))
    none = np.zeros_like(fasteners.grout)
    if not some(acts):
        return FastenerLevers(acts=acts, free_length=none, t_fix=none, unstated=acts)
    return FastenerLevers(
        acts=acts,
        free_length=np.where(acts, fixings.gap * MM_PER_INCH + fasteners.grout, 0.0),
        t_fix=np.where(acts, fixings.thickness * MM_PER_INCH, 0.0),
        unstated=acts & (long_unknown | (fixings.thickness == 0)),
    )
