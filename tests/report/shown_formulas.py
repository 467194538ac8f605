"""A reader of formulas in MathML, written for the tests only: it computes what a sheet shows from the shown numbers."""

import json
import math
from xml.etree import ElementTree

import numpy as np
import orjson

from architecture.random_records import GENERATORS, Columns
from hangpoint.core.errors import NonFiniteError
from hangpoint.pack.trace import record_section
from hangpoint.report.calculation.sections import sections

_SIGNS = {"·": "*", "−": "-", "≤": "<=", "≥": ">=", "=": "==", ";": ",", "{": "np.array([", "}": "])"}
_NAMES = {"π": "math.pi", "number of": "count", "if": "np.where"}
_WORDS = {"∞": "math.inf", "none": "math.inf", "not governing": "math.inf", "yes": "1.0", "no": "0.0"}


def sections_of(cls, rows):
    """The sections of some random rows of a record."""
    made = GENERATORS[cls](Columns())
    for row in range(rows):
        try:
            section = record_section(made, row)
        except NonFiniteError:  # A random row that no hang point has.
            continue
        yield sections({"trace": json.loads(orjson.dumps([section]))}, lone=True)[0]


class NoNumberError(Exception):
    """A symbol stands where a number should."""


def computed(html):
    """The number that a formula in numbers gives; it may be in pieces, the sign of equality before the first."""
    texts = [_text(each) for each in ElementTree.fromstring(f"<p>{html}</p>").iter("math")]  # noqa: S314
    assert texts[0].startswith("==")
    return eval(  # noqa: S307
        "".join(texts).removeprefix("=="),
        {"math": math, "np": np, "sqrt": np.sqrt, "min": _least, "max": _most} | _SUMS,
    )


def widest(html):
    """Letters of the widest piece of a formula, which no line can be shorter than: of fractions the longer half."""
    return max(_width(each) for each in ElementTree.fromstring(f"<p>{html}</p>").iter("math"))  # noqa: S314


def _width(node):
    inside = [_width(each) for each in node]
    return max(inside) if node.tag == "mfrac" else len(node.text or "") + sum(inside)


def _least(*values):
    return np.min(values[0]) if len(values) == 1 else min(values)


def _most(*values):
    return np.max(values[0]) if len(values) == 1 else max(values)


_SUMS = {"sum": np.sum, "count": np.sum}


def _text(node):
    inside = [_text(each) for each in node]
    match node.tag:
        case "mfrac":
            return f"(({inside[0]})/({inside[1]}))"
        case "msup":
            return f"(({inside[0]})**({inside[1]}))"
        case "msqrt":
            return f"sqrt({''.join(inside)})"
        case "math" | "mrow":
            return "".join(inside)
        case "mn":
            return _WORDS.get(node.text) or node.text.replace("−", "-")
        case "mo":
            return _SIGNS.get(node.text, node.text)
        case "mi" if node.text in _NAMES or node.text in ("min", "max", "sum"):
            return _NAMES.get(node.text, node.text)
        case _:
            raise NoNumberError(node.tag)
