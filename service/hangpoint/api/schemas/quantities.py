"""Quantities on the wire: a number in the request's unit system, or a text with its own unit.

Each kind is a named schema whose pattern lists the units of that kind, so a wrong dimension or an unknown unit is
invalid by the schema alone. A number and a text are one type with one error, never two branches.
"""

from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema
from typing_extensions import TypeAliasType

from hangpoint import units
from hangpoint.units import QuantityKind

NUMBER_MOST = 1e9


class WireQuantity:
    """Validator and JSON Schema of one kind; ``word`` is a word that may stand in place of a quantity."""

    def __init__(self, kind: QuantityKind, word: str = "") -> None:
        self.kind = kind
        self.word = word
        self.pattern = f"^(?:{word}|{kind.pattern[1:-1]})$" if word else kind.pattern
        self.bounds: dict[str, float] = (
            {"gt": 0.0} if kind.open_below or kind.least > 0 else {"ge": 0.0 if kind.least >= 0 else -NUMBER_MOST}
        )

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Union of a finite number within its range and a text of the kind's grammar, with one error."""
        text = core_schema.str_schema(pattern=self.pattern, max_length=units.MAX_QUANTITY_TEXT, strict=True)
        number = core_schema.float_schema(allow_inf_nan=False, strict=True, le=NUMBER_MOST, **self.bounds)  # pyright: ignore[reportArgumentType]
        word = f', or the word "{self.word}"' if self.word else ""
        return core_schema.union_schema(
            [number, text],
            mode="left_to_right",
            custom_error_type="quantity",
            custom_error_message="not a {title}: give a number in the unit of the request's system, or a text of at"
            " most {most} characters with one of these units: {accepted}{word}",
            custom_error_context={
                "kind": self.kind.name,
                "title": self.kind.title.lower(),
                "most": units.MAX_QUANTITY_TEXT,
                "accepted": units.accepted(self.kind),
                "word": word,
            },
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """The same rule in JSON Schema."""
        names = {"gt": "exclusiveMinimum", "ge": "minimum"}
        bare = " · ".join(f"{system}: {units.PRINTED[system][self.kind.name]}" for system in ("us", "si"))
        return {
            "title": self.kind.title,
            "description": f"A number ({bare}), or a text with its own unit ({units.accepted(self.kind)}).",
            "anyOf": [
                {"type": "number", "maximum": NUMBER_MOST} | {names[key]: value for key, value in self.bounds.items()},
                {"type": "string", "pattern": self.pattern, "maxLength": units.MAX_QUANTITY_TEXT},
            ],
        }


LengthQuantity = TypeAliasType("LengthQuantity", Annotated[float | str, WireQuantity(units.LENGTH)])
DisplacementQuantity = TypeAliasType("DisplacementQuantity", Annotated[float | str, WireQuantity(units.DISPLACEMENT)])
EdgeDistance = TypeAliasType("EdgeDistance", Annotated[float | str, WireQuantity(units.LENGTH, word=units.NO_EDGE)])
DistanceQuantity = TypeAliasType("DistanceQuantity", Annotated[float | str, WireQuantity(units.DISTANCE)])
CoordinateQuantity = TypeAliasType("CoordinateQuantity", Annotated[float | str, WireQuantity(units.COORDINATE)])
OffsetQuantity = TypeAliasType("OffsetQuantity", Annotated[float | str, WireQuantity(units.OFFSET)])
GapQuantity = TypeAliasType("GapQuantity", Annotated[float | str, WireQuantity(units.GAP)])
LayerQuantity = TypeAliasType("LayerQuantity", Annotated[float | str, WireQuantity(units.LAYER)])
ForceQuantity = TypeAliasType("ForceQuantity", Annotated[float | str, WireQuantity(units.FORCE)])
WeightQuantity = TypeAliasType("WeightQuantity", Annotated[float | str, WireQuantity(units.WEIGHT)])
StressQuantity = TypeAliasType("StressQuantity", Annotated[float | str, WireQuantity(units.STRESS)])
AreaQuantity = TypeAliasType("AreaQuantity", Annotated[float | str, WireQuantity(units.AREA)])
DensityQuantity = TypeAliasType("DensityQuantity", Annotated[float | str, WireQuantity(units.DENSITY)])
MomentQuantity = TypeAliasType("MomentQuantity", Annotated[float | str, WireQuantity(units.MOMENT)])
LineWeightQuantity = TypeAliasType("LineWeightQuantity", Annotated[float | str, WireQuantity(units.LINE_WEIGHT)])
AreaWeightQuantity = TypeAliasType("AreaWeightQuantity", Annotated[float | str, WireQuantity(units.AREA_WEIGHT)])
TorqueQuantity = TypeAliasType("TorqueQuantity", Annotated[float | str, WireQuantity(units.TORQUE)])
