"""The plate of each attachment as columns."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.hang_point.points import Plates
from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.pull import Rows, filled, places
from hangpoint.units import GAP, LENGTH, OFFSET

_SUPPORTS = {"free": 0, "concrete": 1, "grout": 2}
_ON_CONCRETE = -1
_ACROSS_A_GAP = (
    "The anchors have a free length below the plate, and the plate is to bear on its support: state the support"
    ' "free", or leave the gap out.'
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedPlates:
    """Plates of a batch.

    ``on_grout`` (points,) where one bears on a built-up grout pad, ``support_assumed`` where it isn't stated on what.
    ``gap`` (points,) is the free length of the anchors below the attachment, in, 0 where none is stated.
    """

    plates: Plates
    on_grout: Bools
    support_assumed: Bools
    gap: Floats


def pack_plates(attachment: Rows) -> PackedPlates:
    """Read ``plate`` and ``gap`` of every attachment. Where no support is stated a plate bears, but for a gap.

    Flaws: a width out of range or missing; a plate that is to bear across a gap.
    """
    count = len(attachment)
    gap = attachment.quantity("gap", GAP, fill=0.0)
    if not attachment.gives("plate"):
        no, zero = filled(count, False, np.bool_), filled(count, 0.0)
        plates = Plates(stated=no, x0=zero, x1=zero, y0=zero, y1=zero, contact=no)
        return PackedPlates(plates=plates, on_grout=no, support_assumed=no, gap=gap)
    stated = ~attachment.silent("plate")
    plate = attachment.child("plate")
    center = plate.child("center")
    half = {name: plate.quantity(f"width_{name}", LENGTH, fill=0.0) / 2 for name in ("x", "y")}
    for name, width in half.items():
        for at in places(stated & (width == 0)):
            if plate.values(f"width_{name}")[at] is None:
                plate.flaw(at, f"width_{name}", "A plate needs its width along x and along y.", code="missing")
    x, y = (np.where(stated, center.quantity(name, OFFSET, fill=0.0), 0.0) for name in ("x", "y"))
    support = plate.codes("support", _SUPPORTS, absent=_ON_CONCRETE)
    for at in places(stated & (support > 0) & (gap > 0)):
        attachment.flaw(at, "gap", _ACROSS_A_GAP, code="contradiction")
    silent = stated & (support == _ON_CONCRETE) & (gap == 0)
    return PackedPlates(
        plates=Plates(
            stated=stated,
            x0=x - half["x"],
            x1=x + half["x"],
            y0=y - half["y"],
            y1=y + half["y"],
            contact=silent | (stated & (support > 0)),
        ),
        on_grout=stated & (support == _SUPPORTS["grout"]),
        support_assumed=silent,
        gap=gap,
    )
