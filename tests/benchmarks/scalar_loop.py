"""The same checks as a plain loop over items with scalar arithmetic: the yardstick of the benchmarks.

Own code, written for the benchmark body only (pipes on a wedge, a screw or a headed bolt; no sprinkler line, no point
loads, no defaults); it reads the request with the same grammar of lengths and returns the same fields.
"""

import math
from typing import Any

from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.loads.pipe_sizes import CONTENTS, MATERIALS, pipe_size
from hangpoint.product.catalogue import load_catalogue

CATALOGUE = load_catalogue()
TABLE = CATALOGUE.table
CASES = (("1.4D", 1.4), ("1.2D+1.6L", 1.2))
LINKS = {
    "rod_allowable": "rod",
    "steel_tension": "anchor",
    "pullout": "anchor",
    "concrete_breakout_tension": "base",
    "side_face_blowout": "base",
}
TEXTS = {
    "rod_allowable": "threaded rod, allowable load against the service load",
    "steel_tension": "steel of the anchor in tension",
    "pullout": "pullout of the anchor",
    "concrete_breakout_tension": "concrete breakout in tension",
    "side_face_blowout": "side-face blowout of the concrete",
}
CLAUSES = {
    "adhesive_bond": "17.6.5",
    "sustained_bond": "17.5.2.2",
    "steel_shear": "17.7.1",
    "anchor_reinforcement_tension": "17.5.2.1",
    "concrete_breakout_shear": "17.7.2",
    "pryout": "17.7.3",
    "anchor_reinforcement_shear": "17.5.2.1",
    "tension_shear_interaction": "17.8",
    "rod_allowable": "named rod rule",
    "rod_strength": "named rod rule",
    "steel_tension": "17.6.1",
    "pullout": "17.6.3",
    "concrete_breakout_tension": "17.6.2",
    "side_face_blowout": "17.6.4",
}
EDGES = ("x_minus", "x_plus", "y_minus", "y_plus")
ASSUMPTIONS = [
    "no-supplementary-reinforcement-assumed",
    "overhead-assumed",
    "larger-run-model",
    "rod-rule-defaulted",
    "no-insulation-assumed",
    "no-allowance-assumed",
    "single-anchor-assumed",
    "not-post-tensioned-assumed",
    "dry-indoors-assumed",
]
NOT_CHECKED = [
    "hanger-hardware",
    "hanger-spacing",
    "neighbours",
    "member",
    "loss-of-a-neighbour",
    "reinforcement-and-tendons",
    "own-weight",
    "erection-load",
    "sideways-force",
    "fire-and-fatigue",
]


def answer(request: dict[str, Any]) -> dict[str, Any]:
    """Every item of the request, one after the other."""
    items = [_item(index, item) for index, item in enumerate(request["items"])]
    counts = {word: sum(item["status"] == word for item in items) for word in ("passed", "failed")}
    return {"summary": {"total": len(items), **counts}, "items": items}


def _length(value: float | str, unit: float = 1.0) -> float:
    """Inches (``unit`` 1) or feet (``unit`` 12) of a number or a text."""
    if isinstance(value, float | int):
        return float(value)
    if value == "none":
        return math.inf
    if "'" in value:
        feet, rest = value.rstrip('"').split("'-")
        return (float(feet) * 12 + float(rest)) / unit
    number, word = value.split(" ")
    return float(number) * (12.0 if word == "ft" else 1.0) / unit


def _stress(value: float | str) -> float:
    return float(value.removesuffix(" psi")) if isinstance(value, str) else value


