"""A sweep as the answer to a question for the largest or the least value."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked
from hangpoint.api.reverse.grids import GridValues
from hangpoint.api.reverse.merge_patch import difference
from hangpoint.api.reverse.sweeps import TOLERANCE, End, Interval, Sweep, sweep
from hangpoint.api.reverse.words import because, outcome_json, printed, violated, why
from hangpoint.core.vocabulary import Mode, Status
from hangpoint.report.printable import plain_number
from hangpoint.units import PRINTED

LEAST, LARGEST = "least", "largest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """A value that is sought.

    ``of`` names it in words, ``sense`` is `LEAST` or `LARGEST`, ``quantity`` a kind of quantity or ``factor``,
    ``make`` makes the item with a value, ``stated`` is that of the item. ``sizes``: it comes in the values of the grid
    only. ``note`` is a sentence more.
    """

    of: str
    sense: str
    quantity: str
    make: Callable[[float], Any]
    grid: GridValues
    stated: float | None = None
    sizes: bool = False
    by_engineer: bool = False
    note: str = ""


def answer(sought: Sought, asked: Asked) -> dict[str, Any]:
    """Sweep for a value and say what was found."""
    return swept_answer(sought, sweep(sought.grid.values, sought.make, asked.situation, narrow=not sought.sizes), asked)


def swept_answer(sought: Sought, found: Sweep, asked: Asked) -> dict[str, Any]:
    """What a sweep found as JSON."""
    unit = PRINTED[asked.system].get(sought.quantity, "")
    values = found.values
    made: dict[str, Any] = {
        "of": sought.of,
        "sense": sought.sense,
        "quantity": sought.quantity,
        "unit": unit,
        **({} if sought.stated is None or not np.isfinite(sought.stated) else {"stated": sought.stated}),
        "by_engineer": sought.by_engineer,
        "intervals": [_interval(each) for each in found.intervals],
        "grid": {
            "first": float(values[0]),
            "last": float(values[-1]),
            "count": len(values),
            "text": sought.grid.text,
        },
        "tolerance": 0.0 if sought.sizes else TOLERANCE,
        "table": _table(found),
    }
    if not found.intervals:
        return made | {
            "text": _with_note(f"Nothing on the grid passes for the {sought.of}{_never(found, unit)}", sought)
        }
    end = found.intervals[-1].upper if sought.sense == LARGEST else found.intervals[0].lower
    made |= {
        "value": end.passes,
        "text": _with_note(_text(sought, found, end, unit), sought),
        "at_limit": outcome_json(end.outcome),
    }
    item = sought.make(end.passes)
    if not isinstance(item, list):
        made["patch"] = difference(asked.item, item)
    if end.beyond is not None and end.beyond_outcome is not None:
        made["beyond"] = {"value": end.beyond, "outcome": outcome_json(end.beyond_outcome)}
    return made


def _never(found: Sweep, unit: str) -> str:
    """Why nothing passes: what stands against every value that is possible, else what does at the nearest."""
    outcomes = [found.probes.outcome(row) for row in range(len(found.values))]
    possible = [each for each in outcomes if each.status is not Status.INVALID]
    first = next(iter(possible), None)
    if first is not None:
        always = [each for each in first.violations if all(each in own.violations for own in possible)]
        if always:
            return f": whatever it is, {violated(always)}."
        if first.refusal is not None and len({each.refusal for each in possible}) == 1:
            return f": whatever it is, {why(first)}."
    row = _nearest_row(found)
    closest = f"{plain_number(found.values[row], 4)} {unit}".rstrip()
    return f". Nearest at {closest}: {why(outcomes[row])}."


def _with_note(text: str, sought: Sought) -> str:
    shown = "This is no change to build: the engineer would have to show it." if sought.by_engineer else ""
    return " ".join(part for part in (text, shown, sought.note) if part)


def _text(sought: Sought, found: Sweep, end: End, unit: str) -> str:
    past = "Above" if sought.sense == LARGEST else "Below"
    value = f"{printed(end.passes, up=sought.sense == LEAST)} {unit}".rstrip()
    if end.beyond is None or end.beyond_outcome is None:
        side = "end" if sought.sense == LARGEST else "first value"
        text = f"The {sought.of} passes to the {side} of the grid, {value}."
    else:
        text = f"{sought.sense.capitalize()} {sought.of}: {value}. {past} it, {why(end.beyond_outcome)}."
    if len(found.intervals) > 1:
        parts = " and ".join(_between(each, unit) for each in found.intervals)
        text += f" It is no single threshold: it passes {parts}, and not between."
    return text


def _between(interval: Interval, unit: str) -> str:
    low, high = printed(interval.lower.passes, up=True), printed(interval.upper.passes, up=False)
    return f"from {low} to {high} {unit}".rstrip()


def _interval(interval: Interval) -> dict[str, Any]:
    return {
        "from": interval.lower.passes,
        "to": interval.upper.passes,
        "from_is_limit": interval.lower.beyond is not None,
        "to_is_limit": interval.upper.beyond is not None,
    }


def _nearest_row(found: Sweep) -> int:
    """The row of least utilisation, the first where none has one."""
    known = np.where(np.isnan(found.probes.utilisation), np.inf, found.probes.utilisation)
    return int(np.argmin(known))


def _table(found: Sweep) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = []
    for row, value in enumerate(found.values.tolist()):
        outcome = found.probes.outcome(row)
        own: dict[str, Any] = {"value": value, "status": outcome.status}
        if outcome.utilisation is not None:
            own["utilisation"] = outcome.utilisation
        if outcome.governing is not None:
            mode: Mode = outcome.governing.mode
            own["mode"] = mode.value.code
        rows.append(own | {"because": because(outcome)})
    return rows
