"""Objects of JSON as a decoder makes them that knows their types."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from functools import cache
from typing import Any, cast

import msgspec

Object = Mapping[str, Any]
UNSET = msgspec.UNSET


class Decoded(msgspec.Struct, gc=False, eq=False, kw_only=True, forbid_unknown_fields=True):
    """An object of JSON as a decoder that knows its type makes it: a mapping that costs half of a dictionary.

    A name of the type stands in the field of `field_of`, with `UNSET` where the object does not state it.
    """

    def __getitem__(self, name: str) -> Any:
        value = getattr(self, field_of(name), UNSET)
        if value is UNSET:
            raise KeyError(name)
        return value

    def __iter__(self) -> Iterator[str]:
        return (name for name in readers(type(self)) if getattr(self, field_of(name)) is not UNSET)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    get = Mapping[str, Any].get
    keys = Mapping[str, Any].keys
    items = Mapping[str, Any].items
    values = Mapping[str, Any].values
    __contains__ = Mapping[str, Any].__contains__
    __eq__ = Mapping[str, Any].__eq__
    __hash__ = None  # pyright: ignore[reportAssignmentType]


Mapping.register(Decoded)  # pyright: ignore[reportUnknownMemberType, reportAttributeAccessIssue]


def field_of(name: str) -> str:
    """The field of a name: some names are words of the language or of mappings."""
    return f"{name}_"


@cache
def readers(kind: type[Decoded]) -> Mapping[str, Callable[[Sequence[Decoded]], list[Any]]]:
    """What reads the values of each name of a type that objects of it state."""
    return {field[:-1]: _reader(field) for field in kind.__struct_fields__}


def _reader(field: str) -> Callable[[Sequence[Decoded]], list[Any]]:
    """What reads a field of all objects: as code of its own, it costs a third of a loop over a name."""
    source = f"lambda objects: [value for each in objects if (value := each.{field}) is not unset]"
    return eval(source, {"unset": UNSET})  # noqa: S307 - a field of our own types


def decoded_type(title: str, kinds: Mapping[str, Any], required: Collection[str]) -> type[Decoded]:
    """The type of objects with these names, of which each object states some, and all of the required ones."""
    fields = [
        (field_of(name), kind) if name in required else (field_of(name), kind | msgspec.UnsetType, UNSET)
        for name, kind in kinds.items()
    ]
    names = {field_of(name): name for name in kinds}
    made = msgspec.defstruct(title, fields, bases=(Decoded,), kw_only=True, rename=names)
    return cast(type[Decoded], made)


def plain(value: Any) -> Any:
    """What was decoded as plain JSON."""
    return msgspec.to_builtins(value)


class PlainObjects(Sequence[Any]):
    """Decoded objects as plain JSON, each made when it is asked for; ``others`` stand in their places."""

    __slots__ = ("_decoded", "_others")

    def __init__(self, decoded: Sequence[Decoded | None], others: dict[int, Any]) -> None:
        self._decoded = decoded
        self._others = others

    def __len__(self) -> int:
        return len(self._decoded)

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, slice):
            return list(self)[at]
        return self._others[at] if at in self._others else plain(self._decoded[at])

    def __setitem__(self, at: int, value: Any) -> None:
        self._others[at] = value

    def __iter__(self) -> Iterator[Any]:
        return (self._others.get(at, own) for at, own in enumerate(plain(self._decoded)))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and list(self) == list(cast(Sequence[Any], other))

    __hash__ = None  # pyright: ignore[reportAssignmentType]
