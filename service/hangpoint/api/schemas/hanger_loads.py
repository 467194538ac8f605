"""The request for the loads on hangers: runs, risers, trapezes and equipment, in one list.

``defaults`` stand behind every item, key by key. Positions along a run are measured from its first hanger, those on a
trapeze from its first rod, in the unit of distance; places of rods under equipment in the unit of length.
"""

from typing import Annotated, Literal, NotRequired, Required

from pydantic import Field, StringConstraints, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.lines import Line
from hangpoint.api.schemas.quantities import (
    CoordinateQuantity,
    DistanceQuantity,
    ForceQuantity,
    LengthQuantity,
    LineWeightQuantity,
    OffsetQuantity,
    StressQuantity,
    WeightQuantity,
)
from hangpoint.api.schemas.words import (
    MAX_ITEMS,
    AsceEdition,
    LoadNature,
    RodMaterial,
    RodRule,
    SeismicCategory,
    Share,
    SpacingRule,
    Text,
    UnitSystem,
)

MAX_LOAD_ID = 56
"""Characters of the id of an item: its hang points have a suffix more."""

MAX_HANGERS = 20
MAX_ON_BAR = 40
MAX_TIERS = 6
MAX_BODY_RODS = 12
MAX_GIVEN = 40
MAX_RULES = 24

LoadId = Annotated[str, StringConstraints(min_length=1, max_length=MAX_LOAD_ID)]
RunModel = Literal["larger", "tributary", "continuous", "hinged"]
BodyModel = Literal["larger", "equal_springs", "any_three"]
Component = Literal[
    "air_side",
    "wet_side",
    "pump",
    "ceiling",
    "spring_isolated",
    "isolated_in_line",
    "pipe_b31_welded",
    "pipe_b31_threaded",
    "pipe_ductile_welded",
    "pipe_ductile_threaded",
    "pipe_brittle",
    "duct_welded",
    "duct",
    "raceway",
    "bus_duct",
    "plumbing",
]
WeightNature = Literal["dead", "contents", "live"]


@with_config(STRICT)
class Place(TypedDict):
    """A place under a body, from any one origin."""

    x: OffsetQuantity
    y: OffsetQuantity


@with_config(STRICT)
class LevelPlace(TypedDict, total=False):
    """Where the item is in the job: level, and in the job's own axes its first hanger, or the origin of its rods.

    With the ``bearing`` of run or bar, an angle in degrees from x towards y, each hang point has its own coordinates.
    """

    level: Text
    x: CoordinateQuantity
    y: CoordinateQuantity
    z: CoordinateQuantity
    bearing: Annotated[float, Field(ge=-360, le=360)]


@with_config(STRICT)
class RunLoad(TypedDict):
    """A valve, a flange, a drop or any other weight on the run or on the bar; ``number`` alike ones at one place."""

    at: CoordinateQuantity
    weight: WeightQuantity
    nature: NotRequired[WeightNature]
    number: NotRequired[Annotated[int, Field(ge=1, le=1_000)]]
    description: NotRequired[Text]


@with_config(STRICT)
class HangerRun(TypedDict):
    """Spans between hangers in order, and what reaches beyond the first and the last.

    ``missing_hanger`` is the index of a hanger between two others that is not there or slack, or the word `any`: then
    each of them in turn, and every hanger takes the largest.
    """

    spans: Annotated[list[DistanceQuantity], Field(min_length=1, max_length=MAX_HANGERS)]
    start_overhang: NotRequired[DistanceQuantity]
    end_overhang: NotRequired[DistanceQuantity]
    model: NotRequired[RunModel]
    point_loads: NotRequired[Annotated[list[RunLoad], Field(max_length=MAX_ON_BAR)]]
    missing_hanger: NotRequired[Annotated[int, Field(ge=0, le=MAX_HANGERS)] | Literal["any"]]
    spacing_rules: NotRequired[Annotated[list[SpacingRule], Field(min_length=1, max_length=MAX_RULES)]]


