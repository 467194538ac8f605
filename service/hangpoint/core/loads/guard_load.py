"""Live load of a guard on one of its posts, as a named option.

From memory: IBC 1607 wants a guard to take 200 lb at any one point and, apart from it, 50 lb/ft along its top, in any
direction that is worst. Verify both with the code in force. Units: lbf, ft. Limits: a post carries the rail as far as
half way to its neighbours; infill, handrails and vehicle barriers have other loads.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record

_CLAUSE = "IBC 1607, from memory"

AT_ONE_POINT, ALONG_THE_TOP = 200.0, 50.0
"""lbf, and lbf/ft."""


@record
class GuardLoad(Record):
    """Horizontal live load at the top of one post."""

    TITLE: ClassVar[str] = "Live load of a guard on a post"
    AXIS: ClassVar[Axis] = Axis.LOAD

    along: Annotated[Bools, given("the load along the top")]
    spacing: Annotated[Floats, given("spacing of the posts", "ft")]
    p: Annotated[Floats, given("load at one point", "lbf", clause=_CLAUSE)]
    q: Annotated[Floats, given("load along the top", "lbf/ft", clause=_CLAUSE)]
    h: Annotated[Floats, formula("H", "lbf", "where(along, q*spacing, p)", clause=_CLAUSE)]


def guard_load(*, along: Bools, spacing: Floats) -> GuardLoad:
    """Load on each post, (n,): at one point, or ``along`` the top over the ``spacing`` in ft."""
    p, q = np.full(len(spacing), AT_ONE_POINT), np.full(len(spacing), ALONG_THE_TOP)
    return GuardLoad(along=along, spacing=spacing, p=p, q=q, h=np.where(along, q * spacing, p))
