"""Rules between the fields of a family that a schema can't say. Clauses are of ACI 318-19 where nothing else is said.

What holds within one row stands in `row_rules`, what holds for the bond of adhesive anchors in `bond_rules`. Rules
across a family, and those that `row_rules` keeps for files, hold for files only.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError

from hangpoint.product.allowable_table import table_flaws
from hangpoint.product.deck import deck_flaws
from hangpoint.product.en_rules import (
    Valued,
    en_file_flaws,
    en_flaws,
    en_product_flaws,
    en_qualifications,
    en_size_flaws,
    en_strengths,
)
from hangpoint.product.principles import LEAST_AGE_DAYS, PRINCIPLES_OF_BASIS, Flaw
from hangpoint.product.row_rules import (
    PULLOUTS,
    embedment_flaws,
    file_flaws,
    hook_flaws,
    provision_flaws,
    size_flaws,
)

if TYPE_CHECKING:
    from hangpoint.product.allowable_table import AllowableTable
    from hangpoint.product.embedment import Embedment
    from hangpoint.product.family import FamilyData, SizeData, Suitability
    from hangpoint.product.inline import InlineProduct


def refuse_first(flaws: Iterator[Flaw]) -> None:
    """Raise for the first flaw. The error's context carries the place as ``path``, to be put after its ``loc``.

    Raises:
        PydanticCustomError: of type ``product``, which pydantic turns into a validation error.
    """
    flaw = next(flaws, None)
    if flaw is not None:
        raise PydanticCustomError("product", "{reason}", {"reason": flaw.reason, "path": list(flaw.path)})


def family_flaws(family: "FamilyData") -> Iterator[Flaw]:
    """Every flaw of a family file."""
    yield from _heading_flaws(family)
    yield from _uniqueness_flaws(family)
    for i, size in enumerate(family.sizes):
        place = ("sizes", i)
        for flaw in (
            *size_flaws(size, principle=family.principle, basis=family.basis),
            *hook_flaws(size),
            *en_size_flaws(size, basis=family.basis, units=family.units),
        ):
            yield Flaw(place + flaw.path, flaw.reason)
        if family.traits.internally_threaded and size.thread is None:
            yield Flaw((*place, "thread"), "the family is internally threaded, so every size states its thread")
        for j, embedment in enumerate(size.embedments):
            for flaw in (
                *en_flaws(size, embedment, principle=family.principle, basis=family.basis, units=family.units),
                *en_file_flaws(size, embedment, basis=family.basis),
                *embedment_flaws(embedment, principle=family.principle, basis=family.basis, units=family.units),
                *file_flaws(embedment, principle=family.principle, basis=family.basis),
                *provision_flaws(size, embedment, principle=family.principle, basis=family.basis, units=family.units),
                *deck_flaws(embedment, principle=family.principle, basis=family.basis),
            ):
                yield Flaw((*place, "embedments", j, *flaw.path), flaw.reason)
    yield from en_product_flaws(family)
    yield from _trait_flaws(family)
    yield from _deck_flaws(family)
    yield from _trend_flaws(family)
    rows = [(size, embedment) for size in family.sizes for embedment in size.embedments]
    yield from _table_flaws(family.tables, family.traits, rows)


def record_flaws(product: "InlineProduct") -> Iterator[Flaw]:
    """Every flaw of a product in a request."""
    yield from pairing_flaws(principle=product.principle, basis=product.basis)
    for flaw in (
        *size_flaws(product.size, principle=product.principle, basis=product.basis),
        *en_size_flaws(product.size, basis=product.basis, units=product.units),
    ):
        yield Flaw(("size", *flaw.path), flaw.reason)
    if product.traits.internally_threaded and product.size.thread is None:
        yield Flaw(("size", "thread"), "the product is internally threaded, so it states its thread")
    for flaw in (
        *en_flaws(
            product.size,
            product.embedment,
            principle=product.principle,
            basis=product.basis,
            units=product.units,
        ),
        *embedment_flaws(product.embedment, principle=product.principle, basis=product.basis, units=product.units),
        *deck_flaws(product.embedment, principle=product.principle, basis=product.basis),
    ):
        yield Flaw(("embedment", *flaw.path), flaw.reason)
    yield from en_product_flaws(product)
    yield from _suitability_flaws(product.traits, principle=product.principle)
    yield from _table_flaws(product.tables, product.traits, [(product.size, product.embedment)])


def pairing_flaws(*, principle: str, basis: str) -> Iterator[Flaw]:
    """A working principle outside the scope of the basis."""
    allowed = PRINCIPLES_OF_BASIS[basis]
    if principle not in allowed:
        yield Flaw(
            ("principle",),
            f"{principle} does not go with the basis {basis}, which is for {', '.join(sorted(allowed))} (17.1.2,"
            " 17.1.5); change one of the two",
        )


def _heading_flaws(family: "FamilyData") -> Iterator[Flaw]:
    yield from pairing_flaws(principle=family.principle, basis=family.basis)
    if family.invented and family.source is not None:
        yield Flaw(("source",), "figures that are invented have no source; remove it, or set invented to false")
    if not family.invented and family.source is None:
        yield Flaw(
            ("source",), "supplied figures need the document and date they are copied from, or nobody can check them"
        )
    if family.basis == "allowable_table" and not family.tables:
        yield Flaw(("tables",), "the basis is allowable_table, so one table at least is required")


def _uniqueness_flaws(family: "FamilyData") -> Iterator[Flaw]:
    seen: set[str] = set()
    for i, size in enumerate(family.sizes):
        if size.size in seen:
            yield Flaw(("sizes", i, "size"), f"the size {size.size} is there twice; put its embedments under one size")
        seen.add(size.size)
        depths: set[float] = set()
        for j, embedment in enumerate(size.embedments):
            if embedment.h_ef in depths:
                yield Flaw(
                    ("sizes", i, "embedments", j, "h_ef"),
                    f"h_ef {embedment.h_ef:g} is there twice under the size {size.size}; keep one",
                )
            depths.add(embedment.h_ef)


def _suitability_flaws(traits: "Suitability", *, principle: str) -> Iterator[Flaw]:
    adhesive = principle == "adhesive"
    if principle == "hammer_set_pin" and traits.tension_overhead:
        yield Flaw(("traits", "tension_overhead"), "hammer-set pins carry no tension overhead; set it to false")
    if traits.upward and not adhesive:
        yield Flaw(("traits", "upward"), "upward is a qualification of adhesive anchors (17.2.3); remove it")
    if traits.least_age_days is not None and not adhesive:
        yield Flaw(("traits", "least_age_days"), "the least age is that of adhesive anchors (17.2.2); remove it")
    if traits.least_age_days is not None and traits.least_age_days < LEAST_AGE_DAYS:
        yield Flaw(
            ("traits", "least_age_days"),
            f"an adhesive anchor needs concrete of {LEAST_AGE_DAYS:g} days at least (17.2.2), not"
            f" {traits.least_age_days:g}; correct it",
        )


def _trait_flaws(family: "FamilyData") -> Iterator[Flaw]:
    bonded = family.principle == "adhesive"
    yield from _suitability_flaws(family.traits, principle=family.principle)
    if family.basis in ("adhesive", "en") and bonded and family.traits.tension_overhead and not family.traits.upward:
        yield Flaw(
            ("traits", "tension_overhead"),
            "an adhesive not qualified for upward installation holds nothing overhead (17.2.3); set it to false",
        )
    rows = [embedment for size in family.sizes for embedment in size.embedments]
    cast_in = family.basis == "cast_in"
    by_bond = any(bond.tau_cr is not None for row in rows for bond in row.bond)
    by_tests = family.basis == "qualified" and any(row.n_p_cr is not None for row in rows)
    found = {
        "cracked_qualified": cast_in or by_bond or by_tests,
        "seismic_qualified": cast_in or any(row.seismic for row in rows),
    }
    for name, holds in (en_qualifications(family) if family.basis == "en" else found).items():
        if getattr(family.traits, name) != holds:
            yield Flaw(
                ("traits", name), f"{name} contradicts the embedments, which say {str(holds).lower()}; correct one"
            )


def _deck_flaws(family: "FamilyData") -> Iterator[Flaw]:
    """Deck data of a family that isn't made for decks, and a qualified one made for decks without any."""
    tested = any(row.deck for size in family.sizes for row in size.embedments)
    made_for = "deck" in family.traits.bases
    if tested and not made_for:
        yield Flaw(("traits", "bases"), "strengths in a deck are stated, so deck is among the bases; add it")
    if made_for and not tested and family.basis == "qualified":
        yield Flaw(("traits", "bases"), "deck is among the bases, so one embedment at least states its strengths there")


