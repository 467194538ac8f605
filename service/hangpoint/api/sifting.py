"""A first look at a body of items: those that surely are as their schema wants them need not see the validator.

The look is several times faster than the validator, accepts nothing that the validator would not, and names no error:
what it does not accept goes to the validator as it came.

A decoder that knows the plain types reads and judges at once, but leaves out names that it does not know. Outside of
texts JSON has one colon for each name: a body with as many colons as the objects read of it have names has lost none.
Any other body is read whole, and its items are judged one by one.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, cast, get_args, get_origin, get_type_hints

import msgspec
import orjson

from hangpoint.api.looks import ObjectLook, Seen, fits
from hangpoint.api.plain_types import Plain, UnknownTypeError, plain_object, plain_type
from hangpoint.pack.objects import Objects

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
    items of blocks of rows; of those that have a row left there are none.
    """

    content: dict[str, Any]
    left: Sequence[int]
    columns: Mapping[range, Objects]


class Sieve:
    """The first look at requests of one kind."""

    def __init__(self, request: Any) -> None:
        """Make the plain types of a typed dictionary with ``items``.

        Raises:
            UnknownTypeError: only the validator can judge it.
        """
        items = get_type_hints(request, include_extras=True)["items"]
        self._head = plain_object(request, without="items")
        self._list: Any = Annotated[list[Any], *get_args(plain_type(items).kind)[1:]]
        self._item = plain_type(_entry(items))
        self._decoder: msgspec.json.Decoder[Any] = msgspec.json.Decoder(plain_object(request).kind)

    def sift(self, body: bytes, *, block: int) -> Sifted | None:
        """Look at a body, in blocks of so many items; None if the validator has to see all of it."""
        return self._at_once(body, block) or self._one_by_one(body, block)

    def _at_once(self, body: bytes, block: int) -> Sifted | None:
        """None too where a name was left out."""
        try:
            content = self._decoder.decode(body)
        except _UNREADABLE:
            return None
        seen, head = Seen(), Seen()
        columns = _columns(content["items"], set(), block, self._item, seen)
        _see(Objects([_without_items(content)]), self._head, head)
        if head.refused or seen.names + head.names + 1 != body.count(b":"):
            return None
        return Sifted(content=content, left=sorted(seen.refused), columns=columns)

    def _one_by_one(self, body: bytes, block: int) -> Sifted | None:
        """None too where the validator would have most of the items."""
        try:
            content: Any = orjson.loads(body)
        except orjson.JSONDecodeError:
            return None
        if not isinstance(content, dict):
            return None
        known, seen = cast(dict[str, Any], content), Seen()
        if not self._is_good(_without_items(known)) or not fits(known.get("items"), self._list):
            return None
        items: list[Any] = known["items"]
        left = {row for row, item in enumerate(items) if not fits(item, self._item.kind)}
        columns = _columns(items, left, block, self._item, seen)
        left |= seen.refused
        if len(left) > _MOST_LEFT * len(items):
            return None
        return Sifted(content=known, left=sorted(left), columns=columns)

    def _is_good(self, head: dict[str, Any]) -> bool:
        """Whether what is around the items is of its type, with its names and texts."""
        seen = Seen()
        if fits(head, self._head.kind):
            _see(Objects([head]), self._head, seen)
            return not seen.refused
        return False


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


def _columns(items: list[Any], left: set[int], block: int, plain: Plain, seen: Seen) -> dict[range, Objects]:
    """Look at the items that are not left, in blocks: the columns of those without a row left."""
    columns: dict[range, Objects] = {}
    for start in range(0, len(items), block):
        rows = range(start, min(start + block, len(items)))
        good = [row for row in rows if row not in left] if left else rows
        objects, refused = Objects([items[row] for row in good], good), len(seen.refused)
        _see(objects, plain, seen)
        if len(good) == len(rows) and len(seen.refused) == refused:
            columns[rows] = objects
    return columns


def _see(objects: Objects, plain: Plain, seen: Seen) -> None:
    cast(ObjectLook, plain.look).see_all(objects, seen)


def _without_items(content: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in content.items() if name != "items"}


def _entry(items: Any) -> Any:
    """The type of an entry of a list."""
    while get_origin(items) is Annotated:
        items = get_args(items)[0]
    return get_args(items)[0]
