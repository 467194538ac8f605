"""A line whose weight per foot is stated: bus duct, rail, pipe of a kind that no table here has.

Units: lbf/ft. What fills the line is stated apart, because it may be absent; ``allowance`` is a fraction on both, zero
where the stated weights hold everything.
"""

from typing import Annotated, ClassVar

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record


@record
class LineWeight(Record):
    """Stated weight per foot of a line."""

    TITLE: ClassVar[str] = "Stated weight of the line"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_stated: Annotated[Floats, given("w_stated", "lbf/ft")]
    w_filling: Annotated[Floats, given("w_filling", "lbf/ft")]
    allowance: Annotated[Floats, given("allowance")]
    w_dead: Annotated[Floats, formula("w_D", "lbf/ft", "w_stated*(1 + allowance)", clause="sum")]
    w_fluid: Annotated[Floats, formula("w_F", "lbf/ft", "w_filling*(1 + allowance)", clause="sum")]


def line_weight(*, w_stated: Floats, w_filling: Floats, allowance: Floats) -> LineWeight:
    """Weight per foot of each line, every array of shape (n,); stated weights in lbf/ft, ``allowance`` a fraction."""
    return LineWeight(
        w_stated=w_stated,
        w_filling=w_filling,
        allowance=allowance,
        w_dead=w_stated * (1.0 + allowance),
        w_fluid=w_filling * (1.0 + allowance),
    )
