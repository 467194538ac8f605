"""Cells of a CSV that are no quantity, or may mean another one: what is in doubt, and what to write instead."""

import re
from collections.abc import Callable
from functools import lru_cache

from hangpoint.pack.trade_texts import is_of_a_size, plain_text, unit_text
from hangpoint.units import KINDS, STRESS

_N = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.?[0-9]+)"
_FRACTION = re.compile(r"(?<![0-9./])([0-9]+)/([0-9]+)(?![0-9./])")
_SIZE = re.compile(r"(?:nps ?)?(?:[0-9]+[ -])?(?P<top>[0-9]+)/(?P<bottom>[0-9]+) ?(?:\"|in\.?|inch(?:es)?)?")
_CLASS = re.compile(r"(?:l?c) ?([0-9]{1,3})/[0-9]{1,3}", re.IGNORECASE)
_PARTS = {2, 3, 4, 8, 16, 32, 64}
"""Denominators of fractions of an inch and of what is written so: 10/10 and 8/10 are rather two numbers."""
_EXPONENT = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?e[+-]?[0-9]+.*", re.IGNORECASE)
_THOUSANDS = re.compile(r"([+-]?[0-9]{1,3}(?:(?: |'|’|`|´|\u2009|\u202f|\u00a0)[0-9]{3})+)(?![0-9])(.*)")
_THREE_DECIMALS = re.compile(r"(?<![0-9.])[1-9][0-9]{0,2}\.[0-9]{3}(?![0-9])")
_INCHES = re.compile(rf"[+-]?[0-9]+(?:'| ?ft) ?-? ?(?P<inches>{_N})")
_FEET_OR_RANGE = re.compile(r"(?P<feet>[0-9]+)-(?P<inches>[0-9]+(?: [0-9]+/[0-9]+)?)(?: ?(?:\"|in))?")
_ABOUT = re.compile(
    r"(?:~|≈|±|\+/-?|approx\b|about\b|circa\b|ca\.?(?= )|c\.(?= )).*|.*(?:±|\+/-|approx\.?|\?).*", re.IGNORECASE
)
_LIMIT = re.compile(r"(?:<|>|≤|≥|max|min|up to|at least|not? (?:more|less)).*|.*(?:\bmax|\bmin|\+)\.?", re.IGNORECASE)
_UNKNOWN = re.compile(
    r"[-–—?.]+|n[./]?a\.?|tb[acd]|none|nil|unknown|varies|various|see .*|as (?:noted|req.*|shown)|v\.?i\.?f\.?"
    r"|ok(?:ay)?|pass(?:ed)?|done|pending|not (?:tested|done|yet)"
    r"|verify|by others|x+|ditto|\"|same|'",
    re.IGNORECASE,
)
_TWO = re.compile(rf"{_N} ?[a-z\"']* ?(?:-|to|or|and|/|x|&|@|\*|\||,) ?{_N}.*", re.IGNORECASE)
_KILO = re.compile(r"(?P<number>[+-]?[0-9]*\.?[0-9]+) ?k", re.IGNORECASE)
_BEHIND = re.compile(rf"(?P<before>{_N} ?(?P<unit>[a-z#\"']+[0-9]?))(?P<behind>[ (/].+)", re.IGNORECASE)
_KEPT = 20_000

_Look = Callable[[str, str], str]
"""What is said of a text, plain and in its kind of quantity; empty where it is not concerned."""


@lru_cache(_KEPT)
def misread(text: str, kind: str) -> str:
    """Why a text of the grammar is not taken by it, as it may mean another number; empty where it is."""
    plain = plain_text(text)
    if kind == STRESS.name and (found := _CLASS.fullmatch(plain)) is not None:
        return (
            f"A strength class: state it in the column base.strength.class, or write {found[1]} MPa, the strength of"
            " cylinders that it begins with."
        )
    for top, bottom in _FRACTION.findall(plain):
        if int(top) >= int(bottom) or int(bottom) not in _PARTS:
            return (
                f"{top}/{bottom} may be two numbers rather than a fraction: write the one that is meant as a decimal"
                " number, and a list with ; between its places."
            )
    if KINDS[kind].feet_inches:
        own = _INCHES.fullmatch(plain.casefold())
        if own is not None and _grouped(own["inches"]):
            whole = own[0].replace("'", "")
            return f"The mark may separate thousands: write {whole}, or feet and inches with both marks, as 5'-6\"."
        if own is not None and "/" not in own["inches"] and float(own["inches"]) >= 12:
            return "Inches behind feet are below 12: write feet and inches with both marks, as 5'-6\"."
    return ""


