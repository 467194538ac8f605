"""Remedies: what would make a hang point pass, among what one can build."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.probe_answers import AnswerHead, Outcome, Patch
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, UnitSystem

RemedyKind = Literal[
    "deeper_embedment",
    "larger_size",
    "larger_rod",
    "moved",
    "anchors_added",
    "hangers_closer",
    "gap_closed",
]
ShownKind = Literal["strength", "state", "thickness", "density", "category"]


@with_config(STRICT)
class RemediesRequest(TypedDict):
    """One hang point; ``reserve`` is the share of the utilisation that a remedy has to leave, 0.1 where not stated."""

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    item: Item
    reserve: NotRequired[Annotated[float, Field(ge=0, le=0.9)]]


@with_config(CLOSED)
class Remedy(TypedDict):
    """A change that can be built. ``kinds`` has two where one alone is not enough; ``reserve`` is 1 - utilisation."""

    kinds: list[RemedyKind]
    text: str
    reserve: NotRequired[float]
    outcome: Outcome
    patch: Patch


@with_config(CLOSED)
class ShownByEngineer(TypedDict):
    """What would do, were it so; nobody builds it."""

    kind: ShownKind
    text: str
    value: NotRequired[float]
    unit: NotRequired[str]
    outcome: Outcome
    patch: Patch


@with_config(CLOSED)
class Pointer(TypedDict):
    """Another address of the service that goes on from here."""

    path: str
    text: str


@with_config(CLOSED)
class RemediesAnswer(AnswerHead):
    """What would make the point pass, the smallest change first.

    ``remedies`` keep the reserve, ``short_of_reserve`` pass without it. ``nearest`` stands where nothing passes: the
    change that comes nearest. ``tried`` counts the changes that were checked.
    """

    reserve: float
    text: str
    remedies: list[Remedy]
    short_of_reserve: list[Remedy]
    nearest: NotRequired[Remedy]
    engineer_would_have_to_show: list[ShownByEngineer]
    other_families: Pointer
    tried: int
