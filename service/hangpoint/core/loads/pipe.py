"""Weight of pipe, contents, test fluid, insulation and jacket per foot of run.

Geometry of rings and circles with nominal dimensions: ring of pipe pi (d_o - t) t, bore pi/4 (d_o - 2 t)^2, ring of
insulation pi (d_o + t_ins) t_ins, circumference of the jacket pi (d_o + 2 t_ins). Units: in, lbf/ft3 and lbf/ft2 (a
density times standard gravity, so the same figure as lb/ft3), lbf/ft. With 490 lb/ft3 the pipe's weight is the
10.69 (d_o - t) t of ASME B36.10M.

A line that is tested with water holds the test fluid instead of its contents, never both: ``w_test`` stands in the
place of ``w_fluid`` while the test lasts, and is no part of ``w_total``. What the insulation weighs is in the dead
load of a test too, although a line is often tested before it is insulated.

Limits: straight pipe, plain ends, full bore of contents. Couplings, fittings and valves come in by ``allowance``, a
fraction on everything (a common practice, no source for a figure); a concentrated weight is a point load on the run
and belongs there. A lining has no line of its own: it is a ring inside the bore, and the contents that it displaces
are counted. A jacket is a weight per area of its face, laps included by the caller; bare pipe may have one.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

_CLAUSE = "geometry"
_RING = "ft**2/in**2"


@record
class PipeWeight(Record):
    """Weight per foot of a pipe run: what is always there, what fills the pipe, what fills it in a test."""

    TITLE: ClassVar[str] = "Weight of pipe, contents and insulation"
    AXIS: ClassVar[Axis] = Axis.LOAD

    d_o: Annotated[Floats, given("d_o", "in", clause="pipe standard")]
    t: Annotated[Floats, given("t", "in", clause="pipe standard")]
    rho_pipe: Annotated[Floats, given("ρ_pipe", "lbf/ft**3", clause="pipe standard")]
    w_pipe: Annotated[
        Floats,
        formula("w_pipe", "lbf/ft", "pi*(d_o - t)*t*rho_pipe/144", clause=_CLAUSE, coefficient=_RING),
    ]
    rho_contents: Annotated[Floats, given("ρ_contents", "lbf/ft**3")]
    w_contents: Annotated[
        Floats,
        formula("w_contents", "lbf/ft", "pi/4*(d_o - 2*t)**2*rho_contents/144", clause=_CLAUSE, coefficient=_RING),
    ]
    rho_test: Annotated[Floats, given("ρ_test", "lbf/ft**3")]
    t_ins: Annotated[Floats, given("t_ins", "in")]
    rho_ins: Annotated[Floats, given("ρ_ins", "lbf/ft**3")]
    w_insulation: Annotated[
        Floats,
        formula("w_ins", "lbf/ft", "pi*(d_o + t_ins)*t_ins*rho_ins/144", clause=_CLAUSE, coefficient=_RING),
    ]
    q_jacket: Annotated[Floats, given("q_jacket", "lbf/ft**2")]
    w_jacket: Annotated[
        Floats, formula("w_jacket", "lbf/ft", "pi*(d_o + 2*t_ins)*q_jacket/12", clause=_CLAUSE, coefficient="ft/in")
    ]
    allowance: Annotated[Floats, given("allowance")]
    w_dead: Annotated[
        Floats, formula("w_D", "lbf/ft", "(w_pipe + w_insulation + w_jacket)*(1 + allowance)", clause=_CLAUSE)
    ]
    w_fluid: Annotated[Floats, formula("w_F", "lbf/ft", "w_contents*(1 + allowance)", clause=_CLAUSE)]
    w_test: Annotated[
        Floats,
        formula(
            "w_test",
            "lbf/ft",
            "pi/4*(d_o - 2*t)**2*rho_test/144*(1 + allowance)",
            clause=_CLAUSE,
            coefficient=_RING,
        ),
    ]
    w_total: Annotated[Floats, formula("w", "lbf/ft", "w_dead + w_fluid", clause=_CLAUSE)]


def pipe_weight(
    *,
    d_o: Floats,
    t: Floats,
    rho_pipe: Floats,
    rho_contents: Floats,
    rho_test: Floats,
    t_ins: Floats,
    rho_ins: Floats,
    q_jacket: Floats,
    allowance: Floats,
) -> PipeWeight:
    """Weight per foot of each pipe, every array of shape (n,).

    ``d_o``, ``t``, ``t_ins`` in inches with 0 < 2 t <= d_o; densities in lbf/ft3 and the jacket in lbf/ft2, zero where
    there is nothing, ``rho_test`` zero where the line isn't tested with a liquid; ``allowance`` a fraction (0.05 is
    5 %). The caller excludes walls beyond the radius and negative figures.
    """
    bore = np.pi / 4.0 * (d_o - 2.0 * t) ** 2
    more = 1.0 + allowance
    w_pipe = np.pi * (d_o - t) * t * rho_pipe / 144.0
    w_contents = bore * rho_contents / 144.0
    w_insulation = np.pi * (d_o + t_ins) * t_ins * rho_ins / 144.0
    w_jacket = np.pi * (d_o + 2.0 * t_ins) * q_jacket / 12.0
    w_dead = (w_pipe + w_insulation + w_jacket) * more
    w_fluid = w_contents * more
    return PipeWeight(
        d_o=d_o,
        t=t,
        rho_pipe=rho_pipe,
        w_pipe=w_pipe,
        rho_contents=rho_contents,
        w_contents=w_contents,
        rho_test=rho_test,
        t_ins=t_ins,
        rho_ins=rho_ins,
        w_insulation=w_insulation,
        q_jacket=q_jacket,
        w_jacket=w_jacket,
        allowance=allowance,
        w_dead=w_dead,
        w_fluid=w_fluid,
        w_test=bore * rho_test / 144.0 * more,
        w_total=w_dead + w_fluid,
    )
