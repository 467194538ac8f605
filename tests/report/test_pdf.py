"""Printed pages as PDF say what the pages say. The text of a PDF is read by `pypdf`, a reader of its own."""

import io
import json
import re
import unicodedata
from collections import Counter
from html import unescape
from pathlib import Path

import pypdf
import pytest
from fastapi.testclient import TestClient

from hangpoint.app import create_app
from hangpoint.report.paper import Article, Paper, articles_page
from hangpoint.report.paper import printed_page as written_page
from hangpoint.report.pdf.document import TypesettingError, pdf_of
from hangpoint.report.pdf.tree import read_page

EXAMPLES = Path(__file__).parents[2] / "examples" / "requests"
PATHS = {
    "anchor_group": "/v1/anchor-group",
    "neighbours": "/v1/hang-points",
    "masonry_si": "/v1/hang-points",
    "load_maps_two_levels": "/v1/load-maps",
    "submittals_level_2": "/v1/submittals",
    "installation_cards_of_a_check_si": "/v1/installation-cards",
}
A4 = (595.28, 841.89)
LETTER = (612.0, 792.0)
"""Points of 1/72 in: 210 by 297 mm (ISO 216), and 8-1/2 by 11 in."""


@pytest.fixture(scope="module")
def printed_page():
    """The printed page of an example."""
    with TestClient(create_app()) as client:

        def get(name):
            response = client.post(
                f"{PATHS[name]}?format=html", json=json.loads((EXAMPLES / f"{name}.json").read_bytes())
            )
            assert response.status_code == 200, response.text[:300]
            return response.text

        yield get


def page(body: str, title: str = "A page", paper: Paper = "letter") -> str:
    return written_page(title=title, style="\np {}\n", paper=paper, body=body)


def read(made: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(made))


def text_of(made: bytes) -> str:
    return "\n".join(sheet.extract_text() for sheet in read(made).pages)


def words_of_page(html: str) -> Counter[str]:
    """The words of a page outside of its formulas and drawings, by expressions instead of a parser."""
    body = re.sub(r"<(head|math|svg)\b.*?</\1>", " ", html, flags=re.DOTALL)
    return Counter(unescape(re.sub(r"<[^>]*>", " ", body)).split())


@pytest.mark.parametrize("name", PATHS)
def test_every_word_of_the_page_is_in_the_pdf(printed_page, name):
    html = printed_page(name)
    text = text_of(pdf_of(html))
    assert words_of_page(html).total() > 200
    missing = words_of_page(html) - Counter(re.split(r"[\s]+", text))
    squeezed = re.sub(r"\s+", "", text)
    assert {word for word in missing if word not in squeezed} == set()


def test_equal_pages_are_equal_bytes(printed_page):
    html = printed_page("anchor_group")
    assert pdf_of(html) == pdf_of(html)


def test_nothing_in_a_page_is_markup_of_the_typesetter():
    stated = '#panic(1) $x^2$ *strong* _e_ @ref [a] // no comment \\ #import "x" <label> `raw` = head'
    escaped = stated.replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")
    made = pdf_of(
        page(f'<article data-foot="{escaped}"><h1>{escaped}</h1><p>{escaped}</p><ul><li>{escaped}</li></ul></article>')
    )
    assert re.sub(r"\s+", "", text_of(made)).count(re.sub(r"\s+", "", stated)) == 4


def test_each_sheet_begins_a_page_and_pages_are_counted():
    both = "".join(f'<article data-foot="{name}"><h1>{name}</h1></article>\n' for name in ("One", "Two"))
    made = pdf_of(page(both, title="Two sheets"))
    assert [sheet.extract_text().split() for sheet in read(made).pages] == [
        ["One", "One", "page", "1", "of", "2"],
        ["Two", "Two", "page", "2", "of", "2"],
    ]
    assert read(made).metadata.title == "Two sheets"


def test_every_page_of_a_sheet_names_it():
    long = "<p>line</p>" * 100
    made = pdf_of(
        page(f'<article data-foot="P-1"><header><h1>P</h1></header>{long}</article><article><p>No name</p></article>')
    )
    feet = [sheet.extract_text().split("\n")[-1] for sheet in read(made).pages]
    assert len(feet) > 2
    assert all(foot.startswith("P-1") for foot in feet[:-1])
    assert "P-1" not in feet[-1]


