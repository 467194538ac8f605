"""Product data as columns: one row per family, size and embedment, in the units of the core (in, in2, psi, lbf).

Files in SI units are converted by the exact factors of the inch, the pound and standard gravity. A column says 0.0
where the data are silent; the state, method and flag columns beside it say whether it may be read.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from fractions import Fraction
from itertools import accumulate
from typing import Any, Self, get_args, get_type_hints

import numpy as np

from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.product.allowable_rows import AllowableLoad, allowable_rows
from hangpoint.product.allowable_table import AllowableTable
from hangpoint.product.bond_table import BondTable, bond_row, bond_table, joined
from hangpoint.product.deck_table import FLUTES, DeckTable, deck_row, deck_table, joined_decks
from hangpoint.product.embedment import Embedment, Lightweight
from hangpoint.product.family import Basis, Coating, Family, Material, Principle, SizeData, Steel, Suitability
from hangpoint.product.fields import Units
from hangpoint.product.principles import CAST_IN, EDGE_DIAMETERS, LEAST_AGE_DAYS, MM_PER_INCH

BASES: tuple[str, ...] = get_args(Basis)
PRINCIPLES: tuple[str, ...] = get_args(Principle)
STEELS: tuple[str, ...] = get_args(Steel)
COATINGS: tuple[str, ...] = get_args(Coating)
PULLOUT_METHODS = ("product", "headed", "hooked")
PULLOUT_STATES = ("absent", "number", "not_governing")
LIGHTWEIGHT: tuple[str, ...] = get_args(Lightweight)

NEWTONS_PER_POUND = 4.4482216152605
PSI_PER_MPA = MM_PER_INCH**2 / NEWTONS_PER_POUND
POUNDS_PER_KILONEWTON = 1000 / NEWTONS_PER_POUND
K_US_PER_SI = MM_PER_INCH**1.5 / math.sqrt(PSI_PER_MPA) / NEWTONS_PER_POUND
"""Factor of k_c: lbf/(psi^0.5 in^1.5) for N/(MPa^0.5 mm^1.5)."""

F_C_REFERENCE = 2500.0
"""Concrete strength, psi, that pullout strengths are stated for unless the data say otherwise (ACI 355.2)."""

C_AC_EMBEDMENTS = {"undercut": 2.5, "adhesive": 2.0}
C_AC_EMBEDMENTS_OTHERWISE = 4.0
INLINE_FAMILY = -1

_DTYPES: Mapping[Any, Any] = {Floats: np.float64, Bools: np.bool_, Codes: np.int8, Index: np.intp}


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
    """Table 17.9.2(b), which holds unless tests say otherwise; 0.0 with tests and for cast-in anchors."""
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
    lightweight: Codes
    """Index into `LIGHTWEIGHT`."""
    tension_overhead: Bools
    sustained_tension: Bools
    concrete_allowed: Bools
    masonry_allowed: Bools
    seismic_qualified: Bools
    """Qualified, and with N_p,eq or alpha_N,seis; always true for those of the basis cast_in (17.10.3)."""
    removable: Bools
    v_sa: Floats
    """Steel strength in shear by tests; 0.0 where not ``v_sa_tested``."""
    v_sa_tested: Bools
    v_sa_eq: Floats
    v_sa_eq_tested: Bools
    welded_stud: Bools
    distance_sleeve: Bools
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
    hole_depth: Floats
    """Depth of the drilled hole, in; 0.0 where none is stated."""
    steel: Codes
    """Index into `STEELS`, as ``coating`` into `COATINGS`; -1 where the material isn't stated."""
    coating: Codes

    def __post_init__(self) -> None:
        for name in _ARRAYS:
            getattr(self, name).setflags(write=False)

    def __len__(self) -> int:
        return len(self.address)

    def take(self, rows: Index) -> Self:
        """The given rows, in that order, as a table."""
        columns: dict[str, Any] = {name: getattr(self, name)[rows] for name in _ARRAYS}
        at: list[int] = rows.tolist()
        return type(self)(
            address=tuple(map(self.address.__getitem__, at)),
            bond=self.bond,
            deck=self.deck,
            loads=tuple(map(self.loads.__getitem__, at)),
            **columns,
        )

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


_ARRAYS: dict[str, Any] = {
    field.name: _DTYPES[get_type_hints(ProductTable)[field.name]]
    for field in fields(ProductTable)
    if field.name not in ("address", "bond", "deck", "loads")
}


