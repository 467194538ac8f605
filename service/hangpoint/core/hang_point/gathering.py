"""Some points of several batches as one batch: those that are near each other are checked together."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.hang_point.allowables import Allowables
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.fires import Fires, no_fires
from hangpoint.core.hang_point.opposed import Apart
from hangpoint.core.hang_point.points import GivenLoads, Layouts, PointLoads, Points, Runs
from hangpoint.core.quantity import Index

_ONE_ROW_A_POINT = (
    "hangs",
    "rods",
    "bases",
    "fixings",
    "bonds",
    "products",
    "decks",
    "surroundings",
    "environments",
    "plates",
)
_Table = TypeVar("_Table", bound=Columns)


def gather(parts: Sequence[tuple[Points, Index]]) -> Points:
    """The given points of each batch, one batch after the other.

    Args:
        parts: batches, each with the rows taken of it, rising. Their sites are left out.
    """
    offsets = np.cumsum([0, *(len(rows) for _, rows in parts)])
    places = [_places(points.count, rows, offset) for (points, rows), offset in zip(parts, offsets, strict=False)]
    batches = [points for points, _ in parts]
    names = tuple(dict.fromkeys(name for points in batches for name in points.given_names))
    runs, loads = _runs(batches, places)

    tables: dict[str, Any] = {
        name: _joined([getattr(points, name).take(rows) for points, rows in parts]) for name in _ONE_ROW_A_POINT
    }
    return Points(
        count=int(offsets[-1]),
        **tables,
        given=_given(batches, places, names),
        given_names=names,
        runs=runs,
        loads=loads,
        layouts=_of_points([points.layouts for points in batches], places),
        allowables=_allowables(parts),
        apart=_apart(batches, places),
        fasteners=_fasteners(parts),
        fires=_fires(parts),
    )


def _allowables(parts: Sequence[tuple[Points, Index]]) -> Allowables | None:
    """What points are checked by; those of a batch without any such table go by chapter 17."""
    known = next((points.allowables for points, _ in parts if points.allowables is not None), None)
    if known is None:
        return None
    tables: list[Allowables] = []
    for points, rows in parts:
        own = points.allowables
        if own is None:
            neutral = {
                name: np.zeros_like(getattr(known, name), shape=_shape(known, name, points.count))
                for name in known.names()
            }
            own = Allowables(**neutral)
        tables.append(own.take(rows))
    return _joined(tables)


def _fasteners(parts: Sequence[tuple[Points, Index]]) -> Fasteners | None:
    """All batches of a request go by one design code."""
    tables = [points.fasteners.take(rows) for points, rows in parts if points.fasteners is not None]
    return _joined(tables) if tables else None


def _fires(parts: Sequence[tuple[Points, Index]]) -> Fires | None:
    """Batches in which no point is to withstand a fire have none."""
    if all(points.fires is None for points, _ in parts):
        return None
    return _joined([no_fires(len(rows)) if own.fires is None else own.fires.take(rows) for own, rows in parts])


def _shape(known: Allowables, name: str, count: int) -> tuple[int, ...]:
    return (count, *getattr(known, name).shape[1:])


def _places(count: int, rows: Index, offset: int) -> Index:
    """Where each point of a batch comes to stand, -1 where it is left out."""
    place = np.full(count, -1, dtype=np.intp)
    place[rows] = offset + np.arange(len(rows))
    return place


def _joined(tables: Sequence[_Table]) -> _Table:
    if len(tables) == 1:
        return tables[0]
    kind = type(tables[0])
    return kind(**{name: np.concatenate([getattr(table, name) for table in tables]) for name in kind.names()})


def _moved(table: _Table, owner: str, place: Index) -> tuple[Index, _Table]:
    """The rows of a table whose owner stays, with its new place."""
    own = place[getattr(table, owner)]
    kept = np.flatnonzero(own >= 0)
    return kept, replace(table.take(kept), **{owner: own[kept]})


def _of_points(tables: Sequence[Layouts], places: Sequence[Index]) -> Layouts:
    return _joined([_moved(table, "point", place)[1] for table, place in zip(tables, places, strict=True)])


def _apart(batches: Sequence[Points], places: Sequence[Index]) -> Apart | None:
    pairs = zip(batches, places, strict=True)
    tables = [_moved(points.apart, "point", place)[1] for points, place in pairs if points.apart is not None]
    own = [table for table in tables if len(table.point)]
    return _joined(own) if own else None


def _given(batches: Sequence[Points], places: Sequence[Index], names: Sequence[str]) -> GivenLoads:
    moved: list[GivenLoads] = []
    for points, place in zip(batches, places, strict=True):
        _, table = _moved(points.given, "point", place)
        code = np.array([names.index(name) for name in points.given_names], dtype=np.intp)
        moved.append(replace(table, name=code[table.name]))
    return _joined(moved)


def _runs(batches: Sequence[Points], places: Sequence[Index]) -> tuple[Runs, PointLoads]:
    width = max(points.runs.spans.shape[1] for points in batches)
    runs: list[Runs] = []
    loads: list[PointLoads] = []
    before = 0
    for points, place in zip(batches, places, strict=True):
        kept, own = _moved(points.runs, "point", place)
        runs.append(replace(own, spans=_padded(own.spans, width)))
        of = np.full(len(points.runs.point), -1, dtype=np.intp)
        of[kept] = before + np.arange(len(kept))
        before += len(kept)
        loads.append(_moved(points.loads, "run", of)[1])
    return _joined(runs), _joined(loads)


def _padded(spans: NDArray[np.float64], width: int) -> NDArray[np.float64]:
    more = width - spans.shape[1]
    return np.pad(spans, ((0, 0), (0, more))) if more else spans
