"""JSON of many rows from columns: a template with a hole for each column, filled row by row.

An object a row costs as much to make and to write as checking the row; a text a row costs a quarter of it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Self

import numpy as np
import orjson
from numpy.typing import NDArray

from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.printed import finite

ABSENT = b""
"""Text of an optional member that a row does not have."""


@dataclass(frozen=True, slots=True)
class RowText:
    """JSON of one value a row: ``template`` is JSON with a ``%b`` for each of ``columns``, a text a row each."""

    template: bytes
    columns: tuple[Sequence[bytes], ...] = ()

    @classmethod
    def constant(cls, value: Any) -> Self:
        """The same value in every row."""
        return cls(_escaped(orjson.dumps(value)))

    @classmethod
    def texts(cls, texts: Sequence[bytes]) -> Self:
        """JSON texts, one a row."""
        return cls(b"%b", (texts,))

    @classmethod
    def values(cls, values: Sequence[Any]) -> Self:
        """Values that JSON can hold, one a row; equal ones are written once, so they are texts, numbers or None."""
        known = {value: orjson.dumps(value) for value in set(values)}
        return cls.texts([known[value] for value in values])

    @classmethod
    def strings(cls, values: Sequence[str]) -> Self:
        """Strings, one a row. A quote within one is escaped, so quote, comma, quote stand only between two."""
        return cls(b'"%b"', (orjson.dumps(values)[2:-2].split(b'","') if values else (),))

    @classmethod
    def numbers(cls, column: Floats) -> Self:
        """Numbers, one a row.

        Raises:
            NonFiniteError: a number is not finite.
        """
        text = orjson.dumps(np.ascontiguousarray(finite(column)), option=orjson.OPT_SERIALIZE_NUMPY)
        texts = text[1:-1].split(b",")
        return cls.texts(texts if len(column) else texts[:0])

    @classmethod
    def choice(cls, options: Sequence[Any], index: NDArray[Any]) -> Self:
        """One of the options a row, by index. A tuple of options is written once and remembered."""
        known = _option_texts(options) if isinstance(options, tuple) else [orjson.dumps(option) for option in options]
        return cls.fragment(known, index)

    @classmethod
    def fragment(cls, texts: Sequence[bytes], index: NDArray[Any]) -> Self:
        """One of the JSON texts a row, by index."""
        places: list[int] = index.tolist()
        if len(set(places)) == 1:
            return cls(_escaped(texts[places[0]]))
        return cls.texts([texts[at] for at in places])

    @classmethod
    def array(cls, entries: Sequence["RowText"]) -> Self:
        """An array of the same length in every row."""
        columns = tuple(column for entry in entries for column in entry.columns)
        return cls(b"[%b]" % b",".join(entry.template for entry in entries), columns)

    @classmethod
    def object(cls, members: Mapping[str, "RowText"], optional: Mapping[str, Sequence[bytes]] | None = None) -> Self:
        """An object a row: the members that every row has, then those that only some rows have (else `ABSENT`)."""
        template = b",".join(b"%b:%b" % (_name(name), own.template) for name, own in members.items())
        columns = [column for member in members.values() for column in member.columns]
        for name, texts in (optional or {}).items():
            head = b",%b:" % orjson.dumps(name)
            template += b"%b"
            columns.append([head + text if text else ABSENT for text in texts])
        return cls(b"{%b}" % template, tuple(columns))

    @classmethod
    def where(cls, holds: Bools, text: "RowText", other: "RowText") -> Self:
        """``text`` in the rows where ``holds``, ``other`` elsewhere; both have a text for every row."""
        if holds.all():
            return cls(text.template, text.columns)
        if not holds.any():
            return cls(other.template, other.columns)
        both = zip(holds.tolist(), text.rows(len(holds)), other.rows(len(holds)), strict=True)
        return cls.texts([own if held else otherwise for held, own, otherwise in both])

    def rows(self, count: int) -> list[bytes]:
        """The text of each of so many rows."""
        if not self.columns:
            return [self.template.replace(b"%%", b"%")] * count
        return [self.template % row for row in zip(*self.columns, strict=True)]


def _escaped(text: bytes) -> bytes:
    return text.replace(b"%", b"%%")


@cache
def _name(name: str) -> bytes:
    return _escaped(orjson.dumps(name))


@cache
def _option_texts(options: tuple[Any, ...]) -> list[bytes]:
    return [orjson.dumps(option) for option in options]


def sparse(count: int, at: Sequence[int], values: Sequence[Any]) -> list[bytes]:
    """An optional member of so many rows: values in the rows ``at``, `ABSENT` elsewhere."""
    texts = [ABSENT] * count
    for row, value in zip(at, values, strict=True):
        texts[row] = orjson.dumps(value)
    return texts
