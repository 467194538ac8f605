"""What EN 1992-4, or what is built of it, doesn't cover, and what is seen of its points. Units: in, psi."""

import numpy as np

from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.conversions import MM_PER_INCH, PSI_PER_MPA
from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.hang_point.fastener_earthquake import FastenersShaken, earthquake_refusals
from hangpoint.core.hang_point.fastener_fire import fire_refusals
from hangpoint.core.hang_point.fastener_levers import fastener_levers, off_the_concrete
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.layout_findings import least_spacing, nearest_edges
from hangpoint.core.hang_point.points import NOT_QUALIFIED, TOP, Basis, Points
from hangpoint.core.hang_point.surroundings import DECK, HOLLOW_CORE, MASONRY
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding, Refusal

LEAST_H_EF = 40.0 / MM_PER_INCH
MOST_F_UK = 1000.0
MOST_F_CK_POST_INSTALLED = 60.0
ASSESSED_FROM, ASSESSED_TO = 20.0, 50.0
"""f_ck of C20/25 and C50/60, what post-installed fasteners are assessed in (from memory)."""
MOST_IN_GROUP, MOST_AT_EDGE = 9, 4
MOST_D_NOM = 60.0


def fastener_refusals(
    points: Points,
    fasteners: Fasteners,
    basis: Basis,
    *,
    pulled: Bools,
    sheared: Bools,
    ruled: Bools,
    shaken: FastenersShaken,
    lasting: Bools,
) -> list[tuple[Refusal, Bools]]:
    """Reasons against points, in order, (points,) each.

    Args:
        points: the batch.
        fasteners: of its points.
        basis: of the request.
        pulled, sheared: any anchor is in any load case.
        ruled: the rule for sprinkler lines holds.
        shaken: where earthquake acts.
        lasting: (points,) whether any tension lasts, or a part of what varies is taken to.
    """
    base, own = points.bases, fasteners
    others = np.isin(points.surroundings.kind, (MASONRY, HOLLOW_CORE, DECK)) | base.lightweight
    state = np.where(base.cracked, own.n_rk_p_cr_state, own.n_rk_p_ucr_state)
    assessed = np.where(own.bonded, np.where(base.cracked, own.tau_cr, own.tau_ucr) > 0, state != NOT_QUALIFIED)
    cornered = np.isfinite(base.c_a).any(axis=1)
    size: Index = np.bincount(points.layouts.point, minlength=points.count)
    levers = fastener_levers(own, points.fixings, points.plates)
    everywhere = np.ones(points.count, dtype=np.bool_)
    return [
        *([(Refusal.EN_ALLOWABLE, everywhere)] if basis.allowable else []),
        (Refusal.EN_BASE, others & points.surroundings.anchored),
        (Refusal.EN_FAMILY, ~own.known & points.surroundings.anchored),
        (Refusal.WRONG_BASE, own.known & ~points.products.concrete_allowed),
        (Refusal.EN_EARTHQUAKE, (points.hangs.s_ds > 0) | (base.category >= SEISMIC_FROM)),
        *earthquake_refusals(own, shaken),
        (Refusal.EN_SPRINKLER, ruled),
        (Refusal.EN_REINFORCEMENT, (base.a_s_n > 0) | (base.a_s_v > 0)),
        (Refusal.EN_LEVER_ARM, sheared & levers.unstated),
        (Refusal.EN_LEVER_ARM_SHAKEN, shaken.sheared & levers.acts),
        (Refusal.EN_NOT_ASSESSED, own.known & ~own.headed & ~assessed),
        *fire_refusals(points, own),
        *_bonded_refusals(points, lasting=lasting),
        (Refusal.EN_WEAK_CONCRETE, own.known & own.post_installed & (own.f_ck_class < ASSESSED_FROM)),
        (Refusal.EN_NO_SPLITTING_DATA, own.known & pulled & (own.c_cr_sp == 0) & cornered & ~own.splitting_bars),
        (Refusal.EN_GROUP, size > MOST_IN_GROUP),
        (Refusal.EN_DIAMETER, sheared & (own.d_nom > MOST_D_NOM)),
    ]


