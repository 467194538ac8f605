"""The request for a take-off: hang points as they are, with what is bought for them.

An item has whatever a hang point has, so that a file of hang points goes as it is; hanging load, base, attachment and
earthquake have no say in a take-off. ``defaults`` stand behind every item, key by key.
"""

from typing import Annotated, NotRequired, Required

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.quantities import DistanceQuantity, OffsetQuantity
from hangpoint.api.schemas.request import Anchor, At, Attachment, Base, Hangs, Options, Rod, Seismic
from hangpoint.api.schemas.surroundings import Environment, StructuralLimit
from hangpoint.api.schemas.words import (
    MAX_ITEMS,
    MAX_STRUCTURAL_LIMITS,
    Combinations,
    DesignCode,
    Detail,
    Identifier,
    LoadStandard,
    Neighbours,
    Share,
    Text,
    UnitSystem,
)

Quantity = Annotated[int, Field(ge=1, le=10_000)]
Number = Annotated[int, Field(ge=0, le=100)]
Pack = Annotated[int, Field(ge=1, le=100_000)]


@with_config(STRICT)
class RodEnds(TypedDict, total=False):
    """What ends one rod: nuts, washers, and couplings besides those at the joints of a long rod.

    Without them two nuts and two washers, and a coupling below an external thread where each rod has its own anchor.
    """

    nuts: Number
    washers: Number
    couplings: Number


@with_config(STRICT)
class TakeOffRod(Rod, total=False):
    """The rod of a hang point with its length, the number of rods at the point (1), and what ends each."""

    length: DistanceQuantity
    number: Number
    ends: RodEnds


@with_config(STRICT)
class PartialTakeOffItem(TypedDict, total=False):
    """Values for every item of a take-off that doesn't give its own."""

    at: At
    trade: Text
    tags: Annotated[list[Text], Field(max_length=20)]
    hangs: Hangs
    rod: TakeOffRod
    anchor: Anchor
    base: Base
    attachment: Attachment
    seismic: Seismic
    environment: Environment
    options: Options
    area: Text
    quantity: Quantity


@with_config(STRICT)
class TakeOffItem(PartialTakeOffItem, total=False):
    """Points that are alike: ``quantity`` of them, 1 where not stated.

    Those of one ``alternative_of`` with the same product, rod, quantity and place are counted once.
    """

    id: Required[Identifier]
    alternative_of: Text


@with_config(STRICT)
class Waste(TypedDict, total=False):
    """Shares that are added to what is used: 0.05 is 5 %.

    ``anchors`` is of the holes too, ``rods`` of the bars of the cut list, ``hardware`` of nuts, washers, couplings and
    nozzles.
    """

    anchors: Share
    rods: Share
    hardware: Share
    adhesive: Share
    charges: Share


@with_config(STRICT)
class Packs(TypedDict, total=False):
    """Pieces in a package; those of products stand in their data."""

    nuts: Pack
    washers: Pack
    couplings: Pack
    nozzles: Pack
    rods: Pack


@with_config(STRICT)
class Stock(TypedDict, total=False):
    """What rods are cut from: bars of one length; ``kerf`` is what a cut takes of the bar, 0 of
    one that is sheared.

    ``shortest_piece`` is the least that a rod longer than the bars is pieced together of.
    """

    rod_length: DistanceQuantity
    kerf: OffsetQuantity
    shortest_piece: DistanceQuantity
    packs: Packs


@with_config(STRICT)
class TakeOffRates(TypedDict, total=False):
    """What a job is ordered by: waste, stock, and the crews that have a set of tools each."""

    waste: Waste
    stock: Stock
    crews: Annotated[int, Field(ge=1, le=1000)]


@with_config(STRICT)
class TakeOffRequest(TakeOffRates):
    """A take-off of a job. What a check of hang points states besides its items may stand here and has no say."""

    units: UnitSystem
    project: NotRequired[Project]
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    detail: NotRequired[Detail]
    neighbours: NotRequired[Neighbours]
    structural_limits: NotRequired[
        Annotated[list[StructuralLimit], Field(min_length=1, max_length=MAX_STRUCTURAL_LIMITS)]
    ]
    defaults: NotRequired[PartialTakeOffItem]
    items: Annotated[list[TakeOffItem], Field(min_length=1, max_length=MAX_ITEMS)]
