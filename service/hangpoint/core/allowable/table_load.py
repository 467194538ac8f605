"""Allowable loads of one anchor by a table of tests. Units: in, lbf, psi.

Documents: allowable = mean ultimate / safety factor; 4 in concrete (common practice), 5 in masonry (CMHA TEK 12-03C:
20 % of the average tested strength). The load is reduced with the strength of the base, never raised above that of the
tests; with the edge on each side and with the nearest anchor towards each side, linear between the least distance of
the tests and that for the whole load. The factors are multiplied (common practice, no source). What is nearer than the
least distance is a violation and computed as if at it.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, StrengthRecord, formula, given, record

_TABLE = "table of the product"
_PRACTICE = "common practice"


def _both_sides(name: str, slope: str, full: str, least: str) -> str:
    """The factor of what lies on both sides along an axis."""
    one, other = (f"1 - {slope} * ({full} - min(max({name}_{side}, {least}), {full}))" for side in ("minus", "plus"))
    return f"({one}) * ({other})"


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
    c_x_minus: Annotated[Floats, given("c_−x", "in", clause="edge distance", infinite="none")]
    c_x_plus: Annotated[Floats, given("c_+x", "in", clause="edge distance", infinite="none")]
    c_y_minus: Annotated[Floats, given("c_−y", "in", clause="edge distance", infinite="none")]
    c_y_plus: Annotated[Floats, given("c_+y", "in", clause="edge distance", infinite="none")]
    c_least: Annotated[Floats, given("c_min", "in", clause=f"{_TABLE}; least edge distance")]
    c_full: Annotated[Floats, given("c_cr", "in", clause=f"{_TABLE}; edge distance for the whole load")]
    slope_c: Annotated[Floats, given("k_c", "1/in", clause=f"{_TABLE}; share lost with the edge distance")]
    edge_factor_x: Annotated[
        Floats,
        formula("factor of the edges along x", "", _both_sides("c_x", "slope_c", "c_full", "c_least"), clause=_TABLE),
    ]
    edge_factor_y: Annotated[
        Floats,
        formula("factor of the edges along y", "", _both_sides("c_y", "slope_c", "c_full", "c_least"), clause=_TABLE),
    ]
    s_x_minus: Annotated[Floats, given("s_−x", "in", clause="nearest anchor", infinite="none")]
    s_x_plus: Annotated[Floats, given("s_+x", "in", clause="nearest anchor", infinite="none")]
    s_y_minus: Annotated[Floats, given("s_−y", "in", clause="nearest anchor", infinite="none")]
    s_y_plus: Annotated[Floats, given("s_+y", "in", clause="nearest anchor", infinite="none")]
    s_least: Annotated[Floats, given("s_min", "in", clause=f"{_TABLE}; least spacing")]
    s_full: Annotated[Floats, given("s_cr", "in", clause=f"{_TABLE}; spacing for the whole load")]
    slope_s: Annotated[Floats, given("k_s", "1/in", clause=f"{_TABLE}; share lost with the spacing")]
    spacing_factor_x: Annotated[
        Floats,
        formula("factor of the anchors along x", "", _both_sides("s_x", "slope_s", "s_full", "s_least"), clause=_TABLE),
    ]
    spacing_factor_y: Annotated[
        Floats,
        formula("factor of the anchors along y", "", _both_sides("s_y", "slope_s", "s_full", "s_least"), clause=_TABLE),
    ]
    design_strength: Annotated[
        Floats,
        formula(
            "allowable load",
            "lbf",
            "by_tests * strength_factor * edge_factor_x * edge_factor_y * spacing_factor_x * spacing_factor_y",
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
    c_a: Floats,
    c_least: Floats,
    c_full: Floats,
    slope_c: Floats,
    sides: Floats,
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
        c_a, sides: (rows, 4) distances to the edges and to the nearest anchors towards -x, +x, -y, +y, in, infinite
            where there is none.
        c_least, c_full, s_least, s_full: least distances of the tests and those for the whole load, in.
        slope_c, slope_s: share of the load lost with each inch below the latter.
        demand: service load, lbf.
    """
    by_tests = mean_ultimate / safety_factor
    strength_factor = (np.minimum(f_base, f_ref) / f_ref) ** strength_exponent
    edge_factor_x, edge_factor_y = _factors(c_a, least=c_least, full=c_full, slope=slope_c)
    spacing_factor_x, spacing_factor_y = _factors(sides, least=s_least, full=s_full, slope=slope_s)
    by_distance = edge_factor_x * edge_factor_y * spacing_factor_x * spacing_factor_y
    design_strength = by_tests * strength_factor * by_distance
    return (TableShear if shear else TableTension)(
        mean_ultimate=mean_ultimate,
        safety_factor=safety_factor,
        by_tests=by_tests,
        f_base=f_base,
        f_ref=f_ref,
        strength_exponent=strength_exponent,
        strength_factor=strength_factor,
        c_x_minus=c_a[:, 0],
        c_x_plus=c_a[:, 1],
        c_y_minus=c_a[:, 2],
        c_y_plus=c_a[:, 3],
        c_least=c_least,
        c_full=c_full,
        slope_c=slope_c,
        edge_factor_x=edge_factor_x,
        edge_factor_y=edge_factor_y,
        s_x_minus=sides[:, 0],
        s_x_plus=sides[:, 1],
        s_y_minus=sides[:, 2],
        s_y_plus=sides[:, 3],
        s_least=s_least,
        s_full=s_full,
        slope_s=slope_s,
        spacing_factor_x=spacing_factor_x,
        spacing_factor_y=spacing_factor_y,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )


def _factors(distance: Floats, *, least: Floats, full: Floats, slope: Floats) -> tuple[Floats, Floats]:
    """Of (rows, 4) distances the product of both sides along x and along y, (rows,)."""
    counted = np.minimum(np.maximum(distance, least[:, None]), full[:, None])
    factor = 1 - slope[:, None] * (full[:, None] - counted)
    return factor[:, 0] * factor[:, 1], factor[:, 2] * factor[:, 3]
