"""Digest of a request: the same question to the same engine and catalogue has the same digest."""

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np
import orjson

from hangpoint.core.quantity import Floats
from hangpoint.pack.points import Packed

_BITS = 40
"""Bits kept of a significand: 12 significant decimal digits."""
_SIGNIFICAND = 52


def request_digest(packed: Packed, texts: Sequence[Any], head: Iterable[str]) -> str:
    """SHA-256 of the request after defaults, in hexadecimal digits.

    Numbers enter in core units with 12 significant digits, in the order of their columns; so a length in inches and
    the same in millimetres are one number.

    Args:
        packed: the valid points as columns.
        texts: what has no column: ids, places, tags, and invalid items as they came.
        head: engine version, design code, combinations, catalogue hash, unit system, detail.
    """
    columns = [np.asarray(column) for column in _columns(packed.points)]
    numbers = [column.ravel() for column in columns if column.dtype == np.float64]
    digest = hashlib.sha256(orjson.dumps(list(head)))
    digest.update(_text_bytes(texts))
    digest.update(_canonical(np.concatenate(numbers)))
    for column in columns:
        digest.update(str(column.shape).encode())
        if column.dtype != np.float64:
            digest.update(column.tobytes())
    return digest.hexdigest()


def _text_bytes(texts: Sequence[Any]) -> bytes:
    try:
        return orjson.dumps(texts, option=orjson.OPT_SORT_KEYS, default=_plain)
    except TypeError:
        # An item that is not valid may hold an integer beyond 64 bits.
        return json.dumps(texts, sort_keys=True, default=_plain).encode()


def _columns(table: Any) -> Iterable[Any]:
    for field in fields(table):
        value = getattr(table, field.name)
        if is_dataclass(value):
            yield from _columns(value)
        else:
            yield value


def _canonical(numbers: Floats) -> bytes:
    """The numbers with their significand rounded to `_BITS` bits; a carry goes into the exponent, as it should."""
    dropped = _SIGNIFICAND - _BITS
    bits = numbers.view(np.int64)
    return ((bits + (1 << (dropped - 1))) >> dropped).tobytes()


def _plain(value: Any) -> Any:
    return value.model_dump(mode="json")
