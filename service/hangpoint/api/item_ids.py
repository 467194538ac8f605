"""Ids of the items of a batch: every item has its own, so that an answer can't be taken for another's."""

from collections import Counter
from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.api.bodies import Batch
from hangpoint.api.invalid_items import item_pointer
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.core.quantity import Bools
from hangpoint.pack.objects import value_at


def item_ids(batch: Batch) -> Sequence[Any]:
    """The id of every item, None where there is none; only an item with errors may lack it."""
    ids: list[Any] = [None] * len(batch.items)
    for objects in batch.columns:
        for row, own in zip(objects.rows, objects.stated("id"), strict=True):
            ids[row] = own
    for row in batch.not_in_columns():
        ids[row] = value_at(batch.items[row], "id")
    return ids


def refuse_duplicates(ids: Sequence[Any], batch: Batch) -> None:
    """Refuse a batch in which an id is repeated.

    Raises:
        ProblemError: with the place of each repeated id.
    """
    known = [each for each in ids if isinstance(each, str)]
    if len(set(known)) == len(known):
        return
    first: dict[str, int] = {}
    errors: list[FieldError] = []
    for row, each in enumerate(ids):
        if not isinstance(each, str):
            continue
        if each in first:
            error = FieldError(
                pointer=item_pointer(batch, row, "id"),
                code="duplicate-id",
                detail=f"The same id stands {_where(batch, first[each])}.",
                line=batch.lines[row] if batch.lines else None,
            )
            errors.append(error if batch.source is None else batch.source.quoted(error, row))
        else:
            first[each] = row
    raise ProblemError("duplicate-id", f"{len(errors)} of the items repeat an id.", errors=errors)


def alike(ids: Sequence[Any]) -> Bools:
    """Which ids differ from another in capitals or spaces only: (items,)."""
    names = [each.casefold().replace(" ", "") if isinstance(each, str) else None for each in ids]
    if len(set(names)) == len(names):
        return np.zeros(len(names), dtype=np.bool_)
    times = Counter(names)
    return np.array([each is not None and times[each] > 1 for each in names], dtype=np.bool_)


def _where(batch: Batch, row: int) -> str:
    """Where the id of an item stands, in words."""
    place = item_pointer(batch, row, "id")
    return f"on line {batch.lines[row]} ({place})" if batch.lines else f"at {place}"
