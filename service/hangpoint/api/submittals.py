"""The answer to a request for a submittal: hang points are checked once, and every part is made of that check."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from hangpoint.api.batch import answer_batch
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.calculations import calculation_subjects, refuse_unknown
from hangpoint.api.csv_body import CsvOptions, read_csv
from hangpoint.api.installation_cards import cards_of
from hangpoint.api.load_maps import loads_of, map_of
from hangpoint.api.pdf_files import MOST_SHEETS
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.run import Run
from hangpoint.api.schemas.submittals import SubmittalRequest
from hangpoint.api.state import State
from hangpoint.api.test_plans import plan_of
from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.site.proof_rules import PROOF_RULES
from hangpoint.core.vocabulary import SheetReason, Status
from hangpoint.pack.points import Packed
from hangpoint.pack.submittal.cover import parts, statement
from hangpoint.pack.submittal.proof_tests import anchors_of, planned
from hangpoint.pack.submittal.schedule import Embedments, open_items, sheets_of
from hangpoint.product.catalogue import Catalogue
from hangpoint.report.calculation.subject import Subject


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSource:
    """What the calculation sheets of a submittal are made of."""

    run: Run
    catalogue: Catalogue

    def subjects(self) -> list[Subject]:
        """What has a sheet."""
        return calculation_subjects(self.run, self.catalogue)


def run_submittals(body: bytes, state: State) -> tuple[dict[str, Any], SheetSource]:
    """Read a body, check its hang points and bring the check into the parts of a submittal.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items or sheets, a duplicate id, an
            unknown id among those whose sheets are asked for.
    """
    batch = read_items(SubmittalRequest, body, what="hang points")
    return _answer(batch, batch.others, state, place="#/only")


def run_submittals_csv(
    body: bytes, options: CsvOptions, head: Mapping[str, Any], state: State
) -> tuple[dict[str, Any], SheetSource]:
    """The same of a CSV; ``head`` is what its query states.

    Raises:
        ProblemError: as `run_submittals`.
    """
    own = {name: head[name] for name in _OF_THE_SUBMITTAL if name in head}
    of_check = {name: value for name, value in head.items() if name not in own}
    return _answer(read_csv(body, replace(options, **of_check)), own, state, place="?only")


_OF_THE_SUBMITTAL = ("sheets", "only", "test_rule", "test_use")


def _answer(batch: Batch, stated: Mapping[str, Any], state: State, *, place: str) -> tuple[dict[str, Any], SheetSource]:
    if "sheets" in stated and "only" in stated:
        error = FieldError(pointer=place, code="contradiction", detail="State sheets, or the ids alone, not both.")
        raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])
    if "test_use" in stated and "test_rule" not in stated:
        own = place.replace("only", "test_use")
        error = FieldError(pointer=own, code="contradiction", detail="Without a test_rule there is no plan of tests.")
        raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])
    first = answer_batch(
        replace(batch, detail="verdict"), catalogue=state.catalogue, limits=state.limits, detail="verdict"
    )
    results = first["items"]
    errors = {**batch.errors, **_errors(results)}
    cards = cards_of(replace(batch, errors=errors, combinations=first["combinations"]), state)
    reasons = _sheets(results, cards, stated, state, place=place)
    ids = frozenset(results[row]["id"] for row in reasons)
    traced = replace(batch, detail="trace", traced=ids)
    loads, embedments = loads_of(batch), Embedments(batch.units)

    def take(packed: Packed, demand: Demand) -> None:
        loads.add(packed, demand)
        embedments.add(packed, demand)

    checked = answer_batch(traced, catalogue=state.catalogue, limits=state.limits, detail="trace", on_loads=take)
    answer = checked | {"load_map": map_of(checked, loads), "installation_cards": cards}
    answer |= {
        "schedule": embedments.schedule(answer["load_map"]["items"]),
        "calculation_sheets": _calculations(checked["items"], reasons, stated),
        "open_items": open_items(checked),
    }
    if "test_rule" in stated:
        answer["test_plan"] = _plan(batch, answer, stated, state)
    answer |= {"statement": statement(answer), "parts": parts(answer)}
    return answer, SheetSource(run=Run(batch=traced, answer=answer), catalogue=state.catalogue)


def _errors(results: Sequence[Mapping[str, Any]]) -> dict[int, list[FieldError]]:
    """The errors of invalid points, so that no other part takes one of them for valid."""
    return {
        each["index"]: list(map(_error, each["problem"]["errors"]))
        for each in results
        if each["status"] == Status.INVALID
    }


def _error(stated: Mapping[str, Any]) -> FieldError:
    own = dict(stated)
    return FieldError(allowed=tuple(own.pop("allowed", ())), **own)


def _sheets(
    results: Sequence[Mapping[str, Any]],
    cards: Mapping[str, Any],
    stated: Mapping[str, Any],
    state: State,
    *,
    place: str,
) -> dict[int, SheetReason]:
    """The points that have a calculation sheet, by row."""
    valid = [each for each in results if each["status"] != Status.INVALID]
    if "only" in stated:
        wanted = frozenset(stated["only"])
        refuse_unknown(wanted, [each["id"] for each in results], place=place, sign=";")
        return {each["index"]: SheetReason.ASKED for each in results if each["id"] in wanted}
    if stated.get("sheets") == "all":
        return {each["index"]: SheetReason.ASKED for each in valid}
    card_of_row = {each["index"]: each["card"] for each in cards["items"] if "card" in each}
    return sheets_of(results, card_of_row, min(MOST_SHEETS, state.limits.traces))


def _calculations(
    results: Sequence[Mapping[str, Any]], reasons: Mapping[int, SheetReason], stated: Mapping[str, Any]
) -> dict[str, Any]:
    return {
        "sheets": "named" if "only" in stated else stated.get("sheets", "worst"),
        "of": [
            {"id": results[row]["id"], "index": row, "reason": {"code": why.value.code, "text": why.value.text}}
            for row, why in reasons.items()
        ],
        "left_out": [
            each["id"] for each in results if each["index"] not in reasons and each["status"] != Status.INVALID
        ],
    }


def _plan(batch: Batch, answer: Mapping[str, Any], stated: Mapping[str, Any], state: State) -> dict[str, Any]:
    name = str(stated["test_rule"])
    items, left = planned(
        PROOF_RULES[name],
        answer["items"],
        answer["load_map"]["items"],
        batch.items,
        defaults=batch.defaults,
        use=stated.get("test_use"),
    )
    anchors = Batch(units=batch.units, detail="plan", defaults=anchors_of(batch.defaults), items=items)
    return plan_of(anchors, name, state) | {"not_tested": left}
