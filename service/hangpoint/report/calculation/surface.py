"""The projected area of a breakout in tension as a sketch shows it."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from hangpoint.report.calculation.place import Place
from hangpoint.report.calculation.subject import values_of

_RECORD = "ConcreteBreakoutTension"
_REACH = 1.5
"""How far out from an anchor its surface reaches, h_ef (ACI 318-19 17.6.2.1)."""

Square = tuple[float, float, float, float]
"""x0, x1, y0, y1 from the origin of the layout, in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """``area`` as the calculation has it, in2, and the squares around the anchors of its set, cut at the edges."""

    area: float
    squares: tuple[Square, ...]


def surface_of(result: Mapping[str, Any], place: Place) -> Surface | None:
    """The surface of the breakout that the trace of a result shows.

    None where it shows none, and where the squares have another area than A_Nc: they are cut by neighbours that are not
    alike, stand around anchors that are not in the sketch, or are taken with what is between them.
    """
    record = next((each for each in result.get("trace", ()) if each["record"] == _RECORD), None)
    if record is None:
        return None
    values = values_of(record)
    own = place.anchors()
    anchors: list[tuple[float, float]] = [own[at] for at in record.get("anchors", range(len(own)))]
    with_points = set(record.get("points", ()))
    anchors += [anchor for near in place.near if near.id in with_points for anchor in near.anchors]
    reach, area = _REACH * values["h_ef_used"], values["a_nc"]
    squares = tuple(_square(x, y, reach, place) for x, y in anchors)
    return Surface(area=area, squares=squares) if math.isclose(_united(squares), area, rel_tol=1e-6) else None


def _square(x: float, y: float, reach: float, place: Place) -> Square:
    low_x, high_x, low_y, high_y = place.edges
    return max(x - reach, -low_x), min(x + reach, high_x), max(y - reach, -low_y), min(y + reach, high_y)


def _united(squares: Sequence[Square]) -> float:
    """Area of the union: what the middle of each cell of the grid of all their sides is in."""
    along_x = sorted({side for square in squares for side in square[:2]})
    along_y = sorted({side for square in squares for side in square[2:]})
    return sum(
        (right - left) * (top - bottom)
        for left, right in pairwise(along_x)
        for bottom, top in pairwise(along_y)
        if any(x0 <= left and right <= x1 and y0 <= bottom and top <= y1 for x0, x1, y0, y1 in squares)
    )
