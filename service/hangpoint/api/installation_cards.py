"""The answer to a request for installation cards."""

from typing import Any

from hangpoint import __version__
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.card_checks import against_setting
from hangpoint.api.schemas.installation_cards import CardsRequest
from hangpoint.api.site_items import pack_site_items
from hangpoint.api.state import State
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack.card_bases import CardBases
from hangpoint.pack.card_items import pack_card_items
from hangpoint.pack.card_products import card_numbers
from hangpoint.pack.cards import card
from hangpoint.units import PRINTED

_FACE = (
    "Where an item states no face of its base, the anchor is set overhead, in a soffit (reading 0); in masonry in the"
    " side face."
)
_BASE = "Where an item states no kind of base, least edge, spacing and thickness are those in concrete."


def run_installation_cards(body: bytes, state: State) -> dict[str, Any]:
    """Cards of the distinct products of a body, and of each item which card is its own.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch, catalogue = read_items(CardsRequest, body), state.catalogue
    job = batch.others.get("job")
    return {
        "engine_version": __version__,
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[batch.units],
        **({} if job is None else {"job": job}),
        **batch.echoed,
        **cards_of(batch, state),
    }


def cards_of(batch: Batch, state: State) -> dict[str, Any]:
    """The cards of items that have been read, without the head of their answer.

    Raises:
        ProblemError: too many items, a duplicate id.
    """
    catalogue = state.catalogue
    read = pack_site_items(
        batch, limits=state.limits, pack=lambda rows, _: pack_card_items(rows, catalogue=catalogue), traces=False
    )
    own = read.packed
    numbers = card_numbers(own.products)
    against = against_setting(batch, read.index, [own.products[at] for at in own.card], catalogue)
    cards: list[dict[str, Any]] = []
    for at, (product, (used_by, attention)) in enumerate(zip(own.products, own.by_card(against), strict=True)):
        made = card(product, at, numbers, system=batch.units, used_by=used_by, attention=attention)
        stated = own.conditions_of(at)
        if stated:
            made["adhesive"]["stated"] = stated
        cards.append(made)
    results = [
        {"id": own.ids[place], "index": row, "status": "card", "card": own.card[place]}
        for place, row in enumerate(read.index)
    ]
    return {
        "summary": {"items": len(batch.items), "cards": len(cards), "invalid": len(read.invalid)},
        "assumptions": _assumed(own.bases),
        "cautions": list(CAUTIONS),
        "cards": cards,
        "items": read.in_order(results),
    }


def _assumed(bases: CardBases) -> dict[str, str]:
    taken = {("face-assumed", _FACE): bases.face_assumed, ("base-assumed", _BASE): bases.kind_assumed}
    return dict(each for each, holds in taken.items() if holds)
