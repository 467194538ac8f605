"""The request about anchors that are found in place, and its answer."""

from typing import Annotated, Literal, NotRequired, Required

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import InvalidResult
from hangpoint.api.schemas.bases import Edges
from hangpoint.api.schemas.codes import Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.quantities import AreaQuantity, ForceQuantity, LengthQuantity, StressQuantity
from hangpoint.api.schemas.test_plans import AnchorUse, LoadBasis, PlannedTest, RuleResult, WhereAndWho
from hangpoint.api.schemas.words import MAX_ITEMS, Face, Identifier, Text, UnitSystem

ExistingRuleWord = Literal["cbc_1910a_5", "one_and_a_half_working_load", "three_quarters_of_design_strength"]
TypeSeen = Literal[
    "unknown",
    "torque_controlled_expansion",
    "displacement_controlled_expansion",
    "undercut",
    "screw",
    "adhesive",
    "headed_cast_in",
    "hooked_cast_in",
    "cast_in_insert",
    "driven_pin",
    "hammer_set_pin",
]
Corrosion = Literal["none", "surface", "pitting", "section_loss", "unknown"]
Damage = Literal["loose", "bent", "thread_damaged", "spalled", "crack_at_anchor", "fire"]
BaseSeen = Literal["concrete", "deck", "grouted_masonry", "hollow_masonry", "brick", "hollow_core", "other", "unknown"]
DepthBy = Literal["measured", "detector", "drawings", "assumed"]
SteelBy = Literal["mill_certificate", "test", "drawings", "marking"]


@with_config(STRICT)
class FoundDepth(TypedDict):
    """Embedment and how it is known."""

    depth: LengthQuantity
    by: DepthBy


@with_config(STRICT)
class FoundSteel(TypedDict):
    """Smallest steel area and its yield strength, and how they are known; the thread that is seen shows neither."""

    a_se: AreaQuantity
    f_ya: StressQuantity
    by: SteelBy


@with_config(STRICT)
class PartialFound(WhereAndWho, total=False):
    """Values for every anchor that does not give its own: what was seen and measured, and the load that is wanted.

    ``damage`` is an empty list where someone looked and found none. ``documents`` names records of the installation.
    """

    type_seen: TypeSeen
    diameter: LengthQuantity
    thread: Text
    projection: LengthQuantity
    embedment: FoundDepth
    corrosion: Corrosion
    damage: Annotated[list[Damage], Field(max_length=6)]
    edges: Edges
    thickness: LengthQuantity
    base: BaseSeen
    face: Face
    post_tensioned: Literal["no", "yes", "unknown"]
    steel: FoundSteel
    documents: Text
    use: AnchorUse
    load: ForceQuantity
    basis: LoadBasis


@with_config(STRICT)
class FoundAnchor(PartialFound, total=False):
    """One anchor found in place."""

    id: Required[Identifier]


@with_config(STRICT)
class ExistingRequest(TypedDict):
    """Anchors found in place, and the rule that they would be tested by; ``iebc_urm`` is for new anchors."""

    units: UnitSystem
    rule: ExistingRuleWord
    detail: NotRequired[Literal["plan", "trace"]]
    defaults: NotRequired[PartialFound]
    items: Annotated[list[FoundAnchor], Field(min_length=1, max_length=MAX_ITEMS)]


@with_config(CLOSED)
class ExistingResult(TypedDict):
    """What is known of an anchor and what is not, and whether anyone may think of using it again.

    No capacity is in it. ``may_be_considered`` means that someone looked and saw nothing that forbids it: the test
    and the answers to ``ask`` come next, and the engineer decides. ``not_yet``: nobody looked at all of it or knows its
    type and depth, it is or may be an adhesive in a soffit or a side, tendons are not ruled out, or no test that the
    steel allows shows the load.
    """

    id: str
    index: int
    status: Literal["assessed"]
    reuse: Literal["may_be_considered", "not_yet", "not_considered"]
    reasons: list[str]
    known: list[str]
    unknown: list[str]
    ask: list[str]
    support_distance: NotRequired[float]


@with_config(CLOSED)
class ExistingSummary(TypedDict):
    """Counts."""

    items: int
    invalid: int
    may_be_considered: int
    not_yet: int
    not_considered: int
    tests: int


@with_config(CLOSED)
class ExistingAnswer(TypedDict):
    """What is known, what to ask, and a log of tests of all anchors that nothing forbids; its findings come first."""

    engine_version: str
    units: Units
    rule: RuleResult
    summary: ExistingSummary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
    acceptance: list[str]
    after_failure: list[str]
    log: list[PlannedTest]
    items: list[ExistingResult | InvalidResult]
