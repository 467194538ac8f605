"""Reactions of a rigid body that hangs from vertical supports, with its centre of gravity anywhere between them.

More than three supports (two, where they stand in one line) are statically indeterminate. Two answers are given:

* *Equal springs*: the body is rigid and the supports stretch alike, R_i = W/n + W (alpha u_i + beta v_i) with u_i, v_i
  from the centroid of the supports. For a rectangle a by b this is W/4 (1 +- 2 e_x/a +- 2 e_y/b).
* *Any three carry*: rods of uneven length leave some slack. Of all triples of supports whose triangle holds the centre
  of gravity the largest reaction at each support: no way in which supports that only pull could share the weight
  gives one of them more, because each such way is a mean of the triples. Four at the corners of a rectangle under a
  centric weight have W/2 each, a diagonal pair. In one line it is any two that hold it.

Supports within a hundredth of their extent stand in one line, and the weight within as much under it: the hundredth of
an inch by which one stands beside the others doesn't hold a body that tilts more than that under the least play of a
rod. Two that hold it along the line give none less than three of a slender triangle.

The rule that interpolates along both sides of a rectangle, W (1/2 +- e_x/a)(1/2 +- e_y/b), also satisfies equilibrium,
but no stiffness leads to it; it isn't offered.

Where the centre of gravity lies outside the supports (``held`` is false) nothing that only pulls holds the body; a
negative reaction of equal springs (``pushed``) means that this support would have to push and its rod goes slack.

Units: lbf; x, y in plan in in. Limits: vertical supports, weight only; height of the centre of gravity, sway and
earthquake aren't in it.
"""

from itertools import combinations
from math import comb
from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.buckets import buckets
from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, formula, given, procedure, record

IN_LINE = 0.01
"""Share of the extent of the supports within which they stand in one line, and the weight under it."""

ROUNDING = 1e-9
"""Share of the weight below which a reaction is none."""

_CLAUSE = "statics"


@record
class EquipmentSupport(Record):
    """Reaction of one support, with what its whole body has in common; shares are of the weight."""

    TITLE: ClassVar[str] = "Support of suspended equipment"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w: Annotated[Floats, given("W", "lbf")]
    x_g: Annotated[Floats, given("x_G", "in")]
    y_g: Annotated[Floats, given("y_G", "in")]
    x: Annotated[Floats, given("x_i", "in")]
    y: Annotated[Floats, given("y_i", "in")]
    supports: Annotated[Floats, procedure("n", "", "support_sums", clause=_CLAUSE)]
    x_m: Annotated[Floats, procedure("x_m", "in", "support_sums", clause=_CLAUSE)]
    y_m: Annotated[Floats, procedure("y_m", "in", "support_sums", clause=_CLAUSE)]
    j_x: Annotated[Floats, procedure("Σv²", "in**2", "support_sums", clause=_CLAUSE)]
    j_y: Annotated[Floats, procedure("Σu²", "in**2", "support_sums", clause=_CLAUSE)]
    j_xy: Annotated[Floats, procedure("Σuv", "in**2", "support_sums", clause=_CLAUSE)]
    in_line: Annotated[Bools, procedure("the supports stand in one line", "", "support_sums", clause=_CLAUSE)]
    held: Annotated[Bools, procedure("the supports hold the weight", "", "any_three", clause=_CLAUSE)]
    u: Annotated[Floats, formula("u_i", "in", "x - x_m", clause=_CLAUSE)]
    v: Annotated[Floats, formula("v_i", "in", "y - y_m", clause=_CLAUSE)]
    e_x: Annotated[Floats, formula("e_x", "in", "x_g - x_m", clause=_CLAUSE)]
    e_y: Annotated[Floats, formula("e_y", "in", "y_g - y_m", clause=_CLAUSE)]
    divisor: Annotated[
        Floats, formula("D", "in**4", "where(in_line, (j_x + j_y)**2, j_x*j_y - j_xy**2)", clause=_CLAUSE)
    ]
    alpha: Annotated[
        Floats,
        formula(
            "α",
            "1/in",
            "where(in_line, e_x*(j_x + j_y)/divisor, (e_x*j_x - e_y*j_xy)/divisor)",
            clause=_CLAUSE,
            when="held",
        ),
    ]
    beta: Annotated[
        Floats,
        formula(
            "β",
            "1/in",
            "where(in_line, e_y*(j_x + j_y)/divisor, (e_y*j_y - e_x*j_xy)/divisor)",
            clause=_CLAUSE,
            when="held",
        ),
    ]
    share_springs: Annotated[
        Floats, formula("R_i/W, equal springs", "", "1/supports + alpha*u + beta*v", clause=_CLAUSE, when="held")
    ]
    share_three: Annotated[Floats, procedure("R_i/W, any three carry", "", "any_three", clause=_CLAUSE, when="held")]
    r_springs: Annotated[Floats, formula("R_i, equal springs", "lbf", "w*share_springs", clause=_CLAUSE, when="held")]
    r_three: Annotated[Floats, formula("R_i, any three carry", "lbf", "w*share_three", clause=_CLAUSE, when="held")]


@frozen
class SuspendedEquipment:
    """Supports on the flat axis, and of each body: held, in one line, a support that equal springs make push."""

    supports: EquipmentSupport
    held: Bools
    in_line: Bools
    pushed: Bools


def _cross(one: Floats, other: Floats) -> Floats:
    return one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0]


