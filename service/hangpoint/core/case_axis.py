"""The axis of the cases, (point, load case) in rising order of the points, and the worst of each point over it."""

from dataclasses import dataclass
from typing import Self

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index

_FIRST = np.zeros(1, dtype=np.intp)


@dataclass(frozen=True, kw_only=True)
class CaseAxis:
    """Cases of the points that have any.

    ``point_of_case`` and ``load_case`` are (cases,); ``starts`` (points with cases,) is the first case of each of
    those points and ``segment`` (cases,) its place among them. ``count`` is the number of all points.
    """

    count: int
    point_of_case: Index
    load_case: Index
    starts: Index
    segment: Index

    @classmethod
    def of(cls, *, count: int, point_of_case: Index, load_case: Index) -> Self:
        """The axis of cases that are in rising order of their points."""
        changes = point_of_case[1:] != point_of_case[:-1]
        starts = np.concatenate((_FIRST, np.flatnonzero(changes) + 1)) if len(point_of_case) else point_of_case
        segment = np.concatenate((_FIRST, np.cumsum(changes))) if len(point_of_case) else point_of_case
        return cls(count=count, point_of_case=point_of_case, load_case=load_case, starts=starts, segment=segment)

    def take(self, cases: Index) -> Self:
        """The axis of some of the cases; all cases of a point or none."""
        return self.of(count=self.count, point_of_case=self.point_of_case[cases], load_case=self.load_case[cases])

    @property
    def points(self) -> Index:
        """The points that have cases, in rising order."""
        return self.point_of_case[self.starts]

    def worst(self, values: Floats) -> tuple[Floats, Index]:
        """First largest value of each point that has cases.

        Args:
            values: (..., cases).

        Returns:
            The values and the cases they stand at, each (..., points with cases).
        """
        if not len(self.starts):
            empty = np.zeros((*values.shape[:-1], 0))
            return empty, empty.astype(np.intp)
        peak = np.maximum.reduceat(values, self.starts, axis=-1)
        count = len(self.point_of_case)
        candidate = np.where(values == peak[..., self.segment], np.arange(count), count)
        return peak, np.minimum.reduceat(candidate, self.starts, axis=-1)

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
