"""Texts of a user on a terminal and on a page, in which nothing is obeyed; numbers in sentences."""

from decimal import Decimal
from html import escape


def printable(text: object) -> str:
    """A text without anything that a terminal would obey."""
    return "".join(letter if letter.isprintable() else f"\\x{ord(letter):02x}" for letter in str(text))


def on_page(text: object) -> str:
    """A text as text of HTML."""
    return escape(printable(text))


def plain_number(value: float, figures: int) -> str:
    """A number to so many figures, and all that stand before its point; never with a power of ten."""
    return f"{value:.0f}" if abs(value) >= 10**figures else f"{Decimal(f'{value:.{figures}g}'):f}"