def pages_with(made: bytes, *words: str) -> list[int]:
    """The first page that each word is on."""
    texts = [sheet.extract_text() for sheet in read(made).pages]
    return [next(at for at, text in enumerate(texts) if word in text) for word in words]


@pytest.mark.parametrize("lines", range(52, 62))
@pytest.mark.parametrize("kind", ["end", "whole"])
def test_what_belongs_together_is_on_one_page(kind, lines):
    """Wherever it begins: cautions, signatures and digest; the facts of a demand."""
    last = '<ul><li>One</li></ul><div class="sign"><div>Two</div></div><p>Three</p>'
    made = pdf_of(page(f'<article>{"<p>line</p>" * lines}<section class="{kind}">{last}</section></article>'))
    assert len(set(pages_with(made, "One", "Two", "Three"))) == 1


@pytest.mark.parametrize("lines", range(52, 62))
def test_no_heading_stands_alone_at_the_foot_of_a_page(lines):
    parts = '<h2>Above</h2><p class="small lead">Beside</p></section><section><h3>Below</h3>'
    rows = "<table><tr><td>Row</td></tr></table>"
    made = pdf_of(page(f"<article>{'<p>line</p>' * lines}<section>{parts}{rows}</section></article>"))
    assert len(set(pages_with(made, "Above", "Beside", "Below", "Row"))) == 1


def test_titles_of_a_table_stand_on_each_of_its_pages():
    rows = "<tr><td>row</td></tr>" * 120
    made = pdf_of(
        page(f"<article><table><thead><tr><th>Title</th></tr></thead><tbody>{rows}</tbody></table></article>")
    )
    assert all("Title" in sheet.extract_text() for sheet in read(made).pages)
    assert len(read(made).pages) > 1


def test_every_page_of_invented_data_says_so():
    long = "<p>line</p>" * 100
    articles = [
        Article(body=f"<h1>P-1</h1>{long}", foot="P-1", invented=True),
        Article(body="<h1>P-2</h1>", foot="P-2"),
    ]
    html = articles_page(title="Both", style="", paper="letter", articles=articles)
    feet = [sheet.extract_text().split("\n")[-1] for sheet in read(pdf_of(html)).pages]
    assert len(feet) > 2
    assert [("invented data" in foot) for foot in feet] == [True] * (len(feet) - 1) + [False]


def test_a_link_to_a_page_is_its_number():
    """Wherever the place is, before or behind the link: with 100 lines an article has two pages."""
    names, long = ("one", "two", "three"), "<p>line</p>" * 100
    rows = "".join(
        f'<tr><td><a href="#{name}">{name}</a></td><td><a class="page" href="#{name}"></a></td></tr>' for name in names
    )
    body = f"<article><table>{rows}</table></article>"
    body += "".join(f'<article id="{name}"><p>at {name}</p>{long}</article>' for name in names)
    made = pdf_of(page(body))
    first = read(made).pages[0].extract_text().split()
    stated = {name: int(first[first.index(name) + 1]) - 1 for name in names}
    assert list(stated.values()) == pages_with(made, *(f"at {name}" for name in stated))
    assert list(stated.values()) == [1, 3, 5]


def test_a_project_stands_above_the_name_of_the_sheet():
    facts = "".join(
        f"<div><dt>{name}</dt><dd>{value}</dd></div>" for name, value in (("Number", "24-017"), ("Date", "d"))
    )
    head = f'<header><dl class="project">{facts}</dl><p>Sheet</p><h1>P-1</h1></header>'
    (only,) = read(pdf_of(page(f'<article data-foot="P-1">{head}</article>'))).pages
    assert only.extract_text().split() == [
        "Number",
        "24-017",
        "Date",
        "d",
        "Sheet",
        "P-1",
        "P-1",
        *["page", "1", "of", "1"],
    ]


def longest_lines(made: bytes) -> list[int]:
    """The letters M of the longest line of each page."""
    return [max(map(len, re.findall("M+", sheet.extract_text()))) for sheet in read(made).pages]


