"""What the anchors of a point take: cost index, minutes, drilled depth, and the reserve that is left."""

from typing import Annotated, ClassVar

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record


@record
class Takes(Record):
    """Of all anchors of a point, with one product."""

    TITLE: ClassVar[str] = "What the anchors of a point take"
    AXIS: ClassVar[Axis] = Axis.CASE

    anchors: Annotated[Floats, given("n", "")]
    cost_of_one: Annotated[Floats, given("cost index of one", "")]
    minutes_of_one: Annotated[Floats, given("minutes of one", "minute")]
    hole_depth: Annotated[Floats, given("h_hole", "in")]
    utilisation: Annotated[Floats, given("u", "")]
    cost_index: Annotated[Floats, formula("cost index", "", "anchors * cost_of_one", clause="product data")]
    minutes: Annotated[Floats, formula("minutes", "minute", "anchors * minutes_of_one", clause="product data")]
    drilled_depth: Annotated[Floats, formula("drilled depth", "in", "anchors * hole_depth", clause="product data")]
    reserve: Annotated[Floats, formula("reserve", "", "1 - utilisation", clause="reading 42")]


def takes(
    *, anchors: Floats, cost_of_one: Floats, minutes_of_one: Floats, hole_depth: Floats, utilisation: Floats
) -> Takes:
    """What each of some pairs takes.

    Args:
        anchors: (pairs,) anchors of the point.
        cost_of_one, minutes_of_one: (pairs,) of the product.
        hole_depth: (pairs,) of its hole, in; 0 without one.
        utilisation: (pairs,) of anchor and base.
    """
    return Takes(
        anchors=anchors,
        cost_of_one=cost_of_one,
        minutes_of_one=minutes_of_one,
        hole_depth=hole_depth,
        utilisation=utilisation,
        cost_index=anchors * cost_of_one,
        minutes=anchors * minutes_of_one,
        drilled_depth=anchors * hole_depth,
        reserve=1 - utilisation,
    )
