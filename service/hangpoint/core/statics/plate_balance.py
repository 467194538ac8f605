"""What a rigid plate and its anchors carry: the records, as ``rigid_plate`` computes them and with its signs.

Units: in, lbf, psi, lbf*in.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import ELASTIC, MODULUS_OF_CONCRETE, MODULUS_OF_STEEL
from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, procedure, record

_TENSION = "where(contact, max(-alpha_e * a_s * sigma_a, 0), -alpha_e * a_s * sigma_a)"


@record
class PlateBalance(Record):
    """Stress plane, concrete stress and resultants of one plate.

    Where nothing holds the load in balance (``in_equilibrium`` false) the tension is infinite and the rest is zero.
    """

    TITLE: ClassVar[str] = "rigid plate"
    AXIS: ClassVar[Axis] = Axis.CASE

    x0: Annotated[Floats, given("x_0", "in")]
    x1: Annotated[Floats, given("x_1", "in")]
    y0: Annotated[Floats, given("y_0", "in")]
    y1: Annotated[Floats, given("y_1", "in")]
    n: Annotated[Floats, given("N", "lbf")]
    m_x: Annotated[Floats, given("M_x", "lbf*in")]
    m_y: Annotated[Floats, given("M_y", "lbf*in")]
    contact: Annotated[Bools, given("plate bears on the base", clause="reading 22")]
    e_s: Annotated[Floats, given("E_s", "psi", clause=MODULUS_OF_STEEL, when="contact")]
    e_c: Annotated[Floats, given("E_c", "psi", clause=MODULUS_OF_CONCRETE, when="contact")]
    alpha_e: Annotated[Floats, formula("E_s/E_c", "", "e_s / e_c", clause=ELASTIC, when="contact")]
    x_p: Annotated[Floats, formula("x_p", "in", "(x0 + x1) / 2", clause="statics")]
    y_p: Annotated[Floats, formula("y_p", "in", "(y0 + y1) / 2", clause="statics")]
    m_x_p: Annotated[Floats, formula("M_x,p", "lbf*in", "m_x - n * y_p", clause="statics")]
    m_y_p: Annotated[Floats, formula("M_y,p", "lbf*in", "m_y + n * x_p", clause="statics")]
    sigma_p: Annotated[Floats, procedure("σ_p", "psi", "stress_plane", clause=ELASTIC)]
    sigma_x: Annotated[Floats, procedure("∂σ/∂x", "psi/in", "stress_plane", clause=ELASTIC)]
    sigma_y: Annotated[Floats, procedure("∂σ/∂y", "psi/in", "stress_plane", clause=ELASTIC)]
    residual: Annotated[Floats, procedure("residual, share of the load", "", "plate_residual", clause="statics")]
    in_equilibrium: Annotated[Bools, formula("in equilibrium", "", "residual < 1e-9", clause="statics")]
    sigma_max: Annotated[
        Floats,
        formula(
            "σ_c,max",
            "psi",
            "max(sigma_p + max(sigma_x, -sigma_x) * (x1 - x0) / 2 + max(sigma_y, -sigma_y) * (y1 - y0) / 2, 0)",
            clause=ELASTIC,
            when="contact",
        ),
    ]
    sigma_min: Annotated[
        Floats,
        formula(
            "σ_min",
            "psi",
            "sigma_p - max(sigma_x, -sigma_x) * (x1 - x0) / 2 - max(sigma_y, -sigma_y) * (y1 - y0) / 2",
            clause=ELASTIC,
            when="contact",
        ),
    ]
    slope: Annotated[Floats, formula("|∂σ|", "psi/in", "sqrt(sigma_x**2 + sigma_y**2)", clause=ELASTIC, when="contact")]
    axis_under_plate: Annotated[
        Bools, formula("neutral axis under the plate", "", "sigma_max * sigma_min < 0", clause=ELASTIC, when="contact")
    ]
    depth: Annotated[
        Floats,
        formula(
            "depth of the compressed zone",
            "in",
            "sigma_max / slope",
            clause=ELASTIC,
            when="axis_under_plate",
        ),
    ]
    c: Annotated[Floats, procedure("C", "lbf", "compression_resultant", clause=ELASTIC)]
    x_c: Annotated[Floats, procedure("x_C", "in", "compression_resultant", clause=ELASTIC)]
    y_c: Annotated[Floats, procedure("y_C", "in", "compression_resultant", clause=ELASTIC)]
    t: Annotated[Floats, procedure("T", "lbf", "tension_resultant", clause=ELASTIC)]
    x_t: Annotated[Floats, procedure("x_T", "in", "tension_resultant", clause=ELASTIC)]
    y_t: Annotated[Floats, procedure("y_T", "in", "tension_resultant", clause=ELASTIC)]
    couple: Annotated[Bools, formula("tension with compression", "", "min(c, t) > 0", clause="statics")]
    z: Annotated[Floats, formula("z", "in", "sqrt((x_t - x_c)**2 + (y_t - y_c)**2)", clause="statics", when="couple")]


@record
class PlateAnchor(Record):
    """Force of one anchor of a plate; infinite where the plate is not in equilibrium, so that nothing holds it."""

    TITLE: ClassVar[str] = "anchor of a rigid plate"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    x: Annotated[Floats, given("x", "in")]
    y: Annotated[Floats, given("y", "in")]
    a_s: Annotated[Floats, given("A_s", "in**2")]
    contact: Annotated[Bools, given("plate bears on the base", clause="reading 22")]
    alpha_e: Annotated[Floats, given("E_s/E_c, 1 under a free plate")]
    x_p: Annotated[Floats, given("x_p", "in")]
    y_p: Annotated[Floats, given("y_p", "in")]
    sigma_p: Annotated[Floats, given("σ_p", "psi")]
    sigma_x: Annotated[Floats, given("∂σ/∂x", "psi/in")]
    sigma_y: Annotated[Floats, given("∂σ/∂y", "psi/in")]
    in_equilibrium: Annotated[Bools, given("in equilibrium")]
    sigma_a: Annotated[
        Floats, formula("σ_a", "psi", "sigma_p + sigma_x * (x - x_p) + sigma_y * (y - y_p)", clause=ELASTIC)
    ]
    tension: Annotated[
        Floats,
        formula(
            "N_ua,i",
            "lbf",
            _TENSION,
            clause=ELASTIC,
            when="in_equilibrium",
        ),
    ]
    compressed: Annotated[Bools, formula("anchor in compression", "", "tension < 0", clause="reading 22")]


@record
class SustainedPlateBalance(PlateBalance):
    """A plate under the part of its load that stays."""

    TITLE: ClassVar[str] = "rigid plate under the sustained load"


@record
class SustainedPlateAnchor(PlateAnchor):
    """The part of the force of one anchor of a plate that stays."""

    TITLE: ClassVar[str] = "anchor of a rigid plate under the sustained load"

    tension: Annotated[Floats, formula("N_ua,s,i", "lbf", _TENSION, clause=ELASTIC, when="in_equilibrium")]


def plate_balance(
    *,
    x0: Floats,
    x1: Floats,
    y0: Floats,
    y1: Floats,
    n: Floats,
    m_x: Floats,
    m_y: Floats,
    contact: Bools,
    e_s: Floats,
    e_c: Floats,
    alpha_e: Floats,
    x_p: Floats,
    y_p: Floats,
    m_x_p: Floats,
    m_y_p: Floats,
    sigma_p: Floats,
    sigma_x: Floats,
    sigma_y: Floats,
    residual: Floats,
    in_equilibrium: Bools,
    c: Floats,
    x_c: Floats,
    y_c: Floats,
    t: Floats,
    x_t: Floats,
    y_t: Floats,
) -> PlateBalance:
    """The record of plates whose stress plane and resultants are known: each argument is the field of its name.

    Args:
        x0, x1, y0, y1, x_p, y_p, x_c, y_c, x_t, y_t: (cases,) in.
        n, c, t: (cases,) lbf. m_x, m_y, m_x_p, m_y_p: (cases,) lbf*in.
        contact, in_equilibrium: (cases,) boolean.
        e_s, e_c, sigma_p: (cases,) psi. sigma_x, sigma_y: (cases,) psi/in.
        alpha_e: (cases,) E_s / E_c; 1 under a free plate, which has its stresses in the steel. residual: (cases,).
    """
    rise_x = np.abs(sigma_x) * (x1 - x0) / 2
    rise_y = np.abs(sigma_y) * (y1 - y0) / 2
    sigma_max = np.where(contact, np.maximum(sigma_p + rise_x + rise_y, 0.0), 0.0)
    sigma_min = sigma_p - rise_x - rise_y
    slope = np.sqrt(sigma_x**2 + sigma_y**2)
    axis_under_plate = sigma_max * sigma_min < 0.0
    couple = np.minimum(c, t) > 0.0
    return PlateBalance(
        x0=x0,
        x1=x1,
        y0=y0,
        y1=y1,
        n=n,
        m_x=m_x,
        m_y=m_y,
        contact=contact,
        e_s=e_s,
        e_c=e_c,
        alpha_e=alpha_e,
        x_p=x_p,
        y_p=y_p,
        m_x_p=m_x_p,
        m_y_p=m_y_p,
        sigma_p=sigma_p,
        sigma_x=sigma_x,
        sigma_y=sigma_y,
        residual=residual,
        in_equilibrium=in_equilibrium,
        sigma_max=sigma_max,
        sigma_min=sigma_min,
        slope=slope,
        axis_under_plate=axis_under_plate,
        depth=np.where(axis_under_plate, sigma_max / np.where(axis_under_plate, slope, 1.0), 0.0),
        c=c,
        x_c=x_c,
        y_c=y_c,
        t=t,
        x_t=x_t,
        y_t=y_t,
        couple=couple,
        z=np.where(couple, np.sqrt((x_t - x_c) ** 2 + (y_t - y_c) ** 2), 0.0),
    )


def plate_anchor(
    *,
    x: Floats,
    y: Floats,
    a_s: Floats,
    contact: Bools,
    alpha_e: Floats,
    x_p: Floats,
    y_p: Floats,
    sigma_p: Floats,
    sigma_x: Floats,
    sigma_y: Floats,
    in_equilibrium: Bools,
) -> PlateAnchor:
    """Force of each anchor from the stress plane of its plate.

    Args:
        x, y, x_p, y_p: (anchors,) place of the anchor and of the centre of its plate, in.
        a_s: (anchors,) stress area, in2.
        contact, in_equilibrium: (anchors,) boolean.
        alpha_e: (anchors,) of `plate_balance`.
        sigma_p: (anchors,) psi. sigma_x, sigma_y: (anchors,) psi/in.
    """
    sigma_a = sigma_p + sigma_x * (x - x_p) + sigma_y * (y - y_p)
    force = -alpha_e * a_s * sigma_a
    tension = np.where(in_equilibrium, np.where(contact, np.maximum(force, 0.0), force), np.inf)
    return PlateAnchor(
        x=x,
        y=y,
        a_s=a_s,
        contact=contact,
        alpha_e=alpha_e,
        x_p=x_p,
        y_p=y_p,
        sigma_p=sigma_p,
        sigma_x=sigma_x,
        sigma_y=sigma_y,
        in_equilibrium=in_equilibrium,
        sigma_a=sigma_a,
        tension=tension,
        compressed=tension < 0.0,
    )
