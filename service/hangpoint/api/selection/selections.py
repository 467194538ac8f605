"""The answer to a request for the product of each of some points."""

from typing import Any

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import read_items
from hangpoint.api.problems import too_many
from hangpoint.api.schemas.choices import MAX_SELECTIONS
from hangpoint.api.schemas.selections import SelectionsRequest
from hangpoint.api.selection.opened import OpenBatch, Opened, head_json, open_batch, said, said_of
from hangpoint.pack.selection.answer import counts_json, nearest_json, ranked_candidates, rejected_candidates
from hangpoint.product.catalogue import Catalogue

RANKED = 5
"""Candidates listed where the request doesn't say how many."""


def run_selections(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body, and choose for every point of it.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch = read_items(SelectionsRequest, body, what="hang points", batch=OpenBatch)
    if len(batch.items) > MAX_SELECTIONS:
        raise too_many("hang points", len(batch.items), MAX_SELECTIONS)
    opened = open_batch(batch, catalogue)
    checked = _checks(opened, catalogue)
    by_row = {row: _result(opened, at) for at, row in enumerate(opened.packed.index)}
    rows = {own["id"]: row for row, own in by_row.items()}
    for own in (checked or {}).get("items", ()):
        row = rows[own["id"]]
        by_row[row]["check"] = {**own, "index": row}
    items = [opened.invalid.get(row) or by_row[row] for row in range(len(opened.batch.items))]
    statuses = [own["status"] for own in items]
    return {
        **head_json(opened, catalogue, objective=opened.chosen.wishes.objective, what="selections"),
        "summary": {
            "total": len(items),
            **{status: statuses.count(status) for status in ("held", "not_held", "invalid")},
        },
        **said(opened, checked, said_of(opened, _further(opened), catalogue)),
        "items": items,
    }


def _result(opened: Opened, at: int) -> dict[str, Any]:
    situation, row = int(opened.situation[at]), opened.packed.index[at]
    held = bool(opened.chosen.choice.holds[situation].any())
    made: dict[str, Any] = {
        "id": opened.ids[row],
        "index": row,
        "status": "held" if held else "not_held",
        "counts": counts_json(opened.chosen, situation),
        "ranked": ranked_candidates(opened.chosen, situation, opened.batch.most or RANKED),
        "rejected": rejected_candidates(opened.chosen, situation),
    }
    if not held:
        made["nearest"] = nearest_json(opened.chosen, situation, opened.changes.get(situation))
    return made


def _checks(opened: Opened, catalogue: Catalogue) -> dict[str, Any] | None:
    """The check of every point that is held with its first candidate, each point alone."""
    items = [
        opened.named(at, int(ranked[0]))
        for at, situation in enumerate(opened.situation.tolist())
        if len(ranked := opened.chosen.ranked(situation))
    ]
    if not items:
        return None
    batch = opened.checked_batch(items, "off")
    return answer_batch(batch, catalogue=catalogue, limits=Limits(), detail="verdict")


def _further(opened: Opened) -> list[dict[str, Any]]:
    """Every point with each candidate that is listed for it after the first."""
    most = opened.batch.most or RANKED
    return [
        opened.named(at, candidate)
        for at, situation in enumerate(opened.situation.tolist())
        for candidate in opened.chosen.ranked(situation)[1:most].tolist()
    ]
