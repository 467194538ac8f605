"""A rod that hangs out of plumb: the horizontal force that its load brings to the anchor, and the tension in the rod.

At the angle alpha from the vertical a rod that carries the weight P has the tension P / cos(alpha); its horizontal part
P tan(alpha) is shear on the anchor above (5 degrees: 8.7 % of P) and pushes what hangs sideways by as much below.

Units: lbf, degrees. Limits: the weight still hangs vertically from the rod's lower end, which something else holds
sideways; bending of the rod where it is clamped isn't covered.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, procedure, record

_CLAUSE = "statics"


@record
class OutOfPlumb(Record):
    """Forces of one rod at its angle."""

    TITLE: ClassVar[str] = "Rod out of plumb"
    AXIS: ClassVar[Axis] = Axis.LOAD

    p: Annotated[Floats, given("P", "lbf")]
    alpha: Annotated[Floats, given("α from the vertical", "deg")]
    tan_alpha: Annotated[Floats, procedure("tan α", "", "tangent", clause=_CLAUSE)]
    v: Annotated[Floats, formula("P tan α", "lbf", "p*tan_alpha", clause=_CLAUSE)]
    n_rod: Annotated[Floats, formula("P/cos α", "lbf", "p*sqrt(1 + tan_alpha**2)", clause=_CLAUSE)]


def out_of_plumb(*, p: Floats, alpha: Floats) -> OutOfPlumb:
    """Shear at the anchor and tension in the rod, every array (n,).

    ``p`` in lbf is the vertical load, ``alpha`` in degrees from the vertical, 0 <= alpha < 90 (the arctangent of offset
    over length). Source: statics of one force in two directions.
    """
    tan_alpha = np.tan(np.radians(alpha))
    return OutOfPlumb(p=p, alpha=alpha, tan_alpha=tan_alpha, v=p * tan_alpha, n_rod=p * np.sqrt(1.0 + tan_alpha**2))
