"""The plan of a sheet as SVG: points to scale in a frame with coordinates, a scale bar, a legend, a key plan."""

import math
from collections.abc import Iterator, Sequence

from hangpoint.report.load_map.labels import LINE, labels, leader
from hangpoint.report.load_map.tiles import Point, bounds
from hangpoint.report.printable import on_page
from hangpoint.report.svg import Spot, box, caption, line

WIDTH = 690.0
_RIGHT, _TOP = 8.0, 18.0
_HIGHEST, _LOWEST = 430.0, 170.0
_ROOM = 36.0
"""Around the points, for their labels, px."""
_LEAST_SPAN = 4.0
"""What is drawn across at least, in the unit of the coordinates."""
_LETTER = 6.4
_TICKS = 7
_BAR = 120.0
_KEY = (140.0, 76.0)
MARKER, RING = 4.5, 6.5
"""Half the width of a marker, and of the ring around one with shear, px."""

DRAWING = """
svg.plan .frame { fill: none; stroke: #111; stroke-width: 1.2; }
svg.plan .grid { stroke: #ddd; stroke-width: 0.6; }
svg.plan .tick { stroke: #111; stroke-width: 0.8; }
svg.plan .leader { stroke: #555; stroke-width: 0.6; }
svg.plan .bar { fill: #111; stroke: #111; stroke-width: 0.6; }
svg.plan .blank { fill: #fff; stroke: #111; stroke-width: 0.6; }
svg.plan .passed { fill: #fff; stroke: #111; stroke-width: 1.3; }
svg.plan .failed { fill: #111; stroke: #111; stroke-width: 1; }
svg.plan .refused { fill: #fff; stroke: #111; stroke-width: 1.3; }
svg.plan .sheared { fill: none; stroke: #111; stroke-width: 0.7; }
svg.plan .tile { fill: #fff; stroke: #555; stroke-width: 0.6; }
svg.plan .here { fill: #777; stroke: #111; stroke-width: 1; }
svg.plan text { font-size: 11px; fill: #111; text-anchor: middle; font-family: Arial, "Liberation Sans", sans-serif; }
svg.plan text.number { paint-order: stroke; stroke: #fff; stroke-width: 2px; stroke-opacity: 0.9; }
svg.plan text.beside { text-anchor: start; }
svg.plan text.before { text-anchor: end; }
"""
_WORDS = ("passed", "failed", "refused")


def plan(tiles: Sequence[Sequence[Point]], at: int, *, unit: str, title: str) -> str:
    """The drawing of one of the tiles of a level; coordinates are in ``unit``."""
    view = _View(tiles[at])
    parts = [*view.axes(unit), *_points(tiles[at], view)]
    low = view.bottom + 46.0
    parts += [*_scale_bar(view, low, unit), *_legend(tiles[at], low)]
    height = low + 12.0
    if len(tiles) > 1:
        parts += _key([bounds(tile) for tile in tiles], at, low - 10.0)
        height = low + _KEY[1] + 8.0
    return (
        f'<svg class="plan" viewBox="0 0 {WIDTH:g} {height:.1f}" width="{WIDTH:g}" height="{height:.1f}" role="img">'
        f"<title>{on_page(title)}</title><style>{DRAWING}</style>{''.join(parts)}</svg>"
    )


class _View:
    """How coordinates come on the paper."""

    def __init__(self, points: Sequence[Point]) -> None:
        x0, x1, y0, y1 = bounds(points)
        middle_x, middle_y = (x0 + x1) / 2, (y0 + y1) / 2
        span = max(x1 - x0, y1 - y0, _LEAST_SPAN)
        step = _nice(span / _TICKS)
        self._places = max(0, -math.floor(math.log10(step) + 1e-9))
        longest = max(len(self.text(y)) for y in (y0 - span, y1 + span))
        self.left, self.right = 12.0 + _LETTER * longest, WIDTH - _RIGHT
        wide = self.right - self.left - 2 * _ROOM
        self.scale = min(wide / max(x1 - x0, _LEAST_SPAN), (_HIGHEST - 2 * _ROOM) / max(y1 - y0, _LEAST_SPAN))
        high = max(_LOWEST, min(_HIGHEST, (y1 - y0) * self.scale + 2 * _ROOM))
        self.top, self.bottom = _TOP, _TOP + high
        self._x = middle_x - (self.right - self.left) / 2 / self.scale
        self._y = middle_y - high / 2 / self.scale
        self.step = _nice(max(self.right - self.left, high) / self.scale / _TICKS)
        self._places = max(0, -math.floor(math.log10(self.step) + 1e-9))

    @property
    def frame(self) -> tuple[float, float, float, float]:
        return self.left, self.top, self.right, self.bottom

    def spot(self, point: Point) -> Spot:
        return self.left + (point["x"] - self._x) * self.scale, self.bottom - (point["y"] - self._y) * self.scale

    def text(self, place: float) -> str:
        return f"{place:.{self._places}f}".replace("-", "−") if abs(place) > 1e-9 else "0"

    def axes(self, unit: str) -> Iterator[str]:
        """The frame, its ticks and what coordinates they have."""
        for place in self._ticks(self._x, (self.right - self.left) / self.scale):
            x = self.left + (place - self._x) * self.scale
            yield line((x, self.top), (x, self.bottom), "grid")
            yield line((x, self.bottom), (x, self.bottom + 4), "tick")
            yield caption((x, self.bottom + 16), self.text(place))
        for place in self._ticks(self._y, (self.bottom - self.top) / self.scale):
            y = self.bottom - (place - self._y) * self.scale
            yield line((self.left, y), (self.right, y), "grid")
            yield line((self.left - 4, y), (self.left, y), "tick")
            yield caption((self.left - 6, y + 4), self.text(place), "before")
        yield box(self.frame[:2], self.frame[2:], "frame")
        yield caption(((self.left + self.right) / 2, self.bottom + 29), f"x [{unit}]")
        yield caption((self.left, self.top - 5), f"y [{unit}]", "before")

    def _ticks(self, low: float, span: float) -> Iterator[float]:
        first = math.ceil(low / self.step)
        for count in range(first, math.floor((low + span) / self.step) + 1):
            yield count * self.step


