"""A product that is named, and what else would do: request and answer."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, CheckedResult, CodeEdition
from hangpoint.api.schemas.choices import MAX_RANKED, Objective, Want
from hangpoint.api.schemas.codes import InapplicableCode, ModeCode, Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.selections import CandidateCounts, Nearest, RankedCandidate, RejectedCandidates
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, UnitSystem


@with_config(STRICT)
class SubstitutionsRequest(TypedDict):
    """A hang point with the product that is named for it, or its data inline, and what is wanted of a substitute."""

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    want: NotRequired[Want]
    most: NotRequired[Annotated[int, Field(ge=1, le=MAX_RANKED)]]
    item: Item


@with_config(CLOSED)
class ModeComparison(TypedDict):
    """Design strength and utilisation of a mode with the product named and with the substitute.

    Where a mode does not apply its reason stands instead. ``worse``: the substitute is used more in it.
    """

    mode: ModeCode
    named_strength: NotRequired[float]
    named_utilisation: NotRequired[float]
    named_reason: NotRequired[InapplicableCode]
    substitute_strength: NotRequired[float]
    substitute_utilisation: NotRequired[float]
    substitute_reason: NotRequired[InapplicableCode]
    worse: bool


@with_config(CLOSED)
class FactChange(TypedDict):
    """Something that differs for whoever sets it; null where the data are silent or there is none."""

    what: str
    named: float | int | str | bool | None
    substitute: float | int | str | bool | None
    quantity: NotRequired[str]
    text: str


@with_config(CLOSED)
class Substitute(RankedCandidate):
    """A product that holds the point with its reserve and is equally qualified.

    ``worse`` names the modes and figures in which it is worse. ``principle_text`` stands where the working principle
    changes.
    """

    principle_changes: bool
    principle_text: NotRequired[str]
    modes: list[ModeComparison]
    changes: list[FactChange]
    worse: list[str]


@with_config(CLOSED)
class SubstitutionsAnswer(TypedDict):
    """The product named with its check, its substitutes, and why the others are none."""

    engine_version: str
    design_code: CodeEdition
    combinations: Combinations
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    objective: Objective
    reserve: float
    request_digest: str
    named: CheckedResult
    status: Literal["substitutes", "none"]
    approval: str
    counts: CandidateCounts
    substitutes: list[Substitute]
    rejected: list[RejectedCandidates]
    nearest: NotRequired[Nearest]
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
