"""Items of a take-off as columns: products, rods and what ends them, quantities, places."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import TakeOffAssumption, TakeOffNotCounted
from hangpoint.pack.anchors import inline_products, product_rows
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.labels import set_of_anchors
from hangpoint.pack.layouts import pack_layouts
from hangpoint.pack.pull import Object, Rows, convert
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.inline import InlineProduct
from hangpoint.product.stocked import StockedProduct, stocked_inline, stocked_products
from hangpoint.units import COORDINATE, DISTANCE, System

NUTS, WASHERS = 2, 2
"""That end a rod where the request states none. Common practice, no source."""
_LENGTH_DECIMALS = 6
"""Of a length in ft, when the rods of alternatives are compared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOffItems:
    """Columns of the valid items, (n,) each; ``index`` is the row in the request.

    ``product`` and ``rod`` are places in ``products`` and ``rods``, the latter -1 where there is none. ``l_rod`` is in
    ft, 0 where none is stated. ``notes`` are what of an item is in no count, ``assumed`` the defaults taken.
    """

    index: Sequence[int]
    ids: Sequence[str]
    level: Sequence[str | None]
    trade: Sequence[str | None]
    area: Sequence[str | None]
    tags: Sequence[Sequence[str]]
    quantity: Floats
    n_layout: Floats
    product: Index
    products: Sequence[StockedProduct]
    rod: Index
    rods: Sequence[tuple[str, str]]
    n_rod: Floats
    l_rod: Floats
    n_nut: Floats
    n_washer: Floats
    n_coupling: Floats
    notes: Sequence[Sequence[TakeOffNotCounted]]
    assumed: frozenset[TakeOffAssumption]

    @property
    def count(self) -> int:
        """Of the items."""
        return len(self.ids)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rods:
    kind: Index
    kinds: Sequence[tuple[str, str]]
    number: Floats
    length: Floats
    nuts: Floats
    washers: Floats
    couplings: Floats
    joint_open: Bools
    assumed: frozenset[TakeOffAssumption]


def pack_take_off(
    objects: Sequence[Object],
    *,
    default: Object,
    index: Sequence[int],
    system: System,
    catalogue: Catalogue,
    flaws: Flaws,
) -> TakeOffItems:
    """Read the items.

    Flaws: those of products and layouts, a rod that no table has, a length that is none, a rod without a size.
    """
    items = Rows(objects, default=default, path="", index=index, local=range(len(objects)), system=system, flaws=flaws)
    anchor, place = items.child("anchor"), items.child("at")
    product, products = _products(anchor, catalogue)
    layouts = pack_layouts(anchor)
    place_of: list[int] = product.tolist()
    rods = _rods(items.child("rod"), [products[at] for at in place_of], layouts.count)
    quantity = items.numbers("quantity", 1.0)
    again = _again(items, place, product, layouts.count, rods, quantity)
    notes = [
        [
            *([TakeOffNotCounted.ALTERNATIVE] if other else []),
            *([TakeOffNotCounted.NO_ROD] if kind < 0 else [TakeOffNotCounted.ROD_LENGTH] if length == 0 else []),
            *([TakeOffNotCounted.ROD_JOINT] if joint else []),
            *([] if products[own].commercial else [TakeOffNotCounted.COMMERCIAL]),
            *([TakeOffNotCounted.HOLE] if products[own].hole_open else []),
            *([TakeOffNotCounted.OVERHEAD_ADHESIVE] if products[own].adhesive else []),
        ]
        for other, kind, length, joint, own in zip(
            again.tolist(), rods.kind.tolist(), rods.length.tolist(), rods.joint_open.tolist(), place_of, strict=True
        )
    ]
    assumed = set(rods.assumed)
    if items.silent("quantity").any():
        assumed.add(TakeOffAssumption.QUANTITY)
    return TakeOffItems(
        index=index,
        ids=items.values("id"),
        level=place.values("level"),
        trade=items.values("trade"),
        area=items.values("area"),
        tags=[own or () for own in items.values("tags")],
        quantity=np.where(again, 0.0, quantity),
        n_layout=layouts.count.astype(np.float64),
        product=product,
        products=products,
        rod=rods.kind,
        rods=rods.kinds,
        n_rod=rods.number,
        l_rod=rods.length,
        n_nut=rods.nuts,
        n_washer=rods.washers,
        n_coupling=rods.couplings,
        notes=notes,
        assumed=frozenset(assumed),
    )