@pytest.mark.parametrize(
    ("body", "most"),
    [
        ("<h1>{}</h1>", 80),
        ("<p>{}</p>", 66),
        ("<ul><li>{} and {}</li></ul>", 66),
        ("<table><tr><td>a</td><td>{}</td></tr></table>", 66),
        ('<dl class="facts"><div><dt>base.member</dt><dd>{}</dd></div></dl>', 28),
    ],
)
def test_a_long_word_stays_on_the_paper(body, most):
    word = "M" * 200
    made = pdf_of(page(f"<article>{body.replace('{}', word)}</article>"))
    assert max(longest_lines(made)) <= most
    assert word in re.sub(r"\s+", "", text_of(made))


def test_a_word_that_fits_is_not_broken():
    made = pdf_of(page("<article><p>wedge-expansion-zinc/3/8/2.5</p></article>"))
    assert "wedge-expansion-zinc/3/8/2.5" in text_of(made)


def paper_in_points(made: bytes) -> tuple[float, ...]:
    return tuple(round(float(side), 2) for side in read(made).pages[0].mediabox[2:])


def test_the_paper_is_that_of_the_page():
    assert paper_in_points(pdf_of(page("<article><h1>One</h1></article>", paper="letter"))) == LETTER
    assert paper_in_points(pdf_of(page("<article><h1>One</h1></article>", paper="a4"))) == A4


@pytest.mark.parametrize(
    ("name", "paper"),
    [("anchor_group", LETTER), ("masonry_si", A4), ("installation_cards_of_a_check_si", A4)],
)
def test_metric_pages_are_on_metric_paper(printed_page, name, paper):
    html = printed_page(name)
    assert paper_in_points(pdf_of(html)) == paper
    assert ("@page { size: a4 portrait; }" in html) == (paper == A4)


def test_a_page_is_read_as_a_tree():
    drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><g/>&lt;</svg>'
    read_in = read_page(
        page(
            '<article class="dense">\n<p>a <strong>b</strong>\n c</p>\n<svg viewBox="0 0 1 1"><g/>&lt;</svg></article>'
        )
    )
    assert (read_in.title, read_in.paper) == ("A page", "letter")
    assert read_in.body == [
        {
            "tag": "article",
            "kind": "dense",
            "inside": [
                {"tag": "p", "kind": "", "inside": ["a ", {"tag": "strong", "kind": "", "inside": "b"}, " c"]},
                {"tag": "svg", "kind": "", "inside": drawing},
            ],
        }
    ]


def test_a_page_that_cant_be_typeset_says_why():
    with pytest.raises(TypesettingError, match="TypstError"):
        pdf_of(page("<article><ul></ul></article>"))


def letters(text: str) -> Counter[str]:
    """Letters and digits; those that a formula has in italics are letters."""
    return Counter(letter for letter in unicodedata.normalize("NFKC", text) if letter.isalnum())


@pytest.mark.parametrize("name", PATHS)
def test_no_letter_of_a_formula_is_lost(printed_page, name):
    html = printed_page(name)
    body = re.sub(r"<(head|svg)\b.*?</\1>", " ", html, flags=re.DOTALL)
    assert letters(unescape(re.sub(r"<[^>]*>", "", body))) - letters(text_of(pdf_of(html))) == Counter()


def test_a_formula_keeps_its_numbers_in_order():
    inside = (
        "<msub><mi>N</mi><mtext>ua</mtext></msub><mo>=</mo><mfrac><mrow><mn>31</mn></mrow><mrow><mn>47</mn></mrow></mfrac>"
        "<mo>·</mo><msup><mrow><mi>h</mi></mrow><mrow><mn>2</mn></mrow></msup><mo>·</mo><msqrt><mn>90</mn></msqrt>"
        '<mo form="infix">+</mo><mrow><mo>(</mo><mo>−</mo><mn>8.25</mn><mo>)</mo></mrow>'
    )
    text = unicodedata.normalize("NFKC", text_of(pdf_of(page(f"<article><p><math>{inside}</math></p></article>"))))
    assert re.findall(r"\d+(?:\.\d+)?", text)[:5] == ["31", "47", "2", "90", "8.25"]
    assert {"N", "ua", "=", "√", "+", "(", "−", ")"} <= set(re.findall(r"ua|[N=√+(−)]", text))
