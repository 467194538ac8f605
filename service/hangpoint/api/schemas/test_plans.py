"""The request for a plan of proof tests, and its answer."""

from typing import Annotated, Literal, NotRequired, Required

from pydantic import Field, StringConstraints, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, InvalidResult, TraceSection
from hangpoint.api.schemas.codes import Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.quantities import ForceQuantity
from hangpoint.api.schemas.request import Anchor, Base
from hangpoint.api.schemas.words import MAX_ID, MAX_ITEMS, Identifier, Text, UnitSystem

MAX_LOG_ID = MAX_ID + 8
"""Characters of the id of an anchor: that of its item, and its number in a layout."""

LogId = Annotated[str, StringConstraints(min_length=1, max_length=MAX_LOG_ID)]
ProofRuleWord = Literal["cbc_1910a_5", "iebc_urm", "one_and_a_half_working_load", "three_quarters_of_design_strength"]
LoadBasis = Literal["allowable", "design_strength", "design", "working"]
AnchorUse = Literal["structural", "nonstructural", "sill_bolt"]


@with_config(STRICT)
class WhereAndWho(TypedDict, total=False):
    """Where an anchor is, who set it and on which day: what tests are spread over."""

    level: Text
    area: Text
    crew: Text
    day: Text


@with_config(STRICT)
class PartialPlanItem(WhereAndWho, total=False):
    """Values for every item that does not give its own.

    ``load`` is per anchor, and ``basis`` says what it is: a rule has a factor for some bases only. ``base`` lets the
    concrete be compared with the test load.
    """

    use: AnchorUse
    anchor: Anchor
    load: ForceQuantity
    basis: LoadBasis
    base: Base


@with_config(STRICT)
class PlanItem(PartialPlanItem, total=False):
    """One installed anchor, or those of one layout."""

    id: Required[Identifier]


@with_config(STRICT)
class PlanRequest(TypedDict):
    """Installed anchors and the rule that they are tested by."""

    units: UnitSystem
    rule: ProofRuleWord
    detail: NotRequired[Literal["plan", "trace"]]
    defaults: NotRequired[PartialPlanItem]
    items: Annotated[list[PlanItem], Field(min_length=1, max_length=MAX_ITEMS)]


@with_config(CLOSED)
class RuleResult(TypedDict):
    """The rule: what it multiplies, how many anchors it asks for, how long it holds, where it comes from."""

    name: ProofRuleWord
    title: str
    source: str
    from_memory: bool
    factors: dict[str, float]
    percent: dict[str, int]
    hold_seconds: float
    yield_share: float
    passes_in_a_row: int
    acceptance: str


@with_config(CLOSED)
class PlanFinding(TypedDict):
    """Something seen in a group or at an anchor."""

    code: str
    text: str


@with_config(CLOSED)
class PlanGroup(TypedDict):
    """Anchors of one product in one base and of one use, and how many of them are tested how.

    ``base`` says what they are set in, concrete where nothing is stated. ``strata`` are the combinations of level,
    area, crew and day, each of which has a test. ``support_distance`` is the least distance of the supports of the jack
    from the anchor.
    """

    group: int
    product: str
    base: str
    use: AnchorUse
    installed: int
    percent: int
    strata: int
    tests: int
    method: Literal["unconfined", "confined"]
    method_text: str
    support_distance: NotRequired[float]
    torque_alternative: NotRequired[str]
    trace: list[TraceSection]


@with_config(CLOSED)
class PlannedTest(TypedDict):
    """One test to be made. Filled in, it is an item of `POST /v1/test-logs`.

    ``most_load`` is the share of the yield load that no test exceeds.
    """

    id: str
    product: str
    use: AnchorUse
    level: NotRequired[str]
    area: NotRequired[str]
    crew: NotRequired[str]
    day: NotRequired[str]
    method: Literal["unconfined", "confined"]
    test_load: float
    most_load: NotRequired[float]
    hold_seconds: float
    findings: list[PlanFinding]
    trace: NotRequired[list[TraceSection]]


@with_config(CLOSED)
class LogRow(PlannedTest):
    """One test of a plan, with the group that it stands for."""

    group: int


@with_config(CLOSED)
class PlannedItem(TypedDict):
    """What became of an item: its group, and which of its anchors are tested."""

    id: str
    index: int
    status: Literal["planned"]
    group: int
    anchors: int
    tested: list[str]


@with_config(CLOSED)
class PlanSummary(TypedDict):
    """Counts."""

    items: int
    invalid: int
    anchors: int
    tests: int
    capped: int
    above_concrete: int


@with_config(CLOSED)
class PlanPart(TypedDict):
    """A plan without the head of its answer: rule, groups, the blank log, acceptance and what follows a failure."""

    rule: RuleResult
    summary: PlanSummary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
    acceptance: list[str]
    after_failure: list[str]
    groups: list[PlanGroup]
    log: list[LogRow]
    items: list[PlannedItem | InvalidResult]


@with_config(CLOSED)
class PlanAnswer(PlanPart):
    """A plan: rule, groups, the blank log, acceptance and what follows a failure."""

    engine_version: str
    catalogue: CatalogueVersion
    units: Units
