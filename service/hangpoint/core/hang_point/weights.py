"""What hangs, brought to the hang point as service loads by nature. Units: lbf, ft."""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.points import Hangs, Points
from hangpoint.core.hang_point.verdict import Section
from hangpoint.core.hanger.run_reaction import BY_MODEL, run_reaction
from hangpoint.core.hanger.spacing import LEAST_LIQUID, spacing_rules
from hangpoint.core.loads.combinations import SPRINKLER_LOAD, TRANSIENT, structure_in_rule, weight_in_rule
from hangpoint.core.loads.pipe import pipe_weight
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding, Link

_UNIFORM_ONLY = np.array([rule.uniform_only for rule in spacing_rules()])
_VAPOUR = np.array([rule.vapour for rule in spacing_rules()])


@frozen
class ServiceLoads:
    """Service tension of each point by nature, lbf, with the records it came from and what was seen.

    ``transient`` (points, 6, natures) as `Hangs` has it. ``others`` (points,) says where transient loads or earthquake
    act, None where they act nowhere.
    """

    dead: Floats
    contents: Floats
    live: Floats
    transient: Floats
    others: Bools | None
    sprinkler: Floats
    sections: list[Section]
    findings: list[FindingColumn]

    def most(self) -> Floats:
        """See `most_service`."""
        return most_service(dead=self.dead, contents=self.contents, live=self.live, sprinkler=self.sprinkler)


def most_service(*, dead: Floats, contents: Floats, live: Floats, sprinkler: Floats) -> Floats:
    """The most of dead load, contents, live load and the 250 lb of a sprinkler point together, lbf, all (points,).

    Contents and live load may be absent: where they push they take nothing off.
    """
    return dead + np.maximum(contents, 0.0) + np.maximum(live, 0.0) + sprinkler


def load_on_structure(*, dead: Floats, contents: Floats, live: Floats, sprinkler: Floats, rule: Floats) -> Floats:
    """The most that pulls on the structure of service loads, lbf, all (points,); 0 where they only push.

    By the sprinkler standard that is the weight once and 250 lb (reading 29). Where its rule is stated as a load,
    ``rule``, weight and 250 lb of it are in the load, as far as the other natures don't have them already.
    """
    service = most_service(dead=dead, contents=contents, live=live, sprinkler=sprinkler)
    weight, beside = dead + np.maximum(contents, 0.0), np.maximum(live, 0.0) + sprinkler
    counted = weight_in_rule(rule)
    ruled = np.maximum(weight, counted) + np.maximum(beside, structure_in_rule(rule) - counted)
    return np.maximum(np.where(rule > 0, ruled, service), 0.0)


def push_on_structure(*, dead: Floats, contents: Floats, live: Floats) -> Floats:
    """The most that pushes on the structure of the same loads, lbf, all (points,); 0 or negative."""
    return np.minimum(dead + np.minimum(contents, 0.0) + np.minimum(live, 0.0), 0.0)


def shear_on_structure(hangs: Hangs) -> Floats:
    """Service shear of dead load, contents and live load along x and y, lbf, (points, 2).

    Contents and live load may be absent: each axis has the larger of what they make with those that act one way.
    """
    one_way, other_way = (
        hangs.v_dead + side(hangs.v_contents, 0.0) + side(hangs.v_live, 0.0) for side in (np.maximum, np.minimum)
    )
    return np.where(np.abs(other_way) > np.abs(one_way), other_way, one_way)


