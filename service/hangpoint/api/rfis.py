"""Requests for information: what an answer of hang points leaves to the engineer, with what each answer would change.

The points are checked as they are stated, and again with each answer that the engineer may give in the points that the
question concerns; points near these are checked with them.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from hangpoint.api.batch import answer_batch
from hangpoint.api.bodies import Batch
from hangpoint.api.hang_point_runs import runs_of
from hangpoint.api.load_maps import OF_THE_CHECK, loads_of
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.shown import DECIDED_BY
from hangpoint.api.state import State
from hangpoint.core.vocabulary import Assumption, RfiQuestion, Status, Triage
from hangpoint.pack.submittal.schedule import open_items

Item = Mapping[str, Any]

_DETAIL = "verdict"
_COUNTED = ("total", "passed", "failed", "refused", "invalid")
_STATUSES = ("passed", "failed", "refused")
_SHOWN = (
    *("id", "index", "status", "number", "level", "member", "face", "facing", "x", "y", "z"),
    *("on_structure", "product", "mode", "utilisation"),
)
"""What is told of a point: of an item of the load map, where it stands there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Possible:
    """An answer that may come back, in words and as a change of the points that the question concerns."""

    text: str
    patch: Mapping[str, Any]


def _strength(text: str, **stated: str) -> _Possible:
    return _Possible(text=text, patch={"base": {"strength": stated}})


_CRACKED = _Possible(text="The concrete is cracked.", patch={"base": {"state": "cracked", "state_decided_by": None}})
_UNCRACKED = _Possible(
    text="The concrete stays uncracked.", patch={"base": {"state": "uncracked", "state_decided_by": DECIDED_BY}}
)
_NO_TENDONS = _Possible(text="The member is not post-tensioned.", patch={"base": {"post_tensioned": "no"}})
_TIED = _Possible(text="Supplementary reinforcement is present.", patch={"base": {"supplementary": True}})
_CATEGORIES = (
    _Possible(text="Performance category C1 is enough.", patch={"seismic": {"performance_category": "C1"}}),
    _Possible(text="Performance category C2 is asked for.", patch={"seismic": {"performance_category": "C2"}}),
)
_STRENGTHS = (
    _strength("f'c is 3,000 psi (20.7 MPa).", f_c="3000 psi"),
    _strength("f'c is 4,000 psi (27.6 MPa).", f_c="4000 psi"),
    _strength("f'c is 5,000 psi (34.5 MPa).", f_c="5000 psi"),
)
_ANSWERS: Mapping[str, Sequence[_Possible]] = {
    Triage.EXISTING_STRENGTH.value.code: _STRENGTHS,
    Triage.UNCRACKED.value.code: (_CRACKED,),
    Triage.POST_TENSIONED.value.code: (_NO_TENDONS,),
    Triage.EN_EARTHQUAKE.value.code: _CATEGORIES,
    RfiQuestion.STRENGTH.value.code: _STRENGTHS,
    RfiQuestion.STATE.value.code: (_UNCRACKED,),
    RfiQuestion.SUPPLEMENTARY.value.code: (_TIED,),
}
"""Those that can be computed, by the code of the question. EN 1992-4 asks for the class: it is never open there."""
_OF_ASSUMPTIONS = {
    RfiQuestion.STRENGTH: Assumption.F_C,
    RfiQuestion.STATE: Assumption.CRACKED,
    RfiQuestion.SUPPLEMENTARY: Assumption.NO_SUPPLEMENTARY,
}
_QUESTIONS = {each.value.code: each.value for each in (*Triage, *RfiQuestion)}


def _answer(batch: Batch, state: State) -> dict[str, Any]:
    loads = loads_of(batch)
    batch = replace(batch, detail=_DETAIL)
    checked = answer_batch(batch, catalogue=state.catalogue, limits=state.limits, detail=_DETAIL, on_loads=loads.add)
    found = enumerate(_rfis(batch, checked, state), start=1)
    rfis: list[dict[str, Any]] = [{"number": number, **each} for number, each in found]
    asked: dict[str, list[int]] = {}
    for each in rfis:
        for own in each["ids"]:
            asked.setdefault(own, []).append(each["number"])
    return {name: checked[name] for name in OF_THE_CHECK if name in checked} | {
        "summary": {name: checked["summary"][name] for name in _COUNTED} | {"rfis": len(rfis)},
        "rfis": rfis,
        "items": [_item(each, asked) for each in loads.items(checked["items"])],
    }


