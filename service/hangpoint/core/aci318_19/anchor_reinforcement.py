"""Anchor reinforcement in place of concrete breakout, ACI 318-19 17.5.2.1. Units: in2, psi, lbf.

For tension and for shear alike. Only the yielding of the bars is computed: that they are developed on both sides of
the breakout surface (chapter 25) and enclose the anchor as the clause wants is the engineer's to show.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, StrengthRecord, formula, given, record

PHI = 0.75
MOST_F_Y = 80_000.0
"""psi, of anchor reinforcement in design (Table 20.2.2.4(a), from memory)."""


@record
class AnchorReinforcement(StrengthRecord):
    """Bars that take the whole load of one group of anchors in one direction."""

    TITLE: ClassVar[str] = "anchor reinforcement"
    AXIS: ClassVar[Axis] = Axis.GROUP

    a_s: Annotated[Floats, given("A_s", "in**2", clause="17.5.2.1")]
    f_y: Annotated[Floats, given("f_y", "psi", clause="17.5.2.1")]
    f_y_most: Annotated[Floats, given("f_y that counts at most", "psi", clause="Table 20.2.2.4(a)")]
    r_s: Annotated[Floats, formula("A_s f_y", "lbf", "a_s * min(f_y, f_y_most)", clause="17.5.2.1")]
    phi: Annotated[Floats, given("φ", clause="17.5.2.1")]
    design_strength: Annotated[Floats, formula("φA_s f_y", "lbf", "phi * r_s", clause="17.5.2.1")]
    demand: Annotated[Floats, given("N_ua,g or V_ua,g", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("load / φA_s f_y", "", "demand / design_strength", clause="17.5.2.1")]


def anchor_reinforcement(*, a_s: Floats, f_y: Floats, demand: Floats) -> AnchorReinforcement:
    """Design strength of the anchor reinforcement of each group, phi 0.75.

    Args:
        a_s: (groups,) area of the bars that count, in2.
        f_y: (groups,) their specified yield strength, psi.
        demand: (groups,) factored tension or shear of the group, lbf.
    """
    f_y_most, phi = np.full_like(a_s, MOST_F_Y), np.full_like(a_s, PHI)
    r_s = a_s * np.minimum(f_y, f_y_most)
    design_strength = phi * r_s
    return AnchorReinforcement(
        a_s=a_s,
        f_y=f_y,
        f_y_most=f_y_most,
        r_s=r_s,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
