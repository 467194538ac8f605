"""The answer to a request for substitutes of a product that is named."""

from collections.abc import Mapping, Sequence
from typing import Any

import orjson

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import Batch, read_whole
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.run import valid_single
from hangpoint.api.schemas.substitutions import SubstitutionsRequest
from hangpoint.api.selection.opened import OpenBatch, Opened, head_json, open_batch, said
from hangpoint.core.vocabulary import Assumption
from hangpoint.core.vocabulary.selection import APPROVAL_TEXT, PRINCIPLE_TEXT, SelectionAssumption
from hangpoint.pack.anchors import pack_anchors
from hangpoint.pack.card_bases import card_bases
from hangpoint.pack.flags import Flags
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.pull import Rows
from hangpoint.pack.selection.answer import counts_json, nearest_json, ranked_candidates, rejected_candidates
from hangpoint.pack.selection.candidates import Shelf
from hangpoint.pack.selection.equals import (
    Named,
    changed_facts,
    lesser,
    mode_by_mode,
    named_in_catalogue,
    named_inline,
    worse_facts,
)
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import System

SUBSTITUTES = 5
"""Listed where the request doesn't say how many."""

_PRODUCT = ("family", "size", "h_ef", "product")
_HEAD = ("units", "design_code", "combinations", "load_standard")


def run_substitutions(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body, check the product that it names, and what else would do.

    Raises:
        ProblemError: the body can't be read, or the point is invalid.
    """
    request = read_whole(SubstitutionsRequest, body)
    item = request["item"]
    head = {name: request[name] for name in _HEAD if name in request}
    named_batch = Batch(items=[item], neighbours="off", detail="modes", **head)
    own = _answer(named_batch, catalogue)
    places = {"#/items/0": "#/item"}
    result = valid_single(own, places)["items"][0]
    if not any(name in item.get("anchor", {}) for name in _PRODUCT):
        detail = "Name the product that is to be replaced."
        error = FieldError(pointer="#/item/anchor", code="missing", detail=detail)
        raise ProblemError("validation", f"{error.pointer}: {detail}", errors=[error])
    named = _named(item, result, catalogue)
    anchor = {name: value for name, value in item["anchor"].items() if name not in _PRODUCT}
    batch = OpenBatch(
        items=[{**item, "anchor": anchor}], want=request.get("want", {}), most=request.get("most"), **head
    )
    masonry = item.get("base", {}).get("kind") == "masonry"
    opened = open_batch(batch, catalogue, more=lambda shelf: lesser(named, shelf, masonry=masonry))
    valid_single({"summary": {"invalid": len(opened.invalid)}, "items": list(opened.invalid.values())}, places)
    ranked = ranked_candidates(opened.chosen, 0, opened.batch.most or SUBSTITUTES)
    beside = _checks(opened, ranked, catalogue)
    checked: list[dict[str, Any]] = beside.get("items", [])
    limits = _least([item, *_substituted(opened, ranked)], opened.batch.units, catalogue)
    limits = [(limits[0], own) for own in limits[1:]]
    if named.exposure is None:
        opened.assumed = [*opened.assumed, SelectionAssumption.PROTECTION]
    answer: dict[str, Any] = {
        **head_json(
            opened, catalogue, objective=opened.chosen.wishes.objective, what=f"substitutions {own['request_digest']}"
        ),
        "named": result,
        "status": "substitutes" if ranked else "none",
        "approval": APPROVAL_TEXT,
        "counts": counts_json(opened.chosen, 0),
        "substitutes": [
            candidate | _beside(opened, named, result, candidate, check, least)
            for candidate, check, least in zip(ranked, checked, limits, strict=True)
        ],
        "rejected": rejected_candidates(opened.chosen, 0),
        **said(opened, own, beside),
    }
    if not ranked:
        answer["nearest"] = nearest_json(opened.chosen, 0, opened.changes.get(0))
    return answer


def _answer(batch: Batch, catalogue: Catalogue) -> dict[str, Any]:
    answer = answer_batch(batch, catalogue=catalogue, limits=Limits(), detail="modes", wire=True)
    return {**answer, "items": orjson.loads(orjson.dumps(answer["items"]))}


def _named(item: Mapping[str, Any], result: Mapping[str, Any], catalogue: Catalogue) -> Named:
    inline = item["anchor"].get("product")
    if inline is not None:
        return named_inline(inline)
    return named_in_catalogue(Shelf(catalogue), catalogue.addresses.index(result["product"]["address"]))


def _checks(opened: Opened, ranked: Sequence[Mapping[str, Any]], catalogue: Catalogue) -> dict[str, Any]:
    """The check of the point with each substitute, nothing without one."""
    if not ranked:
        return {}
    batch = opened.checked_batch(_substituted(opened, ranked), "off")
    batch.detail = "modes"
    return _answer(batch, catalogue)


def _substituted(opened: Opened, ranked: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """The point with each substitute."""
    rows = {label.address: row for row, label in enumerate(opened.chosen.shelf.labels)}
    return [{**opened.named(0, rows[own["product"]]), "id": f"substitute {place}"} for place, own in enumerate(ranked)]


def _least(items: Sequence[Any], system: System, catalogue: Catalogue) -> list[Mapping[str, float]]:
    """The least distances that a check takes of each item, which is valid, in its base."""
    rows = Rows(
        items,
        default={},
        path="",
        index=range(len(items)),
        local=range(len(items)),
        system=system,
        flaws=Flaws(),
    )
    anchors = pack_anchors(rows, catalogue=catalogue, assumptions=Flags(Assumption, len(items)))
    return [dict(own.least) for own in card_bases(rows, anchors).own]


def _beside(
    opened: Opened,
    named: Named,
    result: Mapping[str, Any],
    candidate: Mapping[str, Any],
    check: Mapping[str, Any],
    least: Sequence[Mapping[str, float]],
) -> dict[str, Any]:
    shelf = opened.chosen.shelf
    row = next(row for row, label in enumerate(shelf.labels) if label.address == candidate["product"])
    substitute = named_in_catalogue(shelf, row)
    modes = mode_by_mode(result.get("modes", ()), check["modes"])
    changes = changed_facts(named, substitute, opened.chosen.system, least=least)
    made: dict[str, Any] = {
        "principle_changes": substitute.principle != named.principle,
        "modes": modes,
        "changes": changes,
        "worse": [own["mode"] for own in modes if own["worse"]] + worse_facts(changes),
    }
    if made["principle_changes"]:
        words = {"substitute": substitute.principle, "named": named.principle}
        said_of = {name: word.replace("_", " ") for name, word in words.items()}
        made["principle_text"] = PRINCIPLE_TEXT.format(**said_of)
    return made
