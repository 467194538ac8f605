"""Seismic braces: angle, how far apart along a line, how many share the force of equipment."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.hanger.items import EQUIPMENT, RISER
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.pack.hanger_items.notes import flaw_where, stated
from hangpoint.pack.pull import Rows
from hangpoint.pack.spans import LEAST_SPAN
from hangpoint.units import DISTANCE

_DIRECTIONS = {"across": 0, "along": 1}
_NEUTRAL_ANGLE = 45.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Braces:
    """Columns of `core.hanger.items.Seismic`, a row each."""

    braced: Bools
    l_brace: Floats
    braces: Floats
    theta_v: Floats
    along: Codes


def pack_braces(rows: Rows, kind: Codes, lengths: Floats) -> Braces:
    """Read ``brace`` of each item with a seismic force, of the given kind; ``lengths`` those of risers, ft.

    The default brace may state a spacing for lines and a number for equipment; an item only what its kind has. A riser
    without a spacing is held by one brace.

    Flaws: no spacing of the braces of a run or a trapeze, no number of those of equipment; an item that itself states a
    number of braces for a line, or a spacing for equipment; a quantity out of range.
    """
    brace = rows.child("brace")
    braced = stated(brace, "angle")
    spacing = brace.quantity("spacing", DISTANCE)
    on_body, on_riser = kind == EQUIPMENT, kind == RISER
    unspaced = braced & ~on_body & np.isnan(spacing)
    detail = "How far apart the braces stand along the line is required."
    flaw_where(brace, unspaced & ~on_riser, "spacing", detail, code="missing")
    detail = "Braces are at least 0.01 ft (3 mm) apart."
    flaw_where(brace, spacing < LEAST_SPAN, "spacing", detail, slug="quantity")
    number = brace.numbers("number", np.nan)
    detail = "How many braces share the force of the equipment is required."
    flaw_where(brace, braced & on_body & np.isnan(number), "number", detail, code="missing")
    own_number = np.array(["number" in own for own in brace.objects], dtype=np.bool_)
    detail = "Braces of a line stand one every spacing, and each takes its own length: a number is for equipment."
    flaw_where(brace, own_number & ~on_body & (number > 1), "number", detail, code="contradiction")
    own_spacing = np.array(["spacing" in own for own in brace.objects], dtype=np.bool_)
    detail = "Braces of equipment are counted by number: a spacing is for lines."
    flaw_where(brace, own_spacing & on_body, "spacing", detail, code="contradiction")
    angle = brace.numbers("angle", _NEUTRAL_ANGLE)
    from_horizontal = np.array([word == "horizontal" for word in brace.values("angle_from")], dtype=np.bool_)
    l_brace = np.where(np.isnan(spacing), np.where(on_riser, lengths, 1.0), spacing)
    return Braces(
        braced=braced,
        l_brace=np.where(braced & ~on_body, np.maximum(l_brace, LEAST_SPAN), 1.0),
        braces=np.where(braced & on_body & ~np.isnan(number), number, 1.0),
        theta_v=np.where(from_horizontal, 90.0 - angle, angle),
        along=brace.codes("direction", _DIRECTIONS, absent=0),
    )
