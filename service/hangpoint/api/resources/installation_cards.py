"""Installation cards: for whoever sets the anchors."""

from collections.abc import Mapping
from typing import Any

from hangpoint.api.examples import INSTALLATION_CARDS_JSON
from hangpoint.api.installation_cards import run_installation_cards
from hangpoint.api.media import HTML, PDF
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.installation_cards import CardsAnswer, CardsRequest
from hangpoint.report.card_page import cards_html

DESCRIPTION = """\
How the products of some hang points are set: one card a distinct product, base and face.

A body of `POST /v1/hang-points` is read as it is; of an item only its anchor and its base are used. A card has hole,
bit, cleaning, setting, torque in both units, thread engagement, least edge, spacing and thickness, what spoils the
anchor, what shows that it is set, what to do at reinforcement or a tendon, inspection and cautions. Figures are those
of the product's data, in a deck of its tests in that flute, in masonry and planks of its tables; what the data lack is
said. As HTML and as PDF it is a page a card, for printing.
"""


def _sheets(answer: Mapping[str, Any]) -> int:
    return len(answer["cards"])


INSTALLATION_CARDS = Resource(
    path="/v1/installation-cards",
    operation_id="makeInstallationCards",
    tag="site",
    summary="Installation cards of the products used",
    description=DESCRIPTION,
    request=CardsRequest,
    answer=CardsAnswer,
    answer_text="A card for every distinct product, and a card's number or a problem for every item.",
    example=INSTALLATION_CARDS_JSON,
    run=run_installation_cards,
    files=(
        FileForm(word="html", media=HTML, name="cards.html", write=cards_html),
        FileForm(word="pdf", media=PDF, name="cards.pdf", write=cards_html, sheets=_sheets),
    ),
    by_item=True,
)
