"""Anchors of an item: how many, the holes drilled for them, what that wears and takes, the adhesive in them.

Counts are of the item with its quantity, without any waste. Minutes, cost index, holes that a bit lasts and fastenings
that a charge serves are data of the product; 0 minutes and cost where it has none. Units: in, ft, in3, minutes.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record


@record
class AnchorQuantities(Record):
    """What the anchors of an item need."""

    TITLE: ClassVar[str] = "Anchors of an item"
    AXIS: ClassVar[Axis] = Axis.LOAD

    quantity: Annotated[Floats, given("n_item")]
    n_layout: Annotated[Floats, given("n_layout")]
    anchors: Annotated[Floats, formula("n_anchor", "", "quantity * n_layout", clause="count")]
    drilled: Annotated[Bools, given("drilled")]
    h_hole: Annotated[Floats, given("h_hole", "in", clause="product data")]
    holes: Annotated[Floats, formula("n_hole", "", "where(drilled, anchors, 0)", clause="count")]
    l_drilled: Annotated[
        Floats, formula("l_drilled", "ft", "holes * h_hole / 12", clause="geometry", coefficient="ft/in")
    ]
    bit_life: Annotated[Floats, given("n_life", clause="product data")]
    bits: Annotated[Floats, formula("n_bit", "", "holes / bit_life", clause="product data")]
    charged: Annotated[Bools, given("charged")]
    fastenings: Annotated[Floats, given("n_fastening", clause="product data")]
    charges: Annotated[
        Floats, formula("n_charge", "", "where(charged, anchors / fastenings, 0)", clause="product data")
    ]
    t_anchor: Annotated[Floats, given("t_anchor", "min", clause="product data")]
    minutes: Annotated[Floats, formula("t", "min", "anchors * t_anchor", clause="product data")]
    hours: Annotated[Floats, formula("t_h", "hour", "minutes / 60", clause="product data", coefficient="hour/min")]
    c_anchor: Annotated[Floats, given("c_anchor", clause="product data")]
    cost_index: Annotated[Floats, formula("c", "", "anchors * c_anchor", clause="product data")]


@record
class AdhesiveVolume(Record):
    """Adhesive between the wall of the hole and the thread of the anchor, over the whole depth of the hole.

    A thread fills the hole as a cylinder of its pitch diameter does, d - 0.6495 p, two thirds of the way from d to the
    circle of A_se, d - 0.9743 p (unified threads, from memory; metric ones have 0.9382 p, a volume 1 % larger).
    """

    TITLE: ClassVar[str] = "Adhesive of an item"
    AXIS: ClassVar[Axis] = Axis.LOAD

    glued: Annotated[Bools, given("glued")]
    d_hole: Annotated[Floats, given("d_hole", "in", clause="product data")]
    d_a: Annotated[Floats, given("d_a", "in", clause="product data")]
    a_se: Annotated[Floats, given("A_se", "in**2", clause="product data")]
    d_m: Annotated[
        Floats, formula("d_m", "in", "min(d_a, d_a / 3 + 2 / 3 * sqrt(4 * a_se / pi))", clause="thread standard")
    ]
    h_hole: Annotated[Floats, given("h_hole", "in", clause="product data")]
    v_hole: Annotated[
        Floats,
        formula("V_hole", "in**3", "where(glued, pi / 4 * (d_hole**2 - d_m**2) * h_hole, 0)", clause="geometry"),
    ]
    holes: Annotated[Floats, given("n_hole")]
    volume: Annotated[Floats, formula("V", "in**3", "holes * v_hole", clause="geometry")]


def anchor_quantities(
    *,
    quantity: Floats,
    n_layout: Floats,
    drilled: Bools,
    h_hole: Floats,
    bit_life: Floats,
    charged: Bools,
    fastenings: Floats,
    t_anchor: Floats,
    c_anchor: Floats,
) -> AnchorQuantities:
    """Count what the anchors of each item need; every array is (n,)."""
    anchors = quantity * n_layout
    holes = np.where(drilled, anchors, 0.0)
    minutes = anchors * t_anchor
    return AnchorQuantities(
        quantity=quantity,
        n_layout=n_layout,
        anchors=anchors,
        drilled=drilled,
        h_hole=h_hole,
        holes=holes,
        l_drilled=holes * h_hole / 12.0,
        bit_life=bit_life,
        bits=holes / bit_life,
        charged=charged,
        fastenings=fastenings,
        charges=np.where(charged, anchors / fastenings, 0.0),
        t_anchor=t_anchor,
        minutes=minutes,
        hours=minutes / 60.0,
        c_anchor=c_anchor,
        cost_index=anchors * c_anchor,
    )


def adhesive_volume(
    *, glued: Bools, d_hole: Floats, d_a: Floats, a_se: Floats, h_hole: Floats, holes: Floats
) -> AdhesiveVolume:
    """Volume around the anchors of each item; every array is (n,). ``a_se`` in2, of an anchor without a thread all."""
    d_m = np.minimum(d_a, d_a / 3 + 2 / 3 * np.sqrt(4 * a_se / np.pi))
    v_hole = np.where(glued, np.pi / 4 * (d_hole**2 - d_m**2) * h_hole, 0.0)
    return AdhesiveVolume(
        glued=glued,
        d_hole=d_hole,
        d_a=d_a,
        a_se=a_se,
        d_m=d_m,
        h_hole=h_hole,
        v_hole=v_hole,
        holes=holes,
        volume=holes * v_hole,
    )