def concatenate(tables: Iterable[ProductTable]) -> ProductTable:
    """The rows of all tables, in order."""
    parts = tuple(tables)
    empty: dict[str, Any] = {name: np.empty(0, dtype=dtype) for name, dtype in _ARRAYS.items()}
    columns: dict[str, Any] = {
        name: np.concatenate([empty[name], *(getattr(part, name) for part in parts)]) for name in _ARRAYS
    }
    columns["bond_start"] += _offsets(parts, [len(part.bond) for part in parts])
    decks = _offsets(parts, [len(part.deck) for part in parts])
    for flute in FLUTES:
        row = columns[f"deck_{flute}"]
        row[row >= 0] += decks[row >= 0]
    return ProductTable(
        address=tuple(address for part in parts for address in part.address),
        bond=joined(part.bond for part in parts),
        loads=tuple(own for part in parts for own in part.loads),
        deck=joined_decks(part.deck for part in parts),
        **columns,
    )


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
    placed = [
        row | {"bond_start": start, "bond_count": count} | placed_deck
        for row, start, count, placed_deck in zip(
            rows, accumulate(counts, initial=0), counts, _deck_places(rows), strict=False
        )
    ]
    columns: dict[str, Any] = {
        name: np.array([row[name] for row in placed], dtype=dtype) for name, dtype in _ARRAYS.items()
    }
    bond = bond_table(entry for row in rows for entry in row["bond"])
    address, loads = (tuple(row[name] for row in rows) for name in ("address", "loads"))
    deck = deck_table(entry for row in rows for entry in row["deck"].values())
    return ProductTable(address=address, bond=bond, deck=deck, loads=loads, **columns)


def _deck_places(rows: list[Any]) -> Iterator[dict[str, int]]:
    """Row of each flute of each product in the table of decks, -1 without one."""
    start = 0
    for row in rows:
        place = {flute: start + at for at, flute in enumerate(row["deck"])}
        yield {f"deck_{flute}": place.get(flute, -1) for flute in FLUTES}
        start += len(place)


def thread_diameter(thread: str | None) -> float:
    """Nominal diameter of a thread, in, from its word (3/8, 1-1/4, M10); 0.0 without one."""
    if thread is None:
        return 0.0
    if thread.startswith("M"):
        return float(thread[1:]) / MM_PER_INCH
    return float(sum(Fraction(part) for part in thread.split("-")))


@dataclass(frozen=True, kw_only=True)
class _Factors:
    """What turns the numbers of a file into in, in2, psi, lbf and the k_c of those."""

    length: float
    area: float
    stress: float
    force: float
    k_c: float


_FACTORS = {
    "us": _Factors(length=1.0, area=1.0, stress=1.0, force=1.0, k_c=1.0),
    "si": _Factors(
        length=1 / MM_PER_INCH,
        area=1 / MM_PER_INCH**2,
        stress=PSI_PER_MPA,
        force=POUNDS_PER_KILONEWTON,
        k_c=K_US_PER_SI,
    ),
}


