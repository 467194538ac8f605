"""Elastic shear of a bolt group with torsion: V_i = V/n + T r_i / sum(r**2).

ACI 318-19 17.2.1, EN 1992-4 6.2.2. Units: in, lbf, lbf*in. Signs: x, y in the face of the concrete, M_z right-handed
about z out of it; the shear of an anchor is what it takes of the load, in the load's direction.

Taken for granted: a rigid plate, anchors equally stiff in each direction in which they resist, no friction. An anchor
may resist along x, along y, both or neither (a slotted hole, a hole too wide). Then there are two centres: shear along
x acts through the mean y of the anchors that resist along x, shear along y through the mean x of those along y, and the
polar sum takes y from the first and x from the second. Where all resist both ways this is the formula above.

Limit: elastic, so that the farthest anchor governs; that holes are tight enough to share is the caller's to say.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import ELASTIC
from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, formula, given, procedure, record
from hangpoint.core.statics.tension_resultant import resultant

NEGLIGIBLE = 1e-9
"""Share of the load below which an unresisted part of it is rounding."""


@record
class BoltGroupShear(Record):
    """Shear and torsion of one group of anchors about its centres."""

    TITLE: ClassVar[str] = "shear of a bolt group"
    AXIS: ClassVar[Axis] = Axis.CASE

    v_x: Annotated[Floats, given("V_x", "lbf")]
    v_y: Annotated[Floats, given("V_y", "lbf")]
    x_v: Annotated[Floats, given("x_V", "in")]
    y_v: Annotated[Floats, given("y_V", "in")]
    m_z: Annotated[Floats, given("M_z", "lbf*in")]
    n_x: Annotated[Floats, procedure("n_x", "", "resisting_anchors", clause=ELASTIC)]
    n_y: Annotated[Floats, procedure("n_y", "", "resisting_anchors", clause=ELASTIC)]
    x_r: Annotated[Floats, procedure("x_r", "in", "resisting_anchors", clause=ELASTIC)]
    y_r: Annotated[Floats, procedure("y_r", "in", "resisting_anchors", clause=ELASTIC)]
    j_r: Annotated[Floats, procedure("J_r", "in**2", "polar_sum", clause=ELASTIC)]
    t_z: Annotated[Floats, formula("T", "lbf*in", "m_z + (x_v - x_r) * v_y - (y_v - y_r) * v_x", clause=ELASTIC)]
    v_x_1: Annotated[Floats, formula("V_x/n_x", "lbf", "where(n_x > 0, v_x / n_x, 0)", clause=ELASTIC)]
    v_y_1: Annotated[Floats, formula("V_y/n_y", "lbf", "where(n_y > 0, v_y / n_y, 0)", clause=ELASTIC)]
    t_1: Annotated[Floats, formula("T/J_r", "lbf/in", "where(j_r > 0, t_z / j_r, 0)", clause=ELASTIC)]
    resisted: Annotated[Bools, procedure("the anchors resist the load", "", "shear_resisted", clause="statics")]


@record
class BoltShear(Record):
    """Shear of one anchor; infinite where its group doesn't resist the load."""

    TITLE: ClassVar[str] = "shear of an anchor of a group"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    x: Annotated[Floats, given("x", "in")]
    y: Annotated[Floats, given("y", "in")]
    resists_x: Annotated[Bools, given("resists along x")]
    resists_y: Annotated[Bools, given("resists along y")]
    x_r: Annotated[Floats, given("x_r", "in")]
    y_r: Annotated[Floats, given("y_r", "in")]
    v_x_1: Annotated[Floats, given("V_x/n_x", "lbf")]
    v_y_1: Annotated[Floats, given("V_y/n_y", "lbf")]
    t_1: Annotated[Floats, given("T/J_r", "lbf/in")]
    resisted: Annotated[Bools, given("the anchors resist the load")]
    v_a_x: Annotated[
        Floats,
        formula("V_x,i", "lbf", "where(resists_x, v_x_1 - t_1 * (y - y_r), 0)", clause=ELASTIC, when="resisted"),
    ]
    v_a_y: Annotated[
        Floats,
        formula("V_y,i", "lbf", "where(resists_y, v_y_1 + t_1 * (x - x_r), 0)", clause=ELASTIC, when="resisted"),
    ]
    v_a: Annotated[Floats, formula("V_i", "lbf", "sqrt(v_a_x**2 + v_a_y**2)", clause=ELASTIC)]


@frozen
class GroupShear:
    """Groups by case, and their anchors on the flat axis."""

    group: BoltGroupShear
    anchors: BoltShear


