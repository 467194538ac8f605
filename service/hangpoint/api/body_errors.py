"""What is wrong with a body, told by place: errors of a validation as problems with pointers and what is allowed."""

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from typing import Annotated, Any, Literal, NotRequired, Required, get_args, get_origin, get_type_hints

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo
from typing_extensions import TypeAliasType, is_typeddict

from hangpoint.api.problems import FieldError, pointer
from hangpoint.pack.pull import range_text
from hangpoint.product.family import BRANCHES
from hangpoint.product.inline import InlineProduct
from hangpoint.units import BY_TITLE, MAX_QUANTITY_TEXT, QuantityKind

_QUOTED = re.compile("'([^']*)'")
_FEW = 3
"""Words that are named with "or" between them."""
_ITEMS: Mapping[str, str] = {
    "item": "This address takes a list, items: put the one into it.",
    "items": "This address takes one item alone: send each as item. POST /v1/hang-points takes a list of hang points.",
}
"""What is said of one item where a list stands, and of a list where one item does."""
_OF_PRODUCT = frozenset({"product", "family", "size", "h_ef"})
_CHOSEN = (
    "The product is chosen here, so a point names none: remove it. want.families limits the choice to those that are"
    " stocked; POST /v1/hang-points checks a product that is named, and POST /v1/substitutions finds others for it."
)
"""What is said of a product that is named where it is to be chosen."""
_SENTENCES: Mapping[str, str] = {
    "dict_type": "An object has to stand here.",
    "model_type": "An object has to stand here.",
    "list_type": "A list has to stand here.",
    "tuple_type": "A list has to stand here.",
    "string_type": "A text has to stand here.",
    "bool_type": "true or false has to stand here.",
    "int_type": "A bare whole number has to stand here: no text, unit or % sign.",
    "float_type": "A bare number has to stand here: no text, unit or % sign.",
    "finite_number": "A finite number has to stand here.",
    "too_short": "At least {min_length} should stand here.",
    "too_long": "At most {max_length} may stand here.",
    "string_too_short": "A text of at least {min_length} letters has to stand here.",
    "string_too_long": "A text of at most {max_length} letters has to stand here.",
    "string_pattern_mismatch": "A text of the form {pattern} has to stand here.",
}
"""What is said of errors of the validation that would else be in its own words."""


@cache
def adapter_of(body: Any) -> TypeAdapter[Any]:
    """Validator of a body: of the typed dictionary of a request, or a list of such."""
    return TypeAdapter(body)


def details(error: ValidationError) -> list[Any]:
    """Every error of a validation, with the value that it is of; no value is repeated to whoever asks."""
    return list(error.errors(include_url=False))


def field_errors(body: Any, error: ValidationError) -> list[FieldError]:
    """Every error of a validation of a body with its pointer."""
    return telling_first([field_error(body, each["loc"], each) for each in details(error)])


def telling_first(errors: Sequence[FieldError]) -> list[FieldError]:
    """That one item stands where a list should, or a list where one item does, before what is missing therefore."""
    return sorted(errors, key=lambda error: error.detail not in _ITEMS.values())


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
    code, detail, allowed = kind, _sentence(error), ()
    if kind == "extra_forbidden":
        branch = str(loc[-2]) if len(loc) > 1 and _is_branch(tags, loc, len(loc) - 2) else ""
        code = "unknown-field"
        detail, allowed = _unknown_field(body, str(places[-1]), _parent(places[:-1]), branch, nearest)
    elif kind == "missing":
        detail, allowed = _required(body, places)
    elif kind in ("union_tag_not_found", "union_tag_invalid"):
        name = _quoted_name(error)
        parent = next((str(part) for part in reversed(places) if part in tags), "")
        places = [*places, name]
        code, detail, allowed = "missing", f"The {name} is required.", tuple(sorted(tags.get(parent, ())))
        if kind == "union_tag_invalid":
            code, detail = "unknown-option", f"There is no such {name}."
    elif kind == "literal_error":
        code, allowed = "unknown-option", tuple(_QUOTED.findall(error["ctx"]["expected"]))
        detail = "This is none of the words that may stand here."
    elif kind == "product":
        places = [*places, *error["ctx"]["path"]]
    return FieldError(pointer=pointer(*places), code=code, detail=detail, allowed=allowed)


def _required(body: Any, places: Sequence[Any]) -> tuple[str, tuple[str, ...]]:
    """That a field is missing, and its words if it is of a closed list wherever it stands, or at the top."""
    name = str(places[-1])
    words = _words_by_name(body).get(name, ())
    if len(places) == 1 and is_typeddict(body):
        words = _closed_list(_hints(body).get(name))
    if not words:
        return "This field is required.", ()
    shown = " or ".join(words) if len(words) <= _FEW else f"one of {', '.join(words)}"
    return f"{name}: {shown} is required.", words


