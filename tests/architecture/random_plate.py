"""Generators of the records of plates and bolt groups: see `random_records`.

Cases without equilibrium, plates off the concrete, anchors in compression and slotted holes are among them.
"""

import numpy as np

from core.statics.groups import random_groups
from core.statics.plates import random_plates
from hangpoint.core.statics.bolt_group_shear import BoltGroupShear, BoltShear, bolt_group_shear
from hangpoint.core.statics.plate_balance import (
    PlateAnchor,
    PlateBalance,
    SustainedPlateAnchor,
    SustainedPlateBalance,
)
from hangpoint.core.statics.rigid_plate import rigid_plate
from hangpoint.core.statics.tension_resultant import TensionResultant


def _plates(random):
    return rigid_plate(**random_plates(random.rng, random.rows, least=1, most=6))


def _groups(random):
    return bolt_group_shear(**random_groups(random.rng, random.rows))


def _plate_anchor(random):
    return _plates(random).anchors.take(np.arange(random.rows))


def _bolt_shear(random):
    return _groups(random).anchors.take(np.arange(random.rows))


GENERATORS = {
    BoltGroupShear: lambda random: _groups(random).group,
    BoltShear: _bolt_shear,
    PlateAnchor: _plate_anchor,
    PlateBalance: lambda random: _plates(random).balance,
    SustainedPlateAnchor: lambda random: SustainedPlateAnchor(**vars(_plate_anchor(random))),
    SustainedPlateBalance: lambda random: _plates(random).as_sustained().balance,
    TensionResultant: lambda random: _plates(random).tensioned,
}
