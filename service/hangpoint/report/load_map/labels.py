"""Numbers beside the markers of a drawing: one label for markers too near to be told apart, none over another."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.quantity import Bools, Floats
from hangpoint.report.svg import Spot

NEAR = 6.0
"""Markers nearer than this are labelled together, px."""
LETTER, LINE = 6.3, 12.0
"""Width of a letter and height of a line of a label, px."""
_IN_A_LINE = 4
_CLEAR = 1.5
_FIRST = 9.0
_RADII = (_FIRST, 14.0, 22.0, 31.0, 41.0, 53.0, 66.0, 82.0, 100.0, 120.0, 145.0, 175.0, 210.0)
_ANGLES = tuple(math.radians(degrees) for degrees in (45, 135, 315, 225, 0, 180, 90, 270, 20, 160, 340, 200, 70, 110))
_STEP = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Lines of numbers, their middle and the end of the leader at the marker, if the label stands away from it."""

    lines: Sequence[str]
    middle: Spot
    marker: Spot | None

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, largest x, largest y."""
        width, height = _size(self.lines)
        x, y = self.middle
        return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def labels(numbers: Sequence[int], spots: Sequence[Spot], size: float, frame: tuple[float, ...]) -> list[Label]:
    """A label for every marker or for several.

    Args:
        numbers: of the markers.
        spots: where they are, px.
        size: half the width of a marker, px.
        frame: what labels stand in: least x, least y, largest x, largest y.
    """
    taken = [(x - size, y - size, x + size, y + size) for x, y in spots]
    made: list[Label] = []
    for spot, own in _together(numbers, spots):
        label = _placed(spot, list(_lines(own)), taken, frame)
        made.append(label)
        taken.append(label.box)
        taken += _leader_boxes(label)
    return made


def _together(numbers: Sequence[int], spots: Sequence[Spot]) -> list[tuple[Spot, list[int]]]:
    found: list[tuple[Spot, list[int]]] = []
    for number, spot in zip(numbers, spots, strict=True):
        near = next((own for first, own in found if math.dist(first, spot) < NEAR), None)
        if near is None:
            found.append((spot, [number]))
        else:
            near.append(number)
    return found


def _lines(numbers: Sequence[int]) -> Iterator[str]:
    for start in range(0, len(numbers), _IN_A_LINE):
        part = ", ".join(map(str, numbers[start : start + _IN_A_LINE]))
        yield part if start + _IN_A_LINE >= len(numbers) else f"{part},"


def _size(lines: Sequence[str]) -> Spot:
    return LETTER * max(map(len, lines)), LINE * len(lines)


def _placed(spot: Spot, lines: Sequence[str], taken: Sequence[Any], frame: tuple[float, ...]) -> Label:
    """The label at the nearest place that is free, with the first one tried where none is."""
    width, height = _size(lines)
    angle, radius = (own.ravel() for own in np.meshgrid(_ANGLES, _RADII))
    x = spot[0] + np.cos(angle) * (radius + width / 2)
    y = spot[1] - np.sin(angle) * (radius + height / 2)
    boxes = np.stack([x - width / 2, y - height / 2, x + width / 2, y + height / 2])
    free = (boxes[0] >= frame[0]) & (boxes[1] >= frame[1]) & (boxes[2] <= frame[2]) & (boxes[3] <= frame[3])
    inside = free.copy()
    free &= ~_overlap(boxes, np.array(taken).T)
    at = int(np.argmax(free)) if free.any() else int(np.argmax(inside))
    middle = (float(x[at]), float(y[at]))
    return Label(lines=lines, middle=middle, marker=spot if radius[at] > _FIRST else None)


def _overlap(boxes: Floats, taken: Floats) -> Bools:
    """(boxes,) that any of ``taken`` overlaps."""
    x0, y0, x1, y1 = (own[:, None] for own in boxes)
    met = (x0 < taken[2] + _CLEAR) & (x1 > taken[0] - _CLEAR) & (y0 < taken[3] + _CLEAR) & (y1 > taken[1] - _CLEAR)
    return met.any(axis=1)


def leader(label: Label) -> tuple[Spot, Spot] | None:
    """The line from a marker to its label, if there is one."""
    if label.marker is None:
        return None
    x0, y0, x1, y1 = label.box
    x, y = label.marker
    return label.marker, (min(max(x, x0), x1), min(max(y, y0), y1))


def _leader_boxes(label: Label) -> Iterator[tuple[float, float, float, float]]:
    """The leader in short pieces that no other label may cover."""
    ends = leader(label)
    if ends is None:
        return
    (x0, y0), (x1, y1) = ends
    pieces = max(1, math.ceil(math.dist(*ends) / _STEP))
    for at in range(1, pieces):
        x, y = x0 + (x1 - x0) * at / pieces, y0 + (y1 - y0) * at / pieces
        yield x, y, x, y
