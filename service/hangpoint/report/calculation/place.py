"""Where the anchors of a hang point are in their base: what a sketch shows."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """Anchors of a point near another, from the origin of that other, in; ``together`` if they act with its own."""

    id: str
    anchors: Sequence[tuple[float, float]]
    together: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Anchors, edges and plate of one point, in, from the origin of the layout.

    ``x`` and ``y`` (anchors,); ``edges`` at -x, +x, -y, +y as distances of the origin, infinite where there is none;
    ``plate`` is (x0, x1, y0, y1), None without one. ``thickness`` of the member and ``depth``, the effective embedment,
    0 where they are not known, ``gap`` the free length of the anchors; ``face`` as `Bases.face`. ``near`` are the
    points that it was compared with.
    """

    x: Floats
    y: Floats
    edges: tuple[float, float, float, float]
    plate: tuple[float, float, float, float] | None
    thickness: float
    depth: float
    face: int
    gap: float = 0.0
    near: Sequence[Near] = ()

    def anchors(self) -> list[tuple[float, float]]:
        """The place of each."""
        x: list[float] = self.x.tolist()
        y: list[float] = self.y.tolist()
        return list(zip(x, y, strict=True))


def place_of(points: Points, at: int, near: Sequence[Near] = ()) -> Place:
    """The place of the point in this row."""
    own = points.layouts.point == at
    plates, base = points.plates, points.bases
    low_x, high_x, low_y, high_y = base.c_a[at].tolist()
    plate = None
    if plates.stated[at]:
        plate = (float(plates.x0[at]), float(plates.x1[at]), float(plates.y0[at]), float(plates.y1[at]))
    return Place(
        x=points.layouts.x[own],
        y=points.layouts.y[own],
        edges=(low_x, high_x, low_y, high_y),
        plate=plate,
        thickness=_known(base.thickness[at]),
        depth=_known(points.products.h_ef[at]),
        face=int(base.face[at]),
        gap=float(points.fixings.gap[at]),
        near=near,
    )


def _known(size: np.float64) -> float:
    return float(size) if np.isfinite(size) else 0.0
