"""Items of a request as installation cards: one card a distinct product, base and face."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.core.outcome import SIDES
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.anchors import pack_anchors
from hangpoint.pack.card_bases import EDGES_STATED, CardBase, CardBases, card_bases
from hangpoint.pack.card_products import CardProduct, catalogue_products, of_family, of_inline
from hangpoint.pack.flags import Flags
from hangpoint.pack.lengths import Rounding, length_text
from hangpoint.pack.pull import Rows
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.inline import InlineProduct

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class CardItems:
    """``products`` are distinct; ``card`` says which of them each item uses, ``attention`` what it lacks for it.

    ``bases`` are those of the items, ``conditions`` the hole and temperatures that an item with an adhesive states, in
    words, else nothing.
    """

    ids: Sequence[str]
    products: Sequence[CardProduct]
    card: Sequence[int]
    attention: Sequence[Sequence[Mapping[str, Any]]]
    bases: CardBases
    conditions: Sequence[str]

    def conditions_of(self, card: int) -> list[str]:
        """What the items of a card state of hole and temperatures: no other hole is theirs."""
        ids: dict[str, list[str]] = {}
        for place, text in enumerate(self.conditions):
            if text and self.card[place] == card:
                ids.setdefault(text, []).append(self.ids[place])
        return [f"{', '.join(own)}: {text} as stated; elsewhere the bond may be less." for text, own in ids.items()]

    def by_card(
        self, against: Sequence[Sequence[Mapping[str, Any]]]
    ) -> list[tuple[list[str], list[Mapping[str, Any]]]]:
        """Of each product the ids of the items that use it, and what they lack for it; ``against`` is what else is.

        ``against`` has a row for each item.
        """
        users: list[tuple[list[str], list[Mapping[str, Any]]]] = [([], []) for _ in self.products]
        for place, card in enumerate(self.card):
            ids, attention = users[card]
            ids.append(self.ids[place])
            attention += [*self.attention[place], *against[place]]
        return users


def pack_card_items(items: Rows, *, catalogue: Catalogue) -> CardItems:
    """Find the product and face of every item. Flaws: those of `pack_anchors`."""
    anchors = pack_anchors(items, catalogue=catalogue, assumptions=Flags(Assumption, len(items)))
    ids = items.values("id")
    bases = card_bases(items, anchors)
    products: list[CardProduct] = []
    place: dict[tuple[str, CardBase, str], int] = {}
    card: list[int] = []
    if not items.flaws.by_row:
        by_address = catalogue_products(catalogue)
        for at, address in enumerate(map(str, anchors.addresses)):
            stated, base, face = anchors.inline.get(at), bases.own[at], bases.faces[at]
            key = (address if stated is None else _text(stated), base, face)
            if key not in place:
                place[key] = len(products)
                products.append(
                    of_family(address, *by_address[address], base=base, face=face)
                    if stated is None
                    else of_inline(stated, base=base, face=face)
                )
            card.append(place[key])
    attention = _attention(ids, bases, [products[at] for at in card]) if card else []
    conditions = _conditions(items, [products[at] for at in card])
    return CardItems(ids=ids, products=products, card=card, attention=attention, bases=bases, conditions=conditions)


def _conditions(items: Rows, products: Sequence[CardProduct]) -> list[str]:
    """Hole and temperature range that each item states of an adhesive, in words."""
    stated = items.child("anchor").child("adhesive")
    made: list[str] = []
    for product, hole, temperature in zip(
        products, stated.values("hole"), stated.values("temperature"), strict=bool(products)
    ):
        words = [] if hole is None else [f"hole {hole.replace('_', ' ')}"]
        words += [] if temperature is None else [f"temperature range {temperature}"]
        made.append(", ".join(words) if product.principle == "adhesive" else "")
    return made


def _text(stated: Any) -> str:
    return json.dumps(InlineProduct.model_validate(stated).model_dump(mode="json"), sort_keys=True)


def _attention(ids: Sequence[str], bases: CardBases, products: Sequence[CardProduct]) -> list[list[Mapping[str, Any]]]:
    """What an item states of its base, where its product asks for more there, and a flute's offset, where for less."""
    found: list[list[Mapping[str, Any]]] = []
    for at, product in enumerate(products):
        own = bases.own[at]
        least = dict(own.least)
        texts = {
            what: f"{_named(what)} of {_words(value, product, 'down')} is below the least of"
            f" {_words(limit, product, 'up')}."
            for what, value, limit in _compared(bases, at, least)
            if value < limit * (1 - _ROUNDING)
        }
        offset = float(bases.offset[at])
        if own.offset is not None and offset > own.offset + _ROUNDING:
            stated, most = _words(offset, product, "up"), _words(own.offset, product, "down")
            texts["offset"] = f"offset of {stated} is above the most of {most}."
        found.append([{"id": ids[at], "what": what, "text": text} for what, text in texts.items()])
    return found


def _compared(bases: CardBases, at: int, least: Mapping[str, float]) -> Iterator[tuple[str, float, float]]:
    """What an item states that a least distance is of, with both; each edge by itself."""
    for name, limit in least.items():
        for what in EDGES_STATED if name == "edge" else (name,):
            if what in bases.stated:
                yield what, float(bases.stated[what][at]), limit


def _named(what: str) -> str:
    """What is compared, in words: an edge by the side that it is on, as on a calculation sheet."""
    if what not in EDGES_STATED:
        return what.replace("_", " ")
    return f"edge at {SIDES[what.removeprefix('edge ')]}"


def _words(value: float, product: CardProduct, way: Rounding) -> str:
    """A length away from what it is compared with, so that the two never read alike."""
    return length_text(product.own(value), units=product.units, system=product.units, way=way)
