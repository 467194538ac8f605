"""What would let a point be held that nothing holds: changes one can build, each tried on the real check."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.expansion import expand
from hangpoint.core.hang_point.points import NO_ROD, Basis, Points
from hangpoint.core.hang_point.verdict import EXCEEDED
from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.selection.candidates import Candidates, Offer, Wishes
from hangpoint.core.selection.choice import Choice, Known, choose, order
from hangpoint.core.selection.pairs import NONE, PairChecks
from hangpoint.core.selection.places import LIMITS, least_distances, with_distances
from hangpoint.core.selection.traits import TraitColumn, trait_columns
from hangpoint.core.vocabulary.selection import Change, Rejection

SHARES = (3 / 4, 2 / 3, 1 / 2, 1 / 3, 1 / 4, 1 / 6, 1 / 8, 1 / 12, 1 / 16, 1 / 24)
"""Of the load that a point carries once hangers are closer or more."""

EDGE_DISTANCES = (2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 18.0, 24.0)
"""in, distances to the nearest edge that are tried."""

SAME_SIZE = 1e-6
_ROUNDING = 1e-6
"""Of utilisations of the same point under another load."""

_MOST_RODS = 4
_NO_WISHES = 4
"""Candidates that are told of with the wishes they want given up."""


@frozen
class FoundChange:
    """A change with which a candidate holds a situation.

    ``value`` is the share of the load, or the length in in; ``wishes`` are given up. ``utilisation`` is what is left.
    ``distances`` are columns of `Allowables` that have to be stated, each with its least value, in. ``own_rod`` says
    whether a rod of the candidate's thread would hold too, where that of the rod is given up.
    """

    change: Change
    candidate: int
    utilisation: float
    value: float = 0.0
    wishes: tuple[Rejection, ...] = ()
    distances: tuple[tuple[str, float], ...] = ()
    own_rod: bool = False


@frozen
class Question:
    """What was asked: the request, its candidates, and rejections beyond those of its wishes."""

    candidates: Candidates
    offer: Offer
    wishes: Wishes
    basis: Basis
    more: Sequence[TraitColumn] = ()

    def choose(
        self, points: Points, condition: Index, wishes: Wishes | None = None, known: Known | None = None
    ) -> Choice:
        """The candidates at some situations, by other wishes if any are given."""
        wishes = wishes or self.wishes
        return choose(points, condition, self.candidates, self.offer, wishes, self.basis, self.more, known)


@frozen
class Stated:
    """Checks of situations as they are stated: ``pair`` (situations, candidates) is the row of ``checks`` or `NONE`."""

    pair: Index
    checks: PairChecks

    def used(self, utilisation: Floats) -> Floats:
        """(situations, candidates) a utilisation of the checks; infinite where refused, 0 where nothing was checked."""
        used = np.zeros(self.pair.shape)
        checked = self.pair != NONE
        rows = self.pair[checked]
        used[checked] = np.where(self.checks.refusal[rows] == NONE, utilisation[rows], np.inf)
        return used


def changes(
    points: Points, condition: Index, asked: Question, *, stated: Stated, rod_fails: Bools
) -> list[list[FoundChange]]:
    """For each situation that nothing holds, the changes with which something does.

    Args:
        points: situations that nothing holds.
        condition: (situations,) of each.
        asked: the request.
        stated: what the choice says of them.
        rod_fails: (situations,) the rod does not hold its load.
    """
    found: list[list[FoundChange]] = [[] for _ in range(points.count)]
    hopeless: set[Change] = set()
    for change, value, varied in _variants(points, asked, rod_fails):
        if change in hopeless:
            continue
        open_at = [at for at, own in enumerate(found) if all(each.change is not change for each in own)]
        if not open_at:
            continue
        lost = _lost(points, stated, change, value, varied=varied, reserve=asked.wishes.reserve)[open_at]
        tried = asked.choose(expand(varied, np.array(open_at)), condition[open_at], known=Known(lost=lost))
        if not tried.checkable and change is not Change.LARGER_ROD:
            hopeless.add(change)  # neither loads nor edges are among what stands against every candidate
        for place, at in enumerate(open_at):
            best = first_held(tried, place, asked)
            if best is not None:
                candidate, utilisation = best
                found[at].append(
                    FoundChange(
                        change=change,
                        candidate=candidate,
                        utilisation=utilisation,
                        value=float(value[at]),
                        distances=least_distances(points, asked.offer, at, int(condition[at]), candidate),
                    )
                )
    given_up = _GivenUp(points, condition, asked)
    nothing_lost = np.zeros(stated.pair.shape, dtype=np.bool_)
    known = Known(lost=nothing_lost, pair=stated.pair, checks=stated.checks)
    unwanted = asked.choose(points, condition, wishes=without_wishes(asked.wishes), known=known)
    for own, wishes in zip(found, _wishes(unwanted, given_up), strict=True):
        own[:0] = wishes
    _last_resort(unwanted, asked, given_up, found)
    return [[_with_own_rod(own, unwanted, at, asked) for own in each] for at, each in enumerate(found)]


def _with_own_rod(found: FoundChange, unwanted: Choice, at: int, asked: Question) -> FoundChange:
    """A change that gives up the thread of the rod, with what the check says of a rod of the candidate's thread."""
    if Rejection.OTHER_THREAD not in found.wishes:
        return found
    row, own = np.array([at]), found.candidate
    points = lightened(expand(unwanted.points, row), found.value if found.change is Change.SHARE_LOAD else 1.0)
    points = _with_thread(points, float(asked.candidates.thread_d[own]))
    others = np.ones((1, asked.offer.count), dtype=np.bool_)
    others[0, own] = False
    wishes = without_wishes(asked.wishes)
    tried = asked.choose(points, unwanted.condition[row], wishes=wishes, known=Known(lost=others))
    return replace(found, own_rod=bool(tried.holds[0, own]))


