"""The neighbours that a request states beside its item: points of one member, each with its place."""

from collections.abc import Mapping
from typing import Any

from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.reverse.asked import Asked, invalid, unanswerable
from hangpoint.api.reverse.changes import put
from hangpoint.api.reverse.probes import packed_probes
from hangpoint.pack.labels import one_name
from hangpoint.pack.members import member_flaws
from hangpoint.pack.objects import value_at


def neighbours_of(asked: Asked) -> list[Mapping[str, Any]]:
    """The neighbours of the request.

    Raises:
        ProblemError: one can't be checked, has no place, or is not of the member of the item.
    """
    neighbours: list[Mapping[str, Any]] = asked.body.get("neighbours", [])
    if not neighbours:
        return []
    _placed(asked.item, "#/item")
    probes = packed_probes(neighbours, asked.situation)
    valid = set(probes.packed.index)
    for row, own in enumerate(neighbours):
        place = pointer("neighbours", row)
        if row not in valid:
            raise invalid(probes.outcome(row), place)
        _placed(own, place)
        _of_member(asked.item, own, place)
    _alike(asked, neighbours)
    return neighbours


def _placed(item: Mapping[str, Any], place: str) -> None:
    for name in ("x", "y"):
        if value_at(item, "at", name) is None:
            raise unanswerable(f"{place}/at/{name}", "A point with neighbours needs its coordinates.", code="missing")


def _of_member(item: Mapping[str, Any], own: Mapping[str, Any], place: str) -> None:
    for path in (("base", "member"), ("at", "level")):
        mine, theirs = value_at(item, *path), value_at(own, *path)
        if mine is not None and theirs is not None and one_name(mine) != one_name(theirs):
            raise unanswerable(f"{place}/{'/'.join(path)}", "A neighbour is a point of the same member as the item.")


def _alike(asked: Asked, neighbours: list[Mapping[str, Any]]) -> None:
    """Points of one member state one thickness and one strength."""
    items = [put(each, ("base", "member"), "member") for each in (asked.item, *neighbours)]
    flaws = member_flaws(items, default={}, index=range(len(items)), system=asked.system)
    errors = [
        FieldError(pointer=pointer("neighbours", row - 1, *flaw.path.split("/")), code=flaw.code, detail=flaw.detail)
        for row, found in sorted(flaws.by_row.items())
        if row
        for flaw in found
    ]
    if errors:
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