@with_config(STRICT)
class TrapezeRun(TypedDict, total=False):
    """How far the lines of a trapeze run to the next ones: one ``spacing``, or spans and which hanger this is."""

    spacing: DistanceQuantity
    spans: Annotated[list[DistanceQuantity], Field(min_length=1, max_length=MAX_HANGERS)]
    support: Annotated[int, Field(ge=0, le=MAX_HANGERS)]
    model: RunModel
    spacing_rules: Annotated[list[SpacingRule], Field(min_length=1, max_length=MAX_RULES)]


@with_config(STRICT)
class OnBar(TypedDict):
    """A line on a bar, from the first rod; below zero or past the last rod it is on an overhanging end."""

    at: CoordinateQuantity
    line: Line


@with_config(STRICT)
class Channel(TypedDict):
    """A strut by its outside dimensions, open side up or down; without ``lip`` a plain channel.

    ``lip_return`` is the depth by which a lip turns back into the channel; ``inner_radius`` that of all corners, the
    thickness where not stated; ``slot`` the width of slots along the middle of the back.
    """

    width: LengthQuantity
    height: LengthQuantity
    thickness: LengthQuantity
    lip: NotRequired[LengthQuantity]
    lip_return: NotRequired[LengthQuantity]
    inner_radius: NotRequired[LengthQuantity]
    slot: NotRequired[LengthQuantity]
    back_to_back: NotRequired[bool]


@with_config(STRICT)
class Bar(TypedDict, total=False):
    """The bar of a tier: its weight, or its section, which is then checked against ``allowable_stress``.

    ``deflection_limit`` is span over deflection; 240 where not stated.
    """

    weight: LineWeightQuantity
    section: Channel
    allowable_stress: StressQuantity
    modulus: StressQuantity
    deflection_limit: Annotated[float, Field(ge=50, le=2_000)]
    start_overhang: DistanceQuantity
    end_overhang: DistanceQuantity


@with_config(STRICT)
class Tier(TypedDict, total=False):
    """One level of a trapeze: its bar, lines and other loads."""

    bar: Required[Bar]
    lines: Annotated[list[OnBar], Field(max_length=MAX_ON_BAR)]
    loads: Annotated[list[RunLoad], Field(max_length=MAX_ON_BAR)]


@with_config(STRICT)
class HangerRod(TypedDict, total=False):
    """The rod of each hanger; its own weight counts by its ``length``. ``out_of_plumb`` is an angle in degrees.

    ``free_length`` is the largest between what holds it sideways, a stiffener or its ends; its length if not stated.
    """

    size: Text
    material: RodMaterial
    f_u: StressQuantity
    rule: RodRule
    length: DistanceQuantity
    free_length: LengthQuantity
    out_of_plumb: Annotated[float, Field(ge=0, le=30)]


@with_config(STRICT)
class GivenLoad(TypedDict):
    """A load at one hanger as stated: thermal or guide thrust, snow, wind. ``hanger`` counts from 0.

    Earthquake is stated without Omega_0, which the item's hang point adds.
    """

    hanger: Annotated[int, Field(ge=0, le=MAX_HANGERS)]
    nature: LoadNature
    tension: NotRequired[ForceQuantity]
    shear_x: NotRequired[ForceQuantity]
    shear_y: NotRequired[ForceQuantity]


@with_config(STRICT)
class Coefficients(TypedDict, total=False):
    """Coefficients of the component: a_p, R_p, Omega_0 of 7-16, or C_AR, R_po, Omega_0p of 7-22."""

    a_p: Annotated[float, Field(gt=0, le=5)]
    r_p: Annotated[float, Field(gt=0, le=20)]
    omega_0: Annotated[float, Field(ge=1, le=5)]
    c_ar: Annotated[float, Field(gt=0, le=5)]
    r_po: Annotated[float, Field(gt=0, le=20)]
    omega_0p: Annotated[float, Field(ge=1, le=5)]


