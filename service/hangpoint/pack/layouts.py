"""Where the anchors of each point stand: lists of positions and patterns as one flat axis of anchors."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.hang_point.points import MOST_ANCHORS, Layouts
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.pack.pull import EMPTY, Rows, convert, filled, out_of_range, range_text
from hangpoint.units import LENGTH, OFFSET, QuantityKind

_ORIGIN = {"x": 0.0, "y": 0.0}
_ALONG_X, _ALONG_Y = {"both", "x"}, {"both", "y"}
_ROUNDED = 12
"""Decimals of an inch that a pattern's coordinates keep: the cosine of 90 degrees is then 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedLayouts:
    """Anchors of a batch.

    ``count`` (points,) is the number of anchors of each point. ``stated``: the request gives a layout, ``listed``: as a
    list; ``resists_stated``: at least one of its positions says how its anchor takes shear.
    """

    layouts: Layouts
    count: Index
    stated: Bools
    listed: Bools
    resists_stated: Bools

    @property
    def several(self) -> Bools:
        """(points,) more than one anchor."""
        return self.count > 1

    def place(self, point: int, anchor: int) -> str:
        """Where in the item this anchor of the point is stated; ``anchor`` counts on the flat axis."""
        if not self.listed[point]:
            return "anchor/layout"
        first = int(np.searchsorted(self.layouts.point, point))
        return f"anchor/layout/{anchor - first}"


def pack_layouts(anchor: Rows) -> PackedLayouts:
    """Read ``layout`` of every item: one anchor at the origin where none is stated.

    Flaws: an offset out of range, a pattern with too many anchors or without its spacing.
    """
    count = len(anchor)
    if not anchor.gives("layout"):
        return _single(count)
    values = anchor.values("layout")
    is_pattern = np.array([isinstance(value, Mapping) for value in values], dtype=np.bool_)
    stated = np.array([value is not None for value in values], dtype=np.bool_)
    lists: list[Sequence[Any]] = [
        () if pattern else value or (_ORIGIN,) for value, pattern in zip(values, is_pattern.tolist(), strict=True)
    ]
    flat = [position for several in lists for position in several]
    owner = np.repeat(np.arange(count), [len(several) for several in lists])
    x, y = (anchor.listed("layout", lists, OFFSET, name) for name in ("x", "y"))
    resists = [position.get("resists", "both") for position in flat]
    resists_x = np.array([word in _ALONG_X for word in resists], dtype=np.bool_)
    resists_y = np.array([word in _ALONG_Y for word in resists], dtype=np.bool_)
    resists_stated = np.zeros(count, dtype=np.bool_)
    resists_stated[owner[[("resists" in position) for position in flat]]] = True
    if is_pattern.any():
        at = np.flatnonzero(is_pattern)
        own, own_x, own_y = _patterns(anchor, at.tolist(), [values[place] for place in at.tolist()])
        order = np.argsort(np.concatenate([owner, own]), kind="stable")
        owner = np.concatenate([owner, own])[order]
        x, y = np.concatenate([x, own_x])[order], np.concatenate([y, own_y])[order]
        both = np.ones(len(own), dtype=np.bool_)
        resists_x, resists_y = np.concatenate([resists_x, both])[order], np.concatenate([resists_y, both])[order]
    return PackedLayouts(
        layouts=Layouts(point=owner, x=x, y=y, resists_x=resists_x, resists_y=resists_y),
        count=np.bincount(owner, minlength=count),
        stated=stated,
        listed=stated & ~is_pattern,
        resists_stated=resists_stated,
    )


def _single(count: int) -> PackedLayouts:
    yes, no = filled(count, True, np.bool_), filled(count, False, np.bool_)
    zero = filled(count, 0.0)
    return PackedLayouts(
        layouts=Layouts(point=np.arange(count), x=zero, y=zero, resists_x=yes, resists_y=yes),
        count=filled(count, 1, np.intp),
        stated=no,
        listed=no,
        resists_stated=no,
    )


