"""What pry-out is judged for: groups of sheared fasteners by cone and by bond, and each of opposed ones. mm, N."""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors, Sets
from hangpoint.core.anchor_sets.of_sets import all_of, least_of
from hangpoint.core.en1992_4.bonded_sets import bond_of_sets, bond_sets
from hangpoint.core.en1992_4.combined import BondResistance
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors
from hangpoint.core.en1992_4.cone import ConeResistance
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.en1992_4.opposed import Opposed, opposed_fasteners
from hangpoint.core.en1992_4.tension import cone_of_sets, cone_sets
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.grouping import Membership
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some


@frozen
class Pried:
    """Groups of one kind, with what they hold, N: ``by_itself`` beside others sheared the other way, or not."""

    case: Index
    anchor_count: Floats
    by_itself: bool
    resistance: ConeResistance | BondResistance
    k_8: Floats
    gap_filled: Bools
    like_headed: Bools
    demand: Floats
    members: Membership | None

    @property
    def in_fire(self) -> Floats:
        """N_Rk,c,fi; bonded fasteners have none."""
        own = self.resistance
        return np.zeros_like(own.n_rk_p) if isinstance(own, BondResistance) else own.n_rk_c_fi

    @property
    def by_bond(self) -> bool:
        """Whether it is the bond that holds them."""
        return isinstance(self.resistance, BondResistance)

    @property
    def characteristic(self) -> Floats:
        """N_Rk,c or N_Rk,p."""
        own = self.resistance
        return own.n_rk_p if isinstance(own, BondResistance) else own.n_rk_c


def pried_sets(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> list[Pried]:
    """All kinds that there are."""
    sheared, load = anchors.sheared(), anchors.v
    cones = cone_sets(cases, anchors, counts=sheared, load=load)
    against = opposed_fasteners(anchors, reach=cases.s_cr_n)
    each = (against, against.by_member(anchors, reach=cases.s_cr_n))
    found = [
        _pried_groups(cases, anchors, cones, cone_of_sets(cases, anchors, factors, cones, tension=None)),
        *(_pried_alone(cases, anchors, own, own.resistance(cases, anchors, factors)) for own in each),
    ]
    if some(cases.bonded):
        bonds, alone = bond_sets(cases, anchors, counts=sheared, load=load), [own.of(cases.bonded) for own in each]
        found += [
            _pried_groups(cases, anchors, bonds, bond_of_sets(cases, anchors, factors, bonds, tension=None)),
            *(_pried_alone(cases, anchors, own, own.bond(cases, anchors, factors)) for own in alone),
        ]
    return found


def _pried_groups(
    cases: FastenerCases, anchors: Anchors, sets: Sets, resistance: ConeResistance | BondResistance
) -> Pried:
    return Pried(
        case=sets.case,
        anchor_count=sets.anchor_count,
        by_itself=False,
        resistance=resistance,
        k_8=least_of(cases.k8, anchors, sets),
        gap_filled=all_of(cases.gap_filled, anchors, sets),
        like_headed=all_of(cases.like_headed, anchors, sets),
        demand=sets.total(anchors.v),
        members=sets.membership,
    )


def _pried_alone(
    cases: FastenerCases, anchors: Anchors, own: Opposed, resistance: ConeResistance | BondResistance
) -> Pried:
    return Pried(
        case=own.case,
        anchor_count=np.ones(len(own.case)),
        by_itself=True,
        resistance=resistance,
        k_8=cases.k8[own.case],
        gap_filled=cases.gap_filled[own.case],
        like_headed=cases.like_headed[own.case],
        demand=anchors.v[own.anchor],
        members=None if anchors.single else own.membership(),
    )
