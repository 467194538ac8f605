"""Corners of the convex polygon around points."""

from collections.abc import Iterable, Sequence

import numpy as np

from hangpoint.core.quantity import Floats, Index

_Point = tuple[float, float, int]


def convex_corners(*, x: Floats, y: Floats) -> Index:
    """Which of the points (n,) are corners of the polygon around all of them, counterclockwise from the least x.

    Source: the monotone chain. Points on a side are no corners.
    """
    points: list[_Point] = sorted(zip(x.tolist(), y.tolist(), range(len(x)), strict=True))
    lower, upper = _chain(points), _chain(reversed(points))
    return np.array([at for _, _, at in (*lower[:-1], *upper[:-1])], dtype=np.intp)


def _chain(points: Iterable[_Point]) -> Sequence[_Point]:
    """The points that turn left all along."""
    kept: list[_Point] = []
    for point in points:
        while len(kept) > 1 and _turn(kept[-2], kept[-1], point) <= 0.0:
            kept.pop()
        kept.append(point)
    return kept


def _turn(first: _Point, second: _Point, third: _Point) -> float:
    return (second[0] - first[0]) * (third[1] - first[1]) - (second[1] - first[1]) * (third[0] - first[0])
