"""Many mixed items at random, as `item_columns` has them. Everything is invented."""

import numpy as np

from core.hanger.item_columns import BODY_MODELS, NATURES, SECTION, SHAPES
from hangpoint.core.hanger.rod import RULES
from hangpoint.core.hanger.run_reaction import MODELS
from hangpoint.core.hanger.spacing import RULE_NAMES


def _random_line(rng, *, spaced=True):
    """One line of any kind; ``spaced`` where rules for its spacing may be named."""
    kind = str(rng.choice(["pipe", "pipe", "pipe", "duct", "conduit", "tray", "stated"]))
    u = rng.uniform
    if kind == "pipe":
        sizes = [(1.0, 1.315, 0.133), (2.0, 2.375, 0.154), (4.0, 4.5, 0.237), (8.0, 8.625, 0.322), (14.0, 14.0, 0.375)]
        nominal, d_o, t = sizes[rng.integers(len(sizes))]
        insulated = rng.random() < 0.5
        line = {
            "d_o": d_o,
            "t": t,
            "nominal": nominal,
            "rho_contents": float(rng.choice([0.0, 62.4, 70.0])),
            "rho_test": float(rng.choice([0.0, 0.0, 62.4])),
            "t_ins": u(0.5, 3.0) * insulated,
            "rho_ins": u(3, 15),
            "q_jacket": u(0.1, 0.5) * (rng.random() < 0.3),
            "allowance": u(0, 0.2),
            "sprinkler": rng.random() < 0.25,
        }
    elif kind == "duct":
        line = {
            "shape": str(rng.choice(SHAPES)),
            "a": u(14, 60),
            "b": u(6, 14),
            "q_sheet": u(0.8, 2.7),
            "reinforcement": u(0, 0.25),
            "t_liner": float(rng.choice([0.0, 1.0])),
            "rho_liner": 1.5,
            "t_wrap": float(rng.choice([0.0, 2.0])),
            "rho_wrap": 1.0,
        }
    elif kind == "conduit":
        filled = rng.random() < 0.5
        line = {"w_conduit": u(0.3, 10), "d_i": u(0.6, 4), "fill": 0.4 * filled, "rho_fill": 390.0}
        line["w_cables"] = 0.0 if filled else u(0.1, 8)
    elif kind == "tray":
        listed, static = rng.random() < 0.5, rng.random() < 0.5
        line = {"w_tray": u(2, 8), "w_class": 0.0 if listed else 75.0, "w_cables": u(5, 60) * listed}
        line |= {"p_static": 200.0 * static, "l_span": u(3, 16)}
    else:
        line = {"w_stated": u(0.5, 60), "w_filling": u(0, 20) * (rng.random() < 0.5), "allowance": u(0, 0.2)}
    number = float(rng.choice([1.0, 1.0, 1.0, 2.0, 3.0]))
    line |= {"kind": kind, "number": number}
    if spaced and rng.random() < 0.4:
        limit = float(rng.choice([7.0, 10.0, 12.0, np.inf]))
        line["spacing"] = {
            "limit": limit,
            "rule": -1 if np.isinf(limit) else int(rng.integers(len(RULE_NAMES))),
            "covered": not np.isinf(limit) and rng.random() < 0.9,
            "end_limit": float(rng.choice([1.5, np.inf])),
            "uniform_only": rng.random() < 0.3,
            "vapour": rng.random() < 0.3,
            "lacking": rng.choice(len(RULE_NAMES), 2, replace=False).tolist() if rng.random() < 0.2 else [],
        }
    return line


def _random_spans(rng, most, low, high):
    return rng.uniform(low, high, rng.integers(1, most + 1)).tolist()


def _random_overhang(rng, span):
    return float(rng.uniform(0.0, 0.8) * span) if rng.random() < 0.3 else 0.0


def _random_loads(rng, start, length, end, *, most=3, weight=400.0):
    return [
        (
            float(rng.uniform(-start, length + end)),
            float(rng.uniform(5.0, weight)),
            str(rng.choice(["dead", "dead", "fluid", "live", "live"])),
        )
        for _ in range(rng.integers(0, most + 1))
    ]


def _random_run(rng):
    spans = _random_spans(rng, 8, 4.0, 14.0)
    run = {"spans": spans, "start": _random_overhang(rng, spans[0]), "end": _random_overhang(rng, spans[-1])}
    run["model"] = str(rng.choice(MODELS))
    if len(spans) > 1 and rng.random() < 0.5:
        run["missing"] = "any" if rng.random() < 0.5 else int(rng.integers(1, len(spans)))
    return {
        "run": run,
        "lines": [_random_line(rng) for _ in range(rng.integers(1, 3))],
        "loads": _random_loads(rng, run["start"], sum(spans), run["end"]),
    }, len(spans) + 1


def _random_trapeze(rng):
    beside = _random_spans(rng, 4, 5.0, 12.0)
    run = {"spans": beside, "support": int(rng.integers(0, len(beside) + 1)), "model": str(rng.choice(MODELS))}
    spans = _random_spans(rng, 3, 1.5, 5.0)
    tiers, lines = [], []
    for number in range(rng.integers(1, 4)):
        start, end = _random_overhang(rng, spans[0]), _random_overhang(rng, spans[-1])
        tier = {"spans": spans, "start": start, "end": end, "w_bar": float(rng.choice([0.0, 1.9, 3.8]))}
        tier["loads"] = _random_loads(rng, start, sum(spans), end, most=2, weight=150.0)
        if rng.random() < 0.6:
            own = (rng.uniform(0.1, 1.0), rng.uniform(0.1, 1.5), 25_000.0, 29e6, float(rng.choice([180.0, 240.0])))
            tier["section"] = dict(zip(SECTION, map(float, own), strict=True))
        tiers.append(tier)
        for _ in range(rng.integers(0, 4)):
            at = float(rng.uniform(-start, sum(spans) + end))
            lines.append(_random_line(rng) | {"tier": number, "at": at})
    spare = float(rng.choice([0.0, 0.25]))
    return {"run": run, "tiers": tiers, "lines": lines, "spare": spare}, len(spans) + 1


