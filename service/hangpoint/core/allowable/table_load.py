"""Allowable loads of one anchor by a table of tests. Units: in, lbf, psi.

Documents: allowable = mean ultimate / safety factor; 4 in concrete (common practice), 5 in masonry (CMHA TEK 12-03C:
20 % of the average tested strength). The load is reduced with the strength of the base, never raised above that of the
tests; with the nearest edge along each axis and with the spacing, linear between the least distance of the tests and
that for the whole load. The factors are multiplied (common practice, no source). What is nearer than the least distance
is a violation and computed as if at it.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, StrengthRecord, formula, given, record

_TABLE = "table of the product"
_PRACTICE = "common practice"


@record
class TableTension(StrengthRecord):
    """One anchor in tension; ``design_strength`` is its allowable service load."""

    TITLE: ClassVar[str] = "allowable tension by the table of the product"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    mean_ultimate: Annotated[Floats, given("mean ultimate load", "lbf", clause=_TABLE)]
    safety_factor: Annotated[Floats, given("safety factor", clause=_TABLE)]
    by_tests: Annotated[
        Floats, formula("mean ultimate / safety factor", "lbf", "mean_ultimate / safety_factor", clause=_TABLE)
    ]
    f_base: Annotated[Floats, given("strength of the base", "psi")]
    f_ref: Annotated[Floats, given("strength in the tests", "psi", clause=_TABLE)]
    strength_exponent: Annotated[Floats, given("n", clause=_TABLE)]
    strength_factor: Annotated[
        Floats, formula("factor of strength", "", "(min(f_base, f_ref) / f_ref)**strength_exponent", clause=_TABLE)
    ]
    c_x: Annotated[Floats, given("nearest edge along x", "in", infinite="none")]
    c_y: Annotated[Floats, given("nearest edge along y", "in", infinite="none")]
    c_least: Annotated[Floats, given("least edge distance", "in", clause=_TABLE)]
    c_full: Annotated[Floats, given("edge distance for the whole load", "in", clause=_TABLE)]
    slope_c: Annotated[Floats, given("share lost with the edge distance", "1/in", clause=_TABLE)]
    edge_factor_x: Annotated[
        Floats,
        formula(
            "factor of the edge along x", "", "1 - slope_c * (c_full - min(max(c_x, c_least), c_full))", clause=_TABLE
        ),
    ]
    edge_factor_y: Annotated[
        Floats,
        formula(
            "factor of the edge along y", "", "1 - slope_c * (c_full - min(max(c_y, c_least), c_full))", clause=_TABLE
        ),
    ]
    spacing: Annotated[Floats, given("nearest anchor", "in", infinite="none")]
    s_least: Annotated[Floats, given("least spacing", "in", clause=_TABLE)]
    s_full: Annotated[Floats, given("spacing for the whole load", "in", clause=_TABLE)]
    slope_s: Annotated[Floats, given("share lost with the spacing", "1/in", clause=_TABLE)]
    spacing_factor: Annotated[
        Floats,
        formula(
            "factor of the spacing", "", "1 - slope_s * (s_full - min(max(spacing, s_least), s_full))", clause=_TABLE
        ),
    ]
    design_strength: Annotated[
        Floats,
        formula(
            "allowable load",
            "lbf",
            "by_tests * strength_factor * edge_factor_x * edge_factor_y * spacing_factor",
            clause=_PRACTICE,
        ),
    ]
    demand: Annotated[Floats, given("service load", "lbf", clause="ASCE 7 2.4")]
    utilisation: Annotated[Floats, formula("load / allowable", "", "demand / design_strength", clause=_PRACTICE)]


@record
class TableShear(TableTension):
    """One anchor in shear."""

    TITLE: ClassVar[str] = "allowable shear by the table of the product"


def table_load(
    *,
    shear: bool,
    mean_ultimate: Floats,
    safety_factor: Floats,
    f_base: Floats,
    f_ref: Floats,
    strength_exponent: Floats,
    c_x: Floats,
    c_y: Floats,
    c_least: Floats,
    c_full: Floats,
    slope_c: Floats,
    spacing: Floats,
    s_least: Floats,
    s_full: Floats,
    slope_s: Floats,
    demand: Floats,
) -> TableTension:
    """Allowable load and utilisation of each anchor, (rows,).

    Args:
        shear: the rows are of shear, otherwise of tension.
        mean_ultimate, safety_factor: of the table, lbf and above 0.
        f_base, f_ref, strength_exponent: strength of the base and of that of the tests, psi.
        c_x, c_y, spacing: distances to the nearest edge along each axis and the nearest anchor, in, infinite where
            there is none.
        c_least, c_full, s_least, s_full: least distances of the tests and those for the whole load, in.
        slope_c, slope_s: share of the load lost with each inch below the latter.
        demand: service load, lbf.
    """
    by_tests = mean_ultimate / safety_factor
    strength_factor = (np.minimum(f_base, f_ref) / f_ref) ** strength_exponent
    edge_factor_x = 1 - slope_c * (c_full - np.minimum(np.maximum(c_x, c_least), c_full))
    edge_factor_y = 1 - slope_c * (c_full - np.minimum(np.maximum(c_y, c_least), c_full))
    spacing_factor = 1 - slope_s * (s_full - np.minimum(np.maximum(spacing, s_least), s_full))
    design_strength = by_tests * strength_factor * edge_factor_x * edge_factor_y * spacing_factor
    return (TableShear if shear else TableTension)(
        mean_ultimate=mean_ultimate,
        safety_factor=safety_factor,
        by_tests=by_tests,
        f_base=f_base,
        f_ref=f_ref,
        strength_exponent=strength_exponent,
        strength_factor=strength_factor,
        c_x=c_x,
        c_y=c_y,
        c_least=c_least,
        c_full=c_full,
        slope_c=slope_c,
        edge_factor_x=edge_factor_x,
        edge_factor_y=edge_factor_y,
        spacing=spacing,
        s_least=s_least,
        s_full=s_full,
        slope_s=slope_s,
        spacing_factor=spacing_factor,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
