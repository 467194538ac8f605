"""Which points go to an engineer, and why."""

import numpy as np

from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.hang_point.allowables import CHAPTER_17, MASONRY_BOLT
from hangpoint.core.hang_point.base_findings import in_beam, maybe_tensioned
from hangpoint.core.hang_point.fastener_earthquake import FastenersShaken
from hangpoint.core.hang_point.fastener_fire import LONGEST
from hangpoint.core.hang_point.points import NO_OPTION, TOP, Points
from hangpoint.core.hang_point.surroundings import (
    CHLORIDES,
    CONCRETE,
    DECK,
    HOLLOW_CORE,
    MASONRY,
    POOL,
    STEEL,
    TOPPING,
    UNKNOWN,
    WOOD,
)
from hangpoint.core.outcome import TriageColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Refusal, Triage, position

_MATURE = 28.0
"""Days at which f'c is specified (common practice)."""


_PLAIN = {CONCRETE, DECK}
_BASES = (
    (Triage.BASE_UNKNOWN, (UNKNOWN,)),
    (Triage.BASE_OTHER, (STEEL, WOOD)),
    (Triage.BASE_BY_TABLES, (MASONRY, HOLLOW_CORE)),
)


def triage(
    points: Points, *, refusal: Index, sustained: Floats, over_limit: Bools, shaken: FastenersShaken | None
) -> list[TriageColumn]:
    """Reasons to ask the engineer that any point has, in the order of the closed list.

    Args:
        points: the batch.
        refusal: (points,) of `scope.refusals`.
        sustained: (points,) largest sustained factored tension, lbf.
        over_limit: (points,) the structural notes allow less at the point.
        shaken: where earthquake acts on points that go by EN 1992-4.
    """
    around, base, fixing = points.surroundings, points.bases, points.fixings
    kind, anchored, exposure = around.kind, around.anchored, points.environments.exposure
    seismic = (refusal == position(Refusal.SEISMIC_TENSION)) | (refusal == position(Refusal.SEISMIC_SHEAR))
    claimed = (fixing.tension_option != NO_OPTION) | (fixing.shear_option != NO_OPTION)
    claimed &= base.category >= SEISMIC_FROM
    plain = _PLAIN.issuperset(kind.tolist())
    found = [
        *((reason, np.isin(kind, kinds) & ~_by_formula(points)) for reason, kinds in _BASES if not plain),
        (Triage.TOPPING, anchored & (around.part == TOPPING)),
        (Triage.POST_TENSIONED, anchored & maybe_tensioned(points)),
        (Triage.EXISTING_STRENGTH, anchored & around.existing & ~around.f_c_stated),
        (Triage.UNCRACKED, anchored & ~base.cracked),
        (Triage.CONCRETE_YOUNG, anchored & (around.age >= 0) & (around.age < _MATURE)),
        (Triage.BEAM_DRILLING, anchored & in_beam(points)),
        (Triage.ADHESIVE_OVERHEAD, anchored & points.products.bonded & (base.face != TOP) & (sustained > 0)),
        (Triage.SEISMIC_OPTION, anchored & (seismic | (claimed & (points.method == CHAPTER_17)))),
        *([] if shaken is None else [(Triage.EN_EARTHQUAKE, anchored & shaken.stated)]),
        (Triage.SPRINKLER, points.hangs.sprinkler),
        (Triage.STRUCTURAL_LIMIT, over_limit),
        (Triage.CORROSION, anchored & ((exposure == CHLORIDES) | (exposure == POOL))),
        *_of_fire(points, anchored & (points.environments.fire_rating > 0)),
    ]
    return [TriageColumn(triage=reason, holds=holds) for reason, holds in found if some(holds)]


def _of_fire(points: Points, asked: Bools) -> list[tuple[Triage, Bools]]:
    """What to ask where a fire rating is ``asked`` (points,) for: EN 1992-4 has resistances in fire, but of bonds."""
    own = points.fasteners
    if own is None or points.fires is None:
        return [(Triage.FIRE, asked)]
    beyond = own.bonded | (points.fires.minutes > LONGEST)
    return [(Triage.FIRE, asked & beyond), (Triage.EN_FIRE, asked & ~beyond)]


def _by_formula(points: Points) -> Bools:
    """(points,) bolts in grouted masonry, which need no table."""
    own = points.allowables
    return np.zeros(points.count, dtype=np.bool_) if own is None else own.method == MASONRY_BOLT
