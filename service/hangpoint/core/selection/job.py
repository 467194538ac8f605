"""The products of a whole job: every point held at least cost with few kinds, few bits, or one family.

An assignment with fixed openings, solved as a mixed-integer program by HiGHS. With what each anchor takes of the
objective given by its product alone, points that the same candidates hold are one, and a candidate that another
replaces everywhere at no more cost needs no variable; neither changes the optimum.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.selection.pairs import distinct
from hangpoint.core.selection.program import least_of

NO_HOLE = -1
HALF = 0.5


@frozen
class Limits:
    """At most so many kinds of product, bit diameters, families; None where there is no limit."""

    products: int | None = None
    bits: int | None = None
    families: int | None = None


@frozen
class Plan:
    """Candidate of every point, -1 at those that no candidate holds.

    ``cost`` is the sum of the objective; ``bound`` what no plan can be below, ``gap`` their relative difference.
    """

    candidate: Index
    cost: float
    bound: float
    gap: float


@frozen
class _Classes:
    """Points by the set of candidates that hold them: ``holds`` (classes, kept candidates), ``weight`` anchors."""

    holds: Bools
    weight: Floats
    of_point: Index
    kept: Index


def plan(
    holds: Bools,
    *,
    anchors: Floats,
    cost: Floats,
    order: Index,
    bit: Index,
    family: Index,
    limits: Limits,
    seconds: float,
) -> Plan | None:
    """The cheapest products that hold all points which any candidate holds; None if so few can't.

    Args:
        holds: (points, candidates).
        anchors: (points,) of each point.
        cost: (candidates,) of one anchor.
        order: (candidates,) from the best on: of equal cost the first is taken.
        bit: (candidates,) code of the diameter of the bit, `NO_HOLE` where nothing is drilled.
        family: (candidates,) code of the family.
        limits: on what is used.
        seconds: time limit of the solver.

    Raises:
        TimeoutError: no plan was found in time, and none was shown not to be.
    """
    classes = _classes(holds, anchors, cost=cost, order=order, bit=bit, family=family, limits=limits)
    candidate = np.full(len(holds), -1, dtype=np.intp)
    if not len(classes.weight):
        return Plan(candidate=candidate, cost=0.0, bound=0.0, gap=0.0)
    kept = classes.kept
    model = _Model(classes.holds, bit=bit[kept], family=family[kept], limits=limits)
    solved = model.solve(each=classes.weight[:, None] * cost[kept], opening=0.0, seconds=seconds)
    if solved is None:
        return None
    opened, bound = solved
    chosen = _cheapest(classes.holds & opened, rank=np.argsort(order)[kept])
    held = classes.of_point >= 0
    candidate[held] = kept[chosen[classes.of_point[held]]]
    total = float((classes.weight * cost[kept][chosen]).sum())
    return Plan(candidate=candidate, cost=total, bound=min(bound, total), gap=_gap(total, bound))


def _gap(total: float, bound: float) -> float:
    return 0.0 if total <= bound * (1 + 1e-9) else (total - bound) / total


def _classes(
    holds: Bools, anchors: Floats, *, cost: Floats, order: Index, bit: Index, family: Index, limits: Limits
) -> _Classes:
    held = np.flatnonzero(holds.any(axis=1))
    of_point = np.full(len(holds), -1, dtype=np.intp)
    first, of_point[held] = distinct([np.packbits(holds[held], axis=1).view(np.int8)], len(held))
    rows = holds[held[first]]
    weight: Floats = np.bincount(of_point[held], weights=anchors[held], minlength=len(rows)).astype(np.float64)
    groups = [bit if limits.bits is not None else None, family if limits.families is not None else None]
    kept = _undominated(rows, cost=cost, order=order, groups=[each for each in groups if each is not None])
    return _Classes(holds=rows[:, kept], weight=weight, of_point=of_point, kept=kept)


def _undominated(rows: Bools, *, cost: Floats, order: Index, groups: Sequence[Index]) -> Index:
    """Candidates that no other replaces: one that holds all that they do, costs no more, and is of their groups.

    Of equal ones the first in the order stays.
    """
    useful = order[np.any(rows, axis=0)[order]] if len(rows) else order[:0]
    if not len(useful):
        return useful
    own = rows[:, useful].astype(np.float64)
    missed = own.T @ (1.0 - own)
    covers = missed.T < 0.5
    cheaper = cost[useful][:, None] <= cost[useful][None, :]
    alike = np.ones(covers.shape, dtype=np.bool_)
    for group in groups:
        alike &= group[useful][:, None] == group[useful][None, :]
    replaces = covers & cheaper & alike
    rank = np.arange(len(useful))
    mutual = replaces & replaces.T
    beaten = (replaces & ~mutual).any(axis=0) | (mutual & (rank[:, None] < rank[None, :])).any(axis=0)
    return np.sort(useful[~beaten])


def _cheapest(holds: Bools, *, rank: Index) -> Index:
    """The candidate of least rank that holds each class."""
    return np.where(holds, rank[None, :], rank.max(initial=0) + 1).argmin(axis=1)


class _Model:
    """Variables: a share of each class on each candidate that holds it, candidates opened, groups of them used."""

    def __init__(self, holds: Bools, *, bit: Index, family: Index, limits: Limits) -> None:
        self._at, self._of = np.nonzero(holds)
        self._classes, self._count = holds.shape
        self._rows: list[tuple[Index, Index, Floats]] = []
        self._low: list[Floats] = []
        self._high: list[Floats] = []
        pairs = len(self._at)
        self._opened: Index = pairs + np.arange(self._count, dtype=np.intp)
        self.width = pairs + self._count
        each, one = np.arange(pairs), np.ones(pairs)
        self._constrain([(self._at, each, one)], self._classes, low=1.0, high=1.0)
        self._constrain([(each, each, one), (each, self._opened[self._of], -one)], pairs, high=0.0)
        if limits.products is not None:
            self._sum(self._opened, limits.products)
        for code, most in ((bit, limits.bits), (family, limits.families)):
            if most is not None:
                self._group(_group_codes(code), most)

    def _constrain(
        self, entries: Sequence[tuple[Index, Index, Floats]], number: int, *, high: float, low: float = -np.inf
    ) -> None:
        start = sum(map(len, self._low))
        self._rows += [(start + row, column, value) for row, column, value in entries]
        self._low.append(np.full(number, low))
        self._high.append(np.full(number, high))

    def _sum(self, columns: Index, most: float) -> None:
        self._constrain([(np.zeros(len(columns), dtype=np.intp), columns, np.ones(len(columns)))], 1, high=most)

    def _group(self, code: Index, most: int) -> None:
        own, size = np.flatnonzero(code >= 0), int(code.max(initial=-1)) + 1
        used = self.width + np.arange(size)
        self.width += size
        row, one = np.arange(len(own)), np.ones(len(own))
        self._constrain([(row, self._opened[own], one), (row, used[code[own]], -one)], len(own), high=0.0)
        self._sum(used, most)

    def solve(self, *, each: Floats, opening: float, seconds: float) -> tuple[Bools, float] | None:
        """Candidates that are opened, and the bound of the objective; None where nothing fits the limits.

        Args:
            each: (classes, candidates) what a class takes with a candidate.
            opening: what a candidate takes once.
            seconds: time limit.
        """
        rows, columns, values = (np.concatenate(part) for part in zip(*self._rows, strict=True))
        objective, integral = np.zeros((2, self.width))
        objective[: len(self._at)] = each[self._at, self._of]
        objective[self._opened] = opening
        integral[self._opened] = 1
        found = least_of(
            objective,
            integral=integral,
            rows=rows,
            columns=columns,
            values=values,
            low=np.concatenate(self._low),
            high=np.concatenate(self._high),
            seconds=seconds,
        )
        return None if found is None else (found.x[self._opened] > HALF, found.bound)


def fewest(holds: Bools, *, order: Index, bit: Index, family: Index, limits: Limits, seconds: float) -> int | None:
    """The least number of products that hold all points which any candidate holds; None if the other limits forbid it.

    Args:
        holds, order, bit, family, seconds: as `plan` takes them.
        limits: that of products is not read.

    Raises:
        TimeoutError: no plan was found in time.
    """
    limits, nothing = replace(limits, products=None), np.zeros(holds.shape[1])
    classes = _classes(holds, np.ones(len(holds)), cost=nothing, order=order, bit=bit, family=family, limits=limits)
    if not len(classes.weight):
        return 0
    kept = classes.kept
    model = _Model(classes.holds, bit=bit[kept], family=family[kept], limits=limits)
    solved = model.solve(each=np.zeros(classes.holds.shape), opening=1.0, seconds=seconds)
    return None if solved is None else int(solved[0].sum())


def _group_codes(code: Index) -> Index:
    """Codes numbered from 0; below 0 where there is none."""
    own = np.full(len(code), NO_HOLE, dtype=np.intp)
    has = code >= 0
    own[has] = np.unique(code[has], return_inverse=True)[1].reshape(int(has.sum()))
    return own
