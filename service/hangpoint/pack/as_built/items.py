"""Items of an as-built list as columns: what was required, by the item or its product, and what was set."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

import numpy as np

from hangpoint.core.as_built import SAME
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.pack.anchors import inline_products, product_rows
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.layouts import pack_layouts
from hangpoint.pack.pull import Object, Rows
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.inline import ADDRESS, InlineProduct
from hangpoint.product.stocked import StockedProduct, stocked_inline, stocked_products
from hangpoint.units import COORDINATE, FORCE, LENGTH, TORQUE, QuantityKind, System

AXES = ("x", "y", "z")
LENGTHS = ("embedment", "hole_diameter", "hole_depth")
KINDS: Mapping[str, QuantityKind] = {**dict.fromkeys(LENGTHS, LENGTH), "torque": TORQUE}
TEXTS = ("product", "date", "installer", "inspector", "batch", "expiry", "deviation")


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuiltItems:
    """Columns of the valid items, nan where nothing is required or recorded.

    ``coordinates`` are those of the job, in ft; ``tags`` words of the item. ``required`` and ``recorded`` have the
    names of `KINDS`; ``texts`` those of `TEXTS`. ``h_ef`` is that of the product
    where no embedment is required. ``by_product`` says whether a value that is required is of the product's data:
    embedment of the product required, torque and hole of the one that was set.
    """

    index: Sequence[int]
    ids: Sequence[str]
    places: Mapping[str, Sequence[str | None]]
    coordinates: Mapping[str, Floats]
    tags: Sequence[Sequence[str] | None]
    products: Sequence[StockedProduct]
    setting: Sequence[StockedProduct]
    """What was set as far as the catalogue has it, else what was required."""
    other: Sequence[bool]
    """Another product was set than the one required."""
    required: Mapping[str, Floats]
    recorded: Mapping[str, Floats]
    h_ef: Floats
    h_exact: Floats
    """To which an anchor is set that needs its exact depth."""
    texts: Mapping[str, Sequence[str | None]]
    test_required: Floats
    test_load: Floats
    hold_required: Floats
    hold_seconds: Floats
    held: Sequence[bool | None]
    by_product: bool
    required_below: Bools
    """An embedment or torque that an item requires is below that of its product's data."""
    required_other: Bools
    """A torque that an item requires is above that of its product's data, or the hole is another one."""

    @property
    def set_otherwise(self) -> Sequence[bool]:
        """Where another product of the catalogue was set than the one required."""
        return _otherwise(self.setting, self.products)

    @property
    def count(self) -> int:
        """Of the items."""
        return len(self.ids)


def pack_as_built(
    objects: Sequence[Object],
    *,
    default: Object,
    index: Sequence[int],
    system: System,
    catalogue: Catalogue,
    flaws: Flaws,
) -> AsBuiltItems:
    """Read the items.

    Flaws: those of products, a layout of several anchors, a quantity out of range, a day that no calendar has, a test
    load that doesn't pull.
    """
    items = Rows(objects, default=default, path="", index=index, local=range(len(objects)), system=system, flaws=flaws)
    anchor = items.child("anchor")
    products = _products(anchor, catalogue)
    for at in np.flatnonzero(pack_layouts(anchor).several).tolist():
        anchor.flaw(at, "layout", "An item is one anchor as it was set: list those of a layout one by one.")
    required, own, place = items.child("required"), items.child("set"), items.child("at")
    texts = {name: own.values(name) for name in TEXTS}
    other, setting = _setting(products, texts["product"], catalogue)
    by_product, by_setting = _of_products(products), _of_products(setting)
    data = {name: column if name == "embedment" else by_setting[name] for name, column in by_product.items()}
    stated = {name: required.quantity(name, kind) for name, kind in KINDS.items()}
    test = own.child("test")
    for name in ("date", "expiry"):
        _refuse_days(own, name)
    asked = {name: np.where(np.isnan(stated[name]), data[name], stated[name]) for name in KINDS}
    h_ef = np.array([each.h_ef for each in products], dtype=np.float64)
    return AsBuiltItems(
        index=index,
        ids=items.values("id"),
        places={"level": place.values("level"), "trade": items.values("trade"), "area": items.values("area")},
        coordinates={axis: place.quantity(axis, COORDINATE) for axis in AXES},
        tags=items.values("tags"),
        products=products,
        setting=setting,
        other=other,
        required=asked,
        recorded={name: own.quantity(name, kind) for name, kind in KINDS.items()},
        h_ef=np.where(known(asked["embedment"]), np.nan, h_ef),
        h_exact=np.where(_otherwise(setting, products), by_setting["embedment"], asked["embedment"]),
        texts=texts,
        test_required=_pulling(required, "test_load"),
        test_load=_pulling(test, "load"),
        hold_required=required.numbers("hold_seconds", np.nan),
        hold_seconds=test.numbers("hold_seconds", np.nan),
        held=test.values("held"),
        by_product=any(bool((np.isnan(stated[name]) & known(data[name])).any()) for name in KINDS),
        required_below=_below(stated["embedment"], np.fmax(by_product["embedment"], h_ef))
        | _below(stated["torque"], by_product["torque"]),
        required_other=_other(stated, by_product, np.array([each.exact_depth for each in products], dtype=np.bool_)),
    )


