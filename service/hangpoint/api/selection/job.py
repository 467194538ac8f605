"""The answer to a request for the products of a whole job."""

from collections.abc import Mapping
from typing import Any

import numpy as np
import orjson

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import read_items
from hangpoint.api.problems import too_many
from hangpoint.api.schemas.choices import MAX_JOB_POINTS
from hangpoint.api.schemas.job_selections import JobSelectionsRequest
from hangpoint.api.selection.opened import OpenBatch, Opened, head_json, open_batch, said
from hangpoint.core.hang_point.verdict import EXCEEDED
from hangpoint.core.quantity import Index
from hangpoint.core.selection import job
from hangpoint.core.selection.curve import JobPlan, plan_job
from hangpoint.pack.selection.answer import asides_json, governing_json, nearest_json
from hangpoint.pack.selection.plan import NONE, plan_json
from hangpoint.product.catalogue import Catalogue

CURVE = 5
"""Products that the list of savings ends at where the request doesn't say."""

SECONDS = 60.0
"""Time limit of all solutions of a job. Beyond it there is no plan: one by then would be another at another time."""


def run_job_selections(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body, choose the products of its points together, and check them with their neighbours.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch = read_items(JobSelectionsRequest, body, what="hang points", batch=OpenBatch)
    if len(batch.items) > MAX_JOB_POINTS:
        raise too_many("hang points", len(batch.items), MAX_JOB_POINTS)
    opened = open_batch(batch, catalogue)
    points = opened.packed.points
    anchors = np.bincount(points.layouts.point, minlength=points.count).astype(np.float64)
    made = plan_job(
        opened.chosen.choice.holds[opened.situation],
        anchors=anchors,
        candidates=opened.chosen.shelf.columns,
        wishes=opened.chosen.wishes,
        limits=job.Limits(**batch.limits),
        most=batch.most_products or CURVE,
        seconds=SECONDS,
    )
    candidate = np.full(points.count, NONE, dtype=np.intp) if made.plan is None else made.plan.candidate
    checked = _recheck(opened, candidate, catalogue)
    most = EXCEEDED - opened.chosen.wishes.reserve
    items = _items(opened, made, candidate, checked, most)
    return {
        **head_json(opened, catalogue, objective=opened.chosen.wishes.objective, what="job-selections"),
        "summary": _summary(opened, items),
        "plan": plan_json(opened.chosen, made, anchors),
        **({"recheck": _recheck_json(checked, most)} if checked else {}),
        **said(opened, checked),
        "items": items,
    }


def _recheck(opened: Opened, candidate: Index, catalogue: Catalogue) -> dict[str, Any] | None:
    """The check of all points with their products, together with their neighbours unless the request says otherwise."""
    items = [opened.named(at, own) for at, own in enumerate(candidate.tolist()) if own != NONE]
    if not items:
        return None
    batch = opened.checked_batch(items, opened.batch.neighbours or "check")
    batch.detail = "modes"
    answer = answer_batch(batch, catalogue=catalogue, limits=Limits(), detail="modes", wire=True)
    return {**answer, "items": orjson.loads(orjson.dumps(answer["items"]))}


def _recheck_json(checked: Mapping[str, Any], most: float) -> dict[str, Any]:
    lacking = [own["id"] for own in checked["items"] if own["status"] != "passed"]
    spent = [own["id"] for own in checked["items"] if own["status"] == "passed" and _used(own) > most]
    said = [
        f"{len(own)} of the points {what} together with what is near them: move them apart or take another product"
        " there, and check them by /v1/hang-points."
        for own, what in ((lacking, "hold alone but not"), (spent, "keep the wanted reserve alone but not"))
        if own
    ]
    text = " ".join(said) or "Every point passes with its product and its neighbours, and keeps the wanted reserve."
    return {"summary": checked["summary"], "not_passed": lacking, "reserve_not_kept": spent, "text": text}


def _used(result: Mapping[str, Any]) -> float:
    """The largest use of anchor and base; a rod, which is not chosen, keeps no reserve."""
    modes = result.get("modes", ())
    return max(
        (own["utilisation"] for own in modes if own["applies"] and not own["mode"].startswith("rod_")), default=0.0
    )


def _items(
    opened: Opened, made: JobPlan, candidate: Index, checked: Mapping[str, Any] | None, most: float
) -> list[dict[str, Any]]:
    together = {own["id"]: own for own in (checked or {}).get("items", ())}
    held = opened.chosen.choice.holds.sum(axis=1)
    by_row: dict[int, dict[str, Any]] = dict(opened.invalid)
    for at, (row, situation, own) in enumerate(
        zip(opened.packed.index, opened.situation.tolist(), candidate.tolist(), strict=True)
    ):
        point: dict[str, Any] = {"id": opened.ids[row], "index": row, "candidates": int(held[situation])}
        if own != NONE:
            recheck = _point_check(together[point["id"]], most)
            point |= {"status": "held", **_planned(opened, at, own), "recheck": recheck}
        elif held[situation]:
            point |= {"status": "not_planned"}
        else:
            nearest = nearest_json(opened.chosen, situation, opened.changes.get(situation))
            point |= {"status": "not_held", "nearest": nearest}
        by_row[row] = point
    return [by_row[row] for row in range(len(opened.batch.items))]


def _planned(opened: Opened, at: int, candidate: int) -> dict[str, Any]:
    choice, label = opened.chosen.choice, opened.chosen.shelf.labels[candidate]
    pair = int(choice.pair[opened.situation[at], candidate])
    return {
        "product": label.address,
        "anchor": label.anchor,
        "utilisation": float(choice.checks.utilisation[pair]),
        "governing": governing_json(opened.chosen, pair),
        **asides_json(opened.chosen, pair),
    }


def _point_check(result: Mapping[str, Any], most: float) -> dict[str, Any]:
    near = result.get("neighbours", {})
    made: dict[str, Any] = {
        "status": result["status"],
        "near": [*near.get("together", ()), *near.get("unlike", ()), *near.get("by_spacing", ())],
    }
    governing = result.get("governing")
    if governing:
        made |= {"utilisation": governing["utilisation"], "text": governing["text"]}
        made["reserve_kept"] = result["status"] == "passed" and _used(result) <= most
    return made


def _summary(opened: Opened, items: list[dict[str, Any]]) -> dict[str, int]:
    statuses = [own["status"] for own in items]
    counted = {name: statuses.count(name) for name in ("held", "not_held", "not_planned", "invalid")}
    choice = opened.chosen.choice
    return {
        "total": len(items),
        **counted,
        "situations": choice.points.count,
        "checks": len(choice.checks.mode),
    }
