"""Digest of a request: the same question to the same engine and catalogue has the same digest."""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np
import orjson

from hangpoint.pack.points import Packed

_BITS = 40
"""Bits kept of a number: 12 significant decimal digits."""


def request_digest(packed: Packed, texts: Sequence[Any], head: Iterable[str]) -> str:
    """SHA-256 of the request after defaults, in hexadecimal digits.

    Numbers enter in core units with 12 significant digits, in the order of their names; so a length in inches and the
    same in millimetres are one request.

    Args:
        packed: the valid points as columns.
        texts: what has no column: ids, places, tags, and invalid items as they came.
        head: engine version, design code, catalogue hash, unit system, detail.
    """
    digest = hashlib.sha256(orjson.dumps(list(head)))
    digest.update(orjson.dumps(texts, option=orjson.OPT_SORT_KEYS, default=_plain))
    for name, column in sorted(_columns(packed.points, "")):
        digest.update(name.encode())
        digest.update(_canonical(column))
    return digest.hexdigest()


def _columns(table: Any, path: str) -> Iterable[tuple[str, Any]]:
    for field in fields(table):
        value = getattr(table, field.name)
        name = f"{path}{field.name}"
        if is_dataclass(value):
            yield from _columns(value, f"{name}.")
        else:
            yield name, np.asarray(value)


def _canonical(column: Any) -> bytes:
    if column.dtype != np.float64:
        return column.tobytes()
    mantissa, exponent = np.frexp(np.where(np.isfinite(column), column, -1.0))
    return np.round(mantissa * 2.0**_BITS).tobytes() + exponent.tobytes()


def _plain(value: Any) -> Any:
    return value.model_dump(mode="json")
