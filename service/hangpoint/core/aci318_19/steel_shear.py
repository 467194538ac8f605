"""Steel strength of an anchor in shear, ACI 318-19 17.7.1. Units: in2, psi, lbf.

Headed studs welded to their steel by the full A_se,V f_uta, other cast-in anchors and post-installed ones without a
sleeve in the shear plane by 0.6 of it; tests of the product stand in place of both. V_sa,eq of simulated seismic tests
without V_sa counts up to the formula: an earthquake makes no steel stronger (17.10.3, 17.7.1.2). A grout pad takes a
fifth from any of them (17.7.1.2.1). Bending of an anchor across a gap isn't in these formulas (reading 38).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.aci318_19.steel_tension import F_UTA_LIMIT, limited_f_uta
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class SteelShear(StrengthRecord):
    """Steel of the most sheared anchor."""

    TITLE: ClassVar[str] = "steel strength in shear"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    tested: Annotated[Bools, given("V_sa by tests of the product", clause="17.7.1.2(c)")]
    alone: Annotated[Bools, given("V_sa,eq without V_sa", clause="17.10.3", when="tested")]
    calculated: Annotated[
        Bools, formula("V_sa by formula", "", "where(tested, where(alone, 1, 0), 1) == 1", clause="17.7.1.2")
    ]
    a_se_v: Annotated[Floats, given("A_se,V", "in**2", clause="17.7.1.2", when="calculated")]
    f_uta_specified: Annotated[Floats, given("f_uta specified", "psi", when="calculated")]
    f_ya: Annotated[Floats, given("f_ya", "psi", when="calculated")]
    f_uta_limit: Annotated[Floats, given("f_uta limit", "psi", clause="17.7.1.2", when="calculated")]
    f_uta: Annotated[
        Floats,
        formula(
            "f_uta",
            "psi",
            "min(f_uta_specified, min(1.9 * f_ya, f_uta_limit))",
            clause="17.7.1.2",
            when="calculated",
        ),
    ]
    welded_stud: Annotated[Bools, given("headed stud welded to its steel", clause="17.7.1.2(a)", when="calculated")]
    by_stud: Annotated[
        Bools, formula("as a headed stud", "", "calculated * welded_stud == 1", clause="17.7.1.2(a)", when="calculated")
    ]
    by_bolt: Annotated[
        Bools,
        formula("as a bolt", "", "calculated * where(welded_stud, 0, 1) == 1", clause="17.7.1.2(b)", when="calculated"),
    ]
    v_sa_stud: Annotated[
        Floats, formula("V_sa, headed stud", "lbf", "a_se_v * f_uta", clause="17.7.1.2a", when="by_stud")
    ]
    v_sa_bolt: Annotated[
        Floats, formula("V_sa, bolt", "lbf", "0.6 * a_se_v * f_uta", clause="17.7.1.2b", when="by_bolt")
    ]
    v_sa_tested: Annotated[Floats, given("V_sa or V_sa,eq by tests", "lbf", clause="17.7.1.2(c)", when="tested")]
    grout_pad: Annotated[Bools, given("built-up grout pad", clause="17.7.1.2.1")]
    v_sa: Annotated[
        Floats,
        formula(
            "V_sa",
            "lbf",
            "where(grout_pad, 0.8, 1) * where(tested,"
            " where(alone, min(v_sa_tested, where(by_stud, v_sa_stud, v_sa_bolt)), v_sa_tested),"
            " where(by_stud, v_sa_stud, v_sa_bolt))",
            clause="17.7.1.2.1",
        ),
    ]
    ductile: Annotated[Bools, given("ductile steel", clause="17.5.3")]
    phi: Annotated[Floats, formula("φ", "", "where(ductile, 0.65, 0.60)", clause="Table 17.5.3(a)")]
    design_strength: Annotated[Floats, formula("φV_sa", "lbf", "phi * v_sa", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("V_ua,i", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("V_ua,i / φV_sa", "", "demand / design_strength", clause="Table 17.5.2")]


def steel_shear(
    *,
    a_se_v: Floats,
    f_uta_specified: Floats,
    f_ya: Floats,
    ductile: Bools,
    welded_stud: Bools,
    tested: Bools,
    alone: Bools,
    v_sa_tested: Floats,
    grout_pad: Bools,
    demand: Floats,
) -> SteelShear:
    """Design strength of the steel of each anchor in shear.

    Args:
        a_se_v: (anchors,) effective area in shear, in2; read where not ``tested`` or ``alone``, as are the next two.
        f_uta_specified, f_ya: (anchors,) specified ultimate and yield strength, psi.
        ductile: (anchors,) steel is ductile by 2.3.
        welded_stud: (anchors,) headed stud welded to its steel; read there too.
        tested: (anchors,) V_sa comes from tests of the product.
        alone: (anchors,) it is V_sa,eq, and tests have no V_sa; read where ``tested``.
        v_sa_tested: (anchors,) that strength, lbf; in seismic design categories C to F V_sa,eq (17.10.3).
        grout_pad: (anchors,) the anchor passes through a built-up grout pad.
        demand: (anchors,) factored shear, lbf.
    """
    calculated = ~tested | alone
    f_uta_limit = np.full_like(a_se_v, F_UTA_LIMIT)
    f_uta = limited_f_uta(f_uta_specified=f_uta_specified, f_ya=f_ya)
    by_stud, by_bolt = calculated & welded_stud, calculated & ~welded_stud
    v_sa_stud = a_se_v * f_uta
    v_sa_bolt = 0.6 * a_se_v * f_uta
    v_formula = np.where(by_stud, v_sa_stud, v_sa_bolt)
    v_tested = np.where(alone, np.minimum(v_sa_tested, v_formula), v_sa_tested)
    v_sa = np.where(grout_pad, 0.8, 1.0) * np.where(tested, v_tested, v_formula)
    phi = np.where(ductile, 0.65, 0.60)
    design_strength = phi * v_sa
    return SteelShear(
        tested=tested,
        alone=alone,
        calculated=calculated,
        a_se_v=a_se_v,
        f_uta_specified=f_uta_specified,
        f_ya=f_ya,
        f_uta_limit=f_uta_limit,
        f_uta=f_uta,
        welded_stud=welded_stud,
        by_stud=by_stud,
        by_bolt=by_bolt,
        v_sa_stud=v_sa_stud,
        v_sa_bolt=v_sa_bolt,
        v_sa_tested=v_sa_tested,
        grout_pad=grout_pad,
        v_sa=v_sa,
        ductile=ductile,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
