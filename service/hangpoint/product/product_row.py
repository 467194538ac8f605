"""One row of the table of products, from what a family file states of it, in the units of the core.

Files in SI units are converted by the exact factors of the inch, the pound and standard gravity.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, get_args

from hangpoint.product.allowable_rows import allowable_rows
from hangpoint.product.allowable_table import AllowableTable
from hangpoint.product.bond_data import Bond
from hangpoint.product.bond_table import bond_row, en_bond_row
from hangpoint.product.deck_table import deck_row
from hangpoint.product.embedment import Embedment, Lightweight
from hangpoint.product.en_table import en_row
from hangpoint.product.family import Basis, Coating, Material, Principle, SizeData, Steel, Suitability
from hangpoint.product.fields import PULLOUT_STATES as PULLOUT_STATES
from hangpoint.product.fields import Units, pullout_state
from hangpoint.product.principles import CAST_IN, EDGE_DIAMETERS, LEAST_AGE_DAYS, MM_PER_INCH
from hangpoint.product.principles import NEWTONS_PER_POUND as NEWTONS_PER_POUND
from hangpoint.product.principles import PSI_PER_MPA as PSI_PER_MPA

BASES: tuple[str, ...] = get_args(Basis)
PRINCIPLES: tuple[str, ...] = get_args(Principle)
STEELS: tuple[str, ...] = get_args(Steel)
COATINGS: tuple[str, ...] = get_args(Coating)
PULLOUT_METHODS = ("product", "headed", "hooked")
LIGHTWEIGHT: tuple[str, ...] = get_args(Lightweight)

NM_PER_FT_LBF = 1.3558179483314004
"""That times 0.3048."""

POUNDS_PER_KILONEWTON = 1000 / NEWTONS_PER_POUND
K_US_PER_SI = MM_PER_INCH**1.5 / math.sqrt(PSI_PER_MPA) / NEWTONS_PER_POUND
"""Factor of k_c: lbf/(psi^0.5 in^1.5) for N/(MPa^0.5 mm^1.5)."""

F_C_REFERENCE = 2500.0
"""Concrete strength, psi, that pullout strengths are stated for unless the data say otherwise (ACI 355.2)."""

C_AC_EMBEDMENTS = {"undercut": 2.5, "adhesive": 2.0}
C_AC_EMBEDMENTS_OTHERWISE = 4.0


def thread_diameter(thread: str | None) -> float:
    """Nominal diameter of a thread, in, from its word (3/8, 1-1/4, M10); 0.0 without one."""
    if thread is None:
        return 0.0
    if thread.startswith("M"):
        return float(thread[1:]) / MM_PER_INCH
    return float(sum(Fraction(part) for part in thread.split("-")))


@dataclass(frozen=True, kw_only=True)
class _Factors:
    """What turns the numbers of a file into in, in2, psi, lbf and the k_c of those."""

    length: float
    area: float
    stress: float
    force: float
    k_c: float


_FACTORS = {
    "us": _Factors(length=1.0, area=1.0, stress=1.0, force=1.0, k_c=1.0),
    "si": _Factors(
        length=1 / MM_PER_INCH,
        area=1 / MM_PER_INCH**2,
        stress=PSI_PER_MPA,
        force=POUNDS_PER_KILONEWTON,
        k_c=K_US_PER_SI,
    ),
}


def product_row(
    *,
    principle: str,
    basis: str,
    units: Units,
    traits: Suitability,
    size: SizeData,
    embedment: Embedment,
    material: Material | None,
    tables: Sequence[AllowableTable] = (),
) -> dict[str, Any]:
    """The scalars of one row, named as the columns, without address, family and source.

    Under ``bond`` and ``deck`` stand the rows of its conditions and, by flute, those of its deck data, under ``loads``
    its rows of the tables of allowable loads; under ``en`` that of its figures for EN 1992-4, or None.
    """
    factors = _FACTORS[units]
    row: dict[str, Any] = {
        "post_installed": principle not in CAST_IN,
        "basis": BASES.index(basis),
        "principle": PRINCIPLES.index(principle),
        "d_a": size.d_a * factors.length,
        "a_se_n": size.a_se * factors.area,
        "f_uta": size.f_uta * factors.stress,
        "f_ya": size.f_ya * factors.stress,
        "ductile": size.ductile,
        "internally_threaded": traits.internally_threaded,
        "thread_d": thread_diameter(size.thread),
        "h_ef": embedment.h_ef * factors.length,
        "h_min": embedment.h_min * factors.length,
        "thickness_tested": embedment.thickness_tested,
        "c_min": embedment.c_min * factors.length,
        "c_min_code": _c_min_code(size, embedment, principle=principle) * factors.length,
        "s_min": embedment.s_min * factors.length,
        "s_min_code": _s_min_code(size, embedment, principle=principle) * factors.length,
        "category": max((each.category for each in embedment.bond), default=embedment.category or 0),
        "product_k_c": embedment.k_cr is not None or embedment.k_uncr is not None,
        "k_cr": (embedment.k_cr or 0.0) * factors.k_c,
        "k_uncr": (embedment.k_uncr or 0.0) * factors.k_c,
        "pullout_method": 1 if size.head else 2 if size.hook else 0,
        "a_brg": size.head.a_brg * factors.area if size.head else 0.0,
        "e_h": size.hook.e_h * factors.length if size.hook else 0.0,
        "n_exponent": embedment.n_exponent or 0.0,
        **_f_c_ref(embedment, factors.stress),
        "lightweight": LIGHTWEIGHT.index(embedment.lightweight),
        **_fit(traits),
        "seismic_qualified": basis == "cast_in" or _seismic(embedment),
        "welded_stud": size.head is not None and size.head.welded_stud,
        "distance_sleeve": embedment.distance_sleeve,
        "sleeve_silent": _sleeve_silent(embedment, principle),
        "least_age_days": _least_age(traits, principle),
        "bond": [*(_bond(each, units) for each in embedment.bond), *_en_bonds(embedment, units)],
        "loads": allowable_rows(
            tables,
            size=size.size,
            h_ef=embedment.h_ef,
            h_min=embedment.h_min,
            length=factors.length,
            stress=factors.stress,
            force=factors.force,
        ),
        "deck": {
            each.flute: deck_row(each, length=factors.length, stress=factors.stress, force=factors.force)
            for each in embedment.deck
        },
        "hole_depth": embedment.hole.depth * factors.length if embedment.hole else 0.0,
        "en": en_row(principle=principle, units=units, size=size, embedment=embedment),
    }
    code = _OF_EN if basis == "en" else _c_ac(embedment, principle=principle, length=factors.length)
    return row | _metal(material) | _strengths(embedment, factors.force) | code


_OF_EN: dict[str, Any] = {
    "thickness_tested": True,
    "c_min_code": 0.0,
    "s_min_code": 0.0,
    "c_ac": 0.0,
    "c_ac_from_code": False,
}
"""What ACI 318-19 asks of a product is neither asked nor taken of one with figures for EN 1992-4."""


def _sleeve_silent(embedment: Embedment, principle: str) -> bool:
    return principle == "torque_controlled_expansion" and "distance_sleeve" not in embedment.model_fields_set


def _fit(traits: Suitability) -> dict[str, bool]:
    """What a product is fit for."""
    return {
        "tension_overhead": traits.tension_overhead,
        "sustained_tension": traits.sustained_tension,
        "concrete_allowed": "concrete" in traits.bases,
        "masonry_allowed": "masonry" in traits.bases,
        "removable": traits.removable,
        "ceiling_only": traits.use == "ceiling",
        "upward": traits.upward,
    }


def _bond(bond: Bond, units: Units) -> dict[str, Any]:
    stress = _FACTORS[units].stress
    return bond_row(bond, stress=stress, fahrenheit=units == "us", f_c_reference=F_C_REFERENCE)


def _en_bonds(embedment: Embedment, units: Units) -> list[dict[str, Any]]:
    stress, own = _FACTORS[units].stress / PSI_PER_MPA, embedment.en
    return [en_bond_row(each, stress=stress, fahrenheit=units == "us") for each in (own.bond if own else ())]


def _metal(material: Material | None) -> dict[str, int]:
    return {
        "steel": STEELS.index(material.steel) if material else -1,
        "coating": COATINGS.index(material.coating) if material else -1,
    }


def _f_c_ref(embedment: Embedment, stress: float) -> dict[str, Any]:
    stated, by_pullout = embedment.f_c_ref, bool(embedment.n_exponent)
    silent = any(each.f_c_ref is None and each.tau_exponent > 0.0 for each in embedment.bond)
    return {
        "f_c_ref": F_C_REFERENCE if stated is None else stated * stress,
        "f_c_ref_silent": silent or (by_pullout and stated is None),
    }


def _c_min_code(size: SizeData, embedment: Embedment, *, principle: str) -> float:
    """Least edge distance of Table 17.9.2, in the unit of the file; 0.0 where it asks for cover only."""
    if embedment.spacing_tested:
        return 0.0
    if principle in CAST_IN:
        return 0.0 if embedment.torque is None else 6 * size.d_a
    return EDGE_DIAMETERS.get(principle, 0.0) * size.d_a


def _s_min_code(size: SizeData, embedment: Embedment, *, principle: str) -> float:
    """Least spacing of Table 17.9.2, in the unit of the file."""
    if embedment.spacing_tested:
        return 0.0
    if principle in CAST_IN:
        return (4 if embedment.torque is None else 6) * size.d_a
    if principle not in EDGE_DIAMETERS:
        return 0.0
    return max(6 * size.d_a, 0.6 * embedment.h_ef if principle == "screw" else 0.0)


def _seismic(embedment: Embedment) -> bool:
    if embedment.en is not None:
        return embedment.en.c1 is not None
    tested = embedment.n_p_eq is not None or any(each.alpha_n_seis for each in embedment.bond)
    return embedment.seismic and tested


def _least_age(traits: Suitability, principle: str) -> float:
    if principle != "adhesive":
        return 0.0
    return LEAST_AGE_DAYS if traits.least_age_days is None else traits.least_age_days


def _c_ac(embedment: Embedment, *, principle: str, length: float) -> dict[str, Any]:
    """c_ac of the tests, or of Table 17.9.5; none for cast-in anchors."""
    if embedment.c_ac is not None:
        return {"c_ac": embedment.c_ac * length, "c_ac_from_code": False}
    if principle in CAST_IN:
        return {"c_ac": 0.0, "c_ac_from_code": False}
    embedments = C_AC_EMBEDMENTS.get(principle, C_AC_EMBEDMENTS_OTHERWISE)
    return {"c_ac": embedments * embedment.h_ef * length, "c_ac_from_code": True}


def _strengths(embedment: Embedment, force: float) -> dict[str, Any]:
    row: dict[str, Any] = {}
    for name in ("v_sa", "v_sa_eq"):
        tested: float | None = getattr(embedment, name)
        row[name] = (tested or 0.0) * force
        row[f"{name}_tested"] = tested is not None
    for name in ("n_p_cr", "n_p_uncr", "n_p_eq"):
        value: float | str | None = getattr(embedment, name)
        row[name] = value * force if isinstance(value, float) else 0.0
        row[f"{name}_state"] = pullout_state(value)
    return row
