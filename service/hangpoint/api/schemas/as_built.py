"""The request for an as-built list: what was required of each anchor, and what was really set."""

from typing import Annotated, NotRequired, Required

from pydantic import Field, StringConstraints, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.quantities import ForceQuantity, LengthQuantity, TorqueQuantity
from hangpoint.api.schemas.request import Anchor, At
from hangpoint.api.schemas.words import MAX_ITEMS, Identifier, Share, Text, UnitSystem

Date = Annotated[str, StringConstraints(pattern=r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$")]
Remark = Annotated[str, StringConstraints(min_length=1, max_length=1000)]


@with_config(STRICT)
class RequiredOfAnchor(TypedDict, total=False):
    """What is required of an anchor besides its product's data, or in their place."""

    embedment: LengthQuantity
    torque: TorqueQuantity
    hole_diameter: LengthQuantity
    hole_depth: LengthQuantity
    test_load: ForceQuantity
    hold_seconds: Annotated[float, Field(gt=0, le=1_000_000)]


@with_config(STRICT)
class AnchorTest(TypedDict, total=False):
    """The test of an anchor: its load, how long it stayed on, whether the anchor held it."""

    load: ForceQuantity
    hold_seconds: Annotated[float, Field(ge=0, le=1_000_000)]
    held: bool


@with_config(STRICT)
class AnchorSet(TypedDict, total=False):
    """The anchor as it was set.

    ``product`` is an address, family/size/h_ef; ``embedment`` the nominal one, to which it was driven; ``torque`` the
    one applied when it was set, not a later reading, which is lower. ``deviation`` is a remark of whoever set it.
    """

    product: Text
    embedment: LengthQuantity
    torque: TorqueQuantity
    hole_diameter: LengthQuantity
    hole_depth: LengthQuantity
    date: Date
    installer: Text
    inspector: Text
    batch: Text
    expiry: Date
    deviation: Remark
    test: AnchorTest


PartialAsBuiltItem = with_config(STRICT)(
    TypedDict(
        "PartialAsBuiltItem",
        {
            "at": At,
            "trade": Text,
            "tags": Annotated[list[Text], Field(max_length=20)],
            "area": Text,
            "anchor": Anchor,
            "required": RequiredOfAnchor,
            "set": AnchorSet,
        },
        total=False,
    )
)
PartialAsBuiltItem.__doc__ = "Values for every anchor of a list that doesn't give its own."


@with_config(STRICT)
class AsBuiltItem(PartialAsBuiltItem, total=False):
    """One anchor: the product that was required as a hang point names it, and what was set."""

    id: Required[Identifier]


@with_config(STRICT)
class AsBuiltRequest(TypedDict):
    """An as-built list. ``torque_tolerance`` is a share of the required torque, either way; where it is not stated
    a torque may be a tenth below the required one and not above it, as cards say.
    """

    units: UnitSystem
    torque_tolerance: NotRequired[Share]
    defaults: NotRequired[PartialAsBuiltItem]
    items: Annotated[list[AsBuiltItem], Field(min_length=1, max_length=MAX_ITEMS)]
