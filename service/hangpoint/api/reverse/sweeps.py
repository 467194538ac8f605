"""Sweeps: a value over a grid, every grid value a probe; and what is read off: where it passes and where that ends.

The code is not monotonic (reading 44), so all intervals of the grid that pass are reported and not one threshold. An
end between two neighbouring grid values is narrowed by dividing that step again and again, each time by probes.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.api.reverse.probes import Outcome, Probes, Sites, Situation, probe, probe_sites
from hangpoint.api.reverse.words import rounder
from hangpoint.core.quantity import Bools, Floats, Index

PARTS = 16
"""Parts that a step is divided into at a time."""

TOLERANCE = 1e-6
"""Share of a value that its end is narrowed to."""

_ROUNDS = 12

Make = Callable[[float], Any]
"""The item with a value; or a list of items of one member, which all have to pass."""


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """An end of an interval: the last value that passes, and the nearest that doesn't, with what becomes of each.

    At an end of the grid there is no value beyond.
    """

    passes: float
    outcome: Outcome
    beyond: float | None = None
    beyond_outcome: Outcome | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """Values that pass, from the lower end to the upper."""

    lower: End
    upper: End


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """Values over a grid with their probes, and the intervals that pass."""

    values: Floats
    probes: Probes | Sites
    intervals: tuple[Interval, ...]


def sweep(values: Floats, make: Make, situation: Situation, *, narrow: bool = True) -> Sweep:
    """Probe every value of a grid and find the intervals that pass.

    Args:
        values: (n,) rising.
        make: the item, or the items, with a value.
        situation: of the request.
        narrow: narrow the ends down; otherwise they are grid values, as of what comes in sizes.
    """
    probes = _probed([make(value) for value in values.tolist()], situation)
    first, last = _runs(probes.passed)
    ends = [_grid_end(values, probes, row, row - 1) for row in first.tolist()]
    ends += [_grid_end(values, probes, row, row + 1) for row in last.tolist()]
    if narrow:
        ends = narrowed(ends, [make] * len(ends), situation)
    half = len(first)
    intervals = tuple(Interval(lower=a, upper=b) for a, b in zip(ends[:half], ends[half:], strict=True))
    return Sweep(values=values, probes=probes, intervals=intervals)


def _probed(made: Sequence[Any], situation: Situation) -> Probes | Sites:
    return probe_sites(made, situation) if isinstance(made[0], list) else probe(made, situation)


def _runs(passed: Bools) -> tuple[Index, Index]:
    """First and last row of every run of values that pass."""
    step = np.diff(np.concatenate([[0], passed.astype(np.int8), [0]]))
    return np.flatnonzero(step > 0), np.flatnonzero(step < 0) - 1


def _grid_end(values: Floats, probes: Probes | Sites, row: int, beyond: int) -> End:
    own = End(passes=float(values[row]), outcome=probes.outcome(row))
    if not 0 <= beyond < len(values):
        return own
    return End(
        passes=own.passes,
        outcome=own.outcome,
        beyond=float(values[beyond]),
        beyond_outcome=probes.outcome(beyond),
    )


def narrowed(ends: Sequence[End], makes: Sequence[Make], situation: Situation) -> list[End]:
    """The ends with the step between what passes and what doesn't narrowed to `TOLERANCE`, all of them at once.

    Where a rounder number is left in a step it is tried as well, so that a limit of 4 in is told as 4 in.

    Args:
        ends: as the grid has them.
        makes: what makes the item of a value, of each end.
        situation: of the request.
    """
    found = list(ends)
    for _ in range(_ROUNDS):
        wide = [at for at, end in enumerate(found) if _is_wide(end)]
        if not wide:
            break
        steps = [_between(found[at]) for at in wide]
        items = [makes[at](value) for at, own in zip(wide, steps, strict=True) for value in own]
        probes = _probed(items, situation)
        for turn, (at, own) in enumerate(zip(wide, steps, strict=True)):
            found[at] = _narrower(found[at], own, probes, turn * len(own))
    return _rounded(found, makes, situation)


def _rounded(ends: Sequence[End], makes: Sequence[Make], situation: Situation) -> list[End]:
    """The ends at the rounder number within their step where there is one and it passes."""
    found = list(ends)
    near = {at: rounder(end.passes) for at, end in enumerate(found)}
    within = [at for at, end in enumerate(found) if _is_between(near[at], end)]
    if within:
        probes = _probed([makes[at](near[at]) for at in within], situation)
        for turn, at in enumerate(within):
            found[at] = _narrower(found[at], [near[at]], probes, turn)
    return found


def _is_between(value: float, end: End) -> bool:
    if end.beyond is None:
        return False
    low, high = sorted((end.passes, end.beyond))
    return low < value < high


def _is_wide(end: End) -> bool:
    return end.beyond is not None and abs(end.beyond - end.passes) > TOLERANCE * max(abs(end.passes), abs(end.beyond))


def _between(end: End) -> list[float]:
    beyond = end.passes if end.beyond is None else end.beyond
    return np.linspace(end.passes, beyond, PARTS + 1)[1:-1].tolist()


def _narrower(end: End, values: Sequence[float], probes: Probes | Sites, first: int) -> End:
    """The part of the step where the probes first don't pass."""
    passed = probes.passed[first : first + len(values)]
    count = len(values) if passed.all() else int(np.argmin(passed))
    passes, outcome = (end.passes, end.outcome) if not count else (values[count - 1], probes.outcome(first + count - 1))
    if count == len(values):
        return End(passes=passes, outcome=outcome, beyond=end.beyond, beyond_outcome=end.beyond_outcome)
    return End(passes=passes, outcome=outcome, beyond=values[count], beyond_outcome=probes.outcome(first + count))
