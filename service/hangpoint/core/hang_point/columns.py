"""Tables of columns, a row a point or what a point has."""

from collections.abc import Callable
from dataclasses import fields
from functools import cache
from operator import attrgetter
from typing import Any, Self

from numpy.typing import NDArray

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Index


@frozen
class Columns:
    """Base of tables of equal-length columns."""

    @classmethod
    @cache
    def names(cls) -> tuple[str, ...]:
        """Names of the columns, in order."""
        return tuple(field.name for field in fields(cls))

    def columns(self) -> tuple[NDArray[Any], ...]:
        """The columns, in the order of their names."""
        return _reader(type(self))(self)

    def take(self, rows: Index) -> Self:
        """The given rows, in that order."""
        return type(self)(**{name: column[rows] for name, column in columns_of(self).items()})


@cache
def _reader(kind: type[Columns]) -> Callable[[Columns], tuple[NDArray[Any], ...]]:
    return attrgetter(*kind.names())


def columns_of(table: Columns) -> dict[str, Any]:
    """The columns by their names, to be handed on."""
    return dict(zip(table.names(), table.columns(), strict=True))
