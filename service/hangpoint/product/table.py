"""Product data as columns: one row per family, size and embedment, in in, in2, psi, lbf; `EnTable` alone in mm and N.

Files in SI units are converted by the exact factors of the inch, the pound and standard gravity. A column says 0.0
where the data are silent; the state, method and flag columns beside it say whether it may be read.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from itertools import accumulate
from typing import Any, Self, get_type_hints

import numpy as np

from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.product.allowable_rows import AllowableLoad
from hangpoint.product.bond_table import BondTable, bond_table, joined
from hangpoint.product.deck_table import FLUTES, DeckTable, deck_table, joined_decks
from hangpoint.product.en_table import EnTable, en_table, joined_en
from hangpoint.product.family import Family
from hangpoint.product.product_row import product_row

INLINE_FAMILY = -1

DTYPES: Mapping[Any, Any] = {Floats: np.float64, Bools: np.bool_, Codes: np.int8, Index: np.intp}


@dataclass(frozen=True, kw_only=True, eq=False)
class ProductTable:
    """Columns of product data; every array has one entry a row and is read-only."""

    address: tuple[str, ...]
    """family/size/h_ef as printed in the file; "inline" for a product in a request."""
    family_index: Index
    """Index of the family in the catalogue, sorted by id; -1 for a product in a request."""
    invented: Bools
    has_source: Bools
    """Document and date of supplied figures are stated (reading 43)."""
    post_installed: Bools
    basis: Codes
    """Index into `BASES`."""
    principle: Codes
    """Index into `PRINCIPLES`."""
    d_a: Floats
    a_se_n: Floats
    f_uta: Floats
    """As specified: the limit of 17.6.1.2 isn't applied."""
    f_ya: Floats
    ductile: Bools
    internally_threaded: Bools
    thread_d: Floats
    """Nominal diameter of the rod's thread, in; 0.0 where none is stated."""
    h_ef: Floats
    h_min: Floats
    thickness_tested: Bools
    """h_min rests on tests: the limits of 17.9.4 don't hold."""
    c_min: Floats
    c_min_code: Floats
    """Table 17.9.2(a), (b), which holds unless tests say otherwise; 0.0 with tests and where it asks for cover only."""
    s_min: Floats
    s_min_code: Floats
    """Table 17.9.2(a), (b), which holds unless tests say otherwise; 0.0 with tests."""
    c_ac: Floats
    """By tests, or by Table 17.9.5 where ``c_ac_from_code``; 0.0 for cast-in anchors, which have none."""
    c_ac_from_code: Bools
    category: Codes
    """1, 2, 3; 0 for cast-in anchors and where none is stated; the worst of an adhesive anchor's conditions."""
    product_k_c: Bools
    """k_cr and k_uncr come from tests; a factor that isn't stated is 0.0 and its state is not qualified."""
    k_cr: Floats
    k_uncr: Floats
    pullout_method: Codes
    """Index into `PULLOUT_METHODS`."""
    a_brg: Floats
    e_h: Floats
    n_p_cr: Floats
    n_p_cr_state: Codes
    """Index into `PULLOUT_STATES`; absent for cast-in anchors, whose pullout strength is calculated."""
    n_p_uncr: Floats
    n_p_uncr_state: Codes
    n_p_eq: Floats
    n_p_eq_state: Codes
    n_exponent: Floats
    """0.0 where no pullout strength is a number."""
    f_c_ref: Floats
    f_c_ref_silent: Bools
    """N_p or a bond grows with f'c, and the data don't say of which concrete it is."""
    lightweight: Codes
    """Index into `LIGHTWEIGHT`."""
    tension_overhead: Bools
    sustained_tension: Bools
    concrete_allowed: Bools
    masonry_allowed: Bools
    seismic_qualified: Bools
    """Qualified, and with N_p,eq or alpha_N,seis; always true for those of the basis cast_in (17.10.3)."""
    removable: Bools
    ceiling_only: Bools
    """Made for suspended ceilings and nothing else."""
    v_sa: Floats
    """Steel strength in shear by tests; 0.0 where not ``v_sa_tested``."""
    v_sa_tested: Bools
    v_sa_eq: Floats
    v_sa_eq_tested: Bools
    welded_stud: Bools
    distance_sleeve: Bools
    sleeve_silent: Bools
    """The data of a torque-controlled anchor don't say whether it has one."""
    upward: Bools
    """Adhesive qualified for horizontal and upward installation (17.2.3)."""
    least_age_days: Floats
    """Least age of the concrete for an adhesive anchor (17.2.2); 0.0 for all others."""
    bond_start: Index
    """First row of the product in ``bond``."""
    bond_count: Index
    """Rows of the product in ``bond``, one a condition; 0 for all but adhesive anchors."""
    bond: BondTable
    loads: tuple[tuple[AllowableLoad, ...], ...]
    """Rows of the tables of allowable loads of each product."""
    deck_lower: Index
    """Row of the product in ``deck`` for the lower flute, -1 without tests there; ``deck_upper`` likewise."""
    deck_upper: Index
    deck: DeckTable
    en_row: Index
    """Row of the product in ``en``, -1 of those that aren't of the basis en."""
    en: EnTable
    """In mm, N, N/mm2, unlike all other columns."""
    hole_depth: Floats
    """Depth of the drilled hole, in; 0.0 where none is stated."""
    steel: Codes
    """Index into `STEELS`, as ``coating`` into `COATINGS`; -1 where the material isn't stated."""
    coating: Codes

    def __len__(self) -> int:
        return len(self.address)

    def take(self, rows: Index) -> Self:
        """The given rows, in that order, as a table."""
        columns: dict[str, Any] = {}
        for names, block in self._blocks:
            taken = block[:, rows]
            taken.setflags(write=False)
            columns.update(zip(names, taken, strict=True))
        at: list[int] = rows.tolist()
        return type(self)(
            address=tuple(map(self.address.__getitem__, at)),
            bond=self.bond,
            deck=self.deck,
            en=self.en,
            loads=tuple(map(self.loads.__getitem__, at)),
            **columns,
        )

    @cached_property
    def _blocks(self) -> list[tuple[tuple[str, ...], np.ndarray[Any, Any]]]:
        """The columns of one type side by side, (columns, rows), with their names: rows of all are taken at once."""
        names: dict[Any, list[str]] = {}
        for name, dtype in _ARRAYS.items():
            names.setdefault(dtype, []).append(name)
        return [(tuple(own), np.stack([getattr(self, name) for name in own])) for own in names.values()]

    def bond_row(self, row: int, temperature: str, hole: str) -> int | None:
        """Row of ``bond`` for a row of the table in a condition; None if the product has no such condition."""
        start = int(self.bond_start[row])
        for at in range(start, start + int(self.bond_count[row])):
            if self.bond.condition(at) == (temperature, hole):
                return at
        return None

    def bond_conditions(self, row: int) -> tuple[tuple[str, str], ...]:
        """The conditions of a product: temperature range and state of the hole, in the order of its data."""
        start = int(self.bond_start[row])
        return tuple(self.bond.condition(at) for at in range(start, start + int(self.bond_count[row])))


