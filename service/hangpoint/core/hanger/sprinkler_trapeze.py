"""Section modulus that a trapeze member of a sprinkler line needs (NFPA 13, annex table of trapeze hangers).

The member carries 15 ft of water-filled pipe and 250 lb at 15,000 psi: Z = (15 w + 250) L / (4 x 15,000) with L in
inches, at mid-span. A pipe off the middle, at a and b from the rods, counts with the span 4 a b / (a + b), which gives
the moment under it. From memory; two printed figures of the table agree. Several pipes on one trapeze need the sum of
their moduli; rods and anchors need a check of their own: the size table of rods is for one pipe, and of several the
largest one is taken in it.

Units: ft, in3, lbf, psi. Limits: simple span between two rods, plain bending about the axis of Z, no buckling.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

PIPE_LENGTH, ADDED_LOAD, BENDING_STRESS = 15.0, 250.0, 15_000.0
"""ft, lbf, psi."""

_CLAUSE = "NFPA 13, trapeze hangers"


@record
class SprinklerTrapeze(Record):
    """Section modulus needed for alike pipes at one place of a trapeze."""

    TITLE: ClassVar[str] = "Trapeze member of a sprinkler line"
    AXIS: ClassVar[Axis] = Axis.LOAD

    number: Annotated[Floats, given("number of lines")]
    w_filled: Annotated[Floats, given("w, filled with water", "lbf/ft")]
    l_pipe: Annotated[Floats, given("length of pipe", "ft", clause=_CLAUSE)]
    p_added: Annotated[Floats, given("added load", "lbf", clause=_CLAUSE)]
    p_rule: Annotated[Floats, formula("15 w + 250", "lbf", "w_filled*l_pipe + p_added", clause=_CLAUSE)]
    a: Annotated[Floats, given("a", "ft")]
    b: Annotated[Floats, given("b", "ft")]
    l_eq: Annotated[Floats, formula("L", "ft", "4*a*b/(a + b)", clause=_CLAUSE)]
    z_required: Annotated[
        Floats, formula("Z", "in**3", "number*p_rule*l_eq*12/(4*15000)", clause=_CLAUSE, coefficient="in/ft/psi")
    ]


def sprinkler_trapeze(*, number: Floats, w_filled: Floats, a: Floats, b: Floats) -> SprinklerTrapeze:
    """Section modulus that alike pipes at one place ask for, arrays of shape (n,).

    ``number`` of the pipes, ``w_filled`` the weight of one of them filled with water in lbf/ft; ``a``, ``b`` > 0 their
    distances from the two rods in ft.
    """
    l_pipe, p_added = np.full_like(w_filled, PIPE_LENGTH), np.full_like(w_filled, ADDED_LOAD)
    p_rule = w_filled * l_pipe + p_added
    l_eq = 4.0 * a * b / (a + b)
    return SprinklerTrapeze(
        number=number,
        w_filled=w_filled,
        l_pipe=l_pipe,
        p_added=p_added,
        p_rule=p_rule,
        a=a,
        b=b,
        l_eq=l_eq,
        z_required=number * p_rule * l_eq * 12.0 / (4.0 * BENDING_STRESS),
    )
