"""Places of a row of a CSV in its item and back: dotted paths, and lists whose cells may leave places empty."""

from collections.abc import Mapping, Sequence
from typing import Any, cast

Gaps = Mapping[str, Sequence[int]]
"""Of each list of an item with empty places before others: by its path, the place in the CSV of each entry."""


def put(item: dict[str, Any], parents: Sequence[str], name: str, value: Any) -> None:
    """Set a value under its name within objects, each under its own name in the one before."""
    place = item
    for part in parents:
        place = place.setdefault(part, {})
    place[name] = value


def with_lists(value: Any) -> tuple[Any, Gaps]:
    """Objects whose keys are places as lists, in the order of the places without the empty ones; and those left out."""
    gaps: dict[str, Sequence[int]] = {}
    return _listed(value, "", gaps), gaps


def column_at(path: str, gaps: Gaps) -> str:
    """The dotted path of the column that a path of an item with ``/`` between its parts came from."""
    item = column = ""
    for part in path.split("/"):
        known = gaps.get(item)
        own = str(known[int(part)]) if known is not None and part.isdigit() and int(part) < len(known) else part
        item, column = (f"{item}/{part}", f"{column}.{own}") if item else (part, own)
    return column


def _listed(value: Any, path: str, gaps: dict[str, Sequence[int]]) -> Any:
    if not isinstance(value, dict):
        return value
    members = cast(dict[str, Any], value)
    if not members or not all(key.isdigit() for key in members):
        return {key: _listed(inner, f"{path}/{key}" if path else key, gaps) for key, inner in members.items()}
    places = sorted(map(int, members))
    if places != list(range(len(places))):
        gaps[path] = places
    return [_listed(members[str(place)], f"{path}/{at}", gaps) for at, place in enumerate(places)]