def _trend_flaws(family: "FamilyData") -> Iterator[Flaw]:
    rows = [
        (size.d_a, embedment, ("sizes", i, "embedments", j))
        for i, size in enumerate(family.sizes)
        for j, embedment in enumerate(size.embedments)
    ]
    for name in (*PULLOUTS, "v_sa", "v_sa_eq"):
        yield from _falls(
            name,
            [
                (d_a, embedment.h_ef, value, (*place, name))
                for d_a, embedment, place in rows
                if isinstance(value := getattr(embedment, name), float)
            ],
        )
    for name, values in en_strengths(rows):
        yield from _falls(name, values)
    for flute in ("lower", "upper"):
        for name in ("n_cr", "n_uncr", "n_eq", "v_sa", "v_sa_eq"):
            yield from _falls(
                f"{name} in the {flute} flute",
                [
                    (d_a, row.h_ef, value, (*place, "deck", d, name))
                    for d_a, row, place in rows
                    for d, deck in enumerate(row.deck)
                    if deck.flute == flute and (value := getattr(deck, name)) is not None
                ],
            )
    for condition in sorted({(bond.temperature, bond.hole) for _, row, _ in rows for bond in row.bond}):
        for name in ("tau_cr", "tau_uncr"):
            yield from _falls(
                f"{name} d_a h_ef in {' '.join(condition)}",
                [
                    (d_a, row.h_ef, tau * d_a * row.h_ef, (*place, "bond", b, name))
                    for d_a, row, place in rows
                    for b, bond in enumerate(row.bond)
                    if (bond.temperature, bond.hole) == condition and (tau := getattr(bond, name)) is not None
                ],
            )