def _with_thread(points: Points, d: float) -> Points:
    """The points with rods of the thread whose nominal diameter is nearest to ``d``, in."""
    columns = min(THREADS.values(), key=lambda own: abs(own.d - d))._asdict()
    filled = {name: np.full(points.count, value) for name, value in columns.items()}
    return replace(points, rods=replace(points.rods, **filled))


def _lost(points: Points, stated: Stated, change: Change, value: Floats, *, varied: Points, reserve: float) -> Bools:
    """(situations, candidates) that a change can't let hold, by what is used as stated.

    With a share of the load every force is that share of itself, and so is every utilisation but those of tension and
    shear together; not where the 250 lb of a sprinkler point stay. No edge has a part in the steel of an anchor and in
    its pullout, and a point that is as far from its edges already stays. What is refused depends on the signs and
    ratios of loads, and on no edge.
    """
    used = np.zeros(stated.pair.shape)
    if change is Change.SHARE_LOAD:
        ruled = points.hangs.sprinkler[:, None]
        used = np.where(ruled, 0.0, stated.used(stated.checks.by_load) * value[:, None])
    elif change is Change.MOVE:
        stays = (varied.bases.c_a == points.bases.c_a).all(axis=1)
        used = np.where((stated.pair != NONE) & stays[:, None], np.inf, stated.used(stated.checks.by_anchor))
    return used > EXCEEDED - reserve + _ROUNDING


def first_held(tried: Choice, at: int, asked: Question) -> tuple[int, float] | None:
    """The best candidate that holds a situation, and its utilisation; None if none does."""
    held = tried.holds[at]
    if not held.any():
        return None
    used = np.full(len(held), np.inf)
    used[held] = tried.checks.utilisation[tried.pair[at, held]]
    ranked = order(asked.candidates, asked.wishes.objective, used)
    candidate = int(ranked[held[ranked]][0])
    return candidate, float(used[candidate])


