"""What a take-off is ordered by: waste, stock, packages, crews; from the request, or as common practice has it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from hangpoint.core.vocabulary import TakeOffAssumption
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.pull import EMPTY, Object, Rows
from hangpoint.units import DISTANCE, OFFSET, System

_WASTE: Mapping[str, tuple[float, TakeOffAssumption]] = {
    "anchors": (0.05, TakeOffAssumption.WASTE_ANCHORS),
    "rods": (0.03, TakeOffAssumption.WASTE_RODS),
    "hardware": (0.05, TakeOffAssumption.WASTE_HARDWARE),
    "adhesive": (0.15, TakeOffAssumption.WASTE_ADHESIVE),
    "charges": (0.05, TakeOffAssumption.WASTE_CHARGES),
}
"""Shares that are added where the request states none. Common practice, no source."""

_PACKS = {"nuts": 100, "washers": 100, "couplings": 25, "nozzles": 10, "rods": 1}
_ROD_LENGTH, _KERF, _SHORTEST = 10.0, 0.125, 0.5
"""Stock length, ft; kerf, in; shortest piece, ft."""

TOP = -1
"""Row of a flaw that is not in an item."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """``waste`` by what is wasted, a share; ``packs`` by what is packed; ``rod_length`` and ``shortest`` in ft.

    ``kerf`` is in inches. ``assumed`` are the defaults taken, each of which counts only where it was used.
    """

    waste: Mapping[str, float]
    packs: Mapping[str, int]
    rod_length: float
    kerf: float
    shortest: float
    crews: int
    assumed: frozenset[TakeOffAssumption] = field(default_factory=frozenset[TakeOffAssumption])


def read_rates(waste: Object | None, stock: Object | None, crews: int | None, *, system: System, flaws: Flaws) -> Rates:
    """Read them from a request that is valid by its schema.

    Flaws, of the row `TOP`: a length out of range, a kerf below 0, a stock length or shortest piece that can't be cut.
    """
    waste, stock = waste or EMPTY, stock or EMPTY
    assumed = {member for name, (_, member) in _WASTE.items() if name not in waste}
    rows = Rows([stock], default=EMPTY, path="stock/", index=[TOP], local=[0], system=system, flaws=flaws)
    rod_length = float(rows.quantity("rod_length", DISTANCE, fill=_ROD_LENGTH)[0])
    kerf = float(rows.quantity("kerf", OFFSET, fill=_KERF)[0])
    shortest = float(rows.quantity("shortest_piece", DISTANCE, fill=min(_SHORTEST, rod_length / 2))[0])
    if not flaws.by_row and kerf < 0:
        rows.flaw(0, "kerf", "A kerf is not below 0.", slug="quantity")
    if not flaws.by_row and rod_length < 0.1:
        rows.flaw(0, "rod_length", "A bar of stock is at least 0.1 ft (30.5 mm) long.", slug="quantity")
    if not flaws.by_row and 2 * shortest > rod_length:
        rows.flaw(0, "shortest_piece", "The shortest piece is at most half the stock length.", slug="quantity")
    packs: Mapping[str, int] = stock.get("packs", EMPTY)
    for name, member in (
        ("rod_length", TakeOffAssumption.STOCK_LENGTH),
        ("kerf", TakeOffAssumption.KERF),
        ("shortest_piece", TakeOffAssumption.SHORTEST),
    ):
        if name not in stock:
            assumed.add(member)
    if not packs.keys() >= _PACKS.keys():
        assumed.add(TakeOffAssumption.PACKS)
    if crews is None:
        assumed.add(TakeOffAssumption.CREWS)
    return Rates(
        waste={name: float(waste.get(name, share)) for name, (share, _) in _WASTE.items()},
        packs={name: packs.get(name, pack) for name, pack in _PACKS.items()},
        rod_length=rod_length,
        kerf=kerf,
        shortest=shortest,
        crews=crews or 1,
        assumed=frozenset(assumed),
    )
