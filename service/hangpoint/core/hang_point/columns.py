"""Tables of columns, a row a point or what a point has."""

from dataclasses import dataclass, fields
from functools import cache
from typing import Any, Self

from hangpoint.core.quantity import Index


@dataclass(frozen=True, kw_only=True)
class Columns:
    """Base of tables of equal-length columns."""

    @classmethod
    @cache
    def names(cls) -> tuple[str, ...]:
        """Names of the columns, in order."""
        return tuple(field.name for field in fields(cls))

    def take(self, rows: Index) -> Self:
        """The given rows, in that order."""
        return type(self)(**{name: getattr(self, name)[rows] for name in self.names()})


def columns_of(table: Columns) -> dict[str, Any]:
    """The columns by their names, to be handed on."""
    return {name: getattr(table, name) for name in table.names()}