def _continuous(spans: list[float], support: int) -> float:
    """Length of run that a support of a continuous beam takes: three-moment equations, eliminated in order."""
    inner = len(spans) - 1
    diagonal = [2.0 * (spans[j] + spans[j + 1]) for j in range(inner)]
    rhs = [-(spans[j] ** 3 + spans[j + 1] ** 3) / 4.0 for j in range(inner)]
    for j in range(1, inner):
        factor = spans[j] / diagonal[j - 1]
        diagonal[j] -= factor * spans[j]
        rhs[j] -= factor * rhs[j - 1]
    moments = [0.0] * (len(spans) + 1)
    for j in range(inner - 1, -1, -1):
        after = moments[j + 2] if j + 2 < len(moments) else 0.0
        moments[j + 1] = (rhs[j] - (spans[j + 1] * after if j < inner - 1 else 0.0)) / diagonal[j]
    length = 0.0
    if support > 0:
        left = spans[support - 1]
        length += left / 2 + (moments[support - 1] - moments[support]) / left
    if support < len(spans):
        right = spans[support]
        length += right / 2 + (moments[support + 1] - moments[support]) / right
    return length


def _item(index: int, item: dict[str, Any]) -> dict[str, Any]:
    hangs, base, anchor = item["hangs"], item["base"], item["anchor"]
    pipe = pipe_size(hangs["material"], hangs["size"], hangs["schedule"])
    assert pipe is not None
    d_o, wall, _ = pipe
    w_dead = math.pi * (d_o - wall) * wall * MATERIALS[hangs["material"]] / 144
    w_fluid = math.pi / 4 * (d_o - 2 * wall) ** 2 * CONTENTS[hangs["contents"]] / 144
    spans = [_length(span, 12.0) for span in hangs["run"]["spans"]]
    support = hangs["run"]["support"]
    left = spans[support - 1] if support > 0 else 0.0
    right = spans[support] if support < len(spans) else 0.0
    tributary, continuous = (left + right) / 2, _continuous(spans, support)
    length = continuous if (w_dead + w_fluid) * continuous > (w_dead + w_fluid) * tributary else tributary
    dead, contents = w_dead * length, w_fluid * length
    row = CATALOGUE.row(anchor["family"], anchor["size"], _length(anchor["h_ef"]))
    assert row is not None
    c_a = [_length(base["edges"][name]) for name in EDGES]
    thickness, f_c = _length(base["thickness"]), _stress(base["strength"]["f_c"])
    modes: list[dict[str, Any]] = [_rod(item["rod"]["size"], dead + contents)]
    modes.append(_away("rod_strength", "other-rod-rule"))
    demands = [(name, factor * (dead + contents)) for name, factor in CASES]
    modes += _anchor_modes(row, c_a, f_c, demands)
    return _result(index, item, row, modes, c_a, thickness, dead, contents, demands)


def _rod(size: str, service: float) -> dict[str, Any]:
    thread = THREADS[size]
    area = math.pi / 4 * (thread.d - thread.k_root * thread.pitch) ** 2
    return _mode("rod_allowable", 50_000.0 / 3.5 * 0.75 * area, service, "service")


def _anchor_modes(row: int, c_a: list[float], f_c: float, demands: list[tuple[str, float]]) -> list[dict[str, Any]]:
    post_installed = bool(TABLE.post_installed[row])
    h_ef, category = float(TABLE.h_ef[row]), int(TABLE.category[row])
    f_c = min(f_c, 8000.0 if post_installed else 10_000.0)
    phi_c = 0.70 if not post_installed else {1: 0.65, 2: 0.55, 3: 0.45}[category]
    load_case, demand = max(demands, key=lambda each: each[1])
    f_uta = min(float(TABLE.f_uta[row]), 1.9 * float(TABLE.f_ya[row]), 125_000.0)
    steel = (0.75 if TABLE.ductile[row] else 0.65) * (float(TABLE.a_se_n[row]) * f_uta)
    modes = [_mode("steel_tension", steel, demand, load_case)]
    if TABLE.pullout_method[row] == 1:
        modes.append(_mode("pullout", phi_c * (8 * float(TABLE.a_brg[row]) * f_c), demand, load_case))
    elif TABLE.n_p_cr_state[row] == 2:
        modes.append(_away("pullout", "pullout-not-governing"))
    else:
        n_p = float(TABLE.n_p_cr[row]) * (f_c / float(TABLE.f_c_ref[row])) ** float(TABLE.n_exponent[row])
        modes.append(_mode("pullout", phi_c * n_p, demand, load_case))
    modes += [_away("adhesive_bond", "not-adhesive"), _away("sustained_bond", "not-adhesive")]
    modes.append(_away("steel_shear", "no-shear"))
    modes.append(_mode("concrete_breakout_tension", phi_c * _breakout(row, h_ef, c_a, f_c), demand, load_case))
    modes.append(_blowout(row, h_ef, c_a, f_c, phi_c, demand, load_case))
    modes.append(_away("anchor_reinforcement_tension", "no-anchor-reinforcement"))
    modes += [_away("concrete_breakout_shear", "no-shear"), _away("pryout", "no-shear")]
    modes.append(_away("anchor_reinforcement_shear", "no-shear"))
    modes.append(_away("tension_shear_interaction", "tension-or-shear-only"))
    return modes


