"""What the product schema is made of: its base, quantities with their units, pullout strengths."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, WithJsonSchema

Units = Literal["us", "si"]

UNITS_OF_KIND = {
    "length": {"us": "in", "si": "mm"},
    "area": {"us": "in2", "si": "mm2"},
    "stress": {"us": "psi", "si": "MPa"},
    "force": {"us": "lbf", "si": "kN"},
    "torque": {"us": "ft*lbf", "si": "N*m"},
    "volume": {"us": "in3", "si": "mL"},
    "temperature": {"us": "degF", "si": "degC"},
}
"""Unit of each kind of quantity by the unit system of a file; the schema repeats it as ``x-unit``."""


class Model(BaseModel):
    """Base of the schema: unknown fields, coercions and non-finite numbers are refused; objects can't change."""

    model_config = ConfigDict(
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        frozen=True,
        field_title_generator=lambda name, _info: name,
    )


def quantity(kind: str, text: str, *, least: float = 0.001, most: float = 10_000_000) -> Any:
    """A field in the unit of its kind; the range keeps out slips of the unit by orders of magnitude."""
    units = UNITS_OF_KIND[kind]
    return Field(
        ge=least,
        le=most,
        description=f"{text} Unit: {units['us']} (us), {units['si']} (si).",
        json_schema_extra={"x-unit": dict(units)},
    )


def length(text: str) -> Any:
    """A length."""
    return quantity("length", text)


def area(text: str) -> Any:
    """An area."""
    return quantity("area", text)


def stress(text: str) -> Any:
    """A stress."""
    return quantity("stress", text)


def force(text: str) -> Any:
    """A force."""
    return quantity("force", text)


def degrees(text: str) -> Any:
    """A temperature of the concrete."""
    return quantity("temperature", text, least=-100, most=1000)


def about(text: str) -> Any:
    """A field that has no unit."""
    return Field(description=text)


def words(text: str) -> Any:
    """A text."""
    return Field(min_length=1, max_length=256, description=text)


def pullout(text: str) -> Any:
    """A pullout strength."""
    units = UNITS_OF_KIND["force"]
    return Field(
        description=f"{text} A number, the word not_governing, or absent: not qualified in that state."
        f" Unit: {units['us']} (us), {units['si']} (si).",
        json_schema_extra={"x-unit": dict(units)},
    )


def _branch(value: Any) -> str:
    return "word" if isinstance(value, str) else "number"


Sentence = Annotated[str, Field(min_length=1, max_length=256)]
_PULLOUT_LEAST, _PULLOUT_MOST = 0.001, 10_000_000
Pullout = Annotated[
    Annotated[Annotated[float, Field(ge=_PULLOUT_LEAST, le=_PULLOUT_MOST)], Tag("number")]
    | Annotated[Literal["not_governing"], Tag("word")],
    Discriminator(_branch),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "number", "minimum": _PULLOUT_LEAST, "maximum": _PULLOUT_MOST},
                {"type": "string", "enum": ["not_governing"]},
            ]
        }
    ),
]
"""Of one list of forms, absence among them, and a word as a list of one, which makers of clients read."""

PULLOUT_STATES = ("absent", "number", "not_governing")


def pullout_state(value: float | str | None) -> int:
    """Index of a pullout strength into `PULLOUT_STATES`."""
    return 0 if value is None else 1 if isinstance(value, float) else 2
