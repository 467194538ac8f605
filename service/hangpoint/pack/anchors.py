"""The anchor of each item: a row of the catalogue or a product stated inline, as columns of product data."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

import numpy as np
from pydantic import ValidationError

from hangpoint.core.hang_point.points import Bonds, Products
from hangpoint.core.quantity import Bools, Codes, Index
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.bonds import pack_bonds, stated_bonds
from hangpoint.pack.flags import Flags
from hangpoint.pack.layouts import PackedLayouts, pack_layouts
from hangpoint.pack.pull import Rows, found_rows, places
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.inline import InlineProduct
from hangpoint.product.principles import PINS
from hangpoint.product.product_row import BASES, PRINCIPLES
from hangpoint.product.table import INLINE_FAMILY, ProductTable, concatenate
from hangpoint.units import LENGTH

_BY_TABLE = BASES.index("allowable_table")
_EUROPEAN = BASES.index("en")
_ADHESIVE = BASES.index("adhesive")
_BONDED = PRINCIPLES.index("adhesive")
_UNDERCUT = PRINCIPLES.index("undercut")
_SCREW = PRINCIPLES.index("screw")
_PINS = np.array([name in PINS for name in PRINCIPLES])
_UNKNOWN = 0
MOST_SOUGHT = 200
"""Wrong names of a block whose nearest products are sought; beyond, the families are listed."""
_BY_NAME = {"family", "size", "h_ef"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedAnchors:
    """Product data of a batch, the address of each product, and the layouts.

    ``inline`` are products stated inline, as they came, by point. ``family`` (points,) codes the families; products
    stated inline with the same data are one, below 0. ``bond_row`` (points,) is the condition of each in the bond
    table, and ``conditions`` are all that agree with a point where several do. ``table`` has their rows;
    of an item that names no product where none is needed, any, and the address is None.
    """

    products: Products
    bonds: Bonds
    bond_row: Index
    conditions: Mapping[int, Sequence[int]]
    addresses: list[str | None]
    invented: list[bool]
    family: Index
    inline: Mapping[int, Any]
    table: ProductTable
    layouts: PackedLayouts


def pack_anchors(
    items: Rows, *, catalogue: Catalogue, assumptions: Flags, needed: Bools | None = None
) -> PackedAnchors:
    """Find the product of every item; where ``needed`` is False it may name none.

    Flaws: a product that is neither named whole nor given inline, an unknown one (the nearest are offered), inline
    data that don't hold together, and those of `pack_layouts`.
    """
    anchor = items.child("anchor")
    inline = inline_products(anchor)
    unnamed = np.zeros(len(anchor), dtype=np.bool_)
    if needed is not None and np.count_nonzero(needed) < len(needed):
        silent = [_BY_NAME.isdisjoint(own) and _BY_NAME.isdisjoint(anchor.default) for own in anchor.objects]
        unnamed = ~needed & np.array(silent, dtype=np.bool_)
        unnamed[list(inline)] = False
    table, rows = product_rows(anchor, catalogue, inline, unnamed)
    assumptions.set(Assumption.SINGLE_ANCHOR, anchor.silent("layout"))
    layouts = pack_layouts(anchor)
    taken = table.take(rows)
    bonds = pack_bonds(items, taken, assumptions)
    return PackedAnchors(
        products=product_columns(taken, bonds.category),
        bonds=bonds.bonds,
        bond_row=bonds.row,
        conditions=bonds.agreeing,
        addresses=_addresses(taken, unnamed),
        invented=taken.invented.tolist(),
        family=_families(taken, inline),
        inline=inline,
        table=taken,
        layouts=layouts,
    )


def _addresses(taken: ProductTable, unnamed: Bools) -> list[str | None]:
    addresses: list[str | None] = list(taken.address)
    for at in places(unnamed):
        addresses[at] = None
    return addresses


def _families(taken: ProductTable, inline: Mapping[int, Any]) -> Index:
    if not inline:
        return taken.family_index
    family = taken.family_index.copy()
    codes = {number: _family_of(product) for number, product in {id(each): each for each in inline.values()}.items()}
    for at, product in inline.items():
        family[at] = codes[id(product)]
    return family


def _family_of(product: Any) -> int:
    """A code below those of the catalogue, the same for products of the same data: two that state them are alike.

    A product that is none has a flaw already, and any code.
    """
    try:
        stated = InlineProduct.model_validate(product).model_dump_json()
    except ValidationError:
        return INLINE_FAMILY
    return INLINE_FAMILY - int.from_bytes(sha256(stated.encode()).digest()[:7])


def product_rows(
    anchor: Rows, catalogue: Catalogue, inline: Mapping[int, Any], none: Bools | None = None
) -> tuple[ProductTable, Index]:
    """The table that holds every product, and the row of each item's in it; row 0 for ``none`` and at a flaw.

    Rows of the catalogue come first; those of products inline follow in the order of their items.
    """
    h_ef = anchor.quantity("h_ef", LENGTH).tolist()
    keys = list(zip(anchor.values("family"), anchor.values("size"), h_ef, strict=True))
    place, known = found_rows(keys, lambda key: None if None in key else catalogue.row(*key))
    rows = np.array([*known, _UNKNOWN], dtype=np.intp)[place]
    lacking = place == len(known) if none is None else (place == len(known)) & ~none
    unnamed = [at for at in places(lacking) if at not in inline]
    if unnamed:
        _explain_products(anchor, unnamed, keys, catalogue)
    tables = [catalogue.table]
    next_row = len(catalogue.table)
    for at, product in inline.items():
        own = _inline_table(anchor, at, product)
        rows[at] = _UNKNOWN if own is None else next_row
        if own is not None:
            tables.append(own)
            next_row += 1
    return concatenate(tables) if len(tables) > 1 else catalogue.table, rows


def inline_products(anchor: Rows) -> dict[int, Any]:
    """Products stated inline by item; an item that names a product takes none from the defaults."""
    if not anchor.gives("product"):
        return {}
    found: dict[int, Any] = {}
    for at, product in enumerate(anchor.values("product")):
        if product is None:
            continue
        if _BY_NAME.isdisjoint(anchor.objects[at]):
            found[at] = product
        elif "product" in anchor.objects[at]:
            anchor.flaw(
                at, "product", "Give a product inline or by family, size and h_ef, not both.", code="contradiction"
            )
    return found


def _explain_products(
    anchor: Rows, unnamed: Sequence[int], keys: Sequence[tuple[Any, Any, float]], catalogue: Catalogue
) -> None:
    """Say why the request names no product of the catalogue here. The nearest are sought once for each wrong name."""
    printed = anchor.values("h_ef")
    nearest: dict[tuple[str, str, str], tuple[str, ...]] = {}
    for at in unnamed:
        family, size, h_ef = keys[at]
        if family is None or size is None or math.isnan(h_ef):
            _incomplete(anchor, at, keys[at], catalogue)
            continue
        name = family, size, str(printed[at])
        if name not in nearest and len(nearest) < MOST_SOUGHT:
            nearest[name] = catalogue.nearest(*name)
        _unknown(anchor, at, family, size, nearest.get(name, tuple(catalogue.families)), catalogue)


def _incomplete(anchor: Rows, at: int, key: Sequence[Any], catalogue: Catalogue) -> None:
    lacking = [
        name for name, value in zip(("family", "size", "h_ef"), key, strict=True) if value is None or value != value
    ]
    family = catalogue.families.get(key[0])
    sizes = {size.size: size for size in family.sizes} if family else {}
    depths = [f"{depth.h_ef:g}" for depth in sizes[key[1]].embedments] if key[1] in sizes else ()
    allowed: dict[str, Sequence[str]] = {"family": tuple(catalogue.families), "size": tuple(sizes), "h_ef": depths}
    for name in lacking:
        anchor.flaw(
            at,
            name,
            f"The anchor's {name} is required here or in the defaults, or a product inline.",
            code="missing",
            allowed=allowed[name],
        )


def _unknown(anchor: Rows, at: int, family: str, size: str, nearest: Sequence[str], catalogue: Catalogue) -> None:
    known_family = catalogue.families.get(family)
    if known_family is None:
        name = "family"
    elif size not in {known.size for known in known_family.sizes}:
        name = "size"
    else:
        name = "h_ef"
    anchor.flaw(
        at,
        name,
        "The catalogue has no such product; the nearest are listed as family/size/h_ef.",
        slug="unknown-product",
        allowed=nearest,
    )


def _inline_table(anchor: Rows, at: int, product: Any) -> ProductTable | None:
    if isinstance(product, InlineProduct):
        return product.to_table()
    try:
        return InlineProduct.model_validate(product).to_table()
    except ValidationError as error:
        for each in error.errors(include_url=False, include_context=False, include_input=False):
            place = "/".join(str(part) for part in each["loc"])
            anchor.flaw(at, f"product/{place}".rstrip("/"), each["msg"])
        return None


def open_anchors(
    items: Rows, *, catalogue: Catalogue, assumptions: Flags, needed: Bools | None = None
) -> PackedAnchors:
    """Anchors whose product is still to be chosen: layouts, and what is stated of the holes of adhesive anchors.

    Their products have no embedment and no diameter, and are not to be checked. None is ``needed`` anywhere.
    """
    anchor = items.child("anchor")
    assumptions.set(Assumption.SINGLE_ANCHOR, anchor.silent("layout"))
    none = np.zeros(len(anchor), dtype=np.intp)
    taken = catalogue.table.take(none)
    nothing = np.zeros(len(anchor))
    products = product_columns(taken, taken.category)
    return PackedAnchors(
        products=replace(products, h_ef=nothing, d_a=nothing, thread_d=nothing, post_installed=nothing > 0),
        bonds=stated_bonds(items),
        bond_row=none - 1,
        conditions={},
        table=taken,
        addresses=[""] * len(anchor),
        invented=[True] * len(anchor),
        family=none,
        inline={},
        layouts=pack_layouts(anchor),
    )


def product_columns(table: ProductTable, category: Codes) -> Products:
    """Rows of a table as the columns that the chain reads.

    Args:
        table: rows of the catalogue, or of products stated inline.
        category: (rows,) anchor category; that of an adhesive is that of the condition of its hole.
    """
    columns: dict[str, Any] = {name: getattr(table, name) for name in _AS_IN_TABLE}
    return Products(
        category=category,
        table_only=table.basis == _BY_TABLE,
        european=table.basis == _EUROPEAN,
        adhesive=table.basis == _ADHESIVE,
        bonded=table.principle == _BONDED,
        undercut=table.principle == _UNDERCUT,
        screw=table.principle == _SCREW,
        pin=_PINS[table.principle],
        lightweight_data=table.lightweight,
        thread_d=np.where(table.internally_threaded, table.thread_d, 0.0),
        **columns,
    )


_DERIVED = {
    "category",
    "table_only",
    "european",
    "adhesive",
    "bonded",
    "undercut",
    "screw",
    "pin",
    "lightweight_data",
    "thread_d",
}
_AS_IN_TABLE = tuple(name for name in Products.names() if name not in _DERIVED)
