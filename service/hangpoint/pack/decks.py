"""The flute of a filled steel deck as columns, and the strengths tested there in place of those in concrete."""

from dataclasses import replace

import numpy as np

from hangpoint.core.hang_point.columns import columns_of
from hangpoint.core.hang_point.points import IN_FIGURES, NOT_QUALIFIED, TESTED, Plates, Products
from hangpoint.core.hang_point.surroundings import DECK, LOWER, UPPER, Decks, DeckTests
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.pack.geometry import SAME_PLACE
from hangpoint.pack.layouts import PackedLayouts
from hangpoint.pack.pull import Rows, filled
from hangpoint.product.table import ProductTable
from hangpoint.units import LENGTH, OFFSET

_FLUTES = {"lower": LOWER, "upper": UPPER}
_DIRECTIONS = {"x": 0, "y": 1}
_ROUNDING = 1e-9


def pack_decks(
    items: Rows,
    kinds: Codes,
    table: ProductTable,
    products: Products,
    layouts: PackedLayouts,
    plates: Plates,
    thickness: Floats,
) -> tuple[Decks, Products]:
    """Read ``base.deck``, and take the products' strengths in that flute.

    Args:
        items: of a batch.
        kinds: (items,) of their bases.
        table: the products of the items; ``products`` are the same for concrete.
        layouts, plates: their anchors, and the plates over them.
        thickness: (items,) from the lowest flute to the top of the fill, in.

    Flaws: a flute, width, offset or cover that is missing; a cover that reaches below
    the deck; an embedment beyond the fill; anchors or a plate beside the origin without the direction of the flutes; a
    plate that is to bear beside its flute.
    """
    base = items.child("base")
    deck = base.child("deck")
    own = kinds == DECK
    if not np.count_nonzero(own):
        return _no_decks(len(items)), products
    flute = deck.codes("flute", _FLUTES, what="The flute that the anchor is in", absent=LOWER, where=own)
    width = deck.quantity("flute_width", LENGTH, what="The width of the flute", fill=1.0, where=own)
    offset = deck.quantity("offset", OFFSET, what="The offset from the centre of the flute", fill=0.0, where=own)
    cover = deck.quantity("cover", LENGTH, what="The fill above the top of the deck", fill=1.0, where=own)
    _fits(items, own & ~deck.silent("cover"), flute=flute, cover=cover, thickness=thickness, h_ef=products.h_ef)
    bears = own & plates.contact & ~deck.silent("flute_width")
    past_x, past_y = _past_flutes(plates, offset=offset, width=width)
    asked = bears & (past_x != past_y)
    across = _across(deck, own, layouts, asked=asked)
    past = np.where(across == 0, past_x, past_y)
    _within_flutes(items, bears & past & ~(asked & deck.silent("direction")))
    tests, products = in_flutes(table, products, flute, own)
    decks = Decks(
        in_deck=own,
        all_lightweight=own & np.array([value == "all_lightweight" for value in base.values("density")]),
        flute=flute,
        width=np.where(own, width, 0.0),
        offset=np.where(own, _most_offset(offset, layouts, across), 0.0),
        cover=np.where(own, cover, 0.0),
        sheet=deck.quantity("sheet", LENGTH, fill=0.0),
        **columns_of(tests),
    )
    return decks, products


def in_flutes(table: ProductTable, products: Products, flute: Codes, own: Bools) -> tuple[DeckTests, Products]:
    """What was tested of each product in a flute: the limits of the tests, and the strengths in place of others.

    Args:
        table, products: the same rows.
        flute: (rows,) `LOWER` or `UPPER`.
        own: (rows,) the anchor is in a deck at all.
    """
    row = np.where(flute == UPPER, table.deck_upper, table.deck_lower)
    tested = own & (row >= 0)
    limits = {name: _of_tests(table, name, row, tested) for name in ("flute_width", "offset", "cover", "sheet")}
    tests = DeckTests(
        tested=tested,
        width_min=limits["flute_width"],
        offset_max=limits["offset"],
        cover_min=limits["cover"],
        sheet_min=limits["sheet"],
    )
    return tests, _tested_products(table, products, row, tested) if tested.any() else products


def _no_decks(count: int) -> Decks:
    none, zero = filled(count, False, np.bool_), filled(count, 0.0)
    return Decks(
        in_deck=none,
        tested=none,
        all_lightweight=none,
        flute=filled(count, LOWER, np.int8),
        width=zero,
        offset=zero,
        cover=zero,
        sheet=zero,
        width_min=zero,
        offset_max=zero,
        cover_min=zero,
        sheet_min=zero,
    )


