"""Items as small plain dictionaries, one an item of any kind, and their columns.

Everything is invented. A key that isn't there has the neutral value below. Keys of an item: ``kind``, ``spare``,
``impact``, ``erection``, ``lines``, ``run``, ``loads``, ``tiers``, ``riser``, ``equipment``, ``rod``, ``given``,
``seismic``. A line has the kind and the arguments of its weight, ``number``, ``sprinkler``, on a trapeze ``tier`` and
``at``, and ``spacing`` where a rule for it is named.
"""

from typing import get_type_hints

import numpy as np

from hangpoint.core.hanger.hanger_cases import NATURES
from hangpoint.core.hanger.items import (
    ANY_HANGER,
    NO_HANGER,
    ConduitLines,
    DuctLines,
    Equipment,
    EquipmentRods,
    Given,
    Items,
    Lines,
    PipeLines,
    PointLoads,
    Risers,
    Rods,
    Runs,
    Seismic,
    Spacings,
    StatedLines,
    Tiers,
    TrayLines,
)
from hangpoint.core.hanger.rod import RULES, THREADS
from hangpoint.core.hanger.run_reaction import MODELS
from hangpoint.core.hanger.spacing import RULE_NAMES
from hangpoint.core.quantity import Bools, Codes, Floats, Index

KINDS = ("run", "riser", "trapeze", "equipment")
BODY_MODELS = ("larger", "equal_springs", "any_three")
SHAPES = ("rectangular", "round", "flat_oval")
LINE_TABLES = {"pipe": PipeLines, "duct": DuctLines, "conduit": ConduitLines, "tray": TrayLines, "stated": StatedLines}

PIPE = {
    "rho_pipe": 490.0,
    "rho_contents": 62.4,
    "rho_test": 0.0,
    "t_ins": 0.0,
    "rho_ins": 0.0,
    "q_jacket": 0.0,
    "allowance": 0.0,
    "nominal": 0.0,
}
DUCT = {"b": 0.0, "reinforcement": 0.0, "t_liner": 0.0, "rho_liner": 0.0, "t_wrap": 0.0, "rho_wrap": 0.0}
CONDUIT = {"d_i": 0.0, "fill": 0.0, "rho_fill": 0.0, "w_cables": 0.0}
TRAY = {"w_class": 0.0, "w_cables": 0.0, "p_static": 0.0, "l_span": 1.0}
STATED = {"w_filling": 0.0, "allowance": 0.0}
NEUTRAL_LINES = {"pipe": PIPE, "duct": DUCT, "conduit": CONDUIT, "tray": TRAY, "stated": STATED}

RUN = {"start": 0.0, "end": 0.0, "support": 0, "missing": None, "model": "larger"}
TIER = {"start": 0.0, "end": 0.0, "w_bar": 0.0, "section": None, "loads": ()}
SECTION = {"s_x": 1.0, "i_x": 1.0, "f_b": 1.0, "e": 1.0, "limit": 1.0}
SEISMIC = {
    "newer": False,
    "i_p": 1.0,
    "isolator_gap": False,
    "z": 0.0,
    "h": 1.0,
    "a_p": 1.0,
    "r_p": 1.0,
    "omega_0": 1.0,
    "c_ar": 1.0,
    "r_po": 1.0,
    "omega_0p": 1.0,
    "at_grade": False,
    "period_known": False,
    "t_a": 1.0,
    "system_known": False,
    "r": 1.0,
    "i_e": 1.0,
    "omega_building": 1.0,
    "category": -1,
    "braced": False,
    "l_brace": 0.0,
    "braces": 1.0,
    "theta_v": 45.0,
    "along": 0,
    "bending_free": False,
    "ceiling": False,
    "distributes": True,
}

_TYPES = {Index: np.intp, Bools: np.bool_, Codes: np.int8, Floats: np.float64}


def table(cls, rows, **given):
    """A table of the core from dictionaries of its fields, in order; ``given`` are columns that are made already."""
    columns = {}
    for name, hint in get_type_hints(cls).items():
        dtype = next(dtype for array, dtype in _TYPES.items() if array == hint)
        columns[name] = given[name] if name in given else np.array([row[name] for row in rows], dtype=dtype)
    return cls(**columns)


def _padded(rows):
    width = max((len(row["spans"]) for row in rows), default=1)
    return np.array([(*row["spans"], *(0.0,) * (width - len(row["spans"]))) for row in rows]).reshape(-1, width)


def _lost(missing):
    return {None: NO_HANGER, "any": ANY_HANGER}.get(missing, missing)


def _spanned(row):
    """A run or a tier with the number of its spans."""
    return row | {"span_count": len(row["spans"])}


