"""Groups of bonded fasteners and the resistance of their bond. Units: mm, N, N/mm2.

Groups are those by s_cr,Np with psi_sus 1, whatever lasts of their load, so that they are no smaller (reading 47).
"""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors, Sets, judged_sets
from hangpoint.core.anchor_sets.of_sets import eccentricity, largest_of, least_of
from hangpoint.core.en1992_4.combined import Bonded, BondResistance, bond_resistance, bond_spacing, one_bond
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.quantity import Bools, Floats, Index


def bond_sets(cases: FastenerCases, anchors: Anchors, *, counts: Bools, load: Floats) -> Sets:
    """Groups of the bonded ones of the fasteners that count: closer than s_cr,Np."""
    limit = bond_spacing(d=cases.d_nom, h_ef=cases.h_ef, tau_ucr=cases.tau_ucr, psi_sus=np.ones_like(cases.h_ef))
    return judged_sets(
        anchors,
        limit=limit[anchors.case],
        counts=counts & cases.bonded[anchors.case],
        load=load,
        bounding=np.zeros(anchors.case_count, dtype=np.bool_),
    )


def bond_of_sets(
    cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors, sets: Sets, *, tension: Floats | None
) -> BondResistance:
    """Characteristic resistance of each group.

    Args:
        cases, anchors, factors: all of them.
        sets: of the anchors.
        tension: (anchors,) for the eccentricity and what lasts of it, N; without it, in shear, there is none of the
            former and all of the load is taken to last.
    """
    e_n_x, e_n_y = eccentricity(anchors, sets, tension)
    load = sets.total(anchors.v if tension is None else tension)
    least = {
        name: least_of(getattr(cases, column), anchors, sets)
        for name, column in (("d", "d_nom"), ("h_ef", "h_ef"), *((own, own) for own in _OF_BOND))
    }
    return bond_resistance(
        Bonded(
            **least,
            psi_c_exponent=least_of(cases.tau_exponent, anchors, sets),
            cracked=cases.cracked[sets.case],
            earthquake=cases.earthquake[sets.case],
            f_ck=factors.f_ck[sets.case],
            load=load,
            stays=load if tension is None else sets.total(anchors.n_ua_s),
            psi_2=largest_of(cases.psi_2, anchors, sets),
        ),
        footprint=sets.footprint,
        anchor_count=sets.anchor_count,
        s_max=sets.largest_spacing,
        wide_bars=cases.wide_bars[sets.case],
        e_n_x=e_n_x,
        e_n_y=e_n_y,
    )


_OF_BOND = ("tau_cr", "tau_ucr", "tau_eq", "psi0_sus")


def bonded_rows(cases: FastenerCases, factors: ConcreteFactors, case: Index, *, load: Floats, stays: Floats) -> Bonded:
    """The bond of single fasteners (rows,) of the cases ``case`` (rows,), with their load and what stays of it, N."""
    own = cases.take(case)
    return Bonded(
        d=own.d_nom,
        h_ef=own.h_ef,
        **{name: getattr(own, name) for name in _OF_BOND},
        psi_c_exponent=own.tau_exponent,
        cracked=own.cracked,
        earthquake=own.earthquake,
        f_ck=factors.f_ck[case],
        load=load,
        stays=stays,
        psi_2=own.psi_2,
    )


def each_bond(cases: FastenerCases, anchors: Anchors, factors: ConcreteFactors) -> Floats:
    """(anchors,) N0_Rk,p of each by its own load, N, in the weakest condition that is left open.

    Infinite where it isn't bonded or doesn't count in tension.
    """
    rows = np.flatnonzero(anchors.pulled() & cases.bonded[anchors.case])
    found = np.full(len(anchors.case), np.inf)
    load, stays = anchors.n_ua[rows], anchors.n_ua_s[rows]
    case = anchors.case[rows]
    found[rows] = one_bond(bonded_rows(cases, factors, case, load=load, stays=stays)) * cases.open_share[case]
    return found
