"""Rules between the fields of a family that a schema can't say. Clauses are of ACI 318-19 where nothing else is said.

`pairing_flaws`, `size_flaws` and `embedment_flaws` say what has to be stated and what contradicts itself; they hold for
files and for products in a request. `provision_flaws` (17.3.4, 17.9), `hook_flaws` (17.6.3.2.2b) and the rules across a
family hold for files only; for a product in a request they are left to the findings of the check.

Two limits are not in the standard's tables: a drilled hole keeps two of its diameters away from the far face (common
practice, no source), and a cast-in anchor keeps 3/4 in of cover (Table 20.5.1.3.1, from memory).
"""

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from pydantic_core import PydanticCustomError

if TYPE_CHECKING:
    from hangpoint.product.family import Embedment, Family, SizeData
    from hangpoint.product.inline import InlineProduct

MM_PER_INCH = 25.4
EXPANSION = frozenset({"torque_controlled_expansion", "displacement_controlled_expansion"})
MECHANICAL = EXPANSION | {"undercut", "screw"}
CAST_IN = frozenset({"headed_cast_in", "hooked_cast_in", "cast_in_insert"})
DRILLED = MECHANICAL | {"adhesive"}
PRINCIPLES_OF_BASIS = {
    "qualified": MECHANICAL,
    "cast_in": frozenset({"headed_cast_in", "hooked_cast_in"}),
    "adhesive": frozenset({"adhesive"}),
    "en": DRILLED,
    "allowable_table": DRILLED | CAST_IN | {"driven_pin", "hammer_set_pin"},
}
EDGE_DIAMETERS = {
    "torque_controlled_expansion": 8.0,
    "displacement_controlled_expansion": 10.0,
    "undercut": 6.0,
    "screw": 6.0,
    "adhesive": 6.0,
}
K_RANGE = {"us": (10.5, 24.0), "si": (4.4, 10.05)}
_ROUNDING = 1e-9
_PULLOUTS = ("n_p_cr", "n_p_uncr", "n_p_eq")


class Flaw(NamedTuple):
    """What is wrong: the place within the object, and what, why and what to do in words."""

    path: tuple[str | int, ...]
    reason: str


def refuse_first(flaws: Iterator[Flaw]) -> None:
    """Raise for the first flaw. The error's context carries the place as ``path``, to be put after its ``loc``.

    Raises:
        PydanticCustomError: of type ``product``, which pydantic turns into a validation error.
    """
    flaw = next(flaws, None)
    if flaw is not None:
        raise PydanticCustomError("product", "{reason}", {"reason": flaw.reason, "path": list(flaw.path)})


def family_flaws(family: "Family") -> Iterator[Flaw]:
    """Every flaw of a family file."""
    yield from _heading_flaws(family)
    yield from _uniqueness_flaws(family)
    for i, size in enumerate(family.sizes):
        place = ("sizes", i)
        for flaw in (*size_flaws(size, principle=family.principle, basis=family.basis), *hook_flaws(size)):
            yield Flaw(place + flaw.path, flaw.reason)
        if family.traits.internally_threaded and size.thread is None:
            yield Flaw((*place, "thread"), "the family is internally threaded, so every size states its thread")
        for j, embedment in enumerate(size.embedments):
            for flaw in (
                *embedment_flaws(embedment, basis=family.basis, units=family.units),
                *_file_flaws(embedment, principle=family.principle, basis=family.basis),
                *provision_flaws(size, embedment, principle=family.principle, units=family.units),
            ):
                yield Flaw((*place, "embedments", j, *flaw.path), flaw.reason)
    yield from _trait_flaws(family)
    yield from _trend_flaws(family)
    yield from _table_flaws(family)


def record_flaws(product: "InlineProduct") -> Iterator[Flaw]:
    """Every flaw of a product in a request."""
    yield from pairing_flaws(principle=product.principle, basis=product.basis)
    for flaw in size_flaws(product.size, principle=product.principle, basis=product.basis):
        yield Flaw(("size", *flaw.path), flaw.reason)
    if product.traits.internally_threaded and product.size.thread is None:
        yield Flaw(("size", "thread"), "the product is internally threaded, so it states its thread")
    for flaw in embedment_flaws(product.embedment, basis=product.basis, units=product.units):
        yield Flaw(("embedment", *flaw.path), flaw.reason)
    if product.principle == "hammer_set_pin" and product.traits.tension_overhead:
        yield Flaw(("traits", "tension_overhead"), "hammer-set pins carry no tension overhead; set it to false")


def _below(value: float, limit: float) -> bool:
    return value < limit * (1 - _ROUNDING)


