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

_FIGURES = 15
"""Significant figures that a spreadsheet keeps."""
_TOKEN = re.compile(
    r"\"(?P<quoted>[^\"]*)\"|\\(?P<escaped>.)|[_*].|\[(?P<bracket>[^\]]*)\]"
    r"|(?P<figures>General|[0#?.,]+(?:/(?:[0-9]+|[#?]+))?|E[+-](?=[0#?]))|(?P<text>@)|(?P<other>.)",
    re.DOTALL | re.IGNORECASE,
)
_SECTION = re.compile(r"(?:\"[^\"]*\"|\\.|\[[^\]]*\]|[^;])+|(?<=;)(?=;|$)|^(?=;)", re.DOTALL)
_CONDITION = re.compile(r"(<=|>=|<>|<|>|=)(-?[0-9.]+)")
_COMPARED: Mapping[str, Callable[[Decimal, Decimal], bool]] = {"<": lt, ">": gt, "<=": le, ">=": ge, "=": eq, "<>": ne}
_MOST_SECTIONS = 4
_ZERO = 2
_THOUSAND = re.compile(r"\.[0-9]{3}$")
_WORD = re.compile(r"[^\W\d_]")
_ESCAPED = re.compile(r"_x000[9AD]_", re.IGNORECASE)
"""Ends of lines and tabs as some programs write them into texts (22.9.2.19)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Section:
    """One section of a format: texts before and behind the value, the power of ten between it and what is shown.

    ``condition`` says which numbers it is for, None where its place does. ``figures`` are the placeholders of digits
    with the texts between them, none in a text alone; ``text`` says that it is for texts.
    """

    before: str
    behind: str
    power: int
    condition: tuple[str, Decimal] | None
    figures: tuple[str, ...]
    text: bool

    @property
    def empty(self) -> bool:
        """It shows nothing."""
        return not (self.figures or self.text or self.before.strip())


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
    before, behind = _around_text(_sections(number_format))
    return " ".join(f"{before}{_ESCAPED.sub(' ', str(value))}{behind}".split())


def unseen(value: object, number_format: str) -> bool:
    """Whether the format of a cell shows nothing of its value, as ``;;;`` does."""
    sections = _sections(number_format)
    if isinstance(value, bool):
        return False
    if isinstance(value, int | float):
        section, _ = _section_of(Decimal(value), _of_numbers(sections))
        return section is not None and section.empty
    return isinstance(value, str) and len(sections) == _MOST_SECTIONS and sections[-1].empty


def _around_text(sections: Sequence[_Section]) -> tuple[str, str]:
    """What a format writes before and behind a text."""
    last = sections[-1] if sections else None
    return (last.before, last.behind) if last is not None and last.text else ("", "")


def _number(value: Decimal, number_format: str, *, comma: bool) -> str:
    sections = _of_numbers(_sections(number_format))
    section, unsigned = _section_of(value, sections)
    told = f"{_plain(value, comma=comma)} ({number_format})"
    if section is None:
        return told if sections else _plain(value, comma=comma)
    if not (section.figures or _WORD.search(section.before)):
        return _plain(value, comma=comma)
    if not section.figures:
        return section.before.strip()
    own = _figures(abs(value).scaleb(section.power), section.figures, comma=comma)
    if own is None:
        return told
    dash = not value and section.before.strip() == "-"
    sign = "-" if value < 0 and not unsigned else ""
    return f"{sign}{'' if dash else section.before}{own}{section.behind}".strip()


def _figures(size: Decimal, figures: Sequence[str], *, comma: bool) -> str | None:
    """The digits of a number in the places of a section, or None where programs differ in what they show."""
    places = figures[::2]
    if len(places) == 1:
        if ",." in places[0]:
            return None
        own = _plain(size, comma=comma)
        return own.zfill(places[0].count("0")) if not places[0].strip("0#,") else own
    if any(place.strip("0#?") for place in places) or size != size.to_integral_value():
        return None
    digits = f"{size:f}".partition(".")[0].zfill(sum(place.count("0") for place in places))
    made: list[str] = []
    for place, between in zip(reversed(places), ("", *reversed(figures[1::2])), strict=True):
        first = len(made) == len(places) - 1
        cut = 0 if first else max(len(digits) - len(place), 0)
        made.append(digits[cut:] + between)
        digits = digits[:cut]
    return "".join(reversed(made))


def _plain(value: Decimal, *, comma: bool) -> str:
    text = f"{value:f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text == "-0" else text
    if not comma:
        return text
    # three figures behind a comma might be thousands to whoever reads a text; of a number it is known
    return f"{text.replace('.', ',')}{'0' if _THOUSAND.search(text) else ''}"


def _section_of(value: Decimal, sections: Sequence[_Section]) -> tuple[_Section | None, bool]:
    """The section for a number, and whether it says itself that the number is negative.

    There is none where no section is for it, or where programs differ in which one is.
    """
    conditions = [each.condition for each in sections]
    if any(conditions):
        if not conditions[0]:
            return None, False
        if len(sections) > _ZERO and not conditions[1]:
            conditions[1] = ("<", Decimal(0))
        for each, condition in zip(sections, conditions, strict=True):
            if condition is None or _COMPARED[condition[0]](value, condition[1]):
                return each, False
        return None, False
    if not sections:
        return None, False
    if value < 0 and len(sections) > 1:
        first, own = sections[:2]
        texts = own.before + own.behind
        return own, bool(texts.strip()) and texts != first.before + first.behind  # a colour alone is no sign
    return sections[_ZERO if value == 0 and len(sections) > _ZERO else 0], False


def _of_numbers(sections: Sequence[_Section]) -> Sequence[_Section]:
    """The sections for numbers; the fourth is for texts, and so is the last one with an at sign."""
    own = sections[: _MOST_SECTIONS - 1]
    return own[:-1] if own and own[-1].text else own


@lru_cache(1024)
def _sections(number_format: str) -> tuple[_Section, ...]:
    return tuple(map(_section, _SECTION.findall(number_format)[:_MOST_SECTIONS]))


def _section(text: str) -> _Section:
    pieces: list[tuple[bool, str]] = []
    power, condition, of_text = 0, None, False
    for token in _TOKEN.finditer(text):
        if token["figures"] is not None:
            pieces.append((True, token["figures"]))
        elif token["text"] is not None:
            of_text = True
            pieces.append((True, ""))
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
        return _Section(before=_joined(pieces), behind="", power=0, condition=condition, figures=(), text=False)
    last = pieces[places[-1]][1]
    return _Section(
        before=_joined(pieces[: places[0]]),
        behind=_joined(pieces[places[-1] + 1 :]),
        power=power - 3 * (len(last) - len(last.rstrip(","))),
        condition=condition,
        figures=() if of_text else _figures_of(pieces[places[0] : places[-1] + 1]),
        text=of_text,
    )


def _figures_of(pieces: Sequence[tuple[bool, str]]) -> tuple[str, ...]:
    """Placeholders and the texts between them in turn; a blank between digits or before a fraction is none."""
    made, between = [pieces[0][1]], ""
    for figures, text in pieces[1:]:
        if not figures:
            between += text
            continue
        if between.strip():
            made += [between, text]
        else:
            made[-1] += text
        between = ""
    return tuple(made)


def _joined(pieces: Sequence[tuple[bool, str]]) -> str:
    return "".join(text for _, text in pieces)
