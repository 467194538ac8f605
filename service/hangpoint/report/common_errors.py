"""Errors that many invalid hang points have alike, as a unit left out of whole columns: told once for all of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.core.vocabulary import Status

Result = Mapping[str, Any]

MANY = 5
"""Points from which an error is told once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonError:
    """The first of such errors, and the columns or fields and the points that have it, in order."""

    error: Result
    fields: Sequence[str]
    points: Sequence[str]


class CommonErrors:
    """What `MANY` of the invalid items of an answer have alike: what is wrong with one column, whatever its cells."""

    def __init__(self, items: Sequence[Result]) -> None:
        found: dict[object, tuple[Result, dict[int, str]]] = {}
        for at, item in enumerate(items):
            if item["status"] == Status.INVALID:
                name = "(no id)" if item["id"] is None else str(item["id"])
                for error in item["problem"]["errors"]:
                    found.setdefault(_kind(error), (error, {}))[1][at] = name
        self._found = {kind: own for kind, own in found.items() if len(own[1]) >= MANY}

    def __bool__(self) -> bool:
        return bool(self._found)

    def told(self) -> list[CommonError]:
        """Each of them; what is wrong with several columns of the same points is one."""
        alike: dict[object, list[tuple[Result, dict[int, str]]]] = {}
        for error, points in self._found.values():
            alike.setdefault((_what(error), tuple(points)), []).append((error, points))
        return [
            CommonError(
                error=own[0][0],
                fields=[name for error, _ in own if (name := _field(error))],
                points=list(own[0][1].values()),
            )
            for own in alike.values()
        ]

    def others(self, errors: Sequence[Result]) -> list[Result]:
        """Those of the errors of an item that are not among them."""
        return [error for error in errors if _kind(error) not in self._found]


def _kind(error: Result) -> object:
    return _field(error), _what(error)


def _what(error: Result) -> object:
    return error["detail"], tuple(error.get("allowed", ()))


def _field(error: Result) -> str:
    """The title of the column, or the field by its place in the item."""
    return error.get("column") or ".".join(str(error["pointer"]).removeprefix("#/").split("/")[2:])
