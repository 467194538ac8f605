"""A scalar calculation of bolts in grouted masonry by TMS 402 (2013 and 2016), loads to verdict, in plain loops.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions, not
from the formulas of the service, and shares no line with them. Areas are integrated in strips, where the service has
closed forms. It catches what the arrays get wrong (edges, sides, neighbours, load cases), not what both have misread.

Readings. A projected area loses what lies outside the masonry. The half circle of shear is the base of a half cone
around the line of the load, so it lies in the face of the edge sheared towards, and the sides of that edge and the far
face of the member cut it. Of what bolts share each has half; where several share it, an equal part of all its own is
not too much either. The whole shear of a bolt is held against each edge that it has a component towards. A bent bar is
embedded to the bearing surface of its bend less one diameter. Units: in, in2, psi, lbf.
"""

import math
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")
MODES = (
    "masonry_steel_tension",
    "masonry_pullout",
    "masonry_breakout_tension",
    "masonry_steel_shear",
    "masonry_breakout_shear",
    "masonry_crushing",
    "masonry_pryout",
    "masonry_interaction",
)
"""Our own convention: the first largest ratio in this order governs."""
COEFFICIENTS = {
    "allowable": {"steel": 0.6, "cone": 1.25, "bearing": 0.6, "bond": 120.0, "pry": 2.5, "steel_v": 0.36},
    "strength": {"steel": 0.9, "cone": 0.5 * 4.0, "bearing": 0.65 * 1.5, "bond": 0.65 * 300.0, "pry": 0.5 * 8.0}
    | {"steel_v": 0.9 * 0.6},
}
CRUSHING = {
    ("allowable", "tms402_13"): 350.0,
    ("allowable", "tms402_16"): 580.0,
    ("strength", "tms402_13"): 0.5 * 1050.0,
    ("strength", "tms402_16"): 0.5 * 1750.0,
}
NODES, WEIGHTS = (each.tolist() for each in np.polynomial.legendre.leggauss(48))
NOISE = 1e-9
"""A component of less than this share of the shear is a rounding error and no direction."""


def strips(radius, low, high, height):
    """Area from ``low`` to ``high`` of strips of ``height(half chord)`` of a circle, by Gauss' rule in the angle."""
    low, high = max(low, -radius), min(high, radius)
    if low >= high:
        return 0.0
    first, last = math.asin(low / radius), math.asin(high / radius)
    middle, half = 0.5 * (first + last), 0.5 * (last - first)
    return sum(
        weight * half * radius * math.cos(middle + half * node) * height(radius * math.cos(middle + half * node))
        for node, weight in zip(NODES, WEIGHTS, strict=True)
    )


def inside(radius, left, right, near, far):
    """Area of a circle within a rectangle around its centre; strips change where the circle leaves the rectangle."""
    kinks = {-left, right}
    for cut in (near, far):
        if cut < radius:
            kinks |= {math.sqrt(radius**2 - cut**2), -math.sqrt(radius**2 - cut**2)}
    ends = sorted(max(-radius, -left, min(radius, right, each)) for each in kinks | {-radius, radius})
    return sum(strips(radius, low, high, lambda half: min(half, near) + min(half, far)) for low, high in pairwise(ends))


def shared(one, other, at, left, right, near, far):
    """Area that two circles of any radii share within a rectangle around the centre of the one; ``at`` of the other.

    In strips along x, between all places where their ends may change from one curve to another: ends of the circles
    and of the rectangle, where the circles meet, and where each meets the sides along x.
    """
    dx, dy = at
    low, high = max(-left, -one, dx - other), min(right, one, dx + other)
    if low >= high:
        return 0.0
    kinks = {low, high}
    for x, y, radius in ((0.0, 0.0, one), (dx, dy, other)):
        for side in (-near, far):
            if abs(side - y) < radius:
                half = math.sqrt(radius**2 - (side - y) ** 2)
                kinks |= {x - half, x + half}
    apart = math.hypot(dx, dy)
    if abs(one - other) < apart < one + other:
        chord = (apart**2 + one**2 - other**2) / (2.0 * apart)
        half = math.sqrt(one**2 - chord**2)
        kinks |= {(chord * dx + sign * half * dy) / apart for sign in (-1, 1)}

    def height(x):
        first, second = (math.sqrt(max(r**2 - (x - c) ** 2, 0.0)) for r, c in ((one, 0.0), (other, dx)))
        return max(0.0, min(far, first, dy + second) - max(-near, -first, dy - second))

    total = 0.0
    for start, end in pairwise(sorted(min(max(kink, low), high) for kink in kinks)):
        middle, half = 0.5 * (start + end), 0.5 * (end - start)
        for node, weight in zip(NODES, WEIGHTS, strict=True):
            angle = 0.5 * math.pi * node
            total += weight * 0.5 * math.pi * half * math.cos(angle) * height(middle + half * math.sin(angle))
    return total


