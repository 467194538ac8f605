"""Where the anchors of a hang point stand, by a list of positions or a pattern; and what is fixed to them."""

from collections.abc import Mapping
from functools import cache
from typing import Annotated, Any, Literal, NotRequired, cast

from pydantic import ConfigDict, Field, GetCoreSchemaHandler, TypeAdapter, ValidationError, with_config
from pydantic_core import CoreSchema, PydanticCustomError, core_schema
from typing_extensions import TypedDict

from hangpoint.api.schemas.quantities import GapQuantity, LengthQuantity, OffsetQuantity, StressQuantity
from hangpoint.api.schemas.words import AnnularGap, Turning
from hangpoint.core.hang_point.points import MOST_ANCHORS

STRICT = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)

Count = Annotated[int, Field(ge=1, le=MOST_ANCHORS)]
Degrees = Annotated[float, Field(ge=-360, le=360)]
Resists = Literal["both", "x", "y", "none"]
Support = Literal["concrete", "grout", "free"]


@with_config(STRICT)
class AnchorPosition(TypedDict):
    """An anchor in the face of the base, from the origin of the layout.

    ``resists`` names the axes along which it takes shear, both where not stated: a slotted or wide hole leaves one
    out, or both.
    """

    x: OffsetQuantity
    y: OffsetQuantity
    resists: NotRequired[Resists]


@with_config(STRICT)
class Center(TypedDict, total=False):
    """The middle of a pattern or of a plate, from the origin of the layout; 0 where not stated."""

    x: OffsetQuantity
    y: OffsetQuantity


@with_config(STRICT)
class RowPattern(TypedDict):
    """Anchors in a straight row, in the order along it.

    ``angle`` is that of the row from x towards y, in degrees. ``spacing`` is needed for more than one anchor.
    """

    pattern: Literal["row"]
    count: Count
    spacing: NotRequired[LengthQuantity]
    angle: NotRequired[Degrees]
    center: NotRequired[Center]


@with_config(STRICT)
class RectanglePattern(TypedDict):
    """Anchors in columns along x and rows along y, at most 64: in the order along x first, then along y.

    A spacing is needed where there is more than one column or row.
    """

    pattern: Literal["rectangle"]
    columns: Count
    rows: Count
    spacing_x: NotRequired[LengthQuantity]
    spacing_y: NotRequired[LengthQuantity]
    center: NotRequired[Center]


@with_config(STRICT)
class CirclePattern(TypedDict):
    """Anchors evenly on a circle, in the order counter-clockwise, seen with x to the right and y up.

    ``angle`` is that of the first anchor from x towards y, in degrees.
    """

    pattern: Literal["circle"]
    count: Count
    diameter: LengthQuantity
    angle: NotRequired[Degrees]
    center: NotRequired[Center]


@with_config(ConfigDict(extra="ignore", strict=True))
class _AnyPattern(TypedDict):
    pattern: Literal["row", "rectangle", "circle"]


Positions = Annotated[list[AnchorPosition], Field(min_length=1, max_length=MOST_ANCHORS)]
Pattern = Annotated[RowPattern | RectanglePattern | CirclePattern, Field(discriminator="pattern")]


class LayoutForms:
    """Validator of a list or a pattern whose errors have the place in the request and name no branch of the union."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """The union itself, and only where it fails the one form that was meant."""
        return core_schema.no_info_wrap_validator_function(_one_form, handler(source))


def _one_form(value: Any, handler: core_schema.ValidatorFunctionWrapHandler) -> Any:
    try:
        return handler(value)
    except ValidationError:
        return _form(value).validate_python(value)


def _form(value: Any) -> TypeAdapter[Any]:
    """Validator of the form that a value has."""
    if isinstance(value, list):
        return _adapter("")
    if not isinstance(value, Mapping):
        raise PydanticCustomError("layout", "Give a list of positions, or a pattern as an object")
    name = cast(Mapping[str, Any], value).get("pattern")
    return _adapter(name if isinstance(name, str) and name in _PATTERNS else "any")


_PATTERNS: Mapping[str, Any] = {
    "": Positions,
    "any": _AnyPattern,
    "row": RowPattern,
    "rectangle": RectanglePattern,
    "circle": CirclePattern,
}


@cache
def _adapter(name: str) -> TypeAdapter[Any]:
    return TypeAdapter(_PATTERNS[name])


Layout = Annotated[Positions | Pattern, LayoutForms()]
"""A layout of an item stands in place of that of the defaults as a whole."""


@with_config(STRICT)
class Plate(TypedDict, total=False):
    """A rectangular plate over the anchors: its widths along x and y, and what it bears on.

    Without ``support`` it bears on the concrete; ``free`` hangs clear of it, on its anchors alone.
    """

    width_x: LengthQuantity
    width_y: LengthQuantity
    center: Center
    support: Support


@with_config(STRICT)
class Attachment(TypedDict, total=False):
    """What is fixed to the concrete: how load comes to the anchors.

    ``gap`` is free length of the anchor between base and attachment; ``thickness`` is that of its steel: of the plate,
    or of what a stud is welded to. ``survives_loss``: the engineer has shown that what hangs stays up when this point
    fails, which pins need. By EN 1992-4: ``annular_gap``, under earthquake, whether the holes of the fixture are filled
    around the fasteners; of a grout pad ``grout_thickness``, ``grout_strength`` and ``grout_fills``; of a lever arm
    ``clamped``, by nuts to the concrete, and ``turning``, whether the fixture can turn.
    """

    plate: Plate
    welded: bool
    thickness: LengthQuantity
    grout_pad: bool
    gap: GapQuantity
    annular_gap: AnnularGap
    grout_thickness: LengthQuantity
    grout_strength: StressQuantity
    grout_fills: bool
    clamped: bool
    turning: Turning
    survives_loss: bool
