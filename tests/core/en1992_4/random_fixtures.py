"""Random fixtures of one to six fasteners for `independent`, seeded; no product, no job. mm, N, N/mm2."""

import math
import random
from dataclasses import fields

import numpy as np

from core.en1992_4.fasteners import FASTENER
from core.en1992_4.independent import stress_in_fire
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.en1992_4.fastener_cases import FastenerCases

PATTERNS = ("single", "row", "rectangle", "scattered")
LOADINGS = ("tension", "eccentric", "towards", "oblique", "torsion", "everything", "some_loaded")


def fixtures(count, seed):
    rng = random.Random(seed)
    return [_fixture(rng) for _ in range(count)]


def round_fixtures(count, seed):
    """On a grid of 50 mm and 100 mm deep, so that many distances are a limit exactly: spacings, edges, diagonals."""
    rng = random.Random(seed)
    found = []
    for _ in range(count):
        f = _fixture(rng) | {"h_ef": 100.0, "s_cr_n": 300.0, "h": rng.choice([150.0, 300.0]), "l_f": 100.0}
        f |= {"h_min": 150.0, "c_cr_sp": rng.choice([125.0, 150.0]), "d_nom": rng.choice([10.0, 20.0])}
        cells = [(50.0 * i, 50.0 * j) for i in range(7) for j in range(7)]
        anchors = rng.sample(cells, len(f["anchors"]))
        away = [rng.choice([25.0, 50.0, 100.0, 150.0, 180.0, 200.0, 1000.0, 1200.0, math.inf]) for _ in range(4)]
        found.append(f | {"anchors": anchors, "edges": _faces(anchors, away)} | _loads(rng, anchors))
    return found


def columns_of(made):
    """`FastenerCases` of the fixtures, one a case."""
    return FastenerCases(
        **{
            own.name: np.array(
                [f[own.name] for f in made], np.bool_ if isinstance(FASTENER[own.name], bool) else np.float64
            )
            for own in fields(FastenerCases)
        }
    )


def anchors_of(made):
    """Their `Anchors`."""
    case = np.concatenate([np.full(len(f["anchors"]), at, dtype=np.intp) for at, f in enumerate(made)])
    x, y = np.concatenate([np.array(f["anchors"], dtype=np.float64) for f in made]).T
    x_low, x_high, y_low, y_high = np.array([f["edges"] for f in made], dtype=np.float64)[case].T
    n, v_x, v_y = (np.concatenate([f[name] for f in made]).astype(np.float64) for name in ("n", "v_x", "v_y"))
    stays = [part * own for f in made for part, own in zip(f["staying"], f["n"], strict=True)]
    return Anchors(
        case=case,
        number=np.concatenate([np.arange(len(f["anchors"])) for f in made]),
        x=x.copy(),
        y=y.copy(),
        c_a=np.stack((x - x_low, x_high - x, y - y_low, y_high - y), axis=1),
        n_ua=n,
        n_ua_s=np.array(stays),
        v_x=v_x,
        v_y=v_y,
        case_count=len(made),
    )


def _coin(rng, share=0.5):
    return rng.random() < share


def _spread(rng, low, high):
    return math.exp(rng.uniform(math.log(low), math.log(high)))


def _fixture(rng):
    product = _product(rng)
    pattern = rng.choices(PATTERNS, (1, 2, 3, 2))[0]
    anchors = _anchors(rng, pattern, product["h_ef"])
    f = {"pattern": pattern, "anchors": anchors, "edges": _edges(rng, anchors, product["h_ef"]), **product}
    return f | _loads(rng, anchors) | NO_EARTHQUAKE | NO_LEVER_ARM | NOT_BONDED | NO_FIRE


def shaken_fixtures(count, seed):
    """Fixtures in cracked concrete, most of them under earthquake; data up to the static resistances."""
    rng = random.Random(seed)
    return [_shaken(rng, f | {"cracked": True}) for f in fixtures(count, seed)]


