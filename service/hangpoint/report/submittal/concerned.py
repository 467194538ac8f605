"""Which points something concerns, as it stands on paper: by their ids, or by their numbers where there are many."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hangpoint.core.vocabulary import Status

_MOST_IDS = 20
"""Ids that are written out."""


class Concerned:
    """The points of a submittal by their ids."""

    def __init__(self, answer: Mapping[str, Any]) -> None:
        """``answer`` is that of the submittal."""
        self._number = {row["id"]: row["number"] for row in answer["schedule"] if row["status"] != "invalid"}

    def text(self, ids: Sequence[str]) -> str:
        """All points, some by id, or many by their numbers in the schedule; the request as a whole where none is."""
        if not ids:
            return "the request as a whole"
        if len(ids) == len(self._number) > 1:
            return f"all {len(ids)} points that could be read"
        if len(ids) <= _MOST_IDS:
            return ", ".join(ids)
        numbers = sorted(self._number[each] for each in ids)
        return f"{len(ids)} points, by their numbers in the schedule: {', '.join(_ranges(numbers))}"


def failing_without_sheet(answer: Mapping[str, Any]) -> list[str]:
    """Ids of the points that fail and have no calculation sheet in the submittal, in order."""
    left = set(answer["calculation_sheets"]["left_out"])
    return [each["id"] for each in answer["items"] if each["status"] == Status.FAILED and each["id"] in left]


def _ranges(numbers: Sequence[int]) -> Iterator[str]:
    """Rising numbers, runs of three and more by their ends."""
    start = 0
    for at in range(1, len(numbers) + 1):
        if at < len(numbers) and numbers[at] == numbers[at - 1] + 1:
            continue
        run = numbers[start:at]
        yield from (f"{run[0]}–{run[-1]}",) if len(run) > 2 else map(str, run)
        start = at
