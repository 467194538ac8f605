"""How long a threaded rod may be between what holds it sideways when a brace pushes it: flexural buckling.

AISC 360-16, E3, of a solid round bar of the root diameter with pinned ends: F_cr = 0.658^(F_y/F_e) F_y up to the
slenderness 4.71 sqrt(E/F_y), 0.877 F_e beyond, with F_e = pi^2 E/(L/r)^2; phi 0.90; L/r at most 200, as E2 advises. It
is solved for the length: what the rod has to carry is known, and stiffeners are set by their distance.

Units: in, lbf, psi. Limits: the push acts along the axis of a straight rod; K = 1, although nut and clamp hold its
ends; bending, the anchor and the hanger that take the push, and the stiffener itself are not covered.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, procedure, record
from hangpoint.core.statics.thread_root import thread_root

_CLAUSE = "AISC 360 E3"
PHI = 0.90
F_Y = 30_000.0
"""Yield strength, psi, of soft rod: common practice, no source. Only short rods have their strength from it."""
MODULUS = 29.0e6
"""E of steel, psi (AISC 360)."""
MOST_SLENDER = 200.0


@record
class RodInCompression(Record):
    """Free length of a rod that is pushed, and the largest at which it holds; ``l_free`` is infinite if not stated."""

    TITLE: ClassVar[str] = "Rod pushed by the brace"
    AXIS: ClassVar[Axis] = Axis.LOAD

    c_rod: Annotated[Floats, given("P_u, compression in the rod", "lbf", clause="reading 35")]
    d: Annotated[Floats, given("d", "in", clause="thread standard")]
    pitch: Annotated[Floats, given("p", "in", clause="thread standard")]
    k_root: Annotated[Floats, given("k_r", clause="thread standard")]
    d_r: Annotated[Floats, formula("d_r", "in", "d - k_root*pitch", clause="thread standard")]
    a_r: Annotated[Floats, formula("A_r", "in**2", "pi/4*d_r**2", clause="thread standard")]
    r: Annotated[Floats, formula("r, radius of gyration", "in", "d_r/4", clause="mechanics")]
    phi: Annotated[Floats, given("φ", clause="AISC 360 E1")]
    f_cr: Annotated[Floats, formula("F_cr = P_u/(φA_r), asked of it", "psi", "c_rod/(phi*a_r)", clause=_CLAUSE)]
    f_y: Annotated[Floats, given("F_y", "psi", clause="common practice")]
    e: Annotated[Floats, given("E", "psi", clause="AISC 360")]
    slender: Annotated[
        Floats, procedure("L/r with that F_cr, at most 200", "", "slenderness_of_stress", clause=_CLAUSE)
    ]
    l_most: Annotated[Floats, formula("L_max", "in", "slender*r", clause=_CLAUSE)]
    l_free: Annotated[Floats, given("L, free length", "in", clause="the request", infinite="not stated")]
    holds: Annotated[Bools, formula("L ≤ L_max", "", "l_free <= l_most", clause=_CLAUSE)]


def rod_in_compression(*, c_rod: Floats, d: Floats, pitch: Floats, k_root: Floats, l_free: Floats) -> RodInCompression:
    """Free length of each rod against the largest that carries ``c_rod`` > 0 in lbf, every array of shape (n,).

    ``d``, ``pitch``, ``k_root`` of `rod.THREADS`, in; ``l_free`` in in, infinite where not stated. Source: AISC 360-16,
    E2 and E3.
    """
    d_r, a_r = thread_root(d=d, pitch=pitch, k_root=k_root)
    r = d_r / 4.0
    phi, f_y, e = (np.full(len(d), value) for value in (PHI, F_Y, MODULUS))
    f_cr = c_rod / (phi * a_r)
    slender = slenderness_of_stress(f_cr=f_cr, f_y=f_y, e=e)
    l_most = slender * r
    return RodInCompression(
        c_rod=c_rod,
        d=d,
        pitch=pitch,
        k_root=k_root,
        d_r=d_r,
        a_r=a_r,
        r=r,
        phi=phi,
        f_cr=f_cr,
        f_y=f_y,
        e=e,
        slender=slender,
        l_most=l_most,
        l_free=l_free,
        holds=l_free <= l_most,
    )


def slenderness_of_stress(*, f_cr: Floats, f_y: Floats, e: Floats) -> Floats:
    """The slenderness L/r at which E3 has the critical stress ``f_cr`` > 0, 200 at most; every array (n,), psi.

    Beyond 4.71 sqrt(E/F_y) it is pi sqrt(0.877 E/F_cr), up to there pi sqrt(E ln(F_cr/F_y)/(F_y ln 0.658)), and 0 where
    no length carries so much.
    """
    elastic = np.pi * np.sqrt(0.877 * e / f_cr)
    share = np.minimum(f_cr / f_y, 1.0)
    plastic = np.pi * np.sqrt(e * np.log(share) / (f_y * np.log(0.658)))
    return np.minimum(np.where(elastic > 4.71 * np.sqrt(e / f_y), elastic, plastic), MOST_SLENDER)
