"""Steel strength of an anchor in tension, ACI 318-19 17.6.1. Units: in2, psi, lbf."""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record

F_UTA_LIMIT = 125_000.0


@record
class SteelTension(StrengthRecord):
    """Steel of the most loaded anchor."""

    TITLE: ClassVar[str] = "steel strength in tension"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    a_se_n: Annotated[Floats, given("A_se,N", "in**2", clause="17.6.1.2")]
    f_uta_specified: Annotated[Floats, given("f_uta specified", "psi")]
    f_ya: Annotated[Floats, given("f_ya", "psi")]
    f_uta_limit: Annotated[Floats, given("f_uta limit", "psi", clause="17.6.1.2")]
    f_uta: Annotated[
        Floats, formula("f_uta", "psi", "min(f_uta_specified, min(1.9 * f_ya, f_uta_limit))", clause="17.6.1.2")
    ]
    n_sa: Annotated[Floats, formula("N_sa", "lbf", "a_se_n * f_uta", clause="17.6.1.2")]
    ductile: Annotated[Bools, given("ductile steel", clause="17.5.3")]
    phi: Annotated[Floats, formula("φ", "", "where(ductile, 0.75, 0.65)", clause="Table 17.5.3(a)")]
    design_strength: Annotated[Floats, formula("φN_sa", "lbf", "phi * n_sa", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("N_ua,i", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("N_ua,i / φN_sa", "", "demand / design_strength", clause="Table 17.5.2")]


def limited_f_uta(*, f_uta_specified: Floats, f_ya: Floats) -> Floats:
    """Tensile strength that enters the equations of 17.6.1.2 and 17.7.1.2, psi.

    Args:
        f_uta_specified, f_ya: (anchors,) specified ultimate and yield strength, psi.
    """
    return np.minimum(f_uta_specified, np.minimum(1.9 * f_ya, F_UTA_LIMIT))


def steel_tension(
    *, a_se_n: Floats, f_uta_specified: Floats, f_ya: Floats, ductile: Bools, demand: Floats
) -> SteelTension:
    """Design strength of the steel of each anchor.

    Args:
        a_se_n: (anchors,) effective area, in2.
        f_uta_specified, f_ya: (anchors,) specified ultimate and yield strength, psi.
        ductile: (anchors,) steel is ductile by 2.3.
        demand: (anchors,) factored tension, lbf.
    """
    f_uta_limit = np.full_like(a_se_n, F_UTA_LIMIT)
    f_uta = limited_f_uta(f_uta_specified=f_uta_specified, f_ya=f_ya)
    n_sa = a_se_n * f_uta
    phi = np.where(ductile, 0.75, 0.65)
    design_strength = phi * n_sa
    return SteelTension(
        a_se_n=a_se_n,
        f_uta_specified=f_uta_specified,
        f_ya=f_ya,
        f_uta_limit=f_uta_limit,
        f_uta=f_uta,
        n_sa=n_sa,
        ductile=ductile,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
