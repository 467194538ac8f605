"""Overturning of a body that stands on a floor, about an edge of its base.

The body turns about the line through the point of its base that lies farthest in the direction theta, square to it;
with theta square to an edge of the base that is the edge. The anchors are rigid and stretch as their distance from that
line: T_i = M_net d_i/sum(d**2). Anchors on or beyond the line take nothing. Friction isn't counted, neither against
sliding nor in shear. The least weight that is surely there holds: a factor of 0.9 on it, less the vertical effect of
earthquake. Where the centre of gravity lies beyond the line the weight overturns, and all that may be there counts with
the largest factor, and with the vertical effect of earthquake.

A force askew to the base tips it over the edge where its moment exceeds what rights it, not over a corner: on 80 in by
20 in a force at 45 degrees has 0.71 of its moment against the short lever of 10 in. Where it is too much for both edges
of a corner, or where the anchors themselves pull the body over the other edge, it lifts over that corner, and the most
pulled anchor has up to 4/3 of what either edge alone would bring it on a rectangle (`over_corners`).

For four anchors at the corners of the base, a by a, of a centric weight W under H at the height z the two far ones have
(H z - W a/2)/(2 a) each.

Factors: 0.9 dead with 1.0 wind or 1.0 earthquake and its vertical effect 0.2 S_DS W, ASCE 7-16 2.3.1 and 2.3.6. With a
live load 1.6 is taken beside 0.9 dead, and 1.0 of it beside wind and earthquake: no combination of the standard has 0.9
dead with live load, yet the push may come on a body that is lighter than thought. Units: lbf, in, lbf*in, deg. Limits:
a rigid base and a rigid floor; anchors that give nothing.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, formula, given, procedure, record
from hangpoint.core.statics.fixture_force import direction
from hangpoint.core.statics.over_corners import corner_tensions

_CLAUSE = "statics"

LEAST_DEAD = 0.9
FACTORS = {"live": 1.6, "wind": 1.0, "earthquake": 1.0}
"""Load factors of what overturns, beside `LEAST_DEAD`, by nature."""

COMPANION = 1.0
"""Load factor of live load beside wind and earthquake."""

MOST_DEAD, DEAD_ALONE = 1.2, 1.4
"""Load factors of a weight that overturns, beside another load and alone."""


@record
class Overturning(Record):
    """A body under one horizontal load about the edge that it would tip over."""

    TITLE: ClassVar[str] = "Overturning about an edge"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w: Annotated[Floats, given("weight that is surely there", "lbf")]
    w_most: Annotated[Floats, given("weight that may be there", "lbf")]
    x_g: Annotated[Floats, given("x_G", "in")]
    y_g: Annotated[Floats, given("y_G", "in")]
    gamma_w: Annotated[Floats, given("γ of the weight", clause="ASCE 7-16 2.3.1")]
    gamma_most: Annotated[Floats, given("γ of the weight where it overturns", clause="ASCE 7-16 2.3.1")]
    e_v: Annotated[Floats, given("vertical effect of earthquake", "lbf", clause="ASCE 7-16 13.3.1.2")]
    v_most: Annotated[Floats, given("V of the most sheared anchor, of the force and its torsion", "lbf")]
    h_z: Annotated[Floats, given("its moment about the floor along θ", "lbf*in")]
    gamma_h: Annotated[Floats, given("γ of the horizontal force", clause="ASCE 7-16 2.3.1")]
    theta: Annotated[Floats, given("θ, square to the edge, from x", "deg")]
    cos_theta: Annotated[Floats, procedure("cos θ", "", "direction", clause=_CLAUSE)]
    sin_theta: Annotated[Floats, procedure("sin θ", "", "direction", clause=_CLAUSE)]
    d_edge: Annotated[Floats, procedure("edge along θ from the origin", "in", "farthest_edge", clause=_CLAUSE)]
    d_far: Annotated[Floats, procedure("d of the farthest anchor", "in", "edge_sums", clause=_CLAUSE)]
    d_squared: Annotated[Floats, procedure("Σd²", "in**2", "edge_sums", clause=_CLAUSE)]
    arm: Annotated[Floats, formula("arm of the weight", "in", "d_edge - x_g*cos_theta - y_g*sin_theta", clause=_CLAUSE)]
    w_acts: Annotated[
        Floats,
        formula(
            "least weight, or the largest where it overturns",
            "lbf",
            "where(arm < 0, gamma_most*w_most + e_v, max(0, gamma_w*w - e_v))",
            clause=_CLAUSE,
        ),
    ]
    m_over: Annotated[Floats, formula("M overturning", "lbf*in", "gamma_h*h_z", clause=_CLAUSE)]
    m_right: Annotated[Floats, formula("M righting", "lbf*in", "w_acts*arm", clause=_CLAUSE)]
    m_net: Annotated[Floats, formula("M on the anchors", "lbf*in", "max(0, m_over - m_right)", clause=_CLAUSE)]
    tips: Annotated[Bools, formula("tips without anchors", "", "m_over > m_right", clause=_CLAUSE)]
    t_edge: Annotated[
        Floats,
        formula("T of the farthest anchor", "lbf", "where(d_squared > 0, m_net*d_far/d_squared, 0)", clause=_CLAUSE),
    ]
    t_corner: Annotated[Floats, procedure("T over the corner that bears", "lbf", "corner_tensions", clause=_CLAUSE)]
    loose: Annotated[Bools, procedure("no anchor holds it over a corner", "", "corner_tensions", clause=_CLAUSE)]
    t_far: Annotated[Floats, formula("T of the most pulled anchor", "lbf", "max(t_edge, t_corner)", clause=_CLAUSE)]
    v_1: Annotated[Floats, formula("V of the most sheared anchor", "lbf", "gamma_h*v_most", clause=_CLAUSE)]


def overturning(
    *,
    w: Floats,
    w_most: Floats,
    x_g: Floats,
    y_g: Floats,
    gamma_w: Floats,
    gamma_most: Floats,
    e_v: Floats,
    v_most: Floats,
    h_z: Floats,
    gamma_h: Floats,
    theta: Floats,
    x_edge: Floats,
    y_edge: Floats,
    row_of_edge: Index,
    x: Floats,
    y: Floats,
    row_of_anchor: Index,
    adjoining: Index,
    load_of_row: Index,
) -> Overturning:
    """Each body under a horizontal load.

    Args:
        w, w_most: (rows,) weight that is surely there and that may be, lbf, with its centre of gravity at ``x_g``,
            ``y_g``, in.
        gamma_w, gamma_most, gamma_h: (rows,) load factors of the weight and of the horizontal force.
        e_v: (rows,) vertical effect of earthquake, lbf, 0 without.
        v_most: (rows,) shear of the most sheared anchor of an elastic group under the horizontal force and its torsion,
            lbf.
        h_z: (rows,) its moment about the floor along ``theta``, degrees from x, lbf*in.
        x_edge, y_edge: (corners,) of the base, in; ``row_of_edge`` rises and has every row.
        x, y: (anchors,) in; ``row_of_anchor`` rises and has every row.
        adjoining: (rows,) the row of the next edge of the same base, counterclockwise.
        load_of_row: (rows,) the load of each, in rising order.

    Returns:
        A row for each. A weight beyond the edge has a negative arm and overturns by itself.
    """
    cos_theta, sin_theta = direction(theta)
    d_edge = farthest_edge(
        along=x_edge * cos_theta[row_of_edge] + y_edge * sin_theta[row_of_edge], row=row_of_edge, rows=len(w)
    )
    at = row_of_anchor
    away = d_edge[at] - x * cos_theta[at] - y * sin_theta[at]
    d_far, d_squared = edge_sums(away=np.maximum(away, 0.0), row=at, rows=len(w))
    arm = d_edge - x_g * cos_theta - y_g * sin_theta
    w_acts = np.where(arm < 0.0, gamma_most * w_most + e_v, np.maximum(0.0, gamma_w * w - e_v))
    m_over, m_right = gamma_h * h_z, w_acts * arm
    m_net = np.maximum(0.0, m_over - m_right)
    holds = d_squared > 0.0
    t_edge = np.where(holds, m_net * d_far / np.where(holds, d_squared, 1.0), 0.0)
    t_corner, loose = corner_tensions(
        m=m_over - m_right, away=away, row_of_anchor=at, adjoining=adjoining, load_of_row=load_of_row
    )
    return Overturning(
        w=w,
        w_most=w_most,
        x_g=x_g,
        y_g=y_g,
        gamma_w=gamma_w,
        gamma_most=gamma_most,
        e_v=e_v,
        v_most=v_most,
        h_z=h_z,
        gamma_h=gamma_h,
        theta=theta,
        cos_theta=cos_theta,
        sin_theta=sin_theta,
        d_edge=d_edge,
        d_far=d_far,
        d_squared=d_squared,
        arm=arm,
        w_acts=w_acts,
        m_over=m_over,
        m_right=m_right,
        m_net=m_net,
        tips=m_over > m_right,
        t_edge=t_edge,
        t_corner=t_corner,
        loose=loose,
        t_far=np.maximum(t_edge, t_corner),
        v_1=gamma_h * v_most,
    )


def farthest_edge(*, along: Floats, row: Index, rows: int) -> Floats:
    """(rows,) the largest of the places ``along`` (corners,) a direction, in, of each row."""
    farthest = np.full(rows, -np.inf)
    np.maximum.at(farthest, row, along)
    return farthest


def edge_sums(*, away: Floats, row: Index, rows: int) -> tuple[Floats, Floats]:
    """(rows,) the largest distance ``away`` (anchors,) from the edge, in, and the sum of squares."""
    farthest = np.zeros(rows)
    np.maximum.at(farthest, row, away)
    return farthest, np.bincount(row, away**2, rows).astype(np.float64)
