"""What plain types leave open, looked at a column at a time: names of objects, and texts of a grammar.

A name may be one that no field has, or be missing from one form of an object that has several. Of texts each distinct
one is put to the validator of its place once.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Any, Protocol

import msgspec
from pydantic import TypeAdapter, ValidationError

from hangpoint.pack.objects import Objects, rows_of_entries

MAX_REMEMBERED = 4096
"""Texts and numbers of one place that are known to be good: the same few stand in every row of a job."""


@dataclass(slots=True)
class Seen:
    """``refused`` are rows in which something is not as it should be, ``names`` the names of all objects looked at."""

    refused: set[int] = field(default_factory=set[int])
    names: int = 0


class Look(Protocol):
    """What is looked at under one name of some objects."""

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """Look at what stands under ``name``."""
        ...


@dataclass(frozen=True, slots=True)
class Texts:
    """A text, or a number that needs no look; ``validator`` is that of the place.

    ``known`` are values that are known to be good.
    """

    validator: TypeAdapter[Any]
    known: set[Any] = field(default_factory=set[Any])

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        values = objects.stated(name)
        if not self.knows(values):
            self.see_all(values, objects.rows, seen)

    def knows(self, values: Iterable[Any]) -> bool:
        """Whether all of the values are known to be good."""
        return self.known.issuperset(values)

    def see_all(self, values: Sequence[Any], rows: Sequence[int], seen: Seen) -> None:
        """Refuse the rows of values that are no texts of the grammar."""
        unknown = set(values) - self.known
        bad = {value for value in unknown if type(value) is str and not self._is_good(value)}
        if bad:
            seen.refused.update([row for value, row in zip(values, rows, strict=True) if value in bad])
        good = unknown - bad
        if len(self.known) + len(good) > MAX_REMEMBERED:
            self.known.clear()
        if len(good) <= MAX_REMEMBERED:
            self.known.update(good)

    def _is_good(self, text: str) -> bool:
        try:
            self.validator.validate_python(text)
        except ValidationError:
            return False
        return True


@dataclass(frozen=True, slots=True)
class ListOfTexts:
    """A list of such texts and numbers."""

    texts: Texts

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        lists: Sequence[Sequence[Any]] = objects.stated(name, ())
        values = list(chain.from_iterable(lists))
        if not self.texts.knows(values):
            self.texts.see_all(values, rows_of_entries(objects.rows, lists), seen)


@dataclass(frozen=True, slots=True)
class Judged:
    """A value of the plain type ``kind`` where the decoder took any, with what else is to be looked at."""

    kind: Any
    look: Look | None

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        good: list[int] = []
        bad: list[int] = []
        for place, own in enumerate(objects.stated(name, _ABSENT)):
            (good if self._is_good(own) else bad).append(place)
        seen.refused.update([objects.rows[place] for place in bad])
        if self.look is not None:
            self.look.see(objects.taken(good), name, seen)

    def _is_good(self, value: Any) -> bool:
        return value is _ABSENT or fits(value, self.kind)


_ABSENT = object()


def fits(value: Any, kind: Any) -> bool:
    """Whether a value as JSON has it is of a plain type."""
    try:
        msgspec.convert(value, kind)
    except msgspec.ValidationError:
        return False
    return True


@dataclass(frozen=True, slots=True)
class Fields:
    """An object with some of these ``names``, all of the ``required``, and ``looks`` by name."""

    names: frozenset[str]
    looks: Mapping[str, Look]
    required: frozenset[str] = frozenset()

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        self.see_all(objects.child(name), seen)

    def see_all(self, objects: Objects, seen: Seen) -> None:
        """Look at the objects themselves."""
        seen.names += objects.count_of_names()
        if not self.names.issuperset(objects.names):
            _refuse(objects, lambda own: not self.names.issuperset(own), seen)
        if not all(map(objects.stated_by_all, self.required)):
            _refuse(objects, lambda own: not self.required.issubset(own), seen)
        for name in objects.names:
            look = self.looks.get(name)
            if look is not None:
                look.see(objects, name, seen)


@dataclass(frozen=True, slots=True)
class Forms:
    """An object of one of several forms, told apart by the word under ``by``."""

    by: str
    forms: Mapping[str, Fields]

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        self.see_all(objects.child(name), seen)

    def see_all(self, objects: Objects, seen: Seen) -> None:
        """Look at the objects themselves."""
        words = objects.stated(self.by)
        for word in dict.fromkeys(words):
            if word is not None:
                places = [place for place, own in enumerate(words) if own == word]
                self.forms[word].see_all(objects.taken(places), seen)


ObjectLook = Fields | Forms


@dataclass(frozen=True, slots=True)
class ListOfObjects:
    """A list of objects."""

    entry: ObjectLook

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        self.entry.see_all(objects.entries(name), seen)


@dataclass(frozen=True, slots=True)
class ListOrObject:
    """A list, or an object in its place."""

    listed: Look
    single: Look

    def see(self, objects: Objects, name: str, seen: Seen) -> None:
        """See `Look`."""
        lists: list[int] = []
        others: list[int] = []
        for place, value in enumerate(objects.stated(name)):
            (lists if isinstance(value, list) else others).append(place)
        self.listed.see(objects.taken(lists), name, seen)
        self.single.see(objects.taken(others), name, seen)


def _refuse(objects: Objects, is_bad: Callable[[Iterable[str]], bool], seen: Seen) -> None:
    seen.refused.update([row for row, own in zip(objects.rows, objects, strict=True) if is_bad(own)])
