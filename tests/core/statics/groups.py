"""Columns for bolt groups: one by hand, many at random."""

import numpy as np

from hangpoint.core.statics.bolt_group_shear import bolt_group_shear


def one_group(*, x, y, v_x=0.0, v_y=0.0, at=(0.0, 0.0), m_z=0.0, resists_x=True, resists_y=True):
    """One group with its shear at a point."""
    case = {"v_x": v_x, "v_y": v_y, "x_v": at[0], "y_v": at[1], "m_z": m_z}
    return bolt_group_shear(
        **{name: np.array([value], dtype=float) for name, value in case.items()},
        x=np.array(x, dtype=float),
        y=np.array(y, dtype=float),
        resists_x=np.broadcast_to(np.asarray(resists_x), len(x)).copy(),
        resists_y=np.broadcast_to(np.asarray(resists_y), len(x)).copy(),
        case_of_anchor=np.zeros(len(x), dtype=np.intp),
    )


def random_groups(rng, count, *, least=1, most=10, slots=0.3):
    """Groups of anchors over 24 in; a share of the anchors doesn't resist along x, and as many not along y."""
    anchors = rng.integers(least, most + 1, count)
    case_of_anchor = np.repeat(np.arange(count), anchors)
    total = len(case_of_anchor)
    loads = rng.normal(0, 1, (5, count)) * [[2e3], [2e3], [8], [8], [1e4]] * (rng.random((5, count)) < 0.8)
    return {
        **dict(zip(("v_x", "v_y", "x_v", "y_v", "m_z"), loads, strict=True)),
        "x": rng.uniform(-12, 12, total),
        "y": rng.uniform(-12, 12, total),
        "resists_x": rng.random(total) >= slots,
        "resists_y": rng.random(total) >= slots,
        "case_of_anchor": case_of_anchor,
    }
