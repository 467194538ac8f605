"""Troubles on site with their remedies."""

import re
from difflib import get_close_matches
from typing import Any, get_args

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.responses import cached_response
from hangpoint.api.routes.reading import readable
from hangpoint.product.family import Principle
from hangpoint.product.guidance.troubles import Trouble, trouble_list

router = APIRouter(tags=["site"])

_PRINCIPLES: tuple[str, ...] = get_args(Principle)
_TEXTS = {
    "principle": "Troubles of anchors that hold in this way, and those of every anchor.",
    "symptom": "Troubles in whose id, symptom or causes every word of this text stands, whatever it ends in: `spins`"
    " finds `spinning`.",
}
_MOST = 64
_ENDING = re.compile(r"(?<=\w{3})(?:ing|ed|es|s)$")
_DOUBLED = re.compile(r"([b-df-hj-np-tv-z])\1$")


def _parameters() -> list[dict[str, Any]]:
    schemas: dict[str, dict[str, Any]] = {
        "principle": {"type": "string", "enum": list(_PRINCIPLES)},
        "symptom": {"type": "string", "minLength": 1, "maxLength": _MOST},
    }
    return [
        {"name": name, "in": "query", "required": False, "description": text, "schema": schemas[name]}
        for name, text in _TEXTS.items()
    ]


@readable(
    router,
    "/v1/troubles",
    operation_id="listTroubles",
    summary="Symptom, cause and remedy",
    openapi_extra={"parameters": _parameters()},
)
async def list_troubles(request: Request) -> Response:
    """What goes wrong on site: symptom, likely causes, how to tell, remedy, whether the anchor may stay.

    All of it is common practice without a source. A filter may leave none.
    """
    stated = _stated(request.query_params.multi_items())
    every = trouble_list()
    found = [each for each in every.troubles if _holds(each, stated)]
    return cached_response(
        request,
        {
            "source": every.source,
            "rules": list(every.rules),
            "troubles": [each.model_dump(mode="json") | {"source": every.source} for each in found],
        },
    )


def _stated(pairs: list[tuple[str, str]]) -> dict[str, str]:
    """The filters of the query.

    Raises:
        ProblemError: an unknown or repeated name, an unknown principle, an empty or long text.
    """
    errors: list[FieldError] = []
    stated: dict[str, str] = {}
    for name, value in pairs:
        if name not in _TEXTS:
            near = tuple(get_close_matches(name[:_MOST], _TEXTS, n=1, cutoff=0.4)) or tuple(_TEXTS)
            errors.append(FieldError(pointer=f"?{name[:_MOST]}", code="unknown-field", detail="Unknown.", allowed=near))
        elif name in stated:
            errors.append(FieldError(pointer=f"?{name}", code="repeated", detail="Given more than once."))
        elif name == "principle" and value not in _PRINCIPLES:
            errors.append(
                FieldError(pointer="?principle", code="unknown-option", detail="Not a value.", allowed=_PRINCIPLES)
            )
        elif not 0 < len(value) <= _MOST:
            errors.append(FieldError(pointer=f"?{name}", code="length", detail=f"Give 1 to {_MOST} characters."))
        stated[name] = value
    if errors:
        raise ProblemError("validation", f"The query has {errors[0].pointer}, which can't be used.", errors=errors)
    return stated


def _holds(trouble: Trouble, stated: dict[str, str]) -> bool:
    principle = stated.get("principle")
    if principle and trouble.principles and principle not in trouble.principles:
        return False
    text = " ".join((trouble.id, trouble.symptom, *trouble.causes)).casefold()
    return all(_stem(word) in text for word in stated.get("symptom", "").casefold().split())


def _stem(word: str) -> str:
    """A word without its ending, as it stands in the other forms of it: spins, spinning, spin."""
    return _DOUBLED.sub(r"\1", _ENDING.sub("", word))
