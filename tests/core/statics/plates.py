"""Columns for rigid plates: one by hand, many at random."""

import numpy as np

from hangpoint.core.statics.rigid_plate import rigid_plate


def one_plate(*, sides, x, y, a_s, e_s=29e6, e_c=3.6e6, n=0.0, m_x=0.0, m_y=0.0, contact=True):
    """One plate with its sides (x0, x1, y0, y1) and anchors."""
    case = {
        "n": n,
        "m_x": m_x,
        "m_y": m_y,
        "e_s": e_s,
        "e_c": e_c,
        **dict(zip(("x0", "x1", "y0", "y1"), sides, strict=True)),
    }
    return rigid_plate(
        **{name: np.array([value], dtype=float) for name, value in case.items()},
        contact=np.array([contact]),
        x=np.array(x, dtype=float),
        y=np.array(y, dtype=float),
        a_s=np.broadcast_to(np.asarray(a_s, dtype=float), len(x)).copy(),
        case_of_anchor=np.zeros(len(x), dtype=np.intp),
    )


def random_plates(rng, count, *, least=1, most=16, contact=None):
    """Plates of 3 to 30 in with anchors within; a fifth each without N, M_x or M_y; half on concrete unless said."""
    anchors = rng.integers(least, most + 1, count)
    case_of_anchor = np.repeat(np.arange(count), anchors)
    width, depth = np.exp(rng.uniform(np.log(3), np.log(30), (2, count)))
    x0, y0 = rng.uniform(-20, 10, (2, count))
    inside = rng.uniform(0.05, 0.95, (2, len(case_of_anchor)))
    forces = rng.normal(0, 1, (3, count)) * [[5e3], [3e4], [3e4]] * (rng.random((3, count)) < 0.8)
    return {
        "x0": x0,
        "x1": x0 + width,
        "y0": y0,
        "y1": y0 + depth,
        "n": forces[0],
        "m_x": forces[1],
        "m_y": forces[2],
        "contact": rng.random(count) < 0.5 if contact is None else np.full(count, contact),
        "e_s": np.full(count, 29e6),
        "e_c": np.exp(rng.uniform(np.log(2e6), np.log(6e6), count)),
        "x": x0[case_of_anchor] + width[case_of_anchor] * inside[0],
        "y": y0[case_of_anchor] + depth[case_of_anchor] * inside[1],
        "a_s": np.exp(rng.uniform(np.log(0.05), np.log(2), len(case_of_anchor))),
        "case_of_anchor": case_of_anchor,
    }


PER_ANCHOR = ("x", "y", "a_s")


def taken(plates, cases):
    """Some of the plates, in the given order."""
    rows = [np.flatnonzero(plates["case_of_anchor"] == case) for case in cases]
    at = np.concatenate(rows)
    picked = {name: plates[name][at if name in PER_ANCHOR else cases] for name in plates if name != "case_of_anchor"}
    return picked | {"case_of_anchor": np.repeat(np.arange(len(cases)), [len(each) for each in rows])}
