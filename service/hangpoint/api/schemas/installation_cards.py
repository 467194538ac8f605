"""The request for installation cards, and its answer."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, InvalidResult, TraceSection
from hangpoint.api.schemas.codes import Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.request import Item, PartialItem
from hangpoint.api.schemas.surroundings import StructuralLimit
from hangpoint.api.schemas.words import (
    MAX_ITEMS,
    MAX_STRUCTURAL_LIMITS,
    BaseKind,
    Combinations,
    DesignCode,
    Detail,
    Face,
    LoadStandard,
    Neighbours,
    Text,
    UnitSystem,
)
from hangpoint.product.family import Principle


@with_config(STRICT)
class CardsRequest(TypedDict):
    """Items that name products; a batch of a check may be sent: what its check has against an item is on the card.

    ``job`` and ``project`` are printed on every card.
    """

    units: UnitSystem
    job: NotRequired[Text]
    project: NotRequired[Project]
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    detail: NotRequired[Detail]
    neighbours: NotRequired[Neighbours]
    structural_limits: NotRequired[
        Annotated[list[StructuralLimit], Field(min_length=1, max_length=MAX_STRUCTURAL_LIMITS)]
    ]
    defaults: NotRequired[PartialItem]
    items: Annotated[list[Item], Field(min_length=1, max_length=MAX_ITEMS)]


@with_config(CLOSED)
class CardLength(TypedDict):
    """A length in the request's unit, and as an installer reads it: the product's own unit first."""

    value: float
    text: str


@with_config(CLOSED)
class CardDistance(CardLength):
    """Distance of a new hole from a given-up one, and the rule."""

    rule: str


@with_config(CLOSED)
class CardHole(TypedDict):
    """The hole to drill: ``diameter`` of the bit, least ``depth``."""

    diameter: CardLength
    depth: CardLength


@with_config(CLOSED)
class CardMarks(TypedDict):
    """Depth to set: ``h_nom`` is the mark on the anchor, ``h_ef`` what a check counts."""

    h_ef: CardLength
    h_nom: NotRequired[CardLength]


@with_config(CLOSED)
class CardLeast(TypedDict, total=False):
    """Least distances of this base, as a check takes them there; what nothing limits is absent.

    In concrete by the product's data, in a flute of a deck by its tests (``fill`` is above the deck), in masonry and
    planks by its tables.
    """

    edge: CardLength
    spacing: CardLength
    thickness: CardLength
    joint_distance: CardLength
    face_shell: CardLength
    cover: CardLength
    strand_distance: CardLength
    flute_width: CardLength
    fill: CardLength
    sheet: CardLength


@with_config(CLOSED)
class CardTorque(TypedDict):
    """Installation torque in both units."""

    foot_pounds: float
    newton_metres: float
    text: str


@with_config(CLOSED)
class CardThread(TypedDict):
    """Thread of the rod; of an internal thread least and greatest engagement, and turns by the pitch."""

    size: str
    least: NotRequired[CardLength]
    most: NotRequired[CardLength]
    turns_least: NotRequired[float]
    turns_most: NotRequired[float]


@with_config(CLOSED)
class CardAdhesive(TypedDict):
    """What an adhesive asks of temperature, age of the concrete, cure and installer.

    ``stated`` says which hole and temperature range items of the card state: their check holds for no other.
    """

    conditions: list[str]
    stated: NotRequired[list[str]]
    least_age_days: float
    upward: bool
    cure: str
    installer: str


@with_config(CLOSED)
class CardInspection(TypedDict):
    """Type of inspection, and the rule that asks for it."""

    kind: Literal["continuous", "periodic", "by_engineer"]
    clause: str
    text: str


@with_config(CLOSED)
class CardAttention(TypedDict):
    """What an item states that its product does not allow: a least distance, or a refusal or violation of its check.

    ``what`` is the distance, or the code of the refusal or finding.
    """

    id: str
    what: str
    text: str


@with_config(CLOSED)
class CardSource(TypedDict):
    """Document that supplied data come from."""

    document: str
    date: str
    edition: NotRequired[str]
    standard: str


@with_config(CLOSED)
class Card(TypedDict):
    """One card. What the data of the product lack stands under ``missing`` and nowhere else.

    ``base`` is what it goes into, concrete where nothing is stated; ``most_offset`` that from the centre of a flute,
    ``one_a_cell`` of masonry units. ``at_a_bar`` is what to do at reinforcement or a tendon, ``new_hole`` how far from
    a given-up hole the next one is; ``used_by`` are ids of items, ``attention`` what of their bases the product does
    not allow.
    """

    card: int
    product: str
    name: str
    banner: str
    data: Literal["invented", "supplied"]
    source: NotRequired[CardSource]
    principle: Principle
    principle_text: str
    base: BaseKind
    base_text: str
    face: Face
    used_by: list[str]
    anchor_size: str
    anchor_diameter: CardLength
    hole: NotRequired[CardHole]
    marks: CardMarks
    least: CardLeast
    most_offset: NotRequired[CardLength]
    one_a_cell: NotRequired[bool]
    torque: NotRequired[CardTorque]
    thread: NotRequired[CardThread]
    setting_tool: NotRequired[str]
    training: NotRequired[bool]
    drilling: str
    bit: NotRequired[str]
    cleaning: list[str]
    setting: list[str]
    checks: list[str]
    do_not: list[str]
    after_setting: list[str]
    at_a_bar: list[str]
    new_hole: NotRequired[CardDistance]
    adhesive: NotRequired[CardAdhesive]
    inspection: CardInspection
    cautions: list[str]
    notes: list[str]
    attention: list[CardAttention]
    missing: list[str]
    trace: list[TraceSection]


@with_config(CLOSED)
class CardResult(TypedDict):
    """Which card is that of an item."""

    id: str
    index: int
    status: Literal["card"]
    card: int


@with_config(CLOSED)
class CardsSummary(TypedDict):
    """Counts."""

    items: int
    cards: int
    invalid: int


@with_config(CLOSED)
class CardsPart(TypedDict):
    """Cards without the head of their answer."""

    summary: CardsSummary
    assumptions: dict[str, str]
    cautions: list[str]
    cards: list[Card]
    items: list[CardResult | InvalidResult]


@with_config(CLOSED)
class CardsAnswer(CardsPart):
    """One card a distinct product, base and face, and of each item its card or a problem."""

    engine_version: str
    catalogue: CatalogueVersion
    units: Units
    job: NotRequired[str]
    project: NotRequired[Project]
