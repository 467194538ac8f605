"""Concrete pryout in shear, ACI 318-19 17.7.3. Units: in, lbf.

N_cp is the nominal strength in tension of the anchors as they stand: without phi, and without the 0.75 of 17.10.5.4,
which is not for shear (reading 20), and without an eccentricity (reading 18). Of adhesive anchors the sets that break
out together and those whose bonds act together are judged by themselves (reading 18).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, record


@record
class Pryout(StrengthRecord):
    """Pryout of one set of anchors (one anchor is a set of one)."""

    TITLE: ClassVar[str] = "concrete pryout"
    AXIS: ClassVar[Axis] = Axis.GROUP

    h_ef: Annotated[Floats, given("h_ef", "in")]
    k_cp: Annotated[Floats, formula("k_cp", "", "where(h_ef < 2.5, 1, 2)", clause="17.7.3.1")]
    by_bond: Annotated[Bools, given("by the bond", clause="17.7.3.1")]
    by_breakout: Annotated[Bools, formula("by breakout", "", "where(by_bond, 0, 1) == 1", clause="17.7.3.1")]
    n_cb: Annotated[Floats, given("N_cb", "lbf", clause="17.6.2.1", when="by_breakout")]
    n_a: Annotated[Floats, given("N_a", "lbf", clause="17.6.5.1", when="by_bond")]
    n_cp: Annotated[Floats, formula("N_cp", "lbf", "where(by_bond, n_a, n_cb)", clause="17.7.3.1")]
    v_cp: Annotated[Floats, formula("V_cp", "lbf", "k_cp * n_cp", clause="17.7.3.1")]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(c)")]
    design_strength: Annotated[Floats, formula("φV_cp", "lbf", "phi * v_cp", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("V_ua,g", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("V_ua,g / φV_cp", "", "demand / design_strength", clause="Table 17.5.2")]


def pryout(*, h_ef: Floats, by_bond: Bools, n_cb: Floats, n_a: Floats, phi: Floats, demand: Floats) -> Pryout:
    """Design strength in pryout of each set.

    Args:
        h_ef: (sets,) actual embedment, in.
        by_bond: (sets,) boolean.
        n_cb, n_a: (sets,) nominal strength in breakout and in bond, lbf; the latter is read where ``by_bond``, the
            former elsewhere.
        phi: (sets,) of Table 17.5.3(c).
        demand: (sets,) sum of the magnitudes of the factored shear of its anchors (reading 18), lbf.
    """
    k_cp = np.where(h_ef < 2.5, 1.0, 2.0)
    n_cp = np.where(by_bond, n_a, n_cb)
    v_cp = k_cp * n_cp
    design_strength = phi * v_cp
    return Pryout(
        h_ef=h_ef,
        k_cp=k_cp,
        by_bond=by_bond,
        by_breakout=~by_bond,
        n_cb=n_cb,
        n_a=n_a,
        n_cp=n_cp,
        v_cp=v_cp,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
