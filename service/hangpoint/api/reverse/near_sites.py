"""The neighbours that a request states beside its item: points of one member, each with its place."""

from collections.abc import Mapping
from typing import Any

from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.reverse.asked import Asked, invalid, unanswerable
from hangpoint.api.reverse.changes import put
from hangpoint.api.reverse.probes import packed_probes
from hangpoint.core.hang_point.points import SIDE
from hangpoint.pack.labels import one_name
from hangpoint.pack.members import member_flaws
from hangpoint.pack.objects import value_at


def neighbours_of(asked: Asked) -> list[Mapping[str, Any]]:
    """The neighbours of the request.

    Raises:
        ProblemError: one can't be checked, has no place, or is not of the member of the item and of its face.
    """
    neighbours: list[Mapping[str, Any]] = asked.body.get("neighbours", [])
    if not neighbours:
        return []
    _placed(asked.item, "#/item")
    refuse_side_face(asked)
    probes = packed_probes(neighbours, asked.situation)
    valid = {row: at for at, row in enumerate(probes.packed.index)}
    faces = probes.packed.points.bases.face
    for row, own in enumerate(neighbours):
        place = pointer("neighbours", row)
        if row not in valid:
            raise invalid(probes.outcome(row), place)
        _placed(own, place)
        _of_member(asked.item, own, place)
        if faces[valid[row]] != _face(asked):
            raise unanswerable(f"{place}/base/face", "A neighbour is set in the same face of the member as the item.")
    _alike(asked, neighbours)
    return neighbours


def refuse_side_face(asked: Asked) -> None:
    """Refuse neighbours of a point in a side face: coordinates are of the plan, so that nobody compares points there.

    Raises:
        ProblemError: the item is set in a side face.
    """
    if _face(asked) == SIDE:
        raise unanswerable(
            "#/item/base/face",
            "Points in a side face are not compared with each other: state anchors that stand near as one layout.",
        )


def _face(asked: Asked) -> int:
    return int(asked.own.packed.points.bases.face[0])


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