def service_loads(points: Points, *, factored: bool) -> ServiceLoads:
    """Add the reaction of each run to the loads that a point states directly.

    A sprinkler point also carries 250 lb, which enters the rule of the sprinkler standard and, as a live load, the
    ordinary combinations (reading 29).
    """
    hangs, runs, loads = points.hangs, points.runs, points.loads
    dead, contents, live = hangs.dead.copy(), hangs.contents.copy(), hangs.live.copy()
    sprinkler = np.where(hangs.sprinkler, 0.0 if factored else SPRINKLER_LOAD, 0.0)
    if not len(runs.point):
        return ServiceLoads(
            dead=dead,
            contents=contents,
            live=live,
            transient=hangs.transient,
            others=_others(hangs, hangs.transient),
            sprinkler=sprinkler,
            sections=[],
            findings=[],
        )
    weight = pipe_weight(
        d_o=runs.d_o,
        t=runs.t,
        rho_pipe=runs.rho_pipe,
        rho_contents=runs.rho_contents,
        rho_test=runs.rho_test,
        t_ins=runs.t_ins,
        rho_ins=runs.rho_ins,
        q_jacket=np.zeros(len(runs.point)),
        allowance=runs.allowance,
    )
    reaction = run_reaction(
        w_dead=weight.w_dead,
        w_fluid=weight.w_fluid,
        w_test=weight.w_test,
        spans=runs.spans,
        span_count=runs.span_count,
        support=runs.support,
        missing=runs.missing,
        model=runs.model,
        load_run=loads.run,
        load_position=loads.position,
        load_weight=loads.weight,
        load_contents=loads.contents,
        load_live=loads.live,
    )
    dead[runs.point] += reaction.r_dead
    contents[runs.point] += reaction.r_contents
    live[runs.point] += reaction.r_live
    row = np.full(points.count, -1, dtype=np.intp)
    row[runs.point] = np.arange(len(runs.point))
    transient = hangs.transient
    if some(runs.rho_test):
        transient = transient.copy()
        transient[runs.point, 0, TRANSIENT.index("test")] += reaction.r_test
    return ServiceLoads(
        dead=dead,
        contents=contents,
        live=live,
        transient=transient,
        others=_others(hangs, transient),
        sprinkler=sprinkler,
        sections=[Section(record=record, row=row, link=Link.LOAD) for record in (weight, reaction)],
        findings=[*_spacing(points, row), *_uplift(points, row, reaction.total[:, _CONTINUOUS])],
    )


_CONTINUOUS = BY_MODEL.index("continuous")


def _others(hangs: Hangs, transient: Floats) -> Bools | None:
    found = hangs.s_ds > 0
    if some(hangs.earthquake):
        found |= hangs.earthquake.any(axis=1)
    if some(transient):
        found |= transient.any(axis=(1, 2))
    return found if some(found) else None


def _uplift(points: Points, row: Index, continuous: Floats) -> list[FindingColumn]:
    """Runs that lift off their support; ``row`` (points,) is the run of each point, -1 without one."""
    if not some(continuous < 0):
        return []
    lifted = (row >= 0) & (continuous[row] < 0)
    return [
        FindingColumn(
            finding=Finding.RUN_UPLIFT,
            holds=lifted,
            value=np.where(lifted, continuous[row], 0.0),
            limit=np.zeros(points.count),
        )
    ]


def _spacing(points: Points, row: Index) -> list[FindingColumn]:
    """The longer span beside each hanger against its named rule, and runs that the rule has no value for."""
    runs = points.runs
    concentrated = np.zeros(len(runs.point), dtype=np.bool_)
    concentrated[points.loads.run] = True
    concentrated &= (runs.spacing_rule >= 0) & _UNIFORM_ONLY[runs.spacing_rule]
    liquid = runs.spacing_covered & (runs.spacing_rule >= 0) & (runs.rho_contents > LEAST_LIQUID)
    liquid &= _VAPOUR[runs.spacing_rule]
    if runs.spacing_covered.all() and np.isinf(runs.spacing_limit).all() and not (some(concentrated) or some(liquid)):
        return []
    at = np.arange(len(runs.point))
    left = np.where(runs.support > 0, runs.spans[at, np.maximum(runs.support - 1, 0)], 0.0)
    last = runs.spans.shape[1] - 1
    right = np.where(runs.support < runs.span_count, runs.spans[at, np.minimum(runs.support, last)], 0.0)
    longest = np.maximum(left, right)
    exceeded = longest > runs.spacing_limit * (1 + 1e-9)
    limit = np.where(exceeded, runs.spacing_limit, 0.0)
    has = row >= 0

    def over_points(column: Floats) -> Floats:
        return np.where(has, column[row], 0.0)

    return [
        FindingColumn(
            finding=Finding.SPACING_EXCEEDED,
            holds=has & exceeded[row],
            value=over_points(longest),
            limit=over_points(limit),
        ),
        FindingColumn(
            finding=Finding.SPACING_NOT_COVERED,
            holds=has & ~runs.spacing_covered[row],
            value=over_points(longest),
            limit=np.zeros(points.count),
        ),
        FindingColumn(
            finding=Finding.SPACING_VAPOUR,
            holds=has & liquid[row],
            value=np.zeros(points.count),
            limit=np.zeros(points.count),
        ),
        FindingColumn(
            finding=Finding.SPACING_POINT_LOAD,
            holds=has & concentrated[row],
            value=np.zeros(points.count),
            limit=np.zeros(points.count),
        ),
    ]
