"""A scalar calculation of every check of one anchor by ACI 318-19 chapter 17, in plain Python.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions, not
from the formulas of the service, and shares no line with them. It catches what the arrays get wrong (masks, axes,
branches), not what both have misread. Units: in, in2, psi, lbf. Shear stands in `independent_shear`, bond and the
share of earthquake in `independent_bond`; `whole` joins them.
"""

import math
from dataclasses import dataclass

from core.aci318_19 import independent_bond as bonded
from core.aci318_19 import independent_shear as sheared


@dataclass(frozen=True, kw_only=True)
class Anchor:
    """One anchor, its base and its load; ``edges`` are x_minus, x_plus, y_minus, y_plus."""

    principle: str  # "headed", "hooked", "expansion", "undercut", "screw", "adhesive"
    category: int
    d_a: float
    a_se: float
    f_uta: float
    f_ya: float
    ductile: bool
    h_ef: float
    c_ac: float
    k: tuple[float, float] | None  # product's k_cr, k_uncr, or the code's k_c
    n_p: tuple[float, float]
    n_p_eq: float | None  # N_p,eq where the simulated seismic tests count
    n_p_exponent: float
    n_p_tested_at: float
    n_p_tested_in_lightweight: bool
    pullout_governs: bool
    bonds: tuple[float, float]  # tau_cr, tau_uncr
    alpha: float
    bond_exponent: float
    bond_tested_at: float
    a_brg: float
    e_h: float
    stud: bool
    sleeve: bool
    v_sa: float | None  # by tests
    f_c: float
    lightweight: bool
    density_factor: float
    cracked: bool
    supplementary: bool
    edges: tuple[float, float, float, float]
    thickness: float
    edge_bars: str  # "none", "bar", "stirrups"
    bars_n: tuple[float, float] | None  # area and yield strength of anchor reinforcement
    bars_v: tuple[float, float] | None
    welded: bool  # to steel that is thick enough
    pad: bool
    oblique: str  # "vector", "separate", "linear"
    curve: bool
    seismic_category: str
    load: float
    load_that_stays: float
    load_of_earthquake: float
    shear: tuple[float, float]
    turns: tuple[bool, bool]  # whether the shear along x, y may act either way

    @property
    def cast_in(self):
        return self.principle in ("headed", "hooked")


def strength_used(a):
    """17.3.1."""
    cap = 10_000.0 if a.cast_in else 8_000.0
    return cap if a.f_c > cap else a.f_c


def lightweight_factor(a):
    """Table 17.2.4.1, concrete failure; 1.0 in normalweight concrete."""
    if not a.lightweight:
        return 1.0
    if a.principle in ("headed", "hooked", "undercut"):
        return a.density_factor
    return 0.8 * a.density_factor


def phi_concrete(a):
    """Table 17.5.3(b)."""
    if a.cast_in:
        return 0.75 if a.supplementary else 0.70
    return {1: 0.65, 2: 0.55, 3: 0.45}[a.category] + (0.10 if a.supplementary else 0.0)


def phi_pullout(a):
    """Table 17.5.3(c)."""
    return 0.70 if a.cast_in else {1: 0.65, 2: 0.55, 3: 0.45}[a.category]


def steel(a):
    """17.6.1."""
    usable = sorted([a.f_uta, 1.9 * a.f_ya, 125_000.0])[0]
    return (0.75 if a.ductile else 0.65) * usable * a.a_se


def pullout(a):
    """17.6.3, nominal; None where the product's data say that it does not govern, and with adhesive."""
    if a.principle == "adhesive" or not a.pullout_governs:
        return None
    f_c = strength_used(a)
    if a.principle == "headed":
        nominal = 8.0 * f_c * a.a_brg * (1.0 if a.cracked else 1.4)
    elif a.principle == "hooked":
        nominal = 0.9 * f_c * a.d_a * a.e_h * (1.0 if a.cracked else 1.4)
    else:
        nominal = a.n_p[0] if a.cracked else a.n_p[1]
        if a.n_p_eq is not None:
            nominal = a.n_p_eq
        nominal *= math.exp(a.n_p_exponent * math.log(f_c / a.n_p_tested_at))
        if not a.n_p_tested_in_lightweight:
            nominal *= lightweight_factor(a)
    return nominal