@with_config(STRICT)
class Building(TypedDict, total=False):
    """What 7-22 asks of the building: its period, and R, I_e and Omega_0 of its seismic system; unknown without."""

    period: Annotated[float, Field(gt=0, le=20)]
    r: Annotated[float, Field(gt=0, le=20)]
    i_e: Annotated[float, Field(ge=1, le=2)]
    omega_0: Annotated[float, Field(ge=1, le=5)]


@with_config(STRICT)
class Brace(TypedDict, total=False):
    """Braces across or along a run, one every ``spacing``; of equipment ``number`` that share the force, one a rod.

    ``angle`` in degrees from the vertical or the horizontal. ``rigid``: one brace acts both ways; otherwise cables.
    """

    angle: Required[Annotated[float, Field(ge=1, le=89)]]
    angle_from: Required[Literal["vertical", "horizontal"]]
    spacing: DistanceQuantity
    number: Annotated[int, Field(ge=1, le=20)]
    direction: Literal["across", "along"]


@with_config(STRICT)
class LoadSeismic(TypedDict, total=False):
    """Component seismic force: F_p from S_DS, I_p, the component and its height z in a building of height h."""

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
    brace: Brace
    bending_free: bool


@with_config(STRICT)
class Shared(TypedDict, total=False):
    """What any item may have, and the defaults for all."""

    at: LevelPlace
    trade: Text
    rod: HangerRod
    erection_load: ForceQuantity
    given: Annotated[list[GivenLoad], Field(max_length=MAX_GIVEN)]
    seismic: LoadSeismic


@with_config(STRICT)
class RunItem(Shared, total=False):
    """A straight run of one line on its hangers."""

    id: Required[LoadId]
    kind: Required[Literal["run"]]
    line: Required[Line]
    run: Required[HangerRun]


@with_config(STRICT)
class RiserItem(Shared, total=False):
    """A vertical line on supports of its own: all share its weight, or one must carry it all."""

    id: Required[LoadId]
    kind: Required[Literal["riser"]]
    line: Required[Line]
    length: Required[DistanceQuantity]
    supports: Required[Annotated[int, Field(ge=1, le=MAX_HANGERS)]]
    model: Literal["one_carries_all", "equal"]


@with_config(STRICT)
class TrapezeItem(Shared, total=False):
    """Bars on two to four rods, one above the other; ``rods_at`` from the first rod, which is at 0.

    ``spare`` is the share of what hangs that is kept free for later.
    """

    id: Required[LoadId]
    kind: Required[Literal["trapeze"]]
    run: Required[TrapezeRun]
    rods_at: Required[Annotated[list[DistanceQuantity], Field(min_length=2, max_length=4)]]
    tiers: Required[Annotated[list[Tier], Field(min_length=1, max_length=MAX_TIERS)]]
    spare: Share


@with_config(STRICT)
class EquipmentItem(Shared, total=False):
    """A body on rods: operating weight, of which ``contents`` may be absent, and its centre of gravity.

    ``impact`` multiplies the weight for vibration and starting.
    """

    id: Required[LoadId]
    kind: Required[Literal["equipment"]]
    weight: Required[WeightQuantity]
    contents: WeightQuantity
    rods_at: Required[Annotated[list[Place], Field(min_length=2, max_length=MAX_BODY_RODS)]]
    centre_of_gravity: Required[Place]
    model: BodyModel
    impact: Annotated[float, Field(ge=1, le=3)]
    isolated: bool


LoadItem = Annotated[RunItem | RiserItem | TrapezeItem | EquipmentItem, Field(discriminator="kind")]
LoadDetail = Literal["loads", "trace"]


@with_config(STRICT)
class HangerLoadsRequest(TypedDict):
    """Runs, risers, trapezes and equipment, each with its hangers."""

    units: UnitSystem
    load_standard: NotRequired[AsceEdition]
    detail: NotRequired[LoadDetail]
    defaults: NotRequired[Shared]
    items: Annotated[list[LoadItem], Field(min_length=1, max_length=MAX_ITEMS)]
