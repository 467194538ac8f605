"""What is seen of points that go by tables of allowable loads, and which of them are refused. Units: in, lbf, psi."""

import numpy as np

from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.allowable.limits import table_findings
from hangpoint.core.hang_point.allowables import (
    AT_JOINT,
    CRACKED,
    ELSEWHERE,
    LIGHTWEIGHT,
    MASONRY_BOLT,
    NO_TABLE,
    NOT_BY_TABLE,
    NOT_IN_UNITS,
    TABLE,
    WRONG_BASE,
    Allowables,
)
from hangpoint.core.hang_point.bolt_findings import bolt_findings, out_of_grout
from hangpoint.core.hang_point.layout_findings import least_spacing, nearest_edges
from hangpoint.core.hang_point.points import SOFFIT, TOP, Basis, Points
from hangpoint.core.hang_point.sharing import Sharing
from hangpoint.core.hang_point.surroundings import CONCRETE, HOLLOW_CORE
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Refusal

_UNMET = {
    WRONG_BASE: Refusal.WRONG_BASE,
    NOT_BY_TABLE: Refusal.ALLOWABLE,
    NO_TABLE: Refusal.NO_TABLE,
    NOT_IN_UNITS: Refusal.NOT_GROUTED,
    AT_JOINT: Refusal.MORTAR_JOINT,
    ELSEWHERE: Refusal.LOCATION_NOT_TESTED,
    LIGHTWEIGHT: Refusal.NO_LIGHTWEIGHT,
    CRACKED: Refusal.TABLE_UNCRACKED,
}


def nearest_anchor(points: Points, shared: Sharing | None) -> Floats:
    """(points,) distance of the nearest two anchors, those of neighbouring points among them; infinite for one."""
    if points.allowables is None:
        return np.full(points.count, np.inf)
    own = least_spacing(points)
    return own if shared is None else np.minimum(own, shared.nearest)


def allowable_refusals(
    points: Points, basis: Basis, *, pulled: Bools, held: Bools, sheared: Bools, quaking: Bools, ruled: Bools
) -> list[tuple[Refusal, Bools]]:
    """Reasons against points that chapter 17 doesn't cover, in order, (points,) each.

    Args:
        points: the batch.
        basis: of the request.
        pulled, sheared: any anchor is in any load case.
        held: tension that stays pulls any anchor.
        quaking: earthquake adds to any load case.
        ruled: the load of the sprinkler rule is among what hangs.
    """
    own = points.allowables
    if own is None:
        return []
    base, product = points.bases, points.products
    table, bolt = own.method == TABLE, own.method == MASONRY_BOLT
    lacking = (pulled & (own.mean_ultimate[:, 0] == 0)) | (sheared & (own.mean_ultimate[:, 1] == 0))
    high = base.category >= SEISMIC_FROM
    sure = points.bonds.confirmed & points.bonds.temperature_stated
    concrete = np.isin(points.surroundings.kind, (CONCRETE, HOLLOW_CORE))
    return [
        (Refusal.TABLE_FACTORED, table & basis.factored),
        *((refusal, own.unmet == unmet) for unmet, refusal in _UNMET.items()),
        (Refusal.NOT_IN_GROUT, out_of_grout(own)),
        (Refusal.NOT_UPWARD, table & product.bonded & (base.face == SOFFIT) & ~points.bonds.upward),
        (Refusal.TABLE_ADHESIVE, table & product.bonded & (base.face != TOP) & held & ~sure),
        (Refusal.PLATE_ON_TABLE_BASE, (table | bolt) & points.plates.stated & points.plates.contact),
        (Refusal.NO_TABLE_DIRECTION, table & lacking),
        (Refusal.SPRINKLER_BY_TABLE, (table | (bolt & ~own.by_strength)) & ruled),
        (Refusal.NOT_SEISMIC, table & high & concrete & product.post_installed),
        (Refusal.EARTHQUAKE_NOT_IN_TABLE, (table | bolt) & high & quaking),
    ]


def allowable_findings(points: Points, *, checked: Bools, spacing: Floats) -> list[FindingColumn]:
    """Findings of points that go by a table, and of bolts in masonry.

    Args:
        points: the batch.
        checked: (points,) whether the anchors are.
        spacing: of `nearest_anchor`.
    """
    own = points.allowables
    if own is None:
        return []
    return [
        *bolt_findings(points, own, checked=checked, spacing=spacing),
        *_of_tables(points, own, checked=checked, spacing=spacing),
    ]


def _of_tables(points: Points, own: Allowables, *, checked: Bools, spacing: Floats) -> list[FindingColumn]:
    return table_findings(
        checked=checked & (own.method == TABLE),
        c_a=nearest_edges(points).min(axis=1),
        spacing=spacing,
        thickness=points.bases.thickness,
        f_base=own.f_base,
        joint=own.joint,
        cover=own.cover,
        strand=own.strand,
        face_shell=own.face_shell,
        one_a_cell=own.one_a_cell,
        **{name: getattr(own, name).max(axis=1) for name in _LIMITS},
    )


_LIMITS = (
    "c_least",
    "s_least",
    "h_least",
    "f_least",
    "joint_least",
    "cover_least",
    "strand_least",
    "shell_least",
)


def least_between(own: Allowables | None, otherwise: Floats) -> Floats:
    """(points,) least spacing of anchors: that of the tables where a point goes by one."""
    if own is None:
        return otherwise
    return np.where(own.method == TABLE, own.s_least.max(axis=1), otherwise)
