"""Load maps: service loads of hang points in their places, their sums by level. The request is that of a check."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import (
    CaseFactors,
    CatalogueVersion,
    CodeEdition,
    InvalidResult,
    Product,
    StructuralLimitResult,
)
from hangpoint.api.schemas.codes import AssumptionCode, LoadMapNoteCode, ModeCode, NotCheckedCode, Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.words import Combinations, DesignCode, Face, LoadStandard, Neighbours

BesideWord = Literal["roof_live", "snow", "wind", "thermal", "test", "opposed", "earthquake"]


@with_config(STRICT)
class LoadMapHead(TypedDict):
    """What the query states of hang points that come as CSV."""

    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    neighbours: NotRequired[Neighbours]


@with_config(CLOSED)
class ServiceByNature(TypedDict):
    """Service loads of a point away from its face, by nature; those behind the first four where they are not 0."""

    dead: float
    contents: float
    live: float
    sprinkler: float
    roof_live: NotRequired[float]
    snow: NotRequired[float]
    wind: NotRequired[float]
    test: NotRequired[float]
    thermal: NotRequired[float]
    earthquake: NotRequired[float]
    sprinkler_rule: NotRequired[float]


@with_config(CLOSED)
class PullsAndPushes(TypedDict):
    """Sum of the loads away from the face, and of those towards it, 0 or negative: never one less the other."""

    pulls: float
    pushes: float


@with_config(CLOSED)
class ServiceSums(TypedDict):
    """Sums by nature; those behind the first four where a point has any."""

    dead: PullsAndPushes
    contents: PullsAndPushes
    live: PullsAndPushes
    sprinkler: PullsAndPushes
    roof_live: NotRequired[PullsAndPushes]
    snow: NotRequired[PullsAndPushes]
    wind: NotRequired[PullsAndPushes]
    test: NotRequired[PullsAndPushes]
    thermal: NotRequired[PullsAndPushes]
    earthquake: NotRequired[PullsAndPushes]


@with_config(CLOSED)
class Extent(TypedDict):
    """The least rectangle along the axes of the job that holds the placed points."""

    x_from: float
    x_to: float
    y_from: float
    y_to: float


@with_config(CLOSED)
class MapMember(TypedDict):
    """Points of one member on a map, with their sums; null are those that name none."""

    member: str | None
    points: int
    placed: int
    service: NotRequired[ServiceSums]
    on_structure: NotRequired[PullsAndPushes]


@with_config(CLOSED)
class MapLevel(TypedDict):
    """One map: a level, or a member of points that state no level, by the face that the points hang from.

    Sums are of all its points, placed or not, whatever their status; without service loads there are none.
    """

    name: str | None
    named_by: Literal["level", "member", "nothing"]
    face: Face
    points: int
    placed: int
    service: NotRequired[ServiceSums]
    on_structure: NotRequired[PullsAndPushes]
    extent: NotRequired[Extent]
    members: list[MapMember]


@with_config(CLOSED)
class MapDemand(TypedDict):
    """The largest tension with its load case, and the largest shear of all load cases, as in the check."""

    factored_tension: float
    factored_shear: float
    load_case: str
    level: Literal["strength", "allowable"]


@with_config(CLOSED)
class MapItem(TypedDict):
    """A point of the map. ``number`` is on the drawing; ``x``, ``y`` and ``z`` are as stated, in that of `coordinate`.

    ``on_structure`` is the most that service loads pull on the structure with; shears are along the axes of the face;
    ``on_structure_by`` says what it is, and ``beside`` what may pull there too: ``test`` one heavier than the contents,
    ``opposed`` a load of one nature by itself that is stated against another.
    """

    id: str
    index: int
    status: Literal["passed", "failed", "refused"]
    number: int
    map: int
    placed: bool
    level: NotRequired[str]
    member: NotRequired[str]
    alternative_of: NotRequired[str]
    face: Face
    facing: NotRequired[float]
    x: NotRequired[float]
    y: NotRequired[float]
    z: NotRequired[float]
    service: NotRequired[ServiceByNature]
    on_structure: NotRequired[float]
    push_on_structure: NotRequired[float]
    shear_x: NotRequired[float]
    shear_y: NotRequired[float]
    on_structure_by: NotRequired[Literal["service", "sprinkler_standard"]]
    beside: NotRequired[list[BesideWord]]
    demand: MapDemand
    product: NotRequired[Product]
    mode: NotRequired[ModeCode]
    utilisation: NotRequired[float]


@with_config(CLOSED)
class LoadMapSummary(TypedDict):
    """Counts; passed, failed, refused and invalid add up to the total, placed and not placed to those not invalid."""

    total: int
    passed: int
    failed: int
    refused: int
    invalid: int
    levels: int
    placed: int
    not_placed: int


@with_config(CLOSED)
class LoadMapPart(TypedDict):
    """A load map without the head of its answer.

    ``notes`` say what the loads are and what is not in them. ``loads`` is ``factored_only`` where the request has
    factored loads only: then there is no service load.
    """

    loads: Literal["service", "factored_only"]
    summary: LoadMapSummary
    notes: dict[LoadMapNoteCode, str]
    levels: list[MapLevel]
    items: list[MapItem | InvalidResult]


@with_config(CLOSED)
class HeadOfCheck(TypedDict):
    """What an answer made of a check says of it as a whole."""

    engine_version: str
    design_code: CodeEdition
    combinations: Combinations
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    project: NotRequired[Project]
    columns_not_read: NotRequired[list[str]]
    request_digest: str
    load_cases: dict[str, CaseFactors]
    assumptions: dict[AssumptionCode, str]
    not_checked: dict[NotCheckedCode, str]
    cautions: list[str]
    structural_limits: NotRequired[list[StructuralLimitResult]]


@with_config(CLOSED)
class LoadMapAnswer(LoadMapPart, HeadOfCheck):
    """The load map of hang points.

    ``notes`` say what the loads are and what is not in them. ``loads`` is ``factored_only`` where the request has
    factored loads only: then there is no service load.
    """
