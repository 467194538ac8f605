"""The plan of proof tests of a submittal, or that none was asked for."""

from collections.abc import Iterable, Mapping
from math import ceil, floor
from typing import Any

from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.load_map.tables import Column, amount, column_table
from hangpoint.report.paper import head, listed
from hangpoint.report.submittal.concerned import Concerned

Answer = Mapping[str, Any]

_ROUNDING = 1e-9
_DECIMALS = {"in": 2, "mm": 0, "lbf": 1, "kN": 3}
_NOT_ASKED = "Not asked for: the request names no rule of tests."
_BEFORE = (
    "Made before the anchors are set: crews and days are not known yet. Once they are, the plan is made anew, so that"
    " every crew and every day has its tests. The load of each anchor is what the check knows of it, on the basis that"
    " the rule takes; a working load is the load on the structure, at sprinkler points with its 250 lb."
)


def proof_tests(answer: Answer, title: str) -> str:
    """What stands in the part."""
    plan = answer.get("test_plan")
    top = head(answer, "Submittal of hang points", title)
    return top + (f"<p>{_NOT_ASKED}</p>\n" if plan is None else _plan(answer, plan))


def _plan(answer: Answer, plan: Mapping[str, Any]) -> str:
    rule, unit = plan["rule"], answer["units"]["force"]
    memory = " From memory: verify it before it is used." if rule["from_memory"] else ""
    lists = {
        "Basis of the tests": [f"{rule['title']}. Source: {rule['source']}.{memory}", _BEFORE],
        "Groups": [_group(each, answer["units"]["length"]) for each in plan["groups"]],
    }
    below = {
        "Acceptance": plan["acceptance"],
        "After a failure": plan["after_failure"],
        "Assumed": plan["assumptions"].values(),
        "Not checked": plan["not_checked"].values(),
        "What was found": _findings(answer, plan),
        "No test": _not_tested(answer, plan),
        "Cautions": plan["cautions"],
    }
    return _lists(lists) + (column_table(plan["log"], _columns(unit)) if plan["log"] else "") + _lists(below)


def _lists(texts: Mapping[str, Iterable[str]]) -> str:
    return "".join(listed(title, map(sentence, own)) for title, own in texts.items())


def _group(group: Mapping[str, Any], unit: str) -> str:
    use, anchors = group["use"].replace("_", " "), _count(group["installed"], "anchor")
    away = ""
    if "support_distance" in group:
        decimals = _DECIMALS[unit]
        least = ceil(group["support_distance"] * 10**decimals * (1 - _ROUNDING)) / 10**decimals
        away = f" Two embedments are {least:g} {unit}."
    other = f" {group['torque_alternative']}" if "torque_alternative" in group else ""
    return (
        f"Group {group['group']}: {group['product']} in {group['base']}, {use}, {anchors},"
        f" {_count(group['tests'], 'test')}."
        f" {group['method_text']}{away}{other}"
    )


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'s' * (number != 1)}"


def _columns(unit: str) -> list[Column]:
    return [
        Column(title="Anchor", cell=lambda row: row["id"], number=False, wide=1),
        Column(title="Group", cell=lambda row: str(row["group"])),
        Column(title="Level", cell=lambda row: row.get("level", ""), number=False),
        Column(title="Method", cell=lambda row: row["method"], number=False, whole=True),
        Column(title=f"Test load [{unit}]", cell=lambda row: amount(row["test_load"], unit)),
        Column(title=f"Never above [{unit}]", cell=lambda row: _most(row["most_load"], unit)),
        Column(title="Hold [s]", cell=lambda row: f"{row['hold_seconds']:g}"),
        Column(title="Applied, held, moved, by whom, date", cell=lambda _: "", number=False, wide=1),
    ]


def _most(load: float, unit: str) -> str:
    """What the steel may take, rounded down."""
    step = 10 ** _DECIMALS[unit]
    return amount(floor(load * step * (1 + _ROUNDING)) / step, unit)


def _findings(answer: Answer, plan: Mapping[str, Any]) -> Iterable[str]:
    ids: dict[str, list[str]] = {}
    for row in plan["log"]:
        for found in row["findings"]:
            ids.setdefault(found["text"], []).append(row["id"])
    concerned = Concerned(answer)
    return (f"{text} Concerns {concerned.text(own)}." for text, own in ids.items())


def _not_tested(answer: Answer, plan: Mapping[str, Any]) -> Iterable[str]:
    ids: dict[str, list[str]] = {}
    for each in plan["not_tested"]:
        ids.setdefault(each["reason"]["text"], []).append(each["id"])
    concerned = Concerned(answer)
    return (f"{concerned.text(own)}: {text}" for text, own in ids.items())
