"""Factored forces and moments at the origin of a layout of anchors. Units: lbf, in, lbf*in.

Right-handed, z out of the base, tension along it: M_x > 0 pulls at +y, M_y > 0 pulls at -x. Forces that act beside the
origin or in front of the base bring their moments along.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import COMBINED
from hangpoint.core.loads.combinations import Factors
from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

_SUM = (
    "gamma_dead * {m}_dead + gamma_contents * {m}_contents + gamma_live * {m}_live + gamma_given * {m}_factored"
    " + {m}_further"
)


@record
class LayoutLoad(Record):
    """Load of one layout in one load case, moments about its origin."""

    TITLE: ClassVar[str] = "load at the origin of the layout"
    AXIS: ClassVar[Axis] = Axis.CASE

    n: Annotated[Floats, given("N", "lbf")]
    v_x: Annotated[Floats, given("V_x", "lbf")]
    v_y: Annotated[Floats, given("V_y", "lbf")]
    x_v: Annotated[Floats, given("x of the load", "in")]
    y_v: Annotated[Floats, given("y of the load", "in")]
    z_v: Annotated[Floats, given("z of the load", "in")]
    gamma_dead: Annotated[Floats, given("γ of dead load", clause=COMBINED)]
    gamma_contents: Annotated[Floats, given("γ of contents", clause=COMBINED)]
    gamma_live: Annotated[Floats, given("γ of live load", clause=COMBINED)]
    gamma_given: Annotated[Floats, given("γ of the moments as given")]
    m_x_dead: Annotated[Floats, given("M_x, dead", "lbf*in")]
    m_x_contents: Annotated[Floats, given("M_x, contents", "lbf*in")]
    m_x_live: Annotated[Floats, given("M_x, live", "lbf*in")]
    m_x_factored: Annotated[Floats, given("M_x, factored as given, without earthquake", "lbf*in")]
    m_x_further: Annotated[Floats, given("M_u,x, transient and earthquake", "lbf*in")]
    m_y_dead: Annotated[Floats, given("M_y, dead", "lbf*in")]
    m_y_contents: Annotated[Floats, given("M_y, contents", "lbf*in")]
    m_y_live: Annotated[Floats, given("M_y, live", "lbf*in")]
    m_y_factored: Annotated[Floats, given("M_y, factored as given, without earthquake", "lbf*in")]
    m_y_further: Annotated[Floats, given("M_u,y, transient and earthquake", "lbf*in")]
    m_z_dead: Annotated[Floats, given("M_z, dead", "lbf*in")]
    m_z_contents: Annotated[Floats, given("M_z, contents", "lbf*in")]
    m_z_live: Annotated[Floats, given("M_z, live", "lbf*in")]
    m_z_factored: Annotated[Floats, given("M_z, factored as given, without earthquake", "lbf*in")]
    m_z_further: Annotated[Floats, given("M_u,z, transient and earthquake", "lbf*in")]
    m_x_stated: Annotated[Floats, formula("M_x at the load", "lbf*in", _SUM.format(m="m_x"), clause=COMBINED)]
    m_y_stated: Annotated[Floats, formula("M_y at the load", "lbf*in", _SUM.format(m="m_y"), clause=COMBINED)]
    m_z_stated: Annotated[Floats, formula("M_z at the load", "lbf*in", _SUM.format(m="m_z"), clause=COMBINED)]
    m_x: Annotated[Floats, formula("M_x", "lbf*in", "m_x_stated + y_v * n - z_v * v_y", clause="statics")]
    m_y: Annotated[Floats, formula("M_y", "lbf*in", "m_y_stated + z_v * v_x - x_v * n", clause="statics")]
    m_z: Annotated[Floats, formula("M_z", "lbf*in", "m_z_stated + x_v * v_y - y_v * v_x", clause="statics")]


@record
class SustainedLayoutLoad(LayoutLoad):
    """The part of the load of one layout that stays, in one load case."""

    TITLE: ClassVar[str] = "sustained load at the origin of the layout"

    m_x_factored: Annotated[Floats, given("M_x, factored as given", "lbf*in")]
    m_y_factored: Annotated[Floats, given("M_y, factored as given", "lbf*in")]
    m_z_factored: Annotated[Floats, given("M_z, factored as given", "lbf*in")]


def layout_load(
    *,
    n: Floats,
    v_x: Floats,
    v_y: Floats,
    at: Floats,
    m_dead: Floats,
    m_contents: Floats,
    m_live: Floats,
    m_factored: Floats,
    m_further: Floats,
    gamma: Factors,
    gamma_given: Floats,
    sustained: bool = False,
) -> LayoutLoad:
    """Moments about the origin of each layout.

    Args:
        n, v_x, v_y: (cases,) factored force, lbf.
        at: (cases, 3) where it acts, in.
        m_dead, m_contents, m_live, m_factored: (cases, 3) moments about x, y and z as stated, lbf*in.
        m_further: (cases, 3) factored moments of transient loads and earthquake, lbf*in.
        gamma: load factors of the same cases.
        gamma_given: (cases,) factor of ``m_factored``: 1, or with the earthquake part reversed.
        sustained: it is the part of the load that stays; live load is then left out.
    """
    gamma_live = np.zeros_like(n) if sustained else gamma.live
    stated = (
        gamma.dead[:, None] * m_dead
        + gamma.contents[:, None] * m_contents
        + gamma_live[:, None] * m_live
        + gamma_given[:, None] * m_factored
        + m_further
    )
    x_v, y_v, z_v = at.T.copy()
    m_x_stated, m_y_stated, m_z_stated = stated.T.copy()
    return (SustainedLayoutLoad if sustained else LayoutLoad)(
        n=n,
        v_x=v_x,
        v_y=v_y,
        x_v=x_v,
        y_v=y_v,
        z_v=z_v,
        gamma_dead=gamma.dead,
        gamma_contents=gamma.contents,
        gamma_live=gamma_live,
        gamma_given=gamma_given,
        **_by_axis("dead", m_dead),
        **_by_axis("contents", m_contents),
        **_by_axis("live", m_live),
        **_by_axis("factored", m_factored),
        **_by_axis("further", m_further),
        m_x_stated=m_x_stated,
        m_y_stated=m_y_stated,
        m_z_stated=m_z_stated,
        m_x=m_x_stated + y_v * n - z_v * v_y,
        m_y=m_y_stated + z_v * v_x - x_v * n,
        m_z=m_z_stated + x_v * v_y - y_v * v_x,
    )


def _by_axis(nature: str, moment: Floats) -> dict[str, Floats]:
    return {f"m_{axis}_{nature}": moment[:, place].copy() for place, axis in enumerate("xyz")}
