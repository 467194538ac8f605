"""The plan of a job as JSON: its products with what they take, its bits, and what each further kind would save."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.quantity import Floats, Index
from hangpoint.core.selection.curve import CurvePoint, JobPlan
from hangpoint.core.selection.takes import takes
from hangpoint.pack.selection.answer import Chosen, needs_json, product_json

NONE = -1


def plan_json(chosen: Chosen, made: JobPlan, anchors: Floats, *, anew: int) -> dict[str, Any]:
    """What is planned.

    Args:
        chosen: the choice.
        made: the plan.
        anchors: (points,) of each point.
        anew: points that have another product than the least would be without their neighbours.
    """
    plan = made.plan
    in_lengths = chosen.wishes.objective == "drilled_depth"
    curve = _curve(made.curve, unit=chosen.length(1.0) if in_lengths else 1.0)
    whole: dict[str, Any] = {"products": [], "bits": [], "curve": curve}
    if made.fewest is not None:
        whole["fewest_products"] = made.fewest
    if plan is None:
        return _without_plan(made) | whole
    used = np.unique(plan.candidate[plan.candidate != NONE])
    if not len(used):
        text = "Nothing holds any of the points: see what would change it at each."
        return {"status": "nothing_held", "text": text, **whole}
    diameters = chosen.shelf.columns.hole_diameter[used]
    held = np.flatnonzero(plan.candidate != NONE)
    products = [_product(chosen, candidate, plan.candidate, anchors) for candidate in used.tolist()]
    return whole | {
        "status": "planned",
        "text": _planned_text(len(used), len(held), plan.gap, anew),
        "total": chosen.length(plan.cost) if in_lengths else plan.cost,
        "bound": chosen.length(plan.bound) if in_lengths else plan.bound,
        "gap": plan.gap,
        "totals": _totals(chosen, held, plan.candidate[held], anchors),
        "products": products,
        "bits": [chosen.length(own) for own in np.unique(diameters[diameters > 0]).tolist()],
    }


def _without_plan(made: JobPlan) -> dict[str, Any]:
    if made.timed_out:
        text = "No plan was found in time: raise the limits on products, bits or families, or send fewer points."
        return {"status": "timed_out", "text": text}
    if made.fewest is None:
        text = "No plan holds all points that can be held with so few bits or families: allow more of them."
        return {"status": "limits_too_tight", "text": text}
    text = f"So few products can't hold all points that can be held: {made.fewest} are needed within the others."
    return {"status": "limits_too_tight", "text": text}


def _planned_text(kinds: int, points: int, gap: float, anew: int) -> str:
    proof = "no plan takes less" if gap == 0 else f"a plan may take up to {gap:.2%} less"
    if anew:
        proof += f" with the products left at {anew} points beside neighbours, where not every mix of them was tried"
    return f"{kinds} {'product' if kinds == 1 else 'products'} for {points} points; {proof}."


def _product(chosen: Chosen, candidate: int, planned: Index, anchors: Floats) -> dict[str, Any]:
    points = np.flatnonzero(planned == candidate)
    label = chosen.shelf.labels[candidate]
    return {
        **product_json(label),
        **_totals(chosen, points, planned[points], anchors),
        "needs": needs_json(label, chosen),
    }


def _totals(chosen: Chosen, points: Index, candidates: Index, anchors: Floats) -> dict[str, Any]:
    own = chosen.shelf.columns
    taken = takes(
        anchors=anchors[points],
        cost_of_one=own.cost_index[candidates],
        minutes_of_one=own.minutes[candidates],
        hole_depth=own.hole_depth[candidates],
        utilisation=np.zeros(len(points)),
    )
    made: dict[str, Any] = {"points": len(points), "anchors": int(taken.anchors.sum())}
    for name, column in (("cost_index", taken.cost_index), ("minutes", taken.minutes)):
        total = float(column.sum())
        if np.isfinite(total):
            made[name] = round(total, 9)
    return made | {"drilled_depth": chosen.length(float(taken.drilled_depth.sum()))}


def _curve(curve: Sequence[CurvePoint], *, unit: float) -> list[dict[str, Any]]:
    """The curve, each entry with what it saves against the one before."""
    made: list[dict[str, Any]] = []
    for own in curve:
        entry: dict[str, Any] = {"products": own.products, "total": own.cost * unit, "gap": own.gap}
        if made:
            entry["saves"] = max(made[-1]["total"] - entry["total"], 0.0)
        made.append(entry)
    return made
