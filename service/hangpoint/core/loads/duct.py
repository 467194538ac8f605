"""Weight of sheet metal duct with liner and wrap per foot of run.

Geometry: the perimeter of the sheet is 2 (a + b) of a rectangle, pi a of a circle, pi b + 2 (a - b) of a flat oval with
the major axis a and the minor axis b. ``a`` and ``b`` are dimensions of the sheet metal, so with a liner they are more
than the free opening. Units: in, lbf/ft2, lbf/ft3, lbf/ft.

* Sheet: perimeter times weight per area, and a fraction of it for seams, joints, flanges and reinforcement. 0.15 to
  0.25 is the shop's rule (common practice), 0.25 what the duct weights of HVAC Equations, Data, and Rules of Thumb,
  part 29, hold for bracing, hangers, reinforcing, joints and seams; heavy flanges can be more. None is assumed here.
* Liner: perimeter of the sheet times thickness, as if the corners were filled twice. The liner lies inside, so this is
  an upper bound, by 4 t_liner^2 in a rectangle.
* Wrap: (perimeter + 4 t_wrap) t_wrap, exact around square corners; around a circle (4 - pi) t_wrap^2 more than it is.

Limits: straight duct. Dampers, coils and terminal units are point loads. Whether a duct may hold water is not asked.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Codes, Floats, Record, formula, given, record

RECTANGULAR, ROUND, FLAT_OVAL = 0, 1, 2
SHAPES = ("rectangular", "round", "flat_oval")
"""Labels of the codes of ``shape``, in code order."""

_CLAUSE = "geometry"
_RING = "ft**2/in**2"


@record
class DuctWeight(Record):
    """Weight per foot of a duct run."""

    TITLE: ClassVar[str] = "Weight of duct, liner and wrap"
    AXIS: ClassVar[Axis] = Axis.LOAD

    shape: Annotated[Codes, given("shape", labels=SHAPES)]
    a: Annotated[Floats, given("a", "in")]
    b: Annotated[Floats, given("b", "in")]
    perimeter: Annotated[
        Floats,
        formula(
            "P",
            "in",
            "where(shape == 0, 2*(a + b), where(shape == 1, pi*a, pi*b + 2*(a - b)))",
            clause=_CLAUSE,
        ),
    ]
    q_sheet: Annotated[Floats, given("q_sheet", "lbf/ft**2", clause="gauge table or thickness")]
    reinforcement: Annotated[Floats, given("seams and reinforcement")]
    w_sheet: Annotated[
        Floats,
        formula("w_sheet", "lbf/ft", "perimeter/12*q_sheet*(1 + reinforcement)", clause=_CLAUSE, coefficient="ft/in"),
    ]
    t_liner: Annotated[Floats, given("t_liner", "in")]
    rho_liner: Annotated[Floats, given("ρ_liner", "lbf/ft**3")]
    w_liner: Annotated[
        Floats, formula("w_liner", "lbf/ft", "perimeter*t_liner*rho_liner/144", clause=_CLAUSE, coefficient=_RING)
    ]
    t_wrap: Annotated[Floats, given("t_wrap", "in")]
    rho_wrap: Annotated[Floats, given("ρ_wrap", "lbf/ft**3")]
    w_wrap: Annotated[
        Floats,
        formula("w_wrap", "lbf/ft", "(perimeter + 4*t_wrap)*t_wrap*rho_wrap/144", clause=_CLAUSE, coefficient=_RING),
    ]
    w_dead: Annotated[Floats, formula("w_D", "lbf/ft", "w_sheet + w_liner + w_wrap", clause=_CLAUSE)]


def duct_weight(
    *,
    shape: Codes,
    a: Floats,
    b: Floats,
    q_sheet: Floats,
    reinforcement: Floats,
    t_liner: Floats,
    rho_liner: Floats,
    t_wrap: Floats,
    rho_wrap: Floats,
) -> DuctWeight:
    """Weight per foot of each duct, every array of shape (n,).

    ``shape`` codes of ``SHAPES``; ``a``, ``b`` width and height, diameter and anything finite, major and minor axis
    (a >= b), in inches; ``q_sheet`` in lbf/ft2; ``reinforcement`` a fraction of the sheet; thicknesses in inches and
    densities in lbf/ft3, zero where there is nothing.
    """
    flat = np.where(shape == ROUND, np.pi * a, np.pi * b + 2.0 * (a - b))
    perimeter = np.where(shape == RECTANGULAR, 2.0 * (a + b), flat)
    w_sheet = perimeter / 12.0 * q_sheet * (1.0 + reinforcement)
    w_liner = perimeter * t_liner * rho_liner / 144.0
    w_wrap = (perimeter + 4.0 * t_wrap) * t_wrap * rho_wrap / 144.0
    return DuctWeight(
        shape=shape,
        a=a,
        b=b,
        perimeter=perimeter,
        q_sheet=q_sheet,
        reinforcement=reinforcement,
        w_sheet=w_sheet,
        t_liner=t_liner,
        rho_liner=rho_liner,
        w_liner=w_liner,
        t_wrap=t_wrap,
        rho_wrap=rho_wrap,
        w_wrap=w_wrap,
        w_dead=w_sheet + w_liner + w_wrap,
    )
