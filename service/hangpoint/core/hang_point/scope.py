"""Which points are understood but not checked, and why: the first reason in a fixed order."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.aci318_19.limits import LEAST_F_C_METRIC
from hangpoint.core.aci318_19.pullout import PRODUCT
from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.hang_point.allowables import CHAPTER_17
from hangpoint.core.hang_point.anchor_columns import pullout_governs
from hangpoint.core.hang_point.base_findings import maybe_tensioned
from hangpoint.core.hang_point.earthquake import Shaken
from hangpoint.core.hang_point.environment import in_pool_air
from hangpoint.core.hang_point.points import FORCES, NO_OPTION, NOT_ALLOWED, NOT_QUALIFIED, SOFFIT, TOP, Basis, Points
from hangpoint.core.hang_point.surroundings import (
    STEEL,
    TOPPING,
    UNKNOWN,
    WOOD,
)
from hangpoint.core.outcome import below
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Refusal, position

ACCEPTED = -1


def refusals(
    *,
    points: Points,
    basis: Basis,
    pulled: Bools,
    least_tension: Floats,
    sustained: Floats,
    sheared: Bools,
    shaken: Shaken,
    outside: Sequence[tuple[Refusal, Bools]] = (),
    above_limit: Bools | None = None,
) -> Index:
    """First reason of each point not to check it, as index into `Refusal`; `ACCEPTED` where there is none.

    Args:
        points: the batch.
        basis: combinations of the request.
        pulled: (points,) tension of any anchor in any load case.
        least_tension: (points,) smallest factored tension of lone anchors over the load cases, lbf; negative is
            compression.
        sustained: (points,) largest sustained factored tension over the load cases, lbf.
        sheared: (points,) whether any load case has shear.
        shaken: where earthquake is more than 20 % of the load.
        outside: reasons of other methods than chapter 17 (`allowable_findings.allowable_refusals`,
            `fastener_scope.fastener_refusals`).
        above_limit: (points,) the point is in a group of neighbours with more anchors than may be checked.
    """
    base, product, hangs, around = points.bases, points.products, points.hangs, points.surroundings
    fixing, adhesive, high_seismic = points.fixings, product.adhesive, base.category >= SEISMIC_FROM
    everywhere = np.ones(points.count, dtype=np.bool_)
    reasons = _base_reasons(points)
    if points.fasteners is not None:
        outside, reasons = [*reasons, *outside], []
    else:
        reasons += [(Refusal.OTHER_CODE, product.european & around.anchored)]
        outside = [(refusal, holds & ~product.european) for refusal, holds in outside]
    if basis.allowable:
        reasons += [(Refusal.ALLOWABLE, everywhere)]
    if basis.factored:
        reasons += [(Refusal.NOT_FACTORED, hangs.kind != FORCES)]
    reasons += [(Refusal.WEIGHT_NOT_PULLING, around.anchored & (hangs.kind != FORCES) & (base.face != SOFFIT))]
    if some(points.decks.in_deck):
        reasons += _deck_reasons(points, high_seismic=high_seismic, sheared=sheared)
    if some(sheared) and points.fasteners is None:
        gap = (fixing.gap > 0) | (points.plates.stated & ~points.plates.contact)
        reasons += [(Refusal.SHEAR_WITH_GAP, sheared & gap)]
    reasons += [
        (Refusal.WRONG_BASE, ~product.concrete_allowed),
        (Refusal.FAMILY_BASIS, product.table_only),
        (Refusal.NOT_OVERHEAD, ~product.tension_overhead & (base.face == SOFFIT)),
        (Refusal.DIAMETER, product.d_a > 4.0),
        (Refusal.NO_LIGHTWEIGHT, base.lightweight & (product.lightweight_data == NOT_ALLOWED)),
        *_unqualified(points),
    ]
    if some(base.a_s_n):
        reasons += [(Refusal.PULLOUT_UNLIMITED, pulled & (base.a_s_n > 0) & ~pullout_governs(points))]
    if some(high_seismic):
        reasons += _seismic_reasons(points, high_seismic=high_seismic, sheared=sheared, shaken=shaken)
    reasons += [
        (Refusal.COMPRESSION, least_tension < 0),
        (Refusal.NOT_SUSTAINED, ~product.sustained_tension & (sustained > 0)),
    ]
    if some(adhesive):
        reasons += _adhesive_reasons(points, sustained=sustained)
    reasons += [(Refusal.POOL_AIR, around.anchored & in_pool_air(points))]
    if above_limit is not None:
        reasons += [(Refusal.NEIGHBOURS, above_limit)]
    if points.allowables is not None or points.fasteners is not None:
        by_code = points.method == CHAPTER_17
        reasons = [(refusal, holds & by_code if refusal in _OF_THE_CODE else holds) for refusal, holds in reasons]
    found = np.full(points.count, ACCEPTED, dtype=np.intp)
    for refusal, holds in reversed([*outside, *reasons]):
        found[holds] = position(refusal)
    return found


_OF_THE_CODE = frozenset(Refusal) - {
    Refusal.BASE_UNKNOWN,
    Refusal.BASE_STEEL,
    Refusal.BASE_WOOD,
    Refusal.TOPPING_BOND,
    Refusal.POST_TENSIONED,
    Refusal.OTHER_CODE,
    Refusal.POOL_AIR,
    Refusal.NOT_FACTORED,
    Refusal.WEIGHT_NOT_PULLING,
    Refusal.SHEAR_WITH_GAP,
    Refusal.NOT_OVERHEAD,
    Refusal.COMPRESSION,
    Refusal.NOT_SUSTAINED,
    Refusal.NEIGHBOURS,
}
"""Reasons that rest on chapter 17; the others hold for every method."""


def _base_reasons(points: Points) -> list[tuple[Refusal, Bools]]:
    """Bases that anchors are not checked in, and members that nothing is drilled into as they are (reading 39)."""
    around = points.surroundings
    kind, anchored = around.kind, around.anchored
    others = [(Refusal.BASE_UNKNOWN, UNKNOWN), (Refusal.BASE_STEEL, STEEL), (Refusal.BASE_WOOD, WOOD)]
    return [
        *((refusal, kind == other) for refusal, other in others if not anchored.all()),
        (Refusal.TOPPING_BOND, anchored & (around.part == TOPPING)),
        (Refusal.POST_TENSIONED, anchored & maybe_tensioned(points) & ~around.scanned),
    ]


def _unqualified(points: Points) -> list[tuple[Refusal, Bools]]:
    """No data of the product for cracked or for uncracked concrete."""
    product, bond, cracked, adhesive = points.products, points.bonds, points.bases.cracked, points.products.adhesive
    by_tests = (product.pullout_method == PRODUCT) & ~adhesive
    no_cracked = (by_tests & (product.n_p_cr_state == NOT_QUALIFIED)) | (product.product_k_c & (product.k_cr == 0))
    no_uncracked = (by_tests & (product.n_p_uncr_state == NOT_QUALIFIED)) | (
        product.product_k_c & (product.k_uncr == 0)
    )
    if some(adhesive):
        no_bond = adhesive & (bond.tau_uncr == 0)
        no_cracked |= no_bond | (adhesive & (bond.tau_cr == 0))
        no_uncracked |= no_bond
    return [
        (Refusal.NOT_QUALIFIED_CRACKED, cracked & no_cracked),
        (Refusal.NOT_QUALIFIED_UNCRACKED, ~cracked & no_uncracked),
    ]


def _seismic_reasons(
    points: Points, *, high_seismic: Bools, sheared: Bools, shaken: Shaken
) -> list[tuple[Refusal, Bools]]:
    """What categories C to F ask for."""
    product, bond, fixing = points.products, points.bonds, points.fixings
    post_installed = high_seismic & product.post_installed
    no_bond = product.adhesive & ((bond.alpha_n_seis == 0) | (bond.tau_cr == 0))
    return [
        (Refusal.NOT_SEISMIC, (post_installed & ~product.seismic_qualified) | (high_seismic & no_bond)),
        (Refusal.NOT_SEISMIC_SHEAR, post_installed & sheared & ~product.v_sa_eq_tested),
        (Refusal.SEISMIC_TENSION, shaken.tension & (fixing.tension_option == NO_OPTION)),
        (Refusal.SEISMIC_SHEAR, shaken.shear & (fixing.shear_option == NO_OPTION)),
    ]


def _adhesive_reasons(points: Points, *, sustained: Floats) -> list[tuple[Refusal, Bools]]:
    """What the data of adhesive anchors and reading 36 ask for."""
    bond, adhesive = points.bonds, points.products.adhesive
    aloft = adhesive & (points.bases.face != TOP)
    return [
        (Refusal.NOT_UPWARD, aloft & ~bond.upward),
        (Refusal.CONCRETE_AGE, adhesive & (bond.age >= 0) & (bond.age < bond.least_age)),
        (Refusal.ADHESIVE_UNCONFIRMED, aloft & (sustained > 0) & ~_confirmed(points)),
    ]


def _deck_reasons(points: Points, *, high_seismic: Bools, sheared: Bools) -> list[tuple[Refusal, Bools]]:
    """What the tests in a deck don't cover (reading 37)."""
    deck, product = points.decks, points.products
    tested = deck.tested
    return [
        (Refusal.NO_DECK_DATA, deck.in_deck & ~tested),
        (Refusal.DECK_FILL, tested & deck.all_lightweight),
        (Refusal.NO_DECK_SHEAR, tested & sheared & ~product.v_sa_tested),
        (
            Refusal.DECK_NOT_SEISMIC,
            tested & high_seismic & ((product.n_p_eq_state == NOT_QUALIFIED) | (sheared & ~product.v_sa_eq_tested)),
        ),
    ]


def _confirmed(points: Points) -> Bools:
    """What reading 36 asks to be stated of an adhesive anchor that holds tension that stays."""
    bond = points.bonds
    strong = ~below(points.bases.f_c, limit=LEAST_F_C_METRIC)
    return bond.confirmed & bond.temperature_stated & (bond.age >= bond.least_age) & strong
