"""Digest of a request: the same question to the same engine and catalogue has the same digest.

What is hashed is the request after defaults: a value given in ``defaults`` or in each item, with its unit or as a bare
number, is one value.
"""

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from functools import lru_cache
from operator import attrgetter, itemgetter
from typing import Any, cast

import numpy as np
import orjson
from numpy.typing import NDArray

from hangpoint.core.hang_point.points import Points
from hangpoint.pack.points import Packed
from hangpoint.pack.pull import Object
from hangpoint.product.inline import InlineProduct

_BITS = 40
"""Bits kept of a significand: 12 significant decimal digits."""
_SIGNIFICAND = 52
_LONG = 32
"""Rows from which a column is looked at for whether they are all the same."""
_MOST_WHOLE = 2**53
"""Up to which every whole number is one of double precision."""
_PRODUCT_BY_NAME = {"family", "size", "h_ef"}


class RequestDigest:
    """SHA-256 of a request after defaults, made block by block.

    Numbers enter in core units with 12 significant digits, in the order of their columns; so a length in inches and
    the same in millimetres are one number.
    """

    def __init__(self, head: Iterable[str]) -> None:
        """``head``: engine version, design code, combinations, catalogue hash, unit system, detail."""
        self._digest = hashlib.sha256(orjson.dumps(list(head)))

    def add(self, packed: Packed, unread: Sequence[Any], *, default: Object) -> None:
        """Take in the next items.

        Args:
            packed: the valid points as columns.
            unread: invalid items as they came; they may hold anything that JSON can hold.
            default: the defaults behind all of them.
        """
        labels = packed.labels
        self._digest.update(_json(_texts(packed)))
        if unread:
            whole = [list(packed.index), [merged(item, default) for item in unread]]
            self._digest.update(json.dumps(_alike(whole), sort_keys=True, default=_plain).encode())
        places = [labels.x, labels.y, labels.z, *([labels.facing] if np.isfinite(labels.facing).any() else [])]
        self._digest.update(_canonical([*_columns(packed.points), *places]))

    def hexdigest(self) -> str:
        """The digest in hexadecimal digits."""
        return self._digest.hexdigest()


def columns_digest(
    head: Iterable[str], texts: Any, tables: Any, unread: Sequence[Any], default: Mapping[str, Any]
) -> str:
    """Digest of a request whose items are one dataclass of tables of columns.

    Args:
        head: as `RequestDigest` takes it.
        texts: what of the items stands in no column.
        tables: a dataclass of arrays and of dataclasses of arrays.
        unread: invalid items as they came.
        default: the defaults behind all of them.
    """
    digest = hashlib.sha256(orjson.dumps(list(head)))
    digest.update(_json(texts))
    digest.update(json.dumps(_alike([unread, default]), sort_keys=True, default=_plain).encode() if unread else b"")
    digest.update(_canonical([*_leaves(tables)]))
    return digest.hexdigest()


def _leaves(tables: Any) -> Iterator[NDArray[Any]]:
    for each in fields(tables):
        value = getattr(tables, each.name)
        if isinstance(value, np.ndarray):
            yield value
        elif is_dataclass(value):
            yield from _leaves(value)


def _texts(packed: Packed) -> list[Any]:
    """What of valid items stands in no column of the core."""
    labels = packed.labels
    return [
        labels.ids,
        labels.addresses,
        packed.points.given_names,
        labels.level,
        labels.trade,
        labels.tags,
        labels.member,
        labels.decided_by,
        [[at, _plain(InlineProduct.model_validate(product))] for at, product in packed.inline.items()],
        *([labels.alternative_of] if any(labels.alternative_of) else []),
    ]


