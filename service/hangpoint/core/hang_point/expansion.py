"""Points repeated as a batch of their own: every row of it is one of the points, as often as it is named."""

from dataclasses import fields, replace
from typing import Any

import numpy as np

from hangpoint.core.hang_point.points import Columns, Points
from hangpoint.core.quantity import Index


def expand(points: Points, rows: Index) -> Points:
    """The points of the given rows in that order, which may name a point more than once; sites are left out.

    Tables with rows of their own for each point are repeated with it, and the loads of a run with the run.

    Args:
        points: a batch.
        rows: (new points,) points of it.
    """
    run_rows, _ = repeated(points.runs.point, rows, count=points.count)
    tables: dict[str, Any] = {}
    for each in fields(points):
        table = getattr(points, each.name)
        if not isinstance(table, Columns):
            continue
        if "point" in table.names():
            own, owner = repeated(getattr(table, "point"), rows, count=points.count)  # noqa: B009
            tables[each.name] = _owned(table.take(own), point=owner)
        elif "run" in table.names():
            own, owner = repeated(points.loads.run, run_rows, count=len(points.runs.point))
            tables[each.name] = _owned(table.take(own), run=owner)
        else:
            tables[each.name] = table.take(rows)
    return replace(points, count=len(rows), sites=None, **tables)


def _owned(table: Any, **owner: Index) -> Any:
    return replace(table, **owner)


def repeated(owner: Index, rows: Index, *, count: int) -> tuple[Index, Index]:
    """Rows of a table that belong to the given owners, owner by owner, and which of these each is of.

    Args:
        owner: (table rows,) whose each is.
        rows: (new owners,) owners, some maybe more than once.
        count: owners that there are.
    """
    if len(owner) == count and np.array_equal(owner, np.arange(count)):
        return rows, np.arange(len(rows))
    order = np.argsort(owner, kind="stable")
    lengths = np.bincount(owner, minlength=count)
    first = np.cumsum(lengths) - lengths
    own = lengths[rows]
    within = np.arange(int(own.sum())) - np.repeat(np.cumsum(own) - own, own)
    return order[np.repeat(first[rows], own) + within], np.repeat(np.arange(len(rows)), own)
