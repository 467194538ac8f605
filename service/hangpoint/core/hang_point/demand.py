"""From service loads at the hang point to the factored tension and shear of each load case. Units: lbf.

At a lone anchor contents that relieve it are left out of its tension, because a pipe may be empty. Contents that push
against the rest of its shear along an axis are left out or taken, whichever makes the larger shear; where they turn its
way around, that shear is taken to act either way. The vertical effect of earthquake on contents comes and goes with
them. At a group of anchors or a plate the same contents relieve one anchor
and load another: there they are taken in one load case and left out in another (``as_combined``).
"""

from typing import Annotated, Any, ClassVar

import numpy as np

from hangpoint.core.clauses import (
    COMBINED,
    EARTHQUAKE_PULL,
    EARTHQUAKE_SHEAR,
    LASTING,
    SHEAR_OF_COMPONENTS,
    TRANSIENT_COMBINED,
    VERTICAL_EARTHQUAKE,
)
from hangpoint.core.loads.combinations import SPRINKLER, SPRINKLER_STATED, Factors
from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, columns, formula, given, record
from hangpoint.core.rows import some


@record
class AnchorDemand(Record):
    """Tension at the hang point in one load case."""

    TITLE: ClassVar[str] = "tension at the hang point"
    AXIS: ClassVar[Axis] = Axis.CASE

    n_dead: Annotated[Floats, given("N, dead", "lbf")]
    n_contents: Annotated[Floats, given("N, contents", "lbf")]
    n_live: Annotated[Floats, given("N, live", "lbf")]
    n_sprinkler: Annotated[Floats, given("N, sprinkler rule", "lbf", clause="reading 29")]
    n_factored: Annotated[Floats, given("N, factored as given, without earthquake", "lbf")]
    n_factored_e: Annotated[Floats, given("N, earthquake as given", "lbf")]
    n_further: Annotated[Floats, given("N_u, transient and earthquake", "lbf", clause=TRANSIENT_COMBINED)]
    n_further_s: Annotated[Floats, given("N_u,s, what stays of it", "lbf", clause=LASTING)]
    n_further_e: Annotated[Floats, given("N_ua,E, of it earthquake", "lbf", clause=EARTHQUAKE_PULL)]
    as_combined: Annotated[Bools, given("contents act as combined", clause=COMBINED)]
    gamma_dead: Annotated[Floats, given("γ of dead load", clause=COMBINED)]
    gamma_contents: Annotated[Floats, given("γ of contents", clause=COMBINED)]
    gamma_live: Annotated[Floats, given("γ of live load", clause=COMBINED)]
    gamma_sprinkler: Annotated[Floats, given("γ of the 250 lb", clause="reading 29")]
    gamma_given: Annotated[Floats, given("γ of the load as given")]
    n_permanent: Annotated[
        Floats,
        formula(
            "N_ua, dead and contents",
            "lbf",
            "gamma_dead * n_dead + gamma_contents * where(as_combined, n_contents, max(n_contents, 0))",
            clause=COMBINED,
        ),
    ]
    n_ua: Annotated[
        Floats,
        formula(
            "N_ua",
            "lbf",
            "n_permanent + gamma_live * n_live + gamma_sprinkler * n_sprinkler + gamma_given * n_factored + n_further",
            clause=COMBINED,
        ),
    ]
    sprinkler_case: Annotated[Bools, given("case of the sprinkler rule", clause="reading 29")]
    sustained_fraction: Annotated[Floats, given("sustained share of the load as given")]
    n_ua_s: Annotated[
        Floats,
        formula(
            "N_ua,s",
            "lbf",
            "where(sprinkler_case, 0, n_permanent"
            " + gamma_given * (n_factored + max(n_factored_e, -n_factored_e)) * sustained_fraction + n_further_s)",
            clause=LASTING,
        ),
    ]


def anchor_demand(
    *,
    n_dead: Floats,
    n_contents: Floats,
    n_live: Floats,
    n_sprinkler: Floats,
    n_factored: Floats,
    n_factored_e: Floats,
    n_further: Floats,
    n_further_s: Floats,
    n_further_e: Floats,
    sustained_fraction: Floats,
    as_combined: Bools,
    load_case: Index,
    gamma: Factors,
) -> AnchorDemand:
    """Factored tension of every case.

    Args:
        n_dead, n_contents, n_live, n_sprinkler: (cases,) service tensions, lbf.
        n_factored, n_factored_e: (cases,) factored tension as given without earthquake, and of earthquake as it is
            given, lbf.
        n_further, n_further_s, n_further_e: (cases,) factored tension of transient loads and earthquake, what stays of
            it and what earthquake makes of it, lbf.
        sustained_fraction: (cases,) share of both as given, earthquake being taken to pull.
        as_combined: (cases,) contents also relieve, as the load case has them.
        load_case: (cases,) index into `CASES`.
        gamma: load factors of the same cases.
    """
    sprinkler_case = (load_case == SPRINKLER) | (load_case == SPRINKLER_STATED)
    contents = np.where(as_combined, n_contents, np.maximum(n_contents, 0.0))
    permanent = gamma.dead * n_dead + gamma.contents * contents
    as_given = gamma.given * n_factored
    stays = gamma.given * (n_factored + np.abs(n_factored_e)) * sustained_fraction
    return AnchorDemand(
        n_dead=n_dead,
        n_contents=n_contents,
        n_live=n_live,
        n_sprinkler=n_sprinkler,
        n_factored=n_factored,
        n_factored_e=n_factored_e,
        n_further=n_further,
        n_further_s=n_further_s,
        n_further_e=n_further_e,
        as_combined=as_combined,
        gamma_dead=gamma.dead,
        gamma_contents=gamma.contents,
        gamma_live=gamma.live,
        gamma_sprinkler=gamma.sprinkler,
        gamma_given=gamma.given,
        n_permanent=permanent,
        n_ua=permanent + gamma.live * n_live + gamma.sprinkler * n_sprinkler + as_given + n_further,
        sprinkler_case=sprinkler_case,
        sustained_fraction=sustained_fraction,
        n_ua_s=np.where(sprinkler_case, 0.0, permanent + stays + n_further_s),
    )


