"""By what each point is checked, as far as clauses and the indices of symbols go."""

import re

import numpy as np

from hangpoint.core.clauses import Citing
from hangpoint.core.hang_point.allowables import CHAPTER_17, FASTENER, MASONRY_BOLT, TABLE
from hangpoint.core.hang_point.cases import by_service
from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Index

CITINGS = tuple(Citing)

_OF_METHOD = {
    CHAPTER_17: Citing.CHAPTER_17,
    FASTENER: Citing.EN1992_4,
    TABLE: Citing.TABLE,
    MASONRY_BOLT: Citing.BOLT_BY_STRENGTH,
}
_SYMBOL_OF_LOAD = re.compile(r"\b([MNPV])_ua?\b")
_INDEX = {Citing.EN1992_4: r"\1_Ed", Citing.TABLE: r"\1_a", Citing.BOLT_BY_SERVICE: r"\1_a"}
"""Design loads have the index Ed of EN 1990, service loads none of factored ones."""


def citing_of(method: int) -> Citing:
    """By a method (`allowables`); a bolt in masonry by strength design, from which findings differ in no clause."""
    return _OF_METHOD[method]


def citings(points: Points) -> Index:
    """(points,) places in `CITINGS`."""
    places = np.full(1 + max(_OF_METHOD), 0, dtype=np.intp)
    for method, citing in _OF_METHOD.items():
        places[method] = CITINGS.index(citing)
    found = places[points.method]
    service = by_service(points)
    if service is not None:
        found[(points.method == MASONRY_BOLT) & service] = CITINGS.index(Citing.BOLT_BY_SERVICE)
    return found


def symbol_by(symbol: str, citing: Citing) -> str:
    """The symbol of a load as a method writes it."""
    index = _INDEX.get(citing)
    return symbol if index is None else _SYMBOL_OF_LOAD.sub(index, symbol)
