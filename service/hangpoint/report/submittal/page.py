"""A submittal as one document: its cover, and behind it the parts that other pages are made of too."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from hangpoint.core.vocabulary import Status
from hangpoint.report.calculation.page import calculation_articles
from hangpoint.report.calculation.style import STYLE
from hangpoint.report.calculation.subject import Subject
from hangpoint.report.card_page import CARD_STYLE, card_articles
from hangpoint.report.load_map.page import POINTS_STYLE, load_map_articles
from hangpoint.report.load_map.page import sheet_count as map_count
from hangpoint.report.paper import INVENTED, STAMP_STYLE, Article, articles_page, paper_of
from hangpoint.report.submittal.chosen import chosen
from hangpoint.report.submittal.cover import COVER_STYLE, cover, place_of
from hangpoint.report.submittal.open_items import open_items
from hangpoint.report.submittal.proof_tests import proof_tests
from hangpoint.report.submittal.schedule import schedule
from hangpoint.units import System

Answer = Mapping[str, Any]

_DIGITS = 12
"""Of the digest of the request at the foot of a page."""


def sheet_count(answer: Answer) -> int:
    """The sheets of the part that has the most: each part is held to the limit that it has by itself."""
    cards, sheets = answer["installation_cards"]["cards"], answer["calculation_sheets"]["of"]
    return max(map_count(_with_head(answer, "load_map")), len(cards), len(sheets))


def submittal_page(answer: Answer, subjects: Sequence[Subject], *, system: System) -> str:
    """The submittal of an answer; ``subjects`` are those of its calculation sheets."""
    name = answer.get("project", {}).get("name")
    return articles_page(
        title=f"Submittal: {name}" if name else "Submittal of hang points",
        style=STYLE + POINTS_STYLE + CARD_STYLE + STAMP_STYLE + COVER_STYLE,
        paper=paper_of(answer["units"]),
        articles=list(_articles(answer, subjects, system)),
    )


def _articles(answer: Answer, subjects: Sequence[Subject], system: System) -> Iterator[Article]:
    invented = any(each.get("product", {}).get("data") == INVENTED for each in answer["items"])
    digest = f" · request {answer['request_digest'][:_DIGITS]}"
    yield Article(body=cover(answer), foot=f"Cover{digest}", invented=invented)
    for part in answer["parts"]:
        for at, article in enumerate(_of_part(answer, part, subjects, system, invented)):
            place = place_of(part) if at == 0 else ""
            yield replace(article, foot=f"Part {part['number']} · {article.foot}{digest}", place=place)


def _of_part(
    answer: Answer, part: Mapping[str, Any], subjects: Sequence[Subject], system: System, invented: bool
) -> list[Article]:
    title = part["title"]
    match part["part"]:
        case "load_map":
            return load_map_articles(_with_head(answer, "load_map"), gathered=True)
        case "installation_cards":
            return _cards(answer) or [Article(body=f"<h1>{title}</h1><p>No product is used.</p>", foot=title)]
        case "calculation_sheets":
            first = Article(body=chosen(answer, title), foot=title, invented=invented)
            return [first, *calculation_articles(answer, subjects, system=system)]
        case word:
            written = {"schedule": schedule, "open_items": open_items, "test_plan": proof_tests}[word]
            return [Article(body=written(answer, title), foot=title, invented=invented)]


def _cards(answer: Answer) -> list[Article]:
    """The cards; of items without one those alone that are not invalid, as these stand in the schedule."""
    made = _with_head(answer, "installation_cards")
    invalid = {row["index"] for row in answer["schedule"] if row["status"] == Status.INVALID}
    return card_articles({**made, "items": [each for each in made["items"] if each["index"] not in invalid]})


def _with_head(answer: Answer, part: str) -> Answer:
    """A part with the head of the answer, as the answer to a request for it alone has it."""
    return {**answer, **answer[part]}
