"""A force on a fixture that stands on a base or is fixed to the side of one, brought to the origin of its anchors.

Axes of the anchors: x, y in the face of the base, z out of it; tension along z, moments right-handed, so that M_x > 0
pulls at +y and M_y > 0 pulls at -x. On a floor gravity acts along -z and the horizontal plane is x, y; on a side face
gravity acts along -y and the horizontal plane is x, z. A horizontal force has its direction from x towards y, on a side
face from x towards z, that is out of the face.

Units: lbf, in, lbf*in. Source: statics, M = r x F. Limits: the fixture is rigid and its shape doesn't change.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, procedure, record

_CLAUSE = "statics"


@record
class FixtureForce(Record):
    """One force on a fixture: its weight, a horizontal force, a force as stated, any of them 0."""

    TITLE: ClassVar[str] = "Force on the fixture, at the origin of its anchors"
    AXIS: ClassVar[Axis] = Axis.LOAD

    on_side: Annotated[Bools, given("fixed to a side face")]
    w: Annotated[Floats, given("weight, downwards", "lbf")]
    h: Annotated[Floats, given("horizontal force", "lbf")]
    theta: Annotated[Floats, given("θ, its direction from x", "deg")]
    cos_theta: Annotated[Floats, procedure("cos θ", "", "direction", clause=_CLAUSE)]
    sin_theta: Annotated[Floats, procedure("sin θ", "", "direction", clause=_CLAUSE)]
    p_x: Annotated[Floats, given("P_x as stated", "lbf")]
    p_y: Annotated[Floats, given("P_y as stated", "lbf")]
    p_z: Annotated[Floats, given("P_z as stated", "lbf")]
    x_f: Annotated[Floats, given("x of the force", "in")]
    y_f: Annotated[Floats, given("y of the force", "in")]
    z_f: Annotated[Floats, given("z of the force", "in")]
    v_x: Annotated[Floats, formula("V_x", "lbf", "p_x + h*cos_theta", clause=_CLAUSE)]
    v_y: Annotated[Floats, formula("V_y", "lbf", "p_y + where(on_side, -w, h*sin_theta)", clause=_CLAUSE)]
    n: Annotated[Floats, formula("N", "lbf", "p_z + where(on_side, h*sin_theta, -w)", clause=_CLAUSE)]
    m_x: Annotated[Floats, formula("M_x", "lbf*in", "y_f*n - z_f*v_y", clause=_CLAUSE)]
    m_y: Annotated[Floats, formula("M_y", "lbf*in", "z_f*v_x - x_f*n", clause=_CLAUSE)]
    m_z: Annotated[Floats, formula("M_z", "lbf*in", "x_f*v_y - y_f*v_x", clause=_CLAUSE)]


def fixture_force(
    *,
    on_side: Bools,
    w: Floats,
    h: Floats,
    theta: Floats,
    p_x: Floats,
    p_y: Floats,
    p_z: Floats,
    x_f: Floats,
    y_f: Floats,
    z_f: Floats,
) -> FixtureForce:
    """Each force at the origin of its anchors, every array of shape (n,).

    ``w`` in lbf acts downwards, ``h`` in lbf horizontally at ``theta`` degrees from x; ``p_x``, ``p_y``, ``p_z`` in lbf
    as they are stated, tension positive. All of a row act at ``x_f``, ``y_f``, ``z_f``, in from the origin of the
    anchors. ``on_side``: the base is a wall or the side of a member. Source: statics.
    """
    cos_theta, sin_theta = direction(theta)
    v_x = p_x + h * cos_theta
    v_y = p_y + np.where(on_side, -w, h * sin_theta)
    n = p_z + np.where(on_side, h * sin_theta, -w)
    return FixtureForce(
        on_side=on_side,
        w=w,
        h=h,
        theta=theta,
        cos_theta=cos_theta,
        sin_theta=sin_theta,
        p_x=p_x,
        p_y=p_y,
        p_z=p_z,
        x_f=x_f,
        y_f=y_f,
        z_f=z_f,
        v_x=v_x,
        v_y=v_y,
        n=n,
        m_x=y_f * n - z_f * v_y,
        m_y=z_f * v_x - x_f * n,
        m_z=x_f * v_y - y_f * v_x,
    )


def direction(theta: Floats) -> tuple[Floats, Floats]:
    """Cosine and sine of angles in degrees; exact at multiples of a right angle, so that no rounding is a load."""
    turned = np.radians(theta)
    right = np.mod(theta, 90.0) == 0.0
    cosine, sine = np.cos(turned), np.sin(turned)
    return np.where(right, np.round(cosine), cosine), np.where(right, np.round(sine), sine)
