"""Notations of the trade as the words of the tables. What may mean two things stays as it is."""

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from math import gcd

from hangpoint.core.hanger.rod import THREADS
from hangpoint.units import KINDS

_MARKS = str.maketrans(
    {"’": "'", "‘": "'", "′": "'", "´": "'", "`": "'", "”": '"', "“": '"', "″": '"', "⁄": "/", "–": "-", "−": "-"}
    | dict.fromkeys("\u00a0\u2007\u2009\u202f", " ")
    | dict.fromkeys("\u2010\u2011", "-")
    | {"⅓": " 1/3", "⅔": " 2/3"}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
_SPACES = re.compile(r" +")
_INCHES = re.compile(r' ?(?:"|in\.?|inch|inches)$')
_SIZE = re.compile(r"(?:(?P<whole>[0-9]+)[ -])?(?P<top>[0-9]+)/(?P<bottom>[1-9][0-9]*)|(?P<decimal>[0-9]*\.?[0-9]+)")
_THREAD = re.compile(r"(?P<size>.+)-(?P<threads>[0-9]{1,2})(?: ?unc)?")
_COARSE = re.compile(r" ?unc$")
_METRIC = re.compile(r"m ?(?P<size>[0-9]{1,2})")
_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sept?|oct|nov|dec)[a-z]*"
_DATE = re.compile(
    rf"[0-9]{{1,2}}[-. /]+{_MONTH}(?:[-. /]+[0-9]{{2,4}})?|{_MONTH}[-. /]+[0-9]{{1,4}}"
    r"|[0-9]{1,2}/[0-9]{1,2}/(?:[0-9]{2}|[0-9]{4})|[0-9]{4}-[0-9]{2}-[0-9]{2}(?:[ t].*)?",
    re.IGNORECASE,
)
_SCHEDULE = re.compile(r"(?:schedule|sched\.?|sch\.?|type) ?")
_SCHEDULES = {"standard": "STD", "std.": "STD", "extra strong": "XS", "double extra strong": "XXS"}
_FINEST = 16
"""Sizes are multiples of 1/16 in; a decimal that is none, as of a nail, is a name."""
_AMOUNT = re.compile(r"(?P<number>.*?[0-9]\.?) ?(?P<unit>[^0-9. ][^0-9]*?(?:[0-9])?)\.?")
_FEET_WORDS = re.compile(r"(?<=[0-9 ])(?:feet|foot)(?= ?-? ?[0-9])")
_INCH_WORDS = re.compile(r"(?<=[0-9 ])inch(?:es)?$")
_UNIT_MARKS = str.maketrans({"²": "2", "³": "3", "^": "", "·": "*", "⋅": "*", "×": "*"})
_FEET_WITHOUT_MARK = re.compile(r"[+-]?[0-9.]+(?:'| ft) ?-? ?(?:[0-9]+[ -])?[0-9]+(?:/[0-9]+|\.[0-9]+)?")
_OTHER_UNITS: Mapping[str, tuple[str, ...]] = {
    "lb": ("#", "pound", "pounds"),
    "lb/ft": ("#/ft", "lbs/ft"),
    "lb/ft2": ("#/ft2", "lbs/ft2", "lb/sq ft", "lbs/sq ft"),
    "lb/ft3": ("#/ft3", "lbs/ft3", "lb/cu ft", "lbs/cu ft"),
    "psi": ("#/in2", "lb/in2", "lbs/in2", "lbf/in2", "lb/sq in", "lbs/sq in"),
    "N/mm2": ("n/sq mm",),
    "in2": ("sq in",),
    "mm2": ("sq mm",),
    "in3": ("cu in",),
    "kg": ("kgf",),
    "lb-ft": ("lbs-ft", "lbf-ft", "ft-lbs", "ft-lbf", "ft lb", "ft lbs", "lb ft"),
    "lb-in": ("lbs-in", "lbf-in", "in-lbs", "in-lbf", "in lb", "in lbs", "lb in"),
    "kip-ft": ("k-ft", "kips-ft", "ft-k", "ft-kip", "ft-kips"),
    "kip-in": ("k-in", "kips-in", "in-k", "in-kip", "in-kips"),
    "N*m": ("nm", "n-m"),
    "kN*m": ("knm", "kn-m"),
}
"""Other names of units, in kinds that have them."""
_KEPT = 20_000