def pairing_flaws(*, principle: str, basis: str) -> Iterator[Flaw]:
    """A working principle outside the scope of the basis."""
    allowed = PRINCIPLES_OF_BASIS[basis]
    if principle not in allowed:
        yield Flaw(
            ("principle",),
            f"{principle} does not go with the basis {basis}, which is for {', '.join(sorted(allowed))} (17.1.2,"
            " 17.1.5); change one of the two",
        )


def _heading_flaws(family: "Family") -> Iterator[Flaw]:
    yield from pairing_flaws(principle=family.principle, basis=family.basis)
    if family.invented and family.source is not None:
        yield Flaw(("source",), "figures that are invented have no source; remove it, or set invented to false")
    if not family.invented and family.source is None:
        yield Flaw(
            ("source",), "supplied figures need the document and date they are copied from, or nobody can check them"
        )
    if family.basis == "allowable_table" and not family.tables:
        yield Flaw(("tables",), "the basis is allowable_table, so one table at least is required")


def _uniqueness_flaws(family: "Family") -> Iterator[Flaw]:
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


def size_flaws(size: "SizeData", *, principle: str, basis: str) -> Iterator[Flaw]:
    """What a size misses or contradicts."""
    if size.a_se > math.pi / 4 * size.d_a**2 * (1 + 1e-3):
        yield Flaw(
            ("a_se",), f"A_se {size.a_se:g} is more than the full circle of d_a {size.d_a:g}; check value and unit"
        )
    if not size.f_ya < size.f_uta:
        yield Flaw(("f_ya",), f"f_ya {size.f_ya:g} is not below f_uta {size.f_uta:g}; check both")
    if size.thread_engagement is not None and size.thread_engagement.least > size.thread_engagement.most:
        yield Flaw(("thread_engagement", "least"), "the least engagement of the rod exceeds the most; check both")
    needed = {"headed_cast_in": "head", "hooked_cast_in": "hook"}.get(principle) if basis == "cast_in" else None
    for part in ("head", "hook"):
        present = getattr(size, part) is not None
        if part == needed and not present:
            yield Flaw((part,), f"{principle} needs its {part}: the pullout strength follows from it (17.6.3.2.2)")
        if present and part != needed:
            yield Flaw((part,), f"a {part} does not go with {principle} and the basis {basis}; remove it")


def embedment_flaws(embedment: "Embedment", *, basis: str, units: str) -> Iterator[Flaw]:
    """What an embedment misses or contradicts."""
    yield from _presence_flaws(embedment, basis=basis)
    low, high = K_RANGE[units]
    for name in ("k_cr", "k_uncr"):
        k = getattr(embedment, name)
        if basis != "en" and k is not None and not low <= k <= high:
            yield Flaw(
                (name,),
                f"{name} {k:g} is outside {low:g} to {high:g}, its range in {units} units; its limit is 24 in us and 10"
                " in si (17.6.2.2.2), and a number of the other system is wrong by 2.4",
            )
    yield from _order_flaws(embedment)


def _presence_flaws(embedment: "Embedment", *, basis: str) -> Iterator[Flaw]:
    stated = [name for name in _PULLOUTS if getattr(embedment, name) is not None]
    if basis == "qualified" and not {"n_p_cr", "n_p_uncr"} & set(stated):
        yield Flaw(
            ("n_p_uncr",),
            "a qualified anchor needs n_p_cr or n_p_uncr: a number, or not_governing if the tests say so (17.6.3.1)",
        )
    if basis == "qualified" and embedment.category is None:
        yield Flaw(("category",), "a qualified anchor needs its category: phi depends on it (Table 17.5.3)")
    if basis == "cast_in" and stated:
        yield Flaw(
            (stated[0],), "the pullout strength of a cast-in anchor is calculated (17.6.3.2.2); remove the value"
        )
    if basis == "cast_in" and (embedment.k_cr is not None or embedment.k_uncr is not None):
        name = "k_cr" if embedment.k_cr is not None else "k_uncr"
        yield Flaw((name,), "a cast-in anchor has k_c = 24 by 17.6.2.2.1; factors by tests are for post-installed ones")
    if basis == "cast_in" and embedment.category is not None:
        yield Flaw(("category",), "a cast-in anchor has no category (Table 17.5.3); remove it")
    numbers = [name for name in stated if isinstance(getattr(embedment, name), float)]
    if numbers and embedment.n_exponent is None:
        yield Flaw(
            ("n_exponent",), f"{numbers[0]} is a number, so the exponent n of f'c is required; 0 if it does not scale"
        )
    for state in ("cr", "uncr"):
        other = "uncr" if state == "cr" else "cr"
        missing = getattr(embedment, f"k_{state}") is None and getattr(embedment, f"n_p_{state}") is not None
        if missing and getattr(embedment, f"k_{other}") is not None:
            yield Flaw(
                (f"k_{state}",),
                f"k_{other} is by tests and n_p_{state} is stated, so k_{state} is required too (17.6.2.2.1)",
            )
    if embedment.n_p_eq is not None and embedment.n_p_cr is None:
        yield Flaw(("n_p_cr",), "n_p_eq is stated: an anchor is qualified for earthquake only in cracked concrete")
    if embedment.seismic:
        for name in ("n_p_eq", "v_sa_eq"):
            if getattr(embedment, name) is None and basis == "qualified":
                yield Flaw((name,), f"seismic is true, so {name} of the simulated seismic tests is required (17.10.3)")


