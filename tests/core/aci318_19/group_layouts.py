"""Random fixtures with one to nine anchors for `independent_group`, seeded: layouts, bases, products and loads.

All of it is invented: no product, no job. A fixture is the dictionary that `independent_group` describes, and also
says by what it was made: ``pattern``, ``family`` and ``loading``. Units: in, in2, psi, lbf, lbf*in.
"""

import math
import random

from core.aci318_19.independent_statics import UnbalancedError, shears, tensions

PATTERNS = ("single", "row", "rectangle", "circle", "ell", "random")
FAMILIES = ("headed", "hooked", "expansion", "adhesive")
LOADINGS = (
    "tension",
    "eccentric",
    "moments",
    "pushed",
    "towards",
    "along",
    "oblique",
    "torsion",
    "tension_and_shear",
    "everything",
)
SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")

BASE = {
    "anchors": [(0.0, 0.0)],
    "plate": None,
    "h_a": 100.0,
    "h_ef": 4.0,
    "d_a": 0.5,
    "a_se": 0.2,
    "f_uta": 100e3,
    "f_ya": 100e3,
    "ductile": False,
    "cast_in": True,
    "headed": True,
    "a_brg": 1.0,
    "category": 1,
    "c_ac": 10.0,
    "product_k_c": False,
    "k_cr": 17.0,
    "k_uncr": 24.0,
    "n_p": None,
    "adhesive": False,
    "tau_cr": 1_000.0,
    "tau_uncr": 1_100.0,
    "cracked": True,
    "f_c": 2_500.0,
    "lambda_a": 1.0,
    "supplementary": False,
    "edge_reinforcement": 0,
    "welded": False,
    "welded_stud": False,
    "grout_pad": False,
    "oblique": "vector",
    "power": False,
    "bounding": False,
    "seismic_075": False,
    **dict.fromkeys(("n", "v_x", "v_y", "m_x", "m_y", "m_z", "sustained"), 0.0),
}


def fixture(*, edges=(math.inf,) * 4, **changes):
    """A cast-in headed anchor, 4 in deep in cracked 2,500 psi, or what is changed of it."""
    f = BASE | changes
    f["edges"] = dict(zip(SIDES, edges, strict=True))
    f.setdefault("resists", [(True, True)] * len(f["anchors"]))
    return f


def fixtures(count, seed=0):
    """Fixtures that can hold their load in equilibrium."""
    rng = random.Random(seed)
    found = []
    while len(found) < count:
        fixture = _fixture(rng)
        try:
            tensions(fixture)
            shears(fixture)
        except UnbalancedError:
            continue
        found.append(fixture)
    return found


def _spread(rng, low, high):
    return math.exp(rng.uniform(math.log(low), math.log(high)))


def _coin(rng, share=0.5):
    return rng.random() < share


def _fixture(rng):
    family = rng.choice(FAMILIES)
    product = _product(rng, family)
    pattern = rng.choices(PATTERNS, (1, 2, 3, 1, 1, 1))[0]
    anchors = _anchors(rng, pattern, product)
    count = len(anchors)
    slotted = _coin(rng, 0.25)
    resists = [rng.choice([(True, True), (True, False), (False, True)]) if slotted else (True, True) for _ in anchors]
    margin = 2.0 * product["d_a"]
    edges = _edges(rng, anchors, margin, product["h_ef"])
    f = {
        "pattern": pattern,
        "family": family,
        "anchors": anchors,
        "resists": resists,
        "edges": edges,
        "plate": _plate(rng, anchors, margin),
        "h_a": product["h_ef"] * (rng.uniform(1.15, 1.6) if _coin(rng) else rng.uniform(1.6, 8.0)),
        "lambda_a": rng.choice([1.0, 1.0, 0.75]),
        "supplementary": _coin(rng, 0.3),
        "edge_reinforcement": rng.choice([0, 0, 1, 2]),
        "welded": product["cast_in"] and _coin(rng, 0.3),
        "grout_pad": _coin(rng, 0.2),
        "oblique": rng.choice(["vector", "vector", "separate", "linear"]),
        "power": _coin(rng, 0.3),
        "bounding": _coin(rng, 0.2),
        "seismic_075": _coin(rng, 0.2),
        "sustained": rng.choice([0.0, 1.0, rng.random()]),
        **product,
    }
    return f | _loads(rng, f, scale=count * product["a_se"] * 2e4)