def two_sizes(text: str) -> str:
    """Why a size is not taken for a fraction; empty where its fraction is one of a size, or there is none."""
    found = _SIZE.fullmatch(plain_text(text).casefold())
    if found is None or is_of_a_size(found["top"], found["bottom"]):
        return ""
    size = f"{found['top']}/{found['bottom']}"
    return f"{size} may be two sizes rather than a fraction: write the one that is meant, or a row for each."


def _grouped(inches: str) -> bool:
    """Whether figures behind a mark are three, as behind a sign that separates thousands."""
    return len(inches) == 3 and inches.isdigit()


def may_be_thousands(text: str) -> str:
    """Why a point before three figures is in doubt, where nothing says which sign is the decimal one; or empty."""
    found = _THREE_DECIMALS.search(text)
    if found is None:
        return ""
    return (
        f"The point in {found[0]} may separate thousands, for the file may have the comma as the decimal sign:"
        " semicolons stand between its cells, or tabs and in some cell metric units, a comma in a number, or pounds to"
        " the thousandth. State decimal=. or decimal=, (of the command, --decimal), or write"
        f" {found[0].replace('.', '')}, if thousands are meant."
    )


@lru_cache(_KEPT)
def doubt(text: str, kind: str) -> str:
    """What is in the way of a text that is no quantity, and what to write; empty where its form is wrong."""
    plain = plain_text(text)
    for look in _LOOKS:
        found = look(plain, kind)
        if found:
            return found
    return ""


def _matching(pattern: re.Pattern[str], advice: str) -> _Look:
    """A look for texts that are of a pattern as a whole; the advice may name its groups."""

    def look(plain: str, _: str) -> str:
        found = pattern.fullmatch(plain)
        return "" if found is None else advice.format(**found.groupdict())

    return look


def power_of_ten(text: str) -> str:
    """What is in the way of a number with an exponent; empty where a text is none."""
    if _EXPONENT.fullmatch(text) is None:
        return ""
    return "A power of ten, as spreadsheets write in narrow columns; figures may be lost: write the number in full."


def _thousands(plain: str, _: str) -> str:
    found = _THOUSANDS.fullmatch(plain)
    if found is None:
        return ""
    whole = re.sub(r"[^0-9+-]", "", found[1])
    return f"A sign that separates thousands: write {whole}{found[2]} without it."


def _feet_or_range(plain: str, kind: str) -> str:
    found = _FEET_OR_RANGE.fullmatch(plain)
    if found is None or not KINDS[kind].feet_inches:
        return ""
    return f"This may be feet and inches, or from one to the other: write {found['feet']}'-{found['inches']}\", or one."


def _behind(plain: str, kind: str) -> str:
    found = _BEHIND.fullmatch(plain)
    if found is None or unit_text(found["unit"], kind) not in KINDS[kind].units:
        return ""
    return (
        f"Behind {found['before']} stands more: write one number with its unit alone, that of this point, and the rest"
        " in a column of notes."
    )


_LOOKS: tuple[_Look, ...] = (
    _matching(_UNKNOWN, "This is no number: write the value, or leave the cell empty where the defaults give it."),
    _matching(re.compile(r"=.*"), "A formula: write its value."),
    _matching(
        re.compile(r"#+|#(?:n/a|ref!|value!|div/0!|name\?|num!|null!|spill!)", re.IGNORECASE),
        "A spreadsheet has no value here, or a column too narrow to show it: mend it there and save anew.",
    ),
    _matching(
        re.compile(r"\(.*\)"),
        "Brackets around a number may mean that it is below zero: write it without, with its sign.",
    ),
    lambda plain, _: power_of_ten(plain),
    _thousands,
    _matching(
        _ABOUT, "This says about: write one number, the one that is on the safe side where it is not known better."
    ),
    _matching(_LIMIT, "This is a limit: write the number that is to be checked, without more words or signs."),
    _feet_or_range,
    _matching(_KILO, "k may mean kip, ksi or thousand: write {number} with its unit, or the number in full."),
    _behind,
    _matching(_TWO, "These may be two numbers: write the one that is meant; a list has ; between its places."),
)
