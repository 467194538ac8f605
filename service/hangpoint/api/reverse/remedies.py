"""Remedies of a point that doesn't pass: changes that one can build, each a probe of the check, the smallest first.

What only the engineer could show (strength, uncracked state, thickness, density, category) is never a remedy
(reading 42); what of it would do is listed apart.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, cast

import numpy as np

from hangpoint.api.reverse.asked import Asked, read_asked
from hangpoint.api.reverse.building import Change, other_changes, product_changes
from hangpoint.api.reverse.changes import assumed_of_moves
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.probes import Outcome, probe
from hangpoint.api.reverse.shown import shown_by_engineer
from hangpoint.api.reverse.words import outcome_json, why
from hangpoint.api.schemas.remedies import RemediesRequest
from hangpoint.core.vocabulary import ChangeAssumption, ChangeNotChecked, Status
from hangpoint.pack.objects import value_at
from hangpoint.product.catalogue import Catalogue

RESERVE = 0.1
_EVERY = 4
"""Steps of a move that are tried together with another change: each fourth."""

_MOST_COMBINED = 8
ORDER = (
    "gap_closed",
    "deeper_embedment",
    "larger_rod",
    "larger_size",
    "moved",
    "hangers_closer",
    "anchors_added",
)
"""Kinds of change, the smallest first."""

_ROUNDED = 1e-9
_UNCHECKED_BASES = ("steel", "wood", "unknown")
_OTHER_FAMILIES = "Another family may do: ask for a selection among all families with the same situation."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tried:
    """One change or two together, and what becomes of it."""

    changes: tuple[Change, ...]
    outcome: Outcome

    def keeps(self, reserve: float) -> bool:
        """Whether it passes and leaves the reserve."""
        return self.outcome.passed and self.outcome.most_used <= 1 - reserve + _ROUNDED

    @property
    def line(self) -> tuple[tuple[str, str], ...]:
        """Of changes on one line only the smallest is told."""
        return tuple((each.kind, each.line) for each in self.changes)


def run_remedies(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body and look for what would make its item pass.

    Raises:
        ProblemError: the body can't be read, or the item can't be checked.
    """
    asked = read_asked(RemediesRequest, body, catalogue)
    reserve = float(asked.body.get("reserve", RESERVE))
    head = asked.head()
    if "reserve" not in asked.body:
        head["assumptions"] |= _said(ChangeAssumption.RESERVE)
    stated = _Tried(changes=(), outcome=asked.stated)
    if stated.keeps(reserve):
        return head | _answer(reserve, "It passes and keeps the reserve: nothing needs to change.", asked)
    single = _single(asked)
    kept = _smallest(single, lambda each: each.keeps(reserve))
    tried = single
    if not kept:
        tried = [*single, *_combined(asked)]
        kept = _smallest(tried[len(single) :], lambda each: each.keeps(reserve))[:_MOST_COMBINED]
    short = _smallest(single, lambda each: each.outcome.passed) or _smallest(tried, lambda each: each.outcome.passed)
    lines = {each.line for each in kept}
    short = [each for each in short if each.line not in lines][:_MOST_COMBINED]
    if any("anchors_added" in _kinds(each) for each in (*kept, *short)):
        head["assumptions"] |= _said(ChangeAssumption.STIFF_ATTACHMENT)
    head["not_checked"] |= _said(
        ChangeNotChecked.NEW_PLACE, ChangeNotChecked.NEIGHBOURS_UNSTATED, ChangeNotChecked.OTHER_HANGERS
    )
    made = _answer(reserve, _text(kept, short, asked), asked, tried=len(tried))
    made |= {
        "remedies": [_remedy(each) for each in kept],
        "short_of_reserve": [_remedy(each) for each in short],
        "engineer_would_have_to_show": shown_by_engineer(asked),
    }
    nearest = None if kept or short else _nearest(tried)
    if any("moved" in _kinds(each) for each in (*kept, *short, *filter(None, (nearest,)))):
        head["assumptions"] |= _said(*assumed_of_moves(asked.item, asked.system))
    made |= {} if nearest is None else {"nearest": _remedy(nearest)}
    told = [*made["remedies"], *made["short_of_reserve"], *made["engineer_would_have_to_show"]]
    own = asked.head(asked.changed([*told, *([] if nearest is None else [made["nearest"]])]))
    return head | {name: own[name] | head[name] for name in ("assumptions", "not_checked")} | made


