"""Requests for information: what hang points leave to the engineer. The request is that of a check."""

from typing import Any, Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import InvalidResult, Product
from hangpoint.api.schemas.codes import ModeCode, RfiCode
from hangpoint.api.schemas.load_maps import HeadOfCheck
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.words import Face

RfiStatus = Literal["passed", "failed", "refused"]


@with_config(CLOSED)
class RfiCounts(TypedDict):
    """How many of the points that a question concerns have which verdict."""

    passed: int
    failed: int
    refused: int


@with_config(CLOSED)
class ChangedPoint(TypedDict):
    """A point whose verdict an answer changes: one that the question concerns, or one near it."""

    id: str
    index: int
    before: RfiStatus
    after: RfiStatus


@with_config(CLOSED)
class PossibleAnswer(TypedDict):
    """An answer that the engineer may give, and what the check says with it.

    ``patch`` is a merge patch (RFC 7396) of each point that the question concerns. ``most_used`` is the largest
    utilisation of these.
    """

    text: str
    patch: dict[str, Any]
    summary: RfiCounts
    most_used: NotRequired[float]
    changed: list[ChangedPoint]


@with_config(CLOSED)
class Rfi(TypedDict):
    """One question, with the points that it concerns as they are taken now; ``most_used`` is their largest utilisation.

    Where no answer can be computed, ``answers`` is empty; one that contradicts what another point of the same member
    states is not among them.
    """

    number: int
    code: RfiCode
    text: str
    question: str
    clause: str
    ids: list[str]
    summary: RfiCounts
    most_used: NotRequired[float]
    answers: list[PossibleAnswer]


@with_config(CLOSED)
class RfiItem(TypedDict):
    """A point with the numbers of the questions that concern it; ``on_structure`` as on a load map."""

    id: str
    index: int
    status: RfiStatus
    number: int
    level: NotRequired[str]
    member: NotRequired[str]
    face: Face
    facing: NotRequired[float]
    x: NotRequired[float]
    y: NotRequired[float]
    z: NotRequired[float]
    on_structure: NotRequired[float]
    product: NotRequired[Product]
    mode: NotRequired[ModeCode]
    utilisation: NotRequired[float]
    rfis: list[int]


@with_config(CLOSED)
class RfiSummary(TypedDict):
    """Counts of the points as they are stated, and of the questions."""

    total: int
    passed: int
    failed: int
    refused: int
    invalid: int
    rfis: int


@with_config(CLOSED)
class RfiAnswer(HeadOfCheck):
    """The questions to the engineer that the check of hang points leaves, each once."""

    summary: RfiSummary
    rfis: list[Rfi]
    items: list[RfiItem | InvalidResult]