def breakout(a):
    """17.6.2 for one anchor under a concentric load, nominal."""
    within = [c for c in a.edges if c < 1.5 * a.h_ef]
    depth = max(within) / 1.5 if len(within) > 2 else a.h_ef
    width = sum(c if c < 1.5 * depth else 1.5 * depth for c in a.edges[:2])
    height = sum(c if c < 1.5 * depth else 1.5 * depth for c in a.edges[2:])
    share = width * height / (3.0 * depth) ** 2

    nearest = sorted(a.edges)[0]
    psi_ed = 1.0 if nearest >= 1.5 * depth else 0.7 + 0.3 * nearest / (1.5 * depth)

    psi_c = 1.0
    if not a.cracked and a.k is None:
        psi_c = 1.25 if a.cast_in else 1.4

    psi_cp = 1.0
    if not a.cracked and not a.cast_in and nearest < a.c_ac:
        psi_cp = max(nearest, 1.5 * a.h_ef) / a.c_ac
        psi_cp = 1.0 if psi_cp > 1.0 else psi_cp

    if a.k is None:
        k_c = 24.0 if a.cast_in else 17.0
    else:
        k_c = a.k[0] if a.cracked else a.k[1]
        k_c = 24.0 if k_c > 24.0 else k_c
    root = math.sqrt(strength_used(a)) * lightweight_factor(a)
    basic = k_c * root * depth * math.sqrt(depth)
    if a.principle == "headed" and 11.0 <= depth <= 25.0:
        other = 16.0 * root * depth * math.exp(2.0 / 3.0 * math.log(depth))
        basic = other if other > basic else basic
    return share * psi_ed * psi_c * psi_cp * basic


def blowout(a):
    """17.6.4 of one anchor: edge number to nominal strength, for each edge with h_ef > 2.5 c_a1."""
    if a.principle != "headed":
        return {}
    found = {}
    for i, c_a1 in enumerate(a.edges):
        if not a.h_ef > 2.5 * c_a1:
            continue
        nominal = 160.0 * c_a1 * math.sqrt(a.a_brg * strength_used(a)) * lightweight_factor(a)
        c_a2 = min(a.edges[2:] if i in (0, 1) else a.edges[:2])
        if c_a2 < 3.0 * c_a1:
            nominal *= (1.0 + max(c_a2 / c_a1, 1.0)) / 4.0
        found[i] = nominal
    return found


def bond(a):
    """17.6.5: N_ba and N_a; None without adhesive."""
    if a.principle != "adhesive":
        return None
    stress = bonded.characteristic_bond(
        cracked=a.cracked,
        seismic=a.seismic_category in "CDEF",
        bonds=a.bonds,
        alpha=a.alpha,
        f_c=strength_used(a),
        tested_at=a.bond_tested_at,
        exponent=a.bond_exponent,
    )
    light = 0.6 * a.density_factor if a.lightweight else 1.0
    basic = bonded.basic_bond(d=a.d_a, depth=a.h_ef, bond=stress, light=light)
    nominal = bonded.modified(
        basic=basic,
        edges=a.edges,
        c=bonded.reach(d=a.d_a, uncracked_bond=a.bonds[1]),
        off_centre=(),
        cracked=a.cracked,
        critical=a.c_ac,
    )
    return basic, nominal


def tension(a):
    """Modes in tension: name and edge (-1 without) to design strength and load."""
    factor = 1.0
    if bonded.much_earthquake(category=a.seismic_category, total=a.load, earthquake=a.load_of_earthquake):
        factor = 0.75
    found = {("steel_tension", -1): (steel(a), a.load)}
    if pullout(a) is not None:
        found["pullout", -1] = factor * phi_pullout(a) * pullout(a), a.load
    if a.bars_n is None:
        found["concrete_breakout_tension", -1] = factor * phi_concrete(a) * breakout(a), a.load
    else:
        bars = sheared.reinforcement(area=a.bars_n[0], yield_=a.bars_n[1])
        found["anchor_reinforcement_tension", -1] = bars, a.load
    for edge, nominal in blowout(a).items():
        found["side_face_blowout", edge] = factor * phi_concrete(a) * nominal, a.load
    if bond(a) is not None:
        found["adhesive_bond", -1] = factor * phi_concrete(a) * bond(a)[1], a.load
    return found