def _again(items: Rows, place: Rows, product: Index, anchors: Index, rods: _Rods, quantity: Floats) -> Bools:
    """(items,) whether the anchors of an item are those of an earlier one, under a load that doesn't act with its own.

    Items of one name that differ in what is counted or in their place are sets of their own.
    """
    names = items.values("alternative_of")
    lengths = np.round(rods.length, _LENGTH_DECIMALS)
    columns = (product, anchors, quantity, rods.kind, rods.number, lengths, rods.nuts, rods.washers, rods.couplings)
    counted = np.column_stack(columns).tolist()
    axes = np.column_stack([convert(place.values(name), COORDINATE, place.system) for name in "xyz"]).tolist()
    levels, members = place.values("level"), items.child("base").values("member")
    seen: set[object] = set()
    again = np.zeros(len(names), dtype=np.bool_)
    for at, name in enumerate(names):
        if name is not None:
            own = (set_of_anchors(name, levels[at], members[at], axes[at]), *counted[at])
            again[at] = own in seen
            seen.add(own)
    return again


def _products(anchor: Rows, catalogue: Catalogue) -> tuple[Index, Sequence[StockedProduct]]:
    """The product of each item, as its place among those that occur."""
    inline = inline_products(anchor)
    _, rows = product_rows(anchor, catalogue, inline)
    known = list(stocked_products(catalogue))
    first = len(known)
    products: dict[StockedProduct, int] = {}
    places: list[int] = []
    of_items: list[int] = rows.tolist()
    for at, row in enumerate(of_items):
        own = known[row] if row < first else stocked_inline(_inline(inline[at]))
        places.append(products.setdefault(own, len(products)))
    return np.array(places, dtype=np.intp), list(products)


def _inline(product: object) -> InlineProduct:
    return product if isinstance(product, InlineProduct) else InlineProduct.model_validate(product)


def _rods(rod: Rows, products: Sequence[StockedProduct], anchors: Index) -> _Rods:
    """Rods of the items. Unless stated, a coupling joins a rod to the same external thread of an anchor of its own."""
    sizes = rod.values("size")
    stated = np.array([size is not None for size in sizes], dtype=np.bool_)
    for at, size in enumerate(sizes):
        if size is not None and size not in THREADS:
            rod.flaw(
                at, "size", "There is no rod of this size in the tables.", slug="unknown-option", allowed=tuple(THREADS)
            )
        if size is None and any(name in rod.objects[at] for name in ("length", "number", "ends")):
            rod.flaw(at, "size", "The size of the rod is required here or in the defaults.", code="missing")
    length = rod.quantity("length", DISTANCE, fill=0.0)
    lengths = rod.values("length")
    for at in np.flatnonzero(length == 0).tolist():
        if lengths[at] is not None:
            rod.flaw(at, "length", "The length of a rod is more than 0.", slug="quantity")
    ends = rod.child("ends")
    threads = [own.thread for own in products]
    inside = np.array([own.internally_threaded for own in products], dtype=np.bool_)
    same = np.array([size == thread for size, thread in zip(sizes, threads, strict=True)], dtype=np.bool_)
    number = np.where(stated, rod.numbers("number", 1.0), 0.0)
    own_anchor = number == anchors
    joined = same & own_anchor
    couplings = ends.numbers("couplings", np.nan)
    silent = np.isnan(couplings)
    kinds: dict[tuple[str, str], int] = {}
    materials = rod.values("material")
    kind = [
        -1 if size is None else kinds.setdefault((size, material or "unknown"), len(kinds))
        for size, material in zip(sizes, materials, strict=True)
    ]
    assumed: set[TakeOffAssumption] = set()
    if (stated & rod.silent("number")).any():
        assumed.add(TakeOffAssumption.ONE_ROD)
    if (stated & (ends.silent("nuts") | ends.silent("washers"))).any():
        assumed.add(TakeOffAssumption.ENDS)
    if (silent & stated & joined).any():
        assumed.add(TakeOffAssumption.ANCHOR_COUPLING)
    return _Rods(
        kind=np.array(kind, dtype=np.intp),
        kinds=list(kinds),
        number=number,
        length=np.where(stated, length, 0.0),
        nuts=np.where(stated, ends.numbers("nuts", NUTS), 0.0),
        washers=np.where(stated, ends.numbers("washers", WASHERS), 0.0),
        couplings=np.where(stated, np.where(silent, joined & ~inside, couplings), 0.0),
        joint_open=(number > 0) & silent & ~joined,
        assumed=frozenset(assumed),
    )
