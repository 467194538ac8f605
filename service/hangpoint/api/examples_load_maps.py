"""Requests of load maps shown in the documentation, of an invented building."""

from typing import Any

_WALL = {"kind": "forces", "components": [{"nature": "dead", "tension": "60 lb", "shear_y": "-240 lb"}]}

LOAD_MAPS_JSON: dict[str, Any] = {
    "units": "us",
    "project": {"name": "Invented clinic", "number": "IC-1", "date": "2026-03-02"},
    "defaults": {
        "at": {"level": "L2"},
        "hangs": {
            "kind": "pipe",
            "material": "steel",
            "size": "4",
            "schedule": "10",
            "contents": "water",
            "sprinkler": True,
            "run": {"spans": ["12 ft", "12 ft"], "support": 1},
        },
        "rod": {"size": "1/2"},
        "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
        "base": {
            "kind": "concrete",
            "strength": {"f_c": "4000 psi"},
            "density": "normalweight",
            "thickness": "8 in",
            "member": "slab over level 2",
            "face": "soffit",
            "edges": {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "none"},
        },
        "seismic": {"category": "B"},
    },
    "items": [
        {"id": "IC-L2-FP-01", "at": {"x": "10 ft", "y": "6 ft"}},
        {"id": "IC-L2-FP-02", "at": {"x": "22 ft", "y": "6 ft"}},
        {
            "id": "IC-L2-FCU-03",
            "at": {"x": "16 ft", "y": "14 ft"},
            "hangs": {"kind": "weight", "weight": "420 lb", "nature": "dead"},
        },
        {"id": "IC-L2-EMT-04", "hangs": {"kind": "weight", "weight": "85 lb", "nature": "dead"}},
        {
            "id": "IC-L2-BRACKET-05",
            "at": {"x": "2 ft", "y": "10 ft"},
            "hangs": _WALL,
            "base": {"face": "side", "member": "wall on axis A"},
        },
    ],
}

LOAD_MAPS_CSV = """\
id,level,x [ft],y [ft],hangs.kind,hangs.weight [lb],hangs.nature,anchor.family,anchor.size,anchor.h_ef [in],\
base.kind,base.density,base.thickness [in],base.edges.x_minus,base.edges.x_plus,base.edges.y_minus,base.edges.y_plus,\
seismic.category
IC-L2-01,L2,10,6,weight,180,dead,wedge-expansion-zinc,3/8,2.5,concrete,normalweight,6,none,none,none,none,B
IC-L2-02,L2,22,6,weight,260,dead,wedge-expansion-zinc,3/8,2.5,concrete,normalweight,6,none,none,none,8 in,B
"""
