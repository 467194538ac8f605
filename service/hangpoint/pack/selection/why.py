"""Why nothing holds a point, in words: what stands against most candidates, what would do or comes nearest."""

from collections.abc import Mapping, Sequence
from typing import Any

from hangpoint.core.vocabulary.selection import Rejection
from hangpoint.units import PRINTED, System

_MOST_REASONS = 5
_BY_LOAD = {own.value.code: own.value.text for own in (Rejection.UTILISATION, Rejection.RESERVE, Rejection.ROD)}
"""Reasons whose sentence has the numbers of each candidate in it."""

UNTRIED = "No change was tried for this point: ask for it alone."
NOTHING = "No change that was tried makes one hold: another place, another base, or the engineer."


def why_nothing_holds(
    rejected: Sequence[Mapping[str, Any]], changes: Sequence[Mapping[str, Any]] | None, *, system: System
) -> str:
    """What to say of a point that nothing holds.

    Args:
        rejected: all candidates by their reasons, as the answer has them.
        changes: those with which one holds, the first to be told; None where none was tried.
        system: of the request.
    """
    told = _reasons(rejected)
    if changes:
        return f"{told} What would do: {changes[0]['text']}"
    return " ".join(
        part for part in (told, _nearest(rejected, system), UNTRIED if changes is None else NOTHING) if part
    )


def _reasons(rejected: Sequence[Mapping[str, Any]]) -> str:
    """Counts of candidates by the first sentence of what stands against them, those that come nearest first."""
    count: dict[str, int] = {}
    told: dict[str, tuple[int, str]] = {}
    for each in rejected:
        reason = each["reason"]
        code = reason["code"]
        count[code] = count.get(code, 0) + len(each["products"])
        rank = 0 if code in _BY_LOAD or reason["kind"] == "violation" else 1 if reason["kind"] == "rejection" else 2
        sentence = str(_BY_LOAD.get(code, reason["text"])).partition(". ")[0].rstrip(".")
        told.setdefault(code, (rank, f"{sentence}."))
    ordered = sorted(count, key=lambda code: (told[code][0], -count[code]))
    listed = [f"{count[code]}: {told[code][1]}" for code in ordered[:_MOST_REASONS]]
    rest = sum(count[code] for code in ordered[_MOST_REASONS:])
    if rest:
        listed.append(f"{rest} for other reasons.")
    return " ".join([f"None of {sum(count.values())} products holds this point.", *listed])


def _nearest(rejected: Sequence[Mapping[str, Any]], system: System) -> str:
    """The candidate whose violation is the smallest share of its limit."""
    measured = [
        each for each in rejected if each["reason"]["kind"] == "violation" and each["reason"].get("limit", 0) > 0
    ]
    if not measured:
        return ""
    own = min(measured, key=lambda each: abs(each["reason"]["value"] / each["reason"]["limit"] - 1))
    reason, product = own["reason"], own["products"][0]
    side = "at least" if reason["value"] < reason["limit"] else "at most"
    unit = PRINTED[system].get(reason["quantity"], "")
    value, limit = (f"{reason[name]:.6g} {unit}".rstrip() for name in ("value", "limit"))
    sentence = reason["text"].rstrip(".")
    return f"Nearest comes {product}: {sentence[0].lower()}{sentence[1:]} ({value}, and {side} {limit} is wanted)."
