"""The lines of a stream (NDJSON): the header of a request, and the first and the last line of an answer."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CaseFactors, CatalogueVersion, CodeEdition, InvalidResult, Summary
from hangpoint.api.schemas.codes import Units
from hangpoint.api.schemas.problem import CLOSED, Problem
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.request import STRICT, PartialItem
from hangpoint.api.schemas.words import Combinations, DesignCode, Detail, LoadStandard, Neighbours, UnitSystem


@with_config(STRICT)
class StreamHeader(TypedDict):
    """First line of a stream of items. What it leaves out may stand in the query, `defaults` excepted.

    With ``neighbours`` `check` the stream is read whole, within the limits of a batch, before any of it is answered;
    without it the points are not compared.
    """

    units: NotRequired[UnitSystem]
    project: NotRequired[Project]
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    detail: NotRequired[Detail]
    neighbours: NotRequired[Neighbours]
    defaults: NotRequired[PartialItem]


@with_config(CLOSED)
class StreamStart(TypedDict):
    """First line of an answer."""

    engine_version: str
    design_code: CodeEdition
    combinations: Literal["strength", "given_factored", "allowable"]
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    project: NotRequired[Project]
    load_cases: dict[str, CaseFactors]
    cautions: list[str]


@with_config(CLOSED)
class StreamEnd(TypedDict):
    """Last line of an answer; without it the answer is incomplete.

    ``load_cases`` are those that the first line doesn't list: named by items, or without contents. Each of
    ``withdrawn`` takes the place of the result that was sent for its index: of a point whose member a later line
    states differently. The summary counts it so.
    """

    request_digest: str
    summary: Summary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    load_cases: NotRequired[dict[str, CaseFactors]]
    withdrawn: list[InvalidResult]


@with_config(CLOSED)
class StreamBreak(TypedDict):
    """Last line of an answer that could not be finished: what came before it is not the whole."""

    problem: Problem