NOT_BONDED = {
    "bonded": False,
    "tau_cr": 0.0,
    "tau_ucr": 1.0,
    "tau_eq": 0.0,
    "tau_exponent": 0.0,
    "psi0_sus": 1.0,
    "open_share": 1.0,
    "psi_2": 0.0,
}


def bonded_fixtures(count, seed):
    """Bonded fasteners, a quarter under earthquake; a part of each tension stays, now and then more than all."""
    rng = random.Random(seed)
    return [_bonded(rng, f) for f in fixtures(count, seed)]


def _bonded(rng, f):
    tau, shaken = _spread(rng, 3.0, 30.0), _coin(rng, 0.25)
    most = rng.choice([0.5, 1.0, 1.1])
    own = {
        "d_nom": f["h_ef"] / rng.choice([rng.uniform(4.0, 20.0), rng.uniform(4.0, 8.0)]),
        "headed": False,
        "a_h": 0.0,
        "post_installed": True,
        "pull_out_governs": False,
        "pull_out_by_tests": False,
        "k_cr_n": 7.7,
        "k_ucr_n": 11.0,
        "bonded": True,
        "tau_ucr": tau,
        "tau_cr": tau * rng.uniform(0.3, 0.9),
        "tau_eq": tau * rng.uniform(0.1, 0.5),
        "tau_exponent": rng.choice([0.0, rng.uniform(0.05, 0.5)]),
        "psi0_sus": rng.choice([0.6, rng.uniform(0.4, 1.0)]),
        "open_share": rng.choice([1.0, rng.uniform(0.6, 1.0)]),
        "psi_2": rng.choice([0.0, 0.0, 0.2, 0.8]),
        "staying": [rng.uniform(0.0, most) for _ in f["anchors"]],
    }
    return _shaken(rng, f) | own | ({"earthquake": True, "cracked": True} if shaken else NO_EARTHQUAKE)


NO_GROUT = {"on_grout": False, "t_grout": 0.0}
NO_LEVER_ARM = {"lever_arm": False, "free_length": 0.0, "t_fix": 0.0, "clamped": False, "held": False, **NO_GROUT}


NO_FIRE = {"fire": False, "minutes": 0.0, "sigma_fi": 0.0, "as_cone": False}


def burning_fixtures(count, seed):
    """Fixtures in fire, one in five of them with a lever arm, one in seven by a cone in place of pull-out by tests."""
    rng = random.Random(seed)
    return [_burning(rng, f) for f in bent_fixtures(count, seed)]


def _burning(rng, f):
    diameter, minutes = rng.choice([6, 8, 10, 12, 16]), rng.choice([30, 60, 90, 120])
    material = rng.choice(["carbon", "stainless"])
    own = {
        "fire": True,
        "minutes": float(minutes),
        "cracked": True,
        "h_ef": f["h_ef"] * rng.choice([1.0, 2.0]),
        "sigma_fi": float(stress_in_fire(material, diameter, max(f["h_ef"], 30), minutes)),
        "as_cone": not f["headed"] and _coin(rng, 1 / 7),
        "lever_arm": f["lever_arm"] and _coin(rng, 0.3),
    }
    own["s_cr_n"] = max(f["s_cr_n"], 4 * own["h_ef"])
    if own["as_cone"]:
        own |= {"pull_out_governs": True, "pull_out_by_tests": False}
    return f | own


def bent_fixtures(count, seed):
    """Static fixtures, most of them with a lever arm; a tension that is all of the steel's now and then."""
    rng = random.Random(seed)
    return [_bent(rng, f) for f in fixtures(count, seed)]


def _bent(rng, f):
    if _coin(rng, 0.1) and any(f["n"]):
        f = f | {"n": [own * 2.0 * f["a_s"] * f["f_uk"] / max(f["n"]) for own in f["n"]]}
    return f | {
        "lever_arm": _coin(rng, 0.8),
        "free_length": rng.choice([0.0, _spread(rng, 1.0, 200.0)]),
        "t_fix": _spread(rng, 1.0, 40.0),
        "clamped": _coin(rng),
        "held": _coin(rng),
    }


