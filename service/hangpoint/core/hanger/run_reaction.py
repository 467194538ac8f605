"""Reactions of hangers of a run, and of rods of a bar: weights per foot times lengths, and point loads.

Reading 33: per hanger the largest of the models; all are shown. It is taken for dead load, contents, live load and test
fluid each by itself, so that no combination of factors finds a larger sum. A request may name one of the models. With a
hanger missing the run is solved without it, so that a neighbour in equal hinged spans carries 1.5 w L. Units: ft, lbf,
lbf/ft. Models and their limits: ``statics.continuous_run``.

A load that is always there counts with its sign, so one far away may relieve a continuous run. Live load, and contents
that stand on a run or a bar as point loads, count only where they add, because each of them may be absent; the contents
of a run are there or aren't along all of it.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Index, Record, formula, given, procedure, record
from hangpoint.core.statics.continuous_run import Reactions, point_reactions, uniform_reactions, without_support

MODELS = ("larger", "tributary", "continuous", "hinged")
"""Models that a request may name, in the order of the codes of ``model``."""

BAR = len(MODELS)
"""Model of a bar: the larger of the hinged and the continuous beam, which are one where it has two rods."""

BY_MODEL = ("tributary", "continuous", "hinged")
"""Names along the trailing axis `Axis.MODEL`."""

_CLAUSE = "reading 33"


def _taken(part: str) -> str:
    return f"max(where(picked, {part}, min({part})))"


@record
class RunReaction(Record):
    """Service load that a hanger takes from its run, or a rod from its bar, by nature."""

    TITLE: ClassVar[str] = "Reaction of a run or bar at one support"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_dead: Annotated[Floats, given("w_D", "lbf/ft")]
    w_fluid: Annotated[Floats, given("w_F", "lbf/ft")]
    w_test: Annotated[Floats, given("w_test", "lbf/ft")]
    length: Annotated[Floats, procedure("l", "ft", "beam_reaction", clause="statics", axis=Axis.MODEL)]
    p_dead: Annotated[Floats, procedure("P_D", "lbf", "beam_reaction", clause="statics", axis=Axis.MODEL)]
    p_fluid: Annotated[Floats, procedure("P_F", "lbf", "beam_reaction", clause="statics", axis=Axis.MODEL)]
    p_live: Annotated[Floats, procedure("P_L", "lbf", "beam_reaction", clause="statics", axis=Axis.MODEL)]
    p_test: Annotated[Floats, procedure("P_test", "lbf", "beam_reaction", clause="statics", axis=Axis.MODEL)]
    model: Annotated[Codes, given("model", labels=(*MODELS, "bar"), clause=_CLAUSE)]
    picked: Annotated[Bools, given("models of which the largest is taken", axis=Axis.MODEL, clause=_CLAUSE)]
    dead: Annotated[Floats, formula("D by model", "lbf", "w_dead*length + p_dead", clause="statics", axis=Axis.MODEL)]
    fluid: Annotated[
        Floats, formula("F by model", "lbf", "w_fluid*length + p_fluid", clause="statics", axis=Axis.MODEL)
    ]
    test: Annotated[
        Floats, formula("test by model", "lbf", "w_test*length + p_test", clause="statics", axis=Axis.MODEL)
    ]
    total: Annotated[Floats, formula("R by model", "lbf", "dead + fluid + p_live", clause="statics", axis=Axis.MODEL)]
    r_dead: Annotated[Floats, formula("R_D", "lbf", _taken("dead"), clause=_CLAUSE)]
    r_contents: Annotated[Floats, formula("R_F", "lbf", _taken("fluid"), clause=_CLAUSE)]
    r_live: Annotated[Floats, formula("R_L", "lbf", _taken("p_live"), clause=_CLAUSE)]
    r_test: Annotated[Floats, formula("R_test", "lbf", _taken("test"), clause=_CLAUSE)]


@frozen
class ByModel:
    """What a support takes of point loads and of all live load, lbf, by model: (rows, 3) in the order of `BY_MODEL`."""

    p_dead: Floats
    p_fluid: Floats
    p_live: Floats
    p_test: Floats


_PICKED = np.array([[1, 1, 1], [1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 1, 1]], dtype=np.bool_)


def picked_models(model: Codes) -> Bools:
    """Of which models the largest is taken, (n, 3), by the codes of ``MODELS`` and `BAR`."""
    return _PICKED[model]


def reaction(
    *, w_dead: Floats, w_fluid: Floats, w_test: Floats, length: Floats, loads: ByModel, model: Codes
) -> RunReaction:
    """Reaction of supports, n rows.

    ``w_dead``, ``w_fluid``, ``w_test`` (n,) in lbf/ft; ``length`` (n, 3) reaction to a uniform load divided by it, ft;
    ``loads`` what point loads and live loads add; ``model`` (n,) codes of ``MODELS`` or `BAR`. Source: reading 33.
    """
    picked = picked_models(model)
    dead = w_dead[:, None] * length + loads.p_dead
    fluid = w_fluid[:, None] * length + loads.p_fluid
    test = w_test[:, None] * length + loads.p_test
    taken = np.where(picked, (dead, fluid, loads.p_live, test), -np.inf)
    r_dead, r_contents, r_live, r_test = np.maximum(np.maximum(taken[..., 0], taken[..., 1]), taken[..., 2])
    return RunReaction(
        w_dead=w_dead,
        w_fluid=w_fluid,
        w_test=w_test,
        length=length,
        p_dead=loads.p_dead,
        p_fluid=loads.p_fluid,
        p_live=loads.p_live,
        p_test=loads.p_test,
        model=model,
        picked=picked,
        dead=dead,
        fluid=fluid,
        test=test,
        total=dead + fluid + loads.p_live,
        r_dead=r_dead,
        r_contents=r_contents,
        r_live=r_live,
        r_test=r_test,
    )


def by_model(reactions: Reactions) -> Floats:
    """The models along a trailing axis, (..., 3) in the order of `BY_MODEL`."""
    return np.stack((reactions.tributary, reactions.continuous, reactions.hinged), axis=-1)


def run_reaction(
    *,
    w_dead: Floats,
    w_fluid: Floats,
    w_test: Floats,
    spans: Floats,
    span_count: Index,
    support: Index,
    missing: Index,
    model: Codes,
    load_run: Index,
    load_position: Floats,
    load_weight: Floats,
    load_contents: Bools,
    load_live: Bools,
) -> RunReaction:
    """Reaction of each run's named support, n rows.

    ``w_dead``, ``w_fluid``, ``w_test`` (n,) in lbf/ft; ``spans`` (n, S) in ft, zero padded, with ``span_count``,
    ``support`` and ``missing`` (n,) as in ``statics.continuous_run``, ``missing`` -1 where no support is; ``model``
    (n,) codes of ``MODELS``. Point loads are flat, m rows: ``load_run`` the row of the run, ``load_position`` in ft
    from the run's first support, ``load_weight`` in lbf, ``load_contents`` and ``load_live`` what it is if not dead.
    Source: reading 33.
    """
    n = len(w_dead)
    spans, span_count, support = without_support(spans=spans, span_count=span_count, support=support, missing=missing)
    overhang, none = np.zeros(n), np.zeros((n, 3))
    lengths = uniform_reactions(spans=spans, span_count=span_count, start=overhang, end=overhang)
    length = _at_support(lengths, np.arange(n), support)
    dead, contents, live = none, none, none
    if len(load_run):
        beyond = overhang[load_run]
        shares = point_reactions(
            spans=spans[load_run], span_count=span_count[load_run], start=beyond, end=beyond, position=load_position
        )
        share = _at_support(shares, np.arange(len(load_run)), support[load_run])
        adds, always = np.maximum(share, 0.0), ~(load_contents | load_live)
        dead, contents, live = (
            _per_row(load_run, np.where(own, load_weight, 0.0)[:, None] * part, n)
            for own, part in ((always, share), (load_contents, adds), (load_live, adds))
        )
    return reaction(
        w_dead=w_dead,
        w_fluid=w_fluid,
        w_test=w_test,
        length=length,
        loads=ByModel(p_dead=dead, p_fluid=contents, p_live=live, p_test=contents),
        model=model,
    )


def _at_support(reactions: Reactions, rows: Index, support: Index) -> Floats:
    """The models along a trailing axis at one support of each row, (rows, 3)."""
    models = (reactions.tributary, reactions.continuous, reactions.hinged)
    return np.array([own[rows, support] for own in models]).T


def _per_row(row: Index, values: Floats, n: int) -> Floats:
    """Sums of the values (m, 3) of each of n rows."""
    columns = [np.bincount(row, weights=column, minlength=n) for column in values.T]
    return np.stack(columns, axis=1).astype(np.float64)
