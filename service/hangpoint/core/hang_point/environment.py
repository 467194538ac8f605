"""Corrosion, vibration and fire where an anchor lives: facts of the trade (common practice, no source).

Electroplated zinc is for dry air; hot-dip or mechanically galvanised for damp and outdoors; stainless 304 and 316 for
chlorides, 316 the better; in the air of indoor pools only high-alloy grades (reading 40). A carbon steel anchor is the
small, less noble part beside stainless steel or copper. Hardened screws crack by hydrogen where they are damp.
"""

import numpy as np

from hangpoint.core.hang_point.points import TOP, Points
from hangpoint.core.hang_point.surroundings import (
    ALUMINIUM_METAL,
    CARBON_METAL,
    CARBON_STEEL,
    CHLORIDES,
    COPPER_METAL,
    DAMP,
    DRY,
    FOOD,
    GALVANISED_METAL,
    HIGH_ALLOY,
    HOT_DIP,
    OUTDOOR,
    POOL,
    SILENT,
    STAINLESS_304,
    STAINLESS_METAL,
    TREATED_WOOD,
    ZINC_MECHANICAL,
)
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding


def environment_findings(points: Points, checked: Bools) -> list[FindingColumn]:
    """What the exposure, the metals that touch, vibration and fire say against the anchor.

    Args:
        points: the batch.
        checked: (points,) the anchors are checked.
    """
    around = points.environments
    if not _anything(points):
        return []
    exposure, steel = around.exposure, around.steel
    carbon, known = steel == CARBON_STEEL, steel != SILENT
    galvanised = carbon & np.isin(around.coating, (ZINC_MECHANICAL, HOT_DIP))
    stated = (exposure != SILENT) & (exposure != DRY)
    wet = stated & (exposure != FOOD)
    corroded = (
        (np.isin(exposure, (DAMP, OUTDOOR, TREATED_WOOD)) & carbon & ~galvanised)
        | ((exposure == CHLORIDES) & carbon)
        | ((exposure == POOL) & known & (steel != HIGH_ALLOY))
    )
    touched = (around.attached, around.rod)
    nobler = carbon & np.any([np.isin(metal, (STAINLESS_METAL, COPPER_METAL)) for metal in touched], axis=0)
    base_metals = (CARBON_METAL, GALVANISED_METAL, ALUMINIUM_METAL)
    eaten = known & ~carbon & np.any([np.isin(metal, base_metals) for metal in touched], axis=0)
    eaten |= carbon & np.any([metal == ALUMINIUM_METAL for metal in touched], axis=0)
    holds = {
        Finding.EXPOSURE_CORROSION: corroded,
        Finding.CHLORIDES_304: (exposure == CHLORIDES) & (steel == STAINLESS_304),
        Finding.FOOD_CARBON: (exposure == FOOD) & carbon,
        Finding.MATERIAL_UNKNOWN: stated & ~known,
        Finding.GALVANIC_COUPLE: wet & nobler,
        Finding.DISSIMILAR_METALS: ~wet & nobler,
        Finding.ATTACHMENT_CORRODES: wet & eaten,
        Finding.HYDROGEN: stated & carbon & points.products.screw,
        Finding.VIBRATION: around.vibration & ~around.follow_up,
        Finding.FIRE_RATED: (around.fire_rating > 0) & (points.fasteners is None),
    }
    none = np.zeros(points.count)
    return [
        FindingColumn(finding=finding, holds=each & checked, value=none, limit=none) for finding, each in holds.items()
    ]


def in_pool_air(points: Points) -> Bools:
    """(points,) overhead or sideways in the air of an indoor pool, and not of a high-alloy grade (reading 40)."""
    around = points.environments
    return (around.exposure == POOL) & (around.steel != HIGH_ALLOY) & (points.bases.face != TOP)


def _anything(points: Points) -> bool:
    around = points.environments
    said = ((around.exposure != SILENT) & (around.exposure != DRY)) | (around.attached != SILENT)
    return some(said | (around.rod != SILENT) | around.vibration | (around.fire_rating > 0))
