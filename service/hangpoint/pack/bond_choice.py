"""Which of several conditions an adhesive anchor holds least in, where its hole or its temperature is left open.

In the state of the concrete and the seismic design category the bond of each condition is another one of its data, and
may rise with the concrete strength. Near edges and beside other anchors a stronger bond reaches farther and so loses
more of A_Na / A_Nao and psi_ed,Na (17.6.5): the one of least tau isn't always the one that holds least. Units: in, psi.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from hangpoint.core.aci318_19.adhesive_bond import bond_reach, bond_stress, edge_factors
from hangpoint.core.aci318_19.concrete_basis import F_C_LIMIT_POST_INSTALLED, PHI_P
from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.conversions import MM_PER_INCH, PSI_PER_MPA
from hangpoint.core.en1992_4.combined import K_3, bond_spacing, group_factors, stress_of_cone
from hangpoint.core.en1992_4.cone import edge_factor, narrow_member
from hangpoint.core.hang_point.points import Bases
from hangpoint.core.quantity import Floats
from hangpoint.pack.anchors import PackedAnchors, product_columns
from hangpoint.pack.bonds import bonds_of_rows
from hangpoint.product.bond_table import BondTable
from hangpoint.product.table import ProductTable


@dataclass(frozen=True, slots=True, kw_only=True)
class BondState:
    """What says which bond of a condition counts: crack state, categories C to F, concrete strength in psi."""

    cracked: bool
    seismic: bool
    f_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    """How the anchors of a point stand: ``c_a`` (anchors, 4) in, ``d_a``, ``h_ef``, ``c_ac``, largest ``gap`` in."""

    state: BondState
    d_a: float
    h_ef: float
    c_ac: float
    c_a: Floats
    width_x: float
    width_y: float
    gap: float
    psi0_sus: float


def weighed_bond(bond: BondTable, row: int, state: BondState) -> float:
    """phi tau of a condition, psi; 0 where it isn't qualified in the state.

    By EN 1992-4 tau_Rk alone: of conditions that are left open the largest gamma_inst is taken whichever is chosen.
    """
    phi = float(PHI_P[bond.category[row]]) if bond.gamma_inst[row] == 0 else 1.0
    return phi * _tau(bond, row, state)


def with_weakest_bonds(anchors: PackedAnchors, bases: Bases) -> PackedAnchors:
    """The anchors with the condition in which each holds least, where several agree with what is stated.

    Args:
        anchors: with ``conditions``, rows of the bond table by point.
        bases: of the same points.
    """
    if not anchors.conditions:
        return anchors
    chosen = _chosen(anchors.conditions, anchors, bases)
    row = anchors.bond_row.copy()
    row[list(chosen)] = list(chosen.values())
    made = bonds_of_rows(anchors.table, row, anchors.bonds)
    bonds = replace(made.bonds, open_share=_open_shares(anchors, bases, chosen))
    return replace(anchors, bonds=bonds, bond_row=row, products=product_columns(anchors.table, made.category))


def _open_shares(anchors: PackedAnchors, bases: Bases, chosen: Mapping[int, int]) -> Floats:
    """(points,) the least phi tau of the conditions of each over that of the chosen one."""
    share = np.ones(len(anchors.bond_row))
    for at, row in chosen.items():
        weighed = partial(weighed_bond, anchors.table.bond, state=_state(bases, at))
        own = weighed(row)
        share[at] = min(map(weighed, anchors.conditions[at])) / own if own > 0 else 1.0
    return share


def _state(bases: Bases, at: int) -> BondState:
    return BondState(
        cracked=bool(bases.cracked[at]), seismic=bool(bases.category[at] >= SEISMIC_FROM), f_c=float(bases.f_c[at])
    )


def _chosen(conditions: Mapping[int, Sequence[int]], anchors: PackedAnchors, bases: Bases) -> dict[int, int]:
    layouts, product, bond = anchors.layouts.layouts, anchors.products, anchors.table.bond
    first = np.searchsorted(layouts.point, list(conditions), side="left").tolist()
    last = np.searchsorted(layouts.point, list(conditions), side="right").tolist()
    found: dict[int, int] = {}
    for (at, rows), start, end in zip(conditions.items(), first, last, strict=True):
        x, y = layouts.x[start:end], layouts.y[start:end]
        stand = _Stand(
            state=_state(bases, at),
            d_a=float(product.d_a[at]),
            h_ef=float(product.h_ef[at]),
            c_ac=float(product.c_ac[at]),
            c_a=bases.c_a[at] + np.stack((x, -x, y, -y), axis=1),
            width_x=float(np.ptp(x)),
            width_y=float(np.ptp(y)),
            psi0_sus=_psi0_sus(anchors.table, at),
            gap=max(float(np.diff(np.sort(line)).max(initial=0.0)) for line in (x, y)),
        )
        found[at] = min(rows, key=lambda row, stand=stand: _held(bond, row, stand))
    return found


def _psi0_sus(table: ProductTable, at: int) -> float:
    """psi0_sus of a product for EN 1992-4, 1 of others."""
    row = int(table.en_row[at])
    return float(table.en.psi0_sus[row]) if row >= 0 else 1.0


def _held(bond: BondTable, row: int, stand: _Stand) -> tuple[float, float]:
    """What an anchor holds over pi d_a h_ef, the least of each alone and of all together; then phi tau."""
    weighed = weighed_bond(bond, row, stand.state)
    if weighed == 0:
        return 0.0, 0.0
    share_of = partial(_european_share if bond.gamma_inst[row] > 0 else _share, bond=bond, row=row, stand=stand)
    alone = min(share_of(c_a, width_x=0.0, width_y=0.0, count=1, gap=0.0) for c_a in stand.c_a)
    if len(stand.c_a) == 1:
        return weighed * alone, weighed
    together = share_of(
        stand.c_a.min(axis=0), width_x=stand.width_x, width_y=stand.width_y, count=len(stand.c_a), gap=stand.gap
    )
    return weighed * min(alone, together / len(stand.c_a)), weighed


def _share(
    c_a: Floats, *, width_x: float, width_y: float, count: int, gap: float, bond: BondTable, row: int, stand: _Stand
) -> float:
    """A_Na / A_Nao psi_ed,Na psi_cp,Na of a rectangle of anchors so wide, ``c_a`` in from its outer ones."""
    c_na = float(bond_reach(d_a=np.array(stand.d_a), tau_uncr=bond.tau_uncr[row]))
    nearest = c_a.min()
    never_splits = stand.state.cracked or stand.c_ac <= 0
    edge, splitting = edge_factors(
        c_a_min=np.array(nearest), c_na=np.array(c_na), cracked=np.array(never_splits), c_ac=np.array(stand.c_ac)
    )
    return _area(c_a, c_na, width_x, width_y) * float(edge) * float(splitting)


def _area(c_a: Floats, reach: float, width_x: float, width_y: float) -> float:
    """Area of a rectangle of anchors with what it reaches around it, over that of one anchor."""
    within = np.minimum(c_a, reach)
    return float((within[0] + width_x + within[1]) * (within[2] + width_y + within[3])) / (2 * reach) ** 2


def _european_share(
    c_a: Floats, *, width_x: float, width_y: float, count: int, gap: float, bond: BondTable, row: int, stand: _Stand
) -> float:
    """The same by EN 1992-4 of load that all lasts: A_p,N / A0_p,N psi_s,Np psi_g,Np, near three edges h'_ef / h_ef."""
    d, h_ef = np.array([stand.d_a * MM_PER_INCH]), np.array([stand.h_ef * MM_PER_INCH])
    spacing = bond_spacing(d=d, h_ef=h_ef, tau_ucr=bond.tau_rk_ucr[row : row + 1], psi_sus=np.array([stand.psi0_sus]))
    c, s = c_a[None] * MM_PER_INCH, np.array([gap * MM_PER_INCH])
    narrow = narrow_member(c=c, h_ef=h_ef, s_cr=spacing, s_max=s)
    state, s_cr = stand.state, narrow.s_cr_used
    tau_rk_c = stress_of_cone(
        d=d,
        h_ef=narrow.h_ef_used,
        f_ck=np.array([state.f_c / PSI_PER_MPA]),
        k_3=np.array([K_3[0 if state.cracked else 1]]),
    )
    tau_rk = np.array([_tau(bond, row, state) / PSI_PER_MPA])
    _, group = group_factors(anchor_count=np.array([float(count)]), tau_rk=tau_rk, tau_rk_c=tau_rk_c, s=s, s_cr=s_cr)
    edge = edge_factor(c_min=c.min(axis=1), c_cr=s_cr / 2)
    area = _area(c_a, float(s_cr[0]) / 2 / MM_PER_INCH, width_x, width_y)
    return area * float((edge * group * narrow.h_ef_used / h_ef)[0])


def _tau(bond: BondTable, row: int, state: BondState) -> float:
    if bond.tau_uncr[row] == 0:
        return 0.0
    if state.seismic:
        tau = bond.tau_cr[row] * bond.alpha_n_seis[row]
    else:
        tau = bond.tau_cr[row] if state.cracked else bond.tau_uncr[row]
    f_c = np.array(min(state.f_c, F_C_LIMIT_POST_INSTALLED))
    return float(bond_stress(tau, f_c=f_c, f_c_ref=bond.f_c_ref[row], tau_exponent=bond.tau_exponent[row]))
