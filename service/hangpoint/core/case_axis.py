"""The axis of the cases, (point, load case) in rising order of the points, and the worst of each point over it."""

from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index

_FIRST = np.zeros(1, dtype=np.intp)
_FULL = 4
"""A table of the cases, a row a point, may have so many times as many cells as there are cases."""


@frozen
class CaseAxis:
    """Cases of the points that have any.

    ``point_of_case`` and ``load_case`` are (cases,); ``starts`` (points with cases,) is the first case of each of
    those points and ``segment`` (cases,) its place among them. ``count`` is the number of all points. ``table`` (points
    with cases, most cases of a point) are the cases of each, filled up with its last one; None where that would be
    mostly filling.
    """

    count: int
    point_of_case: Index
    load_case: Index
    starts: Index
    segment: Index
    table: Index | None

    @classmethod
    def of(cls, *, count: int, point_of_case: Index, load_case: Index) -> Self:
        """The axis of cases that are in rising order of their points."""
        changes = point_of_case[1:] != point_of_case[:-1]
        first = _FIRST[: len(point_of_case)]
        starts = np.concatenate((first, changes.nonzero()[0] + 1))
        return cls(
            count=count,
            point_of_case=point_of_case,
            load_case=load_case,
            starts=starts,
            segment=np.concatenate((first, changes.cumsum())),
            table=_table(starts, len(point_of_case)),
        )

    def take(self, cases: Index) -> Self:
        """The axis of some of the cases; all cases of a point or none."""
        return self.of(count=self.count, point_of_case=self.point_of_case[cases], load_case=self.load_case[cases])

    @property
    def points(self) -> Index:
        """The points that have cases, in rising order."""
        return self.point_of_case[self.starts]

    def worst(self, values: NDArray[Any]) -> tuple[NDArray[Any], Index]:
        """First largest value of each point that has cases.

        Args:
            values: (..., cases).

        Returns:
            The values and the cases they stand at, each (..., points with cases).
        """
        if not len(self.starts):
            return values, np.zeros(values.shape, dtype=np.intp)
        if self.table is not None:
            case = self.starts + values[..., self.table].argmax(axis=-1)
            return _at(values, case), case
        peak = np.maximum.reduceat(values, self.starts, axis=-1)
        count = len(self.point_of_case)
        candidate = np.where(values == peak[..., self.segment], np.arange(count), count)
        return peak, np.minimum.reduceat(candidate, self.starts, axis=-1)

    def largest(self, values: NDArray[Any]) -> NDArray[Any]:
        """Largest value of each point that has cases, (..., cases) to (..., points with cases)."""
        if not len(self.starts):
            return values
        if self.table is not None:
            return np.maximum.reduce(values[..., self.table.T], axis=-2)
        return np.maximum.reduceat(values, self.starts, axis=-1)

    def any(self, holds: Bools) -> Bools:
        """Whether it holds in any case of each point, (cases,) to (points,)."""
        found = np.zeros(self.count, dtype=np.bool_)
        found[self.point_of_case[holds]] = True
        return found

    def over_points(self, values: Floats) -> Floats:
        """Values of the points that have cases as a column over all points, 0 elsewhere."""
        if len(values) == self.count:
            return values
        column = np.zeros(self.count)
        column[self.points] = values
        return column

    def places(self, values: Index) -> Index:
        """Indices of the points that have cases as a column over all points, -1 elsewhere."""
        if len(values) == self.count:
            return values
        column = np.full(self.count, -1, dtype=np.intp)
        column[self.points] = values
        return column


def _table(starts: Index, cases: int) -> Index | None:
    if not cases:
        return None
    last = np.concatenate((starts[1:], (cases,))) - 1
    most = int((last - starts).max()) + 1
    if most * len(starts) > _FULL * cases:
        return None
    return np.minimum(starts[:, None] + np.arange(most), last[:, None])


def _at(values: NDArray[Any], cases: Index) -> NDArray[Any]:
    """Values of one case for each row of them and each point, (..., cases) and (..., points) to (..., points)."""
    return values[cases] if values.ndim == 1 else np.array([row[at] for row, at in zip(values, cases, strict=True)])
