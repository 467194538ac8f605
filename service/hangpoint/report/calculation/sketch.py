"""Sketches of anchors in their base as SVG: a plan of the face, and a section through the member."""

import math
from collections.abc import Iterator, Sequence

from hangpoint.core.hang_point.points import SIDE, SOFFIT
from hangpoint.report.calculation.mathml import number
from hangpoint.report.calculation.place import Near, Place
from hangpoint.report.calculation.push import Push
from hangpoint.report.calculation.style import DRAWING
from hangpoint.report.calculation.surface import Surface
from hangpoint.report.printable import on_page
from hangpoint.report.svg import box, caption, line
from hangpoint.units import FORCE, LENGTH, PRINTED, System, bare_factor

_PLAN = (330.0, 230.0)
_SECTION = (190.0, 230.0)
_MARGIN = 34.0
_SHARES, _CLEAR = (0.67, 0.8, 0.5, 0.33), 24.0
"""Where the text of a dimension may stand along its line; so far from all anchors the first of them is taken."""
_ARROW = 44.0
_HEAD = 9.0
_FARTHEST = 3.0
"""A neighbour farther than this times the size of what stands there is not drawn."""
_NAME = 20
"""Letters of a name that are shown."""
_REACH = 2.0
"""An edge farther than this times the size of what stands there is drawn nearer, with a break in its dimension."""


Spot = tuple[float, float]


def plan(place: Place, system: System, surface: Surface | None = None, push: Push | None = None) -> str:
    """The face of the member: anchors numbered as in the layout, edges with their distances from its origin.

    Neighbours that are not too far away are named, the projected area of a breakout is shaded, and an arrow of one
    length shows where to the shear pushes.
    """
    near = drawn_near(place)
    size = _size(place, near)
    drawn = [min(edge, _REACH * size) for edge in place.edges]
    low_x, high_x, low_y, high_y = -drawn[0], drawn[1], -drawn[2], drawn[3]
    width, height = _PLAN
    scale = min((width - 2 * _MARGIN) / (high_x - low_x), (height - 2 * _MARGIN) / (high_y - low_y))
    left, top = (width - scale * (high_x - low_x)) / 2, (height - scale * (high_y - low_y)) / 2

    def at(x: float, y: float) -> tuple[float, float]:
        return left + scale * (x - low_x), top + scale * (high_y - y)

    corners = [at(low_x, low_y), at(low_x, high_y), at(high_x, low_y), at(high_x, high_y)]
    parts = [box(corners[1], corners[2], "member")]
    squares = [(at(x0, y1), at(x1, y0)) for x0, x1, y0, y1 in (surface.squares if surface else ())]
    parts += [box(*square, kind) for kind in ("outline", "surface") for square in squares]
    sides = ((0, 1), (2, 3), (0, 2), (1, 3))
    parts += [
        line(corners[one], corners[other], "edge" if math.isfinite(edge) else "open")
        for (one, other), edge in zip(sides, place.edges, strict=True)
    ]
    if place.plate is not None:
        x0, x1, y0, y1 = place.plate
        parts.append(box(at(x0, y1), at(x1, y0), "plate"))
    ends = (at(low_x, 0), at(high_x, 0), at(0, low_y), at(0, high_y))
    for end, edge, shown in zip(ends, place.edges, drawn, strict=True):
        if math.isfinite(edge):
            text, anchors = _length(edge, system), [at(x, y) for x, y in place.anchors()]
            parts += _dimension(at(0, 0), end, text, broken=shown < edge, anchors=anchors)
    for row, each in enumerate(near):
        away = _length(_between(place, each), system)
        parts += _near([at(x, y) for x, y in each.anchors], each, away, below=14 + 12 * (row % 3))
    parts += _anchors([at(x, y) for x, y in place.anchors()])
    if push is not None:
        parts += _arrow(at(push.x, push.y), push, system)
    parts += [*_axes(height), caption((width / 2, 12), "Face" if place.face == SIDE else "Plan")]
    return _drawing(_PLAN, "Plan of the face with the anchors and the edges", parts)


def section(place: Place, system: System) -> str:
    """The member across its face with the effective embedment of all anchors, along x, and the plate over them.

    Empty where thickness or embedment is not known.
    """
    if not (place.thickness > 0 and place.depth > 0):
        return ""
    width, height = _SECTION
    sides = sorted({round(x, 3) for x, _ in place.anchors()} | set(place.plate[:2] if place.plate else ()))
    spread, centre = sides[-1] - sides[0], (sides[0] + sides[-1]) / 2
    room = (width - 2 * _MARGIN - 16) / spread if spread > 0 else math.inf
    high = max(place.thickness, 1.15 * place.depth) + 2 * place.gap
    scale = min((height - 2 * _MARGIN) / high, room)
    thick, deep, gap = scale * place.thickness, scale * place.depth, scale * place.gap
    middle, face = width / 2, (height + thick) / 2
    turn = 0 if place.face == SOFFIT else 90 if place.face == SIDE else 180
    parts = [
        box((_MARGIN, face - thick), (width - _MARGIN, face), "member"),
        line((_MARGIN, face), (width - _MARGIN, face), "edge"),
        line((_MARGIN, face - thick), (width - _MARGIN, face - thick), "edge"),
    ]
    across = sorted({middle + scale * (round(x, 3) - centre) for x, _ in place.anchors()})
    parts += [line((x, face + gap + 10), (x, face - deep), "anchor") for x in across]
    if place.plate is not None:
        left, right = (middle + scale * (side - centre) for side in place.plate[:2])
        parts.append(box((left, face + gap), (right, face + gap + 4), "attached"))
    body = f'<g transform="rotate({turn} {middle:.1f} {height / 2:.1f})">{"".join(parts)}</g>'
    words = [f"Section, member {_length(place.thickness, system)}", f"embedded {_length(place.depth, system)}"]
    if place.gap > 0:
        words[1] += f", gap {_length(place.gap, system)}"
    lines = [caption((middle, 12 + 13 * place_), word) for place_, word in enumerate(words)]
    return _drawing(_SECTION, "Section through the member", [body, *lines])


