"""A scalar calculation of anchors by tables of allowable loads, in plain loops, loads to verdict.

Own code, independent of the service, and *not* an outside check: it was written from the guide of bases and the family
schema, and shares no line with the service. What it rests on: allowable = mean ultimate / safety factor (CMHA TEK
12-03C: 5 in masonry; common practice: 4 in concrete), factors of edges and of anchors multiplied (common practice).
Units: in, lbf, psi.
"""

import math
from dataclasses import dataclass, field

SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")
SAME = 1e-9


@dataclass
class Anchor:
    """One anchor on the plane of the base, and its distances to the edges."""

    point: int
    x: float
    y: float
    edges: dict


@dataclass
class Found:
    """What a point comes to: of each mode utilisation, strength and demand; codes of what fails it."""

    modes: dict = field(default_factory=dict)
    violations: set = field(default_factory=set)


def chosen(tables, direction, strength):
    """Of the tables of a direction the one of the strongest base that isn't stronger than the wall, else the first."""
    own = sorted((each for each in tables if each["direction"] == direction), key=lambda each: each["f_c"])
    if not own:
        return None
    below = [each for each in own if each["f_c"] <= strength * (1 + SAME)]
    return below[-1] if below else own[0]


def factor(rule, distance):
    """Linear from its factor at the least distance to 1 at the full one."""
    least, full, at_least = rule["least"], rule.get("full", rule["least"]), rule.get("factor", 1.0)
    if distance >= full:
        return 1.0
    share = max(distance - least, 0.0) / (full - least) if full > least else 1.0
    return at_least + (1.0 - at_least) * share


def nearest(one, others):
    """Nearest anchor towards each side; one that is farther off along x is at a side along x."""
    found = dict.fromkeys(SIDES, math.inf)
    for other in others:
        dx, dy = other.x - one.x, other.y - one.y
        side = ("x_plus" if dx > 0 else "x_minus") if abs(dx) > abs(dy) else ("y_plus" if dy > 0 else "y_minus")
        found[side] = min(found[side], math.hypot(dx, dy))
    return found


def allowable(table, one, others, strength):
    """Allowable load of an anchor in the direction of the table."""
    row = table["rows"][0]
    load = min(row["mean_ultimate"] / table["safety_factor"], row["allowable"])
    load *= min(1.0, strength / table["f_c"]) ** table.get("strength_exponent", 0.0)
    for side in SIDES:
        load *= factor(row["edge"], one.edges[side])
    for distance in nearest(one, others).values():
        load *= factor(row["spacing"], distance)
    return load


def verdict(*, own, others, cases, tables, strength, thickness, joint, h_min):
    """``own`` anchors with those of near points; ``cases`` name and forces (tension, V_x, V_y) of each anchor."""
    found = Found()
    by = {direction: chosen(tables, direction, strength) for direction in ("tension", "shear")}
    used = [table for table in by.values() if table]
    power = all(table["interaction"] == "power_5_3" for table in used)
    for name, forces in cases:
        for one, (n, v_x, v_y) in zip(own, forces, strict=True):
            rest = [each for each in (*own, *others) if each is not one]
            ratios = []
            for direction, load in (("tension", max(n, 0.0)), ("shear", math.hypot(v_x, v_y))):
                if load > 0.0:
                    holds = allowable(by[direction], one, rest, strength)
                    ratios.append(_take(found, f"table_{direction}", load / holds, holds, load, name))
            if len(ratios) == 2:
                both = sum(r ** (5 / 3) for r in ratios) ** 0.6 if power else sum(ratios)
                _take(found, "table_interaction", both, 1.0, both, name)
            if n < 0.0:
                found.violations.add("anchor-pushed")
    apart = [math.dist((a.x, a.y), (b.x, b.y)) for a in own for b in (*own, *others) if a is not b]
    limits = (
        ("edge-below-table", min(min(a.edges.values()) for a in own), max(t["rows"][0]["edge"]["least"] for t in used)),
        ("thickness-below-table", thickness, max(t.get("least_thickness", h_min) for t in used)),
        ("strength-below-table", strength, max(t.get("least_strength", t["f_c"]) for t in used)),
        ("joint-below-table", joint, max(t.get("least_joint", 0.0) for t in used)),
    )
    spacing = max(t["rows"][0]["spacing"]["least"] for t in used)
    if min(apart, default=math.inf) < spacing * (1 - SAME):
        cell = any(t["one_a_cell"] for t in used)
        found.violations.add("more-than-one-a-cell" if cell else "spacing-below-table")
    found.violations |= {code for code, value, limit in limits if value < limit * (1 - SAME)}
    return found


def _take(found, mode, ratio, strength, demand, case):
    if mode not in found.modes or ratio > found.modes[mode][0]:
        found.modes[mode] = (ratio, strength, demand, case)
    return ratio
