"""What was set against what was required: embedment, torque, hole, test load of anchors, as shares and shortfalls.

Records of the site as data; nothing here says that an anchor holds. Units: in, ft*lbf, lbf. A value that was not
recorded or is not required is 0 and its flag false.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record

SAME = 1e-6
"""Share by which two lengths or torques may differ by a conversion of units alone."""


@record
class SetAnchor(Record):
    """One anchor as it was set; a comparison holds where both of its sides are known."""

    TITLE: ClassVar[str] = "Anchor as set"
    AXIS: ClassVar[Axis] = Axis.LOAD

    h_required: Annotated[Floats, given("h_req", "in", clause="product data")]
    h_set: Annotated[Floats, given("h_set", "in")]
    h_known: Annotated[Bools, given("embedment recorded")]
    h_short: Annotated[
        Floats, formula("h_short", "in", "where(h_known, max(h_required - h_set, 0), 0)", clause="product data")
    ]
    h_most: Annotated[Floats, given("h_most", "in", clause="product data", infinite="nothing known")]
    h_over: Annotated[
        Floats, formula("h_over", "in", "where(h_known, max(h_set - h_most, 0), 0)", clause="product data")
    ]
    t_required: Annotated[Floats, given("T_req", "ft*lbf", clause="product data")]
    t_set: Annotated[Floats, given("T_set", "ft*lbf")]
    below: Annotated[Floats, given("tol below", clause="request")]
    above: Annotated[Floats, given("tol above", clause="request")]
    t_known: Annotated[Bools, given("torque recorded and required")]
    t_least: Annotated[Floats, formula("T_min", "ft*lbf", "t_required * (1 - below)", clause="common practice")]
    t_most: Annotated[Floats, formula("T_max", "ft*lbf", "t_required * (1 + above)", clause="common practice")]
    t_low: Annotated[
        Bools,
        formula("torque low", "", "where(t_known, t_set, t_least) < t_least * 0.999999", clause="common practice"),
    ]
    t_high: Annotated[
        Bools, formula("torque high", "", "where(t_known, t_set, t_most) > t_most * 1.000001", clause="common practice")
    ]
    p_required: Annotated[Floats, given("P_req", "lbf", clause="request")]
    p_test: Annotated[Floats, given("P_test", "lbf")]
    p_known: Annotated[Bools, given("tested and required")]
    p_short: Annotated[
        Floats, formula("P_short", "lbf", "where(p_known, max(p_required - p_test, 0), 0)", clause="request")
    ]
    p_most: Annotated[Floats, given("P_most", "lbf", clause="product data")]
    p_over: Annotated[Floats, formula("P_over", "lbf", "max(p_test - p_most, 0)", clause="common practice")]
    hold_required: Annotated[Floats, given("hold_req", "s", clause="request")]
    held_for: Annotated[Floats, given("held", "s")]
    hold_known: Annotated[Bools, given("hold recorded and required")]
    hold_short: Annotated[
        Bools,
        formula("held too short", "", "where(hold_known, held_for, hold_required) < hold_required", clause="request"),
    ]


def set_anchor(
    *,
    h_required: Floats,
    h_set: Floats,
    h_known: Bools,
    h_most: Floats,
    t_required: Floats,
    t_set: Floats,
    below: Floats,
    above: Floats,
    t_known: Bools,
    p_required: Floats,
    p_test: Floats,
    p_known: Bools,
    p_most: Floats,
    hold_required: Floats,
    held_for: Floats,
    hold_known: Bools,
) -> SetAnchor:
    """Compare each anchor; every array is (n,).

    ``h_most`` in is infinite where nothing limits how deep it is set; ``below`` and ``above`` are the shares by which a
    torque may differ from the required one. ``p_most`` lbf is the most that any test may pull.
    """
    t_least, t_most = t_required * (1.0 - below), t_required * (1.0 + above)
    return SetAnchor(
        h_required=h_required,
        h_set=h_set,
        h_known=h_known,
        h_short=np.where(h_known, np.maximum(h_required - h_set, 0.0), 0.0),
        h_most=h_most,
        h_over=np.where(h_known, np.maximum(h_set - h_most, 0.0), 0.0),
        t_required=t_required,
        t_set=t_set,
        below=below,
        above=above,
        t_known=t_known,
        t_least=t_least,
        t_most=t_most,
        t_low=np.where(t_known, t_set, t_least) < t_least * (1.0 - SAME),
        t_high=np.where(t_known, t_set, t_most) > t_most * (1.0 + SAME),
        p_required=p_required,
        p_test=p_test,
        p_known=p_known,
        p_short=np.where(p_known, np.maximum(p_required - p_test, 0.0), 0.0),
        p_most=p_most,
        p_over=np.maximum(p_test - p_most, 0.0),
        hold_required=hold_required,
        held_for=held_for,
        hold_known=hold_known,
        hold_short=np.where(hold_known, held_for, hold_required) < hold_required,
    )
