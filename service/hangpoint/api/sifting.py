"""A first look at a body of items: those that surely are as their schema wants them need not see the validator.

The look is several times faster than the validator, accepts nothing that the validator would not, and names no error:
what it does not accept goes to the validator as it came.

A decoder that knows the plain types reads and judges at once. Mostly all objects of a kind state the same names, since
one program wrote them; then the decoded ones are turned into columns as they are. Outside of texts JSON has one colon
for each name: in a body with as many colons as the objects seem to have names, all of them are like the first. Any
other body is made plain first. The items of a body that the decoder does not take are read one by one.
"""

from collections.abc import Container, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, cast, get_args, get_origin, get_type_hints

import msgspec
import numpy as np
import orjson

from hangpoint.api.looks import ObjectLook, Seen
from hangpoint.api.plain_types import Plain, UnknownTypeError, plain_fields, plain_object, plain_type
from hangpoint.pack.decoded import Decoded, PlainObjects, decoded_type, plain
from hangpoint.pack.objects import Guess, NotAlikeError, Objects

_MOST_LEFT = 0.5
"""Share of items left to the validator above which it may as well have the whole body."""

_UNREADABLE = (msgspec.DecodeError, UnicodeDecodeError, RecursionError)
"""What the decoder raises of bytes that it does not take."""


class _RawItems(msgspec.Struct):
    items: list[msgspec.Raw]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sifted:
    """A body of which all but its items is good.

    ``content`` is the body as plain JSON, ``left`` the rows that only the validator can judge. ``columns`` are the
    other items, in blocks.
    """

    content: dict[str, Any]
    left: Sequence[int]
    columns: Sequence[Objects]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """A body as the decoders read it: of the items that they do not take, ``bad``, as they came."""

    head: dict[str, Any]
    items: list[Decoded | None]
    bad: dict[int, bytes]


class Sieve:
    """The first look at requests of one kind."""

    def __init__(self, request: Any) -> None:
        """Make the plain types of a typed dictionary with ``items``.

        Raises:
            UnknownTypeError: only the validator can judge it.
        """
        items = get_type_hints(request, include_extras=True)["items"]
        self._head = plain_object(request, without="items")
        self._item = plain_type(_entry(items))
        kinds = {name: plain.kind for name, plain in plain_fields(request).items()}
        raw = Annotated[list[msgspec.Raw], *get_args(plain_type(items).kind)[1:]]
        self._whole: msgspec.json.Decoder[Any] = msgspec.json.Decoder(
            decoded_type("Whole", kinds, request.__required_keys__)
        )
        self._apart: msgspec.json.Decoder[Any] = msgspec.json.Decoder(
            decoded_type("Apart", kinds | {"items": raw}, request.__required_keys__)
        )
        self._one: msgspec.json.Decoder[Decoded] = msgspec.json.Decoder(self._item.kind)

    def sift(self, body: bytes, *, block: int) -> Sifted | None:
        """Look at a body, in blocks of so many items; None if the validator has to see all of it."""
        try:
            read = self._read(body)
            bad = {row: orjson.loads(text) for row, text in read.bad.items()}
        except (*_UNREADABLE, orjson.JSONDecodeError):
            return None
        around = Seen()
        _see(Objects([read.head]), self._head, around)
        if around.refused or len(bad) > _MOST_LEFT * len(read.items):
            return None
        names = _colons(body) - sum(map(_colons, read.bad.values())) - around.names - 1
        items: Sequence[Any] = PlainObjects(read.items, bad)
        looked = self._look_at_alike(read, block, names)
        if looked is None:
            items = list(items)
            looked = self._look(items, read.bad, block, None)
        seen, columns = looked
        left = bad.keys() | seen.refused
        if len(left) > _MOST_LEFT * len(items):
            return None
        return Sifted(content=read.head | {"items": items}, left=sorted(left), columns=columns)

    def _look_at_alike(self, read: _Read, block: int, names: int) -> tuple[Seen, Sequence[Objects]] | None:
        """Look at items that all state the names of the first, so many of them; None where one of them does not."""
        guess = Guess()
        try:
            seen, columns = self._look(read.items, read.bad, block, guess)
        except NotAlikeError:
            return None
        finally:
            guess.lasts = False
        return (seen, columns) if seen.names == names else None

    def _read(self, body: bytes) -> _Read:
        try:
            content, bad = dict(self._whole.decode(body)), dict[int, bytes]()
        except msgspec.ValidationError:
            content = dict(self._apart.decode(body))
            content["items"], bad = self._each(content["items"])
        head = {name: plain(value) for name, value in content.items() if name != "items"}
        return _Read(head=head, items=content["items"], bad=bad)

    def _each(self, raw: Sequence[msgspec.Raw]) -> tuple[list[Decoded | None], dict[int, bytes]]:
        """The items one by one, and those that are not of their type as they came."""
        items: list[Decoded | None] = []
        bad: dict[int, bytes] = {}
        for row, text in enumerate(raw):
            try:
                items.append(self._one.decode(text))
            except msgspec.ValidationError:
                items.append(None)
                bad[row] = bytes(text)
        return items, bad

    def _look(
        self, items: Sequence[Any], bad: Container[int], block: int, guess: Guess | None
    ) -> tuple[Seen, Sequence[Objects]]:
        """Look at the items but the bad ones, in blocks: the columns of those that are good.

        Raises:
            NotAlikeError: the guess is wrong.
        """
        seen, columns = Seen(), list[Objects]()
        for start in range(0, len(items), block):
            own, rows = items[start : start + block], range(start, len(items))[:block]
            if bad:
                good = [row for row in rows if row not in bad]
                own, rows = [own[row - start] for row in good], good
            objects = Objects(own, rows, guess=guess)
            _see(objects, self._item, seen)
            if seen.refused:
                objects = objects.taken([at for at, row in enumerate(rows) if row not in seen.refused])
            columns.append(objects)
        return seen, [objects for objects in columns if len(objects)]


@cache
def sieve_of(request: Any) -> Sieve | None:
    """The first look at requests of a typed dictionary; None if the validator has to see all of them."""
    try:
        return Sieve(request)
    except UnknownTypeError:
        return None


def part_of(body: bytes, sifted: Sifted) -> bytes | None:
    """A body with those of its items only, as they came, that the first look has left; None if it nests too deep."""
    try:
        raw = msgspec.json.decode(body, type=_RawItems).items
    except _UNREADABLE:
        return None
    items = [orjson.Fragment(bytes(raw[row])) for row in sifted.left]
    return orjson.dumps({**sifted.content, "items": items})


def _colons(text: bytes) -> int:
    return int(np.count_nonzero(np.frombuffer(text, dtype=np.uint8) == ord(":")))  # bytes.count takes six times as long


def _see(objects: Objects, plain: Plain, seen: Seen) -> None:
    cast(ObjectLook, plain.look).see_all(objects, seen)


def _entry(items: Any) -> Any:
    """The type of an entry of a list."""
    while get_origin(items) is Annotated:
        items = get_args(items)[0]
    return get_args(items)[0]