def _breakout(row: int, h_ef: float, c_a: list[float], f_c: float) -> float:
    near = [edge for edge in c_a if edge < 1.5 * h_ef]
    used = max(near) / 1.5 if len(near) >= 3 else h_ef
    reach = 1.5 * used
    x_minus, x_plus, y_minus, y_plus = (min(edge, reach) for edge in c_a)
    area = (x_minus + x_plus) * (y_minus + y_plus)
    psi_ed = min(1.0, 0.7 + 0.3 * min(c_a) / reach)
    k_c = min(24.0, float(TABLE.k_cr[row])) if TABLE.product_k_c[row] else 17.0 if TABLE.post_installed[row] else 24.0
    n_b = k_c * math.sqrt(f_c) * used**1.5
    if TABLE.pullout_method[row] == 1 and 11 <= used <= 25:
        n_b = max(n_b, 16 * math.sqrt(f_c) * used ** (5 / 3))
    return area / (9 * used**2) * psi_ed * n_b


def _blowout(
    row: int, h_ef: float, c_a: list[float], f_c: float, phi: float, demand: float, load_case: str
) -> dict[str, Any]:
    if TABLE.pullout_method[row] != 1:
        return _away("side_face_blowout", "not-headed")
    worst: dict[str, Any] | None = None
    for edge, c_a1 in enumerate(c_a):
        if h_ef <= 2.5 * c_a1:
            continue
        c_a2 = min(c_a[2:]) if edge < 2 else min(c_a[:2])
        corner = (1 + min(3.0, max(1.0, c_a2 / c_a1))) / 4
        strength = phi * (160 * c_a1 * math.sqrt(float(TABLE.a_brg[row])) * math.sqrt(f_c) * corner)
        mode = _mode("side_face_blowout", strength, demand, load_case) | {"edge": EDGES[edge]}
        if worst is None or mode["utilisation"] > worst["utilisation"]:
            worst = mode
    return worst or _away("side_face_blowout", "no-shallow-edge")


def _mode(name: str, strength: float, demand: float, load_case: str) -> dict[str, Any]:
    return {
        "mode": name,
        "applies": True,
        "clause": CLAUSES[name],
        "design_strength": strength,
        "demand": demand,
        "utilisation": demand / strength,
        "load_case": load_case,
    }


def _away(name: str, reason: str) -> dict[str, Any]:
    return {"mode": name, "applies": False, "reason": reason, "clause": CLAUSES[name]}


def _finding(code: str, text: str, clause: str, value: float, limit: float) -> dict[str, Any]:
    return {
        "code": code,
        "clause": clause,
        "severity": "violation",
        "text": text,
        "quantity": "length",
        "value": value,
        "limit": limit,
    }


