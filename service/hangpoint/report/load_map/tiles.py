"""Points of a level on sheets: split where there are too many to be read, none of them lost and none twice."""

from collections.abc import Mapping, Sequence
from typing import Any

MOST = 60
"""Points of a drawing."""

Point = Mapping[str, Any]


def split(points: Sequence[Point], most: int = MOST) -> list[list[Point]]:
    """The points in tiles of no more than ``most``, each in the order in which they came.

    The longer side is cut so that the tiles on both sides of it are filled alike, between two points that differ there
    if any do.
    """
    if len(points) <= most:
        return [list(points)]
    tiles = -(-len(points) // most)
    along = _longer_side(points)
    ordered = sorted(points, key=lambda point: (point[along], point["number"]))
    cut = _cut([point[along] for point in ordered], len(points) * (tiles // 2) // tiles)
    parts = (sorted(part, key=lambda point: point["number"]) for part in (ordered[:cut], ordered[cut:]))
    return [tile for part in parts for tile in split(part, most)]


def bounds(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Least and largest x, then y."""
    x, y = [point["x"] for point in points], [point["y"] for point in points]
    return min(x), max(x), min(y), max(y)


def _longer_side(points: Sequence[Point]) -> str:
    x0, x1, y0, y1 = bounds(points)
    return "x" if x1 - x0 >= y1 - y0 else "y"


def _cut(places: Sequence[float], wanted: int) -> int:
    """Where to cut sorted places: the step nearest to the wanted one; that itself where there is none."""
    steps = [at for at in range(1, len(places)) if places[at] > places[at - 1]]
    return min(steps, key=lambda at: abs(at - wanted), default=wanted)
