"""Requests of requests for information shown in the documentation, of an invented building."""

from typing import Any

from hangpoint.api.examples_load_maps import LOAD_MAPS_CSV

_EDGES = {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "none"}
_WEIGHT = {"kind": "weight", "nature": "dead"}

RFIS_JSON: dict[str, Any] = {
    "units": "us",
    "project": {"name": "Invented clinic", "number": "IC-1", "date": "2026-03-02"},
    "defaults": {
        "at": {"level": "L1"},
        "rod": {"size": "1/2"},
        "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "2 in"},
        "base": {
            "kind": "concrete",
            "density": "normalweight",
            "thickness": "8 in",
            "member": "slab over level 1",
            "face": "soffit",
            "edges": _EDGES,
        },
        "seismic": {"category": "B"},
    },
    "items": [
        {"id": "IC-L1-CHS-01", "at": {"x": "8 ft", "y": "6 ft"}, "hangs": {**_WEIGHT, "weight": "1200 lb"}},
        {"id": "IC-L1-CHS-02", "at": {"x": "18 ft", "y": "6 ft"}, "hangs": {**_WEIGHT, "weight": "600 lb"}},
        {
            "id": "IC-L1-AHU-03",
            "at": {"x": "30 ft", "y": "14 ft"},
            "hangs": {**_WEIGHT, "weight": "1300 lb"},
            "base": {"state": "uncracked", "state_decided_by": "invented note S-2"},
        },
        {
            "id": "IC-L1-OLD-04",
            "at": {"x": "41 ft", "y": "6 ft"},
            "hangs": {**_WEIGHT, "weight": "1250 lb"},
            "base": {"member": "existing slab of the annexe", "existing": True},
        },
        {
            "id": "IC-L1-PT-05",
            "at": {"x": "52 ft", "y": "6 ft"},
            "hangs": {**_WEIGHT, "weight": "300 lb"},
            "base": {"member": "slab of the bridge", "post_tensioned": "unknown"},
        },
    ],
}

RFIS_CSV = LOAD_MAPS_CSV
