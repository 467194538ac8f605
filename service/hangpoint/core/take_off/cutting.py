"""Cut lengths packed into bars of stock: as few bars as possible, and a bound that no plan can fall below.

A saw takes its kerf at every cut, so a piece and a kerf go into a bar and a kerf: the problem is bin packing with
many pieces of few lengths. First-fit decreasing (D. S. Johnson, 1973) plans the bars. Where it needs more of them than
the bound L2 of Martello and Toth (Discrete Applied Mathematics 28, 1990) and there are few lengths, an integer program
over all patterns (Gilmore and Gomory, 1961) decides how many are needed.

Lengths are whole nanometres, in which every 64th of an inch and every millimetre is exact.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import accumulate
from typing import Any

from hangpoint.core.frozen import frozen

FIRST_FIT_DECREASING, INTEGER_PROGRAM = "first_fit_decreasing", "integer_program"
MOST_LENGTHS = 12
MOST_PATTERNS = 3_000
"""Lengths and patterns up to which the integer program is asked."""

_MOST_NODES = 100
"""Of its search: a limit that counts no time, so that the same job has the same plan."""


@frozen
class CuttingPlan:
    """``patterns`` say how often bars are cut alike, and how many pieces of each length then are in one.

    ``lower_bound`` is the number of bars that no plan can fall below; where the plan needs no more, it is the best.
    """

    patterns: tuple[tuple[int, tuple[int, ...]], ...]
    bars: int
    lower_bound: int
    method: str


def cutting_plan(lengths: Sequence[int], counts: Sequence[int], *, stock: int, kerf: int) -> CuttingPlan:
    """Plan the bars.

    Args:
        lengths: of the pieces, falling, each once and none above ``stock``, nm.
        counts: of the pieces of each length, at least 1.
        stock: length of a bar, nm.
        kerf: that every cut takes, nm.

    Returns:
        The plan, its patterns in the order in which they are cut.
    """
    sizes, room = [length + kerf for length in lengths], stock + kerf
    bound = least_bars(sizes, counts, room)
    patterns = _first_fit(sizes, counts, room)
    bars = sum(times for times, _ in patterns)
    method = FIRST_FIT_DECREASING
    if bars > bound and len(sizes) <= MOST_LENGTHS:
        found = _by_program(sizes, counts, room)
        if found is not None:
            bound = sum(times for times, _ in found)
            if bound < bars:
                patterns, bars, method = found, bound, INTEGER_PROGRAM
    return CuttingPlan(patterns=tuple(patterns), bars=bars, lower_bound=bound, method=method)


def least_bars(sizes: Sequence[int], counts: Sequence[int], room: int) -> int:
    """The bound L2: pieces above half a bar have one each, and what they leave may not be enough for the smaller ones.

    Args:
        sizes: of the pieces, falling.
        counts: of each.
        room: of a bar.
    """
    number = [0, *accumulate(counts)]
    total = [0, *accumulate(size * count for size, count in zip(sizes, counts, strict=True))]
    negative = [-size for size in sizes]

    half = bisect_left(negative, -(room // 2))  # 2 size > room exactly where size > room // 2
    best = 0
    for least in {0, *(size for size in sizes if 2 * size <= room)}:
        alone = min(bisect_left(negative, least - room), half)
        small = bisect_right(negative, -least)
        free = (number[half] - number[alone]) * room - (total[half] - total[alone])
        over = max(0, total[small] - total[half] - free) if small > half else 0
        best = max(best, number[half] + -(-over // room))
    return best


def _first_fit(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[tuple[int, tuple[int, ...]]]:
    """First-fit decreasing, bar by bar: the largest piece that is left and fits, until none fits.

    Bars that come out alike are cut at once.
    """
    left = list(counts)
    rising = list(range(len(sizes) - 1, -1, -1))
    keys = [sizes[at] for at in rising]
    patterns: list[tuple[int, tuple[int, ...]]] = []
    while rising:
        pattern = [0] * len(sizes)
        free, upto = room, len(rising)
        while upto := bisect_right(keys, free, 0, upto):
            at = rising[upto - 1]
            pattern[at] = min(free // sizes[at], left[at])
            free -= pattern[at] * sizes[at]
            upto -= 1
        used = [at for at, number in enumerate(pattern) if number]
        times = min(left[at] // pattern[at] for at in used)
        for at in used:
            left[at] -= times * pattern[at]
            if not left[at]:
                place = rising.index(at)
                del rising[place], keys[place]
        patterns.append((times, tuple(pattern)))
    return patterns


def _by_program(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[tuple[int, tuple[int, ...]]] | None:
    """The fewest bars by an integer program over patterns; None where there are too many or the search is cut off."""
    import numpy as np
    from scipy import optimize  # pyright: ignore[reportMissingTypeStubs]

    patterns = _full_patterns(sizes, counts, room)
    if patterns is None:
        return None
    solver: Any = optimize
    found = solver.milp(
        np.ones(len(patterns)),
        constraints=solver.LinearConstraint(
            np.array(patterns, dtype=np.float64).T, lb=np.array(counts, dtype=np.float64)
        ),
        integrality=np.ones(len(patterns)),
        bounds=solver.Bounds(lb=0.0),
        options={"node_limit": _MOST_NODES, "mip_rel_gap": 0.0},
    )
    if found.status != 0:
        return None
    chosen = [round(times) for times in found.x.tolist()]
    return _without_surplus([(times, each) for times, each in zip(chosen, patterns, strict=True) if times], counts)


def _full_patterns(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[tuple[int, ...]] | None:
    """Every pattern into which no other piece fits; None where there are more than `MOST_PATTERNS`."""
    made: list[tuple[int, ...]] = []
    smallest = sizes[-1]
    stack: list[tuple[tuple[int, ...], int]] = [((), room)]
    while stack:
        pattern, free = stack.pop()
        at = len(pattern)
        if at == len(sizes):
            if free < smallest or pattern[-1] >= counts[-1]:
                made.append(pattern)
            if len(made) > MOST_PATTERNS:
                return None
            continue
        most = min(free // sizes[at], counts[at])
        numbers = range(most, most + 1) if at == len(sizes) - 1 else range(most + 1)
        stack.extend(((*pattern, number), free - number * sizes[at]) for number in numbers)
    return made


def _without_surplus(
    patterns: Sequence[tuple[int, tuple[int, ...]]], counts: Sequence[int]
) -> list[tuple[int, tuple[int, ...]]]:
    """The same bars without pieces that nobody asked for."""
    left = list(counts)
    made: dict[tuple[int, ...], int] = {}
    for times, pattern in patterns:
        while times:
            own = tuple(min(number, rest) for number, rest in zip(pattern, left, strict=True))
            alike = min([times, *(rest // number for number, rest in zip(own, left, strict=True) if number)])
            left = [rest - alike * number for number, rest in zip(own, left, strict=True)]
            made[own] = made.get(own, 0) + alike
            times -= alike
    return sorted(((times, pattern) for pattern, times in made.items()), key=lambda each: each[1], reverse=True)
