"""The text of a cell as its number format shows it, but with all of its figures (ECMA-376 part 1, 18.8.31).

What a format writes beside a number is read, because a person reads it: 96 under the format ``0" in"`` is 96 in.
"""

import datetime
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from operator import eq, ge, gt, le, lt, ne

GENERAL = "General"
_FIGURES = 15
"""Significant figures that a spreadsheet keeps."""
_TOKEN = re.compile(
    r"\"(?P<quoted>[^\"]*)\"?|\\(?P<escaped>.)|[_*].|\[(?P<bracket>[^\]]*)\]|(?P<figures>General|[0#?.,]+|E[+-](?=[0#?]))"
    r"|(?P<other>.)",
    re.DOTALL | re.IGNORECASE,
)
_SECTION = re.compile(r"(?:\"[^\"]*\"?|\\.|\[[^\]]*\]|[^;\"\\\[])+|(?<=;)(?=;|$)", re.DOTALL)
_CONDITION = re.compile(r"(<=|>=|<>|<|>|=)(-?[0-9.]+)")
_COMPARED: Mapping[str, Callable[[Decimal, Decimal], bool]] = {"<": lt, ">": gt, "<=": le, ">=": ge, "=": eq, "<>": ne}
_TEXT_SECTION = 3
_WORD = re.compile(r"[^\W\d_]")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Section:
    """One section of a format: texts before and behind the number, the power of ten between it and what is shown.

    ``condition`` says which numbers it is for, None where its place does. ``figures`` is False of a text alone.
    """

    before: str
    behind: str
    power: int
    condition: tuple[str, Decimal] | None
    figures: bool


def shown(value: object, number_format: str, *, comma: bool) -> str:
    """What a cell says.

    Args:
        value: as the library reads it: None, a text, a number, a truth, a date or time.
        number_format: of the cell.
        comma: the comma is the decimal sign.
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return _number(Decimal(f"{value:.{_FIGURES}g}"), number_format, comma=comma)
    if isinstance(value, datetime.datetime):
        midnight = value.time() == datetime.time()
        return value.date().isoformat() if midnight else value.isoformat(" ", timespec="seconds")
    return " ".join(str(value).split())


def _number(value: Decimal, number_format: str, *, comma: bool) -> str:
    section, unsigned = _section_of(value, _sections(number_format))
    size = abs(value) if unsigned else value
    if section is None or not (section.figures or _WORD.search(section.before)):
        return _plain(value, comma=comma)
    if not section.figures:
        return section.before.strip()
    before = section.before if value else section.before.replace("-", "")  # a dash in place of a zero
    text = _plain(abs(size).scaleb(section.power), comma=comma)
    return f"{'-' if size < 0 else ''}{before}{text}{section.behind}".strip()


def _plain(value: Decimal, *, comma: bool) -> str:
    text = f"{value:f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text == "-0" else text
    return text.replace(".", ",") if comma else text


def _section_of(value: Decimal, sections: Sequence[_Section]) -> tuple[_Section | None, bool]:
    """The section for a number, and whether it writes the number without its sign."""
    conditional = [each for each in sections if each.condition is not None]
    if conditional:
        for each in conditional:
            if each.condition is not None and _COMPARED[each.condition[0]](value, each.condition[1]):
                return each, False
        rest = [each for each in sections if each.condition is None]
        return (rest[0] if rest else None), False
    if not sections:
        return None, False
    if value < 0 and len(sections) > 1:
        return sections[1], True
    return sections[2 if value == 0 and len(sections) > 2 else 0], False


@lru_cache(1024)
def _sections(number_format: str) -> tuple[_Section, ...]:
    """The sections of a format for numbers; the fourth is for texts."""
    return tuple(map(_section, _SECTION.findall(number_format)[:_TEXT_SECTION]))


def _section(text: str) -> _Section:
    pieces: list[tuple[bool, str]] = []
    power, condition = 0, None
    for token in _TOKEN.finditer(text):
        if token["figures"] is not None:
            pieces.append((True, token["figures"]))
        elif token["bracket"] is not None:
            own = _CONDITION.fullmatch(token["bracket"])
            condition = (own[1], Decimal(own[2])) if own else condition
            if token["bracket"].startswith("$"):
                pieces.append((False, token["bracket"][1:].partition("-")[0]))
        else:
            pieces.append((False, token["quoted"] or token["escaped"] or token["other"] or ""))
            power += 2 * (token["other"] == "%")
    places = [place for place, (figures, _) in enumerate(pieces) if figures]
    if not places:
        return _Section(before=_joined(pieces), behind="", power=0, condition=condition, figures=False)
    last = pieces[places[-1]][1]
    power -= 3 * (len(last) - len(last.rstrip(",")))
    return _Section(
        before=_joined(pieces[: places[0]]),
        behind=_joined(pieces[places[-1] + 1 :]),
        power=power,
        condition=condition,
        figures=True,
    )


def _joined(pieces: Sequence[tuple[bool, str]]) -> str:
    return "".join(text for _, text in pieces)
