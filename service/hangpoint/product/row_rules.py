"""Rules within one row: a size and an embedment. Clauses are of ACI 318-19 where nothing else is said.

`size_flaws` and `embedment_flaws` say what has to be stated and what contradicts itself; they hold for files and for
products in a request. `file_flaws`, `provision_flaws` (17.3.3, 17.3.4, 17.9; not of the basis en) and `hook_flaws`
(17.6.3.2.2b) hold for files only; for a product in a request they are left to the findings of the check.

Two limits are not in the standard's tables: a drilled hole keeps two of its diameters away from the far face (common
practice, no source), and a cast-in anchor keeps 3/4 in of cover (Table 20.5.1.3.1, from memory).
"""

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from hangpoint.product.bond_rules import bond_flaws
from hangpoint.product.principles import (
    ADHESIVE_DIAMETERS,
    CAST_IN,
    DRILLED,
    EDGE_DIAMETERS,
    K_RANGE,
    MECHANICAL,
    MM_PER_INCH,
    Flaw,
    below,
)

if TYPE_CHECKING:
    from hangpoint.product.embedment import Embedment
    from hangpoint.product.family import SizeData

_BY_HEAD = ("cast_in", "en")
PULLOUTS = ("n_p_cr", "n_p_uncr", "n_p_eq")


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
    needed = {"headed_cast_in": "head", "hooked_cast_in": "hook"}.get(principle) if basis in _BY_HEAD else None
    for part in ("head", "hook"):
        present = getattr(size, part) is not None
        if part == needed and not present:
            yield Flaw(
                (part,), f"{principle} needs its {part}: the pullout strength follows from it (17.6.3.2.2; 7.11)"
            )
        if present and part != needed:
            yield Flaw((part,), f"a {part} does not go with {principle} and the basis {basis}; remove it")


def embedment_flaws(embedment: "Embedment", *, principle: str, basis: str, units: str) -> Iterator[Flaw]:
    """What an embedment misses or contradicts."""
    if basis != "en":
        yield from _presence_flaws(embedment, basis=basis)
    yield from bond_flaws(embedment, basis=basis, units=units)
    if embedment.distance_sleeve and principle != "torque_controlled_expansion":
        yield Flaw(
            ("distance_sleeve",),
            f"a distance sleeve is of torque-controlled expansion anchors (17.7.2.2.1), not of {principle}; remove it",
        )
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
    stated = [name for name in PULLOUTS if getattr(embedment, name) is not None]
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
        needed = {"qualified": ("n_p_eq", "v_sa_eq"), "adhesive": ("v_sa_eq",)}.get(basis, ())
        for name in needed:
            if getattr(embedment, name) is None:
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


def file_flaws(embedment: "Embedment", *, principle: str, basis: str) -> Iterator[Flaw]:
    """What a file states and a request may leave out."""
    if basis in ("qualified", "adhesive") and embedment.c_ac is None:
        yield Flaw(("c_ac",), "a qualified anchor in a file states c_ac of its tests (17.6.2.6, 17.9.5)")
    if principle in DRILLED and embedment.hole is None:
        yield Flaw(("hole",), "a drilled anchor needs its hole, or nobody can set it")


def provision_flaws(
    size: "SizeData", embedment: "Embedment", *, principle: str, basis: str, units: str
) -> Iterator[Flaw]:
    """Values of an embedment beyond 17.3.3, 17.3.4 or 17.9; of the last only unless tests are said to show them."""
    inch = 1.0 if units == "us" else MM_PER_INCH
    if basis == "en":
        return
    if basis != "allowable_table":
        yield from _depth_flaws(size.d_a, embedment.h_ef, principle=principle, inch=inch)
    yield from _spacing_flaws(size, embedment, principle=principle, inch=inch)
    yield from _thickness_flaws(embedment, principle=principle, inch=inch)


def _depth_flaws(d_a: float, h_ef: float, *, principle: str, inch: float) -> Iterator[Flaw]:
    """An embedment that the equations of chapter 17 don't cover; tables of tests don't stand on them."""
    if principle == "screw" and (below(h_ef, 5 * d_a) or below(10 * d_a, h_ef) or below(h_ef, 1.5 * inch)):
        yield Flaw(
            ("h_ef",),
            f"a screw needs 5 d_a <= h_ef <= 10 d_a, here {5 * d_a:g} to {10 * d_a:g}, and h_ef of at least"
            f" {1.5 * inch:g} (17.3.4); it is {h_ef:g}; correct it",
        )
    least, most = (diameters * d_a for diameters in ADHESIVE_DIAMETERS)
    if principle == "adhesive" and (below(h_ef, least) or below(most, h_ef)):
        yield Flaw(
            ("h_ef",),
            f"an adhesive anchor needs 4 d_a <= h_ef <= 20 d_a, here {least:g} to {most:g} (17.3.3); it is {h_ef:g};"
            " correct it",
        )


def hook_flaws(size: "SizeData") -> Iterator[Flaw]:
    """A hook outside the range of 17.6.3.2.2b."""
    d_a = size.d_a
    if size.hook is not None and (below(size.hook.e_h, 3 * d_a) or below(4.5 * d_a, size.hook.e_h)):
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
    if below(embedment.c_min, edge):
        yield Flaw(("c_min",), f"c_min {embedment.c_min:g} is below {edge:g} of Table 17.9.2 for {principle}; {advice}")
    if below(embedment.s_min, spacing):
        yield Flaw(
            ("s_min",), f"s_min {embedment.s_min:g} is below {spacing:g} of Table 17.9.2 for {principle}; {advice}"
        )


def _thickness_flaws(embedment: "Embedment", *, principle: str, inch: float) -> Iterator[Flaw]:
    if embedment.thickness_tested:
        return
    h_min, h_ef = embedment.h_min, embedment.h_ef
    advice = "correct it, or set thickness_tested if tests show that it holds"
    if principle in MECHANICAL and below(max(2 / 3 * h_min, h_min - 4 * inch), h_ef):
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
    if below(h_min, needed):
        yield Flaw(("h_min",), f"h_min {h_min:g} is below {needed:g}, the {why}; {advice}")
