"""The answer to a request for the products of a whole job."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.api.bodies import read_items
from hangpoint.api.problems import too_many
from hangpoint.api.schemas.choices import MAX_JOB_POINTS
from hangpoint.api.schemas.job_selections import JobSelectionsRequest
from hangpoint.api.selection.opened import OpenBatch, Opened, head_json, open_batch, said
from hangpoint.api.selection.rounds import Round, most_used, rounds
from hangpoint.pack.selection.answer import asides_json, governing_json, nearest_json
from hangpoint.pack.selection.plan import NONE, plan_json
from hangpoint.product.catalogue import Catalogue


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
    first, taken = rounds(opened, anchors=anchors, catalogue=catalogue)
    anew: list[int] = np.flatnonzero(taken.candidate != first.candidate).tolist()
    items = _items(opened, taken)
    return {
        **head_json(opened, catalogue, objective=opened.chosen.wishes.objective, what="job-selections"),
        "summary": _summary(opened, items),
        "plan": plan_json(opened.chosen, taken.made, anchors, anew=len(anew)),
        **({"recheck": _recheck_json(opened, taken, taken.checked, anew)} if taken.checked else {}),
        **said(opened, taken.checked),
        "items": items,
    }


def _recheck_json(opened: Opened, taken: Round, checked: Mapping[str, Any], anew: Sequence[int]) -> dict[str, Any]:
    lacking, spent, others = (_ids(opened, places) for places in (taken.lacking, taken.spent, anew))
    said = [
        f"{len(own)} of the points {what} together with what is near them: move them apart or take another product"
        " there, and check them by /v1/hang-points."
        for own, what in ((lacking, "hold alone but not"), (spent, "keep the wanted reserve alone but not"))
        if own
    ]
    if others:
        said.append(f"{len(others)} of the points have another product than the least would be without neighbours.")
    if not (lacking or spent):
        said.insert(0, "Every point passes with its product and its neighbours, and keeps the wanted reserve.")
    return {
        "summary": checked["summary"],
        "not_passed": lacking,
        "reserve_not_kept": spent,
        "planned_anew": others,
        "text": " ".join(said),
    }


def _ids(opened: Opened, places: Sequence[int]) -> list[Any]:
    return [opened.ids[opened.packed.index[at]] for at in places]


def _items(opened: Opened, taken: Round) -> list[dict[str, Any]]:
    together = {own["id"]: own for own in (taken.checked or {}).get("items", ())}
    most = most_used(opened)
    held = opened.chosen.choice.holds.sum(axis=1)
    by_row: dict[int, dict[str, Any]] = dict(opened.invalid)
    for at, (row, situation, own) in enumerate(
        zip(opened.packed.index, opened.situation.tolist(), taken.candidate.tolist(), strict=True)
    ):
        point: dict[str, Any] = {"id": opened.ids[row], "index": row, "candidates": int(held[situation])}
        if own != NONE:
            recheck = _point_check(together[point["id"]], kept=taken.used[at] <= most)
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


def _point_check(result: Mapping[str, Any], *, kept: bool) -> dict[str, Any]:
    near = result.get("neighbours", {})
    made: dict[str, Any] = {
        "status": result["status"],
        "near": [*near.get("together", ()), *near.get("unlike", ()), *near.get("by_spacing", ())],
    }
    governing = result.get("governing")
    if governing:
        made |= {"utilisation": governing["utilisation"], "text": governing["text"]}
        made["reserve_kept"] = result["status"] == "passed" and kept
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