@lru_cache(_KEPT)
def size_text(text: str) -> str:
    """A nominal size in inches, 1-1/4, out of 1.25, 1 1/4", NPS 1-1/4; another text as it is.

    A fraction is proper and in lowest terms, as sizes are written: 6/4 and 4/8 are rather two sizes.
    """
    plain = plain_text(text).casefold().removeprefix("nps").strip()
    found = _SIZE.fullmatch(_INCHES.sub("", plain))
    if found is None:
        return text
    if found["decimal"]:
        size = Fraction(found["decimal"])
    elif is_of_a_size(found["top"], found["bottom"]):
        size = int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))
    else:
        return text
    return _as_size(size) if size > 0 and _FINEST % size.denominator == 0 else text


def is_of_a_size(top: str, bottom: str) -> bool:
    """Whether a fraction is one that a size may have: proper and in lowest terms."""
    return 0 < int(top) < int(bottom) and gcd(int(top), int(bottom)) == 1


def _as_size(size: Fraction) -> str:
    whole, rest = divmod(size, 1)
    return "-".join(str(part) for part in (whole, rest) if part)


@lru_cache(_KEPT)
def rod_text(text: str) -> str:
    """A size of a rod or anchor, which may be written with its coarse thread: 3/8-16, 3/8 UNC; M10 out of m10."""
    plain = plain_text(text).casefold()
    metric = _METRIC.fullmatch(plain)
    if metric is not None:
        return f"M{metric['size']}"
    threaded = _THREAD.fullmatch(plain)
    if threaded is not None:
        size = size_text(threaded["size"])
        thread = THREADS.get(size)
        if thread is not None and round(1 / thread.pitch) == int(threaded["threads"]):
            return size
    coarse = size_text(_COARSE.sub("", plain))
    return coarse if _COARSE.search(plain) and coarse in THREADS else size_text(text)


@lru_cache(_KEPT)
def schedule_text(text: str) -> str:
    """A schedule or type of a pipe as the tables have it: 40 out of Sch. 40, STD out of Standard."""
    plain = _SPACES.sub(" ", text.strip()).casefold()
    plain = _SCHEDULE.sub("", plain, count=1).removesuffix(".0").strip()
    return _SCHEDULES.get(plain, plain.upper())


@lru_cache(_KEPT)
def quantity_text(text: str, kind: str) -> str:
    """A quantity in the grammar of its kind: units in their own letters, vulgar fractions and printed marks."""
    if in_grammar(text, kind):
        return text
    plain = plain_text(text)
    if KINDS[kind].feet_inches:
        lower = plain.casefold().replace("in.", "in").replace("ft.", "ft")
        lower = _INCH_WORDS.sub("in", _FEET_WORDS.sub("ft", lower))
        if _FEET_WITHOUT_MARK.fullmatch(lower):
            return f'{lower}"'
        plain = lower
    found = _AMOUNT.fullmatch(plain)
    unit = None if found is None else _units(kind).get(_unit_key(found["unit"]))
    return plain if found is None or unit is None else f"{found['number'].rstrip()} {unit}"


def in_grammar(text: str, kind: str) -> bool:
    """Whether a text is a quantity of its kind as it stands."""
    return _grammar(kind).fullmatch(text) is not None


def is_date(text: str) -> bool:
    """Whether a text is a date, which spreadsheets make of 3/8 and 1-1/2."""
    return _DATE.fullmatch(text) is not None


def family_text(text: str) -> str:
    """A family as catalogues have it, whose names have small letters and hyphens."""
    return re.sub(r"[ _-]+", "-", text.strip().casefold())


@lru_cache
def _grammar(kind: str) -> re.Pattern[str]:
    return re.compile(KINDS[kind].pattern)


@lru_cache
def _units(kind: str) -> Mapping[str, str]:
    units = KINDS[kind].units
    named = {_unit_key(name): unit for unit, names in _OTHER_UNITS.items() if unit in units for name in names}
    return named | {_unit_key(unit): unit for unit in units}


def unit_text(text: str, kind: str) -> str:
    """A unit in the letters of its kind, lb/ft3 out of LBS/FT³; another text as it is."""
    return _units(kind).get(_unit_key(text), text)


def _unit_key(text: str) -> str:
    """A unit as it is looked up: of small letters, with plain powers, one sign between the units of a product."""
    plain = text.translate(_UNIT_MARKS).casefold().removesuffix(".")
    return plain.replace(". ", " ").replace("*", "-").replace(" - ", "-")


def word_key(text: str) -> str:
    """A word of a closed list without regard to case, spaces and hyphens."""
    return re.sub(r"[\s_-]+", "", text.casefold())


def plain_text(text: str) -> str:
    """A text with plain marks of feet and inches, and fractions of plain figures."""
    return _SPACES.sub(" ", text.translate(_MARKS)).replace("- ", "-").replace("''", '"').strip()
