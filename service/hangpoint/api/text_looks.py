"""Texts of a grammar inside items, looked at a column at a time: each distinct text is put to the validator once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Any, Protocol

from pydantic import TypeAdapter, ValidationError

from hangpoint.pack.objects import Objects, rows_of_entries

MAX_REMEMBERED = 4096
"""Texts of one place that are known to be good: the same few stand in every row of a job."""


class Look(Protocol):
    """What is looked at under one name of some objects."""

    def refused(self, objects: Objects, name: str) -> set[int]:
        """The rows of the objects in which a text under ``name`` is not of its grammar."""
        ...


@dataclass(frozen=True, slots=True)
class Texts:
    """A text, or a number that needs no look; ``validator`` is that of the place."""

    validator: TypeAdapter[Any]
    known: set[str] = field(default_factory=set[str])

    def refused(self, objects: Objects, name: str) -> set[int]:
        """See `Look`."""
        return self.refused_of(objects.stated(name), objects.rows)

    def refused_of(self, values: Sequence[Any], rows: Sequence[int]) -> set[int]:
        """The rows of the values that are no texts of the grammar."""
        bad = {text for text in self.unknown(values) if not self._is_good(text)}
        return {row for value, row in zip(values, rows, strict=True) if value in bad} if bad else set()

    def unknown(self, values: Sequence[Any]) -> set[str]:
        """The texts among the values that were not seen before."""
        return {value for value in values if type(value) is str} - self.known

    def _is_good(self, text: str) -> bool:
        try:
            self.validator.validate_python(text)
        except ValidationError:
            return False
        if len(self.known) >= MAX_REMEMBERED:
            self.known.clear()
        self.known.add(text)
        return True


@dataclass(frozen=True, slots=True)
class ListOfTexts:
    """A list of such texts and numbers."""

    texts: Texts

    def refused(self, objects: Objects, name: str) -> set[int]:
        """See `Look`."""
        lists: Sequence[Sequence[Any]] = objects.stated(name, ())
        values = list(chain.from_iterable(lists))
        if not self.texts.unknown(values):
            return set()
        return self.texts.refused_of(values, rows_of_entries(objects.rows, lists))


@dataclass(frozen=True, slots=True)
class Fields:
    """An object, by the names under which something is looked at."""

    looks: dict[str, Look]

    def refused(self, objects: Objects, name: str) -> set[int]:
        """See `Look`."""
        return self.refused_of(objects.child(name))

    def refused_of(self, objects: Objects) -> set[int]:
        """The rows of the objects in which a text is not of its grammar."""
        rows: set[int] = set()
        for name in objects.names:
            look = self.looks.get(name)
            if look is not None:
                rows |= look.refused(objects, name)
        return rows


@dataclass(frozen=True, slots=True)
class Forms:
    """An object of one of several forms, told apart by the word under ``by``."""

    by: str
    forms: Mapping[str, Fields]

    def refused(self, objects: Objects, name: str) -> set[int]:
        """See `Look`."""
        return self.refused_of(objects.child(name))

    def refused_of(self, objects: Objects) -> set[int]:
        """See `Fields.refused_of`."""
        words = objects.stated(self.by)
        rows: set[int] = set()
        for word, form in self.forms.items():
            rows |= form.refused_of(objects.taken([place for place, own in enumerate(words) if own == word]))
        return rows


ObjectLook = Fields | Forms


@dataclass(frozen=True, slots=True)
class ListOfObjects:
    """A list of objects."""

    entry: ObjectLook

    def refused(self, objects: Objects, name: str) -> set[int]:
        """See `Look`."""
        return self.entry.refused_of(objects.entries(name))


@dataclass(frozen=True, slots=True)
class ListOrObject:
    """A list, or an object in its place."""

    listed: Look
    single: Look

    def refused(self, objects: Objects, name: str) -> set[int]:
        """See `Look`."""
        lists: list[int] = []
        others: list[int] = []
        for place, value in enumerate(objects.stated(name)):
            (lists if isinstance(value, list) else others).append(place)
        return self.listed.refused(objects.taken(lists), name) | self.single.refused(objects.taken(others), name)
