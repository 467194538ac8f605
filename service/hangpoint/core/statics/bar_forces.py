"""Moment, shear and deflection of bars on simple supports (trapezes), all bars at once, by singularity functions.

With the reactions known, shear and moment follow from statics; the deflection from E I y'' = M (Macaulay), with y = 0
at the first and the last support. With the reactions of the continuous beam it is then 0 at supports between as well.

Between neighbouring tips, supports and loads the moment is a parabola and the deflection a polynomial of fourth order,
carried on exactly from one to the next. Moments and shears are exact: the moment is largest at one of these places or
where the shear is zero under the uniform load. The deflection is taken at eight steps of each of these lengths, and
again where Newton's method from there looks for a level tangent: what is found is a deflection that the bar has, never
above its largest and less than 1e-6 of it below (by a test).

Units: ft, lbf, lbf/ft, lbf*ft; E I in lbf*in2, deflections in in. Signs: positions from support 0, negative on the
overhang before it; loads down and reactions up positive; sagging and hogging moments both as positive numbers.

Limits: a straight prismatic bar bent about one axis, small deflections, none from shear; no twisting by loads beside
the shear centre, no lateral buckling, no yield of a support.
"""

from dataclasses import fields

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.buckets import buckets
from hangpoint.core.quantity import Bools, Floats, Index

STEPS = 8
"""Steps of each length between tips, supports and loads at which the deflection is taken."""

LEVELLINGS = 3
"""Steps of Newton's method from each of them."""

NEGLIGIBLE = 1e-12
"""Share of a bar's length below which two places are one, and of its load times length below which a moment is none."""

_CUBIC_INCHES = 1728.0


@frozen
class BarForces:
    """The largest of each bar, 0 at least.

    ``m_sag``, ``m_hog`` (n,) in lbf*ft at ``x_sag``, ``x_hog`` in ft from support 0; ``shear`` (n,) in lbf.
    Deflections in in, up or down: ``deflection`` (n, S) of each span, 0 beyond the count, ``deflection_start`` and
    ``deflection_end`` (n,) of the overhangs.
    """

    m_sag: Floats
    x_sag: Floats
    m_hog: Floats
    x_hog: Floats
    shear: Floats
    deflection: Floats
    deflection_start: Floats
    deflection_end: Floats


def worse(one: BarForces, other: BarForces) -> BarForces:
    """The larger of two load cases of the same bars, each force by itself, a moment with its place."""

    def at(moment: str, place: str) -> Floats:
        larger = getattr(one, moment) >= getattr(other, moment)
        return np.asarray(np.where(larger, getattr(one, place), getattr(other, place)), dtype=np.float64)

    largest: dict[str, Floats] = {
        each.name: np.maximum(getattr(one, each.name), getattr(other, each.name))
        for each in fields(BarForces)
        if not each.name.startswith("x_")
    }
    return BarForces(**largest, x_sag=at("m_sag", "x_sag"), x_hog=at("m_hog", "x_hog"))


def taken(forces: BarForces, rows: Index) -> BarForces:
    """Those of some of the bars."""
    return BarForces(**{each.name: getattr(forces, each.name)[rows] for each in fields(BarForces)})


def with_rows(forces: BarForces, rows: Index, others: BarForces) -> BarForces:
    """The forces with those of some of the bars replaced."""
    made: dict[str, Floats] = {}
    for each in fields(BarForces):
        made[each.name] = getattr(forces, each.name).copy()
        made[each.name][rows] = getattr(others, each.name)
    return BarForces(**made)


@frozen
class _Places:
    """Tips, supports and loads of bars that have equally many, each (bars, places), from tip to tip.

    ``force`` is upward; ``passed`` is the number of supports at or before a place, ``foot`` (2, bars) where among the
    places the first and the last support are. ``span_count``, ``w`` and ``e_i`` are (bars,).
    """

    x: Floats
    force: Floats
    passed: Index
    foot: Index
    span_count: Index
    w: Floats
    e_i: Floats


def _largest(values: Floats, x: Floats, least: Floats) -> tuple[Floats, Floats]:
    """The first largest value above ``least`` of each row and where it stands, else 0 and 0."""
    at = np.argmax(values, axis=1)[:, None]
    found, place = np.take_along_axis(values, at, axis=1), np.take_along_axis(x, at, axis=1)
    return np.where(found > least, found, 0.0)[:, 0], np.where(found > least, place, 0.0)[:, 0]


def _carried(steps: Floats) -> Floats:
    """Values at each place from what each length adds, 0 at the first."""
    carried = np.zeros((len(steps), steps.shape[1] + 1))
    np.cumsum(steps, axis=1, out=carried[:, 1:])
    return carried


def _deflections(places: _Places, d: Floats, shear: Floats, moment: Floats) -> Floats:
    """The largest deflection up or down on each length between two places, in, (bars, places - 1).

    ``shear`` and ``moment`` (bars, places - 1) are those at the beginning of each length ``d``.
    """
    w = places.w[:, None]
    slope = _carried(d * (moment + d * (shear / 2.0 - d * w / 6.0)))[:, :-1]
    bow = _carried(d * (slope + d * (moment / 2.0 + d * (shear / 6.0 - d * w / 24.0))))
    first, last = np.take_along_axis(places.x, places.foot.T, axis=1).T
    low, high = np.take_along_axis(bow, places.foot.T, axis=1).T
    tilt = ((high - low) / (last - first))[:, None]
    slope = slope - tilt
    bow = bow - low[:, None] - tilt * (places.x - first[:, None])

    d, w, shear, moment, slope = d[..., None], w[..., None], shear[..., None], moment[..., None], slope[..., None]
    at = d * np.linspace(0.0, 1.0, STEPS + 1)
    t = at
    for _ in range(LEVELLINGS):
        curvature = moment + t * (shear - t * w / 2.0)
        tangent = slope + t * (moment + t * (shear / 2.0 - t * w / 6.0))
        near = np.abs(tangent) < np.abs(curvature) * d
        t = np.clip(t - np.where(near, tangent / np.where(near, curvature, 1.0), 0.0), 0.0, d)
    t = np.concatenate((at, t), axis=2)
    y = bow[:, :-1, None] + t * (slope + t * (moment / 2.0 + t * (shear / 6.0 - t * w / 24.0)))
    return _CUBIC_INCHES * np.max(np.abs(y), axis=2) / places.e_i[:, None]