@dataclass
class Area:
    """What a bolt has of its projected area, and what cut it."""

    net: float
    cuts: set = field(default_factory=set)


def _divided(own, common, cuts):
    """Half of what is shared goes to the neighbour; but no more than an equal part of all."""
    common = [each for each in common if each > 0.0]
    halves, equal = own - 0.5 * sum(common), own / (1 + len(common))
    if common:
        cuts = cuts | {"overlap"}
    if equal > halves:
        cuts = cuts | {"equal part"}
    return Area(max(halves, equal), cuts)


def _reach(bolts, one, edges):
    x, y = bolts[one]
    return {
        "x_minus": edges["x_minus"] + x,
        "x_plus": edges["x_plus"] - x,
        "y_minus": edges["y_minus"] + y,
        "y_plus": edges["y_plus"] - y,
    }


def tension_area(bolts, one, edges, l_b):
    """6.2.2, the circle of radius l_b on the face of the masonry."""
    reach = _reach(bolts, one, edges)
    sides = [reach[side] for side in SIDES]
    own = inside(l_b, *sides)
    x, y = bolts[one]
    others = [bolt for at, bolt in enumerate(bolts) if at != one]
    common = [shared(l_b, l_b, (other[0] - x, other[1] - y), *sides) for other in others]
    return _divided(own, common, {side for side in SIDES if reach[side] < l_b})


def shear_area(bolts, one, edges, side, thickness):
    """6.2.3, the half circle of radius l_be in the face of the edge ``side``."""
    along = 1 if side[0] == "x" else 0
    names = [each for each in SIDES if each[0] != side[0]]

    def half(bolt):
        reach = _reach(bolts, bolt, edges)
        left, right = (reach[name] for name in names)
        return reach[side], left, right, inside(reach[side], left, right, 0.0, thickness)

    radius, left, right, own = half(one)
    cuts = {name for name, cut in (("left", left), ("right", right), ("behind", thickness)) if cut < radius}
    common = []
    for other in range(len(bolts)):
        if other != one:
            apart = bolts[other][along] - bolts[one][along]
            common.append(shared(radius, half(other)[0], (apart, 0.0), left, right, 0.0, thickness))
    return _divided(own, common, cuts)


def distribution(bolts, force, moment, at):
    """Forces of the bolts under a rigid plate: plane in tension, turning about the centre in shear.

    Bolts on a line are only to be loaded where they need no moment across it.
    """
    n = len(bolts)
    mean = [sum(bolt[axis] for bolt in bolts) / n for axis in (0, 1)]
    off = [(x - mean[0], y - mean[1]) for x, y in bolts]
    v_x, v_y, pull = force
    x, y, z = at[0] - mean[0], at[1] - mean[1], at[2]
    m_x = moment[0] + y * pull - z * v_y
    m_y = moment[1] + z * v_x - x * pull
    m_z = moment[2] + x * v_y - y * v_x
    s_xx, s_yy, s_xy = (sum(a[i] * a[j] for a in off) for i, j in ((0, 0), (1, 1), (0, 1)))
    det, polar = s_xx * s_yy - s_xy**2, s_xx + s_yy
    # sum n y = m_x, sum n x = -m_y
    flat = det <= 1e-9 * polar**2
    b, c = (0.0, 0.0) if flat else ((-m_y * s_yy - m_x * s_xy) / det, (m_x * s_xx + m_y * s_xy) / det)
    turn = m_z / polar if n > 1 else 0.0
    return [(pull / n + b * dx + c * dy, v_x / n - turn * dy, v_y / n + turn * dx) for dx, dy in off]


@dataclass
class Worst:
    """The worst of a mode: load case, bolt and edge, and every other that is as bad but for rounding."""

    utilisation: float
    strength: float
    demand: float
    places: list


@dataclass
class Verdict:
    """Modes that apply, reasons why others don't, what fails, and what was reached on the way."""

    modes: dict
    reasons: dict
    violations: set
    reached: set

    @property
    def governing(self):
        return max(self.modes, key=lambda mode: self.modes[mode].utilisation)

    @property
    def status(self):
        worst = self.modes[self.governing].utilisation
        return "failed" if worst > 1.0 or self.violations else "passed"