def _variants(points: Points, asked: Question, rod_fails: Bools) -> Iterator[tuple[Change, Floats, Points]]:
    """Varied situations, the smallest change of each kind first."""
    if points.allowables is not None and any(np.isnan(getattr(points.allowables, name)).any() for name in LIMITS):
        yield Change.STATE, np.zeros(points.count), with_distances(points)
    for share in SHARES:
        yield Change.SHARE_LOAD, np.full(points.count, share), lightened(points, share)
    near = np.isfinite(points.bases.c_a).any(axis=1)
    own = points.allowables
    enclosed = np.zeros((points.count, 1), dtype=np.bool_)  # open cells would move too
    if own is not None:
        enclosed = np.isfinite(own.open_cells).any(axis=1, keepdims=True)
    if near.any():
        for distance in EDGE_DISTANCES:
            moved = away_from_edges(points.bases.c_a, distance)
            bases = replace(points.bases, c_a=np.where(enclosed, points.bases.c_a, moved))
            yield Change.MOVE, np.full(points.count, distance), replace(points, bases=bases)
    if rod_fails.any():
        for step in range(1, _MOST_RODS + 1):
            rods = larger_rods(points, step)
            yield Change.LARGER_ROD, rods.rods.d, rods


def away_from_edges(c_a: Floats, distance: float) -> Floats:
    """(points, 4) edges of points moved so that none is nearer than ``distance``: what one side gains the other loses.

    A point stays where its member is too narrow for that along either axis.
    """
    near, far = c_a[:, 0::2], c_a[:, 1::2]
    width = near + far
    moved = np.empty_like(c_a)
    moved[:, 0::2] = np.where(near < distance, distance, np.where(far < distance, width - distance, near))
    moved[:, 1::2] = np.where(far < distance, distance, np.where(near < distance, width - distance, far))
    room = width.min(axis=1) >= 2 * distance * (1 - SAME_SIZE)
    return np.where(room[:, None], moved, c_a)


def lightened(points: Points, share: float) -> Points:
    """The points with a share of what hangs: spans and stated loads are that much smaller; 250 lb of a rule stay."""
    hangs = points.hangs
    scaled = ("dead", "contents", "live", "v_dead", "v_contents", "v_live", "m_dead", "m_contents", "m_live")
    loads = {name: getattr(hangs, name) * share for name in (*scaled, "transient", "earthquake")}
    given, apart = points.given, points.apart
    if apart is not None:
        apart = replace(apart, **{name: getattr(apart, name) * share for name in ("contents", "live", "transient")})
    return replace(
        points,
        apart=apart,
        hangs=replace(hangs, **loads),
        given=replace(given, **{name: getattr(given, name) * share for name in ("n", "v", "m", "n_e", "v_e", "m_e")}),
        runs=replace(points.runs, spans=points.runs.spans * share),
        loads=replace(points.loads, position=points.loads.position * share, weight=points.loads.weight * share),
    )


def larger_rods(points: Points, step: int) -> Points:
    """The points with rods so many sizes larger in the same kind of thread; the largest stays."""
    rods = points.rods
    unified, metric = (
        np.array([own for name, own in THREADS.items() if name.startswith("M") is kind]) for kind in (False, True)
    )
    is_metric = np.abs(rods.d[:, None] - unified[:, 0]).min(axis=1) > SAME_SIZE
    larger = np.where(is_metric[:, None], _larger(metric, rods.d, step), _larger(unified, rods.d, step))
    none = rods.rule == NO_ROD
    d, pitch, k_root, k_stress = np.where(none, [rods.d, rods.pitch, rods.k_root, rods.k_stress], larger.T)
    return replace(points, rods=replace(rods, d=d, pitch=pitch, k_root=k_root, k_stress=k_stress))


def _larger(threads: Floats, d: Floats, step: int) -> Floats:
    """Rows of a table of threads, rising by diameter, that are so many sizes above ``d``."""
    return threads[np.minimum(np.searchsorted(threads[:, 0], d - SAME_SIZE) + step, len(threads) - 1)]


def without_wishes(wishes: Wishes) -> Wishes:
    """Nothing wanted that a buyer could give up: exposure, vibration and concrete that is there stay."""
    return Wishes(
        objective=wishes.objective,
        reserve=0.0,
        stocked=np.ones_like(wishes.stocked),
        tools=np.ones_like(wishes.tools),
        post_installed=True if wishes.post_installed else None,
        trained=True,
        exposure=wishes.exposure,
        vibration=wishes.vibration,
    )


