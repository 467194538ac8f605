"""A printed page as HTML, on the paper of those who read its units: A4 with SI units, else Letter."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from hangpoint.report.printable import on_page

Paper = Literal["a4", "letter"]
STANDARDS = {"asce7_16": "ASCE 7-16", "asce7_22": "ASCE 7-22", "en1990": "EN 1990:2002, (6.10)"}
"""Editions of the load standard as a page names them, by their words in a request."""

_STYLE = """
@media screen { body { padding: 0 10pt; } }
dl.project { display: flex; gap: 0; margin: 0 0 4pt; border: 0.75pt solid #111; }
dl.project div { flex: 1 1 auto; min-width: 64pt; padding: 1pt 5pt 2pt; border: 0; border-right: 0.5pt solid #777; }
dl.project div:last-child { border-right: 0; }
dl.project dt { font-size: 7.5pt; color: #333; }
dl.project dd { margin: 0; font-size: 9.5pt; font-weight: bold; text-align: left; overflow-wrap: anywhere; }
"""


STAMP_STYLE = """
.stamp { height: 1in; border: 0.75pt solid #111; padding: 3pt; margin-top: 8pt; font-size: 8.5pt; }
"""
INVENTED = "invented"
"""The data of a product that is not real, and the class of the pages that show any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Article:
    """What begins a page: ``body`` is what stands on its pages, ``foot`` what stands at the foot of each of them.

    ``kind`` is the class of its style, ``margin`` that of its pages where they have one of their own. Links go to its
    ``place``.
    """

    body: str
    foot: str
    invented: bool = False
    kind: str = ""
    margin: str = ""
    place: str = ""

    @property
    def footer(self) -> str:
        """The whole foot."""
        return f"{self.foot} · invented data" if self.invented else self.foot


def articles_page(*, title: str, style: str, paper: Paper, articles: Sequence[Article]) -> str:
    """A whole document of articles."""
    return printed_page(
        title=title,
        style=style + "".join(_named_pages(articles)),
        paper=paper,
        body="".join(map(_article, articles)),
    )


def _article(own: Article) -> str:
    kinds = " ".join(filter(None, (own.kind, INVENTED * own.invented)))
    stated = {"class": kinds, "id": own.place, "data-foot": own.footer}
    attributes = "".join(f' {name}="{on_page(text)}"' for name, text in stated.items() if text)
    return f"<article{attributes}>\n{own.body}</article>\n"


def _named_pages(articles: Sequence[Article]) -> Iterator[str]:
    """The foot of each article on all its pages."""
    for number, own in enumerate(articles, 1):
        margin = f"margin: {own.margin}; " if own.margin else ""
        foot = f"@bottom-left {{ content: {_quoted(own.footer)}; font: 8pt Arial, sans-serif; }}"
        yield f"article:nth-of-type({number}) {{ page: sheet-{number}; }}\n"
        yield f"@page sheet-{number} {{ {margin}{foot} }}\n"


def _quoted(text: str) -> str:
    """A text of a user as a string of a style sheet: every letter but plain ones by its number."""
    return '"' + "".join(each if each.isascii() and each.isalnum() else f"\\{ord(each):06x}" for each in text) + '"'


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


def head(answer: Mapping[str, Any], lead: str, title: str) -> str:
    """The header of a page that is of many points: ``lead`` says what it is, ``title`` what it is of."""
    combined = str(answer["combinations"]).replace("_", " ")
    return (
        f"<header>{project_block(answer)}<p>{on_page(lead)}</p><h1>{on_page(title)}</h1>"
        f"<p>Checked by {on_page(answer['design_code']['edition'])} · combinations: {combined},"
        f" {STANDARDS[answer['load_standard']]} · catalogue {on_page(answer['catalogue']['version'])}"
        f" · hangpoint {on_page(answer['engine_version'])}</p></header>\n"
    )


def listed(title: str, shown: Iterable[str], *, ordered: bool = False) -> str:
    """A heading with a list, if it has anything; ``shown`` are texts as they stand on the page."""
    tag = "ol" if ordered else "ul"
    lines = "".join(f"<li>{each}</li>" for each in shown)
    return f"<section><h2>{on_page(title)}</h2><{tag}>{lines}</{tag}></section>" if lines else ""


def signatures(who: Sequence[str] = ("Computed by, date", "Checked by, date", "Engineer, seal, date")) -> str:
    """Room for those who sign a page."""
    return f'<div class="sign">{"".join(f"<div>{each}</div>" for each in who)}</div>'


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
