"""What stands around an anchor: reinforcement, the flute of a deck, the environment, limits of the structural notes."""

from typing import Annotated, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.quantities import (
    AreaQuantity,
    AreaWeightQuantity,
    CoordinateQuantity,
    ForceQuantity,
    LengthQuantity,
    OffsetQuantity,
    StressQuantity,
)
from hangpoint.api.schemas.words import Direction, Exposure, FireSides, Flute, Identifier, Metal, Text


@with_config(STRICT)
class Reinforcement(TypedDict):
    """Anchor reinforcement of one direction, developed on both sides of the breakout surface (17.5.2.1)."""

    area: AreaQuantity
    f_y: StressQuantity


@with_config(STRICT)
class AnchorReinforcement(TypedDict, total=False):
    """Anchor reinforcement, which stands in place of concrete breakout."""

    tension: Reinforcement
    shear: Reinforcement


@with_config(STRICT)
class Deck(TypedDict, total=False):
    """The flute of a concrete-filled steel deck that the anchor is in; the base's `thickness` is that of the whole.

    ``offset`` is from the centre of the flute, ``cover`` the fill above the top of the deck, ``sheet`` the thickness of
    its steel. ``direction`` is that of the flutes in the axes of the layout; anchors beside its origin need it.
    """

    flute: Flute
    flute_width: LengthQuantity
    offset: OffsetQuantity
    cover: LengthQuantity
    sheet: LengthQuantity
    direction: Direction


@with_config(STRICT)
class Environment(TypedDict, total=False):
    """Where the anchor lives and what touches it.

    ``attached_metal`` is that of what is fixed to the anchor, ``rod_metal`` that of the rod; ``fire_rating`` is asked
    for, in hours; by EN 1992-4 the fasteners are checked in it, on ``fire_sides`` of the member.
    """

    exposure: Exposure
    attached_metal: Metal
    rod_metal: Metal
    vibration: bool
    fire_rating: Annotated[float, Field(ge=0, le=4)]
    fire_sides: FireSides


@with_config(STRICT)
class StructuralLimit(TypedDict):
    """What the structural notes allow of service load: at a point, in total, per area of a rectangle on plan.

    It holds for the points of the ``level`` and ``member`` named, within the coordinates stated; what is not stated
    bounds nothing, and a point that names no member is in none. At least one of the three limits is stated;
    ``most_per_area`` needs all four coordinates.
    """

    id: Identifier
    level: NotRequired[Text]
    member: NotRequired[Text]
    x_from: NotRequired[CoordinateQuantity]
    x_to: NotRequired[CoordinateQuantity]
    y_from: NotRequired[CoordinateQuantity]
    y_to: NotRequired[CoordinateQuantity]
    most_per_point: NotRequired[ForceQuantity]
    most_total: NotRequired[ForceQuantity]
    most_per_area: NotRequired[AreaWeightQuantity]
