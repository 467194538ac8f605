"""The neighbours that a request states beside its item: points of one member, each with its place."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.reverse.asked import Asked, invalid, unanswerable
from hangpoint.api.reverse.changes import put
from hangpoint.api.reverse.probes import packed_probes
from hangpoint.core.hang_point.points import SIDE
from hangpoint.core.quantity import Bools
from hangpoint.pack.labels import Labels, one_name
from hangpoint.pack.members import member_flaws
from hangpoint.pack.objects import value_at
from hangpoint.pack.places import INCHES, side_planes


def neighbours_of(asked: Asked) -> list[Mapping[str, Any]]:
    """The neighbours of the request.

    Raises:
        ProblemError: one can't be checked, has no place, or is not of the member of the item and of its face.
    """
    neighbours: list[Mapping[str, Any]] = asked.body.get("neighbours", [])
    if not neighbours:
        return []
    _placed(asked.item, "#/item")
    refuse_unknown_face(asked)
    probes = packed_probes(neighbours, asked.situation)
    valid = {row: at for at, row in enumerate(probes.packed.index)}
    faces = probes.packed.points.bases.face
    same = _in_one_plane(asked.own.packed.labels, probes.packed.labels)
    for row, own in enumerate(neighbours):
        place = pointer("neighbours", row)
        if row not in valid:
            raise invalid(probes.outcome(row), place)
        _placed(own, place)
        _of_member(asked.item, own, place)
        if faces[valid[row]] != _face(asked):
            raise unanswerable(f"{place}/base/face", "A neighbour is set in the same face of the member as the item.")
        if _face(asked) == SIDE and not same[valid[row]]:
            raise unanswerable(
                f"{place}/base/facing",
                "A neighbour in a side face states z, looks the same way as the item and stands in its plane.",
            )
    _alike(asked, neighbours)
    return neighbours


def refuse_unknown_face(asked: Asked) -> None:
    """Refuse neighbours of a point in a side face of which it isn't known where it is.

    Raises:
        ProblemError: the item is set in such a face.
    """
    if _face(asked) != SIDE:
        return
    for path in (("base", "facing"), ("at", "z")):
        if value_at(asked.item, *path) is None:
            raise unanswerable(
                f"#/item/{'/'.join(path)}",
                "Points in a side face are compared by z and by which way it looks; without them state anchors that"
                " stand near as one layout.",
                code="missing",
            )


def _in_one_plane(item: Labels, others: Labels) -> Bools:
    """(others,) in the plane of the side face that the item is set in."""
    facing, x, y, z = (
        np.concatenate((getattr(item, name)[:1], getattr(others, name))) for name in ("facing", "x", "y", "z")
    )
    plane = side_planes(facing=facing, x=x * INCHES, y=y * INCHES, z=z * INCHES)
    return (plane[1:] == plane[0]) & (plane[1:] >= 0)


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
