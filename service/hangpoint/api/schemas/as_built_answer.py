"""The answer to an as-built list: each anchor as set, against what was required."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, InvalidResult
from hangpoint.api.schemas.codes import DeviationCode, NotComparedCode, NotRecordedCode, Units
from hangpoint.api.schemas.problem import CLOSED


@with_config(CLOSED)
class RequiredResult(TypedDict):
    """What was required; torque by its bounds. What isn't required is not there.

    ``by_set_product`` is the address of another product that was set, whose data have torque and hole that the item
    doesn't require itself.
    """

    product: str
    by_set_product: NotRequired[str]
    embedment: NotRequired[float]
    torque: NotRequired[float]
    torque_least: NotRequired[float]
    torque_most: NotRequired[float]
    hole_diameter: NotRequired[float]
    hole_depth: NotRequired[float]
    test_load: NotRequired[float]
    hold_seconds: NotRequired[float]


@with_config(CLOSED)
class SetTest(TypedDict):
    """The test as recorded."""

    load: NotRequired[float]
    hold_seconds: NotRequired[float]
    held: NotRequired[bool]


@with_config(CLOSED)
class SetResult(TypedDict):
    """The anchor as recorded."""

    product: NotRequired[str]
    embedment: NotRequired[float]
    torque: NotRequired[float]
    hole_diameter: NotRequired[float]
    hole_depth: NotRequired[float]
    date: NotRequired[str]
    installer: NotRequired[str]
    inspector: NotRequired[str]
    batch: NotRequired[str]
    expiry: NotRequired[str]
    deviation: NotRequired[str]
    test: NotRequired[SetTest]


@with_config(CLOSED)
class Deviation(TypedDict):
    """One deviation: its sentence, and the value with its limit where it has one, in the unit of ``quantity``."""

    code: DeviationCode
    text: str
    quantity: NotRequired[str]
    value: NotRequired[float]
    limit: NotRequired[float]


AsBuiltResult = with_config(CLOSED)(
    TypedDict(
        "AsBuiltResult",
        {
            "id": str,
            "index": int,
            "status": Literal["conforms", "deviates", "incomplete"],
            "level": NotRequired[str],
            "trade": NotRequired[str],
            "area": NotRequired[str],
            "x": NotRequired[float],
            "y": NotRequired[float],
            "z": NotRequired[float],
            "tags": NotRequired[list[str]],
            "required": RequiredResult,
            "set": SetResult,
            "deviations": list[Deviation],
            "not_recorded": list[NotRecordedCode],
            "not_compared": list[NotComparedCode],
        },
    )
)
AsBuiltResult.__doc__ = (
    "One anchor. It deviates, or is incomplete where something was not recorded or had nothing to be compared with, or"
    " conforms."
)


@with_config(CLOSED)
class AsBuiltSummary(TypedDict):
    """Anchors by status, and how many have each deviation."""

    total: int
    conforms: int
    deviates: int
    incomplete: int
    invalid: int
    deviations: dict[str, int]


@with_config(CLOSED)
class AsBuiltAnswer(TypedDict):
    """The answer to an as-built list. That an anchor conforms to what was required does not say that it holds."""

    engine_version: str
    catalogue: CatalogueVersion
    units: Units
    request_digest: str
    summary: AsBuiltSummary
    assumptions: dict[str, str]
    cautions: list[str]
    items: list[AsBuiltResult | InvalidResult]
