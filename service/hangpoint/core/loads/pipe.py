"""Weight of pipe, contents and insulation per foot of run.

Geometry of rings and circles with nominal dimensions: ring of pipe pi (d_o - t) t, bore pi/4 (d_o - 2 t)^2, ring of
insulation pi (d_o + t_ins) t_ins. Units: in, lbf/ft3 (a density times standard gravity, so the same figure as
lb/ft3), lbf/ft. With 490 lb/ft3 the pipe's weight is the 10.69 (d_o - t) t of ASME B36.10M.

Limits: straight pipe, plain ends, full bore of contents. Couplings, fittings and valves come in by ``allowance``, a
fraction on everything (a common practice, no source for a figure); a concentrated weight is a point load on the run
and belongs there. Insulation is a round layer without its jacket.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

_CLAUSE = "geometry"
_RING = "ft**2/in**2"


@record
class PipeWeight(Record):
    """Weight per foot of a pipe run, split into what is always there and what fills the pipe."""

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
    t_ins: Annotated[Floats, given("t_ins", "in")]
    rho_ins: Annotated[Floats, given("ρ_ins", "lbf/ft**3")]
    w_insulation: Annotated[
        Floats,
        formula("w_ins", "lbf/ft", "pi*(d_o + t_ins)*t_ins*rho_ins/144", clause=_CLAUSE, coefficient=_RING),
    ]
    allowance: Annotated[Floats, given("allowance")]
    w_dead: Annotated[Floats, formula("w_D", "lbf/ft", "(w_pipe + w_insulation)*(1 + allowance)", clause=_CLAUSE)]
    w_fluid: Annotated[Floats, formula("w_F", "lbf/ft", "w_contents*(1 + allowance)", clause=_CLAUSE)]
    w_total: Annotated[Floats, formula("w", "lbf/ft", "w_dead + w_fluid", clause=_CLAUSE)]


def pipe_weight(
    *,
    d_o: Floats,
    t: Floats,
    rho_pipe: Floats,
    rho_contents: Floats,
    t_ins: Floats,
    rho_ins: Floats,
    allowance: Floats,
) -> PipeWeight:
    """Weight per foot of each pipe, every array of shape (n,).

    ``d_o``, ``t``, ``t_ins`` in inches with 0 < 2 t <= d_o; densities in lbf/ft3, zero where there is nothing;
    ``allowance`` a fraction (0.05 is 5 %). The caller excludes walls beyond the radius and negative figures.
    """
    w_pipe = np.pi * (d_o - t) * t * rho_pipe / 144.0
    w_contents = np.pi / 4.0 * (d_o - 2.0 * t) ** 2 * rho_contents / 144.0
    w_insulation = np.pi * (d_o + t_ins) * t_ins * rho_ins / 144.0
    w_dead = (w_pipe + w_insulation) * (1.0 + allowance)
    w_fluid = w_contents * (1.0 + allowance)
    return PipeWeight(
        d_o=d_o,
        t=t,
        rho_pipe=rho_pipe,
        w_pipe=w_pipe,
        rho_contents=rho_contents,
        w_contents=w_contents,
        t_ins=t_ins,
        rho_ins=rho_ins,
        w_insulation=w_insulation,
        allowance=allowance,
        w_dead=w_dead,
        w_fluid=w_fluid,
        w_total=w_dead + w_fluid,
    )
