"""Clauses of numbers and sentences that several methods share: each method cites its own."""

import re
from collections.abc import Mapping
from enum import Enum, auto
from typing import Self

_BARE = re.compile(r"(Table |R|\()?\d")


class Citing(Enum):
    """By what a point is checked, as far as its clauses go."""

    CHAPTER_17 = auto()
    EN1992_4 = auto()
    TABLE = auto()
    BOLT_BY_STRENGTH = auto()
    BOLT_BY_SERVICE = auto()


class Clause(str):
    """The clause by chapter 17 of ACI 318-19 as a text, which also knows what others cite in its place.

    ``en`` is by EN 1992-4, ``table`` by tables of allowable loads, ``strength`` and ``service`` are of bolts in masonry
    by strength design and by allowable stress; a table goes by service loads as well. "" is no clause at all. What
    is not said is the text itself, with its document where it names none.
    """

    others: Mapping[Citing, str]

    def __new__(
        cls,
        own: str,
        *,
        en: str | None = None,
        table: str | None = None,
        strength: str | None = None,
        service: str | None = None,
    ) -> Self:
        """See the class."""
        made = super().__new__(cls, own)
        others = {
            Citing.EN1992_4: en,
            Citing.TABLE: service if table is None else table,
            Citing.BOLT_BY_STRENGTH: strength,
            Citing.BOLT_BY_SERVICE: service,
        }
        made.others = {citing: text for citing, text in others.items() if text is not None}
        return made


def is_bare(clause: str) -> bool:
    """Whether a clause names no document: it is of the design code of the answer."""
    return _BARE.match(clause) is not None


def cited(clause: str, citing: Citing) -> str:
    """A clause as a method cites it; a bare one is of ACI 318-19 and names it beside every other method."""
    if isinstance(clause, Clause) and citing in clause.others:
        return clause.others[citing]
    return f"ACI 318-19 {clause}" if citing is not Citing.CHAPTER_17 and is_bare(clause) else str(clause)


_BY_PRACTICE, _BY_STATICS = "common practice", "statics"

COMBINED = Clause("5.3.1", en="EN 1990 6.4.3", strength="ASCE 7 2.3", service="ASCE 7 2.4")
"""Loads in a combination, of dead and live load."""
TRANSIENT_COMBINED = Clause("ASCE 7 2.3", en="EN 1990 6.4.3", service="ASCE 7 2.4")
"""Of all other natures."""
EARTHQUAKE_COMBINED = Clause("ASCE 7 2.3.6", en="EN 1990 (6.12b)", service="ASCE 7 2.4.5")
EARTHQUAKE_PULL = Clause("17.10.5.1", en="EN 1990 (6.12b)", strength="ASCE 7 2.3.6", service="ASCE 7 2.4.5")
"""What of the tension is earthquake."""
EARTHQUAKE_SHEAR = Clause("17.10.6.1", en="EN 1990 (6.12b)", strength="ASCE 7 2.3.6", service="ASCE 7 2.4.5")
"""What of the shear is."""
VERTICAL_EARTHQUAKE = Clause("ASCE 7 13.3.1.2", en="")
SERVICE_COMBINED = Clause("ASCE 7 2.4", en="EN 1990 6.5.3")
"""Service loads in a combination, by every method."""
SERVICE_EARTHQUAKE = Clause("ASCE 7 2.4.5", en="EN 1990 6.5.3")
LASTING = Clause("17.5.2.2", en=_BY_PRACTICE, strength=_BY_PRACTICE, service=_BY_PRACTICE)
"""What of the load stays."""
SHEAR_OF_COMPONENTS = Clause("17.5.1", en=_BY_STATICS, strength=_BY_STATICS, service=_BY_STATICS)
ELASTIC = Clause("17.2.1", en="EN 1992-4 6.2", strength=_BY_STATICS, service=_BY_STATICS)
"""Forces of anchors under a rigid plate."""
ECCENTRICITY = Clause("17.6.2.3.1", en="", strength=_BY_STATICS, service=_BY_STATICS)
MODULUS_OF_CONCRETE = Clause("19.2.2.1", en="EN 1992-1-1 Table 3.1")
MODULUS_OF_STEEL = Clause("20.2.2.2", en="EN 1992-1-1 3.2.7(4)")
BOLT_STRENGTH = Clause("TMS 402 8.1.3.3, 9.1.6.3", strength="TMS 402 9.1.6.3", service="TMS 402 8.1.3.3")
"""Strength of a bolt in masonry."""
