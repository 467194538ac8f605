"""What a request states of a hang point, a line a field, as it was stated."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

Object = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """One field: its place with dots between, its value in words, and whether it is a default of the request."""

    place: str
    text: str
    is_default: bool


def stated(item: Object, merged: Object) -> list[Stated]:
    """The fields of an item with the defaults of the request behind it.

    Args:
        item: as it was stated.
        merged: the same with the defaults.
    """
    own = {place for place, _ in _leaves(item, "")}
    return [
        Stated(place=place, text=text, is_default=place not in own)
        for place, text in _leaves(merged, "")
        if place != "id"
    ]


def _leaves(value: Any, place: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        for name, own in cast(Object, value).items():
            yield from _leaves(own, f"{place}.{name}" if place else name)
    elif isinstance(value, list) and any(isinstance(each, Mapping | list) for each in cast(list[Any], value)):
        for number, own in enumerate(cast(list[Any], value)):
            yield from _leaves(own, f"{place}.{number}")
    else:
        yield place, _text(value)


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(map(_text, cast(Sequence[Any], value)))
    return repr(value).removesuffix(".0") if isinstance(value, float) else str(value)
