"""Outcomes and numbers of sweeps as JSON and in words."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from hangpoint.api.reverse.probes import Outcome
from hangpoint.core.clauses import Citing, cited
from hangpoint.core.vocabulary import Finding, Status
from hangpoint.core.vocabulary.words import Entry
from hangpoint.report.reasons import percent
from hangpoint.units import LENGTH, PRINTED, System

SIGNIFICANT = 4
_ROUNDED = 1e-9
"""Share of a value within which it is a rounder one."""


def entry_json(entry: Entry, citing: Citing) -> dict[str, str]:
    """A code with its clause and sentence."""
    return {"code": entry.code, "clause": cited(entry.clause, citing), "text": entry.text}


def outcome_json(outcome: Outcome) -> dict[str, Any]:
    """An outcome; of a mode that governs also its sentence."""
    made: dict[str, Any] = {"status": outcome.status}
    if outcome.utilisation is not None:
        made["utilisation"] = outcome.utilisation
    own = outcome.governing
    if own is not None:
        made["governing"] = {
            "link": own.mode.link,
            "mode": own.mode.value.code,
            "load_case": own.load_case,
            "text": governing_text(outcome),
        } | ({} if own.edge is None else {"edge": own.edge})
    if outcome.links:
        made["links"] = {link.value: used for link, used in outcome.links.items()}
    made["violations"] = [entry_json(each.value, outcome.citing) for each in outcome.violations]
    made["cautions"] = [each.value.code for each in outcome.cautions]
    made["to_engineer"] = [each.value.code for each in outcome.to_engineer]
    if outcome.refusal is not None:
        made["reason"] = entry_json(outcome.refusal.value, outcome.citing)
    if outcome.problem is not None:
        made["problem"] = dict(outcome.problem)
    return made


def governing_text(outcome: Outcome) -> str:
    """What governs, in words."""
    own = outcome.governing
    if own is None:
        return "nothing is checked"
    edge = "" if own.edge is None else f" at the edge {own.edge}"
    return f"{own.mode.value.text} governs{edge} ({own.load_case})"


def why(outcome: Outcome) -> str:
    """Why a probe does not pass, or what governs it."""
    if outcome.status is Status.INVALID:
        return "it is not possible: " + str((outcome.problem or {}).get("detail", "")).rstrip(".")
    if outcome.refusal is not None:
        entry = outcome.refusal.value
        return f"it is refused ({entry.code}): {_clause(entry.text)}"
    if outcome.violations and (outcome.utilisation or 0) <= 1:
        return violated(outcome.violations)
    beside = f"; {violated(outcome.violations)}" if outcome.violations else ""
    return f"{governing_text(outcome)}, utilisation {percent(outcome.utilisation or 0)}{beside}"


def violated(violations: Sequence[Finding]) -> str:
    """Violations in words, to end a sentence with."""
    return "; ".join(_clause(each.value.text) for each in violations)


def _clause(sentence: str) -> str:
    text = sentence.rstrip(".")
    return text[0].lower() + text[1:]


def because(outcome: Outcome) -> list[str]:
    """Codes of what stands against a probe."""
    if outcome.problem is not None:
        errors: list[Mapping[str, Any]] = outcome.problem.get("errors", [])
        return [str(each["code"]) for each in errors]
    if outcome.refusal is not None:
        return [outcome.refusal.value.code]
    return [each.value.code for each in outcome.violations]


def rounder(value: float) -> float:
    """The nearest number of so many digits as are printed."""
    return float(f"{value:.{SIGNIFICANT}g}")


def length_text(value: float, system: System, *, up: bool | None = None) -> str:
    """A length of five digits in words, rounded up or down where one of them is the safe side."""
    text = f"{value:.5g}" if up is None else printed(value, up=up, significant=5)
    return f"{text} {PRINTED[system][LENGTH.name]}"


def printed(value: float, *, up: bool, significant: int = SIGNIFICANT) -> str:
    """A number of so many digits, rounded to the side that still passes."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    digits = significant - 1 - math.floor(math.log10(abs(value)))
    step = 10.0**-digits
    near = round(value / step) * step
    if abs(near - value) > _ROUNDED * abs(value):
        near = (math.ceil if up else math.floor)(value / step) * step
    return f"{near:.{max(digits, 0)}f}".rstrip("0").rstrip(".") if digits > 0 else f"{near:.0f}"