def _random_riser(rng):
    riser = {
        "length": float(rng.uniform(8, 80)),
        "supports": int(rng.integers(1, 6)),
        "one_carries": rng.random() < 0.5,
    }
    lines = [_random_line(rng, spaced=False) for _ in range(rng.integers(1, 3))]
    return {"riser": riser, "lines": lines}, riser["supports"]


def _random_equipment(rng):
    count = int(rng.integers(2, 9))
    if count == 2 or rng.random() < 0.2:
        steps = np.cumsum(rng.uniform(10, 30, count))
        angle, weight = rng.uniform(0, np.pi), rng.uniform(-0.1, 1.1)
        places = steps[:, None] * [np.cos(angle), np.sin(angle)]
        centre = places[0] + weight * (places[-1] - places[0])
        if rng.random() < 0.1:
            centre = [*centre, -np.sin(angle), np.cos(angle)]
    elif count == 4 and rng.random() < 0.5:
        a, b = rng.uniform(20, 60, 2)
        places = np.array([[0, 0], [a, 0], [a, b], [0, b]])
        centre = np.array([a, b]) * rng.uniform(0.1, 0.9, 2)
    else:
        turns = np.sort(rng.uniform(0, 2 * np.pi, count))
        places = np.stack((np.cos(turns), np.sin(turns)), axis=1) * rng.uniform(20, 40, (count, 1))
        centre = rng.uniform(-12, 12, 2)
    body = {
        "dead": float(rng.uniform(50, 4000)),
        "contents": float(rng.choice([0.0, 300.0])),
        "x_g": float(centre[0]),
        "y_g": float(centre[1]),
        "rods": [tuple(place) for place in places.tolist()],
        "model": str(rng.choice(BODY_MODELS)),
    }
    return {"equipment": body, "impact": float(rng.choice([1.0, 1.25]))}, count


MAKERS = {"run": _random_run, "trapeze": _random_trapeze, "riser": _random_riser, "equipment": _random_equipment}


def _random_rod(rng):
    rule = str(rng.choice([*RULES, ""]))
    rule = "sp58_allowable" if rule == "sprinkler_size_table" else rule
    rod = {"rule": rule, "l_rod": float(rng.uniform(0.5, 6)) * (rng.random() < 0.7)}
    if rule or rng.random() < 0.5:
        rod["size"] = str(rng.choice(["3/8", "1/2", "5/8", "M10", "M12"]))
    if rule == "tensile_strength":
        rod["f_u"] = 50_000.0
    if rng.random() < 0.3:
        rod["angle"] = float(rng.uniform(0.5, 10))
    if rng.random() < 0.4:
        rod["l_free"] = float(rng.uniform(2, 24))
    return rod


def _random_seismic(rng):
    braced = bool(rng.random() < 0.6)
    return {
        "newer": rng.random() < 0.5,
        "s_ds": float(rng.uniform(0.1, 2)),
        "i_p": float(rng.choice([1.0, 1.5])),
        "isolator_gap": rng.random() < 0.2,
        "z": float(rng.uniform(-5, 70)),
        "h": 60.0,
        "a_p": float(rng.choice([1.0, 2.5])),
        "r_p": float(rng.choice([2.5, 6.0, 12.0])),
        "omega_0": 2.0,
        "c_ar": float(rng.choice([1.0, 1.4, 2.8])),
        "r_po": 1.5,
        "omega_0p": 1.75,
        "at_grade": rng.random() < 0.2,
        "period_known": rng.random() < 0.5,
        "t_a": float(rng.uniform(0.1, 2)),
        "system_known": rng.random() < 0.5,
        "r": float(rng.uniform(1.5, 8)),
        "i_e": 1.0,
        "omega_building": float(rng.uniform(2, 3)),
        "category": int(rng.integers(-1, 6)),
        "braced": braced,
        "l_brace": float(rng.uniform(10, 40)) * braced,
        "braces": float(rng.choice([1.0, 2.0])),
        "theta_v": float(rng.uniform(30, 60)),
        "bending_free": braced,
        "ceiling": rng.random() < 0.1,
    }


def _random_given(rng, hangers):
    return [
        {
            "hanger": int(rng.integers(hangers)),
            "nature": str(rng.choice(NATURES)),
            "n": float(rng.uniform(-50, 300)),
            "v": tuple(rng.uniform(-80, 80, 2).tolist()),
        }
        for _ in range(rng.integers(1, 4))
    ]


def random_items(count, *, seed):
    """``count`` mixed items; a hanger that is lost has no given load."""
    rng = np.random.default_rng(seed)
    made = []
    for _ in range(count):
        kind = str(rng.choice(["run", "run", "trapeze", "trapeze", "riser", "equipment"]))
        item, hangers = MAKERS[kind](rng)
        item |= {"kind": kind, "erection": float(rng.choice([0.0, 0.0, 250.0]))}
        if rng.random() < 0.85:
            item["rod"] = _random_rod(rng)
        if rng.random() < 0.3:
            lost = item.get("run", {}).get("missing") if kind == "run" else None
            item["given"] = [load for load in _random_given(rng, hangers) if load["hanger"] != lost]
        if rng.random() < 0.4 and (item.get("lines") or kind == "equipment"):
            item["seismic"] = _random_seismic(rng)
            item["seismic"]["distributes"] = kind != "equipment" and not item["seismic"]["ceiling"]
        made.append(item)
    return made
