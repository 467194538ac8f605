"""Bodies of requests that use much of their schemas, and the same bodies with a place changed at random."""

import json

from pydantic import ValidationError

from api.bodies import FORCES, INLINE, SINGLE_JSON, WEIGHT, change
from api.hanger_bodies import EQUIPMENT, LINES, PIPE, RISER, RUN, SECTION, SEISMIC_22, TRAPEZE, braced, made

MUTATIONS = 500
RICH = {
    "units": "si",
    "design_code": "aci318_19",
    "combinations": "strength",
    "detail": "verdict",
    "defaults": {"trade": "sprinklers", "tags": ["a", "b"], "seismic": {"category": "D"}},
    "items": [
        SINGLE_JSON["item"] | {"id": "a", "at": {"level": "L1", "x": -3, "y": "-2'-6\"", "z": "3 m"}},
        SINGLE_JSON["item"]
        | {
            "id": "b",
            "hangs": change(
                SINGLE_JSON["item"]["hangs"],
                {
                    "insulation": {"thickness": "1-1/2 in", "density": "4.5 pcf"},
                    "allowance": 0.15,
                    "run.model": "continuous",
                    "run.missing_support": 2,
                    "run.point_loads": [{"at": "4 ft", "weight": "20 kg", "nature": "live"}],
                },
            ),
        },
        {"id": "c", "hangs": FORCES | {"sustained_fraction": 0.5}, "anchor": {"product": INLINE}},
        {
            "id": "d",
            "hangs": WEIGHT,
            "rod": {"size": "1/2", "material": "a36", "f_u": "58 ksi", "rule": "tensile_strength"},
            "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 101.6, "layout": [{"x": 0, "y": "-2 in"}]},
            "base": {
                "kind": "concrete",
                "strength": {"class": "C25/30"},
                "lambda": 0.85,
                "state": "uncracked",
                "state_decided_by": "engineer of record",
                "member": "B-12",
                "edges": {"x_minus": "none", "x_plus": 3},
                "supplementary": True,
                "face": "side",
            },
        },
    ],
}
HANGING = {
    "units": "si",
    "load_standard": "asce7_22",
    "detail": "trace",
    "defaults": {
        "rod": {"size": "1/2", "material": "a36", "f_u": "58 ksi", "rule": "tensile_strength", "out_of_plumb": 3},
        "at": {"level": "L1", "x": -3, "y": "-2'-6\"", "z": "3 m"},
    },
    "items": [
        braced(
            made(
                RUN,
                line=PIPE | {"insulation": {"thickness": "1 in", "density": 70, "jacket": "1 lb/ft2"}, "number": 2},
                run={
                    "spans": ["10 ft", 2.5],
                    "start_overhang": "1 ft",
                    "model": "hinged",
                    "point_loads": [{"at": "-1 ft", "weight": "20 kg", "nature": "live", "number": 2}],
                    "missing_hanger": "any",
                    "spacing_rules": ["sp58_water", "b31_1_water"],
                },
                given=[{"hanger": 1, "nature": "snow", "tension": "-1 kN", "shear_x": 3}],
            )
        ),
        {**RISER, "model": "equal", "seismic": SEISMIC_22},
        made(
            TRAPEZE,
            spare=0.2,
            run={"spans": [3, 4], "support": 1},
            tiers=[
                {"bar": SECTION, "lines": [{"at": "1 ft", "line": each} for each in LINES.values()]},
                {"bar": {"weight": 3}, "loads": [{"at": 0.5, "weight": 1, "description": "valve"}]},
            ],
        ),
        {**EQUIPMENT, "contents": "100 lb", "impact": 1.5, "isolated": True, "model": "any_three"},
    ],
}
ODD = [
    None,
    True,
    False,
    0,
    -1,
    1,
    3,
    7.25,
    -0.5,
    1e-12,
    1e9,
    1.0000001e9,
    -1e9,
    10**30,
    "",
    " ",
    "x",
    "x" * 64,
    "x" * 65,
    "x" * 257,
    "none",
    "None",
    "3 in",
    "3in",
    "-3 in",
    "3 psi",
    "3 lb",
    "5'-6\"",
    "5' 6 1/2\"",
    "1/0 in",
    "3 1/2 kip",
    "1e7 mm",
    "1e6 mm",
    "٣ in",
    "3 in ",
    "4000 psi",
    "12.5 kg/m3",
    "us",
    "dead",
    "pipe",
    "concrete",
    "2024-05",
    [],
    [1],
    ["x"],
    ["3 ft"] * 21,
    {},
    {"kind": "pipe"},
    {"kind": "weight", "size": "4"},
    {"kind": "line", "weight": 1},
    {"x": 1},
]


def places(value, path=()):
    """Every place of a body as (path, value)."""
    yield path, value
    members = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in members:
        yield from places(inner, (*path, key))


def mutated(body, chance):
    """A copy with one place dropped, renamed, replaced, doubled, or joined by an unknown one."""
    made = json.loads(json.dumps(body))
    path, _ = chance.choice([each for each in places(made) if each[0]])
    parent = made
    for part in path[:-1]:
        parent = parent[part]
    last = path[-1]
    how = chance.choice(["drop", "rename", "replace", "replace", "replace", "add"])
    if how == "drop":
        del parent[last]
    elif how == "rename" and isinstance(parent, dict):
        parent[chance.choice([f"{last}s", f"{last}"[:-1], f"{last}".upper()])] = parent.pop(last)
    elif how == "add" and isinstance(parent, dict):
        parent[chance.choice(["id", "kind", "h_ef", "unknown", "class", "f_c", "product"])] = chance.choice(ODD)
    else:
        parent[last] = chance.choice(ODD)
    return made


def errors_of(adapter, body):
    try:
        adapter.validate_json(json.dumps(body))
    except ValidationError as error:
        return error.errors(include_url=False)
    return []