def product_row(
    *,
    principle: str,
    basis: str,
    units: Units,
    traits: Suitability,
    size: SizeData,
    embedment: Embedment,
    material: Material | None,
    tables: Sequence[AllowableTable] = (),
) -> dict[str, Any]:
    """The scalars of one row, named as the columns, without address, family and source.

    Under ``bond`` and ``deck`` stand the rows of its conditions and, by flute, those of its deck data, under ``loads``
    its rows of the tables of allowable loads.
    """
    factors = _FACTORS[units]
    cast_in = principle in CAST_IN
    row: dict[str, Any] = {
        "post_installed": not cast_in,
        "basis": BASES.index(basis),
        "principle": PRINCIPLES.index(principle),
        "d_a": size.d_a * factors.length,
        "a_se_n": size.a_se * factors.area,
        "f_uta": size.f_uta * factors.stress,
        "f_ya": size.f_ya * factors.stress,
        "ductile": size.ductile,
        "internally_threaded": traits.internally_threaded,
        "thread_d": thread_diameter(size.thread),
        "h_ef": embedment.h_ef * factors.length,
        "h_min": embedment.h_min * factors.length,
        "thickness_tested": embedment.thickness_tested,
        "c_min": embedment.c_min * factors.length,
        "c_min_code": 0.0 if embedment.spacing_tested else EDGE_DIAMETERS.get(principle, 0) * size.d_a * factors.length,
        "s_min": embedment.s_min * factors.length,
        "s_min_code": _s_min_code(size, embedment, principle=principle) * factors.length,
        "category": max((each.category for each in embedment.bond), default=embedment.category or 0),
        "product_k_c": embedment.k_cr is not None or embedment.k_uncr is not None,
        "k_cr": (embedment.k_cr or 0.0) * factors.k_c,
        "k_uncr": (embedment.k_uncr or 0.0) * factors.k_c,
        "pullout_method": 1 if size.head else 2 if size.hook else 0,
        "a_brg": size.head.a_brg * factors.area if size.head else 0.0,
        "e_h": size.hook.e_h * factors.length if size.hook else 0.0,
        "n_exponent": embedment.n_exponent or 0.0,
        "f_c_ref": F_C_REFERENCE if embedment.f_c_ref is None else embedment.f_c_ref * factors.stress,
        "lightweight": LIGHTWEIGHT.index(embedment.lightweight),
        "tension_overhead": traits.tension_overhead,
        "sustained_tension": traits.sustained_tension,
        "concrete_allowed": "concrete" in traits.bases,
        "masonry_allowed": "masonry" in traits.bases,
        "seismic_qualified": basis == "cast_in"
        or (embedment.seismic and (embedment.n_p_eq is not None or any(each.alpha_n_seis for each in embedment.bond))),
        "removable": traits.removable,
        "welded_stud": size.head is not None and size.head.welded_stud,
        "distance_sleeve": embedment.distance_sleeve,
        "upward": traits.upward,
        "least_age_days": _least_age(traits, principle),
        "bond": [
            bond_row(each, stress=factors.stress, fahrenheit=units == "us", f_c_reference=F_C_REFERENCE)
            for each in embedment.bond
        ],
        "loads": allowable_rows(
            tables,
            size=size.size,
            h_ef=embedment.h_ef,
            h_min=embedment.h_min,
            length=factors.length,
            stress=factors.stress,
            force=factors.force,
        ),
        "deck": {
            each.flute: deck_row(each, length=factors.length, stress=factors.stress, force=factors.force)
            for each in embedment.deck
        },
        "hole_depth": embedment.hole.depth * factors.length if embedment.hole else 0.0,
        "steel": STEELS.index(material.steel) if material else -1,
        "coating": COATINGS.index(material.coating) if material else -1,
    }
    return row | _c_ac(embedment, principle=principle, length=factors.length) | _strengths(embedment, factors.force)


def _s_min_code(size: SizeData, embedment: Embedment, *, principle: str) -> float:
    """Least spacing of Table 17.9.2, in the unit of the file."""
    if embedment.spacing_tested:
        return 0.0
    if principle in CAST_IN:
        return (4 if embedment.torque is None else 6) * size.d_a
    if principle not in EDGE_DIAMETERS:
        return 0.0
    return max(6 * size.d_a, 0.6 * embedment.h_ef if principle == "screw" else 0.0)


def _least_age(traits: Suitability, principle: str) -> float:
    if principle != "adhesive":
        return 0.0
    return LEAST_AGE_DAYS if traits.least_age_days is None else traits.least_age_days


def _c_ac(embedment: Embedment, *, principle: str, length: float) -> dict[str, Any]:
    """c_ac of the tests, or of Table 17.9.5; none for cast-in anchors."""
    if embedment.c_ac is not None:
        return {"c_ac": embedment.c_ac * length, "c_ac_from_code": False}
    if principle in CAST_IN:
        return {"c_ac": 0.0, "c_ac_from_code": False}
    embedments = C_AC_EMBEDMENTS.get(principle, C_AC_EMBEDMENTS_OTHERWISE)
    return {"c_ac": embedments * embedment.h_ef * length, "c_ac_from_code": True}


def _strengths(embedment: Embedment, force: float) -> dict[str, Any]:
    row: dict[str, Any] = {}
    for name in ("v_sa", "v_sa_eq"):
        tested: float | None = getattr(embedment, name)
        row[name] = (tested or 0.0) * force
        row[f"{name}_tested"] = tested is not None
    for name in ("n_p_cr", "n_p_uncr", "n_p_eq"):
        value: float | str | None = getattr(embedment, name)
        row[name] = value * force if isinstance(value, float) else 0.0
        row[f"{name}_state"] = 0 if value is None else 1 if isinstance(value, float) else 2
    return row
