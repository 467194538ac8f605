"""An incomplete hang point in, the questions still open out."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import Escalation, Reason
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.request import STRICT, PartialItem
from hangpoint.api.schemas.words import Identifier, UnitSystem


@with_config(STRICT)
class OpenItem(PartialItem, total=False):
    """A hang point of which any part may be missing."""

    id: Identifier


@with_config(STRICT)
class BaseInterviewRequest(TypedDict):
    """A hang point as far as it is known; `item` may be empty."""

    units: UnitSystem
    item: OpenItem


@with_config(CLOSED)
class TakenIfSilent(TypedDict):
    """What is taken if nobody answers; ``code`` is of the closed list that ``outcome`` names.

    Of `assumed` it is an assumption, of `refused` a refusal, of `not_checked` what stays unchecked.
    """

    outcome: Literal["invalid", "refused", "assumed", "not_checked"]
    code: NotRequired[str]
    text: str


@with_config(CLOSED)
class AskedQuantity(TypedDict):
    """A number in ``unit``, or a text with one of the units ``accepted``."""

    kind: str
    unit: str
    accepted: list[str]


@with_config(CLOSED)
class OpenQuestion(TypedDict):
    """One open question. ``field`` is where the answer goes in the item, as a pointer.

    It is one of ``allowed``, a ``quantity``, or plain text, number or truth value as ``answer`` says.
    """

    field: str
    question: str
    why: str
    if_silent: TakenIfSilent
    answer: Literal["word", "quantity", "text", "number", "boolean"]
    allowed: NotRequired[list[str]]
    quantity: NotRequired[AskedQuantity]


@with_config(CLOSED)
class NotTaken(TypedDict):
    """What a check can't take of an item: where, why, and what may stand there instead."""

    pointer: str
    code: str
    detail: str
    allowed: NotRequired[list[str]]


@with_config(CLOSED)
class BaseInterviewAnswer(TypedDict):
    """The questions still open, the weightiest first; while the kind of base is open, those of concrete.

    ``enough``: none of them is left without which a check is invalid, and a check takes the rest as it stands. What it
    can't take, or misses of what hangs, is ``invalid``. ``refused`` is why the point, as far as it is known, will not
    be checked, ``to_engineer`` what to ask the engineer about it: all of it with ``enough``.
    """

    engine_version: str
    enough: bool
    questions: list[OpenQuestion]
    answered: list[str]
    invalid: list[NotTaken]
    refused: list[Reason]
    to_engineer: list[Escalation]
    cautions: list[str]
