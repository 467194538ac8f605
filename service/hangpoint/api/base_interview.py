"""The open questions of an incomplete hang point."""

from collections.abc import Mapping
from typing import Any, cast

from hangpoint import __version__
from hangpoint.api.bodies import read_whole
from hangpoint.api.csv_columns import columns
from hangpoint.api.problems import pointer
from hangpoint.api.schemas.base_interviews import BaseInterviewRequest
from hangpoint.core.vocabulary import CAUTIONS, Asked, Asking, IfSilent, Question, Refusal, Triage
from hangpoint.units import PRINTED, System

_ANCHORED = ("concrete", "deck", "masonry", "hollow_core")
_IN_CONCRETE = ("concrete", "deck")
_KIND_DECIDES = {
    "steel": (Refusal.BASE_STEEL, Triage.BASE_OTHER),
    "wood": (Refusal.BASE_WOOD, Triage.BASE_OTHER),
    "unknown": (Refusal.BASE_UNKNOWN, Triage.BASE_UNKNOWN),
}
_BY_TABLES = ("masonry", "hollow_core")
_ANSWERS = {bool: "boolean", float: "number", int: "number"}


def run_base_interview(body: bytes) -> dict[str, Any]:
    """Read a body and say what is still to be asked.

    Raises:
        ProblemError: the body can't be read.
    """
    request = read_whole(BaseInterviewRequest, body)
    item: Mapping[str, Any] = request["item"]
    asked = [each.value for each in Question if _concerns(item, each.value.asked)]
    still = [each for each in asked if not _answered(item, each)]
    decided = _decided(item)
    return {
        "engine_version": __version__,
        "enough": all(each.if_silent is not IfSilent.INVALID for each in still),
        "questions": [_question(each, request["units"]) for each in still],
        "answered": [_place(each) for each in asked if _answered(item, each)],
        "refused": [{"code": r.value.code, "clause": r.value.clause, "text": r.value.text} for r, _ in decided],
        "to_engineer": [
            {"code": each.value.code, "text": each.value.text, "question": each.value.question}
            for each in (*(triage for _, triage in decided), *_by_tables(item))
        ],
        "cautions": list(CAUTIONS),
    }


def _at(item: Mapping[str, Any], path: str) -> Any:
    """The value under a dotted path, None where there is none."""
    value: Any = item
    for name in path.split("."):
        if not isinstance(value, Mapping):
            return None
        value = cast(Mapping[str, Any], value).get(name)
    return value


def _answered(item: Mapping[str, Any], asking: Asking) -> bool:
    if asking.field == "anchor.family":
        named = all(_at(item, f"anchor.{name}") is not None for name in ("family", "size", "h_ef"))
        return named or _at(item, "anchor.product") is not None
    return _at(item, asking.field) is not None


def _concerns(item: Mapping[str, Any], asked: Asked) -> bool:
    """Whether a question is for this point. While the kind of base is open, what concrete is asked is asked too."""
    kind = _at(item, "base.kind") or "concrete"
    anchored = kind in _ANCHORED
    return {
        Asked.ALWAYS: True,
        Asked.ANCHORED: anchored,
        Asked.IN_CONCRETE: kind in _IN_CONCRETE,
        Asked.CONCRETE: kind == "concrete",
        Asked.DECK: kind == "deck",
        Asked.MASONRY: kind == "masonry",
        Asked.HOLLOW_CORE: kind == "hollow_core",
        Asked.TENSIONED: anchored and _at(item, "base.post_tensioned") in ("yes", "unknown"),
        Asked.SCANNED: anchored and _at(item, "base.scanned") is True,
        Asked.UNCRACKED: anchored and _at(item, "base.state") == "uncracked",
        Asked.PIPE: _at(item, "hangs.kind") == "pipe",
    }[asked]


def _decided(item: Mapping[str, Any]) -> list[tuple[Refusal, Triage]]:
    """Refusals that what is known brings about, with what to ask."""
    kind = _at(item, "base.kind") or "concrete"
    found = [_KIND_DECIDES[kind]] if kind in _KIND_DECIDES else []
    if kind in _ANCHORED and _at(item, "base.part") == "topping":
        found.append((Refusal.TOPPING_BOND, Triage.TOPPING))
    if _concerns(item, Asked.TENSIONED) and _at(item, "base.scanned") is not True:
        found.append((Refusal.POST_TENSIONED, Triage.POST_TENSIONED))
    return found


def _by_tables(item: Mapping[str, Any]) -> tuple[Triage, ...]:
    return (Triage.BASE_BY_TABLES,) if _at(item, "base.kind") in _BY_TABLES else ()


def _place(asking: Asking) -> str:
    return pointer("item", *asking.field.split("."))


def _question(asking: Asking, system: System) -> dict[str, Any]:
    taken = asking.taken
    silent: dict[str, Any] = {"outcome": asking.if_silent}
    if taken is not None:
        silent["code"] = taken.value.code
    silent["text"] = asking.text if taken is None else taken.value.text
    head = {"field": _place(asking), "question": asking.question, "why": asking.why, "if_silent": silent}
    cell = columns()[asking.field]
    if cell.kind is not None:
        unit = PRINTED[system][cell.kind.name]
        quantity = {"kind": cell.kind.name, "unit": unit, "accepted": list(cell.kind.units)}
        made = {**head, "answer": "quantity", "quantity": quantity}
        return made | ({"allowed": list(cell.words.values())} if cell.words else {})
    if cell.words:
        return {**head, "answer": "word", "allowed": list(cell.words.values())}
    return {**head, "answer": _ANSWERS.get(cell.plain, "text")}
