"""Seismic force of a nonstructural component by ASCE 7-16 and 7-22, chapter 13.

Documents: ASCE 7-16, equations 13.3-1 to 13.3-3 (the same in 7-10), and 7-22, equation 13.3-1 with H_f and R_mu; E_v
by 13.3.1. The two editions have nothing in common but their limits and are never mixed. From memory: R_mu of 1.3 for an
unknown structure; the doubled force of components on isolators with a gap above 1/4 in; Omega_0 for anchorage in
concrete and masonry alone.

W_p is the operating weight that one brace or one anchorage restrains (reading 35). z/h is taken between 0 and 1
(reading 23). Units: lbf, ft, s; a weight in lbf/ft or psf gives the force in the same unit. Limits: horizontal force in
any one direction at strength level; no floor spectra, no dynamic analysis, no relative displacements.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Kind, Q, Record, formula, given, record

EQUATION, UPPER_LIMIT, LOWER_LIMIT = 0, 1, 2
GOVERNS = ("the equation", "the upper limit 1.6 S_DS I_p W_p", "the lower limit 0.3 S_DS I_p W_p")
"""Labels of the codes of ``governs``, in code order."""

UNKNOWN_PERIOD = 1.0
"""s, stands in ``t_a`` where the period of the structure isn't known; no result depends on it."""

_16, _22 = "ASCE 7-16 13.3.1", "ASCE 7-22 13.3.1"
_GAP = "gap of the isolators above 1/4 in"
_Z_H = "max(0, min(z/h, 1))"
_MAX, _MIN = "1.6*s_ds*i_p*w_p", "0.3*s_ds*i_p*w_p"
_GOVERNS = "where(f_p_eq > f_p_max, 1, where(f_p_eq < f_p_min, 2, 0))"
_F_P = "where(isolator_gap, 2, 1)*max(f_p_min, min(f_p_eq, f_p_max))"


def _governs(clause: str) -> Q:
    return Q(symbol="F_p by", clause=clause, kind=Kind.FORMULA, formula=_GOVERNS, labels=GOVERNS)


@record
class ComponentForce16(Record):
    """Horizontal and vertical seismic force of a component by ASCE 7-16, as well by 7-10."""

    TITLE: ClassVar[str] = "Seismic force of the component, ASCE 7-16"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_p: Annotated[Floats, given("W_p", "lbf", clause="reading 35")]
    s_ds: Annotated[Floats, given("S_DS", clause="ASCE 7-16 11.4.5")]
    i_p: Annotated[Floats, given("I_p", clause="ASCE 7-16 13.1.3")]
    a_p: Annotated[Floats, given("a_p", clause="ASCE 7-16 Table 13.6-1")]
    r_p: Annotated[Floats, given("R_p", clause="ASCE 7-16 Table 13.6-1")]
    z: Annotated[Floats, given("z", "ft", clause=_16)]
    h: Annotated[Floats, given("h", "ft", clause=_16)]
    z_h: Annotated[Floats, formula("z/h", "", _Z_H, clause="reading 23")]
    f_p_eq: Annotated[
        Floats, formula("F_p by the equation", "lbf", "0.4*a_p*s_ds*w_p*(1 + 2*z_h)/(r_p/i_p)", clause=_16)
    ]
    f_p_max: Annotated[Floats, formula("F_p,max", "lbf", _MAX, clause=_16)]
    f_p_min: Annotated[Floats, formula("F_p,min", "lbf", _MIN, clause=_16)]
    governs: Annotated[Codes, _governs(_16)]
    isolator_gap: Annotated[Bools, given(_GAP, clause="ASCE 7-16 Table 13.6-1")]
    f_p: Annotated[Floats, formula("F_p", "lbf", _F_P, clause=_16)]
    fraction: Annotated[Floats, formula("F_p/W_p", "", "f_p/w_p", clause=_16)]
    e_v: Annotated[Floats, formula("E_v", "lbf", "0.2*s_ds*w_p", clause="ASCE 7-16 13.3.1.2")]
    omega_0: Annotated[Floats, given("Ω_0", clause="ASCE 7-16 Table 13.6-1")]
    f_p_anchorage: Annotated[Floats, formula("Ω_0 F_p", "lbf", "omega_0*f_p", clause="ASCE 7-16 12.4.3")]


