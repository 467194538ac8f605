"""Units of a request: kinds of quantity, their bare units, the spellings accepted, and the factors between them.

`unit_factors` makes the factors once, when this module is read. No text of a user reaches it: a quantity written as
text is split by the anchored grammar below (at most 24 characters), its unit looked up in the kind's own list. The same
grammar, as a regular expression, is the pattern of the published JSON Schema.

Grammar: ``[sign] number [space] unit`` with a decimal number (exponent within 6), a fraction ``5/8`` or a mixed one
``3-1/2``, ``3 1/2``; a length may also be feet and inches: ``5'-6"``, ``5' 6 1/2"``, ``5 ft 6 in``.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from hangpoint.unit_factors import factor

System = Literal["us", "si"]
MAX_QUANTITY_TEXT = 24
NO_EDGE = "none"
"""Word for an edge that is not within reach: an infinite distance."""

_DECIMAL = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-6])?"
_FRACTION = r"(?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*"
_NUMBER = rf"(?:{_FRACTION}|{_DECIMAL})"
_INCH = '(?:"|in)'
_FEET_INCHES = rf"{_DECIMAL} ?(?:'|ft) ?-? ?{_NUMBER} ?{_INCH}"


@dataclass(frozen=True, slots=True, kw_only=True)
class QuantityKind:
    """One kind of quantity.

    ``core`` is the unit the calculation uses, ``bare`` the unit of a bare number in each system of a request,
    ``units`` the accepted spellings with their pint unit. ``least`` and ``most`` bound the value in the core unit;
    ``open_below`` excludes ``least`` itself.
    """

    name: str
    title: str
    core: str
    bare: dict[System, str]
    units: dict[str, str]
    least: float
    most: float
    open_below: bool = False
    feet_inches: bool = False

    @property
    def pattern(self) -> str:
        """Regular expression of a text of this kind, the same for every validator."""
        spellings = sorted(self.units, key=len, reverse=True)
        # A space and a hyphen need no escape, and the regular expressions of JSON Schema allow none.
        units = "|".join(re.escape(unit).replace(r"\ ", " ").replace(r"\-", "-") for unit in spellings)
        sign = "[+-]?" if self.least < 0 else r"\+?"
        one = rf"{_NUMBER} ?(?:{units})"
        body = rf"(?:{one}|{_FEET_INCHES})" if self.feet_inches else one
        return rf"^{sign}{body}$"


_LENGTHS = {
    "in": "inch",
    "inch": "inch",
    "inches": "inch",
    '"': "inch",
    "ft": "foot",
    "foot": "foot",
    "feet": "foot",
    "'": "foot",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
}
_FORCES = {
    "lb": "pound_force",
    "lbs": "pound_force",
    "lbf": "pound_force",
    "kip": "kip",
    "kips": "kip",
    "N": "newton",
    "kN": "kilonewton",
}
_MASS_AS_WEIGHT = {"kg": "kilogram * standard_gravity"}

LENGTH = QuantityKind(
    name="length",
    title="Length",
    core="inch",
    bare={"us": "inch", "si": "millimeter"},
    units=_LENGTHS,
    least=1e-3,
    most=1e5,
    feet_inches=True,
)
DISPLACEMENT = replace(LENGTH, title="Displacement", least=0.0)
GAP = replace(LENGTH, title="Gap", least=0.0)
LAYER = replace(LENGTH, title="Thickness of a layer", least=0.0)
DISTANCE = QuantityKind(
    name="distance",
    title="Distance",
    core="foot",
    bare={"us": "foot", "si": "meter"},
    units=_LENGTHS,
    least=0.0,
    most=1e4,
    feet_inches=True,
)
COORDINATE = QuantityKind(
    name="coordinate",
    title="Coordinate",
    core="foot",
    bare={"us": "foot", "si": "meter"},
    units=_LENGTHS,
    least=-1e6,
    most=1e6,
    feet_inches=True,
)
OFFSET = QuantityKind(
    name="offset",
    title="Offset from the origin of the layout",
    core="inch",
    bare={"us": "inch", "si": "millimeter"},
    units=_LENGTHS,
    least=-1e4,
    most=1e4,
    feet_inches=True,
)
FORCE = QuantityKind(
    name="force",
    title="Force",
    core="pound_force",
    bare={"us": "pound_force", "si": "kilonewton"},
    units=_FORCES,
    least=-1e8,
    most=1e8,
)
WEIGHT = QuantityKind(
    name="weight",
    title="Weight of an item",
    core="pound_force",
    bare={"us": "pound_force", "si": "kilonewton"},
    units=_FORCES | _MASS_AS_WEIGHT,
    least=0.0,
    most=1e8,
)
STRESS = QuantityKind(
    name="stress",
    title="Stress or strength of a material",
    core="psi",
    bare={"us": "psi", "si": "megapascal"},
    units={"psi": "psi", "ksi": "ksi", "MPa": "megapascal", "N/mm2": "newton / millimeter**2"},
    least=1.0,
    most=1e6,
)
AREA = QuantityKind(
    name="area",
    title="Area of reinforcement",
    core="inch**2",
    bare={"us": "inch**2", "si": "millimeter**2"},
    units={"in2": "inch**2", "mm2": "millimeter**2", "cm2": "centimeter**2"},
    least=1e-3,
    most=1e4,
)
DENSITY = QuantityKind(
    name="density",
    title="Density",
    core="pound / foot**3",
    bare={"us": "pound / foot**3", "si": "kilogram / meter**3"},
    units={
        "lb/ft3": "pound / foot**3",
        "pcf": "pound / foot**3",
        "lb/in3": "pound / inch**3",
        "kg/m3": "kilogram / meter**3",
        "g/cm3": "gram / centimeter**3",
    },
    least=0.0,
    most=2000.0,
)
LINE_WEIGHT = QuantityKind(
    name="line_weight",
    title="Weight per length",
    core="pound_force / foot",
    bare={"us": "pound_force / foot", "si": "kilogram * standard_gravity / meter"},
    units={
        "lb/ft": "pound_force / foot",
        "lbf/ft": "pound_force / foot",
        "plf": "pound_force / foot",
        "kg/m": "kilogram * standard_gravity / meter",
        "N/m": "newton / meter",
        "kN/m": "kilonewton / meter",
    },
    least=0.0,
    most=1e5,
)
SECTION_MODULUS = QuantityKind(
    name="section_modulus",
    title="Section modulus",
    core="inch**3",
    bare={"us": "inch**3", "si": "millimeter**3"},
    units={"in3": "inch**3", "mm3": "millimeter**3", "cm3": "centimeter**3"},
    least=0.0,
    most=1e5,
)
AREA_WEIGHT = QuantityKind(
    name="area_weight",
    title="Weight per area",
    core="pound_force / foot**2",
    bare={"us": "pound_force / foot**2", "si": "kilogram * standard_gravity / meter**2"},
    units={
        "lb/ft2": "pound_force / foot**2",
        "lbf/ft2": "pound_force / foot**2",
        "psf": "pound_force / foot**2",
        "kg/m2": "kilogram * standard_gravity / meter**2",
        "N/m2": "newton / meter**2",
        "kN/m2": "kilonewton / meter**2",
    },
    least=0.0,
    most=1e5,
)

MOMENT = QuantityKind(
    name="moment",
    title="Moment",
    core="pound_force * inch",
    bare={"us": "pound_force * inch", "si": "kilonewton * meter"},
    units={
        "lbf*in": "pound_force * inch",
        "lb*in": "pound_force * inch",
        "in-lb": "pound_force * inch",
        "lb-in": "pound_force * inch",
        "lbf*ft": "pound_force * foot",
        "lb*ft": "pound_force * foot",
        "ft-lb": "pound_force * foot",
        "lb-ft": "pound_force * foot",
        "kip*in": "kip * inch",
        "kip-in": "kip * inch",
        "kip*ft": "kip * foot",
        "kip-ft": "kip * foot",
        "N*m": "newton * meter",
        "kN*m": "kilonewton * meter",
    },
    least=-1e9,
    most=1e9,
)

_FT_LBF = "pound_force * foot"
TORQUE = QuantityKind(
    name="torque",
    title="Torque",
    core=_FT_LBF,
    bare={"us": _FT_LBF, "si": "newton * meter"},
    units=dict.fromkeys(("ft*lbf", "ft*lb", "ft-lb", "lb-ft"), _FT_LBF)
    | {"in-lb": "pound_force * inch", "lb-in": "pound_force * inch", "N*m": "newton * meter"},
    least=0.0,
    most=1e5,
)
VOLUME = QuantityKind(
    name="volume",
    title="Volume",
    core="inch**3",
    bare={"us": "inch**3", "si": "milliliter"},
    units={"in3": "inch**3", "fl oz": "fluid_ounce", "mL": "milliliter", "L": "liter"},
    least=1e-3,
    most=1e5,
)

KINDS = {
    kind.name: kind
    for kind in (
        LENGTH,
        DISTANCE,
        COORDINATE,
        OFFSET,
        FORCE,
        WEIGHT,
        STRESS,
        AREA,
        DENSITY,
        LINE_WEIGHT,
        AREA_WEIGHT,
        SECTION_MODULUS,
        MOMENT,
        *(TORQUE, VOLUME),
    )
}
"""Every kind by its name."""
BY_TITLE = {kind.title.lower(): kind for kind in (*KINDS.values(), DISPLACEMENT, GAP, LAYER)}
"""Every kind and range by its title."""

PRINTED: dict[System, dict[str, str]] = {
    "us": {
        "length": "in",
        "distance": "ft",
        "coordinate": "ft",
        "offset": "in",
        "force": "lbf",
        "weight": "lbf",
        "stress": "psi",
        "area": "in2",
        "density": "lb/ft3",
        "line_weight": "lb/ft",
        "area_weight": "lb/ft2",
        "section_modulus": "in3",
        "moment": "lbf*in",
        "torque": "ft*lbf",
        "volume": "in3",
    },
    "si": {
        "length": "mm",
        "distance": "m",
        "coordinate": "m",
        "offset": "mm",
        "force": "kN",
        "weight": "kN",
        "stress": "MPa",
        "area": "mm2",
        "density": "kg/m3",
        "line_weight": "kg/m",
        "area_weight": "kg/m2",
        "section_modulus": "mm3",
        "moment": "kN*m",
        "torque": "N*m",
        "volume": "mL",
    },
}
"""How an answer names the unit of each kind: also the unit of a bare number in a request."""


_TEXT_FACTORS = {
    name: {spelling: factor(unit, kind.core) for spelling, unit in kind.units.items()} for name, kind in KINDS.items()
}
_BARE_FACTORS: dict[System, dict[str, float]] = {
    system: {name: factor(kind.bare[system], kind.core) for name, kind in KINDS.items()} for system in ("us", "si")
}


def bare_factor(kind: QuantityKind, system: System) -> float:
    """Core units in one bare unit of the system."""
    return _BARE_FACTORS[system][kind.name]


def unit_factor(kind: QuantityKind, spelling: str) -> float | None:
    """Core units in one unit as spelled, or None for a spelling that the kind doesn't have."""
    return _TEXT_FACTORS[kind.name].get(spelling)