_TYPES = get_type_hints(ProductTable)
_ARRAYS: dict[str, Any] = {
    field.name: DTYPES[_TYPES[field.name]]
    for field in fields(ProductTable)
    if field.name not in ("address", "bond", "deck", "en", "loads")
}


def concatenate(tables: Iterable[ProductTable]) -> ProductTable:
    """The rows of all tables, in order."""
    parts = tuple(tables)
    empty: dict[str, Any] = {name: np.empty(0, dtype=dtype) for name, dtype in _ARRAYS.items()}
    columns: dict[str, Any] = {
        name: np.concatenate([empty[name], *(getattr(part, name) for part in parts)]) for name in _ARRAYS
    }
    columns["bond_start"] += _offsets(parts, [len(part.bond) for part in parts])
    decks, en = (_offsets(parts, [len(getattr(part, inner)) for part in parts]) for inner in ("deck", "en"))
    for name, offsets in (*((f"deck_{flute}", decks) for flute in FLUTES), ("en_row", en)):
        row = columns[name]
        row[row >= 0] += offsets[row >= 0]
    _freeze(columns)
    return ProductTable(
        address=tuple(address for part in parts for address in part.address),
        bond=joined(part.bond for part in parts),
        loads=tuple(own for part in parts for own in part.loads),
        deck=joined_decks(part.deck for part in parts),
        en=joined_en(part.en for part in parts),
        **columns,
    )