class _Patterns:
    """Patterns of some items, their numbers read place by place."""

    def __init__(self, anchor: Rows, at: Sequence[int], patterns: Sequence[Mapping[str, Any]]) -> None:
        self._anchor = anchor
        self._at = at
        self.patterns = patterns
        self._centers: list[Mapping[str, Any]] = [pattern.get("center", EMPTY) for pattern in patterns]

    def numbers(self, name: str, absent: float) -> Floats:
        """A plain number of every pattern."""
        return np.array([pattern.get(name, absent) for pattern in self.patterns], dtype=np.float64)

    def quantity(self, name: str) -> Floats:
        """A length of every pattern, nan where there is none."""
        return self._column([pattern.get(name) for pattern in self.patterns], name, LENGTH, np.nan)

    def center(self, name: str) -> Floats:
        """A coordinate of the middle of every pattern."""
        return self._column([center.get(name) for center in self._centers], f"center/{name}", OFFSET, 0.0)

    def flaw(self, holds: Bools, name: str, detail: str, code: str) -> None:
        """Note a flaw of a place of the patterns where it holds."""
        for row in np.flatnonzero(holds).tolist():
            self._anchor.flaw(self._at[row], f"layout/{name}", detail, code=code)

    def _column(self, values: Sequence[Any], name: str, kind: QuantityKind, absent: float) -> Floats:
        column = convert(values, kind, self._anchor.system, absent=absent)
        bad = out_of_range(column, kind)
        for row in np.flatnonzero(bad).tolist():
            self._anchor.flaw(self._at[row], f"layout/{name}", range_text(kind, self._anchor.system), slug="quantity")
        return np.where(bad, 1.0, column)


def _patterns(
    anchor: Rows, at: Sequence[int], patterns: Sequence[Mapping[str, Any]]
) -> tuple[NDArray[np.intp], Floats, Floats]:
    """Point, x and y of every anchor of the patterns. A row is a rectangle of one row, turned by its angle."""
    read = _Patterns(anchor, at, patterns)
    kind = np.array([pattern["pattern"] for pattern in patterns])
    columns = np.where(kind == "rectangle", read.numbers("columns", 1), read.numbers("count", 1)).astype(np.intp)
    rows = read.numbers("rows", 1).astype(np.intp)
    spacing = {"spacing": (kind == "row") & (columns > 1)}
    spacing |= {"spacing_x": (kind == "rectangle") & (columns > 1), "spacing_y": rows > 1}
    step = {name: _spacing(read, name, needed) for name, needed in spacing.items()}
    many = columns * rows > MOST_ANCHORS
    read.flaw(many, "columns", f"A layout has at most {MOST_ANCHORS} anchors: columns times rows.", "out-of-range")
    count = np.where(many, 1, columns * rows)
    own = np.repeat(np.arange(len(patterns)), count)
    index = np.arange(len(own)) - np.repeat(np.cumsum(count) - count, count)
    row, column = np.divmod(index, columns[own])
    along_x = (column - (columns[own] - 1) / 2) * np.where(kind == "row", step["spacing"], step["spacing_x"])[own]
    along_y = (row - (rows[own] - 1) / 2) * step["spacing_y"][own]
    angle = np.radians(read.numbers("angle", 0.0))[own]
    radius = np.nan_to_num(read.quantity("diameter"))[own] / 2
    around = angle + 2 * np.pi * index / columns[own]
    circle = (kind == "circle")[own]
    x = np.where(circle, radius * np.cos(around), along_x * np.cos(angle) - along_y * np.sin(angle))
    y = np.where(circle, radius * np.sin(around), along_x * np.sin(angle) + along_y * np.cos(angle))
    x, y = (np.round(part, _ROUNDED) + read.center(name)[own] for part, name in ((x, "x"), (y, "y")))
    return np.array(at, dtype=np.intp)[own], x + 0.0, y + 0.0


def _spacing(read: _Patterns, name: str, needed: Bools) -> Floats:
    column = read.quantity(name)
    read.flaw(needed & np.isnan(column), name, "The spacing is required for more than one anchor.", "missing")
    return np.where(np.isnan(column), 0.0, column)
