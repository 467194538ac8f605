"""Own code beside the service, without any of it: quantities as exact fractions, items with their defaults, products.

Factors are the exact definitions: 1 in is 25.4 mm, 1 lb is 0.45359237 kg, standard gravity is 9.80665 m/s2.
"""

import json
import re
from fractions import Fraction
from importlib.resources import files

LENGTHS = {"in": 1, '"': 1, "inch": 1, "inches": 1, "ft": 12, "foot": 12, "feet": 12, "'": 12}
LENGTHS |= {"mm": Fraction(10, 254), "cm": Fraction(100, 254), "m": Fraction(10_000, 254)}
POUND = Fraction(45359237, 100_000_000) * Fraction(980665, 100_000)
"""N."""
FORCES = {"lb": 1, "lbs": 1, "lbf": 1, "kip": 1000, "kips": 1000, "N": 1 / POUND, "kN": 1000 / POUND}
_FEET_INCHES = re.compile(r"([+-]?)([\d.]+) ?(?:'|ft) ?-? ?([^'a-z\"]+) ?(?:\"|in)$")
_ONE = re.compile(r"([+-]?)([\d./eE +-]*?\d\.?) ?([a-zA-Z'\"]+)$")


def _number(text):
    """12, 1.5, 3/8, 3-1/2, 3 1/2."""
    parts = re.split(r"[ -](?=\d+/)", text.strip())
    return sum((Fraction(part) for part in parts), Fraction(0))


def quantity(value, bare, units):
    """A number in the unit ``bare``, or a text with its own, in the unit that has the factor 1."""
    if not isinstance(value, str):
        return Fraction(str(value)) * units[bare]
    both = _FEET_INCHES.match(value)
    if both:
        sign, feet, inches = both.groups()
        own = 12 * Fraction(feet) + _number(inches)
        return -own if sign == "-" else own
    sign, number, unit = _ONE.match(value).groups()
    own = _number(number) * units[unit]
    return -own if sign == "-" else own


def inches(value, bare):
    """A length in inches."""
    return quantity(value, bare, LENGTHS)


def pounds(value, bare):
    """A force in lbf."""
    return quantity(value, bare, FORCES)


def merged(default, own):
    """An item over its defaults, key by key; what has a kind, and lists, stand whole."""
    if not isinstance(default, dict) or not isinstance(own, dict):
        return own
    if "kind" in own and "kind" in default and own["kind"] != default["kind"]:
        return own
    made = dict(default)
    for name, value in own.items():
        made[name] = merged(default[name], value) if name in default else value
    return made


def unguarded(cell):
    """A cell of a CSV without the apostrophe before what a spreadsheet would take for a formula."""
    return cell[1:] if cell[:1] == "'" and cell[1:2] in "=+-@\t\r" else cell


def families():
    """The files of the built-in catalogue as they stand, by id."""
    folder = files("hangpoint") / "product" / "data"
    read = (json.loads(each.read_text(encoding="utf-8")) for each in folder.iterdir() if each.name.endswith(".json"))
    return {each["id"]: each for each in read if "sizes" in each}


def products(known):
    """Family, size and embedment of every product."""
    return [(f, s, e) for f in known.values() for s in f["sizes"] for e in s.get("embedments", ())]
