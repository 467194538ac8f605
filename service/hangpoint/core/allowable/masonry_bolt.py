"""Cast-in bolts in grouted masonry: strengths of one bolt, TMS 402-13 and 402-16, 8.1.3 and 9.1.6. in, in2, lbf, psi.

Equations and coefficients from memory, but for the tension of headed bolts, which a published example shows. Allowable
stress design compares service loads with B, strength design factored loads with phi times B; the coefficients of each
stand in `masonry_coefficients`. Limits: headed and bent-bar bolts in grout; not in hollow or ungrouted units.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import BOLT_STRENGTH, Clause
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, procedure, record

_PHI = Clause("TMS 402 9.1.4", service="TMS 402 8.1.3.3")
_F_M = Clause("TMS 402 9.1.9", service="")
_Phi = Annotated[Floats, given("φ", clause=_PHI)]
_DesignStrength = Annotated[Floats, formula("φB", "lbf", "phi * b_n", clause=_PHI)]
_Load = Annotated[Floats, given("load", "lbf")]
_Utilisation = Annotated[Floats, formula("load / φB", "", "demand / design_strength", clause=_PHI)]


@record
class MasonryBreakout(StrengthRecord):
    """Breakout of the masonry: B = k A_p sqrt(f'm)."""

    TITLE: ClassVar[str] = "breakout of the masonry in tension"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    f_m: Annotated[Floats, given("f'_m", "psi", clause=_F_M)]
    radius: Annotated[Floats, given("l_b, in shear l_be", "in", clause="TMS 402 6.2")]
    a_p: Annotated[Floats, procedure("A_p", "in**2", "cut_circle", clause="TMS 402 6.2.2, 6.2.3")]
    k_m: Annotated[Floats, given("k", "psi**0.5", clause=BOLT_STRENGTH)]
    b_n: Annotated[Floats, formula("B", "lbf", "k_m * a_p * sqrt(f_m)", clause=BOLT_STRENGTH)]
    phi: _Phi
    design_strength: _DesignStrength
    demand: _Load
    utilisation: _Utilisation


@record
class MasonryShearBreakout(MasonryBreakout):
    """Breakout towards an edge."""

    TITLE: ClassVar[str] = "breakout of the masonry in shear"

    a_p: Annotated[Floats, procedure("A_p", "in**2", "cut_half_circle", clause="TMS 402 6.2.2, 6.2.3")]


@record
class MasonryPryout(MasonryBreakout):
    """Pryout of the masonry."""

    TITLE: ClassVar[str] = "pryout of the masonry"


@record
class MasonrySteel(StrengthRecord):
    """Steel of the bolt: B = k A_b f_y."""

    TITLE: ClassVar[str] = "steel of the bolt in tension"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    a_b: Annotated[Floats, given("A_b", "in**2")]
    f_y: Annotated[Floats, given("f_y", "psi")]
    k_m: Annotated[Floats, given("k", clause=BOLT_STRENGTH)]
    b_n: Annotated[Floats, formula("B", "lbf", "k_m * a_b * f_y", clause=BOLT_STRENGTH)]
    phi: _Phi
    design_strength: _DesignStrength
    demand: _Load
    utilisation: _Utilisation


@record
class MasonryShearSteel(MasonrySteel):
    """Steel of the bolt in shear."""

    TITLE: ClassVar[str] = "steel of the bolt in shear"


@record
class MasonryCrushing(StrengthRecord):
    """Crushing of the masonry in shear: B = k (f'm A_b)^0.25."""

    TITLE: ClassVar[str] = "crushing of the masonry"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    f_m: Annotated[Floats, given("f'_m", "psi", clause=_F_M)]
    a_b: Annotated[Floats, given("A_b", "in**2")]
    k_m: Annotated[Floats, given("k", "lbf**0.75", clause=BOLT_STRENGTH)]
    b_n: Annotated[
        Floats,
        formula("B", "lbf", "k_m * (f_m * a_b)**0.25", clause=BOLT_STRENGTH),
    ]
    phi: _Phi
    design_strength: _DesignStrength
    demand: _Load
    utilisation: _Utilisation


@record
class MasonryPullout(StrengthRecord):
    """Pullout of a bent bar: bearing of its leg and bond of its length."""

    TITLE: ClassVar[str] = "pullout of the bent-bar bolt"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    f_m: Annotated[Floats, given("f'_m", "psi", clause=_F_M)]
    l_b: Annotated[Floats, given("l_b", "in")]
    e_b: Annotated[Floats, given("e_b", "in")]
    d_b: Annotated[Floats, given("d_b", "in")]
    k_m: Annotated[Floats, given("k of bearing", clause=BOLT_STRENGTH)]
    tau: Annotated[Floats, given("bond", "psi", clause=BOLT_STRENGTH)]
    b_n: Annotated[
        Floats,
        formula(
            "B",
            "lbf",
            "k_m * f_m * e_b * d_b + tau * pi * (l_b + e_b + d_b) * d_b",
            clause=BOLT_STRENGTH,
        ),
    ]
    phi: _Phi
    design_strength: _DesignStrength
    demand: _Load
    utilisation: _Utilisation


_LEAST_EMBEDMENT = 1e-3
"""in: of a bent bar no deeper than its own diameter, which nobody may use."""


def effective_embedment(*, h_ef: Floats, d_b: Floats, bent: Bools) -> Floats:
    """l_b of each bolt: to the bearing surface of its head, or to that of its bend less one diameter.

    6.2.5 by guidance on 402-13; the number of the clause from memory.
    """
    return np.where(bent, np.maximum(h_ef - d_b, _LEAST_EMBEDMENT), h_ef)


def masonry_breakout(
    kind: type[MasonryBreakout],
    *,
    f_m: Floats,
    radius: Floats,
    a_p: Floats,
    k_m: Floats,
    phi: Floats,
    demand: Floats,
) -> MasonryBreakout:
    """Breakout or pryout of each bolt by its projected area, (rows,); area above 0."""
    b_n = k_m * a_p * np.sqrt(f_m)
    return kind(
        f_m=f_m,
        radius=radius,
        a_p=a_p,
        k_m=k_m,
        **_judged(b_n=b_n, phi=phi, demand=demand),
    )


def masonry_steel(
    kind: type[MasonrySteel], *, a_b: Floats, f_y: Floats, k_m: Floats, phi: Floats, demand: Floats
) -> MasonrySteel:
    """Steel of each bolt, (rows,)."""
    b_n = k_m * a_b * f_y
    return kind(
        a_b=a_b,
        f_y=f_y,
        k_m=k_m,
        **_judged(b_n=b_n, phi=phi, demand=demand),
    )


def masonry_crushing(*, f_m: Floats, a_b: Floats, k_m: Floats, phi: Floats, demand: Floats) -> MasonryCrushing:
    """Crushing of the masonry at each bolt, (rows,)."""
    b_n = k_m * (f_m * a_b) ** 0.25
    return MasonryCrushing(
        f_m=f_m,
        a_b=a_b,
        k_m=k_m,
        **_judged(b_n=b_n, phi=phi, demand=demand),
    )


def masonry_pullout(
    *, f_m: Floats, l_b: Floats, e_b: Floats, d_b: Floats, k_m: Floats, tau: Floats, phi: Floats, demand: Floats
) -> MasonryPullout:
    """Pullout of each bent-bar bolt, (rows,)."""
    b_n = k_m * f_m * e_b * d_b + tau * np.pi * (l_b + e_b + d_b) * d_b
    return MasonryPullout(
        f_m=f_m,
        l_b=l_b,
        e_b=e_b,
        d_b=d_b,
        k_m=k_m,
        tau=tau,
        **_judged(b_n=b_n, phi=phi, demand=demand),
    )


def _judged(*, b_n: Floats, phi: Floats, demand: Floats) -> dict[str, Floats]:
    """What every record ends in."""
    design_strength = phi * b_n
    return {
        "b_n": b_n,
        "phi": phi,
        "design_strength": design_strength,
        "demand": demand,
        "utilisation": demand / design_strength,
    }
