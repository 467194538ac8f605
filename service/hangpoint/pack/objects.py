"""The same object of several items, turned into columns once: who validates and who packs read the same columns."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import chain
from typing import Any, cast, overload

from hangpoint.pack.decoded import Decoded, Object, plain, readers

EMPTY: Object = {}


def value_at(value: Any, *names: str) -> Any:
    """The value under nested names, None where there is none."""
    for name in names:
        if not isinstance(value, Mapping):
            return None
        value = cast(Object, value).get(name)
    return value


class NotAlikeError(ValueError):
    """Decoded objects state other names than the first of them."""


class Guess:
    """That decoded objects all state the names of the first; ``lasts`` until it is told from the count.

    Where one lacks a name, that shows at once. Where one has a name more, `Objects.count_of_names` of all that was made
    meanwhile is too low.
    """

    __slots__ = ("lasts",)

    def __init__(self) -> None:
        self.lasts = True


class Objects(Sequence[Object]):
    """The objects under one name of some items, or of the lists in them, in order.

    ``rows`` is the item of each. ``names`` are those that any of them has. Objects that all have the same names, as
    those of one program mostly have, are turned into columns at once; ``blank`` says that none states anything. Decoded
    objects are turned into plain ones but for a `Guess` while it lasts.
    """

    __slots__ = ("_children", "_columns", "_entries", "_guess", "_objects", "_taken", "_whole", "names", "rows")

    def __init__(
        self,
        objects: Sequence[Object],
        rows: Sequence[int] | None = None,
        *,
        blank: bool = False,
        guess: Guess | None = None,
    ) -> None:
        """Read the columns.

        Raises:
            NotAlikeError: the guess is wrong.
        """
        self.rows = range(len(objects)) if rows is None else rows
        self._guess = guess
        self._columns: Mapping[str, Sequence[Any]] | None = EMPTY
        if not blank and len(objects):
            if not isinstance(objects[0], Decoded):
                self._columns = _columns(objects)
            elif guess is not None and guess.lasts:
                self._columns = _decoded_columns(cast(Sequence[Decoded], objects))
            else:
                objects = plain(list(objects))
                self._columns = _columns(objects)
        self._objects = objects
        self.names: Collection[str] = set[str]().union(*objects) if self._columns is None else self._columns
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
        if known is None and self._whole is not None and name in self.names:
            whole, at = self._whole
            of_whole = whole._children.get(name)
            known = None if of_whole is None else self._children.setdefault(name, of_whole.taken(at))
        if known is None:
            values, blank = self.stated(name, EMPTY), name not in self.names
            known = self._children[name] = Objects(values, self.rows, blank=blank, guess=self._guess)
        return known

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
        if not at or not self._columns:
            return Objects(objects, rows, guess=self._guess)
        some = Objects(objects, rows, blank=True, guess=self._guess)
        some.names = some._columns = {name: [own[place] for place in at] for name, own in self._columns.items()}
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


def _columns(objects: Sequence[Object]) -> Mapping[str, Sequence[Any]] | None:
    """The values of each name over all objects; None where the objects differ in their names."""
    names = tuple(objects[0])
    if set(map(len, objects)) - {len(names)}:
        return None
    try:
        return {name: [own[name] for own in objects] for name in names}
    except KeyError:
        return None


def _decoded_columns(objects: Sequence[Decoded]) -> Mapping[str, Sequence[Any]]:
    """The values of each name of the first over all objects.

    Raises:
        NotAlikeError: an object does not state it.
    """
    read = readers(type(objects[0]))
    columns = {name: read[name](objects) for name in objects[0]}
    if any(len(column) < len(objects) for column in columns.values()):
        raise NotAlikeError
    return columns