def _findings(row: int, c_a: list[float], thickness: float) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    nearest, c_min, h_min = min(c_a), float(TABLE.c_min[row]), float(TABLE.h_min[row])
    if nearest < c_min:
        text = "An edge is nearer than the least edge distance of this anchor."
        found.append(_finding("edge-below-minimum", text, "17.9.2", nearest, c_min))
    c_min_code = float(TABLE.c_min_code[row])
    if c_min < c_min_code and nearest < c_min_code:
        text = "An edge is nearer than the code allows without tests of the product for less."
        found.append(_finding("edge-below-code", text, "17.9.2", nearest, c_min_code))
    if thickness < h_min:
        text = "The member is thinner than the least thickness of this anchor."
        found.append(_finding("thickness-below-minimum", text, "17.9.4", thickness, h_min))
    deepest = max(2 / 3 * thickness, thickness - 4)
    if TABLE.post_installed[row] and not TABLE.thickness_tested[row] and TABLE.h_ef[row] > deepest:
        text = "h_ef exceeds the larger of 2/3 of the member and the member less 4 in."
        found.append(_finding("embedment-too-deep", text, "17.9.4", float(TABLE.h_ef[row]), deepest))
    return found


def _result(
    index: int,
    item: dict[str, Any],
    row: int,
    modes: list[dict[str, Any]],
    c_a: list[float],
    thickness: float,
    dead: float,
    contents: float,
    demands: list[tuple[str, float]],
) -> dict[str, Any]:
    applied = [mode for mode in modes if mode["applies"]]
    lead = max(applied, key=lambda mode: mode["utilisation"])
    by_case = [
        max(m["utilisation"] / m["demand"] for m in applied if m["load_case"] != "service") * n for _, n in demands
    ]
    others = [(u, name) for u, (name, _) in zip(by_case, demands, strict=True) if name != lead["load_case"]]
    utilisation, name = max(others)
    findings = _findings(row, c_a, thickness)
    if TABLE.removable[row]:
        findings.append({"code": "not-for-reuse", "clause": "17.1.3", "severity": "note", "text": "..."})
    if _mismatch(row, item["rod"]["size"]):
        text = "The rod's thread does not fit the internal thread of the anchor."
        thread = THREADS[item["rod"]["size"]].d
        findings.append(_finding("rod-thread-mismatch", text, "common practice", thread, float(TABLE.thread_d[row])))
    if TABLE.hole_depth[row] > thickness / 2:
        findings.append({"code": "drilled-beyond-half", "clause": "common practice", "severity": "note", "text": "..."})
    violated = any(finding["severity"] == "violation" for finding in findings)
    load_case, factored = max(demands, key=lambda each: each[1])
    governing = {
        "link": LINKS[lead["mode"]],
        "mode": lead["mode"],
        "group": 0,
        "anchor": 0,
        "load_case": lead["load_case"],
        "utilisation": lead["utilisation"],
        "text": f"{TEXTS[lead['mode']]} governs ({lead['load_case']})",
        "next": {"load_case": name, "utilisation": utilisation},
    }
    return {
        "id": item["id"],
        "index": index,
        "status": "failed" if violated or lead["utilisation"] > 1 else "passed",
        "on_assumptions": True,
        "product": {
            "address": TABLE.address[row],
            "data": "invented" if TABLE.invented[row] else "supplied",
        },
        "demand": {
            "dead": dead,
            "contents": contents,
            "live": 0.0,
            "sprinkler": 0.0,
            "factored_tension": factored,
            "sustained_tension": factored,
            "factored_shear": 0.0,
            "load_case": load_case,
            "level": "strength",
        },
        "governing": governing,
        "weakest_link": governing["link"],
        "rod_rule": "sp58_allowable",
        "findings": findings,
        "assumptions": ASSUMPTIONS,
        "not_checked": NOT_CHECKED,
        "to_engineer": [],
        "modes": modes,
        "links": _links(applied),
    }


def _links(applied: list[dict[str, Any]]) -> list[dict[str, Any]]:
    links: list[dict[str, Any]] = [{"link": "load", "checked": True}]
    for link in ("rod", "anchor", "base"):
        own = [mode["utilisation"] for mode in applied if LINKS[mode["mode"]] == link]
        links.append({"link": link, "checked": True, "utilisation": max(own)})
    return links


def _mismatch(row: int, size: str) -> bool:
    thread_d = float(TABLE.thread_d[row])
    return thread_d > 0 and abs(THREADS[size].d - thread_d) > 1e-6