def _answer(reserve: float, text: str, asked: Asked, *, tried: int = 0) -> dict[str, Any]:
    return {
        "reserve": reserve,
        "text": text,
        "remedies": [],
        "short_of_reserve": [],
        "engineer_would_have_to_show": [],
        "other_families": {
            "path": "/v1/selections",
            "text": _OTHER_FAMILIES,
        },
        "tried": tried,
    }


def _text(kept: Sequence[_Tried], short: Sequence[_Tried], asked: Asked) -> str:
    now = f"As stated, {why(asked.stated)}."
    if kept:
        return f"{now} Smallest change: {_words(kept[0])}"
    if short:
        return f"{now} Nothing tried keeps the reserve; what passes without it is listed."
    if value_at(asked.item, "base", "kind") in _UNCHECKED_BASES:
        return f"{now} Nothing tried makes it pass."
    return f"{now} Nothing tried makes it pass. {_OTHER_FAMILIES}"


def _single(asked: Asked) -> list[_Tried]:
    changes = sorted([*product_changes(asked), *other_changes(asked)], key=lambda each: ORDER.index(each.kind))
    return _tried([(each,) for each in changes], asked)


def _combined(asked: Asked) -> list[_Tried]:
    """Another product or a larger rod, and one other change with it."""
    others = other_changes(asked, every=_EVERY)
    first = [*product_changes(asked), *(each for each in others if each.kind == "larger_rod")]
    pairs = [(a, b) for a in first for b in others if b.kind != a.kind and not _collide(a, b)]
    pairs.sort(key=lambda pair: sum(ORDER.index(each.kind) for each in pair))
    return _tried(pairs, asked)


def _collide(a: Change, b: Change) -> bool:
    return "rod" in a.patch and "rod" in b.patch


def _tried(several: Sequence[tuple[Change, ...]], asked: Asked) -> list[_Tried]:
    if not several:
        return []
    items: list[Any] = []
    for changes in several:
        item: Any = asked.item
        for each in changes:
            item = merged(item, each.patch)
        items.append(item)
    probes = probe(items, asked.situation)
    return [_Tried(changes=changes, outcome=probes.outcome(row)) for row, changes in enumerate(several)]


def _smallest(several: Sequence[_Tried], holds: Callable[[_Tried], bool]) -> list[_Tried]:
    """The first of each line that holds, in order."""
    found: dict[tuple[tuple[str, str], ...], _Tried] = {}
    for each in several:
        if each.line not in found and holds(each):
            found[each.line] = each
    return list(found.values())


def _nearest(tried: Sequence[_Tried]) -> _Tried | None:
    """Of changes that could be checked the one with fewest violations, then the least used."""
    checked = [each for each in tried if each.outcome.status is Status.FAILED]
    return min(
        checked, key=lambda each: (len(each.outcome.violations), each.outcome.utilisation or np.inf), default=None
    )


def _kinds(each: _Tried) -> list[str]:
    return [change.kind for change in each.changes]


def _words(each: _Tried) -> str:
    return " ".join(change.text for change in each.changes)


def _remedy(each: _Tried) -> dict[str, Any]:
    patch: Any = {}
    for change in each.changes:
        patch = _joined(patch, change.patch)
    made: dict[str, Any] = {"kinds": _kinds(each), "text": _words(each)}
    if each.outcome.utilisation is not None:
        made["reserve"] = 1 - each.outcome.most_used
    return made | {"outcome": outcome_json(each.outcome), "patch": patch}


def _joined(a: Any, b: Any) -> Any:
    """Two patches as one; what takes away in either does in it."""
    if not isinstance(a, dict) or not isinstance(b, dict):
        return b
    first, second = cast(dict[str, Any], a), cast(dict[str, Any], b)
    both = {key: _joined(first[key], second[key]) for key in first if key in second}
    return first | second | both


def _said(*members: Any) -> dict[str, str]:
    return {each.value.code: each.value.text for each in members}