def _falls(name: str, values: Iterable[Valued]) -> Iterator[Flaw]:
    """A strength below that of another with neither more diameter nor more depth."""
    found = list(values)
    for d_a, h_ef, value, path in found:
        for d_other, h_other, other, _ in found:
            if d_other <= d_a and h_other <= h_ef and other > value:
                yield Flaw(
                    path,
                    f"{name} {value:g} is below the {other:g} of d_a {d_other:g} and h_ef {h_other:g}, though"
                    " neither diameter nor depth is less; check both",
                )


def _table_flaws(
    tables: "Sequence[AllowableTable]", traits: "Suitability", known: "Sequence[tuple[SizeData, Embedment]]"
) -> Iterator[Flaw]:
    diameters = {(size.size, embedment.h_ef): size.d_a for size, embedment in known}
    seen: set[tuple[object, ...]] = set()
    for t, table in enumerate(tables):
        place = ("tables", t)
        if table.base not in traits.bases:
            yield Flaw((*place, "base"), f"the family is not made for the base {table.base}; correct bases or table")
        for flaw in table_flaws(table):
            yield Flaw((*place, *flaw.path), flaw.reason)
        yield from _row_flaws(table, diameters, place)
        where = (table.direction, table.base, table.masonry, table.material, table.state, table.lightweight, table.f_c)
        for location in table.locations or ("",):
            if (*where, location) in seen:
                yield Flaw(
                    (*place, "title"), "another table has the same base, place, strength and direction; keep one"
                )
            seen.add((*where, location))


def _row_flaws(
    table: "AllowableTable", diameters: Mapping[tuple[str, float], float], place: tuple[str | int, ...]
) -> Iterator[Flaw]:
    seen: set[tuple[str, float]] = set()
    values: list[Valued] = []
    for r, row in enumerate(table.rows):
        key = (row.size, row.h_ef)
        if key not in diameters:
            yield Flaw((*place, "rows", r), f"size {row.size} with h_ef {row.h_ef:g} is not among the sizes; add it")
        else:
            values.append((diameters[key], row.h_ef, row.allowable, (*place, "rows", r, "allowable")))
        if key in seen:
            yield Flaw((*place, "rows", r), f"size {row.size} with h_ef {row.h_ef:g} is there twice; keep one")
        seen.add(key)
    yield from _falls("allowable", values)
