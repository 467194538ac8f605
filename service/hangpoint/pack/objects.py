"""The same object of several items, turned into columns once: who validates and who packs read the same columns."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import chain
from typing import Any, cast, overload

Object = Mapping[str, Any]
EMPTY: Object = {}


def value_at(value: Any, *names: str) -> Any:
    """The value under nested names, None where there is none."""
    for name in names:
        if not isinstance(value, Mapping):
            return None
        value = cast(Object, value).get(name)
    return value


class Objects(Sequence[Object]):
    """The objects under one name of some items, or of the lists in them, in order.

    ``rows`` is the item of each. ``names`` are those that any of them has. Objects that all have the same names, as
    those of one program mostly have, are turned into columns at once; ``blank`` says that none states anything.
    """

    __slots__ = ("_children", "_columns", "_entries", "_objects", "_taken", "names", "rows")

    def __init__(self, objects: Sequence[Object], rows: Sequence[int] | None = None, *, blank: bool = False) -> None:
        self._objects = objects
        self.rows = range(len(objects)) if rows is None else rows
        self._columns: Mapping[str, Sequence[Any]] | None = EMPTY if blank else _columns(objects)
        self.names: Collection[str] = set().union(*objects) if self._columns is None else self._columns
        self._children: dict[str, Objects] = {}
        self._entries: dict[str, Objects] = {}
        self._taken: dict[tuple[int, ...], Objects] = {}

    def __len__(self) -> int:
        return len(self._objects)

    def __iter__(self) -> Iterator[Object]:
        return iter(self._objects)

    @overload
    def __getitem__(self, at: int) -> Object: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Object]: ...
    def __getitem__(self, at: int | slice) -> Object | Sequence[Object]:
        return self._objects[at]

    def stated(self, name: str, absent: Any = None) -> Sequence[Any]:
        """The value under ``name`` of every object, ``absent`` where it has none."""
        if name not in self.names:
            return (absent,) * len(self._objects)
        return [own.get(name, absent) for own in self._objects] if self._columns is None else self._columns[name]

    def stated_by_all(self, name: str) -> bool:
        """Whether every object surely has a value under ``name``; False where the objects differ in their names."""
        return self._columns is not None and name in self._columns

    def count_of_names(self) -> int:
        """Names of all objects together."""
        return sum(map(len, self._objects)) if self._columns is None else len(self._objects) * len(self._columns)

    def child(self, name: str) -> "Objects":
        """The object under ``name`` of every object, empty where there is none."""
        if not self.names:
            return self
        known = self._children.get(name)
        if known is None:
            known = self._children[name] = Objects(self.stated(name, EMPTY), self.rows, blank=name not in self.names)
        return known

    def taken(self, at: Sequence[int]) -> "Objects":
        """The objects at these places, which rise."""
        if len(at) == len(self):
            return self
        key = tuple(at)
        known = self._taken.get(key)
        if known is None:
            known = self._taken[key] = Objects(
                [self._objects[place] for place in at], [self.rows[place] for place in at]
            )
        return known

    def entries(self, name: str) -> "Objects":
        """The objects in the lists under ``name``, one after the other."""
        known = self._entries.get(name)
        if known is None:
            lists: Sequence[Sequence[Object]] = [several or () for several in self.stated(name)]
            known = self._entries[name] = Objects(list(chain.from_iterable(lists)), rows_of_entries(self.rows, lists))
        return known


def rows_of_entries(rows: Sequence[int], lists: Sequence[Sequence[Any]]) -> list[int]:
    """Of every entry of the lists, one after the other, the row of its list."""
    return [row for row, several in zip(rows, lists, strict=True) for _ in several]


def _columns(objects: Sequence[Object]) -> Mapping[str, Sequence[Any]] | None:
    """The values of each name over all objects; None where the objects differ in their names."""
    names = tuple(objects[0]) if objects else ()
    if set(map(len, objects)) - {len(names)}:
        return None
    try:
        return {name: [own[name] for own in objects] for name in names}
    except KeyError:
        return None