def _freeze(columns: Mapping[str, np.ndarray[Any, Any]]) -> None:
    for column in columns.values():
        column.setflags(write=False)


def _offsets(parts: tuple[ProductTable, ...], lengths: list[int]) -> Index:
    """By how much the rows of an inner table move where the tables are joined, a number a product."""
    before = np.cumsum([0, *lengths[:-1]], dtype=np.intp)[: len(parts)]
    return np.repeat(before, [len(part) for part in parts])


def family_table(families: Iterable[Family]) -> ProductTable:
    """One row per size and embedment of the families, in their order."""
    return _table(list(_family_rows(families)))


def depth_text(h_ef: float) -> str:
    """h_ef as an address prints it: the number of the file without trailing zeros."""
    return format(h_ef, ".12g")


def _family_rows(families: Iterable[Family]) -> Iterator[dict[str, Any]]:
    for index, family in enumerate(families):
        for size in family.sizes:
            for embedment in size.embedments:
                row = product_row(
                    principle=family.principle,
                    basis=family.basis,
                    units=family.units,
                    traits=family.traits,
                    size=size,
                    embedment=embedment,
                    tables=family.tables,
                    material=family.material,
                )
                yield row | {
                    "address": f"{family.id}/{size.size}/{depth_text(embedment.h_ef)}",
                    "family_index": index,
                    "invented": family.invented,
                    "has_source": family.source is not None,
                }


def one_row_table(row: Mapping[str, Any]) -> ProductTable:
    """A table of one row of scalars, named as the columns."""
    return _table([row])


def _table(rows: list[Any]) -> ProductTable:
    counts = [len(row["bond"]) for row in rows]
    starts = accumulate(counts, initial=0)
    placed = [
        row | {"bond_start": start, "bond_count": count} | placed_deck | {"en_row": en_place}
        for row, start, count, placed_deck, en_place in zip(
            rows, starts, counts, _deck_places(rows), _en_places(rows), strict=False
        )
    ]
    columns: dict[str, Any] = {
        name: np.array([row[name] for row in placed], dtype=dtype) for name, dtype in _ARRAYS.items()
    }
    bond = bond_table(entry for row in rows for entry in row["bond"])
    address, loads = (tuple(row[name] for row in rows) for name in ("address", "loads"))
    _freeze(columns)
    deck = deck_table(entry for row in rows for entry in row["deck"].values())
    en = en_table(row["en"] for row in rows if row["en"] is not None)
    return ProductTable(address=address, bond=bond, deck=deck, en=en, loads=loads, **columns)


def _deck_places(rows: list[Any]) -> Iterator[dict[str, int]]:
    """Row of each flute of each product in the table of decks, -1 without one."""
    start = 0
    for row in rows:
        place = {flute: start + at for at, flute in enumerate(row["deck"])}
        yield {f"deck_{flute}": place.get(flute, -1) for flute in FLUTES}
        start += len(place)


def _en_places(rows: list[Any]) -> Iterator[int]:
    """Row of each product in the table of figures for EN 1992-4, -1 without one."""
    start = 0
    for row in rows:
        stated = row["en"] is not None
        yield start if stated else -1
        start += stated