def to_and_along(a, edge):
    """Shear towards and along an edge."""
    axis = edge // 2
    outward = a.shear[axis] if edge % 2 else -a.shear[axis]
    if a.turns[axis]:
        outward = abs(outward)
    return (outward if outward > 0.0 else 0.0), abs(a.shear[1 - axis])


def breakout_of_edges(a):
    """17.7.2: edge to design strength in the direction of the load, load and ratio."""
    found = {}
    for edge, c1 in enumerate(a.edges):
        towards, along = to_and_along(a, edge)
        if c1 == math.inf or (towards == 0.0 and along == 0.0):
            continue
        across = a.edges[2:] if edge in (0, 1) else a.edges[:2]
        strengths = sheared.edge(
            c1=c1,
            across=across,
            thickness=a.thickness,
            gap=0.0,
            extent=0.0,
            n=1,
            eccentricity=0.0,
            cracked=a.cracked,
            reinforcement=a.edge_bars,
            h_ef=a.h_ef,
            d=a.d_a,
            sleeve=a.sleeve,
            welded=a.welded and min(across) > 1.5 * a.h_ef,
            light=lightweight_factor(a),
            f_c=strength_used(a),
        )
        phi = 0.75 if a.supplementary else 0.70
        ratio = sheared.edge_ratio(towards=towards, along=along, strengths=strengths, phi=phi, way=a.oblique)
        load = math.sqrt(towards * towards + along * along)
        found[edge] = load / ratio, load
    return found


def shear(a):
    """Modes in shear: name and edge (-1 without) to design strength and load."""
    load = math.sqrt(a.shear[0] ** 2 + a.shear[1] ** 2)
    if load == 0.0:
        return {}
    body = sheared.steel(
        area=a.a_se,
        ultimate=a.f_uta,
        yield_=a.f_ya,
        ductile=a.ductile,
        stud=a.stud,
        test_value=a.v_sa,
        pad=a.pad,
    )
    behind = sheared.pryout(h_ef=a.h_ef, breakout=breakout(a), bond=None if bond(a) is None else bond(a)[1])
    found = {("steel_shear", -1): (body, load), ("pryout", -1): (0.70 * behind, load)}
    if a.bars_v is None:
        for edge, checked in breakout_of_edges(a).items():
            found["concrete_breakout_shear", edge] = checked
    else:
        bars = sheared.reinforcement(area=a.bars_v[0], yield_=a.bars_v[1])
        found["anchor_reinforcement_shear", -1] = bars, load
    return found


def whole(a):
    """Every check: name and edge (-1 without) to design strength, load and ratio; strength is None of a bare ratio."""
    pulled, pushed = tension(a), shear(a)
    found = {place: (strength, load, load / strength) for place, (strength, load) in (pulled | pushed).items()}
    if a.load > 0.0 and pushed:
        ratio = sheared.together(
            tension=max(found[place][2] for place in pulled),
            shear=max(found[place][2] for place in pushed),
            curve=a.curve,
        )
        found["tension_shear_interaction", -1] = None, None, ratio
    if bond(a) is not None and a.load_that_stays > 0.0:
        strength = bonded.sustained(basic=bond(a)[0], phi=phi_concrete(a))
        found["sustained_bond", -1] = strength, a.load_that_stays, a.load_that_stays / strength
    return found


def least_of_concrete(a):
    """17.10.5.3(a): least nominal strength of the concrete, or of the bars in place of breakout."""
    bars = None if a.bars_n is None else a.bars_n[0] * a.bars_n[1]
    candidates = [pullout(a), breakout(a) if bars is None else bars, bond(a) and bond(a)[1], *blowout(a).values()]
    return min(nominal for nominal in candidates if nominal is not None)
