"""Force of a seismic brace beside a hanger, and what it does to the hanger's rod and to both anchors.

A brace at the angle theta from the vertical takes the horizontal force F_p by an axial force F_p / sin(theta), whose
vertical part V = F_p / tan(theta) comes back at the hanger (reading 35). The earthquake acts both ways: a brace that is
pushed presses the line down and pulls at the hanger's anchor by V; one that is pulled lifts the line and pushes the rod
by V, which along a rod out of plumb is V / cos(alpha). At the brace's own anchor V is tension and the horizontal force
shear. A cable cannot push and so adds no tension at the hanger; it is counted there all the same, on the safe side.

Units: lbf, degrees. Limits: one brace plane through the hanger, both attached at the same height of the line; braces
that share F_p each stand beside a hanger of their own; the two anchors far enough apart that each takes its own force;
slack and stretch of the brace and buckling of the rod are not covered.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, procedure, record

_CLAUSE = "reading 35"


@record
class BraceForce(Record):
    """Forces of one brace in the direction in which it acts, at strength level or as F_p is given."""

    TITLE: ClassVar[str] = "Force of the seismic brace"
    AXIS: ClassVar[Axis] = Axis.LOAD

    f_p: Annotated[Floats, given("F_p", "lbf", clause=_CLAUSE)]
    braces: Annotated[Floats, given("braces that share F_p", clause=_CLAUSE)]
    theta_v: Annotated[Floats, given("θ_v from the vertical", "deg", clause=_CLAUSE)]
    tan_theta: Annotated[Floats, procedure("tan θ_v", "", "tangent", clause=_CLAUSE)]
    sin_theta: Annotated[Floats, formula("sin θ_v", "", "tan_theta/sqrt(1 + tan_theta**2)", clause="statics")]
    f_horizontal: Annotated[
        Floats, formula("F_p of one brace, shear at its anchor", "lbf", "f_p/braces", clause=_CLAUSE)
    ]
    f_axial: Annotated[Floats, formula("F_p/sin θ_v", "lbf", "f_horizontal/sin_theta", clause="statics")]
    v: Annotated[
        Floats,
        formula(
            "V, tension at the brace's anchor, added at the hanger", "lbf", "f_horizontal/tan_theta", clause=_CLAUSE
        ),
    ]
    n_sure: Annotated[
        Floats, given("gravity load that is surely there, less stated pushes", "lbf", clause="ASCE 7 2.3.6")
    ]
    tan_alpha: Annotated[Floats, given("tan α, lean of the rod", clause="statics")]
    c_rod: Annotated[
        Floats,
        formula("compression in the rod", "lbf", "max(0, v - n_sure)*sqrt(1 + tan_alpha**2)", clause=_CLAUSE),
    ]


def brace_force(*, f_p: Floats, braces: Floats, theta_v: Floats, n_sure: Floats, tan_alpha: Floats) -> BraceForce:
    """Forces of each brace, every array of shape (n,).

    ``f_p`` >= 0 in lbf is the horizontal force of the length of line between braces, or of the equipment; ``braces``
    how many act at once: 1 for one rigid brace and for a pair of cables, of which one is slack. ``theta_v`` in degrees
    from the vertical, 0 < theta_v < 90 (90 less the angle from the horizontal). ``n_sure`` in lbf is the gravity load
    in the rod that may be counted on, such as (0.9 - 0.2 S_DS) times its dead load, less what else pushes; negative
    where that is more. ``tan_alpha`` >= 0 is of the angle of the rod from the vertical. ``v`` is the tension added at
    the hanger's anchor and that at the brace's own, ``f_horizontal`` the shear at the latter. Source: reading 35.
    """
    tan_theta = np.tan(np.radians(theta_v))
    sin_theta = tan_theta / np.sqrt(1.0 + tan_theta**2)
    f_horizontal = f_p / braces
    v = f_horizontal / tan_theta
    return BraceForce(
        f_p=f_p,
        braces=braces,
        theta_v=theta_v,
        tan_theta=tan_theta,
        sin_theta=sin_theta,
        f_horizontal=f_horizontal,
        f_axial=f_horizontal / sin_theta,
        v=v,
        n_sure=n_sure,
        tan_alpha=tan_alpha,
        c_rod=np.maximum(0.0, v - n_sure) * np.sqrt(1.0 + tan_alpha**2),
    )
