"""What is seen of every point beside its modes: limits of the code, its product, its loads, its rod."""

import numpy as np

from hangpoint.core.aci318_19.concrete_basis import F_C_LIMIT_CAST_IN, F_C_LIMIT_POST_INSTALLED
from hangpoint.core.aci318_19.limits import concrete_findings, dimension_findings, fixing_findings
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.hang_point.allowables import CHAPTER_17
from hangpoint.core.hang_point.fastener_scope import fastener_findings
from hangpoint.core.hang_point.layout_findings import nearest_edges
from hangpoint.core.hang_point.light_duty import light_duty_findings
from hangpoint.core.hang_point.load_findings import load_findings
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.rods import RodSizes, rod_findings
from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.hang_point.weights import ServiceLoads
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding


def point_findings(
    points: Points, loads: ServiceLoads, sizes: RodSizes | None, checked: Bools, demand: Demand, basis: Basis
) -> list[FindingColumn]:
    """What is seen of the points; of their anchors where these are checked.

    Args:
        points: the batch.
        loads: as they serve.
        sizes: of the rods.
        checked: (points,) the anchors are checked.
        demand: at the points.
        basis: of the request.
    """
    product, hangs, factored, zero = points.products, points.hangs, demand.factored, np.zeros(points.count)
    if points.fasteners is not None:
        of_the_code = fastener_findings(points, points.fasteners, checked=checked, shear=demand.shear)
    else:
        of_the_code = _of_chapter_17(points, demand)
    anchor = [
        *of_the_code,
        *load_findings(points, loads, demand, basis),
        FindingColumn(Finding.WELDED_POST_INSTALLED, points.fixings.welded & product.post_installed, zero, zero),
        FindingColumn(Finding.NOT_FOR_REUSE, product.removable, zero, zero),
        FindingColumn(Finding.SUPPLIED_WITHOUT_SOURCE, ~product.invented & ~product.has_source, zero, zero),
        *light_duty_findings(points, tension=factored),
    ]
    sprinkler: list[FindingColumn] = []
    if some(hangs.sprinkler):
        on_structure = loads.dead + loads.contents + loads.sprinkler
        sprinkler = [
            FindingColumn(Finding.SPRINKLER_STRUCTURE, hangs.sprinkler, on_structure, zero),
            FindingColumn(Finding.SPRINKLER_CERTIFICATION, hangs.sprinkler, zero, zero),
        ]
    return [
        *loads.findings,
        *rod_findings(points, sizes),
        *sprinkler,
        *(anchor if checked.all() else (_where(column, checked) for column in anchor)),
    ]


def _where(column: FindingColumn, checked: Bools) -> FindingColumn:
    return FindingColumn(finding=column.finding, holds=column.holds & checked, value=column.value, limit=column.limit)


def _of_chapter_17(points: Points, demand: Demand) -> list[FindingColumn]:
    base, product, c_a = points.bases, points.products, nearest_edges(points)
    found = [
        *dimension_findings(
            c_a=c_a,
            c_min=product.c_min,
            c_min_code=product.c_min_code,
            thickness=base.thickness,
            h_min=product.h_min,
            h_ef=product.h_ef,
            d_a=product.d_a,
            e_h=product.e_h,
            hooked=product.pullout_method == HOOKED,
            screw=product.screw,
            limited_depth=product.post_installed & ~product.adhesive & ~product.thickness_tested,
        ),
        *concrete_findings(
            f_c_specified=base.f_c,
            f_c_limit=np.where(product.post_installed, F_C_LIMIT_POST_INSTALLED, F_C_LIMIT_CAST_IN),
            f_y_bars=np.maximum(base.f_y_n, base.f_y_v),
            post_installed=product.post_installed,
            cracked=base.cracked,
            category=base.category,
        ),
        *fixing_findings(
            d_a=product.d_a,
            h_ef=product.h_ef,
            c_a=c_a,
            adhesive=product.adhesive,
            welded=points.fixings.welded & ~product.post_installed & (demand.shear > 0),
            thickness=points.fixings.thickness,
        ),
    ]
    if points.allowables is None:
        return found
    return [_where(column, points.method == CHAPTER_17) for column in found]
