"""Bending of the bar of a trapeze: stress against an allowable stress, deflection against a part of its length.

Elastic bending about one axis: sigma = M / S with the section modulus of the face that has the lesser one, for sagging
and hogging moments alike. The allowable stress f_b is given with its basis; so is the denominator of the limit of
deflection, length / limit. The deflection is that of the span or overhang where it is largest against its length. An
overhang counts with twice its length (as in the International Building Code, table 1604.3, from memory), but not with
less than the end span beside it: else a short tip that only turns with the bar would govern. The latter is our own.

Units: lbf, ft, in, psi. Limits: those of ``statics.bar_forces``; shear stress, bearing of loads and rods on the bar,
crippling of thin walls and bending across the bar aren't checked. An allowable stress goes with service loads, never
with factored ones.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Index, StrengthRecord, formula, given, procedure, record
from hangpoint.core.statics.bar_forces import BarForces

_CLAUSE = "statics"


@record
class TrapezeBar(StrengthRecord):
    """One bar under its uniform and point loads."""

    TITLE: ClassVar[str] = "Bar of a trapeze"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w: Annotated[Floats, given("w", "lbf/ft")]
    shear: Annotated[Floats, procedure("V_max", "lbf", "bar_moment", clause=_CLAUSE)]
    m_sag: Annotated[Floats, procedure("M_sag", "lbf*ft", "bar_moment", clause=_CLAUSE)]
    x_sag: Annotated[Floats, procedure("x of M_sag", "ft", "bar_moment", clause=_CLAUSE)]
    m_hog: Annotated[Floats, procedure("M_hog", "lbf*ft", "bar_moment", clause=_CLAUSE)]
    x_hog: Annotated[Floats, procedure("x of M_hog", "ft", "bar_moment", clause=_CLAUSE)]
    s_x: Annotated[Floats, given("S_x", "in**3")]
    f_b: Annotated[Floats, given("f_b", "psi")]
    demand: Annotated[Floats, formula("M_max", "lbf*ft", "max(m_sag, m_hog)", clause=_CLAUSE)]
    sigma: Annotated[Floats, formula("σ", "psi", "12*demand/s_x", clause=_CLAUSE, coefficient="in/ft")]
    design_strength: Annotated[Floats, formula("M_allow", "lbf*ft", "f_b*s_x/12", clause=_CLAUSE, coefficient="ft/in")]
    utilisation: Annotated[Floats, formula("M_max/M_allow", "", "demand/design_strength", clause=_CLAUSE)]
    e: Annotated[Floats, given("E", "psi")]
    i_x: Annotated[Floats, given("I_x", "in**4")]
    deflection: Annotated[Floats, procedure("δ", "in", "bar_deflection", clause=_CLAUSE)]
    length: Annotated[Floats, procedure("l", "ft", "bar_deflection", clause=_CLAUSE)]
    limit: Annotated[Floats, given("l/δ at least")]
    deflection_limit: Annotated[
        Floats, formula("l/limit", "in", "12*length/limit", clause="named limit", coefficient="in/ft")
    ]
    stiff: Annotated[Bools, formula("δ within its limit", "", "deflection <= deflection_limit", clause="named limit")]


def _governing(
    *, forces: BarForces, spans: Floats, span_count: Index, start: Floats, end: Floats
) -> tuple[Floats, Floats]:
    """Deflection in in, and length in ft, where the deflection is largest against its length."""
    last = np.take_along_axis(spans, span_count[:, None] - 1, axis=1)[:, 0]
    before, after = np.maximum(2.0 * start, spans[:, 0]), np.maximum(2.0 * end, last)
    deflections = np.column_stack((forces.deflection, forces.deflection_start, forces.deflection_end))
    lengths = np.column_stack((spans, before, after))
    there = lengths > 0.0
    ratios = np.where(there, deflections / np.where(there, lengths, 1.0), 0.0)
    at: Index = np.argmax(ratios, axis=1)[:, None]
    return np.take_along_axis(deflections, at, axis=1)[:, 0], np.take_along_axis(lengths, at, axis=1)[:, 0]


def trapeze_bar(
    *,
    forces: BarForces,
    spans: Floats,
    span_count: Index,
    start: Floats,
    end: Floats,
    w: Floats,
    s_x: Floats,
    i_x: Floats,
    e: Floats,
    f_b: Floats,
    limit: Floats,
) -> TrapezeBar:
    """Stress and deflection of each bar, (n,) each.

    ``forces`` by ``statics.bar_forces`` under service loads, for the same ``spans`` (n, S), ``span_count``, ``start``,
    ``end`` in ft, ``w`` in lbf/ft and E I = ``e`` in psi times ``i_x`` in in4. ``s_x`` in in3 is the lesser section
    modulus, ``f_b`` in psi the allowable stress, ``limit`` the least length over deflection, such as 240; all above 0.
    """
    deflection, length = _governing(forces=forces, spans=spans, span_count=span_count, start=start, end=end)
    demand = np.maximum(forces.m_sag, forces.m_hog)
    design_strength = f_b * s_x / 12.0
    deflection_limit = 12.0 * length / limit
    return TrapezeBar(
        w=w,
        shear=forces.shear,
        m_sag=forces.m_sag,
        x_sag=forces.x_sag,
        m_hog=forces.m_hog,
        x_hog=forces.x_hog,
        s_x=s_x,
        f_b=f_b,
        demand=demand,
        sigma=12.0 * demand / s_x,
        design_strength=design_strength,
        utilisation=demand / design_strength,
        e=e,
        i_x=i_x,
        deflection=deflection,
        length=length,
        limit=limit,
        deflection_limit=deflection_limit,
        stiff=deflection <= deflection_limit,
    )
