"""Plain types of a request, made from its typed dictionary: what they accept, its validator accepts too.

They know what requests are made of and refuse the rest; an optional field that only the validator can judge is no part
of the type. What they leave open comes with what looks at it (`looks`): texts of a grammar, and which fields go with
which form of an object.
"""

from collections.abc import Mapping
from dataclasses import asdict, is_dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, NamedTuple, NotRequired, Required, Union, get_args, get_origin

import msgspec
from pydantic import TypeAdapter
from pydantic.fields import FieldInfo
from typing_extensions import TypeAliasType, get_type_hints, is_typeddict

from hangpoint.api.looks import Fields, Forms, Judged, ListOfObjects, ListOfTexts, ListOrObject, Look, Texts
from hangpoint.api.schemas.layouts import LayoutForms
from hangpoint.api.schemas.quantities import NUMBER_MOST, WireQuantity
from hangpoint.pack.decoded import decoded_type
from hangpoint.units import MAX_QUANTITY_TEXT

_CONSTRAINTS = {"ge", "gt", "le", "lt", "min_length", "max_length", "pattern"}
"""What a field may be held to; the pattern is left to a look."""
_PLAIN = (str, int, float, bool)


class UnknownTypeError(TypeError):
    """A type that only the validator can judge."""


class Plain(NamedTuple):
    """A plain type, and what looks at what it leaves open in a value, if there is anything."""

    kind: Any
    look: Look | None = None


@cache
def plain_object(request: Any, *, without: str = "") -> Plain:
    """The plain type of a typed dictionary; ``without`` is a field that is judged apart.

    Raises:
        UnknownTypeError: it has a required field that only the validator can judge.
    """
    fields = {name: plain for name, plain in plain_fields(request).items() if name != without}
    looks = {name: plain.look for name, plain in fields.items() if plain.look is not None}
    kinds = {name: plain.kind for name, plain in fields.items()}
    return Plain(decoded_type(request.__name__, kinds, request.__required_keys__), Fields(frozenset(fields), looks))


@cache
def plain_fields(request: Any) -> Mapping[str, Plain]:
    """The fields of a typed dictionary that not only the validator can judge.

    Raises:
        UnknownTypeError: it has a required field that only the validator can judge.
    """
    fields: dict[str, Plain] = {}
    for name, hint in _hints(request).items():
        try:
            fields[name] = plain_type(hint)
        except UnknownTypeError:
            if name in request.__required_keys__:
                raise
    return fields


def _hints(request: Any) -> dict[str, Any]:
    return get_type_hints(request, include_extras=True)


def plain_type(hint: Any) -> Plain:
    """The plain type of a field.

    Raises:
        UnknownTypeError: only the validator can judge it.
    """
    hint = _bare(hint)
    origin, arguments = get_origin(hint), get_args(hint)
    if is_typeddict(hint):
        return plain_object(hint)
    if origin is Annotated:
        return _annotated(arguments[0], arguments[1:])
    if origin is list:
        return _listed(plain_type(arguments[0]))
    if origin in (Union, UnionType):
        return _union([plain_type(each) for each in arguments])
    if hint in _PLAIN or (origin is Literal and all(isinstance(word, str) for word in arguments)):
        return Plain(hint)
    raise UnknownTypeError(repr(hint))


def _bare(hint: Any) -> Any:
    """Without its name and without whether it may be absent."""
    while isinstance(hint, TypeAliasType) or get_origin(hint) in (Required, NotRequired):
        hint = hint.__value__ if isinstance(hint, TypeAliasType) else get_args(hint)[0]
    return hint


def _annotated(kind: Any, metadata: tuple[Any, ...]) -> Plain:
    constraints: dict[str, Any] = {}
    for each in metadata:
        if isinstance(each, WireQuantity):
            return _quantity(kind, each)
        if isinstance(each, FieldInfo) and isinstance(each.discriminator, str):
            return _tagged(kind, each.discriminator)
        if not isinstance(each, LayoutForms):  # These judge as the type that they stand at does.
            constraints |= _constraints(each)
    plain, look = plain_type(kind)
    if constraints.pop("pattern", None) is not None:
        place: Any = Annotated[kind, *metadata]
        look = Texts(TypeAdapter(place))
    return Plain(Annotated[plain, msgspec.Meta(**constraints)] if constraints else plain, look)


def _constraints(metadata: Any) -> Mapping[str, Any]:
    stated: dict[str, Any] = {}
    for each in metadata.metadata if isinstance(metadata, FieldInfo) else (metadata,):
        if not is_dataclass(each) or isinstance(each, type):
            raise UnknownTypeError(repr(each))
        stated |= {name: value for name, value in asdict(each).items() if value is not None}
    if not stated.keys() <= _CONSTRAINTS:
        raise UnknownTypeError(repr(metadata))
    return stated


def _quantity(kind: Any, quantity: WireQuantity) -> Plain:
    bounds: dict[str, Any] = {"le": NUMBER_MOST, **quantity.bounds}
    number: Any = Annotated[float, msgspec.Meta(**bounds)]
    text: Any = Annotated[str, msgspec.Meta(max_length=MAX_QUANTITY_TEXT)]
    place: Any = Annotated[kind, quantity]
    return Plain(number | text, Texts(TypeAdapter(place)))


@cache
def _tagged(kind: Any, tag: str) -> Plain:
    """One type with the fields of every form; which of them go with a word is left to the look.

    A field that differs from form to form may be anything in the type, and is judged by the look.
    """
    forms: dict[Any, Mapping[str, Plain]] = {form: plain_fields(form) for form in get_args(kind)}
    kinds: dict[str, list[Any]] = {}
    for fields in forms.values():
        for name, plain in fields.items():
            kinds.setdefault(name, []).append(plain.kind)
    alike = {name: own[0] for name, own in kinds.items() if all(each == own[0] for each in own)}
    by_word: dict[str, Fields] = {}
    for form, fields in forms.items():
        looks = {name: plain.look for name, plain in fields.items() if plain.look is not None}
        for name in fields.keys() - alike.keys() - {tag}:
            looks[name] = Judged(fields[name].kind, looks.get(name))
        look = Fields(frozenset(fields), looks, form.__required_keys__)
        by_word |= dict.fromkeys(get_args(_bare(_hints(form)[tag])), look)
    whole = {name: alike.get(name, Any) for name in kinds} | {tag: Literal[tuple(by_word)]}
    return Plain(decoded_type("Forms", whole, {tag}), Forms(tag, by_word))


def _listed(entry: Plain) -> Plain:
    match entry.look:
        case None:
            return Plain(list[entry.kind])
        case Texts() as texts:
            return Plain(list[entry.kind], ListOfTexts(texts))
        case Fields() | Forms() as objects:
            return Plain(list[entry.kind], ListOfObjects(objects))
        case _:
            raise UnknownTypeError(repr(entry.look))


def _union(members: list[Plain]) -> Plain:
    kind = Union[tuple(each.kind for each in members)]  # noqa: UP007
    match [each.look for each in members if each.look is not None]:
        case []:
            return Plain(kind)
        case [ListOfObjects() as listed, Forms() as single] if len(members) == 2:
            return Plain(kind, ListOrObject(listed, single))
        case looks:
            raise UnknownTypeError(repr(looks))