class _GivenUp:
    """Wishes that candidates of situations want given up."""

    def __init__(self, points: Points, condition: Index, asked: Question) -> None:
        fits = asked.offer.fits.reshape(-1, asked.offer.count)[condition]
        columns = trait_columns(points, asked.candidates, asked.wishes, fits=fits)
        shape = points.count, asked.offer.count
        self._holds = [
            (own.rejection, np.broadcast_to(own.holds, shape)) for own in columns if own.rejection.value.remedy
        ]
        self._most = EXCEEDED - asked.wishes.reserve
        self._rank = np.argsort(order(asked.candidates, asked.wishes.objective))

    def by_set(self, tried: Choice, place: int, at: int) -> list[tuple[tuple[Rejection, ...], int, float]]:
        """Sets of wishes with the best candidate of each and its utilisation, the fewest wishes first.

        Args:
            tried: a choice without wishes; the situation is its row ``place``.
            at: the situation among those of this.
        """
        found: dict[tuple[Rejection, ...], tuple[int, float]] = {}
        held = np.flatnonzero(tried.holds[place])
        for candidate in held[np.argsort(self._rank[held])].tolist():
            used = float(tried.checks.utilisation[tried.pair[place, candidate]])
            wishes = [rejection for rejection, holds in self._holds if holds[at, candidate]]
            if used > self._most:
                wishes.append(Rejection.RESERVE)
            found.setdefault(tuple(wishes), (candidate, used))
        by_number = sorted(found.items(), key=lambda own: len(own[0]))
        return [(wishes, *own) for wishes, own in by_number]


def _wishes(unwanted: Choice, given_up: _GivenUp) -> list[list[FoundChange]]:
    """Candidates that hold once wishes are given up: the best of each smallest set of wishes.

    Args:
        unwanted: the choice without wishes.
        given_up: wishes that they want given up.
    """
    found: list[list[FoundChange]] = []
    for row in range(unwanted.points.count):
        sets = given_up.by_set(unwanted, row, row)
        fewest = len(sets[0][0]) if sets else 0
        found.append(
            [
                FoundChange(change=Change.WISH, candidate=candidate, utilisation=used, wishes=wishes)
                for wishes, candidate, used in sets[:_NO_WISHES]
                if len(wishes) == fewest
            ]
        )
    return found


def _last_resort(unwanted: Choice, asked: Question, given_up: _GivenUp, found: list[list[FoundChange]]) -> None:
    """Where nothing has helped so far: a share of the load and wishes given up as well."""
    points, stated = unwanted.points, Stated(pair=unwanted.pair, checks=unwanted.checks)
    for share in SHARES:
        open_at = [at for at, own in enumerate(found) if not own]
        if not open_at:
            return
        varied, value = lightened(points, share), np.full(points.count, share)
        lost = _lost(points, stated, Change.SHARE_LOAD, value, varied=varied, reserve=0.0)[open_at]
        wishes = without_wishes(asked.wishes)
        rest = expand(varied, np.array(open_at))
        tried = asked.choose(rest, unwanted.condition[open_at], wishes=wishes, known=Known(lost=lost))
        if not tried.checkable:
            return
        for place, at in enumerate(open_at):
            for own, candidate, used in given_up.by_set(tried, place, at)[:1]:
                found[at].append(
                    FoundChange(
                        change=Change.SHARE_LOAD, candidate=candidate, utilisation=used, value=share, wishes=own
                    )
                )


def nearest_candidate(choice: Choice, at: int) -> int | None:
    """The candidate of least utilisation that neither refusal nor violation stands against; None without one."""
    pairs = np.flatnonzero(choice.pair[at] != NONE)
    checks, rows = choice.checks, choice.pair[at, pairs]
    sound = (checks.refusal[rows] == NONE) & (checks.violation[rows] == NONE) & (checks.mode[rows] != NONE)
    if not sound.any():
        return None
    return int(pairs[sound][checks.utilisation[rows[sound]].argmin()])
