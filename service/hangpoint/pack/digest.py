"""Digest of a request: the same question to the same engine and catalogue has the same digest."""

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import numpy as np
import orjson
from numpy.typing import NDArray

from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Floats
from hangpoint.pack.points import Packed

_BITS = 40
"""Bits kept of a significand: 12 significant decimal digits."""
_SIGNIFICAND = 52
_NOTHING: Mapping[str, Any] = {}


class RequestDigest:
    """SHA-256 of a request after defaults, made block by block.

    Numbers enter in core units with 12 significant digits, in the order of their columns; so a length in inches and
    the same in millimetres are one number.
    """

    def __init__(self, head: Iterable[str], defaults: Any) -> None:
        """``head``: engine version, design code, combinations, catalogue hash, unit system, detail."""
        self._digest = hashlib.sha256(orjson.dumps(list(head)))
        self._digest.update(_json(defaults))

    def add(self, packed: Packed, texts: Sequence[Any], unread: Sequence[Any]) -> None:
        """Take in the next items.

        Args:
            packed: the valid points as columns.
            texts: what of them has no column: ids, addresses of products, `words`.
            unread: invalid items as they came; they may hold anything that JSON can hold.
        """
        columns = list(_columns(packed.points))
        numbers = [column.ravel() for column in columns if column.dtype == np.float64]
        self._digest.update(_json(texts))
        if unread:
            self._digest.update(json.dumps(unread, sort_keys=True, default=_plain).encode())
        self._digest.update(_canonical(np.concatenate(numbers)))
        self._digest.update(b"".join(column.tobytes() for column in columns if column.dtype != np.float64))

    def hexdigest(self) -> str:
        """The digest in hexadecimal digits."""
        return self._digest.hexdigest()


def words(items: Sequence[Mapping[str, Any]]) -> list[list[Any]]:
    """What of valid items stands in no column of numbers and codes, place by place."""
    hangs = [item.get("hangs", _NOTHING) for item in items]
    return [
        *([item.get(name) for item in items] for name in ("at", "trade", "tags")),
        *([item.get("base", _NOTHING).get(name) for item in items] for name in ("member", "state_decided_by")),
        [each.get("run", _NOTHING).get("spacing_rule") for each in hangs],
        [item.get("anchor", _NOTHING).get("product") for item in items],
    ]


def _columns(points: Points) -> Iterator[NDArray[Any]]:
    """The columns of every table but the products, which their addresses and the catalogue stand for."""
    for table in (points.hangs, points.runs, points.loads, points.rods, points.bases):
        for name in table.names():
            yield getattr(table, name)
    yield points.anchor_count
    yield points.on_axis


def _canonical(numbers: Floats) -> bytes:
    """The numbers with their significand rounded to `_BITS` bits; a carry goes into the exponent, as it should."""
    dropped = _SIGNIFICAND - _BITS
    bits = numbers.view(np.int64)
    return ((bits + (1 << (dropped - 1))) >> dropped).tobytes()


def _json(value: Any) -> bytes:
    return orjson.dumps(value, option=orjson.OPT_SORT_KEYS, default=_plain)


def _plain(value: Any) -> Any:
    return value.model_dump(mode="json")
