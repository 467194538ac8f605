"""Texts for a terminal that its pages share: printable, with a style, as lines of lists."""

from rich.padding import Padding
from rich.text import Text

from hangpoint.report.printable import printable


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


def bullet(text: str) -> Padding:
    """A line of a list."""
    return Padding(styled(f"- {text}"), (0, 0, 0, 2))
