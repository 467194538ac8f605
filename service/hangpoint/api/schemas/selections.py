"""Choosing a product for each of some points: request and answer."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, CheckedResult, CodeEdition, InvalidResult
from hangpoint.api.schemas.choices import MAX_RANKED, MAX_SELECTIONS, Objective, OpenPoint, PartialOpenPoint, Want
from hangpoint.api.schemas.codes import (
    ChangeCode,
    FindingCode,
    ModeCode,
    QuantityCode,
    RejectionCode,
    TriageCode,
    Units,
)
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, UnitSystem
from hangpoint.product.family import Principle


@with_config(STRICT)
class SelectionsRequest(TypedDict):
    """Points without a product, what is wanted of it, and how many candidates are listed in their order (``most``)."""

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    want: NotRequired[Want]
    most: NotRequired[Annotated[int, Field(ge=1, le=MAX_RANKED)]]
    defaults: NotRequired[PartialOpenPoint]
    items: Annotated[list[OpenPoint], Field(min_length=1, max_length=MAX_SELECTIONS)]


@with_config(CLOSED)
class NamedAnchor(TypedDict):
    """The product as the anchor of a hang point names it."""

    family: str
    size: str
    h_ef: str


@with_config(CLOSED)
class GoverningMode(TypedDict):
    """The mode of anchor or base that governs, with its load case."""

    mode: ModeCode
    load_case: str
    text: str


@with_config(CLOSED)
class Needs(TypedDict):
    """What it takes to set one anchor."""

    drilling: Literal["hammer", "core", "none"]
    hole_diameter: NotRequired[float]
    hole_depth: NotRequired[float]
    bit: NotRequired[str]
    setting_tool: NotRequired[str]
    training: bool
    removable: bool
    flush: bool
    cleaning: list[str]


@with_config(CLOSED)
class RankedCandidate(TypedDict):
    """A candidate that holds. Utilisation and reserve are of anchor and base; the rod is the point's own.

    Cost index, minutes and drilled depth are those of all ``anchors`` of the point. ``cautions`` and ``to_engineer``
    are codes of its check.
    """

    rank: int
    product: str
    name: str
    data: Literal["invented", "supplied"]
    principle: Principle
    anchor: NamedAnchor
    utilisation: float
    reserve: float
    governing: GoverningMode
    cautions: list[FindingCode]
    to_engineer: list[TriageCode]
    anchors: int
    cost_index: NotRequired[float]
    minutes: NotRequired[float]
    drilled_depth: float
    needs: Needs


@with_config(CLOSED)
class RejectionReason(TypedDict):
    """Why a candidate is not offered.

    A ``rejection`` is of the list of rejections, a ``refusal`` and a ``violation`` are those of a check. ``quantity``
    is the kind of value and limit.
    """

    kind: Literal["rejection", "refusal", "violation"]
    code: RejectionCode
    clause: str
    text: str
    mode: NotRequired[ModeCode]
    load_case: NotRequired[str]
    quantity: NotRequired[QuantityCode]
    value: NotRequired[float]
    limit: NotRequired[float]


@with_config(CLOSED)
class RejectedCandidates(TypedDict):
    """Candidates that are not offered, all for one reason."""

    reason: RejectionReason
    products: list[str]


@with_config(CLOSED)
class ChangeResult(TypedDict):
    """A change one can make, tried on the check: with it the product holds with this utilisation of anchor and base."""

    code: ChangeCode
    product: str
    utilisation: float
    text: str
    gives_up: NotRequired[list[str]]
    quantity: NotRequired[QuantityCode]
    value: NotRequired[float]


@with_config(CLOSED)
class NearestCandidate(TypedDict):
    """The candidate of least utilisation that nothing else stands against; ``excess`` is beyond the reserve's limit."""

    product: str
    utilisation: float
    excess: float
    governing: GoverningMode


@with_config(CLOSED)
class Nearest(TypedDict):
    """What would let a point be held, what comes nearest, and what only the engineer could show to be otherwise.

    ``text`` says in words why nothing holds and what would do. Changes are ``tried`` for the first of the different
    points that nothing holds, up to 128 anchors of a request.
    """

    text: str
    tried: bool
    changes: list[ChangeResult]
    engineer: str
    candidate: NotRequired[NearestCandidate]


@with_config(CLOSED)
class CandidateCounts(TypedDict):
    """Candidates of a point: those that were checked against its load, that hold, that are rejected."""

    candidates: int
    checked: int
    held: int
    rejected: int


@with_config(CLOSED)
class SelectionResult(TypedDict):
    """The choice for one point.

    ``check`` is the answer of a check of the point with the first candidate, alone, as `/v1/hang-points` gives it.
    """

    id: str
    index: int
    status: Literal["held", "not_held"]
    counts: CandidateCounts
    ranked: list[RankedCandidate]
    rejected: list[RejectedCandidates]
    nearest: NotRequired[Nearest]
    check: NotRequired[CheckedResult]


@with_config(CLOSED)
class SelectionSummary(TypedDict):
    """Counts of points."""

    total: int
    held: int
    not_held: int
    invalid: int


@with_config(CLOSED)
class SelectionsAnswer(TypedDict):
    """The choice for every point."""

    engine_version: str
    design_code: CodeEdition
    combinations: Combinations
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    objective: Objective
    reserve: float
    request_digest: str
    summary: SelectionSummary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
    items: list[SelectionResult | InvalidResult]