run_rfis, run_rfis_csv = runs_of(_answer)


def _item(item: Item, asked: Mapping[str, Sequence[int]]) -> dict[str, Any]:
    if item["status"] == Status.INVALID:
        return dict(item)
    return {name: item[name] for name in _SHOWN if name in item} | {"rfis": asked.get(item["id"], [])}


def _rfis(batch: Batch, checked: Mapping[str, Any], state: State) -> Iterator[dict[str, Any]]:
    """The questions with the points that each concerns, and what its answers would change."""
    before = checked["items"]
    rows = {each["id"]: each["index"] for each in before if each["status"] != Status.INVALID}
    for code, ids in _asked(checked).items():
        entry, possible = _QUESTIONS[code], _ANSWERS.get(code, ())
        own = [rows[each] for each in ids]
        effects = list(_effects(possible, batch, before, own, state))
        if code in _SILENT:
            own = _decided(effects, own)
            effects = list(_effects(possible, batch, before, own, state)) if own else []
        if own:
            yield {
                "code": code,
                "text": entry.text,
                "question": entry.question,
                "clause": entry.clause,
                "ids": [before[row]["id"] for row in own],
                **_outcome(before, own),
                "answers": effects,
            }


def _decided(effects: Sequence[Item], rows: Sequence[int]) -> list[int]:
    """Those of the points that an answer makes pass though they don't now."""
    helped = {each["index"] for effect in effects for each in effect["changed"] if each["after"] == Status.PASSED}
    return [row for row in rows if row in helped]


_SILENT = frozenset(each.value.code for each in RfiQuestion)


def _asked(checked: Mapping[str, Any]) -> dict[str, list[str]]:
    """Ids by the code of the question; of the strength of a structure that exists it is asked once."""
    opened = open_items(checked)
    asked: dict[str, list[str]] = {each["code"]: each["ids"] for each in opened["questions"]}
    silent = {each["code"]: each["ids"] for each in opened["assumptions"]}
    known = set(asked.get(Triage.EXISTING_STRENGTH.value.code, ()))
    for question, assumption in _OF_ASSUMPTIONS.items():
        ids = silent.get(assumption.value.code, [])
        asked[question.value.code] = [each for each in ids if question is not RfiQuestion.STRENGTH or each not in known]
    return {code: ids for code, ids in asked.items() if ids}


def _effects(
    possible: Sequence[_Possible], batch: Batch, before: Sequence[Item], rows: Sequence[int], state: State
) -> Iterator[dict[str, Any]]:
    """What each answer makes of the points that it concerns, and the verdicts that it changes, of near points too.

    An answer that makes a point invalid contradicts what another point of its member states: it is none.
    """
    for each in possible:
        items = list(batch.items)
        for row in rows:
            items[row] = merged(items[row], each.patch)
        changed = replace(batch, items=items, columns=())
        after = answer_batch(changed, catalogue=state.catalogue, limits=state.limits, detail=_DETAIL)["items"]
        moved = [(one, other) for one, other in zip(before, after, strict=True) if one["status"] != other["status"]]
        if not any(other["status"] == Status.INVALID for _, other in moved):
            yield {
                "text": each.text,
                "patch": each.patch,
                **_outcome(after, rows),
                "changed": [
                    {"id": one["id"], "index": one["index"], "before": one["status"], "after": other["status"]}
                    for one, other in moved
                ],
            }


def _outcome(results: Sequence[Item], rows: Sequence[int]) -> dict[str, Any]:
    """Counts of verdicts, and the largest utilisation."""
    found = Counter(results[row]["status"] for row in rows)
    used = [results[row]["governing"]["utilisation"] for row in rows if "governing" in results[row]]
    return {
        "summary": {status: found[status] for status in _STATUSES},
        **({"most_used": max(used)} if used else {}),
    }
