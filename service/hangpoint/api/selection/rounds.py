"""A job planned, checked together with its neighbours, and planned anew where points don't hold beside what is near.

Each round takes from such a point the products that are neither stronger there alone nor deeper than the one it had, or
that are no thinner where not the strength is lacking but a distance. That round counts which leaves the fewest points
wanting, the first of such. There are no more once every point holds, nothing is left to take, or `IDLE` rounds were no
better than one before.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from time import monotonic
from typing import Any

import numpy as np
import orjson

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.selection.opened import Opened
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.selection import job
from hangpoint.core.selection.curve import JobPlan, plan_job
from hangpoint.pack.selection.plan import NONE
from hangpoint.product.catalogue import Catalogue

CURVE = 5
"""Products that the list of savings ends at where the request doesn't say."""

SECONDS = 60.0
"""Time limit of all solutions of a job. Beyond it there is no plan: one by then would be another at another time."""

IDLE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A plan and its check with neighbours: ``candidate`` (points,) of it, ``checked`` the answer, None without a plan.

    ``used`` is what anchor and base of each planned point are used to, by its place, with loads that are checked apart;
    ``lacking`` are the places of the points that don't pass, ``spent`` of those that pass with less in reserve than
    wanted.
    """

    made: JobPlan
    candidate: Index
    checked: Mapping[str, Any] | None
    used: Mapping[int, float]
    lacking: Sequence[int]
    spent: Sequence[int]

    @property
    def wanting(self) -> tuple[int, int]:
        """Points that don't pass, then those without their reserve."""
        return len(self.lacking), len(self.spent)


def rounds(opened: Opened, *, anchors: Floats, catalogue: Catalogue) -> tuple[Round, Round]:
    """The plan made without a look at neighbours, and the one that counts.

    Args:
        opened: the request.
        anchors: (points,) of each point.
        catalogue: the products.
    """
    until = monotonic() + SECONDS
    holds: Bools | None = opened.chosen.choice.holds[opened.situation]
    first = best = _round(opened, holds, anchors=anchors, catalogue=catalogue, until=until)
    own, idle = first, 0
    while idle < IDLE:
        holds = _narrowed(opened, holds, own)
        if holds is None:
            break
        own = _round(opened, holds, anchors=anchors, catalogue=catalogue, until=until)
        if own.checked is None:
            break
        best, idle = (own, 0) if own.wanting < best.wanting else (best, idle + 1)
    return first, best


def most_used(opened: Opened) -> float:
    """What an anchor and its base may be used to, the wanted reserve kept."""
    return EXCEEDED - opened.chosen.wishes.reserve


def _used(result: Mapping[str, Any]) -> float:
    """The largest use of anchor and base by the modes; a rod, which is not chosen, keeps no reserve."""
    modes = result.get("modes", ())
    return max(
        (own["utilisation"] for own in modes if own["applies"] and not own["mode"].startswith("rod_")), default=0.0
    )


def _round(opened: Opened, holds: Bools, *, anchors: Floats, catalogue: Catalogue, until: float) -> Round:
    made = plan_job(
        holds,
        anchors=anchors,
        candidates=opened.chosen.shelf.columns,
        wishes=opened.chosen.wishes,
        limits=job.Limits(**opened.batch.limits),
        most=opened.batch.most_products or CURVE,
        seconds=until - monotonic(),
    )
    candidate = np.full(len(holds), NONE, dtype=np.intp) if made.plan is None else made.plan.candidate
    checked, apart = _checked(opened, candidate, catalogue)
    results = _by_place(candidate, checked)
    used = {at: max(_used(own), apart.get(row, 0.0)) for row, (at, own) in enumerate(results.items())}
    most = most_used(opened)
    return Round(
        made=made,
        candidate=candidate,
        checked=checked,
        used=used,
        lacking=[at for at, own in results.items() if own["status"] != "passed"],
        spent=[at for at, own in results.items() if own["status"] == "passed" and used[at] > most],
    )


def _checked(opened: Opened, candidate: Index, catalogue: Catalogue) -> tuple[dict[str, Any] | None, dict[int, float]]:
    """The check of all points with their products, together with their neighbours unless the request says otherwise.

    With it comes what anchor and base of near points are used to by loads that are checked apart, by their row in it.
    """
    items = [opened.named(at, own) for at, own in enumerate(candidate.tolist()) if own != NONE]
    apart: dict[int, float] = {}
    if not items:
        return None, apart

    def take(rows: Sequence[int], together: Verdicts) -> None:
        if together.used_apart is not None:
            apart.update(zip(rows, together.used_apart.tolist(), strict=True))

    batch = opened.checked_batch(items, opened.batch.neighbours or "check")
    batch.detail = "modes"
    answer = answer_batch(batch, catalogue=catalogue, limits=Limits(), detail="modes", wire=True, on_near=take)
    return {**answer, "items": orjson.loads(orjson.dumps(answer["items"]))}, apart


def _by_place(candidate: Index, checked: Mapping[str, Any] | None) -> dict[int, Mapping[str, Any]]:
    """The results of the planned points by their places."""
    if checked is None:
        return {}
    places: list[int] = np.flatnonzero(candidate != NONE).tolist()
    return dict(zip(places, checked["items"], strict=True))


def _narrowed(opened: Opened, holds: Bools, own: Round) -> Bools | None:
    """(points, candidates) without what can't hold beside neighbours; None where nothing more can be taken away."""
    choice, columns = opened.chosen.choice, opened.chosen.shelf.columns
    most = most_used(opened)
    kept = holds.copy()
    for at in (*own.lacking, *own.spent):
        had, pair = own.candidate[at], choice.pair[opened.situation[at]]
        alone = np.where(pair == NONE, np.inf, choice.checks.utilisation[pair])
        better = (alone < alone[had]) | (columns.h_ef > columns.h_ef[had])
        rest = holds[at] & (better if own.used[at] > most else columns.d_a < columns.d_a[had])
        if rest.any():
            kept[at] = rest
    return kept if (kept != holds).any() else None
