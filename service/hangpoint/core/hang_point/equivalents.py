"""The strength-level equivalent of each point that goes by a table, by the load factor of its own loads. Units: lbf."""

from collections.abc import Sequence
from dataclasses import fields, replace

import numpy as np

from hangpoint.core.allowable.strength_equivalent import strength_equivalent
from hangpoint.core.hang_point.allowables import TABLE
from hangpoint.core.hang_point.case_loads import case_demand, case_shear
from hangpoint.core.hang_point.cases import LoadCases, fixtures, further_of, lay_out_cases
from hangpoint.core.hang_point.gathering import gather
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.verdict import NONE, PointMode, Section
from hangpoint.core.hang_point.weights import ServiceLoads, service_loads
from hangpoint.core.loads.combinations import SPRINKLER, SPRINKLER_STATED, Factors
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Link, Mode


def equivalent_sections(points: Points, basis: Basis, *, modes: Sequence[PointMode]) -> list[Section]:
    """A section of the trace for the points that go by a table: in tension, where they have none in shear.

    Args:
        points: the batch.
        basis: of the request.
        modes: of the anchors, over the points.
    """
    if points.allowables is None:
        return []
    by_mode = {mode.mode: mode for mode in modes}
    if Mode.TABLE_TENSION not in by_mode:
        return []
    tension, shear = by_mode[Mode.TABLE_TENSION], by_mode[Mode.TABLE_SHEAR]
    has = (points.allowables.method == TABLE) & (tension.applies | shear.applies)
    rows = np.flatnonzero(has)
    if not len(rows):
        return []
    own = replace(gather([(points, rows)]), allowables=None)
    loads = service_loads(own, factored=False)
    cases = lay_out_cases(own, loads, fixture=fixtures(own), basis=basis)
    plain = _without_factors(own, loads, cases)
    demand, ordinary = case_demand(own, loads, cases), ~np.isin(cases.acts, (SPRINKLER, SPRINKLER_STATED))
    v, v_plain = case_shear(own, cases).v_ua, case_shear(own, plain).v_ua
    pulled = tension.applies[rows][cases.axis.point_of_case]
    _, case = cases.axis.worst(np.where(ordinary, np.where(pulled, demand.n_ua, v), -1.0))
    pulled, gamma = pulled[case], cases.gamma.take(case)
    contents = np.where(demand.as_combined, demand.n_contents, np.maximum(demand.n_contents, 0.0))[case]
    live = (demand.n_live + demand.n_sprinkler)[case]
    columns = {
        "gamma_dead": gamma.dead,
        "q_dead": _where(pulled, demand.n_dead[case]),
        "gamma_contents": gamma.contents,
        "q_contents": _where(pulled & (gamma.contents != 0), contents),
        "gamma_live": gamma.live,
        "q_live": _where(pulled & (gamma.live != 0), live),
        "q_others": np.where(pulled, plain.further.load[case, 0], v_plain[case]),
        "q_others_factored": np.where(pulled, cases.further.load[case, 0], v[case]),
        "allowable": np.where(pulled, tension.design_strength[rows], shear.design_strength[rows]),
    }
    service = columns["q_dead"] + columns["q_contents"] + columns["q_live"] + columns["q_others"]
    sound = np.flatnonzero(service > 0)
    if not len(sound):
        return []
    record = strength_equivalent(**{name: column[sound] for name, column in columns.items()})
    place = np.full(points.count, NONE, dtype=np.intp)
    place[rows[sound]] = np.arange(len(sound))
    return [Section(record=record, row=place, link=Link.BASE)]


def _where(holds: Bools, values: Floats) -> Floats:
    return np.where(holds, values, 0.0)


def _without_factors(points: Points, loads: ServiceLoads, cases: LoadCases) -> LoadCases:
    """The same cases with every load in them at its service level."""
    gamma = Factors(
        **{
            each.name: (own if (own := getattr(cases.gamma, each.name)).dtype == np.bool_ else np.sign(own))
            for each in fields(Factors)
        }
    )
    further = further_of(points, loads, gamma, cases.axis.point_of_case, cases.as_combined)
    return replace(cases, gamma=gamma, further=further)
