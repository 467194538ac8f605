"""Plates of load cases as they are balanced: stated ones, and those drawn around anchors without one. Units: in."""

import numpy as np

from hangpoint.core.aci318_19 import modulus as aci318_19
from hangpoint.core.conversions import PSI_PER_MPA
from hangpoint.core.en1992_4 import modulus as en1992_4
from hangpoint.core.hang_point.layout_load import LayoutLoad
from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.statics.rigid_plate import RigidPlate, rigid_plate

_BESIDE = 1.0
"""in: how far a plate that isn't there is drawn beyond its anchors; it bears on nothing."""


class CasePlates:
    """The plates of some cases, to be balanced under one load or another."""

    def __init__(self, points: Points, owner: Index, *, x: Floats, y: Floats, case: Index) -> None:
        plate, base = points.plates.take(owner), points.bases.take(owner)
        self._x, self._y, self._case = x, y, case
        self._contact = plate.stated & plate.contact
        self._a_s = points.products.a_se_n[owner][case]
        if points.fasteners is None:
            self._e_s = aci318_19.E_S
            self._e_c = aci318_19.modulus(f_c=base.f_c, lightweight=base.lightweight)
        else:
            self._e_s = en1992_4.E_S * PSI_PER_MPA
            self._e_c = en1992_4.modulus(f_ck=points.fasteners.f_ck_class[owner]) * PSI_PER_MPA
        starts = np.flatnonzero(np.diff(case, prepend=-1))
        around = [
            np.minimum.reduceat(x, starts) - _BESIDE,
            np.maximum.reduceat(x, starts) + _BESIDE,
            np.minimum.reduceat(y, starts) - _BESIDE,
            np.maximum.reduceat(y, starts) + _BESIDE,
        ]
        sides = (plate.x0, plate.x1, plate.y0, plate.y1)
        self._sides = [np.where(plate.stated, own, drawn) for own, drawn in zip(sides, around, strict=True)]

    def balance(self, load: LayoutLoad) -> RigidPlate:
        """Forces of the anchors of each plate."""
        x0, x1, y0, y1 = self._sides
        return rigid_plate(
            x0=x0,
            x1=x1,
            y0=y0,
            y1=y1,
            n=load.n,
            m_x=load.m_x,
            m_y=load.m_y,
            contact=self._contact,
            e_s=np.full(len(load.n), self._e_s),
            e_c=self._e_c,
            x=self._x,
            y=self._y,
            a_s=self._a_s,
            case_of_anchor=self._case,
        )
