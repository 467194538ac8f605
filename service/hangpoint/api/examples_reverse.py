"""Requests shown in the documentation of reverse questions and what goes with them, of an invented building."""

from typing import Any

from hangpoint.api.examples import SINGLE_JSON

_ITEM: dict[str, Any] = SINGLE_JSON["item"]

REVERSE_CHECK_JSON: dict[str, Any] = {
    "units": "us",
    "item": _ITEM,
    "question": {"kind": "largest_hanger_spacing"},
}

REMEDIES_JSON: dict[str, Any] = {
    "units": "us",
    "item": {
        **_ITEM,
        "id": "L2-FAN-03",
        "hangs": {"kind": "weight", "weight": "1250 lb", "nature": "dead"},
        "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "2 in"},
        "base": {
            **_ITEM["base"],
            "edges": {"x_minus": "none", "x_plus": "3 in", "y_minus": "none", "y_plus": "none"},
        },
    },
    "reserve": 0.1,
}

RELOCATION_JSON: dict[str, Any] = {
    "units": "us",
    "item": _ITEM,
    "old_hole": {"depth": "2-1/2 in", "filled": False},
    "move": {"dx": "3 in", "dy": 0},
}

SENSITIVITIES_JSON: dict[str, Any] = {
    "units": "us",
    "item": _ITEM,
    "changes": [
        {"name": "hangers at 8 ft", "patch": {"hangs": {"run": {"spans": ["8 ft", "8 ft", "8 ft"]}}}},
        {"name": "schedule 10", "patch": {"hangs": {"schedule": "10"}}},
        {"name": "f'c 3000 psi", "patch": {"base": {"strength": {"f_c": "3000 psi"}}}},
    ],
}