def _number(value: float | str | None) -> float:
    """A pullout strength as a number to compare: not governing is beyond every number."""
    return value if isinstance(value, float) else math.inf


def _order_flaws(embedment: "Embedment") -> Iterator[Flaw]:
    cr, uncr = embedment.n_p_cr, embedment.n_p_uncr
    if isinstance(cr, float) and isinstance(uncr, float) and not cr < uncr:
        yield Flaw(("n_p_cr",), f"N_p,cr {cr:g} is not below N_p,uncr {uncr:g}; a crack weakens: check both")
    if embedment.n_p_eq is not None and cr is not None and _number(embedment.n_p_eq) > _number(cr):
        yield Flaw(("n_p_eq",), f"N_p,eq {embedment.n_p_eq} exceeds N_p,cr {cr}; it can't: check both (17.10.3)")
    if embedment.k_cr is not None and embedment.k_uncr is not None and embedment.k_cr > embedment.k_uncr:
        yield Flaw(("k_cr",), f"k_cr {embedment.k_cr:g} exceeds k_uncr {embedment.k_uncr:g}; check both")
    if embedment.v_sa is not None and embedment.v_sa_eq is not None and embedment.v_sa_eq > embedment.v_sa:
        yield Flaw(("v_sa_eq",), f"V_sa,eq {embedment.v_sa_eq:g} exceeds V_sa {embedment.v_sa:g}; check both")
    if embedment.h_nom is not None and embedment.h_nom < embedment.h_ef:
        yield Flaw(("h_nom",), f"h_nom {embedment.h_nom:g} is below h_ef {embedment.h_ef:g}; check both")
    if embedment.hole is not None and embedment.hole.depth < (embedment.h_nom or embedment.h_ef):
        yield Flaw(("hole", "depth"), f"the hole of {embedment.hole.depth:g} is shallower than the anchor; check both")
    if not embedment.h_ef < embedment.h_min:
        yield Flaw(("h_min",), f"h_min {embedment.h_min:g} is not above h_ef {embedment.h_ef:g}; check both")


def _file_flaws(embedment: "Embedment", *, principle: str, basis: str) -> Iterator[Flaw]:
    if basis == "qualified" and embedment.c_ac is None:
        yield Flaw(("c_ac",), "a qualified anchor in a file states c_ac of its tests (17.6.2.6, 17.9.5)")
    if principle in DRILLED and embedment.hole is None:
        yield Flaw(("hole",), "a drilled anchor needs its hole, or nobody can set it")


def provision_flaws(size: "SizeData", embedment: "Embedment", *, principle: str, units: str) -> Iterator[Flaw]:
    """Values of an embedment beyond 17.3.4 or 17.9, unless tests are said to show them."""
    inch = 1.0 if units == "us" else MM_PER_INCH
    d_a, h_ef = size.d_a, embedment.h_ef
    if principle == "screw" and (_below(h_ef, 5 * d_a) or _below(10 * d_a, h_ef) or _below(h_ef, 1.5 * inch)):
        yield Flaw(
            ("h_ef",),
            f"a screw needs 5 d_a <= h_ef <= 10 d_a, here {5 * d_a:g} to {10 * d_a:g}, and h_ef of at least"
            f" {1.5 * inch:g} (17.3.4); it is {h_ef:g}; correct it",
        )
    yield from _spacing_flaws(size, embedment, principle=principle, inch=inch)
    yield from _thickness_flaws(embedment, principle=principle, inch=inch)


def hook_flaws(size: "SizeData") -> Iterator[Flaw]:
    """A hook outside the range of 17.6.3.2.2b."""
    d_a = size.d_a
    if size.hook is not None and (_below(size.hook.e_h, 3 * d_a) or _below(4.5 * d_a, size.hook.e_h)):
        yield Flaw(
            ("hook", "e_h"),
            f"the hook needs 3 d_a <= e_h <= 4.5 d_a, here {3 * d_a:g} to {4.5 * d_a:g} (17.6.3.2.2b); e_h is"
            f" {size.hook.e_h:g}; correct it",
        )


