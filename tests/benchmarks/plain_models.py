"""Models of the framework with every field of a request and no rule of its own: what the echo is made of.

They are made from the request's typed dictionaries, so that no field is missing: a quantity is a number or a text, a
word is one of its words, a product stated inline is any object; ranges, lengths and patterns are left out.
"""

from functools import cache
from types import NoneType
from typing import Annotated, Any, Literal, NotRequired, Required, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, Field, create_model
from pydantic.fields import FieldInfo
from typing_extensions import TypeAliasType, is_typeddict

from hangpoint.api.schemas.quantities import WireQuantity
from hangpoint.product.inline import InlineProduct


@cache
def plain_model(request: Any) -> type[BaseModel]:
    """The model of a typed dictionary; what may be absent is None."""
    fields = {}
    for name, hint in get_type_hints(request, include_extras=True).items():
        kind = _plain(hint)
        fields[name] = (kind, ...) if name in request.__required_keys__ else (kind | None, None)
    return create_model(request.__name__, **fields)


def _plain(hint: Any) -> Any:
    if hint is InlineProduct:
        return dict[str, Any]
    if is_typeddict(hint):
        return plain_model(hint)
    if isinstance(hint, TypeAliasType):
        return _plain(hint.__value__)
    origin, arguments = get_origin(hint), get_args(hint)
    if origin in (Required, NotRequired):
        return _plain(arguments[0])
    if origin is Annotated:
        return _annotated(arguments[0], arguments[1:])
    if origin is list:
        return list[_plain(arguments[0])]
    if origin is not None and origin is not Literal:
        return Union[tuple(_plain(each) for each in arguments)]  # noqa: UP007
    assert origin is Literal or hint in (str, int, float, bool, NoneType), hint
    return hint


def _annotated(kind: Any, metadata: tuple[Any, ...]) -> Any:
    if any(isinstance(each, WireQuantity) for each in metadata):
        return float | str
    plain = _plain(kind)
    discriminator = next((each.discriminator for each in metadata if isinstance(each, FieldInfo)), None)
    return Annotated[plain, Field(discriminator=discriminator)] if discriminator else plain
