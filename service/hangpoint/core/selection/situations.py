"""Points of which one stands for all that are equal: a job repeats few situations many times."""

from dataclasses import fields, replace
from typing import Any

import numpy as np

from hangpoint.core.hang_point.points import Columns, Points
from hangpoint.core.quantity import Index
from hangpoint.core.selection.pairs import column_bytes, distinct

NO_ROW = -1


def situations(points: Points, condition: Index) -> tuple[Index, Index]:
    """The first point of every situation, rising, and the situation of each point.

    Args:
        points: a batch; where its points are is not compared, nor are its products.
        condition: (points,) what else tells points apart.
    """
    loads = _kinds(points.loads, points.loads.run)
    run_loads = _listed(loads, points.loads.run, len(points.runs.point))
    columns: list[Any] = [column_bytes(condition)]
    for each in fields(points):
        table = getattr(points, each.name)
        if not isinstance(table, Columns) or each.name in ("products", "loads"):
            continue
        if "point" not in table.names():
            columns += [column_bytes(getattr(table, name)) for name in table.names()]
            continue
        owner: Index = getattr(table, "point")  # noqa: B009
        own = _kinds(table, owner, *([run_loads] if each.name == "runs" else []))
        columns.append(column_bytes(_listed(own, owner, points.count)))
    first, of = distinct(columns, points.count)
    order = np.argsort(first)
    place = np.empty(len(first), dtype=np.intp)
    place[order] = np.arange(len(first))
    return first[order], place[of]


def _kinds(table: Columns, owner: Index, *more: Index) -> Index:
    """A number for each row, the same for rows that are equal but for their owner."""
    if not len(owner):
        return owner
    bare = replace(table, **{"run" if "run" in table.names() else "point": np.zeros(len(owner), dtype=np.intp)})
    columns = [column_bytes(getattr(bare, name)) for name in bare.names()]
    return distinct([*columns, *map(column_bytes, more)], len(owner))[1]


def _listed(kinds: Index, owner: Index, count: int) -> Index:
    """The numbers of the rows of each owner side by side, (owners, most rows), `NO_ROW` beyond its own."""
    lengths = np.bincount(owner, minlength=count)
    found = np.full((count, int(lengths.max(initial=0)) + 1), NO_ROW, dtype=np.intp)
    order = np.argsort(owner, kind="stable")
    first = np.cumsum(lengths) - lengths
    found[owner[order], np.arange(len(owner)) - first[owner[order]]] = kinds[order]
    return found
