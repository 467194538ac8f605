"""Items of a request as installation cards: one card a distinct product and face."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.quantity import Floats
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.anchors import pack_anchors
from hangpoint.pack.card_products import CardProduct, catalogue_products, of_family, of_inline
from hangpoint.pack.flags import Flags
from hangpoint.pack.lengths import length_text
from hangpoint.pack.pull import Rows
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.inline import InlineProduct
from hangpoint.product.principles import MM_PER_INCH
from hangpoint.units import LENGTH

_SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")


@dataclass(frozen=True, slots=True, kw_only=True)
class CardItems:
    """``products`` are distinct; ``card`` says which of them each item uses, ``attention`` what it lacks for it."""

    ids: Sequence[str]
    products: Sequence[CardProduct]
    card: Sequence[int]
    attention: Sequence[Sequence[Mapping[str, Any]]]
    face_assumed: bool

    def by_card(self) -> list[tuple[list[str], list[Mapping[str, Any]]]]:
        """Of each product the ids of the items that use it, and what they lack for it."""
        users: list[tuple[list[str], list[Mapping[str, Any]]]] = [([], []) for _ in self.products]
        for place, card in enumerate(self.card):
            ids, attention = users[card]
            ids.append(self.ids[place])
            attention += self.attention[place]
        return users


def pack_card_items(items: Rows, *, catalogue: Catalogue) -> CardItems:
    """Find the product and face of every item. Flaws: those of `pack_anchors`."""
    anchors = pack_anchors(items, catalogue=catalogue, assumptions=Flags(Assumption, len(items)))
    ids = items.values("id")
    base = items.child("base")
    silent = base.silent("face")
    faces = ["soffit" if face is None else face for face in base.values("face")]
    products: list[CardProduct] = []
    place: dict[tuple[str, str], int] = {}
    card: list[int] = []
    if not items.flaws.by_row:
        by_address = catalogue_products(catalogue)
        for at, (address, face) in enumerate(zip(map(str, anchors.addresses), faces, strict=True)):
            stated = anchors.inline.get(at)
            key = (address if stated is None else _text(stated), face)
            if key not in place:
                place[key] = len(products)
                own = of_inline(stated, face) if stated is not None else of_family(address, *by_address[address], face)
                products.append(own)
            card.append(place[key])
    attention = _attention(items, base, [products[at] for at in card], anchors.layouts.count) if card else []
    return CardItems(ids=ids, products=products, card=card, attention=attention, face_assumed=bool(silent.any()))


def _text(stated: Any) -> str:
    return json.dumps(InlineProduct.model_validate(stated).model_dump(mode="json"), sort_keys=True)


def _attention(items: Rows, base: Rows, products: Sequence[CardProduct], count: Any) -> list[list[Mapping[str, Any]]]:
    """What an item states of thickness and edges, where its product allows less; edges of single anchors only."""
    thickness = base.quantity("thickness", LENGTH)
    edges = base.child("edges")
    sides = {side: edges.quantity(side, LENGTH) for side in _SIDES}
    single = count == 1
    ids = items.values("id")
    found: list[list[Mapping[str, Any]]] = []
    for at, product in enumerate(products):
        own = product.embedment
        stated = [("thickness", thickness[at], own.h_min)]
        if single[at]:
            stated += [(f"edge {side}", column[at], own.c_min) for side, column in sides.items()]
        found.append(
            [
                {"id": ids[at], "what": what, "text": _below(what, float(value), least, product)}
                for what, value, least in stated
                if _lacks(value, product.inches(least))
            ]
        )
    return found


def _lacks(value: Floats, least: float) -> bool:
    return bool(np.isfinite(value)) and float(value) < least * (1 - 1e-9)


def _below(what: str, value: float, least: float, product: CardProduct) -> str:
    stated = value if product.units == "us" else value * MM_PER_INCH
    texts = [length_text(each, units=product.units, system=product.units) for each in (stated, least)]
    return f"{what} of {texts[0]} is below the least of {texts[1]}."