@record
class ComponentForce22(Record):
    """Horizontal and vertical seismic force of a component by ASCE 7-22."""

    TITLE: ClassVar[str] = "Seismic force of the component, ASCE 7-22"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_p: Annotated[Floats, given("W_p", "lbf", clause="reading 35")]
    s_ds: Annotated[Floats, given("S_DS", clause="ASCE 7-22 11.4.5")]
    i_p: Annotated[Floats, given("I_p", clause="ASCE 7-22 13.1.3")]
    c_ar: Annotated[Floats, given("C_AR", clause="ASCE 7-22 Table 13.6-1")]
    r_po: Annotated[Floats, given("R_po", clause="ASCE 7-22 Table 13.6-1")]
    at_grade: Annotated[Bools, given("supported at or below grade", clause=_22)]
    z: Annotated[Floats, given("z", "ft", clause=_22)]
    h: Annotated[Floats, given("h", "ft", clause=_22)]
    z_h: Annotated[Floats, formula("z/h", "", _Z_H, clause="reading 23")]
    period_known: Annotated[Bools, given("T_a known", clause=_22)]
    t_a: Annotated[Floats, given("T_a", "s", clause=_22, when="period_known")]
    a_1: Annotated[Floats, formula("a_1", "", "min(1/t_a, 2.5)", clause=_22, coefficient="s", when="period_known")]
    t_ratio: Annotated[Floats, formula("0.4/T_a", "", "0.4/t_a", clause=_22, coefficient="s", when="period_known")]
    a_2: Annotated[Floats, formula("a_2", "", "max(0, 1 - t_ratio**2)", clause=_22, when="period_known")]
    h_f: Annotated[
        Floats,
        formula(
            "H_f",
            "",
            "where(at_grade, 1, where(period_known, 1 + a_1*z_h + a_2*z_h**10, 1 + 2.5*z_h))",
            clause=_22,
        ),
    ]
    system_known: Annotated[Bools, given("structural system known", clause=_22)]
    r: Annotated[Floats, given("R", clause="ASCE 7-22 Table 12.2-1", when="system_known")]
    i_e: Annotated[Floats, given("I_e", clause="ASCE 7-22 Table 1.5-2", when="system_known")]
    omega_0: Annotated[Floats, given("Ω_0", clause="ASCE 7-22 Table 12.2-1", when="system_known")]
    r_mu: Annotated[
        Floats,
        formula(
            "R_μ",
            "",
            "where(at_grade, 1, where(system_known, max(1.3, sqrt(1.1*r/(i_e*omega_0))), 1.3))",
            clause=_22,
        ),
    ]
    f_p_eq: Annotated[
        Floats, formula("F_p by the equation", "lbf", "0.4*s_ds*i_p*w_p*(h_f/r_mu)*(c_ar/r_po)", clause=_22)
    ]
    f_p_max: Annotated[Floats, formula("F_p,max", "lbf", _MAX, clause=_22)]
    f_p_min: Annotated[Floats, formula("F_p,min", "lbf", _MIN, clause=_22)]
    governs: Annotated[Codes, _governs(_22)]
    isolator_gap: Annotated[Bools, given(_GAP, clause="ASCE 7-22 Table 13.6-1")]
    f_p: Annotated[Floats, formula("F_p", "lbf", _F_P, clause=_22)]
    fraction: Annotated[Floats, formula("F_p/W_p", "", "f_p/w_p", clause=_22)]
    e_v: Annotated[Floats, formula("E_v", "lbf", "0.2*s_ds*w_p", clause=_22)]
    omega_0p: Annotated[Floats, given("Ω_0p", clause="ASCE 7-22 Table 13.6-1")]
    f_p_anchorage: Annotated[Floats, formula("Ω_0p F_p", "lbf", "omega_0p*f_p", clause="ASCE 7-22 12.4.3")]


def _height_ratio(*, z: Floats, h: Floats) -> Floats:
    return np.clip(z / h, 0.0, 1.0)


def _limit_that_governs(*, f_p_eq: Floats, f_p_max: Floats, f_p_min: Floats) -> Codes:
    lower = np.where(f_p_eq < f_p_min, LOWER_LIMIT, EQUATION)
    return np.where(f_p_eq > f_p_max, UPPER_LIMIT, lower).astype(np.int8)


def _within_limits(*, f_p_eq: Floats, f_p_max: Floats, f_p_min: Floats, isolator_gap: Bools) -> Floats:
    return np.where(isolator_gap, 2.0, 1.0) * np.maximum(f_p_min, np.minimum(f_p_eq, f_p_max))