def _fits(items: Rows, own: Bools, *, flute: Codes, cover: Floats, thickness: Floats, h_ef: Floats) -> None:
    """The fill is above the deck, and the embedment ends within it."""
    base = items.child("base")
    for at in np.flatnonzero(own & (cover >= thickness * (1 - _ROUNDING))).tolist():
        detail = "The fill above the deck is not less than the thickness, which reaches down to the lowest flute."
        base.flaw(at, "deck/cover", detail, slug="impossible-geometry")
    for at in np.flatnonzero(own & (flute == UPPER) & (h_ef >= cover * (1 - _ROUNDING))).tolist():
        detail = "The embedment reaches or passes the top of the fill above the upper flute."
        items.flaw(at, "anchor/h_ef", detail, slug="impossible-geometry")


def _across(deck: Rows, own: Bools, layouts: PackedLayouts, *, asked: Bools) -> Codes:
    """(items,) the axis across the flutes, 0 for x and 1 for y: of anchors beside the origin, and where it is asked."""
    anchors = layouts.layouts
    beside = np.bincount(anchors.point, weights=(anchors.x != 0) | (anchors.y != 0), minlength=len(own)) > 0
    along = deck.codes(
        "direction",
        _DIRECTIONS,
        what="Of anchors beside the origin of their layout, or a wide plate, the direction of the flutes, x or y,",
        absent=0,
        where=own & (beside | asked),
    )
    return 1 - along


def _most_offset(offset: Floats, layouts: PackedLayouts, across: Codes) -> Floats:
    """(items,) the largest offset of any anchor from the centre of its flute."""
    anchors = layouts.layouts
    place = np.where(across[anchors.point] == 0, anchors.x, anchors.y)
    found = np.zeros(len(across))
    np.maximum.at(found, anchors.point, np.abs(offset[anchors.point] + place))
    return found


def _past_flutes(plates: Plates, *, offset: Floats, width: Floats) -> tuple[Bools, Bools]:
    """(items,) each: the plate reaches past a flute that x is across, and past one that y is across."""
    sides = ((plates.x0, plates.x1), (plates.y0, plates.y1))
    past_x, past_y = (np.maximum(offset + high, -offset - low) > width / 2 + SAME_PLACE for low, high in sides)
    return past_x, past_y


def _within_flutes(items: Rows, past: Bools) -> None:
    """A plate that bears has its flute above all of it: beside that there is air, or the side of the deck."""
    detail = 'The plate reaches past the flute, where nothing bears: state the part that bears, or its support "free".'
    for at in np.flatnonzero(past).tolist():
        items.flaw(at, "attachment/plate", detail, slug="impossible-geometry", code="beyond-edge")


def _of_tests(table: ProductTable, name: str, row: Index, tested: Bools) -> Floats:
    """A column of the deck data, 0 where there are none."""
    column = np.zeros(len(row))
    column[tested] = getattr(table.deck, name)[row[tested]]
    return column


def _tested_products(table: ProductTable, products: Products, row: Index, tested: Bools) -> Products:
    """The products with what was tested in the flute where anything was."""

    def taken(name: str, otherwise: Floats) -> Floats:
        return np.where(tested, _of_tests(table, name, row, tested), otherwise)

    def state(name: str, otherwise: Codes) -> Codes:
        stated = _of_tests(table, name, row, tested) > 0
        return np.where(tested, np.where(stated, IN_FIGURES, NOT_QUALIFIED), otherwise).astype(np.int8)

    def qualified(name: str, otherwise: Bools) -> Bools:
        return np.where(tested, _of_tests(table, name, row, tested) > 0, otherwise)

    zero = np.zeros(len(row))
    return replace(
        products,
        table_only=products.table_only & ~tested,
        concrete_allowed=products.concrete_allowed | tested,
        n_p_cr=taken("n_cr", products.n_p_cr),
        n_p_cr_state=state("n_cr", products.n_p_cr_state),
        n_p_uncr=taken("n_uncr", products.n_p_uncr),
        n_p_uncr_state=state("n_uncr", products.n_p_uncr_state),
        n_p_eq=taken("n_eq", products.n_p_eq),
        n_p_eq_state=state("n_eq", products.n_p_eq_state),
        n_exponent=taken("exponent", products.n_exponent),
        f_c_ref=taken("f_c_ref", products.f_c_ref),
        lightweight_data=np.where(tested, TESTED, products.lightweight_data).astype(np.int8),
        seismic_qualified=qualified("n_eq", products.seismic_qualified),
        product_k_c=products.product_k_c & ~tested,
        v_sa=taken("v_sa", products.v_sa),
        v_sa_tested=qualified("v_sa", products.v_sa_tested),
        v_sa_eq=taken("v_sa_eq", products.v_sa_eq),
        v_sa_eq_tested=qualified("v_sa_eq", products.v_sa_eq_tested),
        c_min=taken("c_min", products.c_min),
        c_min_code=np.where(tested, zero, products.c_min_code),
        s_min=taken("s_min", products.s_min),
        s_min_code=np.where(tested, zero, products.s_min_code),
        h_min=np.where(tested, zero, products.h_min),
        thickness_tested=products.thickness_tested | tested,
    )
