"""From service loads at the anchor to the factored tension of each load case. Units: lbf.

Contents that relieve the anchor are left out of its tension, because a pipe may be empty.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.loads.combinations import CASES, SPRINKLER
from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, formula, given, record

_FACTORS = np.array([[c.value.dead, c.value.live, c.value.sprinkler, c.value.given] for c in CASES])


@record
class AnchorDemand(Record):
    """Tension of the anchor in one load case."""

    TITLE: ClassVar[str] = "tension at the anchor"
    AXIS: ClassVar[Axis] = Axis.CASE

    n_dead: Annotated[Floats, given("N, dead", "lbf")]
    n_contents: Annotated[Floats, given("N, contents", "lbf")]
    n_live: Annotated[Floats, given("N, live", "lbf")]
    n_sprinkler: Annotated[Floats, given("N, sprinkler rule", "lbf", clause="reading 29")]
    n_factored: Annotated[Floats, given("N, factored as given", "lbf")]
    gamma_dead: Annotated[Floats, given("γ of dead load and contents", clause="5.3.1")]
    gamma_live: Annotated[Floats, given("γ of live load", clause="5.3.1")]
    gamma_sprinkler: Annotated[Floats, given("γ of the 250 lb", clause="reading 29")]
    gamma_given: Annotated[Floats, given("γ of the load as given")]
    n_ua: Annotated[
        Floats,
        formula(
            "N_ua",
            "lbf",
            "gamma_dead * (n_dead + max(n_contents, 0)) + gamma_live * n_live"
            " + gamma_sprinkler * n_sprinkler + gamma_given * n_factored",
            clause="5.3.1",
        ),
    ]
    sprinkler_case: Annotated[Bools, given("case of the sprinkler rule", clause="reading 29")]
    sustained_fraction: Annotated[Floats, given("sustained share of the load as given")]
    n_ua_s: Annotated[
        Floats,
        formula(
            "N_ua,s",
            "lbf",
            "where(sprinkler_case, 0, gamma_dead * (n_dead + max(n_contents, 0))"
            " + gamma_given * n_factored * sustained_fraction)",
            clause="17.5.2.2",
        ),
    ]
    earthquake_fraction: Annotated[Floats, given("earthquake share of the load as given")]
    n_ua_e: Annotated[
        Floats,
        formula("N_ua,E", "lbf", "gamma_given * n_factored * earthquake_fraction", clause="17.10.5.1"),
    ]


def anchor_demand(
    *,
    n_dead: Floats,
    n_contents: Floats,
    n_live: Floats,
    n_sprinkler: Floats,
    n_factored: Floats,
    sustained_fraction: Floats,
    earthquake_fraction: Floats,
    load_case: Index,
) -> AnchorDemand:
    """Factored tension of every case.

    Args:
        n_dead, n_contents, n_live, n_sprinkler: (cases,) service tensions, lbf.
        n_factored: (cases,) factored tension as given, lbf.
        sustained_fraction, earthquake_fraction: (cases,) shares of ``n_factored``.
        load_case: (cases,) index into `CASES`.
    """
    gamma_dead, gamma_live, gamma_sprinkler, gamma_given = _FACTORS[load_case].T.copy()
    sprinkler_case = load_case == SPRINKLER
    permanent = gamma_dead * (n_dead + np.maximum(n_contents, 0.0))
    as_given = gamma_given * n_factored
    return AnchorDemand(
        n_dead=n_dead,
        n_contents=n_contents,
        n_live=n_live,
        n_sprinkler=n_sprinkler,
        n_factored=n_factored,
        gamma_dead=gamma_dead,
        gamma_live=gamma_live,
        gamma_sprinkler=gamma_sprinkler,
        gamma_given=gamma_given,
        n_ua=permanent + gamma_live * n_live + gamma_sprinkler * n_sprinkler + as_given,
        sprinkler_case=sprinkler_case,
        sustained_fraction=sustained_fraction,
        n_ua_s=np.where(sprinkler_case, 0.0, permanent + as_given * sustained_fraction),
        earthquake_fraction=earthquake_fraction,
        n_ua_e=as_given * earthquake_fraction,
    )