def _forces(places: _Places, spans: int, *, deflects: bool) -> BarForces:
    """Forces of bars with equally many places; ``spans`` is the width S of the answer."""
    x, w = places.x, places.w[:, None]
    d = np.diff(x, axis=1)
    shear = np.cumsum(places.force, axis=1)[:, :-1] - w * (x[:, :-1] - x[:, :1])
    moment = _carried(d * (shear - d * w / 2.0))
    to_level = np.clip(np.where(w > 0.0, shear / np.where(w > 0.0, w, 1.0), 0.0), 0.0, d)
    between = moment[:, :-1] + to_level * (shear - to_level * w / 2.0)
    length = x[:, -1:] - x[:, :1]
    least = NEGLIGIBLE * length * (w * length + np.sum(np.abs(places.force), axis=1, keepdims=True))
    m_sag, x_sag = _largest(np.hstack((moment, between)), np.hstack((x, x[:, :-1] + to_level)), least)
    m_hog, x_hog = _largest(-moment, x, least)

    real = d > NEGLIGIBLE * length
    steepest = np.maximum(np.abs(shear), np.abs(shear - w * d))
    bows = np.zeros_like(d)
    if deflects:
        bows = np.where(real, _deflections(places, d, shear, moment[:, :-1]), 0.0)
    span = places.passed[:, :-1] - 1
    last = places.span_count[:, None]

    def worst(where: Bools) -> Floats:
        return np.max(np.where(where, bows, 0.0), axis=1)

    return BarForces(
        m_sag=m_sag,
        x_sag=x_sag,
        m_hog=m_hog,
        x_hog=x_hog,
        shear=np.max(np.where(real, steepest, 0.0), axis=1),
        deflection=np.stack([worst((span == j) & (j < last)) for j in range(spans)], axis=1),
        deflection_start=worst(span < 0),
        deflection_end=worst(span >= last),
    )


def bar_forces(
    *,
    spans: Floats,
    span_count: Index,
    start: Floats,
    end: Floats,
    reactions: Floats,
    w: Floats,
    e_i: Floats,
    load_bar: Index,
    load_position: Floats,
    load_weight: Floats,
    deflects: bool = True,
) -> BarForces:
    """Largest moments, shear and deflections of each bar.

    Args:
        spans, span_count, start, end: (n, S) zero padded, (n,), (n,), (n,), ft: see ``statics.continuous_run``.
        reactions: (n, S + 1) lbf, in equilibrium with the loads; of more than two supports those of the continuous
            beam, else the deflection isn't 0 at the supports between.
        w: (n,) >= 0, lbf/ft, over the whole length with the overhangs.
        e_i: (n,) > 0, lbf*in2.
        load_bar: (m,) the bar of each point load, in any order.
        load_position: (m,) ft from support 0; the caller excludes loads off the bar, which are taken at its tips.
        load_weight: (m,) lbf, downward.
        deflects: compute the deflections, which take half of the time; they are 0 else.

    Source: statics; Macaulay's method.
    """
    n, width = spans.shape
    at = np.zeros((n, width + 1))
    np.cumsum(spans, axis=1, out=at[:, 1:])
    by_bar = np.argsort(load_bar, kind="stable")
    loads = np.bincount(load_bar, minlength=n)
    offset = np.cumsum(loads) - loads
    found = [np.zeros((n, width)) if part.name == "deflection" else np.zeros(n) for part in fields(BarForces)]
    for size, rows in buckets(loads + width + 3, cells=lambda count: 2 * count * (STEPS + 1)):
        mine = by_bar[offset[rows][:, None] + np.arange(size - width - 3, dtype=np.intp)]
        tips = np.stack((-start[rows], at[rows, -1] + end[rows]), axis=1)
        placed = np.clip(load_position[mine], tips[:, :1], tips[:, 1:])
        x = np.hstack((tips[:, :1], at[rows], placed, tips[:, 1:]))
        force = np.zeros_like(x)
        force[:, 1 : width + 2] = reactions[rows]
        force[:, width + 2 : -1] = -load_weight[mine]
        order = np.argsort(x, axis=1, kind="stable")
        rank = np.argsort(order, axis=1)
        places = _Places(
            x=np.take_along_axis(x, order, axis=1),
            force=np.take_along_axis(force, order, axis=1),
            passed=np.cumsum((order > 0) & (order < width + 2), axis=1),
            foot=np.stack((rank[:, 1], rank[np.arange(len(rows)), span_count[rows] + 1])),
            span_count=span_count[rows],
            w=w[rows],
            e_i=e_i[rows],
        )
        made = _forces(places, width, deflects=deflects)
        for column, part in zip(found, fields(BarForces), strict=True):
            column[rows] = getattr(made, part.name)
    return BarForces(**{part.name: column for column, part in zip(found, fields(BarForces), strict=True)})
