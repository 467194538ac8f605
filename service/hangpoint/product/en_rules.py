"""Rules of figures for EN 1992-4. Clauses are of EN 1992-4:2018 where nothing else is said, from secondary texts.

`en_flaws` holds for files and for products in a request, `en_file_flaws` for files only: there the check tells of a
request. What the rules of ACI 318-19 ask (17.3.4, 17.9.2, 17.9.4, c_ac) is not asked here.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from hangpoint.product.bond_rules import en_bond_flaws
from hangpoint.product.en_seismic_rules import CATEGORIES, SEISMIC_RISING, en_seismic_flaws
from hangpoint.product.principles import (
    ADHESIVE_DIAMETERS,
    CAST_IN,
    CONE_FACTORS,
    MM_PER_INCH,
    PSI_PER_MPA,
    Flaw,
    below,
)

if TYPE_CHECKING:
    from hangpoint.product.embedment import Embedment
    from hangpoint.product.en_data import EnData
    from hangpoint.product.family import FamilyData, SizeData
    from hangpoint.product.inline import InlineProduct

LEAST_DEPTH = 40.0
"""mm, h_ef by 1.2; the 30 mm of indoor redundant systems would need a statement that isn't built."""
MOST_F_UK = 1000.0
"""N/mm2, of the steel by 1.2."""
SPACING_DIAMETERS = 4.0
"""7.2.2.5(4): s_min in diameters d_nom."""

_STEEL_SLIP = (0.5, 1.5)
"""N_Rk,s over A_s f_uk within which it is no slip of the unit (common practice, no source)."""

_INSTEAD = {
    "k_cr": "state en.k_cr_n",
    "k_uncr": "state en.k_ucr_n",
    "n_p_cr": "state en.n_rk_p_cr",
    "n_p_uncr": "state en.n_rk_p_ucr",
    "n_p_eq": "state en.c1.n_rk_p_eq",
    "n_exponent": "state en.psi_c_exponent",
    "f_c_ref": "pull-out resistances are those for C20/25",
    "category": "state en.gamma_inst",
    "c_ac": "state en.c_cr_sp",
    "v_sa": "state en.v0_rk_s",
    "v_sa_eq": "state en.c1.v0_rk_s_eq",
    "seismic": "state en.c1",
    "lightweight": "EN 1992-4 is for normalweight concrete",
    "distance_sleeve": "state en.l_f",
    "thickness_tested": "h_min is always that of the assessment",
    "spacing_tested": "c_min and s_min are always those of the assessment",
}
"""Members for ACI 318-19 chapter 17, and what to do in their place."""

_OF_BOND = ("n_rk_p_cr", "n_rk_p_ucr", "psi_c_exponent", "gamma_inst")
"""What a bonded fastener states in its conditions instead."""
_BY_TESTS = ("n_rk_p_cr", "n_rk_p_ucr", "psi_c_exponent", "gamma_inst", "n0_rk_sp")
_RISING = ("n_rk_p_cr", "n_rk_p_ucr", "n_rk_s", "v0_rk_s", "n0_rk_sp")

Valued = tuple[float, float, float, tuple[str | int, ...]]
"""Diameter, depth, a strength there, and its place."""


def en_flaws(size: "SizeData", embedment: "Embedment", *, principle: str, basis: str, units: str) -> Iterator[Flaw]:
    """What an embedment misses or contradicts; of another basis that it has figures for EN 1992-4."""
    if basis != "en":
        if embedment.en is not None:
            yield Flaw(("en",), f"figures for EN 1992-4 go with the basis en, not with {basis}; remove them")
        return
    yield from _foreign_flaws(embedment)
    yield from _depth_flaws(embedment, units=units)
    own = embedment.en
    if own is None:
        yield Flaw(("en",), "the basis is en, so the figures for EN 1992-4 are required: state en")
        return
    headed, bonded = principle in CAST_IN, principle == "adhesive"
    if bonded:
        yield from _bonded_depth_flaws(size, embedment)
    for flaw in (
        *_kind_flaws(own, headed=headed, bonded=bonded),
        *en_bond_flaws(own.bond, units=units),
        *_order_flaws(own, headed=headed),
        *en_seismic_flaws(size, own, headed=headed, units=units),
        *_size_flaws(size, embedment, own, units=units),
    ):
        yield Flaw(("en", *flaw.path), flaw.reason)


def en_size_flaws(size: "SizeData", *, basis: str, units: str) -> Iterator[Flaw]:
    """A steel beyond EN 1992-4, and a weld that ACI 318-19 alone asks after."""
    if basis != "en":
        return
    most = MOST_F_UK if units == "si" else MOST_F_UK * PSI_PER_MPA
    if below(most, size.f_uta):
        yield Flaw(
            ("f_uta",),
            f"f_uta {size.f_uta:g} is above {most:.6g}, 1000 N/mm2, the most that EN 1992-4 covers (1.2); correct it",
        )
    if size.head is not None and size.head.welded_stud:
        yield Flaw(
            ("head", "welded_stud"),
            "welded_stud is for ACI 318-19 (17.7.1.2a) and does not go with the basis en: state en.v0_rk_s, and remove"
            " it",
        )


