"""Side-face blowout of headed anchors near an edge, ACI 318-19 17.6.4. Units: in, in2, psi, lbf.

Checked for each edge with h_ef > 2.5 c_a1 (reading 19). An anchor by itself takes the corner factor of 17.6.4.1.1, also
where it is one of a row; a row and every part of several anchors takes the group factor of 17.6.4.2 without it.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, procedure, record


@record
class SideFaceBlowout(StrengthRecord):
    """Blowout at one edge of one anchor or row of anchors."""

    TITLE: ClassVar[str] = "side-face blowout"
    AXIS: ClassVar[Axis] = Axis.GROUP

    h_ef: Annotated[Floats, given("h_ef", "in")]
    c_a1: Annotated[Floats, given("c_a1", "in", clause="17.6.4.1")]
    c_a2: Annotated[Floats, given("c_a2", "in", clause="17.6.4.1.1", infinite="none")]
    a_brg: Annotated[Floats, given("A_brg", "in**2", clause="17.6.4.1")]
    lambda_a: Annotated[Floats, given("λ_a", clause="17.2.4.1")]
    f_c: Annotated[Floats, given("f'_c", "psi", clause="17.3.1")]
    n_sb_far: Annotated[
        Floats,
        formula(
            "N_sb without corner",
            "lbf",
            "160 * c_a1 * sqrt(a_brg) * lambda_a * sqrt(f_c)",
            clause="17.6.4.1",
            coefficient="lbf / (in**2 * psi**0.5)",
        ),
    ]
    lone: Annotated[Bools, given("one anchor", clause="17.6.4.2")]
    corner_factor: Annotated[
        Floats,
        formula("corner factor", "", "(1 + min(3, max(1, c_a2 / c_a1))) / 4", clause="17.6.4.1.1", when="lone"),
    ]
    row: Annotated[Bools, formula("row of anchors", "", "where(lone, 0, 1) == 1", clause="17.6.4.2")]
    s_row: Annotated[Floats, procedure("s", "in", "row_extent", clause="17.6.4.2", when="row")]
    group_factor: Annotated[
        Floats, formula("group factor", "", "1 + s_row / (6 * c_a1)", clause="17.6.4.2", when="row")
    ]
    n_sb: Annotated[
        Floats,
        formula("N_sb", "lbf", "n_sb_far * where(lone, corner_factor, group_factor)", clause="17.6.4"),
    ]
    seismic_factor: Annotated[Floats, given("seismic factor", clause="17.10.5.4")]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(b)")]
    design_strength: Annotated[Floats, formula("φN_sb", "lbf", "seismic_factor * phi * n_sb", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("N_ua", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("N_ua / φN_sb", "", "demand / design_strength", clause="Table 17.5.2")]


def side_face_blowout(
    *,
    h_ef: Floats,
    c_a1: Floats,
    c_a2: Floats,
    a_brg: Floats,
    lambda_a: Floats,
    f_c: Floats,
    lone: Bools,
    s_row: Floats,
    seismic_factor: Floats,
    phi: Floats,
    demand: Floats,
) -> SideFaceBlowout:
    """Design strength against blowout, a row for each (anchor or row of anchors, edge).

    Args:
        h_ef, c_a1, c_a2, s_row: (rows,) in; ``s_row`` is the distance of the outer anchors of a row.
        a_brg: (rows,) in2.
        lambda_a, f_c, phi: (rows,) of `ConcreteBasis`; f_c in psi.
        lone: (rows,) one anchor.
        seismic_factor: (rows,) of `seismic.seismic_factor`.
        demand: (rows,) factored tension of the anchor or row, lbf.
    """
    n_sb_far = 160 * c_a1 * np.sqrt(a_brg) * lambda_a * np.sqrt(f_c)
    corner_factor = (1 + np.minimum(3.0, np.maximum(1.0, c_a2 / c_a1))) / 4
    group_factor = 1 + s_row / (6 * c_a1)
    n_sb = n_sb_far * np.where(lone, corner_factor, group_factor)
    design_strength = seismic_factor * phi * n_sb
    return SideFaceBlowout(
        h_ef=h_ef,
        c_a1=c_a1,
        c_a2=c_a2,
        a_brg=a_brg,
        lambda_a=lambda_a,
        f_c=f_c,
        n_sb_far=n_sb_far,
        lone=lone,
        corner_factor=corner_factor,
        row=~lone,
        s_row=s_row,
        group_factor=group_factor,
        n_sb=n_sb,
        seismic_factor=seismic_factor,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
