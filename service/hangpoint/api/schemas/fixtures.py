"""The request for fixtures that don't hang: brackets and equipment on walls, equipment on floors, posts.

Places are from the origin of the anchors: x and y in the face of the base, z out of it. On a wall y is up and weight
acts along -y; on a floor weight acts along -z. ``defaults`` stand behind every item, key by key.
"""

from typing import Annotated, Literal, NotRequired, Required

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.hanger_loads import Building, Coefficients, Component, LevelPlace, LoadId, Place
from hangpoint.api.schemas.layouts import STRICT, Degrees
from hangpoint.api.schemas.quantities import (
    DistanceQuantity,
    ForceQuantity,
    LengthQuantity,
    OffsetQuantity,
    WeightQuantity,
)
from hangpoint.api.schemas.words import MAX_ITEMS, AsceEdition, LoadNature, SeismicCategory, Text, UnitSystem

MAX_FORCES = 40
MAX_SUPPORTS = 64

HorizontalNature = Literal["live", "wind", "earthquake"]
GuardRule = Literal["guard_200_lb", "guard_50_lb_per_ft"]


@with_config(STRICT)
class FixturePlace(TypedDict):
    """Where a force acts. x and y are 0, that is on the line of the origin, where they are not stated."""

    x: NotRequired[OffsetQuantity]
    y: NotRequired[OffsetQuantity]
    z: OffsetQuantity


@with_config(STRICT)
class BracketLoad(TypedDict):
    """A weight on the arm: ``at`` z is its distance from the wall."""

    nature: LoadNature
    weight: WeightQuantity
    at: FixturePlace
    description: NotRequired[Text]


@with_config(STRICT)
class HorizontalLoad(TypedDict):
    """A horizontal force: its direction in degrees from x, on a floor towards y, on a wall towards z; without it any.

    Wind is at strength level, as ASCE 7 gives it. Earthquake stands here where it is stated and not computed.
    """

    nature: HorizontalNature
    force: ForceQuantity
    at: FixturePlace
    direction: NotRequired[Degrees]
    description: NotRequired[Text]


@with_config(STRICT)
class FixtureForce(TypedDict):
    """A force as stated, along the axes of the anchors; tension is along z, away from the base."""

    nature: LoadNature
    at: FixturePlace
    tension: NotRequired[ForceQuantity]
    shear_x: NotRequired[ForceQuantity]
    shear_y: NotRequired[ForceQuantity]
    description: NotRequired[Text]


@with_config(STRICT)
class FixtureSeismic(TypedDict, total=False):
    """Component seismic force of the fixture: F_p from S_DS, I_p, the component and its height z in a building h high.

    It acts at every weight of nature dead or contents, in any horizontal direction.
    """

    category: SeismicCategory
    s_ds: Annotated[float, Field(ge=0, le=5)]
    i_p: Annotated[float, Field(ge=1, le=1.5)]
    component: Component
    coefficients: Coefficients
    z: DistanceQuantity
    h: DistanceQuantity
    at_grade: bool
    building: Building
    isolator_gap: LengthQuantity


HorizontalLoads = Annotated[list[HorizontalLoad], Field(max_length=MAX_FORCES)]
FixtureForces = Annotated[list[FixtureForce], Field(max_length=MAX_FORCES)]


@with_config(STRICT)
class FixtureShared(TypedDict, total=False):
    """What any fixture may have, and the defaults for all.

    ``directions``: how many a force of any direction is looked at in, evenly from x; 4, of a post 8, where not stated.
    """

    at: LevelPlace
    trade: Text
    directions: Literal[4, 8, 16]
    seismic: FixtureSeismic


@with_config(STRICT)
class BracketItem(FixtureShared, total=False):
    """A bracket on a wall: what its arm carries."""

    id: Required[LoadId]
    kind: Required[Literal["bracket"]]
    loads: Required[Annotated[list[BracketLoad], Field(min_length=1, max_length=MAX_FORCES)]]
    horizontal: HorizontalLoads
    forces: FixtureForces


@with_config(STRICT)
class WallEquipmentItem(FixtureShared, total=False):
    """A body on a wall: operating weight, of which ``contents`` may be absent, and its centre of gravity."""

    id: Required[LoadId]
    kind: Required[Literal["wall_equipment"]]
    weight: Required[WeightQuantity]
    contents: WeightQuantity
    centre_of_gravity: Required[FixturePlace]
    isolated: bool
    horizontal: HorizontalLoads
    forces: FixtureForces


@with_config(STRICT)
class FootPrint(TypedDict):
    """The rectangle that the equipment stands on and would tip over: widths along x and y, and its middle."""

    width_x: LengthQuantity
    width_y: LengthQuantity
    center: NotRequired[Place]


@with_config(STRICT)
class FloorEquipmentItem(FixtureShared, total=False):
    """A body on a floor, held by anchors: operating weight, of which ``contents`` may be absent, centre of gravity.

    ``anchors_at``: three or more, not in one line. Without ``footprint`` it tips over its outermost anchors.
    """

    id: Required[LoadId]
    kind: Required[Literal["floor_equipment"]]
    weight: Required[WeightQuantity]
    contents: WeightQuantity
    centre_of_gravity: Required[FixturePlace]
    anchors_at: Required[Annotated[list[Place], Field(min_length=3, max_length=MAX_SUPPORTS)]]
    footprint: FootPrint
    isolated: bool
    horizontal: HorizontalLoads


@with_config(STRICT)
class GuardLoad(TypedDict):
    """A named live load on a guard: 200 lb at one post, or 50 lb/ft over the ``spacing`` of posts, at the rail.

    By IBC 1607, from memory; in any horizontal direction. Never taken unless it is named. The two don't act together:
    a post that may have either is two items.
    """

    rule: GuardRule
    height: LengthQuantity
    spacing: NotRequired[DistanceQuantity]


@with_config(STRICT)
class PostItem(FixtureShared, total=False):
    """A post on its base plate, for a guard, a rail or a sign: weight, horizontal loads at their heights."""

    id: Required[LoadId]
    kind: Required[Literal["post"]]
    weight: Required[WeightQuantity]
    centre_of_gravity: Required[FixturePlace]
    guard: GuardLoad
    horizontal: HorizontalLoads
    forces: FixtureForces


FixtureItem = Annotated[BracketItem | WallEquipmentItem | FloorEquipmentItem | PostItem, Field(discriminator="kind")]
FixtureDetail = Literal["loads", "trace"]


@with_config(STRICT)
class FixturesRequest(TypedDict):
    """Fixtures that don't hang, in one list."""

    units: UnitSystem
    load_standard: NotRequired[AsceEdition]
    detail: NotRequired[FixtureDetail]
    defaults: NotRequired[FixtureShared]
    items: Annotated[list[FixtureItem], Field(min_length=1, max_length=MAX_ITEMS)]
