"""Reaction of one hanger of a pipe run: weights per foot times lengths of the run, and point loads.

Reading 33: per hanger the larger of the tributary and the continuous model; both are shown. The larger is taken for
dead load, contents and live load each by itself, so that no combination of factors finds a larger sum. A request may
name one of the models. With a hanger missing the run is solved without it, so that a neighbour in equal hinged spans
carries 1.5 w L. Units: ft, lbf, lbf/ft. Limits of the two models: ``statics.continuous_run``.

A point load that is always there counts with its sign, so one far away may relieve a continuous run. A live point
load counts only where it adds, because it may be absent.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Index, Record, formula, given, procedure, record
from hangpoint.core.statics.continuous_run import point_reaction, uniform_reaction, without_support

LARGER, TRIBUTARY, CONTINUOUS = 0, 1, 2
MODELS = ("larger", "tributary", "continuous")
"""Labels of the codes of ``model``, in code order."""

_CLAUSE = "reading 33"


@record
class RunReaction(Record):
    """Service load that a hanger takes from its run, by nature."""

    TITLE: ClassVar[str] = "Reaction of the run at the hanger"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_dead: Annotated[Floats, given("w_D", "lbf/ft")]
    w_fluid: Annotated[Floats, given("w_F", "lbf/ft")]
    l_trib: Annotated[Floats, procedure("l_trib", "ft", "tributary_length", clause="statics")]
    l_cont: Annotated[Floats, procedure("l_cont", "ft", "three_moment", clause="statics")]
    p_dead_trib: Annotated[Floats, procedure("P_D,trib", "lbf", "lever_rule", clause="statics")]
    p_dead_cont: Annotated[Floats, procedure("P_D,cont", "lbf", "three_moment", clause="statics")]
    p_live_trib: Annotated[Floats, procedure("P_L,trib", "lbf", "lever_rule", clause="statics")]
    p_live_cont: Annotated[Floats, procedure("P_L,cont", "lbf", "three_moment", clause="statics")]
    model: Annotated[Codes, given("model", labels=MODELS, clause=_CLAUSE)]
    r_trib: Annotated[
        Floats, formula("R_trib", "lbf", "(w_dead + w_fluid)*l_trib + p_dead_trib + p_live_trib", clause="statics")
    ]
    r_cont: Annotated[
        Floats, formula("R_cont", "lbf", "(w_dead + w_fluid)*l_cont + p_dead_cont + p_live_cont", clause="statics")
    ]
    larger: Annotated[Bools, formula("the larger of the models", "", "model == 0", clause=_CLAUSE)]
    tributary: Annotated[Bools, formula("the tributary model", "", "model == 1", clause=_CLAUSE)]
    r_dead_trib: Annotated[Floats, formula("R_D,trib", "lbf", "w_dead*l_trib + p_dead_trib", clause="statics")]
    r_dead_cont: Annotated[Floats, formula("R_D,cont", "lbf", "w_dead*l_cont + p_dead_cont", clause="statics")]
    r_dead: Annotated[
        Floats,
        formula(
            "R_D",
            "lbf",
            "where(larger, max(r_dead_trib, r_dead_cont), where(tributary, r_dead_trib, r_dead_cont))",
            clause=_CLAUSE,
        ),
    ]
    r_contents: Annotated[
        Floats,
        formula(
            "R_F",
            "lbf",
            "where(larger, max(w_fluid*l_trib, w_fluid*l_cont), where(tributary, w_fluid*l_trib, w_fluid*l_cont))",
            clause=_CLAUSE,
        ),
    ]
    r_live: Annotated[
        Floats,
        formula(
            "R_L",
            "lbf",
            "where(larger, max(p_live_trib, p_live_cont), where(tributary, p_live_trib, p_live_cont))",
            clause=_CLAUSE,
        ),
    ]


def _per_run(load_run: Index, weights: Floats, n: int) -> Floats:
    # bincount of nothing is an array of integers
    return np.bincount(load_run, weights=weights, minlength=n).astype(np.float64)


def run_reaction(
    *,
    w_dead: Floats,
    w_fluid: Floats,
    spans: Floats,
    span_count: Index,
    support: Index,
    missing: Index,
    model: Codes,
    load_run: Index,
    load_position: Floats,
    load_weight: Floats,
    load_live: Bools,
) -> RunReaction:
    """Reaction of each run's named support, n rows.

    ``w_dead``, ``w_fluid`` (n,) in lbf/ft; ``spans`` (n, S) in ft, zero padded, with ``span_count``, ``support`` and
    ``missing`` (n,) as in ``statics.continuous_run``, ``missing`` -1 where no support is; ``model`` (n,) codes of
    ``MODELS``. Point loads are flat, m rows: ``load_run`` the row of the run, ``load_position`` in ft from the run's
    first support, ``load_weight`` in lbf, ``load_live`` whether it may be absent. Source: reading 33.
    """
    n = w_dead.shape[0]
    spans, span_count, support = without_support(spans=spans, span_count=span_count, support=support, missing=missing)
    l_trib, l_cont = uniform_reaction(spans=spans, span_count=span_count, support=support)
    share_trib, share_cont = point_reaction(
        spans=spans[load_run], span_count=span_count[load_run], support=support[load_run], position=load_position
    )
    dead = np.where(load_live, 0.0, load_weight)
    live = np.where(load_live, load_weight, 0.0)
    p_dead_trib = _per_run(load_run, dead * share_trib, n)
    p_dead_cont = _per_run(load_run, dead * share_cont, n)
    p_live_trib = _per_run(load_run, live * share_trib, n)
    p_live_cont = _per_run(load_run, live * np.maximum(share_cont, 0.0), n)

    r_trib = (w_dead + w_fluid) * l_trib + p_dead_trib + p_live_trib
    r_cont = (w_dead + w_fluid) * l_cont + p_dead_cont + p_live_cont
    larger, tributary = model == LARGER, model == TRIBUTARY

    def taken(by_tributary: Floats, by_continuous: Floats) -> Floats:
        one = np.where(tributary, by_tributary, by_continuous)
        return np.where(larger, np.maximum(by_tributary, by_continuous), one)

    r_dead_trib, r_dead_cont = w_dead * l_trib + p_dead_trib, w_dead * l_cont + p_dead_cont
    return RunReaction(
        w_dead=w_dead,
        w_fluid=w_fluid,
        l_trib=l_trib,
        l_cont=l_cont,
        p_dead_trib=p_dead_trib,
        p_dead_cont=p_dead_cont,
        p_live_trib=p_live_trib,
        p_live_cont=p_live_cont,
        model=model,
        r_trib=r_trib,
        r_cont=r_cont,
        larger=larger,
        tributary=tributary,
        r_dead_trib=r_dead_trib,
        r_dead_cont=r_dead_cont,
        r_dead=taken(r_dead_trib, r_dead_cont),
        r_contents=taken(w_fluid * l_trib, w_fluid * l_cont),
        r_live=taken(p_live_trib, p_live_cont),
    )
