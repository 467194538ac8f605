"""What stands on the cover of a submittal in words, and the table of its parts."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hangpoint.core.vocabulary import Status
from hangpoint.report.submittal.concerned import failing_without_sheet

Item = Mapping[str, Any]

MOST_IDS = 20
"""Ids that a sentence names."""
_HOLDS = {
    Status.PASSED: ("passes", "pass"),
    Status.FAILED: ("fails", "fail"),
    Status.REFUSED: ("is refused", "are refused"),
    Status.INVALID: ("is invalid", "are invalid"),
}


def statement(answer: Item) -> list[str]:
    """What the cover says, in sentences: how many points hold, and which do not."""
    return list(_sentences(answer))


def _sentences(answer: Item) -> Iterator[str]:
    summary, items = answer["summary"], answer["items"]
    counts = "; ".join(f"{summary[word]} {_plural(word, summary[word])}" for word in _HOLDS if summary[word])
    yield f"This submittal is of {_count(summary['total'], 'hang point')}: {counts}."
    for status, text in _NOT_HELD.items():
        ids = [_name(each) for each in items if each["status"] == status]
        if ids:
            yield text.format(count=_count(len(ids), "point"), verb=_plural(status, len(ids)), ids=_some(ids))
    bare = failing_without_sheet(answer)
    if bare:
        verb = "has" if len(bare) == 1 else "have"
        yield (
            f"Of what fails {_count(len(bare), 'point')} {verb} no calculation sheet here: {_some(bare)}. Why they fail"
            " stands in the schedule alone."
        )
    if summary["passed_on_assumptions"]:
        yield (
            "Passed on assumptions, because the request is silent:"
            f" {_count(summary['passed_on_assumptions'], 'point')}. Each assumption is listed with the points that it"
            " concerns."
        )
    invented = sum(each.get("product", {}).get("data") == "invented" for each in items)
    if invented:
        yield f"The product data of {_count(invented, 'point')} are invented: nothing may be built on them."
    limits = answer.get("structural_limits", ())
    for word in ("exceeded", "undecided"):
        named = [each["id"] for each in limits if each["status"] == word]
        if named:
            yield f"Limits of the structural notes that are {word}: {_some(named)}."


_NOT_HELD = {
    Status.FAILED: "{count} of this submittal {verb}: {ids}. What fails is in it as it was submitted, and does not hold"
    " so: nothing may be hung from it until it is changed and checked again.",
    Status.REFUSED: "{count} {verb}: {ids}. What is refused was understood and not checked, because it is outside what"
    " the code or the product data cover: nothing here says that it holds.",
    Status.INVALID: "{count} {verb}: {ids}. What is invalid can't be read or can't exist: it was not checked, and its"
    " loads are in no sum.",
}


def _plural(word: str, count: int) -> str:
    return _HOLDS[Status(word)][count != 1]


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'s' * (number != 1)}"


def _name(result: Item) -> str:
    return result["id"] or f"row {result['index'] + 1}"


def _some(ids: Sequence[str]) -> str:
    more = f" and {len(ids) - MOST_IDS} more, named in the schedule" if len(ids) > MOST_IDS else ""
    return ", ".join(ids[:MOST_IDS]) + more


def _cautions(number: int) -> str:
    return "1 caution or note" if number == 1 else f"{number} cautions and notes"


def parts(answer: Item) -> list[dict[str, Any]]:
    """The parts of a submittal with what each holds; ``answer`` has all but them."""
    made = _contents(answer)
    return [
        {"part": word, "number": number, "title": TITLES[word], "contents": made[word]}
        for number, word in enumerate(TITLES, 1)
    ]


TITLES: Mapping[str, str] = {
    "schedule": "Schedule of hang points",
    "load_map": "Load map",
    "installation_cards": "Installation cards of the products",
    "calculation_sheets": "Calculation sheets",
    "open_items": "Open questions, assumptions, what is not checked",
    "test_plan": "Plan of proof tests",
}
"""The parts behind the cover, in order."""


def _contents(answer: Item) -> dict[str, str]:
    found = {kind: len(own) for kind, own in answer["open_items"].items()}
    sheets, cards = answer["calculation_sheets"], answer["installation_cards"]["cards"]
    loads, summary = answer["load_map"], answer["load_map"]["summary"]
    plan, bare = answer.get("test_plan"), len(failing_without_sheet(answer))
    return {
        "schedule": f"{_count(summary['total'], 'point')}, and why those that do not pass do not",
        "load_map": f"{_count(len(loads['levels']), 'plan')} of levels and faces; {_count(summary['placed'], 'point')}"
        f" drawn, {summary['not_placed']} only listed",
        "installation_cards": f"{_count(len(cards), 'product')}, each in its base and face",
        "calculation_sheets": f"of {_count(len(sheets['of']), 'point')}; {len(sheets['left_out'])} left out"
        + (f" ({bare} of them failing)" if bare else "")
        + ", listed there",
        "open_items": f"{_count(found['questions'], 'question')} to the engineer; {_cautions(found['findings'])};"
        f" {_count(found['assumptions'], 'assumption')}; {found['not_checked']} not checked",
        "test_plan": "not asked for"
        if plan is None
        else f"{_count(len(plan['log']), 'test')}; {_count(len(plan['not_tested']), 'point')} without, listed there",
    }
