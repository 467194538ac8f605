"""Installation torques in words, in the units that wrenches have."""

from collections.abc import Iterable, Mapping
from math import floor, isclose, log10

from hangpoint.pack.lengths import rounded
from hangpoint.product.fields import Units

WORDS: Mapping[Units, str] = {"us": "ft-lb", "si": "N·m"}
_SAME = 1e-9


def figure(torque: float, *, stated: bool) -> str:
    """A torque in words: that of the data as it stands there, a converted one by three digits and never above it."""
    if stated or not torque:
        return f"{torque:.10g}"
    return f"{rounded(torque, 2 - floor(log10(torque)), 'down'):.10g}"


def torque_text(torques: Iterable[float], units: Units) -> str:
    """Torques in ft-lb or N*m with their unit: those of four digits as stated, others as converted ones."""
    own = dict.fromkeys(figure(each, stated=isclose(float(f"{each:.4g}"), each, rel_tol=_SAME)) for each in torques)
    return f"{' to '.join(own)} {WORDS[units]}"
