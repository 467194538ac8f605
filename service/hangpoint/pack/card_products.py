"""The distinct products of a request, each with what its installation card needs of the data."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.quantity import Floats
from hangpoint.core.site.setting import NewHole, RodTurns, new_hole, rod_turns
from hangpoint.pack.card_bases import CardBase
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.embedment import Embedment
from hangpoint.product.family import Family, Principle, Setting, SizeData, Source, Suitability
from hangpoint.product.fields import Units
from hangpoint.product.inline import InlineProduct
from hangpoint.product.principles import MM_PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class CardProduct:
    """One product in one base and face. ``setting`` is None where the data have none, as of a product stated inline.

    ``setting_tool`` and ``training`` are None where the data are silent. ``european``: its figures are for EN 1992-4.
    """

    address: str
    name: str
    invented: bool
    source: Source | None
    principle: Principle
    units: Units
    traits: Suitability
    setting_tool: str | None
    training: bool | None
    setting: Setting | None
    size: SizeData
    embedment: Embedment
    base: CardBase
    face: str
    table_only: bool
    european: bool

    def own(self, value: float) -> float:
        """A length in inches in the unit of the data."""
        return value if self.units == "us" else float(f"{value * MM_PER_INCH:.12g}")

    @property
    def spacing(self) -> float:
        """The least spacing in its base, in; where nothing limits it there, that of the data."""
        return dict(self.base.least).get("spacing", self.inches(self.embedment.s_min))

    def inches(self, value: float) -> float:
        """A length of the data in inches."""
        return value if self.units == "us" else value / MM_PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class CardNumbers:
    """Records of all cards, and the row of each card in them, -1 where the card has none."""

    turns: RodTurns
    turns_row: Sequence[int]
    holes: NewHole
    hole_row: Sequence[int]


def catalogue_products(catalogue: Catalogue) -> Mapping[str, tuple[Family, SizeData, Embedment]]:
    """Family, size and embedment of every address."""
    rows = (
        (family, size, embedment)
        for family in catalogue.families.values()
        for size in family.sizes
        for embedment in size.embedments
    )
    return dict(zip(catalogue.addresses, rows, strict=True))


def of_family(
    address: str, family: Family, size: SizeData, embedment: Embedment, *, base: CardBase, face: str
) -> CardProduct:
    """A product of the catalogue."""
    return CardProduct(
        address=address,
        name=family.name,
        invented=family.invented,
        source=family.source,
        principle=family.principle,
        units=family.units,
        traits=family.traits,
        setting_tool=family.traits.setting_tool,
        training=family.traits.training,
        setting=family.setting,
        size=size,
        embedment=embedment,
        base=base,
        face=face,
        table_only=family.basis == "allowable_table",
        european=family.basis == "en",
    )


def of_inline(stated: Any, *, base: CardBase, face: str) -> CardProduct:
    """A product stated in the request, which has been validated."""
    product = stated if isinstance(stated, InlineProduct) else InlineProduct.model_validate(stated)
    return CardProduct(
        address="inline",
        name=product.name or "Product stated in the request",
        invented=False,
        source=product.source,
        principle=product.principle,
        units=product.units,
        traits=product.traits,
        setting_tool=None,
        training=None,
        setting=None,
        size=product.size,
        embedment=product.embedment,
        base=base,
        face=face,
        table_only=product.basis == "allowable_table",
        european=product.basis == "en",
    )


def card_numbers(products: Sequence[CardProduct]) -> CardNumbers:
    """Turns of rods and distances of new holes of all products, computed at once."""
    turning = [
        (at, each, each.size.thread_engagement, THREADS[each.size.thread or ""].pitch)
        for at, each in enumerate(products)
        if each.size.thread_engagement and each.size.thread in THREADS
    ]
    drilled = [(at, each, each.embedment.hole) for at, each in enumerate(products) if each.embedment.hole]
    turns = rod_turns(
        pitch=_column([pitch for _, _, _, pitch in turning]),
        reach_least=_column([each.inches(reach.least) for _, each, reach, _ in turning]),
        reach_most=_column([each.inches(reach.most) for _, each, reach, _ in turning]),
    )
    holes = new_hole(
        hole_depth=_column([each.inches(hole.depth) for _, each, hole in drilled]),
        s_min=_column([each.spacing for _, each, _ in drilled]),
    )
    return CardNumbers(
        turns=turns,
        turns_row=_rows([at for at, *_ in turning], len(products)),
        holes=holes,
        hole_row=_rows([at for at, *_ in drilled], len(products)),
    )


def _column(values: Sequence[float]) -> Floats:
    return np.array(values, dtype=np.float64)


def _rows(places: Sequence[int], count: int) -> list[int]:
    rows = [-1] * count
    for row, at in enumerate(places):
        rows[at] = row
    return rows