def _points(rows):
    """Point loads: (row, (place, weight, nature)) each, the nature one of `independent_loads.PARTS` but the last."""
    return table(
        PointLoads,
        [
            {
                "row": at,
                "position": place,
                "weight": weight,
                "contents": nature == "fluid",
                "live": nature == "live",
            }
            for at, (place, weight, nature) in rows
        ],
    )


def _lines(items):
    """Lines by item, the tables by their kind, and the rows of spacings."""
    lines, spacings = [], []
    own = {kind: [] for kind in LINE_TABLES}
    tiers = 0
    for at, item in enumerate(items):
        for line in item.get("lines", ()):
            tier = tiers + line["tier"] if item["kind"] == "trapeze" else -1
            kind = line["kind"]
            full = NEUTRAL_LINES[kind] | {"number": 1.0, "sprinkler": False, "at": 0.0} | line
            if kind == "duct":
                full["shape"] = SHAPES.index(line["shape"])
            own[kind].append(full | {"line": len(lines)})
            if "spacing" in line:
                named = {"line": len(lines), "end_limit": np.inf, "rule": 0, "uniform_only": False, "vapour": False}
                named |= line["spacing"]
                lacking = named.get("lacking", ())
                spacings.append(named | {"lacking": [code in lacking for code in range(len(RULE_NAMES))]})
            lines.append(full | {"item": at, "tier": tier})
        tiers += len(item.get("tiers", ()))
    return lines, {kind: table(cls, own[kind]) for kind, cls in LINE_TABLES.items()}, spacings


def _rod(item):
    rod = item.get("rod") or {}
    size = rod.get("size")
    thread = THREADS[size]._asdict() if size else {"d": 0.0, "pitch": 0.0, "k_root": 1.0, "k_stress": 1.0}
    rule = list(RULES).index(rod["rule"]) if rod.get("rule") else -1
    return thread | {
        "rule": rule,
        "f_u": rod.get("f_u", 0.0),
        "l_rod": rod.get("l_rod", 0.0),
        "l_free": rod.get("l_free") or 12 * rod.get("l_rod", 0.0) or float("inf"),
        "angle": rod.get("angle", 0.0),
    }


def items_of(items):
    """`Items` of the core from dictionaries."""
    lines, by_kind, spacings = _lines(items)
    runs, run_loads, tiers, bar_loads, risers, bodies, feet, given, seismic = ([] for _ in range(9))
    for at, item in enumerate(items):
        if "run" in item:
            run = RUN | item["run"]
            run_loads += [(len(runs), load) for load in item.get("loads", ())]
            own = {"item": at, "missing": _lost(run["missing"]), "model": MODELS.index(run["model"])}
            runs.append(_spanned(run) | own)
        for tier in item.get("tiers", ()):
            full = TIER | tier
            bar_loads += [(len(tiers), load) for load in full["loads"]]
            tiers.append(_spanned(full) | (full["section"] or SECTION) | {"item": at, "checked": bool(full["section"])})
        if "riser" in item:
            risers.append({"item": at, "one_carries": False} | item["riser"])
        if "equipment" in item:
            body = {"contents": 0.0, "model": "larger"} | item["equipment"]
            feet += [{"body": len(bodies), "x": x, "y": y} for x, y in body["rods"]]
            bodies.append(body | {"item": at, "model": BODY_MODELS.index(body["model"])})
        for load in item.get("given", ()):
            own = {"item": at, "nature": NATURES.index(load["nature"]), "n": load.get("n", 0.0)}
            given.append(own | {"hanger": load["hanger"], "v": load.get("v", (0.0, 0.0))})
        if "seismic" in item:
            seismic.append(SEISMIC | item["seismic"] | {"item": at})

    def column(name, neutral):
        return np.array([item.get(name, neutral) for item in items], dtype=np.float64)

    return Items(
        count=len(items),
        kind=np.array([KINDS.index(item["kind"]) for item in items], dtype=np.int8),
        spare=column("spare", 0.0),
        impact=column("impact", 1.0),
        erection=column("erection", 0.0),
        lines=table(Lines, lines),
        pipes=by_kind["pipe"],
        ducts=by_kind["duct"],
        conduits=by_kind["conduit"],
        trays=by_kind["tray"],
        stated=by_kind["stated"],
        runs=table(Runs, runs, spans=_padded(runs)),
        run_loads=_points(run_loads),
        tiers=table(Tiers, tiers, spans=_padded(tiers)),
        bar_loads=_points(bar_loads),
        risers=table(Risers, risers),
        equipment=table(Equipment, bodies),
        equipment_rods=table(EquipmentRods, feet),
        rods=table(Rods, [_rod(item) for item in items]),
        spacings=table(Spacings, spacings),
        given=table(Given, given, v=np.array([load["v"] for load in given], dtype=np.float64).reshape(-1, 2)),
        seismic=table(Seismic, seismic),
    )