def _nice(size: float) -> float:
    """The least of 1, 2 and 5 times a power of ten that is not less."""
    power = 10.0 ** math.floor(math.log10(size))
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= size * (1 - 1e-9))


def is_sheared(point: Point) -> bool:
    """Whether any load case shears it."""
    return point["demand"]["factored_shear"] > 0


def _points(points: Sequence[Point], view: _View) -> Iterator[str]:
    spots = [view.spot(point) for point in points]
    size = RING if any(map(is_sheared, points)) else MARKER
    placed = labels([point["number"] for point in points], spots, size + 0.5, view.frame)
    for label in placed:
        ends = leader(label)
        if ends is not None:
            yield line(*ends, "leader")
    for point, spot in zip(points, spots, strict=True):
        yield from _marker(spot, point["status"], sheared=is_sheared(point))
    for label in placed:
        x, y = label.middle
        first = y - LINE * (len(label.lines) - 1) / 2 + 4
        for row, text in enumerate(label.lines):
            yield caption((x, first + LINE * row), text, "number")


def _marker(spot: Spot, status: str, *, sheared: bool) -> Iterator[str]:
    x, y = spot
    size = MARKER - 0.5
    if sheared:
        yield f'<circle class="sheared" cx="{x:.1f}" cy="{y:.1f}" r="{RING:g}"/>'
    if status == "failed":
        yield box((x - size, y - size), (x + size, y + size), "failed")
    elif status == "refused":
        corners = ((x, y - size - 1), (x - size - 0.5, y + size), (x + size + 0.5, y + size))
        shape = " ".join(f"{own_x:.1f},{own_y:.1f}" for own_x, own_y in corners)
        yield f'<polygon class="refused" points="{shape}"/>'
    else:
        yield f'<circle class="passed" cx="{x:.1f}" cy="{y:.1f}" r="{size:g}"/>'


def _legend(points: Sequence[Point], low: float) -> Iterator[str]:
    there = {point["status"] for point in points}
    x = 240.0
    for word in _WORDS:
        if word in there:
            yield from _marker((x, low), word, sheared=False)
            yield caption((x + 9, low + 4), word, "beside")
            x += 70.0
    if any(map(is_sheared, points)):
        yield f'<circle class="sheared" cx="{x:.1f}" cy="{low:.1f}" r="{RING:g}"/>'
        yield caption((x + 11, low + 4), "with shear", "beside")


def _scale_bar(view: _View, low: float, unit: str) -> Iterator[str]:
    length = _nice(_BAR / view.scale / 2)
    wide = length * view.scale
    left = view.left
    yield box((left, low - 2), (left + wide / 2, low + 2), "bar")
    yield box((left + wide / 2, low - 2), (left + wide, low + 2), "blank")
    yield caption((left + wide + 6, low + 4), f"{length:g} {unit}", "beside")


def _key(tiles: Sequence[tuple[float, float, float, float]], at: int, top: float) -> Iterator[str]:
    """Where on the level the tile is: all tiles in outline, this one filled."""
    width, height = _KEY
    x0, x1 = min(tile[0] for tile in tiles), max(tile[1] for tile in tiles)
    y0, y1 = min(tile[2] for tile in tiles), max(tile[3] for tile in tiles)
    scale = min(width / max(x1 - x0, 1e-9), height / max(y1 - y0, 1e-9))
    left = WIDTH - _RIGHT - width
    for number, (own_x0, own_x1, own_y0, own_y1) in sorted(enumerate(tiles), key=lambda each: each[0] == at):
        wide, high = max(2.0, scale * (own_x1 - own_x0)), max(2.0, scale * (own_y1 - own_y0))
        x, y = left + scale * (own_x0 - x0), top + scale * (y1 - own_y1)
        yield box((x, y), (x + wide, y + high), "here" if number == at else "tile")
        yield caption((x + wide / 2, y + high / 2 + 4), str(number + 1))
    yield caption((left - 6, top + 9), "key plan", "before")
