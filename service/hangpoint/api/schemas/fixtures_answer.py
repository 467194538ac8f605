"""The answer for fixtures: loads at the origin of the anchors, overturning, and bodies for the checks of anchors."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import FindingResult, InvalidResult, TraceLine
from hangpoint.api.schemas.codes import FixtureAssumptionCode, FixtureFindingCode, FixtureNotCheckedCode, Units
from hangpoint.api.schemas.hanger_loads_answer import HangPointLevel, HangPointSeismic
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.words import AsceEdition, LoadNature


@with_config(CLOSED)
class FixtureComponent(TypedDict):
    """A service load of one nature at the origin of the anchors, as the checks of anchors take it."""

    nature: LoadNature
    tension: float
    shear_x: float
    shear_y: float
    moment_x: float
    moment_y: float
    torsion: float


@with_config(CLOSED)
class SupportComponent(TypedDict):
    """A service load of one nature at one support; tension below 0 presses on the floor."""

    nature: LoadNature
    tension: float
    shear_x: float
    shear_y: float


@with_config(CLOSED)
class SupportLoads(TypedDict):
    """Loads by nature of one support of floor equipment, numbered as its anchors are stated."""

    support: int
    x: float
    y: float
    components: list[SupportComponent]


@with_config(CLOSED)
class DirectionLoads(TypedDict):
    """Loads by nature with the horizontal loads in one ``direction``, in degrees from x; without it, as stated."""

    direction: NotRequired[float]
    components: list[FixtureComponent]
    supports: NotRequired[list[SupportLoads]]


@with_config(CLOSED)
class OverturningResult(TypedDict):
    """A horizontal load in its ``direction`` about the worst edge of the base, to which ``edge_direction`` is square.

    Moments are factored; ``beside`` is live load that acts with wind or earthquake. The righting moment is that of 0.9
    of the weight, less the vertical effect of earthquake; below 0 the weight overturns with its largest factor, without
    a direction alone. Tension is that of the most pulled anchor, also where the body lifts over a corner of the base;
    shear that of the most sheared one, with the torsion of a load beside the middle of the anchors. The earthquake of a
    component holds Omega_0.
    """

    direction: NotRequired[float]
    nature: LoadNature
    beside: NotRequired[Literal["live"]]
    edge_direction: float
    overturning_moment: float
    righting_moment: float
    anchor_tension: float
    anchor_shear: float


@with_config(CLOSED)
class FixtureSeismicResult(TypedDict):
    """Component seismic force of the operating weight W_p, and with Omega_0 for anchorage in concrete."""

    w_p: float
    f_p: float
    share_of_weight: float
    omega_0: float
    f_p_anchorage: float
    vertical: float
    governs: str


@with_config(CLOSED)
class FixtureFindingResult(FindingResult):
    """Something seen in one direction under a load of one nature, and what acts beside it; without one, of weight."""

    code: FixtureFindingCode  # pyright: ignore[reportIncompatibleVariableOverride]
    direction: NotRequired[float]
    nature: LoadNature
    beside: NotRequired[Literal["live"]]


@with_config(CLOSED)
class GroupLoads(TypedDict):
    """Loads of a group, by nature."""

    components: list[FixtureComponent]


@with_config(CLOSED)
class AnchorPlace(TypedDict):
    """A place of an anchor in the face of the base."""

    x: float
    y: float


@with_config(CLOSED)
class GroupAnchor(TypedDict):
    """Where the anchors stand; family, size and embedment are the caller's to add beside it."""

    layout: list[AnchorPlace]


@with_config(CLOSED)
class MadeGroup(TypedDict):
    """A group with its loads; anchor, base, plate and seismic category are the caller's to add, key by key."""

    id: str
    loads: GroupLoads
    anchor: NotRequired[GroupAnchor]
    seismic: NotRequired[HangPointSeismic]


@with_config(CLOSED)
class MadeGroupBody(TypedDict):
    """The beginning of a body for the check of a group: units, combinations and loads are complete."""

    units: Literal["us", "si"]
    combinations: Literal["strength"]
    load_standard: NotRequired[AsceEdition]
    group: MadeGroup


@with_config(CLOSED)
class FixtureHangs(TypedDict):
    """Loads as forces."""

    kind: Literal["forces"]
    components: list[FixtureComponent]


@with_config(CLOSED)
class MadeFixturePoint(TypedDict):
    """The group as an item for the check of hang points. Of several directions none has coordinates."""

    id: str
    alternative_of: NotRequired[str]
    at: NotRequired[HangPointLevel]
    trade: NotRequired[str]
    hangs: FixtureHangs
    anchor: NotRequired[GroupAnchor]
    seismic: NotRequired[HangPointSeismic]


@with_config(CLOSED)
class FixtureTraceSection(TypedDict):
    """One record of the calculation in in, ft and lbf; what it is of: a direction, a nature, a support."""

    record: str
    title: str
    axis: Literal["case", "anchor", "group", "load"]
    lines: list[TraceLine]
    direction: NotRequired[float]
    nature: NotRequired[LoadNature]
    support: NotRequired[int]


@with_config(CLOSED)
class FixtureResult(TypedDict):
    """A fixture that was computed; failed where a finding is a violation. Nothing is said of its anchors."""

    id: str
    index: int
    kind: Literal["bracket", "wall_equipment", "floor_equipment", "post"]
    face: Literal["top", "side"]
    status: Literal["passed", "failed"]
    loads: list[DirectionLoads]
    overturning: NotRequired[list[OverturningResult]]
    seismic: NotRequired[FixtureSeismicResult]
    findings: list[FixtureFindingResult]
    assumptions: list[FixtureAssumptionCode]
    not_checked: list[FixtureNotCheckedCode]
    anchor_groups: list[MadeGroupBody]
    hang_points: list[MadeFixturePoint]
    trace: NotRequired[list[FixtureTraceSection]]


@with_config(CLOSED)
class FixtureSummary(TypedDict):
    """Counts; passed, failed and invalid add up to the total."""

    total: int
    passed: int
    failed: int
    invalid: int


@with_config(CLOSED)
class FixturesAnswer(TypedDict):
    """The answer to a request for fixtures."""

    engine_version: str
    load_standard: AsceEdition
    units: Units
    request_digest: str
    summary: FixtureSummary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
    items: list[FixtureResult | InvalidResult]
