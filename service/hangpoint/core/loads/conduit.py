"""Weight of electrical conduit with its conductors per foot of run.

The weight of steel conduit doesn't follow from its nominal dimensions (2 to 6 % apart: the standards prescribe a least
weight, and zinc is on top), so it is tabulated: ``data/conduit.csv``, lb/ft, one column for each list, and of the lists
that have a size the heaviest counts. Types: "emt" (ANSI C80.3), "imc" (C80.6), "rmc" (C80.1), "pvc40" and "pvc80"
(NEMA TC 2). Lists:

* ``textbook``: Modern Commercial Wiring (Goodheart-Willcox, 2015), figure 5-12, EMT and RMC;
* ``association``: nominal weights of the association of steel tube makers, EMT, IMC, RMC;
* ``utility``: a public utility's material standard for PVC conduit, with a bell at one end;
* ``minimum``: least weights with couplings of IMC and RMC, from memory. RMC is 4 to 6 % below the textbook there;
* ``nominal``: the sizes that no other list has, from memory; among them most IMC and every other size of PVC.

Outside diameters of EMT and of three or four sizes each of IMC and RMC are the association's; the others are those of
pipe, and of IMC from memory. Inside diameters are those of NEC chapter 9, table 4: EMT and IMC as a secondary print has
them, RMC and PVC from memory.

Conductors may outweigh the conduit, so the weight of the cables should be stated. Where it isn't, a fill does: the
fraction of the bore that conductors take, 0.40 at most for three or more (NEC chapter 9, table 1), times ``RHO_FILL``,
which is copper of 558 lb/ft3 (3.876 lb/ft per in2) on 0.70 of the conductors' own section. Copper is 0.4 (12 AWG) to
0.6 (1,000 kcmil) of the section of insulated building wire, and the insulation weighs as much as another 0.04 to 0.08
(from memory), so 0.70 covers them; bare copper is denser and is to be stated. A fill of 0.40 so weighs
0.40 x 0.70 x 3.876 = 1.085 lb/ft for each square inch of bore.

Units: in, in2, lbf/ft3, lbf/ft. Boxes, fittings and conduit bodies are not in the weight of the run.
"""

import csv
from functools import cache
from importlib.resources import files
from typing import Annotated, ClassVar, NamedTuple

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record

CONDUIT_TYPES = ("emt", "imc", "rmc", "pvc40", "pvc80")
LISTS = ("textbook", "association", "utility", "minimum", "nominal")
"""Columns of the table of weights, by where they come from; the last two are from memory."""

COPPER = 558.0
"""Density of copper, lb/ft3 (0.323 lb/in3)."""

RHO_FILL = 0.70 * COPPER
"""Density of conductors with their insulation where no cable weight is stated, lb/ft3: an upper bound."""


class ConduitSize(NamedTuple):
    """One conduit: diameters in inches, weight in lb/ft, and the list that the weight is from."""

    outside_diameter: float
    inside_diameter: float
    weight: float
    source: str


@cache
def _table() -> dict[str, dict[str, ConduitSize]]:
    text = files("hangpoint.core.loads").joinpath("data", "conduit.csv").read_text(encoding="utf-8")
    found: dict[str, dict[str, ConduitSize]] = {name: {} for name in CONDUIT_TYPES}
    for line in csv.DictReader(text.splitlines()):
        weight, source = max((float(line[name]), name) for name in LISTS if line[name])
        found[line["type"]][line["size"]] = ConduitSize(
            float(line["outside_diameter"]), float(line["inside_diameter"]), weight, source
        )
    return found


def conduit_sizes(kind: str) -> tuple[str, ...]:
    """Trade sizes of a type of conduit, smallest first; empty for an unknown type."""
    return tuple(_table().get(kind, {}))


def conduit_size(kind: str, size: str) -> ConduitSize | None:
    """The conduit of that type and trade size, or None where the table has none."""
    return _table().get(kind, {}).get(size)


@record
class ConduitWeight(Record):
    """Weight per foot of a conduit run; conductors are dead load."""

    TITLE: ClassVar[str] = "Weight of conduit and conductors"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_conduit: Annotated[Floats, given("w_conduit", "lbf/ft", clause="ANSI C80.1, C80.3, C80.6, NEMA TC 2")]
    d_i: Annotated[Floats, given("d_i", "in", clause="NEC chapter 9 table 4")]
    a_bore: Annotated[Floats, formula("A_bore", "in**2", "pi/4*d_i**2", clause="geometry")]
    fill: Annotated[Floats, given("fill", clause="NEC chapter 9 table 1")]
    rho_fill: Annotated[Floats, given("ρ_fill", "lbf/ft**3")]
    w_fill: Annotated[
        Floats,
        formula("w_fill", "lbf/ft", "fill*a_bore*rho_fill/144", clause="geometry", coefficient="ft**2/in**2"),
    ]
    w_cables: Annotated[Floats, given("w_cables", "lbf/ft")]
    w_dead: Annotated[Floats, formula("w_D", "lbf/ft", "w_conduit + w_cables + w_fill", clause="geometry")]


def conduit_weight(
    *, w_conduit: Floats, d_i: Floats, fill: Floats, rho_fill: Floats, w_cables: Floats
) -> ConduitWeight:
    """Weight per foot of each conduit, every array of shape (n,).

    ``w_conduit`` and ``w_cables`` in lbf/ft, ``d_i`` in inches, ``fill`` the fraction of the bore that conductors
    without a stated weight take, ``rho_fill`` their density in lbf/ft3. Stated cables and a fill add up; either may be
    zero.
    """
    a_bore = np.pi / 4.0 * d_i**2
    w_fill = fill * a_bore * rho_fill / 144.0
    return ConduitWeight(
        w_conduit=w_conduit,
        d_i=d_i,
        a_bore=a_bore,
        fill=fill,
        rho_fill=rho_fill,
        w_fill=w_fill,
        w_cables=w_cables,
        w_dead=w_conduit + w_cables + w_fill,
    )
