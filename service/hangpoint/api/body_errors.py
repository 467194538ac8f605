"""What is wrong with a body, told by place: errors of a validation as problems with pointers and what is allowed."""

import re
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from typing import Any, Literal, get_args, get_origin, get_type_hints

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo
from typing_extensions import is_typeddict

from hangpoint.api.problems import FieldError, pointer
from hangpoint.product.family import BRANCHES

_QUOTED = re.compile("'([^']*)'")


@cache
def adapter_of(body: Any) -> TypeAdapter[Any]:
    """Validator of a body: of the typed dictionary of a request, or a list of such."""
    return TypeAdapter(body)


def details(error: ValidationError) -> list[Any]:
    """Every error of a validation."""
    return list(error.errors(include_url=False, include_input=False))


def field_errors(body: Any, error: ValidationError) -> list[FieldError]:
    """Every error of a validation of a body with its pointer."""
    return [field_error(body, each["loc"], each) for each in details(error)]


def field_error(body: Any, loc: Sequence[Any], error: Any, *, nearest: bool = True) -> FieldError:
    """One error of a validation.

    Args:
        body: the type of the request.
        loc: where it is, as the validation says it, from the top of the body.
        error: of the validation.
        nearest: an unknown field is answered by the nearest known ones, not by all.
    """
    tags = _tags_by_parent(body)
    places = [part for at, part in enumerate(loc) if not _is_branch(tags, loc, at)]
    kind = error["type"]
    code, detail, allowed = kind, f"{error['msg']}.".replace("..", "."), ()
    if kind == "extra_forbidden":
        code, detail = "unknown-field", "There is no such field here."
        allowed = _nearest_field(body, str(places[-1]), places[:-1], nearest)
    elif kind == "missing":
        detail = "This field is required."
    elif kind == "dict_type":
        detail = "Input should be an object."
    elif kind in ("union_tag_not_found", "union_tag_invalid"):
        name = _quoted_name(error)
        parent = next((str(part) for part in reversed(places) if part in tags), "")
        places = [*places, name]
        code, detail = "missing", f"The {name} is required."
        if kind == "union_tag_invalid":
            code, detail, allowed = "unknown-option", f"There is no such {name}.", tuple(sorted(tags.get(parent, ())))
    elif kind == "literal_error":
        code, allowed = "unknown-option", tuple(_QUOTED.findall(error["ctx"]["expected"]))
        detail = "This is none of the words that may stand here."
    elif kind == "product":
        places = [*places, *error["ctx"]["path"]]
    return FieldError(pointer=pointer(*places), code=code, detail=detail, allowed=allowed)


def slug_of(errors: Sequence[FieldError]) -> str:
    """Kind of the problem that errors make."""
    return "quantity" if errors and all(error.code == "quantity" for error in errors) else "validation"


def _quoted_name(error: Any) -> str:
    """Name of the field that tells the members of a union apart."""
    return str(error["ctx"]["discriminator"]).strip("'")


def _is_branch(tags: Mapping[str, frozenset[str]], loc: Sequence[Any], at: int) -> bool:
    """Whether a part of a place names the branch of a union and not a place in the request."""
    part, before = loc[at], loc[at - 1] if at else None
    if part in BRANCHES and str(before).startswith("n_p_"):
        return True
    parent = loc[at - 2] if isinstance(before, int) and at > 1 else before
    return isinstance(part, str) and part in tags.get(str(parent), ())


def _nearest_field(body: Any, name: str, parents: Sequence[Any], nearest: bool) -> tuple[str, ...]:
    parent = next((str(part) for part in reversed(parents) if isinstance(part, str)), "")
    known = _fields_by_parent(body).get(parent, ())
    if not nearest:
        return known
    return tuple(get_close_matches(name[:64], known, n=3, cutoff=0.5)) or known


@cache
def _fields_by_parent(body: Any) -> Mapping[str, tuple[str, ...]]:
    """Names of the fields under each name in a body, over all kinds of what may stand there."""
    found: dict[str, set[str]] = {}
    for name, kind in _parts(body):
        if _has_fields(kind):
            found.setdefault(name, set()).update(_hints(kind))
    return {name: tuple(sorted(fields)) for name, fields in found.items()}


@cache
def _tags_by_parent(body: Any) -> Mapping[str, frozenset[str]]:
    """Words that tell the members of a union apart, by the name that the union stands under."""
    found: dict[str, frozenset[str]] = {}
    for name, kind in _parts(body):
        by = next((each.discriminator for each in getattr(kind, "__metadata__", ()) if isinstance(each, FieldInfo)), "")
        if isinstance(by, str) and by:
            words = {word for member in get_args(get_args(kind)[0]) for word in _words(_hints(member)[by])}
            found[name] = found.get(name, frozenset()) | words
    return found


def _words(hint: Any) -> Iterator[str]:
    if get_origin(hint) is Literal:
        yield from get_args(hint)
        return
    for part in get_args(hint):
        yield from _words(part)


def _parts(body: Any) -> Iterator[tuple[str, Any]]:
    """Every type in a body with the name of the field that it stands under, each once."""
    todo: list[tuple[str, Any]] = [("", body)]
    seen: set[tuple[str, int]] = set()
    while todo:
        name, kind = todo.pop()
        if (name, id(kind)) in seen:
            continue
        seen.add((name, id(kind)))
        yield name, kind
        if _has_fields(kind):
            todo.extend(_hints(kind).items())
        else:
            todo.extend((name, part) for part in get_args(kind) if not isinstance(part, str))


def _has_fields(kind: Any) -> bool:
    return is_typeddict(kind) or (isinstance(kind, type) and issubclass(kind, BaseModel))


def _hints(kind: Any) -> dict[str, Any]:
    if is_typeddict(kind):
        return get_type_hints(kind, include_extras=True)
    return {name: part.annotation for name, part in kind.model_fields.items()}
