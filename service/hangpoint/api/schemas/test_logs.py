"""The request for judging a filled log of proof tests, and its answer."""

from typing import Annotated, Any, Literal, NotRequired, Required

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import InvalidResult, TraceSection
from hangpoint.api.schemas.codes import Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.quantities import DisplacementQuantity, ForceQuantity, LengthQuantity
from hangpoint.api.schemas.test_plans import AnchorUse, LogId, PlanFinding, ProofRuleWord, RuleResult, WhereAndWho
from hangpoint.api.schemas.words import MAX_ITEMS, Text, UnitSystem

Seconds = Annotated[float, Field(ge=0, le=100_000)]
Outcome = Literal["passed", "failed", "repeat", "overloaded", "open"]


@with_config(STRICT)
class NotedFinding(TypedDict):
    """A finding of the plan, as its row has it."""

    code: Text
    text: Text


@with_config(STRICT)
class PartialTest(WhereAndWho, total=False):
    """Values for every test that does not give its own: what a row of a plan's log has, and what was measured.

    ``applied`` the load, ``held_seconds`` how long, ``displacement`` if it was measured, ``moved`` whether anything
    moved, cracked or came loose. ``hold_seconds`` is that of the rule where not stated, and never shorter. A row
    without ``applied`` is open. ``group``, ``product``, ``use``, ``method``, ``findings`` and ``inspector`` come back
    as they are.
    """

    group: Annotated[int, Field(ge=0, le=MAX_ITEMS)]
    product: Text
    use: AnchorUse
    method: Literal["unconfined", "confined"]
    test_load: ForceQuantity
    most_load: ForceQuantity
    hold_seconds: Seconds
    findings: Annotated[list[NotedFinding], Field(max_length=20)]
    applied: ForceQuantity
    held_seconds: Seconds
    displacement: DisplacementQuantity
    moved: bool
    notes: Text
    inspector: Text


@with_config(STRICT)
class TestRow(PartialTest, total=False):
    """One test, in the order in which tests were made; the ``trace`` of a plan's row may stay, and is not read."""

    id: Required[LogId]
    trace: Annotated[list[dict[str, Any]], Field(max_length=20)]


@with_config(STRICT)
class LogRequest(TypedDict):
    """A filled log, the rule of its plan, and the displacement that fails a test, if the engineer states one.

    With ``displacement_limit`` a test without ``displacement`` is to be repeated.
    """

    units: UnitSystem
    rule: ProofRuleWord
    displacement_limit: NotRequired[LengthQuantity]
    detail: NotRequired[Literal["log", "trace"]]
    defaults: NotRequired[PartialTest]
    items: Annotated[list[TestRow], Field(min_length=1, max_length=MAX_ITEMS)]


@with_config(STRICT)
class LogHead(TypedDict):
    """What the query states of a log that comes as CSV."""

    rule: ProofRuleWord
    displacement_limit: NotRequired[LengthQuantity]


@with_config(CLOSED)
class TestResult(TypedDict):
    """One test judged. ``overloaded``: the load went above what the steel may take, which counts as no pass.

    ``repeat``: nothing moved, but load or hold was not reached, or a displacement that has a limit was not measured,
    which is no result.
    """

    id: str
    index: int
    status: Literal["judged"]
    outcome: Outcome
    group: NotRequired[int]
    product: NotRequired[str]
    use: NotRequired[AnchorUse]
    method: NotRequired[Literal["unconfined", "confined"]]
    level: NotRequired[str]
    area: NotRequired[str]
    crew: NotRequired[str]
    day: NotRequired[str]
    test_load: float
    most_load: NotRequired[float]
    hold_seconds: float
    applied: NotRequired[float]
    held_seconds: NotRequired[float]
    displacement: NotRequired[float]
    moved: NotRequired[bool]
    notes: NotRequired[str]
    inspector: NotRequired[str]
    findings: list[PlanFinding]
    trace: NotRequired[list[TraceSection]]


@with_config(CLOSED)
class Retest(TypedDict):
    """A crew's day with a failure: every anchor of it is tested until enough in a row pass."""

    crew: NotRequired[str]
    day: NotRequired[str]
    failed: list[str]
    passed_in_a_row: int
    still_to_pass: int
    closed: bool
    text: str


@with_config(CLOSED)
class LogSummary(TypedDict):
    """Counts; the five add up to the total."""

    total: int
    passed: int
    failed: int
    repeat: int
    overloaded: int
    open: int
    invalid: int


@with_config(CLOSED)
class LogAnswer(TypedDict):
    """The judged log, and what must follow."""

    engine_version: str
    units: Units
    rule: RuleResult
    summary: LogSummary
    assumptions: dict[str, str]
    cautions: list[str]
    acceptance: list[str]
    after_failure: list[str]
    retests: list[Retest]
    items: list[TestResult | InvalidResult]
