"""The same object of several items, turned into columns once: who validates and who packs read the same columns."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import Any, cast, overload

from hangpoint.pack.decoded import UNSET, Decoded, Object, field_of, readers

EMPTY: Object = {}


def value_at(value: Any, *names: str) -> Any:
    """The value under nested names, None where there is none."""
    for name in names:
        if not isinstance(value, Mapping):
            return None
        value = cast(Object, value).get(name)
    return value


class Guess:
    """That decoded objects state the names that the first of them states; ``lasts`` until it is told from the count.

    Where another one has a name beside them, `Objects.count_of_names` of all that was made meanwhile is too low.
    """

    __slots__ = ("lasts",)

    def __init__(self) -> None:
        self.lasts = True


class Objects(Sequence[Object]):
    """The objects under one name of some items, or of the lists in them, in order.

    ``rows`` is the item of each. ``names`` are those that any of them has. Objects that all have the same names, as
    those of one program mostly have, are turned into columns at once; ``blank`` says that none states anything.

    Of decoded objects all names of their type are looked for, but for a `Guess` while it lasts.
    """

    __slots__ = (
        *("_children", "_columns", "_entries", "_guess", "_objects", "_partly", "_taken", "_whole"),
        *("names", "rows"),
    )

    def __init__(
        self,
        objects: Sequence[Object],
        rows: Sequence[int] | None = None,
        *,
        blank: bool = False,
        guess: "Guess | None" = None,
    ) -> None:
        self._objects = objects
        self.rows = range(len(objects)) if rows is None else rows
        self._guess = guess
        # Columns of the names that all state; of those that some state, with gaps.
        self._columns: Mapping[str, Sequence[Any]] = EMPTY
        self._partly: Mapping[str, Sequence[Any]] = EMPTY
        self.names: Collection[str] = ()
        if not blank and len(objects):
            if isinstance(objects[0], Decoded) and len(set(map(type, objects))) == 1:
                self._columns, self._partly = _decoded_columns(
                    cast(Sequence[Decoded], objects), exact=guess is None or not guess.lasts
                )
                self.names = {**self._columns, **self._partly} if self._partly else self._columns
            else:
                self._columns = _columns(objects)
                self.names = self._columns or set[str]().union(*objects)
        self._children: dict[str, Objects] = {}
        self._entries: dict[str, Objects] = {}
        self._taken: dict[tuple[int, ...], Objects] = {}
        self._whole: tuple[Objects, Sequence[int]] | None = None

    @classmethod
    def of(cls, objects: Sequence[Object]) -> "Objects":
        """The objects, as they are where they are in columns already."""
        return objects if isinstance(objects, Objects) else cls(objects)

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

    def places(self, rows: Sequence[int]) -> Sequence[int] | None:
        """The places of some rows, None where one of them has none."""
        if len(rows) == len(self.rows) and list(rows) == list(self.rows):
            return range(len(rows))
        known = {row: at for at, row in enumerate(self.rows)}
        return [known[row] for row in rows] if known.keys() >= set(rows) else None

    def stated(self, name: str, absent: Any = None) -> Sequence[Any]:
        """The value under ``name`` of every object, ``absent`` where it has none."""
        if name in self._columns:
            return self._columns[name]
        if name not in self.names:
            return (absent,) * len(self._objects)
        if name in self._partly:
            return [absent if value is UNSET else value for value in self._partly[name]]
        return [own.get(name, absent) for own in self._objects]

    def stated_by_all(self, name: str) -> bool:
        """Whether every object surely has a value under ``name``; False where the objects differ in their names."""
        return name in self._columns

    def count_of_names(self) -> int:
        """Names of all objects together."""
        if self._columns or self._partly or not self.names:
            some = sum([value is not UNSET for column in self._partly.values() for value in column])
            return len(self._objects) * len(self._columns) + some
        return sum(map(len, self._objects))

    def child(self, name: str) -> "Objects":
        """The object under ``name`` of every object, empty where there is none."""
        if not self.names:
            return self
        known = self._children.get(name)
        if known is None and self._whole is not None and name in self.names:
            whole, at = self._whole
            of_whole = whole._children.get(name)
            known = None if of_whole is None else self._children.setdefault(name, of_whole.taken(at))
        if known is None:
            partly = name in self._partly
            values = self.stated(name, _empty_of(self._partly[name]) if partly else EMPTY)
            known = self._children[name] = Objects(
                values, self.rows, blank=name not in self.names, guess=None if partly else self._guess
            )
        return known

    def stated_child(self, name: str) -> "Objects":
        """The object under ``name`` of those objects that have one."""
        if self.stated_by_all(name) or name not in self.names:
            return self.child(name)
        values = self.stated(name, UNSET)
        own = [(value, row) for value, row in zip(values, self.rows, strict=True) if value is not UNSET]
        return Objects([value for value, _ in own], [row for _, row in own], guess=self._guess)

    def taken(self, at: Sequence[int]) -> "Objects":
        """The objects at these places, which rise."""
        if len(at) == len(self):
            return self
        key = tuple(at)
        known = self._taken.get(key)
        if known is None:
            known = self._taken[key] = self._some(key)
        return known

    def _some(self, at: Sequence[int]) -> "Objects":
        objects, rows = [self._objects[place] for place in at], [self.rows[place] for place in at]
        if not at or not (self._columns or self._partly):
            return Objects(objects, rows, guess=self._guess)
        # Of the columns that there are, since what was counted of all objects does not hold for some of them.
        some = Objects(objects, rows, blank=True, guess=self._guess)
        columns = {name: [column[place] for place in at] for name, column in self._columns.items()}
        partly = {name: [column[place] for place in at] for name, column in self._partly.items()}
        stated = {name: sum([value is not UNSET for value in column]) for name, column in partly.items()}
        some._columns = columns | {name: own for name, own in partly.items() if stated[name] == len(at)}
        some._partly = {name: own for name, own in partly.items() if 0 < stated[name] < len(at)}
        some.names = {**some._columns, **some._partly}
        some._whole = self, at
        return some

    def entries(self, name: str) -> "Objects":
        """The objects in the lists under ``name``, one after the other."""
        known = self._entries.get(name)
        if known is None:
            lists: Sequence[Sequence[Object]] = [several or () for several in self.stated(name)]
            known = self._entries[name] = Objects(
                list(chain.from_iterable(lists)), rows_of_entries(self.rows, lists), guess=self._guess
            )
        return known


def rows_of_entries(rows: Sequence[int], lists: Sequence[Sequence[Any]]) -> list[int]:
    """Of every entry of the lists, one after the other, the row of its list."""
    return [row for row, several in zip(rows, lists, strict=True) for _ in several]


def _columns(objects: Sequence[Object]) -> Mapping[str, Sequence[Any]]:
    """The values of each name over all objects; none where the objects differ in their names."""
    names = tuple(objects[0])
    if set(map(len, objects)) - {len(names)}:
        return EMPTY
    try:
        return {name: [own[name] for own in objects] for name in names}
    except KeyError:
        return EMPTY


def _decoded_columns(
    objects: Sequence[Decoded], *, exact: bool
) -> tuple[Mapping[str, Sequence[Any]], Mapping[str, Sequence[Any]]]:
    """Columns of the names that all objects state, and of those that some state."""
    read = readers(type(objects[0]))
    columns = {name: read[name](objects) for name in (read if exact else objects[0])}
    count = len(objects)
    if not exact and any(len(column) < count for column in columns.values()):
        return _decoded_columns(objects, exact=True)
    return (
        {name: column for name, column in columns.items() if len(column) == count},
        {
            name: [getattr(each, field_of(name)) for each in objects]
            for name, column in columns.items()
            if 0 < len(column) < count
        },
    )


def _empty_of(column: Iterable[Any]) -> Object:
    """An object of the type of those in a column that states nothing."""
    first: Any = next(value for value in column if value is not UNSET)
    return cast(Object, type(first)()) if isinstance(first, Decoded) else EMPTY
