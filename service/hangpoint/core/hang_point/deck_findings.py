"""Deck and fill against those of the tests of an anchor in a flute (reading 37). Units: in, psi."""

import numpy as np

from hangpoint.core.hang_point.points import Points
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools
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
        FindingColumn(
            Finding.DECK_FLUTE_NARROW, own & below(deck.width, limit=deck.width_min), deck.width, deck.width_min
        ),
        FindingColumn(
            Finding.DECK_OFFSET, own & below(deck.offset_max, limit=deck.offset), deck.offset, deck.offset_max
        ),
        FindingColumn(Finding.DECK_COVER, own & below(deck.cover, limit=deck.cover_min), deck.cover, deck.cover_min),
        FindingColumn(
            Finding.DECK_SHEET,
            sheet_asked & stated & below(deck.sheet, limit=deck.sheet_min),
            deck.sheet,
            deck.sheet_min,
        ),
        FindingColumn(Finding.DECK_SHEET_UNKNOWN, sheet_asked & ~stated, np.zeros(points.count), deck.sheet_min),
        FindingColumn(Finding.DECK_F_C_BELOW_TESTS, own & below(f_c, limit=f_c_ref), f_c, f_c_ref),
    ]
