"""Texts of a user on a terminal and on a page, in which nothing is obeyed; numbers in sentences."""

from decimal import Decimal
from html import escape

_EXACT = 16
"""Figures that a number has at most."""


def printable(text: object) -> str:
    """A text without anything that a terminal would obey."""
    return "".join(letter if letter.isprintable() else f"\\x{ord(letter):02x}" for letter in str(text))


def on_page(text: object) -> str:
    """A text as text of HTML."""
    return escape(printable(text))


def plain_number(value: float, figures: int) -> str:
    """A number to so many figures, and all that stand before its point; never with a power of ten."""
    return f"{value:.0f}" if abs(value) >= 10**figures else f"{Decimal(f'{value:.{figures}g}'):f}"


def told_apart(value: float, limit: float, figures: int) -> tuple[str, str]:
    """A value and the limit that it is held against, to as many figures, ``figures`` at least, as tell them apart."""
    pairs = [tuple(plain_number(each, own) for each in (value, limit)) for own in range(figures, _EXACT)]
    own, other = next((pair for pair in pairs if pair[0] != pair[1]), pairs[0])
    return own, other
