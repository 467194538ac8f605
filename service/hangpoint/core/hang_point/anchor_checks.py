"""The anchors of all checked cases, each by its method: chapter 17, EN 1992-4, allowable tables, bolts in masonry."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.aci318_19.check import Checked
from hangpoint.core.aci318_19.check import check as check_anchors
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.allowable.bolt_check import BoltCases, BoltPairs, check_bolts
from hangpoint.core.allowable.cases import LoadedAnchors, TableCases
from hangpoint.core.allowable.check import check_tables
from hangpoint.core.allowable.masonry_bolt import effective_embedment
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.en1992_4.check import CheckedFasteners
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.grouping import near_pairs
from hangpoint.core.hang_point.allowables import CHAPTER_17, FASTENER, MASONRY_BOLT, TABLE, Allowables
from hangpoint.core.hang_point.anchor_columns import anchor_cases
from hangpoint.core.hang_point.bolt_findings import most_f_m
from hangpoint.core.hang_point.demand import AnchorShear
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.fastener_checks import fastener_checks
from hangpoint.core.hang_point.free_edges import free_edges_of_anchors
from hangpoint.core.hang_point.points import Points
from hangpoint.core.outcome import ModeOutcome
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import EN_MODES, MASONRY_MODES, TABLE_MODES, Inapplicable, Mode, position


def method_of(mode: Mode) -> int:
    """The method that a mode of the anchor belongs to."""
    others = ((TABLE, TABLE_MODES), (MASONRY_BOLT, MASONRY_MODES), (FASTENER, EN_MODES))
    return next((method for method, modes in others if mode in modes), CHAPTER_17)


@frozen
class AnchorChecks:
    """Modes of all checked cases; ``code`` is what chapter 17 has of the cases ``code_cases``, all of them if None.

    ``fasteners`` is what EN 1992-4 has, of all cases or, with None, of none.
    """

    outcomes: list[ModeOutcome]
    code: Checked
    code_cases: Index | None
    fasteners: CheckedFasteners | None = None

    def code_rows(self, cases: Index) -> Index:
        """Rows of ``code`` of some of the checked cases, -1 for -1 and for those of other methods."""
        if self.code_cases is None:
            return cases
        if len(self.code_cases) == 0:
            return np.full(len(cases), -1, dtype=np.intp)
        place = np.minimum(np.searchsorted(self.code_cases, cases), len(self.code_cases) - 1)
        return np.where(self.code_cases[place] == cases, place, -1)


def anchor_checks(
    points: Points,
    cases: Index,
    *,
    axis: CaseAxis,
    owner: Index,
    shear: AnchorShear,
    load: Distribution,
    anchors: Anchors,
    sides: Floats,
    earthquake: Bools,
    psi_2: Floats,
    fire: Bools | None,
) -> AnchorChecks:
    """Check the anchors of every case by the method of its point.

    Args:
        points: the batch.
        cases: (checked cases,) places on the axis of all cases; ``axis`` and ``anchors`` are of the checked ones.
        owner: (cases,) point of every case; ``shear`` and ``load`` have a row for each of them.
        sides: of `table_spacing.nearest_sides`.
        earthquake: (cases,) of `LoadCases`.
        psi_2: (cases,) of `fastener_sustained.psi_2_of_cases`.
        fire: (cases,) of `LoadCases`, None where there is none.
    """
    allowables = points.allowables
    if points.fasteners is not None:
        none = cases[:0]
        code = check_anchors(anchor_cases(points, none, owner=owner, shear=shear, load=load), anchors.take(none))
        found = fastener_checks(
            points,
            points.fasteners,
            cases,
            owner=owner,
            shear=shear,
            load=load,
            anchors=anchors,
            earthquake=earthquake,
            psi_2=psi_2,
            fire=fire,
        )
        return AnchorChecks(outcomes=found.outcomes, code=code, code_cases=none, fasteners=found)
    if allowables is None:
        code = check_anchors(anchor_cases(points, cases, owner=owner, shear=shear, load=load), anchors)
        return AnchorChecks(outcomes=code.outcomes, code=code, code_cases=None)
    method = allowables.method[axis.point_of_case]
    own = np.flatnonzero(method == CHAPTER_17)
    code = check_anchors(anchor_cases(points, cases[own], owner=owner, shear=shear, load=load), anchors.take(own))
    outcomes = _placed(code.outcomes, own, anchors)
    rows = np.flatnonzero(method == TABLE)
    point = axis.point_of_case[rows]
    tables = check_tables(_table_cases(allowables.take(point)), _loaded(points, anchors.take(rows), point, sides))
    outcomes += _placed(tables, rows, anchors)
    rows = np.flatnonzero(method == MASONRY_BOLT)
    bolted, point = anchors.take(rows), axis.point_of_case[rows]
    bolts = check_bolts(
        _bolt_cases(points, allowables, point), _loaded(points, bolted, point, sides), _bolt_pairs(bolted)
    )
    return AnchorChecks(outcomes=[*outcomes, *_placed(bolts, rows, anchors)], code=code, code_cases=own)


def _bolt_cases(points: Points, allowables: Allowables, point: Index) -> BoltCases:
    product, own = points.products.take(point), allowables.take(point)
    hooked = product.pullout_method == HOOKED
    return BoltCases(
        f_m=np.minimum(own.f_base, most_f_m(own)),
        h=points.bases.thickness[point],
        l_b=effective_embedment(h_ef=product.h_ef, d_b=product.d_a, bent=hooked),
        d_b=product.d_a,
        a_b=product.a_se_n,
        f_y=product.f_ya,
        e_b=np.where(hooked, product.e_h, 0.0),
        by_strength=own.by_strength,
        older=own.older,
    )


def _bolt_pairs(anchors: Anchors) -> BoltPairs:
    a, b = near_pairs(
        x=anchors.x,
        y=anchors.y,
        case_of_anchor=anchors.case,
        limit=np.full(len(anchors.case), np.inf),
        counts=np.ones(len(anchors.case), dtype=np.bool_),
    )
    one, other = np.concatenate((a, b)), np.concatenate((b, a))
    return BoltPairs(
        one=one,
        other=other,
        off_x=anchors.x[other] - anchors.x[one],
        off_y=anchors.y[other] - anchors.y[one],
    )


def _loaded(points: Points, anchors: Anchors, point: Index, sides: Floats) -> LoadedAnchors:
    """``point`` is that of each case, ``sides`` (anchors of layouts, 4)."""
    per_point = np.bincount(points.layouts.point, minlength=points.count)
    own = (np.cumsum(per_point) - per_point)[point[anchors.case]] + anchors.number
    return LoadedAnchors(
        case=anchors.case,
        c_a=free_edges_of_anchors(points)[own],
        sides=sides[own],
        n=anchors.n_ua,
        v=anchors.v,
        v_x=anchors.v_x,
        v_y=anchors.v_y,
        count=anchors.case_count,
    )


def _table_cases(own: Allowables) -> TableCases:
    return TableCases(
        f_base=own.f_base,
        power=own.power,
        mean_ultimate=own.mean_ultimate,
        safety_factor=own.safety_factor,
        f_ref=own.f_ref,
        strength_exponent=own.strength_exponent,
        c_least=own.c_least,
        c_full=own.c_full,
        slope_c=own.slope_c,
        s_least=own.s_least,
        s_full=own.s_full,
        slope_s=own.slope_s,
    )


def _placed(outcomes: Sequence[ModeOutcome], cases: Index, anchors: Anchors) -> list[ModeOutcome]:
    """Modes of some of the cases, rising, with the numbers that cases and anchors have among all of them."""
    chosen = np.zeros(anchors.case_count, dtype=np.bool_)
    chosen[cases] = True
    anchor = np.flatnonzero(chosen[anchors.case])
    return [_among(outcome, cases, anchor, anchors.case_count) for outcome in outcomes]


def _among(outcome: ModeOutcome, cases: Index, anchor: Index, count: int) -> ModeOutcome:
    reason = np.full(count, position(Inapplicable.OTHER_METHOD))
    reason[cases] = 0 if outcome.reason is None else outcome.reason
    sets = outcome.sets
    return replace(
        outcome,
        case_of_row=cases if outcome.case_of_row is None else cases[outcome.case_of_row],
        reason=reason,
        anchor_of_row=None if outcome.anchor_of_row is None else anchor[outcome.anchor_of_row],
        sets=None if sets is None else replace(sets.renumbered(anchor), case_of_group=cases[sets.case_of_group]),
    )