def drawn_near(place: Place) -> list[Near]:
    """Those of the neighbours that are near enough to be drawn without making the rest too small."""
    most = _FARTHEST * _size(place, ())
    return [near for near in place.near if max(abs(side) for anchor in near.anchors for side in anchor) <= most]


def _size(place: Place, near: Sequence[Near]) -> float:
    """How large what stands there is, in."""
    anchors = [*place.anchors(), *(anchor for each in near for anchor in each.anchors)]
    spread = max(map(abs, (*(side for anchor in anchors for side in anchor), *(place.plate or ()))), default=0.0)
    return max(spread * 1.25, 1.5 * place.depth, 2.0)


def _length(size: float, system: System) -> str:
    return f"{number(size / bare_factor(LENGTH, system))} {PRINTED[system][LENGTH.name]}"


def _arrow(start: tuple[float, float], push: Push, system: System) -> Iterator[str]:
    """An arrow along the shear, with its size."""
    size = math.hypot(push.v_x, push.v_y)
    along, down = push.v_x / size, -push.v_y / size
    x, y = start[0] + _ARROW * along, start[1] + _ARROW * down
    back_x, back_y = x - _HEAD * along, y - _HEAD * down
    wings = ((back_x - sign * _HEAD / 3 * down, back_y + sign * _HEAD / 3 * along) for sign in (1, -1))
    corners = " ".join(f"{own_x:.1f},{own_y:.1f}" for own_x, own_y in ((x, y), *wings))
    yield line(start, (back_x, back_y), "push")
    yield f'<polygon class="push" points="{corners}"/>'
    shown = f"{number(size / bare_factor(FORCE, system))} {PRINTED[system][FORCE.name]}"
    yield caption((x + 12 * along, y + 14 * down + 3 + 10 * abs(along)), shown)  # a dimension stands above its line


def _dimension(start: Spot, end: Spot, text: str, *, broken: bool, anchors: Sequence[Spot]) -> Iterator[str]:
    """A line with its length, which stands as far from the anchors and their numbers as it can."""
    yield line(start, end, "dimension")
    (x0, y0), (x1, y1) = start, end
    along_x = abs(x1 - x0) > abs(y1 - y0)
    if broken:
        yield caption(((x0 + 8 * x1) / 9, (y0 + 8 * y1) / 9 + 4), "≈")
    spots = [(x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in _SHARES]
    x, y = max(spots, key=lambda spot: min(_CLEAR, *(math.dist(spot, (own + 6, up)) for own, up in anchors)))
    yield caption((x, y - 4), text) if along_x else caption((x + 4, y + 3), text, "beside")


def _anchors(places: Sequence[tuple[float, float]]) -> Iterator[str]:
    for number_, (x, y) in enumerate(places, 1):
        yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4"/>'
        if len(places) > 1:
            yield caption((x + 6, y - 5), str(number_), "beside")


def _between(place: Place, near: Near) -> float:
    """The least distance between an anchor of a point and one of its neighbour, in."""
    return min(math.dist(own, other) for own in place.anchors() for other in near.anchors)


def _near(places: Sequence[tuple[float, float]], near: Near, away: str, *, below: float) -> Iterator[str]:
    kind = "together" if near.together else "unlike"
    for x, y in places:
        yield f'<circle class="{kind}" cx="{x:.1f}" cy="{y:.1f}" r="4"/>'
    x, y = places[0]
    name = near.id if len(near.id) <= _NAME else f"{near.id[: _NAME - 1]}…"
    yield caption((x, y + below), f"{name}, {away} away")


def _axes(height: float) -> Iterator[str]:
    low = height - 8
    yield line((8, low), (28, low), "dimension")
    yield line((8, low), (8, low - 20), "dimension")
    yield caption((34, low + 3), "x")
    yield caption((8, low - 24), "y")


def _drawing(size: tuple[float, float], title: str, parts: Sequence[str]) -> str:
    width, height = size
    return (
        f'<svg class="sketch" viewBox="0 0 {width:g} {height:g}" width="{width:g}" height="{height:g}" role="img">'
        f"<title>{on_page(title)}</title><style>{DRAWING}</style>{''.join(parts)}</svg>"
    )