def _other(stated: Mapping[str, Floats], by_product: Mapping[str, Floats], exact: Bools) -> Bools:
    """Where a torque is stated above that of the data, another bit, or a hole less deep; of an anchor that needs its
    ``exact`` depth a deeper hole or embedment too."""
    above = {name: _below(by_product[name], stated[name]) for name in KINDS}
    below = {name: _below(stated[name], by_product[name]) for name in ("hole_diameter", "hole_depth")}
    hole = above["hole_diameter"] | below["hole_diameter"] | below["hole_depth"]
    return above["torque"] | hole | exact & (above["hole_depth"] | above["embedment"])


def _below(stated: Floats, by_product: Floats) -> Bools:
    """Where both are known and the stated value is the lower one."""
    return known(stated) & known(by_product) & (filled(stated) < filled(by_product) * (1 - SAME))


def _products(anchor: Rows, catalogue: Catalogue) -> list[StockedProduct]:
    inline = inline_products(anchor)
    _, rows = product_rows(anchor, catalogue, inline)
    known = list(stocked_products(catalogue))
    places: list[int] = rows.tolist()
    return [known[row] if row < len(known) else stocked_inline(_inline(inline[at])) for at, row in enumerate(places)]


def _setting(
    products: Sequence[StockedProduct], texts: Sequence[str | None], catalogue: Catalogue
) -> tuple[list[bool], list[StockedProduct]]:
    """Where another product was set than the required one, and what was set as far as the catalogue has it, else what
    was required. A product stated inline has no address that another could be compared with."""
    by_address = {each.address.casefold(): each for each in stocked_products(catalogue)} if any(texts) else {}
    other: list[bool] = []
    made: list[StockedProduct] = []
    for required, text in zip(products, texts, strict=True):
        named = required.address.casefold() if text is None else text.strip().casefold()
        other.append(required.address != ADDRESS and named != required.address.casefold())
        made.append(by_address.get(named, required) if other[-1] else required)
    return other, made


def _otherwise(setting: Sequence[StockedProduct], products: Sequence[StockedProduct]) -> list[bool]:
    return [own.address != required.address for own, required in zip(setting, products, strict=True)]


def _inline(product: Any) -> InlineProduct:
    return product if isinstance(product, InlineProduct) else InlineProduct.model_validate(product)


def _of_products(products: Sequence[StockedProduct]) -> Mapping[str, Floats]:
    """What the data of the products require, nan where they require nothing."""
    nan = float("nan")
    return {
        "embedment": np.array([own.h_nom or nan for own in products], dtype=np.float64),
        "torque": np.array([own.torque or nan for own in products], dtype=np.float64),
        "hole_diameter": np.array([own.hole_diameter or nan for own in products], dtype=np.float64),
        "hole_depth": np.array([own.hole_depth or nan for own in products], dtype=np.float64),
    }


def _pulling(rows: Rows, name: str) -> Floats:
    column = rows.quantity(name, FORCE)
    for at in np.flatnonzero(column <= 0).tolist():
        rows.flaw(at, name, "A test load pulls: it is more than 0.", slug="quantity")
    return column


def _refuse_days(rows: Rows, name: str) -> None:
    for at, value in enumerate(rows.values(name)):
        if value is not None and not _is_day(value):
            rows.flaw(at, name, "There is no such day: give year, month and day, as 2031-04-02.", code="date")


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def known(column: Floats) -> Bools:
    """Where a value is there."""
    return np.isfinite(column)


def filled(column: Floats) -> Floats:
    """The column with 0 where nothing is there."""
    return np.where(np.isfinite(column), column, 0.0)


def rows_where(holds: Bools) -> list[int]:
    """The rows where it holds."""
    found: Index = np.flatnonzero(holds)
    return found.tolist()
