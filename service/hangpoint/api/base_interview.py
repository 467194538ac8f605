"""The open questions of an incomplete hang point."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint import __version__
from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import Batch, read_whole
from hangpoint.api.csv_columns import columns
from hangpoint.api.problems import pointer, without_defaults
from hangpoint.api.schemas.base_interviews import BaseInterviewRequest
from hangpoint.core.vocabulary import CAUTIONS, Asked, Asking, IfSilent, Question, Refusal, Triage
from hangpoint.pack.base_kinds import FACE_UNSTATED
from hangpoint.pack.objects import EMPTY, value_at
from hangpoint.pack.open_products import distances_asked, goes_by_formula, product_of
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import PRINTED, System

_ANCHORED = ("concrete", "deck", "masonry", "hollow_core")
_IN_CONCRETE = ("concrete", "deck")
_KIND_DECIDES = {
    "steel": (Refusal.BASE_STEEL, Triage.BASE_OTHER),
    "wood": (Refusal.BASE_WOOD, Triage.BASE_OTHER),
    "unknown": (Refusal.BASE_UNKNOWN, Triage.BASE_UNKNOWN),
}
_BY_TABLES = ("masonry", "hollow_core")
_PULLS_BY_WEIGHT = ("weight", "pipe")
_ANSWERS = {bool: "boolean", float: "number", int: "number"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Point:
    """A point as far as it is known. While the kind of base is open it is concrete.

    ``distances`` are paths within the base that a table of the product, or of any while that is open, limits;
    ``by_formula`` says that the product is a bolt which goes by formula there.
    """

    item: Mapping[str, Any]
    kind: str
    product_known: bool
    distances: frozenset[str]
    by_formula: bool

    @property
    def face(self) -> str:
        """The face that is stated, or is taken where none is."""
        return value_at(self.item, "base", "face") or FACE_UNSTATED[self.kind]

    @property
    def maybe_tensioned(self) -> bool:
        return self.kind in _ANCHORED and value_at(self.item, "base", "post_tensioned") in ("yes", "unknown")


def run_base_interview(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body and say what is still to be asked.

    Raises:
        ProblemError: the body can't be read.
    """
    request = read_whole(BaseInterviewRequest, body)
    system: System = request["units"]
    point = _known(request["item"], system, catalogue)
    asked = [each.value for each in Question if _concerns(point, each.value)]
    still = [each for each in asked if not _answered(point, each)]
    complete = all(each.if_silent is not IfSilent.INVALID for each in still)
    checked = _checked(point.item, system, catalogue) if complete else EMPTY
    errors = checked.get("problem", {}).get("errors", ())
    decided = _decided(point)
    triage = [*(own for _, own in decided if own is not None), *_by_tables(point)]
    refused = [{"code": r.value.code, "clause": r.value.clause, "text": r.value.text} for r, _ in decided]
    to_engineer = [{"code": t.value.code, "text": t.value.text, "question": t.value.question} for t in triage]
    if "reason" in checked:
        refused += _others([checked["reason"]], refused)
    to_engineer += _others(checked.get("to_engineer", ()), to_engineer)
    return {
        "engine_version": __version__,
        "enough": complete and not errors,
        "questions": [_question(each, system) for each in still],
        "answered": [_place(each) for each in asked if _answered(point, each)],
        "invalid": [
            {**error, "pointer": error["pointer"].replace("#/items/0", "#/item", 1)}
            | {"detail": without_defaults(error["detail"])}
            for error in errors
        ],
        "refused": refused,
        "to_engineer": to_engineer,
        "cautions": list(CAUTIONS),
    }


def _known(item: Mapping[str, Any], system: System, catalogue: Catalogue) -> _Point:
    kind = value_at(item, "base", "kind") or "concrete"
    stated: Mapping[str, Any] = value_at(item, "base", kind) or EMPTY
    product = product_of(item.get("anchor", EMPTY), system=system, catalogue=catalogue)
    return _Point(
        item=item,
        kind=kind,
        product_known=product is not None,
        distances=distances_asked(catalogue.table if product is None else product, kind, stated),
        by_formula=product is not None and goes_by_formula(product, kind, stated),
    )