_PLAIN = re.compile(rf"[+-]?{_DECIMAL}")
_SPLIT = re.compile(rf"([+-]?)({_NUMBER}) ?(.*)")
_SPLIT_FEET = re.compile(rf"([+-]?)({_DECIMAL}) ?(?:'|ft) ?-? ?({_NUMBER}) ?{_INCH}")


def number(text: str) -> float:
    """Value of an unsigned decimal, fraction or mixed fraction of the grammar."""
    if "/" not in text:
        return float(text)
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    top, bottom = fraction.split("/")
    return (float(whole) if whole else 0.0) + int(top) / int(bottom)


@cache
def text_reader(kind: str) -> Callable[[str], float]:
    """Reader of texts of one kind that match its pattern, into the core unit.

    Raises:
        ValueError: (from the reader) the text is not of the grammar.
    """
    factors = _TEXT_FACTORS[kind]
    feet_inches = KINDS[kind].feet_inches
    foot, inch = (factors.get("ft", 0.0), factors.get("in", 0.0))

    def read(text: str) -> float:
        if text == NO_EDGE:
            return math.inf
        # The commonest form, "12.5 in", is read without the regular expression.
        value, _, unit = text.partition(" ")
        factor = factors.get(unit)
        if factor is not None and _PLAIN.fullmatch(value):
            return float(value) * factor
        match = _SPLIT.fullmatch(text)
        if match and match[3] in factors:
            size = number(match[2]) * factors[match[3]]
            return -size if match[1] == "-" else size
        both = _SPLIT_FEET.fullmatch(text) if feet_inches else None
        if both is None:
            raise ValueError(f"not a {kind}: {text[:MAX_QUANTITY_TEXT]!r}")
        size = float(both[2]) * foot + number(both[3]) * inch
        return -size if both[1] == "-" else size

    return read


def accepted(kind: QuantityKind) -> str:
    """The units of a kind, for an error message."""
    return ", ".join(kind.units)
