"""Requests shown in the documentation of reverse questions and what goes with them, of an invented building."""

from typing import Any

from hangpoint.api.examples import SINGLE_JSON

_ITEM: dict[str, Any] = SINGLE_JSON["item"]

REVERSE_CHECK_JSON: dict[str, Any] = {
    "units": "us",
    "item": _ITEM,
    "question": {"kind": "largest_hanger_spacing"},
}
