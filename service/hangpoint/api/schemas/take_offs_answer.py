"""The answer to a take-off: pull list, cut list, totals, and what each item needs."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, InvalidResult
from hangpoint.api.schemas.codes import NotCountedCode, Units
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.words import RodMaterial

LineKindWord = Literal[
    "anchor",
    "adhesive",
    "cartridge",
    "nozzle",
    "charge",
    "rod",
    "coupling",
    "nut",
    "washer",
    "bit",
    "setting_tool",
    "torque_wrench",
    "brush",
    "pump",
    "shroud",
    "vacuum",
]


@with_config(CLOSED)
class LineShare(TypedDict):
    """What one level, trade or area uses of a line; the name is null for items that state none."""

    name: str | None
    net: float


@with_config(CLOSED)
class PullLine(TypedDict):
    """One thing to pull from the shelf.

    ``net`` is used, ``gross`` with waste, ``packs`` of ``pack`` each are ordered, ``left_over`` is what then remains.
    All but ``packs`` are in ``unit``. ``source`` says where the pack, or what wears out, comes from.
    """

    line: int
    kind: LineKindWord
    product: NotRequired[str]
    description: str
    unit: str
    net: float
    waste: float
    gross: float
    pack: float
    packs: int
    left_over: float
    source: str
    by_level: NotRequired[list[LineShare]]
    by_trade: NotRequired[list[LineShare]]
    by_area: NotRequired[list[LineShare]]


@with_config(CLOSED)
class PieceCount(TypedDict):
    """Pieces of one length."""

    length: float
    count: int


@with_config(CLOSED)
class CutPattern(TypedDict):
    """Bars that are cut alike, and the pieces of one of them."""

    bars: int
    pieces: list[PieceCount]


@with_config(CLOSED)
class RodKind(TypedDict):
    """Thread and material of a rod."""

    size: str
    material: RodMaterial


@with_config(CLOSED)
class CutList(TypedDict):
    """The pieces of one kind of rod, and the bars that they are cut from, without waste.

    No plan needs fewer bars than ``lower_bound``. ``waste_length`` is what is left of the bars, kerfs included.
    """

    rod: RodKind
    description: str
    stock_length: float
    kerf: float
    pieces: list[PieceCount]
    bars: int
    lower_bound: int
    method: Literal["first_fit_decreasing", "integer_program"]
    waste_length: float
    waste_share: float
    patterns: list[CutPattern]


@with_config(CLOSED)
class Measures(TypedDict):
    """Sums without waste. Minutes and hours are those of setting anchors; the cost index has no currency."""

    points: float
    anchors: float
    rods: float
    rod_length: float
    holes: float
    drilled_length: float
    adhesive_volume: float
    minutes: float
    hours: float
    cost_index: float


@with_config(CLOSED)
class NamedMeasures(Measures):
    """Sums of a level, trade, area or tag; the name is null for items that state none."""

    name: str | None


@with_config(CLOSED)
class TakeOffTotals(TypedDict):
    """Sums of all items, and shared out. An item counts under each of its tags, so tags don't add up to the total."""

    overall: Measures
    level: list[NamedMeasures]
    trade: list[NamedMeasures]
    area: list[NamedMeasures]
    tag: list[NamedMeasures]


@with_config(CLOSED)
class RodCount(TypedDict):
    """The rods of an item; ``pieces`` are those of one rod, couplings, nuts and washers those of all of them."""

    size: str
    material: RodMaterial
    length: NotRequired[float]
    pieces: NotRequired[list[PieceCount]]
    couplings: int
    nuts: int
    washers: int


@with_config(CLOSED)
class CountedItem(Measures):
    """What an item needs with its quantity; ``not_counted`` are codes of what of it is in no count."""

    id: str
    index: int
    status: Literal["counted"]
    level: NotRequired[str]
    trade: NotRequired[str]
    area: NotRequired[str]
    product: str
    rod: NotRequired[RodCount]
    not_counted: list[NotCountedCode]


@with_config(CLOSED)
class TakeOffSummary(TypedDict):
    """Items, how many were counted, and lines of the pull list."""

    total: int
    counted: int
    invalid: int
    lines: int


@with_config(CLOSED)
class TakeOffAnswer(TypedDict):
    """The answer to a take-off."""

    engine_version: str
    catalogue: CatalogueVersion
    units: Units
    request_digest: str
    summary: TakeOffSummary
    assumptions: dict[str, str]
    not_counted: dict[str, str]
    cautions: list[str]
    pull_list: list[PullLine]
    cut_list: list[CutList]
    totals: TakeOffTotals
    items: list[CountedItem | InvalidResult]