NO_EARTHQUAKE = {
    "earthquake": False,
    "n0_rk_s_eq": 0.0,
    "v0_rk_s_eq": 0.0,
    "n0_rk_p_eq": 0.0,
    "like_headed": False,
    "gap_filled": False,
}


def _shaken(rng, f):
    steel, shear = f["n_rk_s"] or f["a_s"] * f["f_uk"], f["v0_rk_s"] or 0.5 * f["a_s"] * f["f_uk"]
    return f | {
        "earthquake": _coin(rng, 0.8),
        "n0_rk_s_eq": steel * rng.choice([1.0, rng.uniform(0.6, 1.0)]),
        "v0_rk_s_eq": shear * rng.uniform(0.4, 1.0),
        "n0_rk_p_eq": f["n_rk_p"] * rng.uniform(0.3, 1.0),
        "like_headed": f["headed"] or _coin(rng, 0.2),
        "gap_filled": _coin(rng, 0.4),
    }


def _product(rng):
    headed, by_tests = _coin(rng, 0.4), _coin(rng, 0.6)
    h_ef = _spread(rng, 40.0, 300.0)
    h_min = h_ef * rng.uniform(1.2, 2.0)
    d_nom = rng.choice([_spread(rng, 6.0, 24.0), rng.uniform(24.0, 40.0), h_ef / rng.uniform(3.5, 12.0)])
    f_uk = rng.choice([400.0, 500.0, 800.0, 1000.0, rng.uniform(400.0, 1000.0)])
    a_s = math.pi / 4.0 * d_nom**2 * rng.uniform(0.7, 1.0)
    return {
        "h_ef": h_ef,
        "h": rng.choice([h_ef * rng.uniform(1.05, 1.4), h_min * rng.uniform(0.9, 1.2), h_ef * rng.uniform(1.5, 8.0)]),
        "h_min": h_min,
        "d_nom": d_nom,
        "a_s": a_s,
        "f_uk": f_uk,
        "f_yk": f_uk * rng.uniform(0.6, 0.95),
        "n_rk_s": rng.choice([0.0, a_s * f_uk * rng.uniform(0.7, 1.1)]),
        "v0_rk_s": rng.choice([0.0, a_s * f_uk * rng.uniform(0.4, 0.7)]),
        "k7": rng.choice([1.0, 0.8]),
        "gamma_ms_n": rng.choice([0.0, rng.uniform(1.3, 2.0)]),
        "gamma_ms_v": rng.choice([0.0, rng.uniform(1.2, 1.7)]),
        "gamma_inst": rng.choice([1.0, 1.2, 1.4]),
        "k_cr_n": 8.9 if headed else 7.7,
        "k_ucr_n": 12.7 if headed else rng.choice([11.0, rng.uniform(9.0, 12.0)]),
        "s_cr_n": h_ef * rng.choice([3.0, 3.0, rng.uniform(2.5, 4.0)]),
        "c_cr_sp": h_ef * rng.uniform(1.2, 3.0),
        "n0_rk_sp": rng.choice([0.0, 8.0 * h_ef**1.5 * rng.uniform(2.0, 6.0)]),
        "pull_out_by_tests": by_tests or not headed,
        "pull_out_governs": _coin(rng, 0.7),
        "n_rk_p": 7.7 * math.sqrt(20.0) * h_ef**1.5 * rng.uniform(0.4, 1.3),
        "psi_c_exponent": rng.choice([0.0, 0.5, rng.uniform(0.1, 0.5)]),
        "k8": 1.0 if h_ef < 60.0 else rng.choice([1.0, 2.0, 3.0]),
        "a_h": math.pi / 4.0 * d_nom**2 * rng.uniform(1.0, 4.0) if headed else 0.0,
        "headed": headed,
        "l_f": h_ef * rng.choice([1.0, rng.uniform(0.5, 1.0)]),
        "post_installed": not headed or _coin(rng, 0.2),
        "f_ck_class": rng.choice([12.0, 16.0, 20.0, 25.0, 30.0, 50.0, 60.0, 70.0, 90.0]),
        "cracked": _coin(rng),
        "wide_bars": _coin(rng),
        "splitting_bars": _coin(rng, 0.15),
        "either_x": _coin(rng, 0.1),
        "either_y": _coin(rng, 0.1),
        "own_share": _coin(rng, 0.3),
    }


