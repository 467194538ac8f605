"""The attachment, the options of 17.10 and the options of the request, as columns."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.hang_point.points import DUCTILE_STEEL, NON_YIELDING, OVERSTRENGTH, YIELDING, Fixings
from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.pull import Rows, filled
from hangpoint.units import LENGTH

_SHEAR_OPTIONS = {
    "yielding_attachment": YIELDING,
    "non_yielding_attachment": NON_YIELDING,
    "overstrength": OVERSTRENGTH,
}
_TENSION_OPTIONS = {"ductile_steel": DUCTILE_STEEL, **_SHEAR_OPTIONS}
_OBLIQUE = {"vector": 0, "separate": 1, "linear": 2}
_INTERACTIONS = {"trilinear": 0, "power_5_3": 1}
_GROUP_AREAS = {"union": 0, "rectangle": 1}
_CEILING = frozenset({"ceiling", "ceilings", "suspended ceiling"})


def pack_fixings(items: Rows, *, on_grout: Bools, gap: Floats) -> Fixings:
    """Read ``attachment``, ``options`` and what ``seismic`` says besides the category, of every item.

    A plate ``on_grout`` (points,) has its anchors in a grout pad, and ``gap`` (points,) is as `pack_plates` read it. A
    ceiling is what is so by its ``trade``.
    """
    attachment, seismic, options = (items.child(name) for name in ("attachment", "seismic", "options"))
    return Fixings(
        welded=attachment.true("welded"),
        thickness=attachment.quantity("thickness", LENGTH, fill=0.0),
        grout_pad=attachment.true("grout_pad") | on_grout,
        gap=gap,
        tension_option=seismic.codes("tension_option", _TENSION_OPTIONS),
        shear_option=seismic.codes("shear_option", _SHEAR_OPTIONS),
        stretch_length=seismic.quantity("stretch_length", LENGTH, fill=0.0),
        upset_threads=seismic.true("upset_threads") | seismic.true("fully_threaded"),
        oblique=options.codes("oblique_shear", _OBLIQUE, absent=0),
        power=options.codes("interaction", _INTERACTIONS, absent=0) == 1,
        bounding=options.codes("group_area", _GROUP_AREAS, absent=0) == 1,
        survives_loss=attachment.true("survives_loss"),
        ceiling=_ceilings(items),
    )


def _ceilings(items: Rows) -> Bools:
    if not items.gives("trade"):
        return filled(len(items), False, np.bool_)
    trades: Sequence[str | None] = items.values("trade")
    hung = {each: _key(each) in _CEILING for each in set(trades)}
    return np.fromiter(map(hung.__getitem__, trades), dtype=np.bool_, count=len(trades))


def _key(trade: str | None) -> str:
    return (trade or "").strip().casefold()
