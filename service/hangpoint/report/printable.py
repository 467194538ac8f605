"""Texts of a user on a terminal and on a page: nothing in them is obeyed."""

from html import escape


def printable(text: object) -> str:
    """A text without anything that a terminal would obey."""
    return "".join(letter if letter.isprintable() else f"\\x{ord(letter):02x}" for letter in str(text))


def on_page(text: object) -> str:
    """A text as text of HTML."""
    return escape(printable(text))
