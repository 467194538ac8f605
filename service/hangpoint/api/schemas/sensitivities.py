"""Sensitivities: one hang point and changes of it, side by side."""

from typing import Annotated, Any, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.probe_answers import AnswerHead, Outcome, Patch
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, Text, UnitSystem

MAX_CHANGES = 50


@with_config(STRICT)
class NamedChange(TypedDict):
    """A change of the item as a JSON Merge Patch (RFC 7396), by a name of one's own."""

    name: Text
    patch: dict[str, Any]


@with_config(STRICT)
class SensitivitiesRequest(TypedDict):
    """One hang point and changes of it; without ``changes`` the usual ones."""

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    item: Item
    changes: NotRequired[Annotated[list[NamedChange], Field(min_length=1, max_length=MAX_CHANGES)]]


@with_config(CLOSED)
class Sensitivity(TypedDict):
    """A change and the check of the changed item.

    ``by_engineer``: it is nothing that one builds or chooses. ``difference`` is that of the utilisation.
    """

    name: str
    by_engineer: bool
    outcome: Outcome
    difference: NotRequired[float]
    patch: Patch


@with_config(CLOSED)
class SensitivitiesAnswer(AnswerHead):
    """The item as stated, and each change beside it."""

    changes: list[Sensitivity]