def bolt_group_shear(
    *,
    v_x: Floats,
    v_y: Floats,
    x_v: Floats,
    y_v: Floats,
    m_z: Floats,
    x: Floats,
    y: Floats,
    resists_x: Bools,
    resists_y: Bools,
    case_of_anchor: Index,
) -> GroupShear:
    """Shear of each anchor.

    Args:
        v_x, v_y: (cases,) shear on the plate, lbf, at the point x_v, y_v (cases,), in.
        m_z: (cases,) torsion beside that of the shear about the centres, lbf*in.
        x, y: (anchors,) in.
        resists_x, resists_y: (anchors,) boolean, whether the anchor takes shear along x, along y.
        case_of_anchor: (anchors,) in rising order.

    Returns:
        Records of the cases and of the anchors. A load that nothing resists (shear along a slot of every anchor,
        torsion on one anchor) is data: ``resisted`` is false and the shear of the anchors infinite.
    """
    count, at = len(v_x), case_of_anchor
    along_x, along_y = np.where(resists_x, 1.0, 0.0), np.where(resists_y, 1.0, 0.0)
    n_x, _, y_r = resultant(force=along_x, x=x, y=y, row=at, count=count)
    n_y, x_r, _ = resultant(force=along_y, x=x, y=y, row=at, count=count)
    arm_x, arm_y = x - x_r[at], y - y_r[at]
    polar: Floats = np.bincount(at, along_y * arm_x**2 + along_x * arm_y**2, count).astype(np.float64)
    scale = np.zeros(count)
    np.maximum.at(scale, at, np.maximum(np.abs(x), np.abs(y)))
    j_r = np.where(polar > NEGLIGIBLE**2 * scale**2, polar, 0.0)
    t_z = m_z + (x_v - x_r) * v_y - (y_v - y_r) * v_x
    shear = np.abs(v_x) + np.abs(v_y)
    turning = np.abs(m_z) + shear * np.maximum(scale, np.maximum(np.abs(x_v), np.abs(y_v)))
    held_x = (n_x > 0.0) | (np.abs(v_x) <= NEGLIGIBLE * shear)
    held_y = (n_y > 0.0) | (np.abs(v_y) <= NEGLIGIBLE * shear)
    resisted = held_x & held_y & ((j_r > 0.0) | (np.abs(t_z) <= NEGLIGIBLE * turning))
    group = BoltGroupShear(
        v_x=v_x,
        v_y=v_y,
        x_v=x_v,
        y_v=y_v,
        m_z=m_z,
        n_x=n_x,
        n_y=n_y,
        x_r=x_r,
        y_r=y_r,
        j_r=j_r,
        t_z=t_z,
        v_x_1=np.where(n_x > 0.0, v_x / np.maximum(n_x, 1.0), 0.0),
        v_y_1=np.where(n_y > 0.0, v_y / np.maximum(n_y, 1.0), 0.0),
        t_1=np.where(j_r > 0.0, t_z / np.where(j_r > 0.0, j_r, 1.0), 0.0),
        resisted=resisted,
    )
    anchors = _anchors(group=group, x=x, y=y, resists_x=resists_x, resists_y=resists_y, case_of_anchor=at)
    return GroupShear(group=group, anchors=anchors)


def _anchors(
    *, group: BoltGroupShear, x: Floats, y: Floats, resists_x: Bools, resists_y: Bools, case_of_anchor: Index
) -> BoltShear:
    x_r, y_r = group.x_r[case_of_anchor], group.y_r[case_of_anchor]
    v_x_1, v_y_1 = group.v_x_1[case_of_anchor], group.v_y_1[case_of_anchor]
    t_1, resisted = group.t_1[case_of_anchor], group.resisted[case_of_anchor]
    v_a_x = np.where(resisted, np.where(resists_x, v_x_1 - t_1 * (y - y_r), 0.0), np.inf)
    v_a_y = np.where(resisted, np.where(resists_y, v_y_1 + t_1 * (x - x_r), 0.0), np.inf)
    return BoltShear(
        x=x,
        y=y,
        resists_x=resists_x,
        resists_y=resists_y,
        x_r=x_r,
        y_r=y_r,
        v_x_1=v_x_1,
        v_y_1=v_y_1,
        t_1=t_1,
        resisted=resisted,
        v_a_x=v_a_x,
        v_a_y=v_a_y,
        v_a=np.sqrt(v_a_x**2 + v_a_y**2),
    )
