"""Weight that each line brings to the bar of a trapeze: its weight per foot times the length that hangs there.

The length is that of the named models of the run, or the largest of them (reading 33). What is kept free for later may
be absent, so its dead load is apart; surely there is only the dead load of the lines by the least of the models. Where
a continuous line lifts off the bar, contents and what is kept free bring nothing, for both may be absent. The static
load of a tray stands on every span: it comes as so many times the load. Units: lbf, lbf/ft, ft.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.hanger.run_reaction import MODELS, picked_models
from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Record, formula, given, procedure, record

_CLAUSE = "reading 33"


@record
class LineOnBar(Record):
    """Service load of lines at one place of a bar, by nature."""

    TITLE: ClassVar[str] = "Line on the bar of a trapeze"
    AXIS: ClassVar[Axis] = Axis.LOAD

    number: Annotated[Floats, given("number of lines")]
    length: Annotated[Floats, procedure("l by model", "ft", "beam_reaction", clause="statics", axis=Axis.MODEL)]
    model: Annotated[Codes, given("model", labels=MODELS, clause=_CLAUSE)]
    picked: Annotated[Bools, given("models of which the largest is taken", axis=Axis.MODEL, clause=_CLAUSE)]
    l_taken: Annotated[Floats, formula("l", "ft", "max(where(picked, length, min(length)))", clause=_CLAUSE)]
    spare: Annotated[Floats, given("share kept free")]
    l_least: Annotated[Floats, formula("l, least", "ft", "min(length)", clause="statics")]
    factor: Annotated[Floats, formula("n (1 + spare)", "", "number*(1 + spare)", clause="named share")]
    w_dead: Annotated[Floats, given("w_D", "lbf/ft")]
    w_fluid: Annotated[Floats, given("w_F", "lbf/ft")]
    p_static: Annotated[Floats, given("P_static", "lbf")]
    n_static: Annotated[Floats, procedure("n_P by model", "", "beam_reaction", clause="NEMA VE 1", axis=Axis.MODEL)]
    n_taken: Annotated[
        Floats, formula("n_P", "", "max(0, max(where(picked, n_static, min(n_static))))", clause=_CLAUSE)
    ]
    w_test: Annotated[Floats, given("w_test", "lbf/ft")]
    p_dead: Annotated[Floats, formula("P_D", "lbf", "number*w_dead*l_taken", clause="statics")]
    p_kept: Annotated[Floats, formula("P_D, kept free", "lbf", "spare*max(p_dead, 0)", clause="named share")]
    p_sure: Annotated[Floats, formula("P_D, surely there", "lbf", "number*w_dead*l_least", clause="statics")]
    p_fluid: Annotated[Floats, formula("P_F", "lbf", "factor*w_fluid*max(l_taken, 0)", clause="statics")]
    p_live: Annotated[Floats, formula("P_L", "lbf", "factor*p_static*n_taken", clause="statics")]
    p_test: Annotated[Floats, formula("P_test", "lbf", "factor*w_test*max(l_taken, 0)", clause="statics")]


def line_on_bar(
    *,
    number: Floats,
    length: Floats,
    model: Codes,
    spare: Floats,
    w_dead: Floats,
    w_fluid: Floats,
    p_static: Floats,
    n_static: Floats,
    w_test: Floats,
) -> LineOnBar:
    """Load of each line on its bar, n rows.

    ``number`` alike lines; ``length`` (n, 3) by model, ft; ``model`` codes of ``MODELS``; ``spare`` share kept free;
    weights in lbf/ft of one line; ``p_static`` in lbf its static load, of which ``n_static`` (n, 3) come to the bar by
    model. Source: reading 33.
    """
    picked = picked_models(model)
    l_taken, n_taken = (np.where(picked, each, -np.inf).max(axis=1) for each in (length, n_static))
    n_taken, l_full = np.maximum(n_taken, 0.0), np.maximum(l_taken, 0.0)
    l_least = length.min(axis=1)
    factor = number * (1.0 + spare)
    p_dead = number * w_dead * l_taken
    return LineOnBar(
        number=number,
        length=length,
        model=model,
        picked=picked,
        l_taken=l_taken,
        l_least=l_least,
        spare=spare,
        factor=factor,
        w_dead=w_dead,
        w_fluid=w_fluid,
        p_static=p_static,
        n_static=n_static,
        n_taken=n_taken,
        w_test=w_test,
        p_dead=p_dead,
        p_kept=spare * np.maximum(p_dead, 0.0),
        p_sure=number * w_dead * l_least,
        p_fluid=factor * w_fluid * l_full,
        p_live=factor * p_static * n_taken,
        p_test=factor * w_test * l_full,
    )