def merged(item: Any, default: Object) -> Any:
    """An item with the defaults behind it; what is no object stays as it came.

    Objects merge key by key, layouts and those of another kind replace whole. An anchor by name takes no product of a
    default, and one with a product takes no name of it.
    """
    if not isinstance(item, Mapping):
        return item
    own: dict[str, Any] = {**default, **item}
    for name, behind in default.items():
        if name == "layout" or not isinstance(behind, Mapping) or not isinstance(own[name], Mapping):
            continue
        over: Object = own[name]
        under: dict[str, Any] = {**behind}
        if over.get("kind", under.get("kind")) != under.get("kind"):
            continue
        if not _PRODUCT_BY_NAME.isdisjoint(over):
            under.pop("product", None)
        elif "product" in over:
            under = {key: value for key, value in under.items() if key not in _PRODUCT_BY_NAME}
        own[name] = merged(over, under)
    return own


def _alike(value: Any) -> Any:
    """What JSON can hold with 8 and 8.0 as one number."""
    if isinstance(value, Mapping):
        return {name: _alike(own) for name, own in cast(Mapping[str, Any], value).items()}
    if isinstance(value, list):
        return [_alike(own) for own in cast(list[Any], value)]
    return float(value) if type(value) is int and abs(value) <= _MOST_WHOLE else value


_TABLES = attrgetter(
    *("hangs", "given", "runs", "loads", "rods", "bases", "fixings", "bonds", "decks", "surroundings", "environments"),
    *("layouts", "plates"),
)
"""Every table of the points but the products, which their addresses and the catalogue stand for."""

_dtype_of, _size_of = attrgetter("dtype.char"), attrgetter("size")


def _columns(points: Points) -> list[NDArray[Any]]:
    """The columns of `_TABLES`, and of allowable loads, loads one way at a time, EN 1992-4 and fires, if any."""
    others = (points.allowables, points.apart, points.fasteners, points.fires)
    tables = (*_TABLES(points), *(own for own in others if own is not None))
    return [column for table in tables for column in table.columns()]


def _canonical(columns: Sequence[NDArray[Any]]) -> bytes:
    """All columns by their type; a long one that is the same in every row enters once."""
    sizes = tuple(map(_size_of, columns))
    parts = [orjson.dumps(sizes)]
    for kind, size, own in _alike_columns(tuple(map(_dtype_of, columns)), sizes):
        values = _rounded(np.concatenate(own(columns), axis=None), kind)
        if size:
            table = values.reshape(-1, size)
            varies = (table != table[:, :1]).any(axis=1)
            parts += [varies.tobytes(), table[~varies, 0].tobytes()]
            values = table[varies]
        parts.append(values.tobytes())
    return b"".join(parts)


@lru_cache(maxsize=64)
def _alike_columns(kinds: Sequence[str], sizes: Sequence[int]) -> Sequence[tuple[str, int, Callable[[Any], Any]]]:
    """What takes the columns of one type out of all, with that type; of long ones those of one size, else 0."""
    places: dict[tuple[str, int], list[int]] = {}
    for at, (kind, size) in enumerate(zip(kinds, sizes, strict=True)):
        places.setdefault((kind, size if size >= _LONG else 0), []).append(at)
    return [(kind, size, _taker(own)) for (kind, size), own in places.items()]


def _taker(places: Sequence[int]) -> Callable[[Any], Any]:
    return itemgetter(*places) if len(places) > 1 else itemgetter(slice(places[0], places[0] + 1))


def _rounded(values: NDArray[Any], kind: str) -> NDArray[Any]:
    """Numbers with their significand rounded to `_BITS` bits; a carry goes into the exponent, as it should."""
    if kind != "d":
        return values
    dropped = _SIGNIFICAND - _BITS
    bits = (values + 0.0).view(np.int64)  # So that -0.0 is 0.0.
    bits += 1 << (dropped - 1)
    bits >>= dropped
    return bits


def _json(value: Any) -> bytes:
    return orjson.dumps(value, option=orjson.OPT_SORT_KEYS, default=_plain)


def _plain(value: Any) -> Any:
    return value.model_dump(mode="json")