def _spacing_flaws(size: "SizeData", embedment: "Embedment", *, principle: str, inch: float) -> Iterator[Flaw]:
    if embedment.spacing_tested:
        return
    d_a = size.d_a
    if principle in EDGE_DIAMETERS:
        spacing, edge = 6 * d_a, EDGE_DIAMETERS[principle] * d_a
        if principle == "screw":
            spacing = max(spacing, 0.6 * embedment.h_ef)
    elif principle in CAST_IN:
        torqued = embedment.torque is not None
        spacing, edge = (6 * d_a, 6 * d_a) if torqued else (4 * d_a, 0.75 * inch + d_a / 2)
    else:
        return
    advice = "correct it, or set spacing_tested if tests show that it holds"
    if _below(embedment.c_min, edge):
        yield Flaw(("c_min",), f"c_min {embedment.c_min:g} is below {edge:g} of Table 17.9.2 for {principle}; {advice}")
    if _below(embedment.s_min, spacing):
        yield Flaw(
            ("s_min",), f"s_min {embedment.s_min:g} is below {spacing:g} of Table 17.9.2 for {principle}; {advice}"
        )


def _thickness_flaws(embedment: "Embedment", *, principle: str, inch: float) -> Iterator[Flaw]:
    if embedment.thickness_tested:
        return
    h_min, h_ef = embedment.h_min, embedment.h_ef
    advice = "correct it, or set thickness_tested if tests show that it holds"
    if principle in MECHANICAL and _below(max(2 / 3 * h_min, h_min - 4 * inch), h_ef):
        yield Flaw(
            ("h_min",), f"h_ef {h_ef:g} exceeds the larger of 2/3 h_min and h_min - {4 * inch:g} (17.9.4); {advice}"
        )
    if embedment.hole is not None:
        needed = embedment.hole.depth + 2 * embedment.hole.diameter
        why = "depth of the hole plus two of its diameters (common practice)"
    elif principle in CAST_IN:
        needed, why = h_ef + 0.75 * inch, "h_ef plus cover (20.5.1.3)"
    else:
        return
    if _below(h_min, needed):
        yield Flaw(("h_min",), f"h_min {h_min:g} is below {needed:g}, the {why}; {advice}")


def _trait_flaws(family: "Family") -> Iterator[Flaw]:
    rows = [embedment for size in family.sizes for embedment in size.embedments]
    cast_in = family.basis == "cast_in"
    cracked = cast_in or any(row.n_p_cr is not None for row in rows)
    seismic = cast_in or any(row.seismic for row in rows)
    if family.basis in ("qualified", "cast_in"):
        for name, found in (("cracked_qualified", cracked), ("seismic_qualified", seismic)):
            if getattr(family.traits, name) != found:
                yield Flaw(
                    ("traits", name), f"{name} contradicts the embedments, which say {str(found).lower()}; correct one"
                )
    if family.principle == "hammer_set_pin" and family.traits.tension_overhead:
        yield Flaw(("traits", "tension_overhead"), "hammer-set pins carry no tension overhead; set it to false")


def _trend_flaws(family: "Family") -> Iterator[Flaw]:
    for name in _PULLOUTS:
        found = [
            (size.d_a, embedment.h_ef, value, ("sizes", i, "embedments", j, name))
            for i, size in enumerate(family.sizes)
            for j, embedment in enumerate(size.embedments)
            if isinstance(value := getattr(embedment, name), float)
        ]
        for d_a, h_ef, value, path in found:
            for d_other, h_other, other, _ in found:
                if d_other <= d_a and h_other <= h_ef and other > value:
                    yield Flaw(
                        path,
                        f"{name} {value:g} is below the {other:g} of d_a {d_other:g} and h_ef {h_other:g}, though"
                        " neither diameter nor depth is less; check both",
                    )


def _table_flaws(family: "Family") -> Iterator[Flaw]:
    known = {(size.size, embedment.h_ef) for size in family.sizes for embedment in size.embedments}
    for t, table in enumerate(family.tables):
        seen: set[tuple[str, float]] = set()
        for r, row in enumerate(table.rows):
            key = (row.size, row.h_ef)
            if key not in known:
                yield Flaw(
                    ("tables", t, "rows", r), f"size {row.size} with h_ef {row.h_ef:g} is not among the sizes; add it"
                )
            if key in seen:
                yield Flaw(("tables", t, "rows", r), f"size {row.size} with h_ef {row.h_ef:g} is there twice; keep one")
            seen.add(key)