def _bonded_refusals(points: Points, *, lasting: Bools) -> list[tuple[Refusal, Bools]]:
    """What the data of bonded fasteners and reading 36 ask for."""
    bond, own = points.bonds, points.products.bonded & points.products.european
    aloft = own & (points.bases.face != TOP)
    sure = bond.confirmed & bond.temperature_stated & (bond.age >= bond.least_age)
    return [
        (Refusal.EN_NOT_UPWARD, aloft & ~bond.upward),
        (Refusal.EN_CONCRETE_AGE, own & (bond.age >= 0) & (bond.age < bond.least_age)),
        (Refusal.EN_BOND_UNCONFIRMED, aloft & lasting & ~sure),
    ]


def _sharing(points: Points) -> Bools:
    """(points,) whose shear along an axis several fasteners take: those that no slot leaves out of it."""
    own = points.layouts
    along = [np.bincount(own.point[way], minlength=points.count) for way in (own.resists_x, own.resists_y)]
    return np.maximum(*along) > 1


def _thick_grout(points: Points, fasteners: Fasteners) -> Bools:
    """(points,) whose lever arm is grout alone."""
    fixings, plates = points.fixings, points.plates
    return fastener_levers(fasteners, fixings, plates).acts & ~off_the_concrete(fixings, plates)


def fastener_findings(points: Points, fasteners: Fasteners, *, checked: Bools, shear: Floats) -> list[FindingColumn]:
    """Least dimensions and the limits of the standard.

    Args:
        points: the batch.
        fasteners: of its points.
        checked: (points,) whether the anchors are.
        shear: (points,) largest factored shear, lbf.
    """
    own, product, base = fasteners, points.products, points.bases
    c, spacing, none = nearest_edges(points), least_spacing(points), np.zeros(points.count)
    nearest, has = least_of_edges(c), np.where(np.isfinite(spacing), spacing, 0.0)
    reach = np.maximum(10 * own.h_ef, 60 * own.d_nom) / MM_PER_INCH
    at_edge = checked & (shear > 0) & (nearest <= reach)
    shared = _sharing(points) & (shear > 0)
    crowd = np.bincount(points.layouts.point, minlength=points.count) > MOST_AT_EDGE
    least_h_ef = np.full(points.count, LEAST_H_EF)
    most_f_uk, most_f_ck = (np.full(points.count, most * PSI_PER_MPA) for most in (MOST_F_UK, MOST_F_CK_POST_INSTALLED))
    limited = own.post_installed & (own.f_ck_class > MOST_F_CK_POST_INSTALLED)
    assessed = np.full(points.count, ASSESSED_TO * PSI_PER_MPA)
    untested = own.post_installed & (own.f_ck_class > ASSESSED_TO)
    row_spacing = 4 * own.d_nom / MM_PER_INCH
    found = [
        FindingColumn(Finding.FASTENER_EDGE, below(nearest, limit=product.c_min), nearest, product.c_min),
        FindingColumn(Finding.FASTENER_SPACING, below(spacing, limit=product.s_min), has, product.s_min),
        FindingColumn(
            Finding.FASTENER_THICKNESS, below(base.thickness, limit=product.h_min), base.thickness, product.h_min
        ),
        FindingColumn(Finding.FASTENER_EMBEDMENT, below(product.h_ef, limit=LEAST_H_EF), product.h_ef, least_h_ef),
        FindingColumn(Finding.FASTENER_STEEL, own.f_uk > MOST_F_UK, own.f_uk * PSI_PER_MPA, most_f_uk),
        FindingColumn(Finding.FASTENER_F_CK, limited, own.f_ck_class * PSI_PER_MPA, most_f_ck),
        FindingColumn(Finding.FASTENER_ASSESSED_IN, untested, own.f_ck_class * PSI_PER_MPA, assessed),
        FindingColumn(Finding.FASTENER_ROW_SPACING, at_edge & below(spacing, limit=row_spacing), has, row_spacing),
        FindingColumn(Finding.FASTENER_GROUP_AT_EDGE, at_edge & crowd, none, none),
        FindingColumn(Finding.FASTENER_HOLE_CLEARANCE, shared & ~points.fixings.welded, none, none),
        FindingColumn(Finding.FASTENER_GROUT, (shear > 0) & _thick_grout(points, own), none, none),
    ]
    return [
        FindingColumn(
            each.finding, each.holds & checked, np.where(np.isfinite(each.value), each.value, 0.0), each.limit
        )
        for each in found
        if some(each.holds)
    ]