def _out_of_place(bolts, edges, thickness, h_ef, d_b, e_b):
    """TMS 402 6.2.1, from memory: 1/4 in of fine grout beside a bolt, a diameter and 1 in at least clear between two.

    Behind a bolt in the side of concrete units is their far face shell, of 1-1/4 in (ASTM C90, from memory), and a head
    is 5/8 of a diameter high (ASME B18.2.1, from memory).
    """
    found = set()
    for x, y in bolts:
        ways = {"x_minus": x, "x_plus": -x, "y_minus": y, "y_plus": -y}
        if min(edges[side] + ways[side] for side in SIDES) < (d_b / 2 + 0.25) * (1 - 1e-9):
            found.add("masonry-edge-below-minimum")
    clear = [math.dist(one, other) - d_b for i, one in enumerate(bolts) for other in bolts[:i]]
    if min(clear, default=math.inf) < max(d_b, 1.0) * (1 - 1e-9):
        found.add("masonry-spacing-below-minimum")
    head = 0.625 * d_b if e_b is None else 0.0
    if thickness < (h_ef + head + 0.25 + 1.25) * (1 - 1e-9):
        found.add("masonry-thickness-below-minimum")
    return found


def verdict(*, bolts, cases, edges, thickness, f_m, h_ef, d_b, a_b, f_y, e_b, method, edition):
    """``cases``: name and forces of each bolt (tension, V_x, V_y); ``e_b`` is None of a headed bolt."""
    k = COEFFICIENTS[method]
    l_b = h_ef - d_b if e_b is not None else h_ef
    root = math.sqrt(f_m)
    modes, reached = {}, set()

    def take(mode, case, bolt, demand, strength, edge=None):
        ratio, place = demand / strength, (case, bolt, edge)
        if mode not in modes or ratio > modes[mode].utilisation * (1.0 + 1e-10):
            modes[mode] = Worst(ratio, strength, demand, [place])
        elif ratio > modes[mode].utilisation * (1.0 - 1e-10):
            modes[mode].places.append(place)
        return ratio

    pulled = any(n > 0.0 for _, forces in cases for n, _, _ in forces)
    sheared = any(x or y for _, forces in cases for _, x, y in forces)
    for case, forces in cases:
        for bolt, (n, v_x, v_y) in enumerate(forces):
            n, v = max(n, 0.0), math.hypot(v_x, v_y)
            area = tension_area(bolts, bolt, edges, l_b)
            ratios = {"tension": [], "shear": []}
            if pulled:
                reached |= {f"tension {cut}" for cut in area.cuts}
                strengths = {"masonry_steel_tension": k["steel"] * a_b * f_y}
                if e_b is not None:
                    bearing = k["bearing"] * f_m * e_b * d_b
                    strengths["masonry_pullout"] = bearing + k["bond"] * math.pi * (l_b + e_b + d_b) * d_b
                strengths["masonry_breakout_tension"] = k["cone"] * area.net * root
                ratios["tension"] = [take(mode, case, bolt, n, each) for mode, each in strengths.items()]
            if sheared:
                reached |= {f"pryout {cut}" for cut in area.cuts}
                ways = {"x_minus": -v_x, "x_plus": v_x, "y_minus": -v_y, "y_plus": v_y}
                edged = []
                for side in SIDES:
                    if ways[side] > NOISE * v and math.isfinite(edges[side]):
                        half = shear_area(bolts, bolt, edges, side, thickness)
                        reached |= {f"shear {cut}" for cut in half.cuts} | {f"towards {side}"}
                        edged.append(take("masonry_breakout_shear", case, bolt, v, k["cone"] * half.net * root, side))
                strengths = {
                    "masonry_steel_shear": k["steel_v"] * a_b * f_y,
                    "masonry_crushing": CRUSHING[method, edition] * math.sqrt(math.sqrt(f_m * a_b)),
                    "masonry_pryout": k["pry"] * area.net * root,
                }
                ratios["shear"] = edged + [take(mode, case, bolt, v, each) for mode, each in strengths.items()]
                if len(edged) > 1:
                    reached.add("two edges")
            if n > 0.0 and v > 0.0:
                tension, shear = max(ratios["tension"]), max(ratios["shear"])
                power = 1.0 if edition == "tms402_13" else 5.0 / 3.0
                together = (tension**power + shear**power) ** (1.0 / power)
                take("masonry_interaction", case, bolt, together, 1.0)
    violations = set()
    if l_b < max(4.0 * d_b, 2.0) * (1.0 - 1e-9):
        violations.add("masonry-embedment-below-minimum")
    violations |= _out_of_place(bolts, edges, thickness, h_ef, d_b, e_b)
    if any(n < 0.0 for _, forces in cases for n, _, _ in forces):
        violations.add("anchor-pushed")
    reasons = {mode: _reason(mode, e_b, pulled, sheared) for mode in MODES if mode not in modes}
    return Verdict({mode: modes[mode] for mode in MODES if mode in modes}, reasons, violations, reached)


def _reason(mode, e_b, pulled, sheared):
    if mode == "masonry_pullout" and e_b is None:
        return "not-a-bent-bar"
    if mode == "masonry_interaction":
        return "tension-or-shear-only"
    if mode == "masonry_breakout_shear":
        return "no-edge-sheared"
    return "no-shear" if sheared is False else "no-tension" if pulled is False else "applies"
