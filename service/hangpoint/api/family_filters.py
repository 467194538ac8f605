"""Filters of the list of families: words of the query, and which families and products they leave."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any, Literal, get_args, get_type_hints

from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.product.family import Base, Basis, Family, Material, Principle, Traits

_WORDS: Mapping[str, tuple[str, ...]] = {
    "principle": get_args(Principle),
    "basis": get_args(Basis),
    "base": get_args(Base),
    "steel": get_args(get_type_hints(Material)["steel"]),
    "coating": get_args(get_type_hints(Material)["coating"]),
    "exposure": get_args(get_type_hints(Traits)["exposure"]),
}
_YES_OR_NO = tuple(name for name, field in Traits.model_fields.items() if field.annotation is bool)
_OF_SIZES: tuple[Literal["size", "thread"], ...] = ("size", "thread")
_TEXTS = {
    "base": "Families made for this base.",
    "exposure": "Families whose protection is made for this exposure, or for a worse one.",
    "size": "Families that have this size, and of each the products of it: 3/8, M10.",
    "thread": "Families that take or carry this thread, and of each the products with it: 3/8, M10.",
}
NAMES = (*_WORDS, *_YES_OR_NO, *_OF_SIZES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A family and the addresses of those of its products that were asked for."""

    family: Family
    products: tuple[str, ...]


def parameters() -> list[dict[str, Any]]:
    """The filters as parameters of an OpenAPI operation."""
    return [
        {"name": name, "in": "query", "required": False, "description": _text(name), "schema": _schema(name)}
        for name in NAMES
    ]


def filtered(families: Iterable[Family], addresses: Iterable[str], query: Iterable[tuple[str, str]]) -> Iterator[Found]:
    """Families that every filter of the query lets through, with their products.

    Raises:
        ProblemError: a filter that isn't one, stands twice, or has a value that it doesn't know.
    """
    stock = list(families)
    wanted = _read(query, stock)
    products = list(addresses)
    return (
        Found(family=family, products=_products(family, products, wanted))
        for family in stock
        if all(_holds(family, name, value) for name, value in wanted.items() if name not in _OF_SIZES)
        and _sizes(family, wanted)
    )


def _read(query: Iterable[tuple[str, str]], stock: Iterable[Family]) -> dict[str, str]:
    known = {**_WORDS, **dict.fromkeys(_YES_OR_NO, ("true", "false"))}
    sizes = [size for family in stock for size in family.sizes]
    known["size"] = tuple(sorted({size.size for size in sizes}))
    known["thread"] = tuple(sorted({size.thread for size in sizes if size.thread is not None}))
    wanted: dict[str, str] = {}
    errors: list[FieldError] = []
    for name, value in query:
        pointer = f"?{name[:64]}"
        if name not in known:
            near = tuple(get_close_matches(name[:64], NAMES, n=3, cutoff=0.4)) or NAMES
            errors.append(FieldError(pointer=pointer, code="unknown-field", detail="No such filter.", allowed=near))
        elif name in wanted:
            errors.append(FieldError(pointer=pointer, code="contradiction", detail="The filter is there twice."))
        elif value not in known[name]:
            errors.append(
                FieldError(
                    pointer=pointer,
                    code="unknown-option",
                    detail="Not a value of this filter in this catalogue.",
                    allowed=known[name],
                )
            )
        wanted[name] = value
    if errors:
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return wanted


def _holds(family: Family, name: str, value: str) -> bool:
    if name in _YES_OR_NO:
        return getattr(family.traits, name) == (value == "true")
    if name == "base":
        return value in family.traits.bases
    if name == "exposure":
        order = _WORDS["exposure"]
        return order.index(family.traits.exposure) >= order.index(value)
    owner = family.material if name in ("steel", "coating") else family
    return getattr(owner, name) == value


def _sizes(family: Family, wanted: Mapping[str, str]) -> list[str]:
    """Sizes of a family that were asked for; all of them where none was."""
    return [
        size.size
        for size in family.sizes
        if all(getattr(size, name) == wanted[name] for name in _OF_SIZES if name in wanted)
    ]


def _products(family: Family, addresses: Iterable[str], wanted: Mapping[str, str]) -> tuple[str, ...]:
    heads = {f"{family.id}/{size}" for size in _sizes(family, wanted)}
    return tuple(address for address in addresses if address.rpartition("/")[0] in heads)


def _text(name: str) -> str:
    if name in _TEXTS:
        return _TEXTS[name]
    owner = Material if name in ("steel", "coating") else Traits if name in Traits.model_fields else Family
    return owner.model_fields[name].description or ""


def _schema(name: str) -> dict[str, Any]:
    if name in _OF_SIZES:
        return {"type": "string", "minLength": 1, "maxLength": 16}
    return {"type": "string", "enum": list(_WORDS.get(name, ("true", "false")))}