def _checked(item: Mapping[str, Any], system: System, catalogue: Catalogue) -> Mapping[str, Any]:
    """The result of the check of an item as it is."""
    factored = value_at(item, "hangs", "load_cases") is not None
    batch = Batch(
        units=system,
        combinations="given_factored" if factored else None,
        neighbours="off",
        items=[{"id": "item", **item}],
    )
    return answer_batch(batch, catalogue=catalogue, limits=Limits(), detail="verdict")["items"][0]


def _others(found: Sequence[Mapping[str, Any]], known: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    codes = {each["code"] for each in known}
    return [each for each in found if each["code"] not in codes]


def _answered(point: _Point, asking: Asking) -> bool:
    if asking.field == "anchor.family":
        return point.product_known
    if asking is Question.LEVEL.value and value_at(point.item, "base", "member") is not None:
        return True
    return value_at(point.item, *asking.field.split(".")) is not None


def _concerns(point: _Point, asking: Asking) -> bool:
    """Whether a question is for this point. While the kind of base is open, what concrete is asked is asked too."""
    kind, anchored = point.kind, point.kind in _ANCHORED
    return {
        Asked.ALWAYS: True,
        Asked.ANCHORED: anchored and not (kind == "masonry" and asking is Question.FACE.value),
        Asked.IN_CONCRETE: kind in _IN_CONCRETE,
        Asked.CONCRETE: kind == "concrete",
        Asked.DECK: kind == "deck",
        Asked.MASONRY: kind == "masonry" and not (point.by_formula and asking is Question.F_M.value),
        Asked.GROUTED: kind == "masonry" and value_at(point.item, "base", "masonry", "units") == "grouted",
        Asked.HOLLOW_CORE: kind == "hollow_core",
        Asked.BOLT: point.by_formula,
        Asked.TABLES: asking.field.removeprefix("base.") in point.distances,
        Asked.TENSIONED: point.maybe_tensioned,
        Asked.SCANNED: anchored and value_at(point.item, "base", "scanned") is True,
        Asked.UNCRACKED: anchored and value_at(point.item, "base", "state") == "uncracked",
        Asked.PIPE: value_at(point.item, "hangs", "kind") == "pipe",
        Asked.SIDE: anchored and point.face == "side",
    }[asking.asked]


def _decided(point: _Point) -> list[tuple[Refusal, Triage | None]]:
    """Refusals that what is known brings about, with what to ask."""
    kind, item = point.kind, point.item
    found: list[tuple[Refusal, Triage | None]] = [_KIND_DECIDES[kind]] if kind in _KIND_DECIDES else []
    if kind in _ANCHORED and value_at(item, "base", "part") == "topping":
        found.append((Refusal.TOPPING_BOND, Triage.TOPPING))
    if point.maybe_tensioned and value_at(item, "base", "scanned") is not True:
        found.append((Refusal.POST_TENSIONED, Triage.POST_TENSIONED))
    if kind in _ANCHORED and point.face != "soffit" and value_at(item, "hangs", "kind") in _PULLS_BY_WEIGHT:
        found.append((Refusal.WEIGHT_NOT_PULLING, None))
    return found


def _by_tables(point: _Point) -> tuple[Triage, ...]:
    return (Triage.BASE_BY_TABLES,) if point.kind in _BY_TABLES else ()


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
        return made | ({"allowed": list(dict.fromkeys(cell.words.values()))} if cell.words else {})
    if cell.words:
        return {**head, "answer": "word", "allowed": list(dict.fromkeys(cell.words.values()))}
    return {**head, "answer": _ANSWERS.get(cell.plain, "text")}
