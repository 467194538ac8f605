"""A printed page, as `report` writes it in HTML, as a tree of what stands on it."""

import re
from collections.abc import Iterator, Mapping, Sequence
from html import escape
from html.parser import HTMLParser
from typing import Any, NamedTuple

_SPACE = re.compile(r"[ \t\r\n]+")
_VOID = {"meta", "col"}
_SVG = '<svg xmlns="http://www.w3.org/2000/svg" '
"""A drawing that stands by itself names its language."""
_OF_BLOCKS = {"html", "head", "body", "article", "section", "header", "table", "thead", "tbody", "tr", "dl", "ul", "ol"}
"""What holds no text of its own: white space in it is none."""

Node = dict[str, Any]
"""An element: its ``tag``, its ``kind`` (its class, or the form of a sign) and what is ``inside``; where it states
them the ``place`` that links go to, the place that it links ``to``, and the ``foot`` of its pages.

That is a list of texts and elements, or one text alone: the typesetter keeps what it has made of each element, so that
fewer cost less.
"""


class Page(NamedTuple):
    """The title of a page, its paper (`paper.Paper`) and what stands on it."""

    title: str
    paper: str
    body: list[Any]


def read_page(html: str) -> Page:
    """The tree of a page; a drawing is one text, its SVG."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    (whole,) = reader.found
    head, body = whole["inside"]
    (title,) = [each["inside"] for each in head["inside"] if each["tag"] == "title"]
    return Page(title=title, paper=whole["kind"], body=body["inside"])


def _more(stated: Mapping[str, str | None]) -> Iterator[tuple[str, str]]:
    for attribute, name in (("id", "place"), ("href", "to"), ("data-foot", "foot")):
        text = stated.get(attribute)
        if text:
            yield name, text if name == "foot" else text.removeprefix("#")


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[Any] = []
        self._above: list[list[Any]] = []
        self._drawing: list[str] = []

    def handle_decl(self, decl: str) -> None:
        """The page is HTML, as all are."""

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        if tag == "svg" or self._drawing:
            self._draw()
        elif tag not in _VOID:
            stated = dict(attrs)
            node: Node = {"tag": tag, "kind": stated.get("class") or stated.get("form") or "", "inside": []}
            node |= dict(_more(stated))
            self.found.append(node)
            self._above.append(self.found)
            self.found = node["inside"]

    def handle_startendtag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        self._draw()

    def handle_endtag(self, tag: str) -> None:
        if self._drawing:
            self._drawing.append(f"</{tag}>")
            if tag == "svg":
                drawing = "".join(self._drawing).replace("<svg ", _SVG, 1)
                self.found.append({"tag": "svg", "kind": "", "inside": drawing})
                self._drawing = []
            return
        self.found = self._above.pop()
        match self.found[-1]["inside"]:
            case []:
                self.found[-1]["inside"] = ""
            case [str(text)]:
                self.found[-1]["inside"] = text
            case _:
                pass

    def handle_data(self, data: str) -> None:
        if self._drawing:
            self._drawing.append(escape(data))
            return
        text = _SPACE.sub(" ", data)
        if text != " " or (self._above and self._above[-1][-1]["tag"] not in _OF_BLOCKS):
            self.found.append(text)

    def _draw(self) -> None:
        self._drawing.append(self.get_starttag_text() or "")