def component_force_16(
    *,
    w_p: Floats,
    s_ds: Floats,
    i_p: Floats,
    a_p: Floats,
    r_p: Floats,
    omega_0: Floats,
    z: Floats,
    h: Floats,
    isolator_gap: Bools,
) -> ComponentForce16:
    """Seismic force of each component by ASCE 7-16, every array of shape (n,).

    ``w_p`` > 0 in lbf; ``z`` the height of the attachment and ``h`` > 0 the mean roof height above grade, both ft;
    ``a_p``, ``r_p`` > 0, ``omega_0`` of Table 13.6-1 (`component_factors.FACTORS_16`); ``i_p`` 1.0 or 1.5;
    ``isolator_gap`` where the component is on isolators whose restraint has a gap above 1/4 in. The force without
    Omega_0 is for braces, supports and steel, that with it for anchorage in concrete and masonry. Source: 13.3.1.
    """
    z_h = _height_ratio(z=z, h=h)
    f_p_eq = 0.4 * a_p * s_ds * w_p * (1.0 + 2.0 * z_h) / (r_p / i_p)
    f_p_max, f_p_min = 1.6 * s_ds * i_p * w_p, 0.3 * s_ds * i_p * w_p
    f_p = _within_limits(f_p_eq=f_p_eq, f_p_max=f_p_max, f_p_min=f_p_min, isolator_gap=isolator_gap)
    return ComponentForce16(
        w_p=w_p,
        s_ds=s_ds,
        i_p=i_p,
        a_p=a_p,
        r_p=r_p,
        z=z,
        h=h,
        z_h=z_h,
        f_p_eq=f_p_eq,
        f_p_max=f_p_max,
        f_p_min=f_p_min,
        governs=_limit_that_governs(f_p_eq=f_p_eq, f_p_max=f_p_max, f_p_min=f_p_min),
        isolator_gap=isolator_gap,
        f_p=f_p,
        fraction=f_p / w_p,
        e_v=0.2 * s_ds * w_p,
        omega_0=omega_0,
        f_p_anchorage=omega_0 * f_p,
    )


def component_force_22(
    *,
    w_p: Floats,
    s_ds: Floats,
    i_p: Floats,
    c_ar: Floats,
    r_po: Floats,
    omega_0p: Floats,
    at_grade: Bools,
    z: Floats,
    h: Floats,
    period_known: Bools,
    t_a: Floats,
    system_known: Bools,
    r: Floats,
    i_e: Floats,
    omega_0: Floats,
    isolator_gap: Bools,
) -> ComponentForce22:
    """Seismic force of each component by ASCE 7-22, every array of shape (n,).

    ``w_p``, ``z``, ``h``, ``i_p``, ``isolator_gap`` as in `component_force_16`. ``c_ar``, ``r_po``, ``omega_0p`` of
    Table 13.6-1 are stated: this project has no table of them. ``t_a`` > 0 is the least approximate period of the
    structure in s, `UNKNOWN_PERIOD` where ``period_known`` is false; ``r``, ``i_e``, ``omega_0`` > 0 are those of the
    structure, 1 where ``system_known`` is false. At or below grade H_f and R_mu are 1. Source: 13.3.1.
    """
    z_h = _height_ratio(z=z, h=h)
    t_ratio = 0.4 / t_a
    a_1, a_2 = np.minimum(1.0 / t_a, 2.5), np.maximum(0.0, 1.0 - t_ratio**2)
    h_f = np.where(at_grade, 1.0, np.where(period_known, 1.0 + a_1 * z_h + a_2 * z_h**10, 1.0 + 2.5 * z_h))
    of_system = np.maximum(1.3, np.sqrt(1.1 * r / (i_e * omega_0)))
    r_mu = np.where(at_grade, 1.0, np.where(system_known, of_system, 1.3))
    f_p_eq = 0.4 * s_ds * i_p * w_p * (h_f / r_mu) * (c_ar / r_po)
    f_p_max, f_p_min = 1.6 * s_ds * i_p * w_p, 0.3 * s_ds * i_p * w_p
    f_p = _within_limits(f_p_eq=f_p_eq, f_p_max=f_p_max, f_p_min=f_p_min, isolator_gap=isolator_gap)
    return ComponentForce22(
        w_p=w_p,
        s_ds=s_ds,
        i_p=i_p,
        c_ar=c_ar,
        r_po=r_po,
        at_grade=at_grade,
        z=z,
        h=h,
        z_h=z_h,
        period_known=period_known,
        t_a=t_a,
        a_1=a_1,
        t_ratio=t_ratio,
        a_2=a_2,
        h_f=h_f,
        system_known=system_known,
        r=r,
        i_e=i_e,
        omega_0=omega_0,
        r_mu=r_mu,
        f_p_eq=f_p_eq,
        f_p_max=f_p_max,
        f_p_min=f_p_min,
        governs=_limit_that_governs(f_p_eq=f_p_eq, f_p_max=f_p_max, f_p_min=f_p_min),
        isolator_gap=isolator_gap,
        f_p=f_p,
        fraction=f_p / w_p,
        e_v=0.2 * s_ds * w_p,
        omega_0p=omega_0p,
        f_p_anchorage=omega_0p * f_p,
    )