def _sentence(error: Any) -> str:
    """What is wrong with a value."""
    kind, of = error["type"], error.get("ctx", {})
    if kind == "quantity" and _is_out_of_range(error["input"], BY_TITLE[of["title"]]):
        us, si = (range_text(BY_TITLE[of["title"]], system).removesuffix(".") for system in ("us", "si"))
        return f"{us}; in SI units {si.partition(': ')[2]}{of['word']}."
    sentence = _SENTENCES.get(kind)
    if sentence is not None:
        return sentence.format(**of)
    text = f"{error['msg']}.".replace("..", ".")
    return re.sub(r"^(?:Input|String|List) should", "This should", text)


def _is_out_of_range(value: Any, kind: QuantityKind) -> bool:
    """Whether a quantity of the kind is what it was meant to be."""
    if isinstance(value, str):
        return len(value) <= MAX_QUANTITY_TEXT and re.fullmatch(kind.pattern, value.removeprefix("-")) is not None
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


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


def _parent(parents: Sequence[Any]) -> str:
    """Name of the object that a place is in; none at the top."""
    return next((str(part) for part in reversed(parents) if isinstance(part, str)), "")


def _unknown_field(body: Any, name: str, parent: str, branch: str, nearest: bool) -> tuple[str, tuple[str, ...]]:
    """What is said of a field that its object, of the kind ``branch`` if of one of several, doesn't have.

    A field of another kind, or of another object, is named with where it stands; of any other the nearest are.
    """
    by_parent = fields_by_parent(body)
    known = by_parent.get(parent, {})
    if not parent and name in _ITEMS and not _ITEMS.keys().isdisjoint(known):
        return _ITEMS[name], tuple(_ITEMS.keys() & known.keys())
    if _names_a_product(name, parent, by_parent):
        return _CHOSEN, ()
    kinds = sorted(known.get(name, ()))
    own = tuple(field for field, having in known.items() if field != name and (not branch or branch in having))
    near = tuple(get_close_matches(name[:64], own, n=3, cutoff=0.5)) if nearest else ()
    if kinds and branch:
        return f"{name} goes with {parent} of kind {' or '.join(kinds)}, not with {branch}; remove it.", near or own
    others = (each for each, fields in by_parent.items() if each != parent and name in fields)
    elsewhere = sorted(each for each in others if each not in _of_products())
    if 0 < len(elsewhere) <= _FEW:
        places = " or ".join(f"in {each}" if each else "at the top of the request" for each in elsewhere)
        return f"There is no such field here: {name} stands {places}.", near or own
    return "There is no such field here.", near or own


def _names_a_product(name: str, parent: str, by_parent: Mapping[str, Mapping[str, frozenset[str]]]) -> bool:
    """Whether a field names the product of an anchor in a body whose anchors have none."""
    if "layout" not in by_parent.get("anchor", {}) or "family" in by_parent["anchor"]:
        return False
    return (parent == "anchor" and name in _OF_PRODUCT) or (parent in ("items", "defaults") and name == "product")


@cache
def _of_products() -> frozenset[str]:
    """Names of objects that only the data of a product have, which nobody means who states a field elsewhere."""
    return frozenset(fields_by_parent(InlineProduct)) - {""} | {"product"}


@cache
def fields_by_parent(body: Any) -> Mapping[str, Mapping[str, frozenset[str]]]:
    """Names of the fields under each name in a body, each with the kinds that have it where several may stand there."""
    found: dict[str, dict[str, frozenset[str]]] = {}
    for name, kind in _parts(body):
        if _has_fields(kind):
            fields = found.setdefault(name, {})
            tags = _own_tags(_hints(kind), _tags_by_parent(body).get(name, frozenset()))
            fields.update({field: fields.get(field, frozenset()) | tags for field in _hints(kind)})
    return {name: dict(sorted(fields.items())) for name, fields in found.items()}


def _own_tags(hints: Mapping[str, Any], tags: frozenset[str]) -> frozenset[str]:
    """Those of a union's tags that an object with these fields has; the field that tells them apart has no others."""
    words = (frozenset(_words(hint)) for hint in hints.values())
    return frozenset[str]().union(*(each for each in words if each <= tags))


@cache
def _words_by_name(body: Any) -> Mapping[str, tuple[str, ...]]:
    """Words of the closed lists that stand under each name; none of a name under which other things stand too."""
    found: dict[str, set[tuple[str, ...]]] = {}
    for _, kind in _parts(body):
        if is_typeddict(kind):
            for field, hint in _hints(kind).items():
                found.setdefault(field, set()).add(_closed_list(hint))
    return {name: next(iter(lists)) for name, lists in found.items() if len(lists) == 1}


def _closed_list(hint: Any) -> tuple[str, ...]:
    while get_origin(hint) in (Annotated, Required, NotRequired):
        hint = get_args(hint)[0]
    if isinstance(hint, TypeAliasType):
        return _closed_list(hint.__value__)
    words = get_args(hint) if get_origin(hint) is Literal else ()
    return words if all(isinstance(word, str) for word in words) else ()


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