_QUAKE = (
    "{v}_further_e + where(max({v}_full, -{v}_full) > max({v}_empty, -{v}_empty), vertical_contents, 0) * {v}_contents"
)


@record
class AnchorShear(Record):
    """Shear at the hang point in one load case, along the axes x and y in the face of the base."""

    TITLE: ClassVar[str] = "shear at the hang point"
    AXIS: ClassVar[Axis] = Axis.CASE

    v_x_dead: Annotated[Floats, given("V_x, dead", "lbf")]
    v_x_contents: Annotated[Floats, given("V_x, contents", "lbf")]
    v_x_live: Annotated[Floats, given("V_x, live", "lbf")]
    v_x_factored: Annotated[Floats, given("V_x, factored as given, without earthquake", "lbf")]
    v_x_further: Annotated[Floats, given("V_u,x, transient and earthquake", "lbf", clause=TRANSIENT_COMBINED)]
    v_x_further_e: Annotated[Floats, given("V_u,x,E, of it earthquake", "lbf", clause=EARTHQUAKE_SHEAR)]
    v_y_dead: Annotated[Floats, given("V_y, dead", "lbf")]
    v_y_contents: Annotated[Floats, given("V_y, contents", "lbf")]
    v_y_live: Annotated[Floats, given("V_y, live", "lbf")]
    v_y_factored: Annotated[Floats, given("V_y, factored as given, without earthquake", "lbf")]
    v_y_further: Annotated[Floats, given("V_u,y, transient and earthquake", "lbf", clause=TRANSIENT_COMBINED)]
    v_y_further_e: Annotated[Floats, given("V_u,y,E, of it earthquake", "lbf", clause=EARTHQUAKE_SHEAR)]
    as_combined: Annotated[Bools, given("contents act as combined", clause=COMBINED)]
    gamma_dead: Annotated[Floats, given("γ of dead load", clause=COMBINED)]
    gamma_contents: Annotated[Floats, given("γ of contents", clause=COMBINED)]
    vertical_contents: Annotated[Floats, given("E_v of contents by contents", clause=VERTICAL_EARTHQUAKE)]
    gamma_live: Annotated[Floats, given("γ of live load", clause=COMBINED)]
    v_x_empty: Annotated[
        Floats,
        formula(
            "V_x without contents",
            "lbf",
            "gamma_dead * v_x_dead + gamma_live * v_x_live + v_x_factored + v_x_further",
            clause=COMBINED,
        ),
    ]
    v_y_empty: Annotated[
        Floats,
        formula(
            "V_y without contents",
            "lbf",
            "gamma_dead * v_y_dead + gamma_live * v_y_live + v_y_factored + v_y_further",
            clause=COMBINED,
        ),
    ]
    v_x_full: Annotated[
        Floats,
        formula(
            "V_x with contents",
            "lbf",
            "v_x_empty + (gamma_contents + vertical_contents) * v_x_contents",
            clause=COMBINED,
        ),
    ]
    v_y_full: Annotated[
        Floats,
        formula(
            "V_y with contents",
            "lbf",
            "v_y_empty + (gamma_contents + vertical_contents) * v_y_contents",
            clause=COMBINED,
        ),
    ]
    v_ua_x: Annotated[
        Floats,
        formula(
            "V_ua,x",
            "lbf",
            "where(as_combined, v_x_full,"
            " where(max(v_x_full, -v_x_full) > max(v_x_empty, -v_x_empty), v_x_full, v_x_empty))",
            clause=COMBINED,
        ),
    ]
    v_ua_y: Annotated[
        Floats,
        formula(
            "V_ua,y",
            "lbf",
            "where(as_combined, v_y_full,"
            " where(max(v_y_full, -v_y_full) > max(v_y_empty, -v_y_empty), v_y_full, v_y_empty))",
            clause=COMBINED,
        ),
    ]
    either_x: Annotated[
        Bools,
        formula(
            "either way along x",
            "",
            "where(as_combined, 0, (v_x_full > 0) * (v_x_empty < 0) + (v_x_full < 0) * (v_x_empty > 0)) == 1",
            clause=COMBINED,
        ),
    ]
    either_y: Annotated[
        Bools,
        formula(
            "either way along y",
            "",
            "where(as_combined, 0, (v_y_full > 0) * (v_y_empty < 0) + (v_y_full < 0) * (v_y_empty > 0)) == 1",
            clause=COMBINED,
        ),
    ]
    v_ua: Annotated[Floats, formula("V_ua", "lbf", "sqrt(v_ua_x**2 + v_ua_y**2)", clause=SHEAR_OF_COMPONENTS)]
    v_x_quake: Annotated[Floats, formula("E of V_ua,x", "lbf", _QUAKE.format(v="v_x"), clause=EARTHQUAKE_SHEAR)]
    v_y_quake: Annotated[Floats, formula("E of V_ua,y", "lbf", _QUAKE.format(v="v_y"), clause=EARTHQUAKE_SHEAR)]
    v_ua_e: Annotated[Floats, formula("V_ua,E", "lbf", "sqrt(v_x_quake**2 + v_y_quake**2)", clause=EARTHQUAKE_SHEAR)]