def _two_carry(arm: Floats, size: Floats, pairs: Index) -> tuple[Floats, Bools]:
    """Shares (bodies, pairs, 2) of the two of each pair, and whether the weight is on their line."""
    a, b = arm[:, pairs[:, 0]], arm[:, pairs[:, 1]]
    between = b - a
    squared = np.sum(between**2, axis=2)
    apart = squared > IN_LINE**2 * size
    share = np.sum(b * between, axis=2) / np.where(apart, squared, 1.0)
    below = np.abs(_cross(a, b)) <= IN_LINE * np.sqrt(squared * size)
    return np.stack((share, 1.0 - share), axis=2), apart & below


def _three_carry(arm: Floats, size: Floats, triples: Index) -> tuple[Floats, Bools]:
    """Shares (bodies, triples, 3) of the three of each triple, and whether they form a triangle."""
    a, b, c = (arm[:, triples[:, i]] for i in range(3))
    parts = np.stack((_cross(b, c), _cross(c, a), _cross(a, b)), axis=2)
    whole = np.sum(parts, axis=2)
    wide = np.abs(whole) > ROUNDING * size
    return parts / np.where(wide, whole, 1.0)[..., None], wide


def _few_carry(arm: Floats, in_line: bool) -> tuple[Floats, Bools]:
    """Largest share of each support over the pairs or triples that hold the weight, and whether any does.

    ``arm`` (bodies, n, 2) are the supports from the centre of gravity, n the same for all.
    """
    count = arm.shape[1]
    few = np.array(list(combinations(range(count), 2 if in_line else 3)), dtype=np.intp)
    size = np.sum((arm - np.mean(arm, axis=1, keepdims=True)) ** 2, axis=(1, 2))[:, None]
    shares, holds = (_two_carry if in_line else _three_carry)(arm, size, few)
    holds = holds & (shares >= -ROUNDING).all(axis=2)
    taken = np.where(holds[..., None], np.clip(shares, 0.0, 1.0), 0.0)
    return np.stack([taken[:, few == i].max(axis=1) for i in range(count)], axis=1), np.sum(holds, axis=1) > 0


def _any_three(x: Floats, y: Floats, supports: Index, in_line: Bools) -> tuple[Floats, Bools]:
    """`_few_carry` of all bodies: shares on the flat axis, whether held by body; ``x``, ``y`` from the weight."""
    shares, held = np.zeros(len(x)), np.zeros(len(supports), dtype=np.bool_)
    first = np.cumsum(supports) - supports
    for count, bodies in buckets(supports, cells=lambda count: 20 * comb(count, 3) + 20):
        for line in (False, True):
            rows = bodies[in_line[bodies] == line]
            if len(rows):
                at = first[rows][:, None] + np.arange(count, dtype=np.intp)
                shares[at], held[rows] = _few_carry(np.stack((x[at], y[at]), axis=2), line)
    return shares, held


def suspended_equipment(
    *, w: Floats, x_g: Floats, y_g: Floats, x: Floats, y: Floats, item_of_support: Index
) -> SuspendedEquipment:
    """Reactions of the supports of each body.

    Args:
        w: (items,) weight, lbf.
        x_g, y_g: (items,) centre of gravity in plan, in.
        x, y: (supports,) places of the supports, in; each item has 2 to 12, not all at one place.
        item_of_support: (supports,) in rising order.

    Returns:
        The supports' record and flags of the items. A weight that nothing holds is data: ``held`` is false and the
        item's reactions are infinite.
    """
    at, count = item_of_support, len(w)

    def summed(values: Floats) -> Floats:
        return np.bincount(at, values, count).astype(np.float64)

    supports = np.bincount(at, minlength=count)
    divided = np.maximum(supports, 1).astype(np.float64)
    x_m, y_m = summed(x) / divided, summed(y) / divided
    u, v = x - x_m[at], y - y_m[at]
    j_x, j_y, j_xy = summed(v**2), summed(u**2), summed(u * v)
    in_line = j_x * j_y - j_xy**2 <= (IN_LINE * (j_x + j_y)) ** 2
    three, held = _any_three(x - x_g[at], y - y_g[at], supports, in_line)
    e_x, e_y = x_g - x_m, y_g - y_m
    divisor = np.where(in_line, (j_x + j_y) ** 2, j_x * j_y - j_xy**2)
    safe = np.where(divisor > 0.0, divisor, 1.0)
    alpha = np.where(in_line, e_x * (j_x + j_y), e_x * j_x - e_y * j_xy) / safe
    beta = np.where(in_line, e_y * (j_x + j_y), e_y * j_y - e_x * j_xy) / safe
    springs = 1.0 / divided[at] + alpha[at] * u + beta[at] * v
    each_held, weight = held[at], w[at]
    return SuspendedEquipment(
        held=held,
        in_line=in_line,
        pushed=held & (np.bincount(at, springs < -ROUNDING, count) > 0),
        supports=EquipmentSupport(
            w=weight,
            x_g=x_g[at],
            y_g=y_g[at],
            x=x,
            y=y,
            supports=divided[at],
            x_m=x_m[at],
            y_m=y_m[at],
            j_x=j_x[at],
            j_y=j_y[at],
            j_xy=j_xy[at],
            in_line=in_line[at],
            held=each_held,
            u=u,
            v=v,
            e_x=e_x[at],
            e_y=e_y[at],
            divisor=divisor[at],
            alpha=alpha[at],
            beta=beta[at],
            share_springs=np.where(each_held, springs, np.inf),
            share_three=np.where(each_held, three, np.inf),
            r_springs=np.where(each_held, weight * springs, np.inf),
            r_three=np.where(each_held, weight * three, np.inf),
        ),
    )
