"""Submittals: the check of hang points and all that is made of it, in one answer. The request is that of a check."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import Answer, Product
from hangpoint.api.schemas.codes import (
    AssumptionCode,
    FindingCode,
    ModeCode,
    NotCheckedCode,
    NotTestedCode,
    SheetReasonCode,
    TriageCode,
)
from hangpoint.api.schemas.installation_cards import CardsPart
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.load_maps import LoadMapHead, LoadMapPart, MapDemand
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.request import BatchRequest
from hangpoint.api.schemas.test_plans import AnchorUse, PlanPart, ProofRuleWord
from hangpoint.api.schemas.words import MAX_ITEMS, Face, Identifier

SheetsWord = Literal["worst", "all"]
Ids = Annotated[list[Identifier], Field(min_length=1, max_length=MAX_ITEMS)]
PartWord = Literal["schedule", "load_map", "installation_cards", "calculation_sheets", "open_items", "test_plan"]


@with_config(STRICT)
class SubmittalHead(LoadMapHead):
    """What the query states of a submittal of hang points that come as CSV."""

    sheets: NotRequired[SheetsWord]
    only: NotRequired[Ids]
    test_rule: NotRequired[ProofRuleWord]
    test_use: NotRequired[AnchorUse]


@with_config(STRICT)
class SubmittalRequest(BatchRequest):
    """Many hang points, which of them have calculation sheets, and the rule that their anchors are tested by.

    ``sheets`` or ``only``, not both.
    """

    sheets: NotRequired[SheetsWord]
    only: NotRequired[Ids]
    test_rule: NotRequired[ProofRuleWord]
    test_use: NotRequired[AnchorUse]


@with_config(CLOSED)
class SubmittalPart(TypedDict):
    """A part of the document, in its order behind the cover."""

    part: PartWord
    number: int
    title: str
    contents: str


@with_config(CLOSED)
class ScheduleRow(TypedDict):
    """A point of the schedule. An invalid one has no place and no product; ``number`` is that of the load map."""

    id: str | None
    index: int
    number: int
    status: Literal["passed", "failed", "refused", "invalid"]
    level: NotRequired[str]
    member: NotRequired[str]
    face: NotRequired[Face]
    facing: NotRequired[float]
    x: NotRequired[float]
    y: NotRequired[float]
    z: NotRequired[float]
    product: NotRequired[Product]
    h_ef: NotRequired[float]
    demand: NotRequired[MapDemand]
    mode: NotRequired[ModeCode]
    utilisation: NotRequired[float]


@with_config(CLOSED)
class SheetReasonResult(TypedDict):
    """Why a point has a calculation sheet."""

    code: SheetReasonCode
    text: str


@with_config(CLOSED)
class SheetOf(TypedDict):
    """A point that has a calculation sheet; its result has the trace."""

    id: str
    index: int
    reason: SheetReasonResult


@with_config(CLOSED)
class CalculationSheets(TypedDict):
    """Which points have calculation sheets, and the ids of the checked and refused points that have none."""

    sheets: Literal["worst", "all", "named"]
    of: list[SheetOf]
    left_out: list[str]


@with_config(CLOSED)
class EngineerQuestion(TypedDict):
    """A question to the engineer, with the points that it concerns."""

    code: TriageCode
    text: str
    question: str
    ids: list[str]


@with_config(CLOSED)
class OpenFinding(TypedDict):
    """A caution or a note of the check, with the points that it concerns."""

    code: FindingCode
    clause: str
    severity: Literal["caution", "note"]
    text: str
    ids: list[str]


@with_config(CLOSED)
class OpenAssumption(TypedDict):
    """What was taken where the request is silent, with the points that it concerns; none: the whole request."""

    code: AssumptionCode
    text: str
    ids: list[str]


@with_config(CLOSED)
class OpenNotChecked(TypedDict):
    """What the check has not looked at, with the points that it concerns; none: the whole request."""

    code: NotCheckedCode
    text: str
    ids: list[str]


@with_config(CLOSED)
class OpenItems(TypedDict):
    """What a submittal leaves open, each once."""

    questions: list[EngineerQuestion]
    findings: list[OpenFinding]
    assumptions: list[OpenAssumption]
    not_checked: list[OpenNotChecked]


@with_config(CLOSED)
class NotTestedReason(TypedDict):
    """Why a point has no test."""

    code: NotTestedCode
    text: str


@with_config(CLOSED)
class NotTestedPoint(TypedDict):
    """A point that the plan has no test of."""

    id: str
    index: int
    reason: NotTestedReason


@with_config(CLOSED)
class SubmittalPlan(PlanPart):
    """The plan of proof tests of a submittal: of each point the load that its check knows, by the basis of the rule."""

    not_tested: list[NotTestedPoint]


@with_config(CLOSED)
class SubmittalAnswer(Answer):
    """The answer to a check, and all parts of one document that are made of it.

    ``statement`` is what the cover says, ``parts`` its table. ``test_plan`` stands where the request names a rule.
    """

    statement: list[str]
    parts: list[SubmittalPart]
    schedule: list[ScheduleRow]
    load_map: LoadMapPart
    installation_cards: CardsPart
    calculation_sheets: CalculationSheets
    open_items: OpenItems
    test_plan: NotRequired[SubmittalPlan]
