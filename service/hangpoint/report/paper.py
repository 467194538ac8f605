"""A printed page as HTML, on the paper of those who read its units: A4 with SI units, else Letter."""

from collections.abc import Mapping
from typing import Any, Literal

from hangpoint.report.printable import on_page

Paper = Literal["a4", "letter"]
STANDARDS = {"asce7_16": "ASCE 7-16", "asce7_22": "ASCE 7-22"}
"""Editions of the load standard as a page names them, by their words in a request."""

_STYLE = """
@media screen { body { padding: 0 10pt; } }
dl.project { display: flex; gap: 0; margin: 0 0 4pt; border: 0.75pt solid #111; }
dl.project div { flex: 1 1 auto; min-width: 64pt; padding: 1pt 5pt 2pt; border: 0; border-right: 0.5pt solid #777; }
dl.project div:last-child { border-right: 0; }
dl.project dt { font-size: 7.5pt; color: #333; }
dl.project dd { margin: 0; font-size: 9.5pt; font-weight: bold; text-align: left; overflow-wrap: anywhere; }
"""


_OF_PROJECT = {
    "name": "Project",
    "number": "Number",
    "revision": "Revision",
    "date": "Date",
    "prepared_by": "Prepared by",
}
"""What a request may state of its project, and how that is headed."""


def project_block(answer: Mapping[str, Any]) -> str:
    """The project of an answer, as it was stated; empty where nothing was."""
    project = answer.get("project", {})
    facts = "".join(
        f"<div><dt>{title}</dt><dd>{on_page(project[name])}</dd></div>"
        for name, title in _OF_PROJECT.items()
        if name in project
    )
    return f'<dl class="project">{facts}</dl>' if facts else ""


def paper_of(units: Mapping[str, Any]) -> Paper:
    """The paper that goes with the units of an answer."""
    return "a4" if units["length"] == "mm" else "letter"


def printed_page(*, title: str, style: str, paper: Paper, body: str) -> str:
    """A whole document; its class names the paper for those who don't read styles."""
    return (
        f'<!DOCTYPE html>\n<html lang="en" class="{paper}">\n<head>\n<meta charset="utf-8">\n'
        f'<title>{on_page(title)}</title>\n<meta name="viewport" content="width=device-width">\n'
        f"<style>\n@page {{ size: {paper} portrait; }}{_STYLE}{style}</style>\n</head>\n"
        f"<body>\n{body}</body>\n</html>\n"
    )
