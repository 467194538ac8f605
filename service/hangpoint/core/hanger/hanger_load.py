"""Service load of a hanger by nature, with its rod, the load of a person, and the rule of the sprinkler standard.

The rule counts five times what hangs there filled with water and 250 lb for the parts of the hanger, once it and 250 lb
for the structure; on a support that a sprinkler line shares, five times all that hangs there (reading 29, option 1 of
the sprinkler standard's shared supports). A lift counts as nothing hung. Beside it the 250 lb are a live load.
Units: lbf.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.loads.combinations import SPRINKLER_LOAD, SPRINKLER_WEIGHTS
from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record


@record
class HangerLoad(Record):
    """What one hanger or rod carries at service level."""

    TITLE: ClassVar[str] = "Load of the hanger"
    AXIS: ClassVar[Axis] = Axis.LOAD

    r_dead: Annotated[Floats, given("R_D", "lbf")]
    r_contents: Annotated[Floats, given("R_F", "lbf")]
    r_live: Annotated[Floats, given("R_L", "lbf")]
    impact: Annotated[Floats, given("impact")]
    p_rod: Annotated[Floats, given("W_rod", "lbf")]
    erection: Annotated[Floats, given("person or erection", "lbf")]
    sprinkler: Annotated[Bools, given("a sprinkler line hangs here", clause="reading 29")]
    stated: Annotated[Floats, given("D and F as stated at the hanger", "lbf")]
    added: Annotated[Floats, given("added load of the rule", "lbf", clause="reading 29")]
    dead: Annotated[Floats, formula("D", "lbf", "impact*r_dead + p_rod", clause="statics")]
    contents: Annotated[Floats, formula("F", "lbf", "impact*r_contents", clause="statics")]
    live: Annotated[Floats, formula("L", "lbf", "r_live + erection + where(sprinkler, added, 0)", clause="statics")]
    w_hung: Annotated[
        Floats,
        formula("W", "lbf", "max(r_dead + max(r_contents, 0) + stated, 0)", clause="reading 29", when="sprinkler"),
    ]
    components: Annotated[
        Floats,
        formula("5 W + 250 lb", "lbf", "5*w_hung + added", clause="reading 29", when="sprinkler"),
    ]
    structure: Annotated[
        Floats,
        formula("W + 250 lb", "lbf", "w_hung + added", clause="reading 29", when="sprinkler"),
    ]


def hanger_load(
    *,
    r_dead: Floats,
    r_contents: Floats,
    r_live: Floats,
    impact: Floats,
    p_rod: Floats,
    erection: Floats,
    sprinkler: Bools,
    stated: Floats,
) -> HangerLoad:
    """Service load of each hanger, every array (n,): reactions, weight of the rod and erection load in lbf.

    ``stated`` is dead load and contents that the request states at the hanger, which enter the sprinkler rule.
    """
    added = np.full_like(r_dead, SPRINKLER_LOAD)
    w_hung = np.maximum(r_dead + np.maximum(r_contents, 0.0) + stated, 0.0)
    return HangerLoad(
        r_dead=r_dead,
        r_contents=r_contents,
        r_live=r_live,
        impact=impact,
        p_rod=p_rod,
        erection=erection,
        sprinkler=sprinkler,
        stated=stated,
        added=added,
        dead=impact * r_dead + p_rod,
        contents=impact * r_contents,
        live=r_live + erection + np.where(sprinkler, added, 0.0),
        w_hung=w_hung,
        components=SPRINKLER_WEIGHTS * w_hung + added,
        structure=w_hung + added,
    )
