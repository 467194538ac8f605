"""From service loads at the anchor to the factored tension and shear of each load case. Units: lbf.

Contents that relieve the anchor are left out of its tension, because a pipe may be empty. Contents that push against
the rest of the shear along an axis are left out or taken, whichever makes the larger shear; where they turn its way
around, that shear is taken to act either way.
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


@record
class AnchorShear(Record):
    """Shear of the anchor in one load case, along the axes x and y in the face of the base."""

    TITLE: ClassVar[str] = "shear at the anchor"
    AXIS: ClassVar[Axis] = Axis.CASE

    v_x_dead: Annotated[Floats, given("V_x, dead", "lbf")]
    v_x_contents: Annotated[Floats, given("V_x, contents", "lbf")]
    v_x_live: Annotated[Floats, given("V_x, live", "lbf")]
    v_x_factored: Annotated[Floats, given("V_x, factored as given", "lbf")]
    v_y_dead: Annotated[Floats, given("V_y, dead", "lbf")]
    v_y_contents: Annotated[Floats, given("V_y, contents", "lbf")]
    v_y_live: Annotated[Floats, given("V_y, live", "lbf")]
    v_y_factored: Annotated[Floats, given("V_y, factored as given", "lbf")]
    gamma_dead: Annotated[Floats, given("γ of dead load and contents", clause="5.3.1")]
    gamma_live: Annotated[Floats, given("γ of live load", clause="5.3.1")]
    gamma_given: Annotated[Floats, given("γ of the load as given")]
    v_x_empty: Annotated[
        Floats,
        formula(
            "V_x without contents",
            "lbf",
            "gamma_dead * v_x_dead + gamma_live * v_x_live + gamma_given * v_x_factored",
            clause="5.3.1",
        ),
    ]
    v_y_empty: Annotated[
        Floats,
        formula(
            "V_y without contents",
            "lbf",
            "gamma_dead * v_y_dead + gamma_live * v_y_live + gamma_given * v_y_factored",
            clause="5.3.1",
        ),
    ]
    v_x_full: Annotated[
        Floats, formula("V_x with contents", "lbf", "v_x_empty + gamma_dead * v_x_contents", clause="5.3.1")
    ]
    v_y_full: Annotated[
        Floats, formula("V_y with contents", "lbf", "v_y_empty + gamma_dead * v_y_contents", clause="5.3.1")
    ]
    v_ua_x: Annotated[
        Floats,
        formula(
            "V_ua,x",
            "lbf",
            "where(max(v_x_full, -v_x_full) > max(v_x_empty, -v_x_empty), v_x_full, v_x_empty)",
            clause="5.3.1",
        ),
    ]
    v_ua_y: Annotated[
        Floats,
        formula(
            "V_ua,y",
            "lbf",
            "where(max(v_y_full, -v_y_full) > max(v_y_empty, -v_y_empty), v_y_full, v_y_empty)",
            clause="5.3.1",
        ),
    ]
    either_x: Annotated[
        Bools,
        formula(
            "either way along x",
            "",
            "(v_x_full > 0) * (v_x_empty < 0) + (v_x_full < 0) * (v_x_empty > 0) == 1",
            clause="5.3.1",
        ),
    ]
    either_y: Annotated[
        Bools,
        formula(
            "either way along y",
            "",
            "(v_y_full > 0) * (v_y_empty < 0) + (v_y_full < 0) * (v_y_empty > 0) == 1",
            clause="5.3.1",
        ),
    ]
    v_ua: Annotated[Floats, formula("V_ua", "lbf", "sqrt(v_ua_x**2 + v_ua_y**2)", clause="17.5.1")]
    earthquake_fraction: Annotated[Floats, given("earthquake share of the load as given")]
    v_ua_e: Annotated[
        Floats,
        formula(
            "V_ua,E",
            "lbf",
            "gamma_given * sqrt(v_x_factored**2 + v_y_factored**2) * earthquake_fraction",
            clause="17.10.6.1",
        ),
    ]


def anchor_shear(
    *,
    v_dead: Floats,
    v_contents: Floats,
    v_live: Floats,
    v_factored: Floats,
    earthquake_fraction: Floats,
    load_case: Index,
) -> AnchorShear:
    """Factored shear of every case, of an empty or a full pipe along each axis.

    Args:
        v_dead, v_contents, v_live: (cases, 2) service shears along x and y, lbf.
        v_factored: (cases, 2) factored shear as given, lbf.
        earthquake_fraction: (cases,) share of ``v_factored``.
        load_case: (cases,) index into `CASES`.
    """
    gamma_dead, gamma_live, _, gamma_given = _FACTORS[load_case].T.copy()
    empty = gamma_dead[:, None] * v_dead + gamma_live[:, None] * v_live + gamma_given[:, None] * v_factored
    full = empty + gamma_dead[:, None] * v_contents
    (v_x_empty, v_y_empty), (v_x_full, v_y_full) = empty.T.copy(), full.T.copy()
    v_ua_x, v_ua_y = _larger(v_x_full, v_x_empty), _larger(v_y_full, v_y_empty)
    as_given = np.sqrt(v_factored[:, 0] ** 2 + v_factored[:, 1] ** 2)
    return AnchorShear(
        v_x_dead=v_dead[:, 0],
        v_x_contents=v_contents[:, 0],
        v_x_live=v_live[:, 0],
        v_x_factored=v_factored[:, 0],
        v_y_dead=v_dead[:, 1],
        v_y_contents=v_contents[:, 1],
        v_y_live=v_live[:, 1],
        v_y_factored=v_factored[:, 1],
        gamma_dead=gamma_dead,
        gamma_live=gamma_live,
        gamma_given=gamma_given,
        v_x_empty=v_x_empty,
        v_y_empty=v_y_empty,
        v_x_full=v_x_full,
        v_y_full=v_y_full,
        v_ua_x=v_ua_x,
        v_ua_y=v_ua_y,
        either_x=_turned(v_x_full, v_x_empty),
        either_y=_turned(v_y_full, v_y_empty),
        v_ua=np.sqrt(v_ua_x**2 + v_ua_y**2),
        earthquake_fraction=earthquake_fraction,
        v_ua_e=gamma_given * as_given * earthquake_fraction,
    )


def _larger(full: Floats, empty: Floats) -> Floats:
    return np.where(np.abs(full) > np.abs(empty), full, empty)


def _turned(full: Floats, empty: Floats) -> Bools:
    """Whether the contents turn the shear its way around."""
    return ((full > 0) & (empty < 0)) | ((full < 0) & (empty > 0))
