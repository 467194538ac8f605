"""What is right in a row of a CSV with wrong cells, so that all that is wrong with it is told at once.

Rows whose wrong cells are quantities alone are read once more without these. What is then found has no part in what
these cells, or cells that go with them, would have said.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import Any, cast

from hangpoint.api.problems import FieldError, pointer
from hangpoint.pack.flaws import Flaw

_OF_QUANTITIES = frozenset({"quantity", "missing", "date", "empty-place"})
_TOGETHER = ("hangs", "rod", "anchor")
"""Members whose places ask for each other, as a wall in place of a schedule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """The item of a row without its wrong cells, and the places that these have in it."""

    item: Mapping[str, Any]
    left_out: Sequence[str]

    def concerns(self, flaw: Flaw) -> bool:
        """Whether a flaw of the rest stands, whatever the wrong cells would have said."""
        return not flaw.from_defaults and not any(_joined(flaw.path, place) for place in self.left_out)


def _joined(one: str, other: str) -> bool:
    top = one.partition("/")[0]
    if top in _TOGETHER and top == other.partition("/")[0]:
        return True
    return f"{one}/".startswith(f"{other}/") or f"{other}/".startswith(f"{one}/")


def rests_of(
    items: Sequence[Any],
    errors: Mapping[int, Sequence[FieldError]],
    check: Callable[[Sequence[Any]], Collection[int]],
) -> dict[int, Rest]:
    """The rests of items by row, as far as they are valid.

    Args:
        items: of all rows.
        errors: of rows without empty places in their lists, at their columns.
        check: tells which of some items are not valid.
    """
    made = {row: _rest_of(items[row], row, own) for row, own in errors.items()}
    found = {row: rest for row, rest in made.items() if rest is not None}
    bad: Collection[int] = check([rest.item for rest in found.values()]) if found else ()
    return {row: rest for at, (row, rest) in enumerate(found.items()) if at not in bad}


def _rest_of(item: Mapping[str, Any], row: int, errors: Sequence[FieldError]) -> Rest | None:
    """The rest of an item; None where something else than quantities is wrong, or where they stand in none."""
    if any(error.code not in _OF_QUANTITIES for error in errors):
        return None
    inside = pointer("rows", row + 1, "")
    made: dict[str, Any] = deepcopy(dict(item))
    places: list[str] = []
    for error in errors:
        parts = error.pointer.removeprefix(inside).split(".")
        if error.code == "missing" and parts[1:] == ["kind"] and "kind" not in made.get(parts[0], {"kind": ""}):
            parts.pop()
        place = _taken_out(made, parts)
        if place is None:
            return None
        places.append(place)
    return Rest(item=made, left_out=places)


def _taken_out(item: dict[str, Any], parts: Sequence[str]) -> str | None:
    """Take a place out of an item, of an entry of a list the list; its path there, None where it has none."""
    place: Any = item
    last: tuple[dict[str, Any], int] | None = None
    for at, part in enumerate(parts):
        if isinstance(place, dict) and part in place:
            own = cast(dict[str, Any], place)
            last, place = (own, at), own[part]
        elif isinstance(place, list) and part.isdigit() and int(part) < len(cast(list[Any], place)):
            place = cast(list[Any], place)[int(part)]
        else:
            return None
    if last is None or not all(map(str.isdigit, parts[last[1] + 1 :])):
        return None
    inner, at = last
    del inner[parts[at]]
    return "/".join(parts[: at + 1])
