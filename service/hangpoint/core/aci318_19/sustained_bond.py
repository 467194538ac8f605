"""Sustained tension on an adhesive anchor, ACI 318-19 17.5.2.2. Unit: lbf.

A check of its own beside bond: 0.55 phi N_ba of one anchor, without areas and edge factors, against the part of the
factored tension that stays. The 0.75 of 17.10.5.4 does not enter (reading 20). Where temperature or hole is left open,
bond is that of the condition that holds least between the edges; here, where edges don't count, another may be less.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class SustainedBond(StrengthRecord):
    """Bond of the anchor with the most sustained tension."""

    TITLE: ClassVar[str] = "bond under sustained tension"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    n_ba: Annotated[Floats, given("N_ba", "lbf", clause="17.6.5.2.1")]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(b)")]
    open: Annotated[Bools, given("another condition left open has less φτ", clause="reading 0")]
    open_share: Annotated[Floats, given("the least φτ over that of N_ba", clause="reading 0", when="open")]
    design_strength: Annotated[
        Floats,
        formula("0.55φN_ba", "lbf", "0.55 * phi * where(open, open_share, 1) * n_ba", clause="17.5.2.2"),
    ]
    demand: Annotated[Floats, given("N_ua,s", "lbf", clause="17.5.2.2")]
    utilisation: Annotated[Floats, formula("N_ua,s / 0.55φN_ba", "", "demand / design_strength", clause="17.5.2.2")]


def sustained_bond(*, n_ba: Floats, phi: Floats, open_share: Floats, demand: Floats) -> SustainedBond:
    """Design strength of the bond of each anchor under tension that stays.

    Args:
        n_ba: (anchors,) of `AdhesiveBond`, lbf.
        phi: (anchors,) of Table 17.5.3(b).
        open_share: (anchors,) least phi tau of the conditions that are left open over that of N_ba, at most 1.
        demand: (anchors,) factored sustained tension, lbf.
    """
    left_open = open_share < 1
    design_strength = 0.55 * phi * np.where(left_open, open_share, 1.0) * n_ba
    return SustainedBond(
        n_ba=n_ba,
        phi=phi,
        open=left_open,
        open_share=open_share,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
