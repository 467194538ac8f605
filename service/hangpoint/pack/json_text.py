"""JSON of many rows from columns: a template with a hole for each column, filled row by row.

An object a row costs as much to make and to write as checking the row; a text a row costs a quarter of it.
"""

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from functools import cache
from itertools import repeat
from typing import Any, NamedTuple, Self, TypeVar

import numpy as np
import orjson
from numpy.typing import NDArray

from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.printed import finite

ABSENT = b""
"""Text of an optional member that a row does not have."""

_HOLE = b"\0"
"""Stands in a template for a column: JSON has it in no string and nowhere else."""

Key = TypeVar("Key", bound=Hashable)


class RowText(NamedTuple):
    """JSON of one value a row: ``template`` is JSON with a hole for each of ``columns``, a text a row each."""

    template: bytes
    columns: tuple[Sequence[bytes], ...] = ()

    @classmethod
    def constant(cls, value: Any) -> Self:
        """The same value in every row."""
        return cls(orjson.dumps(value))

    @classmethod
    def texts(cls, texts: Sequence[bytes]) -> Self:
        """JSON texts, one a row."""
        return cls(_HOLE, (texts,))

    @classmethod
    def values(cls, values: Sequence[Any]) -> Self:
        """Values that JSON can hold, one a row; equal ones are written once, so they are texts, numbers or None."""
        return cls.by_key(values, orjson.dumps)

    @classmethod
    def by_key(cls, keys: Sequence[Key], text: Callable[[Key], bytes]) -> Self:
        """The JSON text of a key a row, made once for each key that there is."""
        known = {key: text(key) for key in set(keys)}
        if len(known) == 1:
            return cls(known[keys[0]])
        return cls.texts([known[key] for key in keys])

    @classmethod
    def strings(cls, values: Sequence[str]) -> Self:
        """Strings, one a row. A quote within one is escaped, so quote, comma, quote stand only between two."""
        return cls(b'"%b"' % _HOLE, (orjson.dumps(values)[2:-2].split(b'","') if values else (),))

    @classmethod
    def integers(cls, values: Sequence[int]) -> Self:
        """Integers, one a row."""
        return cls.texts(orjson.dumps(list(values))[1:-1].split(b",") if values else ())

    @classmethod
    def numbers(cls, column: Floats) -> Self:
        """Numbers, one a row.

        Raises:
            NonFiniteError: a number is not finite.
        """
        (text,) = cls.number_columns(column[None])
        return text

    @classmethod
    def number_columns(cls, table: Floats) -> list[Self]:
        """Several columns of numbers, those of each row of the table (columns, rows).

        A column that is the same in every row is written once: many loads are 0 at every point.

        Raises:
            NonFiniteError: a number is not finite.
        """
        count = table.shape[1]
        if not count:
            return [cls.texts(()) for _ in table]
        if count == 1:
            return [cls(text) for text in _number_texts(table[:, 0])]
        bits = np.ascontiguousarray(table).view(np.int64)  # -0.0 is another text than 0.0
        varies = (bits != bits[:, :1]).any(axis=1)
        once, each = iter(_number_texts(table[~varies, 0])), _number_texts(table[varies].ravel())
        columns = (each[start : start + count] for start in range(0, len(each), count))
        return [cls.texts(next(columns)) if own else cls(next(once)) for own in varies.tolist()]

    @classmethod
    def choice(cls, options: Sequence[Any], index: NDArray[Any]) -> Self:
        """One of the options a row, by index. A tuple of options is written once and remembered."""
        known = _option_texts(options) if isinstance(options, tuple) else [orjson.dumps(option) for option in options]
        return cls.fragment(known, index)

    @classmethod
    def fragment(cls, texts: Sequence[bytes], index: NDArray[Any]) -> Self:
        """One of the JSON texts a row, by index; of an optional member the last, for -1, may be `ABSENT`."""
        places: list[int] = index.tolist()
        if places and places.count(places[0]) == len(places):
            return cls(texts[places[0]])
        return cls.texts([texts[at] for at in places])

    @classmethod
    def fragments(cls, texts: Sequence[Sequence[bytes]], table: NDArray[Any]) -> list[Self]:
        """Several columns of `fragment`: the indices of each row of the table (columns, rows) into texts of its own."""
        if not table.size:
            return [cls.texts(()) for _ in table]
        first: list[int] = table[:, 0].tolist()
        if table.shape[1] == 1:
            return [cls(own[at]) for own, at in zip(texts, first, strict=True)]
        varies: list[bool] = (table != table[:, :1]).any(axis=1).tolist()
        return [
            cls.fragment(own, index) if each else cls(own[at])
            for own, index, each, at in zip(texts, table, varies, first, strict=True)
        ]

    @classmethod
    def array(cls, entries: Sequence["RowText"]) -> Self:
        """An array of the same length in every row."""
        columns = tuple([column for entry in entries for column in entry.columns])
        return cls(b"[%b]" % b",".join([entry.template for entry in entries]), columns)

    @classmethod
    def object(
        cls, members: Mapping[str, "RowText"], optional: Mapping[str, "RowText | Sequence[bytes]"] | None = None
    ) -> Self:
        """An object a row: the members that every row has, then those that only some rows have (else `ABSENT`)."""
        template = b",".join([_name(name) + own.template for name, own in members.items()])
        columns = [column for member in members.values() for column in member.columns]
        for name, member in (optional or {}).items():
            own = member if isinstance(member, RowText) else cls.texts(member)
            if own.template == ABSENT or (own.template == _HOLE and not any(own.columns[0])):
                continue
            head = b"," + _name(name)
            if own.template == _HOLE and not all(own.columns[0]):
                template += _HOLE
                columns.append([head + text if text else ABSENT for text in own.columns[0]])
            else:
                template += head + own.template
                columns += own.columns
        return cls(b"{%b}" % template, tuple(columns))

    @classmethod
    def where(cls, holds: Bools, text: "RowText", other: "RowText") -> Self:
        """``text`` in the rows where ``holds``, ``other`` elsewhere; both have a text for every row."""
        held = np.count_nonzero(holds)
        if held == len(holds):
            return cls(text.template, text.columns)
        if not held:
            return cls(other.template, other.columns)
        own, others = iter(text.some_rows(holds)), iter(other.some_rows(~holds))
        return cls.texts([next(own) if each else next(others) for each in holds.tolist()])

    def only(self, holds: Bools) -> "RowText":
        """An optional member that the rows have where ``holds``."""
        return self.where(holds, self, RowText(ABSENT))

    def some_rows(self, holds: Bools) -> Sequence[bytes]:
        """The texts of the rows where ``holds``."""
        held: list[bool] = holds.tolist()
        columns = [[text for text, own in zip(column, held, strict=True) if own] for column in self.columns]
        return RowText(self.template, tuple(columns)).rows(sum(held))

    def rows(self, count: int) -> list[bytes]:
        """The text of each of so many rows."""
        if not self.columns:
            return [self.template] * count
        first, *between = self.template.split(_HOLE)
        parts: list[Iterable[bytes]] = [repeat(first, count)] if first else []
        for column, text in zip(self.columns, between, strict=True):
            parts += [column, repeat(text, count)] if text else [column]
        return list(map(b"".join, zip(*parts, strict=True)))


@cache
def _name(name: str) -> bytes:
    return orjson.dumps(name) + b":"


@cache
def _option_texts(options: tuple[Any, ...]) -> list[bytes]:
    return [orjson.dumps(option) for option in options]


def _number_texts(numbers: Floats) -> list[bytes]:
    if not len(numbers):
        return []
    text = orjson.dumps(np.ascontiguousarray(finite(numbers)), option=orjson.OPT_SERIALIZE_NUMPY)
    return text[1:-1].split(b",")


def sparse(count: int, at: Sequence[int], values: Sequence[Any]) -> list[bytes]:
    """An optional member of so many rows: values in the rows ``at``, `ABSENT` elsewhere."""
    texts = [ABSENT] * count
    for row, value in zip(at, values, strict=True):
        texts[row] = orjson.dumps(value)
    return texts
