"""Vertical reactions of a rigid body on supports that both push and pull, under a vertical force and moments.

The body is rigid and the supports are equally stiff: T_i = N/n + alpha u_i + beta v_i with u_i, v_i from the centroid
of the supports, as rivets and bolts are shared in handbooks. T_i > 0 pulls at the anchor, T_i < 0 presses on the base,
where the foot at that support bears. For two rows at a distance d under a centric weight W and an overturning moment M
a row has M/d - W/2, which is the moment about the other row divided by their distance.

The sums of the reactions are the load: sum T = N, sum T y = M_x, -sum T x = M_y (the signs of `fixture_force`).

Units: lbf, in, lbf*in. Limits: three supports or more that don't stand in one line; feet bear at the anchors; linear,
so that the reactions of several loads add up. The lift-off of a foot whose anchor is loose isn't covered.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, formula, given, procedure, record

_CLAUSE = "statics"

IN_LINE = 1e-6
"""Share of the extent of the supports within which they stand in one line."""


@record
class SupportReaction(Record):
    """Tension at one support of a body under one load; n, centroid and sums are those of its body."""

    TITLE: ClassVar[str] = "Tension at a support of the fixture"
    AXIS: ClassVar[Axis] = Axis.LOAD

    n: Annotated[Floats, given("N", "lbf")]
    m_x: Annotated[Floats, given("M_x", "lbf*in")]
    m_y: Annotated[Floats, given("M_y", "lbf*in")]
    x: Annotated[Floats, given("x_i", "in")]
    y: Annotated[Floats, given("y_i", "in")]
    supports: Annotated[Floats, procedure("n", "", "support_sums", clause=_CLAUSE)]
    x_m: Annotated[Floats, procedure("x_m", "in", "support_sums", clause=_CLAUSE)]
    y_m: Annotated[Floats, procedure("y_m", "in", "support_sums", clause=_CLAUSE)]
    j_x: Annotated[Floats, procedure("Σv²", "in**2", "support_sums", clause=_CLAUSE)]
    j_y: Annotated[Floats, procedure("Σu²", "in**2", "support_sums", clause=_CLAUSE)]
    j_xy: Annotated[Floats, procedure("Σuv", "in**2", "support_sums", clause=_CLAUSE)]
    u: Annotated[Floats, formula("u_i", "in", "x - x_m", clause=_CLAUSE)]
    v: Annotated[Floats, formula("v_i", "in", "y - y_m", clause=_CLAUSE)]
    s_u: Annotated[Floats, formula("ΣT u", "lbf*in", "-m_y - x_m*n", clause=_CLAUSE)]
    s_v: Annotated[Floats, formula("ΣT v", "lbf*in", "m_x - y_m*n", clause=_CLAUSE)]
    divisor: Annotated[Floats, formula("D", "in**4", "j_x*j_y - j_xy**2", clause=_CLAUSE)]
    alpha: Annotated[Floats, formula("α", "lbf/in", "(s_u*j_x - s_v*j_xy)/divisor", clause=_CLAUSE)]
    beta: Annotated[Floats, formula("β", "lbf/in", "(s_v*j_y - s_u*j_xy)/divisor", clause=_CLAUSE)]
    t: Annotated[Floats, formula("T_i", "lbf", "n/supports + alpha*u + beta*v", clause=_CLAUSE)]


def stand_in_line(*, x: Floats, y: Floats, body_of_support: Index, bodies: int) -> Bools:
    """(bodies,) whose supports, at ``x``, ``y`` (supports,) in, stand in one line or at one place."""
    _, _, _, j_x, j_y, j_xy = _sums(x=x, y=y, body_of_support=body_of_support, bodies=bodies)
    return j_x * j_y - j_xy**2 <= (IN_LINE * (j_x + j_y)) ** 2


def support_reaction(
    *, n: Floats, m_x: Floats, m_y: Floats, x: Floats, y: Floats, body_of_support: Index
) -> SupportReaction:
    """Tension at each support.

    Args:
        n: (bodies,) vertical force, lbf, tension away from the base positive.
        m_x, m_y: (bodies,) moments about the origin, lbf*in.
        x, y: (supports,) places of the supports, in; three or more a body, not in one line (`stand_in_line`).
        body_of_support: (supports,) in rising order.

    Returns:
        A row for each support.
    """
    at = body_of_support
    sums = _sums(x=x, y=y, body_of_support=at, bodies=len(n))
    supports, x_m, y_m, j_x, j_y, j_xy = (column[at] for column in sums)
    n, m_x, m_y = n[at], m_x[at], m_y[at]
    u, v = x - x_m, y - y_m
    s_u, s_v = -m_y - x_m * n, m_x - y_m * n
    divisor = j_x * j_y - j_xy**2
    alpha = (s_u * j_x - s_v * j_xy) / divisor
    beta = (s_v * j_y - s_u * j_xy) / divisor
    return SupportReaction(
        n=n,
        m_x=m_x,
        m_y=m_y,
        x=x,
        y=y,
        supports=supports,
        x_m=x_m,
        y_m=y_m,
        j_x=j_x,
        j_y=j_y,
        j_xy=j_xy,
        u=u,
        v=v,
        s_u=s_u,
        s_v=s_v,
        divisor=divisor,
        alpha=alpha,
        beta=beta,
        t=n / supports + alpha * u + beta * v,
    )


def _sums(*, x: Floats, y: Floats, body_of_support: Index, bodies: int) -> tuple[Floats, ...]:
    """Number, centroid and second moments of the supports of each body."""

    def summed(values: Floats) -> Floats:
        return np.bincount(body_of_support, values, bodies).astype(np.float64)

    supports = summed(np.ones(len(x)))
    divided = np.maximum(supports, 1.0)
    x_m, y_m = summed(x) / divided, summed(y) / divided
    u, v = x - x_m[body_of_support], y - y_m[body_of_support]
    return supports, x_m, y_m, summed(v**2), summed(u**2), summed(u * v)
