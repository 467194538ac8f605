"""Tested strengths of an anchor in the soffit of a concrete-filled steel deck: one entry a flute (reading 37).

The strengths are those of tests in the flute, so breakout is within them. The geometry of the tests bounds their use.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import Field

from hangpoint.product.fields import Model, about, force, length, stress
from hangpoint.product.principles import Flaw, below

if TYPE_CHECKING:
    from hangpoint.product.embedment import Embedment

Flute = Literal["upper", "lower"]

SPACING_EMBEDMENTS, SPACING_WIDTHS = 3.0, 1.5
"""Least spacing along a flute over h_ef and over the width of the flute (common practice, from memory)."""


class DeckData(Model):
    """Strengths and limits in one flute of the deck, upper or lower."""

    flute: Annotated[Flute, about("Flute of the tests: lower, next to the room, or upper.")]
    n_cr: Annotated[float, force("Tested strength in tension N_p,deck,cr, cracked fill.")]
    n_uncr: Annotated[
        float | None, force("Tested strength in tension N_p,deck,uncr, uncracked fill; absent: not qualified there.")
    ] = None
    n_eq: Annotated[
        float | None, force("Strength in tension N_p,deck,eq by simulated seismic tests; absent: not qualified.")
    ] = None
    v_sa: Annotated[float | None, force("Tested strength in shear V_sa,deck; absent: no shear.")] = None
    v_sa_eq: Annotated[
        float | None, force("Strength in shear V_sa,deck,eq by simulated seismic tests; absent: not qualified.")
    ] = None
    f_c_ref: Annotated[float, stress("Strength of the fill in the tests.")]
    exponent: Annotated[float, Field(ge=0, le=1, description="n of N_p,deck (f'c / f_c_ref)^n.")]
    flute_width: Annotated[float, length("Least width of the flute.")]
    offset: Annotated[float, length("Most offset of the anchor from the centre of the flute.")]
    cover: Annotated[float, length("Least fill above the top of the deck.")]
    sheet: Annotated[float | None, length("Least thickness of the deck's sheet.")] = None
    s_min: Annotated[float, length("Least spacing along the flute.")]
    c_min: Annotated[float, length("Least distance to the edge of the deck.")]


def deck_flaws(embedment: "Embedment", *, principle: str, basis: str) -> Iterator[Flaw]:
    """What the deck data of an embedment contradict."""
    seen: set[str] = set()
    hole = embedment.hole
    depth = embedment.h_ef if hole is None else hole.depth + 2 * hole.diameter
    for d, deck in enumerate(embedment.deck):
        place = ("deck", d)
        if basis not in ("qualified", "allowable_table") or principle in ("driven_pin", "hammer_set_pin"):
            yield Flaw(
                place,
                f"strengths in a deck are those of tests; {principle} of the basis {basis} has none (reading 37);"
                " remove them",
            )
        if deck.flute in seen:
            yield Flaw((*place, "flute"), f"the {deck.flute} flute is there twice; keep one")
        seen.add(deck.flute)
        for flaw in (*_strength_flaws(deck), *_geometry_flaws(deck, embedment.h_ef, depth)):
            yield Flaw((*place, *flaw.path), flaw.reason)


def _strength_flaws(deck: DeckData) -> Iterator[Flaw]:
    if deck.n_uncr is not None and not deck.n_cr < deck.n_uncr:
        yield Flaw(("n_cr",), f"n_cr {deck.n_cr:g} is not below n_uncr {deck.n_uncr:g}; a crack weakens: check both")
    if deck.n_eq is not None and deck.n_eq > deck.n_cr:
        yield Flaw(("n_eq",), f"n_eq {deck.n_eq:g} exceeds n_cr {deck.n_cr:g}; it can't: check both (17.10.3)")
    if deck.v_sa_eq is not None and (deck.v_sa is None or deck.v_sa_eq > deck.v_sa):
        yield Flaw(("v_sa_eq",), f"v_sa_eq {deck.v_sa_eq:g} needs a v_sa that is not below it; check both")


def _geometry_flaws(deck: DeckData, h_ef: float, depth: float) -> Iterator[Flaw]:
    if not deck.offset < deck.flute_width / 2:
        yield Flaw(
            ("offset",), f"the offset {deck.offset:g} leaves the flute of {deck.flute_width:g}; it is from its centre"
        )
    if deck.flute == "upper" and below(deck.cover, depth):
        yield Flaw(
            ("cover",),
            f"the cover {deck.cover:g} over an upper flute is below {depth:g}, the depth of the hole plus two of its"
            " diameters or else h_ef (common practice); correct it",
        )
    least = max(SPACING_EMBEDMENTS * h_ef, SPACING_WIDTHS * deck.flute_width)
    if below(deck.s_min, least):
        yield Flaw(
            ("s_min",),
            f"s_min {deck.s_min:g} is below {least:g}, the larger of 3 h_ef and 1.5 widths of the flute (common"
            " practice): the strengths are those of lone anchors; correct it",
        )