def anchor_shear(
    *,
    v_dead: Floats,
    v_contents: Floats,
    v_live: Floats,
    v_factored: Floats,
    v_further: Floats,
    v_further_e: Floats,
    as_combined: Bools,
    vertical_contents: Floats,
    gamma: Factors,
) -> AnchorShear:
    """Factored shear of every case, of an empty or a full pipe along each axis.

    Args:
        v_dead, v_contents, v_live: (cases, 2) service shears along x and y, lbf.
        v_factored: (cases, 2) factored shear as given without earthquake, lbf.
        v_further, v_further_e: (cases, 2) factored shear of transient loads and earthquake, and of the latter,
            lbf.
        as_combined: (cases,) contents count as the load case has them.
        vertical_contents: (cases,) vertical effect of earthquake on contents, by them; 0 where ``v_further`` has it.
        gamma: load factors of the same cases; ``v_factored`` is 0 in those of loads by nature.
    """
    of_case: dict[str, Any] = {
        "as_combined": as_combined,
        "gamma_dead": gamma.dead,
        "gamma_contents": gamma.contents,
        "vertical_contents": vertical_contents,
        "gamma_live": gamma.live,
    }
    if not any(some(v) for v in (v_dead, v_contents, v_live, v_factored, v_further)):
        zero, never = np.zeros(len(v_factored)), np.zeros(len(v_factored), dtype=np.bool_)
        return AnchorShear(
            **dict.fromkeys(_SHEARS, zero),
            **of_case,
            either_x=never,
            either_y=never,
        )
    empty = gamma.dead[:, None] * v_dead + gamma.live[:, None] * v_live + v_factored + v_further
    full = empty + (gamma.contents + vertical_contents)[:, None] * v_contents
    (v_x_empty, v_y_empty), (v_x_full, v_y_full) = empty.T.copy(), full.T.copy()
    larger = np.abs(full) > np.abs(empty)
    v_ua_x, v_ua_y = np.where(as_combined[:, None] | larger, full, empty).T.copy()
    either_x, either_y = (_turned(full, empty) & ~as_combined[:, None]).T.copy()
    filled = np.where(larger, vertical_contents[:, None], 0.0)
    quake = v_further_e + filled * v_contents
    return AnchorShear(
        v_x_dead=v_dead[:, 0],
        v_x_contents=v_contents[:, 0],
        v_x_live=v_live[:, 0],
        v_x_factored=v_factored[:, 0],
        v_x_further=v_further[:, 0],
        v_x_further_e=v_further_e[:, 0],
        v_y_dead=v_dead[:, 1],
        v_y_contents=v_contents[:, 1],
        v_y_live=v_live[:, 1],
        v_y_factored=v_factored[:, 1],
        v_y_further=v_further[:, 1],
        v_y_further_e=v_further_e[:, 1],
        **of_case,
        v_x_empty=v_x_empty,
        v_y_empty=v_y_empty,
        v_x_full=v_x_full,
        v_y_full=v_y_full,
        v_ua_x=v_ua_x,
        v_ua_y=v_ua_y,
        either_x=either_x,
        either_y=either_y,
        v_ua=np.sqrt(v_ua_x**2 + v_ua_y**2),
        v_x_quake=quake[:, 0].copy(),
        v_y_quake=quake[:, 1].copy(),
        v_ua_e=_length(quake),
    )


_SHEARS = tuple(name for name in columns(AnchorShear) if name.startswith("v_"))


def _length(v: Floats) -> Floats:
    return np.sqrt(v[:, 0] ** 2 + v[:, 1] ** 2)


def _turned(full: Floats, empty: Floats) -> Bools:
    """Whether the contents turn the shear its way around."""
    return ((full > 0) & (empty < 0)) | ((full < 0) & (empty > 0))
