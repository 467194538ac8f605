"""The schedule of a submittal, which of its points have calculation sheets, and what it leaves open, each said once."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.vocabulary import Severity, SheetReason, Status
from hangpoint.pack.points import Packed
from hangpoint.pack.printed import in_request_units
from hangpoint.units import LENGTH, System

Item = Mapping[str, Any]

_SHOWN = (
    *("id", "index", "status", "number", "level", "member", "face", "facing", "x", "y", "z"),
    *("product", "demand", "mode", "utilisation"),
)
"""What a schedule has of an item of the load map, where it stands there."""
_CHECKED = (Status.PASSED, Status.FAILED)


class Embedments:
    """The effective embedment of the valid points of a batch, taken in part by part as they are checked."""

    def __init__(self, system: System) -> None:
        """``system`` is that of the request."""
        self._system: System = system
        self._of_row: dict[int, float] = {}

    def add(self, packed: Packed, _: Demand) -> None:
        """Take in some points; one without a product has none."""
        h_ef = packed.points.products.h_ef
        own = in_request_units(np.where(h_ef > 0, h_ef, 0.0), LENGTH, self._system)
        for row, address, depth in zip(packed.index, packed.labels.addresses, own.tolist(), strict=True):
            if address is not None:
                self._of_row[row] = depth

    def schedule(self, items: Sequence[Item]) -> list[dict[str, Any]]:
        """A row of the schedule for every item of a load map."""
        return [_row(item, self._of_row.get(item["index"])) for item in items]


def _row(item: Item, h_ef: float | None) -> dict[str, Any]:
    row = {name: item[name] for name in _SHOWN if name in item}
    row["number"] = item["index"] + 1
    return row if h_ef is None or "product" not in row else row | {"h_ef": h_ef}


def sheets_of(results: Sequence[Item], card_of_row: Mapping[int, int], most: int) -> dict[int, SheetReason]:
    """The points whose calculation an engineer reads first, by row: the most used of each card, and those that fail.

    Args:
        results: of the check.
        card_of_row: the installation card of a row: its product, base and face.
        most: how many at most; where there are more, the most used of cards come first, then those that fail, and of
            both those that are used most.
    """
    used = {each["index"]: _used(each) for each in results if each["status"] in _CHECKED}
    ranked = sorted(used, key=lambda row: -used[row])
    worst: dict[int, int] = {}
    for row in ranked:
        if row in card_of_row:
            worst.setdefault(card_of_row[row], row)
    failing = [row for row in ranked if results[row]["status"] == Status.FAILED]
    chosen = list(dict.fromkeys((*worst.values(), *failing)))[:most]
    fails = set(failing)
    return {row: SheetReason.FAILS if row in fails else SheetReason.MOST_USED for row in sorted(chosen)}


def _used(result: Item) -> float:
    return result.get("governing", {}).get("utilisation", 0.0)


def open_items(answer: Item) -> dict[str, list[dict[str, Any]]]:
    """Questions to the engineer, cautions, assumptions and what is not checked, each once with the ids it concerns.

    One without ids is of the request as a whole. Violations are not among them: they are why a point fails.
    """
    items = answer["items"]
    seen = [
        (each["id"], found)
        for each in items
        for found in each.get("findings", ())
        if found["severity"] != Severity.VIOLATION
    ]
    asked = [(each["id"], own) for each in items for own in each.get("to_engineer", ())]
    return {
        "questions": _gathered(asked, ("code", "text", "question")),
        "findings": _gathered(seen, ("code", "clause", "severity", "text")),
        **{kind: _of_codes(answer, kind) for kind in ("assumptions", "not_checked")},
    }


def _gathered(found: Iterable[tuple[str, Item]], members: Sequence[str]) -> list[dict[str, Any]]:
    ids: dict[tuple[Any, ...], list[str]] = {}
    for own, each in found:
        ids.setdefault(tuple(each[name] for name in members), []).append(own)
    return [dict(zip(members, key, strict=True)) | {"ids": list(dict.fromkeys(own))} for key, own in ids.items()]


def _of_codes(answer: Item, kind: str) -> list[dict[str, Any]]:
    ids: dict[str, list[str]] = {code: [] for code in answer[kind]}
    for each in answer["items"]:
        for code in each.get(kind, ()):
            ids[code].append(each["id"])
    return [{"code": code, "text": answer[kind][code], "ids": own} for code, own in ids.items()]
