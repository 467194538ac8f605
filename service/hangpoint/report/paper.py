"""A printed page as HTML, on the paper of those who read its units: A4 with SI units, else Letter."""

from collections.abc import Mapping
from typing import Any, Literal

from hangpoint.report.printable import on_page

Paper = Literal["a4", "letter"]


def paper_of(units: Mapping[str, Any]) -> Paper:
    """The paper that goes with the units of an answer."""
    return "a4" if units["length"] == "mm" else "letter"


def printed_page(*, title: str, style: str, paper: Paper, body: str) -> str:
    """A whole document; its class names the paper for those who don't read styles."""
    return (
        f'<!DOCTYPE html>\n<html lang="en" class="{paper}">\n<head>\n<meta charset="utf-8">\n'
        f'<title>{on_page(title)}</title>\n<meta name="viewport" content="width=device-width">\n'
        f"<style>\n@page {{ size: {paper} portrait; }}{style}</style>\n</head>\n<body>\n{body}</body>\n</html>\n"
    )
