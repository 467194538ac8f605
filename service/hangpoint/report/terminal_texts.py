"""Texts for a terminal that its pages share: printable, with a style, as lines of lists."""

from collections.abc import Sequence

from rich.padding import Padding
from rich.text import Text

from hangpoint.report.printable import printable

MOST_NAMED = 3
"""Points that a line names."""


def styled(text: object, style: str = "") -> Text:
    """A printable text with a style."""
    return Text(printable(text), style=style)


def more_text(count: int, file: str) -> str:
    """How many more there are than are listed, and which file has all."""
    return f"and {count} more: {file} has all"


def ratio(value: float) -> str:
    """A utilisation with three decimals; what is above 1 never reads as 1."""
    text = f"{value:.3f}"
    return f">{text}" if value > 1 and text == "1.000" else text


def counted(number: int, what: str) -> str:
    """A number of things in words."""
    return f"{number} {what}{'' if number == 1 else 's'}"


def once_for_all(rows: Sequence[tuple[Text, ...]], many: int) -> list[tuple[Text, ...]]:
    """Rows, the name first: what ``many`` of them or more have alike stands once, in the place of the first, with the
    names of all others below it."""
    said = [tuple(each.plain for each in row[1:]) for row in rows]
    alike: dict[tuple[str, ...], list[tuple[Text, ...]]] = {}
    for row, words in zip(rows, said, strict=True):
        alike.setdefault(words, []).append(row)
    made: list[tuple[Text, ...]] = []
    for row, words in zip(rows, said, strict=True):
        first, *others = alike[words]
        if len(others) + 1 < many:
            made.append(row)
        elif row is first:
            made.append(
                (*row, styled(f"The same at {len(others)} more: {', '.join(name.plain for name, *_ in others)}"))
            )
    return made


def bullet(text: str) -> Padding:
    """A line of a list."""
    return Padding(styled(f"- {text}"), (0, 0, 0, 2))
