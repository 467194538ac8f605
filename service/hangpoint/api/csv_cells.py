"""What a cell of a CSV becomes: quantities, numbers, words of closed lists and sizes, as the trade writes them.

What may mean two things is refused, and said how it is to be written.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, cast

from hangpoint.api.csv_doubts import doubt, may_be_thousands, misread, power_of_ten, two_sizes
from hangpoint.api.csv_nothing import BARE, DASHES
from hangpoint.pack.trade_texts import in_grammar, is_date, quantity_text, rod_text, size_text, word_key
from hangpoint.units import LENGTH, PRINTED, QuantityKind, System

_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_BARE = re.compile(r"[+-]?(?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*")
_PER_CENT = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,6})?) ?%")
_WITH_POINT = re.compile(r"(?<![0-9,.])[1-9][0-9]{0,2}(?:,[0-9]{3})+\.[0-9]+(?![0-9,.])")
"""A comma that can only separate thousands."""
_THOUSANDS = re.compile(r"(?<![0-9,.])[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9,.])")
"""A number whose commas may separate thousands."""
_POINT = re.compile(r"\.[0-9]|[0-9]\.")
"""A point in a number, and not behind a unit."""
_WHOLE = re.compile(r"[0-9]{1,9}(?:\.0+)?")
"""A whole number, which spreadsheets may write with a point."""
_AT_LEAST = re.compile(r"(?:>=?|≥|min\.? )\s*(?P<behind>.+)|(?P<before>.+?)\s*(?:\+| min\.?)", re.IGNORECASE)
_WORDS = {"true": True, "yes": True, "1": True, "false": False, "no": False, "0": False}
_LETTERS = {"y": True, "n": False}
_ZERO = re.compile(r"0+(?:[.,]0*)?")
_DN = re.compile(r"dn ?(?P<of_dn>[0-9]+)|(?P<of_mm>[0-9]+) ?mm", re.IGNORECASE)
_INCHES_OF_DN: Mapping[str, str] = {
    "8": "1/4",
    "10": "3/8",
    "15": "1/2",
    "20": "3/4",
    "25": "1",
    "32": "1-1/4",
    "40": "1-1/2",
    "50": "2",
    "65": "2-1/2",
    "80": "3",
    "90": "3-1/2",
    "100": "4",
    "125": "5",
    "150": "6",
    "200": "8",
    "250": "10",
    "300": "12",
    "350": "14",
    "400": "16",
    "450": "18",
    "500": "20",
    "550": "22",
    "600": "24",
}
"""Nominal sizes of steel pipe in inches by their DN (ISO 6708, ASME B36.10M, from memory)."""
_COUNT = re.compile(r"[1-9][0-9]{0,2}(?:[,'’ ][0-9]{3})+")
_FEET: Mapping[System, float] = {"us": 1.0, "si": 3.0}
"""Feet of a length along a run without a unit, for a limit that is itself a round figure."""
_OF_TWO_KINDS = {"lightweight", "light", "lw", "lwc"}
_MAY_HOLD_GLYCOL = {
    *("chilledwater", "chw", "chws", "chwr", "heatingwater", "heatinghotwater", "hhw", "hhws", "hhwr"),
    *("hw", "hws", "hwr", "condenserwater", "cw", "cws", "cwr"),
}
"""Systems of water, by `word_key`; of some abbreviations more than one."""
_ABOVE = {
    *("ditto", "dito", "do.", "idem", "same", "as above", "same as above", "see above"),
    *('"', "''", "〃", "”", "″"),
}
"""Words and marks for the cell above."""
_OF_SIZES = (size_text, rod_text)
"""Readers of texts that may have a decimal sign."""


@dataclass(eq=False)
class CellError(ValueError):
    """A cell that can't be read, whatever the schema says of its text."""

    code: str
    detail: str
    allowed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What a cell holds: a quantity of a kind, or a plain type; one of them or a list.

    ``words`` are those of the closed list that a text is of, or that may stand for a quantity, by their small letters.
    ``share`` is a number from 0 to 1, which per cent may state. ``shared`` is a name that points have in common.
    ``zero``: 0 says that it isn't there.
    ``most`` is the largest length in ft that is taken without a unit, for more may be inches or millimetres.
    ``text`` says in words what it holds.
    """

    kind: QuantityKind | None = None
    plain: type = str
    listed: bool = False
    words: Mapping[str, str] = field(default_factory=dict[str, str])
    reader: Callable[[str], str] | None = None
    share: bool = False
    shared: bool = False
    zero: bool = False
    most: float | None = None
    text: str = ""

    def word(self, text: str) -> str | None:
        """The word of the closed list that a text is; None where it is none."""
        return self.words.get(text.casefold()) or self.words.get(word_key(text))

    def value(self, text: str, *, unit: str, system: System | None, comma: bool | None) -> Any:
        """The cell's text as it would stand in JSON; what can't be read stays text and fails by the schema.

        Args:
            text: the cell.
            unit: that of the column.
            system: that of the request, if it states one.
            comma: whether the comma is the decimal sign and not the point. None: nobody says, and the file is written
                as where it may be.

        Raises:
            CellError: an empty place in a list; a bare number where neither the column nor the request states a unit; a
                point in a number where the comma is the decimal sign, or a comma that may separate thousands, a comma
                where it isn't; neither yes nor no where one of them stands.
        """
        if self.listed:
            # Spans that lack the last one would be a shorter run; words lose nothing by a sign at their end.
            listed = text.removesuffix(";") if self.kind is None else text
            parts = [part.strip() for part in listed.split(";")]
            if not all(parts):
                raise CellError("empty-place", "A list has an empty place between its signs ;: fill it or take it out.")
            if self.kind is not None and "," in text and not comma:
                detail = "A comma in a list: write ; between its places, and numbers without separators."
                raise CellError("quantity", detail)
            return [self._one(part, unit, system, comma) for part in parts]
        return self._one(text, unit, system, comma)

    def _one(self, text: str, unit: str, system: System | None, comma: bool | None) -> Any:
        if self.words:
            word = self.word(text)
            if word is not None:
                return word
            self._refuse(text)
        if self.zero and text.casefold() in DASHES:
            raise CellError(
                "quantity", "This may mean that nothing is there or nothing known: write 0, or the thickness."
            )
        if self.zero and word_key(text) in BARE:
            return 0.0
        if (self.reader is not None or self.kind is not None) and is_date(text):
            raise CellError(
                "date",
                "A date, which spreadsheets make of a size: give the column the format text and write the size anew, as"
                " 3/8.",
            )
        if self.reader in _OF_SIZES and "," in text:
            text = _with_point(text) if comma else _without_comma(text)
        if self.reader is not None:
            return self._sized(self.reader(text))
        if self.kind is not None or self.plain is float:
            text = _with_point(text) if comma else _without_comma(text)
            if comma is None and (detail := may_be_thousands(text)):
                raise CellError("quantity", detail)
        if self.kind is not None:
            return self._quantity(text, unit, system)
        if self.plain is bool:
            known = {**_WORDS, **_LETTERS}.get(text.casefold())
            if known is None:
                raise CellError("unknown-option", "This is neither yes nor no.", tuple(_WORDS))
            return known
        if self.share and _NUMBER.fullmatch(text) and 1 < float(text) <= 100:
            own = f"{text} % or {float(text) / 100:.6g}"
            raise CellError("quantity", f"A share of the whole is at most 1: write {own}, if per cent are meant.")
        if self.plain is float and _NUMBER.fullmatch(text):
            return float(text)
        if self.share and (per_cent := _PER_CENT.fullmatch(text)) is not None:
            return float(Fraction(per_cent[1]) / 100)
        if self.shared and text.casefold() in _ABOVE:
            raise CellError("unknown-option", "This stands for the cell above: write out what stands there.")
        if self.plain is int and _COUNT.fullmatch(text):
            whole = re.sub("[^0-9]", "", text)
            raise CellError("quantity", f"A sign that separates thousands: write {whole} without it.")
        if self.plain is int and _WHOLE.fullmatch(text):
            return int(text.partition(".")[0])
        return text

    def _refuse(self, text: str) -> None:
        """What may mean two things."""
        if self.kind is not None and (text.casefold() in DASHES or _ZERO.fullmatch(text)):
            words = " or ".join(set(self.words.values()))
            raise CellError(
                "quantity", f"This may mean that nothing is there or nothing known: write {words}, or a size."
            )
        least = _AT_LEAST.fullmatch(text) if self.kind is not None else None
        if least is not None:
            raise CellError(
                "quantity",
                f"This says at least: write {least['behind'] or least['before']}, with which the check is on the safe"
                " side, or the distance as it is.",
            )
        if word_key(text) in _OF_TWO_KINDS and "sand_lightweight" in self.words:
            raise CellError(
                "unknown-option",
                "Lightweight concrete is of two kinds: say which.",
                ("sand_lightweight", "all_lightweight"),
            )
        if word_key(text) in _MAY_HOLD_GLYCOL and "ethylene_glycol_30" in self.words:
            raise CellError(
                "unknown-option",
                "This names the system, whose water may hold glycol: write water, or the glycol.",
                ("water", *(word for word in dict.fromkeys(self.words.values()) if "glycol" in word)),
            )

    def _sized(self, text: str) -> str:
        if self.reader is size_text and (found := _DN.fullmatch(text)):
            detail = "The tables have pipes by their nominal size in inches, none by DN or millimetres"
            inches = _INCHES_OF_DN.get(found["of_dn"] or found["of_mm"])
            own = f": DN {found['of_dn'] or found['of_mm']} is {inches} of steel pipe. Write the size of this pipe."
            raise CellError("unknown-option", f"{detail}." if inches is None else f"{detail}{own}")
        if self.reader in _OF_SIZES and (detail := two_sizes(text)):
            raise CellError("unknown-option", detail)
        return text

    def _quantity(self, text: str, unit: str, system: System | None) -> Any:
        kind = cast(QuantityKind, self.kind)
        bare = _NUMBER.fullmatch(text) is not None
        if not bare:
            text = self._as_the_grammar(text, kind)
            bare = _NUMBER.fullmatch(text) is not None
        if not bare and not _BARE.fullmatch(text):
            return text
        if unit:
            if detail := power_of_ten(text):
                raise CellError("quantity", detail)
            return f"{text} {unit}"
        if system is None:
            raise CellError(
                "missing",
                "A number without a unit: name it in the column's title or the cell, or state units=us or units=si;"
                " of the command, --units us or --units si.",
            )
        if bare:
            if self.most is not None and float(text) * _FEET[system] > self.most:
                own, other = PRINTED[system][kind.name], PRINTED[system][LENGTH.name]
                detail = f"Without a unit this would be {text} {own} here: write {text} {other} or {text} {own}."
                raise CellError("quantity", detail)
            return float(text)
        return f"{text} {PRINTED[system][kind.name]}"

    @staticmethod
    def _as_the_grammar(text: str, kind: QuantityKind) -> str:
        """A text that is more than a number, unless it may mean another one."""
        if detail := misread(text, kind.name):
            raise CellError("quantity", detail)
        made = quantity_text(text, kind.name)
        if not _BARE.fullmatch(made) and not in_grammar(made, kind.name) and (detail := doubt(text, kind.name)):
            raise CellError("quantity", detail)
        return made


def _with_point(text: str) -> str:
    """A number with the decimal comma as one with a point.

    A comma before three figures may separate thousands as well: 1,250 is refused, 0,125 and 1,25 are read.
    """
    if _POINT.search(text):
        raise CellError(
            "quantity", "A point in a number, where the comma is the decimal sign: write it without separators."
        )
    if (found := _THOUSANDS.search(text)) is not None:
        number = found[0]
        plain = number.replace(",", "")
        detail = f"The comma in {number} may separate thousands: write {plain} without separators"
        if number.count(",") == 1:
            detail += f", or {_not_three_decimals(number)} if it is the decimal sign"
        raise CellError("quantity", f"{detail}.")
    return text.replace(",", ".")


def _not_three_decimals(number: str) -> str:
    """The same decimal number, in a way that no number of thousands is written: 1,25 for 1,250, 1,2345 stays."""
    shorter = number.rstrip("0")
    return f"{number}0" if shorter == number else shorter.removesuffix(",")


def _without_comma(text: str) -> str:
    if "," in text:
        found = _THOUSANDS.search(text)
        found = found or _WITH_POINT.search(text)
        what = f": write {found[0].replace(',', '')} without separators" if found else ": write no separators"
        raise CellError(
            "quantity",
            f"A comma in a number{what}; where the comma is the decimal sign, state decimal=, (of the command,"
            " --decimal ,).",
        )
    return text
