"""Deck and fill against those of the tests of an anchor in a flute (reading 37). Units: in, psi."""

import numpy as np

from hangpoint.core.hang_point.points import Points
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding


def deck_findings(points: Points, checked: Bools) -> list[FindingColumn]:
    """Flute, offset, cover, sheet and strength of the fill beyond the limits of the tests.

    Args:
        points: the batch.
        checked: (points,) the anchors are checked.
    """
    deck, f_c, f_c_ref = points.decks, points.bases.f_c, points.products.f_c_ref
    if not some(deck.tested):
        return []
    own = deck.tested & checked
    sheet_asked = own & (deck.sheet_min > 0)
    stated = deck.sheet > 0
    return [
        _column(Finding.DECK_FLUTE_NARROW, own & _below(deck.width, deck.width_min), deck.width, deck.width_min),
        _column(Finding.DECK_OFFSET, own & _below(deck.offset_max, deck.offset), deck.offset, deck.offset_max),
        _column(Finding.DECK_COVER, own & _below(deck.cover, deck.cover_min), deck.cover, deck.cover_min),
        _column(
            Finding.DECK_SHEET, sheet_asked & stated & _below(deck.sheet, deck.sheet_min), deck.sheet, deck.sheet_min
        ),
        _column(Finding.DECK_SHEET_UNKNOWN, sheet_asked & ~stated, np.zeros(points.count), deck.sheet_min),
        _column(Finding.DECK_F_C_BELOW_TESTS, own & _below(f_c, f_c_ref), f_c, f_c_ref),
    ]


def _below(value: Floats, limit: Floats) -> Bools:
    """Below by more than the rounding of a conversion between inches and millimetres."""
    return value < limit * (1 - 1e-9)


def _column(finding: Finding, holds: Bools, value: Floats, limit: Floats) -> FindingColumn:
    return FindingColumn(finding=finding, holds=holds, value=value, limit=limit)
