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

TAKE_OFF_JSON: dict[str, Any] = {
    "units": "us",
    "waste": {"anchors": 0.05, "rods": 0},
    "stock": {"rod_length": "10 ft", "kerf": "1/8 in"},
    "defaults": {
        "at": {"level": "L2"},
        "trade": "plumbing",
        "rod": {"size": "3/8", "length": "2'-6\""},
        "anchor": {"family": "drop-in-zinc", "size": "3/8", "h_ef": "1-5/8 in"},
    },
    "items": [
        {"id": "L2-CW", "area": "east", "quantity": 34},
        {"id": "L2-HW", "area": "west", "quantity": 21, "rod": {"length": "41 in"}},
        {
            "id": "L3-MAIN",
            "at": {"level": "L3"},
            "quantity": 8,
            "rod": {"size": "1/2", "length": "12 ft", "ends": {"nuts": 3, "washers": 2}},
            "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
        },
    ],
}

AS_BUILT_JSON: dict[str, Any] = {
    "units": "us",
    "torque_tolerance": 0.1,
    "defaults": {
        "at": {"level": "L3"},
        "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
        "set": {"product": "wedge-expansion-zinc/1/2/3.25", "date": "2031-04-02", "installer": "crew 4"},
    },
    "items": [
        {"id": "L3-MAIN-01", "set": {"embedment": "3-3/4 in", "torque": "40 ft-lb"}},
        {"id": "L3-MAIN-02", "set": {"embedment": "3-3/8 in", "torque": "28 ft-lb"}},
        {
            "id": "L3-MAIN-03",
            "required": {"test_load": "1800 lbf"},
            "set": {
                "embedment": "3-3/4 in",
                "torque": "40 ft-lb",
                "deviation": "moved 6 in east of a bar",
                "test": {"load": "1800 lbf", "hold_seconds": 15, "held": True},
            },
        },
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

INSTALLATION_CARDS_JSON: dict[str, Any] = {
    "units": "us",
    "job": "Invented clinic, level 2",
    "defaults": {"base": {"kind": "concrete", "face": "soffit", "thickness": "6 in"}},
    "items": [
        {"id": "IC-L2-CHS-01", "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}},
        {"id": "IC-L2-EMT-07", "anchor": {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}},
    ],
}

TEST_PLANS_JSON: dict[str, Any] = {
    "units": "us",
    "rule": "cbc_1910a_5",
    "defaults": {
        "anchor": {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5},
        "use": "nonstructural",
        "basis": "design_strength",
        "load": "1500 lb",
    },
    "items": [
        {"id": "IC-L1-01", "level": "L1", "crew": "A", "day": "2026-03-02"},
        {"id": "IC-L1-02", "level": "L1", "crew": "A", "day": "2026-03-02"},
        {"id": "IC-L2-01", "level": "L2", "crew": "B", "day": "2026-03-03"},
        {"id": "IC-L2-02", "level": "L2", "crew": "B", "day": "2026-03-03", "use": "structural"},
    ],
}

TEST_LOGS_JSON: dict[str, Any] = {
    "units": "us",
    "rule": "cbc_1910a_5",
    "defaults": {"crew": "A", "day": "2026-03-02", "test_load": "1875 lb", "most_load": "3604 lb", "moved": False},
    "items": [
        {"id": "IC-L1-01", "applied": "1880 lb", "held_seconds": 15},
        {"id": "IC-L1-02", "applied": "1400 lb", "held_seconds": 0, "moved": True, "notes": "pulled out 1/4 in"},
        {"id": "IC-L1-03", "applied": "1880 lb", "held_seconds": 15, "displacement": "0.01 in"},
        {"id": "IC-L1-04", "applied": "1700 lb", "held_seconds": 15},
        {"id": "IC-L2-01", "crew": "B"},
    ],
}

TEST_LOGS_CSV = """\
id,level,crew,day,test_load [lbf],most_load [lbf],applied [lbf],held_seconds [s],displacement [in],moved,notes
IC-L1-01,L1,A,2026-03-02,1875,3604,1880,15,,no,
IC-L1-02,L1,A,2026-03-02,1875,3604,1400,0,1/4,yes,pulled out
IC-L1-03,L1,A,2026-03-02,1875,3604,8.4 kN,15,0.01,no,
IC-L2-01,L2,B,,1875,3604,,,,,
"""

EXISTING_ANCHORS_JSON: dict[str, Any] = {
    "units": "us",
    "rule": "one_and_a_half_working_load",
    "defaults": {"level": "L1", "base": "concrete", "face": "soffit", "load": "240 lb", "basis": "working"},
    "items": [
        {
            "id": "IC-OLD-01",
            "type_seen": "torque_controlled_expansion",
            "diameter": "3/8 in",
            "thread": "3/8",
            "projection": "1-1/4 in",
            "embedment": {"depth": "2-1/2 in", "by": "measured"},
            "corrosion": "surface",
            "damage": [],
            "edges": {"x_minus": "none", "x_plus": "9 in", "y_minus": "none", "y_plus": "none"},
            "thickness": "6 in",
            "post_tensioned": "no",
            "steel": {"a_se": "0.0775 in2", "f_ya": "36 ksi", "by": "test"},
        },
        {"id": "IC-OLD-02", "type_seen": "unknown", "thread": "3/8"},
        {"id": "IC-OLD-03", "type_seen": "screw", "corrosion": "section_loss"},
    ],
}
