"""Fasteners sheared against each other, as torsion does: each has an edge half-way to its neighbours (7.2.2.4(4)).

Units: mm, N. A neighbour counts at the side that it lies farther along, on the diagonal at both. The edges half-way
cut the areas; whether they also make three near edges of (7.8), which would raise the resistance, or count in psi_s,N,
which lowers it, is open: where they make three both are taken, with them and with the edges of the member alone, and
the worse counts.

Near an edge V_Rk,c of a row that has one of them is 0.8 of it (7.2.2.5(8)), where the other is no farther than
1.5 h_ef + 1.5 c_1. The rule is for resistances of the two of which the lesser is more than 0.7 of the larger: that
isn't asked for here, the reduction is taken for all.
"""

from dataclasses import replace

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.en1992_4.bonded_sets import bonded_rows
from hangpoint.core.en1992_4.combined import BondResistance, bond_resistance
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors
from hangpoint.core.en1992_4.cone import ConeResistance, cone_resistance
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.geometry.grouping import Membership, near_pairs
from hangpoint.core.quantity import Bools, Floats, Index

_ALIKE = 1e-9
_THREE = 3


@frozen
class Opposed:
    """Fasteners that have one beside them sheared against them.

    ``c`` (fasteners, 4) are the distances that cut the areas, to edges of the member or half-way to a neighbour;
    ``member_c`` (fasteners, 4) those that all else goes by, None where it goes by the same.
    """

    anchor: Index
    case: Index
    c: Floats
    member_c: Floats | None = None

    def membership(self) -> Membership:
        """Each as a group of one."""
        count = len(self.anchor)
        return Membership(
            member_anchor=self.anchor,
            member_group=np.arange(count),
            case_of_group=self.case,
            anchor_count=np.ones(count),
            largest_spacing=np.zeros(count),
        )

    def of(self, holds: Bools) -> "Opposed":
        """Those of the cases (cases,) that it holds for."""
        rows = np.flatnonzero(holds[self.case])
        member_c = None if self.member_c is None else self.member_c[rows]
        return Opposed(anchor=self.anchor[rows], case=self.case[rows], c=self.c[rows], member_c=member_c)

    def by_member(self, anchors: Anchors, *, reach: Floats) -> "Opposed":
        """Those with three edges nearer than half of ``reach`` (cases,), with the edges of the member but for areas."""
        rows = np.flatnonzero((self.c < reach[self.case, None] / 2).sum(axis=1) >= _THREE)
        anchor = self.anchor[rows]
        return Opposed(anchor=anchor, case=self.case[rows], c=self.c[rows], member_c=anchors.c_a[anchor])

    def bond(self, cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> BondResistance:
        """N_Rk,p of each by itself, all of its shear taken to last."""
        load, none = anchors.v[self.anchor], np.zeros(len(self.anchor))
        stays = load
        return bond_resistance(
            bonded_rows(cases, factors, self.case, load=load, stays=stays),
            footprint=self._footprint(anchors),
            anchor_count=np.ones(len(self.anchor)),
            s_max=none,
            wide_bars=cases.wide_bars[self.case],
            e_n_x=none,
            e_n_y=none,
        )

    def _footprint(self, anchors: Anchors) -> Footprint:
        return Footprint(
            c_a=self.c if self.member_c is None else self.member_c,
            membership=None
            if self.member_c is None
            else replace(self.membership(), member_anchor=np.arange(len(self.c))),
            x=anchors.x[self.anchor],
            y=anchors.y[self.anchor],
            anchor_c_a=self.c,
            bounding=np.zeros(len(self.anchor), dtype=np.bool_),
        )

    def resistance(self, cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> ConeResistance:
        """N_Rk,c of each by itself."""
        own, count = cases.take(self.case), len(self.anchor)
        none = np.zeros(count)
        return cone_resistance(
            h_ef=own.h_ef,
            s_cr_n=own.s_cr_n,
            footprint=self._footprint(anchors),
            anchor_count=np.ones(count),
            s_max=none,
            wide_bars=own.wide_bars,
            e_n_x=none,
            e_n_y=none,
            cracked=own.cracked,
            k_cr_n=own.k_cr_n,
            k_ucr_n=own.k_ucr_n,
            f_ck=factors.f_ck[self.case],
            fire=own.fire,
            minutes=own.minutes,
        )


def opposed_fasteners(anchors: Anchors, *, reach: Floats) -> Opposed:
    """Which they are, in rising order; those of other points in the same concrete count as neighbours.

    Args:
        anchors: all of them.
        reach: (cases,) s_cr,N, mm; farther ones don't count.
    """
    at = anchors.case
    a, b, turned = _sheared_pairs(anchors, reach[at])
    against = np.zeros(len(at), dtype=np.bool_)
    against[a[turned]] = against[b[turned]] = True
    one, other = np.concatenate((a, b)), np.concatenate((b, a))
    dx, dy = anchors.x[other] - anchors.x[one], anchors.y[other] - anchors.y[one]
    away_x, away_y = np.abs(dx), np.abs(dy)
    c = anchors.c_a.copy()
    for side, away, farther in (
        (np.where(dx < 0, 0, 1), away_x, away_x >= away_y * (1 - _ALIKE)),
        (np.where(dy < 0, 2, 3), away_y, away_y >= away_x * (1 - _ALIKE)),
    ):
        np.minimum.at(c, (one[farther], side[farther]), away[farther] / 2)
    found = np.flatnonzero(against)
    return Opposed(anchor=found, case=at[found], c=c[found])


def _sheared_pairs(anchors: Anchors, reach: Floats) -> tuple[Index, Index, Bools]:
    """Pairs of sheared fasteners nearer than their ``reach`` (anchors,), and whether they are sheared against each
    other."""
    at = anchors.case
    concrete = at if anchors.joint is None else anchors.joint[at]
    order = np.argsort(concrete, kind="stable")
    a, b = near_pairs(
        x=anchors.x[order],
        y=anchors.y[order],
        case_of_anchor=concrete[order],
        limit=reach[order],
        counts=anchors.sheared()[order],
    )
    a, b = order[a], order[b]
    along = anchors.v_x[a] * anchors.v_x[b] + anchors.v_y[a] * anchors.v_y[b]
    return a, b, along < -_ALIKE * anchors.v[a] * anchors.v[b]


def nearest_against(anchors: Anchors) -> Floats:
    """(anchors,) distance to the nearest one that is sheared against each, mm; infinite where none is."""
    nearest = np.full(len(anchors.case), np.inf)
    a, b, turned = _sheared_pairs(anchors, nearest)
    a, b = a[turned], b[turned]
    away = np.hypot(anchors.x[a] - anchors.x[b], anchors.y[a] - anchors.y[b])
    np.minimum.at(nearest, a, away)
    np.minimum.at(nearest, b, away)
    return nearest
