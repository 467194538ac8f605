"""Requests shown in the documentation, of an invented building; tests send each."""

import json
from typing import Any

_ITEM: dict[str, Any] = {
    "id": "L2-CW-014",
    "at": {"level": "L2", "x": "42'-6\"", "y": "18 ft"},
    "trade": "plumbing",
    "hangs": {
        "kind": "pipe",
        "material": "steel",
        "size": "4",
        "schedule": "40",
        "contents": "water",
        "sprinkler": False,
        "run": {"spans": ["10 ft", "10 ft", "8 ft"], "support": 1, "spacing_rule": "sp58_water"},
    },
    "rod": {"size": "1/2"},
    "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": "4000 psi"},
        "density": "normalweight",
        "state": "cracked",
        "thickness": "8 in",
        "edges": {"x_minus": "none", "x_plus": "12 in", "y_minus": "none", "y_plus": "none"},
    },
    "seismic": {"category": "B"},
}

SINGLE_JSON: dict[str, Any] = {"units": "us", "item": _ITEM}

GROUP_JSON: dict[str, Any] = {
    "units": "us",
    "combinations": "given_factored",
    "group": {
        "id": "L1-BRACKET-02",
        "loads": {
            "load_cases": [
                {
                    "name": "1.2D+1.6L",
                    "sustained_fraction": 0.6,
                    "earthquake_fraction": 0,
                    "components": [
                        {"nature": "dead", "tension": "900 lbf", "shear_y": "-1100 lbf", "moment_x": "7 kip*in"},
                        {"nature": "live", "tension": "600 lbf", "shear_y": "-700 lbf", "moment_x": "4 kip*in"},
                    ],
                }
            ]
        },
        "anchor": {
            "family": "headed-bolt",
            "size": "5/8",
            "h_ef": "6 in",
            "layout": {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": "6 in", "spacing_y": "8 in"},
        },
        "base": {
            "kind": "concrete",
            "strength": {"f_c": "4000 psi"},
            "density": "normalweight",
            "state": "cracked",
            "thickness": "18 in",
            "edges": {"x_minus": "none", "x_plus": "none", "y_minus": "24 in", "y_plus": "none"},
            "face": "side",
        },
        "attachment": {
            "plate": {"width_x": "9 in", "width_y": "11 in", "support": "concrete"},
            "thickness": "3/4 in",
        },
        "seismic": {"category": "B"},
    },
}

HANGER_LOADS_JSON: dict[str, Any] = {
    "units": "us",
    "load_standard": "asce7_16",
    "defaults": {"at": {"level": "L2"}, "rod": {"size": "1/2", "length": "3 ft"}},
    "items": [
        {
            "id": "L2-CHW-RACK-07",
            "kind": "trapeze",
            "trade": "mechanical",
            "run": {"spacing": "8 ft", "spacing_rules": ["sp58_water"]},
            "rods_at": [0, "4 ft"],
            "spare": 0.1,
            "tiers": [
                {
                    "bar": {"weight": "1.9 lb/ft", "start_overhang": "3 in", "end_overhang": "3 in"},
                    "lines": [
                        {
                            "at": "1 ft",
                            "line": {
                                "kind": "pipe",
                                "material": "steel",
                                "size": "4",
                                "schedule": "40",
                                "contents": "water",
                                "insulation": {"thickness": "1-1/2 in", "density": "4.5 lb/ft3"},
                            },
                        },
                        {
                            "at": "3 ft",
                            "line": {"kind": "conduit", "type": "emt", "size": "2", "fill": 0.4, "number": 3},
                        },
                    ],
                }
            ],
        },
        {
            "id": "L2-DUCT-03",
            "kind": "run",
            "line": {
                "kind": "duct",
                "shape": "rectangular",
                "width": "24 in",
                "height": "12 in",
                "gauge": 24,
                "gauge_table": "galvanised",
            },
            "run": {"spans": ["8 ft", "8 ft", "8 ft"], "end_overhang": "2 ft"},
        },
        {
            "id": "L2-FCU-11",
            "kind": "equipment",
            "weight": "1000 lb",
            "rods_at": [{"x": -24, "y": -18}, {"x": 24, "y": -18}, {"x": 24, "y": 18}, {"x": -24, "y": 18}],
            "centre_of_gravity": {"x": 6, "y": 3.6},
        },
    ],
}

BATCH_JSON: dict[str, Any] = {
    "units": "us",
    "detail": "modes",
    "defaults": {name: _ITEM[name] for name in ("hangs", "rod", "anchor", "base", "seismic")},
    "items": [
        {"id": "L2-CW-014"},
        {"id": "L2-CW-015", "base": {"edges": {"x_plus": "2 in"}}},
        {"id": "L2-FAN-03", "hangs": {"kind": "weight", "weight": "420 lb", "nature": "dead"}},
    ],
}

SELECTIONS_JSON: dict[str, Any] = {
    "units": "us",
    "most": 3,
    "want": {"objective": "cost_index", "reserve": 0.1, "exposure": "dry", "trained": False},
    "defaults": {name: _ITEM[name] for name in ("hangs", "rod", "base", "seismic")},
    "items": [
        {"id": "L2-CW-014"},
        {"id": "L2-CW-015", "base": {"edges": {"x_plus": "2 in"}}},
        {"id": "L2-FAN-03", "hangs": {"kind": "weight", "weight": "9000 lb", "nature": "dead"}},
    ],
}

JOB_SELECTIONS_JSON: dict[str, Any] = {
    "units": "us",
    "want": {"objective": "cost_index", "reserve": 0.1, "rod_thread": "any"},
    "limits": {"products": 2},
    "defaults": {name: _ITEM[name] for name in ("hangs", "rod", "base", "seismic")},
    "items": [
        {"id": "L2-CW-014"},
        {"id": "L2-CW-015", "base": {"edges": {"x_plus": "3 in"}}},
        {"id": "L2-FAN-03", "hangs": {"kind": "weight", "weight": "1100 lb", "nature": "dead"}},
    ],
}

SUBSTITUTIONS_JSON: dict[str, Any] = {"units": "us", "most": 3, "want": {"trained": True}, "item": _ITEM}

BATCH_LINES = "".join(
    f"{json.dumps(line)}\n"
    for line in ({name: part for name, part in BATCH_JSON.items() if name != "items"}, *BATCH_JSON["items"])
)

BATCH_CSV = """\
id,hangs.kind,hangs.weight [lb],hangs.nature,anchor.family,anchor.size,anchor.h_ef [in],\
base.kind,base.density,base.thickness [in],\
base.edges.x_minus,base.edges.x_plus,base.edges.y_minus,base.edges.y_plus,seismic.category
H-1,weight,180,dead,wedge-expansion-zinc,3/8,2.5,concrete,normalweight,6,none,none,none,8 in,B
H-2,weight,2600,dead,wedge-expansion-zinc,3/8,2.5,concrete,normalweight,6,none,none,none,8 in,B
"""