def _foreign_flaws(embedment: "Embedment") -> Iterator[Flaw]:
    fields = type(embedment).model_fields
    for name, instead in _INSTEAD.items():
        if getattr(embedment, name) != fields[name].default:
            yield Flaw((name,), f"{name} is for ACI 318-19 and does not go with the basis en: {instead}, and remove it")


def _depth_flaws(embedment: "Embedment", *, units: str) -> Iterator[Flaw]:
    least = LEAST_DEPTH if units == "si" else LEAST_DEPTH / MM_PER_INCH
    if below(embedment.h_ef, least):
        yield Flaw(
            ("h_ef",),
            f"h_ef {embedment.h_ef:g} is below {least:.4g}, 40 mm, the least that EN 1992-4 covers (1.2); less holds"
            " for indoor redundant systems only, which is not built; correct it",
        )


def _bonded_depth_flaws(size: "SizeData", embedment: "Embedment") -> Iterator[Flaw]:
    least, most = (diameters * size.d_a for diameters in ADHESIVE_DIAMETERS)
    if below(embedment.h_ef, least) or below(most, embedment.h_ef):
        yield Flaw(
            ("h_ef",),
            f"a bonded fastener is assessed for 4 d <= h_ef <= 20 d (from memory), here {least:g} to {most:g}; it is"
            f" {embedment.h_ef:g}; correct it",
        )


def _kind_flaws(own: "EnData", *, headed: bool, bonded: bool) -> Iterator[Flaw]:
    """What a kind of fastener misses, or has of another kind."""
    if bonded:
        yield from _bonded_flaws(own)
        return
    if own.bond:
        yield Flaw(
            ("bond",), "bond resistances are of bonded fasteners, of the principle adhesive (7.2.1.6); remove them"
        )
    if own.psi0_sus is not None:
        yield Flaw(("psi0_sus",), "psi0_sus is of bonded fasteners (7.2.1.6); remove it")
    yield from _headed_flaws(own) if headed else _post_installed_flaws(own)


def _bonded_flaws(own: "EnData") -> Iterator[Flaw]:
    if not own.bond:
        yield Flaw(("bond",), "a bonded fastener needs its bond resistances, one condition at least (7.2.1.6)")
    for name in _OF_BOND:
        if getattr(own, name) is not None:
            yield Flaw(
                (name,), f"{name} of a bonded fastener goes by the condition: state it in its bond, and remove it"
            )
    if own.c_cr_sp is None:
        yield Flaw(("c_cr_sp",), "a post-installed fastener needs c_cr_sp of its assessment: of splitting (7.2.1.7)")


def _post_installed_flaws(own: "EnData") -> Iterator[Flaw]:
    if own.n_rk_p_cr is None and own.n_rk_p_ucr is None:
        yield Flaw(
            ("n_rk_p_ucr",),
            "a post-installed fastener needs n_rk_p_cr or n_rk_p_ucr: a number, or not_governing if the assessment"
            " says so (7.2.1.5)",
        )
    for name, why in (("gamma_inst", "gamma_Mc depends on it (Table 4.1)"), ("c_cr_sp", "of splitting (7.2.1.7)")):
        if getattr(own, name) is None:
            yield Flaw((name,), f"a post-installed fastener needs {name} of its assessment: {why}")
    numbers = [name for name in ("n_rk_p_cr", "n_rk_p_ucr") if isinstance(getattr(own, name), float)]
    if numbers and own.psi_c_exponent is None:
        yield Flaw(
            ("psi_c_exponent",),
            f"{numbers[0]} is a number, so psi_c_exponent is required; 0 if it does not grow with the concrete",
        )


def _headed_flaws(own: "EnData") -> Iterator[Flaw]:
    for name in _BY_TESTS:
        if getattr(own, name) is not None:
            yield Flaw(
                (name,),
                f"{name} is of post-installed fasteners; the resistances of a headed one are calculated (7.11, 7.23):"
                " remove it",
            )


def _order_flaws(own: "EnData", *, headed: bool) -> Iterator[Flaw]:
    cr, ucr = own.n_rk_p_cr, own.n_rk_p_ucr
    if isinstance(cr, float) and isinstance(ucr, float) and not cr < ucr:
        yield Flaw(("n_rk_p_cr",), f"n_rk_p_cr {cr:g} is not below n_rk_p_ucr {ucr:g}; a crack weakens: check both")
    k_cr, k_ucr = CONE_FACTORS[headed]
    k_cr, k_ucr = own.k_cr_n or k_cr, own.k_ucr_n or k_ucr
    if k_cr > k_ucr:
        yield Flaw(
            ("k_cr_n" if own.k_cr_n is not None else "k_ucr_n",),
            f"k_cr,N {k_cr:g} exceeds k_ucr,N {k_ucr:g}; one that isn't stated is that of 7.2.1.4: check both",
        )