def _product(rng, family):
    d_a = _spread(rng, 0.25, 1.25)
    cast_in, cracked, f_c = family in ("headed", "hooked"), _coin(rng), _spread(rng, 2_500.0, 8_000.0)
    h_ef = d_a * (rng.uniform(8.0, 24.0) if cast_in else rng.uniform(4.0, 20.0 if family == "adhesive" else 10.0))
    a_brg = math.pi / 4.0 * d_a * d_a * rng.uniform(1.2, 4.0) if family == "headed" else 0.0
    state = 1.0 if cracked else 1.4
    n_p = {
        "headed": 8.0 * a_brg * f_c * state,
        "hooked": 0.9 * f_c * d_a * d_a * rng.uniform(3.0, 4.5) * state,
        "expansion": rng.choice([None, 17.0 * math.sqrt(f_c) * h_ef**1.5 * rng.uniform(0.4, 1.3)]),
        "adhesive": None,
    }[family]
    tau_uncr = _spread(rng, 600.0, 3_000.0)
    return {
        "d_a": d_a,
        "a_se": math.pi / 4.0 * d_a * d_a * rng.uniform(0.7, 1.0),
        "h_ef": h_ef,
        "f_uta": rng.uniform(58e3, 140e3),
        "f_ya": rng.uniform(30e3, 105e3),
        "ductile": _coin(rng),
        "cast_in": cast_in,
        "headed": family == "headed",
        "a_brg": a_brg,
        "category": rng.choice([1, 2, 3]),
        "c_ac": h_ef * rng.uniform(1.2, 4.0),
        "product_k_c": not cast_in and _coin(rng, 0.6),
        "k_cr": rng.uniform(17.0, 26.0),
        "k_uncr": rng.uniform(20.0, 30.0),
        "n_p": n_p,
        "adhesive": family == "adhesive",
        "tau_cr": tau_uncr * rng.uniform(0.3, 0.9),
        "tau_uncr": tau_uncr,
        "welded_stud": family == "headed" and _coin(rng, 0.3),
        "cracked": cracked,
        "f_c": f_c,
    }


def _anchors(rng, pattern, product):
    """Places of the anchors: from close together to beyond every limit, to 1e-12 in so that equal places are equal."""
    space = max(product["h_ef"] * _spread(rng, 0.4, 4.0), 3.0 * product["d_a"])
    turn = math.radians(rng.choice([0.0, 90.0, 90.0 * rng.random(), 45.0]))
    if pattern == "single":
        places = [(0.0, 0.0)]
    elif pattern == "row":
        places = [(i * space, 0.0) for i in range(rng.randint(2, 6))]
    elif pattern == "rectangle":
        other = max(product["h_ef"] * _spread(rng, 0.4, 4.0), 3.0 * product["d_a"])
        turn = rng.choice([0.0, 0.0, 0.0, turn])
        columns, rows = rng.choice([(2, 2), (2, 2), (2, 3), (3, 2), (3, 3), (4, 2), (2, 4)])
        places = [(i * space, j * other) for j in range(rows) for i in range(columns)]
    elif pattern == "circle":
        count = rng.randint(3, 8)
        radius = space / (2.0 * math.sin(math.pi / count))
        angles = [2.0 * math.pi * i / count for i in range(count)]
        places = [(radius * math.cos(angle), radius * math.sin(angle)) for angle in angles]
    elif pattern == "ell":
        legs = rng.randint(1, 3), rng.randint(1, 3)
        places = [(0.0, 0.0), *((space * (i + 1), 0.0) for i in range(legs[0]))]
        places += [(0.0, space * (i + 1)) for i in range(legs[1])]
    else:
        places = _scattered(rng, rng.randint(2, 9), space)
    x_c, y_c = (sum(place[axis] for place in places) / len(places) for axis in (0, 1))
    cos, sin = math.cos(turn), math.sin(turn)
    moved = [((x - x_c) * cos - (y - y_c) * sin, (x - x_c) * sin + (y - y_c) * cos) for x, y in places]
    shift = (0.0, 0.0)
    if pattern != "single" and _coin(rng, 0.3):
        shift = (rng.uniform(-0.5, 0.5) * space, rng.uniform(-0.5, 0.5) * space)
    return [(round(x + shift[0], 12), round(y + shift[1], 12)) for x, y in moved]