def _anchors(rng, pattern, h_ef):
    """From close together to beyond every limit; anchors of a row are sometimes a few mm out of it."""
    space, other = (h_ef * _spread(rng, 0.3, 4.5) for _ in range(2))
    if pattern == "single":
        places = [(0.0, 0.0)]
    elif pattern == "row":
        places = [(i * space, 0.0) for i in range(rng.randint(2, 6))]
        places = places if _coin(rng) else [(y, x) for x, y in places]
    elif pattern == "rectangle":
        columns, rows = rng.choice([(2, 2), (2, 2), (2, 3), (3, 2)])
        places = [(i * space, j * other) for j in range(rows) for i in range(columns)]
    else:
        places, side = [], space * 3.0
        count = rng.randint(2, 6)
        while len(places) < count:
            place = rng.uniform(0.0, side), rng.uniform(0.0, side)
            if all(math.dist(place, old) > 0.4 * space for old in places):
                places.append(place)
    if _coin(rng, 0.2):
        places = [(x + rng.uniform(-8.0, 8.0), y + rng.uniform(-8.0, 8.0)) for x, y in places]
    return places


def _edges(rng, anchors, h_ef):
    """None to four, often all near ones or nearer than half of the depth."""
    present = set(rng.sample(range(4), rng.choice([0, 1, 1, 2, 2, 3, 4])))
    reach = rng.choice([0.5, 1.4, 1.4, 6.0, 14.0])
    return _faces(anchors, [h_ef * rng.uniform(0.15, reach) if side in present else math.inf for side in range(4)])


def _faces(anchors, away):
    """Coordinates of the faces so far from the fasteners."""
    ends = [pick(place[axis] for place in anchors) for axis in (0, 1) for pick in (min, max)]
    return tuple(end + (far if side % 2 else -far) for side, (end, far) in enumerate(zip(ends, away, strict=True)))


def _loads(rng, anchors):
    loading, count = rng.choice(LOADINGS), len(anchors)
    n = v_x = v_y = [0.0] * count
    size = _spread(rng, 100.0, 20_000.0)
    if loading in ("tension", "everything") and _coin(rng):
        n = [size] * count
    elif loading in ("eccentric", "everything", "some_loaded"):
        n = [size * rng.random() for _ in anchors]
    if loading in ("towards", "oblique", "torsion", "everything", "some_loaded"):
        angle = rng.uniform(0.0, 2.0 * math.pi)
        direct = (math.cos(angle), math.sin(angle))
        if loading == "towards":
            direct = rng.choice([(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)])
        x_c, y_c = (sum(place[axis] for place in anchors) / count for axis in (0, 1))
        twist = 0.0 if loading in ("towards", "oblique") or _coin(rng, 0.3) else rng.uniform(-3.0, 3.0)
        radius = max(math.hypot(x - x_c, y - y_c) for x, y in anchors) or 1.0
        v_x = [size * (direct[0] - twist * (y - y_c) / radius) for _, y in anchors]
        v_y = [size * (direct[1] + twist * (x - x_c) / radius) for x, _ in anchors]
    if loading == "some_loaded":
        n = [0.0 if _coin(rng, 0.4) else own for own in n]
        idle = [_coin(rng, 0.4) for _ in anchors]
        v_x, v_y = ([0.0 if out else own for out, own in zip(idle, v, strict=True)] for v in (v_x, v_y))
    return {"loading": loading, "n": list(n), "v_x": list(v_x), "v_y": list(v_y), "staying": [0.0] * count}