def _size_flaws(size: "SizeData", embedment: "Embedment", own: "EnData", *, units: str) -> Iterator[Flaw]:
    """What the figures contradict of the size and of the lengths of the embedment."""
    if own.c_cr_sp is not None and below(own.c_cr_sp, embedment.c_min):
        yield Flaw(
            ("c_cr_sp",),
            f"c_cr_sp {own.c_cr_sp:g} is below c_min {embedment.c_min:g}: nothing is set so near an edge; check both",
        )
    if own.l_f is not None and below(embedment.h_ef, own.l_f):
        yield Flaw(("l_f",), f"l_f {own.l_f:g} is more than h_ef {embedment.h_ef:g} (7.2.2.5); check both")
    force = 1000.0 if units == "si" else 1.0
    low, high = (share * size.a_se * size.f_uta / force for share in _STEEL_SLIP)
    if own.n_rk_s is not None and not low <= own.n_rk_s <= high:
        yield Flaw(
            ("n_rk_s",),
            f"n_rk_s {own.n_rk_s:g} is not of the size of A_s f_uk, here {low:.4g} to {high:.4g}; check value and unit",
        )


def en_file_flaws(size: "SizeData", embedment: "Embedment", *, basis: str) -> Iterator[Flaw]:
    """What a file states and a check tells of a request."""
    if basis != "en":
        return
    least = SPACING_DIAMETERS * size.d_a
    if below(embedment.s_min, least):
        yield Flaw(
            ("s_min",), f"s_min {embedment.s_min:g} is below {least:g}, four diameters d_nom (7.2.2.5(4)); correct it"
        )
    hole = embedment.hole
    if hole is not None and not hole.depth < embedment.h_min:
        yield Flaw(
            ("h_min",),
            f"the hole of {hole.depth:g} goes through a member of h_min {embedment.h_min:g}; check both",
        )


def en_product_flaws(product: "FamilyData | InlineProduct") -> Iterator[Flaw]:
    """What a family or a product of the basis en has beside its sizes and must not have."""
    if product.basis != "en":
        return
    if product.tables:
        yield Flaw(
            ("tables",), "tables of allowable loads do not go with the basis en; give them a family of their own"
        )
    for b, base in enumerate(product.traits.bases):
        if base != "concrete":
            yield Flaw(("traits", "bases", b), f"EN 1992-4 is for concrete; remove {base}, or give it its own family")


def en_qualifications(family: "FamilyData") -> dict[str, bool]:
    """The traits of qualification that the figures of a family of the basis en have."""
    rows = [row.en for size in family.sizes for row in size.embedments if row.en is not None]
    assessed = any(row.n_rk_p_cr is not None or any(each.tau_rk_cr for each in row.bond) for row in rows)
    cracked = family.principle in CAST_IN or assessed
    return {"cracked_qualified": cracked, "seismic_qualified": any(row.c1 is not None for row in rows)}


def en_strengths(rows: "list[tuple[float, Embedment, Any]]") -> Iterator[tuple[str, list[Valued]]]:
    """The strengths that don't fall with diameter or depth, by name; ``rows`` are diameter, embedment and place."""
    for name in _RISING:
        yield (
            f"en.{name}",
            [
                (d_a, row.h_ef, value, (*place, "en", name))
                for d_a, row, place in rows
                if row.en is not None and isinstance(value := getattr(row.en, name), float)
            ],
        )
    yield from _bond_strengths(rows)
    for category in CATEGORIES:
        for name in SEISMIC_RISING:
            yield (
                f"en.{category}.{name}",
                [
                    (d_a, row.h_ef, value, (*place, "en", category, name))
                    for d_a, row, place in rows
                    if row.en is not None
                    and (own := getattr(row.en, category)) is not None
                    and isinstance(value := getattr(own, name), float)
                ],
            )


def _bond_strengths(rows: "list[tuple[float, Embedment, Any]]") -> Iterator[tuple[str, list[Valued]]]:
    """tau_Rk d h_ef of bonded fasteners, by condition."""
    stated = [
        (d_a, row.h_ef, each, (*place, "en", "bond", b))
        for d_a, row, place in rows
        for b, each in enumerate(row.en.bond if row.en else ())
    ]
    for condition in sorted({(each.temperature, each.hole) for _, _, each, _ in stated}):
        for name in ("tau_rk_cr", "tau_rk_ucr"):
            yield (
                f"en.{name} d h_ef in {' '.join(condition)}",
                [
                    (d_a, h_ef, tau * d_a * h_ef, (*place, name))
                    for d_a, h_ef, each, place in stated
                    if (each.temperature, each.hole) == condition and (tau := getattr(each, name)) is not None
                ],
            )