def _scattered(rng, count, space):
    side, places = space * math.sqrt(count) * 1.5, []
    while len(places) < count:
        place = rng.uniform(0.0, side), rng.uniform(0.0, side)
        if all(math.dist(place, other) > 0.6 * space for other in places):
            places.append(place)
    return places


def _reach(anchors):
    xs, ys = zip(*anchors, strict=True)
    return {"x_minus": -min(xs), "x_plus": max(xs), "y_minus": -min(ys), "y_plus": max(ys)}


def _edges(rng, anchors, margin, h_ef):
    """From the origin: none to four, often three or more near ones."""
    reach = _reach(anchors)
    kept = rng.choice([0, 1, 2, 3, 4])
    near = kept >= 3 and _coin(rng, 0.6)
    present = set(rng.sample(SIDES, kept))

    def distance():
        return margin * 1.1 + h_ef * (rng.uniform(0.05, rng.choice([0.35, 1.3])) if near else _spread(rng, 0.05, 5.0))

    return {side: reach[side] + distance() if side in present else math.inf for side in SIDES}


def _plate(rng, anchors, margin):
    if _coin(rng, 0.4):
        return None
    reach = _reach(anchors)
    beyond = [margin * rng.uniform(0.5, 1.0) for _ in SIDES]
    ends = [reach[side] + more for side, more in zip(SIDES, beyond, strict=True)]
    return (-ends[0], ends[1], -ends[2], ends[3], _coin(rng, 0.7))


def _loads(rng, f, scale):
    """Loads at the origin; a line of anchors that no concrete helps takes moments about its own axis only."""
    loading = rng.choice(LOADINGS)
    n = scale * _spread(rng, 0.05, 0.5)
    if loading in ("towards", "along", "oblique", "torsion") or (loading == "moments" and _coin(rng)):
        n = 0.0
    if loading == "pushed":
        n = -n
    v_x, v_y, twist = _shear(rng, f["edges"], loading, scale * 0.3)
    g_x = g_y = 0.0  # sums of T x and T y about the centroid
    if loading in ("eccentric", "moments", "pushed", "everything"):
        arm = max(max(math.hypot(*place) for place in f["anchors"]), f["d_a"])
        size, angle = scale * arm * _spread(rng, 0.02, 0.5), rng.uniform(0.0, 2.0 * math.pi)
        angle = rng.choice([angle, angle, 0.0, math.pi / 2.0])
        g_x, g_y = size * math.cos(angle), size * math.sin(angle)
    x_c, y_c = (sum(place[axis] for place in f["anchors"]) / len(f["anchors"]) for axis in (0, 1))
    if f["plate"] is None or not f["plate"][4]:
        g_x, g_y = _held(f["anchors"], g_x, g_y)
    return {
        "loading": loading,
        "n": n,
        "m_x": n * y_c + g_y,
        "m_y": -(n * x_c + g_x),
        "v_x": v_x,
        "v_y": v_y,
        "m_z": 0.0 if len(f["anchors"]) == 1 else twist + x_c * v_y - y_c * v_x,
    }


def _shear(rng, edges, loading, size):
    """Shear along x and y, and torsion about the centroid."""
    if loading in ("tension", "eccentric", "moments", "pushed"):
        return 0.0, 0.0, 0.0
    v = size * _spread(rng, 0.05, 1.0)
    twist = v * rng.uniform(-5.0, 5.0)
    if loading in ("towards", "along"):
        side = rng.choice([side for side in SIDES if edges[side] < math.inf] or SIDES)
        outward = v if side.endswith("plus") else -v
        along_x = (side[0] == "x") == (loading == "towards")
        return (outward, 0.0, 0.0) if along_x else (0.0, outward, 0.0)
    angle = rng.uniform(0.0, 2.0 * math.pi)
    both = (v * math.cos(angle), v * math.sin(angle))
    if loading == "torsion":
        return (*both, twist) if _coin(rng) else (0.0, 0.0, twist)
    return *both, rng.choice([0.0, twist])


def _held(anchors, g_x, g_y):
    """The part of a moment that anchors on one line can hold."""
    (x, y), (a, b) = min(anchors), max(anchors)
    length = math.hypot(a - x, b - y)
    if length == 0.0:
        return 0.0, 0.0
    u_x, u_y = (a - x) / length, (b - y) / length
    if any(abs((p - x) * u_y - (q - y) * u_x) > 1e-6 for p, q in anchors):
        return g_x, g_y
    along = g_x * u_x + g_y * u_y
    return along * u_x, along * u_y
